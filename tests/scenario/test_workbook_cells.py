"""Workbooks as people see them on the screen."""

import re
from collections.abc import Sequence
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

import openpyxl
import pytest

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Health
from runplanner.scenario import read_scenario
from runplanner.scenario.cells.workbook_cells import read_cells
from tests.scenario.folders import a_folder, faults_of, only
from tests.scenario.gathering import gathered, into, refused

HEAD = ["name", "lat", "lon", "colonies", "boxes", "district", "health"]
ROWS = [
    ["Mill", -38.01, 175.06, 24, 41, "hills", "standstill"],
    ["Gate", -38.12, 175.2, 12, 20, None, None],
    ["Quarry", -38.06, 175.15, 30, 52, None, None],
]
Rows = Sequence[Sequence[object]]


def book(rows: Rows, *merged: str) -> bytes:
    """A workbook of one sheet with some cells merged."""
    made = openpyxl.Workbook()
    for row in rows:
        made.worksheets[0].append(list(row))
    for cells in merged:
        made.worksheets[0].merge_cells(cells)
    stream = BytesIO()
    made.save(stream)
    return stream.getvalue()


def a_book_folder(path: Path, raw: bytes) -> Path:
    """A scenario whose yards stand in this workbook."""
    folder = a_folder(path)
    (folder / "yards.csv").unlink()
    (folder / "yards.xlsx").write_bytes(raw)
    return folder


def read(path: Path, rows: Rows, *merged: str) -> Outfit:
    """Read yards from a workbook."""
    return read_scenario(a_book_folder(path, book(rows, *merged)))


def fault(path: Path, rows: Rows, *merged: str) -> tuple[str, str, str]:
    """The one fault of such a workbook: its row, its cells, and what was read."""
    found = only(faults_of(a_book_folder(path, book(rows, *merged))))
    assert "yards.xlsx" == found.file
    assert found.cure.startswith("Unmerge them")
    return found.where, found.field, found.said


def test_a_merged_cell_stands_in_every_row(tmp_path: Path) -> None:
    """A standstill written once over three yards holds all of them."""
    outfit = read(tmp_path, [HEAD, *ROWS], "F2:F4", "G2:G4")

    assert [("hills", Health.STANDSTILL)] * 3 == [
        (yard.district, yard.health) for yard in outfit.yards
    ]


