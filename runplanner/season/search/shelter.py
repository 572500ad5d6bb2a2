"""Further blocks for colonies off: while they save days without cover, and beyond the end."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import accumulate

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import BEYOND_DAYS
from runplanner.season.search.insert import Inserter
from runplanner.season.standing.state import State
from runplanner.visits.stop import Stop

MOST_FURTHER = 6
"""Further blocks for one colony; fondant for longer than that is a campaign of its own."""


class Shelter:
    """Gives blocks to colonies that run out."""

    def __init__(self, inserter: Inserter) -> None:
        self.inserter, self.keeper = inserter, inserter.keeper
        self.season = inserter.ground.outfit.season

    def sheltered(self, state: State, yard: int) -> State:
        """Give colonies whose cover would end further blocks, as long as that saves days.

        Where there are too few, those are tried as well that save most days by each block.
        """
        most = self._saved(state, yard)
        if not most.progress[yard].uncovered or self.keeper.stores.blocks_left(most.days) > 0:
            return most
        return min(most, self._saved(state, yard, thrifty=True), key=lambda one: one.score)

    def _saved(self, state: State, yard: int, *, thrifty: bool = False) -> State:
        """Give further blocks while that saves days: by the next stop as many as can be."""
        for _ in range(MOST_FURTHER if state.progress[yard].uncovered else 0):
            stops = [Stop(yard, blocks=count) for count in self._hungry(state, yard)]
            days = range(self.season.n_days)
            found = (
                (self._days_left(state, new, stop) if thrifty else 0, new.score, new)
                for stop in stops for day in days for new in self._given(state, stop, day)
                if new.score < state.score
            )  # fmt: skip
            more = min(found, key=lambda one: one[:2], default=None)
            if more is None:
                return state
            state = more[-1]
        return state

    def _days_left(self, state: State, new: State, stop: Stop) -> Fraction:
        """Return what of days without cover a stop's blocks take away, each: below nought."""
        before, after = (one.score.undone.uncovered for one in (state, new))
        return Fraction(after - before, stop.blocks)

    def tided_over(self, state: State, yard: int) -> State:
        """Give colonies that no syrup comes to further blocks, so that they outlast the campaign.

        Only so many as are left over, and only where no other work gives way for them.
        """
        while short := self.soon_bare(state, yard):
            blocks = min(short, self.keeper.stores.blocks_left(state.days))
            days = range(self.season.n_days) if blocks > 0 else ()
            found = (self.inserter.place(state, Stop(yard, blocks=blocks), [day]) for day in days)
            better = [
                (new.score.undone, bare, new.score.milli_cents, new) for new in found
                if new is not None and new.score.undone <= state.score.undone
                and (bare := self.soon_bare(new, yard)) < short
            ]  # fmt: skip
            if not better:
                return state
            *_, state = min(better, key=lambda one: one[:3])
        return state

    def soon_bare(self, state: State, yard: int) -> int:
        """Return the colonies that no syrup comes to and whose cover ends soon after the last day.

        Or before it; by a further block for each of them all of them last longer.
        """
        until = (self.season.n_days + BEYOND_DAYS) * DAY_MIN
        return sum(count for ends_min, count in state.progress[yard].waiting if ends_min < until)

    def _given(self, state: State, stop: Stop, day: int) -> Iterator[State]:
        """Yield states with further blocks on a day, as a day likes and soon enough to save one.

        A day begins as late as waits let it, which may be just too late.
        """
        new = self.inserter.place(state, stop, [day])
        if new is None:
            return
        yield new
        given = [one for one in new.visits[stop.yard] if one.day == day and one.stop == stop][-1]
        for end_min, _ in self.keeper.chains.waiting[stop.yard]:
            last_min = day * DAY_MIN + end_min % DAY_MIN
            if end_min <= last_min < given.start_min:
                to_min = last_min + given.end_min - given.start_min
                soon = self.inserter.place(state, stop._replace(to_min=to_min), [day])
                if soon is not None:
                    yield soon

    def _hungry(self, state: State, yard: int) -> list[int]:
        """Return how many colonies may want a further block: those that wait after some visit.

        Or of these such as run out before others.  There are no more blocks than are owned.
        """
        visits = state.visits[yard]
        left = self.keeper.stores.blocks_left(state.days)
        first = next((at for at, one in enumerate(visits) if not one.fact), len(visits))
        read = (
            self.keeper.chains.read(yard, visits[:upto]) for upto in range(first, len(visits) + 1)
        )
        wait = (accumulate(count for _, count in sorted(one.waiting)) for one in read if one)
        return sorted({min(count, left) for counts in wait for count in counts if left > 0})
