"""To load, under way or driven: every paper says the same of a trip, by the plan's own time."""

import json
from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Access, Health
from runplanner.paperwork.data.geo_file import plan_geojson
from runplanner.paperwork.data.tables import plan_tables
from runplanner.paperwork.days.day_sheet import day_page
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.driver.manifest import Manifest, manifest
from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.index_page import index_page
from runplanner.paperwork.map.legs import legs
from runplanner.paperwork.map.sheet import sheet_of
from runplanner.paperwork.speech.trip_state import TripState, trip_state
from tests.paperwork.pages import Page
from tests.paperwork.plans import eight_stop_plan
from tests.running import running_plan

PLAN = eight_stop_plan()
FIRST, SECOND = PLAN.shifts[0].trips
LOADING, HOME = SECOND.calls[0].start_min, SECOND.calls[-1].end_min


def out(now_min: int) -> Plan:
    """The plan at a minute of its first day, on which one truck has left for two trips."""
    day = PLAN.shifts[0]
    gone = replace(day, trips=tuple(replace(trip, driven=True) for trip in day.trips))
    return replace(PLAN, shifts=(gone, *PLAN.shifts[1:]), now_min=now_min)


@pytest.mark.parametrize(
    ("now_min", "first", "second"),
    [
        (FIRST.calls[0].start_min, TripState.UNDER_WAY, TripState.TO_LOAD),
        (FIRST.calls[-1].end_min - 1, TripState.UNDER_WAY, TripState.TO_LOAD),
        (LOADING, TripState.DRIVEN, TripState.UNDER_WAY),
        (HOME - 1, TripState.DRIVEN, TripState.UNDER_WAY),
        (HOME, TripState.DRIVEN, TripState.DRIVEN),
    ],
)
def test_a_trip_is_to_load_under_way_or_driven(
    now_min: int, first: TripState, second: TripState
) -> None:
    """Under way from the first minute of loading to the last of unloading."""
    plan = out(now_min)

    assert [first, second] == [trip_state(plan, trip) for trip in plan.shifts[0].trips]
    assert TripState.TO_LOAD is trip_state(PLAN, FIRST)


def test_a_trip_still_to_load_is_loaded_nowhere() -> None:
    """On its truck's first trip the second is to be loaded and filled, and nothing is driven."""
    plan = out(FIRST.calls[-1].end_min - 1)
    shift = plan.shifts[0]
    papers = [manifest(plan, shift, trip) for trip in shift.trips]
    first, second = (Page(manifest_page(paper)).text for paper in papers)

    assert "under way" in first
    assert "Loaded, first on to last on" in first
    assert "Load, first on to last on" in second
    assert "under way" not in second
    assert "driven" not in second
    assert [] == [one.what for one in papers[1].goods if "filled" in one.what]
    assert 0 == Page(index_page(plan)).text.count(" driven")
    assert 1 == Page(index_page(plan)).text.count(" under way")
    assert 0 == Page(day_page(plan, 0)).text.count("(driven)")
    assert 1 == Page(day_page(plan, 0)).text.count("(under way)")
    assert 1 == phone_text(plan, 0).count("Loaded ")
    assert 1 == phone_text(plan, 0).count("\nLoad ")
    assert [False, False] == list(plan_tables(plan)["trips"]["driven"][:2])


