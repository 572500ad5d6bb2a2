"""Which containers to take for so much syrup."""

from collections.abc import Callable, Iterator
from functools import cache

from runplanner.outfit.stores import Container

Counts = tuple[int, ...]


def choices(containers: tuple[Container, ...]) -> Callable[[int], tuple[Counts, ...]]:
    """Return a function giving, for so many ml, the sets of containers worth trying.

    Each answer is a count for every kind, lightest set first; none uses more than are
    owned.  No set is listed that holds the syrup with a container to spare.
    """

    @cache
    def for_ml(ml: int) -> tuple[Counts, ...]:
        if ml == 0:
            return ((0,) * len(containers),)
        found = set(_sets(containers, ml))
        return tuple(sorted(found, key=lambda counts: (_empty_g(containers, counts), counts))[:6])

    return for_ml


def _empty_g(containers: tuple[Container, ...], counts: Counts) -> int:
    return sum(count * kind.empty_g for count, kind in zip(counts, containers, strict=True))


def _sets(containers: tuple[Container, ...], ml: int) -> Iterator[Counts]:
    """Yield sets that hold ``ml``, each kind taken as needed after the kinds before it."""
    if ml <= 0:
        yield (0,) * len(containers)
        return
    if not containers:
        return
    first, rest = containers[0], containers[1:]
    for count in range(min(first.owned, -(-ml // first.holds_ml)) + 1):
        for others in _sets(rest, ml - count * first.holds_ml):
            yield (count, *others)
