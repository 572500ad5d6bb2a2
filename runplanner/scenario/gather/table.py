"""Yards of a CSV or XLSX table, whatever its columns are called."""

from pathlib import Path

from runplanner.phrase import joined, phrase
from runplanner.scenario.cells.tables import read_table
from runplanner.scenario.gather.found import Basket, Spot, by_column, column_of
from runplanner.scenario.values.degrees import two_angles


def gather_table(path: Path, basket: Basket) -> None:
    """Take every row; columns that the yards table does not know are only named."""
    table = read_table(path, basket.book, column_of)
    if table is None:
        return
    if not any(column_of(column) == "name" for column in table.columns):
        cure = phrase("Put a header row on top, with a column name; delete titles above it.")
        if path.suffix.lower() == ".xlsx":
            sheet = phrase("Of a workbook the first sheet is read, or one named like the file.")
            cure = joined(" ", cure, sheet)
        said = ", ".join(table.columns[:8])
        basket.fault(
            Spot(table.file, phrase("header")), "", said, phrase("a column for the name"), cure
        )
        return
    left: dict[str, None] = {}
    for row in table.rows:
        spot = Spot(table.file, phrase("row {number}", number=row.number))
        if basket.full(spot):
            break
        cells, unknown = by_column(row.cells)
        left.update(dict.fromkeys(unknown))
        if not row.told and _parted(basket, spot, cells):
            basket.add(spot, cells)
    if left:
        basket.note(
            phrase(
                "{file}: left out, as no column means it: {names}.",
                file=table.file,
                names=", ".join(left),
            )
        )


def _parted(basket: Basket, spot: Spot, cells: dict[str, str]) -> bool:
    """Part a position in one cell into lat and lon; false once it is written down as a fault."""
    position = cells.pop("position", "").strip()
    if not position or cells.get("lat", "").strip() or cells.get("lon", "").strip():
        return True
    parts = two_angles(position)
    if parts is None:
        cure = phrase("Write lat and lon in columns of their own.")
        basket.fault(spot, "position", position, phrase("lat and lon, such as -38.01 175.06"), cure)
        return False
    cells["lat"], cells["lon"] = parts
    return True
