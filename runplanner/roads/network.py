"""A road network as arrays: nodes, and arcs sorted by where they start.

Lengths are whole decimetres and times whole hundredths of a second, so that a sum along a
road is exact and the same on every machine.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, fields, replace
from typing import Final

import numpy as np
import numpy.typing as npt

Ints = npt.NDArray[np.int32]
Floats = npt.NDArray[np.float64]
Nodes = npt.NDArray[np.bool_]
"""Some of the nodes, or of the arcs."""
Box = tuple[float, float, float, float]
"""South, west, north, east in degrees; west may be larger than east, across the date line."""

_AXIS_M: Final = 6_378_137.0
_FLATTENING: Final = 1 / 298.257_223_563
"""WGS 84, as its defining parameters give them (NIMA TR8350.2)."""


@dataclass(frozen=True, eq=False, slots=True)
class Network:
    """Roads one truck may drive.

    Args:
        lat: Latitude of each node.
        lon: Longitude of each node.
        place: For each node the first node at the same spot that it is a copy of, or itself;
            copies keep apart who came from where, for forbidden turns.
        start: Arcs of node n are those from ``start[n]`` up to ``start[n + 1]``.
        head: Node each arc leads to.
        dm: Length of each arc.
        cs: Time of each arc.
        kind: Class of each arc, an index into the classes of road.
        unread: What could not be read on these roads, as letters; see ``told`` and ``letters``.
        barred: Stretches the truck may not drive: both nodes, and the line of ``causes``, by
            threes.
        causes: What bars them, as letters.
    """

    lat: Floats
    lon: Floats
    place: Ints
    start: Ints
    head: Ints
    dm: Ints
    cs: Ints
    kind: Ints
    unread: Ints = field(default_factory=lambda: np.zeros(0, dtype=np.int32))
    barred: Ints = field(default_factory=lambda: np.zeros(0, dtype=np.int32))
    causes: Ints = field(default_factory=lambda: np.zeros(0, dtype=np.int32))

    @property
    def size(self) -> int:
        """How many nodes there are."""
        return len(self.lat)

    def tails(self) -> Ints:
        """Return the node each arc starts from."""
        counts = np.diff(self.start)
        return np.repeat(np.arange(self.size, dtype=np.int32), counts).astype(np.int32)

    def told(self) -> list[str]:
        """Return what could not be read, a line each."""
        return lines_of(self.unread)

    def arrays(self) -> dict[str, npt.NDArray[np.generic]]:
        """Return every array by its name, for keeping on disk."""
        return {one.name: getattr(self, one.name) for one in fields(self)}


def letters(lines: Iterable[str]) -> Ints:
    """Return lines of text as numbers: a network is kept as arrays of numbers alone."""
    return np.array([ord(letter) for letter in "\n".join(lines)], dtype=np.int32)


def lines_of(numbers: Ints) -> list[str]:
    """Return the lines of text that ``letters`` made numbers of."""
    return "".join(map(chr, numbers.tolist())).splitlines()


def metres_apart(lat_a: Floats, lon_a: Floats, lat_b: Floats, lon_b: Floats) -> Floats:
    """Return how far apart points are, in metres.

    The ellipsoid's curvature half-way between them: within a thousandth for points less than
    50 km apart, and far better for neighbours along a road.
    """
    middle = np.radians((lat_a + lat_b) / 2)
    e2 = _FLATTENING * (2 - _FLATTENING)
    w2 = 1 - e2 * np.sin(middle) ** 2
    north = _AXIS_M * (1 - e2) / w2**1.5 * np.radians(lat_b - lat_a)
    east = _AXIS_M / np.sqrt(w2) * np.cos(middle) * np.radians(turned(lon_b - lon_a))
    return np.asarray(np.hypot(north, east), dtype=np.float64)


def turned(lon: Floats) -> Floats:
    """Return differences of longitude the short way round, from -180 up to 180 degrees."""
    return np.asarray((lon + 180) % 360 - 180, dtype=np.float64)


def of_arcs(
    points: tuple[Floats, Floats, Ints], tail: Ints, head: Ints, dm: Ints, cs: Ints, kind: Ints
) -> Network:
    """Return a network of arcs in any order; of two between the same nodes the faster stays.

    ``points`` are latitude, longitude and place of each node.
    """
    order = np.lexsort((dm, cs, head, tail))
    tail, head = tail[order], head[order]
    first = np.ones(len(order), dtype=bool)
    first[1:] = (tail[1:] != tail[:-1]) | (head[1:] != head[:-1])
    first &= tail != head
    keep = order[first]
    counts = np.bincount(tail[first], minlength=len(points[0]))
    start = np.concatenate(([0], np.cumsum(counts))).astype(np.int32)
    return Network(*points, start, head[first], dm[keep], cs[keep], kind[keep])


def parts(network: Network, *, weak: bool = False) -> Ints:
    """Return the part of each node: in one part every node can be reached from every other.

    With ``weak`` it is enough that roads join them, whichever way one may drive there.

    Raises:
        RoadsError: When scipy is not installed.
    """
    graph = as_matrix(network, network.cs)
    from scipy.sparse.csgraph import connected_components

    _, part = connected_components(graph, connection="weak" if weak else "strong")
    return np.asarray(part, dtype=np.int32)


def only(network: Network, kept: npt.NDArray[np.bool_]) -> Network:
    """Return the network of the nodes ``kept``, without what bars other roads."""
    tails = network.tails()
    arcs = kept[tails] & kept[network.head]
    new = np.cumsum(kept, dtype=np.int32) - np.int32(1)
    place = _moved_places(network.place, kept, new)
    points = (network.lat[kept], network.lon[kept], place)
    made = of_arcs(
        points, new[tails[arcs]], new[network.head[arcs]],
        network.dm[arcs], network.cs[arcs], network.kind[arcs],
    )  # fmt: skip
    return replace(made, unread=network.unread)


def _moved_places(place: Ints, kept: npt.NDArray[np.bool_], new: Ints) -> Ints:
    """Return the places under new numbers; the first copy left stands for one that is gone."""
    nodes = np.flatnonzero(kept).astype(np.int32)
    stands_for = np.full(len(place), len(place), dtype=np.int32)
    np.minimum.at(stands_for, place[nodes], nodes)
    return np.asarray(new[stands_for[place[nodes]]], dtype=np.int32)


def as_matrix(network: Network, weight: npt.NDArray[np.generic]) -> object:
    """Return the network as a sparse matrix with ``weight`` on its arcs.

    Raises:
        RoadsError: When scipy is not installed.
    """
    csr_array = _csr_array()
    size = network.size
    body = (np.asarray(weight, dtype=np.float64), network.head, network.start)
    return csr_array(body, shape=(size, size))


def as_links(size: int, ends: tuple[Ints, Ints], weight: npt.NDArray[np.generic]) -> object:
    """Return stretches of road, each named once, as a sparse matrix with their ``weight``.

    Raises:
        RoadsError: When scipy is not installed.
    """
    return _csr_array()((np.asarray(weight, dtype=np.float64), ends), shape=(size, size))


def _csr_array() -> type:
    from runplanner.roads.errors import missing

    try:
        from scipy.sparse import csr_array
    except ImportError:
        raise missing("scipy") from None
    found: type = csr_array
    return found
