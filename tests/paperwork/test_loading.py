"""Tests of what goes on a truck, in which order."""

from dataclasses import replace

import pytest

from runplanner.daybook.trip import Carried, Shift, Stowed, Trip
from runplanner.haulage.stow import Order
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.trucks import Nose
from runplanner.paperwork.driver import loading
from runplanner.paperwork.driver.loading import Fill, Goods, boards_from_base, fills, goods, on_each
from runplanner.paperwork.driver.manifest import manifest
from runplanner.paperwork.stop.decks import stowed
from tests.audit.plans import with_trailer
from tests.outfits import an_outfit
from tests.paperwork.plans import (
    IBC,
    Round,
    Stop,
    a_shift,
    block,
    boards,
    feed,
    strips,
    take_off,
)


def a_trip(outfit: Outfit, stops: tuple[Stop, ...], carried: tuple[Carried, ...] = ()) -> Trip:
    """One trip of the test truck on day 0."""
    return a_shift(outfit, 0, [Round("t", stops, carried)]).trips[0]


def driving(outfit: Outfit, trip: Trip) -> Shift:
    """The test truck's day 0 with one trip."""
    return replace(a_shift(outfit, 0, [Round("t", (Stop(1, 20, (block(1),)),))]), trips=(trip,))


def listed(outfit: Outfit, trip: Trip) -> tuple[Goods, ...]:
    """What goes on the test truck for a trip."""
    return goods(outfit, driving(outfit, trip), trip)


def test_first_off_is_last_on() -> None:
    """Tanks first, then the last stop's goods, the first stop's last; strips in the cab."""
    outfit = an_outfit()
    stops = (
        Stop(1, 60, (feed(10, 90), strips(10))),
        Stop(2, 60, (take_off(10, 15), block(10), boards(4))),
    )

    # Six places for the tank and one for the blocks leave 24 - 7 = 17.
    assert (
        Goods("headboard", "IBC: fill 90 L"),
        Goods("stop 2", "4 boards and 10 blocks"),
        Goods("tail", "keep 17 deck places clear"),
        Goods("cab, sealed", "strips (amitraz): 20 for stop 1"),
    ) == listed(outfit, a_trip(outfit, stops, (IBC,)))


def test_the_last_stop_is_loaded_first() -> None:
    """Three stops with blocks go on in the order 3, 2, 1."""
    outfit = an_outfit([(10, 0), (12, 0), (14, 0)])
    trip = a_trip(outfit, tuple(Stop(n, 20, (block(n),)) for n in (1, 2, 3)))

    assert ["stop 3", "stop 2", "stop 1"] == [one.where for one in listed(outfit, trip)[:3]]


def test_one_tank_at_most_is_part_filled() -> None:
    """1050 L into a 1000 L tank and three cans of 25 L: full, full, full, empty."""
    outfit = an_outfit()
    trip = a_trip(outfit, (Stop(1, 60, (feed(10, 1_050),)),), (Carried("can", 3), IBC))

    assert [1_000_000, 25_000, 25_000, 0] == [
        fill.ml for fill in fills(outfit, driving(outfit, trip), trip)
    ]
    assert ["IBC: fill 1000 L", "2 \u00d7 Can: fill 25 L", "Can: leave empty"] == [
        one.what for one in listed(outfit, trip)[:3]
    ]
    assert "Can: empty" == goods(outfit, driving(outfit, trip), trip, loaded=True)[2].what


def test_boards_from_base_go_out_before_those_that_came_back() -> None:
    """Seven come back at stop 1; six loaded at base serve stop 2 and one of stop 3."""
    outfit = an_outfit([(10, 0), (12, 0), (14, 0)])
    stops = (
        Stop(1, 60, (take_off(7, 10, boards_off=7),)),
        Stop(2, 20, (boards(5),)),
        Stop(3, 20, (boards(8),)),
    )
    trip = a_trip(outfit, stops)
    load = trip.calls[0]
    six = replace(trip, calls=(replace(load, after=replace(load.after, boards=6)), *trip.calls[1:]))

    assert (0, 5, 1) == boards_from_base(six)
    assert Goods("stop 3", "1 board") == listed(outfit, six)[0]


def test_spare_boards_are_named() -> None:
    """Boards loaded beyond need are called spare."""
    outfit = an_outfit()
    trip = a_trip(outfit, (Stop(1, 20, (boards(5),)),))
    load = trip.calls[0]
    nine = replace(
        trip, calls=(replace(load, after=replace(load.after, boards=9)), *trip.calls[1:])
    )

    assert Goods("spare", "4 boards") == listed(outfit, nine)[0]


def test_truck_and_trailer_have_their_own_limits() -> None:
    """The trailer bears 2000 - 500 kg, the truck 3500 - 2230 kg and two people of 85 kg: 1100.

    Boxes of 508 x 413 mm: 3000 x 1500 holds 5 x 3, 3100 x 2100 holds 6 x 5.  The train may be
    5000 kg: 2100 are left for all that is loaded, which the audit allows.
    """
    plan = with_trailer()
    shift = plan.shifts[0]
    first = Goods("Cart", "fill and use up first, at stops too: up to 1500 kg and 15 deck places")
    last = "then up to 1100 kg and 30 deck places, 2100 kg on both together; weigh both"

    assert (first, Goods("Truck 1", last)) == on_each(plan.outfit, shift, shift.trips[0])
    sheet = manifest(plan, shift, shift.trips[0]).goods
    assert [first, Goods("Truck 1", last)] == list(sheet[:2])
    assert shift.trips[0].calls[0].after.places_max == 15 + 30
    alone = replace(shift, trailer="")
    assert () == on_each(plan.outfit, alone, shift.trips[0])


