"""Loads worked by hand: decks, payload, order of stops, lots, a trailer, three bases.

All outfits are those of ``tests.season.tiny``: a yard of four colonies and six boxes takes
4 x 240 s to inspect and 6 x 120 s to clear, 4 x 120 s to feed, 4 x 60 s for strips or
blocks, and 10 min to set up; loading takes 15 min and one for each 50 l begun, unloading 10
min and 30 s a box; a minute is 0.50, and one person alone is always cheaper than two, since
only the work at the hives is shared.  A colony of 8,000 g need gets 8.5 l (of 991 g a litre).
"""

from dataclasses import replace

from runplanner.days import DAY_MIN
from runplanner.outfit.trucks import Deck, Trailer
from runplanner.outfit.yards import Access
from tests.outfits import a_truck, a_yard, an_outfit
from tests.season.shapes import DONE, a_bill, did, planned, trips, visits
from tests.season.tiny import (
    EVEN_FEED,
    four,
    one_order_only,
    split_over_loads,
    three_bases,
    tiny,
    trailer_pays,
    two_yards,
)


def test_two_yards_ride_on_one_trip() -> None:
    """Two yards on one road are done one after the other, all jobs in one stop each."""
    plan = planned(two_yards())

    # Stop: (4 x 240 + 6 x 120 + 4 x 120 + 4 x 60) / 60 = 40, and 10: 50 min.  Load 15 + 2,
    # unload 10 + 12 x 30 / 60 = 16.  17 + 10 + 50 + 4 + 50 + 14 + 16 = 161 min = 80.50.
    # 28 km = 16.80; 68 l mixed in 68 min = 34.00 and worth 102.00; 12 boxes spun = 6.00.
    assert DONE == plan.tally
    assert [["yard1", "yard2"]] == [sorted(trip) for trip in trips(plan)]
    assert plan.bill == a_bill(
        km=1_680, days=4_000, crew=8_050, spinning=600, mixing=3_400, syrup=10_200, strips=3_200
    )


def test_a_tight_deck_makes_two_trips() -> None:
    """Four columns of three boxes do not hold two yards of nine, so each goes by itself."""
    truck = replace(a_truck(), deck=Deck(1_100, 900, 1_200, 3))
    yards = [four(n, 1, boxes=9, stores_g=8_000) for n in (1, 2)]
    plan = planned(tiny([(10, 0), (14, 0)], yards, 1, trucks=(truck,)))

    # 1,100 / 508 = 2 by 900 / 413 = 2 columns, 12 boxes; 18 want 6 columns.
    # Stop: (4 x 240 + 9 x 120 + 4 x 60) / 60 = 38, and 10: 48 min.  Unload 10 + 9 / 2 = 15.
    # 15 + 10 + 48 + 10 + 15 = 98 and 15 + 14 + 48 + 14 + 15 = 106 min, together 102.00.
    # (10 + 10 + 14 + 14) km = 28.80; 18 boxes spun = 9.00.
    assert DONE == plan.tally
    assert [1, 1] == [len(trip) for trip in trips(plan)]
    assert [3, 3] == [call.after.places for _, call in visits(plan)]
    assert [12, 12] == [call.boxes_limit for _, call in visits(plan)]
    assert plan.bill == a_bill(km=2_880, days=4_000, crew=10_200, spinning=900, strips=3_200)


def test_a_mixed_trip_fits_in_one_order_only() -> None:
    """With 200 kg to carry, the yard that wants most syrup must come before the boxes."""
    plan = planned(one_order_only())

    # Yard 2: 12,000 g / 991 = 12.11 l, so 12.5 l each, 50 l, 66.35 kg; one box of 16 kg.
    # Yard 1: 34 l, 45.118 kg; nine boxes of 16 kg, 144 kg.  Four cans 6 kg, strips 80 g.
    # Yard 1 first: 144 + 66.35 + 6 = over 216 kg.  Yard 2 first: 16 + 45.118 + 6 + 0.08 kg,
    # then 160 + 6 = 166 kg.  Load 17, 10, stop (960 + 120 + 480 + 240) / 60 + 10 = 40, 20,
    # stop (960 + 1,080 + 480 + 240) / 60 + 10 = 56, 10, unload 15: 168 min = 84.00.
    assert [["yard2", "yard1"]] == trips(plan)
    assert [67_198, 166_000] == [call.after.load_g for _, call in visits(plan)]
    assert plan.bill == a_bill(
        km=2_400, days=4_000, crew=8_400, spinning=500, mixing=4_200, syrup=12_600, strips=3_200
    )


