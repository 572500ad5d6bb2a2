"""What rows of weather say together of one yard, read in one way wherever it is asked."""

from collections.abc import Iterable, Sequence

from runplanner.days import Span, join, whole_day
from runplanner.outfit.shut import Work
from runplanner.outfit.stores import Feed
from runplanner.outfit.yards import Yard
from runplanner.scenario.windows.weather_file import Window
from runplanner.trade.feeding import need_g, pouring
from runplanner.weather.judge import Air


def fit_days(rows: Iterable[Window], work: Work) -> frozenset[int]:
    """Return the days with a row that says fit for ``work``."""
    return frozenset(
        day for row in rows if row.fit and row.what == work.value
        for day in range(row.from_day, row.to_day + 1)
    )  # fmt: skip


def own_fit_days(rows: Iterable[Window]) -> frozenset[int]:
    """Return the days of which a row of the yard itself says when hives may be opened.

    It tells the warm hours as well, for warm boards; one for a wider area does not.
    """
    return fit_days((row for row in rows if row.rank == 0), Work.OPEN)


def lifted(rows: Sequence[Window], work: Work) -> tuple[Span, ...]:
    """Return the stretches in which fit rows leave a forecast nothing to shut for ``work``.

    For opening and syrup whole days, for their hours are all that is fit then.  Bees settle
    overnight: rows for that lift what lies in their very hours, past midnight as well.
    """
    if work is not Work.SETTLE:
        return join(tuple(whole_day(day) for day in fit_days(rows, work)))
    nights = (row.spans() for row in rows if row.fit and row.what == work.value)
    return join(tuple(span for spans in nights for span in spans))


def air_of(rows: Iterable[Window]) -> Air:
    """Return the temperatures by day; the narrowest area counts, then the later row."""
    air: Air = {}
    told = [row for row in rows if row.what == "temperature"]
    for row in sorted(told, key=lambda row: -row.rank):
        air.update(dict.fromkeys(range(row.from_day, row.to_day + 1), (row.low, row.high)))
    return air


def days_down(yard: Yard, feed: Feed) -> int:
    """Return the days until a round poured into a yard is down, or where none is due a full feeder.

    Rounds are all alike, so that hours are the same once some of them are poured.
    """
    lacking_g = need_g(yard.target_g, yard.stores_g)
    each_ml = pouring(lacking_g, feed, yard.feeder_ml).ml_each or yard.feeder_ml
    return -(-each_ml // feed.uptake_ml_per_day)
