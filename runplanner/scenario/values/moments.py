"""Dates and clock times as people type them."""

import re
from contextlib import suppress
from datetime import date, datetime, time, timedelta
from fractions import Fraction
from typing import Final

from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.words import unaccented

MONTHS: Final = (
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
)  # fmt: skip
"""The months by their first three letters."""

_PART_OF_DAY: Final = re.compile(r"0?\.[0-9]+")
_DATE: Final = re.compile(r"([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})(?:[ T]00:00(?::00)?)?")
_CLOCK: Final = re.compile(r"([0-9]{1,2}):([0-9]{2})(?::00)?")
_YEAR_FIRST: Final = re.compile(r"([0-9]{4})[-/. ]([0-9]{1,2})[-/. ]([0-9]{1,2})(?:[ T].*)?")
_YEAR_LAST: Final = re.compile(
    r"([0-9]{1,2})([-/.]) ?([0-9]{1,2})[-/.] ?([0-9]{4}|[0-9]{2})(?:[ T].*)?"
)
_DAY_ZERO: Final = date(1899, 12, 30)
"""From here spreadsheets count days, the day of 1 January 1900 being 2 (common practice)."""
_COUNTED: Final = re.compile(r"([34567][0-9]{4})(?:\.[0-9]+)?")
"""Days as a spreadsheet counts them, of 1982 to 2118."""
_GERMAN: Final = {"mai": "may", "okt": "oct", "dez": "dec"}
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
        raise Refusal(_A_DATE, _turned_round(str(said)))
    try:
        return _sane(date(int(match[1]), int(match[2]), int(match[3])))
    except ValueError:
        raise Refusal(_A_DATE, phrase("There is no such day.")) from None


def _turned_round(text: str) -> Phrase:
    """Return how to write a date that is written another way; both where it may be two days."""
    if counted := _COUNTED.fullmatch(text.strip()):
        return phrase(
            "A spreadsheet counts days so, and means {date}: have it show the column as dates, "
            "the year first, and save it again.",
            date=(_DAY_ZERO + timedelta(days=int(counted[1]))).isoformat(),
        )
    tried = _may_be(" ".join(text.split()))
    if not tried:
        return phrase("Write year, month and day, in this order.")
    days = []
    for numbers in dict.fromkeys(tried):
        with suppress(ValueError):
            days.append(date(*numbers).isoformat())
    if not days:
        return phrase("There is no such day.")
    if len(days) == 1:
        return phrase("Write the year first: {date}.", date=days[0])
    return phrase(
        "Write the year first: {date}, or {other} if the month stood first.",
        date=days[0], other=days[1],
    )  # fmt: skip


def _may_be(text: str) -> list[tuple[int, int, int]]:
    """Return year, month and day that a date written in another way may have."""
    if found := _YEAR_FIRST.fullmatch(text):
        return [(int(found[1]), int(found[2]), int(found[3]))]
    if found := _YEAR_LAST.fullmatch(text):
        one, other, year = int(found[1]), int(found[3]), _full(found[4])
        # Where dots are written between, the day stands first.
        return [(year, other, one), *([] if found[2] == "." else [(year, one, other)])]
    words = [unaccented(word)[:3] for word in re.findall(r"[^\W\d_]{3,}", text)]
    months = [month for word in words if (month := _GERMAN.get(word, word)) in MONTHS]
    numbers = re.findall("[0-9]{1,4}", text)
    if len(months) != 1 or len(numbers) != 2:
        return []
    day, year = sorted(numbers, key=len) if len(numbers[0]) == 4 else numbers
    return [(_full(year), MONTHS.index(months[0]) + 1, int(day))]


def _full(year: str) -> int:
    """Return a year that may be written with two digits, of this century."""
    return int(year) + (2000 if len(year) == 2 else 0)


def _sane(day: date) -> date:
    if not 2000 <= day.year <= 2100:
        raise Refusal(phrase("a date in the years 2000 to 2100"), phrase("Check the year."))
    return day


def _with_colon(text: str) -> Phrase:
    """Return how to write a time of day that is written another way."""
    if not _PART_OF_DAY.fullmatch(text):
        return phrase("Write hours and minutes with a colon, such as '07:30'.")
    hours, minutes = divmod(round(Fraction(text) * 1440), 60)
    return phrase(
        "A spreadsheet counts parts of a day so, and means {clock}: have it show the column as "
        "hours and minutes, and save it again.",
        clock=f"{hours:02}:{minutes:02}",
    )


def clock_min(said: object) -> int:
    """Return a time of day in minutes since midnight.

    Raises:
        Refusal: When it is no time of day.
    """
    if isinstance(said, time):
        return said.hour * 60 + said.minute
    match = _CLOCK.fullmatch(str(said).strip())
    if match is None:
        raise Refusal(_A_CLOCK, _with_colon(str(said).strip()))
    hours, minutes = int(match[1]), int(match[2])
    if minutes > 59 or hours * 60 + minutes > 1440:
        raise Refusal(_A_CLOCK, phrase("A day has 24 hours."))
    return hours * 60 + minutes
