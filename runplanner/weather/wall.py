"""From moments of a forecast to minutes of the campaign, through time zones and clock changes.

The campaign's clock is local wall time, and each of its days has 24 hours.  Where clocks go
back, two hours of the forecast fall on one hour of the wall; where they go forward, one hour
of the wall never comes, and nothing can be missing from it.
"""

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from runplanner.days import DAY_MIN, Span, join

_MOMENT: Final = re.compile(
    r"[0-9]{4}-[0-9]{2}-[0-9]{2}[T ][0-9]{2}:[0-9]{2}(?::[0-9]{2}(?:\.[0-9]{1,6})?)?"
    r"(?:Z|[+-][0-9]{2}:?[0-9]{2})?"
)
_STEP_MIN: Final = 15
"""Clocks are changed by whole quarters of an hour."""


@dataclass(frozen=True, slots=True)
class Wall:
    """The clock on the wall of one campaign: day 0 and the zone."""

    first: date
    zone: str

    def minute(self, moment: datetime) -> int:
        """Return the campaign's minute of an aware ``moment``."""
        return self.local_minute(moment.astimezone(ZoneInfo(self.zone)))

    def local_minute(self, local: datetime) -> int:
        """Return the campaign's minute of a date and time read off the wall."""
        return (local.date() - self.first).days * DAY_MIN + local.hour * 60 + local.minute

    def twice(self, minute: int) -> bool:
        """Tell whether the wall shows ``minute`` two times, as clocks go back."""
        before, after = self._offsets(minute)
        return before > after

    def never(self, minute: int) -> bool:
        """Tell whether the wall never shows ``minute``, as clocks go forward."""
        before, after = self._offsets(minute)
        return before < after

    def skipped(self, days: range) -> tuple[Span, ...]:
        """Return the stretches of ``days`` that the wall never shows."""
        found = [
            Span(minute, minute + _STEP_MIN)
            for day in days
            if self._offset(day, 0) < self._offset(day + 1, 0)
            for minute in range(day * DAY_MIN, (day + 1) * DAY_MIN, _STEP_MIN)
            if self.never(minute)
        ]
        return join(tuple(found))

    def _offsets(self, minute: int) -> tuple[timedelta, timedelta]:
        return self._offset(0, minute), self._offset(0, minute, fold=1)

    def _offset(self, day: int, minute: int, fold: int = 0) -> timedelta:
        midnight = datetime.combine(self.first, time())
        local = midnight + timedelta(days=day, minutes=minute)
        return local.replace(tzinfo=ZoneInfo(self.zone), fold=fold).utcoffset() or timedelta()


def a_moment(text: object) -> datetime | None:
    """Return a date with a time of day, aware where an offset is written; None for no such."""
    if not isinstance(text, str) or not _MOMENT.fullmatch(text.strip()):
        return None
    try:
        found = datetime.fromisoformat(text.strip())
    except ValueError:
        return None
    return found if 2000 <= found.year <= 2100 else None


def of_epoch(seconds: object) -> datetime | None:
    """Return the moment of a Unix time in whole seconds, in UTC; None for no such."""
    if isinstance(seconds, bool) or not isinstance(seconds, int):
        return None
    if not 946_684_800 <= seconds < 4_133_980_800:  # the years 2000 to 2100
        return None
    return datetime.fromtimestamp(seconds, UTC)


def zone_offsets(zone: str, year: int) -> frozenset[int]:
    """Return the offsets from UTC, in seconds, that ``zone`` has in the course of a year."""
    months = (datetime(year, month, 1, tzinfo=ZoneInfo(zone)) for month in range(1, 13))
    return frozenset(int((moment.utcoffset() or timedelta()).total_seconds()) for moment in months)
