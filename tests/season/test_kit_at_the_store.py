"""Honey house and feed store lie apart: boards and feeders are at the store once they can be."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed
from runplanner.daybook.plan import ALL_DONE, Plan
from runplanner.daybook.trip import CallKind, Job
from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from runplanner.outfit.yards import Clearing
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from runplanner.season.standing.stores import at_the_store, who_is_short
from runplanner.trips.judged import Moved
from tests.audit.planted import edited
from tests.audit.writing import goods
from tests.outfits import a_truck, a_yard, an_outfit, daily
from tests.running import at, put_in

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

HOUSE = 3


def two_yards(first: tuple[int, ...], second: tuple[int, ...], boards: int) -> Outfit:
    """Two yards of ten with days for hives, under so many boards; the honey house lies apart."""
    yards = [
        replace(
            a_yard(number, days=8), clearing=Clearing.BOARDS, open_spans=daily(480, 1080, days)
        )
        for number, days in ((1, first), (2, second))
    ]  # fmt: skip
    outfit = an_outfit([(10, 0), (14, 0), (-6, 4)], yards, days=8)
    house = replace(outfit.honey_house, base=Base(HOUSE, 0, 1440))
    return replace(outfit, honey_house=house, kit=replace(outfit.kit, boards_owned=boards))


def two_trucks(boards: int) -> Outfit:
    """Two yards of ten under so many boards; the first truck goes on days 0 to 2, then the other.

    The store lies at home, the honey house at a place of its own.
    """
    people = [
        Person(name, name.title(), drives=True, spins=True, mixes=True)
        for name in ("ann", "bob", "cy")
    ]
    trucks = (
        replace(a_truck(1), out_days=(3, 4, 5, 6, 7)), replace(a_truck(2), out_days=(0, 1, 2)),
    )  # fmt: skip
    return replace(two_yards((0, 1), (4, 5), boards), trucks=trucks, people=tuple(people))


def ends(plan: Plan, yard: str) -> list[int]:
    """Where the trip unloads that takes a yard off."""
    for shift in plan.shifts:
        for trip in shift.trips:
            jobs = [a.job for call in trip.yards() if call.yard == yard for a in call.actions]
            if Job.TAKE_OFF in jobs:
                return [call.place for call in trip.calls if call.kind is CallKind.UNLOAD]
    return []


def test_scarce_boards_go_to_the_store_for_another_truck() -> None:
    """Ten boards for twenty colonies: both trips call at the store behind the honey house."""
    plan = plan_season(two_trucks(10), rounds=10, proof=False)

    assert ((), ALL_DONE) == (audit(plan), plan.tally)
    assert [[HOUSE, 0], [HOUSE, 0]] == [ends(plan, "yard1"), ends(plan, "yard2")]


def test_where_there_are_boards_for_all_trips_end_at_the_honey_house() -> None:
    """Twenty boards: nobody waits for those that ride on a truck."""
    plan = plan_season(two_trucks(20), rounds=10, proof=False)

    assert ((), ALL_DONE) == (audit(plan), plan.tally)
    assert [[HOUSE], [HOUSE]] == [ends(plan, "yard1"), ends(plan, "yard2")]


def test_a_plan_that_leans_on_boards_of_a_truck_at_home_is_refused() -> None:
    """Of twenty boards ten are on the first truck, which goes no more: the store has ten."""
    plan = plan_season(two_trucks(20), rounds=10, proof=False)
    few = replace(plan, outfit=replace(plan.outfit, kit=replace(plan.outfit.kit, boards_owned=10)))

    assert "boards owned" in {finding.rule for finding in audit(few)}


@pytest.mark.parametrize(
    ("then", "moves"),
    [
        (Moved(((100, -8), (200, 8)), 100, 0), [(100, 10), (100, -8), (200, 8)]),
        (Moved((), 100, 0), [(100, 10)]),
        (Moved(((150, 3),), 100, 0), [(100, 10), (150, 3)]),
    ],
)
def test_what_is_aboard_is_in_store_when_its_truck_loads(
    then: Moved, moves: list[tuple[int, int]]
) -> None:
    """The first truck came home with ten; the second's own stay out of it."""
    days = {
        (1, 0): then, (0, 0): Moved(((5, -10),), 5, 10), (0, 1): Moved(((5, -1),), 5, 1),
    }  # fmt: skip

    found = list(at_the_store(days))

    assert [(5, -10, (0, 0)), (5, -1, (0, 1))] == found[:2]
    assert [(*move, (1, 0)) for move in moves] == found[2:]


