"""The hand rule: the nearest job next, on the trip under way or on a new one."""

from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day, Trip
from tests.bench.jobs import Job
from tests.bench.today import Today, Trips, Truck, ways_out

ORDER = ("feed", "off", "strips", "boards")
"""What is promised first comes first: syrup, then boxes, strips, and boards for tomorrow."""


def filled(
    keeper: Keeper, state: State, today: Today, truck: Truck, jobs: list[Job], trips: Trips
) -> tuple[State, Trips, list[Job]]:
    """Add jobs to a truck's trips, the nearest first, until none fits; return what is left."""
    for kind in ORDER:
        refused: set[int] = set()
        while True:
            here = _here(today, trips)
            near = sorted(
                (i for i, job in enumerate(jobs) if job.kind == kind and i not in refused),
                key=lambda i: (_apart(today, truck, here, jobs[i]), i),
            )
            if not near:
                break
            new = _joined(keeper, state, today, truck, trips, jobs[near[0]])
            if new is None:
                refused.add(near[0])
                continue
            state, trips = new
            jobs = [job for i, job in enumerate(jobs) if i != near[0]]
            refused = set()
    return state, trips, jobs


def _here(today: Today, trips: Trips) -> int:
    if not trips:
        return today.ground.outfit.feed_store.place
    return today.ground.place(trips[-1][-1].stop.yard, today.day)


def _apart(today: Today, truck: Truck, here: int, job: Job) -> int:
    leg = today.ground.leg_min(truck.hauler, here, today.ground.place(job.stop.yard, today.day))
    return 10**6 if leg is None else leg


def _joined(
    keeper: Keeper, state: State, today: Today, truck: Truck, trips: Trips, job: Job
) -> tuple[State, Trips] | None:
    """Add a job to the trip under way, or begin the next trip with it."""
    choices: list[Trips] = [[*trips, [job]]]
    if trips:
        choices.insert(0, [*trips[:-1], [*trips[-1], job]])
    for choice in choices:
        stops: tuple[Trip, ...] = tuple(tuple(j.stop for j in trip) for trip in choice)
        for hauler in ways_out(today.ground, truck):
            new = keeper.replace(state, (today.day, truck.truck), Day(today.day, hauler, stops))
            if new is not None:
                return new, choice
    return None
