"""Days and hours as people text them: "Fri 26 Feb from 14:00", "27-28 Feb", "until Mon"."""

import re
from datetime import date
from typing import Final

from runplanner.days import DAY_MIN, Span, date_of, day_of, without
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.changes.draft import Draft
from runplanner.scenario.changes.line import Line
from runplanner.scenario.faults import Refusal
from runplanner.scenario.moments import a_date, clock_min

_DAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_MONTHS: Final = (
    "jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec",
)  # fmt: skip
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
_TIME: Final = r"(?:[0-9]{1,2}(?::[0-9]{2})?\s*[ap]m\b|[0-9]{1,2}:[0-9]{2})"
_CLOCK: Final = re.compile(_TIME, re.IGNORECASE)
_RANGES: Final = (
    (rf"\b([0-9]{{1,2}})\s*-\s*([0-9]{{1,2}}\s*({_MONTH}))\b", r"\1 \3 to \2"),
    (rf"\b({_TIME})\s*-\s*({_TIME})", r"from \1 to \2"),
    (rf"\b({_WEEKDAY}|{_MONTH}|today|tomorrow)\s*-\s*(?=[a-z0-9])", r"\1 to "),
    (r"\bfrom\s+from\b", "from"),
)
"""Dashes between days or hours, and how they are said in words."""
_HALF_H: Final = 12
_AHEAD: Final = 28
WHEN: Final = phrase(
    "a day or days of the campaign, such as 'Fri', 'Fri 26 Feb', '27-28 Feb', 'until Mon', "
    "and perhaps hours, such as 'from 14:00' or '8:00-12:00'"
)


def when(line: Line, draft: Draft) -> tuple[Span, ...]:
    """Read days and hours as stretches of the campaign, one a day or one in all.

    "until Mon" goes from now to the start of Monday, "until Mon 12:00" to noon that day, "from
    now" to midnight.

    Raises:
        Refusal: When there are none, or not in the campaign.
    """
    _spell_out(line)
    from_now = line.take("from now on", "from now", "now")
    if line.take("until", "till"):
        return (_until(line, draft, draft.now_min),)
    if from_now:
        return (_rest_of_today(draft),)
    hours = _hours(line)
    first = day(line, draft, needed=hours is None)
    if first is None:
        return _spans(draft.today, draft.today, hours)
    if line.take("until", "till"):
        return _until_after(line, draft, first)
    last = day(line, draft) if line.take("to") else first
    return _spans(first, first if last is None else last, hours or _hours(line))


def when_or_now(line: Line, draft: Draft) -> tuple[Draft, tuple[Span, ...]]:
    """Read days and hours as `when`; where none are told it is the rest of today, with a note.

    Raises:
        Refusal: As `when` does.
    """
    ahead = Line(line.rest())
    _spell_out(ahead)
    bare = line.over() or (ahead.take("from now on") and ahead.over())
    if not bare:
        return draft, when(line, draft)
    note = phrase(
        "{line}: without a day it is taken for the rest of today; with 'until' and a day it lasts "
        "longer",
        line=repr(line.read()),
    )
    spans = (_rest_of_today(draft),) if line.over() else when(line, draft)
    return draft.noted(note), spans


def _rest_of_today(draft: Draft) -> Span:
    return Span(draft.now_min, (draft.today + 1) * DAY_MIN)


def open_ended(line: Line, draft: Draft) -> int | None:
    """Return the minute from which on something holds, where no end is told; nothing is read.

    Raises:
        Refusal: As `when` does.
    """
    ahead = Line(line.rest())
    _spell_out(ahead)
    from_now = line.over() or ahead.take("from now on", "from now", "now")
    if ahead.take("until", "till"):
        return None
    if from_now:
        return draft.now_min
    hours = _hours(ahead)
    first = day(ahead, draft, needed=hours is None)
    if ahead.take("to", "until", "till"):
        return None
    start, end = hours or _hours(ahead) or (0, DAY_MIN)
    return None if end < DAY_MIN else (draft.today if first is None else first) * DAY_MIN + start


def _spell_out(line: Line) -> None:
    for dash, words in _RANGES:
        line.rewrite(re.compile(dash, re.IGNORECASE), words)


def _spans(first: int, last: int, hours: tuple[int, int] | None) -> tuple[Span, ...]:
    start, end = hours or (0, DAY_MIN)
    if last < first or end <= start:
        raise Refusal(phrase("an end after the start"), phrase("Check the days and hours."))
    return tuple(Span(one * DAY_MIN + start, one * DAY_MIN + end) for one in range(first, last + 1))


def _until_after(line: Line, draft: Draft, first: int) -> tuple[Span, ...]:
    """Return "Fri until 15:00" as hours of that day, "Fri until Mon" as one stretch."""
    clock = line.match(_CLOCK)
    if clock is not None:
        return _spans(first, first, (0, _of_day(clock)))
    return (_until(line, draft, first * DAY_MIN),)


def _until(line: Line, draft: Draft, start: int) -> Span:
    end = moment(line, draft)
    if end <= start:
        raise Refusal(phrase("an end after the start"), phrase("Check the days and hours."))
    return Span(start, end)


def _hours(line: Line) -> tuple[int, int] | None:
    """Read "from 14:00", "from 14:00 to 16:00" or "before 12:00"."""
    if line.take("before"):
        return 0, _clock(line)
    if not line.take("from", "after"):
        return None
    start = _clock(line)
    return start, _clock(line) if line.take("to", "until", "till") else DAY_MIN


def _clock(line: Line) -> int:
    found = line.match(_CLOCK)
    if found is None:
        raise Refusal(
            phrase("a time of day such as 14:00"), phrase("Write hours and minutes with a colon.")
        )
    return _of_day(found)


def _of_day(found: "re.Match[str]") -> int:
    """Return a time of day in minutes, "2pm" and "2:30 pm" as well.

    Raises:
        Refusal: When there is no such time.
    """
    said = found.group().casefold()
    if not said.endswith("m"):
        return clock_min(said)
    hour, _, minutes = said[:-2].strip().partition(":")
    if not 1 <= int(hour) <= _HALF_H:
        raise Refusal(
            phrase("a time of day such as 14:00"),
            phrase("Before 'am' or 'pm' stands an hour from 1 to 12."),
        )
    of_half = clock_min(f"{int(hour) % _HALF_H}:{minutes or '00'}")
    return of_half + (_HALF_H * 60 if said.endswith("pm") else 0)


def moment(line: Line, draft: Draft) -> int:
    """Read a moment: a day, a time, or both; without a day it is today.

    Raises:
        Refusal: When there is neither.
    """
    clock = line.match(_CLOCK)
    at = day(line, draft, needed=clock is None)
    line.take("at")
    clock = clock or line.match(_CLOCK)
    of_day = _of_day(clock) if clock else 0
    return (draft.today if at is None else at) * DAY_MIN + of_day


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
        if (real.month, real.day) == (_MONTHS.index(month[:3].casefold()) + 1, int(number)):
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
