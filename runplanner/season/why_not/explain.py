"""A plan with the reasons why work is left, and with reliefs.

Both answers come from trying: a rule is named when the yard fits once that rule alone is
eased, and a relief counts only what a fresh search with it really gets done.
"""

from collections.abc import Callable
from dataclasses import replace

from runplanner.daybook.plan import ALL_DONE, Plan, Relief
from runplanner.phrase import phrase
from runplanner.season.finish import tally
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.watch import BROKEN_OFF, Watch
from runplanner.season.what_if import reliefs
from runplanner.season.why_not.eased_search import eased_search
from runplanner.season.why_not.goods_short import (
    more_blocks_for,
    more_feed_for,
    more_feeders_for,
    more_strips_for,
)
from runplanner.season.why_not.left_undone import left_undone, may_be_done
from runplanner.season.why_not.reasons import Reasons
from runplanner.season.why_not.try_relief import tried

NOT_SOUGHT = phrase("reasons were not looked for to the end, as the user broke off")


def explained(
    keeper: Keeper,
    state: State,
    plan: Plan,
    *,
    seed: int,
    rounds: int,
    left_s: Callable[[], float] | None = None,
) -> Plan:
    """Return ``plan`` with its undone work, the reasons, and what would relieve it.

    Each relief is tried for so many ``rounds``, or for its share of the seconds left; without
    rounds none is, nor once no second is left.  Where stocks are short of all that is left, more
    of them alone is tried.  Ctrl-C ends the trying, and so does the last of the seconds; reasons
    not found by then are said to be so, and the plan says that it was broken off.
    """
    left = left_undone(keeper, state)
    open_jobs = may_be_done(keeper, left)
    if not open_jobs:
        return replace(plan, undone=left)
    in_time = _ends(left_s)
    reasons = Reasons(keeper, state, seed, in_time)
    try:
        undone = tuple(reasons.given(one) if one in open_jobs else one for one in left)
    except KeyboardInterrupt:
        undone = tuple(replace(one, why=(NOT_SOUGHT,)) if one in open_jobs else one for one in left)
        return _broken_off(replace(plan, undone=undone))
    if not rounds or tally(keeper.ground, state) == ALL_DONE:
        return replace(plan, undone=undone)
    every = [*more_feed_for(keeper, state), *more_strips_for(keeper, state, open_jobs)]
    if not all(reasons.out_of_stock(one) for one in open_jobs):
        outfit = keeper.ground.outfit
        every = [*reliefs(outfit), *more_feeders_for(outfit, open_jobs), *every]
    done: list[Relief] = []
    plan = replace(plan, undone=undone)
    try:
        every = [*more_blocks_for(keeper, state, open_jobs, seed, in_time), *every]
        for number, (what, ease) in enumerate(every):
            seconds = None if left_s is None else left_s() / (len(every) - number)
            if seconds is not None and seconds <= 0:
                break
            watch, improver = Watch(rounds, seconds, None), eased_search(keeper, ease, seed)
            done.append(tried((keeper, state, plan), what, improver, watch))
    except KeyboardInterrupt:
        plan = _broken_off(plan)
    except TimeoutError:
        pass
    return replace(plan, reliefs=tuple(done))


def _ends(left_s: Callable[[], float] | None) -> Callable[[], None]:
    """Return what is called before each try: TimeoutError once no second is left."""

    def in_time() -> None:
        if left_s is not None and left_s() <= 0:
            raise TimeoutError

    return in_time


def _broken_off(plan: Plan) -> Plan:
    return replace(plan, search=replace(plan.search, stopped=BROKEN_OFF))
