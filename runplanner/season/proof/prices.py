"""What drives that are not in the relaxation yet would gain, all those of a way at once.

A table holds a figure for every drive, by the node it leaves and the one it comes to; the
last node is the feed store, and a drive that cannot be is infinitely dear.
"""

from math import fsum
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from runplanner.season.lanes import Arc
from runplanner.season.proof.cuts import Cut
from runplanner.season.proof.road import Road

Table = NDArray[np.float64]

SMALL = 1e-6


class Priced(Protocol):
    """What pricing asks of the relaxation; nodes below ``n`` are yards."""

    n: int
    cuts: list[Cut]
    most_work: list[int]

    def arc_cost(self, road: Road, arc: Arc) -> tuple[float, float]:
        """Return minutes and cents of one drive."""

    def entry(self, road: Road, cut: Cut) -> float:
        """Return how much a drive into a cut's group counts in it."""

    def within(self, road: Road, cut: Cut) -> float:
        """Return how much a minute of a drive within a cut's group takes off."""


def gaining(flow: Priced, road: Road) -> list[Arc]:
    """Return the closed drives of a way that could lower the cost; none is a proof.

    As much drives into every node as out of it, so the prices of nodes may be moved at no
    cost.  Where they can be moved until no drive gains, the optimum is one over all drives.
    """
    reduced = _reduced(flow, road)
    if _settled(reduced):
        return []
    return sorted(
        (int(a), int(b))
        for a, b in np.argwhere(reduced < -SMALL)
        if (int(a), int(b)) not in road.arcs
    )


def _settled(reduced: Table) -> bool:
    """Tell whether prices of nodes keep every drive from gaining: no round gains in all."""
    moved = np.zeros(len(reduced))
    for _ in range(len(reduced) + 1):
        least = np.minimum(moved, (reduced + moved[:, None]).min(axis=0))
        if (moved - least).max() < SMALL / 2:
            break
        moved = least
    return bool((reduced + moved[:, None] - moved[None, :]).min() >= -SMALL)


def _reduced(flow: Priced, road: Road) -> Table:
    """Return what the cost rises by, in cents, for one drive more of each."""
    n = flow.n
    minutes, reduced = (table.copy() for table in _tables(flow, road))
    minute = fsum(row.dual_value() * factor for row, factor in road.busy)
    drive = road.drive.dual_value() if road.drive is not None else 0.0
    known = np.isfinite(minutes)
    reduced[known] -= minutes[known] * (minute - drive)
    balance = np.array([row.dual_value() for row in road.balance])
    reduced += balance[:, None] - balance[None, :]
    reduced[n] -= road.leave.dual_value()
    for yard in range(n):
        calls = fsum(row.dual_value() for row in road.calls.get(yard, ()))
        reduced[:, yard] += road.worked[yard].dual_value() * flow.most_work[yard] + calls
    minutes[~known] = 0.0
    for cut in flow.cuts:
        price = cut.row.dual_value()
        if abs(price) > SMALL:
            _cut_in(reduced, minutes, price, cut, (flow, road))
    return reduced


def _cut_in(
    reduced: Table, minutes: Table, price: float, cut: Cut, where: tuple[Priced, Road]
) -> None:
    """Take off what drives into a group gain by a cut, and add what those within it lose."""
    flow, road = where
    inside = np.zeros(flow.n + 1, bool)
    inside[list(cut.inside)] = True
    inner, outer = np.flatnonzero(inside), np.flatnonzero(~inside)
    reduced[np.ix_(outer, inner)] -= price * flow.entry(road, cut)
    if lost := flow.within(road, cut):
        both = np.ix_(inner, inner)
        reduced[both] += price * lost * minutes[both]


def _tables(flow: Priced, road: Road) -> tuple[Table, Table]:
    """Return minutes and cents of every drive, worked out once."""
    tables: tuple[Table, Table] | None = road.tables
    if tables is None:
        minutes, cents = (np.full((flow.n + 1, flow.n + 1), np.inf) for _ in range(2))
        for arc in road.all_arcs:
            minutes[arc], cents[arc] = flow.arc_cost(road, arc)
        road.tables = tables = minutes, cents
    return tables
