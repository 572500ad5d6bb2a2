"""One day on one clock: driving, waiting, work and breaks, in whole minutes."""

from collections.abc import Sequence
from typing import NamedTuple

from runplanner.days import DAY_MIN, Span
from runplanner.haulage.rush import Rush
from runplanner.outfit.people import Hours


class Step(NamedTuple):
    """Drive ``leg_min``, then work ``work_min`` inside one of ``spans``.

    The work may not end before ``end_from_min``.
    """

    leg_min: int
    work_min: int
    spans: tuple[Span, ...]
    end_from_min: int


class Times(NamedTuple):
    """When a call is reached, begun, ended and left; ``slack_min`` to its window's end."""

    arrive_min: int
    start_min: int
    end_min: int
    leave_min: int
    slack_min: int


class Run(NamedTuple):
    """A day that works."""

    start_min: int
    end_min: int
    times: tuple[Times, ...]
    breaks: tuple[Span, ...]
    driving_min: int


def run_day(
    steps: Sequence[Step],
    home_min: int,
    day: int,
    hours: Hours,
    from_min: int = 0,
    rush: Rush | None = None,
) -> Run | None:
    """Return the day's times with as little waiting as leaving home later can save.

    Nobody leaves home before ``from_min``; ``rush`` tells how long drives take by the hour,
    None where all hours are alike.  Breaks from duty that last as long as one from driving
    spare the latter: where both fall due, the day that is shorter counts.  Returns None when
    some call cannot be reached in its hours or a limit on the day is broken.
    """
    opens = max(day * DAY_MIN + hours.start_min, from_min)
    closes = day * DAY_MIN + hours.end_min
    run = _run(steps, home_min, (opens, closes), (hours, rush))
    if run is not None and len(run.breaks) <= 1:
        return run
    if rush is None and home_min + sum(s.leg_min for s in steps) <= hours.drive_break_after_min:
        return run
    others = (
        _run(steps, home_min, (opens, closes), (rests, rush)) for rests in hours.ways_to_rest()[1:]
    )
    found = [one for one in (run, *others) if one is not None]
    return min(found, key=lambda one: one.end_min - one.start_min, default=None)


Rules = tuple[Hours, Rush | None]


def _run(
    steps: Sequence[Step], home_min: int, working_day: tuple[int, int], rules: Rules
) -> Run | None:
    (opens, closes), hours = working_day, rules[0]
    early = drive(steps, home_min, opens, *rules)
    if early is None or early.end_min > closes:
        return None
    run = _shortest(steps, home_min, early, closes, rules)
    fit = run.end_min - run.start_min <= hours.duty_max_min
    return run if fit and run.driving_min <= hours.driving_max_min else None


def _shortest(steps: Sequence[Step], home_min: int, early: Run, closes: int, rules: Rules) -> Run:
    """Return the same day begun so much later that the duty is shortest.

    Waits may last because an earlier call has to be over before its hours end.  Where it has
    hours that end later as well, the day is begun too late for the first of them and looked at
    again.
    """
    best = run = _later(steps, home_min, early, closes, rules)
    for _ in range(sum(len(step.spans) - 1 for step in steps)):
        start_min = _missing(steps, run)
        missed = None if start_min is None else drive(steps, home_min, start_min, *rules)
        if missed is None or missed.end_min > closes:
            break
        run = _later(steps, home_min, missed, closes, rules)
        best = min(best, run, key=lambda one: one.end_min - one.start_min)
    return best


def _later(steps: Sequence[Step], home_min: int, early: Run, closes: int, rules: Rules) -> Run:
    """Return the same day begun later, where that makes the duty shorter.

    Waiting that served as a break may have to be made good by a break elsewhere, so the
    later start may also mean a later end; or so much of the wait stays as makes a break.
    """
    waited, room = _waste(early)
    shift, length = min(waited, room), early.end_min - early.start_min
    best, shortest = early, length
    for later in (shift, shift - rules[0].duty_break_min):
        if later <= 0 or shortest <= length - later:
            break
        late = drive(steps, home_min, early.start_min + later, *rules)
        if late is not None and late.end_min <= closes:
            best = min(best, late, key=lambda run: run.end_min - run.start_min)
            shortest = best.end_min - best.start_min
    return best


def _waste(run: Run) -> tuple[int, int]:
    """Return how long a day waits, and how much later it may begin with every call in its hours."""
    waited, room = 0, DAY_MIN
    for times in run.times:
        waited += times.start_min - times.arrive_min
        room = min(room, waited + times.slack_min)
    return waited, room


def _missing(steps: Sequence[Step], run: Run) -> int | None:
    """Return the first start with which a call misses its hours, if some call has later ones.

    Hours are later where they end later: they may begin before a call that lies in others.  None
    where nobody waits once the day begins as late as those hours let it.
    """
    waited, room = _waste(run)
    if room >= waited:
        return None
    calls = zip(steps, run.times, strict=True)
    later = any(
        span.end_min > times.end_min + times.slack_min
        for step, times in calls
        for span in step.spans
    )
    return run.start_min + room + 1 if later else None


