"""Strips that forbid feeding: no syrup and no fondant beside them, nor left from before."""

from runplanner.audit.book import Book
from runplanner.audit.cover import turns
from runplanner.audit.findings import Breaches, on_day, when, word
from runplanner.audit.lots import breach_at, breach_between, lots
from runplanner.audit.need import taken_down_min
from runplanner.audit.strips import kind_for, unfed_days
from runplanner.daybook.trip import Job
from runplanner.outfit.yards import Yard
from runplanner.phrase import phrase


def feeding_bans(book: Book) -> Breaches:
    """After strips that forbid it, or the second of them, no syrup and no fondant for some days.

    Strict reading: the ban starts with the day of the strips, whatever the hour, and syrup
    poured before is taken down by then, as before a further round.  So is fondant eaten, where
    colonies still live on it.
    """
    for yard_id, yard in book.yards.items():
        ban = unfed_days(kind_for(book.outfit, yard_id))
        hung = lots(book, yard_id, Job.STRIPS)
        fed = [*lots(book, yard_id, Job.FEED), *lots(book, yard_id, Job.BLOCK)]
        for lot in fed:
            for strips in hung:
                day = strips.stop.shift.day
                if day <= lot.stop.shift.day < day + ban:
                    said = phrase(
                        "{job} on {day}", job=word(lot.action.job), day=on_day(lot.stop.shift.day)
                    )
                    allowed = phrase(
                        "before {day} or from {later}", day=on_day(day), later=on_day(day + ban)
                    )
                    yield breach_between(lot, strips, said, allowed)
        if ban:
            yield from _over_full_feeders(book, yard)
            yield from _over_blocks(book, yard)


def _over_full_feeders(book: Book, yard: Yard) -> Breaches:
    """Strips that forbid feeding go in once the bees can have taken down what was poured.

    Syrup of the same day breaks the ban as it is.
    """
    poured = lots(book, yard.id, Job.FEED)
    gap = taken_down_min(book.outfit, yard)
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

    Strict reading: all blocks count that the yard got, one after the other in each colony, as
    long as any colony waits.  Blocks of the same day break the ban as it is.
    """
    seen = list(turns(book, yard.id))
    for strips in lots(book, yard.id, Job.STRIPS):
        start, day = strips.stop.call.start_min, strips.stop.shift.day
        before = seen[: strips.turn]
        given = [lot for one in before if one.stop.shift.day < day for lot in one.waiting]
        if given and before[-1].waiting:
            last = max(given, key=lambda lot: lot.eaten_min)
            if start < last.eaten_min:
                put_on = when(last.given_min)
                said = phrase("strips {start}, fondant {given}", start=when(start), given=put_on)
                allowed = phrase("{start} or later", start=when(last.eaten_min))
                yield breach_at(strips, said, allowed)
