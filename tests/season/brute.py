"""Brute force: every way of doing a tiny campaign, the cheapest first, judged by the audit.

Every yard's chain is cut into stops and days in every way; every day's stops are put in
every order and cut into trips in every way, with every crew and trailer.  Candidates are
audited in order of what they leave and cost, so the first one without a finding is the
best.  One truck; times are the earliest from the start of the day or from the start that
makes the day shortest; syrup is mixed on the day before the campaign.
"""

import heapq
import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job, Shift
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from tests.season.base_work import whole_plans
from tests.season.chains import Chain, Vector, chains
from tests.season.days_out import DaysOut
from tests.season.hand_clock import Visit, total
from tests.season.hand_strips import in_stock, strips_cents


@dataclass(frozen=True)
class Choice:
    """Stops by day; ``picks`` say which drive of each day, counted on from ``at``.

    ``extras`` is what goods, mixing and spinning cost at least, in milli-cents.
    """

    sets: tuple[tuple[int, tuple[Visit, ...]], ...]
    extras: int
    picks: tuple[int, ...] = ()
    at: int = 0


class Enumerator:
    """All plans of one outfit, best first.

    Args:
        outfit: One truck, one or two yards, few days.
        most_lots: Lots into which a yard may be split, 1 or 2.
        more_starts: Starts tried, half an hour apart, after the best one.
        patience: Candidates looked at before :meth:`best_soon` gives up.
    """

    def __init__(
        self, outfit: Outfit, most_lots: int = 1, more_starts: int = 0, patience: int = 10**9
    ) -> None:
        self.outfit = outfit
        self.patience = patience
        self.most_lots = most_lots
        self.days = DaysOut(outfit, more_starts)

    def vectors(self) -> list[Vector]:
        """Return everything that chains may leave, least first."""
        return sorted({left for left, _, _ in self._choices()})

    def best(self) -> Plan:
        """Return the best plan there is."""
        return next(self.plans())

    def best_soon(self) -> Plan | None:
        """Return the best plan, or None where it is not found with the patience there is."""
        return next(self.plans(), None)

    def plans(self, only: Vector | None = None) -> Iterator[Plan]:
        """Go through all plans without a finding, what is left first, then cost."""
        order = itertools.count()
        heap: list[tuple[Vector, int, int, Choice | Plan]] = []
        for left, cost, choice in self._choices():
            if only is None or left == only:
                heapq.heappush(heap, (left, cost, next(order), choice))
        for _ in range(self.patience):
            if not heap:
                return
            left, cost, _, what = heapq.heappop(heap)
            if isinstance(what, Plan):
                if not audit(what):
                    yield what
                continue
            for more, found in self._expanded(what):
                heapq.heappush(heap, (left, max(cost, more), next(order), found))

    # Choosing a chain for every yard

    def _choices(self) -> Iterator[tuple[Vector, int, Choice]]:
        """Every choice of one chain for each yard, with the least it can cost."""
        possible = [self._possible(yard) for yard in self.outfit.yards]
        for combo in itertools.product(*possible):
            sets = _by_day(combo)
            every = [visit for _, visits in sets for visit in visits]
            if not self._stocked(every):
                continue
            extras = self._extras(every)
            least = extras + sum(self.days.least(day, visits) for day, visits in sets)
            a, b, c, d = (sum(chain.left[i] for chain in combo) for i in range(4))
            yield (a, b, c, d), least, Choice(sets, extras)

    def _possible(self, yard: Yard) -> list[Chain]:
        """Chains whose every stop can be driven alone."""
        return [
            chain
            for chain in chains(self.outfit, yard, self.most_lots)
            if all(self.days.sound(day, (visit,)).get(0) for day, visit in chain.stops)
        ]

    def _stocked(self, visits: Sequence[Visit]) -> bool:
        """Tell whether feeders, blocks, strips and syrup are enough, whenever they are used."""
        kit, feed = self.outfit.kit, self.outfit.feed
        mixed = max(0, total(visits, "ml") - feed.ready_ml)
        sugar = mixed * feed.density_g_per_l * feed.sugar_permille
        return (
            total(visits, "feeders") <= (kit.feeders_owned or 0)
            and total(visits, "pieces", Job.BLOCK) <= kit.blocks_owned
            and in_stock(self.outfit, visits)
            and (feed.sugar_g is None or sugar <= feed.sugar_g * 10**6)
            and not (feed.bought and mixed)
        )

    def _extras(self, visits: Sequence[Visit]) -> int:
        """Goods, mixing and the least spinning, in milli-cents."""
        prices, feed, house = self.outfit.prices, self.outfit.feed, self.outfit.honey_house
        ml, hour = total(visits, "ml"), prices.hour_cents
        milli = total(visits, "pieces", Job.BLOCK) * prices.block_cents * 1000
        milli += strips_cents(self.outfit, visits) * 1000
        milli += ml * prices.syrup_l_cents
        if not feed.bought:
            milli += max(0, ml - feed.ready_ml) * hour * 1000 // feed.mix_ml_per_h
        paces = [n * 10**6 // rate for n, rate in enumerate(house.boxes_per_h) if n and rate]
        boxes = total(visits, "boxes") + house.waiting_boxes
        return milli + boxes * min(paces, default=0) * hour // 1000

    # Choosing how every day is driven

    def _expanded(self, what: Choice) -> Iterator[tuple[int, Choice | Plan]]:
        """Go one step on from a choice: to its first days, or to the next ones and whole plans."""
        if not what.picks and what.sets:
            yield from self._costed(replace(what, picks=(0,) * len(what.sets)))
            return
        for at in range(what.at, len(what.sets)):
            picks = tuple(i + (j == at) for j, i in enumerate(what.picks))
            yield from self._costed(replace(what, picks=picks, at=at))
        for plan in whole_plans(self.outfit, [shift for _, shift in self._picked(what)]):
            yield plan.bill.total() * 1000, plan

    def _costed(self, what: Choice) -> Iterator[tuple[int, Choice]]:
        """The choice with what it costs at least; nothing where a day has no such drive."""
        days = self._picked(what)
        if len(days) == len(what.sets):
            yield what.extras + sum(milli for milli, _ in days), what

    def _picked(self, what: Choice) -> list[tuple[int, Shift]]:
        drives = (
            self.days.sound(*one).get(i) for one, i in zip(what.sets, what.picks, strict=True)
        )
        return [drive for drive in drives if drive is not None]


def _by_day(combo: Sequence[Chain]) -> tuple[tuple[int, tuple[Visit, ...]], ...]:
    days: dict[int, list[Visit]] = {}
    for chain in combo:
        for day, visit in chain.stops:
            days.setdefault(day, []).append(visit)
    return tuple((day, tuple(visits)) for day, visits in sorted(days.items()))
