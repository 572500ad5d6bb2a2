"""The tables that trips lean on."""

from dataclasses import replace

import pytest

from runplanner.days import Span
from runplanner.haulage.axles import HUGE_G
from runplanner.outfit.bases import Base, Travel
from runplanner.outfit.stores import BoxKind
from runplanner.outfit.trucks import Axles
from runplanner.outfit.yards import Access, Health
from runplanner.phrase import phrase
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import a_truck, a_yard, an_outfit
from tests.trips.stops import ground, numbered, with_trailer

DEEP = BoxKind("deep", "Langstroth deep", 508, 413, 244, 6_000)
SQUARE = BoxKind("square", "Dadant", 500, 500, 310, 7_000)
MEDIUM = an_outfit().boxes[0]


def three_kinds() -> Ground:
    """Two yards, of mediums and of square boxes, and a third kind that nobody has."""
    yards = (a_yard(1), replace(a_yard(2), box="square"))
    return ground(*yards, outfit=an_outfit(boxes=(MEDIUM, SQUARE, DEEP)))


def test_box_kinds() -> None:
    """Mediums are as long as 508 mm, square boxes as wide as 500: mixed they want both."""
    facts = three_kinds()

    assert (0, 1) == facts.kinds
    assert ((508, 413), (500, 500), (508, 413), (508, 500)) == facts.cells
    assert [1, 3, 3] == [facts.cell(frozenset(kinds)) for kinds in ((1,), (0, 1), ())]
    # twice 4.5 kg, twice 7 kg
    assert (9_000, 14_000) == facts.brood_g


def test_kinds_of_which_one_covers_the_other_want_no_floor_of_their_own() -> None:
    """The wider of two boxes as long as each other; a box typed the other way round is the same."""
    wide, turned = replace(MEDIUM, id="wide", width_mm=500), replace(MEDIUM, id="turned")
    turned = replace(turned, length_mm=MEDIUM.width_mm, width_mm=MEDIUM.length_mm)
    facts = ground(outfit=an_outfit(boxes=(MEDIUM, wide, turned)))

    assert ((508, 413), (508, 500), (508, 413)) == facts.cells
    assert 1 == facts.cell(frozenset({0, 1, 2}))


def test_places_and_heights() -> None:
    """3,100 x 2,100 mm: 30 mediums, 6 x 4 squares, as many mixed.

    1,200 mm: 5 of 168, 3 of 310, 4 of 244.
    """
    facts = three_kinds()

    assert ((30, 24, 30, 24),) * 2 == facts.places
    assert ((5, 3, 4),) * 2 == facts.high
    # IBC over mediums 6, over squares 3 x 2; can 1
    assert ((6, 6, 6, 6), (1, 1, 1, 1)) == facts.tank_places
    # 100 L: the IBC covers 6 places and weighs 60 kg, four cans 4 and 6 kg
    assert [(0, 4)] == [tanks.counts for tanks in facts.tanks[1](100_000)]


def test_watched_yards_stand_apart_and_come_last() -> None:
    """Each watched yard has columns of its own; held yards come last as well."""
    states = (Health.SOUND, Health.WATCH, Health.SUSPECT, Health.WATCH, Health.STANDSTILL)
    yards = tuple(replace(a_yard(n + 1), health=health) for n, health in enumerate(states))
    facts = ground(*yards)

    assert (False, True, False, True, False) == facts.watched
    assert (False, True, True, True, True) == facts.last_only
    assert (0, ~1, 0, ~3, 0) == facts.columns


def test_what_each_way_of_going_out_may_take_in() -> None:
    """One or two people, alone or with the trailer, through a gate for 3 t."""
    yards = (a_yard(1), replace(a_yard(2), access=Access(max_vehicle_g=3_000_000)))
    facts = ground(*yards, outfit=with_trailer(an_outfit()))

    # alone: 3,000 - 2,315 and 3,000 - 2,400; with the trailer 500 kg less
    assert ((1_185_000, 685_000), (1_100_000, 600_000)) == facts.load_into[:2]
    assert ((1_685_000, 185_000), (1_600_000, 100_000)) == facts.load_into[2:]


def test_axles_by_hauler() -> None:
    """Without axle figures any load will do; with them the rear axle binds."""
    # 2,240 - 800 - (130 + 85) / 2 = 1,332.5; / 0.9 = 1,480.5 kg; two people 1,290 / 0.9
    axles = Axles(1_300_000, 800_000, 700_000, 1_750_000, 2_240_000, 900)
    trucks = (replace(a_truck(), axles=axles),)

    assert ((0, HUGE_G),) * 2 == ground().axle_g
    assert ((0, 1_480_555), (0, 1_433_333)) == ground(outfit=an_outfit(trucks=trucks)).axle_g


