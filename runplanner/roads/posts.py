"""Points that stand on a line without being one of its own: gates, barriers, limits."""

from collections.abc import Iterable
from typing import Final

import numpy as np

from runplanner.roads.network import Floats

Spot = tuple[float, float]
"""Longitude and latitude, as GeoJSON and GraphML write them."""
_NEAR_M: Final = 1
"""So far off a line a point still stands on it: guessed, what hand and screen are out by."""
_DEGREE_M: Final = 111_320


class Posts:
    """Points that lines are to have as points of their own where they stand on them."""

    def __init__(self, spots: Iterable[Spot]) -> None:
        self._spots = np.array(sorted(set(spots)), dtype=np.float64).reshape(-1, 2)

    def on(self, run: list[Spot]) -> list[Spot]:
        """Return the points of a line, in order, with those that stand on it."""
        if not len(self._spots) or len(run) < 2:
            return run
        line = np.array(run, dtype=np.float64)
        room = 2 * _NEAR_M / _DEGREE_M / max(0.01, np.cos(np.radians(np.abs(line[:, 1]).max())))
        low, high = line.min(axis=0) - room, line.max(axis=0) + room
        near = self._spots[((self._spots >= low) & (self._spots <= high)).all(axis=1)]
        found = [(_place(line, spot), (float(spot[0]), float(spot[1]))) for spot in near]
        on = [(place, spot) for place, spot in found if place is not None]
        return [spot for _, spot in sorted([*enumerate(run), *on])]


def _place(line: Floats, spot: Floats) -> float | None:
    """Return how far along ``line`` a spot stands, in points; None where it stands off it."""
    flat = np.array((np.cos(np.radians(line[0, 1])), 1.0)) * _DEGREE_M
    start, step = (line[:-1] - spot) * flat, np.diff(line, axis=0) * flat
    square = (step**2).sum(axis=1)
    share = np.clip(-(start * step).sum(axis=1) / np.where(square > 0, square, 1), 0, 1)
    off = np.hypot(*(start + share[:, None] * step).T)
    at = int(np.argmin(off))
    return float(at + share[at]) if off[at] <= _NEAR_M else None
