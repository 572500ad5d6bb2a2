"""Sugar syrup: what a recipe weighs, what volume it makes and when it throws crystals.

Density of pure sucrose in water: Bubnik, Kadlec, Urban and Bruhns, Sugar Technologists
Manual, Bartens 1995, p. 164, on the water density of Kell 1975.  Compared with the handbook
table (CRC, 20 C) it differs by 0.4 kg/m3 at most up to 76 % sugar, and that is where the
range ends here.  Solubility: Bubnik and Kadlec, in Mathlouthi and Reiser (eds.), Sucrose,
Blackie 1995, pp. 101-125.
"""

from itertools import pairwise
from math import ceil, floor, fsum, inf
from typing import Final

from runplanner.phrase import Number, Phrase, phrase

SUGAR_MAX_PERMILLE: Final = 760
TEMP_MIN_C: Final = 0.0
TEMP_MAX_C: Final = 60.0
COOL_NIGHT_C: Final = 10.0
"""A cool night at the end of summer, by which crystals are warned of: a judgement, no source."""

# Rows: powers of (t - 20)/100 from 0; columns: powers of the sugar share from 1.
_SUCROSE: Final = (
    (385.1761, 135.3705, 40.9299, -3.9646, 13.4853, -17.2890),
    (-46.2720, -7.1720, 1.1597, 5.1126, 17.5254),
    (59.7712, 7.2491, 12.3630, -35.4791),
    (-47.2207, -21.6977, 27.6301),
    (18.3184, 12.3081),
)
_KELL: Final = (999.83952, 16.952577, -7.9905127e-3, -46.241757e-6, 105.84601e-9, -281.03006e-12)
_KELL_BELOW: Final = 16.887236e-3
_SOLUBILITY: Final = (64.447, 0.08222, 1.6169e-3, -1.558e-6, -4.63e-8)

# Curth, Hohenheim 1981 (via bienenzuchtverein-merkstein.de): one litre of 1:1, 3:2 and 2:1
# holds 0.625, 0.800 and 0.890 kg of sugar and became 0.560, 0.860 and 1.000 kg of stores.
_CURTH: Final = ((500, 896), (600, 1_075), (667, 1_124))
STORES_SPREAD: Final = (900, 1_250)
"""Published stores per kg of sugar run from 0.90 to 1.25 (the no-loss bound at 20 % water)."""


def water_kg_m3(temp_c: float) -> float:
    """Return the density of water (Kell 1975)."""
    _check_temp(temp_c)
    top = fsum(factor * temp_c**power for power, factor in enumerate(_KELL))
    return float(top / (1 + _KELL_BELOW * temp_c))


def density_kg_m3(sugar_share: float, temp_c: float = 20.0) -> float:
    """Return the density of pure sucrose syrup.

    Args:
        sugar_share: Sugar by mass, 0 to 0.76.
        temp_c: Temperature, 0 to 60 C.

    Raises:
        ValueError: Outside the range the formula was compared with the handbook.
    """
    _check_share(sugar_share)
    warmth = (temp_c - 20.0) / 100.0
    extra = fsum(
        factor * sugar_share ** (column + 1) * warmth**row
        for row, factors in enumerate(_SUCROSE)
        for column, factor in enumerate(factors)
    )
    return water_kg_m3(temp_c) + float(extra)


def sugar_kg_m3(sugar_share: float) -> float:
    """Return the sugar in a cubic metre of syrup at 20 C, unrounded (grams in a litre).

    Raises:
        ValueError: Outside the range the formula was compared with the handbook.
    """
    return density_kg_m3(sugar_share) * sugar_share


def density_g_per_l(sugar_permille: int, temp_c: float = 20.0) -> int:
    """Return the mass of one litre, rounded up: what a litre may weigh on the truck.

    Raises:
        ValueError: Outside the range the formula was compared with the handbook.
    """
    return ceil(density_kg_m3(sugar_permille / 1000, temp_c))


