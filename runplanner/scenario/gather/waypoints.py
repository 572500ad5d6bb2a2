"""Waypoints of a GPX file and placemarks of a KML file.

The only door for XML that comes in.  A file with a DOCTYPE or entities of its own is
refused: with them a small file can swell without end, or fetch others.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from runplanner.phrase import phrase
from runplanner.scenario.faults import said_text
from runplanner.scenario.gather.found import Basket, Spot, by_column, raw_bytes
from runplanner.scenario.gather.kmz import inner_kml

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_NOT_XML = phrase("Save it again from the program or device it came from.")


def gather_gpx(path: Path, basket: Basket) -> None:
    """Take every waypoint; tracks and routes are only counted."""
    root = _root(path, basket, "gpx")
    if root is None:
        return
    file = said_text(path.name)
    for number, point in enumerate(_children(root, "wpt"), start=1):
        spot = Spot(file, phrase("waypoint {number}", number=number))
        if basket.full(spot):
            break
        typed = {"lat": point.get("lat", ""), "lon": point.get("lon", "")}
        typed["name"] = _text(point, "name")
        typed["notes"] = _text(point, "desc") or _text(point, "cmt")
        _take(basket, spot, typed)
    lines = len([*_children(root, "trk"), *_children(root, "rte")])
    if lines:
        basket.note(
            phrase(
                "{file}: tracks and routes left out, as only waypoints are places: {lines}.",
                file=file,
                lines=lines,
            )
        )


def gather_kml(path: Path, basket: Basket) -> None:
    """Take every placemark that is one point, of a KML file or of the one in a KMZ."""
    root = _root(path, basket, "kml")
    if root is None:
        return
    file, left = said_text(path.name), 0
    for number, mark in enumerate(_all(root, "Placemark"), start=1):
        spot, points = Spot(file, phrase("placemark {number}", number=number)), _points(mark)
        if basket.full(spot):
            break
        if len(points) == 1:
            _take(basket, spot, _placemark(mark, points[0]))
        else:
            left += 1
    if left:
        basket.note(
            phrase(
                "{file}: placemarks left out that are not one point: {left}.", file=file, left=left
            )
        )


def _points(mark: "Element") -> "list[Element]":
    """Return a placemark's points, its own or those of its group; never those further down."""
    groups = (mark, *_children(mark, "MultiGeometry"))
    return [point for group in groups for point in _children(group, "Point")]


def _placemark(mark: "Element", point: "Element") -> dict[str, str]:
    """Return a placemark's cells; what its extra data call by a known column counts as well."""
    extra: dict[str, str] = {}
    for held in _children(mark, "ExtendedData"):
        extra |= {one.get("name", ""): _text(one, "value") for one in _children(held, "Data")}
        for schema in _children(held, "SchemaData"):
            pairs = _children(schema, "SimpleData")
            extra |= {one.get("name", ""): one.text or "" for one in pairs}
    cells, _ = by_column(extra)
    lon, _, rest = _text(point, "coordinates").partition(",")
    own = {
        "name": _text(mark, "name"),
        "notes": _text(mark, "description"),
        "lat": rest.partition(",")[0].strip(),
        "lon": lon.strip(),
    }
    return cells | {key: text for key, text in own.items() if text or key not in cells}


def _take(basket: Basket, spot: Spot, typed: dict[str, str]) -> None:
    if "<" in typed["notes"]:
        basket.note(phrase("{spot}: a description in HTML was left out.", spot=spot.words()))
        typed = typed | {"notes": ""}
    basket.add(spot, typed)


def _root(path: Path, basket: Basket, kind: str) -> "Element | None":
    """Return the outermost element, or None once its fault is written down."""
    from defusedxml import DefusedXmlException
    from defusedxml.ElementTree import ParseError, fromstring

    raw = raw_bytes(path, basket)
    spot, allowed = Spot(said_text(path.name), ""), phrase("a {upper} file", upper=kind.upper())
    if raw is not None and path.suffix.lower() == ".kmz":
        raw = inner_kml(raw, path, basket)
    if raw is None:
        return None
    try:
        root: Element = fromstring(raw, forbid_dtd=True)
    except DefusedXmlException:  # entities need a DOCTYPE, so it is what is met first
        cure = phrase("Take the DOCTYPE line out, or save the file again from where it came.")
        basket.fault(
            spot, "", phrase("a DOCTYPE"), phrase("{allowed} without one", allowed=allowed), cure
        )
    except ParseError as error:
        basket.fault(spot, "", str(error), allowed, _NOT_XML)
    except (ValueError, LookupError):
        basket.fault(
            spot,
            "",
            phrase("an unknown encoding"),
            phrase("{allowed} in UTF-8", allowed=allowed),
            _NOT_XML,
        )
    else:
        if _tag(root) == kind:
            return root
        basket.fault(spot, "", f"<{_tag(root)}>", allowed, phrase("Check what the file is."))
    return None


def _tag(element: "Element") -> str:
    """Return an element's name without its namespace: old and new files differ in that alone."""
    return str(element.tag).rpartition("}")[2]


def _children(element: "Element", tag: str) -> "Iterator[Element]":
    return (child for child in element if _tag(child) == tag)


def _all(element: "Element", tag: str) -> "Iterator[Element]":
    return (child for child in element.iter() if _tag(child) == tag)


def _text(element: "Element", tag: str) -> str:
    """Return the text of the first child called ``tag``, without the blanks around it."""
    return next(((child.text or "").strip() for child in _children(element, tag)), "")
