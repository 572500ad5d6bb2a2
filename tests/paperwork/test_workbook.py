"""Tests of the workbook, opened again by the library and as the bare XML it is."""

import io
import re
import zipfile
from dataclasses import replace
from datetime import datetime, time, timedelta
from typing import cast
from xml.etree import ElementTree as ET

import openpyxl
import pytest
from openpyxl.workbook.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from runplanner.daybook.plan import Plan
from runplanner.paperwork.data.workbook import LIST_SHEET, manifests_xlsx
from runplanner.paperwork.escape import sheet_cell, sheet_name, shown
from tests.paperwork.plans import (
    HOSTILE,
    eight_stop_plan,
    from_elsewhere,
    hostile_plan,
    small_plan,
)


def book(plan: Plan) -> Workbook:
    """The workbook as a spreadsheet opens it."""
    return openpyxl.load_workbook(io.BytesIO(manifests_xlsx(plan)))


MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
LINKED = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"


def bare(plan: Plan) -> dict[str, dict[str, object]]:
    """The cells of each sheet by their names, from the XML alone, as ECMA-376 part 1 tells it.

    A number in a format of days or hours is a date or a time.
    """
    with zipfile.ZipFile(io.BytesIO(manifests_xlsx(plan))) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    trees = {name: ET.fromstring(raw) for name, raw in parts.items()}  # noqa: S314 - ours
    styles = trees["xl/styles.xml"]
    codes = {
        one.get("numFmtId"): str(one.get("formatCode")) for one in styles.iter(f"{MAIN}numFmt")
    }
    used = styles.find(f"{MAIN}cellXfs")
    assert used is not None
    formats = [codes.get(one.get("numFmtId"), "") for one in used]
    targets = {one.get("Id"): one.get("Target") for one in trees["xl/_rels/workbook.xml.rels"]}
    found = {}
    for sheet in trees["xl/workbook.xml"].iter(f"{MAIN}sheet"):
        page = trees[str(targets[sheet.get(LINKED)]).lstrip("/")]
        cells = page.iter(f"{MAIN}c")
        told = [(str(one.get("r")), bare_value(one, formats)) for one in cells]
        found[str(sheet.get("name"))] = {spot: value for spot, value in told if value is not None}
    return found


def bare_value(cell: ET.Element, formats: list[str]) -> object:
    """What one cell holds: words, a number, a date or a time; None where it is empty."""
    kind, text = cell.get("t", "n"), cell.findtext(f"{MAIN}v")
    if kind == "inlineStr":
        return "".join(one.text or "" for one in cell.iter(f"{MAIN}t"))
    assert "n" == kind
    if text is None:
        return None
    form = formats[int(cell.get("s", "0"))]
    # Days since the end of 1899, as spreadsheets count them.
    moment = datetime(1899, 12, 30) + timedelta(seconds=round(float(text) * 86_400))  # noqa: DTZ001 - wall time
    return {"yyyy-mm-dd": moment, "hh:mm": moment.time()}.get(form, float(text))


@pytest.mark.parametrize("plan", [eight_stop_plan(), hostile_plan()])
def test_it_reads_the_same_without_the_library(plan: Plan) -> None:
    """Every value and its type, from the bare XML and by the library that wrote it."""
    opened = book(plan)

    assert {
        sheet.title: {
            cell.coordinate: cell.value
            for row in sheet.iter_rows()
            for cell in row
            if cell.value is not None
        }
        for sheet in opened.worksheets
    } == bare(plan)


def test_the_list_by_the_bare_file() -> None:
    """Its third row: a date, words, two times, counts, and 65 + 70 + 75 + 95 litres."""
    cells = bare(eight_stop_plan())[LIST_SHEET]

    assert [
        datetime.fromisoformat("2027-03-02"), "0302-truck1-0001", "0302-truck1-0001",
        "Blue flat-deck + Tandem trailer", "Anahera drives, with Bo", time(5), time(12, 48),
        8.0, 42.0, 305.0,
    ] == [cells[f"{column}4"] for column in "ABCDEFGHIJ"]  # fmt: skip


