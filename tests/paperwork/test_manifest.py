"""Tests of the driver's paper."""

import re
from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.days import Span
from runplanner.outfit.bases import Base
from runplanner.outfit.yards import Access, Health
from runplanner.paperwork.driver.manifest import Manifest, RestAt, Step, manifest
from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.escape import shown
from tests.audit.planted import edited
from tests.paperwork.pages import Page
from tests.paperwork.plans import (
    HOSTILE,
    Round,
    Stop,
    a_shift,
    block,
    boards,
    eight_stop_plan,
    feed,
    from_elsewhere,
    hostile_plan,
    small_plan,
    take_off,
)


def sheet(plan: Plan, day: int = 0, trip: int = 0) -> Manifest:
    """The sheet of a shift's trip, counting from nought."""
    shift = plan.shifts[day]
    return manifest(plan, shift, shift.trips[trip])


def with_access(access: Access, health: Health = Health.SOUND) -> Step:
    """The first stop of the small plan when its yard is like that."""
    plan = small_plan()
    yard = replace(plan.outfit.yards[0], access=access, health=health)
    outfit = replace(plan.outfit, yards=(yard, plan.outfit.yards[1]))
    return sheet(replace(plan, outfit=outfit)).steps[1]


def test_the_head_says_who_drives_what_when() -> None:
    """Date, truck and crew; the part only when a day has several trips."""
    small, long_day = sheet(small_plan()), eight_stop_plan()

    assert ("Mon 1 Mar", "Truck 1", "Ann drives, with Bob", "") == (
        small.date, small.vehicles, small.crew, small.part,
    )  # fmt: skip
    assert "Blue flat-deck + Tandem trailer" == sheet(long_day, 1).vehicles
    assert "trip 2 of 2" == sheet(long_day, 0, 1).part


def test_when_to_leave_home_is_said_only_where_it_is_not_the_store() -> None:
    """At the store loading starts as the shift does; from elsewhere the first trip leaves home."""
    plan = eight_stop_plan()
    away = from_elsewhere(plan)

    assert ("06:00", "") == (sheet(away, 0, 0).leave_home, sheet(away, 0, 1).leave_home)
    assert "06:00 Leave home" in Page(manifest_page(sheet(away))).text
    assert ("", "") == (sheet(plan, 0, 0).leave_home, sheet(plan, 0, 1).leave_home)
    assert "Leave home" not in Page(manifest_page(sheet(plan))).text


def test_the_limit_of_boxes_is_of_all_aboard() -> None:
    """At stop 2 the limit counts the nine boxes of stop 1 as well, and says so."""
    made = sheet(eight_stop_plan(), 1)

    assert f"stop at {made.steps[2].stop_at} full boxes aboard" in Page(manifest_page(made)).text


def test_litres_add_up() -> None:
    """512 L less 17 x 6.5 = 110.5 L are 401.5 L: above 100 L half a litre shows as well."""
    plan = small_plan()
    fed = replace(feed(17, 0), ml=110_500)
    day = a_shift(plan.outfit, 0, [Round("t", (Stop(1, 60, (fed,)), Stop(2, 60, (
        replace(feed(20, 0), ml=401_500),
    ))))])  # fmt: skip
    load, first, second, _ = sheet(replace(plan, shifts=(day,))).steps

    assert "512 L" == load.aboard.syrup
    assert first.jobs[0].endswith("6.5 L each, 110.5 L off")
    assert "401.5 L" == first.aboard.syrup
    assert second.jobs[0].endswith("401.5 L off")


def test_brood_boxes_apart_have_a_blank_of_their_own() -> None:
    """Stop 2 takes two brood boxes apart; stop 1 takes none."""
    steps = sheet(eight_stop_plan(), 1).steps

    assert ("colonies", "boxes", "brood", "boards", "litres", "strips") == steps[2].blanks
    assert ("colonies", "boxes", "boards", "litres", "strips") == steps[1].blanks


def test_boards_that_come_back_are_counted() -> None:
    """Boards back alone are the count's boards; where some go on as well, each has its blank."""
    plan = small_plan()
    back = take_off(4, 6, boards_off=4)
    day = a_shift(plan.outfit, 0, [Round("t", (
        Stop(1, 60, (back,)), Stop(2, 60, (replace(back), boards(3))), Stop(1, 60, (boards(3),)),
    ))])  # fmt: skip
    first, second, third = sheet(replace(plan, shifts=(day,))).steps[1:4]

    assert ("colonies", "boxes", "boards") == first.blanks
    assert ("colonies", "boxes", "boards", "boards back") == second.blanks
    assert ("colonies", "boards") == third.blanks


