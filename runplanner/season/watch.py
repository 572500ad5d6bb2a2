"""Where a search stands, who is told, and when it stops."""

import gc
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from runplanner.daybook.plan import Bound, Plan, Tally
from runplanner.phrase import Phrase, phrase
from runplanner.season.state import Score


@dataclass(frozen=True, slots=True)
class Progress:
    """Where the search stands.

    Args:
        round: Rounds done of ``rounds``.
        cost_cents: Cost of the best plan so far, to within a cent for each head of the bill.
        bound_cents: A valid bound when one is known.
        undone: What the best plan leaves.
        note: What is going on, in words.
    """

    round: int
    rounds: int
    cost_cents: int
    bound_cents: int | None
    undone: Tally
    note: Phrase


NOTHING = Tally(0, 0, 0, 0)
ALL_ROUNDS = phrase("all rounds done")
Listener = Callable[[Progress], None]


class Watch:
    """Counts rounds, tells the listener, and says when to stop.

    ``proof`` asks for a bound and for the reasons of undone work.
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
        self.until: float | None = None
        self._given = seconds
        self.start()
        self.done = 0
        self.stopped = ALL_ROUNDS
        self.broken_off = False
        self.proof = proof
        self.bound: Bound | None = None
        self._told: Score | None = None

    def __call__(self, done: int, score: Score) -> bool:
        """Take note of a round; False when time is up."""
        self.done = done
        if score != self._told or done == self.rounds:
            self._told = score
            self.tell(score, phrase("improving"))
        if self.until is not None and time.monotonic() >= self.until:
            self.stopped = phrase("time was up")
            return False
        return True

    def interrupted(self) -> None:
        """Take note that the user broke off."""
        self.stopped = phrase("broken off by the user")
        self.broken_off = True

    def start(self) -> None:
        """Start the clock of the search, or start it anew."""
        self.until = None if self._given is None else time.monotonic() + self._given

    def share(self, done: int) -> float:
        """Return how much of the search is over, by rounds or by the clock if that is ahead."""
        by_rounds = done / max(1, self.rounds)
        if self.until is None or not done:
            return by_rounds
        by_clock = 1 - (self.until - time.monotonic()) / max(1e-9, self._given or 0.0)
        return max(by_rounds, by_clock)

    def tell(self, score: Score, note: Phrase) -> None:
        """Tell the listener; the bound is shown where it holds, with nothing undone."""
        if self.listener is None:
            return
        undone = Tally(score.uncovered, score.no_strips, score.unfed_g, score.not_off)
        holds = self.bound is not None and undone == NOTHING
        bound_cents = self.bound.cents if self.bound is not None and holds else None
        cents = score.milli_cents // 1000
        self.listener(Progress(self.done, self.rounds, cents, bound_cents, undone, note))

    def tell_plan(self, plan: Plan, note: Phrase) -> None:
        """Tell the listener of the plan as it is written: its bill in whole cents, its bound."""
        if self.listener is None:
            return
        bound = plan.bound.cents if plan.bound.cents > 0 else None
        cents = plan.bill.total()
        self.listener(Progress(self.done, self.rounds, cents, bound, plan.tally, note))


@contextmanager
def untroubled() -> Iterator[None]:
    """Keep the garbage collector from walking the search's memory again and again."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
