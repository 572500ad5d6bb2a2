"""How long people may spin and mix: the day's longest duty and its breaks, trucks counted in.

A person's day is a list of *pieces* ``(start, end)`` in minutes, sorted: the parts of a truck's
day between breaks that are long enough, and stretches of spinning and mixing.  Whatever lies
between two pieces for as long as a break must last is one; anything shorter is duty.  The day's
duty runs from its first minute to its last, breaks counted, as it does for a truck's crew.
"""

from bisect import insort
from collections.abc import Iterator, Mapping, Sequence

from runplanner.outfit.people import Hours
from runplanner.trips.clock import Run

Piece = tuple[int, int]


class Duty:
    """The limits of one outfit on a day of work inside, alone or beside a truck."""

    def __init__(self, hours: Hours) -> None:
        self.pause = hours.duty_pause_min
        self._most = hours.duty_max_min
        self._stretch = hours.duty_break_after_min
        self._alone = min(self._most, self._stretch)

    def pieces(self, run: Run) -> list[Piece]:
        """Return a truck's day as pieces."""
        found, start = [], run.start_min
        for rest in run.breaks:
            if rest.end_min - rest.start_min >= self.pause:
                found.append((start, rest.start_min))
                start = rest.end_min
        return [*found, (start, run.end_min)]

    def bears(self, day: Sequence[Piece]) -> bool:
        """Tell whether a day, sorted, is short enough, with breaks in time and one work at once."""
        first = since = over = day[0][0]
        for start, end in day:
            since = start if start - over >= self.pause else since
            if start < over or end - since > self._stretch:
                return False
            over = end
        return over - first <= self._most

    def until(self, day: Sequence[Piece], now: int) -> int:
        """Return until when somebody with this day may work from ``now`` on; ``now`` if not."""
        if not day:
            return now + self._alone
        first = since = now
        over = next_start = lead = last = None
        for start, end in day:
            if end <= now:
                first = min(first, start)
                since = start if over is None or start - over >= self.pause else since
                over = end if over is None else max(over, end)
            elif start < now:
                return now
            else:
                if next_start is None:
                    next_start = start
                if lead is None or (last == lead and start - lead < self.pause):
                    lead = end
                last = end
        if over is None or now - over >= self.pause:
            since = now
        if last is not None and last - first > self._most:
            return now
        limit = min(since + self._stretch, first + self._most)
        if next_start is not None and lead is not None:
            joined = lead - since <= self._stretch
            limit = min(limit, next_start if joined else next_start - self.pause)
        return max(now, limit)

    def again(self, day: Sequence[Piece], now: int, end: int) -> int | None:
        """Return the first minute from ``now`` on, before ``end``, at which work may begin."""
        if not day:
            return now if now < end else None
        tries = [now, day[-1][1] - self._most]
        for _, over in day:
            tries += [over - self._stretch, over, over + self.pause]
        for at in sorted(tries):
            if now <= at < end and self.until(day, at) > at:
                return at
        return None


class PeoplesDay:
    """One day of everybody, by person, as it fills with work."""

    def __init__(self, duty: Duty, pieces: Mapping[int, list[Piece]]) -> None:
        self._duty = duty
        self._pieces = dict(pieces)

    def copy(self) -> "PeoplesDay":
        """Return the day as it is now, to be filled in another way."""
        return PeoplesDay(self._duty, {who: list(done) for who, done in self._pieces.items()})

    def works(self, person: int, start: int, end: int) -> None:
        """Note that somebody works."""
        insort(self._pieces.setdefault(person, []), (start, end))

    def until(self, person: int, now: int) -> int:
        """Return until when somebody may work from ``now`` on; ``now`` if not."""
        return self._duty.until(self._pieces.get(person, ()), now)

    def again(self, person: int, now: int, end: int) -> int | None:
        """Return the first minute from ``now`` on, before ``end``, at which work may begin."""
        return self._duty.again(self._pieces.get(person, ()), now, end)

    def hours(self, person: int, now: int, end: int) -> Iterator[Piece]:
        """Yield stretches in which somebody may work; each is noted before the next is asked."""
        start = self.again(person, now, end)
        while start is not None:
            stop = min(end, self.until(person, start))
            yield start, stop
            start = self.again(person, stop, end)