def blocks(plan: Plan, sheet: str) -> list[dict[str, object]]:
    """The stops on one sheet: figures by their column's head, then words by their label.

    Jobs are a list; what is counted is a list of the words above the frames.
    """
    rows = list(book(plan)[sheet].iter_rows(values_only=True))
    top = next(number for number, row in enumerate(rows) if row[0] == "Stop")
    heads, found, label = [str(cell) for cell in rows[top]], list[dict[str, object]](), ""
    ends = (i for i in range(top, len(rows)) if not any(rows[i]) and rows[i - 1][1] != "Done")
    for row in rows[top + 1 : next(ends)]:
        if isinstance(row[3], time):
            found.append(dict(zip(heads, row, strict=True)) | {"Jobs": []})
            continue
        label = str(row[1] or label)
        if label == "Jobs":
            cast("list[object]", found[-1]["Jobs"]).append(row[2])
        elif label == "Done":
            found[-1].setdefault("Done", [one for one in row[2:] if one])
        else:
            found[-1][label] = row[2]
    return found


def test_there_is_a_sheet_for_each_trip_and_a_list() -> None:
    """The list first, then the trips; the list has figures as figures."""
    made = book(eight_stop_plan())

    assert [
        LIST_SHEET,
        "0301-truck1-0001",
        "0301-truck1-0002",
        "0302-truck1-0001",
        "0303-truck1-0001",
    ] == (made.sheetnames)
    rows = list(made[LIST_SHEET].iter_rows(values_only=True))
    # 65 + 70 + 75 + 95 litres; boxes 9 + 10 + 7 + 16.
    assert (
        datetime.fromisoformat("2027-03-02"), "0302-truck1-0001", "0302-truck1-0001",
        "Blue flat-deck + Tandem trailer", "Anahera drives, with Bo", time(5), time(12, 48),
        8, 42, 305,
    ) == rows[3]  # fmt: skip


