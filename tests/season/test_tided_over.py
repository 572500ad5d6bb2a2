"""Blocks left over, given once the search is over: in the plan, and in what is said of it.

Ten colonies came off on day 0 at 8:00 with a block each, which lasts to day 4 at noon; no syrup
is fit in the six days, and ten blocks are left over.  On day 5 a truck comes by for a yard near.
"""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.trip import Job
from runplanner.paperwork.stop.events import actions
from runplanner.season.plan_season import finished
from runplanner.season.search.improve import Improver
from runplanner.season.standing.state import State
from runplanner.season.watch import Watch
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import a_yard
from tests.season.driven import driven
from tests.season.tiny import ANN, four, tiny

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

DAYS = 6
NIGHT_MIN = 20 * 60


def run_out() -> tuple[Improver, State]:
    """Search and season of the night of day 0."""
    gone = a_yard(1, colonies=10, boxes=15, days=DAYS)
    yards = [replace(gone, feed_spans=()), four(2, DAYS, ready_from_day=5, feed_spans=())]
    outfit = tiny([(10, 0), (10, 1)], yards, DAYS, people=(ANN,))
    outfit = replace(outfit, kit=replace(outfit.kit, blocks_owned=10 + 10 + 4))
    off = driven(outfit, Stop(0, off=10, boxes=15, blocks=10))
    improver = Improver(Ground(outfit, NIGHT_MIN), 1, off)
    next_off = Day(5, 0, ((Stop(1, off=4, boxes=6, blocks=4),),))
    state = improver.keeper.replace(improver.keeper.empty(), (5, 0), next_off)
    assert state is not None
    return improver, state


def test_what_is_said_to_be_left_is_what_the_plan_leaves() -> None:
    """Ten colonies were two started days each without cover before the blocks."""
    improver, state = run_out()
    plan = finished(improver, state, Watch(0, None, None), 1)

    assert 20 == state.progress[0].uncovered > plan.tally.uncovered
    assert plan.tally.uncovered == sum(one.colony_days for one in plan.undone)
    assert [] == [finding.sentence() for finding in audit(plan)]


def test_blocks_left_over_go_while_cover_lasts_though_a_truck_comes_by_later() -> None:
    """A drive of their own costs more than a stop on day 5, and saves ten colonies a day."""
    improver, state = run_out()
    plan = finished(improver, state, Watch(0, None, None), 1)
    _, given, _ = [stop.shift.day for stop, _ in actions(plan, Job.BLOCK)]

    assert 0 == plan.tally.uncovered
    assert given <= 4
