"""Syrup: density, volume, crystals and stores."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.trade.syrup import (
    STORES_SPREAD,
    SUGAR_MAX_PERMILLE,
    crystals,
    crystals_below_c,
    density_g_per_l,
    density_kg_m3,
    ml_per_kg_sugar,
    solubility_permille,
    stores_g_per_kg_sugar,
    sugar_kg_m3,
    water_kg_m3,
)

PERMILLE = st.integers(1, SUGAR_MAX_PERMILLE)
TEMP = st.floats(0, 60)


@pytest.mark.parametrize(
    ("temp_c", "published"), [(0, 999.84), (4, 999.97), (20, 998.21), (40, 992.22), (60, 983.20)]
)
def test_water_weighs_what_the_handbook_says(temp_c: float, published: float) -> None:
    """Density of water by CRC handbook, from memory."""
    assert water_kg_m3(temp_c) == pytest.approx(published, abs=0.02)


def test_syrup_without_sugar_is_water() -> None:
    """At no sugar the formula gives water."""
    assert density_kg_m3(0.0, 35.0) == water_kg_m3(35.0)


def test_a_litre_of_two_to_one_weighs_1327_g() -> None:
    """1326.96 kg/m3 at 66.7 % rounds up to 1327 g a litre, of which 885.08 g are sugar."""
    assert density_g_per_l(667) == 1_327
    assert sugar_kg_m3(0.667) == pytest.approx(1326.96 * 0.667, abs=0.01)


@pytest.mark.parametrize("temp_c", [0.0, 5.0, 20.0, 35.0, 60.0])
@pytest.mark.parametrize("share", [0.1, 0.3, 0.5, 0.667, 0.76])
def test_a_second_copy_of_the_polynomial_agrees(share: float, temp_c: float) -> None:
    """The coefficients as Llano 2005 prints them (its a4 is -3.9643) give the same density."""
    copy = (
        (385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.2890),
        (-46.2720, -7.1720, 1.1597, 5.1126, 17.5254, 0),
        (59.7712, 7.2491, 12.3630, -35.4791, 0, 0),
        (-47.2207, -21.6977, 27.6301, 0, 0, 0),
        (18.3184, 12.3081, 0, 0, 0, 0),
    )
    t = (temp_c - 20) / 100
    extra = sum(
        t**i * sum(c * share ** (j + 1) for j, c in enumerate(r)) for i, r in enumerate(copy)
    )
    assert density_kg_m3(share, temp_c) - water_kg_m3(temp_c) == pytest.approx(extra, abs=0.001)


def test_cold_syrup_is_heavier_and_hot_lighter() -> None:
    """By the formula, 60 % syrup at 10 C is 4-5 kg/m3 heavier and at 40 C 10-11 lighter."""
    at_20 = density_kg_m3(0.6, 20.0)
    assert 4 <= density_kg_m3(0.6, 10.0) - at_20 <= 5
    assert 10 <= at_20 - density_kg_m3(0.6, 40.0) <= 11


@given(PERMILLE, TEMP)
def test_more_sugar_is_heavier(permille: int, temp_c: float) -> None:
    """Density climbs with sugar at every temperature."""
    assert density_kg_m3((permille - 1) / 1000, temp_c) < density_kg_m3(permille / 1000, temp_c)


@given(PERMILLE, st.floats(4, 59))
def test_warmer_is_lighter(permille: int, temp_c: float) -> None:
    """Density falls with warmth above 4 C."""
    assert density_kg_m3(permille / 1000, temp_c) > density_kg_m3(permille / 1000, temp_c + 1)


@given(PERMILLE, TEMP)
def test_rounding_is_to_the_safe_side(permille: int, temp_c: float) -> None:
    """A litre is never lighter than the formula says."""
    exact = density_kg_m3(permille / 1000, temp_c)
    assert 0 <= density_g_per_l(permille, temp_c) - exact < 1


@given(PERMILLE)
def test_volume_and_sugar_agree(permille: int) -> None:
    """Litres per kg of sugar times kg of sugar per litre is one, within rounding."""
    litres = ml_per_kg_sugar(permille) / 1000
    assert litres * density_kg_m3(permille / 1000) * permille / 1e6 == pytest.approx(1, abs=2e-3)


@pytest.mark.parametrize("permille", [-1, 761, 1000])
def test_sugar_outside_the_range_is_refused(permille: int) -> None:
    """More than 76 % or less than none was never compared with the handbook."""
    with pytest.raises(ValueError, match=r"sugar must be 0 to 76 % by mass"):
        density_g_per_l(permille)


@pytest.mark.parametrize("temp_c", [-0.1, 60.1, float("nan")])
def test_temperature_outside_the_range_is_refused(temp_c: float) -> None:
    """Frozen or scalding syrup, and no number at all, are refused in words."""
    with pytest.raises(ValueError, match=r"temperature must be 0 to 60 C"):
        density_g_per_l(500, temp_c)


def test_no_volume_without_sugar() -> None:
    """Litres per kg of sugar need sugar."""
    with pytest.raises(ValueError, match="without sugar"):
        ml_per_kg_sugar(0)


def test_two_to_one_is_saturated_at_20_c() -> None:
    """66.7 % is what dissolves at 20 C; colder, it throws crystals."""
    assert solubility_permille(20) == 667
    assert crystals_below_c(667) == pytest.approx(20, abs=0.2)


def test_thin_syrup_never_crystallises() -> None:
    """65.4 % stays clear at 10 C, the cool night warned of: 64.447 + 0.822 + 0.162 = 65.43 %."""
    assert crystals_below_c(654) is None
    assert crystals(654) is None
    assert crystals_below_c(655) == pytest.approx(10.6, abs=0.2)


def test_syrup_too_thick_for_any_warmth_is_told_as_such() -> None:
    """At 60 C 74.3 % dissolve; 3:1 is 75 %."""
    assert crystals_below_c(742) == pytest.approx(59.9, abs=0.2)
    assert crystals_below_c(750) == inf


def test_what_a_cool_night_does_in_words() -> None:
    """2:1 is saturated at 20 C (Bubnik and Kadlec 1995)."""
    assert "saturated at 20 \u00b0C and can throw crystals in tank and hose at 10 \u00b0C" in str(
        crystals(667)
    )
    assert "75 % sugar does not dissolve even at 60 \u00b0C: thin it" in str(crystals(750))


@given(st.integers(1, 600))
def test_more_dissolves_in_warmer_water(tenth: int) -> None:
    """Solubility never falls with warmth."""
    assert solubility_permille((tenth - 1) / 10) <= solubility_permille(tenth / 10)


@pytest.mark.parametrize(("permille", "stores"), [(500, 896), (600, 1_075), (667, 1_124)])
def test_stores_by_curths_syrups(permille: int, stores: int) -> None:
    """0.560/0.625, 0.860/0.800 and 1.000/0.890 kg of stores per kg of sugar."""
    assert stores_g_per_kg_sugar(permille) == stores


@given(st.integers(501, SUGAR_MAX_PERMILLE))
def test_thicker_syrup_loses_less(permille: int) -> None:
    """Stores per kg of sugar never fall with thickness and stay below the no-loss bound."""
    here = stores_g_per_kg_sugar(permille)
    assert stores_g_per_kg_sugar(permille - 1) <= here <= STORES_SPREAD[1]


@pytest.mark.parametrize("permille", [499, 761])
def test_stores_of_unweighed_syrups_are_not_made_up(permille: int) -> None:
    """Thinner than 1:1 nothing was published."""
    with pytest.raises(ValueError, match="no published stores"):
        stores_g_per_kg_sugar(permille)
