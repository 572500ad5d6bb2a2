"""A way of going out in the relaxation."""

from dataclasses import dataclass, field
from typing import Any

from runplanner.season.lanes import Arc, Way
from runplanner.season.proof.rows import Term


@dataclass
class Road:
    """One way's variables and rows; nodes are yards, the last one is the feed store.

    ``homes`` are trips that come home by the honey house, by their last yard, each with the
    minutes that takes beyond the least way.
    """

    number: int
    way: Way
    arcs: dict[Arc, Any]
    all_arcs: dict[Arc, tuple[float, float]]
    trips: Any
    shifts: Any
    over: Any
    rest: Any
    pump: Any
    work: list[Any]
    home_min: float
    balance: list[Any] = field(default_factory=list)
    leave: Any = None
    busy: list[tuple[Any, float]] = field(default_factory=list)
    worked: list[Any] = field(default_factory=list)
    drive: Any = None
    calls: dict[int, list[Any]] = field(default_factory=dict)
    there: list[float] = field(default_factory=list)
    back: list[float] = field(default_factory=list)
    into: list[list[Arc]] = field(default_factory=list)
    minutes: dict[tuple[frozenset[int], float], float] = field(default_factory=dict)
    tables: Any = None
    homes: list[Term] = field(default_factory=list)
