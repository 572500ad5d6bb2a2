"""Deck places: how many columns stand on a loading floor.

A *deck place* is one column of the largest box footprint aboard.  Boxes stand in columns,
a tank covers whole places, and small goods fill places of their own.
"""

from runplanner.outfit.stores import BoxKind, Container
from runplanner.outfit.trucks import Deck


def places_on(deck: Deck, length_mm: int, width_mm: int) -> int:
    """Return how many footprints of this size stand on ``deck``, all turned the same way."""
    along = (deck.length_mm // length_mm) * (deck.width_mm // width_mm)
    across = (deck.length_mm // width_mm) * (deck.width_mm // length_mm)
    return max(along, across)


def places_under(container: Container, length_mm: int, width_mm: int) -> int:
    """Return how many whole places one ``container`` covers."""
    a, b = container.length_mm, container.width_mm
    along = -(-a // length_mm) * -(-b // width_mm)
    across = -(-a // width_mm) * -(-b // length_mm)
    return min(along, across)


def stack_high(deck: Deck, box: BoxKind) -> int:
    """Return how many boxes of this kind may stand on one another."""
    return min(deck.stack_boxes, deck.stack_mm // box.height_mm)
