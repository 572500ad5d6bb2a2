"""The clock of a truck's day: calls, and what counts where it is taken up, all by hand."""

from dataclasses import replace

import pytest

from runplanner.days import Span
from runplanner.haulage.day_clock import DayClock, Step, Times
from tests.outfits import an_outfit

HOURS = replace(
    an_outfit().hours, duty_break_after_min=360, duty_break_min=30, drive_break_after_min=100,
    drive_break_min=45,
)  # fmt: skip
ANY = (Span(0, 2_880),)


def taken_up(now: int, drives: list[tuple[int, int]], breaks: list[Span]) -> DayClock:
    """The clock of a day begun at 0, taken up in a call."""
    clock = DayClock(0, HOURS, None)
    clock.take_up(now, drives, breaks, HOURS)
    clock.times = [Times(now, now, now, now, 0)]
    return clock


@pytest.mark.parametrize(
    ("pause", "before", "waits", "start", "breaks", "end"),
    [
        (30, 300, 35, 335, [(300, 335)], 535),
        (30, 300, 29, 329, [(360, 390)], 559),
        (30, 300, 0, 300, [(360, 390)], 530),
        (0, 300, 0, 300, [(360, 361)], 501),
        (0, 300, 1, 301, [(300, 301)], 501),
        (30, 345, 15, 360, [(360, 390)], 590),
        (30, 345, 16, 375, [(345, 375)], 575),
        (30, 345, 29, 375, [(345, 375)], 575),
        (30, 360, 0, 360, [(360, 390)], 590),
        (0, 360, 5, 365, [(360, 365)], 565),
    ],
)
def test_waits_and_breaks_in_work(
    pause: int, before: int, waits: int, start: int, breaks: list[Span], end: int
) -> None:
    """Work, a wait, 200 min more: a wait as long as a break from duty is one.

    So is one that makes the 360 min of duty too long: it is drawn out.  Breaks from driving may
    be longer than that; a break of no minutes is no break.
    """
    clock = DayClock(0, replace(HOURS, duty_break_min=pause), None)

    assert clock.call(Step(0, before, ANY, 0))
    assert clock.call(Step(0, 200, (Span(before + waits, 2_880),), 0))
    assert (start, end) == (clock.times[1].start_min, clock.times[1].end_min)
    assert breaks == clock.breaks


@pytest.mark.parametrize("work", [0, 20, 360])
def test_who_comes_too_late_for_a_break_rests_before_the_work(work: int) -> None:
    """Driven on past the 360 min, as nobody rests at the wheel; then all is duty anew."""
    clock = taken_up(350, [], [])
    clock.drive(40)

    assert clock.call(Step(0, work, ANY, 0))
    assert [Span(390, 420)] == clock.breaks
    assert (390, 420, 420 + work) == clock.times[1][:3]
    assert work == clock.duty


@pytest.mark.parametrize(
    ("breaks", "duty", "drove"),
    [
        ([], 300, 90),
        ([Span(100, 129)], 300, 90),
        ([Span(100, 130)], 170, 90),
        ([Span(100, 145)], 155, 50),
        ([Span(100, 145), Span(200, 230)], 70, 50),
    ],
)
def test_taken_up_it_counts_from_the_last_break_of_each_kind(
    breaks: list[Span], duty: int, drove: int
) -> None:
    """30 min end one from duty, 45 one from driving; 40 + 50 driven, 45 more were never driven."""
    clock = taken_up(300, [(0, 40), (150, 50)], breaks)

    assert (duty, drove, 90) == (clock.duty, clock.drove, clock.driven)
    # 60 min left of 360, 10 of 100; or 290 and 50.
    assert min(360 - duty, 100 - drove) == clock.until_due()
    assert clock.in_law()
    clock.drive(clock.until_due() + 1)
    assert not clock.in_law()
    assert 0 == clock.until_due()


@pytest.mark.parametrize(
    ("now", "drove", "leg", "work", "rest"),
    [
        (200, 60, 40, 120, 0),  # 360 of duty, 100 driven
        (200, 60, 41, 100, 45),  # 101 driven
        (200, 60, 40, 121, 30),  # 361 of duty
        (200, 60, 41, 130, 45),  # both: a longer one is one from duty as well
    ],
)
def test_a_break_is_due_for_the_leg_and_the_work_after_it(
    now: int, drove: int, leg: int, work: int, rest: int
) -> None:
    """Where the work is to be done without one; the truck leaves when it is over."""
    clock = taken_up(now, [(0, drove)], [])

    assert rest == clock.due(leg, work)
    if rest:
        clock.rest(rest)
        assert 0 == clock.due(leg, work)
        assert now + rest == clock.times[0].leave_min
