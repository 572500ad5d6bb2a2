"""Two searches side by side: the better outcome counts, and nothing is left running."""

import errno
import shutil
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.office.words import plan_words
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.index_page import index_page
from runplanner.season.beside import begun
from runplanner.season.plan_season import default_searches, plan_season
from runplanner.season.search.improve import Improver
from runplanner.season.twin import OTHER_DICE, Twin, found
from runplanner.season.watch import Progress
from runplanner.trips.ground import Ground
from tests.outfits import a_yard, an_outfit

SPOTS = [(10, 2), (14, 8), (-12, -4), (-9, 10), (2, 16)]


def five_yards() -> Outfit:
    """Enough yards that other dice make other plans."""
    yards = [a_yard(number, colonies=10 + number, boxes=18) for number in range(1, 6)]
    return an_outfit(SPOTS, yards)


def test_the_better_of_both_is_kept() -> None:
    """Two searches find what the better of them finds alone, or what both make together."""
    outfit = five_yards()
    alone = [plan_season(outfit, seed=seed, rounds=12) for seed in (1, 1 + OTHER_DICE)]
    both = plan_season(outfit, seed=1, rounds=12, searches=2)

    assert min((plan.tally, plan.bill.total()) for plan in alone) == (both.tally, both.bill.total())
    assert (1, 2) == (alone[0].search.searches, both.search.searches)
    assert (0, 0) == (alone[0].search.lost, both.search.lost)
    assert not any(line.startswith("warning") for line in plan_words(both))
    assert () == audit(both)


def test_two_searches_make_the_same_plan_again() -> None:
    """Byte for byte, though they run in two processes."""
    one, other = (plan_season(five_yards(), rounds=6, searches=2) for _ in range(2))

    assert plan_text(one) == plan_text(other)


def test_a_second_search_that_dies_is_done_without() -> None:
    """Its process killed from outside, the first search's plan stands."""
    improver = Improver(Ground(five_yards()), 1)
    state = improver.construct()
    twin = Twin(improver.ground.outfit, 1, 10_000_000, None)
    twin.leave()

    assert state is twin.best(improver, state, hurry=False, has_s=lambda _: True)
    assert not twin.came


def test_the_plan_says_what_really_ran(monkeypatch: pytest.MonkeyPatch) -> None:
    """No second process can be started: one search is said, one lost, and the user hears of it."""

    def no_more(*_: object, **__: object) -> None:
        raise OSError(errno.EAGAIN, "no more processes")

    monkeypatch.setattr(subprocess, "Popen", no_more)
    heard: list[Progress] = []
    plan = plan_season(five_yards(), rounds=6, searches=2, progress=heard.append)
    words = "1 of 2 searches came to grief, so this plan may be dearer than another run's"

    assert (1, 1) == (plan.search.searches, plan.search.lost)
    assert plan.bill == plan_season(five_yards(), rounds=6).bill
    assert any("the second search came to grief" in news.note for news in heard)
    assert any(line.startswith(f"warning: {words}") for line in plan_words(plan))
    assert words in index_page(plan).replace("&#x27;", "'").replace("&#39;", "'")
    assert plan == plan_from_text(plan_text(plan))


@pytest.mark.parametrize("executable", ["", None])
def test_within_another_program_no_process_is_begun(
    monkeypatch: pytest.MonkeyPatch, executable: str | None
) -> None:
    """Where Python knows no program to run there is one search, and no fault."""
    monkeypatch.setattr(sys, "executable", executable)

    assert begun("runplanner.season.twin", None) is None


def test_a_program_that_holds_python_is_not_started_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """An app or a server that plans at its start would start itself without end."""
    monkeypatch.setattr(sys, "executable", "/opt/bees/bin/beeapp")

    assert begun("runplanner.season.twin", None) is None


def test_a_process_killed_under_way_is_said_to_be_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It dies before it sends anything, as where memory runs out."""
    dying = tmp_path / "python3"
    shutil.copy2(shutil.which("true") or sys.executable, dying)
    monkeypatch.setattr(sys, "executable", str(dying))
    plan = plan_season(five_yards(), rounds=3, searches=2)

    assert (1, 1) == (plan.search.searches, plan.search.lost)
    assert () == audit(plan)


def test_files_in_the_folder_it_is_called_from_are_none_of_its_modules(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Somebody's own pickle.py beside a scenario is neither run nor in the way."""
    mark = tmp_path / "was_run"
    (tmp_path / "pickle.py").write_text(f"open({str(mark)!r}, 'w').close()\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    plan = plan_season(five_yards(), rounds=1, searches=2)

    assert (2, 0, False) == (plan.search.searches, plan.search.lost, mark.exists())


def test_a_second_search_ends_when_the_first_was_broken_off() -> None:
    """Told to hurry it sends what it has, ten million rounds before its time."""
    improver = Improver(Ground(five_yards()), 1)
    state = improver.construct()
    twin = Twin(improver.ground.outfit, 1, 10_000_000, None)
    best = twin.best(improver, state, hurry=True, has_s=lambda _: True)
    twin.leave()

    assert best.score <= state.score


def test_a_wait_that_ctrl_c_breaks_off_loses_nothing() -> None:
    """Pressed while the second search is waited for: it is still there, and sends what it has."""
    improver = Improver(Ground(five_yards()), 1)
    state = improver.construct()
    twin = Twin(improver.ground.outfit, 1, 10_000_000, None)
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    pressed = threading.Timer(0.1, signal.raise_signal, [signal.SIGINT])
    pressed.start()
    try:
        with pytest.raises(KeyboardInterrupt):
            twin.best(improver, state, hurry=False, has_s=lambda _: True)
    finally:
        signal.signal(signal.SIGINT, before)
    assert not twin.lost
    twin.best(improver, state, hurry=True, has_s=lambda _: True)
    twin.leave()

    assert twin.came


def test_huge_campaigns_are_searched_once() -> None:
    """A second search would want as much memory again."""
    yard = a_yard(1)

    assert 2 == default_searches(an_outfit(SPOTS, [yard] * 100))
    assert 1 == default_searches(an_outfit(SPOTS, [yard] * 101))


def test_what_the_process_does() -> None:
    """The same search in this process: so many rounds, or none once it is told enough."""
    outfit, enough = five_yards(), threading.Event()
    days = found(outfit, 7, 4, None, enough)
    enough.set()
    first = found(outfit, 7, 10_000_000, None, enough)

    assert days == found(outfit, 7, 4, None, threading.Event())
    assert first
    assert {day.day for day in first} <= set(range(outfit.season.n_days))
