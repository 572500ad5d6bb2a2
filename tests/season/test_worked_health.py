"""States of health worked by hand: what is done, in what order, and what is only listed."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.outfit.yards import Health
from tests.season.shapes import DONE, did, planned, trips, visits
from tests.season.tiny import four, standstill_fed, tiny, watched_yard

HELD = (Health.SUSPECT, Health.STANDSTILL)


def listed(plan: Plan, yard: str) -> list[tuple[Job, int, int]]:
    """The undone work of a yard."""
    return [(e.job, e.colonies, e.stores_g) for e in plan.undone if e.yard == yard]


@pytest.mark.parametrize("health", HELD)
@pytest.mark.parametrize("agreed", [True, False])
def test_a_held_yard_with_honey_on_is_left_and_listed(health: Health, *, agreed: bool) -> None:
    """Nothing leaves it, so nothing is done; its work is listed but counts for nothing."""
    held = four(1, 1, health=health, feed_agreed=agreed)
    plan = planned(tiny([(10, 0), (14, 0)], [held, four(2, 1)], 1))

    assert DONE == plan.tally
    assert ["0 yard2 take-off 4, feed 4, strips 4"] == did(plan)
    assert [(Job.TAKE_OFF, 4, 0), (Job.FEED, 4, 32_000), (Job.STRIPS, 4, 0)] == listed(
        plan, "yard1"
    )
    assert all(entry.why for entry in plan.undone)
    assert () == plan.reliefs


def test_a_standstill_yard_without_honey_is_fed_where_that_is_agreed() -> None:
    """Feed and strips go in; nothing comes off."""
    plan = planned(standstill_fed())

    # Load 16, stop (480 + 240) / 60 + 10 + 20 to wash down = 42, legs 20, unload 10: 88 min.
    assert ["feed 4, strips 4"] == [line.split(" ", 2)[2] for line in did(plan)]
    assert (DONE, 4_400) == (plan.tally, plan.bill.crew)
    assert [] == listed(plan, "yard1")


def test_what_was_agreed_and_not_done_is_undone() -> None:
    """Without a can there is no syrup: the inspector is not to blame, and it counts."""
    plan = planned(replace(standstill_fed(), containers=()))
    (feed,) = [one for one in plan.undone if (one.yard, one.job) == ("yard1", Job.FEED)]

    assert 32_000 == plan.tally.unfed_g == feed.stores_g
    assert not any("consent" in reason for reason in feed.why)
    assert plan.reliefs


@pytest.mark.parametrize("health", HELD)
def test_a_held_yard_is_last_and_the_crew_washes(health: Health) -> None:
    """Fed as agreed, at the end of the trip, with 20 min of washing; a standstill is suspicion."""
    held = four(1, 1, boxes=0, health=health, feed_agreed=True)
    plan = planned(tiny([(10, 0), (14, 0)], [held, four(2, 1)], 1))
    stay = {call.yard: call.end_min - call.start_min for _, call in visits(plan)}

    # The nearer yard would else come first or last alike; 22 + 20 min there.
    assert [["yard2", "yard1"]] == trips(plan)
    assert 42 == stay["yard1"]


def test_a_watched_yard_is_last_and_its_boxes_stand_apart() -> None:
    """Six and six boxes, five high: three columns together, four apart."""
    plan = planned(watched_yard())
    cans = 3  # 68 l, of which nothing is left but the cans' places

    assert [["yard2", "yard1"]] == trips(plan)
    assert [2 + cans, 2 + 2 + cans] == [call.after.places for _, call in visits(plan)]


def test_two_watched_yards_are_two_trips() -> None:
    """Each must be the last of its trip."""
    yards = [four(n, 1, health=Health.WATCH) for n in (1, 2)]
    plan = planned(tiny([(10, 0), (14, 0)], yards, 1))

    assert [["yard1"], ["yard2"]] == sorted(trips(plan))


def test_a_yard_that_needs_nothing_more_than_strips_and_condensing() -> None:
    """No honey, full stores: still inspected, condensed and stripped."""
    plan = planned(tiny([(10, 0)], [replace(four(1, 1), boxes=0, stores_g=9_000)], 1))

    # 15 + 20 + (960 + 240) / 60 + 10 + 10 = 75 min; nothing to spin, nothing to feed.
    assert ["0 yard1 take-off 4, strips 4"] == did(plan)
    assert (75 * 50, 0, 0) == (plan.bill.crew, plan.bill.spinning, plan.bill.syrup)
