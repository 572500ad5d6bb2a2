import re
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.errors import Fault, ScenarioError
from runplanner.scenario.cells.toml_file import line_index, read_toml
from runplanner.scenario.cells.toml_slips import SEVERAL, read_on
from runplanner.scenario.faults import FaultBook
from runplanner.scenario.starter.starter_text import OUTFIT_TOML
from tests.scenario.folders import (
    BASE,
    SEASON,
    TRUCK,
    YARDS,
    a_folder,
    faults,
    faults_of,
    only,
)

TEXT = '''\
title = "x"
note = """
[not.a.table]
fake = 1
"""

[season]
first_day = 2027-03-01
"quoted key" = 2

[[trucks]]
name = "a"
[trucks.axles]
front = 1
[[trucks]]
name = "b"
[trucks.axles]
front = 2
'''


def test_line_index() -> None:
    """Every table and key is found on its line; text in triple quotes is passed over."""
    lines = line_index(TEXT)

    assert {
        "title": 1, "note": 2, "season": 7, "season.first_day": 8, "season.quoted key": 9,
        "trucks.0": 11, "trucks.0.name": 12, "trucks.0.axles": 13, "trucks.0.axles.front": 14,
        "trucks.1": 15, "trucks.1.name": 16, "trucks.1.axles": 17, "trucks.1.axles.front": 18,
    } == lines  # fmt: skip


def test_byte_order_mark(tmp_path: Path) -> None:
    """A byte order mark before the TOML does no harm."""
    path = tmp_path / "outfit.toml"
    path.write_bytes(b"\xef\xbb\xbf" + b'title = "x"\n')

    assert {"title": "x"} == read_toml(path, FaultBook())[0]


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"a = " + b"[" * 5000, ""),
        ('title = "K\u00fche"'.encode("latin-1"), "byte 0xfc"),
        ('title = "x"'.encode("utf-16"), "byte 0xff"),
        (b"\x00\x00", "zero bytes"),
        (b"", "'an empty file'; allowed: some text. Fill it in, or write a starter"),
        (b"x" * 2_000_001, "too large"),
        (b"a = " + b"9" * 5000, "digits"),
        (b"[the yards]\nb = 1\n", "line 1"),
        (b'[pace]\nx = """abc\ny = 1', "Unterminated string"),
    ],
    ids=[
        "deep",
        "latin-1",
        "utf-16",
        "zero",
        "empty",
        "large",
        "long",
        "no header",
        "triple",
    ],
)
def test_unreadable_toml(tmp_path: Path, raw: bytes, said: str) -> None:
    """A file of which no tables can be made is one plain fault, with the line where there is one.

    A key below a header that cannot be read would be taken for one of the table above.
    """
    folder = a_folder(tmp_path)
    (folder / "outfit.toml").write_bytes(raw)
    found = only(faults_of(folder))

    assert "outfit.toml" == found.file
    assert said.casefold() in found.sentence().casefold()


def slips(tmp_path: Path, text: str) -> tuple[Fault, ...]:
    """What is told of the TOML alone."""
    path, book = tmp_path / "outfit.toml", FaultBook()
    path.write_text(text, encoding="utf-8")
    read_toml(path, book)
    with pytest.raises(ScenarioError) as caught:
        book.close()
    return caught.value.faults


