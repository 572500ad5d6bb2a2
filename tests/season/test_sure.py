"""Certain reasons for work left undone, by sums alone: named first, and alone."""

from dataclasses import replace

import pytest

from runplanner.changes.typed import changed, typed_changes
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.shut import Shut, Work
from runplanner.outfit.yards import Access, Health, Yard
from runplanner.season.replan_season import replan_season
from runplanner.season.standing.keeper import Keeper
from runplanner.season.sure import surely
from runplanner.trips.ground import Ground
from tests.outfits import daily
from tests.season.shapes import planned, reasons
from tests.season.tiny import four, no_syrup_on_day_0, tiny

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

DAY = 1440
BOTH = "from Mon 1 Mar to Tue 2 Mar"


def left(plan: Plan, job: Job) -> tuple[str, ...]:
    """The reasons given for one job, every yard's."""
    return tuple(why for one in plan.undone if one.job is job for why in one.why)


def one(days: int = 2, **changes: object) -> Outfit:
    """One yard of four colonies, due 34 L in one round unless its feeder is small."""
    return tiny([(10, 0)], [four(1, days, **changes)], days)


def two(**feed: object) -> Outfit:
    """Two yards on one road, due 34 L each."""
    outfit = tiny([(10, 0), (12, 0)], [four(1, 2), four(2, 2)], 2)
    return replace(outfit, feed=replace(outfit.feed, **feed))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        (
            {"access": Access(opens_min=60, closes_min=120)},
            f"the gate is never open in daylight {BOTH}",
        ),
        (
            {
                "access": Access(opens_min=420, closes_min=480),
                "open_spans": daily(600, 700, [0, 1]),
            },
            f"the weather leaves no hour fit for taking honey off while the gate is open {BOTH}",
        ),
        (
            {"ready_from_day": 1, "finish_by_day": 0},
            "no day is left for taking honey off: Mon 1 Mar is the last",
        ),
    ],
)
def test_a_take_off_without_any_hour_holds_up_all_jobs(
    changes: dict[str, object], why: str
) -> None:
    """Feed and strips come after it, so they have the same reason."""
    plan = planned(tiny([(10, 0)], [four(1, 2, **changes)], 2), rounds=1)

    assert {Job.TAKE_OFF, Job.FEED, Job.STRIPS} == {entry.job for entry in plan.undone}
    assert {why} == reasons(plan)


def test_feed_without_any_hour() -> None:
    """Hives may be opened, syrup may not be poured; the hours that are shut are told."""
    shut = (Shut(Work.FEED, 0, 2 * DAY, note="frost"),)
    plan = planned(one(feed_spans=(), shut=shut), rounds=1)

    assert (f"the weather leaves no hour fit for pouring syrup {BOTH}: Mon 1 Mar frost",) == left(
        plan, Job.FEED
    )


def test_strips_without_any_day() -> None:
    """Both days are too hot for them."""
    plan = planned(one(strips_shut_days=(0, 1)), rounds=1)

    assert {f"no day is fit for strips of amitraz {BOTH}"} == reasons(plan)


def test_strips_whose_last_day_is_over() -> None:
    """A hard last day before any hour: the season's, not the weather's."""
    outfit = one(open_spans=daily(480, 1080, [1]), feed_spans=daily(480, 1080, [1]))
    hard = replace(outfit.season, strips_by=Deadline(0, hard=True))

    assert ("the weather leaves no hour fit for strips on Mon 1 Mar",) == left(
        planned(replace(outfit, season=hard), rounds=1), Job.STRIPS
    )


def test_strips_short_in_stock() -> None:
    """Ten for two yards that want eight each: two are left over."""
    outfit = two()
    plan = planned(replace(outfit, strips=replace(outfit.strips, stock=10)), rounds=1)

    assert ("strips of amitraz left over: 2 of 10; wanted here: 8",) == left(plan, Job.STRIPS)
    # 8 + 8 wanted, 10 there.
    assert (
        1 == {str(relief.what): relief.cured for relief in plan.reliefs}["6 more strips of amitraz"]
    )


def test_blocks_short_for_a_take_off_are_tried() -> None:
    """Syrup comes a day after the boxes must be off: four colonies want a block each, one is there.

    With three more take-off, feed and strips all fit.
    """
    outfit = no_syrup_on_day_0()
    plan = planned(replace(outfit, kit=replace(outfit.kit, blocks_owned=1)), rounds=1)
    cures = {str(relief.what): relief.cured for relief in plan.reliefs}

    assert 3 == len(plan.undone) == cures["3 more fondant blocks"]


