"""Faults gathered while a scenario is read, so that a user sees all of them at once."""

import json
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from difflib import get_close_matches

from runplanner.errors import Fault, ScenarioError, left_out, number_of, together
from runplanner.phrase import Phrase, phrase

OUTFIT_FILE = "outfit.toml"
MOST_FAULTS = 200
"""More than this many are not listed: the file is then of the wrong kind altogether."""
_ROW = re.compile(r"\b(?:row|line|change) (\d+)")


class Refusal(Exception):  # noqa: N818 - met inside the gate only, never by a user
    """A value that cannot be used: what is allowed there, and the cure.

    Raised by the small readers of single values; the caller knows the file and the field.
    """

    def __init__(self, allowed: Phrase, cure: Phrase) -> None:
        self.allowed = allowed
        self.cure = cure
        super().__init__(str(allowed), str(cure))


class Moot(Refusal):
    """A name that nobody can judge, as those it may be one of are at fault: nothing is told."""

    def __init__(self) -> None:
        super().__init__(Phrase(""), Phrase(""))


def takes(parse: Callable[[object], object]) -> Callable[[str], bool]:
    """Return what tells whether ``parse`` takes a text."""

    def taken(text: str) -> bool:
        try:
            parse(text)
        except Refusal:
            return False
        return True

    return taken


class FaultBook:
    """Every fault found so far; told by file and by row or line."""

    def __init__(self) -> None:
        self._faults: list[Fault] = []

    def __len__(self) -> int:
        return len(self._faults)

    def add(self, fault: Fault) -> None:
        """Write one fault down, once."""
        if fault not in self._faults:
            self._faults.append(fault)

    def drop(self, fault: Fault) -> None:
        """Strike out a fault that another says better."""
        if fault in self._faults:
            self._faults.remove(fault)

    def close(self) -> None:
        """Refuse the scenario when anything was written down.

        Raises:
            ScenarioError: With every fault.
        """
        if self._faults:
            raise ScenarioError(tuple(_listed(together(in_order(self._faults)))))


def in_order(faults: Sequence[Fault]) -> list[Fault]:
    """Return faults by file and by row, line or change, as a person goes through them.

    The outfit's own file comes first, the others as they were read; what names no row comes
    before the rows, faults of one row stay in the order of reading, and how many more there are
    comes after those that are told.
    """
    files = list(dict.fromkeys([OUTFIT_FILE, *(fault.file for fault in faults)]))

    def place(fault: Fault) -> tuple[int, bool, int]:
        return files.index(fault.file), fault.more > 0, _row(fault)

    return sorted(faults, key=place)


def _row(fault: Fault) -> int:
    found = _ROW.search(fault.where)
    return int(found[1]) if found else 0


def _listed(faults: list[Fault]) -> list[Fault]:
    if len(faults) <= MOST_FAULTS:
        return faults
    told, rest = faults[:MOST_FAULTS], faults[MOST_FAULTS:]
    cure = phrase("Cure the ones above first; the rest may be of the same kind.")
    return [*told, left_out(rest[0].file, number_of(rest), cure)]


def said_text(value: object) -> str:
    """Return what stood in a field, short and on one line, for a fault; a phrase as it is."""
    if isinstance(value, Phrase):
        return value
    text = value if isinstance(value, str) else _as_toml(value)
    plain = "".join(c if c.isprintable() else f"\\x{ord(c):02x}" for c in text[:200])
    return plain if len(text) <= 200 else f"{plain}... ({len(text)} characters)"


def _as_toml(value: object) -> str:
    """Return a value as one would type it into outfit.toml."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, list):
        return f"[{', '.join(map(_as_toml, value))}]"
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{key} = {_as_toml(one)}' for key, one in value.items())} }}"
    return str(value)


def nearest(said: str, known: Iterable[str]) -> str:
    """Return the known word that is nearest to what was said, "" where none is near."""
    near = get_close_matches(said.casefold()[:80], list(dict.fromkeys(known)), n=1, cutoff=0.6)
    return near[0] if near else ""


def did_you_mean(said: str, known: Iterable[str], listed: Sequence[str] = ()) -> Phrase:
    """Return a sentence naming the nearest known word, or listing all, or those ``listed``.

    A known word that is listed in other letters is named as listed.
    """
    words = list(dict.fromkeys(known))
    if near := nearest(said, words):
        shown = next((word for word in listed if word.casefold() == near), near)
        return phrase("Did you mean {word}?", word=repr(shown))
    if words:
        return phrase("Known here: {words}.", words=", ".join(listed or words))
    return phrase("Nothing is expected here.")
