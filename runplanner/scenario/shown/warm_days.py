"""Until when syrup is still taken down, by the temperatures typed or forecast."""

from datetime import date, timedelta

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.shut import Cause, Work
from runplanner.outfit.yards import Yard
from runplanner.phrase import Phrase, joined, phrase
from runplanner.scenario.shown.sums import YardSum


def last_warm_day(outfit: Outfit, yards: tuple[YardSum, ...]) -> Phrase | None:
    """Return the last day on which syrup is still taken down, by temperatures; None where open.

    A day counts as the last where every later day of the campaign is shut for cold.
    """
    fed = [one.yard for one in yards if one.due.rounds]
    lasts = {yard.name: _last_warm(outfit, yard) for yard in fed}
    cold = {name: day for name, day in lasts.items() if day is not None}
    if not cold:
        return None
    first = date.fromisoformat(outfit.season.first_date)
    dates = {name: first + timedelta(day) for name, day in cold.items()}
    none = phrase("none")
    said = {name: none if day < first else day.isoformat() for name, day in dates.items()}
    if len(set(said.values())) == 1 and len(said) == len(fed):
        return joined(", ", next(iter(said.values())), phrase("all yards"))
    return joined(", ", *(joined(" ", day, name) for name, day in said.items()))


def _last_warm(outfit: Outfit, yard: Yard) -> int | None:
    """Return the last day not shut for cold, -1 where all are; None when the end is warm."""
    cold = {
        one.start_min // DAY_MIN for one in yard.shut
        if one.work is Work.FEED and any(why.cause is Cause.MEAN for why in one.whys)
    }  # fmt: skip
    days = range(outfit.season.n_days)
    if not cold or days[-1] not in cold:
        return None
    return max((day for day in days if day not in cold), default=-1)
