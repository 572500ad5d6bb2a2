"""Published instances keep their meaning when they are told as campaigns of one day."""

import time
from itertools import combinations, pairwise, permutations
from pathlib import Path

import pytest

from runplanner.season.plan_season import plan_season
from runplanner.season.search.improve import Improver
from runplanner.season.standing.keeper import Keeper
from runplanner.season.watch import Watch
from runplanner.trips.ground import Ground
from tests.bench import archives, published
from tests.bench.instances import Instance
from tests.bench.periodic import Periodic, improver_of
from tests.bench.published import BEST, DEALT, SETS, why_left_out
from tests.bench.released import Released
from tests.bench.twin import UNIT_CENTS, twin, wages_cents

LEGS = [[0, 4, 6, 8, 5], [4, 0, 3, 5, 8], [6, 3, 0, 2, 8], [8, 5, 2, 0, 6], [5, 8, 8, 6, 0]]
"""No way round is shorter than the straight one."""


def _route(order: tuple[int, ...], given: Instance) -> int | None:
    """The length of one route, or None where its load or an hour is missed."""
    load = sum(given.into[i] for i in order)
    clock = 0
    if load > given.capacity:
        return None
    for i, before in zip(order, (-1, *order), strict=False):
        load += given.out[i] - given.into[i]
        clock += given.legs[before + 1][i + 1]
        opens, closes = given.hours[i] if given.hours else (0, clock)
        clock = max(clock, opens)
        if load > given.capacity or clock > closes:
            return None
        clock += given.service
    return sum(given.legs[a][b] for a, b in pairwise([0, *(i + 1 for i in order), 0]))


def _best(given: Instance) -> int:
    """The shortest way to serve all with so many routes, by trying every split of every order."""
    found, count = [], len(given.out)
    for order in permutations(range(count)):
        for routes in range(min(given.vehicles, count)):
            for cuts in combinations(range(1, count), routes):
                parts = [order[a:b] for a, b in pairwise([0, *cuts, count])]
                lengths = [_route(part, given) for part in parts]
                if None not in lengths:
                    found.append(sum(length for length in lengths if length is not None))
    return min(found)


@pytest.mark.parametrize(
    "given",
    [
        Instance(LEGS, [3, 4, 2, 5], [0] * 4, 2, 9),
        Instance(LEGS, [3, 4, 2, 5], [4, 3, 5, 1], 2, 9),
        Instance(LEGS, [3, 4, 2, 5], [0] * 4, 4, 20,
                 [(20, 25), (0, 15), (0, 60), (0, 60)], 2, horizon=90),
    ],
    ids=["loads out", "loads both ways", "hours"],
)  # fmt: skip
def test_core_finds_the_best_of_a_tiny_instance(given: Instance) -> None:
    """The twin of a tiny instance costs what trying every order finds, and the bound is valid."""
    plan = plan_season(twin(given), rounds=80)
    assert (0, 0) == (plan.tally.not_off, plan.tally.unfed_g)
    assert _best(given) == plan.bill.km // UNIT_CENTS
    assert plan.bound.cents <= _best(given) * UNIT_CENTS + wages_cents(given)


def test_goods_wait_for_their_release() -> None:
    """A trip is loaded no sooner than its last goods are there: the second one at 40."""
    hours = [(0, 80)] * 4
    given = Instance(
        LEGS, [1] * 4, [0] * 4, 1, 2, hours, released=[0, 40, 0, 0], trips=True, horizon=90
    )
    ground = Ground(twin(given))
    improver = Improver(ground, 1, keeper=Keeper(ground, judge=Released(ground, [0, 40, 0, 0])))
    state = improver.rounds(improver.construct(), 40, Watch(40, None, None))
    (judged,) = state.days.values()
    assert 0 == state.score.undone.not_off
    for trip, at in zip(judged.day.trips, judged.load_at, strict=True):
        assert at >= max([0, 40, 0, 0][stop.yard] for stop in trip)


def test_periodic_visits_are_spaced_and_pass_the_facility() -> None:
    """Twice in four days means two days apart; every trip passes the facility first.

    Alone: 0 - 3 - 1 - 0 is 8 + 5 + 4 = 17 long, or with customer 2 besides 8 + 2 + 3 + 4 = 17;
    customer 1 twice and customer 2 once: one day with both, one with 1 alone, 34 in all.
    """
    given = Periodic(LEGS, [4, 4], [1, 1], [2, 1], [3], 4, 1, 9, 60)
    improver = improver_of(given, 1)
    state = improver.rounds(improver.construct(), 60, Watch(60, None, None))
    days = sorted(day for day, _ in state.days)
    assert 0 == state.score.undone.unfed_g
    assert 2 == days[1] - days[0]
    assert 34 == sum(judged.metres for judged in state.days.values())


def test_of_two_searches_the_better_counts(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    """A cheaper plan that serves all counts; a second search that is lost is told.

    The process of the second does not know the instance that is made up here.
    """
    row = {"finished": True, "cost": 30, "note": "", "bound": 20}
    assert 29 == published.better(row, row | {"cost": 29})["cost"]
    assert row == published.better(row, row | {"cost": 31})
    assert row == published.better(row, row | {"cost": 0, "finished": False})
    assert row == published.better(row | {"finished": False, "cost": 0}, row)
    tiny = Instance(LEGS, [3, 4, 2, 5], [0] * 4, 2, 9)
    monkeypatch.setattr(published, "read", lambda _: tiny)
    monkeypatch.setattr(published, "BEST", {"tiny": _best(tiny)})
    found = published.run("tiny", 2.0, 60, time.time())
    assert (published.ONE_ONLY, _best(tiny)) == (found["note"], found["cost"])
    assert "KeyError" in capfd.readouterr().err


def test_missing_instances_are_said_in_words(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Nothing to fetch with, or a wrong file: the reason is told and nothing fails."""
    monkeypatch.setattr(archives, "SHARED", tmp_path)
    monkeypatch.setenv("RUNPLANNER_BENCH_CACHE", str(tmp_path))
    (tmp_path / archives.WHEEL).write_bytes(b"something else")
    archives._fetched.cache_clear()
    assert "hash differs" in why_left_out("P-n20-k2")
    assert "registry packages" in why_left_out("C201R0.25")
    assert "registry packages" in why_left_out("Milano_020_4_0")
    archives._fetched.cache_clear()


def test_every_instance_has_a_best_known_value() -> None:
    """All instances of all sets have their published value, but for the tiny and the drawn ones."""
    names = [name for instances in SETS.values() for name in instances]
    assert {*DEALT, "SmallVRPSPD"} == {name for name in names if not BEST[name]}
