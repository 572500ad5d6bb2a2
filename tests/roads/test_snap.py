from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from runplanner.roads.matrix import matrix
from runplanner.roads.network import Network
from runplanner.roads.snap import snapped
from runplanner.roads.speeds import KINDS
from tests.roads.towns import arcs_of, both, town

# One road along the equator, 0 to 0.1 degrees east, one way back in between.
ROAD = both((0, 1, 100_000, 60_000))
ENDS = [(0.0, 0.0), (0.0, 0.1)]


def test_a_place_in_the_middle_of_a_road() -> None:
    """A quarter of the way along, a kilometre aside: the road is cut in 1 to 3."""
    # 0.01 degrees of latitude at the equator are 1,105.74 m.
    on = snapped(town(ROAD, ENDS), [(0.01, 0.025)])

    assert (1106,) == on.off_m
    # The place is 2 to start from, 3 on the way out and 4 on the way back.
    assert ((2, 3, 4),) == on.nodes
    quarter, rest = (25_000, 15_000), (75_000, 45_000)
    assert {
        (0, 3, *quarter), (3, 1, *rest), (1, 4, *rest), (4, 0, *quarter),
        (2, 1, *rest), (2, 0, *quarter),
    } == arcs_of(on.network)  # fmt: skip
    assert (0.0, 0.025) == pytest.approx((on.network.lat[2], on.network.lon[2]))


def test_places_on_one_road_reach_each_other() -> None:
    """Three places on one stretch stand in their order, whichever order they come in."""
    on = snapped(town(ROAD, ENDS), [(0.0, 0.08), (0.0, 0.02), (0.0, 0.05)])
    found = matrix(on.network, on.nodes)

    # Six tenths, three tenths and three tenths of 60,000.
    assert [[0, 36_000, 18_000], [36_000, 0, 18_000], [18_000, 18_000, 0]] == found.cs.tolist()


def test_one_way_roads_are_cut_one_way() -> None:
    """On a one-way road the place further on is reached, the one behind by the way round."""
    ring = town([(0, 1, 1000, 100), (1, 2, 1000, 100), (2, 0, 1000, 100)],
                [(0.0, 0.0), (0.0, 0.1), (0.05, 0.05)])  # fmt: skip
    on = snapped(ring, [(0.0, 0.02), (0.0, 0.07)])
    found = matrix(on.network, on.nodes)

    # Half a side ahead; back: three sides less that half.
    assert (50, 250) == (found.cs[0, 1], found.cs[1, 0])


def test_two_places_on_one_spot() -> None:
    """They are no distance apart."""
    on = snapped(town(ROAD, ENDS), [(0.0, 0.03), (0.0, 0.03)])

    assert [[0, 0], [0, 0]] == matrix(on.network, on.nodes).cs.tolist()


def test_two_places_on_one_spot_of_a_one_way_road() -> None:
    """Neither lies behind the other, so nobody goes round."""
    ring = town([(0, 1, 1000, 100), (1, 2, 1000, 100), (2, 0, 1000, 100)],
                [(0.0, 0.0), (0.0, 0.1), (0.05, 0.05)])  # fmt: skip
    on = snapped(ring, [(0.0, 0.03), (0.001, 0.03), (0.0, 0.1), (0.0, 0.11)])
    found = matrix(on.network, on.nodes)

    # Seven tenths of a side to the end of the road; from there the rest of the ring.
    assert [[0, 0, 70, 70]] * 2 + [[230, 230, 0, 0]] * 2 == found.cs.tolist()


@pytest.mark.parametrize("order", [(0, 1, 2, 3), (3, 2, 1, 0), (1, 0, 3, 2)])
def test_a_place_at_a_bend_is_left_by_every_road(order: tuple[int, int, int, int]) -> None:
    """A one-way road leaves the bend as well: which road comes first makes no difference."""
    bend, west, east, north = order
    where = {bend: (0.0, 0.0), west: (0.01, -0.01), east: (0.01, 0.01), north: (0.02, 0.0)}
    spots = [where[node] for node in range(4)]
    one_way = [(bend, north, 1000, 500), (north, east, 1000, 500)]
    roads = both((bend, west, 1000, 100), (bend, east, 1000, 100))
    on = snapped(town([*one_way, *roads], spots), [(-0.001, 0.0), *spots])

    found = matrix(on.network, on.nodes).cs
    assert [0, 100, 100, 500] == [int(found[0, node + 1]) for node in order]
    assert [0, 100, 100, 600] == [int(found[node + 1, 0]) for node in order]
    assert (111, 0, 0, 0, 0) == on.off_m


def test_beyond_the_end_of_the_road() -> None:
    """A place past the last house stands at the last node."""
    on = snapped(town(ROAD, ENDS), [(0.0, 0.2), (0.0, 0.05)])

    assert [[0, 30_000], [30_000, 0]] == matrix(on.network, on.nodes).cs.tolist()
    # 0.1 degrees of longitude at the equator are 11,131.9 m.
    assert 11_132 == on.off_m[0]


