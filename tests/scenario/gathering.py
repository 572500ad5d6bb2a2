"""Files as people have them, for tests of gathering; all places invented."""

from pathlib import Path

from runplanner.errors import Fault, ScenarioError
from runplanner.scenario.gather.gathered import Gathered, gather
from tests.scenario.folders import a_folder

HERE = "name,lat,lon,colonies,boxes\nMill Lane,-38.01,175.06,24,41\nGate,-38.12,175.20,12,20\n"


def into(tmp_path: Path, yards: str | bytes = HERE) -> Path:
    """A scenario folder with two yards."""
    return a_folder(tmp_path, yards=yards)


def file(tmp_path: Path, name: str, text: str | bytes) -> Path:
    """A file beside the scenario."""
    path = tmp_path / name
    path.write_bytes(text.encode("utf-8") if isinstance(text, str) else text)
    return path


def gpx(*points: str, root: str = 'gpx xmlns="http://www.topografix.com/GPX/1/1"') -> str:
    """A GPX file of waypoints given as text."""
    return f'<?xml version="1.0"?><{root}>{"".join(points)}</{root.split(maxsplit=1)[0]}>'


def wpt(lat: str, lon: str, name: str = "", more: str = "") -> str:
    """A waypoint."""
    called = f"<name>{name}</name>" if name else ""
    return f'<wpt lat="{lat}" lon="{lon}">{called}{more}</wpt>'


def kml(*marks: str) -> str:
    """A KML file of placemarks given as text."""
    body = "".join(marks)
    return f'<kml xmlns="http://www.opengis.net/kml/2.2"><Document><Folder>{body}</Folder></Document></kml>'


def mark(name: str, lon_lat: str, more: str = "") -> str:
    """A placemark that is a point."""
    point = f"<Point><coordinates>{lon_lat}</coordinates></Point>"
    return f"<Placemark><name>{name}</name>{more}{point}</Placemark>"


def refused(files: list[Path], folder: Path, **options: int) -> tuple[Fault, ...]:
    """The faults for which nothing is gathered; the table must be as it was."""
    table = folder / "yards.csv"
    before = table.read_bytes() if table.exists() else None
    others = sorted(path.name for path in folder.iterdir()) if folder.is_dir() else []
    try:
        gather(files, folder, few_is_right=False, **options)
    except ScenarioError as error:
        assert before == (table.read_bytes() if table.exists() else None)
        assert others == (sorted(path.name for path in folder.iterdir()) if others else [])
        return error.faults
    raise AssertionError("it was not refused")


def gathered(
    files: list[Path], folder: Path, *, few_is_right: bool = False, **options: int
) -> tuple[Gathered, list[str]]:
    """What gathering says, and the lines of the table afterwards."""
    told = gather(files, folder, few_is_right=few_is_right, **options)
    return told, told.path.read_bytes().decode("utf-8").splitlines()
