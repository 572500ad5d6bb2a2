"""Who may drive, ride, spin and mix, and that nobody is in two places at once."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from runplanner.audit.book import Book
from runplanner.audit.driven import begun
from runplanner.audit.findings import Breach, Breaches, called, on_day, quoted, shown, when
from runplanner.days import DAY_MIN, day_of
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Phrase, phrase


class Turn(NamedTuple):
    """One person's stretch of one kind of work."""

    start_min: int
    end_min: int
    person: str
    work: Phrase
    trip: str

    def last_min(self) -> int:
        """Return the last minute that is worked."""
        return max(self.start_min, self.end_min - 1)


def trip_ids(book: Book) -> Breaches:
    """No two trips share an id, and none is without one."""
    ids = Counter(stops[0].trip.id for stops in book.trips())
    for trip, count in ids.items():
        if count > 1 or not trip.strip():
            yield Breach(
                phrase("trip id {trip} stands {count} times", trip=quoted(trip), count=count),
                phrase("one id a trip"),
                trip,
            )


def trucks_once(book: Book) -> Breaches:
    """A truck has at most one shift on a day."""
    yield from _twice(
        ((run.shift.day, run.shift.truck) for run in book.runs), phrase("truck"), book.vehicle
    )


def trailers_once(book: Book) -> Breaches:
    """A trailer is in at most one shift on a day."""
    used = ((run.shift.day, run.shift.trailer) for run in book.runs if run.shift.trailer)
    yield from _twice(used, phrase("trailer"), book.vehicle)


def people_once(book: Book) -> Breaches:
    """A person is in at most one shift on a day."""
    crews = ((run.shift.day, name) for run in book.runs for name in run.shift.crew)
    yield from _twice(crews, phrase("person"), book.person)


def _twice(
    used: Iterable[tuple[int, str]], kind: Phrase, said_as: Callable[[str], str]
) -> Breaches:
    for (day, name), count in Counter(used).items():
        if count > 1:
            yield Breach(
                phrase(
                    "{kind} {name} is in {count} shifts on {day}",
                    kind=kind,
                    name=said_as(name),
                    count=count,
                    day=on_day(day),
                ),
                phrase("one a day"),
            )


def drivers(book: Book) -> Breaches:
    """The first of the crew drives, and may drive this truck."""
    for run in book.runs:
        driver = book.people[run.shift.crew[0]]
        if not driver.drives or driver.id not in run.rig.truck.drivers:
            said = phrase(
                "{driver} drives {truck} on {day}",
                driver=called(driver),
                truck=called(run.rig.truck),
                day=on_day(run.shift.day),
            )
            allowed = phrase(
                "one of its drivers: {drivers}",
                drivers=shown(", ".join(book.person(one) for one in run.rig.truck.drivers)),
            )
            yield Breach(said, allowed, run.shift.trips[0].id)


def seats(book: Book) -> Breaches:
    """The crew fits into the truck's seats."""
    for run in book.runs:
        if run.rig.crew > run.rig.truck.seats:
            said = phrase(
                "{crew} people in {truck} on {day}",
                crew=run.rig.crew,
                truck=called(run.rig.truck),
                day=on_day(run.shift.day),
            )
            yield Breach(
                said, phrase("at most {most}", most=run.rig.truck.seats), run.shift.trips[0].id
            )


def days_off(book: Book) -> Breaches:
    """Nobody works on a day away; strict reading: nor spins nor mixes.

    Work already begun is past judging.
    """
    for turn in turns(book):
        if begun(book.plan, turn.start_min):
            continue
        first, last = day_of(turn.start_min), day_of(turn.last_min())
        for day in book.people[turn.person].off_days:
            if first <= day <= last:
                said = phrase(
                    "{person} is {work} on {day}",
                    person=book.person(turn.person),
                    work=turn.work,
                    day=on_day(day),
                )
                yield Breach(said, phrase("a day that person is here"), turn.trip)


def out_of_service(book: Book) -> Breaches:
    """No truck or trailer goes out on a day it is not to be had.

    A truck that carries hives in a night is not to be had on the day after it.
    """
    carries = {one for yard in book.yards.values() for one in yard.carried_by}
    for run in book.runs:
        day, truck = run.shift.day, run.rig.truck
        for thing in (truck, run.rig.trailer):
            carried = thing is truck and (day, truck.id) in carries
            if thing is not None and (carried or day in thing.out_days):
                said = phrase("{name} goes out on {day}", name=called(thing), day=on_day(day))
                yield Breach(said, phrase("a day it is to be had"), run.shift.trips[0].id)


def turns(book: Book) -> Iterator[Turn]:
    """Go through every stretch that some person works."""
    for run in book.runs:
        shift = run.shift
        for name in shift.crew:
            yield Turn(
                shift.start_min, shift.end_min, name, phrase("on a truck"), shift.trips[0].id
            )
    for spin in book.plan.spinning:
        for name in spin.people:
            yield Turn(spin.start_min, spin.end_min, name, phrase("spinning"), "")
    for mix in book.plan.mixing:
        yield Turn(mix.start_min, mix.end_min, mix.person, phrase("mixing"), "")


def two_places(book: Book) -> Breaches:
    """Nobody is on a truck, spinning or mixing at overlapping times, whatever the pair."""
    for own in _by_person(book):
        latest = own[0]
        for turn in own[1:]:
            if turn.start_min < latest.end_min:
                said = phrase(
                    "{person} is {work} and {other} {start}",
                    person=book.person(turn.person),
                    work=latest.work,
                    other=turn.work,
                    start=when(turn.start_min),
                )
                yield Breach(
                    said,
                    phrase("one place at a time"),
                    turn.trip or latest.trip,
                )
            latest = max(latest, turn, key=lambda each: each.end_min)


def half_days(book: Book) -> Breaches:
    """In one half-day a person does only one of truck, spinning and mixing."""
    for own in _by_person(book):
        marked = [
            (_half(book.outfit, t.start_min), _half(book.outfit, t.last_min()), t) for t in own
        ]
        for work, other in _kind_pairs(marked):
            said = phrase(
                "{person} is {work} and {other} in one half-day, {start}",
                person=book.person(work.person),
                work=work.work,
                other=other.work,
                start=when(other.start_min),
            )
            yield Breach(
                said,
                phrase("one kind of work"),
                other.trip or work.trip,
                ahead=_to_come(book, work) or _to_come(book, other),
            )


def _to_come(book: Book, turn: Turn) -> bool:
    """Tell whether it is mixing or spinning that has not begun."""
    return not turn.trip and not begun(book.plan, turn.start_min)


def _kind_pairs(marked: list[tuple[int, int, Turn]]) -> Iterator[tuple[Turn, Turn]]:
    for number, (_, last, turn) in enumerate(marked):
        for first, _, other in marked[number + 1 :]:
            if first > last:
                break
            if other.work != turn.work:
                yield turn, other


def _half(outfit: Outfit, minute: int) -> int:
    return 2 * day_of(minute) + (minute % DAY_MIN >= outfit.hours.noon_min)


def _by_person(book: Book) -> Iterator[list[Turn]]:
    every = sorted(turns(book))
    for name in book.people:
        own = [turn for turn in every if turn.person == name]
        if own:
            yield own
