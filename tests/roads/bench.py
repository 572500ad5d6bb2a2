"""Measures a large road network: ``python -m tests.roads.bench``.

A grid of streets is drawn, places are snapped to it, and all their times and lengths found;
then the same from a few places by networkx, so that the figure means something on any
machine.  Needs the extras ``roads`` and ``dev``.
"""

import argparse
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from random import Random
from typing import TypeVar

import networkx as nx

from runplanner.roads.drawing import Drawing
from runplanner.roads.matrix import NO_ROAD, matrix, start_of, weights
from runplanner.roads.network import Network
from runplanner.roads.snap import Snapped, snapped
from runplanner.roads.speeds import KINDS
from runplanner.roads.tags import Road

SIDE = 708
PLACES = 200
_STEP_LAT, _STEP_LON = 0.0009, 0.0011
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Measured:
    """What a run came to: seconds of this processor, and the most memory in kB (0: untold).

    ``ratio`` is how many times as long networkx takes from one place to all others.
    """

    nodes: int
    arcs: int
    places: int
    draw_s: float
    snap_s: float
    matrix_s: float
    peak_kb: int
    ratio: float
    roads: bool

    def lines(self) -> list[str]:
        """Return it for people."""
        return [
            f"{self.nodes:,} nodes, {self.arcs:,} arcs drawn in {self.draw_s:.1f} s",
            f"{self.places} places snapped in {self.snap_s:.2f} s",
            (
                f"{self.places} x {self.places} times and lengths in {self.matrix_s:.2f} s, "
                f"{1000 * self.matrix_s / self.places:.1f} ms from each place"
            ),
            f"networkx takes {self.ratio:.1f} times as long from a place",
            f"at most {self.peak_kb / 1e6:.2f} GB" if self.peak_kb else "memory not measured",
        ]


def a_large_grid(side: int = SIDE) -> Network:
    """Crossings 100 m apart, fast roads east and west, slower ones north."""
    drawing = Drawing()
    for row in range(side):
        for column in range(side):
            drawing.point(row * side + column, -38 + row * _STEP_LAT, 175 + column * _STEP_LON)
    fast = Road(KINDS.index("tertiary"), 50_000, 50_000)
    slow = Road(KINDS.index("residential"), 30_000, 30_000)
    for line in range(side):
        drawing.line([line * side + other for other in range(side)], fast)
        drawing.line([other * side + line for other in range(side)], slow)
    return drawing.network()


def measure(side: int = SIDE, places: int = PLACES, against: int = 1) -> Measured:
    """Draw, snap, find all drives, and compare with networkx from ``against`` places."""
    chance = Random(3)
    grid, draw_s = _timed(lambda: a_large_grid(side))
    tall, wide = side * _STEP_LAT, side * _STEP_LON
    spots = [(-38 + chance.random() * tall, 175 + chance.random() * wide) for _ in range(places)]
    on, snap_s = _timed(lambda: snapped(grid, spots))
    found, matrix_s = _timed(lambda: matrix(on.network, on.nodes))
    peak_kb = _peak_kb()
    outside_s = _outside(on, against)
    return Measured(
        grid.size, len(grid.head), places, draw_s, snap_s, matrix_s, peak_kb,
        outside_s / (matrix_s / places), bool((found.cs != NO_ROAD).all()),
    )  # fmt: skip


def _outside(on: Snapped, count: int) -> float:
    """Return the seconds networkx takes from one place, its graph once made."""
    graph: nx.DiGraph[int] = nx.DiGraph()
    net = on.network
    rows = zip(net.tails().tolist(), net.head.tolist(), weights(net).tolist(), strict=True)
    graph.add_weighted_edges_from(rows)
    starts = [start_of(node) for node in on.nodes[:count]]
    _, took = _timed(
        lambda: [nx.single_source_dijkstra_path_length(graph, node) for node in starts]
    )
    return took / count


def _timed(do: Callable[[], T]) -> tuple[T, float]:
    started = time.process_time()
    made = do()
    return made, time.process_time() - started


def _peak_kb() -> int:
    if sys.platform == "win32":
        return 0
    import resource

    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return peak // 1024 if sys.platform == "darwin" else peak


def main(words: list[str] | None = None) -> None:
    """Measure and print."""
    asked = argparse.ArgumentParser(prog="python -m tests.roads.bench", description=__doc__)
    asked.add_argument("--side", type=int, default=SIDE, help="crossings along each side")
    asked.add_argument("--places", type=int, default=PLACES)
    told = asked.parse_args(words)
    sys.stdout.write("\n".join(measure(told.side, told.places).lines()) + "\n")


if __name__ == "__main__":
    main()
