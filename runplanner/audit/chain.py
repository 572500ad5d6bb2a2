"""The chain of a yard: take-off, feed and strips in their order and amounts."""

from runplanner.audit.book import Book
from runplanner.audit.findings import Breaches, figure, on_day, when, word
from runplanner.audit.lots import (
    Lot,
    boards_still_on,
    breach_at,
    breach_between,
    colonies_in,
    driven_colonies,
    lots,
    pairs,
    stop_numbers,
)
from runplanner.audit.need import fed_without_take_off, need_of, taken_down_min
from runplanner.audit.strips import kind_for
from runplanner.audit.whole import ceil_div
from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Deadline
from runplanner.outfit.yards import Yard
from runplanner.phrase import counted, phrase

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
            fed = lot.action
            if fed.round > need.rounds:
                yield lot.stop.breach(
                    phrase("feed round {round}", round=fed.round),
                    counted("{number} round", "{number} rounds", need.rounds),
                )
            elif fed.ml != fed.colonies * need.round_ml:
                said = counted(
                    "{ml} ml for {number} colony",
                    "{ml} ml for {number} colonies",
                    fed.colonies,
                    ml=fed.ml,
                )
                yield lot.stop.breach(said, phrase("{ml} ml each", ml=need.round_ml))


def feed_spacing(book: Book) -> Breaches:
    """A round starts no sooner than the bees can have taken down the round before."""
    for yard in book.yards.values():
        gap = taken_down_min(book.outfit, yard)
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
                    yield breach_between(
                        lot,
                        last,
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
                allowed = phrase("all {colonies} in one visit", colonies=yard.colonies)
                breach, short = lot.stop.breach(said, allowed), lot.action.colonies < yard.colonies
                # By counts, strips on their way may have gone in by another visit.
                yield breach._replace(ahead=breach.ahead and short)


def strip_doses(book: Book) -> Breaches:
    """Every colony gets its exact number of strips, of the kind that its yard names."""
    for yard_id in book.yards:
        dose = kind_for(book.outfit, yard_id).per_colony
        for lot in lots(book, yard_id, Job.STRIPS):
            hung = lot.action
            if hung.pieces != hung.colonies * dose:
                said = phrase(
                    "{pieces} for {colonies}",
                    pieces=counted("{number} strip", "{number} strips", hung.pieces),
                    colonies=counted("{number} colony", "{number} colonies", hung.colonies),
                )
                yield lot.stop.breach(said, phrase("{each} each", each=dose))


def smallest_lots(book: Book) -> Breaches:
    """A take-off or feed of a part of a yard is of enough colonies to be worth it.

    Lots at one stop are one part.  What trips already driven left over is always worth it, and
    so is what the boards that they put on left over.
    """
    smallest = book.outfit.rules.smallest_lot
    for yard in book.yards.values():
        stops = stop_numbers(book, yard.id)
        for job in (Job.TAKE_OFF, Job.FEED):
            for lot in lots(book, yard.id, job):
                some = lots(book, yard.id, job, lot.action.round)
                here = [one for one in some if stops[one.turn] == stops[lot.turn]]
                least = min(smallest, yard.colonies - driven_colonies(some))
                if colonies_in(here) < least and not (
                    lot.stop.trip.driven or (job is Job.TAKE_OFF and _boards_left(book, some, lot))
                ):
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


def _boards_left(book: Book, off: list[Lot], lot: Lot) -> bool:
    """Tell whether a lot is all the colonies that driven trips have left without boards.

    They come off last, or by the yard's other way, for boards serve in the order they lie.
    """
    yard = book.yards[lot.stop.call.yard]
    with_honey = yard.colonies - driven_colonies(off)
    bare = with_honey - min(boards_still_on(book, yard.id), with_honey)
    last = lot.turn == off[-1].turn and colonies_in(off) == yard.colonies
    return lot.colonies == bare and (last or lot.action.way is not None)
