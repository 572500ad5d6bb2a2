"""What is in store against what trips take out of it.

Trips of trucks that have left are facts, whatever has been counted since: of every stock as
much may be used as there is, or as they alone use, whichever is more.  Trips still planned get
what that leaves, and never what a truck under way has still to load.  What such a truck has
aboard for no stop is not in store before it is there.
"""

from collections import deque
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from enum import IntEnum
from functools import partial

from runplanner.daybook.riding import BLOCKS, strips_of
from runplanner.trips.day import Key
from runplanner.trips.ground import Ground
from runplanner.trips.judged import (
    Judged,
    Moved,
    Moves,
    blocks_moved,
    strips_given,
    strips_moved,
    syrup_loaded,
    syrup_moved,
)

NOBODY: Key = (-1, -1)


class Stores:
    """What may be used of the stocks that are used up, over a campaign.

    Args:
        ground: The campaign.
        driven: Days that are facts.
        mixed: When mixing that has begun is over, and its ml.
    """

    def __init__(
        self, ground: Ground, driven: Mapping[Key, Judged], mixed: Sequence[tuple[int, int]] = ()
    ) -> None:
        gone, feed = tuple(driven.values()), ground.outfit.feed
        self._driven = driven
        self._blocks = max(ground.outfit.kit.blocks_owned, blocks_used(gone))
        self._strips = tuple(
            (max(stock, strips_used(gone, mine)), mine) for stock, mine in ground.strip_stocks
        )
        self._riding = tuple(_that_ride(ground, gone, self._blocks, self._strips))
        self._feed, self._mixed, self._now_min = feed, mixed, ground.now_min
        self._loads = out_and_in(_all_moved(driven, syrup_moved))[0]
        self._short_ml = self._not_found_ml(self._loads, feed.ready_ml, ())

    def suffice(self, days: Mapping[Key, Judged]) -> bool:
        """Tell whether blocks, strips of each substance and sugar do for ``days``."""
        every = days.values()
        return (
            blocks_used(every) <= self._blocks
            and all(strips_used(every, mine) <= most for most, mine in self._strips)
            and all(
                never_short(stock, at_the_store(_all_moved(days, moved)), (), self._driven)
                for _, stock, moved in self._riding
            )
            and self._sugar_does(days)
        )

    def blocks_left(self, days: Mapping[Key, Judged]) -> int:
        """Return how many more blocks there are in store than ``days`` use."""
        return self._blocks - self._taken(days, BLOCKS, blocks_used(days.values()))

    def strips_taken(self, days: Mapping[Key, Judged], mine: Collection[int], what: str) -> int:
        """Return the strips that ``days`` use in the yards of ``mine``, or keep of stock ``what``.

        They keep what they have aboard for no stop and do not bring to the store.
        """
        return self._taken(days, what, strips_used(days.values(), mine))

    def _taken(self, days: Mapping[Key, Judged], what: str, used: int) -> int:
        for name, _, moved in self._riding:
            if name == what:
                return _net(_all_moved(days, moved))
        return used

    def ready_ml(self, back: Sequence[tuple[int, int]]) -> int:
        """Return the syrup that need not be mixed.

        What trips which have left load and nobody has is among it, for it is not mixed any more;
        but what comes ``back`` from aboard makes that good first.
        """
        if not (self._short_ml and back):
            return self._feed.ready_ml + self._short_ml
        return self._feed.ready_ml + self._not_found_ml(self._loads, self._feed.ready_ml, back)

    def syrup_used_ml(self, days: Mapping[Key, Judged]) -> int:
        """Return the syrup that ``days`` use, but for what nobody had."""
        moved = _all_moved(days, syrup_moved)
        return _net(moved) - (self.ready_ml(out_and_in(moved)[1]) - self._feed.ready_ml)

    def _not_found_ml(self, loads: Moves, ready_ml: int, back: Sequence[tuple[int, int]]) -> int:
        """Return the syrup that loads do not find, with what has been mixed."""
        mixed = (*self._mixed, *back)
        return sum(ml for _, ml in lacking(loads, ready_ml, mixed, self._now_min))

    def _sugar_does(self, days: Mapping[Key, Judged]) -> bool:
        """Tell whether the sugar does for all that is loaded, for yards long given up as well."""
        if self._feed.sugar_g is None:
            return True
        each = self._feed.density_g_per_l * self._feed.sugar_permille
        done_ml = sum(ml for _, ml in self._mixed)
        loads, back = out_and_in(_all_moved(days, syrup_moved))
        mixed_ml = done_ml + self._not_found_ml(loads, self.ready_ml(back), back)
        return mixed_ml * each <= max(self._feed.sugar_g * 1_000_000, done_ml * each)


_Moving = Callable[[Judged], Moved]


def _that_ride(
    ground: Ground,
    gone: Sequence[Judged],
    blocks: int,
    strips: Iterable[tuple[int, Collection[int]]],
) -> Iterator[tuple[str, int, _Moving]]:
    """Yield stocks of which driven trips have some aboard for no stop: name, number and moves.

    Of all others each trip uses what it loads, and the sum of that says all.
    """
    unused = {what for one in gone for trip in one.riding for what in trip.unused}
    if BLOCKS in unused:
        yield BLOCKS, blocks, blocks_moved
    for stock, mine in strips:
        yards = (ground.outfit.yards[i] for i in sorted(mine)[:1])
        for what in (strips_of(ground.outfit.strips_at(yard).substance) for yard in yards):
            if what in unused:
                yield what, stock, partial(strips_moved, what=what, mine=mine)


