"""How many straps over a load: the friction formula of EN 12195-1, as a printed aid.

Straps over the top only press the load down; friction does the holding.  Blocking against
headboard and sides is worth more than any strap.  The formula is of one stiff load: stacks
side by side want a strap over each row besides (:func:`straps_over_rows`).
"""

from dataclasses import dataclass
from enum import StrEnum
from math import ceil
from typing import Final

from runplanner.phrase import phrase
from runplanner.trade.evidence import Cited, Evidence

GRAVITY: Final = 9.81
LEAST_STRAPS: Final = 2
"""So that the load does not wander even where friction alone would hold it (hebezone.de)."""
CAUTION: Final = phrase(
    "A least count for even, stiff loads (wood on ply, EN 12195-1; an estimate): block the load "
    "in front and at the sides, check straps on the way and after each stop, local rules go first."
)
"""Said with every count of straps: the formula knows one stiff load, not stacks of boxes."""


class Way(StrEnum):
    """The way a load wants to go."""

    FORWARD = "forward"
    SIDEWAYS = "sideways"
    REARWARD = "rearward"


RESTRAINT_PERMILLE: Final = {Way.FORWARD: 800, Way.SIDEWAYS: 500, Way.REARWARD: 500}
"""Share of the load's weight to be held: Directive 2014/47/EU Annex III."""
SAFETY_PERMILLE: Final = {Way.FORWARD: 1_250, Way.SIDEWAYS: 1_100, Way.REARWARD: 1_100}
"""Safety factor of frictional lashing: EN 12195-1:2010, from memory."""


@dataclass(frozen=True, slots=True)
class Friction:
    """Friction between two surfaces, swept clean, dry or wet."""

    id: str
    words: str
    permille: int
    cited: Cited


_CTU: Final = Cited(Evidence.OFFICIAL, "CTU Code (IMO/ILO/UNECE) appendix 2, friction factors")
FRICTION: Final = (
    Friction("planed-on-ply", "planed wood (a hive box) on plywood", 300, _CTU),
    Friction("planed-on-aluminium", "planed wood on grooved aluminium", 250, _CTU),
    Friction("pallet-on-ply", "wooden pallet on plywood", 450, _CTU),
    Friction("plastic-on-ply", "plastic pallet on plywood", 200, _CTU),
    Friction("mat", "anti-slip mat between", 600, Cited(Evidence.PUBLISHED, "hebezone.de")),
)
"""Friction to choose from; hive boxes are planed wood."""
PRETENSION_DAN: Final = 300
"""What a standard ratchet reaches: 250 to 350 daN (marotech.de); read the strap's label."""


def press_dan(mass_g: int, friction_permille: int, way: Way) -> int:
    """Return the pressing force on the load that friction needs, in daN, rounded up.

    Without a safety factor.

    Raises:
        ValueError: When friction is not above zero.
    """
    return ceil(_press_n(mass_g, friction_permille, way) / 10)


def straps(mass_g: int, friction_permille: int, way: Way) -> int:
    """Return the straps over the top that hold ``mass_g`` from going ``way``.

    Each strap presses on both sides, straight down.  Never fewer than two.

    Args:
        mass_g: Mass of what the straps hold.
        friction_permille: Friction factor times 1000.
        way: Direction.

    Raises:
        ValueError: When friction is not above zero.
    """
    one_n = 2 * PRETENSION_DAN * 10
    press = _press_n(mass_g, friction_permille, way) * SAFETY_PERMILLE[way] / 1000
    return max(LEAST_STRAPS, ceil(press / one_n))


def straps_over_rows(mass_g: int, friction_permille: int, way: Way, rows: int) -> int:
    """Return the straps over ``rows`` of stacks across a deck: one over each row at the least.

    Raises:
        ValueError: When friction is not above zero.
    """
    return max(rows, straps(mass_g, friction_permille, way))


def _press_n(mass_g: int, friction_permille: int, way: Way) -> float:
    if friction_permille < 1:
        raise ValueError("friction must be above zero")
    short = max(0, RESTRAINT_PERMILLE[way] - friction_permille)
    return short * mass_g / 1000 * GRAVITY / friction_permille
