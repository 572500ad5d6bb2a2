"""Wet boxes: emptied boxes that stand above the cover boards for some days, and come back.

They go to their own yard, whole, when all of it is off and spun; strips and syrup wait.
"""

from runplanner.audit.book import Book
from runplanner.audit.chain import breach_at
from runplanner.audit.findings import Breaches, when
from runplanner.audit.honey_house import last_box_spun
from runplanner.audit.lots import Lot, colonies_in, lots
from runplanner.audit.need import closed
from runplanner.audit.whole import ceil_div
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN
from runplanner.outfit.yards import Yard


def whose(book: Book) -> Breaches:
    """Only yards meant to get wet boxes back do, all of their own at once, and once."""
    for yard in book.yards.values():
        right = yard.boxes if yard.wet_back else 0
        for job in (Job.WET_UP, Job.WET_DOWN):
            for number, lot in enumerate(lots(book, yard.id, job)):
                if lot.action.wet != right or number:
                    said = f"{lot.action.wet} boxes in visit {number + 1} for it"
                    yield breach_at(lot, f"{job}: {said}", f"{right}, once")
                elif lot.action.colonies != yard.colonies:
                    said = f"{job} at {lot.action.colonies} colonies"
                    yield breach_at(lot, said, f"all {yard.colonies}")


def spun(book: Book) -> Breaches:
    """Wet boxes are loaded when the whole yard is off and the last of its boxes is spun."""
    for yard in book.yards.values():
        for lot in lots(book, yard.id, Job.WET_UP):
            loaded = _loading(book, lot)
            offs = [off for off in lots(book, yard.id, Job.TAKE_OFF) if off.turn < lot.turn]
            done = last_box_spun(book, yard.id)
            if colonies_in(offs) < yard.colonies:
                said = f"wet boxes up when {colonies_in(offs)} colonies are off"
                yield breach_at(lot, said, f"all {yard.colonies}")
            elif done is not None and loaded < done:
                said = f"wet boxes loaded {when(loaded)}"
                yield breach_at(lot, said, f"when they are spun, {when(done)}")


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
                said = f"wet boxes put up {when(lot.stop.call.start_min)}"
                yield breach_at(lot, said, f"from {when(from_min)}")


def down(book: Book) -> Breaches:
    """What is put up is collected, after so many nights; what is not up cannot be collected.

    Boxes in a yard that must not be visited any more stay there.
    """
    least = book.outfit.rules.wet_least_days
    for yard in book.yards.values():
        up, off = lots(book, yard.id, Job.WET_UP), lots(book, yard.id, Job.WET_DOWN)
        if up and not off and not closed(yard):
            yield breach_at(up[0], "wet boxes left standing", "collected")
        for lot in off:
            if not up or up[0].turn > lot.turn:
                yield breach_at(lot, "wet boxes collected", "put up before")
            elif lot.stop.shift.day - up[0].stop.shift.day < least:
                days = lot.stop.shift.day - up[0].stop.shift.day
                yield breach_at(lot, f"collected after {days} days", f"{least} days or more")


def alone(book: Book) -> Breaches:
    """Where wet boxes are put up, no syrup and no strips before they are collected."""
    for yard_id in book.yards:
        up, off = lots(book, yard_id, Job.WET_UP), lots(book, yard_id, Job.WET_DOWN)
        free = off[0].turn if off else None
        for lot in (*lots(book, yard_id, Job.FEED), *lots(book, yard_id, Job.STRIPS)):
            if up and (free is None or lot.turn < free):
                said = f"{lot.action.job} {when(lot.stop.call.start_min)}"
                yield breach_at(lot, said, "after the wet boxes are collected")


def long_wet_days(book: Book) -> int:
    """Return colony-days, each started, that wet boxes stand for longer than is best."""
    best, total = book.outfit.rules.wet_best_days * DAY_MIN, 0
    for yard in book.yards.values():
        up, off = lots(book, yard.id, Job.WET_UP), lots(book, yard.id, Job.WET_DOWN)
        if up and off:
            stood = off[0].stop.call.start_min - up[0].stop.call.start_min
            total += yard.colonies * ceil_div(max(0, stood - best), DAY_MIN)
    return total


def not_back(book: Book, yard: Yard) -> int:
    """Return the colonies that should get their wet boxes back and do not."""
    due = yard.wet_back and yard.boxes > 0 and not closed(yard)
    return 0 if not due or lots(book, yard.id, Job.WET_UP) else yard.colonies
