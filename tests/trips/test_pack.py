"""Loads leg by leg: mass, places, boards, gates, axles; by hand and by property."""

from dataclasses import replace
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import BoxKind, Container
from runplanner.outfit.trucks import Axles, Deck, Nose
from runplanner.outfit.yards import Access, Clearing, Health
from runplanner.trips.day import Trip
from runplanner.trips.ground import Ground
from runplanner.trips.pack import Leg, Packed, boards_to_load, fits, goods, pack
from runplanner.trips.task import Goods
from runplanner.visits.stop import Stop
from tests.outfits import a_truck, a_yard, an_outfit
from tests.trips.stops import ground, numbered, off, with_trailer

FEED = Stop(0, round=1, fed=10)
"""85 L for ten colonies: 112,795 g of syrup (85 x 1,327), in four cans of 1.5 kg."""


def sure(facts: Ground, *stops: Stop, hauler: int = 1) -> Packed:
    """How a trip of the usual truck and two people rides, which it must."""
    packed = pack(facts, hauler, stops)
    assert packed is not None
    return packed


def carrying(load_max_g: int, outfit: Outfit | None = None) -> Outfit:
    """An outfit whose truck and two people may carry just so much."""
    truck = replace(a_truck(), max_g=2_400_000 + load_max_g)
    return replace(outfit or an_outfit(), trucks=(truck,))


# Legs


def test_boxes_come_aboard_stop_by_stop() -> None:
    """15 boxes of 16 kg at each of two yards, 10 blocks of 2.1 kg off at each."""
    facts = ground(*numbered(2))
    legs = sure(facts, off(facts, 0, 10, blocks=10), off(facts, 1, 10, blocks=10)).legs

    # 20 blocks are 42 kg in one place (60 to a place); 15 boxes five high stand in 3 columns
    assert legs == (
        Leg(0, 0, 0, 20, 0, 0, 0, 42_000, 1),
        Leg(15, 0, 0, 10, 0, 0, 0, 261_000, 4),
        Leg(30, 0, 0, 0, 0, 0, 0, 480_000, 6),
    )


def test_syrup_is_poured_and_the_cans_stay() -> None:
    """112,795 g and four cans of 6 kg leave the store; 6 kg and four places come back."""
    packed = sure(ground(), FEED)

    assert (0, 4) == packed.tanks
    assert packed.legs == (
        Leg(0, 0, 85_000, 0, 0, 0, 0, 118_795, 4),
        Leg(0, 0, 0, 0, 0, 0, 0, 6_000, 4),
    )
    assert 30 == packed.places_max


def test_part_of_a_gram_of_syrup_counts_as_a_whole_one() -> None:
    """8.5 L are 11,279.5 g: 11,280 g, and a can of 1,500 g."""
    legs = sure(ground(), Stop(0, round=1, fed=1)).legs

    assert 12_780 == legs[0].load_g


def test_strips_and_feeders_ride_along() -> None:
    """20 strips of 10 g take no place; 10 feeders of 1.2 kg, ten to a place, take one."""
    outfit = an_outfit()
    facts = ground(outfit=replace(outfit, kit=replace(outfit.kit, feeders_owned=40)))
    legs = sure(facts, FEED._replace(strips=True)).legs

    assert Leg(0, 0, 85_000, 0, 0, 20, 10, 118_795 + 200 + 12_000, 5) == legs[0]
    assert Leg(0, 0, 0, 0, 0, 0, 0, 6_000, 4) == legs[1]


def test_brood_boxes_stand_with_honey_boxes_of_their_kind() -> None:
    """15 honey and 4 brood boxes five high: 4 columns; a brood box with comb is 9 kg."""
    facts = ground(*numbered(1, brood_boxes_off=4))
    legs = sure(facts, off(facts, 0, 10)).legs

    assert Leg(15, 4, 0, 0, 0, 0, 0, 15 * 16_000 + 4 * 9_000, 4) == legs[1]


