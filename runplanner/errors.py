"""What can go wrong, as values a caller can tell apart.

A *fault* is something wrong in a file a person typed; a scenario is refused with all of
its faults at once.  A *finding* (see the audit) is a rule a plan breaks; that is a value,
not an exception.
"""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final

from runplanner.phrase import Part, Phrase, counted, joined, phrase, verbatim

_WITH_COMMA: Final = re.compile(r"[0-9.,]*,[0-9][0-9.,]*")
_THOUSANDS: Final = re.compile(r"[1-9][0-9]{0,2}(?:,[0-9]{3})+(?:\.[0-9]+)?")
_DECIMAL: Final = re.compile(r"([0-9]{1,3}(?:\.[0-9]{3})+|[0-9]*),([0-9]+)")

MANY_ROWS: Final = 5
"""A slip in so many rows of one column is told once."""
_MOST_PARTS: Final = 8
_ROW: Final = re.compile(r"\brow (\d+)")


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing wrong in one field of one file.

    Args:
        file: File name as the user knows it.
        where: Row ("row 7, Mill Lane") or table ("trucks.blue"); may be empty.
        field: Column or key.
        said: What stood there, as typed.
        allowed: What may stand there.
        cure: What to do about it.
        more: How many faults it only counts; 0 for one that is told.
    """

    file: str
    where: str
    field: str
    said: str
    allowed: Phrase
    cure: Phrase
    more: int = 0

    def sentence(self) -> Phrase:
        """Return the fault as one line for a person."""
        return phrase(
            "{spot}: said {typed}; allowed: {allowed}. {cure}",
            spot=joined(", ", *(part for part in (self.file, self.where, self.field) if part)),
            typed=_quoted(self.said),
            allowed=self.allowed,
            cure=self.cure,
        )


def left_out(file: str, more: int, cure: Phrase) -> Fault:
    """Return the fault that counts ``more`` faults of ``file`` that are not told."""
    said = counted("{number} more fault", "{number} more faults", more)
    return Fault(file, "", "", said, phrase("none"), cure, more)


def number_of(faults: Iterable[Fault]) -> int:
    """Return how many faults there are, with those only counted."""
    return sum(fault.more or 1 for fault in faults)


def no_commas(
    typed: str, fits: Callable[[str], bool] = bool, show: Callable[[str], str] = str
) -> Phrase | None:
    """Return the cure for figures typed with commas, None where there is no figure with one.

    Where ``1,000`` may be a thousand or one, both are named, as far as both are what ``fits``:
    where neither is, none.
    """
    ways = _without_commas(typed)
    if not ways:
        return None
    shown = [show(way) for way in ways if fits(way)]
    if not shown:
        return phrase("Write it without commas.")
    if len(shown) == 1:
        return phrase("No commas: write {replace} if that is meant.", replace=shown[0])
    return phrase(
        "No commas: write {thousands} if thousands are meant, or else {decimal}.",
        thousands=shown[0],
        decimal=shown[1],
    )


def _without_commas(typed: str) -> list[str]:
    """Return what a text with commas in its figures may mean: thousands first, then decimals."""
    if _WITH_COMMA.search(typed) is None:
        return []
    both = (
        _WITH_COMMA.sub(read, re.sub(r",(?![0-9])", "", typed)) for read in (_thousands, _decimal)
    )
    return [way for way in dict.fromkeys(both) if "," not in way]


def _thousands(found: re.Match[str]) -> str:
    """Return a figure of thousands without its commas; any other as a decimal."""
    grouped = _THOUSANDS.fullmatch(found[0])
    return found[0].replace(",", "") if grouped else _decimal(found)


def _decimal(found: re.Match[str]) -> str:
    """Return a figure with a decimal comma with a point; any other as it stands."""
    decimal = _DECIMAL.fullmatch(found[0])
    if decimal is None:
        return found[0]
    whole, part = decimal[1].replace(".", ""), decimal[2]
    # Of 1,200 the decimal is 1.2: 1.200 could be read as thousands again.
    return f"{whole}.{(part.rstrip('0') or '0') if len(part) == 3 else part}"


def together(faults: Sequence[Fault]) -> list[Fault]:
    """Return faults with a slip in many rows of one column told once, by the first row.

    Commas in figures are one slip, whatever the figures.
    """
    found: dict[object, list[Fault]] = {}
    for fault in faults:
        cure = fault.cure.one if no_commas(fault.said) else fault.cure
        where = "" if _row(fault) else fault.where
        found.setdefault((fault.file, where, fault.field, fault.allowed, cure), []).append(fault)
    many = [alike for alike in found.values() if len(set(map(_row, alike))) >= MANY_ROWS]
    first = {id(alike[0]): _for_all(alike) for alike in many}
    rest = {id(fault) for alike in many for fault in alike[1:]}
    return [first.get(id(fault), fault) for fault in faults if id(fault) not in rest]


def _for_all(alike: Sequence[Fault]) -> Fault:
    """Return the first fault, with the rows of the others in its cure."""
    rows = sorted(dict.fromkeys(map(_row, alike)))
    rows.remove(_row(alike[0]))
    starts = [row for row in rows if row - 1 not in rows]
    ends = [row for row in rows if row + 1 not in rows]
    parts = [f"{a}-{b}" if a < b else f"{a}" for a, b in zip(starts, ends, strict=True)]
    named = ", ".join(parts[:_MOST_PARTS])
    if parts[_MOST_PARTS:]:
        left = sum(row > ends[_MOST_PARTS - 1] for row in rows)
        named = phrase("{names} and {number} more", names=named, number=left)
    more = phrase("The same in {number} more rows: {rows}.", number=len(rows), rows=named)
    return replace(alike[0], cure=joined(" ", alike[0].cure, more))


def _row(fault: Fault) -> int:
    found = _ROW.search(fault.where)
    return int(found[1]) if found else 0


def _quoted(said: str) -> Part:
    if isinstance(said, Phrase):  # our own word for what stood there, such as "nothing"
        return joined("", "'", said, "'")
    short = said if len(said) <= 60 else said[:57] + "..."
    # What cannot be printed stands there spelt out already: one backslash is enough.
    return repr(short).replace("\\\\", "\\")


def system_said(error: OSError) -> Phrase:
    """Return why the system refused a file, in its own words, which are in its own language."""
    return verbatim(error.strerror) if error.strerror else phrase("cannot be read or written")


class RunplannerError(Exception):
    """Base of every error a user may see; its message is fit to be said, its text English."""

    def __init__(self, message: Phrase) -> None:
        self.message = message
        super().__init__(message)


class ScenarioError(RunplannerError):
    """A scenario or plan file cannot be used; carries every fault found.

    Args:
        faults: The faults.
        notes: What else was found, which may explain them.
    """

    def __init__(self, faults: tuple[Fault, ...], notes: tuple[Phrase, ...] = ()) -> None:
        self.faults = faults
        self.notes = notes
        super().__init__(self._head(number_of(faults)))

    def _head(self, number: int) -> Phrase:
        return counted(
            "{number} fault found; nothing was written.",
            "{number} faults found; nothing was written.",
            number,
        )

    def __str__(self) -> str:
        """Return every fault and every note in English, a line each."""
        faults = (f"  - {fault.sentence()}" for fault in self.faults)
        return "\n".join([self.message, *faults, *self.notes])

    def __reduce__(self) -> tuple[type["ScenarioError"], tuple[object, ...]]:
        """Say how to make it again, in another process as well."""
        return type(self), (self.faults, self.notes)


class PartlyError(ScenarioError):
    """Faults of some files of several; the others were written."""

    def _head(self, number: int) -> Phrase:
        return counted(
            "{number} fault found; all else was written.",
            "{number} faults found; all else was written.",
            number,
        )


class PlanError(RunplannerError):
    """No plan that passes the audit could be made; says why."""
