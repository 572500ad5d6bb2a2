"""The one clock of a campaign: whole minutes since midnight at the start of day 0.

Local wall-clock time throughout.  Day numbers and minutes are plain integers; calendar
dates appear only where people read or type them.
"""

from datetime import date, timedelta
from typing import NamedTuple

DAY_MIN = 1440
NEVER = 1 << 40
"""A minute that no campaign comes to."""


class Span(NamedTuple):
    """A stretch of time, from ``start_min`` up to ``end_min`` (minutes of the campaign)."""

    start_min: int
    end_min: int


def day_of(minute: int) -> int:
    """Return the day number in which ``minute`` falls."""
    return minute // DAY_MIN


def whole_day(day: int) -> Span:
    """Return the minutes of a day, from midnight to midnight."""
    return Span(day * DAY_MIN, (day + 1) * DAY_MIN)


def clock(minute: int) -> str:
    """Return the local time of day of ``minute`` as ``HH:MM``."""
    of_day = minute % DAY_MIN
    return f"{of_day // 60:02d}:{of_day % 60:02d}"


def date_of(first: date, day: int) -> date:
    """Return the calendar date of day number ``day`` when day 0 is ``first``."""
    return first + timedelta(days=day)


def meet(left: tuple[Span, ...], right: tuple[Span, ...]) -> tuple[Span, ...]:
    """Return the stretches that lie in both ``left`` and ``right`` (each sorted, disjoint)."""
    found = [
        Span(max(start, begin), min(end, until))
        for start, end in left
        if start < end
        for begin, until in right
        if begin < end and start < until and begin < until
    ]
    return tuple(sorted(found))


def join(spans: tuple[Span, ...]) -> tuple[Span, ...]:
    """Return the same minutes as sorted stretches that neither touch nor overlap."""
    merged: list[Span] = []
    for span in sorted(spans):
        if merged and span.start_min <= merged[-1].end_min:
            merged[-1] = Span(merged[-1].start_min, max(merged[-1].end_min, span.end_min))
        elif span.start_min < span.end_min:
            merged.append(span)
    return tuple(merged)


def without(spans: tuple[Span, ...], holes: tuple[Span, ...]) -> tuple[Span, ...]:
    """Return ``spans`` with every minute of ``holes`` taken out."""
    left = list(join(spans))
    for hole in holes:
        cut: list[Span] = []
        for span in left:
            if hole.end_min <= span.start_min or hole.start_min >= span.end_min:
                cut.append(span)
                continue
            if span.start_min < hole.start_min:
                cut.append(Span(span.start_min, hole.start_min))
            if hole.end_min < span.end_min:
                cut.append(Span(hole.end_min, span.end_min))
        left = cut
    return tuple(left)
