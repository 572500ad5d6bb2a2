"""A truck is out, and what it has still to load is not all there: its day is fact, others go on."""

from dataclasses import replace
from functools import cache

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan, Tally
from runplanner.daybook.trip import Job
from runplanner.errors import PlanError
from runplanner.outfit.outfit import Outfit
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.outfits import a_yard, an_outfit
from tests.running import put_in
from tests.season.shapes import DONE

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

DAYS = 6
SPOTS = [(10, 0), (14, 0), (-12, 3), (-16, 2)]
AT_NINE = "2027-03-01 9:00"


def four_loads(*, blocks: bool = False) -> Outfit:
    """Four yards of 55 boxes: a load each, two on a day.

    With blocks, the first two yards are to be taken off on day 0, and nobody is fed on it.
    """
    yards = [a_yard(number + 1, boxes=55, days=DAYS) for number in range(len(SPOTS))]
    if blocks:
        yards = [replace(yard, feed_spans=yard.feed_spans[1:]) for yard in yards]
        yards[:2] = [replace(yard, open_spans=yard.open_spans[:1]) for yard in yards[:2]]
    outfit = an_outfit(SPOTS, yards, days=DAYS)
    return replace(outfit, strips=replace(outfit.strips, stock=80))


@cache
def two_trips_a_day(*, blocks: bool = False) -> Plan:
    """At 9:00 on day 0 the truck is on its first trip, and has not loaded for its second."""
    plan = plan_season(four_loads(blocks=blocks), rounds=0, proof=False)

    assert DONE == plan.tally
    assert (0, 2) == (plan.shifts[0].day, len(plan.shifts[0].trips))
    return plan


def again(plan: Plan, *lines: str) -> tuple[Plan, tuple[str, ...]]:
    """The plan made again at 9:00 after lines, which breaks no rule, and the notes."""
    facts = put_in(*lines, now=AT_NINE, plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1, proof=False)

    assert [] == [one.sentence() for one in audit(new, facts.plan) if one.rule != "undone"]
    return new, facts.notes


def jobs(plan: Plan) -> list[tuple[int, str, Job]]:
    """What is done, on which day and where, but strips."""
    calls = ((shift.day, c) for shift in plan.shifts for t in shift.trips for c in t.yards())
    return [(d, c.yard, a.job) for d, c in calls for a in c.actions if a.job is not Job.STRIPS]


@pytest.mark.parametrize("left", range(0, 86, 17))
def test_syrup_that_a_truck_has_still_to_load_stops_no_later_trip(left: int) -> None:
    """It loads 85 l at 11:58; what it does not find is mixed no more, and the rest is."""
    plan = two_trips_a_day()
    new, notes = again(plan, f"syrup left {left} L")
    short = (
        f"Truck 1 is out, and it is to load 85 L of syrup at 11:58, with only {left} in store: "
        "'skip Yard 2' calls that trip off"
    )

    assert (DONE, jobs(plan)) == (new.tally, jobs(new))
    assert ((short,) if left < 85 else ()) == notes


@pytest.mark.parametrize("day", [1, 2, 3])
@pytest.mark.parametrize("left", [0, 30, 120])
def test_syrup_lost_after_it_was_mixed_is_mixed_again(day: int, left: int) -> None:
    """Nobody knows when it went: what loads found before it is past, and is not lent again."""
    outfit = four_loads()
    feed = replace(outfit.feed, ready_ml=85_000)
    plan = plan_season(replace(outfit, feed=feed), rounds=0, proof=False)
    facts = put_in(f"syrup left {left} L", now=f"2027-03-{day:02} 20:00", plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1, proof=False)

    assert [] == [one.sentence() for one in audit(new, facts.plan) if one.rule != "undone"]


@pytest.mark.parametrize("left", range(21))
def test_strips_that_a_truck_has_still_to_load_stop_no_later_trip(left: int) -> None:
    """It loads 20 strips; the two yards after it get none, and everything else."""
    plan = two_trips_a_day()
    new, notes = again(plan, f"strips left {left}")

    assert (Tally(0, 20, 0, 0), jobs(plan)) == (new.tally, jobs(new))
    assert (left < 20) == any("to load 20 strips at 11:58" in note for note in notes)


@pytest.mark.parametrize("left", range(11))
def test_blocks_that_a_truck_has_still_to_load_stop_no_later_trip(left: int) -> None:
    """It loads ten blocks for Yard 2; yards taken off on the next day are fed at once."""
    new, notes = again(two_trips_a_day(blocks=True), f"blocks left {left}")

    assert DONE == new.tally
    assert (left < 10) == any("to load 10 blocks at" in note for note in notes)


@pytest.mark.parametrize(("left", "without"), [(19, 60), (20, 40), (39, 40), (40, 20)])
def test_the_line_that_is_given_leaves_the_trip_s_goods_to_others(left: int, without: int) -> None:
    """With the trip called off three yards are left, and strips for none, one or two of them."""
    new, notes = again(two_trips_a_day(), f"strips left {left}", "skip Yard 2")

    assert not any("in store" in note for note in notes)
    assert Tally(0, without // 2, 0, 0) == new.tally


def test_honey_that_nobody_can_ever_spin_is_said_so() -> None:
    """A plan cannot be made, in words; nothing is left unspun in silence."""
    plan = two_trips_a_day()
    people = tuple(replace(one, spins=False) for one in plan.outfit.people)
    outfit = replace(plan.outfit, people=people)

    with pytest.raises(PlanError, match="can never be spun"):
        replan_season(plan, outfit, 540, rounds=1, proof=False)
