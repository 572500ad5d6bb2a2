import json
import sys
from collections.abc import Sequence
from pathlib import Path

import networkx as nx
import pytest

from runplanner.roads.errors import RoadsError
from runplanner.roads.lines import NO_CLASS, read_geojson, read_graphml
from runplanner.roads.network import Network, lines_of, parts
from runplanner.roads.speeds import changed
from tests.roads.towns import LIGHT, SPEEDS, arcs_of, largest_part

# 0.01 degrees of longitude at the equator: 1,113.195 m, 11,132 dm.
STEP = 11_132
GRAPH = '<graphml xmlns="http://graphml.graphdrawing.org/xmlns">{}</graphml>'


def feature(spots: object, kind: str = "LineString", **tags: object) -> dict[str, object]:
    """One line with its tags."""
    geometry = {"type": kind, "coordinates": spots}
    return {"type": "Feature", "properties": tags, "geometry": geometry}


def geojson(path: Path, features: Sequence[object]) -> Network:
    """Write features and read them."""
    file = path / "roads.geojson"
    file.write_text(json.dumps({"type": "FeatureCollection", "features": features}), "utf-8")
    return largest_part(read_geojson(file, LIGHT, SPEEDS))


def limits(network: Network) -> list[str]:
    """What is told of a network but lines that do not say what they are."""
    return [one for one in network.told() if not one.startswith(NO_CLASS)]


def test_lines_meet_where_they_share_a_point(tmp_path: Path) -> None:
    """Two lines with a common end are one road; a line across them without one is not."""
    made = geojson(
        tmp_path,
        [
            feature([[0, 0], [0.01, 0]]),
            feature([[0.01, 0], [0.02, 0]], highway="track"),
            feature([[0.015, -0.01], [0.015, 0.01]]),
        ],
    )

    # A country road at 45 km/h: 1,113.2 m in 89.06 s; the track at 15 km/h in 267.17 s.
    assert {
        (0, 1, STEP, 8906), (1, 0, STEP, 8906), (1, 2, STEP, 26_717), (2, 1, STEP, 26_717),
    } == arcs_of(made)  # fmt: skip


def test_lines_that_do_not_say_what_they_are_are_told(tmp_path: Path) -> None:
    """Country roads all the same, steps of another name too; of those that are none, nothing."""
    step = [[0, 0], [0.01, 0]]
    rows: list[dict[str, str]] = [
        {},
        {"name": "Steps"},
        {"sort": "steps"},
        {"railway": "rail"},
        {"highway": "track"},
    ]
    made = geojson(tmp_path, [feature(step, "LineString", **tags) for tags in rows])

    assert {"highway '' sort 'steps'", "highway '' name 'steps'", "highway ''"} == set(made.told())


