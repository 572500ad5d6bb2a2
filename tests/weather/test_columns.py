"""Lists of hourly figures, as Open-Meteo gives them."""

from datetime import date
from typing import Any

import pytest

from runplanner.weather.wall import Wall
from tests.weather.forecasts import AUCKLAND, at, columns, faults, only, read


def test_rain_belongs_to_the_hour_before_its_time() -> None:
    """Rain and gusts are told at the end of their hour, temperature and wind at its start."""
    forecast = read(
        columns(
            3,
            temperature_2m=[14.0, 15.0, 16.0],
            precipitation=[9.9, 0.4, 2.1],
            wind_speed_10m=[10.8, 18.0, 3.6],
            wind_gusts_10m=[90.0, 36.0, 43.2],
        )
    )

    first, second = forecast.hours
    assert (at(0, 0), 140, 400, 3000, 10_000) == (
        first.start_min, first.temp_dc, first.rain_um, first.wind_mms, first.gust_mms
    )  # fmt: skip
    assert (at(0, 1), 150, 2100, 5000, 12_000) == (
        second.start_min, second.temp_dc, second.rain_um, second.wind_mms, second.gust_mms
    )  # fmt: skip
    assert (-38.0, 175.1) == forecast.point


def test_thunder_by_its_chance_or_by_the_code() -> None:
    """A chance is taken as it stands; codes 95, 96 and 99 are thunderstorms."""
    chance = read(columns(3, thunderstorm_probability=[40, 5, 5], weather_code=[95, 0, 0]))
    code = read(columns(5, weather_code=[61, 95, 99, None, 0]))
    old = read(columns(3, weathercode=[96, True, 0]))

    assert [400, 50] == [hour.thunder_permille for hour in chance.hours]
    assert [0, 1000, 1000, None] == [hour.thunder_permille for hour in code.hours]
    assert [1000, None] == [hour.thunder_permille for hour in old.hours]
    assert 2 == len(read(columns(3)).silent("thunder_permille"))
    assert 2 == len(read(columns(3, weather_code=[95])).silent("thunder_permille"))


def test_where_no_chance_is_told_the_code_counts() -> None:
    """Entry by entry: a list of nulls hides no thunder.  95.0 is 95, and 95.5 is no code."""
    none = read(columns(3, thunderstorm_probability=[None] * 3, weather_code=[95, 0, 0]))
    some = read(columns(4, thunderstorm_probability=[10, None, None, 5], weather_code=[95] * 4))
    point = read(columns(4, weather_code=[95.0, 61.0, 95.5, 0]))

    assert [1000, 0] == [hour.thunder_permille for hour in none.hours]
    assert [100, 1000, 1000] == [hour.thunder_permille for hour in some.hours]
    assert [1000, 0, None] == [hour.thunder_permille for hour in point.hours]
    assert 2 == len(
        read(columns(3, thunderstorm_probability=[None] * 3)).silent("thunder_permille")
    )


def test_names_of_older_answers() -> None:
    """windspeed_10m is wind_speed_10m."""
    body: Any = columns(3, windspeed_10m=[3.6, 3.6, 3.6])
    del body["hourly"]["wind_speed_10m"]
    body["hourly_units"]["windspeed_10m"] = "km/h"

    assert 1000 == read(body).hours[0].wind_mms


def test_times_are_local_by_one_offset_even_across_a_change_of_clocks() -> None:
    """Asked in summer time, all of it is in summer time: Auckland, 4 April 2027.

    Offset 13 h: "02:00", "03:00", "04:00" on the 4th are 13:00, 14:00, 15:00 UTC.  On the
    wall they are 02:00 (summer), 02:00 (winter) and 03:00.
    """
    body: Any = columns(4, temperature_2m=[12.0, 11.0, 10.0, 9.0])
    body["utc_offset_seconds"] = 46_800
    body["timezone"] = "Pacific/Auckland"
    body["hourly"]["time"] = [f"2027-04-04T0{hour}:00" for hour in (2, 3, 4, 5)]

    hours = read(body, Wall(date(2027, 4, 4), "Pacific/Auckland")).hours

    assert [at(0, 2), at(0, 3)] == [hour.start_min for hour in hours]
    assert [110, 100] == [hour.temp_dc for hour in hours]  # of the two at 02:00 the colder


def test_unix_times_are_in_utc() -> None:
    """1,803,859,200 is midnight UTC of 2027-03-01: 13:00 in Auckland."""
    body: Any = columns(3)
    body["hourly"]["time"] = [20_878 * 86_400 + 3600 * number for number in range(3)]
    body["hourly_units"]["time"] = "unixtime"
    del body["utc_offset_seconds"]

    assert at(0, 13) == read(body, AUCKLAND).hours[0].start_min


