"""Colonies moved between the take-offs of a yard that is parted into lots.

All but the last lot want a block for each colony, unless syrup follows the same day, and every
lot fills a truck and a day: how many colonies go with which is tried step by step, by the exact
judge.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from runplanner.season.standing.state import Keeper, Key, State
from runplanner.trips.stop import Day, Stop, Trip, Visit
from runplanner.visits.due import taken

ALL = 0
STEPS = (ALL, 8, 4, 2, 1)
"""Colonies moved at a time; what helps is done again."""


def evened(keeper: Keeper, state: State, yards: Iterable[int]) -> State:
    """Return the state with the lots of some yards as large as is cheapest, step by step."""
    for yard in yards:
        for step in STEPS:
            while (new := next(_better(keeper, state, yard, step), None)) is not None:
                state = new
    return state


def _better(keeper: Keeper, state: State, yard: int, step: int) -> Iterator[State]:
    """Yield better states in which so many colonies have gone from one lot to another."""
    lots = [visit for visit in state.visits[yard] if visit.stop.off]
    least = keeper.ground.outfit.rules.smallest_lot
    for pair in combinations([at for at, visit in enumerate(lots) if not visit.fact], 2):
        for more, fewer in (pair, pair[::-1]):
            counts = [visit.stop.off for visit in lots]
            by = counts[fewer] if step == ALL else step
            if 0 < counts[fewer] - by < least or by > counts[fewer]:
                continue
            counts[more] += by
            counts[fewer] -= by
            new = keeper.replace_all(state, _parted(keeper, state, lots, counts))
            if new is not None and new.score < state.score:
                yield new


def _parted(
    keeper: Keeper, state: State, lots: Sequence[Visit], counts: Sequence[int]
) -> dict[Key, Day]:
    """Return the trucks' days that change where so many colonies go with each lot."""
    outfit = keeper.ground.outfit
    yard = outfit.yards[lots[0].stop.yard]
    days: dict[Key, Day] = {}
    before = 0
    for visit, count in zip(lots, counts, strict=True):
        after, old, key = before + count, visit.stop, (visit.day, visit.truck)
        new = old._replace(
            off=count,
            boxes=taken(yard.boxes, yard.colonies, before, after),
            brood=taken(yard.brood_boxes_off, yard.colonies, before, after),
            blocks=count * outfit.rules.blocks if old.blocks else 0,
            other=old.other and count > 0,
        )
        before = after
        if new != old and not visit.fact:
            day = days.get(key, state.days[key].day)
            days[key] = day._replace(trips=_with(day, old, new))
    return days


def _with(day: Day, old: Stop, new: Stop) -> tuple[Trip, ...]:
    """Return a day's trips with one stop in place of another, or of none without work."""
    instead = () if new.idle else (new,)
    changed = (
        tuple(one for stop in trip for one in (instead if stop == old else (stop,)))
        for trip in day.trips
    )
    return tuple(trip for trip in changed if trip)
