"""The honey house: boxes come in, wait in their room, and are spun in order and in time."""

from bisect import insort
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import inf
from typing import NamedTuple

from runplanner.audit.at_least import spun_at_least
from runplanner.audit.book import Book, Stop
from runplanner.audit.driven import begun
from runplanner.audit.findings import Breach, Breaches, when
from runplanner.audit.whole import ceil_div, floor_sum, minutes_in
from runplanner.daybook.plan import Spinning
from runplanner.daybook.trip import CallKind
from runplanner.days import DAY_MIN, NEVER, Span, day_of
from runplanner.phrase import Phrase, counted, phrase


class Batch(NamedTuple):
    """Boxes of one stop that came in at ``at_min``; the first ones stood there from day 0.

    Those that were held came in once more when they were no more.
    """

    boxes: int
    at_min: int
    stop: Stop | None


class Share(NamedTuple):
    """Boxes ``first .. first + boxes - 1`` of a stretch, all of one batch."""

    stretch: Spinning
    first: int
    boxes: int
    batch: Batch

    def last_start(self) -> int:
        """Return the minute at which the last of these boxes goes in."""
        return _start_of(self.stretch, self.first + self.boxes - 1)


def _length(stretch: Spinning) -> int:
    return stretch.end_min - stretch.start_min


def _start_of(stretch: Spinning, box: int) -> int:
    """Minute at which the ``box``-th box of a stretch goes in, the first being 1."""
    return stretch.start_min + (box - 1) * _length(stretch) // stretch.boxes


def _stretches(book: Book) -> list[Spinning]:
    """The stretches that spin something, by starting time."""
    real = [each for each in book.plan.spinning if each.boxes and _length(each) > 0]
    return sorted(real, key=lambda each: (each.start_min, each.end_min))


def spinning_hours(book: Book) -> Breaches:
    """Spinning lies within the honey house's hours of one day of the campaign or after."""
    house = book.outfit.honey_house
    for stretch in book.plan.spinning:
        midnight = day_of(stretch.start_min) * DAY_MIN
        first, last = midnight + house.spin_from_min, midnight + house.spin_to_min
        if not max(0, first) <= stretch.start_min < stretch.end_min <= last:
            said = phrase(
                "spinning from {start} to {end}",
                start=when(stretch.start_min),
                end=when(stretch.end_min),
            )
            yield Breach(said, phrase("{first} to {last}", first=when(first), last=when(last)))
        stopped = minutes_in(house.stopped, stretch.start_min, stretch.end_min)
        if stopped and not begun(book.plan, stretch.start_min):
            said = phrase(
                "spinning from {start} to {end}",
                start=when(stretch.start_min),
                end=when(stretch.end_min),
            )
            yield Breach(said, phrase("hours in which the plant runs"))


def spinning_pace(book: Book) -> Breaches:
    """A stretch spins what so many people can; more people than the table has are too many."""
    table = book.outfit.honey_house.boxes_per_h
    for stretch in book.plan.spinning:
        people = len(stretch.people)
        if not 0 < people < len(table):
            said = counted(
                "{number} person spins {start}",
                "{number} people spin {start}",
                people,
                start=when(stretch.start_min),
            )
            yield Breach(said, phrase("1 .. {most} people", most=len(table) - 1))
            continue
        most = table[people] * _length(stretch) // 60
        if not 0 < stretch.boxes <= most:
            said = counted(
                "{number} box spun in {length} min, {start}",
                "{number} boxes spun in {length} min, {start}",
                stretch.boxes,
                length=_length(stretch),
                start=when(stretch.start_min),
            )
            yield Breach(said, phrase("1 .. {most} boxes", most=max(0, most)))


def spinners(book: Book) -> Breaches:
    """Honey is spun by people who spin, each counted once."""
    for stretch in book.plan.spinning:
        for name in stretch.people:
            if not book.people[name].spins:
                said = phrase(
                    "{name} spins {start}", name=book.person(name), start=when(stretch.start_min)
                )
                yield Breach(said, phrase("a person who spins"))
        if len(set(stretch.people)) < len(stretch.people):
            yield Breach(
                phrase("one person twice, spinning {start}", start=when(stretch.start_min)),
                phrase("once"),
            )


