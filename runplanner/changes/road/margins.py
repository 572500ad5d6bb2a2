"""What a driver who is out can still go by: loads, limits and latest times of calls still on.

Counts, other orders, disease and shut hours change them; what still holds stays as it was printed.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import product
from typing import Final

from runplanner.changes.cargo.aboard import aboard
from runplanner.changes.cargo.loads import as_loaded, boxes_limits, loaded
from runplanner.changes.draft import Draft
from runplanner.changes.road.against import against, base_shut, overloaded
from runplanner.changes.road.calls import call_spans, in_hours, settled_min, work_min
from runplanner.changes.road.clock import Rest
from runplanner.changes.road.out import Out, trucks_leaving, trucks_out
from runplanner.daybook.trip import Against, Call, CallKind, Job, Shift, Trip
from runplanner.days import DAY_MIN, Span, meet
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import CLOSED
from runplanner.scenario.faults import Refusal

_AT_CLOSED: Final = frozenset({Job.FEED, Job.STRIPS, Job.BLOCK})
_STEP_MIN: Final = 15
"""How far apart minutes are tried from the latest down; breaks make some hold that lie higher."""

_New = Callable[[Trip, int], Call]
"""A call of a trip, by its number, as it now is."""


def outs(draft: Draft) -> list[Out]:
    """Return the trucks that have left home and are not back."""
    return [*trucks_out(draft), *trucks_leaving(draft)]


def loaded_anew(draft: Draft) -> Draft:
    """Return the draft with what is aboard, and boxes to stop at, for calls still on.

    Trips that have loaded more than they use up say with how much they left, those that are over
    as well.
    """
    for out in outs(draft):
        draft, shift = _still_on(draft, out.shift, partial(_carried, draft.outfit, out.shift))
        limited = tuple(_limited(draft, shift, trip) for trip in shift.trips)
        draft = _with_shift(draft, shift, replace(shift, trips=limited))
    for shift in draft.driven():
        trips = tuple(_with_unused(draft, shift, trip) for trip in shift.trips)
        draft = _with_shift(draft, shift, replace(shift, trips=trips))
    return draft


def _with_unused(draft: Draft, shift: Shift, trip: Trip) -> Trip:
    """Return a trip with what it left with, where that is more than its calls come to.

    Once a count is put right it need not be; what it had for stops left out since stays known.
    """
    if trip.left is None and not any(call.planned for call in trip.calls):
        return trip
    start = trip.calls[0]
    left = loaded(draft.outfit, shift, trip)
    unused = start.start_min <= draft.now_min and left.load_g > start.after.load_g
    return replace(trip, left=left if unused or left is trip.left else None)


def _carried(outfit: Outfit, shift: Shift, trip: Trip, at: int) -> Call:
    return aboard(outfit, shift, trip, trip.calls)[at]


def _limited(draft: Draft, shift: Shift, trip: Trip) -> Trip:
    first = sum(not call.still_on(draft.now_min) for call in trip.calls)
    was = as_loaded(draft.outfit, shift, trip, draft.now_min)
    limits = boxes_limits(draft.outfit, shift, trip, first, was)
    still_on = zip(trip.calls[first:], limits, strict=True)
    told = tuple(_with_limit(call, limit) for call, limit in still_on)
    return replace(trip, calls=(*trip.calls[:first], *told))


def _with_limit(call: Call, limit: int) -> Call:
    """Return a call with boxes to stop at; of one that takes some the planned number is kept."""
    takes, was = any(one.boxes for one in (*call.actions, *call.planned)), call.planned_limit()
    return replace(call, boxes_limit=limit, limit_was=was if takes and was != limit else None)


def timed_anew(draft: Draft, begun: Draft) -> Draft:
    """Return the draft with latest times of calls still on brought forward, where they must be.

    Days that nothing has changed since ``begun`` keep theirs: a plan may know better ways to rest.
    """
    before = {(one.day, one.truck): one for one in begun.plan.shifts}
    for out in outs(draft):
        was = before.get((out.shift.day, out.shift.truck))
        held = was and _bearing(begun.outfit, was, draft.now_min)
        if held != _bearing(draft.outfit, out.shift, draft.now_min):
            draft, _ = _still_on(draft, out.shift, partial(_timed, draft.outfit, out.shift))
    return draft


def _bearing(outfit: Outfit, shift: Shift, now_min: int) -> tuple[object, ...]:
    """Return all that latest times of a day hang on from now on."""
    calls = [call for trip in shift.trips for call in trip.calls]
    return (
        shift.start_min, shift.end_min, shift.breaks,
        tuple((one.place, one.arrive_min, one.start_min, one.leave_min, one.actions)
              for one in calls),
        tuple(_hours(outfit, shift, one) for one in calls if one.still_on(now_min)),
        outfit.hours.end_min,
    )  # fmt: skip


def _hours(outfit: Outfit, shift: Shift, call: Call) -> tuple[object, ...]:
    """Return the hours that a call still on lies in up to its latest minute, or may not lie in.

    What is shut later does not touch it.
    """
    lies = (Span(call.start_min, call.latest_leave_min),)
    if call.kind is not CallKind.YARD:
        return meet(outfit.honey_house.full, lies)
    return (
        meet(call_spans(outfit, call, shift.day), lies),
        max(call.start_min, settled_min(outfit, call)),
        outfit.yard(call.yard).health in CLOSED,
    )


def _timed(outfit: Outfit, shift: Shift, trip: Trip, at: int) -> Call:
    return replace(trip.calls[at], latest_leave_min=_latest(outfit, shift, trip, at))


def marked(draft: Draft) -> Draft:
    """Return the draft with what stands against calls to come, as its user is told.

    Against one at work only its load, by which its boxes to stop at are.
    """
    for out in outs(draft):
        told = partial(_told, draft, out, against(draft, out))
        draft, _ = _still_on(draft, out.shift, told)
    return draft


def _told(
    draft: Draft, out: Out, found: Mapping[Call, tuple[Against, ...]], trip: Trip, at: int
) -> Call:
    call = trip.calls[at]
    if draft.begun(call):
        heavy = call in overloaded(draft, out, trip)
        return replace(call, against=(Against.LOAD,) if heavy else ())
    whys = found.get(call, ())
    if call.kind is not CallKind.YARD and base_shut(draft.outfit, trip, at):
        whys = (Against.HOURS,)
    return replace(call, against=whys)


def _still_on(draft: Draft, shift: Shift, new: _New) -> tuple[Draft, Shift]:
    """Return the draft, and a truck's day, with calls still on put through ``new``."""
    trips = tuple(
        replace(
            trip,
            calls=tuple(
                new(trip, at) if call.still_on(draft.now_min) else call
                for at, call in enumerate(trip.calls)
            ),
        )
        for trip in shift.trips
    )
    told = replace(shift, trips=trips)
    return _with_shift(draft, shift, told), told


