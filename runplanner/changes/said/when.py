"""Stretches of days and hours as people text them: "Fri from 14:00", "27-28 Feb", "until Mon"."""

import re
from typing import Final

from runplanner.changes.draft import Draft
from runplanner.changes.said.a_day import A_DAY, MONTH, WEEKDAY, date_on, day
from runplanner.changes.said.hours import (
    CLOCK,
    END,
    END_TIME,
    HALF,
    HALF_H,
    TIME,
    end_told,
    hours_told,
    minute_of_day,
    with_colon,
)
from runplanner.changes.said.line import Line
from runplanner.days import DAY_MIN, Span, clock, day_of, without
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.faults import Refusal

_PART: Final = r"(?:(?:this\s+|in\s+the\s+)?(?:morning|afternoon|arvo|evening|night)|tonight)\b"
_NO_UNIT: Final = rf"(?![0-9:.-]|\s*(?:st|nd|rd|th|[ap]\.?m|{MONTH})\b)"
_RANGES: Final = (
    (rf"\b([0-9]{{1,2}})\s*(-|and|&)\s*([0-9]{{1,2}}\s*({MONTH}))\b", r"\1 \4 \2 \3"),
    (rf"({A_DAY})\s*(?:,\s*and|and|&|,(?=\s*(?:today|tomorrow|{WEEKDAY})\b))\s*(?={A_DAY})",
     r"\1 and "),
    (rf"\b({TIME})\s*-\s*({END_TIME})", r"from \1 to \2"),
    (rf"\b({WEEKDAY}|{MONTH}|today|tomorrow)\s*-\s*(?=[0-9]|{A_DAY})", r"\1 to "),
    (rf"\bfrom\s+(?=(?:{A_DAY},?\s*){{1,2}}(?:to|until|till)\s+{A_DAY})", ""),
)  # fmt: skip
"""Dashes and commas between days or hours, a "from" before days, and how they are said in words."""
_FROM_DAY: Final = re.compile(
    rf"^from\s+((?:{A_DAY},?\s*){{1,2}})(?:on(?:wards?)?\b)?", re.IGNORECASE
)
_BACK: Final = r"back\s+(?:(?:from|on)\s+)?"
_BACK_ON: Final = re.compile(rf"^{_BACK}(?=\S)", re.IGNORECASE)
"""An absence told with the day that ends it: "off, back Wed"."""
_DAY_BACK: Final = re.compile(
    rf"^((?:{A_DAY},?\s*){{1,2}})(?:and\s+)?{_BACK}(?={A_DAY})", re.IGNORECASE
)
"""The same with its first day as well: "off Thu, back Sat"."""
_WHEN_NEXT: Final = re.compile(
    rf"[:(\s]*(?:{_BACK})?(?:(?:from|before|after|until|till|on)\s+)?"
    rf"(?:{A_DAY}|{END_TIME}|{_PART}|[0-9]{{1,2}}\s*-\s*[0-9])",
    re.IGNORECASE,
)
"""Days or hours, with a colon or a bracket before them or without."""
TIMELY: Final = re.compile(
    rf"[0-9]|\b(?:{A_DAY}|{_PART}|{WEEKDAY}\b|(?:from|before|after|until|till|noon|midnight|now|next|week)\b)",
    re.IGNORECASE,
)
"""What tells of days or hours, well or not."""


def when(line: Line, draft: Draft, *, goes_on: bool = False) -> tuple[Span, ...]:
    """Read days and hours as stretches of the campaign, one a day or one in all.

    "until Mon" goes from now to the start of Monday, "until Mon 12:00" to noon that day, "from
    now" and "until midnight" to the end of today. Where hours leave something open ("9am-12",
    "afternoon"), several days are named, or no end is told, the line keeps a note of what was
    taken; no note on the end where it ``goes_on`` past midnight anyway.

    Raises:
        Refusal: When there are none, or not in the campaign.
    """
    _spell_out(line)
    spans = _stretches(line, draft, goes_on=goes_on)
    if line.loose:
        taken = joined(", ", *(_span_words(span, draft) for span in spans))
        line.say(phrase("{line} is taken for {when}", line=repr(line.typed), when=taken))
    return spans


