"""One trip laid out on one day: calls, legs, minutes and hours."""

from dataclasses import replace

import pytest

from runplanner.days import Span
from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Access
from runplanner.trips.ground import Ground
from runplanner.trips.pack import pack
from runplanner.trips.ride import BOTH, HONEY, LOAD, STORE, Ride, Way, laid_out
from runplanner.visits.stop import Stop
from tests.outfits import an_outfit
from tests.trips.stops import ground, numbered, off

FEED = Stop(0, round=1, fed=10)


def ride(facts: Ground, *stops: Stop, day: int = 0) -> Ride | None:
    """A trip of two people laid out on a day."""
    packed = pack(facts, 1, stops)
    assert packed is not None
    return laid_out(facts, Way(day, 1), stops, packed)


def sure(facts: Ground, *stops: Stop, day: int = 0) -> Ride:
    """A trip that can be laid out."""
    found = ride(facts, *stops, day=day)
    assert found is not None
    return found


def three_bases() -> Outfit:
    """Home at place 0, the honey house where yard 2 is, the feed store where yard 3 is."""
    outfit = an_outfit()
    house = replace(outfit.honey_house, base=Base(2, 480, 1_080))
    return replace(outfit, feed_store=Base(3, 360, 720), honey_house=house)


def test_a_trip_from_one_base() -> None:
    """Load, two yards 10 and 14 km out, unload honey: 10 + 4 + 14 min and km."""
    facts = ground(*numbered(2))
    found = sure(facts, off(facts, 0, 10, blocks=10), off(facts, 1, 10, blocks=10))

    assert ((LOAD, 0), (0, 1), (1, 2), (HONEY, 0)) == found.stations
    assert [0, 10, 4, 14] == [step.leg_min for step in found.steps]
    assert (28, 28_000) == (found.driving_min, found.metres)


def test_minutes_of_each_call() -> None:
    """15 to load, 10 + 4,800 s / 2 at each yard, 10 + 30 boxes x 30 s / 2 to unload."""
    facts = ground(*numbered(2))
    found = sure(facts, off(facts, 0, 10, blocks=10), off(facts, 1, 10, blocks=10))

    # 4,800 / 120 = 40; 900 / 120 = 7.5, rounded up
    assert [15, 50, 50, 18] == [step.work_min for step in found.steps]
    assert 133 == found.work_min


def test_syrup_is_pumped_at_loading() -> None:
    """85 L at 50 L a minute take 1.7 min, rounded up; nothing is unloaded at the store."""
    found = sure(ground(), FEED)

    assert ((LOAD, 0), (0, 1), (STORE, 0)) == found.stations
    # 15 + 2; 10 + 1,200 s / 2; 10
    assert [17, 20, 10] == [step.work_min for step in found.steps]


def test_honey_and_brood_boxes_at_one_base() -> None:
    """One unloading call for both: 15 + 4 boxes."""
    facts = ground(*numbered(1, brood_boxes_off=4))
    found = sure(facts, off(facts, 0, 10))

    assert (BOTH, 0) == found.stations[-1]
    # 10 + 19 x 30 / 120 = 14.75
    assert 15 == found.steps[-1].work_min


@pytest.mark.parametrize(
    ("boxes", "brood", "calls"),
    [
        (15, 0, [(HONEY, 2)]),
        (15, 4, [(HONEY, 2), (STORE, 3)]),
        (0, 4, [(STORE, 3)]),
        (0, 0, [(STORE, 3)]),
    ],
)
def test_where_a_trip_unloads(boxes: int, brood: int, calls: list[tuple[int, int]]) -> None:
    """Honey at the honey house first, brood boxes or an empty truck at the feed store."""
    yards = numbered(3, boxes=boxes, brood_boxes_off=brood)
    facts = ground(*yards, outfit=three_bases())
    found = sure(facts, off(facts, 0, 10))

    assert [(LOAD, 3), (0, 1), *calls] == list(found.stations)


