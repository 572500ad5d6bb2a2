"""Places on a deck, under a tank, and how high boxes stand."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.haulage.deck import places_on, places_under, stack_high
from runplanner.outfit.stores import BoxKind, Container
from runplanner.outfit.trucks import Deck

DECK = Deck(3_100, 2_100, 1_200, 5)
IBC = Container("ibc", "IBC", 1_000_000, 60_000, 1_200, 1_000, 1)
SIZE = st.integers(100, 5_000)


def test_published_deck_of_square_boxes() -> None:
    """National supers, 460 mm square (BS 1300:1960), on 3.10 x 2.10 m: 6 x 4 = 24 columns."""
    # 3,100 / 460 = 6.7; 2,100 / 460 = 4.6
    assert 24 == places_on(DECK, 460, 460)


def test_the_better_way_round_counts() -> None:
    """Langstroth boxes of 508 x 413 mm stand 6 x 5 along, only 7 x 4 across."""
    # along 3,100/508 = 6.1, 2,100/413 = 5.08; across 3,100/413 = 7.5, 2,100/508 = 4.1
    assert 30 == places_on(DECK, 508, 413)
    # turned, the deck of 2,100 x 3,100 mm takes as many
    assert 30 == places_on(replace(DECK, length_mm=2_100, width_mm=3_100), 508, 413)


def test_a_millimetre_short_costs_a_row() -> None:
    """2,065 mm hold five boxes of 413 mm, 2,064 mm hold four."""
    # 6 x 5 = 30; then along 6 x 4 = 24, across 7 x 4 = 28
    assert 30 == places_on(replace(DECK, width_mm=2_065), 508, 413)
    assert 28 == places_on(replace(DECK, width_mm=2_064), 508, 413)


def test_a_box_larger_than_the_deck_has_no_place() -> None:
    """Nothing stands on a deck that is shorter than the box either way."""
    assert 0 == places_on(Deck(400, 400, 1_000, 5), 508, 413)


@pytest.mark.parametrize(
    ("length_mm", "width_mm", "places"),
    [
        # IBC 1,200 x 1,000 mm (xhsibc.com).  Along: 1,200/508 -> 3, 1,000/413 -> 3, 9 places;
        # across: 1,200/413 -> 3, 1,000/508 -> 2, 6 places.
        (508, 413, 6),
        # square boxes: 1,200/460 -> 3, 1,000/460 -> 3
        (460, 460, 9),
        # a box just as long and wide as the tank
        (1_200, 1_000, 1),
        (1_000, 1_200, 1),
        (1_199, 1_000, 2),
    ],
)
def test_a_tank_covers_whole_places(length_mm: int, width_mm: int, places: int) -> None:
    """A place that a tank covers in part is taken."""
    assert places == places_under(IBC, length_mm, width_mm)


@pytest.mark.parametrize(
    ("stack_mm", "stack_boxes", "height_mm", "high"),
    [
        (1_200, 5, 168, 5),  # 7 by height, 5 allowed
        (839, 5, 168, 4),  # 839 / 168 = 4.99
        (840, 5, 168, 5),
        (1_200, 3, 168, 3),
        (160, 5, 168, 0),  # does not stand under the cover at all
    ],
)
def test_a_stack_ends_at_its_height_or_its_count(
    stack_mm: int, stack_boxes: int, height_mm: int, high: int
) -> None:
    """The lower of what the height and what the count allow."""
    box = BoxKind("medium", "Medium", 508, 413, height_mm, 4_500)

    assert high == stack_high(Deck(3_100, 2_100, stack_mm, stack_boxes), box)


@given(length=SIZE, width=SIZE, box=SIZE, across=SIZE, more=st.integers(0, 500))
def test_turning_or_a_larger_deck_never_loses_a_place(
    length: int, width: int, box: int, across: int, more: int
) -> None:
    """Places do not depend on how box and deck are named, and grow with the deck."""
    deck, turned = Deck(length, width, 1_000, 5), Deck(width, length, 1_000, 5)
    places = places_on(deck, box, across)

    assert places == places_on(turned, box, across) == places_on(deck, across, box)
    assert places <= places_on(Deck(length + more, width, 1_000, 5), box, across)
    assert places * box * across <= length * width


@given(length=SIZE, width=SIZE, box=SIZE, across=SIZE)
def test_a_tank_fits_under_the_places_it_covers(
    length: int, width: int, box: int, across: int
) -> None:
    """The places a tank covers have at least the tank's area."""
    tank = Container("tank", "Tank", 1_000, 1_000, length, width, 1)

    assert length * width <= places_under(tank, box, across) * box * across
