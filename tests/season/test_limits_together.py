"""Boxes to stop at hold together: whoever went to the limit at one stop may go to the next's."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from runplanner.audit.audit import audit
from runplanner.changes.cargo.loads import boxes_limits
from runplanner.daybook.plan import Plan
from runplanner.haulage.boxes_come import Told, ways_to_come
from runplanner.outfit.outfit import Outfit
from tests.season.shapes import planned
from tests.season.tiny import four, tiny, two_yards

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


def three(*boxes_g: int) -> Plan:
    """Three yards on one road, six boxes at each; the same truck."""
    yards = [four(number, 2, box_g=mass) for number, mass in enumerate(boxes_g, start=1)]
    plan = planned(tiny([(10, 0), (14, 0), (18, 0)], yards, 2))
    (trip,) = plan.shifts[0].trips
    assert ["yard1", "yard2", "yard3"] == [call.yard for call in trip.yards()]
    return plan


def three_limits(plan: Plan) -> list[int]:
    """The limits at its stops."""
    return [call.boxes_limit for call in plan.shifts[0].trips[0].yards()]


def test_a_limit_holds_where_only_some_stops_before_went_to_theirs() -> None:
    """Light, heavy, light: 6 x 14, then 50 x 20 up to the limit of 56, leave room for 6 x 14.

    84 + 1,000 + 84 are 1,168 kg with 62 boxes, and a seventh is too much.  With 12 boxes as
    planned 81 would do, and 84 where the first stop is filled with 69 light ones: 1,438 kg came
    aboard where the first stop went as planned and both others to their limits.
    """
    plan = three(14_000, 20_000, 14_000)

    assert [69, 56, 62] == three_limits(plan)
    assert 6 * 14_000 + 50 * 20_000 + 6 * 14_000 + TANK_G <= 1_185_000
    assert 6 * 14_000 + 50 * 20_000 + 8 * 14_000 + TANK_G > 1_185_000


@pytest.mark.parametrize(("limit", "found"), [(62, set[str]()), (64, {"boxes limit"})])
def test_the_audit_fills_some_stops_to_their_limits(limit: int, found: set[str]) -> None:
    """At 64 the last stop takes eight light boxes beside 6 of 14 and 50 of 20 kg: 1,200 kg."""
    plan = three(14_000, 20_000, 14_000)
    (trip,) = plan.shifts[0].trips
    calls = [*trip.calls]
    calls[3] = replace(calls[3], boxes_limit=limit)
    shift = replace(plan.shifts[0], trips=(replace(trip, calls=tuple(calls)),))
    spoilt = replace(plan, shifts=(shift, *plan.shifts[1:]))

    assert found == {one.rule for one in audit(spoilt)}


def test_a_truck_that_is_out_is_told_of_all_ways_to_have_come() -> None:
    """All stops to come, the limits printed those of each stop by itself."""
    plan = three(14_000, 20_000, 14_000)
    shift = plan.shifts[0]
    (trip,) = shift.trips
    printed = zip(trip.calls, (0, 69, 56, 81, 0), strict=True)
    loose = replace(trip, calls=tuple(replace(c, boxes_limit=limit) for c, limit in printed))

    found = boxes_limits(plan.outfit, shift, loose, 1, trip.calls[0].after)[:3]
    assert three_limits(plan) == found


MASSES = st.integers(8_000, 25_000)


@settings(derandomize=True, database=None, max_examples=300)
@given(
    st.lists(st.builds(Told, MASSES, st.integers(0, 3), st.integers(0, 8)), max_size=4),
    MASSES,
    st.integers(0, 3),
)
def test_of_all_ways_to_come_one_told_is_heaviest(told: list[Told], box_g: int, came: int) -> None:
    """Every number from those planned to the limit is tried at each stop before.

    What is aboard on coming needs no limit here: it was borne on leaving the stop before.
    """
    least, rows = came, [(came, 0)]
    for one in told:
        least = max(least, min(least + one.boxes, one.limit))
        rows = [
            (left, mass_g + (left - aboard) * one.box_g)
            for aboard, mass_g in rows
            for left in {max(aboard, end) for end in range(least, max(least, one.limit) + 1)}
        ]
    ways = ways_to_come(told, box_g, came)
    ours = [
        (came + sum(way), sum(n * one.box_g for n, one in zip(way, told, strict=True)))
        for way in ways
    ]

    def heaviest(some: list[tuple[int, int]], number: int) -> int:
        filled = (mass + (number - there) * box_g for there, mass in some if there <= number)
        return max(filled, default=0)

    for number in range(12):
        borne = max((mass for there, mass in rows if there <= number), default=0)
        assert heaviest(rows, number) <= max(heaviest(ours, number), borne)
    assert heaviest(rows, 99) == heaviest(ours, 99)
