"""Hours that weather shuts, and why: kept with a yard so that people can be told."""

from dataclasses import dataclass, field
from enum import StrEnum
from typing import Final

from runplanner.outfit.later import LATER

HOUR_MIN: Final = 60


class Work(StrEnum):
    """What the weather must be fit for."""

    OPEN = "open"
    FEED = "feed"
    SETTLE = "settle"


class Cause(StrEnum):
    """What shuts an hour."""

    RAIN = "rain"
    WIND = "wind"
    GUST = "gusts"
    THUNDER = "thunder"
    COLD = "temperature"
    MEAN = "mean temperature"
    MISSING = "no forecast"


@dataclass(frozen=True, slots=True)
class Why:
    """One reason: the cause and its figure in whole units.

    Args:
        cause: What it is.
        amount: Its figure (thousandths of a millimetre, millimetres a second, per mille,
            tenths of a degree); None where the forecast has none.
        over_min: The stretch that rain, or a mean, is told for.
        worst: The figure is the worst of several hours that differ.
    """

    cause: Cause
    amount: int | None
    over_min: int = field(default=HOUR_MIN, metadata=LATER)
    worst: bool = field(default=False, metadata=LATER)

    def words(self) -> str:
        """Return the reason in words, such as "rain up to 2.1 mm/h"."""
        if self.cause is Cause.MISSING:
            return "no forecast for it"
        if self.amount is None:
            return f"{self.cause.value} not told"
        if self.cause is Cause.MEAN:
            days = -(-self.over_min // 1440)
            stretch = f"the {days} days" if days > 1 else "the day"
            return f"{tenths(self.amount)} degC in the mean over {stretch} syrup is taken down"
        return f"{self.cause.value} {self._up_to()}{self._figure()}"

    def _figure(self) -> str:
        amount = self.amount or 0
        if self.cause is Cause.RAIN:
            over = self.over_min // HOUR_MIN
            return f"{tenths(-(-amount // 100))} mm" + ("/h" if over == 1 else f" in {over} h")
        if self.cause in {Cause.WIND, Cause.GUST}:
            return f"{tenths(-(-amount // 100))} m/s"
        return f"{tenths(amount)} degC" if self.cause is Cause.COLD else f"{tenths(amount)} %"

    def _up_to(self) -> str:
        return "" if not self.worst else "down to " if self.cause is Cause.COLD else "up to "


def tenths(number: int) -> str:
    """Return tenths as a figure with one decimal."""
    sign, rest = ("-" if number < 0 else ""), abs(number)
    return f"{sign}{rest // 10}.{rest % 10}"


@dataclass(frozen=True, slots=True)
class Shut:
    """A stretch of hours in which weather forbids one kind of work at a yard.

    Args:
        work: What may not be done.
        start_min: From when, in minutes of the campaign.
        end_min: To when.
        whys: What the forecast says, every reason.
        note: What whoever shut the hours by hand gave as the reason; may be empty.
    """

    work: Work
    start_min: int
    end_min: int
    whys: tuple[Why, ...] = field(default=(), metadata=LATER)
    note: str = field(default="", metadata=LATER)

    def words(self) -> str:
        """Return the reasons in words; empty where none was given."""
        return self.note or ", ".join(why.words() for why in self.whys)
