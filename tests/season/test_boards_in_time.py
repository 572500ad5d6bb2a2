"""A take-off under boards waits for a day before which its boards find hours."""

import random
from dataclasses import replace

import pytest

from runplanner.outfit.yards import Clearing
from runplanner.season.search.build import Builder
from runplanner.season.search.insert import Inserter
from runplanner.season.search.take_off import TakeOffs
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import Standing, State
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import daily
from tests.season.tiny import four, tiny


def test_a_later_day_is_taken_where_boards_do_not_fit_before_the_cheapest() -> None:
    """Hives may be opened on days 1 to 3; on day 1 a truck goes by, but boards need a night.

    So boards go on with that truck, and the honey comes off a day later, in a trip by itself.
    """
    fair = daily(8 * 60, 18 * 60, range(1, 4))
    boarded = four(1, 4, clearing=Clearing.BOARDS, open_spans=fair)
    outfit = tiny([(40, 0), (41, 0)], [boarded, four(2, 4)], 4)
    keeper = Keeper(Ground(replace(outfit, rules=replace(outfit.rules, board_least_min=720))))
    passing = keeper.judge(Day(1, 0, ((Stop(1, off=4, boxes=6, round=1, fed=4, strips=True),),)))
    assert passing is not None
    state = keeper.settled({(1, 0): passing})
    new = Builder(Inserter(keeper, random.Random(1))).add(state, 0)

    assert [(1, 4, 0), (2, 0, 4)] == [
        (visit.day, visit.stop.boards, visit.stop.off) for visit in new.visits[0]
    ]
    assert (0, 0) == (new.score.undone.lacking, new.score.undone.not_off)


def test_days_run_out_where_boards_never_fit(monkeypatch: pytest.MonkeyPatch) -> None:
    """Four of eight are off on day 1 by the plan; the others would wait for boards in vain."""
    eight = four(1, 4, clearing=Clearing.BOARDS, colonies=8, boxes=12)
    keeper = Keeper(Ground(tiny([(40, 0)], [eight], 4)))
    stops = (Stop(0, boards=4), Stop(0, off=4, boxes=6, blocks=4))
    judged = {(day, 0): keeper.judge(Day(day, 0, ((stop,),))) for day, stop in enumerate(stops)}
    state = keeper.settled({key: one for key, one in judged.items() if one is not None})
    take_offs = TakeOffs(Inserter(keeper, random.Random(1)))
    tried: list[int] = []

    def never(new: State, yard: int) -> None:
        tried.append(max(visit.day for visit in new.visits[yard] if visit.stop.off))

    monkeypatch.setattr(take_offs, "boards", never)

    assert [1] == [visit.day for visit in state.visits[0] if visit.stop.off]
    assert take_offs.taken_off(state, 0, 1) is None
    assert sorted(set(tried)) == tried != []


@pytest.mark.parametrize("seed", range(4))
def test_boards_of_lots_that_are_off_are_not_taken_to_lie_there_still(seed: int) -> None:
    """Of twelve colonies four are off; boards for the others go on before the next four come off.

    Taken to lie there still, they were set against those four, and the visit came too late.
    """
    twelve = four(1, 12, clearing=Clearing.BOARDS, colonies=12, boxes=18)
    ground, off = Ground(tiny([(40, 0)], [twelve], 12)), Stop(0, off=4, boxes=6, blocks=4)
    stops = {0: Stop(0, boards=4), 1: off, 3: off, 11: off}
    judged = {(day, 0): Keeper(ground).judge(Day(day, 0, ((at,),))) for day, at in stops.items()}
    days = {key: one for key, one in judged.items() if one is not None}
    for key in ((0, 0), (1, 0)):
        visits = tuple(visit._replace(fact=True) for visit in days[key].visits)
        days[key] = days[key]._replace(visits=visits)
    driven = {key: days[key] for key in ((0, 0), (1, 0))}
    keeper = Keeper(ground, Standing(driven=driven, crews=dict.fromkeys(driven, (0,))))
    state = keeper.settled(days)
    new = TakeOffs(Inserter(keeper, random.Random(seed))).boards(state, 0)

    assert 8 == state.progress[0].lacking
    assert new is not None
    assert 0 == new.progress[0].lacking
