"""Tests of a truck's day by hand: its paper is kept to, and what is counted is one sum a yard."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from runplanner.changes.counts.boxes import with_counts
from runplanner.changes.counts.counts import as_counted
from runplanner.changes.draft import Draft
from runplanner.changes.said.count_words import NOTHING
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, Job, Shift
from runplanner.days import DAY_MIN, Span
from runplanner.rehearsal.drive import Day, Standing, driven
from runplanner.rehearsal.luck import NO_LUCK
from runplanner.rehearsal.play import Rehearsal, _Diary
from tests.paperwork.plans import (
    IBC,
    Round,
    Stop,
    a_shift,
    block,
    feed,
    small_plan,
    strips,
    take_off,
)
from tests.rehearsal.small import fate

FIRST, SECOND = (take_off(6, 9),), (take_off(4, 6), feed(10, 90), strips(10))
"""Two lots of a yard, fed with the second."""


def a_day(*rounds: Round) -> Plan:
    """These trips on Tue 2 Mar, each stop with 40 boxes to stop at, and hours to spare."""
    plan = small_plan()
    shift = a_shift(plan.outfit, 1, rounds)
    plan = replace(plan, shifts=(shift,), undone=(), reliefs=(), spinning=(), mixing=())
    return with_calls(plan, boxes_limit=40, latest_leave_min=2 * DAY_MIN)


def with_calls(plan: Plan, trip: int = 0, stop: int | None = None, **changes: int) -> Plan:
    """The plan with one of a trip's calls changed, or all of all trips."""

    def new(number: int, at: int, call: Call) -> Call:
        meant = stop is None or (trip, stop) == (number, at)
        return replace(call, **changes) if meant else call  # type: ignore[arg-type]

    (shift,) = plan.shifts
    trips = tuple(
        replace(one, calls=tuple(new(number, at, call) for at, call in enumerate(one.calls)))
        for number, one in enumerate(shift.trips)
    )
    return replace(plan, shifts=(replace(shift, trips=trips),))


def day_of(plan: Plan, **luck: object) -> Day:
    """Its only truck's day."""
    (shift,) = plan.shifts
    return driven(plan.outfit, fate(plan.outfit, **luck), shift, Standing())


def counts(day: Day) -> list[tuple[str, str, Mapping[str, int]]]:
    """What was counted: trip, yard and words."""
    return [(one.trip.id, one.yard, one.counts) for one in day.counts]


def did(plan: Plan, day: Day) -> list[dict[Job, tuple[int, int]]]:
    """Colonies and boxes of each job of each stop once the counts of a day are put in."""
    draft = Draft(plan, plan.outfit, 2 * DAY_MIN)
    for one in day.counts:
        yard = draft.outfit.yard(one.yard)
        trip = draft.driven_trip(one.trip.id)
        draft = with_counts(as_counted(draft, trip, yard, one.counts), yard)
    calls = (c for s in draft.plan.shifts for t in s.trips for c in t.yards())
    return [{a.job: (a.colonies, a.boxes) for a in call.actions} for call in calls]


@pytest.mark.parametrize("between", [(), (Stop(2, 20, (block(4),)),)])
def test_two_calls_at_a_yard_are_counted_in_one_sum(between: tuple[Stop, ...]) -> None:
    """20 boxes where 15 were guessed, in one stop or two: all come off, and all are fed."""
    plan = a_day(Round("t", (Stop(1, 60, FIRST), *between, Stop(1, 60, SECOND)), (IBC,)))
    day = day_of(plan, boxes=(20, 15))
    first, *_, second = did(plan, day)

    assert [("t", "yard1", {"colonies": 10, "boxes": 20})] == counts(day)
    assert {Job.TAKE_OFF: (6, 9)} == first
    assert {Job.TAKE_OFF: (4, 11), Job.FEED: (10, 0), Job.STRIPS: (10, 0)} == second


