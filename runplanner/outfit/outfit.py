"""The whole outfit: every fact a plan is made from."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from runplanner.outfit.areas import Area
from runplanner.outfit.bases import Base, HoneyHouse, Travel
from runplanner.outfit.later import LATER
from runplanner.outfit.once import once
from runplanner.outfit.people import Hours, Pace, Person
from runplanner.outfit.stores import BoxKind, Container, Counted, Feed, Kit, Strips
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.outfit.yards import Place, Yard
from runplanner.phrase import Phrase

BEYOND_DAYS: Final = 2
"""Colonies that no syrup comes to should last so long past the last day, so that whoever reads
of them on its evening can still plan again and drive (guessed)."""


@dataclass(frozen=True, slots=True)
class Deadline:
    """A last day for a job; ``hard`` means never later, else each colony-day costs."""

    day: int
    hard: bool


@dataclass(frozen=True, slots=True)
class Season:
    """The campaign's dates; ``first_date`` is ISO, day 0."""

    first_date: str
    n_days: int
    zone: str
    take_off_by: Deadline
    strips_by: Deadline
    feed_by: Deadline


@dataclass(frozen=True, slots=True)
class Rules:
    """Lags and habits that a user may set.

    Args:
        board_best_min: Boards on longer than this are priced.
        board_least_min: Boards must be on at least this long, and over a night.
        blocks: Fondant blocks given at take-off when syrup does not come the same day.
        same_day_second_trip: A block may be spared when syrup comes later the same day.
        smallest_lot: Fewest colonies worth a visit of their own when a yard is split; lots at one
            stop are one part, and what driven boards left over is worth a visit whatever it is.
        feed_late_from_min: Minute of the day from which a feed stop's start counts as late
            in the day, when robbing is least likely.
        wet_from_min: Minute of the day before which no wet boxes are put up (robbing).
        wet_least_days: Days, nights counted, that wet boxes stand at least.
        wet_best_days: Standing longer is priced, as boards that lie too long are.
    """

    board_best_min: int
    board_least_min: int
    blocks: int
    same_day_second_trip: bool
    smallest_lot: int
    feed_late_from_min: int = field(default=960, metadata=LATER)
    wet_from_min: int = field(default=960, metadata=LATER)
    wet_least_days: int = field(default=4, metadata=LATER)
    wet_best_days: int = field(default=5, metadata=LATER)


@dataclass(frozen=True, slots=True)
class Prices:
    """What things cost, in cents of ``currency``.

    Args:
        currency: Shown after every sum, such as "NZD".
        hour_cents: One person's hour.
        overtime_permille: Extra paid on an overtime hour (500 = half as much again).
        block_cents: One fondant block.
        syrup_l_cents: One litre of syrup.
        strip_cents: One strip.
        late_cents: One colony, each started day past a priced deadline.
        boards_long_cents: One colony, each started day of boards past the best time.
        spin_late_cents: One box, each started day past a priced spin-by; past a hard one as well,
            where its truck had left home.
        unsure_cents: One colony whose visit falls through because the weather turns after
            all; counted by the chance of that.
        feed_early_cents: One colony fed, in any round, at a stop begun before
            ``rules.feed_late_from_min``: what the danger of robbing is worth avoiding.
        worth_take_off_cents: What it is worth to take one colony off; work that costs more may
            be left, and is then charged its worth. 0: never left for its cost.
        worth_feed_cents: The same for one kilogram of winter stores fed.
        worth_strips_cents: The same for one colony's strips.
    """

    currency: str
    hour_cents: int
    overtime_permille: int
    block_cents: int
    syrup_l_cents: int
    strip_cents: int
    late_cents: int
    boards_long_cents: int
    spin_late_cents: int
    unsure_cents: int = field(default=0, metadata=LATER)
    feed_early_cents: int = field(default=0, metadata=LATER)
    worth_take_off_cents: int = field(default=0, metadata=LATER)
    worth_feed_cents: int = field(default=0, metadata=LATER)
    worth_strips_cents: int = field(default=0, metadata=LATER)


@dataclass(frozen=True, slots=True)
class Assumed:
    """A default that was used because nothing was typed, and where it comes from.

    ``field`` is the key, or says what is meant; ``value`` is what could have been typed, or in
    words what was taken.
    """

    field: Phrase
    value: Phrase
    source: Phrase


@dataclass(frozen=True, slots=True)
class InHand:
    """How far the facts were tightened to keep something in hand; see ``outfit/safety.py``.

    Args:
        box_g: Grams that a full box counts heavier than guessed, by yard.
        finish_days: Days by which take-off must end sooner, by yard.
        end_min: Minutes by which the working day ends sooner.
        take_off_days: Days by which that deadline is sooner; likewise the two others.
    """

    box_g: tuple[int, ...]
    finish_days: tuple[int, ...]
    end_min: int
    take_off_days: int
    strips_days: int
    feed_days: int


