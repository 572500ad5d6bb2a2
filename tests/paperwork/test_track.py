"""Tests of the track of a trip, read back by an XML reader that knows nothing of GPX."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import pairwise
from xml.etree import ElementTree as ET

import gpxpy
import pytest
from gpxpy.gpx import GPXRoutePoint, GPXTrackPoint

from runplanner.daybook.plan import Plan
from runplanner.paperwork.data.track import track_gpx
from runplanner.paperwork.escape import one_line
from runplanner.roads.sketch import Sketch
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


CREDIT = '© <Somebody\'s> & {{7*7}} "others"'


def roads_of(plan: Plan, *pairs: tuple[int, int]) -> Sketch:
    """A way by a corner for each of the ``pairs`` of places."""
    at = [(place.lat, place.lon) for place in plan.outfit.places]
    drives = tuple((a, b, (at[a], (at[a][0], at[b][1]), at[b])) for a, b in pairs)
    return Sketch(CREDIT, drives, ())


def at(points: Iterable[GPXTrackPoint | GPXRoutePoint]) -> list[tuple[float, float]]:
    """Where the library of the format finds points."""
    return [(point.latitude, point.longitude) for point in points]


def flat(spots: list[tuple[float, float]]) -> list[float]:
    """The figures one after another."""
    return [figure for spot in spots for figure in spot]


def test_the_track_follows_the_roads() -> None:
    """Out by one corner and back by another: five points, read by the library of the format."""
    plan = small_plan()
    shift = plan.shifts[0]
    text = track_gpx(plan, shift, shift.trips[0], roads_of(plan, (0, 1), (1, 0)))
    file = gpxpy.parse(text)

    base, yard = ((spot.lat, spot.lon) for spot in plan.outfit.places[:2])
    wanted = [base, (base[0], yard[1]), yard, (yard[0], base[1]), base]
    (segment,) = file.tracks[0].segments
    assert flat(wanted) == pytest.approx(flat(at(segment.points)), abs=1e-6)
    assert (CREDIT, file.routes[0].name) == (file.copyright_author, file.tracks[0].name)
    # The straight route stays for devices that find their own way.
    assert flat([base, yard, base]) == pytest.approx(flat(at(file.routes[0].points)), abs=1e-6)


def test_the_track_breaks_off_where_no_road_is_known() -> None:
    """Of the way out and back only the way back is known; of none, there is no track."""
    plan = small_plan()
    shift = plan.shifts[0]
    back = gpxpy.parse(track_gpx(plan, shift, shift.trips[0], roads_of(plan, (1, 0))))

    assert [3] == [len(segment.points) for segment in back.tracks[0].segments]
    none = gpxpy.parse(track_gpx(plan, shift, shift.trips[0], roads_of(plan)))
    assert ([], None) == (none.tracks, none.copyright_author)


def test_two_known_stretches_apart_are_two_segments() -> None:
    """Eight stops with the middle drive unknown: two segments, with no line between them."""
    plan = eight_stop_plan()
    shift = plan.shifts[1]
    places = [call.place for call in shift.trips[0].calls]
    pairs = [pair for pair in pairwise(places) if pair != (places[4], places[5])]
    file = gpxpy.parse(track_gpx(plan, shift, shift.trips[0], roads_of(plan, *pairs)))

    # Ten calls are nine drives; four before the gap, four after it: 4 * 2 + 1 points each.
    assert [9, 9] == [len(segment.points) for segment in file.tracks[0].segments]


def test_a_track_across_the_date_line_stays_on_the_globe() -> None:
    """A line drawn on to 180.2 degrees is written as -179.8."""
    plan = small_plan()
    shift = plan.shifts[0]
    line = ((0.0, 179.9), (0.0, 180.2))
    file = gpxpy.parse(track_gpx(plan, shift, shift.trips[0], Sketch("", ((0, 1, line),), ())))

    points = file.tracks[0].segments[0].points
    assert [179.9, -179.8] == [point.longitude for point in points]
    assert file.copyright_author is None