def test_the_steps_follow_the_clock() -> None:
    """Load 06:00-06:25, ten minutes to the yard, 90 of work, ten back, 20 to unload."""
    load, stop, unload = sheet(small_plan()).steps

    assert ("06:00", "06:25", "") == (load.arrive, load.leave, load.number)
    assert ("1", "Yard 1", "06:35", "08:05", "08:40", "10 min, 10 km") == (
        stop.number, stop.name, stop.arrive, stop.leave, stop.latest, stop.way,
    )  # fmt: skip
    assert ("08:15", "08:35", "08:35") == (unload.arrive, unload.leave, unload.home)
    assert ("", "") == (load.home, stop.home)


def test_a_stop_says_what_to_do_and_when_to_stop() -> None:
    """Jobs in order, the box limit, the lot, and blanks for just these jobs."""
    stop = sheet(small_plan()).steps[1]

    assert ("Take off all 10 colonies: 15 boxes on", "Block on 10 colonies: 10 blocks") == stop.jobs
    assert ("21", "L20270301-yard1") == (stop.stop_at, stop.lot)
    assert ("colonies", "boxes", "blocks") == stop.blanks
    assert ("Open no more colonies; a block on each one opened.",) == stop.late


def test_a_stop_says_what_is_aboard_against_the_limit() -> None:
    """15 boxes of 16 kg: 240 kg of 1000, three stacks of five of 24 places."""
    aboard = sheet(small_plan()).steps[1].aboard

    assert ("240 of 1000 kg", "3 of 24 places", "15 boxes", "", "") == (
        aboard.kg, aboard.places, aboard.boxes, aboard.syrup, aboard.limit,
    )  # fmt: skip


def test_a_load_near_its_limit_is_called_tight() -> None:
    """95 per cent of the mass is tight: 60 boxes of 16 kg are 960 of 1000 kg."""
    plan = small_plan()
    day = a_shift(plan.outfit, 0, [Round("t", (Stop(1, 60, (take_off(10, 60),)),))])
    page = Page(manifest_page(sheet(replace(plan, shifts=(day,)))))

    assert "Tight." == sheet(replace(plan, shifts=(day,))).steps[1].aboard.limit
    assert "Tight." in page.text
    assert "Tight." not in Page(manifest_page(sheet(plan))).text


@pytest.mark.parametrize(
    ("figure", "limit", "word"),
    [
        ("load_g", 1_000_000, "Tight."),
        ("load_g", 1_000_001, "Over the limit."),
        ("places", 24, "Tight."),
        ("places", 25, "Over the limit."),
    ],
)
def test_a_load_over_its_limit_is_not_called_tight(figure: str, limit: int, word: str) -> None:
    """1000 kg and 24 places are all there is: as counts may have it, there is more aboard."""
    plan = edited(small_plan(), {f"shifts.0.trips.0.calls.1.after.{figure}": limit})

    assert word == sheet(plan).steps[1].aboard.limit
    assert word in Page(manifest_page(sheet(plan))).text


def test_colonies_of_a_split_yard_go_by_number() -> None:
    """The second lot starts where the first stopped."""
    long_day = eight_stop_plan()
    first = sheet(long_day, 1).steps[5]
    second = sheet(long_day, 2).steps[1]

    assert "Take off 9 of 17 (nos 1\u20139), with a brush: 7 boxes on" == first.jobs[0]
    assert "Take off 8 of 17 (nos 10\u201317), with a brush: 6 boxes on" == second.jobs[0]


def test_every_job_has_its_words() -> None:
    """Brood boxes apart, boards counted, litres for one and for all, feeders left."""
    jobs = [job for step in sheet(eight_stop_plan(), 1).steps for job in step.jobs]

    for words in (
        "Take off all 14 colonies: 10 boxes on, 2 brood boxes, 14 boards back",
        "Syrup, all 13 colonies: 5 L each, 65 L off",
        "Syrup round 2, all 15 colonies: 5 L each, 75 L off",
        "Boards on all 16 colonies: 16 boards",
        "Strips in all 13 colonies: 26 strips",
        "Unload 42 honey boxes, lot by lot.",
        "Unload 2 brood boxes: not in with honey.",
    ):
        assert words in jobs


def test_feeders_left_are_counted() -> None:
    """A feed that leaves feeders says how many."""
    plan = small_plan()
    action = replace(feed(10, 90), feeders=10)
    day = a_shift(plan.outfit, 0, [Round("t", (Stop(1, 60, (action,)),))])

    assert (
        "Syrup, all 10 colonies: 9 L each, 90 L off, leave 10 feeders"
        == (sheet(replace(plan, shifts=(day,))).steps[1].jobs[0])
    )


