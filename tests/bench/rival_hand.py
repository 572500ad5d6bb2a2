"""The hand plan: nearest fair yard next, fill the truck, feed the day after."""

from runplanner.season.state import Keeper, State
from runplanner.trips.stop import Day, Trip
from tests.bench.diary import Today, Truck, Trips, ways_out
from tests.bench.jobs import Job

ORDER = ("feed", "off", "strips", "boards")
"""What is promised first comes first: syrup, then boxes, strips, and boards for tomorrow."""


def by_hand(today: Today) -> list[Trips]:
    """Return trips as a notebook gives them."""
    keeper = Keeper(today.ground)
    state, open_jobs, found = today.state, list(today.jobs), []
    for truck in today.trucks:
        state, trips, open_jobs = _filled(keeper, state, today, truck, open_jobs)
        found.append(trips)
    return found


def _filled(
    keeper: Keeper, state: State, today: Today, truck: Truck, jobs: list[Job]
) -> tuple[State, Trips, list[Job]]:
    trips: Trips = []
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