def test_kinds_of_box_do_not_share_a_column() -> None:
    """Six mediums and six deeps: 2 columns each, though 12 boxes would stand in 3."""
    deep = BoxKind("deep", "Deep", 508, 413, 244, 6_000)
    yards = (replace(a_yard(1), boxes=6), replace(a_yard(2), boxes=6, box="deep"))
    facts = ground(*yards, outfit=an_outfit(boxes=(an_outfit().boxes[0], deep)))

    # deeps: 1,200 / 244 = 4 high
    assert 4 == sure(facts, off(facts, 0, 10), off(facts, 1, 10)).legs[2].places


def test_boxes_of_a_watched_yard_stand_apart() -> None:
    """Six boxes and six of a watched yard: 2 + 2 columns, of sound yards 3."""
    sound, watched = numbered(2, boxes=6), numbered(2, boxes=6, health=Health.WATCH)
    apart = ground(sound[0], watched[1])
    together = ground(*sound)

    assert 4 == sure(apart, off(apart, 0, 10), off(apart, 1, 10)).legs[2].places
    assert 3 == sure(together, off(together, 0, 10), off(together, 1, 10)).legs[2].places


def test_places_are_of_the_largest_box_aboard() -> None:
    """A square box aboard makes the places 24 and puts the IBC on 6 of them."""
    square = BoxKind("square", "Dadant", 500, 500, 310, 7_000)
    yards = (a_yard(1), replace(a_yard(2), box="square", boxes=3))
    only_ibc = (an_outfit().containers[0],)
    outfit = an_outfit(boxes=(an_outfit().boxes[0], square), containers=only_ibc)
    facts = ground(*yards, outfit=outfit)

    mediums, both = (
        sure(facts, off(facts, 0, 10)),
        sure(facts, off(facts, 0, 10), off(facts, 1, 10)),
    )
    assert (30, 24) == (mediums.places_max, both.places_max)
    # nothing aboard: the largest kind there is
    assert 24 == sure(facts, FEED).places_max
    # 1,200 x 1,000 mm over 508 x 413: 6; over 500 x 500: 3 x 2
    assert 6 == sure(facts, FEED).legs[0].places


# Published and hand-worked loads


def national(crate_g: int, boxes: int) -> Ground:
    """National supers, 460 mm square and 150 mm high (BS 1300:1960), 1,050 kg of payload."""
    kind = BoxKind("medium", "National super", 460, 460, 150, 4_500)
    yard = replace(a_yard(1), colonies=10, boxes=boxes, box_g=crate_g)
    return ground(yard, outfit=carrying(1_050_000, an_outfit(boxes=(kind,))))


@pytest.mark.parametrize(("boxes", "rides"), [(61, True), (62, False)])
def test_weight_binds_full_supers(boxes: int, *, rides: bool) -> None:
    """At 17 kg gross 1,050 kg allow 61 supers, less than 3 high on 6 x 4 columns."""
    # 61 x 17 = 1,037 kg, 62 x 17 = 1,054 kg; 61 / 24 = 2.5
    facts = national(17_000, boxes)
    packed = pack(facts, 1, (off(facts, 0, 10),))

    assert rides == (packed is not None)
    if packed is not None:
        assert 24 == packed.places_max
        # they stand five high
        assert 13 == packed.legs[1].places


@pytest.mark.parametrize(("boxes", "rides"), [(120, True), (121, False)])
def test_the_deck_binds_empty_supers(boxes: int, *, rides: bool) -> None:
    """At 4.5 kg, 24 columns five high are full at 120 supers and 540 kg."""
    facts = national(4_500, boxes)

    assert rides == (pack(facts, 1, (off(facts, 0, 10),)) is not None)


