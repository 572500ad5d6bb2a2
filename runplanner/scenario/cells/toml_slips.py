"""Lines that are no TOML: each is told, and all the others are read all the same.

A value without its quotes is read as what it would be with them, so that whoever reads the
key can say what should stand there; the file is refused in any case.
"""

import re
import tomllib
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any, Final, Self

from runplanner.errors import Fault, no_commas
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.faults import FaultBook, said_text

MOST_SLIPS: Final = 30
"""After so many the file is of another kind."""
MOST_SIGNS: Final = 1000
"""Of a longer line only the beginning is looked at."""
KEY: Final = re.compile(r"\s*(\"[^\"]*\"|'[^']*'|[A-Za-z0-9_\-.]+)\s*=")
_PAIR: Final = re.compile(
    r"\s*(?P<key>\"[^\"]*\"|'[^']*'|[A-Za-z0-9_\-.]+)\s*(?P<sign>[=:\s])\s*(?P<value>.*?)\s*"
    r"(?:\s#.*)?"
)
"""A key and its value, be it without its sign."""
_HEADER: Final = re.compile(
    r"\s*(\[\[?)\s*([A-Za-z_][A-Za-z0-9_\-.]*)\s*(?:\]{1,2}(?!\s*,).*)?(?:\s*#.*)?"
)
_SPOT: Final = re.compile(r"\(at (?:line ([0-9]+), column [0-9]+|end of document)\)$")
_OPENED: Final = re.compile(r"Expected \"('+)\"|Unterminated string")
_NO_NUMBERS: Final = re.compile(r"\"[^\"]*\"|'[^']*'|\[[^\[\]]*\]|#.*")
_COMMA: Final = re.compile(r"(?<![\w.,])([+-]?[0-9]+,[0-9]+)(?![\w.]|,[0-9])\s*([^\W\d_]\S*)?")
QUOTES: Final = re.compile(r'"""|\'\'\'')
_MARK: Final = "\ue000"
SEVERAL: Final = (
    "areas", "boxes", "containers", "forecasts", "moves", "people", "strips_also", "trailers",
    "trucks",
)  # fmt: skip
"""Tables of which there may be several, each below its name in double brackets."""
_QUOTE_MARKS: Final = "\"'\u201c\u201d\u201e\u2018\u2019\u201a\u00ab\u00bb"
"""Straight, and the round and pointed ones that phones and word processors put in their place."""


class Unread(str):
    """What stands after a key and is no TOML, as text; its fault is told.

    ``plain``: it lacks its quotes and no more, so that what its reader says of it counts instead.
    """

    __slots__ = ("fault", "plain")

    def __new__(cls, text: str, fault: Fault, *, plain: bool) -> Self:
        """Return the text, with its fault."""
        made = super().__new__(cls, text)
        made.fault, made.plain = fault, plain
        return made

    fault: Fault
    plain: bool


def unread_in(said: object) -> list[Unread]:
    """Return what of a value is no TOML: the value itself, or entries of its list."""
    return [one for one in (said if isinstance(said, list) else [said]) if isinstance(one, Unread)]


def read_on(file: str, text: str, book: FaultBook) -> dict[str, Any] | None:
    """Return the tables of a TOML text, ``Unread`` where it is none; each slip is written down.

    None where what is left is no TOML either.
    """
    lines, unread = text.split("\n"), dict[str, object]()
    told: list[int] = []
    while True:
        try:
            tables = _loads(lines)
        except tomllib.TOMLDecodeError as error:
            if not _set_aside(file, lines, str(error), told, unread, book):
                return None
        except (RecursionError, ValueError) as error:
            cure = phrase("Start from a fresh file.")
            book.add(Fault(file, "", "", f"{error}"[:80], phrase("TOML"), cure))
            return None
        else:
            return _gathered({key: _filled(value, unread) for key, value in tables.items()})


def _loads(lines: Sequence[str]) -> dict[str, Any]:
    return tomllib.loads("\n".join([*lines, ""]), parse_float=Decimal)


def _filled(value: object, unread: Mapping[str, object]) -> object:
    """Return what was read with what was set aside in its places."""
    if isinstance(value, dict):
        return {key: _filled(inner, unread) for key, inner in value.items()}
    if isinstance(value, list):
        return [_filled(inner, unread) for inner in value]
    return unread.get(value, value) if isinstance(value, str) else value


