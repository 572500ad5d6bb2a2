"""A running season planned again: what was driven, what was promised, what is to be had."""

from dataclasses import fields, replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.differences import differences
from runplanner.daybook.plan import ALL_DONE, Plan
from runplanner.daybook.trip import Call, Job, Shift
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Deadline
from runplanner.paperwork.stop.events import actions
from runplanner.phrase import phrase
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import BALANCE, CHEAPEST, LEAST, Upset, replan_season
from runplanner.season.standing.base_work import BaseWork, Mix
from runplanner.season.standing.roster import Need, Roster
from runplanner.season.watch import Progress, Watch
from runplanner.trips.ground import Ground
from tests.outfits import daily
from tests.running import at, put_in, running_outfit, running_plan, stop_with
from tests.season.tiny import ANN, EVEN_FEED, EVEN_HOUSE, four, tiny, waits_for_the_bees

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

FIRST, SECOND = "0304-truck2-0716", "0305-truck2-0715"
THURSDAY = "Thu 4 Mar 13:30"


def again(*lines: str, now: str = THURSDAY, rounds: int = 3) -> Plan:
    """The plan after ``lines``, audited beside the one before."""
    facts = put_in(*lines, now=now)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=rounds)
    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
    return new


def when(plan: Plan, yard: str, job: Job) -> list[tuple[int, str, int]]:
    """Day, truck and colonies of every visit of ``yard`` with ``job``."""
    return [
        (shift.day, shift.truck, action.colonies)
        for shift in plan.shifts
        for trip in shift.trips
        for call in trip.yards()
        for action in call.actions
        if call.yard == yard and action.job is job
    ]


@pytest.mark.parametrize("minute", [1, 4755, 4756, 4900, 5104, 5150, 6194, 6195, 9000])
def test_nothing_changed_changes_nothing(minute: int) -> None:
    """Before, at, in and after each shift and stretch of spinning: the same plan."""
    new = replan_season(running_plan(), running_plan().outfit, minute, rounds=3)
    found = differences(running_plan(), new)

    assert 0 == found.visits_moved() == found.extra_cents()
    assert () == found.changed == found.called_off == found.fresh
    assert () == audit(new, running_plan())
    assert (running_plan().mixing, running_plan().spinning) == (new.mixing, new.spinning)
    assert new == replan_season(new, new.outfit, minute, rounds=3)


def test_whoever_was_promised_the_spinning_keeps_it() -> None:
    """Caro has Friday's, which Bob could do as well; it stays hers, with a count told too."""
    plan = running_plan()
    *others, friday = plan.spinning
    plan = replace(plan, spinning=(*others, replace(friday, people=("caro",))))
    facts = put_in(f"done {FIRST} Fernbank: 25 boxes", now=THURSDAY, plan=plan)

    assert plan.spinning == replan_season(plan, plan.outfit, 1, rounds=0).spinning
    counted = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    assert [("caro",)] == [one.people for one in counted.spinning if one.start_min // DAY_MIN == 4]


def test_a_count_put_right_brings_the_work_back() -> None:
    """Boards told as not on, with no fair day but Friday: the mill is left; told as on, it is not.

    Nothing but a driven stop differs between the two, and what is left is the same before a
    search.
    """
    line = f"done {FIRST} Old Mill:"
    left = again(f"{line} nothing", "shut all Sat-Mon", now="Thu 4 Mar 18:00")
    facts = put_in(f"{line} 24 boards", plan=left)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=3)

    assert 24 == left.tally.not_off
    assert ALL_DONE == new.tally
    assert () == audit(new, facts.plan)


def test_yards_that_a_repair_leaves_short_go_in_before_the_others() -> None:
    """Three feed rounds in 7 days, 1.5 days apart, and one day shut: nothing is left at once.

    In the order of their room alone, 8.2 kg of stores are not fed before a search.
    """
    feed = replace(EVEN_FEED, uptake_ml_per_day=2_000)
    yards = [four(number, 7, feeder_ml=3_000) for number in (1, 2, 3)]
    outfit = tiny([(14, -4), (10, -12), (0, 23)], yards, 7, feed=feed)
    outfit = replace(outfit, hours=replace(outfit.hours, duty_max_min=400))
    plan = plan_season(outfit, rounds=4)
    facts = put_in("shut all 5 Mar for syrup: rain", now="Wed 3 Mar 20:00", plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)

    assert (ALL_DONE, ALL_DONE) == (plan.tally, new.tally)
    assert () == audit(new, facts.plan)


