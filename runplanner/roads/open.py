"""A road file, whichever kind it is, as a network; read once and then kept on disk."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil, floor
from pathlib import Path
from typing import Final

from runplanner.errors import system_said
from runplanner.phrase import phrase
from runplanner.roads.beyond import reached_from, with_lanes
from runplanner.roads.cache import kept, mark_of
from runplanner.roads.errors import RoadsError
from runplanner.roads.lines import read_geojson, read_graphml
from runplanner.roads.network import Box, Network, Nodes, only
from runplanner.roads.osm import CREDIT, read_osm
from runplanner.roads.snap import Point
from runplanner.roads.speeds import Speeds
from runplanner.roads.vehicle import Vehicle

KINDS: Final = (".osm.pbf", ".pbf", ".geojson", ".json", ".graphml")
_PBF: Final = ".pbf"
_MARGIN: Final = 0.25
_LEAST_DEGREES: Final = 0.25


@dataclass(frozen=True, eq=False, slots=True)
class Roads:
    """A road file for one truck.

    Args:
        network: The roads it can drive to from home and come back from, and lanes of them that
            only who stops there can use.
        through: Which nodes of ``network`` it can drive to from home and come back from.
        credit: Whose data they are, "" where nobody has to be named.
        whole: All roads of the file, and what bars it from some of them.
        reached: Which nodes of ``whole`` are in ``network``.
    """

    network: Network
    through: Nodes
    credit: str
    whole: Network
    reached: Nodes


def open_roads(path: Path, vehicle: Vehicle, speeds: Speeds, points: Sequence[Point]) -> Roads:
    """Return the roads in the file at ``path`` round about ``points``, home the first of them.

    Raises:
        RoadsError: When the file cannot be used, or holds no road for ``vehicle``.
    """
    box = around(points) if path.suffix == _PBF else None
    settings = (path.suffix, repr(vehicle), speeds.words(), repr(box))
    try:
        mark = mark_of(path, settings)
    except OSError as error:
        said = system_said(error)
        raise RoadsError(said, phrase("a road file"), phrase("Check its name.")) from None
    whole = kept(mark, _reader(path, vehicle, speeds, box))
    reached = reached_from(whole, points[0])
    used = with_lanes(whole, reached)
    network = only(whole, used)
    if not len(network.head):
        cure = phrase("Does the file cover your places, and are its roads tagged as such?")
        raise RoadsError(phrase("no road for this truck"), phrase("roads round your places"), cure)
    return Roads(network, reached[used], CREDIT if path.suffix == _PBF else "", whole, reached)


def _reader(path: Path, vehicle: Vehicle, speeds: Speeds, box: Box | None) -> Callable[[], Network]:
    if path.suffix == _PBF:
        return lambda: read_osm(path, vehicle, speeds, box)
    read = read_graphml if path.suffix == ".graphml" else read_geojson
    return lambda: read(path, vehicle, speeds)


def around(points: Sequence[Point]) -> Box:
    """Return a frame round the points with room for detours.

    Its sides are whole tenths of a degree, so that one more yard seldom means reading anew.
    """
    lats = [lat for lat, _ in points]
    middle = points[0][1]
    lons = [middle + (lon - middle + 180) % 360 - 180 for _, lon in points]
    room = max(_LEAST_DEGREES, _MARGIN * max(max(lats) - min(lats), max(lons) - min(lons)))
    return (
        floor((min(lats) - room) * 10) / 10, floor((min(lons) - room) * 10) / 10,
        ceil((max(lats) + room) * 10) / 10, ceil((max(lons) + room) * 10) / 10,
    )  # fmt: skip
