"""Shut hours drawn together into lines for people: "Fri 5 Mar shut from 14:00: rain 2.1 mm/h"."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date
from itertools import groupby
from typing import Final

from runplanner.days import Span, clock, date_of, day_of, meet, whole_day
from runplanner.outfit.shut import Shut
from runplanner.phrase import Phrase, joined, phrase
from runplanner.weather.judge import Cause, ShutHour, Why, Work

SHUT_FOR: Final = {
    Work.OPEN: phrase("shut"),
    Work.FEED: phrase("shut for syrup"),
    Work.SETTLE: phrase("no bees outside"),
}
"""What is said of shut hours, by work."""


def drawn_together(hours: Iterable[ShutHour]) -> tuple[ShutHour, ...]:
    """Return stretches of shut hours that touch, for the same yards, work and causes.

    Of each cause the worst figure stays.
    """
    found: list[ShutHour] = []
    for hour in sorted(hours, key=lambda one: (one.yards, one.work, one.start_min)):
        last = found[-1] if found else None
        if last is not None and _goes_on(last, hour):
            whys = tuple(_worst(one, other) for one, other in _paired(last, hour))
            end = max(last.end_min, hour.end_min)
            found[-1] = replace(last, end_min=end, whys=whys)
        else:
            found.append(hour)
    return tuple(sorted(found, key=lambda one: (one.start_min, one.work, one.yards)))


def _goes_on(last: ShutHour, hour: ShutHour) -> bool:
    return (
        (last.yards, last.work) == (hour.yards, hour.work)
        and hour.start_min <= last.end_min
        and [_kind(why) for why in last.whys] == [_kind(why) for why in hour.whys]
    )


def _kind(why: Why) -> tuple[Cause, bool, int]:
    return why.cause, why.amount is None, why.over_min


def _paired(last: ShutHour, hour: ShutHour) -> Iterable[tuple[Why, Why]]:
    return zip(last.whys, hour.whys, strict=True)


def _worst(one: Why, other: Why) -> Why:
    if one.amount is None or other.amount is None:
        return one
    pick = min if one.cause in {Cause.COLD, Cause.MEAN} else max
    differ = one.worst or other.worst or one.amount != other.amount
    return replace(one, amount=pick(one.amount, other.amount), worst=differ)


def shut_lines(
    hours: Sequence[ShutHour], first: date, light: tuple[Span, ...] = ()
) -> tuple[Phrase, ...]:
    """Return a line for each stretch of ``hours``, all for the same yards.

    Args:
        hours: What is shut.
        first: The date of day 0.
        light: Daylight; where given, only what is shut in it is told, but for nights in which
            bees must settle.
    """
    return tuple(_line(one, first, light) for one in _lit(hours, light))


def _lit(hours: Iterable[ShutHour], light: tuple[Span, ...]) -> tuple[ShutHour, ...]:
    """Return what of ``hours`` lies in daylight, cut at midnights and drawn together."""
    lit = [piece for hour in hours for piece in _in_light(hour, light)]
    return drawn_together(piece for hour in lit for piece in by_day(hour))


def kept(hours: Iterable[ShutHour], light: tuple[Span, ...]) -> tuple[Shut, ...]:
    """Return ``hours``, all of one yard, as they are kept with it: by daylight, for people."""
    return tuple(Shut(one.work, one.start_min, one.end_min, one.whys) for one in _lit(hours, light))


def _in_light(hour: ShutHour, light: tuple[Span, ...]) -> list[ShutHour]:
    if not light or hour.work is Work.SETTLE:
        return [hour]
    return pieces(hour, meet((Span(hour.start_min, hour.end_min),), light))


def by_day(hour: ShutHour) -> list[ShutHour]:
    """Return the pieces of a stretch, one for each day it touches."""
    days = range(day_of(hour.start_min), day_of(hour.end_min - 1) + 1)
    whole = tuple(whole_day(day) for day in days)
    return pieces(hour, meet((Span(hour.start_min, hour.end_min),), whole))


def pieces(hour: ShutHour, spans: Iterable[Span]) -> list[ShutHour]:
    """Return ``hour`` once for each of ``spans``, shut in that alone."""
    return [replace(hour, start_min=span.start_min, end_min=span.end_min) for span in spans]


def _line(one: ShutHour, first: date, light: tuple[Span, ...]) -> Phrase:
    day = day_of(one.start_min)
    whole = whole_day(day)
    lit = [span for span in meet((whole,), light) if one.work is not Work.SETTLE] or [whole]
    light_hours = Span(lit[0].start_min, lit[-1].end_min)
    hours = hours_words(Span(one.start_min, one.end_min), light_hours)
    when = joined(" ", date_of(first, day), SHUT_FOR[one.work], hours)
    return joined(": ", when, joined(", ", *(why.words() for why in one.whys)))


def hours_words(span: Span, whole: Span) -> Phrase:
    """Return from when to when, start or end left out where it is that of the ``whole`` day."""
    starts, ends = span.start_min <= whole.start_min, span.end_min >= whole.end_min
    start, end = clock(span.start_min), clock(span.end_min)
    if starts and ends:
        return phrase("all day")
    if ends:
        return phrase("from {time}", time=start)
    if starts:
        return phrase("until {time}", time=end)
    return phrase("from {start} to {end}", start=start, end=end)


def within(hours: Iterable[ShutHour], whole: Span) -> tuple[ShutHour, ...]:
    """Return what of ``hours`` lies in ``whole``, cut at midnights, in order."""
    found = []
    for piece in (piece for hour in hours for piece in by_day(hour)):
        start, end = max(piece.start_min, whole.start_min), min(piece.end_min, whole.end_min)
        if start < end:
            found.append(replace(piece, start_min=start, end_min=end))
    return tuple(sorted(found, key=lambda one: one.start_min))


def by_yards(hours: Iterable[ShutHour]) -> list[tuple[tuple[str, ...], list[ShutHour]]]:
    """Return the hours in lists, one for each set of yards, widest first."""
    ordered = sorted(hours, key=lambda one: (-len(one.yards), one.yards, one.start_min))
    return [(yards, list(mine)) for yards, mine in groupby(ordered, key=lambda one: one.yards)]
