"""Seconds given are those of the whole planning: search, proof and reasons."""

import errno
import subprocess
import time
from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import ALL_DONE, Tally
from runplanner.outfit.outfit import Outfit
from runplanner.season import plan_season as planning
from runplanner.season.beside import begun, ended, told_enough
from runplanner.season.plan_season import plan_season
from runplanner.season.proof.bound import bound_of
from runplanner.season.prover import ALONE, Prover
from runplanner.season.search.improve import Improver
from runplanner.season.standing.base_work import NO_WORK
from runplanner.season.standing.state import Score, State, UndoneVector
from runplanner.season.watch import TIME_UP, Watch
from runplanner.season.why_not import eased_search, reasons
from runplanner.season.why_not.goods_short import more_blocks_for
from runplanner.trips.ground import Ground
from tests.outfits import a_yard, an_outfit
from tests.season.test_twin import five_yards
from tests.season.test_worked_undone import short_day

DONE = Score(UndoneVector(), 100_000)
UNFED = Score(UndoneVector(unfed_g=500), 100_000)
LONG_S = 600.0
"""More than a process of five yards can take; it is waited for only until it is done."""


def seven_yards() -> Outfit:
    """More than those whose bound comes at once."""
    spots = [(10, 2), (14, 8), (-12, -4), (-9, 10), (2, 16), (5, 5), (-3, -8)]
    return an_outfit(spots, [a_yard(number) for number in range(1, 8)])


class Clock:
    """A clock that is set by hand."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.now = 1_000.0
        monkeypatch.setattr(time, "monotonic", lambda: self.now)


def a_state(score: Score) -> State:
    """A state of which nothing but its score is looked at."""
    return State({}, (), (), NO_WORK, score)


@pytest.mark.parametrize(("score", "last_s"), [(DONE, 97), (UNFED, 69)])
def test_the_search_leaves_time_for_what_follows(
    monkeypatch: pytest.MonkeyPatch, score: Score, last_s: int
) -> None:
    """Of 100 s, 3 for the last round and writing down; 31 where reasons are to be found as well."""
    clock = Clock(monkeypatch)
    watch = Watch(1_000, 100.0, None)
    clock.now += last_s - 1

    assert watch(1, a_state(score))
    assert watch.share(1) == pytest.approx((last_s - 1) / last_s)
    assert watch.left_s() == pytest.approx(101 - last_s)
    clock.now += 1
    assert not watch(2, a_state(score))
    assert watch.hurried
    assert watch.stopped == TIME_UP


def test_what_comes_after_the_search_is_kept_free(monkeypatch: pytest.MonkeyPatch) -> None:
    """As many seconds as it is told, but a tenth of the time at most."""
    clock = Clock(monkeypatch)
    watches = [Watch(1_000, seconds, None) for seconds in (100.0, 20.0)]
    for watch in watches:
        watch.keeps = lambda: 2.5
    clock.now += 17.5
    assert [watch.on() for watch in watches] == [True, True]
    clock.now += 0.2
    assert [watch.on() for watch in watches] == [True, False]
    clock.now += 76.7
    assert watches[0].on()
    clock.now += 0.2
    assert not watches[0].on()


def test_without_a_clock_rounds_alone_count(monkeypatch: pytest.MonkeyPatch) -> None:
    """However long they take."""
    clock = Clock(monkeypatch)
    watch = Watch(10, None, None)
    clock.now += 1e9

    assert watch(5, a_state(DONE))
    assert watch.share(5) == 0.5
    assert not watch.hurried


def test_the_bound_beside_the_search_is_the_bound() -> None:
    """The process sends what its module works out, for what may be left as well."""
    outfit = five_yards()
    for undone in (ALL_DONE, Tally(0, 0, 5_000, 0)):
        prover = Prover(outfit, 0, undone)
        bound = prover.bound(LONG_S)
        prover.leave()

        assert bound == bound_of(Ground(outfit), undone)


def test_the_process_ends_with_whoever_asked() -> None:
    """Nobody is left to hear the bound: its input is closed."""
    process = begun("runplanner.season.prover", (seven_yards(), 0, ALL_DONE))
    assert process is not None
    told_enough(process)

    assert process.wait() == ALONE
    ended(process)


def test_a_clock_stops_search_and_proof(monkeypatch: pytest.MonkeyPatch) -> None:
    """With no time at all there is a plan of one round, and it claims no bound it has not got."""
    left: list[Prover] = []

    class Noted(Prover):
        def leave(self) -> None:
            left.append(self)
            super().leave()

    monkeypatch.setattr(planning, "Prover", Noted)
    plan = plan_season(seven_yards(), seconds=0, searches=2)

    assert () == audit(plan)
    assert 1 == plan.search.rounds
    assert plan.search.stopped == TIME_UP
    assert plan.bound.cents == 0 or plan.bound.cents <= plan.bill.total()
    assert 1 == len(left)
    # One may still come in while the process is ended; none is claimed that has not come.
    assert plan.bound.kind == planning.TOO_SOON or left[0].bound() is not None


def test_where_no_process_begins_there_is_no_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    """The plan stands, and says that no bound was found in time."""

    def no_more(*_: object, **__: object) -> None:
        raise OSError(errno.EAGAIN, "no more processes")

    monkeypatch.setattr(subprocess, "Popen", no_more)
    plan = plan_season(seven_yards(), seconds=LONG_S, rounds=2)

    assert () == audit(plan)
    assert (planning.TOO_SOON, 0) == (plan.bound.kind, plan.bound.cents)


def test_given_time_enough_the_bound_is_as_without_a_clock() -> None:
    """Two rounds end long before; the bound is waited for, and shown once it is there."""
    timed, free = (plan_season(seven_yards(), seconds=s, rounds=2) for s in (LONG_S, None))

    assert timed.bound == free.bound
    assert timed.bill == free.bill


def test_reasons_for_undone_work_come_within_the_time() -> None:
    """Two yards can never be fed: with no time left that is told, and no relief is tried."""
    yards = [a_yard(n) for n in range(1, 8)]
    shut = [replace(yard, feed_spans=()) for yard in yards[:2]]
    outfit = an_outfit([(n, 3) for n in range(1, 8)], [*shut, *yards[2:]])
    plan = plan_season(outfit, seconds=0)

    assert plan.tally != ALL_DONE
    assert () == audit(plan)
    assert plan.undone
    assert all(one.why for one in plan.undone)
    assert () == plan.reliefs


class Seconds:
    """Counts how often the seconds left are asked for; so many times there are some."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, times: int) -> None:
        self.asked, self.tried = 0, 0

        def left_s(_: Watch) -> float:
            self.asked += 1
            return LONG_S if self.asked <= times else 0.0

        def improver(*words: object) -> object:
            self.tried += 1
            return Improver(*words)  # type: ignore[arg-type]

        monkeypatch.setattr(Watch, "left_s", left_s)
        monkeypatch.setattr(eased_search, "Improver", improver)


