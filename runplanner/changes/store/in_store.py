"""What trucks that are out have still to load, against what is in store by then."""

import itertools
from collections.abc import Callable, Container, Iterator, Sequence
from functools import partial
from typing import Final, NamedTuple

from runplanner.changes.draft import Draft
from runplanner.changes.store.stocks import many, mixed_ml
from runplanner.daybook.riding import (
    BLOCKS,
    BOARDS,
    FEEDERS,
    SYRUP,
    aboard,
    brought_over,
    not_back,
    strips_of,
)
from runplanner.daybook.trip import Action, Call, Job, Trip
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


class _Good(NamedTuple):
    """One stock: pieces, or millilitres of syrup.

    Args:
        name: What its stock is called.
        there: How much there was at first.
        takes: How much of it a job takes; below 0 where it brings some for the stops after it.
        words: So much of it, in words.
        brings: How much of it a job brings home, for no other stop.
        lost: What was lost since: ``(minute, number)``.
        yards: The yards it is for; None for all.
        each: How much of it makes one of what people count, such as 1,000 ml.
        loaded: How much of it a trip left with, where its loading call tells; else None.
        made: How much of it was made by a minute.
    """

    name: str
    there: int
    takes: Callable[[Action], int]
    words: Callable[[int], Phrase]
    brings: Callable[[Action], int] = lambda _: 0
    lost: tuple[tuple[int, int], ...] = ()
    yards: Container[str] | None = None
    each: int = 1
    loaded: Callable[[Trip], int] | None = None
    made: Callable[[int], int] = lambda _: 0

    def wanted(self, calls: Sequence[Call]) -> int:
        """Return how much of it must be loaded for stops, in their order."""
        return max((0, *self.taken(calls)))

    def taken(self, calls: Sequence[Call]) -> list[int]:
        """Return how much of what was loaded has been taken after each of some stops."""
        yards = self.yards
        return list(itertools.accumulate(
            sum(self.takes(one) for one in call.actions if yards is None or call.yard in yards)
            for call in calls
        ))  # fmt: skip

    def back(self, calls: Sequence[Call]) -> int:
        """Return how much of it comes home from stops, some of what was loaded for them too."""
        brought = sum(self.brings(one) for call in calls for one in call.actions)
        return self.wanted(calls) - sum(self.taken(calls)[-1:]) + brought

    def at(self, draft: Draft, minute: int, trips: Sequence[Trip]) -> int:
        """Return how much is there at a minute, after ``trips`` have loaded.

        Below 0 where they took more than there was.
        """
        home = draft.in_store_min()
        back = sum(
            self.back(trip.yards()) if home[trip.id] <= minute
            else -self.riding(draft, trip, minute)
            for trip in trips
        )  # fmt: skip
        lost = sum(count for at, count in self.lost if at <= minute)
        there = self.there + self.made(minute)
        return there - sum(self.wanted(t.yards()) for t in trips) + back - lost

    def riding(self, draft: Draft, trip: Trip, minute: int) -> int:
        """Return how much a trip has aboard for no stop, but for what was brought over by then."""
        if self.loaded is None:
            return not_back(draft.outfit, trip, self.name, minute)
        unused = max(0, self.loaded(trip) - self.wanted(trip.yards()))
        return unused - brought_over(draft.outfit, trip, self.name, minute)

    def at_home(self, draft: Draft, trip: Trip) -> int:
        """Return how much a trip that is over has aboard, of boards those that it laid nowhere.

        Those that it lifted ride home on any day.
        """
        if self.loaded is not None:
            return self.riding(draft, trip, draft.now_min)
        return aboard(draft.outfit, trip, self.name, draft.now_min)


