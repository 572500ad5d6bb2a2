"""ortools routing day by day: every trip of a truck is a vehicle, chained in time."""

from itertools import pairwise
from typing import Any

from tests.bench.daywork import FAR, Fleet, fleet, prizes
from tests.bench.today import Today, Trips

TRIPS = 3


def by_ortools(today: Today) -> list[Trips]:
    """Return the trips ortools routing finds: optional jobs, loads in and out, hours."""
    return _Model(today).solved()


class _Model:
    """One day as ortools routing takes it."""

    def __init__(self, today: Today) -> None:
        from ortools.constraint_solver import pywrapcp

        self.today = today
        self.fleets = [one for truck in today.trucks for one in [fleet(today, truck)] * TRIPS]
        nodes, vehicles = len(today.jobs) + 1, len(self.fleets)
        self.index: Any = pywrapcp.RoutingIndexManager(nodes, vehicles, 0)
        self.routing: Any = pywrapcp.RoutingModel(self.index)
        self.solver = self.routing.solver()
        self.opens = self.fleets[0].opens
        self._costs()
        self.time = self._clock()
        self._loads()
        self._worth()
        self._chained()

    def _matrix(self, one: Fleet, rows: list[list[int]], plus: list[int] | None = None) -> int:
        """Register rows as a callback; ``plus`` is added on leaving a node."""
        full = [[min(cell, FAR) + (plus[i] if plus else 0) for cell in row]
                for i, row in enumerate(rows)]  # fmt: skip
        return int(self.routing.RegisterTransitMatrix(full))

    def _costs(self) -> None:
        """Kilometres and driving time; waiting and work cost through the span of the clock."""
        for v, one in enumerate(self.fleets):
            cents = [[m * one.km_cents for m in row] for row in one.metres]
            callback = self.routing.RegisterTransitMatrix(cents)
            self.routing.SetArcCostEvaluatorOfVehicle(callback, v)
            fixed = one.day_milli_cents if v % TRIPS == 0 else 0
            self.routing.SetFixedCostOfVehicle(fixed, v)

    def _clock(self) -> Any:
        callbacks = []
        for one in self.fleets:
            work = [one.visit_min[i] + one.base_min[i] for i in range(len(self.today.jobs))]
            callbacks.append(self._matrix(one, one.minutes, [one.trip_min, *work]))
        day = self.fleets[0].closes - self.opens
        self.routing.AddDimensionWithVehicleTransits(callbacks, day, day, False, "clock")
        time = self.routing.GetDimensionOrDie("clock")
        for i, job in enumerate(self.today.jobs):
            self._hours(time, i, job.spans)
        for v, one in enumerate(self.fleets):
            time.SetSpanCostCoefficientForVehicle(one.crew_milli_cents, v)
        return time

    def _hours(self, time: Any, i: int, spans: Any) -> None:
        minutes = max(one.visit_min[i] for one in self.fleets)
        fits = [(s.start_min - self.opens, s.end_min - minutes - self.opens) for s in spans]
        fits = [(max(0, a), b) for a, b in fits if b >= max(0, a)]
        node = self.index.NodeToIndex(i + 1)
        if not fits:
            self.routing.VehicleVar(node).SetValue(-1)
            return
        cumul = time.CumulVar(node)
        cumul.SetRange(fits[0][0], fits[-1][1])
        for (_, end), (start, _) in pairwise(fits):
            cumul.RemoveInterval(end + 1, start - 1)

    def _loads(self) -> None:
        """What goes in is aboard from the start; what comes out is added as it is taken."""
        jobs = self.today.jobs
        inward, outward = [j.in_g for j in jobs], [j.out_g for j in jobs]
        going = self._unary([0, *(-g for g in inward)])
        both = self._unary([0, *(b - a for a, b in zip(inward, outward, strict=True))])
        boxes = self._unary([0, *(j.boxes for j in jobs)])
        caps = [one.load_g for one in self.fleets]
        for name, callback in (("in", going), ("both", both)):
            self.routing.AddDimensionWithVehicleCapacity(callback, 0, caps, False, name)
        room = [one.boxes for one in self.fleets]
        self.routing.AddDimensionWithVehicleCapacity(boxes, 0, room, True, "boxes")
        syrup = self.routing.GetDimensionOrDie("in")
        load = self.routing.GetDimensionOrDie("both")
        for v in range(len(self.fleets)):
            start = self.routing.Start(v)
            self.solver.Add(load.CumulVar(start) == syrup.CumulVar(start))

    def _unary(self, values: list[int]) -> int:
        return int(self.routing.RegisterUnaryTransitVector(values))

    def _worth(self) -> None:
        """Leaving a job costs its prize; trucks that may not enter are barred."""
        worth = prizes(self.today, self.fleets)
        for i in range(len(self.today.jobs)):
            node = self.index.NodeToIndex(i + 1)
            self.routing.AddDisjunction([node], worth[i])
            for v, one in enumerate(self.fleets):
                if one.minutes[0][i + 1] >= FAR:
                    self.routing.VehicleVar(node).RemoveValue(v)

    def _chained(self) -> None:
        """A truck's trips follow one another within its longest duty."""
        for first in range(0, len(self.fleets), TRIPS):
            last = first + TRIPS - 1
            for v in range(first, last):
                self.solver.Add(self._start(v + 1) >= self._end(v))
                self.solver.Add(
                    self.routing.ActiveVehicleVar(v + 1) <= self.routing.ActiveVehicleVar(v)
                )
            longest = self.fleets[first].most_min
            self.solver.Add(self._end(last) - self._start(first) <= longest)

    def _start(self, v: int) -> Any:
        return self.time.CumulVar(self.routing.Start(v))

    def _end(self, v: int) -> Any:
        return self.time.CumulVar(self.routing.End(v))

    def solved(self) -> list[Trips]:
        from ortools.constraint_solver import pywrapcp, routing_enums_pb2

        wish: Any = pywrapcp.DefaultRoutingSearchParameters()
        wish.first_solution_strategy = (
            routing_enums_pb2.FirstSolutionStrategy.PARALLEL_CHEAPEST_INSERTION
        )
        wish.local_search_metaheuristic = (
            routing_enums_pb2.LocalSearchMetaheuristic.GUIDED_LOCAL_SEARCH
        )
        wish.time_limit.FromMilliseconds(max(50, int(self.today.seconds * 1000)))
        answer = self.routing.SolveWithParameters(wish)
        if answer is None:
            return [[] for _ in self.today.trucks]
        trips = [self._trip(answer, v) for v in range(len(self.fleets))]
        return [
            [t for t in trips[first : first + TRIPS] if t] for first in range(0, len(trips), TRIPS)
        ]

    def _trip(self, answer: Any, v: int) -> list[Any]:
        node, found = self.routing.Start(v), []
        while not self.routing.IsEnd(node):
            here = self.index.IndexToNode(node)
            if here:
                found.append(self.today.jobs[here - 1])
            node = answer.Value(self.routing.NextVar(node))
        return found
