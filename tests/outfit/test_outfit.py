"""The facts' own few questions."""

import pytest

from runplanner.outfit.yards import Clearing
from tests.outfits import a_yard, an_outfit


def test_all_that_has_an_id_is_found_by_it() -> None:
    """An id leads to its yard, truck, container or box kind."""
    outfit = an_outfit([(1, 1), (2, 2)])

    assert outfit.yards[1] is outfit.yard("yard2")
    assert outfit.boxes[0] is outfit.box("medium")
    assert outfit.trucks[0] is outfit.truck(outfit.trucks[0].id)
    assert outfit.containers[-1] is outfit.container(outfit.containers[-1].id)


def test_of_yards_with_one_id_the_first_is_found() -> None:
    """As where each is looked at in turn: a plan file may hold anything."""
    outfit = an_outfit([(1, 1), (2, 2)], [a_yard(1), a_yard(1, colonies=5)])

    assert outfit.yards[0] is outfit.yard("yard1")


def test_no_trailer_is_no_trailer() -> None:
    """A truck that pulls none has none by its empty id."""
    assert an_outfit([(1, 1)]).trailer("") is None


@pytest.mark.parametrize("ask", ["yard", "truck", "container", "box"])
def test_an_unknown_id_is_a_key_error(ask: str) -> None:
    """An id that leads nowhere is an error that names it."""
    with pytest.raises(KeyError, match="nowhere"):
        getattr(an_outfit([(1, 1)]), ask)("nowhere")


def test_hives_that_are_moved_stand_where_they_were_moved_last() -> None:
    """Place 1 until day 2, place 7 from day 3 on, place 4 from day 5 on."""
    yard = a_yard(1)
    moved = type(yard)(
        **{name: getattr(yard, name) for name in yard.__slots__ if name != "sites"},
        sites=((0, 1), (3, 7), (5, 4)),
    )

    assert [1, 1, 1, 7, 7, 4, 4] == [moved.place_on(day) for day in range(7)]


def test_each_way_of_clearing_has_its_pace() -> None:
    """The pace of a box is that of the way it is cleared."""
    pace = an_outfit([(1, 1)]).pace

    assert 120 == pace.clear_box_s(Clearing.BLOWER)
