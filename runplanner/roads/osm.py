"""An OpenStreetMap extract (.osm.pbf) as roads; the only door for osmium.

The data are OpenStreetMap's, (c) OpenStreetMap contributors, under the Open Database
Licence (ODbL) 1.0; whoever shows something made of them says so.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final, cast

from runplanner.errors import system_said
from runplanner.phrase import phrase
from runplanner.roads.conditional import sign_of
from runplanner.roads.drawing import Drawing
from runplanner.roads.errors import RoadsError, missing
from runplanner.roads.network import Box, Network
from runplanner.roads.speeds import FERRY, Speeds
from runplanner.roads.tags import barred_by, class_of, point_keys, road_of, sailed, unread
from runplanner.roads.turns import MOST_BETWEEN, Turn
from runplanner.roads.vehicle import Vehicle

if TYPE_CHECKING:
    from osmium.osm import Relation, Way

CREDIT: Final = (
    "\N{COPYRIGHT SIGN} OpenStreetMap contributors, ODbL 1.0, openstreetmap.org/copyright"
)
LARGEST_BYTES: Final = 4_000_000_000
_KEYS: Final = (
    "highway", "route", "restriction", "restriction:hgv",
    "restriction:conditional", "restriction:hgv:conditional",
)  # fmt: skip
_ALLOWED: Final = phrase("an OpenStreetMap extract in PBF (.osm.pbf)")
_FRESH: Final = phrase("Fetch or cut the extract again; it must be whole.")


def read_osm(path: Path, vehicle: Vehicle, speeds: Speeds, box: Box | None = None) -> Network:
    """Return all roads of the extract at ``path`` that ``vehicle`` may drive.

    With ``box`` only roads that come into it are read.

    Raises:
        RoadsError: When osmium or scipy is missing, or the file is no whole extract.
    """
    try:
        import osmium
        from osmium.osm import NODE, RELATION, WAY
    except ImportError:
        raise missing("osmium") from None
    _check_size(path)
    reader = _Reader(vehicle, speeds, box)
    points, others = osmium.filter.KeyFilter(*point_keys(vehicle)), osmium.filter.KeyFilter(*_KEYS)
    points.enable_for(NODE)
    others.enable_for(WAY | RELATION)
    try:
        source = osmium.FileProcessor(osmium.io.File(str(path), "pbf")).with_locations()
        for thing in source.with_filter(points).with_filter(others):
            reader.take(thing)
    except (RuntimeError, UnicodeDecodeError) as error:
        # The text of a library's error may hold anything out of the file.
        raise RoadsError(
            phrase("damaged or cut short ({plain})", plain=_plain(error)), _ALLOWED, _FRESH
        ) from None
    return reader.finished()


def _check_size(path: Path) -> None:
    try:
        size = path.stat().st_size
    except OSError as error:
        raise RoadsError(system_said(error), _ALLOWED, phrase("Check its name.")) from None
    if size == 0:
        raise RoadsError(phrase("an empty file"), _ALLOWED, _FRESH)
    if size > LARGEST_BYTES:
        said = phrase("{size} MB", size=size // 1000000)
        raise RoadsError(
            said, phrase("at most 4000 MB"), phrase("Cut out the region you drive in.")
        )


def _plain(error: Exception) -> str:
    text = "".join(char for char in str(error) if char.isascii() and char.isprintable())
    return text[:80]


class _Reader:
    """Takes ways, points and relations as they come by.

    Points with a gate come before the ways through them, relations after.
    """

    def __init__(self, vehicle: Vehicle, speeds: Speeds, box: Box | None) -> None:
        self.vehicle = vehicle
        self.speeds = speeds
        self.box = box
        self.drawing = Drawing(speeds.wait_s["ferry_wait"])
        self.ends: dict[int, tuple[int, ...]] = {}
        self.relations: list[_Sign] = []

    def take(self, thing: object) -> None:
        """Take whatever comes."""
        from osmium.osm import Node, Way

        if isinstance(thing, Node):
            self.drawing.stands(thing.id, dict(thing.tags), self.vehicle, self.speeds)
        elif isinstance(thing, Way):
            self.way(thing)
        else:
            self.relation(cast("Relation", thing))

    def way(self, way: "Way") -> None:
        """Draw a road; where the extract was clipped some of its points are not there."""
        tags = dict(way.tags)
        if not self.speeds.road.get(class_of(tags)):
            return
        road = road_of(tags, self.vehicle, self.speeds)
        runs = list(_runs(way))
        if road is None:
            cause = barred_by(tags, self.vehicle, self.speeds)
            for run in filter(self._inside, runs if cause else ()):
                self.drawing.barred([self.drawing.point(*spot) for spot in run], cause)
            return
        if class_of(tags) == FERRY:
            road = sailed(road, tags, [[spot[1:] for spot in run] for run in runs])
        inside = [run for run in runs if self._inside(run)]
        if inside:
            self.drawing.unread.update(unread(tags, self.vehicle))
        for run in inside:
            points = [self.drawing.point(*spot) for spot in run]
            self.drawing.line(points, road)
            self.ends[way.id] = (*self.ends.get(way.id, ()), *points)

    def _inside(self, run: list[tuple[int, float, float]]) -> bool:
        if self.box is None:
            return True
        south, west, north, east = self.box
        wide = (east - west) % 360
        return any(south <= lat <= north and (lon - west) % 360 <= wide for _, lat, lon in run)

    def relation(self, relation: "Relation") -> None:
        """Keep a sign against turns until every road is drawn."""
        self.relations += _signs(relation, self.vehicle)

    def finished(self) -> Network:
        """Return the network of all that was taken."""
        for sign in self.relations:
            turn = self._turn(sign)
            if turn is not None:
                self.drawing.turns.append(turn)
        return self.drawing.network()

    def _turn(self, sign: "_Sign") -> Turn | None:
        for path in self._paths(sign):
            before = self._next_to(sign.way_in, path[0])
            after = self._next_to(sign.way_out, path[-1])
            if before is not None and after is not None:
                return Turn(before, path[0], after, sign.only, tuple(path[1:]))
        return None

    def _paths(self, sign: "_Sign") -> list[list[int]]:
        """Return the points from the way in to the way out, in either sense of the way between."""
        if not sign.by_way:
            junction = self.drawing.find(sign.via)
            return [] if junction is None else [[junction]]
        points = list(self.ends.get(sign.via, ()))
        return [points, points[::-1]] if 2 <= len(points) <= MOST_BETWEEN else []

    def _next_to(self, way: int, junction: int | None) -> int | None:
        """Return the point of a way beside the junction it starts or ends at."""
        points = self.ends.get(way, ())
        if len(points) < 2 or points[0] == points[-1]:
            return None
        beside = {points[0]: points[1], points[-1]: points[-2]}
        return None if junction is None else beside.get(junction)


@dataclass(frozen=True, slots=True)
class _Sign:
    """Only this way or not this way; way in, junction or way between, way out, by their ids."""

    only: bool
    way_in: int
    via: int
    way_out: int
    by_way: bool


def _signs(relation: "Relation", vehicle: Vehicle) -> list[_Sign]:
    """Return what a relation forbids to trucks: from each way in to each way out.

    Several of them, and members of other roles, are as the OpenStreetMap wiki's
    "Relation:restriction" has them (``no_entry``, ``no_exit``, ``location_hint``).
    """
    tags = dict(relation.tags)
    keys = ("restriction", "restriction:hgv")[: 1 + ("hgv" in vehicle.access_keys)]
    says = next(filter(None, (sign_of(tags, key, vehicle) for key in keys)), "")
    spared = {"hgv", "goods", "motor_vehicle"} & set(tags.get("except", "").split(";"))
    only = says.startswith("only_")
    if spared or not (only or says.startswith("no_")):
        return []
    members = [(member.role, member.type, member.ref) for member in relation.members]
    via = [(kind, ref) for role, kind, ref in members if role == "via"]
    if len(via) != 1 or via[0][0] not in "nw":
        return []
    ((kind, between),) = via
    ins, outs = (
        [ref for role, kind, ref in members if role == end and kind == "w"]
        for end in ("from", "to")
    )
    return [_Sign(only, here, between, there, kind == "w") for here in ins for there in outs]


def _runs(way: "Way") -> Iterator[list[tuple[int, float, float]]]:
    """Yield the stretches of a way whose points are all there."""
    run: list[tuple[int, float, float]] = []
    for node in way.nodes:
        if node.location.valid():
            run.append((node.ref, node.lat, node.lon))
            continue
        if len(run) > 1:
            yield run
        run = []
    if len(run) > 1:
        yield run
