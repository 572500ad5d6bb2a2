"""Cover that would run out: the least bad plan, a further block where it helps, and the names.

Two yards of ten colonies were taken off on day 0, at 8:00 and 8:54, each colony with one block
of 2.1 kg; at 500 g a day it lasts 4.2 days, so to day 4 at 12:48 and 13:42.  The campaign has
six days; after two blocks cover lasts to day 8.
"""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import changed, typed_changes
from runplanner.daybook.plan import Plan, Tally
from runplanner.daybook.trip import Job
from runplanner.office.words import plan_words
from runplanner.paperwork.changed.change_page import change_page
from runplanner.paperwork.changed.change_sheet import change_sheet
from runplanner.paperwork.index_page import index_page
from runplanner.paperwork.lists.cover_list import at_risk
from runplanner.paperwork.lists.undone_list import undone_words
from runplanner.paperwork.speech.tongue import speaking
from runplanner.paperwork.stop.events import actions
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.audit.plans import plain
from tests.outfits import daily
from tests.paperwork.pages import Page
from tests.season.tiny import four, tiny

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

FED_STORES = 160_000
"""Grams that ten colonies of two yards lack: 8 kg each."""


def again(*lines: str, days: int = 6) -> Plan:
    """The plan on the evening of day 0 after ``lines``, audited beside the one before."""
    before = plain()
    season = replace(before.outfit.season, n_days=days)
    before = replace(before, outfit=replace(before.outfit, season=season))
    facts = changed(before, typed_changes(lines, "Mon 1 Mar 20:00"))
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=3)
    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
    return new


def two_off_two_on(*, with_blocks: bool) -> Plan:
    """Two yards of four off on day 0, each colony with a block; two more from day 2 on.

    Those are fed as they come off, or get a block on day 2 as well, and syrup from day 3 on.
    """
    dry, drier = (daily(480, 1080, range(first, 6)) for first in (1, 3))
    early = [four(n, 6, finish_by_day=0, feed_spans=dry) for n in (1, 2)]
    late = [four(n, 6, ready_from_day=2) for n in (3, 4)]
    if with_blocks:
        late = [replace(yard, finish_by_day=2, feed_spans=drier) for yard in late]
    spots = [(10, 0), (14, 0), (10, 6), (14, 6)]
    return plan_season(tiny(spots, [*early, *late], 6), rounds=5)


@pytest.mark.parametrize(
    ("blocks", "uncovered", "begun"), [(0, 16, 0), (6, 4, 0), (8, 0, 0), (12, 0, 1), (16, 0, 2)]
)
@pytest.mark.parametrize("with_blocks", [False, True])
@pytest.mark.parametrize("rounds", [0, 5])
def test_blocks_go_first_to_colonies_already_off(
    blocks: int, uncovered: int, begun: int, rounds: int, *, with_blocks: bool
) -> None:
    """No syrup any more: eight colonies off are without cover for the last two days.

    Each block saves one of them both days.  Only what they leave is for the yards of four that
    may still come off on day 2, with cover to the end, blocks promised them or not.  All that
    both want is one relief.
    """
    before = two_off_two_on(with_blocks=with_blocks)
    assert (8 + 8 * with_blocks) == sum(one.pieces for _, one in actions(before, Job.BLOCK))
    lines = ("shut all 2 Mar - 8 Mar for syrup", f"blocks left {blocks}")
    facts = changed(before, typed_changes(lines, "Mon 1 Mar 20:00"))
    plan = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=rounds)

    assert [] == [finding.sentence() for finding in audit(plan, facts.plan)]
    assert uncovered == plan.tally.uncovered
    assert 8 - 4 * begun == plan.tally.not_off
    more = [f"{16 - blocks} more fondant blocks"] if blocks < 16 else []
    assert more == [one.what for one in plan.reliefs if one.what.endswith("fondant blocks")]


def further(plan: Plan) -> dict[str, tuple[int, int]]:
    """Day and number of the further blocks of each yard."""
    return {
        call.yard: (shift.day, action.pieces)
        for shift in plan.shifts if shift.day > 0
        for trip in shift.trips for call in trip.yards()
        for action in call.actions if action.job is Job.BLOCK
    }  # fmt: skip


def test_a_second_block_saves_colonies_that_cannot_be_fed() -> None:
    """No hour fit for syrup until the end: ten more blocks for each yard, which last beyond it.

    With no syrup planned they run out all the same, two days after the last: both are named.
    """
    plan = again("shut all 2 Mar - 8 Mar for syrup: frost")

    assert Tally(0, 0, FED_STORES, 0) == plan.tally
    assert {"yard1": 10, "yard2": 10} == {yard: n for yard, (_, n) in further(plan).items()}
    assert all(day <= 4 for day, _ in further(plan).values())
    later = "; after the last day: feed them by then, or give a block"
    assert [
        f"Yard 1: 10 colonies run out Tue 9 Mar 17:36; syrup: no syrup planned{later}",
        f"Yard 2: 10 colonies run out Tue 9 Mar 18:30; syrup: no syrup planned{later}",
    ] == list(at_risk(plan))
    assert [f"at risk: {line}" for line in at_risk(plan)] == [
        line for line in plan_words(plan) if line.startswith("at risk")
    ]
    page = Page(index_page(plan))
    assert all(line in page.text for line in at_risk(plan))
    assert {Job.FEED} == {undone.job for undone in plan.undone}
    assert all("frost" in " ".join(undone.why) for undone in plan.undone)


