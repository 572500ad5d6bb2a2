"""Duty and breaks of whoever spins or mixes, with what the same person does on a truck that day.

The limits are those of trucks' crews.  A day's duty runs from its first minute to its last,
breaks and gaps counted.  A gap of a break's length between two pieces of work is a break.
"""

from collections.abc import Iterator
from typing import NamedTuple

from runplanner.audit.book import Book
from runplanner.audit.driven import begun
from runplanner.audit.findings import Breach, Breaches, figure, on_day, when
from runplanner.days import Span, day_of
from runplanner.phrase import phrase


class Piece(NamedTuple):
    """Work of one person without a break in it; ``ahead`` when it has not begun yet."""

    start_min: int
    end_min: int
    inside: bool
    ahead: bool


def _days(book: Book) -> Iterator[tuple[str, int, list[Piece]]]:
    """Go through everybody's days on which something is still to be done inside or beside it."""
    found: dict[tuple[str, int], list[Piece]] = {}
    for name, piece in _pieces(book):
        found.setdefault((name, day_of(piece.start_min)), []).append(piece)
    for (name, day), own in found.items():
        if any(piece.inside for piece in own) and any(piece.ahead for piece in own):
            yield name, day, sorted(own)


def _pieces(book: Book) -> Iterator[tuple[str, Piece]]:
    plan = book.plan
    for run in book.runs:
        shift, ahead = run.shift, not begun(plan, run.shift.start_min)
        for start, end in _between(
            Span(shift.start_min, shift.end_min), _rests(book, shift.breaks)
        ):
            for name in shift.crew:
                yield name, Piece(start, end, inside=False, ahead=ahead)
    for spin in plan.spinning:
        for name in spin.people:
            ahead = not begun(plan, spin.start_min)
            yield name, Piece(spin.start_min, spin.end_min, inside=True, ahead=ahead)
    for mix in plan.mixing:
        ahead = not begun(plan, mix.start_min)
        yield mix.person, Piece(mix.start_min, mix.end_min, inside=True, ahead=ahead)


def _rests(book: Book, breaks: tuple[Span, ...]) -> list[Span]:
    least = book.outfit.hours.duty_break_min
    return sorted(one for one in breaks if 0 < one.end_min - one.start_min >= least)


def _between(whole: Span, rests: list[Span]) -> Iterator[tuple[int, int]]:
    start = whole.start_min
    for rest in rests:
        yield start, rest.start_min
        start = rest.end_min
    yield start, whole.end_min


def long_days(book: Book) -> Breaches:
    """Whoever spins or mixes is on duty no longer than the longest duty, trucks counted in."""
    most = book.outfit.hours.duty_max_min
    for name, day, own in _days(book):
        length = max(piece.end_min for piece in own) - own[0].start_min
        if length > most:
            yield Breach(
                phrase(
                    "{name} is on duty for {length} min on {day}",
                    name=book.person(name),
                    length=length,
                    day=on_day(day),
                ),
                figure(most),
            )


def long_stretches(book: Book) -> Breaches:
    """Nobody spins or mixes too long without a break, time on a truck before or after included."""
    hours = book.outfit.hours
    most, least = hours.duty_break_after_min, max(1, hours.duty_break_min)
    for name, _, own in _days(book):
        for stretch in _unbroken(own, least):
            start, end = stretch[0].start_min, max(piece.end_min for piece in stretch)
            counts = any(p.inside for p in stretch) and any(p.ahead for p in stretch)
            if counts and end - start > most:
                said = phrase(
                    "{name} works {minutes} min without a break from {start}",
                    name=book.person(name),
                    minutes=end - start,
                    start=when(start),
                )
                yield Breach(said, phrase("at most {most}", most=most))


def _unbroken(own: list[Piece], least: int) -> Iterator[list[Piece]]:
    """Part a day's pieces where a gap is long enough to be a break."""
    stretch = own[:1]
    for piece in own[1:]:
        if piece.start_min - max(one.end_min for one in stretch) >= least:
            yield stretch
            stretch = []
        stretch.append(piece)
    yield stretch
