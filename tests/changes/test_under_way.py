"""A truck under way: called home, a stop left out, another order; the driven part stays.

Red's Thursday: loads 7:16 to 7:35, Old Mill 8:00 to 8:34 (boards), Creek Mouth 8:45 to 10:35,
Fernbank 10:39 to 12:29, unloads 12:39 to 13:04, no way home.  Legs: base to Old Mill 25 min,
to Creek Mouth 14, to Fernbank 10; Old Mill to Creek Mouth 11, to Fernbank 15; between the
last two 4.
"""

from dataclasses import replace
from functools import cache
from itertools import permutations

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.cargo.loads import boxes_limits, loaded
from runplanner.changes.road.calls import washed_min
from runplanner.changes.road.clock import Rest
from runplanner.changes.road.lags import ripe_from
from runplanner.changes.road.later_trips import waits
from runplanner.changes.road.margins import _work_min as margin_min
from runplanner.changes.typed import Changed, changed, typed_changes
from runplanner.daybook.plan import Plan
from runplanner.daybook.riding import SYRUP, unused
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Action, Against, Call, CallKind, Job, Shift
from runplanner.days import Span, clock
from runplanner.errors import ScenarioError
from runplanner.outfit.yards import Access, Health
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.driver.manifest import manifest
from runplanner.paperwork.stop.one_stop import trip_as_driven
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.audit.planted import edited
from tests.outfits import a_yard, an_outfit, flat_travel
from tests.running import at, feeds_fernbank_on_friday, put_in, running_plan

THURSDAY = 3 * 1440


def red(facts: Changed) -> tuple[Shift, list[tuple[str, str]]]:
    """Red's Thursday: the shift, and when it is where."""
    (shift,) = (one for one in facts.plan.shifts if one.day == 3)
    calls = [call for trip in shift.trips for call in trip.calls]
    return shift, [(call.yard or call.kind.value, clock(call.arrive_min)) for call in calls]


def clocks(shift: Shift) -> list[tuple[int, ...]]:
    """By the clock, all calls of a shift."""
    calls = [call for trip in shift.trips for call in trip.calls]
    return [(one.arrive_min, one.start_min, one.end_min, one.leave_min) for one in calls]


def driven(facts: Changed) -> Plan:
    """The plan from now on, which the audit must find good beside the past."""
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1, proof=False)
    if audit(new, facts.plan):  # undone work is to be listed with its reasons
        new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
    return new


def refusal(*lines: str, now: str, plan: Plan | None = None) -> str:
    """What is said against the last of ``lines``."""
    with pytest.raises(ScenarioError) as caught:
        put_in(*lines, now=now, plan=plan)
    return caught.value.faults[-1].sentence()


def test_called_home_from_a_yard() -> None:
    """At 9:00 it is at Creek Mouth until 10:35, back by 10:49: 15 boxes x 30 s, 8 min + 10."""
    facts = put_in("home Red", now="Thu 4 Mar 9:00")
    shift, where = red(facts)

    assert [
        ("load", "07:16"), ("mill", "08:00"), ("creek-mouth", "08:45"), ("unload", "10:49"),
    ] == where  # fmt: skip
    assert THURSDAY + 10 * 60 + 49 + 18 == shift.end_min
    assert 25 + 11 + 14 == shift.driving_min
    assert ("tell Red: Base 10:49, home 11:07; left out: Fernbank",) == facts.notes
    assert clocks(running_plan().shifts[0])[:3] == clocks(shift)[:3]
    assert 15 == shift.trips[0].calls[2].after.boxes
    new = driven(facts)
    (out,) = (one for one in new.shifts if (one.day, one.truck) == (3, shift.truck))
    assert ["mill", "creek-mouth"] == [call.yard for call in out.trips[0].yards()]
    assert new.tally.not_off == 0  # somebody else goes there on another day


def test_called_home_between_two_places() -> None:
    """Six minutes out of Old Mill it turns round: there 8:46, at the base 25 min later."""
    facts = put_in("home Red", now="Thu 4 Mar 8:40")
    shift, where = red(facts)

    assert ("unload", "09:11") == where[-1]
    assert THURSDAY + 9 * 60 + 21 == shift.end_min
    driven(facts)


@pytest.mark.parametrize(("left", "unloads"), [("8:30", "09:15"), ("8:34", "09:11")])
def test_who_was_called_back_is_no_sooner_there_however_it_left(left: str, unloads: str) -> None:
    """Told on the phone at 8:40; that Old Mill was left at 8:30, ten minutes out, is told later."""
    line = f"left Old Mill {left}"
    first = put_in("home Red", now="Thu 4 Mar 8:40")
    after = put_in(line, now="Thu 4 Mar 8:45", plan=first.plan)

    assert red(put_in(line, "home Red", now="Thu 4 Mar 8:40"))[1] == red(after)[1]
    assert ("unload", unloads) == red(after)[1][-1]
    driven(after)


def test_called_home_before_the_first_stop_it_drives_there_for_nothing() -> None:
    """A trip has a stop: the first one is reckoned as reached, nothing is done there."""
    facts = put_in("home Red", now="Thu 4 Mar 7:50")
    shift, where = red(facts)

    assert [("load", "07:16"), ("mill", "08:00"), ("unload", "08:25")] == where
    assert () == shift.trips[0].calls[1].actions
    assert () == facts.presumed
    driven(facts)


@pytest.mark.parametrize("line", ["home Red", "skip Fernbank"])
def test_what_an_earlier_count_left_nothing_of_is_called_home_as_well(line: str) -> None:
    """Nothing came off on Thursday, so there is nothing to feed on Friday: nothing comes back."""
    now, plan = "Fri 5 Mar 7:40", feeds_fernbank_on_friday()
    counted = put_in("done 0304-truck2-0716 Fernbank: nothing", now=now, plan=plan).plan
    told = put_in(line, now=now, plan=counted).plan.shifts[1].trips[0]

    assert [] == [action for call in told.yards() for action in call.actions]


def test_a_stop_to_come_that_counts_leave_nothing_of_is_pointed_out() -> None:
    """Nothing came off on Thursday; Friday's truck has syrup aboard for it: its driver is rung."""
    lines, plan = ("done 0304-truck2-0716 Fernbank: nothing",), feeds_fernbank_on_friday()
    stop = ("0305-truck2-0715", "fernbank")
    what = "by the counts nothing is to be done at Fernbank"

    out = put_in(*lines, now="Fri 5 Mar 7:40", plan=plan)
    assert f"Red is out, and {what}: 'home truck2' calls it home" == out.notes[-1]
    assert stop not in out.presumed
    home = put_in(*lines, "home Red", now="Fri 5 Mar 7:40", plan=plan)
    assert not [note for note in home.notes if what in note]

    begun = put_in(*lines, now="Fri 5 Mar 8:10", plan=plan)
    assert begun.notes[-1].startswith(f"Red is at work until 12:22, and {what}: ring the driver")
    assert stop in begun.presumed
    counted = put_in(*lines, f"done {stop[0]} Fernbank: nothing", now="Fri 5 Mar 8:10", plan=plan)
    later = put_in(now="Fri 5 Mar 8:20", plan=counted.plan)
    assert not [note for note in (*counted.notes, *later.notes) if what in note]


def test_called_home_while_unloading_changes_nothing() -> None:
    """There is no later trip to call off."""
    facts = put_in("home Red", now="Thu 4 Mar 12:45")

    assert running_plan().shifts == facts.plan.shifts
    assert ("tell Red: home 13:04",) == facts.notes


def test_a_stop_is_left_out() -> None:
    """Old Mill straight to Fernbank: 8:34 and 15 min; 110 min there, 10 to the base, 18 there."""
    facts = put_in("skip Creek Mouth", now="Thu 4 Mar 8:10")
    shift, where = red(facts)

    assert [("fernbank", "08:49"), ("unload", "10:49")] == where[2:]
    assert THURSDAY + 11 * 60 + 7 == shift.end_min
    assert ("0304-truck2-0716", "fernbank") in facts.presumed
    assert ("0304-truck2-0716", "creek-mouth") not in facts.presumed
    driven(facts)


def test_strips_are_left_out_as_the_paper_says() -> None:
    """Ten colonies at 60 s, by one; the strips stay aboard and go in another time."""
    facts = put_in("skip strips Fernbank", now=AFTER_CREEK)
    (before, _), (shift, _) = red(put_in(now=AFTER_CREEK)), red(facts)
    was, now = (one.trips[0].calls[3] for one in (before, shift))

    assert [one for one in was.actions if one.job is not Job.STRIPS] == [*now.actions]
    assert (10, 10) == (was.end_min - now.end_min, before.end_min - shift.end_min)
    assert {"strips amitraz": 20} == unused(facts.outfit, shift.trips[0])
    new = driven(facts)
    later = [one.colonies for s in new.shifts for t in s.trips for call in t.yards()
             if call.yard == "fernbank" and call.start_min > facts.now_min
             for one in call.actions if one.job is Job.STRIPS]  # fmt: skip
    assert [10] == later


def test_syrup_is_left_out_where_no_colonies_come_off() -> None:
    """Ten at 120 s are 20 minutes, and 85 L come home; with colonies off they would have none."""
    plan, now = feeds_fernbank_on_friday(), "Fri 5 Mar 7:30"
    before, facts = (
        put_in(*lines, now=now, plan=plan)
        for lines in ((), ("skip the syrup round 1 at Fernbank",))
    )
    trips = [one.plan.shifts[1].trips[0] for one in (before, facts)]
    was, left = (one.end_min - one.start_min for trip in trips for one in trip.yards())

    assert 20 == was - left
    assert {SYRUP: 85_000} == unused(facts.outfit, trips[1])
    assert "Fernbank: without syrup; all else there as planned" in facts.notes
    driven(facts)
    assert "the round of syrup that is planned at Fernbank: 1" in refusal(
        "skip syrup round 7 at Fernbank", now=now, plan=plan
    )
    assert "syrup only where no colonies come off" in refusal(
        "skip syrup Fernbank", now=AFTER_CREEK
    )


def test_a_stop_without_another_job_is_left_out_whole() -> None:
    """Old Mill has boards put on, and nothing else."""
    now = "Thu 4 Mar 7:40"
    whole, job = (put_in(f"skip {what}Old Mill", now=now) for what in ("", "boards at "))

    assert (whole.plan.shifts, whole.notes) == (job.plan.shifts, job.notes)
    assert "told as its count" in refusal("skip boards Creek Mouth", now=AT_FERNBANK)


def test_a_stop_left_out_leaves_time_in_hand() -> None:
    """The stop after it is reached sooner, and may be left as late as before, or later than told.

    A latest time that is the planned one has the driver ring home for a minute.
    """
    shift, _ = red(put_in("skip Creek Mouth", now="Thu 4 Mar 8:10"))
    (fernbank,) = [call for call in shift.trips[0].calls if call.yard == "fernbank"]
    before = {call.yard: call for one in running_plan().shifts if one.day == 3
              for trip in one.trips for call in trip.calls}["fernbank"]  # fmt: skip

    assert fernbank.leave_min + 15 < fernbank.latest_leave_min <= before.latest_leave_min


