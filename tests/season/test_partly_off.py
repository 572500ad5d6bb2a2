"""Fewer colonies came off than were planned, some of them fed: the others are never left bare."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import ALL_DONE, Plan, Tally
from runplanner.daybook.trip import Job
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from runplanner.season.standing.facts import standing_of
from runplanner.season.standing.keeper import Keeper
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import a_yard, an_outfit, daily
from tests.running import at, put_in, stop_with
from tests.season.test_replan import when


def counted(feed_days: tuple[int, ...], blocks: int, rounds: int) -> tuple[Plan, list[str]]:
    """Twelve colonies, honey off on day 0 or 2, fed there and then; eight were done on day 0."""
    yard = replace(
        a_yard(1, days=4, colonies=12, boxes=18),
        open_spans=daily(8 * 60, 18 * 60, [0, 2]),
        feed_spans=daily(8 * 60, 18 * 60, feed_days),
        finish_by_day=2,
    )
    outfit = an_outfit([(10, 0)], [yard], days=4)
    outfit = replace(outfit, rules=replace(outfit.rules, blocks=blocks))
    first = replace(yard, open_spans=daily(8 * 60, 18 * 60, [0]))
    plan = plan_season(replace(outfit, yards=(first,)), rounds=3, proof=False)
    plan = replace(plan, outfit=outfit)
    shift, trip, call, _ = stop_with(Job.TAKE_OFF, plan)
    line = f"done {trip.id} {call.yard}: 8 colonies 12 boxes 8 fed no strips"
    facts = put_in(line, now=at(shift.end_min + 10), plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=rounds)
    return new, [finding.sentence() for finding in audit(new, facts.plan)]


@pytest.mark.parametrize("rounds", [0, 4])
@pytest.mark.parametrize("blocks", [0, 1])
def test_the_others_come_off_and_are_fed_in_one_visit(blocks: int, rounds: int) -> None:
    """Eight have had their syrup, so four want theirs, and no block."""
    new, found = counted((0, 2), blocks, rounds)

    assert [] == found
    assert ALL_DONE == new.tally
    assert [(0, 8), (2, 4)] == [(day, off) for day, _, off in when(new, "yard1", Job.TAKE_OFF)]
    assert [(0, 8), (2, 4)] == [(day, fed) for day, _, fed in when(new, "yard1", Job.FEED)]
    assert [] == when(new, "yard1", Job.BLOCK)


@pytest.mark.parametrize("rounds", [0, 4])
def test_what_cannot_be_fed_keeps_its_honey(rounds: int) -> None:
    """No syrup may be poured after day 0, no block is given: four stay as they are.

    4 x 8,000 g are not fed; none of the twelve got strips.
    """
    new, found = counted((0,), 0, rounds)

    assert [] == found
    assert Tally(0, 12, 32_000, 4) == new.tally
    assert [0] == [day for day, _, _ in when(new, "yard1", Job.TAKE_OFF)]


@pytest.mark.parametrize(
    ("counted_off", "stop", "moved"),
    [
        # Two of the four promised are left, or five with one that was counted too many.
        (10, Stop(0, off=2, boxes=3, round=1, fed=2, strips=True), 0),
        (7, Stop(0, off=5, boxes=7, round=1, fed=5, strips=True), 0),
        (8, Stop(0, off=4, boxes=6, round=1, fed=4, strips=True), 0),
        (8, Stop(0, off=4, boxes=6, round=1, fed=4), 1),
        (7, Stop(0, off=3, boxes=4, blocks=3, strips=False), 1),
    ],
)
def test_what_is_left_of_a_promised_take_off_keeps_the_promise(
    counted_off: int, stop: Stop, moved: int
) -> None:
    """Whatever is still owed there is done on its day by its truck; less breaks the promise."""
    plan, _ = counted((0, 2), 1, 0)
    first = plan.shifts[0].trips[0].id
    boxes = -(-3 * counted_off // 2)
    line = f"done {first} yard1: {counted_off} colonies {boxes} boxes {counted_off} fed no strips"
    facts = put_in(line, now=at(plan.now_min + 10), plan=plan)
    ground = Ground(facts.outfit, facts.now_min)
    keeper = Keeper(ground, standing_of(facts.plan, ground, 1))
    judged = keeper.judge(Day(2, 0, ((stop,),)))
    assert judged is not None
    state = keeper.settled({**keeper.standing.driven, (2, 0): judged})

    assert (2, 0) in state.days
    assert moved == state.progress[0].moved
