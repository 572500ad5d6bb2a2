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

Node = int | tuple[int, ...]
"""A node, or the one where one starts and then those where one arrives."""
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


def start_of(node: Node) -> int:
    """Return the node one starts from."""
    return node if isinstance(node, int) else node[0]


def ends_of(node: Node) -> tuple[int, ...]:
    """Return the nodes one arrives at, whichever is nearest."""
    return (node,) if isinstance(node, int) else node[1:]


def matrix(network: Network, nodes: Sequence[Node]) -> Matrix:
    """Return times and lengths of the fastest ways between all ``nodes``."""
    graph = as_matrix(network, weights(network))
    from scipy.sparse.csgraph import dijkstra

    starts = np.array([start_of(node) for node in nodes], dtype=np.intp)
    to = np.array([end for node in nodes for end in ends_of(node)], dtype=np.intp)
    first = np.cumsum([0, *(len(ends_of(node)) for node in nodes)])[:-1]
    rows = []
    # A few sources at once: each takes 8 bytes for every node of the network.
    for at in range(0, len(nodes), _AT_ONCE):
        some = starts[at : at + _AT_ONCE]
        far = dijkstra(graph, indices=some, limit=_FURTHEST)[:, to]
        rows.append(np.minimum.reduceat(far, first, axis=1))
    found = np.concatenate(rows) if rows else np.zeros((0, 0))
    found[starts[:, None] == starts] = 0
    road = np.isfinite(found)
    whole = np.where(road, found, 0).astype(np.int64)
    return Matrix(np.where(road, whole // _STEP, NO_ROAD), np.where(road, whole % _STEP, NO_ROAD))
