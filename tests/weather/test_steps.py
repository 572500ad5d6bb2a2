"""A list of time steps, as met.no's locationforecast gives it."""

from typing import Any

import pytest

from tests.weather.forecasts import (
    AUCKLAND,
    STEP_UNITS,
    a_step,
    at,
    faults,
    only,
    rain,
    read,
    steps,
)


def test_hours_from_the_full_form() -> None:
    """Instant figures hold from their time, rain and thunder for the hour after it."""
    row: dict[str, Any] = a_step(
        6, 14.2, 5.1, next_1_hours=rain(0.3, "rain", probability_of_thunder=12.5)
    )
    row["data"]["instant"]["details"]["wind_speed_of_gust"] = 9.4
    forecast = read(steps(row, a_step(7, next_1_hours=rain(0)), a_step(8)))

    hour = forecast.hours[0]
    assert (at(0, 6), at(0, 7)) == (hour.start_min, hour.end_min)
    assert (142, 300, 60) == (hour.temp_dc, hour.rain_um, hour.rain_over_min)
    assert (5100, 9400, 125) == (hour.wind_mms, hour.gust_mms, hour.thunder_permille)
    assert (-38.0, 175.1) == forecast.point
    assert at(-1, 21) + 10 == forecast.made_min


def test_the_last_step_has_no_stretch() -> None:
    """There is always one more instant than there are stretches."""
    forecast = read(steps(a_step(6, next_1_hours=rain(0)), a_step(7)))

    assert [at(0, 6)] == [hour.start_min for hour in forecast.hours]


def test_the_short_form_tells_thunder_by_its_symbol() -> None:
    """No chance of thunder in it, but a symbol that shows thunder is certain enough."""
    forecast = read(
        steps(
            a_step(6, next_1_hours=rain(1, "heavyrainandthunder")),
            a_step(7, next_1_hours=rain(0, "cloudy")),
            a_step(8, next_1_hours=rain(0)),
        )
    )

    assert [1000, 0, None] == [hour.thunder_permille for hour in forecast.hours]
    assert 3 == len(forecast.silent("gust_mms"))


def test_the_shortest_stretch_counts() -> None:
    """Where the next hour and the next six are both told, the hour is."""
    forecast = read(steps(a_step(6, next_6_hours=rain(9), next_1_hours=rain(0.2)), a_step(7)))

    assert [(200, 60)] == [(hour.rain_um, hour.rain_over_min) for hour in forecast.hours]


def test_six_hours_at_once_further_ahead() -> None:
    """Rain of six hours is told for each of them; temperature runs straight between steps.

    From 12.0 at 06:00 to 18.0 at 12:00 it rises by one degree an hour; the stronger of the
    winds 3 and 8 counts.
    """
    forecast = read(
        steps(
            a_step(6, 12.0, 3.0, next_6_hours=rain(2.4)),
            a_step(12, 18.0, 8.0, next_6_hours=rain(0)),
            a_step(18, 12.0, 2.0),
        )
    )

    morning = forecast.hours[:6]
    assert [120, 130, 140, 150, 160, 170] == [hour.temp_dc for hour in morning]
    assert {(2400, 360, 8000)} == {
        (hour.rain_um, hour.rain_over_min, hour.wind_mms) for hour in morning
    }
    assert at(0, 18) == forecast.reach().end_min


def test_six_hours_end_where_the_next_step_begins() -> None:
    """A step three hours later cuts the stretch short; the rise takes three hours."""
    forecast = read(
        steps(a_step(6, 12.0, next_6_hours=rain(1)), a_step(9, 18.0, next_6_hours=rain(0)))
    )

    assert [120, 140, 160] == [hour.temp_dc for hour in forecast.hours[:3]]
    assert 3 + 6 == len(forecast.hours)
    assert 180 == forecast.hours[-1].temp_dc  # nothing follows: it stays


def test_a_step_without_what_follows_leaves_a_gap() -> None:
    """Between one model and the next an hour may have no stretch: it is missing, not dry."""
    forecast = read(
        steps(a_step(6, next_1_hours=rain(0)), a_step(7), a_step(8, next_1_hours=rain(0)))
    )

    assert ((at(0, 7), at(0, 8)),) == forecast.gaps()


