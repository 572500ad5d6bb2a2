"""Tables people edit in a spreadsheet: CSV or XLSX, cells as the text they typed.

A row's number is the one a spreadsheet shows.  Lines that start with # above the header are
comments.  A header may carry a unit, ``box_mass [kg]``: bare numbers below it take that unit.
Other words in its brackets, as in ``Hives (no.)``, say nothing of the cells.
"""

import csv
import re
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO, StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Final
from zipfile import ZipFile

from runplanner.errors import Fault
from runplanner.phrase import counted, phrase
from runplanner.scenario.cells.toml_file import decoded, read_bytes
from runplanner.scenario.cells.workbook_cells import (
    SheetCells,
    Spot,
    formulas_in,
    read_cells,
    results_saved,
    unmerge,
)
from runplanner.scenario.faults import FaultBook, did_you_mean, nearest, said_text
from runplanner.scenario.values.degrees import names_side
from runplanner.scenario.values.quantities import is_unit
from runplanner.weather.plain_shape import TITLE_CURE, is_comment, separator_of, title_in

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

MOST_BYTES: Final = 8_000_000
MOST_UNPACKED: Final = 200_000_000
MOST_ROWS: Final = 20_000
IN_WORDS: Final = frozenset({"name", "id", "phone", "notes", "licence", "area", "district"})
"""Columns of words: figures in them have no unit, and a nought in front may be dialled."""
_UNIT: Final = re.compile(r"(.+?)\s*[\[(]\s*([^\[\]()]+?)\s*[\])]")
_BARE: Final = re.compile(r"[+-]?[.,]?[0-9][0-9.,]*")
_SAYS_SEPARATOR: Final = re.compile(r'"?sep=([,;\t|])"?[\s,;"]*', re.IGNORECASE)

_ERRORS: Final = frozenset([
    "#N/A", "#REF!", "#VALUE!", "#DIV/0!", "#NAME?", "#NULL!", "#NUM!", "#NV", "#BEZUG!",
    "#WERT!", "#ZAHL!",
])  # fmt: skip
"""What spreadsheets show in English and German where a formula has no result."""

Grid = list[list[str]]


@dataclass(frozen=True, slots=True)
class Row:
    """One row: its number in the sheet and its cells by column.

    Cells of the columns in ``told`` are at fault already; they stand empty.
    """

    number: int
    cells: dict[str, str]
    told: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Table:
    """A whole table; ``columns`` in the order of the file."""

    file: str
    columns: tuple[str, ...]
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class RawCsv:
    """A CSV file in its parts: lines above the header, separator, cells as typed.

    Args:
        lead: Comments, and a first line that says the separator (``sep=;``).
        first: Row of the header as a spreadsheet counts, which shows no such line.
        separator: What parts the columns.
        grid: The header and all rows.
    """

    lead: tuple[str, ...]
    first: int
    separator: str
    grid: Grid


def read_table(path: Path, book: FaultBook, means: Callable[[str], str] = str) -> Table | None:
    """Return the table in ``path``, or None once its faults are written down.

    ``means`` gives the known column that a name stands for, "" for one that nobody reads: how
    its cells are laid out does not matter.
    """
    raw = read_bytes(path, book, MOST_BYTES)
    if raw is None:
        return None
    if path.suffix.lower() == ".xlsx":
        sheet = _xlsx(raw, path, book)
        names = [means(name) for name, _ in _heads(sheet.grid[0])] if sheet else []
        if sheet is None:
            return None
        saved = results_saved(sheet, names, path.name, book)
        if not unmerge(sheet, names, path.name, book) or not saved:
            return None
        return _table(sheet.grid, 1, path.name, book, sheet.told, means)
    parts = raw_csv(raw, path.name, book)
    if parts is None:
        return None
    return _table(parts.grid, parts.first, path.name, book, set(), means)


def raw_csv(raw: bytes, file: str, book: FaultBook) -> RawCsv | None:
    """Return a CSV file in its parts, or None once its faults are written down."""
    fill = phrase("Fill it in, or delete it where it is not needed.")
    text = decoded(raw, file, book, fill)
    if text is None:
        return None
    lines = text.splitlines(keepends=True)
    says = _SAYS_SEPARATOR.fullmatch(lines[0]) if lines else None
    skipped = start = 1 if says else 0
    while skipped < len(lines) and is_comment(lines[skipped]):
        skipped += 1
    if skipped == len(lines):
        book.add(
            Fault(
                file,
                "",
                "",
                phrase("only comments"),
                phrase("a header and rows"),
                phrase("Fill it in."),
            )
        )
        return None
    separator = says[1] if says else separator_of(lines[skipped:])
    grid = _parsed("".join(lines[skipped:]), separator, file, book)
    if grid is None:
        return None
    return RawCsv(tuple(lines[:skipped]), skipped - start + 1, separator, grid)


