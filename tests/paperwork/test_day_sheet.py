"""Tests of the day's paper and of the text to send by phone."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Mixing, Plan, Spinning
from runplanner.daybook.trip import Action, Carried, Trip
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.yards import Access, Health
from runplanner.paperwork.data.tables import plan_tables
from runplanner.paperwork.days.day_sheet import busy_days, day_page, day_sheet, house_lines
from runplanner.paperwork.days.phone_text import LONGEST, phone_text
from runplanner.paperwork.days.wet_day import wet_day
from runplanner.paperwork.driver.manifest import manifest
from runplanner.paperwork.map.notes import visits
from runplanner.paperwork.speech.tongue import speaking
from runplanner.paperwork.traces.trace_sheet import trace_page
from runplanner.paperwork.traces.traced import trace
from tests.audit.feeder_plan import feeders_fetched
from tests.audit.wet_plan import wet_boxes
from tests.outfits import a_yard, an_outfit
from tests.paperwork.pages import Page
from tests.paperwork.plans import (
    Round,
    Stop,
    a_shift,
    block,
    boards,
    eight_stop_plan,
    feed,
    hostile_plan,
    small_plan,
    strips,
    take_off,
)
from tests.running import running_plan


def test_people_have_their_half_days() -> None:
    """Day 0: both are out in the morning; Bob mixes from 13:00."""
    lines = day_sheet(small_plan(), 0).people

    assert [
        ("Ann", "drives Truck 1", "free"),
        ("Bob", "rides on Truck 1", "mixes"),
    ] == [(one.name, one.morning, one.afternoon) for one in lines]


def test_a_persons_duty_is_truck_and_work_inside_from_first_to_last() -> None:
    """Out from 06:00 to 08:35; Ann then spins from 09:15 to 15:15: 9 h 15, the gap counted.

    Bob mixes from 13:00 to 14:00 as planned, and is eight hours on duty; a day off is none.
    """
    plan = small_plan()
    spin = Spinning(9 * 60 + 15, 15 * 60 + 15, ("ann",), 50)
    plan = replace(plan, spinning=(spin, *plan.spinning))

    assert ["9 h 15", "8 h 00"] == [one.duty for one in day_sheet(plan, 0).people]
    assert "9 h 15" in Page(day_page(plan, 0)).text
    assert "" == day_sheet(replace(eight_stop_plan(), spinning=()), 2).people[2].duty


def test_a_person_may_be_away_or_spin() -> None:
    """Cyrus is away on day 2 and spins in the morning of day 1."""
    plan = eight_stop_plan()

    assert "away" == day_sheet(plan, 2).people[2].morning
    assert ("spins", "free") == (
        day_sheet(plan, 1).people[2].morning,
        day_sheet(plan, 1).people[2].afternoon,
    )


def test_who_drives_is_away_only_in_the_half_day_that_is_left() -> None:
    """Ann is out until 08:35 when her day off is told: she drives, and is away after that."""
    plan = small_plan()
    ann, *others = plan.outfit.people
    people = (replace(ann, off_days=(0,)), *others)
    line = day_sheet(replace(plan, outfit=replace(plan.outfit, people=people)), 0).people[0]

    assert ("drives Truck 1", "away", "2 h 35") == (line.morning, line.afternoon, line.duty)


def test_every_day_with_work_has_a_sheet() -> None:
    """The day before the campaign counts when syrup is mixed on it."""
    assert (0, 1, 2, 3, 4) == busy_days(small_plan())
    assert (-1, 0, 1, 2, 3) == busy_days(eight_stop_plan())


def lies(plan: Plan, place: int) -> str:
    """Return where a place lies, as papers tell it."""
    spot = plan.outfit.places[place]
    return f"{spot.lat:.5f} {spot.lon:.5f}"


@pytest.mark.parametrize(
    ("language", "words", "night"),
    [
        (
            "en",
            (
                "Blue flatdeck carries the hives of Old Mill to the new place; who drives is not "
                "planned, settle it: Ann and Caro may. 24 hives, to {spot}"
            ),
            "Night",
        ),
        (
            "de",
            (
                "Blue flatdeck f\u00e4hrt die V\u00f6lker von Old Mill an den neuen Platz; "
                "wer f\u00e4hrt, ist nicht geplant, also ausmachen: fahren d\u00fcrfen Ann und Caro"
                ". 24 V\u00f6lker, nach {spot}"
            ),
            "Nachts",
        ),
    ],
)
def test_who_carries_hives_is_told_the_evening_before(
    language: str, words: str, night: str
) -> None:
    """Blue carries the mill's hives before day 7; with nothing else to do day 6 has a sheet too.

    Ann and Caro may drive it, Bob drives nothing.
    """
    plan = running_plan()
    blue = plan.outfit.trucks[0].id
    yards = tuple(
        one.moved_by(7, 1, blue) if one.id == "mill" else one for one in plan.outfit.yards
    )
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards), shifts=(), spinning=(),
                   mixing=())  # fmt: skip

    words = words.format(spot=lies(plan, 1))

    assert (6,) == busy_days(plan)
    with speaking(language):
        assert (words,) == day_sheet(plan, 6).night
        assert f"{night}</h2>" in day_page(plan, 6)
        assert f"{night}: {words}" in phone_text(plan, 6).splitlines()
        assert words not in day_page(plan, 7) + phone_text(plan, 7) + phone_text(plan, 5)


@pytest.mark.parametrize(
    ("licence", "words"),
    [
        ("17/3, district office", "Standstill, moved under licence 17/3, district office"),
        ("", "Own doubt"),
    ],
)
@pytest.mark.parametrize("truck", ["truck1", ""])
def test_the_licence_is_told_for_the_night_on_the_road(
    licence: str, words: str, truck: str
) -> None:
    """Whoever is stopped there has its number, and nobody drives to sound yards uncleaned."""
    plan = small_plan()
    yard, *others = plan.outfit.yards
    yard = replace(yard, health=Health.WATCH, licence=licence).moved_by(4, 2, truck)
    plan = replace(plan, outfit=replace(plan.outfit, yards=(yard, *others)), shifts=())
    told = f"{words}: clean truck and kit afterwards"

    (line,) = day_sheet(plan, 3).night
    assert line.endswith(f". {told}")
    assert f". {told}\n" in phone_text(plan, 3)


@pytest.mark.parametrize(
    ("from_day", "why"),
    [
        # Yard 1 off on day 0, 15 wet boxes up on day 1 and down on day 4, when it is fed.
        (1, "condensed that day"),
        (2, "wet boxes still up"),
        (4, "wet boxes still up"),
        (5, "syrup still in feeders"),
        # 8.5 L from 10:27 on day 4, at 2 L a day, are down at 16:27 on day 8.
        (8, "syrup still in feeders"),
        (9, ""),
    ],
)
def test_hives_not_ready_for_the_road_are_told(from_day: int, why: str) -> None:
    """The plan keeps no work away from the night of a move, so its paper says what meets it."""
    plan = wet_boxes()
    (yard,) = plan.outfit.yards
    outfit = replace(plan.outfit, yards=(yard.moved_by(from_day, 0, ""),))
    plan = replace(plan, outfit=outfit)
    told = f". Not ready for the road by this plan: {why}; better another night"

    (line,) = day_sheet(plan, from_day - 1).night
    assert line.endswith(told) if why else "ready" not in line
    assert (told in phone_text(plan, from_day - 1)) == bool(why)


@pytest.mark.parametrize(("from_day", "told"), [(1, False), (2, True), (3, True)])
def test_boards_on_hives_to_be_moved_are_told(from_day: int, *, told: bool) -> None:
    """Boards go on yard 2 on day 1, and come off from day 3 on."""
    plan = small_plan()
    first, second = plan.outfit.yards
    outfit = replace(plan.outfit, yards=(first, second.moved_by(from_day, 1, "")))

    (line,) = day_sheet(replace(plan, outfit=outfit), from_day - 1).night
    assert ("boards still on" in line) == told


def test_hives_to_be_moved_without_a_truck_are_told_the_evening_before() -> None:
    """The mill's hives move before day 7, carried by nobody knows whom: day 6 has a sheet too."""
    plan = running_plan()
    yards = tuple(one.moved_by(7, 1, "") if one.id == "mill" else one for one in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards), shifts=(), spinning=(),
                   mixing=())  # fmt: skip
    words = "The hives of Old Mill go to the new place; no truck is named, settle who carries them"
    words = f"{words}. 24 hives, to {lies(plan, 1)}"

    assert (6,) == busy_days(plan)
    assert (words,) == day_sheet(plan, 6).night
    assert f"Night: {words}" in phone_text(plan, 6).splitlines()
    with speaking("de"):
        assert "kein Fahrzeug ist genannt" in phone_text(plan, 6)


