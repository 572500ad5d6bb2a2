"""True counts of wet boxes: put up, collected, left behind, and what was aboard."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed
from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Action, Against, Call, Job
from runplanner.errors import ScenarioError
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.audit.planted import edited
from tests.audit.wet_plan import beside_honey, wet_boxes
from tests.running import at, put_in, wet_plan
from tests.season.shapes import DONE
from tests.season.test_wet_boxes import wet_outfit

EMPTY_G = 4_500
"""Of a box; with its comb it counts twice."""


def told(*lines: str, day: int = 5) -> Changed:
    """The campaign worked out by hand (off day 0, up day 1, down day 4) as counted by a day."""
    return put_in(*(f"done {line}" for line in lines), now=at(day * 1440), plan=wet_boxes())


def trip(facts: Changed, number: int) -> tuple[Call, ...]:
    """The calls of the day's only trip."""
    return facts.plan.shifts[number].trips[0].calls


def wet(call: Call) -> dict[Job, int]:
    """The wet boxes of a call, by job."""
    return {action.job: action.wet for action in call.actions if action.wet}


def test_fewer_put_up_than_planned() -> None:
    """12 of 15: 12 x 9 kg rode out; three days later no more than 12 can have come home.

    Down rode 4 cans of 1.5 kg, 85 L of 1.327 and 20 strips of 10 g, and 12 boxes home.
    """
    facts = told("up Yard 1: 12 wet boxes")
    out, there, _ = trip(facts, 1)
    _, home, _ = trip(facts, 2)

    assert (12, 12 * 2 * EMPTY_G) == (out.after.wet, out.after.load_g)
    assert ({Job.WET_UP: 12}, 0, 0) == (wet(there), there.after.wet, there.after.load_g)
    assert ({Job.WET_DOWN: 12}, 12) == (wet(home), home.after.wet)
    assert 6_000 + 12 * 2 * EMPTY_G == home.after.load_g
    assert "what down was to do there of wet boxes that were not put up" in facts.notes[-1]


def test_other_counts_leave_wet_boxes_as_planned() -> None:
    """9 of 10 fed at the stop that collects 15: all 15 are presumed collected."""
    facts = told("down Yard 1: 9 fed")
    _, home, base = trip(facts, 2)

    assert ({Job.WET_DOWN: 15}, 15, 0) == (wet(home), home.after.wet, base.after.wet)
    assert [Job.WET_DOWN, Job.FEED, Job.STRIPS] == [one.job for one in home.actions]


def test_what_a_wrong_count_took_elsewhere_comes_back_with_the_right_one() -> None:
    """None were put up, says the first: none came down either. All were, says the second."""
    wrong, right = told("up Yard 1: nothing"), told("up Yard 1: 15 wet boxes")
    plan = replace(wrong.plan, outfit=wrong.outfit, now_min=wrong.now_min)
    kept = plan_from_text(plan_text(plan))
    facts = put_in("done up Yard 1: 15 wet boxes", plan=kept)

    assert {Job.WET_DOWN: 15} == wet(trip(facts, 2)[1])
    assert right.plan.shifts == facts.plan.shifts
    assert () == facts.notes
    less = put_in("done up Yard 1: 9 wet boxes", plan=kept)
    assert {Job.WET_DOWN: 9} == wet(trip(less, 2)[1])
    assert told("up Yard 1: 9 wet boxes").plan.shifts == less.plan.shifts


@pytest.mark.parametrize("said", ["nothing", "0 wet boxes", "0 wet"])
def test_none_put_up(said: str) -> None:
    """None stands there then, so none can have been collected."""
    facts = told(f"up Yard 1: {said}", "down Yard 1: strips in")

    assert ({}, {}) == (wet(trip(facts, 1)[1]), wet(trip(facts, 2)[1]))
    assert (0, 0) == (trip(facts, 1)[0].after.load_g, trip(facts, 2)[1].after.wet)


@pytest.mark.parametrize("said", ["16 wet boxes", "15 wet blocks", "15 wet brood boxes"])
def test_what_cannot_be_is_refused(said: str) -> None:
    """More than rode out, and boxes that there are not."""
    with pytest.raises(ScenarioError) as caught:
        told(f"up Yard 1: {said}")

    (fault,) = caught.value.faults
    assert "wet boxes" in fault.allowed


