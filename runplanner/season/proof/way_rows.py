"""The flow told by ways of going out: which of them does how much of every job.

Rows over all ways together let one way drive to the yards and another have the hours there.
A way's visits are those of its own shifts: all that all ways together must meet it must for its
own share of the work.  For plans that leave nothing, and of which nothing is driven; a way's
share of a job is the part of its work that its shifts do.
"""

from collections.abc import Iterator
from typing import Any

from runplanner.season.lanes import grown
from runplanner.season.proof.cuts import Asked, Demand, Group
from runplanner.season.proof.day_jobs import LIFTED, DayJob, jobs_of
from runplanner.season.proof.flow import Flow
from runplanner.season.proof.road import Road
from runplanner.season.proof.rows import Term

Shared = list[tuple[DayJob, Any]]
"""Jobs, each with a variable for how much of it."""


class WayRows:
    """Shares every job of a flow out over the ways of going out."""

    def __init__(self, flow: Flow) -> None:
        self.flow = flow
        self.jobs = jobs_of(flow.ground, flow.parts)
        self.done: list[Shared] = []
        self.boxes: list[Shared] = []
        for road in flow.roads:
            self._road(road)
        for by_way in (self.done, self.boxes):
            for ways in zip(*by_way, strict=True):
                flow.row(1, 1, [(share, 1) for _, share in ways])

    def _road(self, road: Road) -> None:
        """Tell how much of every job one way does, and hold it to its trips."""
        flow, rate = self.flow, self.flow.outfit.pace.pump_ml_per_min
        done = [(job, flow.var(0, 1)) for job in self.jobs]
        boxes = [(job, loaded(flow, job, share)) for job, share in done if job.out_g]
        self.done.append(done)
        self.boxes.append(boxes)
        for job, share in done:
            flow.call_row(road, job.yard, share)
        for yard, worked in enumerate(road.work):
            mine = [(share, -job.person_s) for job, share in done if job.yard == yard]
            flow.row(0, None, [(worked, 1.0), *mine])
        if rate:
            poured = [(share, -job.ml / rate) for job, share in done if job.ml]
            flow.row(0, None, [(road.pump, 1.0), *poured])
        for owed in owed_t(done, boxes):
            flow.row(0, None, [(road.trips, flow.load_t(road)), *owed])

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
        mine = _there(self.done[number], group)
        out, into = owed_t(mine, _there(self.boxes[number], group))
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
            for job, share in _there(self.done[number], (yard,))
            if LIFTED in job.alone and not job.out_g
        ]

    def off_by(self, number: int, yard: int) -> Any:  # noqa: ANN401 - the solver's
        """Return what part of a yard's boxes a way brings, of a yard that has some."""
        ((_, part),) = _there(self.boxes[number], (yard,))
        return part


def loaded(flow: Flow, job: DayJob, share: Any) -> Any:  # noqa: ANN401 - the solver's
    """Return what part of a job's boxes goes with a share of its work."""
    return flow.loaded(share, job.poorest, job.richest)


def _there(jobs: Shared, group: Group) -> Shared:
    """Return those of the jobs that are at a group of yards."""
    return [(job, share) for job, share in jobs if job.yard in group]


def owed_t(jobs: Shared, boxes: Shared) -> tuple[list[Term], list[Term]]:
    """Return the tonnes that come out with parts of boxes, and go in with shares, as owed.

    ``boxes`` are those of jobs that bring some.
    """
    out = [(part, -job.out_g / 1e6) for job, part in boxes]
    return out, [(share, -job.in_g / 1e6) for job, share in jobs if job.in_g]
