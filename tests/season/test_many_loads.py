"""Yards of many loads or syrup trips: all is planned where days suffice, else what fits."""

from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Yard
from runplanner.scenario.read import read_scenario
from tests.outfits import a_yard, an_outfit
from tests.season.shapes import DONE, planned

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

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


def test_of_a_yard_too_large_for_the_days_as_much_comes_off_as_fits() -> None:
    """A load takes 259 min, so two fit from 8:00 to 18:00; none came off where not all could."""
    yards = [_of_loads(10, 2), replace(a_yard(2, colonies=4, boxes=8, days=2), stores_g=20_000)]
    plan = planned(an_outfit(((10, 0), (14, 0)), yards, days=2), ROUNDS)

    left = {entry.yard: entry.colonies for entry in plan.undone if entry.job == "take-off"}
    assert left == {"yard1": 60 - 2 * 2 * 6}


@pytest.mark.parametrize("colonies", [40, 70])
def test_syrup_goes_out_by_three_cans(colonies: int) -> None:
    assert planned(_by_cans(colonies, 12), ROUNDS).tally == DONE


@pytest.mark.slow  # three quarters of a minute, or two and a half where lines are counted
def test_of_syrup_too_much_for_the_days_as_much_is_fed_as_fits() -> None:
    """Eight colonies a trip: 37 trips of which some find a place."""
    tally = planned(_by_cans(300, 6), ROUNDS).tally

    assert tally.not_off == 0
    assert 0 < tally.unfed_g <= 150 * 8_000


def _written(folder: Path, colonies: int, boxes: int, finish_by: str) -> Outfit:
    """A pickup, two people, ten cans, 14 fair days, and one yard of several loads."""
    (folder / "outfit.toml").write_text(
        'title = "One large yard"\npeople = 2\n'
        "[season]\nfirst_day = 2027-03-01\nlast_day = 2027-03-14\n"
        "[base]\nlat = -35.53\nlon = 173.78\n"
        '[[trucks]]\nname = "Blue"\nempty = "2.1 t"\nmax = "3.5 t"\n'
        'deck_length = "3.1 m"\ndeck_width = "2.1 m"\n'
        '[[containers]]\nkind = "can"\nowned = 10\n'
    )
    (folder / "yards.csv").write_text(
        "name,lat,lon,colonies,boxes,finish_by\n"
        f"Gum paddock,-35.52,173.72,{colonies},{boxes},{finish_by}\n"
    )
    return read_scenario(folder)


@pytest.mark.parametrize(("colonies", "boxes"), [(60, 102), (40, 100)])
@pytest.mark.parametrize("finish_by", ["", "2027-03-04", "2027-03-06"])
def test_a_yard_of_several_loads_is_begun_in_time(
    tmp_path: Path, colonies: int, boxes: int, finish_by: str
) -> None:
    """Nothing is left undone, with an added ``finish_by`` or without.

    Without it, loads spread over the days left 423 and 282 kg of stores unfed.
    """
    assert planned(_written(tmp_path, colonies, boxes, finish_by), ROUNDS).tally == DONE
