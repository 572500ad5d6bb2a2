"""Places that stand far from all the rest: another country, a lost sign, lat and lon swapped."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from math import acos, asin, atan2, cos, degrees, hypot, radians, sin
from statistics import median
from typing import Final

from runplanner.phrase import Number, Phrase, joined, phrase, some_of
from runplanner.scenario.gather.found import Basket
from runplanner.scenario.gather.places import Place, point_words
from runplanner.scenario.lands import country_at
from runplanner.scenario.points import Point

FAR_KM: Final = 300
"""About as far as a truck drives out and back in a nine-hour day: common practice, no source."""
_ODD_TIMES: Final = 5
_ODD_LEAST_KM: Final = 50
_MOST_NAMED: Final = 5
_NOWHERE: Final = 1e-9  # places on all sides of the globe cancel out but for rounding
_EARTH_KM: Final = 6371.0
_NO_COUNTRY: Final = phrase("no country")


@dataclass(frozen=True, slots=True)
class Rest:
    """Where the rest lies: its middle, how far half of it is from there, and its country."""

    middle: Point
    half_km: float
    country: str


def check_far(basket: Basket, places: Sequence[Place], known: Sequence[Point], far_km: int) -> None:
    """Write down the places more than ``far_km`` from the middle of the rest (0: no limit).

    ``known`` are points that are trusted already; without any, the middle is that of the
    places themselves.  A place that only sticks out is worth a word, no more.
    """
    points = [place.point for place in places if place.point is not None]
    if not points:
        return
    rest = _rest(known or points)
    abroad: dict[str, list[str]] = {}
    for place in places:
        if place.point is not None and _check(basket, place, place.point, rest, far_km):
            abroad.setdefault(country_at(place.point) or _NO_COUNTRY, []).append(place.name)
    for land, names in abroad.items():
        _note_abroad(basket, land, names, rest)


def _check(basket: Basket, place: Place, point: Point, rest: Rest, far_km: int) -> bool:
    """Write down what is odd about a place; tell whether only its country is."""
    away = apart_km(point, rest.middle)
    if far_km and away > far_km:
        said = phrase(
            "{point} ({away} km away)",
            point=point_words(point),
            away=Number(f"{away:.0f}"),
        )
        allowed, cure = (
            phrase("within {far} km of the rest", far=far_km),
            _cure(point, rest, far_km),
        )
        basket.fault(
            place.spot,
            "lat, lon",
            said,
            allowed,
            joined(" ", *(part for part in (cure, _lands(point, rest)) if part)),
        )
        return False
    if away > max(_ODD_LEAST_KM, _ODD_TIMES * rest.half_km):
        told = phrase(
            "{place}: {away} km from the rest; check it.",
            place=joined(", ", place.spot.words(), place.name),
            away=Number(f"{away:.0f}"),
        )
        basket.note(joined(" ", *(part for part in (told, _lands(point, rest)) if part)))
        return False
    return country_at(point) != rest.country if rest.country else not country_at(point)


def _note_abroad(basket: Basket, land: str, names: Sequence[str], rest: Rest) -> None:
    """Say which places lie in another country, or in the sea: a border is crossed, or a slip."""
    shown = some_of([name[:40] for name in names], _MOST_NAMED)
    if not rest.country:
        basket.note(
            phrase(
                "In the open sea: {names}. Is a minus missing, or are lat and lon swapped?",
                names=shown,
            )
        )
        return
    basket.note(
        phrase(
            "In {land}, where the rest is in {other}: {names}; check.",
            land=land,
            other=rest.country,
            names=shown,
        )
    )


def _lands(point: Point, rest: Rest) -> Phrase | None:
    """Return in which country a point lies where that is not the country of the rest."""
    here, there = country_at(point), rest.country
    if here == there or not there:
        return None
    return phrase("It lies in {here}, the rest in {there}.", here=here or _NO_COUNTRY, there=there)


def _cure(point: Point, rest: Rest, far_km: int) -> Phrase:
    for words, mended in _slips(point):
        if abs(mended[0]) <= 90 and apart_km(mended, rest.middle) <= far_km:
            return phrase(
                "{words}: {point} lies near the rest.",
                words=words,
                point=point_words(mended),
            )
    return phrase("Check it; if it is right, say --far with more kilometres, or --far 0.")


def _slips(point: Point) -> tuple[tuple[Phrase, Point], ...]:
    """Return what may have gone wrong, likeliest first, and the place that was meant."""
    lat, lon = point
    return (
        (phrase("Lat and lon look swapped"), (lon, lat)),
        (phrase("Lat seems to lack its minus or letter"), (-lat, lon)),
        (phrase("Lon seems to lack its minus or letter"), (lat, -lon)),
        (phrase("Lat and lon seem to have each other's sign"), (-lat, -lon)),
        (phrase("Lat and lon look swapped, and a sign wrong"), (-lon, lat)),
        (phrase("Lat and lon look swapped, and a sign wrong"), (lon, -lat)),
        (phrase("Lat and lon look swapped, and both signs wrong"), (-lon, -lat)),
    )


def apart_km(here: Point, there: Point) -> float:
    """Return the great-circle distance, good to half a per cent: enough to see what is far."""
    lat, lon, lat2, lon2 = (radians(each) for each in (*here, *there))
    share = sin(lat) * sin(lat2) + cos(lat) * cos(lat2) * cos(lon - lon2)
    return _EARTH_KM * acos(max(-1.0, min(1.0, share)))


def _rest(points: Sequence[Point]) -> Rest:
    middle = _middle(points)
    half_km = median(apart_km(point, middle) for point in points)
    lands = Counter(country_at(point) for point in points)
    return Rest(middle, half_km, max(sorted(lands), key=lands.__getitem__))


def _middle(points: Sequence[Point]) -> Point:
    """Return the middle, each axis of space by its median: a few strays do not move it."""
    x, y, z = (median(axis) for axis in zip(*(_in_space(point) for point in points), strict=True))
    length = hypot(x, y, z)
    if length < _NOWHERE:
        return points[0]
    return degrees(asin(z / length)), degrees(atan2(y, x))


def _in_space(point: Point) -> tuple[float, float, float]:
    lat, lon = radians(point[0]), radians(point[1])
    return cos(lat) * cos(lon), cos(lat) * sin(lon), sin(lat)
