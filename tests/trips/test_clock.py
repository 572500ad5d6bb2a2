"""One day on one clock: waits, breaks, windows and limits, by hand and by property."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.days import DAY_MIN, NEVER, Span
from runplanner.haulage.day_clock import Step, Times
from runplanner.haulage.rush import Rush
from runplanner.outfit.people import Hours
from runplanner.trips.clock import Run, drive, run_day
from tests.outfits import an_outfit

HOURS = an_outfit().hours
"""6 to 20 o'clock, 11 h of duty; 45 min after 4.5 h of driving (Reg. 561/2006 as told by
fifthwheeltraining.co.uk), 30 min after 6 h of duty."""
LAX = replace(HOURS, drive_break_after_min=9_999, duty_break_after_min=9_999, driving_max_min=9_999)
"""The same without breaks, and with any driving."""
ANY = (Span(0, 2 * DAY_MIN),)
SIX = 360


def step(
    leg: int, work: int, *spans: tuple[int, int], end_from: int = 0, gone_by: int = NEVER
) -> Step:
    """A leg and work inside spans; at any hour when none are given."""
    return Step(leg, work, tuple(Span(*span) for span in spans) or ANY, end_from, gone_by)


def driven(steps: Sequence[Step], home: int = 0, hours: Hours = HOURS) -> Run:
    """The day begun at 6 o'clock, which must hold."""
    run = drive(steps, home, SIX, hours)
    assert run is not None
    return run


def planned(steps: Sequence[Step], home: int = 0, hours: Hours = HOURS) -> Run:
    """The day as it is planned, which must hold."""
    run = run_day(steps, home, 0, hours)
    assert run is not None
    return run


def spans(run: Run) -> list[tuple[int, int]]:
    """When each call begins and ends."""
    return [(times.start_min, times.end_min) for times in run.times]


def test_a_plain_day() -> None:
    """15 min loading, 20 min there, an hour's work, 20 min home."""
    run = driven([step(0, 15), step(20, 60)], 20)

    assert [(360, 375), (395, 455)] == spans(run)
    assert (360, 475, ()) == (run.start_min, run.end_min, run.breaks)
    # nothing shuts before two days are over
    assert Times(395, 395, 455, 455, 2 * DAY_MIN - 455) == run.times[1]


def test_the_first_span_that_holds_the_work() -> None:
    """At 6:20 the first of 30 min is too short for an hour, the next begins at 8."""
    run = driven([step(20, 60, (380, 410), (480, 600), (600, 900))])

    assert [(480, 540)] == spans(run)
    assert 60 == run.times[0].slack_min


def test_a_missed_window() -> None:
    """An hour's work cannot begin at 6:20 where the gate shuts at 7:19."""
    assert drive([step(20, 60, (300, 439))], 0, SIX, HOURS) is None
    assert drive([step(20, 60, (300, 440))], 0, SIX, HOURS) is not None


def test_work_may_not_end_too_soon() -> None:
    """Bees are unsettled until noon: an hour's work begins at 11."""
    assert [(660, 720)] == spans(driven([step(20, 60, end_from=720)]))
    # the window shuts before that
    assert drive([step(20, 60, (360, 700), end_from=720)], 0, SIX, HOURS) is None


# Breaks


def test_a_break_falls_inside_long_work() -> None:
    """20 min there, 400 min of work: after 340 of them six hours of duty are over."""
    run = driven([step(20, 400)])

    assert (Span(720, 750),) == run.breaks
    # 6:20 + 340 min = 12:00, break to 12:30, 60 min more
    assert [(380, 810)] == spans(run)


def test_two_breaks_inside_very_long_work() -> None:
    """721 min want a break after six hours and after twelve."""
    run = driven([step(0, 721)])

    assert (Span(720, 750), Span(1_110, 1_140)) == run.breaks
    # 720 min need one only
    assert (Span(720, 750),) == driven([step(0, 720)]).breaks


