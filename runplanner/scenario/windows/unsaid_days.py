"""Days of which typed windows say nothing, though other days have hours fit for the same work.

Beside them the days that typed air shuts: people type it for syrup and strips.
"""

from collections.abc import Container, Iterable, Iterator, Sequence
from datetime import timedelta
from typing import Final

from runplanner.days import day_of
from runplanner.outfit.shut import UNTOLD, Cause, Work
from runplanner.outfit.yards import Clearing, Yard
from runplanner.phrase import Part, Phrase, counted, joined, phrase
from runplanner.scenario.cells.outfit_file import Days
from runplanner.scenario.windows.weather_file import WIDEST, Window
from runplanner.scenario.windows.weather_spans import Limits
from runplanner.scenario.yards.yard_row import Draft
from runplanner.trade.strips import in_words

_COLD: Final = (
    (Work.OPEN, phrase("opening hives"), "open_least", phrase("type fit where it is not too cold")),
    (
        Work.OPEN,
        phrase("opening hives"),
        "warm_least",
        phrase("type fit for the yard itself where its warm boards clear all the same"),
    ),
    (
        Work.FEED,
        phrase("syrup"),
        "syrup_least",
        phrase("days until it is taken down count with them"),
    ),
)
"""What air that is too cold forbids, how that is said, the key of its limit, and what to know."""
_MOST: Final = 12
"""Stretches of days, and yards, that are named; the rest are counted."""


def unsaid_days(
    windows: Sequence[Window], days: Days, drafts: Sequence[Draft], told: Container[str]
) -> Iterator[Phrase]:
    """Yield, for each work, which days have no typed row at which yards, and how they are read.

    ``drafts`` have their weather; ``told`` are the ids of yards whose days a forecast tells.
    Where no row says fit for a work, rows only take hours away: the other days were left fair
    on purpose.  Days that typed air shuts are told by it.  Fit rows of nights limit no other night.
    """
    typed = [row for row in windows if row.rank < WIDEST]
    yield from _idle_nights(typed, drafts, told)
    for work in (Work.OPEN, Work.FEED):
        unsaid = []
        for index, draft in enumerate(drafts):
            mine = [row for row in typed if row.what == work.value and index in row.yards]
            if draft.yard.id not in told and any(row.fit for row in mine):
                missing = _without_row(mine, days.n_days)
                untold = _untold(draft.yard) if work is Work.OPEN else ()
                shut = (*_cold(draft.yard, work), *untold)
                unsaid.append((draft.yard, tuple(day for day in missing if day not in shut)))
        for missing, names in _by_days(unsaid):
            yield _at(_words(work.value, missing, days), names, drafts)


def _idle_nights(
    typed: Sequence[Window], drafts: Sequence[Draft], told: Container[str]
) -> Iterator[Phrase]:
    """Yield where nights are typed as settled and no forecast shuts any."""
    fit = [row for row in typed if row.fit and row.what == Work.SETTLE.value]
    names = [
        draft.yard.name for index, draft in enumerate(drafts)
        if draft.yard.id not in told and any(index in row.yards for row in fit)
    ]  # fmt: skip
    if names:
        said = phrase(
            "weather: rows of settle that say fit change nothing where there is no forecast: "
            "every night counts as settled, but for hours typed as shut"
        )
        yield _at(said, names, drafts)


def cold_days(drafts: Sequence[Draft], days: Days, limits: Limits) -> Iterator[Phrase]:
    """Yield which days typed air shuts at which yards, for each work, and by which limit.

    Also those that nobody knows to be warm enough for warm boards, and those unfit for strips.
    """
    for work, called, key, more in _COLD:
        mine = [draft.yard for draft in drafts if work is Work.FEED or key == _open_key(draft.yard)]
        for cold, names in _by_days((yard, _cold(yard, work)) for yard in mine):
            said = counted(
                "weather: one day is shut for {work} by the air typed for it ({days}), as "
                "{key} is {least} degC",
                "weather: {number} days are shut for {work} by the air typed for them "
                "({days}), as {key} is {least} degC",
                len(cold),
                work=called,
                days=_dates(cold, days),
                key=key,
                least=f"{getattr(limits.least, key) / 10:g}",
            )
            yield _at(joined("; ", said, more), names, drafts)
    for untold, names in _by_days((draft.yard, _untold(draft.yard)) for draft in drafts):
        said = counted(
            "weather: one day is shut for warm boards, as no temperature is told of it ({days}); "
            "type it, or fit for the yard itself",
            "weather: {number} days are shut for warm boards, as no temperature is told of them "
            "({days}); type it, or fit for the yard itself",
            len(untold),
            days=_dates(untold, days),
        )
        yield _at(said, names, drafts)
    yield from _strips_kept_out(drafts, days, limits)


def _strips_kept_out(drafts: Sequence[Draft], days: Days, limits: Limits) -> Iterator[Phrase]:
    """Yield the days on which the air, typed or of a forecast, lets no strips go in, by kind.

    Where that is every day another line says so.
    """
    for kind, treatment in limits.strips.items():
        mine = [draft.yard for draft in drafts if draft.yard.strips == kind]
        for unfit, names in _by_days((yard, yard.strips_shut_days) for yard in mine):
            if len(unfit) == days.n_days:
                continue
            said = counted(
                "weather: one day is not fit for strips of {substance} to go in ({days}), by the "
                "air of that day or of one on which they would still be in",
                "weather: {number} days are not fit for strips of {substance} to go in ({days}), "
                "by the air of those days or of one on which they would still be in",
                len(unfit),
                substance=in_words(treatment.substance),
                days=_dates(unfit, days),
            )
            yield _at(said, names, drafts)


def _open_key(yard: Yard) -> str:
    """Return the key of the limit by which a day is too cool to open a yard's hives."""
    return "warm_least" if yard.clearing is Clearing.WARM_BOARD else "open_least"


def _by_days(
    told: Iterable[tuple[Yard, tuple[int, ...]]],
) -> Iterator[tuple[tuple[int, ...], list[str]]]:
    """Yield each set of days with the names of the yards of which it is ``told``."""
    found: dict[tuple[int, ...], list[str]] = {}
    for yard, its in told:
        found.setdefault(its, []).append(yard.name)
    yield from ((its, names) for its, names in found.items() if its)


def _cold(yard: Yard, work: Work) -> tuple[int, ...]:
    """Return the days that typed air shuts for a work at a yard."""
    cause = Cause.COLD if work is Work.OPEN else Cause.MEAN
    return tuple(
        day_of(one.start_min)
        for one in yard.shut
        if one.work is work
        and any(why.cause is cause and why.amount is not None for why in one.whys)
    )


def _untold(yard: Yard) -> tuple[int, ...]:
    """Return the days that are shut for warm boards as nobody tells how warm they are."""
    return tuple(
        day_of(one.start_min) for one in yard.shut
        if one.work is Work.OPEN and one.whys == UNTOLD
    )  # fmt: skip


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
