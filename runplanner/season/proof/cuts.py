"""Cuts of the relaxation: what the work of a group of yards demands of the drives into it."""

from dataclasses import dataclass
from math import fsum
from typing import Any, Literal

from runplanner.season.proof.rows import Term

Group = tuple[int, ...]
Mark = tuple[Group, str]
"""A group, and what it demands."""
Asked = tuple[Group, list["Demand"]]
"""A group, and all that is demanded of drives into it."""
Unit = Literal["trips", "t", "h", "people"]
"""Entries, tonnes, hours of people, or people entering."""


@dataclass(frozen=True, slots=True)
class ShiftLimit:
    """What a shift has for work: some busy minutes, more where it pays overtime or breaks.

    Args:
        name: What tells it from others.
        busy_min: Busy minutes of a shift that pays neither.
        over: Busy minutes more for every minute of overtime.
        rest: The same for every minute of break.
    """

    name: str
    busy_min: float
    over: float = 0.0
    rest: float = 0.0


@dataclass(frozen=True, slots=True)
class Cut:
    """A row over the drives into a group of yards, and for its hours those within it.

    ``only`` is the number of the one way of going out whose drives count, None where all do.
    """

    mark: Mark
    inside: frozenset[int]
    row: Any
    unit: Unit
    busy_min: float
    only: int | None = None

    def counts(self, road: int) -> bool:
        """Tell whether drives of a way of going out, by its number, count."""
        return self.only is None or self.only == road


@dataclass(frozen=True, slots=True)
class Demand:
    """What must come into a group: ``least``, and as much as ``owed`` shares of work want.

    Args:
        group: The yards.
        name: What is counted.
        least: So much in any case.
        owed: Shares of work or loads, each with what all of it wants, below 0.
        unit: What an entry counts.
        busy_min: Where hours count, the busy minutes of a shift they are left of.
        over: What an hour of somebody's overtime counts.
        rest: What an hour of somebody's break counts.
        only: Number of the one way of going out whose drives count, None where all do.
        of: Yard whose loads count, where loads do; those of the whole group if it is None.
    """

    group: Group
    name: str
    least: float
    owed: list[Term]
    unit: Unit
    busy_min: float = 0.0
    over: float = 0.0
    rest: float = 0.0
    only: int | None = None
    of: int | None = None

    @property
    def mark(self) -> Mark:
        """Tell this demand from others."""
        return self.group, self.name

    def wanted(self) -> float:
        """Return what is wanted in all, at the shares of the last solution."""
        owed = fsum(factor * share.solution_value() for share, factor in self.owed)
        return self.least - owed