def test_the_break_must_fit_into_the_window() -> None:
    """400 min of work and a break of 30 end at 13:30, not where the gate shuts at 13:29."""
    assert drive([step(20, 400, (360, 809))], 0, SIX, HOURS) is None
    assert [(380, 810)] == spans(driven([step(20, 400, (360, 810))]))
    # it goes to the next window then, which itself begins after a break
    later = driven([step(20, 400, (360, 809), (830, 1_300))])
    assert [(830, 1_260)] == spans(later)


def test_a_break_before_a_leg_that_would_be_too_much_duty() -> None:
    """350 min of work and a leg of 20 are more than six hours: the rest comes first."""
    run = driven([step(0, 350)], 20)

    assert (Span(710, 740),) == run.breaks
    assert (710, 740) == (run.times[0].end_min, run.times[0].leave_min)
    assert 760 == run.end_min
    # 340 and 20 are just six hours
    assert () == driven([step(0, 340)], 20).breaks


def test_a_break_from_driving() -> None:
    """Three legs of 100 min: after 200 the next would be 300 > 270, so 45 min of rest."""
    run = driven([step(100, 5), step(100, 5), step(100, 5)])

    # 6:00 + 210 min = 9:30
    assert (Span(570, 615),) == run.breaks
    assert 615 == run.times[1].leave_min
    assert 715 == run.times[2].arrive_min


def test_a_break_before_the_way_home() -> None:
    """Two legs of 140 min."""
    assert (Span(505, 550),) == driven([step(140, 5)], 140).breaks
    # 135 + 135 are just 270
    assert () == driven([step(135, 5)], 135).breaks


def test_a_short_rest_from_driving_is_no_break_from_duty() -> None:
    """15 min after each 100 of driving: duty runs on through them, to six hours in all."""
    hours = replace(HOURS, drive_break_after_min=100, drive_break_min=15)
    run = driven([step(60, 200), step(60, 30)], hours=hours)

    # 6:00 + 260 = 10:20, 15 of rest, 60 of driving: 335 min of duty at 11:35; 25 of work
    assert (Span(620, 635), Span(720, 750)) == run.breaks
    assert (695, 755) == spans(run)[1]


def test_a_short_rest_is_drawn_out_where_duty_would_run_over() -> None:
    """290 min, 15 of rest and a leg of 60 would be 365: the rest is made 30."""
    hours = replace(HOURS, drive_break_after_min=100, drive_break_min=15)
    run = driven([step(60, 230), step(60, 30)], hours=hours)

    assert (Span(650, 680),) == run.breaks


def test_a_break_from_duty_need_not_be_one_from_driving() -> None:
    """30 min inside the work do not count as 45: driving goes on being summed."""
    # 200 of driving, 300 of work with a break, then 100 of driving make 300 > 270
    run = driven([step(200, 300)], 100)

    assert (Span(720, 750), Span(890, 935)) == run.breaks


def test_a_longer_break_from_duty_spares_one_from_driving() -> None:
    """Out 180 min, 240 of work, home 180: after 6 h a rest of 45 does for both, 30 would not.

    With 30 min at 12:00 and 45 before the way home the day would end at 17:15.
    """
    run = planned([step(180, 240)], 180)
    assert ((Span(720, 765),), 1005) == (run.breaks, run.end_min)
    # Too little is driven to want a second break: 30 min do.
    near = planned([step(130, 240)], 130)
    assert (Span(720, 750),) == near.breaks
    # The work must be over by 13:05, so the break is short and another follows.
    tight = planned([step(150, 240, (0, 785))], 150)
    assert [30, 45] == [span.end_min - span.start_min for span in tight.breaks]


@given(st.lists(st.tuples(st.integers(0, 150), st.integers(0, 200)), min_size=1, max_size=5))
def test_stricter_breaks_from_duty_never_shorten_a_day(legs: list[tuple[int, int]]) -> None:
    """What keeps the law of longer breaks keeps that of shorter ones as well."""
    steps = [step(leg, work) for leg, work in legs]
    lax = replace(HOURS, end_min=2 * DAY_MIN, duty_max_min=9_999, driving_max_min=9_999)
    plain = run_day(steps, 60, 0, lax)
    strict = run_day(steps, 60, 0, replace(lax, duty_break_min=lax.drive_break_min))
    assert strict is None or (
        plain is not None and plain.end_min - plain.start_min <= strict.end_min - strict.start_min
    )


