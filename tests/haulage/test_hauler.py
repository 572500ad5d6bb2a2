"""What a truck, with trailer and crew, may carry and where it may go."""

from dataclasses import replace

import pytest

from runplanner.haulage.axles import HUGE_G
from runplanner.haulage.hauler import Hauler, haulers
from runplanner.haulage.stow import Train
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import BoxKind
from runplanner.outfit.trucks import Axles, Deck, Nose, Trailer
from runplanner.outfit.yards import Access
from tests.outfits import a_truck, an_outfit

BOX = BoxKind("medium", "Medium", 508, 413, 168, 4_500)
TRAILER = Trailer(
    id="trailer",
    name="Trailer",
    empty_g=500_000,
    max_g=1_500_000,
    deck=Deck(2_600, 1_300, 700, 4),
    width_mm=2_200,
    speed_permille=800,
    km_cents=20,
)


def with_trailer(train_max_g: int | None = 4_500_000) -> Outfit:
    """The usual truck, allowed to pull the trailer up to ``train_max_g`` in all."""
    truck = replace(a_truck(), train_max_g=train_max_g)
    return an_outfit(trucks=(truck,), trailers=(TRAILER,))


def pick(outfit: Outfit, crew: int, *, trailer: bool = False) -> Hauler:
    """The one hauler with this crew, with or without the trailer."""
    found = [h for h in haulers(outfit) if h.crew == crew and (h.trailer is not None) == trailer]
    assert 1 == len(found)
    return found[0]


def test_people_fuel_and_kit_come_off_the_payload() -> None:
    """3,500 - 2,100 - 60 fuel - 70 kit = 1,270 kg, less 85 kg for each of the crew."""
    outfit = an_outfit()

    assert 1_185_000 == pick(outfit, 1).load_max_g
    assert 1_100_000 == pick(outfit, 2).load_max_g
    # 2,100 + 60 + 70 + 2 x 85
    assert 2_400_000 == pick(outfit, 2).own_g


def test_no_more_crew_than_people_or_seats() -> None:
    """Two people fill two of three seats; a truck with one seat goes out with one."""
    outfit = an_outfit()

    assert [1, 2] == [h.crew for h in haulers(outfit)]
    small = replace(outfit, trucks=(replace(a_truck(), seats=1),))
    assert [1] == [h.crew for h in haulers(small)]


def test_a_truck_that_can_carry_nothing_is_left_out() -> None:
    """With 1 kg to spare for two people the truck still goes out, with none it does not."""
    # 2,100 + 60 + 70 + 2 x 85 = 2,400 kg
    just = an_outfit(trucks=(replace(a_truck(), max_g=2_401_000),))
    none = an_outfit(trucks=(replace(a_truck(), max_g=2_400_000),))

    assert [86_000, 1_000] == [h.load_max_g for h in haulers(just)]
    assert [1] == [h.crew for h in haulers(none)]


def test_an_overloaded_truck_is_not_helped_by_a_trailer() -> None:
    """A truck over its own limit before any load may not go out, whatever it pulls."""
    truck = replace(a_truck(), max_g=2_300_000, train_max_g=9_000_000)

    # one person: 2,315 kg > 2,300 kg
    assert () == haulers(an_outfit(trucks=(truck,), trailers=(TRAILER,)))


def test_a_trailer_adds_its_own_payload() -> None:
    """1,100 kg on the truck and 1,500 - 500 = 1,000 kg on the trailer."""
    assert 2_100_000 == pick(with_trailer(9_000_000), 2, trailer=True).load_max_g


def test_the_train_limit_binds() -> None:
    """4,500 - 2,400 - 500 = 1,600 kg for the load of both, less than 2,100."""
    hauler = pick(with_trailer(), 2, trailer=True)

    assert 1_600_000 == hauler.load_max_g
    assert 2_900_000 == hauler.own_g


def test_no_train_mass_no_trailer() -> None:
    """A truck without a train mass goes out alone only."""
    assert all(h.trailer is None for h in haulers(with_trailer(None)))


def test_the_slower_of_truck_and_trailer_sets_the_speed() -> None:
    """1,000 alone, 800 with the trailer; a truck of 700 keeps its 700."""
    outfit = with_trailer()
    slow = replace(outfit, trucks=(replace(outfit.trucks[0], speed_permille=700),))

    assert 1_000 == pick(outfit, 1).speed_permille
    assert 800 == pick(outfit, 1, trailer=True).speed_permille
    assert 700 == pick(slow, 1, trailer=True).speed_permille


def test_a_kilometre_costs_truck_and_trailer() -> None:
    """60 cents alone, 60 + 20 with the trailer."""
    assert 60 == pick(with_trailer(), 1).km_cents
    assert 80 == pick(with_trailer(), 1, trailer=True).km_cents


def test_a_trailer_adds_its_places_but_lowers_the_stack() -> None:
    """30 columns on the truck; the trailer has 5 x 3 = 15 and stacks 4 instead of 5."""
    # 2,600/508 = 5.1, 1,300/413 = 3.1; across 2,600/413 = 6.3, 1,300/508 = 2.6 -> 6 x 2 = 12
    alone, both = pick(with_trailer(), 1), pick(with_trailer(), 1, trailer=True)

    assert (30, 5) == (alone.places(508, 413), alone.high(BOX))
    assert (45, 4) == (both.places(508, 413), both.high(BOX))


