"""The season as a flow over the roads: a linear relaxation of every plan.

What it forgets: lags within a day, the honey house, who is where.  What it keeps: each yard
is visited on so many different days, loads fit the truck, minutes (with breaks and overtime)
fit the shifts, a shift makes at least one trip, shifts fit the days.  Where nothing is left
undone and nothing driven yet, weather, dates and chains are kept by days (:mod:`.day_rows`).
There is one flow for every way of going out (truck, trailer, crew), with like trucks taken
together.  Every plan gives values that meet all rows at no more than the plan's cost, so
the optimum here is a bound for all plans that leave no more undone.
"""

from dataclasses import dataclass, field
from typing import Any

from runplanner.daybook.plan import Tally
from runplanner.season.lanes import Arc, Way, arcs_of, home_extra, near_arcs, ways
from runplanner.season.owed import Part, parts_of
from runplanner.season.rows import Rows
from runplanner.season.worth import Left, stated
from runplanner.trips.ground import Ground

Group = tuple[int, ...]
SMALL = 1e-6


@dataclass
class Road:
    """One way's variables and rows; nodes are yards, the last one is the feed store."""

    way: Way
    arcs: dict[Arc, Any]
    all_arcs: dict[Arc, tuple[float, float]]
    trips: Any
    shifts: Any
    over: Any
    rest: Any
    work: list[Any]
    home_min: float
    balance: list[Any] = field(default_factory=list)
    leave: Any = None
    busy: Any = None
    worked: list[Any] = field(default_factory=list)
    drive: Any = None
    calls: dict[int, list[Any]] = field(default_factory=dict)


