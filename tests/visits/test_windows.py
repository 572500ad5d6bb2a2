"""Hours in which a yard may be visited."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.days import DAY_MIN, Span
from runplanner.outfit.yards import Access, Yard
from runplanner.visits.windows import Windows, windows
from tests.outfits import a_yard, an_outfit, daily

DAYS = 3
YARD = a_yard(1, days=DAYS)


def hours(yard: Yard) -> Windows:
    """The windows of one yard over three days; the sun is up from 6 to 20 o'clock."""
    return windows(an_outfit([(10, 0)], [yard], days=DAYS), yard)


def clock(*spans: tuple[int, int], day: int = 0) -> tuple[Span, ...]:
    """Spans by the hour of a day."""
    return tuple(Span(day * DAY_MIN + 60 * a, day * DAY_MIN + 60 * b) for a, b in spans)


def test_daylight_bounds_a_gate_that_never_shuts() -> None:
    """From sunrise at 6 to sunset at 20."""
    assert (clock((6, 20)), clock((6, 20), day=1), clock((6, 20), day=2)) == hours(YARD).plain


def test_the_gate_bounds_daylight() -> None:
    """A gate open from 5 to 9 leaves 6 to 9."""
    yard = replace(YARD, access=Access(opens_min=300, closes_min=540))

    assert clock((6, 9)) == hours(yard).plain[0]


def test_a_gate_that_opens_in_the_dark_only() -> None:
    """No daylight while the gate is open: no visit."""
    yard = replace(YARD, access=Access(opens_min=0, closes_min=360))

    assert ((), (), ()) == hours(yard).plain


def test_weather_for_opening_and_for_syrup() -> None:
    """Open-fit 8 to 18, feed-fit 6 to 20 and their common hours."""
    found = hours(YARD)

    assert clock((8, 18)) == found.opening[0]
    assert clock((6, 20)) == found.feeding[0]
    assert clock((8, 18)) == found.both[0]


def test_a_shut_window() -> None:
    """Weather fit on day 1 only leaves days 0 and 2 without hours."""
    found = hours(replace(YARD, open_spans=daily(480, 1080, [1])))

    assert ((), clock((8, 18), day=1), ()) == found.opening
    assert ((), clock((8, 18), day=1), ()) == found.both


def test_stretches_of_one_day_stay_apart() -> None:
    """A visit lies in one typed stretch; two that touch are not one."""
    yard = replace(YARD, open_spans=clock((8, 11), (11, 13), (15, 22)))

    assert clock((8, 11), (11, 13), (15, 20)) == hours(yard).opening[0]


def test_the_right_hours_for_a_visit() -> None:
    """Opening hives, pouring syrup, both or neither each have their own."""
    yard = replace(YARD, open_spans=clock((8, 12)), feed_spans=clock((10, 19)))
    found = hours(yard)

    def first(*, opening: bool, feeding: bool) -> tuple[Span, ...]:
        return found.spans(opening=opening, feeding=feeding, strips=False)[0]

    assert clock((6, 20)) == first(opening=False, feeding=False)
    assert clock((8, 12)) == first(opening=True, feeding=False)
    assert clock((10, 19)) == first(opening=False, feeding=True)
    assert clock((10, 12)) == first(opening=True, feeding=True)


def test_days_unfit_for_strips() -> None:
    """A visit with strips has no hours on such a day; other visits keep theirs."""
    found = hours(replace(YARD, strips_shut_days=(1,)))

    with_strips = found.spans(opening=False, feeding=False, strips=True)
    assert (clock((6, 20)), (), clock((6, 20), day=2)) == with_strips
    assert found.plain == found.spans(opening=False, feeding=False, strips=False)


def test_strips_alone_want_hours_for_hives_or_for_syrup() -> None:
    """8 to 12 opens hives, 10 to 19 bears syrup, 14 to 16 lies within; rain before and after."""
    yard = replace(YARD, open_spans=clock((8, 12), (14, 16)), feed_spans=clock((10, 19)))
    found = hours(yard)

    assert clock((8, 12), (10, 19)) == found.either[0]
    assert found.either == found.spans(opening=False, feeding=False, strips=True)
    assert found.either == found.spans(opening=False, feeding=False, strips=False, dry=True)
    assert found.opening == found.spans(opening=True, feeding=False, strips=False, dry=True)
    shut = hours(replace(YARD, open_spans=(), feed_spans=()))
    assert ((), (), ()) == shut.either
    assert found.plain == shut.plain


