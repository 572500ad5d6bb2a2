"""When the stop-gap of condensed colonies runs out, worked out from the plan's own stops.

Cover of a colony = (blocks given x block mass + usable stores) / daily use, from the start
of its take-off stop; a block that comes once this is eaten counts from when it comes.  First
off is first fed.  Who is fed by a later call of the same stop is fed at once.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import by_stop, stops_at
from runplanner.daybook.trip import Action, Call, Job
from runplanner.days import DAY_MIN, day_of
from runplanner.outfit.once import once
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.visits.blocks import blocks_each


@dataclass(frozen=True, slots=True)
class Cover:
    """Some colonies of one yard that run out together.

    Args:
        yard: Id of the yard.
        colonies: How many.
        off_min: Start of the call at which they were condensed.
        blocks: Blocks each has been given.
        ends_min: When they first have nothing left: a block planned for later than that does
            not move it.
        fed_min: Start of the call of their first syrup; None when the plan has none.
        fed_here: That call belongs to the stop at which they were condensed.
        spared: They had no block, as the rules allow where syrup follows the same day.
    """

    yard: str
    colonies: int
    off_min: int
    blocks: int
    ends_min: int
    fed_min: int | None
    fed_here: bool = False
    spared: bool = False

    def runs_short(self) -> bool:
        """Return whether syrup comes too late or not at all."""
        if self.fed_min is None:
            return True
        return self.fed_min >= self.ends_min and not self.fed_here and not self.spared

    def waits(self) -> bool:
        """Return whether they live on a stop-gap until a later stop, or for good."""
        if self.fed_min is None:
            return True
        return self.fed_min > self.off_min and not self.fed_here and not self.spared


@dataclass(slots=True)
class Colony:
    """One condensed colony on its way through the plan.

    Args:
        off_min: Start of the call at which it was condensed.
        from_min: Since when it lives on ``grams`` of stores and fondant.
        grams: Stores and fondant it lives on.
        blocks: Blocks it has been given.
        bare_min: When it first had nothing left, where a block yet to come finds it so.
        fed_min: Start of the call of its first syrup; None when the plan has none.  Before it was
            condensed where it had no honey on and was fed at a standstill.
        fed_here: That call belongs to the stop at which it was condensed.
    """

    off_min: int
    from_min: int
    grams: int
    blocks: int = 0
    bare_min: int | None = None
    fed_min: int | None = None
    fed_here: bool = False

    def eaten_min(self, outfit: Outfit) -> int:
        """Return when all it was given is eaten, rounded down."""
        return self.from_min + self.grams * DAY_MIN // outfit.feed.day_use_g

    def ends_min(self, outfit: Outfit) -> int:
        """Return when it first has nothing left."""
        return self.eaten_min(outfit) if self.bare_min is None else self.bare_min

    def spared(self, outfit: Outfit) -> bool:
        """Tell whether it had no block since syrup follows the same day, as the rules allow."""
        if self.fed_min is None or self.fed_here or self.blocks:
            return False
        return outfit.rules.same_day_second_trip and day_of(self.fed_min) == day_of(self.off_min)


def covers(plan: Plan, until_min: int | None = None) -> tuple[Cover, ...]:
    """Return the cover of every condensed colony that must be fed, soonest end first.

    With ``until_min`` only stops that start before it count: what stands if the plan were
    to stop there.
    """
    return _to_the_end(plan) if until_min is None else _covers(plan, until_min)


@once
def _to_the_end(plan: Plan) -> tuple[Cover, ...]:
    return _covers(plan, None)


def _covers(plan: Plan, until_min: int | None) -> tuple[Cover, ...]:
    found: list[Cover] = []
    for yard in plan.outfit.yards:
        found += covers_at(plan, yard, until_min)
    return tuple(sorted(found, key=lambda one: (one.ends_min, one.yard, one.off_min)))


def covers_at(plan: Plan, yard: Yard, until_min: int | None = None) -> list[Cover]:
    """Return the cover of a yard's condensed colonies, first off first; none where none is fed."""
    if (yard.stores_g or 0) >= yard.target_g:
        return []
    return _groups(plan.outfit, yard, colonies_of(plan, yard, until_min))


