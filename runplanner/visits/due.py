"""What a yard is due: boxes, feed rounds, blocks, strips, all worked out per colony."""

from dataclasses import dataclass

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Feed
from runplanner.outfit.yards import Clearing, Health, Yard

HELD = (Health.SUSPECT, Health.STANDSTILL)


@dataclass(frozen=True, slots=True)
class Due:
    """The work one yard is due.

    Args:
        boards: Boards go on before take-off.
        take_off: Boxes come off and colonies are condensed.
        strips: Strips go in.
        rounds: Feed rounds; 0 when stores suffice.
        round_ml: Syrup for one colony in each round.
        round_gap_min: Least time from one round's start to the next.
        need_g: Stores each colony lacks.
        lacks_g: Stores each colony still lacks, by number of rounds given.
        wet: Emptied boxes go back up for some days and are collected.
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


def stores_per_l_g(feed: Feed) -> int:
    """Return the winter stores, in grams, that bees make of one litre of this syrup."""
    return feed.density_g_per_l * feed.sugar_permille * feed.stores_g_per_kg_sugar // 1_000_000


def due(outfit: Outfit, yard: Yard) -> Due:
    """Return the work ``yard`` is due; a held yard that may not be fed is due nothing.

    Neither is a yard without colonies.
    """
    held = yard.health in HELD or yard.colonies == 0
    fed = not held or (yard.feed_agreed and yard.boxes == 0 and yard.colonies > 0)
    need_g = max(0, yard.target_g - (yard.stores_g or 0)) if fed else 0
    rounds, round_ml = _rounds(outfit.feed, yard, need_g)
    return Due(
        boards=not held and yard.clearing is Clearing.BOARDS and yard.boxes > 0,
        take_off=not held,
        strips=fed,
        rounds=rounds,
        round_ml=round_ml,
        round_gap_min=-(-round_ml * DAY_MIN // outfit.feed.uptake_ml_per_day),
        need_g=need_g,
        lacks_g=_lacks(outfit.feed, need_g, rounds, round_ml),
        wet=not held and yard.wet_back and yard.boxes > 0,
    )


def _rounds(feed: Feed, yard: Yard, need_g: int) -> tuple[int, int]:
    """Return the rounds and what each pours: as few as the feeder allows, all alike."""
    if need_g == 0:
        return 0, 0
    need_ml = -(-need_g * 1000 // stores_per_l_g(feed))
    rounds = -(-need_ml // yard.feeder_ml)
    each = -(-need_ml // rounds)
    return rounds, min(yard.feeder_ml, -(-each // feed.round_to_ml) * feed.round_to_ml)


def _lacks(feed: Feed, need_g: int, rounds: int, round_ml: int) -> tuple[int, ...]:
    made = (given * round_ml * stores_per_l_g(feed) // 1000 for given in range(rounds + 1))
    return tuple(need_g - min(need_g, grams) for grams in made)


def lasts_min(outfit: Outfit, grams: int) -> int:
    """Return how long one condensed colony lives on so much stores and fondant, rounded down."""
    return grams * DAY_MIN // outfit.feed.day_use_g


def taken(total: int, colonies: int, before: int, after: int) -> int:
    """Return the boxes that come off when the count of colonies done goes from before to after."""
    if colonies == 0:
        return 0
    return -(-after * total // colonies) - -(-before * total // colonies)