def _with_shift(draft: Draft, shift: Shift, told: Shift) -> Draft:
    shifts = tuple(told if one is shift else one for one in draft.plan.shifts)
    return replace(draft, plan=replace(draft.plan, shifts=shifts))


def _latest(outfit: Outfit, shift: Shift, trip: Trip, at: int) -> int:
    """Return the latest minute of leaving a call, no later than it was, with which the day holds.

    Where not even leaving as planned does, that is it.  Where hours are the cause it stays as it
    was: they stand against the call (`marked`), and may be open again.
    """
    call = trip.calls[at]
    low, high = call.leave_min, call.latest_leave_min
    if low >= high or _holds(outfit, shift, trip, at, high) or _shut(outfit, shift, trip, at):
        return high
    holds = partial(_holds, outfit, shift, trip, at)
    quarter = next(filter(holds, range(high, low, -_STEP_MIN)), low)
    return next(filter(holds, range(min(high, quarter + _STEP_MIN - 1), quarter, -1)), quarter)


def _holds(outfit: Outfit, shift: Shift, trip: Trip, at: int, leave_min: int) -> bool:
    """Tell whether the rest of a day can be driven when a call is left at a minute, breaks anyhow.

    Those that fall due in the call itself lie behind its planned leaving.
    Calls after it are left no later than they might be before: that is how late their chains bear.
    """
    call, number = trip.calls[at], shift.trips.index(trip)
    later = [
        (one, _work_min(outfit, shift, before, one))
        for trip_on, first in ((trip, at + 1), *((t, 0) for t in shift.trips[number + 1 :]))
        for before, one in _following(trip_on, first)
    ]
    rest = replace(trip, calls=(*trip.calls[: at + 1], *(one for one, _ in later)))
    day = replace(shift, trips=(*shift.trips[:number], rest))
    return any(
        _driven_on(Rest(outfit, day, number, at + 1, call.leave_min, lambda one: one.start_min,
                        laws, in_work=in_work), later, leave_min)
        for in_work, laws in product((False, True), outfit.hours.ways_to_rest())
    )  # fmt: skip


