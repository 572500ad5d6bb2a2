"""What goods weigh and how they stand, lot by lot, to be stowed on truck and trailer."""

from collections.abc import Sequence
from typing import NamedTuple, Protocol

from runplanner.haulage.stow import Change, Lot
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Kit
from runplanner.outfit.yards import Health, Yard


class Leg(Protocol):
    """What is aboard on leaving a call, of what has no yard."""

    @property
    def ml(self) -> int:
        """Syrup."""

    @property
    def blocks(self) -> int:
        """Blocks."""

    @property
    def boards(self) -> int:
        """Boards."""

    @property
    def feeders(self) -> int:
        """Feeders."""


class Done(NamedTuple):
    """What one stop does to a load, beside what its legs tell.

    Args:
        yard: Where.
        high: How high its boxes are stacked.
        boxes: Honey boxes that come aboard.
        brood: Brood boxes that come aboard.
        wet_up: Emptied boxes put up.
        wet_down: Emptied boxes collected.
        strips_g: Grams of strips used up.
        more_g: What a honey box may weigh beyond what it is reckoned with.
    """

    yard: Yard
    high: int
    boxes: int
    brood: int
    wet_up: int
    wet_down: int
    strips_g: int
    more_g: int = 0


def changes(outfit: Outfit, stops: Sequence[Done], legs: Sequence[Leg]) -> list[Change]:
    """Return what is loaded, and what changes at every stop, lot by lot.

    In what order lots go on decides how truck and trailer share them.

    Args:
        outfit: The facts.
        stops: What is done, in order.
        legs: What is aboard as the trip is loaded, and after each stop.
    """
    was, cab_g = legs[0], sum(stop.strips_g for stop in stops)
    loaded = small(outfit.kit, was.blocks, was.boards, was.feeders)
    up = [_wet(outfit, stop.yard, stop.wet_up, stop.high) for stop in stops]
    found = [Change((), _some((*loaded, *up)), was.ml, cab_g)]
    for stop, out, now in zip(stops, up, legs[1:], strict=True):
        more = small(
            outfit.kit, now.blocks - was.blocks, now.boards - was.boards, now.feeders - was.feeders
        )
        down = _wet(outfit, stop.yard, stop.wet_down, stop.high)
        cab_g -= stop.strips_g
        on = _some((*_full(outfit, stop), *more, down))
        found.append(Change(_some((*_fewer(more), out)), on, now.ml, cab_g))
        was = now
    return found


def comb_box_g(outfit: Outfit, yard: Yard) -> int:
    """Return the mass of a brood or wet box with its comb: twice the empty (common practice)."""
    return 2 * outfit.box(yard.box).empty_g


def small(kit: Kit, blocks: int, boards: int, feeders: int) -> tuple[Lot, ...]:
    """Return so many blocks, boards and feeders as lots."""
    return (
        Lot("blocks", blocks, kit.block_g, kit.blocks_per_place),
        Lot("boards", boards, kit.board_g, kit.boards_per_place),
        Lot("feeders", feeders, kit.feeder_g, kit.feeders_per_place),
    )


def _full(outfit: Outfit, stop: Done) -> tuple[Lot, ...]:
    """Return a stop's honey and brood boxes as lots, a watched yard's apart."""
    yard = stop.yard
    pile = ("full", yard.box, yard.id if yard.health is Health.WATCH else "")
    return (
        Lot(pile, stop.boxes, yard.box_g, stop.high, stop.more_g),
        Lot(pile, stop.brood, comb_box_g(outfit, yard), stop.high),
    )


def _wet(outfit: Outfit, yard: Yard, boxes: int, high: int) -> Lot:
    """Return a yard's emptied boxes, which stand by themselves, as a lot."""
    return Lot(("wet", yard.id), boxes, comb_box_g(outfit, yard), high)


def _some(lots: tuple[Lot, ...]) -> tuple[Lot, ...]:
    """Return the lots there is something of."""
    return tuple([lot for lot in lots if lot.number > 0])


def _fewer(lots: tuple[Lot, ...]) -> tuple[Lot, ...]:
    """Return lots counted the other way: what comes on for what goes off."""
    return tuple([lot._replace(number=-lot.number) for lot in lots])
