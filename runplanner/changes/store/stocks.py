"""What is left in store: facts worked back to day 0.

A count holds: what is told later of stops before it, and what trucks that were out had aboard
and bring home, counts on top of what was in store (``counted_anew``).  What trucks at home had
aboard for no stop has been brought over as far as more is counted than was known.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
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
from runplanner.changes.store.lost import feeders_now
from runplanner.changes.store.mixing import begun, mixed_less
from runplanner.daybook.riding import (
    BLOCKS,
    BOARDS,
    FEEDERS,
    SYRUP,
    aboard,
    strips_of,
)
from runplanner.daybook.trip import Brought
from runplanner.days import NEVER
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import Counted, Strips
from runplanner.phrase import Number, Phrase, phrase

_Losses = tuple[tuple[int, int], ...]
"""Of what was lost ``(minute, number)``."""


class _Stock(NamedTuple):
    """One good in store, in pieces, millilitres or grams.

    Args:
        name: What it is kept as among the facts that were counted.
        words: What its count is of, in words.
        there: How much there would be now had nobody taken any; None for no end.
        gone: How much of it was taken out of the store by a minute, and not brought back.
        more: The draft with so much more of it in all, or less, from a minute on.
        each: How much of it makes one of what people count, such as 1,000 ml.
        lost: How much of it was told lost, in store or in yards.
    """

    name: str
    words: Phrase
    there: Callable[[Draft], int | None]
    gone: Callable[[Draft, int], int]
    more: Callable[[Draft, int, int], Draft]
    each: int = 1
    lost: Callable[[Draft], int] = lambda _: 0


def many(number: int, each: int) -> Number:
    """Return a number of a good as people count it, by so many of ``each``, be it a part of one."""
    return Number(f"{number / each:.10g}")


def counted_anew(draft: Draft) -> Draft:
    """Return the draft with stocks that leave in store what was counted there.

    By now other stops may be known to have been served before a count than when it was made.
    """
    for one in draft.outfit.counted:
        stock = _stock(draft.outfit, one.what)
        gone = stock.gone(draft, one.minute) if stock else one.gone
        if stock and gone != one.gone:
            draft = stock.more(draft, gone - one.gone, one.minute)
            draft = with_count(draft, replace(one, gone=gone))
    return draft


def _stock(outfit: Outfit, what: str) -> _Stock | None:
    kinds = (outfit.strips, *outfit.strips_also)
    stocks = (*_STOCKS, *(_strips(kind.substance) for kind in kinds))
    return next((stock for stock in stocks if stock.name == what), None)


def _left(draft: Draft, stock: _Stock, left: int) -> Draft:
    """Return the draft with so much of a stock in store now, noted where that is more than known.

    What trucks that are out have aboard for no stop comes home on top.  What those at home have
    was brought over, as far as there is more than known.
    """
    draft, now = counted_anew(draft), draft.now_min
    there, known = stock.there(draft), left
    if there is not None:
        draft = _taken_back(draft, stock, there - stock.gone(draft, now) - left)
        known = max(0, there - stock.gone(draft, now))
        draft, brought = _brought_over(draft, stock, left - known)
        known += brought
    gone = stock.gone(draft, now)
    less = (there or 0) - gone
    # What was lost beyond all that was in store lies in yards, and comes home fewer.
    less += min(stock.lost(draft), max(0, -less))
    draft = stock.more(draft, left - less, now)
    draft = with_count(draft, Counted(stock.name, now, gone))
    if left <= known:
        return draft
    return draft.noted(
        phrase(
            "{what}: {left} left are more than the {known} this plan knew of; taken as bought or "
            "found since",
            what=stock.words,
            left=many(left, stock.each),
            known=many(known, stock.each),
        )
    )


def _taken_back(draft: Draft, stock: _Stock, less: int) -> Draft:
    """Return the draft with so much ``less`` brought over, by counts of before, as there was."""
    for shift in draft.driven():
        for trip in shift.trips:
            kept = list[Brought]()
            for one in reversed(trip.brought):
                number = min(max(0, less), one.number) if one.what == stock.name else 0
                less -= number
                kept += [replace(one, number=one.number - number)] if number < one.number else []
            if kept != list(reversed(trip.brought)):
                draft = draft.with_trip(replace(trip, brought=tuple(reversed(kept))))
    return draft


def _brought_over(draft: Draft, stock: _Stock, more: int) -> tuple[Draft, int]:
    """Return the draft with as much ``more`` in store as trucks at home have aboard, noted.

    And how much that is.
    """
    now, home, left = draft.now_min, draft.in_store_min(), more
    for shift in draft.driven():
        for trip in shift.trips if shift.end_min <= now else ():
            rides = aboard(draft.outfit, trip, stock.name, now)
            number = min(left, rides) if home[trip.id] > now else 0
            if number > 0:
                left -= number
                brought = (*trip.brought, Brought(now, stock.name, number))
                draft = draft.with_trip(replace(trip, brought=brought)).noted(
                    phrase(
                        "{what}: {number} of those left taken as brought over from {truck}",
                        what=stock.words,
                        number=many(number, stock.each),
                        truck=draft.outfit.truck(shift.truck).name,
                    )
                )
    return draft, more - left


def with_count(draft: Draft, count: Counted) -> Draft:
    """Return the draft with a count kept, in place of one before of the same."""
    others = (one for one in draft.outfit.counted if one.what != count.what)
    return replace(draft, outfit=replace(draft.outfit, counted=(*others, count)))


def _gone(good: Good) -> Callable[[Draft, int], int]:
    return lambda draft, minute: good.gone(draft, minute, loaded_by(draft, minute))


def blocks_left(draft: Draft, left: int) -> Draft:
    """Return the draft with so many fondant blocks still in store."""
    return _left(draft, _BLOCKS, left)


def _more_blocks(draft: Draft, more: int, _: int) -> Draft:
    kit = draft.outfit.kit
    kit = replace(kit, blocks_owned=kit.blocks_owned + more)
    return replace(draft, outfit=replace(draft.outfit, kit=kit))


_BLOCKS: Final = _Stock(
    BLOCKS, phrase("blocks"), lambda draft: draft.outfit.kit.blocks_owned, _gone(BLOCKS_GIVEN),
    _more_blocks,
)  # fmt: skip


def strips_left(draft: Draft, left: int, substance: str) -> Draft:
    """Return the draft with so many strips of a substance still in store."""
    return _left(draft, _strips(substance), left)


def _strips(substance: str) -> _Stock:
    """Return the stock of a substance; all kinds of it tell it."""

    def there(draft: Draft) -> int | None:
        kinds = (draft.outfit.strips, *draft.outfit.strips_also)
        told = [kind.stock for kind in kinds if kind.substance == substance]
        return min((stock for stock in told if stock is not None), default=None)

    def gone(draft: Draft, minute: int) -> int:
        return _gone(strips_good(draft.outfit, substance))(draft, minute)

    def more(draft: Draft, more: int, _: int) -> Draft:
        outfit, stock = draft.outfit, (there(draft) or 0) + more

        def told(kind: Strips) -> Strips:
            return replace(kind, stock=stock) if kind.substance == substance else kind

        also = tuple(told(kind) for kind in outfit.strips_also)
        return replace(draft, outfit=replace(outfit, strips=told(outfit.strips), strips_also=also))

    return _Stock(strips_of(substance), phrase("strips"), there, gone, more)


def boards_left(draft: Draft, left: int) -> Draft:
    """Return the draft with so many clearer boards at the feed store now; others lie in yards."""
    return _left(draft, _BOARDS, left)


def boards_moved(draft: Draft) -> Iterator[tuple[int, int]]:
    """Yield ``(minute, change)`` of boards at the feed store by driven trips."""
    home = draft.in_store_min()
    for trip in draft.driven_trips():
        yield trip.calls[0].start_min, -trip.calls[0].after.boards
        yield from ((one.minute, one.number) for one in trip.brought if one.what == BOARDS)
        yield home[trip.id], aboard(draft.outfit, trip, BOARDS, NEVER)


def _more_boards(draft: Draft, more: int, minute: int) -> Draft:
    kit = draft.outfit.kit
    owned, lost = _more_owned(kit.boards_owned, kit.boards_lost, more, minute)
    kit = replace(kit, boards_owned=owned, boards_lost=lost)
    return replace(draft, outfit=replace(draft.outfit, kit=kit))


_BOARDS: Final = _Stock(
    BOARDS, phrase("boards"),
    lambda draft: draft.outfit.kit.boards_now - draft.outfit.boards_lain, _gone(BOARDS_LAID),
    _more_boards, lost=lambda draft: _sum_of(draft.outfit.kit.boards_lost),
)  # fmt: skip


def _sum_of(lost: _Losses) -> int:
    return sum(count for _, count in lost)


def _more_owned(owned: int, lost: _Losses, more: int, minute: int) -> tuple[int, _Losses]:
    """Return what is owned of kit and what was lost: more from the first, or fewer from a minute.

    Where there were fewer from that minute, these are the first to be there after all.
    """
    others = tuple(one for one in lost if one[0] != minute)
    before = _sum_of(lost) - _sum_of(others)
    fewer = max(0, before - more) if minute > 0 else 0
    told = tuple(sorted([*others, *([(minute, fewer)] if fewer else [])]))
    return owned + more + fewer - before, told


def feeders_left(draft: Draft, left: int) -> Draft:
    """Return the draft with so many feeders at the feed store now; others stand in yards.

    Raises:
        Refusal: When each hive has its own.
    """
    return _left(draft, _FEEDERS, left)


def _more_feeders(draft: Draft, more: int, minute: int) -> Draft:
    kit = draft.outfit.kit
    owned, lost = _more_owned(kit.feeders_owned or 0, kit.feeders_lost, more, minute)
    kit = replace(kit, feeders_owned=owned, feeders_lost=lost)
    return replace(draft, outfit=replace(draft.outfit, kit=kit))


_FEEDERS: Final = _Stock(
    FEEDERS, phrase("feeders"), feeders_now, _gone(FEEDERS_OUT), _more_feeders,
    lost=lambda draft: _sum_of(draft.outfit.kit.feeders_lost),
)  # fmt: skip


def sugar_left(draft: Draft, left_g: int) -> Draft:
    """Return the draft with so much sugar (g) still in store; mixed sugar counts on top."""
    return _left(draft, _SUGAR, left_g)


def _sugar_gone(draft: Draft, minute: int) -> int:
    feed, mixed = draft.outfit.feed, sum(one.ml for one in begun(draft, minute))
    return -(-mixed * feed.density_g_per_l * feed.sugar_permille // 1_000_000)


def _more_sugar(draft: Draft, more: int, _: int) -> Draft:
    feed = draft.outfit.feed
    feed = replace(feed, sugar_g=(feed.sugar_g or 0) + more)
    return replace(draft, outfit=replace(draft.outfit, feed=feed))


_SUGAR: Final = _Stock(
    "sugar", phrase("sugar in kg"), lambda draft: draft.outfit.feed.sugar_g, _sugar_gone,
    _more_sugar, each=1000,
)  # fmt: skip


def syrup_left(draft: Draft, left_ml: int) -> Draft:
    """Return the draft with so much syrup (ml) standing ready now.

    Ready at first + mixed - loaded = left; of what is being mixed so much stands there as its
    minutes so far make.  Where more was to be there than is, the last mixing was less than
    planned.
    """
    return _left(draft, _SYRUP, left_ml)


def _syrup_there(draft: Draft) -> int:
    now = draft.now_min
    return draft.outfit.feed.ready_ml + sum(one.mixed_ml(now) for one in begun(draft, now))


def _more_syrup(draft: Draft, more: int, minute: int) -> Draft:
    ready = draft.outfit.feed.ready_ml + more
    feed = replace(draft.outfit.feed, ready_ml=max(0, ready))
    draft = replace(draft, outfit=replace(draft.outfit, feed=feed))
    return mixed_less(draft, max(0, -ready), minute)


_SYRUP: Final = _Stock(
    SYRUP, phrase("syrup in litres"), _syrup_there, _gone(SYRUP_FED), _more_syrup, each=1000
)
_STOCKS: Final = (_BLOCKS, _BOARDS, _FEEDERS, _SUGAR, _SYRUP)