@pytest.mark.parametrize(
    ("off", "told"),
    [((6,), "settle it: Caro may"), ((7,), "settle it: Caro may"), ((5, 8), "Ann and Caro may")],
)
def test_who_is_away_drives_no_hives(off: tuple[int, ...], told: str) -> None:
    """Neither on the day before the night nor on the day after it."""
    plan = replace(running_plan(), shifts=())
    blue = plan.outfit.trucks[0].id
    yards = tuple(
        one.moved_by(7, 1, blue) if one.id == "mill" else one for one in plan.outfit.yards
    )
    ann, *others = plan.outfit.people
    people = (replace(ann, off_days=off), *others)
    outfit = replace(plan.outfit, yards=yards, people=people)

    (line,) = day_sheet(replace(plan, outfit=outfit), 6).night
    assert f"{told}. 24 hives" in line
    away = tuple(replace(one, off_days=(6,)) for one in people)
    (line,) = day_sheet(replace(plan, outfit=replace(outfit, people=away)), 6).night
    assert "; nobody who may drive it is there. 24 hives, to " in line


def test_trips_stand_with_times_breaks_and_jobs() -> None:
    """The long day: one trip, eight stops, its break, what it loads."""
    (shift,) = day_sheet(eight_stop_plan(), 1).shifts

    assert "08:06\u201308:51" == shift.breaks
    # Legs of 15, 9, 10, 12, 10, 10, 11, 15 and 36 km.
    assert "driving 2 h 08, 128 km" == shift.driving
    (trip,) = shift.trips
    assert "305 L, 47 blocks, 16 boards, 92 strips" == trip.load
    assert ("05:40\u201306:15", "Kauri Flat") == (trip.stops[0].at, trip.stops[0].yard)