def test_two_unloading_places() -> None:
    """Honey goes off at the honey house, brood boxes and what is left at the feed store."""
    plan = small_plan()
    day = a_shift(plan.outfit, 0, [Round("t", (Stop(1, 60, (take_off(10, 15, brood_boxes=3),)),))])
    outfit = replace(
        plan.outfit, honey_house=replace(plan.outfit.honey_house, base=Base(2, 0, 1440))
    )
    trip = day.trips[0]
    house = replace(trip.calls[2], place=2)
    store = trip.calls[2]
    between = replace(house, after=replace(house.after, brood_boxes=3))
    both = replace(day, trips=(replace(trip, calls=(*trip.calls[:2], between, store)),))
    steps = sheet(replace(plan, outfit=outfit, shifts=(both,))).steps

    assert ("Unload 15 honey boxes, lot by lot.",) == steps[2].jobs
    assert (
        "Unload 3 brood boxes: not in with honey.",
        "Put back what is left; count boards, feeders and cans.",
    ) == steps[3].jobs


def test_breaks_and_waits_stand_on_the_paper() -> None:
    """The break after stop 4; at stop 5 the crew waits from 09:01 to 09:16."""
    steps = sheet(eight_stop_plan(), 1).steps

    assert "08:06\u201308:51" == steps[4].rest
    assert ("09:01", "09:16") == (steps[5].arrive, steps[5].begin)
    assert "" == steps[4].begin


def test_a_break_stands_on_the_paper_of_its_own_trip() -> None:
    """A break taken while loading the second trip is not printed on the first."""
    plan = eight_stop_plan()
    day = plan.shifts[0]
    start = day.trips[1].calls[0].start_min
    rested = replace(day, breaks=(Span(start + 5, start + 35),))
    both = replace(plan, shifts=(rested,))

    assert [""] * 4 == [step.rest for step in sheet(both, 0, 0).steps]
    assert ["08:28\u201308:58", "", "", ""] == [step.rest for step in sheet(both, 0, 1).steps]


@pytest.mark.parametrize(
    ("after_min", "place"),
    [(0, RestAt.FIRST), (14, RestAt.FIRST), (15, RestAt.AMID), (None, RestAt.LAST)],
)
def test_a_break_stands_where_it_comes(after_min: int | None, place: RestAt) -> None:
    """Before the work in the first quarter of an hour, else amid it; last once that is done."""
    plan = eight_stop_plan()
    day = plan.shifts[0]
    call = day.trips[0].calls[1]
    begins = call.leave_min if after_min is None else call.arrive_min + after_min
    rested = replace(day, breaks=(Span(begins, begins + 30),))
    step = sheet(replace(plan, shifts=(rested,)), 0, 0).steps[1]

    assert place is step.rest_at
    page = manifest_page(sheet(replace(plan, shifts=(rested,)), 0, 0))
    rest, jobs = page.index('class="rest"'), page.index('class="jobs"')
    blanks = page.index('class="blanks"')
    order = {RestAt.FIRST: rest < jobs, RestAt.AMID: jobs < rest < blanks}
    assert order.get(place, blanks < rest)


def test_access_is_spelt_out() -> None:
    """Gate hours, mass, width, trailer, four-wheel drive, notes, phone and a geo link."""
    step = with_access(
        Access(
            opens_min=420,
            closes_min=1140,
            max_vehicle_g=7_500_999,
            max_width_mm=2_209,
            four_wheel=True,
            trailer=False,
            notes="Key under the post.",
            phone="+64 21 555 0100",
        )
    )

    assert (
        "Gate open 07:00\u201319:00.",
        "At most 7500 kg laden.",
        "At most 220 cm wide.",
        "No trailer past the gate.",
        "Four-wheel drive.",
        "Key under the post.",
    ) == step.access
    assert "+64 21 555 0100" == step.phone
    # The yard stands ten kilometres along the grid: 10 * 0.009 degrees of longitude.
    assert ("0.00000 0.09000", "geo:0.00000,0.09000") == step.geo
    assert () == with_access(Access()).access


@pytest.mark.parametrize(
    ("health", "words"),
    [
        (Health.SOUND, ""),
        (Health.WATCH, "Own doubt: stack these boxes apart"),
        (Health.SUSPECT, "Suspect: nothing leaves this yard. Wash down 20 min"),
        (Health.STANDSTILL, "Standstill: nothing leaves this yard. Wash down 20 min"),
    ],
)
def test_health_is_written_large(health: Health, words: str) -> None:
    """Each state of health but sound has its sentence."""
    watch = with_access(Access(), health).watch

    assert watch.startswith(words)
    assert bool(words) == bool(watch)


