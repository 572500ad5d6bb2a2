"""Feeders and clearer boards that stand in yards once the plan is done, to be fetched."""

from collections.abc import Mapping

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops_at
from runplanner.daybook.trip import boards_lying
from runplanner.paperwork.speech.say import count, listed


def kit_left(plan: Plan) -> Mapping[str, str]:
    """Return what is left in each yard (by id) in words; yards without any are left out."""
    left = {yard.id: _words(*_left(plan, yard.id)) for yard in plan.outfit.yards}
    return {yard: words for yard, words in left.items() if words}


def all_kit_left(plan: Plan) -> str:
    """Return what is left in all yards together in words; nothing where none is."""
    left = [_left(plan, yard.id) for yard in plan.outfit.yards]
    return _words(*(sum(kind) for kind in zip((0, 0), *left, strict=True)))


def _left(plan: Plan, yard: str) -> tuple[int, int]:
    """Return the feeders and boards left in a yard.

    Feeders count where they go from yard to yard; else each stays in its hive.
    """
    done = [one for stop in stops_at(plan, yard) for one in stop.call.actions]
    boards = boards_lying(plan.outfit.yard(yard).boards_lain, done)
    return max(0, sum(one.feeders - one.feeders_off for one in done)), max(0, boards)


def _words(feeders: int, boards: int) -> str:
    both = (
        (feeders, count(feeders, "feeder", "feeders")),
        (boards, count(boards, "board", "boards")),
    )
    return listed(tuple(words for number, words in both if number))
