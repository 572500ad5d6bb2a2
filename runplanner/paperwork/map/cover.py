"""When a yard's stop-gap runs out: fondant and stores against what the bees eat.

A colony is covered from the start of its take-off stop.  First off is first fed, so the
colonies of a yard are kept in one row and walked through stop by stop.
"""

from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.paperwork.map.work import yard_calls


@dataclass(frozen=True, slots=True)
class Cover:
    """The soonest end of cover among a yard's colonies that wait for syrup.

    ``fed_min`` is when syrup reaches the colonies whose cover ends first, None when the
    plan brings none; ``colonies`` is how many of them there are.
    """

    yard: str
    ends_min: int
    fed_min: int | None
    colonies: int

    def runs_out(self) -> bool:
        """Tell whether no syrup comes before cover ends."""
        return self.fed_min is None or self.fed_min >= self.ends_min


@dataclass(slots=True)
class _Colony:
    off_min: int
    blocks: int = 0
    fed_min: int | None = None


def covers(plan: Plan) -> tuple[Cover, ...]:
    """Return the yards that live on a stop-gap, the soonest end first."""
    found = [cover for yard in plan.outfit.yards if (cover := cover_of(plan, yard)) is not None]
    return tuple(sorted(found, key=lambda cover: (cover.ends_min, cover.yard)))


def cover_of(plan: Plan, yard: Yard) -> Cover | None:
    """Return the soonest end of cover in ``yard``; None where no colony waits for syrup."""
    if (yard.stores_g or 0) >= yard.target_g or plan.outfit.feed.day_use_g <= 0:
        return None
    waiting = [
        (_ends(plan.outfit, yard, colony), colony.fed_min)
        for colony in _colonies(plan, yard)
        if colony.fed_min is None or colony.off_min < colony.fed_min > plan.now_min
    ]
    if not waiting:
        return None
    first = min(waiting, key=lambda pair: (pair[0], pair[1] is not None, pair[1] or 0))
    return Cover(yard.id, first[0], first[1], waiting.count(first))


def _ends(outfit: Outfit, yard: Yard, colony: _Colony) -> int:
    grams = colony.blocks * outfit.kit.block_g + (yard.stores_g or 0)
    return colony.off_min + grams * DAY_MIN // outfit.feed.day_use_g


def _colonies(plan: Plan, yard: Yard) -> list[_Colony]:
    row: list[_Colony] = []
    calls = (call for _, _, call in yard_calls(plan) if call.yard == yard.id)
    for call in sorted(calls, key=lambda call: call.start_min):
        _work_through(row, call)
    return row


def _work_through(row: list[_Colony], call: Call) -> None:
    """Carry one stop's take-off, first feed and blocks over to the row of colonies."""
    jobs = {action.job: action for action in call.actions}
    if Job.TAKE_OFF in jobs:
        row += [_Colony(call.start_min) for _ in range(jobs[Job.TAKE_OFF].colonies)]
    feed = jobs.get(Job.FEED)
    if feed is not None and feed.round == 1:
        for colony in _unfed(row)[: feed.colonies]:
            colony.fed_min = call.start_min
    if Job.BLOCK in jobs:
        _give_blocks(row, jobs[Job.BLOCK], at_take_off=Job.TAKE_OFF in jobs)


def _give_blocks(row: list[_Colony], block: Action, *, at_take_off: bool) -> None:
    """Give blocks to the last colonies off at a take-off, else to the first still unfed."""
    unfed = _unfed(row)
    given = unfed[-block.colonies :] if at_take_off else unfed[: block.colonies]
    for colony in given if block.colonies else ():
        colony.blocks += block.pieces // block.colonies


def _unfed(row: list[_Colony]) -> list[_Colony]:
    return [colony for colony in row if colony.fed_min is None]
