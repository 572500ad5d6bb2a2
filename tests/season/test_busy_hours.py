"""A season driven through busy hours, planned and then counted again by the audit."""

from dataclasses import replace

from runplanner.audit.audit import audit
from runplanner.season.plan_season import plan_season
from tests.outfits import an_outfit


def test_a_plan_goes_by_the_hour() -> None:
    """With every hour from 5 to 20 a half slower, drives take longer and no rule is broken."""
    even = an_outfit([(3, 4), (10, 12)], title="busy (invented)")
    slow = tuple(1500 if 5 <= hour < 20 else 1000 for hour in range(24))
    busy = replace(even, travel=replace(even.travel, by_hour=slow))
    plain, made = (plan_season(outfit, rounds=5, seed=1) for outfit in (even, busy))

    assert () == audit(made) == audit(plain)
    assert sum(s.driving_min for s in made.shifts) > sum(s.driving_min for s in plain.shifts)
    assert made == plan_season(busy, rounds=5, seed=1)
