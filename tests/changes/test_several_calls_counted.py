"""Counts of several calls of a trip, and lines that leave the trip out."""

from dataclasses import replace

import pytest

from runplanner.changes.said.shared_out import shared_out
from runplanner.daybook.trip import Action, Job
from runplanner.errors import ScenarioError
from runplanner.season.replan_season import replan_season
from tests.audit.planted import edited
from tests.changes.counted import BOTH, LATE, counted, in_two_calls, shift_end
from tests.running import at, feeds_fernbank_on_friday, put_in, running_plan


@pytest.mark.parametrize(
    ("said", "fed", "strips"),
    [
        ("6 colonies 11 boxes", 0, 0),
        ("6 colonies 11 boxes 6 fed", 6, 0),
        ("6 colonies 11 boxes strips", 0, 10),
        ("10 colonies 15 boxes", 10, 10),
    ],
)
def test_what_is_given_by_a_later_call_is_held_up_too(said: str, fed: int, strips: int) -> None:
    """Syrup and strips in a second call wait for colonies that were not off by the first."""
    told = f"done {BOTH} Fernbank: {said}"
    facts = put_in(told, now=at(shift_end(BOTH) + 60), plan=in_two_calls(Job.TAKE_OFF))
    trip = next(t for s in facts.plan.shifts for t in s.trips if t.id == BOTH)
    done = {
        one.job: one.colonies for call in trip.calls if call.yard == "fernbank"
        for one in call.actions
    }  # fmt: skip

    assert (fed, strips) == (done.get(Job.FEED, 0), done.get(Job.STRIPS, 0))


def test_what_a_later_lot_holds_up_is_said() -> None:
    """Six and four colonies in two calls, each fed: of eight told off the second lot lacks two."""
    plan = in_two_calls(Job.TAKE_OFF)
    calls = "shifts.{}.trips.{}.calls".format(
        *next(
            (s, t) for s, shift in enumerate(plan.shifts) for t, trip in enumerate(shift.trips)
            if trip.id == BOTH
        )
    )  # fmt: skip
    lots = {
        f"{calls}.{at}.actions": (
            Action(Job.TAKE_OFF, colonies, boxes=boxes),
            Action(Job.FEED, colonies, round=1, ml=8_500 * colonies),
        )
        for at, colonies, boxes in ((-3, 6, 9), (-2, 4, 6))
    }
    plan = edited(plan, lots)
    facts = put_in(f"done {BOTH} Fernbank: 8 colonies", now=at(shift_end(BOTH) + 60), plan=plan)

    assert [6] == [
        one.colonies for shift in facts.plan.shifts for trip in shift.trips if trip.id == BOTH
        for call in trip.calls if call.yard == "fernbank"
        for one in call.actions if one.job is Job.FEED
    ]  # fmt: skip
    assert 1 == sum("fewer colonies off than planned" in note for note in facts.notes)


def test_two_calls_of_a_trip_at_one_yard_share_what_is_told() -> None:
    """20 blocks and the strips told once: ten blocks at each call, strips at the first alone."""
    call = next(
        one
        for shift in running_plan().shifts
        for trip in shift.trips
        if trip.id == BOTH
        for one in trip.calls
        if one.yard == "fernbank"
    )
    block = Action(Job.BLOCK, 10, pieces=10)
    first = replace(call, actions=(block, Action(Job.STRIPS, 10, pieces=20)))
    second = replace(call, actions=(block,))

    assert [{"blocks": 10, "strips": 1}, {"blocks": 10}] == shared_out(
        [first, second], {"blocks": 20, "strips": 1}
    )
    assert [{"blocks": 10}, {"blocks": 2, "strips": 1}] == shared_out(
        [second, first], {"blocks": 12, "strips": 1}
    )
    assert [{"feeders": 3}, {}] == shared_out([first, second], {"feeders": 3})