def test_a_stop_has_the_drivers_hours() -> None:
    """From coming to leaving as on the manifest; the wait and the break between are named.

    Stop 4 has its break of 45 min after its work, stop 5 waits 15 min before its.
    """
    plan = eight_stop_plan()
    shift = plan.shifts[1]
    (trip,) = day_sheet(plan, 1).shifts[0].trips
    steps = [one for one in manifest(plan, shift, shift.trips[0]).steps if one.number]

    assert [(f"{one.arrive}\u2013{one.leave}", one.begin, one.rest) for one in steps] == (
        [(one.at, one.begin, one.rest) for one in trip.stops]
    )
    assert ["", "", "", "08:06\u201308:51"] == [one.rest for one in trip.stops[:4]]
    # 10 km from stop 4 to 5, left at 08:51.
    assert ("09:01\u201309:51", "09:16") == (trip.stops[4].at, trip.stops[4].begin)
    text = Page(day_page(plan, 1)).text
    assert "07:46\u201308:51 break 08:06\u201308:51 Quarry Terrace" in text
    assert "09:01\u201309:51 start 09:16 Top of Rimu Road" in text


def test_wet_boxes_are_loaded_and_carried_in_words() -> None:
    """They stand on the day sheet's load, on the phone, and in what is aboard on the manifest."""
    plan = wet_boxes()
    (trip,) = day_sheet(plan, 1).shifts[0].trips
    (shift,) = [shift for shift in plan.shifts if shift.day == 4]

    assert "15 wet boxes" == trip.load
    assert "Load 15:30: 15 wet boxes" in phone_text(plan, 1)
    step = manifest(plan, shift, shift.trips[0]).steps[1]
    assert ("15 wet boxes", ("colonies", "wet boxes", "litres", "strips")) == (
        step.aboard.boxes, step.blanks,
    )  # fmt: skip


def test_feeders_that_are_fetched_stand_on_every_paper() -> None:
    """On the day sheet, on the phone, on the manifest with a blank, and on a wet day as well."""
    plan = feeders_fetched()
    (trip,) = day_sheet(plan, 5).shifts[0].trips
    (shift,) = [shift for shift in plan.shifts if shift.day == 5]
    step = manifest(plan, shift, shift.trips[0]).steps[1]
    words = "Feeders off: 10 feeders, empty; back to the store"

    assert (words,) == trip.stops[0].jobs == step.jobs
    assert ("colonies", "feeders") == step.blanks
    assert "feeders off 10" in phone_text(plan, 5)
    assert ["goes"] == [one.verdict() for one in wet_day(plan, 5).trips]
    assert "10 feeders taken back" in trace_page(trace(plan, plan.outfit.yards[0]))
    rows = plan_tables(plan)["stops"]
    assert [0, 0, 0, 0, 10] == list(rows["feeders_off"])


