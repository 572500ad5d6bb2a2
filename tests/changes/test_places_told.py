"""Yards that move, new yards, and restricted areas on the way."""

from dataclasses import replace

import pytest

from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.days import Span
from runplanner.errors import ScenarioError
from runplanner.outfit.areas import Area
from runplanner.outfit.outfit import Assumed
from runplanner.outfit.yards import Access, Health
from runplanner.phrase import phrase
from tests.changes.refused import NOON, faults, under_boards
from tests.running import put_in, running_outfit, running_plan


def test_a_new_yard_like_a_closed_one_is_open_and_none_of_its_honey_held() -> None:
    """Creek Mouth is closed, has been before, and strips were in beside its honey."""
    plan = running_plan()
    (yard,) = (one for one in plan.outfit.yards if one.id == "creek-mouth")
    held = replace(yard, was_held=(Span(0, 9),), treated_min=5, treated_told_min=9, freed_min=20)
    yards = tuple(held if one.id == yard.id else one for one in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))
    line = "new yard X at 0.0 0.1: 5 colonies 5 boxes like Creek Mouth"
    new = put_in("suspect Creek Mouth", line, now=NOON, plan=plan).outfit.yards[-1]

    assert (Health.SOUND, None, ()) == (new.health, new.held_min, new.held_spans(0, 10**6))
    assert new.freed_min is None


@pytest.mark.parametrize(
    "line",
    ["shut Fernbank Fri 10:00-15:00 for syrup", "open Fernbank Fri 4:00-6:00", "dead 5 Fernbank",
     "unsettled Fernbank Fri from 18:00", "standstill Fernbank", "move Fernbank to 0.0 0.2",
     "shut all Fri", "suspect X",
     "done 0304-truck2-0716 Fernbank: 10 colonies 20 boxes 3 brood boxes"],
)  # fmt: skip
def test_a_new_yard_comes_before_what_is_told_of_the_one_it_is_like(line: str) -> None:
    """What is typed of Fernbank in the same message is of Fernbank alone, in either order."""
    new = "new yard X at 0.0 0.1: 5 colonies 5 boxes like Fernbank"
    now = "Thu 4 Mar 18:00"
    facts, other = (put_in(*two, now=now).outfit for two in ((new, line), (line, new)))
    told = "Fernbank" not in line or line.startswith("done")

    assert facts == other
    assert told or put_in(new, now=now).outfit.yards[-1] == facts.yards[-1]


def test_a_new_yard_has_brood_boxes_as_the_one_it_is_like_before_deaths() -> None:
    """Ten brood boxes of ten colonies are one each, though five are told dead beside."""
    plan = running_plan()
    yards = tuple(replace(one, brood_boxes_off=10) for one in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))
    new = "new yard X at 0.0 0.1: 5 colonies 5 boxes like Fernbank"

    for lines in ((new,), (new, "dead 5 Fernbank")):
        assert 5 == put_in(*lines, now=NOON, plan=plan).outfit.yards[-1].brood_boxes_off


@pytest.mark.parametrize(("typed", "more"), [(None, 25), (100, 0)])
def test_a_new_yard_has_blocks_where_nobody_typed_how_many_there_are(
    typed: int | None, more: int
) -> None:
    """For each of its five colonies as many as for any: one by the rules, and three further."""
    plan = running_plan()
    told = phrase("kit.blocks"), phrase("as many as it takes"), phrase("guessed")
    assumed = (Assumed(*told),) if typed is None else ()
    outfit = replace(plan.outfit, assumed=assumed, kit=replace(plan.outfit.kit, blocks_owned=100))
    rules = replace(outfit.rules, blocks=2)
    plan = replace(plan, outfit=replace(outfit, rules=rules))
    line = "new yard X at 0.0 0.1: 5 colonies 5 boxes"

    assert 100 + more == put_in(line, now=NOON, plan=plan).outfit.kit.blocks_owned


def test_no_boards_lie_in_a_new_yard() -> None:
    """Though they do in the one it is like."""
    line = "new yard X at 0.0 0.1: 5 colonies 5 boxes like Old Mill"

    assert put_in(line, now=NOON, plan=under_boards()).outfit.yards[-1].boards_on_min is None


def test_a_yard_moves() -> None:
    """From a day after today on; roads to the new place are like the others for their length."""
    told = put_in("move Fernbank to 0.09 0.09 on Sat: fire risk", now=NOON)
    facts = told.outfit
    yard = facts.yard("fernbank")

    assert (0, 5) == (yard.sites[0][0], yard.sites[1][0])
    assert 4 == yard.place_on(5) == len(facts.places) - 1
    assert 5 == len(facts.travel.metres) == len(facts.travel.minutes[0])
    assert (running_outfit().travel.source, (4,)) == (facts.travel.source, facts.travel.guessed)
    # Roads 10 + 14 + 25 + 4 + 15 + 11 = 79 km, straight 10.0 + 14.0 + 20.7 + 4.0 + 11.2 + 7.8.
    assert told.notes[0].endswith("straight lines x 1.17 at 60 km/h, as on the other roads")
    # The test grid is a kilometre a minute: so is the new road.
    assert facts.travel.metres[0][4] == pytest.approx(
        1000 * (facts.travel.minutes[0][4] or 0), abs=1000
    )
    assert 3 == put_in("move Fernbank to 0.09 0.09", now=NOON).outfit.yard("fernbank").sites[1][0]