@pytest.mark.parametrize("line", ["skip Creek Mouth", "next Red: Fernbank"])
def test_honey_alone_keeps_the_hours_of_the_honey_house(line: str) -> None:
    """The store beside it shuts at 10:30, before the truck is back; nothing is for the store."""
    plan = running_plan()
    outfit = replace(plan.outfit, feed_store=replace(plan.outfit.feed_store, closes_min=630))

    facts = put_in(line, now="Thu 4 Mar 8:10", plan=replace(plan, outfit=outfit))

    assert clocks(red(facts)[0])[-1][0] > THURSDAY + 630
    driven(facts)


@pytest.mark.parametrize("line", ["skip Creek Mouth", "next Red: Fernbank"])
def test_brood_boxes_keep_the_hours_of_the_store(line: str) -> None:
    """Fernbank's come off in brood boxes as well: those are for the store, shut by then."""
    plan = running_plan()
    shift = plan.shifts[0]
    (trip,) = shift.trips
    calls = tuple(
        replace(call, actions=tuple(
            replace(one, brood_boxes=5) if one.job is Job.TAKE_OFF else one for one in call.actions
        )) for call in trip.calls
    )  # fmt: skip
    told = replace(shift, trips=(replace(trip, calls=calls),))
    outfit = replace(plan.outfit, feed_store=replace(plan.outfit.feed_store, closes_min=630))
    shut = replace(plan, outfit=outfit, shifts=(told, *plan.shifts[1:]))

    assert "the unloading place within its hours" in refusal(line, now="Thu 4 Mar 8:10", plan=shut)


def test_another_order_with_the_break_it_then_needs() -> None:
    """Turned round at 8:38 it leaves Old Mill 8:42; Fernbank 8:57 to 10:47, Creek Mouth 10:51.

    Done there 12:41, at the base 12:55; out since 7:16, so at 13:16 30 min of break are due, with
    4 of the 25 min of unloading left.
    """
    facts = put_in("next Red: Fernbank", now="Thu 4 Mar 8:38")
    shift, where = red(facts)

    assert [("fernbank", "08:57"), ("creek-mouth", "10:51"), ("unload", "12:55")] == where[2:]
    assert (Span(THURSDAY + 796, THURSDAY + 826),) == shift.breaks
    assert THURSDAY + 830 == shift.end_min
    driven(facts)
    same = put_in("next Red: Creek Mouth, Fernbank", now="Thu 4 Mar 8:38")
    assert clocks(running_plan().shifts[0]) == clocks(same.plan.shifts[0])


def at_slow_hours(slow: dict[int, int], plan: Plan | None = None) -> Plan:
    """The plan, its drives taking so many per mille longer in some hours."""
    base = plan or running_plan()
    by_hour = tuple(slow.get(hour, 1000) for hour in range(24))
    travel = replace(base.outfit.travel, by_hour=by_hour)
    return replace(base, outfit=replace(base.outfit, travel=travel))


def test_no_line_makes_a_day_drive_longer_than_it_may() -> None:
    """Called home in an hour that takes six times as long; the planned day is all it may drive."""
    slow = at_slow_hours({9: 6000})
    planned = next(one.driving_min for one in slow.shifts if one.day == 3)
    hours = replace(slow.outfit.hours, driving_max_min=planned)
    tired = replace(slow, outfit=replace(slow.outfit, hours=hours))

    said = refusal("home Red", now="Thu 4 Mar 8:40", plan=tired)
    assert f"a day with at most {planned} min of driving" in said
    assert put_in("home Red", now="Thu 4 Mar 8:40", plan=slow).notes


@pytest.mark.parametrize("line", ["home Red", "skip Old Mill, Creek Mouth, Fernbank"])
def test_a_first_stop_left_out_does_nothing_even_where_it_was_counted(line: str) -> None:
    """The truck turns round at Old Mill; counts of that stop go with it, as those of others do."""
    counts = "done 0304-truck2-0716 Old Mill: 12 boards"
    facts = put_in(counts, line, now="Thu 4 Mar 7:20")
    shift, _ = red(facts)

    assert () == shift.trips[0].calls[1].actions
    assert put_in(line, now="Thu 4 Mar 7:20").plan.shifts == facts.plan.shifts
    driven(facts)


def test_called_home_in_a_busy_hour() -> None:
    """From 9 to 10 drives take twice as long, which none of the planned ones lies in.

    Back at Old Mill at 8:46; 14 of the 25 min to the base until 9:00, the other 11 take 22.
    Driven are 25 + 11 + 25 + 11 min.
    """
    plan = at_slow_hours({9: 2000})
    facts = put_in("home Red", now="Thu 4 Mar 8:40", plan=plan)
    shift, where = red(facts)

    assert ("unload", "09:22") == where[-1]
    assert ("tell Red: Base 09:22, home 09:32; left out: Creek Mouth, Fernbank",) == facts.notes
    assert 25 + 25 + 11 == shift.driving_min
    driven(facts)


def test_turned_round_in_a_busy_hour_it_takes_as_long_back() -> None:
    """Gone since 8:56: 4 min, then 8 at half the pace, so 8 of the 11 min; back they take 16."""
    calls = "shifts.0.trips.0.calls"
    late = {f"{calls}.1.{key}_min": THURSDAY + 536 for key in ("end", "leave")}
    late |= {f"{calls}.2.{key}_min": THURSDAY + 554 for key in ("arrive", "start")}
    plan = at_slow_hours({9: 2000}, edited(running_plan(), late))
    shift, where = red(put_in("home Red", now="Thu 4 Mar 9:08", plan=plan))

    assert THURSDAY + 9 * 60 + 24 == shift.trips[0].calls[1].leave_min
    # At half the pace 18 of the 25 min until 10:00.
    assert ("unload", "10:07") == where[-1]


def test_a_stop_left_out_and_another_order_in_a_busy_hour() -> None:
    """Old Mill 8:34 straight to Fernbank, 15 min; from 10 to 11 the 10 to the base take 15."""
    plan = at_slow_hours({10: 1500})
    facts = put_in("skip Creek Mouth", now="Thu 4 Mar 8:10", plan=plan)

    assert [("fernbank", "08:49"), ("unload", "10:54")] == red(facts)[1][2:]
    assert not [one for one in audit(facts.plan) if one.rule in {"clock", "driving figures"}]


def test_a_break_before_a_leg_that_comes_into_a_busy_hour() -> None:
    """66 min of driving ask for the break above, to 13:11; from 13 to 14 the 14 min take 28.

    Of those the truck drives 4 min towards Creek Mouth, and 4 back.
    """
    plan = at_slow_hours({13: 2000})
    hours = replace(plan.outfit.hours, drive_break_after_min=65, drive_break_min=30)
    plan = replace(plan, outfit=replace(plan.outfit, hours=hours))
    shift, where = red(put_in("next Red: Fernbank", now="Thu 4 Mar 8:38", plan=plan))

    assert (Span(THURSDAY + 761, THURSDAY + 791),) == shift.breaks
    assert ("unload", "13:39") == where[-1]


def test_a_break_lies_where_the_day_is_soonest_over() -> None:
    """Off at 12:41, it is at the base at 12:55, before drives take twice as long at 13.

    There 21 of the 25 min of unloading are done at 13:16, six hours after 7:16; 30 min of break,
    4 of work: 13:50.  With the break before the drive it is 12:41 + 30 + 28 + 25 min, 14:04.
    """
    plan = at_slow_hours({13: 2000})
    shift, where = red(put_in("next Red: Fernbank", now="Thu 4 Mar 8:38", plan=plan))

    assert (Span(THURSDAY + 796, THURSDAY + 826),) == shift.breaks
    assert ("unload", "12:55") == where[-1]
    assert THURSDAY + 13 * 60 + 50 == shift.end_min


def test_a_break_that_has_to_be_longer_for_the_busy_hour_after_it() -> None:
    """66 min of driving ask for 15 min of break at 12:41; at 12:56 the 14 min take 4 + 10 x 4.

    On duty since 7:16 that are 325 + 44 + 25 min, too many without the longer break.  From 13:11
    the 49 min until 14:00 do 12.25 of the drive, and 1.75 are left.
    """
    plan = at_slow_hours({13: 4000})
    hours = replace(
        plan.outfit.hours, drive_break_after_min=65, drive_break_min=15,
        duty_break_after_min=380, duty_break_min=30,
    )  # fmt: skip
    plan = replace(plan, outfit=replace(plan.outfit, hours=hours))
    shift, where = red(put_in("next Red: Fernbank", now="Thu 4 Mar 8:38", plan=plan))

    assert (Span(THURSDAY + 761, THURSDAY + 791),) == shift.breaks
    assert ("unload", "14:02") == where[-1]


def with_limits(plan: Plan, **limits: int) -> Plan:
    """The plan with other limits on the working day."""
    return edited(plan, {f"outfit.hours.{name}": minutes for name, minutes in limits.items()})


def rests(shift: Shift) -> list[tuple[int, int]]:
    """Its breaks, in minutes of Thursday."""
    return [(one.start_min - THURSDAY, one.end_min - THURSDAY) for one in shift.breaks]


def test_a_break_from_driving_that_is_too_short_for_one_from_duty_is_duty() -> None:
    """25 + 11 min of driving ask for 15 min at 8:34; Creek Mouth is then 104 min from 7:16."""
    plan = with_limits(running_plan(), drive_break_after_min=35, drive_break_min=15,
                       duty_break_after_min=100, duty_break_min=30)  # fmt: skip
    facts = put_in("skip Fernbank", now="Thu 4 Mar 8:34", plan=plan)
    shift, where = red(facts)

    assert (514, 544) == rests(shift)[0]
    assert ("creek-mouth", "09:15") == where[2]
    driven(facts)


def test_a_drive_too_long_in_a_slow_hour_waits_until_it_is_not() -> None:
    """Left at 8:39, after 5 min of break, the 25 min take 39; at 8:45 they take 15 + 20."""
    slow = at_slow_hours({8: 3000})
    plan = with_limits(slow, drive_break_after_min=35, drive_break_min=5)
    facts = put_in("home Red", now="Thu 4 Mar 8:34", plan=plan)
    shift, where = red(facts)

    assert [(514, 525)] == rests(shift)
    assert ("unload", "09:20") == where[-1]
    driven(facts)


def test_a_drive_that_is_too_long_at_any_hour_is_refused() -> None:
    """From Old Mill to the base it is 25 min."""
    line, now = "home Red", "Thu 4 Mar 8:34"

    said = refusal(line, now=now, plan=with_limits(running_plan(), drive_break_after_min=24))
    assert "a drive of at most 24 min without a break, not 25. Keep a stop" in said
    assert put_in(line, now=now, plan=with_limits(running_plan(), drive_break_after_min=25)).notes


