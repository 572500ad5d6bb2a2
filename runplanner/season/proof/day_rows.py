"""The flow told by days: which work falls on which day, and what each day's shifts hold.

Drives stay as they are, over the whole campaign; beside them every job is shared out over the
days on which its weather, its dates and its place in the chain let it be done.  A day's shifts
must hold the minutes of its work, of its share of the drives, and of pumping its syrup, so a
campaign with few fair days pays for longer shifts, larger crews or lateness.

For plans that leave nothing, and of which nothing is driven.  Any such plan gives values that
meet every row: a job's share of a day is the part of its colonies served then, and the shares
of a shift's minutes are those of its trips.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any, TypeVar

from runplanner.days import Span
from runplanner.season.lanes import grown
from runplanner.season.proof.cuts import Asked, Demand, Group
from runplanner.season.proof.day_jobs import LIFTED, DayJob, jobs_of
from runplanner.season.proof.flow import Flow
from runplanner.season.proof.road import Road
from runplanner.season.proof.rows import Term

T = TypeVar("T")
Key = tuple[int, int]
Shared = list[tuple[DayJob, Any]]
"""Jobs, each with a variable for how much of it."""


class DayRows:
    """Adds the rows of every day to a flow; ``flow`` keeps the drives."""

    def __init__(self, flow: Flow) -> None:
        self.flow = flow
        self.ground, self.outfit = flow.ground, flow.outfit
        self.jobs = jobs_of(flow.ground, flow.parts)
        self.days = range(self.outfit.season.n_days)
        self.shifts: dict[Key, Any] = {}
        self.trips: dict[Key, Any] = {}
        self.work_min: dict[Key, Any] = {}
        self.pump_min: dict[Key, Any] = {}
        self.shares = [self._shared_out(job) for job in self.jobs]
        self.boxes = [self._boxes(job, of_days) for job, of_days in self._of_jobs(self.shares)]
        self.by_way: list[list[Any]] = []
        self.boxes_by_way: list[list[Any]] = []
        for number, road in enumerate(flow.roads):
            self._road(number, road)
        for day in self.days:
            self._day(day)
        for by_way in (self.by_way, self.boxes_by_way):
            for ways in zip(*by_way, strict=True):
                flow.row(1, 1, [(share, 1) for share in ways])
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
        boxes = {day: self._loaded(job, share) for day, share in shares.items()}
        self.flow.row(1, 1, [(part, 1) for part in boxes.values()])
        return boxes

    def _loaded(self, job: DayJob, share: Any) -> Any:  # noqa: ANN401 - the solver's
        return self.flow.loaded(share, job.poorest, job.richest)

    def _of_jobs(self, each: list[T]) -> list[tuple[DayJob, T]]:
        """Return every job with what there is of it."""
        return list(zip(self.jobs, each, strict=True))

    def _road(self, number: int, road: Road) -> None:
        """Split one way's trips, shifts and minutes over its days."""
        flow, pace = self.flow, self.outfit.pace
        over, rest, drive, shifts, trips, pumps = [], [], [], [], [], []
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
        flow.row(0, 0, [*shifts, (road.shifts, -1)])
        flow.row(0, 0, [*trips, (road.trips, -1)])
        flow.row(0, 0, [*over, (road.over, -1)])
        flow.row(0, 0, [*rest, (road.rest, -1)])
        flow.row(0, 0, [*pumps, (road.pump, -1)])
        flow.drive_row(road, drive)
        self._by_way(number, road)

    def _by_way(self, number: int, road: Road) -> None:
        """Tell how much of every job one way of going out does, and hold it to its trips."""
        flow, rate = self.flow, self.outfit.pace.pump_ml_per_min
        done = [flow.var(0, 1) for _ in self.jobs]
        jobs = self._of_jobs(done)
        boxes = [self._loaded(job, share) for job, share in jobs]
        self.by_way.append(done)
        self.boxes_by_way.append(boxes)
        for job, share in jobs:
            flow.call_row(road, job.yard, share)
        work = [(var, 1.0) for (_, other), var in self.work_min.items() if other == number]
        flow.row(0, 0, [*work, *((worked, -1 / 60) for worked in road.work)])
        for yard, worked in enumerate(road.work):
            mine = [(share, -job.person_s) for job, share in jobs if job.yard == yard]
            flow.row(0, None, [(worked, 1.0), *mine])
        if rate:
            pump = [(var, 1.0) for (_, other), var in self.pump_min.items() if other == number]
            flow.row(0, None, [*pump, *((share, -job.ml / rate) for job, share in jobs)])
        for owed in _owed_t(jobs, self._of_jobs(boxes)):
            flow.row(0, None, [(road.trips, flow.load_t(road)), *owed])

    # What each way by itself must bring into a group of yards

    def asked(self) -> Iterator[Asked]:
        """Yield groups that each way's own drives tie together, and what it does there."""
        for number, used in enumerate(self.flow.used):
            for group in grown(dict(used), self.flow.n):
                yield group, self.demands(number, group)

    def demands(self, number: int, group: Group) -> list[Demand]:
        """Return what the work that a way does in a group calls for.

        A way's visits are those of its own shifts, so all that all ways together must meet
        (:meth:`Flow.demands`) it must for its own share: loads, hours, and a visit for each of
        a yard's jobs that no visit does two of.
        """
        mine = _there(self._of_jobs(self.by_way[number]), group)
        out, into = _owed_t(mine, _there(self._of_jobs(self.boxes_by_way[number]), group))
        found = [
            Demand(group, f"{name} {number}", 0, owed, "t", only=number)
            for name, owed in (("out", out), ("in", into))
        ]
        work = self.flow.roads[number].work
        hours = [(work[yard], -1 / 3600) for yard in group]
        for s in self.flow.shifts:
            name = f"hours {s.name} {number}"
            found.append(Demand(group, name, 0, hours, "h", s.busy_min, s.over, s.rest, number))
        alone: dict[tuple[int, str], list[Term]] = {}
        for job, share in mine:
            for name in job.alone:
                alone.setdefault((job.yard, name), []).append((share, -1.0))
        visits = [(f"{name} {yard} {number}", owed) for (yard, name), owed in alone.items()]
        return found + [Demand(group, name, 0, o, "trips", only=number) for name, o in visits]

    def later(self, number: int, yard: int) -> list[Term]:
        """Return what a way does at a yard on visits that take nothing off, as owed shares."""
        return [
            (share, -1.0)
            for job, share in _there(self._of_jobs(self.by_way[number]), (yard,))
            if LIFTED in job.alone and not job.out_g
        ]

    def off_by(self, number: int, yard: int) -> Any:  # noqa: ANN401 - the solver's
        """Return what part of a yard's boxes a way brings, of a yard that has some."""
        boxes = _there(self._of_jobs(self.boxes_by_way[number]), (yard,))
        return next(part for job, part in boxes if job.out_g)

    # Days

    def _day(self, day: int) -> None:
        """Let the shifts of a day hold its work, its loads and its crews."""
        flow, pace = self.flow, self.outfit.pace
        here = [key for key in self.shifts if key[0] == day]
        jobs = [(job, shares[day]) for job, shares in self._of_jobs(self.shares) if day in shares]
        works = [(self.work_min[key], 1.0) for key in here]
        flow.row(0, None, [*works, *((share, -job.person_s / 60) for job, share in jobs)])
        pumps = [(self.pump_min[key], 1.0) for key in here]
        rate = pace.pump_ml_per_min
        if rate:
            poured = [(share, -job.ml / rate) for job, share in jobs if job.ml]
            flow.row(0, None, [*pumps, *poured])
        loads = [(self.trips[key], flow.load_t(flow.roads[key[1]])) for key in here]
        boxes = [(job, parts[day]) for job, parts in self._of_jobs(self.boxes) if day in parts]
        for owed in _owed_t(jobs, boxes):
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
        for job, shares in self._of_jobs(self.shares):
            if job.after < 0:
                continue
            before = self.shares[job.after]
            for day in job.days:
                done = [(share, -1.0) for d, share in shares.items() if d <= day]
                last = day - job.lag_days
                ready = [(share, job.ahead) for d, share in before.items() if d <= last]
                self.flow.keep_back([*ready, *done])


def _there(jobs: Shared, group: Group) -> Shared:
    """Return those of the jobs that are at a group of yards."""
    return [(job, share) for job, share in jobs if job.yard in group]


def _owed_t(jobs: Shared, boxes: Shared) -> tuple[list[Term], list[Term]]:
    """Return the tonnes that come out with parts of boxes, and go in with shares, as owed."""
    out = [(part, -job.out_g / 1e6) for job, part in boxes if job.out_g]
    return out, [(share, -job.in_g / 1e6) for job, share in jobs if job.in_g]


def _together(spans: Iterable[Span]) -> int:
    """Return the minutes that spans cover together."""
    covered, until = 0, 0
    for span in sorted(spans):
        covered += max(0, span.end_min - max(span.start_min, until))
        until = max(until, span.end_min)
    return covered