@pytest.mark.parametrize(("colonies", "rides"), [(74, True), (75, False)])
def test_a_part_filled_ibc(colonies: int, *, rides: bool) -> None:
    """With a gram less than 1,055.25 kg left an IBC carries 740 L of 2:1, not 750."""
    # 750 L x 1.327 + 60 kg = 1,055.25 kg; full it would be 1,387 kg.  9.9 kg of stores want
    # 9,990 ml, rounded up to 10 L a colony
    yard = replace(a_yard(1), colonies=80, target_g=9_900)
    ibc = an_outfit().containers[0]
    facts = ground(yard, outfit=carrying(1_055_249, an_outfit(containers=(ibc,))))

    assert rides == (pack(facts, 1, (Stop(0, round=1, fed=colonies),)) is not None)


def test_a_mixed_trip_that_rides_in_one_order_only() -> None:
    """Syrup must be poured before the boxes come on: 360 kg hold either, not both."""
    yards = (a_yard(1), replace(a_yard(2), colonies=20))
    facts = ground(*yards, outfit=carrying(360_000))
    boxes, syrup = off(facts, 0, 10, blocks=10), Stop(1, round=1, fed=20)

    # out with 170 L = 225.6 kg, 21 kg of blocks and 10.5 kg of cans = 257.1 kg; after the syrup
    # 31.5 kg, after the boxes 250.5 kg.  Boxes first: 240 + 225.6 + 10.5 = 476.1 kg > 360
    rides = [order for order in permutations((boxes, syrup)) if pack(facts, 1, order)]
    assert [(syrup, boxes)] == rides


def test_three_stops_ride_in_three_of_six_orders() -> None:
    """The heavy boxes come on after the syrup; the light ones may come on before it."""
    yards = (a_yard(1), replace(a_yard(2), colonies=20), replace(a_yard(3), boxes=9))
    facts = ground(*yards, outfit=carrying(400_000))
    heavy, syrup, light = off(facts, 0, 10), Stop(1, round=1, fed=20), off(facts, 2, 10)

    # heavy 240 kg, light 144 kg, syrup and seven cans 236.1 kg, the cans alone 10.5 kg:
    # heavy with syrup 476.1, light with syrup 380.1, heavy and light with cans 394.5 kg
    rides = {order for order in permutations((heavy, syrup, light)) if pack(facts, 1, order)}
    assert rides == {(syrup, heavy, light), (syrup, light, heavy), (light, syrup, heavy)}


# Boards


def test_boards_that_come_back_go_out_again() -> None:
    """Ten come back at the first yard and serve the second: none are loaded."""
    facts = ground(*numbered(2, clearing=Clearing.BOARDS))
    legs = sure(facts, off(facts, 0, 10), Stop(1, boards=10)).legs

    assert [0, 10, 0] == [leg.boards for leg in legs]


def test_boards_needed_before_any_come_back_are_loaded() -> None:
    """The other way round ten are loaded, and ten brought home."""
    facts = ground(*numbered(2, clearing=Clearing.BOARDS))
    legs = sure(facts, Stop(1, boards=10), off(facts, 0, 10)).legs

    assert [10, 0, 10] == [leg.boards for leg in legs]
    # 1.5 kg each, 40 to a place
    assert (15_000, 1) == (legs[0].load_g, legs[0].places)


def back(count: int) -> Goods:
    """A take-off that brings boards back."""
    return Goods(0, 0, 0, count, 0, 0)


def out(count: int) -> Goods:
    """A visit that puts boards out."""
    return Goods(0, 0, count, 0, 0, 0)


@pytest.mark.parametrize(
    ("used", "loaded"),
    [
        ([], 0),
        ([out(10)], 10),
        ([back(10), out(12)], 2),
        ([out(10), back(10), out(12)], 12),
        ([out(3), back(10), out(5), out(5)], 3),
        # ten put on and ten lifted at one stop, from other colonies
        ([out(10)._replace(boards_back=10)], 10),
    ],
)
def test_boards_to_load(used: list[Goods], loaded: int) -> None:
    """As many as make up the deepest shortfall."""
    assert loaded == boards_to_load(used)


# Limits


