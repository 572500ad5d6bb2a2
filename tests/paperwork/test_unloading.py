"""Tests of what goes off a truck, and back into the store, where a trip ends."""

from dataclasses import replace
from io import BytesIO

from openpyxl import load_workbook

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Carried, Job, Trip
from runplanner.outfit.bases import Base
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.calendars.file import calendar_files
from runplanner.paperwork.data.tables import plan_tables
from runplanner.paperwork.data.workbook import manifests_xlsx
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.map.legs import legs
from runplanner.paperwork.stop.one_stop import as_driven
from runplanner.paperwork.stop.unloading import unload_jobs
from tests.outfits import an_outfit
from tests.paperwork.plans import (
    IBC,
    Round,
    Stop,
    a_shift,
    block,
    boards,
    feed,
    small_plan,
    strips,
    take_off,
)  # fmt: skip

HOUSE = 2


def apart() -> Outfit:
    """The honey house stands at place 2, the store at the base."""
    outfit = an_outfit()
    return replace(outfit, honey_house=replace(outfit.honey_house, base=Base(HOUSE, 0, 1440)))


def a_trip(outfit: Outfit, *actions: Action, carried: tuple[Carried, ...] = ()) -> Trip:
    """One trip to yard 1 that ends at the honey house."""
    trip = a_shift(outfit, 0, [Round("t", (Stop(1, 60, actions),), carried)]).trips[0]
    last = replace(trip.calls[-1], place=outfit.honey_house.base.place)
    return replace(trip, calls=(*trip.calls[:-1], last))


def last_jobs(outfit: Outfit, trip: Trip) -> tuple[str, ...]:
    """What is to be done at the trip's last call."""
    return unload_jobs(outfit, trip, trip.calls[-1])


def test_boards_go_back_from_the_honey_house() -> None:
    """Ten boards come off with the boxes; a tank and two cans come home as well."""
    outfit = apart()
    trip = a_trip(
        outfit, take_off(10, 15, boards_off=10), feed(10, 90), carried=(IBC, Carried("can", 2))
    )

    assert (
        "Unload 15 honey boxes, lot by lot.",
        "Back to Base: 10 boards, IBC and 2 \u00d7 Can, and what else is left; count it.",
    ) == last_jobs(outfit, trip)


def test_brood_and_wet_boxes_that_no_call_was_planned_for_go_back_too() -> None:
    """Counted once the truck was home: four brood boxes and eleven wet ones beside the honey."""
    outfit = apart()
    trip = a_trip(outfit, take_off(10, 15))
    load, yard, house = trip.calls
    yard = replace(yard, after=replace(yard.after, brood_boxes=4, wet=11))
    told = last_jobs(outfit, replace(trip, calls=(load, yard, house)))

    assert "Back to Base: 4 brood boxes and 11 wet boxes, and what else is left; count it." in told


def test_feeders_go_back_by_count() -> None:
    """Eight emptied feeders are aboard at the end."""
    outfit = apart()
    trip = a_trip(outfit, Action(Job.FEEDERS, 10, feeders_off=8))
    load, yard, house = trip.calls
    yard = replace(yard, after=replace(yard.after, feeders=8))
    trip = replace(trip, calls=(load, yard, house))

    assert ("Back to Base: 8 feeders, and what else is left; count it.",) == last_jobs(outfit, trip)


def test_what_may_be_left_goes_back_uncounted() -> None:
    """All that was loaded is to be used up: some may be left, how many nobody knows."""
    outfit = apart()
    for job in (block(10), strips(10), boards(10), replace(feed(10, 90), feeders=10)):
        told = last_jobs(outfit, a_trip(outfit, job))
        assert told == ("Back to Base: what is left; count it.",)


def test_nothing_goes_back_where_nothing_was_loaded() -> None:
    """A plain take-off brings only honey."""
    outfit = apart()

    assert ("Unload 15 honey boxes, lot by lot.",) == last_jobs(
        outfit, a_trip(outfit, take_off(10, 15))
    )


def test_a_trip_by_house_and_store_puts_back_at_the_store_alone() -> None:
    """Both calls unload; the boards are put back where they belong, whichever comes last."""
    outfit = apart()
    trip = a_trip(outfit, take_off(10, 15, boards_off=10))
    load, yard, house = trip.calls
    after = replace(house.after, boards=10)
    store = replace(house, place=0)
    put = "Put back 10 boards, and what else is left; count boards, feeders and cans."
    for first, second in ((house, store), (store, house)):
        calls = (load, yard, replace(first, after=after), second)
        both = replace(trip, calls=calls)
        told = [job for call in calls[2:] for job in unload_jobs(outfit, both, call)]
        assert [put] == [job for job in told if "boards" in job]


