"""How warnings name yards and places, the first of many."""

from typing import Final

from runplanner.phrase import some_of

NAMED: Final = 6


def listed(names: list[str]) -> str:
    """Return names with commas, past ``NAMED`` of them how many more."""
    return some_of(names, NAMED)
