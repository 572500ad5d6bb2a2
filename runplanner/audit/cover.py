"""Cover: no colony starves between its take-off and its first syrup."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import NamedTuple

from runplanner.audit.book import Book, Stop
from runplanner.audit.findings import Breach, Breaches, when
from runplanner.audit.lots import stop_numbers
from runplanner.audit.need import need_of
from runplanner.audit.whole import ceil_div
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import counted, phrase


@dataclass(frozen=True, slots=True)
class Waiting:
    """Colonies off at one stop and not yet fed; ``grams`` last from ``from_min``.

    Their fondant, the last of which came at ``given_min``, is eaten at ``eaten_min``.
    """

    colonies: int
    stop: Stop
    from_min: int
    grams: int
    given_min: int = 0
    eaten_min: int = 0

    def end_min(self, outfit: Outfit) -> int:
        """Return the minute their cover ends, rounded down."""
        return self.from_min + lasts_min(outfit, self.grams)

    def with_fondant(self, outfit: Outfit, start_min: int, grams: int) -> "Waiting":
        """Return them with fondant put on at a minute: it is eaten after what is there."""
        eaten_min = max(self.eaten_min, start_min) + lasts_min(outfit, grams)
        return replace(self, given_min=start_min, eaten_min=eaten_min)


@dataclass(frozen=True, slots=True)
class Gap:
    """Colonies without cover from ``from_min`` until ``to_min``.

    ``stop`` is where they came off, ``late`` the stop that came too late, if any did.
    """

    colonies: int
    from_min: int
    to_min: int
    stop: Stop
    late: Stop | None

    def colony_days(self) -> int:
        """Return the colony-days, each started day counted."""
        return self.colonies * ceil_div(self.to_min - self.from_min, DAY_MIN)


class Turn(NamedTuple):
    """One visit of a yard, the colonies that wait once it is over, and what gaps it ended."""

    stop: Stop
    waiting: tuple[Waiting, ...]
    gaps: tuple[Gap, ...]


def lasts_min(outfit: Outfit, grams: int) -> int:
    """Return how many minutes one colony lives on so much stores and fondant, rounded down."""
    return grams * DAY_MIN // outfit.feed.day_use_g


def covers(book: Book) -> Breaches:
    """Syrup, or a further block, comes before a colony's cover ends.

    Strict reading: a colony that is never fed must be covered to the campaign's end; only
    take-offs on trips already driven are spared that, for they cannot be undone (their gap
    is in the tally all the same).
    """
    for yard_id in book.yards:
        for gap in gaps(book, yard_id):
            if not gap.stop.trip.driven:
                said = counted(
                    "{number} colony without cover from {start}",
                    "{number} colonies without cover from {start}",
                    gap.colonies,
                    start=when(gap.from_min),
                )
                trip = (gap.late or gap.stop).trip.id
                yield Breach(said, phrase("syrup or a further block before that"), trip, yard_id)


def gaps(book: Book, yard_id: str) -> Iterator[Gap]:
    """Go through all stretches without cover in one yard; none where no feed is needed."""
    if not need_of(book.outfit, book.yards[yard_id]).rounds:
        return
    waiting: tuple[Waiting, ...] = ()
    for turn in turns(book, yard_id):
        yield from turn.gaps
        waiting = turn.waiting
    end = book.outfit.season.n_days * DAY_MIN
    for lot in waiting:
        if lot.end_min(book.outfit) < end:
            yield Gap(lot.colonies, lot.end_min(book.outfit), end, lot.stop, None)


def turns(book: Book, yard_id: str) -> Iterator[Turn]:
    """Go through the visits of one yard, each with the colonies that wait for syrup after it."""
    waiting: list[Waiting] = []
    off, fed, colonies = 0, 0, book.yards[yard_id].colonies
    standing: list[Stop] = []
    for turn, (stop, first) in enumerate(
        zip(book.visits[yard_id], stop_numbers(book, yard_id), strict=True)
    ):
        standing, found = [*(standing if first < turn else ()), stop], list[Gap]()
        if stop.did(Job.TAKE_OFF):
            here = _off_at(stop, colonies - off)
            waiting += _taken_off(book, stop, here - max(0, min(here, fed - off)))
            off += here
        else:
            found += _extend(book.outfit, waiting, stop)
        found += _feed(book.outfit, waiting, standing)
        fed += _first_fed(stop)
        yield Turn(stop, tuple(waiting), tuple(found))


def _off_at(stop: Stop, left: int) -> int:
    """Colonies off at a stop; of one already driven no more than are ``left`` alive."""
    off = sum(action.colonies for action in stop.did(Job.TAKE_OFF))
    return max(0, min(off, left)) if stop.trip.driven else off


def _first_fed(stop: Stop) -> int:
    return sum(action.colonies for action in stop.did(Job.FEED) if action.round == 1)


def _taken_off(book: Book, stop: Stop, off: int) -> list[Waiting]:
    """This stop's colonies that wait; blocks are with the last, who wait longest for syrup.

    Whoever was fed before, as a bare yard at a standstill may be, comes off fed.
    """
    blocked = min(off, sum(action.colonies for action in stop.did(Job.BLOCK)))
    stores = book.yards[stop.call.yard].stores_g or 0
    least, most = (blocks * book.outfit.kit.block_g for blocks in _blocks_each(book.outfit, stop))
    start = stop.call.start_min
    both = (
        Waiting(off - blocked, stop, start, stores),
        Waiting(blocked, stop, start, stores + least).with_fondant(book.outfit, start, most),
    )
    return [lot for lot in both if lot.colonies]


def _blocks_each(outfit: Outfit, stop: Stop) -> tuple[int, int]:
    """Return the blocks of a colony just off that got any: of one with least, and with most."""
    off = sum(action.colonies for action in stop.did(Job.TAKE_OFF))
    given = sum(action.pieces for action in stop.did(Job.BLOCK))
    least = max(1, outfit.rules.blocks, given // max(1, off))
    return least, max(least, ceil_div(given, max(1, off)))


def _extend(outfit: Outfit, waiting: list[Waiting], stop: Stop) -> Iterator[Gap]:
    """Give further blocks to those whose cover ends first (of equals, the first off)."""
    wanted = sum(action.colonies for action in stop.did(Job.BLOCK))
    given = sum(action.pieces for action in stop.did(Job.BLOCK))
    start, fondant = stop.call.start_min, given // max(1, wanted) * outfit.kit.block_g
    for lot in sorted(waiting, key=lambda each: each.end_min(outfit)):
        taken = min(wanted, lot.colonies)
        if not taken:
            continue
        wanted -= taken
        end = lot.end_min(outfit)
        if start < end:
            fuller = replace(lot, colonies=taken, grams=lot.grams + fondant)
        else:
            fuller = replace(lot, colonies=taken, from_min=start, grams=fondant)
            yield Gap(taken, end, start, lot.stop, stop)
        fuller = fuller.with_fondant(outfit, start, fondant)
        spot = next(number for number, each in enumerate(waiting) if each is lot)
        rest = replace(lot, colonies=lot.colonies - taken)
        waiting[spot : spot + 1] = [fuller, rest] if rest.colonies else [fuller]


def _feed(outfit: Outfit, waiting: list[Waiting], here: list[Stop]) -> Iterator[Gap]:
    """Take the colonies that get their first syrup here off the list, first off first.

    ``here`` are this visit, which is the last of them, and those it goes on from without a drive.
    """
    stop = here[-1]
    wanted = _first_fed(stop)
    while wanted > 0 and waiting:
        lot = waiting.pop(0)
        taken = min(wanted, lot.colonies)
        wanted -= taken
        if taken < lot.colonies:
            waiting.insert(0, replace(lot, colonies=lot.colonies - taken))
        end, start = lot.end_min(outfit), stop.call.start_min
        if start >= end and not _soon(outfit, lot, here):
            yield Gap(taken, end, start, lot.stop, stop)


def _soon(outfit: Outfit, lot: Waiting, here: list[Stop]) -> bool:
    """Tell whether the syrup comes in the same stop, or allowedly on the same day."""
    same_day = lot.stop.shift.day == here[-1].shift.day
    same_stop = any(lot.stop is one for one in here)
    return same_stop or (outfit.rules.same_day_second_trip and same_day)
