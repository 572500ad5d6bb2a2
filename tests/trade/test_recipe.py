"""Recipes as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.trade.recipe import recipe, recipe_permille
from runplanner.trade.syrup import density_kg_m3


@pytest.mark.parametrize(
    ("text", "permille"),
    [
        ("2:1", 667),
        (" 2 : 1 by weight ", 667),
        ("2 to 1", 667),
        ("1:1", 500),
        ("3:2", 600),
        ("61.4 %", 614),
        ("72.4% solids", 724),
        ("1 kg + 630 ml", 614),
        ("1 kg sugar + 0.63 L water", 614),
        ("10 kg in 6.3 litres", 614),
        ("10 kg in 6.3 liters", 614),
        ("1 kg + 63 cl", 614),
        ("2 lb + 1 UK pint", 615),
        ("2 lb + 1 Imperial pint", 615),
        ("2 lb : 20 oz", 615),
        ("2 lb + 1 US pint", 658),
        ("16 lbs and 1 US gallon", 658),
        ("50 lb + 3 US gal", 667),
    ],
)
def test_a_recipe_is_sugar_by_mass(text: str, permille: int) -> None:
    """2 lb and a UK pint: 907.2 / (907.2 + 568.3 x 0.9982) = 61.5 %; a US pint gives 65.8 %."""
    assert recipe_permille(text) == permille


@pytest.mark.parametrize("text", ["2 lb + 1 pint", "2 lb : 1 pint", "16 lb + 1 gallon"])
def test_a_bare_pint_is_refused(text: str) -> None:
    """A UK and a US pint differ by a fifth, so nobody guesses."""
    with pytest.raises(ValueError, match=r"say UK \w+ or US"):
        recipe(text)


def test_the_two_pints_are_a_tenth_apart_in_litres() -> None:
    """1.254 against 1.151 L per kg of sugar (US: 1379.5 g at 1321 kg/m3 from 907.2 g)."""
    uk, us = (recipe(f"2 lb + 1 {nation} pint").litres(1000) for nation in ("UK", "US"))
    assert uk == pytest.approx(1.254, abs=0.001)
    assert us == pytest.approx(1.151, abs=0.001)


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("1 kg + 0,63 l", "decimal point"),
        ("1 cup + 1 l", "must be weighed"),
        ("1 kg + 1 cup", "not known"),
        ("9:1", "at most 76 %"),
        ("0:1", "more than 0"),
        ("2:0", "no water"),
        ("100 %", "no water"),
        ("{{7*7}}", "cannot read"),
        ("", "cannot read"),
        ("²:1", "cannot read"),
        ("٢:١", "cannot read"),
        ("=HYPERLINK(1)", "cannot read"),
        ("-2:1", "cannot read"),
        ("2:1\x00", "cannot read"),
        ("9" * 10_000, "too long"),
        ("2:1" + " " * 10_000 + "x", "cannot read"),
    ],
)
def test_what_is_no_recipe_is_refused_in_a_short_sentence(text: str, word: str) -> None:
    """The fault names what is allowed and never echoes a whole novel."""
    with pytest.raises(ValueError, match=word) as caught:
        recipe(text)
    assert len(str(caught.value)) < 400


@given(st.text(max_size=80))
def test_any_text_is_read_or_refused(text: str) -> None:
    """No text gets past with a sugar share outside 0 to 76 %, and none breaks the reader."""
    try:
        found = recipe(text)
    except ValueError:
        return
    assert 0 < found.share() <= 0.7600001


@given(st.integers(1, 300), st.integers(100, 3000))
def test_units_do_not_change_a_recipe(sugar: int, water: int) -> None:
    """Kilograms and litres, or grams and millilitres: the same share."""
    big = f"{sugar / 100} kg + {water / 1000} l"
    small = f"{sugar * 10} g + {water} ml"
    try:
        expected = recipe(small).share()
    except ValueError:
        return
    assert recipe(big).share() == pytest.approx(expected)


@given(st.integers(500, 750))
def test_mass_is_kept(permille: int) -> None:
    """Sugar and water in weigh what the syrup weighs."""
    made = recipe(f"{permille / 10} %")
    in_kg = 1.0 + made.water_ml(1000) / 1000 * 0.9982
    out_kg = made.litres(1000) * density_kg_m3(made.share()) / 1000
    assert in_kg == pytest.approx(out_kg, rel=1e-4)
