"""Found places with their positions read: degrees in any writing, swapped or missing ones."""

from collections.abc import Mapping
from dataclasses import dataclass

from runplanner.phrase import joined, phrase
from runplanner.scenario.faults import Refusal
from runplanner.scenario.gather.found import Basket, Found, Spot
from runplanner.scenario.places.points import Point
from runplanner.scenario.values.degrees import (
    BY_LETTER,
    LATITUDE,
    LONGITUDE,
    Angle,
    Axis,
    angle,
    dotted,
    written,
)


@dataclass(frozen=True, slots=True)
class Place:
    """A place to be gathered; ``point`` is None where only its name is known."""

    spot: Spot
    name: str
    point: Point | None
    cells: Mapping[str, str]


def read_places(basket: Basket) -> list[Place]:
    """Return what was found with its positions; those at fault are written down and left out."""
    places = []
    for found in basket.found:
        if not found.lat and not found.lon:
            places.append(Place(found.spot, found.name, None, found.cells))
            continue
        point = _point(basket, found)
        if point is not None:
            places.append(Place(found.spot, found.name, point, found.cells))
    return places


def point_words(point: Point) -> str:
    """Return a position as it goes into a table: ``-38.01, 175.06``."""
    return f"{written(point[0])}, {written(point[1])}"


def point_in(lat: str, lon: str) -> Point | None:
    """Return the position in two cells of a table that stands already, or None."""
    try:
        point = angle(lat, LATITUDE).degrees, angle(lon, LONGITUDE).degrees
    except Refusal:
        return None
    return point if abs(point[0]) <= 90 else None


def _point(basket: Basket, found: Found) -> Point | None:
    lat = _angle(basket, found.spot, "lat", found.lat, LATITUDE)
    lon = _angle(basket, found.spot, "lon", found.lon, LONGITUDE)
    if lat is None or lon is None:
        return None
    axes = BY_LETTER.get(lat.letter, LATITUDE), BY_LETTER.get(lon.letter, LONGITUDE)
    if axes == (LONGITUDE, LATITUDE):
        where = joined(", ", found.spot.words(), found.name)
        basket.note(
            phrase("{where}: lat and lon were swapped; put right by their letters.", where=where)
        )
        lat, lon = lon, lat
    elif axes != (LATITUDE, LONGITUDE):
        said, cure = (
            f"{found.lat}, {found.lon}",
            phrase("Check the letters: lat has N or S, lon E or W."),
        )
        basket.fault(found.spot, "lat", said, phrase("one latitude and one longitude"), cure)
        return None
    if lat.degrees == 0 and lon.degrees == 0:
        cure = phrase("0, 0 lies in the sea: type the real place.")
        basket.fault(found.spot, "lat", "0, 0", phrase("a place on land"), cure)
        return None
    return round(lat.degrees, 6), round(lon.degrees, 6)


def _angle(basket: Basket, spot: Spot, key: str, said: str, axis: Axis) -> Angle | None:
    plain = dotted(said)
    if plain != said:
        basket.note(phrase("{file}: decimal commas of degrees were read as dots.", file=spot.file))
    try:
        return angle(plain, axis)
    except Refusal as refusal:
        basket.fault(spot, key, said or phrase("nothing"), refusal.allowed, refusal.cure)
        return None
