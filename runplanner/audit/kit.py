"""Boards, feeders, blocks and strips: what is owned and in stock is enough."""

from collections.abc import Iterator

from runplanner.audit.book import Book
from runplanner.audit.cargo import boards_on
from runplanner.audit.findings import Breach, Breaches, figure, shown, when
from runplanner.audit.lots import Lot, breach_at, colonies_in, lots
from runplanner.audit.need import need_of, taken_down_min
from runplanner.audit.store import (
    BLOCKS,
    BOARDS,
    FEEDERS,
    NOT_LATE,
    Good,
    Late,
    Move,
    moves,
    riding,
    strips_of,
)
from runplanner.audit.strips import kind_for, kinds
from runplanner.daybook.trip import Job
from runplanner.phrase import Phrase, counted, phrase


def boards_owned(book: Book) -> Breaches:
    """The feed store has the boards a trip loads.

    Those put on stay out until they are taken off, and so do those that lay at yards before.
    """
    for minute, count, there, trip in _boards_short(book, NOT_LATE):
        said = counted(
            "{number} board loaded {start}",
            "{number} boards loaded {start}",
            count,
            start=when(minute),
        )
        yield Breach(said, phrase("the {count} at the store", count=there), trip)


def _boards_short(book: Book, late: Late) -> Iterator[tuple[int, int, int, str]]:
    lying = [yard for yard in book.yards.values() if yard.boards_on_min is not None]
    kit = book.outfit.kit
    store = kit.boards_owned - sum(yard.colonies + yard.boards_dead for yard in lying)
    return _too_many(book, BOARDS, store, kit.boards_lost, late)


def _feeders_short(book: Book, late: Late) -> Iterator[tuple[int, int, int, str]]:
    kit = book.outfit.kit
    if kit.feeders_owned is not None:
        yield from _too_many(book, FEEDERS, kit.feeders_owned, kit.feeders_lost, late)


def short_when(book: Book, late: Late) -> bool:
    """Tell whether the store runs short of boards or feeders only because trips are late."""
    goods = (_boards_short, _feeders_short)
    return any(any(short(book, late)) and not any(short(book, NOT_LATE)) for short in goods)


def _too_many(
    book: Book,
    good: Good,
    store: int,
    lost: tuple[tuple[int, int], ...] = (),
    late: Late = NOT_LATE,
) -> Iterator[tuple[int, int, int, str]]:
    """Loads of a good for which too little is there: when, how much, of how much.

    Driven trips are excused what they alone lack; where planned ones take more, so that a driven
    one finds too few, the last planned one to load is named.
    """
    # What was lost leaves the store at its minute, behind the loads of that minute.
    gone = [Move(minute, 2, -count, "", True) for minute, count in lost]
    others, taker = 0, ""
    for minute, turn, count, trip, driven in sorted([*moves(book, good, late), *gone]):
        store += count
        if not driven:
            others += count
            taker = trip if turn == 1 and count else taker
        if turn == 1 and count and store < (min(0, store - others) if driven else 0):
            yield minute, -count, max(0, store - count), taker if driven else trip


def boards_aboard(book: Book) -> Breaches:
    """Boards put on at a yard were aboard on arriving there.

    Strict reading: boards that come off at a stop serve only at later stops.
    """
    for _, stop in book.yard_stops():
        needed = sum(boards_on(action) for action in stop.call.actions)
        if needed > max(0, stop.before.boards):
            said = counted(
                "{number} board put on {start}",
                "{number} boards put on {start}",
                needed,
                start=when(stop.call.start_min),
            )
            allowed = phrase("the {boards} aboard", boards=max(0, stop.before.boards))
            yield Breach(said, allowed, stop.trip.id, stop.call.yard)


def _all(book: Book, job: Job) -> list[Lot]:
    """All lots of a job in order of time, whatever the yard; those of driven trips first.

    What a truck that is out has still to load is not there for others, though they load before.
    """
    every = [lot for yard_id in book.yards for lot in lots(book, yard_id, job)]
    return sorted(every, key=lambda lot: (not lot.stop.trip.driven, lot.stop.call.start_min))


def _run_out(every: list[Lot], counts: list[int], stock: int, what: Phrase) -> Breaches:
    used = 0
    for lot, count in zip(every, counts, strict=True):
        used += count
        if count and used > stock:
            yield breach_at(
                lot,
                phrase(
                    "{used} {what} used by {start}",
                    used=used,
                    what=what,
                    start=when(lot.stop.call.start_min),
                ),
                figure(stock),
            )


def blocks_owned(book: Book) -> Breaches:
    """All trips together use no more fondant blocks than there are."""
    every = _all(book, Job.BLOCK)
    pieces = [lot.action.pieces for lot in every]
    owned, what = book.outfit.kit.blocks_owned, phrase("fondant blocks")
    yield from _run_out(every, pieces, owned, what)
    yield from _elsewhere(book, BLOCKS, owned, what)