@pytest.mark.parametrize(
    ("most", "breaks"), [(40, [(529, 549)]), (60, [(534, 554)]), (69, [(534, 554)]), (70, [])]
)
def test_the_way_out_and_back_of_a_truck_called_back_is_driving(
    most: int, breaks: list[tuple[int, int]]
) -> None:
    """At 8:44 it has driven 25 + 10 min, 10 back to Old Mill make 45, 25 to the base 70."""
    plan = with_limits(running_plan(), drive_break_after_min=most, drive_break_min=20)
    facts = put_in("home Red", now="Thu 4 Mar 8:44", plan=plan)
    shift, where = red(facts)

    assert breaks == rests(shift)
    assert ("unload", "09:39" if breaks else "09:19") == where[-1]
    driven(facts)


@pytest.mark.parametrize("now", ["8:44", "8:50", "8:54"])
def test_what_it_drove_for_nothing_counts_for_lines_told_later(now: str) -> None:
    """Called home as above, once it had been told at 8:44 to leave Creek Mouth out.

    Of 10 + 10 min nothing was known any more: it drove the 70 with no break.
    """
    plan = with_limits(running_plan(), drive_break_after_min=69, drive_break_min=20)
    first = put_in("skip Creek Mouth", now="Thu 4 Mar 8:44", plan=plan)
    facts = put_in("home Red", now=f"Thu 4 Mar {now}", plan=first.plan)
    shift, where = red(facts)

    assert [(534, 554)] == rests(shift)
    assert ("unload", "09:39") == where[-1]
    driven(facts)


def test_a_break_ends_where_a_truck_is_called_back() -> None:
    """Resting at Creek Mouth from 8:45 to 9:15 it is called home at 9:10: 25 min are too few.

    Two hours after 7:16 it rests on its way back to Old Mill, 5 min before it is there.
    """
    day = "shifts.0"
    waits = {f"{day}.trips.0.calls.2.start_min": THURSDAY + 555,
             f"{day}.breaks": (Span(THURSDAY + 525, THURSDAY + 555),)}  # fmt: skip
    plan = with_limits(edited(running_plan(), waits), duty_break_after_min=120)
    shift, where = red(put_in("home Red", now="Thu 4 Mar 9:10", plan=plan))

    assert [(525, 550), (556, 586)] == rests(shift)
    assert ("unload", "10:16") == where[-1]


@pytest.mark.parametrize(
    ("now", "rests", "home"), [("8:34", 514, 697), ("8:35", 591, 715), ("8:44", 591, 715)]
)
def test_no_break_is_put_where_the_truck_drove(now: str, rests: int, home: int) -> None:
    """155 min of duty at most, from 7:16; until 9:00 drives take three times as long.

    With 30 min of rest at Old Mill from 8:34 it is at Creek Mouth at 9:15.  Once it has left, it
    is there at 9:03 (8 2/3 of the 11 min until 9:00) and rests from 9:51; it had been told to have
    rested while it drove.  110 min there, 14 to the base, 18 there.
    """
    plan = at_slow_hours({8: 3000})
    hours = replace(plan.outfit.hours, duty_break_after_min=155)
    plan = replace(plan, outfit=replace(plan.outfit, hours=hours))
    shift, _ = red(put_in("skip Fernbank", now=f"Thu 4 Mar {now}", plan=plan))

    assert (Span(THURSDAY + rests, THURSDAY + rests + 30),) == shift.breaks
    assert THURSDAY + home == shift.end_min


@pytest.mark.parametrize(("loads", "reached"), [(790, 790), (791, 790), (792, 792)])
def test_a_wait_before_a_drive_in_a_busy_hour(loads: int, reached: int) -> None:
    """From 13 to 14 it takes twice as long: left at 12:55, Fernbank's 10 min end at 13:10.

    Left a minute later they end at 13:12; for a load at 13:11 it is there a minute before.
    """
    plan = at_slow_hours({13: 2000}, two_trips())
    shift = plan.shifts[0]
    trip, second = shift.trips
    arrive = {
        f"shifts.0.trips.1.calls.0.{key}_min": THURSDAY + loads for key in ("arrive", "start")
    }
    second = edited(plan, arrive).shifts[0].trips[1]
    waiting = waits(Rest(plan.outfit, shift, 0, 4, 0), trip.calls[:4], second)

    assert waiting is not None
    calls, after = waiting
    assert THURSDAY + (775 if reached == 790 else 776) == calls[-1].leave_min
    assert THURSDAY + reached == after.calls[0].arrive_min
    assert THURSDAY + loads == after.calls[0].start_min


@pytest.mark.parametrize(
    ("line", "now", "said"),
    [
        ("home Blue", "Thu 4 Mar 9:00", "a truck that is out with a trip loaded"),
        ("home Red", "Thu 4 Mar 14:00", "a truck that is out with a trip loaded"),
        ("home Ann", "Thu 4 Mar 9:00", "a truck that is out with a trip loaded"),
        ("skip Fernbank", "Thu 4 Mar 14:00", "a stop to come of a trip under way"),
        ("skip Old Mill", "Thu 4 Mar 9:00", "the name or id of a yard"),
        ("next Red: Old Mill", "Thu 4 Mar 9:00", "the name or id of a yard"),
    ],
)
def test_only_what_is_to_come_can_be_told(line: str, now: str, said: str) -> None:
    """Nobody out, a stop begun, no truck: each is refused in words."""
    assert said in refusal(line, now=now)


def test_an_order_that_does_not_fit_is_refused() -> None:
    """Fernbank opens at 16:00: Creek Mouth after it comes too late for 18:00."""
    lines = ("shut Fernbank Thu before 16:00", "next Red: Fernbank")

    assert "Creek Mouth within its hours; the truck is there at 17:54" in refusal(
        *lines, now="Thu 4 Mar 8:10"
    )


def test_a_load_too_heavy_is_refused() -> None:
    """What is not used up stays aboard: with it one yard's honey may be too much."""
    plan = edited(running_plan(), {"shifts.0.trips.0.calls.3.after.load_max_g": 300_000})

    assert "a load within all limits, not 64 kg too much aboard after Fernbank" in refusal(
        "skip Creek Mouth", now="Thu 4 Mar 8:10", plan=plan
    )


def test_a_day_too_long_is_refused() -> None:
    """The working day ends at 13:00: there is no time for the way round."""
    plan = running_plan()
    hours = replace(plan.outfit.hours, end_min=13 * 60)
    plan = replace(plan, outfit=replace(plan.outfit, hours=hours))

    assert "a day that ends by 13:00" in refusal("next Red: Fernbank", now="Thu 4 Mar 8:38",
                                                 plan=plan)  # fmt: skip


def test_a_shut_stop_to_come_is_pointed_out_with_the_line_to_type() -> None:
    """Shut until 10:40: the other order fits; shut all day: leave it out; all shut: home."""
    now = "Thu 4 Mar 8:10"
    head = "Red is out, and hours are shut at Creek Mouth: "

    (order,) = put_in("shut Creek Mouth Thu before 10:40", now=now).notes
    assert head + "'next truck2: Fernbank, Creek Mouth' fits" == order
    (skip,) = put_in("shut Creek Mouth Thu", now=now).notes
    assert head + "'skip Creek Mouth' fits" == skip
    home, at_work = put_in("shut all Thu", now=now).notes
    assert home.endswith("at Creek Mouth, Fernbank: 'home truck2' calls it home")
    assert at_work.startswith("Red is at work until 08:34, and hours are shut at Old Mill")
    told = put_in("shut Creek Mouth Thu before 10:40", order.split("'")[1], now=now)
    assert all("hours are shut" not in note for note in told.notes)
    (storm,) = put_in("unsettled Creek Mouth Thu from 20:00", now=now).notes
    assert "hours are shut at Creek Mouth" in storm


def two_trips() -> Plan:
    """Red's Thursday with a second trip: it loads at 13:30, feeds Old Mill, is back at 15:10."""
    plan = running_plan()
    first = plan.shifts[0].trips[0]

    def timed(call: Call, start: int, end: int) -> Call:
        times = {"arrive_min": start, "start_min": start, "end_min": end, "leave_min": end}
        return replace(call, **times, latest_leave_min=THURSDAY + 1_300, actions=())  # type: ignore[arg-type]

    load, mill, unload = (first.calls[n] for n in (0, 1, 4))
    calls = (
        timed(load, THURSDAY + 790, THURSDAY + 800),
        timed(mill, THURSDAY + 825, THURSDAY + 835),
        timed(unload, THURSDAY + 860, THURSDAY + 870),
    )
    second = replace(first, id="second", calls=calls)
    gap = replace(first.calls[-1], end_min=THURSDAY + 790, leave_min=THURSDAY + 790)
    first = replace(first, calls=(*first.calls[:-1], gap))
    shift = replace(plan.shifts[0], trips=(first, second), end_min=THURSDAY + 870,
                    breaks=(Span(THURSDAY + 840, THURSDAY + 850),))  # fmt: skip
    return replace(plan, shifts=(shift, *plan.shifts[1:]))


def far_home(most_driving_min: int) -> Plan:
    """The crew lives 170 min from the base: out at 4:26, a break from 13:04 to 13:49, in at 16:39.

    Driven before that break: 170 + 25 + 11 + 4 + 10 = 220 min.
    """
    plan = running_plan()
    spots = ((0, 0), (10, 0), (14, 0), (20, 5), (-170, 0))
    hours = replace(
        plan.outfit.hours, start_min=240, duty_max_min=780, duty_break_after_min=600,
        drive_break_after_min=most_driving_min,
    )  # fmt: skip
    outfit = replace(
        plan.outfit,
        travel=flat_travel(spots),
        places=(*plan.outfit.places, replace(plan.outfit.places[0], id="home", name="Home")),
        home=replace(plan.outfit.home, place=4),
        hours=hours,
    )
    shift, over = plan.shifts[0], THURSDAY + 829
    (trip,) = shift.trips
    last = replace(trip.calls[-1], leave_min=over, latest_leave_min=over)
    shift = replace(
        shift, start_min=shift.start_min - 170, end_min=over + 170,
        breaks=(Span(over - 45, over),), driving_min=390, metres=shift.metres + 340_000,
        trips=(replace(trip, calls=(*trip.calls[:-1], last)),),
    )  # fmt: skip
    return replace(plan, outfit=outfit, shifts=(shift,))


@pytest.mark.parametrize("line", ["home Red", "skip Fernbank"])
def test_a_break_before_the_way_home_moves_with_the_unloading(line: str) -> None:
    """Back at 10:49, 18 min to unload: the break from 11:07 to 11:52, home 170 min later.

    Driven before it: 170 + 25 + 11 + 14 = 220 min; with 170 more, over 270.
    """
    facts = put_in(line, now="Thu 4 Mar 9:00", plan=far_home(270))
    shift, _ = red(facts)

    assert (Span(THURSDAY + 667, THURSDAY + 712),) == shift.breaks
    assert (THURSDAY + 667, THURSDAY + 712) == clocks(shift)[-1][2:]
    assert THURSDAY + 712 + 170 == shift.end_min
    assert facts.notes[0].startswith("tell Red: Base 10:49, home 14:42")
    driven(facts)


def test_a_break_before_the_way_home_that_is_not_due_any_more_goes() -> None:
    """390 min may be driven here without one; the old break would lie in the drive home."""
    facts = put_in("home Red", now="Thu 4 Mar 9:00", plan=far_home(400))
    shift, _ = red(facts)

    assert () == shift.breaks
    assert THURSDAY + 667 + 170 == shift.end_min
    driven(facts)