@pytest.mark.parametrize(("store", "short"), [(5, None), (4, (1, 0))])
def test_what_is_aboard_does_not_hide_a_load_that_is_too_much(
    store: int, short: tuple[int, int] | None
) -> None:
    """Ten are out and come in at minute 100; of then 15 or 14 there five were lost, ten load."""
    days = {(0, 0): Moved(((5, -10),), 5, 10), (1, 0): Moved(((100, -10),), 100, 0)}
    loss = (50, 5)

    assert short == who_is_short(store + 10, at_the_store(days), [loss])


def test_boards_lost_while_they_ride_are_loaded_no_more() -> None:
    """The first yard's ten are aboard when five are lost: the second yard's go on five at a time.

    Netted against the next load, ten came in and ten went out, and the audit refused the plan.
    """
    outfit = two_yards((0, 1), (4, 5, 6, 7), boards=10)
    plan = plan_season(outfit, rounds=10, proof=False)
    facts = put_in("boards lost 5", now="2027-03-02 20:00", plan=plan)
    again = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=5, proof=False)

    assert ((), ALL_DONE) == (audit(again, facts.plan), again.tally)
    assert [10, 5, 5] == [
        action.pieces
        for shift in again.shifts
        for trip in shift.trips
        for call in trip.yards()
        for action in call.actions
        if action.job is Job.BOARDS
    ]


@cache
def left_over(end: int) -> Changed:
    """Two yards of ten, fed until day 2; the first truck goes on day 0, the other after that.

    Of the first yard eight are off when the truck comes home: its syrup, feeders and strips were
    not given.  Its trip ends at a place of choice.
    """
    yards = [
        replace(
            a_yard(number, days=8), open_spans=daily(480, 1080, days),
            feed_spans=daily(360, 1200, range(3)),
        )
        for number, days in ((1, (0,)), (2, (1,)))
    ]  # fmt: skip
    outfit = replace(two_trucks(0), yards=tuple(yards))
    first, second = outfit.trucks
    trucks = (replace(first, out_days=tuple(range(1, 8))), replace(second, out_days=(0,)))
    kit = replace(outfit.kit, feeders_owned=20)
    outfit = replace(outfit, trucks=trucks, kit=kit, strips=replace(outfit.strips, stock=60))
    plan = plan_season(outfit, rounds=10, proof=False)
    plan = edited(plan, {
        "shifts.0.trips.0.calls.-1.place": end,
        "outfit.yards.0.open_spans": daily(480, 1080, (0, 1)),
    })  # fmt: skip
    shift = plan.shifts[0]
    line = f"done {shift.trips[0].id} yard1: 8 colonies 12 boxes"
    return put_in(line, now=at(shift.end_min + 5), plan=plan)


def again(facts: Changed, edits: Mapping[str, object]) -> Plan:
    """The plan made again by facts that are told, and then edited."""
    plan = edited(replace(facts.plan, outfit=facts.outfit), edits)
    return replan_season(plan, plan.outfit, facts.now_min, rounds=5, proof=False)


FEEDERS = "outfit.kit.feeders_owned"
AT_THE_STORE = frozenset({
    "boards owned", "feeders owned", "blocks owned", "strips in stock", "syrup in time",
    "syrup wanted", "sugar",
})  # fmt: skip


def short_in(plan: Plan, facts: Changed) -> set[str]:
    """The rules of stocks that a plan made again breaks; the first trip's end is edited."""
    return {one.rule for one in audit(plan, facts.plan)} & AT_THE_STORE


