"""Tests of the track of a trip, read back by an XML reader that knows nothing of GPX."""

from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest

from runplanner.daybook.plan import Plan
from runplanner.paperwork.escape import one_line
from runplanner.paperwork.track import track_gpx
from tests.paperwork.plans import HOSTILE, eight_stop_plan, hostile_plan, small_plan

GPX = "{http://www.topografix.com/GPX/1/1}"


def read(plan: Plan, shift: int = 0, trip: int = 0) -> ET.Element:
    """The track of one trip as a tree."""
    driven = plan.shifts[shift]
    return ET.fromstring(track_gpx(plan, driven, driven.trips[trip]))  # noqa: S314 - our own


def spots(root: ET.Element, path: str) -> list[tuple[float, float]]:
    """Latitude and longitude of every point at ``path``."""
    return [(float(p.attrib["lat"]), float(p.attrib["lon"])) for p in root.findall(path)]


def names(root: ET.Element, path: str) -> list[str]:
    """What the points at ``path`` are called."""
    return [point.findtext(f"{GPX}name", "") for point in root.findall(path)]


def test_waypoints_are_the_calls_in_order() -> None:
    """Load, eight numbered stops, unload; at the places of the plan."""
    plan = eight_stop_plan()
    root = read(plan, 1)

    assert [
        "Load at Depot at Kaeo Road", "1 Kauri Flat", "2 Old Woolshed", "3 Pukatea Bend",
        "4 Quarry Terrace", "5 Top of Rimu Road", "6 Dray Track", "7 Salt Paddock",
        "8 Ninety Acre Bush", "Unload at Depot at Kaeo Road",
    ] == names(root, f"{GPX}wpt")  # fmt: skip
    places = [plan.outfit.places[call.place] for call in plan.shifts[1].trips[0].calls]
    wanted = [(round(place.lat, 6), round(place.lon, 6)) for place in places]
    assert wanted == spots(root, f"{GPX}wpt")


def test_a_waypoint_says_when_and_what() -> None:
    """Begin, leave, latest and jobs; neither gate nor phone."""
    root = read(small_plan())
    words = [point.findtext(f"{GPX}desc") for point in root.findall(f"{GPX}wpt")]

    assert words[1] == (
        "06:35, leave 08:05, latest 08:40. Take off all 10 colonies: 15 boxes on; "
        "Block on 10 colonies: 10 blocks"
    )
    long_day = eight_stop_plan().shifts[1]
    text = track_gpx(eight_stop_plan(), long_day, long_day.trips[0])
    assert "code 4417" not in text
    assert "555" not in text


def test_the_route_goes_through_each_place_once_in_turn() -> None:
    """Base, eight yards, base: the base stands once at each end though home and store are one."""
    root = read(eight_stop_plan(), 1)

    route = names(root, f"{GPX}rte/{GPX}rtept")
    assert 10 == len(route)
    assert route[0] == route[-1] == "Depot at Kaeo Road"
    assert "Blue flat-deck, Tue 2 Mar" == root.findtext(f"{GPX}rte/{GPX}name")


def test_the_way_from_home_belongs_to_the_outer_trips() -> None:
    """Home apart from the store: the first trip starts there, the second ends there."""
    plan = eight_stop_plan()
    # Home is moved to the place of yard 8, which no trip of day 0 calls at.
    outfit = replace(plan.outfit, home=replace(plan.outfit.home, place=8))
    plan = replace(plan, outfit=outfit)

    first = names(read(plan, 0, 0), f"{GPX}rte/{GPX}rtept")
    second = names(read(plan, 0, 1), f"{GPX}rte/{GPX}rtept")
    assert ["Ninety Acre Bush", "Depot at Kaeo Road"] == [first[0], first[-1]]
    assert ["Depot at Kaeo Road", "Ninety Acre Bush"] == [second[0], second[-1]]


@pytest.mark.parametrize("number", range(3))
def test_hostile_words_come_out_as_words(number: int) -> None:
    """The tree has the same elements as with plain names, and the names are those typed."""
    plain, hostile = read(small_plan(), number), read(hostile_plan(), number)

    assert [node.tag for node in plain.iter()] == [node.tag for node in hostile.iter()]
    if number == 0:
        assert f"1 {HOSTILE[0]}" == names(hostile, f"{GPX}wpt")[1]


def test_signs_that_xml_cannot_hold_are_taken_out() -> None:
    """Control signs, half a surrogate pair and non-characters leave a file that can be read."""
    plan = small_plan()
    nasty = "a\x00b\x0b\ud800\ufffe]]>&lt;\x85"
    yard = replace(plan.outfit.yards[0], name=nasty)
    plan = replace(plan, outfit=replace(plan.outfit, yards=(yard, plan.outfit.yards[1])))

    name = names(read(plan), f"{GPX}wpt")[1]
    assert f"1 {one_line(nasty).strip()}" == name


def test_the_same_trip_gives_the_same_track() -> None:
    """No clock in it."""
    plan = small_plan()
    shift = plan.shifts[0]
    assert track_gpx(plan, shift, shift.trips[0]) == track_gpx(plan, shift, shift.trips[0])
    assert "<time>" not in track_gpx(plan, shift, shift.trips[0])
