"""One trip for a navigation device: GPX with stops as waypoints, and the way there.

The only door for gpxpy.  Gates, keys and phone numbers stay on the driver's paper: a track
is passed on more easily than a sheet of paper.
"""

from itertools import groupby
from typing import TYPE_CHECKING

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Shift, Trip
from runplanner.paperwork.escape import cut, html_text
from runplanner.paperwork.speech.say import crew_words, date_words, place_name, vehicle_name
from runplanner.paperwork.stop.one_stop import shift_as_driven, trip_as_driven
from runplanner.paperwork.stop.way import call_name, call_words, numbered, road_pieces, way
from runplanner.roads.sketch import Line, Sketch

if TYPE_CHECKING:
    from gpxpy.gpx import GPXRoute, GPXTrack, GPXTrackSegment, GPXWaypoint


def track_gpx(plan: Plan, shift: Shift, trip: Trip, roads: Sketch | None = None) -> str:
    """Return ``trip`` as GPX 1.1: a waypoint for each call, and the route through them.

    The route runs straight from place to place: which road to take is the device's choice.
    With ``roads`` there is a track as well, along them; it breaks off where a drive is not
    known, and says whose data the roads are.
    """
    from gpxpy.gpx import GPX

    shift, trip = shift_as_driven(plan.outfit, shift), trip_as_driven(plan.outfit, trip)
    file = GPX()
    file.creator = "runplanner"
    file.name = trip_title(plan, shift)
    file.description = crew_words(plan.outfit, shift.crew)
    file.waypoints = [_waypoint(plan, number, call) for number, call in numbered(trip)]
    file.routes = [_route(plan, shift, trip)]
    segments = _segments(plan, shift, trip, roads) if roads is not None else []
    if roads is not None and segments:
        # The library writes this one as it stands.
        file.copyright_author = html_text(cut(roads.credit, 300)) or None
        file.tracks = [_track(trip_title(plan, shift), segments)]
    return str(file.to_xml(version="1.1")) + "\n"


def trip_title(plan: Plan, shift: Shift) -> str:
    """Return the truck and the day of a trip: ``Blue truck, Tue 2 Mar``."""
    return f"{vehicle_name(plan.outfit, shift.truck)}, {date_words(plan.outfit, shift.day)}"


def _waypoint(plan: Plan, number: int, call: Call) -> "GPXWaypoint":
    from gpxpy.gpx import GPXWaypoint

    spot = plan.outfit.places[call.place]
    return GPXWaypoint(
        latitude=round(spot.lat, 6),
        longitude=round(spot.lon, 6),
        name=call_name(plan, number, call),
        description=call_words(plan, call),
    )


def _route(plan: Plan, shift: Shift, trip: Trip) -> "GPXRoute":
    from gpxpy.gpx import GPXRoute, GPXRoutePoint

    route = GPXRoute(name=trip_title(plan, shift))
    for place in way(plan, shift, trip):
        spot = plan.outfit.places[place]
        name = place_name(plan.outfit, place)
        route.points.append(GPXRoutePoint(round(spot.lat, 6), round(spot.lon, 6), name=name))
    return route


def _segments(plan: Plan, shift: Shift, trip: Trip, roads: Sketch) -> list["GPXTrackSegment"]:
    """Return the drives that follow the roads, those that hang together as one."""
    pieces = road_pieces(plan, shift, trip, roads)
    return [
        _segment([line for _, line in run])
        for known, run in groupby(pieces, key=lambda piece: piece[0])
        if known
    ]


def _segment(lines: list[Line]) -> "GPXTrackSegment":
    from gpxpy.gpx import GPXTrackPoint, GPXTrackSegment

    spots = [*lines[0], *(spot for line in lines[1:] for spot in line[1:])]
    return GPXTrackSegment([GPXTrackPoint(lat, lon) for lat, lon in spots])


def _track(title: str, segments: list["GPXTrackSegment"]) -> "GPXTrack":
    from gpxpy.gpx import GPXTrack

    track = GPXTrack(name=title)
    track.segments = segments
    return track
