"""Home, feed store and honey house, and the roads between all places."""

from dataclasses import dataclass, field
from typing import Final

from runplanner.days import Span
from runplanner.outfit.later import LATER
from runplanner.phrase import Phrase


@dataclass(frozen=True, slots=True)
class Base:
    """A place the trucks call at; ``place`` indexes the travel table."""

    place: int
    opens_min: int
    closes_min: int


USUAL_WATER_PERMILLE: Final = 170
"""Water in ripe honey where nobody measured it; common practice."""


@dataclass(frozen=True, slots=True)
class HoneyHouse:
    """Where boxes are spun.

    Args:
        base: Where it is and when it takes deliveries.
        boxes_per_h: Boxes spun in an hour by 0, 1, 2, ... people; the first entry is 0.
        room_boxes: Most full boxes it can hold.
        waiting_boxes: Full boxes standing in it at the start of day 0.
        spin_from_min: Minute of the day spinning may start.
        spin_to_min: Minute of the day it must stop.
        stopped: Stretches of the campaign in which nothing is spun (breakdown, no power).
        full: Stretches of the campaign in which it takes no deliveries.
        water_permille: Water in the honey; what a litre of it weighs hangs on that.
    """

    base: Base
    boxes_per_h: tuple[int, ...]
    room_boxes: int
    waiting_boxes: int
    spin_from_min: int
    spin_to_min: int
    stopped: tuple[Span, ...] = field(default=(), metadata=LATER)
    full: tuple[Span, ...] = field(default=(), metadata=LATER)
    water_permille: int = field(default=USUAL_WATER_PERMILLE, metadata=LATER)


@dataclass(frozen=True, slots=True)
class Travel:
    """Minutes and metres from place to place, as rows of whole numbers.

    ``minutes[i][j]`` is the drive from place ``i`` to place ``j``; the two need not be
    the same back.  ``None`` means no road.  ``source`` says where the figures come from.
    ``by_hour`` are 24 factors in per mille, one for each hour of the day, by which drives
    take longer in that hour; none where all hours are alike.  Drives to and from the places
    ``guessed``, which came in later, are not from ``source`` but as long as others are for their
    straight line.
    """

    minutes: tuple[tuple[int | None, ...], ...]
    metres: tuple[tuple[int | None, ...], ...]
    source: Phrase
    by_hour: tuple[int, ...] = field(default=(), metadata=LATER)
    guessed: tuple[int, ...] = field(default=(), metadata=LATER)
