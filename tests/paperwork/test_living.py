"""Colonies die while the truck is out: its stops to come are for those that live."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.speech.living import for_the_living
from runplanner.paperwork.stop.yard_words import stop_words
from tests.paperwork.plans import (
    Round,
    Stop,
    a_shift,
    block,
    feed,
    small_plan,
    strips,
    take_off,
)


def out(colonies: int, *lots: tuple[Action, ...], now: int = 490) -> Plan:
    """A yard of so many by now, at which lots of a truck that is out are planned, then no more."""
    plan = small_plan()
    yards = tuple(replace(one, colonies=colonies) for one in plan.outfit.yards)
    outfit = replace(plan.outfit, yards=yards)
    stops = tuple(Stop(1, 60, lot) for lot in lots)
    shift = a_shift(outfit, 0, [Round("0301-truck1-0001", stops)])
    trips = tuple(replace(trip, driven=True) for trip in shift.trips)
    return replace(plan, outfit=outfit, shifts=(replace(shift, trips=trips),), now_min=now)


def calls(plan: Plan) -> list[Call]:
    """Its calls at yards."""
    return list(plan.shifts[0].trips[0].yards())


def test_all_means_all_that_live() -> None:
    """Ten were planned and loaded for; two died, and their boxes and boards come home too."""
    lot = (take_off(10, 15, boards_off=10), feed(10, 90), strips(10))
    told = for_the_living(out(8, lot, now=0))
    (call,) = calls(told)

    assert (
        "Take off all 8 colonies: 15 boxes on, 10 boards back, 2 of them from dead colonies",
        "Syrup, all 8 colonies: 9 L each, 72 L off",
        "Strips in all 8 colonies: 16 strips",
    ) == stop_words(told, call)
    assert (
        "off 8 col 15 bx (10 boards back, 2 of them from dead colonies), "
        "feed 8 col 72 L (9 L each), strips 16"
    ) in phone_text(told, 0)


def test_the_last_lot_is_those_that_are_left() -> None:
    """Of ten planned as six and four one has died."""
    told = for_the_living(out(9, (take_off(6, 9), block(6)), (take_off(4, 6), block(4)), now=0))

    assert [(6, 6), (3, 3)] == [
        (call.actions[0].colonies, call.actions[1].pieces) for call in calls(told)
    ]


def test_further_blocks_are_for_all_that_live() -> None:
    """A colony gets a block as it comes off and more later; one of ten has died."""
    plan = out(10, (take_off(10, 15), block(10)), (block(10),), now=0)
    assert plan is for_the_living(plan)

    told = for_the_living(out(9, (take_off(10, 15), block(10)), (block(10),), (block(4),), now=0))
    assert [9, 9, 4] == [call.actions[-1].pieces for call in calls(told)]


def test_blocks_beside_a_take_off_are_for_what_comes_off() -> None:
    """Of six that were off first only two got blocks, as the others were fed; one has died."""
    lots = ((take_off(6, 9), block(2), feed(4, 36)), (take_off(4, 6), block(4)))
    told = for_the_living(out(9, *lots, now=0))

    assert [2, 3] == [call.actions[1].pieces for call in calls(told)]


@pytest.mark.parametrize("living", [0, 10, 12])
def test_what_needs_no_telling_stays(living: int) -> None:
    """All live, or none does: then nobody is sent, and that is said elsewhere."""
    plan = out(living, (take_off(10, 15),), now=0)

    assert plan is for_the_living(plan)


def test_what_is_done_is_told_as_it_was() -> None:
    """Ten came off before two of them died."""
    plan = out(8, (take_off(10, 15),), now=1439)

    assert plan is for_the_living(plan)


def test_no_more_are_done_than_there_were() -> None:
    """Ten came off, by one lot or by two, and are fed, before two of them died."""
    plan = out(8, (take_off(10, 15), feed(10, 90)), now=1439)
    (call,) = calls(plan)

    assert "Take off all 10 colonies: 15 boxes on" == stop_words(plan, call)[0]
    assert "Syrup, all 10 colonies: 9 L each, 90 L off" == stop_words(plan, call)[1]
    assert "off 10 col 15 bx, feed 10 col 90 L (9 L each)" in phone_text(plan, 0)

    plan = out(8, (take_off(6, 9),), (take_off(4, 6),), now=1439)
    one, other = calls(plan)
    assert ("Take off 6 of 10 (nos 1\u20136): 9 boxes on",) == stop_words(plan, one)
    assert ("Take off 4 of 10 (nos 7\u201310): 6 boxes on",) == stop_words(plan, other)
    assert "off 6 col (nos 1-6) 9 bx" in phone_text(plan, 0)


def test_a_single_colony_is_no_range() -> None:
    """Nine came off, then the tenth: "no. 10", not "nos 10-10"."""
    plan = out(8, (take_off(9, 14),), (take_off(1, 1),), now=1439)
    _, other = calls(plan)

    assert ("Take off 1 of 10 (no. 10): 1 box on",) == stop_words(plan, other)
    assert "off 1 col (no. 10) 1 bx" in phone_text(plan, 0)
