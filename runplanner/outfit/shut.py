"""Hours that weather shuts, and why: kept with a yard so that people can be told."""

from collections.abc import Callable
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Final, NamedTuple

from runplanner.days import DAY_MIN
from runplanner.outfit.later import LATER
from runplanner.phrase import Number, Phrase, counted, joined, phrase

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


def tenths(number: int) -> Number:
    """Return tenths as a figure with one decimal."""
    sign, rest = ("-" if number < 0 else ""), abs(number)
    return Number(f"{sign}{rest // 10}.{rest % 10}")


class Figures(NamedTuple):
    """How figures of weather are written: on the screen, or on papers.

    Args:
        tenths: Whole tenths of anything as a figure.
        celsius: The unit of temperatures.
    """

    tenths: Callable[[int], str]
    celsius: str


ON_SCREEN: Final = Figures(tenths, phrase("degC"))


@dataclass(frozen=True, slots=True)
class Why:
    """One reason: the cause and its figure in whole units.

    Args:
        cause: What it is.
        amount: Its figure (thousandths of a millimetre, millimetres a second, per mille,
            tenths of a degree); None where the forecast has none.
        over_min: The stretch that rain, or a mean, is told for, or that syrup is taken down in.
        worst: The figure is the worst of several hours that differ.
    """

    cause: Cause
    amount: int | None
    over_min: int = field(default=HOUR_MIN, metadata=LATER)
    worst: bool = field(default=False, metadata=LATER)

    def words(self, written: Figures = ON_SCREEN) -> Phrase:
        """Return the reason in words, such as "rain up to 2.1 mm/h"."""
        if self.amount is None:
            return self._untold()
        figure = self._figure(self.amount, written)
        if self.cause is Cause.MEAN:
            return counted(
                "{mean} in the mean over the day syrup is taken down",
                "{mean} in the mean over the {number} days syrup is taken down",
                -(-self.over_min // DAY_MIN),
                mean=figure,
            )
        cause = _CAUSES[self.cause]
        if not self.worst:
            return joined(" ", cause, figure)
        if self.cause is Cause.COLD:
            return phrase("{cause} down to {figure}", cause=cause, figure=figure)
        return phrase("{cause} up to {figure}", cause=cause, figure=figure)

    def _untold(self) -> Phrase:
        if self.cause is Cause.MISSING:
            return phrase("no forecast for it")
        if self.cause is Cause.COLD and self.over_min >= DAY_MIN:
            return phrase("temperature not told of a day on which syrup is taken down")
        return phrase("{cause} not told", cause=_CAUSES[self.cause])

    def _figure(self, amount: int, written: Figures) -> Phrase:
        if self.cause is Cause.RAIN:
            over, rain = self.over_min // HOUR_MIN, written.tenths(-(-amount // 100))
            if over == 1:
                return joined(" ", rain, "mm/h")
            return phrase("{mm} mm in {hours} h", mm=rain, hours=over)
        if self.cause in {Cause.WIND, Cause.GUST}:
            return joined(" ", written.tenths(-(-amount // 100)), "m/s")
        unit = "%" if self.cause is Cause.THUNDER else written.celsius
        return joined(" ", written.tenths(amount), unit)


UNTOLD: Final = (Why(Cause.COLD, None),)
"""Why hours are shut of which nobody tells how warm they are."""


_CAUSES = {
    Cause.RAIN: phrase("rain"),
    Cause.WIND: phrase("wind"),
    Cause.GUST: phrase("gusts"),
    Cause.THUNDER: phrase("thunder"),
    Cause.COLD: phrase("temperature"),
    Cause.MEAN: phrase("mean temperature"),
}


@dataclass(frozen=True, slots=True)
class Shut:
    """A stretch of hours in which weather forbids one kind of work at a yard.

    Args:
        work: What may not be done.
        start_min: From when, in minutes of the campaign.
        end_min: To when.
        whys: What the forecast says, every reason.
        note: What whoever shut the hours by hand gave as the reason; may be empty.
        by_line: A line of changes shut them; what the scenario's folder says does not open them.
    """

    work: Work
    start_min: int
    end_min: int
    whys: tuple[Why, ...] = field(default=(), metadata=LATER)
    note: str = field(default="", metadata=LATER)
    by_line: bool = field(default=False, metadata=LATER)

    def words(self) -> str:
        """Return the reasons in words; empty where none was given."""
        return self.note or joined(", ", *(why.words() for why in self.whys))
