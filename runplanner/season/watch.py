"""Where a search stands, who is told, and when it stops."""

import gc
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, fields

from runplanner.daybook.plan import ALL_DONE, Bill, Bound, Plan, Tally
from runplanner.phrase import Phrase, phrase
from runplanner.season.standing.state import Score, State


@dataclass(frozen=True, slots=True)
class Progress:
    """Where the search stands.

    Args:
        round: Rounds done of ``rounds``.
        cost_cents: Cost of the best plan so far, to within a cent for each head of the bill.
        bound_cents: A valid bound when one is known, and nothing driven undercuts it.
        undone: What the best plan leaves.
        note: What is going on, in words.
    """

    round: int
    rounds: int
    cost_cents: int
    bound_cents: int | None
    undone: Tally
    note: Phrase


ALL_ROUNDS = phrase("all rounds done")
TIME_UP = phrase("time was up")
BROKEN_OFF = phrase("broken off by the user")
NO_BETTER = phrase("no plan costs less: all were gone through")
WHOLE = (ALL_ROUNDS, NO_BETTER)
"""Ends of a search that nobody and no clock broke off."""
LAST_S = 1.0
"""Seconds that the last round, the other search's answer and leaving take, a tenth at most."""
FOR_SEARCH = 0.98
"""Share of the seconds given that goes to the search; the rest is for writing the plan down."""
FOR_SEARCH_BEFORE_REASONS = 0.7
"""The same where work is left undone, and reasons and reliefs are to be looked for."""
Listener = Callable[[Progress], None]


class Watch:
    """Counts rounds, tells the listener, and says when to stop.

    ``proof`` asks for a bound and for the reasons of undone work.  The seconds given are those
    of the whole planning, proof and reasons included, from here on.  ``asked`` tells the
    bound where it is worked out beside the search, and waits so many seconds for the last.
    ``promises`` tells the cents of a state's score that nobody pays: the price of promises
    broken.  ``keeps`` tells how many seconds what comes after the search will take.
    """

    def __init__(
        self,
        rounds: int,
        seconds: float | None,
        listener: Listener | None,
        *,
        proof: bool = True,
    ) -> None:
        self.rounds = rounds
        self.listener = listener
        self._given = seconds
        self._began = time.monotonic()
        self.done = 0
        self.stopped = ALL_ROUNDS
        self.broken_off = False
        self.proof = proof
        self.bound: Bound | None = None
        self.promises: Callable[[State], int] = _none
        self.asked: Callable[[float], Bound | None] | None = None
        self.least_cents = 0
        self.keeps: Callable[[], float] = _nothing
        self._told: Score | None = None

    def __call__(self, done: int, best: State) -> bool:
        """Take note of a round; False when time is up."""
        self.done = done
        if self.asked is not None:
            self.bound = self.asked(0.0)
        if best.score != self._told or done == self.rounds:
            self._told = best.score
            self.tell(best, phrase("improving"))
        if not self.on():
            self.stopped = TIME_UP
            return False
        return True

    def on(self, share: float = 1.0) -> bool:
        """Tell whether there is time left to search, or to do what may take a share of it."""
        return not self.clocked or time.monotonic() < self._began + self._for_search_s() * share

    def gone_through(self, least_cents: int, *, proven: bool) -> None:
        """Take note of what no plan costs less than that does all; is the best one found?"""
        self.least_cents = least_cents
        if proven:
            self.stopped = NO_BETTER

    def interrupted(self) -> None:
        """Take note that the user broke off."""
        self.stopped = BROKEN_OFF
        self.broken_off = True

    @property
    def clocked(self) -> bool:
        """Tell whether a clock runs."""
        return self._given is not None

    @property
    def hurried(self) -> bool:
        """Tell whether the search stopped before its rounds were done."""
        return self.broken_off or self.stopped == TIME_UP

    def left_s(self) -> float:
        """Return the seconds left of those given; none where no clock runs."""
        return self._began + (self._given or 0.0) - time.monotonic()

    def has_s(self, seconds: float) -> bool:
        """Tell whether so many seconds are left; where no clock runs they are."""
        return not self.clocked or self.left_s() >= seconds

    def _for_search_s(self) -> float:
        """Return the seconds given that the search may take.

        Where its best plan leaves work undone, finding out why takes its part.
        """
        done = self._told is None or self._told.undone.tally() == ALL_DONE
        given = self._given or 0.0
        share = FOR_SEARCH if done else FOR_SEARCH_BEFORE_REASONS
        return given * share - min(LAST_S + self.keeps(), given / 10)

    def share(self, done: int) -> float:
        """Return how much of the search is over, by rounds or by the clock if that is ahead."""
        by_rounds = done / max(1, self.rounds)
        if not self.clocked or not done:
            return by_rounds
        gone = time.monotonic() - self._began
        return max(by_rounds, gone / max(1e-9, self._for_search_s()))

    def tell(self, state: State, note: Phrase) -> None:
        """Tell the listener; the bound is shown where it holds, with nothing undone."""
        if self.listener is None:
            return
        undone = state.score.undone.tally()
        bound_cents = self._bound_cents() if undone == ALL_DONE else None
        cents = state.score.milli_cents // 1000 - self.promises(state)
        bound_cents = _not_undercut(bound_cents, cents)
        self.listener(Progress(self.done, self.rounds, cents, bound_cents, undone, note))

    def _bound_cents(self) -> int | None:
        if self.bound is None and not self.least_cents:
            return None
        return max(self.least_cents, 0 if self.bound is None else self.bound.cents)

    def tell_plan(self, plan: Plan, note: Phrase) -> None:
        """Tell the listener of the plan as it is written: its bill in whole cents, its bound."""
        if self.listener is None:
            return
        cents = plan.bill.total()
        bound = _not_undercut(plan.bound.cents or None, cents)
        self.listener(Progress(self.done, self.rounds, cents, bound, plan.tally, note))


def _not_undercut(bound_cents: int | None, cents: int) -> int | None:
    """Return the bound, or None where what was driven took less than work by these facts must.

    A cent for each head of the bill is rounding.
    """
    rounding = len(fields(Bill))
    return None if bound_cents is None or bound_cents > cents + rounding else bound_cents


def _none(_: State) -> int:
    return 0


def _nothing() -> float:
    return 0.0


@contextmanager
def untroubled() -> Iterator[None]:
    """Keep the garbage collector from walking the search's memory again and again.

    What was made meanwhile counts as old at once: to walk through all of it takes seconds.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on and not gc.get_freeze_count():
            gc.freeze()
            gc.unfreeze()
        if was_on:
            gc.enable()
