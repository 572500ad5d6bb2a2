"""The hours fit for each kind of work at one yard, from typed windows and temperatures."""

from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from runplanner.days import DAY_MIN, Span, join, meet, whole_day, without
from runplanner.outfit.shut import UNTOLD, Cause, Shut, Why, Work
from runplanner.outfit.stores import Feed
from runplanner.outfit.yards import Clearing, Yard
from runplanner.phrase import phrase
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.values.quantities import temperature
from runplanner.scenario.windows.typed_rows import air_of, days_down, fit_days, own_fit_days
from runplanner.scenario.windows.weather_file import AIRLESS, PARTLY, WIDEST, Window
from runplanner.scenario.yards.yard_row import Draft
from runplanner.trade.strips import Treatment, days_looked
from runplanner.weather.amounts import TEMPERATURE
from runplanner.weather.judge import Air, ShutHour, syrup_shut


@dataclass(frozen=True, slots=True)
class Thresholds:
    """Temperatures, in tenths of a degree, from which work goes."""

    syrup_least: int
    open_least: int
    warm_least: int


def read_thresholds(file: OutfitFile, windows: Sequence[Window]) -> Thresholds:
    """Return the thresholds; the defaults are noted only where temperatures make them matter."""
    fields = file.section("weather")
    if not any(window.what in {"temperature", PARTLY} for window in windows):
        for key in ("syrup_least", "open_least", "warm_least"):
            fields.optional(key, temperature) if fields.has(key) else None
        return Thresholds(0, 0, 0)
    return Thresholds(
        syrup_least=fields.read("syrup_least", temperature, 0),
        open_least=fields.read("open_least", temperature, 0),
        warm_least=fields.read("warm_least", temperature, 0),
    )


@dataclass(frozen=True, slots=True)
class Limits:
    """What weather is held against: thresholds, how fast syrup goes down, strips by kind."""

    least: Thresholds
    feed: Feed
    strips: Mapping[str, Treatment]


def with_weather(
    drafts: Sequence[Draft],
    windows: Sequence[Window],
    n_days: int,
    limits: Limits,
    told: Container[str] = (),
) -> list[Draft]:
    """Return the yards with their open, feed and unsettled hours and days too cold for strips.

    Of yards whose ids are in ``told`` a forecast speaks, which has judged the days for syrup.
    """
    done = []
    for index, draft in enumerate(drafts):
        mine = [window for window in windows if index in window.yards]
        foretold = draft.yard.id in told
        cold = () if foretold else _cold_for_syrup(draft.yard, air_of(mine), n_days, limits)
        cool = tuple(_too_cool(draft.yard, mine, n_days, limits.least, foretold=foretold))
        _see_warmth(draft, mine, n_days, foretold=foretold)
        yard = replace(
            draft.yard,
            open_spans=_fit_but(mine, Work.OPEN, cool, n_days),
            feed_spans=_fit_but(mine, Work.FEED, cold, n_days),
            unsettled_spans=_unsettled(mine, n_days),
            high_only=_high_only(draft.yard, mine, n_days, limits.least),
            strips_shut_days=_strips_shut(mine, n_days, limits.strips[draft.yard.strips]),
            shut=(
                *typed_shut(mine, n_days),
                *cool,
                *(Shut(one.work, one.start_min, one.end_min, one.whys) for one in cold),
            ),
        )
        done.append(replace(draft, yard=yard))
    return done


def typed_shut(windows: Sequence[Window], n_days: int) -> Iterator[Shut]:
    """Yield the hours that were typed as shut, day by day, with the reason typed beside them."""
    for row in windows:
        if row.rank >= WIDEST or row.fit or row.what == "temperature":
            continue
        work = Work(row.what)
        last = (n_days + (work is Work.SETTLE)) * DAY_MIN
        for span in row.spans():
            start, end = max(0, span.start_min), min(span.end_min, last)
            if start < end:
                yield Shut(work, start, end, note=row.note)


def _too_cool(
    yard: Yard, windows: Sequence[Window], n_days: int, least: Thresholds, *, foretold: bool
) -> Iterator[Shut]:
    """Yield the days too cool to open by typed temperatures; a forecast gives its own reasons.

    Where warm boards clear, so is a day whose temperature nobody tells.  A fit row opens a day
    that is too cool for bees; for warm boards only one of the yard itself does.
    """
    typed = air_of(row for row in windows if row.rank < WIDEST)
    fit, own = fit_days(windows, Work.OPEN), own_fit_days(windows)
    warm = yard.clearing is Clearing.WARM_BOARD
    for day in (day for day in range(n_days) if day not in own):
        high = typed[day][1] if day in typed else None
        limits = [least.open_least] * (day not in fit) + [least.warm_least] * warm
        if warm and high is None and not foretold:
            yield Shut(Work.OPEN, *whole_day(day), UNTOLD)
        elif high is not None and any(high < limit for limit in limits):
            yield Shut(Work.OPEN, *whole_day(day), (Why(Cause.COLD, high),))


