"""Straps over a load by the friction formula."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.trade.lashing import CAUTION, FRICTION, Way, press_dan, straps, straps_over_rows

MASS = st.integers(0, 5_000_000)


def test_a_worked_load_forward() -> None:
    """1000 kg, friction 0.3: (0.8 - 0.3) / 0.3 x 9.81 kN = 16.35 kN to press.

    With 1.25 that is 20.44 kN; two sides of 3 kN a strap make 3.4, so 4 straps.
    """
    assert press_dan(1_000_000, 300, Way.FORWARD) == 1_635
    assert straps(1_000_000, 300, Way.FORWARD) == 4


def test_sideways_asks_for_less_than_forward() -> None:
    """(0.5 - 0.3) / 0.3 x 9.81 x 1.1 = 7.19 kN over 6 kN a strap: 2 straps."""
    assert straps(1_000_000, 300, Way.SIDEWAYS) == 2
    assert straps(1_000_000, 300, Way.REARWARD) == 2


def test_two_straps_at_least() -> None:
    """Friction above the restraint needs no press, but a load wanders."""
    assert press_dan(1_000_000, 600, Way.SIDEWAYS) == 0
    assert straps(1_000_000, 600, Way.SIDEWAYS) == 2


@given(MASS, MASS, st.integers(100, 900), st.sampled_from(Way))
def test_more_mass_never_needs_fewer_straps(mass: int, more: int, friction: int, way: Way) -> None:
    """Straps climb with mass."""
    assert straps(mass, friction, way) <= straps(mass + more, friction, way)


@given(MASS, st.integers(100, 800), st.integers(0, 100), st.sampled_from(Way))
def test_more_grip_never_needs_more_straps(mass: int, grip: int, more: int, way: Way) -> None:
    """Straps fall with friction."""
    assert straps(mass, grip + more, way) <= straps(mass, grip, way)


def test_no_friction_holds_nothing() -> None:
    """Straps over the top hold by friction alone."""
    with pytest.raises(ValueError, match="friction must be above zero"):
        straps(1_000, 0, Way.FORWARD)


def test_surfaces_have_a_source_and_the_caution_says_estimate() -> None:
    """Each friction factor is cited; the aid calls itself an estimate."""
    assert all(0 < row.permille < 1000 and row.cited.source for row in FRICTION)
    assert "estimate" in CAUTION
    assert "block" in CAUTION


@pytest.mark.parametrize(("rows", "count"), [(0, 2), (2, 2), (3, 3), (6, 6)])
def test_no_fewer_straps_than_rows(rows: int, count: int) -> None:
    """1000 kg sideways want 2 straps; six rows of stacks want six."""
    assert straps_over_rows(1_000_000, 300, Way.SIDEWAYS, rows) == count
