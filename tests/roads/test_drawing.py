import pytest

from runplanner.roads.drawing import Drawing
from runplanner.roads.speeds import KINDS
from runplanner.roads.tags import SHUT, Road
from tests.roads.towns import arcs_of, largest_part

FAST = Road(KINDS.index("primary"), 60_000, 60_000)
ONE_WAY = Road(KINDS.index("primary"), 36_000, 0)


def a_row(drawing: Drawing, count: int = 4) -> list[int]:
    """Points 0.001 degrees of longitude apart on the equator: 111.32 m, 1,113 dm each."""
    return [drawing.point(f"p{n}", 0.0, 0.001 * n) for n in range(count)]


def test_a_road_both_ways() -> None:
    """Lengths come from the points, times from the class."""
    drawing = Drawing()
    drawing.line(a_row(drawing, 2), FAST)

    # 6,378,137 m x pi/180 x 0.001 = 111.32 m; at 60 km/h 6.678 s, 668 hundredths.
    assert {(0, 1, 1113, 668), (1, 0, 1113, 668)} == arcs_of(drawing.network())
    assert 1 == len(drawing)


def test_a_typed_length_is_shared_out() -> None:
    """A road of 400 m through two equal stretches counts 200 m for each."""
    drawing = Drawing()
    drawing.line(a_row(drawing, 3), FAST, 400)

    assert {2000} == {dm for _, _, dm, _ in arcs_of(drawing.network())}


def test_one_way_rings_are_driven_round() -> None:
    """A one-way ring hangs together; each arc goes one way."""
    drawing = Drawing()
    row = a_row(drawing, 3)
    drawing.line([*row, row[0]], ONE_WAY)

    # 111.32 m at 36 km/h = 10 m/s are 11.13 s; the way back is twice as long.
    assert {(0, 1, 1113, 1113), (1, 2, 1113, 1113), (2, 0, 2226, 2226)} == arcs_of(
        drawing.network()
    )


def test_a_gate_costs_time_on_the_way_through_it() -> None:
    """A minute at the middle point is lost by whoever reaches it, from either side."""
    drawing = Drawing()
    drawing.line(a_row(drawing, 3), FAST)
    drawing.waits = {"p1": 60, "not there": 60}

    assert {
        (0, 1, 1113, 6668),
        (2, 1, 1113, 6668),
        (1, 0, 1113, 668),
        (1, 2, 1113, 668),
    } == arcs_of(drawing.network())


def test_nobody_passes_a_bollard() -> None:
    """A shut point cuts the road; the larger side stays."""
    drawing = Drawing()
    drawing.line(a_row(drawing, 6), FAST)
    drawing.waits = {"p2": SHUT}
    made = largest_part(drawing.network())

    assert [0.003, 0.004, 0.005] == pytest.approx(made.lon.tolist())


def test_points_are_known_by_their_key() -> None:
    """The same key is the same point; a road that stays on one spot is none."""
    drawing = Drawing()
    a, again = drawing.point("a", 0, 0), drawing.point("a", 5, 5)
    drawing.line([a, again], FAST)

    assert (a, None, 0) == (again, drawing.find("b"), len(drawing))
    assert a == drawing.find("a")


def test_nothing_drawn_is_a_network_of_nothing() -> None:
    """No road at all gives a network without arcs, not an error."""
    assert 0 == len(Drawing().network().head)


def test_roads_cut_at_the_date_line_are_joined() -> None:
    """What ends at 180 degrees east goes on at 180 west, at the same latitude."""
    drawing = Drawing()
    east = [drawing.point("a", 0.0, 179.999), drawing.point("b", 0.0, 180.0)]
    west = [drawing.point("c", 0.0, -180.0), drawing.point("d", 0.0, -179.999)]
    drawing.line(east, FAST)
    drawing.line(west, FAST)
    drawing.line([drawing.point("e", 0.001, -180.0), drawing.point("f", 0.001, -179.999)], FAST)

    made = drawing.network()
    assert {(0, 1), (1, 0), (1, 2), (2, 1)} == {arc[:2] for arc in arcs_of(largest_part(made))}
    assert drawing.find("b") == drawing.find("c")
    assert 5 == made.size
