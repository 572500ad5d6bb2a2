"""Stocks against what is due: how much a season uses, and how much it is short of."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from runplanner.daybook.plan import Undone
from runplanner.daybook.riding import strips_of
from runplanner.daybook.trip import Job
from runplanner.outfit.stores import Feed
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trade.feeding import sugar_for_g


class Syrup(NamedTuple):
    """Millilitres of syrup.

    Args:
        loaded: All that trips load and do not bring back, but what trips that have left load and
            nobody has.
        lacking: What each yard's rounds still want beyond what is poured there.
    """

    loaded: int
    lacking: tuple[int, ...]

    @property
    def due(self) -> int:
        """All of it, what was poured into colonies that are dead or closed by now among it."""
        return self.loaded + sum(self.lacking)


def syrup(keeper: Keeper, state: State) -> Syrup:
    """Return the syrup that a season uses and lacks."""
    ground = keeper.ground
    wanted = []
    for yard, due in zip(ground.outfit.yards, ground.dues, strict=True):
        wanted.append(yard.colonies * due.rounds * due.round_ml)
    return Syrup(
        loaded=keeper.stores.syrup_used_ml(state.days),
        lacking=tuple(
            max(0, ml - sum(visit.stop.fed for visit in visits) * due.round_ml)
            for ml, visits, due in zip(wanted, state.visits, ground.dues, strict=True)
        ),
    )


def syrup_short_ml(feed: Feed, ml: int) -> int:
    """Return how much of ``ml`` is never delivered; 0 where syrup is mixed."""
    return max(0, ml - feed.ready_ml) if feed.bought else 0


def sugar_short_g(feed: Feed, ml: int) -> int:
    """Return the sugar missing for ``ml`` in all; 0 where it is bought as needed, or none is."""
    if feed.bought or feed.sugar_g is None:
        return 0
    return max(0, sugar_for_g(max(0, ml - feed.ready_ml), feed) - feed.sugar_g)


def strips_short(keeper: Keeper, state: State, left: Sequence[Undone]) -> Iterator[tuple[str, int]]:
    """Yield each substance whose stock is short of the strips ``left`` out, and by how many."""
    outfit = keeper.ground.outfit
    yards = {one.yard for one in left if one.job is Job.STRIPS}
    for stock, mine in keeper.ground.strip_stocks:
        lack = [outfit.yards[i] for i in sorted(mine) if outfit.yards[i].id in yards]
        wanted = sum(yard.colonies * outfit.strips_at(yard).per_colony for yard in lack)
        if not wanted:
            continue
        substance = outfit.strips_at(lack[0]).substance
        short = keeper.stores.strips_taken(state.days, mine, strips_of(substance)) + wanted - stock
        if short > 0:
            yield substance, short


def blocks_wanted(keeper: Keeper, left: Sequence[Undone]) -> int:
    """Return the blocks wanted if each colony ``left`` on its boxes got some at its take-off."""
    ground = keeper.ground
    fed = {
        yard.id for yard, due in zip(ground.outfit.yards, ground.dues, strict=True) if due.rounds
    }
    lack = sum(one.colonies for one in left if one.job is Job.TAKE_OFF and one.yard in fed)
    return lack * ground.outfit.rules.blocks
