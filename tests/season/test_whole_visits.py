"""Once only feed rounds are left of a campaign, all seasons are gone through, judged, audited."""

from dataclasses import replace
from itertools import combinations, pairwise, permutations, product

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import CHEAPEST, LEAST, replan_season
from runplanner.season.search.improve import Improver
from runplanner.season.standing.facts import standing_of
from runplanner.season.standing.state import State
from runplanner.season.whole import whole_visits
from runplanner.season.whole.whole_visits import Outcome, gone_through
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import a_yard, an_outfit, daily

DAYS, NOW = 13, 2 * 1440 + 60
SPOTS = ((40, 0), (45, 10), (-30, 5))


def _outfit(colonies: int = 5, **changes: object) -> Outfit:
    """Three yards of one load each, taken off at once, fed three times with three days between."""
    yards = [
        replace(a_yard(i + 1, colonies=colonies, boxes=6, days=DAYS), target_g=15_000,
                feeder_ml=6_000, finish_by_day=0)
        for i in range(len(SPOTS))
    ]  # fmt: skip
    return an_outfit(SPOTS, yards, days=DAYS, **changes)


def _shut(outfit: Outfit, day: int) -> Outfit:
    """The same facts but that nobody can be fed on a day."""
    fair = daily(6 * 60, 20 * 60, [d for d in range(DAYS) if d != day])
    return replace(outfit, yards=tuple(replace(y, feed_spans=fair) for y in outfit.yards))


def _improver(plan: Plan, outfit: Outfit) -> Improver:
    ground = Ground(outfit, NOW)
    return Improver(ground, 1, standing_of(plan, ground, 0, 0, same_crews=True))


def _outcome(improver: Improver) -> Outcome | None:
    return gone_through(improver, improver.completed(improver.keeper.empty()), lambda: True)


def _orders(yards: tuple[int, ...]) -> list[tuple[tuple[int, ...], ...]]:
    """All orders of yards, cut into trips in every way."""
    return [
        tuple(order[a:b] for a, b in pairwise([0, *cuts, len(order)]))
        for order in permutations(yards)
        for number in range(len(order))
        for cuts in combinations(range(1, len(order)), number)
    ]


def _cheapest(improver: Improver, rows: list[tuple[int, int]]) -> State | None:
    """The cheapest plan with the second and third rounds on given days, by the judge alone."""
    keeper, begun = improver.keeper, improver.keeper.empty()
    news = {}
    for day in sorted({day for row in rows for day in row}):
        today = {yard: row.index(day) + 2 for yard, row in enumerate(rows) if day in row}
        found = []
        for trips in _orders(tuple(today)):
            stops = tuple(
                tuple(Stop(yard, round=today[yard], fed=5) for yard in trip) for trip in trips
            )
            for hauler in improver.ground.siblings[0]:
                judged = keeper.judge(Day(day, hauler, stops))
                if judged is not None:
                    found.append((judged.milli_cents, judged.day))
        if not found:
            return None
        news[day, 0] = min(found)[1]
    return keeper.replace_all(begun, news)


def test_rounds_that_are_left_cost_no_more_than_any_rows_of_days() -> None:
    """Every row of days for every yard, every order and cut of every day, by the exact judge."""
    outfit = _outfit()
    plan = plan_season(outfit, rounds=40)
    assert {shift.day for shift in plan.shifts if shift.start_min <= NOW} == {0}
    improver = _improver(plan, _shut(outfit, 7))
    outcome = _outcome(improver)
    assert outcome is not None
    days = [3, 4, 6, 8, 9]
    gap = improver.ground.dues[0].round_gap_min
    assert 2 * 1440 < gap < 3 * 1440
    rows = [row for row in combinations(days, 2) if (row[1] - row[0]) * 1440 >= gap]
    tried = [_cheapest(improver, list(mine)) for mine in product(rows, repeat=3)]
    costs = [state.score.milli_cents for state in tried if state is not None]
    assert len(costs) > 100
    assert outcome.milli_cents <= min(costs)
    # Fractions of minutes of pumping are all that the list leaves out here, but for mixing.
    assert outcome.state.score.milli_cents <= min(costs)
    assert outcome.milli_cents > 0.9 * outcome.state.score.milli_cents


def test_a_season_that_goes_on_is_planned_and_bound_with_them() -> None:
    outfit = _outfit()
    plan = plan_season(outfit, rounds=40)
    facts = _shut(outfit, 3)
    new = replan_season(plan, facts, NOW, upset=CHEAPEST, rounds=5)
    assert audit(new, plan) == ()
    assert new.bound.cents <= new.bill.total()
    outcome = _outcome(_improver(plan, facts))
    assert outcome is not None
    assert new.bound.cents >= outcome.milli_cents // 1000
    assert new.bill.total() * 1000 <= outcome.state.score.milli_cents + 10_000


