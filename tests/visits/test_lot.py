"""Colonies that wait in a queue."""

from collections import deque

from runplanner.visits.lot import Lot, serve, split
from tests.visits.calls import OFF, at


def two_lots() -> deque[Lot]:
    """Four colonies of one visit, then six of another."""
    return deque([Lot(4, at(1, 8, OFF), grams=1), Lot(6, at(2, 8, OFF), grams=2)])


def test_the_first_lot_is_served_first() -> None:
    """Three of the first four are served; one and six wait."""
    queue = two_lots()

    assert 3 == serve(queue, 3)
    assert [1, 6] == [lot.colonies for lot in queue]


def test_one_lot_at_a_time() -> None:
    """Nine wanted: the first visit's four are served and leave the queue."""
    queue = two_lots()

    assert 4 == serve(queue, 9)
    assert [6] == [lot.colonies for lot in queue]


def test_part_of_a_lot_keeps_its_turn() -> None:
    """Two of the six behind are made a lot before their four fellows."""
    queue = two_lots()
    first = split(queue, queue[1], 2)

    assert [4, 2, 4] == [lot.colonies for lot in queue]
    assert first is queue[1]
    assert [1, 2, 2] == [lot.grams for lot in queue]


def test_a_whole_lot_is_not_split() -> None:
    """All six are the lot itself."""
    queue = two_lots()

    assert queue[1] is split(queue, queue[1], 6)
    assert [4, 6] == [lot.colonies for lot in queue]
