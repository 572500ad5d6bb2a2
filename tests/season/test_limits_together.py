"""Boxes to stop at hold together: whoever went to the limit at one stop may go to the next's."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.cargo.loads import boxes_limits
from runplanner.daybook.plan import Plan
from runplanner.outfit.outfit import Outfit
from tests.season.shapes import planned
from tests.season.tiny import two_yards

TANK_G = 4_500


def limits(first_g: int, then_g: int) -> tuple[Plan, list[int]]:
    """Six boxes at each of two yards; the truck bears 1,185 kg, of which 4.5 are cans."""
    outfit = two_yards()
    boxes = zip(outfit.yards, (first_g, then_g), strict=True)
    plan = planned(replace(outfit, yards=tuple(replace(y, box_g=mass) for y, mass in boxes)))
    (trip,) = plan.shifts[0].trips
    assert {1_185_000} == {call.after.load_max_g for call in trip.calls}
    assert ["yard1", "yard2"] == [call.yard for call in trip.yards()]
    return plan, [call.boxes_limit for call in trip.yards()]


def test_light_boxes_ride_on_heavy_ones_taken_up_to_the_limit() -> None:
    """54 x 20 and 7 x 14 kg are 1,178; by 6 x 20 alone 75 of 14 kg could come to it, 81 in all."""
    _, found = limits(20_000, 14_000)

    assert [54, 61] == found
    assert 54 * 20_000 + 7 * 14_000 + TANK_G <= 1_185_000 < 54 * 20_000 + 8 * 14_000 + TANK_G


def test_boxes_that_weigh_the_same_keep_one_limit() -> None:
    """73 x 16 kg are 1,168; before the second stop its syrup and strips are still aboard."""
    _, found = limits(16_000, 16_000)

    assert [67, 73] == found


def told(plan: Plan, limit: int) -> Plan:
    """The plan with another limit at its second stop."""
    (trip,) = plan.shifts[0].trips
    calls = [*trip.calls]
    calls[2] = replace(calls[2], boxes_limit=limit)
    shift = replace(plan.shifts[0], trips=(replace(trip, calls=tuple(calls)),))
    return replace(plan, shifts=(shift, *plan.shifts[1:]))


@pytest.mark.parametrize(("limit", "found"), [(61, set[str]()), (62, {"boxes limit"})])
def test_the_audit_fills_every_stop_to_its_limit(limit: int, found: set[str]) -> None:
    """Beside 54 heavy boxes an eighth light one is 12 kg too many."""
    plan, _ = limits(20_000, 14_000)

    assert found == {one.rule for one in audit(told(plan, limit))}


def test_a_truck_that_is_out_is_told_the_same() -> None:
    """Before any count, with both stops still on, nothing is eased."""
    plan, found = limits(20_000, 14_000)
    shift = plan.shifts[0]
    trip = told(plan, 81).shifts[0].trips[0]

    def again(outfit: Outfit) -> list[int]:
        return boxes_limits(outfit, shift, trip, 1, trip.calls[0].after)[:2]

    assert found == again(plan.outfit)
