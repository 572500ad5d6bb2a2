"""Breaks, waits and busy hours in the rest of a day that is told anew."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.road.clock import Rest
from runplanner.changes.road.later_trips import waits
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Shift
from runplanner.days import Span
from tests.audit.planted import edited
from tests.changes.thursday import THURSDAY, clocks, driven, red, refusal, two_trips
from tests.outfits import flat_travel
from tests.running import put_in, running_plan


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
