"""Feeders that a later round brings where those of the first have been fetched."""

from dataclasses import replace

import pytest

from runplanner.audit.book import open_book
from runplanner.audit.kit import feeders
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from tests.audit.feeder_plan import feeders_fetched
from tests.audit.planted import edited


def fed_again(colonies: int, left: int, had: int = 10) -> Plan:
    """Feeders fetched on day 5 from ten colonies, ``had`` of them fed; on day 6 round 2 comes."""
    plan = feeders_fetched()
    fed = plan.shifts[1]
    trip = fed.trips[0]
    again = Action(Job.FEED, colonies, round=2, ml=85_000, feeders=left)
    calls = tuple(
        replace(one, start_min=one.start_min + 7_200, actions=(again,) if one.yard else ())
        for one in trip.calls
    )
    late = replace(fed, day=6, trips=(replace(trip, id="again", calls=calls),))
    first = "shifts.1.trips.0.calls.1.actions.0"
    plan = edited(plan, {f"{first}.colonies": had, f"{first}.feeders": had})
    return replace(plan, shifts=(*plan.shifts, late))


@pytest.mark.parametrize(
    ("colonies", "left", "had", "right"),
    [(10, 10, 10, None), (10, 0, 10, "10"), (4, 4, 10, None), (4, 5, 10, "4"), (10, 10, 6, "6")],
)
def test_a_round_after_the_fetching_brings_feeders(
    colonies: int, left: int, had: int, right: str | None
) -> None:
    """One to each colony that had the round before from feeders that are gone."""
    found = [one.allowed for one in feeders(open_book(fed_again(colonies, left, had)))]

    assert ([] if right is None else [right]) == found