def test_the_page_names_undone_work_but_no_money() -> None:
    """Reasons and reliefs are there, prices are not; the driver's paper is linked."""
    page = Page(day_page(small_plan(), 0))

    assert "Yard 2: take-off, 3 colonies" in page.text
    assert "Bob is away." in page.text
    assert "one more day: cures all of it" in page.text
    assert "NZD" not in page.text
    assert "../manifests/0301-truck1-0001.html" in page.values("href")
    assert "13:00\u201314:00 mix: Bob, 90 L" in page.text


def test_a_plan_that_leaves_nothing_says_nothing_of_it() -> None:
    """No empty section where all is done."""
    done = replace(small_plan(), undone=(), reliefs=())

    assert "Left undone" not in Page(day_page(done, 0)).text


def unfed() -> Plan:
    """The small plan without the trip of day 1 that feeds yard 1."""
    plan = small_plan()
    return replace(plan, shifts=tuple(shift for shift in plan.shifts if shift.day != 1))


def test_what_runs_out_soon_is_on_the_page() -> None:
    """Yard 1's stop-gap ends on day 4: named on the sheets of days 3 and 4, not of day 2."""
    plan = unfed()

    assert "Runs out today or tomorrow" not in Page(day_page(plan, 2)).text
    for day in (3, 4):
        assert "Yard 1: 10 colonies run out Fri 5 Mar 11:23" in Page(day_page(plan, day)).text
    assert "08:00\u201309:00 spin: Ann and Bob, 11 boxes" in Page(day_page(plan, 4)).text


def test_who_was_fed_days_before_runs_out_on_no_paper() -> None:
    """Syrup came on day 1: nobody is sent out on day 4, when the block would have been eaten."""
    plan = small_plan()

    for day in (3, 4):
        assert "Runs out today or tomorrow" not in Page(day_page(plan, day)).text
        assert "Runs out" not in phone_text(plan, day)
    # On the day of feeding itself it stands, for until then it is so.
    shift = next(one for one in plan.shifts if one.day == 1)
    late = replace(shift, day=4, trips=tuple(_later(trip, 3 * DAY_MIN) for trip in shift.trips))
    shifts = tuple(late if one is shift else one for one in plan.shifts)
    assert "Runs out 11:23: Yard 1, 10 col\n" in phone_text(replace(plan, shifts=shifts), 4)


def _later(trip: Trip, minutes: int) -> Trip:
    calls = tuple(
        replace(
            call,
            arrive_min=call.arrive_min + minutes,
            start_min=call.start_min + minutes,
            end_min=call.end_min + minutes,
            leave_min=call.leave_min + minutes,
            latest_leave_min=call.latest_leave_min + minutes,
        )
        for call in trip.calls
    )
    return replace(trip, calls=calls)


def test_an_empty_trip_loads_nothing() -> None:
    """A trip that takes nothing out says so, and a driven one is marked."""
    plan = small_plan()
    day = a_shift(plan.outfit, 0, [Round("t", (Stop(1, 60, (take_off(10, 15),)),))])
    driven = replace(day, trips=(replace(day.trips[0], driven=True),))
    text = Page(day_page(replace(plan, shifts=(driven,), now_min=day.end_min), 0)).text

    assert "load nothing" in text
    assert "(driven)" in text


def test_the_phone_text_of_a_day() -> None:
    """Everything a crew needs to start, in a few plain lines."""
    assert phone_text(small_plan(), 0) == (
        "Mon 1 Mar\n"
        "Truck 1 06:00-08:35 Ann and Bob\n"
        "Load 06:00: 10 blocks\n"
        "1 Yard 1 06:35-08:05 (latest 08:40): off 10 col 15 bx, block 10, "
        "max 21 full aboard (2 fewer if not all off)\n"
        "Back 08:15: 15 boxes\n"
        "Mix 13:00-14:00: Bob, 90 L\n"
    )


