"""Yards gathered from files people already have into the yards table of a scenario.

All faults at once, and nothing written while there is one.
"""

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from runplanner.errors import Fault, ScenarioError, system_said
from runplanner.phrase import phrase, verbatim
from runplanner.scenario.cells.fields import Desk
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.faults import Refusal, did_you_mean, said_text
from runplanner.scenario.files import folder_is_there, table_path
from runplanner.scenario.gather.far import FAR_KM, Known, check_far
from runplanner.scenario.gather.found import Basket, Spot
from runplanner.scenario.gather.geojson import gather_geojson
from runplanner.scenario.gather.merge import NEAR_M, Merged, Merger
from runplanner.scenario.gather.places import point_in, read_places
from runplanner.scenario.gather.table import gather_table
from runplanner.scenario.gather.waypoints import gather_gpx, gather_kml
from runplanner.scenario.places.points import Point
from runplanner.scenario.yards.few_boxes import few_boxes
from runplanner.scenario.yards.yard_row import BOXES, COLONIES
from runplanner.scenario.yards.yards_sheet import STARTER_BASE, STARTER_NAMES, Sheet, read_sheet
from runplanner.whole_file import write_whole

_READERS: Final[dict[str, Callable[[Path, Basket], None]]] = {
    ".csv": gather_table,
    ".tsv": gather_table,
    ".xlsx": gather_table,
    ".gpx": gather_gpx,
    ".kml": gather_kml,
    ".kmz": gather_kml,
    ".geojson": gather_geojson,
    ".json": gather_geojson,
}
_BASES: Final = ("base", "home", "feed_store", "honey_house")
_CURES: Final = {
    ".xls": phrase("Save it as .xlsx or as CSV UTF-8."),
    ".ods": phrase("Save it as .xlsx or as CSV UTF-8."),
}


@dataclass(frozen=True, slots=True)
class Gathered:
    """What gathering did.

    Args:
        path: The yards table.
        added: Names of yards that are new in it.
        filled: Names of yards that got more cells.
        same: How many places it knew in full.
        lacking: Needed columns with empty cells, each with the names of those yards.
        examples: Names of the starter's invented yards that still stand in it.
        notes: Sentences about what was left out, kept or odd.
    """

    path: Path
    added: tuple[str, ...]
    filled: tuple[str, ...]
    same: int
    lacking: tuple[tuple[str, tuple[str, ...]], ...]
    examples: tuple[str, ...]
    notes: tuple[str, ...]


def gather(
    files: Sequence[Path],
    folder: Path,
    near_m: int = NEAR_M,
    far_km: int = FAR_KM,
    *,
    few_is_right: bool = False,
) -> Gathered:
    """Merge the places in ``files`` into the yards table of the scenario in ``folder``.

    Args:
        files: CSV, XLSX, GPX, KML, KMZ or GeoJSON files.
        folder: The scenario's folder.
        near_m: Places of different names nearer than this many metres are a fault; 0: none.
        far_km: Places further than this many kilometres from the rest are a fault; 0: none.
        few_is_right: So few boxes that they look like each hive's are the whole yard's.

    Raises:
        ScenarioError: With every fault found; then nothing is written.
    """
    basket, path = Basket(), folder / "yards.csv"
    bases: tuple[Point, ...] = ()
    if folder_is_there(folder, basket.book):
        path, bases = _outfit(folder, basket)
    sheet = read_sheet(path, basket.book)
    for file in files:
        _read(file, basket)
    places = read_places(basket)
    check_far(basket, places, Known(_yards(sheet), bases), far_km)
    if not few_is_right:
        _refuse_few_boxes(basket)
    if not places and not len(basket.book):
        names = ", ".join(file.name for file in files)
        basket.fault(
            Spot(said_text(names), ""),
            "",
            phrase("no place"),
            phrase("places"),
            phrase("Check the files."),
        )
    merged = Merger(basket, sheet, near_m).put_all(places)
    _close(basket)
    _write(path, sheet, merged)
    return _told(path, sheet, merged, basket)


