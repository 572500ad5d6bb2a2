"""One day on one clock: driving, waiting, work and breaks, in whole minutes."""

from collections.abc import Sequence
from typing import NamedTuple

from runplanner.days import DAY_MIN, Span
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


def run_day(
    steps: Sequence[Step], home_min: int, day: int, hours: Hours, from_min: int = 0
) -> Run | None:
    """Return the day's times with as little waiting as leaving home later can save.

    Nobody leaves home before ``from_min``.  Returns None when some call cannot be reached in its hours or a limit on the day is
    broken.
    """
    opens = max(day * DAY_MIN + hours.start_min, from_min)
    early = drive(steps, home_min, opens, hours)
    if early is None or early.end_min > day * DAY_MIN + hours.end_min:
        return None
    late = _leave_later(steps, home_min, early, day * DAY_MIN + hours.end_min, hours)
    return late if late.end_min - late.start_min <= hours.duty_max_min else None


def _leave_later(
    steps: Sequence[Step], home_min: int, early: Run, closes_min: int, hours: Hours
) -> Run:
    """Return the same day begun later, where that makes the duty shorter.

    Waiting that served as a break may have to be made good by a break elsewhere, so the
    later start may also mean a later end.
    """
    waited, room = 0, DAY_MIN
    for times in early.times:
        waited += times.start_min - times.arrive_min
        room = min(room, waited + times.slack_min)
    shift = min(waited, room)
    if shift <= 0:
        return early
    late = drive(steps, home_min, early.start_min + shift, hours)
    if late is None or late.end_min > closes_min:
        return early
    shorter = late.end_min - late.start_min < early.end_min - early.start_min
    return late if shorter else early


def drive(steps: Sequence[Step], home_min: int, start_min: int, hours: Hours) -> Run | None:
    """Return the day begun at ``start_min``, or None where a window is missed."""
    now, duty, drove = start_min, 0, 0
    times: list[Times] = []
    breaks: list[Span] = []
    for leg, work, spans, end_from in steps:
        rest = _rest_before(leg, duty, drove, hours)
        if rest:
            breaks.append(Span(now, now + rest))
            duty, drove = _rested(rest, duty, drove, hours)
            now += rest
            if times:
                times[-1] = times[-1]._replace(leave_min=now)
        now, duty, drove = now + leg, duty + leg, drove + leg
        call = _call(now, work, spans, end_from, duty, drove, hours)
        if call is None:
            return None
        done, pauses, duty, drove = call
        times.append(done)
        breaks.extend(pauses)
        now = done.end_min
    rest = _rest_before(home_min, duty, drove, hours)
    if rest:
        breaks.append(Span(now, now + rest))
        now += rest
        times[-1] = times[-1]._replace(leave_min=now)
    return Run(start_min, now + home_min, tuple(times), tuple(breaks))


def _rest_before(leg: int, duty: int, drove: int, hours: Hours) -> int:
    """Return how long to rest before a leg; 0 for no rest."""
    if not leg:
        return 0
    rest = 0
    if drove and drove + leg > hours.drive_break_after_min:
        rest = hours.drive_break_min
    if duty and duty + leg > hours.duty_break_after_min:
        rest = max(rest, hours.duty_break_min)
    return rest


def _rested(rest: int, duty: int, drove: int, hours: Hours) -> tuple[int, int]:
    """Return duty and driving counted since the last long enough break, after this rest."""
    if rest >= hours.duty_break_min:
        duty = 0
    if rest >= hours.drive_break_min:
        drove = 0
    return duty, drove


def _call(
    arrive: int, work: int, spans: tuple[Span, ...], end_from: int, duty: int, drove: int, hours: Hours
) -> tuple[Times, list[Span], int, int] | None:
    """Fit the work into the first span that holds it; breaks fall inside long work."""
    for span in spans:
        start = max(arrive, span.start_min, end_from - work)
        if start + work > span.end_min:
            continue
        wait = start - arrive
        pauses = []
        d, v = duty + wait, drove
        if wait >= hours.duty_break_min:
            pauses.append(Span(arrive, start))
            d, v = _rested(wait, duty, drove, hours)
        end, left = start, work
        while d + left > hours.duty_break_after_min:
            part = max(0, hours.duty_break_after_min - d)
            end, left = end + part, left - part
            pauses.append(Span(end, end + hours.duty_break_min))
            end += hours.duty_break_min
            d, v = _rested(hours.duty_break_min, d, v, hours)
        end, d = end + left, d + left
        if end <= span.end_min:
            return Times(arrive, start, end, end, span.end_min - end), pauses, d, v
    return None
