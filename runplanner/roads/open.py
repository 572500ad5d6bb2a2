"""A road file, whichever kind it is, as a network; read once and then kept on disk."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from runplanner.errors import system_said
from runplanner.phrase import phrase
from runplanner.roads.beyond import reached_from, with_lanes
from runplanner.roads.cache import kept, mark_of
from runplanner.roads.errors import RoadsError
from runplanner.roads.frame import WIDER, around, cut_off, from_home, may_be_far
from runplanner.roads.lines import read_geojson, read_graphml
from runplanner.roads.network import Box, Network, Nodes, only
from runplanner.roads.osm import CREDIT, read_osm
from runplanner.roads.snap import Point, Snapped, snapped
from runplanner.roads.speeds import Speeds
from runplanner.roads.vehicle import Vehicle

KINDS: Final = (".osm.pbf", ".pbf", ".geojson", ".json", ".graphml")
_PBF: Final = ".pbf"


@dataclass(frozen=True, eq=False, slots=True)
class Roads:
    """A road file for one truck.

    Args:
        network: The roads it can drive to from home and come back from, and lanes of them that
            only who stops there can use.
        on: These roads with the places on them.
        credit: Whose data they are, "" where nobody has to be named.
        whole: All roads of the file, and what bars it from some of them.
        reached: Which nodes of ``whole`` it can drive to from home and come back from.
        cut: Places at roads that may be joined to home's outside what was read.
        home_cs: Hundredths of a second from home to all places together.
        may_be_far: Whether a way to some of them may be much shorter outside what was read.
    """

    network: Network
    on: Snapped
    credit: str
    whole: Network
    reached: Nodes
    cut: tuple[int, ...]
    home_cs: float
    may_be_far: bool


def open_roads(path: Path, vehicle: Vehicle, speeds: Speeds, points: Sequence[Point]) -> Roads:
    """Return the roads in the file at ``path`` round about ``points``, home the first of them.

    Of an extract a frame round them is read, and a wider one where that cuts places off or
    may make them far; the narrowest is used that nothing wider improves.

    Raises:
        RoadsError: When the file cannot be used, or holds no road for ``vehicle``.
    """
    try:
        mark = mark_of(path, (_kind(path), repr(vehicle), speeds.words()))
    except OSError as error:
        said = system_said(error)
        raise RoadsError(said, phrase("a road file"), phrase("Check its name.")) from None

    def within(box: Box | None) -> Roads:
        framed = "_".join((mark, *(f"{side:.1f}" for side in box or ())))
        return _joined(kept(framed, _reader(path, vehicle, speeds, box)), points, (box, speeds))

    found = latest = within(around(points) if _kind(path) == _PBF else None)
    for wider in WIDER:
        if not (latest.cut or latest.may_be_far):
            break
        latest = within(around(points, wider))
        found = min(found, latest, key=lambda roads: (len(roads.cut), roads.home_cs))
    return found


def _joined(whole: Network, points: Sequence[Point], read: tuple[Box | None, Speeds]) -> Roads:
    """Return what can be driven of ``whole``, which was read in a frame at these speeds."""
    box, speeds = read
    reached = reached_from(whole, points[0])
    used = with_lanes(whole, reached)
    network = only(whole, used)
    if not len(network.head):
        cure = phrase("Does the file cover your places, and are its roads tagged as such?")
        raise RoadsError(phrase("no road for this truck"), phrase("roads round your places"), cure)
    on = snapped(network, points, reached[used])
    times = from_home(on)
    cut = cut_off(whole, reached, box, points) if box else ()
    far = box is not None and may_be_far(times, box, points, max(speeds.road.values()))
    credit = CREDIT if box else ""
    return Roads(network, on, credit, whole, reached, cut, sum(times), far)


def _kind(path: Path) -> str:
    """Return the ending of a file's name in small letters."""
    return path.suffix.lower()


def _reader(path: Path, vehicle: Vehicle, speeds: Speeds, box: Box | None) -> Callable[[], Network]:
    if _kind(path) == _PBF:
        return lambda: read_osm(path, vehicle, speeds, box)
    read = read_graphml if _kind(path) == ".graphml" else read_geojson
    return lambda: read(path, vehicle, speeds)
