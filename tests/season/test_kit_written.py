"""Trips that bring kit home, planned again: with the call at the store last, or without."""

from dataclasses import replace
from functools import cache

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import ALL_DONE, Plan
from runplanner.daybook.trip import CallKind
from runplanner.days import DAY_MIN
from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from runplanner.outfit.yards import Clearing, Yard
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import CHEAPEST, LEAST, Upset, replan_season
from runplanner.trips.ground import Ground
from tests.outfits import a_truck, a_yard, an_outfit
from tests.running import put_in

STORE, HOUSE = 0, 3


def apart(boards: int, *, second_from_day: int = 0) -> Outfit:
    """Two yards of 20 under boards, two trucks; honey house and feed store lie apart.

    Where the second yard is ready later, one truck goes out by day 1 and the other from day 2 on.
    """

    def boarded(number: int, ready: int) -> Yard:
        yard = a_yard(number, colonies=20, boxes=20)
        return replace(yard, clearing=Clearing.BOARDS, stores_g=9_000, ready_from_day=ready)

    yards = (boarded(1, 0), boarded(2, second_from_day))
    outfit = an_outfit([(30, 0), (32, 3), (4, 0)], yards)
    early, late = ((2, 3, 4, 5), (0, 1)) if second_from_day else ((), ())
    return replace(
        outfit,
        honey_house=replace(outfit.honey_house, base=Base(HOUSE, 0, DAY_MIN)),
        trucks=(replace(a_truck(1), out_days=early), replace(a_truck(2), out_days=late)),
        people=(*outfit.people, Person("caro", "Caro", drives=True, spins=True, mixes=True)),
        kit=replace(outfit.kit, boards_owned=boards),
    )


@cache
def planned(boards: int, second_from_day: int = 0) -> Plan:
    """A plan with so many boards."""
    outfit = apart(boards, second_from_day=second_from_day)
    return plan_season(outfit, rounds=2, proof=False)


def told(plan: Plan, line: str, upset: Upset = LEAST, now: str = "Mon 05:00") -> Plan:
    """The plan after a line."""
    facts = put_in(line, now=now, plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, upset=upset, rounds=0, proof=False)
    assert () == audit(new, facts.plan)
    return new


def ways(plan: Plan) -> list[list[int]]:
    """The places every trip calls at."""
    return [[call.place for call in trip.calls] for shift in plan.shifts for trip in shift.trips]


def home_last(plan: Plan) -> list[bool]:
    """Whether trips that unload honey go on to the store."""
    unloads = [[p for p in way if p in {STORE, HOUSE}][1:] for way in ways(plan)]
    return [STORE in places for places in unloads if HOUSE in places]


@pytest.mark.parametrize(
    ("boards", "line", "now"),
    [
        # By noon all boards lie at yards.
        (40, "boards lost 1", "Mon 12:00"),
        (39, "boards found 1", "Mon 05:00"),
        (39, "dead 1 Yard 2", "Mon 05:00"),
    ],
)
def test_a_board_more_or_less_changes_no_trip(boards: int, line: str, now: str) -> None:
    """Of 40 colonies each has a board, or one lacks; no load is short either way.

    A plan made anew calls at the store last only where one lacks.
    """
    plan = planned(boards)
    new = told(plan, line, now=now)
    was, scarce = (Ground(one.outfit).kit_scarce[0] for one in (plan, new))

    assert (boards < 40, boards == 40) == (was, scarce)
    assert {was} == set(home_last(plan))
    assert ways(plan) == ways(new)


def test_the_cheapest_plan_goes_by_the_facts() -> None:
    """Nobody waits for the board that turned up: the call at the store is left out."""
    plan = planned(39)
    new = told(plan, "boards found 1", CHEAPEST)

    assert ({True}, {False}) == (set(home_last(plan)), set(home_last(new)))


@pytest.mark.parametrize(("line", "home"), [("boards lost 1", False), ("boards lost 6", True)])
def test_boards_that_another_truck_then_lacks_are_brought_home(line: str, home: bool) -> None:  # noqa: FBT001
    """20 of 45 boards stay aboard a truck that goes out no more: 25 are left, and 20 wanted."""
    plan = planned(45, second_from_day=2)
    new = told(plan, line)

    assert [False, False] == home_last(plan)
    assert home is home_last(new)[0]
    assert ALL_DONE == new.tally
    assert CallKind.UNLOAD is new.shifts[-1].trips[-1].calls[-1].kind
