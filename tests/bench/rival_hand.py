"""The hand plan: nearest fair yard next, fill the truck, feed the day after."""

from runplanner.season.standing.keeper import Keeper
from tests.bench.filling import filled
from tests.bench.today import Today, Trips


def by_hand(today: Today) -> list[Trips]:
    """Return trips as a notebook gives them."""
    keeper = Keeper(today.ground)
    state, open_jobs, found = today.state, list(today.jobs), []
    for truck in today.trucks:
        state, trips, open_jobs = filled(keeper, state, today, truck, open_jobs, [])
        found.append(trips)
    return found
