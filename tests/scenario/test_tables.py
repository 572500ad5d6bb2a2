import io
from datetime import datetime
from pathlib import Path

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.errors import Fault, ScenarioError
from runplanner.paperwork.speech.tongue import said, speaking
from runplanner.scenario.cells import tables
from runplanner.scenario.cells.tables import Table, read_table
from runplanner.scenario.faults import FaultBook


def table_of(path: Path, raw: bytes, name: str = "yards.csv") -> tuple[Table | None, FaultBook]:
    """Read ``raw`` as a table."""
    (path / name).write_bytes(raw)
    book = FaultBook()
    return read_table(path / name, book), book


def test_rows_are_numbered_as_in_a_spreadsheet(tmp_path: Path) -> None:
    """Comments and empty lines count; a cell with a line break is still one row."""
    raw = b'# note\nname,lat\n"two\nlines",1\n\nlast,2\n'
    table, _ = table_of(tmp_path, raw)

    assert table is not None
    assert [(3, "two\nlines"), (5, "last")] == [
        (row.number, row.cells["name"]) for row in table.rows
    ]


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_separators(tmp_path: Path, separator: str) -> None:
    """Comma, semicolon and tab are told apart by the header alone."""
    lines = ["a, b; name", "lat", "lon"], ["x,y;z", "1", "2"]
    raw = "\n".join(separator.join(f'"{cell}"' for cell in line) for line in lines)
    table, book = table_of(tmp_path, raw.encode())

    assert 0 == len(book)
    assert table is not None
    assert ("a,_b;_name", "lat", "lon") == table.columns
    assert "x,y;z" == table.rows[0].cells["a,_b;_name"]


@pytest.mark.parametrize("line", ["sep=;", '"sep=;"', "SEP=;", "sep=;;;"])
def test_a_line_that_says_the_separator(tmp_path: Path, line: str) -> None:
    """Spreadsheets write and read it, and do not show it: it is no row; the header has commas."""
    table, book = table_of(tmp_path, f"{line}\n# note\nname;a,b,c\nMill;1\n".encode())

    assert 0 == len(book)
    assert table is not None
    assert ("name", "a,b,c") == table.columns
    assert 3 == table.rows[0].number


def test_a_number_with_a_comma_keeps_the_unit_of_its_column(tmp_path: Path) -> None:
    """So that it is not lost where the column's head is, and a cure that is told will do."""
    table, _ = table_of(tmp_path, b'name,mass [kg]\na,"15,5"\nb,15.5\nc,15.5 g\nd,"1,5 or so"\n')

    assert table is not None
    assert ["15,5 kg", "15.5 kg", "15.5 g", "1,5 or so"] == [
        row.cells["mass"] for row in table.rows
    ]


@pytest.mark.parametrize(
    "title",
    ["Yards 2027", "Yards 2027,,,,", '"Yards, 2027"', "Yards,2027,,,"],
    ids=["alone", "padded", "quoted", "two cells"],
)
@pytest.mark.parametrize("separator", [",", ";"])
def test_a_title_above_the_header_is_one_fault(tmp_path: Path, title: str, separator: str) -> None:
    """Neither are its columns unnamed one by one, nor those below missing."""
    raw = f"{title}\nname,lat,lon,colonies,boxes\nA,-38,175,24,41\n"
    quoted = raw.replace('"Yards, 2027"', '"Yards@ 2027"').replace(",", separator)
    table, book = table_of(tmp_path, quoted.replace("@", ",").encode())

    assert table is None
    (fault,) = faults_in(book)
    assert ("row 1", "column names") == (fault.where, fault.allowed)
    assert fault.cure.startswith("Delete what stands above the row of column names")


