"""What is taken for granted about forecasts, said for `check`: silence is never fair weather."""

from collections.abc import Sequence

from runplanner.days import DAY_MIN, Span, clock, date_of, day_of, meet
from runplanner.phrase import Phrase, counted, joined, phrase
from runplanner.scenario.cells.fields import Desk
from runplanner.scenario.forecast.sources import Ground, Sky
from runplanner.scenario.windows.weather_file import AFTER_DAYS
from runplanner.weather.hours import AIRLESS_MIN, HOUR_MIN

_MAY_LACK = (
    (phrase("gusts over {name}"), "gust_mms"),
    (phrase("thunder over {name}"), "thunder_permille"),
)


def sky_line(sky: Sky, ground: Ground) -> Phrase:
    """Return for where a forecast is, and from when to when."""
    reach = sky.forecast.reach()
    start, end = _moment(ground, reach.start_min), _moment(ground, reach.end_min)
    return phrase(
        "{area}: {file}, {shape}, {start} to {end}",
        area=sky.area, file=sky.file, shape=sky.forecast.shape, start=start, end=end,
    )  # fmt: skip


def say_granted(desk: Desk, skies: Sequence[Sky], ground: Ground, *, beyond_shut: bool) -> None:
    """Note the hours and figures that forecasts lack, and what is made of that."""
    for sky in skies:
        _say_gaps(desk, sky, ground)
        if not beyond_shut:
            _say_ends(desk, sky, skies, ground)
        _say_silence(desk, sky, ground)
        _say_airless(desk, sky, ground)
    covered = {index for sky in skies for index in sky.yards}
    for index, draft in enumerate(ground.drafts):
        if skies and index not in covered:
            where, source = (
                phrase("weather over {name}", name=draft.yard.name),
                phrase("no forecast is for it [C]"),
            )
            desk.assume(where, phrase("fair where nothing is typed"), source)


def _say_gaps(desk: Desk, sky: Sky, ground: Ground) -> None:
    gaps = sky.forecast.gaps(ground.skipped())
    hours = sum(-(-(gap.end_min - gap.start_min) // 60) for gap in gaps)
    if hours:
        first = _moment(ground, gaps[0].start_min)
        source = phrase(
            "missing inside {file}, the first from {first} [C]", file=sky.file, first=first
        )
        desk.assume(
            phrase("weather over {name}", name=sky.area),
            phrase("shut in {hours}", hours=_hours(hours)),
            source,
        )


def _say_silence(desk: Desk, sky: Sky, ground: Ground) -> None:
    for what, field in _MAY_LACK:
        silent = sky.forecast.silent(field)
        if silent:
            first = _moment(ground, silent[0].start_min)
            source = phrase(
                "{file} does not tell them, from {first} [C]", file=sky.file, first=first
            )
            desk.assume(
                Phrase(what.one, {"name": sky.area}),
                phrase("not judged in {hours}", hours=_hours(len(silent))),
                source,
            )


def _say_airless(desk: Desk, sky: Sky, ground: Ground) -> None:
    days = sky.forecast.airless_days(range(ground.days.n_days + AFTER_DAYS), ground.skipped())
    if days:
        source = phrase(
            "{file} is silent about it for more than {number} hours, the first time on {day} [C]",
            file=sky.file,
            number=AIRLESS_MIN // HOUR_MIN,
            day=date_of(ground.days.first, days[0]),
        )
        value = counted(
            "{number} day not told: no syrup is poured that is still taken down then, and no "
            "strips go in that mind it",
            "{number} days not told: no syrup is poured that is still taken down then, and no "
            "strips go in that mind it",
            len(days),
        )
        desk.assume(phrase("temperature over {name}", name=sky.area), value, source)


def _hours(number: int) -> Phrase:
    return counted("{number} hour", "{number} hours", number)


def _say_ends(desk: Desk, sky: Sky, skies: Sequence[Sky], ground: Ground) -> None:
    """Note what counts before and after a forecast: one for a wider area, where that reaches."""
    reach, where = sky.forecast.reach(), phrase("weather over {name}", name=sky.area)
    start, end = _moment(ground, reach.start_min), _moment(ground, reach.end_min)
    wider = [other for other in skies if other.rank > sky.rank and other.yards >= sky.yards]

    def beside(span: Span) -> str | None:
        found = (one.area for one in wider if meet((one.forecast.reach(),), (span,)))
        return next(found, None)

    after, before = Span(reach.end_min, ground.days.n_days * DAY_MIN), Span(0, reach.start_min)
    if after.start_min < after.end_min:
        area = beside(after)
        value, source = (
            phrase("fair from {moment} on where nothing is typed", moment=end),
            phrase('{file} ends there; type windows, or set beyond = "shut" [C]', file=sky.file),
        )
        if area is not None:
            value = phrase("as over {area} from {moment} on", area=area, moment=end)
            source = phrase("{file} ends there [C]", file=sky.file)
        desk.assume(where, value, source)
    if before.start_min < before.end_min:
        area = beside(before)
        value = phrase("fair before {moment} where nothing is typed", moment=start)
        if area is not None:
            value = phrase("as over {area} before {moment}", area=area, moment=start)
        desk.assume(where, value, phrase("{file} starts there [C]", file=sky.file))


def _moment(ground: Ground, minute: int) -> Phrase:
    return joined(" ", date_of(ground.days.first, day_of(minute)), clock(minute))
