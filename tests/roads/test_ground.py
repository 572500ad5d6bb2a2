from collections.abc import Sequence

import numpy as np
import pytest

from runplanner.roads import ground
from runplanner.roads.drawing import Drawing
from runplanner.roads.ground import sketched
from runplanner.roads.network import Network
from runplanner.roads.paths import road_lines
from runplanner.roads.sketch import Sketch
from runplanner.roads.snap import snapped
from runplanner.roads.speeds import KINDS
from runplanner.roads.tags import Road
from tests.roads.towns import town


def drawn(*roads: tuple[str, Sequence[tuple[int, int]]], ahead_only: bool = False) -> Network:
    """Roads by class through points of a grid of 0.01 degrees (row, column)."""
    drawing = Drawing()
    for kind, spots in roads:
        points = [drawing.point(spot, 0.01 * spot[0], 0.01 * spot[1]) for spot in spots]
        drawing.line(points, Road(KINDS.index(kind), 36_000, 0 if ahead_only else 36_000))
    return drawing.network()


def strings(network: Network) -> list[tuple[str, list[tuple[int, int]]]]:
    """All roads as class and grid points, each turned the smaller end first."""
    every = np.ones(len(network.head), dtype=bool)
    found = []
    for kind, line in road_lines(network, every):
        grid = [(round(lat * 100), round(lon * 100)) for lat, lon in line]
        found.append((KINDS[kind], min(grid, grid[::-1])))
    return sorted(found)


def test_roads_are_strung_between_junctions() -> None:
    """A road of four stretches with a side road at its middle is two strings and the side."""
    made = drawn(("primary", [(0, 0), (0, 1), (0, 2), (0, 3), (0, 4)]), ("track", [(0, 2), (1, 2)]))

    assert [
        ("primary", [(0, 0), (0, 1), (0, 2)]),
        ("primary", [(0, 2), (0, 3), (0, 4)]),
        ("track", [(0, 2), (1, 2)]),
    ] == strings(made)


def test_a_class_ends_a_string() -> None:
    """Where a road becomes a track without a junction there are two strings."""
    made = drawn(("primary", [(0, 0), (0, 1), (0, 2)]), ("track", [(0, 2), (0, 3)]))

    assert ["primary", "track"] == [kind for kind, _ in strings(made)]


def test_a_ring_is_one_string() -> None:
    """A ring without a junction comes round to its start; one way or both, it comes once."""
    ring = [(0, 0), (0, 1), (1, 1), (1, 0), (0, 0)]
    for ahead_only in (False, True):
        (only,) = strings(drawn(("primary", ring), ahead_only=ahead_only))
        assert 5 == len(only[1])


def a_sketch() -> Sketch:
    """Two places off a bent road, and roads of three ranks."""
    made = drawn(
        ("primary", [(0, 0), (0, 1), (1, 1), (1, 2)]), ("residential", [(1, 1), (2, 1)]),
        ("track", [(1, 1), (1, 0)]),
    )  # fmt: skip
    points = [(0.0, 0.0), (0.011, 0.02)]
    return sketched(snapped(made, points), points, [(0, 1), (0, 1)], "Credit")


def test_drives_go_from_place_to_place_by_road() -> None:
    """The line starts and ends at the places themselves and follows the bends between."""
    (drive,) = a_sketch().drives

    assert (0, 1) == drive[:2]
    assert [
        (0.0, 0.0), (0.0, 0.01), (0.01, 0.01), (0.01, 0.02), (0.011, 0.02),
    ] == [pytest.approx(spot) for spot in drive[2]]  # fmt: skip
    assert "Credit" == a_sketch().credit


