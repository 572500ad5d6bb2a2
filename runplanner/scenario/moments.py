"""Dates and clock times as people type them."""

import re
from datetime import date, datetime, time
from typing import Final

from runplanner.phrase import phrase
from runplanner.scenario.faults import Refusal

_DATE: Final = re.compile(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})(?:[ T]00:00(?::00)?)?")
_CLOCK: Final = re.compile(r"([0-9]{1,2}):([0-9]{2})(?::00)?")
_A_DATE: Final = phrase("a date written year-month-day, such as 2027-03-01")
_A_CLOCK: Final = phrase("a time of day from 00:00 to 24:00, such as 07:30")


def a_date(said: object) -> date:
    """Return a calendar date.

    Raises:
        Refusal: When it is written another way or does not exist.
    """
    if isinstance(said, date) and not isinstance(said, datetime):
        return _sane(said)
    match = _DATE.fullmatch(str(said).strip())
    if match is None:
        raise Refusal(_A_DATE, phrase("Write the year first: 2027-03-01."))
    try:
        return _sane(date(int(match[1]), int(match[2]), int(match[3])))
    except ValueError:
        raise Refusal(_A_DATE, phrase("There is no such day.")) from None


def _sane(day: date) -> date:
    if not 2000 <= day.year <= 2100:
        raise Refusal(phrase("a date in the years 2000 to 2100"), phrase("Check the year."))
    return day


def clock_min(said: object) -> int:
    """Return a time of day in minutes since midnight.

    Raises:
        Refusal: When it is no time of day.
    """
    if isinstance(said, time):
        return said.hour * 60 + said.minute
    match = _CLOCK.fullmatch(str(said).strip())
    if match is None:
        raise Refusal(_A_CLOCK, phrase("Write hours and minutes with a colon, such as '07:30'."))
    hours, minutes = int(match[1]), int(match[2])
    if minutes > 59 or hours * 60 + minutes > 1440:
        raise Refusal(_A_CLOCK, phrase("A day has 24 hours."))
    return hours * 60 + minutes
