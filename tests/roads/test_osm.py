import subprocess
import sys
from pathlib import Path

import pytest

from runplanner.roads.errors import RoadsError
from runplanner.roads.matrix import matrix
from runplanner.roads.network import Box, Network
from runplanner.roads.osm import read_osm
from runplanner.roads.snap import snapped
from runplanner.roads.speeds import Speeds, changed
from runplanner.roads.vehicle import Vehicle
from tests.roads.towns import HEAVY, LIGHT, SPEEDS, Way, largest_part, write_extract

osmium = pytest.importorskip("osmium", reason="no osmium here: extracts were NOT read")
# Nodes 1..9 on a grid of 0.01 degrees: 1 2 3 in the south, 4 5 6 in the middle, 7 8 9 north.
NODES = {n + 1: (0.01 * (n // 3), 0.01 * (n % 3)) for n in range(9)}
ROAD = {"highway": "secondary"}


def read(
    path: Path, ways: list[Way], vehicle: Vehicle = LIGHT, box: Box | None = None, **more: object
) -> Network:
    """Write an extract and read it."""
    path.mkdir(exist_ok=True)
    file = write_extract(path / "town.osm.pbf", NODES, ways, **more)  # type: ignore[arg-type]
    return largest_part(read_osm(file, vehicle, SPEEDS, box))


def spots(network: Network) -> set[int]:
    """The grid's numbers of a network's nodes."""
    return {
        round(lat * 100) * 3 + round(lon * 100) + 1
        for lat, lon in zip(network.lat.tolist(), network.lon.tolist(), strict=True)
    }


def drive(network: Network, here: int, there: int) -> int:
    """Hundredths of a second from one grid node to another."""
    on = snapped(network, [NODES[here], NODES[there]])
    return int(matrix(on.network, on.nodes).cs[0, 1])


def test_roads_are_read_and_others_are_not(tmp_path: Path) -> None:
    """A road and a street make the network; a footpath, a river and an area do not."""
    made = read(
        tmp_path,
        [((1, 2, 3), ROAD), ((2, 5), {"highway": "residential"}), ((3, 6), {"highway": "footway"}),
         ((5, 8), {"waterway": "river"}), ((6, 9), {"highway": "service", "area": "yes"})],
    )  # fmt: skip

    assert {1, 2, 3, 5} == spots(made)
    # 0.01 degrees along the equator: 1,113.195 m, 11,132 dm; at 60 km/h 66.79 s.
    assert 6679 == drive(made, 1, 2)


def test_one_way_and_the_largest_part(tmp_path: Path) -> None:
    """A one-way road into a dead end, and an island, fall away."""
    made = read(
        tmp_path,
        [((1, 2, 3), ROAD), ((3, 6), {**ROAD, "oneway": "yes"}), ((8, 9), ROAD)],
    )

    assert {1, 2, 3} == spots(made)


@pytest.mark.parametrize(
    ("limit", "heavy_gets_over"),
    [
        ({"maxweight": "5"}, False),
        ({"maxwidth": "2.3"}, False),
        ({"maxheight": "3"}, False),
        ({"hgv": "no"}, False),
        ({"maxweight": "7.5"}, True),
    ],
)
def test_a_bridge_with_a_limit(
    tmp_path: Path, limit: dict[str, str], *, heavy_gets_over: bool
) -> None:
    """The light truck takes the bridge 1-2-3, the heavy one may have to go round by 4-5-6."""
    ways: list[Way] = [((1, 2, 3), {**ROAD, **limit}), ((1, 4, 5, 6, 3), ROAD)]

    assert 2 in spots(read(tmp_path, ways, LIGHT))
    assert heavy_gets_over == (2 in spots(read(tmp_path, ways, HEAVY)))
    assert 6 in spots(read(tmp_path, ways, HEAVY))


def test_gates_and_bollards(tmp_path: Path) -> None:
    """A gate costs a minute each way; a bollard shuts the way through."""
    ways: list[Way] = [((1, 2, 3), ROAD), ((1, 4, 5, 6, 3), ROAD)]
    gated = read(tmp_path / "gate", ways, points={2: {"barrier": "gate"}})
    shut = read(tmp_path / "bollard", ways, points={2: {"barrier": "bollard"}})

    # Two stretches of 66.79 s and 60 s, against four by the other road: about 267 s.
    assert 2 * 6679 + 6000 == drive(gated, 1, 3)
    assert 26_000 < drive(shut, 1, 3)


@pytest.mark.parametrize(
    "tags",
    [
        {"maxheight": "2"},
        {"maxheight:physical": "2"},
        {"maxweight": "2"},
        {"maxweightrating:hgv": "2"},
        {"maxwidth": "2"},
        {"maxheight:conditional": "2 @ (wet)"},
        {"maxheight:forward": "2"},
    ],
)
def test_a_limit_on_a_point_that_says_nothing_else(tmp_path: Path, tags: dict[str, str]) -> None:
    """Height, mass or width limits stop the truck there (OpenStreetMap wiki, Key:maxheight)."""
    ways: list[Way] = [((1, 2, 3), ROAD), ((1, 4, 5, 6, 3), ROAD)]

    assert 26_000 < drive(read(tmp_path, ways, HEAVY, points={2: tags}), 1, 3)


def test_a_limit_on_a_point_that_cannot_be_read_or_judged(tmp_path: Path) -> None:
    """It is told, where the point says nothing else as well."""
    points = {1: {"maxaxleload": "1"}, 2: {"maxweight": "heavy"}, 3: {"maxspeed": "slow"}}
    told = read(tmp_path, [((1, 2, 3), ROAD)], points=points).told()

    assert ["maxaxleload '1'", "maxweight 'heavy'"] == told


def test_clipped_ways_are_used_as_far_as_they_go(tmp_path: Path) -> None:
    """Points that the extract does not hold break a road; the parts on both sides stay."""
    ways: list[Way] = [
        ((91, 1, 2, 92, 93, 3, 6, 94), ROAD), ((2, 5, 6), ROAD), ((95, 9), ROAD), ((96, 97), ROAD),
    ]  # fmt: skip

    assert {1, 2, 3, 5, 6} == spots(read(tmp_path, ways))


def test_only_roads_near_the_places_are_read(tmp_path: Path) -> None:
    """With a box, a road that stays outside is left out and one that comes in is whole."""
    ways: list[Way] = [((1, 2, 3), ROAD), ((7, 8, 9), ROAD), ((3, 6, 9), ROAD)]

    assert {1, 2, 3} == spots(read(tmp_path, ways, box=(-0.005, -0.005, 0.005, 0.005)))
    assert {1, 2, 3, 6, 7, 8, 9} == spots(read(tmp_path, ways, box=(-1.0, -1.0, 1.0, 1.0)))


def test_a_box_across_the_date_line(tmp_path: Path) -> None:
    """From 179.5 east to 179.5 west is a box of one degree, not of 359."""
    nodes = {1: (0.0, 179.9), 2: (0.0, -179.9), 3: (0.0, 0.0), 4: (0.0, 0.1)}
    file = write_extract(tmp_path / "a.osm.pbf", nodes, [((1, 2), ROAD), ((3, 4), ROAD)])
    made = read_osm(file, LIGHT, SPEEDS, (-1.0, 179.5, 1.0, 180.5))

    assert [179.9, -179.9] == pytest.approx(made.lon.tolist())


CROSS: list[Way] = [((2, 5), ROAD), ((4, 5), ROAD), ((5, 6), ROAD), ((5, 8), ROAD)]
"""Ways 1 to 4 meet at 5, from the south, west, east and north, each a dead end."""


def members(here: int, via: tuple[str, int], there: int) -> list[tuple[str, int, str]]:
    """The parts of a restriction."""
    return [("w", here, "from"), (via[0], via[1], "via"), ("w", there, "to")]


def test_forbidden_turns_are_kept(tmp_path: Path) -> None:
    """From the west no turn north: on to a dead end, round there, and back."""
    left = ({"type": "restriction", "restriction": "no_left_turn"}, members(2, ("n", 5), 4))
    only = ({"type": "restriction", "restriction": "only_straight_on"}, members(2, ("n", 5), 3))
    free = drive(read(tmp_path, CROSS), 4, 8)

    # South and back, twice 0.01 degrees of latitude: 1,105.74 m at 60 km/h are 66.34 s.
    assert free + 2 * 6634 == drive(read(tmp_path, CROSS, signs=[left]), 4, 8)
    # East and back, the only way allowed: twice 66.79 s.
    assert free + 2 * 6679 == drive(read(tmp_path, CROSS, signs=[only]), 4, 8)


@pytest.mark.parametrize(
    ("kind", "more"),
    [
        ("no_left_turn", [("n", 5, "location_hint")]),
        ("no_left_turn", [("r", 7, "")]),
        ("no_entry", [("w", 1, "from")]),
        ("no_exit", [("w", 1, "to")]),
    ],
)
def test_a_sign_with_more_members(
    tmp_path: Path, kind: str, more: list[tuple[str, int, str]]
) -> None:
    """Several ways in or out each have it; what else is in it does not matter.

    As the OpenStreetMap wiki's Relation:restriction describes it.
    """
    sign = ({"restriction": kind}, [*more, *members(2, ("n", 5), 4)])

    assert drive(read(tmp_path / "free", CROSS), 4, 8) < (
        drive(read(tmp_path / "sign", CROSS, signs=[sign]), 4, 8)
    )


def test_no_entry_from_several_ways(tmp_path: Path) -> None:
    """From the south and from the west nobody drives north, from the east they do."""
    sign = ({"restriction": "no_entry"}, [("w", 1, "from"), *members(2, ("n", 5), 4)])
    free, made = read(tmp_path / "free", CROSS), read(tmp_path / "sign", CROSS, signs=[sign])

    assert [True, True, False] == [drive(free, n, 8) < drive(made, n, 8) for n in (2, 4, 6)]


@pytest.mark.parametrize(
    ("tags", "parts"),
    [
        ({"restriction": "no_left_turn"}, [*members(2, ("n", 5), 4), ("n", 6, "via")]),
        ({"restriction": "no_left_turn", "except": "bicycle;goods"}, members(2, ("n", 5), 4)),
        ({"restriction": "give_way"}, members(2, ("n", 5), 4)),
        ({"restriction:hgv": "no_left_turn"}, members(2, ("n", 5), 4)),
        ({"restriction": "no_left_turn"}, members(2, ("w", 3), 4)),
        ({"restriction": "no_left_turn"}, members(2, ("w", 77), 4)),
        ({"restriction": "no_left_turn"}, members(2, ("r", 5), 4)),
        ({"restriction:conditional": "no_left_turn @ (weight > 7.5)"}, members(2, ("n", 5), 4)),
        ({"restriction:conditional": "no_left_turn"}, members(2, ("n", 5), 4)),
        ({"restriction": "no_left_turn"}, members(2, ("n", 5), 4)[:2]),
        ({"restriction": "no_left_turn"}, members(2, ("n", 99), 4)),
        ({"restriction": "no_left_turn"}, members(77, ("n", 5), 4)),
        ({"restriction": "no_left_turn"}, members(2, ("n", 5), 78)),
        ({"restriction": "no_left_turn"}, members(2, ("n", 9), 4)),
    ],
)
def test_signs_that_do_not_hold_for_it(
    tmp_path: Path, tags: dict[str, str], parts: list[tuple[str, int, str]]
) -> None:
    """Exceptions, signs for heavy trucks only, and signs whose roads are not there."""
    made = read(tmp_path, CROSS, signs=[(tags, parts)])

    assert drive(read(tmp_path / "free", CROSS), 4, 8) == drive(made, 4, 8)


def test_signs_for_heavy_trucks_hold_for_heavy_trucks(tmp_path: Path) -> None:
    """The same sign, above 3.5 t."""
    sign = ({"restriction:hgv": "no_left_turn"}, members(2, ("n", 5), 4))
    made = read(tmp_path / "a", CROSS, HEAVY, signs=[sign])

    assert drive(made, 4, 8) > drive(read(tmp_path / "b", CROSS, HEAVY), 4, 8)


def test_signs_that_hold_at_hours_of_driving(tmp_path: Path) -> None:
    """No left turn from 7 to 9: kept for who is out from 8 to 18, not from 10 to 18."""
    tags = {"restriction:conditional": "no_left_turn @ (Mo-Fr 07:00-09:00)"}
    sign = (tags, members(2, ("n", 5), 4))
    early, late = (Vehicle(3_500_000, 2_200, None, (hour * 60, 1080)) for hour in (8, 10))

    free = drive(read(tmp_path / "free", CROSS), 4, 8)
    assert free < drive(read(tmp_path / "early", CROSS, early, signs=[sign]), 4, 8)
    assert free == drive(read(tmp_path / "late", CROSS, late, signs=[sign]), 4, 8)


def drive_from(here: tuple[float, float], network: Network) -> int:
    """Hundredths of a second from a spot to grid node 9."""
    on = snapped(network, [here, NODES[9]])
    return int(matrix(on.network, on.nodes).cs[0, 1])


def test_a_sign_by_way_of_a_road(tmp_path: Path) -> None:
    """From 4 over the road 5-8 no turn to 9; whichever way that road is drawn."""
    for number, link in enumerate(((5, 8), (8, 5))):
        ways: list[Way] = [((4, 5), ROAD), (link, ROAD), ((8, 9), ROAD), ((8, 7), ROAD)]
        tags = {"restriction": "no_right_turn"}
        free = read(tmp_path / f"free{number}", ways)
        made = read(tmp_path / f"sign{number}", ways, signs=[(tags, members(1, ("w", 2), 3))])

        # On to the dead end 7, back, and then to 9: twice 0.01 degrees of longitude more.
        assert drive(free, 4, 9) + 2 * 6679 == pytest.approx(drive(made, 4, 9), abs=4)
        assert drive(free, 4, 7) == drive(made, 4, 7)
        # Whoever starts on the road between did not come from 4.
        assert drive_from((0.015, 0.01), free) == drive_from((0.015, 0.01), made)


FERRY = {"route": "ferry", "motor_vehicle": "yes", "duration": "00:30"}
TAKEN = changed({"ferry": 15_000}, {}, {})


def crossing(path: Path, tags: dict[str, str], speeds: Speeds) -> Network:
    """Two roads, 1-2 and 5-6, with a ferry from 2 to 5."""
    path.mkdir()
    ways: list[Way] = [((1, 2), ROAD), ((5, 6), ROAD), ((2, 5), tags)]
    file = write_extract(path / "a.osm.pbf", NODES, ways)
    return largest_part(read_osm(file, LIGHT, speeds))


@pytest.mark.parametrize(
    ("duration", "minutes"),
    [("00:30", 30), ("45", 45), ("PT1H5M", 65), ("1:05:30", 65.5), ("soon", 4.42), ("", 4.42)],
)
def test_a_ferry_takes_its_duration_and_a_wait(
    tmp_path: Path, duration: str, minutes: float
) -> None:
    """Twenty minutes to board, then what the tag says; where it says nothing, 15 km/h."""
    made = crossing(tmp_path / "a", {**FERRY, "duration": duration}, TAKEN)

    # 0.01 degrees of latitude are 1,105.74 m: at 15 km/h 4.42 minutes.
    assert (20 + minutes) * 6000 == pytest.approx(drive(made, 2, 5), rel=2e-3)


def test_a_ferry_of_two_ways_is_waited_for_once(tmp_path: Path) -> None:
    """Whoever goes on from one of them to the next has boarded; so it is on the way back."""
    half = {**FERRY, "duration": "00:15"}
    ways: list[Way] = [((1, 2), ROAD), ((2, 5), half), ((5, 8), half), ((8, 9), ROAD)]
    file = write_extract(tmp_path / "a.osm.pbf", NODES, ways)
    made = largest_part(read_osm(file, LIGHT, TAKEN))

    # Twenty minutes to board and twice a quarter of an hour.
    assert (50 * 6000, 50 * 6000) == pytest.approx((drive(made, 2, 8), drive(made, 8, 2)), rel=1e-3)


@pytest.mark.parametrize(
    ("tags", "speeds"),
    [
        (FERRY, SPEEDS),
        ({"route": "ferry", "duration": "00:30"}, TAKEN),
        ({**FERRY, "motor_vehicle": "no"}, TAKEN),
        ({**FERRY, "maxweight": "2"}, TAKEN),
    ],
)
def test_a_ferry_that_is_not_taken(tmp_path: Path, tags: dict[str, str], speeds: Speeds) -> None:
    """Unless its speed is typed, and where trucks are not said to be let on."""
    assert 2 == crossing(tmp_path / "a", tags, speeds).size


def test_a_ring_as_way_in_is_not_read_as_a_sign(tmp_path: Path) -> None:
    """Where a road starts and ends at the junction nobody can say which end is meant."""
    ring: list[Way] = [*CROSS, ((5, 1, 2, 5), ROAD)]
    sign = ({"restriction": "no_left_turn"}, members(5, ("n", 5), 4))

    assert 9 > read(tmp_path, ring, signs=[sign]).size


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"", "an empty file"),
        (b"no extract at all", "damaged or cut short"),
        (b"\x00" * 5000, "damaged or cut short"),
        (b"<?xml version='1.0'?><osm/>", "damaged or cut short"),
    ],
)
def test_other_files_are_refused(tmp_path: Path, raw: bytes, said: str) -> None:
    """An empty file, text, zeros and XML each get an answer in words."""
    path = tmp_path / "a.osm.pbf"
    path.write_bytes(raw)

    with pytest.raises(RoadsError, match=said):
        read_osm(path, LIGHT, SPEEDS)


