"""A truck that is late is told so after its plan had it home, or out with the next trip."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed
from runplanner.daybook.plan import Plan
from runplanner.days import clock
from runplanner.errors import ScenarioError
from runplanner.season.replan_season import replan_season
from tests.changes.thursday import THURSDAY, red, two_loads
from tests.running import put_in, running_plan


def spun(plan: Plan, day: int) -> list[tuple[str, str, int]]:
    """The stretches of spinning on a day."""
    return [
        (clock(one.start_min), clock(one.end_min), one.boxes)
        for one in plan.spinning if one.start_min // 1_440 == day
    ]  # fmt: skip


def anew(facts: Changed) -> Plan:
    """Planned again; the audit finds all good."""
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    assert () == audit(new, facts.plan)
    return new


def test_a_truck_due_home_at_four_past_one_is_told_to_be_out_still() -> None:
    """At 14:01 Red has just left Fernbank: at the base 14:10, a break, and unloaded at 15:05."""
    plan = running_plan()
    facts = put_in("left Fernbank 14:00", now="Thu 4 Mar 14:01", plan=plan)
    last = red(facts)[0].trips[0].calls[-1]

    assert THURSDAY + 784 == plan.shifts[0].end_min
    assert ("tell Red: Base 14:10, home 15:05",) == facts.notes
    assert THURSDAY + 905 == last.end_min


@pytest.mark.parametrize(
    ("left", "now", "stretches"),
    [
        ("14:00", "14:01", [("15:05", "17:35", 30)]),
        # Twenty-five minutes are five boxes of thirty; the others are spun next day.
        ("16:30", "16:31", [("17:35", "18:00", 5)]),
        # By then the plan had spun all of them before they came.
        ("16:30", "20:31", []),
    ],
)
def test_no_box_is_spun_before_it_came(
    left: str, now: str, stretches: list[tuple[str, str, int]]
) -> None:
    """As planned thirty were spun from 13:04."""
    assert [("13:04", "15:34", 30)] == spun(running_plan(), 3)
    new = anew(put_in(f"left Fernbank {left}", now=f"Thu 4 Mar {now}"))

    assert stretches == spun(new, 3)
    assert 70 == sum(one.boxes for one in new.spinning)


def test_boxes_that_came_while_others_were_spun_count_from_then_on() -> None:
    """Red comes at 15:05: of thirty boxes from 13:04 to 15:34 the last five are spun in time."""
    facts = put_in("left Fernbank 14:00", now="Thu 4 Mar 16:00")

    assert [("15:09", "15:34", 5)] == spun(facts.plan, 3)


def test_a_first_trip_that_is_late_puts_off_the_second_though_that_was_to_have_begun() -> None:
    """At 11:05 the plan has it out with the second load since 10:23; it leaves Two at 11:00."""
    plan = two_loads()
    facts = put_in("left Two 11:00", now="Mon 1 Mar 11:05", plan=plan)
    first, second = facts.plan.shifts[0].trips

    assert ["10:23"] == [clock(plan.shifts[0].trips[1].calls[0].end_min)]
    assert "11:00" == clock(first.calls[2].end_min)
    assert ("11:28", "11:28") == (clock(first.calls[-1].end_min), clock(second.calls[0].start_min))
    anew(facts)


def test_once_a_stop_of_the_second_is_counted_the_first_is_past_telling() -> None:
    """Whoever counted One knows that the truck has been there."""
    plan = two_loads()
    two = plan.shifts[0].trips[1]
    facts = put_in(f"done {two.id} {two.yards()[0].yard}: 19 colonies 38 boxes",
                   now="Mon 1 Mar 15:00", plan=plan)  # fmt: skip

    with pytest.raises(ScenarioError, match="the last stop that a truck has begun"):
        put_in("left Two 11:00", now="Mon 1 Mar 15:05", plan=facts.plan)


@pytest.mark.parametrize(("person", "stretches"), [("caro", [("13:04", "15:34", 30)]), ("ann", [])])
def test_who_is_on_the_late_truck_has_not_spun_meanwhile(
    person: str, stretches: list[tuple[str, str, int]]
) -> None:
    """Thirty boxes stood there before; Ann is with Red until 15:05."""
    plan = running_plan()
    outfit = replace(plan.outfit, honey_house=replace(plan.outfit.honey_house, waiting_boxes=30))
    thursday = replace(plan.spinning[0], people=(person,))
    plan = replace(plan, outfit=outfit, spinning=(thursday, *plan.spinning[1:]))
    facts = put_in("left Fernbank 14:00", now="Thu 4 Mar 14:30", plan=plan)

    assert stretches == spun(facts.plan, 3)
