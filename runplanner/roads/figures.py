"""Figures in tags, with or without a unit: ``7.5``, ``3000 kg``, ``10'6"``.

Units and how they are written are as the OpenStreetMap wiki's "Map features/Units", Key:maxweight
and Key:maxheight describe them (from memory): tonnes and metres where none stands.
"""

import re
from collections.abc import Mapping
from typing import Final

_FIGURE: Final = re.compile(r"([0-9]{1,6}(?:\.[0-9]{1,4}|,[0-9]{1,2})?)\s*([a-zA-Z/]*)")
_FEET: Final = re.compile(
    r"([0-9]{1,3})\s*(?:'|ft|feet|foot)\s*(?:([0-9]{1,2})\s*(?:\"|in|inch|inches|'')?)?"
)
_QUOTES: Final = str.maketrans("\u2019\u2032\u201d\u2033\u00a0", "''\"\" ")
MASS_G: Final = {
    "": 1_000_000, "t": 1_000_000, "tonne": 1_000_000, "tonnes": 1_000_000, "kg": 1_000,
    "st": 907_185, "lt": 1_016_047, "lbs": 454, "lb": 454,
}  # fmt: skip
LENGTH_MM: Final = {
    "": 1000, "m": 1000, "metre": 1000, "metres": 1000, "meter": 1000, "meters": 1000, "cm": 10,
    "mm": 1,
}  # fmt: skip
SPEED_M_PER_H: Final = {"": 1000, "km/h": 1000, "kmh": 1000, "kph": 1000, "mph": 1609}
_BARE: Final = ((MASS_G, 100, 500, "kg"), (LENGTH_MM, 20, 100, "cm"))
"""More than this is no limit in tonnes or metres, and from the next on it is one in that unit.

Guessed: bridges are signed up to some 60 t, and no road is wider than 20 m.
"""


def measured(text: str, units: Mapping[str, int]) -> int | None:
    """Return a figure with its unit, the least where several stand; None when unreadable."""
    found = (figure(part, units) for part in parts_of(text))
    return min((one for one in found if one is not None), default=None)


def parts_of(text: str) -> list[str]:
    """Return the parts between semicolons, with plain quotes and spaces."""
    return [part.translate(_QUOTES).strip() for part in text.split(";")]


def figure(part: str, units: Mapping[str, int]) -> int | None:
    """Return one figure; a comma before one or two digits is a decimal comma."""
    feet = _FEET.fullmatch(part[:40]) if units is LENGTH_MM else None
    if feet:
        return int((int(feet[1]) * 12 + int(feet[2] or 0)) * 25.4)
    match = _FIGURE.fullmatch(part[:40])
    if not match:
        return None
    many = float(match[1].replace(",", "."))
    scale = units.get(_unit(many, match[2].lower(), units))
    return int(many * scale) if scale else None


def _unit(many: float, said: str, units: Mapping[str, int]) -> str:
    """Return the unit of a figure, one that there is none of where it can be no unit's."""
    for known, most, least, small in _BARE:
        if known is units and not said and many > most:
            return small if many >= least else "?"
    return said