def test_limits_that_cannot_be_read(tmp_path: Path) -> None:
    """Told once for each road and each point on one; not where the truck does not go anyhow."""
    odd = {"maxweight": "heavy"}
    ways: list[Way] = [
        ([1, 2, 3], ROAD | odd),
        ([3, 6], ROAD),
        ([4, 5], {"highway": "footway"} | odd),
    ]
    points = {2: {"barrier": "gate", "maxwidth": "wide"}, 9: {"barrier": "gate", "maxwidth": "far"}}
    network = read(tmp_path, ways, points=points)

    assert ["maxweight 'heavy'", "maxwidth 'wide'"] == network.told()
    west = (-0.001, -0.01, 0.001, -0.005)
    assert [] == read(tmp_path / "else", ways, box=west, points=points).told()


def test_tags_of_other_bytes_than_utf_8(tmp_path: Path) -> None:
    """A tag that is no text refuses the file as damaged does."""
    path = tmp_path / "town.osm.pbf"
    with osmium.SimpleWriter(osmium.io.File(str(path), "pbf,pbf_compression=none")) as writer:
        for key, (lat, lon) in NODES.items():
            writer.add_node(osmium.osm.mutable.Node(id=key, location=(lon, lat)))
        writer.add_way(osmium.osm.mutable.Way(id=1, nodes=[1, 2], tags={**ROAD, "ref": "mark"}))
    raw = path.read_bytes()
    assert 1 == raw.count(b"mark")
    path.write_bytes(raw.replace(b"mark", b"m\xffrk"))

    with pytest.raises(RoadsError, match=r"damaged or cut short .*can't decode byte 0xff"):
        read_osm(path, LIGHT, SPEEDS)


