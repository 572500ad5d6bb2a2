"""Colonies served in one visit, as they wait in a queue for what comes next."""

from collections import deque
from dataclasses import dataclass, replace

from runplanner.outfit.outfit import Outfit
from runplanner.visits.due import lasts_min
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
        eaten_min: When the last of their fondant is eaten, one block after the other.
        spared: They had no block, for syrup follows the same day.
    """

    colonies: int
    visit: Visit
    grams: int = 0
    from_min: int = 0
    until_min: int = 0
    eaten_min: int = 0
    spared: bool = False

    def live_on(self, outfit: Outfit, grams: int, from_min: int) -> None:
        """Let them live on so much from a minute on."""
        self.grams, self.from_min = grams, from_min
        self.until_min = from_min + lasts_min(outfit, grams)

    def put_on(self, outfit: Outfit, at_min: int, blocks: int) -> None:
        """Reckon when fondant is eaten: what is put on beside some is begun after it."""
        lasts = lasts_min(outfit, blocks * outfit.kit.block_g)
        self.eaten_min = max(self.eaten_min, at_min) + lasts

    def get_more(self, outfit: Outfit, at_min: int, blocks: int) -> None:
        """Get further blocks each; where nothing is left they live on those from now."""
        bare = at_min >= self.until_min
        had, since = (0, at_min) if bare else (self.grams, self.from_min)
        self.live_on(outfit, had + blocks * outfit.kit.block_g, since)
        self.put_on(outfit, at_min, blocks)


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