def test_steps_out_of_order_are_sorted() -> None:
    """The order in the file does not matter."""
    rows = [a_step(hour, 10.0 + hour, next_1_hours=rain(0)) for hour in (8, 6, 7)]

    assert [160, 170, 180] == [hour.temp_dc for hour in read(steps(*rows)).hours]


def test_figures_not_told_stay_untold() -> None:
    """Null and missing figures are not taken for zero."""
    row: dict[str, Any] = a_step(6, None, None, next_1_hours={"details": {}})
    hour = read(steps(row)).hours[0]

    assert (None, None, None) == (hour.temp_dc, hour.wind_mms, hour.rain_um)


def test_it_falls_on_the_wall_of_the_campaign() -> None:
    """06:00 UTC is 19:00 in Auckland in March."""
    assert at(0, 19) == read(steps(a_step(6, next_1_hours=rain(0))), AUCKLAND).hours[0].start_min


@pytest.mark.parametrize("said", ["", "soon", "2027-02-28T21:10:00", 5, None])
def test_without_a_time_of_making_it_counts_from_its_first_hour(said: object) -> None:
    """A time without an offset is no time in UTC."""
    body = steps(a_step(6, next_1_hours=rain(0)), meta={"updated_at": said, "units": STEP_UNITS})

    assert at(0, 6) == read(body).made_min


@pytest.mark.parametrize("geometry", [None, 5, {}, {"coordinates": [1]}, {"coordinates": "x"}])
def test_without_a_place(geometry: object) -> None:
    """The place is welcome, not needed."""
    body = steps(a_step(6, next_1_hours=rain(0))) | {"geometry": geometry}

    assert read(body).point is None


STEP = a_step(6, next_1_hours=rain(0))


@pytest.mark.parametrize(
    ("body", "field", "cure"),
    [
        ({"properties": None}, "properties", "whole"),
        ({"properties": []}, "properties", "whole"),
        (steps(STEP, meta=5), "meta", "whole"),
        (steps(STEP, meta={"x": 1}), "units", "whole"),
        (steps(), "timeseries", "whole"),
        (steps(STEP, timeseries={}), "timeseries", "whole"),
        (steps("rain"), "timeseries", "whole"),
        (steps(STEP | {"time": "2027-03-01T06:00"}), "time", "in UTC"),
        (steps(STEP | {"time": None}), "time", "in UTC"),
        (steps(STEP | {"data": []}), "data", "whole"),
        (steps(STEP, STEP), "time", "keep one"),
        (steps(a_step(6)), "timeseries", "whole"),
        (steps(a_step(6, "warm", next_1_hours=rain(0))), "air_temperature", "number"),
        (steps(a_step(6, True, next_1_hours=rain(0))), "air_temperature", "number"),
        (steps(a_step(6, 99, next_1_hours=rain(0))), "air_temperature", "check number and unit"),
        (steps(a_step(6, next_1_hours=rain(-1))), "precipitation_amount", "check number"),
        (steps(a_step(6, next_1_hours=rain([1]))), "precipitation_amount", "number"),
    ],
)
def test_one_slip_one_fault(body: object, field: str, cure: str) -> None:
    """A single slip is named by step and field, with a cure."""
    found = only(faults(body))

    assert ("sky.json", field) == (found.file, found.field)
    assert cure in found.cure


def test_a_unit_that_is_missing_or_another_is_refused() -> None:
    """Figures without a unit, or in one that is not known, mean nothing."""
    units = {"air_temperature": "kelvin", "wind_speed": 5}
    found = faults(steps(STEP, meta={"units": units}))

    assert ["air_temperature", "precipitation_amount", "wind_speed"] == [one.field for one in found]
    assert ["kelvin", "no unit", "5"] == [one.said for one in found]


def test_thousands_of_slips_are_counted() -> None:
    """The first twenty are told, the others counted."""
    found = faults(steps(*(a_step(hour, "x", next_1_hours=rain(0)) for hour in range(50))))

    assert 21 == len(found)
    assert "30 more faults" == found[-1].said
