"""A trip under way: called home, a stop left out, or the stops to come in another order.

What was begun stays as it is written; the clock of the rest of that truck's day is set anew.
A truck between two places is reckoned to come back to the last one first, the longest it can
take.  The driver must be told: nobody else knows of it.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import permutations
from typing import Final

from runplanner.daybook.trip import Call, CallKind, Job, Shift, Spare, Trip
from runplanner.days import clock
from runplanner.outfit.yards import Yard
from runplanner.phrase import Part, Phrase, joined, phrase
from runplanner.scenario.changes.aboard import aboard
from runplanner.scenario.changes.against import out_of_order, sound_first
from runplanner.scenario.changes.clock import Rest, unloads
from runplanner.scenario.changes.draft import Draft
from runplanner.scenario.changes.in_store import overdrawn
from runplanner.scenario.changes.line import Line
from runplanner.scenario.changes.loads import loaded, overloads
from runplanner.scenario.changes.names import a_yard, helper_named
from runplanner.scenario.changes.out import Out, trucks_out
from runplanner.scenario.changes.ring_up import remarks
from runplanner.scenario.changes.trouble import Trouble, quoted, said_of, skips, troubles
from runplanner.scenario.faults import Refusal

_OUT: Final = phrase("a truck that is out with a trip loaded")
MOST_ORDERED: Final = 5
"""With more stops to come no other order is looked for."""


def home(line: Line, draft: Draft) -> Draft:
    """Call a truck home: it unloads what it has, and goes out no more that day."""
    out = _truck(line, draft)
    return _told(draft, out, (), onward=False)


def skip(line: Line, draft: Draft) -> Draft:
    """Leave out stops to come of trips under way, or later trips that go there.

    What is left out already may be named again.

    Raises:
        Refusal: When a place is named that no truck is still to go to.
    """
    ids = {call.yard for out in trucks_out(draft) for call in (*out.to_come(), *out.later_stops())}
    off = _off_already(draft)
    if not ids | off:
        raise Refusal(
            phrase("a stop to come of a trip under way"),
            phrase("Nobody is out with stops to come."),
        )
    among = [one for one in draft.outfit.yards if one.id in ids | off]
    named = [a_yard(line, draft, among).id]
    while line.comma_before() and not line.done():
        named.append(a_yard(line, draft, among).id)
    wanted = [yard for yard in dict.fromkeys(named) if yard not in off - ids]
    for out in trucks_out(draft):
        mine = [call.yard for call in out.to_come() if call.yard in wanted]
        if mine:
            rest = tuple(call for call in out.to_come() if call.yard not in mine)
            draft = _told(draft, out, rest, onward=True)
            wanted = [yard for yard in wanted if yard not in mine]
    for yard in wanted:
        draft = draft if yard in _off_already(draft) - off else _first_called_off(draft, yard)
    return draft


def _off_already(draft: Draft) -> set[str]:
    """Return the yards of stops that a line before this one has left out."""
    stops = {(trip.id, call.yard) for trip in draft.driven_trips() for call in trip.yards()}
    return {yard for trip, yard in draft.counted if (trip, yard) not in stops}


def _first_called_off(draft: Draft, yard: str) -> Draft:
    """Return the draft without the first later trip that goes to a yard."""
    outs = trucks_out(draft)
    out = next(o for o in outs if any(call.yard == yard for call in o.later_stops()))
    return _called_off(draft, out, yard)


def _called_off(draft: Draft, out: Out, yard: str) -> Draft:
    """Return the draft without the first later trip of a truck that goes to a yard."""
    trips = list(out.shift.trips)
    at = next(
        n for n, trip in enumerate(trips)
        if n > out.at and any(call.yard == yard for call in trip.yards())
    )  # fmt: skip
    gone = trips.pop(at)
    clockwork = Rest(draft.outfit, out.shift, out.at, out.begun, draft.now_min)
    if at < len(trips):
        calls, trips[at] = clockwork.waits(trips[at - 1].calls, trips[at])
        trips[at - 1] = replace(trips[at - 1], calls=calls)
    shift = clockwork.ended(replace(out.shift, trips=tuple(trips)))
    stops = tuple((gone.id, call.yard) for call in gone.yards())
    return _with_shift(draft, out, shift, stops).noted(_words(draft, shift, (), stops))


def order(line: Line, draft: Draft) -> Draft:
    """Put the stops to come of a trip under way in another order; those not named follow.

    Raises:
        Refusal: When it names no truck that is out, other yards, or yards that are not sound
            before others.
    """
    out = _truck(line, draft)
    line.take(":")
    here = [draft.outfit.yard(call.yard) for call in out.to_come()]
    named: list[Yard] = [a_yard(line, draft, here)]
    while line.comma_before() and not line.done():
        named.append(a_yard(line, draft, here))
    wanted = list(dict.fromkeys(yard.id for yard in (*named, *here)))
    rest = sorted(out.to_come(), key=lambda call: wanted.index(call.yard))
    _see_health_order(draft, rest)
    return _told(draft, out, tuple(rest), onward=True)


def _see_health_order(draft: Draft, rest: Sequence[Call]) -> None:
    """See that a yard that is not sound comes last.

    Raises:
        Refusal: When others come after it.
    """
    for call in out_of_order(draft.outfit, rest):
        said = phrase("{where} last, for it is not sound", where=draft.outfit.yard(call.yard).name)
        raise Refusal(said, phrase("Another order, or leave it out."))


def _truck(line: Line, draft: Draft) -> Out:
    kind, key = helper_named(line, draft)
    found = [out for out in trucks_out(draft) if kind == "trucks" and out.shift.truck == key]
    if not found:
        raise Refusal(_OUT, phrase("Before it has loaded, say that it is out for the day."))
    return found[0]


def _told(draft: Draft, out: Out, rest: Sequence[Call], *, onward: bool) -> Draft:
    """Return the draft with the rest of a truck's day as it is told to drive it."""
    trip, left = out.trip, [call for call in out.to_come() if call not in rest]
    done = list(trip.calls[: out.begun])
    if not rest and not any(call.kind is CallKind.YARD for call in done):
        rest = [replace(left[0], actions=(), planned=())]
    clockwork = Rest(draft.outfit, out.shift, out.at, out.begun, draft.now_min)
    calls: Sequence[Call] = trip.calls
    if done[-1].kind is not CallKind.UNLOAD:
        crew, stops = len(out.shift.crew), (*done, *rest)
        ways = [(call, clockwork.work_min(call) if call.actions else 0) for call in rest]
        ways += unloads(draft.outfit, trip, stops, crew)
        calls = clockwork.drive(ways, strict=onward)
    later = out.shift.trips[out.at + 1 :] if onward else ()
    if later:
        calls, following = clockwork.waits(calls, later[0])
        later = (following, *later[1:])
    loads = loaded(draft.outfit, out.shift, trip) if left else trip.left
    new = replace(trip, calls=aboard(draft.outfit, out.shift, trip, calls), left=loads,
                  left_strips=(*trip.left_strips, *_strips_of(draft, left)))  # fmt: skip
    if onward:
        _see_load(draft, out, new)
    shift = clockwork.ended(replace(
        out.shift, trips=(*out.shift.trips[: out.at], new, *later)
    ))  # fmt: skip
    gone = tuple((trip.id, call.yard) for call in left)
    gone += tuple(
        (one.id, call.yard)
        for one in out.shift.trips[out.at + 1 :] if not onward
        for call in one.yards()
    )  # fmt: skip
    told = _with_shift(draft, out, shift, gone)
    return told.noted(_words(draft, shift, new.calls[out.begun :], gone))