def test_no_break_of_a_trip_called_off_stays_in_the_way_home() -> None:
    """The second trip had its break at 14:00; called off, the truck is unloaded at 13:04.

    What it drove until then, 220 min, and 170 more are over 270: a break of 45 min first.
    """
    both, far = two_trips().shifts[0], far_home(270)
    shift = replace(both, start_min=both.start_min - 170, end_min=both.end_min + 170)
    plan = replace(far, shifts=(shift,))
    shift, _ = red(put_in("skip Old Mill", now="Thu 4 Mar 9:00", plan=plan))

    assert (Span(THURSDAY + 784, THURSDAY + 829),) == shift.breaks
    assert THURSDAY + 829 + 170 == shift.end_min


def test_later_trips_wait_or_are_called_off() -> None:
    """Done sooner it waits at the base for its second load; called home it drives no more."""
    now = "Thu 4 Mar 8:10"
    skipped, _ = red(put_in("skip Fernbank", now=now, plan=two_trips()))
    home, _ = red(put_in("home Red", now=now, plan=two_trips()))

    assert clocks(two_trips().shifts[0])[-3:] == clocks(skipped)[-3:]
    assert THURSDAY + 790 == skipped.trips[0].calls[-1].leave_min
    assert THURSDAY + 870 == skipped.end_min
    assert (Span(THURSDAY + 840, THURSDAY + 850),) == skipped.breaks
    assert (1, ()) == (len(home.trips), home.breaks)
    late = ("shut Fernbank Thu before 11:30", "next Red: Creek Mouth")
    plan = edited(two_trips(), {"shifts.0.trips.1.calls.0.latest_leave_min": THURSDAY + 800})
    assert "a day that holds: the next trip loads at 13:10 and must leave by 13:20" in refusal(
        *late, now=now, plan=plan
    )


def test_a_later_trip_is_called_off_by_its_stop() -> None:
    """At 9:00 Old Mill is done; to skip it calls off the second trip.

    Until 13:10 the truck was to wait at the base, no way home; unloaded at 13:04 it is home.
    """
    now, both = "Thu 4 Mar 9:00", two_trips()
    facts = put_in("skip Old Mill", now=now, plan=both)
    shift, _ = red(facts)

    assert ["0304-truck2-0716"] == [trip.id for trip in shift.trips]
    assert clocks(running_plan().shifts[0]) == clocks(shift)
    assert THURSDAY + 784 == shift.end_min
    assert () == shift.breaks
    assert ("tell Red: Fernbank 10:39, Base 12:39, home 13:04; left out: Old Mill",) == facts.notes
    third = replace(both.shifts[0].trips[1], id="third", calls=tuple(
        replace(call, arrive_min=call.arrive_min + 80, start_min=call.start_min + 80,
                end_min=call.end_min + 80, leave_min=call.leave_min + 80,
                yard="fernbank" if call.yard else "", place=1 if call.yard else call.place)
        for call in both.shifts[0].trips[1].calls
    ))  # fmt: skip
    shifts = (replace(both.shifts[0], trips=(*both.shifts[0].trips, third)), *both.shifts[1:])
    shift, _ = red(put_in("skip Old Mill", now=now, plan=replace(both, shifts=shifts)))
    assert ["0304-truck2-0716", "third"] == [trip.id for trip in shift.trips]
    # The third trip loads at 14:30; waiting for that from 13:04 on is a break.
    assert (784, 870) == (shift.trips[1].calls[0].arrive_min - THURSDAY,
                          shift.trips[1].calls[0].start_min - THURSDAY)  # fmt: skip
    assert (Span(THURSDAY + 784, THURSDAY + 870),) == shift.breaks


@pytest.mark.parametrize(
    ("shut", "line"),
    [
        ("shut Creek Mouth Thu before 10:40", "next Red: Fernbank, Creek Mouth"),
        ("shut Creek Mouth Thu", "skip Creek Mouth"),
        ("shut all Thu", "home Red"),
    ],
)
def test_a_driver_who_is_rung_does_what_the_advice_says(shut: str, line: str) -> None:
    """Just what the line would have done; the note says whom to ring, the next what to say."""
    now = "Thu 4 Mar 8:10"
    rung = changed(running_plan(), typed_changes([shut], now), ring=True)
    told = put_in(shut, line, now=now)
    new = replan_season(rung.plan, rung.outfit, rung.now_min, rounds=1)

    assert (told.plan, told.outfit, told.presumed) == (rung.plan, rung.outfit, rung.presumed)
    assert ": ring the driver now (" in rung.notes[0]
    assert rung.notes[1].startswith("tell Red: ")
    assert not any("fits" in note or "calls it home" in note for note in rung.notes)
    assert () == audit(new, rung.plan)


def test_where_not_even_home_fits_the_day_stays_and_is_said() -> None:
    """No road home from Old Mill: nothing is put in, nothing lost."""
    plan = running_plan()
    house, mill = plan.outfit.honey_house.base.place, plan.outfit.yard("mill").place_on(3)
    store = plan.outfit.feed_store.place
    rows = [list(row) for row in plan.outfit.travel.minutes]
    rows[mill] = [None] * len(rows)
    assert mill not in {house, store}
    travel = replace(plan.outfit.travel, minutes=tuple(tuple(row) for row in rows))
    cut = replace(plan, outfit=replace(plan.outfit, travel=travel))
    facts = changed(cut, typed_changes(["shut all Thu"], "Thu 4 Mar 8:10"), ring=True)

    assert clocks(cut.shifts[0]) == clocks(facts.plan.shifts[0])
    assert "nothing fits (a way by road); ring the driver" in facts.notes[0]


def test_shut_hours_of_a_later_trip_are_pointed_out() -> None:
    """Old Mill is shut from 13:00: the second trip falls; Fernbank as well: both are named."""
    now = "Thu 4 Mar 9:00"
    boards = running_plan().shifts[0].trips[0].calls[1].actions
    plan = edited(two_trips(), {"shifts.0.trips.1.calls.1.actions": boards})

    (note,) = put_in("shut Old Mill Thu from 13:00", now=now, plan=plan).notes
    assert "Red is out, and hours are shut at Old Mill: 'skip Old Mill' calls that trip off" == note
    both = ("shut Old Mill Thu from 13:00", "shut Fernbank Thu")
    (note,) = put_in(*both, now=now, plan=plan).notes
    assert note.endswith("at Fernbank, Old Mill: 'home truck2' calls it home")
    three = ("shut Old Mill Thu from 13:00", "shut Creek Mouth Thu")
    (note,) = put_in(*three, now="Thu 4 Mar 8:10", plan=plan).notes
    assert note.endswith("'skip Creek Mouth' and 'skip Old Mill' fit")
    (note,) = put_in("shut Fernbank Thu", now=now, plan=plan).notes
    assert note.endswith("at Fernbank: 'skip Fernbank' fits")


def test_unloading_by_what_is_aboard() -> None:
    """Without honey it unloads at the feed store alone."""
    shift, _ = red(put_in("home Red", now="Thu 4 Mar 8:05"))
    calls = shift.trips[0].calls

    assert [CallKind.LOAD, CallKind.YARD, CallKind.UNLOAD] == [call.kind for call in calls]
    assert [Job.BOARDS] == [action.job for action in calls[1].actions]
    assert 10 == calls[-1].end_min - calls[-1].start_min


def to_two_yards() -> Plan:
    """The second trip takes honey off at Fernbank, then at Creek Mouth; the first at neither.

    It loads at 13:10, is at Fernbank from 13:45 to 13:55, at Creek Mouth from 14:00 to 14:10 and
    brings 30 boxes at 14:30.
    """
    plan = two_trips()
    first, second = plan.shifts[0].trips
    load, mill, unload = second.calls
    creek, fern = first.calls[2:4]

    def off(call: Call, start: int, like: Call) -> Call:
        day = THURSDAY + start
        return replace(
            mill, place=like.place, yard=like.yard, actions=like.actions, arrive_min=day,
            start_min=day, end_min=day + 10, leave_min=day + 10,
            after=replace(call.after, boxes=15 if call is fern else 30),
        )  # fmt: skip

    late = replace(unload, arrive_min=THURSDAY + 870, start_min=THURSDAY + 870,
                   end_min=THURSDAY + 880, leave_min=THURSDAY + 880)  # fmt: skip
    calls = (load, off(fern, 825, fern), off(creek, 840, creek), late)
    first = replace(first, calls=(first.calls[0], first.calls[1], first.calls[4]))
    shift = replace(plan.shifts[0], trips=(first, replace(second, calls=calls)),
                    end_min=THURSDAY + 880)  # fmt: skip
    return replace(plan, shifts=(shift, *plan.shifts[1:]))


def test_one_line_calls_a_trip_off_and_a_second_skip_of_it_does_no_harm() -> None:
    """Both its yards are shut: one line is advised, both may be typed, ringing does it."""
    now, shut = "Thu 4 Mar 9:00", "shut Fernbank, Creek Mouth Thu from 13:00: rain"
    both = ("skip Fernbank", "skip Creek Mouth")
    plan = to_two_yards()

    (note,) = put_in(shut, now=now, plan=plan).notes
    assert note.endswith("shut at Fernbank, Creek Mouth: 'skip Fernbank' calls that trip off")
    one = put_in(shut, both[0], now=now, plan=plan)
    assert one.plan == put_in(shut, *both, now=now, plan=plan).plan
    assert one.plan == put_in(shut, "skip Creek Mouth, Fernbank", now=now, plan=plan).plan
    rung = changed(plan, typed_changes([shut], now), ring=True)
    assert one.plan == rung.plan
    assert ["0304-truck2-0716"] == [trip.id for trip in red(rung)[0].trips]


def test_two_later_trips_have_a_line_each() -> None:
    """A second trip to Fernbank and Creek Mouth, a third to Creek Mouth: by Fernbank the second.

    The line for the third names Creek Mouth, where the second no longer goes.
    """
    plan = to_two_yards()
    second = plan.shifts[0].trips[1]
    third = replace(second, id="third", calls=tuple(
        replace(call, arrive_min=call.arrive_min + 90, start_min=call.start_min + 90,
                end_min=call.end_min + 90, leave_min=call.leave_min + 90)
        for call in second.calls if call.yard != "fernbank"
    ))  # fmt: skip
    shift = replace(plan.shifts[0], trips=(*plan.shifts[0].trips, third), end_min=THURSDAY + 970)
    plan = replace(plan, shifts=(shift, *plan.shifts[1:]))
    facts = put_in("shut coast Thu from 13:00", now="Thu 4 Mar 9:00", plan=plan)

    assert facts.notes[0].endswith("'skip Fernbank' and 'skip Creek Mouth' call those trips off")
    rung = changed(plan, typed_changes(["shut coast Thu from 13:00"], "Thu 4 Mar 9:00"), ring=True)
    assert ["0304-truck2-0716"] == [trip.id for trip in red(rung)[0].trips]


