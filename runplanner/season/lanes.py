"""The roads of the relaxation: ways of going out, and the least each drive costs."""

import math
from dataclasses import dataclass
from math import fsum

from runplanner.trips.ground import Ground

Arc = tuple[int, int]
"""From node to node; nodes are yards by index, the one after the last is the feed store."""

NEAREST = 8


@dataclass(frozen=True, slots=True)
class Way:
    """A way of going out that like trucks share: a hauler, and truck-days in all."""

    hauler: int
    trucks: tuple[int, ...]
    days: int


def ways(ground: Ground) -> tuple[Way, ...]:
    """Return the ways of going out, like trucks taken together."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for truck, facts in enumerate(ground.outfit.trucks):
        key = (
            facts.empty_g, facts.max_g, facts.train_max_g, facts.fuel_g, facts.kit_g, facts.deck,
            facts.axles, facts.seats, facts.width_mm, facts.four_wheel, facts.speed_permille,
            facts.km_cents, facts.day_cents,
        )  # fmt: skip
        groups.setdefault(key, []).append(truck)
    found = []
    days = range(ground.outfit.season.n_days)
    for trucks in groups.values():
        truck_days = sum(
            day not in ground.outfit.trucks[t].out_days for t in trucks for day in days
        )
        found += [Way(h, tuple(trucks), truck_days) for h in ground.siblings[trucks[0]]]
    return tuple(found)


def arcs_of(ground: Ground, hauler: int) -> dict[Arc, tuple[float, float]]:
    """Return the least minutes and running cents of every arc a hauler may drive."""
    n = len(ground.dues)
    owed = [n, *(y for y in range(n) if ground.load_into[hauler][y] >= 0)]
    found = {}
    for a in owed:
        for b in owed:
            leg = _least(ground, hauler, a, b) if a != b else None
            if leg is not None:
                found[a, b] = leg
    return found


def _least(ground: Ground, hauler: int, a: int, b: int) -> tuple[float, float] | None:
    n, outfit = len(ground.dues), ground.outfit
    store, house = outfit.feed_store.place, outfit.honey_house.base.place

    def places(node: int) -> tuple[int, ...]:
        return (store,) if node == n else tuple(p for _, p in outfit.yards[node].sites)

    legs = [_leg(ground, hauler, p, q) for p in places(a) for q in places(b)]
    if b == n:
        on = _onward(ground, hauler)
        through = [_leg(ground, hauler, p, house) for p in places(a)]
        legs += [(x[0] + on[0], x[1] + on[1]) for x in through if x is not None]
    real = [leg for leg in legs if leg is not None]
    return (min(leg[0] for leg in real), min(leg[1] for leg in real)) if real else None


def _leg(ground: Ground, hauler: int, a: int, b: int) -> tuple[float, float] | None:
    minutes, metres = ground.leg_min(hauler, a, b), ground.outfit.travel.metres[a][b]
    if minutes is None or metres is None:
        return None
    return minutes, metres * ground.haulers[hauler].km_cents / 1000


def house_apart(ground: Ground) -> bool:
    """Tell whether coming home by the honey house is another way than to the feed store."""
    return ground.outfit.honey_house.base.place != ground.outfit.feed_store.place


def _onward(ground: Ground, hauler: int) -> tuple[float, float]:
    """Return minutes and cents from honey house to store; nothing where only home is reached."""
    outfit = ground.outfit
    leg = _leg(ground, hauler, outfit.honey_house.base.place, outfit.feed_store.place)
    return leg or (0.0, 0.0)


def honey_extra(
    ground: Ground, hauler: int, arcs: dict[Arc, tuple[float, float]]
) -> dict[int, tuple[float, float]]:
    """Return what the honey house on the way home takes beyond the least way, by last yard.

    That is minutes and running cents, each at least; ``arcs`` are what the hauler may drive.
    """
    n, house = len(ground.dues), ground.outfit.honey_house.base.place
    on = _onward(ground, hauler)
    found: dict[int, tuple[float, float]] = {}
    for (yard, to), least in arcs.items():
        sites = ground.outfit.yards[yard].sites if to == n else ()
        legs = [leg for _, p in sites if (leg := _leg(ground, hauler, p, house)) is not None]
        if legs:
            minutes, cents = (min(leg[i] for leg in legs) + on[i] - least[i] for i in (0, 1))
            found[yard] = minutes, cents
    return found


def home_extra(ground: Ground, hauler: int) -> tuple[float, float]:
    """Return the least minutes and cents a shift drives from and to home beyond its trips."""
    outfit = ground.outfit
    home, store, house = outfit.home.place, outfit.feed_store.place, outfit.honey_house.base.place
    out, back = _leg(ground, hauler, home, store), _leg(ground, hauler, store, home)
    if out is None or back is None:
        return 0, 0
    choices = [back]
    direct, over = _leg(ground, hauler, house, home), _onward(ground, hauler)
    if direct is not None:
        choices.append((direct[0] - over[0], direct[1] - over[1]))
    return out[0] + min(c[0] for c in choices), out[1] + min(c[1] for c in choices)


def reach(arcs: dict[Arc, tuple[float, float]], n: int) -> tuple[list[float], list[float]]:
    """Return the least minutes from the feed store to every yard, and back, by any way."""
    there, back = [math.inf] * n + [0.0], [math.inf] * n + [0.0]
    for _ in range(n + 1):
        changed = False
        for (a, b), (minutes, _) in arcs.items():
            if there[a] + minutes < there[b]:
                there[b], changed = there[a] + minutes, True
            if back[b] + minutes < back[a]:
                back[a], changed = back[b] + minutes, True
        if not changed:
            break
    return there[:n], back[:n]


def near_arcs(arcs: dict[Arc, tuple[float, float]], n: int) -> list[Arc]:
    """Return the arcs to and from the store and each yard's nearest."""
    chosen = {arc for arc in arcs if n in arc}
    mine: list[list[tuple[tuple[float, float], int]]] = [[] for _ in range(n)]
    for (a, b), cost in arcs.items():
        if n not in (a, b):
            mine[a].append((cost, b))
    for a in range(n):
        near = [b for _, b in sorted(mine[a])[:NEAREST]]
        chosen |= {(a, b) for b in near} | {(b, a) for b in near if (b, a) in arcs}
    return sorted(chosen)


def grown(flows: dict[Arc, float], n: int) -> list[tuple[int, ...]]:
    """Return groups of yards grown from every yard in use along its strongest drives."""
    yards = sorted({b for _, b in flows if b < n})
    found: set[tuple[int, ...]] = set()
    for start in yards:
        group = {start}
        while True:
            found.add(tuple(sorted(group)))
            pull: dict[int, float] = {}
            for (a, b), value in flows.items():
                if a in group and b not in group and b < n:
                    pull[b] = pull.get(b, 0.0) + value
                if b in group and a not in group and a < n:
                    pull[a] = pull.get(a, 0.0) + value
            if not pull:
                break
            group.add(max(sorted(pull), key=lambda yard: pull[yard]))
    return sorted(found)


def entries(flows: dict[Arc, float], group: tuple[int, ...]) -> float:
    """Return how often a group of yards is entered from outside."""
    inside = set(group)
    return fsum(value for (a, b), value in flows.items() if b in inside and a not in inside)