def _gathered(tables: dict[str, Any]) -> dict[str, Any]:
    """Return the tables; what stands below a header once more goes to the first, as far as new.

    Below one of single tables that are several it is one more of them; else it is left out.
    """
    for mark in [key for key in tables if key.startswith(_MARK)]:
        more, name = tables.pop(mark), mark.partition(" ")[2]
        held = tables.get(name)
        if isinstance(held, dict):
            tables[name] = {**more, **held}
        elif isinstance(held, list) and all(isinstance(one, dict) for one in held):
            held.append(more)
    return tables


def _set_aside(
    file: str,
    lines: list[str],
    error: str,
    told: list[int],
    unread: dict[str, object],
    book: FaultBook,
) -> bool:
    """Tell a slip and mend its line, in ``lines``, so that others are read; false if it cannot be.

    One that is told already and still in the way is left out.
    """
    spot = _SPOT.search(error)
    if spot is None:
        book.add(Fault(file, "", "", error, phrase("TOML"), _CURE))
        return False
    at, reason = (
        int(spot[1]) - 1 if spot[1] else _last(lines, error),
        error[: spot.start()].rstrip(),
    )
    start = _start(lines, at)
    if _stands_twice(reason):
        start = at = _alone(lines, start)
    header, pair = _header(lines[start]), _pair(lines[start])
    if start in told:
        lines[start] = ""
        return header is None
    told.append(start)
    shown = start if _begins(lines[at]) else at
    fault = _broken(file, shown, lines[shown], reason, inside=shown != start)
    book.add(fault)
    if any(map(QUOTES.search, lines)) or len(told) == MOST_SLIPS:
        return False
    _leave_out_rest(lines, start)
    if header is not None:
        again = _stands_twice(reason) and not _lacks_brackets(header)
        lines[start] = _apart(header, start) if again else _closed(header)
    elif lines[start].lstrip().startswith("["):
        return False  # keys below a header that nobody can read would fall to the table above
    elif pair is None:
        lines[start] = ""
    else:
        mark = f"{_MARK}{start}"
        lines[start] = f'{pair["key"]} = "{mark}"'
        unread[mark] = _as_text(pair, fault)
    return True


def _header(line: str) -> re.Match[str] | None:
    return _HEADER.fullmatch(line[:MOST_SIGNS])


def _pair(line: str) -> re.Match[str] | None:
    return _PAIR.fullmatch(line[:MOST_SIGNS])


def _alone(lines: Sequence[str], start: int) -> int:
    """Return the first line of the header on line ``start`` as if there could be one alone.

    ``start`` itself where it is none, or each is written as one of several.
    """
    name = header[2] if (header := _header(lines[start])) else ""
    found = ((number, _header(line)) for number, line in enumerate(lines))
    alone = (number for number, one in found if one and one[2] == name and _lacks_brackets(one))
    return next(alone, start)


def _lacks_brackets(header: re.Match[str]) -> bool:
    """Tell whether a header is written as of one table where there may be several."""
    return header[1] == "[" and header[2] in SEVERAL


def _closed(header: re.Match[str]) -> str:
    return f"[[{header[2]}]]" if header[2] in SEVERAL else f"[{header[2]}]"


def _apart(header: re.Match[str], start: int) -> str:
    """Return a header for a table of its own that tells which it is of (see ``_gathered``)."""
    return f'["{_MARK}{start} {header[2]}"]'


def _last(lines: Sequence[str], error: str) -> int:
    """Return a line of the statement that the end of the text leaves open.

    Where a quote is not closed none like it comes after; else it is the last line there is.
    """
    opened = _OPENED.match(error)
    quote = (opened[1] or '"""') if opened else ""
    return max(number for number, line in enumerate(lines) if line.strip() and quote in line)


def _as_text(pair: re.Match[str], fault: Fault) -> object:
    """Return a value that is no TOML as the text, or the list of texts, that it looks like."""
    value = pair["value"]
    if value.startswith("["):
        parts = [part.strip(f" \t[]{_QUOTE_MARKS}") for part in value.split(",")]
        return [Unread(part, fault, plain=False) for part in parts]
    text = re.sub(r"^([\"'])(.*?)\1.*", r"\2", value).strip(_QUOTE_MARKS)
    return Unread(text or "?", fault, plain=_is_plain(pair))


