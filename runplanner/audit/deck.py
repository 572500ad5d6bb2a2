"""Deck places: how many columns of boxes a deck has, and how many the goods take."""

from collections import Counter
from typing import NamedTuple

from runplanner.audit.book import Book, Rig, Stop
from runplanner.audit.cargo import Cargo
from runplanner.audit.whole import ceil_div
from runplanner.daybook.trip import Trip
from runplanner.outfit.stores import BoxKind, Container
from runplanner.outfit.trucks import Deck
from runplanner.outfit.yards import Health, Yard

NO_ROOM = 1_000_000
"""Places counted for a box that is too tall to stand at all: more than any deck has."""


def places_max(book: Book, stop: Stop) -> int:
    """Return the columns on truck and trailer, by the better way round on each."""
    return sum(columns_each(book, stop))


def columns_each(book: Book, stop: Stop) -> tuple[int, int]:
    """Return the columns on the truck and on the trailer, 0 without one."""
    foot = _footprint(book, stop.trip)
    truck, *behind = (_on_deck(deck, foot) for deck in _decks(stop.rig))
    return truck, sum(behind)


def places(book: Book, stop: Stop, cargo: Cargo) -> int:
    """Return the columns taken by ``cargo`` and the trip's containers, full or empty."""
    foot, kit = _footprint(book, stop.trip), book.outfit.kit
    tanks = sum(
        carried.count * _under(book.containers[carried.container], foot)
        for carried in stop.trip.containers
    )
    small = (
        ceil_div(max(0, cargo.boards), kit.boards_per_place)
        + ceil_div(cargo.blocks, kit.blocks_per_place)
        + ceil_div(cargo.feeders, kit.feeders_per_place)
    )
    return tanks + small + _columns(book, stop.rig, cargo)


def _decks(rig: Rig) -> list[Deck]:
    return [rig.truck.deck] + ([] if rig.trailer is None else [rig.trailer.deck])


class _Floor(NamedTuple):
    """What each column stands on."""

    length_mm: int
    width_mm: int


def _footprint(book: Book, trip: Trip) -> _Floor:
    """A floor that every kind of box aboard on this trip fits, or else every kind there is.

    Its length is that of the longest, its width that of the widest of them.
    """
    yards = (
        call.yard
        for call in trip.yards()
        for job in call.actions
        if job.boxes or job.brood_boxes or job.wet
    )
    kinds = [book.boxes[book.yards[yard].box] for yard in yards]
    kinds = kinds or list(book.outfit.boxes)
    return _Floor(
        max(max(kind.length_mm, kind.width_mm) for kind in kinds),
        max(min(kind.length_mm, kind.width_mm) for kind in kinds),
    )


def _on_deck(deck: Deck, foot: _Floor) -> int:
    along = (deck.length_mm // foot.length_mm) * (deck.width_mm // foot.width_mm)
    across = (deck.length_mm // foot.width_mm) * (deck.width_mm // foot.length_mm)
    return max(along, across)


def under(book: Book, stop: Stop, tank: Container) -> int:
    """Return the columns that one container covers on this trip."""
    return _under(tank, _footprint(book, stop.trip))


def _under(tank: Container, foot: _Floor) -> int:
    long, wide = tank.length_mm, tank.width_mm
    along = ceil_div(long, foot.length_mm) * ceil_div(wide, foot.width_mm)
    across = ceil_div(long, foot.width_mm) * ceil_div(wide, foot.length_mm)
    return min(along, across)


def _columns(book: Book, rig: Rig, cargo: Cargo) -> int:
    """Columns of boxes: honey and brood together by kind, a watched yard's apart.

    Emptied boxes go to their own yard alone: each yard's stand by themselves.
    """
    piles: Counter[tuple[str, str]] = Counter()
    for goods in (cargo.boxes, cargo.brood):
        for yard_id, count in goods.items():
            piles[pile_of(book.yards[yard_id])] += count
    wet = sum(
        _stacks(rig, book.boxes[book.yards[yard_id].box], count)
        for yard_id, count in cargo.wet.items()
    )
    return wet + sum(_stacks(rig, book.boxes[kind], count) for (kind, _), count in piles.items())


def pile_of(yard: Yard) -> tuple[str, str]:
    """Return the pile that a yard's full boxes go on: its kind's, a watched yard's apart."""
    return yard.box, yard.id if yard.health is Health.WATCH else ""


def stack_of(rig: Rig, kind: BoxKind) -> int:
    """Return how high boxes stand, the lower of both decks."""
    return min(min(deck.stack_boxes, deck.stack_mm // kind.height_mm) for deck in _decks(rig))


def _stacks(rig: Rig, kind: BoxKind, count: int) -> int:
    high = stack_of(rig, kind)
    return ceil_div(count, high) if high > 0 else count * NO_ROOM