def drive(
    steps: Sequence[Step], home_min: int, start_min: int, hours: Hours, rush: Rush | None = None
) -> Run | None:
    """Return the day begun at ``start_min``, or None where a window or a limit is missed."""
    return _driven(_Clock(start_min, hours, rush), steps, home_min, start_min)


class Late(NamedTuple):
    """A call, by its number in the day, that takes more minutes of work than planned."""

    row: int
    minutes: int


def drive_late(
    run: Run, late: Late, steps: Sequence[Step], home_min: int, laws: tuple[Hours, Hours],
    rush: Rush | None = None,
) -> Run | None:  # fmt: skip
    """Return a day with a late call in it, or None where a window or a limit is missed.

    Until that call was to be over all is as it was, breaks too: nobody rests afterwards.

    Args:
        run: The day.
        late: The call.
        steps: All calls.
        home_min: The drive home.
        laws: Those that hold, and those that breaks to come go by.
        rush: How long drives take by the hour.
    """
    law, hours = laws
    clock = _Clock(run.start_min, hours, rush)
    clock.take_up(run, late.row, law)
    clock.stay(late.minutes)
    return _driven(clock, steps[late.row + 1 :], home_min, run.start_min)


def _driven(clock: "_Clock", steps: Sequence[Step], home_min: int, start_min: int) -> Run | None:
    for step in steps:
        if not (clock.go(step.leg_min) and clock.call(step)):
            return None
    if not clock.go(home_min):
        return None
    return Run(start_min, clock.now, tuple(clock.times), tuple(clock.breaks), clock.driven)


class _Clock:
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
        "now",
        "rush",
        "times",
    )

    def __init__(self, start_min: int, hours: Hours, rush: Rush | None) -> None:
        self.rush = rush
        self.now = start_min
        self.duty = self.drove = self.driven = 0
        self.duty_most, self.drive_most = hours.duty_break_after_min, hours.drive_break_after_min
        # A break of no minutes is no break.
        self.duty_pause = hours.duty_pause_min
        self.drive_pause = hours.drive_pause_min
        self.times: list[Times] = []
        self.breaks: list[Span] = []

    def take_up(self, run: Run, row: int, law: Hours) -> None:
        """Go on where a day is when the work of a call ends, with its breaks begun by then."""
        self.now, self.times = run.times[row].end_min, list(run.times[: row + 1])
        self.breaks = [one for one in run.breaks if one.start_min < self.now]
        self.duty = self.now - self._rested_by(law.duty_pause_min, run.start_min)
        drive_from = self._rested_by(law.drive_pause_min, run.start_min)
        start = run.start_min
        for times in self.times:
            leg = times.arrive_min - start
            self.driven += leg
            self.drove += leg if start >= drive_from else 0
            start = times.leave_min

    def _rested_by(self, least_min: int, start_min: int) -> int:
        """Return the end of the last break of so many minutes, or the start of the day."""
        ends = [one.end_min for one in self.breaks if one.end_min - one.start_min >= least_min]
        return max(ends, default=start_min)

    def stay(self, minutes: int) -> None:
        """Work on at the last call, and leave it then."""
        self._work(minutes)
        self.times[-1] = self.times[-1]._replace(end_min=self.now, leave_min=self.now)

    def go(self, plain: int) -> bool:
        """Drive a leg, after a rest where one is due; False where no rest makes it lawful.

        After a rest the leg may have come into a slower hour and need a longer one.
        """
        leg = self._leg(plain)
        while self.drove + leg > self.drive_most or self.duty + leg > self.duty_most:
            if leg > self.drive_most or leg > self.duty_most:
                return False
            self._rest(self._due_rest(leg))
            self.times[-1] = self.times[-1]._replace(leave_min=self.now)
            leg = self._leg(plain)
        self.now += leg
        self.duty += leg
        self.drove += leg
        self.driven += leg
        return True

    def _leg(self, plain: int) -> int:
        return plain if self.rush is None else self.rush(plain, self.now)

    def _due_rest(self, leg: int) -> int:
        rest = self.drive_pause if self.drove + leg > self.drive_most else 0
        if self.duty + rest + leg > self.duty_most:
            return max(rest, self.duty_pause)
        return rest

    def _rest(self, minutes: int) -> None:
        self.breaks.append(Span(self.now, self.now + minutes))
        self.now += minutes
        self.duty = 0 if minutes >= self.duty_pause else self.duty + minutes
        if minutes >= self.drive_pause:
            self.drove = 0

    def call(self, step: Step) -> bool:
        """Fit the work into the first span that holds it, its breaks included."""
        work, arrive = step.work_min, self.now
        earliest = max(arrive, step.end_from_min - work)
        for opens, closes in step.spans:
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
            wait = self.duty_pause
        start, duty = arrive + wait, 0 if wait >= self.duty_pause else self.duty + wait
        pauses = max(0, -(-(duty + work - self.duty_most) // self.duty_most))
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
