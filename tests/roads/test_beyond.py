"""Which part of a file's roads a truck drives in, and what keeps it from the others."""

import json
from collections.abc import Sequence
from pathlib import Path

import networkx as nx
import pytest

from runplanner.roads.beyond import Bar, Beyond, reached_from, with_lanes
from runplanner.roads.drawing import Drawing
from runplanner.roads.lines import read_geojson, read_graphml
from runplanner.roads.matrix import matrix
from runplanner.roads.network import Network, only
from runplanner.roads.osm import read_osm
from runplanner.roads.snap import snapped
from runplanner.roads.speeds import KINDS
from runplanner.roads.tags import SHUT, Road
from runplanner.roads.turns import Turn, with_turns
from tests.roads.towns import LIGHT, SPEEDS, Arc, both, town, write_extract

WAY = Road(KINDS.index("unclassified"), 36_000, 36_000)
AHEAD = Road(KINDS.index("unclassified"), 36_000, 0)
# Along the equator a hundredth of a degree is 1,113 m: home's side 0 to 2, the other 3 to 6.
HERE, THERE = (0, 1, 2), (3, 4, 5, 6)


def drawn(*roads: tuple[Sequence[float], Road | str], shut: str = "") -> Network:
    """Roads through points on the equator, with what bars them in place of a road."""
    drawing = Drawing()
    for spots, road in roads:
        points = [drawing.point(spot, 0.0, 0.01 * spot) for spot in spots]
        if isinstance(road, str):
            drawing.barred(points, road)
        else:
            drawing.line(points, road)
    if shut:
        drawing.waits, drawing.shut_by = {2: SHUT}, {2: shut}
    return drawing.network()


def kept(network: Network, home: tuple[float, float]) -> list[int]:
    """The points of the part that home lies in."""
    mine = only(network, reached_from(network, home))
    return sorted(round(lon * 100) for lon in mine.lon.tolist())


def bar(network: Network, home: tuple[float, float], place: tuple[float, float]) -> Bar | None:
    """What keeps a truck at home from a place's road."""
    return Beyond(network, reached_from(network, home)).bar(place)


@pytest.mark.parametrize("sign", ["maxweight '2'", "motor_vehicle 'no'"])
def test_a_place_behind_a_sign(sign: str) -> None:
    """Its road is 111 m off, and the sign is named; a place on home's side has none."""
    made = drawn((THERE, WAY), ((3, 2), sign), ((2, 1), WAY))

    # Home at point 5; 0.001 degrees of latitude are 110.6 m.
    assert bar(made, (0.0, 0.05), (0.001, 0.015)) == Bar(sign, 111)
    assert bar(made, (0.0, 0.05), (0.001, 0.055)) is None
    assert bar(made, (0.0, 0.05), (0.001, 0.025)) == Bar(sign, 111, own=True)
    assert sign.startswith("max") == Bar(sign, 111).limit


def test_of_two_signs_the_limit_counts() -> None:
    """A shut road first, then a weak bridge: the bridge is what no leave helps with."""
    made = drawn((THERE, WAY), ((3, 2), "access 'no'"), ((2, 1), "maxweight '2'"), ((1, 0), WAY))

    assert bar(made, (0.0, 0.05), (0.0, 0.0)) == Bar("maxweight '2'", 0)


def test_the_way_with_the_fewest_signs_tells() -> None:
    """One shut road round is nearer than three weak bridges straight on."""
    made = drawn(
        (THERE, WAY), *(((a, b), "maxweight '2'") for a, b in ((3, 2), (2, 1), (1, 0))),
        ((0, 9, 8), WAY), ((8, 4), "access 'no'"),
    )  # fmt: skip

    assert bar(made, (0.0, 0.05), (0.0, 0.085)) == Bar("access 'no'", 0)


def test_a_motorway_is_nobodys_road() -> None:
    """A place nearer to one than to the road behind the sign is still behind the sign."""
    motorway = Road(KINDS.index("motorway"), 36_000, 36_000)
    made = drawn((THERE, WAY), ((3, 2), "maxweight '2'"), ((2, 1), WAY), ((1, 0), motorway))

    # 0.002 degrees of longitude from point 1, where the motorway begins: 223 m.
    assert bar(made, (0.0, 0.05), (0.0, 0.008)) == Bar("maxweight '2'", 223)


