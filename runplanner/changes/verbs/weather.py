"""Lines on weather: hours shut, opened, or in which bees hang outside."""

from collections.abc import Sequence

from runplanner.changes.draft import Draft
from runplanner.changes.said.a_day import date_on
from runplanner.changes.said.line import Line
from runplanner.changes.said.names import some_yards
from runplanner.changes.said.when import when
from runplanner.changes.shut import reopened, shut_by_hand
from runplanner.days import Span, clock, day_of, join, meet
from runplanner.outfit.shut import Work
from runplanner.outfit.yards import Yard
from runplanner.phrase import Phrase, joined, phrase
from runplanner.visits.windows import morning_min


def shut(line: Line, draft: Draft) -> Draft:
    """Shut hours at yards, for opening hives, for syrup, or for both."""
    return _weather(line, draft, opens=False)


def opened(line: Line, draft: Draft) -> Draft:
    """Open hours at yards; they count as settled as well."""
    return _weather(line, draft, opens=True)


def _weather(line: Line, draft: Draft, *, opens: bool) -> Draft:
    where = some_yards(line, draft)
    kind = _kind(line)
    spans = when(line, draft)
    kind = kind or _kind(line)
    note = line.reason()
    nights: dict[tuple[int, ...], list[str]] = {}
    for yard in where:
        told = reopened(yard, spans, kind) if opens else shut_by_hand(yard, spans, kind, note)
        draft = draft.with_yard(told)
        if opens and kind != "feed" and (ends := _unsettled_after(told, spans)):
            nights.setdefault(ends, []).append(yard.name)
    for ends, names in nights.items():
        draft = draft.noted(_night_words(draft, ends, names))
    return draft


def _unsettled_after(yard: Yard, spans: tuple[Span, ...]) -> tuple[int, ...]:
    """Return until when bees must settle in the nights after ``spans``, where they must."""
    found = []
    for span in join(spans):
        mornings = (morning_min(yard, day) for day in range(len(yard.sun_spans)))
        night = Span(
            span.end_min, next((one for one in mornings if one >= span.end_min), span.end_min)
        )
        found += [left.end_min for left in meet(yard.unsettled_spans, (night,))[-1:]]
    return tuple(found)


def _night_words(draft: Draft, ends: tuple[int, ...], names: Sequence[str]) -> Phrase:
    moments = (joined(" ", date_on(draft, day_of(end)), clock(end)) for end in ends)
    return phrase(
        "{names}: bees must settle in the night after the hours opened, so no boxes come off "
        "before it ends ({moments}); if that is called off too, open until then",
        names=", ".join(names),
        moments=joined(", ", *moments),
    )


def _kind(line: Line) -> str:
    if line.take("for syrup", "for feeding", "for feed"):
        return "feed"
    return "open" if line.take("for opening", "for take-off", "for boxes") else ""


def unsettled(line: Line, draft: Draft) -> Draft:
    """Mark hours in which bees hanging outside must not be caught."""
    where = some_yards(line, draft)
    spans = when(line, draft)
    note = line.reason()
    for yard in where:
        draft = draft.with_yard(shut_by_hand(yard, spans, Work.SETTLE, note))
    return draft
