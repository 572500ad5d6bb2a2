"""What a published instance's plan costs by the instance alone, or what it breaks.

Nothing of the core is asked but who goes where in what order, so that a slip in telling an
instance to it shows here.
"""

from collections.abc import Sequence
from itertools import pairwise

from tests.bench.instances import Instance
from tests.bench.periodic import Periodic

Trips = Sequence[Sequence[int]]
"""One vehicle's day: its trips, each the numbers of its customers in order."""


class BrokenError(Exception):
    """A plan breaks a rule of its instance; says which."""


def length(given: Instance, days: Sequence[Trips]) -> int:
    """Return how long all trips are together.

    Raises:
        BrokenError: A customer, a load, an hour or a release is missed, or vehicles are.
    """
    trips = [trip for day in days for trip in day]
    _demand(
        sorted(i for trip in trips for i in trip) == list(range(len(given.out))),
        "not everybody is served once",
    )
    _demand(len(days) <= given.vehicles, "too many vehicles")
    _demand(given.trips or all(len(day) == 1 for day in days), "a vehicle goes out twice")
    for day in days:
        clock = 0
        for trip in day:
            _loads(given, trip)
            clock = _back(given, trip, clock)
    return sum(_leg(given.legs, [0, *(i + 1 for i in trip), 0]) for trip in trips)


def _loads(given: Instance, trip: Sequence[int]) -> None:
    load = sum(given.into[i] for i in trip)
    _demand(load <= given.capacity, "more is loaded than rides")
    for i in trip:
        load += given.out[i] - given.into[i]
        _demand(load <= given.capacity, "more is aboard than rides")


def _back(given: Instance, trip: Sequence[int], clock: int) -> int:
    """Return when a trip that may begin at ``clock`` is back."""
    if not given.hours:
        return clock
    clock = max([clock, *((given.released or [0] * len(given.out))[i] for i in trip)])
    here = 0
    for i in trip:
        opens, closes = given.hours[i]
        clock = max(clock + given.legs[here][i + 1], opens)
        _demand(clock <= closes, "a customer is reached too late")
        clock, here = clock + given.service, i + 1
    clock += given.legs[here][0]
    _demand(not given.horizon or clock <= given.horizon, "a vehicle is back too late")
    return clock


def minutes(given: Periodic, days: Sequence[tuple[int, Trips]]) -> int:
    """Return the minutes driven on all days; each is its number and a vehicle's trips.

    Raises:
        BrokenError: Visits are too few or not evenly spaced, or a load, a day's length or the
            number of vehicles is more than there is.
    """
    for i, often in enumerate(given.often):
        mine = sorted(day for day, trips in days for trip in trips for j in trip if j == i)
        _demand(len(mine) == often, "a customer is visited too often or too seldom")
        _demand(
            all(b - a == given.days // often for a, b in pairwise(mine)), "visits are not spaced"
        )
    for day in range(given.days):
        _demand(sum(one == day for one, _ in days) <= given.vehicles, "too many vehicles")
    return sum(_driven(given, trips) for _, trips in days)


def _driven(given: Periodic, trips: Trips) -> int:
    here = driven = 0
    for trip in trips:
        places = [i + 1 for i in trip]
        _demand(sum(given.demand[i] for i in trip) <= given.capacity, "more is loaded than rides")
        driven += min(given.legs[here][f] + given.legs[f][places[0]] for f in given.facilities)
        driven += _leg(given.legs, places)
        here = places[-1]
    driven += given.legs[here][0]
    work = sum(given.service[i] for trip in trips for i in trip)
    _demand(driven + work <= given.longest, "a day is too long")
    return driven


def _leg(legs: list[list[int]], places: list[int]) -> int:
    return sum(legs[a][b] for a, b in pairwise(places))


def _demand(holds: bool, broken: str) -> None:  # noqa: FBT001
    if not holds:
        raise BrokenError(broken)
