"""Tools to plant a breach deep inside a good plan."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from runplanner.daybook.plan import Plan

Edits = Mapping[str, object]


def put(value: Any, path: str, new: object) -> Any:
    """Return ``value`` with the spot at dotted ``path`` set to ``new``.

    Numbers in the path index tuples; a function is given the old value.
    """
    head, _, rest = path.partition(".")
    old = value[int(head)] if isinstance(value, tuple) else getattr(value, head)
    if rest:
        new = put(old, rest, new)
    item = new(old) if callable(new) else new
    if not isinstance(value, tuple):
        return replace(value, **{head: item})
    spot = int(head) % len(value)
    return (*value[:spot], item, *value[spot + 1 :])


def edited(plan: Plan, edits: Edits) -> Plan:
    """Return ``plan`` with every edit made in order."""
    for path, new in edits.items():
        plan = put(plan, path, new)
    return plan


@dataclass(frozen=True)
class Planted:
    """A good plan spoilt so that ``rule`` is broken at ``trip`` and ``yard``."""

    rule: str
    plan: Callable[[], Plan]
    edits: Edits
    trip: str = ""
    yard: str = ""

    def __str__(self) -> str:
        return f"{self.rule}: {self.plan.__name__} " + " ".join(self.edits)


@dataclass(frozen=True)
class Edge:
    """One figure at its last allowed value, and one step beyond, where ``rule`` breaks."""

    rule: str
    plan: Callable[[], Plan]
    path: str
    allowed: object
    beyond: object
    trip: str = ""
    yard: str = ""

    def __str__(self) -> str:
        return f"{self.rule}: {self.plan.__name__} {self.path}"

    def planted(self) -> Planted:
        """Return the breach of one step beyond."""
        return Planted(self.rule, self.plan, {self.path: self.beyond}, self.trip, self.yard)


Table = tuple[Planted | Edge, ...]
