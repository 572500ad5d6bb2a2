"""What a yard is due: boxes, feed rounds, blocks, strips, all worked out per colony."""

from dataclasses import dataclass

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Feed
from runplanner.outfit.yards import CLOSED, Clearing, Yard
from runplanner.trade.feeding import (
    Pouring,
    cover_min,
    emptied_min,
    need_g,
    pouring,
    stores_g_per_l,
)


@dataclass(frozen=True, slots=True)
class Due:
    """The work one yard is due.

    Args:
        boards: Boards go on before take-off, unless it is done by the other way.
        take_off: Boxes come off and colonies are condensed.
        strips: Strips go in.
        rounds: Feed rounds; 0 when stores suffice.
        round_ml: Syrup for one colony in each round.
        round_gap_min: Least time from one round's start to the next.
        need_g: Stores each colony lacks.
        lacks_g: Stores each colony still lacks, by number of rounds given.
        wet: Emptied boxes go back up for some days and are collected.
        boards_on: Boards that lie there already as the campaign begins.
        other: A take-off may clear the boxes by another way than the usual one.
        last_round: Feed rounds that the stores call for, whether or not the yard is held.
    """

    boards: bool
    take_off: bool
    strips: bool
    rounds: int
    round_ml: int
    round_gap_min: int
    need_g: int
    lacks_g: tuple[int, ...]
    wet: bool = False
    boards_on: int = 0
    other: bool = False
    last_round: int = 0

    def boards_to_come(self) -> bool:
        """Tell whether boards must be put on before a take-off by the usual way."""
        return self.boards and not self.boards_on


def due(outfit: Outfit, yard: Yard) -> Due:
    """Return the work ``yard`` is due; a held yard that may not be fed is due nothing.

    Neither is a yard without colonies.
    """
    held = yard.health in CLOSED or yard.colonies == 0
    fed = not yard.left_alone and yard.colonies > 0
    short_g = need_g(yard.target_g, yard.stores_g)
    lacking_g = short_g if fed else 0
    poured = pouring(lacking_g, outfit.feed, yard.feeder_ml)
    boards = yard.clearing is Clearing.BOARDS and yard.boxes > 0
    return Due(
        boards=boards and not held,
        take_off=not held,
        strips=fed,
        rounds=poured.rounds,
        round_ml=poured.ml_each,
        round_gap_min=emptied_min(poured.ml_each, outfit.feed.uptake_ml_per_day),
        need_g=lacking_g,
        lacks_g=_lacks(outfit.feed, lacking_g, poured),
        wet=not held and yard.wet_back and yard.boxes > 0,
        boards_on=yard.boards_lain,
        other=not held and yard.clearing_else is not None and yard.boxes > 0,
        last_round=pouring(short_g, outfit.feed, yard.feeder_ml).rounds,
    )


def _lacks(feed: Feed, lacking_g: int, poured: Pouring) -> tuple[int, ...]:
    """Return the stores still lacking after none, one, ... of the rounds."""
    made = (
        given * poured.ml_each * stores_g_per_l(feed) // 1000 for given in range(poured.rounds + 1)
    )
    return tuple(need_g(lacking_g, grams) for grams in made)


def lasts_min(outfit: Outfit, grams: int) -> int:
    """Return how long one condensed colony lives on so much stores and fondant, rounded down."""
    return cover_min(grams, None, outfit.feed.day_use_g)


def taken(total: int, colonies: int, before: int, after: int) -> int:
    """Return the boxes that come off when the count of colonies done goes from before to after."""
    if colonies == 0:
        return 0
    return -(-after * total // colonies) - -(-before * total // colonies)
