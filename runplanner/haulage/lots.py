"""What goods weigh and how they stand, lot by lot, to be stowed on truck and trailer."""

from runplanner.haulage.stow import Lot
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Kit
from runplanner.outfit.yards import Health, Yard


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


def full(outfit: Outfit, yard: Yard, boxes: int, brood: int, high: int) -> tuple[Lot, ...]:
    """Return a yard's honey and brood boxes as lots ``high`` in a stack, a watched yard's apart."""
    pile = ("full", yard.box, yard.id if yard.health is Health.WATCH else "")
    return (
        Lot(pile, boxes, yard.box_g, high),
        Lot(pile, brood, comb_box_g(outfit, yard), high),
    )


def wet(outfit: Outfit, yard: Yard, boxes: int, high: int) -> Lot:
    """Return a yard's emptied boxes, which stand by themselves, as a lot."""
    return Lot(("wet", yard.id), boxes, comb_box_g(outfit, yard), high)


def some(lots: tuple[Lot, ...]) -> tuple[Lot, ...]:
    """Return the lots there is something of."""
    return tuple([lot for lot in lots if lot.number > 0])


def fewer(lots: tuple[Lot, ...]) -> tuple[Lot, ...]:
    """Return lots counted the other way: what comes on for what goes off."""
    return tuple([lot._replace(number=-lot.number) for lot in lots])