@pytest.mark.parametrize(("upset", "rounds"), [(LEAST, 0), (BALANCE, 3), (CHEAPEST, 3)])
def test_another_choice_than_least_searches_though_all_is_done(upset: Upset, rounds: int) -> None:
    """Nothing is new and nothing is left: with least change it is the plan, else it is tried."""
    new = replan_season(running_plan(), running_outfit(), 1, upset=upset, rounds=3)

    assert rounds == new.search.rounds


def test_a_feed_that_waits_for_the_last_one_waits_again() -> None:
    """A truck that leaves late on purpose does so again, and nothing has moved."""
    old = plan_season(waits_for_the_bees(), rounds=60)
    new = replan_season(old, old.outfit, 1_000, rounds=20)

    assert 2 == len(new.shifts)
    assert (0, 0) == (differences(old, new).visits_moved(), differences(old, new).extra_cents())
    assert () == audit(new, old)


def test_a_day_planned_later_than_need_be_keeps_its_hours() -> None:
    """The second truck could leave at 7:15, and is promised for 7:45."""
    old = running_plan()
    shifts = tuple(_later(s, 30) if s.trips[0].id == SECOND else s for s in old.shifts)
    first, last = old.spinning
    after = replace(last, start_min=last.start_min + 30, end_min=last.end_min + 30)
    late = replace(old, shifts=shifts, spinning=(first, after))
    new = replan_season(late, late.outfit, 4_900, rounds=3)

    assert () == audit(late)
    assert [(s.day, s.start_min, s.end_min) for s in shifts] == [
        (s.day, s.start_min, s.end_min) for s in new.shifts
    ]
    assert late.spinning == new.spinning


def _later(shift: Shift, minutes: int) -> Shift:
    """The same shift so many minutes later."""
    trips = tuple(
        replace(trip, calls=tuple(_call_later(call, minutes) for call in trip.calls))
        for trip in shift.trips
    )
    breaks = tuple(Span(b.start_min + minutes, b.end_min + minutes) for b in shift.breaks)
    start, end = shift.start_min + minutes, shift.end_min + minutes
    return replace(shift, trips=trips, breaks=breaks, start_min=start, end_min=end)


def _call_later(call: Call, minutes: int) -> Call:
    times = ("arrive_min", "start_min", "end_min", "leave_min")
    return replace(call, **{name: getattr(call, name) + minutes for name in times})


@pytest.mark.parametrize("more", [-2, 2])
@pytest.mark.parametrize("name", ["Creek Mouth", "Fernbank"])
def test_a_driver_ahead_of_the_paper_may_count(name: str, more: int) -> None:
    """Counted two minutes before its hour, two boxes more or fewer than its minutes are for."""
    trip = running_plan().shifts[0].trips[0]
    call = next(c for c in trip.yards() if running_plan().outfit.yard(c.yard).name == name)
    off = next(action for action in call.actions if action.job is Job.TAKE_OFF)
    line = f"done {trip.id} {name}: {off.colonies} colonies {off.boxes + more} boxes"
    new = again(line, now=at(call.start_min - 2), rounds=1)

    counted = next(c for c in new.shifts[0].trips[0].yards() if c.yard == call.yard)
    assert off.boxes + more == sum(action.boxes for action in counted.actions)


