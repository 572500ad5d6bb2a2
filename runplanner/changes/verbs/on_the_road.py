"""Lines to a truck that is out: called home, a stop left out or left, stops in another order.

What was begun stays as it is written; the clock of the rest of that truck's day is set anew
(`day_anew`).  The driver must be told: nobody else knows of it.
"""

import re
from collections.abc import Sequence
from difflib import get_close_matches
from typing import Final

from runplanner.changes.draft import Draft
from runplanner.changes.road.day_anew import called_off, told_anew, without_job
from runplanner.changes.road.day_limits import see_health_order
from runplanner.changes.road.leaving import left_at
from runplanner.changes.road.out import Out, trips_begun, trucks_out
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import a_yard, helper_named, names_a_yard, yards_called
from runplanner.changes.said.when import moment
from runplanner.daybook.trip import Call, Job
from runplanner.outfit.yards import Yard
from runplanner.phrase import joined, phrase
from runplanner.scenario.faults import Refusal

JOBS: Final = {
    "boards": (Job.BOARDS, phrase("boards")),
    **dict.fromkeys(("syrup", "feed"), (Job.FEED, phrase("syrup"))),
    "strips": (Job.STRIPS, phrase("strips")),
}
_ROUND: Final = re.compile(r"round ([0-9]+)", re.IGNORECASE)
_OUT: Final = phrase("a truck that is out with a trip loaded")


def home(line: Line, draft: Draft) -> Draft:
    """Call a truck home: it unloads what it has, and goes out no more that day.

    Where one only is out it need not be named.
    """
    alone = trucks_out(draft)
    out = alone[0] if line.over() and len(alone) == 1 else _truck(line, draft)
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
    while line.comma_before() and not line.done() and _yard_next(line, draft):
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


def _yard_next(line: Line, draft: Draft) -> bool:
    """Tell whether a yard comes next, or nearly one; else what follows a comma is a reason."""
    names = [word for one in draft.outfit.yards for word in (one.name, one.id)]
    said = [" ".join(line.rest().split()[:count]).strip(",;: ") for count in (1, 2, 3)]
    near = (get_close_matches(one.casefold(), map(str.casefold, names), 1, 0.6) for one in said)
    return names_a_yard(line, draft) or any(near)


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
    if not here:
        later = bool(out.later_trips())
        raise Refusal(
            phrase("a truck with stops of its trip to come"),
            phrase("Its next trip takes another order once it has loaded for that.") if later
            else phrase("Leave the line out: all stops of its day have begun."),
        )  # fmt: skip
    named: list[Yard] = [a_yard(line, draft, here)]
    while line.comma_before() and not line.done():
        named.append(a_yard(line, draft, here))
    wanted = list(dict.fromkeys(yard.id for yard in (*named, *here)))
    rest = sorted(out.to_come(), key=lambda call: wanted.index(call.yard))
    see_health_order(draft, rest)
    return told_anew(draft, out, tuple(rest), onward=True)


def left(line: Line, draft: Draft) -> Draft:
    """Set when a truck leaves a stop that it has begun; the rest of its day goes on from there.

    Stops that come to lie in hours that do not fit have their advice; whether the day holds is
    seen once all lines are in (`too_long`), for others may make it shorter.

    Raises:
        Refusal: When no truck is at such a stop or has just left it.
    """
    among = [draft.outfit.yard(c.yard) for out in trips_begun(draft) for c in out.trip.yards()]
    if not among:
        raise Refusal(_OUT, phrase("Once its day is over no stop of it is told any more."))
    yard = a_yard(line, draft, among)
    line.take("at", "until", "till")
    minute = moment(line, draft)
    return left_at(draft, yard, minute)


def _truck(line: Line, draft: Draft) -> Out:
    kind, key = helper_named(line, draft)
    found = [out for out in trucks_out(draft) if kind == "trucks" and out.shift.truck == key]
    if not found:
        raise Refusal(_OUT, phrase("Before it has loaded, say that it is out for the day."))
    return found[0]
