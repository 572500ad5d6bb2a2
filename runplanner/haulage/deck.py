"""Deck places: how many columns stand on a loading floor.

A *deck place* is one column of the largest box footprint aboard.  Boxes stand in columns,
a tank covers whole places, and small goods fill places of their own.
"""

from runplanner.outfit.stores import BoxKind, Container
from runplanner.outfit.trucks import Deck
from runplanner.trade.loads import columns, layers


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