@pytest.mark.parametrize("now", ["Thu 4 Mar 12:10", "Thu 4 Mar 12:32", "Thu 4 Mar 13:00"])
def test_syrup_that_is_being_mixed_is_loaded_once_it_is_mixed(now: str) -> None:
    """Bob mixes from 12:00 to 13:02; a yard found at noon gets none of it before."""
    new = again("new yard Found at 0.0120 0.1030: 4 colonies 19 boxes", now=now, rounds=1)
    (mix,) = (mix for mix in new.mixing if mix.start_min == 3 * 1440 + 720)
    trips = [t for s in new.shifts for t in s.trips if any(c.yard == "found" for c in t.yards())]

    assert trips
    assert all(
        t.calls[0].start_min >= mix.end_min or not any(a.ml for c in t.calls for a in c.actions)
        for t in trips
    )


def test_blocks_counted_where_the_rules_plan_none_are_written_down() -> None:
    """Somebody laid two blocks on all the same."""
    outfit = tiny([(10, 0)], [four(1, 2)], 2)
    old = plan_season(replace(outfit, rules=replace(outfit.rules, blocks=0)), rounds=3)
    shift, trip, call, _ = stop_with(Job.TAKE_OFF, old)
    line = f"done {trip.id} {call.yard}: {call.actions[0].colonies} colonies 2 blocks"
    facts = put_in(line, now=at(shift.end_min), plan=old)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)

    assert () == audit(new, facts.plan)
    assert 2 == sum(a.pieces for _, a in actions(new, Job.BLOCK))


def test_a_truck_that_is_out_is_not_sent() -> None:
    """Red is out on Friday: the mill is visited with Blue, the same day."""
    new = again("Red out Fri")

    assert [(4, "truck1", 24)] == when(new, "mill", Job.TAKE_OFF)


def test_a_driver_away_is_replaced() -> None:
    """Ann is off on Friday: Caro drives; no visit moves, but the paper changes."""
    new = again("Ann off Fri")
    found = differences(running_plan(), new)

    assert 0 == found.visits_moved()
    assert ((SECOND,), ()) == (found.changed, found.untouched)


@pytest.mark.parametrize("lines", [("Ann off Fri", "Caro off Fri"), ("Ann off 4-7 Mar",)])
def test_with_nobody_left_to_drive_the_day_is_called_off(lines: tuple[str, ...]) -> None:
    """Friday's trip, which both could drive, goes another day; or, with one driver, none does."""
    new = again(*lines, "Caro off Fri", now="Wed 3 Mar 20:00")

    assert not [shift for shift in new.shifts if shift.day == 4]
    assert 24 == sum(off for day, _, off in when(new, "mill", Job.TAKE_OFF) if day != 4)


def late_and_long() -> Plan:
    """The running plan where boards are priced at once, and all is late from the first day."""
    outfit = running_outfit()
    rules, by = replace(outfit.rules, board_best_min=0), Deadline(0, hard=False)
    season = replace(outfit.season, take_off_by=by, strips_by=by, feed_by=by)
    return replan_season(running_plan(), replace(outfit, rules=rules, season=season), 0, rounds=0)


@pytest.mark.parametrize(
    "line",
    ["suspect Old Mill", "standstill Old Mill, feed agreed", "dead 2 Old Mill", "dead 24 Old Mill"],
)
def test_what_boards_and_lateness_cost_was_paid(line: str) -> None:
    """The mill is off on Friday; whatever is heard of it on Saturday, planner and audit agree."""
    facts = put_in(line, now="Sat 6 Mar 05:00", plan=late_and_long())
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=2)
    off = sum(colonies for day, _, colonies in when(new, "mill", Job.TAKE_OFF) if day <= 4)

    assert () == audit(new, facts.plan)
    assert (24, True) == (off, new.bill.late > 0)
    assert (new.bill.boards_long > 0) == (line != "dead 24 Old Mill")


def test_crews_of_other_trucks_stay() -> None:
    """Both trucks go out on one day, Ann on Blue, Caro on Red; Bob falls ill: nobody swaps."""
    roster = Roster(Ground(running_outfit()))
    needs = (Need(0, 1, True, True, (), (2,)), Need(1, 2, True, True, (), (0, 1)))

    # By skill alone Ann, the first who may drive, would be sent out on Blue.
    assert ((2,), (0, 1)) == roster.crews(1, needs)
    assert ((0,), (2, 1)) == roster.crews(1, tuple(need._replace(wished=()) for need in needs))
    # Whoever was promised to another truck is asked last.
    asked = (Need(0, 1, True, True), Need(1, 1, True, True, (), (0,)))
    assert ((2,), (0,)) == roster.crews(1, asked)


