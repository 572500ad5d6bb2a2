"""What all trucks can do on one day together: sets of yards, and the least they cost.

Only days that cost no more than a given sum beyond the bound are made: every season that is
that good is made of such days.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from runplanner.season.listing import FAR, Ints, sums
from runplanner.season.rota import Prices, Rota, TooManyError

MOST_PAIRS = 1_500_000_000
"""Pairs looked at for one kind of day before it is given up; a second takes a hundred million."""


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


def whole_days(
    rota: Rota, prices: Prices, day: int, gap: float, most_pairs: int = MOST_PAIRS
) -> WholeDays:
    """Return the days of all trucks within ``gap`` of the bound; days of one kind have the same.

    Raises:
        TooManyError: More than ``most_pairs`` would have to be looked at.
    """
    kind, trucks, may = day % rota.turn, rota.trucks[day], rota.may(day)
    extra = prices.extra[kind]
    gap += rota.grain
    fit = (extra <= gap) & ((rota.sets & ~may) == 0)
    sets = rota.sets[fit]
    one = _Part.sorted(sets, rota.least[sets], extra[fit])
    all_out = one
    for number in range(2, trucks + 1):
        must = rota.must(day) if number == trucks else None
        pairs = _pairs(all_out, one, must)
        if _work(pairs, gap) > most_pairs:
            raise TooManyError
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
    """Return the sets that so many trucks visit where they cost least together."""
    return _parted(least, yards, trucks)[1]


def _parted(least: Ints, yards: int, trucks: int) -> tuple[int, tuple[int, ...]]:
    if trucks <= 1:
        return (int(least[yards]) if trucks else 0), (yards,) * trucks
    if trucks == 2:
        parts = np.array(_parts(yards))
        both = least[parts].astype(np.int64) + least[yards ^ parts]
        at = int(both.argmin())
        return int(both[at]), (int(parts[at]), yards ^ int(parts[at]))
    found = []
    for part in _parts(yards):
        if least[part] < FAR:
            cost, rest = _parted(least, yards ^ part, trucks - 1)
            found.append((cost + int(least[part]), (part, *rest)))
    return min(found)
