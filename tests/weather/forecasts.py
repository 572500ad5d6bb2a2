"""Small invented forecasts for tests, written by hand in each shape."""

import json
from datetime import UTC, date, datetime, timedelta

from runplanner.errors import Fault, ScenarioError
from runplanner.weather.hours import Forecast, Hour
from runplanner.weather.judge import Bounds
from runplanner.weather.read_forecast import read_forecast
from runplanner.weather.wall import Wall

FIRST = date(2027, 3, 1)  # a Monday
UTC_WALL = Wall(FIRST, "Etc/UTC")
AUCKLAND = Wall(FIRST, "Pacific/Auckland")  # 13 h ahead of UTC until 4 April 2027, 03:00
OPEN = Bounds(200, 8_000, 12_000, 300, least_dc=130)
"""0.2 mm/h, 8 m/s, gusts of 12 m/s, thunder 30 %, 13 degrees."""


def at(day: int, hour: float = 0) -> int:
    """The minute of a clock hour on a day."""
    return day * 1440 + int(hour * 60)


def fair(start: int, hours: int = 24, **changes: int | None) -> tuple[Hour, ...]:
    """Fair hours from minute ``start`` on: 18 degrees, dry, a light wind."""
    told: dict[str, int | None] = {"temp_dc": 180, "rain_um": 0, "wind_mms": 3000, **changes}
    return tuple(Hour(start + 60 * number, **told) for number in range(hours))  # type: ignore[arg-type]


def a_forecast(*hours: Hour, made: int | None = None) -> Forecast:
    """A forecast of these hours."""
    return Forecast("test", hours[0].start_min if made is None else made, None, hours)


Figures = dict[str, object]


def a_step(
    hour: int, temp: object = 18.0, wind: object = 3.0, **stretches: Figures
) -> dict[str, object]:
    """A step so many hours after midnight UTC of day 0; ``next_1_hours`` and the like."""
    moment = datetime(2027, 3, 1, tzinfo=UTC) + timedelta(hours=hour)
    data: dict[str, object] = {
        "instant": {"details": {"air_temperature": temp, "wind_speed": wind}},
        **stretches,
    }
    return {"time": moment.strftime("%Y-%m-%dT%H:%M:%SZ"), "data": data}


def rain(amount: object, symbol: str = "", **more: object) -> Figures:
    """What follows a step: rain, perhaps a symbol, more figures."""
    body: Figures = {"details": {"precipitation_amount": amount, **more}}
    return body | ({"summary": {"symbol_code": symbol}} if symbol else {})


STEP_UNITS = {
    "air_temperature": "celsius",
    "precipitation_amount": "mm",
    "wind_speed": "m/s",
    "wind_speed_of_gust": "m/s",
    "probability_of_thunder": "%",
}


def steps(*rows: object, **changes: object) -> dict[str, object]:
    """A document of time steps; ``changes`` replace parts of ``properties``."""
    meta = {"updated_at": "2027-02-28T21:10:00Z", "units": STEP_UNITS}
    return {
        "type": "Feature",
        "geometry": {"type": "Point", "coordinates": [175.1, -38.0, 60]},
        "properties": {"meta": meta, "timeseries": list(rows), **changes},
    }


def columns(entries: int = 4, **changes: object) -> dict[str, object]:
    """A document of hourly columns from midnight of day 0; ``changes`` go into ``hourly``."""
    start = datetime(2027, 3, 1, tzinfo=UTC)
    times = [(start + timedelta(hours=n)).strftime("%Y-%m-%dT%H:%M") for n in range(entries)]
    hourly: dict[str, object] = {
        "time": times,
        "temperature_2m": [18.0] * entries,
        "precipitation": [0.0] * entries,
        "wind_speed_10m": [10.8] * entries,
        **changes,
    }
    return {
        "latitude": -38.0,
        "longitude": 175.1,
        "utc_offset_seconds": 0,
        "timezone": "GMT",
        "hourly_units": {
            "time": "iso8601",
            "temperature_2m": "°C",
            "precipitation": "mm",
            "wind_speed_10m": "km/h",
            "wind_gusts_10m": "km/h",
            "thunderstorm_probability": "%",
        },
        "hourly": hourly,
    }


PLAIN = """\
time,temp_c,rain_mm,wind_ms,gust_ms,thunder_pct
2027-03-01 06:00,12.5,0,2,4,0
2027-03-01 07:00,14,0.1,2.5,5,5
2027-03-01 08:00,16,2.1,9,14,40
"""


def read(body: object, wall: Wall = UTC_WALL, zone: str = "") -> Forecast:
    """The one forecast in a document or a text."""
    (found,) = read_all(body, wall, zone).values()
    return found


def read_all(body: object, wall: Wall = UTC_WALL, zone: str = "") -> dict[str, Forecast]:
    """Every forecast in a document or a text."""
    return read_forecast(raw(body), "sky.json", wall, zone)


def raw(body: object) -> bytes:
    """The bytes of a document or a text."""
    if isinstance(body, bytes):
        return body
    text = body if isinstance(body, str) else json.dumps(body)
    return text.encode("utf-8")


def faults(body: object, wall: Wall = UTC_WALL) -> tuple[Fault, ...]:
    """The faults for which a document or a text is refused; none is a failed test."""
    try:
        read_forecast(raw(body), "sky.json", wall)
    except ScenarioError as error:
        return error.faults
    raise AssertionError("the forecast was not refused")


def only(found: tuple[Fault, ...]) -> Fault:
    """The one fault there is."""
    assert 1 == len(found), "\n".join(fault.sentence() for fault in found)
    return found[0]
