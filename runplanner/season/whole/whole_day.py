"""What all trucks can do on one day together: sets of yards, and the least they cost.

Only days that cost no more than a given sum beyond the bound are made: every season that is
that good is made of such days.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from runplanner.season.whole.listing import FAR, Ints, sums
from runplanner.season.whole.rota import Effort, Prices, Rota, priced

TWO = 2
MOST_LOOKS = 20_000
"""Sets looked at to share one day out among trucks; each takes a look at all of them."""
SHARED_OUT = 5
"""Yards visited in any case by whose sharing out days are told apart before they are joined."""


class WholeDays(NamedTuple):
    """Whole days of one kind: sets of yards, cost, and cost beyond the bound's share."""

    sets: Ints
    cost: Ints
    extra: Ints


@dataclass(frozen=True, slots=True)
class _Part:
    """Days of some trucks, cheapest extra first."""

    sets: Ints
    cost: Ints
    extra: Ints

    @classmethod
    def sorted(cls, sets: Ints, cost: Ints, extra: Ints) -> "_Part":
        order = np.argsort(extra, kind="stable")
        return cls(sets[order].astype(np.int32), cost[order].astype(np.int32), extra[order])

    def only(self, among: int, wanted: int) -> "_Part":
        """Return the days that visit, of some yards, just the wanted ones."""
        chosen = (self.sets & np.int32(among)) == wanted
        return _Part(self.sets[chosen], self.cost[chosen], self.extra[chosen])


def whole_days(rota: Rota, prices: Prices, day: int, gap: float, effort: Effort) -> WholeDays:
    """Return the days of all trucks within ``gap`` of the bound; days of one kind have the same.

    Raises:
        TooManyError: There is more to look at than the effort allows.
    """
    kind, trucks, may = day % rota.turn, rota.trucks[day], rota.may(day)
    extra = prices.extra[kind]
    gap += rota.grain
    fit = (extra <= gap) & ((rota.sets & ~may) == 0)
    sets = rota.sets[fit]
    one = _Part.sorted(sets, rota.least[sets], extra[fit])
    all_out = one
    for number in range(2, trucks + 1):
        pairs = _pairs(all_out, one, _first(rota.must(day)) if number == trucks else None)
        effort.spend(_work(pairs, gap))
        joined = _joined(pairs, gap, len(rota.least))
        worth = prices.of_day(kind, joined[0], number)
        all_out = _Part.sorted(*joined, joined[1] - worth)
    all_out = all_out.only(rota.must(day), rota.must(day))
    if not trucks:
        all_out = one.only(-1, 0)
    yards = all_out.sets.astype(np.int64)
    dearer = sums(np.array(rota.dearer_on(day), dtype=np.int64))[yards]
    return WholeDays(yards, all_out.cost + dearer, all_out.extra)


def _pairs(some: _Part, one: _Part, must: int | None) -> list[tuple[_Part, _Part]]:
    """Return lists of days to be joined, by how they share out what must be visited."""
    if must is None:
        return [(some, one)]
    return [
        (some.only(must, part), one.only(must, must ^ part))
        for part in _parts(must)
        # Of two trucks that are alike, the first takes the greater part.
        if some is not one or part >= must ^ part
    ]


def _work(pairs: list[tuple[_Part, _Part]], gap: float) -> int:
    ends = (np.searchsorted(b.extra, gap - a.extra, side="right") for a, b in pairs)
    return sum(int(end.sum()) for end in ends)


def _joined(pairs: list[tuple[_Part, _Part]], gap: float, size: int) -> tuple[Ints, Ints]:
    """Return sets that some trucks and one more visit together, with their least cost."""
    least = np.full(size, FAR, dtype=np.int32)
    for a, b in pairs:
        _join_into(least, a, b, gap)
    sets = np.flatnonzero(least < FAR)
    return sets, least[sets]


def _first(yards: int) -> int:
    """Return a few yards of a set."""
    return sum(
        1 << i for i in [i for i in range(yards.bit_length()) if yards >> i & 1][:SHARED_OUT]
    )


def _parts(whole: int) -> list[int]:
    """Return all subsets of a set."""
    found, part = [whole], whole
    while part:
        part = (part - 1) & whole
        found.append(part)
    return found


def _join_into(least: Ints, a: _Part, b: _Part, gap: float) -> None:
    if len(a.sets) > len(b.sets):
        a, b = b, a
    upto = np.searchsorted(b.extra, gap - a.extra, side="right")
    for its, cost, end in zip(a.sets, a.cost, upto, strict=True):
        if not end:
            break
        apart = np.flatnonzero((b.sets[:end] & its) == 0)
        both = b.sets[apart] | its
        # Two sets of one list that lie apart from a third never make the same union with it.
        least[both] = np.minimum(least[both], b.cost[apart] + cost)


def parted(least: Ints, yards: int, trucks: int) -> tuple[int, ...]:
    """Return the sets that so many trucks visit where they cost least together.

    The first truck's set has the first yard, or else nothing.
    """
    if trucks <= 1 or not yards:
        return (yards,)[:trucks] + (0,) * (trucks - 1)
    if trucks == TWO:
        parts = np.array(_parts(yards ^ (yards & -yards))) | (yards & -yards)
        both = least[parts].astype(np.int64) + least[yards ^ parts]
        chosen = int(parts[both.argmin()])
        return chosen, yards ^ chosen
    inside = (np.arange(len(least)) & ~yards) == 0
    rows = tuple(((0,),) if yards >> i & 1 else ((),) for i in range(len(least).bit_length() - 1))
    rota = Rota(np.where(inside, least, FAR), (trucks,), rows)
    prices = priced(rota)
    return _Shared(rota, prices).best(yards, trucks) if prices else (yards,) + (0,) * (trucks - 1)


class _Shared:
    """Yards shared out among trucks, sets of least extra first."""

    def __init__(self, rota: Rota, prices: Prices) -> None:
        order = np.argsort(prices.extra[0], kind="stable")
        self.sets, self.extra = rota.sets[order], prices.extra[0][order]
        self.home = float(prices.extra[0][0])
        self.found: tuple[float, tuple[int, ...]] = (float("inf"), ())
        self.looks = MOST_LOOKS

    def best(self, yards: int, trucks: int) -> tuple[int, ...]:
        """Return the sets of least extra together, as far as it is looked."""
        self._further(yards, trucks, 0.0, ())
        return self.found[1] or (yards,) + (0,) * (trucks - 1)

    def _further(self, left: int, trucks: int, spent: float, sets: tuple[int, ...]) -> None:
        if not left:
            spent += self.home * trucks
            if spent < self.found[0]:
                self.found = spent, sets + (0,) * trucks
            return
        may = ((self.sets & ~left) == 0) & ((self.sets & (left & -left)) > 0)
        if trucks == 1:
            may &= self.sets == left
        for at in np.flatnonzero(may) if trucks else ():
            self.looks -= 1
            extra = spent + float(self.extra[at])
            if extra >= self.found[0] or self.looks < 0:
                break
            part = int(self.sets[at])
            self._further(left ^ part, trucks - 1, extra, (*sets, part))
