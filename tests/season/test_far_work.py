"""Work far from home wants people on the way, and pays its own overtime: worked by hand."""

import math
from dataclasses import replace

from runplanner.outfit.outfit import Outfit
from runplanner.season.proof.bound import bound_of
from runplanner.season.proof.flow import Flow
from runplanner.trips.ground import Ground
from tests.season.shapes import DONE, planned
from tests.season.tiny import ANN, four, tiny


def far_pair(inspect_min: int = 50) -> Outfit:
    """Two yards at one place an hour off, one near home, one person and two days."""
    yards = [four(n, 2) for n in (1, 2, 3)]
    outfit = tiny([(60, 0), (60, 0), (1, 0)], yards, 2, people=(ANN,))
    (truck,) = outfit.trucks
    pace = replace(outfit.pace, inspect_s=inspect_min * 60)
    return replace(outfit, trucks=(replace(truck, seats=1),), pace=pace)


def test_far_work_pays_its_own_overtime() -> None:
    """Near work leaves a short day over, but nobody far away works in it."""
    outfit = far_pair()
    free = replace(outfit, prices=replace(outfit.prices, overtime_permille=0))
    plan = planned(outfit)

    # Each far yard is 227 min of work.  Of 480 ordinary minutes a break takes 30, loading and
    # unloading 25, the road 120 and two set-ups 20: 285 are left for 454 min and two begun ones
    # of pumping, so 171 are paid half as much again, 42.75.  Two days of it would be 120 km,
    # 72.00, more.
    assert 4_275 == plan.bill.overtime
    assert bound_of(Ground(outfit), DONE).cents - bound_of(Ground(free), DONE).cents >= 4_275
    assert 0.98 * plan.bill.total() <= bound_of(Ground(outfit), DONE).cents <= plan.bill.total()


def test_people_who_must_come_by_hand() -> None:
    """One person does the pair in a long day; on normal days somebody must come twice."""
    demands = {d.name: d for d in Flow(Ground(far_pair()), DONE).demands((0, 1))}

    # 454 min and two set-ups are 474; a long day leaves 630 - 25 - 120 = 485, a normal one 305.
    assert 1 == demands["people in all"].least
    assert 2 == demands["people on normal days"].least
    assert math.isclose(1 / demands["people on normal days"].over, (474 - 305) / 60)


def test_nobody_comes_so_far_within_a_normal_day() -> None:
    """Where the way alone takes all of it and nothing is set up, the bound still stands."""
    outfit = far_pair()
    hours = replace(outfit.hours, normal_min=100)
    outfit = replace(outfit, hours=hours, pace=replace(outfit.pace, setup_min=0))
    demands = {d.name for d in Flow(Ground(outfit), DONE).demands((0, 1))}

    assert "people in all" in demands
    assert "people on normal days" not in demands
    assert 0 < bound_of(Ground(outfit), DONE).cents <= planned(outfit).bill.total()
