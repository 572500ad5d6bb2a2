"""A trip under way: called home, a stop left out, or the stops to come in another order.

What was begun stays as it is written; the clock of the rest of that truck's day is set anew.
A truck between two places is reckoned to come back to the last one first, the longest it can
take.  The driver must be told: nobody else knows of it.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import islice, permutations
from typing import Final

from runplanner.daybook.trip import Call, CallKind, Shift, Trip
from runplanner.days import clock
from runplanner.outfit.yards import Yard
from runplanner.phrase import Part, Phrase, joined, phrase
from runplanner.scenario.changes.aboard import aboard
from runplanner.scenario.changes.clock import Rest, fits, unloads, yard_spans
from runplanner.scenario.changes.draft import Draft
from runplanner.scenario.changes.line import Line
from runplanner.scenario.changes.names import a_yard, helper_named
from runplanner.scenario.faults import Refusal

_OUT: Final = phrase("a truck that is out with a trip loaded")
MOST_ORDERED: Final = 5
"""With more stops to come no other order is looked for."""


@dataclass(frozen=True, slots=True)
class _Out:
    """A truck that is out: its day, the trip it is on, and how many calls of it have begun."""

    shift: Shift
    at: int
    begun: int

    @property
    def trip(self) -> Trip:
        """The trip under way."""
        return self.shift.trips[self.at]

    def to_come(self) -> tuple[Call, ...]:
        """Return the stops of the trip that have not begun."""
        return tuple(c for c in self.trip.calls[self.begun :] if c.kind is CallKind.YARD)

    def later_stops(self) -> tuple[Call, ...]:
        """The stops of trips it has not loaded for yet."""
        return tuple(call for trip in self.shift.trips[self.at + 1 :] for call in trip.yards())


def home(line: Line, draft: Draft) -> Draft:
    """Call a truck home: it unloads what it has, and goes out no more that day."""
    out = _truck(line, draft)
    return _told(draft, out, (), onward=False)


def skip(line: Line, draft: Draft) -> Draft:
    """Leave out a stop to come of a trip under way, or a later trip that goes there."""
    outs = _all_out(draft)
    ids = {call.yard for out in outs for call in (*out.to_come(), *out.later_stops())}
    if not ids:
        raise Refusal(
            phrase("a stop to come of a trip under way"),
            phrase("Nobody is out with stops to come."),
        )
    yard = a_yard(line, draft, [one for one in draft.outfit.yards if one.id in ids])
    for out in outs:
        if any(call.yard == yard.id for call in out.to_come()):
            rest = tuple(call for call in out.to_come() if call.yard != yard.id)
            return _told(draft, out, rest, onward=True)
    out = next(o for o in outs if any(call.yard == yard.id for call in o.later_stops()))
    return _called_off(draft, out, yard.id)


def _called_off(draft: Draft, out: _Out, yard: str) -> Draft:
    """Return the draft without the first later trip of a truck that goes to a yard."""
    trips = list(out.shift.trips)
    at = next(
        n for n, trip in enumerate(trips)
        if n > out.at and any(call.yard == yard for call in trip.yards())
    )  # fmt: skip
    gone = trips.pop(at)
    clockwork = Rest(draft.outfit, out.shift, out.at, out.begun, draft.now_min)
    if at < len(trips):
        calls = clockwork.waits(list(trips[at - 1].calls), trips[at].calls[0])
        trips[at - 1] = replace(trips[at - 1], calls=tuple(calls))
    shift = clockwork.ended(replace(out.shift, trips=tuple(trips)))
    stops = tuple((gone.id, call.yard) for call in gone.yards())
    return _with_shift(draft, out, shift, stops).noted(_words(draft, shift, (), stops))


def order(line: Line, draft: Draft) -> Draft:
    """Put the stops to come of a trip under way in another order; those not named follow."""
    out = _truck(line, draft)
    line.take(":")
    here = [draft.outfit.yard(call.yard) for call in out.to_come()]
    named: list[Yard] = [a_yard(line, draft, here)]
    while line.comma_before() and not line.done():
        named.append(a_yard(line, draft, here))
    wanted = list(dict.fromkeys(yard.id for yard in (*named, *here)))
    rest = sorted(out.to_come(), key=lambda call: wanted.index(call.yard))
    return _told(draft, out, tuple(rest), onward=True)


def _truck(line: Line, draft: Draft) -> _Out:
    kind, key = helper_named(line, draft)
    found = [out for out in _all_out(draft) if kind == "trucks" and out.shift.truck == key]
    if not found:
        raise Refusal(_OUT, phrase("Before it has loaded, say that it is out for the day."))
    return found[0]


def _all_out(draft: Draft) -> list[_Out]:
    """Return the trucks that are out and have loaded."""
    now, found = draft.now_min, []
    for shift in draft.driven():
        begun = [sum(call.start_min <= now for call in trip.calls) for trip in shift.trips]
        at = sum(count > 0 for count in begun) - 1
        if at >= 0 and now < shift.end_min:
            found.append(_Out(shift, at, begun[at]))
    return found


def _told(draft: Draft, out: _Out, rest: Sequence[Call], *, onward: bool) -> Draft:
    """Return the draft with the rest of a truck's day as it is told to drive it."""
    trip, left = out.trip, [call for call in out.to_come() if call not in rest]
    done = list(trip.calls[: out.begun])
    if not rest and not any(call.kind is CallKind.YARD for call in done):
        rest = [replace(left[0], actions=())]
    clockwork = Rest(draft.outfit, out.shift, out.at, out.begun, draft.now_min)
    calls = list(trip.calls)
    if done[-1].kind is not CallKind.UNLOAD:
        crew, stops = len(out.shift.crew), (*done, *rest)
        ways = [(call, clockwork.work_min(call) if call.actions else 0) for call in rest]
        ways += unloads(draft.outfit, trip, stops, crew)
        calls = clockwork.drive(ways, strict=onward)
    later = out.shift.trips[out.at + 1 :] if onward else ()
    if later:
        calls = clockwork.waits(calls, later[0].calls[0])
    new = replace(trip, calls=aboard(draft.outfit, trip, calls))
    fits(draft.outfit, trip, new, out.begun)
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


