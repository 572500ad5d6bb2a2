"""A truck's day judged whole."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.days import Span
from runplanner.outfit.bases import Base
from runplanner.outfit.people import Hours
from runplanner.outfit.yards import Clearing, Health
from runplanner.trips import judge as room
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.trips.judge import Judge, Judged, boards_moved, in_halves
from runplanner.trips.ride import HONEY, LOAD, STORE
from runplanner.visits.stop import Stop
from tests.outfits import a_yard, an_outfit, daily
from tests.trips.stops import clock, ground, judge, numbered, off, starts, sure

FEED = Stop(0, round=1, fed=10)


def with_hours(**changes: int) -> Ground:
    """Two yards and a working day changed so."""
    outfit = an_outfit()
    named: dict[str, Any] = dict(changes)
    hours: Hours = replace(outfit.hours, **named)
    return ground(*numbered(2), outfit=replace(outfit, hours=hours))


def a_day(facts: Ground | None = None) -> Judged:
    """One trip of two people: ten colonies off at yard 0, 10 km from the base."""
    facts = facts or ground(*numbered(2))
    return sure(judge(facts, (off(facts, 0, 10, blocks=10),)))


def test_a_day_of_one_trip() -> None:
    """Open-fit hours begin at 8: load 7:35 to 7:50, yard 8:00 to 8:50, base 9:00 to 9:14."""
    # 4,800 s / 120 + 10 = 50 min; unloading 10 + 450 / 120 = 13.75
    judged = a_day()

    assert clock(7 + 35 / 60, 8, 9) == starts(judged)
    assert (455, 554) == (judged.run.start_min, judged.run.end_min)
    assert ((0, LOAD, 0), (0, 0, 1), (0, HONEY, 0)) == judged.calls
    assert (20, 20_000) == (judged.driving_min, judged.metres)
    assert (480, 530, 530) == judged.visits[0][:3]
    assert ((554, 0),) == judged.boxes_in
    assert ((455,), (554,)) == (judged.load_at, judged.back_at)


def test_a_further_call_of_a_stop_is_not_set_up_for_again() -> None:
    """Four and six colonies off on end take 50 minutes, as ten do; a yard between makes it 80."""
    facts = ground(*numbered(2))
    four, six = off(facts, 0, 4), off(facts, 0, 6, before=4)
    on_end = sure(judge(facts, (four, six)))
    parted = sure(judge(facts, (four, Stop(1, strips=True), six)))

    # 4 x 240 + 6 x 120 = 1,680 s / 120 = 14 min and 10; 6 x 240 + 9 x 120 = 2,520 s: 21 min
    assert [(480, 504), (504, 525)] == [visit[:2] for visit in on_end.visits]
    assert [24, 31] == [visit.end_min - visit.start_min for visit in parted.visits[::2]]
    assert (False, True) == tuple(visit.goes_on for visit in on_end.visits)


def test_what_a_day_costs() -> None:
    """20 km x 60, 4,000 for the day, 99 min x 2 x 3,000 / 60, 10 blocks x 400 cents."""
    # 1,200 + 4,000 + 9,900 + 4,000 cents
    assert 19_100_000 == a_day().milli_cents


def test_overtime_syrup_and_strips_cost() -> None:
    """From 60 normal minutes on half as much again; 85 L at 1.50; 20 strips at 2.00."""
    facts = with_hours(normal_min=60)
    judged = sure(judge(facts, (FEED._replace(strips=True),)))

    # load 17, 10, 10 + 1,800 / 120 = 25, 10, 10: 72 min
    assert 72 == judged.run.end_min - judged.run.start_min
    # 1,200 + 4,000 + 72 x 100 + 12 x 50 + 12,750 + 4,000 cents
    assert 29_750_000 == judged.milli_cents


def test_two_trips_on_one_clock() -> None:
    """The second loads where the first unloaded, and may bring its syrup."""
    facts = ground(*numbered(2))
    judged = sure(judge(facts, (off(facts, 0, 10, blocks=10),), (FEED,)))

    # home at 9:14, load until 9:31, yard 9:41 to 10:01, store 10:11 to 10:21
    assert clock(7 + 35 / 60, 8, 9, 9 + 14 / 60, 9 + 41 / 60, 10 + 11 / 60) == starts(judged)
    assert (1, STORE, 0) == judged.calls[-1]
    assert [(0, 10), (10, 0)] == [(v.stop.off, v.stop.fed) for v in judged.visits][::-1]
    assert ((455, 554), (554, 621)) == (judged.load_at, judged.back_at)
    assert ((554, 0),) == judged.boxes_in
    # 19,100 cents and 1,200 of road, 67 min x 100, 12,750 of syrup
    assert 39_750_000 == judged.milli_cents


def test_a_day_from_another_home() -> None:
    """Home where yard 2 is, 14 km from the base: out and back there as well."""
    facts = ground(*numbered(2))
    facts = Ground(replace(facts.outfit, home=Base(2, 0, 1_440)))
    judged = a_day(facts)

    assert (14 + 20 + 14, 48_000) == (judged.driving_min, judged.metres)
    assert 455 - 14 == judged.run.start_min
    assert 554 + 14 == judged.run.end_min


def test_the_truck_of_a_visit() -> None:
    """Visits carry the truck's number, the day's, and are no facts."""
    visit = a_day().visits[0]

    assert (0, 0, False) == (visit.truck, visit.day, visit.fact)


@pytest.mark.parametrize(
    ("changes", "holds"),
    [
        ({"driving_max_min": 20}, True),
        ({"driving_max_min": 19}, False),
        ({"duty_max_min": 99}, True),
        ({"duty_max_min": 98}, False),
        ({"end_min": 554}, True),
        ({"end_min": 553}, False),
        ({"start_min": 470, "end_min": 569}, True),
        ({"start_min": 471, "end_min": 569}, False),
    ],
)
def test_limits_on_the_day(changes: dict[str, int], *, holds: bool) -> None:
    """20 min of driving, 99 min of duty, home at 9:14 at the soonest."""
    facts = with_hours(**changes)

    assert holds == (judge(facts, (off(facts, 0, 10, blocks=10),)) is not None)


def test_a_closed_window() -> None:
    """Fit weather from 8:00 to 8:49 is a minute too short, until 8:50 it will do."""
    shut = ground(*numbered(1, open_spans=(Span(480, 529),)))
    fit = ground(*numbered(1, open_spans=(Span(480, 530),)))

    assert judge(shut, (off(shut, 0, 10, blocks=10),)) is None
    assert judge(fit, (off(fit, 0, 10, blocks=10),)) is not None
    assert judge(fit, (off(fit, 0, 10, blocks=10),), day=1) is None


def test_a_take_off_waits_for_the_storm() -> None:
    """Unsettled until 10 o'clock: the visit ends then, and home is left so much later."""
    facts = ground(*numbered(1, unsettled_spans=(Span(540, 600),)))
    judged = sure(judge(facts, (off(facts, 0, 10, blocks=10),)))

    assert (550, 600) == judged.visits[0][:2]
    assert 525 == judged.run.start_min


