"""What lies between two stops of a truck's day: a drive, or a way by the store as well."""

from collections.abc import Sequence
from typing import NamedTuple

from runplanner.season.quick.facts import FAR

Row = list[float]


class Hops(NamedTuple):
    """Ways between the stops of a day; ``FAR`` where there is no road.

    Args:
        start: From leaving home, by way of a loading, to every stop.
        direct: From stop to stop within a trip, by row.
        via: From stop to stop with unloading and loading between, by row.
        end: From every stop, as its trip's last, by way of unloading, home.
    """

    start: Row
    direct: list[Row]
    via: list[Row]
    end: Row


class Base(NamedTuple):
    """Where trips begin and end: places, and what loading and unloading take at least."""

    home: int
    store: int
    load: float
    unload: float


def hops_of(roads: Sequence[Sequence[float | None]], places: Sequence[int], base: Base) -> Hops:
    """Return what lies between stops whose trips all end where they began.

    Args:
        roads: From place to place, in minutes or in a unit of cost; None where no road is.
        places: Where the stops are.
        base: Where trips begin and end, in the same unit.
    """

    def leg(a: int, b: int) -> float:
        found = roads[a][b]
        return FAR if found is None else found

    out = [base.load + leg(base.store, place) for place in places]
    back = [leg(place, base.store) + base.unload for place in places]
    return Hops(
        [leg(base.home, base.store) + way for way in out],
        [[leg(a, b) for b in places] for a in places],
        [[there + way for way in out] for there in back],
        [there + leg(base.store, base.home) for there in back],
    )
