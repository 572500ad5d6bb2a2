"""When the stop-gap of condensed colonies runs out, worked out from the plan's own stops.

Cover of a colony = (blocks given x block mass + usable stores) / daily use, from the start
of its take-off stop.  First off is first fed.
"""

from dataclasses import dataclass
from itertools import groupby

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.paperwork.events import stops


@dataclass(frozen=True, slots=True)
class Cover:
    """Some colonies of one yard that run out together.

    Args:
        yard: Id of the yard.
        colonies: How many.
        off_min: Start of the stop at which they were condensed.
        blocks: Blocks each has been given.
        ends_min: When their stop-gap is eaten.
        fed_min: Start of the stop of their first syrup; None when the plan has none.
    """

    yard: str
    colonies: int
    off_min: int
    blocks: int
    ends_min: int
    fed_min: int | None

    def runs_short(self) -> bool:
        """Return whether syrup comes too late or not at all."""
        if self.fed_min is None:
            return True
        return self.fed_min >= self.ends_min and self.fed_min != self.off_min


@dataclass(slots=True)
class _Colony:
    off_min: int
    blocks: int = 0
    fed_min: int | None = None


def covers(plan: Plan, until_min: int | None = None) -> tuple[Cover, ...]:
    """Return the cover of every condensed colony that must be fed, soonest end first.

    With ``until_min`` only stops that start before it count: what stands if the plan were
    to stop there.
    """
    found: list[Cover] = []
    for yard in plan.outfit.yards:
        if (yard.stores_g or 0) < yard.target_g:
            calls = [one.call for one in stops(plan) if one.call.yard == yard.id]
            before = [call for call in calls if until_min is None or call.start_min < until_min]
            found += _groups(plan.outfit, yard, _walk(before))
    return tuple(sorted(found, key=lambda one: (one.ends_min, one.yard, one.off_min)))


def cover_min(outfit: Outfit, yard: Yard, blocks: int) -> int:
    """Return how many minutes ``blocks`` and the yard's stores last one colony."""
    grams = blocks * outfit.kit.block_g + (yard.stores_g or 0)
    return grams * DAY_MIN // outfit.feed.day_use_g


def _walk(calls: list[Call]) -> list[_Colony]:
    colonies: list[_Colony] = []
    for call in calls:
        for action in call.actions:
            if action.job is Job.TAKE_OFF:
                colonies += [_Colony(call.start_min) for _ in range(action.colonies)]
        for action in call.actions:
            if action.job is Job.FEED and action.round == 1:
                hungry = [one for one in colonies if one.fed_min is None]
                for one in hungry[: action.colonies]:
                    one.fed_min = call.start_min
        for action in call.actions:
            if action.job is Job.BLOCK:
                _give(colonies, call, action.colonies, action.pieces)
    return colonies


def _give(colonies: list[_Colony], call: Call, number: int, pieces: int) -> None:
    """Put blocks on: those condensed at this stop first, then those with the fewest."""
    hungry = [one for one in colonies if one.fed_min is None]
    hungry.sort(key=lambda one: (one.off_min != call.start_min, one.blocks))
    for one in hungry[:number]:
        one.blocks += pieces // max(1, number)


def _groups(outfit: Outfit, yard: Yard, colonies: list[_Colony]) -> list[Cover]:
    alike = groupby(colonies, key=lambda one: (one.off_min, one.blocks, one.fed_min))
    return [
        Cover(yard.id, len(list(same)), off, blocks, off + cover_min(outfit, yard, blocks), fed)
        for (off, blocks, fed), same in alike
    ]
