"""Colonies of a yard as lots: so many, at this stop; first off, first fed."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple, Protocol, TypeVar

from runplanner.audit.book import Book, Stop
from runplanner.audit.findings import Breach
from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN
from runplanner.phrase import Phrase


class Served(Protocol):
    """Whatever served so many colonies."""

    @property
    def colonies(self) -> int:
        """Return how many."""


Done = TypeVar("Done", bound=Served)


class Lot(NamedTuple):
    """``colonies`` that were served by one entry of one stop; ``turn`` is the visit's number."""

    colonies: int
    turn: int
    stop: Stop
    action: Action


class Lain(NamedTuple):
    """Boards under ``colonies`` since ``end_min``; ``planned`` by a trip yet to be driven."""

    colonies: int
    day: int
    end_min: int
    planned: Lot | None


def breach_at(lot: Lot, said: Phrase, allowed: Phrase) -> Breach:
    """Return a breach at the stop of ``lot``, of what hangs on other visits as well.

    Counts of those may have broken it since the truck left.  What the stop itself makes wrong is
    ``lot.stop.breach``, and is told by what its entry says, not by colonies that live.
    """
    return Breach(said, allowed, lot.stop.trip.id, lot.stop.call.yard)


def breach_between(lot: Lot, other: Lot, said: Phrase, allowed: Phrase) -> Breach:
    """Return a breach at the stop of ``lot``, against what the stop of ``other`` did before it.

    Where only the truck of ``lot`` has left, it is at ``other``: what is planned before a stop that
    is on its way has to heed that.
    """
    planned_before = lot.stop.trip.driven and not other.stop.trip.driven
    return breach_at(other if planned_before else lot, said, allowed)


def lots(book: Book, yard_id: str, job: Job, feed_round: int | None = None) -> list[Lot]:
    """Return the yard's lots for ``job`` in order, of one feed round or of all.

    Work driven on colonies that are no more does not count.
    """
    most, done, found = book.yards[yard_id].colonies, Counter[int](), []
    for turn, stop in enumerate(book.visits[yard_id]):
        for action in stop.did(job):
            count = action.colonies
            if stop.trip.driven:
                count = max(0, min(count, most - done[action.round]))
            done[action.round] += count
            if feed_round is None or action.round == feed_round:
                found.append(Lot(count, turn, stop, action))
    return found


def stop_numbers(book: Book, yard_id: str) -> list[int]:
    """Return for every visit of a yard the number of the first one at the same stop.

    Visits are at one stop where their truck has no drive between.
    """
    numbers: list[int] = []
    visits = book.visits[yard_id]
    for turn, stop in enumerate(visits):
        before = visits[turn - 1] if turn else None
        stayed = (
            before is not None
            and before.trip.id == stop.trip.id
            and stop.call.arrive_min == before.call.leave_min
            and stop.call.place == before.call.place
        )
        numbers.append(numbers[-1] if stayed else turn)
    return numbers


def cleared_as_usual(some: Sequence[Lot]) -> list[Lot]:
    """Return the take-offs whose boxes are cleared by the yard's usual way."""
    return [lot for lot in some if lot.action.way is None]


def driven_colonies(some: Sequence[Lot]) -> int:
    """Return the colonies of ``some`` lots that trips already driven have served."""
    return colonies_in([lot for lot in some if lot.stop.trip.driven])


def colonies_in(some: Sequence[Lot]) -> int:
    """Return the colonies of ``some`` lots together."""
    return sum(lot.colonies for lot in some)


def boards_lain(book: Book, yard_id: str) -> list[Lain]:
    """Return the boards of a yard in order: those of before the campaign, then each visit's."""
    yard, found = book.yards[yard_id], []
    if yard.boards_on_min is not None:
        since = yard.boards_on_min
        found.append(Lain(yard.colonies, since // DAY_MIN, since, None))
    for lot in lots(book, yard_id, Job.BOARDS):
        planned = None if lot.stop.trip.driven else lot
        found.append(Lain(lot.colonies, lot.stop.shift.day, lot.stop.call.end_min, planned))
    return found


def boards_still_on(book: Book, yard_id: str) -> int:
    """Return the boards that driven trips, and whoever was there before, have left in a yard."""
    yard = book.yards[yard_id]
    on = 0 if yard.boards_on_min is None else yard.colonies + yard.boards_dead
    for stop in book.visits[yard_id]:
        if stop.trip.driven:
            on += sum(action.pieces for action in stop.did(Job.BOARDS))
            on -= sum(action.boards_off for action in stop.did(Job.TAKE_OFF))
    return max(0, on)


def pairs(first: Sequence[Done], then: Sequence[Lot]) -> Iterator[tuple[int, Done | None, Lot]]:
    """Match the colonies of ``then`` with those of ``first``, both in order.

    Yields how many colonies, the lot of ``first`` they were in (None when it has no more)
    and the lot of ``then``.
    """
    queue = [(lot.colonies, lot) for lot in reversed(first)]
    for lot in then:
        wanted = lot.colonies
        while wanted > 0 and queue:
            count, source = queue.pop()
            taken = min(count, wanted)
            if taken:
                yield taken, source, lot
            wanted -= taken
            if count > taken:
                queue.append((count - taken, source))
        if wanted > 0:
            yield wanted, None, lot
