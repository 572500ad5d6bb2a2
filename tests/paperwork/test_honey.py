"""Tests of lots and of the honey house's paper."""

from dataclasses import replace

from runplanner.daybook.plan import Plan, Spinning
from runplanner.days import DAY_MIN
from runplanner.outfit.bases import Base
from runplanner.outfit.yards import Health
from runplanner.paperwork.lists.intake_sheet import intake, intake_days, intake_page
from runplanner.paperwork.stop.honey import lots, starts, waiting
from tests.paperwork.pages import Page
from tests.paperwork.plans import Round, Stop, a_shift, block, small_plan, take_off


def test_boxes_of_a_stretch_follow_each_other_evenly() -> None:
    """Seven boxes in an hour: box k starts at floor((k - 1) * 60 / 7)."""
    assert (480, 488, 497, 505, 514, 522, 531) == starts(Spinning(480, 540, ("ann",), 7))


def with_waiting(boxes: int) -> Plan:
    """The small plan with boxes in the house from before."""
    plan = small_plan()
    house = replace(plan.outfit.honey_house, waiting_boxes=boxes)
    return replace(plan, outfit=replace(plan.outfit, honey_house=house))


def test_a_lot_is_followed_from_truck_to_spinning() -> None:
    """Off the yard at 08:05, spin-by 72 hours later; spun on day 2 from 08:00, 6 minutes each."""
    first, second = lots(small_plan())

    assert ("L20270301-yard1", 15, 495, 515) == (
        first.code, first.boxes, first.here_min, first.arrive_min,
    )  # fmt: skip
    assert 485 + 72 * 60 == first.spin_by_min
    # The last of 15 boxes starts at 480 + 14 * 90 / 15 = 564 on day 2.
    assert (2 * DAY_MIN + 480, 2 * DAY_MIN + 564) == (first.starts[0], first.starts[-1])
    assert "L20270304-yard2" == second.code


def test_boxes_that_stood_there_go_first() -> None:
    """Four boxes from before take the first four places in the queue of 26."""
    first, second = lots(with_waiting(4))

    # Day 2: box 5 of 15 starts at 480 + 4 * 6; four of the first lot slip to day 4.
    assert 2 * DAY_MIN + 504 == first.starts[0]
    assert 4 * DAY_MIN + 480 + 3 * 60 // 11 == first.starts[-1]
    # 4 + 15 + 11 boxes for 26 places: four of the second lot are never spun in this plan.
    assert 7 == len(second.starts)


def test_boxes_standing_in_the_house() -> None:
    """Fifteen come on day 0 at 08:35 and are gone by the end of day 2."""
    plan = small_plan()

    assert [0, 0, 15, 15, 0] == [
        waiting(plan, minute) for minute in (0, 514, 515, 2 * DAY_MIN + 480, 2 * DAY_MIN + 565)
    ]
    assert 4 == waiting(with_waiting(4), 0)


def test_a_trip_without_honey_makes_no_lot() -> None:
    """A feeding trip brings nothing; nor does a trip that never calls at the honey house."""
    plan = small_plan()
    house = replace(plan.outfit.honey_house, base=Base(1, 0, DAY_MIN))

    assert ["0301-truck1-0001", "0304-truck1-0001"] == [lot.trip for lot in lots(plan)]
    assert () == lots(replace(plan, outfit=replace(plan.outfit, honey_house=house)))


def test_the_sheet_says_what_arrives_and_what_is_spun() -> None:
    """Day 0 has one arrival; day 2 one lot to spin; both are days of the honey house."""
    plan = small_plan()

    assert (0, 2, 3, 4) == intake_days(plan)
    (arrival,) = intake(plan, 0).arrivals
    assert ("08:15", "Truck 1", 15, 240, "Thu 4 Mar 08:05", False) == (
        arrival.at, arrival.truck, arrival.boxes, arrival.kg, arrival.spin_by, arrival.apart,
    )  # fmt: skip
    day = intake(plan, 2)
    assert (15, 400, ("Ann 08:00\u201309:30: 15 boxes",)) == (day.standing, day.room, day.crews)
    assert [("08:00", 15, 0, False)] == [
        (line.start, line.boxes, line.left, line.late) for line in day.spins
    ]
    text = Page(intake_page(plan, 2)).text
    assert "15 full boxes stand here when the day begins; room for 400" in text


def test_one_box_from_before_stands_alone() -> None:
    """No plural for one."""
    plan = with_waiting(1)
    text = Page(intake_page(plan, 0)).text

    assert "One full box stands here when the day begins; room for 400" in text


def test_boxes_from_before_stand_first_on_the_sheet() -> None:
    """Four from before, then eleven of the first lot with four left for another day."""
    lines = intake(with_waiting(4), 2).spins

    assert [("here before", 4, 0), ("Yard 1", 11, 4)] == [
        (line.yard, line.boxes, line.left) for line in lines
    ]


def test_late_hard_and_doubtful_lots_are_marked() -> None:
    """Spun two days later than a spin-by of one hour; hive beetle; a yard in doubt."""
    plan = small_plan()
    yard = replace(plan.outfit.yards[0], spin_by_min=60, spin_by_hard=True, health=Health.WATCH)
    marked = replace(plan, outfit=replace(plan.outfit, yards=(yard, plan.outfit.yards[1])))

    (line,) = intake(marked, 2).spins
    assert ("Mon 1 Mar 09:05, spoils after", True, True) == (line.spin_by, line.late, line.apart)
    text = Page(intake_page(marked, 2)).text
    assert "LATE: Mon 1 Mar 09:05, spoils after" in text
    assert "stack and spin apart" in text


def test_a_quiet_honey_house_says_so() -> None:
    """Nothing arrives, nobody spins."""
    text = Page(intake_page(small_plan(), 1)).text

    assert "Nothing arrives." in text
    assert "Nobody spins." in text


def test_lots_of_one_trip_are_queued_in_order_of_stops() -> None:
    """Two yards on one trip: the first stop's boxes are spun first."""
    plan = small_plan()
    stops = (Stop(2, 60, (take_off(10, 9), block(10))), Stop(1, 60, (take_off(10, 6), block(10))))
    day = a_shift(plan.outfit, 0, [Round("t", stops)])

    found = lots(replace(plan, shifts=(day,)))
    assert [("yard2", 9), ("yard1", 6)] == [(lot.yard, len(lot.starts)) for lot in found]
    assert found[0].starts[-1] < found[1].starts[0]
