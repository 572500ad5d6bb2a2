"""Days and hours as people text them: "Fri 26 Feb from 14:00", "27-28 Feb", "until Mon"."""

import re
from datetime import date
from typing import Final

from runplanner.changes.draft import Draft
from runplanner.changes.said.line import Line
from runplanner.days import DAY_MIN, Span, clock, date_of, day_of, without
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.moments import MONTHS, a_date, clock_min

_DAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_WEEKDAY: Final = r"(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?"
_MONTH: Final = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|"
    r"sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)"
)
_DATE: Final = re.compile(
    rf"(?:(?P<word>today|tomorrow)|(?:(?P<weekday>{_WEEKDAY})\b,?\s*)?"
    rf"(?:(?P<iso>[0-9]{{4}}-[0-9]{{1,2}}-[0-9]{{1,2}})"
    rf"|(?P<day>[0-9]{{1,2}})(?:st|nd|rd|th)?\s*(?P<month>{_MONTH})\b"
    rf"|(?P<month2>{_MONTH})\s*(?P<day2>[0-9]{{1,2}})\b)?)",
    re.IGNORECASE,
)
_HALF: Final = r"(?:[0-9]{1,2}(?:[:.][0-9]{2})?\s*[ap]\.?m\b\.?|noon\b|midday\b)"
"""A time of which its half of the day is sure."""
_TIME: Final = rf"(?:{_HALF}|[0-9]{{1,2}}:[0-9]{{2}})"
_CLOCK: Final = re.compile(_TIME, re.IGNORECASE)
_END_TIME: Final = rf"(?:{_TIME}|midnight\b)"
_END: Final = re.compile(_END_TIME, re.IGNORECASE)
"""A time at which something ends: nought of the clock, "12am" too, is then the end of its day."""
_PART: Final = r"(?:(?:this\s+|in\s+the\s+)?(?:morning|afternoon|arvo|evening|night)|tonight)\b"
_NO_UNIT: Final = rf"(?![0-9:.-]|\s*(?:st|nd|rd|th|[ap]\.?m|{_MONTH})\b)"
_A_DAY: Final = (
    rf"(?:today|tomorrow|{_WEEKDAY}|{_MONTH}\s*[0-9]{{1,2}}|"
    rf"[0-9]{{1,2}}(?:st|nd|rd|th)?\s*{_MONTH}|[0-9]{{4}}-[0-9]{{1,2}}-[0-9]{{1,2}})\b"
)
_RANGES: Final = (
    (rf"\b([0-9]{{1,2}})\s*(-|and|&)\s*([0-9]{{1,2}}\s*({_MONTH}))\b", r"\1 \4 \2 \3"),
    (rf"({_A_DAY})\s*(?:,\s*and|and|&|,(?=\s*(?:today|tomorrow|{_WEEKDAY})\b))\s*(?={_A_DAY})",
     r"\1 and "),
    (rf"\b({_TIME})\s*-\s*({_END_TIME})", r"from \1 to \2"),
    (rf"\b({_WEEKDAY}|{_MONTH}|today|tomorrow)\s*-\s*(?=[0-9]|{_A_DAY})", r"\1 to "),
    (rf"\bfrom\s+(?=(?:{_A_DAY},?\s*){{1,2}}(?:to|until|till)\s+{_A_DAY})", ""),
)  # fmt: skip
"""Dashes and commas between days or hours, a "from" before days, and how they are said in words."""
_HALF_H: Final = 12
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
_A_DAY_NEXT: Final = re.compile(_A_DAY, re.IGNORECASE)
_FROM_DAY: Final = re.compile(
    rf"^from\s+((?:{_A_DAY},?\s*){{1,2}})(?:on(?:wards?)?\b)?", re.IGNORECASE
)
_BACK: Final = r"back\s+(?:(?:from|on)\s+)?"
_BACK_ON: Final = re.compile(rf"^{_BACK}(?=\S)", re.IGNORECASE)
"""An absence told with the day that ends it: "off, back Wed"."""
_DAY_BACK: Final = re.compile(
    rf"^((?:{_A_DAY},?\s*){{1,2}})(?:and\s+)?{_BACK}(?={_A_DAY})", re.IGNORECASE
)
"""The same with its first day as well: "off Thu, back Sat"."""
_WHEN_NEXT: Final = re.compile(
    rf"[:(\s]*(?:{_BACK})?(?:(?:from|before|after|until|till|on)\s+)?"
    rf"(?:{_A_DAY}|{_END_TIME}|{_PART}|[0-9]{{1,2}}\s*-\s*[0-9])",
    re.IGNORECASE,
)
"""Days or hours, with a colon or a bracket before them or without."""
TIMELY: Final = re.compile(
    rf"[0-9]|\b(?:{_A_DAY}|{_PART}|{_WEEKDAY}\b|(?:from|before|after|until|till|noon|midnight|now|next|week)\b)",
    re.IGNORECASE,
)
"""What tells of days or hours, well or not."""
_AHEAD: Final = 28
WHEN: Final = phrase(
    "a day or days of the campaign, such as 'Fri', 'Fri 26 Feb', '27-28 Feb', 'until Mon', "
    "and perhaps hours, such as 'from 14:00' or '8:00-12:00'"
)


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
    hours = _hours(line)
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
    hours = hours or _hours(line)
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
    hours = _hours(ahead)
    first = day(ahead, draft, needed=hours is None)
    if ahead.take("to", "until", "till", "and"):
        return None
    start, end = hours or _hours(ahead) or (0, DAY_MIN)
    return None if end < DAY_MIN else (draft.today if first is None else first) * DAY_MIN + start


