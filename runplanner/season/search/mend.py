"""Days found by quick sums, put right where the chains of a few yards do not hold in them."""

from collections.abc import Callable, Mapping

from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day, Key, sifted
from runplanner.trips.judged import Judged
from runplanner.visits.stop import Visit

Build = Callable[[State, list[int]], State]
"""Builds yards into a state, one after the other."""
MOST_MENDED = 6
"""Yards whose chains may break in what was found; where there are more, it is given up."""


def mended(
    keeper: Keeper, state: State, news: Mapping[Key, Day | None], build: Build
) -> State | None:
    """Return the state with other days but for the few yards whose chains do not hold there.

    Those are taken out of all days and built in anew.  None where some day cannot be driven,
    no chain breaks or too many do.
    """
    judged = {key: keeper.judge(day) for key, day in news.items() if day is not None}
    real = {key: one for key, one in judged.items() if one is not None}
    if len(real) < len(judged):
        return None
    after = _after(state, news, real)
    broken = {yard for yard, visits in after.items() if keeper.chains.read(yard, visits) is None}
    if not 0 < len(broken) <= MOST_MENDED:
        return None
    bare = keeper.replace_all(state, _without(keeper, state, news, broken))
    return None if bare is None else build(bare, sorted(broken))


def _after(
    state: State, news: Mapping[Key, Day | None], real: Mapping[Key, Judged]
) -> dict[int, tuple[Visit, ...]]:
    """Return the visits, once days are other, of all yards that they call at now."""
    fresh: dict[int, list[Visit]] = {}
    for judged in real.values():
        for visit in judged.visits:
            fresh.setdefault(visit.stop.yard, []).append(visit)
    for yard, mine in fresh.items():
        mine += [visit for visit in state.visits[yard] if (visit.day, visit.truck) not in news]
    return {yard: tuple(sorted(mine)) for yard, mine in fresh.items()}


def _without(
    keeper: Keeper, state: State, news: Mapping[Key, Day | None], yards: set[int]
) -> dict[Key, Day | None]:
    """Return other days without any stop at some yards, which go from all days not driven."""
    driven = keeper.standing.driven
    days: dict[Key, Day | None] = {
        key: judged.day for key, judged in state.days.items() if key not in driven
    }
    days.update(news)
    found = dict(news)
    for key, day in days.items():
        bare = day and sifted(day, lambda stop: None if stop.yard in yards else stop)
        if bare is not None and bare != day:
            found[key] = bare if bare.trips else None
    return found