def strips_in_stock(book: Book) -> Breaches:
    """All trips together use no more strips of a substance than its stock, where one is given.

    Kinds of one substance draw on one stock, whatever their dose.
    """
    outfit, every = book.outfit, _all(book, Job.STRIPS)
    told = [(kind.substance, kind.stock) for kind in kinds(outfit).values()]
    for substance in dict.fromkeys(name for name, _ in told):
        stocks = [stock for name, stock in told if name == substance and stock is not None]
        mine = [lot for lot in every if _substance(book, lot) == substance]
        what = (
            phrase("strips")
            if len(kinds(outfit)) == 1
            else phrase("strips of {substance}", substance=shown(substance))
        )
        if stocks:
            yield from _run_out(mine, [lot.action.pieces for lot in mine], min(stocks), what)
            yield from _elsewhere(book, strips_of(book, substance), min(stocks), what)


def _elsewhere(book: Book, good: Good, stock: int, what: Phrase) -> Breaches:
    """Loads of a good of which some rides on other trucks for no stop, and too little is there."""
    if not any(riding(book, stops[0].trip, good.name) for stops in book.trips()):
        return
    for minute, count, there, trip in _too_many(book, good, stock):
        said = phrase("{count} {what} loaded {start}", count=count, what=what, start=when(minute))
        yield Breach(said, phrase("the {count} at the store", count=there), trip)


def _substance(book: Book, lot: Lot) -> str:
    return kind_for(book.outfit, lot.stop.call.yard).substance


def feeders(book: Book) -> Breaches:
    """The first round leaves a feeder in each hive where feeders circulate, others none.

    Where feeders have been fetched, a later round leaves one with each colony that had the round
    before it from those.
    """
    owned = book.outfit.kit.feeders_owned
    for lot in _all(book, Job.FEED):
        fed, circulate = lot.action, owned is not None
        right = fed.colonies if fed.round == 1 else _fetched_from(book, lot)
        right = right if circulate else 0
        if fed.feeders != right:
            breach = lot.stop.breach(
                counted("{number} feeder left", "{number} feeders left", fed.feeders),
                figure(right),
            )
            # Other visits may be known to have left or fetched them otherwise.
            own = fed.round == 1 or not circulate
            yield breach._replace(ahead=breach.ahead and own)


def _fetched_from(book: Book, lot: Lot) -> int:
    """Colonies of a feed whose feeders were fetched since their round before."""
    yard = lot.stop.call.yard
    fetched = [one.turn for one in lots(book, yard, Job.FEEDERS) if one.turn < lot.turn]
    if not fetched:
        return 0
    this, last = (lots(book, yard, Job.FEED, lot.action.round - back) for back in (0, 1))
    done = colonies_in([one for one in this if one.turn < lot.turn])
    had = colonies_in([one for one in last if one.turn < fetched[-1]])
    return max(0, min(lot.colonies, had - done))


def feeders_owned(book: Book) -> Breaches:
    """The feed store has the feeders a trip leaves in yards.

    Collected ones serve on no stop of their trip.
    """
    for minute, count, there, trip in _feeders_short(book, NOT_LATE):
        said = counted(
            "{number} feeder loaded {start}",
            "{number} feeders loaded {start}",
            count,
            start=when(minute),
        )
        yield Breach(said, phrase("the {count} at the store", count=there), trip)


def feeders_off(book: Book) -> Breaches:
    """Feeders are collected where they circulate, all that stand there, when they are empty.

    Empty they are once every colony has had its last round and the bees' time for it is over.
    """
    outfit = book.outfit
    for yard in book.yards.values():
        need = need_of(outfit, yard)
        down_min = taken_down_min(outfit, yard)
        for lot in lots(book, yard.id, Job.FEEDERS):
            before = [one for one in lots(book, yard.id, Job.FEED) if one.turn < lot.turn]
            gone = [one for one in lots(book, yard.id, Job.FEEDERS) if one.turn < lot.turn]
            stand = sum(one.action.feeders for one in before)
            stand -= sum(one.action.feeders_off for one in gone)
            if lot.action.feeders_off != max(0, stand) or not stand:
                yield breach_at(
                    lot,
                    counted("{number} feeder off", "{number} feeders off", lot.action.feeders_off),
                    phrase("all {all}", all=stand),
                )
            last = [one for one in before if one.action.round == need.rounds]
            if colonies_in(last) < yard.colonies or not need.rounds:
                said = counted(
                    "feeders off with {number} colony fed for the last time",
                    "feeders off with {number} colonies fed for the last time",
                    colonies_in(last),
                )
                yield breach_at(lot, said, phrase("all {all}", all=yard.colonies))
            elif last and lot.stop.call.start_min < last[-1].stop.call.start_min + down_min:
                from_min = last[-1].stop.call.start_min + down_min
                said = phrase("feeders off {start}", start=when(lot.stop.call.start_min))
                yield breach_at(lot, said, phrase("empty, from {start}", start=when(from_min)))
