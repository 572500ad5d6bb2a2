"""Two trucks on one day: people, kit and the store are shared."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Mixing, Plan
from runplanner.daybook.trip import Brought, Shift, Spare
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.people import Person
from tests.audit.plans import plain, two_rounds
from tests.audit.planted import edited
from tests.audit.writing import BLOCK_10, cans, goods
from tests.outfits import a_truck


def two_trucks() -> Plan:
    """The plain plan with a second truck, crewed by others, doing day 1 a second time."""
    plan = plain()
    more = (Person("cy", "Cy", True, False, False), Person("di", "Di", False, False, False))
    again = edited(
        replace(plan, shifts=plan.shifts[1:]),
        {
            "shifts.0.truck": "truck2",
            "shifts.0.crew": ("cy", "di"),
            "shifts.0.trips.0.id": "again",
        },
    )
    return edited(
        replace(plan, shifts=(*plan.shifts, *again.shifts)),
        {
            "outfit.trucks": lambda trucks: (*trucks, replace(a_truck(2), drivers=("cy",))),
            "outfit.people": lambda people: (*people, *more),
        },
    )


def rules(plan: Plan) -> set[str]:
    """The rules a plan breaks."""
    return {finding.rule for finding in audit(plan)}


def test_trucks_crews_and_trips_of_their_own_are_fine() -> None:
    """Nobody and nothing is in two shifts; but the yards are visited twice at one time."""
    found = rules(two_trucks())

    assert not {"truck twice", "person twice", "two places", "half-day", "trip id"} & found
    assert {"one visit", "strips at once", "colonies"} <= found


@pytest.mark.parametrize(("out", "found"), [((1, 2), False), ((1,), True), ((2,), True)])
def test_trucks_that_are_both_out_may_meet_at_a_yard(out: tuple[int, ...], *, found: bool) -> None:
    """One of them was told late, or both; what is still to leave goes there once it is free."""
    marks = {f"shifts.{number}.trips.0.driven": True for number in out}
    plan = edited(two_trucks(), {"now_min": DAY_MIN + 515, **marks})

    assert found == ("one visit" in rules(plan))


def test_whoever_comes_while_the_first_is_still_there_is_found_behind_a_short_visit() -> None:
    """One is there from 509 to 654, another comes and goes; a third, planned, comes at 559."""

    def there(shift: Shift, start: int, end: int, name: str, *, out: bool) -> Shift:
        (trip,) = shift.trips
        load, yard, *_ = trip.calls
        yard = replace(yard, arrive_min=start, start_min=start, end_min=end, leave_min=end)
        trip = replace(trip, id=name, calls=(load, yard, trip.calls[-1]), driven=out)
        return replace(shift, truck="truck1" if name == "a" else "truck2", trips=(trip,))

    plan = two_trucks()
    one = plan.shifts[2]
    visits = [(509, 654, "a", True), (519, 544, "b", True), (559, 584, "c", False)]
    shifts = [there(one, DAY_MIN + a, DAY_MIN + b, name, out=out) for a, b, name, out in visits]

    def met(*shifts: Shift) -> set[str]:
        told = replace(plan, shifts=(*plan.shifts[:1], *shifts), now_min=DAY_MIN + 530)
        return {found.trip for found in audit(told) if found.rule == "one visit"}

    assert {"c"} == met(shifts[0], shifts[2])
    assert {"c"} == met(*shifts)
    assert set() == met(*shifts[:2])


def test_containers_out_at_one_time_are_added() -> None:
    """Seven cans on each truck: fourteen must be owned."""
    assert "tanks owned" not in rules(edited(two_trucks(), {"outfit.containers.1.owned": 14}))
    assert "tanks owned" in rules(edited(two_trucks(), {"outfit.containers.1.owned": 13}))


def test_containers_back_in_the_same_minute_are_free_again() -> None:
    """The first trip ends at 588 with two cans, the second starts to load two at 588."""
    plan = edited(two_rounds(), {"shifts.0.trips.0.containers": cans(2)})

    assert "tanks owned" not in rules(edited(plan, {"outfit.containers.1.owned": 2}))
    assert "tanks owned" in rules(edited(plan, {"outfit.containers.1.owned": 1}))


def test_boards_back_in_the_same_minute_may_be_loaded_again() -> None:
    """Ten boards ride along on both trips; the second loads when the first is over, at 588."""
    plan = edited(
        two_rounds(),
        {
            "shifts.0.trips.0.calls.0.after.boards": 10,
            "shifts.0.trips.1.calls.0.after.boards": 10,
        },
    )

    assert "boards owned" not in rules(edited(plan, {"outfit.kit.boards_owned": 10}))
    assert "boards owned" in rules(edited(plan, {"outfit.kit.boards_owned": 9}))


def test_boards_on_a_truck_that_ends_elsewhere_are_not_at_the_store() -> None:
    """The first truck's ten come home with it, and only its next loading puts them in."""
    every = edited(
        two_trucks(),
        {
            "shifts.0.trips.0.calls.0.after.boards": 10,
            "shifts.2.trips.0.calls.0.after.boards": 10,
            "outfit.kit.boards_owned": 10,
        },
    )
    alone = edited(every, {"shifts": lambda shifts: (shifts[0], shifts[2])})
    apart = {"outfit.feed_store.place": 1}

    assert "boards owned" not in rules(alone)
    assert "boards owned" in rules(edited(alone, apart))
    assert "boards owned" not in rules(edited(every, apart))


