"""What leaves the feed store aboard trucks, and when what they did not use is there again."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple

from runplanner.audit.book import Book, Stop
from runplanner.audit.strips import kind_for
from runplanner.daybook.trip import Job, Trip


class Good(NamedTuple):
    """A good at the store.

    Args:
        name: What plans call its stock; a yard's strips are told apart by substance.
        out: How much of it a trip leaves the store with for its stops.
        back: How much it comes home with from them.
    """

    name: str
    out: Callable[[tuple[Stop, ...]], int]
    back: Callable[[tuple[Stop, ...]], int] = lambda _: 0


class Move(NamedTuple):
    """So much of a good into the store, or out of it below 0; what comes in counts first."""

    minute: int
    turn: int
    change: int
    trip: str
    driven: bool


class AtStore(NamedTuple):
    """When a trip is at the store: what was aboard comes in, it loads, it is back."""

    in_min: int
    load_min: int
    back_min: int


Late = Mapping[str, AtStore]
"""Trips by name that are at the store at other times than planned."""

NOT_LATE: Late = MappingProxyType({})

BOARDS = Good("boards", lambda stops: stops[0].after.boards, lambda stops: stops[-1].before.boards)
FEEDERS = Good(
    "feeders", lambda stops: stops[0].after.feeders, lambda stops: stops[-1].before.feeders
)
SYRUP = Good("syrup", lambda stops: stops[0].after.ml)
BLOCKS = Good("blocks", lambda stops: stops[0].after.blocks)


def strips_of(book: Book, substance: str) -> Good:
    """Return the strips of a substance, whatever their kind."""
    name = f"strips {substance}"
    return Good(name, lambda stops: _asked(book, stops[0].trip, as_planned=False)[name])


def moves(book: Book, good: Good, late: Late) -> Iterator[Move]:
    """Yield what trips do to a good at the store, those that are ``late`` at their times there.

    It leaves when loading starts and is back when the trip's last call ends, or where that is
    elsewhere, when the truck next loads there, or was found to have been brought over.
    """
    aboard: dict[str, int] = {}
    for stops in sorted(book.trips(), key=lambda stops: stops[0].call.start_min):
        first, last, trip, truck = stops[0], stops[-1], stops[0].trip, stops[0].shift.truck
        unused = riding(book, trip, good.name)
        home = good.back(stops) + unused
        start, mark = first.call.start_min, (trip.id, trip.driven)
        at = late.get(trip.id) or AtStore(start, start, last.call.end_min)
        yield Move(at.in_min, 0, aboard.pop(truck, 0), *mark)
        yield Move(at.load_min, 1, -good.out(stops) - unused, *mark)
        for one in trip.brought:
            if one.what == good.name:
                yield Move(one.minute, 0, min(one.number, home), *mark)
                home -= min(one.number, home)
        if last.call.place == book.outfit.feed_store.place:
            yield Move(at.back_min, 0, home, *mark)
        else:
            aboard[truck] = home


def riding(book: Book, trip: Trip, name: str) -> int:
    """Return how much of a good a trip that has loaded has aboard for no stop.

    That is what its stops were to get and did not, or what it is known to have left with beside.
    """
    if not 0 < book.plan.now_min or trip.calls[0].start_min > book.plan.now_min:
        return 0
    asked = _asked(book, trip, as_planned=True)[name]
    asked += sum(one.pieces for one in trip.left_strips if name == f"strips {one.substance}")
    if trip.left is not None:
        left = {
            "syrup": trip.left.ml, "blocks": trip.left.blocks, "feeders": trip.left.feeders,
        }  # fmt: skip
        asked = max(asked, left.get(name, 0))
    return max(0, asked - _asked(book, trip, as_planned=False)[name])


def _asked(book: Book, trip: Trip, *, as_planned: bool) -> Counter[str]:
    """Return what a trip's stops take of goods by name, as it was planned or as they now stand."""
    found = Counter[str]()
    for call in trip.yards():
        placed = {
            Job.BLOCK: "blocks", Job.STRIPS: f"strips {kind_for(book.outfit, call.yard).substance}",
        }  # fmt: skip
        for action in (call.planned if as_planned else ()) or call.actions:
            found.update(syrup=action.ml, feeders=action.feeders)
            if action.job in placed:
                found[placed[action.job]] += action.pieces
    return found
