"""A day's containers shared out among the trucks that go out on it."""

from collections.abc import Collection, Iterator, Mapping

from runplanner.haulage.tanks import Counts
from runplanner.trips.day import Key
from runplanner.trips.judge import Judge
from runplanner.trips.judged import Judged


def shared_out(
    judge: Judge, today: Mapping[Key, Judged], driven: Collection[Key]
) -> dict[Key, Judged] | None:
    """Return a day's trucks, each with containers that no other has, or None where too few.

    A truck keeps them from its first trip to its last.  Each takes the lightest set that will
    do of what those before it have left; where that is too little for the last, the trucks take
    in another order.  What trucks in ``driven`` took is fact.
    """
    left = tuple(kind.owned for kind in judge.ground.outfit.containers)
    for key in today:
        if key in driven:
            left = _less(left, today[key])
    planned = tuple(key for key in today if key not in driven)
    for order in _orders(planned):
        found = _in_turn(judge, today, order, left)
        if found is not None:
            return {**today, **found}
    return None


def _orders(keys: tuple[Key, ...]) -> Iterator[tuple[Key, ...]]:
    """Yield orders, forwards and backwards, with every key first; up to three keys that is all."""
    yield keys
    turned = [(*keys[at:], *keys[:at]) for at in range(len(keys))]
    yield from dict.fromkeys(one for way in turned for one in (way, way[::-1]) if one != keys)


def _in_turn(
    judge: Judge, today: Mapping[Key, Judged], order: tuple[Key, ...], left: Counts
) -> dict[Key, Judged] | None:
    found = {}
    for key in order:
        mine = _from(judge, today[key], left)
        if mine is None:
            return None
        found[key] = mine
        left = _less(left, mine)
    return found


def _from(judge: Judge, judged: Judged, left: Counts) -> Judged | None:
    """Return a day with no more containers than are left; it stays as it is where that does."""
    if all(n <= most for one in judged.packed for n, most in zip(one.tanks, left, strict=True)):
        return judged
    hauler, found = judged.day.hauler, []
    for trip in judged.day.trips:
        packed = judge.packed(hauler, trip, left)
        if packed is None:
            return None
        found.append(packed)
    return judged._replace(packed=tuple(found))


def _less(left: Counts, judged: Judged) -> Counts:
    """Return what a truck leaves of every kind."""
    most = (max(counts) for counts in zip(*(one.tanks for one in judged.packed), strict=True))
    return tuple(max(0, n - taken) for n, taken in zip(left, most, strict=True))
