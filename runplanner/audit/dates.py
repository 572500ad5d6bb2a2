"""What becomes a date on papers: it stays within calendars."""

from collections.abc import Iterator
from datetime import date
from typing import Final

from runplanner.audit.findings import Breach, Breaches, called, quoted
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Phrase, phrase

FIRST_YEAR: Final = 2000
LAST_YEAR: Final = 2100
MOST_DAYS: Final = 366
"""A campaign is a few weeks; a year leaves room."""
FAR_DAYS: Final = 36_525
"""A hundred years: further off nothing is due."""

Stretch = tuple[Phrase, int, int]


def first_dates(outfit: Outfit) -> Breaches:
    """The campaign's first day is a date, and not in another age."""
    said = outfit.season.first_date
    try:
        year = date.fromisoformat(said).year
    except ValueError:
        year = 0
    if not FIRST_YEAR <= year <= LAST_YEAR:
        allowed = phrase(
            "a date such as 2027-03-01, in the years {first} to {last}",
            first=FIRST_YEAR,
            last=LAST_YEAR,
        )
        yield Breach(phrase("the first day is {day}", day=quoted(said)), allowed)


def too_long(outfit: Outfit) -> Breaches:
    """No stretch of days or minutes leads out of all calendars, or back in time."""
    days = outfit.season.n_days
    if not 1 <= days <= MOST_DAYS:
        yield _out_of(phrase("days of the campaign"), days, 1, MOST_DAYS)
    for name, value, most in _stretches(outfit):
        if not 0 <= value <= most:
            yield _out_of(name, value, 0, most)


def _out_of(name: Phrase, value: int, least: int, most: int) -> Breach:
    said = phrase("{name} is {value}", name=name, value=value)
    return Breach(said, phrase("from {least} to {most}", least=least, most=most))


def _stretches(outfit: Outfit) -> Iterator[Stretch]:
    for kind in (outfit.strips, *outfit.strips_also):
        strips = quoted(kind.substance)
        yield phrase("days until {strips} fall due", strips=strips), kind.out_after_days, FAR_DAYS
        yield phrase("days until {strips} are out", strips=strips), kind.out_before_days, FAR_DAYS
        yield phrase("days without feed after {strips}", strips=strips), kind.no_feed_days, FAR_DAYS
    fondant = max(1, outfit.rules.blocks) * outfit.kit.block_g
    for yard in outfit.yards:
        grams = max(0, yard.stores_g or 0) + fondant
        name = phrase("days that a colony of {name} lives on stores and blocks", name=called(yard))
        yield name, grams // max(1, outfit.feed.day_use_g), FAR_DAYS
        name = phrase("minutes until boxes of {name} are spun", name=called(yard))
        yield name, yard.spin_by_min, FAR_DAYS * DAY_MIN
        for day, _ in yard.sites:
            yield phrase("day from which {name} stands", name=called(yard)), day, FAR_DAYS
        for day in yard.high_only:
            yield phrase("a day of {name} by its high alone", name=called(yard)), day, FAR_DAYS
