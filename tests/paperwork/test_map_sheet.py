"""What the map shows, before it is drawn."""

import re
from dataclasses import fields, replace

import pytest

from runplanner.days import DAY_MIN
from runplanner.outfit.yards import Health
from runplanner.paperwork.map.page import map_html
from runplanner.paperwork.map.panels import panels_html
from runplanner.paperwork.map.sheet import Sheet, radius, sheet_of
from runplanner.phrase import phrase
from tests.outfits import a_truck
from tests.paperwork.map_plans import (
    a_big_plan,
    a_crowded_plan,
    a_moving_plan,
    a_plan,
    an_empty_plan,
)


def _cell_lines(sheet: Sheet, name: str) -> str:
    return " ".join(line for cell in sheet.cells if cell.name == name for line in cell.lines)


def _note(sheet: Sheet, name: str) -> str:
    return next(cell.note for cell in sheet.cells if cell.name == name)


def test_area_is_in_proportion_to_the_work() -> None:
    """A quarter of the most work has half the radius; tiny cells stay touchable."""
    assert 27.0 == radius(8_000, 8_000)
    assert 13.5 == radius(2_000, 8_000)
    assert 11.0 == radius(1, 8_000)
    assert 7.0 == radius(0, 8_000)


def test_shares_of_a_cell_are_its_days() -> None:
    """Long Paddock: 4800 s on day 0 and 1800 s on day 1 of 6600 s."""
    cell = sheet_of(a_plan()).cells[0]

    assert ((0, 4_800 / 6_600), (1, 1_800 / 6_600)) == cell.fills
    assert 0.0 == cell.undone


def test_few_days_are_all_shown_many_only_the_next() -> None:
    """Three days: all on.  Eleven days with two behind: the third alone."""
    assert [True, True, True] == [day.shown for day in sheet_of(a_plan()).days]
    assert [2] == [day.day for day in sheet_of(a_big_plan()).days if day.shown]


def test_after_the_last_day_the_last_is_shown() -> None:
    """A plan that lies all in the past still opens on a day."""
    plan = replace(a_big_plan(), now_min=90 * DAY_MIN)

    assert [10] == [day.day for day in sheet_of(plan).days if day.shown]


def test_notes_say_health_cover_and_undone() -> None:
    """The short line beside a name holds what cannot wait for a tap."""
    sheet = sheet_of(a_plan())

    # Long Paddock off Mon 07:00, a block lasts 4.2 days: Fri 11:48.  Syrup comes Tuesday.
    assert "cover ends Fri 5 Mar 11:48" == _note(sheet, "Long Paddock")
    assert "standstill · work undone" == _note(sheet, "Windmill")
    assert "watch · RUNS OUT Sun 7 Mar 14:48" == _note(sheet, "Fork Creek")
    assert "" == _note(sheet, "Station Flat")
    alarms = {cell.name for cell in sheet.cells if cell.alarm}
    assert {"The Terrace", "Fork Creek", "Rimu Gate", "Windmill", "Old Orchard"} == alarms


def test_a_standstill_under_licence_is_no_watch() -> None:
    """Its note and its first sentence say what it is; a doubt of one's own says watch."""
    plan = a_plan()
    yards = tuple(
        replace(yard, licence="No 17") if yard.health is Health.WATCH else yard
        for yard in plan.outfit.yards
    )
    watched, licensed = (
        sheet_of(replace(plan, outfit=replace(plan.outfit, yards=each)))
        for each in (plan.outfit.yards, yards)
    )

    assert "standstill under licence · RUNS OUT Sun 7 Mar 14:48" == _note(licensed, "Fork Creek")
    what = "last yard of its trip, boxes kept apart."
    for sheet, why in ((watched, "Watch"), (licensed, "Standstill, moved under licence No 17")):
        assert f"{why}: {what}" in _cell_lines(sheet, "Fork Creek")


def test_a_reason_for_two_jobs_is_said_once() -> None:
    """Both jobs stand before the one reason, at the yard and in the list."""
    plan = a_plan()
    why = plan.undone[0].why
    same = replace(plan, undone=tuple(replace(one, why=why) for one in plan.undone))
    windmill = _cell_lines(sheet_of(same), "Windmill")

    assert f"Left undone: take-off, 10 colonies; syrup, 10 colonies. {why[0]}" in windmill
    assert 1 == windmill.count("Left undone")
    assert 1 == sum("Windmill" in line for line in sheet_of(same).undone)
    assert 2 == sum("Windmill" in line for line in sheet_of(plan).undone)


def test_reasons_are_sentences() -> None:
    """With a capital and a full stop, as on the index; a mark that stands there is kept."""
    plan = a_plan()
    why = (phrase("no road is known"), phrase("it rains!"), phrase("Old Mill is shut."))
    undone = tuple(replace(one, why=why) for one in plan.undone)
    sheet = sheet_of(replace(plan, undone=undone))
    words = "No road is known. It rains! Old Mill is shut."

    assert f"Left undone: take-off, 10 colonies; syrup, 10 colonies. {words}" in _cell_lines(
        sheet, "Windmill"
    )
    assert all(line.endswith(words) for line in sheet.undone)


def test_lines_tell_visits_and_reasons() -> None:
    """A tap on a yard tells each visit and why work is left."""
    sheet = sheet_of(a_plan())
    windmill = _cell_lines(sheet, "Windmill")
    paddock = _cell_lines(sheet, "Long Paddock")

    assert (
        "Standstill: last yard of its trip, nothing leaves the yard; wash down afterwards."
        in windmill
    )
    assert "Left undone: take-off, 10 colonies. Rain on every day within reach." in windmill
    assert "Mon 1 Mar 07:00–07:40: take-off, 10 colonies, 15 boxes; 10 fondant" in paddock
    assert "Tue 2 Mar 07:00–07:40: syrup round 1, 10 colonies, 50 L; strips" in paddock
    assert "Cover ends Fri 5 Mar 11:48 for 10 colonies; syrup comes Tue 2 Mar 07:00." in paddock
    assert "Work left: 1 h 50 min for one person." in paddock
    assert "No work left." in _cell_lines(sheet, "Clover Block")


