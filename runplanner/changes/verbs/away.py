"""Lines on who is away, or back: trucks, trailers and people, by whole days."""

from collections.abc import Iterator, Sequence
from typing import Final

from runplanner.changes.draft import Draft
from runplanner.changes.said.a_day import date_on
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import (
    away_days,
    away_from,
    helper,
    helper_named,
    with_out_days,
)
from runplanner.changes.said.when import days_of, open_ended, part_days, when_or_now
from runplanner.daybook.trip import Shift
from runplanner.days import clock, day_of
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import Refusal

AWAY: Final = ("out", "off", "away", "sick", "ill", "broken", "down")
BACK: Final = ("back", "here")


def out_or_back(line: Line, draft: Draft) -> Draft:
    """Take a truck, a trailer or a person out for some days, or have it back.

    Back on a day with no last one is back for the rest of that absence. A day of which hours are
    told counts as away, and a note says so; so does one on a day after a truck's night with hives,
    which stays as it is.
    """
    kind, key = helper_named(line, draft)
    line.take("is", "has")
    word = line.take(*AWAY, *BACK)
    if not word:
        raise Refusal(
            phrase("'out' or 'off', or 'back', and days"), phrase("Write, for example, 'off Fri'.")
        )
    back = word in BACK
    # Of "broken down" and "off sick" either word says it.
    while not back and line.take(*AWAY):
        pass
    first = open_ended(line, draft) if back else None
    spans = when_or_now(line, draft, goes_on=back)
    days, parts = days_of(spans), part_days(spans, draft)
    if back:
        days = tuple(day for day in days if day not in parts)
        parts = tuple(day for day in parts if day in away_days(draft, kind, key))
    if first is not None:
        start = day_of(first) + len(parts)
        days = away_from(draft, kind, key, start)
        if days or not parts:
            said = _back_words(draft, kind, key, days or (start,), away=bool(days))
            draft = draft.noted(said)
    for day in parts:
        draft = draft.noted(_whole_day(draft, kind, key, day, back=back))
    if back and kind == "trucks":
        for day, note in _kept_in(draft, key, days):
            draft, days = draft.noted(note), tuple(one for one in days if one != day)
    return with_out_days(draft, kind, key, days, back=back)


def _kept_in(draft: Draft, truck: str, days: Sequence[int]) -> Iterator[tuple[int, Phrase]]:
    """Yield the days on which a truck rests from a night with hives, each with the note on it."""
    name = draft.outfit.truck(truck).name
    for yard in draft.outfit.yards:
        for day in (day for day, carrier in yard.carried_by if carrier == truck and day in days):
            note = phrase(
                "{name} stays out on {day}: in the night before it carries the hives of {yard}",
                name=name,
                day=date_on(draft, day),
                yard=yard.name,
            )
            yield day, note


def _back_words(draft: Draft, kind: str, key: str, days: Sequence[int], *, away: bool) -> Phrase:
    """Return which days of an absence end with a line that gives no last day."""
    name = helper(draft, kind, key).name
    first, last = date_on(draft, days[0]), date_on(draft, days[-1])
    if not away:
        return phrase("{name} was not to be away on {day}; nothing changes", name=name, day=first)
    if first == last:
        return phrase("{name} is there again on {day}", name=name, day=first)
    return phrase("{name} is there again from {first} to {last}", name=name, first=first, last=last)


def _whole_day(draft: Draft, kind: str, key: str, day: int, *, back: bool) -> Phrase:
    """Return that a day of which hours were told counts as away, and what to type instead."""
    said = phrase(
        "hours are not planned with: {name} counts as away all {day}",
        name=helper(draft, kind, key).name,
        day=date_on(draft, day),
    )
    if back:
        return phrase("{said}; without hours it is back for that day", said=said)
    mine = [one for one in draft.plan.shifts if one.day == day and key in _helpers_of(one, kind)]
    if not mine:
        return phrase("{said}; leave the line out where these hours do no harm", said=said)
    return phrase(
        "{said}; its trips of that day, {start}-{end}, stay where the line is left out",
        said=said,
        start=clock(mine[0].start_min),
        end=clock(mine[-1].end_min),
    )


def _helpers_of(shift: Shift, kind: str) -> tuple[str, ...]:
    mine = {"people": shift.crew, "trucks": (shift.truck,), "trailers": (shift.trailer,)}
    return mine[kind]
