"""Typed windows and hourly forecasts together, as the windows a plan is made in.

Hand-typed windows override: on a day with a typed fit row the forecast shuts nothing for that
work (for settling, in the row's hours), and a typed shut row shuts whatever the forecast says.
Typed temperatures stand before forecast ones.  Where no forecast reaches, typed windows count as
ever, or else it is fair; that is said, and can be set to shut.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace

from runplanner.days import DAY_MIN, Span, day_of, join, meet, without
from runplanner.outfit.stores import Feed
from runplanner.outfit.yards import Clearing
from runplanner.phrase import Phrase
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.cells.tables import Table
from runplanner.scenario.forecast.said import say_granted, sky_line
from runplanner.scenario.forecast.settings import Settings, read_settings
from runplanner.scenario.forecast.sources import Ground, Sky, read_skies, read_sources
from runplanner.scenario.forecast.typed import Typed, what_was_typed
from runplanner.scenario.windows.weather_file import (
    AFTER_DAYS,
    AIRLESS,
    PARTLY,
    WIDEST,
    Window,
    read_weather,
)
from runplanner.weather.doubt import day_sureness, typed_days_sure
from runplanner.weather.hours import Forecast
from runplanner.weather.judge import (
    Air,
    ShutHour,
    Work,
    beyond,
    shut_hours,
    syrup_shut,
)
from runplanner.weather.stretches import within


@dataclass(slots=True)
class Heard:
    """What a scenario says beyond its outfit: its forecasts, and values in doubt.

    Args:
        shut: Every shut hour with its yards and reasons.
        sure: How sure each day is, per mille, by yard id; yards without a forecast are not in.
        reach: What forecasts speak of, from day 0 on, by the same ids.
        typed: What is typed for every yard, as far as it stands before a forecast, by its id.
        skies: A line for each forecast: its area, file and reach.
        overruled: Hours it would have shut, but for a typed fit row.
        waiting: Forecasts that are named and do not count yet, and why.
        doubts: Values that could have been meant otherwise, as they were read.
    """

    shut: list[ShutHour] = field(default_factory=list)
    overruled: list[ShutHour] = field(default_factory=list)
    sure: dict[str, tuple[int, ...]] = field(default_factory=dict)
    reach: dict[str, tuple[Span, ...]] = field(default_factory=dict)
    typed: dict[str, Typed] = field(default_factory=dict)
    skies: list[str] = field(default_factory=list)
    waiting: list[Phrase] = field(default_factory=list)
    doubts: list[Phrase] = field(default_factory=list)


def read_windows(
    file: OutfitFile, table: Table | None, ground: Ground, feed: Feed, heard: Heard
) -> list[Window]:
    """Return typed windows and those of the forecasts; what else these say goes to ``heard``."""
    sources = read_sources(file, ground.folder)
    bare = table is None and bool(sources)
    typed = [] if bare else read_weather(file, table, ground.days, ground.drafts)
    skies = read_skies(file, sources, ground, heard.waiting)
    settings = read_settings(file.section("weather"), used=bool(skies))
    if bare and not skies:
        read_weather(file, None, ground.days, ground.drafts)
    say_granted(file.desk, skies, ground, beyond_shut=bool(settings.beyond))
    heard.skies.extend(sky_line(sky, ground) for sky in skies)
    by_hand = _by_hand(ground, feed, typed)
    heard.typed.update(
        (draft.yard.id, mine) for draft, mine in zip(ground.drafts, by_hand, strict=True)
    )
    groups = _groups(skies, by_hand, ground)
    views = {
        (numbers, warm): _view(
            [skies[number].forecast for number in numbers],
            settings.for_warm_boards() if warm else settings, ground,
        )
        for numbers, warm in dict.fromkeys((numbers, warm) for numbers, warm, _ in groups)
    }  # fmt: skip
    windows = list(typed)
    for (numbers, warm, what), yards in groups.items():
        windows.extend(_tell(views[numbers, warm], what, yards, ground, heard))
    return windows


def _by_hand(ground: Ground, feed: Feed, typed: Sequence[Window]) -> list[Typed]:
    """Return what was typed for each yard."""
    return [
        what_was_typed(draft.yard, [window for window in typed if index in window.yards], feed)
        for index, draft in enumerate(ground.drafts)
    ]


def _groups(
    skies: Sequence[Sky], by_hand: Sequence[Typed], ground: Ground
) -> dict[tuple[tuple[int, ...], bool, Typed], list[int]]:
    """Return the yards by what is told of them.

    By their forecasts, narrowest first, by whether warm boards clear there, and by what was
    typed for them.
    """
    found: dict[tuple[tuple[int, ...], bool, Typed], list[int]] = {}
    for index, typed in enumerate(by_hand):
        over = [number for number, sky in enumerate(skies) if index in sky.yards]
        over.sort(key=lambda number: skies[number].rank)
        if over:
            warm = ground.drafts[index].yard.clearing is Clearing.WARM_BOARD
            found.setdefault((tuple(over), warm, typed), []).append(index)
    return found


@dataclass(frozen=True, slots=True)
class _View:
    """What the forecasts for some yards say before anything typed is laid over them."""

    reach: tuple[Span, ...]
    shut: dict[Work, tuple[ShutHour, ...]]
    air: Air
    partly: Air
    airless: tuple[int, ...]
    sure: tuple[int, ...]
    syrup_least: int


def _view(forecasts: Sequence[Forecast], settings: Settings, ground: Ground) -> _View:
    """Return what ``forecasts`` say together: each speaks of what those before it do not reach."""
    skipped, n_days = ground.skipped(), ground.days.n_days
    reaches = tuple(forecast.reach() for forecast in forecasts)

    def shut(work: Work) -> tuple[ShutHour, ...]:
        """A night longer than the campaign where bees must settle."""
        whole = Span(0, (n_days + (work is Work.SETTLE)) * DAY_MIN)
        hours = [
            replace(hour, start_min=span.start_min, end_min=span.end_min)
            for number, forecast in enumerate(forecasts)
            for hour in shut_hours(forecast, work, settings.bounds[work], skipped)
            for span in without((Span(hour.start_min, hour.end_min),), reaches[:number])
        ]
        cause = settings.beyond.get(work)
        ends = () if cause is None else beyond(reaches, work, whole, cause)
        return within((*hours, *ends), whole)

    air, partly, airless = _air(forecasts, range(n_days + AFTER_DAYS), skipped)
    return _View(
        reach=meet(join(reaches), (Span(0, (n_days + 1) * DAY_MIN),)),
        shut={work: shut(work) for work in Work},
        air=air,
        partly=partly,
        airless=airless,
        sure=day_sureness(forecasts, n_days, settings.sure_days),
        syrup_least=settings.syrup_least,
    )


def _air(
    forecasts: Sequence[Forecast], days: range, skipped: tuple[Span, ...]
) -> tuple[Air, Air, tuple[int, ...]]:
    """Return the temperatures of days told whole, those told of others, and days long silent."""
    air, partly, airless = Air(), Air(), tuple[int, ...]()
    for forecast in reversed(forecasts):
        mine = {day: its for day in days if (its := forecast.day_air(day, skipped)) is not None}
        silent = forecast.airless_days(days, skipped)
        known = {*mine, *silent}
        air = {day: its for day, its in air.items() if day not in silent} | mine
        airless = (*(day for day in airless if day not in known), *silent)
        partly = {day: its for day, its in partly.items() if day not in known} | {
            day: its for day in days
            if day not in known and (its := forecast.told_air(day)) is not None
        }  # fmt: skip
    return air, partly, airless


def _tell(
    view: _View, typed: Typed, at: Sequence[int], ground: Ground, heard: Heard
) -> Iterator[Window]:
    """Yield the windows of one forecast for yards for which the same was typed."""
    ids = tuple(ground.drafts[index].yard.id for index in at)
    yards = frozenset(at)
    for work in Work:
        cold, warm = _cold(view, typed, ground) if work is Work.FEED else ([], [])
        shut = [left for hour in view.shut[work] for left in typed.left(hour)] + cold
        heard.shut.extend(replace(hour, yards=ids) for hour in shut)
        lost = [lost for hour in view.shut[work] for lost in typed.overruled(hour)] + warm
        heard.overruled.extend(replace(hour, yards=ids) for hour in lost)
        spans = join(tuple(Span(hour.start_min, hour.end_min) for hour in shut))
        for day, start, end in _by_day(spans):
            yield Window(yards, WIDEST, work.value, False, day, day, start, end, 0, 0)
    for day, (low, high) in view.air.items():
        yield Window(yards, WIDEST, "temperature", False, day, day, 0, DAY_MIN, low, high)
    for day, (low, high) in view.partly.items():
        yield Window(yards, WIDEST, PARTLY, False, day, day, 0, DAY_MIN, low, high)
    for day in view.airless:
        yield Window(yards, WIDEST, AIRLESS, False, day, day, 0, DAY_MIN, 0, 0)
    sure = typed_days_sure(view.sure, typed.opened)
    heard.sure.update(dict.fromkeys(ids, sure))
    heard.reach.update(dict.fromkeys(ids, view.reach))


def _cold(view: _View, typed: Typed, ground: Ground) -> tuple[list[ShutHour], list[ShutHour]]:
    """Return the days too cold for syrup, and those that a typed fit row leaves open.

    On a day with a fit row only typed temperatures count.
    """

    def judged(air: Air, airless: Sequence[int] = ()) -> tuple[ShutHour, ...]:
        days = range(ground.days.n_days)
        return syrup_shut(air, days, typed.days_down, view.syrup_least, airless)

    own = dict(typed.air)
    told = judged(view.air | own, [day for day in view.airless if day not in own])
    by_hand = [day for day in judged(own) if typed.overruled(day)]
    known = {day.start_min for day in by_hand}
    cold = [*(day for day in told if not typed.overruled(day)), *by_hand]
    return cold, [day for day in told if typed.overruled(day) and day.start_min not in known]


def _by_day(spans: Sequence[Span]) -> Iterator[tuple[int, int, int]]:
    """Yield day, first and last minute of the day, as a typed row would have them."""
    for span in spans:
        for day in range(day_of(span.start_min), day_of(span.end_min - 1) + 1):
            midnight = day * DAY_MIN
            yield (
                day,
                max(0, span.start_min - midnight),
                min(DAY_MIN, span.end_min - midnight),
            )
