"""A trip under way: called home, a stop left out or left, the stops to come in another order.

What was begun stays as it is written; the clock of the rest of that truck's day is set anew
(`day_anew`).  The driver must be told: nobody else knows of it.
"""

import re
from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import permutations
from typing import Final

from runplanner.changes.draft import Draft, Late
from runplanner.changes.road.against import out_of_order, sound_first
from runplanner.changes.road.day_anew import (
    called_off,
    gone_on,
    see_rest,
    shift_of,
    told_anew,
    without_job,
)
from runplanner.changes.road.out import Out, trucks_out
from runplanner.changes.road.ring_up import remarks
from runplanner.changes.road.trouble import (
    Trouble,
    quoted,
    said_of,
    skips,
    troubles,
    yard_names,
)
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import a_yard, helper_named, yards_called
from runplanner.changes.said.when import moment
from runplanner.changes.store.in_store import aboard_at_home, overdrawn
from runplanner.daybook.trip import Against, Call, Job
from runplanner.days import clock
from runplanner.outfit.yards import Yard
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.faults import Refusal

JOBS: Final = {
    "boards": (Job.BOARDS, phrase("boards")),
    **dict.fromkeys(("syrup", "feed"), (Job.FEED, phrase("syrup"))),
    "strips": (Job.STRIPS, phrase("strips")),
}
_ROUND: Final = re.compile(r"round ([0-9]+)", re.IGNORECASE)
_OUT: Final = phrase("a truck that is out with a trip loaded")
MOST_ORDERED: Final = 5
"""With more stops to come no other order is looked for."""


def home(line: Line, draft: Draft) -> Draft:
    """Call a truck home: it unloads what it has, and goes out no more that day."""
    out = _truck(line, draft)
    return told_anew(draft, out, (), onward=False)


def skip(line: Line, draft: Draft) -> Draft:
    """Leave out stops to come of trips under way, or later trips that go there.

    What is left out already may be named again.  Where a job is named first, as papers tell whoever
    is late, it alone is left out of stops to come of trips under way.

    Raises:
        Refusal: When a place is named that no truck is still to go to, or to do that at.
    """
    job = _job(line, draft)
    if job is not None:
        return _skip_job(line, draft, *job)
    ids = {call.yard for out in trucks_out(draft) for call in (*out.to_come(), *out.later_stops())}
    off = _off_already(draft)
    if not ids | off:
        raise Refusal(
            phrase("a stop to come of a trip under way"),
            phrase("Nobody is out with stops to come."),
        )
    among = [one for one in draft.outfit.yards if one.id in ids | off]
    named = [a_yard(line, draft, among)]
    while line.comma_before() and not line.done():
        named.append(a_yard(line, draft, among))
    _see_no_job(line, named)
    wanted = [yard for yard in dict.fromkeys(one.id for one in named) if yard not in off - ids]
    for out in trucks_out(draft):
        mine = [call.yard for call in out.to_come() if call.yard in wanted]
        if mine:
            rest = tuple(call for call in out.to_come() if call.yard not in mine)
            draft = told_anew(draft, out, rest, onward=True)
            wanted = [yard for yard in wanted if yard not in mine]
    for yard in wanted:
        draft = draft if yard in _off_already(draft) - off else _first_called_off(draft, yard)
    return draft


def _job(line: Line, draft: Draft) -> tuple[str, int] | None:
    """Read a job that papers tell who is late to leave, with its round; 0 where none is told.

    None where a yard comes next, or no job.
    """
    if Line(line.rest()).meant(yards_called(draft)):
        return None
    line.take("the")
    said = line.take(*JOBS)
    if not said:
        return None
    number = line.match(_ROUND) if JOBS[said][0] is Job.FEED else None
    return said, int(number[1]) if number else 0


def _see_no_job(line: Line, yards: Sequence[Yard]) -> None:
    """See that no job is told behind the stops: these would be left out whole.

    Raises:
        Refusal: When one is, with the line by which it alone is left out.
    """
    ahead = Line(line.rest().strip(":( )"))
    ahead.take("the")
    said = ahead.take(*JOBS)
    if said and (ahead.done() or not line.over()):
        such_as = f"skip {said} {', '.join(yard.name for yard in yards)}"
        allowed = phrase("a job before the stops at which it alone is left out")
        raise Refusal(allowed, phrase("Write {line}.", line=repr(such_as)))


