"""Quick sums of a day's time, against the exact clock."""

from collections.abc import Sequence
from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from runplanner.days import Span
from runplanner.haulage.day_clock import Step
from runplanner.outfit.people import Hours
from runplanner.season.quick.clock import Driven, driven, laws_of
from runplanner.trips.clock import Run, drive, run_day
from tests.trips.test_clock import HOURS, LAWS, LAX, STEPS, step


def _rough(steps: Sequence[Step], home: int, hours: Hours) -> Driven | None:
    """The same day by quick sums: home is place 0, every call a place of its own."""
    legs = [one.leg_min for one in steps]
    count = len(steps) + 1
    minutes: list[list[int | None]] = [[None] * count for _ in range(count)]
    for at, leg in enumerate(legs):
        minutes[at][at + 1] = leg
    minutes[-1][0] = home
    nodes = [
        (at + 1, s.work_min, s.spans, s.end_from_min, s.gone_by_min) for at, s in enumerate(steps)
    ]
    return driven(nodes, minutes, 0, Span(hours.start_min, hours.end_min), laws_of(hours))


def _early(steps: Sequence[Step], home: int, hours: Hours) -> Run | None:
    """The shortest day of all lawful ways to rest, as `run_day` takes it."""
    ways = (drive(steps, home, hours.start_min, rests) for rests in hours.ways_to_rest())
    found = [run for run in ways if run is not None and run.end_min <= hours.end_min]
    return min(found, key=lambda run: run.end_min, default=None)


@given(steps=STEPS, home=st.integers(0, 120), hours=LAWS)
def test_begun_as_early_as_can_be_it_is_the_exact_day(
    steps: list[Step], home: int, hours: Hours
) -> None:
    """Calls end when they do by the exact clock, breaks and all; what cannot be is refused.

    Where breaks from duty are shorter than those from driving there are several ways to rest:
    the day is then no longer, but may rest elsewhere.  Where somebody waits it may hold begun
    later, and is not refused for that.
    """
    lax = replace(hours, duty_max_min=hours.end_min - hours.start_min)
    exact, rough = _early(steps, home, lax), _rough(steps, home, lax)

    assert exact is None or rough is not None
    if exact is not None and rough is not None:
        assert rough.length_min <= exact.end_min - exact.start_min
        if hours.duty_break_min >= hours.drive_break_min:
            assert [times.end_min for times in exact.times] == rough.leaves[1:]
        assert rough.busy_min == exact.driving_min + sum(one.work_min for one in steps)


@given(steps=STEPS, home=st.integers(0, 120), hours=LAWS)
def test_what_cannot_be_is_refused_where_nobody_waits(
    steps: list[Step], home: int, hours: Hours
) -> None:
    """Where all calls are open from the morning on, a later start mends nothing."""
    lax = replace(hours, duty_max_min=hours.end_min - hours.start_min)
    opened = [
        one._replace(spans=tuple(Span(0, span.end_min) for span in one.spans), end_from_min=0)
        for one in steps
    ]

    assert (_early(opened, home, lax) is None) == (_rough(opened, home, lax) is None)


@given(steps=STEPS, home=st.integers(0, 120), hours=LAWS)
def test_what_the_exact_clock_takes_is_not_refused(
    steps: list[Step], home: int, hours: Hours
) -> None:
    """Begun later, or with a wait drawn out to a break, as well."""
    assert run_day(steps, home, 0, hours) is None or _rough(steps, home, hours) is not None


@given(steps=STEPS, home=st.integers(0, 120))
def test_a_day_is_as_short_as_its_waits_let_it(steps: list[Step], home: int) -> None:
    """Where no breaks fall due and calls have no later hours, as long as by the exact clock."""
    single = [one._replace(spans=one.spans[:1]) for one in steps]
    exact, rough = run_day(single, home, 0, LAX), _rough(single, home, LAX)

    assert (exact is None) == (rough is None)
    if exact is not None and rough is not None:
        assert rough.length_min == exact.end_min - exact.start_min


def test_work_and_breaks_share_the_longest_duty() -> None:
    """11 h of duty with half an hour off after 6 h at the latest leave 10 h 30 for work.

    The hours are those of common practice in these tests: 630 min want one break, and
    630 + 30 = 660; with 631 the day is 661 min long.
    """
    laws = laws_of(HOURS)

    assert 630 == laws.busy_max()
    assert [0, 0, 30, 30, 60] == [laws.rests(busy) for busy in (0, 360, 361, 720, 721)]
    assert _rough([step(0, 300), step(10, 310)], 10, HOURS) is not None
    assert _rough([step(0, 300), step(10, 311)], 10, HOURS) is None
