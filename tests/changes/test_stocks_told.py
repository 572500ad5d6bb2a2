"""A stock that was counted holds, whatever is told later, and in whichever order."""

from contextlib import nullcontext
from dataclasses import replace
from functools import cache

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Action, Against, Job, Spare, Trip
from runplanner.errors import ScenarioError
from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Counted
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.audit.planted import edited
from tests.changes.test_kit_told import few_boards, going_round
from tests.outfits import a_truck, a_yard, an_outfit, daily
from tests.running import at, put_in, running_plan, stop_with, wet_plan
from tests.season.test_feeders import calls
from tests.season.test_kit_at_the_store import FEEDERS, again, left_over, two_trucks, two_yards

OUT = "Thu 4 Mar 9:00"
"""Red is at Creek Mouth; syrup and strips for Fernbank, the stop after it, are aboard."""
AFTER = "Fri 5 Mar 6:00"
"""Red is home, Friday's trip has not left."""
NOTHING = "done 0304-truck2-0716 Fernbank: nothing"
FRIDAY = "Fri 5 Mar 14:00"
"""All are home."""
COUNTS = ("strips left 48", "syrup left 200 L", "sugar left 100 kg", "blocks left 7")


def then(first: Changed, *lines: str, now: str = "") -> Changed:
    """The campaign with lines typed in a later call."""
    plan = replace(first.plan, outfit=first.outfit, now_min=first.now_min)
    return put_in(*lines, now=now, plan=plan_from_text(plan_text(plan)))


def stocks(facts: Changed) -> tuple[object, ...]:
    """All that a count can tell; syrup ready at first and syrup mixed are one."""
    outfit, kit = facts.outfit, facts.outfit.kit
    kinds = (outfit.strips, *outfit.strips_also)
    syrup = outfit.feed.ready_ml + sum(one.ml for one in facts.plan.mixing)
    strips = [kind.stock for kind in kinds]
    return (kit.blocks_owned, kit.feeders_now, strips, syrup, outfit.feed.sugar_g)


def with_blocks() -> Plan:
    """The running plan, with ten blocks given at each of Red's two take-offs on Thursday."""
    plan = running_plan()
    block = Action(Job.BLOCK, 10, pieces=10)
    shift = plan.shifts[0]
    trip = shift.trips[0]
    told = tuple(
        replace(call, actions=(*call.actions, block))
        if any(one.job is Job.TAKE_OFF for one in call.actions) else call
        for call in trip.calls
    )  # fmt: skip
    shift = replace(shift, trips=(replace(trip, calls=told),))
    kit = replace(plan.outfit.kit, blocks_owned=60)
    return replace(plan, outfit=replace(plan.outfit, kit=kit), shifts=(shift, *plan.shifts[1:]))


@pytest.mark.parametrize("count", COUNTS)
def test_a_stop_told_after_a_count_leaves_in_store_what_was_counted(count: str) -> None:
    """Nothing was done at Fernbank: what it was to get was in store when that was counted."""
    plan = with_blocks()
    later = then(put_in(count, now=AFTER, plan=plan), NOTHING)

    assert stocks(put_in(NOTHING, count, now=AFTER, plan=plan)) == stocks(later)
    assert stocks(then(put_in(NOTHING, now=AFTER, plan=plan), count)) == stocks(later)
    assert stocks(put_in(count, now=AFTER, plan=plan)) == stocks(
        then(later, NOTHING.replace("nothing", "10 colonies 85 litres strips 10 blocks"))
    )


def test_strips_left_are_as_many_as_were_counted() -> None:
    """48 in store and 20 in at Creek Mouth make 68; of the 40 loaded 20 came home again."""
    facts = then(put_in("strips left 48", now=AFTER), NOTHING)

    assert (68, (Counted("strips amitraz", 6120, 20),)) == (
        facts.outfit.strips.stock, facts.outfit.counted,
    )  # fmt: skip


@pytest.mark.parametrize("count", COUNTS)
@pytest.mark.parametrize("told", ["home Red", "skip Fernbank"])
def test_what_is_aboard_comes_home_on_top(told: str, count: str) -> None:
    """Counted before the truck is told, after, or at once."""
    plan = with_blocks()
    at_once = put_in(told, count, now=OUT, plan=plan)

    assert stocks(then(put_in(count, now=OUT, plan=plan), told)) == stocks(at_once)
    assert stocks(then(put_in(told, now=OUT, plan=plan), count)) == stocks(at_once)
    assert stocks(then(put_in(count, now=OUT, plan=plan), NOTHING, now=AFTER)) == stocks(at_once)


