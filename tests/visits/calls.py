"""Visits for tests of a yard's chain, written by day and hour."""

from dataclasses import replace

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Yard
from runplanner.visits.chain import Chain
from runplanner.visits.due import due
from runplanner.visits.stop import Stop, Visit
from tests.outfits import a_yard, an_outfit

DAYS = 12
YARD = replace(a_yard(1, days=DAYS), feeder_ml=5_000)
"""10 colonies and 15 boxes, brushed; two rounds of 4.5 L, 3,240 min (2.25 days) apart.

A block of 2,100 g at 500 g a day covers 6,048 min (4.2 days).
"""
BOARDED = replace(YARD, clearing=Clearing.BOARDS)
OUTFIT = an_outfit([(10, 0)], [YARD], days=DAYS)

OFF = Stop(0, off=10, boxes=15, blocks=10)
ROUND_1 = Stop(0, round=1, fed=10)
ROUND_2 = Stop(0, round=2, fed=10)
STRIPS = Stop(0, strips=True)
BOARDS = Stop(0, boards=10)


def at(day: int, hour: float, stop: Stop, minutes: int = 60, *, fact: bool = False) -> Visit:
    """A visit of truck 0 that begins at an hour of a day and takes an hour."""
    start = day * DAY_MIN + round(60 * hour)
    return Visit(start, start + minutes, start + minutes, stop, day, 0, fact)


def read(*visits: Visit, yard: Yard = YARD, outfit: Outfit = OUTFIT) -> Chain:
    """Read the chain of ``yard`` from visits in any order."""
    return Chain(outfit, yard, due(outfit, yard)).read(sorted(visits))


def boxes(colonies: int, before: int = 0) -> int:
    """Boxes that come off so many colonies: one and a half each, the half rounded up."""
    return -(-3 * (before + colonies) // 2) - -(-3 * before // 2)


def off(colonies: int, before: int = 0, blocks: int | None = None) -> Stop:
    """Take-off of some colonies of ``YARD``, a block for each unless said otherwise."""
    given = colonies if blocks is None else blocks
    return Stop(0, off=colonies, boxes=boxes(colonies, before), blocks=given)
