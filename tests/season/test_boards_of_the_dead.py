"""Colonies die over boards: the yard's last take-off lifts these too, so none is lost."""

from collections.abc import Iterator
from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import ALL_DONE, Plan
from runplanner.daybook.trip import Action, Job
from runplanner.outfit.yards import Clearing
from runplanner.season.replan_season import replan_season
from tests.running import at, put_in, stop_with
from tests.season.test_partly_boarded import planned

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these


def take_offs(plan: Plan, yard: str) -> Iterator[Action]:
    """The take-offs of a yard, in order."""
    for shift in plan.shifts:
        for trip in shift.trips:
            for call in trip.yards():
                found = (one for one in call.actions if one.job is Job.TAKE_OFF)
                yield from (one for one in found if call.yard == yard)


def again(plan: Plan, minute: int, *lines: str) -> Plan:
    """The plan made again with these lines, the audit content."""
    facts = put_in(*lines, now=at(minute), plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
    return new


def boarded(plan: Plan) -> tuple[str, int]:
    """The trip that puts boards on at the first yard, and when they lie there."""
    shift, trip, _, _ = stop_with(Job.BOARDS, plan)
    return trip.id, shift.end_min + 10


@pytest.mark.parametrize("dead", [1, 3])
def test_all_boards_come_home_for_the_next_yard(dead: int) -> None:
    """Twelve are all there are, and the second yard of twelve wants every one."""
    plan = planned(12)
    _, minute = boarded(plan)

    new = again(plan, minute, f"dead {dead} Yard 1")

    assert ALL_DONE == new.tally
    assert [(12 - dead, 12)] == [(one.colonies, one.boards_off) for one in take_offs(new, "yard1")]
    assert [(12, 12)] == [(one.colonies, one.boards_off) for one in take_offs(new, "yard2")]


def test_a_plan_that_leaves_them_is_refused() -> None:
    """Nine come back where twelve lie."""
    new = again(planned(12), boarded(planned(12))[1], "dead 3 Yard 1")

    def left(action: Action) -> Action:
        return replace(action, boards_off=min(9, action.boards_off))

    shifts = tuple(
        replace(shift, trips=tuple(
            replace(trip, calls=tuple(
                replace(call, actions=tuple(map(left, call.actions))) for call in trip.calls
            )) for trip in shift.trips
        )) for shift in new.shifts
    )  # fmt: skip

    assert "board count" in [finding.rule for finding in audit(replace(new, shifts=shifts))]


def test_deaths_told_while_the_crew_is_there_lose_no_board() -> None:
    """The take-off is driven as planned; nine are counted afterwards, and none is left on."""
    plan = planned(12)
    shift, trip, _, _ = stop_with(Job.TAKE_OFF, plan)
    dead = again(plan, shift.start_min + 10, "dead 3 Yard 1")

    new = again(dead, shift.end_min + 10, f"done {trip.id} Yard 1: 9 colonies")

    assert [(9, 12)] == [(one.colonies, one.boards_off) for one in take_offs(new, "yard1")]
    assert ALL_DONE == new.tally


def test_who_is_left_on_keeps_a_board() -> None:
    """Of nine that lived five were counted off: four boards stay, and come with them."""
    plan = planned(12)
    dead = again(plan, boarded(plan)[1], "dead 3 Yard 1")
    shift, trip, _, _ = stop_with(Job.TAKE_OFF, dead)

    new = again(dead, shift.end_min + 10, f"done {trip.id} Yard 1: 5 colonies")

    assert [(5, 8), (4, 4)] == [(one.colonies, one.boards_off) for one in take_offs(new, "yard1")]


def test_boards_of_before_the_campaign_come_home_as_well() -> None:
    """They lie in the whole yard; three of its colonies die."""
    plan = planned(12)
    facts = put_in("dead 3 Yard 1", now=at(1), plan=lain(plan))

    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)

    assert [] == [finding.sentence() for finding in audit(new, facts.plan)]
    assert 12 == sum(one.boards_off for one in take_offs(new, "yard1"))
    assert ALL_DONE == new.tally


def lain(plan: Plan) -> Plan:
    """The plan with nothing driven, its boards in the first yard since the day before."""
    yards = tuple(
        replace(one, boards_on_min=-960) if one.id == "yard1" else one for one in plan.outfit.yards
    )
    outfit = replace(plan.outfit, yards=yards)
    assert all(one.clearing is Clearing.BOARDS for one in yards)
    return replan_season(plan, outfit, 0, rounds=0)