@pytest.mark.parametrize(
    ("said", "first", "second"),
    [
        ({"colonies": 10, "boxes": 19}, {"colonies": 6, "boxes": 11}, {"colonies": 4, "boxes": 8}),
        ({"colonies": 5, "boxes": 9}, {"colonies": 5, "boxes": 9}, {"colonies": 0, "boxes": 0}),
        ({"colonies": 12, "boxes": 20}, {"colonies": 6, "boxes": 11}, {"colonies": 6, "boxes": 9}),
        ({"colonies": 6, "boxes": 14}, {"colonies": 6, "boxes": 14}, {"colonies": 0, "boxes": 0}),
        ({"colonies": 0, "boxes": 0}, {"colonies": 0, "boxes": 0}, {"colonies": 0, "boxes": 0}),
    ],
)
def test_two_lots_of_one_trip_are_counted_once(
    said: dict[str, int], first: dict[str, int], second: dict[str, int]
) -> None:
    """Six and four colonies come off in two calls, 11 and 8 boxes: a sum told is not told twice.

    Where only the first lot came off, all boxes are its own: 14 told were 11.
    """
    lots = [Action(Job.TAKE_OFF, 6, boxes=11), Action(Job.TAKE_OFF, 4, boxes=8)]
    call = running_plan().shifts[0].trips[0].calls[0]

    assert [first, second] == shared_out([replace(call, actions=(lot,)) for lot in lots], said)


def test_a_take_off_and_its_feed_in_two_calls_are_told_of_the_same_colonies() -> None:
    """Ten colonies off in two lots, and fed in a third call: ten are fed, from what ten brought."""
    lots = [Action(Job.TAKE_OFF, 6, boxes=11), Action(Job.TAKE_OFF, 4, boxes=8)]
    feed = Action(Job.FEED, 10, round=1, ml=85_000)
    call = running_plan().shifts[0].trips[0].calls[0]
    calls = [replace(call, actions=(action,)) for action in (*lots, feed)]

    assert [{"colonies": 6}, {"colonies": 4}, {"colonies": 10}] == shared_out(
        calls, {"colonies": 10}
    )


def test_litres_of_two_feeds_are_one_sum() -> None:
    """Six and four colonies get 51 and 34 L; of 77 L told, 26 L fed three of the last four."""
    feeds = [Action(Job.FEED, 6, round=1, ml=51_000), Action(Job.FEED, 4, round=1, ml=34_000)]
    call = running_plan().shifts[0].trips[0].calls[0]
    calls = [replace(call, actions=(feed,)) for feed in feeds]

    assert [{"ml": 51_000}, {"ml": 26_000}] == shared_out(calls, {"ml": 77_000})
    assert [{"fed": 6}, {"fed": 3}] == shared_out(calls, {"fed": 9})


def test_stops_of_a_trip_that_was_under_way_are_named_by_the_next_plan() -> None:
    """Planned again at 9:00, in Creek Mouth until 10:35: by the evening the mill alone was over.

    Fernbank was counted too early, for nothing: it is not presumed, nor asked for again.
    """
    now = "Thu 4 Mar 9:00"
    first = put_in("shut mill Fri", now=now)
    new = replan_season(first.plan, first.outfit, first.now_min, rounds=0, proof=False)
    early = put_in(f"done {BOTH} Fernbank: nothing", now=now)
    skipped = replan_season(early.plan, early.outfit, early.now_min, rounds=0, proof=False)

    assert {(BOTH, "mill"), (BOTH, "creek-mouth")} == set(first.presumed)
    assert ((BOTH, "creek-mouth"), (BOTH, "fernbank")) == put_in(now=LATE, plan=new).presumed
    assert ((BOTH, "creek-mouth"),) == put_in(now=LATE, plan=skipped).presumed
    counts = f"done {BOTH} Creek Mouth: 10 colonies"
    assert ((BOTH, "fernbank"),) == put_in(counts, now=LATE, plan=new).presumed
    home = put_in("home Red", now="Thu 4 Mar 7:50")
    called = replan_season(home.plan, home.outfit, home.now_min, rounds=0, proof=False)
    assert BOTH not in dict(put_in(now="Thu 4 Mar 12:00", plan=called).presumed)


