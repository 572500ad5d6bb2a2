"""A cost no plan can go below.

The bound comes from a relaxation that forgets days, weather, lags within a day and the
honey house, and keeps what makes the season dear: every yard must be visited on so many
different days, loads fit the truck, minutes fit the shifts, shifts fit the days.  It is a
flow over the roads, one for every way of going out (truck, trailer, crew), tightened by
cuts over groups of yards ("so many trips must come in here"), with whole shifts and whole
trips.  Every plan gives a flow that meets all rows at no more than the plan's cost, so the
optimum of the relaxation bounds the cost of every plan that does no less work.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Any

from runplanner.daybook.plan import Bound, Tally
from runplanner.season.unavoidable import Unavoidable
from runplanner.trips.ground import Ground

CUT_ROUNDS = 25
KIND = "valid for every plan that leaves no more undone in any part"
NODE_LIMIT = 2_000


@dataclass
class Way:
    """A way of going out that several like trucks share.

    Args:
        hauler: Index of one hauler of this kind.
        trucks: Trucks of this kind (indices).
        days: Days on which they may go out, all together.
    """

    hauler: int
    trucks: tuple[int, ...]
    days: int


class Relaxation:
    """The flow relaxation of one campaign."""

    def __init__(self, ground: Ground, undone: Tally) -> None:
        from ortools.linear_solver import pywraplp

        self.ground = ground
        self.work = Unavoidable(ground, undone)
        self.n = len(ground.outfit.yards)
        self.solver: Any = pywraplp.Solver.CreateSolver("GLOP")
        self.cost: list[tuple[Any, float]] = []
        self.flows: list[dict[tuple[int, int], Any]] = []
        self.trips: list[Any] = []
        self.shifts: list[Any] = []
        for way in self.ways:
            self._add_way(way)
        self._add_work()
        self._add_days()
        for yard in range(self.n):
            self.cut((yard,))
        self.cut(tuple(range(self.n)))
        self.solver.Minimize(sum(coefficient * variable for variable, coefficient in self.cost))

    @cached_property
    def ways(self) -> tuple[Way, ...]:
        """Ways of going out, like trucks taken together."""
        ground = self.ground
        groups: dict[tuple[object, ...], list[int]] = {}
        for truck, facts in enumerate(ground.outfit.trucks):
            key = (
                facts.empty_g, facts.max_g, facts.train_max_g, facts.fuel_g, facts.kit_g, facts.deck,
                facts.axles, facts.seats, facts.width_mm, facts.four_wheel, facts.speed_permille,
                facts.km_cents, facts.day_cents,
            )  # fmt: skip
            groups.setdefault(key, []).append(truck)
        ways = []
        for trucks in groups.values():
            days = sum(
                sum(1 for day in range(ground.outfit.season.n_days) if day not in ground.outfit.trucks[t].out_days)
                for t in trucks
            )
            ways += [Way(h, tuple(trucks), days) for h in ground.siblings[trucks[0]]]
        return tuple(ways)

    # Nodes 0..n-1 are yards, n is the store at the start and at the end of a trip.

    def _add_way(self, way: Way) -> None:
        solver, n = self.solver, self.n
        inf = solver.infinity()
        flow = {}
        name = len(self.flows)
        for a in range(n + 1):
            for b in range(n + 1):
                if a != b and self._road(way.hauler, a, b) is not None:
                    flow[a, b] = solver.NumVar(0, inf, "")
        trips, shifts = solver.NumVar(0, inf, f"trips{name}"), solver.NumVar(0, inf, f"shifts{name}")
        over = solver.NumVar(0, inf, "")
        work = [solver.NumVar(0, inf, "") for _ in range(n)]
        for a in range(n + 1):
            into = sum(flow[b, a] for b in range(n + 1) if (b, a) in flow)
            out = sum(flow[a, b] for b in range(n + 1) if (a, b) in flow)
            solver.Add(into == out)
            if a == n:
                solver.Add(out == trips)
        self.flows.append(flow)
        self.trips.append(trips)
        self.shifts.append(shifts)
        for yard in range(n):
            visits = sum(flow[b, yard] for b in range(n + 1) if (b, yard) in flow)
            solver.Add(work[yard] <= self.work.visit_person_s(yard) * visits)
        self._pay(way, flow, trips, shifts, over, sum(work))
        self._work_of = [*getattr(self, "_work_of", []), work]

    def _pay(self, way: Way, flow: dict[tuple[int, int], Any], trips: Any, shifts: Any, over: Any, work: Any) -> None:  # noqa: ANN401
        """Price roads and minutes, and fit the minutes into the shifts."""
        outfit, hauler = self.ground.outfit, self.ground.haulers[way.hauler]
        minute = hauler.crew * outfit.prices.hour_cents / 60
        minutes = []
        for (a, b), variable in flow.items():
            road = self._road(way.hauler, a, b)
            leg_min, cents = road if road is not None else (0, 0)
            stop = outfit.pace.setup_min if b < self.n else 0
            minutes.append((variable, leg_min + stop))
            self.cost.append((variable, cents + (leg_min + stop) * minute))
        base_min = outfit.pace.load_min + outfit.pace.unload_min
        minutes.append((trips, base_min))
        self.cost.append((trips, base_min * minute))
        home_min, home_cents = self._home(way.hauler)
        minutes.append((shifts, home_min))
        self.cost.append((shifts, hauler.truck.day_cents + home_cents + home_min * minute))
        self.cost.append((over, minute * outfit.prices.overtime_permille / 1000))
        hours = outfit.hours
        longest = min(hours.duty_max_min, hours.end_min - hours.start_min)
        normal = min(hours.normal_min, longest)
        self.solver.Add(sum(c * v for v, c in minutes) + work * (1 / (60 * hauler.crew)) <= normal * shifts + over)
        self.solver.Add(over <= (longest - normal) * shifts)

    def _road(self, hauler: int, a: int, b: int) -> tuple[float, float] | None:
        """Return the least minutes and the least running cost from node to node."""
        starts, ends = self._places(a), self._places(b)
        found = [self._leg(hauler, p, q) for p in starts for q in ends]
        if b == self.n:
            house, store = self.ground.outfit.honey_house.base.place, self.ground.outfit.feed_store.place
            back = self._leg(hauler, house, store)
            through = [self._leg(hauler, p, house) for p in starts]
            found += [(x[0] + back[0], x[1] + back[1]) for x in through if x is not None and back is not None]
        real = [leg for leg in found if leg is not None]
        if not real:
            return None
        return min(leg[0] for leg in real), min(leg[1] for leg in real)

    def _places(self, node: int) -> tuple[int, ...]:
        if node == self.n:
            return (self.ground.outfit.feed_store.place,)
        return tuple(place for _, place in self.ground.outfit.yards[node].sites)

    def _leg(self, hauler: int, a: int, b: int) -> tuple[float, float] | None:
        minutes, metres = self.ground.leg_min(hauler, a, b), self.ground.outfit.travel.metres[a][b]
        if minutes is None or metres is None:
            return None
        return minutes, metres * self.ground.haulers[hauler].km_cents / 1000

    def _home(self, hauler: int) -> tuple[float, float]:
        """Return the least minutes and cost a shift drives to and from home beyond its trips."""
        outfit = self.ground.outfit
        home, store, house = outfit.home.place, outfit.feed_store.place, outfit.honey_house.base.place
        out, back = self._leg(hauler, home, store), self._leg(hauler, store, home)
        if out is None or back is None:
            return 0, 0
        ways = [back]
        direct, over = self._leg(hauler, house, home), self._leg(hauler, house, store)
        if direct is not None and over is not None:
            ways.append((direct[0] - over[0], direct[1] - over[1]))
        return out[0] + min(w[0] for w in ways), out[1] + min(w[1] for w in ways)

    def _add_work(self) -> None:
        """All work on colonies that cannot be avoided is done by some way of going out."""
        for yard in range(self.n):
            self.solver.Add(sum(work[yard] for work in self._work_of) >= self.work.yard_person_s(yard))

    def _add_days(self) -> None:
        outfit, by_trucks = self.ground.outfit, {}
        for index, way in enumerate(self.ways):
            by_trucks.setdefault(way.trucks, (way.days, []))[1].append(self.shifts[index])
        for days, shifts in by_trucks.values():
            self.solver.Add(sum(shifts) <= days)
        person_days = sum(
            1 for person in outfit.people for day in range(outfit.season.n_days) if day not in person.off_days
        )
        crews = [self.ground.haulers[way.hauler].crew for way in self.ways]
        self.solver.Add(sum(c * s for c, s in zip(crews, self.shifts, strict=True)) <= person_days)

    # Cuts

    def cut(self, group: tuple[int, ...]) -> None:
        """Demand as many trips into a group of yards as its visits and loads call for."""
        inside = set(group)
        into = [
            [v for (a, b), v in flow.items() if b in inside and a not in inside] for flow in self.flows
        ]
        least = self.work.trips_into(group)
        if len(group) == 1:
            self.solver.Add(sum(sum(one) for one in into) >= least)
            return
        self.solver.Add(sum(sum(one) for one in into) >= least)
        loads = [self.ground.haulers[way.hauler].load_max_g / 1e6 for way in self.ways]
        load = self.work.load_g(group) / 1e6
        self.solver.Add(sum(q * sum(one) for q, one in zip(loads, into, strict=True)) >= load)

    def solve(self) -> float:
        """Return the bound in cents: cuts first, then whole shifts and trips."""
        seen: set[tuple[int, ...]] = set()
        for _ in range(CUT_ROUNDS):
            if self.solver.Solve() != self.solver.OPTIMAL:
                return 0.0
            fresh = [group for group in self._violated() if group not in seen]
            if not fresh:
                break
            for group in fresh:
                seen.add(group)
                self.cut(group)
        return float(self.solver.Objective().Value()) if self.solver.Solve() == self.solver.OPTIMAL else 0.0

    def _violated(self) -> list[tuple[int, ...]]:
        """Grow a group from every yard along its strongest flows; keep those short of trips."""
        total: dict[tuple[int, int], float] = {}
        for flow in self.flows:
            for arc, variable in flow.items():
                value = variable.solution_value()
                if value > 1e-9:
                    total[arc] = total.get(arc, 0.0) + value
        found: dict[tuple[int, ...], float] = {}
        for start in range(self.n):
            self._grow(start, total, found)
        ranked = sorted(found, key=lambda group: (-found[group], group))
        return ranked[: 3 * self.n]

    def _grow(self, start: int, total: dict[tuple[int, int], float], found: dict[tuple[int, ...], float]) -> None:
        group = {start}
        while len(group) < self.n:
            into = sum(v for (a, b), v in total.items() if b in group and a not in group)
            key = tuple(sorted(group))
            short = self.work.trips_into(key) - into
            if short > 1e-4:
                found[key] = max(found.get(key, 0.0), short)
            pull: dict[int, float] = {}
            for (a, b), value in total.items():
                if a in group and b not in group and b < self.n:
                    pull[b] = pull.get(b, 0.0) + value
                if b in group and a not in group and a < self.n:
                    pull[a] = pull.get(a, 0.0) + value
            if not pull:
                return
            group.add(max(sorted(pull), key=lambda yard: pull[yard]))


def bound_of(ground: Ground, undone: Tally) -> Bound:
    """Return a bound on the cost of every plan that leaves no more undone in any part."""
    relaxation = Relaxation(ground, undone)
    cents = relaxation.solve() + relaxation.work.fixed_cents()
    fixed = relaxation.work.fixed_cents()
    return Bound(KIND, max(int(cents), fixed), fixed, Tally(0, 0, 0, 0))
