"""Stops that are counted, left sooner or run late, and latest times after them."""

from dataclasses import replace
from itertools import permutations

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.road.calls import washed_min
from runplanner.changes.road.clock import Rest
from runplanner.changes.road.lags import ripe_from
from runplanner.changes.road.margins import _work_min as margin_min
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.days import Span, clock
from runplanner.outfit.yards import Health
from runplanner.paperwork.driver.manifest import manifest
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.audit.planted import edited
from tests.changes.thursday import (
    AT_FERNBANK,
    THURSDAY,
    clocks,
    driven,
    latest,
    red,
    refusal,
    two_loads,
)
from tests.outfits import a_yard, an_outfit
from tests.running import at, feeds_fernbank_on_friday, put_in, running_plan


def test_latest_times_come_forward_where_hours_have_shut() -> None:
    """Fernbank shuts at 12:35, planned until 12:29: six minutes are left, there and before it."""
    facts = put_in("shut Fernbank Thu from 12:35", now="Thu 4 Mar 8:10")
    *_, creek, fernbank, _ = red(facts)[0].trips[0].calls

    assert ("10:41", "12:35") == (clock(creek.latest_leave_min), clock(fernbank.latest_leave_min))
    driven(facts)
    at_work = put_in("shut Fernbank Thu from 12:35", now=AT_FERNBANK)
    assert "12:35" == clock(red(at_work)[0].trips[0].calls[3].latest_leave_min)
    driven(at_work)


AT_WORK = "done 0304-truck2-0716 Creek Mouth: 10 colonies 15 boxes"


def test_a_stop_that_is_counted_is_over_and_the_truck_goes_on() -> None:
    """At 9:00 Creek Mouth is counted, not left at 10:35 as planned: Fernbank 9:04 to 10:54."""
    facts = put_in(AT_WORK, now="Thu 4 Mar 9:00")
    shift, where = red(facts)

    assert [
        ("creek-mouth", "08:45"), ("fernbank", "09:04"), ("unload", "11:04"),
    ] == where[2:]  # fmt: skip
    assert THURSDAY + 9 * 60 == shift.trips[0].calls[2].end_min
    assert THURSDAY + 11 * 60 + 29 == shift.end_min
    assert ("tell Red: Fernbank 09:04, Base 11:04, home 11:29",) == facts.notes
    driven(facts)


AS_PLANNED = "done 0304-truck2-0716 Creek Mouth: 10 colonies 15 boxes 10 fed strips"


@pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these
@pytest.mark.parametrize("count", [AS_PLANNED, AT_WORK.replace("10 colonies", "8 colonies")])
def test_a_stop_that_was_counted_and_left_is_no_more_at_work_for_a_truck_called_back(
    count: str,
) -> None:
    """Left at 10:35, counted, called back at 10:38, it is back there at 10:41 at the earliest.

    Neither the run that calls it back nor the next one takes it for uncounted, or for at work;
    its paper has it done.
    """
    told = put_in(count, "truck Red out Thu", now="Thu 4 Mar 10:37")
    back = put_in("skip Fernbank", now="Thu 4 Mar 10:38", plan=driven(told))
    new = driven(back)
    later = put_in("suspect Creek Mouth", now="Thu 4 Mar 10:40", plan=new)

    assert ("creek-mouth", THURSDAY + 641) in [
        (call.yard, call.end_min) for call in red(back)[0].trips[0].calls
    ]
    assert [(), ()] == [back.presumed, later.presumed]
    assert [note for note in (*back.notes, *later.notes) if "presumed" in note] == []
    assert [note for note in later.notes if "at work" in note] == []
    shift = red(replace(back, plan=new))[0]
    creek = next(one for one in manifest(new, shift, shift.trips[0]).steps if one.number == "2")
    assert (True, "", "", ()) == (creek.over, creek.latest, creek.stop_at, creek.late)


def test_honey_taken_off_at_a_stop_called_back_to_is_off() -> None:
    """The stop is over, so the yard may be fed where that is agreed; the audit sees it so."""
    back = put_in("skip Fernbank", now="Thu 4 Mar 10:38")
    agreed = put_in("standstill Creek Mouth, feed agreed", now="Thu 4 Mar 10:39", plan=driven(back))

    assert agreed.outfit.yard("creek-mouth").honey_off
    driven(agreed)


