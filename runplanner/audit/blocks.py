"""Fondant blocks: who gets them at take-off, and further ones later."""

from runplanner.audit.book import Book
from runplanner.audit.findings import Breach, Breaches, figure
from runplanner.audit.lots import Lot, breach_at, colonies_in, lots, stop_numbers
from runplanner.audit.need import need_of
from runplanner.daybook.trip import Job
from runplanner.outfit.yards import Yard
from runplanner.phrase import counted, joined, phrase


def blocks_at_take_off(book: Book) -> Breaches:
    """A take-off gives blocks to just those colonies that get no syrup in time.

    That is, the colonies of this stop that are not fed in the same stop, by this visit or one
    that its truck goes on to without a drive.  Where a second trip may spare the block, those
    fed later the same day may have one or not.  A yard that needs no feed gets no blocks.
    """
    for yard in book.yards.values():
        for turn in sorted({lot.turn for lot in lots(book, yard.id, Job.TAKE_OFF)}):
            given = [lot for lot in lots(book, yard.id, Job.BLOCK) if lot.turn == turn]
            count = colonies_in(given)
            least, most = _wanted(book, yard, turn)
            trip = book.visits[yard.id][turn].trip.id
            if not least <= count <= most:
                allowed = figure(least) if least == most else joined(" .. ", least, most)
                yield Breach(
                    counted("blocks to {number} colony", "blocks to {number} colonies", count),
                    allowed,
                    trip,
                    yard.id,
                )
            yield from _pieces(given, book.outfit.rules.blocks)


def _pieces(some: list[Lot], each: int) -> Breaches:
    for lot in some:
        given = lot.action
        if given.pieces != given.colonies * each:
            said = phrase(
                "{pieces} for {colonies}",
                pieces=counted("{number} block", "{number} blocks", given.pieces),
                colonies=counted("{number} colony", "{number} colonies", given.colonies),
            )
            yield lot.stop.breach(said, phrase("{each} each", each=each))


def _wanted(book: Book, yard: Yard, turn: int) -> tuple[int, int]:
    """Fewest and most colonies of this stop's take-off that are to get blocks."""
    if not need_of(book.outfit, yard).rounds:
        return 0, 0
    off, fed = lots(book, yard.id, Job.TAKE_OFF), lots(book, yard.id, Job.FEED, 1)
    before = colonies_in([lot for lot in off if lot.turn < turn])
    after = colonies_in([lot for lot in off if lot.turn <= turn])
    day = book.visits[yard.id][turn].shift.day
    stops = stop_numbers(book, yard.id)
    here = colonies_in([lot for lot in fed if stops[lot.turn] <= stops[turn]])
    today = colonies_in([lot for lot in fed if lot.turn <= turn or lot.stop.shift.day == day])
    rules = book.outfit.rules
    most = after - max(before, min(after, here))
    least = after - max(before, min(after, today if rules.same_day_second_trip else here))
    return (least if rules.blocks else 0), most


def further_blocks(book: Book) -> Breaches:
    """Blocks without a take-off: nothing else at that stop, as many each, to who waits.

    Strict reading of "a later visit with blocks only": the stop has no other job.
    """
    for yard in book.yards.values():
        off = lots(book, yard.id, Job.TAKE_OFF)
        with_take_off = {lot.turn for lot in off}
        for lot in lots(book, yard.id, Job.BLOCK):
            if lot.turn not in with_take_off:
                yield from _further(book, yard, lot)


def _further(book: Book, yard: Yard, lot: Lot) -> Breaches:
    off, fed = lots(book, yard.id, Job.TAKE_OFF), lots(book, yard.id, Job.FEED, 1)
    gone = colonies_in([each for each in off if each.turn < lot.turn])
    served = colonies_in([each for each in fed if each.turn < lot.turn])
    if len(lot.stop.call.actions) > 1:
        yield breach_at(
            lot, phrase("further blocks along with other jobs"), phrase("a visit for blocks alone")
        )
    if lot.colonies > max(0, gone - served):
        allowed = phrase("the {colonies} off and not yet fed", colonies=max(0, gone - served))
        yield breach_at(
            lot,
            counted(
                "further blocks to {number} colony",
                "further blocks to {number} colonies",
                lot.colonies,
            ),
            allowed,
        )
    yield from _pieces([lot], max(1, lot.action.pieces // max(1, lot.action.colonies)))
