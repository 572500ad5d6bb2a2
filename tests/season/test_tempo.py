"""How many spin on a day: worked by hand, and against published best paces for deadlines."""

import random
from dataclasses import replace
from fractions import Fraction

import pytest

from runplanner.days import DAY_MIN, Span
from runplanner.outfit.bases import Base, HoneyHouse
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from runplanner.season.standing import tempo as rooms
from runplanner.season.standing.base_days import Calls
from runplanner.season.standing.base_work import BaseWork
from runplanner.season.standing.floor import Floor, Honey, Lot
from runplanner.season.standing.house import House
from runplanner.season.standing.roster import Roster
from runplanner.season.standing.tempo import Tempo
from runplanner.trips.ground import Ground
from tests.outfits import a_yard, an_outfit

FROM, TO = 8 * 60, 18 * 60
OPEN_MIN = TO - FROM


def _outfit(
    rates: tuple[int, ...], *, spin_by_h: int = 72, room: int = 10_000, spinners: int = 6
) -> Outfit:
    """People who spin, ten days, a plant that runs from 8:00 to 18:00, late boxes dear."""
    house = HoneyHouse(Base(0, 0, DAY_MIN), rates, room, 0, FROM, TO)
    people = tuple(Person(f"p{i}", f"P{i}", i == 0, True, False) for i in range(spinners))
    yard = replace(a_yard(1, days=10), spin_by_min=spin_by_h * 60)
    outfit = an_outfit([(10, 0)], [yard], days=10, honey_house=house, people=people)
    return replace(outfit, prices=replace(outfit.prices, spin_late_cents=10_000))


def _worked(outfit: Outfit, lots: list[Lot]) -> BaseWork:
    ground = Ground(outfit)
    base = House(ground, Roster(ground)).work(Calls({}, {}, lots, []))
    assert base is not None
    return base


@pytest.mark.parametrize("spinners", [2, 3, 4, 6, 7, 12])
def test_what_no_team_can_keep_up_with_is_spun_by_the_quickest(spinners: int) -> None:
    """400 boxes within a day at 24 an hour at most: three spin, however many there are."""
    outfit = _outfit((0, 10, 18, 24), spin_by_h=20, spinners=spinners)
    tempo = Tempo(outfit, lambda day: ((0, day * DAY_MIN + FROM, day * DAY_MIN + TO),), 10)
    lots = [_lot(0, 400)]
    honey = Honey(lots, lots)
    assert tempo.keeping_up(honey)(Floor(outfit, honey, ()), 0) == 3
    day, sizes = _teams(_worked(outfit, lots))[0]
    assert (day, max(sizes)) == (0, min(spinners, 3))


def _lot(day: int, boxes: int) -> Lot:
    """Boxes that were taken off at 6:00 and come in as the plant begins."""
    return Lot(day * DAY_MIN + FROM, 0, boxes, day * DAY_MIN + 6 * 60, 0)