def test_bought_syrup_that_runs_short_is_named_and_more_is_tried() -> None:
    """40 L delivered, 2 x 34 = 68 L due: 6 L are left over, 28 L more feed the second yard."""
    plan = planned(two(bought=True, ready_ml=40_000), rounds=1)
    cures = {str(relief.what): relief.cured for relief in plan.reliefs}

    assert {
        (
            "40 L of syrup are delivered and 68 L are due in all: 6 L are left over, and 34 L are "
            "wanted here"
        )
    } == reasons(plan)
    assert {"28 L more syrup": 1} == cures


def test_sugar_that_runs_short_is_named_and_more_is_tried() -> None:
    """68 L x 1.327 x 0.667 = 60.2 kg due, 40 in stock: 20.2 -> 21 kg are short."""
    plan = planned(two(sugar_g=40_000), rounds=1)
    cures = {str(relief.what): relief.cured for relief in plan.reliefs}

    assert {
        (
            "40 kg of sugar are in stock and 61 kg are still needed in all: 21 kg are short for "
            "what is left here, even with all that others leave over"
        )
    } == reasons(plan)
    assert {"21 kg more sugar": 1} == cures


def test_strips_out_of_stock_ask_for_no_more_hands() -> None:
    """Nor for days or trucks; where feed is left as well and is not short, all that is tried."""
    outfit = two()
    bare = replace(outfit, strips=replace(outfit.strips, stock=0))

    more = "16 more strips of amitraz"
    assert [more] == [relief.what for relief in planned(bare, rounds=1).reliefs]
    slow = replace(bare, feed=replace(bare.feed, mix_ml_per_h=1_000))
    tried = [relief.what for relief in planned(slow, rounds=1).reliefs]
    assert (6, more) == (len(tried), tried[-1])


def test_sugar_short_and_mixing_too_slow_are_two_reasons() -> None:
    """15 L a day on the day before and on the first are 30 L, 34 L are wanted; 20 of 31 kg."""
    slow = "30 L of syrup at most stand ready or can be mixed before Tue 2 Mar, the last day fit "
    slow += "for feed, at 15 L a day: 0 L are in use, and 34 L more are wanted here"
    stock = "20 kg of sugar are in stock and 61 kg are still needed in all: 11 kg are short for "
    stock += "what is left here, even with all that others leave over"

    assert {slow} == reasons(planned(two(mix_ml_per_day=15_000), rounds=1))
    assert {slow, stock} == reasons(planned(two(mix_ml_per_day=15_000, sugar_g=20_000), rounds=1))


def test_syrup_poured_into_colonies_that_died_is_no_sugar_less_due() -> None:
    """Yard 1 got its 34 L, two of its colonies died: yard 2 wants 34 L, 31 kg, and 10 are there."""
    outfit = two(sugar_g=100_000)
    plan = planned(replace(outfit, hours=replace(outfit.hours, duty_max_min=110)), rounds=3)
    lines = typed_changes(["dead 2 Yard 1", "sugar left 10 kg"], "Mon 1 Mar 11:00")
    facts = changed(plan, lines)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=3)

    told = "10 kg of sugar are in stock and 31 kg are still needed in all: 21 kg are short for "
    assert [(f"{told}what is left here, even with all that others leave over",)] == [
        one.why for one in new.undone
    ]
    assert ["21 kg more sugar"] == [one.what for one in new.reliefs]


def test_mixing_that_is_slow_by_the_hour_is_found_by_trying() -> None:
    """A litre an hour: no sum tells it, and it is not the delivery nor the sugar."""
    found = reasons(planned(two(mix_ml_per_h=1_000), rounds=1))

    assert "how fast syrup is mixed (with this eased alone, it fits)" in found
    assert not [why for why in found if "delivered" in why or "sugar" in why]


