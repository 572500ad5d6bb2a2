"""Why hours are shut, and how sure a day's weather is, in words for papers and map."""

from collections.abc import Iterable, Iterator

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops_at
from runplanner.daybook.trip import Job
from runplanner.days import Span, meet, whole_day
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.shut import Figures, Shut, Why, Work
from runplanner.outfit.yards import Yard
from runplanner.paperwork.escape import shown, shown_name
from runplanner.paperwork.speech.say import (
    count,
    degrees,
    yard_name,
)
from runplanner.paperwork.speech.substances import substance_at
from runplanner.paperwork.speech.tongue import mark, said, tr
from runplanner.visits.due import due
from runplanner.weather.doubt import percent
from runplanner.weather.stretches import hours_words

LONGEST_NOTE = 80
MOST_NAMES = 3
_FIGURES = Figures(degrees, "\N{DEGREE SIGN}C")
_SHUT_FOR = (
    (frozenset({Work.OPEN, Work.FEED}), mark("shut")),
    (frozenset({Work.OPEN}), mark("shut for opening hives")),
    (frozenset({Work.FEED}), mark("shut for syrup")),
    (frozenset({Work.SETTLE}), mark("no bees outside")),
)


def reason_words(one: Shut) -> str:
    """Return why hours are shut: what was typed, or what the forecast says; may be empty."""
    if one.note:
        return shown(one.note, LONGEST_NOTE)
    return ", ".join(why_words(why) for why in one.whys)


def why_words(why: Why) -> str:
    """Return one reason of a forecast."""
    return said(why.words(_FIGURES))


def shut_on(yard: Yard, day: int) -> tuple[str, ...]:
    """Return what is shut at a yard on one day: "shut from 14:00: rain 2.1 mm/h"."""
    light = yard.sun_spans[day : day + 1]
    found: dict[tuple[Span, str], set[Work]] = {}
    for one in yard.shut:
        whole = (whole_day(day),)
        seen = whole if one.work is Work.SETTLE else meet(whole, light)
        for span in meet((Span(one.start_min, one.end_min),), seen):
            found.setdefault((span, reason_words(one)), set()).add(one.work)
    lines: dict[str, None] = {}
    for (span, why), works in sorted(found.items(), key=lambda item: item[0]):
        told: set[Work] = set()
        for together, words in _SHUT_FOR:
            if together <= works - told:
                counts = light if Work.SETTLE not in together else ()
                hours = _hours(span, day, counts)
                lines[_line(tr(words), hours, why)] = None
                told |= together
    return tuple(lines)


def _line(what: str, hours: str, why: str) -> str:
    return f"{what} {hours}: {why}" if why else f"{what} {hours}"


def _hours(span: Span, day: int, light: tuple[Span, ...]) -> str:
    return said(hours_words(span, light[0] if light else whole_day(day)))


def kept_from(plan: Plan, yard: Yard, day: int) -> tuple[str, ...]:
    """Return what the weather of a day keeps from being done at a yard: hours shut, and strips."""
    unfit = day in yard.strips_shut_days and _strips_to_come(plan, yard, day)
    kept_out = tr("not fit for strips of {substance}", substance=substance_at(plan.outfit, yard.id))
    return (*shut_on(yard, day), *([kept_out] if unfit else []))


def _strips_to_come(plan: Plan, yard: Yard, day: int) -> bool:
    """Tell whether a yard is due strips and not all of them are in before ``day``."""
    went_in = (
        action.colonies
        for stop in stops_at(plan, yard.id) if stop.shift.day < day
        for action in stop.call.actions if action.job is Job.STRIPS
    )  # fmt: skip
    return due(plan.outfit, yard).strips and sum(went_in) < yard.colonies


def day_weather(plan: Plan, day: int) -> tuple[str, ...]:
    """Return what a day's weather shuts, yards with the same together, and how sure it is."""
    outfit = plan.outfit
    groups: dict[str, list[Yard]] = {}
    for yard in outfit.yards:
        for line in kept_from(plan, yard, day):
            groups.setdefault(line, []).append(yard)
    lines = [f"{yards_words(outfit, yards)}: {line}" for line, yards in groups.items()]
    return (*lines, *_sure(outfit, day))


def _sure(outfit: Outfit, day: int) -> Iterator[str]:
    """Yield how sure the day's weather is where it is not fully so, or that nobody tells it."""
    groups: dict[int, list[Yard]] = {}
    untold: list[Yard] = []
    for yard in outfit.yards:
        if not yard.doubt_permille(day):
            continue
        if yard.forecast_spans and not yard.foretold(day):
            untold.append(yard)
        else:
            groups.setdefault(1000 - yard.doubt_permille(day), []).append(yard)
    if untold:
        yield tr("{yards}: no forecast reaches this day", yards=yards_words(outfit, untold))
    for sure, yards in sorted(groups.items()):
        yield tr(
            "{yards}: the forecast is {percent} % sure",
            yards=yards_words(outfit, yards),
            percent=percent(sure),
        )


def yards_words(outfit: Outfit, yards: Iterable[Yard]) -> str:
    """Return yards by the shortest name they have together: all, a district, or their own."""
    mine = list(yards)
    if len(mine) == len(outfit.yards):
        return tr("all yards")
    district = mine[0].district
    if district and [yard for yard in outfit.yards if yard.district == district] == mine:
        return shown_name(district, 48)
    names = ", ".join(yard_name(yard) for yard in mine[:MOST_NAMES])
    more = len(mine) - MOST_NAMES
    if more < 1:
        return names
    return tr("{names} and {more}", names=names, more=count(more, "more yard", "more yards"))
