"""What was typed for a yard, as far as it overrides its forecast."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from runplanner.days import Span, day_of, meet, without
from runplanner.outfit.stores import Feed
from runplanner.outfit.yards import Clearing, Yard
from runplanner.scenario.windows.typed_rows import (
    air_of,
    days_down,
    fit_days,
    lifted,
    own_fit_days,
)
from runplanner.scenario.windows.weather_file import Window
from runplanner.weather.judge import Cause, ShutHour, Why, Work
from runplanner.weather.stretches import pieces


@dataclass(frozen=True, slots=True)
class Typed:
    """Rows typed for a yard.

    Args:
        lifted: Stretches in which fit rows leave the forecast nothing to shut, by work.
        opened: Days with a fit row for opening hives.
        cool: Those of them on which warm boards clear in the warm hours of the forecast alone,
            as no row of the yard itself tells others.
        air: Temperatures by day.
        days_down: Days until a round of syrup is down.
    """

    lifted: tuple[tuple[Work, tuple[Span, ...]], ...] = ()
    opened: frozenset[int] = frozenset()
    cool: frozenset[int] = frozenset()
    air: tuple[tuple[int, tuple[int, int]], ...] = ()
    days_down: int = 1

    def lifts(self, work: Work) -> tuple[Span, ...]:
        """Return the stretches in which fit rows stand before the forecast for ``work``."""
        return dict(self.lifted).get(work, ())

    def overruled(self, hour: ShutHour) -> list[ShutHour]:
        """Return what of a shut hour a fit row takes back."""
        if self._too_cool(hour):
            return []
        return pieces(hour, meet((Span(hour.start_min, hour.end_min),), self.lifts(hour.work)))

    def left(self, hour: ShutHour) -> list[ShutHour]:
        """Return what is left of a shut hour, which lies in one day.

        Nothing where a fit row stands before it, but for what is too cool for warm boards; the
        hour's own cold does not count where a temperature was typed for the day.
        """
        whys = hour.whys
        if day_of(hour.start_min) in dict(self.air):
            whys = tuple(why for why in whys if why.cause is not Cause.COLD)
        if cool := self._too_cool(hour):
            return [replace(hour, whys=cool)]
        spans = without((Span(hour.start_min, hour.end_min),), self.lifts(hour.work))
        return pieces(replace(hour, whys=whys), spans) if whys else []

    def _too_cool(self, hour: ShutHour) -> tuple[Why, ...]:
        """Return what no fit row takes back of an hour: too cool for warm boards, or not told."""
        day = day_of(hour.start_min)
        if hour.work is not Work.OPEN or day not in self.cool or day in dict(self.air):
            return ()
        return tuple(why for why in hour.whys if why.cause in {Cause.COLD, Cause.MISSING})


def what_was_typed(yard: Yard, mine: Sequence[Window], feed: Feed) -> Typed:
    """Return what ``mine``, the rows of one yard, say."""
    warm = yard.clearing is Clearing.WARM_BOARD
    opened = fit_days(mine, Work.OPEN)
    return Typed(
        lifted=tuple((work, lifted(mine, work)) for work in Work),
        opened=opened,
        cool=opened - own_fit_days(mine) if warm else frozenset(),
        air=tuple(sorted(air_of(mine).items())),
        days_down=days_down(yard, feed),
    )