def test_another_order_now_and_a_later_trip_called_off_are_advised_together() -> None:
    """The order that ends at 13:25 (above) fits, for the second trip loads at 14:40 here."""
    plan = two_trips()
    shift = plan.shifts[0]
    boards = shift.trips[0].calls[1].actions
    later = tuple(
        replace(call, arrive_min=call.arrive_min + 90, start_min=call.start_min + 90,
                end_min=call.end_min + 90, leave_min=call.leave_min + 90,
                actions=boards if call.yard else ())
        for call in shift.trips[1].calls
    )  # fmt: skip
    shift = replace(shift, trips=(shift.trips[0], replace(shift.trips[1], calls=later)),
                    end_min=THURSDAY + 960, breaks=())  # fmt: skip
    plan = replace(plan, shifts=(shift, *plan.shifts[1:]))
    shut, now = (
        ("shut Old Mill Thu from 13:00", "shut Creek Mouth Thu before 10:40"),
        at(THURSDAY + 490),
    )

    (note,) = put_in(*shut, now=now, plan=plan).notes
    assert note.endswith("'next truck2: Fernbank, Creek Mouth' and 'skip Old Mill' fit")
    rung = changed(plan, typed_changes(shut, now), ring=True)
    assert ["mill", "fernbank", "creek-mouth"] == [where for where, _ in red(rung)[1]][1:4]
    assert 1 == len(red(rung)[0].trips)


def test_two_stops_are_left_out_by_one_line() -> None:
    """Left out one by one the other would still be shut: one line does both, and ringing too."""
    now, shut = "Thu 4 Mar 7:20", "shut Old Mill, Creek Mouth Thu"

    (note,) = put_in(shut, now=now).notes
    assert note.endswith("at Old Mill, Creek Mouth: 'skip Old Mill, Creek Mouth' fits")
    facts = put_in(shut, "skip Old Mill, Creek Mouth", now=now)
    assert ["load", "fernbank", "unload"] == [where for where, _ in red(facts)[1]]
    assert facts.plan == changed(running_plan(), typed_changes([shut], now), ring=True).plan
    assert "Creek Mouth within its hours" in refusal(shut, "skip Old Mill", now=now)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("suspect Creek Mouth", "disease is suspected at Creek Mouth"),
        ("standstill Creek Mouth", "a standstill holds at Creek Mouth"),
        ("standstill Creek Mouth, feed agreed", "a standstill holds at Creek Mouth"),
    ],
)
def test_disease_told_while_the_truck_is_out(line: str, said: str) -> None:
    """No other order helps: the stop is to be left out, and who is rung leaves it out."""
    now = "Thu 4 Mar 8:10"
    rung = changed(running_plan(), typed_changes([line], now), ring=True)

    (note,) = put_in(line, now=now).notes
    assert f"Red is out, and {said}: 'skip Creek Mouth' fits" == note
    assert f"Red is out, and {said}: ring the driver now (skip Creek Mouth)" == rung.notes[0]
    assert put_in("skip Creek Mouth", now=now).plan == rung.plan
    driven(rung)
    assert () == put_in(line, "skip Creek Mouth", now=now).notes[1:]


def test_disease_beside_shut_hours() -> None:
    """Each reason is said once; both stops are to be left out, and then all are: home."""
    now = "Thu 4 Mar 8:10"
    (note,) = put_in("suspect Creek Mouth", "shut Fernbank Thu before 10:40", now=now).notes

    assert (
        "Red is out, and disease is suspected at Creek Mouth, hours are shut at Fernbank: "
        "'home truck2' calls it home"
    ) == note


def test_a_suspect_yard_of_a_later_trip() -> None:
    """Before its trip has loaded it is called off; that is done for whoever is rung."""
    now, plan = "Thu 4 Mar 9:00", to_two_yards()
    facts = put_in("suspect Creek Mouth", now=now, plan=plan)
    rung = changed(plan, typed_changes(["suspect Creek Mouth"], now), ring=True)

    assert facts.notes[0].endswith("'skip Creek Mouth' calls that trip off")
    assert 2 == len(red(facts)[0].trips)
    assert 1 == len(red(rung)[0].trips)


def test_syrup_that_is_agreed_goes_to_a_yard_at_a_standstill() -> None:
    """A later trip feeds Old Mill, its honey off before: that may be where it is agreed."""
    now = "Thu 4 Mar 11:00"
    feed = (Action(Job.FEED, 24, 1, ml=204_000),)
    plan = edited(two_trips(), {"shifts.0.trips.1.calls.1.actions": feed})
    yards = tuple(replace(one, boxes=0) for one in plan.outfit.yards)
    ready = replace(plan.outfit.feed, ready_ml=500_000)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards, feed=ready))

    agreed = put_in("standstill Old Mill, feed agreed", now=now, plan=plan).notes
    told = "Red is out, and time lacks to wash down at Old Mill: once it has loaded, at 13:10, "
    assert (told + "type 'next truck2: Old Mill'",) == agreed
    assert 1 == len(put_in("standstill Old Mill", now=now, plan=plan).notes)


def ends_at_creek_mouth() -> Plan:
    """The plan, Fernbank left out of Red's Thursday."""
    return put_in("skip Fernbank", now="Thu 4 Mar 8:10").plan


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("shut Creek Mouth Thu from 10:00: thunder", "hours are shut at Creek Mouth"),
        ("suspect Creek Mouth", "disease is suspected at Creek Mouth"),
    ],
)
def test_what_stands_against_the_stop_under_way_is_said(line: str, said: str) -> None:
    """It works at Creek Mouth from 8:45 to 10:35: nothing can be left out, so it is counted."""
    now, plan = "Thu 4 Mar 9:00", ends_at_creek_mouth()
    note = (
        f"Red is at work until 10:35, and {said}: ring the driver, and count what was done "
        "('done 0304-truck2-0716 Creek Mouth: ...')"
    )

    assert (note,) == put_in(line, now=now, plan=plan).notes
    assert (note,) == changed(plan, typed_changes([line], now), ring=True).notes
    assert note in put_in(line, now=now).notes
    told = put_in(line, "done 0304-truck2-0716 Creek Mouth: 5 colonies 8 boxes", now=now).notes
    assert note not in told
    assert () == put_in("shut Creek Mouth Thu before 9:00", now=now).notes
    assert () == put_in("shut Creek Mouth Thu from 10:35", now=now).notes


@pytest.mark.parametrize(
    ("line", "who"),
    [
        ("truck Red out Thu", "it is out of use today"),
        ("{driver} off Thu", "{driver} is away today"),
        ("trailer Box out Thu", "Box trailer is out of use today"),
    ],
)
def test_who_is_away_today_and_out_all_the_same_is_said(line: str, who: str) -> None:
    """At work at Creek Mouth, then Fernbank: both are presumed done unless another line says so."""
    now, plan = "Thu 4 Mar 9:00", edited(running_plan(), {"shifts.0.trailer": "t"})
    driver = next(p.name for p in plan.outfit.people if p.id == plan.shifts[0].crew[0])
    line, who = line.format(driver=driver), who.format(driver=driver)
    done = "'done 0304-truck2-0716 Creek Mouth: nothing'"

    assert (
        (
            f"Red is out, but {who}: presumed done as planned are Creek Mouth, Fernbank, unless "
            f"you type 'home truck2' or 'skip Fernbank' or {done}"
        ),
    ) == put_in(line, now=now, plan=plan).notes
    home = put_in(line, "home Red", now=now, plan=plan).notes
    assert home[-1].endswith(f"presumed done as planned are Creek Mouth, unless you type {done}")
    counts = "done 0304-truck2-0716 Creek Mouth: nothing"
    assert not any(who in n for n in put_in(line, "home Red", counts, now=now, plan=plan).notes)
    assert not any(who in note for note in put_in(line, now="Thu 4 Mar 6:00", plan=plan).notes)


def test_before_it_has_loaded_the_driver_is_rung_and_the_lines_come_later() -> None:
    """Red left home at 7:00 and loads at 7:16: what is to be left out can be typed from then."""
    plan = edited(running_plan(), {"shifts.0.start_min": THURSDAY + 420})
    now, line = "Thu 4 Mar 7:05", "suspect Creek Mouth"

    assert (
        (
            "Red is out, and disease is suspected at Creek Mouth: ring the driver; once it has "
            "loaded, at 07:16, type 'skip Creek Mouth'"
        ),
    ) == put_in(line, now=now, plan=plan).notes
    (away,) = put_in("truck Red out Thu", now=now, plan=plan).notes
    assert "Old Mill, Creek Mouth, Fernbank, unless you type 'done " in away
    assert () == put_in("shut mill Fri", now=now, plan=plan).notes


def test_a_full_honey_house_and_boxes_still_to_come() -> None:
    """At 9:00 15 boxes of Creek Mouth come off; Fernbank's may stay on, those cannot.

    With Fernbank left out it unloads at 10:49, by the hand-worked call home above.
    """
    now, line = "Thu 4 Mar 9:00", "honey house full Thu"
    facts = put_in(line, now=now)

    assert (
        (
            "Red is out, and the honey house is full when boxes come in from Fernbank: "
            "'home truck2' calls it home"
        ),
        (
            "Red brings 15 boxes at 12:39, off already, and the honey house is full then: find "
            "them a place"
        ),
    ) == facts.notes
    rung = changed(running_plan(), typed_changes([line], now), ring=True)
    assert ("unload", "10:49") == red(rung)[1][-1]
    assert "Red brings 15 boxes at 10:49" in rung.notes[-1]
    assert () == put_in("honey house full Thu from 14:00", now=now).notes


def test_a_honey_house_that_spins_nothing_more_today() -> None:
    """30 boxes come in at 12:39 and wait; what is not off yet may stay on."""
    line = "honey house stopped Thu from 13:30"

    (note,) = put_in(line, now="Thu 4 Mar 9:00").notes
    assert (
        "Red brings 30 boxes at 12:39, which wait in the honey house while nothing is spun; "
        "'skip Fernbank' leaves them on"
    ) == note
    (note,) = put_in(line, now="Thu 4 Mar 12:30").notes
    assert note.endswith("while nothing is spun")
    assert () == put_in("honey house stopped Thu before 12:00", now="Thu 4 Mar 9:00").notes


@pytest.mark.parametrize("told", ["skip Old Mill", "home Red"])
def test_a_truck_that_unloads_nothing_by_its_counts_may_be_told_more(told: str) -> None:
    """It stands at the honey house, apart, from 12:39, with nothing aboard for it."""
    both = two_trips()
    last = len(both.shifts[0].trips[0].calls) - 1
    house = both.outfit.yard("mill").sites[0][1]
    place = f"shifts.0.trips.0.calls.{last}.place"
    plan = edited(both, {"outfit.honey_house.base.place": house, place: house})
    lines = "done Creek Mouth: nothing", "done Fernbank: nothing", told

    assert "left out: Old Mill" in put_in(*lines, now="Thu 4 Mar 12:50", plan=plan).notes[-1]


