"""A way of going out in the relaxation, and what drives not in it yet would gain."""

from dataclasses import dataclass, field
from typing import Any, Protocol

from runplanner.season.lanes import Arc, Way
from runplanner.season.proof.cuts import Cut

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
    there: list[float] = field(default_factory=list)
    back: list[float] = field(default_factory=list)
    into: list[list[Arc]] = field(default_factory=list)
    minutes: dict[tuple[frozenset[int], bool], float] = field(default_factory=dict)


class Priced(Protocol):
    """What pricing asks of the relaxation; nodes below ``n`` are yards."""

    n: int
    cuts: list[Cut]

    def arc_cost(self, road: Road, arc: Arc) -> tuple[float, float]:
        """Return minutes and cents of one drive."""

    def most_work(self, yard: int) -> int:
        """Return the most work one visit does, in person-seconds."""

    def weight(self, road: Road, arc: Arc, cut: Cut) -> float:
        """Return how much one drive counts in a cut."""


class RoadPrices:
    """Prices arcs that are not in the model yet."""

    def __init__(self, flow: Priced, road: Road) -> None:
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
            (cut, price) for cut in flow.cuts if abs(price := cut.row.dual_value()) > SMALL
        ]

    def reduced(self, arc: Arc) -> float:
        """Return what the cost rises by, in cents, for one such drive; below 0 it gains."""
        a, b = arc
        flow, n = self._flow, self._flow.n
        minutes, cents = flow.arc_cost(self._road, arc)
        value = cents - minutes * (self._minute - self._drive) - self._balance[b] + self._balance[a]
        if a == n:
            value -= self._leave
        if b < n:
            value += self._worked[b] * flow.most_work(b)
            value += self._calls.get(b, 0.0)
        cuts = sum(price * flow.weight(self._road, arc, cut) for cut, price in self._cuts)
        return float(value - cuts)
