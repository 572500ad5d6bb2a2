"""Forty yards, fourteen days, one window shut: few visits move, and soon."""

from datetime import date, timedelta
from statistics import median

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import changed, typed_changes
from runplanner.daybook.differences import Differences, differences
from runplanner.daybook.plan import Plan
from runplanner.paperwork.changed.change_sheet import manifest_text
from runplanner.scenario import read_scenario
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests import fresh


@pytest.mark.slow
def test_closing_one_window_moves_few_visits() -> None:
    """On the evening of day 2 a window shuts: in the median at most 5 % of other visits move."""
    outfit = read_scenario(fresh.ROOT / "scenarios" / "vine_hills")
    plan = plan_season(outfit, rounds=2)
    first = date.fromisoformat(outfit.season.first_date)
    soon = sorted({shift.day for shift in plan.shifts if shift.day > 2})[:2]
    visits = {
        call.yard: shift.day
        for shift in plan.shifts
        for trip in shift.trips
        for call in trip.yards()
        if shift.day in soon
    }
    shares = []
    for yard, day in list(visits.items())[:4]:
        typed = [f"shut {yard} {first + timedelta(day)}"]
        facts = changed(plan, typed_changes(typed, f"{first + timedelta(2)} 20:00"))
        new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=3)
        found = differences(facts.plan, new)
        others = [
            one for one in (*found.moved, *found.reworked)
            if one.was and one.spot.yard != yard
        ]  # fmt: skip
        shares.append(100 * len(others) / found.promised)
        _papers_stay(facts.plan, new, found)

        assert () == audit(new, facts.plan)
        assert new.tally.uncovered == 0

    assert shares
    assert median(shares) <= 5


def _papers_stay(before: Plan, after: Plan, found: Differences) -> None:
    """On every day that no visit left or came to, the papers are the same to the last sign."""
    spots = [spot for one in (*found.moved, *found.later) for spot in (one.was, one.now) if spot]
    touched = {spot.day for spot in spots}
    old, new = (
        {
            trip.id: manifest_text(plan, shift, trip)
            for shift in plan.shifts if shift.day > 2 and shift.day not in touched
            for trip in shift.trips
        }
        for plan in (before, after)
    )  # fmt: skip
    assert len(old) > 5
    assert old == new
