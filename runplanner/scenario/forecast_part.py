"""Typed windows and hourly forecasts together, as the windows a plan is made in.

Hand-typed windows override: on a day with a typed fit row the forecast shuts nothing for that
work, and a typed shut row shuts whatever the forecast says.  Typed temperatures stand before
forecast ones.  Where no forecast reaches, typed windows count as ever, or else it is fair;
that is said, and can be set to shut.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from runplanner.days import DAY_MIN, Span, day_of, join, meet
from runplanner.outfit.stores import Feed
from runplanner.scenario.forecast_said import say_granted, sky_line
from runplanner.scenario.forecast_settings import Settings, read_settings
from runplanner.scenario.forecast_sources import Ground, Sky, read_skies, read_sources
from runplanner.scenario.outfit_file import OutfitFile
from runplanner.scenario.tables import Table
from runplanner.scenario.weather_file import AFTER_DAYS, Window, read_weather
from runplanner.weather.doubt import day_sureness, typed_days_sure
from runplanner.weather.judge import (
    Air,
    Cause,
    ShutHour,
    Work,
    beyond,
    shut_hours,
    syrup_shut,
)
from runplanner.weather.stretches import by_day

WIDEST = 3
"""The rank of forecast rows: any typed row is narrower."""


@dataclass(slots=True)
class Heard:
    """What the forecasts of a scenario say beyond the hours in its outfit.

    Args:
        shut: Every shut hour with its yards and reasons.
        sure: How sure each day is, per mille, by yard id; yards without a forecast are not in.
        skies: A line for each forecast: its area, file and reach.
    """

    shut: list[ShutHour] = field(default_factory=list)
    sure: dict[str, tuple[int, ...]] = field(default_factory=dict)
    skies: list[str] = field(default_factory=list)


def read_windows(
    file: OutfitFile, table: Table | None, ground: Ground, feed: Feed, heard: Heard | None
) -> list[Window]:
    """Return typed windows and those of the forecasts; what else these say goes to ``heard``."""
    heard = Heard() if heard is None else heard
    sources = read_sources(file, ground.folder)
    settings = read_settings(file.section("weather"), used=bool(sources))
    bare = table is None and bool(sources)
    typed = [] if bare else read_weather(file, table, ground.days, ground.drafts)
    skies = read_skies(file, sources, ground)
    say_granted(file.desk, skies, ground, beyond_shut=settings.beyond_shut)
    heard.skies.extend(sky_line(sky, ground) for sky in skies)
    windows = list(typed)
    for group in _groups(skies, typed, ground, feed):
        told = _Told(group, settings, ground)
        windows.extend(told.windows())
        heard.shut.extend(told.shut())
        heard.sure.update(told.sure())
    return windows


@dataclass(frozen=True, slots=True)
class _Typed:
    """What was typed for a yard, as far as it overrides a forecast.

    Args:
        fit: Days with a fit row, by work.
        air: Typed temperatures by day.
        days_down: Days until a full feeder is empty.
    """

    fit: tuple[tuple[Work, frozenset[int]], ...]
    air: tuple[tuple[int, tuple[int, int]], ...]
    days_down: int


@dataclass(frozen=True, slots=True)
class _Group:
    """Yards under one forecast for which the same was typed."""

    sky: Sky
    typed: _Typed
    yards: tuple[int, ...]


def _groups(
    skies: Sequence[Sky], typed: Sequence[Window], ground: Ground, feed: Feed
) -> list[_Group]:
    """Return the yards by forecast, the narrowest one for each, and by what was typed."""
    found: dict[tuple[int, _Typed], list[int]] = {}
    for index, draft in enumerate(ground.drafts):
        over = [number for number, sky in enumerate(skies) if index in sky.yards]
        if over:
            mine = [window for window in typed if index in window.yards]
            down = -(-draft.yard.feeder_ml // feed.uptake_ml_per_day)
            key = min(over, key=lambda number: skies[number].rank), _typed(mine, ground, down)
            found.setdefault(key, []).append(index)
    return [_Group(skies[number], what, tuple(at)) for (number, what), at in found.items()]


def _typed(mine: Sequence[Window], ground: Ground, days_down: int) -> _Typed:
    fit = tuple(
        (work, frozenset(
            day for row in mine if row.fit and row.what == work.value
            for day in _held(row, ground)
        ))
        for work in Work
    )  # fmt: skip
    air: Air = {}
    for row in sorted(
        (row for row in mine if row.what == "temperature"), key=lambda row: -row.rank
    ):
        air.update(dict.fromkeys(_held(row, ground), (row.low, row.high)))
    return _Typed(fit, tuple(sorted(air.items())), days_down)


def _held(row: Window, ground: Ground) -> range:
    return range(max(0, row.from_day), min(row.to_day + 1, ground.days.n_days + AFTER_DAYS))


@dataclass(frozen=True, slots=True)
class _Told:
    """What one forecast tells one group of yards."""

    group: _Group
    settings: Settings
    ground: Ground

    def windows(self) -> Iterator[Window]:
        """Yield shut hours and air temperatures as rows wider than any that is typed."""
        for work in Work:
            spans = join(tuple(Span(one.start_min, one.end_min) for one in self._shut(work)))
            for span in spans:
                yield from self._rows(work.value, span)
        for day, (low, high) in self._air().items():
            yield self._row("temperature", day, (0, DAY_MIN), (low, high))

    def shut(self) -> list[ShutHour]:
        """Return every shut hour with its reasons, and the days too cold for syrup."""
        yards = tuple(self.ground.drafts[index].yard.id for index in self.group.yards)
        air = self._air() | dict(self.group.typed.air)
        days = range(self.ground.days.n_days)
        cold = syrup_shut(air, days, self.group.typed.days_down, self.settings.syrup_least)
        hours = [*(one for work in Work for one in self._shut(work)), *cold]
        return [replace(one, yards=yards) for one in hours]

    def sure(self) -> dict[str, tuple[int, ...]]:
        """Return how sure each day is, by yard id."""
        n_days, sure_days = self.ground.days.n_days, self.settings.sure_days
        plain = day_sureness(self.group.sky.forecast, n_days, sure_days)
        sure = typed_days_sure(plain, dict(self.group.typed.fit)[Work.OPEN])
        return {self.ground.drafts[index].yard.id: sure for index in self.group.yards}

    def _shut(self, work: Work) -> list[ShutHour]:
        """Return what the forecast shuts, without what was typed."""
        sky, whole = self.group.sky.forecast, self._whole(work)
        hours = shut_hours(sky, work, self.settings.bounds[work], self.ground.skipped())
        if self.settings.beyond_shut:
            hours = (*hours, *beyond(sky, work, whole))
        typed_fit = dict(self.group.typed.fit)[work]
        return [
            left for hour in hours for piece in by_day(hour)
            for span in meet((Span(piece.start_min, piece.end_min),), (whole,))
            if day_of(span.start_min) not in typed_fit and (left := self._left(piece, span))
        ]  # fmt: skip

    def _whole(self, work: Work) -> Span:
        """Return the stretch that matters: a night longer where bees must settle."""
        return Span(0, (self.ground.days.n_days + (work is Work.SETTLE)) * DAY_MIN)

    def _left(self, hour: ShutHour, span: Span) -> ShutHour | None:
        """Return ``hour`` without its cold where a temperature was typed; None if none is left."""
        typed = day_of(span.start_min) in dict(self.group.typed.air)
        whys = tuple(why for why in hour.whys if not (typed and why.cause is Cause.COLD))
        return (
            replace(hour, start_min=span.start_min, end_min=span.end_min, whys=whys)
            if whys
            else None
        )

    def _air(self) -> Air:
        days = range(self.ground.days.n_days + AFTER_DAYS)
        sky, skipped = self.group.sky.forecast, self.ground.skipped()
        told = {day: sky.day_air(day, skipped) for day in days}
        return {day: air for day, air in told.items() if air is not None}

    def _rows(self, what: str, span: Span) -> Iterator[Window]:
        for day in range(day_of(span.start_min), day_of(span.end_min - 1) + 1):
            start = max(0, span.start_min - day * DAY_MIN)
            end = min(DAY_MIN, span.end_min - day * DAY_MIN)
            yield self._row(what, day, (start, end), (0, 0))

    def _row(self, what: str, day: int, hours: tuple[int, int], air: tuple[int, int]) -> Window:
        yards = frozenset(self.group.yards)
        return Window(yards, WIDEST, what, False, day, day, *hours, *air)
