"""What trips load at the store, use and bring home, good by good: one reckoning for all."""

import itertools
from collections.abc import Callable, Container, Sequence
from typing import Final, NamedTuple

from runplanner.changes.draft import Draft
from runplanner.daybook.riding import (
    BLOCKS,
    BOARDS,
    FEEDERS,
    SYRUP,
    aboard,
    brought_over,
    not_back,
    strips_of,
)
from runplanner.daybook.trip import Action, Call, Job, Trip
from runplanner.outfit.outfit import Outfit


class Good(NamedTuple):
    """One good that trips load: pieces, or millilitres of syrup.

    Args:
        name: What its stock is called.
        takes: How much of it a job takes; below 0 where it brings some for the stops after it.
        brings: How much of it a job brings home, for no other stop.
        yards: The yards it is for; None for all.
        loaded: How much of it a trip left with, where its loading call tells; else None.
    """

    name: str
    takes: Callable[[Action], int]
    brings: Callable[[Action], int] = lambda _: 0
    yards: Container[str] | None = None
    loaded: Callable[[Trip], int] | None = None

    def wanted(self, calls: Sequence[Call]) -> int:
        """Return how much of it must be loaded for stops, in their order."""
        return max((0, *self.taken(calls)))

    def taken(self, calls: Sequence[Call]) -> list[int]:
        """Return how much of what was loaded has been taken after each of some stops."""
        yards = self.yards
        return list(itertools.accumulate(
            sum(self.takes(one) for one in call.actions if yards is None or call.yard in yards)
            for call in calls
        ))  # fmt: skip

    def back(self, calls: Sequence[Call]) -> int:
        """Return how much of it comes home from stops, some of what was loaded for them too."""
        brought = sum(self.brings(one) for call in calls for one in call.actions)
        return self.wanted(calls) - sum(self.taken(calls)[-1:]) + brought

    def gone(self, draft: Draft, minute: int, trips: Sequence[Trip]) -> int:
        """Return how much of it ``trips`` have loaded and not brought back by a minute.

        What they did not use is back once it is in store; until then it is aboard.
        """
        home = draft.in_store_min()
        back = sum(
            self.back(trip.yards()) if home[trip.id] <= minute
            else -self.riding(draft, trip, minute)
            for trip in trips
        )  # fmt: skip
        return sum(self.wanted(trip.yards()) for trip in trips) - back

    def riding(self, draft: Draft, trip: Trip, minute: int) -> int:
        """Return how much a trip has aboard for no stop, but for what was brought over by then."""
        if self.loaded is None:
            return not_back(draft.outfit, trip, self.name, minute)
        unused = max(0, self.loaded(trip) - self.wanted(trip.yards()))
        return unused - brought_over(draft.outfit, trip, self.name, minute)

    def at_home(self, draft: Draft, trip: Trip) -> int:
        """Return how much a trip that is over has aboard, of boards those that it laid nowhere.

        Those that it lifted ride home on any day.
        """
        if self.loaded is not None:
            return self.riding(draft, trip, draft.now_min)
        return aboard(draft.outfit, trip, self.name, draft.now_min)


def loaded_by(draft: Draft, minute: int) -> list[Trip]:
    """Return the driven trips that have loaded by a minute."""
    return [trip for trip in draft.driven_trips() if trip.calls[0].start_min <= minute]


def _pieces(job: Job) -> Callable[[Action], int]:
    return lambda one: one.pieces if one.job is job else 0


def _boards_laid(action: Action) -> int:
    return _pieces(Job.BOARDS)(action) - action.boards_off


SYRUP_FED: Final = Good(SYRUP, lambda one: one.ml)
BLOCKS_GIVEN: Final = Good(BLOCKS, _pieces(Job.BLOCK))
BOARDS_LAID: Final = Good(BOARDS, _boards_laid, loaded=lambda trip: trip.calls[0].after.boards)
FEEDERS_OUT: Final = Good(FEEDERS, lambda one: one.feeders, brings=lambda one: one.feeders_off)


def strips_good(outfit: Outfit, substance: str) -> Good:
    """Return the strips of a substance; all kinds of it tell them."""
    mine = {one.id for one in outfit.yards if outfit.strips_at(one).substance == substance}
    return Good(strips_of(substance), _pieces(Job.STRIPS), yards=mine)