def test_who_has_spun_in_the_morning_goes_out_in_the_afternoon_as_promised() -> None:
    """Ann, who is alone, spins at eight, and leaves at half past one: nothing new changes it."""
    afternoon = daily(14 * 60, 18 * 60, range(1))
    yards = [four(1, 1, open_spans=afternoon, feed_spans=afternoon)]
    waiting = replace(EVEN_HOUSE, waiting_boxes=60)
    outfit = tiny([(10, 0)], yards, 1, people=(ANN,), honey_house=waiting)
    plan = plan_season(outfit, rounds=1)
    new = replan_season(plan, outfit, 10 * 60, rounds=1)

    assert ALL_DONE == new.tally
    assert plan.shifts == new.shifts
    assert not audit(new, plan)


def test_who_has_worked_inside_goes_out_in_the_other_half_as_far_as_duty_lets() -> None:
    """Whoever is spared for it: at most 13 h a day, and 45 minutes of rest within 6 h."""
    ground = Ground(tiny([(10, 0)], [four(1, 1)], 1, people=(ANN,)))
    roster = Roster(ground, BaseWork((Mix(480, 540, 0, 0),), (), 0))

    def dealt(start: int, end: int, *, morning: bool = False) -> bool:
        need = Need(0, 1, morning, True, pieces=((start, end),))
        return roster.crews(0, (need,)) is not None

    assert dealt(780, 1140)
    assert not dealt(780, 1140, morning=True)
    assert not dealt(780, 1500)


def test_hands_wanted_at_the_bases_come_before_promised_crews() -> None:
    """Promised crews are given up where honey could else not be spun: the plan still stands."""
    new = again("Bob off Fri", "Caro off Fri")

    assert 0 == new.tally.uncovered


def test_least_change_keeps_every_other_day() -> None:
    """However long it looks, days that need not change go out as promised, crews and hours too."""
    new = again("shut Old Mill Fri", now="Thu 4 Mar 6:00", rounds=40)
    found = differences(running_plan(), new)

    (moved,) = {one.spot.yard for one in found.moved}
    assert "mill" == moved
    touched = {spot.day for one in found.moved for spot in (one.was, one.now) if spot}
    assert {one.shift.day for one in found.duties} <= touched


def test_the_cost_told_is_money_alone() -> None:
    """A visit that must move weighs 10,000 in the search, which nobody pays nor reads."""
    facts, heard = put_in("shut Old Mill Fri", now=THURSDAY), list[Progress]()
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=3, progress=heard.append)
    searching = [news.cost_cents for news in heard if news.note == "improving"]

    assert 1 == differences(facts.plan, new).visits_moved()
    assert abs(searching[-1] - new.bill.total()) <= len(fields(new.bill))


def test_strips_that_run_out() -> None:
    """40 strips are in hives, 20 left: 48 for the mill are too many; all else is done."""
    new = again("strips left 20")

    assert [] == when(new, "mill", Job.STRIPS)
    assert 24 == new.tally.no_strips
    assert [(4, "truck2", 24)] == when(new, "mill", Job.TAKE_OFF)


def test_one_substance_runs_out() -> None:
    """Pads for Fernbank were not put in and none are left; strips for the mill are enough."""
    plan = running_plan()
    pads = replace(plan.outfit.strips, substance="formic acid", id="pads")
    yards = (replace(plan.outfit.yards[0], strips="pads"), *plan.outfit.yards[1:])
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards, strips_also=(pads,)))
    said = (f"done {FIRST} Fernbank: no strips", "strips left 0 of formic acid")
    facts = put_in(*said, "strips left 48 of amitraz", now=THURSDAY, plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=3)

    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
    assert 10 == new.tally.no_strips
    assert [(4, "truck2", 24)] == when(new, "mill", Job.STRIPS)
    assert [] == when(new, "fernbank", Job.STRIPS)


