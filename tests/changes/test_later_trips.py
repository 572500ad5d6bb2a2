"""Later trips of a truck that is out: put off, called off, in another order."""

from dataclasses import replace
from itertools import permutations

import pytest

from runplanner.changes.typed import changed, typed_changes
from runplanner.daybook.trip import CallKind, Job
from runplanner.days import Span, clock
from tests.audit.planted import edited
from tests.changes.thursday import (
    THURSDAY,
    clocks,
    driven,
    red,
    refusal,
    to_two_yards,
    two_loads,
    two_trips,
)
from tests.running import put_in, running_plan


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


def test_unloading_by_what_is_aboard() -> None:
    """Without honey it unloads at the feed store alone."""
    shift, _ = red(put_in("home Red", now="Thu 4 Mar 8:05"))
    calls = shift.trips[0].calls

    assert [CallKind.LOAD, CallKind.YARD, CallKind.UNLOAD] == [call.kind for call in calls]
    assert [Job.BOARDS] == [action.job for action in calls[1].actions]
    assert 10 == calls[-1].end_min - calls[-1].start_min


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


def test_two_stops_are_left_out_by_one_line() -> None:
    """Left out one by one the other would still be shut: one line does both, and ringing too."""
    now, shut = "Thu 4 Mar 7:20", "shut Old Mill, Creek Mouth Thu"

    (note,) = put_in(shut, now=now).notes
    assert note.endswith("at Old Mill, Creek Mouth: 'skip Old Mill, Creek Mouth' fits")
    facts = put_in(shut, "skip Old Mill, Creek Mouth", now=now)
    assert ["load", "fernbank", "unload"] == [where for where, _ in red(facts)[1]]
    assert facts.plan == changed(running_plan(), typed_changes([shut], now), ring=True).plan
    assert "Creek Mouth within its hours" in refusal(shut, "skip Old Mill", now=now)


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


def test_a_later_trip_may_go_on_from_the_base() -> None:
    """Old Mill, which is left, is watched: both yards behind fall, the second trip does not."""
    now, plan = "Thu 4 Mar 8:40", two_trips()
    (note,) = put_in("watch Old Mill", now=now, plan=plan).notes

    assert note.endswith("goes on to Creek Mouth, Fernbank: 'skip Creek Mouth, Fernbank' fits")
    rung = changed(plan, typed_changes(["watch Old Mill"], now), ring=True)
    assert ["mill"] == [call.yard for call in red(rung)[0].trips[0].yards()]
    assert 2 == len(red(rung)[0].trips)


def test_a_later_trip_goes_in_another_order_once_it_has_loaded() -> None:
    """Nobody calls the trip off: its driver goes to the sound yard first."""
    plan = to_two_yards()
    first = plan.shifts[0].trips[1].yards()[0]
    (note,) = put_in(f"watch {first.yard}", now="Thu 4 Mar 9:00", plan=plan).notes[-1:]

    assert "yards that are not sound come before others" in note
    assert "once it has loaded, at " in note
    assert "type 'next Red: " in note


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


@pytest.mark.parametrize("lines", [("left Two 11:00", "skip One"), ("skip One", "left Two 11:00")])
def test_a_trip_called_off_beside_a_late_one(lines: tuple[str, ...]) -> None:
    """In whichever order: unloaded at 11:28, it is home."""
    facts = put_in(*lines, now="Mon 1 Mar 9:40", plan=two_loads())

    assert 11 * 60 + 28 == facts.plan.shifts[0].end_min
    driven(facts)
