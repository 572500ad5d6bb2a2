"""Treatments by active substance."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.audit.strips import unfed_days as audited
from runplanner.trade.strips import (
    DEFER,
    RECORD_FIELDS,
    RECORD_YEARS,
    STRIPS,
    strips_by_frames,
    treatment,
    unfed_days,
)
from tests.outfits import an_outfit


def test_amitraz_is_dosed_by_the_brood_box() -> None:
    """Two strips a brood box, in for six to ten weeks."""
    amitraz = STRIPS["amitraz"]
    assert (2, 42, 70) == (amitraz.per_brood_box, amitraz.out_after_days, amitraz.out_before_days)


def test_formic_acid_forbids_feed_for_a_week() -> None:
    """Seven days without feed in the yard, and the caution says so."""
    formic = STRIPS["formic acid"]
    assert formic.no_feed_days == 7
    assert any("No feeding" in caution for caution in formic.cautions)


def test_thymol_goes_in_twice() -> None:
    """One strip a brood box, in for half of six to eight weeks; the rest is a second round."""
    thymol = STRIPS["thymol"]
    assert (1, 21, 28) == (thymol.per_brood_box, thymol.out_after_days, thymol.out_before_days)
    assert thymol.twice


@pytest.mark.parametrize("called", ["formic", "Ameisens\u00e4ure", "Formic Acid"])
def test_a_substance_goes_by_several_names(called: str) -> None:
    """Whoever asks by any of them gets its cautions; of some only the name is known."""
    assert STRIPS["formic acid"] is treatment(called)
    assert treatment("oxalic") is None


@pytest.mark.parametrize("substance", STRIPS)
def test_every_treatment_warns_of_honey_boxes_and_names_sources(substance: str) -> None:
    """No boxes on, whole yard at once, and a source for each."""
    known = STRIPS[substance]
    assert any("honey boxes" in caution for caution in known.cautions)
    assert any("all colonies" in caution for caution in known.cautions)
    assert known.sources


def test_air_too_cold_or_too_hot() -> None:
    """Formic acid goes by the minimum, thymol by the mean; amitraz has no limits that are known."""
    days = ((9.0, 16.0, 22.0), (12.0, 18.0, 25.0), (18.0, 24.0, 30.0), (12.0, 14.0, 18.0))
    unfit = {name: [n for n, air in enumerate(days) if not STRIPS[name].fit(*air)]
             for name in STRIPS}  # fmt: skip
    assert {"amitraz": [], "formic acid": [0, 2], "thymol": [2, 3]} == unfit


def test_thymol_goes_in_between_its_limits_not_at_them() -> None:
    """Mean above 15, below 30 (UK SPC AN 01017/2013); formic acid's 10 to 29.5 are in."""
    thymol, acid = STRIPS["thymol"], STRIPS["formic acid"]

    assert [False, True] == [thymol.fit(10, mean, 20) for mean in (15, 15.1)]
    assert [True, False] == [thymol.fit(10, 20, high) for high in (29.9, 30)]
    assert [True, False] == [thymol.fit_so_far(10, high) for high in (29.9, 30)]
    assert acid.fit(10, 20, 29.5)


def test_limits_of_the_mean_are_told_as_strict() -> None:
    """Papers have one sentence for both."""
    assert all(known.strict == known.on_the_mean for known in STRIPS.values())


@given(st.integers(1, 60))
def test_doses_by_frames_are_whole_and_never_short(frames: int) -> None:
    """One strip for each started five frames of bees."""
    strips = strips_by_frames(frames)
    assert strips * 5 >= frames > (strips - 1) * 5


@pytest.mark.parametrize(
    ("substance", "twice", "ban", "days"),
    [
        ("formic acid", None, 5, 5),
        ("formic acid", True, 5, 12),
        ("formic acid", True, 0, 0),
        ("thymol", None, 5, 12),
        ("Thymol", False, 5, 5),
    ],
)
def test_strips_given_twice_forbid_feed_until_the_second_have_had_their_days(
    substance: str, ban: int, days: int, *, twice: bool | None
) -> None:
    """The second go in on day 7 at the latest; the audit's own rule says the same."""
    kind = replace(
        an_outfit().strips, substance=substance, twice=twice, no_feed_days=ban, out_before_days=7
    )

    assert [days, days] == [unfed_days(kind), audited(kind)]


def test_no_bees_no_dose() -> None:
    """A dose needs bees."""
    with pytest.raises(ValueError, match="at least 1"):
        strips_by_frames(0)


def test_the_record_holds_what_the_law_asks() -> None:
    """Name, batch, bought, quantity, supplier; given, quantity, withdrawal, colonies; 5 years."""
    asked = ("name", "batch", "bought", "supplier", "given", "withdrawal", "colonies")
    assert all(any(word in field for field in RECORD_FIELDS) for word in asked)
    assert RECORD_YEARS == 5
    assert "local law" in DEFER
