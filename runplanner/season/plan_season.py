"""One call from facts to plan."""

import gc
import importlib.metadata
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from runplanner.daybook.plan import Bound, Plan, Search, Tally
from runplanner.errors import PlanError
from runplanner.haulage.hauler import haulers
from runplanner.outfit.outfit import Outfit
from runplanner.season.bound import ROUNDS, bound_of
from runplanner.season.finish import tally, written
from runplanner.season.improve import SCOUTS, Improver
from runplanner.season.state import Score, State
from runplanner.season.why_not import explained
from runplanner.trips.ground import Ground


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
    note: str


QUICK_BOUND_YARDS = 45
"""Up to so many yards the bound is worked out first, so that the gap shows all along.

Forty yards take about three seconds; the search's clock starts after them, as they would
have to be spent at the end.
"""

NOTHING = Tally(0, 0, 0, 0)
Listener = Callable[[Progress], None]


class Watch:
    """Counts rounds, tells the listener, and says when to stop."""

    def __init__(self, rounds: int, seconds: float | None, listener: Listener | None) -> None:
        self.rounds = rounds
        self.listener = listener
        self.until: float | None = None
        self._given = seconds
        self.start()
        self.done = 0
        self.stopped = "all rounds done"
        self.bound: Bound | None = None
        self._told: Score | None = None

    def __call__(self, done: int, score: Score) -> bool:
        """Take note of a round; False when time is up."""
        self.done = done
        if score != self._told or done == self.rounds:
            self._told = score
            self.tell(score, "improving")
        if self.until is not None and time.monotonic() >= self.until:
            self.stopped = "time was up"
            return False
        return True

    def interrupted(self) -> None:
        """Take note that the user broke off."""
        self.stopped = "broken off by the user"

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

    def tell(self, score: Score, note: str) -> None:
        """Tell the listener; the bound is shown where it holds, with nothing undone."""
        if self.listener is None:
            return
        undone = Tally(score.uncovered, score.no_strips, score.unfed_g, score.not_off)
        holds = self.bound is not None and undone == NOTHING
        bound_cents = self.bound.cents if self.bound is not None and holds else None
        cents = score.milli_cents // 1000
        self.listener(Progress(self.done, self.rounds, cents, bound_cents, undone, note))

    def tell_plan(self, plan: Plan, note: str) -> None:
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


def refuse_hopeless(outfit: Outfit) -> None:
    """Raise PlanError, in words, where there is nothing to plan with."""
    if not outfit.yards:
        raise PlanError("There is no yard, so there is nothing to plan.")
    if not haulers(outfit):
        raise PlanError(
            "No truck can carry anything with anyone aboard: give a truck, people who drive it, "
            "and a maximum mass above its own with fuel, kit and people."
        )


def default_rounds(outfit: Outfit) -> int:
    """Return the rounds tried when the user names none: fewer for larger campaigns."""
    return max(300, min(1200, 18_000 // max(1, len(outfit.yards))))


def plan_season(
    outfit: Outfit,
    *,
    seed: int = 1,
    rounds: int | None = None,
    seconds: float | None = None,
    progress: Listener | None = None,
) -> Plan:
    """Return the best plan found for the whole campaign.

    Args:
        outfit: The facts.
        seed: Starts the search's own dice; the same seed gives the same plan.
        rounds: How many rounds to improve; None picks by size.
        seconds: Stop between rounds once this much time has passed.
        progress: Told whenever the best plan gets better.
    """
    refuse_hopeless(outfit)
    total = default_rounds(outfit) if rounds is None else rounds
    watch = Watch(total, seconds, progress)
    improver = Improver(Ground(outfit), seed)
    state = improver.construct()
    watch.tell(state.score, "first plan")
    if len(outfit.yards) <= QUICK_BOUND_YARDS:
        watch.bound = bound_of(improver.ground, NOTHING)
        watch.start()
    with untroubled():
        state = improver.rounds(state, total, watch, SCOUTS)
    return finished(improver, state, watch, seed)


def finished(
    improver: Improver, state: State, watch: Watch, seed: int, *, cuts: int = ROUNDS
) -> Plan:
    """Return the best state as a plan, with its bound and what is said of undone work.

    ``cuts`` is the effort put into the bound.
    """
    left = tally(improver.ground, state)
    known = watch.bound if left == NOTHING else None
    if known is None:
        watch.tell(state.score, "proving how good it is")
    bound = known if known is not None else bound_of(improver.ground, left, cuts=cuts)
    search = Search(seed, watch.done, watch.stopped, _versions())
    plan = written(improver.keeper, state, bound, search)
    watch.tell_plan(plan, "written down")
    effort = max(1, watch.rounds // 5)
    return explained(improver.keeper, state, plan, seed=seed, rounds=effort)


def _versions() -> tuple[tuple[str, str], ...]:
    return tuple((name, importlib.metadata.version(name)) for name in ("ortools",))
