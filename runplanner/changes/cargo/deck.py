"""The deck of a truck that is out: how many places its goods take, as the counts make them.

Honey and brood boxes of one kind stand together, those of a watched yard by themselves, emptied
boxes yard by yard; a tank covers its places full or empty.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from runplanner.daybook.trip import Call, Shift, Trip
from runplanner.haulage.deck import cell_of, places_under, small_places, stacks
from runplanner.haulage.hauler import Hauler, haulers
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Health


class Heap(NamedTuple):
    """What takes deck places: boxes by the yard they belong to, and small goods."""

    boxes: Mapping[str, int]
    brood: Mapping[str, int]
    wet: Mapping[str, int]
    boards: int
    blocks: int
    feeders: int


class Deck(NamedTuple):
    """The decks of a truck and its trailer; of all ``places`` some are ``under`` containers."""

    outfit: Outfit
    hauler: Hauler
    places: int
    under: int

    def taken(self, heap: Heap) -> int:
        """Return the deck places taken, those under containers counted in."""
        small = small_places(self.outfit.kit, heap.blocks, heap.boards, heap.feeders)
        return self.under + small + self._columns(heap)

    def _columns(self, heap: Heap) -> int:
        piles: dict[tuple[str, str], int] = {}
        for yard_id, count in (*heap.boxes.items(), *heap.brood.items()):
            yard = self.outfit.yard(yard_id)
            key = yard.box, yard_id if yard.health is Health.WATCH else ""
            piles[key] = piles.get(key, 0) + count
        wet = [(self.outfit.yard(yard).box, count) for yard, count in heap.wet.items()]
        return sum(
            self._stacks(kind, count)
            for kind, count in (*((kind, count) for (kind, _), count in piles.items()), *wet)
        )

    def _stacks(self, kind: str, boxes: int) -> int:
        return stacks(boxes, self.hauler.high(self.outfit.box(kind)))


def hauler_of(outfit: Outfit, shift: Shift) -> Hauler | None:
    """Return the truck of a shift with its trailer and crew; None where it may carry nothing."""
    for one in haulers(outfit):
        trailer = one.trailer.id if one.trailer else ""
        if (one.truck.id, trailer, one.crew) == (shift.truck, shift.trailer, len(shift.crew)):
            return one
    return None


def deck_of(outfit: Outfit, shift: Shift, trip: Trip, calls: Sequence[Call]) -> Deck | None:
    """Return the deck on a trip, in places for any box that ``calls`` bring aboard.

    None where the truck may carry nothing.
    """
    hauler = hauler_of(outfit, shift)
    if hauler is None:
        return None
    kinds = (outfit.box(outfit.yard(one.yard).box) for one in calls if one.handles_boxes())
    cell = cell_of(outfit, kinds)
    under = sum(
        one.count * places_under(outfit.container(one.container), *cell) for one in trip.containers
    )
    return Deck(outfit, hauler, hauler.places(*cell), under)
