"""A day driven on late: whether some way of working and resting still gets it done."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from runplanner.audit.book import Book, Leg, Run, Stop
from runplanner.audit.whole import minutes_in
from runplanner.audit.work import work_min
from runplanner.days import NEVER
from runplanner.outfit.people import Hours


class Going(NamedTuple):
    """The crew at a minute: duty and driving since their last long enough breaks.

    ``wheel`` is all the driving of the shift.
    """

    now: int
    duty: int
    drove: int
    wheel: int

    def rested(self, rest: int, hours: Hours) -> "Going":
        """Return the crew after ``rest`` minutes of break that start now."""
        return self._replace(now=self.now + rest).after_break(rest, hours)

    def after_break(self, rest: int, hours: Hours) -> "Going":
        """Return the crew as a break of ``rest`` minutes leaves it, the clock as it is."""
        duty = 0 if 0 < rest >= hours.duty_break_min else self.duty + rest
        drove = 0 if 0 < rest >= hours.drive_break_min else self.drove
        return Going(self.now, duty, drove, self.wheel)


def leaving(run: Run, stop: Stop, hours: Hours) -> list[Going]:
    """Return how the crew may stand when it leaves ``stop`` at its latest minute.

    It has worked through the delay, or rested in it where the delay is long enough, or put
    off a break with which the call was to end.
    """
    call = stop.call
    late = call.latest_leave_min - call.leave_min
    duty_from = _last_break(run, call.leave_min, hours.duty_break_min)
    drive_from = _last_break(run, call.leave_min, hours.drive_break_min)
    drove = sum(
        leg.minutes or 0 for leg in run.legs() if drive_from <= leg.start_min < call.leave_min
    )
    wheel = sum(leg.minutes or 0 for leg in run.legs() if leg.start_min < call.leave_min)
    tired = Going(call.latest_leave_min, call.leave_min - duty_from, drove, wheel)
    ways = [tired._replace(duty=tired.duty + late)]
    ways += [tired.after_break(rest, hours) for rest in _rests(hours) if 0 < rest <= late]
    ways += [tired._replace(duty=duty) for duty in _put_off(run, stop, late, hours)]
    return _best(ways)


def _put_off(run: Run, stop: Stop, late: int, hours: Hours) -> Iterator[int]:
    """Yield the duty since a break with which the call ends, had as late as it may be.

    As much of the delay as duty still allows is worked before the break, the rest after it.
    """
    call = stop.call
    for pause in run.shift.breaks:
        if call.start_min <= pause.start_min and pause.end_min == call.leave_min:
            duty = pause.start_min - _last_break(run, pause.start_min, hours.duty_break_min)
            if duty <= hours.duty_break_after_min:
                yield max(0, duty + late - hours.duty_break_after_min)


def _last_break(run: Run, before: int, least: int) -> int:
    """End of the last break of ``least`` minutes until ``before``, or the shift's start."""
    ends = [
        pause.end_min
        for pause in run.shift.breaks
        if pause.end_min <= before and pause.end_min - pause.start_min >= least
    ]
    return max(ends, default=run.shift.start_min)


def onward(book: Book, ways: Iterable[Going], stop: Stop, gone_by: int = NEVER) -> list[Going]:
    """Return how the crew may stand after driving to ``stop`` and doing its work.

    It waits for the planned minute, and may rest on arrival even where it need not wait; breaks
    from duty may be long enough to be ones from driving.  What was counted takes no longer than
    is written, nor does a stop at which nothing is done: a truck only turns round there.
    """
    hours, call = book.outfit.hours, stop.call
    breaks = {max(0, hours.duty_break_min), max(0, hours.duty_break_min, hours.drive_break_min)}
    work = work_min(book.outfit, stop)
    idle = stop.yard is not None and not call.actions
    if idle or call.counted is not None or stop.unloads_as_counted():
        paused = minutes_in(stop.shift.breaks, call.start_min, call.end_min)
        work = min(work, call.end_min - call.start_min - paused)
    done = []
    for way in driven(ways, stop.leg, hours, gone_by):
        wait = max(0, call.start_min - way.now)
        for pause in sorted({max(wait, rest) for rest in _rests(hours)}):
            begun = way.rested(pause, hours)
            ways_on = (_worked(begun, work, rest, hours) for rest in sorted(breaks))
            done += [after for after in ways_on if after is not None]
    return _best(done)


def driven(ways: Iterable[Going], leg: Leg, hours: Hours, gone_by: int = NEVER) -> Iterator[Going]:
    """Go through the ways of driving a leg, with or without a break before it.

    None is left where the shift would be driving for too long, nor where a break before it would
    end after ``gone_by``.
    """
    for way in ways:
        for rest in (one for one in _rests(hours) if not one or way.now + one <= gone_by):
            ready = way.rested(rest, hours) if rest else way
            minutes = leg.takes(ready.now)
            duty, drove = ready.duty + minutes, ready.drove + minutes
            wheel = ready.wheel + minutes
            rested = duty <= hours.duty_break_after_min and drove <= hours.drive_break_after_min
            if rested and wheel <= hours.driving_max_min:
                yield Going(ready.now + minutes, duty, drove, wheel)


def _rests(hours: Hours) -> list[int]:
    return sorted({0, max(0, hours.duty_break_min), max(0, hours.drive_break_min)})


def _worked(way: Going, work: int, rest: int, hours: Hours) -> Going | None:
    """Work on, with a break of ``rest`` minutes each time that duty is at its limit."""
    most = hours.duty_break_after_min
    left = work - max(0, most - way.duty)
    if left <= 0:
        return Going(way.now + work, way.duty + work, way.drove, way.wheel)
    if most <= 0:
        return None
    breaks = -(-left // most)
    drove = 0 if rest >= hours.drive_break_min else way.drove
    now = way.now + work + breaks * rest
    return Going(now, left - (breaks - 1) * most, drove, way.wheel)


def _best(ways: Iterable[Going]) -> list[Going]:
    """Drop each way that another is as good as in everything."""
    kept: list[Going] = []
    for way in sorted(set(ways)):
        if not any(all(a <= b for a, b in zip(one, way, strict=True)) for one in kept):
            kept.append(way)
    return kept