@pytest.mark.parametrize(("line", "now"), [("home truck1", 520), ("next truck1: Yard 1", 490)])
def test_wet_boxes_aboard_are_unloaded(line: str, now: int) -> None:
    """In the base at 9:10, 15 boxes x 30 s by two are 4 min, and 10: until 9:24 as planned."""
    facts = put_in(line, now=at(4 * 1440 + now), plan=wet_boxes())

    assert [6_310, 6_324] == [trip(facts, 2)[2].start_min, facts.plan.shifts[2].end_min]
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    assert () == audit(new, facts.plan)


def test_wet_boxes_stay_in_a_yard_at_a_standstill() -> None:
    """Nothing leaves it, and under them nothing is fed; once they are home, it may be fed."""
    line = "standstill Yard 1, feed agreed"
    facts = put_in(line, now=at(2 * 1440), plan=wet_boxes())
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)

    assert [False, True] == [
        put_in(line, now=at(day * 1440), plan=wet_boxes()).outfit.yards[0].honey_off
        for day in (2, 5)
    ]
    assert () == audit(new, facts.plan)
    assert all(shift.start_min <= facts.now_min for shift in new.shifts)
    assert {Job.FEED, Job.STRIPS} == {one.job for one in new.undone}


def test_wet_boxes_keep_the_hours_of_the_store() -> None:
    """Beside honey for the house they want the store too: 30 boxes are unloaded 9:10 to 9:28."""

    def told_with(closes_min: int) -> Changed:
        plan = edited(beside_honey(), {"outfit.feed_store.closes_min": closes_min})
        return put_in("next truck1: Yard 1", now=at(4 * 1440 + 490), plan=plan)

    (shift,) = told_with(568).plan.shifts
    assert 6_328 == shift.end_min
    with pytest.raises(ScenarioError, match="the unloading place within its hours"):
        told_with(567)


def wet_day_of(plan: Plan, job: Job) -> tuple[str, int, Action]:
    """Trip, day and entry of the first stop that does a job of wet boxes."""
    return next(
        (one.id, shift.day, action)
        for shift in plan.shifts for one in shift.trips for call in one.calls
        for action in call.actions if action.job is job
    )  # fmt: skip


def planned_again(days: int, line: str) -> tuple[Plan, Plan]:
    """A plan of two yards with wet boxes in one, and that after a count the evening after."""
    plan = plan_season(wet_outfit(days=days), rounds=10)
    name, down_day, _ = wet_day_of(plan, Job.WET_DOWN)
    now = at((down_day + 1) * 1440)
    facts = put_in(f"done {name} {line}", now=now, plan=plan)
    return plan, replan_season(facts.plan, facts.outfit, facts.now_min, rounds=5)


def test_boxes_left_behind_are_fetched_by_a_later_visit() -> None:
    """A driver leaves 3 of 15: the rest comes home before any syrup or strips to come."""
    plan, new = planned_again(12, "Yard 1: 12 wet boxes, 0 fed, no strips")
    lots = [
        (shift.day, action.wet, one.driven)
        for shift in new.shifts for one in shift.trips for call in one.calls
        for action in call.actions if action.job is Job.WET_DOWN
    ]  # fmt: skip

    assert (DONE, ()) == (plan.tally, audit(plan))
    assert [12, 3] == [count for _, count, _ in lots]
    assert [True, False] == [driven for *_, driven in lots]
    assert (DONE, (), ()) == (new.tally, new.undone, audit(new))


def test_boxes_left_behind_for_good_are_named() -> None:
    """On the last day none can be fetched any more; the plan says that they stand there."""
    plan = plan_season(wet_outfit(days=12), rounds=10)
    name, day, _ = wet_day_of(plan, Job.WET_DOWN)
    trucks = tuple(replace(one, out_days=tuple(range(day + 1, 12))) for one in plan.outfit.trucks)
    line = f"done {name} Yard 1: 12 wet boxes"
    facts = put_in(line, now=at((day + 1) * 1440), plan=plan)
    outfit = replace(facts.outfit, trucks=trucks)
    new = replan_season(facts.plan, outfit, facts.now_min, rounds=2)

    assert ("yard1", Job.WET_DOWN, 10) in [(u.yard, u.job, u.colonies) for u in new.undone]
    assert () == audit(new)