@pytest.mark.parametrize(
    ("hours", "leg", "holds"),
    [
        (HOURS, 270, True),
        (HOURS, 271, False),
        (replace(HOURS, drive_break_after_min=500), 360, True),
        (replace(HOURS, drive_break_after_min=500), 361, False),
    ],
)
def test_a_leg_too_long_for_any_rest(hours: Hours, leg: int, *, holds: bool) -> None:
    """There is no stopping on the way: a leg longer than the limit cannot be driven."""
    assert holds == (drive([step(leg, 5)], 0, SIX, hours) is not None)
    assert holds == (drive([step(0, 5)], leg, SIX, hours) is not None)


def test_a_long_wait_is_a_break() -> None:
    """At 6:20, until the window opens at 7: 40 min of rest, so six hours from there."""
    run = driven([step(20, 360, (420, 1_200))])

    assert (Span(380, 420),) == run.breaks
    assert [(420, 780)] == spans(run)


def test_a_short_wait_is_duty() -> None:
    """29 min of waiting count: 20 + 29 + 311 are six hours, a minute more wants a break."""
    assert () == driven([step(20, 311, (409, 1_200))]).breaks
    assert (Span(720, 750),) == driven([step(20, 312, (409, 1_200))]).breaks


def test_a_wait_that_would_overrun_the_duty_is_drawn_out_to_a_break() -> None:
    """At 11:45, 345 min on duty, the gate opens at 12:14: work begins at 12:15, rested."""
    # waiting 29 min would make 374 min of duty
    run = driven([step(0, 335), step(10, 20, (734, 900))])

    assert (Span(705, 735),) == run.breaks
    assert (735, 755) == spans(run)[1]
    # a gate that leaves no room for the minute is missed
    assert drive([step(0, 335), step(10, 20, (734, 754))], 0, SIX, HOURS) is None


def test_a_wait_that_ends_with_the_duty() -> None:
    """Waiting until just six hours are over is no breach; the break comes before the work."""
    run = driven([step(0, 335), step(10, 20, (720, 900))])

    assert (Span(720, 750),) == run.breaks
    assert (720, 770) == spans(run)[1]


def test_breaks_of_no_minutes() -> None:
    """Where the law asks for no length, a minute does; no break has no minutes."""
    hours = replace(HOURS, duty_break_min=0, drive_break_min=0)

    # six hours are over at noon; the minute is one from driving as well
    assert (Span(720, 721),) == driven([step(200, 280)], 100, hours).breaks
    assert (Span(560, 561),) == driven([step(100, 0), step(100, 0)], 100, hours).breaks


# The whole day


def test_nobody_rests_behind_a_gate_that_has_shut() -> None:
    """20 min there, 330 of work until 11:50, 20 home: the break would last until 12:20."""
    home, inside = 20, step(20, 330, (360, 740), gone_by=740)

    assert (Span(710, 740),) == driven([inside], home).breaks
    assert drive([inside._replace(gone_by_min=739)], home, SIX, HOURS) is None


def test_a_wait_is_drawn_out_where_there_is_no_time_for_a_break_after_the_work() -> None:
    """At 6:20 the gate opens at 6:40: a break until 6:50, then 330 min, gone at 12:20.

    Begun at 6:20 there is no wait, and the break after the work would last until 12:40.
    """
    run = planned([step(20, 330, (400, 740), gone_by=740)], 20)

    assert (Span(380, 410),) == run.breaks
    assert [(410, 740)] == spans(run)
    assert run_day([step(20, 330, (400, 739), gone_by=739)], 20, 0, HOURS) is None


