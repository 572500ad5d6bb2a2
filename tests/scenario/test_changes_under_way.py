"""A truck under way: called home, a stop left out, another order; the driven part stays.

Red's Thursday: loads 7:16 to 7:35, Old Mill 8:00 to 8:34 (boards), Creek Mouth 8:45 to 10:35,
Fernbank 10:39 to 12:29, unloads 12:39 to 13:04, no way home.  Legs: base to Old Mill 25 min,
to Creek Mouth 14, to Fernbank 10; Old Mill to Creek Mouth 11, to Fernbank 15; between the
last two 4.
"""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, CallKind, Job, Shift
from runplanner.days import Span, clock
from runplanner.errors import ScenarioError
from runplanner.scenario.changes.typed import Changed, changed, typed_changes
from runplanner.season.replan_season import replan_season
from tests.audit.planted import edited
from tests.running import put_in, running_plan

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
    assert 0 == sum(
        action.colonies
        for call in new.shifts[0].trips[0].yards() if call.yard == "fernbank"
        for action in call.actions
    )  # fmt: skip
    assert new.tally.not_off == 0  # somebody else goes there on another day


def test_called_home_between_two_places() -> None:
    """Six minutes out of Old Mill it turns round: there 8:46, at the base 25 min later."""
    facts = put_in("home Red", now="Thu 4 Mar 8:40")
    shift, where = red(facts)

    assert ("unload", "09:11") == where[-1]
    assert THURSDAY + 9 * 60 + 21 == shift.end_min
    driven(facts)


def test_called_home_before_the_first_stop_it_drives_there_for_nothing() -> None:
    """A trip has a stop: the first one is reckoned as reached, nothing is done there."""
    facts = put_in("home Red", now="Thu 4 Mar 7:50")
    shift, where = red(facts)

    assert [("load", "07:16"), ("mill", "08:00"), ("unload", "08:25")] == where
    assert () == shift.trips[0].calls[1].actions
    assert () == facts.presumed
    driven(facts)


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


