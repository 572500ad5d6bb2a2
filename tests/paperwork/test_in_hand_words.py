"""What is kept in hand, on paper: limits with heavier boxes, honey as it was guessed."""

from dataclasses import replace

from runplanner.outfit.safety import Safety, safe
from runplanner.paperwork.driver.cautions import unknown
from runplanner.paperwork.index_page import index_page
from runplanner.paperwork.lists.intake_sheet import intake
from runplanner.paperwork.lists.take_off_register import loads
from runplanner.paperwork.speech.in_hand_words import in_hand_words
from runplanner.paperwork.speech.tongue import speaking
from tests.outfits import a_yard, an_outfit
from tests.paperwork.pages import Page
from tests.paperwork.plans import small_plan, take_off
from tests.paperwork.test_cautions import one_stop, said


def test_a_box_heavier_than_reckoned_with_is_still_told() -> None:
    """At 80 % a box counts 16 kg x (1 + 0.841621 x 0.1) = 17.347 kg; one spread is 17.6 kg.

    57 of them are 988.779 of 1000 kg; 57 x 0.253 kg more make 1003.2: 4 over.  At 97 % they
    count 19.01 kg, more than 17.6: 52 are 988.52 kg, and nothing is left to warn of.
    """
    some, most = (safe(an_outfit(), Safety(load)) for load in (800, 970))

    assert (
        "put it 4 kg over from stop 1" in said(some, one_stop(some, take_off(10, 57)))["Overload"]
    )
    assert "Overload" not in said(most, one_stop(most, take_off(10, 52)))


def test_the_driver_reads_what_a_box_counts() -> None:
    """Beside the guess; where nothing is kept, the guess alone."""
    kept, bare = safe(an_outfit(), Safety(970)), an_outfit()
    words = unknown(kept, one_stop(kept, take_off(10, 15)).trips[0])

    assert "a full box counts as 19.1 kg to be safe, guessed 16 kg" in words
    assert "a full box is taken as 16 kg" in unknown(
        bare, one_stop(bare, take_off(10, 15)).trips[0]
    )


def test_the_honey_house_expects_what_was_guessed() -> None:
    """15 boxes of 16 kg are 240 kg, whatever loads count them."""
    plan = small_plan()
    kept = replace(plan, outfit=safe(plan.outfit, Safety(970)))

    assert 240 == loads(plan)[0].lots[0].kg == loads(kept)[0].lots[0].kg
    arrivals = [[one.kg for one in intake(each, 0).arrivals] for each in (plan, kept)]
    assert arrivals[0] == arrivals[1] != []


def test_all_that_is_kept_is_said_on_the_index() -> None:
    """Boxes, evenings and days, in the language of the papers; nothing where nothing is kept."""
    plan = small_plan()
    kept = replace(plan, outfit=safe(plan.outfit, Safety(970, 30, 1)))
    text = Page(index_page(kept, ())).text

    assert "Kept in hand: Loads reckon with boxes up to 3.1 kg heavier than guessed" in text
    assert "Weigh the truck all the same. Trucks are planned to be home 30 min before" in text
    assert "Work is planned to be done 1 day early." in text
    assert "Kept in hand" not in Page(index_page(plan, ())).text
    with speaking("de"):
        assert "bis zu 3,1 kg schwereren Zargen" in in_hand_words(kept.outfit)[0]


def test_yards_without_boxes_do_not_count() -> None:
    """3.01 kg of a yard of 15 boxes; a yard without any, with heavier ones, is passed over."""
    empty = replace(a_yard(2, boxes=0), box_g=30_000)
    outfit = safe(an_outfit([(10, 0), (20, 0)], [a_yard(1), empty]), Safety(970))

    assert "up to 3.1 kg heavier" in in_hand_words(outfit)[0]
