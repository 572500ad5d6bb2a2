"""Periodic collection with intermediate facilities, told to the campaign core.

Told backwards in time, a collection is a delivery: a truck leaves the depot, loads at a
facility, brings, loads at a facility again, and ends at the depot.  A customer's visits are
feed rounds, their spacing the least time from round to round.  Two things the core does not
know are added from outside: which facility a truck passes between two trips (the nearest on
the way), and that visits are spaced evenly round the whole period.  The core's own tables know
one facility that is as near to every place as the nearest is, so its bound holds.
"""

import json
import random
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise
from typing import Any

from runplanner.days import Span
from runplanner.haulage.day_clock import Step
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Feed
from runplanner.outfit.yards import Place
from runplanner.phrase import verbatim
from runplanner.season.search.improve import Improver
from runplanner.season.standing.chains import Chains
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import Progress
from runplanner.trips.ground import Ground
from runplanner.trips.judge import Judge
from runplanner.trips.judged import Route
from runplanner.trips.ride import Ride
from runplanner.visits.due import Due
from runplanner.visits.stop import Visit
from tests.bench.archives import text_of
from tests.bench.facilities import FacilityGoing, Passing
from tests.bench.instances import Instance
from tests.bench.twin import MANY, twin

DAY = 1440


@dataclass(frozen=True, slots=True)
class Periodic:
    """One instance; node 0 is the depot, then the customers; ``facilities`` are matrix rows."""

    legs: list[list[int]]
    demand: list[int]
    service: list[int]
    often: list[int]
    facilities: list[int]
    days: int
    vehicles: int
    capacity: int
    longest: int


def periodic(name: str) -> Periodic:
    """Return a published instance, its legs turned round; or one like it.

    ``NAME~1`` is the instance with what customers want dealt out among them anew; ``~2`` and
    ``~3`` are others, with days that are a tenth and a fifth longer.
    """
    name, _, dealt = name.partition("~")
    given: dict[str, Any] = json.loads(text_of("pvrpif", f"{name}.geojson"))
    facts = [feature["properties"] for feature in given["features"]]
    customers = [one for one in facts if one["type"] == "customer"]
    rows, info = given["duration"], given["info"]
    longest = info["maxDuration"]
    if dealt:
        random.Random(f"{name}~{dealt}").shuffle(customers)
        longest = longest * (9 + int(dealt)) // 10
    return Periodic(
        [[int(rows[j][i]) for j in range(len(rows))] for i in range(len(rows))],
        [int(one["demand"]) for one in customers],
        [int(one["service"]) for one in customers],
        [int(one["frequency"]) for one in customers],
        [i for i, one in enumerate(facts) if one["type"] == "intermediateFacility"],
        info["planningHorizon"],
        info["numVehicles"],
        info["maxCapacity"],
        longest,
    )


def improver_of(given: Periodic, seed: int) -> Improver:
    """Return the campaign search for an instance."""
    ground = Ground(_outfit(given))
    ground.dues = tuple(_due(given, i) for i in range(len(given.demand)))
    ground.__dict__["fixed_min"] = tuple(given.service)
    keeper = Keeper(ground, judge=_ByFacility(ground, given))
    keeper.chains = _Spaced(ground, given)
    improver = Improver(ground, seed, keeper=keeper)
    passing = Passing(given.legs, given.facilities, len(given.demand))
    improver.resorter.going = partial(FacilityGoing, passing)
    return improver


def most_wages(given: Periodic) -> int:
    """Return the most that all hours of all drivers can cost."""
    return given.days * given.vehicles * -(-given.longest // 60)


def _outfit(given: Periodic) -> Outfit:
    count = len(given.demand)
    bare = twin(
        Instance(
            _legs(given), [0] * count, given.demand, given.vehicles, given.capacity,
            [(0, DAY)] * count, horizon=DAY,
        )
    )  # fmt: skip
    anywhere = replace(bare.feed_store, place=count + 1)
    bare = replace(
        bare,
        places=(*bare.places, Place("facility", "Nearest facility", 0.0, 0.0)),
        feed_store=anywhere,
        honey_house=replace(bare.honey_house, base=anywhere),
    )
    whole = tuple(Span(day * DAY, (day + 1) * DAY) for day in range(given.days + 1))
    yards = tuple(
        replace(yard, open_spans=whole, feed_spans=whole, sun_spans=whole,
                finish_by_day=given.days - 1)
        for yard in bare.yards
    )  # fmt: skip
    last = replace(bare.season.feed_by, day=given.days - 1)
    return replace(
        bare,
        yards=yards,
        hours=replace(bare.hours, duty_max_min=given.longest, end_min=given.longest + 1),
        season=replace(bare.season, n_days=given.days, take_off_by=last, strips_by=last,
                       feed_by=last),
        feed=Feed(verbatim("unit"), 1000, 1000, 1000, MANY, 0, 1, MANY, None, False, 1, DAY, 1),
    )  # fmt: skip


def _legs(given: Periodic) -> list[list[int]]:
    """Return legs that are never longer than the true ones, with one place for all facilities.

    It is as far off as the nearest facility; the last customer of a day may be left for the
    depot instead, which is then no further drive.
    """
    rows, count = given.legs, len(given.demand)
    near = range(count + 1)
    legs = [[*row[: count + 1], min(row[f] for f in given.facilities)] for row in rows[: count + 1]]
    for c in near[1:]:
        legs[c][-1] = min(legs[c][-1], rows[c][0])
    home = min(rows[c][0] - legs[c][-1] for c in near[1:])
    there = (min(rows[f][c] for f in given.facilities) for c in near[1:])
    return [*legs, [home, *there, 0]]


def _due(given: Periodic, i: int) -> Due:
    often, each = given.often[i], given.demand[i]
    apart = given.days // often * DAY - given.longest if often > 1 else 0
    lacks = tuple(each * (often - done) for done in range(often + 1))
    return Due(False, False, False, often, each, apart, each * often, lacks)


class _Spaced(Chains):
    """Also refuses visits that are not evenly spaced round the period."""

    def __init__(self, ground: Ground, given: Periodic) -> None:
        super().__init__(ground)
        self._given = given

    def read(self, yard: int, visits: tuple[Visit, ...]) -> Progress | None:
        apart = self._given.days // self._given.often[yard]
        days = [visit.day for visit in visits]
        even = all(b - a == apart for a, b in pairwise(days))
        return super().read(yard, visits) if even else None


class _ByFacility(Judge):
    """Sends trucks past the best facility before every trip, and home from the last customer."""

    def __init__(self, ground: Ground, given: Periodic) -> None:
        super().__init__(ground)
        self._given = given

    def _joined(self, hauler: int, rides: tuple[Ride, ...]) -> Route | None:
        legs, here, driving, work = self._given.legs, 0, 0, 0
        steps: list[Step] = []
        for ride in rides:
            places = [place for _, place in ride.stations[1:-1]]
            there = min(self._given.facilities, key=lambda f: legs[here][f] + legs[f][places[0]])
            moves = [legs[here][there], legs[there][places[0]]]
            moves += [legs[a][b] for a, b in pairwise(places)]
            moves.append(0)
            steps += (s._replace(leg_min=leg) for s, leg in zip(ride.steps, moves, strict=True))
            driving, work, here = driving + sum(moves), work + ride.work_min, places[-1]
        home = legs[here][0]
        driving += home
        return Route(rides, tuple(steps), home, driving, driving + work, driving)