def test_what_was_done_at_a_yard_stays_where_a_later_call_is_left_out() -> None:
    """Nobody comes back: six are off with the 12 boxes they bore, and nothing else is done."""
    stops = (Stop(1, 60, FIRST), Stop(2, 20, (block(4),)), Stop(1, 60, SECOND))
    plan = with_calls(a_day(Round("t", stops, (IBC,))), 0, 3, latest_leave_min=0)
    day = day_of(plan, boxes=(20, 15))

    assert 1 == day.stops_missed
    assert {"colonies": 6, "boxes": 12, "fed": 0, "strips": 0} == day.counts[0].counts
    assert [{Job.TAKE_OFF: (6, 12)}, {Job.BLOCK: (4, 0)}, {}] == did(plan, day)


def test_a_feed_left_out_after_its_take_off_leaves_that_as_it_was() -> None:
    """All came off as planned; the truck was to come back with the syrup, and does not."""
    lots = (take_off(10, 15), block(10)), (block(4),), (feed(10, 90), strips(10))
    stops = tuple(Stop(yard, 60, lot) for yard, lot in zip((1, 2, 1), lots, strict=True))
    plan = with_calls(a_day(Round("t", stops, (IBC,))), 0, 3, latest_leave_min=0)
    day = day_of(plan)

    assert [("t", "yard1", {"fed": 0, "strips": 0})] == counts(day)
    assert {Job.TAKE_OFF: (10, 15), Job.BLOCK: (10, 0)} == did(plan, day)[0]
    assert {} == did(plan, day)[2]


@pytest.mark.parametrize(("late", "missed"), [(20, 0), (21, 1)])
def test_a_stop_of_two_calls_is_left_out_as_one(late: int, missed: int) -> None:
    """Its paper says one stop, to be left 20 minutes late at most; too late for it, it is none."""
    stops = Stop(2, 60, (strips(10),)), Stop(1, 60, FIRST), Stop(1, 60, SECOND)
    plan = a_day(Round("t", stops, (IBC,)))
    leave = plan.shifts[0].trips[0].calls[3].leave_min
    plan = with_calls(plan, 0, 3, latest_leave_min=leave + 20)
    day = day_of(plan, work_permille=((1000, 1000 + round(1000 * late / 60)),) * 6)

    assert (missed, [("t", "yard1", NOTHING)] * missed) == (day.stops_missed, counts(day))


def _with_break(call: Call, shift: Shift) -> Shift:
    """The shift with half an hour of rest in the middle of a call."""
    rest = Span(call.start_min + 30, call.start_min + 60)
    return replace(shift, breaks=(rest,))


@pytest.mark.parametrize(("late", "missed"), [(20, 0), (21, 1)])
def test_a_break_inside_a_stop_counts_against_its_latest_minute(late: int, missed: int) -> None:
    """The second stop may be left 20 minutes later than planned, half an hour of rest in it."""
    plan = a_day(Round("t", (Stop(1, 60, (strips(10),)), Stop(2, 60, (strips(10),)))))
    (shift,) = plan.shifts
    call = shift.trips[0].calls[2]
    plan = with_calls(plan, 0, 2, latest_leave_min=call.leave_min + 20)
    plan = replace(plan, shifts=(_with_break(call, plan.shifts[0]),))
    slow = (1000 + round(1000 * late / 60), 1000)

    assert missed == day_of(plan, work_permille=(slow,) * 6).stops_missed


@pytest.mark.parametrize(("late", "missed"), [(20, 0), (21, 1)])
def test_a_break_after_a_stop_counts_against_its_latest_minute(late: int, missed: int) -> None:
    """Who rests once the work is done leaves when the rest is over."""
    stops = Stop(1, 60, (strips(10),)), Stop(2, 60, (strips(10),))
    plan = a_day(Round("t", stops, break_after=2))
    call = plan.shifts[0].trips[0].calls[2]
    assert 45 == call.leave_min - call.end_min
    plan = with_calls(plan, 0, 2, latest_leave_min=call.leave_min + 20)
    slow = (1000 + round(1000 * late / 60), 1000)

    assert missed == day_of(plan, work_permille=(slow,) * 6).stops_missed


