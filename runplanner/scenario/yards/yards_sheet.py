"""yards.csv as it stands, to be added to: comments, columns and cells stay as they were typed."""

import csv
import tomllib
from dataclasses import dataclass
from io import StringIO
from pathlib import Path
from typing import Final

from runplanner.errors import Fault
from runplanner.phrase import phrase
from runplanner.scenario.cells.tables import Grid, head_of, raw_csv, read_table
from runplanner.scenario.faults import FaultBook
from runplanner.scenario.starter.starter_text import OUTFIT_TOML, YARDS_CSV
from runplanner.scenario.yards.yards_file import NEEDED, OTHER_WORDS

_MARK: Final = "\ufeff"
STARTER_NAMES: Final = frozenset(
    line.split(",")[0] for line in YARDS_CSV.splitlines() if line.startswith("Invented")
)
"""The yards of an untouched starter: examples, not places of the user's."""
_BASE: Final = tomllib.loads(OUTFIT_TOML.replace("@TITLE@", '""'))["base"]
STARTER_BASE: Final = (float(_BASE["lat"]), float(_BASE["lon"]))
"""The base of an untouched starter, invented likewise."""


@dataclass(slots=True)
class Sheet:
    """The yards table as text in cells.

    Args:
        file: Its name.
        lead: Lines above the header.
        first: Number of the header's row, as a spreadsheet counts.
        separator: What parts its columns.
        line_end: What ends its lines.
        marked: It opens with a byte order mark.
        heads: Its header as typed; ``units`` what each carries in brackets.
        rows: Its rows as typed, blank ones as well.
    """

    file: str
    lead: tuple[str, ...]
    first: int
    separator: str
    line_end: str
    marked: bool
    heads: list[str]
    rows: Grid

    def column(self, name: str) -> int | None:
        """Return where a column stands; a word for it counts where its name is not there."""
        names = [head_of(head)[0] for head in self.heads]
        means = [OTHER_WORDS.get(each, each) for each in names]
        return next((every.index(name) for every in (names, means) if name in every), None)

    def unit(self, name: str) -> str:
        """Return the unit that a column's header carries, or nothing."""
        column = self.column(name)
        return "" if column is None else head_of(self.heads[column])[1]

    def cell(self, row: int, name: str) -> str:
        """Return what stands in a cell, without the blanks around it."""
        column = self.column(name)
        cells = self.rows[row]
        return cells[column].strip() if column is not None and column < len(cells) else ""

    def fill(self, row: int, name: str, text: str) -> None:
        """Put text into a cell; its column is added at the end where there is none."""
        column = self.column(name)
        if column is None:
            column = len(self.heads)
            self.heads.append(name)
        for cells in (self.rows[each] for each in {*self.standing(), row}):
            cells.extend([""] * (len(self.heads) - len(cells)))
        self.rows[row][column] = text

    def standing(self) -> list[int]:
        """Return the rows that hold anything."""
        return [row for row, cells in enumerate(self.rows) if any(map(str.strip, cells))]

    def new_row(self) -> int:
        """Return the number of a new, empty row at the end."""
        self.rows.append([""] * len(self.heads))
        return len(self.rows) - 1

    def where(self, row: int) -> str:
        """Return a row as a spreadsheet counts it."""
        return phrase("row {number}", number=self.first + 1 + row)

    def text(self) -> str:
        """Return the whole file."""
        body = StringIO(newline="")
        writer = csv.writer(body, delimiter=self.separator, lineterminator=self.line_end)
        writer.writerows([self.heads, *self.rows])
        return (_MARK if self.marked else "") + "".join(self.lead) + body.getvalue()


def new_sheet(file: str) -> Sheet:
    """Return an empty table with the columns that a yard needs."""
    return Sheet(file, (), 1, ",", "\n", marked=False, heads=list(NEEDED), rows=[])


def read_sheet(path: Path, book: FaultBook) -> Sheet:
    """Return the table at ``path``; an empty one where there is none, or it is at fault."""
    if not path.exists():
        return new_sheet(path.name)
    if path.suffix.lower() != ".csv":
        cure = phrase(
            "Save it as {stem}.csv (CSV UTF-8), move this one away, and gather again.",
            stem=path.stem,
        )
        book.add(
            Fault(
                path.name, "", "", phrase("a workbook"), phrase("a CSV file to add rows to"), cure
            )
        )
        return new_sheet(path.name)
    faults = len(book)
    read_table(path, book)
    raw = path.read_bytes() if len(book) == faults else b""
    parts = raw_csv(raw, path.name, book) if raw else None
    if parts is None:
        return new_sheet(path.name)
    return Sheet(
        file=path.name,
        lead=parts.lead,
        first=parts.first,
        separator=parts.separator,
        line_end="\r\n" if b"\r\n" in raw else "\n",
        marked=raw.startswith(_MARK.encode()),
        heads=parts.grid[0],
        rows=parts.grid[1:],
    )
