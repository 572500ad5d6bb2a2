from itertools import pairwise
from math import cos, hypot, radians

from hypothesis import given
from hypothesis import strategies as some

from runplanner.roads.simplify import simplified

degrees = some.integers(-6_000_000, 6_000_000).map(lambda whole: whole / 100_000)
spots = some.tuples(degrees, degrees)


def test_a_straight_line_keeps_its_ends() -> None:
    """Points on the line between two others are not needed."""
    assert [(0.0, 0.0), (0.0, 1.0)] == simplified([(0.0, n / 10) for n in range(11)], 1)


def test_a_bend_stays() -> None:
    """A corner of a kilometre stays at 100 m and goes at 2 km."""
    # 0.01 degrees are 1,110 m.
    bend = [(0.0, 0.0), (0.01, 0.05), (0.0, 0.1)]

    assert bend == simplified(bend, 100)
    assert [bend[0], bend[2]] == simplified(bend, 2000)


def test_short_lines_and_rings_are_as_they_were() -> None:
    """Two points stay; a ring whose ends meet keeps its far side."""
    ring = [(0.0, 0.0), (0.0, 0.1), (0.1, 0.1), (0.0, 0.0)]

    assert [(1.0, 2.0), (3.0, 4.0)] == simplified([(1.0, 2.0), (3.0, 4.0)], 1)
    assert ring == simplified(ring, 100)


def test_across_the_date_line() -> None:
    """A line over 180 degrees is no line round the earth."""
    line = [(0.0, 179.9), (0.0, 180.0), (0.0, -179.9)]

    assert [line[0], line[2]] == simplified(line, 10)


def test_ten_thousand_points_do_not_nest() -> None:
    """A saw of many teeth is worked through without running out of stack."""
    saw = [(0.01 * (n % 2), 0.001 * n) for n in range(5_000)]

    assert saw == simplified(saw, 1)


@given(some.lists(spots, min_size=3, max_size=12), some.floats(10, 1e6))
def test_what_goes_was_near(line: list[tuple[float, float]], within: float) -> None:
    """Every point left out lies within the bound of the line that stays, on the plane used."""
    kept = simplified(line, within)
    squeeze = cos(radians(line[0][0])) * 111_000
    flat = {
        spot: (((spot[1] - line[0][1] + 180) % 360 - 180) * squeeze, spot[0] * 111_000)
        for spot in line
    }
    for spot in line:
        near = min(_apart(flat[spot], flat[a], flat[b]) for a, b in pairwise(kept))
        assert near <= within * (1 + 1e-9) + 1e-6


def _apart(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    """How far a point lies from a stretch, by trying the ends and the foot between."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    feet = [0.0, 1.0]
    if dx or dy:
        share = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)
        feet += [share] if 0 < share < 1 else []
    return min(hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy) for t in feet)
