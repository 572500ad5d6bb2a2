"""Moments on the campaign's clock, across zones and changes of the clocks."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.days import Span
from runplanner.weather.wall import Wall, a_moment, of_epoch, zone_offsets
from tests.weather.forecasts import AUCKLAND, UTC_WALL, at

# Auckland: clocks go back on Sunday 4 April 2027, 03:00 to 02:00 (New Zealand Time Order);
# forward on Sunday 26 September 2027, 02:00 to 03:00.
BACK = Wall(date(2027, 4, 3), "Pacific/Auckland")
FORWARD = Wall(date(2027, 9, 25), "Pacific/Auckland")
LORD_HOWE = Wall(date(2027, 10, 2), "Australia/Lord_Howe")  # half an hour, 3 October 02:00


def test_a_moment_in_utc_falls_on_the_wall_of_the_zone() -> None:
    """13 hours ahead in March: 18:30 UTC on the day before is 07:30."""
    moment = datetime(2027, 2, 28, 18, 30, tzinfo=UTC)

    assert at(0, 7.5) == AUCKLAND.minute(moment)
    assert at(-1, 18.5) == UTC_WALL.minute(moment)


def test_clocks_that_go_back_show_an_hour_twice() -> None:
    """13:30 and 14:30 UTC on 3 April both read 02:30 in Auckland on the 4th."""
    one, other = (datetime(2027, 4, 3, hour, 30, tzinfo=UTC) for hour in (13, 14))

    assert at(1, 2.5) == BACK.minute(one) == BACK.minute(other)
    assert BACK.twice(at(1, 2.5))
    assert not BACK.twice(at(1, 3))
    assert not BACK.never(at(1, 2.5))
    assert () == BACK.skipped(range(3))


def test_clocks_that_go_forward_skip_an_hour() -> None:
    """02:00 to 03:00 never comes on 26 September."""
    assert FORWARD.never(at(1, 2))
    assert not FORWARD.twice(at(1, 2))
    assert (Span(at(1, 2), at(1, 3)),) == FORWARD.skipped(range(3))


def test_half_an_hour_can_be_skipped() -> None:
    """Lord Howe's clocks go forward by half an hour."""
    assert (Span(at(1, 2), at(1, 2.5)),) == LORD_HOWE.skipped(range(4))


@given(st.integers(0, 400 * 24), st.sampled_from(["Pacific/Auckland", "Europe/Vienna"]))
def test_the_wall_reads_as_the_zone_does(hours: int, zone: str) -> None:
    """Any hour of a year: day and time of day are those zoneinfo gives."""
    moment = datetime(2027, 1, 1, tzinfo=UTC) + timedelta(hours=hours)
    local = moment.astimezone(ZoneInfo(zone))

    minute = Wall(date(2027, 1, 1), zone).minute(moment)

    assert (local.date() - date(2027, 1, 1)).days == minute // 1440
    assert local.hour * 60 + local.minute == minute % 1440


@pytest.mark.parametrize(
    "text",
    [
        "2027-03-01T06:00Z", "2027-03-01 06:00", "2027-03-01T06:00:00.000Z",
        "2027-03-01T06:00+13:00", "2027-03-01T06:00:00+1300", " 2027-03-01T06:00 ",
    ],
)  # fmt: skip
def test_moments_as_they_are_written(text: str) -> None:
    """Dates with a time of day, with and without an offset."""
    found = a_moment(text)

    assert found is not None
    assert (2027, 3, 1, 6, 0) == (found.year, found.month, found.day, found.hour, found.minute)
    assert ("Z" in text or "+" in text) == (found.tzinfo is not None)


@pytest.mark.parametrize(
    "text",
    [
        "", "2027-03-01", "01/03/2027 06:00", "2027-02-30T06:00Z", "2027-03-01T24:30Z",
        "2027-03-01T06:00+99:00", "0001-01-01T00:00Z", "9999-12-31T23:00Z", "2027-W09-1T06:00",
        "2027-03-01T06:00:61Z", "\u0662027-03-01T06:00Z", None, 7, True, "2027-03-01T06:00Z\nx",
    ],
)  # fmt: skip
def test_what_is_no_moment(text: object) -> None:
    """Anything else is none, and never an error."""
    assert a_moment(text) is None


@pytest.mark.parametrize("seconds", [True, 1.5, "1", None, -1, 10**18, 0])
def test_what_is_no_unix_time(seconds: object) -> None:
    """Only whole seconds of this century."""
    assert of_epoch(seconds) is None


def test_unix_time() -> None:
    """1,803,859,200 s = 2027-03-01 00:00 UTC: 20,878 days of 86,400 s."""
    assert datetime(2027, 3, 1, tzinfo=UTC) == of_epoch(20_878 * 86_400)


def test_offsets_of_a_zone() -> None:
    """Auckland is 12 or 13 hours ahead, Kolkata five and a half."""
    assert {43_200, 46_800} == zone_offsets("Pacific/Auckland", 2027)
    assert {19_800} == zone_offsets("Asia/Kolkata", 2027)