@pytest.mark.parametrize(
    ("text", "line", "cure"),
    [
        ("\nempty = 2.1 t\n", 2, 'need quotes: empty = "2.1 t".'),
        ("first_day = 14 March # 2027\n", 1, 'need quotes: first_day = "14 March".'),
        ('title = "Ann\n', 1, "need quotes"),
        ("a = 1\na = 2\n", 2, "It stands there already: keep one of the two."),
        ("[[trucks]\nx = 1\n", 1, "Write [[trucks]]."),
        ("[season\nx = 1\n", 1, "Write [season]."),
        ("[[kit]\nx = 1\n", 1, "Write [kit]."),
        ("[trucks]]\nx = 1\n", 1, "Write [[trucks]]."),
        ("[trucks # one\nx = 1\n", 1, "Write [[trucks]]."),
        ('a = [\n  "x",\n  "y" "z",\n  [1, 2],\n]\nb = 1\n', 3, "need quotes"),
        ('a = 1\na = [\n  "x",\n]\n', 2, "It stands there already"),
        ('a = ["x", "y"\n\n# more\n[[b]]\n', 1, "need quotes"),
        ("people 2\n", 1, "Write people = 2."),
        ("= 2\n", 1, "A line is a key, = and a value"),
        ("a = 1\n[a]\nb = 2\n", 2, "It stands there already"),
        ("[a]\nb = 1\n[a]\nb = 2\n", 3, "It stands there already"),
        ("[a]\n[a.b]\nc = 1\n[a.b]\nc = 2\n", 4, "It stands there already"),
        ("name = 'Grey\n\n[b]\nc = 1\n", 1, 'need quotes: name = "Grey".'),
        ("a = 'x'\nb = 'y # z\n" + "[[c]]\nd = 1\n" * 40, 2, 'need quotes: b = "y".'),
        ("name = \u201cGrey\u201d\n", 1, 'need quotes: name = "Grey".'),
        ("people = [Ann, 'Bob\u2019, 2]\n", 1, 'need quotes: people = ["Ann", "Bob", 2].'),
        ("a = [\n  1,\n", 2, "need quotes"),
        ("a = [x,\n  1,\n]\n", 1, 'need quotes: empty = "2.1 t".'),
        ("lat: 55.6\n", 1, "Write lat = 55.6."),
        ("name: Grey\n", 1, 'Write name = "Grey".'),
        ("// note\n", 1, "Remarks begin with #."),
        ("box mass = 18\n", 1, "A line is a key, = and a value"),
    ],
)
def test_a_slip_is_told_on_its_line(tmp_path: Path, text: str, line: int, cure: str) -> None:
    """By the line it stands on, the line as typed, and how to write it."""
    found = only(slips(tmp_path, text))

    assert (f"line {line}", text.split("\n")[line - 1].strip()) == (found.where, found.said)
    assert cure in found.cure


def test_slips_of_all_lines_and_of_the_other_files_are_told_at_once(tmp_path: Path) -> None:
    """Each by what should stand there: seven runs told of one after the other."""
    found = faults(
        tmp_path,
        head="people = Sean, Mick\n",
        season="[season]\nfirst_day = 1/3/2027\nlast_day = 14 March 2027\n",
        base="[base]\nlat = 35,88\nlon = 175.11\n",
        truck=TRUCK.replace('"2.1 t"', "2.1 t").replace('"3.5 t"', "7,720 lbs")
        + 'drivers = ["Sean"]\n',
        yards=YARDS.replace("24,41", "x,41"),
    )

    assert [
        ("line 1, people", 'Write digits, or names as a list: ["Sean", "Mick"].'),
        ("line 3, season, first_day",
         "Write the year first: 2027-03-01, or 2027-01-03 if the month stood first."),
        ("line 4, season, last_day", "Write the year first: 2027-03-14."),
        ("line 6, base, lat", "No commas: write 35.88 if that is meant."),
        ("line 10", 'Text, dates with hours, and quantities need quotes: empty = "2.1 t".'),
        ("line 11, trucks 1 (Blue), max", "No commas: write '7720 lbs' if that is meant."),
        ("row 2, Mill Lane, colonies", "Write digits alone."),
    ] == [(", ".join(filter(None, (one.where, one.field))), one.cure) for one in found]  # fmt: skip


def test_what_stands_below_a_header_once_more_is_read(tmp_path: Path) -> None:
    """With the slips before and after: a snippet pasted at the end had hidden them all.

    What stood there first counts; below one of several tables it is one more of them.
    """
    red = TRUCK.replace("[[trucks]]", "[trucks]").replace("Blue", "Red").replace("2.1 t", "2.1")
    found = faults(
        tmp_path,
        '[season]\nfirst_day = 2028-01-01\ntake_off_by = "soon"\n' + red,
        truck=TRUCK.replace('"3.5 t"', '"3.5"'),
        yards=YARDS.replace("24,41", "x,41"),
    )

    assert [
        ("line 12, trucks 1 (Blue)", "max"), ("line 15", ""), ("line 17, season", "take_off_by"),
        ("line 18", ""), ("line 20, trucks 2 (Red)", "empty"), ("row 2, Mill Lane", "colonies"),
    ] == [(one.where, one.field) for one in found]  # fmt: skip