def test_strips_aboard_serve_the_yard_left_out() -> None:
    """48 in store and 20 come home: enough for the mill's 24 colonies and Fernbank's ten."""
    facts = put_in("home Red", "strips left 48", now=OUT)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=2, proof=False)

    assert 48 + 40 == facts.outfit.strips.stock
    assert ((), 0) == (audit(new, facts.plan), new.tally.no_strips)


def test_strips_aboard_are_known_by_their_substance() -> None:
    """Fernbank's are of thymol: left out they come home to those, and amitraz has none of them."""
    plan = running_plan()
    thymol = replace(plan.outfit.strips, substance="thymol", id="mild")
    yards = tuple(replace(one, strips="mild" if one.id == "fernbank" else one.strips)
                  for one in plan.outfit.yards)  # fmt: skip
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards, strips_also=(thymol,)))
    counts = ("strips left 5 thymol", "strips left 48 amitraz")
    later = then(put_in("skip Fernbank", now=OUT, plan=plan), *counts)

    assert (Spare("thymol", 20),) == later.plan.shifts[0].trips[0].left_strips
    assert [48 + 20, 5 + 20] == [later.outfit.strips.stock, later.outfit.strips_also[0].stock]
    assert stocks(later) == stocks(put_in(*counts, "skip Fernbank", now=OUT, plan=plan))


def test_blocks_told_beyond_the_plan_were_there_before_the_count() -> None:
    """None are left; that Fernbank had twelve, not ten, is no reason to refuse it."""
    plan, told = with_blocks(), "done 0304-truck2-0716 Fernbank: 12 blocks"
    later = then(put_in("blocks left 0", now=AFTER, plan=plan), told)

    assert 22 == later.outfit.kit.blocks_owned
    assert stocks(put_in(told, "blocks left 0", now=AFTER, plan=plan)) == stocks(later)


def test_feeders_left_are_as_many_as_were_counted() -> None:
    """All ten were to stand in the first yard; none were left there, so the two are all."""
    plan = going_round()
    stop = calls(plan, Job.FEED)[0]
    trip = next(t for s in plan.shifts for t in s.trips if stop in t.calls)
    now, nothing = at(trip.calls[-1].end_min + 5), f"done {trip.id} {stop.yard}: nothing"
    later = then(put_in("feeders left 2", now=now, plan=plan), nothing)
    again = then(later, nothing.replace("nothing", "10 fed"))

    assert 2 == later.outfit.kit.feeders_now
    assert 12 == again.outfit.kit.feeders_now
    assert stocks(put_in(nothing, "feeders left 2", now=now, plan=plan)) == stocks(later)


@pytest.mark.parametrize("beside", [(), ("feeders left 0",)])
def test_feeders_owned_stay_the_same_however_often_a_count_is_told(beside: tuple[str, ...]) -> None:
    """Ten at a stop and none left; nine off with the syrup of ten: nine are fed, one is missing."""
    plan = going_round()
    stop = calls(plan, Job.FEED)[0]
    trip = next(t for s in plan.shifts for t in s.trips if stop in t.calls)
    litres = sum(one.ml for one in stop.actions) // 1000
    count = f"done {trip.id} {stop.yard}: 9 colonies {litres} litres"
    now = at(trip.calls[-1].end_min + 5)
    once = then(put_in("feeders left 0", now=now, plan=plan), count, *beside)
    more = then(then(once, count, *beside), count, *beside)

    assert (10, ((once.now_min, 1),)) == (
        once.outfit.kit.feeders_owned, once.outfit.kit.feeders_lost,
    )  # fmt: skip
    assert once.outfit == more.outfit


def test_feeders_aboard_are_not_taken_for_lost() -> None:
    """The stop they were for is left out, while none are at the store."""
    plan = wet_plan()
    trip, stop = next(
        (t, call)
        for s in plan.shifts for t in s.trips for call in t.yards()
        if sum(one.feeders for one in call.actions) and call is not t.yards()[0]
    )  # fmt: skip
    now, skip = at(trip.calls[0].end_min + 1), f"skip {stop.yard}"
    out = [t for s in plan.shifts for t in s.trips if t.calls[0].start_min <= trip.calls[0].end_min]
    store = 40 - sum(one.calls[0].after.feeders for one in out)
    for lines in ((skip, f"feeders left {store}"), (f"feeders left {store}", skip)):
        assert 40 == put_in(*lines, now=now, plan=plan).outfit.kit.feeders_now
        assert 40 == then(
            put_in(lines[0], now=now, plan=plan), lines[1]
        ).outfit.kit.feeders_now  # fmt: skip