def test_no_rule_is_tried_once_time_is_up(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each try is a repair: 15 yards' took three minutes more than the five seconds given."""
    seconds = Seconds(monkeypatch, 0)
    plan = plan_season(short_day(2), seconds=LONG_S, rounds=2)

    assert 0 == seconds.tried
    assert {(reasons.NOT_IN_TIME,)} == {one.why for one in plan.undone}
    assert ((), ()) == (plan.reliefs, audit(plan))


@pytest.mark.parametrize("times", [1, 3, 6, 12, 24, 48])
def test_reasons_found_in_time_are_told(monkeypatch: pytest.MonkeyPatch, times: int) -> None:
    """With the word that not all was tried; those of a yard that was gone through as ever."""
    free = plan_season(short_day(2), rounds=2)
    seconds = Seconds(monkeypatch, times)
    plan = plan_season(short_day(2), seconds=LONG_S, rounds=2)

    assert [(one.yard, one.job) for one in free.undone] == [
        (one.yard, one.job) for one in plan.undone
    ]
    assert seconds.tried <= times
    for all_of_it, told in zip(free.undone, plan.undone, strict=True):
        in_time = told.why[:-1] if reasons.NOT_IN_TIME in told.why else all_of_it.why
        assert told.why[: len(in_time)] == in_time == all_of_it.why[: len(in_time)]
    assert () == audit(plan)


def test_blocks_that_are_short_are_not_counted_once_time_is_up() -> None:
    """Yard by yard: what ends it comes before each, and is not kept back."""

    def over() -> None:
        raise TimeoutError

    ground = Ground(short_day(2))
    improver = Improver(ground, 1)
    with pytest.raises(TimeoutError):
        more_blocks_for(improver.keeper, improver.construct(), [], 1, over)