SLIPS: dict[str, Callable[[str], str]] = {
    "no quotes": lambda line: line.replace('"', ""),
    "one quote": lambda line: line.replace('"', "", 1),
    "no sign": lambda line: line.replace(" = ", " "),
    "colon": lambda line: line.replace(" =", ":"),
    "more": lambda line: line + " x",
    "comma": lambda line: re.sub(r"(\d)\.(\d)", r"\1,\2", line),
    "bracket": lambda line: line.replace("]", "", 1),
    "one bracket before": lambda line: re.sub(r"^\[\[", "[", line),
    "two brackets before": lambda line: re.sub(r"^\[(?!\[)", "[[", line),
    "single brackets": lambda line: re.sub(r"^\[\[(.*)\]\]", r"[\1]", line),
    "double brackets": lambda line: re.sub(r"^\[(\w*)\]", r"[[\1]]", line),
    "one bracket": lambda line: re.sub(r"^\[\[(.*)\]\]", r"[\1", line),
    "twice": lambda line: line if line.startswith("[[") else f"{line}\n{line}",
    "open": lambda line: re.sub('"(?=]?$)', "", line).replace('"', "'"),
    "round": lambda line: line.replace('"', "\u201d"),
}
PEOPLE = '[[people]]\nname = "Ann"\n[[people]]\nname = "Bob O\'Hara"\ndrives = false\n'
BROAD = (
    'title = "Test"\n' + SEASON + BASE + TRUCK + 'drivers = ["Ann"]\n' + PEOPLE
    + '[[areas]]\nname = "Gate"\nlat = -38.1\nlon = 175.1\nradius = "3 km"\n'
    + '[pace]\nload = "10 min"\n'
)  # fmt: skip


@pytest.mark.parametrize("slip", SLIPS)
def test_one_slip_is_one_fault(slip: str, tmp_path: Path) -> None:
    """On whatever line it is: nothing is told of the lines after it, nor of what it hides."""
    folder, lines = a_folder(tmp_path), BROAD.splitlines()
    for number, line in enumerate(lines):
        made = SLIPS[slip](line)
        if made == line:
            continue
        text = "\n".join([*lines[:number], made, *lines[number + 1 :]])
        (folder / "outfit.toml").write_text(text, encoding="utf-8")
        found = only(faults_of(folder))
        assert f"line {number + 1 + (slip == 'twice')}" in found.where.split(", "), made


def test_several_tables_in_single_brackets(tmp_path: Path) -> None:
    """Each header is told, and each table read: "keep one of the two" would lose a truck."""
    red = TRUCK.replace("Blue", "Red").replace("2.1 t", "2.1")
    found = faults(tmp_path, truck=(TRUCK + red).replace("[[trucks]]", "[trucks]"))

    assert [("line 9", ""), ("line 15", ""), ("line 17, trucks 2 (Red)", "empty")] == [
        (one.where, one.field) for one in found
    ]
    assert {"Write [[trucks]]."} == {one.cure for one in found[:2]}


def test_which_tables_may_be_several() -> None:
    """The starter has every table: a header's brackets go by its name."""
    assert sorted(SEVERAL) == sorted({*re.findall(r"\[\[([a-z_]+)\]\]", OUTFIT_TOML)})


def test_keys_below_a_header_with_a_slip_are_told_with_their_line(tmp_path: Path) -> None:
    """Whatever brackets it has."""
    found = faults(tmp_path, "[[pace]\nload = 3\n", truck=TRUCK.replace("[[trucks]]", "[trucks"))

    assert [("line 9", ""), ("line 15", ""), ("line 16, pace", "load")] == [
        (one.where, one.field) for one in found
    ]


@given(st.lists(st.sampled_from([*BROAD, "[", "]", '"', "=", "\n", "#", "{", ",", "\ue0000"])))
def test_any_text_is_read_or_told(signs: list[str]) -> None:
    """No text makes reading on fail, and what cannot be read is told."""
    book = FaultBook()
    assert read_on("outfit.toml", "".join(signs), book) is not None or len(book)