def test_a_leg_a_gram_too_heavy() -> None:
    """240 kg of boxes and 0 of anything else ride at 240 kg, not at 239.999 kg."""
    stop = off(ground(), 0, 10)

    assert pack(ground(outfit=carrying(240_000)), 1, (stop,)) is not None
    assert pack(ground(outfit=carrying(239_999)), 1, (stop,)) is None


def test_a_deck_a_place_too_small() -> None:
    """15 boxes five high want three places."""
    stop = off(ground(), 0, 10)

    def deck(length_mm: int) -> Ground:
        truck = replace(a_truck(), deck=Deck(length_mm, 413, 1_200, 5))
        return ground(outfit=an_outfit(trucks=(truck,)))

    assert pack(deck(3 * 508), 1, (stop,)) is not None
    assert pack(deck(3 * 508 - 1), 1, (stop,)) is None


def test_boxes_too_tall_to_stand() -> None:
    """Under a cover of 160 mm no medium box stands; syrup rides all the same."""
    truck = replace(a_truck(), deck=Deck(3_100, 2_100, 160, 5))
    facts = ground(outfit=an_outfit(trucks=(truck,)))

    assert pack(facts, 1, (off(facts, 0, 10),)) is None
    assert not fits(facts, 1, (off(facts, 0, 10),), (0, 0))
    assert pack(facts, 1, (FEED,)) is not None


def test_not_enough_containers() -> None:
    """1,000 L and 12 cans of 25 L hold 1,300 L; 153 colonies want 1,300.5 L."""
    yard = replace(a_yard(1), colonies=200)
    truck = replace(a_truck(), max_g=9_000_000)
    facts = ground(yard, outfit=an_outfit(trucks=(truck,)))

    assert (1, 12) == sure(facts, Stop(0, round=1, fed=152)).tanks
    assert pack(facts, 1, (Stop(0, round=1, fed=153),)) is None


def test_a_heavier_container_is_taken_where_the_deck_is_full() -> None:
    """Four cans of 6 kg are lightest; on three places or fewer a drum of 12 kg must do."""
    drum = Container("drum", "Drum", 200_000, 12_000, 500, 400, 1)
    can = an_outfit().containers[1]
    outfit = an_outfit(containers=(can, drum))

    def on(places: int) -> tuple[int, ...]:
        truck = replace(a_truck(), deck=Deck(places * 508, 413, 1_200, 5))
        return sure(ground(outfit=replace(outfit, trucks=(truck,))), FEED).tanks

    assert [(4, 0), (0, 1), (0, 1)] == [on(4), on(3), on(1)]


@pytest.mark.parametrize(
    ("limit_g", "order", "rides"),
    [
        # the truck of two people weighs 2,400 kg; the second yard's gate lets in 2,700 kg
        (2_700_000, (0, 1), False),  # enters with 240 kg, leaves with 480 kg
        (2_700_000, (1, 0), True),  # enters with nothing, leaves with 240 kg
        (2_639_999, (1, 0), False),  # a gram too little to leave
        (2_880_000, (0, 1), True),
    ],
)
def test_a_gate_bounds_both_ways(limit_g: int, order: tuple[int, int], *, rides: bool) -> None:
    """The laden truck must get in and out."""
    yards = (a_yard(1), replace(a_yard(2), access=Access(max_vehicle_g=limit_g)))
    facts = ground(*yards)
    trip = tuple(off(facts, yard, 10) for yard in order)

    assert rides == (pack(facts, 1, trip) is not None)


def test_a_barred_yard() -> None:
    """No load at all where the truck may not go."""
    facts = ground(*numbered(1, access=Access(four_wheel=True)))

    assert pack(facts, 1, (Stop(0, strips=True),)) is None


def axled(**changes: int) -> Ground:
    """A truck of 1,300 and 800 kg, two people, nine tenths of the load on the rear axle."""
    axles = replace(Axles(1_300_000, 800_000, 700_000, 1_750_000, 2_240_000, 900), **changes)
    return ground(outfit=an_outfit(trucks=(replace(a_truck(), axles=axles),)))


