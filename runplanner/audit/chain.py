"""The chain of a yard: boards, take-off, feed and strips in their order and amounts."""

from runplanner.audit.book import Book
from runplanner.audit.cover import lasts_min
from runplanner.audit.findings import Breach, Breaches, any_of, figure, on_day, when, word
from runplanner.audit.lots import (
    Lot,
    boards_lain,
    cleared_as_usual,
    colonies_in,
    driven_colonies,
    lots,
    pairs,
)
from runplanner.audit.need import fed_without_take_off, need_of
from runplanner.audit.strips import kind_for
from runplanner.audit.whole import ceil_div
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Deadline
from runplanner.outfit.yards import Clearing, Yard
from runplanner.phrase import Phrase, counted, phrase


def breach_at(lot: Lot, said: Phrase, allowed: Phrase) -> Breach:
    """Return a breach at the stop of ``lot``."""
    return Breach(said, allowed, lot.stop.trip.id, lot.stop.call.yard)


_WHOLE_YARD = (Job.WET_DOWN, Job.FEEDERS, Job.WET_UP)


def colony_counts(book: Book) -> Breaches:
    """No job is done to more colonies than the yard has; feed is counted by round.

    Feeders and wet boxes are fetched from a yard, and may be in more than one visit.
    """
    for yard in book.yards.values():
        for job in (Job.BOARDS, Job.TAKE_OFF, Job.FEED, *_WHOLE_YARD):
            for number in sorted({lot.action.round for lot in lots(book, yard.id, job)}):
                done = 0
                for lot in lots(book, yard.id, job, number):
                    done = lot.colonies if job in _WHOLE_YARD else done + lot.colonies
                    if done > yard.colonies:
                        yield breach_at(
                            lot,
                            counted(
                                "{job} to {number} colony",
                                "{job} to {number} colonies",
                                done,
                                job=word(job),
                            ),
                            figure(yard.colonies),
                        )


def box_shares(book: Book) -> Breaches:
    """Boxes taken after n colonies are n's share of the yard's, rounded up."""
    for yard in book.yards.values():
        done = 0
        for lot in lots(book, yard.id, Job.TAKE_OFF):
            after = done + lot.colonies
            for name, total, taken in (
                (phrase("honey boxes"), yard.boxes, lot.action.boxes),
                (phrase("brood boxes"), yard.brood_boxes_off, lot.action.brood_boxes),
            ):
                right = _share(yard, total, after) - _share(yard, total, done)
                if taken != right:
                    said = phrase(
                        "{taken} {name} off colonies {first} to {after}",
                        taken=taken,
                        name=name,
                        first=done + 1,
                        after=after,
                    )
                    yield breach_at(lot, said, figure(right))
            done = after


def _share(yard: Yard, total: int, colonies: int) -> int:
    return ceil_div(colonies * total, yard.colonies) if yard.colonies else 0


def ready_days(book: Book) -> Breaches:
    """A yard's take-off lies between its first and its last day."""
    for yard in book.yards.values():
        for lot in lots(book, yard.id, Job.TAKE_OFF):
            if not yard.ready_from_day <= lot.stop.shift.day <= yard.finish_by_day:
                said = phrase("take-off on {day}", day=on_day(lot.stop.shift.day))
                yield breach_at(
                    lot,
                    said,
                    phrase(
                        "day {first} .. {last}",
                        first=yard.ready_from_day,
                        last=yard.finish_by_day,
                    ),
                )


def take_off_deadline(book: Book) -> Breaches:
    """A hard last day for take-off is kept."""
    yield from _deadline(book, Job.TAKE_OFF, book.outfit.season.take_off_by)


def feed_deadline(book: Book) -> Breaches:
    """A hard last day for feeding is kept by every round."""
    yield from _deadline(book, Job.FEED, book.outfit.season.feed_by)


def strips_deadline(book: Book) -> Breaches:
    """A hard last day for strips is kept."""
    yield from _deadline(book, Job.STRIPS, book.outfit.season.strips_by)


def _deadline(book: Book, job: Job, by: Deadline) -> Breaches:
    for yard_id in book.yards if by.hard else ():
        for lot in lots(book, yard_id, job):
            if lot.stop.shift.day > by.day:
                yield breach_at(
                    lot,
                    phrase("{job} on {day}", job=word(job), day=on_day(lot.stop.shift.day)),
                    phrase("{day} or before", day=on_day(by.day)),
                )


def boards_first(book: Book) -> Breaches:
    """Under boards, a colony comes off a night and long enough after its board went on."""
    least = book.outfit.rules.board_least_min
    for yard in _under_boards(book):
        off = cleared_as_usual(lots(book, yard.id, Job.TAKE_OFF))
        for count, board, lot in pairs(boards_lain(book, yard.id), off):
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


def _under_boards(book: Book) -> list[Yard]:
    return [yard for yard in book.yards.values() if _boarded(yard)]


