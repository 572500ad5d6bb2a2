from collections.abc import Sequence
from itertools import pairwise

import networkx as nx
import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as some

from runplanner.roads.matrix import MOST_CS, NO_ROAD, Node, ends_of, matrix, start_of
from runplanner.roads.network import Network
from runplanner.roads.paths import lines, node_paths
from tests.roads.towns import Arc, both, town


def oracle(network: Network, nodes: Sequence[Node]) -> list[list[tuple[int, int]]]:
    """Fastest ways, of those the shortest, by networkx on pairs (time, length)."""
    graph: nx.DiGraph[int] = nx.DiGraph()
    graph.add_nodes_from(range(network.size))
    columns = (network.tails(), network.head, network.cs, network.dm)
    for tail, head, cs, dm in zip(*(column.tolist() for column in columns), strict=True):
        graph.add_edge(tail, head, both=(cs << 40) + dm)
    rows = []
    for here in nodes:
        far = nx.single_source_dijkstra_path_length(graph, start_of(here), weight="both")
        far |= dict.fromkeys(ends_of(here), 0)
        sums = [
            min((int(far[end]) for end in ends_of(there) if end in far), default=-1)
            for there in nodes
        ]
        rows.append([(sum_ >> 40, sum_ & (2**40 - 1)) if sum_ >= 0 else (-1, -1) for sum_ in sums])
    return rows


def test_a_hand_worked_town() -> None:
    """The fast way round beats the short way through; the way back is another."""
    # 0-1 through town: 1,000 dm in 9,000 cs.  Round by 2: 1,500+1,500 dm in 4,000+4,000 cs,
    # one way.
    made = town([*both((0, 1, 1000, 9000)), (0, 2, 1500, 4000), (2, 1, 1500, 4000)])
    found = matrix(made, [0, 1])

    assert [[0, 8000], [9000, 0]] == found.cs.tolist()
    assert [[0, 3000], [1000, 0]] == found.dm.tolist()


def test_of_equally_fast_ways_the_shortest_counts() -> None:
    """Two ways of 80: the length is that of the shorter one."""
    made = town([(0, 1, 50, 40), (1, 3, 50, 40), (0, 2, 10, 40), (2, 3, 10, 40)])

    assert (80, 20) == (matrix(made, [0, 3]).cs[0, 1], matrix(made, [0, 3]).dm[0, 1])


def test_no_road_is_said_as_such() -> None:
    """Where nothing leads, and beyond two days' drive, there is no road; never nought."""
    made = town([(0, 1, 10, 10), (1, 2, 10, MOST_CS)])
    found = matrix(made, [0, 1, 2])

    assert [[0, 10, NO_ROAD], [NO_ROAD, 0, MOST_CS], [NO_ROAD, NO_ROAD, 0]] == found.cs.tolist()
    assert NO_ROAD == found.dm[0, 2]


def test_no_places_no_matrix() -> None:
    """For no place the matrix is empty."""
    assert (0, 0) == matrix(town(both((0, 1, 1, 1))), []).cs.shape


arcs = some.lists(
    some.tuples(
        some.integers(0, 11), some.integers(0, 11), some.integers(1, 40), some.integers(1, 9)
    ),
    min_size=1, max_size=60,
)  # fmt: skip


@settings(deadline=None, max_examples=150)
@given(arcs)
def test_agrees_with_networkx(drawn: list[Arc]) -> None:
    """Random towns with many ties: each pair's time and length equal the oracle's."""
    made = town([*drawn, (11, 0, 40, 9)])
    nodes = list(range(made.size))
    found = matrix(made, nodes)

    rows = zip(found.cs.tolist(), found.dm.tolist(), strict=True)
    assert oracle(made, nodes) == [list(zip(*row, strict=True)) for row in rows]


@settings(deadline=None, max_examples=60)
@given(arcs)
def test_drawn_ways_are_the_fastest(drawn: list[Arc]) -> None:
    """A path's own arcs sum up to the matrix; a pair without a road has no path."""
    made = town([*drawn, (11, 0, 40, 9)])
    nodes = list(range(made.size))
    found = matrix(made, nodes)
    pairs = [(a, b) for a in nodes for b in nodes if a != b]
    paths = node_paths(made, pairs)
    cost = dict(
        zip(
            zip(made.tails().tolist(), made.head.tolist(), strict=True),
            made.cs.tolist(),
            strict=True,
        )
    )

    assert {pair for pair in pairs if found.cs[pair] != NO_ROAD} == set(paths)
    for (a, b), nodes_on in paths.items():
        assert (a, b) == (nodes_on[0], nodes_on[-1])
        steps = pairwise(nodes_on)
        assert found.cs[a, b] == sum(cost[step] for step in steps)


def test_paths_as_lines() -> None:
    """A path is drawn through its nodes, latitude first."""
    made = town(both((0, 1, 9, 9), (1, 2, 9, 9)), [(1.0, 10.0), (2.0, 20.0), (3.0, 30.0)])
    drawn = lines(made, node_paths(made, [(0, 2)]))

    assert {(0, 2): [(1.0, 10.0), (2.0, 20.0), (3.0, 30.0)]} == drawn
    assert isinstance(drawn[0, 2][0][0], float)
    assert np.float64 is not type(drawn[0, 2][0][0])