def test_sugar_that_runs_out() -> None:
    """Syrup for the mill is not mixed by Wednesday, and there is no sugar: no feed there."""
    new = again("sugar left 0 kg", now="Thu 4 Mar 6:00")

    assert new.tally.unfed_g or new.tally.not_off


def test_sugar_in_stock_is_what_was_counted() -> None:
    """170 L are mixed on Wednesday; 204 L x 1.327 x 0.667 = 180.6 kg are still due, 10 are there.

    At first 160.5 kg were, of 331 due in all: nobody finds that in the store.
    """
    new = again("sugar left 10 kg", now="Thu 4 Mar 6:00")

    told = "10 kg of sugar are in stock and 181 kg are still needed in all: 171 kg are short for "
    assert [(f"{told}what is left here, even with all that others leave over",)] == [
        one.why for one in new.undone
    ]


def test_a_honey_house_that_stops_spins_later() -> None:
    """Stopped until Saturday: nothing is spun in between, all of it after."""
    facts = put_in("honey house stopped until Sat", now=THURSDAY)
    new = again("honey house stopped until Sat")
    (stop,) = facts.outfit.honey_house.stopped

    assert 70 == sum(spin.boxes for spin in new.spinning)
    assert all(
        spin.start_min >= stop.end_min or spin.end_min <= stop.start_min for spin in new.spinning
    )


def test_a_honey_house_that_stops_at_noon() -> None:
    """Stopped from 9 to 11 on Saturday only: spinning leaves the gap out."""
    new = again("honey house stopped until Sat", "honey house stopped Sat 9:00-11:00")
    start = 5 * 1440 + 9 * 60

    assert all(spin.end_min <= start or spin.start_min >= start + 120 for spin in new.spinning)


def test_a_full_honey_house_gets_no_boxes() -> None:
    """Full on Friday: no boxes are brought that day."""
    new = again("honey house full Fri")

    assert 4 not in {day for day, _, _ in when(new, "mill", Job.TAKE_OFF)}


def test_what_came_in_is_spun_though_there_is_no_room() -> None:
    """120 boxes are counted off Fernbank, room is for 100: they are there, and all get spun.

    So they are where honey may not wait, too late or not.
    """
    house = replace(running_outfit().honey_house, room_boxes=100)
    plan = replace(running_plan(), outfit=replace(running_outfit(), honey_house=house))
    first, *rest = plan.outfit.yards
    hurried = replace(first, spin_by_hard=True, spin_by_min=30)
    hasty = replace(plan, outfit=replace(plan.outfit, yards=(hurried, *rest)))
    for before in (plan, hasty):
        facts = put_in(f"done {FIRST} Fernbank: 120 boxes", now=THURSDAY, plan=before)
        new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)

        assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
        assert 120 + 15 <= sum(spin.boxes for spin in new.spinning)


def test_who_spins_now_is_not_sent_out() -> None:
    """At 17:00 on Thursday Caro spins; a trip of that evening would want another driver."""
    spin = running_plan().spinning[0]
    new = again(f"done {FIRST} Fernbank: nothing", now=at(spin.start_min + 10))

    assert all(
        who not in shift.crew
        for shift in new.shifts
        if shift.day == 3 and shift.start_min > spin.start_min
        for who in spin.people
    )
    assert 0 == new.tally.not_off


def test_two_colonies_left_over_are_worth_a_visit() -> None:
    """8 of 10 counted off: 2 are fewer than the smallest lot of 3, and are fetched all the same."""
    new = again(f"done {FIRST} Fernbank: 8 colonies 12 boxes 8 blocks", now="Thu 4 Mar 15:00")

    assert (3, "truck2", 8) == when(new, "fernbank", Job.TAKE_OFF)[0]
    assert [2] == [colonies for _, _, colonies in when(new, "fernbank", Job.TAKE_OFF)[1:]]
    assert 0 == new.tally.not_off == new.tally.unfed_g == new.tally.no_strips


