"""One trip for a navigation device: GPX with the stops as waypoints and the way as a route.

The only door for gpxpy.  Gates, keys and phone numbers stay on the driver's paper: a track
is passed on more easily than a sheet of paper.
"""

from typing import TYPE_CHECKING

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Shift, Trip
from runplanner.paperwork.say import crew_words, date_words, place_name, vehicle_name
from runplanner.paperwork.way import call_name, call_words, numbered, way

if TYPE_CHECKING:
    from gpxpy.gpx import GPXRoute, GPXWaypoint


def track_gpx(plan: Plan, shift: Shift, trip: Trip) -> str:
    """Return ``trip`` as GPX 1.1: a waypoint for each call, and the route through them.

    The route runs straight from place to place: which road to take is the device's choice.
    """
    from gpxpy.gpx import GPX

    file = GPX()
    file.creator = "runplanner"
    file.name = trip_title(plan, shift)
    file.description = crew_words(plan.outfit, shift.crew)
    file.waypoints = [_waypoint(plan, number, call) for number, call in numbered(trip)]
    file.routes = [_route(plan, shift, trip)]
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