class Flow(Rows):
    """Builds the relaxation and solves it, adding cuts and roads as they are called for."""

    def __init__(self, ground: Ground, undone: Tally) -> None:
        super().__init__(ground.outfit.hours)
        self.ground = ground
        self.outfit = ground.outfit
        self.prices = ground.outfit.prices
        self.complete = undone == Tally(0, 0, 0, 0) and not stated(self.prices)
        self.parts = parts_of(ground, complete=self.complete)
        self.n = len(ground.dues)
        self.cuts: list[tuple[frozenset[int], Any, bool]] = []
        self.shares = [self._share(part) for part in self.parts]
        self._limit_undone(undone)
        self.roads = [self._road(way) for way in ways(ground)]
        self._share_work()
        self._limit_days()
        for yard in range(self.n):
            self.cut((yard,))
        self.cut(tuple(range(self.n)))

    # Parts: how much of each is done

    def _share(self, part: Part) -> Any:  # noqa: ANN401
        """Return how much of a part is done; the rest is charged its stated worth, if any."""
        worth = Left(part.no_strips, part.unfed_g, part.not_off).milli_cents(self.prices) / 1000
        self.goal.SetOffset(self.goal.offset() + worth)
        cents = part.cents + part.person_s * self.prices.hour_cents / 3600
        share = self.var(cents - worth, 1)
        if self.complete:
            share.SetLb(1)
        return share

    def _limit_undone(self, undone: Tally) -> None:
        for part, share in zip(self.parts, self.shares, strict=True):
            if part.after >= 0 and not self.complete:
                self.row(0, None, [(self.shares[part.after], 1), (share, -1)])
        counted = Left(1, 1, 1).counted(self.prices)._asdict()
        for name in (name for name, counts in counted.items() if counts):
            whole = sum(getattr(part, name) for part in self.parts)
            terms = [(s, getattr(p, name)) for p, s in zip(self.parts, self.shares, strict=True)]
            if whole:
                self.row(whole - getattr(undone, name), None, terms)
        rate = self.outfit.feed.mix_ml_per_h
        if rate and not self.outfit.feed.bought:
            mixed = self.var(self.outfit.prices.hour_cents / rate)
            terms = [(s, -part.ml) for part, s in zip(self.parts, self.shares, strict=True)]
            self.row(-self.outfit.feed.ready_ml, None, [(mixed, 1), *terms])

    # Roads: one flow for each way of going out

    def _road(self, way: Way) -> Road:
        hauler = self.ground.haulers[way.hauler]
        minute = hauler.crew * self.outfit.prices.hour_cents / 60
        pace, home = self.outfit.pace, home_extra(self.ground, way.hauler)
        base_min = pace.load_min + pace.unload_min
        trips = self.var(base_min * minute)
        shifts = self.var(hauler.truck.day_cents + home[1] + home[0] * minute)
        over = self.var(minute * self.outfit.prices.overtime_permille / 1000)
        rest = self.var(minute)
        worked = [self.var(0) for _ in range(self.n)]
        arcs = arcs_of(self.ground, way.hauler)
        road = Road(way, {}, arcs, trips, shifts, over, rest, worked, home[0])
        busy = [
            (trips, base_min),
            (shifts, home[0]),
            *((w, 1 / (60 * hauler.crew)) for w in worked),
        ]
        road.busy = self.hours_rows(shifts, busy, over, rest)
        self.row(0, None, [(trips, 1), (shifts, -1)])
        road.balance = [self.row(0, 0, []) for _ in range(self.n + 1)]
        road.leave = self.row(0, 0, [(trips, -1)])
        road.worked = [self.row(None, 0, [(worked[yard], 1)]) for yard in range(self.n)]
        for arc in near_arcs(road.all_arcs, self.n):
            self._open(road, arc)
        self._worked = [*getattr(self, "_worked", []), worked]
        return road

    def drive_row(self, road: Road, by_day: list[tuple[Any, float]]) -> None:
        """Let the days' minutes at the wheel and setting up add up to those of the drives."""
        road.drive = self.row(0, 0, by_day)
        for arc, variable in road.arcs.items():
            road.drive.SetCoefficient(variable, -self._arc_cost(road, arc)[0])

    def call_row(self, road: Road, yard: int, share: Any) -> None:  # noqa: ANN401
        """Let no more of a job be done by a way of going out than it calls at the yard."""
        row = self.row(None, 0, [(share, 1)])
        road.calls.setdefault(yard, []).append(row)
        for (_, b), variable in road.arcs.items():
            if b == yard:
                row.SetCoefficient(variable, -1)

    def crew(self, road: Road) -> int:
        """Return the people of a way of going out."""
        return self.ground.haulers[road.way.hauler].crew

    def load_t(self, road: Road) -> float:
        """Return the most load of a way of going out, in tonnes."""
        return self.ground.haulers[road.way.hauler].load_max_g / 1e6

    def minute_cents(self, road: Road) -> float:
        """Return what a minute of a way's crew costs."""
        return self.crew(road) * self.prices.hour_cents / 60

    def _open(self, road: Road, arc: Arc) -> None:
        """Add one arc's variable to every row it stands in."""
        a, b = arc
        minutes, cents = self._arc_cost(road, arc)
        variable = self.var(cents)
        road.arcs[arc] = variable
        pause, slope, fit = road.busy
        pause.SetCoefficient(variable, slope * minutes)
        fit.SetCoefficient(variable, minutes)
        road.balance[b].SetCoefficient(variable, 1)
        road.balance[a].SetCoefficient(variable, -1)
        if a == self.n:
            road.leave.SetCoefficient(variable, 1)
        if road.drive is not None:
            road.drive.SetCoefficient(variable, -minutes)
        if b < self.n:
            road.worked[b].SetCoefficient(variable, -self._most_work(b))
            for row in road.calls.get(b, ()):
                row.SetCoefficient(variable, -1)
        for group, row, by_load in self.cuts:
            if b in group and a not in group:
                row.SetCoefficient(variable, self._weight(road, by_load))

    def _arc_cost(self, road: Road, arc: Arc) -> tuple[float, float]:
        """Return minutes and cents of one arc with the set-up of the stop it leads to."""
        hauler = self.ground.haulers[road.way.hauler]
        minutes, cents = road.all_arcs[arc]
        minutes += self.outfit.pace.setup_min if arc[1] < self.n else 0
        return minutes, cents + minutes * hauler.crew * self.outfit.prices.hour_cents / 60

    def _weight(self, road: Road, by_load: bool) -> float:  # noqa: FBT001
        return self.load_t(road) if by_load else 1.0

    def _most_work(self, yard: int) -> int:
        """Return the most work one visit does: all but further rounds (boards come earlier)."""
        mine = [part for part in self.parts if part.yard == yard]
        first = [
            p for p in mine if not (p.unfed_g and p.after >= 0 and self.parts[p.after].unfed_g)
        ]
        return max(1, sum(part.person_s for part in first))

    def _share_work(self) -> None:
        """All work owed at a yard is done by the crews that visit it."""
        for yard in range(self.n):
            mine = [
                (s, -p.person_s)
                for p, s in zip(self.parts, self.shares, strict=True)
                if p.yard == yard
            ]
            self.row(0, None, [*((worked[yard], 1) for worked in self._worked), *mine])

    def _limit_days(self) -> None:
        by_trucks: dict[tuple[int, ...], list[Road]] = {}
        for road in self.roads:
            by_trucks.setdefault(road.way.trucks, []).append(road)
        for same in by_trucks.values():
            self.row(None, same[0].way.days, [(road.shifts, 1) for road in same])
        days = range(self.outfit.season.n_days)
        person_days = sum(
            day not in person.off_days for person in self.outfit.people for day in days
        )
        crews = [(road.shifts, self.ground.haulers[road.way.hauler].crew) for road in self.roads]
        self.row(None, person_days, crews)
        if self.complete and self.parts:
            self.row(1, None, [(road.shifts, 1) for road in self.roads])

    # Cuts: so many trips, so much load, must come into a group of yards

    def cut(self, group: Group) -> None:
        """Demand the trips and the load that a group of yards calls for."""
        inside = frozenset(group)
        most = max(h.load_max_g for h in self.ground.haulers)
        into = [
            (v, road)
            for road in self.roads
            for (a, b), v in road.arcs.items()
            if b in inside and a not in inside
        ]
        for name in ("out_g", "in_g"):
            owed = [
                (s, getattr(p, name))
                for p, s in zip(self.parts, self.shares, strict=True)
                if p.yard in inside
            ]
            load = sum(grams for _, grams in owed)
            if not load or len(group) == 1:
                continue
            terms = [(s, -grams / 1e6) for s, grams in owed if grams]
            row = self.row(
                0, None, [*((v, self._weight(road, by_load=True)) for v, road in into), *terms]
            )
            self.cuts.append((inside, row, True))
            if self.complete:
                row = self.row(-(-load // most), None, [(v, 1) for v, _ in into])
                self.cuts.append((inside, row, False))
        busiest = max(group, key=lambda yard: (self._visits(yard), -yard))
        owed = [
            (s, -p.visits)
            for p, s in zip(self.parts, self.shares, strict=True)
            if p.yard == busiest
        ]
        row = self.row(0, None, [*((v, 1) for v, _ in into), *owed])
        self.cuts.append((inside, row, False))

    def _visits(self, yard: int) -> int:
        return sum(part.visits for part in self.parts if part.yard == yard)

    def trips_into(self, group: Group) -> float:
        """Return the trips a group calls for, at the shares now in the solution."""
        most = max(h.load_max_g for h in self.ground.haulers)
        inside = set(group)
        visits = dict.fromkeys(group, 0.0)
        loads = [0.0, 0.0]
        for part, share in zip(self.parts, self.shares, strict=True):
            if part.yard in inside:
                done = 1.0 if self.complete else share.solution_value()
                visits[part.yard] += part.visits * done
                loads = [loads[0] + part.out_g * done, loads[1] + part.in_g * done]
        trips = max(loads) / most
        return max(float(-(-max(loads) // most)) if self.complete else trips, *visits.values())

    def into(self) -> dict[Arc, float]:
        """Return how much of every arc is used, all ways together."""
        total: dict[Arc, float] = {}
        for road in self.roads:
            for arc, variable in road.arcs.items():
                value = variable.solution_value()
                if value > SMALL:
                    total[arc] = total.get(arc, 0.0) + value
        return total

    def widen_all(self) -> None:
        """Open every arc."""
        for road in self.roads:
            for arc in sorted(road.all_arcs.keys() - road.arcs.keys()):
                self._open(road, arc)

    def widen(self) -> int:
        """Open every closed arc that could lower the cost; return how many."""
        wanted = []
        for road in self.roads:
            duals = _Duals(self, road)
            closed = sorted(road.all_arcs.keys() - road.arcs.keys())
            wanted += [(road, arc) for arc in closed if duals.reduced(arc) < -SMALL]
        for road, arc in wanted:
            self._open(road, arc)
        return len(wanted)


class _Duals:
    """Prices arcs that are not in the model yet."""

    def __init__(self, flow: Flow, road: Road) -> None:
        self._flow, self._road = flow, road
        self._balance = [row.dual_value() for row in road.balance]
        self._leave = road.leave.dual_value()
        self._worked = [row.dual_value() for row in road.worked]
        pause, slope, fit = road.busy
        self._minute = pause.dual_value() * slope + fit.dual_value()
        self._calls = {
            yard: sum(row.dual_value() for row in rows) for yard, rows in road.calls.items()
        }
        self._drive = road.drive.dual_value() if road.drive is not None else 0.0
        self._cuts = [
            (group, row.dual_value() * flow._weight(road, by_load))  # noqa: SLF001 - its own helper
            for group, row, by_load in flow.cuts
            if abs(row.dual_value()) > SMALL
        ]

    def reduced(self, arc: Arc) -> float:
        a, b = arc
        flow, n = self._flow, self._flow.n
        minutes, cents = flow._arc_cost(self._road, arc)  # noqa: SLF001
        value = cents - minutes * (self._minute - self._drive) - self._balance[b] + self._balance[a]
        if a == n:
            value -= self._leave
        if b < n:
            value += self._worked[b] * flow._most_work(b)  # noqa: SLF001
            value += self._calls.get(b, 0.0)
        cuts = sum(price for group, price in self._cuts if b in group and a not in group)
        return float(value - cuts)
