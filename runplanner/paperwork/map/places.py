"""Where things stand on the sheet: the date line, and yards on one spot."""

from collections.abc import Sequence
from itertools import pairwise
from math import cos, radians

from runplanner.outfit.yards import Place

_SAME_SPOT_M = 30.0
_METRES_PER_DEGREE = 111_195.0  # a mean great-circle degree, good enough to see two on one spot
_HAIR = 1e-9  # rounding must not throw the westernmost place once round the globe
# Screen offsets, in cell radii, for the second, third ... thing on one spot.
_BESIDE = (
    (0.0, 0.0), (0.0, -2.2), (1.9, 1.1), (-1.9, 1.1), (1.9, -1.1), (-1.9, -1.1), (0.0, 2.2),
)  # fmt: skip


def unrolled(places: Sequence[Place]) -> tuple[tuple[float, float], ...]:
    """Return ``(lat, lon)`` with longitudes made to run on across the date line.

    The circle is cut at its widest empty stretch, so places that are near one another on
    the ground are near one another on the sheet; some longitudes may then exceed 180.
    """
    west = _west_edge([place.lon for place in places]) - _HAIR
    return tuple(
        (round(place.lat, 6), round(west + (place.lon - west) % 360.0, 6)) for place in places
    )


def _west_edge(lons: Sequence[float]) -> float:
    """Return the longitude, from -180 to 180, right of the widest gap between ``lons``."""
    around = sorted({lon % 360.0 for lon in lons})
    if not around:
        return 0.0
    gaps = [(b - a, b) for a, b in pairwise([*around, around[0] + 360.0])]
    edge = max(gaps, key=lambda gap: (gap[0], -gap[1]))[1]
    return (edge + 180.0) % 360.0 - 180.0


def beside(spots: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Return for each spot how far to step aside, in radii, so that none hides another."""
    steps: list[tuple[float, float]] = []
    for number, spot in enumerate(spots):
        before = sum(same_spot(spot, other) for other in spots[:number])
        ring, place = divmod(before, len(_BESIDE))
        x, y = _BESIDE[place]
        steps.append((x + 2.2 * ring, y))
    return tuple(steps)


def same_spot(one: tuple[float, float], other: tuple[float, float]) -> bool:
    """Tell whether two spots are within a few steps of each other."""
    north = (one[0] - other[0]) * _METRES_PER_DEGREE
    east = (one[1] - other[1]) * _METRES_PER_DEGREE * cos(radians(one[0]))
    return north * north + east * east < _SAME_SPOT_M * _SAME_SPOT_M
