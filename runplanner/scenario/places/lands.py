"""Which time zone and which country a point lies in; the only door for tzfpy.

Its outlines of time zones (OpenStreetMap's data, ODbL) come with the library and need no
network; which zone belongs to which country is the tz database's own table.
"""

from functools import cache
from importlib import resources

from runplanner.phrase import Land
from runplanner.scenario.places.points import Point
from runplanner.scenario.places.sun import nearest_zone


def zone_at(here: Point) -> str:
    """Return the time zone of a point; out at sea the one whose principal place is nearest."""
    return _zone_on_land(here) or nearest_zone(here)


def country_at(here: Point) -> Land:
    """Return the country of a point, an empty one out at sea."""
    return _countries().get(_zone_on_land(here), Land(""))


def _zone_on_land(here: Point) -> str:
    from tzfpy import get_tz

    zone = get_tz(here[1], here[0])
    return zone if zone in _countries() else ""


@cache
def _countries() -> dict[str, Land]:
    """Return the country of each zone that stands in the table."""
    names = {row[0]: Land(row[1], row[0]) for row in _rows("iso3166.tab")}
    return {row[2]: names[row[0]] for row in _rows("zone.tab")}


def _rows(name: str) -> list[list[str]]:
    text = resources.files("tzdata").joinpath("zoneinfo", name).read_text("utf-8")
    return [line.split("\t") for line in text.splitlines() if line and line[0] != "#"]
