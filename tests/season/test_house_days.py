"""Spinning is looked for on the days on which there is something to spin, and on no other."""

from dataclasses import replace

import pytest

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.season.standing.base_days import Calls
from runplanner.season.standing.base_work import BaseWork, Mix
from runplanner.season.standing.floor import Lot, Spin
from runplanner.season.standing.house import House
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


def _driven(boxes: int, at: int = 720) -> Lot:
    """Boxes off at 10:00 on day 0 that come in at noon; their truck has left home."""
    return Lot(at, 0, boxes, 600, 0, fact=True)


def _hasty(spin_by_min: int, *, late_cents: int = 50) -> Outfit:
    """Yard 1's honey spoils so many minutes after it is off."""
    outfit = an_outfit(days=2)
    first, *rest = outfit.yards
    first = replace(first, spin_by_hard=True, spin_by_min=spin_by_min)
    prices = replace(outfit.prices, spin_late_cents=late_cents)
    return replace(outfit, yards=(first, *rest), prices=prices)


@pytest.mark.parametrize("fact", [True, False])
def test_honey_on_the_way_is_spun_before_it_spoils(*, fact: bool) -> None:
    """60 boxes from 12:00: one person begins the last at 720 + 59 x 5 = 1,015, two at 897.

    Two cost a fifth more a box; late boxes would cost nothing here.
    """
    base, _ = _worked(_hasty(297, late_cents=0), [_driven(60)._replace(fact=fact)])

    assert base is not None
    assert [(720, 900, (0, 1))] == [(s.start_min, s.end_min, s.people) for s in base.spinning]


def test_honey_on_the_way_that_must_spoil_does_so_as_little_as_can_be() -> None:
    """Due at 896, and two begin the last box at 897: one box a day late.

    One person would cost less: 300 min, and 24 boxes begun after 896; two cost
    2 x 180 x 50 + 50 = 18,050.
    """
    base, _ = _worked(_hasty(296), [_driven(60)])

    assert base is not None
    assert [(0, 1)] == [s.people for s in base.spinning]
    assert 18_050_000 == base.milli_cents
    assert (None, [0, 0]) == _worked(_hasty(296), [_driven(60)._replace(fact=False)])


def test_room_is_made_for_boxes_on_the_way() -> None:
    """60 come at 12:00 and 60 at 16:00; one person has spun 48 by then, two all 60."""
    outfit = an_outfit(days=2)
    tight = replace(outfit, honey_house=replace(outfit.honey_house, room_boxes=60))
    lots = [_driven(60), _driven(60, 960)]
    (wide, _), (narrow, _) = _worked(outfit, lots), _worked(tight, lots)

    assert wide is not None
    assert narrow is not None
    assert {1} == {len(s.people) for s in wide.spinning}
    assert {2} == {len(s.people) for s in narrow.spinning}


def _mixed_from(
    now_min: int, *, spun: tuple[Spin, ...] = (), mixed: tuple[Mix, ...] = (), most: int = 10**6
) -> tuple[Mix, ...] | None:
    """What is still mixed for 40 l that are loaded at 6:00 on day 1; Bob mixes, an hour 200 l."""
    outfit = an_outfit(days=3)
    ann, bob = outfit.people
    outfit = replace(
        outfit,
        people=(replace(ann, mixes=False), bob),
        feed=replace(outfit.feed, ready_ml=0, mix_ml_per_h=200_000, mix_ml_per_day=most),
    )
    ground = Ground(outfit, now_min)
    past = BaseWork(mixed, spun, 0)
    made = sum(mix.ml for mix in mixed)
    house = House(ground, Roster(ground, past))
    base = house.work(Calls({}, {}, [], [(DAY_MIN + 360, 40_000 + made)]))
    return None if base is None else base.mixing[len(mixed) :]


def test_syrup_is_mixed_in_what_is_left_of_the_half_day() -> None:
    """40 l take 12 minutes, from 14:00 on as well as from 8:00; at 18:00 the day is over."""
    assert (Mix(841, 853, 1, 40_000),) == _mixed_from(840)
    assert (Mix(1_060, 1_072, 1, 40_000),) == _mixed_from(1_059)
    assert _mixed_from(1_080) is None