@dataclass(frozen=True, slots=True)
class Outfit:
    """Everything a plan is made from; built by the scenario gate, read by all floors.

    ``in_hand`` tells what the other facts keep in hand already; None for nothing.
    ``strips_also`` are the kinds of strips beside the usual one, ``strips``.
    ``counted`` tells how stocks were counted on the way, which makes the facts no others.
    ``areas`` are restricted: yards in them, as typed, are at a standstill already.
    """

    name: str
    title: str
    places: tuple[Place, ...]
    travel: Travel
    home: Base
    feed_store: Base
    honey_house: HoneyHouse
    yards: tuple[Yard, ...]
    trucks: tuple[Truck, ...]
    trailers: tuple[Trailer, ...]
    boxes: tuple[BoxKind, ...]
    containers: tuple[Container, ...]
    kit: Kit
    feed: Feed
    strips: Strips
    people: tuple[Person, ...]
    person_g: int
    pace: Pace
    hours: Hours
    season: Season
    rules: Rules
    prices: Prices
    assumed: tuple[Assumed, ...] = ()
    in_hand: InHand | None = field(default=None, metadata=LATER)
    strips_also: tuple[Strips, ...] = field(default=(), metadata=LATER)
    counted: tuple[Counted, ...] = field(default=(), metadata=LATER, compare=False)
    areas: tuple[Area, ...] = field(default=(), metadata=LATER)

    def strips_at(self, yard: Yard) -> Strips:
        """Return the kind of strips that goes into ``yard``; KeyError when there is none."""
        if not yard.strips:
            return self.strips
        for kind in self.strips_also:
            if kind.id == yard.strips:
                return kind
        raise KeyError(yard.strips)

    def strip_g(self, yard: Yard) -> int:
        """Return the mass of one of the strips that go into ``yard``."""
        own = self.strips_at(yard).each_g
        return self.kit.strip_g if own is None else own

    def strip_cents(self, yard: Yard) -> int:
        """Return the price of one of the strips that go into ``yard``."""
        own = self.strips_at(yard).each_cents
        return self.prices.strip_cents if own is None else own

    def blocks_for(self, colonies: int) -> int:
        """Return the most blocks that so many colonies take: what is had where none were typed.

        They may live on blocks from the first day to beyond the last, on one a day at most; three
        for each beside those of the take-off a driver may give on the shortest campaign.
        """
        days = self.season.n_days + BEYOND_DAYS
        eaten = -(-days * self.feed.day_use_g // self.kit.block_g)
        return colonies * (self.rules.blocks + max(3, min(days, eaten)))

    def open_end(self, what: str) -> bool:
        """Tell whether as many "blocks", or as much bought "syrup", can be had as it takes.

        So it is where no stock was typed, nor counted since; the figure of it says nothing then.
        """
        if what == "syrup" and not self.feed.bought:
            return False
        key = {"blocks": "kit.blocks", "syrup": "feed.ready"}[what]
        counted = any(one.what == what for one in self.counted)
        return not counted and any(one.field == key for one in self.assumed)

    @property
    def last_home_min(self) -> int:
        """The minute of the day by which a truck must be home; what slack is kept is before it."""
        return self.hours.end_min + (0 if self.in_hand is None else self.in_hand.end_min)

    def yard(self, yard_id: str) -> Yard:
        """Return the yard with ``yard_id``; KeyError when there is none."""
        return _by_id(self)[yard_id]

    def truck(self, truck_id: str) -> Truck:
        """Return the truck with ``truck_id``; KeyError when there is none."""
        for truck in self.trucks:
            if truck.id == truck_id:
                return truck
        raise KeyError(truck_id)

    def trailer(self, trailer_id: str) -> Trailer | None:
        """Return the trailer with ``trailer_id``; None where there is none, as for ""."""
        return next((one for one in self.trailers if one.id == trailer_id), None)

    def container(self, container_id: str) -> Container:
        """Return the kind of container with ``container_id``; KeyError when there is none."""
        for kind in self.containers:
            if kind.id == container_id:
                return kind
        raise KeyError(container_id)

    @property
    def boards_lain(self) -> int:
        """Clearer boards that lie at yards as the campaign begins; the store is short of them."""
        return sum(yard.boards_lain for yard in self.yards)

    def box(self, box_id: str) -> BoxKind:
        """Return the box kind with ``box_id``; KeyError when there is none."""
        for box in self.boxes:
            if box.id == box_id:
                return box
        raise KeyError(box_id)


@once
def _by_id(outfit: Outfit) -> Mapping[str, Yard]:
    """Return the yards by id; of several with one id, the first."""
    return {yard.id: yard for yard in reversed(outfit.yards)}
