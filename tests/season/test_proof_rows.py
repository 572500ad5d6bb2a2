"""Rows of the bound by themselves: lines below breaks and overtime, prices, rows kept back."""

import math
from dataclasses import replace
from itertools import product
from typing import Any

import pytest

from runplanner.outfit.people import Hours
from runplanner.season.proof.bound import bound_of
from runplanner.season.proof.flow import Flow
from runplanner.season.proof.rows import Rows, extra_lines
from runplanner.trips.ground import Ground
from tests.season.shapes import DONE, planned
from tests.season.test_bound import odd_roads, one_for_one

DAY = one_for_one().hours


def paid_beside(hours: Hours, dearer: float, busy: float) -> float:
    """What a shift with so many busy minutes pays beside them, in paid minutes."""
    rest = hours.duty_break_min if busy > hours.duty_break_after_min else 0
    return rest + dearer * max(0.0, busy + rest - hours.normal_min)


def test_lines_below_breaks_and_overtime_by_hand() -> None:
    """A shift of normal length pays its break in full, and no overtime."""
    hours = replace(
        DAY, normal_min=480, duty_max_min=660, duty_break_after_min=360, duty_break_min=30
    )

    # Nothing up to 360 busy minutes; 30 at 450, which with the break are 480; at 630 the break
    # and half of 180: 120.  From 360 to 450 that rises by 1/3 a minute, then by 1/2.
    assert ((1 / 3, -120.0), (1 / 2, -195.0)) == extra_lines(hours, 0.5)
    # Without dearer overtime only the break is left: 30 from 360 to 450, no more after that;
    # what lies below that all the way to 630 rises by 30 in 270 minutes.
    ((rise, base),) = extra_lines(hours, 0.0)
    assert math.isclose(30 / 270, rise)
    assert math.isclose(-40, base)


@pytest.mark.parametrize(
    ("normal", "longest", "after", "pause"),
    list(product((300, 480, 900), (300, 600, 720), (0, 300, 360, 700), (0, 30, 60))),
)
def test_lines_stay_below_every_shift(normal: int, longest: int, after: int, pause: int) -> None:
    """Whatever the hours, no line lies above what a shift of any length pays."""
    hours = replace(
        DAY, normal_min=normal, duty_max_min=longest, duty_break_after_min=after,
        duty_break_min=pause,
    )  # fmt: skip
    for dearer in (0.0, 0.25, 1.0):
        lines = extra_lines(hours, dearer)
        for busy in range(longest + 1):
            rest = pause if busy > after else 0
            if busy + rest <= longest:
                least = paid_beside(hours, dearer, busy)
                assert all(rise * busy + base <= least + 1e-9 for rise, base in lines)


def test_a_normal_day_pays_its_break() -> None:
    """One person, one yard, nearly all of a normal day."""
    outfit = one_for_one()
    inspect_s = outfit.pace.inspect_s + 87 * 60
    outfit = replace(outfit, pace=replace(outfit.pace, inspect_s=inspect_s))

    # 98.64 busy minutes and 4 x 87 more are 446.64, beside which a break of 30 is due: 15.00.
    # The line to 450 gives 28.88 of them, 14.44; the plan pays the pump by whole minutes, 0.18.
    # One from 360 to the longest day would give 9.63 of them, 4.81.
    plan, bound = planned(outfit).bill.total(), bound_of(Ground(outfit), DONE).cents
    assert (480, 360, 30) == (
        outfit.hours.normal_min, outfit.hours.duty_break_after_min, outfit.hours.duty_break_min
    )  # fmt: skip
    assert plan - 56 - 20 <= bound <= plan


def test_no_drive_left_out_lowers_what_is_proven() -> None:
    """Where no closed drive is said to gain, the optimum over all drives is the same."""
    flow = Flow(Ground(odd_roads(14)), DONE)
    assert flow.solved()
    near = flow.cents()
    while wanted := flow.gaining():
        flow.open(wanted)
        assert flow.solved()
    proven = flow.cents()
    flow.widen_all()

    assert flow.solved()
    assert proven < near - 1
    assert math.isclose(proven, flow.cents(), abs_tol=1e-3)


def test_rows_kept_back_come_in_where_they_are_broken() -> None:
    """Of two sums kept back only the one that the solution breaks is added."""
    rows = Rows(DAY, 500)
    wanted, dear, idle = rows.var(-3, 1), rows.var(2), rows.var(1)
    rows.keep_back([(dear, 1.0), (wanted, -1.0)])
    rows.keep_back([(idle, 1.0)])

    assert rows.solved()
    assert math.isclose(-3, rows.cents())
    broken = rows.broken()
    assert [[(dear, 1.0), (wanted, -1.0)]] == broken
    rows.hold(broken)
    assert rows.solved()
    assert math.isclose(-1, rows.cents())
    assert not rows.broken()


class Odd:
    """A solver that gets lost in numbers as long as it makes things simpler beforehand."""

    def __init__(self, lp: Any) -> None:
        self.lp, self.simpler = lp, True

    def __getattr__(self, name: str) -> Any:
        return getattr(self.lp, name)

    def SetSolverSpecificParametersAsString(self, said: str) -> bool:  # noqa: N802
        """Hear how to solve."""
        self.simpler = said != "use_preprocessing: false"
        return bool(self.lp.SetSolverSpecificParametersAsString(said))

    def Solve(self) -> int:  # noqa: N802
        """Solve, or not."""
        return int(self.lp.ABNORMAL if self.simpler else self.lp.Solve())


def test_numbers_in_the_way_are_gone_round() -> None:
    """What is not solved one way is solved another, and the next time as usual again."""
    rows = Rows(DAY, 500)
    rows.var(-3, 1)
    rows.lp = odd = Odd(rows.lp)

    assert rows.solved()
    assert math.isclose(-3, rows.cents())
    assert odd.simpler