@pytest.mark.parametrize(
    ("typed", "as_if"),
    [
        ("9 col 14 bx 36 L no strips", "9 colonies 14 boxes 36 litres no strips"),
        ("off 9 col 14 bx, feed 9 col 36 L", "9 colonies 14 boxes 9 fed 36 litres"),
        ("10 col 15 bx, block 10, fed 4 hives", "10 colonies 15 boxes 10 blocks 4 fed"),
        ("10 hives 15 supers", "10 colonies 15 boxes"),
        ("9 off by the brush", "9 off with a brush"),
        ("9 off with the brush, no boards", "9 off by brush"),
    ],
)
def test_counts_in_the_words_of_the_phone_text(typed: str, as_if: str) -> None:
    """The driver answers in the words in hand: "off 10 col 15 bx", "feed 10 col 40 L"."""
    texted, plain = (counted(BOTH, f"Fernbank: {one}") for one in (typed, as_if))

    assert (plain.plan, plain.notes) == (texted.plan, texted.notes)


def test_the_trip_may_be_left_out_where_it_can_be_one_only() -> None:
    """Fernbank on Thursday alone; after a second trip there it is today's, or asked which."""
    now, line = "Thu 4 Mar 20:00", "done Fernbank: 9 colonies 14 boxes"
    named = put_in(line.replace("done", f"done {BOTH}"), now=now)
    facts = put_in(line, now=now)
    assert named.plan == facts.plan
    assert f"Fernbank: counted for trip {BOTH}" in facts.notes

    twice, friday = feeds_fernbank_on_friday(), "0305-truck2-0715"
    with pytest.raises(ScenarioError, match=f"Give one of: {BOTH}, {friday}"):
        put_in("done Fernbank: nothing", now="Sat 6 Mar 7:00", plan=twice)
    today = put_in("done Fernbank: nothing", now="Fri 5 Mar 20:00", plan=twice)
    assert f"Fernbank: counted for trip {friday}" in today.notes
    with pytest.raises(ScenarioError, match="a trip that has left by now"):
        put_in("done Fernbank: nothing", now="Wed 3 Mar 12:00")
    before = put_in("done Fernbank: nothing", now="Fri 5 Mar 7:00", plan=twice)
    assert f"Fernbank: counted for trip {BOTH}" in before.notes
    # Its truck out, and not there yet: either may be told.
    with pytest.raises(ScenarioError, match=f"Give one of: {BOTH}, {friday}"):
        put_in("done Fernbank: nothing", now="Fri 5 Mar 7:16", plan=twice)
    # A stop that was over when the plan was made has been counted or presumed.
    later = replace(twice, now_min=put_in(now="Fri 5 Mar 6:00").now_min)
    told = put_in("done Fernbank: nothing", now="Sat 6 Mar 7:00", plan=later)
    assert f"Fernbank: counted for trip {friday}" in told.notes
    with pytest.raises(ScenarioError, match=f"Give one of: {BOTH}, {friday}"):
        put_in("done Fernbank: nothing", now="Fri 5 Mar 7:16", plan=later)


def test_a_yard_for_which_no_trip_has_left_is_said_to_be_one() -> None:
    """The refusal had asked for the id of a trip."""
    friday = replace(running_plan(), shifts=running_plan().shifts[1:])
    with pytest.raises(ScenarioError) as told:
        put_in("Fernbank not done", now="Fri 5 Mar 20:00", plan=friday)

    (fault,) = told.value.faults
    assert "a yard for which a trip has left by now" == fault.allowed
    assert "Lines on Fernbank are" in fault.cure
