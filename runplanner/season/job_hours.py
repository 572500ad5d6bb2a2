"""The days and hours left for a job of a yard: dates, weather, gate and daylight alone."""

from runplanner.daybook.trip import Job
from runplanner.days import Span, day_of
from runplanner.trips.ground import Ground

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
        season, first = self._outfit.season, day_of(self.from_min)
        today = self._hours.plain[first] if first < season.n_days else ()
        if today and today[-1].end_min <= self.from_min:
            first += 1
        by = {Job.TAKE_OFF: season.take_off_by, Job.FEED: season.feed_by}.get(job, season.strips_by)
        last = min(by.day, season.n_days - 1) if by.hard else season.n_days - 1
        if job is Job.TAKE_OFF:
            first, last = max(first, self._yard.ready_from_day), min(last, self._yard.finish_by_day)
        return range(first, last + 1)

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
