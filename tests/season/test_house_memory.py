"""A house that remembers days answers as one that was never asked before."""

import random
from dataclasses import replace

import pytest

from runplanner.days import DAY_MIN, Span
from runplanner.season.standing import memory
from runplanner.season.standing.base_days import Calls
from runplanner.season.standing.base_work import NO_WORK, BaseWork, Mix
from runplanner.season.standing.floor import Lot, Spin
from runplanner.season.standing.house import House
from runplanner.season.standing.roster import Need, Roster
from runplanner.trips.clock import Run
from runplanner.trips.ground import Ground
from tests.outfits import an_outfit

DAYS = 4


def _calls(rng: random.Random) -> Calls:
    """Shifts, boxes and syrup as a search might try them."""
    needs, runs, lots, loads = {}, {}, [], []
    for day in range(DAYS):
        if rng.random() < 0.3:
            continue
        start = day * DAY_MIN + rng.choice((420, 480, 780))
        end = start + rng.choice((200, 430))
        rest = (Span(start + 150, start + 190),) if rng.random() < 0.5 else ()
        noon = day * DAY_MIN + 720
        needs[day] = (Need(0, rng.choice((1, 2)), start < noon, end > noon),)
        runs[day, 0] = Run(start, end, (), rest, 60)
        lots.append(Lot(end, 0, rng.choice((5, 30, 90)), start + 60, 0))
        loads.append((start, rng.choice((0, 40_000, 90_000))))
    return Calls(needs, runs, lots, [load for load in loads if load[1]])


def _manned(calls: Calls, roster: Roster) -> Calls:
    """Without shifts that nobody is free for, as none is planned."""
    manned = {day: needs for day, needs in calls.needs.items() if roster.crews(day, needs)}
    return calls._replace(needs=manned)


@pytest.mark.parametrize("remembered", [1, 20_000])
def test_what_is_remembered_is_what_would_be_worked_out(
    monkeypatch: pytest.MonkeyPatch, remembered: int
) -> None:
    """Over and over, with a past of its own, and with hardly any memory."""
    monkeypatch.setattr(memory, "REMEMBERED", remembered)
    outfit = an_outfit(days=DAYS)
    outfit = replace(outfit, feed=replace(outfit.feed, ready_ml=0))
    ground = Ground(outfit)
    past = BaseWork((Mix(500, 540, 0, 20_000),), (Spin(560, 620, (0,), 3),), 0)
    rng = random.Random(7)
    for before in (NO_WORK, past):
        one = House(ground, Roster(ground, before))
        answers = []
        for _ in range(120):
            calls = _manned(_calls(rng), Roster(ground, before))
            answers.append(one.work(calls))
            assert House(ground, Roster(ground, before)).work(calls) == answers[-1]
        assert len({answer and answer.spinning for answer in answers}) > 20
        assert len({answer and answer.mixing for answer in answers}) > 20
