"""The fields of one TOML table or one table row, read by name with faults and defaults.

Every field is read by asking for it.  What was never asked for is an unknown key.
"""

from collections.abc import Callable, Collection, Mapping, Sequence
from typing import Final, TypeVar

from runplanner.errors import Fault
from runplanner.outfit.outfit import Assumed
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.cells.tables import Row
from runplanner.scenario.cells.toml_file import Lines
from runplanner.scenario.cells.toml_slips import unread_in
from runplanner.scenario.defaults import DEFAULTS
from runplanner.scenario.faults import FaultBook, Moot, Refusal, did_you_mean, said_text
from runplanner.scenario.values.quantities import Measure

T = TypeVar("T")
Where = Callable[[str], str]
FILL_IN: Final = phrase("Fill it in; it has no default.")


class Desk:
    """What all readers of one scenario share: faults, defaults used, values in doubt.

    ``unread`` are the tables, by name, of which nothing could be read.
    """

    def __init__(self) -> None:
        self.book = FaultBook()
        self.doubts: list[Phrase] = []
        self.unread: list[str] = []
        self._used: dict[tuple[str, str, Phrase], int] = {}

    def assume(self, field: str, value: str, source: Phrase) -> None:
        """Note that a default was used; the same one again only counts up."""
        key = (field, value, source)
        self._used[key] = self._used.get(key, 0) + 1

    def doubt(self, words: Phrase) -> None:
        """Note a value that could have been meant otherwise, once."""
        if words not in self.doubts:
            self.doubts.append(words)

    def assumed(self) -> tuple[Assumed, ...]:
        """Return the defaults used, in the order they were met, with how often."""
        return tuple(
            Assumed(_in_words(field, 1), _in_words(value, times), source)
            for (field, value, source), times in self._used.items()
        )


def _as_typed(said: object) -> str:
    return said if isinstance(said, str) else str(said)


def _in_words(value: str, times: int) -> Phrase:
    """Return a default as it is shown: as it would be typed, or in words, and how often."""
    if times > 1:
        return phrase("{value} ({number} times)", value=value, number=times)
    return value if isinstance(value, Phrase) else Phrase(value)


