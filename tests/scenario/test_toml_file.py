from pathlib import Path

import pytest

from runplanner.scenario.faults import FaultBook
from runplanner.scenario.toml_file import line_index, read_toml
from tests.scenario.folders import HEAD, a_folder, faults_of, only

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
        (b"empty = 2.1 t\n", "line 1"),
        (b"a = 1\na = 2\n", "overwrite"),
        (b"a = 1\n[a]\n", "overwrite"),
        (b"a = " + b"[" * 5000, ""),
        ('title = "K\u00fche"'.encode("latin-1"), "byte 0xfc"),
        ('title = "x"'.encode("utf-16"), "byte 0xff"),
        (b"\x00\x00", "zero bytes"),
        (b"", "an empty file"),
        (b"x" * 2_000_001, "too large"),
        (b"a = " + b"9" * 5000, "digits"),
    ],
    ids=[
        "quotes",
        "twice",
        "both",
        "deep",
        "latin-1",
        "utf-16",
        "zero",
        "empty",
        "large",
        "long",
    ],
)
def test_unreadable_toml(tmp_path: Path, raw: bytes, said: str) -> None:
    """A file that is no TOML is one plain fault, with the line where there is one."""
    folder = a_folder(tmp_path)
    (folder / "outfit.toml").write_bytes(raw)
    found = only(faults_of(folder))

    assert "outfit.toml" == found.file
    assert said.casefold() in found.sentence().casefold()


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
    folder = a_folder(tmp_path)
    (folder / "outfit.toml").write_text(f"title = 'x'\r\n{line}\r\n", encoding="utf-8")
    found = only(faults_of(folder))

    assert ("outfit.toml", "line 2", line, cure) == (
        found.file, found.where, found.said, found.cure,
    )  # fmt: skip


@pytest.mark.parametrize(
    "line", ['a = "1,5" x', "a = [1,2] x", "a = b # 1,5", "a = 1,2,3", "a = b1,5"]
)
def test_other_commas_are_no_decimal_commas(tmp_path: Path, line: str) -> None:
    """In quotes, lists and comments, and in runs of numbers, a comma is not the fault."""
    folder = a_folder(tmp_path)
    (folder / "outfit.toml").write_text(f"{line}\n", encoding="utf-8")
    found = only(faults_of(folder))

    assert ("line 1", line) == (found.where, found.said)
    assert "need quotes" in found.cure


def test_nan_and_infinity_in_toml(tmp_path: Path) -> None:
    """TOML knows nan and inf; no field takes them."""
    folder = a_folder(tmp_path, "[travel]\ndetour = nan\n[prices]\nhour = inf\nlate = -inf\n")

    assert ["detour", "hour", "late"] == sorted(fault.field for fault in faults_of(folder))


def test_tables_are_still_looked_at(tmp_path: Path) -> None:
    """A broken outfit.toml does not hide a broken table."""
    folder = a_folder(tmp_path, yards=b"\xff\xfe")
    (folder / "outfit.toml").write_text(HEAD + "x = \n")

    assert ["outfit.toml", "yards.csv"] == sorted(fault.file for fault in faults_of(folder))


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