def _boarded(yard: Yard) -> bool:
    """Tell whether a yard's honey is cleared by boards; without honey there is nothing to clear."""
    return yard.clearing is Clearing.BOARDS and yard.boxes > 0


def board_counts(book: Book) -> Breaches:
    """One board for each colony goes on and comes back; only yards cleared so have boards."""
    for yard in book.yards.values():
        under = _boarded(yard)
        for lot in lots(book, yard.id, Job.BOARDS):
            right = lot.colonies if under else 0
            if lot.action.pieces != right or not under:
                yield breach_at(
                    lot,
                    counted("{number} board put on", "{number} boards put on", lot.action.pieces),
                    figure(right),
                )
        for lot in lots(book, yard.id, Job.TAKE_OFF):
            right = lot.colonies if under and lot.action.way is None else 0
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


def boards_left(book: Book) -> Breaches:
    """No board stays under a colony: none that comes off another way has one, all come back.

    Boards that lay before the campaign or that a driven trip put on may still wait for a
    take-off that is left undone.
    """
    for yard in _under_boards(book):
        off = lots(book, yard.id, Job.TAKE_OFF)
        yield from _off_beside_boards(book, yard, off)
        lain, lifted = boards_lain(book, yard.id), colonies_in(cleared_as_usual(off))
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


def honey_off_first(book: Book) -> Breaches:
    """No syrup goes into a yard before all of its colonies are taken off."""
    yield from _after_take_off(book, Job.FEED)


def strips_after_honey(book: Book) -> Breaches:
    """No strips go into a yard before all of its colonies are taken off."""
    yield from _after_take_off(book, Job.STRIPS)


def _after_take_off(book: Book, job: Job) -> Breaches:
    """The stop of the last take-off itself is late enough."""
    for yard in book.yards.values():
        if fed_without_take_off(yard):
            continue
        off = lots(book, yard.id, Job.TAKE_OFF)
        for lot in lots(book, yard.id, job):
            done = colonies_in([each for each in off if each.turn <= lot.turn])
            if done < yard.colonies:
                said = counted(
                    "{job} when {number} colony is off",
                    "{job} when {number} colonies are off",
                    done,
                    job=word(job),
                )
                yield breach_at(lot, said, phrase("all {all}", all=yard.colonies))


def feed_amounts(book: Book) -> Breaches:
    """Each round pours the same, worked out from the need, and no round is too many."""
    for yard in book.yards.values():
        need = need_of(book.outfit, yard)
        for lot in lots(book, yard.id, Job.FEED):
            if lot.action.round > need.rounds:
                yield breach_at(
                    lot,
                    phrase("feed round {round}", round=lot.action.round),
                    counted("{number} round", "{number} rounds", need.rounds),
                )
            elif lot.action.ml != lot.colonies * need.round_ml:
                said = counted(
                    "{ml} ml for {number} colony",
                    "{ml} ml for {number} colonies",
                    lot.colonies,
                    ml=lot.action.ml,
                )
                yield breach_at(lot, said, phrase("{ml} ml each", ml=need.round_ml))


def feed_spacing(book: Book) -> Breaches:
    """A round starts no sooner than the bees can have taken down the round before."""
    for yard in book.yards.values():
        gap = _taken_down_min(book, yard)
        rounds = sorted({lot.action.round for lot in lots(book, yard.id, Job.FEED)})
        for number in (each for each in rounds if each > 1):
            before = lots(book, yard.id, Job.FEED, number - 1)
            for count, last, lot in pairs(before, lots(book, yard.id, Job.FEED, number)):
                start = lot.stop.call.start_min
                said = counted(
                    "round {round} of {number} colony {start}",
                    "round {round} of {number} colonies {start}",
                    count,
                    start=when(start),
                    round=number,
                )
                if last is None:
                    yield breach_at(
                        lot, said, phrase("round {number} before it", number=number - 1)
                    )
                elif start < last.stop.call.start_min + gap:
                    yield breach_at(
                        lot,
                        said,
                        phrase("{start} or later", start=when(last.stop.call.start_min + gap)),
                    )


def strips_at_once(book: Book) -> Breaches:
    """All colonies of a yard get their strips in one visit."""
    for yard in book.yards.values():
        done = lots(book, yard.id, Job.STRIPS)
        for lot in done:
            if lot.colonies != yard.colonies or len(done) > 1:
                said = counted(
                    "strips to {number} colony in one of {done} visits",
                    "strips to {number} colonies in one of {done} visits",
                    lot.colonies,
                    done=len(done),
                )
                yield breach_at(
                    lot, said, phrase("all {colonies} in one visit", colonies=yard.colonies)
                )


def strip_doses(book: Book) -> Breaches:
    """Every colony gets its exact number of strips, of the kind that its yard names."""
    for yard_id in book.yards:
        dose = kind_for(book.outfit, yard_id).per_colony
        for lot in lots(book, yard_id, Job.STRIPS):
            if lot.action.pieces != lot.colonies * dose:
                said = phrase(
                    "{pieces} for {colonies}",
                    pieces=counted("{number} strip", "{number} strips", lot.action.pieces),
                    colonies=counted("{number} colony", "{number} colonies", lot.colonies),
                )
                yield breach_at(lot, said, phrase("{each} each", each=dose))


