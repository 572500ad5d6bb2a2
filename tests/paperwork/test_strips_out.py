"""Tests of the list of strips to take out."""

from dataclasses import replace

from runplanner.paperwork.strips_out import strips_out, strips_page
from tests.paperwork.pages import Page
from tests.paperwork.plans import eight_stop_plan, hostile_plan, small_plan


def test_strips_fall_due_past_the_campaign() -> None:
    """In on Tue 2 March, out 42 to 70 days later: 13 April to 11 May, though day 5 is the last."""
    (only,) = strips_out(small_plan())

    assert ("Yard 1", 10, 20, "Tue 2 Mar", "Tue 13 Apr 2027", "Tue 11 May 2027") == (
        only.yard, only.colonies, only.pieces, only.went_in, only.due_from, only.due_to,
    )  # fmt: skip


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
    assert "Days of 15 \u00b0C and more in the mean, none above 30 \u00b0C." in said["thymol"]
    assert "A second application, as many strips again, when these come out." in said["thymol"]
    assert "Never with honey boxes on" not in said["another acid"]


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
