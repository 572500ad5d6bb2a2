"""Tests of the plan as GeoJSON."""

import json
from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import shape

from runplanner.daybook.plan import Plan
from runplanner.outfit.yards import Place
from runplanner.paperwork.data.geo_file import line, plan_geojson
from runplanner.paperwork.escape import shown
from runplanner.roads.sketch import Sketch
from tests.paperwork.plans import HOSTILE, eight_stop_plan, hostile_plan, small_plan

Feature = dict[str, Any]


def features(plan: Plan, kind: str) -> list[Feature]:
    """The features of one kind as any JSON reader sees them."""
    read = json.loads(plan_geojson(plan))
    assert "FeatureCollection" == read["type"]
    return [one for one in read["features"] if one["properties"]["kind"] == kind]


def test_an_outside_library_reads_the_shapes() -> None:
    """Shapely makes sound points and lines of every feature, where the plan says they are."""
    read = json.loads(plan_geojson(eight_stop_plan()))
    shapes = [(one["properties"]["kind"], shape(one["geometry"])) for one in read["features"]]

    assert all(one.is_valid and not one.is_empty for _, one in shapes)
    assert {"base": {"Point"}, "yard": {"Point"}, "stop": {"Point"}, "trip": {"LineString"}} == {
        kind: {one.geom_type for name, one in shapes if name == kind}
        for kind in sorted({name for name, _ in shapes})
    }
    assert (174.1, -35.3) == shapes[0][1].coords[0]


def test_longitude_stands_first() -> None:
    """RFC 7946 section 3.1.1: easting before northing."""
    base = features(eight_stop_plan(), "base")[0]

    assert {"type": "Point", "coordinates": [174.1, -35.3]} == base["geometry"]
    assert ["home", "feed store", "honey house"] == base["properties"]["roles"]


def test_yards_stand_where_they_stand() -> None:
    """A yard is a point with its colonies and boxes; one that moves stands twice."""
    plan = small_plan()
    moved = replace(plan.outfit.yards[0], sites=((0, 1), (2, 2)))
    plan = replace(plan, outfit=replace(plan.outfit, yards=(moved, plan.outfit.yards[1])))
    yards = features(plan, "yard")

    assert [("yard1", "2027-03-01"), ("yard1", "2027-03-03"), ("yard2", "2027-03-01")] == [
        (one["properties"]["yard"], one["properties"]["from_date"]) for one in yards
    ]
    assert (10, 15, "sound") == tuple(
        yards[0]["properties"][key] for key in ("colonies", "boxes", "health")
    )


def test_stops_are_in_order_with_their_load() -> None:
    """Load, stop 1, unload of the first trip: times and grams of the plan."""
    stops = [one["properties"] for one in features(small_plan(), "stop")][:3]

    assert ["load", "yard", "unload"] == [one["call"] for one in stops]
    assert [0, 1, 0] == [one["stop"] for one in stops]
    assert ("06:35", "08:05", "08:40") == (
        stops[1]["starts"], stops[1]["leaves"], stops[1]["latest"],
    )  # fmt: skip
    # 15 boxes of 16 kg.
    assert (240_000, 1_000_000) == (stops[1]["load_g"], stops[1]["load_max_g"])
    assert "Take off all 10 colonies: 15 boxes on" == stops[1]["jobs"][0]


def test_a_trip_is_a_line_there_and_back() -> None:
    """Base, yard 1, base; from leaving home to being back."""
    trip = features(small_plan(), "trip")[0]

    assert {"type": "LineString", "coordinates": [[0, 0], [0.09, 0], [0, 0]]} == {
        **trip["geometry"],
        "coordinates": [[x, abs(y)] for x, y in trip["geometry"]["coordinates"]],
    }
    assert ("0301-truck1-0001", "06:00", "08:35", 15, False) == tuple(
        trip["properties"][key] for key in ("trip", "starts", "ends", "boxes", "driven")
    )


def test_gates_and_phones_stay_out() -> None:
    """What helps a thief is on the driver's paper only."""
    text = plan_geojson(eight_stop_plan())

    assert "4417" not in text
    assert "555" not in text


