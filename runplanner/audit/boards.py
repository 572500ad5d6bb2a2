"""Clearer boards under a yard's colonies: on a night before, one each, all back; other ways."""

from collections.abc import Iterator, Sequence

from runplanner.audit.book import Book
from runplanner.audit.findings import Breaches, any_of, figure, when, word
from runplanner.audit.lots import (
    Lain,
    Lot,
    boards_lain,
    breach_at,
    cleared_as_usual,
    colonies_in,
    lots,
    pairs,
)
from runplanner.daybook.trip import Job
from runplanner.outfit.yards import Clearing, Yard
from runplanner.phrase import counted, phrase


def boards_first(book: Book) -> Breaches:
    """Under boards, a colony comes off a night and long enough after its board went on."""
    least = book.outfit.rules.board_least_min
    for yard in _under_boards(book):
        lain = boards_lain(book, yard.id)
        off = _over_boards(lain, lots(book, yard.id, Job.TAKE_OFF))
        for count, board, lot in pairs(lain, off):
            start = lot.stop.call.start_min
            said = counted(
                "{number} colony comes off {start}",
                "{number} colonies come off {start}",
                count,
                start=when(start),
            )
            if board is None:
                yield breach_at(
                    lot, phrase("{said} without boards", said=said), phrase("boards put on before")
                )
            elif board.day >= lot.stop.shift.day:
                yield breach_at(
                    lot,
                    phrase("{said}, the day their boards went on", said=said),
                    phrase("a night between"),
                )
            elif start - board.end_min < least:
                allowed = phrase("{least} min after {end}", least=least, end=when(board.end_min))
                yield breach_at(lot, said, allowed)


def _over_boards(lain: Sequence[Lain], off: Sequence[Lot]) -> list[Lot]:
    """Return the take-offs by boards; driven ones with the colonies that had boards by then.

    Boards that were never laid, or are laid after it, lie under none of its colonies.
    """
    found, lifted = [], 0
    for lot in cleared_as_usual(off):
        over = lot.colonies
        if lot.stop.trip.driven:
            start = lot.stop.call.start_min
            there = sum(boards.colonies for boards in lain if boards.end_min <= start)
            over = min(over, max(0, there - lifted))
        found.append(lot._replace(colonies=over))
        lifted += over
    return found


def _under_boards(book: Book) -> list[Yard]:
    return [yard for yard in book.yards.values() if _boarded(yard)]


def _boarded(yard: Yard) -> bool:
    """Tell whether a yard's honey is cleared by boards; without honey there is nothing to clear."""
    return yard.clearing is Clearing.BOARDS and yard.boxes > 0


def board_counts(book: Book) -> Breaches:
    """One board for each colony goes on and comes back; only yards cleared so have boards.

    The take-off that leaves no colony with honey lifts all that lie there, those where colonies
    died among them.
    """
    for yard in book.yards.values():
        under = _boarded(yard)
        for lot in lots(book, yard.id, Job.BOARDS):
            laid = lot.action
            right = laid.colonies if under else 0
            if laid.pieces != right or not under:
                breach = lot.stop.breach(
                    counted("{number} board put on", "{number} boards put on", laid.pieces),
                    figure(right),
                )
                # Its honey may be known to be off since.
                yield breach._replace(ahead=breach.ahead and laid.pieces != laid.colonies)
        for lot, right in _to_lift(book, yard, under=under):
            if lot.action.boards_off != right:
                yield breach_at(
                    lot,
                    counted(
                        "{number} board comes back",
                        "{number} boards come back",
                        lot.action.boards_off,
                    ),
                    figure(right),
                )


def _to_lift(book: Book, yard: Yard, *, under: bool) -> Iterator[tuple[Lot, int]]:
    """Yield a yard's take-offs in order, each with the boards that it is to bring back."""
    laid = lots(book, yard.id, Job.BOARDS)
    there, done = (yard.colonies + yard.boards_dead if yard.boards_on_min is not None else 0), 0
    for lot in lots(book, yard.id, Job.TAKE_OFF):
        while laid and laid[0].turn < lot.turn:
            there += laid.pop(0).action.pieces
        done += lot.colonies
        right = lot.colonies if under and lot.action.way is None else 0
        yield lot, max(right, there) if right and done >= yard.colonies else right
        there -= lot.action.boards_off


def boards_left(book: Book) -> Breaches:
    """No board stays under a colony: none that comes off another way has one, all come back.

    Boards that lay before the campaign or that a driven trip put on may still wait for a
    take-off that is left undone.
    """
    for yard in _under_boards(book):
        off = lots(book, yard.id, Job.TAKE_OFF)
        yield from _off_beside_boards(book, yard, off)
        lain = boards_lain(book, yard.id)
        lifted = colonies_in(_over_boards(lain, off))
        for boards in lain:
            left, lifted = max(0, boards.colonies - lifted), max(0, lifted - boards.colonies)
            if left and boards.planned is not None:
                yield breach_at(
                    boards.planned,
                    counted(
                        "{number} board never comes back", "{number} boards never come back", left
                    ),
                    phrase("every board"),
                )


def _off_beside_boards(book: Book, yard: Yard, off: list[Lot]) -> Breaches:
    """Go through the visits in order: colonies off and colonies over boards are different ones."""
    standing, done = (yard.colonies if yard.boards_on_min is not None else 0), 0
    turns = [*((lot.turn, 0, lot) for lot in lots(book, yard.id, Job.BOARDS)),
             *((lot.turn, 1, lot) for lot in off)]  # fmt: skip
    for _, is_off, lot in sorted(turns, key=lambda turn: turn[:2]):
        if not is_off:
            standing += lot.colonies
        else:
            done += lot.colonies
            standing -= min(standing, lot.colonies) if lot.action.way is None else 0
        if standing > max(0, yard.colonies - done):
            said = counted(
                "{number} colony off, boards under {standing} of {colonies}",
                "{number} colonies off, boards under {standing} of {colonies}",
                done,
                standing=standing,
                colonies=yard.colonies,
            )
            yield breach_at(
                lot,
                said,
                counted(
                    "at most {number} board",
                    "at most {number} boards",
                    max(0, yard.colonies - done),
                ),
            )


def ways_known(book: Book) -> Breaches:
    """A take-off clears the boxes by the yard's usual way or by the other one it has."""
    for yard in book.yards.values():
        for lot in lots(book, yard.id, Job.TAKE_OFF):
            if lot.action.way is not None and (
                lot.action.way is not yard.clearing_else or not yard.boxes
            ):
                ways = dict.fromkeys((yard.clearing, yard.clearing_else or yard.clearing))
                yield breach_at(
                    lot,
                    phrase("boxes cleared by {way}", way=word(lot.action.way)),
                    any_of(ways),
                )