@pytest.mark.parametrize("closes", [730, 760])
def test_a_day_that_a_short_wait_spoils_is_begun_later(closes: int) -> None:
    """At 6:20 the yard opens at 6:40: 20 + 20 + 330 min want a break in the work, till 12:40.

    Begun at 6:20 nobody waits, and 330 min are over at 12:10.
    """
    run = planned([step(20, 330, (400, closes))], 0)

    assert (380, 730, ()) == (run.start_min, run.end_min, run.breaks)


def test_a_day_that_a_short_wait_makes_too_long_is_begun_later() -> None:
    """The same day with a break ends at 12:40; at 12:10 it must be over."""
    hours = replace(HOURS, end_min=730)

    assert drive([step(20, 330, (400, 1_000))], 0, SIX, HOURS) is not None
    assert (380, 730) == planned([step(20, 330, (400, 1_000))], 0, hours)[:2]


def test_waiting_becomes_a_later_start() -> None:
    """The window opens at 9: home is left at 8:40, and reached at the same time."""
    run = planned([step(20, 60, (540, 1_080))], 20)

    assert (520, 620) == (run.start_min, run.end_min)
    assert ((540, 540),) == tuple((t.arrive_min, t.start_min) for t in run.times)
    assert () == run.breaks


def test_an_earlier_window_bounds_the_later_start() -> None:
    """The store shuts at 7: loading may end 45 min later, though 85 are waited at the yard."""
    # loading 6:00 to 6:15; at the yard 6:35, opens 8:00
    run = planned([step(0, 15, (360, 420)), step(20, 60, (480, 1_080))], 20)

    assert (405, 420) == spans(run)[0]
    assert (440, 480) == run.times[1][:2]


def test_a_call_moves_to_its_later_hours_where_that_ends_a_long_wait() -> None:
    """First call 8 to 10 o'clock or from 14:00, second from 13:00: the day begins for 14:00.

    For 8:00 home is left at 9:10 at the latest (20 min there, 30 of work by 10:00), and the
    second call is reached at 10:10: it waits 170 min, and the day lasts until 13:50, 280 min.
    Begun for 14:00 at 13:40 it ends at 15:30: 20 + 30 + 10 + 30 + 20 = 110 min.
    """
    run = planned([step(20, 30, (480, 600), (840, 1_080)), step(10, 30, (780, 1_080))], 20)

    assert [(840, 870), (880, 910)] == spans(run)
    assert (820, 930) == (run.start_min, run.end_min)


def test_a_call_moves_to_hours_that_begin_before_its_own_end() -> None:
    """First call 8 to 12 o'clock or 10 to 19, second from 18:00: the day begins for 18:00.

    In the first hours the call ends at noon at the latest, and the second waits 344 min.  Begun
    at 17:12: 12 + 20 + 16 + 20 + 20 = 88 min.
    """
    first = step(12, 20, (480, 720), (600, 1_140))
    run = planned([first, step(16, 20, (1_080, 1_170))], 20)

    assert [(1_044, 1_064), (1_080, 1_100)] == spans(run)
    assert (1_032, 1_120) == (run.start_min, run.end_min)


def test_a_day_too_long_for_its_first_hours_begins_for_later_ones() -> None:
    """Work at 6:30 and at 18:00 is 12 h apart; both from 18:00 on take 30 min each."""
    run = planned([step(20, 30, (390, 420), (1_080, 1_200)), step(10, 30, (1_080, 1_200))], 20)

    assert [(1_080, 1_110), (1_120, 1_150)] == spans(run)


def test_a_call_without_later_hours_waits() -> None:
    """The same with the first call's morning alone: nothing is shorter than the wait."""
    run = planned([step(20, 30, (480, 600)), step(10, 30, (780, 1_080))], 20)

    assert (550, 830) == (run.start_min, run.end_min)


def test_waits_before_a_window_count_for_it() -> None:
    """Two waits: the first 20, the second 40 more, and a window between that is tight."""
    # 6:00; call 1 opens 6:20, ends 6:30; call 2 reached 6:30, opens 7:10, ends 7:20
    # call 1 shuts at 6:45: 15 of slack beyond its own 20 of waiting
    run = planned([step(0, 10, (380, 405)), step(0, 10, (430, 1_000))])

    assert 360 + 35 == run.start_min
    assert [(395, 405), (430, 440)] == spans(run)


