"""A promised visit is as large as its yard now is, and stays where it was."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.differences import differences
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.yards import Clearing
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from runplanner.season.standing.facts import promised_days
from runplanner.season.standing.sizes import Sizes
from runplanner.trips.ground import Ground
from runplanner.visits.chain import Chain
from runplanner.visits.stop import Stop, Visit
from tests.outfits import a_yard, an_outfit
from tests.running import at, put_in, running_plan, wet_plan
from tests.season.shapes import DONE

WEDNESDAY, EVENING = "Wed 3 Mar 12:00", "Thu 4 Mar 19:00"


def done_at(plan: Plan, yard: str, now_min: int) -> dict[Job, Action]:
    """What is still to do at a yard, by job."""
    return {
        action.job: action
        for shift in plan.shifts
        for trip in shift.trips
        for call in trip.calls
        for action in call.actions
        if call.yard == yard and call.start_min > now_min
    }


@pytest.mark.parametrize(
    ("now", "line", "yard", "off", "boxes", "boards_off"),
    [
        # The boxes of the dead come off with the others.
        (WEDNESDAY, "dead 2 Old Mill", "mill", 22, 40, 22),
        # 24 boards were put on the day before: two lie where colonies died.
        (EVENING, "dead 2 Old Mill", "mill", 22, 40, 24),
        (WEDNESDAY, "dead 1 Creek Mouth", "creek-mouth", 9, 15, 0),
        (EVENING, "boxes left 30 Old Mill", "mill", 24, 30, 24),
    ],
)
def test_fewer_colonies_or_boxes_move_no_visit(
    now: str, line: str, yard: str, off: int, boxes: int, boards_off: int
) -> None:
    """All visits of all yards are on their day and truck before any search."""
    facts = put_in(line, now=now)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0, proof=False)
    one = done_at(new, yard, facts.now_min)[Job.TAKE_OFF]

    assert (DONE, 0, ()) == (new.tally, differences(facts.plan, new).visits_moved(), audit(new))
    assert (off, boxes, boards_off) == (one.colonies, one.boxes, one.boards_off)


@pytest.mark.parametrize("dead", [1, 2])
def test_feeders_of_fewer_colonies_are_fetched_as_promised(dead: int) -> None:
    """Of ten colonies some died before syrup: so many feeders less stand there, on the same day.

    The second yard waits for them: put off, they would cost it its syrup.
    """
    yards = [a_yard(number, days=14) for number in (1, 2)]
    outfit = an_outfit([(10, 0), (14, 0)], yards, days=14)
    outfit = replace(outfit, kit=replace(outfit.kit, feeders_owned=12))
    plan = plan_season(outfit, rounds=10, proof=False)
    first = plan.shifts[0]
    call = next(call for call in first.trips[0].calls if call.yard)
    fed = 10 - dead
    lines = (f"done {first.trips[0].id} {call.yard}: {fed} fed", f"dead {dead} {call.yard}")
    facts = put_in(*lines, now=at(first.end_min + 1), plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0, proof=False)

    days = promised_days(facts.plan, Ground(facts.outfit, facts.now_min)).values()

    assert 10 == done_at(plan, call.yard, facts.now_min)[Job.FEEDERS].feeders_off
    assert {0, fed} == {s.feeders_off for day in days for trip in day.trips for s in trip}
    assert fed == done_at(new, call.yard, facts.now_min)[Job.FEEDERS].feeders_off
    assert (DONE, 0, ()) == (new.tally, differences(facts.plan, new).visits_moved(), audit(new))


@pytest.mark.parametrize("plan", [running_plan(), wet_plan()])
@pytest.mark.parametrize("now_min", [0, 4_900, 6_200, 7_600])
def test_with_nothing_new_visits_are_as_large_as_they_were(plan: Plan, now_min: int) -> None:
    """Boards, take-offs, feed, feeders and wet boxes that went in or are still to come."""
    promised = promised_days(plan, Ground(plan.outfit, now_min))
    found = [
        (stop.boards, stop.off, stop.boxes, stop.blocks, stop.fed, stop.feeders_off,
         stop.wet_up, stop.wet_down)
        for _, day in sorted(promised.items()) for trip in day.trips for stop in trip
    ]  # fmt: skip
    actions = [
        call.actions
        for shift in sorted(plan.shifts, key=lambda one: (one.day, one.truck))
        for trip in shift.trips
        for call in trip.yards()
        if shift.start_min > now_min
    ]

    assert [
        (
            sum(a.colonies for a in mine if a.job is Job.BOARDS),
            sum(a.colonies for a in mine if a.job is Job.TAKE_OFF),
            sum(a.boxes for a in mine),
            sum(a.pieces for a in mine if a.job is Job.BLOCK),
            sum(a.colonies for a in mine if a.job is Job.FEED),
            sum(a.feeders_off for a in mine),
            sum(a.wet for a in mine if a.job is Job.WET_UP),
            sum(a.wet for a in mine if a.job is Job.WET_DOWN),
        )
        for mine in actions
    ] == found


def test_blocks_are_those_of_colonies_that_are_off_and_not_fed() -> None:
    """Of ten colonies six come off with a block each; of eight that live, two are left to come."""
    outfit = an_outfit([(10, 0)], [a_yard(1, colonies=8, boxes=16)])
    each = outfit.rules.blocks
    sizes = Sizes(Ground(outfit))
    sizes.driven(Stop(0, off=6, boxes=12, blocks=6 * each))
    left = sizes.promised(Stop(0, off=4, boxes=8, blocks=4 * each))

    assert Stop(0, off=2, boxes=4, blocks=2 * each) == left
    assert Stop(0, blocks=8) == sizes.promised(Stop(0, blocks=10))
    assert Stop(0, blocks=16, each=2) == sizes.promised(Stop(0, blocks=20, each=2))
    assert Stop(0, round=1, fed=5) == sizes.promised(Stop(0, round=1, fed=5))
    assert Stop(0, blocks=3) == sizes.promised(Stop(0, blocks=5))
    assert Stop(0, round=1, fed=3) == sizes.promised(Stop(0, round=1, fed=5))
    assert sizes.promised(Stop(0, off=1, boxes=2, round=1, fed=1)).idle


BRUSHED = Stop(0, off=12, boxes=24, blocks=12, other=True)


@pytest.mark.parametrize(
    ("stops", "boards"),
    [
        # Boards for those that are not brushed alone; who has one is not brushed.
        (((600, BRUSHED), (700, Stop(0, boards=12))), 10),
        (((500, Stop(0, boards=12)), (600, BRUSHED)), 12),
    ],
)
def test_a_yard_cleared_two_ways_keeps_its_visits(
    stops: tuple[tuple[int, Stop], ...], boards: int
) -> None:
    """24 colonies, 12 brushed and 12 by boards the next day; of the 22 that live none is left."""
    yard = replace(a_yard(1, colonies=22, boxes=48), clearing=Clearing.BOARDS,
                   clearing_else=Clearing.BRUSH)  # fmt: skip
    ground = Ground(an_outfit([(10, 0)], [yard]))
    sizes, visits = Sizes(ground), list[Visit]()
    for minute, stop in (*stops, (DAY_MIN + 800, Stop(0, off=12, boxes=24, round=1, fed=24))):
        sized = sizes.promised(stop)
        visits.append(Visit(minute, minute + 60, minute + 60, sized, minute // DAY_MIN, 0))
    chain = Chain(ground.outfit, yard, ground.dues[0]).read(visits)

    assert (22, 0) == (chain.off, chain.lacking)
    assert boards == sum(visit.stop.boards for visit in visits)
    assert 22 - boards == sum(visit.stop.off for visit in visits if visit.stop.other)