def test_two_blocks_each_that_a_driver_gave_need_no_third() -> None:
    """No syrup comes any more: two each at the take-off last beyond the last day, as counted."""
    lines = [f"done off Yard {n}: 10 colonies 15 boxes 20 blocks" for n in (1, 2)]
    plan = again(*lines, "shut all 2 Mar - 8 Mar for syrup", "blocks left 0")

    assert Tally(0, 0, FED_STORES, 0) == plan.tally
    assert {} == further(plan)
    assert all(" run out Tue 9 Mar " in line for line in at_risk(plan))


@pytest.mark.parametrize(
    ("owned", "given", "ends"),
    [
        (34, (10, 4), ("Fri 5 Mar 13:42", "Tue 9 Mar 17:36", "Tue 9 Mar 18:30")),
        (20, (), ("Fri 5 Mar 12:48", "Fri 5 Mar 13:42")),
        (100, (10, 10), ("Tue 9 Mar 17:36", "Tue 9 Mar 18:30")),
    ],
)
def test_blocks_left_over_last_beyond_a_campaign_that_ends_first(
    owned: int, given: tuple[int, ...], ends: tuple[str, ...]
) -> None:
    """Four days: cover ends on the fifth, hours after the last midnight, and no syrup comes.

    What blocks are left over when 20 are eaten go to those whose cover ends first; all of it is
    beside what counts as undone, and the rest are named.
    """
    plan = again("shut all 2 Mar - 8 Mar for syrup", f"blocks left {owned - 20}", days=4)

    assert Tally(0, 0, FED_STORES, 0) == plan.tally
    assert given == tuple(number for _, (_, number) in sorted(further(plan).items()))
    risk = at_risk(plan)
    assert ends == tuple(line.partition(" run out ")[2].partition(";")[0] for line in risk)
    assert all(line.endswith("feed them by then, or give a block") for line in risk)


def test_no_block_goes_beyond_the_campaign_where_feed_may_be_left() -> None:
    """Who states what feed is worth has weighed it: both yards run out, and are named."""
    before = plain()
    prices = replace(before.outfit.prices, worth_feed_cents=1)
    season = replace(before.outfit.season, n_days=4)
    before = replace(before, outfit=replace(before.outfit, prices=prices, season=season))
    facts = changed(before, typed_changes(["shut all 2 Mar - 8 Mar for syrup"], "Mon 1 Mar 20:00"))
    plan = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=3)

    assert {} == further(plan)
    assert 2 == len(at_risk(plan))


def test_a_second_block_bridges_the_days_to_late_syrup() -> None:
    """Syrup is fit on day 5 again, a day after cover ends: a block before, and then syrup."""
    plan = again("shut all 2 Mar - 5 Mar for syrup")

    assert Tally(0, 0, 0, 0) == plan.tally
    assert {"yard1", "yard2"} == set(further(plan))
    assert {
        ("Yard 1", "block 10", "cover ends Fri 5 Mar 12:48"),
        ("Yard 2", "block 10", "cover ends Fri 5 Mar 13:42"),
    } == {(one.yard, one.what, one.why) for one in change_sheet(plain(), plan).added}


def test_too_few_blocks_save_as_many_as_they_can() -> None:
    """Twelve blocks: one yard whole, two colonies of the other; the eight are named first.

    Each of the eight is without cover from 13:42 on day 4 to the end: two started days.
    """
    plan = again("shut all 2 Mar - 8 Mar for syrup", "blocks left 12")

    assert 8 * 2 == plan.tally.uncovered
    assert [10, 2] == sorted((n for _, n in further(plan).values()), reverse=True)
    line, *beyond = at_risk(plan)
    assert "8 colonies run out Fri 5 Mar" in line
    assert 2 == sum(" colonies run out Tue 9 Mar" in one for one in beyond) == len(beyond)
    assert line.endswith("no syrup planned")
    (cover,) = [one for one in plan.undone if one.job is Job.BLOCK]
    assert "16 colony-days without cover" == undone_words(cover)
    (why,) = cover.why
    assert why.startswith("fondant blocks left over: 0; wanted here")
    assert why.endswith(": 8")
    assert ("8 more fondant blocks", 1, 3) in [
        (one.what, one.cured, one.undone) for one in plan.reliefs
    ]


@pytest.mark.parametrize(
    ("lines", "days"),
    [
        (("shut all 2 Mar - 8 Mar for syrup", "blocks left 0"), 2 * 10 * 2),
        (("truck1 out 2-8 Mar",), 2 * 10 * 2),
        (("truck1 out 2-5 Mar",), 2 * 10 * 1),
    ],
)
def test_where_nothing_helps_the_colonies_are_named(lines: tuple[str, ...], days: int) -> None:
    """No blocks, or nobody to bring them: both yards are named on the change sheet, soonest first.

    Not fed, two started days each to the end; fed on day 5 at 6:29 or later, one.
    """
    plan = again(*lines)
    sheet = change_sheet(plain(), plan, lines)

    assert days == plan.tally.uncovered
    cover = [one for one in plan.undone if one.job is Job.BLOCK]
    assert days == sum(one.colony_days for one in cover)
    assert {"yard1", "yard2"} == {one.yard for one in cover}
    assert all(one.why for one in cover)
    assert ("20 more fondant blocks" in [one.what for one in plan.reliefs]) == (
        "blocks left 0" in lines
    )
    assert [
        "Yard 1: 10 colonies run out Fri 5 Mar 12:48",
        "Yard 2: 10 colonies run out Fri 5 Mar 13:42",
    ] == [line.split(";")[0] for line in sheet.at_risk]
    assert "Colonies at risk: cover ends" in change_page(plain(), plan, sheet)
    with speaking("de"):
        sheet = change_sheet(plain(), plan, lines)
        assert "Völker in Gefahr: das Futter endet" in change_page(plain(), plan, sheet)
