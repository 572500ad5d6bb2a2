"""Which containers to take for so much syrup."""

from collections.abc import Callable, Iterator, Sequence
from functools import cache
from itertools import islice
from typing import NamedTuple

from runplanner.outfit.stores import Container

Counts = tuple[int, ...]

MOST_SETS = 4_000
"""Sets looked at for one amount; large containers come first, so few outfits have more."""


class Tanks(NamedTuple):
    """A set of containers: its mass, the deck places it covers, a count for every kind."""

    empty_g: int
    places: int
    counts: Counts


def weighed(containers: Sequence[Container], places: Sequence[int], counts: Counts) -> Tanks:
    """Return a set of containers with its mass and places.

    Args:
        containers: The kinds there are.
        places: Deck places one of each kind covers.
        counts: How many of each kind are taken.
    """
    mass = sum(n * kind.empty_g for n, kind in zip(counts, containers, strict=True))
    return Tanks(mass, sum(n * under for n, under in zip(counts, places, strict=True)), counts)


def choices(
    containers: tuple[Container, ...], places: tuple[int, ...]
) -> Callable[[int], tuple[Tanks, ...]]:
    """Return a function giving, for so many ml, the sets of containers worth trying.

    Lightest first, each further set covering fewer places than those before it; none uses
    more containers than are owned.
    """
    order = sorted(range(len(containers)), key=lambda k: (-containers[k].holds_ml, k))
    kinds = [containers[k] for k in order]
    back = [order.index(k) for k in range(len(containers))]

    @cache
    def for_ml(ml: int) -> tuple[Tanks, ...]:
        found = islice(_sets(kinds, ml), MOST_SETS)
        named = (tuple(counts[k] for k in back) for counts in found)
        return tuple(_worth(sorted(weighed(containers, places, counts) for counts in named)))

    return for_ml


def _worth(tanks: Sequence[Tanks]) -> Iterator[Tanks]:
    """Yield, of sets from light to heavy, those that save places over all lighter ones."""
    fewest: int | None = None
    for one in tanks:
        if fewest is None or one.places < fewest:
            fewest = one.places
            yield one


def _sets(kinds: Sequence[Container], ml: int) -> Iterator[Counts]:
    """Yield sets that hold ``ml``, many of the first kind first.

    Every kind gets at least what those after it cannot hold, so that each way down ends in
    a set and the last kind is never taken in excess.
    """
    if ml <= 0:
        yield (0,) * len(kinds)
        return
    if not kinds:
        return
    first, rest = kinds[0], kinds[1:]
    rest_ml = sum(kind.owned * kind.holds_ml for kind in rest)
    most = min(first.owned, -(-ml // first.holds_ml))
    least = max(0, -(-(ml - rest_ml) // first.holds_ml))
    for count in range(most, least - 1, -1):
        for others in _sets(rest, ml - count * first.holds_ml):
            yield (count, *others)
