"""A count that leaves too few boards for a later stop of a trip that has loaded."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Against, Trip
from runplanner.days import DAY_MIN
from runplanner.outfit.bases import Base
from runplanner.outfit.people import Person
from runplanner.outfit.yards import Clearing
from runplanner.paperwork.map.legs import legs
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.changes.counted import again
from tests.outfits import a_truck, a_yard, an_outfit
from tests.running import put_in


def handed_on() -> Plan:
    """Two yards, 22 boards, honey house apart: on day 1 yard 1 gives back 20, which yard 2 gets."""
    yards = [
        replace(a_yard(n, colonies=20, boxes=20), clearing=Clearing.BOARDS, stores_g=9_000)
        for n in (1, 2)
    ]
    outfit = an_outfit([(30, 0), (32, 3), (0, 12)], yards)
    outfit = replace(
        outfit,
        honey_house=replace(outfit.honey_house, base=Base(3, 0, DAY_MIN)),
        trucks=(a_truck(1), replace(a_truck(2), drivers=("ann", "caro"))),
        people=(*outfit.people, Person("caro", "Caro", drives=True, spins=True, mixes=True)),
        kit=replace(outfit.kit, boards_owned=22, boards_per_place=2),
    )
    return plan_season(outfit, rounds=3, proof=False)


def second_day(plan: Plan) -> Trip:
    """The trip of day 1."""
    return next(shift.trips[0] for shift in plan.shifts if shift.day == 1)


def test_boards_short_still_lack_where_honey_is_unloaded_apart() -> None:
    """Counted, three boards lack at yard 2; what is not aboard takes no mass off the rest."""
    plan = handed_on()
    one, two = (f"done {second_day(plan).id} Yard {number}: " for number in (1, 2))
    facts = put_in(f"{one}17 colonies 17 boxes", f"{two}20 boards", now="Tue 18:00", plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    calls = second_day(new).calls
    drives = [leg.load_g for leg in legs(new) if leg.day == 1]

    assert [20, 0] == [call.after.boards for call in second_day(plan).yards()]
    house, store = (call.after for call in calls[-2:])
    assert (-3, 0, 0) == (house.boards, house.load_g, house.places)
    assert (0, 0, 0) == (store.boards, store.load_g, store.places)
    assert () == audit(new, facts.plan)
    # Strips, honey and boards, honey; strips that nobody used.
    assert [400, 17 * 17_500 + 400, 17 * 16_000 + 400, 400] == drives[:4]


def three_yards() -> Plan:
    """On Tuesday twelve boards come back at the first yard and go on at the second of three."""
    yards = [
        replace(
            a_yard(number, colonies=12, boxes=12), stores_g=9_000,
            clearing=Clearing.BOARDS if number < 3 else Clearing.BRUSH,
            ready_from_day=1 if number == 3 else 0,
        )
        for number in (1, 2, 3)
    ]  # fmt: skip
    outfit = an_outfit([(30, 0), (32, 3), (31, 1)], yards)
    outfit = replace(outfit, kit=replace(outfit.kit, boards_owned=14))
    return plan_season(outfit, rounds=20, proof=False)


ONE = "done 0302-truck1-0715 Yard 1"


@pytest.mark.parametrize("now", ["Tue 2 Mar 9:38", "Tue 2 Mar 20:00"])
def test_boards_that_nobody_counted_go_on_as_far_as_some_are_aboard(now: str) -> None:
    """Ten boards come back for twelve that go on next; what is brushed after that loses nothing."""
    plan = three_yards()
    facts = put_in(f"{ONE}: 10 colonies 10 boxes", now=now, plan=plan)
    short, brushed = facts.plan.shifts[1].trips[0].yards()[1:]
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)

    assert any("than are aboard: 10, not 12 (0302-truck1-0715)" in note for note in facts.notes)
    assert (10, 0) == (short.actions[0].pieces, short.after.boards)
    assert ((), ()) == (short.against, brushed.against)
    assert plan.shifts[1].trips[0].yards()[2].boxes_limit == brushed.boxes_limit
    assert () == audit(new, facts.plan)


def test_where_no_board_came_back_none_goes_on_and_the_stop_can_be_left_out() -> None:
    """Nothing was done at the first yard, so nothing is to be done at the second."""
    facts = put_in(f"{ONE}: nothing", now="Tue 2 Mar 9:38", plan=three_yards())
    short = facts.plan.shifts[1].trips[0].yards()[1]

    assert ((), (Against.NOTHING,)) == (short.actions, short.against)
    assert "nothing is to be done at Yard 2: 'skip Yard 2' fits" in facts.notes[-1]


def test_boards_that_a_count_had_cut_are_laid_once_it_is_put_right() -> None:
    """Twelve were off after all."""
    plan = three_yards()
    first = put_in(f"{ONE}: 10 colonies 10 boxes", now="Tue 2 Mar 20:00", plan=plan)
    put_right = again(first, f"{ONE}: 12 colonies 12 boxes")
    stop = put_right.plan.shifts[1].trips[0].yards()[1]

    assert not any("are aboard" in note for note in put_right.notes)
    assert (plan.shifts[1].trips[0].yards()[1].actions, ()) == (stop.actions, stop.planned)
