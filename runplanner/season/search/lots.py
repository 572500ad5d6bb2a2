"""Colonies moved between the take-offs of a yard that is parted into lots.

All but the last lot want a block for each colony, unless syrup follows the same day, and every
lot fills a truck and a day: how many colonies go with which is tried step by step, by the exact
judge.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day, Key, thinned
from runplanner.visits.due import taken
from runplanner.visits.stop import Stop, Visit

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
    at = lots[0].stop.yard
    yard = outfit.yards[at]
    anew: dict[Key, list[Stop]] = {}
    before = 0
    for visit, count in zip(lots, counts, strict=True):
        after, old = before + count, visit.stop
        new = old._replace(
            off=count,
            boxes=taken(yard.boxes, yard.colonies, before, after),
            brood=taken(yard.brood_boxes_off, yard.colonies, before, after),
            blocks=count * outfit.rules.blocks if old.blocks else 0,
            other=old.other and count > 0,
            over=keeper.chains.boards_over[at] if count and after == yard.colonies else 0,
        )
        before = after
        anew.setdefault((visit.day, visit.truck), []).append(old if visit.fact else new)
    days = {key: _with_lots(state.days[key].day, stops) for key, stops in anew.items()}
    return {key: day for key, day in days.items() if day != state.days[key].day}


def _with_lots(day: Day, lots: Sequence[Stop]) -> Day:
    """Return a day with other lots of a yard, in order; those without work are left out."""
    coming = iter(lots)
    yard = lots[0].yard
    return thinned(day, lambda stop: next(coming) if stop.yard == yard and stop.off else stop)