def test_loads_at_one_minute_draw_on_the_store_together() -> None:
    """340 l are loaded at 8:00, 170 l were mixed."""
    assert "syrup in time" in rules(two_trucks())
    assert "syrup in time" not in rules(edited(two_trucks(), {"outfit.feed.ready_ml": 170_000}))


def test_one_person_in_two_trucks_is_in_two_places() -> None:
    """Bob rides in both trucks."""
    found = rules(edited(two_trucks(), {"shifts.2.crew": ("cy", "bob")}))

    assert {"two places", "person twice"} <= found


def test_long_turns_are_remembered_behind_short_ones() -> None:
    """Bob's shift covers two short mixings: both are found, not only the first."""
    plan = edited(
        plain(),
        {"mixing": lambda mixing: (
            *mixing,
            replace(mixing[0], start_min=1_925, end_min=1_930, ml=0),
            replace(mixing[0], start_min=1_940, end_min=1_945, ml=0),
        )},
    )  # fmt: skip

    found = [finding for finding in audit(plan) if finding.rule == "two places"]

    assert 2 == len(found)


def test_a_break_counts_by_itself() -> None:
    """Two breaks of 20 min that touch are no break of 30."""
    plan = edited(
        plain(),
        {
            "outfit.hours.duty_break_after_min": 150,
            "shifts.0.breaks": (Span(480, 500), Span(500, 520)),
        },
    )

    assert "duty break" in rules(plan)


def one_is_out(**edits: object) -> Plan:
    """At 8:05 on day 1 the first truck is out; the second loads as much, a minute before it.

    So "feed" is a fact, and "again" is planned.  What was mixed stands at the store.
    """
    plan = edited(
        two_trucks(),
        {
            "now_min": 1925,
            "shifts.0.trips.0.driven": True,
            "shifts.1.trips.0.driven": True,
            "shifts.2.trips.0.calls.0.start_min": 1919,
        },
    )
    return edited(plan, {name.replace("__", "."): new for name, new in edits.items()})


def short_of(plan: Plan) -> set[tuple[str, str]]:
    """Rules of stocks that are broken, and by which trip."""
    stocks = {"blocks owned", "strips in stock", "boards owned", "feeders owned", "syrup in time"}
    stocks |= {"sugar", "syrup wanted"}
    return {(found.rule, found.trip) for found in audit(plan) if found.rule in stocks}


def test_what_a_truck_that_is_out_loads_is_not_there_for_another() -> None:
    """170 l and 40 strips are there, twice as much is wanted; the truck that is out has them."""
    both = one_is_out(outfit__strips__stock=79)
    enough = one_is_out(outfit__strips__stock=80, outfit__feed__ready_ml=170_000)

    assert {("syrup in time", "again"), ("strips in stock", "again")} == short_of(both)
    assert set() == short_of(enough)


def test_what_a_truck_that_is_out_lacks_is_a_fact_and_no_fault_of_later_trips() -> None:
    """160 l and 39 strips for 170 and 40; the other trip has its own 170 mixed by then, a day on.

    One ml fewer mixed for it is too little, and so is a strip in it.
    """
    fresh = Mixing(1930, 1981, "bob", 170_000)
    less = replace(fresh, ml=169_999)

    def short(then: Mixing, **edits: object) -> set[tuple[str, str]]:
        return short_of(
            one_is_out(
                mixing=lambda mixing: (replace(mixing[0], ml=160_000), then),
                outfit__strips__stock=39,
                shifts__2__trips__0__calls__0__start_min=3360,
                **edits,
            )
        )

    bare = {
        f"shifts__2__trips__0__calls__{at}__actions": lambda actions: actions[:1] for at in (1, 2)
    }
    assert {("strips in stock", "again")} == short(fresh)
    assert set() == short(fresh, **bare)
    assert {("syrup in time", "again")} == short(less, **bare)


def test_boards_that_a_truck_that_is_out_has_still_to_load_are_not_for_others() -> None:
    """Ten boards for two trucks: a breach of the one that is planned, though it loads first."""
    calls = {f"shifts__{at}__trips__0__calls__0__after__boards": 10 for at in (1, 2)}

    def short(owned: int) -> set[tuple[str, str]]:
        syrup = {"outfit__feed__ready_ml": 170_000, "outfit__kit__boards_owned": owned}
        return short_of(one_is_out(**calls, **syrup))

    assert {("boards owned", "again")} == short(19)
    assert set() == short(20)
    alone = {**calls, "shifts__2__trips__0__calls__0__after__boards": 0}
    assert set() == short_of(
        one_is_out(**alone, outfit__feed__ready_ml=170_000, outfit__kit__boards_owned=9)
    )