def test_limits_of_a_train_that_bears_both() -> None:
    """A train of 6000 kg takes all 1500 + 1100 kg; one of 4200 leaves 1300 for either."""
    plan = with_trailer()
    shift, trip = plan.shifts[0], plan.shifts[0].trips[0]

    def told(load_max_g: int) -> list[str]:
        load = trip.calls[0]
        load = replace(load, after=replace(load.after, load_max_g=load_max_g))
        calls = (load, *trip.calls[1:])
        return [one.what for one in on_each(plan.outfit, shift, replace(trip, calls=calls))]

    assert "then up to 1100 kg and 30 deck places; weigh both" == told(2_600_000)[1]
    assert [
        "fill and use up first, at stops too: up to 1300 kg and 15 deck places",
        "then up to 1100 kg and 30 deck places, 1300 kg on both together; weigh both",
    ] == told(1_300_000)


def test_the_train_limits_what_is_loaded_in_one_order_and_used_in_another(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The truck is filled first at base, the trailer first at stops; 2,100 kg are all the same."""
    plan = with_trailer()
    shift = plan.shifts[0]
    way = stowed(plan.outfit, shift, shift.trips[0])
    assert way is not None
    swapped = way._replace(order=Order(loading=False, stops=True))
    monkeypatch.setattr(loading, "stowed", lambda *_: swapped)

    first, then = on_each(plan.outfit, shift, shift.trips[0])
    assert "fill first at base: up to 1100 kg and 30 deck places" == first.what
    assert (
        "fill and use up first at stops: up to 1500 kg and 15 deck places, 2100 kg on both "
        "together; weigh both"
    ) == then.what


def test_places_go_by_the_largest_box_of_the_trip() -> None:
    """Boxes of 1000 x 700 mm at the stop: 3000 x 1500 holds 3 x 2, 3100 x 2100 holds 3 x 3.

    Where no box rides, the largest of the outfit counts.
    """
    plan = with_trailer()
    wide = replace(plan.outfit.boxes[0], id="wide", length_mm=1_000, width_mm=700)
    outfit = replace(plan.outfit, boxes=(*plan.outfit.boxes, wide))
    shift, trip = plan.shifts[0], plan.shifts[0].trips[0]
    load, stop, unload = trip.calls
    empty = replace(trip, calls=(load, replace(stop, actions=stop.actions[1:]), unload))

    assert "15 deck places" in on_each(outfit, shift, trip)[0].what
    for facts, one in (
        (outfit, empty),
        (replace(outfit, yards=(replace(outfit.yards[0], box="wide"),)), trip),
    ):
        first, then = on_each(facts, shift, one)
        assert "6 deck places" in first.what
        assert "9 deck places" in then.what


def test_each_container_is_told_its_vehicle() -> None:
    """132 L are 175.2 kg: a tank of 60 kg too heavy for a trailer of 200 kg goes on the truck.

    On a truck that bears as little it goes behind, and is filled there.
    """
    plan = with_trailer()
    shift, trip = plan.shifts[1], plan.shifts[1].trips[0]
    cart, truck = plan.outfit.trailers[0], plan.outfit.trucks[0]
    light = replace(plan.outfit, trailers=(replace(cart, max_g=cart.empty_g + 200_000),))
    weak = replace(plan.outfit, trucks=(replace(truck, max_g=2_400_000 + 200_000),))

    assert Goods("Truck 1", "IBC: fill 132 L") == goods(light, shift, trip)[0]
    assert (Fill(plan.outfit.containers[0], 132_000),) == fills(light, shift, trip)
    assert Goods("Cart", "IBC: fill 132 L") == goods(weak, shift, trip)[0]
    assert (Fill(plan.outfit.containers[0], 132_000, behind=True),) == fills(weak, shift, trip)


def test_a_tank_is_told_where_the_plan_has_it() -> None:
    """Though it could ride on the truck now: told behind it stays there, by whatever counts."""
    plan = with_trailer()
    shift, trip = plan.shifts[1], plan.shifts[1].trips[0]
    told = Stowed((Carried("ibc", 1),), trailer_loads=False, trailer_stops=True)
    kept = replace(trip, stowed=told)
    # 2,000 kg of trailer empty: not even the tank is borne there
    weak = replace(plan.outfit, trailers=(replace(plan.outfit.trailers[0], max_g=500_000),))

    assert [Fill(plan.outfit.containers[0], 132_000)] == list(fills(plan.outfit, shift, trip))
    for facts in (plan.outfit, weak):
        assert Goods("Cart", "IBC: fill 132 L") == goods(facts, shift, kept)[0]
        assert "fill first at base" in on_each(facts, shift, kept)[0].what


def test_the_nose_is_off_what_the_truck_bears() -> None:
    """40 kg, and 1,500 kg with their middle 0.1 of 3.1 m ahead of the axle: 88.4 kg in all."""
    plan = with_trailer()
    nose = Nose(40_000, drawbar_mm=3_100, deck_starts_mm=1_500)
    outfit = replace(plan.outfit, trailers=(replace(plan.outfit.trailers[0], nose=nose),))
    shift = plan.shifts[0]

    # 1,100 - 40 - 48.4 = 1,011.6
    assert "then up to 1011 kg" in on_each(outfit, shift, shift.trips[0])[1].what
