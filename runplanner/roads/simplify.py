"""Lines with the points left out that nobody would see."""

from itertools import pairwise
from math import cos, hypot, radians

Line = list[tuple[float, float]]
_M_PER_DEGREE = 111_000.0
_PIECE = 400


def simplified(line: Line, within_m: float) -> Line:
    """Return ``line`` with as few points as stay ``within_m`` metres of it.

    By the method of Ramer (1972) and of Douglas and Peucker (1973), without recursion.
    """
    if len(line) < 3:
        return list(line)
    squeeze = cos(radians(line[0][0]))
    flat = [
        (((lon - line[0][1] + 180) % 360 - 180) * squeeze * _M_PER_DEGREE, lat * _M_PER_DEGREE)
        for lat, lon in line
    ]
    # Every so often a point stays anyhow: a long saw would take its length squared in time.
    ends = [*range(0, len(line) - 1, _PIECE), len(line) - 1]
    kept = [False] * len(line)
    for end in ends:
        kept[end] = True
    open_ = list(pairwise(ends))
    while open_:
        first, last = open_.pop()
        far, at = _furthest(flat, first, last)
        if far > within_m:
            kept[at] = True
            open_ += [(first, at), (at, last)]
    return [spot for spot, keep in zip(line, kept, strict=True) if keep]


def _furthest(flat: Line, first: int, last: int) -> tuple[float, int]:
    """Return how far the point between two ends that lies furthest from their line lies."""
    best, at = -1.0, first
    for number in range(first + 1, last):
        far = _from_stretch(flat[number], flat[first], flat[last])
        if far > best:
            best, at = far, number
    return best, at


def _from_stretch(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    along = dx * dx + dy * dy
    share = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / along if along else 0.0
    share = min(1.0, max(0.0, share))
    return hypot(p[0] - a[0] - share * dx, p[1] - a[1] - share * dy)