@pytest.mark.parametrize(
    ("access", "alone_g", "train_g"),
    [
        (Access(), 1_100_000, 1_600_000),
        # 3,000 kg let in: 3,000 - 2,400 alone, 3,000 - 2,900 with the trailer
        (Access(max_vehicle_g=3_000_000), 600_000, 100_000),
        (Access(max_vehicle_g=9_000_000), 1_100_000, 1_600_000),
        # truck 2,100 mm wide, trailer 2,200 mm
        (Access(max_width_mm=2_200), 1_100_000, 1_600_000),
        (Access(max_width_mm=2_199), 1_100_000, -1),
        (Access(max_width_mm=2_099), -1, -1),
        (Access(four_wheel=True), -1, -1),
        (Access(trailer=False), 1_100_000, -1),
    ],
)
def test_a_yard_lets_in_so_much_load(access: Access, alone_g: int, train_g: int) -> None:
    """Mass, width, four wheels and room to turn a trailer each bound what gets in."""
    outfit = with_trailer()

    assert alone_g == pick(outfit, 2).load_for(access)
    assert train_g == pick(outfit, 2, trailer=True).load_for(access)


def test_a_yard_too_weak_for_the_empty_truck_lets_nothing_in() -> None:
    """2,399 kg let in, 2,400 kg without a load: below nought."""
    assert 0 > pick(an_outfit(), 2).load_for(Access(max_vehicle_g=2_399_000))


def test_a_four_wheel_truck_gets_in() -> None:
    """Only a truck with four-wheel drive passes such a gate."""
    outfit = an_outfit(trucks=(replace(a_truck(), four_wheel=True),))

    assert 1_100_000 == pick(outfit, 2).load_for(Access(four_wheel=True))


AXLES = Axles(1_300_000, 800_000, 700_000, 1_750_000, 2_240_000, 900)


def test_axles_with_the_crew() -> None:
    """Two people, fuel and kit: 300 kg, half of it on the rear, so 1,290 / 0.9 kg of load."""
    # 2,240 - 800 - 150 = 1,290; 1,290,000 / 0.9 = 1,433,333.3
    outfit = an_outfit(trucks=(replace(a_truck(), axles=AXLES),))

    assert (0, 1_433_333) == pick(outfit, 2).axle_loads()
    assert (0, HUGE_G) == pick(an_outfit(), 2).axle_loads()


def test_axles_bear_what_is_on_the_truck_itself() -> None:
    """A trailer without a nose takes nothing off them; 45 kg of nose are all on the rear axle."""
    truck = replace(a_truck(), axles=AXLES, train_max_g=4_500_000)
    nose = Nose(45_000, drawbar_mm=3_000, deck_starts_mm=1_700)
    outfit = an_outfit(trucks=(truck,), trailers=(TRAILER,))
    nosed = replace(outfit, trailers=(replace(TRAILER, nose=nose),))

    assert (0, 1_433_333) == pick(outfit, 2, trailer=True).axle_loads()
    # (1,290 - 45) / 0.9 = 1,383.3
    assert (0, 1_383_333) == pick(nosed, 2, trailer=True).axle_loads()


def test_the_nose_rests_on_the_truck() -> None:
    """1,100 kg less 45 kg; the deck's middle is 0.2 of 3 m ahead: 66.7 of 1,000 kg more.

    Behind the axle it would lift the nose, which nobody should count on.
    """
    # 1,700 + 1,300 = 3,000: over the axle; 1,500 + 1,300 = 2,800; 1,800 + 1,300 = 3,100
    found = []
    for starts in (1_700, 1_500, 1_800):
        nose = Nose(45_000, drawbar_mm=3_000, deck_starts_mm=starts)
        facts = with_trailer(9_000_000)
        hauler = pick(replace(facts, trailers=(replace(TRAILER, nose=nose),)), 2, trailer=True)
        found.append((hauler.truck_g, hauler.load_max_g))

    assert [(1_055_000, 2_055_000), (988_333, 1_988_333), (1_055_000, 2_055_000)] == found


def test_a_train_bears_each_for_itself() -> None:
    """1,100 kg on 30 places and 1,000 kg on 15; axles that bear less count for the truck."""
    truck = replace(a_truck(), axles=replace(AXLES, rear_max_g=1_400_000), train_max_g=4_500_000)
    axled = an_outfit(trucks=(truck,), trailers=(TRAILER,))

    assert Train(1_100_000, 30, 1_000_000, 15, 0, 1_327) == pick(
        with_trailer(), 2, trailer=True
    ).train(508, 413, 1_327)
    # (1,400 - 800 - 150) / 0.9 = 500
    assert 500_000 == pick(axled, 2, trailer=True).train(508, 413, 1_327).truck_g


def test_boxes_ride_whole_on_one_of_both() -> None:
    """At 16 kg 68 of 1,100 kg and 60 of 15 places by four; pooled 1,100 + 1,000 kg were 131."""
    assert 68 + 60 == pick(with_trailer(9_000_000), 2, trailer=True).boxes(BOX, 16_000)
    assert 68 == pick(with_trailer(), 2).boxes(BOX, 16_000)


def test_a_truck_whose_axles_bear_no_box_takes_none_off_the_trailer() -> None:
    """A rear axle that the kit alone overloads leaves the trailer its 60 of 15 places by four."""
    truck = replace(a_truck(), axles=replace(AXLES, rear_max_g=0), train_max_g=9_000_000)
    outfit = an_outfit(trucks=(truck,), trailers=(TRAILER,))
    hauler = next(one for one in haulers(outfit) if one.crew == 2 and one.trailer)

    assert hauler.bears()[1] < 0
    assert 60 == hauler.boxes(BOX, 16_000)
