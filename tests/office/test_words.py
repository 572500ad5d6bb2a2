"""What the screen says of a plan."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Bill, Bound, Relief, Tally, Undone
from runplanner.daybook.trip import Job
from runplanner.office.words import (
    finding_words,
    gap,
    plan_words,
    progress_line,
    tally_words,
)
from runplanner.outfit.yards import Health
from runplanner.paperwork.speech.say import money
from runplanner.paperwork.speech.tongue import speaking
from runplanner.phrase import phrase
from runplanner.season.watch import Progress
from tests.office.fakes import a_finding
from tests.outfits import an_outfit
from tests.plans import DONE, a_short_plan, an_empty_plan


def test_money_has_its_currency() -> None:
    """Cents become a sum with two digits, thousands marked."""
    assert "1,234.05 NZD" == money(123_405, "NZD")
    assert "-3.00 NZD" == money(-300, "NZD")


@pytest.mark.parametrize(
    ("cost", "bound", "fixed", "said"),
    [
        (40_000, 36_000, 0, "10.0 %"),  # 4,000 of 40,000
        (40_000, 36_000, 20_000, "20.0 %"),  # 4,000 of the 20,000 that can be steered
        (40_000, 40_000, 20_000, "0.0 %"),
        (40_000, 40_001, 0, "0.0 %"),  # a bound rounded up by a cent is no negative gap
        (0, 0, 0, "0.0 %"),
        (20_000, 20_000, 20_000, "0.0 %"),
    ],
)
def test_gap_is_a_share_of_the_cost(cost: int, bound: int, fixed: int, said: str) -> None:
    """The gap is what might still be saved, as a share of all or of steerable cost."""
    assert said == gap(cost, bound, fixed)


def test_progress_shows_cost_bound_gap_and_undone() -> None:
    """A line of progress has round, cost, bound, gap, what is undone, and the note."""
    news = Progress(7, 9, 40_000, 36_000, DONE, phrase("near yards freed"))

    assert (
        "round 7 of 9  cost 400.00 NZD  bound 360.00 NZD  gap 10.0 %  "
        "nothing undone  near yards freed"
    ) == progress_line(news, "NZD")


def test_progress_without_a_bound_says_so() -> None:
    """Before there is a bound no gap is made up."""
    news = Progress(0, 9, 40_000, None, Tally(0, 0, 0, 12), phrase(""))

    assert (
        "round 0 of 9  cost 400.00 NZD  no bound yet  undone: 12 colonies with honey still on"
    ) == progress_line(news, "NZD")


def test_undone_is_said_in_order() -> None:
    """Every part of the undone vector is named, in the order it is compared."""
    assert (
        "undone: 3 colony-days without cover, 2 colonies without strips in time, "
        "2 kg of stores not fed, 1 colony with honey still on"
    ) == tally_words(Tally(3, 2, 1_001, 1))  # 1,001 g round up


def test_a_plan_is_summed_up() -> None:
    """Title, trips, cost by head, bound and both gaps; no word of what costs nothing."""
    assert [
        "Invented outfit for tests: 0 trips on 0 truck days",
        (
            "cost 400.00 NZD: kilometres 100.00, truck days 40.00, crew hours 200.00, "
            "spinning 30.00, mixing 10.00, fondant blocks 5.00, syrup 15.00"
        ),
        "bound 360.00 NZD, valid for every plan",
        "gap 10.0 % of all cost, 20.0 % of what planning can steer",
        "nothing undone",
    ] == list(plan_words(an_empty_plan()))


def test_a_plan_is_summed_up_in_the_language_of_its_block() -> None:
    """Also where the lines are read after it, and more than once."""
    with speaking("de"):
        lines = plan_words(an_empty_plan())

    assert "Kosten 400,00 NZD" in lines[1]
    assert list(lines) == list(lines) != []
    assert "cost 400.00 NZD" in plan_words(an_empty_plan())[1]


def test_the_second_gap_is_left_out_where_it_is_not_known() -> None:
    """Where work is left nobody knows what no plan can steer: one gap, not the same twice."""
    plan = an_empty_plan()
    lines = list(plan_words(replace(plan, bound=replace(plan.bound, fixed_cents=0))))

    assert "gap 10.0 % of all cost" in lines


def test_a_plan_of_nothing_costs_nothing() -> None:
    """No head of the bill is told where there is none, and no currency in its place."""
    assert "cost 0.00 NZD" in list(plan_words(an_empty_plan(bill=Bill(*(0,) * 12))))


def test_what_is_left_is_named_with_its_reasons_and_reliefs() -> None:
    """Each undone job, the rules that pull against it, and every relief tried."""
    plan = a_short_plan()
    reliefs = (
        Relief(phrase("one more day"), 1, 1, 12_345),
        Relief(phrase("a longer day"), 1, 2, -500),
        Relief(phrase("a trailer"), 0, 1, None),
        Relief(phrase("a second crew"), 1, 1, None),
        Relief(phrase("a day off"), 0, 1, 7_000, Tally(0, 0, 12_000, 3)),
    )
    plan = an_empty_plan(
        undone=plan.undone,
        tally=plan.tally,
        reliefs=reliefs,
        bound=Bound(phrase("every plan"), 0, 0, Tally(0, 0, 40_000, 0)),
    )

    assert [
        "bound: none was proven",
        "undone: 80 kg of stores not fed",
        "no plan can leave less than this: undone: 40 kg of stores not fed",
        "  left: Yard 1, syrup, 10 colonies, 80 kg of stores short: feed done by day 5; one truck",
        "  tried: one more day: cures all of it for 123.45 NZD more",
        "  tried: a longer day: cures 1 of 2 for 5.00 NZD less",
        "  tried: a trailer: cures nothing that was found",
        "  tried: a second crew: cures all of it",
        (
            "  tried: a day off: cures no job whole, but part of some (12 kg of stores not fed, "
            "3 colonies with honey still on) for 70.00 NZD more"
        ),
    ] == list(plan_words(plan))[2:]


def test_reasons_are_said_once_for_a_yard() -> None:
    """Syrup and strips of one yard pull against the same rules: one line says both."""
    plan = a_short_plan()
    strips = replace(plan.undone[0], job=Job.STRIPS, stores_g=0)
    said = list(plan_words(replace(plan, undone=(*plan.undone, strips))))

    assert [
        (
            "  left: Yard 1, syrup, 10 colonies, 80 kg of stores short; strips, 10 colonies: "
            "feed done by day 5; one truck"
        )
    ] == [line for line in said if line.startswith("  left: ")]


def test_no_bound_on_what_is_left_is_no_promise() -> None:
    """Where nothing is known of how little could be left, that is said, and no more."""
    said = list(plan_words(a_short_plan()))

    assert "whether a plan could leave less was not found out" in said
    assert not [line for line in said if "no plan can leave less" in line]


def test_work_left_for_its_cost_says_both_sums() -> None:
    """Cost and worth stand behind the reason."""
    left = Undone("yard1", Job.STRIPS, 10, 0, (phrase("left on purpose"),), 1_234, 700)
    said = list(plan_words(an_empty_plan(an_outfit([(3, 4)]), undone=(left,))))

    assert (
        "  left: Yard 1, strips, 10 colonies: left on purpose; "
        "costs 12.34 NZD, worth 7.00 NZD (all that is left at this yard)"
    ) == said[-1]


def test_what_health_forbids_is_owned_up_to() -> None:
    """A standstill yard's work is listed though the tally is nothing, and the line says so."""
    left = Undone("yard1", Job.TAKE_OFF, 10, 0, (phrase("standstill"),))
    outfit = an_outfit([(3, 4)])
    shut = replace(outfit, yards=(replace(outfit.yards[0], health=Health.STANDSTILL),))
    said = list(plan_words(an_empty_plan(shut, undone=(left,))))

    assert [
        "nothing undone but what health rules forbid",
        "  left: Yard 1, take-off, 10 colonies: standstill",
    ] == said[-2:]


def test_findings_have_a_line_each() -> None:
    """How many rules are broken, then each: rule, where, what is said, what is allowed."""
    assert [
        "audit: 1 broken rule",
        "  - deck (trip d0-1, yard yard1): 25 places; allowed: 24 places",
    ] == list(finding_words([a_finding()]))
