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
from runplanner.roads.frame import WIDER, around, cut_off
from runplanner.roads.lines import read_geojson, read_graphml
from runplanner.roads.network import Box, Network, Nodes, only
from runplanner.roads.osm import CREDIT, read_osm
from runplanner.roads.snap import Point
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
        through: Which nodes of ``network`` it can drive to from home and come back from.
        credit: Whose data they are, "" where nobody has to be named.
        whole: All roads of the file, and what bars it from some of them.
        reached: Which nodes of ``whole`` it can drive to from home and come back from.
        cut: Places at roads that may be joined to home's outside what was read.
    """

    network: Network
    through: Nodes
    credit: str
    whole: Network
    reached: Nodes
    cut: tuple[int, ...] = ()


def open_roads(path: Path, vehicle: Vehicle, speeds: Speeds, points: Sequence[Point]) -> Roads:
    """Return the roads in the file at ``path`` round about ``points``, home the first of them.

    Of an extract a frame round them is read, and a wider one where that cuts places off; of
    frames that cut off as many the narrowest is used.

    Raises:
        RoadsError: When the file cannot be used, or holds no road for ``vehicle``.
    """
    try:
        mark = mark_of(path, (path.suffix, repr(vehicle), speeds.words()))
    except OSError as error:
        said = system_said(error)
        raise RoadsError(said, phrase("a road file"), phrase("Check its name.")) from None

    def within(box: Box | None) -> Roads:
        framed = "_".join((mark, *(f"{side:.1f}" for side in box or ())))
        return _joined(kept(framed, _reader(path, vehicle, speeds, box)), points, box)

    found = latest = within(around(points) if path.suffix == _PBF else None)
    for wider in WIDER:
        if not latest.cut:
            break
        latest = within(around(points, wider))
        found = min(found, latest, key=lambda roads: len(roads.cut))
    return found


def _joined(whole: Network, points: Sequence[Point], box: Box | None = None) -> Roads:
    """Return what can be driven of ``whole``, which was read in the frame ``box``."""
    reached = reached_from(whole, points[0])
    used = with_lanes(whole, reached)
    network = only(whole, used)
    if not len(network.head):
        cure = phrase("Does the file cover your places, and are its roads tagged as such?")
        raise RoadsError(phrase("no road for this truck"), phrase("roads round your places"), cure)
    cut = cut_off(whole, reached, box, points) if box else ()
    return Roads(network, reached[used], CREDIT if box else "", whole, reached, cut)


def _reader(path: Path, vehicle: Vehicle, speeds: Speeds, box: Box | None) -> Callable[[], Network]:
    if path.suffix == _PBF:
        return lambda: read_osm(path, vehicle, speeds, box)
    read = read_graphml if path.suffix == ".graphml" else read_geojson
    return lambda: read(path, vehicle, speeds)
