"""Two calls at one yard with no drive between are one stop to whoever drives it.

The planner keeps apart what it cannot do in one visit, such as a second fondant block beside
a take-off.  The plan keeps both calls; papers that number stops say them as one, in order.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import reduce
from itertools import takewhile

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import by_stop, stops_at
from runplanner.daybook.trip import Action, Call, CallKind, Job, Shift, Trip
from runplanner.haulage.lots import small
from runplanner.outfit.once import once
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.stop.unloading import unloads_at


@once
def as_driven(plan: Plan) -> Plan:
    """Return ``plan`` with calls that are one stop put together; the same where there are none."""
    shifts = tuple(shift_as_driven(plan.outfit, shift) for shift in plan.shifts)
    return plan if shifts == plan.shifts else replace(plan, shifts=shifts)


def shift_as_driven(outfit: Outfit, shift: Shift) -> Shift:
    """Return ``shift`` with the stops of all its trips put together."""
    trips = tuple(trip_as_driven(outfit, trip) for trip in shift.trips)
    return shift if trips == shift.trips else replace(shift, trips=trips)


def trip_as_driven(outfit: Outfit, trip: Trip) -> Trip:
    """Return ``trip`` with calls that are one stop put together.

    What is unused stays aboard to its end, and is in each load; boards that lack are none aboard.
    Where the trip ends elsewhere than at the feed store, what goes back there rides on: it is
    aboard after the last call too.
    """
    calls = map(_no_fewer_than_none, _with_unused(outfit, trip))
    whole = tuple(reduce(_together, parts) for parts in by_stop(calls))
    return trip if whole == trip.calls else replace(trip, calls=whole)


def _no_fewer_than_none(call: Call) -> Call:
    """Return a call, left with no boards where counts make them fewer."""
    return replace(call, after=replace(call.after, boards=0)) if call.after.boards < 0 else call


def _riding_on(outfit: Outfit, trip: Trip) -> tuple[Call, ...]:
    """Return the calls, the last with boards and feeders that go on to the store from there."""
    *calls, before, last = trip.calls
    kit = small(
        outfit.kit, 0, before.after.boards - last.after.boards,
        before.after.feeders - last.after.feeders,
    )  # fmt: skip
    after = replace(
        last.after,
        boards=before.after.boards,
        feeders=before.after.feeders,
        load_g=last.after.load_g + sum(lot.number * lot.each_g for lot in kit),
        places=last.after.places + sum(-(-lot.number // lot.per_place) for lot in kit),
    )
    return (*calls, before, replace(last, after=after))


def _with_unused(outfit: Outfit, trip: Trip) -> Iterator[Call]:
    left, start = trip.left, trip.calls[0].after
    ends = trip.calls[-1].kind is CallKind.UNLOAD
    goes_on = ends and not unloads_at(trip, outfit.feed_store.place)
    calls = _riding_on(outfit, trip) if goes_on else trip.calls
    for call in calls:
        if left is None or not trip.unused_g() or (call is calls[-1] and not goes_on):
            yield call
            continue
        after = call.after
        yield replace(call, after=replace(
            after,
            ml=after.ml + max(0, left.ml - start.ml),
            blocks=after.blocks + max(0, left.blocks - start.blocks),
            strips=after.strips + max(0, left.strips - start.strips),
            feeders=after.feeders + max(0, left.feeders - start.feeders),
            wet=after.wet + max(0, left.wet - start.wet),
            load_g=after.load_g + trip.unused_g(),
        ))  # fmt: skip


def _together(one: Call, other: Call) -> Call:
    """Return both calls as one: from coming to the first to leaving the second.

    Boxes are loaded under the limit of the last call that loads some, which counts all aboard.
    The second is left no later than the work in it lasts from when the first must be over.
    """
    in_time = one.latest_leave_min + other.leave_min - one.leave_min
    limits = [call.boxes_limit for call in (one, other) if call.takes_boxes()]
    planned = (*(one.planned or one.actions), *(other.planned or other.actions))
    return replace(
        other,
        arrive_min=one.arrive_min,
        start_min=one.start_min,
        latest_leave_min=max(other.leave_min, min(other.latest_leave_min, in_time)),
        boxes_limit=limits[-1] if limits else other.boxes_limit,
        # Copies: each part is an action of its own, even where both say the same.
        actions=(*one.actions, *(replace(action) for action in other.actions)),
        planned=planned if one.planned or other.planned else (),
    )


def further_block(call: Call, action: Action) -> bool:
    """Tell whether ``action`` puts blocks where an earlier part of the same stop put some.

    Blocks after one more take-off are for the colonies that came off with it.
    """
    if action.job is not Job.BLOCK:
        return False
    before = takewhile(lambda one: one is not action, call.actions)
    jobs = [one.job for one in before if one.job in {Job.TAKE_OFF, Job.BLOCK}]
    return jobs[-1:] == [Job.BLOCK]


def parts_together(plan: Plan, call: Call) -> Call:
    """Return a stop with parts put together that are one piece of work to whoever does it.

    Two lots taken off one after the other, each colony with as many blocks, are one lot; so are
    all boards that are put on.
    Blocks that follow each other are one part on the same colonies: where each time all get
    some that are off and not fed.
    """
    told: list[Action] = []
    for action in _lots_together(call.actions):
        before = told[-1] if told else None
        if before is not None and _again(before, action) and _all_wait(plan, call, told):
            told[-1] = replace(before, pieces=before.pieces + action.pieces)
        else:
            told.append(action)
    return call if len(told) == len(call.actions) else replace(call, actions=tuple(told))


def _lots_together(actions: Iterable[Action]) -> list[Action]:
    told: list[Action] = []
    for action in actions:
        laid = [at for at, one in enumerate(told) if one.job is action.job is Job.BOARDS]
        if laid:
            told[laid[0]] = _sum(told[laid[0]], action)
            continue
        told.append(action)
        if _two_lots(told[-4:]):
            told[-4:] = [_sum(told[-4], told[-2]), _sum(told[-3], told[-1])]
    return told


def _two_lots(parts: Sequence[Action]) -> bool:
    """Tell whether ``parts`` are a lot with its blocks, and one more done the same way."""
    if [one.job for one in parts] != [Job.TAKE_OFF, Job.BLOCK] * 2:
        return False
    off, block, next_off, next_block = parts
    alike = off.way is next_off.way and off.colonies == block.colonies
    whole = alike and next_off.colonies == next_block.colonies
    return whole and block.pieces * next_block.colonies == next_block.pieces * block.colonies


def _sum(one: Action, other: Action) -> Action:
    return replace(
        one,
        colonies=one.colonies + other.colonies,
        boxes=one.boxes + other.boxes,
        brood_boxes=one.brood_boxes + other.brood_boxes,
        pieces=one.pieces + other.pieces,
        boards_off=one.boards_off + other.boards_off,
    )


def _again(before: Action, action: Action) -> bool:
    both_blocks = before.job is action.job is Job.BLOCK
    return both_blocks and before.colonies == action.colonies


def _all_wait(plan: Plan, call: Call, told: Sequence[Action]) -> bool:
    """Tell whether the blocks at the end of ``told`` are for all that are off and not fed."""
    earlier = (
        action
        for stop in stops_at(plan, call.yard)
        if stop.call.start_min < call.start_min
        for action in stop.call.actions
    )
    waits = sum(_waiting(action) for action in (*earlier, *told))
    return told[-1].colonies == waits


def _waiting(action: Action) -> int:
    """Return how many colonies more wait for syrup after a job, or fewer."""
    if action.job is Job.TAKE_OFF:
        return action.colonies
    return -action.colonies if action.job is Job.FEED and action.round == 1 else 0
