"""Deck places: how many columns stand on a loading floor.

A *deck place* is one column on a floor that takes every kind of box aboard.  Boxes stand in
columns, a tank covers whole places, and small goods fill places of their own.
"""

from collections.abc import Iterable
from typing import Final, NamedTuple

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import BoxKind, Container, Kit
from runplanner.outfit.trucks import Deck
from runplanner.trade.loads import columns, layers

NO_ROOM: Final = 1_000_000
"""Places counted for a box too tall to stand: more than any deck has."""


class Cell(NamedTuple):
    """The floor of one deck place."""

    length_mm: int
    width_mm: int


def cell_of(outfit: Outfit, kinds: Iterable[BoxKind]) -> Cell:
    """Return the floor on which a box of any of these kinds stands; of all there are for none.

    One kind may be the longer and another the wider: neither's own floor takes both.
    """
    sides = [sorted((kind.length_mm, kind.width_mm)) for kind in tuple(kinds) or outfit.boxes]
    return Cell(max(long for _, long in sides), max(short for short, _ in sides))


def places_on(deck: Deck, length_mm: int, width_mm: int) -> int:
    """Return how many footprints of this size stand on ``deck``, all turned the same way."""
    return columns(deck, length_mm, width_mm)


def places_under(container: Container, length_mm: int, width_mm: int) -> int:
    """Return how many whole places one ``container`` covers."""
    a, b = container.length_mm, container.width_mm
    along = -(-a // length_mm) * -(-b // width_mm)
    across = -(-a // width_mm) * -(-b // length_mm)
    return min(along, across)


def stack_high(deck: Deck, box: BoxKind) -> int:
    """Return how many boxes of this kind may stand on one another."""
    return layers(deck, box.height_mm)


def stacks(boxes: int, high: int) -> int:
    """Return the deck places of so many boxes of one pile, ``high`` on one another.

    ``NO_ROOM`` for each where not one may stand (``high`` 0).
    """
    return -(-boxes // high) if high > 0 else boxes * NO_ROOM


def small_places(kit: Kit, blocks: int, boards: int, feeders: int) -> int:
    """Return the deck places of so many blocks, boards and feeders, each kind by itself."""
    return (
        -(-blocks // kit.blocks_per_place)
        - (-boards // kit.boards_per_place)
        - (-feeders // kit.feeders_per_place)
    )
