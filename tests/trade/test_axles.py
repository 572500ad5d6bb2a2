"""Axle and nose weight by lever arm."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.trucks import Axles, Deck, Nose, Trailer
from runplanner.trade.axles import (
    axle_loads_g,
    deck_rear_permille,
    nose_g,
    rear_permille,
    tanks_on_front_g,
    trailer_nose_g,
)

TRUCK = Axles(1_300_000, 800_000, 700_000, 1_750_000, 2_240_000, 900)


def test_a_load_over_an_axle_rests_on_that_axle() -> None:
    """Over the front none, over the rear all, behind it more than all."""
    assert (0, 1000, 1100) == (
        rear_permille(3_000, 0), rear_permille(3_000, 3_000), rear_permille(3_000, 3_300),
    )  # fmt: skip


def test_a_deck_counts_by_its_middle() -> None:
    """Deck from 1200 to 4300 mm behind the front axle, wheelbase 3000: 2750 / 3000 = 917."""
    assert deck_rear_permille(3_000, 1_200, 3_100) == 917
    assert deck_rear_permille(3_000, 1_200, 3_100) == rear_permille(3_000, 2_750)


@given(st.integers(0, 1_500_000), st.integers(0, 400_000))
def test_both_axles_carry_the_whole_truck(load: int, riders: int) -> None:
    """Front and rear add up to empty truck, riders and load."""
    assert sum(axle_loads_g(TRUCK, load, riders)) == 2_100_000 + load + riders


def test_nose_weight_by_where_the_load_lies() -> None:
    """1000 kg, 200 mm ahead on a 4 m drawbar adds 50 kg; 200 mm behind takes them off."""
    assert nose_g(30_000, 1_000_000, 200, 4_000) == 80_000
    assert nose_g(30_000, 1_000_000, -200, 4_000) == -20_000


@pytest.mark.parametrize("length", [0, -1])
def test_lengths_must_be_above_zero(length: int) -> None:
    """No wheelbase or drawbar of nothing."""
    with pytest.raises(ValueError, match="wheelbase"):
        rear_permille(length, 1)
    with pytest.raises(ValueError, match="drawbar"):
        nose_g(0, 1, 1, length)


@given(st.integers(0, 1_400_000), st.integers(1_700, 4_500))
def test_a_nose_under_an_even_load_goes_by_the_middle_of_the_deck(load: int, drawbar: int) -> None:
    """Load x (axle - middle of the deck) / drawbar, the middle lying 3.1 m from the coupling."""
    nose = Nose(empty_g=40_000, drawbar_mm=drawbar, deck_starts_mm=1_600)
    deck = Deck(3_000, 1_800, 1_200, 5)
    trailer = Trailer("t", "T", 600_000, 2_000_000, deck, 1_900, 900, 10, nose=nose)

    found = trailer_nose_g(trailer, load)
    assert found is not None
    assert abs(found - (40_000 + load * (drawbar - 3_100) / drawbar)) < 1
    assert trailer_nose_g(replace(trailer, nose=None), load) is None


def test_a_tank_at_the_headboard_rests_mostly_in_front() -> None:
    """1000 kg, 1 m long on a deck from 1.0 m, wheelbase 3.4 m: 1.5 of 3.4 m, 559 kg in front."""
    measured = replace(TRUCK, wheelbase_mm=3_400, deck_starts_mm=1_000)
    assert 559_000 == tanks_on_front_g(measured, 1_000_000, 1_000)
    assert tanks_on_front_g(TRUCK, 1_000_000, 1_000) is None
