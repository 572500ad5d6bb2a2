"""Further blocks for colonies that wait for syrup: given where they are needed, and only there."""

import random
from dataclasses import replace

from runplanner.season.search.build import Builder
from runplanner.season.search.insert import Inserter
from runplanner.season.search.shelter import Shelter
from runplanner.season.search.tidy import without_needless_blocks
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.season.driven import driven
from tests.season.tiny import four, tiny

OFF = Stop(0, off=4, boxes=6, blocks=4)
AGAIN = Stop(0, blocks=4)
FED = Stop(0, round=1, fed=4, strips=True)


def driven_on(days: dict[int, Stop]) -> tuple[Builder, State]:
    """One yard of four colonies, one stop on each of some days."""
    keeper = Keeper(Ground(tiny([(10, 0)], [four(1, 9)], 9)))
    judged = {(day, 0): keeper.judge(Day(day, 0, ((stop,),))) for day, stop in days.items()}
    state = keeper.settled({key: one for key, one in judged.items() if one is not None})
    assert sorted(day for day, _ in state.days) == sorted(days)
    return Builder(Inserter(keeper, random.Random(1))), state


def days_of(state: State) -> list[int]:
    """Days on which a truck is out."""
    return sorted(day for day, _ in state.days)


def test_a_block_that_syrup_forestalls_is_left_out() -> None:
    """A block lasts 4.2 days, syrup comes after two: no second one on the day between."""
    builder, state = driven_on({0: OFF, 1: AGAIN, 2: FED})
    bare = without_needless_blocks(builder.inserter.keeper, state, 0)

    assert [0, 2] == days_of(bare)
    assert bare.score < state.score
    assert state.progress[0].uncovered == bare.progress[0].uncovered == 0


def test_a_block_that_bridges_the_days_until_syrup_stays() -> None:
    """Syrup comes after six days: the block of the fourth is wanted, that of the fifth is not."""
    builder, state = driven_on({0: OFF, 4: AGAIN, 5: AGAIN, 6: FED})
    bare = without_needless_blocks(builder.inserter.keeper, state, 0)

    assert 3 == len(bare.days)
    assert 1 == sum(visit.stop == AGAIN for visit in bare.visits[0])
    assert bare == without_needless_blocks(builder.inserter.keeper, bare, 0)


def test_where_no_stock_was_typed_blocks_do_for_a_campaign_without_syrup() -> None:
    """Seven a colony last 29.4 days, and there are more; of four each none were left on day 17."""
    outfit = tiny([(10, 0)], [four(1, 29, feed_spans=())], 29)
    outfit = replace(outfit, kit=replace(outfit.kit, blocks_owned=outfit.blocks_for(4)))
    keeper = Keeper(Ground(outfit, 20 * 60), driven(outfit, OFF))
    new = Shelter(Inserter(keeper, random.Random(1))).sheltered(keeper.empty(), 0)

    assert 0 == new.progress[0].uncovered < keeper.empty().progress[0].uncovered
    assert 7 * 4 == sum(visit.stop.blocks for visit in new.visits[0])
    assert keeper.stores.blocks_left(new.days) > 0
