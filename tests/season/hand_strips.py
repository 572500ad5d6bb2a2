"""Which strips a yard gets, what they weigh and cost, looked up by hand."""

from collections.abc import Iterable

from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Strips
from tests.season.hand_clock import Visit


def strips_for(outfit: Outfit, yard: str) -> Strips:
    """The kind that goes into a yard."""
    kinds = {"": outfit.strips} | {kind.id: kind for kind in outfit.strips_also}
    return kinds[outfit.yard(yard).strips]


def hung(visits: Iterable[Visit]) -> list[tuple[str, int]]:
    """How many strips go in where."""
    return [(v.yard, a.pieces) for v in visits for a in v.actions if a.job is Job.STRIPS]


def strips_g(outfit: Outfit, visits: Iterable[Visit]) -> int:
    """What the strips of some visits weigh."""
    own = ((strips_for(outfit, yard).each_g, n) for yard, n in hung(visits))
    return sum(n * (outfit.kit.strip_g if each is None else each) for each, n in own)


def strips_cents(outfit: Outfit, visits: Iterable[Visit]) -> int:
    """What the strips of some visits cost."""
    own = ((strips_for(outfit, yard).each_cents, n) for yard, n in hung(visits))
    return sum(n * (outfit.prices.strip_cents if each is None else each) for each, n in own)


def in_stock(outfit: Outfit, visits: Iterable[Visit]) -> bool:
    """Tell whether there are strips enough of every substance."""
    left = {
        kind.substance: kind.stock
        for kind in (outfit.strips, *outfit.strips_also)
        if kind.stock is not None
    }
    for yard, number in hung(visits):
        substance = strips_for(outfit, yard).substance
        if substance in left:
            left[substance] -= number
    return all(number >= 0 for number in left.values())
