"""What is done at a visit, and what was to be."""

from collections.abc import Sequence

from runplanner.daybook.differences import Shifted, Spot
from runplanner.daybook.trip import Action, Job
from runplanner.paperwork.lists.undone_list import job_name
from runplanner.paperwork.speech.say import count, litres_up
from runplanner.paperwork.speech.tongue import tr


def _jobs(spot: Spot) -> list[str]:
    return [_job(one) for one in spot.actions]


def _job(action: Action) -> str:
    return f"{job_name(action.job)} {action.colonies}"


def figures(actions: Sequence[Action]) -> list[str]:
    """Return what is done at a visit with all that is put up, taken, poured, laid and left."""
    found = []
    for one in actions:
        words = _job(one)
        boxes = one.boxes + one.brood_boxes + one.wet
        blocks, strips, laid = (
            one.pieces if one.job is job else 0 for job in (Job.BLOCK, Job.STRIPS, Job.BOARDS)
        )
        boards, feeders = laid + one.boards_off, one.feeders + one.feeders_off
        told = (
            count(boxes, "box", "boxes") if boxes else "",
            litres_up(one.ml) if one.ml else "",
            count(blocks, "block", "blocks") if blocks else "",
            count(strips, "strip", "strips") if strips else "",
            count(boards, "board", "boards") if boards else "",
            count(feeders, "feeder", "feeders") if feeders else "",
        )
        more = ", ".join(filter(None, told))
        found.append(f"{words} ({more})" if more else words)
    return found


def work_words(one: Shifted) -> str:
    """Return what is done at a visit, and what was to be where that is other work.

    Another order of it is not.  Where as many colonies have the same done, how much of it is told
    as well.
    """
    if one.was is None or one.now is None:
        return ", ".join(_jobs(one.spot))
    was, now = _jobs(one.was), _jobs(one.now)
    if sorted(was) == sorted(now):
        was, now = figures(one.was.actions), figures(one.now.actions)
    if sorted(was) == sorted(now):
        return ", ".join(_jobs(one.now))
    return tr("{now} (was: {before})", now=", ".join(now), before=", ".join(was))