def test_a_trip_over_the_date_line_is_cut_there() -> None:
    """From 179.5 to -179.5 at 0 to 1 north: halfway, at half a degree, in two pieces."""
    made = line([(179.5, 0.0), (-179.5, 1.0), (179.5, 0.0)])

    assert {
        "type": "MultiLineString",
        "coordinates": [
            [(179.5, 0.0), (180.0, 0.5)],
            [(-180.0, 0.5), (-179.5, 1.0), (-180.0, 0.5)],
            [(180.0, 0.5), (179.5, 0.0)],
        ],
    } == made


@pytest.mark.parametrize("here", [(180.0, 1.0), (-180.0, 1.0)])
def test_a_place_on_the_date_line_is_no_trouble(here: tuple[float, float]) -> None:
    """The line's own meridian may be written either way."""
    for there in ((180.0, 2.0), (-180.0, 2.0), (179.0, 2.0), (-179.0, 2.0)):
        made = line([here, there])
        pieces = made["coordinates"]
        assert isinstance(pieces, list)
        for piece in pieces if made["type"] == "MultiLineString" else [pieces]:
            assert len(piece) > 1
            assert all(abs(b[0] - a[0]) <= 180 for a, b in pairwise(piece))


def test_a_trip_that_stays_on_the_spot_is_still_a_line() -> None:
    """A line needs two positions (RFC 7946 section 3.1.4)."""
    assert {"type": "LineString", "coordinates": [(1.0, 2.0), (1.0, 2.0)]} == line([(1.0, 2.0)])


@given(st.lists(st.tuples(st.floats(-180, 180), st.floats(-90, 90)), min_size=2, max_size=6))
def test_no_piece_goes_round_the_world(spots: list[tuple[float, float]]) -> None:
    """However places lie, each piece has two positions or more, and no leg over 180 degrees."""
    made = line(spots)
    pieces = made["coordinates"]
    assert isinstance(pieces, list)
    for piece in pieces if made["type"] == "MultiLineString" else [pieces]:
        assert len(piece) > 1
        assert all(abs(b[0] - a[0]) <= 180 for a, b in pairwise(piece))
        assert all(-180 <= lon <= 180 and -90 <= lat <= 90 for lon, lat in piece)


def test_hostile_words_stay_words() -> None:
    """Names come out as they stand on paper, in as many features as with plain names."""
    hostile = features(hostile_plan(), "yard")

    assert [shown(HOSTILE[0], 48), shown(HOSTILE[1], 48)] == [
        one["properties"]["name"] for one in hostile
    ]
    assert len(json.loads(plan_geojson(small_plan()))["features"]) == len(
        json.loads(plan_geojson(hostile_plan()))["features"]
    )


def test_half_a_surrogate_pair_can_be_written() -> None:
    """The file is UTF-8 whatever a name holds."""
    plan = small_plan()
    places = (Place("base", "a\ud800b", 0.0, 0.0), *plan.outfit.places[1:])
    plan = replace(plan, outfit=replace(plan.outfit, places=places))

    assert "a\ufffdb" == features(plan, "base")[0]["properties"]["name"]
    plan_geojson(plan).encode("utf-8")


@pytest.mark.parametrize(
    ("known", "words", "points"),
    [
        (((0, 1), (1, 0)), "along the roads", 5),
        (((0, 1),), "along the roads, straight where none is known", 4),
        ((), "straight from place to place", 3),
    ],
)
def test_a_trip_follows_the_roads(
    known: tuple[tuple[int, int], ...], words: str, points: int
) -> None:
    """Each known drive goes by a corner; the words say which are known, the credit whose."""
    plan = small_plan()
    at = [(place.lat, place.lon) for place in plan.outfit.places]
    ways = tuple((a, b, (at[a], (0.01, 0.02), at[b])) for a, b in known)
    read = json.loads(plan_geojson(plan, Sketch("whose roads", ways, ())))
    trip = next(one for one in read["features"] if one["properties"]["kind"] == "trip")

    assert words == trip["properties"]["way"]
    assert points == len(trip["geometry"]["coordinates"])
    assert known == () or [0.02, 0.01] in trip["geometry"]["coordinates"]
    assert "whose roads" == read["credit"]
    assert "credit" not in json.loads(plan_geojson(plan))