@pytest.mark.parametrize(("end", "owned", "unfed"), [(0, 20, 0), (HOUSE, 20, 10), (HOUSE, 30, 0)])
def test_feeders_for_no_stop_are_aboard_until_their_truck_loads(
    end: int, owned: int, unfed: int
) -> None:
    """Ten of twenty ride on the first truck: the other was sent to load twenty."""
    facts = left_over(end)
    new = again(facts, {FEEDERS: owned})

    assert (80_000 * unfed // 10, set()) == (new.tally.unfed_g, short_in(new, facts))


@pytest.mark.parametrize("end", [0, HOUSE])
def test_a_plan_that_leans_on_feeders_for_no_stop_of_a_truck_at_home_is_refused(end: int) -> None:
    """Made for thirty feeders, and then there are twenty."""
    facts = left_over(end)
    few = edited(again(facts, {FEEDERS: 30}), {"outfit.kit.feeders_owned": 20})

    assert ({"feeders owned"} if end else set()) == short_in(few, facts)


@pytest.mark.parametrize(("end", "mixed"), [(0, [85_000, 85_000]), (HOUSE, [85_000, 170_000])])
def test_syrup_for_no_stop_is_mixed_again_for_another_truck(end: int, mixed: list[int]) -> None:
    """85 L were mixed and ride: of the 170 L for both yards none, or half, stand at the store."""
    facts = left_over(end)
    new = again(facts, {FEEDERS: 30})

    assert (mixed, set()) == ([one.ml for one in new.mixing], short_in(new, facts))


def test_what_a_truck_brings_back_makes_good_what_was_overdrawn() -> None:
    """Of 75 L mixed 85 ride: the ten that nobody had are mixed before the truck's 85 are used."""
    facts = left_over(HOUSE)
    free = {"outfit.trucks.0.out_days": (), "outfit.trucks.1.out_days": tuple(range(8))}
    new = again(facts, {FEEDERS: 30, "mixing.0.ml": 75_000, **free})

    assert ([75_000, 95_000], set()) == ([one.ml for one in new.mixing], short_in(new, facts))


@pytest.mark.parametrize(("end", "unfed_g"), [(0, 0), (HOUSE, 80_000)])
def test_sugar_does_for_syrup_that_is_mixed_again(end: int, unfed_g: int) -> None:
    """Sugar for 170 L, of which the first truck's 85 L are mixed."""
    facts = left_over(end)
    new = again(facts, {FEEDERS: 30, "outfit.feed.sugar_g": 150_469})

    assert (unfed_g, set()) == (new.tally.unfed_g, short_in(new, facts))


@pytest.mark.parametrize(("end", "stock", "without"), [(0, 59, 0), (HOUSE, 60, 0), (HOUSE, 59, 10)])
def test_strips_for_no_stop_are_not_for_another_truck(end: int, stock: int, without: int) -> None:
    """Twenty ride; both yards want forty, of which 59 or 60 in all leave 39 or 40."""
    facts = left_over(end)
    new = again(facts, {FEEDERS: 30, "outfit.strips.stock": stock})

    assert (without, set()) == (new.tally.no_strips, short_in(new, facts))


def test_strips_for_no_stop_are_among_the_reasons() -> None:
    """Of 59 twenty ride and twenty go in: one more and the other yard had its own."""
    facts = left_over(HOUSE)
    edits = {FEEDERS: 30, "outfit.strips.stock": 59}
    plan = edited(replace(facts.plan, outfit=facts.outfit), edits)
    new = replan_season(plan, plan.outfit, facts.now_min, rounds=5)
    (left,) = (one for one in new.undone if one.job is Job.STRIPS)

    assert ["strips of amitraz left over: 19 of 59; wanted here: 20"] == list(map(str, left.why))
    assert 1 == {str(one.what): one.cured for one in new.reliefs}["one more strip of amitraz"]


@pytest.mark.parametrize(("rides", "enough"), [(0, True), (4, True), (5, False)])
def test_blocks_for_no_stop_are_not_for_another_truck(rides: int, *, enough: bool) -> None:
    """With too few feeders 26 blocks are wanted, of thirty; the first truck has some of these.

    What is left over goes to colonies that no syrup comes to.
    """
    facts = left_over(HOUSE)
    left = goods(200_000, 6, ml=85_000, feeders=10, blocks=rides)
    edits = {"shifts.0.trips.0.left": left, "outfit.kit.blocks_owned": 30, FEEDERS: 20}
    new = again(facts, edits)
    used = sum(
        action.pieces
        for shift in new.shifts for trip in shift.trips for call in trip.yards()
        for action in call.actions if action.job is Job.BLOCK
    )  # fmt: skip

    assert (enough, set()) == (used >= 26, short_in(new, facts))