def test_the_rear_axle_bounds_the_load() -> None:
    """800 + 150 + 0.9 x 240 = 1,166 kg on the rear."""
    stop = off(ground(), 0, 10)

    assert pack(axled(rear_max_g=1_166_000), 1, (stop,)) is not None
    assert pack(axled(rear_max_g=1_165_999), 1, (stop,)) is None


def test_the_steering_axle_bounds_the_emptied_truck() -> None:
    """Laden the front has 1,474 kg, unloaded 1,450: a least of 1,451 kg cannot be kept home."""
    stop = off(ground(), 0, 10)

    assert pack(axled(front_min_g=1_450_000), 1, (stop,)) is not None
    assert pack(axled(front_min_g=1_451_000), 1, (stop,)) is None


def test_containers_may_keep_the_steering_axle_down() -> None:
    """6 kg of cans add 0.6 kg on the front, just enough at 1,450.6 kg."""
    assert pack(axled(front_min_g=1_450_600), 1, (FEED,)) is not None
    assert pack(axled(front_min_g=1_450_601), 1, (FEED,)) is None


def test_a_trailer_carries_more() -> None:
    """1,240 kg of boxes: 1,100 go on the truck alone, 1,600 on truck and trailer."""
    yard = replace(a_yard(1), boxes=77)
    facts = ground(yard, outfit=with_trailer(an_outfit()))

    assert pack(facts, 1, (off(facts, 0, 10),)) is None
    packed = sure(facts, off(facts, 0, 10), hauler=3)
    # four high on both: 77 / 4 = 20 columns of 45
    assert (20, 45) == (packed.legs[1].places, packed.places_max)


def test_a_tank_rides_whole_behind_or_ahead() -> None:
    """1,100 and 1,000 kg are borne: 780 L in an IBC, 1,095 kg, ride; 790 L, 1,108 kg, do not.

    1,600 kg for both together would bear either, and cans that can be shared ride.
    """
    outfit = with_trailer(an_outfit())
    ibc, can = outfit.containers
    facts = ground(outfit=replace(outfit, containers=(ibc,)))
    cans = ground(outfit=replace(outfit, containers=(replace(can, owned=40),)))
    fed = Stop(0, round=1, fed=10)
    each = facts.task(fed).used.ml // 10

    def litres(kilo: int, where: Ground) -> Packed | None:
        colonies = kilo * 1_000 // each
        here = replace(where.outfit.yards[0], colonies=colonies)
        return pack(ground(here, outfit=where.outfit), 3, (Stop(0, round=1, fed=colonies),))

    assert 8_500 == each
    # 91 x 8.5 = 773.5 L are 1,026.4 kg, 92 x 8.5 = 782 L 1,037.7; 60 kg of tank
    assert litres(782, facts) is not None
    # 98 x 8.5 = 833 L are 1,105.4 kg
    assert litres(833, facts) is None
    assert litres(833, cans) is not None


def test_a_tank_rides_part_filled_with_cans_on_the_other() -> None:
    """1,100 kg of 1,600 on the truck, and what is over 783 L goes in cans behind."""
    outfit = with_trailer(an_outfit())
    facts = ground(a_yard(1, colonies=120, boxes=0), outfit=outfit)
    stop = Stop(0, round=1, fed=110)

    # 110 x 8.5 = 935 L; (1,100 - 60) / 1.327 = 783 L, the other 152 L in 7 cans
    assert (1, 7) == sure(facts, stop, hauler=3).tanks
    assert pack(facts, 3, (stop,), (1, 7)) is not None
    assert pack(facts, 3, (stop,), (1, 6)) is None


def test_a_trailer_carries_what_stands_on_its_deck() -> None:
    """Four places by four of 16 kg are 256 kg behind: 68 + 16 boxes, where mass allows 100."""
    outfit = with_trailer(an_outfit())
    cart = replace(outfit.trailers[0], deck=Deck(1_016, 826, 700, 4))
    fits_84, fits_85 = (
        ground(replace(a_yard(1), boxes=many), outfit=replace(outfit, trailers=(cart,)))
        for many in (84, 85)
    )

    assert pack(fits_84, 3, (off(fits_84, 0, 10),)) is not None
    assert pack(fits_85, 3, (off(fits_85, 0, 10),)) is None


