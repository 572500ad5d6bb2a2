"""Small periodic instances come out as trying everything finds, and are proven."""

import json
import random
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise, permutations, product
from pathlib import Path

import pytest

from runplanner.season.plan_season import searched
from runplanner.season.watch import NO_BETTER, Watch
from runplanner.season.whole.whole_visits import gone_through
from tests.bench import archives, published
from tests.bench import periodic as periodic_module
from tests.bench.checked import minutes
from tests.bench.periodic import Periodic, improver_of, most_wages, periodic
from tests.bench.twin import UNIT_CENTS

CUSTOMERS, NEVER = 4, 10**9


def _given(dice: random.Random) -> Periodic:
    count = CUSTOMERS + 3
    legs = [[0 if a == b else dice.randint(5, 30) for b in range(count)] for a in range(count)]
    often = [dice.choice([1, 2, 2, 4]) for _ in range(CUSTOMERS)]
    return Periodic(
        legs, [dice.randint(2, 6) for _ in range(CUSTOMERS)],
        [dice.randint(1, 9) for _ in range(CUSTOMERS)], often,
        [CUSTOMERS + 1, CUSTOMERS + 2], 4, dice.randint(1, 2), 9, dice.randint(70, 140),
    )  # fmt: skip


def _best(given: Periodic) -> int:
    """Try all rows of days, all ways to share a day's customers out, all orders and trips."""

    @cache
    def truck(mine: tuple[int, ...]) -> int:
        least = NEVER if mine else 0
        for order in permutations(mine):
            for number in range(len(order)):
                for cuts in combinations(range(1, len(order)), number):
                    trips = [order[a:b] for a, b in pairwise([0, *cuts, len(order)])]
                    least = min(least, _driven(given, trips))
        work = sum(given.service[i] for i in mine)
        return least if least + work <= given.longest else NEVER

    @cache
    def day(mine: tuple[int, ...]) -> int:
        if given.vehicles == 1:
            return truck(mine)
        return min(
            truck(tuple(i for i, first in zip(mine, firsts, strict=True) if first))
            + truck(tuple(i for i, first in zip(mine, firsts, strict=True) if not first))
            for firsts in product((False, True), repeat=len(mine))
        )

    every = [given.days // often for often in given.often]
    return min(
        sum(
            day(tuple(i for i in range(CUSTOMERS) if (d - firsts[i]) % every[i] == 0))
            for d in range(given.days)
        )
        for firsts in product(*(range(step) for step in every))
    )


def _driven(given: Periodic, trips: list[tuple[int, ...]]) -> int:
    """The minutes driven on some trips of one truck; place 0 is the depot."""
    here = minutes = 0
    for trip in trips:
        if sum(given.demand[i] for i in trip) > given.capacity:
            return NEVER
        places = [i + 1 for i in trip]
        minutes += min(given.legs[here][f] + given.legs[f][places[0]] for f in given.facilities)
        minutes += sum(given.legs[a][b] for a, b in pairwise(places))
        here = places[-1]
    return minutes + given.legs[here][0]


def test_tiny_instances_are_proven_at_what_trying_everything_finds() -> None:
    """The judge's own minutes are the best ones, and the bound is below it by roundings alone."""
    dice, real = random.Random(8), 0
    for _ in range(25):
        given = _given(dice)
        best = _best(given)
        improver = improver_of(given, 1)
        outcome = gone_through(improver, improver.construct(), lambda: True)
        assert outcome is not None
        if best >= NEVER:
            assert not outcome.proven
            assert outcome.state.score.undone.unfed_g
            continue
        real += 1
        assert outcome.proven
        assert sum(judged.metres for judged in outcome.state.days.values()) == best
        wages = most_wages(given)
        assert best * UNIT_CENTS - 1 <= outcome.milli_cents / 1000 <= best * UNIT_CENTS + wages
        assert outcome.milli_cents <= outcome.state.score.milli_cents
    assert real > 10


def test_visits_begin_where_all_later_ones_can_follow() -> None:
    """A customer visited daily goes in first, and one of every other day begins by the second."""
    given = _given(random.Random(8))
    given = replace(given, often=[1, 2, 2, 4], days=4, vehicles=2, longest=400, capacity=99)
    improver = improver_of(given, 1)
    last_day = improver.builder.take_offs.last_day
    assert [last_day(i, 1, given.often[i]) for i in range(CUSTOMERS)] == [3, 1, 1, 0]
    assert improver.rebuild.pressing(improver.keeper.empty(), range(CUSTOMERS))[0] == 3
    assert not improver.construct().score.undone.unfed_g


def test_instances_beside_the_known_ones_are_found(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A further file is run as well, with nothing to compare it with."""
    (tmp_path / "pvrpif").mkdir()
    (tmp_path / "pvrpif" / "Other_020_4_1.geojson").write_text("{}", encoding="utf-8")
    monkeypatch.setattr(archives, "SHARED", tmp_path)
    names = list(published.instances_of("periodic"))
    assert names == [*published.PERIODIC, "Other_020_4_1"]
    assert list(published.instances_of("multi")) == list(published.MULTI_TRIP)


def test_what_is_proven_is_not_searched_on() -> None:
    given = _given(random.Random(8))
    improver = improver_of(given, 1)
    watch = Watch(1_000, None, None)
    state = searched(improver, improver.construct(), watch)
    assert watch.stopped == NO_BETTER
    assert watch.done == 0
    assert sum(judged.metres for judged in state.days.values()) == _best(given)
    assert watch.least_cents <= state.score.milli_cents // 1000


def test_time_that_is_up_leaves_a_bound() -> None:
    """Broken off before the first gap, the linear program's bound stands, below the best.

    The list asks once for each size of day; broken off before it is whole there is nothing.
    """
    given = _given(random.Random(8))
    improver = improver_of(given, 1)
    assert gone_through(improver, improver.construct(), lambda: False) is None
    for_list = iter([True] * CUSTOMERS)
    outcome = gone_through(improver, improver.construct(), lambda: next(for_list, False))
    assert outcome is not None
    assert not outcome.proven
    whole = gone_through(improver, improver.construct(), lambda: True)
    assert whole is not None
    assert 0 < outcome.milli_cents <= whole.state.score.milli_cents


def test_what_customers_want_is_dealt_out_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    """The same wishes and ways, among other customers each time, with longer days."""
    wishes = [{"type": "customer", "demand": n, "service": n, "frequency": 1} for n in range(1, 9)]
    facts = [{"type": "depot"}, *wishes, {"type": "intermediateFacility"}]
    told = {
        "features": [{"properties": one} for one in facts], "duration": [[1] * 10] * 10,
        "info": dict.fromkeys(("planningHorizon", "numVehicles", "maxCapacity"), 2)
        | {"maxDuration": 50},
    }  # fmt: skip
    monkeypatch.setattr(periodic_module, "text_of", lambda *_: json.dumps(told))
    first, *others = [periodic(name) for name in ("One", "One~1", "One~2", "One~3")]
    assert [50, 50, 55, 60] == [first.longest, *(one.longest for one in others)]
    for one in others:
        assert sorted(one.demand) == first.demand
        assert one.service == one.demand != first.demand
        assert (one.legs, one.facilities) == (first.legs, first.facilities)
    assert len({tuple(one.demand) for one in others}) == 3
    assert others[0] == periodic("One~1")


def test_the_search_keeps_to_the_instance_without_a_list() -> None:
    """What the rounds find by themselves is as long by the instance as by the judge."""
    dice, real = random.Random(8), 0
    for _ in range(12):
        given = _given(dice)
        improver = improver_of(given, 1)
        state = improver.rounds(improver.construct(), 30, Watch(30, None, None))
        if state.score.undone.unfed_g:
            continue
        real += 1
        driven = sum(judged.metres for judged in state.days.values())
        assert driven == minutes(given, published._days(state)) >= _best(given)
    assert real > 5
