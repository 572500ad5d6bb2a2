from datetime import date

import pytest

from runplanner.days import Span, clock
from runplanner.scenario.faults import Refusal
from runplanner.scenario.places.sun import (
    clock_change,
    nearest_zone,
    noon_is_off,
    sun_spans,
    zone_name,
)

WAYNE = (40.9, -74.3)
AUCKLAND = (-36.85, 174.76)


def test_published_worked_example() -> None:
    """Sunrise at Wayne, New Jersey, on 25 June 1990 is 5:26 local time."""
    # Almanac for Computers, US Naval Observatory 1990; the figure from memory (class M).
    span = sun_spans([WAYNE], date(1990, 6, 25), "America/New_York")[0]

    assert clock(span.start_min) in {"05:26", "05:27"}


def test_days_are_local_days() -> None:
    """In New Zealand the sun rises before it sets, on the same local day (a known trap)."""
    spans = sun_spans([AUCKLAND] * 3, date(2027, 4, 2), "Pacific/Auckland")

    assert [0, 1, 2] == [span.start_min // 1440 for span in spans]
    assert all(span.start_min < span.end_min for span in spans)
    assert "07:35" == clock(spans[0].start_min)
    # Clocks go back on 4 April 2027, so everything is an hour earlier then.
    assert 58 <= spans[0].start_min - (spans[2].start_min - 2 * 1440) <= 60


def test_seasons_of_both_hemispheres() -> None:
    """At the June solstice the day is long in Vienna and short in Auckland."""
    north = sun_spans([(48.2, 16.4)], date(2027, 6, 21), "Europe/Vienna")[0]
    south = sun_spans([AUCKLAND], date(2027, 6, 21), "Pacific/Auckland")[0]

    assert north.end_min - north.start_min > 16 * 60
    assert south.end_min - south.start_min < 10 * 60


def test_beyond_the_polar_circle() -> None:
    """Where the sun does not set the whole day is light; where it does not rise none is."""
    tromso = [(69.65, 18.96)]

    assert (Span(0, 1440),) == sun_spans(tromso, date(2027, 6, 21), "Europe/Oslo")
    dark = sun_spans(tromso, date(2027, 12, 21), "Europe/Oslo")[0]
    assert dark.start_min == dark.end_min


@pytest.mark.parametrize(
    ("here", "zone", "on", "start", "end"),
    [
        # The sun rises at 02:08 and sets at 00:30 of the next day.
        ((66.5, 25.7), "Europe/Helsinki", date(2027, 7, 10), "02:09", "24:00"),
        # One sunset at 23:57 of the day before, the next at 00:03 of the day after.
        ((66.5, 25.7), "Europe/Helsinki", date(2027, 5, 29), "02:31", "24:00"),
        # The first night for weeks begins at 23:09.
        ((68.0, 50.0), "Europe/Moscow", date(2027, 7, 18), "00:00", "23:09"),
        # Far east in its zone: the sun sets at 22:18 and rises at 23:54 of the same evening.
        ((68.0, 60.0), "Europe/Moscow", date(2027, 7, 19), "00:00", "22:18"),
    ],
)
def test_sun_up_at_midnight(
    here: tuple[float, float], zone: str, on: date, start: str, end: str
) -> None:
    """A day that the sun neither begins nor ends below the horizon is lit from or to midnight."""
    span = sun_spans([here], on, zone)[0]

    assert [start, end] == [f"{minute // 60:02d}:{minute % 60:02d}" for minute in span]


@pytest.mark.parametrize(
    ("here", "zone"),
    [
        ((-38.05, 175.1), "Pacific/Auckland"),
        ((-34.0, -71.0), "America/Santiago"),
        ((48.1, 16.3), "Europe/Vienna"),
        ((-43.9, -176.5), "Pacific/Chatham"),
    ],
)
def test_zone_guessed_from_the_base(here: tuple[float, float], zone: str) -> None:
    """The zone whose principal place is nearest is the guess."""
    assert zone == nearest_zone(here)
    assert not noon_is_off(here, zone, date(2027, 3, 1))


def test_noon_tells_a_wrong_zone() -> None:
    """With the zone of the other side of the world the sun would stand highest at night."""
    assert noon_is_off(AUCKLAND, "Europe/Vienna", date(2027, 3, 1))


def test_clock_change() -> None:
    """A campaign over the end of summer time is noticed."""
    assert date(2027, 4, 4) == clock_change("Pacific/Auckland", date(2027, 4, 1), 10)
    assert clock_change("Pacific/Auckland", date(2027, 3, 1), 10) is None


@pytest.mark.parametrize("said", ["Pacific/Aukland", "NZ", "", "UTC+12", 12, "../etc/passwd"])
def test_no_zone(said: object) -> None:
    """Abbreviations, offsets and slips are refused."""
    with pytest.raises(Refusal, match="an IANA zone"):
        zone_name(said)


def test_zone() -> None:
    """A zone of the tz database is taken as it is."""
    assert "Europe/Vienna" == zone_name(" Europe/Vienna ")
