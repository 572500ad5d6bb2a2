"""Files people already have, gathered into a scenario's yards, and what to say of it."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from runplanner.office.screen import to_copy
from runplanner.paperwork.escape import shown
from runplanner.paperwork.speech.tongue import tr

if TYPE_CHECKING:
    from runplanner.scenario.gather.gathered import Gathered

_MOST_NAMED = 8
_MOST_NOTES = 40


def gather_yards(
    files: Sequence[Path | str] | Path | str,
    into: Path | str,
    *,
    near_m: int | None = None,
    far_km: int | None = None,
    few_is_right: bool = False,
) -> "Gathered":
    """Merge places from CSV, XLSX, GPX, KML and GeoJSON files into a scenario's yards table.

    Args:
        files: The files, or a single one.
        into: The scenario's folder.
        near_m: Places of different names nearer than this are refused; 0: none are.
        far_km: Places further than this from the rest are refused; 0: none are.
        few_is_right: So few boxes that they look like each hive's are the whole yard's; without
            it such a file is refused.

    Raises:
        ScenarioError: With every fault found; then nothing is written.
    """
    from runplanner.scenario.gather.far import FAR_KM
    from runplanner.scenario.gather.gathered import gather
    from runplanner.scenario.gather.merge import NEAR_M

    return gather(
        [Path(file) for file in ([files] if isinstance(files, Path | str) else files)],
        Path(into),
        near_m=NEAR_M if near_m is None else near_m,
        far_km=FAR_KM if far_km is None else far_km,
        few_is_right=few_is_right,
    )


def gathered_words(told: "Gathered") -> Iterator[str]:
    """Yield what was done to the yards table, and what is left to do."""
    yield from note_words(told.notes)
    yield tr("added: {names}", names=_named(told.added))
    yield tr("filled in: {names}", names=_named(told.filled))
    yield tr("known already: {number}", number=told.same)
    if told.examples:
        yield tr("examples of the starter, to be deleted: {names}", names=_named(told.examples))
    yield from (
        tr("rows without {column}: {names}", column=column, names=_named(yards))
        for column, yards in told.lacking
    )
    if told.added or told.filled:
        yield tr("wrote {file}", file=told.path)
    else:
        yield tr("nothing new for {file}", file=told.path)
    yield tr("Look it over, then: {command}", command=to_copy("check", told.path.parent))


def note_words(notes: Sequence[str]) -> Iterator[str]:
    """Yield notes, a line each, and how many more there are."""
    yield from (tr("note: {note}", note=note) for note in notes[:_MOST_NOTES])
    if len(notes) > _MOST_NOTES:
        yield tr("note: and {number} more like these", number=len(notes) - _MOST_NOTES)


def _named(names: Sequence[str]) -> str:
    """Return how many, and what the first are called."""
    if not names:
        return "0"
    first = ", ".join(shown(name, 40) for name in names[:_MOST_NAMED])
    if len(names) > _MOST_NAMED:
        more = len(names) - _MOST_NAMED
        first = tr("{names} and {number} more", names=first, number=more)
    return f"{len(names)} ({first})"