def test_a_stretch_that_ends_with_the_day_ends_at_24_on_phone_and_map() -> None:
    """Spinning from 22:00 to midnight was "22:00-00:00" on the phone, 24:00 on the day sheet."""
    spin = Spinning(22 * 60, DAY_MIN, ("ann",), 3)
    assert "\nSpin 22:00-24:00: Ann, 3 boxes\n" in phone_text(
        replace(small_plan(), spinning=(spin,)), 0
    )
    shift = a_shift(an_outfit(), 0, [Round("t", (Stop(1, 60, (boards(10),)),))], start=22 * 60 + 25)
    plan = replace(small_plan(), shifts=(shift,))
    (line,) = visits(plan, plan.outfit.yards[0])
    assert line.startswith("Mon 1 Mar 23:00\u201324:00: ")


def test_the_phone_text_warns_of_what_runs_out() -> None:
    """On the day the stop-gap ends the text says so; trailer, break and all jobs are named."""
    text = phone_text(unfed(), 4)
    assert "Runs out 11:23: Yard 1, 10 col\n" in text
    assert "Spin 08:00-09:00: Ann and Bob, 11 boxes\n" in text

    long_day = phone_text(eight_stop_plan(), 1)
    for words in (
        "+Tandem trailer",
        "Break 08:06-08:51",
        "boards 16",
        "strips 26",
        "feed 15 col 75 L",
    ):
        assert words in long_day


@pytest.mark.parametrize("shifts", [1, 2, 5])
def test_a_long_day_is_told_in_several_texts(shifts: int) -> None:
    """However many trucks go out, each text stays below 1000 characters and nothing is lost."""
    plan = eight_stop_plan()
    many = replace(plan, shifts=plan.shifts[1:2] * shifts)
    texts = phone_text(many, 1).split("\n\n")
    lines = [line for text in texts for line in text.splitlines()]

    assert all(len(text) < 1000 for text in texts)
    assert [f"Tue 2 Mar ({n} of {len(texts)})" for n in range(1, len(texts) + 1)] == [
        text.splitlines()[0] for text in texts
    ]
    # A stop, a truck's way home and a break for each of the trucks, all in whole names.
    for name, times in (("8 Ninety Acre Bush 11:07-11:52 (latest ", shifts), ("Back ", shifts)):
        assert times == sum(1 for line in lines if line.startswith(name)), name
    assert shifts == lines.count("Break 08:06-08:51")
    assert 1 == lines.count("Spin 08:00-12:00: Cyrus, 25 boxes")
    for text in texts:
        if "Ninety Acre Bush" in text or "Kauri Flat" in text:
            assert text.splitlines()[1].startswith("Blue flat-deck+Tandem trailer 05:00-")


def by_two_trucks() -> Plan:
    """Two trucks of two trips with three yards each, and somebody who spins."""
    plan = eight_stop_plan()
    (truck,) = plan.outfit.trucks
    both = (truck, replace(truck, id="truck2", name="Truck 2"))
    plan = replace(plan, outfit=replace(plan.outfit, trucks=both))
    trips = [
        Round(f"t{n}", tuple(Stop(yard, 30, (block(9), feed(9, 90))) for yard in yards))
        for n, yards in enumerate(((1, 2, 3), (4, 5, 6)))
    ]
    first = a_shift(plan.outfit, 1, trips, crew=("ann", "bob"))
    return replace(plan, shifts=(first, replace(first, truck="truck2", crew=("cy",))))


def test_texts_part_between_trips() -> None:
    """No trip stands in two texts; in each, truck and crew stand above the first of its trips."""
    plan = by_two_trucks()
    texts = [text.splitlines() for text in phone_text(plan, 1).split("\n\n")]
    heads = ["Blue flat-deck", "Truck 2 "]

    assert 2 <= len(texts)
    for lines in texts:
        assert lines[1].startswith((*heads, "Spin "))
        loads = [n for n, line in enumerate(lines) if line.startswith("Load ")]
        backs = [n for n, line in enumerate(lines) if line.startswith("Back ")]
        assert len(loads) == len(backs)
        assert all(load < back for load, back in zip(loads, backs, strict=True))
    told = [line for lines in texts for line in lines]
    assert 4 == sum(1 for line in told if line.startswith("Load "))
    assert 1 == told.count("Spin 08:00-12:00: Cyrus, 25 boxes")


