"""The days and hours left for a job of a yard: dates, weather, gate and daylight alone."""

from runplanner.daybook.trip import Job
from runplanner.days import Span, day_of
from runplanner.trips.ground import Ground
from runplanner.visits.last_day import last_day

JOBS = (Job.TAKE_OFF, Job.FEED, Job.STRIPS)
"""Jobs whose hours are told."""


class JobHours:
    """One yard's days and hours from now on."""

    def __init__(self, ground: Ground, yard: int) -> None:
        self._outfit, self._yard = ground.outfit, ground.outfit.yards[yard]
        self._hours = ground.hours[yard]
        self.from_min = max(0, ground.earliest_min)

    def days(self, job: Job) -> range:
        """Return the days on which a job may still be done at all; one that is dark is over."""
        first, n_days = day_of(self.from_min), self._outfit.season.n_days
        today = self._hours.plain[first] if first < n_days else ()
        if today and today[-1].end_min <= self.from_min:
            first += 1
        if job is Job.TAKE_OFF:
            first = max(first, self._yard.ready_from_day)
        return range(first, last_day(self._outfit, self._yard, job) + 1)

    def spans(self, job: Job) -> list[Span]:
        """Return the hours, in order, in which a job may be done."""
        off = job is Job.TAKE_OFF
        days = self._hours.spans(opening=off, feeding=job is Job.FEED, strips=job is Job.STRIPS)
        settled = self._hours.settled_from_min if off else (0,) * len(days)
        return [
            Span(max(span.start_min, self.from_min), span.end_min)
            for day in self.days(job)
            for span in days[day]
            if span.end_min > self.from_min and span.end_min >= settled[day]
        ]

    def let_in(self, job: Job) -> bool:
        """Tell whether the gate is ever open in daylight on those days."""
        plain = self._hours.plain
        return any(span.end_min > self.from_min for day in self.days(job) for span in plain[day])
