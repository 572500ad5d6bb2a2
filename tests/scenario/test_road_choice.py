from pathlib import Path

import pytest

from runplanner.scenario import read_scenario
from runplanner.scenario.forecast.part import Heard
from tests.scenario.folders import a_folder, faults, only
from tests.scenario.roads import faults_with_roads, read_roads, with_roads


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A cache of the test's own."""
    monkeypatch.setenv("RUNPLANNER_CACHE", str(tmp_path / "kept"))


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ('roads = "none.osm.pbf"', "roads"),
        ('roads = "outfit.toml"', "roads"),
        ('roads = "roads"', "roads"),
        ("roads = 7", "roads"),
        ('roads = "a\\nb.osm.pbf"', "roads"),
        ('service = "localhost:5000"', "service"),
        ("service = 5000", "service"),
        ('service = "http://u:p@host"', "service"),
        ('height = "3.2"', "height"),
        ('height = "30 m"', "height"),
        ('off_road_warn = "5 m"', "off_road_warn"),
        ('timed = "none.csv"', "timed"),
        ('timed = "../legs.csv"', "timed"),
        ('timed = "outfit.toml"', "timed"),
        ("timed = 3", "timed"),
        ("speeds = 50", "speeds"),
        ("credit = 5", "credit"),
        ('hours = "all"', "hours"),
    ],
)
def test_a_key_that_cannot_be_used(tmp_path: Path, line: str, key: str) -> None:
    """Each wrong value is one fault, at its key."""
    assert key == only(faults(tmp_path, f"[travel]\n{line}\n")).field


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ('[travel.speeds]\nmotorway = "fast"', "motorway"),
        ("[travel.speeds]\nroad = true", "road"),
        ('[travel.speeds]\nfootway = "5 km/h"', "footway"),
        ('[travel.speeds]\nprivate = "no"', "private"),
        ('[travel.speeds]\ngate = "3 h"', "gate"),
        ('[travel.hours]\n"7-9" = "120 %"', "7-9"),
        ('[travel.hours]\n"09-07" = "120 %"', "09-07"),
        ('[travel.hours]\n"12-12" = "120 %"', "12-12"),
        ('[travel.hours]\n"24-06" = "120 %"', "24-06"),
        ('[travel.hours]\n"22-06" = "90 %"\n"05-07" = "110 %"', "05-07"),
        ('[travel.hours]\n"23-25" = "120 %"', "23-25"),
        ('[travel.hours]\n"0709" = "120 %"', "0709"),
        ('[travel.hours]\n"07-09" = 1.2', "07-09"),
        ('[travel.hours]\n"07-09" = "120 %"\n"08-10" = "110 %"', "08-10"),
    ],
)
def test_a_table_that_cannot_be_used(tmp_path: Path, line: str, key: str) -> None:
    """Unknown classes, units and hours are faults of that line, roads or not."""
    assert key == only(faults(tmp_path, line + "\n")).field


def test_roads_and_service_together(tmp_path: Path) -> None:
    """Only one of them can be meant."""
    found = only(faults_with_roads(tmp_path, 'service = "http://127.0.0.1:5000"\n'))

    assert "either roads or service" == found.allowed


def test_speeds_and_height_without_roads_do_no_harm(tmp_path: Path) -> None:
    """They wait for a road file; straight lines go as they went, and each key is named."""
    extra = '[travel]\nheight = "3 m"\noff_road_warn = "1 km"\n[travel.speeds]\ntrack = "9 km/h"\n'
    plain = read_scenario(a_folder(tmp_path)).travel
    (tmp_path / "b").mkdir()
    heard = Heard()

    assert plain == read_scenario(a_folder(tmp_path / "b", extra), heard).travel
    nothing = "nothing uses it while drives are straight lines; it goes with roads or a service"
    assert [
        f"outfit.toml, line {line}, travel, {key}: {nothing}"
        for line, key in ((16, "height"), (17, "off_road_warn"), (18, "speeds"))
    ] == heard.doubts


def test_own_roads_can_name_whose_they_are(tmp_path: Path) -> None:
    """A credit is said with the source of the times."""
    source = read_roads(tmp_path, 'credit = "Survey of the valley"\n').travel.source

    assert "roads of roads.geojson (Survey of the valley)" == source


def test_a_class_can_be_shut(tmp_path: Path) -> None:
    """Without its only road the base has none."""
    shut = '[travel.speeds]\nunclassified = "no"\n'
    found = only(faults_with_roads(tmp_path, shut))
    assert ("roads", "no road for this truck") == (found.field, found.said)

    (tmp_path / "b").mkdir()
    false = "[travel.speeds]\nunclassified = false\n"
    assert "no road for this truck" == only(faults_with_roads(tmp_path / "b", false)).said


def test_roads_from_another_folder(tmp_path: Path) -> None:
    """One road file may serve several scenarios."""
    folder = with_roads(tmp_path)
    (folder / "roads.geojson").rename(tmp_path / "shared.geojson")
    text = (folder / "outfit.toml").read_text()
    (folder / "outfit.toml").write_text(text.replace("roads.geojson", "../shared.geojson"))

    assert "roads of shared.geojson" == read_scenario(folder).travel.source
    (tmp_path / "b").mkdir()
    assert read_roads(tmp_path / "b").travel.minutes == read_scenario(folder).travel.minutes
