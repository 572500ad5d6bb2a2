"""Boards, feeders, blocks and strips: what is owned and in stock is enough."""

from collections.abc import Callable, Iterator

from runplanner.audit.book import Book
from runplanner.audit.cargo import Cargo, boards_on
from runplanner.audit.findings import Breach, Breaches, figure, shown, when
from runplanner.audit.lots import Lot, breach_at, colonies_in, lots
from runplanner.audit.need import need_of, taken_down_min
from runplanner.audit.strips import kind_for, kinds
from runplanner.daybook.trip import Job
from runplanner.phrase import Phrase, counted, phrase


def boards_owned(book: Book) -> Breaches:
    """The feed store has the boards a trip loads.

    Boards leave the store when loading starts and are back when the trip's last call ends, or
    where that is elsewhere, when the truck next loads there; those put on stay out until they
    are taken off, and so do those that lay at yards before.
    """
    lying = [yard for yard in book.yards.values() if yard.boards_on_min is not None]
    kit = book.outfit.kit
    store = kit.boards_owned - sum(yard.colonies + yard.boards_dead for yard in lying)
    for minute, count, there, trip in _too_many(book, store, kit.boards_lost, _boards):
        said = counted(
            "{number} board loaded {start}",
            "{number} boards loaded {start}",
            count,
            start=when(minute),
        )
        yield Breach(said, phrase("the {count} at the store", count=there), trip)


def _boards(aboard: Cargo) -> int:
    return aboard.boards


def _feeders(aboard: Cargo) -> int:
    return aboard.feeders


def _too_many(
    book: Book, store: int, lost: tuple[tuple[int, int], ...], goods: Callable[[Cargo], int]
) -> Iterator[tuple[int, int, int, str]]:
    """Loads of goods that circulate for which too few are there: when, how many, of how many.

    Driven trips are excused what they alone lack; where planned ones take more, so that a driven
    one finds too few, the last planned one to load is named.
    """
    moves = []
    aboard: dict[str, int] = {}
    for stops in sorted(book.trips(), key=lambda stops: stops[0].call.start_min):
        first, last, one, truck = stops[0], stops[-1], stops[0].trip, stops[0].shift.truck
        moves.append((first.call.start_min, 0, aboard.pop(truck, 0), one.id, one.driven))
        moves.append((first.call.start_min, 1, -goods(first.after), one.id, one.driven))
        if last.call.place == book.outfit.feed_store.place:
            moves.append((last.call.end_min, 0, goods(last.before), one.id, one.driven))
        else:
            aboard[truck] = goods(last.before)
    # What was lost leaves the store at its minute, behind the loads of that minute.
    moves += [(minute, 2, -count, "", True) for minute, count in lost]
    others, taker = 0, ""
    for minute, leaves, count, trip, driven in sorted(moves):
        store += count
        if not driven:
            others += count
            taker = trip if leaves == 1 and count else taker
        if leaves == 1 and count and store < (min(0, store - others) if driven else 0):
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
    yield from _run_out(every, pieces, book.outfit.kit.blocks_owned, phrase("fondant blocks"))


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

    They leave the store when loading starts; collected ones are back when the last call of
    their trip ends, or where that is elsewhere, when the truck next loads there, and serve on
    no stop of that trip.
    """
    store = book.outfit.kit.feeders_owned
    if store is None:
        return
    for minute, count, there, trip in _too_many(
        book, store, book.outfit.kit.feeders_lost, _feeders
    ):
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
