"""The season as a flow over the roads: a linear relaxation of every plan.

What it forgets: lags within a day, the honey house, who is where.  What it keeps: each yard
is visited on so many different days, loads fit the truck, minutes (with breaks and overtime)
fit the shifts, a shift makes at least one trip, shifts fit the days.  Where nothing is left
undone and nothing driven yet, each way's own work is kept to its own drives (:mod:`.way_rows`),
and weather, dates and chains are kept by days (:mod:`.day_rows`).
There is one flow for every way of going out (truck, trailer, crew), with like trucks taken
together.  Every plan gives values that meet all rows at no more than the plan's cost, so
the optimum here is a bound for all plans that leave no more undone.
"""

import math
from collections.abc import Iterator
from dataclasses import replace
from math import fsum
from typing import Any

from runplanner.daybook.plan import ALL_DONE, Tally
from runplanner.season.lanes import (
    Arc,
    Way,
    arcs_of,
    home_extra,
    honey_extra,
    house_apart,
    near_arcs,
    reach,
    ways,
)
from runplanner.season.proof.cuts import Cut, Demand, Group, Mark, ShiftLimit
from runplanner.season.proof.owed import Part, honey_g, parts_of
from runplanner.season.proof.road import Road
from runplanner.season.proof.rows import Rows
from runplanner.season.worth import Left, stated
from runplanner.trips.ground import Ground

SMALL = 1e-6