def _parsed(text: str, separator: str, file: str, book: FaultBook) -> Grid | None:
    """Return the cells.

    The csv module rather than a data-frame reader: it names the row of a stray quotation
    mark where that one drops the rest of the file, and a yard called NA stays one.
    """
    grid: Grid = []
    try:
        grid.extend(csv.reader(StringIO(text, newline=""), delimiter=separator, strict=True))
    except csv.Error as error:
        cure = phrase("Look for a stray quotation mark, or save it again as CSV UTF-8.")
        where = phrase("after row {number} or so", number=len(grid))
        book.add(Fault(file, where, "", str(error), phrase("rows of columns"), cure))
        return None
    return grid


def _xlsx(raw: bytes, path: Path, book: FaultBook) -> SheetCells | None:
    """Return the cells of the sheet named like the file, or of the first one."""
    try:
        sheet = _sheet(raw, path, results=False)
        formulas = formulas_in(sheet, MOST_ROWS + 2)
        sheet = _sheet(raw, path, results=True) if formulas else sheet
        return read_cells(sheet, MOST_ROWS + 2, formulas)
    except Exception:  # noqa: BLE001 - a damaged archive raises anything from zlib to lxml
        cure = phrase("Open it in a spreadsheet and save it as .xlsx or as CSV UTF-8.")
        book.add(Fault(path.name, "", "", phrase("no workbook"), phrase("an XLSX workbook"), cure))
        return None


def _sheet(raw: bytes, path: Path, *, results: bool) -> "Worksheet":
    """Return the sheet with its formulas, or with what they came to when it was saved last."""
    import openpyxl

    workbook = openpyxl.load_workbook(_screened(raw), data_only=results, keep_links=False)
    return workbook[path.stem] if path.stem in workbook.sheetnames else workbook.worksheets[0]


def _screened(raw: bytes) -> BytesIO:
    """Return the workbook as a stream, unless it would swell when unpacked.

    Raises:
        ValueError: When it would.
    """
    with ZipFile(BytesIO(raw)) as archive:
        unpacked = sum(part.file_size for part in archive.infolist())
    if unpacked > MOST_UNPACKED:
        raise ValueError(unpacked)
    return BytesIO(raw)


def _table(
    grid: Grid, first: int, file: str, book: FaultBook, told: set[Spot], means: Callable[[str], str]
) -> Table | None:
    if not grid or not any(cell.strip() for cell in grid[0]):
        book.add(
            Fault(
                file,
                phrase("row {number}", number=first),
                "",
                phrase("no header"),
                phrase("column names"),
                phrase("Fill it in."),
            )
        )
        return None
    if len(grid) > MOST_ROWS:
        book.add(
            Fault(
                file,
                "",
                "",
                counted("{number} row", "{number} rows", len(grid)),
                phrase("at most {most}", most=MOST_ROWS),
                phrase("Split it."),
            )
        )
        return None
    names = [name for name, _ in _heads(grid[0])]
    if title := title_in(grid):
        where, allowed = phrase("row {number}", number=first), phrase("column names")
        book.add(Fault(file, where, "", said_text(title), allowed, TITLE_CURE))
        return None
    _check_heads(names, grid, first, file, book)
    heads = [(name, "" if means(name) in IN_WORDS else unit) for name, unit in _heads(grid[0])]
    read = {column for column, name in enumerate(names) if name and means(name)}
    told = told | _error_values(grid, read, first, file, book)
    rows = []
    for number, cells in enumerate(grid[1:], start=first + 1):
        if any(cell.strip() for cell in cells[len(names) :]):
            book.add(_too_many(file, number, cells, len(names)))
        if any(cell.strip() for cell in cells):
            at_fault = [column for column in range(len(names)) if (number - first, column) in told]
            refused = frozenset(names[column] for column in at_fault) - {""}
            rows.append(Row(number, _cells(heads, cells) | dict.fromkeys(refused, ""), refused))
    return Table(file, tuple(name for name in names if name), tuple(rows))


def _error_values(
    grid: Grid, read: Collection[int], first: int, file: str, book: FaultBook
) -> set[Spot]:
    """Return the cells that a spreadsheet could not work out, of the columns that are read.

    As text such as #N/A it would pass for a name, a note or a licence.
    """
    found = {
        (row, column)
        for row, cells in enumerate(grid[1:], start=1)
        for column, cell in enumerate(cells)
        if column in read and cell.strip() in _ERRORS
    }
    for row, column in sorted(found):
        name, _ = head_of(grid[0][column])
        where, said = phrase("row {number}", number=first + row), grid[row][column].strip()
        cure = phrase("The spreadsheet could not work it out: mend its formula, or type the value.")
        book.add(Fault(file, where, said_text(name), said, phrase("a value"), cure))
    return found