def test_what_is_left_out_by_several_lines_is_named_once() -> None:
    """Old Mill is on two later trips, each left out by a line."""
    both = two_trips()
    second = both.shifts[0].trips[1]
    times = ("arrive_min", "start_min", "end_min", "leave_min", "latest_leave_min")
    calls = tuple(
        replace(call, **{name: getattr(call, name) + 80 for name in times}) for call in second.calls
    )
    trips = (*both.shifts[0].trips, replace(second, id="third", calls=calls))
    plan = replace(both, shifts=(replace(both.shifts[0], trips=trips), *both.shifts[1:]))
    lines = "skip Fernbank, Old Mill", "skip Old Mill"

    note = put_in(*lines, now="Thu 4 Mar 8:40", plan=plan).notes[-1]
    assert note.endswith("left out: Fernbank, Old Mill")


def test_a_count_put_right_keeps_what_its_driver_must_be_told() -> None:
    """Done at 9:30 the truck goes on to Fernbank an hour sooner, by either count."""
    now, line = "Thu 4 Mar 9:30", "done Creek Mouth: {} colonies, {} boxes"
    lines = (line.format(8, 16), line.format(9, 18))

    for facts in (put_in(lines[1], now=now), put_in(*lines, now=now)):
        (told,) = (note for note in facts.notes if note.startswith("tell Red"))
        assert "Fernbank 09:34" in told


AFTER_CREEK = "Thu 4 Mar 10:37"
"""Creek Mouth is done at 10:35, Fernbank begins at 10:39."""


def counted(boxes: int) -> str:
    """The line that counts Creek Mouth with so many boxes."""
    return f"done 0304-truck2-0716 Creek Mouth: 10 colonies {boxes} boxes"


def test_more_boxes_than_the_truck_bears_after_the_next_stop_are_said() -> None:
    """15 boxes planned of 16 kg leave 490.5 of 1,185 kg: 43 more are 1,178.5, 44 are too much.

    The driver who is rung goes home with what is aboard.
    """
    assert () == put_in(counted(58), now=AFTER_CREEK).notes
    (note,) = put_in(counted(59), now=AFTER_CREEK).notes
    assert (
        "Red is out, and its load does not hold (10 kg too much aboard after Fernbank): "
        "'home truck2' calls it home; or fewer boxes come off at Fernbank: its paper, printed "
        "again, says when to stop"
    ) == note
    facts = put_in(counted(59), now=AFTER_CREEK)
    assert [(), (), (), (Against.LOAD,), ()] == [
        call.against for call in red(facts)[0].trips[0].calls
    ]
    driven(facts)
    rung = changed(running_plan(), typed_changes([counted(59)], AFTER_CREEK), ring=True)
    assert ["mill", "creek-mouth"] == [call.yard for call in red(rung)[0].trips[0].yards()]
    driven(rung)


def test_what_is_too_much_aboard_already_can_only_be_said() -> None:
    """Creek Mouth's 70 boxes, 55 more than planned: 363.5 + 880 kg, 58.5 too much on the road."""
    assert (
        "Red is out, and its load does not hold (59 kg too much aboard after Creek Mouth): ring "
        "the driver"
    ) == put_in(counted(70), now=AFTER_CREEK).notes[-1]


def test_deck_places_and_limits_are_as_the_counts_make_them() -> None:
    """15 and 15 boxes are six of 5 places; 26 and 15 are 41: nine.  The limit of 73 stays."""
    *_, fernbank, _ = red(put_in(counted(26), now=AFTER_CREEK))[0].trips[0].calls

    assert (41, 16, 30) == (
        fernbank.after.boxes, fernbank.after.places, fernbank.after.places_max,
    )  # fmt: skip
    assert 73 == fernbank.boxes_limit
    *_, over, _ = red(put_in(counted(80), now=AFTER_CREEK))[0].trips[0].calls
    assert (95, 80) == (over.after.boxes, over.boxes_limit)


def test_more_than_the_truck_bears_is_not_to_be_loaded() -> None:
    """After 59 boxes at Creek Mouth the 15 of Fernbank are one of 16 kg too many.

    So honey stays on, and its 85 L of syrup (112.795 kg) and strips stay aboard: 1,067 kg on
    coming and seven boxes are 1,179 of 1,185, stop at 66.  The audit says so of 74, and of
    fewer than the 59 that are there on coming.
    """
    facts = put_in(counted(59), now=AFTER_CREEK)
    new, (shift, _) = driven(facts), red(facts)
    (trip,) = shift.trips
    fernbank = trip.calls[3]

    assert (74, 66) == (fernbank.after.boxes, fernbank.boxes_limit)
    at = next(i for i, one in enumerate(new.shifts) if one.trips and one.trips[0].id == trip.id)
    for limit, said in ((74, ["boxes limit"]), (59, []), (58, ["boxes limit"])):
        spoilt = edited(new, {f"shifts.{at}.trips.0.calls.3.boxes_limit": limit})
        assert said == [finding.rule for finding in audit(spoilt)]
    warning = "ore planned than the truck bears: not all can come off"
    phone, sheet = phone_text(new, shift.day), manifest(new, shift, trip)
    assert "max 66 full aboard\n" in phone
    assert f"! m{warning}, no syrup, no strips" in phone
    step = next(one for one in sheet.steps if one.stop_at == "66")
    assert step.sooner == (
        "More is planned than the truck bears: not all can come off. So no syrup, no strips, and "
        "the rest stays on."
    )
    as_it_was = phone_text(driven(put_in(counted(58), now=AFTER_CREEK)), shift.day)
    assert warning not in as_it_was


def test_boxes_that_a_later_stop_may_leave_on_come_off_before_it() -> None:
    """Leaving Creek Mouth 363.5 kg, with Fernbank's syrup: at 410.5 two boxes of 16 kg more.

    At 300 Creek Mouth's own syrup stays aboard as well: 236.5 kg and three boxes, then none.
    """
    facts = put_in(now="Thu 4 Mar 8:20")
    shift, _ = red(facts)

    def limits(most_g: int) -> list[int]:
        trucks = tuple(
            replace(one, max_g=one.max_g - 1_185_000 + most_g) for one in facts.outfit.trucks
        )
        outfit = replace(facts.outfit, trucks=trucks)
        return boxes_limits(outfit, shift, shift.trips[0], 2)[:2]

    assert [15, 17] == limits(410_500)
    assert [3, 3] == limits(300_000)


def test_a_stop_is_told_by_what_stops_before_it_may_be_left_with() -> None:
    """Boxes of 80 kg: 1,323.5 kg on leaving Creek Mouth, 138.5 too much.

    With the syrup and strips of both stops still aboard, 236.5 kg, eleven are 1,116.5 of 1,185,
    and none more fit at Fernbank.  The audit sees 14 and 15 as too many even with the syrup
    poured, and 10 as fewer than those that are aboard.
    """
    plan = running_plan()
    heavy = tuple(replace(one, box_g=80_000) for one in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=heavy))
    facts = put_in(now="Thu 4 Mar 8:20", plan=plan)
    new, (shift, _) = driven(facts), red(facts)

    assert [(15, 11), (30, 11)] == [
        (call.after.boxes, call.boxes_limit) for call in shift.trips[0].calls[2:4]
    ]
    day = new.shifts.index(next(one for one in new.shifts if (one.day, one.truck) == (3, "truck2")))
    for call, limit in ((2, 14), (3, 15), (3, 10)):
        spoilt = edited(new, {f"shifts.{day}.trips.0.calls.{call}.boxes_limit": limit})
        assert "boxes limit" in {finding.rule for finding in audit(spoilt)}


def test_a_stop_whose_boxes_all_fit_is_not_told_that_not_all_can_come_off() -> None:
    """Nine of Creek Mouth's 15 boxes stay on, Fernbank's 6 fit.  Once all 15 are off, none do.

    While the crew is at work there its number still counts.
    """
    plan = running_plan()
    calls = plan.shifts[0].trips[0].calls
    assert [15, 15] == [call.boxes() for call in calls[2:4]]
    trip = replace(
        plan.shifts[0].trips[0],
        calls=(
            *calls[:2],
            replace(calls[2], boxes_limit=6),
            replace(calls[3], actions=(replace(calls[3].actions[0], boxes=6),), boxes_limit=12),
            calls[4],
        ),
    )
    for now in (calls[2].start_min - 1, calls[2].end_min - 1):
        assert [True, False] == [trip.takes_too_many(call, now) for call in trip.calls[2:4]]
    assert [False, True] == [
        trip.takes_too_many(call, calls[2].end_min) for call in trip.calls[2:4]
    ]


AT_FERNBANK = "Thu 4 Mar 11:00"


def test_the_stop_at_work_is_told_when_to_stop_by_the_count_of_the_one_before() -> None:
    """As for a stop to come: 66, with 59 aboard on coming; once over its number stays as it was.

    The 15 planned would be 10 kg too much, which is said with the number.
    """
    facts = put_in(counted(59), now=AT_FERNBANK)
    new, (shift, _) = driven(facts), red(facts)
    (trip,) = shift.trips

    assert (
        "Red is out, and its load does not hold (10 kg too much aboard after Fernbank): ring the "
        "driver; at Fernbank no more than 66 full boxes aboard: the rest stays on"
    ) == facts.notes[-1]
    assert (66, (Against.LOAD,)) == (trip.calls[3].boxes_limit, trip.calls[3].against)
    phone, sheet = phone_text(new, shift.day), manifest(new, shift, trip)
    assert "max 66 full aboard\n! more planned than the truck bears" in phone
    assert any(one.stop_at == "66" and "not all can come off" in one.sooner for one in sheet.steps)
    at = next(i for i, one in enumerate(new.shifts) if one.trips and one.trips[0].id == trip.id)
    for limit, said in ((74, ["boxes limit"]), (59, []), (58, ["boxes limit"])):
        spoilt = edited(new, {f"shifts.{at}.trips.0.calls.3.boxes_limit": limit})
        assert said == [finding.rule for finding in audit(spoilt)]
    over = red(put_in(counted(59), now="Thu 4 Mar 12:30"))[0].trips[0].calls[3]
    assert 73 == over.boxes_limit


def test_a_stop_left_by_a_truck_called_back_is_not_at_work() -> None:
    """Turned round on the road to Fernbank at 10:37, it could be back at Creek Mouth at 10:39."""
    facts = put_in("skip Fernbank", now="Thu 4 Mar 10:37")
    creek = red(facts)[0].trips[0].calls[2]

    assert facts.now_min < creek.end_min
    assert not creek.still_on(facts.now_min)
    driven(facts)


def test_the_stop_at_work_leaves_room_for_what_was_not_used_up_before() -> None:
    """As for a stop to come: 66, where the paper in the cab says 73."""
    facts = put_in(NOT_FED, now=AT_FERNBANK)
    assert 66 == red(facts)[0].trips[0].calls[3].boxes_limit
    driven(facts)


NOT_FED = "done 0304-truck2-0716 Creek Mouth: 10 colonies 15 boxes 0 fed"
"""85 L at 1.327 kg/L stay aboard, 112.795 kg."""