def test_a_gate_that_nobody_opens() -> None:
    """A point bars the stretches on both its sides."""
    made = drawn(((0, 1, 2, 3, 4, 5), WAY), shut="access 'no'")

    assert [3, 4, 5] == kept(made, (0.0, 0.05))
    assert bar(made, (0.0, 0.05), (0.0, 0.005)) == Bar("access 'no'", 0)


def test_roads_that_no_sign_keeps_apart() -> None:
    """One that leads there only, or that the map does not join, is behind no sign."""
    made = drawn((THERE, WAY), ((3, 2), AHEAD), ((2, 1), WAY), ((8, 9), WAY))

    assert bar(made, (0.0, 0.05), (0.0, 0.015)) is None
    assert bar(made, (0.0, 0.05), (0.0, 0.085)) is None


@pytest.mark.parametrize(
    ("between", "home", "points"),
    [
        (None, 0.01, HERE),
        ("maxweight '2'", 0.01, HERE),
        # Who lives behind a shut road has leave to drive it.
        ("access 'no'", 0.01, THERE),
        (AHEAD, 0.01, THERE),
        (None, 0.05, THERE),
    ],
)
def test_home_says_which_part(
    between: Road | str | None, home: float, points: tuple[int, ...]
) -> None:
    """The largest part is driven, unless home is kept in another by a limit or by water."""
    roads: list[tuple[Sequence[float], Road | str]] = [(THERE, WAY), (HERE, WAY)]
    if between is not None:
        roads.append(((2, 3), between))

    assert list(points) == kept(drawn(*roads), (0.0, home))


def test_a_home_near_the_largest_part_drives_out_into_it() -> None:
    """Whatever lies between, for 300 m it is not asked: a home in a street with a limit."""
    for end, points in ((2.72, [0, 1, 3]), (2.74, [3, 4, 5, 6])):
        # 0.0028 degrees of longitude are 312 m, 0.0026 are 289.
        made = drawn((THERE, WAY), ((0, 1, end), WAY), ((end, 3), "maxweight '2'"))
        assert points == kept(made, (0.0, 0.01 * end))


def test_a_short_road_that_nothing_joins_is_a_slip() -> None:
    """A drive of 445 m that the map forgot to join does not keep home in; a longer road does."""
    drawing = Drawing()
    drawing.line([drawing.point(n, 0.0, 0.01 * n) for n in THERE], WAY)
    drawing.line([drawing.point("a", 0.0, 0.0), drawing.point("b", 0.0, 0.004)], WAY)

    assert [3, 4, 5, 6] == kept(drawing.network(), (0.0, 0.002))


def test_a_home_far_from_all_roads_drives_in_the_largest() -> None:
    """Half a kilometre off either part there is no telling."""
    # 0.005 degrees of latitude are 553 m.
    assert list(THERE) == kept(drawn((THERE, WAY), (HERE, WAY)), (0.005, 0.01))


def test_roads_nobody_comes_back_from() -> None:
    """One-way roads alone have no part with a road in it, and no road at all has none."""
    assert 1 == len(kept(drawn(((0, 1, 2), AHEAD)), (0.0, 0.0)))
    assert [] == kept(Drawing().network(), (0.0, 0.0))


CAUSES = [
    ({"maxweight": "2"}, "maxweight '2'"),
    ({"maxwidth": "2 m", "motor_vehicle": "no"}, "maxwidth '2 m'"),
    ({"access": "no"}, "access 'no'"),
    ({"motor_vehicle": "military", "access": "yes"}, "motor_vehicle 'military'"),
    ({"oneway": "reversible"}, ""),
    ({"area": "yes"}, ""),
    ({"highway": "footway", "access": "no"}, ""),
    ({"highway": "path", "route": "ferry"}, ""),
    ({"highway": "motorway_link", "access": "no"}, ""),
]


