"""How long the roads take: straight lines over the earth, a detour and a speed.

The only door for geopy.  Its geodesic is Karney's on the WGS 84 ellipsoid, good to well
under a millimetre, so the detour factor and the speed are all that is uncertain.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from runplanner.outfit.bases import Travel
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.phrase import Number, phrase

if TYPE_CHECKING:
    from geopy.distance import geodesic

Point = tuple[float, float]
Leg = tuple[int, int] | None
"""Minutes and metres, or None where there is no road."""


def geodesic_m(here: Point, there: Point) -> float:
    """Return the shortest way over the earth between two (lat, lon), in metres."""
    return float(_earth().measure(here, there) * 1000)


@cache
def _earth() -> "geodesic":
    """Return what measures: its series for the ellipsoid are worked out once, not for each pair."""
    from geopy.distance import geodesic

    return geodesic()


def nearest_yard(outfit: Outfit, there: Point, yards: Iterable[Yard]) -> Yard:
    """Return the yard of ``yards`` whose last site is the nearest to a point.

    Raises:
        ValueError: When there are none.
    """

    def away(yard: Yard) -> tuple[float, str]:
        place = outfit.places[yard.sites[-1][1]]
        return geodesic_m((place.lat, place.lon), there), yard.id

    return min(yards, key=away)


def geodesic_travel(points: Sequence[Point], detour_permille: int, speed_m_per_h: int) -> Travel:
    """Return a travel table from straight lines.

    Args:
        points: Latitude and longitude of each place.
        detour_permille: Road for each thousand of straight line (1300 = 1.3 times).
        speed_m_per_h: Metres driven in an hour.

    Returns:
        Metres and minutes, both rounded up; the same both ways.
    """
    metres = [[0] * len(points) for _ in points]
    for i, here in enumerate(points):
        for j in range(i):
            metres[i][j] = metres[j][i] = road_m(geodesic_m(here, points[j]), detour_permille)
    minutes = tuple(tuple(drive_min(cell, speed_m_per_h) for cell in row) for row in metres)
    source = phrase(
        "straight lines x {factor} at {speed} km/h",
        factor=Number(f"{detour_permille / 1000:g}"),
        speed=Number(f"{speed_m_per_h / 1000:g}"),
    )
    return Travel(minutes=minutes, metres=tuple(tuple(row) for row in metres), source=source)


def road_m(straight_m: float, detour_permille: int) -> int:
    """Return the road for a straight line, up to the next metre.

    The line is first cut to whole millimetres, so that the last digits of a float, which
    may differ between machines, do not reach the table.
    """
    return -(-round(straight_m * 1000) * detour_permille // 1_000_000)


def drive_min(metres: int, speed_m_per_h: int) -> int:
    """Return the minutes for a road, rounded up."""
    return -(-metres * 60 // speed_m_per_h)


def slowed_min(minutes: int, speed_permille: int) -> int:
    """Return the minutes of a leg for who drives at so much of the table's speed, rounded up."""
    return -(-minutes * 1000 // speed_permille)


def with_legs(travel: Travel, legs: Mapping[tuple[int, int], Leg], file: str) -> Travel:
    """Return ``travel`` with typed legs in place of worked-out ones.

    A leg typed one way only holds for the way back as well.
    """
    if not legs:
        return travel
    both = {(j, i): leg for (i, j), leg in legs.items()} | dict(legs)
    minutes = [list(row) for row in travel.minutes]
    metres = [list(row) for row in travel.metres]
    for (i, j), leg in both.items():
        minutes[i][j], metres[i][j] = leg if leg is not None else (None, None)
    return replace(
        travel,
        minutes=tuple(tuple(row) for row in minutes),
        metres=tuple(tuple(row) for row in metres),
        source=phrase(
            "{legs} legs from {file}, otherwise {source}",
            legs=len(legs),
            file=file,
            source=travel.source,
        ),
    )