def test_a_truck_that_carries_hives_is_not_to_be_had() -> None:
    """Red carries Fernbank in the night before Saturday, its sixth day; a new yard is no such."""
    told = put_in("move Fernbank to 0.09 0.09 on Sat with Red: fire risk", now=NOON)
    red = next(one for one in told.outfit.trucks if one.name == "Red")

    assert ((5, red.id),) == told.outfit.yard("fernbank").carried_by
    assert 5 in red.out_days
    assert () == put_in("move Fernbank to 0.09 0.09 on Sat", now=NOON).outfit.yards[0].carried_by
    twice = put_in(
        "move Fernbank to 0.09 0.09 on Sat with truck Red",
        "new yard Mill Lane at 0.0, 0.1: 24 colonies 40 boxes like Fernbank", now=NOON,
    )  # fmt: skip
    assert () == twice.outfit.yards[-1].carried_by


def test_a_truck_is_not_back_on_the_day_after_its_night_with_hives() -> None:
    """Red is broken from Friday on and back from then on, but carries Fernbank that night."""
    told = put_in(
        "Red broken Fri - Mon", "move Fernbank to 0.09 0.09 on Sat with Red", "Red back Fri",
        now=NOON,
    )  # fmt: skip
    red = next(one for one in told.outfit.trucks if one.name == "Red")

    assert (5,) == red.out_days
    assert told.notes[-1].startswith("Red stays out on Sat")
    assert told.notes[-1].endswith("in the night before it carries the hives of Fernbank")


@pytest.mark.parametrize("lines", [
    ("move Fernbank to 0.09 0.09 on Sat with Red", "suspect Fernbank"),
    ("suspect Fernbank",), ("standstill Fernbank, feed agreed",),
])  # fmt: skip
def test_hives_of_a_yard_that_closes_stay(lines: tuple[str, ...]) -> None:
    """The move of Saturday, day 5, stops, told the evening before.

    Red is not sent out on Saturday by itself: it may be away for other reasons too.
    """
    night = "Fri 5 Mar 20:00"
    plan = running_plan()
    if len(lines) == 1:
        before = put_in("move Fernbank to 0.09 0.09 on Sat with Red", now=NOON)
        plan = replace(plan, outfit=before.outfit)
    told = put_in(*lines, plan=plan, now=night)
    yard = told.outfit.yard("fernbank")

    assert ((0, yard.sites[0][1]),) == yard.sites
    assert () == yard.carried_by
    (note,) = [one for one in told.notes if "the hives stay where they are" in one]
    assert note.startswith("Fernbank: ")
    assert "the move in the night before Sat 6 Mar is called off: ring whoever" in note
    assert note.endswith("Red still stays home that day; to have it, type 'Red back Sat 6 Mar'")
    red = next(one for one in told.outfit.trucks if one.name == "Red")
    assert (5,) == red.out_days
    back = put_in("Red back Sat 6 Mar", plan=replace(plan, outfit=told.outfit), now=night)
    assert () == next(one for one in back.outfit.trucks if one.name == "Red").out_days


def test_hives_that_have_been_carried_stand_where_they_are() -> None:
    """Carried in the night before Saturday; closed that day at 9:00, they stay at the new place."""
    before = put_in("move Fernbank to 0.09 0.09 on Sat with Red", now=NOON)
    plan = replace(running_plan(), outfit=before.outfit)
    told = put_in("suspect Fernbank", plan=plan, now="Sat 6 Mar 9:00")

    assert before.outfit.yard("fernbank").sites == told.outfit.yard("fernbank").sites
    assert ((5, "truck2"),) == told.outfit.yard("fernbank").carried_by
    assert not [one for one in told.notes if "the hives stay" in one]


@pytest.mark.parametrize("line", ["suspect Fernbank", "standstill Fernbank"])
def test_a_closed_yard_is_not_moved(line: str) -> None:
    """The line is refused, with the licence as its cure; with one it is read."""
    move = "move Fernbank to 0.09 0.09 on Sat"
    (told,) = faults(line, move)

    assert "a yard that is neither suspect nor at a standstill" in told
    assert "type that line first: 'standstill Fernbank, licence No 17, district office'" in told
    licensed = put_in("standstill Fernbank, licence No 17, district office", move, now=NOON)
    assert 2 == len(licensed.outfit.yard("fernbank").sites)


