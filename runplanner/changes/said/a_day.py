"""One day as people text it: "Fri", "Fri 26 Feb", "26 February", "tomorrow", "2027-02-26"."""

import re
from datetime import date
from typing import Final

from runplanner.changes.draft import Draft
from runplanner.changes.said.line import Line
from runplanner.days import date_of
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.moments import MONTHS, a_date

_DAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
WEEKDAY: Final = r"(?:mon|tues?|wed(?:nes)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?"
MONTH: Final = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|"
    r"sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)"
)
_DATE: Final = re.compile(
    rf"(?:(?P<word>today|tomorrow)|(?:(?P<weekday>{WEEKDAY})\b,?\s*)?"
    rf"(?:(?P<iso>[0-9]{{4}}-[0-9]{{1,2}}-[0-9]{{1,2}})"
    rf"|(?P<day>[0-9]{{1,2}})(?:st|nd|rd|th)?\s*(?P<month>{MONTH})\b"
    rf"|(?P<month2>{MONTH})\s*(?P<day2>[0-9]{{1,2}})\b)?)",
    re.IGNORECASE,
)
A_DAY: Final = (
    rf"(?:today|tomorrow|{WEEKDAY}|{MONTH}\s*[0-9]{{1,2}}|"
    rf"[0-9]{{1,2}}(?:st|nd|rd|th)?\s*{MONTH}|[0-9]{{4}}-[0-9]{{1,2}}-[0-9]{{1,2}})\b"
)
_AHEAD: Final = 28
WHEN: Final = phrase(
    "a day or days of the campaign, such as 'Fri', 'Fri 26 Feb', '27-28 Feb', 'until Mon', "
    "and perhaps hours, such as 'from 14:00' or '8:00-12:00'"
)


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
