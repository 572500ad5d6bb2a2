"""The cheapest season of whole visits, or how far it is proven that there is none cheaper.

Seasons within a gap of the bound are all looked at, for one gap after another, until one is
found: it is the best, or until the plan at hand is shown to be.  What was looked through
without a find lifts the bound, so that it is valid whenever this ends.
"""

from collections.abc import Callable
from dataclasses import dataclass

from runplanner.season.whole.day_by_day import Found, put_together
from runplanner.season.whole.listing import FAR
from runplanner.season.whole.rota import Effort, Rota, TooManyError, priced
from runplanner.season.whole.whole_day import whole_days

GAPS_PERMILLE = (*range(5, 60, 5), *range(60, 100, 10), 100, 120, 150, 200, 300, 500, 1_000, 3_000)
"""Gaps looked through one after another, in thousandths of the bound."""


MOST_WORK = 4_000_000_000
"""Pairs of sets looked at before it is given up; some six hundred million take a second."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A bound, and the best season found that costs less than what was to be beaten.

    ``proven`` tells that no season costs less than the one found or, where none was, than
    what was to be beaten.
    """

    bound: float
    found: Found | None
    proven: bool


def best_season(rota: Rota, beaten: float, go_on: Callable[[], bool]) -> Answer | None:
    """Return the best season as far as it can be told; None where not even a bound is found.

    Nor is there an answer where what all trucks do on one day may cost more than the list knows.

    Args:
        rota: What a season may look like.
        beaten: Seasons that cost as much (in the rota's money) or more are of no use.
        go_on: Asked before every further gap.
    """
    prices = None if _too_dear(rota) else priced(rota)
    if prices is None:
        return None
    # Days that are unlike leave too many rows open to be worth as much.
    effort = Effort(MOST_WORK // rota.turn)
    bound, best = min(prices.bound, beaten), None
    for permille in GAPS_PERMILLE:
        if bound >= beaten - rota.grain or not go_on():
            break
        gap = min(prices.bound * permille / 1000, beaten - prices.bound)
        try:
            kinds = [whole_days(rota, prices, k, gap, effort) for k in range(rota.turn)]
            on = tuple(kinds[day % rota.turn] for day in range(len(rota.trucks)))
            found = put_together(rota, on, gap, effort)
        except TooManyError:
            break
        if found is not None and found.cost < beaten:
            best, beaten = found, float(found.cost)
        bound = min(max(bound, prices.bound + gap), beaten)
    proven = bound >= beaten - rota.grain
    return Answer(beaten if proven else bound, best, proven)


def _too_dear(rota: Rota) -> bool:
    """Tell whether all trucks of a day together may cost as much as what cannot be at all."""
    return int(rota.least[rota.sets].max()) * max(rota.trucks, default=0) >= FAR
