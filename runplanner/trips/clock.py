"""One day on one clock: driving, waiting, work and breaks, in whole minutes."""

from collections.abc import Iterator, Sequence
from itertools import accumulate
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
    hours, early = rules[0], _earliest(steps, home_min, working_day, rules)
    if early is None:
        return None
    run = _shortest(steps, home_min, early, working_day[1], rules)
    fit = _length(run) <= hours.duty_max_min
    return run if fit and run.driving_min <= hours.driving_max_min else None


def _earliest(
    steps: Sequence[Step], home_min: int, working_day: tuple[int, int], rules: Rules
) -> Run | None:
    """Return the day begun as early as it holds, or None where it does not.

    A wait too short for a break is duty, so that a break may fall due where there is no time for
    it.  Where that is so the day is begun without that wait, or the wait is drawn out.
    """
    opens, closes = working_day
    clock = DayClock(opens, *rules)
    run = _driven(clock, steps, home_min, opens)
    if run is not None and run.end_min <= closes:
        return run
    waits = _short_waits(clock, steps) if clock.pressed else []
    for start_min, rest_at in _other_ways(steps, opens, waits, clock.duty_pause):
        run = drive(steps, home_min, start_min, *rules, rest_at=rest_at)
        if run is not None and run.end_min <= closes:
            return run
    return None


def _short_waits(clock: DayClock, steps: Sequence[Step]) -> list[int]:
    """Return the calls, by number, before which a wait is no break, since the last that is one.

    The call that cannot be any more is one of them where it would have been waited for.
    """
    found: list[int] = []
    for row, times in enumerate(clock.times):
        wait = times.start_min - times.arrive_min
        if wait >= max(clock.duty_pause, clock.drive_pause):
            found.clear()
        elif wait > 0:
            found.append(row)
    row = len(clock.times)
    if any(0 < opening - clock.now < clock.duty_pause for opening in _openings(steps, row)):
        found.append(row)
    return found


def _openings(steps: Sequence[Step], row: int) -> list[int]:
    """Return the minutes from which work may begin at a call; none behind the last one."""
    return [
        max(span.start_min, step.end_from_min - step.work_min)
        for step in steps[row : row + 1]
        for span in step.spans
    ]


def _other_ways(
    steps: Sequence[Step], opens: int, waits: Sequence[int], pause: int
) -> Iterator[tuple[int, int]]:
    """Yield when a day is begun, and the call at which is rested first (-1: none), with waits.

    It is begun so that some call is reached as its hours begin, or a break sooner.
    """
    if not waits:
        return
    ahead = accumulate(step.leg_min + step.work_min for step in steps[: waits[-1] + 1])
    starts = {
        opening - before + step.work_min - sooner
        for row, (step, before) in enumerate(zip(steps, ahead, strict=False))
        for opening in _openings(steps, row)
        for sooner in (0, pause)
    }
    yield from ((start_min, -1) for start_min in sorted(starts) if start_min > opens)
    yield from ((opens, row) for row in waits)


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
    steps: Sequence[Step], home_min: int, start_min: int, hours: Hours, rush: Rush | None = None,
    *, rest_at: int = -1,
) -> Run | None:  # fmt: skip
    """Return the day begun at ``start_min``, or None where a window or a limit is missed.

    Before the work at call ``rest_at`` there is a break, if only by waiting longer.
    """
    return _driven(DayClock(start_min, hours, rush), steps, home_min, start_min, rest_at)


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
    clock.gone_by = steps[late.row].gone_by_min
    now_min = clock.times[-1].end_min
    left = (run.start_min, *(one.leave_min for one in clock.times))
    drives = [(at, one.arrive_min - at) for at, one in zip(left, clock.times, strict=False)]
    clock.take_up(now_min, drives, [one for one in run.breaks if one.start_min < now_min], law)
    clock.stay(late.minutes)
    return _driven(clock, steps[late.row + 1 :], home_min, run.start_min)


def _driven(
    clock: DayClock, steps: Sequence[Step], home_min: int, start_min: int, rest_at: int = -1
) -> Run | None:
    for row, step in enumerate(steps):
        rest = clock.duty_pause if row == rest_at else 0
        if not (clock.go(step.leg_min) and clock.call(step, rest)):
            return None
    if not clock.go(home_min):
        return None
    return Run(start_min, clock.now, tuple(clock.times), tuple(clock.breaks), clock.driven)
