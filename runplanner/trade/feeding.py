"""Feed: what a colony needs for winter, what it has, and how the difference is poured.

All defaults are settings.  Honey left in boxes that go to the honey house is never stores.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Final

from runplanner.days import DAY_MIN
from runplanner.outfit.stores import Feed
from runplanner.trade.evidence import Cited, Evidence
from runplanner.trade.recipe import POUND_G
from runplanner.trade.syrup import water_kg_m3


@dataclass(frozen=True, slots=True)
class StoresTarget:
    """Winter stores one colony should go into winter with.

    Args:
        climate: ``mild``, ``temperate`` or ``cold``.
        brood_boxes: Boxes the colony winters in.
        use_g: The default taken.
        cited: Sources.
    """

    climate: str
    brood_boxes: int
    use_g: int
    cited: Cited


def _pounds(lb: int) -> int:
    return round(lb * POUND_G)


TARGETS: Final = (
    StoresTarget("mild", 1, 14_000,
                 Cited(Evidence.PUBLISHED, "30 lb Georgia, cowetabeekeepers.org; 45 lb, Demuth")),
    StoresTarget("mild", 2, 18_000,
                 Cited(Evidence.PUBLISHED, "15-20 kg in two boxes, wiki.bienenzeitung.de")),
    StoresTarget("temperate", 1, 20_000,
                 Cited(Evidence.PUBLISHED, "20 kg BBKA News 216; 20-40 kg Bee Craft")),
    StoresTarget("temperate", 2, 25_000,
                 Cited(Evidence.PUBLISHED, "25 kg brood and a half, BBKA News 216; NBU 2017")),
    StoresTarget("cold", 1, _pounds(60),
                 Cited(Evidence.PUBLISHED, "60-80 lb of honey, antherapiary")),
    StoresTarget("cold", 2, _pounds(80),
                 Cited(Evidence.PUBLISHED, "60-80 lb of honey, antherapiary")),
)  # fmt: skip
"""Targets by climate and number of boxes, in printing order."""

HIVE_PARTS_G: Final = {
    "deep body with frames, no wax": 6_210,
    "outer cover": 3_856,
    "inner cover": 794,
    "stand": 1_533,
    "mesh floor": 1_842,
    "top feeder": 2_667,
}
"""Parts of a ten-frame hive as weighed in pounds (13.69, 8.5, 1.75, 3.38, 4.06, 5.88 lb)."""
BEES_AND_BROOD_G: Final = 4_000
"""Bees, pollen and wax in a hive taken off a hefted weight; from memory, weigh one of yours."""

DAY_USE_G: Final = 500
"""A strong condensed colony with brood and no stores, the upper end of 10 to 15 kg a month
(quarrylifeaward.cz 2018; bienenundnatur.de), so that cover is not promised too long."""
WITH_BROOD_MONTH_G: Final = 3_000
STILL_MONTH_G: Final = 1_000
"""Stores used in a month with and without brood (bienenundnatur.de)."""
FEED_LEAST_C: Final = 10.0
"""Syrup is not readily taken below this, and nights should be warmer (pugetsoundbees.org)."""
FEED_GOOD_C: Final = 13.0
"""Feed syrup at 55 F or more (Ontario autumn tips, farms.com)."""


@dataclass(frozen=True, slots=True)
class Pouring:
    """How one colony's need is poured: ``rounds`` times ``ml_each``."""

    rounds: int
    ml_each: int

    def total_ml(self) -> int:
        """Return all the syrup one colony gets, rounding included."""
        return self.rounds * self.ml_each


def target(climate: str, brood_boxes: int) -> StoresTarget:
    """Return the target for ``climate`` and boxes; more than two boxes count as two.

    Raises:
        ValueError: For a climate that is not in ``TARGETS``.
    """
    for row in TARGETS:
        if row.climate == climate and row.brood_boxes == min(max(brood_boxes, 1), 2):
            return row
    known = ", ".join(dict.fromkeys(row.climate for row in TARGETS))
    raise ValueError(f"climate must be one of {known}, not {climate!r}")