def test_bees_settle_at_once_in_fair_weather() -> None:
    """Without unsettled hours a take-off may end at any minute."""
    assert (0, 0, 0) == hours(YARD).settled_from_min


def test_a_thunderstorm_in_the_evening() -> None:
    """After a storm from 19 to 22 o'clock the bees may be left outside, not before."""
    found = hours(replace(YARD, unsettled_spans=clock((19, 22))))

    # day 0 from 22:00 on; day 1 is not touched
    assert (22 * 60, 0, 0) == found.settled_from_min


def test_a_storm_before_sunrise_spoils_the_day_before() -> None:
    """4 to 5 o'clock on day 1: day 0 has no minute left; day 1's take-offs end after it."""
    found = hours(replace(YARD, unsettled_spans=clock((4, 5), day=1)))

    # 1,440 + 5 x 60: no visit of day 0 ends so late
    assert (1_740, 1_740, 0) == found.settled_from_min


def test_a_storm_after_sunrise_leaves_the_day_before_alone() -> None:
    """From 6 o'clock on the bees of day 0 are up."""
    found = hours(replace(YARD, unsettled_spans=clock((6, 8), day=1)))

    assert (0, 1_440 + 480, 0) == found.settled_from_min


def test_a_night_without_dark_is_over_in_the_morning() -> None:
    """The sun is up from midnight to midnight: the bees of day 0 settle until 6 o'clock."""
    light = tuple(Span(day * DAY_MIN, (day + 1) * DAY_MIN) for day in range(DAYS + 1))
    bright = replace(YARD, sun_spans=light)

    for storm, ends in (((0, 5), (1_740, 1_740, 0)), ((6, 8), (0, 1_920, 0))):
        found = hours(replace(bright, unsettled_spans=clock(storm, day=1)))
        assert ends == found.settled_from_min


@pytest.mark.parametrize(
    ("up_min", "storm", "held"),
    [(179, (4, 5), True), (180, (4, 5), False), (179, (6, 8), False), (30, (1, 2), True)],
)
def test_a_sun_that_is_up_before_three_ends_no_night(
    up_min: int, storm: tuple[int, int], *, held: bool
) -> None:
    """Up at 02:59, bees of day 0 settle until 6 o'clock; up at 03:00 until then."""
    suns = tuple(Span(day * DAY_MIN + up_min, (day + 1) * DAY_MIN) for day in range(DAYS + 1))
    found = hours(replace(YARD, sun_spans=suns, unsettled_spans=clock(storm, day=1)))

    assert (DAY_MIN + storm[1] * 60 if held else 0) == found.settled_from_min[0]


SPANS = st.lists(st.tuples(st.integers(0, 4_400), st.integers(1, 900)), max_size=6).map(
    lambda pairs: tuple(sorted(Span(start, start + length) for start, length in pairs))
)


@given(opening=SPANS, feeding=SPANS, shut=st.integers(0, 1_440))
def test_hours_lie_in_gate_sun_and_weather(
    opening: tuple[Span, ...], feeding: tuple[Span, ...], shut: int
) -> None:
    """Every minute offered is one in which all of its conditions hold, on its own day."""
    yard = replace(YARD, open_spans=opening, feed_spans=feeding, access=Access(closes_min=shut))
    found = hours(yard)
    for day in range(DAYS):
        for span in found.both[day]:
            assert any(a <= span.start_min and span.end_min <= b for a, b in opening)
            assert any(a <= span.start_min and span.end_min <= b for a, b in feeding)
            assert day * DAY_MIN + 360 <= span.start_min < span.end_min
            assert span.end_min <= day * DAY_MIN + min(shut, 1_200)


@given(storms=SPANS, end=st.integers(0, DAYS * DAY_MIN - 1))
def test_settling_is_the_rule(storms: tuple[Span, ...], end: int) -> None:
    """A take-off may end at a minute exactly when no storm falls between it and sunrise."""
    day = end // DAY_MIN
    sunrise = YARD.sun_spans[day + 1].start_min
    calm = not any(a < sunrise and b > end for a, b in storms)

    settled_from = hours(replace(YARD, unsettled_spans=storms)).settled_from_min[day]
    assert calm == (end >= settled_from)
