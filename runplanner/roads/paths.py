"""The way a drive takes, as a line to draw."""

from collections import defaultdict
from collections.abc import Iterable, Sequence

import numpy as np
import numpy.typing as npt

from runplanner.roads.matrix import Node, ends_of, start_of, weights
from runplanner.roads.network import Network, as_matrix

Line = list[tuple[float, float]]


def node_paths(
    network: Network, pairs: Iterable[tuple[Node, Node]]
) -> dict[tuple[Node, Node], list[int]]:
    """Return the nodes of the fastest way of each pair; a pair without a road is left out."""
    from scipy.sparse.csgraph import dijkstra

    wanted: dict[int, list[tuple[Node, Node]]] = defaultdict(list)
    for pair in dict.fromkeys(pairs):
        wanted[start_of(pair[0])].append(pair)
    graph = as_matrix(network, weights(network))
    found = {}
    for here, of_here in wanted.items():
        far, before = dijkstra(graph, indices=here, return_predecessors=True)
        for pair in of_here:
            stays = pair[0] == pair[1]
            there = here if stays else min(ends_of(pair[1]), key=lambda end: far[end])
            path = _back(before, here, there)
            if path:
                found[pair] = path
    return found


def _back(before: Sequence[int], here: int, there: int) -> list[int]:
    """Return the nodes from ``here`` to ``there``; none when no road leads there."""
    path = [there]
    while path[-1] != here:
        last = int(before[path[-1]])
        if last < 0:
            return []
        path.append(last)
    return path[::-1]


def lines(
    network: Network, paths: dict[tuple[Node, Node], list[int]]
) -> dict[tuple[Node, Node], Line]:
    """Return each path as latitudes and longitudes."""
    return {
        pair: list(zip(network.lat[path].tolist(), network.lon[path].tolist(), strict=True))
        for pair, path in paths.items()
    }


def road_lines(network: Network, arcs: npt.NDArray[np.bool_]) -> list[tuple[int, Line]]:
    """Return the roads of the chosen ``arcs`` as class and line, strung between junctions.

    Each stretch comes once, whichever ways it may be driven.
    """
    tails = network.place[network.tails()[arcs]].tolist()
    heads = network.place[network.head[arcs]].tolist()
    kinds: dict[tuple[int, int], int] = {}
    for a, b, kind in zip(tails, heads, network.kind[arcs].tolist(), strict=True):
        kinds.setdefault((min(a, b), max(a, b)), kind)
    beside: dict[int, list[int]] = defaultdict(list)
    for a, b in kinds:
        beside[a].append(b)
        beside[b].append(a)
    return [(kind, _line(network, nodes)) for kind, nodes in _strings(kinds, beside)]


def _strings(
    kinds: dict[tuple[int, int], int], beside: dict[int, list[int]]
) -> list[tuple[int, list[int]]]:
    """String stretches of one class together, from junction to junction, then what is left."""
    left = dict.fromkeys(kinds)
    found = []
    junctions = [node for node, near in beside.items() if len(near) != 2]
    for start in (*junctions, *beside):
        for first in beside[start]:
            stretch = (min(start, first), max(start, first))
            if stretch in left:
                found.append((kinds[stretch], _string(start, first, kinds, beside, left)))
    return found


def _string(
    start: int, first: int, kinds: dict[tuple[int, int], int],
    beside: dict[int, list[int]], left: dict[tuple[int, int], None],
) -> list[int]:  # fmt: skip
    nodes, kind = [start], kinds[min(start, first), max(start, first)]
    ahead: int | None = first
    while ahead is not None:
        here = nodes[-1]
        del left[min(here, ahead), max(here, ahead)]
        nodes.append(ahead)
        ahead = next(
            (
                node for node in beside[ahead]
                if len(beside[nodes[-1]]) == 2
                and (stretch := (min(nodes[-1], node), max(nodes[-1], node))) in left
                and kinds[stretch] == kind
            ),
            None,
        )  # fmt: skip
    return nodes


def _line(network: Network, nodes: list[int]) -> Line:
    at = np.array(nodes, dtype=np.intp)
    return list(zip(network.lat[at].tolist(), network.lon[at].tolist(), strict=True))