def test_a_truck_that_is_out_is_under_way_on_every_paper() -> None:
    """Until its last call is over it is driven nowhere; only drives behind it are in outline."""
    plan = out(SECOND.calls[1].start_min)
    shift = plan.shifts[0]
    page = Page(manifest_page(manifest(plan, shift, shift.trips[1]))).text

    assert "under way" in page
    assert 1 == Page(index_page(plan)).text.count(" driven")
    assert 1 == Page(index_page(plan)).text.count(" under way")
    assert 1 == Page(day_page(plan, 0)).text.count("(driven)")
    assert 1 == Page(day_page(plan, 0)).text.count("(under way)")
    assert [True, False] == list(plan_tables(plan)["trips"]["driven"][:2])
    shapes = json.loads(plan_geojson(plan))["features"]
    assert 1 == sum(bool(one["properties"].get("driven")) for one in shapes)
    today = [leg for leg in legs(plan) if leg.day == 0]
    assert [leg.driven for leg in today if leg.trip == 2] == [True] + [False] * (
        sum(leg.trip == 2 for leg in today) - 1
    )
    lines = [line for cell in sheet_of(plan).cells for line in cell.lines if "(driven)" in line]
    assert len(FIRST.yards()) == len(lines)


def sheet_of_first(plan: Plan) -> Manifest:
    """The driver's sheet of the first trip."""
    shift = plan.shifts[0]
    return manifest(plan, shift, shift.trips[0])


DAY = running_plan().shifts[0]
AT = 2
PAST = DAY.trips[0].calls[AT]
"""The second stop of three, and the first that takes boxes aboard."""


def under_way(health: Health = Health.WATCH) -> Plan:
    """The running plan as that stop is over; its yard has a gate, and is not sound."""
    plan = running_plan()
    access = Access(opens_min=360, closes_min=1200, phone="0100", notes="code 12")
    yards = tuple(
        replace(yard, access=access, health=health) if yard.id == PAST.yard else yard
        for yard in plan.outfit.yards
    )
    gone = replace(DAY, trips=tuple(replace(trip, driven=True) for trip in DAY.trips))
    return replace(
        plan,
        outfit=replace(plan.outfit, yards=yards),
        shifts=(gone, *plan.shifts[1:]),
        now_min=PAST.end_min,
    )


def test_a_stop_that_is_past_says_what_was_done() -> None:
    """No number to stop at, no latest time, no way in; what its boxes ask stays."""
    plan = under_way()
    made, fresh = sheet_of_first(plan).steps, sheet_of_first(replace(plan, now_min=0)).steps
    page = Page(manifest_page(sheet_of_first(plan))).text
    past = made[AT]

    assert [number <= AT for number in range(len(made))] == [one.over for one in made]
    assert not any(one.over for one in fresh)
    for step in made[: AT + 1]:
        assert ("", (), "", "", (), "") == (
            step.latest, step.late, step.stop_at, step.sooner, step.access, step.phone
        )  # fmt: skip
    assert fresh[AT].stop_at
    assert fresh[AT].access
    assert fresh[AT].watch == past.watch != ""
    assert fresh[AT].jobs == past.jobs
    assert fresh[AT + 1 :] == made[AT + 1 :]
    assert f"left {past.leave} done" in page
    assert f"stop at {made[AT + 1].stop_at} full boxes aboard" in page
    assert f"stop at {fresh[AT].stop_at} full boxes aboard" not in page


def test_a_stop_that_is_past_is_told_so_by_phone() -> None:
    """What was done and what its boxes ask, without a latest time, a limit or a gate."""
    plan = under_way()
    told, fresh = (phone_text(replace(plan, now_min=now), DAY.day) for now in (PAST.end_min, 0))
    mine = told.split("\n2 ")[1].split("\n3 ")[0]

    assert " done: off " in mine
    assert "latest" not in mine
    assert "max" not in mine
    assert mine.endswith("\n! watch: own tools, boxes apart, clean kit afterwards")
    assert "clean kit afterwards; not all off" in fresh
    assert "; gate 06:00-20:00; " in fresh


def test_a_closed_yard_that_is_past_asks_nothing_more() -> None:
    """Nothing left it, and whoever was there has washed down."""
    plan = under_way(Health.SUSPECT)

    assert "" == sheet_of_first(plan).steps[AT].watch
    assert "suspect" not in phone_text(plan, DAY.day)
    assert "suspect" in phone_text(replace(plan, now_min=0), DAY.day)
