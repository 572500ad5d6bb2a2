"""Ctrl-C at any moment once there is a plan: it is kept, sound, and says what it lacks."""

import pytest

from runplanner.audit.audit import audit
from runplanner.season import plan_season as room
from runplanner.season import twin
from runplanner.season.plan_season import plan_season
from runplanner.season.watch import Progress
from runplanner.season.why_not import eased_search, explain, try_relief
from tests.season.shapes import DONE
from tests.season.test_worked_undone import short_day
from tests.season.tiny import two_yards

BROKEN_OFF = "broken off by the user"


class Presses:
    """Stands in for a function whose user presses Ctrl-C while it runs, so many times."""

    def __init__(self, patch: pytest.MonkeyPatch, place: object, name: str, times: int = 1) -> None:
        self._real, self.left = getattr(place, name), times
        patch.setattr(place, name, self)

    def __call__(self, *words: object, **named: object) -> object:
        """Break off, or do it."""
        if self.left:
            self.left -= 1
            raise KeyboardInterrupt
        return self._real(*words, **named)


def test_while_progress_is_told() -> None:
    """Between two rounds, while the line is printed: the best so far stands."""

    def listener(news: Progress) -> None:
        if news.round == 1 and not heard:
            heard.append(news)
            raise KeyboardInterrupt

    heard: list[Progress] = []
    plan = plan_season(two_yards(), rounds=6, progress=listener)

    assert (1, BROKEN_OFF, DONE) == (len(heard), plan.search.stopped, plan.tally)
    assert () == audit(plan)


@pytest.mark.parametrize("times", [1, 2])
def test_while_the_second_search_is_waited_for(monkeypatch: pytest.MonkeyPatch, times: int) -> None:
    """Once, and it sends what it has; twice, and it is not waited for, nor called lost."""
    pressed = Presses(monkeypatch, twin, "awaited", times)
    plan = plan_season(two_yards(), rounds=2, searches=2)

    assert (0, BROKEN_OFF) == (pressed.left, plan.search.stopped)
    assert 0 == plan.search.lost
    assert times == 2 or 2 == plan.search.searches
    assert () == audit(plan)


def test_while_it_is_proven(monkeypatch: pytest.MonkeyPatch) -> None:
    """After the search, no bound: the plan is no worse for that."""
    whole = plan_season(two_yards(), rounds=2)
    monkeypatch.setattr(room, "QUICK_BOUND_YARDS", 0)
    Presses(monkeypatch, room, "bound_of")
    plan = plan_season(two_yards(), rounds=2)

    assert (0, whole.bill) == (plan.bound.cents, plan.bill)
    assert room.NO_BOUND_YET == plan.bound.kind
    assert () == audit(plan)


def test_while_it_is_written_down(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is written down all the same."""
    Presses(monkeypatch, room, "written")
    plan = plan_season(two_yards(), rounds=2)

    assert (BROKEN_OFF, DONE) == (plan.search.stopped, plan.tally)
    assert () == audit(plan)


def test_while_reasons_are_looked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """Undone work is named, with the word that nobody looked for the reason."""
    Presses(monkeypatch, eased_search, "Improver")
    heard: list[str] = []
    plan = plan_season(short_day(2), rounds=2, progress=lambda news: heard.append(news.note))

    assert plan.undone
    assert "finding out why work is left; Ctrl-C leaves that out" == heard[-1]
    assert {(explain.NOT_SOUGHT,)} == {one.why for one in plan.undone}
    assert (BROKEN_OFF, ()) == (plan.search.stopped, plan.reliefs)
    assert () == audit(plan)


def test_while_reliefs_are_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    """In a round of the second relief: the first stands, the rest is left out."""
    tried = list[str]()

    def second(before: object, what: str, improver: object, watch: object) -> object:
        tried.append(what)
        if len(tried) == 2:
            Presses(monkeypatch, improver, "_next", 1)
        return try_relief.tried(before, what, improver, watch)  # type: ignore[arg-type]

    monkeypatch.setattr(explain, "tried", second)
    plan = plan_season(short_day(2), rounds=10)

    assert tried[:1] == [relief.what for relief in plan.reliefs]
    assert (2, BROKEN_OFF) == (len(tried), plan.search.stopped)
    assert not any(explain.NOT_SOUGHT in one.why for one in plan.undone)
    assert () == audit(plan)


def test_a_search_that_is_broken_off_tries_no_reliefs() -> None:
    """Ctrl-C stops now: reasons are told, cures are not searched for."""

    def listener(news: Progress) -> None:
        if news.round == 1 and not heard:
            heard.append(news)
            raise KeyboardInterrupt

    heard: list[Progress] = []
    plan = plan_season(short_day(2), rounds=10, progress=listener)

    assert (BROKEN_OFF, ()) == (plan.search.stopped, plan.reliefs)
    assert not any(explain.NOT_SOUGHT in one.why for one in plan.undone)
    assert () == audit(plan)
