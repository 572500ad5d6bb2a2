"""Days of which typed windows say nothing, though other days have hours fit for the same work.

Beside them the days that typed air shuts: people type it for syrup and strips.
"""

from collections.abc import Container, Iterator, Sequence
from datetime import timedelta
from typing import Final

from runplanner.days import day_of
from runplanner.outfit.shut import Cause, Work
from runplanner.outfit.yards import Yard
from runplanner.phrase import Part, Phrase, counted, joined, phrase
from runplanner.scenario.cells.outfit_file import Days
from runplanner.scenario.windows.weather_file import WIDEST, Window
from runplanner.scenario.windows.weather_spans import Thresholds
from runplanner.scenario.yards.yard_row import Draft

_COLD: Final = (
    (Work.OPEN, Cause.COLD, phrase("opening hives"), "open_least"),
    (Work.FEED, Cause.MEAN, phrase("syrup"), "syrup_least"),
)
"""What air that is too cold forbids, why, how that is said, and the key of its limit."""
_MOST: Final = 12
"""Stretches of days, and yards, that are named; the rest are counted."""


def unsaid_days(
    windows: Sequence[Window], days: Days, drafts: Sequence[Draft], told: Container[str]
) -> Iterator[Phrase]:
    """Yield, for each work, which days have no typed row at which yards, and how they are read.

    ``drafts`` have their weather; ``told`` are the ids of yards whose days a forecast tells.
    Where no row says fit for a work, rows only take hours away: the other days were left fair
    on purpose.  Days that typed air shuts are told by it.
    """
    typed = [row for row in windows if row.rank < WIDEST]
    for work in Work:
        found: dict[tuple[int, ...], list[str]] = {}
        for index, draft in enumerate(drafts):
            mine = [row for row in typed if row.what == work.value and index in row.yards]
            if draft.yard.id not in told and any(row.fit for row in mine):
                missing = _without_row(mine, days.n_days)
                cold = _cold(draft.yard, work)
                unsaid = tuple(day for day in missing if day not in cold)
                found.setdefault(unsaid, []).append(draft.yard.name)
        for missing, names in found.items():
            if missing:
                yield _at(_words(work.value, missing, days), names, drafts)


def cold_days(drafts: Sequence[Draft], days: Days, least: Thresholds) -> Iterator[Phrase]:
    """Yield which days typed air shuts at which yards, for each work, and by which limit."""
    limits = {"open_least": least.open_least, "syrup_least": least.syrup_least}
    for work, _, called, key in _COLD:
        found: dict[tuple[int, ...], list[str]] = {}
        for draft in drafts:
            found.setdefault(_cold(draft.yard, work), []).append(draft.yard.name)
        for cold, names in found.items():
            if cold:
                said = counted(
                    "weather: one day is shut for {work} by the air typed for it ({days}), as "
                    "{key} is {least} degC",
                    "weather: {number} days are shut for {work} by the air typed for them "
                    "({days}), as {key} is {least} degC",
                    len(cold),
                    work=called,
                    days=_dates(cold, days),
                    key=key,
                    least=f"{limits[key] / 10:g}",
                )
                if work is Work.OPEN:
                    said = phrase("{what}; type fit where it is not too cold", what=said)
                else:
                    said = phrase("{what}; days until it is taken down count with them", what=said)
                yield _at(said, names, drafts)


def _cold(yard: Yard, work: Work) -> tuple[int, ...]:
    """Return the days that typed air shuts for a work at a yard."""
    causes = [cause for mine, cause, *_ in _COLD if mine is work]
    return tuple(
        day_of(one.start_min)
        for one in yard.shut
        if one.work is work and any(why.cause in causes for why in one.whys)
    )


def _without_row(rows: Sequence[Window], n_days: int) -> tuple[int, ...]:
    """Return the days of the campaign that none of these rows touches."""
    return tuple(
        day for day in range(n_days) if not any(row.from_day <= day <= row.to_day for row in rows)
    )


def _words(work: str, missing: tuple[int, ...], days: Days) -> Phrase:
    return counted(
        "weather: one day has no row of {work} and counts as fit all day ({days}); where it is "
        "not, type shut for it",
        "weather: {number} days have no row of {work} and count as fit all day ({days}); where "
        "they are not, type shut for them",
        len(missing),
        work=work,
        days=_dates(missing, days),
    )


def _at(said: Phrase, names: Sequence[str], drafts: Sequence[Draft]) -> Phrase:
    """Return what is said, with the yards where it does not hold for all."""
    if len(names) == len(drafts):
        return said
    return phrase("{what}; at {yards}", what=said, yards=_cut(names))


def _dates(numbers: tuple[int, ...], days: Days) -> Phrase:
    return _cut([_stretch(first, last, days) for first, last in _stretches(numbers)])


def _cut(parts: Sequence[Part]) -> Phrase:
    """Return parts with commas, the last of very many only counted."""
    first, more = joined(", ", *parts[:_MOST]), len(parts) - _MOST
    return phrase("{names} and {number} more", names=first, number=more) if more > 0 else first


def _stretches(numbers: tuple[int, ...]) -> list[tuple[int, int]]:
    """Return the first and last of each run of numbers that follow one another."""
    firsts = [number for number in numbers if number - 1 not in numbers]
    lasts = [number for number in numbers if number + 1 not in numbers]
    return list(zip(firsts, lasts, strict=True))


def _stretch(first: int, last: int, days: Days) -> Part:
    start, end = ((days.first + timedelta(days=day)).isoformat() for day in (first, last))
    return start if first == last else phrase("{first} to {last}", first=start, last=end)
