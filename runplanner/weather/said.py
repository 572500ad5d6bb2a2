"""Shut hours as lines for people, with yards by their names."""

from collections.abc import Iterable
from datetime import date
from typing import Final

from runplanner.days import Span, date_of, meet, whole_day
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Phrase, joined, phrase, some_of
from runplanner.weather.doubt import SURE, percent
from runplanner.weather.judge import ShutHour
from runplanner.weather.stretches import by_yards, shut_lines

_NAMES: Final = 3


def reason_lines(outfit: Outfit, hours: Iterable[ShutHour]) -> list[Phrase]:
    """Return a line for each stretch that is shut in daylight, or in which no bees may hang out.

    Such as "all yards: Fri 5 Mar shut from 14:00: rain 2.1 mm/h".
    """
    first = date.fromisoformat(outfit.season.first_date)
    return [
        joined(": ", yards_words(outfit, yards), line)
        for yards, mine in by_yards(hours)
        for line in shut_lines(mine, first, outfit.yard(yards[0]).sun_spans)
    ]


def yards_words(outfit: Outfit, ids: tuple[str, ...]) -> str:
    """Return yards by the shortest name they have together: all, a district, or their own."""
    if len(ids) == len(outfit.yards):
        return phrase("all yards")
    mine = [yard for yard in outfit.yards if yard.id in ids]
    district = mine[0].district
    if district and [yard for yard in outfit.yards if yard.district == district] == mine:
        return district
    return some_of([yard.name for yard in mine], _NAMES)


def sure_line(outfit: Outfit, sure: tuple[int, ...], reach: tuple[Span, ...] = ()) -> Phrase:
    """Return how sure each day is, runs of days with the same figure drawn together.

    Of days outside ``reach``, where that is known, it is said that no forecast tells them.
    """
    first = date.fromisoformat(outfit.season.first_date)
    parts: list[Phrase] = []
    last: int | None = None
    for day, value in enumerate(sure):
        told = not reach or meet((whole_day(day),), reach)
        now = value if told or value == SURE else 0
        when = date_of(first, day)
        if now != last and now:
            parts.append(phrase("{percent} % from {day}", percent=percent(now), day=when))
        elif now != last:
            parts.append(phrase("no forecast from {day}", day=when))
        last = now
    return joined(", ", *parts)