def test_sugar_that_was_mixed_was_there() -> None:
    """170 l took 150,469 g; of 100 kg no more may be mixed."""
    fresh = Mixing(1930, 1931, "bob", 1)
    few = {"outfit__feed__sugar_g": 100_000, "outfit__feed__ready_ml": 170_000}

    assert set() == short_of(one_is_out(**few))
    assert ("sugar", "") in short_of(one_is_out(mixing=lambda mixing: (*mixing, fresh), **few))


def left_over(**edits: object) -> Plan:
    """The first truck is home: of its feed one yard got nothing, and its half rides.

    The second is planned, a day on.  Each stop was to get ten feeders and ten blocks beside its
    85 l and 20 strips.
    """
    plan = one_is_out(shifts__2__trips__0__calls__0__start_min=3360, now_min=2100)
    for shift, number in ((1, 1), (1, 2), (2, 1), (2, 2)):
        at = f"shifts.{shift}.trips.0.calls.{number}.actions"
        plan = edited(plan, {f"{at}.0.feeders": 10, at: lambda actions: (*actions, BLOCK_10)})
    calls = plan.shifts[1].trips[0].calls
    plan = edited(plan, {
        "shifts.1.trips.0.calls.1.planned": calls[1].actions,
        "shifts.1.trips.0.calls.1.actions": (),
        "outfit.kit.feeders_owned": 40, "outfit.kit.blocks_owned": 60, "outfit.strips.stock": 80,
        "outfit.feed.ready_ml": 170_000,
    })  # fmt: skip
    return edited(plan, {name.replace("__", "."): new for name, new in edits.items()})


APART = {"outfit__feed_store__place": 1}
STOCKS = {
    "feeders owned": ("outfit__kit__feeders_owned", 40, 10, "feeders"),
    "blocks owned": ("outfit__kit__blocks_owned", 60, 10, "blocks"),
    "strips in stock": ("outfit__strips__stock", 80, 20, "strips amitraz"),
    "syrup in time": ("outfit__feed__ready_ml", 170_000, 85_000, "syrup"),
}


@pytest.mark.parametrize("rule", STOCKS)
def test_goods_for_no_stop_are_at_the_store_once_they_can_be(rule: str) -> None:
    """At the trip's end, or where that is elsewhere not for another truck unless brought over."""
    key, enough, rides, what = STOCKS[rule]
    few, over = {key: enough - rides}, (Brought(2_100, what, rides),)
    told, less = {"shifts__1__trips__0__brought": over}, {key: enough - rides - 1}
    one_less = (replace(over[0], number=rides - 1),)

    assert set() == short_of(left_over(**few))
    assert {(rule, "again")} == short_of(left_over(**less))
    assert set() == short_of(left_over(**APART))
    assert {(rule, "again")} == short_of(left_over(**APART, **{key: enough - 1}))
    assert set() == short_of(left_over(**APART, **few, **told))
    assert {(rule, "again")} == short_of(left_over(**APART, **less, **told))
    assert {(rule, "again")} == short_of(
        left_over(**APART, **few, shifts__1__trips__0__brought=one_less)
    )
    same = {"shifts__2__truck": "truck1"}
    assert set() == short_of(left_over(**APART, **few, **same))


def test_goods_of_stops_left_out_ride_too() -> None:
    """Nothing is planned at the stop that got nothing: the trip is known to have left with more."""
    left = goods(250_000, 9, ml=170_000, blocks=20, strips=40, feeders=20)
    bare = {
        "shifts__1__trips__0__calls__1__planned": (), "shifts__1__trips__0__left": left,
        "shifts__1__trips__0__left_strips": (Spare("amitraz", 20),),
    }  # fmt: skip

    assert set() == short_of(left_over(**APART, **bare))
    for rule, (key, enough, *_) in STOCKS.items():
        assert {(rule, "again")} == short_of(left_over(**APART, **bare, **{key: enough - 1}))


@pytest.mark.parametrize(("apart", "ml"), [({}, 85_000), (APART, 170_000)])
def test_syrup_is_mixed_again_while_it_rides(apart: dict[str, object], ml: int) -> None:
    """Nothing stands ready: 85 l of 170 ride, of which the second truck wants all."""

    def short(ml: int) -> set[tuple[str, str]]:
        def mixed(mixing: tuple[Mixing, ...]) -> tuple[Mixing, ...]:
            return (*mixing, Mixing(2_200, 2_300, "bob", ml))

        return short_of(left_over(**apart, outfit__feed__ready_ml=0, mixing=mixed))

    assert {("syrup in time", "again")} == short(ml - 1)
    assert set() == short(ml)
    assert {("syrup wanted", "")} == short(ml + 1)
