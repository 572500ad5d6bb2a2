"""Drives that were timed, from a small table: from, to, minutes, and km where known."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from runplanner.errors import Fault
from runplanner.phrase import phrase
from runplanner.roads.calibrate import LEAST, Timed, usable
from runplanner.scenario.cells.fields import Fields, at_row
from runplanner.scenario.cells.outfit_file import OutfitFile
from runplanner.scenario.cells.tables import Row, Table, check_columns, read_table
from runplanner.scenario.faults import Refusal
from runplanner.scenario.travel.travel_file import Names, leg_end, leg_metres, leg_minutes

NEEDED: Final = ("from", "to", "minutes")
COLUMNS: Final = (*NEEDED, "km")


@dataclass(frozen=True, slots=True)
class TimedDrive:
    """One row: the two places, minutes, and metres where they were written down."""

    start: int
    end: int
    minutes: int
    metres: int | None
    name: str
    fields: Fields


def read_timed(file: OutfitFile, folder: Path, names: Names) -> list[TimedDrive]:
    """Return the timed drives that [travel] timed names; none when it names no file."""
    path = file.section("travel").optional("timed", lambda said: _table_file(said, folder))
    table = None if path is None else read_table(path, file.book)
    if table is None:
        return []
    check_columns(table, COLUMNS, NEEDED, file.book)
    found = (_drive(file, table, row, names) for row in table.rows)
    return [drive for drive in found if drive is not None]


def _table_file(said: object, folder: Path) -> Path:
    """Return the path of the table.

    Raises:
        Refusal: When there is no such table beside outfit.toml.
    """
    text = said.strip() if isinstance(said, str) else ""
    allowed = phrase("a .csv or .xlsx file in the scenario's folder")
    if not text.isprintable() or Path(text).name != text or "\\" in text:
        raise Refusal(allowed, phrase("Write the bare name, without folders."))
    if Path(text).suffix.lower() not in {".csv", ".xlsx"} or not (folder / text).is_file():
        raise Refusal(allowed, phrase("It is not there: check the name."))
    return folder / text


def _drive(file: OutfitFile, table: Table, row: Row, names: Names) -> TimedDrive | None:
    fields = Fields(file.desk, table.file, dict(row.cells), "legs", at_row(row))
    fields.mute(frozenset(COLUMNS) - frozenset(table.columns), row)
    start, end = leg_end(fields, "from", names), leg_end(fields, "to", names)
    minutes, metres = fields.read("minutes", leg_minutes, 0), fields.optional("km", leg_metres)
    if fields.right("from", "to") and start == end:
        fields.fault("to", phrase("another place than from"), phrase("Delete the row."))
    elif (fields.right("minutes") and minutes == 0) or metres == 0:
        fields.fault("minutes", phrase("a drive that was driven"), phrase("Delete the row."))
    if not fields.clean:
        return None
    called = f"{row.cells['from'].strip()} to {row.cells['to'].strip()}"
    return TimedDrive(start, end, minutes, metres, called[:80], fields)


def too_few(file: OutfitFile, drives: Sequence[Timed]) -> None:
    """Write down that the drives of use are too few to fit anything to."""
    named = str(file.section("travel").said("timed"))
    cure = phrase("Time some more, or leave timed out.")
    number = len(usable(drives, lambda drive: drive.minutes))
    said = phrase("{number} drives of use", number=number)
    file.book.add(Fault(named, "", "", said, phrase("at least {least} drives", least=LEAST), cure))
