"""How soon a stop may begin by what was done there before: boards to have lain, syrup to be down.

Nor before another truck is done there.  One that is told to go on sooner waits for it at the yard.
"""

from collections.abc import Callable, Sequence

from runplanner.daybook.trip import Call, Job, Shift
from runplanner.days import DAY_MIN, day_of
from runplanner.outfit.outfit import Outfit
from runplanner.visits.due import due


def ripe_from(outfit: Outfit, shifts: Sequence[Shift], own: Shift) -> Callable[[Call], int]:
    """Return the minute from which a call of one's own shift may begin, never one after its own."""
    return lambda call: min(call.start_min, max(_ripe(outfit, shifts, own, call), default=0))


def _ripe(outfit: Outfit, shifts: Sequence[Shift], own: Shift, call: Call) -> list[int]:
    if not call.yard:
        return []
    yard = outfit.yard(call.yard)
    here = [
        (shift, one)
        for shift in shifts
        for trip in shift.trips
        for one in trip.yards()
        if one.yard == call.yard and one.start_min < call.start_min
    ]
    before = [(one, action) for _, one in here for action in one.actions]
    found = [one.end_min for shift, one in here if shift is not own]
    if any(one.boards_off for one in call.actions):
        since = [one.end_min for one, action in before if action.job is Job.BOARDS]
        since += [] if yard.boards_on_min is None else [yard.boards_on_min]
        found += [minute + outfit.rules.board_least_min for minute in since]
    if any(one.job is Job.FEED and one.round > 1 for one in call.actions):
        gap = due(outfit, yard).round_gap_min
        found += [one.start_min + gap for one, action in before if action.job is Job.FEED]
    if any(one.job is Job.WET_UP for one in call.actions):
        found.append(day_of(call.start_min) * DAY_MIN + outfit.rules.wet_from_min)
    return found
