"""The cells of a workbook's sheet as people see them: a merged one stands in every row it covers.

A number that is shown in percent is one.  A formula whose result was never saved is not empty.
What is written once over several cells, and cannot be meant for each, is a fault that names
the cells as a spreadsheet does.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from typing import TYPE_CHECKING, Final

from runplanner.errors import Fault
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import FaultBook, said_text

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

MOST_COLUMNS: Final = 200
COUNTED: Final = frozenset(("colonies", "boxes", "brood_boxes_off"))
"""Columns whose figure, written once over several yards, may be that of all of them together."""
_NO_SIGN: Final = re.compile(r'"[^"]*"|\[[^\]]*\]|[\\_*].')
"""What stands in a number format for itself or for a blank, not as a sign with a meaning."""
Spot = tuple[int, int]
"""Row and column of a cell; the header's row and the first column are 0."""


@dataclass(frozen=True, slots=True)
class Merged:
    """Cells that are shown as one, called such as F2:F4."""

    called: str
    rows: range
    columns: range

    @property
    def spots(self) -> list[Spot]:
        """Where they are."""
        return [(row, column) for row in self.rows for column in self.columns]


@dataclass(slots=True)
class SheetCells:
    """A sheet.

    Args:
        grid: Its cells as a person would type them, all rows of one length.
        merged: Those shown as one, from the top.
        unsaved: Those with a formula whose result is not in the file; they stand empty.
        told: Cells that are at fault, once that is written down.
    """

    grid: list[list[str]]
    merged: tuple[Merged, ...]
    unsaved: tuple[Spot, ...]
    told: set[Spot] = field(default_factory=set)


def formulas_in(sheet: "Worksheet", most_rows: int) -> tuple[Spot, ...]:
    """Return the cells of a sheet that hold formulas."""
    rows, columns = min(sheet.max_row, most_rows), min(sheet.max_column, MOST_COLUMNS)
    return tuple(
        (row, column)
        for row, cells in enumerate(sheet.iter_rows(max_row=rows, max_col=columns))
        for column, cell in enumerate(cells)
        if cell.data_type == "f"
    )


def read_cells(sheet: "Worksheet", most_rows: int, formulas: Sequence[Spot] = ()) -> SheetCells:
    """Return the cells of a sheet, no more rows than asked for.

    ``sheet`` has results in place of its ``formulas``.
    """
    rows, columns = min(sheet.max_row, most_rows), min(sheet.max_column, MOST_COLUMNS)
    grid = [
        [_shown(cell.value, cell.number_format) for cell in row]
        for row in sheet.iter_rows(max_row=rows, max_col=columns)
    ]
    merged = (
        Merged(
            str(one.coord),
            range(one.min_row - 1, min(one.max_row, rows)),
            range(one.min_col - 1, min(one.max_col, columns)),
        )
        for one in sheet.merged_cells.ranges
    )
    seen = (one for one in merged if one.spots)
    unsaved = tuple(spot for spot in formulas if _unsaved(sheet, spot))
    return SheetCells(grid, tuple(sorted(seen, key=lambda one: one.spots[0])), unsaved)


def _unsaved(sheet: "Worksheet", spot: Spot) -> bool:
    """Tell whether a formula's result is not in the file; an empty text is one ("str")."""
    cell = sheet.cell(spot[0] + 1, spot[1] + 1)
    return cell.value is None and cell.data_type != "str"


def _shown(value: object, look: str) -> str:
    """Return a cell's text; 0.9 that is shown as 90 % is "90 %", whatever unit its header has."""
    if not isinstance(value, int | float) or isinstance(value, bool):
        return _cell(value)
    return f"{_figure(float(value) * 100)} %" if "%" in _NO_SIGN.sub("", look) else _cell(value)


def _figure(value: float) -> str:
    """Return a number without its exponent, and with 13 figures where it has a fraction.

    What stands beyond them is left over by a computer's fractions (0.07 is 0.07000000000000001)
    and would round a share, or the boxes of a yard, up.
    """
    if value.is_integer() and abs(value) < 1e15:
        return str(int(value))
    return f"{Decimal(f'{value:.13g}').normalize():f}"


