"""Counts of one trip at one yard, told in one sum: which of its calls there each belongs to."""

from collections.abc import Callable
from typing import Final

from runplanner.changes.said.count_words import Counts
from runplanner.daybook.trip import Action, Call, Job
from runplanner.phrase import joined, phrase
from runplanner.scenario.faults import Refusal

_ONCE: Final = {
    "strips": {Job.STRIPS}, "feeders": {Job.FEEDERS}, "wet": {Job.WET_DOWN, Job.WET_UP},
}  # fmt: skip
_BORNE: Final = {"boxes", "brood"}
"""What comes from colonies that are taken off."""
LEFT_OUT: Final = phrase("Leave it out at this stop.")
"""The cure for a count of what was not planned."""
_WET_JOBS: Final = {Job.WET_UP, Job.WET_DOWN}
_OF_JOBS: Final = {
    "colonies": set(Job), "boxes": {Job.TAKE_OFF}, "brood": {Job.TAKE_OFF},
    "boards": {Job.BOARDS}, "fed": {Job.FEED}, "ml": {Job.FEED}, "wet": _WET_JOBS,
    "feeders": {Job.FEEDERS},
}  # fmt: skip
"""The jobs of which a word counts; blocks and strips may be given at any stop."""
_NAMES: Final = {
    "colonies": phrase("colonies"), "boxes": phrase("boxes"), "brood": phrase("brood boxes"),
    "boards": phrase("boards"), "fed": phrase("fed"), "ml": phrase("litres"),
    "wet": phrase("wet boxes"), "feeders": phrase("feeders that come off"),
}  # fmt: skip
_PLANNED: Final = {
    Job.WET_DOWN: phrase("wet boxes down"), Job.BOARDS: phrase("boards on"),
    Job.TAKE_OFF: phrase("take-off"), Job.BLOCK: phrase("blocks"), Job.FEED: phrase("syrup"),
    Job.STRIPS: phrase("strips"), Job.FEEDERS: phrase("feeders off"),
    Job.WET_UP: phrase("wet boxes up"),
}  # fmt: skip
"""What was planned at a stop, in the order it is done."""


def refuse_unplanned(calls: list[Call], counts: Counts) -> None:
    """See that what is counted was planned there, where it would count for nothing else.

    Raises:
        Refusal: With each word that was not, and what was planned.
    """
    actions = [action for call in calls for action in call.actions]
    there = {action.job for action in actions}
    fits = {word for word, jobs in _OF_JOBS.items() if jobs & there}
    fits |= {"boards"} if any(action.boards_off for action in actions) else set()
    lost = [word for word, said in counts.items() if said and word in _OF_JOBS and word not in fits]
    if not lost:
        return
    planned = [said for job, said in _PLANNED.items() if job in there] or [phrase("nothing")]
    raise Refusal(
        phrase(
            "counts of what was planned there ({planned}), not {words}",
            planned=joined(", ", *planned),
            words=joined(", ", *(_NAMES[word] for word in lost)),
        ),
        LEFT_OUT,
    )


def shared_out(calls: list[Call], counts: Counts) -> list[dict[str, int]]:
    """Return the counts of each call of one trip at one yard, which are told in one sum.

    Strips, feeders and wet boxes count where they were planned, else at the first call: strips
    told once are not hung twice. All else goes by what each call was to do, the rest to the last,
    boxes to the last at which a colony came off.

    Args:
        calls: The trip's calls at the yard, in order.
        counts: What was told of them together.

    Returns:
        Counts by word, one mapping for each call.
    """
    shared = [dict(counts) for _ in calls]
    for word, jobs in _ONCE.items():
        doing = [jobs & {action.job for action in call.actions} for call in calls]
        for number, (mine, does) in enumerate(zip(shared, doing, strict=True)):
            if word in mine and not does and (any(doing) or number):
                del mine[word]
    for word, planned in _PARTED:
        due = [(mine, planned(call)) for mine, call in zip(shared, calls, strict=True)]
        parts = [(mine, count) for mine, count in due if word in mine and count is not None]
        if word in _BORNE:
            parts = _by_colonies(parts)
        left = counts.get(word, 0)
        for mine, count in parts[:-1]:
            mine[word] = min(count, left)
            left -= mine[word]
        for mine, _ in parts[-1:]:
            mine[word] = left
    return shared


def _by_colonies(parts: list[tuple[dict[str, int], int]]) -> list[tuple[dict[str, int], int]]:
    """Return the calls with those first, and no boxes due at them, at which no colony came off."""
    off = [mine.get("colonies", 1) > 0 for mine, _ in parts]
    none = [(mine, 0) for (mine, _), some in zip(parts, off, strict=True) if not some]
    return none + [part for part, some in zip(parts, off, strict=True) if some]


def planned_sum(call: Call, job: Job, what: Callable[[Action], int]) -> int | None:
    """Return what a call was to do of a job, ``what`` of its actions; None where it was not to."""
    found = [what(action) for action in call.actions if action.job is job]
    return sum(found) if found else None


def _fed_alone(call: Call) -> int | None:
    off = planned_sum(call, Job.TAKE_OFF, lambda one: one.colonies)
    return planned_sum(call, Job.FEED, lambda one: one.colonies) if off is None else None


_PARTED: Final[tuple[tuple[str, Callable[[Call], int | None]], ...]] = (
    ("blocks", lambda call: planned_sum(call, Job.BLOCK, lambda one: one.pieces) or 0),
    ("colonies", lambda call: planned_sum(call, Job.TAKE_OFF, lambda one: one.colonies)),
    ("colonies", _fed_alone),
    ("boxes", lambda call: planned_sum(call, Job.TAKE_OFF, lambda one: one.boxes)),
    ("brood", lambda call: planned_sum(call, Job.TAKE_OFF, lambda one: one.brood_boxes)),
    ("boards", lambda call: planned_sum(call, Job.BOARDS, lambda one: one.pieces)),
    ("fed", lambda call: planned_sum(call, Job.FEED, lambda one: one.colonies)),
    ("ml", lambda call: planned_sum(call, Job.FEED, lambda one: one.ml)),
)
"""Words of which a trip's calls at a yard each did a part, and what each was to do."""
