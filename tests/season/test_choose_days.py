"""Days chosen anew from all that were seen: by hand, and by every way of putting them together."""

import random
from collections.abc import Iterator
from itertools import product

import pytest

from runplanner.outfit.outfit import Outfit
from runplanner.season.search import choose_days, improve
from runplanner.season.search.choose_days import Chosen, Line, Out
from runplanner.season.search.improve import Improver
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import Standing, State
from runplanner.season.twin import Twin
from runplanner.season.watch import Watch
from runplanner.season.worth import stated
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import a_yard, an_outfit
from tests.season.published import P_N16_K8, as_outfit, parsed
from tests.season.tiny import four, tiny

SPOTS = [(10, 2), (14, 8), (-12, -4), (-9, 10)]


def far_apart() -> Outfit:
    """Two yards on either side of the base, four days."""
    return tiny([(25, 0), (-25, 0)], [four(1, 4), four(2, 4)], 4)


def at_once(yard: int) -> Stop:
    """All work of a yard in one stop."""
    return Stop(yard, off=4, boxes=6, round=1, fed=4, strips=True)


def twice(yard: int) -> list[Stop]:
    """The same on two days, with blocks between."""
    return [Stop(yard, off=4, boxes=6, blocks=4), Stop(yard, round=1, fed=4, strips=True)]


def forever(_: float) -> bool:
    """There is always time."""
    return True


def drawn_up(keeper: Keeper, stops: list[Stop]) -> State:
    """One stop a day, from day 0 on, by the truck with one person."""
    judged = [keeper.judge(Day(day, 0, ((stop,),))) for day, stop in enumerate(stops)]
    days = {(day, 0): one for day, one in enumerate(judged) if one is not None}
    assert len(days) == len(stops)
    state = keeper.settled(days)
    assert not any(state.score.undone)
    return state


def test_the_good_halves_of_two_plans_are_put_together() -> None:
    """Each plan does one yard in one stop and the other in two; one stop each is cheapest."""
    keeper = Keeper(Ground(far_apart()))
    one = drawn_up(keeper, [at_once(0), *twice(1)])
    other = drawn_up(keeper, [*twice(0), at_once(1)])
    chosen = Chosen(keeper)
    chosen.saw(one, one.days)
    together = chosen(other)

    assert together is not None
    stops = [visit.stop for visits in together.visits for visit in visits]
    assert [at_once(0), at_once(1)] == stops
    days = [one.days[0, 0].milli_cents, other.days[2, 0].milli_cents]
    assert sum(days) + together.base.milli_cents == together.score.milli_cents


def test_the_same_halves_come_from_two_searches() -> None:
    """What one search found and what the other found are put together likewise."""
    improver = Improver(Ground(far_apart()), 1)
    one = drawn_up(improver.keeper, [at_once(0), *twice(1)])
    other = drawn_up(improver.keeper, [*twice(0), at_once(1)])
    together = improver.together(one, other, forever)

    assert together.score < min(one.score, other.score)
    assert together.score == Improver(Ground(far_apart()), 2).together(other, one, forever).score


def test_nothing_is_chosen_where_the_best_is_the_best_of_all_seen() -> None:
    """With the dearer plan seen besides, the cheaper one stands."""
    keeper = Keeper(Ground(far_apart()))
    one = drawn_up(keeper, [at_once(0), at_once(1)])
    other = drawn_up(keeper, [*twice(0), at_once(1)])
    chosen = Chosen(keeper)
    chosen.saw(other, other.days)

    assert chosen(one) is None


def all_together(outs: list[Out], lines: list[Line]) -> Iterator[int]:
    """The cost of every way of putting whole chains on the days seen, in 1/1000 cent."""
    yards = sorted({line.yard for line in lines})
    costs: dict[tuple[object, ...], int] = {}
    for out in outs:
        costs[out.key, out.parts] = out.judged.milli_cents
    for picked in product(*([line for line in lines if line.yard == yard] for yard in yards)):
        by_day: dict[tuple[int, int], list[choose_days.Part]] = {}
        for line in picked:
            for part in line.parts:
                by_day.setdefault(part[:2], []).append(part)
        wanted = [(key, tuple(sorted(parts))) for key, parts in by_day.items()]
        if all(key in costs for key in wanted):
            yield sum(costs[key] for key in wanted) + sum(line.milli_cents for line in picked)


