from itertools import permutations
from pathlib import Path

import pytest

from runplanner.scenario import read_scenario
from runplanner.scenario.travel import roads_drawn
from runplanner.scenario.travel.roads_drawn import sketch_roads
from tests.scenario.folders import a_folder
from tests.scenario.roads import with_roads


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A cache of the test's own."""
    monkeypatch.setenv("RUNPLANNER_CACHE", str(tmp_path / "kept"))


def test_drives_by_road(tmp_path: Path) -> None:
    """The way from the base to Mill Lane goes by the corner of its L."""
    folder = with_roads(tmp_path, 'credit = "The valley"\n')
    sketch = sketch_roads(folder, read_scenario(folder), [(0, 1), (1, 2)])

    assert sketch is not None
    assert "The valley" == sketch.credit
    assert {(0, 1), (1, 2)} <= {drive[:2] for drive in sketch.drives}
    corner = pytest.approx((-38.05, 175.06), abs=1e-6)
    assert [(-38.05, 175.11), corner, (-38.01, 175.06)] == [
        pytest.approx(spot, abs=1e-6) if index != 1 else spot
        for index, spot in enumerate(sketch.drive(0, 1))
    ]
    assert {1} == {rank for rank, _ in sketch.ground}


def test_drives_of_a_plan_made_again_are_known_already(tmp_path: Path) -> None:
    """The plan drives to Mill Lane and back; to Gate, and from yard to yard, another one may."""
    folder = with_roads(tmp_path)
    sketch = sketch_roads(folder, read_scenario(folder), [(0, 1), (1, 0)])

    assert sketch is not None
    assert set(permutations(range(3), 2)) == {drive[:2] for drive in sketch.drives}


def test_drives_to_bases_come_first_where_not_all_can_be_drawn(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Three besides the plan's own: the other way, and both to Gate, before yard to yard."""
    monkeypatch.setattr(roads_drawn, "_MOST_SPARE", 4)
    folder = with_roads(tmp_path)
    sketch = sketch_roads(folder, read_scenario(folder), [(0, 1)])

    assert sketch is not None
    assert [(0, 1), (0, 2), (1, 0), (2, 0)] == [drive[:2] for drive in sketch.drives]


def test_slack_leaves_the_drawing_on_the_roads_that_were_looked_up(tmp_path: Path) -> None:
    """Minutes are for the whole day; a road may be shut in the last half hour kept in hand."""
    folder = with_roads(tmp_path, '[hours]\nend = "20:00"\n[safety]\nslack = "30 min"\n')
    outfit = read_scenario(folder)
    kept = sorted((tmp_path / "kept").rglob("*"))

    assert sketch_roads(folder, outfit, [(0, 1)]) is not None
    assert kept == sorted((tmp_path / "kept").rglob("*"))


@pytest.mark.parametrize(
    ("lines", "straight"),
    [
        ("home,Mill Lane,35,24", {(0, 1), (1, 0)}),
        ("mill-lane,home,35,24\ngate,HOME,40,20", {(0, 1), (1, 0), (0, 2), (2, 0)}),
        ("gate moved,home,40,20", {(0, 3), (3, 0)}),
        ("gate,mill lane,no road,", {(1, 2), (2, 1)}),
    ],
)
def test_a_typed_leg_is_not_drawn_along_the_road_it_stands_for(
    tmp_path: Path, lines: str, straight: set[tuple[int, int]]
) -> None:
    """The straight road is washed out: how the driver goes round only who typed it knows."""
    move = '[[moves]]\nyard = "Gate"\nday = 2027-03-05\nlat = -38.1\nlon = 175.2\n'
    folder = with_roads(tmp_path, move, travel=f"from,to,minutes,km\n{lines}\n")
    outfit = read_scenario(folder)
    sketch = sketch_roads(folder, outfit, [(0, 1), (1, 0), (1, 2), (2, 0)])

    assert sketch is not None
    assert straight == {*permutations(range(4), 2)} - {drive[:2] for drive in sketch.drives}


def test_without_a_road_file_there_is_no_drawing(tmp_path: Path) -> None:
    """Straight lines have nothing to draw; nor has a folder that is gone or at fault."""
    folder = a_folder(tmp_path)
    outfit = read_scenario(folder)

    assert sketch_roads(folder, outfit, [(0, 1)]) is None
    assert sketch_roads(tmp_path / "gone", outfit, [(0, 1)]) is None
    (folder / "outfit.toml").write_text('[travel]\nroads = "none.osm.pbf"\n')
    assert sketch_roads(folder, outfit, [(0, 1)]) is None


def test_a_road_file_spoilt_meanwhile(tmp_path: Path) -> None:
    """The plan holds; only the drawing is left out."""
    folder = with_roads(tmp_path)
    outfit = read_scenario(folder)
    (folder / "roads.geojson").write_text("{")

    assert sketch_roads(folder, outfit, [(0, 1)]) is None


def test_a_table_of_legs_spoilt_meanwhile(tmp_path: Path) -> None:
    """Nobody can tell any more which drives were typed."""
    folder = with_roads(tmp_path)
    outfit = read_scenario(folder)
    (folder / "travel.csv").write_text("from,to\nhome,gate\n")

    assert sketch_roads(folder, outfit, [(0, 1)]) is None