def test_who_has_spun_in_a_half_day_mixes_nothing_in_it() -> None:
    """Bob spun from 12:00; in the morning's rest he would still mix, the afternoon is gone."""
    assert _mixed_from(840, spun=(Spin(720, 780, (1,), 12),)) is None
    assert (Mix(841, 853, 1, 40_000),) == _mixed_from(840, spun=(Spin(480, 540, (1,), 12),))


def test_what_was_mixed_today_counts_towards_the_day() -> None:
    """50 l a day at most: 10 were mixed in the morning, so that 40 still may; with 11 not."""
    for ml, still in ((10_000, (Mix(841, 853, 1, 40_000),)), (11_000, None)):
        assert still == _mixed_from(840, mixed=(Mix(480, 484, 1, ml),), most=50_000)


@pytest.mark.parametrize("now_min", range(500, 1_080, 20))
def test_nothing_new_changes_nobody_who_spins(now_min: int) -> None:
    """Ann spins 12 boxes from 8:00, Bob those of 12:00 and of 16:00; so it stays all day long.

    Bob, who stands there at 13:00, is not sent home because he has spun since noon.
    """
    outfit = an_outfit(days=2)
    lots = [Lot(at, 0, 12, 400, 0) for at in (480, 720, 960)]
    base, _ = _worked(outfit, lots)
    assert base is not None
    assert [(0,), (1,), (1,)] == [spin.people for spin in base.spinning]

    ground = Ground(outfit, now_min)
    begun = tuple(spin for spin in base.spinning if spin.start_min <= now_min)
    house = House(ground, Roster(ground, BaseWork((), begun, 0)))
    again = house.work(Calls({}, {}, lots, []))
    assert again is not None
    assert base.spinning == again.spinning


def test_nobody_is_rung_up_as_who_spins_is_due_a_break() -> None:
    """Ann has spun from noon to 18:00, and the house shuts at 18:30: the rest waits, as planned."""
    outfit = an_outfit()
    house = replace(outfit.honey_house, spin_to_min=18 * 60 + 30)
    outfit = replace(outfit, honey_house=house)
    lots = [Lot(720, 0, 60, 400, 0), Lot(780, 0, 18, 400, 0)]
    base, _ = _worked(outfit, lots)
    assert base is not None
    first, second, rest = base.spinning
    assert [(0,), (720, 1020, 1080)] == [
        first.people,
        (first.start_min, second.start_min, second.end_min),
    ]
    assert rest.start_min > DAY_MIN

    ground = Ground(outfit, 1050)
    again = House(ground, Roster(ground, BaseWork((), (first, second), 0))).work(
        Calls({}, {}, lots, [])
    )
    assert again is not None
    assert base.spinning == again.spinning


@pytest.mark.parametrize("counted", [12, 9, 0])
def test_fewer_boxes_leave_the_afternoon_to_whom_it_was_promised(counted: int) -> None:
    """Bob spins 12 boxes of noon, as Ann has the morning's; of those there are fewer, or none.

    With none to spin in the morning the turn would be Ann's at noon, and two would be rung up.
    """
    outfit = an_outfit(days=2)
    lots = [Lot(at, 0, 12, 400, 0) for at in (480, 720)]
    base, _ = _worked(outfit, lots)
    assert base is not None
    assert [(0,), (1,)] == [spin.people for spin in base.spinning]

    ground = Ground(outfit)
    fewer = Calls({}, {}, [*([lots[0]._replace(boxes=counted)] if counted else ()), lots[1]], [])
    again = House(ground, Roster(ground), promised=base.spinning).work(fewer)
    assert again is not None
    assert (1,) == again.spinning[-1].people
    anew = House(ground, Roster(ground)).work(fewer)
    assert anew is not None
    assert ((1,) if counted else (0,)) == anew.spinning[-1].people
