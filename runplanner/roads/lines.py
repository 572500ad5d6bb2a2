"""Roads from files people make themselves: GeoJSON lines, and graphs as GraphML.

Two lines meet where they share a point; lines that only cross do not.  Tags have the same
names and meanings as in OpenStreetMap, in properties of their own or in ``other_tags`` as
GDAL writes them; a line that does not say what it is is a country road, both ways, and told.
Gates, barriers and limits may stand on lines as points, and at nodes.
"""

import json
import math
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from runplanner.errors import system_said
from runplanner.phrase import Phrase, phrase
from runplanner.roads.drawing import Drawing
from runplanner.roads.endings import shown
from runplanner.roads.errors import RoadsError, missing
from runplanner.roads.network import Network
from runplanner.roads.posts import Spot, key_of, put_on
from runplanner.roads.speeds import FERRY, KINDS, Speeds
from runplanner.roads.tags import Road, barred_by, class_of, point_keys, road_of, sailed, unread
from runplanner.roads.vehicle import Vehicle

if TYPE_CHECKING:
    import networkx as nx

LARGEST_BYTES: Final = 400_000_000
_MOST_GAP: Final = 0.001
"""Degrees between a node and the end of a line that is still its road's, about 100 m."""
_PLAIN: Final = "unclassified"
NO_CLASS: Final = shown("highway", "")
"""How what is told of a line begins that is taken for a country road, as it says no class."""
_CLASSES: Final = frozenset((
    *KINDS, "bridleway", "cycleway", "footway", "path", "pedestrian", "steps",
))  # fmt: skip
"""Classes by which another property shows that it is the class."""
_OTHER_THINGS: Final = (
    "aerialway", "aeroway", "barrier", "boundary", "building", "landuse", "leisure", "man_made",
    "natural", "piste:type", "power", "railway", "waterway",
)  # fmt: skip
"""What a line is that says one of these and is no road."""
_OTHER_ROUTES: Final = frozenset((
    "bicycle", "canoe", "fitness_trail", "foot", "hiking", "horse", "inline_skates", "light_rail",
    "monorail", "motorboat", "mtb", "nordic_walking", "pipeline", "piste", "power", "railway",
    "running", "ski", "snowmobile", "subway", "train", "tram", "via_ferrata", "walking",
))  # fmt: skip
"""Routes that are for others, or none for wheels (OpenStreetMap wiki, Key:route)."""
_PAIR: Final = re.compile(r'"((?:[^"\\]|\\.)*)"\s*=>\s*"((?:[^"\\]|\\.)*)"')
_ESCAPED: Final = re.compile(r"\\(.)")
_PLAIN_KINDS: Final = (str, int, float, bool)
_ONE_WORD: Final = re.compile(r"[A-Za-z_]+")
_WHOLE: Final = re.compile(r"(-?[0-9]+)\.0+")
_AS_TAGS: Final = {"true": "yes", "false": "no"}
_LINES: Final = phrase("a GeoJSON file of lines: a FeatureCollection of LineStrings")
_GRAPH: Final = phrase("a GraphML file whose nodes have x and y (longitude and latitude)")
_FRESH: Final = phrase("Save it again from the program it came from.")


def read_geojson(path: Path, vehicle: Vehicle, speeds: Speeds) -> Network:
    """Return the network of a GeoJSON file's lines.

    Raises:
        RoadsError: When it is no such file, or scipy is missing.
    """
    text = _text(path, _LINES)
    try:
        body = json.loads(text)
    except (ValueError, RecursionError) as error:
        said = (
            phrase("no JSON")
            if isinstance(error, json.JSONDecodeError)
            else phrase("JSON out of bounds")
        )
        raise RoadsError(said, _LINES, _FRESH) from None
    drawing = Drawing(speeds.wait_s["ferry_wait"])
    by = (vehicle, speeds)
    shapes = [_shape(feature, number) for number, feature in enumerate(_features(body))]
    posts = _posts(drawing, shapes, by)
    lines: Iterable[_Line] = (line for shape in shapes for line in _lines(shape, by))
    if posts:
        lines = list(lines)
        _put_on(drawing, posts, lines)
    for line in lines:
        _draw(drawing, line, vehicle)
    return drawing.network()