def _skip_job(line: Line, draft: Draft, said: str, number: int) -> Draft:
    job, what = JOBS[said]
    named = True
    while named:
        stops = [(out, call) for out in trucks_out(draft) for call in out.to_come()
                 if any(one.job is job for one in call.actions)]  # fmt: skip
        if not stops:
            raise Refusal(
                phrase("a stop to come of a trip under way at which that is to be done"),
                phrase("What was left out of a stop that has begun is told as its count."),
            )
        yard = a_yard(line, draft, [draft.outfit.yard(call.yard) for _, call in stops])
        here = [stop for stop in stops if stop[1].yard == yard.id]
        out, call = next((one for one in here if number in _rounds(one[1])), here[0])
        if number and number not in _rounds(call):
            raise Refusal(
                phrase(
                    "the round of syrup that is planned at {name}: {rounds}",
                    name=yard.name, rounds=joined(", ", *_rounds(call)),
                ),
                phrase("Look up on the driver's paper what is to be left out."),
            )  # fmt: skip
        jobs = {one.job for one in call.actions}
        if job is Job.FEED and Job.TAKE_OFF in jobs:
            raise Refusal(
                phrase("syrup only where no colonies come off: these need it the same day"),
                phrase("Leave the whole stop out."),
            )
        draft = without_job(draft, out, call, job)
        if jobs - {job}:
            note = phrase(
                "{name}: without {what}; all else there as planned", name=yard.name, what=what
            )
            draft = draft.noted(note)
        named = line.comma_before() and not line.done()
    return draft


def _rounds(call: Call) -> tuple[int, ...]:
    return tuple(sorted({one.round for one in call.actions if one.job is Job.FEED}))


def _off_already(draft: Draft) -> set[str]:
    """Return the yards of stops that a line before this one has left out."""
    stops = {(trip.id, call.yard) for trip in draft.driven_trips() for call in trip.yards()}
    return {yard for trip, yard in draft.counted if (trip, yard) not in stops}


def _first_called_off(draft: Draft, yard: str) -> Draft:
    """Return the draft without the first later trip that goes to a yard."""
    outs = trucks_out(draft)
    out = next(o for o in outs if any(call.yard == yard for call in o.later_stops()))
    return called_off(draft, out, yard)


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
    return told_anew(draft, out, tuple(rest), onward=True)


def _see_health_order(draft: Draft, rest: Sequence[Call]) -> None:
    """See that a yard that is not sound comes last.

    Raises:
        Refusal: When others come after it.
    """
    for call in out_of_order(draft.outfit, rest):
        said = phrase("{where} last, for it is not sound", where=draft.outfit.yard(call.yard).name)
        raise Refusal(said, phrase("Another order, or leave it out."))


def left(line: Line, draft: Draft) -> Draft:
    """Set when a truck leaves a stop that it has begun; the rest of its day goes on from there.

    Stops that come to lie in hours that do not fit have their advice; whether the day holds is
    seen once all lines are in (`too_long`), for others may make it shorter.

    Raises:
        Refusal: When no truck is at such a stop or has just left it.
    """
    among = [draft.outfit.yard(c.yard) for out in trucks_out(draft) for c in out.trip.yards()]
    if not among:
        raise Refusal(_OUT, phrase("Once it is home no stop of it is told any more."))
    yard = a_yard(line, draft, among)
    line.take("at", "until", "till")
    minute = moment(line, draft)
    for out in trucks_out(draft):
        for at, call in reversed(list(enumerate(out.trip.calls, 1))):
            last = call.yard == yard.id and call.start_min < min(minute, draft.now_min + 1)
            if last and not any(_is_fact(draft, out, one) for one in out.trip.calls[at:]):
                words = f"left {yard.name} {clock(minute)}"
                draft = draft.once(f"left {out.shift.truck}", words, words)
                told = Late(out.trip.id, at, minute, words)
                draft = replace(draft, late=(*draft.late, told))
                return gone_on(draft, Out(out.shift, out.at, at), minute)
    raise Refusal(
        phrase("the last stop that a truck has begun, and a minute after it began"),
        phrase("Count what was done there; for stops to come, type 'skip' or 'next'."),
    )


