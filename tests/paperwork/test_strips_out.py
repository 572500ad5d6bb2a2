"""Tests of the list of strips to take out."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job, Shift
from runplanner.outfit.yards import Health
from runplanner.paperwork.days.day_sheet import day_page
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.days.strips_due import due_part
from runplanner.paperwork.driver.manifest import manifest
from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.index_page import index_page
from runplanner.paperwork.lists.collection import collections
from runplanner.paperwork.lists.medicine_record import records
from runplanner.paperwork.lists.shopping import shopping
from runplanner.paperwork.lists.strips_out import all_notes, strips_out
from runplanner.paperwork.lists.strips_page import strips_page
from tests.outfits import a_yard, an_outfit
from tests.paperwork.pages import Page
from tests.paperwork.plans import (
    Round,
    Stop,
    a_shift,
    boards,
    eight_stop_plan,
    feed,
    hostile_plan,
    small_plan,
    strips,
)
from tests.plans import an_empty_plan


def test_strips_fall_due_past_the_campaign() -> None:
    """In on Tue 2 March, out 42 to 70 days later: 13 April to 11 May, though day 5 is the last."""
    (only,) = strips_out(small_plan())

    assert ("Yard 1", 10, 20, "Tue 2 Mar", "Tue 13 Apr 2027", "Tue 11 May 2027") == (
        only.yard, only.colonies, only.pieces, only.went_in, only.due_from, only.due_to,
    )  # fmt: skip


def test_kit_left_in_yards_is_told_by_number() -> None:
    """Yard 1 has its strips and ten feeders, one of them home since; yard 2 six, and no strips.

    Four boards of seven came home from there.  Where nothing stands, nothing is said.
    """
    plan = small_plan()
    fed = replace(feed(10, 90), feeders=10)
    home = replace(feed(6, 50), feeders=6), boards(7)
    off = Action(Job.FEEDERS, 1, feeders_off=1), Action(Job.TAKE_OFF, 4, boards_off=4)
    rounds = [
        Round("one", (Stop(1, 60, (fed, strips(10))), Stop(2, 60, home))),
        Round("two", (Stop(1, 10, off[:1]), Stop(2, 10, off[1:]))),
    ]
    text = Page(strips_page(replace(plan, shifts=(a_shift(plan.outfit, 1, rounds),)))).text

    assert "1 Yard 1 9 feeders there." in text
    assert "in all: 15 feeders and 3 boards." in text
    assert "No strips are to be fetched there, but kit is: Yard 2 (6 feeders and 3 boards)." in text
    assert "Kit in yards" not in Page(strips_page(replace(plan, shifts=()))).text


def test_kit_in_a_closed_yard_stays_there() -> None:
    """Boards lie in both yards; the second is suspect, so nobody is sent for its ten."""
    plan = small_plan()
    rounds = [Round("one", (Stop(1, 20, (boards(8),)), Stop(2, 20, (boards(10),))))]
    plan = replace(plan, shifts=(a_shift(plan.outfit, 1, rounds),))
    first, second = plan.outfit.yards

    def text(health: Health) -> str:
        yards = first, replace(second, health=health)
        return Page(strips_page(replace(plan, outfit=replace(plan.outfit, yards=yards)))).text

    shut = "Kit that stays there until the inspector clears it: Yard 2 (10 boards)."
    for health in (Health.SUSPECT, Health.STANDSTILL):
        assert shut in text(health)
        assert "but kit is: Yard 1 (8 boards)." in text(health)
        assert "in all: 18 boards." in text(health)
    assert "but kit is: Yard 1 (8 boards) and Yard 2 (10 boards)." in text(Health.WATCH)
    assert "inspector clears" not in text(Health.WATCH)


def test_what_is_said_of_the_medicine_stands_under_a_head_of_its_own() -> None:
    """Below kit in yards it read as if leaflet and vet had a word on feeders."""
    text = Page(strips_page(small_plan())).text

    assert "Medicine The product's leaflet, your vet" in text


def test_the_soonest_due_comes_first() -> None:
    """Three yards on day 1 by name, then the one of day 2."""
    assert ["Kauri Flat", "Old Woolshed", "Salt Paddock", "Top of Rimu Road"] == [
        one.yard for one in strips_out(eight_stop_plan())
    ]


def test_the_page_defers_to_leaflet_vet_and_law() -> None:
    """The substance, the due dates, and whose word goes first."""
    text = Page(strips_page(small_plan())).text

    assert "amitraz" in text
    assert "Tue 13 Apr to Tue 11 May 2027" in text
    assert "leaflet, your vet and local law go before this list" in text
    assert "No strips are planned." in Page(strips_page(replace(small_plan(), shifts=()))).text


def test_what_is_known_of_the_substance_is_said() -> None:
    """Amitraz has no limits of air, formic acid 10 to 29.5, thymol a mean and a second round."""
    plan = small_plan()
    said = {
        name: Page(
            strips_page(
                replace(plan, outfit=replace(plan.outfit, strips=replace(kind, substance=name)))
            )
        ).text
        for kind in (plan.outfit.strips,)
        for name in ("amitraz", "Formic acid", "thymol", "another acid")
    }

    assert "Never with honey boxes on" in said["amitraz"]
    assert "\u00b0C" not in said["amitraz"]
    assert "Air from 10 to 29.5 \u00b0C while they are in." in said["Formic acid"]
    assert "Days above 15 \u00b0C in the mean, all below 30 \u00b0C." in said["thymol"]
    assert "A second application, as many strips again, when these come out." in said["thymol"]
    assert "Never with honey boxes on" not in said["another acid"]


def thymol(twice: bool | None = None) -> Plan:  # noqa: FBT001
    """Thymol for 21 to 28 days into the ten colonies of yard 1 on Tue 2 March, 20 strips."""
    plan = small_plan()
    kind = replace(
        plan.outfit.strips, substance="thymol", out_after_days=21, out_before_days=28, twice=twice
    )
    return replace(plan, outfit=replace(plan.outfit, strips=kind))


def test_a_second_application_is_brought_and_due_out() -> None:
    """20 come out from 23 to 30 March and 20 go in; those are due 42 to 56 days after the first.

    That is 13 to 27 April; the work of the trip is that of both.
    """
    text = Page(strips_page(thymol())).text
    once = Page(strips_page(thymol(twice=False))).text

    assert "Tue 23 Mar to Tue 30 Mar 2027" in text
    assert "Tue 13 Apr to Tue 27 Apr 2027" in text
    assert "20 in 10 colonies, second application" in text
    assert "bring 20 strips for the second application" in text
    assert "The second application is no visit of this plan." in text
    assert "second application" not in once.lower()
    (both,), (single,) = collections(thymol()), collections(thymol(twice=False))
    setup = thymol().outfit.pace.setup_min
    assert 2 * (single.work_min - setup) == both.work_min - setup


def test_a_second_application_is_for_the_colonies_that_live() -> None:
    """Three of ten have died since: 20 strips come out, 14 go in, on every paper."""
    plan = thymol()
    first, *others = plan.outfit.yards
    season = replace(plan.outfit.season, n_days=40)
    outfit = replace(plan.outfit, yards=(replace(first, colonies=7), *others), season=season)
    plan = replace(plan, outfit=outfit)
    text = Page(strips_page(plan)).text
    (record,) = records(plan)

    assert "20 in 10 colonies" in text
    assert "14 in 7 colonies, second application" in text
    assert "bring 14 strips for the second application" in text
    assert "bring 14 strips for the second application" in str(due_part(plan, 22))
    assert ("Quantity given", "14 strips") in record.again
    (bought,) = (one for one in shopping(plan) if one.what == "Strips (thymol)")
    assert "34 or more" == bought.buy
    assert bought.note.startswith("20 at first, 14 more for the second application")
    dead = replace(outfit, yards=(replace(first, colonies=0), *others))
    assert "for the second application" not in Page(strips_page(replace(plan, outfit=dead))).text


def test_second_applications_stand_among_the_others_by_their_dates() -> None:
    """Thymol into yard 1 on Tue 2 March, out 23 March and again 13 April, amitraz on Fri 5 March.

    That is due from 16 April, so it comes after both.
    """
    plan = small_plan()
    mild = replace(
        plan.outfit.strips, id="mild", substance="thymol", out_after_days=21, out_before_days=28
    )
    first, *others = plan.outfit.yards
    yards = (replace(first, strips="mild"), *others)
    outfit = replace(plan.outfit, yards=yards, strips_also=(mild,))
    late = a_shift(outfit, 4, [Round("late", (Stop(2, 20, (strips(10),)),))])
    text = Page(strips_page(replace(plan, outfit=outfit, shifts=(*plan.shifts, late)))).text

    due = [text.index(f"{day} Apr to") for day in ("Tue 13", "Fri 16")]
    assert text.index("Tue 23 Mar to") < due[0] < due[1]


def test_a_day_sheet_says_what_to_bring() -> None:
    """In a campaign that runs on, on a day on which the first come out."""
    plan = thymol()
    season = replace(plan.outfit.season, n_days=40)
    plan = replace(plan, outfit=replace(plan.outfit, season=season))

    assert "bring 20 strips for the second application" in str(due_part(plan, 22))


def test_a_day_sheet_tells_of_second_strips_that_fall_due() -> None:
    """Formic acid in on day 0, due out on days 7 to 14, the second on days 14 to 28."""
    plan, _ = short(feed_day=29, twice=True)
    due = {day: str(due_part(plan, day)) for day in (6, 13, 14, 15, 28, 29)}
    first = "Mon 8 Mar to Mon 15 Mar 2027; bring 20 strips (formic acid) for the second application"
    second = "Mon 15 Mar to Mon 29 Mar 2027; 20 strips (formic acid), second application"

    assert [13, 14] == [day for day, words in due.items() if first in words]
    assert [14, 15, 28] == [day for day, words in due.items() if second in words]
    assert [13, 14, 15, 28] == [day for day, words in due.items() if "Corrosive" in words]


def short(*, feed_day: int, twice: bool = False) -> tuple[Plan, Shift]:
    """Formic acid for 7 to 14 days into yard 1 on day 0 of 30, and syrup there on a later day."""
    outfit = an_outfit([(10, 0)], [a_yard(1, days=30)], days=30)
    acid = replace(
        outfit.strips, substance="formic acid", out_after_days=7, out_before_days=14,
        no_feed_days=7, twice=twice,
    )  # fmt: skip
    outfit = replace(outfit, strips=acid)
    shifts = (
        a_shift(outfit, 0, [Round("in", (Stop(1, 20, (strips(10),)),))]),
        a_shift(outfit, feed_day, [Round("feed", (Stop(1, 20, (feed(10, 85),)),))]),
    )
    return replace(an_empty_plan(outfit), shifts=shifts), shifts[1]


def test_strips_due_while_the_campaign_runs_are_nobodys_trip() -> None:
    """Due 8 to 15 March of a campaign until 30 March: list, index and those days say so."""
    plan, _ = short(feed_day=16)
    nobody = "No trip of this plan fetches them, and neither truck nor person is kept free for it"

    page = Page(strips_page(plan)).text
    assert "A proposal: yards near each other" in page
    assert "past the campaign" not in page
    assert f"While the campaign runs: Yard 1. {nobody}" in page
    index = Page(index_page(plan)).text
    assert "By Mon 8 Mar:" in index
    assert nobody in index
    told = [day for day in range(30) if nobody in Page(day_page(plan, day)).text]
    assert list(range(7, 15)) == told
    due = "Yard 1: Mon 8 Mar to Mon 15 Mar 2027; 20 strips (formic acid)"
    assert due in Page(day_page(plan, 7)).text
    usual = small_plan()
    assert "A proposal, past the campaign" in Page(strips_page(usual)).text
    assert "After the campaign:" in Page(index_page(usual)).text
    assert nobody not in Page(index_page(usual)).text


TAKE_OUT = (
    "Take all formic acid strips out before any feed: about 10 min for one person, for which the "
    "plan keeps no time."
)
"""Ten colonies, a minute each."""


def test_strips_that_forbid_feed_come_out_where_the_yard_is_fed() -> None:
    """Due 8 to 15 March, fed on Thu 11: out by then, by whoever feeds, and no trip for it."""
    plan, _ = short(feed_day=10)
    (only,) = strips_out(plan)
    fed = "by whoever feeds the yard on the last day, before any feed"

    assert ("Thu 11 Mar 2027", 10, True) == (only.due_to, only.last_day, only.at_feed)
    assert () == collections(plan)
    assert f"Mon 8 Mar to Thu 11 Mar 2027 {fed}" in Page(strips_page(plan)).text
    due = [str(due_part(plan, day)) for day in (7, 10, 11)]
    assert [True, True, False] == [fed in one for one in due]
    assert "No trip of this plan fetches them" not in due[0] + Page(index_page(plan)).text
    assert "By Mon 8 Mar:" in Page(index_page(plan)).text
    later, _ = short(feed_day=15)
    assert not strips_out(later)[0].at_feed
    assert collections(later)


def test_strips_that_forbid_feed_come_out_before_it() -> None:
    """On day 10 pads may hang still; on day 6 they may not come out yet, on day 15 they are out."""
    for day, said in ((6, False), (7, True), (14, True), (15, False)):
        plan, shift = short(feed_day=day)
        watch = [step.watch for step in manifest(plan, shift, shift.trips[0]).steps]

        assert said == (TAKE_OUT in watch)
        short_words = "! all formic acid strips out before any feed, about 10 min more"
        assert said == (short_words in phone_text(plan, day))


def test_second_strips_that_forbid_feed_come_out_before_it() -> None:
    """Due out on days 14 to 28; the paper that puts the first in forbids feed up to day 20."""
    for day, said in ((21, True), (28, True), (29, False)):
        plan, shift = short(feed_day=day, twice=True)
        watch = [step.watch for step in manifest(plan, shift, shift.trips[0]).steps]
        assert said == (TAKE_OUT in watch)

    put_in = plan.shifts[0]
    page = manifest_page(manifest(plan, put_in, put_in.trips[0]))
    assert "No feed beside formic acid before Mon 22 Mar" in Page(page).text


def test_hostile_words_are_words() -> None:
    """No element that plain names do not make; an unknown substance has no cautions."""
    assert set(Page(strips_page(hostile_plan())).tags) <= set(Page(strips_page(small_plan())).tags)


def test_no_rule_is_said_twice() -> None:
    """What is known of the substance stands in place of the general words, not beside them."""
    plan = small_plan()
    other = replace(plan.outfit, strips=replace(plan.outfit.strips, substance="another acid"))
    for each in (plan, replace(plan, outfit=other)):
        text = Page(strips_page(each)).text
        assert 1 == text.count("honey boxes on")
        assert 1 == text.count("colonies of the yard at the same time") + text.count("Whole yard")
        assert 1 == text.count("reuse") + text.count("used again")


def test_two_kinds_of_one_substance_tell_the_air_of_both() -> None:
    """One as published, the other up to 25 as typed; all else is said once."""
    plan = small_plan()
    acid = replace(plan.outfit.strips, substance="formic acid")
    notes = all_notes((acid, replace(acid, id="mild", hottest_dc=250)))

    assert "Air from 10 to 29.5 \u00b0C while they are in." in notes
    assert "Air from 10 to 25 (own figure) \u00b0C while they are in." in notes
    assert len(set(notes)) == len(notes) == len(all_notes((acid,))) + 1