def test_a_count_that_says_what_was_known_changes_no_plan() -> None:
    """It is kept all the same, for what is told later."""
    plan = running_plan()
    stock = replace(plan.outfit.strips, stock=88)
    plan = replace(plan, outfit=replace(plan.outfit, strips=stock))
    plan = replan_season(plan, plan.outfit, at_min(AFTER), rounds=0, proof=False)
    facts = put_in("strips left 48", plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0, proof=False)

    assert (plan.outfit, plan.shifts) == (new.outfit, new.shifts)
    assert ((), "strips amitraz") == (plan.outfit.counted, new.outfit.counted[0].what)


def at_min(now: str) -> int:
    """The minute of a time as typed."""
    return put_in(now=now).now_min


def test_a_plan_file_of_before_has_no_counts() -> None:
    """Nothing is written where nothing was counted, and what is written reads back."""
    plan = running_plan()
    told = put_in("strips left 48", "skip Fernbank", now=OUT)
    whole = replace(told.plan, outfit=told.outfit, now_min=told.now_min)

    assert '"counted"' not in plan_text(replace(plan, shifts=()))
    assert '"left_strips"' not in plan_text(plan)
    assert (whole.shifts, told.outfit.counted) == (
        plan_from_text(plan_text(whole)).shifts, plan_from_text(plan_text(whole)).outfit.counted,
    )  # fmt: skip


APART = 3
"""A place of its own for the honey house; the store lies at home."""


def apart(outfit: Outfit, **kit: int) -> Outfit:
    """The outfit with its honey house apart, and kit changed so."""
    house = replace(outfit.honey_house, base=Base(APART, 0, 1440))
    return replace(outfit, honey_house=house, kit=replace(outfit.kit, **kit))  # type: ignore[arg-type]


@cache
def strips_riding() -> tuple[Changed, str]:
    """Of 100 strips 40 were loaded and 20 used, and the rest rides home; and that evening."""
    outfit = apart(an_outfit([(10, 0), (14, 0), (-6, 4)], [a_yard(1), a_yard(2)]))
    strips = replace(outfit.strips, stock=100)
    plan = plan_season(replace(outfit, strips=strips), rounds=5, proof=False)
    trip = plan.shifts[0].trips[0]
    skipped = put_in(
        f"skip {trip.yards()[1].yard}", now=at(trip.yards()[0].start_min + 5), plan=plan
    )
    assert [APART, 40] == [trip.calls[-1].place, trip.calls[0].after.strips]
    return skipped, at(plan.shifts[0].end_min + 30)


def test_what_is_aboard_at_a_honey_house_apart_is_not_lost() -> None:
    """Of 100 strips 20 are used and 20 ride: 60 in store all the time."""
    skipped, evening = strips_riding()

    assert 100 == then(skipped, "strips left 60").outfit.strips.stock
    assert 100 == then(skipped, "strips left 60", now=evening).outfit.strips.stock


@pytest.mark.parametrize(
    ("left", "brought", "stock", "notes"),
    [(60, 0, 100, []), (75, 15, 100, ["strips: 15 of those left taken as brought over from"]),
     (80, 20, 100, ["strips: 20 of those left taken as brought over from"]),
     (85, 20, 105, ["strips: 20 of those left taken as brought over from",
                    "strips: 85 left are more than the 80 this plan knew of"])],
)  # fmt: skip
def test_a_count_is_first_of_what_was_brought_over(
    left: int, brought: int, stock: int, notes: list[str]
) -> None:
    """60 are in store and 20 ride on a truck that is home: only what is beyond 80 was bought.

    Counted once more, the count holds; while the truck is out nothing can have been brought.
    """
    skipped, evening = strips_riding()
    facts = then(skipped, f"strips left {left}", now=evening)
    told = [str(note) for note in facts.notes if "strips" in note and "aboard" not in note]
    again = then(facts, f"strips left {left}")
    out = then(skipped, f"strips left {left}")

    assert (stock, brought) == (facts.outfit.strips.stock, over(facts))
    assert [True] * len(notes) == [a in b for a, b in zip(notes, told, strict=True)]
    assert (stock, brought) == (again.outfit.strips.stock, over(again))
    assert (40 + left, 0) == (out.outfit.strips.stock, over(out))


