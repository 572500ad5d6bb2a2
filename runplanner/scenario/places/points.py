"""Latitude and longitude as typed, and the slips that put a place far away."""

from collections.abc import Sequence
from math import isnan, nan
from typing import Final

from runplanner.haulage.travel import geodesic_m
from runplanner.phrase import Number, Phrase, phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.values.degrees import written
from runplanner.scenario.values.figures import LATITUDE, LONGITUDE

Point = tuple[float, float]
_CHECK_BASE: Final = phrase("Check lat and lon here and of the base.")
_CHECK_YARDS: Final = phrase("Check lat and lon here and of the yards.")
FAR_M: Final = 600_000
"""A place further than this from home is a slip of the pen."""
LEAST_YARDS: Final = 2
"""Fewer yards than this do not outvote the base."""


def read_point(fields: Fields) -> Point | None:
    """Return latitude and longitude, or None once their faults are written down."""
    lat = fields.read("lat", LATITUDE, nan)
    lon = fields.read("lon", LONGITUDE, nan)
    if isnan(lat) or isnan(lon):
        return None
    if lat == 0 and lon == 0:
        fields.fault(
            "lat", phrase("a place on land"), phrase("0, 0 lies in the sea: type the real place.")
        )
        return None
    return lat, lon


def check_near(fields: Fields, home: Point | None, point: Point | None) -> None:
    """Write down a place that lies absurdly far from home, with the likely slip."""
    if home is None or point is None:
        return
    far = geodesic_m(home, point)
    if far > FAR_M:
        said = phrase("{far} km away", far=Number(f"{far / 1000:.0f}"))
        _too_far(fields, "lat", home, point, said)


def check_corners(fields: Fields, home: Point | None, corners: Sequence[Point]) -> None:
    """Write down each corner of an area that lies absurdly far; all of them as one slip."""
    if home is None:
        return
    far = [geodesic_m(home, corner) for corner in corners]
    slips = [number for number, metres in enumerate(far) if metres > FAR_M]
    for number in slips[:1] if len(slips) == len(corners) else slips:
        km = Number(f"{far[number] / 1000:.0f}")
        said = phrase("corner {number}: {far} km away", number=number + 1, far=km)
        _too_far(fields, "corners", home, corners[number], said)


def _too_far(fields: Fields, key: str, home: Point, point: Point, said: Phrase) -> None:
    allowed = phrase("within {far} km of the base", far=FAR_M // 1000)
    fields.fault(key, allowed, _slip(home, point), said=said)


def anchor(fields: Fields, home: Point | None, yards: Sequence[Point]) -> Point | None:
    """Return the point that every place must lie near: home, unless home is the odd one out.

    Where more than half of the yards lie together, and far from home, the slip is home's: it
    is said once, there, and the yard amid the others stands in for it.
    """
    if home is None:
        return None
    far = [yard for yard in yards if geodesic_m(home, yard) > FAR_M]
    if 2 * len(far) <= len(yards) or len(far) < LEAST_YARDS:
        return home
    together = [sum(geodesic_m(yard, other) <= FAR_M for other in far) for yard in far]
    if 2 * max(together) <= len(yards):
        return home
    middle = far[together.index(max(together))]
    said = phrase(
        "{lat}, {lon}, {km} km from the yards",
        lat=written(home[0]),
        lon=written(home[1]),
        km=Number(f"{geodesic_m(home, middle) / 1000:.0f}"),
    )
    fields.fault(
        "lat",
        phrase("within {far} km of the yards", far=FAR_M // 1000),
        _slip(middle, home, _CHECK_YARDS),
        said=said,
    )
    return middle


def _slip(home: Point, there: Point, otherwise: Phrase = _CHECK_BASE) -> Phrase:
    lat, lon = there
    tries: dict[Phrase, Point] = {
        phrase("It looks as if lat and lon are swapped."): (lon, lat),
        phrase("It looks as if lat lacks its minus sign, or has one too many."): (-lat, lon),
        phrase("It looks as if lon lacks its minus sign, or has one too many."): (lat, -lon),
        phrase("It looks as if lat and lon lack their minus signs."): (-lat, -lon),
    }
    for words, (try_lat, try_lon) in tries.items():
        if abs(try_lat) <= 90 and geodesic_m(home, (try_lat, try_lon)) <= FAR_M:
            return phrase(
                "{words} Then lat is {try_lat} and lon {try_lon}.",
                words=words,
                try_lat=written(try_lat),
                try_lon=written(try_lon),
            )
    return otherwise
