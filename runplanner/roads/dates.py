"""Dates in conditions: ``Nov 15-Mar 31``, ``2021 May 03-2021 Dec 20``, ``Jun,Aug``.

The form is that of the OpenStreetMap wiki's "Key:opening_hours/specification", as far as
months, their days and years go; what else stands there (weeks, holidays, moving feasts) is
not judged here.
"""

import re
from calendar import monthrange
from datetime import date, timedelta
from typing import Final

_MONTHS: Final = ("jan", "feb", "mar", "apr", "may", "jun",
                  "jul", "aug", "sep", "oct", "nov", "dec")  # fmt: skip
MONTH: Final = re.compile(rf"\b(?:{'|'.join(_MONTHS)})", re.IGNORECASE)
"""Where a month is spoken of."""
_AT: Final = (
    r"(?:(?P<year{0}>[12][0-9]{{3}})\s+)?(?P<month{0}>" + "|".join(_MONTHS) + r")(?![a-z])"
    r"(?:\s*(?P<day{0}>[0-9]{{1,2}})(?![0-9:]))?"
)
_RANGE: Final = re.compile(
    _AT.format("") + rf"(?:\s*-\s*(?:{_AT.format('_end')}|(?P<last>[0-9]{{1,2}})(?![0-9:])))?",
    re.IGNORECASE,
)
_COMMA: Final = re.compile(r"\s*,\s*")
_BEHIND: Final = re.compile(r"(?:\s*:)?\s+|$")


def dated(rule: str) -> tuple[list[re.Match[str]], str]:
    """Return the ranges of dates that ``rule`` begins with, and what stands behind them.

    None where they are not told apart from the rest by a space or a colon.
    """
    ranges: list[re.Match[str]] = []
    at = 0
    while found := _RANGE.match(rule, at):
        ranges.append(found)
        comma = _COMMA.match(rule, found.end())
        if comma is None:
            behind = _BEHIND.match(rule, found.end())
            return (ranges, rule[behind.end() :]) if behind else ([], rule)
        at = comma.end()
    return [], rule


def falls_in(range_: re.Match[str], days: tuple[date, date]) -> bool:
    """Tell whether a range meets ``days``, the first and the last; its last night counts.

    Without a year it comes round every year.
    """
    first, last = days
    said = range_["year"]
    years = [int(said)] if said else range(first.year - 1, last.year + 1)
    spans = (_span(range_, year) for year in years)
    return any(start <= last and first <= end + timedelta(days=1) for start, end in spans)


def _span(range_: re.Match[str], year: int) -> tuple[date, date]:
    """Return the first and last day of a range that begins in ``year``."""
    start = _day(year, range_["month"], range_["day"] or "1")
    if range_["month_end"]:
        end_year = int(range_["year_end"] or year)
        end = _day(end_year, range_["month_end"], range_["day_end"] or "31")
        if end < start and not range_["year_end"]:
            end = _day(year + 1, range_["month_end"], range_["day_end"] or "31")
        return start, end
    return start, _day(year, range_["month"], range_["last"] or range_["day"] or "31")


def _day(year: int, month: str, day: str) -> date:
    """Return a date; a day that the month does not have is its last."""
    number = _MONTHS.index(month.lower()) + 1
    return date(year, number, max(1, min(int(day), monthrange(year, number)[1])))
