"""Feeders scarcer than colonies: collected where they are empty, and left at the next yard."""

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Call, Job, Shift
from runplanner.outfit.outfit import Outfit
from runplanner.season import what_if
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from runplanner.season.search.insert import Inserter
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.why_not import reasons
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import a_yard, an_outfit
from tests.running import at, put_in
from tests.season.any_outfit import outfits
from tests.season.shapes import DONE
from tests.season.test_any_outfit import ANY, brief_reasons, planned

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

__all__ = ["brief_reasons"]

SPOTS = [(10, 0), (14, 0), (-12, 3)]
FED = Stop(0, off=10, boxes=15, round=1, fed=10)


def scarce(owned: int | None, yards: int = 2, days: int = 14) -> Outfit:
    """Yards of ten colonies, and so many feeders; a feed of 8.5 L is down in 4.25 days."""
    facts = [a_yard(number, days=days) for number in range(1, yards + 1)]
    outfit = an_outfit(SPOTS[:yards], facts, days=days)
    return replace(outfit, kit=replace(outfit.kit, feeders_owned=owned))


def calls(plan: Plan, job: Job) -> list[Call]:
    """The calls at which a job is done, by time."""
    every = (c for s in plan.shifts for t in s.trips for c in t.calls)
    found = (call for call in every if any(action.job is job for action in call.actions))
    return sorted(found, key=lambda call: call.start_min)


def test_ten_feeders_feed_two_yards_one_after_the_other() -> None:
    """The first yard's are fetched 8.5 / 2 days after its syrup, and then feed the second."""
    plan = plan_season(scarce(10), rounds=30)
    first, second = calls(plan, Job.FEED)
    (off,) = calls(plan, Job.FEEDERS)

    assert (DONE, (), ()) == (plan.tally, plan.undone, audit(plan))
    assert first.yard == off.yard != second.yard
    assert off.start_min - first.start_min >= 8_500 * 1440 // 2_000
    assert second.start_min > off.end_min
    assert off.after.feeders == 10
    assert plan == plan_from_text(plan_text(plan))


def test_a_round_missed_before_the_fetching_brings_feeders() -> None:
    """Two rounds of 4.25 L; the first yard's second turns out not to have come: ten more go in."""
    two = scarce(10)
    yards = tuple(replace(one, feeder_ml=5_000) for one in two.yards)
    plan = plan_season(replace(two, yards=yards), rounds=10, proof=False)
    off = calls(plan, Job.FEEDERS)[0]
    missed = [call for call in calls(plan, Job.FEED) if call.yard == off.yard][-1]
    trip, shift = next((trip, s) for s in plan.shifts for trip in s.trips if off in trip.calls)
    late = next(trip.id for s in plan.shifts for trip in s.trips if missed in trip.calls)
    assert trip.id != late
    facts = put_in(f"done {late} {off.yard}: nothing", now=at(shift.end_min + 1), plan=plan)
    more = replace(facts.outfit, kit=replace(facts.outfit.kit, feeders_owned=20))
    new = replan_season(facts.plan, more, facts.now_min, rounds=0, proof=False)
    (again,) = [
        action
        for call in calls(new, Job.FEED)
        if call.yard == off.yard and call.start_min > facts.now_min
        for action in call.actions
        if action.job is Job.FEED
    ]

    assert (2, 10, 10) == (again.round, again.colonies, again.feeders)
    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]


def test_without_its_fetching_the_second_feed_has_no_feeders() -> None:
    """The audit counts those at the store by itself."""
    plan = plan_season(scarce(10), rounds=30)
    bare = replace(plan, shifts=tuple(_unfetched(shift) for shift in plan.shifts))

    assert "feeders owned" in {finding.rule for finding in audit(bare)}


def _unfetched(shift: Shift) -> Shift:
    """A day without fetching; its stops stay."""
    trips = []
    for trip in shift.trips:
        calls = tuple(
            replace(call, actions=tuple(a for a in call.actions if a.job is not Job.FEEDERS))
            for call in trip.calls
        )
        trips.append(replace(trip, calls=calls))
    return replace(shift, trips=tuple(trips))