def test_a_day_that_fits_one_text_has_no_number() -> None:
    """Lines as many as one text holds, then one more: the names stay whole, the text parts."""
    plan = small_plan()
    people = tuple(replace(one, name="A" * 32) for one in plan.outfit.people)
    crowd = replace(plan, outfit=replace(plan.outfit, people=people))
    line = len("Spin 08:00-09:00: " + "A" * 32 + ", 11 boxes\n")
    spins = (LONGEST - len("Mon 1 Mar\n")) // line
    spare = (LONGEST - len("Mon 1 Mar\n")) % line
    some = tuple(Spinning(480, 540, ("ann",), 11) for _ in range(spins))
    full = replace(crowd, shifts=(), mixing=(), spinning=some)

    assert LONGEST - spare == len(phone_text(full, 0))
    assert phone_text(full, 0).startswith("Mon 1 Mar\nSpin")
    more = replace(full, spinning=(*some, Spinning(600, 660, ("bob",), 1)))
    texts = phone_text(more, 0).split("\n\n")
    assert ["Mon 1 Mar (1 of 2)", "Mon 1 Mar (2 of 2)"] == [one.splitlines()[0] for one in texts]
    assert texts[1].endswith("Spin 10:00-11:00: " + "A" * 32 + ", 1 box\n")


def test_a_break_stands_with_the_trip_it_falls_in() -> None:
    """Two trips; the first one's break is told before the second is loaded."""
    plan = eight_stop_plan()
    trips = [
        Round("t1", (Stop(1, 30, (block(9),)), Stop(2, 30, (block(9),))), break_after=1),
        Round("t2", (Stop(3, 30, (block(9),)),)),
    ]
    plan = replace(plan, shifts=(a_shift(plan.outfit, 1, trips),))
    lines = phone_text(plan, 1).splitlines()
    (at,) = (n for n, line in enumerate(lines) if line.startswith("Break "))

    assert lines[at - 1].startswith("Back ")
    assert lines[at + 1].startswith("Load ")


def test_the_phone_text_says_what_is_filled_and_not_lifted() -> None:
    """Two cans of 25 L and 20 L in a third; a can of 1.5 kg with 25 L of 1.327 kg: 34.7 kg."""
    outfit = an_outfit([(10, 0)], [replace(a_yard(1), box_g=25_100)])
    stop = Stop(1, 60, (take_off(10, 15), feed(10, 70)))
    shift = a_shift(outfit, 0, [Round("t", (stop,), (Carried("can", 3),))])
    plan = replace(small_plan(), outfit=outfit, shifts=(shift,))

    assert (
        "Load 06:00: 70 L. Fill Can: 2x25+20 L\n! full Can (35 kg): do not lift, fill on deck\n"
    ) in phone_text(plan, 0)
    assert "; boxes up to 25.1 kg: lift with two\n" in phone_text(plan, 0)
    alone = replace(plan, shifts=(replace(shift, crew=("ann",)),))
    words = "boxes up to 25.1 kg: do not lift alone, use a hoist or go frame by frame"
    assert f"; {words}\n" in phone_text(alone, 0)


def test_the_phone_text_says_what_rides_on_the_trailer() -> None:
    """Which one is filled first, how far, and where each tank stands."""
    text = phone_text(eight_stop_plan(), 1)

    assert "Fill IBC 1000 L on Blue flat-deck: 305 L, Drum 200 L on Blue flat-deck: 2x0 L\n" in text
    assert "\n! Tandem trailer: fill and use up first, at stops too: up to 1500 kg and 21" in text


def gated(health: Health = Health.SOUND, access: Access | None = None) -> Plan:
    """The small plan with its first yard behind a gate."""
    plan = small_plan()
    one, *rest = plan.outfit.yards
    yard = replace(one, health=health, access=access or Access())
    return replace(plan, outfit=replace(plan.outfit, yards=(yard, *rest)))


def test_the_phone_text_says_how_to_get_in() -> None:
    """Gate, limits, to ring, and that there is a note; neither the number nor the key."""
    gate = Access(510, 930, 3_299_999, 2_309, True, False, "Key under the post", "555 0101")
    text = phone_text(gated(access=gate), 0)

    assert (
        "\n! gate 08:30-15:30; ring first; note on the driver's paper; max 3299 kg laden; "
        "max 230 cm wide; "
        "no trailer past the gate; four-wheel drive\n"
    ) in text
    assert "555" not in text
    assert "Key" not in text
    assert "! gate 07:00-24:00\n" in phone_text(gated(access=Access(opens_min=420)), 0)


