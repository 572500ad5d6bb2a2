import json
from pathlib import Path

import pytest

from runplanner.roads.errors import RoadsError
from runplanner.roads.open import open_roads
from runplanner.roads.osm import CREDIT
from runplanner.roads.speeds import changed
from tests.roads.towns import HEAVY, LIGHT, SPEEDS, write_extract

PLACES = [(0.0, 0.0), (0.0, 0.02)]


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache of the test's own."""
    monkeypatch.setenv("RUNPLANNER_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept"


def an_extract(path: Path) -> Path:
    """A road of two stretches."""
    nodes = {n: (0.0, 0.01 * n) for n in range(1, 4)}
    return write_extract(path / "a.osm.pbf", nodes, [((1, 2, 3), {"highway": "primary"})])


def test_an_extract_names_whose_data_it_is(tmp_path: Path) -> None:
    """OpenStreetMap's contributors and licence are credited; own lines are nobody's."""
    lines = tmp_path / "own.geojson"
    spots = {"type": "LineString", "coordinates": [[0, 0], [0.01, 0]]}
    lines.write_text(json.dumps({"features": [{"geometry": spots}]}))

    assert CREDIT == open_roads(an_extract(tmp_path), LIGHT, SPEEDS, PLACES).credit
    assert "OpenStreetMap contributors, ODbL 1.0" in CREDIT
    assert "" == open_roads(lines, LIGHT, SPEEDS, PLACES).credit


def test_graphml_is_read_too(tmp_path: Path) -> None:
    """The ending tells how to read a file."""
    file = tmp_path / "own.graphml"
    file.write_text(
        '<graphml xmlns="http://graphml.graphdrawing.org/xmlns">'
        '<key id="x" for="node" attr.name="x" attr.type="double"/>'
        '<key id="y" for="node" attr.name="y" attr.type="double"/>'
        '<graph edgedefault="undirected">'
        '<node id="a"><data key="x">0</data><data key="y">0</data></node>'
        '<node id="b"><data key="x">0.01</data><data key="y">0</data></node>'
        '<edge source="a" target="b"/></graph></graphml>'
    )

    assert 2 == open_roads(file, LIGHT, SPEEDS, PLACES).network.size


def test_read_once_for_each_truck_and_table(tmp_path: Path, home: Path) -> None:
    """The same question is answered from disk; another truck or speed is read anew."""
    file = an_extract(tmp_path)
    open_roads(file, LIGHT, SPEEDS, PLACES)
    open_roads(file, LIGHT, SPEEDS, [(0.0, 0.001), (0.0, 0.019)])
    assert 1 == len(list(home.iterdir()))

    open_roads(file, HEAVY, SPEEDS, PLACES)
    slow = open_roads(file, LIGHT, changed({"primary": 35_000}, {}, {}), PLACES).network
    assert 3 == len(list(home.iterdir()))
    # 1,113.2 m at 35 km/h are 114.50 s.
    assert {11_450} == set(slow.cs.tolist())


def test_no_road_for_it(tmp_path: Path) -> None:
    """Places outside the extract, or a truck too heavy for all roads, get an answer."""
    file = an_extract(tmp_path)
    for places in ([(60.0, 20.0)], [(-38.0, 175.0)]):
        with pytest.raises(RoadsError, match="Does the file cover your places"):
            open_roads(file, LIGHT, SPEEDS, places)
    with pytest.raises(RoadsError, match="No such file"):
        open_roads(tmp_path / "none.osm.pbf", LIGHT, SPEEDS, PLACES)
