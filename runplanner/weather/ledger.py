"""The faults of one forecast file, and values read with a fault where they are none."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Final

from runplanner.errors import Fault, ScenarioError, left_out, no_commas, number_of, together
from runplanner.phrase import Phrase, phrase, verbatim
from runplanner.weather.amounts import Amount

MOST_FAULTS: Final = 20
"""More are only counted: the file is then of another kind."""
_MOST_KEPT: Final = 2_000
Table = Mapping[str, object]


class Ledger:
    """Every fault found in ``file`` so far."""

    def __init__(self, file: str) -> None:
        self.file = file
        self._faults: list[Fault] = []
        self._more = 0

    def __bool__(self) -> bool:
        """Tell whether there is any."""
        return bool(self._faults)

    def add(self, where: str, field: str, said: object, allowed: Phrase, cure: Phrase) -> None:
        """Write one down."""
        if len(self._faults) >= _MOST_KEPT:
            self._more += 1
            return
        self._faults.append(Fault(self.file, where, field, plain(said), allowed, cure))

    def faults(self) -> tuple[Fault, ...]:
        """Return them all, the last one counting those left out."""
        told = together(self._faults)
        more = self._more + number_of(told[MOST_FAULTS:])
        if not more:
            return tuple(told)
        cure = phrase("Cure the ones above first.")
        return (*told[:MOST_FAULTS], left_out(self.file, more, cure))

    def close(self) -> None:
        """Refuse the file when there is any.

        Raises:
            ScenarioError: With every fault.
        """
        if self._faults:
            raise ScenarioError(self.faults())

    def table(self, owner: Table, key: str, where: str = "") -> Table:
        """Return the object under ``key``; an empty one, with a fault, where nothing is in it."""
        found = owner.get(key)
        if isinstance(found, Mapping) and found:
            return found
        said = phrase("an empty object") if found == {} else _kind(found)
        self.add(where, key, said, phrase("an object"), phrase("Save the answer again, whole."))
        return {}

    def rows(self, owner: Table, key: str, where: str = "") -> list[object]:
        """Return the list under ``key``; an empty one, with a fault, where there is none."""
        found = owner.get(key)
        if isinstance(found, list) and found:
            return found
        said = phrase("an empty list") if found == [] else _kind(found)
        self.add(
            where, key, said, phrase("a list of hours"), phrase("Save the answer again, whole.")
        )
        return []

    def unit(self, units: Table, key: str, kind: Amount) -> str:
        """Return the unit told for ``key``; "" with a fault where none that is known is told."""
        found = units.get(key)
        if isinstance(found, str) and found in kind.scales:
            return found
        said = phrase("no unit") if found is None else found
        cure = phrase("Without its unit a figure means nothing: save the answer with its units.")
        self.add("units", key, said, verbatim(" | ".join(kind.scales)), cure)
        return ""

    def amount(self, raw: object, unit: str, kind: Amount, where: str, field: str) -> int | None:
        """Return a figure in whole units; None where it is not told, or with a fault."""
        if raw is None or not unit:
            return None
        if isinstance(raw, bool) or not isinstance(raw, int | Decimal):
            meant = no_commas(raw[:40]) if isinstance(raw, str) else None
            self.add(where, field, raw, kind.allowed(), meant or phrase("Write a number."))
            return None
        found = kind.whole(raw, unit)
        if found is None:
            cure = phrase("It was read in {unit}: check number and unit.", unit=unit)
            self.add(where, field, raw, kind.allowed(), cure)
        return found


def plain(value: object) -> str:
    """Return what stood there, short and on one line; a phrase as it is."""
    if isinstance(value, Phrase):
        return value
    if _nested(value):
        return _kind(value)
    text = value if isinstance(value, str) else str(value)
    shown = "".join(char if char.isprintable() else f"\\x{ord(char):02x}" for char in text[:200])
    return shown if len(text) <= 200 else f"{shown}... ({len(text)} characters)"


def _nested(value: object) -> bool:
    return isinstance(value, Mapping | list)


def _kind(value: object) -> Phrase:
    names = {
        dict: phrase("an object"),
        list: phrase("a list"),
        type(None): phrase("nothing"),
        str: phrase("text"),
        bool: phrase("a flag"),
    }
    return names.get(type(value), phrase("a number"))
