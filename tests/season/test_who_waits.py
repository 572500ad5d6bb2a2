"""Further blocks go to colonies that wait: those that syrup reaches in time need none.

Ten colonies came off on day 0 at 8:00, and a block lasts to day 4 at noon.  In the fourteen days
syrup comes to five of them on day 4 before that, and to nobody else.
"""

import random
from dataclasses import replace

import pytest

from runplanner.season.search.insert import Inserter
from runplanner.season.search.shelter import Shelter
from runplanner.season.search.tidy import without_needless_blocks
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import a_yard
from tests.season.driven import driven
from tests.season.tiny import ANN, tiny

DAYS = 14
NIGHT_MIN = 20 * 60
FED = Stop(0, round=1, fed=5)


def night(
    with_block: int, left: int, days: dict[int, Stop], shift_cents: int = 0
) -> tuple[Shelter, State]:
    """The night of day 0: some had a block as they came off, and so many blocks are left.

    The last of the days that are planned is dear to alter.
    """
    outfit = tiny([(10, 0)], [a_yard(1, days=DAYS)], DAYS, people=(ANN,))
    outfit = replace(outfit, kit=replace(outfit.kit, blocks_owned=with_block + left))
    off = driven(outfit, Stop(0, off=10, boxes=15, blocks=with_block))
    planned = {(day, 0): Day(day, 0, ((stop,),)) for day, stop in days.items()}
    last = max(planned)
    shifts = {last: (planned[last], (0,))}
    standing = replace(off, promised=({},), shifts=shifts, shift_cents=shift_cents)
    keeper = Keeper(Ground(outfit, NIGHT_MIN), standing)
    state = keeper.replace_all(keeper.empty(), planned)
    assert state is not None
    return Shelter(Inserter(keeper, random.Random(1))), state


def given(state: State) -> list[int]:
    """The further blocks of each stop."""
    return [visit.stop.blocks for visit in state.visits[0] if visit.stop.further]


@pytest.mark.parametrize(
    ("left", "days", "blocks"),
    [
        (5, 30, [5]),
        (7, 22, [2, 5]),
        (9, 14, [4, 5]),
        (10, 10, [5, 5]),
        (15, 0, [5, 5, 5]),
        (40, 0, [5, 5, 5]),
    ],
)
def test_blocks_go_to_those_that_no_syrup_comes_to(left: int, days: int, blocks: list[int]) -> None:
    """Without a block five colonies wait for ten days, and each block saves one of them four.

    No more than fifteen are of any use.
    """
    shelter, state = night(10, left, {4: FED})
    saved = shelter.sheltered(state, 0)

    assert 50 == state.progress[0].uncovered
    assert days == saved.progress[0].uncovered
    assert blocks == sorted(given(saved))


def test_those_without_any_block_get_theirs_before_the_others() -> None:
    """Three of the ten had one as they came off; syrup comes to all on day 3."""
    shelter, state = night(3, 10, {3: FED._replace(fed=10)})
    saved = shelter.sheltered(state, 0)

    assert [7] == given(saved)


def test_a_stop_gives_no_more_blocks_than_are_wanted() -> None:
    """Planned for ten, of whom seven have no block, before syrup came to all on day 3."""
    shelter, state = night(3, 10, {1: Stop(0, blocks=10), 3: FED._replace(fed=10)})
    new = without_needless_blocks(shelter.keeper, state, 0)

    assert state.progress[0].uncovered == new.progress[0].uncovered
    assert [7] == given(new)
    assert new.score < state.score


def test_few_blocks_go_where_each_of_them_saves_most() -> None:
    """A truck comes by on day 1, and ten blocks then cost less than five after the syrup.

    Half of those ten save nothing, and five more are too few until the end.
    """
    shelter, state = night(10, 15, {1: Stop(0, strips=True), 4: FED}, 20_000)

    assert 0 < shelter._saved(state, 0).progress[0].uncovered
    assert 0 == shelter.sheltered(state, 0).progress[0].uncovered
