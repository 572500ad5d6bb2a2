"""Places that stand far from all the rest: another country, a lost sign, lat and lon swapped."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import acos, asin, atan2, cos, degrees, hypot, radians, sin
from statistics import median
from typing import Final

from runplanner.phrase import Number, Phrase, counted, joined, phrase, some_of
from runplanner.scenario.gather.found import Basket, Spot
from runplanner.scenario.gather.places import Place, point_words
from runplanner.scenario.places.lands import country_at
from runplanner.scenario.places.points import Point

FAR_KM: Final = 300
"""About as far as a truck drives out and back in a nine-hour day: common practice, no source."""
_ODD_TIMES: Final = 5
_ODD_LEAST_KM: Final = 50
_MOST_NAMED: Final = 5
_NOWHERE: Final = 1e-9  # places on all sides of the globe cancel out but for rounding
_EARTH_KM: Final = 6371.0
_NO_COUNTRY: Final = phrase("no country")


@dataclass(frozen=True, slots=True)
class Known:
    """Where a scenario lies already: the yards of its table, and the bases that were typed."""

    yards: tuple[Point, ...]
    bases: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Rest:
    """Where the rest lies, or a base: its middle, how far half is from there, its country."""

    middle: Point
    half_km: float
    country: str
    base: bool = False


@dataclass(frozen=True, slots=True)
class _Around:
    """What places are held against: the rest, and what is trusted (the rest itself if nothing)."""

    rest: Rest
    trusted: tuple[Rest, ...]
    far_km: int

    def far_off(self, point: Point) -> bool:
        """Tell whether a point is too far from all that is trusted."""
        return bool(self.far_km) and all(
            apart_km(point, rest.middle) > self.far_km for rest in self.trusted
        )


def check_far(basket: Basket, places: Sequence[Place], known: Known, far_km: int) -> None:
    """Write down the places more than ``far_km`` from every base and from the middle of the rest.

    0: no limit.  The rest are the yards known already; without any, the places themselves, which
    are trusted only where no base is known either.  A place that only sticks out is worth a word,
    no more.
    """
    points = [place.point for place in places if place.point is not None]
    if not points:
        return
    bases = tuple(replace(_rest([base]), base=True) for base in known.bases)
    rest = _rest(known.yards or points)
    around = _Around(rest, (*([rest] if known.yards or not bases else []), *bases), far_km)
    _note_odd(basket, known, bases, far_km)
    at_sea = not any(around.far_off(point) or country_at(point) for point in points)
    if far_km and not known.yards and at_sea:
        _refuse_sea(basket, places)
        return
    abroad: dict[str, list[str]] = {}
    for place in places:
        if place.point is not None and _check(basket, place, place.point, around):
            abroad.setdefault(country_at(place.point) or _NO_COUNTRY, []).append(place.name)
    for land, names in abroad.items():
        _note_abroad(basket, land, names, rest)


def _note_odd(basket: Basket, known: Known, bases: Sequence[Rest], far_km: int) -> None:
    """Say how many yards of the table lie as if they or the base had been typed wrongly."""
    odd = sum(all(_slip(point, base, far_km) for base in bases) for point in known.yards)
    if bases and odd:
        basket.note(
            counted(
                "{number} yard of the table lies far from the base: lat and lon swapped or a sign"
                " wrong, here or there? See check.",
                "{number} yards of the table lie far from the base: lat and lon swapped or a sign"
                " wrong, here or there? See check.",
                odd,
            )
        )


def _refuse_sea(basket: Basket, places: Sequence[Place]) -> None:
    """Write down that no place lies on land."""
    spot = Spot(", ".join(dict.fromkeys(place.spot.file for place in places)), "")
    said = phrase(
        "all in the open sea: {names}",
        names=some_of([place.name[:40] for place in places if place.point], _MOST_NAMED),
    )
    cure = phrase("Is a minus missing, or are lat and lon swapped? If all is right, say --far 0.")
    basket.fault(spot, "lat, lon", said, phrase("places on land"), cure)


def _check(basket: Basket, place: Place, point: Point, around: _Around) -> bool:
    """Write down what is odd about a place; tell whether only its country is."""
    rest, near, far_km = around.rest, around.trusted[0], around.far_km
    if around.far_off(point):
        away = apart_km(point, near.middle)
        said = phrase(
            "{point} ({away} km away)",
            point=point_words(point),
            away=Number(f"{away:.0f}"),
        )
        allowed = (
            phrase("within {far} km of the base", far=far_km)
            if near.base
            else phrase("within {far} km of the rest", far=far_km)
        )
        parts = (_cure(point, around), _lands(point, near))
        basket.fault(
            place.spot, "lat, lon", said, allowed, joined(" ", *(part for part in parts if part))
        )
        return False
    away = apart_km(point, rest.middle)
    if away > max(_ODD_LEAST_KM, _ODD_TIMES * rest.half_km):
        told = phrase(
            "{place}: {away} km from the rest; check it.",
            place=joined(", ", place.spot.words(), place.name),
            away=Number(f"{away:.0f}"),
        )
        basket.note(joined(" ", *(part for part in (told, _lands(point, rest)) if part)))
        return False
    here = country_at(point)
    homes = (one.country for one in (rest, *around.trusted))
    return not here or bool(rest.country and here not in homes)


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
    here, there = country_at(point) or _NO_COUNTRY, rest.country
    if here == there or not there:
        return None
    if rest.base:
        return phrase("It lies in {here}, the base in {there}.", here=here, there=there)
    return phrase("It lies in {here}, the rest in {there}.", here=here, there=there)


def _cure(point: Point, around: _Around) -> Phrase:
    for rest in around.trusted:
        slip = _slip(point, rest, around.far_km)
        if slip is not None:
            words, meant = slip[0], point_words(slip[1])
            if rest.base:
                return phrase("{words}: {point} lies near the base.", words=words, point=meant)
            return phrase("{words}: {point} lies near the rest.", words=words, point=meant)
    return phrase("Check it; if it is right, say --far with more kilometres, or --far 0.")


def _slip(point: Point, rest: Rest, far_km: int) -> tuple[Phrase, Point] | None:
    """Return the likeliest slip that put a point far from the rest, and what was meant."""
    if apart_km(point, rest.middle) <= far_km:
        return None
    near = (
        slip for slip in _slips(point)
        if abs(slip[1][0]) <= 90 and apart_km(slip[1], rest.middle) <= far_km
    )  # fmt: skip
    return next(near, None)


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