def too_long(draft: Draft, begun: Draft) -> Iterator[tuple[str, Refusal]]:
    """Yield each line on when a truck left a stop after which its day does not hold, and why.

    With how late it may leave there for the day to hold, where it may.
    """
    for late in draft.late:
        try:
            see_rest(draft, late.trip, begun)
        except Refusal as no:
            yield late.words, _with_latest(draft, late, begun, no)


def _with_latest(draft: Draft, late: Late, begun: Draft, no: Refusal) -> Refusal:
    """Return a refusal with the latest minute of leaving a stop with which the day holds."""
    shift, at = shift_of(draft, late.trip)
    out = Out(shift, at, late.begun)

    def fails(minute: int) -> bool:
        try:
            see_rest(gone_on(draft, out, minute), late.trip, begun)
        except Refusal:
            return True
        return False

    sooner = range(out.trip.calls[late.begun - 1].start_min + 1, late.minute)
    holds = bisect_left(sooner, True, key=fails)
    if not holds:
        return no
    latest = clock(sooner[holds - 1])
    return Refusal(no.allowed, phrase("Left by {latest} the day holds. {cure}",
                                      latest=latest, cure=no.cure))  # fmt: skip


def _is_fact(draft: Draft, out: Out, call: Call) -> bool:
    """Tell whether a call has been counted, or had begun when the plan was made."""
    return draft.known(out.trip.id, call) or call.start_min <= draft.plan.now_min


def over(draft: Draft, trip: str, yard: str) -> Draft:
    """Return the draft with a stop at work, which has just been counted, over as of now."""
    for out in trucks_out(draft):
        call = out.under_way(draft.now_min)
        again = any(one.yard == yard for one in out.to_come())
        if call is None or (out.trip.id, call.yard) != (trip, yard) or again:
            continue
        if call.start_min < draft.now_min:
            return gone_on(draft, out, draft.now_min)
    return draft


def _truck(line: Line, draft: Draft) -> Out:
    kind, key = helper_named(line, draft)
    found = [out for out in trucks_out(draft) if kind == "trucks" and out.shift.truck == key]
    if not found:
        raise Refusal(_OUT, phrase("Before it has loaded, say that it is out for the day."))
    return found[0]


def advised(draft: Draft) -> Draft:
    """Return the draft with a note for each truck out whose day cannot be as planned any more.

    Stocks of which more was used than there was come first, and goods aboard trucks at home.

    Where stops to come are in the way, the note gives the line to type: another order that
    fits, or else what to leave out.
    """
    for note in (*overdrawn(draft), *aboard_at_home(draft)):
        draft = draft.noted(note)
    for trouble in troubles(draft):
        lines, then = _advice(draft, trouble)
        advice = joined(" ", quoted(lines), then)
        advice = joined("; ", advice, *_fewer(draft, trouble))
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
        return [other, *late], _fit([other, *late])
    later = bool(out.later_trips())
    for gone in filter(None, (bad, trouble.behind)):
        open_still = tuple(call for call in stops if call not in gone)
        if (open_still or (later and not late)) and _goes(draft, out, open_still):
            lines = skips(draft, out, gone)
            return lines, _fit(lines)
    return [f"home {out.shift.truck}"], phrase("calls it home")


def _fit(lines: Sequence[str]) -> Phrase:
    return phrase("fits") if len(lines) == 1 else phrase("fit")


def _fewer(draft: Draft, trouble: Trouble) -> Iterator[Phrase]:
    """Yield that fewer boxes are as good, where these are all that is in the way."""
    heavy = (*trouble.shut, *trouble.barred)
    trip, now_min = trouble.out.trip, draft.now_min
    few = [call for call in heavy if trip.takes_too_many(call, now_min)]
    some = all(call.boxes_limit > call.after.boxes - call.boxes() for call in few)
    if few and some and all(call.against == (Against.LOAD,) for call in heavy):
        yield phrase(
            "or fewer boxes come off at {where}: its paper, printed again, says when to stop",
            where=yard_names(draft, [call.yard for call in few]),
        )


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
        told_anew(draft, out, rest, onward=True)
    except Refusal:
        return False
    return True
