"""What `check` warns of: facts that are allowed but will surprise in the field."""

from collections.abc import Iterator
from datetime import date

from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Phrase, phrase
from runplanner.scenario.places.sun import clock_change
from runplanner.scenario.shown.sums import YardSum
from runplanner.scenario.shown.warned import places, stores, vehicles, yard_work


def warnings(outfit: Outfit, yards: tuple[YardSum, ...]) -> list[Phrase]:
    """Return every warning, most pressing first."""
    return [
        *vehicles.no_load(outfit),
        *places.unreached(outfit, yards),
        *yard_work.boards(outfit, yards),
        *yard_work.feeders(outfit, yards),
        *yard_work.no_day(outfit, yards),
        *yard_work.moves(yards),
        *yard_work.feed_rounds(outfit, yards),
        *stores.hands(outfit, yards),
        *places.own_ways(outfit, yards),
        *stores.syrup(outfit, yards),
        *stores.eaten(outfit, yards),
        *yard_work.strips(outfit, yards),
        *yard_work.by_the_high(outfit),
        *stores.prices(outfit),
        *vehicles.payload(outfit),
        *vehicles.noses(outfit),
        *stores.water(outfit),
        *places.at_sea(outfit),
        *places.spots(outfit),
        *places.off_road(outfit),
        *yard_work.boxes_and_health(outfit, yards),
        *_clock(outfit),
    ]


def _clock(outfit: Outfit) -> Iterator[Phrase]:
    season = outfit.season
    day = clock_change(season.zone, date.fromisoformat(season.first_date), season.n_days)
    if day is not None:
        yield phrase(
            "The clocks change on {day}: the plan's day is 24 hours long, the real one is not.",
            day=day,
        )
