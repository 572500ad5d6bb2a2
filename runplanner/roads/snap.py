"""Places put onto the road nearest to them, as nodes of their own."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from runplanner.roads.matrix import Node
from runplanner.roads.network import Ints, Network, Nodes, metres_apart, of_arcs, turned
from runplanner.roads.speeds import KINDS, NO_STOP

Point = tuple[float, float]
Places = npt.NDArray[np.intp]
Spot = tuple[int, int, float]
"""From one node a share of the way to another; a junction or bend is on its way to itself."""
_FIRST_LOOK_M: Final = 250.0
M_PER_DEGREE: Final = 111_000.0


@dataclass(frozen=True, eq=False, slots=True)
class Snapped:
    """A network with places on it.

    Args:
        network: The roads, cut where places stand at them.
        nodes: The nodes of each place: where one starts, and those where one arrives.
        off_m: How far each place lies from its road, whole metres rounded up.
    """

    network: Network
    nodes: tuple[Node, ...]
    off_m: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Foot:
    """Where a place meets its road: from node ``a`` a ``share`` of the way to ``b``.

    ``stretch`` tells which of the given ones that road is.
    """

    a: int
    b: int
    share: float
    lat: float
    lon: float
    off_m: int
    stretch: int

    @property
    def spot(self) -> Spot:
        """Where that is; at an end of the stretch it is no longer told which one led there."""
        if 0 < self.share < 1:
            return self.a, self.b, self.share
        node = self.b if self.share else self.a
        return node, node, 0.0


def snapped(network: Network, points: Sequence[Point], through: Nodes | None = None) -> Snapped:
    """Return the network with each of ``points`` on the nearest of its roads that one stops at.

    Straight lines decide what is near: a road across a river counts as near, which is why
    far ones are warned about.  The network must hold at least one road.  ``through`` are the
    nodes of roads one may drive along; other lanes serve places on these alone.
    """
    stretches = stretches_of(network, stops(network, through))
    feet = [stretches.nearest(point) for point in points]
    cut, nodes = _cut(network, feet)
    return Snapped(cut, nodes, tuple(foot.off_m for foot in feet))


def stops(network: Network, through: Nodes | None = None) -> npt.NDArray[np.bool_]:
    """Tell of each arc whether places lie along it: not on motorways and ferries.

    Where there is nothing else, all do.  With ``through`` only arcs between such nodes count.
    """
    never = [number for number, name in enumerate(KINDS) if name in NO_STOP]
    every = np.ones(len(network.head), dtype=np.bool_)
    if through is not None:
        every = through[network.tails()] & through[network.head]
    served = every & ~np.isin(network.kind, never)
    return np.asarray(served if served.any() else every, dtype=np.bool_)


class Stretches:
    """Every stretch of road once, whichever ways it may be driven; the first one given counts."""

    def __init__(self, network: Network, tail: Ints, head: Ints) -> None:
        low, high = np.minimum(tail, head), np.maximum(tail, head)
        key = low.astype(np.int64) * network.size + high
        _, self.first = np.unique(key, return_index=True)
        self.a, self.b = low[self.first], high[self.first]
        self.lat_a, self.lon_a = network.lat[self.a], network.lon[self.a]
        self.lat_b, self.lon_b = network.lat[self.b], network.lon[self.b]
        self.south = np.minimum(self.lat_a, self.lat_b)
        self.north = np.maximum(self.lat_a, self.lat_b)

    def nearest(self, point: Point) -> Foot:
        """Return the foot on the nearest stretch, looking ever further until there is one."""
        reach = _FIRST_LOOK_M
        while True:
            near = self._touch(point, reach)
            if len(near):
                foot = self._best(point, near)
                if foot.off_m <= reach or len(near) == len(self.a):
                    return foot
            reach *= 4

    def _touch(self, point: Point, reach: float) -> Places:
        """Return the stretches whose frame comes within ``reach`` metres."""
        if reach > 20_000_000:
            return np.arange(len(self.a))
        up = reach / M_PER_DEGREE
        aside = up / max(0.01, float(np.cos(np.radians(point[0]))))
        near = np.flatnonzero((self.south <= point[0] + up) & (self.north >= point[0] - up))
        a, b = turned(self.lon_a[near] - point[1]), turned(self.lon_b[near] - point[1])
        return near[(np.minimum(a, b) <= aside) & (np.maximum(a, b) >= -aside)]

    def _best(self, point: Point, near: Places) -> Foot:
        """Return the nearest foot on the stretches ``near``, on a plane laid at the point."""
        squeeze = float(np.cos(np.radians(point[0])))
        ax = turned(self.lon_a[near] - point[1]) * squeeze
        ay = self.lat_a[near] - point[0]
        bx = turned(self.lon_b[near] - point[1]) * squeeze
        by = self.lat_b[near] - point[0]
        along = (bx - ax) ** 2 + (by - ay) ** 2
        share = -(ax * (bx - ax) + ay * (by - ay)) / np.where(along > 0, along, 1.0)
        share = np.clip(share, 0.0, 1.0)
        x, y = ax + share * (bx - ax), ay + share * (by - ay)
        at = int(np.argmin(x * x + y * y))
        lat, lon = point[0] + float(y[at]), point[1] + float(x[at]) / squeeze
        return Foot(
            int(self.a[near[at]]), int(self.b[near[at]]), float(share[at]), lat, lon,
            _off_m(point, (lat, lon)), int(self.first[near[at]]),
        )  # fmt: skip


def stretches_of(network: Network, arcs: Nodes) -> Stretches:
    """Return the stretches that the chosen ``arcs`` of a network lie on."""
    tails, heads = network.tails()[arcs], network.head[arcs]
    return Stretches(network, network.place[tails], network.place[heads])


def _off_m(point: Point, foot: Point) -> int:
    here, there = np.array(point, dtype=np.float64), np.array(foot, dtype=np.float64)
    return int(np.ceil(metres_apart(here[:1], here[1:], there[:1], there[1:])[0]))


class _Cutter:
    """Cuts stretches at the spots of places and gathers the pieces.

    Each arc is cut by itself, so that nobody who drives by can turn round where a place
    happens to stand; a spot is started from by a node that only leads away.  At a junction or
    bend nothing is cut: one arrives at any copy of it, and starts by every road.
    """

    def __init__(self, network: Network, spots: Sequence[Spot]) -> None:
        self.net = network
        self.spots = spots
        self.tails = network.tails()
        self.gone: list[int] = []
        self.made: list[tuple[int, int, int, int, int]] = []
        self.feet: list[int] = []
        self.corners = {a: number for number, (a, b, _) in enumerate(spots) if a == b}

    def nodes(self) -> list[Node]:
        """Return of each spot the node where one starts, and then those where one arrives."""
        size = self.net.size
        found = [[size + number] for number in range(len(self.spots))]
        for copy in np.flatnonzero(np.isin(self.net.place, list(self.corners))).tolist():
            found[self.corners[int(self.net.place[copy])]].append(copy)
        for number, spot in enumerate(self.feet):
            found[spot].append(size + len(self.spots) + number)
        return list(map(tuple, found))

    def cut(self, arc: int, stops: list[tuple[int, float]]) -> None:
        """Put a node for each of ``stops``, a spot with its share of the way, into ``arc``."""
        net = self.net
        self.gone.append(arc)
        whole = (int(net.dm[arc]), int(net.cs[arc]))
        first = net.size + len(self.spots) + len(self.feet)
        self.feet += [spot for spot, _ in stops]
        on_way = [(first + number, share) for number, (_, share) in enumerate(stops)]
        ends = [(int(self.tails[arc]), 0.0), *on_way, (int(net.head[arc]), 1.0)]
        starts = [-1, *(net.size + spot for spot, _ in stops)]
        for (here, low), (there, high), leaves in zip(ends[:-1], ends[1:], starts, strict=True):
            dm, cs = (round(high * all_) - round(low * all_) for all_ in whole)
            for tail in (here, leaves) if leaves >= 0 else (here,):
                self.made.append((tail, there, dm, cs, int(net.kind[arc])))


def _cut(network: Network, feet: Sequence[Foot]) -> tuple[Network, tuple[Node, ...]]:
    """Return the network cut at ``feet``, and the nodes of each foot; one spot, the same nodes."""
    spots: dict[Spot, Foot] = {}
    for foot in feet:
        spots.setdefault(foot.spot, foot)
    cutter = _Cutter(network, list(spots))
    on: dict[tuple[int, int], list[tuple[float, int]]] = defaultdict(list)
    for number, (a, b, share) in enumerate(spots):
        if a != b:
            on[a, b].append((share, number))
    ends = (network.place[cutter.tails], network.place[network.head])
    cut_at = np.zeros(network.size, dtype=bool)
    cut_at[[a for a, _ in on] + [b for _, b in on]] = True
    for arc in np.flatnonzero(cut_at[ends[0]] & cut_at[ends[1]]).tolist():
        a, b = int(ends[0][arc]), int(ends[1][arc])
        stops = on.get((min(a, b), max(a, b)))
        if stops:
            row = sorted(stops)
            ahead = [(number, share) for share, number in row]
            back = [(number, 1 - share) for share, number in reversed(row)]
            cutter.cut(arc, ahead if a < b else back)
    nodes = dict(zip(spots, cutter.nodes(), strict=True))
    return _pieced(cutter, list(spots.values())), tuple(nodes[foot.spot] for foot in feet)


def _pieced(cutter: _Cutter, feet: Sequence[Foot]) -> Network:
    net = cutter.net
    kept = np.ones(len(net.head), dtype=bool)
    kept[cutter.gone] = False
    new = np.array(cutter.made, dtype=np.int32).reshape(-1, 5)
    made = [*range(len(feet)), *cutter.feet]
    place = net.size + np.array(made, dtype=np.int32)
    for corner, number in cutter.corners.items():
        place[number] = corner
    points = (
        np.concatenate((net.lat, [feet[number].lat for number in made])),
        np.concatenate((net.lon, [feet[number].lon for number in made])),
        np.concatenate((net.place, place)),
    )
    arcs = _joined(cutter.tails, net, kept, new)
    return of_arcs(points, *_from_corners(cutter, points[2][arcs[0]], arcs))


def _joined(
    tails: Ints, net: Network, kept: npt.NDArray[np.bool_], new: Ints
) -> tuple[Ints, Ints, Ints, Ints, Ints]:
    old = (tails, net.head, net.dm, net.cs, net.kind)
    tail, head, dm, cs, kind = (
        np.concatenate((was[kept], new[:, column])) for column, was in enumerate(old)
    )
    return tail, head, dm, cs, kind


def _from_corners(
    cutter: _Cutter, place: Ints, arcs: tuple[Ints, Ints, Ints, Ints, Ints]
) -> tuple[Ints, Ints, Ints, Ints, Ints]:
    """Return the arcs and those by which one starts at a corner; ``place`` is each one's start."""
    corners = cutter.corners
    out = np.flatnonzero(np.isin(place, list(corners)))
    start = [cutter.net.size + corners[corner] for corner in place[out].tolist()]
    more = (np.array(start, dtype=np.int32), *(column[out] for column in arcs[1:]))
    tail, head, dm, cs, kind = map(np.concatenate, zip(arcs, more, strict=True))
    return tail, head, dm, cs, kind