def test_a_later_start_may_want_a_break_elsewhere() -> None:
    """The wait at 6:35 was the break; without it the work has one, and the day is shorter."""
    # 15 of loading, 20 of driving, 330 of work, 10 home; the yard opens at 8
    run = planned([step(0, 15), step(20, 330, (480, 1_200))], 10)

    # from 7:25: 35 min, 325 of work, break 13:25 to 13:55, 5 of work, home at 14:10
    assert (445, 850) == (run.start_min, run.end_min)
    assert (Span(805, 835),) == run.breaks


def test_a_wait_stays_as_long_as_a_break_where_the_work_has_no_room_for_one() -> None:
    """The same yard shuts at 13:30: 30 min of waiting stay, home is left at 6:55."""
    run = planned([step(0, 15), step(20, 330, (480, 810))], 10)

    assert (415, 820) == (run.start_min, run.end_min)
    assert (Span(450, 480),) == run.breaks


def test_a_day_that_may_not_begin_before_now() -> None:
    """At 10:30 the rest of the day is planned from then."""
    run = run_day([step(20, 60)], 20, 0, HOURS, 630)

    assert run is not None
    assert 630 == run.start_min


def test_another_day_of_the_campaign() -> None:
    """Day 3 begins at 6 o'clock of day 3."""
    run = run_day([step(20, 60, (0, 10_000))], 20, 3, HOURS)

    assert run is not None
    assert (3 * DAY_MIN + 360, 3 * DAY_MIN + 460) == (run.start_min, run.end_min)


@pytest.mark.parametrize(("hour", "holds"), [(1_180, True), (1_181, False)])
def test_home_by_the_end_of_the_day(hour: int, *, holds: bool) -> None:
    """Work from 18:40 to 19:40 and 20 min of driving end at 20:00, a minute later too late."""
    day = [step(0, 15, (1_000, 1_100)), step(20, 60, (hour - 60, 1_439))]
    assert holds == (run_day(day, 20, 0, HOURS) is not None)


@pytest.mark.parametrize(("most", "holds"), [(500, True), (499, False)])
def test_the_longest_duty(most: int, *, holds: bool) -> None:
    """20 + 430 of work + 30 of break + 20 home are 500 min of duty."""
    hours = replace(HOURS, duty_max_min=most)
    assert holds == (run_day([step(20, 430)], 20, 0, hours) is not None)


def test_a_day_that_cannot_be_driven_at_all() -> None:
    """No hour fits."""
    assert run_day([step(20, 60, (0, 300))], 20, 0, HOURS) is None


# Properties: the rules written again, on days at random


def legs_of(run: Run, steps: Sequence[Step], home: int) -> list[tuple[int, int]]:
    """Every leg as driven, from leaving to arriving."""
    legs, here = [], run.start_min
    for times, one in zip(run.times, steps, strict=True):
        legs.append((here, here + one.leg_min))
        here = times.leave_min
    return [*legs, (here, here + home)]


def check_order(run: Run, steps: Sequence[Step], home: int) -> None:
    """Times never go back, legs are driven at a stretch, work is done inside its span."""
    here = run.start_min
    for times, one in zip(run.times, steps, strict=True):
        assert times.arrive_min == here + one.leg_min
        assert times.arrive_min <= times.start_min <= times.end_min <= times.leave_min
        inside = [s for s in one.spans if s[0] <= times.start_min and times.end_min <= s[1]]
        assert inside
        assert times.end_min + times.slack_min in {s.end_min for s in inside}
        assert one.end_from_min <= times.end_min
        rested = sum(max(0, min(b, times.end_min) - max(a, times.start_min)) for a, b in run.breaks)
        assert one.work_min == times.end_min - times.start_min - rested
        here = times.leave_min
    assert run.end_min == here + home


