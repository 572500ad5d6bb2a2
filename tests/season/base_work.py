"""Syrup mixed before and honey spun after: some simple ways, for brute force to choose from."""

import itertools
from collections.abc import Iterator, Sequence

from runplanner.daybook.plan import Mixing, Plan, Spinning
from runplanner.daybook.trip import Shift
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from tests.season.by_hand import a_plan
from tests.season.hand_bill import arrivals
from tests.season.hand_clock import up

Team = tuple[str, ...]


def whole_plans(outfit: Outfit, shifts: Sequence[Shift]) -> list[Plan]:
    """The shifts with all syrup mixed on the day before, and the honey spun in some ways."""
    mixing = _mixing(outfit, shifts)
    base = a_plan(outfit, shifts, (), mixing)
    return [a_plan(outfit, shifts, spins, mixing) for spins in _spins(base)]


def _mixing(outfit: Outfit, shifts: Sequence[Shift]) -> list[Mixing]:
    feed = outfit.feed
    ml = sum(a.ml for s in shifts for t in s.trips for c in t.calls for a in c.actions)
    short = ml - feed.ready_ml
    mixer = next((person.id for person in outfit.people if person.mixes), None)
    if short <= 0 or mixer is None or feed.bought:
        return []
    start = 8 * 60 - DAY_MIN
    return [Mixing(start, start + up(short * 60, feed.mix_ml_per_h), mixer, short)]


def _spins(base: Plan) -> list[tuple[Spinning, ...]]:
    """Each team, as boxes come in or when all are in, beside trucks or on days without one."""
    house = base.outfit.honey_house
    queue = [(at, sum(a.boxes for c in t.calls for a in c.actions)) for at, t in arrivals(base)]
    queue = [(0, house.waiting_boxes)] * (house.waiting_boxes > 0) + sorted(queue)
    if not queue:
        return [()]
    together = [(queue[-1][0], sum(boxes for _, boxes in queue))]
    every = itertools.product(_teams(base.outfit), (queue, together), (False, True))
    ways = (_spun(base, team, lots, rested=rested) for team, lots, rested in every)
    return list(dict.fromkeys(way for way in ways if way is not None))


def _teams(outfit: Outfit) -> Iterator[Team]:
    spinners = [person.id for person in outfit.people if person.spins]
    for size in range(1, min(len(spinners), len(outfit.honey_house.boxes_per_h) - 1) + 1):
        yield from itertools.combinations(spinners, size)


def _spun(
    base: Plan, team: Team, lots: Sequence[tuple[int, int]], *, rested: bool
) -> tuple[Spinning, ...] | None:
    """Spin every lot as soon as it is in and the whole team is free, half-day by half-day.

    A ``rested`` team has no truck that day, so that nobody's day gets too long.
    """
    rate = base.outfit.honey_house.boxes_per_h[len(team)]
    spins: list[Spinning] = []
    now = 0
    for at, count in lots:
        left, now = count, max(now, at)
        for begin, end in _free_halves(base, team, now, rested=rested):
            start = max(now, begin)
            boxes = max(0, min(left, rate * (end - start) // 60))
            if boxes:
                now, left = start + up(boxes * 60, rate), left - boxes
                spins.append(Spinning(start, now, team, boxes))
            if not left:
                break
        if left:
            return None
    return tuple(spins)


def _free_halves(base: Plan, team: Team, start: int, *, rested: bool) -> Iterator[tuple[int, int]]:
    """Spinning hours, half-day by half-day, in which all of the team do nothing else."""
    outfit, house = base.outfit, base.outfit.honey_house
    busy = [(s.start_min, s.end_min) for s in base.shifts if set(s.crew) & set(team)]
    away = {day for person in outfit.people if person.id in team for day in person.off_days}
    for day in range(start // DAY_MIN, outfit.season.n_days + 4):
        midnight, noon = day * DAY_MIN, day * DAY_MIN + outfit.hours.noon_min
        if rested and any(midnight <= a < midnight + DAY_MIN for a, _ in busy):
            continue
        for lo, hi in ((midnight, noon), (noon, midnight + DAY_MIN)):
            begin = max(lo, midnight + house.spin_from_min)
            end = min(hi, midnight + house.spin_to_min)
            if begin < end and day not in away and not any(a < hi and b > lo for a, b in busy):
                yield begin, end
