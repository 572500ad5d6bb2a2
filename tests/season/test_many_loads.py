"""Yards of many loads or syrup trips are planned whole."""

from dataclasses import replace

import pytest

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Yard
from tests.outfits import a_yard, an_outfit
from tests.season.shapes import DONE, planned

ROUNDS = 6


def _of_loads(loads: int, days: int) -> Yard:
    """Six colonies a load: 72 boxes of 16 kg are 1,152 kg, and the truck carries 1,185 kg."""
    yard = a_yard(1, colonies=6 * loads, boxes=72 * loads, days=days)
    return replace(yard, stores_g=20_000)


def _by_cans(colonies: int, days: int) -> Outfit:
    """8 kg of stores for each colony from three cans of 25 L, and fondant enough for all."""
    outfit = an_outfit(((10, 0),), [a_yard(1, colonies=colonies, boxes=0, days=days)], days=days)
    cans = replace(outfit.containers[1], owned=3)
    return replace(outfit, containers=(cans,), kit=replace(outfit.kit, blocks_owned=1_000))


@pytest.mark.parametrize("loads", [7, 10, 15])
@pytest.mark.parametrize("boards", [None, 8, 100])
def test_a_yard_of_many_loads_comes_off_whole(loads: int, boards: int | None) -> None:
    """One load is less than a fifth of the yard, with boards for all, for some, or brushed."""
    days = 2 + 2 * loads
    outfit = an_outfit(((10, 0),), [_of_loads(loads, days)], days=days)
    if boards is not None:
        yard = replace(outfit.yards[0], clearing=Clearing.BOARDS)
        outfit = replace(outfit, yards=(yard,), kit=replace(outfit.kit, boards_owned=boards))

    assert planned(outfit, ROUNDS).tally == DONE


@pytest.mark.parametrize("colonies", [40, 70])
def test_syrup_goes_out_by_three_cans(colonies: int) -> None:
    assert planned(_by_cans(colonies, 12), ROUNDS).tally == DONE
