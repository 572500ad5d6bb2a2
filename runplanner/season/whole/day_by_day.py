"""Whole days put together, one after another, into seasons that are as good as asked for.

What is kept of the days so far is which days are left open for every yard's further visits;
of two beginnings that leave the same, the cheaper one stays.  Nothing else is dropped, so that
the best season within the gap is found where there is one.  Where days may be turned round,
only seasons whose first days cost least beyond the bound are looked at.
"""

from dataclasses import dataclass

import numpy as np

from runplanner.season.whole.listing import Ints
from runplanner.season.whole.rota import Effort, Rota, TooManyError
from runplanner.season.whole.whole_day import WholeDays

TRIED = 10
"""What trying a day after a beginning takes, in times of looking at a pair of sets."""
MOST_KEPT = 15_000_000
"""Beginnings kept at most."""
AT_ONCE = 4_000_000
SCALE = 1 << 20
"""Parts of the gap by which extras are told apart when sorted."""
BITS = 62


@dataclass(frozen=True, slots=True)
class Found:
    """The best season: its cost, and the set of yards visited on every day."""

    cost: int
    days: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _Begun:
    """Beginnings of seasons: what they leave open (packed), cost, extra, whence they come."""

    key: Ints
    cost: Ints
    extra: Ints
    before: Ints
    day: Ints


