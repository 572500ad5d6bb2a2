"""A yard comes off on two days; what one trip is counted to have taken off, no other took.

40 colonies with 120 boxes: 20 on Tuesday, in three lots, and 20 on Wednesday with strips for all.
"""

from dataclasses import replace
from functools import cache

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.errors import ScenarioError
from runplanner.phrase import in_english
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.outfits import a_yard, an_outfit
from tests.running import put_in

TUESDAY, WEDNESDAY = (f"done 030{day}-truck1-0740 Yard 1: " for day in (2, 3))


@cache
def two_days() -> Plan:
    """The plan."""
    yard = replace(a_yard(1, colonies=40, boxes=120), stores_g=9_000)
    return plan_season(an_outfit([(5, 0)], [yard]), rounds=5, proof=False)


def told(*lines: str) -> Changed:
    """Counts of both trips, on Wednesday evening."""
    return put_in(*lines, now="Wed 20:00", plan=two_days())


def off(facts: Changed) -> list[int]:
    """The colonies that each trip took off."""
    return [
        sum(a.colonies for c in trip.calls for a in c.actions if a.job is Job.TAKE_OFF)
        for shift in facts.plan.shifts for trip in shift.trips
    ]  # fmt: skip


def test_the_plan_is_what_these_tests_take_it_to_be() -> None:
    """Half on each day."""
    assert [20, 20] == off(told())


def test_a_trip_that_nobody_counted_took_what_others_left() -> None:
    """Five more on Tuesday are five fewer on Wednesday; it was refused as 45 of 40."""
    facts = told(f"{TUESDAY}25 colonies 75 boxes")
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)

    assert [25, 15] == off(facts)
    assert (
        "Yard 1: 0303-truck1-0740 is presumed to have taken 15 off, not 20: the others were "
        "counted at other stops"
    ) in [in_english(note) for note in facts.notes]
    assert () == audit(new, facts.plan)


@pytest.mark.parametrize(
    "lines",
    [
        (f"{TUESDAY}25 colonies 75 boxes", f"{WEDNESDAY}15 colonies 45 boxes"),
        (f"{WEDNESDAY}15 colonies 45 boxes", f"{TUESDAY}25 colonies 75 boxes"),
    ],
)
def test_both_counts_go_in_in_any_order(lines: tuple[str, str]) -> None:
    """All forty are off."""
    assert [25, 15] == off(told(*lines))


def test_what_was_left_is_the_whole_yard_so_strips_went_in() -> None:
    """Fifteen for twenty planned, as Tuesday had taken five more: nothing held strips up."""
    facts = told(f"{TUESDAY}25 colonies 75 boxes", f"{WEDNESDAY}15 colonies 45 boxes")
    last = facts.plan.shifts[1].trips[0].yards()[-1]

    assert Job.STRIPS in {one.job for one in last.actions}
    assert not any("not given" in in_english(note) for note in facts.notes)


def test_a_count_put_right_gives_the_other_trip_its_colonies_back() -> None:
    """In the message of the next morning."""
    first = told(f"{TUESDAY}25 colonies 75 boxes")
    right = put_in(f"{TUESDAY}20 colonies 60 boxes", now="Thu 8:00", plan=first.plan)

    assert [20, 20] == off(right)


def test_more_than_a_yard_has_is_still_refused() -> None:
    """Both counted: 45 of 40."""
    with pytest.raises(ScenarioError, match="at most the 40 colonies of the yard"):
        told(f"{TUESDAY}25 colonies 75 boxes", f"{WEDNESDAY}20 colonies 60 boxes")
