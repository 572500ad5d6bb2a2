"""Feeders and clearer boards that stand in yards once the plan is done, to be fetched."""

from collections.abc import Mapping

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops_at
from runplanner.daybook.trip import boards_lying
from runplanner.outfit.yards import CLOSED, Yard
from runplanner.paperwork.lists.collection import collections
from runplanner.paperwork.sheet.frame import section
from runplanner.paperwork.sheet.page import Part, el
from runplanner.paperwork.speech.say import count, listed, yard_name
from runplanner.paperwork.speech.tongue import tr


def kit_left(plan: Plan) -> Mapping[str, str]:
    """Return what is left in each yard (by id) in words; yards without any are left out."""
    left = {yard.id: kit_left_at(plan, yard.id) for yard in plan.outfit.yards}
    return {yard: words for yard, words in left.items() if words}


def kit_left_at(plan: Plan, yard: str) -> str:
    """Return what is left in the yard with this id in words; nothing where nothing is."""
    return _words(*_left(plan, yard))


def kit_part(plan: Plan) -> Part:
    """Return what kit stands in yards at the end, and in which that no strips come out of.

    Kit of a yard that is closed stays there.
    """
    total, left = _all_left(plan), kit_left(plan)
    if not total:
        return ""
    proposed = {one.yard for trip in collections(plan) for one in trip.pickups}
    others = [yard for yard in plan.outfit.yards if yard.id in left and yard.id not in proposed]
    fetch = _named(left, [yard for yard in others if yard.health not in CLOSED])
    stay = _named(left, [yard for yard in others if yard.health in CLOSED])
    also = tr("No strips are to be fetched there, but kit is: {yards}.", yards=fetch)
    shut = tr("Kit that stays there until the inspector clears it: {yards}.", yards=stay)
    return section(
        tr("Kit in yards"),
        el("p", tr("Left there at the end of this plan, in all: {kit}.", kit=total)),
        el("p", el("b", also)) if fetch else "",
        el("p", el("b", shut)) if stay else "",
    )


def _named(left: Mapping[str, str], yards: list[Yard]) -> str:
    named = (tr("{yard} ({kit})", yard=yard_name(yard), kit=left[yard.id]) for yard in yards)
    return listed(tuple(named))


def _all_left(plan: Plan) -> str:
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
