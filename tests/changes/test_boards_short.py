"""A count that leaves too few boards for a later stop of a trip that is under way."""

from dataclasses import replace

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
    """Three boards lack at yard 2, and so do 3 x 1.5 kg once the honey is off."""
    plan = handed_on()
    done = f"done {second_day(plan).id} Yard 1: 17 colonies 17 boxes"
    facts = put_in(done, now="Tue 10:33", plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    calls = second_day(new).calls
    drives = [leg.load_g for leg in legs(new) if leg.day == 1]

    assert [20, 0] == [call.after.boards for call in second_day(plan).yards()]
    house, store = (call.after for call in calls[-2:])
    assert (-3, -4_500, 0) == (house.boards, house.load_g, house.places)
    assert (0, 0, 0) == (store.boards, store.load_g, store.places)
    assert () == audit(new, facts.plan)
    # Strips, honey and boards, honey less three boards; nothing weighs less than nothing on a map.
    assert [400, 17 * 17_500 + 400, 17 * 16_000 - 4_500 + 400, 0] == drives[:4]


def test_boards_short_at_one_stop_stand_against_that_stop_alone() -> None:
    """Ten boards come back for twelve that go on next; what is brushed after that loses nothing."""
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
    plan = plan_season(outfit, rounds=20, proof=False)
    line = "done 0302-truck1-0715 Yard 1: 10 colonies 10 boxes"
    facts = put_in(line, now="Tue 2 Mar 9:38", plan=plan)
    short, brushed = facts.plan.shifts[1].trips[0].yards()[1:]

    assert "2 boards too few at Yard 2" in facts.notes[-1]
    assert "Yard 3" not in facts.notes[-1]
    assert ((Against.LOAD,), ()) == (short.against, brushed.against)
    assert plan.shifts[1].trips[0].yards()[2].boxes_limit == brushed.boxes_limit
