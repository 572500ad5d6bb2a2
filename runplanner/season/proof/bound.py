"""A cost no plan can go below: the flow relaxation with its cuts."""

from collections.abc import Callable
from math import fsum
from typing import NamedTuple

from runplanner.daybook.plan import ALL_DONE, Bound, Tally
from runplanner.phrase import phrase
from runplanner.season.lanes import Arc, grown
from runplanner.season.proof.cuts import Demand, Mark
from runplanner.season.proof.day_flow import day_bound, suits
from runplanner.season.proof.day_rows import DayRows
from runplanner.season.proof.flow import SMALL, Flow
from runplanner.season.proof.lacking import lacking
from runplanner.season.proof.loads import Load, Loads, loads_of
from runplanner.season.proof.road import Road
from runplanner.season.proof.rows import Term
from runplanner.season.proof.way_rows import WayRows
from runplanner.trips.ground import Ground

KIND = phrase("every plan that leaves no more undone in any part")
ROUNDS = 60
MANY = 45
"""With more yards cuts that leave no solution are taken back: all drives would be too many."""
POOR = 3
"""So many rounds of cuts that together lift the bound by too little are the last."""
MOST_UNTOLD = 2
"""After so many rounds that wanted drives opened, no cuts come in until none is wanted."""


class Patience(NamedTuple):
    """How much work a bound is worth.

    Args:
        least_gain: Share by which the last rounds of cuts must have lifted it for more of them.
        most_loaded: Yards up to which loads are told apart; with more they take long.
        by_day: Solve small campaigns once more with the drives of every day.
    """

    least_gain: float
    most_loaded: int
    by_day: bool


HURRIED = Patience(2e-4, 0, by_day=False)
USUAL = Patience(2e-4, 14, by_day=True)
PATIENT = Patience(5e-5, 30, by_day=True)


class Wanted(NamedTuple):
    """Drives and loads that are not in the program, and could lower the cost."""

    drives: list[tuple[Road, Arc]]
    loads: list[Load]

    def __bool__(self) -> bool:
        return bool(self.drives or self.loads)


Tell = Callable[[float], None]
"""Is told every bound found on the way, each higher than the last, in cents."""


def bound_of(
    ground: Ground,
    undone: Tally,
    *,
    cuts: int = ROUNDS,
    patience: Patience = USUAL,
    tell: Callable[[Bound], None] | None = None,
) -> Bound:
    """Return a bound on the cost of every plan that leaves no more undone in any part.

    ``cuts`` says how many rounds of cuts to try: with none it is quick, and lower.  Whoever
    cannot wait may ``tell`` those found on the way.
    """
    flow = Flow(ground, undone)
    fixed = _fixed(flow)

    def bound(cents: float) -> Bound:
        return Bound(KIND, max(int(cents - SMALL), fixed), fixed, ALL_DONE)

    highest = 0.0

    def told(cents: float) -> None:
        nonlocal highest
        if cents > highest and tell:
            tell(bound(cents))
        highest = max(highest, cents)

    cents = Bounding(flow, cuts, patience, told).cents()
    cents = max(cents, highest) if cents else 0.0
    if cuts and cents and patience.by_day and _has_days(flow) and suits(ground):
        entered = {tuple(sorted(cut.inside)) for cut in flow.cuts if cut.only is None}
        groups = sorted(group for group in entered if len(group) > 1)
        cents = max(cents, day_bound(ground, fixed, groups, told))
    return bound(cents)


def _fixed(flow: Flow) -> int:
    """Return the cost of work and materials alone; 0 where work may be left: it is not known."""
    if flow.complete:
        prices = flow.outfit.prices
        ml = sum(part.ml for part in flow.parts)
        mixed = 0 if flow.outfit.feed.bought else max(0, ml - flow.outfit.feed.ready_ml)
        cents = fsum(p.cents + p.person_s * prices.hour_cents / 3600 for p in flow.parts)
        return int(cents + mixed * prices.hour_cents / max(1, flow.outfit.feed.mix_ml_per_h))
    return 0