def _spell_out(line: Line) -> None:
    for dash, words in _RANGES:
        line.rewrite(re.compile(dash, re.IGNORECASE), words)
    for dash, hours in _HALF_TOLD:
        line.loose |= line.rewrite(re.compile(dash, re.IGNORECASE), hours)
    line.rewrite(re.compile(r"\bfrom\s+from\b", re.IGNORECASE), "from")


def _end_hour(found: "re.Match[str]") -> str:
    """Say hours in full whose last is a bare one: the next such hour after the first."""
    start, hour = _of_day(found[1]), int(found[2])
    ends = [hour * 60, (hour + _HALF_H) * 60][: 2 if hour <= _HALF_H else 1]
    end = next((one for one in ends if hour and start < one <= DAY_MIN), None)
    return found[0] if end is None else f"from {found[1]} to {end // 60}:00"


def _start_hour(found: "re.Match[str]") -> str:
    """Say hours in full whose first is a bare one: the last such hour before the end."""
    hour, end = int(found[1]), _of_day(found[2])
    half = hour % _HALF_H
    starts = [(half + _HALF_H) * 60, half * 60] if hour <= _HALF_H else [hour * 60]
    start = next((one for one in starts if one < end), None)
    return found[0] if start is None else f"from {start // 60}:00 to {found[2]}"


_HALF_TOLD: Final = (
    (rf"(?<![:.0-9])({_TIME})\s*(?:-|to|until|till)\s*([0-9]{{1,2}}){_NO_UNIT}", _end_hour),
    (rf"(?<![:.0-9])([0-9]{{1,2}})\s*(?:-|to)\s*({_HALF})", _start_hour),
)
"""Hours of which one is told without its half of the day."""


def _spans(first: int, last: int, hours: tuple[int, int] | None) -> tuple[Span, ...]:
    start, end = hours or (0, DAY_MIN)
    if last < first or end <= start:
        raise Refusal(phrase("an end after the start"), phrase("Check the days and hours."))
    return tuple(Span(one * DAY_MIN + start, one * DAY_MIN + end) for one in range(first, last + 1))


def _until_after(line: Line, draft: Draft, first: int) -> tuple[Span, ...]:
    """Return "Fri until 15:00" as hours of that day, "Fri until Mon" as one stretch."""
    if _END.match(line.rest()):
        return _spans(first, first, (0, _end(line)))
    return (_until(line, draft, first * DAY_MIN),)


def _until(line: Line, draft: Draft, start: int) -> Span:
    at, of_day = (None, 0) if line.take("midnight") else _day_and_time(line, draft)
    end = (draft.today if at is None else at) * DAY_MIN + of_day
    if at is None and not of_day:
        end += DAY_MIN
    if end <= start:
        raise Refusal(phrase("an end after the start"), phrase("Check the days and hours."))
    return Span(start, end)


def _hours(line: Line) -> tuple[int, int] | None:
    """Read "from 14:00", "from 14:00 to 16:00", "before 12:00", or a half of the day."""
    for half, words in _HALVES:
        if line.take(*words):
            line.loose = True
            return half
    if line.take("before"):
        return 0, _end(line)
    if not line.take("from", "after"):
        return None
    start = _clock(line)
    return start, _end(line) if line.take("to", "until", "till") else DAY_MIN


def _end(line: Line) -> int:
    return _clock(line, _END) or DAY_MIN


def _clock(line: Line, time: "re.Pattern[str]" = _CLOCK) -> int:
    found = line.match(time)
    if found is None:
        raise Refusal(phrase("a time of day such as 14:00"), _with_colon(line))
    return _of_day(found.group())


