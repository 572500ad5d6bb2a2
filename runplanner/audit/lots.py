"""Colonies of a yard as lots: so many, at this stop; first off, first fed."""

from collections import Counter
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from runplanner.audit.book import Book, Stop
from runplanner.daybook.trip import Action, Job


class Lot(NamedTuple):
    """``colonies`` that were served by one entry of one stop; ``turn`` is the visit's number."""

    colonies: int
    turn: int
    stop: Stop
    action: Action


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


def driven_colonies(some: Sequence[Lot]) -> int:
    """Return the colonies of ``some`` lots that trips already driven have served."""
    return colonies_in([lot for lot in some if lot.stop.trip.driven])


def colonies_in(some: Sequence[Lot]) -> int:
    """Return the colonies of ``some`` lots together."""
    return sum(lot.colonies for lot in some)


def pairs(first: Sequence[Lot], then: Sequence[Lot]) -> Iterator[tuple[int, Lot | None, Lot]]:
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