def test_a_storm_at_night_forbids_the_take_off_but_not_the_feed() -> None:
    """3 o'clock next morning."""
    facts = ground(*numbered(1, unsettled_spans=(Span(1_620, 1_680),)))

    assert judge(facts, (off(facts, 0, 10, blocks=10),)) is None
    assert judge(facts, (FEED,)) is not None


@pytest.mark.parametrize("health", [Health.WATCH, Health.SUSPECT, Health.STANDSTILL])
def test_a_doubtful_yard_comes_last(health: Health) -> None:
    """Nothing is visited after it on the same trip; another trip may follow."""
    yards = (a_yard(1), replace(a_yard(2), health=health, boxes=0, feed_agreed=True))
    facts = ground(*yards)
    sound, doubtful = Stop(0, strips=True), Stop(1, strips=True)

    assert judge(facts, (sound, doubtful)) is not None
    assert judge(facts, (doubtful, sound)) is None
    assert judge(facts, (doubtful,), (sound,)) is not None


def test_a_doubtful_yard_may_be_served_by_several_calls_on_end() -> None:
    """No other yard comes after them; one between does."""
    facts = ground(a_yard(1), replace(a_yard(2), health=Health.WATCH))
    sound, strips, feed = Stop(0, strips=True), Stop(1, strips=True), Stop(1, round=1, fed=10)

    assert judge(facts, (feed, strips)) is not None
    assert judge(facts, (sound, feed, strips)) is not None
    assert judge(facts, (feed, sound, strips)) is None
    assert judge(facts, (feed, strips, sound)) is None


