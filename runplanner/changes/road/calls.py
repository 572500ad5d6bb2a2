"""Calls of a truck that is out: in which hours they may lie, and how long they take."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

from runplanner.daybook.trip import Call, CallKind, Job, Shift, Trip
from runplanner.days import DAY_MIN, NEVER, Span
from runplanner.haulage.unloading import unloadings
from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import CLOSED
from runplanner.visits.hands import hands_s
from runplanner.visits.windows import windows


def call_spans(outfit: Outfit, call: Call, day: int) -> tuple[Span, ...]:
    """Return the hours of a day in which a call at a yard may lie."""
    jobs = {action.job for action in call.actions}
    return windows(outfit, outfit.yard(call.yard)).spans(
        opening=bool(jobs & {Job.BOARDS, Job.TAKE_OFF}),
        feeding=Job.FEED in jobs,
        strips=Job.STRIPS in jobs,
        dry=bool(jobs & {Job.WET_UP, Job.WET_DOWN, Job.FEEDERS}),
    )[day]


def gone_by(outfit: Outfit, call: Call) -> int:
    """Return the minute by which a truck has left a call, whatever it rests there."""
    if call.kind is not CallKind.YARD:
        return NEVER
    return outfit.yard(call.yard).access.open_on(call.start_min // DAY_MIN).end_min


def in_hours(outfit: Outfit, call: Call, from_min: int) -> bool:
    """Tell whether a stop lies in its hours, from ``from_min`` (of day 0) to its end, in one go.

    Nor may the gate shut while its crew still rests there.
    """
    spans = call_spans(outfit, call, call.start_min // DAY_MIN)
    inside = any(one.start_min <= from_min and call.end_min <= one.end_min for one in spans)
    return inside and call.leave_min <= gone_by(outfit, call)


def brought(stops: Iterable[Call]) -> tuple[int, int]:
    """Return the boxes that stops bring for the honey house, and those for the feed store."""
    actions = [action for call in stops for action in call.actions]
    wet = sum(action.wet for action in actions if action.job is Job.WET_DOWN)
    brood = sum(action.brood_boxes for action in actions)
    return sum(action.boxes for action in actions), brood + wet


def serving(outfit: Outfit, call: Call, boxes: int, others: int) -> list[Base]:
    """Return the bases that serve a call to load or unload, by the boxes aboard before.

    Args:
        outfit: The facts.
        call: The call.
        boxes: Honey boxes.
        others: Brood boxes and wet boxes.
    """
    house, store = outfit.honey_house.base, outfit.feed_store
    honey = boxes > 0 and call.kind is CallKind.UNLOAD and call.place == house.place
    return [house] * honey + [store] * (others > 0 or not honey)


def settled_min(outfit: Outfit, call: Call) -> int:
    """Return the minute from which a call may end so that the night after a take-off is settled."""
    if all(action.job is not Job.TAKE_OFF for action in call.actions):
        return 0
    return windows(outfit, outfit.yard(call.yard)).settled_from_min[call.start_min // DAY_MIN]


def given_min(shift: Shift, call: Call) -> int:
    """Return the minutes that a plan gives a call, the breaks in it left out."""
    breaks = sum(
        max(0, min(one.end_min, call.end_min) - max(one.start_min, call.start_min))
        for one in shift.breaks
    )
    return call.end_min - call.start_min - breaks


def set_up_min(outfit: Outfit, yard_id: str) -> int:
    """Return the minutes that a stop takes whatever is done; washing down counts with them."""
    return outfit.pace.fixed_min(closed=outfit.yard(yard_id).health in CLOSED)


def went_on(shift: Shift, call: Call) -> bool:
    """Tell whether a call was to follow another at its yard, which set up for both.

    Where that has no minutes any more, this one has been given them.
    """
    pairs = (pair for trip in shift.trips for pair in pairwise(trip.calls))
    return any(
        one == call and one.goes_on(before) and before.start_min < before.end_min
        for before, one in pairs
    )


def washed_min(outfit: Outfit, shift: Shift, call: Call) -> int:
    """Return the minutes that a call takes at a closed yard that is fed; 0 at all others."""
    if not call.actions or not call.yard or outfit.yard(call.yard).health not in CLOSED:
        return 0
    seconds = hands_s(outfit, call, {Job.FEED, Job.STRIPS, Job.BLOCK})
    fixed = 0 if went_on(shift, call) else set_up_min(outfit, call.yard)
    return fixed - (-seconds // (60 * len(shift.crew)))


def work_min(outfit: Outfit, shift: Shift, call: Call) -> int:
    """Return the minutes of a call, as planned but for the breaks in it; time to wash down."""
    return max(given_min(shift, call), washed_min(outfit, shift, call))


def unloads(
    outfit: Outfit, trip: Trip, stops: Sequence[Call], crew: int
) -> tuple[tuple[Call, int], ...]:
    """Return the unloading of a trip that made ``stops``, and its minutes: honey comes first."""
    house, store = outfit.honey_house.base.place, outfit.feed_store.place
    planned = {call.place: call for call in trip.calls if call.kind is CallKind.UNLOAD}
    back = any(one.boards_off or one.feeders_off for call in stops for one in call.actions)
    ways = unloadings(*brought(stops), kit=back and store in planned, apart=house != store)
    any_one = next(iter(planned.values()))
    return tuple(
        (
            replace(planned.get(place, any_one), place=place),
            outfit.pace.unloading_min(one.boxes, crew),
        )
        for one in ways
        for place in [house if one.house else store]
    )
