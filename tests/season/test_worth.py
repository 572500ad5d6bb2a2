"""What a job is worth: work that costs more may be left, says so, and is charged its worth."""

import itertools
from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Access
from tests.season.brute import Enumerator
from tests.season.shapes import DONE, did, planned
from tests.season.tiny import four, one_yard, tiny


def valued(outfit: Outfit, take_off: int, feed: int, strips: int) -> Outfit:
    """An outfit whose jobs are worth so many cents a colony, a kilogram, a colony."""
    prices = replace(
        outfit.prices,
        worth_take_off_cents=take_off,
        worth_feed_cents=feed,
        worth_strips_cents=strips,
    )
    return replace(outfit, prices=prices)


def jobs_left(plan: Plan) -> set[tuple[str, Job]]:
    """What is left where."""
    return {(one.yard, one.job) for one in plan.undone}


def a_far_yard() -> Outfit:
    """A yard 10 km out and one 200 km out."""
    return tiny([(10, 0), (200, 0)], [four(1, 2), four(2, 2)], 2)


def test_a_yard_too_far_to_be_worth_it_is_left() -> None:
    """The far yard's 400 km cost 240.00 and more; it is worth 4 x (30 + 8 kg x 3 + 10) = 256.

    The near one is worth as much and costs 188.50.
    """
    plan = planned(valued(a_far_yard(), 3_000, 300, 1_000))

    assert ["0 yard1 take-off 4, feed 4, strips 4"] == did(plan)
    assert {("yard2", Job.TAKE_OFF), ("yard2", Job.FEED), ("yard2", Job.STRIPS)} == jobs_left(plan)
    assert 25_600 == plan.bill.left
    assert DONE == plan.tally
    assert () == plan.reliefs
    assert plan.bound.cents <= plan.bill.total()


def test_what_is_left_says_what_it_costs_and_is_worth() -> None:
    """The worth is counted by hand above; what it costs is more.  The reason has no sum in it."""
    plan = planned(valued(a_far_yard(), 3_000, 300, 1_000))
    (why,) = {one.why for one in plan.undone}
    ((cost, worth),) = {(one.cost_cents, one.worth_cents) for one in plan.undone}

    assert ("left on purpose: it takes more than it is stated to be worth",) == why
    assert 25_600 == worth
    assert cost > worth


def test_nothing_is_left_that_is_worth_more_than_it_costs() -> None:
    """At ten times the worth the plan is that without any."""
    free, dear = planned(a_far_yard()), planned(valued(a_far_yard(), 20_000, 2_000, 5_000))

    assert did(free) == did(dear)
    assert free.bill == dear.bill
    assert () == dear.undone


@pytest.mark.parametrize("worth", [(1, 0, 0), (1, 0, 1), (0, 0, 0), (1, 1, 0)])
def test_a_job_is_not_left_where_a_job_without_a_worth_waits_for_it(
    worth: tuple[int, int, int],
) -> None:
    """Feed or strips without a stated worth keep the take-off in the plan, cheap as it is."""
    plan = planned(valued(one_yard(), *worth))

    assert DONE == plan.tally
    assert Job.TAKE_OFF not in {job for _, job in jobs_left(plan)}


def test_what_cannot_be_done_at_all_is_named_with_its_rules() -> None:
    """A gate too narrow for the truck, not money, keeps the yard from being worked."""
    narrow = four(1, 2, access=Access(max_width_mm=1_000))
    plan = planned(valued(tiny([(10, 0)], [narrow], 2), 100_000, 10_000, 10_000))

    assert 4 * 100_000 + 32 * 10_000 + 4 * 10_000 == plan.bill.left
    assert {(0, 0)} == {(one.cost_cents, one.worth_cents) for one in plan.undone}
    assert not any("worth" in reason for one in plan.undone for reason in one.why)


STEPS = (0, 100, 900, 6_000)


@pytest.mark.no_cover  # as in test_any_outfit.py
def test_the_planner_leaves_what_brute_force_leaves() -> None:
    """The cheapest plan for each undone vector, by brute force, plus what is left at its worth.

    Of all vectors that leave nothing without a worth the planner finds the cheapest sum.
    """
    search = Enumerator(one_yard(), 1)
    cheapest = {left: next(search.plans(only=left), None) for left in search.vectors()}
    found = {left: plan.bill.total() for left, plan in cheapest.items() if plan is not None}

    assert len(found) > 2
    for take_off, feed, strips in itertools.product(STEPS, repeat=3):
        sums = [
            cents + bare * strips + -(-grams * feed // 1000) + full * take_off
            for (uncovered, bare, grams, full), cents in found.items()
            if not uncovered
            and (strips or not bare)
            and (feed or not grams)
            and (take_off or not full)
        ]
        plan = planned(valued(one_yard(), take_off, feed, strips), rounds=30)
        assert min(sums) == plan.bill.total(), (take_off, feed, strips)


def test_the_bound_of_take_offs_alone_holds_for_plans_that_leave_strips() -> None:
    """Two yards that want no feed: strips at 4.00 a colony are worth 1.00, so eight are left."""
    full = [four(1, 2, stores_g=9_000), four(2, 2, stores_g=9_000)]
    plan = planned(valued(tiny([(10, 0), (14, 0)], full, 2), 0, 0, 100), rounds=3)

    assert {("yard1", Job.STRIPS), ("yard2", Job.STRIPS)} == jobs_left(plan)
    assert 800 == plan.bill.left
    assert plan.bound.cents <= plan.bill.total()
