"""What rows of weather say together of one yard, read in one way wherever it is asked."""

from collections.abc import Iterable

from runplanner.outfit.shut import Work
from runplanner.outfit.stores import Feed
from runplanner.outfit.yards import Yard
from runplanner.scenario.windows.weather_file import Window
from runplanner.weather.judge import Air


def fit_days(rows: Iterable[Window], work: Work) -> frozenset[int]:
    """Return the days with a row that says fit for ``work``."""
    return frozenset(
        day for row in rows if row.fit and row.what == work.value
        for day in range(row.from_day, row.to_day + 1)
    )  # fmt: skip


def air_of(rows: Iterable[Window]) -> Air:
    """Return the temperatures by day; the narrowest area counts, then the later row."""
    air: Air = {}
    told = [row for row in rows if row.what == "temperature"]
    for row in sorted(told, key=lambda row: -row.rank):
        air.update(dict.fromkeys(range(row.from_day, row.to_day + 1), (row.low, row.high)))
    return air


def days_down(yard: Yard, feed: Feed) -> int:
    """Return the days until a full feeder of a yard is empty."""
    return -(-yard.feeder_ml // feed.uptake_ml_per_day)