def _text(path: Path, allowed: Phrase) -> str:
    try:
        if path.stat().st_size > LARGEST_BYTES:
            raise RoadsError(
                phrase("more than 400 MB"), phrase("at most 400 MB"), phrase("Cut out your region.")
            )
        return path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise RoadsError(system_said(error), allowed, phrase("Check its name.")) from None
    except UnicodeDecodeError:
        raise RoadsError(phrase("other bytes than UTF-8"), allowed, _FRESH) from None


def _features(body: object) -> list[object]:
    found = body.get("features") if isinstance(body, dict) else None
    if not isinstance(found, list):
        raise RoadsError(phrase("no list of features"), _LINES, _FRESH)
    return found


@dataclass(frozen=True, slots=True)
class _Shape:
    """A feature: its number in the file, kind of geometry, coordinates and properties."""

    number: int
    kind: str
    parts: object
    raw: Mapping[Any, object]


def _shape(feature: object, number: int) -> _Shape:
    inside = feature.get("geometry") if isinstance(feature, dict) else None
    shape = inside if isinstance(inside, dict) else {}
    given = feature.get("properties") if isinstance(feature, dict) else None
    raw = given if isinstance(given, dict) else {}
    return _Shape(number, str(shape.get("type")), shape.get("coordinates"), raw)


def _posts(
    drawing: Drawing, shapes: Iterable[_Shape], by: tuple[Vehicle, Speeds]
) -> dict[Spot, list[str]]:
    """Return the points at which something stands that a truck has to heed, and what."""
    found: dict[Spot, list[str]] = {}
    telling = point_keys(by[0])
    for shape in shapes:
        parts = {"Point": [shape.parts], "MultiPoint": shape.parts}.get(shape.kind)
        tags = _said(shape.raw) if parts else {}
        told = ", ".join(shown(key, tags[key]) for key in telling if key in tags)
        for spot in _spots(parts, shape.number) if told else ():
            if drawing.stands(key_of(spot), tags, *by):
                said = f"({spot[1]:.5f}, {spot[0]:.5f}) {told}"
                found.setdefault(key_of(spot), []).append(said)
    return found


@dataclass(frozen=True, slots=True)
class _Line:
    """A road of any kind: its tags, how it is driven, what bars it, and its points by parts.

    ``classless`` tells of one that does not say what it is, "" of others.
    """

    tags: Mapping[str, str]
    classless: str
    road: Road | None
    cause: str
    runs: list[list[Spot]]

    @property
    def counts(self) -> bool:
        """Whether trucks are driven or kept off here; others have ways of their own."""
        return self.road is not None or bool(self.cause)


def _lines(shape: _Shape, by: tuple[Vehicle, Speeds]) -> Iterator[_Line]:
    """Yield the road of a feature that is one; areas are passed over."""
    parts = {"LineString": [shape.parts], "MultiLineString": shape.parts}.get(shape.kind, [])
    tags, classless = _tags(shape.raw) if parts != [] else ({}, "")
    if class_of(tags):
        road = road_of(tags, *by)
        cause = barred_by(tags, *by) if road is None else ""
        whole = parts if isinstance(parts, list) else [None]
        yield _Line(
            tags, classless, road, cause, [list(_spots(part, shape.number)) for part in whole]
        )


def _put_on(drawing: Drawing, posts: Mapping[Spot, list[str]], lines: Sequence[_Line]) -> None:
    """Put points into the lines they stand on; tell of those that may stand on several."""
    runs, others = (
        [run for line in lines if line.counts == counts for run in line.runs]
        for counts in (True, False)
    )
    drawing.unread.update(word for spot in put_on(posts, runs, others) for word in posts[spot])


