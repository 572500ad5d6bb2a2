"""A TOML file with the line on which each key stands."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

from runplanner.errors import Fault, system_said
from runplanner.phrase import Number, Phrase, phrase
from runplanner.scenario.cells.toml_slips import KEY, QUOTES, SEVERAL, read_on
from runplanner.scenario.faults import FaultBook

MOST_BYTES: Final = 2_000_000
MOST_BITS: Final = 1000
"""Whole numbers beyond this, some 300 digits, are refused here: later they could not be printed."""
_MOST_DIGITS: Final = 300
_TABLE: Final = re.compile(r"\s*\[\[?\s*([A-Za-z_\"'][^\[\]#]*?)\s*(?:\]|#|$)")

Lines = dict[str, int]
"""Line number by path, such as ``trucks.0.empty`` or ``season``."""


def read_toml(path: Path, book: FaultBook) -> tuple[dict[str, Any] | None, Lines]:
    """Return the file's tables and its line index; None when it cannot be read.

    What is no TOML in it is written down, and stands there as ``Unread`` where it has a key.
    """
    text = read_text(path, book, MOST_BYTES)
    if text is None:
        return None, {}
    tables, lines = read_on(path.name, text, book), line_index(text)
    if tables is None or not _numbers_fit(path.name, tables, lines, book):
        return None, {}
    return tables, lines


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
    starter = phrase("Fill it in, or write a starter with `runplanner new`.")
    return None if raw is None else decoded(raw, path.name, book, starter)


def decoded(raw: bytes, file: str, book: FaultBook, fill: Phrase) -> str | None:
    """Return UTF-8 bytes as text (a byte order mark is dropped), or None with a fault.

    ``fill`` is the cure of an empty file.
    """
    cure = phrase(
        "Save it again as UTF-8 (in a spreadsheet: 'CSV UTF-8', or the character set 'Unicode "
        "(UTF-8)')."
    )
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
                fill,
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
                table = _table_path(match[1], counts)
                lines.setdefault(table, number)
            elif match := KEY.match(line):
                key = match[1].strip("\"'")
                lines.setdefault(f"{table}.{key}" if table else key, number)
        for mark in QUOTES.findall(line):
            inside = "" if inside == mark else inside or mark
    return lines


def _table_path(header: str, counts: dict[str, int]) -> str:
    """Return the path of a header, whatever its brackets; of several with the entry's number."""
    name = ".".join(part.strip().strip("\"'") for part in header.split("."))
    if name in SEVERAL:
        counts[name] = counts.get(name, -1) + 1
        return f"{name}.{counts[name]}"
    head, _, rest = name.partition(".")
    return f"{head}.{counts[head]}.{rest}" if rest and head in counts else name
