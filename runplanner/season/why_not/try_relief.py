"""A fresh search with one relief, and what it gets done at what price."""

from runplanner.daybook.plan import ALL_DONE, Bound, Plan, Relief, Search, Tally
from runplanner.daybook.trip import Job
from runplanner.phrase import Phrase
from runplanner.season.finish import tally, written
from runplanner.season.search.improve import Improver
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.watch import Watch
from runplanner.season.why_not.eased_search import carried
from runplanner.season.why_not.left_undone import left_undone, may_be_done


def tried(
    before_it: tuple[Keeper, State, Plan], what: Phrase, improver: Improver, watch: Watch
) -> Relief:
    """Search again with one relief and tell how many undone jobs it cures, at what price."""
    keeper, state, plan = before_it
    start = improver.completed(carried(keeper, state, improver.keeper))
    best = improver.rebuild.tided_over(improver.rounds(start, watch.rounds, watch))
    if watch.broken_off:
        raise KeyboardInterrupt
    before, after = _open_jobs(keeper, state), _open_jobs(improver.keeper, best)
    cured, less = len(before) - len(after), ALL_DONE
    if cured <= 0:
        cured, less = 0, _less(tally(keeper.ground, state), tally(improver.keeper.ground, best))
        if less == ALL_DONE:
            return Relief(what, 0, len(before), None)
    none = Bound(Phrase(""), 0, 0, ALL_DONE)
    new = written(improver.keeper, best, none, Search(0, watch.done, Phrase(""), ()))
    return Relief(what, cured, len(before), new.bill.total() - plan.bill.total(), less)


def _less(before: Tally, after: Tally) -> Tally:
    """Return what is left less of each kind; nothing where all in all not less is left."""
    pairs = [(getattr(before, name), getattr(after, name)) for name in Tally.__slots__]
    if [new for _, new in pairs] >= [old for old, _ in pairs]:
        return ALL_DONE
    return Tally(*(max(0, old - new) for old, new in pairs))


def _open_jobs(keeper: Keeper, state: State) -> set[tuple[str, Job]]:
    left = may_be_done(keeper, left_undone(keeper, state))
    return {(one.yard, one.job) for one in left}
