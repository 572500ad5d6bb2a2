"""Yards that move on a date, and areas in which nothing may leave a yard."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import combinations
from typing import Final

from runplanner.haulage.travel import geodesic_m
from runplanner.outfit.areas import Area
from runplanner.outfit.trucks import Truck
from runplanner.outfit.yards import CLOSED, Health, Place
from runplanner.phrase import phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import Days, OutfitFile
from runplanner.scenario.faults import Moot, Refusal, did_you_mean
from runplanner.scenario.parts.bases_part import PlaceBook
from runplanner.scenario.places.points import Point, check_corners, check_near, read_point
from runplanner.scenario.values import measures
from runplanner.scenario.values.figures import LATITUDE, LONGITUDE
from runplanner.scenario.values.words import key_of, name
from runplanner.scenario.yards.yard_row import Draft, all_named

MOST_CORNERS: Final = 500
STAYS: Final = phrase(
    "a yard that hives may leave: not one that is suspect or at a standstill, nor one of which "
    "the old or the new place lies in a restricted area"
)
LEAVE_IT_OUT: Final = phrase(
    "Take the move out; at a standstill, or in an area, it may stay where a licence allows it and "
    "is typed with the yard."
)
_IN_ORDER: Final = phrase("List [lat, lon] of each corner in order round the area.")


def read_moves(
    file: OutfitFile, drafts: list[Draft], days: Days, book: PlaceBook, trucks: tuple[Truck, ...]
) -> tuple[list[Draft], tuple[Truck, ...]]:
    """Return the yards with their later sites, and the trucks with the days moving takes."""

    def find_truck(said: object) -> str:
        return _find_truck(trucks, said)

    for number, fields in enumerate(file.entries("moves")):
        at = fields.read("yard", lambda said: find_yard(drafts, said), -1)
        day = fields.read("day", days.number, 1)
        point = read_point(fields)
        check_near(fields, drafts[at].point if at >= 0 else None, point)
        truck = fields.optional("truck", find_truck)
        stretch_min = fields.optional("last_stretch", measures.DRIVE)
        dated = days.known and fields.right("yard", "day")
        if dated and day <= drafts[at].yard.sites[-1][0]:
            fields.fault(
                "day", phrase("after the first day, and moves in order"), phrase("Check the dates.")
            )
        if not fields.clean or point is None:
            continue
        yard = drafts[at].yard
        place = Place(f"yard-{yard.id}-moved-{number + 1}", yard.name, *point)
        moved = yard.moved_by(day, book.add(place, stretch_min, fields), truck or "")
        drafts[at] = replace(drafts[at], yard=moved)
        if truck is not None:
            trucks = tuple(_kept_home(one, day) if one.id == truck else one for one in trucks)
    return drafts, trucks


def see_that_hives_stay(drafts: Sequence[Draft], book: PlaceBook) -> None:
    """Refuse every move of hives that a yard's health, or a restricted area, keeps in place."""
    for draft in drafts:
        for _, place in draft.yard.sites[1:] if draft.yard.health in CLOSED else ():
            move = book.moves[place]
            if move is not None:
                move.fault("yard", STAYS, LEAVE_IT_OUT)


def _kept_home(truck: Truck, day: int) -> Truck:
    """A truck that moves hives in the night before ``day`` is not to be had that day."""
    return replace(truck, out_days=tuple(sorted({*truck.out_days, day})))


def find_yard(drafts: Sequence[Draft], said: object) -> int:
    """Return the index of the yard with this name or id.

    Raises:
        Refusal: When there is none.
    """
    typed = key_of(said)
    for index, draft in enumerate(drafts):
        if typed in {key_of(draft.yard.name), draft.yard.id}:
            return index
    if not all_named(drafts):
        raise Moot
    names = [draft.yard.name for draft in drafts]
    raise Refusal(phrase("the name or id of a yard"), did_you_mean(str(said), names))


def _find_truck(trucks: Sequence[Truck], said: object) -> str:
    typed = key_of(said)
    for truck in trucks:
        if typed in {key_of(truck.name), truck.id}:
            return truck.id
    raise Refusal(
        phrase("the name of a truck"), did_you_mean(str(said), [one.name for one in trucks])
    )


