"""People worked by hand: two trucks that share them, days off, trucks away, two at a yard."""

from dataclasses import replace

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from tests.outfits import a_truck, daily
from tests.season.shapes import DONE, did, names, planned
from tests.season.tiny import ANN, four, tiny

BOB = Person("bob", "Bob", drives=False, spins=True, mixes=True)
CAT = Person("cat", "Cat", drives=True, spins=False, mixes=False)
BOTH = ("ann", "cat")


def two_trucks(people: tuple[Person, ...], **changes: object) -> Outfit:
    """Two yards 40 km off on either side, both to be opened from 8:00 to 9:30 only."""
    short = {"open_spans": daily(480, 570, [0]), "stores_g": 8_000}
    trucks = tuple(replace(a_truck(n), drivers=BOTH) for n in (1, 2))
    return tiny(
        [(40, 0), (-40, 0)],
        [four(1, 1, **short), four(2, 1, **short)],
        1,
        people=people,
        trucks=trucks,
        **changes,
    )


def test_two_trucks_go_out_at_once_with_a_driver_each() -> None:
    """80 km lie between the yards: one truck cannot, two drivers and a spinner can."""
    plan = planned(two_trucks((ANN, BOB, CAT)))

    # Each: 15 + 40 + (960 + 720 + 240) / 60 + 10 = 42, 40 and 13 min = 150, two of them.
    assert DONE == plan.tally
    assert [("ann",), ("cat",)] == sorted(names(plan.shifts))
    assert {("bob",)} == {stretch.people for stretch in plan.spinning}
    assert (2 * 4_000, 300 * 50, 160 * 60) == (plan.bill.days, plan.bill.crew, plan.bill.km)


def test_two_trucks_and_one_driver_do_one_yard() -> None:
    """The second truck stands: nobody else may drive it."""
    plan = planned(two_trucks((ANN, BOB)), rounds=5)

    assert 1 == len(plan.shifts)
    assert 4 == plan.tally.not_off


def test_a_licence_for_one_truck_is_no_licence_for_the_other() -> None:
    """Cat drives, but neither of these trucks."""
    outfit = two_trucks((ANN, BOB, CAT))
    trucks = tuple(replace(truck, drivers=("ann",)) for truck in outfit.trucks)
    plan = planned(replace(outfit, trucks=trucks), rounds=5)

    assert [("ann",)] == [crew[:1] for crew in names(plan.shifts)]


def test_a_driver_away_sends_the_truck_the_next_day() -> None:
    """Ann is off on the first day and nobody else drives."""
    ann = replace(ANN, off_days=(0,))
    plan = planned(tiny([(10, 0)], [four(1, 2)], 2, people=(ann, BOB)))

    assert ["1 yard1 take-off 4, feed 4, strips 4"] == did(plan)


def test_a_truck_away_is_not_driven() -> None:
    """In service on the first day; the other truck, dearer, stays home all the same."""
    first, second = replace(a_truck(), out_days=(0,)), replace(a_truck(2), day_cents=20_000)
    plan = planned(tiny([(10, 0)], [four(1, 2)], 2, trucks=(first, second)))

    assert [(1, "truck1")] == [(shift.day, shift.truck) for shift in plan.shifts]


def test_two_go_where_the_day_is_too_short_for_one() -> None:
    """Alone Ann is out for 99 min; with 90 allowed, Bob comes along for 78."""
    outfit = tiny([(10, 0)], [four(1, 2)], 2, people=(ANN, BOB))
    plan = planned(replace(outfit, hours=replace(outfit.hours, duty_max_min=90)))

    # (2,400 / 2) / 60 + 10 = 30 at the yard, 10 + 1.5 to unload: 16 + 20 + 30 + 12 = 78.
    assert [("ann", "bob")] == names(plan.shifts)
    assert 78 * 2 * 50 == plan.bill.crew


def test_the_helper_that_can_do_least_else_rides_along() -> None:
    """Of Bob, who spins and mixes, and Dan, who does neither, Dan is taken."""
    dan = Person("dan", "Dan", drives=False, spins=False, mixes=False)
    outfit = tiny([(10, 0)], [four(1, 1)], 1, people=(ANN, BOB, dan))
    plan = planned(replace(outfit, hours=replace(outfit.hours, duty_max_min=90)))

    assert [("ann", "dan")] == names(plan.shifts)
    assert {("bob",)} == {stretch.people for stretch in plan.spinning}