def _clock(value: time | timedelta) -> str:
    """Return hours and minutes; a cell of hours may hold 24:00 and more."""
    if isinstance(value, time):
        return value.strftime("%H:%M")
    hours, minutes = divmod(round(value / timedelta(minutes=1)), 60)
    return f"{hours:02}:{minutes:02}"


def _cell(value: object) -> str:
    """Return a spreadsheet's cell as the text a person would type."""
    if value is None or isinstance(value, bool):
        return {None: "", True: "yes", False: "no"}[value]
    if isinstance(value, datetime) and value.time() != time():
        return value.isoformat(" ", "minutes")
    if isinstance(value, date):
        return value.isoformat()[:10]
    if isinstance(value, time | timedelta):
        return _clock(value)
    if isinstance(value, float):
        return _figure(value)
    return str(value)


def results_saved(cells: SheetCells, names: Sequence[str], file: str, book: FaultBook) -> bool:
    """Write down the formulas without a result; they go to ``told``.

    Args and what is returned are those of ``unmerge``.
    """
    read = [(row, column) for row, column in cells.unsaved if names[column] or row == 0]
    for row, column in read:
        where, name = phrase("row {number}", number=row + 1), names[column]
        said, allowed = phrase("a formula without a result"), phrase("a value")
        cure = phrase("Open the file in a spreadsheet program and save it, or type the value.")
        field_ = said_text(name) or phrase("column {number}", number=column + 1)
        book.add(Fault(file, where, field_, said, allowed, cure))
    cells.told.update(read)
    return all(row for row, _ in read)


def unmerge(cells: SheetCells, names: Sequence[str], file: str, book: FaultBook) -> bool:
    """Put the text of merged cells into each row they cover that holds anything else.

    Args:
        cells: Changed in place; what is at fault goes to ``told``.
        names: The column that each header means, "" for one that nobody reads.
        file: For the faults.
        book: Takes them.

    Returns:
        False when a merged header leaves open which column is which.
    """
    filled = [any(cell.strip() for cell in row) for row in cells.grid]
    clear = True
    for one in cells.merged:
        row, column = one.spots[0]
        text = cells.grid[row][column]
        if not text.strip() or not any(names[each] for each in one.columns):
            continue
        under = [each for each in one.rows if filled[each]]
        if row == 0:
            clear = _header_clear(cells, one, under, file, book) and clear
        elif fault := _senseless(one, under, names, file):
            book.add(fault)
            cells.told.update(one.spots)
        else:
            for each in under:
                cells.grid[each][column] = text
    return clear


def _header_clear(
    cells: SheetCells, one: Merged, under: Sequence[int], file: str, book: FaultBook
) -> bool:
    """Tell whether a merged header is that of one column only; a fault when not.

    Over empty columns or rows it does no harm.
    """
    beside = any(row[each].strip() for row in cells.grid[1:] for each in one.columns[1:])
    if len(under) > 1 or beside:
        cure = phrase("Unmerge them, give each column a name, and delete titles above the names.")
        allowed = phrase("a cell for the name of each column")
        book.add(_fault(file, one, phrase("merged cells"), allowed, cure))
        return False
    return True


def _senseless(one: Merged, under: Sequence[int], names: Sequence[str], file: str) -> Fault | None:
    """Return the fault of merged cells whose text cannot be meant for each of them."""
    cure = phrase("Unmerge them, and type into each cell what holds there.")
    if any(names[each] for each in one.columns[1:]):
        over = ", ".join(names[each] for each in one.columns if names[each])
        said = phrase("merged over {names}", names=said_text(over))
        return _fault(file, one, said, phrase("merged cells of one column"), cure)
    if names[one.columns[0]] in COUNTED and len(under) > 1:
        said = phrase("merged over {number} rows", number=len(under))
        allowed = phrase("{name} of each row", name=names[one.columns[0]])
        return _fault(file, one, said, allowed, cure)
    return None


def _fault(file: str, one: Merged, said: Phrase, allowed: Phrase, cure: Phrase) -> Fault:
    return Fault(
        file, phrase("row {number}", number=one.rows[0] + 1), one.called, said, allowed, cure
    )
