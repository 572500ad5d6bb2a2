"""The clock: spans, their meeting, joining and cutting, checked minute by minute."""

from datetime import date
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from runplanner.days import Span, clock, date_of, day_of, join, meet, without

SPANS = st.lists(
    st.tuples(st.integers(0, 60), st.integers(0, 60)).map(lambda ends: Span(*ends)), max_size=6
).map(tuple)


def minutes(spans: tuple[Span, ...]) -> set[int]:
    """Every minute in ``spans``: the slow way to say what they mean."""
    return {minute for span in spans for minute in range(span.start_min, span.end_min)}


def tidy(spans: tuple[Span, ...]) -> bool:
    """Sorted, none empty, none touching the next."""
    ends = [end for span in spans for end in span]
    return all(a < b for a, b in pairwise(ends))


def test_a_minute_has_a_day_a_clock_and_a_date() -> None:
    """Minute 1501 is 01:01 on day 1; the minute before midnight of day -1 is 23:59."""
    assert (1, "01:01") == (day_of(1501), clock(1501))
    assert (-1, "23:59") == (day_of(-1), clock(-1))
    assert date(2028, 2, 29) == date_of(date(2028, 2, 27), 2)


@given(SPANS)
def test_join_keeps_every_minute(spans: tuple[Span, ...]) -> None:
    """Joining changes no minute, and leaves sorted spans that do not touch."""
    assert minutes(spans) == minutes(join(spans))
    assert tidy(join(spans))


@given(SPANS, SPANS)
def test_meet_is_what_both_hold(left: tuple[Span, ...], right: tuple[Span, ...]) -> None:
    """The meeting holds just the minutes that both hold."""
    both = meet(join(left), join(right))

    assert minutes(left) & minutes(right) == minutes(both)
    assert tidy(both)


@given(SPANS, SPANS)
def test_without_is_what_is_left(spans: tuple[Span, ...], holes: tuple[Span, ...]) -> None:
    """Cutting holes leaves just the minutes outside every hole."""
    real = tuple(hole for hole in holes if hole.start_min < hole.end_min)

    assert minutes(spans) - minutes(holes) == minutes(without(spans, real))
