"""Minutes and metres between many places at once: Dijkstra in scipy's compiled loops."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from runplanner.roads.network import Network, as_matrix

_STEP: Final = 2**26
"""More decimetres than any road here is long (6,700 km)."""
MOST_CS: Final = 48 * 3600 * 100
"""Further than two days' drive is no road."""
_FURTHEST: Final = float((MOST_CS + 1) * _STEP - 1)
_AT_ONCE: Final = 8
NO_ROAD: Final = -1

Longs = npt.NDArray[np.int64]


@dataclass(frozen=True, eq=False, slots=True)
class Matrix:
    """Hundredths of a second and decimetres from each place to each; -1 where no road leads."""

    cs: Longs
    dm: Longs


def cut_off(found: Matrix, places: Iterable[int]) -> Matrix:
    """Return the matrix in which no road leads to or from ``places``."""
    cs, dm = found.cs.copy(), found.dm.copy()
    for place in places:
        for table in (cs, dm):
            table[place, :] = table[:, place] = NO_ROAD
            table[place, place] = 0
    return Matrix(cs, dm)


def weights(network: Network) -> npt.NDArray[np.float64]:
    """Return one figure for each arc: its time, and behind it its length.

    Both are whole and their sums stay below 2 to the 53rd, so floats add them exactly: the
    fastest way comes out, of equally fast ones the shortest, with its length.
    """
    return network.cs.astype(np.float64) * _STEP + network.dm


def matrix(network: Network, nodes: Sequence[int]) -> Matrix:
    """Return times and lengths of the fastest ways between all ``nodes``."""
    graph = as_matrix(network, weights(network))
    from scipy.sparse.csgraph import dijkstra

    to = np.array(nodes, dtype=np.intp)
    rows = []
    # A few sources at once: each takes 8 bytes for every node of the network.
    for first in range(0, len(nodes), _AT_ONCE):
        some = to[first : first + _AT_ONCE]
        rows.append(dijkstra(graph, indices=some, limit=_FURTHEST)[:, to])
    found = np.concatenate(rows) if rows else np.zeros((0, 0))
    road = np.isfinite(found)
    whole = np.where(road, found, 0).astype(np.int64)
    return Matrix(np.where(road, whole // _STEP, NO_ROAD), np.where(road, whole % _STEP, NO_ROAD))
