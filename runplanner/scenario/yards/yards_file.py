"""yards.csv or yards.xlsx: one row for each yard.

A cell that is empty, or a column that is missing, falls back to the [yards] table of
outfit.toml and then to the default.
"""

from collections import Counter
from collections.abc import Mapping
from typing import Final

from runplanner.errors import Fault
from runplanner.phrase import counted, joined, phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import Days, OutfitFile
from runplanner.scenario.cells.tables import Row, Table, check_columns, meant
from runplanner.scenario.faults import said_text
from runplanner.scenario.parts.bases_part import PlaceBook
from runplanner.scenario.parts.boxes_part import Shelf
from runplanner.scenario.values.words import key_of, others_names
from runplanner.scenario.yards import yard_stores
from runplanner.scenario.yards.few_boxes import boxes_in_doubt
from runplanner.scenario.yards.yard_row import Draft, read_row

MOST_YARDS: Final = 300
NEEDED: Final = ("name", "lat", "lon", "colonies", "boxes")
COLUMNS: Final = (
    *NEEDED, "boxes_per_colony", "id", "district", "box", "box_mass", "fill", "frames",
    "box_spread", "brood_boxes_off", "clearing", "stores", *yard_stores.COLUMNS, "target", "feeder",
    "ready_from", "finish_by", "spin_by", "spin_by_hard", "health", "feed_agreed", "opens",
    "closes", "max_vehicle", "max_width", "four_wheel", "trailer", "notes", "phone", "last_stretch",
    "wet_boxes", "licence", "strips", "clearing_else", "boards_on",
)  # fmt: skip
OTHER_WORDS: Final = {
    "hives": "colonies", "supers": "boxes", "latitude": "lat", "longitude": "lon", "lng": "lon",
    "yard": "name", "apiary": "name", "long": "lon",
}  # fmt: skip
ITS_OWN: Final = (*NEEDED, "boxes_per_colony", "id", "boards_on")
"""Columns that are told of each yard by itself, not in the [yards] table for every yard."""
FOR_ALL: Final = tuple(column for column in COLUMNS if column not in ITS_OWN)


def read_yards(
    file: OutfitFile, table: Table | None, days: Days, shelf: Shelf, book: PlaceBook
) -> list[Draft]:
    """Return a draft of each yard, its place put into ``book``."""
    general = file.section("yards")
    for column in FOR_ALL:
        general.has(column)
    if table is None:
        return []
    table = meant(table, OTHER_WORDS)
    muted = frozenset(check_columns(table, COLUMNS, _needed(table), file.book, OTHER_WORDS))
    if not 1 <= len(table.rows) <= MOST_YARDS:
        said, cure = (
            counted("{number} yard", "{number} yards", len(table.rows)),
            phrase("One row for each yard."),
        )
        file.book.add(
            Fault(
                table.file,
                "",
                "",
                said,
                phrase("1 to {most} yards", most=MOST_YARDS),
                cure,
            )
        )
    taken = [row.cells["id"].strip() for row in table.rows if row.cells.get("id", "").strip()]
    _check_twice(file, table, "id")
    _check_twice(file, table, "name")
    names = [row.cells.get("name", "") for row in table.rows]
    drafts = []
    for row in table.rows[:MOST_YARDS]:
        fields = _fields(file, table, row, general)
        fields.mute(muted, row)
        others = others_names(row.cells.get("name", ""), names)
        draft = read_row(fields, days, shelf, book, {*taken, *others})
        if draft.yard.id in others:
            cure = phrase("Write another, or leave the cell empty.")
            fields.fault("id", phrase("an id that is no other yard's name"), cure)
        taken.append(draft.yard.id)
        drafts.append(draft)
    yards = [draft.yard for draft in drafts if draft.fields.has("boxes")]
    doubt = boxes_in_doubt(table.file, [(one.name, one.colonies, one.boxes) for one in yards])
    if doubt is not None:
        file.desk.doubt(doubt)
    return drafts


def _needed(table: Table) -> tuple[str, ...]:
    """Return the columns that must be there; boxes per colony stand in for boxes."""
    return NEEDED[:-1] if "boxes_per_colony" in table.columns else NEEDED


def _check_twice(file: OutfitFile, table: Table, column: str) -> None:
    typed = [key_of(row.cells.get(column, "")) for row in table.rows]
    counts = Counter(typed)
    first: dict[str, int] = {}
    for row, word in zip(table.rows, typed, strict=True):
        if word and counts[word] > 1 and word in first:
            where, said = phrase("row {number}", number=row.number), said_text(row.cells[column])
            cure = phrase("Row {first} has it already: tell them apart.", first=first[word])
            file.book.add(
                Fault(
                    table.file,
                    where,
                    column,
                    said,
                    phrase("each {column} once", column=column),
                    cure,
                )
            )
        first.setdefault(word, row.number)


def _fields(file: OutfitFile, table: Table, row: Row, general: Fields) -> Fields:
    called = said_text(" ".join(row.cells.get("name", "").split()))[:40]
    where = phrase("row {number}", number=row.number)
    if called:
        where = joined(", ", where, called)
    cells: Mapping[str, object] = dict(row.cells)
    behind = Fields(file.desk, general.file, _for_all(general), "yards", general.where)
    return Fields(file.desk, table.file, cells, "yards", lambda _: where, behind)


def _for_all(general: Fields) -> dict[str, object]:
    return {key: value for key, value in general.raw.items() if key in FOR_ALL}
