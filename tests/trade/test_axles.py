"""Axle and nose weight by lever arm."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.trucks import Axles, Deck, Nose, Trailer
from runplanner.trade.axles import (
    Item,
    axle_loads_g,
    axles,
    deck_rear_permille,
    middle_mm,
    most_load_g,
    nose_g,
    nose_warning,
    rear_permille,
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


def test_mixed_loads_have_one_middle() -> None:
    """1000 kg at 2000 mm and 500 kg at 3500 mm: 2500 mm."""
    assert middle_mm((Item(1_000_000, 2_000), Item(500_000, 3_500))) == 2_500
    with pytest.raises(ValueError, match="empty load"):
        middle_mm(())


def test_the_least_on_the_steered_axle_is_a_fifth() -> None:
    """3500 kg gross asks for 700 kg on the front."""
    made = axles(1_300_000, 800_000, (1_750_000, 2_240_000), 900, 3_500_000)
    assert made == TRUCK


@given(st.integers(0, 1_500_000), st.integers(0, 400_000))
def test_both_axles_carry_the_whole_truck(load: int, riders: int) -> None:
    """Front and rear add up to empty truck, riders and load."""
    assert sum(axle_loads_g(TRUCK, load, riders)) == 2_100_000 + load + riders


def test_the_rear_axle_binds_before_the_payload() -> None:
    """2240 - 800 - 100 of riders leaves 1340 kg on the rear: 1488.889 kg of load at 900."""
    assert most_load_g(TRUCK, 200_000, 2_000_000) == pytest.approx(1_488_889, abs=2)
    assert most_load_g(TRUCK, 200_000, 1_000_000) == 1_000_000


@given(st.integers(0, 2_500_000))
def test_one_gram_more_breaks_an_axle(payload: int) -> None:
    """What is called the most load holds, and more than it does not."""
    most = most_load_g(TRUCK, 200_000, payload)
    front, rear = axle_loads_g(TRUCK, most, 200_000)
    assert rear <= TRUCK.rear_max_g
    assert TRUCK.front_min_g <= front <= TRUCK.front_max_g
    if most < payload:
        assert axle_loads_g(TRUCK, most + 1, 200_000)[1] > TRUCK.rear_max_g


def test_nose_weight_by_where_the_load_lies() -> None:
    """1000 kg, 200 mm ahead on a 4 m drawbar adds 50 kg; 200 mm behind takes them off."""
    assert nose_g(30_000, 1_000_000, 200, 4_000) == 80_000
    assert nose_g(30_000, 1_000_000, -200, 4_000) == -20_000


def test_a_nose_too_light_or_too_heavy_is_warned_about() -> None:
    """Below 50 kg forward, above 80 kg back, between them silence."""
    assert "forward" in nose_warning(-20_000)
    assert "back" in nose_warning(81_000)
    assert not nose_warning(50_000)
    assert not nose_warning(80_000)
    assert nose_warning(-20_000).startswith("Nose weight about -20 kg, usual 50 to 80 kg")


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