def test_boxes_to_stop_at_leave_room_for_what_is_not_used_up() -> None:
    """490.5 + 112.795 kg leave 581.705 of 1,185 kg: 36 boxes of 16 kg more than 30, not 43."""
    facts = put_in(NOT_FED, now=AFTER_CREEK)
    new, trip = driven(facts), red(facts)[0].trips[0]

    assert (66, 112_795) == (trip.calls[3].boxes_limit, trip.unused_g())
    day = next(
        at for at, shift in enumerate(new.shifts) if shift.trips and shift.trips[0].id == trip.id
    )
    spoilt = edited(new, {f"shifts.{day}.trips.0.calls.3.boxes_limit": 67})
    assert ["boxes limit"] == [finding.rule for finding in audit(spoilt)]
    driven_so = trip_as_driven(new.outfit, trip)
    assert 603_295 == driven_so.calls[3].after.load_g
    assert 85_000 == driven_so.calls[3].after.ml
    assert driven_so == trip_as_driven(new.outfit, driven_so)


def test_boxes_to_stop_at_are_as_planned_once_a_count_is_put_right() -> None:
    """66 with Creek Mouth's syrup aboard, and 73 as printed first when that went in after all.

    They had stayed at 66. That it is another number than planned the audit wants to be so.
    """
    new = plan_from_text(plan_text(driven(put_in(NOT_FED, now=AFTER_CREEK))))
    slip = next(t for s in new.shifts for t in s.trips if t.id == "0304-truck2-0716").calls[3]
    facts = put_in("done 0304-truck2-0716 Creek Mouth: 10 colonies 15 boxes", plan=new)
    fernbank = red(facts)[0].trips[0].calls[3]

    assert [(66, 73), (73, None)] == [
        (call.boxes_limit, call.limit_was) for call in (slip, fernbank)
    ]
    driven(facts)


@pytest.mark.parametrize("line", ["skip Creek Mouth", "home Red"])
def test_goods_of_a_stop_left_out_stay_aboard_in_later_plans(line: str) -> None:
    """272.49 kg left; with none for Creek Mouth it would have been 112.995 less.

    250.5 kg on leaving Fernbank and those are 363.495: 51 boxes more than its 15, as if fed.
    """
    new = plan_from_text(plan_text(driven(put_in(line, now="Thu 4 Mar 8:20"))))
    again = put_in(now="Thu 4 Mar 8:30", plan=new)
    shift, trip = next(
        (one, trip) for one in again.plan.shifts for trip in one.trips
        if trip.id == "0304-truck2-0716"
    )  # fmt: skip

    left = loaded(again.outfit, shift, trip)
    assert 272_490 == left.load_g
    assert left == trip_as_driven(again.outfit, trip).calls[0].after
    assert (170_000, 40) == (left.ml, left.strips)
    assert {66} >= {call.boxes_limit for call in trip.yards() if call.yard == "fernbank"}


def test_a_trip_that_is_over_keeps_what_it_left_with() -> None:
    """Only in the evening it is told that neither yard got anything: it had 170 L and 40 strips.

    Its paper says what was aboard from call to call, and tells nobody to leave a can empty.
    """
    stops = [f"done 0304-truck2-0716 {yard}: nothing" for yard in ("Creek Mouth", "Fernbank")]
    new = driven(put_in(*stops, now="Thu 4 Mar 18:00"))
    again = put_in(stops[0], now="Thu 4 Mar 18:30", plan=plan_from_text(plan_text(new)))
    shift, trip = next(
        (one, trip) for one in again.plan.shifts for trip in one.trips
        if trip.id == "0304-truck2-0716"
    )  # fmt: skip

    out = trip_as_driven(again.outfit, trip)
    assert trip.left is not None
    assert (272_490, 40) == (trip.left.load_g, trip.left.strips)
    assert [170_000] * 4 == [call.after.ml for call in out.calls[:4]]
    assert not [one.what for one in manifest(again.plan, shift, trip).goods if "empty" in one.what]


def test_a_trip_with_nothing_left_out_is_written_as_ever() -> None:
    """The load it left with is what its calls come to, and is not written down."""
    assert '"left"' not in plan_text(put_in(now="Thu 4 Mar 8:20").plan)
    assert '"left"' in plan_text(put_in("skip Creek Mouth", now="Thu 4 Mar 8:20").plan)


def test_a_deck_too_full_is_said() -> None:
    """The deck has room for twelve columns: seven cans and six columns are one too many."""
    plan = running_plan()
    trucks = tuple(
        replace(one, deck=replace(one.deck, length_mm=2 * 508, width_mm=6 * 413))
        if one.name == "Red" else one for one in plan.outfit.trucks
    )  # fmt: skip
    plan = replace(plan, outfit=replace(plan.outfit, trucks=trucks))

    assert (
        (
            "Red is out, and its load does not hold (1 deck place too many taken after Fernbank): "
            "'home truck2' calls it home; or fewer boxes come off at Fernbank: its paper, printed "
            "again, says when to stop"
        ),
    ) == put_in(now=AFTER_CREEK, plan=plan).notes


def test_a_watched_yard_ahead_is_to_come_last() -> None:
    """Creek Mouth is heard to be watched, Fernbank after it is sound: the other order fits."""
    now, line = "Thu 4 Mar 8:10", "watch Creek Mouth"
    facts = put_in(line, now=now)
    rung = changed(running_plan(), typed_changes([line], now), ring=True)

    assert (
        (
            "Red is out, and yards that are not sound come before others: Creek Mouth: "
            "'next truck2: Fernbank, Creek Mouth' fits"
        ),
    ) == facts.notes
    driven(facts)
    driven(rung)
    assert ["mill", "fernbank", "creek-mouth"] == [
        call.yard for call in red(rung)[0].trips[0].yards()
    ]
    assert () == put_in("watch Fernbank", now=now).notes


def test_no_order_puts_a_yard_that_is_not_sound_before_others() -> None:
    """The line is refused as one for a load too heavy is."""
    assert "Creek Mouth last, for it is not sound" in refusal(
        "watch Creek Mouth", "next Red: Creek Mouth, Fernbank", now="Thu 4 Mar 8:10"
    )


def test_sound_yards_behind_are_left_out_where_no_order_fits() -> None:
    """Both are only fed.  Fernbank lets 2.5 t in: 2,315 kg and 123.5, but not Creek Mouth's 113.

    So neither can Creek Mouth come after it, nor be left out.
    """
    calls = "shifts.0.trips.0.calls"
    fed = [(one for one in call.actions if one.job is not Job.TAKE_OFF)
           for call in running_plan().shifts[0].trips[0].calls[2:4]]  # fmt: skip
    plan = edited(running_plan(), {
        f"{calls}.2.actions": tuple(fed[0]), f"{calls}.3.actions": tuple(fed[1]),
        "outfit.yards.0.access": Access(max_vehicle_g=2_500_000),
    })  # fmt: skip

    (note,) = put_in("watch Creek Mouth", now="Thu 4 Mar 8:10", plan=plan).notes
    assert "come before others: Creek Mouth: 'skip Fernbank' fits" in note
    assert "52 kg too much for the way into Fernbank" in refusal(
        "skip Creek Mouth", now="Thu 4 Mar 8:10", plan=plan
    )


@pytest.mark.parametrize("line", ["suspect", "standstill", "watch"])
@pytest.mark.parametrize("now", ["8:50", "10:36"])
def test_a_truck_that_has_been_where_it_is_not_sound_goes_to_no_other_yard(
    line: str, now: str
) -> None:
    """At work at Creek Mouth, or just left: Fernbank is to be left out, and ringing does that."""
    line, now = f"{line} Creek Mouth", f"Thu 4 Mar {now}"
    facts = put_in(line, now=now)
    rung = changed(running_plan(), typed_changes([line], now), ring=True)

    what = "Red is out, and from Creek Mouth (not sound) it goes on to Fernbank"
    assert f"{what}: 'home truck2' calls it home" == facts.notes[0]
    assert f"{what}: ring the driver now (home truck2)" == rung.notes[0]
    assert [(), (Against.BEHIND,), ()] == [one.against for one in red(facts)[0].trips[0].calls[2:]]
    assert ["mill", "creek-mouth"] == [call.yard for call in red(rung)[0].trips[0].yards()]
    driven(facts)
    driven(rung)
    assert not [one for one in put_in(line, "home Red", now=now).notes if "not sound" in one]


def test_a_later_trip_may_go_on_from_the_base() -> None:
    """Old Mill, which is left, is watched: both yards behind fall, the second trip does not."""
    now, plan = "Thu 4 Mar 8:40", two_trips()
    (note,) = put_in("watch Old Mill", now=now, plan=plan).notes

    assert note.endswith("goes on to Creek Mouth, Fernbank: 'skip Creek Mouth, Fernbank' fits")
    rung = changed(plan, typed_changes(["watch Old Mill"], now), ring=True)
    assert ["mill"] == [call.yard for call in red(rung)[0].trips[0].yards()]
    assert 2 == len(red(rung)[0].trips)


def test_a_watched_yard_in_two_parts_is_no_other_yard() -> None:
    """The second part of the stop may follow; what comes after that may not."""
    calls = "shifts.0.trips.0.calls"
    place = running_plan().shifts[0].trips[0].calls[1].place
    both = edited(running_plan(), {
        f"{calls}.2.yard": "mill", f"{calls}.2.place": place, f"{calls}.2.actions": (),
    })  # fmt: skip
    facts = put_in("watch Old Mill", now="Thu 4 Mar 8:10", plan=both)

    assert [(), (Against.BEHIND,)] == [one.against for one in red(facts)[0].trips[0].calls[2:4]]


def test_a_last_yard_in_two_parts_may_come_to_be_watched() -> None:
    """Creek Mouth is served by two calls on end, and no other yard follows."""
    calls = "shifts.0.trips.0.calls"
    plan = running_plan()
    both = edited(plan, {
        f"{calls}.3.yard": "creek-mouth", f"{calls}.3.actions": (),
        f"{calls}.3.place": plan.shifts[0].trips[0].calls[2].place,
    })  # fmt: skip
    facts = put_in("watch Creek Mouth", now="Thu 4 Mar 8:10", plan=both)

    assert not [one for one in facts.notes if "not sound" in one]
    assert [()] * 3 == [one.against for one in red(facts)[0].trips[0].yards()]


def test_a_stop_in_two_parts_is_said_once_to_be_left_out() -> None:
    """Fernbank's two calls go with one line."""
    calls = running_plan().shifts[0].trips[0].calls
    again = replace(calls[3], actions=(), planned=())
    both = edited(running_plan(), {"shifts.0.trips.0.calls": (*calls[:4], again, *calls[4:])})

    notes = put_in("home Red", now="Thu 4 Mar 9:00", plan=both).notes
    assert ("tell Red: Base 10:49, home 11:07; left out: Fernbank",) == notes


def test_a_later_trip_goes_in_another_order_once_it_has_loaded() -> None:
    """Nobody calls the trip off: its driver goes to the sound yard first."""
    plan = to_two_yards()
    first = plan.shifts[0].trips[1].yards()[0]
    (note,) = put_in(f"watch {first.yard}", now="Thu 4 Mar 9:00", plan=plan).notes[-1:]

    assert "yards that are not sound come before others" in note
    assert "once it has loaded, at " in note
    assert "type 'next truck2: " in note


