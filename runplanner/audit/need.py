"""What a colony must be fed, worked out from its stores and the recipe."""

from typing import NamedTuple

from runplanner.audit.whole import ceil_div
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Feed
from runplanner.outfit.yards import Health, Yard


class Need(NamedTuple):
    """One colony's feed: stores short, syrup, rounds and what each round pours.

    ``per_l`` are grams of winter stores made of one litre.
    """

    grams: int
    total_ml: int
    rounds: int
    round_ml: int
    per_l: int

    def unfed_g(self, rounds_done: int) -> int:
        """Return the stores still short after ``rounds_done`` rounds."""
        return self.grams - min(self.grams, rounds_done * self.round_ml * self.per_l // 1000)


def stores_per_l(feed: Feed) -> int:
    """Return grams of winter stores from one litre, rounded down once at the end."""
    sugar_mg = feed.density_g_per_l * feed.sugar_permille
    return sugar_mg * feed.stores_g_per_kg_sugar // 1_000_000


def need_of(outfit: Outfit, yard: Yard) -> Need:
    """Return what each colony of ``yard`` must be fed; unknown stores count as none."""
    per_l = stores_per_l(outfit.feed)
    grams = max(0, yard.target_g - (yard.stores_g or 0))
    total = ceil_div(grams * 1000, per_l)
    rounds = ceil_div(total, yard.feeder_ml)
    if not rounds:
        return Need(grams, 0, 0, 0, per_l)
    step = outfit.feed.round_to_ml
    poured = ceil_div(ceil_div(total, rounds), step) * step
    return Need(grams, total, rounds, min(yard.feeder_ml, poured), per_l)


def closed(yard: Yard) -> bool:
    """Tell whether the yard's health forbids that anything leaves it."""
    return yard.health in {Health.SUSPECT, Health.STANDSTILL}


def left_alone(yard: Yard) -> bool:
    """Tell whether a yard's health keeps all work from it: what it lacks does not count."""
    return closed(yard) and not fed_without_take_off(yard)


def fed_without_take_off(yard: Yard) -> bool:
    """Tell whether a closed yard may be fed as it stands (no honey on, inspector agrees)."""
    return closed(yard) and (yard.boxes == 0 or yard.honey_off) and yard.feed_agreed


def taken_down_min(outfit: Outfit, yard: Yard) -> int:
    """Return the minutes that the bees of a yard take over one round, rounded up."""
    return ceil_div(need_of(outfit, yard).round_ml * DAY_MIN, outfit.feed.uptake_ml_per_day)