def test_haulers_of_each_truck() -> None:
    """Without trailer first, then fewest people first."""
    outfit = with_trailer(an_outfit())
    outfit = replace(outfit, trucks=(*outfit.trucks, a_truck(2)))
    facts = ground(outfit=outfit)

    assert (0, 0, 0, 0, 1, 1) == facts.truck_index
    assert ((0, 1, 2, 3), (4, 5)) == facts.siblings


def test_legs_at_a_truck_s_own_speed() -> None:
    """At 900 per mille 10 km take 12 minutes, at 800 per mille 13; no road stays none."""
    # 10,000 / 900 = 11.1, 14,000 / 900 = 15.6; 10,000 / 800 = 12.5
    outfit = with_trailer(an_outfit())
    travel = replace(outfit.travel, minutes=((0, 10, 14), (10, 0, 4), (None, 4, 0)))
    truck = replace(outfit.trucks[0], speed_permille=900)
    facts = ground(outfit=replace(outfit, travel=travel, trucks=(truck,)))

    assert [12, 16, 13] == [
        facts.leg_min(0, 0, 1), facts.leg_min(0, 0, 2), facts.leg_min(2, 0, 1)
    ]  # fmt: skip
    assert facts.leg_min(0, 2, 0) is None
    assert facts.legs[0] is facts.legs[1]


def test_minutes_at_a_stop() -> None:
    """10 min to set up and 1,200 person-seconds: 20 min alone, 10 with two, 7 with three."""
    # 1,200 / 180 = 6.7
    facts = ground()
    feed = Stop(0, round=1, fed=10)

    assert [30, 20, 17] == [facts.stop_min(feed, crew) for crew in (1, 2, 3)]
    assert 1_200 == facts.work_s(feed)


@pytest.mark.parametrize("health", [Health.SUSPECT, Health.STANDSTILL])
def test_a_held_yard_wants_a_wash(health: Health) -> None:
    """20 minutes more, whatever is done."""
    facts = ground(*numbered(1, health=health, boxes=0, feed_agreed=True))

    assert 40 == facts.stop_min(Stop(0, round=1, fed=10), 2)


def test_a_yard_that_is_moved() -> None:
    """Place 1 until day 2, place 2 from day 3."""
    facts = ground(*numbered(2, sites=((0, 1), (3, 2))))

    assert [1, 1, 2, 2] == [facts.place(0, day) for day in (0, 2, 3, 5)]


def test_hours_of_the_bases() -> None:
    """Store 6 to 12, honey house 8 to 18, both 8 to 12, every day."""
    outfit = an_outfit()
    house = replace(outfit.honey_house, base=Base(0, 480, 1_080))
    facts = ground(outfit=replace(outfit, feed_store=Base(0, 360, 720), honey_house=house))

    assert (Span(360, 720),) == facts.store_spans[0]
    assert (Span(1_440 + 480, 1_440 + 1_080),) == facts.house_spans[1]
    assert (Span(480, 720),) == facts.both_spans[0]


def test_a_full_honey_house_takes_nothing() -> None:
    """Full from 10 to 12 o'clock: deliveries before and after, also where both doors are used."""
    outfit = an_outfit()
    house = replace(outfit.honey_house, base=Base(0, 480, 1_080), full=(Span(600, 720),))
    facts = ground(outfit=replace(outfit, feed_store=Base(0, 540, 780), honey_house=house))

    assert (Span(480, 600), Span(720, 1_080)) == facts.house_spans[0]
    assert (Span(540, 600), Span(720, 780)) == facts.both_spans[0]
    assert (Span(1_440 + 480, 1_440 + 1_080),) == facts.house_spans[1]


def test_bases_that_are_never_open_together() -> None:
    """Store in the morning, honey house in the afternoon: no common hours."""
    outfit = an_outfit()
    house = replace(outfit.honey_house, base=Base(0, 720, 1_080))
    facts = ground(outfit=replace(outfit, feed_store=Base(0, 360, 720), honey_house=house))

    assert () == facts.both_spans[0]


def test_hours_of_a_stop_by_day() -> None:
    """As its task has them."""
    facts = ground()
    stop = Stop(0, strips=True)

    assert facts.task(stop).spans[2] == facts.stop_spans(stop, 2)
    assert facts.task(stop) is facts.task(Stop(0, strips=True))


def test_an_asymmetric_table_stays_so() -> None:
    """There 10 minutes, back 25."""
    outfit = an_outfit([(10, 0)])
    travel = Travel(((0, 10), (25, 0)), ((0, 9_000), (12_000, 0)), phrase("typed"))
    facts = ground(outfit=replace(outfit, travel=travel))

    assert (10, 25) == (facts.leg_min(0, 0, 1), facts.leg_min(0, 1, 0))