def test_a_trip_that_does_not_ride() -> None:
    """80 boxes of 16 kg are more than the truck may carry."""
    facts = ground(*numbered(1, boxes=80))

    assert judge(facts, (off(facts, 0, 10),)) is None


def cut(facts: Ground, here: int, there: int, table: str) -> Ground:
    """The same ground without one road."""
    rows = [list(row) for row in getattr(facts.outfit.travel, table)]
    rows[here][there] = None
    travel = replace(facts.outfit.travel, **{table: tuple(tuple(row) for row in rows)})  # type: ignore[arg-type]
    return Ground(replace(facts.outfit, travel=travel))


@pytest.mark.parametrize("table", ["minutes", "metres"])
@pytest.mark.parametrize("leg", [(2, 0), (0, 2)])
def test_no_road_from_or_to_home(leg: tuple[int, int], table: str) -> None:
    """Home to the store and the way back must both be roads."""
    facts = ground(*numbered(2))
    facts = Ground(replace(facts.outfit, home=Base(2, 0, 1_440)))

    assert judge(facts, (FEED,)) is not None
    assert judge(cut(facts, *leg, table), (FEED,)) is None


def test_a_day_begins_no_sooner_than_now() -> None:
    """At 12:00 of day 0 today is planned from the next minute, tomorrow from its morning.

    What leaves by now has left.
    """
    facts = ground(*numbered(1))
    later = Ground(facts.outfit, now_min=720)

    assert 721 == sure(judge(later, (FEED,))).run.start_min
    assert 1_440 + 360 == sure(judge(later, (FEED,), day=1)).run.start_min


def test_steps_of_a_judged_day() -> None:
    """Each call's leg, work and hours, and the leg home."""
    facts = ground(*numbered(2))
    judging = Judge(facts)
    judged = sure(judging(Day(0, 1, ((off(facts, 0, 10, blocks=10),),))))
    steps, home_min = judging.steps(judged)

    assert [(0, 15), (10, 50), (10, 14)] == [(step.leg_min, step.work_min) for step in steps]
    assert 0 == home_min
    # changing the list leaves the judge as it was
    steps.clear()
    assert 3 == len(judging.steps(judged)[0])


def test_a_day_that_was_never_driven_has_no_steps() -> None:
    """A judged day of other facts is refused in words."""
    facts = ground(*numbered(1))
    heavy = ground(*numbered(1, box_g=200_000))
    judged = sure(judge(facts, (off(facts, 0, 10),)))

    with pytest.raises(ValueError, match="has a route"):
        Judge(heavy).steps(judged)


def test_containers_that_carry_a_trip() -> None:
    """Four cans of 1.5 kg ride with 68 boxes of 16 kg in 1,100 kg, not with 69."""
    # 68 x 16 + 6 = 1,094 kg, 69 x 16 + 6 = 1,110 kg
    facts = ground(*numbered(1))
    judging, stop = Judge(facts), off(facts, 0, 10)

    assert judging.carries(1, (stop._replace(boxes=68),), (0, 4))
    assert not judging.carries(1, (stop._replace(boxes=69),), (0, 4))


def test_a_judge_remembers() -> None:
    """The same day is judged once, whether it can be driven or not."""
    facts = ground(*numbered(1, boxes=80))
    judging = Judge(facts)
    good, bad = Day(0, 1, ((FEED,),)), Day(0, 1, ((off(facts, 0, 10),),))

    assert judging(good) is judging(good)
    assert judging(bad) is None
    assert judging(bad) is None
    assert 2 == len(judging._days)


def test_a_judge_forgets_when_it_knows_too_much(monkeypatch: pytest.MonkeyPatch) -> None:
    """Beyond its limit it starts anew, and judges as before."""
    monkeypatch.setattr(room, "_MEMO_MAX", 2)
    judging = Judge(ground(*numbered(1)))
    days = [Day(number, 1, ((FEED,),)) for number in range(4)]
    first = [judging(day) for day in days]

    assert 2 == len(judging._days)
    assert first == [judging(day) for day in days]


