"""Times and hours of a day as people text them: "from 14:00", "before 2pm", "morning"."""

import re
from typing import Final

from runplanner.changes.said.a_day import A_DAY
from runplanner.changes.said.line import Line
from runplanner.days import DAY_MIN
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.moments import clock_min

HALF: Final = r"(?:[0-9]{1,2}(?:[:.][0-9]{2})?\s*[ap]\.?m\b\.?|noon\b|midday\b)"
"""A time of which its half of the day is sure."""
TIME: Final = rf"(?:{HALF}|[0-9]{{1,2}}:[0-9]{{2}})"
CLOCK: Final = re.compile(TIME, re.IGNORECASE)
END_TIME: Final = rf"(?:{TIME}|midnight\b)"
END: Final = re.compile(END_TIME, re.IGNORECASE)
"""A time at which something ends: nought of the clock, "12am" too, is then the end of its day."""
HALF_H: Final = 12
_NOON: Final = ("noon", "midday")
_HALVES: Final = (
    ((0, DAY_MIN // 2), ("morning", "this morning", "in the morning")),
    (
        (DAY_MIN // 2, DAY_MIN),
        ("afternoon", "this afternoon", "in the afternoon", "arvo", "this arvo", "in the arvo"),
    ),
)
"""Halves of a day, in minutes of it, and what they are called."""
_DOTTED: Final = re.compile(r"([0-9]{1,2})[.h]([0-9]{2})\b")
_A_DAY_NEXT: Final = re.compile(A_DAY, re.IGNORECASE)


def hours_told(line: Line) -> tuple[int, int] | None:
    """Read "from 14:00", "from 14:00 to 16:00", "before 12:00", or a half of the day."""
    for half, words in _HALVES:
        if line.take(*words):
            line.loose = True
            return half
    if line.take("before"):
        return 0, end_told(line)
    if not line.take("from", "after"):
        return None
    start = _clock(line)
    return start, end_told(line) if line.take("to", "until", "till") else DAY_MIN


def end_told(line: Line) -> int:
    """Read a time at which something ends, as a minute of its day."""
    return _clock(line, END) or DAY_MIN


def _clock(line: Line, time: "re.Pattern[str]" = CLOCK) -> int:
    found = line.match(time)
    if found is None:
        raise Refusal(phrase("a time of day such as 14:00"), with_colon(line))
    return minute_of_day(found.group())


def with_colon(line: Line) -> Phrase:
    """Return how the time is written that comes next, if it is one, or days where days do."""
    if _A_DAY_NEXT.match(line.rest()):
        return phrase("Write the last day as well, as in 'Fri-Sat' or 'until Mon'.")
    found = _DOTTED.match(line.rest())
    if found is None:
        return phrase("Write hours and minutes with a colon, or 'am' or 'pm' after the hour.")
    return phrase("Write it with a colon: {time}.", time=f"{found[1]}:{found[2]}")


def minute_of_day(typed: str) -> int:
    """Return a time of day in minutes, "2pm", "2:30 p.m.", "noon" and "midnight" as well.

    Raises:
        Refusal: When there is no such time.
    """
    said = typed.casefold()
    if said in _NOON:
        return HALF_H * 60
    if said == "midnight":
        return 0
    if not said.rstrip(".").endswith("m"):
        return clock_min(said)
    hour, minutes = (*re.findall("[0-9]+", said), "00")[:2]
    if not 1 <= int(hour) <= HALF_H:
        raise Refusal(
            phrase("a time of day such as 14:00"),
            phrase("Before 'am' or 'pm' stands an hour from 1 to 12."),
        )
    of_half = clock_min(f"{int(hour) % HALF_H}:{minutes}")
    return of_half + (HALF_H * 60 if "p" in said else 0)