@pytest.mark.parametrize(
    ("left", "stock", "notes"),
    [(5, 40, ["strips: 5 of those left taken as brought over from"]),
     (25, 45, ["strips: 20 of those left taken as brought over from",
               "strips: 25 left are more than the 20 this plan knew of"])],
)  # fmt: skip
def test_a_count_after_an_overdraw_is_first_of_what_was_brought_over(
    left: int, stock: int, notes: list[str]
) -> None:
    """Of thirty 40 were loaded, ten too many: 20 are in, and five on the shelf come off the truck.

    Said of all that was brought over was that it had been bought or found as well.
    """
    skipped, evening = strips_riding()
    few = replace(skipped.outfit, strips=replace(skipped.outfit.strips, stock=30))
    facts = then(replace(skipped, outfit=few), f"strips left {left}", now=evening)
    told = [str(note) for note in facts.notes if note.startswith("strips")]

    assert stock == facts.outfit.strips.stock
    assert [True] * len(notes) == [a in b for a, b in zip(notes, told, strict=True)]


def test_less_than_a_litre_is_told_as_it_is() -> None:
    """It was said to be 0 litres."""
    skipped, evening = strips_riding()
    facts = then(skipped, "syrup left 400 ml", now=evening)

    assert any("litres: 0.4 of those left taken as brought over" in one for one in facts.notes)


def over(facts: Changed) -> int:
    """How much trips brought over."""
    trips = (trip for shift in facts.plan.shifts for trip in shift.trips)
    return sum(one.number for trip in trips for one in trip.brought)


@pytest.mark.parametrize(("end", "short"), [(0, False), (APART, True)])
def test_a_truck_finds_no_boards_that_ride_on_another_for_no_stop(end: int, *, short: bool) -> None:
    """Of fifteen boards ten were for a stop left out, and the other truck is to load ten."""
    plan, now = boards_riding(end)
    facts = put_in(now=now, plan=plan)

    assert (10, short) == (plan.shifts[0].trips[0].calls[0].after.boards, lacks(facts))


def boards_riding(end: int) -> tuple[Plan, str]:
    """Ten of fifteen ride home to ``end`` for no stop; the other truck has left to load ten."""
    plan = plan_season(two_trucks(20), rounds=10, proof=False)
    first, _, other, *_ = plan.shifts
    load = other.trips[0].calls[0].start_min
    plan = edited(replace(plan, shifts=(first, other)), {
        "outfit.kit.boards_owned": 15, "shifts.0.trips.0.calls.-1.place": end,
        "shifts.0.trips.0.calls.1.actions": (), "shifts.1.start_min": load - 30,
        "shifts.0.trips.0.calls.1.after.boards": 10,
    })  # fmt: skip
    return plan, at(load - 10)


def lacks(facts: Changed) -> bool:
    """Whether the other truck finds too little in store."""
    found = [call.against for call in facts.plan.shifts[1].trips[0].yards()]
    return any(Against.STORE in one for one in found)


@pytest.mark.parametrize(
    ("left", "brought", "owned", "short"),
    [(5, 0, 15, True), (9, 4, 15, True), (15, 10, 15, False), (18, 10, 18, False)],
)
def test_boards_counted_in_store_are_first_those_brought_over(
    left: int, brought: int, owned: int, *, short: bool
) -> None:
    """Five are in store and ten ride on the truck at home; a slip of the thumb is put right."""
    plan, now = boards_riding(APART)
    facts = put_in(f"boards left {left}", now=now, plan=plan)
    slip = then(put_in(f"boards left {left}", now=now, plan=plan), "boards left 5")

    assert (brought, owned, short) == (over(facts), facts.outfit.kit.boards_now, lacks(facts))
    assert (0, 15, True) == (over(slip), slip.outfit.kit.boards_now, lacks(slip))
    aboard = [note for note in facts.notes if " aboard, in store only when" in note]
    assert (brought < 10) == any(f"{10 - brought} boards aboard" in note for note in aboard)