def _is_plain(pair: re.Match[str]) -> bool:
    """Tell whether a key's value lacks its quotes and no more."""
    return pair["sign"] == "=" and re.search(r"^$|[\[{\"']", pair["value"]) is None


def _meant(pair: re.Match[str]) -> str | None:
    """Return a key and its value as they may have been meant; None where nobody can tell."""
    value = pair["value"]
    if not value or (pair["sign"].isspace() and not _reads(value)):
        return None
    if re.fullmatch(r"\[[^\[\]{}]*\]", value):
        parts = (part.strip() for part in value[1:-1].split(","))
        meant = f"[{', '.join(_as_value(part) for part in parts if part)}]"
    else:
        meant = _as_value(value)
    sound = _reads(meant) and not meant.startswith(('"[', '"{'))
    return f"{pair['key']} = {meant}" if sound else None


def _as_value(text: str) -> str:
    """Return a text that is a value as it is, any other in quotes."""
    return text if _reads(text) else f'"{text.strip(_QUOTE_MARKS)}"'


def _reads(value: str) -> bool:
    """Tell whether a value is TOML."""
    try:
        _loads([f"x = {value}"])
    except (RecursionError, ValueError):
        return False
    return True


def _start(lines: Sequence[str], at: int) -> int:
    """Return the line on which the statement begins that ends in an error on line ``at``."""
    before = [number for number in range(at) if _begins(lines[number])]
    for start in (at, *before[: -MOST_SLIPS - 1 : -1]):
        try:
            _loads(lines[:start])
        except (RecursionError, ValueError):
            continue
        return start
    return at


def _begins(line: str) -> bool:
    """Tell whether a line begins a statement."""
    return (KEY.match(line) or _header(line)) is not None


def _leave_out_rest(lines: list[str], start: int) -> None:
    """Leave out the lines after ``start`` in which its list goes on."""
    opened = len(re.findall(r"[\[{]", lines[start])) > len(re.findall(r"[\]}]", lines[start]))
    number = start + 1
    while opened and number < len(lines) and not _begins(lines[number]):
        lines[number] = ""
        number += 1


_CURE: Final = phrase('Text, dates with hours, and quantities need quotes: empty = "2.1 t".')
_NO_PAIR: Final = phrase('A line is a key, = and a value: max = "3.5 t". Remarks begin with #.')


def _broken(file: str, number: int, line: str, reason: str, *, inside: bool) -> Fault:
    """Return the fault of a line that is no TOML, as typed, and the cure.

    ``inside``: it goes on with a list that began before.
    """
    said, where = said_text(line.strip()), phrase("line {line}", line=number + 1)
    if meant := _point_for_comma(said):
        return Fault(file, where, "", said, phrase("a point in a number, no comma"), meant)
    header, pair = _header(line), None if inside else _pair(line)
    if _stands_twice(reason) and not (header and _lacks_brackets(header)):
        cure = phrase("It stands there already: keep one of the two.")
    elif header is not None:
        cure = phrase("Write {line}.", line=_closed(header))
    elif pair is not None and (whole := _meant(pair)):
        cure = (
            phrase("Text, dates with hours, and quantities need quotes: {line}.", line=whole)
            if pair["sign"] == "="
            else phrase("Write {line}.", line=whole)
        )
    elif inside or said.startswith("[") or (pair and pair["sign"] == "="):
        cure = _CURE
    else:
        cure = _NO_PAIR
    return Fault(file, where, "", said, phrase("TOML ({reason})", reason=reason), cure)


def _stands_twice(reason: str) -> bool:
    """Tell whether a key or a header stands twice, by the words of Python's reader."""
    return "overwrite" in reason or "twice" in reason


def _point_for_comma(line: str) -> Phrase | None:
    """Return how to write the first number with a comma outside quotes and lists; else None."""
    found = _COMMA.search(_NO_NUMBERS.sub(" ", line))
    if found is None:
        return None
    figure, unit = found.groups()
    return no_commas(f"{figure} {unit}", show=repr) if unit else no_commas(figure)
