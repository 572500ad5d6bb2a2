"""Yards that may be cleared two ways, and boards that lie there already, worked by hand."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Health
from runplanner.season.proof.bound import bound_of
from runplanner.season.proof.owed import parts_of
from runplanner.trips.ground import Ground
from tests.outfits import daily
from tests.season.shapes import DONE, a_bill, calls_with, did, planned, trips
from tests.season.tiny import (
    boards_on_already,
    boards_or_brush,
    boards_or_slow_brush,
    few_boards_and_brush,
    four,
    one_yard,
    tiny,
)


def offs(plan: Plan) -> list[Action]:
    """The take-offs in order of time."""
    return [a for c in calls_with(plan, Job.TAKE_OFF) for a in c.actions if a.job is Job.TAKE_OFF]


def with_yard(outfit: Outfit, **changes: object) -> Outfit:
    """The outfit with other facts of its first yard."""
    first, *rest = outfit.yards
    return replace(outfit, yards=(replace(first, **changes), *rest))  # type: ignore[arg-type]


def test_a_yard_is_brushed_where_that_spares_a_visit() -> None:
    """Brushed, the yard costs what a yard costs that is always brushed."""
    plan = planned(boards_or_brush())
    (off,) = offs(plan)

    assert (Clearing.BRUSH, 0) == (off.way, off.boards_off)
    assert [] == calls_with(plan, Job.BOARDS)
    assert planned(one_yard()).bill == plan.bill


def test_boards_go_on_where_brushing_takes_too_long() -> None:
    """Brushing six boxes at 40 min takes 6 x 2,280 - 2,400 s = 188 min more, 94.00."""
    plan = planned(boards_or_slow_brush())
    (off,) = offs(plan)

    # On: 59 min.  Off: (960 + 720 + one box brushed 2,400 + 480 + 240) / 60 + 10 = 90 min, and
    # 16 + 20 + 90 + 13 = 139: 198 min, 99.00; the other visit is 29.50 + 12.00 + 40.00.
    assert (None, 4) == (off.way, off.boards_off)
    assert plan.bill == a_bill(
        km=2_400, days=8_000, crew=9_900, spinning=300, mixing=1_700, syrup=5_100, strips=1_600
    )


@pytest.mark.parametrize(("other", "left"), [(None, 4), (Clearing.BLOWER, 0)])
def test_a_single_fair_day_is_enough_for_the_other_way(other: Clearing | None, left: int) -> None:
    """Fair on the first day alone: boards would need the night after."""
    outfit = with_yard(boards_or_brush(), clearing_else=other, open_spans=daily(480, 1080, [0]))

    assert left == planned(outfit, rounds=5).tally.not_off


def test_what_boards_are_too_few_for_is_brushed() -> None:
    """Two boards, four colonies, two days: two over the boards, two brushed."""
    plan = planned(few_boards_and_brush())

    # Brushing an hour a box: 3 boxes by boards save 3 x 3,480 s less one box left in, 3,600:
    # 114 min of Ann, 57.00; and the day with the boards on is one on which she goes anyway?
    assert DONE == plan.tally
    assert {sum(off.colonies for off in offs(plan) if off.way is way)
            for way in (None, Clearing.BRUSH)} <= {0, 2, 4}  # fmt: skip


def test_a_watched_yard_is_cleared_both_ways_at_one_stop() -> None:
    """The first day is fair for half an hour, for two boards: on the next two are brushed as well.

    Both take-offs lie at one stop, after which no other yard comes.
    """
    hours = (Span(480, 510), Span(DAY_MIN + 480, DAY_MIN + 1_080))
    outfit = with_yard(few_boards_and_brush(), open_spans=hours)
    sound = planned(outfit)
    watched = planned(with_yard(outfit, health=Health.WATCH))

    assert 2 == len(calls_with(watched, Job.TAKE_OFF))
    assert [["yard1"], ["yard1", "yard1"]] == trips(watched)
    assert did(sound) == did(watched)
    assert sound.bill == watched.bill


def test_boards_on_already_are_only_taken_off() -> None:
    """No visit puts them on; off on the first day; four boards come back."""
    plan = planned(boards_on_already())
    (off,) = offs(plan)

    # 16 + 20 + (960 + 720 + 120 + 480 + 240) / 60 + 10 + 13 = 101 min.
    assert ["0 yard1 take-off 4, feed 4, strips 4"] == did(plan)
    assert (None, 4) == (off.way, off.boards_off)
    assert plan.bill == a_bill(
        km=1_200, days=4_000, crew=5_050, spinning=300, mixing=1_700, syrup=5_100, strips=1_600
    )


def test_boards_put_on_last_thing_lie_twelve_hours() -> None:
    """On at 23:59: off from 11:59."""
    plan = planned(with_yard(boards_on_already(), boards_on_min=-1))

    assert 12 * 60 - 1 <= calls_with(plan, Job.TAKE_OFF)[0].start_min


def test_boards_on_for_days_are_priced() -> None:
    """On at midnight four days before; off from 8:00: 104 h are three started days past 48 h."""
    plan = planned(with_yard(boards_on_already(), boards_on_min=-4 * 1440))

    assert 480 <= calls_with(plan, Job.TAKE_OFF)[0].start_min
    assert 3 * 4 * 100 == plan.bill.boards_long


def test_boards_on_already_are_not_at_the_store() -> None:
    """Four boards in all, at yard 1: yard 2 gets them when they are back."""
    yards = [
        four(1, 4, clearing=Clearing.BOARDS, boards_on_min=-360),
        four(2, 4, clearing=Clearing.BOARDS),
    ]
    outfit = tiny([(10, 0), (14, 0)], yards, 4)
    plan = planned(replace(outfit, kit=replace(outfit.kit, boards_owned=4)))
    (on,), off = calls_with(plan, Job.BOARDS), calls_with(plan, Job.TAKE_OFF)

    assert DONE == plan.tally
    assert "yard2" == on.yard
    assert off[0].end_min <= on.start_min


def test_the_bound_counts_each_colony_by_its_cheaper_way() -> None:
    """Boxes 2, 1, 2, 1 of four colonies; 60 s a board, 120 s a box, 5 % of 210 s left in.

    Under boards a box takes 120 + 10.5 s, brushed 210: two boxes 60 + 261 against 420, one box
    60 + 130.5 against 210.  Inspecting 4 x 240, unloading 6 x 30: 960 + 2 x 321 + 2 x 190
    (each colony's left-in part rounded down) + 180; with brushing at 180 s a box the single
    ones are brushed: 189 and 180.
    """
    outfit = boards_or_brush()
    pace = replace(
        outfit.pace,
        box_s=tuple((dict(outfit.pace.box_s) | {Clearing.BRUSH: 210}).items()),
    )
    (part, *_) = parts_of(Ground(replace(outfit, pace=pace)), complete=True)

    assert 960 + 2 * 321 + 2 * 190 + 180 == part.person_s
    assert 1 == part.visits


@pytest.mark.parametrize("make", [boards_or_brush, boards_or_slow_brush, boards_on_already])
def test_the_bound_lies_below(make: object) -> None:
    """For either way, and with boards on."""
    outfit = make()  # type: ignore[operator]
    plan = planned(outfit)

    assert bound_of(Ground(outfit), plan.tally).cents <= plan.bill.total()