def cover_min(outfit: Outfit, yard: Yard, blocks: int) -> int:
    """Return how many minutes ``blocks`` and the yard's stores last one colony."""
    grams = blocks * outfit.kit.block_g + (yard.stores_g or 0)
    return grams * DAY_MIN // outfit.feed.day_use_g


def colonies_of(plan: Plan, yard: Yard, until_min: int | None = None) -> list[Colony]:
    """Return the colonies of a yard that the plan condenses, the first off first.

    With ``until_min`` only stops that start before it count.
    """
    colonies: list[Colony] = []
    fed_before: list[int] = []
    for came_min, call in _calls(plan, yard):
        if until_min is None or call.start_min < until_min:
            _work_through(plan, yard, colonies, fed_before, call, came_min)
    return colonies


def _calls(plan: Plan, yard: Yard) -> Iterator[tuple[int, Call]]:
    """Go through the calls at a yard, each with the start of the stop that it belongs to."""
    for _, there in groupby(stops_at(plan, yard.id), key=lambda one: one.trip.id):
        for calls in by_stop(one.call for one in there):
            yield from ((calls[0].start_min, call) for call in calls)


def _work_through(
    plan: Plan,
    yard: Yard,
    colonies: list[Colony],
    fed_before: list[int],
    call: Call,
    came_min: int,
) -> None:
    """Carry one call's take-offs, first feed and blocks over to the row of colonies.

    ``fed_before`` are the minutes at which colonies still to be condensed were fed, ``came_min``
    is the start of the call's stop.
    """
    start = call.start_min
    off = sum(action.colonies for action in call.actions if action.job is Job.TAKE_OFF)
    alive = max(0, yard.colonies - len(colonies))
    for _ in range(min(off, alive)):
        fed_min = fed_before.pop(0) if fed_before else None
        colonies.append(Colony(start, start, yard.stores_g or 0, fed_min=fed_min))
    for action in call.actions:
        if action.job is Job.FEED and action.round == 1:
            hungry = _hungry(colonies)
            for one in hungry[: action.colonies]:
                one.fed_min, one.fed_here = start, one.off_min >= came_min
            fed_before += [start] * max(0, action.colonies - len(hungry))
    for action in call.actions:
        if action.job is Job.BLOCK and action.colonies:
            _give(plan, _hungry(colonies), call, action)


def _hungry(colonies: list[Colony]) -> list[Colony]:
    return [one for one in colonies if one.fed_min is None]


def _give(plan: Plan, hungry: list[Colony], call: Call, action: Action) -> None:
    """Put blocks on: on the last ones condensed at this stop, else where cover ends first."""
    outfit, start = plan.outfit, call.start_min
    off = sum(one.colonies for one in call.actions if one.job is Job.TAKE_OFF)
    if off:
        each = blocks_each(outfit.rules, off, action.pieces)
        first = [one for one in hungry if one.off_min == start][::-1]
    else:
        each = action.pieces // action.colonies
        first = sorted(hungry, key=lambda one: one.eaten_min(outfit))
    for one in first[: action.colonies]:
        _put_on(plan, one, start, each)


def _put_on(plan: Plan, one: Colony, start: int, blocks: int) -> None:
    """Put blocks on a colony; where it has nothing left it lives on from now."""
    outfit, eaten = plan.outfit, one.eaten_min(plan.outfit)
    if one.off_min != start and start >= eaten:
        if one.bare_min is None and start > plan.now_min:
            one.bare_min = eaten
        one.from_min, one.grams = start, 0
    one.blocks += blocks
    one.grams += blocks * outfit.kit.block_g


def _groups(outfit: Outfit, yard: Yard, colonies: list[Colony]) -> list[Cover]:
    def alike(one: Colony) -> tuple[int, int, int, int | None, bool, bool]:
        ends = one.ends_min(outfit)
        return one.off_min, one.blocks, ends, one.fed_min, one.fed_here, one.spared(outfit)

    return [Cover(yard.id, len(list(same)), *how) for how, same in groupby(colonies, key=alike)]