def test_yards_that_may_be_fed_in_parts_get_no_bound_but_a_plan() -> None:
    outfit = _outfit(colonies=8)
    plan = plan_season(outfit, rounds=40)
    outcome = _outcome(_improver(plan, outfit))
    assert outcome is not None
    assert (outcome.milli_cents, outcome.proven) == (0, False)
    assert not outcome.state.score.undone.unfed_g


def test_promises_are_not_gone_through() -> None:
    """Where a moved visit costs, what it costs is not in the list."""
    outfit = _outfit()
    plan = plan_season(outfit, rounds=20)
    ground = Ground(outfit, NOW)
    standing = standing_of(plan, ground, LEAST.move_cents, LEAST.shift_cents, same_crews=True)
    improver = Improver(ground, 1, standing)
    assert gone_through(improver, improver.keeper.empty(), lambda: True) is None


def test_campaigns_with_more_than_feed_to_do_are_not_gone_through() -> None:
    improver = Improver(Ground(_outfit()), 1)
    assert gone_through(improver, improver.construct(), lambda: True) is None


def test_strips_ride_along_with_a_round_that_is_left() -> None:
    """Strips still owed go in with the next round; the season is whole and its bound valid."""
    outfit = _outfit()
    yards = tuple(replace(yard, strips_shut_days=(0, 1)) for yard in outfit.yards)
    outfit = replace(outfit, yards=yards)
    improver = _improver(plan_season(outfit, rounds=40), outfit)
    begun = improver.keeper.empty()
    assert begun.score.undone.no_strips == 5 * len(SPOTS)
    outcome = gone_through(improver, begun, lambda: True)
    assert outcome is not None
    assert not any(progress.owing() for progress in outcome.state.progress)
    assert 0 < outcome.milli_cents <= outcome.state.score.milli_cents


def _only_honey(days: int = 3) -> Outfit:
    """Three yards with stores enough, to be taken off and given strips within a few days."""
    yards = [
        replace(a_yard(i + 1, colonies=5, boxes=6 + i, days=days), stores_g=20_000)
        for i in range(len(SPOTS))
    ]
    return an_outfit(SPOTS, yards, days=days)


def _harvest(improver: Improver, on: tuple[int, ...]) -> State | None:
    """The cheapest plan that takes every yard off on a given day, by the judge alone."""
    keeper, news = improver.keeper, {}
    for day in sorted(set(on)):
        today = tuple(yard for yard, its in enumerate(on) if its == day)
        found = []
        for trips in _orders(today):
            stops = tuple(
                tuple(Stop(yard, off=5, boxes=6 + yard, strips=True) for yard in trip)
                for trip in trips
            )
            judged = [keeper.judge(Day(day, h, stops)) for h in improver.ground.siblings[0]]
            found += [(one.milli_cents, one.day) for one in judged if one is not None]
        if not found:
            return None
        news[day, 0] = min(found)[1]
    return keeper.replace_all(keeper.empty(), news)


def test_take_offs_with_nothing_else_to_do_cost_no_more_than_on_any_days() -> None:
    """Every day for every yard, every order and cut of every day, by the exact judge."""
    improver = Improver(Ground(_only_honey()), 1)
    outcome = gone_through(improver, improver.construct(), lambda: True)
    assert outcome is not None
    tried = [_harvest(improver, on) for on in product(range(3), repeat=3)]
    costs = [state.score.milli_cents for state in tried if state is not None]
    assert len(costs) == 27
    assert outcome.milli_cents <= min(costs)
    assert outcome.state.score.milli_cents <= min(costs)
    assert outcome.milli_cents > 0.9 * outcome.state.score.milli_cents


def test_take_offs_that_want_boards_or_syrup_are_not_gone_through() -> None:
    yards = _only_honey().yards
    for change in ({"clearing": Clearing.BOARDS}, {"stores_g": None}):
        other = replace(_only_honey(), yards=(replace(yards[0], **change), *yards[1:]))
        improver = Improver(Ground(other), 1)
        assert gone_through(improver, improver.construct(), lambda: True) is None


def test_dear_roads_are_told_in_larger_units() -> None:
    """A leg of some hundreds costs more than a list holds by thousandths of a cent."""
    dear = _only_honey()
    dear = replace(dear, trucks=tuple(replace(t, km_cents=10_000) for t in dear.trucks))
    outcome = gone_through(
        improver := Improver(Ground(dear), 1), improver.construct(), lambda: True
    )
    assert outcome is not None
    tried = [_harvest(improver, on) for on in product(range(3), repeat=3)]
    best = min(state.score.milli_cents for state in tried if state is not None)
    assert outcome.milli_cents <= best
    assert outcome.state.score.milli_cents <= best
    assert outcome.milli_cents > 0.99 * best


def test_a_list_that_grows_too_long_is_not_begun_again_in_larger_units(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Then there is no list in any unit, and the search needs the time."""
    asked = []
    monkeypatch.setattr(whole_visits, "listed", lambda *given: asked.append(given))
    improver = Improver(Ground(_only_honey()), 1)

    assert gone_through(improver, improver.construct(), lambda: True) is None
    assert 1 == len(asked)
