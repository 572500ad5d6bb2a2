"""Goods that circulate: what a text is refused by and what a plan is judged by are one rule."""

from hypothesis import given
from hypothesis import strategies as st

from runplanner.outfit.stores import shortage
from runplanner.season.standing.stores import never_short

MINUTES = st.integers(0, 6)
MOVES = st.lists(st.tuples(MINUTES, st.integers(-9, 9)), max_size=8)
LOST = st.lists(st.tuples(MINUTES, st.integers(0, 9)), max_size=3)


@given(st.integers(0, 12), MOVES, LOST)
def test_as_many_as_lack_are_just_enough(
    owned: int, moves: list[tuple[int, int]], lost: list[tuple[int, int]]
) -> None:
    """With so many more each planned load finds enough, and with one fewer one does not."""
    keyed = [(minute, change, (0, truck)) for truck, (minute, change) in enumerate(moves)]
    lacks = shortage(owned, moves, lost)

    assert never_short(owned + lacks, keyed, lost)
    assert not lacks or not never_short(owned + lacks - 1, keyed, lost)