def need_g(target_g: int, stores_g: int | None) -> int:
    """Return the stores still wanted; unknown stores count as none."""
    return max(0, target_g - (stores_g or 0))


def stores_from_heft_g(hive_gross_g: int, parts_g: int) -> int:
    """Return the stores in a hefted hive: gross less wood, bees, brood and pollen; never < 0."""
    return max(0, hive_gross_g - parts_g - BEES_AND_BROOD_G)


def gross_from_sides_g(left_g: int, right_g: int) -> int:
    """Return a hive's mass from a spring balance pulled at either side in turn."""
    return left_g + right_g


def stores_from_frames_g(frames: float | Fraction, frame_g: int) -> int:
    """Return the stores in so many full frames, rounded down."""
    return floor(frames * frame_g)


def full_frames(stores_g: int, frame_g: int) -> int:
    """Return the full frames that hold ``stores_g``, rounded up."""
    return -(-stores_g // frame_g)


def winter_use_g(months_with_brood: int, months_still: int) -> int:
    """Return the stores used over winter, by months with and without brood."""
    return months_with_brood * WITH_BROOD_MONTH_G + months_still * STILL_MONTH_G


def stores_g_per_l(feed: Feed) -> int:
    """Return the winter stores one litre becomes, rounded down."""
    return feed.density_g_per_l * feed.sugar_permille * feed.stores_g_per_kg_sugar // 1_000_000


def sugar_for_stores_g(stores_g: int, stores_g_per_kg_sugar: int) -> int:
    """Return the sugar to feed for ``stores_g`` of winter stores, rounded up."""
    return -(-stores_g * 1000 // stores_g_per_kg_sugar)


def pouring(wanted_g: int, feed: Feed, feeder_ml: int) -> Pouring:
    """Return rounds and litres for one colony that lacks ``wanted_g`` of stores.

    Every round is the same; litres are rounded up to what people pour, never over the feeder.
    """
    ml = -(-wanted_g * 1000 // stores_g_per_l(feed))
    if ml <= 0:
        return Pouring(0, 0)
    rounds = -(-ml // feeder_ml)
    even = -(-ml // rounds)
    rounded = -(-even // feed.round_to_ml) * feed.round_to_ml
    return Pouring(rounds, min(feeder_ml, rounded))


def emptied_min(ml: int, uptake_ml_per_day: int) -> int:
    """Return the minutes until ``ml`` is taken down, rounded up."""
    return -(-ml * DAY_MIN // uptake_ml_per_day)


def sugar_for_g(ml: int, feed: Feed) -> int:
    """Return the sugar in ``ml`` of syrup, rounded up: what must be bought."""
    return -(-ml * feed.density_g_per_l * feed.sugar_permille // 1_000_000)


def water_for_ml(ml: int, feed: Feed) -> int:
    """Return the water for ``ml`` of syrup, rounded up."""
    grams = ml * feed.density_g_per_l * (1000 - feed.sugar_permille) / 1_000_000
    return ceil(grams / water_kg_m3(20.0) * 1000)


def batches(ml: int, tank_ml: int) -> tuple[int, ...]:
    """Return even mixing batches, none larger than the tank; the last may be smaller.

    Raises:
        ValueError: When the tank holds nothing.
    """
    if tank_ml < 1:
        raise ValueError("a mixing tank must hold something")
    if ml <= 0:
        return ()
    count = -(-ml // tank_ml)
    each = -(-ml // count)
    return (*(each for _ in range(count - 1)), ml - each * (count - 1))


def cover_min(blocks_g: int, stores_g: int | None, day_use_g: int = DAY_USE_G) -> int:
    """Return the minutes that fondant and stores feed a colony, rounded down."""
    return (blocks_g + (stores_g or 0)) * DAY_MIN // day_use_g