def read_areas(file: OutfitFile, home: Point | None) -> tuple[Area, ...]:
    """Return the restricted areas, circles and polygons, none of them far from ``home``."""
    areas = []
    for fields in file.entries("areas"):
        fields.optional("name", name)
        area = _polygon(fields, home) if fields.has("corners") else _circle(fields, home)
        if area is not None:
            areas.append(area)
    return tuple(areas)


def _circle(fields: Fields, home: Point | None) -> Area | None:
    centre = read_point(fields)
    radius = fields.read("radius", measures.RADIUS, 10)
    if centre is None:
        return None
    check_near(fields, home, centre)
    return Area((centre,), radius)


def _polygon(fields: Fields, home: Point | None) -> Area | None:
    for key in ("lat", "lon", "radius"):
        if fields.has(key):
            fields.fault(
                key, phrase("either corners, or lat, lon and radius"), phrase("Leave one kind out.")
            )
    corners = fields.items("corners", _corner)
    if fields.right("corners") and not 3 <= len(corners) <= MOST_CORNERS:
        allowed = phrase("3 to {most} corners", most=MOST_CORNERS)
        fields.fault("corners", allowed, _IN_ORDER, said=f"{len(corners)}")
    if fields.right("corners"):
        check_corners(fields, home, corners)
    if fields.right("corners") and (sides := _crossing(corners)):
        said = phrase(
            "the side after corner {one} crosses that after corner {other}",
            one=sides[0], other=sides[1],
        )  # fmt: skip
        fields.fault("corners", phrase("sides that do not cross"), _IN_ORDER, said=said)
    return Area(tuple(corners)) if fields.clean else None


def _corner(said: object) -> Point:
    """Return one corner.

    Raises:
        Refusal: When it is no pair of latitude and longitude.
    """
    if not isinstance(said, list) or len(said) != 2:
        raise Refusal(
            phrase("corners as [[lat, lon], [lat, lon], ...]"),
            phrase("Write two numbers for each."),
        )
    return LATITUDE(said[0]), LONGITUDE(said[1])


def lies_in(areas: Iterable[Area], point: Point) -> bool:
    """Tell whether a point lies in one of some areas."""
    return any(
        geodesic_m(area.corners[0], point) <= area.radius_m
        if area.radius_m else _inside(point, area.corners)
        for area in areas
    )  # fmt: skip


def _inside(point: Point, corners: Sequence[Point]) -> bool:
    """Tell whether a point lies in a polygon: a ray to the east crosses its sides oddly often.

    Longitudes are taken from the point, so that an area across the date line holds.
    """
    lat, crossings = point[0], 0
    for (lat_a, lon_a), (lat_b, lon_b) in _sides(corners, point[1]):
        if (lat_a > lat) != (lat_b > lat):
            crossings += lon_a + (lat - lat_a) / (lat_b - lat_a) * (lon_b - lon_a) > 0
    return crossings % 2 == 1


def _crossing(corners: Sequence[Point]) -> tuple[int, int] | None:
    """Return the first two sides of a polygon that cross, by the corners they begin at, from 1.

    Sides that only touch, as where the first corner is listed again as the last, do not cross.
    """
    sides = list(enumerate(_sides(corners, corners[0][1]), start=1))
    for (one, (a, b)), (other, (c, d)) in combinations(sides, 2):
        if _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0:
            return one, other
    return None


def _turn(a: Point, b: Point, c: Point) -> float:
    """Return above 0 where ``c`` lies on one side of the line through the others, else below."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _sides(corners: Sequence[Point], lon: float) -> Iterator[tuple[Point, Point]]:
    """Return the sides of a polygon, longitudes taken from ``lon``."""
    ring = [(corner[0], (corner[1] - lon + 180) % 360 - 180) for corner in corners]
    return zip(ring, [*ring[1:], ring[0]], strict=True)


def held_by(areas: Sequence[Area], draft: Draft, book: PlaceBook) -> Draft:
    """Return the yard, at a standstill when one of its sites lies in a restricted area.

    A suspect yard stays suspect, which asks for more.
    """
    inside = any(lies_in(areas, book.point(place)) for _, place in draft.yard.sites)
    if not inside or draft.point is None or draft.yard.health is Health.SUSPECT:
        return draft
    return replace(draft, yard=replace(draft.yard, health=Health.STANDSTILL))
