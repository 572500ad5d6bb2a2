"""Which demands of groups of yards the last solution does not meet, and by how much."""

from collections.abc import Iterable
from math import fsum
from typing import NamedTuple

from runplanner.season.lanes import Arc, entries
from runplanner.season.proof.cuts import Asked, Cut, Demand, Group, Mark
from runplanner.season.proof.flow import Flow
from runplanner.season.proof.road import Road

SHORT = 1e-3
DAY_H = 10.0
"""Hours that count as much as a trip when the worst demand is looked for."""


class Served(NamedTuple):
    """What one way of going out does for a group: entries, and minutes of drives within it."""

    road: Road
    entered: float
    within_min: float


def lacking(flow: Flow, asked: Iterable[Asked], seen: set[Mark]) -> list[Demand]:
    """Return demands not ``seen`` yet of the groups that are served least.

    Of each group it is the one that lacks most: what it brings often does for the others, and
    every row makes all solutions slower.
    """
    used = [dict(drives) for drives in flow.used]
    found: list[tuple[float, Mark, Demand]] = []
    for group, demands in asked:
        short = [(by, d) for by, d in _short(flow, used, group, demands) if by > SHORT]
        fresh = [(by, d) for by, d in short if d.mark not in seen]
        if fresh:
            by, demand = max(fresh, key=lambda one: one[0])
            found.append((-by, demand.mark, demand))
    found.sort(key=lambda one: one[:2])
    return [demand for _, _, demand in found[: max(10, flow.n // 2)]]


def _short(
    flow: Flow, used: list[dict[Arc, float]], group: Group, demands: list[Demand]
) -> list[tuple[float, Demand]]:
    """Return by how much of a trip, or of a day, each of a group's demands is not met."""
    inside, asked = frozenset(group), {demand.only for demand in demands}
    served = [
        _served(flow, road, used[road.number], group)
        for road in flow.roads
        if asked & {None, road.number}
    ]
    most_t = max(h.load_max_g for h in flow.ground.haulers) / 1e6
    size = {"t": most_t, "trips": 1.0, "people": 1.0, "h": DAY_H}
    found = []
    for demand in demands:
        cut = Cut(demand.mark, inside, None, demand.unit, demand.busy_min, demand.only)
        there = fsum(
            _there(flow, one, demand, cut) for one in served if cut.counts(one.road.number)
        )
        found.append(((demand.wanted() - there) / size[demand.unit], demand))
    return found


def _served(flow: Flow, road: Road, flows: dict[Arc, float], group: Group) -> Served:
    inside = set(group)
    within = [arc for arc in flows if arc[0] in inside and arc[1] in inside]
    minutes = fsum(flows[arc] * flow.arc_cost(road, arc)[0] for arc in within)
    return Served(road, entries(flows, group), minutes)


def _there(flow: Flow, one: Served, demand: Demand, cut: Cut) -> float:
    """Return what a way of going out brings of what is demanded."""
    road = one.road
    brought = one.entered * flow.entry(road, cut) if one.entered else 0.0
    brought -= one.within_min * flow.within(road, cut)
    hour = flow.crew(road) / 60
    for factor, minutes in ((demand.over, road.over), (demand.rest, road.rest)):
        brought += factor * hour * minutes.solution_value() if factor else 0.0
    return brought
