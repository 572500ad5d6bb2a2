from pathlib import Path

import pytest

from runplanner.errors import ScenarioError
from runplanner.office import drawn
from runplanner.office.campaign import Outcome, publish_plan
from runplanner.office.drawn import draw_roads, kept_roads
from runplanner.paperwork.speech.tongue import said, speaking
from runplanner.roads.sketch import Sketch, sketch_text
from runplanner.scenario import read_scenario
from tests.office.fakes import rooms
from tests.plans import an_empty_plan
from tests.scenario.roads import with_roads

ROADS = Sketch("The valley", ((0, 1, ((-38.0, 175.0), (-38.1, 175.1))),), ())


def test_roads_are_kept_beside_the_plan(tmp_path: Path) -> None:
    """Publishing with roads writes them, and draws the map on them."""
    folder = publish_plan(Outcome(an_empty_plan(), ()), tmp_path, roads=ROADS, rooms=rooms())

    assert ROADS == kept_roads(folder)
    assert ROADS == kept_roads(folder / "plan.json")
    page = (folder / "map.html").read_text(encoding="utf-8")
    assert "<html>tiles: False, roads: The valley</html>" == page


def test_roads_and_tiles_together(tmp_path: Path) -> None:
    """Both are handed to the map."""
    folder = publish_plan(
        Outcome(an_empty_plan(), ()), tmp_path, roads=ROADS, online_tiles=True, rooms=rooms()
    )

    assert "tiles: True, roads: The valley" in (folder / "map.html").read_text(encoding="utf-8")


def test_without_roads_nothing_is_kept(tmp_path: Path) -> None:
    """A plan on straight lines has no roads beside it."""
    folder = publish_plan(Outcome(an_empty_plan(), ()), tmp_path, rooms=rooms())

    assert kept_roads(folder) is None
    assert not (folder / "roads.json").exists()


def test_roads_of_a_scenario(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A plan without drives may be planned again, so all are drawn; without a road file none."""
    monkeypatch.setenv("RUNPLANNER_CACHE", str(tmp_path / "kept"))
    folder = with_roads(tmp_path)
    sketch = draw_roads(folder, an_empty_plan(read_scenario(folder)))

    assert sketch is not None
    assert (6, 1) == (len(sketch.drives), len(sketch.ground))
    (folder / "roads.geojson").unlink()
    assert draw_roads(folder, an_empty_plan()) is None


def test_roads_of_a_folder_of_results_are_those_kept_there(tmp_path: Path) -> None:
    """With the plan's folder in place of the scenario's, the map had no roads, without a word."""
    with_them, without = (
        publish_plan(Outcome(an_empty_plan(), ()), tmp_path / name, roads=roads, rooms=rooms())
        for name, roads in (("a", ROADS), ("b", None))
    )

    assert ROADS == draw_roads(with_them, an_empty_plan())
    assert draw_roads(without, an_empty_plan()) is None


def test_roads_of_no_scenario(tmp_path: Path) -> None:
    """A folder that is not there, a file, or a folder of something else is told."""
    (tmp_path / "roads.geojson").write_text("{}", encoding="utf-8")
    for given, wrong in (("gone", "no such folder"), ("roads.geojson", "a file"), ("", "missing")):
        with pytest.raises(ScenarioError, match=wrong):
            draw_roads(tmp_path / given, an_empty_plan())


def test_kept_roads_that_are_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Strange, oversized or undecodable files are refused with the cure."""
    path = tmp_path / "roads.json"
    for raw in (b"{", b"\xff\xfe", b"[]"):
        path.write_bytes(raw)
        with pytest.raises(ScenarioError, match=r"roads\.json.*the plan holds without it"):
            kept_roads(tmp_path)
    path.write_text(sketch_text(ROADS), encoding="utf-8")
    monkeypatch.setattr(drawn, "LARGEST_BYTES", 10)
    with pytest.raises(ScenarioError, match="larger than 40 MB") as no:
        kept_roads(tmp_path)
    with speaking("de"):
        assert "größer als 40 MB" in said(no.value.faults[0].sentence())


def test_kept_roads_that_cannot_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the system says is passed on."""
    (tmp_path / "roads.json").write_text("{}", encoding="utf-8")

    def refuse(_: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", refuse)
    with pytest.raises(ScenarioError, match="Permission denied"):
        kept_roads(tmp_path)