@pytest.mark.parametrize(
    ("action", "apart"),
    [
        (take_off(10, 15), True),
        (take_off(10, 0, brood_boxes=3), True),
        (Action(Job.WET_DOWN, 10, wet=15), True),
        (Action(Job.WET_UP, 10, wet=15), False),
        (feed(10, 90), False),
        (take_off(10, 0), False),
    ],
)
def test_boxes_in_doubt_are_stacked_apart_where_there_are_any(
    action: Action, *, apart: bool
) -> None:
    """A watched yard's boxes stand by themselves; a round of feed brings none."""
    plan = small_plan()
    yard = replace(plan.outfit.yards[0], health=Health.WATCH)
    outfit = replace(plan.outfit, yards=(yard, plan.outfit.yards[1]))
    day = a_shift(outfit, 0, [Round("t", (Stop(1, 60, (action, block(10))),))])
    watch = sheet(replace(plan, outfit=outfit, shifts=(day,))).steps[1].watch

    assert ("stack these boxes apart" in watch) is apart
    assert watch.startswith("Own doubt: ")
    assert watch.endswith("clean kit afterwards.")


def test_a_road_without_length_is_given_in_minutes() -> None:
    """Where the table has no metres the drive is given in minutes alone."""
    plan = small_plan()
    nowhere = tuple((None, None, None) for _ in range(3))
    outfit = replace(plan.outfit, travel=replace(plan.outfit.travel, metres=nowhere))

    assert "10 min" == sheet(replace(plan, outfit=outfit)).steps[1].way


def test_the_page_shows_the_whole_sheet() -> None:
    """All that the sheet holds can be read on the page."""
    made = sheet(eight_stop_plan(), 1)
    text = Page(manifest_page(made)).text

    for step in made.steps:
        for words in (step.name, step.arrive, step.latest, step.phone, step.watch, *step.jobs):
            assert words in text
        assert all(line in text for line in (*step.access, *step.late))
    assert all(one.what in text and one.where in text for one in made.goods)
    assert all(one.words in text for one in made.cautions)
    assert made.unknown in text
    assert "Break 08:06\u201308:51" in text
    assert "start 09:16" in text
    assert 8 == text.count("Done colonies")


def test_the_page_opens_a_map_app_but_no_site() -> None:
    """The only links are geo links, one a stop."""
    links = Page(manifest_page(sheet(eight_stop_plan(), 1))).values("href")

    assert 8 == len(links)
    assert all(re.fullmatch(r"geo:-?\d+\.\d{5},-?\d+\.\d{5}", link) for link in links)


def test_no_money_on_a_drivers_paper() -> None:
    """Neither the currency nor a sum of the bill stands there."""
    text = Page(manifest_page(sheet(eight_stop_plan(), 1))).text

    assert "NZD" not in text
    assert "cost" not in text.lower()


def test_a_driven_trip_is_marked() -> None:
    """A trip that was driven says so."""
    plan = small_plan()
    day = plan.shifts[0]
    driven = replace(day, trips=(replace(day.trips[0], driven=True),))

    home = replace(plan, shifts=(driven,), now_min=driven.end_min)
    assert "already driven" in Page(manifest_page(sheet(home))).text
    assert "already driven" not in Page(manifest_page(sheet(plan))).text


def test_the_next_thing_to_do_comes_first() -> None:
    """Below the head the first time on the page is when to leave home, then when to load."""
    plan = small_plan()
    text = Page(manifest_page(sheet(from_elsewhere(plan)))).text

    first = text.index("Leave home")
    assert first < text.index("Load at") < text.index("Load, first on to last on")
    assert "Leave home" not in Page(manifest_page(sheet(plan))).text


def test_what_is_left_aboard_at_the_end_is_not_said() -> None:
    """Load and two stops say what is aboard; the unloading that ends the trip does not."""
    made = sheet(small_plan())

    assert [False] * (len(made.steps) - 1) + [True] == [step.ends for step in made.steps]
    told = Page(manifest_page(made)).text.count("Leaving with")
    assert len(made.steps) - 1 == told


def test_hostile_words_are_shown_and_nothing_more() -> None:
    """Hostile names come out as typed (long ones cut) and make no element of their own."""
    plan, plain = hostile_plan(), small_plan()
    for day in range(3):
        page = Page(manifest_page(sheet(plan, day)))
        same = Page(manifest_page(sheet(plain, day)))
        # The same elements but for the lines of notes and phone that the plain yards lack.
        extra = list(page.tags)
        for tag in same.tags:
            extra.remove(tag)
        assert set(extra) <= {"p", "b"}
        assert shown(HOSTILE[2], 32) in page.text
        assert not [name for name, _ in page.attributes if name.startswith("on")]
    notes = Page(manifest_page(sheet(plan, 0)))
    assert HOSTILE[0] in notes.text
    assert shown(HOSTILE[4], 40) in notes.text


def test_litres_stay_beside_their_number() -> None:
    """No line of what to load or to do ends between a figure and its L."""
    made = manifest_page(sheet(eight_stop_plan(), 1))
    ticked = re.findall(r'<li><i class="tick"></i>(.*?)</li>', made)

    assert any("\u00a0L" in one for one in ticked)
    assert not [one for one in ticked if re.search(r"[0-9] L\b", one)]