def test_a_stop_called_back_to_is_presumed_once_where_nobody_counted_it() -> None:
    """Named in the run after which it was over, whether it was called back to in that or later."""
    before = put_in(now="Thu 4 Mar 9:00").plan
    stop = ("0304-truck2-0716", "creek-mouth")
    new = replan_season(before, running_plan().outfit, THURSDAY + 540, rounds=0)
    over = put_in(now="Thu 4 Mar 10:37", plan=new)
    at_once = put_in("skip Fernbank", now="Thu 4 Mar 10:37", plan=new)
    named = driven(over)

    assert (stop,) == at_once.presumed
    assert (stop,) == tuple(one for one in over.presumed if one == stop)
    skipped = put_in("skip Fernbank", now="Thu 4 Mar 10:38", plan=named)
    assert () == skipped.presumed
    assert () == put_in(now="Thu 4 Mar 10:39", plan=driven(at_once)).presumed


def test_a_stop_counted_as_planned_before_it_is_left_stays_counted() -> None:
    """At 9:00 all is done there, and the truck is to leave at 9:30: at 9:20 nothing is presumed."""
    told = put_in(AS_PLANNED, "left Creek Mouth 9:30", now="Thu 4 Mar 9:00")
    later = put_in("suspect Creek Mouth", now="Thu 4 Mar 9:20", plan=driven(told))

    assert ("0304-truck2-0716", "creek-mouth") not in later.presumed
    assert [note for note in later.notes if "at work" in note] == []
    nothing = AS_PLANNED.split(":", maxsplit=1)[0] + ": nothing"
    wrong = put_in(nothing, now="Thu 4 Mar 9:20", plan=driven(told))
    again = put_in(AS_PLANNED, now="Thu 4 Mar 9:21", plan=wrong.plan)
    assert () == red(wrong)[0].trips[0].calls[2].actions
    assert running_plan().shifts[0].trips[0].calls[2].actions == (
        red(again)[0].trips[0].calls[2].actions
    )


def test_home_goes_from_the_stop_that_was_counted() -> None:
    """At 9:14 it is at the base, not at 10:49, and its crew is told so once."""
    facts = put_in(AT_WORK, "home Red", now="Thu 4 Mar 9:00")

    assert ("tell Red: Base 09:14, home 09:32; left out: Fernbank",) == facts.notes
    driven(facts)


def test_a_count_of_a_stop_that_is_over_moves_nothing() -> None:
    """Nor one in its first minute, nor one of a stop to which the trip comes again."""
    for now in ("Thu 4 Mar 10:35", "Thu 4 Mar 8:45"):
        facts = put_in(AT_WORK, now=now)
        assert clocks(running_plan().shifts[0]) == clocks(red(facts)[0])
    twice = edited(running_plan(), {"shifts.0.trips.0.calls.3.yard": "creek-mouth"})
    facts = put_in(AT_WORK.replace("10 colonies 15 boxes", "nothing"), now="Thu 4 Mar 9:00",
                   plan=twice)  # fmt: skip
    assert clocks(twice.shifts[0]) == clocks(red(facts)[0])


@pytest.mark.parametrize("now", ["9:00", "11:00", "12:20"])
@pytest.mark.parametrize("word", ["left", "leaves", "late"])
def test_a_stop_that_runs_late_is_told(now: str, word: str) -> None:
    """By plan it leaves at 10:35 and is at Fernbank from 10:39; now all comes half an hour later.

    At the base from 13:09, six hours of duty are over at 13:16: a break of 30 min.
    """
    facts = put_in(f"{word} Creek Mouth 11:05", now=f"Thu 4 Mar {now}")
    shift, where = red(facts)

    assert [("fernbank", "11:09"), ("unload", "13:09")] == where[3:]
    assert (Span(THURSDAY + 796, THURSDAY + 826),) == shift.breaks
    assert ("tell Red: Fernbank 11:09, Base 13:09, home 14:04",) == facts.notes
    driven(facts)


def test_a_stop_left_sooner_than_it_was_counted() -> None:
    """The count came by the way: at 9:00 Creek Mouth had been left since 8:55."""
    facts = put_in(AT_WORK, "left Creek Mouth 8:55", now="Thu 4 Mar 9:00")

    assert ("tell Red: Fernbank 08:59, Base 10:59, home 11:24",) == facts.notes
    driven(facts)


def test_so_late_that_something_is_left_out() -> None:
    """Until 16:05 with its break at 13:16: without Fernbank it holds, in whichever order told."""
    late, now = "left Creek Mouth 16:05", "Thu 4 Mar 10:40"

    assert "a day that ends by 18:16, not at 18:34" in refusal(late, now=now)
    for lines in ((late, "skip Fernbank"), ("skip Fernbank", late)):
        facts = put_in(*lines, now=now)
        assert ("tell Red: Base 16:19, home 16:37; left out: Fernbank",) == facts.notes
        driven(facts)
    assert put_in(late, "home Red", now=now).notes == facts.notes