def test_cut_short_and_flipped_bytes(tmp_path: Path) -> None:
    """Cut anywhere, or with bytes turned over, an extract is refused or read, never a crash."""
    nodes = {n: (0.0001 * n, 0.0001 * (n * 7 % 100)) for n in range(1, 400)}
    whole = write_extract(tmp_path / "whole.osm.pbf", nodes, [(range(1, 400), ROAD)]).read_bytes()
    refusals = []
    for part in range(1, 24):
        at = len(whole) * part // 24
        for raw in (whole[:at], whole[:at] + bytes([whole[at] ^ 0xFF]) + whole[at + 1 :]):
            path = tmp_path / "part.osm.pbf"
            path.write_bytes(raw)
            try:
                read_osm(path, LIGHT, SPEEDS)
            except RoadsError as error:
                refusals.append(str(error))

    assert 30 < len(refusals)
    assert all("PBF" in text and text.isprintable() for text in refusals)


def test_missing_and_oversized_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file that is not there, and one larger than a region."""
    with pytest.raises(RoadsError, match="No such file"):
        read_osm(tmp_path / "none.osm.pbf", LIGHT, SPEEDS)
    path = tmp_path / "big.osm.pbf"
    path.write_bytes(b"x")
    monkeypatch.setattr("runplanner.roads.osm.LARGEST_BYTES", 0)
    with pytest.raises(RoadsError, match="Cut out the region"):
        read_osm(path, LIGHT, SPEEDS)


def test_without_osmium_the_cure_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the library is missing the error names the extra to install."""
    monkeypatch.setitem(sys.modules, "osmium", None)

    with pytest.raises(RoadsError, match=r"osmium is not installed.*runplanner\[roads\]"):
        read_osm(tmp_path / "a.osm.pbf", LIGHT, SPEEDS)


def test_other_things_are_passed_over(tmp_path: Path) -> None:
    """A relation or point with one of the keys that is no road does no harm."""
    file = write_extract(
        tmp_path / "a.osm.pbf", NODES, [((1, 2, 3), ROAD), ((4, 5), {"barrier": "fence"})],
        [({"highway": "x"}, members(1, ("n", 2), 1))], {3: {"highway": "crossing"}},
    )  # fmt: skip

    assert {1, 2, 3} == spots(read_osm(file, LIGHT, SPEEDS))


def test_heavy_libraries_load_when_they_are_needed() -> None:
    """Importing the gate in loads neither scipy nor osmium, httpx or networkx."""
    code = (
        "import sys, runplanner.scenario.read\n"
        "print([n for n in ('scipy', 'osmium', 'httpx', 'networkx') if n in sys.modules])"
    )
    told = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True,
        env={"PYTHONPATH": "."},
    )  # fmt: skip

    assert "[]" == told.stdout.strip()