def ml_per_kg_sugar(sugar_permille: int) -> int:
    """Return the syrup in ml that one kg of sugar makes at 20 C, rounded down.

    Raises:
        ValueError: When there is no sugar in it, or outside the valid range.
    """
    if sugar_permille < 1:
        raise ValueError("a syrup without sugar makes no volume per kg of sugar")
    mass_kg = 1000 / sugar_permille
    return floor(mass_kg / density_kg_m3(sugar_permille / 1000) * 1_000_000)


def solubility_permille(temp_c: float) -> int:
    """Return the most sugar that stays dissolved at ``temp_c``, by mass, rounded down."""
    return floor(_solubility_percent(temp_c) * 10)


def crystals_below_c(sugar_permille: int) -> float | None:
    """Return the temperature (to 0.1 C) below which a syrup can throw crystals on a cool night.

    None when it stays clear down to ``COOL_NIGHT_C``, infinite when even at 60 C so much sugar
    does not dissolve.  Pure sucrose only: invert stays clear longer.
    """
    tenths = range(int(COOL_NIGHT_C * 10), int(TEMP_MAX_C * 10) + 1)
    clear = (tenth for tenth in tenths if _solubility_percent(tenth / 10) * 10 >= sugar_permille)
    below = next(clear, None)
    if below is None:
        return inf
    return None if below == tenths[0] else below / 10


def crystals(sugar_permille: int) -> Phrase | None:
    """Return what a cool night does to a syrup, in words; None where it stays clear."""
    below, sugar = crystals_below_c(sugar_permille), Number(f"{sugar_permille / 10:g}")
    if below is None:
        return None
    if below == inf:
        return phrase(
            "{sugar} % sugar does not dissolve even at {hot} \u00b0C: thin it, or use syrup that "
            "is partly inverted.",
            sugar=sugar, hot=Number(f"{TEMP_MAX_C:g}"),
        )  # fmt: skip
    return phrase(
        "Syrup of {sugar} % sugar is saturated at {below} \u00b0C and can throw crystals in tank "
        "and hose at {night} \u00b0C: keep it warm, stir and look for crystals before pumping; "
        "thin or rewarm it if it has set.",
        sugar=sugar, below=Number(f"{below:.0f}"), night=Number(f"{COOL_NIGHT_C:g}"),
    )  # fmt: skip


def stores_g_per_kg_sugar(sugar_permille: int) -> int:
    """Return the winter stores made of one kg of sugar fed as this syrup.

    Between the three syrups weighed by Curth (Hohenheim 1981) straight lines are drawn;
    thicker syrup counts like 2:1.  A setting: published rules spread over ``STORES_SPREAD``.

    Raises:
        ValueError: Thinner than 1:1 or thicker than the valid range.
    """
    if not _CURTH[0][0] <= sugar_permille <= SUGAR_MAX_PERMILLE:
        raise ValueError(
            f"no published stores per kg of sugar for {sugar_permille / 10:g} % syrup; "
            f"known from {_CURTH[0][0] / 10:g} % to {SUGAR_MAX_PERMILLE / 10:g} %"
        )
    for (thin, low), (thick, high) in pairwise(_CURTH):
        if sugar_permille <= thick:
            return low + (high - low) * (sugar_permille - thin) // (thick - thin)
    return _CURTH[-1][1]


def _solubility_percent(temp_c: float) -> float:
    _check_temp(temp_c)
    return fsum(factor * temp_c**power for power, factor in enumerate(_SOLUBILITY))


def _check_temp(temp_c: float) -> None:
    if not TEMP_MIN_C <= temp_c <= TEMP_MAX_C:
        raise ValueError(f"temperature must be {TEMP_MIN_C:g} to {TEMP_MAX_C:g} C, not {temp_c:g}")


def _check_share(sugar_share: float) -> None:
    if not 0 <= sugar_share * 1000 <= SUGAR_MAX_PERMILLE + 1e-9:
        raise ValueError(
            f"sugar must be 0 to {SUGAR_MAX_PERMILLE / 10:g} % by mass, not {sugar_share * 100:g} %"
        )