def test_at_the_store_itself_all_is_counted() -> None:
    """House and store in one: what is known by count, else the plain reminder."""
    outfit = an_outfit()

    assert (
        "Unload 15 honey boxes, lot by lot.",
        "Put back 10 boards, and what else is left; count boards, feeders and cans.",
    ) == last_jobs(outfit, a_trip(outfit, take_off(10, 15, boards_off=10)))
    assert "Put back what is left; count boards, feeders and cans." in last_jobs(
        outfit, a_trip(outfit, take_off(10, 15))
    )


def test_a_container_without_a_name_goes_by_its_id() -> None:
    """As on the loading list."""
    outfit = apart()
    nameless = tuple(replace(kind, name="") for kind in outfit.containers)
    outfit = replace(outfit, containers=nameless)
    trip = a_trip(outfit, feed(10, 90), carried=(IBC,))

    assert ("Back to Base: ibc, and what else is left; count it.",) == last_jobs(outfit, trip)


def two_trips(outfit: Outfit, *, unused: bool = False) -> Plan:
    """Ten boards come back to the honey house; the truck goes on to the store to load again.

    With ``unused`` it left with 160 L, 40 strips and 4 feeders (220 kg) more than its stops use.
    """
    rounds = [
        Round("one", (Stop(1, 60, (take_off(10, 15, boards_off=10), feed(10, 90))),), (IBC,)),
        Round("two", (Stop(1, 60, (block(10),)),)),
    ]
    shift = a_shift(outfit, 0, rounds)
    first, second = shift.trips
    load, yard, last = first.calls
    empty = replace(
        last.after, boards=0, load_g=last.after.load_g - 15_000, places=last.after.places - 1
    )
    house = replace(last, place=outfit.honey_house.base.place, after=empty)
    start = load.after
    left = replace(
        start, ml=start.ml + 160_000, strips=40, feeders=4, load_g=start.load_g + 220_000
    )
    first = replace(first, calls=(load, yard, house), driven=unused, left=left if unused else None)
    shifts = (replace(shift, trips=(first, second)),)
    now = yard.start_min if unused else 0
    return replace(small_plan(), outfit=outfit, shifts=shifts, now_min=now)


def test_boards_ride_on_from_the_honey_house_to_the_store() -> None:
    """Ten of 1.5 kg take one more deck place, on the map's line and in the table of loads."""
    plan = two_trips(apart())
    was = plan.shifts[0].trips[0].calls[-1].after
    now = as_driven(plan).shifts[0].trips[0].calls[-1].after
    (on,) = (leg for leg in legs(plan) if (leg.start, leg.end) == (HOUSE, 0))
    loads = plan_tables(plan)["loads"]

    assert (10, was.load_g + 15_000, was.places + 1) == (now.boards, now.load_g, now.places)
    assert now.load_g == on.load_g
    assert "10 boards" in on.words[1]
    assert [10] == list(loads[(loads["trip"] == "one") & (loads["leaving"] == "unload")]["boards"])
    assert as_driven(plan) == as_driven(as_driven(plan))


def test_what_is_unused_rides_on_from_the_honey_house_to_the_store() -> None:
    """160 L, 40 strips and 4 feeders that no stop used are aboard with the boards."""
    plan = two_trips(apart(), unused=True)
    was = plan.shifts[0].trips[0].calls[-1].after
    now = as_driven(plan).shifts[0].trips[0].calls[-1].after

    assert (160_000, 40, 4, 10) == (now.ml, now.strips, now.feeders, now.boards)
    assert was.load_g + 15_000 + 220_000 == now.load_g
    (on,) = (leg for leg in legs(plan) if (leg.start, leg.end) == (HOUSE, 0))
    assert "160 L of syrup, 10 boards, 40 strips, 4 feeders" in on.words[1]
    assert as_driven(plan) == as_driven(as_driven(plan))


def test_the_workbook_s_list_of_trips_tells_all_the_syrup_that_is_loaded() -> None:
    """90 L for its stop and 160 L for none, as the trip's own sheet and the table of trips."""
    plan = two_trips(an_outfit(), unused=True)
    book = load_workbook(BytesIO(manifests_xlsx(plan)))
    listed = list(book["All trips"].iter_rows(values_only=True))
    head, load = (
        row
        for row in book["one"].iter_rows(values_only=True)
        if "Syrup L aboard" in row or row[1] == "Load at Base"
    )
    trips = plan_tables(plan)["trips"]

    assert [250, 250, 250] == [
        listed[1][listed[0].index("Syrup L")], load[head.index("Syrup L aboard")],
        trips[trips["trip"] == "one"]["syrup_L"].item(),
    ]  # fmt: skip


