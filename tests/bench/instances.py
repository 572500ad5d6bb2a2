"""Published instances read into one shape: customers with loads in and out, hours, legs."""

import math
from dataclasses import dataclass

from tests.bench.archives import text_of

Legs = list[list[int]]


@dataclass(frozen=True, slots=True)
class Instance:
    """One instance; node 0 is the depot, node ``i + 1`` customer ``i``.

    Args:
        legs: Distances, which are travel times as well where there are hours.
        out: What each customer sends back.
        into: What each customer is brought.
        hours: First and last start of service, or nothing where there are none.
        service: How long service takes.
        released: When each customer's goods are at the depot, or nothing.
        vehicles: How many there are.
        capacity: Of each.
        trips: A vehicle may make several.
        horizon: When all must be back, 0 for never.
    """

    legs: Legs
    out: list[int]
    into: list[int]
    vehicles: int
    capacity: int
    hours: list[tuple[int, int]] | None = None
    service: int = 0
    released: list[int] | None = None
    trips: bool = False
    horizon: int = 0


def cvrp(name: str) -> Instance:
    """Return a capacitated instance; whole distances, vehicles as its name says.

    The X set leaves the number of vehicles open: some more than the name says are given.
    """
    parts = _sections(text_of("cvrp", name))
    spots = [(float(x), float(y)) for _, x, y in parts["NODE_COORD_SECTION"]]
    demand = [int(float(line[1])) for line in parts["DEMAND_SECTION"]]
    vehicles = int(name.rpartition("-k")[2]) + (3 if name.startswith("X") else 0)
    legs = [[math.floor(math.dist(a, b) + 0.5) for b in spots] for a in spots]
    return Instance(legs, demand[1:], [0] * (len(spots) - 1), vehicles, _number(parts, "CAPACITY"))


def solomon(name: str) -> Instance:
    """Return the first customers of a Solomon instance, such as ``R101.25``.

    Distances are truncated to one decimal, as in the DIMACS challenge; all is in tenths.
    """
    base, _, count = name.partition(".")
    lines = [line.split() for line in text_of("vrptw", base).splitlines()]
    rows = [[float(x) for x in line] for line in lines if len(line) == 7 and line[0].isdigit()]
    fleet = next(line for line in lines if len(line) == 2 and line[0].isdigit())
    rows = rows[: int(count) + 1]
    return Instance(
        _tenths([(row[1], row[2]) for row in rows]),
        [int(row[3]) for row in rows[1:]],
        [0] * (len(rows) - 1),
        min(int(fleet[0]), len(rows)),
        int(fleet[1]),
        [(10 * int(row[4]), 10 * int(row[5])) for row in rows[1:]],
        10 * int(rows[1][6]),
        horizon=10 * int(rows[0][5]),
    )


def pickup_delivery(name: str) -> Instance:
    """Return a simultaneous pickup and delivery instance with a full matrix, rounded."""
    parts = _sections(text_of("spd", name))
    legs = [[math.floor(float(cell) + 0.5) for cell in row] for row in parts["EDGE_WEIGHT_SECTION"]]
    into = [int(row[1]) for row in parts["LINEHAUL_SECTION"]]
    out = [int(row[1]) for row in parts["BACKHAUL_SECTION"]]
    return Instance(legs, out[1:], into[1:], len(legs) - 1, _number(parts, "CAPACITY"))


def multi_trip(name: str) -> Instance:
    """Return a multi-trip instance with windows and release times, all in tenths."""
    parts = _sections(text_of("mtvrptw", f"{name}.vrp"))
    spots = [(float(x), float(y)) for _, x, y in parts["NODE_COORD_SECTION"]]
    windows = [(10 * int(a), 10 * int(b)) for _, a, b in parts["TIME_WINDOW_SECTION"]]
    demand = [int(line[1]) for line in parts["DEMAND_SECTION"]]
    released = [10 * int(line[1]) for line in parts["RELEASE_TIME_SECTION"]]
    return Instance(
        _tenths(spots), demand[1:], [0] * (len(spots) - 1),
        _number(parts, "VEHICLES"), _number(parts, "CAPACITY"), windows[1:],
        10 * _number(parts, "SERVICE_TIME"), released[1:], trips=True, horizon=windows[0][1],
    )  # fmt: skip


def _tenths(spots: list[tuple[float, float]]) -> Legs:
    return [[int(10 * math.dist(a, b) + 1e-6) for b in spots] for a in spots]


def _sections(text: str) -> dict[str, list[list[str]]]:
    """Return the lines under every heading; a heading with a value has that value."""
    found: dict[str, list[list[str]]] = {}
    here = ""
    for line in text.splitlines():
        words = line.replace(":", " ").split()
        if not words or words[0].startswith("#"):
            continue
        if words[0][0].isalpha():
            here = words[0]
            found[here] = [words[1:]] if len(words) > 1 else []
        else:
            found[here].append(words)
    return found


def _number(parts: dict[str, list[list[str]]], name: str) -> int:
    return int(parts[name][0][0])
