"""One planted breach, at least, for every rule; and each figure at its last allowed value."""

from collections.abc import Callable, Sequence

import pytest

from runplanner.audit.audit import REWRITTEN, RULES, audit
from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Health
from tests.audit.breaches_driven import DRIVEN
from tests.audit.breaches_trips import TRIPS
from tests.audit.breaches_yards import YARDS
from tests.audit.feeder_plan import FEEDERS, feeders_fetched
from tests.audit.plans import PLANS, plain
from tests.audit.planted import Edge, Planted, Table, edited
from tests.audit.strips_plan import STRIPS, two_doses, two_substances
from tests.audit.wet_plan import WET, wet_boxes

ALL: Table = (*DRIVEN, *TRIPS, *YARDS, *WET, *STRIPS, *FEEDERS)


def numbered(items: Sequence[object]) -> list[str]:
    """Ids for a table, each its own."""
    return [f"{number} {item}" for number, item in enumerate(items)]


EDGES = [each for each in ALL if isinstance(each, Edge)]
PLANTED = [each.planted() if isinstance(each, Edge) else each for each in ALL]


@pytest.mark.parametrize("name", PLANS)
def test_good_plans_have_no_findings(name: str) -> None:
    """A plan worked out by hand by the rules passes all of them."""
    assert () == audit(PLANS[name]())


def test_good_plan_with_wet_boxes() -> None:
    """So does one whose emptied boxes go back up and are collected."""
    assert () == audit(wet_boxes())


@pytest.mark.parametrize("plan", [two_substances, two_doses])
def test_good_plans_with_strips_of_two_kinds(plan: Callable[[], Plan]) -> None:
    """So do those whose yards get strips of two substances, or of two doses."""
    assert () == audit(plan())


def test_good_plan_with_feeders_fetched() -> None:
    """Nor is anything found where empty feeders are fetched."""
    assert () == audit(feeders_fetched())


def test_a_yard_served_by_two_calls_on_end_may_be_watched() -> None:
    """Both calls of each trip at the first yard: none comes before another yard."""
    calls = {f"shifts.{day}.trips.0.calls.2.{name}": to
             for day in (0, 1) for name, to in (("yard", "yard1"), ("place", 1))}  # fmt: skip
    watched: dict[str, object] = {"outfit.yards.0.health": Health.WATCH}

    assert "last yard" in {finding.rule for finding in audit(edited(plain(), watched))}
    found = audit(edited(plain(), {**watched, **calls}))
    assert "last yard" not in {finding.rule for finding in found}


def test_feeders_came_off_before_a_last_round_of_a_yard_that_died() -> None:
    """Feeders of half the size ask for two rounds; nobody is left who lacks the second."""
    died = {"outfit.yards.0.feeder_ml": 4_250, "outfit.yards.0.colonies": 0}

    found = audit(edited(feeders_fetched(), died))
    assert "feeders off" not in {finding.rule for finding in found}


@pytest.mark.parametrize("planted", PLANTED, ids=numbered(PLANTED))
def test_planted_breach_is_found(planted: Planted) -> None:
    """A breach is found by its own rule, at the trip and the yard where it was planted."""
    findings = audit(edited(planted.plan(), planted.edits))

    assert (planted.rule, planted.trip, planted.yard) in {
        (finding.rule, finding.trip, finding.yard) for finding in findings
    }


@pytest.mark.parametrize("edge", EDGES, ids=numbered(EDGES))
def test_last_allowed_value_is_allowed(edge: Edge) -> None:
    """One step before the breach its rule finds nothing."""
    findings = audit(edited(edge.plan(), {edge.path: edge.allowed}))

    assert [] == [finding for finding in findings if finding.rule == edge.rule]


def test_every_rule_has_a_planted_breach() -> None:
    """The table of rules and the planted breaches name the same rules.

    What is rewritten shows only beside the plan before: see ``test_driven``.
    """
    assert set(RULES) - {REWRITTEN} == {planted.rule for planted in PLANTED}
