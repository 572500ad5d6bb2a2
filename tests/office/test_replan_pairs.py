"""Every kind of change, and every pair of kinds, put into a campaign with a truck on the road."""

import itertools
from dataclasses import replace
from functools import cache

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import changed, typed_changes
from runplanner.changes.verbs.table import VERBS
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_text
from runplanner.errors import Fault, ScenarioError
from runplanner.office.campaign import Effort
from runplanner.office.replan import replan_campaign
from runplanner.outfit.safety import Safety, plain, safe
from runplanner.paperwork.changed.change_sheet import ChangeSheet, change_sheet
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.office.test_replan_any import papers_hold, shifts_by
from tests.running import running_outfit, running_plan

pytestmark = pytest.mark.no_cover  # counting lines takes thrice as long; other tests meet these

NOW = "Thu 4 Mar 9:00"
"""The red truck has done Old Mill, is at Creek Mouth, and has Fernbank to come."""
TRIP = "0304-truck2-0716"
KINDS = {
    "now": "now Thu 4 Mar 9:00",
    "done": f"done {TRIP} Old Mill: 20 boards",
    "done nothing": f"done {TRIP} Old Mill: nothing",
    "shut": "shut Old Mill Fri: rain",
    "shut for syrup": "shut all Fri-Sat for syrup",
    "shut today": "shut Fernbank Thu from 10:00: rain",
    "open": "open Old Mill Sat 9:00-12:00",
    "unsettled": "unsettled all Fri from 18:00",
    "honey house stopped": "honey house stopped until Sat",
    "honey house full": "honey house full Fri",
    "dead": "dead 2 Old Mill",
    "dead all": "dead 10 Fernbank",
    "queenless": "queenless 1 Creek Mouth",
    "suspect": "suspect Old Mill",
    "standstill": "standstill Fernbank, feed agreed",
    "watch": "watch Fernbank",
    "sound": "sound Old Mill",
    "boxes left": "boxes left 12 Old Mill",
    "move": "move Old Mill to 0.04 -0.06 on Sat",
    "new yard": "new yard Found at 0.05 0.05: 6 colonies 9 boxes",
    "home": "home Red",
    "skip": "skip Fernbank",
    "skip strips": "skip strips Fernbank",
    "next": "next Red: Fernbank",
    "left": "left Creek Mouth 9:40",
    "blocks left": "blocks left 3",
    "strips left": "strips left 20",
    "boards left": "boards left 30",
    "boards lost": "boards lost 25",
    "boards found": "boards found 9",
    "sugar left": "sugar left 150 kg",
    "syrup left": "syrup left 60 L",
    "out": "Red out Fri",
    "off": "Ann off Fri-Sun",
    "back": "Ann back Fri",
}  # fmt: skip
EFFORT = Effort(rounds=1)


@cache
def in_hand_plan() -> Plan:
    """The same campaign planned with heavy boxes, half an hour and a day kept in hand."""
    return plan_season(safe(running_outfit(), Safety(970, 30, 1)), rounds=1)


ON_THE_ROAD = {"done", "done nothing", "home", "skip", "skip strips", "next", "left"}
"""Kinds about a truck that is out, or was."""
REFUSED = {
    ("shut today", "next"): "the next stop would lie in hours that are shut",
    ("shut today", "skip strips"): "the rest of the stop would lie in hours that are shut",
    ("home", "skip strips"): "the stop is not reached",
    ("skip", "skip strips"): "that stop was left out",
    ("home", "next"): "nothing is left to go to",
    ("skip", "next"): "that stop was left out",
    ("suspect", "sound"): "a yard has one state of health",
    ("suspect", "move"): "nothing leaves a suspect yard",
    ("standstill", "watch"): "a yard has one state of health",
}
"""Pairs that contradict each other, and why."""


def refused(*lines: str) -> bool:
    """Whether lines are refused; then in words, with what is allowed and a cure."""
    faults: tuple[Fault, ...] = ()
    try:
        changed(running_plan(), typed_changes(lines, NOW))
    except ScenarioError as no:
        faults = no.faults
    assert all(fault.said and fault.allowed and fault.cure for fault in faults)
    return bool(faults)


def holds(before: Plan, new: Plan, sheet: ChangeSheet) -> None:
    """The audit passes, the driven part is as it was told, papers to keep are the same text.

    A plan made without proof gives no reasons for undone work; that alone is passed over.
    """
    unproved = new.bound.cents == 0 and not new.undone
    found = [finding.sentence() for finding in audit(new, before)]
    assert [] == [one for one in found if not (unproved and "listed 0 times" in one)]
    was, now = shifts_by(before), shifts_by(new)
    gone = {key: one for key, one in was.items() if 0 < one.start_min <= new.now_min}
    assert gone == {key: one for key, one in now.items() if 0 < one.start_min <= new.now_min}
    papers_hold(before, new, sheet)


