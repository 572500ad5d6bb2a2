"""Treatments by active substance."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.trade.strips import (
    DEFER,
    RECORD_FIELDS,
    RECORD_YEARS,
    STRIPS,
    due_out,
    shut_days,
    strips_by_frames,
)


def test_amitraz_for_a_single_and_a_double_colony() -> None:
    """Two strips a brood box, in for six to ten weeks."""
    single, double = STRIPS["amitraz"].strips(), STRIPS["amitraz"].strips(brood_boxes=2, stock=90)
    assert (2, 4, 90) == (single.per_colony, double.per_colony, double.stock)
    assert (142, 170) == due_out(single, 100)


def test_formic_acid_forbids_feed_for_a_week() -> None:
    """Seven days without feed in the yard, and the caution says so."""
    formic = STRIPS["formic acid"]
    assert formic.strips().no_feed_days == 7
    assert any("No feeding" in caution for caution in formic.cautions)


def test_what_only_the_label_knows_is_not_made_up() -> None:
    """A substance without a dose here is asked for."""
    unknown = replace(STRIPS["thymol"], per_brood_box=None)
    with pytest.raises(ValueError, match="from the label"):
        unknown.strips()


def test_thymol_goes_in_twice() -> None:
    """One strip a brood box, in for half of six to eight weeks; the rest is a second round."""
    thymol = STRIPS["thymol"]
    assert (1, 2) == (thymol.strips().per_colony, thymol.strips(brood_boxes=2).per_colony)
    assert (121, 128) == due_out(thymol.strips(), 100)
    assert any("second application" in caution for caution in thymol.cautions)


@pytest.mark.parametrize("substance", STRIPS)
def test_every_treatment_warns_of_honey_boxes_and_names_sources(substance: str) -> None:
    """No boxes on, whole yard at once, and a source for each."""
    known = STRIPS[substance]
    assert any("honey boxes" in caution for caution in known.cautions)
    assert any("all colonies" in caution for caution in known.cautions)
    assert known.sources


def test_days_too_cold_or_too_hot_are_shut() -> None:
    """Formic 10 to 29.5 C by low and high; thymol by the mean above 15 and the high below 30."""
    days = ((9.0, 16.0, 22.0), (12.0, 18.0, 25.0), (18.0, 24.0, 30.0), (12.0, 14.0, 18.0))
    assert shut_days("formic acid", days) == (0, 2)
    assert shut_days("thymol", days) == (3,)
    assert shut_days("amitraz", days) == ()
    assert shut_days("unheard of", days) == ()


@given(st.integers(1, 60))
def test_doses_by_frames_are_whole_and_never_short(frames: int) -> None:
    """One strip for each started five frames of bees."""
    strips = strips_by_frames(frames)
    assert strips * 5 >= frames > (strips - 1) * 5


@pytest.mark.parametrize(("frames", "per"), [(0, 5), (5, 0)])
def test_no_bees_no_dose(frames: int, per: int) -> None:
    """A dose needs bees."""
    with pytest.raises(ValueError, match="at least 1"):
        strips_by_frames(frames, per)


def test_the_record_holds_what_the_law_asks() -> None:
    """Name, batch, bought, quantity, supplier; given, quantity, withdrawal, colonies; 5 years."""
    asked = ("name", "batch", "bought", "supplier", "given", "withdrawal", "colonies")
    assert all(any(word in field for field in RECORD_FIELDS) for word in asked)
    assert RECORD_YEARS == 5
    assert "local law" in DEFER
