"""Decks, columns and containers."""

from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.trucks import Deck
from runplanner.trade.loads import (
    CARRIERS,
    CONTAINERS,
    Fit,
    columns,
    full_container_g,
    layers,
    ml_for_payload,
    rows,
)

DECK = Deck(3_100, 2_100, 1_200, 5)
IBC = CONTAINERS["ibc"].container


def test_columns_are_counted_the_better_way_round() -> None:
    """508 x 413 on 3100 x 2100: 6 x 5 = 30 straight, 7 x 4 = 28 turned."""
    assert columns(DECK, 508, 413) == 30
    assert columns(DECK, 413, 508) == 30


def test_rows_lie_across_the_deck() -> None:
    """6 rows of 5 straight; 800 x 400 on 3100 x 2100 gives 3 x 5 = 15 or, turned, 7 x 2 = 14.

    1000 x 500 on 2000 x 1000: 2 rows of 2 straight, 4 rows of 1 turned: as many, so more rows.
    """
    assert (6, 5) == rows(DECK, 508, 413) == rows(DECK, 413, 508)
    assert (3, 5) == rows(DECK, 800, 400)
    assert (4, 1) == rows(Deck(2_000, 1_000, 1_200, 5), 1_000, 500)
    assert 0 == columns(DECK, 4_000, 2_500)


def test_a_stack_ends_by_height_or_by_count() -> None:
    """1200 / 168 is 7, but five boxes is the limit; 1200 / 318 is 3."""
    assert layers(DECK, 168) == 5
    assert layers(DECK, 318) == 3


def test_weight_binds_when_full_and_deck_when_empty() -> None:
    """17 kg on 1050 kg: 61 of 120 boxes; empty 4.5 kg: 233 by weight, 120 by deck."""
    by_deck = columns(DECK, 460, 460) * layers(DECK, 150)
    full, empty = Fit(by_deck, 1_050_000 // 17_000), Fit(by_deck, 1_050_000 // 4_500)
    assert (61, "weight") == (full.boxes(), full.binds())
    assert (120, "deck") == (empty.boxes(), empty.binds())
    assert Fit(by_deck, 1_050_000 // 8_750).binds() == "both"  # 1050 / 8.75 = 120


def test_a_full_ibc_is_too_much_for_a_small_truck() -> None:
    """1327 + 60 = 1387 kg; on 1050 kg of payload 746 L ride."""
    assert full_container_g(IBC, 1_327) == 1_387_000
    assert ml_for_payload(1_050_000, IBC, 1_327) == 746_043
    assert ml_for_payload(9_000_000, IBC, 1_327) == IBC.holds_ml
    assert ml_for_payload(10, IBC, 1_327) == 0


@given(st.integers(0, 2_000_000))
def test_what_rides_in_a_tank_is_within_the_payload(left: int) -> None:
    """The litres and the empty tank weigh no more than what is left."""
    ml = ml_for_payload(left, IBC, 1_327)
    assert ml == 0 or IBC.empty_g - (-ml * 1_327 // 1000) <= left


def test_carriers_are_plausible() -> None:
    """Payloads run from low to high, below the gross limit, each with a source."""
    assert all(row.payload_low_g <= row.payload_high_g for row in CARRIERS)
    assert all(row.max_g is None or row.payload_high_g < row.max_g for row in CARRIERS)
    assert all(row.cited.source for row in CARRIERS)
