"""Work with a stated worth: it may be left where it costs more, and is then money, not undone."""

from typing import NamedTuple

from runplanner.outfit.outfit import Prices


class Left(NamedTuple):
    """What is left of the jobs: colonies without strips, grams not fed, colonies not off."""

    no_strips: int
    unfed_g: int
    not_off: int

    def counted(self, prices: Prices) -> "Left":
        """Return what of this is undone: the jobs without a stated worth."""
        return Left(
            0 if prices.worth_strips_cents else self.no_strips,
            0 if prices.worth_feed_cents else self.unfed_g,
            0 if prices.worth_take_off_cents else self.not_off,
        )

    def milli_cents(self, prices: Prices) -> int:
        """Return what the rest is worth, in thousandths of a cent."""
        whole = self.no_strips * prices.worth_strips_cents
        whole += self.not_off * prices.worth_take_off_cents
        return whole * 1000 + self.unfed_g * prices.worth_feed_cents


def stated(prices: Prices) -> bool:
    """Tell whether any job has a stated worth."""
    return bool(prices.worth_strips_cents or prices.worth_feed_cents or prices.worth_take_off_cents)
