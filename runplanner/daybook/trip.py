"""Trips and shifts as they are planned: who drives what where, and when."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from runplanner.days import Span
from runplanner.outfit.later import LATER
from runplanner.outfit.yards import Clearing


class Job(StrEnum):
    """A piece of work done at a yard."""

    BOARDS = "boards"
    TAKE_OFF = "take-off"
    BLOCK = "block"
    FEED = "feed"
    STRIPS = "strips"
    WET_UP = "wet boxes up"
    WET_DOWN = "wet boxes down"
    FEEDERS = "feeders off"


@dataclass(frozen=True, slots=True)
class Action:
    """One job at one stop.

    Args:
        job: What is done.
        colonies: Colonies it is done to; the first ones not yet done (first off, first fed).
        round: Feed round, 1 first; 0 for other jobs.
        boxes: Honey boxes taken off.
        brood_boxes: Brood boxes taken away.
        ml: Syrup poured, all colonies together.
        pieces: Boards put on, blocks or strips placed, all colonies together.
        boards_off: Boards that come back aboard (take-off under boards).
        feeders: Feeders left in the yard.
        wet: Emptied boxes, still wet with honey, put above the cover boards or collected.
        feeders_off: Emptied feeders that come back aboard.
        way: How bees leave the boxes at this take-off, where that is not the yard's usual way.
    """

    job: Job
    colonies: int
    round: int = 0
    boxes: int = 0
    brood_boxes: int = 0
    ml: int = 0
    pieces: int = 0
    boards_off: int = 0
    feeders: int = 0
    wet: int = field(default=0, metadata=LATER)
    feeders_off: int = field(default=0, metadata=LATER)
    way: Clearing | None = field(default=None, metadata=LATER)


def boards_lying(lain: int, done: Sequence[Action]) -> int:
    """Return the boards that lie in a yard after what was done there, ``lain`` of them before."""
    laid = sum(one.pieces for one in done if one.job is Job.BOARDS)
    return lain + laid - sum(one.boards_off for one in done)


@dataclass(frozen=True, slots=True)
class Aboard:
    """What is on the truck and trailer as they leave a call.

    ``load_g`` is everything in the load: goods and containers, not people, fuel or kit.
    ``places`` of ``places_max`` deck places are taken.  ``wet`` are emptied boxes.
    """

    boxes: int
    brood_boxes: int
    ml: int
    blocks: int
    boards: int
    strips: int
    feeders: int
    load_g: int
    load_max_g: int
    places: int
    places_max: int
    wet: int = field(default=0, metadata=LATER)


class CallKind(StrEnum):
    """What a truck calls for."""

    LOAD = "load"
    YARD = "yard"
    UNLOAD = "unload"


class Against(StrEnum):
    """What has come to stand against a stop after its truck left, as its user has been told."""

    HEALTH = "health"
    HOUSE = "honey house"
    HOURS = "hours"
    ORDER = "order"
    BEHIND = "behind"
    WASH = "wash"
    LOAD = "load"
    STORE = "store"
    NOTHING = "nothing to do"


@dataclass(frozen=True, slots=True)
class Call:
    """A truck standing somewhere: loading, at a yard, or unloading.

    ``arrive_min <= start_min <= end_min``; it leaves at ``end_min`` or, where a break
    follows, when the break is over, ``leave_min``.  ``latest_leave_min`` is the last
    minute at which leaving still lets the rest of the day hold.  ``boxes_limit`` is how
    many honey boxes, of all yards so far, may be aboard on leaving before some leg is over a
    limit, as long as every stop gets what it was to get; ``limit_was`` is that number as planned,
    where counts have made it another one.

    Once a driven stop has been counted, or counts elsewhere show that not all of it can have
    been done, ``planned`` keeps the actions it was to do.  ``counted`` are those it did by its
    own count; None where there is none, or where it was over and all was as planned.

    ``against`` is what stands against a call still to come of a truck that has left, where that
    came to be known since and its user has been told; of one at work only its load.

    ``turned_min`` is when a truck that had left here was called back on the road; ``leave_min`` is
    then when it could be back here.
    """

    kind: CallKind
    place: int
    yard: str
    arrive_min: int
    start_min: int
    end_min: int
    leave_min: int
    latest_leave_min: int
    boxes_limit: int
    actions: tuple[Action, ...]
    after: Aboard
    planned: tuple[Action, ...] = field(default=(), metadata=LATER)
    counted: tuple[Action, ...] | None = field(default=None, metadata=LATER)
    against: tuple[Against, ...] = field(default=(), metadata=LATER)
    turned_min: int = field(default=0, metadata=LATER)
    limit_was: int | None = field(default=None, metadata=LATER)

    def boxes(self) -> int:
        """Return the honey boxes that come aboard here."""
        return sum(action.boxes for action in self.actions)

    def takes_boxes(self) -> bool:
        """Tell whether honey boxes come aboard here."""
        return self.boxes() > 0

    def handles_boxes(self) -> bool:
        """Tell whether boxes of any sort, full or emptied, come aboard or go out here."""
        return any(one.boxes or one.brood_boxes or one.wet for one in self.actions)

    def planned_limit(self) -> int:
        """Return the boxes limit as planned, whatever counts have made of it."""
        return self.boxes_limit if self.limit_was is None else self.limit_was

    def over(self, now_min: int) -> bool:
        """Tell whether a call is over, also where its truck left and was called back since."""
        return self.turned_min > 0 or self.end_min <= now_min

    def still_on(self, now_min: int) -> bool:
        """Tell whether a call is to come, or at work and not counted: its limits are gone by."""
        at_work = not self.over(now_min)
        return now_min < self.start_min or (at_work and self.counted is None)

    def goes_on(self, before: "Call") -> bool:
        """Tell whether this call and the one ``before`` it are one stop: no drive between."""
        here = (CallKind.YARD, self.yard, self.place, self.arrive_min)
        return self.kind is CallKind.YARD and here == (
            before.kind, before.yard, before.place, before.leave_min,
        )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Carried:
    """A number of one kind of container on one trip."""

    container: str
    count: int


@dataclass(frozen=True, slots=True)
class Stowed:
    """How a trip's load goes on truck and trailer, as its driver is told.

    Args:
        behind: The containers that ride on the trailer.
        trailer_loads: The trailer is filled before the truck as the trip is loaded.
        trailer_stops: The same at its stops, where what is used up comes off it first as well.
    """

    behind: tuple[Carried, ...]
    trailer_loads: bool
    trailer_stops: bool


@dataclass(frozen=True, slots=True)
class Spare:
    """Strips of one substance aboard for no stop any more."""

    substance: str
    pieces: int


@dataclass(frozen=True, slots=True)
class Brought:
    """Goods that a count found brought over to the store from a truck that was at home.

    ``what`` is the stock, as in ``Counted``; ``number`` are pieces, or ml of syrup.
    """

    minute: int
    what: str
    number: int


@dataclass(frozen=True, slots=True)
class Trip:
    """One out-and-back: a load call at the feed store, yards, unloading calls.

    ``left`` is what it left with, where that is known to be more than its calls as they now stand
    come to; else None.  ``left_strips`` are those aboard for stops left out since.  ``brought`` is
    what of its load came to the store by other ways after its end.  ``stowed`` is how truck and
    trailer share its load, where one is pulled.
    """

    id: str
    calls: tuple[Call, ...]
    containers: tuple[Carried, ...]
    driven: bool = False
    left: Aboard | None = field(default=None, metadata=LATER)
    left_strips: tuple[Spare, ...] = field(default=(), metadata=LATER)
    brought: tuple[Brought, ...] = field(default=(), metadata=LATER)
    stowed: Stowed | None = field(default=None, metadata=LATER)

    @property
    def left_g(self) -> int:
        """The load in grams with which it left, where that is known; else 0."""
        return self.left.load_g if self.left else 0

    def yards(self) -> tuple[Call, ...]:
        """Return the calls at yards, in order."""
        return tuple(call for call in self.calls if call.kind is CallKind.YARD)

    def boxes(self) -> int:
        """Return the honey boxes that the trip brings to the honey house."""
        return sum(call.boxes() for call in self.calls)

    def unused_g(self) -> int:
        """Return the grams aboard that no call uses, until the trip is over."""
        return max(0, self.left_g - self.calls[0].after.load_g)

    def takes_too_many(self, call: Call, now_min: int) -> bool:
        """Tell whether not all boxes of a call to come, or at work, can come aboard.

        Those before it are left with what came aboard, or where they are still on at ``now_min``
        with no more boxes than they may be.
        """
        here = 0
        for one in (each for each in self.calls if each.takes_boxes()):
            all_off = here + one.boxes()
            here = min(all_off, one.boxes_limit) if one.still_on(now_min) else all_off
            if one == call:
                return here < all_off
        return False


@dataclass(frozen=True, slots=True)
class Shift:
    """One truck's day with one crew: home, trips, home.

    ``crew[0]`` drives.  ``breaks`` lie inside ``start_min .. end_min``.
    """

    day: int
    truck: str
    trailer: str
    crew: tuple[str, ...]
    start_min: int
    end_min: int
    driving_min: int
    metres: int
    breaks: tuple[Span, ...]
    trips: tuple[Trip, ...]