def test_another_order_with_the_break_it_then_needs() -> None:
    """Turned round at 8:38 it leaves Old Mill 8:42; Fernbank 8:57 to 10:47, Creek Mouth 10:51.

    Done there 12:41; out since 7:16, so 30 min of break come before the base: 13:11 + 14.
    """
    facts = put_in("next Red: Fernbank", now="Thu 4 Mar 8:38")
    shift, where = red(facts)

    assert [("fernbank", "08:57"), ("creek-mouth", "10:51"), ("unload", "13:25")] == where[2:]
    assert (Span(THURSDAY + 761, THURSDAY + 791),) == shift.breaks
    driven(facts)
    same = put_in("next Red: Creek Mouth, Fernbank", now="Thu 4 Mar 8:38")
    assert clocks(running_plan().shifts[0]) == clocks(same.plan.shifts[0])


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

    assert "at most 300 kg aboard, not" in refusal(
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
    (home,) = put_in("shut all Thu", now=now).notes
    assert home.endswith("at Creek Mouth, Fernbank: 'home truck2' calls it home")
    told = put_in("shut Creek Mouth Thu before 10:40", order.split("'")[1], now=now)
    assert all("hours are shut" not in note for note in told.notes)
    (storm,) = put_in("unsettled Creek Mouth Thu from 20:00", now=now).notes
    assert "hours are shut at Creek Mouth" in storm


def two_trips() -> Plan:
    """Red's Thursday with a second trip: it loads at 13:30, feeds Old Mill, is back at 15:10."""
    plan = running_plan()
    first = plan.shifts[0].trips[0]

    def at(call: Call, start: int, end: int) -> Call:
        times = {"arrive_min": start, "start_min": start, "end_min": end, "leave_min": end}
        return replace(call, **times, latest_leave_min=THURSDAY + 1_300, actions=())  # type: ignore[arg-type]

    load, mill, unload = (first.calls[n] for n in (0, 1, 4))
    calls = (
        at(load, THURSDAY + 790, THURSDAY + 800),
        at(mill, THURSDAY + 825, THURSDAY + 835),
        at(unload, THURSDAY + 860, THURSDAY + 870),
    )
    second = replace(first, id="second", calls=calls)
    gap = replace(first.calls[-1], end_min=THURSDAY + 790, leave_min=THURSDAY + 790)
    first = replace(first, calls=(*first.calls[:-1], gap))
    shift = replace(plan.shifts[0], trips=(first, second), end_min=THURSDAY + 870,
                    breaks=(Span(THURSDAY + 840, THURSDAY + 850),))  # fmt: skip
    return replace(plan, shifts=(shift, *plan.shifts[1:]))


def test_later_trips_wait_or_are_called_off() -> None:
    """Done sooner it waits at the base for its second load; called home it drives no more."""
    now = "Thu 4 Mar 8:10"
    skipped, _ = red(put_in("skip Fernbank", now=now, plan=two_trips()))
    home, _ = red(put_in("home Red", now=now, plan=two_trips()))

    assert two_trips().shifts[0].trips[1] == skipped.trips[1]
    assert THURSDAY + 790 == skipped.trips[0].calls[-1].leave_min
    assert THURSDAY + 870 == skipped.end_min
    assert (Span(THURSDAY + 840, THURSDAY + 850),) == skipped.breaks
    assert (1, ()) == (len(home.trips), home.breaks)
    late = ("shut Fernbank Thu before 11:30", "next Red: Creek Mouth")
    assert "a day that holds: the next trip loads at 13:10" in refusal(
        *late, now=now, plan=two_trips()
    )


def test_a_later_trip_is_called_off_by_its_stop() -> None:
    """At 9:00 Old Mill is done; to skip it calls off the second trip, home at 13:20 then.

    The truck has waited at the base, no way home, until 13:10, as it was to.
    """
    now, both = "Thu 4 Mar 9:00", two_trips()
    facts = put_in("skip Old Mill", now=now, plan=both)
    shift, _ = red(facts)

    assert ["0304-truck2-0716"] == [trip.id for trip in shift.trips]
    assert both.shifts[0].trips[0] == shift.trips[0]
    assert THURSDAY + 790 == shift.end_min
    assert () == shift.breaks
    assert ("tell Red: home 13:10; left out: Old Mill",) == facts.notes
    third = replace(both.shifts[0].trips[1], id="third", calls=tuple(
        replace(call, arrive_min=call.arrive_min + 80, start_min=call.start_min + 80,
                end_min=call.end_min + 80, leave_min=call.leave_min + 80,
                yard="fernbank" if call.yard else "", place=1 if call.yard else call.place)
        for call in both.shifts[0].trips[1].calls
    ))  # fmt: skip
    shifts = (replace(both.shifts[0], trips=(*both.shifts[0].trips, third)), *both.shifts[1:])
    shift, _ = red(put_in("skip Old Mill", now=now, plan=replace(both, shifts=shifts)))
    assert ["0304-truck2-0716", "third"] == [trip.id for trip in shift.trips]
    # The third trip loads at 13:10 + 80 min, so the truck leaves the first unloading then.
    assert THURSDAY + 870 == shift.trips[0].calls[-1].leave_min


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

    assert cut.shifts == facts.plan.shifts
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
    assert note.endswith("'skip Creek Mouth' and 'skip Old Mill' fits")
    (note,) = put_in("shut Fernbank Thu", now=now, plan=plan).notes
    assert note.endswith("at Fernbank: 'skip Fernbank' fits")


def test_unloading_by_what_is_aboard() -> None:
    """Without honey it unloads at the feed store alone."""
    shift, _ = red(put_in("home Red", now="Thu 4 Mar 8:05"))
    calls = shift.trips[0].calls

    assert [CallKind.LOAD, CallKind.YARD, CallKind.UNLOAD] == [call.kind for call in calls]
    assert [Job.BOARDS] == [action.job for action in calls[1].actions]
    assert 10 == calls[-1].end_min - calls[-1].start_min