@pytest.mark.parametrize(("work", "spared"), [((feed(10, 90),), 5), ((block(10),), 0)])
def test_syrup_withheld_takes_no_minutes(work: tuple[Action, ...], spared: int) -> None:
    """Ten feeders at a minute each are five minutes for two people; blocks are given all the same.

    The stop before takes half an hour longer.  Nor is one left out as too late for such syrup.
    """
    plan = a_day(Round("t", (Stop(2, 60, (block(4),)), Stop(1, 60, work)), (IBC,)))
    pace = replace(plan.outfit.pace, feed_s=60)
    plan = replace(plan, outfit=replace(plan.outfit, pace=pace))
    leave = plan.shifts[0].trips[0].calls[2].leave_min
    plan = with_calls(plan, 0, 2, latest_leave_min=leave + 30 - spared)
    (shift,), luck = plan.shifts, fate(plan.outfit, work_permille=((1000, 1500),) * 6)
    withheld = driven(plan.outfit, luck, shift, Standing(short=frozenset({"yard1"})))

    assert 2 == len(shift.crew)
    assert (0, shift.end_min + 30 - spared) == (withheld.stops_missed, withheld.end_min)


def _fed_by_a_second_trip(first: Action) -> Plan:
    """A take-off at Yard 1, then syrup there by a second trip that takes off at Yard 2."""
    rounds = (
        Round("one", (Stop(1, 60, (first, block(10))),)),
        Round("two", (Stop(1, 60, (feed(10, 90),)), Stop(2, 60, (take_off(10, 15),))), (IBC,)),
    )
    return with_calls(a_day(*rounds), 1, 2, boxes_limit=20)


@pytest.mark.parametrize(("limit", "latest", "off"), [(40, 9_999, 10), (15, 9_999, 6), (40, 0, 6)])
def test_syrup_withheld_for_an_earlier_trip_is_aboard(limit: int, latest: int, off: int) -> None:
    """90 L are 8 boxes of 15 kg; where not all came off at Yard 1, Yard 2 stops at 12 of 20.

    That are six colonies, where room for all 20 boxes was. It is the same where nobody came.
    """
    plan = with_calls(
        _fed_by_a_second_trip(take_off(10, 15)), 0, 1, boxes_limit=limit, latest_leave_min=latest
    )
    told = {yard: words["colonies"] for _, yard, words in counts(day_of(plan, boxes=(20, 20)))}

    assert off == told["yard2"]


def test_syrup_withheld_for_another_truck_is_aboard() -> None:
    """The same by two trucks: the second knows what the first left on, that day alone."""
    plan = _fed_by_a_second_trip(take_off(10, 15))
    (shift,) = plan.shifts
    facts, luck = plan.outfit, fate(plan.outfit, boxes=(20, 20))
    one, two = (replace(shift, trips=(trip,)) for trip in shift.trips)
    short = with_calls(replace(plan, shifts=(one,)), 0, 1, boxes_limit=15).shifts[0]
    after = driven(facts, luck, short, Standing()).standing

    assert (6, frozenset({"yard1"})) == (after.off["yard1"], after.short)
    assert 6 == driven(facts, luck, two, after).counts[0].counts["colonies"]
    assert 10 == driven(facts, luck, two, Standing(after.off)).counts[0].counts["colonies"]


def test_what_the_next_truck_is_to_take_off_is_not_off_yet() -> None:
    """Two trucks take six and four colonies of a yard: of its 17 boxes 11, then 6 as planned."""
    plan = a_day(Round("t", (Stop(1, 60, FIRST),)))
    later = a_shift(plan.outfit, 1, [Round("u", (Stop(1, 60, (take_off(4, 6),)),))],
                    start=12 * 60, truck="truck2")  # fmt: skip
    more = with_calls(replace(plan, shifts=(later,)), boxes_limit=40, latest_leave_min=2 * DAY_MIN)
    plan = replace(plan, shifts=(*plan.shifts, *more.shifts))
    diary = _Diary(Rehearsal(plan, NO_LUCK), fate(plan.outfit, boxes=(17, 15)))
    diary.drive(1)

    assert [[{"colonies": 6, "boxes": 11}], []] == [
        [one.counts for one in day.counts] for _, day in diary.days
    ]