def _draw(drawing: Drawing, line: _Line, vehicle: Vehicle) -> None:
    """Draw a road that trucks are driven on or kept off."""
    road = line.road
    if road is not None:
        drawing.unread.update(_unread(line.tags, line.classless, vehicle))
        if class_of(line.tags) == FERRY:
            road = sailed(road, line.tags, [[spot[::-1] for spot in run] for run in line.runs])
    for run in line.runs if line.counts else ():
        points = [_point(drawing, spot) for spot in run]
        if road is not None:
            drawing.line(points, road)
        else:
            drawing.barred(points, line.cause)


def _tags(raw: Mapping[Any, object]) -> tuple[dict[str, str], str]:
    """Return what a feature says of itself as tags; a bare line is a country road.

    Of a bare line what is to be told as well: perhaps another property is its class.
    """
    tags = _said(raw)
    other = any(tags.get(key, "no") not in {"", "no"} for key in _OTHER_THINGS)
    other = other or tags.get("route") in _OTHER_ROUTES
    bare = not class_of(tags) and not other
    hints = [shown(key, word) for key, word in tags.items() if word in _CLASSES] if bare else []
    tags["highway"] = (class_of(tags) or ("" if other else _PLAIN)).split(";")[0]
    return tags, " ".join([NO_CLASS, *hints[:1]]) if bare else ""


def _unread(tags: Mapping[str, str], classless: str, vehicle: Vehicle) -> list[str]:
    """Return what cannot be read of a road: its limits, and what it is."""
    return [*unread(tags, vehicle), *([classless] if classless else [])]


def _said(raw: Mapping[Any, object]) -> dict[str, str]:
    return _words({**_others(raw.get("other_tags")), **_words(raw)})


def _words(raw: Mapping[Any, object]) -> dict[str, str]:
    kinds = (*_PLAIN_KINDS, list)
    return {str(key): _word(value) for key, value in raw.items() if isinstance(value, kinds)}


def _others(said: object) -> Mapping[Any, object]:
    """Return the tags that have no property of their own: pairs, or JSON, or JSON as text."""
    if not isinstance(said, str):
        return said if isinstance(said, dict) else {}
    if said.lstrip().startswith("{"):
        try:
            body = json.loads(said)
        except (ValueError, RecursionError):
            return {}
        return body if isinstance(body, dict) else {}
    pairs = _PAIR.findall(said)
    return {_ESCAPED.sub(r"\1", key): _ESCAPED.sub(r"\1", text) for key, text in pairs}


def _word(value: object) -> str:
    """Return a value as a tag: words in small letters, whole numbers without a point.

    A list, or one that was written as text, becomes its parts with semicolons between.
    """
    if isinstance(value, list):
        return ";".join(_word(one) for one in value if isinstance(one, _PLAIN_KINDS))
    text = str(value)
    if text.startswith("["):
        return ";".join(_word(one.strip("[]'\" ")) for one in text.split(","))
    if _ONE_WORD.fullmatch(text):
        return _AS_TAGS.get(text.lower(), text.lower())
    whole = _WHOLE.fullmatch(text)
    return whole[1] if whole else text


def _spots(part: object, number: int) -> Iterator[Spot]:
    if not isinstance(part, list):
        raise _bad_line(number)
    for spot in part:
        fit = isinstance(spot, list) and len(spot) >= 2
        if not fit or not _on_earth(spot[0], 180) or not _on_earth(spot[1], 90):
            raise _bad_line(number)
        yield float(spot[0]), float(spot[1])


def _bad_line(number: int) -> RoadsError:
    said = phrase(
        "feature {number} has no points [longitude, latitude] in degrees", number=number + 1
    )
    return RoadsError(said, _LINES, phrase("Save it in WGS 84 (EPSG:4326)."))


def _on_earth(value: object, most: int) -> bool:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    return abs(value) <= most


def _point(drawing: Drawing, spot: Spot) -> int:
    """Return the point of a spot."""
    return drawing.point(key_of(spot), spot[1], spot[0])