def spinning_turns(book: Book) -> Breaches:
    """One stretch of spinning follows another (strict: one plant, never two teams)."""
    spans = sorted((each.start_min, each.end_min) for each in book.plan.spinning)
    for (_, end), (start, _) in pairwise(spans):
        if start < end:
            yield Breach(
                phrase("spinning starts {start}", start=when(start)),
                phrase("after the one before, {end}", end=when(end)),
            )


def _came(book: Book) -> list[Batch]:
    """All boxes by arrival, then by stop of their trip."""
    waiting = book.outfit.honey_house.waiting_boxes
    trips = [(_arrival(book, stops), stops) for stops in book.trips()]
    came = sorted(((at, stops) for at, stops in trips if at is not None), key=lambda each: each[0])
    batches = [
        Batch(sum(action.boxes for action in stop.call.actions), at, stop)
        for at, stops in came
        for stop in stops
        if stop.yard is not None
    ]
    return [batch for batch in (Batch(waiting, 0, None), *batches) if batch.boxes]


def _batches(book: Book) -> list[Batch]:
    """All boxes in the order they are queued; in none stand those that nobody may spin.

    Strict: honey of a yard that closes is held, but for boxes of stretches begun before, and
    queues anew when the yard is opened, after whatever came in by then.  So is honey that was
    on when strips went in, for good.
    """
    coming, queued = _came(book), list[Batch]()
    while coming:
        batch = coming.pop(0)
        span = _held_in(book, batch)
        if span is None:
            queued.append(batch)
            continue
        spun = sum(one.boxes for one in _stretches(book) if one.start_min < span.start_min)
        spun = min(batch.boxes, max(0, spun - sum(one.boxes for one in queued)))
        if spun:
            queued.append(batch._replace(boxes=spun))
        if spun < batch.boxes and span.end_min < NEVER:
            anew = batch._replace(boxes=batch.boxes - spun, at_min=span.end_min)
            insort(coming, anew, key=lambda each: each.at_min)
    return queued


def _held_in(book: Book, batch: Batch) -> Span | None:
    """The first time still to come in which a batch may not be spun, if there is one."""
    if batch.stop is None or batch.stop.yard is None:
        return None
    off_min = batch.stop.call.leave_min
    spans = batch.stop.yard.held_spans(book.plan.now_min, off_min)
    return next((span for span in spans if batch.at_min < span.end_min), None)


def _arrival(book: Book, stops: tuple[Stop, ...]) -> int | None:
    """Minute the trip's boxes are in: the end of its unloading at the honey house."""
    house = book.outfit.honey_house.base.place
    ends = (
        stop.call.end_min
        for stop in stops
        if stop.call.kind is CallKind.UNLOAD and stop.call.place == house
    )
    return next(ends, None)


def _shares(book: Book) -> Iterator[Share]:
    """First in, first spun: match the stretches with the queue."""
    yield from _matched(_batches(book), _stretches(book))


def _matched(batches: list[Batch], stretches: Sequence[Spinning]) -> Iterator[Share]:
    queue = [(batch.boxes, batch) for batch in reversed(batches)]
    for stretch in stretches:
        spun = 0
        while spun < stretch.boxes and queue:
            left, batch = queue.pop()
            taken = min(left, stretch.boxes - spun)
            yield Share(stretch, spun + 1, taken, batch)
            spun += taken
            if left > taken:
                queue.append((left - taken, batch))


def queue(book: Book) -> Breaches:
    """No box is spun before it has come in."""
    for share in _shares(book):
        start = _start_of(share.stretch, share.first)
        if start < share.batch.at_min:
            said = phrase("boxes spun {start}", start=when(start))
            yield _at(
                share.batch,
                said,
                phrase("after they came in, {at}", at=when(share.batch.at_min)),
                ahead=not begun(book.plan, share.stretch.start_min),
            )


def _at(batch: Batch, said: Phrase, allowed: Phrase, *, ahead: bool) -> Breach:
    if batch.stop is None:
        return Breach(said, allowed)
    return Breach(said, allowed, batch.stop.trip.id, batch.stop.call.yard, ahead)


def _could_be(book: Book) -> tuple[Spinning, ...]:
    """Return what is spun by now, and what could be by those who are free all day."""
    done = [each for each in _stretches(book) if begun(book.plan, each.start_min)]
    came = [(batch.at_min, batch.boxes) for batch in _batches(book)]
    return (*done, *spun_at_least(book, done, came))


