"""Truck days listed by sets of stops are those that trying every order of every trip finds."""

import random
from functools import partial
from itertools import combinations, pairwise, permutations, repeat

import numpy as np
import pytest

from runplanner.season.whole.listing import FAR, Legs, Limits, listed, spared
from runplanner.season.whole.order import ordered


def _drawn(dice: random.Random, count: int, straight: bool) -> tuple[Legs, Limits]:  # noqa: FBT001
    """Draw ways; straight ones come from points in the plane, by way of two stores."""

    def ints(values: object) -> np.ndarray:
        return np.array(values, dtype=np.int32)

    limits = Limits(
        ints([dice.randint(2, 6) for _ in range(count)]), 11,
        ints([dice.randint(1, 9) for _ in range(count)]), dice.randint(60, 130),
    )  # fmt: skip
    if not straight:
        square = [[[dice.randint(1, 40) for _ in range(count)] for _ in range(count)] for _ in "dv"]
        ends = [[dice.randint(1, 40) for _ in range(count)] for _ in "se"]
        return Legs(ints(ends[0]), ints(square[0]), ints(square[1]), ints(ends[1])), limits
    spots = [(dice.randint(0, 20), dice.randint(0, 20)) for _ in range(count + 3)]
    far = [[abs(a - c) + abs(b - d) for c, d in spots] for a, b in spots]
    stores, home, stops = (count, count + 1), count + 2, range(count)

    def by(a: int, b: int) -> int:
        return min(far[a][s] + far[s][b] for s in stores)

    return Legs(
        ints([by(home, b) for b in stops]), ints([[far[a][b] for b in stops] for a in stops]),
        ints([[by(a, b) for b in stops] for a in stops]), ints([far[a][home] for a in stops]),
    ), limits  # fmt: skip


def _least(legs: Legs, limits: Limits, stops: tuple[int, ...]) -> int:
    """Try every order and every way to cut it into trips."""
    best = FAR
    for order in permutations(stops):
        for number in range(len(order)):
            for cuts in combinations(range(1, len(order)), number):
                trips = [order[a:b] for a, b in pairwise([0, *cuts, len(order)])]
                if all(sum(limits.load_g[i] for i in t) <= limits.most_g for t in trips):
                    best = min(best, _length(legs, trips))
    late = best + sum(int(limits.work[i]) for i in stops) > limits.longest
    return FAR if late else best


def _length(legs: Legs, trips: list[tuple[int, ...]]) -> int:
    inside = sum(int(legs.direct[a, b]) for trip in trips for a, b in pairwise(trip))
    between = sum(int(legs.via[one[-1], other[0]]) for one, other in pairwise(trips))
    return int(legs.start[trips[0][0]]) + inside + between + int(legs.end[trips[-1][-1]])


@pytest.mark.parametrize("straight", [True, False])
def test_every_set_of_stops_takes_what_its_best_order_takes(straight: bool) -> None:  # noqa: FBT001
    dice, short = random.Random(11), 0
    for _ in range(12):
        legs, limits = _drawn(dice, 5, straight)
        least = listed(legs, limits)
        assert least is not None
        for size in range(1, 6):
            for stops in combinations(range(5), size):
                wanted = _least(legs, limits, stops)
                assert least[sum(1 << i for i in stops)] == wanted
                if wanted == FAR:
                    short += 1
                    continue
                trips = ordered(legs, limits, stops)
                assert sorted(i for trip in trips for i in trip) == list(stops)
                assert _length(legs, list(trips)) == wanted
                assert all(sum(limits.load_g[i] for i in t) <= limits.most_g for t in trips)
    assert short > 10


def test_leaving_a_stop_out_never_lengthens_drives_by_more_than_told() -> None:
    dice = random.Random(3)
    for straight in (True, False):
        legs, limits = _drawn(dice, 5, straight)
        gained = spared(legs)
        free = Limits(limits.load_g, limits.most_g, limits.work, 10_000)
        least = listed(legs, free)
        assert least is not None
        assert not straight or gained.max() <= 0
        for chosen in range(1, 32):
            for i in range(5):
                rest = chosen & ~(1 << i)
                if chosen >> i & 1 and rest:
                    assert least[rest] <= least[chosen] + gained[i]


def test_only_asked_for_sets_are_listed() -> None:
    legs, limits = _drawn(random.Random(5), 4, straight=True)
    asked = np.zeros(16, dtype=bool)
    asked[[0, 1, 2, 3]] = True
    least = listed(legs, limits, allowed=asked)
    whole = listed(legs, limits)
    assert least is not None
    assert whole is not None
    assert (least[:4] == whole[:4]).all()
    assert (least[4:] == FAR).all()


def test_more_stops_than_a_table_holds_are_not_listed() -> None:
    many = np.ones(30, dtype=np.int32)
    legs = Legs(many, np.ones((30, 30)), np.ones((30, 30)), many)
    assert listed(legs, Limits(many, 5, many, 100)) is None


def test_trips_of_many_stops_are_not_listed() -> None:
    """Of 21 stops that all ride together there are a million trips of eight and more."""
    light = np.ones(21, dtype=np.int32)
    legs = Legs(light, np.ones((21, 21)), np.ones((21, 21)), light)
    assert listed(legs, Limits(light, 14, light, 100)) is None


def test_a_list_is_broken_off_when_told() -> None:
    """It asks before the sets of every size, of four stops four times."""
    legs, limits = _drawn(random.Random(5), 4, straight=True)
    for often in range(6):
        answers = repeat(True, often)
        assert (listed(legs, limits, partial(next, answers, False)) is None) == (often < 4)