def test_a_yard_too_heavy_for_one_load_is_split() -> None:
    """Eight boxes of 160 kg go in two loads; who comes off first gets a block."""
    plan = planned(split_over_loads())

    # One person: 1,185 kg, seven boxes.  Two colonies have four boxes, 640 kg.
    # First: (2 x 240 + 4 x 120 + 2 x 60) / 60 + 10 = 28 min; 15 + 6 + 28 + 6 + 12 = 67.
    # Then: (2 x 240 + 4 x 120 + 4 x 120 + 4 x 60) / 60 + 10 = 38; 16 + 6 + 38 + 6 + 12 = 78.
    assert ["0 yard1 take-off 2, block 2", "0 yard1 take-off 2, feed 4, strips 4"] == did(plan)
    assert plan.bill == a_bill(
        km=1_440,
        days=4_000,
        crew=7_250,
        spinning=400,
        mixing=1_700,
        blocks=800,
        syrup=5_100,
        strips=1_600,
    )


def test_a_trailer_is_taken_where_the_deck_needs_it() -> None:
    """Four places do not hold two cans and sixteen boxes; the trailer has sixteen more."""
    plan = planned(trailer_pays())

    # Legs 20 min at 900 per mille: 23.  Load 16, stop (960 + 16 x 120 + 480 + 240) / 60 + 10
    # = 70, unload 10 + 8: 16 + 23 + 70 + 23 + 18 = 150 min = 75.00; 40 km at 0.70 = 28.00.
    assert ["tr"] == [shift.trailer for shift in plan.shifts]
    assert [150] == [shift.end_min - shift.start_min for shift in plan.shifts]
    assert plan.bill == a_bill(
        km=2_800, days=4_000, crew=7_500, spinning=800, mixing=1_700, syrup=5_100, strips=1_600
    )


def test_a_trailer_stays_home_where_a_yard_cannot_turn_it() -> None:
    """The gate that lets no trailer in is served by the truck alone, in lots."""
    outfit = trailer_pays()
    yard = replace(outfit.yards[0], access=Access(trailer=False))
    rules = replace(outfit.rules, smallest_lot=1)
    plan = planned(replace(outfit, yards=(yard,), rules=rules))

    # 4 places of 3: at most 12 boxes and no can; 3 colonies have 12 boxes, then 2 cans more.
    assert DONE == plan.tally
    assert {""} == {shift.trailer for shift in plan.shifts}
    assert len(did(plan)) > 1
    assert all(call.after.places <= 4 for _, call in visits(plan))


def test_a_part_filled_tank_and_cans_spare_a_second_trip() -> None:
    """680 L are 902 kg: an IBC part-filled on the trailer, seven cans on the truck."""
    truck = replace(a_truck(), max_g=3_100_000, train_max_g=6_000_000)
    cart = Trailer("tr", "Tr", 300_000, 1_050_000, Deck(2_500, 1_600, 1_200, 5), 1_900, 950, 10)
    ibc, can = an_outfit().containers
    plan = planned(tiny(
        [(40, 0)], [a_yard(1, colonies=80, boxes=0, days=2)], 2, trucks=(truck,), trailers=(cart,),
        containers=(ibc, replace(can, owned=20)), feed=replace(EVEN_FEED, ready_ml=1_000_000),
    ))  # fmt: skip

    assert DONE == plan.tally
    (shift,) = plan.shifts
    assert "tr" == shift.trailer
    # the trailer bears 750 kg: (750 - 60) / 1.327 = 520 L; with two people 700 kg ride ahead
    assert [{"ibc": 1, "can": 7}] == [
        {one.container: one.count for one in trip.containers} for trip in shift.trips
    ]


def test_home_store_and_honey_house_are_three_places() -> None:
    """Load at the store, unload honey first and then the brood boxes, and drive home."""
    plan = planned(three_bases())
    (trip,) = plan.shifts[0].trips

    # 6 to the store, 16 to the yard, 8 to the honey house, 12 to the store, 6 home: 48 km.
    # Load 16, stop (960 + 8 x 120 + 480 + 240) / 60 + 10 = 54, unload 13 and 11: 142 min.
    assert [2, 1, 3, 2] == [call.place for call in trip.calls]
    assert [(0, 0), (6, 2), (0, 2), (0, 0)] == [
        (c.after.boxes, c.after.brood_boxes) for c in trip.calls
    ]
    assert 142 == plan.shifts[0].end_min - plan.shifts[0].start_min
    assert plan.bill == a_bill(
        km=2_880, days=4_000, crew=7_100, spinning=300, mixing=1_700, syrup=5_100, strips=1_600
    )


def test_hives_are_visited_where_they_stand_that_day() -> None:
    """Moved from 40 km to 5 km off on the second day, they are done then."""
    yard = four(1, 2, sites=((0, 1), (1, 2)))
    plan = planned(tiny([(40, 0), (5, 0)], [yard], 2))
    ((shift, call),) = visits(plan)

    # 99 min less the legs 20 and plus 10: 16 + 5 + 50 + 5 + 13 = 89 min; 10 km.
    assert (1, 2) == (shift.day, call.place)
    assert DAY_MIN <= call.start_min
    assert (600, 4_450) == (plan.bill.km, plan.bill.crew)
