"""Yards: where colonies stand and what is known of them."""

from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import NamedTuple

from runplanner.days import DAY_MIN, NEVER, Span, join, meet, whole_day
from runplanner.outfit.later import LATER
from runplanner.outfit.shut import Shut


class Clearing(StrEnum):
    """How bees are got out of the honey boxes."""

    BOARDS = "boards"
    BRUSH = "brush"
    BLOWER = "blower"
    WARM_BOARD = "warm board"


BY_HAND = (Clearing.BRUSH, Clearing.BLOWER)
"""Ways of one visit that ask for nothing to be put on before, nor for warmth."""
BEES_STAY = (Clearing.BOARDS, Clearing.WARM_BOARD)
"""Ways after which bees remain in some boxes, to be brushed out."""


class Health(StrEnum):
    """What a yard's state of health allows."""

    SOUND = "sound"
    WATCH = "watch"
    SUSPECT = "suspect"
    STANDSTILL = "standstill"


CLOSED = frozenset({Health.SUSPECT, Health.STANDSTILL})
"""States of health in which nothing may leave a yard, nor its honey be spun."""


@dataclass(frozen=True, slots=True)
class Place:
    """A point on the map that the travel table knows."""

    id: str
    name: str
    lat: float
    lon: float


@dataclass(frozen=True, slots=True)
class Access:
    """What a driver must know to get in; stays off the map.

    Args:
        opens_min: Minute of the day from which the gate is open.
        closes_min: Minute of the day at which it shuts.
        max_vehicle_g: Heaviest laden truck (with trailer) let in, or None.
        max_width_mm: Widest vehicle let in, or None.
        four_wheel: Only a four-wheel-drive truck gets in.
        trailer: A trailer can be brought in and turned.
        notes: Gate, key, dog, turn-round: free text for the manifest.
        phone: Whom to ring; free text.
    """

    opens_min: int = 0
    closes_min: int = 1440
    max_vehicle_g: int | None = None
    max_width_mm: int | None = None
    four_wheel: bool = False
    trailer: bool = True
    notes: str = ""
    phone: str = ""

    def open_on(self, day: int) -> Span:
        """Return the hours of a day in which a truck may be inside: it is gone when they end."""
        return Span(day * DAY_MIN + self.opens_min, day * DAY_MIN + self.closes_min)


class Borne(NamedTuple):
    """Full boxes of a yard as all its colonies bore them, those that have died since as well.

    Args:
        minute: When the first of these deaths were told.
        struck: How many colonies have died.
        boxes: The boxes, those that were off by then as well.
    """

    minute: int
    struck: int
    boxes: int


