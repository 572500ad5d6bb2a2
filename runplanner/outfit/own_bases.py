"""Bases that nobody named: what the program calls them, to be said in other languages."""

from collections.abc import Mapping
from typing import Final

from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Phrase, phrase

OWN_BASES: Final[Mapping[str, Phrase]] = {
    str(name): name
    for name in (phrase("Base"), phrase("Home"), phrase("Feed store"), phrase("Honey house"))
}


def base_name(outfit: Outfit, place: int) -> str:
    """Return the name of a base; one that the program gave is said in the language spoken."""
    name = outfit.places[place].name
    return OWN_BASES.get(name, name)
