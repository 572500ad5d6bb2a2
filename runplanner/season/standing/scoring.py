"""How good a state is: what it leaves, and then its cost."""

from collections.abc import Mapping, Sequence

from runplanner.outfit.outfit import Prices
from runplanner.season.standing.base_work import BaseWork
from runplanner.season.standing.state import Progress, Score, Standing, State, undone_of
from runplanner.trips.day import Key
from runplanner.trips.judged import Judged


class Scoring:
    """Scores states by the user's prices; broken promises cost what the user says they do."""

    def __init__(self, prices: Prices, standing: Standing) -> None:
        self._prices, self._standing = prices, standing

    def score(
        self, progress: Sequence[Progress], days: Mapping[Key, Judged], base: BaseWork
    ) -> Score:
        """Return how good a state of these days is."""
        prices = self._prices
        chains = sum(self.chain_milli_cents(one) for one in progress)
        moved = self._promise_cents(progress, days)
        cost = sum(judged.milli_cents for judged in days.values()) + base.milli_cents
        left = undone_of(progress)
        worth = left.jobs().milli_cents(prices)
        return Score(left.counted(prices), cost + chains + moved * 1000 + worth)

    def chain_milli_cents(self, progress: Progress) -> int:
        """Return what a yard's chain costs by itself: lateness, long boards, doubt."""
        prices = self._prices
        cents = progress.late_cents + progress.boards_long_cents
        cents += progress.fed_early * prices.feed_early_cents
        return cents * 1000 + progress.doubt_permille * prices.unsure_cents

    def promise_cents(self, state: State) -> int:
        """Return the price of a state's broken promises, which steers but is on no bill."""
        return self._promise_cents(state.progress, state.days)

    def _promise_cents(self, progress: Sequence[Progress], days: Mapping[Key, Judged]) -> int:
        moved = sum(p.moved for p in progress) * self._standing.move_cents
        return moved + self._otherwise(days) * self._standing.shift_cents

    def _otherwise(self, days: Mapping[Key, Judged]) -> int:
        """Return how many promised days do not go out as promised."""
        promised = self._standing.shifts.items() if self._standing.shift_cents else ()
        return sum(key not in days or days[key].day != day for key, (day, _) in promised)