def _span_words(span: Span, draft: Draft) -> Phrase:
    day = date_on(draft, day_of(span.start_min))
    start, end = (minute - day_of(span.start_min) * DAY_MIN for minute in span)
    if (start, end) == (0, DAY_MIN):
        return joined(" ", day)
    return joined(" ", day, f"{clock(start)}-{end // 60:02d}:{end % 60:02d}")


def _stretches(line: Line, draft: Draft, *, goes_on: bool) -> tuple[Span, ...]:
    from_now = line.take("from now on", "from now", "now")
    if line.take("until", "till"):
        return (_until(line, draft, draft.now_min),)
    if from_now:
        return (_rest_of_today(line, draft, goes_on=goes_on),)
    hours = hours_told(line)
    first = day(line, draft, needed=hours is None)
    if first is None:
        return _spans(draft.today, draft.today, hours)
    _past_colon(line)
    if line.take("until", "till"):
        return _until_after(line, draft, first)
    days = [(first, _last(line, draft, first))]
    while line.take("and"):
        line.loose = True
        first = day(line, draft) or 0
        days.append((first, _last(line, draft, first)))
    _past_colon(line)
    hours = hours or hours_told(line)
    return tuple(span for first, last in days for span in _spans(first, last, hours))


def _last(line: Line, draft: Draft, first: int) -> int:
    last = day(line, draft) if line.take("to") else None
    return first if last is None else last


def _past_colon(line: Line) -> None:
    """Drop a colon or brackets where days or hours come after it and no reason."""
    if _WHEN_NEXT.match(line.rest()):
        line.past_colon()
        _spell_out(line)


def when_or_now(line: Line, draft: Draft, *, goes_on: bool = False) -> tuple[Span, ...]:
    """Read days and hours as `when`; where none are told it is the rest of today, with a note.

    "back Wed" is until Wednesday, but where it ``goes_on``.

    Raises:
        Refusal: As `when` does.
    """
    _past_colon(line)
    if not goes_on:
        line.rewrite(_BACK_ON, "until ")
        line.rewrite(_DAY_BACK, lambda found: f"{found[1].rstrip(', ')} until ")
    if line.over():
        return (_rest_of_today(line, draft, goes_on=goes_on),)
    return when(line, draft, goes_on=goes_on)


def _rest_of_today(line: Line, draft: Draft, *, goes_on: bool) -> Span:
    note = phrase(
        "{line}: without a day it is taken for the rest of today; with 'until' and a day it lasts "
        "longer",
        line=repr(line.read()),
    )
    if not goes_on:
        line.say(note)
    return Span(draft.now_min, (draft.today + 1) * DAY_MIN)


def open_ended(line: Line, draft: Draft) -> int | None:
    """Return the minute from which on something holds, where no end is told.

    Nothing is read but a colon before days or hours, and a "from" before a day.

    Raises:
        Refusal: As `when` does.
    """
    _past_colon(line)
    line.rewrite(_FROM_DAY, r"\1")
    ahead = Line(line.rest())
    _spell_out(ahead)
    from_now = line.over() or ahead.take("from now on", "from now", "now")
    if ahead.take("until", "till"):
        return None
    if from_now:
        return draft.now_min
    hours = hours_told(ahead)
    first = day(ahead, draft, needed=hours is None)
    if ahead.take("to", "until", "till", "and"):
        return None
    start, end = hours or hours_told(ahead) or (0, DAY_MIN)
    return None if end < DAY_MIN else (draft.today if first is None else first) * DAY_MIN + start


def _spell_out(line: Line) -> None:
    for dash, words in _RANGES:
        line.rewrite(re.compile(dash, re.IGNORECASE), words)
    for dash, hours in _HALF_TOLD:
        line.loose |= line.rewrite(re.compile(dash, re.IGNORECASE), hours)
    line.rewrite(re.compile(r"\bfrom\s+from\b", re.IGNORECASE), "from")