def test_a_nose_takes_its_weight_off_the_truck() -> None:
    """With 50 kg of nose the truck bears 1,050 kg, 65 boxes; 60 more stand behind."""
    outfit = with_trailer(an_outfit())
    truck = replace(outfit.trucks[0], train_max_g=6_000_000)
    nose = Nose(50_000, drawbar_mm=3_000, deck_starts_mm=1_700)
    cart = replace(outfit.trailers[0], nose=nose)
    facts = [
        ground(replace(a_yard(1), boxes=many), outfit=replace(one, trucks=(truck,)))
        for many, one in (
            (125, replace(outfit, trailers=(cart,))),
            (126, replace(outfit, trailers=(cart,))),
            (126, outfit),
        )
    ]

    assert [True, False, True] == [pack(one, 3, (off(one, 0, 10),)) is not None for one in facts]


# With given containers


def test_just_these_containers() -> None:
    """Four cans carry the trip's syrup; an IBC in their stead wants 60 kg and 6 places."""
    facts = ground(outfit=carrying(150_000))

    assert fits(facts, 1, (FEED,), (0, 4))
    # 112.8 + 60 > 150 kg
    assert not fits(facts, 1, (FEED,), (1, 0))


def test_more_boxes_with_the_same_containers() -> None:
    """With two cans aboard 68 boxes of 16 kg ride in 1,100 kg, 69 do not."""
    # 68 x 16 + 3 = 1,091 kg, 69 x 16 + 3 = 1,107 kg
    facts = ground()
    stop = off(facts, 0, 10)

    assert fits(facts, 1, (stop._replace(boxes=68),), (0, 2))
    assert not fits(facts, 1, (stop._replace(boxes=69),), (0, 2))


def test_goods_of_a_stop() -> None:
    """As its task has them."""
    facts = ground()
    assert 85_000 == goods(facts, FEED).ml


# Properties


def busy(outfit: Outfit) -> Ground:
    """Three yards of different boxes, clearing, gates and health; one gate takes 200 kg."""
    deep = BoxKind("deep", "Deep", 520, 420, 244, 6_000)
    yards = (
        replace(a_yard(1), clearing=Clearing.BOARDS, brood_boxes_off=3),
        replace(a_yard(2), box="deep", box_g=27_000, access=Access(max_vehicle_g=2_600_000)),
        replace(a_yard(3), health=Health.WATCH, target_g=16_000),
    )
    kit = replace(outfit.kit, feeders_owned=100)
    return ground(*yards, outfit=replace(outfit, boxes=(*outfit.boxes, deep), kit=kit))


BUSY = busy(carrying(300_000))


@st.composite
def trips(draw: st.DrawFn) -> Trip:
    """Up to four stops at the three yards, with all kinds of work."""
    stops = []
    for _ in range(draw(st.integers(1, 4))):
        yard = draw(st.integers(0, 2))
        work = draw(st.sampled_from(["off", "feed", "boards", "strips"]))
        count = draw(st.integers(1, 10))
        if work == "off":
            stops.append(off(BUSY, yard, count, blocks=count)._replace(strips=draw(st.booleans())))
        elif work == "feed":
            stops.append(Stop(yard, round=draw(st.integers(1, 2)), fed=count))
        else:
            stops.append(Stop(yard, boards=count) if work == "boards" else Stop(yard, strips=True))
    return tuple(stops)


