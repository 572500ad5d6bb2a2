"""Tests of the take-off register."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Health
from runplanner.paperwork.lists.take_off_register import loads, register_page
from runplanner.paperwork.stop.honey import lots
from tests.paperwork.pages import Page
from tests.paperwork.plans import eight_stop_plan, hostile_plan, small_plan


def watched(plan: Plan) -> Plan:
    """The plan with its first yard in doubt."""
    first, *rest = plan.outfit.yards
    yards = (replace(first, health=Health.WATCH), *rest)
    return replace(plan, outfit=replace(plan.outfit, yards=yards))


def test_every_box_stands_in_one_lot_of_one_load() -> None:
    """The register holds the boxes that the honey house is told of, load by load."""
    plan = eight_stop_plan()
    found = loads(plan)

    lines = [line for load in found for line in (*load.lots, *load.apart)]
    assert sorted(lot.code for lot in lots(plan)) == sorted(line.lot for line in lines)
    assert sum(lot.boxes for lot in lots(plan)) == sum(load.boxes for load in found)
    assert all(load.boxes == sum(x.boxes for x in (*load.lots, *load.apart)) for load in found)


def test_a_load_of_one_lot() -> None:
    """15 boxes of 16 kg make 240 kg; the lot is L, date and yard."""
    load = loads(small_plan())[0]

    assert ["L20270301-yard1"] == [line.lot for line in load.lots]
    assert (15, 240, "Yard 1") == (load.boxes, load.lots[0].kg, load.lots[0].yard)
    assert load.head.startswith("Mon 1 Mar ")
    assert load.head.endswith(", Truck 1")


def test_a_watched_yard_stands_apart() -> None:
    """Its lot leaves the common table, and the page says to stack and spin it apart."""
    load = loads(watched(small_plan()))[0]

    assert () == load.lots
    assert ["L20270301-yard1"] == [line.lot for line in load.apart]
    assert "Stack and spin apart" in Page(register_page(watched(small_plan()))).text
    assert "Stack and spin apart" not in Page(register_page(small_plan())).text


def test_there_is_room_to_tick_count_and_weigh() -> None:
    """A tick box and three lines for each lot, and a line for who counted."""
    page = Page(register_page(small_plan()))
    number = len(lots(small_plan()))

    assert number == page.values("class").count("tick")
    assert 3 * number + len(loads(small_plan())) == page.values("class").count("line")


def test_no_honey_no_register() -> None:
    """Without boxes the page says so."""
    empty = replace(small_plan(), shifts=())
    assert "No honey boxes are brought in." in Page(register_page(empty)).text


def test_hostile_words_are_words() -> None:
    """The same elements as with plain names."""
    assert Page(register_page(small_plan())).tags == Page(register_page(hostile_plan())).tags


def test_heavy_boxes_are_lifted_by_two() -> None:
    """Boxes of 26 kg are over 25 (HSE INDG143, a guide); those of 25 are not."""
    for grams, said in ((26_000, True), (25_000, False)):
        plan = small_plan()
        yards = tuple(replace(yard, box_g=grams) for yard in plan.outfit.yards)
        heavy = replace(plan, outfit=replace(plan.outfit, yards=yards))
        assert said is ("over 25 kg" in Page(register_page(heavy)).text)


def test_a_long_trip_is_named_to_its_time() -> None:
    """Two loads of one truck's day differ by the time at the end of the trip's name alone."""
    plan = small_plan()
    (first, *others) = plan.shifts
    name = "0301-a-truck-whose-name-is-forty-letters-long-0817"
    (trip,) = first.trips
    plan = replace(plan, shifts=(replace(first, trips=(replace(trip, id=name),)), *others))

    assert name == loads(plan)[0].trip
