"""How far from home people spin or mix."""

from dataclasses import replace

import pytest

from runplanner.haulage.own_way import own_way_min
from tests.outfits import an_outfit


@pytest.mark.parametrize(
    ("there", "back", "way"),
    [(15, 15, 0), (16, 15, 16), (15, 20, 20), (None, 20, 20), (None, None, 0)],
)
def test_the_longer_way_counts_and_a_quarter_of_an_hour_is_near(
    there: int | None, back: int | None, way: int
) -> None:
    """The base stands at place 1; where no road is known that way nothing is told of it."""
    outfit = an_outfit([(5, 0)])
    minutes = ((0, there), (back, 0))
    far = replace(outfit, travel=replace(outfit.travel, minutes=minutes))

    assert way == own_way_min(far, replace(far.home, place=1))
    assert 0 == own_way_min(far, far.home)
