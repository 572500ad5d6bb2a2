"""Honey: its density by moisture, moisture by refractometer, and what a comb holds."""

from itertools import pairwise
from math import ceil, floor, log10
from typing import Final

from runplanner.trade.evidence import Cited, Evidence

MOISTURE_LIMIT_PERMILLE: Final = 200
"""General limit, Directive 2001/110/EC Annex II."""
HEATHER_LIMIT_PERMILLE: Final = 230
"""Heather (Calluna) honey and baker's honey, the same Annex."""
FERMENTS_PERMILLE: Final = 190
"""Above this expect fermentation (USDA Agricultural Handbook 335, quoted at beesource.com)."""
SPIN_BY_H: Final = 72
"""Spin within 3 to 4 days where small hive beetle lives (bee-health.extension.org)."""
COMB_G_PER_DM2: Final = 350
"""Stores in comb capped on both sides, 10 x 10 cm (wiki.bienenzeitung.de, Winterfutter 2010)."""
COMB_SOURCE: Final = Cited(
    Evidence.PUBLISHED, "350 g per square decimetre, wiki.bienenzeitung.de, Winterfutter 2010"
)

# Specific gravity 20/20 C in 1/10,000 for 13..21 % water: White 1975 in Crane,
# Honey: a comprehensive survey, from memory; 17 and 18 % agree with published
# specifications to 0.1 %.
_GRAVITY: Final = (14_457, 14_404, 14_350, 14_295, 14_237, 14_171, 14_101, 14_027, 13_950)
_GRAVITY_FROM: Final = 130
_WETTEST: Final = 250
_WATER_20_G_PER_ML: Final = 0.99821


def honey_kg_per_l(moisture_permille: int) -> float:
    """Return the density of honey at 20 C by its water content.

    The table ends at 21 %; for heather and unripe honey its last step goes on (derived).

    Raises:
        ValueError: Outside 13 to 25 % water, where refractometers end.
    """
    last = _WETTEST
    if not _GRAVITY_FROM <= moisture_permille <= last:
        raise ValueError(
            f"honey moisture must be {_GRAVITY_FROM / 10:g} to {last / 10:g} %, "
            f"not {moisture_permille / 10:g} %"
        )
    steps = list(enumerate(pairwise(_GRAVITY)))
    step, (wet, wetter) = steps[min((moisture_permille - _GRAVITY_FROM) // 10, len(steps) - 1)]
    part = (moisture_permille - _GRAVITY_FROM) / 10 - step
    return (wet + (wetter - wet) * part) / 10_000 * _WATER_20_G_PER_ML


def honey_g(ml: int, moisture_permille: int = 170) -> int:
    """Return the mass of ``ml`` of honey, rounded up."""
    return ceil(ml * honey_kg_per_l(moisture_permille))


def moisture_percent(refractive_index: float) -> float:
    """Return the water content of honey by its refractive index at 20 C.

    Wedmore after Chataway, table in Bogdanov, Book of Honey, chapter 4.  Often reprinted as
    "1.73190 - log(n - 1)": the bar over the first 1 was lost, it stands for -1 + 0.73190.

    Raises:
        ValueError: Outside 1.4740 to 1.5044, the ends of the table.
    """
    if not 1.4740 <= refractive_index <= 1.5044:
        raise ValueError(
            f"refractive index of honey must be 1.4740 to 1.5044, not {refractive_index:g}"
        )
    return (-0.2681 - log10(refractive_index - 1)) / 0.002243


def comb_g(length_mm: int, height_mm: int) -> int:
    """Return the stores in one full comb capped on both sides, by its wax area."""
    return floor(length_mm * height_mm * COMB_G_PER_DM2 / 10_000)