def test_an_entry_that_is_missing_leaves_a_gap() -> None:
    """Without the next entry an hour has no rain told: it is missing."""
    body: Any = columns(4)
    body["hourly"]["time"] = [f"2027-03-01T{hour}:00" for hour in ("00", "01", "03", "04")]

    assert ((at(0, 1), at(0, 3)),) == read(body).gaps()


def test_nulls_are_not_zero() -> None:
    """The far end of an answer is often null."""
    forecast = read(columns(4, precipitation=[0, 0, None, None]))

    assert [0, None, None] == [hour.rain_um for hour in forecast.hours]


def changed(**changes: object) -> dict[str, object]:
    """A document with parts of its top replaced."""
    return columns(3) | changes


def timed(*times: object) -> dict[str, object]:
    """A document with these times."""
    return columns(len(times), time=list(times))


@pytest.mark.parametrize(
    ("body", "field", "cure"),
    [
        (changed(hourly=None), "hourly", "whole"),
        (changed(hourly_units=[]), "hourly_units", "whole"),
        (changed(utc_offset_seconds=None), "utc_offset_seconds", "hang on it"),
        (changed(utc_offset_seconds="0"), "utc_offset_seconds", "hang on it"),
        (changed(utc_offset_seconds=999_999), "utc_offset_seconds", "hang on it"),
        (changed(timezone="Pacific/Auckland"), "utc_offset_seconds", "never has that offset"),
        (changed(utc_offset_seconds=True), "utc_offset_seconds", "hang on it"),
        (columns(3, time=[]), "time", "whole"),
        (columns(3, time="soon"), "time", "whole"),
        (timed("2027-03-01T00:00", "x", "2027-03-01T02:00"), "time", "Save"),
        (timed("2027-03-01T00:00", "2027-03-01T00:00"), "time", "hourly figures"),
        (timed("2027-03-01T00:00", "2027-03-01T00:15"), "time", "hourly figures"),
        (timed("2027-03-01T01:00", "2027-03-01T00:00"), "time", "hourly figures"),
        (columns(1), "time", "more hours"),
        (columns(3, precipitation=[0, 0]), "precipitation", "one length"),
        (columns(3, precipitation=5), "precipitation", "whole"),
        (columns(3, precipitation=[0, "wet", 0]), "precipitation", "number"),
        (columns(3, temperature_2m=[20, 20, 999]), "temperature_2m", "number and unit"),
        (changed(error=True, reason="no such variable"), "reason", "refused"),
    ],
)
def test_one_slip_one_fault(body: object, field: str, cure: str) -> None:
    """A single slip is named by entry and field, with a cure."""
    found = only(faults(body))

    assert field == found.field
    assert cure in found.cure


def test_what_is_needed_must_have_been_asked_for() -> None:
    """Temperature, rain and wind; the cure says what to ask."""
    body: Any = columns(3)
    for name in ("temperature_2m", "precipitation", "wind_speed_10m"):
        del body["hourly"][name]

    found = faults(body)

    assert ["temperature_2m", "precipitation", "wind_speed_10m"] == [one.field for one in found]
    assert "hourly=temperature_2m,precipitation,wind_speed_10m" in found[0].cure


def test_units_must_be_told() -> None:
    """An inch of rain is no millimetre."""
    body: Any = columns(3)
    body["hourly_units"] = {"temperature_2m": "°F", "precipitation": "inch", "time": "iso8601"}
    found = only(faults(body))

    assert ("wind_speed_10m", "no unit") == (found.field, found.said)


def test_units_of_other_places() -> None:
    """Fahrenheit, inches and miles an hour: 50 F, 0.1 in, 10 mph."""
    body: Any = columns(2, temperature_2m=[50, 50], precipitation=[0, 0.1], wind_speed_10m=[10, 10])
    body["hourly_units"] |= {
        "temperature_2m": "°F", "precipitation": "inch", "wind_speed_10m": "mp/h",
    }  # fmt: skip
    hour = read(body).hours[0]

    assert (100, 2540, 4471) == (hour.temp_dc, hour.rain_um, hour.wind_mms)


@pytest.mark.parametrize("point", [None, "x", [1], 1000])
def test_without_a_place(point: object) -> None:
    """The place is welcome, not needed."""
    assert read(changed(latitude=point)).point is None
