"""A cost no plan can go below: the flow relaxation with its cuts."""

from runplanner.daybook.plan import Bound, Tally
from runplanner.phrase import phrase
from runplanner.season.day_flow import day_bound, suits
from runplanner.season.day_rows import DayRows
from runplanner.season.flow import SMALL, Flow, Group
from runplanner.season.lanes import grown
from runplanner.trips.ground import Ground

KIND = phrase("every plan that leaves no more undone in any part")
ROUNDS = 60
SHORT = 1e-3


def bound_of(ground: Ground, undone: Tally, *, cuts: int = ROUNDS, hurry: bool = False) -> Bound:
    """Return a bound on the cost of every plan that leaves no more undone in any part.

    ``cuts`` says how many rounds of cuts to try: with none it is quick, and lower.  In a
    ``hurry`` small campaigns are not solved once more with the drives of every day.
    """
    flow = Flow(ground, undone)
    fixed = _fixed(flow)
    cents = _tightened(flow, cuts)
    if cuts and cents and not hurry and _has_days(flow) and suits(ground):
        groups = sorted({tuple(sorted(group)) for group, _, _ in flow.cuts if len(group) > 1})
        cents = max(cents, day_bound(ground, fixed, groups))
    return Bound(KIND, max(int(cents - SMALL), fixed), fixed, Tally(0, 0, 0, 0))


def _fixed(flow: Flow) -> int:
    """Return the cost of work and materials alone, the least that may be done."""
    if flow.complete:
        prices = flow.outfit.prices
        ml = sum(part.ml for part in flow.parts)
        mixed = 0 if flow.outfit.feed.bought else max(0, ml - flow.outfit.feed.ready_ml)
        cents = sum(p.cents + p.person_s * prices.hour_cents / 3600 for p in flow.parts)
        return int(cents + mixed * prices.hour_cents / max(1, flow.outfit.feed.mix_ml_per_h))
    return 0


def _tightened(flow: Flow, cuts: int) -> float:
    """Solve, cut and widen until neither helps; 0 where there is no solution at all.

    The days come in once the flow without them wants no more cuts: it is quicker then.
    Only an optimum over all arcs is a bound, so the last step is always a widening that
    opens nothing.
    """
    seen: set[Group] = set()
    if not _solved(flow) or not _cut(flow, cuts, seen):
        return 0.0
    if _has_days(flow):
        DayRows(flow)
        if not (_solved(flow) and _cut(flow, cuts, seen)):
            return 0.0
    while flow.widen():
        flow.solved()
    return flow.cents()


def _has_days(flow: Flow) -> bool:
    """Tell whether rows by day hold: all is done, and nothing of it is driven yet."""
    return flow.complete and not flow.ground.now_min


def _solved(flow: Flow) -> bool:
    """Solve, over all arcs where some do not do; tell whether there is an optimum."""
    if flow.solved():
        return True
    flow.widen_all()
    return flow.solved()


def _cut(flow: Flow, cuts: int, seen: set[Group]) -> bool:
    """Cut for at most so many rounds; tell whether there is an optimum."""
    for _ in range(cuts):
        fresh = [group for group in _short(flow) if group not in seen]
        seen.update(fresh)
        for group in fresh:
            flow.cut(group)
        if fresh and not _solved(flow):
            return False
        if not fresh:
            break
    return True


def _short(flow: Flow) -> list[Group]:
    """Return groups of yards that too few trips enter, the shortest of them first."""
    total = flow.into()
    found: dict[Group, float] = {}
    for group in grown(total, flow.n):
        into = sum(value for (a, b), value in total.items() if b in group and a not in group)
        short = flow.trips_into(group) - into
        if short > SHORT:
            found[group] = short
    ranked = sorted(found, key=lambda group: (-found[group], group))
    return ranked[: max(10, flow.n // 2)]
