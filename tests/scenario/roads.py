"""Road files for scenario tests: a grid of country roads round the two yards."""

import json
from pathlib import Path

from runplanner.errors import Fault
from runplanner.outfit.outfit import Outfit
from runplanner.scenario import read_scenario
from tests.scenario.folders import a_folder, faults_of

# Base -38.05, 175.11; Mill Lane -38.01, 175.06; Gate -38.12, 175.20 (see folders).
_BASE, _MILL, _GATE = (175.11, -38.05), (175.06, -38.01), (175.20, -38.12)


def road_file(folder: Path, **tags: object) -> Path:
    """An L-shaped road from the base west and north to Mill Lane, east and south to Gate."""
    west = [_BASE, (_MILL[0], _BASE[1]), _MILL]
    east = [_BASE, (_GATE[0], _BASE[1]), _GATE]
    features = [
        {"properties": tags, "geometry": {"type": "LineString", "coordinates": line}}
        for line in (west, east)
    ]
    path = folder / "roads.geojson"
    path.write_text(json.dumps({"features": features}), "utf-8")
    return path


def weak_bridge(path: Path, **tags: object) -> None:
    """The same roads, the one east of the base with a limit that no truck of these keeps."""
    corner = (_GATE[0], _BASE[1])
    rows: list[tuple[list[tuple[float, float]], dict[str, object]]] = [
        ([_BASE, (_MILL[0], _BASE[1]), _MILL], {}),
        ([_BASE, corner], tags or {"maxweight": 2}),
        ([corner, _GATE], {}),
    ]
    features = [
        {"properties": says, "geometry": {"type": "LineString", "coordinates": line}}
        for line, says in rows
    ]
    (path / "roads.geojson").write_text(json.dumps({"features": features}), "utf-8")


def with_roads(path: Path, extra: str = "", timed: str = "", **pieces: str) -> Path:
    """A scenario folder with a road file, and a table of timed drives if there is text."""
    folder = a_folder(path, '[travel]\nroads = "roads.geojson"\n' + extra, **pieces)
    road_file(folder)
    if timed:
        (folder / "legs.csv").write_text(timed, "utf-8")
    return folder


def read_roads(path: Path, extra: str = "", timed: str = "", **pieces: str) -> Outfit:
    """Write a scenario with roads and read it."""
    return read_scenario(with_roads(path, extra, timed, **pieces))


def faults_with_roads(
    path: Path, extra: str = "", timed: str = "", **pieces: str
) -> tuple[Fault, ...]:
    """The faults of a scenario with roads that must be refused."""
    return faults_of(with_roads(path, extra, timed, **pieces))
