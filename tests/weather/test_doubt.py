"""How sure a forecast is, by days ahead."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.weather.doubt import day_sureness, sure_permille, typed_days_sure
from tests.weather.forecasts import a_forecast, at, fair


@pytest.mark.parametrize(
    ("ahead", "permille"),
    [
        (-2, 1000), (0, 1000), (3, 1000),
        (5, 900), (7, 800), (10, 500), (30, 500),  # NOAA SciJinks: 90 %, 80 %, half the time
        (4, 950), (6, 850), (8, 700), (9, 600),  # straight lines between
    ],
)  # fmt: skip
def test_published_figures(ahead: int, permille: int) -> None:
    """Sure for three days, then as published."""
    assert permille == sure_permille(ahead, 3)


def test_how_many_days_count_as_sure_is_a_setting() -> None:
    """With six, the seventh is 80 % at once; with none, doubt begins tomorrow."""
    assert [1000, 800] == [sure_permille(ahead, 6) for ahead in (6, 7)]
    assert [1000, 980] == [sure_permille(ahead, 0) for ahead in (0, 1)]  # 100 permille in 5 days
    assert [1000, 500] == [sure_permille(ahead, 12) for ahead in (12, 13)]


@given(st.integers(0, 40), st.integers(0, 40))
def test_never_surer_further_ahead(ahead: int, sure_days: int) -> None:
    """A day further ahead is at most as sure."""
    assert sure_permille(ahead, sure_days) >= sure_permille(ahead + 1, sure_days) >= 500


def test_days_without_forecast_are_no_better_than_chance() -> None:
    """Made on day 1, speaking of days 1 to 3: neither day 0 nor days 4 and 5 are told."""
    forecast = a_forecast(*fair(at(1, 6), 3 * 24 - 6), made=at(1, 5))

    assert (500, 1000, 1000, 1000, 500, 500) == day_sureness([forecast], 6, 3)
    assert (500, 500, 500, 1000) == day_sureness([a_forecast(*fair(at(3), 24))], 4, 3)


def test_doubt_counts_from_the_day_it_was_made() -> None:
    """Made four days before the campaign: day 1 is five days ahead."""
    forecast = a_forecast(*fair(0, 48), made=at(-4, 20))

    assert (950, 900) == day_sureness([forecast], 2, 3)


def test_a_day_is_as_sure_as_the_first_forecast_that_tells_it() -> None:
    """One of today for days 0 and 1, before one made four days ago for days 0 to 2."""
    near, far = a_forecast(*fair(0, 48)), a_forecast(*fair(0, 72), made=at(-4, 20))

    assert (1000, 1000, 850, 500) == day_sureness([near, far], 4, 3)


def test_typed_days_are_taken_at_their_word() -> None:
    """Who types a window means it."""
    assert (1000, 500, 1000) == typed_days_sure((1000, 500, 500), frozenset({2, 7}))