@pytest.mark.parametrize(
    "area",
    [Area(((0.09, 0.1),), 1_200), Area(((0.08, 0.08), (0.1, 0.08), (0.1, 0.1), (0.08, 0.1)))],
    ids=["circle", "square"],
)  # fmt: skip
def test_hives_are_not_moved_into_a_restricted_area(area: Area) -> None:
    """A hundredth of a degree is 1.1 km; the file refuses it as well. With a licence it is read."""
    plan = running_plan()
    plan = replace(plan, outfit=replace(plan.outfit, areas=(area,)))
    plan = plan_from_text(plan_text(plan))
    move = "move Fernbank to 0.09 0.09 on Sat"
    with pytest.raises(ScenarioError) as caught:
        put_in(move, now=NOON, plan=plan)
    (fault,) = caught.value.faults

    assert "a place outside restricted areas, which hives do not leave" == fault.allowed
    assert "type that line first: 'standstill Fernbank, licence No 17" in fault.cure
    licence = "standstill Fernbank, licence No 17, district office"
    licensed = put_in(licence, move, now=NOON, plan=plan)
    outside = put_in(move.replace("0.09 0.09", "0.09 0.07"), now=NOON, plan=plan)
    for told in (licensed, outside):
        assert 2 == len(told.outfit.yard("fernbank").sites)


def test_a_licence_taken_back_calls_off_the_move_into_an_area() -> None:
    """That of Saturday, told with a licence before; the one of Friday, outside, stays."""
    plan = running_plan()
    outfit = replace(plan.outfit, areas=(Area(((0.09, 0.1),), 1_200),))
    before = put_in(
        "standstill Fernbank, licence No 17, district office",
        "move Fernbank to 0.09 0.07 on Fri", "move Fernbank to 0.09 0.09 on Sat with Red",
        "move Fernbank to 0.09 0.06 on Sun", now=NOON, plan=replace(plan, outfit=outfit),
    )  # fmt: skip
    told = put_in("sound Fernbank", now="Wed 3 Mar 13:00", plan=replace(plan, outfit=before.outfit))
    yard = told.outfit.yard("fernbank")

    assert [0, 4] == [day for day, _ in yard.sites]
    assert () == yard.carried_by
    said = [one for one in told.notes if "without a licence they do not go into" in one]
    assert ["night before Sat 6", "night before Sun 7"] == [
        note[note.index("night"):][:18] for note in said
    ]  # fmt: skip
    assert "Red still stays home that day" in said[0]


def test_a_new_yard_in_a_restricted_area_is_at_a_standstill() -> None:
    """As one of the file is."""
    plan = running_plan()
    area = Area(((0.0, 0.1),), 1_000)
    plan = replace(plan, outfit=replace(plan.outfit, areas=(area,)))
    lines = [f"new yard {name} at 0.0 {lon}: 5 colonies 5 boxes"
             for name, lon in (("In", 0.105), ("Out", 0.115))]  # fmt: skip
    told = put_in(*lines, now=NOON, plan=plan)

    assert [Health.STANDSTILL, Health.SOUND] == [yard.health for yard in told.outfit.yards[3:]]
    held = "In: in a restricted area, so at a standstill: nothing leaves"
    assert [held] == [note for note in told.notes if "standstill" in note]
    for line, says in (
        ("sound In", False), ("watch In", False), ("standstill In", True), ("suspect In", False),
        ("standstill In, licence No 17, district office", False),
    ):  # fmt: skip
        assert says is (held in put_in(*lines, line, now=NOON, plan=plan).notes)


def test_a_moved_yard_keeps_what_was_typed_of_its_old_place() -> None:
    """Fernbank has a district; the mill has nothing, until somebody types a gate and a note."""
    line = "move {} to 0.09 0.09 on Sat"
    told = put_in(line.format("Fernbank"), now=NOON).notes
    gated = Access(opens_min=420, notes="dog", phone="1")
    yards = tuple(replace(one, access=gated) for one in running_outfit().yards)
    plan = replace(running_plan(), outfit=replace(running_outfit(), yards=yards))
    more = put_in(line.format("Old Mill"), plan=plan, now=NOON).notes

    kept = "kept from the old place until somebody types others:"
    assert f"Fernbank: {kept} district" == told[1]
    assert f"Old Mill: {kept} limits of the way in, notes, whom to ring" == more[1]
    assert 1 == len(put_in(line.format("Old Mill"), now=NOON).notes)


def test_a_new_yard() -> None:
    """It takes what was not typed from its nearest neighbour, or from the one it is like."""
    facts = put_in("new yard Mill Lane at 0.0, 0.1: 24 colonies 40 boxes", now=NOON)
    yard = facts.outfit.yards[-1]
    alike = put_in("new yard X at 0.0 0.1: 5 colonies 0 boxes like Old Mill", now=NOON).outfit

    assert ("mill-lane", 24, 40, "coast") == (yard.id, yard.colonies, yard.boxes, yard.district)
    assert "Mill Lane: gate and way in unknown" in facts.notes[0]
    assert "Mill Lane: drives there are guessed" in facts.notes[1]
    assert (4,) == facts.outfit.travel.guessed
    assert running_outfit().yard("mill").clearing == alike.yards[-1].clearing
