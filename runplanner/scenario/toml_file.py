"""A TOML file with the line on which each key stands."""

import re
import tomllib
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any, Final

from runplanner.errors import Fault, no_commas, system_said
from runplanner.phrase import Number, Phrase, phrase
from runplanner.scenario.faults import FaultBook, said_text

MOST_BYTES: Final = 2_000_000
MOST_BITS: Final = 1000
"""Whole numbers beyond this, some 300 digits, are refused here: later they could not be printed."""
_MOST_DIGITS: Final = 300
_TABLE: Final = re.compile(r"\s*\[(\[?)\s*([^\[\]]+?)\s*\]")
_KEY: Final = re.compile(r"\s*(\"[^\"]*\"|'[^']*'|[A-Za-z0-9_\-.]+)\s*=")
_SPOT: Final = re.compile(r"\(at line ([0-9]+), column [0-9]+\)$")
_NO_NUMBERS: Final = re.compile(r"\"[^\"]*\"|'[^']*'|\[[^\[\]]*\]|#.*")
_COMMA: Final = re.compile(r"(?<![\w.,])([+-]?[0-9]+,[0-9]+)(?![\w.]|,[0-9])\s*([^\W\d_]\S*)?")
_QUOTES: Final = re.compile(r'"""|\'\'\'')

Lines = dict[str, int]
"""Line number by path, such as ``trucks.0.empty`` or ``season``."""


def read_toml(path: Path, book: FaultBook) -> tuple[dict[str, Any] | None, Lines]:
    """Return the file's tables and its line index; None when it cannot be read."""
    text = read_text(path, book, MOST_BYTES)
    if text is None:
        return None, {}
    try:
        tables, lines = tomllib.loads(text, parse_float=Decimal), line_index(text)
    except tomllib.TOMLDecodeError as error:
        book.add(_broken(path.name, text, str(error)))
    except (RecursionError, ValueError) as error:
        book.add(
            Fault(
                path.name,
                "",
                "",
                f"{error}"[:80],
                phrase("TOML"),
                phrase("Start from a fresh file."),
            )
        )
    else:
        return (tables, lines) if _numbers_fit(path.name, tables, lines, book) else (None, {})
    return None, {}


def _numbers_fit(file: str, tables: object, lines: Lines, book: FaultBook) -> bool:
    """Tell whether every whole number is of sane length; the others are written down."""
    long = [path for path, held in _held("", tables)
            if isinstance(held, int) and held.bit_length() > MOST_BITS]  # fmt: skip
    for path in long:
        key = path.rpartition(".")[2]
        where = phrase("line {line}", line=lines[path]) if path in lines else ""
        allowed = phrase("a number of at most {number} digits", number=_MOST_DIGITS)
        said = phrase("a number of more than {number} digits", number=_MOST_DIGITS)
        book.add(Fault(file, where, key, said, allowed, phrase("Check the number.")))
    return not long


def _held(path: str, value: object) -> Iterator[tuple[str, object]]:
    """Yield every single value with its path; entries of a plain list have the list's path."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _held(f"{path}.{key}" if path else key, inner)
    elif isinstance(value, list):
        for number, inner in enumerate(value):
            yield from _held(f"{path}.{number}" if isinstance(inner, dict) else path, inner)
    else:
        yield path, value


def _broken(file: str, text: str, error: str) -> Fault:
    """Return the fault of a file that is no TOML: which line, as typed, and the cure."""
    cure = phrase('Text, dates with hours, and quantities need quotes: empty = "2.1 t".')
    spot = _SPOT.search(error)
    if spot is None:
        return Fault(file, "", "", error, phrase("TOML"), cure)
    said = said_text(text.split("\n")[int(spot[1]) - 1].strip())
    where, reason = phrase("line {line}", line=spot[1]), error[: spot.start()].rstrip()
    if meant := _point_for_comma(said):
        return Fault(file, where, "", said, phrase("a point in a number, no comma"), meant)
    return Fault(file, where, "", said, phrase("TOML ({reason})", reason=reason), cure)


def _point_for_comma(line: str) -> Phrase | None:
    """Return how to write the first number with a comma outside quotes and lists; else None."""
    found = _COMMA.search(_NO_NUMBERS.sub(" ", line))
    if found is None:
        return None
    figure, unit = found.groups()
    return no_commas(f"{figure} {unit}", show=repr) if unit else no_commas(figure)


def read_bytes(path: Path, book: FaultBook, most: int) -> bytes | None:
    """Return what is in a file of at most so many bytes, or None once its fault is written down."""
    try:
        raw = path.read_bytes() if path.stat().st_size <= most else None
    except OSError as error:
        reason = system_said(error)
        book.add(
            Fault(
                path.name,
                "",
                "",
                reason,
                phrase("a readable file"),
                phrase("Check the file's name."),
            )
        )
        return None
    if raw is None:
        book.add(
            Fault(
                path.name,
                "",
                "",
                phrase("too large"),
                phrase("at most {most} bytes", most=most),
                phrase("Shorten it."),
            )
        )
    return raw


def read_text(path: Path, book: FaultBook, most_bytes: int) -> str | None:
    """Return the text of a UTF-8 file, or None once its fault is written down."""
    raw = read_bytes(path, book, most_bytes)
    return None if raw is None else decoded(raw, path.name, book)


def decoded(raw: bytes, file: str, book: FaultBook) -> str | None:
    """Return UTF-8 bytes as text (a byte order mark is dropped), or None with a fault."""
    cure = phrase("Save it again as UTF-8 (in a spreadsheet: 'CSV UTF-8').")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        said = phrase("byte 0x{raw}", raw=Number(f"{raw[error.start]:02x}"))
        book.add(
            Fault(file, phrase("line {line}", line=line), "", said, phrase("text in UTF-8"), cure)
        )
        return None
    if "\x00" in text:
        book.add(Fault(file, "", "", phrase("zero bytes"), phrase("text in UTF-8"), cure))
        return None
    if not text.strip():
        book.add(
            Fault(
                file,
                "",
                "",
                phrase("an empty file"),
                phrase("some text"),
                phrase("Fill it in, or delete it."),
            )
        )
        return None
    return text


def line_index(text: str) -> Lines:
    """Return where tables and keys stand.  Good enough for messages: it reads lines, not TOML."""
    lines: Lines = {}
    counts: dict[str, int] = {}
    table, inside = "", ""
    for number, line in enumerate(text.splitlines(), start=1):
        if not inside:
            if match := _TABLE.match(line):
                table = _table_path(match[2], double=bool(match[1]), counts=counts)
                lines.setdefault(table, number)
            elif match := _KEY.match(line):
                key = match[1].strip("\"'")
                lines.setdefault(f"{table}.{key}" if table else key, number)
        for mark in _QUOTES.findall(line):
            inside = "" if inside == mark else inside or mark
    return lines


def _table_path(header: str, *, double: bool, counts: dict[str, int]) -> str:
    """Return the path of a header; arrays of tables carry the number of their entry."""
    name = ".".join(part.strip().strip("\"'") for part in header.split("."))
    if double:
        counts[name] = counts.get(name, -1) + 1
        return f"{name}.{counts[name]}"
    head, _, rest = name.partition(".")
    return f"{head}.{counts[head]}.{rest}" if rest and head in counts else name