def _strips_of(draft: Draft, calls: Sequence[Call]) -> Iterator[Spare]:
    """Yield the strips for stops that are left out."""
    for call in calls:
        substance = draft.outfit.strips_at(draft.outfit.yard(call.yard)).substance
        actions = call.planned or call.actions
        yield from (Spare(substance, one.pieces) for one in actions if one.job is Job.STRIPS)


def _see_load(draft: Draft, out: Out, new: Trip) -> None:
    """See that nothing is too much aboard, with what is not used up still on the truck.

    Raises:
        Refusal: When something would be.
    """
    was_g = loaded(draft.outfit, out.shift, out.trip).load_g
    for over in overloads(draft.outfit, out.shift, new, out.begun, was_g).values():
        allowed = phrase("a load within all limits, not {over}", over=over)
        raise Refusal(allowed, phrase("Another order, or call the truck home."))


def _with_shift(draft: Draft, out: Out, shift: Shift, gone: Sequence[tuple[str, str]]) -> Draft:
    """Return the draft with another day for a truck; stops that are gone are counted as such."""
    shifts = tuple(shift if one is out.shift else one for one in draft.plan.shifts)
    counted = tuple(dict.fromkeys((*draft.counted, *gone)))
    return replace(draft, plan=replace(draft.plan, shifts=shifts), counted=counted)