class Flow(Rows):
    """Builds the relaxation and solves it, adding cuts and roads as they are called for."""

    def __init__(self, ground: Ground, undone: Tally) -> None:
        super().__init__(ground.outfit.hours, ground.outfit.prices.overtime_permille)
        self.ground = ground
        self.outfit = ground.outfit
        self.prices = ground.outfit.prices
        self.complete = undone == ALL_DONE and not stated(self.prices)
        self.parts = parts_of(ground, complete=self.complete)
        self.n = len(ground.dues)
        self.most_work = [self._most_work(yard) for yard in range(self.n)]
        self.cuts: list[Cut] = []
        self.shares = [self._share(part) for part in self.parts]
        self._limit_undone(undone)
        self.shifts = self._shifts()
        self.apart = house_apart(ground)
        self.used: list[list[tuple[Arc, float]]] = []
        self.roads = [self._road(number, way) for number, way in enumerate(ways(ground))]
        self._share_work()
        self._pump()
        if self.apart:
            self._honey_home()
        self._limit_days()
        for group in [*((yard,) for yard in range(self.n)), tuple(range(self.n))]:
            for demand in self.demands(group):
                self.cut(demand)

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

    def _road(self, number: int, way: Way) -> Road:
        hauler = self.ground.haulers[way.hauler]
        minute = hauler.crew * self.outfit.prices.hour_cents / 60
        pace, home = self.outfit.pace, home_extra(self.ground, way.hauler)
        base_min = pace.load_min + pace.unload_min
        trips = self.var(base_min * minute)
        shifts = self.var(hauler.truck.day_cents + home[1] + home[0] * minute)
        over = self.var(minute * self.outfit.prices.overtime_permille / 1000)
        rest = self.var(minute)
        pump = self.var(minute)
        worked = [self.var(0) for _ in range(self.n)]
        arcs = arcs_of(self.ground, way.hauler)
        road = Road(number, way, {}, arcs, trips, shifts, over, rest, pump, worked, home[0])
        road.into = [[] for _ in range(self.n)]
        road.there, road.back = reach(arcs, self.n)
        busy = [
            (trips, base_min),
            (shifts, home[0]),
            (pump, 1.0),
            *((w, 1 / (60 * hauler.crew)) for w in worked),
        ]
        road.busy = self.hours_rows(shifts, busy, over, rest)
        self.row(0, None, [(trips, 1), (shifts, -1)])
        road.balance = [self.row(0, 0, []) for _ in range(self.n + 1)]
        road.leave = self.row(0, 0, [(trips, -1)])
        road.worked = [self.row(None, 0, [(worked[yard], 1)]) for yard in range(self.n)]
        for arc in near_arcs(road.all_arcs, self.n):
            self._open(road, arc)
        if self.apart:
            self._by_house(road)
        return road

    def _by_house(self, road: Road) -> None:
        """Let trips end by way of the honey house, which takes longer than the least way home."""
        extra = honey_extra(self.ground, road.way.hauler, road.all_arcs)
        last = {yard: road.arcs[yard, self.n] for yard in extra}
        road.homes = self.homes(extra, last, self.minute_cents(road))
        for home, minutes in road.homes:
            for row, factor in road.busy:
                row.SetCoefficient(home, factor * minutes)

    def _honey_home(self) -> None:
        """Bring all honey to the honey house: whoever has some aboard comes home that way."""
        homes = [(home, self.load_t(road)) for road in self.roads for home, _ in road.homes]
        brought = [
            (share, -honey_g(self.outfit.yards[part.yard]) / 1e6)
            for share, part in zip(self.shares, self.parts, strict=True)
            if part.not_off
        ]
        self.row(0, None, [*homes, *brought])

    def drive_row(self, road: Road, by_day: list[tuple[Any, float]]) -> None:
        """Let the days' minutes at the wheel and setting up add up to those of the drives."""
        road.drive = self.row(0, 0, by_day)
        for arc, variable in road.arcs.items():
            road.drive.SetCoefficient(variable, -self.arc_cost(road, arc)[0])
        for home, minutes in road.homes:
            road.drive.SetCoefficient(home, -minutes)

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
        minutes, cents = self.arc_cost(road, arc)
        variable = self.var(cents)
        road.arcs[arc] = variable
        if b < self.n:
            road.into[b].append(arc)
        for row, factor in road.busy:
            row.SetCoefficient(variable, factor * minutes)
        road.balance[b].SetCoefficient(variable, 1)
        road.balance[a].SetCoefficient(variable, -1)
        if a == self.n:
            road.leave.SetCoefficient(variable, 1)
        if road.drive is not None:
            road.drive.SetCoefficient(variable, -minutes)
        if b < self.n:
            road.worked[b].SetCoefficient(variable, -self.most_work[b])
            for row in road.calls.get(b, ()):
                row.SetCoefficient(variable, -1)
        for cut in self.cuts:
            if weight := self.weight(road, arc, cut):
                cut.row.SetCoefficient(variable, weight)

    def arc_cost(self, road: Road, arc: Arc) -> tuple[float, float]:
        """Return minutes and cents of one arc with the set-up of the stop it leads to."""
        hauler = self.ground.haulers[road.way.hauler]
        minutes, cents = road.all_arcs[arc]
        minutes += self.outfit.pace.setup_min if arc[1] < self.n else 0
        return minutes, cents + minutes * hauler.crew * self.outfit.prices.hour_cents / 60

    def weight(self, road: Road, arc: Arc, cut: Cut) -> float:
        """Return how much one drive counts in a cut."""
        if arc[1] not in cut.inside:
            return 0.0
        if arc[0] not in cut.inside:
            return self.entry(road, cut)
        lost = self.within(road, cut)
        return -lost * self.arc_cost(road, arc)[0] if lost else 0.0

    def entry(self, road: Road, cut: Cut) -> float:
        """Return how much a drive into a cut's group counts in it."""
        if not cut.counts(road.number):
            return 0.0
        if cut.unit == "h":
            return self._minutes(road, cut.inside, cut.busy_min) * self.crew(road) / 60
        if cut.unit == "people":
            return self.crew(road)
        return self.load_t(road) if cut.unit == "t" else 1.0

    def within(self, road: Road, cut: Cut) -> float:
        """Return how much a minute of a drive within a cut's group takes off."""
        return self.crew(road) / 60 if cut.unit == "h" and cut.counts(road.number) else 0.0

    def _shifts(self) -> tuple[ShiftLimit, ...]:
        """Return the ways of counting what a shift has for work: none has more by any of them."""
        lines = (
            ShiftLimit(f"paid by line {number}", -base / rise, self.dearer / rise, 1 / rise)
            for number, (rise, base) in enumerate(self.lines)
        )
        normal = ShiftLimit("on normal days", self.busy_min(over=False), 1.0)
        return (ShiftLimit("in all", self.busy_min(over=True)), normal, *lines)

    def _minutes(self, road: Road, group: frozenset[int], busy_min: float) -> float:
        """Return the most minutes a shift has for work in a group, and for drives within it.

        It has come from the feed store, has set up at the first yard and must come back; a
        shift that enters more often has less for every entry.
        """
        if (group, busy_min) not in road.minutes:
            pace = self.outfit.pace
            there = min((road.there[yard] for yard in group), default=0.0)
            back = min((road.back[yard] for yard in group), default=0.0)
            spent = road.home_min + pace.load_min + pace.unload_min + pace.setup_min
            road.minutes[group, busy_min] = max(0.0, busy_min - spent - there - back)
        return road.minutes[group, busy_min]

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
            self.row(0, None, [*((road.work[yard], 1) for road in self.roads), *mine])

    def _pump(self) -> None:
        """Crews that set out with syrup have pumped it; who is out already may have before."""
        rate = self.outfit.pace.pump_ml_per_min
        if rate and not self.ground.now_min:
            poured = [(s, -p.ml / rate) for p, s in zip(self.parts, self.shares, strict=True)]
            self.row(0, None, [*((road.pump, 1.0) for road in self.roads), *poured])

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

    def demands(self, group: Group) -> list[Demand]:
        """Return what the work of a group of yards calls for, each way of counting it."""
        most = max(h.load_max_g for h in self.ground.haulers)
        mine = [
            (share, part)
            for part, share in zip(self.parts, self.shares, strict=True)
            if part.yard in group
        ]
        found: list[Demand] = []
        trips = 0
        for name in ("out_g", "in_g"):
            owed = [(share, -getattr(part, name)) for share, part in mine if getattr(part, name)]
            load = -sum(grams for _, grams in owed)
            if load and len(group) > 1:
                found.append(Demand(group, name, 0, [(s, f / 1e6) for s, f in owed], "t"))
                trips = max(trips, -(-load // most))
        if trips and self.complete:
            found.append(Demand(group, "trips", trips, [], "trips"))
        busiest = max(group, key=lambda yard: (self.visits(yard), -yard))
        visits = [(s, -part.visits) for s, part in mine if part.yard == busiest]
        found.append(Demand(group, "visits", 0, [term for term in visits if term[1]], "trips"))
        hours = [(share, -part.person_s / 3600) for share, part in mine]
        found += [
            Demand(group, f"hours {s.name}", 0, hours, "h", s.busy_min, s.over, s.rest)
            for s in self.shifts
        ]
        return found + (self._people(group) if self.complete else [])

    def _people(self, group: Group) -> list[Demand]:
        """Return how many people must enter a group, all visits together, for all its work.

        Everybody who enters has so many hours, and one person less wants as much overtime, or
        overtime and breaks, as the last one's hours (mixed-integer rounding).
        """
        inside, setup_h = frozenset(group), self.outfit.pace.setup_min / 60
        work_h = fsum(part.person_s / 3600 for part in self.parts if part.yard in inside)
        work_h += setup_h * sum(self.visits(yard) for yard in group)
        if not work_h:
            return []
        found = []
        for shift in self.shifts:
            each_h = setup_h + max(
                self._minutes(road, inside, shift.busy_min) / 60 for road in self.roads
            )
            if each_h < SMALL:  # too far for a day without overtime, and set up in no time
                continue
            people = math.ceil(work_h / each_h - SMALL)
            last_h = work_h - (people - 1) * each_h
            over, rest = shift.over / last_h, shift.rest / last_h
            name = f"people {shift.name}"
            found.append(Demand(group, name, people, [], "people", 0.0, over, rest))
        return found

    def visits(self, yard: int) -> float:
        """Return on how many days a yard must be visited at least."""
        return fsum(part.visits for part in self.parts if part.yard == yard)

    def cut(self, demand: Demand) -> Any:  # noqa: ANN401 - the solver's
        """Add a row, and return it: drives, each by its weight, make up for what is demanded."""
        group, unit = frozenset(demand.group), demand.unit
        cut = Cut(demand.mark, group, None, unit, demand.busy_min, demand.only)
        terms = [
            (road.arcs[arc], weight)
            for road in self.roads
            for yard in demand.group
            for arc in road.into[yard]
            if (weight := self.weight(road, arc, cut))
        ]
        for road in self._counted(cut):
            hour = self.crew(road) / 60
            extra = ((road.over, demand.over * hour), (road.rest, demand.rest * hour))
            terms += [term for term in extra if term[1]]
        row = self.row(demand.least, None, [*terms, *demand.owed])
        self.cuts.append(replace(cut, row=row))
        return row

    def _counted(self, cut: Cut) -> Iterator[Road]:
        """Yield the ways of going out whose drives count in a cut."""
        return (road for road in self.roads if cut.counts(road.number))

    def relieve(self) -> set[Mark]:
        """Leave out the cuts that bind nothing now, and return them: the rest is solved sooner."""
        binding = [abs(cut.row.dual_value()) > SMALL for cut in self.cuts]
        for cut, binds in zip(self.cuts, binding, strict=True):
            if not binds:
                cut.row.SetLb(-self.lp.infinity())
        gone = {cut.mark for cut, binds in zip(self.cuts, binding, strict=True) if not binds}
        self.cuts = [cut for cut, binds in zip(self.cuts, binding, strict=True) if binds]
        return gone

    def take_back(self, count: int) -> None:
        """Leave out the last so many cuts."""
        for cut in self.cuts[len(self.cuts) - count :]:
            cut.row.SetLb(-self.lp.infinity())
        del self.cuts[len(self.cuts) - count :]

    def into(self) -> dict[Arc, float]:
        """Return how much of every arc is used, all ways together."""
        total: dict[Arc, float] = {}
        self.used = []
        for road in self.roads:
            values = [(arc, v.solution_value()) for arc, v in road.arcs.items()]
            self.used.append([(arc, value) for arc, value in values if value > SMALL])
            for arc, value in self.used[-1]:
                total[arc] = total.get(arc, 0.0) + value
        return total

    def widen_all(self) -> None:
        """Open every arc."""
        for road in self.roads:
            for arc in sorted(road.all_arcs.keys() - road.arcs.keys()):
                self._open(road, arc)

    def gaining(self) -> list[tuple[Road, Arc]]:
        """Return the closed arcs that could lower the cost; without any, the optimum is proven."""
        from runplanner.season.proof.prices import gaining

        return [(road, arc) for road in self.roads for arc in gaining(self, road)]

    def open(self, wanted: list[tuple[Road, Arc]]) -> None:
        """Open arcs."""
        for road, arc in wanted:
            self._open(road, arc)
