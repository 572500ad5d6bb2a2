"""Colonies served in one visit, as they wait in a queue for what comes next."""

from collections import deque
from dataclasses import dataclass, replace

from runplanner.visits.stop import Visit


@dataclass(slots=True)
class Lot:
    """Colonies served in one visit.

    Args:
        colonies: How many still wait.
        visit: The visit that served them.
        grams: Stores and fondant they live on.
        from_min: Since when they live on it.
        until_min: When it ends.
        spared: They had no block, for syrup follows the same day.
    """

    colonies: int
    visit: Visit
    grams: int = 0
    from_min: int = 0
    until_min: int = 0
    spared: bool = False


def serve(queue: deque[Lot], wanted: int) -> int:
    """Take up to ``wanted`` colonies off the first lot of a queue; return how many."""
    lot = queue[0]
    if lot.colonies > wanted:
        lot.colonies -= wanted
        return wanted
    queue.popleft()
    return lot.colonies


def split(queue: deque[Lot], lot: Lot, count: int) -> Lot:
    """Return the first ``count`` colonies of a lot as one of their own, in the lot's turn."""
    if count == lot.colonies:
        return lot
    first = replace(lot, colonies=count)
    lot.colonies -= count
    queue.insert(next(i for i, each in enumerate(queue) if each is lot), first)
    return first
