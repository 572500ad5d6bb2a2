import pytest
from geographiclib.geodesic import Geodesic
from hypothesis import given
from hypothesis import strategies as st

from runplanner.haulage.travel import (
    drive_min,
    geodesic_m,
    geodesic_travel,
    road_m,
    slowed_min,
    with_legs,
)

LAT = st.floats(-85, 85)
LON = st.floats(-180, 180)
WELLINGTON = (-41.32, 174.81)
SALAMANCA = (40.96, -5.50)


def test_published_worked_example() -> None:
    """Wellington to Salamanca is the distance that GeographicLib's documentation prints."""
    # geographiclib on npmjs.com and in the Python manual: "The distance is 19959679.267 m."
    assert 19_959_679.267 == pytest.approx(geodesic_m(WELLINGTON, SALAMANCA), abs=0.001)


@given(lat=LAT, lon=LON, north=st.floats(-2, 2), east=st.floats(-2, 2))
def test_agrees_with_geographiclib(lat: float, lon: float, north: float, east: float) -> None:
    """Any leg of a campaign, the date line included, is GeographicLib's to the millimetre."""
    there = (lat + north, (lon + east + 180) % 360 - 180)
    judged = Geodesic.WGS84.Inverse(lat, lon, *there)["s12"]

    assert judged == pytest.approx(geodesic_m((lat, lon), there), abs=0.001)


def test_across_the_date_line_is_near() -> None:
    """Two places either side of 180 degrees are neighbours."""
    # 0.2 degrees of longitude on the equator: 0.2 x 111319.49 m (WGS 84) = 22263.9 m
    assert 22_263.9 == pytest.approx(geodesic_m((0.0, 179.9), (0.0, -179.9)), abs=0.1)


def test_metres_round_up() -> None:
    """A straight line of 10,000.001 m at a detour of 1.3 is 13,001 m of road."""
    # 10,000,001 mm x 1300 / 1,000,000 = 13,000.0013 m
    assert 13_001 == road_m(10_000.001, 1300)
    assert 13_000 == road_m(10_000.0, 1300)
    assert 0 == road_m(0.0, 1300)


def test_minutes_round_up() -> None:
    """A kilometre at 50 km/h is 1.2 minutes, so 2."""
    assert 2 == drive_min(1000, 50_000)
    assert 60 == drive_min(50_000, 50_000)
    assert 0 == drive_min(0, 50_000)


def test_table_is_square_and_the_same_both_ways() -> None:
    """A table from straight lines has no leg to itself and no direction."""
    travel = geodesic_travel([(-38.0, 175.0), (-38.1, 175.0), (-38.0, 175.2)], 1350, 52_000)

    assert (0, 0, 0) == tuple(travel.minutes[i][i] for i in range(3))
    for i in range(3):
        for j in range(3):
            assert travel.minutes[i][j] == travel.minutes[j][i]
            assert travel.metres[i][j] == travel.metres[j][i]
    assert "straight lines x 1.35 at 52 km/h" == travel.source


def test_typed_leg_holds_both_ways_unless_the_way_back_is_typed() -> None:
    """One row is enough for a road; a second one makes it uneven."""
    travel = geodesic_travel([(-38.0, 175.0), (-38.1, 175.0), (-38.0, 175.2)], 1300, 50_000)

    typed = with_legs(travel, {(0, 1): (20, 15_000), (1, 0): (25, 15_100), (0, 2): None}, "t.csv")

    assert (20, 25) == (typed.minutes[0][1], typed.minutes[1][0])
    assert (15_000, 15_100) == (typed.metres[0][1], typed.metres[1][0])
    assert typed.minutes[0][2] is None
    assert typed.metres[2][0] is None
    assert travel.minutes[1][2] == typed.minutes[1][2]
    assert "3 legs from t.csv" in typed.source


def test_no_typed_legs_change_nothing() -> None:
    """Without typed legs the table and its source stay as they are."""
    travel = geodesic_travel([(-38.0, 175.0), (-38.1, 175.0)], 1300, 50_000)

    assert travel is with_legs(travel, {}, "t.csv")


def test_a_slower_truck_takes_longer_by_whole_minutes() -> None:
    """Ten minutes at nine tenths of the speed are 11.1, told as 12."""
    assert [10, 12, 0] == [slowed_min(10, 1_000), slowed_min(10, 900), slowed_min(0, 900)]
