"""The base days: syrup mixed before it is loaded, honey spun after it is brought.

People who are not on a truck in a half-day mix (where syrup is wanted) or spin, as long as
their day's duty and its breaks allow.
"""

from collections.abc import Callable, Sequence

from runplanner.season.standing.base_days import BaseDays, Calls
from runplanner.season.standing.base_work import BaseWork
from runplanner.season.standing.floor import Honey, Spin
from runplanner.season.standing.in_line import Line
from runplanner.season.standing.mixing import Mixing
from runplanner.season.standing.roster import Roster
from runplanner.season.standing.spinning import Spinning
from runplanner.trips.ground import Ground


class House:
    """Works out the base days for a set of trips.

    Args:
        ground: The campaign.
        roster: Who is free, and what has been mixed and spun.
        ready_ml: Tells the syrup that stands ready, by what comes back; None for what the outfit
            says.
        promised: Spinning still to come as people were told it: of equal teams theirs goes first.
    """

    def __init__(
        self,
        ground: Ground,
        roster: Roster,
        ready_ml: Callable[[Sequence[tuple[int, int]]], int] | None = None,
        promised: Sequence[Spin] = (),
    ) -> None:
        self._prices = ground.outfit.prices
        self._roster = roster
        ready_ml = ready_ml or (lambda _: ground.outfit.feed.ready_ml)
        self._mixing = Mixing(ground, roster.past, ready_ml)
        self._spinning = Spinning(ground, roster.past.spinning, promised)
        self.in_line = Line(ground, roster.past.spinning)

    def work(self, calls: Calls) -> BaseWork | None:
        """Return the base work, or None where honey or syrup cannot keep up."""
        days = BaseDays(self._roster, calls)
        mixing = self._mixing(days, calls)
        if mixing is None:
            return None
        honey = Honey(sorted(calls.lots), self.in_line(calls.lots))
        spun = self._spinning(days, honey, mixing)
        if spun is None:
            return None
        minutes = sum(mix.end_min - mix.start_min for mix in mixing)
        cents = minutes * self._prices.hour_cents * 1000 // 60
        return BaseWork(mixing, spun.spinning, cents + self._spinning.cost(spun), spun.late)