@pytest.mark.parametrize(
    ("health", "words"),
    [
        (Health.WATCH, "watch: own tools, boxes apart, clean kit afterwards"),
        (Health.SUSPECT, "suspect: nothing leaves, own tools, wash down 20 min at the end"),
        (Health.STANDSTILL, "standstill: nothing leaves, own tools, wash down 20 min at the end"),
    ],
)
def test_the_phone_text_says_what_health_asks(health: Health, words: str) -> None:
    """Below the stop, before the gate; nothing for a sound yard."""
    plan = gated(health, Access(phone="555 0101"))

    limit = "max 21 full aboard (2 fewer if not all off)"
    assert f"{limit}\n! {words}; ring first\nBack" in phone_text(plan, 0)
    assert "!" not in phone_text(small_plan(), 0)


@pytest.mark.parametrize(
    ("action", "apart"),
    [(block(10), ""), (take_off(10, 0, brood_boxes=3), "boxes apart, ")],
)
def test_a_watched_yard_without_boxes_has_none_to_keep_apart(action: Action, apart: str) -> None:
    """Blocks alone: own tools, clean kit.  Brood boxes stand apart as honey does."""
    plan = gated(Health.WATCH)
    day = a_shift(plan.outfit, 0, [Round("t", (Stop(1, 60, (action,)),))])

    assert f"\n! watch: own tools, {apart}clean kit afterwards\n" in phone_text(
        replace(plan, shifts=(day,)), 0
    )


def test_the_phone_text_names_a_licence() -> None:
    """At a standstill all the same: who is stopped on the road must know its number."""
    plan = gated(Health.WATCH)
    one, *rest = plan.outfit.yards
    yards = (replace(one, licence="NZ-17 \u00e0 b"), *rest)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))

    assert "\n! standstill, licence NZ-17 \u00e0 b: own tools, boxes apart, clean" in phone_text(
        plan, 0
    )


def test_the_phone_text_names_colonies_litres_brood_and_boards() -> None:
    """Of ten colonies four on day 0 and six on day 1; 5.5 L each, a second round, boards back."""
    plan = small_plan()
    some = replace(take_off(4, 6, boards_off=4), brood_boxes=2)
    rest = replace(take_off(6, 9), boards_off=0)
    round2 = replace(feed(10, 55, 2), feeders=10)
    boarded = replace(boards(4), pieces=4)
    shifts = (
        a_shift(plan.outfit, 0, [Round("t0", (Stop(1, 60, (boarded, some, block(4))),))]),
        a_shift(plan.outfit, 1, [Round("t1", (Stop(1, 60, (rest, round2, strips(10))),))]),
    )
    plan = replace(plan, shifts=shifts)

    assert (
        "boards 4 (nos 1-4), off 4 col (nos 1-4) 6 bx (2 brood boxes, 4 boards back), block 4,"
    ) in phone_text(plan, 0)
    assert (
        "off 6 col (nos 5-10) 9 bx, "
        "feed 10 col 55 L (5.5 L each, round 2, leave 10 feeders), strips 20,"
    ) in phone_text(plan, 1)


def test_the_phone_text_is_ascii_where_names_allow() -> None:
    """A macron is dropped, a Hebrew letter stays, marks that turn the text are gone."""
    plan = small_plan()
    yard = replace(plan.outfit.yards[0], name="Wh\u0101nau\n\u202e\u05d0")
    outfit = replace(plan.outfit, yards=(yard, plan.outfit.yards[1]))

    assert "1 Whanau \u05d0 06:35" in phone_text(replace(plan, outfit=outfit), 0)
    assert phone_text(small_plan(), 0).isascii()


def test_hostile_names_stay_on_their_line() -> None:
    """No name adds a line to the text; hostile yards are to be rung, so the others are as well."""
    plan = small_plan()
    yards = tuple(replace(yard, access=Access(phone="1")) for yard in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))
    for day in range(5):
        plain = phone_text(plan, day)
        assert plain.count("\n") == phone_text(hostile_plan(), day).count("\n")