@pytest.mark.parametrize(("boxes", "wet"), [(12, 12), (18, 15)])
def test_no_more_wet_boxes_go_up_than_came_off(boxes: int, wet: int) -> None:
    """15 were planned; the truck is on its way with them, and they come home the day after."""
    off = f"done 0302-truck1-0733 Creek Mouth: 10 colonies {boxes} boxes"
    facts = put_in(off, now="Wed 3 Mar 14:10", plan=wet_plan())
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    calls = [stop.call for stop in stops(new) if stop.call.yard == "creek-mouth"]
    up, down = (
        [one.wet for call in calls for one in call.actions if one.job is job]
        for job in (Job.WET_UP, Job.WET_DOWN)
    )

    assert ([wet], [wet]) == (up, down)
    assert ("go up than came off: 12, not 15" in " ".join(facts.notes)) == (wet < 15)
    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]


def test_more_wet_boxes_than_planned_may_be_told_once_they_came_off() -> None:
    """18 came off and 18 went up, told in one go; 19 never came off."""
    off = "done 0302-truck1-0733 Creek Mouth: 10 colonies 18 boxes"
    up = "done 0303-truck1-1403 Creek Mouth: {} wet boxes"
    facts = put_in(off, up.format(18), now="Wed 3 Mar 20:00", plan=wet_plan())
    told = [stop.call for stop in stops(facts.plan) if stop.call.yard == "creek-mouth"]

    assert 18 == sum(wet(call).get(Job.WET_UP, 0) for call in told)
    with pytest.raises(ScenarioError, match="at most the 18 wet boxes of this yard"):
        put_in(off, up.format(19), now="Wed 3 Mar 20:00", plan=wet_plan())


def test_none_go_up_where_no_box_came_off() -> None:
    """The truck is on its way with 15; nothing stands there, so syrup and strips wait for none."""
    facts = put_in("done off Yard 1: 10 colonies 0 boxes", now=at(2395), plan=wet_boxes())
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)

    assert () == trip(facts, 1)[1].actions
    assert () == audit(new, facts.plan)


def ups(plan: Plan) -> list[int]:
    """Wet boxes that go up and come down, in the order of the plan."""
    calls = [one.call for one in stops(plan)]
    return [one.wet for call in calls for one in call.actions if one.wet]


@pytest.mark.parametrize("now", [1_200, 2_395])
def test_boxes_of_the_dead_do_not_go_up_wet(now: int) -> None:
    """Eight of ten came off with 12 boxes, three are on the dead; the truck may be out with 15."""
    lines = "done off Yard 1: 8 colonies 12 boxes", "dead 2 Yard 1"
    facts = put_in(*lines, now=at(now), plan=wet_boxes())
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)

    assert [12, 12] == ups(new)
    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]


def test_boxes_fetched_by_hand_from_the_dead_are_none_of_those_that_came_off() -> None:
    """Of 15 boxes three stood on the two dead; once they are fetched the yard has had 12."""
    lines = "done off Yard 1: 8 colonies 12 boxes", "dead 2 Yard 1"
    facts = put_in(*lines, now=at(1_200), plan=wet_boxes())
    plan = replace(facts.plan, outfit=facts.outfit)
    fetched = put_in("boxes left 0 Yard 1", now=at(1_300), plan=plan)
    new = replan_season(fetched.plan, fetched.outfit, fetched.now_min, rounds=1)

    assert [15, 12] == [one.outfit.yards[0].boxes for one in (facts, fetched)]
    assert [12, 12] == ups(new)
    assert [] == [finding.sentence() for finding in audit(new, fetched.plan)]


def test_all_that_comes_off_goes_up_though_what_is_left_was_counted() -> None:
    """Five brought 8 boxes, and 12 stand on the other five: 20 go up and come down."""
    facts = put_in(
        "done off Yard 1: 5 colonies 8 boxes", "boxes left 12 Yard 1", now=at(1_200),
        plan=wet_boxes(),
    )  # fmt: skip
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)

    assert [20, 20] == ups(new)
    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]


def test_none_go_up_while_honey_is_on() -> None:
    """A truck is out with 15; two of ten colonies turned out to have kept theirs on."""
    facts = put_in("done off Yard 1: 8 colonies 12 boxes", now=at(2_395), plan=wet_boxes())
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    there = trip(facts, 1)[1]

    assert ((), (Against.NOTHING,)) == (there.actions, there.against)
    assert "what up was to do there with honey still on does not count" in " ".join(facts.notes)
    assert "'home Truck 1'" in " ".join(facts.notes)
    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
