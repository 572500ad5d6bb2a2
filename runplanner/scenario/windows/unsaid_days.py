"""Days of which typed windows say nothing, though other days have hours fit for the same work."""

from collections.abc import Collection, Iterator, Sequence
from datetime import timedelta
from typing import Final

from runplanner.phrase import Part, Phrase, counted, joined, phrase
from runplanner.scenario.cells.outfit_file import Days
from runplanner.scenario.windows.weather_file import Window
from runplanner.scenario.yards.yard_row import Draft

_WORKS: Final = ("open", "feed", "settle")
_MOST: Final = 12
"""Stretches of days, and yards, that are named; the rest are counted."""


def unsaid_days(
    windows: Sequence[Window], days: Days, drafts: Sequence[Draft], told: Collection[int]
) -> Iterator[Phrase]:
    """Yield, for each work, which days have no typed row at which yards, and how they are read.

    ``told`` are the indices of yards whose days a forecast tells.  Where no row says fit for a
    work, rows only take hours away: the other days were left fair on purpose.
    """
    for work in _WORKS:
        found: dict[tuple[int, ...], list[str]] = {}
        for index, draft in enumerate(drafts):
            mine = [row for row in windows if row.what == work and index in row.yards]
            if index not in told and any(row.fit for row in mine):
                found.setdefault(_without_row(mine, days.n_days), []).append(draft.yard.name)
        for missing, names in found.items():
            if missing:
                everywhere = len(names) == len(drafts)
                yield _words(work, missing, days, () if everywhere else names)


def _without_row(rows: Sequence[Window], n_days: int) -> tuple[int, ...]:
    """Return the days of the campaign that none of these rows touches."""
    return tuple(
        day for day in range(n_days) if not any(row.from_day <= day <= row.to_day for row in rows)
    )


def _words(work: str, missing: tuple[int, ...], days: Days, names: Sequence[str]) -> Phrase:
    said = counted(
        "weather: one day has no row of {work} and counts as fit all day ({days}); where it is "
        "not, type shut for it",
        "weather: {number} days have no row of {work} and count as fit all day ({days}); where "
        "they are not, type shut for them",
        len(missing),
        work=work,
        days=_cut([_stretch(first, last, days) for first, last in _stretches(missing)]),
    )
    return phrase("{what}; at {yards}", what=said, yards=_cut(names)) if names else said


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
