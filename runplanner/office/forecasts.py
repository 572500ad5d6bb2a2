"""Forecasts fetched when a user asks, and what they say in words."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from runplanner.errors import Fault, PartlyError, ScenarioError
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.speech.tongue import said, tr, trn
from runplanner.phrase import joined
from runplanner.whole_file import write_whole

if TYPE_CHECKING:
    from runplanner.scenario.forecast.part import Heard
    from runplanner.scenario.forecast.wanted import Wanted
    from runplanner.weather.fetch import Patience
    from runplanner.weather.judge import ShutHour
    from runplanner.weather.wall import Wall

MOST_LINES = 200


def reasons(folder: Path | str) -> "tuple[ShutHour, ...]":
    """Return every hour that the forecasts of a scenario shut, with its yards and reasons.

    Raises:
        ScenarioError: With every fault found.
    """
    from runplanner.scenario.hear import reasons as heard_reasons

    return heard_reasons(Path(folder))


def heard_words(outfit: Outfit, heard: "Heard") -> Iterator[str]:
    """Yield which forecasts there are, what they shut and why, and how sure they are."""
    from runplanner.weather.said import reason_lines, sure_line, yards_words

    if not heard.skies:
        return
    yield tr("forecasts:")
    yield from (f"  {said(line)}" for line in heard.skies)
    lines = reason_lines(outfit, heard.shut)
    yield tr("shut by forecast:") if lines else tr("shut by forecast: nothing")
    yield from (f"  {said(line)}" for line in lines[:MOST_LINES])
    if len(lines) > MOST_LINES:
        yield "  " + tr("and {number} more", number=len(lines) - MOST_LINES)
    over = reason_lines(outfit, heard.overruled)
    if over:
        yield tr("left open, as fit hours were typed for the day:")
    yield from (f"  {said(line)}" for line in over[:MOST_LINES])
    yield tr("how sure:")
    told = {yard: sure_line(outfit, sure, heard.reach.get(yard, ()))
            for yard, sure in heard.sure.items()}  # fmt: skip
    for line in dict.fromkeys(told.values()):
        ids = tuple(yard for yard, theirs in told.items() if theirs == line)
        yield f"  {said(yards_words(outfit, ids))}: {said(line)}"


def fetch_forecasts(folder: Path | str, *, patience: "Patience | None" = None) -> Iterator[str]:
    """Fetch each forecast that a scenario names an address for; yield a line for each.

    A file is replaced only by what can be read as a forecast.  Nothing else asks the network.

    Raises:
        PartlyError: With the fault of each one that could not be had; the others stand.
        ScenarioError: With every fault, where none was written.
    """
    from runplanner.scenario.forecast.wanted import read_errand

    errand = read_errand(Path(folder))
    faults: list[Fault] = []
    written = False
    for one in errand.wanted:
        try:
            line = _fetch_one(one, Path(folder), errand.wall, errand.contact, patience)
        except ScenarioError as error:
            faults.extend(error.faults)
            continue
        written = True
        yield line
    if faults:
        raise (PartlyError if written else ScenarioError)(tuple(faults))


def _fetch_one(
    one: "Wanted", folder: Path, wall: "Wall", contact: str, patience: "Patience | None"
) -> str:
    from runplanner.scenario.faults import OUTFIT_FILE
    from runplanner.weather.fetch import fetch
    from runplanner.weather.read_forecast import read_forecast

    try:
        raw = fetch(one.url, contact, patience)
    except ScenarioError as error:
        where = joined(", ", one.where, one.area)
        told = (replace(it, file=OUTFIT_FILE, where=where, field=it.file) for it in error.faults)
        raise ScenarioError(tuple(told)) from None
    found = read_forecast(raw, one.file, wall, one.zone)
    write_whole(folder / one.file, raw)
    hours = sum(len(forecast.hours) for forecast in found.values())
    return trn(
        "{area}: {number} hour into {file}",
        "{area}: {number} hours into {file}",
        hours,
        area=one.area,
        file=folder / one.file,
    )
