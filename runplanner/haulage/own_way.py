"""The way of people who spin or mix elsewhere than at home: no plan reckons with it."""

from typing import Final

from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit

NEAR_MIN: Final = 15
"""A base no farther from home than that counts as at home."""


def own_way_min(outfit: Outfit, base: Base) -> int:
    """Return the drive between home and ``base`` in minutes, the longer way; 0 where it is near."""
    home, legs = outfit.home.place, outfit.travel.minutes
    longest = max(legs[home][base.place] or 0, legs[base.place][home] or 0)
    return longest if longest > NEAR_MIN else 0