def advised(draft: Draft) -> Draft:
    """Return the draft with a note for each truck out whose day cannot be as planned any more.

    Stocks of which more was used than there was come first.

    Where stops to come are in the way, the note gives the line to type: another order that
    fits, or else what to leave out.
    """
    for note in overdrawn(draft):
        draft = draft.noted(note)
    for trouble in troubles(draft):
        lines, then = _advice(draft, trouble)
        advice = joined(" ", quoted(lines), then)
        draft = draft.noted(joined(": ", said_of(draft, trouble), advice))
    for remark in remarks(draft):
        draft = draft.noted(remark)
    return draft


def rung(draft: Draft, tell: Callable[[Draft, str], Draft]) -> Draft:
    """Return the draft with each such truck told what the advice is, as if it had been typed.

    Where even that does not fit, the truck's day stays as it was, and the note says so.

    Args:
        draft: The campaign.
        tell: Puts one line in.
    """
    for trouble in troubles(draft):
        lines, _ = _advice(draft, trouble)
        said = said_of(draft, trouble)
        try:
            new = draft.noted(
                phrase(
                    "{trouble}: ring the driver now ({names})",
                    trouble=said,
                    names=", ".join(lines),
                )
            )
            for line in lines:
                new = tell(new, line)
        except Refusal as no:
            new = draft.noted(
                phrase(
                    "{trouble}: nothing fits ({allowed}); ring the driver",
                    trouble=said,
                    allowed=no.allowed,
                )
            )
        draft = new
    return draft


def _advice(draft: Draft, trouble: Trouble) -> tuple[list[str], Phrase]:
    """Return the lines to type that lose least, as far as some fit, and what they do."""
    out, stops = trouble.out, trouble.out.to_come()
    bad = (*trouble.shut, *trouble.barred)
    late = skips(draft, out, [call for call in bad if call not in stops])
    if not any(call in stops for call in bad):
        one = len(late) == 1
        return late, phrase("calls that trip off") if one else phrase("call those trips off")
    other = (
        None
        if any(call in stops for call in trouble.barred)
        else _other_order(draft, out, washes=trouble.washes)
    )
    if other is not None:
        return [other, *late], phrase("fits")
    later = bool(out.later_trips())
    for gone in filter(None, (bad, trouble.behind)):
        open_still = tuple(call for call in stops if call not in gone)
        if (open_still or (later and not late)) and _goes(draft, out, open_still):
            return skips(draft, out, gone), phrase("fits")
    return [f"home {out.shift.truck}"], phrase("calls it home")


def _other_order(draft: Draft, out: Out, *, washes: bool) -> str | None:
    """Return the line for another order of the stops to come that fits, if there is one."""
    stops = out.to_come()
    ways = [tuple(sound_first(draft.outfit, stops))]
    ways += permutations(stops) if len(stops) <= MOST_ORDERED else []
    # The same order again gives time to wash down where that lacks.
    for way in ways:
        if (way != stops or washes) and _goes(draft, out, way):
            order_of = ", ".join(draft.outfit.yard(call.yard).name for call in way)
            return f"next {out.shift.truck}: {order_of}"
    return None


def _goes(draft: Draft, out: Out, rest: Sequence[Call]) -> bool:
    try:
        _see_health_order(draft, rest)
        _told(draft, out, rest, onward=True)
    except Refusal:
        return False
    return True


def _words(
    draft: Draft, shift: Shift, calls: Sequence[Call], gone: Sequence[tuple[str, str]]
) -> Phrase:
    """Return what the driver must be told."""
    outfit = draft.outfit
    name = outfit.truck(shift.truck).name
    way: list[Part] = [
        f"{outfit.yard(call.yard).name if call.yard else outfit.places[call.place].name} "
        f"{clock(call.arrive_min)}"
        for call in calls
    ]
    way.append(phrase("home {time}", time=clock(shift.end_min)))
    told = phrase("tell {truck}: {way}", truck=name, way=joined(", ", *way))
    if not gone:
        return told
    left = ", ".join(outfit.yard(yard).name for _, yard in gone)
    return phrase("{told}; left out: {yards}", told=told, yards=left)
