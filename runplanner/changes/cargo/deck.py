"""The deck of a truck that is out: how many places its goods take, as the counts make them.

Honey and brood boxes of one kind stand together, those of a watched yard by themselves, emptied
boxes yard by yard; a tank covers its places full or empty.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from runplanner.daybook.trip import Aboard, Action, Call, Job, Shift, Trip
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


def idle_places(outfit: Outfit, shift: Shift, trip: Trip, was: Aboard) -> list[int]:
    """Return the deck places, on leaving each call, of what no call uses, on the cautious side.

    That is blocks, feeders and boards, and wet boxes in stacks of their own.

    Args:
        outfit: The facts.
        shift: The truck's day.
        trip: One of its trips.
        was: What it left with.
    """
    kit, start = outfit.kit, trip.calls[0].after
    blocks, boards, feeders = (
        max(0, getattr(was, name) - getattr(start, name))
        for name in ("blocks", "boards", "feeders")
    )
    wet = _idle_wet(outfit, shift, trip, was)
    found = []
    for after in (call.after for call in trip.calls):
        aboard = after.blocks, max(0, after.boards), after.feeders
        more = aboard[0] + blocks, aboard[1] + boards, aboard[2] + feeders
        found.append(wet + small_places(kit, *more) - small_places(kit, *aboard))
    return found


def _idle_wet(outfit: Outfit, shift: Shift, trip: Trip, was: Aboard) -> int:
    """Return the deck places of wet boxes that do not go up, those of stops left out as well."""
    hauler = hauler_of(outfit, shift)
    if hauler is None:
        return 0
    lack: dict[str, int] = {}
    for call in trip.yards():
        if call.planned:
            less = _wet_up(call.planned) - _wet_up(call.actions)
            lack[call.yard] = lack.get(call.yard, 0) + max(0, less)
    rest = max(0, was.wet - trip.calls[0].after.wet - sum(lack.values()))
    lowest = min((high for one in outfit.boxes if (high := hauler.high(one)) > 0), default=1)
    highs = (hauler.high(outfit.box(outfit.yard(yard).box)) for yard in lack)
    piles = zip(lack.values(), highs, strict=True)
    return stacks(rest, lowest) + sum(stacks(count, high) for count, high in piles)


def _wet_up(actions: Sequence[Action]) -> int:
    return sum(one.wet for one in actions if one.job is Job.WET_UP)