def test_part_of_the_blocks_covers_the_last_off() -> None:
    """8 off, 3 blocks given: 5 colonies are without cover at once, 3 are not.

    Fed on Friday within 24 hours: 5 colony-days.
    """
    new = again(f"done {FIRST} Fernbank: 8 colonies 12 boxes 3 blocks", now="Thu 4 Mar 15:00")

    assert 5 == new.tally.uncovered


def test_the_hungry_get_a_further_block_though_others_come_off_later() -> None:
    """8 of 10 are off with 3 blocks; the five without get theirs before the last two come off.

    Syrup is shut until Sunday, when all has come off: without a block that would be 15
    colony-days and more.
    """
    shut = "shut Fernbank 5-6 Mar for syrup"
    done = f"done {FIRST} Fernbank: 8 colonies 12 boxes 3 blocks"
    new = again(done, shut, now="Thu 4 Mar 15:00")
    blocks = when(new, "fernbank", Job.BLOCK)

    assert 5 == new.tally.uncovered
    assert [4] == [day for day, _, colonies in blocks if colonies >= 5]


def test_colonies_that_died_after_take_off_need_no_feed() -> None:
    """12 of the mill's 24 are dead by Friday evening: nothing is owed to them, nothing sent."""
    new = again("dead 12 Old Mill", "dead 10 Fernbank", now="Fri 5 Mar 15:00")

    assert (0, 0, 0, 0) == (
        new.tally.uncovered, new.tally.no_strips, new.tally.unfed_g, new.tally.not_off,
    )  # fmt: skip


def test_a_yard_that_turns_suspect_is_left_and_listed() -> None:
    """Boards are on the mill when it turns suspect: no trip goes there; its work is listed."""
    new = again("suspect Old Mill")

    assert [] == when(new, "mill", Job.TAKE_OFF)
    assert {("mill", Job.TAKE_OFF, 24), ("mill", Job.STRIPS, 24), ("mill", Job.FEED, 24)} == {
        (one.yard, one.job, one.colonies) for one in new.undone
    }


def test_counted_goods_are_billed() -> None:
    """4 of 10 fed and no strips: 51 L at 1.50 and 20 strips at 2.00 were not used yet.

    They are given later, so in the end the bill for goods is that of before.
    """
    facts = put_in(f"done {FIRST} Fernbank: 4 fed no strips", now="Thu 4 Mar 15:00")
    late = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=2)

    assert running_plan().bill.syrup == late.bill.syrup
    assert running_plan().bill.strips == late.bill.strips


def test_a_bound_that_the_past_undercuts_is_withdrawn() -> None:
    """120 boxes are said to stand where 15 did, their work as planned: no bound may exceed that."""
    facts = put_in(f"done {FIRST} Fernbank: 120 boxes", now="Thu 4 Mar 15:00")
    cheap = replace(
        facts.outfit, pace=replace(facts.outfit.pace, inspect_s=2_000), hours=facts.outfit.hours
    )
    new = replan_season(facts.plan, cheap, facts.now_min, rounds=0)

    assert new.bound.cents <= new.bill.total()


@pytest.mark.parametrize(("over", "shown"), [(0, True), (15, True), (16, False)])
def test_a_bound_above_the_cost_is_told_to_nobody(over: int, *, shown: bool) -> None:
    """Where the past undercuts it, no gap of nought is shown; 15 heads of a bill may round."""
    plan, told = running_plan(), list[Progress]()
    total = plan.bill.total()
    high = replace(plan, bound=replace(plan.bound, cents=total + over))
    Watch(1, None, told.append).tell_plan(high, phrase("written down"))

    assert [total + over if shown else None] == [news.bound_cents for news in told]


def test_the_choices_in_order_of_cost() -> None:
    """Least moves least; the price of a promise is between."""
    facts = put_in("shut Old Mill Fri", now="Thu 4 Mar 6:00")
    plans = [
        replan_season(facts.plan, facts.outfit, facts.now_min, upset=upset, rounds=4)
        for upset in (LEAST, BALANCE, CHEAPEST)
    ]
    moved = [differences(facts.plan, plan).visits_moved() for plan in plans]

    assert moved[0] == min(moved)
    assert plans[2].bill.total() <= plans[0].bill.total()