def test_every_kind_of_line_is_tried() -> None:
    """Each verb begins one of the lines above.

    Feeders do not go from yard to yard here, and no honey is held: their lines are tried in
    test_kit_told.py and test_held.py.
    """
    begins = [words for verb in VERBS for words in verb.begins[:1]]
    begins = [words for words in begins if not words.startswith(("feeders ", "spin"))]

    assert [] == [one for one in begins if not any(k.startswith(one) for k in KINDS.values())]


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_alone(kind: str) -> None:
    """Put in, audited, the past kept; told again with nothing new, the plan is the same text."""
    made = replan_campaign(running_plan(), [KINDS[kind]], now=NOW, effort=EFFORT)
    new = made.outcome.plan
    same = replan_campaign(new, now=NOW, effort=Effort(rounds=5)).outcome

    holds(made.before, new, made.sheet())
    assert plan_text(new) == plan_text(same.plan)
    assert () == same.findings


@pytest.mark.parametrize("one", KINDS)
def test_each_pair_of_kinds(one: str) -> None:
    """Each kind with every other one; only pairs that cannot both be are refused."""
    for other in [kind for first, kind in itertools.combinations(KINDS, 2) if first == one]:
        lines = (KINDS[one], KINDS[other])
        no = refused(*lines)
        assert no == ((one, other) in REFUSED), lines
        if not no:
            facts = changed(running_plan(), typed_changes(lines, NOW))
            new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1, proof=False)
            sheet = change_sheet(facts.plan, new, lines, facts.notes, facts.presumed)
            holds(facts.plan, new, sheet)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in ON_THE_ROAD])
def test_each_kind_with_something_in_hand(kind: str) -> None:
    """The same of a plan with heavier boxes, slack and a spare day, on its first morning."""
    plan = in_hand_plan()
    now = "Mon 1 Mar 5:00"
    made = replan_campaign(plan, [KINDS[kind].replace(NOW, now)], now=now, effort=EFFORT)
    new = made.outcome.plan

    holds(made.before, new, made.sheet())
    assert new.outfit.in_hand is not None
    assert len(new.outfit.yards) == len(new.outfit.in_hand.box_g)
    plain(new.outfit)


def test_slack_and_spare_days_are_used_up_and_said() -> None:
    """Half an hour and a day come back once the campaign runs; boxes stay heavy; papers hold."""
    plan = in_hand_plan()
    made = replan_campaign(plan, now="Mon 1 Mar 5:00", effort=EFFORT)
    typed, now = running_outfit(), made.outcome.plan.outfit

    assert (typed.hours, typed.season) == (now.hours, now.season)
    assert [one.box_g for one in plan.outfit.yards] == [one.box_g for one in now.yards]
    assert 1 == len(made.notes)
    assert made.notes[0].endswith(": 30 min of each evening and 1 day of last days")
    assert set() == {*made.sheet().reprint, *made.sheet().fresh, *made.sheet().called_off}


def test_a_trip_under_way_whose_paper_tells_otherwise_is_printed_again() -> None:
    """Counted with more boxes, the next stop is left with more aboard; else the paper holds."""
    now, trip = "Thu 4 Mar 10:37", "0304-truck2-0716"
    more = f"done {trip} Creek Mouth: 10 colonies 59 boxes"
    told = replan_campaign(running_plan(), [more], now=now, effort=EFFORT)
    plain = replan_campaign(running_plan(), now=now, effort=EFFORT)

    assert () == told.outcome.findings
    assert trip in told.sheet().reprint
    assert trip not in plain.sheet().reprint


def test_nothing_new_is_no_reason_to_use_up_what_is_in_hand() -> None:
    """At the plan's own time, nothing typed: the same text, half an hour still kept."""
    plan = in_hand_plan()
    made = replan_campaign(plan, effort=EFFORT)

    assert plan_text(plan) == plan_text(made.outcome.plan)
    assert () == made.notes


def test_an_evening_kept_in_hand_is_there_for_who_is_late() -> None:
    """With half an hour kept, the latest times on the same days are those of the whole day.

    A minute more than those is found by the audit, whose rule counts the whole day as well.
    """
    early = running_outfit()
    early = replace(early, hours=replace(early.hours, end_min=17 * 60))  # before any duty ends
    plan = replan_season(running_plan(), early, 0, rounds=0)
    slack = replan_season(plan, safe(early, Safety(500, 30)), 0, rounds=0)

    assert (17 * 60, 16 * 60 + 30) == (plan.outfit.hours.end_min, slack.outfit.hours.end_min)
    assert plan.shifts == slack.shifts
    assert () == audit(slack)
    first, *rest = slack.shifts
    trip = first.trips[0]
    calls = (
        *trip.calls[:-1],
        replace(trip.calls[-1], latest_leave_min=trip.calls[-1].latest_leave_min + 1),
    )
    late = replace(slack, shifts=(replace(first, trips=(replace(trip, calls=calls),)), *rest))
    assert ["latest leaving"] == [finding.rule for finding in audit(late)]