@pytest.mark.parametrize(
    ("title", "separator"),
    [("Yards 2027, Lower valley", ";"), ("Yards, 2027", "\t"), ("Yards; 2027\n\n", ",")],
)
def test_a_title_parts_no_columns(tmp_path: Path, title: str, separator: str) -> None:
    """Its comma was taken for the separator, and each word of it for an unknown column."""
    rows = ["name,lat,lon,colonies,boxes,notes", "A,-38.5,175,24,41,a b", "B,-38.6,175,2,4,"]
    decimals = separator != ","
    text = "\n".join(row.replace(",", separator) for row in rows)
    text = text.replace(".", ",").replace("a b", "a, b, c, d, e, f, g") if decimals else text
    table, book = table_of(tmp_path, f"{title}\n{text}\n".encode())

    assert table is None
    assert ("row 1", "column names", title.strip()) == (
        only(book).where, only(book).allowed, only(book).said,
    )  # fmt: skip
    table, book = table_of(tmp_path, f"{text}\n".encode())
    assert table is not None
    assert ["A", "B"] == [row.cells["name"] for row in table.rows]


def test_a_column_without_a_name_is_told_by_its_number(tmp_path: Path) -> None:
    """In the language spoken."""
    _, book = table_of(tmp_path, b"name,,lat,lon\nA,1,-38,175\n")
    (fault,) = faults_in(book)

    assert "column 2" == fault.field
    with speaking("de"):
        assert "Spalte 2" == said(fault.field)


def test_comment_row_of_a_spreadsheet(tmp_path: Path) -> None:
    """A spreadsheet quotes a comment and pads it with separators; it stays a comment."""
    table, book = table_of(tmp_path, b'"# a, b",,\n,,\nname,lat,lon\nx,1,2\n')

    assert 0 == len(book)
    assert table is not None
    assert 4 == table.rows[0].number


def test_padded_rows(tmp_path: Path) -> None:
    """Empty cells beyond the last column do no harm; short rows lack their last cells."""
    table, book = table_of(tmp_path, b"name,lat\na,1,,\nb\n")

    assert 0 == len(book)
    assert table is not None
    assert [{"name": "a", "lat": "1"}, {"name": "b"}] == [row.cells for row in table.rows]


def test_a_yard_may_be_called_like_a_comment(tmp_path: Path) -> None:
    """Only lines above the header are comments."""
    table, _ = table_of(tmp_path, b"name,lat\n#3,1\n")

    assert table is not None
    assert "#3" == table.rows[0].cells["name"]


def test_cell_beyond_every_measure(tmp_path: Path) -> None:
    """A cell of 200,000 characters is a fault, not a silent loss of rows."""
    table, book = table_of(tmp_path, b"name,lat\n" + b"x" * 200_000 + b",1\n")

    assert table is None
    assert 1 == len(book)


def test_too_large(tmp_path: Path) -> None:
    """A table of megabytes or of too many rows is refused."""
    assert table_of(tmp_path, b"x" * 8_000_001)[0] is None
    table, book = table_of(tmp_path, b"name\n" + b"x\n" * 20_001)

    assert table is None
    assert 1 == len(book)


@pytest.mark.parametrize(
    "said",
    ["#N/A", "#REF!", "#VALUE!", "#DIV/0!", "#NAME?", "#NULL!", "#NUM!", "#NV", " #BEZUG! ",
     "#WERT!", "#ZAHL!"],
)  # fmt: skip
def test_what_a_spreadsheet_could_not_work_out(tmp_path: Path, said: str) -> None:
    """An error shown in a cell is one fault, in a text column as well; no other counts there."""
    table, book = table_of(tmp_path, f"# a\nname,lat,notes\nx,1,{said}\n#3,2,#N/A?\n".encode())

    assert table is not None
    assert [{"notes"}, set()] == [row.told for row in table.rows]
    assert ["", "#N/A?"] == [row.cells["notes"] for row in table.rows]
    fault = only(book)
    assert ("row 3", "notes", said.strip()) == (fault.where, fault.field, fault.said)


def test_errors_in_a_workbook(tmp_path: Path) -> None:
    """As in a CSV; columns that nobody reads may hold any."""
    raw = workbook(["name", "lat", "share"], ["x", "#N/A", "#DIV/0!"])
    table, book = table_of(tmp_path, raw, "yards.xlsx")

    assert ["lat", "share"] == [fault.field for fault in faults_in(book)]
    book = FaultBook()
    table = read_table(tmp_path / "yards.xlsx", book, lambda name: name * (name != "share"))
    assert "lat" == only(book).field
    assert table is not None
    assert {"name": "x", "lat": "", "share": "#DIV/0!"} == table.rows[0].cells


