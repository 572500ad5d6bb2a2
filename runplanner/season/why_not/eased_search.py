"""The same season with some facts eased: its search, and the days that still hold."""

from dataclasses import replace

from runplanner.season.search.improve import Improver
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.what_if import Ease
from runplanner.trips.ground import Ground


def eased_search(keeper: Keeper, ease: Ease, seed: int) -> Improver:
    """Return a search on eased facts, from the same standing."""
    was = keeper.ground
    ground = Ground(ease(was.outfit), was.now_min, was.written)
    ways = {_way(ground, h): h for h in range(len(ground.haulers))}
    driven = {
        key: judged._replace(
            day=judged.day._replace(hauler=ways[_way(keeper.ground, judged.day.hauler)])
        )
        for key, judged in keeper.standing.driven.items()
    }
    return Improver(ground, seed, replace(keeper.standing, driven=driven))


def carried(old: Keeper, state: State, new: Keeper) -> State:
    """Return the days of ``state`` judged anew on other facts; what no longer holds is dropped."""
    ways = {_way(new.ground, h): h for h in range(len(new.ground.haulers))}
    days = dict(new.standing.driven)
    for key, judged in state.days.items():
        if key in days:
            continue
        hauler = ways.get(_way(old.ground, judged.day.hauler))
        again = new.judge(judged.day._replace(hauler=hauler)) if hauler is not None else None
        if again is not None:
            days[key] = again
    return new.settled(days)


def _way(ground: Ground, hauler: int) -> tuple[str, str, int]:
    way = ground.haulers[hauler]
    return way.truck.id, way.trailer.id if way.trailer else "", way.crew
