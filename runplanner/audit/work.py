"""How many minutes the work at a call takes."""

from runplanner.audit.book import Stop
from runplanner.audit.cargo import work_of
from runplanner.audit.need import closed
from runplanner.audit.whole import ceil_div
from runplanner.daybook.trip import Action, CallKind, Job
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Yard

BEES_STAY = frozenset({Clearing.BOARDS, Clearing.WARM_BOARD})


def work_min(outfit: Outfit, stop: Stop) -> int:
    """Return the least minutes between the start and the end of a call, breaks left out."""
    if stop.yard is not None:
        return _yard_min(outfit, stop, stop.yard)
    if stop.call.kind is CallKind.LOAD:
        poured = sum(action.ml for action in work_of(stop.trip))
        lifted = stop.after.wet_count() * outfit.pace.unload_box_s
        by_hand = ceil_div(lifted, 60 * stop.rig.crew)
        return outfit.pace.load_min + ceil_div(poured, outfit.pace.pump_ml_per_min) + by_hand
    handled = _unloaded(stop) * outfit.pace.unload_box_s
    return outfit.pace.unload_min + ceil_div(handled, 60 * stop.rig.crew)


def _unloaded(stop: Stop) -> int:
    honey = stop.before.box_count() - stop.after.box_count()
    wet = stop.before.wet_count() - stop.after.wet_count()
    return honey + wet + stop.before.brood_count() - stop.after.brood_count()


def _yard_min(outfit: Outfit, stop: Stop, yard: Yard) -> int:
    seconds = sum(_person_s(outfit, yard, action) for action in stop.call.actions)
    if stop.goes_on:
        # Gate, suits, smoker and washing down are the stop's, and its first call has them.
        return ceil_div(seconds, 60 * stop.rig.crew)
    wash = outfit.pace.wash_min if closed(yard) else 0
    return outfit.pace.setup_min + ceil_div(seconds, 60 * stop.rig.crew) + wash


def _person_s(outfit: Outfit, yard: Yard, action: Action) -> int:
    pace = outfit.pace
    if action.job is Job.TAKE_OFF:
        return _take_off_s(outfit, yard, action)
    if action.job is Job.BOARDS:
        return action.colonies * pace.board_s
    if action.job in {Job.WET_UP, Job.WET_DOWN}:
        return action.wet * pace.wet_box_s
    if action.job is Job.FEEDERS:
        return action.feeders_off * pace.feeder_s
    if action.job is Job.BLOCK:
        return action.pieces * pace.block_s
    return action.colonies * (pace.feed_s if action.job is Job.FEED else pace.strips_s)


def _take_off_s(outfit: Outfit, yard: Yard, action: Action) -> int:
    pace = outfit.pace
    lifted, way = action.boxes + action.brood_boxes, action.way or yard.clearing
    seconds = action.colonies * pace.inspect_s + lifted * dict(pace.box_s).get(way, 0)
    if way in BEES_STAY:
        brushed = ceil_div(action.boxes * pace.left_in_permille, 1000)
        seconds += brushed * dict(pace.box_s).get(Clearing.BRUSH, 0)
    return seconds
