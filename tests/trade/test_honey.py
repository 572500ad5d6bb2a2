"""Honey: density, moisture and comb."""

from math import log10

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.trade.honey import (
    COMB_SOURCE,
    comb_g,
    honey_g,
    honey_kg_per_l,
    moisture_percent,
)


def test_a_litre_of_17_percent_honey_weighs_1422_g() -> None:
    """1.4237 x 0.99821 = 1.42115 kg, rounded up."""
    assert honey_g(1000) == 1_422


@given(st.integers(131, 250))
def test_wetter_honey_is_lighter(permille: int) -> None:
    """Density falls with water all along the table, and as its last step goes on."""
    assert honey_kg_per_l(permille) < honey_kg_per_l(permille - 1)


@pytest.mark.parametrize("permille", [129, 251])
def test_honey_outside_the_table_is_refused(permille: int) -> None:
    """The table begins at 13 % water, and refractometers end at 25 %."""
    with pytest.raises(ValueError, match=r"13 to 25 %"):
        honey_kg_per_l(permille)


def test_the_reprinted_formula_is_not_used() -> None:
    """Taken literally, 1.73190 - log(n - 1) over 0.002243 gives 909 % water, not 17."""
    literal = (1.73190 - log10(0.4940)) / 0.002243
    assert literal == pytest.approx(909, abs=1)
    assert moisture_percent(1.4940) == pytest.approx(17.0, abs=0.1)


@given(st.floats(1.4741, 1.5044))
def test_a_higher_index_is_drier(index: float) -> None:
    """Water falls as the refractive index climbs, and stays between 13 and 25 %."""
    assert moisture_percent(index) < moisture_percent(index - 0.0001)
    assert 12.9 < moisture_percent(index) < 25.1


@pytest.mark.parametrize("index", [1.33, 1.4739, 1.5045])
def test_an_index_that_is_no_honey_is_refused(index: float) -> None:
    """Water reads 1.33; the table ends at 1.4740 and 1.5044."""
    with pytest.raises(ValueError, match="refractive index"):
        moisture_percent(index)


def test_comb_by_area() -> None:
    """A square decimetre holds 350 g; 341 x 203 mm is 6.92 dm2, 2.42 kg."""
    assert comb_g(100, 100) == 350
    assert comb_g(341, 203) == 2_422


def test_the_comb_rule_names_its_source() -> None:
    """It was published."""
    assert "bienenzeitung" in COMB_SOURCE.words()
