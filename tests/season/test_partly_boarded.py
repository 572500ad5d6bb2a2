"""Fewer boards went on than were planned: those under them come off, the others follow."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import ALL_DONE, Plan
from runplanner.daybook.trip import Job
from runplanner.outfit.yards import Clearing
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.outfits import a_yard, an_outfit, daily
from tests.running import at, put_in, stop_with
from tests.season.test_replan import when

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these


def planned(owned: int) -> Plan:
    """Two yards of twelve under so many boards; the second's are those of the first.

    Hives may be opened on days 0, 1, 3 and 4 at the first, on 1, 2, 5 and 6 at the second.
    """
    yards = [
        replace(
            a_yard(number, days=10, colonies=12, boxes=18),
            clearing=Clearing.BOARDS,
            open_spans=daily(8 * 60, 18 * 60, days),
        )
        for number, days in ((1, (0, 1, 3, 4)), (2, (1, 2, 5, 6)))
    ]
    outfit = an_outfit([(10, 0), (40, 5)], yards, days=10)
    return plan_season(
        replace(outfit, kit=replace(outfit.kit, boards_owned=owned)), rounds=20, proof=False
    )


def counted(plan: Plan, boards: int, rounds: int, *more: str) -> tuple[Plan, list[str]]:
    """The plan once so many boards were counted at the first yard, and what the audit says."""
    shift, trip, call, _ = stop_with(Job.BOARDS, plan)
    line = f"done {trip.id} {call.yard}: {boards} boards"
    facts = put_in(line, *more, now=at(shift.end_min + 10), plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=rounds)
    return new, [finding.sentence() for finding in audit(new, facts.plan)]


@pytest.mark.parametrize("rounds", [0, 1])
@pytest.mark.parametrize(
    ("owned", "boards", "lots", "then"),
    [
        (12, 8, [8, 4], 4),
        (14, 8, [6, 6], 4),
        (14, 10, [10, 2], 3),
        (14, 11, [11, 1], 3),
        (12, 10, [10, 2], 4),
    ],
)
def test_who_has_boards_comes_off_as_promised(
    owned: int, boards: int, lots: list[int], then: int, rounds: int
) -> None:
    """Else no boards come home in time for the second yard, and its trip loads what is not there.

    The lots are as the second yard's trip and its blocks are cheapest; all is done.  One or two
    that no board was left for are worth their visit; their boards may be put on at the first.
    """
    plan = planned(owned)
    new, found = counted(plan, boards, rounds)

    assert [] == found
    assert ALL_DONE == new.tally
    assert [(1, lots[0]), (then, lots[1])] == [
        (day, off) for day, _, off in when(new, "yard1", Job.TAKE_OFF)
    ]
    assert when(plan, "yard2", Job.TAKE_OFF) == when(new, "yard2", Job.TAKE_OFF)


@pytest.mark.parametrize("rounds", [0, 1])
def test_a_yard_that_could_not_stay_is_built_in_again(rounds: int) -> None:
    """One board of twelve is lost: the second yard goes later, in two lots, the first goes sooner.

    Each was left whole where its first lot went on the day that costs least.
    """
    new, found = counted(planned(12), 10, rounds, "boards lost 1")

    assert [] == found
    assert ALL_DONE == new.tally
    assert [5, 6] == [day for day, _, _ in when(new, "yard2", Job.TAKE_OFF)]


@pytest.mark.parametrize("boards", [10, 6])
def test_who_has_no_board_is_brushed_at_the_same_stop(boards: int) -> None:
    """Two of twelve are no visit of their own, but at this stop; fed there, none gets a block."""
    plan = planned(12)
    first = replace(plan.outfit.yards[0], clearing_else=Clearing.BRUSH)
    either = replace(plan, outfit=replace(plan.outfit, yards=(first, plan.outfit.yards[1])))
    new, found = counted(either, boards, 1)
    jobs = [one for call in new.shifts[1].trips[0].yards()[:2] for one in call.actions]

    assert [] == found
    assert ALL_DONE == new.tally
    assert [(None, boards), (Clearing.BRUSH, 12 - boards)] == [
        (one.way, one.colonies) for one in jobs if one.job is Job.TAKE_OFF
    ]
    assert Job.BLOCK not in {one.job for one in jobs}
    assert when(plan, "yard2", Job.TAKE_OFF) == when(new, "yard2", Job.TAKE_OFF)


def test_no_truck_goes_out_to_put_no_boards_on() -> None:
    """Eight of twelve lie, and six are lost: the first lot's boards lie already.

    Hives may be opened from day 3 on, so none can be put on before it.
    """
    plan = planned(12)
    days = daily(8 * 60, 18 * 60, (0, 3, 4, 5, 6, 7, 8))
    yards = (replace(plan.outfit.yards[0], open_spans=days), *plan.outfit.yards[1:])
    late = replace(plan, outfit=replace(plan.outfit, yards=yards))
    new, found = counted(late, 8, 0, "boards lost 6")

    assert [] == [one for one in found if "undone" not in one]
    assert 12 == sum(off for _, _, off in when(new, "yard1", Job.TAKE_OFF))
