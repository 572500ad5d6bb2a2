"""Files people already have, gathered into a scenario's yards, and what to say of it."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from runplanner.paperwork.escape import shown

if TYPE_CHECKING:
    from runplanner.scenario.gather import Gathered

_MOST_NAMED = 8
_MOST_NOTES = 40


def gather_yards(
    files: Sequence[Path | str],
    into: Path | str,
    *,
    near_m: int | None = None,
    far_km: int | None = None,
) -> "Gathered":
    """Merge places from CSV, XLSX, GPX, KML and GeoJSON files into a scenario's yards table.

    Args:
        files: The files.
        into: The scenario's folder.
        near_m: Places of different names nearer than this are refused; 0: none are.
        far_km: Places further than this from the rest are refused; 0: none are.

    Raises:
        ScenarioError: With every fault found; then nothing is written.
    """
    from runplanner.scenario.gather import gather
    from runplanner.scenario.gather_far import FAR_KM
    from runplanner.scenario.gather_merge import NEAR_M

    return gather(
        [Path(file) for file in files],
        Path(into),
        near_m=NEAR_M if near_m is None else near_m,
        far_km=FAR_KM if far_km is None else far_km,
    )


def gathered_words(told: "Gathered") -> Iterator[str]:
    """Yield what was done to the yards table, and what is left to do."""
    yield from (f"note: {sentence}" for sentence in told.notes[:_MOST_NOTES])
    if len(told.notes) > _MOST_NOTES:
        yield f"note: and {len(told.notes) - _MOST_NOTES} more like these"
    yield f"added: {_named(told.added)}"
    yield f"filled in: {_named(told.filled)}"
    yield f"known already: {told.same}"
    if told.examples:
        yield f"examples of the starter, to be deleted: {_named(told.examples)}"
    yield from (f"rows without {column}: {count}" for column, count in told.lacking)
    verb = "wrote" if told.added or told.filled else "nothing new for"
    yield f"{verb} {told.path}"
    yield f"Look it over, then: runplanner check {told.path.parent}"


def _named(names: Sequence[str]) -> str:
    """Return how many, and what the first are called."""
    if not names:
        return "0"
    first = ", ".join(shown(name, 40) for name in names[:_MOST_NAMED])
    more = f" and {len(names) - _MOST_NAMED} more" if len(names) > _MOST_NAMED else ""
    return f"{len(names)} ({first}{more})"
