"""Kit that is told lost, found or bought: fewer pieces from now on, or more in all."""

from dataclasses import replace
from typing import Final

from runplanner.changes.draft import Draft
from runplanner.phrase import counted, phrase
from runplanner.scenario.faults import Refusal

_COUNT_AGAIN: Final = phrase("Count again; what was told lost before is off that already.")


def boards_lost(draft: Draft, lost: int) -> Draft:
    """Return the draft with so many clearer boards fewer, from now on.

    Raises:
        Refusal: When there are not so many.
    """
    kit = draft.outfit.kit
    if lost > kit.boards_now:
        raise Refusal(
            counted(
                "at most the {number} board there is",
                "at most the {number} boards there are",
                kit.boards_now,
            ),
            _COUNT_AGAIN,
        )
    if draft.now_min <= 0:
        kit = replace(kit, boards_owned=kit.boards_owned - lost)
    else:
        kit = replace(kit, boards_lost=(*kit.boards_lost, (draft.now_min, lost)))
    return replace(draft, outfit=replace(draft.outfit, kit=kit))


def boards_found(draft: Draft, more: int) -> Draft:
    """Return the draft with so many clearer boards more, found again or bought."""
    kit = draft.outfit.kit
    kit = replace(kit, boards_owned=kit.boards_owned + more)
    return replace(draft, outfit=replace(draft.outfit, kit=kit))


def feeders_lost(draft: Draft, lost: int) -> Draft:
    """Return the draft with so many feeders fewer, from now on.

    Raises:
        Refusal: When there are not so many, or each hive has its own.
    """
    kit, there = draft.outfit.kit, feeders_now(draft)
    if lost > there:
        raise Refusal(
            counted(
                "at most the {number} feeder there is",
                "at most the {number} feeders there are",
                there,
            ),
            _COUNT_AGAIN,
        )
    if draft.now_min <= 0:
        kit = replace(kit, feeders_owned=there - lost)
    else:
        kit = replace(kit, feeders_lost=(*kit.feeders_lost, (draft.now_min, lost)))
    return replace(draft, outfit=replace(draft.outfit, kit=kit))


def feeders_now(draft: Draft) -> int:
    """Return how many feeders there are by now.

    Raises:
        Refusal: When each hive has its own.
    """
    there = draft.outfit.kit.feeders_now
    if there is None:
        raise Refusal(
            phrase("feeders only where they go from yard to yard"),
            phrase(
                "This plan takes it that each hive has its own: type {key} in the scenario and "
                "plan anew.",
                key="feeders",
            ),
        )
    return there