def in_turn(n_days: int, turn: int) -> tuple[tuple[int, ...], tuple[float, ...]]:
    """Return in which order days are put together, and what share of the gap those so far take.

    Of the halves into which every other day parts alike days, the cheaper one comes first;
    so it goes on within it.  Of an odd number of them the cheapest one comes first.
    """
    blocks, shares = list(range(n_days // turn)), dict[int, float]()

    def ordered(mine: list[int], share: float) -> list[int]:
        if len(mine) == 1:
            return mine
        if len(mine) % 2:
            shares[1] = share / len(mine)
            return mine
        half = ordered(mine[::2], share / 2)
        shares[len(half)] = share / 2
        return half + mine[1::2]

    order = [block * turn + k for block in ordered(blocks, 1.0) for k in range(turn)]
    limits = [
        shares.get(done // turn, 1.0) if done % turn == 0 else 1.0 for done in range(1, n_days + 1)
    ]
    # What a longer beginning may not cost, a shorter one may not either.
    limits = [min(limits[done:]) for done in range(n_days)]
    return tuple(order), tuple(limits)


def put_together(rota: Rota, on: tuple[WholeDays, ...], gap: float, effort: Effort) -> Found | None:
    """Return the cheapest season within ``gap`` of the bound, or None where there is none.

    Args:
        rota: What a season may look like.
        on: The whole days of every day.
        gap: What it may cost beyond the bound.
        effort: What may still be looked at.

    Raises:
        TooManyError: It cannot be told with the effort allowed.
    """
    order, limits = in_turn(len(rota.trucks), rota.turn)
    yards = [_Yard.of(mine, order) for mine in rota.patterns]
    begun = _Begun(*(np.zeros(1, dtype=t) for t in (np.int64, np.int64, float, np.int64, np.int64)))
    steps = []
    for step, day in enumerate(order):
        begun = _further(begun, on[day], yards, step, gap * limits[step] + rota.grain, effort)
        steps.append(begun)
        if not len(begun.key):
            return None
    at = int(begun.cost.argmin())
    found, cost = [0] * len(order), int(begun.cost[at])
    for step in range(len(order) - 1, -1, -1):
        found[order[step]] = int(on[order[step]].sets[steps[step].day[at]])
        at = int(steps[step].before[at])
    return Found(cost, tuple(found))


@dataclass(frozen=True, slots=True)
class _Yard:
    """What a yard's visits so far leave open, by number, before every step.

    ``then[step][number][visited]`` is the number afterwards, -1 where that may not be.
    """

    then: tuple[Ints, ...]

    @classmethod
    def of(cls, patterns: tuple[tuple[int, ...], ...], order: tuple[int, ...]) -> "_Yard":
        """Number what may be left open, step by step."""
        whole = frozenset(frozenset(days) for days in patterns)
        known, then = [whole], []
        for day in order:
            later: list[frozenset[frozenset[int]]] = []
            table = np.full((len(known), 2), -1, dtype=np.int64)
            for number, open_days in enumerate(known):
                for visited in (0, 1):
                    rest = frozenset(d - {day} for d in open_days if (day in d) == bool(visited))
                    if not rest:
                        continue
                    if rest not in later:
                        later.append(rest)
                    table[number, visited] = later.index(rest)
            then.append(table)
            known = later
        return cls(tuple(then))

    def bits(self, step: int) -> int:
        """Return how many bits the numbers before a step take."""
        count = len(self.then[step]) if step < len(self.then) else 1
        return (count - 1).bit_length()


def _fields(yards: list[_Yard], step: int) -> list[tuple[int, int]]:
    """Return where in a key each yard's number lies before a step: its shift and its mask."""
    found, at = [], 0
    for yard in yards:
        bits = yard.bits(step)
        found.append((at, (1 << bits) - 1))
        at += bits
    if at > BITS:
        raise TooManyError
    return found


def _further(
    begun: _Begun,
    days: WholeDays,
    yards: list[_Yard],
    step: int,
    most: float,
    effort: Effort,
) -> _Begun:
    """Return beginnings with one more day."""
    must, must_not = _bound_to(begun.key, yards, step)
    # Yards that are told by every beginning whether they are visited: days are looked up by them.
    told = int(np.bitwise_and.reduce(must | must_not))
    which = np.flatnonzero(days.extra <= most)
    grain = most / (SCALE - 2)
    # Sums of fractions may be a hair below 0; a name must not then fall to the set before.
    beyond = np.maximum(0, np.floor(days.extra[which] / grain)).astype(np.int64)
    names = (days.sets[which] & told) * SCALE + beyond
    order = np.argsort(names, kind="stable")
    which, names = which[order], names[order]
    base = (must & told) * SCALE
    left = np.ceil((most - begun.extra) / grain).astype(np.int64)
    first = np.searchsorted(names, base)
    many = np.maximum(np.searchsorted(names, base + left, side="right") - first, 0)
    upto = np.cumsum(many)
    effort.spend(int(upto[-1]) * TRIED)
    parts, kept, start = [], 0, 0
    while start < len(many):
        done = int(upto[start - 1]) if start else 0
        end = max(start + 1, int(np.searchsorted(upto, done + AT_ONCE, side="right")))
        chosen = np.arange(start, end)
        parts.append(
            _tried(begun, days, yards, step, most, (must, must_not), chosen, first, many, which)
        )
        kept += len(parts[-1].key)
        if kept > MOST_KEPT:
            raise TooManyError
        start = end
    return _cheapest(parts)


def _tried(  # noqa: PLR0913, PLR0917 - one step's tables
    begun: _Begun,
    days: WholeDays,
    yards: list[_Yard],
    step: int,
    most: float,
    bound_to: tuple[Ints, Ints],
    chosen: Ints,
    first: Ints,
    many: Ints,
    which: Ints,
) -> _Begun:
    """Return some beginnings, each with every day that goes with it."""
    count = many[chosen]
    before = np.repeat(chosen, count)
    within = np.arange(len(before)) - np.repeat(np.cumsum(count) - count, count)
    day = which[first[before] + within]
    sets = days.sets[day]
    must, must_not = bound_to
    extra = begun.extra[before] + days.extra[day]
    good = (sets & must[before]) == must[before]
    good &= (sets & must_not[before]) == 0
    good &= extra <= most
    before, day, sets, extra = before[good], day[good], sets[good], extra[good]
    key = np.zeros(len(before), dtype=np.int64)
    fields = zip(_fields(yards, step), _fields(yards, step + 1), strict=True)
    old = begun.key[before]
    for i, (yard, ((at, mask), (to, _))) in enumerate(zip(yards, fields, strict=True)):
        key |= yard.then[step][(old >> at) & mask, (sets >> i) & 1] << to
    return _cheapest([_Begun(key, begun.cost[before] + days.cost[day], extra, before, day)])


def _bound_to(key: Ints, yards: list[_Yard], step: int) -> tuple[Ints, Ints]:
    """Return, for every beginning, the yards that must be visited next and those that may not."""
    must, must_not = np.zeros_like(key), np.zeros_like(key)
    for i, (yard, (at, mask)) in enumerate(zip(yards, _fields(yards, step), strict=True)):
        mine = yard.then[step][(key >> at) & mask]
        must |= (mine[:, 0] < 0).astype(np.int64) << i
        must_not |= (mine[:, 1] < 0).astype(np.int64) << i
    return must, must_not


def _cheapest(parts: list[_Begun]) -> _Begun:
    """Return, of beginnings that leave the same open, the cheapest."""
    whole = parts[0] if len(parts) == 1 else _Begun(
        *(np.concatenate([getattr(p, name) for p in parts]) for name in
          ("key", "cost", "extra", "before", "day"))
    )  # fmt: skip
    order = np.lexsort((whole.cost, whole.key))
    key = whole.key[order]
    order = order[np.concatenate([[True], key[1:] != key[:-1]])] if len(key) else order
    return _Begun(
        whole.key[order], whole.cost[order], whole.extra[order], whole.before[order],
        whole.day[order],
    )  # fmt: skip
