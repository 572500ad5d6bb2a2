"""Recipes as people write them, told apart: by mass, by weight and volume, by per cent.

The trap: "2 lb : 1 pint" is 61.5 % sugar with an imperial pint and 65.8 % with a US pint, a
tenth in litres per kg of sugar.  A bare pint or gallon is therefore refused.
"""

import re
from dataclasses import dataclass
from typing import Final

from runplanner.phrase import Number, Phrase, phrase
from runplanner.trade.syrup import SUGAR_MAX_PERMILLE, density_kg_m3, water_kg_m3

# Exact by definition: international pound 1959; UK gallon 4.54609 L (Units of Measurement
# Regulations 1995); US gallon 231 cubic inches.
POUND_G: Final = 453.59237
UK_GALLON_ML: Final = 4546.09
US_GALLON_ML: Final = 3785.411784

_MASS_G: Final = {"kg": 1000.0, "g": 1.0, "lb": POUND_G, "lbs": POUND_G, "oz": POUND_G / 16}
_VOLUME_ML: Final = {"l": 1000.0, "litre": 1000.0, "liter": 1000.0, "ml": 1.0, "cl": 10.0}
_GALLON_ML: Final = {"uk": UK_GALLON_ML, "imperial": UK_GALLON_ML, "imp": UK_GALLON_ML,
                     "us": US_GALLON_ML}  # fmt: skip
_PER_GALLON: Final = {"pint": 8, "pt": 8, "quart": 4, "qt": 4, "gallon": 1, "gal": 1}
_NUMBER: Final = r"(\d{1,6}(?:\.\d{1,6})?)"
_PER_CENT: Final = re.compile(rf"{_NUMBER}\s*%(?: sugar| solids)?(?: by mass)?", re.ASCII)
_PARTS: Final = re.compile(rf"{_NUMBER}\s*(?::|to)\s*{_NUMBER}(?: by (?:mass|weight))?", re.ASCII)
_AMOUNT: Final = rf"{_NUMBER}\s*((?:(?:uk|us|imperial|imp)\.?\s+)?[a-z]+)(?: of)?(?: sugar| water)?"
_AMOUNTS: Final = re.compile(rf"{_AMOUNT}\s*(?:\+|:|to|and|in)\s*{_AMOUNT}", re.ASCII)
_LONGEST: Final = 60
_ALLOWED: Final = phrase(
    'write "2:1" (parts by mass), "61.4 %" or amounts with their units, sugar first, such as '
    '"1 kg + 630 ml", "2 lb + 1 UK pint", "2 lb + 1 US pint"'
)


class RecipeError(ValueError):
    """A recipe that cannot be read one way only; ``told`` says why."""

    def __init__(self, told: Phrase) -> None:
        self.told = told
        super().__init__(str(told))


@dataclass(frozen=True, slots=True)
class Recipe:
    """A syrup by what goes into it: grams of sugar to grams of water."""

    text: str
    sugar_g: float
    water_g: float

    def share(self) -> float:
        """Return the sugar by mass, 0 to 1."""
        return self.sugar_g / (self.sugar_g + self.water_g)

    def permille(self) -> int:
        """Return the sugar by mass in whole per mille, to the nearest."""
        return int(self.share() * 1000 + 0.5)

    def litres(self, sugar_g: float) -> float:
        """Return the litres of syrup, at 20 C, that ``sugar_g`` of sugar makes by this recipe."""
        return sugar_g / self.share() / density_kg_m3(self.share())

    def water_ml(self, sugar_g: float) -> float:
        """Return the water (at 20 C) that goes to ``sugar_g`` of sugar."""
        return sugar_g * self.water_g / self.sugar_g / water_kg_m3(20.0) * 1000


def recipe(text: str) -> Recipe:
    """Return the recipe that ``text`` means; parts without units are parts by mass.

    Water given by volume is weighed at 20 C.

    Raises:
        RecipeError: When it cannot be read one way only, or is no syrup; fit to print.
    """
    plain = " ".join(text.lower().split())
    if len(plain) > _LONGEST:
        raise RecipeError(
            phrase(
                "recipe too long ({number} characters); {allowed}",
                number=len(plain),
                allowed=_ALLOWED,
            )
        )
    if "," in plain:
        raise RecipeError(
            phrase("write a decimal point, not a comma, in recipe {plain}", plain=repr(plain))
        )
    found = _read(plain)
    if found.sugar_g <= 0 or found.share() * 1000 > SUGAR_MAX_PERMILLE:
        raise RecipeError(
            phrase(
                "recipe {plain} is {share} % sugar; a syrup has more than 0 and at "
                "most {most} %. Sugar comes first.",
                plain=repr(plain),
                share=Number(f"{found.share() * 100:.1f}"),
                most=Number(f"{SUGAR_MAX_PERMILLE / 10:g}"),
            )
        )
    return found


def recipe_permille(text: str) -> int:
    """Return the sugar by mass of the recipe in ``text``, in per mille (see :func:`recipe`).

    Raises:
        RecipeError: As there.
    """
    return recipe(text).permille()


def _read(plain: str) -> Recipe:
    if match := _PER_CENT.fullmatch(plain):
        sugar = float(match[1]) * 10
        return Recipe(plain, sugar, _positive(1000 - sugar, plain))
    if match := _PARTS.fullmatch(plain):
        return Recipe(plain, float(match[1]), _positive(float(match[2]), plain))
    if match := _AMOUNTS.fullmatch(plain):
        sugar = float(match[1]) * _sugar_unit_g(match[2], plain)
        water = float(match[3]) * _water_unit_g(match[4], plain)
        return Recipe(plain, sugar, _positive(water, plain))
    raise RecipeError(
        phrase("cannot read recipe {plain}: {allowed}", plain=repr(plain), allowed=_ALLOWED)
    )


def _positive(water: float, said: str) -> float:
    if water <= 0:
        raise RecipeError(
            phrase("recipe {said} has no water in it; {allowed}", said=repr(said), allowed=_ALLOWED)
        )
    return water


def _sugar_unit_g(unit: str, said: str) -> float:
    if unit not in _MASS_G:
        raise RecipeError(
            phrase(
                "sugar in recipe {said} must be weighed (kg, g, lb, oz), not {unit}",
                said=repr(said),
                unit=repr(unit),
            )
        )
    return _MASS_G[unit]


def _water_unit_g(unit: str, said: str) -> float:
    if unit in _MASS_G:
        return _MASS_G[unit]
    return _volume_ml(unit, said) * water_kg_m3(20.0) / 1000


def _volume_ml(unit: str, said: str) -> float:
    if unit in _VOLUME_ML or unit.removesuffix("s") in _VOLUME_ML:
        return _VOLUME_ML.get(unit) or _VOLUME_ML[unit.removesuffix("s")]
    nation, _, name = unit.replace(".", "").rpartition(" ")
    name = name.removesuffix("s") if name not in _PER_GALLON else name
    if name in _PER_GALLON and nation in _GALLON_ML:
        return _GALLON_ML[nation] / _PER_GALLON[name]
    if name in _PER_GALLON:
        raise RecipeError(
            phrase(
                "recipe {said}: say UK {name} or US {name}; they differ by a fifth "
                "(an imperial pint is 568 ml, a US pint 473 ml)",
                said=repr(said),
                name=name,
            )
        )
    raise RecipeError(
        phrase(
            "unit {unit} in recipe {said} is not known; {allowed}",
            unit=repr(unit),
            said=repr(said),
            allowed=_ALLOWED,
        )
    )
