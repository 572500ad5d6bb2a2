"""Which roads go onto the map as its ground, and the drives along them."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

import numpy as np
import numpy.typing as npt

from runplanner.roads.network import Network, turned
from runplanner.roads.paths import lines, node_paths, road_lines
from runplanner.roads.simplify import simplified
from runplanner.roads.sketch import MOST_POINTS, Line, Sketch
from runplanner.roads.snap import Point, Snapped
from runplanner.roads.speeds import KINDS

_MAIN: Final = frozenset(KINDS[:8])
_LAST: Final = frozenset(("service", "track", "ferry"))
_RANK: Final = np.array(
    [0 if kind in _MAIN else 2 if kind in _LAST else 1 for kind in KINDS], dtype=np.int32
)
MOST_STRETCHES: Final = 250_000
MOST_GROUND_POINTS: Final = 60_000
MOST_DRIVE_POINTS: Final = MOST_POINTS - MOST_GROUND_POINTS
MOST_SPARE_POINTS: Final = 100_000
"""Drives of the plan, and all others, are left out where they would be more to draw."""
_DRIVE_WITHIN_M: Final = 6.0
_TRIES: Final = (
    *((finest, len(KINDS), 12.0) for finest in (2, 1, 0)),
    *((0, first, 100.0) for first in (8, 6, 4, 2)),
)
"""Finest rank drawn, of which classes, and how closely in metres, until it is little enough."""
_MARGIN: Final = 0.25


def sketched(
    roads: Snapped, points: Sequence[Point], pairs: Iterable[tuple[int, int]], credit: str,
    spare: Iterable[tuple[int, int]] = (),
) -> Sketch:  # fmt: skip
    """Return the drives between the ``pairs`` of places, and the roads round about them.

    Those between ``spare`` pairs come besides, the first of them first, as far as there is room.
    """
    wanted = dict.fromkeys(sorted(set(pairs)))
    others = [pair for pair in dict.fromkeys(spare) if pair not in wanted]
    nodes = {(a, b): (roads.nodes[a], roads.nodes[b]) for a, b in (*wanted, *others)}
    found = lines(roads.network, node_paths(roads.network, nodes.values()))

    def within(some: Iterable[tuple[int, int]], room: int) -> Iterator[tuple[int, int, Line]]:
        for a, b in some:
            line = found.get(nodes[a, b])
            if line is None:
                continue
            drawn = tuple(simplified([points[a], *line, points[b]], _DRIVE_WITHIN_M))
            room -= len(drawn)
            if room < 0:
                return
            yield a, b, drawn

    drives = list(within(wanted, MOST_DRIVE_POINTS))
    left = MOST_DRIVE_POINTS - sum(len(line) for _, _, line in drives)
    drives += within(others, min(left, MOST_SPARE_POINTS))
    return Sketch(credit, tuple(sorted(drives)), _ground(roads.network, points))


def _ground(network: Network, points: Sequence[Point]) -> tuple[tuple[int, Line], ...]:
    """Return the roads near the places: all of them if they are few, else the main ones.

    None where even the motorways are too many.
    """
    near = _near(network, points)
    rank = _RANK[network.kind]
    for finest, first, within_m in _TRIES:
        chosen = near & (rank <= finest) & (network.kind < first)
        if np.count_nonzero(chosen) > MOST_STRETCHES:
            continue
        drawn = [
            (int(_RANK[kind]), tuple(simplified(line, within_m)))
            for kind, line in road_lines(network, chosen)
        ]
        if sum(len(line) for _, line in drawn) <= MOST_GROUND_POINTS:
            return tuple(drawn)
    return ()


def _near(network: Network, points: Sequence[Point]) -> npt.NDArray[np.bool_]:
    """Tell of each arc whether it starts in the frame of the places, with a margin."""
    lats = np.array([lat for lat, _ in points], dtype=np.float64)
    aside = turned(np.array([lon for _, lon in points], dtype=np.float64) - points[0][1])
    here = turned(network.lon - points[0][1])
    extra = max(0.05, _MARGIN * max(np.ptp(lats), np.ptp(aside)))
    fit = (
        (network.lat >= lats.min() - extra) & (network.lat <= lats.max() + extra)
        & (here >= aside.min() - extra) & (here <= aside.max() + extra)
    )  # fmt: skip
    return np.asarray(fit[network.tails()], dtype=np.bool_)
