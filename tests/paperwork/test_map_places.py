"""Longitudes across the date line, and yards on one spot."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.yards import Place
from runplanner.paperwork.map.places import beside, same_spot, unrolled


def _places(*lons: float) -> list[Place]:
    return [Place(str(number), "", -17.0, lon) for number, lon in enumerate(lons)]


@pytest.mark.parametrize(
    ("lons", "expected"),
    [
        ((175.5, 176.0), [175.5, 176.0]),
        ((-0.5, 0.5), [-0.5, 0.5]),
        ((179.9, -179.9), [179.9, 180.1]),
        ((-179.9, 179.9, 180.0), [180.1, 179.9, 180.0]),
        ((-120.0, -119.0), [-120.0, -119.0]),
        ((12.0,), [12.0]),
        ((-180.0,), [-180.0]),
    ],
)
def test_longitudes_run_on_across_the_date_line(
    lons: tuple[float, ...], expected: list[float]
) -> None:
    """Neighbours stay neighbours; places far from the line keep their own longitude."""
    assert expected == [lon for _, lon in unrolled(_places(*lons))]


def test_no_places_give_no_spots() -> None:
    """An outfit without places draws nothing and fails at nothing."""
    assert () == unrolled([])


@given(st.lists(st.floats(-180, 180), min_size=1, max_size=20))
def test_unrolling_moves_by_whole_turns_and_never_widens(lons: list[float]) -> None:
    """Each longitude is moved by whole turns, and the spread is at most the plain one."""
    found = [lon for _, lon in unrolled(_places(*lons))]

    for before, after in zip(lons, found, strict=True):
        assert abs((after - before + 180) % 360 - 180) < 1e-5
    assert max(found) - min(found) <= max(lons) - min(lons) + 1e-5


def test_things_on_one_spot_step_aside() -> None:
    """Three things on one spot and one elsewhere get four places, none the same."""
    spot = (-41.0, 175.0)
    steps = beside([spot, (-41.5, 175.0), spot, spot])

    assert (0.0, 0.0) == steps[0] == steps[1]
    assert 3 == len({steps[0], steps[2], steps[3]})


def test_a_crowd_on_one_spot_still_finds_places() -> None:
    """Twenty yards typed with the same coordinates are twenty places on the screen."""
    assert 20 == len(set(beside([(-41.0, 175.0)] * 20)))


def test_one_spot_is_thirty_metres() -> None:
    """0.0002 degrees of latitude are 22 m, 0.0004 are 44 m."""
    assert same_spot((10.0, 20.0), (10.0002, 20.0))
    assert not same_spot((10.0, 20.0), (10.0004, 20.0))
