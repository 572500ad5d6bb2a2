"""A small campaign as a flow over the roads of every day: tighter than one over them all.

Everything is told by days here, the drives as well: a job is done on a day only as far as a
truck calls at its yard that day, and whatever group of yards it lies in is entered as often.
That takes a variable for every drive of every day, so it is for few yards (:func:`suits`).
It holds for plans that leave nothing, and of which nothing is driven.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from math import fsum
from typing import Any

from runplanner.season.lanes import (
    Arc,
    Way,
    arcs_of,
    entries,
    grown,
    home_extra,
    honey_extra,
    house_apart,
    reach,
    ways,
)
from runplanner.season.proof.day_jobs import jobs_of
from runplanner.season.proof.owed import always_honey, parts_of
from runplanner.season.proof.rows import Rows, Term
from runplanner.season.proof.way_rows import owed_t
from runplanner.trips.ground import Ground

MOST_DRIVES = 9_000
"""About as many are solved, with all cuts, in five seconds."""
ROUNDS = 12
SHORT = 1e-3
LEAST_GAIN = 2e-4
"""A round of cuts that lifts the bound by a smaller share is the last."""

DONE, BOXES = 0, 1
"""What is counted of a job: its work, or its boxes."""

Group = tuple[int, ...]
Flows = dict[Arc, float]
Mark = tuple[str, int, Group]
"""Which kind of cut, on which day, for which yards."""
Cut = tuple[int, list[Term]]


@dataclass
class Out:
    """One way of going out on one day: its variables, and the minutes of its drives."""

    way: Way
    day: int
    crew: int
    over: Any
    roads: list[tuple[Arc, Any, float]]
    there: list[float]
    back: list[float]
    spent_min: float
    shares: dict[int, Any] = field(default_factory=dict)
    boxes: dict[int, Any] = field(default_factory=dict)


def suits(ground: Ground) -> bool:
    """Tell whether a campaign is small enough, by its drives, days and ways of going out."""
    n = len(ground.dues)
    return n * (n + 1) * ground.outfit.season.n_days * len(ways(ground)) <= MOST_DRIVES


class DayFlow(Rows):
    """The relaxation; ``fixed_cents`` is what no plan can steer."""

    def __init__(self, ground: Ground, fixed_cents: float) -> None:
        super().__init__(ground.outfit.hours, ground.outfit.prices.overtime_permille)
        self.ground, self.outfit = ground, ground.outfit
        self.n = len(ground.dues)
        self.parts = parts_of(ground, complete=True)
        self.jobs = jobs_of(ground, self.parts)
        self.days = range(self.outfit.season.n_days)
        self.most_g = max(h.load_max_g for h in ground.haulers)
        self.goal.SetOffset(fixed_cents)
        self.drives: list[dict[Arc, list[Any]]] = [{} for _ in self.days]
        self.done: list[dict[int, list[Any]]] = [{} for _ in self.jobs]
        self.outs: list[list[Out]] = [[] for _ in self.days]
        self.shifts: list[list[tuple[Way, Any]]] = [[] for _ in self.days]
        self.boxes: list[dict[int, list[Any]]] = [{} for _ in self.jobs]
        self.more_s: list[Any] = []
        for way in ways(ground):
            arcs = arcs_of(ground, way.hauler)
            extra = honey_extra(ground, way.hauler, arcs) if house_apart(ground) else {}
            for day in self.days:
                self._way_out(way, arcs, extra, day)
        for day in self.days:
            self._limit(day)
        self._all_done()
        for yard in range(self.n):
            self.enter((yard,))

    # One way of going out on one day

    def _way_out(
        self,
        way: Way,
        arcs: dict[Arc, tuple[float, float]],
        extra: dict[int, tuple[float, float]],
        day: int,
    ) -> None:
        trucks = sum(day not in self.outfit.trucks[t].out_days for t in way.trucks)
        jobs = [number for number, job in enumerate(self.jobs) if day in job.days]
        if not trucks or not jobs:
            return
        hauler, pace = self.ground.haulers[way.hauler], self.outfit.pace
        minute = hauler.crew * self.outfit.prices.hour_cents / 60
        home = home_extra(self.ground, way.hauler)
        base_min = pace.load_min + pace.unload_min
        shift = self.var(hauler.truck.day_cents + home[1] + home[0] * minute, trucks)
        trip = self.var(base_min * minute)
        over = self.var(minute * self.outfit.prices.overtime_permille / 1000)
        self.shifts[day].append((way, shift))
        self.row(0, None, [(trip, 1), (shift, -1)])
        yards = {self.jobs[number].yard for number in jobs}
        into, roads = self._drives(day, arcs, yards, minute)
        self.row(0, 0, [(trip, -1), *((v, 1) for (a, _), v, _ in roads if a == self.n)])
        out = Out(way, day, hauler.crew, over, roads, *reach(arcs, self.n), home[0] + base_min)
        self.outs[day].append(out)
        busy: list[Term] = [(trip, base_min), (shift, home[0]), *((v, m) for _, v, m in roads)]
        for number in jobs:
            job = self.jobs[number]
            if job.yard not in into:
                continue
            pump = job.ml / pace.pump_ml_per_min if pace.pump_ml_per_min else 0.0
            late = job.late_cents[day] if job.late_cents else 0
            share = self.var(late + pump * minute, 1)
            self.done[number].setdefault(day, []).append(share)
            out.shares[number] = share
            self.row(None, 0, [(share, 1), *((v, -1) for v in into[job.yard])])
            self.row(None, 0, [(share, 1), (shift, -1)])
            busy.append((share, job.person_s / (60 * hauler.crew) + pump))
            if job.out_g:
                part = self.loaded(share, job.poorest, job.richest)
                self.boxes[number].setdefault(day, []).append(part)
                out.boxes[number] = part
        done = [(self.jobs[number], share) for number, share in out.shares.items()]
        boxes = [(self.jobs[number], part) for number, part in out.boxes.items()]
        for terms in owed_t(done, boxes):
            self.row(0, None, [(trip, hauler.load_max_g / 1e6), *terms])
        more_s = self.var(0)
        self.more_s.append(more_s)
        busy.append((more_s, 1 / (60 * hauler.crew)))
        if extra:
            busy += self._by_house(out, hauler.load_max_g, extra)
        self.hours_rows(shift, busy, over, self.var(minute))

    def _by_house(self, out: Out, load_g: int, extra: dict[int, tuple[float, float]]) -> list[Term]:
        """Bring a way's honey home by the honey house; return the minutes that takes more."""
        last = {a: drive for (a, b), drive, _ in out.roads if b == self.n}
        homes = self.homes(extra, last, out.crew * self.outfit.prices.hour_cents / 60)
        brought: list[Term] = []
        for number, share in out.shares.items():
            job = self.jobs[number]
            yard = self.outfit.yards[job.yard]
            if job.out_g:
                brought.append((share, -job.honey_g / 1e6))
                if always_honey(yard):
                    self.row(0, None, [(share, -1), *((home, 1) for home, _ in homes)])
        self.row(0, None, [*((home, load_g / 1e6) for home, _ in homes), *brought])
        return homes

    def _drives(
        self, day: int, arcs: dict[Arc, tuple[float, float]], yards: set[int], minute: float
    ) -> tuple[dict[int, list[Any]], list[tuple[Arc, Any, float]]]:
        """Return the drives into every yard, and all drives with their minutes."""
        into: dict[int, list[Any]] = {}
        roads: list[tuple[Arc, Any, float]] = []
        balance: dict[int, list[Term]] = {}
        for (a, b), (drive_min, cents) in arcs.items():
            if not {a, b} <= {*yards, self.n}:
                continue
            minutes = drive_min + (self.outfit.pace.setup_min if b < self.n else 0)
            variable = self.var(cents + minutes * minute)
            roads.append(((a, b), variable, minutes))
            self.drives[day].setdefault((a, b), []).append(variable)
            balance.setdefault(a, []).append((variable, -1))
            balance.setdefault(b, []).append((variable, 1))
            if b < self.n:
                into.setdefault(b, []).append(variable)
        for terms in balance.values():
            self.row(0, 0, terms)
        return into, roads

    # Rows over the ways of a day, and over days

    def _limit(self, day: int) -> None:
        """Trucks and people suffice for the shifts of a day."""
        by_trucks: dict[tuple[int, ...], list[Any]] = {}
        for way, shift in self.shifts[day]:
            by_trucks.setdefault(way.trucks, []).append(shift)
        for trucks, shifts in by_trucks.items():
            there = sum(day not in self.outfit.trucks[t].out_days for t in trucks)
            self.row(None, there, [(shift, 1) for shift in shifts])
        free = sum(day not in person.off_days for person in self.outfit.people)
        crews = [(shift, self.ground.haulers[way.hauler].crew) for way, shift in self.shifts[day]]
        self.row(None, free, crews)

    def _all_done(self) -> None:
        """Every job is done, and by no day more of it than of the one before it, its lag ago.

        What all jobs take beyond the least of any lot falls on some shift or other.
        """
        more_s = sum(p.person_s for p in self.parts) - sum(job.person_s for job in self.jobs)
        self.row(more_s, None, [(more, 1) for more in self.more_s])
        for job, done, boxes in zip(self.jobs, self.done, self.boxes, strict=True):
            for by_day in (done, boxes) if job.out_g else (done,):
                self.row(1, 1, [(share, 1) for shares in by_day.values() for share in shares])
            if job.after < 0:
                continue
            for day in done:
                mine = [(share, -1.0) for share in _until(done, day)]
                before = _until(self.done[job.after], day - job.lag_days)
                self.row(0, None, [*mine, *((share, job.ahead) for share in before)])

    def _into(self, day: int, group: set[int]) -> Iterator[Any]:
        for (a, b), variables in self.drives[day].items():
            if b in group and a not in group:
                yield from variables

    # Cuts

    def cut(self, seen: set[Mark]) -> int:
        """Add the cuts that the last solution breaks, ``seen`` ones left out; return how many."""
        used = [_flows(drives) for drives in self.drives]
        done = [_values(job) for job in self.done]
        boxes = [_values(job) for job in self.boxes]
        cuts: dict[Mark, Cut] = {}
        total: Flows = {}
        for day, flows in enumerate(used):
            shares = [[job.get(day, 0.0) for job in of_jobs] for of_jobs in (done, boxes)]
            for group in grown(flows, self.n):
                cuts |= self._day_cuts(day, group, entries(flows, group), shares)
                for number, out in enumerate(self.outs[day]):
                    cuts |= self._way_cuts(number, out, group)
            for arc, value in flows.items():
                total[arc] = total.get(arc, 0.0) + value
        for group in grown(total, self.n):
            cuts |= self._rounded_cut(group, entries(total, group))
        fresh = cuts.keys() - seen
        seen |= fresh
        for mark in cuts:
            if mark in fresh:
                self.row(cuts[mark][0], None, cuts[mark][1])
        return len(fresh)

    def _day_cuts(
        self, day: int, group: Group, entered: float, shares: list[list[float]]
    ) -> dict[Mark, Cut]:
        """Enter a group that day as often as its most done job, and for what its loads want."""
        mine = [number for number, job in enumerate(self.jobs) if job.yard in group]
        first = max(mine, key=lambda number: shares[DONE][number])
        wanted: dict[str, tuple[int, list[tuple[int, float]]]] = {
            f"job {first}": (DONE, [(first, 1.0)]),
            "out": (BOXES, [(job, self.jobs[job].out_g / self.most_g) for job in mine]),
            "in": (DONE, [(job, self.jobs[job].in_g / self.most_g) for job in mine]),
        }
        cuts: dict[Mark, Cut] = {}
        for name, (which, terms) in wanted.items():
            if fsum(shares[which][job] * factor for job, factor in terms) > entered + SHORT:
                counted = (self.done, self.boxes)[which]
                owed = [
                    (share, -factor) for job, factor in terms for share in counted[job].get(day, ())
                ]
                into = [(drive, 1.0) for drive in self._into(day, set(group))]
                cuts[name, day, group] = (0, [*into, *owed])
        return cuts

    def _way_cuts(self, number: int, out: Out, group: Group) -> dict[Mark, Cut]:
        """Return what a way's work in a group breaks: all hours, and the call it lacks most."""
        hours, calls = self.way_rows(out, group)
        broken = {name: terms for name, terms in hours.items() if _sum(terms) < -SHORT * 60}
        lacks, name = min((_sum(terms), name) for name, terms in calls.items())
        if lacks < -SHORT:
            broken[name] = calls[name]
        return {(f"{name} {number}", out.day, group): (0, terms) for name, terms in broken.items()}

    def way_rows(self, out: Out, group: Group) -> tuple[dict[str, list[Term]], ...]:
        """Return sums that no plan has below 0, by name: those of hours, and those of calls.

        A way's work in a group and its drives within it fit the hours of those who come; they
        come as often as its loads there want, and its best served yard.
        """
        inside = set(group)
        into = [v for (a, b), v, _ in out.roads if b in inside and a not in inside]
        within = [(v, -m) for (a, b), v, m in out.roads if b in inside and a in inside]
        mine = [(j, s, self.jobs[j]) for j, s in out.shares.items() if self.jobs[j].yard in inside]
        work = [(share, -job.person_s / 60 / out.crew) for _, share, job in mine]
        opened = [(share, -job.open_s / 60 / out.crew) for _, share, job in mine if job.open_s]
        long, normal = (self._minutes(out, group, over=over) for over in (True, False))
        hours: dict[str, list[Term]] = {
            "long": [*((v, long) for v in into), *within, *work],
            "normal": [*((v, normal) for v in into), (out.over, 1.0), *within, *work],
        }
        if opened:
            spans = [s for *_, job in mine for s in self.ground.hours[job.yard].opening[out.day]]
            fair = max(s.end_min for s in spans) - min(s.start_min for s in spans)
            hours["open"] = [*((v, float(fair)) for v in into), *opened]
        load_t = self.ground.haulers[out.way.hauler].load_max_g / 1e6
        boxes = [(job, out.boxes[j]) for j, _, job in mine if j in out.boxes]
        carried, syrup = owed_t([(job, share) for _, share, job in mine], boxes)
        alone: dict[str, list[Term]] = {}
        for number, share, job in mine:
            for name in job.alone or (f"job {number}",):
                alone.setdefault(f"{name} {job.yard}", []).append((share, -1.0))
        calls = {
            "out": [*((v, load_t) for v in into), *carried],
            "in": [*((v, load_t) for v in into), *syrup],
            **{name: [*((v, 1.0) for v in into), *owed] for name, owed in alone.items()},
        }
        return hours, calls

    def _minutes(self, out: Out, group: Group, *, over: bool) -> float:
        """Return the most minutes a shift has in a group, each time it comes; cf. the flow's."""
        there, back = min(out.there[y] for y in group), min(out.back[y] for y in group)
        spent = out.spent_min + self.outfit.pace.setup_min + there + back
        return max(0.0, self.busy_min(over=over) - spent)

    def enter(self, group: Group) -> None:
        """Enter a group as often, over all days, as its loads or its most visited yard want."""
        trips, into = self._trips(group)
        visits = [sum(p.visits for p in self.parts if p.yard == yard) for yard in group]
        self.row(max(trips, *visits), None, into)

    def _trips(self, group: Group) -> tuple[int, list[Term]]:
        """Return the whole trips that the loads of a group take, and the drives into it."""
        mine = [part for part in self.parts if part.yard in group]
        load_g = max(sum(part.out_g for part in mine), sum(part.in_g for part in mine))
        inside = set(group)
        into = [(drive, 1.0) for day in self.days for drive in self._into(day, inside)]
        return -(-load_g // self.most_g), into

    def _rounded_cut(self, group: Group, entered: float) -> dict[Mark, Cut]:
        """Enter a group with as many whole trips as its loads take."""
        trips, into = self._trips(group)
        return {("trips", -1, group): (trips, into)} if trips > entered + SHORT else {}


def day_bound(
    ground: Ground,
    fixed_cents: float,
    groups: Iterable[Group] = (),
    tell: Callable[[float], None] = lambda _cents: None,
) -> float:
    """Return a bound on the cost of every complete plan, in cents; 0 where there is none.

    ``groups`` are groups of yards worth entering often enough from the beginning.  All drives
    are in from the beginning as well, so every solution is a bound, and ``tell`` hears it.
    """
    flow = DayFlow(ground, fixed_cents)
    for group in groups:
        flow.enter(group)
    seen: set[Mark] = set()
    if not flow.solved():
        return 0.0
    for _ in range(ROUNDS):
        before = flow.cents()
        tell(before)
        if not flow.cut(seen) or not flow.solved():
            break
        if flow.cents() - before < LEAST_GAIN * before:
            break
    return flow.cents()


def _sum(terms: Iterable[Term]) -> float:
    """Return what terms come to in the last solution."""
    return fsum(v.solution_value() * factor for v, factor in terms)


def _values(shares: dict[int, list[Any]]) -> dict[int, float]:
    """Return how much of a job there is on every day."""
    return {day: fsum(s.solution_value() for s in of_day) for day, of_day in shares.items()}


def _until(done: dict[int, list[Any]], last: int) -> list[Any]:
    return [share for day, shares in done.items() if day <= last for share in shares]


def _flows(drives: dict[Arc, list[Any]]) -> Flows:
    """Return the drives in use."""
    values = {arc: fsum(v.solution_value() for v in all_ways) for arc, all_ways in drives.items()}
    return {arc: value for arc, value in values.items() if value > 1e-6}
