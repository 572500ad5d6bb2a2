"""What is taken for granted about forecasts, said for `check`: silence is never fair weather."""

from collections.abc import Sequence

from runplanner.days import DAY_MIN, clock, day_of
from runplanner.scenario.fields import Desk
from runplanner.scenario.forecast_sources import Ground, Sky
from runplanner.weather.stretches import day_words

_MAY_LACK = (("gusts", "gust_mms"), ("thunder", "thunder_permille"))


def sky_line(sky: Sky, ground: Ground) -> str:
    """Return for where a forecast is, and from when to when."""
    reach = sky.forecast.reach()
    start, end = _moment(ground, reach.start_min), _moment(ground, reach.end_min)
    return f"{sky.area}: {sky.file}, {sky.forecast.shape}, {start} to {end}"


def say_granted(desk: Desk, skies: Sequence[Sky], ground: Ground, *, beyond_shut: bool) -> None:
    """Note the hours and figures that forecasts lack, and what is made of that."""
    for sky in skies:
        _say_gaps(desk, sky, ground)
        if not beyond_shut:
            _say_ends(desk, sky, ground)
        _say_silence(desk, sky, ground)
    covered = {index for sky in skies for index in sky.yards}
    for index, draft in enumerate(ground.drafts):
        if skies and index not in covered:
            where, source = f"weather over {draft.yard.name}", "no forecast is for it [C]"
            desk.assume(where, "fair where nothing is typed", source)


def _say_gaps(desk: Desk, sky: Sky, ground: Ground) -> None:
    gaps = sky.forecast.gaps(ground.skipped())
    hours = sum(-(-(gap.end_min - gap.start_min) // 60) for gap in gaps)
    if hours:
        first = _moment(ground, gaps[0].start_min)
        source = f"missing inside {sky.file}, the first from {first} [C]"
        desk.assume(f"weather over {sky.area}", f"shut in {_hours(hours)}", source)


def _say_silence(desk: Desk, sky: Sky, ground: Ground) -> None:
    for what, field in _MAY_LACK:
        silent = sky.forecast.silent(field)
        if silent:
            first = _moment(ground, silent[0].start_min)
            source = f"{sky.file} does not tell them, from {first} [C]"
            desk.assume(f"{what} over {sky.area}", f"not judged in {_hours(len(silent))}", source)


def _hours(number: int) -> str:
    return "1 hour" if number == 1 else f"{number} hours"


def _say_ends(desk: Desk, sky: Sky, ground: Ground) -> None:
    reach, where = sky.forecast.reach(), f"weather over {sky.area}"
    if reach.end_min < ground.days.n_days * DAY_MIN:
        value = f"fair from {_moment(ground, reach.end_min)} on where nothing is typed"
        source = f'{sky.file} ends there; type windows, or set beyond = "shut" [C]'
        desk.assume(where, value, source)
    if reach.start_min > 0:
        value = f"fair before {_moment(ground, reach.start_min)} where nothing is typed"
        desk.assume(where, value, f"{sky.file} starts there [C]")


def _moment(ground: Ground, minute: int) -> str:
    return f"{day_words(ground.days.first, day_of(minute))} {clock(minute)}"
