"""A truck that leaves a stop at another minute than planned, and whether its day still holds."""

from bisect import bisect_left
from collections.abc import Iterator
from dataclasses import replace
from operator import itemgetter

from runplanner.changes.draft import Draft, Late
from runplanner.changes.road.calls import unloads
from runplanner.changes.road.day_anew import gone_on, see_rest, shift_of, told_anew
from runplanner.changes.road.out import Out, trips_begun, trucks_out
from runplanner.daybook.trip import Action, Call, CallKind, Trip
from runplanner.days import clock
from runplanner.outfit.yards import Yard
from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal


def left_at(draft: Draft, yard: Yard, minute: int) -> Draft:
    """Return the draft with the truck that is at a yard, or has just left it, leaving at a minute.

    Whether its day holds is seen once all lines are in (`too_long`).

    Raises:
        Refusal: When no truck is at such a stop or has just left it.
    """
    here = [
        (call.start_min, out, at)
        for out in trips_begun(draft)
        for at, call in enumerate(out.trip.calls, 1)
        if call.yard == yard.id and call.start_min < min(minute, draft.now_min + 1)
        and not any(_is_fact(draft, out.trip, one) for one in out.trip.calls[at:])
        and not any(_is_fact(draft, trip, one) for trip in out.later_trips() for one in trip.calls)
    ]  # fmt: skip
    if here:
        # Of two trucks that have been there, the one that came last.
        _, out, at = max(here, key=itemgetter(0))
        words = f"left {yard.name} {clock(minute)}"
        draft = draft.once(f"left {out.shift.truck}", words, words)
        draft = replace(draft, late=(*draft.late, Late(out.trip.id, at, minute, words)))
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


def _is_fact(draft: Draft, trip: Trip, call: Call) -> bool:
    """Tell whether a call of a trip has been counted, or its truck was called back after it."""
    return draft.known(trip.id, call) or call.turned_min > 0


def over(draft: Draft, before: Draft, trip: str, yard: str) -> Draft:
    """Return the draft with a stop that has just been counted over as of now, if it is at work.

    Where it had been counted otherwise ``before`` the rest of the day went by that, and is told
    anew as well; so it is where a first count changes at which places the trip unloads.
    """
    for out in trucks_out(draft):
        if out.trip.id != trip or any(one.yard == yard for one in out.to_come()):
            continue
        call, last = out.under_way(draft.now_min), out.trip.calls[out.begun - 1]
        if call is not None and call.yard == yard:
            return _over_now(draft, out) if call.start_min < draft.now_min else draft
        was = before.driven_trip(trip)
        if last.kind is CallKind.YARD and _differs(draft, before, out, was, yard):
            return _put_right(draft, out, last, call)
    return draft


def _over_now(draft: Draft, out: Out) -> Draft:
    """Return the draft with the stop at work over as of now; where the day then breaks laws, not.

    So it may where nothing came off and the truck unloads somewhere else, far from home.
    """
    told = gone_on(draft, out, draft.now_min)
    try:
        see_rest(told, out.trip.id, draft)
    except Refusal:
        return draft
    return told


def _differs(draft: Draft, before: Draft, out: Out, was: Trip, yard: str) -> bool:
    """Tell whether a count of a stop that is over bears on the rest of the day."""
    old, new = ([one for one in trip.yards() if one.yard == yard] for trip in (was, out.trip))
    if any(before.known(was.id, one) for one in old):
        return [_told(one) for one in old] != [_told(one) for one in new]
    crew = len(out.shift.crew)
    planned, now = (
        [call.place for call, _ in unloads(draft.outfit, trip, trip.yards(), crew)]
        for trip in (was, out.trip)
    )
    return planned != now


def _told(call: Call) -> tuple[Action, ...]:
    """Return what was counted at a stop, also where counts elsewhere took from it since."""
    return call.actions if call.counted is None else call.counted


def _put_right(draft: Draft, out: Out, last: Call, at_work: Call | None) -> Draft:
    """Return the draft with the rest of a day by what is now known; as it is if it is that already.

    So too where it does not hold: then nobody is told another day than the one driven by.
    """
    if at_work is None:
        told = gone_on(draft, out, last.leave_min)
    else:
        told = told_anew(draft, out, out.to_come(), onward=True, strict=False)
    shift, _ = shift_of(told, out.trip.id)
    if shift == out.shift:
        return draft
    try:
        see_rest(told, out.trip.id, draft)
    except Refusal:
        return draft
    return told