def test_boards_left_count_as_others_do() -> None:
    """All 24 were at the mill and are home; four on the shelf, later the others turn up.

    Counted on the night when they lay there, none are in store: two that came back were lost.
    """
    plan = few_boards()
    first = put_in("boards left 4", now=FRIDAY, plan=plan)
    found = then(first, "boards left 24")
    _, trip, stop, _ = stop_with(Job.BOARDS, plan)
    fewer = f"done {trip.id} {stop.yard}: 22 boards"

    assert (4, 24) == (first.outfit.kit.boards_now, found.outfit.kit.boards_now)
    assert any("boards: 24 left are more than the 4" in note for note in found.notes)
    night = put_in("boards left 0", now="Thu 4 Mar 18:00", plan=plan)
    assert (24, 22) == tuple(one.outfit.kit.boards_now for one in (night, then(night, fewer)))


@pytest.mark.parametrize(("owned", "short"), [(20, True), (30, False)])
def test_a_truck_finds_nothing_of_what_rides_on_another(owned: int, *, short: bool) -> None:
    """It has left to load twenty feeders; ten are on the truck that came home the day before."""
    plan = again(left_over(APART), {FEEDERS: 30})
    load = plan.shifts[1].trips[0].calls[0].start_min
    plan = edited(plan, {FEEDERS: owned, "shifts.1.start_min": load - 30})
    facts = put_in(now=at(load - 10), plan=plan)
    found = [call.against for call in facts.plan.shifts[1].trips[0].yards()]

    assert short == any(Against.STORE in one for one in found)


@pytest.mark.parametrize("first", [75, 80, 85, 200])
def test_a_count_put_right_leaves_aboard_what_was_not_brought(first: int) -> None:
    """A slip of the thumb, then the true sixty: the twenty ride as they did."""
    skipped, evening = strips_riding()
    slip = then(skipped, f"strips left {first}", now=evening)
    facts = then(slip, "strips left 60", now=evening)

    assert (100, 0) == (facts.outfit.strips.stock, over(facts))


def test_what_was_brought_over_is_aboard_no_more() -> None:
    """All of it is told of as aboard by the note until it is counted."""
    skipped, evening = strips_riding()

    def aboard(facts: Changed) -> list[str]:
        return [note for note in facts.notes if " aboard, in store only when" in note]

    two = replace(skipped.outfit, trucks=(*skipped.outfit.trucks, a_truck(2)))
    skipped = replace(skipped, outfit=two)
    (said,) = aboard(then(skipped, now=evening))
    (half,) = aboard(then(skipped, "strips left 70", now=evening))

    assert "20 strips" in said
    assert "10 strips" in half
    assert "strips" not in "".join(aboard(then(skipped, "strips left 80", now=evening)))


@cache
def fetched_apart() -> tuple[Plan, Trip]:
    """Ten feeders are fetched for the second yard, by a trip that ends at a honey house apart."""
    first = replace(a_yard(1, days=16), open_spans=daily(480, 1080, (0, 1, 7, 8)), finish_by_day=3)
    second = replace(
        a_yard(2, days=16), open_spans=daily(480, 1080, (7, 8)),
        feed_spans=daily(480, 1080, range(9, 14)), ready_from_day=7,
    )  # fmt: skip
    outfit = an_outfit([(10, 0), (14, 0), (-6, 4)], [first, second], days=16)
    plan = plan_season(apart(outfit, feeders_owned=10), rounds=20, proof=False)
    trip = next(
        t for s in plan.shifts for t in s.trips
        if any(one.feeders_off for call in t.calls for one in call.actions)
    )  # fmt: skip
    return plan, trip


def test_feeders_aboard_at_a_honey_house_apart_are_not_lost() -> None:
    """Ten fetched ride on the truck overnight, or some were brought over: there are ten."""
    plan, trip = fetched_apart()
    for left, brought in ((0, 0), (4, 4), (10, 10)):
        now = at(trip.calls[-1].end_min + 30)
        facts = put_in(f"feeders left {left}", now=now, plan=plan)
        new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=2, proof=False)

        assert (APART, 10) == (trip.calls[-1].place, facts.outfit.kit.feeders_now)
        assert ((), new.tally) == (audit(new, facts.plan), plan.tally)
        assert brought == over(facts)