def test_tags_count_as_in_an_extract(tmp_path: Path) -> None:
    """One-way as true, limits, heights, several parts, and a list written as text."""
    ring = [[0, 0, 5.5], [0.01, 0, 5.6], [0, 0, 5.5]]
    made = geojson(
        tmp_path,
        [
            feature([ring[:2], ring[1:]], "MultiLineString", maxspeed=30, oneway=True),
            feature([[0, 0], [0.01, 0]], highway="footway"),
            feature([[0, 0], [0.02, 0]], highway="['primary', 'secondary']", bridge=None),
        ],
    )

    # 30 km/h: 133.58 s; primary at 70 km/h over 2,226.4 m: 114.50 s.
    assert {
        (0, 1, STEP, 13_358), (1, 0, STEP, 13_358), (0, 2, 2 * STEP, 11_450),
        (2, 0, 2 * STEP, 11_450),
    } == {(a, b, dm // 2 * 2, cs) for a, b, dm, cs in arcs_of(made)}  # fmt: skip


@pytest.mark.parametrize(
    ("duration", "minutes"), [("00:30", 50), ("PT1H", 80), ("", 20 + 2 * 1113.2 / 250)]
)
def test_a_ferry_takes_its_crossing_and_the_wait(
    tmp_path: Path, duration: str, minutes: float
) -> None:
    """As in an extract, over all its parts: twenty minutes to board, and what duration says."""
    both_ways = [[[0.01, 0], [0.02, 0]], [[0.02, 0], [0.03, 0]]]
    ferry = feature(both_ways, "MultiLineString", route="ferry", goods="yes", duration=duration)
    file = tmp_path / "roads.geojson"
    roads = [feature([[0, 0], [0.01, 0]]), feature([[0.03, 0], [0.04, 0]])]
    file.write_text(json.dumps({"features": [*roads, ferry]}), "utf-8")
    made = read_geojson(file, LIGHT, changed({"ferry": 15_000}, {}, {}))
    sea = {(made.lon[tail], made.lon[head]): cs for tail, head, _, cs in arcs_of(made)}

    # Without a duration 2,226.4 m at 15 km/h, which are 250 m a minute.
    assert minutes * 6000 == pytest.approx(sea[0.01, 0.02] + sea[0.02, 0.03], rel=2e-3)
    assert (sea[0.01, 0.02], sea[0.02, 0.03]) == (sea[0.03, 0.02], sea[0.02, 0.01])


def test_what_is_no_line_is_passed_over(tmp_path: Path) -> None:
    """Points, areas, features without a shape and things that are no features."""
    made = geojson(
        tmp_path,
        [
            feature([0, 0], "Point"),
            feature([[[0, 0], [1, 0], [1, 1], [0, 0]]], "Polygon"),
            {"type": "Feature", "geometry": None, "properties": None},
            {"type": "Feature"},
            "no feature",
            feature([[0, 0], [0.01, 0]]),
        ],
    )

    assert 2 == made.size


@pytest.mark.parametrize(
    "tags",
    [
        {"waterway": "river"}, {"barrier": "fence"}, {"railway": "rail"}, {"aerialway": "gondola"},
        {"boundary": "administrative"}, {"other_tags": '"natural"=>"coastline"'},
        {"other_tags": {"power": "line"}}, {"other_tags": '{"power": "line"}'},
    ],
)  # fmt: skip
def test_what_is_another_thing_is_no_road(tmp_path: Path, tags: dict[str, object]) -> None:
    """Rivers, fences and rails carry nobody, in a file that has a column for each as well."""
    columns = {"name": "Long", "highway": None, "waterway": None, "barrier": None, "railway": "no"}
    river = feature([[0.01, 0], [0.02, 0]], "LineString", **{**columns, **tags})

    assert 2 == geojson(tmp_path, [feature([[0, 0], [0.01, 0]]), river]).size


@pytest.mark.parametrize(
    "tags",
    [{"railway": "rail", "highway": "road"}, {"barrier": "no"}, {"barrier": ""}, {"name": "Long"},
     {"route": "7"}, {"other_tags": None}, {"other_tags": "{"}, {"other_tags": "[1]"},
     {"other_tags": '{"a": [1]}'}, {"other_tags": "{}"}, {"other_tags": '"railway"=>'}],
)  # fmt: skip
def test_what_does_not_say_what_it_is_is_a_road(tmp_path: Path, tags: dict[str, object]) -> None:
    """So is a street with rails in it, and a line whose other tags nobody can read."""
    lines = [feature([[0, 0], [0.01, 0]]), feature([[0.01, 0], [0.02, 0]], "LineString", **tags)]

    assert 3 == geojson(tmp_path, lines).size


@pytest.mark.parametrize(
    "tags",
    [
        {"route": "hiking"}, {"route": "Hiking"}, {"route": "train"}, {"leisure": "slipway"},
        {"landuse": "forest"}, {"building": "yes"}, {"highway": ["footway", "path"]},
        {"highway": '["footway", "path"]'}, {"highway": "Footway"},
    ],
)  # fmt: skip
def test_what_is_for_others_is_no_road(tmp_path: Path, tags: dict[str, object]) -> None:
    """Trails, railway routes and the edges of things (OpenStreetMap wiki, Key:route and others)."""
    lines = [feature([[0, 0], [0.01, 0]]), feature([[0.01, 0], [0.02, 0]], "LineString", **tags)]

    assert 2 == geojson(tmp_path, lines).size


@pytest.mark.parametrize(
    "said", ["True", "TRUE", "Yes", 1, 1.0, "1.0", True, [True], ["1", "no"]], ids=repr
)
def test_one_way_however_it_is_written(tmp_path: Path, said: object) -> None:
    """As a word in any letters, a figure, a truth or a list: it leads one way."""
    file = tmp_path / "roads.geojson"
    line = feature([[0, 0], [0.01, 0]], "LineString", oneway=said)
    file.write_text(json.dumps({"features": [line]}), "utf-8")

    assert {(0, 1, STEP, 8906)} == arcs_of(read_geojson(file, LIGHT, SPEEDS))


@pytest.mark.parametrize(
    "said", ["False", "no", 0, 0.0, "0.0", False, [False], None, "", []], ids=repr
)
def test_both_ways_however_it_is_written(tmp_path: Path, said: object) -> None:
    """What denies it, or says nothing, leaves a road open both ways."""
    line = feature([[0, 0], [0.01, 0]], "LineString", oneway=said)

    assert 2 == geojson(tmp_path, [line]).size


@pytest.mark.parametrize("said", [["4", "3"], "['4', '3']", "[4, 3]", [4, 3.0], [4, None, [1], 3]])
def test_a_limit_that_is_a_list(tmp_path: Path, said: object) -> None:
    """The least of them counts, here 3 t against a truck of 3.5 t."""
    lines = [feature([[0, 0], [0.01, 0]]), feature([[0.01, 0], [0.02, 0]], maxweight=said)]

    assert 2 == geojson(tmp_path, lines).size


@pytest.mark.parametrize(
    "spot",
    [[0.02, 0], [0.015, 0], [0.015, 0.000008], [0.0150000001, 0, 7.5], [0.01999999999, 0]],
)
def test_a_bollard_on_a_line_shuts_it(tmp_path: Path, spot: list[float]) -> None:
    """On one of its points or between two of them, up to a metre aside."""
    line = feature([[0, 0], [0.01, 0], [0.02, 0], [0.03, 0]])
    post = feature(spot, "Point", barrier="bollard", name="Post")
    others = [
        feature([0.005, 0], "Point", name="Oak"),
        feature([0.005, 0.01], "Point", barrier="log"),
    ]
    file = tmp_path / "roads.geojson"
    file.write_text(json.dumps({"features": [post, line, *others]}), "utf-8")
    made = read_geojson(file, LIGHT, SPEEDS)

    assert 2 == largest_part(made).size
    assert ["barrier 'bollard'"] == lines_of(made.causes)


def test_gates_and_limits_on_a_line(tmp_path: Path) -> None:
    """Two gates cost a minute each; a limit that cannot be read is told."""
    line = feature([[0, 0], [0.01, 0]])
    gates = feature([[0.004, 0], [0.006, 0]], "MultiPoint", barrier="gate")
    odd = feature([0.005, 0], "Point", maxweight="heavy")
    made = geojson(tmp_path, [line, gates, odd])

    # Four stretches of 0.004, 0.001, 0.001 and 0.004 degrees, 89.06 s in all.
    assert 8906 + 2 * 6000 == pytest.approx(
        sum(cs for a, b, _, cs in arcs_of(made) if made.lon[a] < made.lon[b]), abs=4
    )
    assert ["maxweight 'heavy'"] == limits(made)


Line = list[list[float]]
THROUGH: Line = [[0, 0], [0.01, 0], [0.02, 0]]
LANE: Line = [[0.01, 0], [0.01, 0.005]]
OVER: Line = [[0, 0], [0.02, 0]]
UNDER: Line = [[0.01, -0.005], [0.01, 0.005]]
LOOP: Line = [[0, 0], [0.02, 0], [0.02, 0.005], [0.01, 0.005], [0.01, -0.005]]


def read_with(path: Path, post: object, lines: Sequence[object]) -> Network:
    """All parts of a file with a point and lines."""
    file = path / "roads.geojson"
    file.write_text(json.dumps({"features": [post, *lines]}), "utf-8")
    return read_geojson(file, LIGHT, SPEEDS)


def part_at(made: Network, spot: Sequence[float]) -> int:
    """Which part of the network the node at a spot is in."""
    (node, *_) = [
        node for node in range(made.size)
        if [made.lon[node], made.lat[node]] == pytest.approx(spot, abs=1e-9)
    ]  # fmt: skip
    return int(parts(made)[node])


@pytest.mark.parametrize(
    ("spot", "lines", "shut"),
    [
        # 0.000009 degrees are a metre: so far up the lane it is the lane's alone.
        ([0.01, 0.000008], [THROUGH, LANE], [LANE]),
        ([0.01, 0], [THROUGH, LANE], [THROUGH, LANE]),
        ([0.01, 0], [OVER, [UNDER[0], [0.01, 0], UNDER[1]]], [UNDER]),
        ([0.01, 0.000008], [OVER, UNDER], [UNDER]),
        ([0.0099998, 0.000003], [THROUGH[:2], THROUGH[1:]], [THROUGH[:2]]),
        ([0.01, 0.0049995], [THROUGH, LANE], [LANE]),
        ([0.005, 0.000002], [OVER, OVER[::-1]], [OVER, OVER[::-1]]),
        ([0.01, 0.0000079], [OVER, [[0.01, 0.000008], [0.01, 0.005]]], []),
    ],
)
def test_a_point_stands_on_one_road(
    tmp_path: Path, spot: list[float], lines: list[Line], shut: list[Line]
) -> None:
    """On those that have it as their own, else on the nearest."""
    post = feature(spot, "Point", barrier="bollard")
    made = read_with(tmp_path, post, [feature(line) for line in lines])
    ends = [[line[0], line[-1]] for line in lines]

    assert [] == limits(made)
    assert [[line[0], line[-1]] for line in shut] == [
        [a, b] for a, b in ends if part_at(made, a) != part_at(made, b)
    ]


@pytest.mark.parametrize(
    ("spot", "lines"),
    [
        ([0.01, 0], [OVER, UNDER]),
        ([0.010001, 0.000002], [OVER, UNDER]),
        ([0.01, 0.000003], [THROUGH, LANE]),
        ([0.01, 0], [LOOP]),
        ([0.01, 0.0000035], [OVER, [[0.01, 0.000004], [0.01, 0.005]]]),
        ([0.0100002, -0.0000002], [THROUGH[:2], LANE]),
    ],
)
def test_a_point_of_no_one_road_is_heeded_on_none(
    tmp_path: Path, spot: list[float], lines: list[Line]
) -> None:
    """Where several are as near, a low bridge shuts none and a gate joins none; it is told."""
    roads = [feature(line) for line in lines]
    bare = read_with(tmp_path, feature(spot, "Point", name="Oak"), roads)
    for tags in ({"maxweight": "1"}, {"barrier": "gate"}):
        made = read_with(tmp_path, feature(spot, "Point", **tags), roads)
        (key, value), *_ = tags.items()

        assert arcs_of(bare) == arcs_of(made)
        assert [f"({spot[1]:.5f}, {spot[0]:.5f}) {key} {value!r}"] == limits(made)


def test_a_point_of_a_footway_stands_there(tmp_path: Path) -> None:
    """The road it runs along or over stays as it is, and nothing is told."""
    path = feature([UNDER[0], [0.01, 0.000005], UNDER[1]], highway="footway")
    post = feature([0.01, 0.000005], "Point", barrier="bollard")
    made = read_with(tmp_path, post, [feature(OVER), path])

    assert (2, []) == (made.size, limits(made))


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_of_several_points_at_one_spot_the_worst_counts(
    tmp_path: Path, order: tuple[int, int]
) -> None:
    """A gate beside a bollard opens nothing, and what cannot be read is told of both."""
    kinds = ({"barrier": "gate", "maxwidth": "x"}, {"barrier": "bollard", "maxwidth": "y"})
    posts = [feature([0.01, 0], "Point", **kinds[one]) for one in order]
    made = read_with(tmp_path, posts[0], [posts[1], feature(THROUGH)])

    assert part_at(made, THROUGH[0]) != part_at(made, THROUGH[2])
    assert {"maxwidth 'x'", "maxwidth 'y'"} == set(limits(made))
    crossing = read_with(tmp_path, posts[0], [posts[1], feature(OVER), feature(UNDER)])
    assert {f"(0.00000, 0.01000) barrier '{kind['barrier']}', maxwidth '{kind['maxwidth']}'"
            for kind in kinds} == set(limits(crossing))  # fmt: skip


def test_points_that_are_no_points(tmp_path: Path) -> None:
    """One at which something stands must lie on the earth; others are passed over."""
    line = feature([[0, 0], [0.01, 0]])

    assert 2 == geojson(tmp_path, [line, feature(["x"], "Point", name="Odd")]).size
    with pytest.raises(RoadsError, match="feature 2 has no points"):
        geojson(tmp_path, [line, feature(["x"], "Point", barrier="gate")])


def test_a_barrier_at_a_node(tmp_path: Path) -> None:
    """A bollard at a node of a graph shuts it, a gate costs a minute."""
    graph: nx.Graph[object] = nx.path_graph(4)
    for node in graph:
        graph.add_node(node, x=0.01 * float(str(node)), y=0.0)
    graph.add_node(1, barrier="gate")
    graph.add_node(2, barrier="bollard")

    assert {(0, 1, STEP, 14_906), (1, 0, STEP, 8906)} == arcs_of(graphml(tmp_path, graph))


@pytest.mark.parametrize(
    "others",
    [
        '"maxweight"=>"1"', '"note"=>"a \\\\ \\"=>\\" b", "maxweight" => "1"',
        '{"maxweight": "1"}', {"maxweight": 1},
    ],
)  # fmt: skip
def test_limits_among_the_other_tags(tmp_path: Path, others: object) -> None:
    """Pairs or JSON, as GDAL writes what has no column; a column of its own comes first."""
    road = [[0.01, 0], [0.02, 0]]
    first = feature([[0, 0], [0.01, 0]])
    weak = feature(road, highway="road", other_tags=others)

    assert 2 == geojson(tmp_path, [first, weak]).size
    strong = feature(road, highway="road", maxweight="9", other_tags=others)
    assert 3 == geojson(tmp_path, [first, strong]).size


@pytest.mark.parametrize(
    "text",
    [
        "", "{", "[]", "null", '{"features": {}}', "[" * 100_000,
        '{"features": [' + json.dumps(feature([[0, 0], [0, 91]])) + "]}",
        '{"features": [' + json.dumps(feature([[181, 0], [0, 0]])) + "]}",
        '{"features": [' + json.dumps(feature([[500_000, 6_000_000], [1, 1]])) + "]}",
        '{"features": [' + json.dumps(feature([[0], [0, 1]])) + "]}",
        '{"features": [' + json.dumps(feature([["0", 0], [0, 1]])) + "]}",
        '{"features": [' + json.dumps(feature([[True, 0], [0, 1]])) + "]}",
        '{"features": [' + json.dumps(feature("line")) + "]}",
        '{"features": [' + json.dumps(feature("line", "MultiLineString")) + "]}",
        '{"features": [{"geometry": {"type": "LineString", "coordinates": [[NaN, 0], [0, 1]]}}]}',
        '{"features": [{"geometry": {"type": "LineString", "coordinates": [[1' + "0" * 4000
        + ", 0], [0, 1]]}}]}",
        '{"features": [{"geometry": {"type": "LineString", "coordinates": [[1' + "0" * 5000
        + ", 0], [0, 1]]}}]}",
    ],
)  # fmt: skip
def test_strange_geojson_is_refused(tmp_path: Path, text: str) -> None:
    """Broken, nested, projected or otherwise strange files are refused in words."""
    file = tmp_path / "a.geojson"
    file.write_text(text, "utf-8")

    with pytest.raises(RoadsError, match="GeoJSON"):
        read_geojson(file, LIGHT, SPEEDS)


def test_bytes_and_sizes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Other bytes than UTF-8, a missing file, and one that is too large."""
    file = tmp_path / "a.geojson"
    file.write_bytes(b"\xff\xfe{")
    with pytest.raises(RoadsError, match="UTF-8"):
        read_geojson(file, LIGHT, SPEEDS)
    with pytest.raises(RoadsError, match="No such file"):
        read_geojson(tmp_path / "none.geojson", LIGHT, SPEEDS)
    monkeypatch.setattr("runplanner.roads.lines.LARGEST_BYTES", 1)
    with pytest.raises(RoadsError, match="Cut out your region"):
        read_geojson(file, LIGHT, SPEEDS)


def graphml(path: Path, graph: "nx.Graph[object]") -> Network:
    """Write a graph by networkx and read it."""
    file = path / "roads.graphml"
    nx.write_graphml_xml(graph, str(file))
    return read_graphml(file, LIGHT, SPEEDS)


def test_an_undirected_graph_is_driven_both_ways(tmp_path: Path) -> None:
    """Nodes with x and y; an edge without tags is a country road."""
    graph: nx.Graph[object] = nx.Graph()
    graph.add_node("a", x=0.0, y=0.0)
    graph.add_node("b", x="0.01", y="0.0")
    graph.add_edge("a", "b")

    assert {(0, 1, STEP, 8906), (1, 0, STEP, 8906)} == arcs_of(graphml(tmp_path, graph))


def test_a_directed_graph_is_driven_as_it_points(tmp_path: Path) -> None:
    """Each edge is one way; typed lengths count; the shape's inner points are drawn."""
    graph: nx.MultiDiGraph[object] = nx.MultiDiGraph()
    graph.add_node(1, lon=0.0, lat=0.0)
    graph.add_node(2, lon=0.01, lat=0.0)
    graph.add_edge(1, 2, highway="primary", length="2000", oneway="False",
                   geometry="LINESTRING (0 0, 0.005 0.001, 0.01 0)")  # fmt: skip
    graph.add_edge(2, 1, highway="primary", length=1500.0, geometry="POINT (1 1)")
    made = graphml(tmp_path, graph)

    # 1,000 m at 70 km/h twice, 51.43 s each; back 1,500 m in 77.14 s.
    assert {(0, 1, 10_000, 5143), (1, 2, 10_000, 5143), (2, 0, 15_000, 7714)} == arcs_of(made)
    assert 0.001 == pytest.approx(made.lat[1])


@pytest.mark.parametrize("ends", ["ab", "ba"])
def test_the_shape_of_an_edge_may_begin_at_either_end(tmp_path: Path, ends: str) -> None:
    """Without a direction, nodes come in any order; the road is as long either way."""
    graph: nx.Graph[object] = nx.Graph()
    for node in ends:
        graph.add_node(node, x=0.02 if node == "b" else 0.0, y=0.0)
    shape = "LINESTRING (0 0, 0.005 0, 0.01 0, 0.0200005 0)"
    graph.add_edge("a", "b", geometry=shape)
    made = graphml(tmp_path, graph)

    # Half, half and twice of 0.01 degrees, there and back.
    assert [5566, 5566, 5566, 5566, STEP, STEP] == sorted(made.dm.tolist())


@pytest.mark.parametrize(
    ("length", "shape"),
    [
        ("0", "LINESTRING (0 0, 0.005 0, 0.0111 0)"),
        ("0", "LINESTRING (0 0.0011, 0.005 0, 0.01 0)"),
        ("0", "LINESTRING (5 5, 6 6, 7 7)"), ("0", "LINESTRING (0 0)"),
        ("nan", "LINESTRING (0 0, x y, 0.01 0)"), ("-5", "LINESTRING (0 0, 5, 0.01 0)"),
        ("long", "LINESTRING (0 0, 200 95, 0.01 0)"), ("1e99", "LINESTRING"),
    ],
)  # fmt: skip
def test_a_shape_or_length_that_cannot_be_read_is_left_out(
    tmp_path: Path, length: str, shape: str
) -> None:
    """The straight line between the nodes stands in."""
    graph: nx.Graph[object] = nx.Graph()
    graph.add_node("a", x=0.0, y=0.0)
    graph.add_node("b", x=0.01, y=0.0)
    graph.add_edge("a", "b", length=length, geometry=shape)

    assert {(0, 1, STEP, 8906), (1, 0, STEP, 8906)} == arcs_of(graphml(tmp_path, graph))


def test_limits_of_edges_and_lines_that_cannot_be_read(tmp_path: Path) -> None:
    """Told with the network, most frequent first; a road that is shut anyhow tells nothing."""
    graph: nx.Graph[object] = nx.Graph()
    graph.add_node("a", x=0.0, y=0.0)
    graph.add_node("b", x=0.01, y=0.0)
    graph.add_edge("a", "b", maxweight="heavy")
    line = [[0, 0], [0.01, 0]]
    rows = [{"maxweight": "odd"}, {"maxweight": "heavy"}, {"maxweight": "heavy"},
            {"maxweight": "shut", "access": "no"}]  # fmt: skip

    assert ["maxweight 'heavy'"] == limits(graphml(tmp_path, graph))
    assert ["maxweight 'heavy' x 2", "maxweight 'odd'"] == (
        limits(geojson(tmp_path, [feature(line, **row) for row in rows]))
    )


def test_an_edge_a_truck_may_not_use(tmp_path: Path) -> None:
    """A footpath is left out of the network."""
    graph: nx.Graph[object] = nx.path_graph(3)
    for node in graph:
        graph.add_node(node, x=0.01 * float(str(node)), y=0.0)
    graph.add_edge(1, 2, highway="footway")

    assert 2 == graphml(tmp_path, graph).size


@pytest.mark.parametrize(
    "text",
    [
        "", "<graphml>", "no xml", "<a/>",
        '<!DOCTYPE g [<!ENTITY a "b">]><graphml/>',
        '<!-- x --><!DOCTYPE g SYSTEM "file:///etc/hostname"><graphml/>',
        GRAPH.format('<graph edgedefault="undirected"><node id="a"/></graph>'),
        GRAPH.format('<graph><edge source="a"/></graph>'),
    ],
)  # fmt: skip
def test_strange_graphml_is_refused(tmp_path: Path, text: str) -> None:
    """Broken files, document types with entities, and nodes without a place."""
    file = tmp_path / "a.graphml"
    file.write_text(text, "utf-8")

    with pytest.raises(RoadsError, match="GraphML"):
        read_graphml(file, LIGHT, SPEEDS)


def test_without_networkx_the_cure_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the library is missing the error names the extra to install."""
    file = tmp_path / "a.graphml"
    file.write_text("<graphml/>", "utf-8")
    monkeypatch.setitem(sys.modules, "networkx", None)

    with pytest.raises(RoadsError, match=r"networkx is not installed.*runplanner\[roads\]"):
        read_graphml(file, LIGHT, SPEEDS)