def feeding_bans(book: Book) -> Breaches:
    """After strips that forbid it, no syrup and no fondant for so many days.

    Strict reading: the ban starts with the day of the strips, whatever the hour, and syrup
    poured before is taken down by then, as before a further round.  So is fondant eaten, where
    colonies still live on it.
    """
    for yard_id, yard in book.yards.items():
        ban = kind_for(book.outfit, yard_id).no_feed_days
        days = [lot.stop.shift.day for lot in lots(book, yard_id, Job.STRIPS)]
        fed = [*lots(book, yard_id, Job.FEED), *lots(book, yard_id, Job.BLOCK)]
        for lot in fed:
            for day in days:
                if day <= lot.stop.shift.day < day + ban:
                    said = phrase(
                        "{job} on {day}", job=word(lot.action.job), day=on_day(lot.stop.shift.day)
                    )
                    allowed = phrase(
                        "before {day} or from {later}", day=on_day(day), later=on_day(day + ban)
                    )
                    yield breach_at(lot, said, allowed)
        if ban:
            yield from _over_full_feeders(book, yard)
            yield from _over_blocks(book, yard)


def _over_full_feeders(book: Book, yard: Yard) -> Breaches:
    """Strips that forbid feeding go in once the bees can have taken down what was poured.

    Syrup of the same day breaks the ban as it is.
    """
    poured = lots(book, yard.id, Job.FEED)
    gap = _taken_down_min(book, yard)
    for strips in lots(book, yard.id, Job.STRIPS):
        start, day = strips.stop.call.start_min, strips.stop.shift.day
        before = [lot.stop.call.start_min for lot in poured if lot.stop.shift.day < day]
        if before and start < max(before) + gap:
            said = phrase(
                "strips {start}, syrup {poured}", start=when(start), poured=when(max(before))
            )
            yield breach_at(strips, said, phrase("{start} or later", start=when(max(before) + gap)))


def _over_blocks(book: Book, yard: Yard) -> Breaches:
    """Strips that forbid feeding go in once blocks are eaten, where colonies wait for syrup.

    Strict reading: all blocks count that the yard got, each by itself, as long as any colony
    waits.  Blocks of the same day break the ban as it is.
    """
    given = lots(book, yard.id, Job.BLOCK)
    for strips in lots(book, yard.id, Job.STRIPS):
        start, day = strips.stop.call.start_min, strips.stop.shift.day
        before = [lot for lot in given if lot.stop.shift.day < day]
        if before and _waiting(book, yard, strips.turn):
            last = max(before, key=lambda lot: _eaten(book, lot))
            if start < _eaten(book, last):
                put_on = when(last.stop.call.start_min)
                said = phrase("strips {start}, fondant {given}", start=when(start), given=put_on)
                allowed = phrase("{start} or later", start=when(_eaten(book, last)))
                yield breach_at(strips, said, allowed)


def _waiting(book: Book, yard: Yard, turn: int) -> bool:
    """Tell whether colonies taken off before a visit still wait for their first syrup then."""
    off, fed = lots(book, yard.id, Job.TAKE_OFF), lots(book, yard.id, Job.FEED, 1)
    gone = colonies_in([lot for lot in off if lot.turn < turn])
    return colonies_in([lot for lot in fed if lot.turn < turn]) < gone


def _eaten(book: Book, lot: Lot) -> int:
    """Return when a colony has eaten the blocks it got at one visit."""
    outfit = book.outfit
    each = outfit.rules.blocks if lot.stop.did(Job.TAKE_OFF) else 1
    return lot.stop.call.start_min + lasts_min(outfit, each * outfit.kit.block_g)


def _taken_down_min(book: Book, yard: Yard) -> int:
    """Return how long the bees take over one round."""
    need = need_of(book.outfit, yard)
    return ceil_div(need.round_ml * DAY_MIN, book.outfit.feed.uptake_ml_per_day)


def smallest_lots(book: Book) -> Breaches:
    """A take-off or feed of a part of a yard is of enough colonies to be worth it.

    What trips already driven left over is always worth it.
    """
    smallest = book.outfit.rules.smallest_lot
    for yard in book.yards.values():
        for job in (Job.TAKE_OFF, Job.FEED):
            for lot in lots(book, yard.id, job):
                before = driven_colonies(lots(book, yard.id, job, lot.action.round))
                least = min(smallest, yard.colonies - before)
                if lot.colonies < least and not lot.stop.trip.driven:
                    yield breach_at(
                        lot,
                        counted(
                            "{job} of {number} colony",
                            "{job} of {number} colonies",
                            lot.colonies,
                            job=word(job),
                        ),
                        phrase("{least} or more", least=least),
                    )