def _driven_on(clockwork: Rest, later: Sequence[tuple[Call, int]], leave_min: int) -> bool:
    """Tell whether a day holds when its last call begun is left at a minute, and not before that.

    All later calls, each with its minutes, are driven as told.
    """
    outfit, at = clockwork.outfit, clockwork.begun - 1
    try:
        day = clockwork.begun_with(clockwork.over_at(leave_min, whole=False))
        rest = day.trips[clockwork.at]
        if rest.calls[at].leave_min > leave_min:
            return False
        if later:
            rest = replace(rest, calls=tuple(clockwork.drive(later, strict=True)))
        clockwork.ended(replace(day, trips=(*day.trips[:-1], rest)))
    except Refusal:
        return False
    if not clockwork.rested_enough(rest.calls, sorted(clockwork.breaks)):
        return False
    told = zip(rest.calls[at + 1 :], later, strict=True)
    if any(new.leave_min > old.latest_leave_min for new, (old, _) in told):
        return False
    return all(_open(outfit, rest, number) for number in range(at, len(rest.calls)))


def _open(outfit: Outfit, trip: Trip, at: int) -> bool:
    """Tell whether a call lies in its hours, from its start to its leaving."""
    call = trip.calls[at]
    if call.kind is not CallKind.YARD:
        return not base_shut(outfit, trip, at)
    return in_hours(outfit, call, call.start_min)


def _shut(outfit: Outfit, shift: Shift, trip: Trip, at: int) -> bool:
    """Tell whether a call lies outside its hours, or one after it for the rest of its day."""
    number = shift.trips.index(trip)
    later = [(trip, n) for n in range(at + 1, len(trip.calls))]
    later += [(one, n) for one in shift.trips[number + 1 :] for n in range(len(one.calls))]
    return not _open(outfit, trip, at) or any(_shut_for_good(outfit, *one) for one in later)


def _shut_for_good(outfit: Outfit, trip: Trip, at: int) -> bool:
    """Tell whether no minute of its day from its start on lies in a call's hours."""
    call = trip.calls[at]
    day, begins = divmod(call.start_min, DAY_MIN)
    opens = [one.end_min for one in outfit.honey_house.full]
    if call.kind is CallKind.YARD:
        opens = [one.start_min for one in call_spans(outfit, call, day)]

    def shut(minute: int) -> bool:
        moved = replace(call, start_min=minute, end_min=minute + 1, leave_min=minute + 1)
        calls = (*trip.calls[:at], moved, *trip.calls[at + 1 :])
        return not _open(outfit, replace(trip, calls=calls), at)

    later = (one for one in opens if begins < one - day * DAY_MIN < DAY_MIN)
    return all(shut(minute) for minute in (call.start_min, *later))


def _following(trip: Trip, first: int) -> list[tuple[Call, Call]]:
    """Return the calls of a trip from one on, each with the call before it."""
    return [(trip.calls[max(0, at - 1)], trip.calls[at]) for at in range(first, len(trip.calls))]


def _work_min(outfit: Outfit, shift: Shift, before: Call, call: Call) -> int:
    """Return the minutes of a call; unloading takes as long as the boxes that are aboard.

    Other work than a closed yard may have was planned while it was open, without time to wash.
    """
    if call.kind is not CallKind.UNLOAD:
        closed = call.yard and outfit.yard(call.yard).health in CLOSED
        jobs = {one.job for one in call.actions}
        unwashed = closed and not jobs <= _AT_CLOSED
        return work_min(outfit, shift, call) + (outfit.pace.wash_min if unwashed else 0)
    was, now = before.after, call.after
    boxes = was.boxes + was.brood_boxes + was.wet - now.boxes - now.brood_boxes - now.wet
    return outfit.pace.unloading_min(boxes, len(shift.crew))