def _see_warmth(draft: Draft, windows: Sequence[Window], n_days: int, *, foretold: bool) -> None:
    """Write down warm boards where neither a row nor a forecast tells any temperature."""
    if draft.yard.clearing is not Clearing.WARM_BOARD or foretold:
        return
    told = any(0 <= day < n_days for day in air_of(windows))
    if not told and "weather" not in draft.fields.desk.unread:
        cure = phrase("Give rows of temperature for it in the weather file, or clear another way.")
        draft.fields.fault("clearing", phrase("warm board only with temperatures"), cure)


def _cold_for_syrup(yard: Yard, air: Air, n_days: int, limits: Limits) -> tuple[ShutHour, ...]:
    """Return the days whose syrup would not be taken down, by typed temperatures."""
    down = days_down(yard, limits.feed)
    return syrup_shut(air, range(n_days), down, limits.least.syrup_least)


def fit_spans(windows: Sequence[Window], what: str, n_days: int) -> tuple[Span, ...]:
    """Return the hours of days 0 .. n_days - 1 that are fit for ``what``."""
    chosen = [(window, window.spans()) for window in windows if window.what == what]
    fit: list[Span] = []
    for day in range(n_days):
        rows = [one for one in chosen if one[0].fit and one[0].from_day <= day <= one[0].to_day]
        rank = min((row.rank for row, _ in rows), default=0)
        every = (span for row, spans in rows if row.rank == rank for span in spans)
        on_day = [span for span in every if span.start_min // DAY_MIN == day]
        fit.extend(on_day or [whole_day(day)])
    shut = tuple(span for row, spans in chosen if not row.fit for span in spans)
    return _clipped(without(join(tuple(fit)), join(shut)), n_days)


def _clipped(spans: tuple[Span, ...], n_days: int) -> tuple[Span, ...]:
    last = n_days * DAY_MIN
    return tuple(Span(span.start_min, min(span.end_min, last)) for span in spans
                 if span.start_min < last)  # fmt: skip


def _high_only(
    yard: Yard, windows: Sequence[Window], n_days: int, least: Thresholds
) -> tuple[int, ...]:
    """Return the days warm enough by a typed high that may have hours which are not.

    A fit row tells the hours: for warm boards one for the yard itself.  These want warmth even of
    a day whose low is known; elsewhere a low that is enough for opening is.
    """
    typed = air_of(row for row in windows if row.rank < WIDEST)
    if yard.clearing is Clearing.WARM_BOARD:
        told = own_fit_days(windows)
        days = {day for day, (_, high) in typed.items() if high >= least.warm_least}
    else:
        told = fit_days(windows, Work.OPEN)
        days = {day for day, (low, high) in typed.items() if low < least.open_least <= high}
    return tuple(sorted(days.intersection(range(n_days)) - told))


def _fit_but(
    windows: Sequence[Window], work: Work, cold: Sequence[Shut | ShutHour], n_days: int
) -> tuple[Span, ...]:
    """Return the hours fit for ``work``, but for days that are too ``cold`` for it."""
    days = tuple(Span(one.start_min, one.end_min) for one in cold)
    return without(fit_spans(windows, work, n_days), days)


def _unsettled(windows: Sequence[Window], n_days: int) -> tuple[Span, ...]:
    """Return the hours in which condensed bees must not be caught, to the morning after.

    Fit rows only lift what a forecast shuts, and limit nothing: the night before is another.
    """
    rows = (row.spans() for row in windows if row.what == Work.SETTLE and not row.fit)
    shut = join(tuple(span for spans in rows for span in spans))
    return meet(shut, (Span(0, (n_days + 1) * DAY_MIN),))


def _untold(windows: Sequence[Window]) -> Air:
    """Return the days whose temperature a forecast leaves out, as cold and as hot as any."""
    return {row.from_day: (TEMPERATURE.least, TEMPERATURE.most)
            for row in windows if row.what == AIRLESS}  # fmt: skip


def _told_in_part(windows: Sequence[Window]) -> Air:
    """Return what a forecast tells of days that it reaches in part, where no row tells more."""
    typed = air_of(row for row in windows if row.rank < WIDEST)
    return {row.from_day: (row.low, row.high)
            for row in windows if row.what == PARTLY and row.from_day not in typed}  # fmt: skip


def _strips_shut(windows: Sequence[Window], n_days: int, strips: Treatment) -> tuple[int, ...]:
    """Return the days unfit for strips to go in, by the air of all days they are in, if few.

    Days of unknown temperature are not judged; those told in part are, by what is told.
    """
    looked = days_looked(strips.out_after_days)
    unfit = {
        day for day, (low, high) in (_untold(windows) | air_of(windows)).items()
        if not strips.fit(low / 10, (low + high) / 20, high / 10)
    }  # fmt: skip
    unfit |= {
        day for day, (low, high) in _told_in_part(windows).items()
        if not strips.fit_so_far(low / 10, high / 10)
    }  # fmt: skip
    return tuple(day for day in range(n_days) if not unfit.isdisjoint(range(day, day + looked)))
