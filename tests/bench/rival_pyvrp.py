"""PyVRP day by day with reloads; a bench-time library, never asked for by the program."""

import importlib.util
import warnings
from typing import Any

from tests.bench.daywork import FAR, Fleet, fleet, prizes
from tests.bench.today import Today, Trips


def absent() -> str:
    """Return why this rival cannot run, or nothing."""
    if importlib.util.find_spec("pyvrp") is None:
        return "PyVRP is not installed: pip install 'runplanner[bench]' brings it."
    return ""


def by_pyvrp(today: Today) -> list[Trips]:
    """Return the trips PyVRP finds: optional jobs with prizes, reloads, overtime, windows."""
    from pyvrp import ProblemData, solve
    from pyvrp.stop import MaxRuntime

    fleets = [fleet(today, truck) for truck in today.trucks]
    clients, groups, jobs = _clients(today, fleets)
    data: Any = ProblemData(
        _locations(len(today.jobs)), clients, [_depot(fleets[0])],
        [_vehicle(one, i) for i, one in enumerate(fleets)],
        [_array(one.metres) for one in fleets],
        [_array(one.minutes) for one in fleets],
        groups,
    )  # fmt: skip
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        result = solve(data, MaxRuntime(today.seconds), seed=1, collect_stats=False, display=False)
    found: list[Trips] = [[] for _ in today.trucks]
    for route in result.best.routes():
        found[route.vehicle_type()] = _trips(today, route, jobs)
    return found


def _array(rows: list[list[int]]) -> Any:
    import numpy as np

    return np.array(rows, dtype=np.int64)


def _locations(jobs: int) -> list[Any]:
    from pyvrp import Location

    return [Location(0, 0) for _ in range(jobs + 1)]


def _depot(one: Fleet) -> Any:
    from pyvrp import Depot

    return Depot(0, one.opens, one.closes, one.trip_min)


def _clients(today: Today, fleets: list[Fleet]) -> tuple[list[Any], list[Any], list[int]]:
    """One client for each span of a job's hours; at most one of them is served."""
    from pyvrp import Client, ClientGroup

    worth = prizes(today, fleets)
    clients: list[Any] = []
    groups: list[Any] = []
    jobs: list[int] = []
    for i, job in enumerate(today.jobs):
        minutes = max(one.visit_min[i] for one in fleets)
        base = max(one.base_min[i] for one in fleets)
        fits = [span for span in job.spans if span.start_min <= span.end_min - minutes]
        first, group = len(clients), len(groups) if len(fits) > 1 else None
        for span in fits:
            late = span.end_min - minutes
            clients.append(
                Client(
                    i + 1, [job.in_g, 0], [job.out_g, job.boxes], minutes + base,
                    span.start_min, late, prize=worth[i], required=False, group=group,
                )
            )  # fmt: skip
            jobs.append(i)
        if group is not None:
            groups.append(ClientGroup(list(range(first, len(clients))), required=False))
    return clients, groups, jobs


def _vehicle(one: Fleet, profile: int) -> Any:
    from pyvrp import VehicleType

    return VehicleType(
        1, [one.load_g, one.boxes], 0, 0, one.day_milli_cents, one.opens, one.closes,
        one.normal_min, FAR, one.km_cents, one.crew_milli_cents, profile, reload_depots=[0],
        max_overtime=max(0, one.most_min - one.normal_min),
        unit_overtime_cost=one.crew_milli_cents // 2,
    )  # fmt: skip


def _trips(today: Today, route: Any, jobs: list[int]) -> Trips:
    trips: Trips = []
    last = None
    for activity in route.schedule():
        if not activity.is_client():
            continue
        if activity.trip != last:
            trips.append([])
            last = activity.trip
        trips[-1].append(today.jobs[jobs[activity.idx]])
    return trips
