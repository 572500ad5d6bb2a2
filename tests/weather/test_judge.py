"""Which hours are shut, and every reason why."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.days import Span
from runplanner.weather.hours import Hour
from runplanner.weather.judge import (
    Bounds,
    Cause,
    ShutHour,
    Why,
    Work,
    beyond,
    shut_hours,
    syrup_shut,
)
from tests.weather.forecasts import OPEN, a_forecast, at, fair

FAIR = fair(at(0, 9), 1)[0]


def whys(hour: Hour, bounds: Bounds = OPEN) -> tuple[Why, ...]:
    """The reasons for which one hour is shut."""
    found = shut_hours(a_forecast(hour), Work.OPEN, bounds)
    return found[0].whys if found else ()


def test_a_fair_hour_is_open() -> None:
    """18 degrees, dry, a light wind."""
    assert () == whys(FAIR)


@pytest.mark.parametrize(
    ("field", "fit", "shut", "cause", "words"),
    [
        ("rain_um", 200, 2100, Cause.RAIN, "rain 2.1 mm/h"),
        ("rain_um", 200, 201, Cause.RAIN, "rain 0.3 mm/h"),  # told in tenths, rounded up
        ("wind_mms", 8000, 9400, Cause.WIND, "wind 9.4 m/s"),
        ("gust_mms", 12_000, 14_000, Cause.GUST, "gusts 14.0 m/s"),
        ("thunder_permille", 300, 405, Cause.THUNDER, "thunder 40.5 %"),
        ("temp_dc", 130, 129, Cause.COLD, "temperature 12.9 degC"),
        ("temp_dc", 130, -3, Cause.COLD, "temperature -0.3 degC"),
    ],
)
def test_each_bound(field: str, fit: int, shut: int, cause: Cause, words: str) -> None:
    """At the bound an hour is fit, past it shut, and the reason says the figure."""
    assert () == whys(replace(FAIR, **{field: fit}))
    (why,) = whys(replace(FAIR, **{field: shut}))
    assert (cause, shut, words) == (why.cause, why.amount, why.words())


def test_every_reason_is_kept() -> None:
    """Rain, wind and cold together."""
    found = whys(replace(FAIR, rain_um=2100, wind_mms=9000, temp_dc=90))

    assert [Cause.RAIN, Cause.WIND, Cause.COLD] == [why.cause for why in found]


def test_rain_of_six_hours_counts_whole_in_each() -> None:
    """0.9 mm in six hours may all fall in this one."""
    (why,) = whys(replace(FAIR, rain_um=900, rain_over_min=360))

    assert "rain 0.9 mm in 6 h" == why.words()


@pytest.mark.parametrize(
    ("field", "words"),
    [("rain_um", "rain not told"), ("wind_mms", "wind not told"),
     ("temp_dc", "temperature not told")],
)  # fmt: skip
def test_what_must_be_told_shuts_when_it_is_not(field: str, words: str) -> None:
    """An hour without temperature, rain or wind is not taken as fair."""
    assert [words] == [why.words() for why in whys(replace(FAIR, **{field: None}))]  # type: ignore[arg-type]


def test_gusts_and_thunder_may_be_missing() -> None:
    """Many forecasts have none: judged without them."""
    assert () == whys(replace(FAIR, gust_mms=None, thunder_permille=None))


def test_cold_does_not_matter_where_it_has_no_bound() -> None:
    """Bees settle in the cold, and pouring hours are not judged by their own air."""
    assert () == whys(replace(FAIR, temp_dc=None), replace(OPEN, least_dc=None))


def test_missing_hours_are_shut() -> None:
    """A hole in the forecast, but not one that the clocks made."""
    forecast = a_forecast(*fair(at(0, 9), 1), *fair(at(0, 11), 1))
    hole = Span(at(0, 10), at(0, 11))

    (found,) = shut_hours(forecast, Work.SETTLE, OPEN)
    assert ShutHour((), Work.SETTLE, *hole, (Why(Cause.MISSING, None),)) == found
    assert "no forecast for it" == found.whys[0].words()
    assert () == shut_hours(forecast, Work.SETTLE, OPEN, (hole,))


def test_beyond_both_ends() -> None:
    """Before, between and after what forecasts reach, within the stretch that matters."""
    reaches = (Span(at(0, 9), at(0, 12)), Span(at(0, 14), at(0, 16)))
    found = beyond(reaches, Work.OPEN, Span(0, at(1)), Cause.MISSING)

    assert [(0, at(0, 9)), (at(0, 12), at(0, 14)), (at(0, 16), at(1))] == [
        (one.start_min, one.end_min) for one in found
    ]
    assert () == beyond(reaches, Work.OPEN, Span(at(0, 9), at(0, 12)), Cause.MISSING)


def test_syrup_is_judged_over_the_days_it_is_taken_down() -> None:
    """Means by day: 15, 8, 5, unknown, 15.  Two days down.

    From day 0: 11.5, fit; 1: 6.5; 2: 5 alone; 3: 15 alone; 4: 15.
    """
    air = {0: (100, 200), 1: (50, 110), 2: (20, 80), 4: (100, 200)}
    found = syrup_shut(air, range(5), 2, 100)

    assert [(at(1), at(2)), (at(2), at(3))] == [(one.start_min, one.end_min) for one in found]
    assert ["6.5 degC in the mean over the 2 days syrup is taken down",
            "5.0 degC in the mean over the day syrup is taken down"] == [
        one.whys[0].words() for one in found
    ]  # fmt: skip


def test_syrup_waits_where_the_temperature_is_not_told() -> None:
    """Day 3 is silent: whoever pours on day 2 or 3, two days down, does not know.

    Where the known days are too cold, that is the reason.
    """
    air = {0: (100, 200), 1: (100, 200), 2: (100, 200), 4: (100, 200)}
    cold = {**air, 2: (20, 80)}

    words = "temperature not told of a day on which syrup is taken down"
    assert [(at(2), words), (at(3), words)] == [
        (one.start_min, one.whys[0].words()) for one in syrup_shut(air, range(5), 2, 100, (3,))
    ]
    assert [Cause.MEAN, Cause.COLD] == [
        one.whys[0].cause for one in syrup_shut(cold, range(2, 5), 2, 100, (3,))
    ]


def test_worst_figures_are_told_as_such() -> None:
    """Of several hours: up to so much rain, down to so much cold."""
    assert "rain up to 2.1 mm/h" == Why(Cause.RAIN, 2100, worst=True).words()
    assert "temperature down to 9.0 degC" == Why(Cause.COLD, 90, worst=True).words()


AMOUNTS = st.none() | st.integers(0, 30_000)


@given(
    st.lists(
        st.builds(
            Hour, st.integers(0, 100).map(lambda n: 60 * n), st.none() | st.integers(-300, 400),
            AMOUNTS, st.just(60), AMOUNTS, AMOUNTS, st.none() | st.integers(0, 1000),
        ),
        min_size=1, unique_by=lambda hour: hour.start_min,
    ),
    st.integers(0, 20_000),
)  # fmt: skip
def test_more_is_borne_never_less_open(hours: list[Hour], more: int) -> None:
    """With higher bounds no hour is shut that was open; open hours are within every bound."""
    forecast = a_forecast(*sorted(hours, key=lambda hour: hour.start_min))
    wide = replace(OPEN, rain_um=OPEN.rain_um + more, wind_mms=OPEN.wind_mms + more)
    strict = {hour.start_min for hour in shut_hours(forecast, Work.OPEN, OPEN)}

    assert strict >= {hour.start_min for hour in shut_hours(forecast, Work.OPEN, wide)}
    for hour in hours:
        if hour.start_min not in strict:
            assert hour.rain_um is not None
            assert hour.rain_um <= OPEN.rain_um
            assert hour.temp_dc is not None
            assert hour.temp_dc >= 130