def test_whole_numbers_of_absurd_length(tmp_path: Path) -> None:
    """Hexadecimal, octal and binary ones have no limit in TOML: each is named where it stands.

    1001 bits are 2^1000 and more, which has 302 digits; 1000 ones are the last that pass here.
    """
    folder = a_folder(tmp_path)
    long = ["0x" + "f" * 5000, "0o" + "7" * 5000, "0b1" + "0" * 1000]
    lines = [
        f"people = {long[0]}", "[season]", f"first_day = {long[1]}", "[[areas]]",
        f"corners = [[{long[2]}, 1], [0b{'1' * 1000}, 2]]", "[[areas]]", 'name = "x"',
    ]  # fmt: skip
    (folder / "outfit.toml").write_text("\n".join(lines), "utf-8")
    found = faults_of(folder)

    assert [
        ("line 1", "people"), ("line 3", "first_day"), ("line 5", "corners"),
    ] == [(one.where, one.field) for one in found]  # fmt: skip
    assert {"a number of more than 300 digits"} == {one.said for one in found}


def test_a_long_number_among_the_tables_of_a_list(tmp_path: Path) -> None:
    """A key of one of several tables is named by its line; one inside a line is not found."""
    folder = a_folder(tmp_path)
    long = "0x" + "f" * 300
    text = f"[[trucks]]\nname = 'a'\n[[trucks]]\nseats = {long}\n[pace]\nx = {{ y = {long} }}\n"
    (folder / "outfit.toml").write_text(text, "utf-8")

    assert [("", "y"), ("line 4", "seats")] == [(one.where, one.field) for one in faults_of(folder)]


@pytest.mark.parametrize(
    ("line", "cure"),
    [
        ("lat = -38,74", "No commas: write -38.74 if that is meant."),
        ("lat = -38,74 # south, of 1,5", "No commas: write -38.74 if that is meant."),
        ("spot = { lat = -38,74, lon = 175.1 }", "No commas: write -38.74 if that is meant."),
        ("most = 1,250", "No commas: write 1250 if thousands are meant, or else 1.25."),
        ("empty = 4,2 t", "No commas: write '4.2 t' if that is meant."),
        ('n = "1,5" 2,5', "No commas: write 2.5 if that is meant."),
    ],
)
def test_a_decimal_comma_is_named_on_its_line(tmp_path: Path, line: str, cure: str) -> None:
    """The file, the line's number, the line as typed, and the number with a point."""
    found = only(slips(tmp_path, f"title = 'x'\r\n{line}\r\n"))

    assert ("outfit.toml", "line 2", line, cure) == (
        found.file, found.where, found.said, found.cure,
    )  # fmt: skip


@pytest.mark.parametrize(
    "line", ['a = "1,5" x', "a = [1,2] x", "a = b # 1,5", "a = 1,2,3", "a = b1,5"]
)
def test_other_commas_are_no_decimal_commas(tmp_path: Path, line: str) -> None:
    """In quotes, lists and comments, and in runs of numbers, a comma is not the fault."""
    found = only(slips(tmp_path, f"{line}\n"))

    assert ("line 1", line) == (found.where, found.said)
    assert "need quotes" in found.cure


def test_nan_and_infinity_in_toml(tmp_path: Path) -> None:
    """TOML knows nan and inf; no field takes them."""
    folder = a_folder(tmp_path, "[travel]\ndetour = nan\n[prices]\nhour = inf\nlate = -inf\n")

    assert ["detour", "hour", "late"] == sorted(fault.field for fault in faults_of(folder))


@pytest.mark.parametrize("slip", ["[pace\nload = \n", "[the pace]\n"])
def test_tables_are_still_looked_at(tmp_path: Path, slip: str) -> None:
    """A broken outfit.toml does not hide a broken table."""
    found = faults(tmp_path, slip, yards=b"\xff\xfe")

    assert {"outfit.toml", "yards.csv"} == {fault.file for fault in found}


def test_folder_in_place_of_a_file(tmp_path: Path) -> None:
    """A folder called outfit.toml is no outfit."""
    folder = a_folder(tmp_path)
    (folder / "outfit.toml").unlink()
    (folder / "outfit.toml").mkdir()

    assert "missing" == only(faults_of(folder)).said


def test_file_that_cannot_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file without the right to read it is a fault."""
    folder = a_folder(tmp_path)

    def refuse(path: Path) -> bytes:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "read_bytes", refuse)

    assert {"Permission denied"} == {fault.said for fault in faults_of(folder)}