@pytest.mark.parametrize(("left", "aboard"), [("0", "10 feeders"), ("4", "6 feeders"), ("10", "")])
def test_feeders_that_were_fetched_are_told_of_as_aboard(left: str, aboard: str) -> None:
    """Until they are counted in store the other truck cannot load them."""
    plan, trip = fetched_apart()
    two = replace(plan.outfit, trucks=(*plan.outfit.trucks, a_truck(2)))
    now = at(trip.calls[-1].end_min + 30)
    facts = put_in(f"feeders left {left}", now=now, plan=replace(plan, outfit=two))
    notes = [note for note in facts.notes if " aboard, in store only when" in note]

    assert bool(aboard) == any("feeders" in note for note in notes)
    assert aboard in "".join(notes)


@pytest.mark.parametrize("end", [0, APART])
def test_boards_on_a_truck_at_home_are_not_there_for_another(end: int) -> None:
    """Of fifteen boards ten ride on the first truck, and the other put on five, the rest.

    That it put on ten is refused, unless the first truck's trip ends at the store.
    """
    plan = edited(plan_season(two_trucks(20), rounds=10, proof=False), {
        "outfit.kit.boards_owned": 15, "shifts.1.trips.0.calls.-1.place": end,
        "shifts.2.trips.0.calls.0.after.boards": 5, "shifts.2.trips.0.calls.1.after.boards": 0,
        "shifts.2.trips.0.calls.1.actions.0.pieces": 5,
        "shifts.2.trips.0.calls.1.actions.0.colonies": 5,
    })  # fmt: skip
    trip = plan.shifts[2].trips[0]
    line, now = f"done {trip.id} {trip.calls[1].yard}: 10 boards", at(trip.calls[-1].end_min)
    refused = pytest.raises(ScenarioError, match="at most 5 boards") if end else nullcontext()

    with refused:
        put_in(line, now=now, plan=plan)


@pytest.mark.parametrize(("owned", "notes"), [(20, 0), (10, 1)])
def test_boards_loaded_while_all_ride_elsewhere_are_noted(owned: int, notes: int) -> None:
    """Ten ride on the first truck, which is home at the honey house, and the other loads ten."""
    plan = edited(
        plan_season(two_trucks(20), rounds=10, proof=False), {"outfit.kit.boards_owned": owned}
    )
    facts = put_in(now=at(plan.shifts[2].trips[0].calls[0].end_min), plan=plan)

    assert notes == sum("10 boards more were used" in note for note in facts.notes)


@cache
def lifted_and_laid() -> Plan:
    """Ten boards in all: on day 1 they come off yard 1 and go on at yard 2, on the same trip."""
    return plan_season(two_yards((0, 1), (1, 2), 10), rounds=10, proof=False)


def test_boards_lifted_and_laid_again_on_one_trip_are_in_use_once() -> None:
    """The trip loads none and brings none home; ten too many were said while it was out."""
    plan = lifted_and_laid()
    trip = plan.shifts[1].trips[0]

    assert [0, 10, 0, 0] == [call.after.boards for call in trip.calls]
    for minute in (trip.calls[0].end_min, trip.yards()[1].end_min, trip.calls[-1].end_min):
        assert not [one for one in put_in(now=at(minute), plan=plan).notes if "boards" in one]


@pytest.mark.parametrize(("order", "against"), [("12", "--"), ("212", "S--"), ("2122", "S--S")])
def test_a_trip_is_short_of_boards_where_it_needs_most(order: str, against: str) -> None:
    """A second trip that day, with none in store: what it lifts at yard 1 it may lay after that."""
    plan = lifted_and_laid()
    shift = plan.shifts[1]
    (trip,) = shift.trips
    load, one, two, back = trip.calls
    lifts, feeds = replace(one, actions=one.actions[:1]), replace(one, actions=one.actions[1:])
    calls = (load, *(lifts if yard == "1" else two for yard in order), back)
    times = ("arrive_min", "start_min", "end_min", "leave_min", "latest_leave_min")
    later = replace(trip, id="later", calls=tuple(
        replace(call, **{name: getattr(call, name) + 300 + at for name in times})
        for at, call in enumerate(calls)
    ))  # fmt: skip
    first = replace(trip, calls=(load, feeds, back))
    shift = replace(shift, trips=(first, later), end_min=shift.end_min + 400)
    plan = replace(plan, shifts=(plan.shifts[0], shift))
    facts = put_in(now=at(load.end_min), plan=plan)
    found = facts.plan.shifts[1].trips[1].yards()

    assert against == "".join("S" if Against.STORE in call.against else "-" for call in found)
