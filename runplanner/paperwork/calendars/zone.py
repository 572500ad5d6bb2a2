"""A time zone written out for a calendar file: its offsets over the days that matter."""

from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

if TYPE_CHECKING:
    from icalendar import Timezone

_DAY, _MINUTE = timedelta(days=1), timedelta(minutes=1)


def zone_called(name: str) -> ZoneInfo | None:
    """Return the zone with an IANA name, or None when there is none."""
    try:
        return ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        # A name with a path in it, or one that is a folder of the database, fails in its own way.
        return None


def zone_part(zone: ZoneInfo, first: date, last: date) -> "Timezone":
    """Return the VTIMEZONE of ``zone`` from the day before ``first`` to the day after ``last``.

    Written out here because the library's own puts the spring change an hour late: RFC 5545
    section 3.6.5 has DTSTART in the offset that was in force before.
    """
    from icalendar import Timezone, TimezoneDaylight, TimezoneStandard

    part = Timezone()
    part.add("tzid", zone.key)
    for before, after in _changes(zone, first, last):
        here = after.astimezone(zone)
        standard = not here.dst()
        rule = TimezoneStandard() if standard else TimezoneDaylight()
        offset = before.astimezone(zone).utcoffset() or timedelta()
        rule.add("dtstart", (after + offset).replace(tzinfo=None))
        rule.add("tzoffsetfrom", offset)
        rule.add("tzoffsetto", here.utcoffset() or timedelta())
        rule.add("tzname", here.tzname() or zone.key)
        part.add_component(rule)
    return part


def _changes(zone: ZoneInfo, first: date, last: date) -> Iterator[tuple[datetime, datetime]]:
    """Yield the minutes (UTC) before and after each change, the first one where it all starts."""
    here = datetime.combine(first, time(), UTC) - 2 * _DAY
    yield here, here
    while here.date() <= last + 2 * _DAY:
        there = here + _DAY
        if _offset(zone, here) != _offset(zone, there):
            yield _narrowed(zone, here, there)
        here = there


def _narrowed(zone: ZoneInfo, low: datetime, high: datetime) -> tuple[datetime, datetime]:
    """Return the last minute with the offset of ``low`` and the first without it."""
    while high - low > _MINUTE:
        middle = low + (high - low) // _MINUTE // 2 * _MINUTE
        if _offset(zone, middle) == _offset(zone, low):
            low = middle
        else:
            high = middle
    return low, high


def _offset(zone: ZoneInfo, moment: datetime) -> timedelta | None:
    return moment.astimezone(zone).utcoffset()
