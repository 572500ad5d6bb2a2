"""The best season of whole visits is the one that trying everything finds; bounds are below it."""

import random
from itertools import product

import numpy as np
import pytest

from runplanner.season.whole.best_season import best_season
from runplanner.season.whole.day_by_day import in_turn, put_together
from runplanner.season.whole.listing import FAR
from runplanner.season.whole.rota import Effort, Rota, priced
from runplanner.season.whole.whole_day import WholeDays, parted

YARDS = 4


def _drawn(dice: random.Random, *, alike: bool) -> Rota:
    """Draw costs of sets, some of which cannot be, and rows of days."""
    least = np.array([0, *(dice.randint(10, 30) for _ in range((1 << YARDS) - 1))], dtype=np.int32)
    for yards in range(1, 1 << YARDS):
        least[yards] += 8 * yards.bit_count()
        if yards.bit_count() > 1 and dice.random() < 0.2:
            least[yards] = FAR
    if alike:
        n_days = dice.choice([2, 3, 4, 6])
        trucks = (dice.randint(1, 2),) * n_days
        often = [dice.choice([d for d in range(1, n_days + 1) if n_days % d == 0])
                 for _ in range(YARDS)]  # fmt: skip
        rows = tuple(
            tuple(tuple(range(first, n_days, n_days // each)) for first in range(n_days // each))
            for each in often
        )
        return Rota(least, trucks, rows)
    n_days = dice.randint(2, 4)
    trucks = tuple(dice.randint(0, 3) for _ in range(n_days))
    whole = [
        tuple(d for d in range(n_days) if bits >> d & 1) for bits in range(1, 1 << n_days)
    ]  # fmt: skip
    rows = tuple(tuple(dice.sample(whole, dice.randint(1, 3))) for _ in range(YARDS))
    dearer = tuple(tuple(dice.randint(0, 9) for _ in range(YARDS)) for _ in range(n_days))
    return Rota(least, trucks, rows, dearer)


def _day(least: np.ndarray, yards: int, trucks: int) -> int:
    """Try every way to share yards out among trucks."""
    chosen = [i for i in range(YARDS) if yards >> i & 1]
    if not trucks:
        return FAR if yards else 0
    best = FAR
    for shares in product(range(trucks), repeat=len(chosen)):
        sets = [
            sum(1 << i for i, share in zip(chosen, shares, strict=True) if share == t)
            for t in range(trucks)
        ]
        best = min(best, sum(int(least[one]) for one in sets))
    return min(best, FAR)


def _best(rota: Rota) -> int:
    """Try every row of every yard."""
    n_days, best = len(rota.trucks), FAR
    known: dict[tuple[int, int], int] = {}
    for rows in product(*rota.patterns):
        cost = 0
        for day in range(n_days):
            yards = sum(1 << i for i, row in enumerate(rows) if day in row)
            key = (yards, rota.trucks[day])
            if key not in known:
                known[key] = _day(rota.least, *key)
            dearer = rota.dearer[day] if rota.dearer else (0,) * YARDS
            cost += known[key] + sum(dearer[i] for i, row in enumerate(rows) if day in row)
        best = min(best, cost)
    return best


def _cost(rota: Rota, days: tuple[int, ...]) -> int:
    cost = 0
    for day, yards in enumerate(days):
        sets = parted(rota.least, yards, rota.trucks[day])
        assert sum(sets) == yards
        cost += sum(int(rota.least[one]) for one in sets)
        dearer = rota.dearer[day] if rota.dearer else (0,) * YARDS
        cost += sum(dearer[i] for i in range(YARDS) if yards >> i & 1)
    return cost


def _tried(dice: random.Random, *, alike: bool) -> tuple[int, int]:
    """Compare one draw; return whether it has a season, and whether days were turned round."""
    rota = _drawn(dice, alike=alike)
    best = _best(rota)
    prices = priced(rota)
    assert prices is not None
    if best >= FAR:
        answer = best_season(rota, float(FAR), lambda: True)
        assert answer is not None
        assert answer.found is None
        return 0, 0
    assert prices.bound <= best + 1e-6
    answer = best_season(rota, best + 50.0, lambda: True)
    assert answer is not None
    assert answer.proven
    assert answer.found is not None
    assert answer.found.cost == best == answer.bound
    assert _cost(rota, answer.found.days) == best
    for i, mine in enumerate(rota.patterns):
        assert tuple(d for d, yards in enumerate(answer.found.days) if yards >> i & 1) in mine
    none = best_season(rota, float(best), lambda: True)
    assert none is not None
    assert none.found is None
    assert none.proven
    assert none.bound == best
    early = best_season(rota, best + 50.0, lambda: False)
    assert early is not None
    assert early.bound <= best + 1e-6
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("runplanner.season.whole.best_season.MOST_WORK", 3)
        given_up = best_season(rota, best + 50.0, lambda: True)
    assert given_up is not None
    assert given_up.bound <= best + 1e-6
    return 1, int(rota.turn < len(rota.trucks))


def test_the_best_season_of_alike_days_is_found_and_proven() -> None:
    dice = random.Random(1)
    seen = [_tried(dice, alike=True) for _ in range(40)]
    assert sum(real for real, _ in seen) > 20
    assert sum(turned for _, turned in seen) > 15


def test_the_best_season_of_any_days_is_found_and_proven() -> None:
    dice = random.Random(2)
    seen = [_tried(dice, alike=False) for _ in range(60)]
    assert sum(real for real, _ in seen) > 20


def test_days_dearer_than_the_list_knows_give_no_false_proof() -> None:
    """Two trucks at 6,000 crowns each, 12,000 together: more than a listed day may cost.

    Both yards on the first day are cheapest by far, and nothing may be proven without them.
    """
    each = 600_000_000
    least = np.array([0, each, each, FAR], dtype=np.int32)
    rows = (((0,),), ((0,), (1,)))
    dear = Rota(least, (2, 2), rows, ((0, 0), (0, each - 1)))
    alone = Rota(least, (1, 1), rows, ((0, 0), (0, each - 1)))

    assert best_season(dear, 1.5e9, lambda: True) is None
    answer = best_season(alone, 3e9, lambda: True)
    assert answer is not None
    assert (3 * each - 1, True) == (answer.bound, answer.proven)


def test_alike_days_are_put_together_in_halves() -> None:
    """Of four days every other one first, with half the gap, and of those one with a quarter."""
    assert in_turn(4, 1) == ((0, 2, 1, 3), (0.25, 0.5, 1.0, 1.0))
    assert in_turn(6, 1)[0] == (0, 2, 4, 1, 3, 5)
    assert in_turn(6, 1)[1] == (1 / 6, 0.5, 0.5, 1.0, 1.0, 1.0)
    assert in_turn(3, 3) == ((0, 1, 2), (1.0, 1.0, 1.0))
    assert in_turn(4, 2) == ((0, 1, 2, 3), (0.5, 0.5, 1.0, 1.0))


def test_many_trucks_share_yards_out_as_cheaply_as_trying_all_ways() -> None:
    dice = random.Random(6)
    for trucks in (1, 2, 3, 4):
        for _ in range(10):
            least = _drawn(dice, alike=True).least
            best = _day(least, 15, trucks)
            sets = parted(least, 15, trucks) if best < FAR else ()
            assert best >= FAR or (sum(sets), len(sets)) == (15, trucks)
            assert best >= FAR or sum(int(least[one]) for one in sets) == best


def test_a_day_a_hair_below_the_bound_is_not_overlooked() -> None:
    """Sums of fractions may be a little below 0; a season so cheap is the best there is."""
    least = np.array([0, 5, 5, 8], dtype=np.int32)
    rota = Rota(least, (1,), (((0,),), ((0,),)))
    whole = np.array([3])
    day = WholeDays(whole, np.array([8]), np.array([-6e-8]))
    found = put_together(rota, (day,), 0.04, Effort(1_000))
    assert found is not None
    assert (8, (3,)) == (found.cost, found.days)