def _end_hour(found: "re.Match[str]") -> str:
    """Say hours in full whose last is a bare one: the next such hour after the first."""
    start, hour = minute_of_day(found[1]), int(found[2])
    ends = [hour * 60, (hour + HALF_H) * 60][: 2 if hour <= HALF_H else 1]
    end = next((one for one in ends if hour and start < one <= DAY_MIN), None)
    return found[0] if end is None else f"from {found[1]} to {end // 60}:00"


def _start_hour(found: "re.Match[str]") -> str:
    """Say hours in full whose first is a bare one: the last such hour before the end."""
    hour, end = int(found[1]), minute_of_day(found[2])
    half = hour % HALF_H
    starts = [(half + HALF_H) * 60, half * 60] if hour <= HALF_H else [hour * 60]
    start = next((one for one in starts if one < end), None)
    return found[0] if start is None else f"from {start // 60}:00 to {found[2]}"


_HALF_TOLD: Final = (
    (rf"(?<![:.0-9])({TIME})\s*(?:-|to|until|till)\s*([0-9]{{1,2}}){_NO_UNIT}", _end_hour),
    (rf"(?<![:.0-9])([0-9]{{1,2}})\s*(?:-|to)\s*({HALF})", _start_hour),
)
"""Hours of which one is told without its half of the day."""


def _spans(first: int, last: int, hours: tuple[int, int] | None) -> tuple[Span, ...]:
    start, end = hours or (0, DAY_MIN)
    if last < first or end <= start:
        raise Refusal(phrase("an end after the start"), phrase("Check the days and hours."))
    return tuple(Span(one * DAY_MIN + start, one * DAY_MIN + end) for one in range(first, last + 1))


def _until_after(line: Line, draft: Draft, first: int) -> tuple[Span, ...]:
    """Return "Fri until 15:00" as hours of that day, "Fri until Mon" as one stretch."""
    if END.match(line.rest()):
        return _spans(first, first, (0, end_told(line)))
    return (_until(line, draft, first * DAY_MIN),)


def _until(line: Line, draft: Draft, start: int) -> Span:
    at, of_day = (None, 0) if line.take("midnight") else _day_and_time(line, draft)
    end = (draft.today if at is None else at) * DAY_MIN + of_day
    if at is None and not of_day:
        end += DAY_MIN
    if end <= start:
        raise Refusal(phrase("an end after the start"), phrase("Check the days and hours."))
    return Span(start, end)


def moment(line: Line, draft: Draft) -> int:
    """Read a moment: a day, a time, or both; without a day it is today.

    Raises:
        Refusal: When there is neither.
    """
    at, of_day = _day_and_time(line, draft)
    return (draft.today if at is None else at) * DAY_MIN + of_day


def _day_and_time(line: Line, draft: Draft) -> tuple[int | None, int]:
    found = line.match(CLOCK)
    at = day(line, draft, needed=False)
    line.take("at")
    found = found or line.match(CLOCK)
    if found is None and at is None:
        raise Refusal(phrase("a time or a day, such as '15:20' or 'Fri 12:30'"), with_colon(line))
    return at, minute_of_day(found.group()) if found else 0


def days_of(spans: tuple[Span, ...]) -> tuple[int, ...]:
    """Return the days that ``spans`` touch."""
    found = {
        number
        for span in spans
        for number in range(span.start_min // DAY_MIN, (span.end_min - 1) // DAY_MIN + 1)
    }
    return tuple(sorted(found))


def part_days(spans: tuple[Span, ...], draft: Draft) -> tuple[int, ...]:
    """Return the days of which ``spans`` leave out hours still to come of the working day."""
    hours = draft.outfit.hours
    working = (
        Span(max(draft.now_min, day * DAY_MIN + hours.start_min), day * DAY_MIN + hours.end_min)
        for day in days_of(spans)
    )
    return tuple(day_of(one.start_min) for one in working if without((one,), spans))