def test_boards_that_lack_are_none_aboard_on_any_paper() -> None:
    """By counts five fewer than its stops want: none are aboard, and none are put back."""
    plan = two_trips(an_outfit())
    (shift,) = plan.shifts
    first, second = shift.trips
    load, *calls = first.calls
    short = tuple(replace(one, after=replace(one.after, boards=-5)) for one in calls)
    first = replace(first, calls=(load, *short))
    plan = replace(plan, shifts=(replace(shift, trips=(first, second)),))
    rows = list(load_workbook(BytesIO(manifests_xlsx(plan)))["one"].iter_rows(values_only=True))
    at = next(row.index("Boards aboard") for row in rows if "Boards aboard" in row)
    loads = plan_tables(plan)["loads"]

    assert [0, 0, 0] == [row[at] for row in rows if isinstance(row[at], int)]
    assert 0 == loads["boards"].min()
    legs_words = [words for leg in legs(plan) for words in leg.words]
    assert not [words for words in (*legs_words, phone_text(plan, 0)) if "-5" in words]
    assert not any("-5" in str(cell) for row in rows for cell in row)


def test_nothing_rides_on_from_the_store() -> None:
    """Where the trip ends at the store all is off."""
    outfit = an_outfit()
    plan = two_trips(outfit, unused=True)

    assert (0, 0, 0) == (
        (last := as_driven(plan).shifts[0].trips[0].calls[-1].after).ml, last.boards, last.strips
    )  # fmt: skip


def test_phone_and_calendar_tell_what_goes_back_to_the_store() -> None:
    """The first trip ends at the honey house; the second, at the store, says no more."""
    plan, words = two_trips(apart()), "Back to Base: 10 boards and IBC, and what else is left"
    events = calendar_files(plan)["calendar/trips.ics"].replace("\r\n ", "").replace("\\,", ",")

    assert 1 == phone_text(plan, 0).count(f"boxes\n! {words}; count it.\n")
    assert 1 == events.count(words)


def backs(plan: Plan) -> list[str]:
    """What a text of the day says from the first way back on, other trips left out."""
    lines = phone_text(plan, 0).splitlines()
    return [line for line in lines if line.startswith(("Back", "! Back"))]


def test_a_text_names_where_a_trip_comes_back_to() -> None:
    """House and store apart: each call by its place and hour, boxes at the house alone.

    The first trip ends at the house, so boards and IBC go on from there; the second brings
    nothing.  With a call at the store as well, that one has its own line.
    """
    plan = two_trips(apart())
    (shift,) = plan.shifts
    one, two = shift.trips
    house = one.calls[-1]
    later = house.arrive_min + 66
    store = replace(house, place=0, arrive_min=later, start_min=later, end_min=later + 5)
    both = replace(one, calls=(*one.calls, replace(store, leave_min=later + 5)))
    at, then, last = (
        f"{minute // 60:02d}:{minute % 60:02d}"
        for minute in (house.arrive_min, later, two.calls[-1].arrive_min)
    )
    name = plan.outfit.places[HOUSE].name

    assert [
        f"Back at {name} {at}: 15 boxes",
        "! Back to Base: 10 boards and IBC, and what else is left; count it.",
        f"Back at Base {last}",
    ] == backs(plan)
    assert [f"Back at {name} {at}: 15 boxes", f"Back at Base {then}"] == backs(
        replace(plan, shifts=(replace(shift, trips=(both,)),))
    )


def test_wet_boxes_come_off_apart_from_honey() -> None:
    """Eleven wet boxes are aboard at the end, beside 15 of honey; all papers tell them."""
    outfit = an_outfit()
    trip = a_trip(outfit, take_off(10, 15))
    load, yard, home = trip.calls
    yard = replace(yard, after=replace(yard.after, wet=11))
    trip = replace(trip, calls=(load, yard, home))
    plan = small_plan()
    shift = replace(plan.shifts[0], trips=(trip,))
    plan = replace(plan, outfit=outfit, shifts=(shift,))

    assert (
        "Unload 15 honey boxes, lot by lot.",
        "Unload 11 wet boxes: covered, not in with honey.",
    ) == last_jobs(outfit, trip)[:2]
    assert ": 15 boxes, 11 wet boxes\n" in f"{phone_text(plan, shift.day)}\n"
    book = load_workbook(BytesIO(manifests_xlsx(plan)))
    rows = list(book[trip.id].iter_rows(values_only=True))
    at = next(row.index("Wet boxes aboard") for row in rows if "Wet boxes aboard" in row)
    assert [0, 11, 0] == [row[at] for row in rows if isinstance(row[at], int)]
