"""What can still be spun, at the least, by those who have nothing else to do.

Honey of a truck that has left home comes in whatever is planned, and may then be too late
whoever spins.  A plan is blamed for that only where it plainly need not be: where people who
are neither on a truck nor mixing in a half-day would have been in time, at less than their pace
and with all their breaks.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from runplanner.audit.book import Book
from runplanner.audit.whole import ceil_div
from runplanner.daybook.plan import Spinning
from runplanner.days import DAY_MIN, Span, day_of, meet, without
from runplanner.outfit.people import Hours

OF_TEN = 9
"""Tenths of their pace that are reckoned with; the rest is for work broken off and begun again."""
MOST_DAYS = 60
"""Days that are looked at; honey that waits longer is late whatever is done."""


class Team(NamedTuple):
    """People who can spin in a half-day, boxes an hour, and when they can.

    ``since`` is when the first of them began to work that day, None where nobody has.
    """

    people: tuple[str, ...]
    rate: int
    spans: tuple[Span, ...]
    since: int | None


def spun_at_least(
    book: Book, done: Sequence[Spinning], came: Sequence[tuple[int, int]]
) -> Iterator[Spinning]:
    """Yield stretches of spinning from now on, up to the last day on which the plan spins.

    Args:
        book: The plan.
        done: The stretches that have begun by now.
        came: ``(minute, boxes)`` of all boxes, in the order in which they come in.
    """
    now = max([book.plan.now_min, *(each.end_min for each in done)])
    last = max((day_of(each.start_min) for each in book.plan.spinning), default=-1)
    spun = sum(each.boxes for each in done)
    for day in range(day_of(now), min(last, day_of(now) + MOST_DAYS) + 1):
        first: int | None = None
        for half in _halves(book, day):
            team = _team(book, half, now, done)
            begun = [minute for minute in (first, team.since) if minute is not None]
            duty = _Duty(book.outfit.hours, min(begun, default=None))
            for each in _stretches(duty, team, spun, came):
                first = each.start_min if first is None else first
                spun += each.boxes
                yield each


def _halves(book: Book, day: int) -> tuple[Span, Span]:
    start = day * DAY_MIN
    noon = start + book.outfit.hours.noon_min
    return Span(start, noon), Span(noon, start + DAY_MIN)


def _team(book: Book, half: Span, now: int, done: Sequence[Spinning]) -> Team:
    """Return who can spin in a half-day and has nothing else to do after it that day.

    Those who have may be taken in the place of others, and get tired sooner.
    """
    house, day = book.outfit.honey_house, day_of(half.start_min)
    work = [*_away(book, day), *_at_it(done, day)]
    busy = {name for name, span, other in work if other and meet((span,), (half,))}
    soon = {name for name, span, other in work if other and span.start_min >= half.end_min}
    here = (one for one in book.outfit.people if one.spins and day not in one.off_days)
    may = [one.id for one in here if one.id not in busy]
    free = [name for name in may if name not in soon]
    people = tuple(free[: max(0, len(house.boxes_per_h) - 1 - len(may) + len(free))])
    rate = max(house.boxes_per_h[: len(people) + 1], default=0) * OF_TEN // 10
    open_from, open_to = day * DAY_MIN + house.spin_from_min, day * DAY_MIN + house.spin_to_min
    start, end = max(now, half.start_min, open_from), min(half.end_min, open_to)
    spans = without((Span(start, end),), house.stopped) if rate and start < end else ()
    since = (span.start_min for name, span, _ in work if name in free)
    return Team(people, rate, spans, min(since, default=None))


def _away(book: Book, day: int) -> Iterator[tuple[str, Span, bool]]:
    """Yield who is on a truck or mixes on a day, and from when to when."""
    for run in book.runs:
        if run.shift.day == day:
            for name in run.shift.crew:
                yield name, Span(run.shift.start_min, run.shift.end_min), True
    for mix in book.plan.mixing:
        if day_of(mix.start_min) == day:
            yield mix.person, Span(mix.start_min, mix.end_min), True


def _at_it(done: Sequence[Spinning], day: int) -> Iterator[tuple[str, Span, bool]]:
    """Yield who has begun to spin on a day, and when."""
    for each in done:
        if day_of(each.start_min) == day:
            for name in each.people:
                yield name, Span(each.start_min, each.end_min), False


def _stretches(
    duty: "_Duty", team: Team, spun: int, came: Sequence[tuple[int, int]]
) -> Iterator[Spinning]:
    """Yield the stretches of one half-day, ``spun`` being the boxes done before it."""
    for span in team.spans:
        minute = span.start_min
        while minute < span.end_min:
            waiting = sum(boxes for at, boxes in came if at <= minute) - spun
            if waiting <= 0:
                minute = min([span.end_min, *(at for at, _ in came if at > minute)])
                continue
            until = min(span.end_min, duty.until(minute))
            if until <= minute:
                minute = duty.rest(minute)
                continue
            boxes = min(waiting, team.rate * (until - minute) // 60)
            end = minute + ceil_div(boxes * 60, team.rate) if boxes else until
            if boxes:
                yield Spinning(minute, end, team.people, boxes)
            spun, minute = spun + boxes, end


class _Duty:
    """The duty of people who begin and rest together; it is over when ``until`` does not move."""

    def __init__(self, hours: Hours, since: int | None) -> None:
        self._hours, self._since, self._rested = hours, since, since

    def until(self, minute: int) -> int:
        """Return until when they may spin who are to do so at ``minute``."""
        if self._since is None or self._rested is None:
            self._since = self._rested = minute
        return min(
            self._since + self._hours.duty_max_min,
            self._rested + self._hours.duty_break_after_min,
        )

    def rest(self, minute: int) -> int:
        """Return the minute until which a break lasts."""
        self._rested = minute + max(1, self._hours.duty_break_min)
        return self._rested
