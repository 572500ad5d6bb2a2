"""Breaks and the longest duty of whoever spins and mixes, worked by hand.

Spinning is from 8:00 to 18:00, one box a minute; a break of 30 min is due after 6 h, the day's
duty is 11 h at most, unless said otherwise.
"""

from dataclasses import replace

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.outfit.outfit import Outfit
from tests.outfits import daily
from tests.season.shapes import DONE, planned, when
from tests.season.test_worked_house import FULL, spun
from tests.season.tiny import ANN, EVEN_FEED, EVEN_HOUSE, four, tiny


def alone(days: int = 1, **changes: object) -> Outfit:
    """One yard, opened from 8:00 to 11:00 on day 0, and Ann, who does everything."""
    yard = four(1, days, open_spans=daily(480, 660, [0]), **FULL)
    return tiny([(10, 0)], [yard], days, people=(ANN,), **changes)


def with_hours(outfit: Outfit, **changes: int) -> Outfit:
    """The same with other hours."""
    return replace(outfit, hours=replace(outfit.hours, **changes))  # type: ignore[arg-type]


def stints(plan: Plan) -> list[tuple[str, int, int]]:
    """Start, minutes and boxes of each stretch of spinning."""
    return [(start, minutes, boxes) for start, minutes, boxes, _ in spun(plan)]


def test_six_hours_of_spinning_end_in_a_break() -> None:
    """400 boxes stand there: 4 h, over noon to 14:00, and the last 40 from 14:30."""
    house = replace(EVEN_HOUSE, waiting_boxes=400)
    outfit = tiny([(10, 0)], [four(1, 1, open_spans=())], 1, honey_house=house, people=(ANN,))

    assert [("0 08:00", 240, 240), ("0 12:00", 120, 120), ("0 14:30", 40, 40)] == stints(
        planned(outfit, rounds=5)
    )


def test_a_day_that_began_on_a_truck_ends_the_sooner_inside() -> None:
    """Out from 7:35 to 9:05 (15 + 10 + 42 + 10 + 13 min); 5 h 25 min of duty end at 13:00.

    At two boxes an hour 2 of 6 are spun from noon, 4 the next morning, whose day is its own.
    """
    outfit = alone(honey_house=replace(EVEN_HOUSE, boxes_per_h=(0, 2)))
    plan = planned(with_hours(outfit, duty_max_min=325))
    (shift,) = plan.shifts

    assert ("0 07:35", "0 09:05") == (when(shift.start_min), when(shift.end_min))
    assert [("0 12:00", 60, 2), ("1 08:00", 120, 4)] == stints(plan)
    assert (DONE, ()) == (plan.tally, audit(plan))


def test_work_on_a_truck_counts_towards_the_break_inside() -> None:
    """Home at 9:05; where a break must last 3 h, the time until noon is none.

    Six hours from 7:35 on end at 13:35.  At two boxes an hour 3 are spun by 13:30, a fourth
    would take until 14:00; from 16:30 on, 3 h later, the other 3 by 18:00.
    """
    outfit = alone(honey_house=replace(EVEN_HOUSE, boxes_per_h=(0, 2)))
    plan = planned(with_hours(outfit, duty_break_min=180))

    assert [("0 12:00", 90, 3), ("0 16:30", 90, 3)] == stints(plan)
    assert (DONE, ()) == (plan.tally, audit(plan))


def test_whoever_goes_out_after_spinning_has_a_break_before() -> None:
    """Out from 12:00 to 13:30, as the yard opens at 12:25; 240 boxes stand there at 8:00.

    With a break due after 5 h, 8:00 to 13:30 is too long: she stops at 11:30, 210 boxes later,
    and spins 30 and the 6 of the yard the next day.
    """
    yard = four(1, 1, open_spans=daily(745, 800, [0]), **FULL)
    house = replace(EVEN_HOUSE, waiting_boxes=240)
    outfit = tiny([(10, 0)], [yard], 1, people=(ANN,), honey_house=house)
    plan = planned(with_hours(outfit, duty_break_after_min=300))

    assert [("0 12:00", "0 13:30")] == [(when(s.start_min), when(s.end_min)) for s in plan.shifts]
    assert [("0 08:00", 210, 210), ("1 08:00", 36, 36)] == stints(plan)
    assert 240 == stints(planned(outfit))[0][1]


def test_a_long_day_of_mixing_has_its_break_at_noon() -> None:
    """34 L at 4 L an hour are 510 min, the day before: 360 after noon, 150 before.

    At 3.5 L an hour 21 L are mixed after noon; 13 L before would end at 11:43, 17 min before
    noon: not in a break's time.  What is mixed by 11:30 is 12.25 L, so that syrup waits a day.
    """
    outfit = tiny([(10, 0)], [four(1, 3)], 3, people=(ANN,))
    slow = replace(outfit, feed=replace(EVEN_FEED, mix_ml_per_h=4_000))
    plan = planned(slow)
    slower = planned(replace(outfit, feed=replace(EVEN_FEED, mix_ml_per_h=3_500)))

    assert [("-1 08:00", 150), ("-1 12:00", 360)] == [
        (when(mix.start_min), mix.end_min - mix.start_min) for mix in plan.mixing
    ]
    assert (DONE, ()) == (slower.tally, audit(slower))
    assert all(
        mix.start_min % 1440 + (mix.end_min - mix.start_min) <= 690 or mix.start_min % 1440 >= 720
        for mix in slower.mixing
    )