def _with_shift(draft: Draft, out: _Out, shift: Shift, gone: Sequence[tuple[str, str]]) -> Draft:
    """Return the draft with another day for a truck; stops that are gone are counted as such."""
    shifts = tuple(shift if one is out.shift else one for one in draft.plan.shifts)
    counted = tuple(dict.fromkeys((*draft.counted, *gone)))
    return replace(draft, plan=replace(draft.plan, shifts=shifts), counted=counted)


def advised(draft: Draft) -> Draft:
    """Return the draft with a note for each truck out whose next stops have come to be shut.

    The note gives the line to type: another order that fits, or else what to leave out.
    """
    for out, shut in _in_trouble(draft):
        lines, then = _advice(draft, out, shut)
        advice = joined(" ", _all([f"'{line}'" for line in lines]), then)
        draft = draft.noted(joined(": ", _trouble(draft, out, shut), advice))
    return draft


def rung(draft: Draft, tell: Callable[[Draft, str], Draft]) -> Draft:
    """Return the draft with each such truck told what the advice is, as if it had been typed.

    Where even that does not fit, the truck's day stays as it was, and the note says so.

    Args:
        draft: The campaign.
        tell: Puts one line in.
    """
    for out, shut in _in_trouble(draft):
        lines, _ = _advice(draft, out, shut)
        trouble = _trouble(draft, out, shut)
        try:
            new = draft.noted(
                phrase(
                    "{trouble}: ring the driver now ({names})",
                    trouble=trouble,
                    names=", ".join(lines),
                )
            )
            for line in lines:
                new = tell(new, line)
        except Refusal as no:
            new = draft.noted(
                phrase(
                    "{trouble}: nothing fits ({allowed}); ring the driver",
                    trouble=trouble,
                    allowed=no.allowed,
                )
            )
        draft = new
    return draft


def _in_trouble(draft: Draft) -> list[tuple[_Out, list[Call]]]:
    """Return each truck out with its stops to come whose hours are shut now."""
    found = []
    for out in _all_out(draft):
        stops = (*out.to_come(), *out.later_stops())
        shut = [call for call in stops if not _stands(draft, out.shift.day, call)]
        if shut:
            found.append((out, shut))
    return found


def _trouble(draft: Draft, out: _Out, shut: Sequence[Call]) -> Phrase:
    name = next(one.name for one in draft.outfit.trucks if one.id == out.shift.truck)
    where = ", ".join(draft.outfit.yard(call.yard).name for call in shut)
    return phrase("{name} is out, and hours are shut at {where}", name=name, where=where)


def _stands(draft: Draft, day: int, call: Call) -> bool:
    spans = yard_spans(draft.outfit, call, day)
    return any(s.start_min <= call.start_min and call.end_min <= s.end_min for s in spans)


def _advice(draft: Draft, out: _Out, shut: Sequence[Call]) -> tuple[list[str], Phrase]:
    """Return the lines to type that lose least, as far as some fit, and what they do."""
    stops, names = out.to_come(), {one.id: one.name for one in draft.outfit.yards}
    late = [f"skip {names[call.yard]}" for call in shut if call in out.later_stops()]
    shut = [call for call in shut if call in stops]
    if not shut:
        return late, phrase("calls that trip off")
    if len(stops) <= MOST_ORDERED:
        for way in islice(permutations(stops), 1, None):
            if _goes(draft, out, way):
                order_of = ", ".join(names[call.yard] for call in way)
                return [f"next {out.shift.truck}: {order_of}"], phrase("fits")
    open_still = tuple(call for call in stops if call not in shut)
    later = len(out.shift.trips) > out.at + 1
    if (open_still or (later and not late)) and _goes(draft, out, open_still):
        return [*(f"skip {names[call.yard]}" for call in shut), *late], phrase("fits")
    return [f"home {out.shift.truck}"], phrase("calls it home")


def _all(lines: Sequence[str]) -> Part:
    told: Part = lines[0]
    for line in lines[1:]:
        told = phrase("{first} and {last}", first=told, last=line)
    return told


def _goes(draft: Draft, out: _Out, rest: Sequence[Call]) -> bool:
    try:
        _told(draft, out, rest, onward=True)
    except Refusal:
        return False
    return True


def _words(
    draft: Draft, shift: Shift, calls: Sequence[Call], gone: Sequence[tuple[str, str]]
) -> Phrase:
    """Return what the driver must be told."""
    outfit = draft.outfit
    name = next(truck.name for truck in outfit.trucks if truck.id == shift.truck)
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