def short_loads(draft: Draft) -> Iterator[Short]:
    """Yield where trips still to be loaded, of trucks that have left, find too little in store.

    Who loads first has what there is; a trip that is short is taken to load nothing.
    """
    before, goods = _loaded(draft), tuple(_goods(draft))
    ahead = [trip for trip in draft.driven_trips() if trip not in before]
    for trip in sorted(ahead, key=lambda one: (one.calls[0].start_min, one.id)):
        start = trip.calls[0].start_min
        there = [(good, max(0, good.at(draft, start, before))) for good in goods]
        short = [(good, n) for good, n in there if good.wanted(trip.yards()) > n]
        yield from (_short(trip, good, number) for good, number in short)
        before = before if short else [*before, trip]


def overdrawn(draft: Draft) -> Iterator[Phrase]:
    """Yield which stocks trips that have loaded took more of than there was, by what is told."""
    before = _loaded(draft)
    for good in _goods(draft):
        missing = -good.at(draft, draft.now_min, before)
        if missing > 0 and not good.lost:
            yield phrase(
                "{goods} more were used than there were, by what is told: count what is left",
                goods=good.words(missing),
            )


def aboard_at_home(draft: Draft) -> Iterator[Phrase]:
    """Yield what trucks that are home have aboard still, which others cannot load."""
    outfit, now, home = draft.outfit, draft.now_min, draft.in_store_min()
    for shift in draft.driven() if len(outfit.trucks) > 1 else ():
        for trip in shift.trips if shift.end_min <= now else ():
            if home[trip.id] <= now:
                continue
            left = [(good, good.at_home(draft, trip)) for good in _goods(draft)]
            goods = [good.words(number) for good, number in left if number > 0]
            if goods:
                yield phrase(
                    "{truck} is home with {goods} aboard, in store only when it next loads; once "
                    "brought over, count what is left there",
                    truck=outfit.truck(shift.truck).name,
                    goods=joined(", ", *goods),
                )


def _loaded(draft: Draft) -> list[Trip]:
    """Return the trips that have loaded by now: what others of the day need is still in store."""
    now = draft.now_min
    return [trip for trip in draft.driven_trips() if trip.calls[0].start_min <= now]


def _short(trip: Trip, good: _Good, there: int) -> Short:
    kept, out = list(trip.yards()), []
    while (most := good.wanted(kept)) > there:
        out.append(kept.pop(good.taken(kept).index(most)))
    what = phrase(
        "it is to load {goods} at {time}, with only {there} in store",
        goods=good.words(good.wanted(trip.yards())),
        time=clock(trip.calls[0].start_min),
        there=many(there, good.each),
    )
    return Short(tuple(out), what)


def _goods(draft: Draft) -> Iterator[_Good]:
    """Yield every stock that has an end."""
    outfit, kit = draft.outfit, draft.outfit.kit
    yield _Good(
        SYRUP, outfit.feed.ready_ml, lambda one: one.ml, _litres, each=_LITRE_ML,
        made=partial(mixed_ml, draft),
    )  # fmt: skip
    yield _Good(BLOCKS, kit.blocks_owned, _pieces(Job.BLOCK), _blocks)
    yield _Good(
        BOARDS, kit.boards_owned - outfit.boards_lain, _boards_laid, _boards,
        lost=kit.boards_lost, loaded=lambda trip: trip.calls[0].after.boards,
    )  # fmt: skip
    if kit.feeders_owned is not None:
        yield _Good(
            FEEDERS, kit.feeders_owned, lambda one: one.feeders, _feeders,
            brings=lambda one: one.feeders_off, lost=kit.feeders_lost,
        )  # fmt: skip
    kinds = (outfit.strips, *outfit.strips_also)
    for substance in dict.fromkeys(kind.substance for kind in kinds):
        stocks = [k.stock for k in kinds if k.substance == substance and k.stock is not None]
        mine = {one.id for one in outfit.yards if outfit.strips_at(one).substance == substance}
        if stocks:
            name = strips_of(substance)
            yield _Good(name, min(stocks), _pieces(Job.STRIPS), _strips, yards=mine)


def _pieces(job: Job) -> Callable[[Action], int]:
    return lambda one: one.pieces if one.job is job else 0


def _boards_laid(action: Action) -> int:
    return _pieces(Job.BOARDS)(action) - action.boards_off


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
