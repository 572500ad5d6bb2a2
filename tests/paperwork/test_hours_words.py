"""Tests of the limits on a driver's day in words."""

from dataclasses import replace

import pytest

from runplanner.paperwork.index_page import index_page
from runplanner.paperwork.speech.hours_words import farthest_m, radius_words
from tests.paperwork.pages import Page
from tests.paperwork.plans import small_plan


@pytest.mark.parametrize(
    ("metres", "word", "km"), [(99_001, "within", "100 km"), (100_000, "within", "100 km"),
                               (100_001, "beyond", "101 km")]
)  # fmt: skip
def test_kilometres_are_rounded_up(metres: int, word: str, km: str) -> None:
    """At 100 km a place is within the radius, a metre on it is not."""
    said = radius_words(metres)

    assert f"honey house and feed store counted) is {km} from base" in said
    assert f"straight line, {word} the" in said


def test_the_radius_is_a_fact_and_no_verdict() -> None:
    """The farthest place in a straight line, rounded up; the reader is sent to local law.

    It stands only where the EU's rules are the ones planned by: elsewhere it means nothing.

    Yard 2 stands 14 x 0.009 = 0.126 degrees of longitude off on the equator, where a degree
    is 111.32 km: 14.03 km.
    """
    plan = small_plan()
    european = replace(plan.outfit.hours, rules="eu")
    text = Page(index_page(replace(plan, outfit=replace(plan.outfit, hours=european)))).text

    assert 14_020 < farthest_m(small_plan().outfit) < 14_040
    assert "is 15 km from base in a straight line, within the 100 km" in text
    assert "Local law comes first" in text
    for rules in ("", "gb", "nz", "us", "cautious"):
        hours = replace(plan.outfit.hours, rules=rules)
        other = Page(index_page(replace(plan, outfit=replace(plan.outfit, hours=hours)))).text
        assert "561/2006" not in other, rules
        assert "9 h 00 of driving and 11 h 00 of duty in a day. Local law comes first" in other
    assert 0 == farthest_m(replace(small_plan().outfit, yards=()))


@pytest.mark.parametrize("which", ["honey house", "feed store"])
def test_bases_are_driven_to_as_well(which: str) -> None:
    """A base one degree of longitude east on the equator, past every yard: 111.32 km."""
    outfit = small_plan().outfit
    home = outfit.places[outfit.home.place]
    assert (0.0, 0.0) == (home.lat, home.lon)
    far = replace(home, id="far", lon=1.0)
    there = replace(outfit.home, place=len(outfit.places))
    if which == "feed store":
        moved = replace(outfit, places=(*outfit.places, far), feed_store=there)
    else:
        house = replace(outfit.honey_house, base=there)
        moved = replace(outfit, places=(*outfit.places, far), honey_house=house)

    assert 111_310 < farthest_m(moved) < 111_330
    assert "is 112 km from base" in radius_words(farthest_m(moved))
    assert "beyond the 100 km" in radius_words(farthest_m(moved))
