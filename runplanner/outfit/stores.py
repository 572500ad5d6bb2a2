"""What rides on the deck and goes into the hives: boxes, containers, kit, feed, strips."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from runplanner.outfit.later import LATER
from runplanner.phrase import Phrase


@dataclass(frozen=True, slots=True)
class BoxKind:
    """A hive box by its outside measures."""

    id: str
    name: str
    length_mm: int
    width_mm: int
    height_mm: int
    empty_g: int


@dataclass(frozen=True, slots=True)
class Container:
    """A tank, drum or can for syrup; ``owned`` of them exist."""

    id: str
    name: str
    holds_ml: int
    empty_g: int
    length_mm: int
    width_mm: int
    owned: int


@dataclass(frozen=True, slots=True)
class Kit:
    """Small goods that ride along.

    ``*_per_place`` says how many fit in one deck place (a box-sized column).
    ``boards_owned`` and ``feeders_owned`` circulate; ``feeders_owned`` None means that
    every colony has its own feeder standing in the yard, so none are carried.
    ``boards_lost`` and ``feeders_lost`` are ``(minute, count)`` of those lost on the way, which
    were there until then: what was driven before had them.
    """

    board_g: int
    boards_owned: int
    boards_per_place: int
    block_g: int
    blocks_per_place: int
    blocks_owned: int
    feeder_g: int
    feeders_owned: int | None
    feeders_per_place: int
    strip_g: int
    boards_lost: tuple[tuple[int, int], ...] = field(default=(), metadata=LATER)
    feeders_lost: tuple[tuple[int, int], ...] = field(default=(), metadata=LATER)

    @property
    def boards_now(self) -> int:
        """Boards that are still there, wherever they lie."""
        return self.boards_owned - sum(count for _, count in self.boards_lost)

    @property
    def feeders_now(self) -> int | None:
        """Feeders that are still there, wherever they stand; None where none circulate."""
        if self.feeders_owned is None:
            return None
        return self.feeders_owned - sum(count for _, count in self.feeders_lost)


def shortage(owned: int, moves: Iterable[tuple[int, int]], lost: Iterable[tuple[int, int]]) -> int:
    """Return how many of a good that circulates a load lacks at the store, at the worst.

    ``moves`` are ``(minute, change)`` of the store; of one minute what comes in counts first.
    What is lost leaves it as well, but a loss takes nothing that was not there: those lost may
    lie in a yard, and come home fewer.
    """
    store, most = owned, 0
    gone = [(minute, 2, -count) for minute, count in lost]
    every = [*gone, *((minute, int(change < 0), change) for minute, change in moves)]
    for _, turn, change in sorted(every):
        store += change
        if turn == 1 and store < -most:
            most = -store
    return most


@dataclass(frozen=True, slots=True)
class Feed:
    """Syrup as it is mixed and poured.

    Args:
        name: Recipe in words, typed in part.
        sugar_permille: Sugar by mass, per mille.
        density_g_per_l: Mass of one litre at 20 C.
        stores_g_per_kg_sugar: Winter stores the bees make of one kg of sugar.
        uptake_ml_per_day: What one colony takes down in a day.
        mix_ml_per_day: Most syrup that can be mixed in a day.
        mix_ml_per_h: Syrup one person mixes in an hour.
        ready_ml: Syrup mixed before day 0.
        sugar_g: Sugar in stock or on order; None means buy what it takes.
        bought: Ready-made syrup: no sugar is mixed, ``ready_ml`` is what is delivered.
        day_use_g: Stores one condensed colony eats in a day.
        cover_warn_min: Age of a stop-gap from which the plan warns; None: by what is left of it.
        round_to_ml: Feeds are rounded up to this.
        tank_ml: What the mixing tank holds; None where nobody said, or none is needed.
    """

    name: Phrase
    sugar_permille: int
    density_g_per_l: int
    stores_g_per_kg_sugar: int
    uptake_ml_per_day: int
    mix_ml_per_day: int
    mix_ml_per_h: int
    ready_ml: int
    sugar_g: int | None
    bought: bool
    day_use_g: int
    cover_warn_min: int | None
    round_to_ml: int
    tank_ml: int | None = field(default=None, metadata=LATER)


@dataclass(frozen=True, slots=True)
class Strips:
    """A varroa treatment by its active substance.

    Args:
        substance: Active substance.
        per_colony: Strips for one colony.
        stock: Strips in stock or on order; None means buy what it takes.
        out_after_days: Soonest day after going in that they fall due out.
        out_before_days: Latest day after going in.
        no_feed_days: Days after going in without syrup or fondant in the yard.
        id: What a yard calls this kind by; empty for the usual one.
        each_g: Mass of one; None: as the kit says.
        each_cents: Price of one; None: as the prices say.
        coldest_dc: Coldest air it may be in, as typed, in tenths of a degree; None: as published.
        hottest_dc: Hottest, likewise.
        twice: A second application follows when the first comes out, as typed; None: as published.
            Only the first is work of a plan.

    Kinds of one substance are one product, whatever their dose: they draw on one stock, and
    all of them tell it.
    """

    substance: str
    per_colony: int
    stock: int | None
    out_after_days: int
    out_before_days: int
    no_feed_days: int
    id: str = field(default="", metadata=LATER)
    each_g: int | None = field(default=None, metadata=LATER)
    each_cents: int | None = field(default=None, metadata=LATER)
    coldest_dc: int | None = field(default=None, metadata=LATER)
    hottest_dc: int | None = field(default=None, metadata=LATER)
    twice: bool | None = field(default=None, metadata=LATER)


@dataclass(frozen=True, slots=True)
class Counted:
    """A stock as it was last counted: of what, at which minute, and how much was ``gone`` by then.

    ``gone`` is what trips and mixing had taken out of it, as far as was known.  Where other
    figures come to be known of that time, the stock is moved by as much: what was counted holds.
    Of a yard's full boxes ("boxes" and its id) ``left`` tells how many stood there, ``gone`` none.
    """

    what: str
    minute: int
    gone: int
    left: int | None = field(default=None, metadata=LATER)
