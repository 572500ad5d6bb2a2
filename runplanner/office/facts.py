"""A scenario's facts before any planning: started, read, checked and summed up."""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from runplanner.office.rooms import Rooms
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.escape import shown

if TYPE_CHECKING:
    from runplanner.scenario.forecast_part import Heard


def read_outfit(
    folder: Path | str, *, rooms: Rooms | None = None, heard: "Heard | None" = None
) -> Outfit:
    """Return the outfit described in a scenario folder.

    What its forecasts say besides goes to ``heard``, unless small rooms are handed in.

    Raises:
        ScenarioError: With every fault found.
    """
    if rooms is None and heard is not None:
        from runplanner.scenario import read_scenario

        return read_scenario(Path(folder), heard)
    return (rooms or Rooms()).read(Path(folder))


def start_scenario(folder: Path | str, title: str = "") -> list[Path]:
    """Write a commented starter scenario into a folder; return its files.

    Raises:
        ScenarioError: When a scenario stands there already, or it cannot be written.
    """
    from runplanner.scenario import new_scenario

    path = Path(folder)
    return new_scenario(path, title or path.resolve().name)


def facts_words(outfit: Outfit) -> Iterator[str]:
    """Yield what the facts imply, then every default that was used, with its source."""
    from runplanner.scenario import implied

    yield shown(outfit.title, 80)
    yield from (f"  {label}: {value}" for label, value in implied(outfit))
    if outfit.assumed:
        yield "taken for granted, as nothing was typed:"
    yield from (f"  {one.field} = {one.value}  ({one.source})" for one in outfit.assumed)
    yield "no fault found"
