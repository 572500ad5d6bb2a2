"""Roads from files people make themselves: GeoJSON lines, and graphs as GraphML.

Two lines meet where they share a point; lines that only cross do not.  Tags have the same
names and meanings as in OpenStreetMap, in properties of their own or in ``other_tags`` as
GDAL writes them; a line that does not say what it is is a country road, both ways.
"""

import json
import math
import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from runplanner.errors import system_said
from runplanner.phrase import Phrase, phrase
from runplanner.roads.drawing import Drawing
from runplanner.roads.errors import RoadsError, missing
from runplanner.roads.network import Network
from runplanner.roads.speeds import FERRY, Speeds
from runplanner.roads.tags import barred_by, class_of, road_of, sailed, unread
from runplanner.roads.vehicle import Vehicle

if TYPE_CHECKING:
    import networkx as nx

LARGEST_BYTES: Final = 400_000_000
_MOST_GAP: Final = 0.001
"""Degrees between a node and the end of a line that is still its road's, about 100 m."""
_PLAIN: Final = "unclassified"
_OTHER_THINGS: Final = (
    "aerialway", "aeroway", "barrier", "boundary", "man_made", "natural", "piste:type", "power",
    "railway", "waterway",
)  # fmt: skip
"""What a line is that says one of these and is no road."""
_PAIR: Final = re.compile(r'"((?:[^"\\]|\\.)*)"\s*=>\s*"((?:[^"\\]|\\.)*)"')
_ESCAPED: Final = re.compile(r"\\(.)")
_LINES: Final = phrase("a GeoJSON file of lines: a FeatureCollection of LineStrings")
_GRAPH: Final = phrase("a GraphML file whose nodes have x and y (longitude and latitude)")
_FRESH: Final = phrase("Save it again from the program it came from.")
Spot = tuple[float, float]
"""Longitude and latitude, as both kinds of file write them."""


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
    drawing = Drawing()
    for number, feature in enumerate(_features(body)):
        _draw_feature(drawing, feature, number, (vehicle, speeds))
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


def _draw_feature(
    drawing: Drawing, feature: object, number: int, by: tuple[Vehicle, Speeds]
) -> None:
    """Draw one feature; points and areas are passed over."""
    inside = feature.get("geometry") if isinstance(feature, dict) else None
    shape = inside if isinstance(inside, dict) else {}
    given = feature.get("properties") if isinstance(feature, dict) else None
    tags = _tags(given if isinstance(given, dict) else {})
    road = road_of(tags, *by)
    cause = barred_by(tags, *by) if road is None else ""
    if road is None and not cause:
        return
    if road is not None:
        drawing.unread.update(unread(tags, by[0]))
    parts = shape.get("coordinates")
    lists = {"LineString": [parts], "MultiLineString": parts}.get(str(shape.get("type")), [])
    runs = [list(_spots(part, number)) for part in (lists if isinstance(lists, list) else [None])]
    if road is not None and class_of(tags) == FERRY:
        road = sailed(road, tags, [[spot[::-1] for spot in run] for run in runs], by[1])
    for run in runs:
        points = [_point(drawing, spot) for spot in run]
        if road is not None:
            drawing.line(points, road)
        else:
            drawing.barred(points, cause)


def _tags(raw: Mapping[Any, object]) -> dict[str, str]:
    """Return what a feature says of itself as tags; a bare line is a country road."""
    tags = _words({**_others(raw.get("other_tags")), **_words(raw)})
    other = any(tags.get(key, "no") not in {"", "no"} for key in _OTHER_THINGS)
    tags["highway"] = (class_of(tags) or ("" if other else _PLAIN)).split(";")[0]
    return tags


def _words(raw: Mapping[Any, object]) -> dict[str, str]:
    kinds = (str, int, float, bool)
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
    """Return a value as a tag; a list that was written as text, as its parts."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    text = str(value)
    if text.startswith("['"):
        return text.strip("[]").replace("'", "").replace(", ", ";")
    return text


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
    """Return the point of a spot; a centimetre apart is the same spot."""
    return drawing.point((round(spot[0], 7), round(spot[1], 7)), spot[1], spot[0])


def read_graphml(path: Path, vehicle: Vehicle, speeds: Speeds) -> Network:
    """Return the network of a GraphML file.

    Nodes carry ``x`` and ``y``; edges may carry tags, ``length`` in metres and ``geometry``
    as WKT.  Directed edges are driven one way.

    Raises:
        RoadsError: When it is no such file, or scipy is missing.
    """
    graph = _graph(_text(path, _GRAPH))
    drawing = Drawing()
    spots = {key: _node(key, facts) for key, facts in graph.nodes(data=True)}
    for here, there, facts in graph.edges(data=True):
        tags = _tags(facts)
        if graph.is_directed():
            tags["oneway"] = "yes"
        road = road_of(tags, vehicle, speeds)
        cause = barred_by(tags, vehicle, speeds) if road is None else ""
        if road is None and not cause:
            continue
        way = _way(spots[here], spots[there], facts.get("geometry"))
        points = [_point(drawing, spot) for spot in way]
        if road is not None:
            drawing.unread.update(unread(tags, vehicle))
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