def check_breaks(run: Run, steps: Sequence[Step], home: int, hours: Hours) -> None:
    """Breaks lie in the day, one after another, off the road, and come often enough."""
    edges = [run.start_min, *(edge for span in run.breaks for edge in span), run.end_min]
    assert sorted(edges) == edges
    assert all(a < b for a, b in run.breaks)
    legs = legs_of(run, steps, home)
    assert not any(a < y and x < b for a, b in run.breaks for x, y in legs)
    long = [s for s in run.breaks if s.end_min - s.start_min >= hours.duty_break_min]
    ends = [run.start_min, *(span.end_min for span in long)]
    begins = [*(span.start_min for span in long), run.end_min]
    assert all(b - a <= hours.duty_break_after_min for a, b in zip(ends, begins, strict=True))
    rests = [s.start_min for s in run.breaks if s.end_min - s.start_min >= hours.drive_break_min]
    for a, b in pairwise([-1, *rests, 10**9]):
        assert sum(y - x for x, y in legs if a <= x < b) <= hours.drive_break_after_min


SPANS = st.lists(
    st.tuples(st.integers(200, 1_200), st.integers(30, 900)), min_size=1, max_size=2
).map(lambda pairs: tuple(sorted(Span(start, start + length) for start, length in pairs)))
STEPS = st.lists(
    st.builds(
        Step,
        st.integers(0, 160),
        st.integers(0, 420),
        SPANS,
        st.sampled_from([0, 0, 0, 600]),
        st.sampled_from([NEVER, NEVER, 700, 900]),
    ),
    min_size=1,
    max_size=5,
)
LAWS = st.builds(
    replace,
    st.just(HOURS),
    drive_break_after_min=st.integers(60, 300),
    drive_break_min=st.integers(0, 60),
    duty_break_after_min=st.integers(90, 400),
    duty_break_min=st.integers(0, 60),
    duty_max_min=st.sampled_from([660, 1_200]),
)


@given(steps=STEPS, home=st.integers(0, 120), hours=LAWS, start=st.integers(300, 500))
def test_any_day_driven_keeps_the_rules(
    steps: list[Step], home: int, hours: Hours, start: int
) -> None:
    """Whatever windows, work and law: if the day can be driven, its times are right."""
    run = drive(steps, home, start, hours)
    if run is not None:
        check_order(run, steps, home)
        check_breaks(run, steps, home, hours)


@given(steps=STEPS, home=st.integers(0, 120), hours=LAWS)
def test_any_day_planned_keeps_the_rules_and_is_no_longer(
    steps: list[Step], home: int, hours: Hours
) -> None:
    """Leaving later keeps every rule and never makes the duty longer."""
    run, early = run_day(steps, home, 0, hours), drive(steps, home, SIX, hours)
    if run is None:
        return
    # Where it must be begun later, or a wait drawn out, there is nothing to be longer than.
    early = early or run
    check_order(run, steps, home)
    check_breaks(run, steps, home, hours)
    assert hours.start_min <= run.start_min
    assert run.end_min <= hours.end_min
    length = run.end_min - run.start_min
    assert length <= min(hours.duty_max_min, early.end_min - early.start_min)


@given(steps=STEPS, home=st.integers(0, 120), hours=LAWS)
def test_nobody_leaves_a_call_after_its_gate_has_shut(
    steps: list[Step], home: int, hours: Hours
) -> None:
    """Whatever the law: who rests after the work is gone in time."""
    run = run_day(steps, home, 0, hours)
    calls = zip(steps, run.times, strict=True) if run is not None else ()
    assert all(t.leave_min <= max(one.gone_by_min, t.end_min) for one, t in calls)


@given(steps=STEPS, home=st.integers(0, 120))
def test_without_breaks_no_start_makes_a_day_shorter(steps: list[Step], home: int) -> None:
    """Against every start of the day, minute by minute."""
    ends = [(start, drive(steps, home, start, LAX)) for start in range(SIX, LAX.end_min)]
    lengths = [run.end_min - start for start, run in ends if run and run.end_min <= LAX.end_min]
    run = run_day(steps, home, 0, LAX)

    shortest = min(lengths, default=LAX.duty_max_min + 1)
    assert (run is not None) == (shortest <= LAX.duty_max_min)
    if run is not None:
        assert run.end_min - run.start_min == shortest