def test_boards_taken_and_brought_back() -> None:
    """Ten leave at loading; ten come back from another yard at the trip's last call."""
    facts = ground(*numbered(2, clearing=Clearing.BOARDS))
    judged = sure(judge(facts, (Stop(1, boards=10), off(facts, 0, 10)), day=1))

    assert boards_moved(judged) == (
        ((judged.load_at[0], -10), (judged.back_at[0], 10)),
        judged.load_at[0],
        0,
    )
    assert () == boards_moved(sure(judge(facts, (FEED,)))).moves


def test_boards_that_ride_come_in_before_the_next_load() -> None:
    """Ten are home by a honey house 6 km off: in at the next load, which takes ten by itself."""
    yards = numbered(2, clearing=Clearing.BOARDS)
    outfit = an_outfit([(10, 0), (14, 0), (-6, 0)], yards)
    house = replace(outfit.honey_house, base=Base(3, 0, 1_440))
    facts = Ground(replace(outfit, honey_house=house))
    judged = sure(judge(facts, (off(facts, 0, 10),), (Stop(1, boards=10),), day=1))
    second = judged.load_at[1]

    assert ((second, 10), (second, -10)) == boards_moved(judged).moves


@pytest.mark.parametrize(
    ("noon", "halves"),
    [(455, (False, True)), (456, (True, True)), (553, (True, True)), (554, (True, False))],
)
def test_which_half_days_a_shift_touches(noon: int, halves: tuple[bool, bool]) -> None:
    """From 7:35 to 9:14."""
    assert halves == in_halves(a_day(), noon)


def test_half_days_are_those_of_the_day() -> None:
    """Day 2's shift is measured by day 2's noon."""
    facts = ground(*numbered(2))
    judged = sure(judge(facts, (off(facts, 0, 10, blocks=10),), day=2))

    assert (True, False) == in_halves(judged, 720)


# Properties

YARDS = numbered(4, open_spans=daily(480, 900, range(6)), feed_spans=daily(600, 1_140, range(6)))
GROUND = ground(*YARDS)
STOPS = st.builds(
    lambda yard, work: work._replace(yard=yard),
    st.integers(0, 3),
    st.sampled_from([off(GROUND, 0, 10, blocks=10), FEED, Stop(0, strips=True)]),
)
TRIPS = st.lists(st.lists(STOPS, min_size=1, max_size=3).map(tuple), min_size=1, max_size=3).map(
    tuple
)


@given(trips=TRIPS, hauler=st.integers(0, 1))
def test_a_judged_day_is_in_order(trips: tuple[tuple[Stop, ...], ...], hauler: int) -> None:
    """Times never go back, calls and visits match the trips, legs keep the limits."""
    judged = judge(GROUND, *trips, hauler=hauler)
    if judged is None:
        return
    hours, run = GROUND.outfit.hours, judged.run
    flat = [minute for times in run.times for minute in times[:4]]
    assert sorted(flat) == flat
    assert hours.start_min <= run.start_min <= flat[0]
    assert flat[-1] <= run.end_min <= hours.end_min
    assert run.end_min - run.start_min <= hours.duty_max_min
    assert judged.driving_min <= hours.driving_max_min
    assert [stop for trip in trips for stop in trip] == [v.stop for v in judged.visits]
    assert len(trips) == len(judged.load_at) == len(judged.back_at) == len(judged.packed)
    for packed in judged.packed:
        most = GROUND.haulers[hauler].load_max_g
        assert all(leg.load_g <= most and leg.places <= packed.places_max for leg in packed.legs)
    for visit in judged.visits:
        spans = GROUND.stop_spans(visit.stop, 0)
        assert any(a <= visit.start_min and visit.end_min <= b for a, b in spans)


@given(trips=TRIPS)
def test_a_trip_less_needs_no_more(trips: tuple[tuple[Stop, ...], ...]) -> None:
    """Where a day holds, the same day without its last trip holds, for no more money."""
    judged = judge(GROUND, *trips)
    if judged is not None and len(trips) > 1:
        assert sure(judge(GROUND, *trips[:-1])).milli_cents <= judged.milli_cents