def test_far_places_find_their_road_too() -> None:
    """Looking ever further ends at the road, even from the other side of the earth."""
    assert snapped(town(ROAD, ENDS), [(20.0, 60.0)]).off_m[0] > 5_000_000
    assert snapped(town(ROAD, ENDS), [(10.0, -170.0)]).off_m[0] > 15_000_000


def test_a_frame_that_holds_the_place_is_not_a_near_road() -> None:
    """A slanting road whose frame holds the place lies further than a small one outside it."""
    # The slant's nearest point is (0.05, 0.05), 7.8 km off; the other road 0.05 degrees, 5.5 km.
    spots = [(0.0, 0.0), (0.1, 0.1), (-0.05, 0.1), (-0.05, 0.11)]
    on = snapped(town(both((0, 1, 1000, 100), (2, 3, 1000, 100)), spots), [(0.0, 0.1)])

    assert 5529 == on.off_m[0]


def test_across_the_date_line() -> None:
    """A road from 179.99 east to 179.99 west is near a place at 180."""
    made = town(both((0, 1, 1000, 100)), [(0.0, 179.99), (0.0, -179.99)])
    on = snapped(made, [(0.001, 180.0), (0.001, -180.0)])

    # 0.001 degrees of latitude are 110.6 m.
    assert (111, 111) == on.off_m
    assert [[0, 0], [0, 0]] == matrix(on.network, on.nodes).cs.tolist()


@pytest.mark.parametrize("kind", ["motorway", "motorway_link", "ferry"])
def test_nobody_gets_off_at_sea_or_on_a_motorway(kind: str) -> None:
    """A place beside one is put onto the next road, or onto that if there is no other."""
    # 0.001 degrees of latitude are 110.6 m; the country road lies 0.004 further north.
    roads = both((0, 1, 100, 100), (2, 3, 100, 100), (0, 2, 50, 50), (1, 3, 50, 50))
    made = town(roads, [(0.0, 0.0), (0.0, 0.1), (0.005, 0.0), (0.005, 0.1)])
    no_stop = made.tails() + made.head == 1
    kinds = np.where(no_stop, KINDS.index(kind), made.kind).astype(np.int32)

    assert (111,) == snapped(made, [(0.001, 0.05)]).off_m
    on = snapped(replace(made, kind=kinds), [(0.001, 0.05), (0.005, 0.0)])
    assert (443, 0) == on.off_m
    # From the country road's middle to its end, though the other way is driven still.
    assert 50 == matrix(on.network, on.nodes).cs[0, 1]
    only = replace(made, kind=np.full_like(made.kind, KINDS.index(kind)))
    assert (111,) == snapped(only, [(0.001, 0.05)]).off_m


def a_grid(side: int) -> Network:
    """A square grid, 0.01 degrees from node to node."""
    spots = [(0.01 * row, 0.01 * column) for row in range(side) for column in range(side)]
    ways = [(n, n + 1, 11_000, 900) for n in range(side * side) if (n + 1) % side]
    ways += [(n, n + side, 11_000, 700) for n in range(side * (side - 1))]
    return town(both(*ways), spots)


@settings(deadline=None, max_examples=60)
@given(
    some.lists(
        some.tuples(some.floats(-0.01, 0.05), some.floats(-0.01, 0.05)), min_size=1, max_size=6
    )
)
def test_the_foot_is_the_nearest_there_is(points: list[tuple[float, float]]) -> None:
    """No stretch of the grid comes nearer than the one chosen, by looking at points on all."""
    grid = a_grid(5)
    on = snapped(grid, points)
    tails, share = grid.tails(), np.linspace(0, 1, 101)[:, None]
    lat = grid.lat[tails] * (1 - share) + grid.lat[grid.head] * share
    lon = grid.lon[tails] * (1 - share) + grid.lon[grid.head] * share
    for point, off in zip(points, on.off_m, strict=True):
        # Near the equator a degree is 110.6 to 111.4 km; points are 11 m apart on the roads.
        least = np.hypot((lat - point[0]) * 110_574, (lon - point[1]) * 111_320).min()
        assert least - 8 <= off <= least + 8


@settings(deadline=None, max_examples=40)
@given(some.lists(some.tuples(some.floats(0, 0.04), some.floats(0, 0.04)), min_size=2, max_size=5))
def test_cutting_roads_changes_no_other_drive(points: list[tuple[float, float]]) -> None:
    """Between the grid's own corners all times are what they were."""
    grid = a_grid(5)
    on = snapped(grid, points)
    corners = [0, 4, 12, 20, 24]

    assert matrix(grid, corners).cs.tolist() == matrix(on.network, corners).cs.tolist()
    assert matrix(grid, corners).dm.tolist() == matrix(on.network, corners).dm.tolist()
