"""How boxes are cleared, on papers of outfits that have more than one way."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Clearing
from runplanner.paperwork.data.tables import plan_tables
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.driver.loading import goods
from runplanner.paperwork.map.words import job_done
from runplanner.paperwork.speech.tongue import speaking
from runplanner.paperwork.stop.yard_words import cleared_by, job_words
from tests.audit.plans import brushed_instead, plain


def brushed() -> Plan:
    """Yard 1 is brushed this time, usually it has boards."""
    return brushed_instead()


def as_usual(plan: Plan) -> Plan:
    """Yard 1 is brushed as ever, and could be blown out."""
    one, *rest = plan.outfit.yards
    yards = (replace(one, clearing_else=Clearing.BLOWER), *rest)
    return replace(plan, outfit=replace(plan.outfit, yards=yards))


def said(plan: Plan, number: int) -> str:
    """What a manifest and a day sheet say of the first job at a stop."""
    call = plan.shifts[0].trips[0].yards()[number - 1]
    return job_words(plan, call, call.actions[0])


def test_a_take_off_by_the_other_way_says_so() -> None:
    """On manifest and day sheet, by phone, on the map and in the table."""
    plan = brushed()

    assert "Take off all 10 colonies, with a brush, no boards: 15 boxes on" == said(plan, 1)
    assert "off 10 col 15 bx with a brush, no boards" in phone_text(plan, 0)
    assert job_done(plan.shifts[0].trips[0].yards()[0].actions[0]).endswith(", with a brush")
    stops = plan_tables(plan)["stops"]
    assert ["brush", "", "brush", ""] == list(stops["clearing"][:4])


def test_an_outfit_of_one_way_says_nothing() -> None:
    """Every yard is brushed: nobody has to be told, and nobody forgets the brush."""
    plan = plain()

    assert "Take off all 10 colonies: 15 boxes on" == said(plan, 1)
    assert "with a brush" not in phone_text(plan, 0)
    shift = plan.shifts[0]
    listed = goods(plan.outfit, shift, shift.trips[0])
    assert not [one for one in listed if "brush" in one.what]


def test_an_outfit_of_several_ways_says_each() -> None:
    """Yard 1 is blown out, yard 2 brushed, each as ever: manifest, day sheet and loading list."""
    plan = plain()
    one, *rest = plan.outfit.yards
    for way, words in (
        (Clearing.BLOWER, "with the blower"),
        (Clearing.WARM_BOARD, "with warm boards"),
        (Clearing.BOARDS, "from the boards"),
    ):
        yards = (replace(one, clearing=way), *rest)
        mixed = replace(plan, outfit=replace(plan.outfit, yards=yards))
        assert f"Take off all 10 colonies, {words}: 15 boxes on" == said(mixed, 1)
        assert "Take off all 10 colonies, with a brush: 15 boxes on" == said(mixed, 2)
        assert f"off 10 col 15 bx {words}" in phone_text(mixed, 0)


def test_the_usual_way_is_said_where_there_is_another() -> None:
    """Nobody then has to know what is usual."""
    assert "Take off all 10 colonies, with a brush: 15 boxes on" == said(as_usual(plain()), 1)


def test_boards_that_come_back_say_the_way_themselves() -> None:
    """No words twice; a yard with a second way says its usual one all the same."""
    plan = plain()
    one, *rest = plan.outfit.yards
    yard = replace(one, clearing=Clearing.BOARDS)
    off = replace(plan.shifts[0].trips[0].yards()[0].actions[0], boards_off=10)

    outfit = replace(plan.outfit, yards=(yard, *rest))
    assert "" == cleared_by(outfit, yard, off)
    assert "from the boards" == cleared_by(outfit, yard, replace(off, boards_off=0))
    two = replace(yard, clearing_else=Clearing.BLOWER)
    assert "from the boards" == cleared_by(replace(outfit, yards=(two, *rest)), two, off)


def test_where_no_box_comes_off_there_is_no_way() -> None:
    """Ten colonies without a box: nothing to brush, and no brush for it on the loading list.

    They are condensed; who read of nothing to take off would leave them out.
    """
    plan = with_boxes(brushed(), 0)

    assert "Condense all 10 colonies: no honey boxes" == said(plan, 1)
    assert ": condense 10 col, block 10" in phone_text(plan, 0)
    with speaking("de"):
        assert ": einengen 10 V, " in phone_text(plan, 0)
    assert "take-off, 10 colonies, 0 boxes" == job_done(
        plan.shifts[0].trips[0].yards()[0].actions[0]
    )
    one, *rest = as_usual(plain()).outfit.yards
    blown = replace(plan.outfit, yards=(replace(one, clearing=Clearing.BLOWER), *rest))
    assert ["a brush"] == tools(replace(with_boxes(plain(), 0), outfit=blown))
    assert ["the blower with fuel and a brush"] == tools(replace(plain(), outfit=blown))


def with_boxes(plan: Plan, boxes: int) -> Plan:
    """The plan with so many boxes off at the first stop."""
    first, *more = plan.shifts
    trip, *later = first.trips
    load, call, *calls = trip.calls
    off, *jobs = call.actions
    call = replace(call, actions=(replace(off, boxes=boxes), *jobs))
    trip = replace(trip, calls=(load, call, *calls))
    return replace(plan, shifts=(replace(first, trips=(trip, *later)), *more))


def tools(plan: Plan) -> list[str]:
    """What the loading list of the first trip says of tools."""
    shift = plan.shifts[0]
    listed = goods(plan.outfit, shift, shift.trips[0])
    return [one.what for one in listed if one.where == "tools"]


def test_the_tools_are_named_once() -> None:
    """Both stops are brushed: one brush; a blower wants its fuel, of warm boards none is counted.

    Boards are goods, no tools.
    """
    plan = brushed()
    one, two, *rest = plan.outfit.yards

    def cleared(first: Clearing, second: Clearing) -> Plan:
        yards = (replace(one, clearing=first), replace(two, clearing=second), *rest)
        as_usual = plain()
        return replace(as_usual, outfit=replace(as_usual.outfit, yards=yards))

    assert ["a brush"] == tools(plan)
    assert ["the blower with fuel and a brush"] == tools(cleared(Clearing.BRUSH, Clearing.BLOWER))
    assert ["warm boards"] == tools(cleared(Clearing.WARM_BOARD, Clearing.BOARDS))
    assert [] == tools(plain())


def test_no_tool_for_boards_alone() -> None:
    """A trip that takes off from boards only brings none, whatever other yards want."""
    plan = plain()
    boards = tuple(replace(yard, clearing=Clearing.BOARDS) for yard in plan.outfit.yards)
    spare = replace(boards[0], id="spare", clearing=Clearing.BLOWER)
    outfit = replace(plan.outfit, yards=(*boards, spare))

    assert [] == tools(replace(plan, outfit=outfit))


def test_in_german() -> None:
    """The same words."""
    with speaking("de"):
        assert "mit dem Besen, ohne Fluchten" in said(brushed(), 1)
