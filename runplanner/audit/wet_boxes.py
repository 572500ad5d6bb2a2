"""Wet boxes: emptied boxes that stand above the cover boards for some days, and come back.

They go to their own yard, whole, when all of it is off and spun; strips and syrup wait.
"""

from runplanner.audit.book import Book
from runplanner.audit.findings import Breaches, when, word
from runplanner.audit.honey_house import last_box_spun
from runplanner.audit.lots import Lot, breach_at, breach_between, colonies_in, lots
from runplanner.audit.need import closed
from runplanner.audit.whole import ceil_div
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN
from runplanner.outfit.yards import Yard
from runplanner.phrase import counted, phrase


def whose(book: Book) -> Breaches:
    """Only yards meant to get wet boxes back do, all that came off there at once, and once.

    What is collected is all that stands there; a driver may have left some for the next visit.
    A truck that is out may have fewer aboard than then turned out to have come off, never more.
    """
    for yard in book.yards.values():
        for number, lot in enumerate(lots(book, yard.id, Job.WET_UP)):
            right = _came_off(book, yard.id, lot.turn) if yard.wet_back else 0
            if lot.action.wet != right or number:
                said = counted(
                    "{job}: {number} box in visit {visit} for it",
                    "{job}: {number} boxes in visit {visit} for it",
                    lot.action.wet,
                    job=word(Job.WET_UP),
                    visit=number + 1,
                )
                breach = breach_at(lot, said, phrase("{wet}, once", wet=right))
                yield breach._replace(ahead=lot.stop.ahead and lot.action.wet > right)
        for lot in lots(book, yard.id, Job.WET_DOWN):
            stood = _standing(book, yard.id, lot.turn)
            if lot.action.wet != stood:
                yield breach_at(
                    lot,
                    counted(
                        "{job}: {number} box",
                        "{job}: {number} boxes",
                        lot.action.wet,
                        job=word(Job.WET_DOWN),
                    ),
                    phrase("all {all}", all=stood),
                )
        for lot in (*lots(book, yard.id, Job.WET_UP), *lots(book, yard.id, Job.WET_DOWN)):
            if lot.action.colonies != yard.colonies:
                said = counted(
                    "{job} at {number} colony",
                    "{job} at {number} colonies",
                    lot.action.colonies,
                    job=word(lot.action.job),
                )
                yield breach_at(lot, said, phrase("all {all}", all=yard.colonies))


def _came_off(book: Book, yard_id: str, turn: int) -> int:
    """Return the full boxes taken off in a yard before a turn."""
    offs = lots(book, yard_id, Job.TAKE_OFF)
    return sum(lot.action.boxes for lot in offs if lot.turn < turn)


def _standing(book: Book, yard_id: str, turn: int | None = None) -> int:
    """Return the wet boxes that stand in a yard before a turn, or in the end."""
    ups, downs = (
        sum(lot.action.wet for lot in lots(book, yard_id, job) if turn is None or lot.turn < turn)
        for job in (Job.WET_UP, Job.WET_DOWN)
    )
    return ups - downs


def _gone(book: Book, yard_id: str) -> Lot | None:
    """Return the visit after which no wet box stands in a yard any more, if there is one."""
    downs = lots(book, yard_id, Job.WET_DOWN)
    return downs[-1] if downs and _standing(book, yard_id) <= 0 else None


def spun(book: Book) -> Breaches:
    """Wet boxes are loaded when the whole yard is off and the last of its boxes is spun."""
    for yard in book.yards.values():
        for lot in lots(book, yard.id, Job.WET_UP):
            loaded = _loading(book, lot)
            offs = [off for off in lots(book, yard.id, Job.TAKE_OFF) if off.turn < lot.turn]
            done = last_box_spun(book, yard.id)
            if colonies_in(offs) < yard.colonies:
                said = counted(
                    "wet boxes up when {number} colony is off",
                    "wet boxes up when {number} colonies are off",
                    colonies_in(offs),
                )
                yield breach_at(lot, said, phrase("all {all}", all=yard.colonies))
            elif done is not None and loaded < done:
                said = phrase("wet boxes loaded {loaded}", loaded=when(loaded))
                yield breach_at(lot, said, phrase("when they are spun, {done}", done=when(done)))


