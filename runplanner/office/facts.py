"""A scenario's facts before any planning: started, read, checked and summed up."""

from pathlib import Path

from runplanner.office.rooms import Rooms
from runplanner.outfit.outfit import Outfit


def read_outfit(folder: Path | str, *, rooms: Rooms | None = None) -> Outfit:
    """Return the outfit described in a scenario folder.

    Raises:
        ScenarioError: With every fault found.
    """
    return (rooms or Rooms()).read(Path(folder))


def start_scenario(folder: Path | str, title: str = "") -> list[Path]:
    """Write a commented starter scenario into a new folder; return its files."""
    from runplanner.scenario import new_scenario

    path = Path(folder)
    return new_scenario(path, title or path.resolve().name)