@given(steps=STEPS, home=st.integers(0, 120), hours=LAWS, more=st.integers(0, 300))
def test_a_window_that_shuts_later_changes_nothing(
    steps: list[Step], home: int, hours: Hours, more: int
) -> None:
    """A day that holds with each call's one window holds the same with a longer one."""
    single = [one._replace(spans=one.spans[:1]) for one in steps]
    longer = [
        one._replace(spans=(Span(one.spans[0].start_min, one.spans[0].end_min + more),))
        for one in single
    ]
    run, again = drive(single, home, SIX, hours), drive(longer, home, SIX, hours)
    if run is not None:
        assert again is not None
        assert spans(run) == spans(again)


RUSH = Rush([1500 if hour in {7, 8} else 1000 for hour in range(24)])


def test_a_drive_takes_what_its_hours_make_it() -> None:
    """Half an hour begun at 6:45 takes 38 minutes, at 9:00 thirty; both count as driving."""
    run = drive([step(0, 45), step(30, 97)], 30, SIX, HOURS, RUSH)

    assert run is not None
    # 6:45 and 38 min are 7:23; 97 min of work end at 9:00.
    assert [(360, 405), (443, 540)] == spans(run)
    assert (570, 68) == (run.end_min, run.driving_min)
    plain = driven([step(0, 45), step(30, 97)], 30)
    assert 60 == plain.driving_min


def test_slow_hours_count_to_the_most_driving() -> None:
    """60 minutes of driving are allowed and 60 without rush; in it the day cannot be."""
    strict = replace(HOURS, driving_max_min=60)
    steps = [step(0, 45), step(30, 30)]

    assert run_day(steps, 30, 0, strict) is not None
    assert (
        run_day([step(0, 45, (360, 500)), step(30, 30, (400, 500))], 30, 0, strict, 0, RUSH) is None
    )


def test_a_rest_before_a_leg_that_grows_meanwhile() -> None:
    """After the short rest the leg lies in the rush, and needs a longer one."""
    hours = replace(
        HOURS, drive_break_after_min=1_000, duty_break_after_min=100, duty_break_min=30,
    )  # fmt: skip
    # Begun at 5:40 with 60 minutes' work: at 6:40 a leg of 60 is 20 + 60 = 80 by then.
    run = drive([step(0, 60)], 60, 340, hours, RUSH)

    assert run is not None
    # 60 + 80 > 100: half an hour's rest, and from 7:10 the leg takes 90.
    assert ((Span(400, 430),), 520, 90) == (run.breaks, run.end_min, run.driving_min)


def test_one_rest_does_for_a_leg_that_grows_meanwhile() -> None:
    """The short rest from driving brings the leg into the rush, and duty over its most.

    It had been followed by one from duty, 75 minutes in all, and home by 557.
    """
    hours = replace(
        HOURS, start_min=300, drive_break_after_min=90, drive_break_min=30,
        duty_break_after_min=215, duty_break_min=45,
    )  # fmt: skip
    # At 6:40 a leg of 60 is 80: 20 + 80 > 90, and 100 + 30 + 80 on duty; from 7:10 it is 90.
    run = run_day([step(20, 80)], 60, 0, hours, 0, RUSH)

    assert run is not None
    assert ((Span(400, 445),), 535, 110) == (run.breaks, run.end_min, run.driving_min)


@pytest.mark.parametrize("from_min", [0, 400, 500])
def test_nobody_waits_for_minutes_that_a_quicker_drive_saves(from_min: int) -> None:
    """Loaded by 7:00 the leg takes 45; begun 135 minutes later it takes 30, and 15 are waited."""
    run = run_day([step(0, 60), step(30, 30, (600, 900))], 30, 0, HOURS, from_min, RUSH)

    assert run is not None
    assert (510, 600, 660) == (run.start_min, run.times[1].arrive_min, run.end_min)
