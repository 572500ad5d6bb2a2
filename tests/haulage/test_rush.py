"""Drives by the minute they are begun at, by hand and against a minute-by-minute count."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.audit.slow_hours import slowed_min
from runplanner.haulage.rush import Rush

RUSH = tuple(1500 if hour in {7, 8} else 1000 for hour in range(24))
HOURS = st.tuples(*[st.integers(1000, 3000)] * 24)


@pytest.mark.parametrize(
    ("plain", "start", "takes"),
    [
        (0, 450, 0),
        (30, 360, 30),
        # From 7:00 half an hour takes 45 minutes.
        (30, 420, 45),
        # 15 minutes until 7:00, the other 15 take 22.5.
        (30, 405, 38),
        # From 6:30 to 7:00 30, until 9:00 120 / 1.5 = 80, and 10 more after it.
        (120, 390, 160),
        # From 8:50 ten minutes get 6.67 done, 23.33 are left.
        (30, 530, 34),
        # The next day is as this one.
        (30, 1440 + 420, 45),
        (30, 420 - 1440, 45),
        # A day does 22 h and 2 h / 1.5, or 1400 minutes; three of them, and 45 as above.
        (3 * 1400 + 30, 420, 3 * 1440 + 45),
    ],
)
def test_half_hours_by_hand(plain: int, start: int, takes: int) -> None:
    """Rush from 7 to 9, when a drive takes half as long again."""
    assert takes == Rush(RUSH)(plain, start) == slowed_min(plain, start, RUSH)


@given(HOURS, st.integers(0, 6000), st.integers(-1440, 4000))
def test_the_audit_counts_the_same(by_hour: tuple[int, ...], plain: int, start: int) -> None:
    """Hour by hour in whole numbers, and minute by minute in fractions."""
    assert slowed_min(plain, start, by_hour) == Rush(by_hour)(plain, start)


@given(HOURS, st.integers(0, 300), st.integers(0, 1440))
def test_who_leaves_later_is_never_there_sooner(
    by_hour: tuple[int, ...], plain: int, start: int
) -> None:
    """And no drive is shorter than in the best hour."""
    rush = Rush(by_hour)

    assert start + rush(plain, start) <= start + 1 + rush(plain, start + 1)
    assert plain <= rush(plain, start) <= 3 * plain


def test_the_audit_counts_a_drive_of_any_length_at_once() -> None:
    """A million days of 1400 minutes each, as above."""
    assert 1_440_000_000 == slowed_min(1_400_000_000, 0, RUSH)