def mass(leg: Leg, trip: Trip, done: int, tanks: tuple[int, ...]) -> int:
    """The load on leaving the first ``done`` stops, summed anew."""
    outfit, kit = BUSY.outfit, BUSY.outfit.kit
    boxes = sum(s.boxes * outfit.yards[s.yard].box_g for s in trip[:done])
    brood = sum(s.brood * 2 * outfit.box(outfit.yards[s.yard].box).empty_g for s in trip[:done])
    cans = sum(n * kind.empty_g for n, kind in zip(tanks, outfit.containers, strict=True))
    return (
        boxes + brood + cans - (-leg.ml * outfit.feed.density_g_per_l // 1000)
        + leg.blocks * kit.block_g + leg.boards * kit.board_g
        + leg.strips * kit.strip_g + leg.feeders * kit.feeder_g
    )  # fmt: skip


@given(trip=trips(), hauler=st.integers(0, 1))
def test_no_leg_is_ever_over_a_limit(trip: Trip, hauler: int) -> None:
    """Mass, places, gates, containers and goods hold on every leg of whatever rides."""
    packed = pack(BUSY, hauler, trip)
    if packed is None:
        return
    kinds, way = BUSY.outfit.containers, BUSY.haulers[hauler]
    assert packed.legs[0].ml <= sum(
        n * kind.holds_ml for n, kind in zip(packed.tanks, kinds, strict=True)
    )
    for done, leg in enumerate(packed.legs):
        assert leg.load_g == mass(leg, trip, done, packed.tanks)
        assert leg.load_g <= way.load_max_g
        assert leg.places <= packed.places_max
        assert min(leg) >= 0
        for stop in trip[max(0, done - 1) : done + 1]:
            most = BUSY.outfit.yards[stop.yard].access.max_vehicle_g
            assert most is None or way.own_g + leg.load_g <= most
    last = packed.legs[-1]
    assert (0, 0, 0, 0) == (last.ml, last.blocks, last.strips, last.feeders)
    # no board is loaded that is never needed
    assert packed.legs[0].boards == 0 or min(leg.boards for leg in packed.legs) == 0


@given(trip=trips(), at=st.integers(0, 3))
def test_a_box_less_still_rides(trip: Trip, at: int) -> None:
    """Where a trip rides, it rides with one honey box fewer at any stop that has two."""
    stop = trip[min(at, len(trip) - 1)]
    lighter = tuple(
        one._replace(boxes=one.boxes - 1) if one is stop and one.boxes > 1 else one for one in trip
    )
    if pack(BUSY, 1, trip) is not None:
        assert pack(BUSY, 1, lighter) is not None


@given(trip=trips())
def test_fewer_people_ride_with_no_less(trip: Trip) -> None:
    """What rides with two people rides with one, who leaves 85 kg more for the load."""
    if pack(BUSY, 1, trip) is not None:
        assert pack(BUSY, 0, trip) is not None


@given(trip=trips())
def test_what_was_packed_fits_its_containers(trip: Trip) -> None:
    """The containers chosen are found to do."""
    packed = pack(BUSY, 1, trip)
    if packed is not None:
        assert fits(BUSY, 1, trip, packed.tanks)


@pytest.mark.parametrize(("boxes", "rides"), [(100, True), (101, False)])
def test_kinds_mixed_stand_on_a_floor_that_takes_both(boxes: int, *, rides: bool) -> None:
    """2,800 x 1,850 mm: 20 columns of 508 x 413, 24 of 460 x 460, 20 of 508 x 460 along."""
    square = BoxKind("square", "Square", 460, 460, 150, 4_500)
    truck = replace(a_truck(), deck=Deck(2_800, 1_850, 900, 5), max_g=7_500_000)
    yards = [a_yard(1, colonies=120, boxes=120), replace(a_yard(2, colonies=5), box="square")]
    outfit = an_outfit([(10, 0), (14, 0)], yards, trucks=(truck,))
    facts = Ground(replace(outfit, boxes=(*outfit.boxes, square)))
    few = Stop(0, off=boxes - 5, boxes=boxes - 5)

    assert (pack(facts, 1, (Stop(0, off=boxes, boxes=boxes),)) is not None) is rides
    assert (pack(facts, 1, (few, Stop(1, off=5, boxes=5))) is not None) is rides
    assert pack(facts, 1, (Stop(1, off=5, boxes=120),)) is not None