def test_no_such_file(tmp_path: Path) -> None:
    """A file that cannot be read is a fault."""
    book = FaultBook()

    assert read_table(tmp_path / "none.csv", book) is None
    assert 1 == len(book)


def faults_in(book: FaultBook) -> tuple[Fault, ...]:
    """What is written down."""
    with pytest.raises(ScenarioError) as refused:
        book.close()
    return refused.value.faults


def only(book: FaultBook) -> Fault:
    """The one fault there is."""
    (fault,) = faults_in(book)
    return fault


@given(raw=st.binary(max_size=200))
def test_any_bytes_are_a_table_or_a_fault(
    tmp_path_factory: pytest.TempPathFactory, raw: bytes
) -> None:
    """No bytes make the reader fail in another way than by a fault."""
    folder = tmp_path_factory.mktemp("bytes")
    for name in ("a.csv", "a.xlsx"):
        table, book = table_of(folder, raw, name)
        assert table is not None or len(book) > 0


def workbook(*rows: list[object]) -> bytes:
    """A workbook of one sheet."""
    book = openpyxl.Workbook()
    for row in rows:
        book.worksheets[0].append(row)
    stream = io.BytesIO()
    book.save(stream)
    return stream.getvalue()


def test_cells_of_a_workbook(tmp_path: Path) -> None:
    """Numbers, moments and yes/no come as a person would type them."""
    cells = [1.5, 2.0, datetime(2027, 3, 1, 8, 30), datetime(2027, 3, 1), False, None]  # noqa: DTZ001 - a cell has no zone
    table, _ = table_of(tmp_path, workbook(list("abcdef"), [*cells]), "yards.xlsx")

    assert table is not None
    assert ["1.5", "2", "2027-03-01 08:30", "2027-03-01", "no", ""] == list(
        table.rows[0].cells.values()
    )


def test_sheet_named_like_the_file(tmp_path: Path) -> None:
    """Of several sheets the one named like the file is read, else the first."""
    book = openpyxl.Workbook()
    book.worksheets[0].append(["first"])
    book.create_sheet("yards").append(["second"])
    stream = io.BytesIO()
    book.save(stream)

    yards, _ = table_of(tmp_path, stream.getvalue(), "yards.xlsx")
    weather, _ = table_of(tmp_path, stream.getvalue(), "weather.xlsx")
    assert yards is not None
    assert weather is not None
    assert (("second",), ("first",)) == (yards.columns, weather.columns)


def test_workbook_that_swells(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A workbook that unpacks to more than a table ever needs is refused unread."""
    monkeypatch.setattr(tables, "MOST_UNPACKED", 100)
    table, book = table_of(tmp_path, workbook(["name"]), "yards.xlsx")

    assert table is None
    assert 1 == len(book)


def test_header_of_nothing(tmp_path: Path) -> None:
    """A sheet without a header is a fault."""
    table, book = table_of(tmp_path, workbook([None, " "], [1, 2]), "yards.xlsx")

    assert table is None
    assert 1 == len(book)


@pytest.mark.parametrize(
    ("head", "cell"),
    [
        ("mass (kg)", "7 kg"),
        ("mass [US gal]", "7 US gal"),
        ("mass (bags)", "7 bags"),
        ("mass (Kg)", "7 Kg"),
        ("mass (gal)", "7 gal"),
        ("mass (km/h)", "7 km/h"),
        ("mass (deg F)", "7 deg F"),
        ("lat (S)", "7 S"),
        ("lon (° west)", "7 ° west"),
        ("hives (N)", "7"),
        ("boxes (E)", "7"),
        ("mass (°)", "7"),
        ("mass (no.)", "7"),
        ("mass (full)", "7"),
        ("mass (per hive)", "7"),
        ("phone (mobile)", "7"),
        ("phone (m)", "7"),
    ],
)
def test_only_a_unit_in_a_headers_brackets_goes_with_its_figures(
    tmp_path: Path, head: str, cell: str
) -> None:
    """Also one that is refused, or a side of the globe; a remark does not, nor one of words."""
    table, _ = table_of(tmp_path, f"name,{head}\nMill,7\n".encode())

    assert table is not None
    assert cell == table.rows[0].cells[head.partition(" ")[0]]