def test_a_sheet_has_what_the_driver_has() -> None:
    """Ten stops; place, times, jobs, load against limit, gate and phone."""
    steps = blocks(eight_stop_plan(), "0302-truck1-0001")

    assert 10 == len(steps)
    first = steps[1]
    assert (1, "Kauri Flat", time(5, 40), None, time(6, 15), time(6, 50)) == (
        first["Stop"], first["Place"], first["Arrive"], first["Begin"], first["Leave"],
        first["Latest"],
    )  # fmt: skip
    take_off, syrup, _ = cast("list[str]", first["Jobs"])
    assert "Take off all 13 colonies: 9 boxes on, 13 boards back" == take_off
    assert syrup.startswith("Syrup, all 13 colonies")
    assert (15, "+64 21 555 0101") == (first["Stop at full boxes aboard"], first["Ring"])
    call = eight_stop_plan().shifts[1].trips[0].calls[1]
    assert (-(-call.after.load_g // 1000), 1600) == (first["Load kg"], first["Load kg at most"])
    assert time(9, 16) == steps[5]["Begin"]


def test_boxes_brood_boxes_boards_and_litres_aboard() -> None:
    """After stop 2: 9 + 10 boxes, 2 brood boxes, 13 + 14 boards beside 16 new, 305 - 135 L."""
    steps = blocks(eight_stop_plan(), "0302-truck1-0001")
    heads = ("Full boxes aboard", "Brood boxes aboard", "Boards aboard", "Syrup L aboard")

    assert [(0, 0, 16, 305), (9, 0, 29, 240), (19, 2, 43, 170)] == [
        tuple(step[head] for head in heads) for step in steps[:3]
    ]


def test_dates_and_times_can_be_reckoned_with() -> None:
    """As dates and hours with their formats, so that one taken from another is a length."""
    made = book(from_elsewhere(eight_stop_plan()))
    rows = {row[1].value: row[2] for row in made["0301-truck1-0001"].iter_rows() if row[1].value}
    back = made[LIST_SHEET]["G2"]

    assert (datetime.fromisoformat("2027-03-01"), "yyyy-mm-dd") == (
        rows["Date"].value,
        rows["Date"].number_format,
    )
    assert (time(6), "hh:mm") == (rows["Leave home"].value, rows["Leave home"].number_format)
    assert "Home again" not in rows
    second = made["0301-truck1-0002"].iter_rows()
    home = next(row[2] for row in second if row[1].value == "Home again")
    assert (made[LIST_SHEET]["G3"].value, "hh:mm") == (home.value, home.number_format)
    assert ("hh:mm", True) == (back.number_format, isinstance(back.value, time))


def test_what_is_counted_has_a_frame() -> None:
    """A take-off with block counts colonies, boxes and blocks, each above a frame to fill in."""
    stop = blocks(small_plan(), "0301-truck1-0001")[1]
    page = book(small_plan())["0301-truck1-0001"]
    below = next(n for n, row in enumerate(page.iter_rows(), start=2) if row[1].value == "Done")
    frames = [page.cell(below, column).border.left.style for column in range(2, 8)]

    assert ["colonies", "boxes", "blocks"] == stop["Done"]
    assert [None, "thin", "thin", "thin", None, None] == frames


def test_brood_boxes_apart_are_counted_apart() -> None:
    """Stop 2 takes brood boxes and has their frame; stop 1 takes none."""
    steps = blocks(eight_stop_plan(), "0302-truck1-0001")

    assert [False, True] == ["brood" in cast("list[str]", one["Done"]) for one in steps[1:3]]


def cells(sheet: Worksheet) -> list[object]:
    """All values of a sheet, row by row."""
    return [cell for row in sheet.iter_rows(values_only=True) for cell in row]


def test_a_driven_trip_and_a_later_trip_say_so() -> None:
    """Already driven, or under way; no leaving home before the second trip."""
    plan = from_elsewhere(eight_stop_plan())
    shift = plan.shifts[0]
    driven = replace(shift, trips=(replace(shift.trips[0], driven=True), shift.trips[1]))
    out = replace(plan, shifts=(driven, *plan.shifts[1:]))
    made = book(replace(out, now_min=driven.end_min))

    under_way = replace(out, now_min=driven.trips[0].calls[0].start_min)
    assert "Under way" in cells(book(under_way)["0301-truck1-0001"])
    first, second = (cells(made[f"0301-truck1-000{number}"]) for number in (1, 2))
    assert "Already driven" in first
    assert "Leave home" in first
    assert "Already driven" not in second
    assert "Leave home" not in second
    assert "trip 2 of 2" in second


@pytest.mark.parametrize("plan", [eight_stop_plan(), hostile_plan()])
def test_nothing_in_it_is_worked_out(plan: Plan) -> None:
    """No formula in any cell, seen by the library and in the bare XML; no link out."""
    for sheet in book(plan).worksheets:
        assert {"s", "n", "d"} >= {cell.data_type for row in sheet.iter_rows() for cell in row}
    with zipfile.ZipFile(io.BytesIO(manifests_xlsx(plan))) as archive:
        texts = {name: archive.read(name).decode() for name in archive.namelist()}
    for name, text in texts.items():
        assert not re.search(r"<f[ >/]", text), name
        assert "TargetMode" not in text, name
    assert not [name for name in texts if "vba" in name or "external" in name]


def test_a_formula_for_a_name_is_the_name() -> None:
    """=HYPERLINK, +, - and @ stand in the cell as typed, marked as text for editing."""
    plan = small_plan()
    for said in ('=HYPERLINK("http://x","y")', "+1", "-1", "@SUM(1)", "#REF!", "=1"):
        yard = replace(plan.outfit.yards[0], name=said)
        spoilt = replace(plan, outfit=replace(plan.outfit, yards=(yard, plan.outfit.yards[1])))
        cells = [cell for row in book(spoilt)["0301-truck1-0001"].iter_rows() for cell in row]
        (found,) = (cell for cell in cells if cell.value == said)
        assert "s" == found.data_type
        assert (said[0] != "#") == bool(found.quotePrefix)


def test_hostile_words_are_whole() -> None:
    """Place and phone are what stands on paper."""
    stop = blocks(hostile_plan(), "0301-truck1-0001")[1]

    assert HOSTILE[0] == stop["Place"]
    assert HOSTILE[2] == stop["Getting in"]
    assert shown(HOSTILE[4], 40) == stop["Ring"]


def test_a_code_for_a_letter_is_no_letter() -> None:
    """_x0041_ would be read as A by spreadsheets; what is written reads as _x0041_."""
    assert "_x005F_x0041_ _x005F_x0042_" == sheet_cell("_x0041_ _x0042_")
    assert "_x004_ x0041_ a_b" == sheet_cell("_x004_ x0041_ a_b")
    assert "a b\ufffd" == sheet_cell("a\nb\x01")


def test_two_trips_of_one_truck_can_be_told_apart_by_their_sheets() -> None:
    """However long the truck's name: day first and time last, as in a trip's name."""
    made = [sheet_name(f"0222-blue-flat-deck-behind-the-barn-{time}") for time in ("0817", "1321")]

    assert ["0222-blue-flat-d", "0222-blue-flat-d"] == [name[:16] for name in made]
    assert ["-0817", "-1321"] == [name[-5:] for name in made]
    assert {31} == {len(name) for name in made}


def test_sheet_names_are_what_a_workbook_allows() -> None:
    """At most 31 plain signs, never alike, none that is kept for other things."""
    said = [
        "history",
        "All trips",
        "x" * 40,
        "x" * 41,
        "a/b",
        "a:b",
        "[a]",
        "'a'",
        "",
        "d00-blue-1",
    ]
    made = [sheet_name(text) for text in said]

    assert "d00-blue-1" == made[-1]
    assert len(said) == len({name.lower() for name in made})
    for name in made:
        assert 0 < len(name) <= 31
        assert not set("[]:*?/\\'") & set(name)
        assert name not in {"history", LIST_SHEET.lower()}


def test_trips_with_unfit_ids_have_sheets() -> None:
    """The list says on which sheet a trip stands."""
    plan = small_plan()
    odd = replace(plan.shifts[0].trips[0], id="A very long trip id / with a slash: 2027")
    plan = replace(plan, shifts=(replace(plan.shifts[0], trips=(odd,)), *plan.shifts[1:]))
    made = book(plan)

    row = list(made[LIST_SHEET].iter_rows(values_only=True))[1]
    assert row[2] in made.sheetnames


def test_the_same_plan_gives_the_same_bytes() -> None:
    """No clock, no user, no machine: creation is the campaign's first day."""
    assert manifests_xlsx(small_plan()) == manifests_xlsx(small_plan())

    facts = book(small_plan()).properties
    assert ("runplanner", "2027-03-01", "2027-03-01") == (
        facts.creator, f"{facts.created:%Y-%m-%d}", f"{facts.modified:%Y-%m-%d}",
    )  # fmt: skip


def test_it_prints_one_page_wide() -> None:
    """A4, lying, as many pages high as it takes, with the head of the stops on each."""
    page = book(eight_stop_plan())["0302-truck1-0001"]
    head = next(row[0].row for row in page.iter_rows() if row[0].value == "Stop")

    assert ("landscape", 9, 1, 0) == (
        page.page_setup.orientation, page.page_setup.paperSize,
        page.page_setup.fitToWidth, page.page_setup.fitToHeight,
    )  # fmt: skip
    assert f"${head}:${head}" == page.print_title_rows


@pytest.mark.parametrize("long_in", [297 / 25.4, 11], ids=["a4", "letter"])
def test_it_prints_in_letters_of_eight_points_and_more(long_in: float) -> None:
    """Letters of 11 points, shrunk until the columns fit between the margins.

    A column of n digits is 7 n + 5 dots wide, 96 to the inch (ECMA-376 part 1, col).
    """
    for page in book(eight_stop_plan()).worksheets:
        widths = [column.width for column in page.column_dimensions.values()]
        assert len(widths) == page.max_column
        inches = sum(7 * width + 5 for width in widths) / 96
        room = long_in - page.page_margins.left - page.page_margins.right
        assert 11 * min(1, room / inches) >= 8


def test_rows_are_as_high_as_their_words() -> None:
    """Across 138 digits a line is taken to hold four fifths, 110 letters; a full stop follows."""
    plan = small_plan()
    for letters, height in ((109, 15), (110, 30), (160, 30)):
        notes = replace(plan.outfit.yards[0].access, notes="x" * letters)
        yards = (replace(plan.outfit.yards[0], access=notes), *plan.outfit.yards[1:])
        page = book(replace(plan, outfit=replace(plan.outfit, yards=yards)))["0301-truck1-0001"]
        labels = [row[1] for row in page.iter_rows(values_only=True)]
        row = labels.index("Getting in") + 1

        assert height == page.row_dimensions[row].height
        assert f"C{row}:P{row}" in {str(one) for one in page.merged_cells.ranges}
