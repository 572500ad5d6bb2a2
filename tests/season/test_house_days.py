"""Spinning is looked for on the days on which there is something to spin, and on no other."""

from dataclasses import replace

import pytest

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.season.standing.house import BaseWork, Calls, House, Lot
from runplanner.season.standing.roster import Need, Roster
from runplanner.trips.ground import Ground
from tests.outfits import an_outfit


def _worked(outfit: Outfit, lots: list[Lot]) -> tuple[BaseWork | None, list[int]]:
    """The base work that boxes ask for, and the days on which somebody was looked for."""
    ground = Ground(outfit)
    asked: list[int] = []
    roster = Roster(ground)
    free = roster.free

    def noted(day: int, needs: tuple[Need, ...]) -> tuple[tuple[int, ...], tuple[int, ...]]:
        asked.append(day)
        return free(day, needs)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(roster, "free", noted)
        return House(ground, roster).work(Calls({}, {}, lots, [])), asked


def _lot(day: int, boxes: int) -> Lot:
    """Boxes that come in at noon."""
    return Lot(day * DAY_MIN + 720, 0, boxes, day * DAY_MIN + 600, 0)


def test_days_without_boxes_are_passed_over() -> None:
    """Twelve boxes on day 3 and on day 150 are an hour's work for one, on those days."""
    base, asked = _worked(an_outfit(days=200), [_lot(3, 12), _lot(150, 12)])

    assert base is not None
    assert [3, 150] == [spin.start_min // DAY_MIN for spin in base.spinning]
    assert {3, 150} == set(asked)


def test_where_nobody_spins_no_day_is_gone_through() -> None:
    """Neither people who spin nor a plant without a pace are waited for."""
    outfit = an_outfit(days=200)
    nobody = replace(outfit, people=tuple(replace(p, spins=False) for p in outfit.people))
    still = replace(outfit, honey_house=replace(outfit.honey_house, boxes_per_h=(0, 0, 0)))

    for one in (nobody, still):
        assert (None, []) == _worked(one, [_lot(3, 12)])
        base, asked = _worked(one, [])
        assert base is not None
        assert () == base.spinning
        assert [] == asked