def read_graphml(path: Path, vehicle: Vehicle, speeds: Speeds) -> Network:
    """Return the network of a GraphML file.

    Nodes carry ``x`` and ``y``; edges may carry tags, ``length`` in metres and ``geometry``
    as WKT.  Directed edges are driven one way.

    Raises:
        RoadsError: When it is no such file, or scipy is missing.
    """
    graph = _graph(_text(path, _GRAPH))
    drawing = Drawing(speeds.wait_s["ferry_wait"])
    spots = {key: _node(key, facts) for key, facts in graph.nodes(data=True)}
    for key, facts in graph.nodes(data=True):
        drawing.stands(key_of(spots[key]), _said(facts), vehicle, speeds)
    for here, there, facts in graph.edges(data=True):
        tags, classless = _tags(facts)
        if graph.is_directed():
            tags[vehicle.one_way_keys[0]] = "yes"
        road = road_of(tags, vehicle, speeds)
        cause = barred_by(tags, vehicle, speeds) if road is None else ""
        if road is None and not cause:
            continue
        way = _way(spots[here], spots[there], facts.get("geometry"))
        points = [_point(drawing, spot) for spot in way]
        if road is not None:
            drawing.unread.update(_unread(tags, classless, vehicle))
            drawing.line(points, road, _metres(facts))
        else:
            drawing.barred(points, cause)
    return drawing.network()


def _graph(text: str) -> "nx.Graph[object]":
    """Return the graph in ``text``; a document type, which could hold entities, is refused."""
    try:
        import networkx as nx
    except ImportError:
        raise missing("networkx") from None
    if "<!" in text.replace("<!--", ""):
        raise RoadsError(
            phrase("a document type"), _GRAPH, phrase("Delete everything from <! up to its >.")
        )
    try:
        graph: nx.Graph[object] = nx.parse_graphml(text)
    except Exception:  # noqa: BLE001 - a strange file makes it raise anything
        raise RoadsError(phrase("no GraphML"), _GRAPH, _FRESH) from None
    return graph


def _node(key: object, facts: Mapping[str, object]) -> Spot:
    x, y = (_number(facts.get(a, facts.get(b))) for a, b in (("x", "lon"), ("y", "lat")))
    if not (_on_earth(x, 180) and _on_earth(y, 90)):
        said = phrase("node {key} has no x and y in degrees", key=repr(str(key)[:20]))
        raise RoadsError(said, _GRAPH, phrase("Save it in WGS 84 (EPSG:4326)."))
    return x, y


def _number(value: object) -> float:
    try:
        return float(value)  # type: ignore[arg-type]
    except (TypeError, ValueError, OverflowError):
        return math.nan


def _metres(facts: Mapping[str, object]) -> float:
    metres = _number(facts.get("length"))
    return metres if 0 < metres < 1e7 else 0


def _way(here: Spot, there: Spot, wkt: object) -> Iterable[Spot]:
    """Return the points of an edge; a geometry that does not join its ends is left out.

    Where the edge has no direction its geometry may begin at either end.
    """
    text = wkt if isinstance(wkt, str) else ""
    head, _, body = text.strip().rstrip(")").partition("(")
    inner = [_pair(part) for part in body.split(",")] if head.strip() == "LINESTRING" else []
    whole = [spot for spot in inner if _on_earth(spot[0], 180) and _on_earth(spot[1], 90)]
    if len(whole) != len(inner) or len(whole) < 2:
        return here, there
    turned = whole[::-1]
    way = min((whole, turned), key=lambda line: _gap(here, line[0]) + _gap(line[-1], there))
    if max(_gap(here, way[0]), _gap(way[-1], there)) > _MOST_GAP:
        return here, there
    return here, *way[1:-1], there


def _gap(one: Spot, other: Spot) -> float:
    return max(abs(one[0] - other[0]), abs(one[1] - other[1]))


def _pair(text: str) -> Spot:
    figures = [_number(part) for part in text.split()[:2]]
    return (figures[0], figures[1]) if len(figures) == 2 else (math.nan, math.nan)
