"""Further blocks for colonies already without cover: in time to save them another day.

Four colonies were condensed on day 0 at 11:00 with no block, and their syrup did not come: every
started 24 hours since are four colony-days.  Syrup may be poured from 16:30 on only, and so that
nobody waits for it, days begin as late as they can.
"""

import random
from dataclasses import replace

import pytest

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.season.finish import written
from runplanner.season.limits import latest_leaves
from runplanner.season.search.insert import Inserter
from runplanner.season.search.season_table import moved_to
from runplanner.season.search.shelter import Shelter
from runplanner.season.search.tidy import tidied, without_needless_blocks
from runplanner.season.standing.facts import promised_days
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import an_outfit, daily
from tests.paperwork.plans import BOUND, SEARCH
from tests.season.driven import driven
from tests.season.tiny import EVEN_FEED, four, tiny

OFF_MIN = 11 * 60
NOW_MIN = 20 * 60
AGAIN = Stop(0, blocks=4)
FED = Stop(0, round=1, fed=4, strips=True)
NEXT = Stop(1, off=4, boxes=6, blocks=4)
EVENING = daily(16 * 60 + 30, 20 * 60, range(2))


def with_bare(next_shut_min: int = 18 * 60) -> Keeper:
    """Keeper of the evening of day 0; a second yard may be opened until some minute on day 1."""
    rules = replace(an_outfit().rules, same_day_second_trip=True)
    yards = [
        four(1, 2, feed_spans=EVENING),
        four(2, 2, feed_spans=(), open_spans=daily(8 * 60, next_shut_min, range(2))),
    ]
    feed = replace(EVEN_FEED, ready_ml=200_000)
    outfit: Outfit = tiny([(10, 0), (10, 5)], yards, 2, rules=rules, feed=feed)
    off = driven(outfit, Stop(0, off=4, boxes=6, from_min=OFF_MIN))
    assert [OFF_MIN] == [one.start_min for one in off.driven[0, 0].visits]
    return Keeper(Ground(outfit, NOW_MIN), off)


def on_day_1(keeper: Keeper, *stops: Stop) -> State:
    """One trip on day 1."""
    state = keeper.replace(keeper.empty(), (1, 0), Day(1, 0, (stops,)))
    assert state is not None
    return state


def begun(state: State) -> list[int]:
    """Minutes of day 1 at which further blocks are given."""
    return [one.start_min - DAY_MIN for one in state.visits[0] if one.stop.further]


def test_a_further_block_comes_before_the_next_day_without_cover_begins() -> None:
    """Syrup alone is two days late; a block at 11:00 on day 1 ends it after one."""
    keeper = with_bare()
    shelter = Shelter(Inserter(keeper, random.Random(1)))
    state = on_day_1(keeper, FED)
    saved = shelter.sheltered(state, 0)

    assert 8 == state.progress[0].uncovered
    assert 4 == saved.progress[0].uncovered
    assert [OFF_MIN] == begun(saved)


def padded() -> tuple[Keeper, State]:
    """A day that its second stop for blocks alone lets begin in time for the first.

    After both comes a take-off before its hours end, and then the wait for the evening.
    """
    for shut_min in range(12 * 60, 16 * 60, 5):
        keeper = with_bare(shut_min)
        state = on_day_1(keeper, AGAIN, AGAIN, NEXT, FED)
        bare = on_day_1(keeper, AGAIN, NEXT, FED)
        if state.progress[0].uncovered < bare.progress[0].uncovered:
            return keeper, state
    pytest.fail("no such hours")


def test_blocks_that_only_let_a_day_begin_early_go_and_it_keeps_its_start() -> None:
    """Four blocks and ten minutes of set-up do nothing; the colonies lose no day by that."""
    keeper, state = padded()
    new = without_needless_blocks(keeper, state, 0)

    assert 2 == len(begun(state))
    assert begun(state)[:1] == begun(new)
    assert 4 == state.progress[0].uncovered == new.progress[0].uncovered
    assert new.score < state.score
    assert begun(new) == begun(tidied(keeper, state))


def test_by_when_blocks_are_planned_binds_no_driver() -> None:
    """It is no rule, and not on paper: the next plan, which knows it no more, says the same."""
    keeper, state = padded()
    (one,) = (one for key, one in without_needless_blocks(keeper, state, 0).days.items() if key[0])
    free = tuple(tuple(stop._replace(to_min=0) for stop in trip) for trip in one.day.trips)
    late = latest_leaves(keeper, state, one)

    assert free != one.day.trips
    assert late == latest_leaves(keeper, state, one._replace(day=Day(1, 0, free)))
    assert all(latest > times.leave_min for latest, times in zip(late, one.run.times, strict=True))


def test_on_another_day_blocks_may_come_at_any_minute() -> None:
    """What they save there is another sum."""
    assert moved_to(AGAIN._replace(to_min=DAY_MIN + OFF_MIN), 1, 2) == AGAIN


def test_read_back_from_its_plan_a_day_still_gives_blocks_in_time() -> None:
    """Times alone are on paper, not why the day begins so early."""
    keeper, state = padded()
    new = without_needless_blocks(keeper, state, 0)
    plan = written(keeper, new, BOUND, SEARCH)
    (day,) = promised_days(plan, keeper.ground).values()
    again = keeper.judge(day)

    assert again is not None
    assert new.days[1, 0].run == again.run._replace(times=new.days[1, 0].run.times)
    assert [one[:3] for one in new.days[1, 0].visits] == [one[:3] for one in again.visits]
