"""What was typed for a yard, as far as it overrides its forecast."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from runplanner.days import Span, day_of, meet, without
from runplanner.scenario.windows.typed_rows import air_of, fit_days, lifted
from runplanner.scenario.windows.weather_file import Window
from runplanner.weather.judge import Cause, ShutHour, Work
from runplanner.weather.stretches import pieces


@dataclass(frozen=True, slots=True)
class Typed:
    """Rows typed for a yard.

    Args:
        lifted: Stretches in which fit rows leave the forecast nothing to shut, by work.
        opened: Days with a fit row for opening hives.
        air: Temperatures by day.
        days_down: Days until a full feeder is empty.
    """

    lifted: tuple[tuple[Work, tuple[Span, ...]], ...]
    opened: frozenset[int]
    air: tuple[tuple[int, tuple[int, int]], ...]
    days_down: int

    def lifts(self, work: Work) -> tuple[Span, ...]:
        """Return the stretches in which fit rows stand before the forecast for ``work``."""
        return dict(self.lifted)[work]

    def overruled(self, hour: ShutHour) -> list[ShutHour]:
        """Return what of a shut hour a fit row takes back."""
        return pieces(hour, meet((Span(hour.start_min, hour.end_min),), self.lifts(hour.work)))

    def left(self, hour: ShutHour) -> list[ShutHour]:
        """Return what is left of a shut hour, which lies in one day.

        Nothing where a fit row stands before it; the hour's own cold does not count where a
        temperature was typed for the day.
        """
        whys = hour.whys
        if day_of(hour.start_min) in dict(self.air):
            whys = tuple(why for why in whys if why.cause is not Cause.COLD)
        spans = without((Span(hour.start_min, hour.end_min),), self.lifts(hour.work))
        return pieces(replace(hour, whys=whys), spans) if whys else []


def what_was_typed(mine: Sequence[Window], days_down: int) -> Typed:
    """Return what ``mine``, the rows of one yard, say."""
    return Typed(
        lifted=tuple((work, lifted(mine, work)) for work in Work),
        opened=fit_days(mine, Work.OPEN),
        air=tuple(sorted(air_of(mine).items())),
        days_down=days_down,
    )