def test_so_late_that_a_job_is_left_out() -> None:
    """Until 15:56 the day is nine minutes too long; the strips of ten colonies are ten."""
    late, now = "left Creek Mouth 15:56", "Thu 4 Mar 10:40"

    assert "a day that ends by 18:16, not at 18:25" in refusal(late, now=now)
    facts = put_in(late, "skip strips at Fernbank", now=now)
    assert (
        "tell Red: Fernbank 16:00, Base 17:50, home 18:15",
        "Fernbank: without strips; all else there as planned",
    ) == facts.notes
    driven(facts)


def test_hours_shut_after_a_stop_leave_latest_times_alone() -> None:
    """Two is left by 13:05 and shuts at 18:00: no paper is printed anew for it."""
    plan = two_loads()
    facts = put_in("shut Two Mon from 18:00", now="Mon 1 Mar 9:00", plan=plan)

    assert latest(plan) == latest(facts.plan)
    driven(facts)


@pytest.mark.parametrize("line", ["shut Two Mon from 8:59", "honey house full Mon"])
def test_hours_shut_for_the_rest_of_a_day_leave_latest_times_alone(line: str) -> None:
    """Leaving One as planned does no good either: five minutes late is taken as told."""
    plan = two_loads()
    shut = put_in(line, now="Mon 1 Mar 8:10", plan=plan).plan
    late = put_in("left One 8:42", now="Mon 1 Mar 8:20", plan=shut)

    assert latest(plan)[:4] == latest(shut)[:4]
    assert "Two 09:04, Base 09:53" in late.notes[0]
    driven(late)


def test_latest_times_reckon_with_breaks_in_the_work() -> None:
    """Five minutes are in hand from the first unloading on; One's second visit loses three.

    Its break falls into the work there.  Rested before it, the truck would leave the second load
    half an hour late.
    """
    plan = two_loads()
    calls = [(0, 3), *((1, at) for at in range(3))]
    edits = {
        f"shifts.0.trips.{trip}.calls.{at}.latest_leave_min":
            plan.shifts[0].trips[trip].calls[at].leave_min + 5
        for trip, at in calls
    }  # fmt: skip
    plan = edited(plan, edits)
    facts = put_in("shut One Mon from 14:31", now="Mon 1 Mar 9:40", plan=plan)

    assert ["10:09", "10:28", "14:34", "15:11"] == latest(plan)[3:]
    assert ["10:06", "10:25", "14:31", "15:11"] == latest(facts.plan)[3:]
    driven(facts)


def test_a_stop_left_late_goes_by_hours_whichever_line_is_first() -> None:
    """Told first, the truck went on to Creek Mouth as if nothing were shut there."""
    lines = ("left Old Mill 8:40", "shut Creek Mouth Thu before 10:00")
    days = [clocks(red(put_in(*told, now="Thu 4 Mar 8:20"))[0]) for told in permutations(lines)]

    assert THURSDAY + 600 == days[0][2][1]
    assert days[0] == days[1]


@pytest.mark.parametrize(
    ("line", "now"),
    [("done Old Mill: 1 colonies", "4 Mar 9:00"), ("left Creek Mouth 10:35", "4 Mar 10:00")],
)
def test_latest_times_reckon_with_breaks_in_the_delay(line: str, now: str) -> None:
    """Six hours after 7:16 a break falls due in whichever call is late, and may be had there.

    All later times came forward to 13:16.
    """
    before, after = latest(running_plan()), latest(put_in(line, now=now).plan)

    assert ["15:47", "17:41", "18:16"] == before[2:]
    assert before[-2:] == after[-2:]


@pytest.mark.parametrize("line", ["left One 13:50", "done 0301-truck1-1004 One: 30 boxes"])
def test_a_break_that_has_begun_is_taken_whole(line: str) -> None:
    """From 13:35 to 14:05, six hours after 7:35; cut short at 13:50 the day broke its rules."""
    facts = put_in(line, now="Mon 1 Mar 13:50", plan=two_loads())
    shift = facts.plan.shifts[0]

    assert two_loads().shifts[0].breaks == shift.breaks
    assert 14 * 60 + 5 == shift.trips[1].calls[1].leave_min
    driven(facts)


@pytest.mark.parametrize(
    ("line", "now", "said"),
    [
        ("left Creek Mouth 8:45", "9:00", "a minute after it began"),
        ("left Fernbank 11:00", "9:00", "the last stop that a truck has begun"),
        ("left Old Mill 7:59", "20:00", "a minute after it began"),
    ],
)
def test_only_a_stop_that_has_begun_is_left(line: str, now: str, said: str) -> None:
    """Not before it began, none to come, and none of a day that is over."""
    assert said in refusal(line, now=f"Thu 4 Mar {now}")
    over = refusal("left Old Mill 12:00", now="Sat 6 Mar 8:00")
    assert "Once its day is over" in over
    counted = put_in("done 0304-truck2-0716 Fernbank: nothing", now="Thu 4 Mar 12:30").plan
    known = refusal("left Creek Mouth 11:05", now="Thu 4 Mar 12:35", plan=counted)
    assert "the last stop that a truck has begun" in known


