"""The trace sheet: visits, boxes, kit, and other yards seen before and after."""

from dataclasses import replace

import pytest

from runplanner.daybook.trip import Trip
from runplanner.paperwork.trace_sheet import REPORT, trace_page
from runplanner.paperwork.traced import trace
from runplanner.season.replan_season import replan_season
from tests.audit.feeder_plan import feeders_fetched
from tests.outfits import a_yard
from tests.paperwork.plans import HOSTILE
from tests.running import running_outfit, running_plan

PLAN = running_plan()


def test_visits_with_kit_and_crew() -> None:
    """The mill: boards on Thursday, off on Friday with boards back, boxes, syrup, cans."""
    sheet = trace(PLAN, PLAN.outfit.yard("mill"))

    assert ["boards on 24", "take-off 24, syrup 24, strips 24"] == [
        one.work for one in sheet.visits
    ]
    assert "24 boards put on" in sheet.visits[0].kit
    assert "24 boards taken back, 40 boxes taken, 204 L of syrup" in sheet.visits[1].kit
    assert "aboard" in sheet.visits[1].kit
    assert ("Red", "Ann drives", False) == (
        sheet.visits[0].vehicles, sheet.visits[0].crew, sheet.visits[0].driven,
    )  # fmt: skip


def test_boxes_and_what_is_spun_with_them() -> None:
    """Creek Mouth's 15 boxes are spun in one stretch with Fernbank's; the mill's alone."""
    creek = trace(PLAN, PLAN.outfit.yard("creek-mouth")).boxes
    mill = trace(PLAN, PLAN.outfit.yard("mill")).boxes

    assert [(15, ("Fernbank",))] == [(lot.boxes, lot.together) for lot in creek]
    assert [(40, ())] == [(lot.boxes, lot.together) for lot in mill]
    assert "L20270304-creek-mouth" == creek[0].lot


def test_both_directions_in_time() -> None:
    """On one trip the mill, then Creek Mouth, then Fernbank; the mill again next day.

    After Creek Mouth the truck saw Fernbank, and the mill a day later; before it the mill.
    """
    sheet = trace(PLAN, PLAN.outfit.yard("creek-mouth"))

    assert [("Fernbank", "same trip"), ("Old Mill", "Ann")] == [
        (one.yard, one.ways[0]) for one in sheet.after
    ]
    assert [("Old Mill", "same trip")] == [(one.yard, one.ways[0]) for one in sheet.before]
    assert "Red" in sheet.after[1].ways


def test_boards_that_go_on_elsewhere_are_a_way() -> None:
    """Boards come off the mill on Friday; put on at Fernbank on Saturday they are a link."""
    shift = PLAN.shifts[0]
    calls = tuple(
        replace(call, yard={"mill": "fernbank", "fernbank": "mill"}.get(call.yard, call.yard))
        for call in shift.trips[0].calls
    )
    late = replace(
        shift, day=5, truck="truck1", crew=("caro",), trailer="t",
        trips=(replace(shift.trips[0], id="x", calls=tuple(
            replace(c, start_min=c.start_min + 2880, end_min=c.end_min + 2880) for c in calls)),),
    )  # fmt: skip
    plan = replace(PLAN, shifts=(*PLAN.shifts, late))
    sheet = trace(plan, plan.outfit.yard("mill"))

    ways = next(one.ways for one in sheet.after if one.yard == "Fernbank")
    assert "boards" in ways
    assert "Blue flatdeck + Box trailer" in {one.vehicles for one in sheet.visits}


def test_feeders_that_go_on_elsewhere_are_a_way() -> None:
    """Fetched from yard 1 on day 5; left at yard 2 on day 7 by others they are the only link."""
    plan = feeders_fetched()
    feed = plan.shifts[1]
    calls = tuple(
        replace(
            call, yard=call.yard.replace("1", "2"), start_min=call.start_min + 8640,
            end_min=call.end_min + 8640,
        )
        for call in feed.trips[0].calls
    )  # fmt: skip
    late = replace(feed, day=7, truck="other", crew=("caro",), trips=(Trip("late", calls, ()),))
    outfit = replace(plan.outfit, yards=(*plan.outfit.yards, a_yard(2)))
    plan = replace(plan, outfit=outfit, shifts=(*plan.shifts, late))

    (after,) = trace(plan, outfit.yards[0]).after
    (before,) = trace(plan, outfit.yards[1]).before
    assert ("Yard 2", ("feeders",)) == (after.yard, tuple(after.ways))
    assert ("Yard 1", ("feeders",)) == (before.yard, tuple(before.ways))


def test_same_truck_later_that_day_and_the_trailer() -> None:
    """A second trip of the day, and a trailer that goes on with another truck, are ways."""
    first = PLAN.shifts[0]
    trip = first.trips[0]
    again = replace(trip, id="again", calls=tuple(
        replace(call, start_min=call.start_min + 400, end_min=call.end_min + 400)
        for call in trip.calls if call.yard != "mill"))  # fmt: skip
    day = replace(first, trips=(trip, again), trailer="t")
    other = replace(PLAN.shifts[1], truck="truck1", trailer="t", crew=("caro",))
    plan = replace(PLAN, shifts=(day, other))

    sheet = trace(plan, plan.outfit.yard("mill"))
    ways = {one.yard: one.ways for one in sheet.after}
    assert ("same trip", "same truck that day", "Ann", "Box trailer") == ways["Fernbank"]
    assert "Box trailer" in {way for one in sheet.before for way in one.ways}


def test_the_page() -> None:
    """It says to report, what was driven, and what it cannot know."""
    now = PLAN.shifts[0].end_min + 10
    driven = replan_season(PLAN, PLAN.outfit, now, rounds=0)
    page = trace_page(trace(driven, driven.outfit.yard("creek-mouth")))

    assert REPORT in page
    assert "as of Thu 4 Mar" in page
    assert ">driven<" in page
    assert ">planned<" in page


def test_a_yard_nobody_goes_to() -> None:
    """Without visits every part says so."""
    empty = replace(PLAN, shifts=(), spinning=())
    page = trace_page(trace(empty, empty.outfit.yard("mill")))

    assert 4 == page.count("None.")


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_are_only_words(name: str) -> None:
    """Names of yards, people and trucks cannot become markup."""
    outfit = running_outfit()
    outfit = replace(
        outfit,
        title=name,
        yards=tuple(replace(yard, name=name) for yard in outfit.yards),
        people=tuple(replace(one, name=name) for one in outfit.people),
        trucks=tuple(replace(one, name=name) for one in outfit.trucks),
        containers=tuple(replace(one, name=name) for one in outfit.containers),
    )
    page = trace_page(trace(replace(PLAN, outfit=outfit), outfit.yard("creek-mouth")))

    assert "<img" not in page
    assert "<script" not in page
    assert "{{" not in page
