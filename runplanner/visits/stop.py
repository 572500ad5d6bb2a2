"""One stop at one yard, as the planner writes it."""

from typing import NamedTuple


class Stop(NamedTuple):
    """One visit of one yard; counts are colonies unless said otherwise.

    Args:
        yard: Index of the yard.
        boards: Boards put on.
        off: Colonies taken off and condensed.
        boxes: Honey boxes that brings aboard.
        brood: Brood boxes that brings aboard.
        blocks: Fondant blocks placed.
        round: Feed round given, 0 for none.
        fed: Colonies fed.
        strips: Whole yard's strips go in.
    """

    yard: int
    boards: int = 0
    off: int = 0
    boxes: int = 0
    brood: int = 0
    blocks: int = 0
    round: int = 0
    fed: int = 0
    strips: bool = False


class Visit(NamedTuple):
    """A stop with its times; a ``fact`` has been driven and is not judged again."""

    start_min: int
    end_min: int
    leave_min: int
    stop: Stop
    day: int
    truck: int
    fact: bool = False