def test_hostile_names_are_words_on_the_day_sheet() -> None:
    """The same elements as with plain names, and the names as typed."""
    for day in range(5):
        page, same = Page(day_page(hostile_plan(), day)), Page(day_page(small_plan(), day))
        assert same.tags == page.tags


def test_two_stretches_of_one_job_are_said_once() -> None:
    """Bob mixes twice in an afternoon: "mixes", not "mixes, mixes"."""
    plan = small_plan()
    twice = replace(plan, mixing=(*plan.mixing, Mixing(15 * 60, 16 * 60, "bob", 10_000)), shifts=())

    assert "mixes" == day_sheet(twice, 0).people[1].afternoon
    assert "free" == day_sheet(twice, 0).people[1].morning


def test_half_litres_stay_halves() -> None:
    """As on the manifest, so that the litres of a day add up: 90.5 L is no 91 L."""
    plan = small_plan()
    action = replace(feed(10, 90), ml=90_500)
    day = a_shift(plan.outfit, 0, [Round("t", (Stop(1, 60, (action, block(1))),))])

    assert "feed 10 col 90.5 L" in phone_text(replace(plan, shifts=(day,)), 0)
    assert day.end_min < DAY_MIN


def inside_plan() -> Plan:
    """Bob mixes to 14:00 and spins from 14:30; Ann, out 05:00 to 10:00, spins from 12:00."""
    plan = small_plan()
    (first, *others) = plan.shifts
    crew = replace(first, crew=("ann",), start_min=300, end_min=600, breaks=())
    return replace(
        plan,
        shifts=(crew, *others),
        mixing=(Mixing(8 * 60, 14 * 60, "bob", 90_000),),
        spinning=(
            Spinning(12 * 60, 14 * 60, ("ann",), 10),
            Spinning(14 * 60 + 30, 17 * 60, ("ann", "bob"), 10),
            Spinning(18 * 60, 19 * 60, ("bob",), 10),
        ),
    )


def test_breaks_inside_stand_on_the_sheet_and_on_the_phone() -> None:
    """After 6 h a break: Bob's 08:00 to 17:00 must have its gap from 14:00.

    Ann's 12:00 to 17:00 need not, and her two hours from 10:00 are no break to be told of;
    nor need Bob's hour from 17:00 be one, as 14:30 to 19:00 would do without.
    """
    plan = inside_plan()
    lines = [line for _, line in sorted(house_lines(plan, 0)) if "break" in line]

    assert ["14:00\u201314:30 break: Bob"] == lines
    assert "Break 14:00-14:30: Bob" in phone_text(plan, 0)
    with speaking("de"):
        assert "14:00\u201314:30 Pause: Bob" in day_page(plan, 0)
        assert "Pause 14:00-14:30: Bob" in phone_text(plan, 0)


def test_the_way_to_a_base_far_from_home_is_told_where_people_work_there() -> None:
    """Honey house and feed store at yard 2, 14 min from home, moved to 20: told with the work."""
    plan = inside_plan()
    away = replace(plan.outfit.home, place=2)
    house = replace(plan.outfit.honey_house, base=away)
    legs = tuple(tuple(20 for _ in row) for row in plan.outfit.travel.minutes)
    travel = replace(plan.outfit.travel, minutes=legs)
    outfit = replace(plan.outfit, honey_house=house, feed_store=away, travel=travel)
    far = replace(plan, outfit=outfit)
    spun = "The honey house is 20 min by road from home: the way is not in these hours."
    mixed = "The feed store is 20 min by road from home: the way is not in these hours."

    assert (spun, mixed) == day_sheet(far, 0).house[-2:]
    assert f"{spun}\n{mixed}\n" in phone_text(far, 0)
    assert "by road" not in phone_text(replace(far, spinning=(), mixing=()), 0)
    assert "by road" not in phone_text(plan, 0)
    with speaking("de"):
        assert "Der Schleuderraum liegt 20 min Fahrt von zu Hause" in phone_text(far, 0)


def test_a_rest_on_the_road_is_the_trucks() -> None:
    """Out for ten hours with a rest of 40 min, nothing inside: the truck's line names it."""
    plan = replace(inside_plan(), mixing=(), spinning=())
    shift = replace(plan.shifts[0], end_min=900, breaks=(Span(560, 600),))

    assert [] == list(house_lines(replace(plan, shifts=(shift,)), 0))