def _with_colon(line: Line) -> Phrase:
    """Return how the time is written that comes next, if it is one, or days where days do."""
    if _A_DAY_NEXT.match(line.rest()):
        return phrase("Write the last day as well, as in 'Fri-Sat' or 'until Mon'.")
    found = _DOTTED.match(line.rest())
    if found is None:
        return phrase("Write hours and minutes with a colon, or 'am' or 'pm' after the hour.")
    return phrase("Write it with a colon: {time}.", time=f"{found[1]}:{found[2]}")


def _of_day(typed: str) -> int:
    """Return a time of day in minutes, "2pm", "2:30 p.m.", "noon" and "midnight" as well.

    Raises:
        Refusal: When there is no such time.
    """
    said = typed.casefold()
    if said in _NOON:
        return _HALF_H * 60
    if said == "midnight":
        return 0
    if not said.rstrip(".").endswith("m"):
        return clock_min(said)
    hour, minutes = (*re.findall("[0-9]+", said), "00")[:2]
    if not 1 <= int(hour) <= _HALF_H:
        raise Refusal(
            phrase("a time of day such as 14:00"),
            phrase("Before 'am' or 'pm' stands an hour from 1 to 12."),
        )
    of_half = clock_min(f"{int(hour) % _HALF_H}:{minutes}")
    return of_half + (_HALF_H * 60 if "p" in said else 0)


def moment(line: Line, draft: Draft) -> int:
    """Read a moment: a day, a time, or both; without a day it is today.

    Raises:
        Refusal: When there is neither.
    """
    at, of_day = _day_and_time(line, draft)
    return (draft.today if at is None else at) * DAY_MIN + of_day


def _day_and_time(line: Line, draft: Draft) -> tuple[int | None, int]:
    found = line.match(_CLOCK)
    at = day(line, draft, needed=False)
    line.take("at")
    found = found or line.match(_CLOCK)
    if found is None and at is None:
        raise Refusal(phrase("a time or a day, such as '15:20' or 'Fri 12:30'"), _with_colon(line))
    return at, _of_day(found.group()) if found else 0


def day(line: Line, draft: Draft, *, needed: bool = True) -> int | None:
    """Read one day, as a number of the campaign.

    Raises:
        Refusal: When there is none though it is needed, or it is not in the campaign.
    """
    line.take("on")
    found = line.match(_DATE)
    if found is None or not found.group().strip():
        if needed:
            raise Refusal(WHEN, phrase("The campaign runs {campaign}.", campaign=_campaign(draft)))
        return None
    return _number(found, draft)


def _number(found: "re.Match[str]", draft: Draft) -> int:
    if found["word"]:
        return _inside(draft.today + (found["word"].casefold() == "tomorrow"), draft)
    weekday = _DAYS.index(found["weekday"][:3].casefold()) if found["weekday"] else None
    number = _dated(found, draft)
    if number is None:
        return _next(weekday or 0, draft)
    real = date_on(draft, number)
    if weekday is not None and real.weekday() != weekday:
        name = _DAYS[real.weekday()].title()
        raise Refusal(
            phrase("a weekday and date that agree"),
            phrase("{date} is a {weekday}.", date=real.isoformat(), weekday=name),
        )
    return number


def _dated(found: "re.Match[str]", draft: Draft) -> int | None:
    if found["iso"]:
        return _inside((a_date(found["iso"]) - date_on(draft, 0)).days, draft)
    month, number = found["month"] or found["month2"], found["day"] or found["day2"]
    if not month:
        return None
    for ahead in range(-1, draft.outfit.season.n_days + _AHEAD):
        real = date_on(draft, ahead)
        if (real.month, real.day) == (MONTHS.index(month[:3].casefold()) + 1, int(number)):
            return _inside(ahead, draft)
    raise Refusal(
        phrase("a day of the campaign"), phrase("It runs {campaign}.", campaign=_campaign(draft))
    )


def _next(weekday: int, draft: Draft) -> int:
    """Return the next such weekday, today counted."""
    ahead = (weekday - date_on(draft, draft.today).weekday()) % 7
    return _inside(draft.today + ahead, draft)


def _inside(number: int, draft: Draft) -> int:
    if not 0 <= number < draft.outfit.season.n_days + _AHEAD:
        raise Refusal(
            phrase("a day of the campaign"),
            phrase("It runs {campaign}.", campaign=_campaign(draft)),
        )
    return number


def date_on(draft: Draft, number: int) -> date:
    """Return the date of a day of the campaign."""
    return date_of(date.fromisoformat(draft.outfit.season.first_date), number)


def _campaign(draft: Draft) -> Phrase:
    last = draft.outfit.season.n_days - 1
    return phrase(
        "from {start} to {end}",
        start=date_on(draft, 0).isoformat(),
        end=date_on(draft, last).isoformat(),
    )


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
