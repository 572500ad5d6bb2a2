"""Which containers to take for so much syrup."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cache
from itertools import islice
from typing import NamedTuple

from runplanner.haulage.stow import Change, Tank, Train, by_size, stow
from runplanner.outfit.stores import Container
from runplanner.trade.loads import full_container_g

Counts = tuple[int, ...]

MOST_SETS = 4_000
"""Sets looked at for one amount; large containers come first, so few outfits have more."""
MOST_SHARED = 400
"""Sets looked at for truck and trailer for one amount, of those that both together bear."""


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


def sized(containers: Sequence[Container], places: Sequence[int]) -> tuple[tuple[int, Tank], ...]:
    """Return each container's kind and what it is, the largest first.

    Args:
        containers: The kinds there are.
        places: Deck places one of each kind covers.
    """
    kinds = sorted(enumerate(containers), key=lambda kind: by_size(kind[1]))
    return tuple((k, Tank(kind.empty_g, kind.holds_ml, places[k])) for k, kind in kinds)


def taken(tanks: Iterable[tuple[int, Tank]], counts: Counts) -> list[Tank]:
    """Return every container of a set, the largest first."""
    return [tank for kind, tank in tanks for _ in range(counts[kind])]


def choices(
    containers: tuple[Container, ...], places: tuple[int, ...]
) -> Callable[[int], tuple[Tanks, ...]]:
    """Return a function giving, for so many ml, the sets of containers worth trying.

    Lightest first, each further set covering fewer places than those before it; none uses
    more containers than are owned.
    """
    kinds = [containers[k] for k in _largest_first(containers)]
    owned, holds = [kind.owned for kind in kinds], [kind.holds_ml for kind in kinds]

    @cache
    def for_ml(ml: int) -> tuple[Tanks, ...]:
        found = islice(_sets(owned, holds, ml), MOST_SETS)
        return tuple(_worth(_ranked(containers, places, found)))

    return for_ml


def parted(
    containers: tuple[Container, ...], places: tuple[int, ...], train: Train
) -> Callable[[int], tuple[Tanks, ...]]:
    """Return a function giving the sets worth trying behind a trailer, ordered like ``choices``.

    Of those only the ones whose syrup truck and trailer can share count, and others beside:
    where one of the two bears less than its tanks hold, the other has tanks for what is left.
    """
    kinds = [containers[k] for k in _largest_first(containers)]
    owned, holds = [kind.owned for kind in kinds], [kind.holds_ml for kind in kinds]
    tanks = sized(containers, places)
    # What the steering axle wants may be other goods.
    alone = train._replace(least_g=0)

    both_g, both = train.truck_g + train.trailer_g, train.truck_places + train.trailer_places

    def shared(one: Tanks, ml: int) -> bool:
        return stow(alone, taken(tanks, one.counts), [Change((), (), ml, 0)]) is not None

    @cache
    def for_ml(ml: int) -> tuple[Tanks, ...]:
        found = (
            *islice(_sets(owned, holds, ml), MOST_SETS),
            *islice(_part_filled(kinds, train, ml), MOST_SETS),
        )
        spare_g = both_g - ml * train.density_g_per_l // 1000
        ranked = _ranked(containers, places, found)
        borne = (one for one in ranked if one.empty_g <= spare_g and one.places <= both)
        return tuple(_worth(islice(borne, MOST_SHARED), lambda one: shared(one, ml)))

    return for_ml


def _part_filled(kinds: Sequence[Container], train: Train, ml: int) -> Iterator[Counts]:
    """Yield sets with tanks that one vehicle does not bear full, and others for the rest."""
    owned, holds = [kind.owned for kind in kinds], [kind.holds_ml for kind in kinds]
    full_g = [full_container_g(kind, train.density_g_per_l) for kind in kinds]
    for bears_g in sorted({train.truck_g, train.trailer_g}):
        for over in islice(_sets(owned, full_g, bears_g), MOST_SETS):
            empty_g = sum(n * kind.empty_g for n, kind in zip(over, kinds, strict=True))
            borne_ml = (bears_g - empty_g) * 1000 // train.density_g_per_l
            left = [there - n for there, n in zip(owned, over, strict=True)]
            if 0 < borne_ml < ml:
                for beside in _sets(left, holds, ml - borne_ml):
                    yield tuple(a + b for a, b in zip(over, beside, strict=True))


def _largest_first(containers: Sequence[Container]) -> list[int]:
    return sorted(range(len(containers)), key=lambda k: (-containers[k].holds_ml, k))


def _ranked(
    containers: Sequence[Container], places: Sequence[int], found: Iterable[Counts]
) -> list[Tanks]:
    """Return sets, each counted with its largest kind first, from light to heavy."""
    order = _largest_first(containers)
    back = [order.index(k) for k in range(len(containers))]
    named = {tuple(counts[k] for k in back) for counts in found}
    return sorted(weighed(containers, places, counts) for counts in named)


def _worth(
    ranked: Iterable[Tanks], does: Callable[[Tanks], bool] = lambda _: True
) -> Iterator[Tanks]:
    """Yield, of sets from light to heavy that will do, those that save places over lighter ones."""
    fewest: int | None = None
    for one in ranked:
        if (fewest is None or one.places < fewest) and does(one):
            fewest = one.places
            yield one


def _sets(owned: Sequence[int], sizes: Sequence[int], amount: int) -> Iterator[Counts]:
    """Yield counts of kinds, none above ``owned``, whose sizes come to ``amount``, or just over it.

    Many of the first kind first.  Every kind gets at least what those after it cannot hold, so
    that each way down ends in a set and the last kind is never taken in excess.
    """
    if amount <= 0:
        yield (0,) * len(sizes)
        return
    if not sizes:
        return
    size, *rest = sizes
    left = owned[1:]
    rest_holds = sum(n * each for n, each in zip(left, rest, strict=True))
    most = min(owned[0], -(-amount // size))
    least = max(0, -(-(amount - rest_holds) // size))
    for count in range(most, least - 1, -1):
        for others in _sets(left, rest, amount - count * size):
            yield (count, *others)
