"""How boxes are cleared, on papers of yards that have two ways."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Clearing
from runplanner.paperwork.loading import goods
from runplanner.paperwork.map.words import job_done
from runplanner.paperwork.phone_text import phone_text
from runplanner.paperwork.tables import plan_tables
from runplanner.paperwork.tongue import speaking
from runplanner.paperwork.yard_words import job_words
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


def test_a_yard_of_one_way_says_nothing() -> None:
    """As before."""
    assert "Take off all 10 colonies: 15 boxes on" == said(brushed(), 2)
    assert "with a brush" not in phone_text(plain(), 0)


def test_the_usual_way_is_said_where_there_is_another() -> None:
    """Nobody then has to know what is usual."""
    assert "Take off all 10 colonies, with a brush: 15 boxes on" == said(as_usual(plain()), 1)


def test_the_tool_is_loaded() -> None:
    """A brush at the first stop, and none for the yard that always wants one."""
    plan = brushed()
    found = {one.where: one.what for one in goods(plan.outfit, plan.shifts[0].trips[0])}

    assert "10 blocks and a brush" == found["stop 1"]
    assert "10 blocks" == found["stop 2"]


def test_in_german() -> None:
    """The same words."""
    with speaking("de"):
        assert "mit dem Besen, ohne Fluchten" in said(brushed(), 1)