def test_latest_times_come_forward_where_hours_have_shut() -> None:
    """Fernbank shuts at 12:35, planned until 12:29: six minutes are left, there and before it."""
    facts = put_in("shut Fernbank Thu from 12:35", now="Thu 4 Mar 8:10")
    *_, creek, fernbank, _ = red(facts)[0].trips[0].calls

    assert ("10:41", "12:35") == (clock(creek.latest_leave_min), clock(fernbank.latest_leave_min))
    driven(facts)
    at_work = put_in("shut Fernbank Thu from 12:35", now=AT_FERNBANK)
    assert "12:35" == clock(red(at_work)[0].trips[0].calls[3].latest_leave_min)
    driven(at_work)


def test_work_too_long_for_one_stretch_has_its_breaks_in_it() -> None:
    """100 min of duty at most: Fernbank's 110 min have breaks of 30 min, one before it is due."""
    plan = running_plan()
    hours = replace(plan.outfit.hours, duty_break_after_min=100)
    plan = replace(plan, outfit=replace(plan.outfit, hours=hours))
    shift, _ = red(put_in("next Red: Fernbank", now="Thu 4 Mar 8:10", plan=plan))
    fernbank = shift.trips[0].calls[2]

    # Out since 7:16 it may work until 8:56, then rests, and again after 100 min.
    rests = [Span(THURSDAY + 536, THURSDAY + 566), Span(THURSDAY + 666, THURSDAY + 696)]
    assert rests == [one for one in shift.breaks if one.start_min < fernbank.end_min]
    assert 110 + 60 == fernbank.end_min - fernbank.start_min


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


@pytest.mark.parametrize(
    ("told", "now", "leaves", "rest"),
    [
        ("14:05", 790, 870, (796, 841)),
        ("14:05", 800, 870, (796, 841)),
        ("13:47", 790, 828, (790, 835)),
        ("13:45", 790, 870, (795, 840)),
    ],
)
def test_a_break_that_is_too_short_by_longer_laws_is_made_longer(
    told: str, now: int, leaves: int, rest: tuple[int, int]
) -> None:
    """Thirty minutes were due at 13:16, or at 13:15 to be over by then; here 45 end the duty.

    A second break began inside the first, and the audit refused the day.
    """
    facts = put_in(f"left Creek Mouth {told}", now="Thu 4 Mar 10:40")
    plan = replace(facts.plan, outfit=facts.outfit)
    shift, _ = red(facts)
    laws = replace(plan.outfit.hours, duty_break_min=45)
    clockwork = Rest(plan.outfit, shift, 0, 3, THURSDAY + now, laws=laws)
    call = clockwork.over_at(THURSDAY + leaves, whole=False)

    assert [rest] == rests(replace(shift, breaks=tuple(clockwork.breaks)))
    assert max(leaves, rest[1]) == call.leave_min - THURSDAY


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


def test_so_late_that_the_next_load_waits() -> None:
    """The second trip was to load at 13:10: it is put off, called off, or the line is refused."""
    late, now = "left Fernbank 13:05", "Thu 4 Mar 11:00"
    put_off, _ = red(put_in(late, now=now, plan=two_trips()))
    plan = edited(two_trips(), {"shifts.0.trips.1.calls.0.latest_leave_min": THURSDAY + 800})

    # 10 min to the base, 25 there and a break of 30: at 14:10, all its calls as long as planned.
    assert [(850, 860), (885, 895), (920, 930)] == [
        (one.start_min - THURSDAY, one.end_min - THURSDAY) for one in put_off.trips[1].calls
    ]
    assert "the next trip loads at 13:10" in refusal(late, now=now, plan=plan)
    facts = put_in(late, "skip Old Mill", now=now, plan=two_trips())
    assert ["0304-truck2-0716"] == [trip.id for trip in red(facts)[0].trips]


@pytest.mark.parametrize(
    ("stop", "way"),
    [
        ("skip Fernbank", "Base 10:49, home 11:07"),
        ("skip strips Fernbank", "Fernbank 10:39, Base 12:29, home 12:54"),
        ("left Creek Mouth 10:45", "Fernbank 10:49, Base 12:49, home 13:14"),
    ],
)
def test_no_wait_stays_for_the_load_of_a_trip_called_off(stop: str, way: str) -> None:
    """In whichever order: all that is to come is told, and unloaded the truck is home."""
    for lines in permutations((stop, "skip Old Mill")):
        facts = put_in(*lines, now="Thu 4 Mar 9:00", plan=two_trips())
        assert any(str(note).startswith(f"tell Red: {way}; left out: ") for note in facts.notes)
        driven(facts)


@pytest.mark.parametrize("line", ["skip Old Mill", "home Red"])
def test_a_truck_that_waits_for_a_load_is_home_once_that_is_called_off(line: str) -> None:
    """Unloaded at 11:07, it was to wait until 13:10 at the base, no way home; at 11:30 it ends."""
    waiting = put_in("skip Fernbank", now="Thu 4 Mar 9:00", plan=two_trips()).plan
    facts = put_in(line, now="Thu 4 Mar 11:30", plan=waiting)
    at_work = put_in(line, now="Thu 4 Mar 11:00", plan=waiting)

    assert THURSDAY + 790 == waiting.shifts[0].trips[0].calls[-1].end_min
    assert ("tell Red: home 11:30; left out: Old Mill",) == facts.notes
    assert ("tell Red: home 11:07; left out: Old Mill",) == at_work.notes
    driven(facts)


@cache
def two_loads() -> Plan:
    """Two yards of 40 boxes for a truck of 2.9 t: on Monday two trips, the second at once.

    One is left at 8:37 and Two at 9:36; at home from 9:48, unloaded and loaded again at 10:04.
    The day may end at 18:35, 209 min after it does; so late both stops may be left.
    """
    yards = [
        replace(a_yard(number, colonies=20, boxes=40, days=3), name=name)
        for number, name in ((1, "One"), (2, "Two"))
    ]
    outfit = an_outfit([(10, 0), (-12, 0)], yards, days=3)
    truck = replace(outfit.trucks[0], max_g=2_900_000)
    return plan_season(replace(outfit, trucks=(truck,)), rounds=20, proof=False)


@pytest.mark.parametrize(
    ("line", "loads", "home"),
    [
        ("left Two 9:37", "10:05", "15:07"),
        ("left Two 11:00", "11:28", "16:30"),
        ("left Two 13:05", "13:33", "18:35"),
        ("left One 12:06", "13:33", "18:35"),
    ],
)
def test_later_trips_are_put_off_as_far_as_the_paper_says(line: str, loads: str, home: str) -> None:
    """The second trip loads as soon as the first is done; what follows is sound.

    The break stays where six hours of duty are over, at 13:35.
    """
    plan = two_loads()
    facts = put_in(line, now="Mon 1 Mar 9:40" if "Two" in line else "Mon 1 Mar 8:30", plan=plan)
    shift = facts.plan.shifts[0]
    latest = [[call.latest_leave_min for call in trip.calls] for trip in plan.shifts[0].trips]

    assert f"loads again {loads}, home {home}" in facts.notes[0]
    assert plan.shifts[0].breaks == shift.breaks
    assert (loads, home) == (clock(shift.trips[1].calls[0].start_min), clock(shift.end_min))
    assert all(
        call.leave_min <= call.latest_leave_min <= most
        for call, most in zip(shift.trips[1].calls, latest[1], strict=True)
    )
    driven(facts)


@pytest.mark.parametrize(("over", "short"), [(603, False), (604, False), (605, True)])
def test_syrup_that_is_being_mixed_is_there_once_that_is_over(over: int, *, short: bool) -> None:
    """The second trip loads at 10:04; mixing until a minute later it would leave without."""
    plan = edited(two_loads(), {"mixing.0.start_min": 560, "mixing.0.end_min": over})
    notes = put_in(now="Mon 1 Mar 9:40", plan=plan).notes

    assert short == any("170 L of syrup at 10:04, with only 0 in store" in one for one in notes)


def latest(plan: Plan) -> list[str]:
    """Latest times of a plan's first day."""
    return [clock(call.latest_leave_min) for trip in plan.shifts[0].trips for call in trip.calls]


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


@pytest.mark.parametrize(
    ("line", "latest"),
    [("left Two 13:06", "13:05"), ("left Two 15:00", "13:05"), ("left One 12:07", "12:06")],
)
def test_who_is_too_late_for_the_next_trip_is_told_how_late_would_do(
    line: str, latest: str
) -> None:
    """As late as the driver's paper has it, whatever was typed."""
    now = "Mon 1 Mar 9:40" if "Two" in line else "Mon 1 Mar 8:30"
    said = refusal(line, now=now, plan=two_loads())

    assert "the next trip loads at 10:04 and must leave by 14:22" in said
    assert f"Left by {latest} the day holds. Leave out more stops" in said


@pytest.mark.parametrize("line", ["left One 13:50", "done 0301-truck1-1004 One: 30 boxes"])
def test_a_break_that_has_begun_is_taken_whole(line: str) -> None:
    """From 13:35 to 14:05, six hours after 7:35; cut short at 13:50 the day broke its rules."""
    facts = put_in(line, now="Mon 1 Mar 13:50", plan=two_loads())
    shift = facts.plan.shifts[0]

    assert two_loads().shifts[0].breaks == shift.breaks
    assert 14 * 60 + 5 == shift.trips[1].calls[1].leave_min
    driven(facts)


@pytest.mark.parametrize("lines", [("left Two 11:00", "skip One"), ("skip One", "left Two 11:00")])
def test_a_trip_called_off_beside_a_late_one(lines: tuple[str, ...]) -> None:
    """In whichever order: unloaded at 11:28, it is home."""
    facts = put_in(*lines, now="Mon 1 Mar 9:40", plan=two_loads())

    assert 11 * 60 + 28 == facts.plan.shifts[0].end_min
    driven(facts)


@pytest.mark.parametrize(
    ("line", "now", "said"),
    [
        ("left Creek Mouth 8:45", "9:00", "a minute after it began"),
        ("left Fernbank 11:00", "9:00", "the last stop that a truck has begun"),
        ("left Old Mill 12:00", "20:00", "Once it is home"),
    ],
)
def test_only_a_stop_that_has_begun_is_left(line: str, now: str, said: str) -> None:
    """Not before it began, none to come, and none of a truck that is home."""
    assert said in refusal(line, now=f"Thu 4 Mar {now}")
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


@pytest.mark.parametrize("typed", ["skip Fernbank strips", "skip Fernbank: the strips"])
def test_a_job_behind_the_stop_is_never_taken_for_a_reason(typed: str) -> None:
    """The line to write leaves out the strips alone; the cure offered left out the whole stop."""
    with pytest.raises(ScenarioError) as caught:
        put_in(typed, now=AFTER_CREEK)
    (fault,) = caught.value.faults

    assert "Write 'skip strips Fernbank'." == fault.cure
    assert "fernbank" not in at_yards("skip Fernbank: strips ran out")


def at_yards(line: str) -> list[str]:
    """Where trucks go once ``line`` is told."""
    plan = put_in(line, now=AFTER_CREEK).plan
    thursday = (shift for shift in plan.shifts if shift.day == 3)
    return [call.yard for shift in thursday for trip in shift.trips for call in trip.yards()]