class Bounding:
    """A flow that is solved, cut and widened, with what it is told along the way."""

    def __init__(self, flow: Flow, rounds: int, patience: Patience, tell: Tell) -> None:
        self.flow, self.rounds, self.patience, self.tell = flow, rounds, patience, tell
        self.loads: Loads | None = None
        self.ways: WayRows | None = None
        self.seen: set[Mark] = set()

    def cents(self) -> float:
        """Solve, cut and widen until neither helps; return 0 where there is no solution at all.

        Loads, ways and days come in once the flow without them wants no more cuts: it is quicker.
        Only an optimum over all drives and loads is a bound, so what is told has been widened
        until nothing opened, and so has the last.
        """
        if not self._solved() or not self._widened():
            return 0.0
        self.tell(self.flow.cents())
        if not self._cut():
            return 0.0
        if _has_days(self.flow) and not (self._loaded() and self._shared_out()):
            return 0.0
        return self.flow.cents() if self._widened() else 0.0

    def _loaded(self) -> bool:
        """Let take-offs ride together as whole yards and lots; tell whether that was solved."""
        if self.rounds and self.flow.n <= self.patience.most_loaded:
            self.loads = loads_of(self.flow)
        if self.loads is not None:
            return self._solved() and self._widened() and self._cut() and self._widened()
        return self._widened()

    def _shared_out(self) -> bool:
        """Share the work out over ways of going out, then over days; tell if that was solved."""
        self.tell(self.flow.cents())
        self._relieve()
        self.ways = WayRows(self.flow)
        if self.loads is not None:
            self.loads.heed(self.ways)
        if not (self._solved() and self._cut() and self._widened()):
            return False
        self.tell(self.flow.cents())
        self._relieve()
        DayRows(self.flow, self.ways.jobs)
        return self._solved() and self._cut()

    def _solved(self) -> bool:
        """Solve, over all arcs where some do not do; tell whether there is an optimum."""
        if self.flow.solved():
            return True
        self.flow.widen_all()
        return self.flow.solved()

    def _widened(self) -> bool:
        """Open what could lower the cost until nothing could; tell whether it was solved."""
        while wanted := self._gaining():
            self._open(wanted)
            if not self.flow.solved():
                return False
        return True

    def _gaining(self) -> Wanted:
        loads = self.loads.gaining() if self.loads is not None else []
        return Wanted(self.flow.gaining(), loads)

    def _open(self, wanted: Wanted) -> None:
        self.flow.open(wanted.drives)
        if self.loads is not None:
            self.loads.open(wanted.loads)

    def _relieve(self) -> None:
        gone = self.flow.relieve()
        self.seen -= gone
        if self.loads is not None:
            self.loads.forget(gone)

    def _cut(self) -> bool:
        """Cut for at most so many rounds; tell whether there is an optimum."""
        flow = self.flow
        found: list[float] = []
        untold = 0
        for _ in range(self.rounds):
            wanted, broken = self._gaining(), flow.broken()
            untold = untold + 1 if wanted else 0
            if not wanted:
                self.tell(flow.cents())
            fresh: list[Demand] = []
            tied: list[Demand] = []
            if untold <= MOST_UNTOLD:
                found.append(flow.cents())
                if self._poor(found):
                    return True
                fresh = self._fresh()
                tied = self.loads.short(self.seen) if self.loads is not None else []
                self.seen |= {demand.mark for demand in (*fresh, *tied)}
            if not (fresh or tied or wanted or broken):
                return True
            if not self._added(fresh, tied, wanted, broken):
                return False
        return True

    def _fresh(self) -> list[Demand]:
        """Return demands that the last solution does not meet, of all ways and of each."""
        flow = self.flow
        groups = grown(flow.into(), flow.n)
        fresh = lacking(flow, ((group, flow.demands(group)) for group in groups), self.seen)
        if self.ways is not None:
            fresh += lacking(flow, self.ways.asked(), self.seen)
        return fresh

    def _poor(self, found: list[float]) -> bool:
        """Tell whether the last rounds lifted the bound by too little to go on."""
        if len(found) <= POOR:
            return False
        return found[-1] - found[-1 - POOR] < self.patience.least_gain * found[-1]

    def _added(
        self, fresh: list[Demand], tied: list[Demand], wanted: Wanted, broken: list[list[Term]]
    ) -> bool:
        """Solve with cuts, drives, loads and rows added; tell whether there is an optimum."""
        flow = self.flow
        if fresh or tied:
            self._relieve()
        self._open(wanted)
        flow.hold(broken)
        for demand in fresh:
            flow.cut(demand)
        if self.loads is not None:
            self.loads.cut(tied)
        if not (fresh or tied) or flow.n <= MANY:
            return self._solved()
        if not flow.solved():
            flow.take_back(len(fresh) + len(tied))
            return flow.solved()
        return True


def _has_days(flow: Flow) -> bool:
    """Tell whether rows by day hold: all is done, and nothing of it is driven yet."""
    return flow.complete and not flow.ground.now_min