def test_each_base_unloads_its_own_boxes() -> None:
    """15 honey boxes at the house, 4 brood boxes at the store."""
    facts = ground(*numbered(3, brood_boxes_off=4), outfit=three_bases())
    found = sure(facts, off(facts, 0, 10))

    # 10 + 15 x 30 / 120 = 13.75; 10 + 4 x 30 / 120 = 11
    assert [14, 11] == [step.work_min for step in found.steps[-2:]]
    # places 3 -> 1 -> 2 -> 3 at 18, 10, 14, 18 km
    assert [0, 8, 4, 4] == [step.leg_min for step in found.steps]


def test_hours_of_each_call() -> None:
    """Loading in the store's hours, the stop in its own, unloading in the house's."""
    facts = ground(*numbered(3, brood_boxes_off=4), outfit=three_bases())
    load, stop, house, store = sure(facts, off(facts, 0, 10), day=1).steps

    day = 1_440
    assert (Span(day + 360, day + 720),) == load.spans == store.spans
    assert (Span(day + 480, day + 1_080),) == stop.spans == house.spans


@pytest.mark.parametrize(
    ("brood", "feed", "hours"),
    [
        (0, False, Span(480, 1_080)),  # honey alone: the honey house's
        (4, False, Span(480, 720)),  # honey and brood boxes: both
        (0, True, Span(360, 720)),  # neither: the store's
    ],
)
def test_hours_of_unloading_at_one_place(brood: int, *, feed: bool, hours: Span) -> None:
    """One place with two doors keeps the hours of the doors it uses."""
    outfit = an_outfit()
    house = replace(outfit.honey_house, base=Base(0, 480, 1_080))
    outfit = replace(outfit, feed_store=Base(0, 360, 720), honey_house=house)
    facts = ground(*numbered(1, brood_boxes_off=brood), outfit=outfit)
    stop = FEED if feed else off(facts, 0, 10)

    assert (hours,) == sure(facts, stop).steps[-1].spans


def test_bees_must_settle_before_the_stop_ends() -> None:
    """A storm until 10 o'clock."""
    facts = ground(*numbered(1, unsettled_spans=(Span(540, 600),)))

    assert [0, 600, 0] == [step.end_from_min for step in sure(facts, off(facts, 0, 10)).steps]


def test_no_hours_no_trip() -> None:
    """A gate that is open in the dark only, or two doors at one base never open together."""
    dark = ground(*numbered(1, access=Access(opens_min=0, closes_min=300)))
    assert ride(dark, off(dark, 0, 10)) is None

    outfit = replace(an_outfit(), feed_store=Base(0, 360, 720))
    outfit = replace(outfit, honey_house=replace(outfit.honey_house, base=Base(0, 720, 1_080)))
    apart = ground(*numbered(1, brood_boxes_off=4), outfit=outfit)
    assert ride(apart, off(apart, 0, 10)) is None
    assert ride(apart, FEED) is not None


@pytest.mark.parametrize("table", ["minutes", "metres"])
@pytest.mark.parametrize(("here", "there"), [(0, 1), (1, 2), (2, 0)])
def test_no_road_no_trip(table: str, here: int, there: int) -> None:
    """A leg without minutes or without metres cannot be driven."""
    facts = ground(*numbered(2))
    rows = [list(row) for row in getattr(facts.outfit.travel, table)]
    rows[here][there] = None
    travel = replace(facts.outfit.travel, **{table: tuple(tuple(row) for row in rows)})  # type: ignore[arg-type]
    cut = Ground(replace(facts.outfit, travel=travel))

    assert ride(cut, off(cut, 0, 10), off(cut, 1, 10)) is None


def test_a_moved_yard_is_met_where_it_stands() -> None:
    """At place 1 on day 2, at place 2 on day 3."""
    facts = ground(*numbered(2, sites=((0, 1), (3, 2))))

    assert (0, 1) == sure(facts, FEED, day=2).stations[1]
    assert (0, 2) == sure(facts, FEED, day=3).stations[1]
