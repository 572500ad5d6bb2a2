"""A cost no plan can go below: the flow relaxation with its cuts."""

from collections.abc import Callable

from runplanner.daybook.plan import Bound, Tally
from runplanner.phrase import phrase
from runplanner.season.lanes import Arc, grown
from runplanner.season.proof.cuts import Demand, Group, Mark
from runplanner.season.proof.day_flow import day_bound, suits
from runplanner.season.proof.day_rows import DayRows
from runplanner.season.proof.flow import SMALL, Flow
from runplanner.season.proof.road import Road
from runplanner.season.proof.rows import Term
from runplanner.trips.ground import Ground

KIND = phrase("every plan that leaves no more undone in any part")
ROUNDS = 60
SHORT = 1e-3
MANY = 45
"""With more yards cuts that leave no solution are taken back: all drives would be too many."""
PATIENCE = 3
LEAST_GAIN = 2e-4
"""Three rounds of cuts that lift the bound by a smaller share are the last."""
MOST_UNTOLD = 2
"""After so many rounds that wanted drives opened, no cuts come in until none is wanted."""


Tell = Callable[[float], None]
"""Is told every bound found on the way, each higher than the last, in cents."""


def bound_of(
    ground: Ground,
    undone: Tally,
    *,
    cuts: int = ROUNDS,
    hurry: bool = False,
    tell: Callable[[Bound], None] | None = None,
) -> Bound:
    """Return a bound on the cost of every plan that leaves no more undone in any part.

    ``cuts`` says how many rounds of cuts to try: with none it is quick, and lower.  In a
    ``hurry`` small campaigns are not solved once more with the drives of every day.  Whoever
    cannot wait may ``tell`` those found on the way.
    """
    flow = Flow(ground, undone)
    fixed = _fixed(flow)

    def bound(cents: float) -> Bound:
        return Bound(KIND, max(int(cents - SMALL), fixed), fixed, Tally(0, 0, 0, 0))

    highest = 0.0

    def told(cents: float) -> None:
        nonlocal highest
        if cents > highest and tell:
            tell(bound(cents))
        highest = max(highest, cents)

    cents = _tightened(flow, cuts, told)
    if cuts and cents and not hurry and _has_days(flow) and suits(ground):
        groups = sorted({tuple(sorted(cut.inside)) for cut in flow.cuts if len(cut.inside) > 1})
        cents = max(cents, day_bound(ground, fixed, groups))
    return bound(cents)


def _fixed(flow: Flow) -> int:
    """Return the cost of work and materials alone, the least that may be done."""
    if flow.complete:
        prices = flow.outfit.prices
        ml = sum(part.ml for part in flow.parts)
        mixed = 0 if flow.outfit.feed.bought else max(0, ml - flow.outfit.feed.ready_ml)
        cents = sum(p.cents + p.person_s * prices.hour_cents / 3600 for p in flow.parts)
        return int(cents + mixed * prices.hour_cents / max(1, flow.outfit.feed.mix_ml_per_h))
    return 0


def _tightened(flow: Flow, cuts: int, tell: Tell = lambda _: None) -> float:
    """Solve, cut and widen until neither helps; 0 where there is no solution at all.

    The days come in once the flow without them wants no more cuts: it is quicker then.
    Only an optimum over all arcs is a bound, so what is told has been widened until nothing
    opened, and so has the last.
    """
    seen: set[Mark] = set()
    if not _solved(flow) or not _widened(flow):
        return 0.0
    tell(flow.cents())
    if not _cut(flow, cuts, seen, tell):
        return 0.0
    if _has_days(flow):
        if not _widened(flow):
            return 0.0
        tell(flow.cents())
        flow.relieve()
        DayRows(flow)
        if not (_solved(flow) and _cut(flow, cuts, seen, tell)):
            return 0.0
    return flow.cents() if _widened(flow) else 0.0


def _widened(flow: Flow) -> bool:
    """Open drives until none is left that could lower the cost; tell whether it was solved."""
    while wanted := flow.gaining():
        flow.open(wanted)
        if not flow.solved():
            return False
    return True


def _has_days(flow: Flow) -> bool:
    """Tell whether rows by day hold: all is done, and nothing of it is driven yet."""
    return flow.complete and not flow.ground.now_min


def _solved(flow: Flow) -> bool:
    """Solve, over all arcs where some do not do; tell whether there is an optimum."""
    if flow.solved():
        return True
    flow.widen_all()
    return flow.solved()


def _cut(flow: Flow, cuts: int, seen: set[Mark], tell: Tell) -> bool:
    """Cut for at most so many rounds; tell whether there is an optimum."""
    found: list[float] = []
    untold = 0
    for _ in range(cuts):
        wanted, broken = flow.gaining(), flow.broken()
        untold = untold + 1 if wanted else 0
        if not wanted:
            tell(flow.cents())
        fresh: list[Demand] = []
        if untold <= MOST_UNTOLD:
            found.append(flow.cents())
            if _poor(found):
                return True
            fresh = _short(flow, seen)
        if not (fresh or wanted or broken):
            return True
        if not _added(flow, fresh, wanted, broken, seen):
            return False
    return True


def _poor(found: list[float]) -> bool:
    """Tell whether the last rounds lifted the bound by too little to go on."""
    return len(found) > PATIENCE and found[-1] - found[-1 - PATIENCE] < LEAST_GAIN * found[-1]


def _added(
    flow: Flow,
    fresh: list[Demand],
    wanted: list[tuple[Road, Arc]],
    broken: list[list[Term]],
    seen: set[Mark],
) -> bool:
    """Solve with cuts, drives and rows added; tell whether there is an optimum."""
    if fresh:
        seen.difference_update(flow.relieve())
    flow.open(wanted)
    flow.hold(broken)
    for demand in fresh:
        flow.cut(demand)
    if not fresh or flow.n <= MANY:
        return _solved(flow)
    if not flow.solved():
        flow.take_back(len(fresh))
        return flow.solved()
    return True


def _short(flow: Flow, seen: set[Mark]) -> list[Demand]:
    """Return demands not ``seen`` yet of the groups that are served least, and mark them seen.

    Of each group it is the one that lacks most: what it brings often does for the others, and
    every row makes all solutions slower.
    """
    found: list[tuple[float, Group, Demand]] = []
    for group in grown(flow.into(), flow.n):
        short = [(by, d) for by, d in flow.short(group) if by > SHORT and d.mark not in seen]
        if short:
            by, demand = max(short, key=lambda one: one[0])
            found.append((-by, group, demand))
    chosen = [
        demand for _, _, demand in sorted(found, key=lambda one: one[:2])[: max(10, flow.n // 2)]
    ]
    seen.update(demand.mark for demand in chosen)
    return chosen
