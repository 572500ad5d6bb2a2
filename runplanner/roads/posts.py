"""Points that stand on a line without being one of its own: gates, barriers, limits."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

import numpy as np

from runplanner.roads.network import Floats

Spot = tuple[float, float]
"""Longitude and latitude, as GeoJSON and GraphML write them."""
_NEAR_M: Final = 1
"""So far off a line a point still stands on it: guessed, what hand and screen are out by."""
_SAME_M: Final = 0.5
"""A line nearer by less than this is no nearer: guessed, half of that."""
_DEGREE_M: Final = 111_320
_On = tuple[float, int, float, bool]
"""How far off, which line, how far along it in points, and whether between its ends."""


def key_of(spot: Spot) -> Spot:
    """Return what a spot is known by; a centimetre apart is the same spot."""
    return round(spot[0], 7), round(spot[1], 7)


def put_on(
    spots: Iterable[Spot], runs: Sequence[list[Spot]], others: Iterable[list[Spot]] = ()
) -> list[Spot]:
    """Put each of ``spots``, as they are known, into the one line of ``runs`` it stands on.

    A point that a line has as its own, one of ``others`` too, stands there; any other on the
    nearest line, on both where it is drawn once for each way.  What is returned may stand on
    several, and was put into none.
    """
    waiting = dict.fromkeys(sorted(spots))
    for run in (*runs, *others) if waiting else ():
        for spot in run:
            waiting.pop(key_of(spot), None)
    free = list(waiting)
    found: dict[Spot, list[_On]] = {spot: [] for spot in free}
    if free:
        all_ = np.array(free, dtype=np.float64)
        for number, run in enumerate(runs):
            for at in _round(run, all_):
                found[free[at]] += _on(run, number, all_[at])
    stands = {spot: _nearest(on, runs) for spot, on in found.items()}
    several = [spot for spot, on in stands.items() if len({_stretch(one, runs) for one in on}) > 1]
    for spot in several:
        del stands[spot]
    added: dict[int, list[tuple[float, Spot]]] = {}
    for spot, on in stands.items():
        for _, number, along, _ in on:
            added.setdefault(number, []).append((along, spot))
    for number, here in added.items():
        runs[number][:] = [spot for _, spot in sorted([*enumerate(runs[number]), *here])]
    return several


def _stretch(one: _On, runs: Sequence[list[Spot]]) -> tuple[Spot, ...]:
    """Return both ends of the stretch a point is on, whichever way that was drawn."""
    at = min(int(one[2]), len(runs[one[1]]) - 2)
    return tuple(sorted(map(key_of, runs[one[1]][at : at + 2])))


def _nearest(on: Sequence[_On], runs: Sequence[list[Spot]]) -> list[_On]:
    """Return where a point may stand: at the end of a line not where another one goes on."""
    tied = [one for one in on if one[0] < min(on)[0] + _SAME_M]
    passed = {key_of(spot) for one in tied if one[3] for spot in runs[one[1]]}
    return [one for one in tied if one[3] or key_of(runs[one[1]][round(one[2])]) not in passed]


def _round(run: Sequence[Spot], spots: Floats) -> list[int]:
    """Return which of ``spots`` are near the box round a line."""
    if len(run) < 2:
        return []
    line = np.array(run, dtype=np.float64)
    room = 2 * _NEAR_M / _DEGREE_M / max(0.01, np.cos(np.radians(np.abs(line[:, 1]).max())))
    low, high = line.min(axis=0) - room, line.max(axis=0) + room
    near: list[int] = np.flatnonzero(((spots >= low) & (spots <= high)).all(axis=1)).tolist()
    return near


def _on(run: Sequence[Spot], number: int, spot: Floats) -> Iterator[_On]:
    """Yield each place on a line at which a spot may stand; stretches in a row are one."""
    line = np.array(run, dtype=np.float64)
    flat = np.array((np.cos(np.radians(line[0, 1])), 1.0)) * _DEGREE_M
    start, step = (line[:-1] - spot) * flat, np.diff(line, axis=0) * flat
    square = (step**2).sum(axis=1)
    share = np.clip(-(start * step).sum(axis=1) / np.where(square > 0, square, 1), 0, 1)
    off = np.hypot(*(start + share[:, None] * step).T)
    near = np.flatnonzero(off <= _NEAR_M)
    for row in np.split(near, np.flatnonzero(np.diff(near) > 1) + 1) if len(near) else ():
        at = int(row[np.argmin(off[row])])
        along = float(at + share[at])
        yield float(off[at]), number, along, 0 < along < len(run) - 1