@pytest.mark.parametrize(("tags", "sign"), CAUSES)
def test_every_reader_notes_signs(tmp_path: Path, tags: dict[str, str], sign: str) -> None:
    """From lines, a graph and an extract: a road that the truck is kept off, and by what."""
    says = {"highway": "tertiary", **tags}
    extract = write_extract(
        tmp_path / "a.osm.pbf", {1: (0.0, 0.0), 2: (0.0, 0.01)}, [((1, 2), says)]
    )
    lines = tmp_path / "a.geojson"
    line = {"type": "LineString", "coordinates": [[0.0, 0.0], [0.01, 0.0]]}
    lines.write_text(json.dumps({"features": [{"properties": says, "geometry": line}]}))
    graph: nx.Graph[object] = nx.Graph()
    graph.add_node("a", x=0.0, y=0.0)
    graph.add_node("b", x=0.01, y=0.0)
    graph.add_edge("a", "b", **says)
    nx.write_graphml_xml(graph, str(tmp_path / "a.graphml"))

    for network in (
        read_osm(extract, LIGHT, SPEEDS),
        read_geojson(lines, LIGHT, SPEEDS),
        read_graphml(tmp_path / "a.graphml", LIGHT, SPEEDS),
    ):
        assert ([0, 1, 0] if sign else []) == network.barred.tolist()
        assert ([sign] if sign else []) == "".join(map(chr, network.causes.tolist())).splitlines()


@pytest.mark.parametrize(
    ("point", "sign"),
    [
        ({"barrier": "bollard"}, "barrier 'bollard'"),
        ({"barrier": "gate", "access": "no"}, "access 'no'"),
        ({"barrier": "height_restrictor", "maxwidth": "2"}, "maxwidth '2'"),
    ],
)
def test_an_extract_notes_signs_at_points(tmp_path: Path, point: dict[str, str], sign: str) -> None:
    """What stands on a road bars it there."""
    nodes = {n: (0.0, 0.01 * n) for n in range(4)}
    file = write_extract(
        tmp_path / "a.osm.pbf", nodes, [((0, 1, 2, 3), {"highway": "road"})], points={1: point}
    )
    made = read_osm(file, LIGHT, SPEEDS)

    assert [0, 1, 0, 1, 2, 0] == made.barred.tolist()
    assert sign == "".join(map(chr, made.causes.tolist()))


SIDE_ROAD = [(0.0, 0.0), (0.0, 0.01), (0.0, 0.02), (0.01, 0.01), (0.02, 0.0), (0.02, 0.01)]
# A road 0, 1, 2 with a side road 1, 3; one way on from its end to 2, or in by 4 and out to 5.
ROADS = both((0, 1, 1000, 100), (1, 2, 1000, 100), (1, 3, 1000, 100))
ON = [*ROADS, (3, 2, 900, 400)]
IN = [*ROADS, (0, 4, 900, 400), (4, 3, 900, 400), (3, 5, 900, 100)]


def to_and_fro(
    ways: Sequence[Arc], signs: Sequence[Turn], *places: tuple[float, float]
) -> list[tuple[int, int, int]]:
    """Hundredths of a second from node 0 to each place and back, and how far off it lies."""
    whole = with_turns(town(ways, SIDE_ROAD), signs)
    reached = reached_from(whole, SIDE_ROAD[0])
    used = with_lanes(whole, reached)
    on = snapped(only(whole, used), [SIDE_ROAD[0], *places], reached[used])
    cs = matrix(on.network, on.nodes).cs
    return list(zip(cs[0, 1:].tolist(), cs[1:, 0].tolist(), on.off_m[1:], strict=True))


@pytest.mark.parametrize(
    ("ways", "turning"),
    [(ON, ()), (ON, ((0, 1), (2, 1))), (IN, ()), (IN, ((1, 3),)), (IN, ((0, 1), (2, 1), (1, 3)))],
)
def test_who_stops_on_a_side_road_comes_and_leaves_by_its_mouth(
    ways: Sequence[Arc], turning: Sequence[tuple[int, int]]
) -> None:
    """Where nobody turns round at its mouth, or at its end, who drives by has one way alone."""
    signs = [Turn(before, junction, before, only=False) for before, junction in turning]

    # A quarter along the side road, and at its end.
    found = to_and_fro(ways, signs, (0.0025, 0.01), (0.01, 0.01))
    assert [(125, 125, 0), (200, 200, 0)] == found


def test_a_road_that_no_turn_leads_into_serves_no_place() -> None:
    """A place beside the way from 3 to 2 goes onto the next road once nobody may enter that."""
    beside = (0.005, 0.015)
    ((_, _, off_m),) = to_and_fro(ON, (), beside)
    assert 0 == off_m

    ((there, back, off_m),) = to_and_fro(ON, [Turn(1, 3, 2, only=False)], beside)
    # Half-way up the side road, or half-way along the road behind the junction.
    assert (150, 150) == (there, back)
    assert 550 < off_m < 560