def test_rounds_that_weather_leaves_no_room_for() -> None:
    """54 hours apart, in five days, but only the first two are fit: what shuts them is told."""
    fit = daily(480, 1080, [0, 1])
    shut = (Shut(Work.FEED, 2 * DAY, 5 * DAY, note="frost"),)
    plan = planned(one(5, feeder_ml=5_000, feed_spans=fit, shut=shut), rounds=1)

    assert (
        (
            "2 feed rounds are due, 2.2 days apart, the first of them not before Mon 1 Mar: they "
            "run past Tue 2 Mar, the last day fit for feed: Wed 3 Mar frost"
        ),
    ) == left(plan, Job.FEED)


def test_what_keeps_out_rounds_that_still_could_come_is_told_as_well() -> None:
    """Two rounds of which days leave room for one, but only the first yard has feeders for it.

    They stand there for 54 hours, and both days fit for syrup are over.
    """
    fit = daily(480, 1080, [0, 1])
    yards = [four(n, 5, feeder_ml=5_000, feed_spans=fit) for n in (1, 2)]
    outfit = tiny([(10, 0), (12, 0)], yards, 5)
    plan = planned(replace(outfit, kit=replace(outfit.kit, feeders_owned=4)), rounds=1)

    late = "2 feed rounds are due, 2.2 days apart, the first of them not before Mon 1 Mar: they "
    late += "run past Tue 2 Mar, the last day fit for feed"
    half, whole = (one for one in plan.undone if one.job is Job.FEED)
    assert (late,) == half.why
    assert (late, "one of them can still come: what follows is about that one") == whole.why[:2]
    feeders = "how many feeders there are to go round (with this eased alone, it fits)"
    assert feeders in whole.why[2:]
    assert not [why for why in whole.why if "people" in why]


def test_rounds_that_fit_are_no_reason() -> None:
    """54 hours apart in three days: the planner finds both."""
    assert () == planned(one(4, feeder_ml=5_000), rounds=1).undone


def test_a_round_still_due_after_what_was_driven() -> None:
    """The first was poured on Monday: the second cannot come before Wednesday."""
    outfit = one(2, feeder_ml=5_000, finish_by_day=0)
    plan = planned(outfit, rounds=1)
    (fed,) = (c for s in plan.shifts for t in s.trips for c in t.yards())
    assert fed.start_min < DAY

    assert (
        (
            "the feed round still due cannot come before Wed 3 Mar, and Tue 2 Mar is the last day "
            "fit for feed"
        ),
    ) == left(replan_season(plan, outfit, DAY, rounds=1), Job.FEED)


def test_rounds_after_a_take_off_that_was_driven() -> None:
    """Off on Monday; syrup may be poured from Tuesday on, so the second round is too late."""
    fit = daily(480, 1080, [1, 2])
    outfit = one(3, feeder_ml=5_000, feed_spans=fit, finish_by_day=0)
    plan = planned(outfit, rounds=1)
    again = replan_season(plan, outfit, DAY, rounds=1)

    told = "2 feed rounds are due, 2.2 days apart, the first of them not before Tue 2 Mar: they "
    told += "run past Wed 3 Mar, the last day fit for feed"
    assert (told,) == left(plan, Job.FEED) == left(again, Job.FEED)


def test_a_yard_that_is_held_but_may_be_fed_waits_for_no_honey() -> None:
    """No honey comes off it: a second round on Wednesday is too late for two days."""
    yard: Yard = four(1, 2, boxes=0, feeder_ml=5_000, open_spans=())
    held = replace(yard, health=Health.SUSPECT, feed_agreed=True)
    keeper = Keeper(Ground(tiny([(10, 0)], [held], 2)))

    found, still = surely(keeper, keeper.empty(), 0, Job.FEED)
    assert found[0].startswith("2 feed rounds are due, 2.2 days apart")
    assert still[0].startswith("one of them can still come")
    assert () == surely(keeper, keeper.empty(), 0, Job.WET_UP)


def test_on_the_last_evening_the_day_is_over_and_no_gate_is_blamed() -> None:
    """What did not get done on the last day is told at 22:00; the yard has no hours of its own."""
    plan = planned(one(days=1), rounds=1)
    assert plan.tally.not_off == 0
    stop = next(call for shift in plan.shifts for trip in shift.trips for call in trip.yards())
    line = f"done {plan.outfit.yard(stop.yard).name} nothing"
    facts = changed(plan, typed_changes([line], "Mon 1 Mar 22:00"))
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)

    assert {"no day is left for taking honey off: Mon 1 Mar is the last"} == reasons(new)
