"""Whatever small outfit is drawn, the plan made for it is sound, honest and the same again."""

from collections.abc import Iterator
from contextlib import suppress
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan, Tally
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.errors import PlanError
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Health
from runplanner.season import what_if
from runplanner.season.plan_season import plan_season
from runplanner.season.search.improve import Improver
from runplanner.season.standing.state import State
from runplanner.season.watch import Progress
from runplanner.season.why_not import explain, reasons
from tests.season.any_outfit import outfits
from tests.season.hand_bill import done_in, left_at

pytestmark = pytest.mark.no_cover  # counting lines takes thrice as long; other tests meet these

HELD = {Health.SUSPECT, Health.STANDSTILL}
ANY = settings(
    derandomize=True,
    deadline=None,
    database=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
"""The same scenarios every time, so that a red test is red for everybody, and soon."""


@pytest.fixture(scope="module", autouse=True)
def brief_reasons() -> Iterator[None]:
    """Try two rules and one relief only: those are tested elsewhere, and take most time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(reasons, "RULES", what_if.RULES[:2])
        patch.setattr(explain, "reliefs", lambda outfit: what_if.reliefs(outfit)[:1])
        yield


def planned(outfit: Outfit, rounds: int, seed: int = 1) -> Plan | None:
    """The plan, or None where the planner says in words that there can be none."""
    with suppress(PlanError):
        return plan_season(outfit, rounds=rounds, seed=seed)
    return None


def vector(tally: Tally) -> tuple[int, int, int, int]:
    """What is left, in the order it is compared."""
    return tally.uncovered, tally.no_strips, tally.unfed_g, tally.not_off


def assert_sound(plan: Plan) -> None:
    """No rule is broken, the bound is below the cost, the tally is what the yards lack.

    Jobs with a stated worth are money when left, and not in the tally.
    """
    assert () == tuple(finding.sentence() for finding in audit(plan))
    assert 0 <= plan.bound.fixed_cents <= plan.bound.cents <= plan.bill.total()
    left = {(e.yard, e.job): (e.colonies, e.stores_g) for e in plan.undone}
    own = [
        e
        for y in plan.outfit.yards
        for e in left_at(plan.outfit, y, [a for _, _, a in done_in(plan, y.id)])
    ]
    assert {(e.yard, e.job): (e.colonies, e.stores_g) for e in own} == left
    counted = [e for e in own if plan.outfit.yard(e.yard).health not in HELD]
    strips, feed, off = (
        [e for e in counted if e.job == job] for job in ("strips", "feed", "take-off")
    )
    prices = plan.outfit.prices
    assert (
        0,
        0 if prices.worth_strips_cents else sum(e.colonies for e in strips),
        0 if prices.worth_feed_cents else sum(e.stores_g for e in feed),
        0 if prices.worth_take_off_cents else sum(e.colonies for e in off),
    ) == vector(plan.tally)


@settings(ANY, max_examples=20)
@given(outfits(), st.integers(0, 4))
def test_whatever_is_planned_is_sound(outfit: Outfit, rounds: int) -> None:
    """The audit finds nothing, the bound holds, and what is undone is owned up to."""
    plan = planned(outfit, rounds)

    if plan is not None:
        assert_sound(plan)


@pytest.mark.slow
@settings(ANY, max_examples=30)
@given(outfits(), st.integers(0, 12), st.integers(1, 9))
def test_whatever_else_is_planned_is_sound(outfit: Outfit, rounds: int, seed: int) -> None:
    """The same of more scenarios, searched for longer and from other seeds."""
    plan = planned(outfit, rounds, seed)

    if plan is not None:
        assert_sound(plan)


@settings(ANY, max_examples=10)
@given(outfits(most_yards=4, most_days=5))
def test_the_same_seed_gives_the_same_text(outfit: Outfit) -> None:
    """Twice the same call, twice the same bytes, which read back as the same plan."""
    one, other = planned(outfit, 3, seed=7), planned(outfit, 3, seed=7)

    assert (one is None) == (other is None)
    if one is not None and other is not None:
        assert plan_text(one).encode() == plan_text(other).encode()
        assert one == plan_from_text(plan_text(one))


@settings(ANY, max_examples=12)
@given(outfits(most_yards=5, most_days=6))
def test_improving_never_makes_it_worse(outfit: Outfit) -> None:
    """From the first plan on, what is left and then the cost only falls, and so it is told."""
    told: list[Progress] = []
    try:
        plan = plan_season(outfit, rounds=8, progress=told.append)
    except PlanError:
        return
    steps = [(vector(each.undone), each.cost_cents) for each in told]

    # a head of the bill is rounded up by less than a cent; there are thirteen
    for (left, cents), (less, fewer) in pairwise(steps):
        assert (less, fewer) <= (left, cents + 13)
    first = planned(outfit, 0)
    assert first is not None
    assert (vector(plan.tally), plan.bill.total()) <= (vector(first.tally), first.bill.total() + 13)


def broken_off_at(number: int) -> type[Improver]:
    """An improver whose user presses Ctrl-C in round ``number`` (0 first)."""

    class Impatient(Improver):
        rounds_begun = 0

        def _next(self, state: State, left: float) -> tuple[State, bool]:
            self.rounds_begun += 1
            if self.rounds_begun > number:
                raise KeyboardInterrupt
            return super()._next(state, left)

    return Impatient


@settings(ANY, max_examples=8)
@given(outfits(most_yards=4, most_days=5), st.integers(0, 3))
def test_breaking_off_keeps_the_best_so_far(outfit: Outfit, number: int) -> None:
    """Ctrl-C in a round gives a sound plan, no worse than the first one, and says so."""
    first = planned(outfit, 0)
    if first is None:
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("runplanner.season.plan_season.Improver", broken_off_at(number))
        plan = plan_season(outfit, rounds=6)

    assert (number, "broken off by the user") == (plan.search.rounds, plan.search.stopped)
    assert_sound(plan)
    assert (vector(plan.tally), plan.bill.total()) <= (vector(first.tally), first.bill.total() + 13)


@settings(ANY, max_examples=5)
@given(outfits(most_yards=4, most_days=5))
def test_no_time_at_all_stops_after_one_round(outfit: Outfit) -> None:
    """The clock is looked at between rounds only, so one is always done."""
    try:
        plan = plan_season(outfit, rounds=50, seconds=0)
    except PlanError:
        return

    assert (1, "time was up") == (plan.search.rounds, plan.search.stopped)
    assert_sound(plan)
