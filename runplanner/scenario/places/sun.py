"""Sunrise and sunset in local time, and the zone that local time is in."""

from collections.abc import Callable, Sequence
from datetime import date, datetime, timedelta
from functools import cache
from importlib import resources
from math import ceil, cos, floor, radians, sin
from zoneinfo import ZoneInfo, available_timezones

from runplanner.days import DAY_MIN, Span
from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal, did_you_mean
from runplanner.scenario.places.points import Point


def zone_name(said: object) -> str:
    """Return an IANA zone name.

    Raises:
        Refusal: When there is no such zone.
    """
    zones = sorted(available_timezones())
    if isinstance(said, str) and said.strip() in zones and "/" in said:
        return said.strip()
    places = [zone for zone in zones if "/" in zone and not zone.startswith("Etc/")]
    near = did_you_mean(str(said), places)
    cure = near if near.startswith("Did") else phrase("Write continent and city.")
    raise Refusal(phrase("an IANA zone such as Pacific/Auckland or Europe/Vienna"), cure)


@cache
def _zone_places() -> tuple[tuple[str, Point], ...]:
    """Return the principal place of every zone, from the zone table of the tz database."""
    table = resources.files("tzdata").joinpath("zoneinfo", "zone1970.tab").read_text("utf-8")
    rows = [line.split("\t") for line in table.splitlines() if not line.startswith("#")]
    return tuple((row[2], _iso_6709(row[1])) for row in rows)


def _iso_6709(text: str) -> Point:
    cut = max(text.rfind("+"), text.rfind("-"))
    return _sign_degrees(text[:cut], 2), _sign_degrees(text[cut:], 3)


def _sign_degrees(text: str, width: int) -> float:
    digits = text[1:].ljust(width + 4, "0")
    parts = digits[:width], digits[width : width + 2], digits[width + 2 : width + 4]
    degrees = int(parts[0]) + int(parts[1]) / 60 + int(parts[2]) / 3600
    return -degrees if text[0] == "-" else degrees


def nearest_zone(here: Point) -> str:
    """Return the zone whose principal place lies nearest: a guess, wrong near some borders."""
    return max(_zone_places(), key=lambda row: _nearness(here, row[1]))[0]


def _nearness(here: Point, there: Point) -> float:
    lat, lon, lat2, lon2 = (radians(angle) for angle in (*here, *there))
    return sin(lat) * sin(lat2) + cos(lat) * cos(lat2) * cos(lon - lon2)


def noon_is_off(here: Point, zone: str, day: date) -> bool:
    """Tell whether the sun stands highest at an hour no zone puts it: the zone is then wrong."""
    noon = 12 - here[1] / 15 + _offset_h(zone, day)
    return not 9 < noon % 24 < 16


def _offset_h(zone: str, day: date) -> float:
    offset = datetime(day.year, day.month, day.day, 12, tzinfo=ZoneInfo(zone)).utcoffset()
    return (offset or timedelta()).total_seconds() / 3600


def clock_change(zone: str, first: date, n_days: int) -> date | None:
    """Return the first day of the campaign whose clocks differ from the day before, or None."""
    for day in (first + timedelta(days=number) for number in range(1, n_days + 1)):
        if _offset_h(zone, day) != _offset_h(zone, day - timedelta(days=1)):
            return day
    return None


def sun_spans(places: Sequence[Point], first: date, zone: str) -> tuple[Span, ...]:
    """Return sunrise to sunset of each day, at the place where the hives stand that day.

    Sunrise is rounded up and sunset down to the minute.  A day begins or ends lit where the sun is
    up at midnight; of one with a night between, the longer light counts.
    """
    return tuple(
        _day_span(here, first + timedelta(days=day), zone, day) for day, here in enumerate(places)
    )


@cache
def _day_span(here: Point, on: date, zone: str, day: int) -> Span:
    from astral import Observer
    from astral.sun import elevation, sunrise, sunset

    observer, tz = Observer(*here), ZoneInfo(zone)
    midnight = day * DAY_MIN
    noon = datetime(on.year, on.month, on.day, 12, tzinfo=tz)

    def minute(crossing: Callable[..., datetime]) -> float | None:
        try:
            return _minute_of(crossing(observer, on, tzinfo=tz))
        except ValueError:  # the sun does not cross the horizon so that day
            return None

    up, down = minute(sunrise), minute(sunset)
    if (up is None or down is None) and elevation(observer, noon) <= 0:
        return Span(midnight + 720, midnight + 720)
    start, end = ceil(up or 0), DAY_MIN if down is None else floor(down)
    if start >= end:  # that sunset ended the light of the day before
        start, end = max(((0, end), (start, DAY_MIN)), key=lambda lit: lit[1] - lit[0])
    return Span(midnight + start, midnight + end)


def _minute_of(moment: datetime) -> float:
    """Return wall-clock minutes since midnight."""
    return moment.hour * 60 + moment.minute + moment.second / 60