def _all_moved(days: Mapping[Key, Judged], moved: _Moving) -> Mapping[Key, Moved]:
    return {key: moved(judged) for key, judged in days.items()}


def blocks_used(days: Iterable[Judged]) -> int:
    """Return the fondant blocks that ``days`` use."""
    return sum(stop.blocks for one in days for trip in one.day.trips for stop in trip)


def strips_used(days: Iterable[Judged], mine: Collection[int]) -> int:
    """Return the strips that ``days`` put into the yards of ``mine``."""
    return sum(count for one in days for yard, count in strips_given(one) if yard in mine)


def loaded_ml(days: Iterable[Judged]) -> int:
    """Return the syrup that ``days`` load for their stops."""
    return sum(ml for one in days for _, ml in syrup_loaded(one))


def _net(days: Mapping[Key, Moved]) -> int:
    """Return how much more of a good leaves the store than comes home."""
    return -sum(change for _, change, _ in at_the_store(days))


def out_and_in(days: Mapping[Key, Moved]) -> tuple[Moves, Moves]:
    """Return ``(minute, number)`` of all that leaves the feed store, and of all that comes home."""
    moves = [(minute, change) for minute, change, _ in at_the_store(days)]
    back = tuple(move for move in moves if move[1] > 0)
    return tuple((minute, -change) for minute, change in moves if change < 0), back


def lacking(
    loads: Iterable[tuple[int, int]],
    ready_ml: int,
    mixed: Sequence[tuple[int, int]],
    now_min: int,
) -> Iterator[tuple[int, int]]:
    """Yield the syrup that loads do not find, in ml, with the minute at which it lacks.

    What is being mixed, or comes home, is there once that is done.  Of what has been loaded by
    now only the sum counts, and what is being mixed makes it good: when some was lost nobody
    knows.

    Args:
        loads: Minute and ml of each, in any order.
        ready_ml: Syrup that stands ready at first.
        mixed: When mixing that has begun is over, or what is aboard is in store, and its ml.
        now_min: Minute up to which loads are past.
    """
    every = sorted(loads)
    store = ready_ml + sum(ml for end_min, ml in mixed if end_min <= now_min)
    store -= sum(ml for minute, ml in every if minute <= now_min)
    coming = deque(sorted(one for one in mixed if one[0] > now_min))
    while store < 0 and coming:
        end_min, ml = coming.popleft()
        made_good = min(ml, -store)
        store += made_good
        if ml > made_good:
            coming.appendleft((end_min, ml - made_good))
    if store < 0:
        yield now_min, -store
        store = 0
    for minute, ml in every:
        if minute > now_min:
            while coming and coming[0][0] <= minute:
                store += coming.popleft()[1]
            if ml > store:
                yield minute, ml - store
            store = max(0, store - ml)


def at_the_store(days: Mapping[Key, Moved]) -> Iterator[tuple[int, int, Key]]:
    """Yield ``(minute, change, day and truck)`` of a good at the feed store over a campaign."""
    aboard: dict[int, int] = {}
    for key in sorted(days):
        truck, one = key[1], days[key]
        yield from ((*move, key) for move in one.with_aboard(aboard.get(truck, 0)))
        aboard[truck] = one.aboard


class Turn(IntEnum):
    """Of what moves in one minute, what counts first."""

    HOME = 0
    LOAD = 1
    LOSS = 2


def in_turn(
    moves: Iterable[tuple[int, int, Key]], lost: Iterable[tuple[int, int]]
) -> list[tuple[Turn, int, Key]]:
    """Return ``(what, change, day and truck)`` of a good at the store, in order of time.

    Args:
        moves: ``(minute, change, day and truck)`` of trips.
        lost: ``(minute, number)`` of what was lost.
    """
    every = [(minute, Turn.LOSS, -count, NOBODY) for minute, count in lost]
    for minute, change, key in moves:
        every.append((minute, Turn.LOAD if change < 0 else Turn.HOME, change, key))
    return [(turn, change, key) for _, turn, change, key in sorted(every)]


def never_short(
    owned: int,
    moves: Iterable[tuple[int, int, Key]],
    lost: Iterable[tuple[int, int]],
    driven: Collection[Key] = (),
) -> bool:
    """Tell whether each load finds enough of a good that circulates at the store."""
    return who_is_short(owned, moves, lost, driven) is None


def who_is_short(
    owned: int,
    moves: Iterable[tuple[int, int, Key]],
    lost: Iterable[tuple[int, int]],
    driven: Collection[Key] = (),
) -> Key | None:
    """Return the first day planned whose load is too much for the store, or None.

    ``moves`` are ``(minute, change, day and truck)`` of the store.  What is lost leaves it as
    well, but a loss takes nothing that was not there: those lost may lie in a yard, and come
    home fewer.  A day in ``driven`` may take what is not there, but no planned one may take
    what such a day has still to load.
    """
    store = alone = owned
    taker = NOBODY
    for turn, change, key in in_turn(moves, lost):
        store += change
        fact = turn is Turn.LOSS or key in driven
        alone += change if fact else 0
        if turn is not Turn.LOAD:
            continue
        taker = taker if fact else key
        if store < (min(0, alone) if fact else 0):
            return taker
    return None
