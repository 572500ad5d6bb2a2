"""Tests of strips told at stops: due out there, or before any feed."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job, Shift
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.days.wet_day import wet_page
from runplanner.paperwork.driver.manifest import manifest
from tests.paperwork.pages import Page
from tests.paperwork.plans import Round, Stop, a_shift, feed
from tests.paperwork.test_strips_out import TAKE_OUT, short


def test_a_wet_day_says_what_comes_out_before_feed() -> None:
    """The syrup stands, but its yard has formic acid in until somebody takes it out."""
    plan, _ = short(feed_day=10)
    words = "all formic acid strips out before any feed, about 10 min more; syrup, 10 colonies"
    text = Page(wet_page(plan, 10)).text

    assert words in text
    assert "Strips come out only in dry moments; where they cannot, no feed goes in." in text
    other, _ = short(feed_day=15)
    assert "before any feed" not in Page(wet_page(other, 15)).text


def told_at(plan: Plan, shift: Shift) -> str:
    """What the driver's paper of a trip says of strips due at its stops."""
    steps = manifest(plan, shift, shift.trips[0]).steps
    return " ".join(step.watch for step in steps if "due out" in step.watch)


def test_strips_due_out_are_told_at_the_stop() -> None:
    """Amitraz in on Mon 1 March, due out after 7 to 14 days: a feeder is fetched on some day."""
    for day, said in ((6, False), (7, True), (14, True), (15, False)):
        plan, shift = short(feed_day=day)
        mild = replace(plan.outfit.strips, substance="amitraz", no_feed_days=0)
        plan = replace(plan, outfit=replace(plan.outfit, strips=mild))

        words = (
            "20 strips are due out by Mon 15 Mar: take them out unless that is done, about 10 min "
            "for one person, for which the plan keeps no time."
        )
        assert (words if said else "") == told_at(plan, shift)
        brief = "! 20 strips due out by Mon 15 Mar, unless done: about 10 min more"
        assert said == (brief in phone_text(plan, day))
    driven = replace(plan, now_min=plan.outfit.season.n_days * 24 * 60)
    assert not told_at(driven, shift)


def test_strips_given_twice_are_told_with_the_new_ones() -> None:
    """Due out after 7 to 14 days with twice the work, the second after 14 to 28."""
    for day, words in (
        (
            10,
            "take them out and put in 20 strips for the second application, about 20 min",
        ),
        (20, "take them out unless that is done, about 10 min for one person"),
    ):
        plan, shift = short(feed_day=day, twice=True)
        thyme = replace(plan.outfit.strips, substance="thymol", no_feed_days=0)

        assert words in told_at(replace(plan, outfit=replace(plan.outfit, strips=thyme)), shift)


def test_strips_that_came_out_before_feed_are_not_told_again() -> None:
    """Formic acid fed on day 8, and feeders fetched on days 7 and 9: told on the first alone."""
    plan, fed = short(feed_day=8)
    off = Action(Job.FEEDERS, 10, feeders_off=10)
    before, after = (
        a_shift(plan.outfit, day, [Round(f"d{day}", (Stop(1, 20, (off,)),))]) for day in (7, 9)
    )
    plan = replace(plan, shifts=(plan.shifts[0], before, fed, after))

    assert [True, False, False] == [bool(told_at(plan, one)) for one in (before, fed, after)]


def test_strips_that_came_out_before_feed_are_no_more_work_for_the_next_round() -> None:
    """Fed on days 8 and 12 of 7 to 14: the first of them takes the strips out."""
    plan, first = short(feed_day=8)
    second = a_shift(plan.outfit, 12, [Round("more", (Stop(1, 20, (feed(10, 85),)),))])
    plan = replace(plan, shifts=(*plan.shifts, second))

    for shift, said in ((first, True), (second, False)):
        watch = [step.watch for step in manifest(plan, shift, shift.trips[0]).steps]
        assert said == (TAKE_OUT in watch)