def _close(basket: Basket) -> None:
    """Refuse to go on when there is a fault; what was left out may be what explains it.

    Raises:
        ScenarioError: With every fault, and every note.
    """
    try:
        basket.book.close()
    except ScenarioError as error:
        raise ScenarioError(error.faults, tuple(basket.notes)) from None


def _outfit(folder: Path, basket: Basket) -> tuple[Path, tuple[Point, ...]]:
    """Return the yards table of the scenario, the one it names or yards.csv, and its bases."""
    desk = Desk()
    desk.book = basket.book
    file = OutfitFile(folder, desk)
    path = table_path(folder, "yards", file.section("files")) or folder / "yards.csv"
    return path, _bases(file)


def _bases(file: OutfitFile) -> tuple[Point, ...]:
    """Return where the bases were typed; what is no place is for check to say.

    The starter's base is nobody's.
    """
    tables = [file.section(key) for key in _BASES]
    points = (point_in(*(str(table.said(axis)) for axis in ("lat", "lon"))) for table in tables)
    return tuple(point for point in points if point is not None and point != STARTER_BASE)


def _read(file: Path, basket: Basket) -> None:
    reader = _READERS.get(file.suffix.lower())
    if reader is not None:
        reader(file, basket)
        return
    kinds = [*_READERS]
    cure = _CURES.get(file.suffix.lower(), did_you_mean(file.suffix, kinds))
    spot = Spot(said_text(file.name), "")
    basket.fault(spot, "", file.suffix or phrase("no ending"), verbatim(", ".join(kinds)), cure)


def _refuse_few_boxes(basket: Basket) -> None:
    """Write down each file whose boxes look like those of one hive."""
    files: dict[str, list[tuple[int, int]]] = {}
    for found in basket.found:
        with suppress(Refusal):
            counts = COLONIES(found.cells.get("colonies", ""))
            boxes = BOXES(found.cells.get("boxes", ""))
            files.setdefault(found.spot.file, []).append((counts, boxes))
    for file, yards in files.items():
        few = few_boxes(yards)
        if few is not None:
            cure = phrase(
                "If they are per colony call the column {column}; if they are the whole yard's, "
                "say --few-boxes.",
                column="boxes_per_colony",
            )
            basket.fault(Spot(file, ""), "boxes", few, phrase("boxes of the whole yard"), cure)


def _yards(sheet: Sheet) -> tuple[Point, ...]:
    """Return where the table's own yards are; the starter's examples are nobody's."""
    rows = [row for row in range(len(sheet.rows)) if sheet.cell(row, "name") not in STARTER_NAMES]
    points = (point_in(sheet.cell(row, "lat"), sheet.cell(row, "lon")) for row in rows)
    return tuple(point for point in points if point is not None)


def _write(path: Path, sheet: Sheet, merged: Merged) -> None:
    if not merged.added and not merged.filled:
        return
    try:
        write_whole(path, sheet.text())
    except OSError as error:
        said = system_said(error)
        fault = Fault(
            path.name,
            "",
            "",
            said,
            phrase("a file that can be written"),
            phrase("Free it, say again."),
        )
        raise ScenarioError((fault,)) from None


def _told(path: Path, sheet: Sheet, merged: Merged, basket: Basket) -> Gathered:
    def names(rows: Sequence[int]) -> tuple[str, ...]:
        return tuple(sheet.cell(row, "name") for row in rows)

    def without(*columns: str) -> tuple[str, ...]:
        return names([row for row in standing if not any(sheet.cell(row, key) for key in columns)])

    standing = sheet.standing()
    lacking = (("colonies", without("colonies")), ("boxes", without("boxes", "boxes_per_colony")))
    return Gathered(
        path=path,
        added=names(merged.added),
        filled=names(merged.filled),
        same=merged.same,
        lacking=tuple((key, yards) for key, yards in lacking if yards),
        examples=tuple(name for name in names(standing) if name in STARTER_NAMES),
        notes=tuple(basket.notes),
    )
