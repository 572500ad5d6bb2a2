"""The flow told by days: which work falls on which day, and what each day's shifts hold.

Drives stay as they are, over the whole campaign; beside them every job is shared out over the
days on which its weather, its dates and its place in the chain let it be done.  A day's shifts
must hold the minutes of its work, of its share of the drives, and of pumping its syrup, so a
campaign with few fair days pays for longer shifts, larger crews or lateness.

For plans that leave nothing, and of which nothing is driven.  Any such plan gives values that
meet every row: a job's share of a day is the part of its work done then, and the shares of a
shift's minutes are those of its trips.
"""

from collections.abc import Iterable, Sequence
from typing import Any

from runplanner.days import Span
from runplanner.season.proof.day_jobs import DayJob
from runplanner.season.proof.flow import Flow
from runplanner.season.proof.road import Road
from runplanner.season.proof.way_rows import loaded, owed_t

Key = tuple[int, int]


class DayRows:
    """Adds the rows of every day to a flow; ``flow`` keeps the drives."""

    def __init__(self, flow: Flow, jobs: Sequence[DayJob]) -> None:
        self.flow = flow
        self.ground, self.outfit = flow.ground, flow.outfit
        self.jobs = jobs
        self.days = range(self.outfit.season.n_days)
        self.shifts: dict[Key, Any] = {}
        self.trips: dict[Key, Any] = {}
        self.work_min: dict[Key, Any] = {}
        self.pump_min: dict[Key, Any] = {}
        self.shares = [self._shared_out(job) for job in self.jobs]
        self.boxes = [
            (job, self._boxes(job, of_days)) for job, of_days in self._of_jobs() if job.out_g
        ]
        for number, road in enumerate(flow.roads):
            self._road(number, road)
        for day in self.days:
            self._day(day)
        self._chains()

    def _shared_out(self, job: DayJob) -> dict[int, Any]:
        """Return how much of a job is done on each of its days; all of it in the end."""
        shares = {
            day: self.flow.var(job.late_cents[day] if job.late_cents else 0, 1) for day in job.days
        }
        self.flow.row(1, 1, [(share, 1) for share in shares.values()])
        return shares

    def _boxes(self, job: DayJob, shares: dict[int, Any]) -> dict[int, Any]:
        """Return what part of a job's boxes goes on each of its days."""
        boxes = {day: loaded(self.flow, job, share) for day, share in shares.items()}
        self.flow.row(1, 1, [(part, 1) for part in boxes.values()])
        return boxes

    def _of_jobs(self) -> list[tuple[DayJob, dict[int, Any]]]:
        """Return every job with its shares by day."""
        return list(zip(self.jobs, self.shares, strict=True))

    def _road(self, number: int, road: Road) -> None:
        """Split one way's trips, shifts and minutes over its days."""
        flow, pace = self.flow, self.outfit.pace
        over, rest, drive, shifts, trips, pumps, works = [], [], [], [], [], [], []
        for day in self.days:
            trucks = sum(day not in self.outfit.trucks[t].out_days for t in road.way.trucks)
            if not trucks:
                continue
            key = (day, number)
            shift = self.shifts[key] = flow.var(0, trucks)
            trip = self.trips[key] = flow.var(0)
            work = self.work_min[key] = flow.var(0)
            pump = self.pump_min[key] = flow.var(0)
            driven, late, pause = flow.var(0), flow.var(0), flow.var(0)
            base_min = pace.load_min + pace.unload_min
            crew = flow.crew(road)
            busy = [(trip, base_min), (shift, road.home_min), (driven, 1), (pump, 1)]
            busy.append((work, 1 / crew))
            flow.row(0, None, [(trip, 1), (shift, -1)])
            flow.hours_rows(shift, busy, late, pause)
            shifts.append((shift, 1.0))
            trips.append((trip, 1.0))
            drive.append((driven, 1.0))
            over.append((late, 1.0))
            rest.append((pause, 1.0))
            pumps.append((pump, 1.0))
            works.append((work, 1.0))
        flow.row(0, 0, [*shifts, (road.shifts, -1)])
        flow.row(0, 0, [*trips, (road.trips, -1)])
        flow.row(0, 0, [*over, (road.over, -1)])
        flow.row(0, 0, [*rest, (road.rest, -1)])
        flow.row(0, 0, [*pumps, (road.pump, -1)])
        flow.drive_row(road, drive)
        worked = [(work, -1 / 60) for work in road.work]
        flow.row(0, 0, [*works, *worked])

    def _day(self, day: int) -> None:
        """Let the shifts of a day hold its work, its loads and its crews."""
        flow, pace = self.flow, self.outfit.pace
        here = [key for key in self.shifts if key[0] == day]
        jobs = [(job, shares[day]) for job, shares in self._of_jobs() if day in shares]
        works = [(self.work_min[key], 1.0) for key in here]
        flow.row(0, None, [*works, *((share, -job.person_s / 60) for job, share in jobs)])
        pumps = [(self.pump_min[key], 1.0) for key in here]
        rate = pace.pump_ml_per_min
        if rate:
            poured = [(share, -job.ml / rate) for job, share in jobs if job.ml]
            flow.row(0, None, [*pumps, *poured])
        loads = [(self.trips[key], flow.load_t(flow.roads[key[1]])) for key in here]
        boxes = [(job, parts[day]) for job, parts in self.boxes if day in parts]
        for owed in owed_t(jobs, boxes):
            flow.row(0, None, [*loads, *owed])
        self._people(day, here)
        self._fair_hours(day, here, jobs)

    def _people(self, day: int, here: Sequence[Key]) -> None:
        flow = self.flow
        crews = [(self.shifts[key], float(flow.crew(flow.roads[key[1]]))) for key in here]
        free = sum(day not in person.off_days for person in self.outfit.people)
        flow.row(None, free, crews)
        by_trucks: dict[tuple[int, ...], list[Any]] = {}
        for key in here:
            by_trucks.setdefault(flow.roads[key[1]].way.trucks, []).append(self.shifts[key])
        for trucks, shifts in by_trucks.items():
            there = sum(day not in self.outfit.trucks[t].out_days for t in trucks)
            flow.row(None, there, [(shift, 1) for shift in shifts])

    def _fair_hours(
        self, day: int, here: Sequence[Key], jobs: Sequence[tuple[DayJob, Any]]
    ) -> None:
        """Work at open hives lies in hours fit for it at some yard."""
        flow = self.flow
        fair = _together(
            span for job, _ in jobs for span in self.ground.hours[job.yard].opening[day]
        )
        held = [(self.shifts[key], float(fair * flow.crew(flow.roads[key[1]]))) for key in here]
        opened = [(share, -job.open_s / 60) for job, share in jobs if job.open_s]
        if opened:
            flow.row(0, None, [*held, *opened])

    def _chains(self) -> None:
        """By every day no more is done of a job than of the one before it, its lag ago."""
        for job, shares in self._of_jobs():
            if job.after < 0:
                continue
            before = self.shares[job.after]
            for day in job.days:
                done = [(share, -1.0) for d, share in shares.items() if d <= day]
                last = day - job.lag_days
                ready = [(share, job.ahead) for d, share in before.items() if d <= last]
                self.flow.keep_back([*ready, *done])


def _together(spans: Iterable[Span]) -> int:
    """Return the minutes that spans cover together."""
    covered, until = 0, 0
    for span in sorted(spans):
        covered += max(0, span.end_min - max(span.start_min, until))
        until = max(until, span.end_min)
    return covered