class Fields:
    """One table's keys.

    Args:
        desk: Fault book and defaults.
        file: File name for messages.
        raw: Keys and what was typed.
        kind: First part of the names in the table of defaults, such as "trucks".
        where: Gives the place of a key for messages.
        behind: Where to look next for a key that is not here (the [yards] table for a row).

    ``clean`` turns false with the first fault; ``right`` tells of single keys.  Keys in
    ``muted`` may be missing without a fault of their own, because that was said already.
    """

    def __init__(
        self, desk: Desk, file: str, raw: Mapping[str, object], kind: str, where: Where,
        behind: "Fields | None" = None,
    ) -> None:  # fmt: skip
        self.desk = desk
        self.file = file
        self.raw = raw
        self.kind = kind
        self.where = where
        self.behind = behind
        self.clean = True
        self.muted: frozenset[str] = frozenset()
        self._asked: list[str] = []
        self._wrong: set[str] = set()

    def said(self, key: str) -> object:
        """Return what was typed for ``key`` here or behind, or None."""
        return self.find(key)[0]

    def has(self, key: str) -> bool:
        """Tell whether anything was typed for ``key``."""
        return self.said(key) is not None

    def mute(self, missing: Collection[str], row: Row) -> None:
        """Ask nothing of columns that are ``missing``, nor of cells of ``row`` that are told."""
        self.muted = row.told.union(missing)
        self.clean = not row.told

    def right(self, *keys: str) -> bool:
        """Tell whether none of ``keys`` is at fault: then their values may be compared."""
        return self._wrong.isdisjoint(keys) and self.muted.isdisjoint(keys)

    def fault(self, key: str, allowed: Phrase, cure: Phrase, said: object = None) -> None:
        """Write down what is wrong with ``key``; of what is no TOML that may be told already."""
        value, owner = self.find(key)
        self.clean = owner.clean = False
        self._wrong.add(key)
        for unread in unread_in(said):
            if not unread.plain:
                return
            self.desk.book.drop(unread.fault)
        shown = said_text(
            said if said is not None else phrase("nothing") if value is None else value
        )
        self.desk.book.add(Fault(owner.file, owner.where(key), key, shown, allowed, cure))

    def spoil(self, key: str) -> None:
        """Take ``key`` for wrong where that is told of something else."""
        self.clean = False
        self._wrong.add(key)

    def doubt(self, key: str, words: Phrase) -> None:
        """Note how ``key`` was read where it could have been meant otherwise."""
        _, owner = self.find(key)
        spot = joined(", ", *(one for one in (owner.file, owner.where(key), key) if one))
        self.desk.doubt(joined(": ", spot, words))

    def read(
        self, key: str, parse: Callable[[object], T], stand_in: T, cure: Phrase = FILL_IN
    ) -> T:
        """Return the value of ``key``: typed, or its default, or a fault and ``stand_in``.

        ``cure`` is said where nothing was typed and there is no default.
        """
        said = self.said(key)
        if said is None:
            return self.fallback(key, parse, stand_in, cure)
        return self._parsed(key, said, parse, stand_in)

    def optional(self, key: str, parse: Callable[[object], T]) -> T | None:
        """Return the value of ``key``, or None when nothing was typed (noted if documented)."""
        said = self.said(key)
        if said is not None:
            return self._parsed(key, said, parse, None)
        default = DEFAULTS.get(f"{self.kind}.{key}")
        if default is not None:
            self.desk.assume(f"{self.kind}.{key}", _as_typed(default.said), default.source.words())
        return None

    def derived(
        self, key: str, parse: Callable[[object], T], value: T, shown: tuple[str, Phrase]
    ) -> T:
        """Return the value of ``key``, or ``value``, worked out from others.

        ``shown`` is that value in words, and where it comes from.
        """
        said = self.said(key)
        if said is not None:
            return self._parsed(key, said, parse, value)
        self.desk.assume(f"{self.kind}.{key}", *shown)
        return value

    def items(self, key: str, parse: Callable[[object], T]) -> tuple[T, ...]:
        """Return every entry of a list (or the one value) under ``key``; () when missing."""
        said = self.said(key)
        if said is None:
            return ()
        entries = said if isinstance(said, list) else [said]
        found = (self._parsed(key, entry, parse, None) for entry in entries)
        return tuple(value for value in found if value is not None)

    def table(self, key: str) -> Mapping[str, object] | None:
        """Return the table under ``key``, or None; a fault when it is something else.

        Of several tables the first is read all the same.
        """
        said = self.said(key)
        if said is not None and not isinstance(said, Mapping):
            self.fault(
                key,
                phrase("a table of keys"),
                phrase("Write [{key}] on a line of its own.", key=key),
                said=said,
            )
            entries = said if isinstance(said, list) else []
            return next((entry for entry in entries if isinstance(entry, Mapping)), None)
        return said

    def tables(self, key: str) -> Sequence[Mapping[str, object]]:
        """Return the array of tables under ``key``; empty when missing or a fault.

        A single table is a fault and read all the same.
        """
        said = self.said(key)
        if said is None:
            return ()
        if not isinstance(said, list) or not all(isinstance(entry, Mapping) for entry in said):
            self.fault(
                key,
                phrase("one or more tables"),
                phrase("Write [[{key}]] before each one.", key=key),
                said=said,
            )
            return (said,) if isinstance(said, Mapping) else ()
        return said

    def alone(self) -> "Fields":
        """Return the same keys without what stands behind them."""
        return Fields(self.desk, self.file, self.raw, self.kind, self.where)

    def done(self) -> None:
        """Write a fault for every key that nobody asked for."""
        known = sorted(dict.fromkeys(self._asked))
        for key in self.raw:
            if key not in known and all(one.plain for one in unread_in(self.raw[key])):
                self.fault(key, phrase("a known key"), did_you_mean(key, known), said=key)

    def find(self, key: str) -> "tuple[object, Fields]":
        """Return what was typed for ``key``, or None, and the table it stands in."""
        self._asked.append(key)
        said = self.raw.get(key)
        blank = said is None or (isinstance(said, str) and not said.strip())
        if not blank:
            return said, self
        if self.behind is not None:
            further, owner = self.behind.find(key)
            if further is not None:
                return further, owner
        return None, self

    def fallback(
        self, key: str, parse: Callable[[object], T], stand_in: T, cure: Phrase = FILL_IN
    ) -> T:
        """Return the default of ``key``, noted as used; without one, a fault and ``stand_in``."""
        default = DEFAULTS.get(f"{self.kind}.{key}")
        if default is None and self.behind is not None and self.behind.kind != self.kind:
            return self.behind.fallback(key, parse, stand_in, cure)
        if default is None and key in self.muted:
            self.spoil(key)
            return stand_in
        if default is None:
            self.fault(key, _allowed(parse), cure)
            return stand_in
        self.desk.assume(f"{self.kind}.{key}", _as_typed(default.said), default.source.words())
        return parse(default.said)

    def _parsed(self, key: str, said: object, parse: Callable[[object], T], stand_in: T) -> T:
        try:
            value = parse(said)
        except Moot:
            self.spoil(key)
            return stand_in
        except Refusal as refusal:
            self.fault(key, refusal.allowed, refusal.cure, said=said)
            return stand_in
        doubt = parse.doubt(said) if isinstance(parse, Measure) else None
        if doubt is not None:
            self.doubt(key, doubt)
        return value


def _allowed(parse: Callable[[object], object]) -> Phrase:
    """Return what a reader allows, in its own words, by handing it nothing."""
    allowed = phrase("a value")
    try:
        parse("")
    except Refusal as refusal:
        allowed = refusal.allowed
    return allowed


def toml_where(lines: Lines, path: str, title: str = "") -> Where:
    """Return a place-giver for the table at ``path``, with line numbers where known."""

    def where(key: str) -> str:
        full = f"{path}.{key}" if path else key
        line = lines.get(full) or lines.get(f"{full}.0") or lines.get(path)
        named = title or path
        if not line:
            return named
        spot = phrase("line {line}", line=line)
        return joined(", ", spot, named) if named else spot

    return where


def at_row(row: Row) -> Where:
    """Return a place-giver for one row of a table."""
    return lambda _: phrase("row {number}", number=row.number)
