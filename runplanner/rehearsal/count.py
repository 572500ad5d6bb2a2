"""What a driver writes down of a trip's stops at a yard, in one sum as papers have it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from runplanner.changes.said.count_words import NOTHING
from runplanner.daybook.trip import Action, Call, Job, Trip


@dataclass(frozen=True, slots=True)
class Count:
    """What a driver writes down of a trip at a yard that went otherwise than planned."""

    trip: Trip
    yard: str
    counts: Mapping[str, int]


@dataclass(frozen=True, slots=True)
class Seen:
    """A stop, and the colonies and boxes that came off; None where it was left out."""

    stop: Call
    done: tuple[int, int] | None


_GIVEN: Final[Mapping[Job, tuple[str, Callable[[Action], int]]]] = {
    Job.BOARDS: ("boards", lambda one: one.pieces),
    Job.BLOCK: ("blocks", lambda one: one.pieces),
    Job.FEED: ("fed", lambda one: one.colonies),
    Job.STRIPS: ("strips", lambda one: one.pieces),
    Job.WET_UP: ("wet", lambda one: one.wet),
    Job.WET_DOWN: ("wet", lambda one: one.wet),
    Job.FEEDERS: ("feeders", lambda one: one.feeders_off),
}
"""The word of each job but a take-off, and how many of it are counted."""


def counts_of(stops: Sequence[Seen]) -> Mapping[str, int]:
    """Return what is counted of a trip's stops at one yard; empty where all went as planned.

    What follows from how many came off, as that no syrup is poured, is left to whoever reads it.
    """
    if all(one.done is None for one in stops):
        return NOTHING
    made = [action for one in stops if one.done is not None for action in one.stop.actions]
    counts: dict[str, int] = {}
    for action in (a for one in stops if one.done is None for a in one.stop.actions):
        if action.job in _GIVEN:
            word, number = _GIVEN[action.job]
            counts[word] = sum(number(one) for one in made if one.job is action.job)
    off, boxes = (sum(part) for part in zip(*(one.done or (0, 0) for one in stops), strict=True))
    planned = [a for one in stops for a in one.stop.actions if a.job is Job.TAKE_OFF]
    if (off, boxes) != (sum(a.colonies for a in planned), sum(a.boxes for a in planned)):
        counts |= {"colonies": off, "boxes": boxes}
    return counts