def test_merged_cells_of_other_tables(tmp_path: Path) -> None:
    """One area over three rows of weather: it rains in all of them."""
    shut = ["open", "shut", "2027-03-02", "2027-03-03"]
    later = ([None, *shut[:2], day, day] for day in ("2027-03-05", "2027-03-07"))
    rows: Rows = [["area", "what", "state", "from_day", "to_day"], ["Mill Lane", *shut], *later]
    folder = a_folder(tmp_path)
    (folder / "weather.xlsx").write_bytes(book(rows, "A2:A4"))
    mill, gate = read_scenario(folder).yards

    assert [(0, 1), (3, 4), (5, 6), (7, 10)] == [
        (span.start_min // 1440, span.end_min // 1440) for span in mill.open_spans
    ]
    assert 1 == len(gate.open_spans)


def test_merging_without_text_or_rows_changes_nothing(tmp_path: Path) -> None:
    """Empty merged cells; cells merged on below the last yard; a yard two rows high."""
    tall = [["Mill", -38.01, 175.06, 24, 41, "", "standstill"], [], *ROWS[1:2]]
    merged = [f"{column}2:{column}3" for column in "ABCDE"]
    outfit = read(tmp_path, [HEAD, *tall], *merged, "F2:F4", "G2:G9")

    assert [("Mill", 24), ("Gate", 12)] == [(yard.name, yard.colonies) for yard in outfit.yards]
    assert {Health.STANDSTILL} == {yard.health for yard in outfit.yards}


def test_merged_over_columns_is_a_fault(tmp_path: Path) -> None:
    """What one text is to mean under two names, nobody knows; whatever the rows."""
    rows: Rows = [HEAD, *ROWS[:1], [*ROWS[1][:5], "standstill"], ROWS[2]]

    assert ("row 3", "F3:G4", "merged over district, health") == fault(tmp_path, rows, "F3:G4")


def test_cells_that_are_told_have_no_other_fault(tmp_path: Path) -> None:
    """Two figures that every yard needs are in merged cells: that they lack is not said too."""
    found = fault(tmp_path, [HEAD, *ROWS], "D3:E3")

    assert ("row 3", "D3:E3", "merged over colonies, boxes") == found


@pytest.mark.parametrize(
    ("column", "cells"),
    [("colonies", "D2:D4"), ("boxes", "E2:E4"), ("Hives", "D2:D4"), ("Supers", "E2:E4")],
)
def test_a_count_over_several_yards_is_a_fault(tmp_path: Path, column: str, cells: str) -> None:
    """60 written once over three yards are as likely the sum of all as the count of each."""
    head = [column if cells[0] == "ABCDEFG"[at] else name for at, name in enumerate(HEAD)]
    found = fault(tmp_path, [head, *ROWS], cells)

    assert ("row 2", cells, "merged over 3 rows") == found


@pytest.mark.parametrize("cells", ["F1:H1", "G1:G2", "G1:J2"])
def test_a_merged_header_over_nothing_else(tmp_path: Path, cells: str) -> None:
    """Wide over empty columns, high over an empty row: it names its first column."""
    head = [*HEAD[:5], "district"] if "F1" in cells else HEAD
    outfit = read(tmp_path, [head, [], *(row[: len(head)] for row in ROWS)], cells)

    assert 3 == len(outfit.yards)


@pytest.mark.parametrize("cells", ["E1:F1", "F1:F2", "A1:G1", "A1:A3"])
def test_a_merged_header_over_cells_in_use_is_a_fault(tmp_path: Path, cells: str) -> None:
    """A title, a name for two columns, a name that hides a yard's cell: one fault for each."""
    assert ("row 1", cells, "merged cells") == fault(tmp_path, [HEAD, *ROWS], cells)


def test_merged_cells_that_are_gathered(tmp_path: Path) -> None:
    """Read columns are filled, by whatever name they go; how others are merged does not matter."""
    head = ["apiary", "latitude", "longitude", "hives", "district", "owner", "since"]
    rows: Rows = [
        head, ["Pump", -38.05, 175.1, 14, "hills", "Ann", None],
        ["Dam", -38.07, 175.12, 9, None, None, None],
    ]  # fmt: skip
    (tmp_path / "t.xlsx").write_bytes(book(rows, "E2:E3", "F2:G3"))
    _, lines = gathered([tmp_path / "t.xlsx"], into(tmp_path))

    assert ["Pump,-38.05,175.1,14,,hills", "Dam,-38.07,175.12,9,,hills"] == lines[3:]

    (tmp_path / "t.xlsx").write_bytes(book(rows, "D2:D3"))
    assert "D2:D3" == only(refused([tmp_path / "t.xlsx"], tmp_path / "campaign")).field


@pytest.mark.parametrize(
    ("look", "value", "text"),
    [
        ("0%", 0.9, "90 %"),
        ("0.0 %", 0.175, "17.5 %"),
        ("[Red]0.00%;-0%", 1, "100 %"),
        ("0%", 7.000000000000001e-2, "7 %"),
        ("0%", 0, "0 %"),
        ("0%", None, ""),
        ("0%", "9/10", "9/10"),
        ("0%", True, "yes"),
        ('0"%"', 90, "90"),
        (r"0\%", 90, "90"),
        ("0_%", 90, "90"),
        ("General", 0.9, "0.9"),
        ("General", 5 / 3, "1.666666666667"),
        ("General", 0.1 + 0.2, "0.3"),
        ("General", 0.00001, "0.00001"),
        ("General", 642100123456789, "642100123456789"),
        ("[h]:mm", 1, "24:00"),
        ("[h]:mm", 0.3125, "07:30"),
        ("[h]:mm:ss", 0.75, "18:00"),
    ],
)
def test_a_number_is_read_as_it_is_shown(
    tmp_path: Path, look: str, value: float | str | None, text: str
) -> None:
    """In percent, but for a sign in quotes, behind a stroke or for a blank; as hours; cut off."""
    made = openpyxl.Workbook()
    made.worksheets[0]["A1"] = value
    made.worksheets[0]["A1"].number_format = look
    made.save(tmp_path / "made.xlsx")
    sheet = openpyxl.load_workbook(tmp_path / "made.xlsx").worksheets[0]

    assert [[text]] == read_cells(sheet, 1).grid


def test_boxes_of_each_colony_that_were_worked_out(tmp_path: Path) -> None:
    """Five boxes on three colonies are five, in a workbook and typed with few decimals."""
    head = [*HEAD[:4], "boxes_per_colony"]
    rows = [["A", -38.01, 175.06, 3, 5 / 3], ["B", -38.12, 175.2, 6, 7 / 6]]
    rows += [
        ["C", -38.2, 175.2, 3, 1.67],
        ["D", -38.3, 175.2, 24, 1.667],
        ["E", -38.4, 175, 4, 1.3],
    ]

    assert [5, 7, 5, 40, 6] == [yard.boxes for yard in read(tmp_path, [head, *rows]).yards]


@pytest.mark.parametrize("head", ["fill [%]", "fill"])
def test_a_percent_cell_means_what_it_shows(tmp_path: Path, head: str) -> None:
    """90 % full, whether or not the header names the unit as well: as 90 typed under fill [%]."""
    made = openpyxl.load_workbook(BytesIO(book([[*HEAD[:5], head], [*ROWS[0][:5], 0.9]])))
    made.worksheets[0]["F2"].number_format = "0%"
    stream = BytesIO()
    made.save(stream)
    (yard,) = read_scenario(a_book_folder(tmp_path, stream.getvalue())).yards
    (tmp_path / "typed").mkdir()
    (typed,) = read(tmp_path / "typed", [[*HEAD[:5], "fill [%]"], [*ROWS[0][:5], 90]]).yards

    assert typed.box_g == yard.box_g


def saved(raw: bytes, **results: str) -> bytes:
    """The same workbook with cells written as a spreadsheet saves a formula and its result."""
    out = BytesIO()
    with ZipFile(BytesIO(raw)) as given, ZipFile(out, "w") as put:
        for part in given.namelist():
            text = given.read(part).decode("utf-8")
            for cell, result in results.items():
                text = re.sub(f'<c r="{cell}"[^>]*><f>(.*?)</f><v */></c>', result, text)
            put.writestr(part, text)
    return out.getvalue()


def test_formulas_count_by_their_results(tmp_path: Path) -> None:
    """A figure, and a text that is empty: the yard is sound."""
    rows: Rows = [HEAD, [*ROWS[0][:4], "=20+21", None, '=IF(D2>30,"standstill","")']]
    raw = saved(
        book(rows),
        E2=r'<c r="E2"><f>\1</f><v>41</v></c>',
        G2=r'<c r="G2" t="str"><f>\1</f><v></v></c>',
    )
    (yard,) = read_scenario(a_book_folder(tmp_path, raw)).yards

    assert (41, Health.SOUND) == (yard.boxes, yard.health)


def test_formulas_without_results_are_faults(tmp_path: Path) -> None:
    """A program wrote them and worked nothing out: each cell is told, and only once.

    Whether the yard is at a standstill is not known, which the sheet would show.
    """
    rows: Rows = [HEAD, [*ROWS[0][:4], "=20+21", None, '="stand"&"still"'], [None, "=1"]]
    found = faults_of(a_book_folder(tmp_path, book(rows)))

    assert [("row 2", "boxes"), ("row 2", "health"), ("row 3", "lat")] == [
        (one.where, one.field) for one in found
    ]
    assert {"a formula without a result"} == {one.said for one in found}
    assert all("save it" in one.cure for one in found)


def test_a_header_without_a_result_is_one_fault(tmp_path: Path) -> None:
    """What its column is, nobody knows: no more is said of the table."""
    rows: Rows = [[*HEAD[:4], '="bo"&"xes"'], ROWS[0][:5]]
    found = only(faults_of(a_book_folder(tmp_path, book(rows))))

    assert ("row 1", "column 5") == (found.where, found.field)


def test_formulas_in_columns_that_nobody_gathers(tmp_path: Path) -> None:
    """They may lack their results; those of columns that are read may not."""
    head = ["apiary", "lat", "lon", "hives", "share"]
    rows: Rows = [head, ["Pump", -38.05, 175.1, 14, "=D2/40"], ["Dam", -38.07, 175.12, 9, "=D3/40"]]
    (tmp_path / "t.xlsx").write_bytes(book(rows))
    _, lines = gathered([tmp_path / "t.xlsx"], into(tmp_path))

    assert ["Pump,-38.05,175.1,14,", "Dam,-38.07,175.12,9,"] == lines[3:]

    rows = [*rows, ["=A2", -38.09, 175.14, "=9", "=1"]]
    (tmp_path / "t.xlsx").write_bytes(book(rows))
    found = refused([tmp_path / "t.xlsx"], tmp_path / "campaign")
    assert [("row 4", "name"), ("row 4", "colonies")] == [(one.where, one.field) for one in found]


def test_cells_beyond_what_is_read() -> None:
    """Merged cells below the last row that is read are none; others end there."""
    sheet = openpyxl.Workbook().worksheets[0]
    for number in range(6):
        sheet.append([number])
    sheet.merge_cells("A5:A6")
    sheet.merge_cells("A2:A4")
    cells = read_cells(sheet, 3)

    assert [["0"], ["1"], [""]] == cells.grid
    assert [("A2:A4", [(1, 0), (2, 0)])] == [(one.called, one.spots) for one in cells.merged]
