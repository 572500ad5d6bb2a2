"""The plan as GeoJSON (RFC 7946), for whatever draws maps: places, stops and trips.

Longitude stands first.  A trip is a line, along the roads where they are known, straight
from place to place where not; it is cut where it crosses the 180th meridian, as the RFC asks
in its section 3.1.9.
"""

import json
from collections.abc import Iterator, Sequence
from itertools import pairwise

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Shift, Trip
from runplanner.days import clock
from runplanner.outfit.yards import Place
from runplanner.paperwork.escape import cut, one_line, shown
from runplanner.paperwork.speech.say import iso, place_name, vehicle_name, yard_name
from runplanner.paperwork.speech.trip_state import TripState, trip_state
from runplanner.paperwork.stop.one_stop import as_driven
from runplanner.paperwork.stop.way import call_name, numbered, road_pieces, trip_span, way
from runplanner.paperwork.stop.yard_words import stop_words
from runplanner.roads.sketch import Sketch

Position = tuple[float, float]
Feature = dict[str, object]


def plan_geojson(plan: Plan, roads: Sketch | None = None) -> str:
    """Return the plan as one GeoJSON feature collection.

    Each feature says by its ``kind`` what it is: ``base``, ``yard``, ``stop`` or ``trip``.
    With ``roads`` trips follow them, and ``credit`` says whose data they are.
    """
    trips = [(shift, trip) for shift in as_driven(plan).shifts for trip in shift.trips]
    features = [
        *_bases(plan),
        *_yards(plan),
        *(stop for shift, trip in trips for stop in _stops(plan, shift, trip)),
        *(_trip(plan, shift, trip, roads) for shift, trip in trips),
    ]
    body: dict[str, object] = {"type": "FeatureCollection", "features": features}
    if roads is not None and roads.credit:
        credit = cut(one_line(roads.credit), 300)
        body = {"type": "FeatureCollection", "credit": credit, "features": features}
    return json.dumps(body, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def _feature(geometry: dict[str, object], **properties: object) -> Feature:
    return {"type": "Feature", "geometry": geometry, "properties": properties}


def _point(place: Place) -> dict[str, object]:
    return {"type": "Point", "coordinates": _position(place)}


def _position(place: Place) -> Position:
    return round(place.lon, 6), round(place.lat, 6)


def _bases(plan: Plan) -> Iterator[Feature]:
    outfit = plan.outfit
    roles: dict[int, list[str]] = {}
    roles.setdefault(outfit.home.place, []).append("home")
    roles.setdefault(outfit.feed_store.place, []).append("feed store")
    roles.setdefault(outfit.honey_house.base.place, []).append("honey house")
    for place, words in roles.items():
        spot = outfit.places[place]
        yield _feature(_point(spot), kind="base", name=place_name(outfit, place), roles=words)


def _yards(plan: Plan) -> Iterator[Feature]:
    for yard in plan.outfit.yards:
        for from_day, place in yard.sites:
            yield _feature(
                _point(plan.outfit.places[place]),
                kind="yard",
                yard=shown(yard.id, 48),
                name=yard_name(yard),
                from_date=iso(plan.outfit, from_day),
                colonies=yard.colonies,
                boxes=yard.boxes,
                health=yard.health.value,
            )


def _stops(plan: Plan, shift: Shift, trip: Trip) -> Iterator[Feature]:
    for number, call in numbered(trip):
        yield _feature(
            _point(plan.outfit.places[call.place]),
            kind="stop",
            trip=shown(trip.id, 80),
            date=iso(plan.outfit, shift.day),
            stop=number,
            call=call.kind.value,
            name=call_name(plan, number, call),
            jobs=list(stop_words(plan, call)),
            **_clocks(call),
            load_g=call.after.load_g,
            load_max_g=call.after.load_max_g,
        )


def _clocks(call: Call) -> dict[str, str]:
    return {
        "arrives": clock(call.arrive_min),
        "starts": clock(call.start_min),
        "leaves": clock(call.leave_min),
        "latest": clock(call.latest_leave_min),
    }


def _trip(plan: Plan, shift: Shift, trip: Trip, roads: Sketch | None) -> Feature:
    outfit = plan.outfit
    out = trip_span(shift, trip)
    pieces = list(road_pieces(plan, shift, trip, roads))
    spots = [_position(outfit.places[way(plan, shift, trip)[0]])]
    for _, piece in pieces:
        spots += [(lon, lat) for lat, lon in piece[1:]]
    return _feature(
        line(spots),
        kind="trip",
        trip=shown(trip.id, 80),
        date=iso(outfit, shift.day),
        truck=vehicle_name(outfit, shift.truck),
        trailer=vehicle_name(outfit, shift.trailer),
        starts=clock(out.start_min),
        ends=clock(out.end_min),
        boxes=trip.boxes(),
        driven=trip_state(plan, trip) is TripState.DRIVEN,
        way=_way_words([known for known, _ in pieces]),
    )


def _way_words(known: Sequence[bool]) -> str:
    """Return what the line of a trip follows, drive by drive."""
    if not any(known):
        return "straight from place to place"
    return "along the roads" if all(known) else "along the roads, straight where none is known"


def line(spots: Sequence[Position]) -> dict[str, object]:
    """Return the line through ``spots``, in as many pieces as the 180th meridian cuts it."""
    pieces: list[list[Position]] = [[spots[0]]]
    for here, there in pairwise(spots):
        turn = _crossing(here, there)
        if turn is not None:
            edge, lat = turn
            pieces[-1].append((edge, lat))
            pieces.append([(-edge, lat)])
        pieces[-1].append(there)
    if len(pieces) == 1:
        # A trip that never leaves the spot is a line there and back.
        whole = pieces[0] if len(spots) > 1 else [spots[0], spots[0]]
        return {"type": "LineString", "coordinates": whole}
    return {"type": "MultiLineString", "coordinates": pieces}


def _crossing(here: Position, there: Position) -> tuple[float, float] | None:
    """Return the meridian (180 or -180) that the shorter way leaves by, and the latitude."""
    if abs(here[0] - there[0]) <= 180:
        return None
    edge = 180.0 if here[0] > 0 else -180.0
    across = there[0] + 2 * edge - here[0]
    share = (edge - here[0]) / across if across else 0.0
    return edge, round(here[1] + share * (there[1] - here[1]), 6)
