"""The day of one person who fetches strips: breaks that fall due, waits, and gates that shut."""

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from runplanner.days import DAY_MIN, NEVER, Span
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Hours

ALL_DAY: Final = Span(0, DAY_MIN)
_STEP_MIN: Final = 15
"""How far apart minutes of leaving home are tried where a gate shuts."""


class FetchingDay(NamedTuple):
    """How long a day of fetching is beside driving and work.

    Args:
        rest_min: Breaks, and waits for gates.
        leave_min: Minute of the day at which home is left; None where no gate asks for one.
        held: No gate shuts on work or a break behind it.
    """

    rest_min: int
    leave_min: int | None = None
    held: bool = True


def fetching_day(
    outfit: Outfit, legs: Sequence[int], works: Sequence[int], gates: Sequence[Span]
) -> FetchingDay:
    """Return the shortest day that drives to each work, and home in the end.

    Nobody rests behind a gate that has shut.  Where no minute of leaving home does, and where the
    day is too long anyhow, it is told as if all were open.

    Args:
        outfit: The facts.
        legs: Minutes of each drive, the one home included.
        works: Minutes of work at each yard.
        gates: When each yard's gate is open, in minutes of the day.
    """
    always = (ALL_DAY,) * len(works)
    free = FetchingDay(_driven(outfit.hours, legs, works, always, 0).minutes)
    too_long = sum(legs) + sum(works) + free.rest_min > outfit.hours.duty_max_min
    if tuple(gates) == always or too_long:
        return free
    days = _held(outfit, legs, works, gates)
    return min(days, default=free._replace(held=False))


def _held(
    outfit: Outfit, legs: Sequence[int], works: Sequence[int], gates: Sequence[Span]
) -> Iterator[FetchingDay]:
    """Yield the days that gates and working hours let be, by the minute of leaving home."""
    home, hours = outfit.home, outfit.hours
    last_min = min(hours.end_min, home.closes_min)
    for start in range(max(hours.start_min, home.opens_min), last_min, _STEP_MIN):
        day = _driven(hours, legs, works, gates, start)
        if day.held and day.now <= last_min:
            yield FetchingDay(day.minutes, start)


def _driven(
    hours: Hours, legs: Sequence[int], works: Sequence[int], gates: Sequence[Span], start: int
) -> "_Day":
    day = _Day(hours, start)
    for leg, work, gate in zip(legs, works, gates, strict=False):
        day.drive(leg)
        day.work(work, gate)
        if not day.held:
            return day
    day.drive(legs[-1])
    return day


class _Day:
    """Counts the breaks that fall due on one person's day, none left out, and waits at gates.

    A break for driving is as long as one for duty at least, and serves as both.
    """

    def __init__(self, hours: Hours, start: int) -> None:
        # Limits of no minutes would leave nothing but breaks.
        self.duty_most = max(1, hours.duty_break_after_min)
        self.drive_most = max(1, hours.drive_break_after_min)
        self.duty_pause = hours.duty_break_min
        self.drive_pause = max(hours.duty_break_min, hours.drive_break_min)
        self.now = start
        self.duty = self.drove = self.minutes = 0
        self.shuts, self.held = NEVER, True

    def work(self, left: int, gate: Span) -> None:
        """Work, with a break each time the longest duty is reached and work is left.

        Who comes before the gate opens waits outside.
        """
        self._wait(gate.start_min - self.now)
        while self.duty + left > self.duty_most:
            part = self.duty_most - self.duty
            self.now += part
            left -= part
            self._rest(self.duty_pause)
        self.duty += left
        self.now += left
        self.shuts = gate.end_min if gate != ALL_DAY else NEVER
        self._see_gate()

    def drive(self, left: int) -> None:
        """Drive a leg, after a break where one is due; only a leg too long for any is broken."""
        whole = left <= min(self.duty_most, self.drive_most)
        while (room := self._room()) < left:
            part = 0 if whole else room
            left -= part
            self.drove += part
            self.now += part
            if part:
                self.shuts = NEVER
            driving = self.drove + left > self.drive_most
            self._rest(self.drive_pause if driving else self.duty_pause)
            self._see_gate()
        self.duty += left
        self.drove += left
        self.now += left
        self.shuts = NEVER

    def _room(self) -> int:
        return min(self.duty_most - self.duty, self.drive_most - self.drove)

    def _wait(self, minutes: int) -> None:
        """Wait, if for any minutes; a long wait is a break, and one that makes duty too long."""
        if minutes <= 0:
            return
        if minutes >= self.duty_pause or self.duty + minutes > self.duty_most:
            self._rest(max(minutes, self.duty_pause))
            return
        self.minutes += minutes
        self.now += minutes
        self.duty += minutes

    def _rest(self, minutes: int) -> None:
        self.minutes += minutes
        self.now += minutes
        self.duty = 0
        if minutes >= self.drive_pause:
            self.drove = 0

    def _see_gate(self) -> None:
        """Note where the gate of the yard has shut by now."""
        self.held = self.held and self.now <= self.shuts
