"""The frame in which an extract is read, and what it may cut off."""

from collections.abc import Sequence
from math import ceil, cos, floor, hypot, inf, radians
from typing import Final

import numpy as np

from runplanner.roads.matrix import ends_of, start_of
from runplanner.roads.network import Box, Network, Nodes, as_matrix, parts
from runplanner.roads.snap import M_PER_DEGREE, Point, Snapped, stops, stretches_of

WIDER: Final = (2, 4, 8)
"""So many times the usual room is read where less cuts a place off or may make it far: guessed."""
MOST_KM: Final = 220
"""So far round the places is read then, or further: 8 times a quarter of a degree."""
_MARGIN: Final = 0.25
_LEAST_DEGREES: Final = 0.25
_FURTHEST_M: Final = 5_000
"""No place further than this from a road is planned for."""
_SLOW: Final = 2
"""A drive of so many times what a way outside takes at least may be shorter there: guessed.
Once that much takes nearly every drive across the whole of a frame."""


def around(points: Sequence[Point], wider: int = 1) -> Box:
    """Return a frame round the points with room for detours, ``wider`` times the usual.

    Its sides are whole tenths of a degree, so that one more yard seldom means reading anew.
    """
    lats = [lat for lat, _ in points]
    middle = points[0][1]
    lons = [middle + (lon - middle + 180) % 360 - 180 for _, lon in points]
    extent = max(max(lats) - min(lats), max(lons) - min(lons))
    room = wider * max(_LEAST_DEGREES, _MARGIN * extent)
    return (
        floor((min(lats) - room) * 10) / 10, floor((min(lons) - room) * 10) / 10,
        ceil((max(lats) + room) * 10) / 10, ceil((max(lons) + room) * 10) / 10,
    )  # fmt: skip


def cut_off(whole: Network, reached: Nodes, box: Box, points: Sequence[Point]) -> tuple[int, ...]:
    """Return which of ``points`` lie at a road that joins the roads ``reached`` outside the frame.

    It may do so where both lead out of ``box``, and not to each other within.  Home, the first
    point, lies at its roads.
    """
    outside = ~_inside(whole, box)
    if not (outside.any() and reached.any()):
        return ()
    part, tails, served = parts(whole, weak=True), whole.tails(), stops(whole)
    leaving = np.zeros(int(part.max()) + 1, dtype=bool)
    leaving[part[outside]] = True
    home = part[np.argmax(reached)]
    if not leaving[home]:
        return ()
    leaving[home] = False
    theirs = _off_m(whole, served & leaving[part[tails]], points)
    if min(theirs) > _FURTHEST_M:
        return ()
    mine = _off_m(whole, served & reached[tails] & reached[whole.head], points)
    return tuple(
        place for place, (off_m, usual_m) in enumerate(zip(theirs, mine, strict=True))
        if place and off_m <= _FURTHEST_M and off_m < usual_m
    )  # fmt: skip


def _inside(network: Network, box: Box) -> Nodes:
    south, west, north, east = box
    across = (network.lon - west) % 360 <= (east - west) % 360
    return np.asarray((south <= network.lat) & (network.lat <= north) & across)


def _off_m(network: Network, arcs: Nodes, points: Sequence[Point]) -> list[float]:
    """Return how far each point lies from the nearest of ``arcs``, in metres."""
    if not arcs.any():
        return [inf] * len(points)
    stretches = stretches_of(network, arcs)
    return [stretches.nearest(point).off_m for point in points]


def from_home(on: Snapped) -> list[float]:
    """Return the hundredths of a second from home, the first of the places, to each of them."""
    graph = as_matrix(on.network, on.network.cs)
    from scipy.sparse.csgraph import dijkstra

    far = dijkstra(graph, indices=start_of(on.nodes[0]))
    far[list(ends_of(on.nodes[0]))] = 0
    return [float(far[list(ends_of(node))].min()) for node in on.nodes]


def may_be_far(
    times: Sequence[float], box: Box, points: Sequence[Point], fastest_m_per_h: int
) -> bool:
    """Tell whether any of the ``times`` from home is so long that a way outside may be faster.

    ``times`` are hundredths of a second; any way out of ``box`` and back is at least as long as
    the straight lines, and nowhere faster than ``fastest_m_per_h``.
    """
    south, west, north, east = box
    home, squeeze = points[0], cos(radians(points[0][0]))
    mid, wide = (home[1] - west) % 360, (east - west) % 360
    for cs, (lat, lon) in zip(times, points, strict=True):
        x = (lon - west) % 360
        # As light goes that a mirror along one side of the frame throws back.
        outside = min(
            hypot((x - mid) * squeeze, 2 * north - lat - home[0]),
            hypot((x - mid) * squeeze, lat + home[0] - 2 * south),
            hypot((x + mid) * squeeze, lat - home[0]),
            hypot((2 * wide - x - mid) * squeeze, lat - home[0]),
        )
        if cs * fastest_m_per_h > _SLOW * outside * M_PER_DEGREE * 360_000:
            return True
    return False
