"""What has come to stand against stops of trucks that are out: hours, health, loads, stores."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from runplanner.changes.cargo.loads import as_loaded, overloads
from runplanner.changes.draft import Draft
from runplanner.changes.road.calls import (
    given_min,
    in_hours,
    serving,
    settled_min,
    washed_min,
)
from runplanner.changes.road.out import Out
from runplanner.changes.store.in_store import short_loads
from runplanner.daybook.trip import Against, Call, CallKind, Job, Trip
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import CLOSED, Health, Yard
from runplanner.phrase import Phrase
from runplanner.visits.stop import first_at_last_yard

_FEEDING: Final = {Job.FEED, Job.STRIPS, Job.BLOCK}
"""What a yard under suspicion or at a standstill may be given where that is agreed."""
WAITS: Final = {Against.ORDER, Against.WASH}
"""What can be put right once a trip has loaded."""


def against(draft: Draft, out: Out) -> Mapping[Call, tuple[Against, ...]]:
    """Return the stops to come of a truck that cannot be as planned, and what is against each."""
    outfit, found = draft.outfit, {}
    short = [call for one in short_loads(draft) for call in one.calls]
    for trip in (out.trip, *out.later_trips()):
        stops = [call for call in trip.yards() if call.start_min > draft.now_min]
        full, heavy = _not_taken_in(draft, trip), overloaded(draft, out, trip)
        behind = [call for call in stops if comes_from(draft, trip, call)]
        misplaced = out_of_order(outfit, [call for call in stops if call not in behind])
        for call in stops:
            lacks = given_min(out.shift, call) < washed_min(outfit, out.shift, call)
            stands = {
                Against.HEALTH: held_by_health(draft, call),
                Against.BEHIND: call in behind,
                Against.HOUSE: call in full,
                Against.STORE: call in short,
                Against.NOTHING: emptied(call),
                Against.HOURS: not in_fit_hours(draft, call, call.start_min),
                Against.LOAD: call in heavy,
                Against.ORDER: call in misplaced,
                Against.WASH: lacks,
            }
            whys = tuple(why for why, so in stands.items() if so)
            if whys:
                found[call] = whys
    return found


def overloaded(draft: Draft, out: Out, trip: Trip) -> Mapping[Call, Phrase]:
    """Return the stops of a trip, at work or to come, that are left with a load too much."""
    first = sum(not call.still_on(draft.now_min) for call in trip.calls)
    was = as_loaded(draft.outfit, out.shift, trip, draft.now_min)
    there = any(map(draft.begun, trip.calls[first : first + 1]))
    return overloads(draft.outfit, out.shift, trip, first, was, there=there)


def out_of_order(outfit: Outfit, stops: Sequence[Call]) -> list[Call]:
    """Return the stops at yards that are not sound and come before other yards."""
    last = first_at_last_yard([one.yard for one in stops])
    return [one for one in stops[:last] if not is_sound(outfit, one)]


def comes_from(draft: Draft, trip: Trip, call: Call) -> list[Call]:
    """Return the stops of a trip that have begun, at other yards than a call's, not sound."""
    return [
        one for one in trip.yards()
        if draft.begun(one) and one.yard != call.yard and not is_sound(draft.outfit, one)
    ]  # fmt: skip


def sound_first(outfit: Outfit, stops: Sequence[Call]) -> list[Call]:
    """Return stops with those at yards that are not sound behind the others."""
    return sorted(stops, key=lambda one: not is_sound(outfit, one))


def is_sound(outfit: Outfit, call: Call) -> bool:
    """Tell whether nothing is wrong with the health of the yard called at."""
    return outfit.yard(call.yard).health is Health.SOUND


def base_shut(outfit: Outfit, trip: Trip, at: int) -> bool:
    """Tell whether a call to load or unload lies outside the hours of the base that serves it.

    ``at`` is its number in the trip, from 0.  With honey aboard a full honey house is shut, too.
    """
    call, house = trip.calls[at], outfit.honey_house
    was = trip.calls[at - 1].after if at else call.after
    bases = serving(outfit, call, was.boxes, was.brood_boxes + was.wet)
    honey = was.boxes > 0 and house.base in bases
    midnight = call.start_min // DAY_MIN * DAY_MIN
    return (honey and any_meets(house.full, call.start_min, call.end_min)) or not all(
        midnight + base.opens_min <= call.start_min and call.end_min <= midnight + base.closes_min
        for base in bases
    )


def held_by_health(draft: Draft, call: Call) -> bool:
    """Tell whether a yard's health keeps a stop from being made at any hour."""
    yard = draft.outfit.yard(call.yard)
    return bool(call.actions) and yard.health in CLOSED and not _may_be_fed(yard, call)


def emptied(call: Call) -> bool:
    """Tell whether counts elsewhere have left nothing of all that a stop was to do."""
    return bool(call.planned) and not call.actions and call.counted is None


def _may_be_fed(yard: Yard, call: Call) -> bool:
    return not yard.left_alone and {one.job for one in call.actions} <= _FEEDING


def in_fit_hours(draft: Draft, call: Call, from_min: int) -> bool:
    """Tell whether a stop lies in hours fit for it, from ``from_min`` (of day 0), and settled."""
    settled = settled_min(draft.outfit, call) <= call.end_min
    return settled and in_hours(draft.outfit, call, from_min)


def unloads_to_come(draft: Draft, trip: Trip) -> list[Call]:
    """Return the calls to come of a trip at which the honey house is to take boxes in."""
    house = draft.outfit.honey_house.base.place
    return [
        call for before, call in zip(trip.calls, trip.calls[1:], strict=False)
        if call.kind is CallKind.UNLOAD and call.place == house and before.after.boxes
        and call.start_min > draft.now_min
    ]  # fmt: skip


def any_meets(spans: Iterable[Span], start_min: int, end_min: int) -> bool:
    """Tell whether any of some spans has a minute between two, the later left out."""
    return any(one.start_min < end_min and start_min < one.end_min for one in spans)


def _not_taken_in(draft: Draft, trip: Trip) -> list[Call]:
    """Return the stops of a trip whose boxes come to a honey house that is full by then."""
    full = draft.outfit.honey_house.full
    late = any(any_meets(full, one.start_min, one.end_min) for one in unloads_to_come(draft, trip))
    return [call for call in trip.yards() if late and boxes_of([call])]


def boxes_of(calls: Iterable[Call]) -> int:
    """Return the honey boxes that some calls take off."""
    return sum(call.boxes() for call in calls)
