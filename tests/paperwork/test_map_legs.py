"""Drives: from where to where, with what aboard."""

from dataclasses import replace

from runplanner.days import DAY_MIN
from runplanner.outfit.trucks import Deck, Trailer
from runplanner.paperwork.map.legs import legs, trips_on
from tests.paperwork.map_plans import a_plan


def test_a_trip_is_its_drives_in_order() -> None:
    """Day 1: the shed, three yards, the honey house, home, with stop numbers and loads."""
    # Places: 0 shed (home and feed store), 1 honey house, 3 + n the yards.  The load leaving
    # each: 20 + 10 feeds of 5 L = 150 L x 1.327 = 199.050 kg + 60 kg tank + 60 strips x 10 g
    # = 259.65 kg; then 50 L and 20 strips less at each of two yards; the third yard takes
    # the last 50 L and gives 15 boxes of 16 kg: 240 + 60 = 300 kg; then the empty tank.
    drives = [leg for leg in legs(a_plan()) if leg.day == 1]

    assert [(0, 3), (3, 4), (4, 14), (14, 1), (1, 0)] == [(leg.start, leg.end) for leg in drives]
    assert [1, 2, 3, 0, 0] == [leg.stop for leg in drives]
    assert [259_650, 193_100, 126_550, 300_000, 60_000] == [leg.load_g for leg in drives]


def test_staying_in_place_is_no_drive() -> None:
    """Home is the feed store here, so the first call of a day needs no line."""
    assert all(leg.start != leg.end for leg in legs(a_plan()))


def test_a_drive_to_a_feed_store_elsewhere_is_empty() -> None:
    """Where the feed store is not home the day begins with an empty drive there."""
    plan = a_plan()
    first = plan.shifts[0]
    trip = first.trips[0]
    moved = replace(trip, calls=(replace(trip.calls[0], place=2), *trip.calls[1:]))
    plan = replace(plan, shifts=(replace(first, trips=(moved,)),))
    drive = legs(plan)[0]

    assert (0, 2, 0, 0) == (drive.start, drive.end, drive.load_g, drive.stop)
    assert "Nothing aboard yet." == drive.words[-1]


def test_drives_the_same_way_get_lanes_of_their_own() -> None:
    """The shed to Long Paddock is driven on days 0 and 1: lanes 0 and 1."""
    lanes = [leg.lane for leg in legs(a_plan()) if (leg.start, leg.end) == (0, 3)]

    assert [0, 1] == lanes


def test_words_name_both_ends_the_stop_and_the_load() -> None:
    """The sentences of a drive say it all."""
    # Shift from 06:00: 40 min loading, leaves 06:40, 20 min on the road.
    drive = legs(a_plan())[0]
    text = " ".join(drive.words).replace("\u2068", "").replace("\u2069", "")

    assert "The shed 06:40 to Long Paddock 07:00, stop 1." in text
    assert "102 kg aboard of 1100 kg allowed: 20 fondant blocks." in text
    assert "4 of 24 deck places taken." in text


def test_heading_names_truck_trailer_day_and_trip() -> None:
    """A pulled trailer is named beside its truck."""
    plan = a_plan()
    trailer = Trailer("box", "Box trailer", 1, 1, Deck(1, 1, 1, 1), 1, 1_000, 1)
    plan = replace(
        plan,
        outfit=replace(plan.outfit, trailers=(trailer,)),
        shifts=(replace(plan.shifts[0], trailer="box"),),
    )
    heading = legs(plan)[-1].heading.replace("\u2068", "").replace("\u2069", "")

    assert "Truck 1 with Box trailer, Mon 1 Mar, trip 2" == heading


def test_trips_are_counted_by_day() -> None:
    """Two trips on day 0, one on day 1, none on day 5."""
    assert ["2 trips", "1 trip", "0 trips"] == [trips_on(a_plan(), day) for day in (0, 1, 5)]


def test_a_shift_without_trips_is_no_drive() -> None:
    """A crew that stays at home draws no line."""
    plan = a_plan()
    idle = replace(plan.shifts[0], trips=(), end_min=DAY_MIN)

    assert () == legs(replace(plan, shifts=(idle,)))