@pytest.mark.parametrize(
    ("owned", "stops", "days"),
    [
        # All ten stand at the first yard.
        (10, {0: FED}, ()),
        # They are back on day 6, at whatever hour.
        (10, {0: FED, 6: Stop(0, feeders_off=10)}, tuple(range(6, 14))),
        # Ten more are lent on day 8, so none may go before, and none are there after.
        (20, {0: FED, 8: FED._replace(yard=1)}, ()),
        (10, {0: FED, 6: Stop(0, feeders_off=10), 8: FED._replace(yard=1)}, ()),
        (30, {0: FED, 8: FED._replace(yard=1)}, tuple(range(14))),
        (None, {0: FED, 8: FED._replace(yard=1)}, tuple(range(14))),
    ],
)
def test_a_feed_is_tried_on_days_alone_that_may_lend_it_feeders(
    owned: int | None,
    stops: dict[int, Stop],
    days: tuple[int, ...],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """On no other day would it hold, and no place there is judged."""
    keeper = Keeper(Ground(scarce(owned, yards=3)))
    judged = {(day, 0): keeper.judge(Day(day, 0, ((stop,),))) for day, stop in stops.items()}
    state = keeper.settled({key: one for key, one in judged.items() if one is not None})
    assert sorted(stops) == sorted(day for day, _ in state.days)
    third = FED._replace(yard=2)

    assert days == keeper.holding.days_for(state.days, third, range(14))
    for day in set(range(14)) - {*days, *stops}:
        assert keeper.replace(state, (day, 0), Day(day, 0, ((third,),))) is None
    tried, real = set[int](), Keeper.replace

    def judged_there(keeper: Keeper, state: State, key: tuple[int, int], day: Day) -> State | None:
        tried.add(key[0])
        return real(keeper, state, key, day)

    monkeypatch.setattr(Keeper, "replace", judged_there)
    placed = Inserter(keeper, random.Random(1)).place(state, third, range(14))
    assert tried <= {*days}
    assert days or placed is None


@pytest.mark.parametrize("owned", [20, None])
def test_nothing_is_fetched_where_feeders_do_for_all(owned: int | None) -> None:
    """Twenty feeders for twenty colonies, or one in every hive: no such visit."""
    plan = plan_season(scarce(owned), rounds=30)

    assert (DONE, []) == (plan.tally, calls(plan, Job.FEEDERS))


def test_nine_feeders_feed_no_yard_of_ten_whole() -> None:
    """A yard is fed nine and one colony; the audit agrees, or something is left and named."""
    plan = plan_season(scarce(9, yards=1), rounds=10)

    assert () == audit(plan)
    assert DONE == plan.tally or plan.undone


def test_a_campaign_too_short_leaves_the_second_yard() -> None:
    """In four days the first syrup is not down: one yard is fed, the other is not taken off."""
    plan = plan_season(scarce(10, days=4), rounds=10)

    assert () == audit(plan)
    assert 10 == sum(a.feeders for call in calls(plan, Job.FEED) for a in call.actions)
    assert [] == calls(plan, Job.FEEDERS)
    assert {u.job for u in plan.undone} >= {Job.FEED}


def test_feeders_too_few_are_named_and_more_are_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    """In four days ten feeders cannot go round twice; ten more feed the second yard too."""
    monkeypatch.setattr(reasons, "RULES", what_if.RULES)
    plan = plan_season(scarce(10, days=4), rounds=10)
    why = {words for one in plan.undone for words in one.why}
    (relief,) = (one for one in plan.reliefs if "feeders" in one.what)

    assert "how many feeders there are to go round (with this eased alone, it fits)" in why
    assert not [words for words in why if words.startswith("boards, blocks")]
    assert "10 more feeders" == relief.what
    assert relief.cured == relief.undone == len(plan.undone)


def test_feeders_are_no_reason_where_each_hive_has_one() -> None:
    """A rule that binds nothing here is not tried, and is not in the list of several rules."""
    outfit = scarce(None)
    plan = plan_season(replace(outfit, feed=replace(outfit.feed, ready_ml=0, sugar_g=0)), rounds=1)

    assert plan.undone
    assert not [words for one in plan.undone for words in one.why if "feeders" in words]
    assert not [one for one in plan.reliefs if "feeders" in one.what]


def test_ten_feeders_feed_three_yards() -> None:
    """They go round twice."""
    plan = plan_season(scarce(10, yards=3, days=20), rounds=30)

    assert (DONE, ()) == (plan.tally, audit(plan))
    assert 2 == len(calls(plan, Job.FEEDERS))


def test_planning_again_keeps_what_was_promised() -> None:
    """The evening after the first feed nothing moves; the plan passes the audit."""
    plan = plan_season(scarce(10), rounds=30)
    now = (calls(plan, Job.FEED)[0].start_min // 1440 + 1) * 1440
    new = replan_season(plan, plan.outfit, now, rounds=3)

    assert [c.start_min for c in calls(plan, Job.FEEDERS)] == [
        c.start_min for c in calls(new, Job.FEEDERS)
    ]
    assert (DONE, ()) == (new.tally, audit(new))


@settings(ANY, max_examples=10)
@given(outfits())
def test_any_outfit_with_few_feeders_passes_the_audit(outfit: Outfit) -> None:
    """Half as many feeders as colonies, on whatever else is drawn."""
    colonies = sum(yard.colonies for yard in outfit.yards)
    kit = replace(outfit.kit, feeders_owned=colonies // 2)
    plan = planned(replace(outfit, kit=kit), rounds=2)

    assert plan is None or () == tuple(finding.sentence() for finding in audit(plan))