def _too_many(file: str, number: int, cells: Sequence[str], columns: int) -> Fault:
    """Return the fault of a row with cells beyond the last column; its others are read too."""
    said = phrase(
        "{number} cells", number=max((n for n, cell in enumerate(cells, start=1) if cell.strip()))
    )
    cure = phrase(
        "Put text that holds the separator in double quotes; write decimals with a dot. What "
        "else is said of this row may come from that."
    )
    return Fault(
        file,
        phrase("row {number}", number=number),
        "",
        said,
        counted("{number} column", "{number} columns", columns),
        cure,
    )


def _heads(cells: Iterable[str]) -> list[tuple[str, str]]:
    return [head_of(cell) for cell in cells]


def head_of(cell: str) -> tuple[str, str]:
    """Return a column's name in plain form, and the unit that its header carries, or nothing."""
    match = _UNIT.fullmatch(cell.strip())
    name, unit = (match[1], match[2]) if match else (cell, "")
    name = re.sub(r"[\s-]+", "_", name.strip().casefold())
    told = is_unit(unit) or (name.startswith(("lat", "lon", "lng")) and names_side(unit))
    return name, unit if told else ""


def _check_heads(names: list[str], grid: Grid, first: int, file: str, book: FaultBook) -> None:
    for name, count in Counter(names).items():
        if name and count > 1:
            cure = phrase("Rename or delete one of them.")
            book.add(
                Fault(
                    file,
                    phrase("row {number}", number=first),
                    said_text(name),
                    phrase("{number} times", number=count),
                    phrase("once"),
                    cure,
                )
            )
    for column, name in enumerate(names):
        if not name and any(column < len(row) and row[column].strip() for row in grid[1:]):
            cure = phrase("Give it a name or delete it.")
            book.add(
                Fault(
                    file,
                    phrase("row {number}", number=first),
                    phrase("column {number}", number=column + 1),
                    phrase("no name"),
                    phrase("a name"),
                    cure,
                )
            )


def bare(cell: str) -> bool:
    """Tell whether a cell is a number alone, be it with a comma, that may take a unit."""
    return _BARE.fullmatch(cell.strip()) is not None


def _cells(heads: list[tuple[str, str]], cells: list[str]) -> dict[str, str]:
    return {
        name: f"{cell.strip()} {unit}" if unit and bare(cell) else cell
        for (name, unit), cell in zip(heads, cells, strict=False)
        if name
    }


def meant(table: Table, words: Mapping[str, str]) -> Table:
    """Return the table with its columns called by what their ``words`` mean.

    One that stands there by its own name comes before any that only means it.
    """
    heads: dict[str, str] = {}
    for column in table.columns:
        name = words.get(column, column)
        free = name not in table.columns and name not in heads.values()
        heads[column] = name if free else column
    if all(column == name for column, name in heads.items()):
        return table
    rows = (
        Row(
            row.number,
            {heads[column]: cell for column, cell in row.cells.items()},
            frozenset(heads[column] for column in row.told),
        )
        for row in table.rows
    )
    return Table(table.file, tuple(heads[column] for column in table.columns), tuple(rows))


def check_columns(
    table: Table,
    known: Sequence[str],
    needed: Sequence[str],
    book: FaultBook,
    words: Mapping[str, str] | None = None,
) -> tuple[str, ...]:
    """Write down columns that are unknown or missing; return the missing ones.

    ``words`` mean known columns; one that is left says what another says already (``meant``).
    What is suggested for an unknown one is missing too, but not called so as well.
    """
    strange = [column for column in table.columns if column not in known]
    for column in strange:
        cure, shown = did_you_mean(column, known), said_text(column)
        if same := (words or {}).get(column):
            cure = phrase("It means {name}, which is there as well: keep one.", name=repr(same))
        book.add(Fault(table.file, phrase("header"), shown, shown, phrase("a known column"), cure))
    suggested = [near for column in strange if (near := nearest(column, known))]
    missing = [column for column in needed if column not in table.columns]
    for column in (one for one in missing if one not in suggested):
        cure = phrase("Add it: the columns needed are {names}.", names=", ".join(needed))
        book.add(
            Fault(table.file, phrase("header"), column, phrase("missing"), phrase("a column"), cure)
        )
    return tuple(one for one in dict.fromkeys((*missing, *suggested)) if one not in table.columns)