@pytest.mark.parametrize(
    ("most", "spare", "drawn_pairs"),
    [
        (100, 100, [(0, 1), (0, 2), (1, 2)]),
        (100, 3, [(0, 1), (0, 2)]),
        (100, 2, [(0, 1)]),
        # Three points are the plan's own drive; then there is room for three more.
        (6, 100, [(0, 1), (0, 2)]),
        (3, 100, [(0, 1)]),
        (2, 100, []),
    ],
)
def test_drives_are_left_out_where_they_are_too_much_to_draw(
    monkeypatch: pytest.MonkeyPatch, most: int, spare: int, drawn_pairs: list[tuple[int, int]]
) -> None:
    """One corner each, so three points; those of the plan before all others."""
    monkeypatch.setattr(ground, "MOST_DRIVE_POINTS", most)
    monkeypatch.setattr(ground, "MOST_SPARE_POINTS", spare)
    made = drawn(("primary", [(0, 0), (0, 1), (1, 1)]), ("primary", [(0, 1), (0, 2), (1, 2)]))
    points = [(0.0, 0.0), (0.01, 0.01), (0.01, 0.02)]
    on = snapped(made, points)
    sketch = sketched(on, points, [(0, 1)], "", [(0, 2), (0, 1), (1, 2)])

    assert drawn_pairs == [drive[:2] for drive in sketch.drives]


def test_the_ground_has_ranks() -> None:
    """Main roads are 0, others 1, tracks 2."""
    assert {0, 1, 2} == {rank for rank, _ in a_sketch().ground}
    residential = ((0.01, 0.01), (0.02, 0.01))
    (side,) = (line for rank, line in a_sketch().ground if rank == 1)
    assert residential == tuple(tuple(round(part, 6) for part in spot) for spot in sorted(side))


@pytest.mark.parametrize("ranks", [{0, 1, 2}, {0, 1}, {0}, set()])
def test_a_full_ground_is_thinned(monkeypatch: pytest.MonkeyPatch, ranks: set[int]) -> None:
    """When there is too much to draw tracks go first, then small roads, at last all."""
    points = sum(len(line) for rank, line in a_sketch().ground if rank in ranks)
    monkeypatch.setattr(ground, "MOST_GROUND_POINTS", points)

    assert ranks == {rank for rank, _ in a_sketch().ground}


def test_a_ground_full_of_main_roads_keeps_the_largest(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where not even all main roads have room, secondary ones go first, then primary ones."""
    kinds = ("motorway", "trunk", "primary", "secondary")
    made = drawn(*((kind, [(row, 0), (row, 1)]) for row, kind in enumerate(kinds)))
    points = [(0.0, 0.0), (0.03, 0.01)]
    on = snapped(made, points)
    for room in (8, 6, 4, 2, 0):
        monkeypatch.setattr(ground, "MOST_GROUND_POINTS", room)
        lines = [line for _, line in sketched(on, points, [], "").ground]
        assert room == sum(map(len, lines))
        assert [0.01 * row for row in range(room // 2)] == sorted(line[0][0] for line in lines)


def test_very_many_stretches_are_not_even_strung(monkeypatch: pytest.MonkeyPatch) -> None:
    """Above the bound on stretches a rank is passed over before any work on it."""
    monkeypatch.setattr(ground, "MOST_STRETCHES", 0)

    assert () == a_sketch().ground


def test_roads_far_away_are_left_out() -> None:
    """Only what lies round the places is drawn."""
    made = drawn(("primary", [(0, 0), (0, 1), (0, 900)]), ("track", [(0, 900), (5, 905)]))
    points = [(0.0, 0.0), (0.0, 0.01)]
    found = sketched(snapped(made, points), points, [], "")

    assert {0} == {rank for rank, _ in found.ground}


def test_a_pair_without_a_road_has_no_line() -> None:
    """A drive that no road allows is left out, the others are drawn."""
    spots = [(0.0, 0.0), (0.0, 0.1)]
    on = snapped(town([(0, 1, 1000, 1000)], spots), spots)

    assert [(0, 1)] == [drive[:2] for drive in sketched(on, spots, [(0, 1), (1, 0)], "").drives]
