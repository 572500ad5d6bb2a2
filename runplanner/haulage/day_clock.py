"""The clock of a truck's day: driving, waiting, work and breaks, in whole minutes."""

from collections.abc import Iterable
from typing import NamedTuple

from runplanner.days import NEVER, Span
from runplanner.haulage.rush import Rush
from runplanner.outfit.people import Hours


class Step(NamedTuple):
    """Drive ``leg_min``, then work ``work_min`` inside one of ``spans``.

    The work may not end before ``end_from_min``, and who rests there after it must be gone by
    ``gone_by_min``, when the gate shuts.
    """

    leg_min: int
    work_min: int
    spans: tuple[Span, ...]
    end_from_min: int
    gone_by_min: int = NEVER


class Times(NamedTuple):
    """When a call is reached, begun, ended and left; ``slack_min`` to its window's end."""

    arrive_min: int
    start_min: int
    end_min: int
    leave_min: int
    slack_min: int


def rested_by(breaks: Iterable[Span], least_min: int, start_min: int) -> int:
    """Return the end of the last break of so many minutes, or the start of the day."""
    ends = [one.end_min for one in breaks if one.end_min - one.start_min >= least_min]
    return max(ends, default=start_min)


class DayClock:
    """The time of day, with duty and driving counted since the last long enough breaks."""

    __slots__ = (
        "breaks",
        "drive_most",
        "drive_pause",
        "driven",
        "drove",
        "duty",
        "duty_most",
        "duty_pause",
        "gone_by",
        "now",
        "pressed",
        "rush",
        "times",
    )

    def __init__(self, start_min: int, hours: Hours, rush: Rush | None) -> None:
        self.rush = rush
        self.now = start_min
        self.duty = self.drove = self.driven = 0
        self.gone_by = NEVER
        """When the last call must have been left, whatever is rested there."""
        self.pressed = False
        """Whether a break has fallen due, had or not."""
        self.duty_most, self.drive_most = hours.duty_break_after_min, hours.drive_break_after_min
        # A break of no minutes is no break.
        self.duty_pause = hours.duty_pause_min
        self.drive_pause = hours.drive_pause_min
        self.times: list[Times] = []
        self.breaks: list[Span] = []

    def take_up(
        self, now_min: int, drives: Iterable[tuple[int, int]], breaks: Iterable[Span], law: Hours
    ) -> None:
        """Go on at a minute of a day that began where the clock stands.

        Args:
            now_min: The minute.
            drives: Start and minutes of what was driven by then.
            breaks: Those begun by then.
            law: The one that these breaks went by.
        """
        start, self.breaks = self.now, list(breaks)
        drive_from = rested_by(self.breaks, law.drive_pause_min, start)
        self.now, self.duty = now_min, now_min - rested_by(self.breaks, law.duty_pause_min, start)
        for began, minutes in drives:
            self.driven += minutes
            self.drove += minutes if began >= drive_from else 0

    def in_law(self) -> bool:
        """Tell whether no break is overdue."""
        return self.duty <= self.duty_most and self.drove <= self.drive_most

    def until_due(self) -> int:
        """Return the minutes that may be driven until a break falls due; 0 where one is overdue."""
        return max(0, min(self.duty_most - self.duty, self.drive_most - self.drove))

    def stay(self, minutes: int) -> None:
        """Work on at the last call, and leave it then."""
        self._work(minutes)
        self.times[-1] = self.times[-1]._replace(end_min=self.now, leave_min=self.now)

    def go(self, plain: int) -> bool:
        """Drive a leg, after a rest where one is due; False where it cannot be had there.

        Nor can one that makes the leg lawful be had behind a gate that is shut.
        """
        leg = plain if self.rush is None else self.rush(plain, self.now)
        while self.drove + leg > self.drive_most or self.duty + leg > self.duty_most:
            if leg > self.drive_most or leg > self.duty_most:
                return False
            rest, self.pressed = self.due(plain), True
            if self.now + rest > self.gone_by:
                return False
            self.rest(rest)
            leg = self.leg(plain)
        self.drive(leg)
        return True

    def drive(self, leg: int) -> None:
        """Drive so many minutes, lawful or not."""
        self.now += leg
        self.duty += leg
        self.drove += leg
        self.driven += leg

    def leg(self, plain: int, wait: int = 0) -> int:
        """Return the minutes that a leg takes which is begun after a wait."""
        return plain if self.rush is None else self.rush(plain, self.now + wait)

    def due(self, plain: int, work: int = 0) -> int:
        """Return the minutes of the break due before a leg, and the work after it if any; or 0.

        After the break the leg may have come into a slower hour and need a longer one.
        """
        return self._due(plain, work, self._due(plain, work, 0))

    def _due(self, plain: int, work: int, rest: int) -> int:
        if self.drove + self.leg(plain, rest) > self.drive_most:
            rest = max(rest, self.drive_pause)
        # A break from driving that is too short for one from duty is duty.
        if self.duty + rest + self.leg(plain, rest) + work > self.duty_most:
            rest = max(rest, self.duty_pause)
        return rest

    def rest(self, minutes: int) -> None:
        """Rest at the last call, and leave it then."""
        self._rest(minutes)
        self.times[-1] = self.times[-1]._replace(leave_min=self.now)

    def _rest(self, minutes: int) -> None:
        self.breaks.append(Span(self.now, self.now + minutes))
        self.now += minutes
        self.duty = 0 if minutes >= self.duty_pause else self.duty + minutes
        if minutes >= self.drive_pause:
            self.drove = 0

    def call(self, step: Step, rest: int = 0) -> bool:
        """Fit the work, breaks included, into the first span that holds it; False if none does.

        The work begins no sooner than a ``rest`` after arriving.
        """
        _, work, spans, settled, self.gone_by = step
        arrive = self.now
        earliest = max(arrive + rest, settled - work) if settled else arrive + rest
        for opens, closes in spans:
            start = max(earliest, opens)
            if start + work > closes:
                continue
            wait = start - arrive
            if wait < self.duty_pause and self.duty + wait + work <= self.duty_most:
                self.duty += wait + work
                self.now = start + work
                self.times.append(Times(arrive, start, self.now, self.now, closes - self.now))
                return True
            if self._call_with_breaks(start, work, closes):
                return True
        return False

    def _call_with_breaks(self, start: int, work: int, closes: int) -> bool:
        """Wait, then work, with a break whenever one falls due; a long wait is a break.

        A wait that makes the duty before the work too long is drawn out to a break.
        """
        arrive, wait = self.now, start - self.now
        if wait < self.duty_pause and self.duty + wait > self.duty_most:
            wait, self.pressed = self.duty_pause, True
        start, duty = arrive + wait, 0 if wait >= self.duty_pause else self.duty + wait
        pauses = max(0, -(-(duty + work - self.duty_most) // self.duty_most))
        self.pressed = self.pressed or pauses > 0
        end = start + work + pauses * self.duty_pause
        if end > closes:
            return False
        if wait >= self.duty_pause:
            self._rest(wait)
        self.now, self.duty = start, duty
        self._work(work)
        self.times.append(Times(arrive, start, end, end, closes - end))
        return True

    def _work(self, left: int) -> None:
        """Work, with a break each time the longest duty is reached and work is left."""
        while self.duty + left > self.duty_most:
            part = self.duty_most - self.duty
            self.now += part
            left -= part
            self._rest(self.duty_pause)
        self.now += left
        self.duty += left