@pytest.mark.parametrize("dice", range(6))
def test_no_other_way_of_putting_them_together_is_cheaper(dice: int) -> None:
    """Whole numbers find what going through all of them finds."""
    yards = [a_yard(number, colonies=8 + number, boxes=14) for number in range(1, 5)]
    improver = Improver(Ground(an_outfit(SPOTS, yards)), dice)
    state = improver.construct()
    rng = random.Random(dice)
    for _ in range(40):
        new = improver.rebuild(state)
        state = new if new.score <= state.score or rng.random() < 0.3 else state
    assert improver.chosen is not None
    improver.chosen.saw(state, state.days)
    seen = improver.chosen
    outs, lines = choose_days._fitting(list(seen._outs.values()), list(seen._lines.values()))
    rng.shuffle(lines)
    per_yard = {y: [ln for ln in lines if ln.yard == y][:9] for y in range(4)}
    outs, few = choose_days._fitting(outs, [ln for mine in per_yard.values() for ln in mine])
    costs = list(all_together(outs, few))
    picked = choose_days._picked(outs, few, set())

    assert bool(costs) == (picked is not None)
    if picked is not None:
        parts = sorted(part for out in picked for part in out.parts)
        chains = {line.parts: line.milli_cents for line in few}
        mine = [tuple(part for part in parts if part[2].yard == yard) for yard in range(4)]
        days = sum(out.judged.milli_cents for out in picked)
        assert min(costs) == days + sum(chains[one] for one in mine if one)
        shares = choose_days._shared(outs, few)
        assert shares is not None
        assert shares.milli_cents <= min(costs) + 1


def test_days_are_chosen_once_for_each_time_that_comes() -> None:
    """Not twice at one time, and once where two times have passed."""
    chosen = Chosen(Keeper(Ground(far_apart())))
    shares = [0.0, choose_days.CHOSEN_AT[0], choose_days.CHOSEN_AT[0], 1.0, 1.0]

    assert [False, True, False, True, False] == [chosen.due(share) for share in shares]


def test_who_must_keep_to_what_is_driven_or_stated_does_not_choose(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Neither is it done for a single day, nor for many yards."""
    ground = Ground(far_apart())
    assert Improver(ground, 1).chosen is not None
    assert Improver(ground, 1, Standing()).chosen is None
    assert Improver(Ground(as_outfit(parsed(P_N16_K8))), 1).chosen is None
    monkeypatch.setattr(improve, "MOST_YARDS", 1)
    assert Improver(ground, 1).chosen is None


def test_a_plan_that_leaves_work_is_left_as_it_is() -> None:
    """Only whole plans are put together: of an empty one and a whole one the whole one stands."""
    improver = Improver(Ground(far_apart()), 1)
    empty, whole = improver.keeper.empty(), drawn_up(improver.keeper, [at_once(0), at_once(1)])

    assert whole is improver.together(empty, whole, forever)
    assert empty is improver.together(empty, empty, forever)
    assert not stated(improver.ground.outfit.prices)


@pytest.mark.parametrize(("seconds", "times"), [(None, 4), (60.0, 4), (2.0, 0)])
def test_days_are_chosen_as_long_as_there_is_time(
    monkeypatch: pytest.MonkeyPatch, seconds: float | None, times: int
) -> None:
    """Four times in a search, but not where a clock would be over before it is done."""
    seen = []
    monkeypatch.setattr(Chosen, "__call__", lambda _, best: seen.append(best))
    improver = Improver(Ground(far_apart()), 1)
    watch = Watch(20, seconds, None, proof=False)
    improver.rounds(improver.construct(), 20, watch)

    assert times == len(seen)


def test_a_choice_is_thought_to_take_as_long_as_the_longest_so_far(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Before the first one a guess; where there is less time left, the better of two stands."""
    improver = Improver(Ground(far_apart()), 1)
    one = drawn_up(improver.keeper, [at_once(0), *twice(1)])
    other = drawn_up(improver.keeper, [*twice(0), at_once(1)])
    asked: list[float] = []

    def never(seconds: float) -> bool:
        asked.append(seconds)
        return False

    assert improver.together(one, other, never) is min(one, other, key=lambda it: it.score)
    ticks = iter([10.0, 12.5, 20.0, 20.5])
    monkeypatch.setattr("time.monotonic", lambda: next(ticks))
    for _ in range(2):
        improver.together(one, other, forever)
    improver.together(one, other, never)

    assert [choose_days.TAKES_S, 2.5] == asked
    assert improver.takes_s() == 2.5
    assert Improver(Ground(as_outfit(parsed(P_N16_K8))), 1).takes_s() == 0.0


def test_one_that_dies_leaves_nothing_to_put_together() -> None:
    """The second search killed, the first one's plan stands as it is."""
    improver = Improver(Ground(far_apart()), 1)
    state = drawn_up(improver.keeper, [at_once(0), *twice(1)])
    twin = Twin(improver.ground.outfit, 1, 10_000_000, None)
    twin.leave()

    assert state is twin.best(improver, state, hurry=True, has_s=forever)
