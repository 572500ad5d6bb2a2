"""What trucks that are out have still to load, against what is in store by then."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Final, NamedTuple

from runplanner.changes.draft import Draft
from runplanner.changes.store.goods import (
    BLOCKS_GIVEN,
    BOARDS_LAID,
    FEEDERS_OUT,
    SYRUP_FED,
    Good,
    loaded_by,
    strips_good,
)
from runplanner.changes.store.mixing import mixed_ml
from runplanner.changes.store.stocks import many
from runplanner.daybook.trip import Call, Trip
from runplanner.days import clock
from runplanner.phrase import Phrase, counted, joined, phrase

_LITRE_ML: Final = 1000


class Short(NamedTuple):
    """A trip that is to load more of something than is there.

    Args:
        calls: Its stops that must be left out for the rest to be there, the last ones first.
        what: What lacks, in words.
    """

    calls: tuple[Call, ...]
    what: Phrase


class _Store(NamedTuple):
    """One good in store.

    Args:
        good: What trips do with it.
        there: How much there was at first.
        words: So much of it, in words.
        lost: What was lost since: ``(minute, number)``.
        each: How much of it makes one of what people count, such as 1,000 ml.
        made: How much of it was made by a minute.
    """

    good: Good
    there: int
    words: Callable[[int], Phrase]
    lost: tuple[tuple[int, int], ...] = ()
    each: int = 1
    made: Callable[[int], int] = lambda _: 0

    def at(self, draft: Draft, minute: int, trips: Sequence[Trip]) -> int:
        """Return how much is there at a minute, after ``trips`` have loaded.

        Below 0 where they took more than there was.
        """
        lost = sum(count for at, count in self.lost if at <= minute)
        return self.there + self.made(minute) - self.good.gone(draft, minute, trips) - lost


def short_loads(draft: Draft) -> Iterator[Short]:
    """Yield where trips still to be loaded, of trucks that have left, find too little in store.

    Who loads first has what there is; a trip that is short is taken to load nothing.
    """
    before, stores = loaded_by(draft, draft.now_min), tuple(_stores(draft))
    ahead = [trip for trip in draft.driven_trips() if trip not in before]
    for trip in sorted(ahead, key=lambda one: (one.calls[0].start_min, one.id)):
        start = trip.calls[0].start_min
        there = [(store, max(0, store.at(draft, start, before))) for store in stores]
        short = [(store, n) for store, n in there if store.good.wanted(trip.yards()) > n]
        yield from (_short(trip, store, number) for store, number in short)
        before = before if short else [*before, trip]


def overdrawn(draft: Draft) -> Iterator[Phrase]:
    """Yield which stocks trips that have loaded took more of than there was, by what is told."""
    before = loaded_by(draft, draft.now_min)
    for store in _stores(draft):
        missing = -store.at(draft, draft.now_min, before)
        if missing > 0 and not store.lost:
            yield phrase(
                "{goods} more were used than there were, by what is told: count what is left",
                goods=store.words(missing),
            )


def aboard_at_home(draft: Draft) -> Iterator[Phrase]:
    """Yield what trucks that are home have aboard still, which others cannot load."""
    outfit, now, home = draft.outfit, draft.now_min, draft.in_store_min()
    for shift in draft.driven() if len(outfit.trucks) > 1 else ():
        for trip in shift.trips if shift.end_min <= now else ():
            if home[trip.id] <= now:
                continue
            left = [(store, store.good.at_home(draft, trip)) for store in _stores(draft)]
            goods = [store.words(number) for store, number in left if number > 0]
            if goods:
                yield phrase(
                    "{truck} is home with {goods} aboard, in store only when it next loads; once "
                    "brought over, count what is left there",
                    truck=outfit.truck(shift.truck).name,
                    goods=joined(", ", *goods),
                )


def _short(trip: Trip, store: _Store, there: int) -> Short:
    good = store.good
    kept, out = list(trip.yards()), []
    while (most := good.wanted(kept)) > there:
        out.append(kept.pop(good.taken(kept).index(most)))
    what = phrase(
        "it is to load {goods} at {time}, with only {there} in store",
        goods=store.words(good.wanted(trip.yards())),
        time=clock(trip.calls[0].start_min),
        there=many(there, store.each),
    )
    return Short(tuple(out), what)


def _stores(draft: Draft) -> Iterator[_Store]:
    """Yield every stock that has an end."""
    outfit, kit = draft.outfit, draft.outfit.kit
    made = partial(mixed_ml, draft)
    yield _Store(SYRUP_FED, outfit.feed.ready_ml, _litres, each=_LITRE_ML, made=made)
    yield _Store(BLOCKS_GIVEN, kit.blocks_owned, _blocks)
    there = kit.boards_owned - outfit.boards_lain
    yield _Store(BOARDS_LAID, there, _boards, lost=kit.boards_lost)
    if kit.feeders_owned is not None:
        yield _Store(FEEDERS_OUT, kit.feeders_owned, _feeders, lost=kit.feeders_lost)
    kinds = (outfit.strips, *outfit.strips_also)
    for substance in dict.fromkeys(kind.substance for kind in kinds):
        stocks = [k.stock for k in kinds if k.substance == substance and k.stock is not None]
        if stocks:
            yield _Store(strips_good(outfit, substance), min(stocks), _strips)


def _litres(number: int) -> Phrase:
    return phrase("{number} L of syrup", number=many(number, _LITRE_ML))


def _blocks(number: int) -> Phrase:
    return counted("{number} block", "{number} blocks", number)


def _boards(number: int) -> Phrase:
    return counted("{number} board", "{number} boards", number)


def _feeders(number: int) -> Phrase:
    return counted("{number} feeder", "{number} feeders", number)


def _strips(number: int) -> Phrase:
    return counted("{number} strip", "{number} strips", number)