def room(book: Book) -> Breaches:
    """The honey house has room for the boxes of each trip as they come in.

    Boxes of a driven trip come in, room or no room, where no team could have made any.
    """
    house = book.outfit.honey_house
    here = house.waiting_boxes
    batches = [batch for batch in _came(book) if batch.stop is not None]
    for at in sorted({batch.at_min for batch in batches}):
        here += sum(batch.boxes for batch in batches if batch.at_min == at)
        held = here - sum(_spun_by(stretch, at) for stretch in _stretches(book))
        if held > house.room_boxes:
            last = [batch for batch in batches if batch.at_min == at][-1]
            least = here - sum(_spun_by(stretch, at) for stretch in _could_be(book))
            said = counted(
                "{number} box in the honey house {at}",
                "{number} boxes in the honey house {at}",
                held,
                at=when(at),
            )
            most = phrase("at most {most}", most=house.room_boxes)
            yield _at(last, said, most, ahead=least <= house.room_boxes)


def _spun_by(stretch: Spinning, minute: int) -> int:
    worked = min(max(0, minute - stretch.start_min), _length(stretch))
    return worked * stretch.boxes // _length(stretch)


def all_spun(book: Book) -> Breaches:
    """Every box that may be spun is, and no more boxes than that."""
    total = sum(batch.boxes for batch in _batches(book))
    spun = sum(stretch.boxes for stretch in book.plan.spinning)
    if spun != total:
        yield Breach(
            counted("{number} box spun", "{number} boxes spun", spun),
            phrase("all {all}", all=total),
        )


def last_box_spun(book: Book, yard_id: str) -> int | None:
    """Return the minute by which the last box of a yard is through; None where none is spun."""
    done = [
        _start_of(share.stretch, share.first + share.boxes)
        for share in _shares(book)
        if share.batch.stop is not None and share.batch.stop.call.yard == yard_id
    ]
    return max(done, default=None)


def spin_by(book: Book) -> Breaches:
    """Where waiting spoils the honey, the last box of a stop is spun in time.

    Boxes of a driven trip may be late, and cost it, where no team could have done better.
    """
    for share in _shares(book):
        stop = share.batch.stop
        if stop is None or stop.yard is None or not stop.yard.spin_by_hard:
            continue
        due = stop.call.leave_min + stop.yard.spin_by_min
        start = share.last_start()
        if start > due:
            yield _at(
                share.batch,
                phrase("boxes spun {start}", start=when(start)),
                phrase("by {due}", due=when(due)),
                ahead=_could_be_begun(book, share.batch) <= due,
            )


def _could_be_begun(book: Book, batch: Batch) -> float:
    """Return when the last box of a batch could go in, at the latest; never if it would not."""
    shares = (
        one for one in _matched(_batches(book), _could_be(book)) if one.batch.stop is batch.stop
    )
    spun, last = 0, inf
    for one in shares:
        spun, last = spun + one.boxes, one.last_start()
    return last if spun == batch.boxes else inf


def late_box_days(book: Book) -> int:
    """Return the boxes' started days past a priced spin-by, each box by its own start.

    A hard spin-by has its price only for boxes of trips that have been driven.
    """
    return sum(_late_days(share) for share in _shares(book))


def _late_days(share: Share) -> int:
    """Sum of started days late over the boxes of ``share``, in closed form.

    Box j (from 0) of the stretch starts ``floor(j * length / boxes)`` after the stretch
    does; the first late one is found, and from there on the days are summed as floors.
    """
    stop = share.batch.stop
    if stop is None or stop.yard is None or (stop.yard.spin_by_hard and not stop.trip.driven):
        return 0
    stretch, length = share.stretch, _length(share.stretch)
    due = stop.call.leave_min + stop.yard.spin_by_min
    first_late = ceil_div((due - stretch.start_min + 1) * stretch.boxes, length)
    begin, end = max(share.first - 1, first_late), share.first - 1 + share.boxes
    offset = (stretch.start_min - due + DAY_MIN - 1) * stretch.boxes + begin * length
    return floor_sum(max(0, end - begin), DAY_MIN * stretch.boxes, length, offset)