def test_what_was_done_before_bounds_how_soon_a_stop_may_begin() -> None:
    """Boards have to lie; the round before has to be taken down; wet boxes go up from 16:00."""
    plan = running_plan()
    outfit, shifts = plan.outfit, plan.shifts
    boards, off = shifts[0].trips[0].calls[1], shifts[1].trips[0].calls[1]
    for least, ripe in ((1_400, boards.end_min + 1_400), (1_500, off.start_min)):
        rules = replace(outfit.rules, board_least_min=least)
        assert ripe == ripe_from(replace(outfit, rules=rules), shifts, shifts[1])(off)
    lain = replace(outfit.yards[2], boards_on_min=boards.end_min + 60)
    before = replace(outfit, yards=(*outfit.yards[:2], lain))
    assert boards.end_min + 60 + 720 == ripe_from(before, shifts, shifts[1])(off)
    assert 0 == ripe_from(outfit, shifts, shifts[0])(boards)
    wet = replace(off, start_min=off.start_min + 600, actions=(Action(Job.WET_UP, 24, wet=9),))
    assert THURSDAY + 1_440 + 16 * 60 == ripe_from(outfit, shifts, shifts[1])(wet)

    again = edited(plan, {
        "shifts.0.trips.0.calls.1.yard": "fernbank",
        "shifts.0.trips.0.calls.1.actions": (Action(Job.FEED, 10, ml=40_000, round=1),),
        "shifts.0.trips.0.calls.3.actions": (Action(Job.FEED, 10, ml=40_000, round=2),),
    })  # fmt: skip
    fernbank = red(put_in(AT_WORK, now="Thu 4 Mar 9:00", plan=again))[0].trips[0].calls[3]
    assert (THURSDAY + 544, THURSDAY + 639) == (fernbank.arrive_min, fernbank.start_min)


@pytest.mark.parametrize("end_min", [1100, 1050])
def test_who_leaves_late_within_what_the_paper_says_is_home_so_much_later(end_min: int) -> None:
    """Eight minutes late at the first yard; a break of 45 min in the work at the second does."""
    yards = [
        replace(a_yard(1, colonies=8, boxes=12, days=4), name="One"),
        replace(a_yard(2, colonies=18, boxes=20, days=4), name="Two"),
    ]
    outfit = an_outfit([(150, 0), (160, 0)], yards, days=4)
    hours = replace(outfit.hours, end_min=end_min, duty_max_min=15 * 60)
    plan = plan_season(replace(outfit, hours=hours), rounds=3, proof=False)
    (before,) = plan.shifts
    stop = before.trips[0].calls[1]
    late = stop.leave_min + 8
    facts = put_in(f"left {stop.yard} {late // 60}:{late % 60:02d}", now=at(late), plan=plan)
    (after,) = facts.plan.shifts

    assert stop.latest_leave_min >= late
    assert end_min >= after.end_min
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0, proof=False)
    assert () == audit(new)


def friday_at_a_closed_yard() -> Plan:
    """The plan, its Friday stop at a yard with disease: 20 min of it are for washing down."""
    plan = feeds_fernbank_on_friday()
    yards = tuple(
        replace(one, health=Health.STANDSTILL, feed_agreed=True) if one.id == "fernbank" else one
        for one in plan.outfit.yards
    )
    pace = replace(plan.outfit.pace, wash_min=20)
    return replace(plan, outfit=replace(plan.outfit, yards=yards, pace=pace))


@pytest.mark.parametrize("more", [0, 15])
def test_washing_down_is_counted_once(more: int) -> None:
    """A stop planned with its time to wash takes as long as planned, one too short for it longer.

    Latest times go by the same minutes as the clock of a day told anew; a take-off was planned
    without, so the 20 min come on top.
    """
    plan = friday_at_a_closed_yard()
    shift = plan.shifts[1]
    load, stop = shift.trips[0].calls[:2]
    needs = washed_min(plan.outfit, shift, stop)
    for given, takes in ((needs + more, needs + more), (needs - 20, needs)):
        call = replace(stop, end_min=stop.start_min + given)
        alone = replace(shift, breaks=())
        assert takes == margin_min(plan.outfit, alone, load, call)
        assert takes == Rest(plan.outfit, alone, 0, 1, 0).work_min(call)
    honey = replace(
        stop, actions=(*stop.actions, Action(Job.TAKE_OFF, 1)), end_min=stop.start_min + needs
    )
    assert needs + 20 == margin_min(plan.outfit, replace(shift, breaks=()), load, honey)