@dataclass(frozen=True, slots=True)
class Yard:
    """One yard and its colonies.

    Args:
        id: Stable key, unique, safe in file names.
        name: What the user calls it.
        sites: ``(from_day, place_index)`` in order; the first from day 0. More than one
            when the hives are moved.
        district: Weather district, may be empty.
        colonies: Colonies that are to go to winter.
        boxes: Full honey boxes in the whole yard.
        box: Id of the box kind (see stores).
        box_g: Gross mass of one full box.
        box_spread_permille: Spread of that guess (one standard deviation).
        brood_boxes_off: Brood boxes taken away when condensing, whole yard.
        clearing: How bees leave the boxes.
        clearing_else: Another way, brush or blower, that a take-off may use instead; None
            where there is none.
        high_only: Days on which hives are opened by the day's high alone, so that work may
            begin while it is too cool; of other days the hours are known.
        boards_on_min: Boards already lie in the whole yard since this minute, before the
            campaign; None where they do not.
        boards_dead: Boards of those that lie where colonies have died since.
        stores_g: Usable stores per colony after take-off; None when unknown (counts as 0).
        target_g: Stores each colony should winter on.
        feeder_ml: What one feeder holds.
        ready_from_day: First day take-off may start.
        finish_by_day: Last day take-off may happen.
        spin_by_min: Minutes a full box may wait off the hive before spinning starts.
        spin_by_hard: True where late spinning spoils the honey (beetle, quick-setting).
        health: See :class:`Health`.
        feed_agreed: The inspector agreed to feeding at a suspect or standstill yard.
        open_spans: Hours fit for opening hives (weather alone).
        feed_spans: Hours fit for pouring syrup (weather alone).
        unsettled_spans: Hours in which bees hanging outside must not be caught.
        strips_shut_days: Days too cold or too hot for the strips that go in here.
        sun_spans: ``Span(sunrise, sunset)`` of each day 0..n_days (one more than planned).
        shut: Why hours are shut, in daylight or, for settling, all night; for people to read.
            What may be done when is in the spans alone.
        sure_permille: How sure the weather of each day is; empty where no forecast was read,
            then all days count as sure.
        forecast_spans: What its forecasts speak of, from the first day on; of other hours they
            are silent.  Empty where none was read, and in plans of before this was told.
        wet_back: Its boxes, once spun, stand above the cover boards for some days to be
            licked dry, and are collected before strips and syrup; else they are stored wet.
        strips: Id of the kind of strips that goes in; empty for the usual one.
        carried_by: ``(from_day, truck id)`` of moves to later sites whose truck is known.
        honey_off: Of a closed yard whose feeding is agreed: visits that are over have taken all
            its honey off, and no wet boxes stand on it.
        struck: Colonies struck off since all others were taken off, or were to be by trips that
            had left; ``boxes`` counts theirs, which no visit fetches.
        borne: Of a yard whose living colonies stand for the boxes of the dead as well, what
            their share was worked out from; None for others.
        boxes_told: The boxes as told, where ``boxes`` is what counts of stops led to expect; None
            where it is not.
        licence: What lets a yard at a standstill be worked as a watched one; empty for others.
        held_min: Of a yard that closed while the campaign ran, the minute at which it did:
            none of its honey is spun from then on, whatever had been planned.
        was_held: From when until when its honey was held before it was opened again, in order.
        treated_min: When the truck left that had put strips in with honey on: boxes of trucks
            that left later are not spun; None where no honey was on.
        treated_told_min: The minute at which that was told.
        freed_min: The minute from which these boxes may be spun after all; None where nobody has
            said so.
    """

    id: str
    name: str
    sites: tuple[tuple[int, int], ...]
    district: str
    colonies: int
    boxes: int
    box: str
    box_g: int
    box_spread_permille: int
    brood_boxes_off: int
    clearing: Clearing
    stores_g: int | None
    target_g: int
    feeder_ml: int
    ready_from_day: int
    finish_by_day: int
    spin_by_min: int
    spin_by_hard: bool
    health: Health
    feed_agreed: bool
    access: Access
    open_spans: tuple[Span, ...]
    feed_spans: tuple[Span, ...]
    unsettled_spans: tuple[Span, ...]
    strips_shut_days: tuple[int, ...]
    sun_spans: tuple[Span, ...]
    shut: tuple[Shut, ...] = field(default=(), metadata=LATER)
    sure_permille: tuple[int, ...] = field(default=(), metadata=LATER)
    forecast_spans: tuple[Span, ...] = field(default=(), metadata=LATER)
    wet_back: bool = field(default=False, metadata=LATER)
    strips: str = field(default="", metadata=LATER)
    clearing_else: Clearing | None = field(default=None, metadata=LATER)
    boards_on_min: int | None = field(default=None, metadata=LATER)
    high_only: tuple[int, ...] = field(default=(), metadata=LATER)
    carried_by: tuple[tuple[int, str], ...] = field(default=(), metadata=LATER)
    honey_off: bool = field(default=False, metadata=LATER)
    struck: int = field(default=0, metadata=LATER)
    borne: Borne | None = field(default=None, metadata=LATER)
    boards_dead: int = field(default=0, metadata=LATER)
    boxes_told: int | None = field(default=None, metadata=LATER)
    licence: str = field(default="", metadata=LATER)
    held_min: int | None = field(default=None, metadata=LATER)
    was_held: tuple[Span, ...] = field(default=(), metadata=LATER)
    treated_min: int | None = field(default=None, metadata=LATER)
    treated_told_min: int = field(default=0, metadata=LATER)
    freed_min: int | None = field(default=None, metadata=LATER)

    def held_spans(self, now_min: int, off_min: int) -> tuple[Span, ...]:
        """Return when boxes may not be spun whose truck left the yard at ``off_min``, in order.

        So much is known at ``now_min``: a yard that is closed stays so (where nothing tells since
        when, it is from now on), and boxes that strips were beside are held until they are freed.
        """
        held = self.was_held
        if self.health in CLOSED:
            held = (*held, Span(now_min if self.held_min is None else self.held_min, NEVER))
        if self.treated_min is not None and self.treated_min < off_min:
            freed_min = NEVER if self.freed_min is None else self.freed_min
            held = (*held, Span(self.treated_told_min, freed_min))
        return join(held)

    @property
    def held_for_strips(self) -> bool:
        """Tell whether boxes that strips were beside are held still."""
        return self.treated_min is not None and self.freed_min is None

    @property
    def boards_lain(self) -> int:
        """Clearer boards that lie there as the campaign begins: on each colony, or on none."""
        return 0 if self.boards_on_min is None else self.colonies + self.boards_dead

    @property
    def left_alone(self) -> bool:
        """Whether its health keeps all work from it, so that no plan is blamed for what it lacks.

        Where there is no honey on and the inspector agreed, it is fed and treated as others are.
        """
        bare = self.boxes == 0 or self.honey_off
        return self.health in CLOSED and not (self.feed_agreed and bare)

    def doubt_permille(self, day: int) -> int:
        """Return how unsure the weather of ``day`` is; days beyond what is told are sure."""
        return 1000 - self.sure_permille[day] if 0 <= day < len(self.sure_permille) else 0

    def foretold(self, day: int) -> bool:
        """Tell whether a forecast speaks of ``day``."""
        return bool(meet((whole_day(day),), self.forecast_spans))

    def moved_by(self, from_day: int, place: int, truck: str) -> "Yard":
        """Return the yard standing at a place from a day on; ``truck`` is empty where not known."""
        known = ((from_day, truck),) if truck else ()
        return replace(
            self, sites=(*self.sites, (from_day, place)), carried_by=(*self.carried_by, *known)
        )

    def moves_after(self, day: int) -> tuple[int, ...]:
        """Return the days, later than ``day``, from which the hives are to stand elsewhere."""
        return tuple(from_day for from_day, _ in self.sites[1:] if from_day > day)

    def staying_after(self, day: int) -> "Yard":
        """Return the yard with its hives left where they stand on ``day``."""
        gone = self.moves_after(day)
        return replace(
            self,
            sites=tuple(one for one in self.sites if one[0] not in gone),
            carried_by=tuple(one for one in self.carried_by if one[0] not in gone),
        )

    def place_on(self, day: int) -> int:
        """Return the index of the place where the hives stand on ``day``."""
        here = self.sites[0][1]
        for from_day, place in self.sites:
            if from_day <= day:
                here = place
        return here
