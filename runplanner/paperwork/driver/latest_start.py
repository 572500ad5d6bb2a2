"""By when work must begin if all that the plan has after it at its yard is to follow.

Hard deadlines, the campaign's end, lags and the yard's own hours bind; whether a truck has time
then is not asked.
"""

from collections.abc import Mapping

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops_at
from runplanner.daybook.trip import Action, Call, Job
from runplanner.days import DAY_MIN, day_of
from runplanner.outfit.once import once
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.trade.strips import unfed_days
from runplanner.visits.due import due
from runplanner.visits.last_day import last_day
from runplanner.visits.windows import Windows, windows

OPENING = frozenset({Job.BOARDS, Job.TAKE_OFF})


def latest_start(plan: Plan, call: Call, action: Action) -> int:
    """Return the last minute at which a job of a call can begin, -1 where there is none.

    Meant for boards, take-off, syrup and strips.  Each stop is taken to last as long as planned.
    """
    outfit, yard = plan.outfit, plan.outfit.yard(call.yard)
    found: dict[tuple[Job, int], int] = {}
    for stop in reversed(stops_at(plan, call.yard)):
        if stop.call.start_min < call.start_min:
            break
        lasts_min = stop.call.end_min - stop.call.start_min
        for one in reversed(stop.call.actions):
            bounds = [last_day(outfit, yard, one.job) * DAY_MIN + DAY_MIN - 1]
            for (job, number), minute in found.items():
                bounds += _bound(outfit, yard, one, job, number, minute)
            begin = _within(outfit, yard, one.job, min(bounds), lasts_min)
            key = one.job, one.round
            found[key] = min(found.get(key, begin), begin)
    return found.get((action.job, action.round), -1)


def _bound(
    outfit: Outfit, yard: Yard, action: Action, job: Job, number: int, minute: int
) -> list[int]:
    """Return when an action must begin so that a job, of round ``number``, can at ``minute``.

    Nothing where the one does not wait for the other.
    """
    ban, gap_min = unfed_days(outfit.strips_at(yard)), due(outfit, yard).round_gap_min
    night_before = day_of(minute) * DAY_MIN - 1
    match action.job, job:
        case Job.BOARDS, Job.TAKE_OFF if yard.clearing_else is None:
            return [night_before, minute - outfit.rules.board_least_min]
        case (Job.BOARDS, Job.TAKE_OFF) | (Job.TAKE_OFF, Job.FEED | Job.STRIPS):
            return [minute]
        case Job.FEED, Job.FEED if number > action.round:
            return [minute - gap_min]
        case Job.FEED, Job.STRIPS if ban:
            return [night_before, minute - gap_min]
        case Job.STRIPS, Job.FEED if ban:
            return [night_before - (ban - 1) * DAY_MIN]
        case _:
            return []


def _within(outfit: Outfit, yard: Yard, job: Job, bound: int, lasts_min: int) -> int:
    """Return the last minute up to ``bound`` at which hours let a job begin, -1 where none do."""
    hours = _hours(outfit)[yard.id]
    days = hours.spans(opening=job in OPENING, feeding=job is Job.FEED, strips=job is Job.STRIPS)
    latest = -1
    for day, spans in enumerate(days):
        settled_min = hours.settled_from_min[day] if job is Job.TAKE_OFF else 0
        for span in spans:
            begin = min(bound, span.end_min - lasts_min)
            if begin >= span.start_min and begin + lasts_min >= settled_min:
                latest = begin
    return latest


@once
def _hours(outfit: Outfit) -> Mapping[str, Windows]:
    return {yard.id: windows(outfit, yard) for yard in outfit.yards}
