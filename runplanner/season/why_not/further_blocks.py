"""How many more blocks colonies would get if there were any number of them."""

from collections.abc import Callable, Iterable

from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.what_if import more_blocks
from runplanner.season.why_not.eased_search import carried, eased_search


def further_blocks(
    keeper: Keeper, state: State, yards: Iterable[int], seed: int, in_time: Callable[[], None]
) -> tuple[int, State]:
    """Return the further blocks that colonies off of some yards would get of any number.

    The state in which they get them goes with it.
    """
    in_time()
    improver = eased_search(keeper, more_blocks(10**6), seed)
    bare = carried(keeper, state, improver.keeper)
    new, left = improver.rebuild.sheltered(bare, yards, in_time), improver.keeper.stores.blocks_left
    return left(bare.days) - left(new.days), new