def test_driven_visits_say_so() -> None:
    """Visits of driven trips are marked in words."""
    sheet = sheet_of(a_big_plan())
    driven = [line for cell in sheet.cells for line in cell.lines if "(driven)" in line]

    # Two trucks on each of days 0 and 1, three yards a trip.
    assert 12 == len(driven)


def test_lists_go_by_time_and_name_every_job() -> None:
    """Cover ends soonest first; each undone job has its line."""
    sheet = sheet_of(a_plan())

    assert "Long Paddock" in sheet.runs_out[0]
    assert 3 == len(sheet.undone)


def test_bases_on_one_place_share_a_plate() -> None:
    """Home and feed store are one place here, the honey house another."""
    roles = [base.roles for base in sheet_of(a_plan()).bases]

    assert [("home", "feed store"), ("honey house",)] == roles


def test_moved_hives_are_drawn_at_both_sites() -> None:
    """A yard that moves on day 2 has its cell here and a ghost there."""
    movers = [cell for cell in sheet_of(a_crowded_plan()).cells if cell.name == "Mover"]

    assert ["", "from Wed 3 Mar"] == [cell.site for cell in movers]
    assert movers[0].lon != movers[1].lon


def test_work_is_drawn_where_the_hives_stand_that_day() -> None:
    """Long Paddock's 4800 s of day 0 fill its cell here, the 1800 s of day 1 the one there."""
    sheet = sheet_of(a_moving_plan())
    here, there = (cell for cell in sheet.cells if cell.name == "Long Paddock")

    assert ((0, 1.0),) == here.fills
    assert ((1, 1.0),) == there.fills
    assert (radius(4_800, sheet.most_work_s), radius(1_800, sheet.most_work_s)) == (
        here.radius, there.radius,
    )  # fmt: skip
    assert "Work left: 1 h 50 min for one person." in here.lines
    since, visit = there.lines
    assert "The hives stand here from Tue 2 Mar." == since
    assert visit.startswith("Tue 2 Mar 07:00")
    hut = next(cell for cell in sheet.cells if cell.name == "Far Hut")
    assert (hut.lat, hut.lon) == (there.lat, there.lon)


def test_once_the_hives_have_moved_their_work_is_there_alone() -> None:
    """On day 1 all that is left is at the new place, and the old one is not drawn any more."""
    (cell,) = (one for one in sheet_of(a_moving_plan(DAY_MIN)).cells if one.name == "Long Paddock")

    assert ("", ((1, 1.0),)) == (cell.site, cell.fills)


def test_a_yard_on_the_base_steps_aside() -> None:
    """Two yards on the base's own spot: three steps, and no line of no length."""
    sheet = sheet_of(a_crowded_plan())
    base, one, other = sheet.bases[0].step, sheet.cells[0].step, sheet.cells[1].step

    assert 3 == len({base, one, other})
    assert all(sheet.spots[leg.start] != sheet.spots[leg.end] for leg in sheet.legs)


def test_no_trips_make_a_map_all_the_same() -> None:
    """An empty plan has yards, bases and a sentence where the days would be."""
    sheet = sheet_of(an_empty_plan())

    assert () == sheet.days
    assert () == sheet.legs
    assert 0 == sheet.full_g
    assert "No trips are planned." in panels_html(sheet)


@pytest.mark.parametrize("word", ["Dashed ring", "Ring and two bars", "Syrup comes too late"])
def test_the_key_explains_only_what_is_there(word: str) -> None:
    """Signs on the map are in the key; the empty plan's key is free of them."""
    assert word in panels_html(sheet_of(a_plan()))
    assert word not in panels_html(sheet_of(an_empty_plan()))


def test_the_key_tells_trucks_and_driven_lines_apart() -> None:
    """With two trucks and driven trips the key says how both look."""
    key = panels_html(sheet_of(a_big_plan()))

    assert "Split by a light line: Flatbed." in key
    assert "In outline: already driven." in key
    assert "Split by" not in panels_html(sheet_of(a_plan()))


def test_the_key_tells_more_than_two_trucks_apart() -> None:
    """Each has its own light line up to the fourth; what never goes out is not named."""
    plan = a_plan()
    trucks = tuple(replace(a_truck(n), name=f"Van {n}") for n in range(1, 7))
    day, *others = plan.shifts
    shifts = (day, *(replace(day, truck=truck.id) for truck in trucks[2:5]))
    plan = replace(plan, outfit=replace(plan.outfit, trucks=trucks), shifts=(*shifts, *others))
    key = panels_html(sheet_of(plan))

    assert "Split by a light line" not in key
    assert "Split by a dashed light line: Van 3." in key
    assert "Split by a dotted light line: Van 4, Van 5." in key
    assert "Van 6" not in key
    assert {"", "9 6", "0.1 5"} == set(re.findall('"split":"([^"]*)"', map_html(plan)))
    assert all(f'stroke-dasharray="{light}"' in key for light in ("9 6", "0.1 5"))


def test_ways_in_are_not_read() -> None:
    """No field of the sheet but the outfit itself holds a gate code."""
    sheet = sheet_of(a_plan())
    shown = [getattr(sheet, field.name) for field in fields(sheet) if field.name != "outfit"]

    assert "4711" not in repr(shown)
