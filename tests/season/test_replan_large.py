"""Forty yards, fourteen days, one window shut: few visits move, and soon."""

from datetime import date, timedelta
from statistics import median

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.differences import differences
from runplanner.scenario import read_scenario
from runplanner.scenario.changes import changed, typed_changes
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests import fresh


@pytest.mark.slow
def test_closing_one_window_moves_few_visits() -> None:
    """At 20:00 of day 2 one yard's window shuts: in the median at most 5 % of the others move."""
    outfit = read_scenario(fresh.ROOT / "scenarios" / "vine_hills")
    plan = plan_season(outfit, rounds=2)
    first = date.fromisoformat(outfit.season.first_date)
    visits = {
        call.yard: shift.day
        for shift in plan.shifts
        for trip in shift.trips
        for call in trip.yards()
        if shift.day in {3, 4}
    }
    shares = []
    for yard, day in list(visits.items())[:4]:
        typed = [f"shut {yard} {first + timedelta(day)}"]
        facts = changed(plan, typed_changes(typed, f"{first + timedelta(2)} 20:00"))
        new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
        found = differences(facts.plan, new)
        others = [one for one in found.moved if one.was and one.spot.yard != yard]
        shares.append(100 * len(others) / found.promised)

        assert () == audit(new, facts.plan)
        assert new.tally.uncovered == 0

    assert shares
    assert median(shares) <= 5
