import sys

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from runplanner.haulage.travel import geodesic_m
from runplanner.roads.errors import RoadsError
from runplanner.roads.network import as_matrix, metres_apart, of_arcs, turned
from tests.roads.towns import arcs_of, both, largest_part, town


@settings(deadline=None)
@given(some.floats(-75, 75), some.floats(-180, 180), some.floats(-0.1, 0.1), some.floats(-0.1, 0.1))
def test_lengths_agree_with_the_geodesic(lat: float, lon: float, up: float, aside: float) -> None:
    """Neighbouring points lie as far apart as on the ellipsoid, to a thousandth."""
    a, b = (lat, lon), (lat + up, (lon + aside + 180) % 360 - 180)
    one = [np.array([value]) for value in (*a, *b)]
    expected = geodesic_m(a, b)

    assert expected == pytest.approx(metres_apart(*one)[0], rel=1e-3, abs=0.01)


def test_longitudes_turn_the_short_way() -> None:
    """From 179.9 east to 179.9 west is two tenths of a degree."""
    assert 0.2 == pytest.approx(turned(np.array([-359.8]))[0])


def test_of_two_roads_between_the_same_nodes_the_faster_stays() -> None:
    """Parallel arcs and arcs back to their own start are left out."""
    made = town([(0, 1, 500, 90), (0, 1, 700, 60), (0, 1, 650, 60), (1, 1, 5, 5), (1, 0, 9, 9)])

    assert {(0, 1, 650, 60), (1, 0, 9, 9)} == arcs_of(made)


def test_the_largest_part_is_kept() -> None:
    """A dead one-way end and a smaller island fall away; the rest is numbered anew."""
    # 1-2-3 hang together both ways; 0 only leads in; 4-5 are an island.
    made = town([(0, 1, 10, 10), *both((1, 2, 20, 20), (2, 3, 30, 30), (4, 5, 40, 40))])
    part = largest_part(made)

    assert 3 == part.size
    assert set(both((0, 1, 20, 20), (1, 2, 30, 30))) == arcs_of(part)
    assert [0.01, 0.02, 0.03] == pytest.approx(part.lon.tolist())


def test_a_network_of_nothing_stays_one() -> None:
    """Without a node there is no part to keep."""
    whole, real = np.array([], dtype=np.int32), np.array([], dtype=np.float64)
    empty = largest_part(of_arcs((real, real, whole), whole, whole, whole, whole, whole))

    assert (0, 0) == (empty.size, len(empty.head))


def test_without_scipy_the_cure_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the library is missing the error names the extra to install."""
    monkeypatch.setitem(sys.modules, "scipy.sparse", None)
    made = town(both((0, 1, 1, 1)))

    with pytest.raises(RoadsError, match=r"scipy is not installed.*runplanner\[roads\]"):
        as_matrix(made, made.cs)
    with pytest.raises(RoadsError, match="scipy"):
        largest_part(made)
