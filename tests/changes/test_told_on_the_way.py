"""Days told anew on whole plans: what the audit of the new plan would refuse."""

from datetime import date, timedelta
from functools import cache

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.days import DAY_MIN, clock
from runplanner.scenario.read import read_scenario
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests import fresh
from tests.bench.campaigns import SIZES, campaign
from tests.running import put_in

pytestmark = pytest.mark.no_cover  # counting lines takes thrice as long; other tests meet these

MOST = 3


@cache
def twenty_four() -> Plan:
    """A campaign of the bench, as first built."""
    return plan_season(campaign(SIZES[1], 1), rounds=0, proof=False)


@cache
def apart() -> Plan:
    """The larger demo, whose honey house and feed store lie apart, as first built."""
    outfit = read_scenario(fresh.ROOT / "scenarios" / "vine_hills")
    return plan_season(outfit, rounds=0, proof=False)


def found(plan: Plan, line: str, now: str) -> list[str]:
    """What the audit finds in the plan made again once a line is typed, but for reasons."""
    facts = put_in(line, now=now, plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0, proof=False)
    return [one.sentence() for one in audit(new, facts.plan) if one.rule != "undone"]


def test_a_truck_called_home_while_it_drives_rests_on_the_way() -> None:
    """Its break was to be at the next stop, which it does not reach: 365 min without one."""
    assert [] == found(twenty_four(), "home Truck 1", "2027-03-08 15:08")


def test_the_last_stop_is_left_so_that_the_way_home_is_no_stretch_too_long() -> None:
    """By a count that is higher the latest minute had ended the day itself."""
    line = "done 0310-truck1-0755 Yard 24: 18 colonies 38 boxes"
    assert [] == found(twenty_four(), line, "2027-03-10 12:04")


def test_the_store_is_not_called_at_for_kit_of_stops_left_out() -> None:
    """Trips that lift boards after their first stop are called home from there."""
    plan, tried = apart(), 0
    first_date = plan.outfit.season.first_date
    for shift in plan.shifts:
        trip = shift.trips[0]
        first, *later = trip.yards()
        if not first.takes_boxes() or any(one.boards_off for one in first.actions):
            continue
        if not any(one.boards_off for call in later for one in call.actions):
            continue
        tried += 1
        day, minute = divmod(first.start_min + 5, DAY_MIN)
        now = f"{date.fromisoformat(first_date) + timedelta(days=day)} {clock(minute)}"
        assert [] == found(plan, f"home {plan.outfit.truck(shift.truck).name}", now)
        if tried == MOST:
            return
    assert tried
