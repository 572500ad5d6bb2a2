"""Why a promised visit falls away whose work is left undone: stocks that are told lower."""

from collections.abc import Iterator

from runplanner.daybook.differences import Spot
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.speech.substances import substance_at
from runplanner.paperwork.speech.tongue import tr


def run_short(before: Plan, after: Plan, was: Spot) -> str:
    """Return which stock of what a visit was to use is lower than before, and that it is undone.

    Nothing where none of its work is left undone: then it is done elsewhere, or no more due.
    """
    jobs = {action.job for action in was.actions}
    left = {one.job for one in after.undone if one.yard == was.yard} & jobs
    if not left:
        return ""
    short = _stocks(before.outfit, after.outfit, was.yard, left)
    return "; ".join((*dict.fromkeys(short), tr("left undone, see below")))


def _stocks(old: Outfit, new: Outfit, yard: str, jobs: set[Job]) -> Iterator[str]:
    """Yield in words which stocks of what jobs at a yard use have become less."""
    if Job.FEED in jobs:
        if new.feed.bought and new.feed.ready_ml < old.feed.ready_ml:
            yield tr("less syrup than before")
        if _less(old.feed.sugar_g, new.feed.sugar_g):
            yield tr("less sugar than before")
        if _less(old.kit.feeders_now, new.kit.feeders_now):
            yield tr("fewer feeders than before")
    if {Job.BLOCK, Job.TAKE_OFF} & jobs and _less(old.kit.blocks_owned, new.kit.blocks_owned):
        yield tr("fewer fondant blocks than before")
    if {Job.BOARDS, Job.TAKE_OFF} & jobs and _less(old.kit.boards_now, new.kit.boards_now):
        yield tr("fewer boards than before")
    was, now = (one.strips_at(new.yard(yard)).stock for one in (old, new))
    if Job.STRIPS in jobs and _less(was, now):
        yield tr("fewer strips of {substance} than before", substance=substance_at(new, yard))


def _less(was: int | None, now: int | None) -> bool:
    """Tell whether a stock is lower than it was; None is as much as it takes."""
    return now is not None and (was is None or now < was)
