"""Grounds, stops and days for tests of trips."""

from collections.abc import Sequence
from dataclasses import replace

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.trucks import Deck, Trailer
from runplanner.outfit.yards import Yard
from runplanner.trips.day import Day, Trip
from runplanner.trips.ground import Ground
from runplanner.trips.judge import Judge, Judged
from runplanner.visits.due import taken
from runplanner.visits.stop import Stop
from tests.outfits import a_truck, a_yard, an_outfit

TRAILER = Trailer(
    "trailer", "Trailer", 500_000, 1_500_000, Deck(2_600, 1_300, 700, 4), 2_200, 800, 20
)


def ground(*yards: Yard, outfit: Outfit | None = None) -> Ground:
    """Yards 10, 14, 18, ... km from the base, the usual outfit unless another is given."""
    facts = outfit or an_outfit()
    if yards:
        spots = [(10 + 4 * n, 0) for n in range(len(yards))]
        laid = an_outfit(spots, yards)
        facts = replace(facts, yards=laid.yards, places=laid.places, travel=laid.travel)
    return Ground(facts)


def numbered(count: int, **changes: object) -> tuple[Yard, ...]:
    """So many yards of 10 colonies and 15 boxes, all changed alike."""
    return tuple(replace(a_yard(n + 1), **changes) for n in range(count))  # type: ignore[arg-type]


def with_trailer(outfit: Outfit) -> Outfit:
    """The same outfit with a trailer and a truck that may pull it."""
    truck = replace(a_truck(), train_max_g=4_500_000)
    return replace(outfit, trucks=(truck,), trailers=(TRAILER,))


def off(facts: Ground, yard: int, colonies: int, before: int = 0, blocks: int = 0) -> Stop:
    """Take-off of some colonies of a yard with the boxes that are theirs."""
    here = facts.outfit.yards[yard]
    after = before + colonies
    return Stop(
        yard,
        off=colonies,
        boxes=taken(here.boxes, here.colonies, before, after),
        brood=taken(here.brood_boxes_off, here.colonies, before, after),
        blocks=blocks,
    )


def judge(facts: Ground, *trips: Trip, day: int = 0, hauler: int = 1) -> Judged | None:
    """Judge a day of two people on the usual truck (hauler 1) unless said otherwise."""
    return Judge(facts)(Day(day, hauler, trips))


def sure(judged: Judged | None) -> Judged:
    """A day that can be driven."""
    assert judged is not None
    return judged


def clock(*hours: float, day: int = 0) -> list[int]:
    """Minutes of the campaign from hours of a day."""
    return [day * 1_440 + round(60 * hour) for hour in hours]


def starts(judged: Judged) -> Sequence[int]:
    """When each call begins."""
    return [times.start_min for times in judged.run.times]
