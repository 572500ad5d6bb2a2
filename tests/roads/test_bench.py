"""How long a large network takes: half a million nodes, 200 places."""

import time
from random import Random

import pytest

from runplanner.roads.drawing import Drawing
from runplanner.roads.matrix import NO_ROAD, matrix
from runplanner.roads.network import Network
from runplanner.roads.snap import snapped
from runplanner.roads.speeds import KINDS
from runplanner.roads.tags import Road

resource = pytest.importorskip("resource", reason="memory is measured on POSIX only")
pytestmark = pytest.mark.slow
SIDE = 708


def a_large_grid() -> Network:
    """708 x 708 crossings 100 m apart, fast roads east and west, slower ones north."""
    drawing = Drawing()
    for row in range(SIDE):
        for column in range(SIDE):
            drawing.point(row * SIDE + column, -38 + row * 0.0009, 175 + column * 0.0011)
    fast = Road(KINDS.index("tertiary"), 50_000, 50_000)
    slow = Road(KINDS.index("residential"), 30_000, 30_000)
    for line in range(SIDE):
        drawing.line([line * SIDE + other for other in range(SIDE)], fast)
        drawing.line([other * SIDE + line for other in range(SIDE)], slow)
    return drawing.network()


def test_two_hundred_places_on_half_a_million_nodes() -> None:
    """Snapping and the 200 x 200 matrix take less than 30 s of this processor, and 4 GB."""
    grid = a_large_grid()
    chance = Random(3)
    spots = [(-38 + chance.random() * 0.63, 175 + chance.random() * 0.77) for _ in range(200)]

    started = time.process_time()
    on = snapped(grid, spots)
    found = matrix(on.network, on.nodes)
    took = time.process_time() - started
    # Linux counts kilobytes.
    peak_kb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss

    assert grid.size > 500_000
    assert (found.cs != NO_ROAD).all()
    assert took < 30
    assert peak_kb < 4_000_000
