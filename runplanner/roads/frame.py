"""The frame in which an extract is read, and what it may cut off."""

from collections.abc import Sequence
from math import ceil, floor, inf
from typing import Final

import numpy as np

from runplanner.roads.network import Box, Network, Nodes, parts
from runplanner.roads.snap import Point, stops, stretches_of

WIDER: Final = (2, 4, 8)
"""So many times the usual room is read where less cuts a place off: guessed."""
MOST_KM: Final = 220
"""So far round the places is read then, or further: 8 times a quarter of a degree."""
_MARGIN: Final = 0.25
_LEAST_DEGREES: Final = 0.25
_FURTHEST_M: Final = 5_000
"""No place further than this from a road is planned for."""


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