def _teams(base: BaseWork) -> list[tuple[int, set[int]]]:
    """The days, and how many spin at once on each."""
    days = sorted({spin.start_min // DAY_MIN for spin in base.spinning})
    return [
        (d, {len(s.people) for s in base.spinning if s.start_min // DAY_MIN == d}) for d in days
    ]


def test_as_many_spin_as_keep_up_and_no_more() -> None:
    """150 boxes within 30 hours want two; all four would do it too, and cost half as much again.

    By noon of day 1 the plant runs 600 + 240 = 840 min: 150 / 14 h = 10.7 boxes an hour, and
    11.8 with what is kept in hand.  One spins 10, two spin 18, four spin 28 an hour.
    """
    base = _worked(_outfit((0, 10, 18, 24, 28), spin_by_h=30), [_lot(0, 150)])

    assert [(0, {2})] == _teams(base)
    person_min = sum((s.end_min - s.start_min) * len(s.people) for s in base.spinning)
    # 150 boxes at 18 an hour: 500 min of two, and a part of a minute wherever they stop.
    assert 1_000 <= person_min <= 1_000 + 2 * len(base.spinning)
    assert person_min * 50 * 1_000 == base.milli_cents
    assert 4 * 150 * 60 / 28 > person_min * 1.25


def test_a_small_team_spins_when_the_rush_is_over() -> None:
    """150 boxes on day 0 and 40 on day 5: two spin the first and one the second."""
    base = _worked(_outfit((0, 10, 18, 24, 28), spin_by_h=30), [_lot(0, 150), _lot(5, 40)])

    assert [(0, {2}), (5, {1})] == _teams(base)


def test_room_for_what_comes_is_made_in_time() -> None:
    """250 boxes may wait for long, but 200 more come the next day and there is room for 300.

    150 of them are wanted out of the way in 600 min: 15 an hour, 16.5 with what is kept in
    hand, so two; the 300 that are left by then may wait three days, so one, who spins 100 a day.
    """
    outfit = _outfit((0, 10, 18, 24, 28), spin_by_h=24 * 9, room=300)
    base = _worked(outfit, [_lot(0, 250), _lot(1, 200)])

    assert [(0, {2}), (1, {1})] == _teams(base)[:2]


def test_where_the_small_ones_are_late_all_spin() -> None:
    """600 boxes in ten hours are too many for anybody, and least late by all."""
    base = _worked(_outfit((0, 10, 18, 24, 28), spin_by_h=12), [_lot(0, 600)])

    assert {4} <= _teams(base)[0][1]


def test_a_plant_that_never_runs_spins_nothing() -> None:
    """Stopped for good: no team is of any use, and the boxes cannot be brought."""
    outfit = _outfit((0, 10, 18, 24, 28))
    still = replace(outfit.honey_house, stopped=(Span(0, 400 * DAY_MIN),))
    ground = Ground(replace(outfit, honey_house=still))

    assert House(ground, Roster(ground)).work(Calls({}, {}, [_lot(0, 5)], [])) is None


def _published(jobs: list[tuple[int, int]]) -> list[tuple[int, Fraction]]:
    """Paces of the cheapest schedule: ``(until, boxes a minute)``, all work being there at 0.

    Yao, Demers and Shenker (1995), "A scheduling model for reduced CPU energy", FOCS: the
    interval of greatest intensity runs at that intensity, is taken out, and so on; with all
    work released at once the intervals come one after the other.
    """
    found, start, done = [], 0, 0
    while any(upto > done for _, upto in jobs):
        pace, until, upto = max(
            (Fraction(upto - done, due - start), due, upto) for due, upto in jobs if due > start
        )
        found.append((until, pace))
        start, done = until, upto
    return found


@pytest.mark.parametrize("seed", range(40))
def test_the_pace_is_the_published_one(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Everything waits on day 0: each day's pace is that of the cheapest schedule."""
    monkeypatch.setattr(rooms, "SPARE", 1.0)
    rng = random.Random(seed)
    rates = tuple(100 * n - n * n for n in range(41))
    outfit = _outfit(rates)
    tempo = Tempo(outfit, lambda day: ((0, day * DAY_MIN + FROM, day * DAY_MIN + TO),), 20)
    dues = sorted(rng.sample(range(1, 10), rng.randint(1, 4)))
    lots, jobs, upto = [], [], 0
    for due in dues:
        boxes = rng.randint(500, 20_000)
        upto += boxes
        # Off so long ago that it is due as the plant stops on the day before.
        lots.append(Lot(FROM, 0, boxes, due * DAY_MIN - 72 * 60, 0))
        jobs.append((due * OPEN_MIN, upto))
    honey = Honey(lots, lots)
    team = tempo.keeping_up(honey)

    for until, pace in (published := _published(jobs)):
        start = next((u for u, _ in reversed(published) if u < until), 0)
        floor = Floor(outfit, honey, ())
        floor.done = sum(
            round(p * (u - max([0, *(v for v, _ in published if v < u)])))
            for u, p in published
            if u <= start
        )
        wanted = next((n for n, rate in enumerate(rates) if rate >= pace * 60 * (1 - 1e-9)), 40)
        assert wanted == team(floor, start // OPEN_MIN)
    assert sorted((p for _, p in published), reverse=True) == [p for _, p in published]