def _loading(book: Book, lot: Lot) -> int:
    """Minute at which the trip of a lot starts to load."""
    starts = (s[0].call.start_min for s in book.trips() if s[0].trip.id == lot.stop.trip.id)
    return min(starts, default=lot.stop.call.start_min)


def at_dusk(book: Book) -> Breaches:
    """A visit that puts wet boxes up starts no sooner than the rules say, for robbing."""
    clock_min = book.outfit.rules.wet_from_min
    for yard_id in book.yards:
        for lot in lots(book, yard_id, Job.WET_UP):
            from_min = lot.stop.shift.day * DAY_MIN + clock_min
            if lot.stop.call.start_min < from_min:
                said = phrase("wet boxes put up {start}", start=when(lot.stop.call.start_min))
                yield breach_at(lot, said, phrase("from {start}", start=when(from_min)))


def down(book: Book) -> Breaches:
    """What is put up is collected, after so many nights; what is not up cannot be collected.

    Boxes in a yard that must not be visited any more stay there.
    """
    least = book.outfit.rules.wet_least_days
    for yard in book.yards.values():
        up, off = lots(book, yard.id, Job.WET_UP), lots(book, yard.id, Job.WET_DOWN)
        if up and _standing(book, yard.id) > 0 and not closed(yard):
            stood = counted(
                "{number} wet box left standing",
                "{number} wet boxes left standing",
                _standing(book, yard.id),
            )
            yield breach_at(up[0], stood, phrase("collected"))
        for lot in off:
            if _standing(book, yard.id, lot.turn) <= 0:
                yield breach_at(lot, phrase("wet boxes collected"), phrase("put up before"))
            elif lot.stop.shift.day - up[0].stop.shift.day < least:
                days = lot.stop.shift.day - up[0].stop.shift.day
                yield breach_at(
                    lot,
                    counted("collected after {number} day", "collected after {number} days", days),
                    counted("{number} day or more", "{number} days or more", least),
                )


def alone(book: Book) -> Breaches:
    """Where wet boxes are put up, no syrup and no strips before the last is collected."""
    for yard_id in book.yards:
        up, free = lots(book, yard_id, Job.WET_UP), _gone(book, yard_id)
        for lot in (*lots(book, yard_id, Job.FEED), *lots(book, yard_id, Job.STRIPS)):
            if up and (free is None or lot.turn < free.turn):
                said = phrase(
                    "{job} {start}", job=word(lot.action.job), start=when(lot.stop.call.start_min)
                )
                allowed = phrase("after the wet boxes are collected")
                yield breach_between(lot, up[0], said, allowed)


def long_wet_days(book: Book) -> int:
    """Return colony-days, each started, that the last wet boxes stand for longer than is best."""
    best, total = book.outfit.rules.wet_best_days * DAY_MIN, 0
    for yard in book.yards.values():
        up, last = lots(book, yard.id, Job.WET_UP), _gone(book, yard.id)
        if up and last is not None:
            stood = last.stop.call.start_min - up[0].stop.call.start_min
            total += yard.colonies * ceil_div(max(0, stood - best), DAY_MIN)
    return total


def not_back(book: Book, yard: Yard) -> int:
    """Return the colonies that should get their wet boxes back and do not."""
    due = yard.wet_back and yard.boxes > 0 and not closed(yard)
    return 0 if not due or lots(book, yard.id, Job.WET_UP) else yard.colonies


def left_up(book: Book, yard: Yard) -> int:
    """Return the colonies of a yard in which wet boxes still stand, and should not."""
    due = yard.wet_back and yard.boxes > 0 and not closed(yard)
    return yard.colonies if due and _standing(book, yard.id) > 0 else 0
