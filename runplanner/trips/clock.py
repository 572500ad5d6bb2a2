"""One day on one clock: driving, waiting, work and breaks, in whole minutes."""

from collections.abc import Sequence
from typing import NamedTuple

from runplanner.days import DAY_MIN, Span
from runplanner.haulage.day_clock import DayClock, Step, Times
from runplanner.haulage.rush import Rush
from runplanner.outfit.people import Hours

MOST_TIMES_LATER = 8
"""How often a day in busy hours is begun later once more (guessed; one or two do)."""


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
    return min(found, key=_length, default=None)


Rules = tuple[Hours, Rush | None]


def _run(
    steps: Sequence[Step], home_min: int, working_day: tuple[int, int], rules: Rules
) -> Run | None:
    (opens, closes), hours = working_day, rules[0]
    early = drive(steps, home_min, opens, *rules)
    if early is None or early.end_min > closes:
        return None
    run = _shortest(steps, home_min, early, closes, rules)
    fit = _length(run) <= hours.duty_max_min
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
        best = min(best, run, key=_length)
    return best


def _later(steps: Sequence[Step], home_min: int, early: Run, closes: int, rules: Rules) -> Run:
    """Return the same day begun later, where that makes the duty shorter.

    Where hours differ a drive begun later may be shorter: what is waited then is saved as well.
    """
    best = _once_later(steps, home_min, early, closes, rules)
    for _ in range(MOST_TIMES_LATER if rules[1] is not None else 0):
        further = _once_later(steps, home_min, best, closes, rules)
        if _length(further) >= _length(best):
            break
        best = further
    return best


def _once_later(steps: Sequence[Step], home_min: int, early: Run, closes: int, rules: Rules) -> Run:
    """Return the same day begun later by what it waits, where that makes the duty shorter.

    Waiting that served as a break may have to be made good by a break elsewhere, so the
    later start may also mean a later end; or so much of the wait stays as makes a break.
    """
    waited, room = _waste(early)
    shift, length = min(waited, room), _length(early)
    best, shortest = early, length
    for later in (shift, shift - rules[0].duty_break_min):
        if later <= 0 or shortest <= length - later:
            break
        late = drive(steps, home_min, early.start_min + later, *rules)
        if late is not None and late.end_min <= closes:
            best = min(best, late, key=_length)
            shortest = _length(best)
    return best


def _length(run: Run) -> int:
    """Return the minutes from leaving home to being back."""
    return run.end_min - run.start_min


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
    return _driven(DayClock(start_min, hours, rush), steps, home_min, start_min)


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
    clock = DayClock(run.start_min, hours, rush)
    clock.times = list(run.times[: late.row + 1])
    now_min = clock.times[-1].end_min
    left = (run.start_min, *(one.leave_min for one in clock.times))
    drives = [(at, one.arrive_min - at) for at, one in zip(left, clock.times, strict=False)]
    clock.take_up(now_min, drives, [one for one in run.breaks if one.start_min < now_min], law)
    clock.stay(late.minutes)
    return _driven(clock, steps[late.row + 1 :], home_min, run.start_min)


def _driven(clock: DayClock, steps: Sequence[Step], home_min: int, start_min: int) -> Run | None:
    for step in steps:
        if not (clock.go(step.leg_min) and clock.call(step)):
            return None
    if not clock.go(home_min):
        return None
    return Run(start_min, clock.now, tuple(clock.times), tuple(clock.breaks), clock.driven)
