"""A truck under way: called home, a stop left out, another order; the driven part stays."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.riding import SYRUP, unused
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN
from runplanner.errors import ScenarioError
from runplanner.season.replan_season import replan_season
from tests.audit.planted import edited
from tests.changes.thursday import (
    AFTER_CREEK,
    AT_FERNBANK,
    THURSDAY,
    clocks,
    driven,
    red,
    refusal,
)
from tests.running import feeds_fernbank_on_friday, put_in, running_plan


def test_called_home_from_a_yard() -> None:
    """At 9:00 it is at Creek Mouth until 10:35, back by 10:49: 15 boxes x 30 s, 8 min + 10."""
    facts = put_in("home Red", now="Thu 4 Mar 9:00")
    shift, where = red(facts)

    assert [
        ("load", "07:16"), ("mill", "08:00"), ("creek-mouth", "08:45"), ("unload", "10:49"),
    ] == where  # fmt: skip
    assert THURSDAY + 10 * 60 + 49 + 18 == shift.end_min
    assert 25 + 11 + 14 == shift.driving_min
    assert ("tell Red: Base 10:49, home 11:07; left out: Fernbank",) == facts.notes
    assert clocks(running_plan().shifts[0])[:3] == clocks(shift)[:3]
    assert 15 == shift.trips[0].calls[2].after.boxes
    new = driven(facts)
    (out,) = (one for one in new.shifts if (one.day, one.truck) == (3, shift.truck))
    assert ["mill", "creek-mouth"] == [call.yard for call in out.trips[0].yards()]
    assert new.tally.not_off == 0  # somebody else goes there on another day


def test_called_home_between_two_places() -> None:
    """Six minutes out of Old Mill it turns round: there 8:46, at the base 25 min later."""
    facts = put_in("home Red", now="Thu 4 Mar 8:40")
    shift, where = red(facts)

    assert ("unload", "09:11") == where[-1]
    assert THURSDAY + 9 * 60 + 21 == shift.end_min
    driven(facts)


@pytest.mark.parametrize(("left", "unloads"), [("8:30", "09:15"), ("8:34", "09:11")])
def test_who_was_called_back_is_no_sooner_there_however_it_left(left: str, unloads: str) -> None:
    """Told on the phone at 8:40; that Old Mill was left at 8:30, ten minutes out, is told later."""
    line = f"left Old Mill {left}"
    first = put_in("home Red", now="Thu 4 Mar 8:40")
    after = put_in(line, now="Thu 4 Mar 8:45", plan=first.plan)

    assert red(put_in(line, "home Red", now="Thu 4 Mar 8:40"))[1] == red(after)[1]
    assert ("unload", unloads) == red(after)[1][-1]
    driven(after)


def test_called_home_before_the_first_stop_it_drives_there_for_nothing() -> None:
    """A trip has a stop: the first one is reckoned as reached, nothing is done there."""
    facts = put_in("home Red", now="Thu 4 Mar 7:50")
    shift, where = red(facts)

    assert [("load", "07:16"), ("mill", "08:00"), ("unload", "08:25")] == where
    assert () == shift.trips[0].calls[1].actions
    assert () == facts.presumed
    driven(facts)


@pytest.mark.parametrize("line", ["home Red", "skip Fernbank"])
def test_what_an_earlier_count_left_nothing_of_is_called_home_as_well(line: str) -> None:
    """Nothing came off on Thursday, so there is nothing to feed on Friday: nothing comes back."""
    now, plan = "Fri 5 Mar 7:40", feeds_fernbank_on_friday()
    counted = put_in("done 0304-truck2-0716 Fernbank: nothing", now=now, plan=plan).plan
    told = put_in(line, now=now, plan=counted).plan.shifts[1].trips[0]

    assert [] == [action for call in told.yards() for action in call.actions]


def test_a_stop_to_come_that_counts_leave_nothing_of_is_pointed_out() -> None:
    """Nothing came off on Thursday; Friday's truck has syrup aboard for it: its driver is rung."""
    lines, plan = ("done 0304-truck2-0716 Fernbank: nothing",), feeds_fernbank_on_friday()
    stop = ("0305-truck2-0715", "fernbank")
    what = "by the counts nothing is to be done at Fernbank"

    out = put_in(*lines, now="Fri 5 Mar 7:40", plan=plan)
    assert f"Red is out, and {what}: 'home Red' calls it home" == out.notes[-1]
    assert stop not in out.presumed
    home = put_in(*lines, "home Red", now="Fri 5 Mar 7:40", plan=plan)
    assert not [note for note in home.notes if what in note]

    begun = put_in(*lines, now="Fri 5 Mar 8:10", plan=plan)
    assert begun.notes[-1].startswith(f"Red is at work until 12:22, and {what}: ring the driver")
    assert stop in begun.presumed
    counted = put_in(*lines, f"done {stop[0]} Fernbank: nothing", now="Fri 5 Mar 8:10", plan=plan)
    later = put_in(now="Fri 5 Mar 8:20", plan=counted.plan)
    assert not [note for note in (*counted.notes, *later.notes) if what in note]


def test_called_home_while_unloading_changes_nothing() -> None:
    """There is no later trip to call off."""
    facts = put_in("home Red", now="Thu 4 Mar 12:45")

    assert running_plan().shifts == facts.plan.shifts
    assert ("tell Red: home 13:04",) == facts.notes


def test_a_stop_is_left_out() -> None:
    """Old Mill straight to Fernbank: 8:34 and 15 min; 110 min there, 10 to the base, 18 there."""
    facts = put_in("skip Creek Mouth", now="Thu 4 Mar 8:10")
    shift, where = red(facts)

    assert [("fernbank", "08:49"), ("unload", "10:49")] == where[2:]
    assert THURSDAY + 11 * 60 + 7 == shift.end_min
    assert ("0304-truck2-0716", "mill") in facts.presumed
    assert ("0304-truck2-0716", "fernbank") not in facts.presumed
    assert ("0304-truck2-0716", "creek-mouth") not in facts.presumed
    driven(facts)


def test_strips_are_left_out_as_the_paper_says() -> None:
    """Ten colonies at 60 s, by one; the strips stay aboard and go in another time."""
    facts = put_in("skip strips Fernbank", now=AFTER_CREEK)
    (before, _), (shift, _) = red(put_in(now=AFTER_CREEK)), red(facts)
    was, now = (one.trips[0].calls[3] for one in (before, shift))

    assert [one for one in was.actions if one.job is not Job.STRIPS] == [*now.actions]
    assert (10, 10) == (was.end_min - now.end_min, before.end_min - shift.end_min)
    assert {"strips amitraz": 20} == unused(facts.outfit, shift.trips[0])
    new = driven(facts)
    later = [one.colonies for s in new.shifts for t in s.trips for call in t.yards()
             if call.yard == "fernbank" and call.start_min > facts.now_min
             for one in call.actions if one.job is Job.STRIPS]  # fmt: skip
    assert [10] == later


def test_syrup_is_left_out_where_no_colonies_come_off() -> None:
    """Ten at 120 s are 20 minutes, and 85 L come home; with colonies off they would have none."""
    plan, now = feeds_fernbank_on_friday(), "Fri 5 Mar 7:30"
    before, facts = (
        put_in(*lines, now=now, plan=plan)
        for lines in ((), ("skip the syrup round 1 at Fernbank",))
    )
    trips = [one.plan.shifts[1].trips[0] for one in (before, facts)]
    was, left = (one.end_min - one.start_min for trip in trips for one in trip.yards())

    assert 20 == was - left
    assert {SYRUP: 85_000} == unused(facts.outfit, trips[1])
    assert "Fernbank: without syrup; all else there as planned" in facts.notes
    driven(facts)
    assert "the round of syrup that is planned at Fernbank: 1" in refusal(
        "skip syrup round 7 at Fernbank", now=now, plan=plan
    )
    assert "syrup only where no colonies come off" in refusal(
        "skip syrup Fernbank", now=AFTER_CREEK
    )


def test_a_stop_without_another_job_is_left_out_whole() -> None:
    """Old Mill has boards put on, and nothing else."""
    now = "Thu 4 Mar 7:40"
    whole, job = (put_in(f"skip {what}Old Mill", now=now) for what in ("", "boards at "))

    assert (whole.plan.shifts, whole.notes) == (job.plan.shifts, job.notes)
    assert "told as its count" in refusal("skip boards Creek Mouth", now=AT_FERNBANK)


def test_a_stop_left_out_leaves_time_in_hand() -> None:
    """The stop after it is reached sooner, and may be left as late as before, or later than told.

    A latest time that is the planned one has the driver ring home for a minute.
    """
    shift, _ = red(put_in("skip Creek Mouth", now="Thu 4 Mar 8:10"))
    (fernbank,) = [call for call in shift.trips[0].calls if call.yard == "fernbank"]
    before = {call.yard: call for one in running_plan().shifts if one.day == 3
              for trip in one.trips for call in trip.calls}["fernbank"]  # fmt: skip

    assert fernbank.leave_min + 15 < fernbank.latest_leave_min <= before.latest_leave_min


@pytest.mark.parametrize("line", ["skip Creek Mouth", "next Red: Fernbank"])
def test_honey_alone_keeps_the_hours_of_the_honey_house(line: str) -> None:
    """The store beside it shuts at 10:30, before the truck is back; nothing is for the store."""
    plan = running_plan()
    outfit = replace(plan.outfit, feed_store=replace(plan.outfit.feed_store, closes_min=630))

    facts = put_in(line, now="Thu 4 Mar 8:10", plan=replace(plan, outfit=outfit))

    assert clocks(red(facts)[0])[-1][0] > THURSDAY + 630
    driven(facts)


@pytest.mark.parametrize("line", ["skip Creek Mouth", "next Red: Fernbank"])
def test_brood_boxes_keep_the_hours_of_the_store(line: str) -> None:
    """Fernbank's come off in brood boxes as well: those are for the store, shut by then."""
    plan = running_plan()
    shift = plan.shifts[0]
    (trip,) = shift.trips
    calls = tuple(
        replace(call, actions=tuple(
            replace(one, brood_boxes=5) if one.job is Job.TAKE_OFF else one for one in call.actions
        )) for call in trip.calls
    )  # fmt: skip
    told = replace(shift, trips=(replace(trip, calls=calls),))
    outfit = replace(plan.outfit, feed_store=replace(plan.outfit.feed_store, closes_min=630))
    shut = replace(plan, outfit=outfit, shifts=(told, *plan.shifts[1:]))

    assert "the unloading place within its hours" in refusal(line, now="Thu 4 Mar 8:10", plan=shut)


@pytest.mark.parametrize(
    ("line", "now", "said"),
    [
        ("home Blue", "Thu 4 Mar 9:00", "a truck that is out with a trip loaded"),
        ("home Red", "Thu 4 Mar 14:00", "a truck that is out with a trip loaded"),
        ("home Ann", "Thu 4 Mar 9:00", "a truck that is out with a trip loaded"),
        ("skip Fernbank", "Thu 4 Mar 14:00", "a stop to come of a trip under way"),
        ("skip Old Mill", "Thu 4 Mar 9:00", "the name or id of a yard"),
        ("next Red: Old Mill", "Thu 4 Mar 9:00", "the name or id of a yard"),
    ],
)
def test_only_what_is_to_come_can_be_told(line: str, now: str, said: str) -> None:
    """Nobody out, a stop begun, no truck: each is refused in words."""
    assert said in refusal(line, now=now)


def test_an_order_that_does_not_fit_is_refused() -> None:
    """Fernbank opens at 16:00: Creek Mouth after it comes too late for 18:00."""
    lines = ("shut Fernbank Thu before 16:00", "next Red: Fernbank")

    assert "Creek Mouth within its hours; the truck is there at 17:54" in refusal(
        *lines, now="Thu 4 Mar 8:10"
    )


def test_a_load_too_heavy_is_refused() -> None:
    """What is not used up stays aboard: with it one yard's honey may be too much."""
    plan = edited(running_plan(), {"shifts.0.trips.0.calls.3.after.load_max_g": 300_000})

    assert "a load within all limits, not 64 kg too much aboard after Fernbank" in refusal(
        "skip Creek Mouth", now="Thu 4 Mar 8:10", plan=plan
    )


def test_a_day_too_long_is_refused() -> None:
    """The working day ends at 13:00: there is no time for the way round."""
    plan = running_plan()
    hours = replace(plan.outfit.hours, end_min=13 * 60)
    plan = replace(plan, outfit=replace(plan.outfit, hours=hours))

    assert "a day that ends by 13:00" in refusal("next Red: Fernbank", now="Thu 4 Mar 8:38",
                                                 plan=plan)  # fmt: skip


@pytest.mark.parametrize("typed", ["skip Fernbank strips", "skip Fernbank: the strips"])
def test_a_job_behind_the_stop_is_never_taken_for_a_reason(typed: str) -> None:
    """The line to write leaves out the strips alone; the cure offered left out the whole stop."""
    with pytest.raises(ScenarioError) as caught:
        put_in(typed, now=AFTER_CREEK)
    (fault,) = caught.value.faults

    assert "Write 'skip strips Fernbank'." == fault.cure
    assert "fernbank" not in at_yards("skip Fernbank: strips ran out")


def at_yards(line: str) -> list[str]:
    """Where trucks go once ``line`` is told."""
    plan = put_in(line, now=AFTER_CREEK).plan
    thursday = (shift for shift in plan.shifts if shift.day == 3)
    return [call.yard for shift in thursday for trip in shift.trips for call in trip.yards()]


@pytest.mark.parametrize("line", ["suspect mill", "standstill mill, feed agreed"])
def test_a_yard_only_turned_round_at_takes_no_time_though_it_is_closed(line: str) -> None:
    """The audit took gate, suits and washing down for it, past the gate at one: nobody gets out."""
    kept = running_plan()
    outfit = kept.outfit
    mill = replace(outfit.yard("mill"), access=replace(outfit.yard("mill").access, closes_min=780))
    yards = tuple(mill if one.id == "mill" else one for one in outfit.yards)
    facts = put_in(
        "home Red", line, now="Thu 4 Mar 7:20",
        plan=replace(kept, outfit=replace(outfit, yards=yards)),
    )  # fmt: skip
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    load, turned = new.shifts[0].trips[0].calls[:2]

    assert (turned.actions, turned.start_min) == ((), turned.end_min)
    assert load.latest_leave_min + 25 <= 3 * DAY_MIN + 780
    assert () == audit(new, facts.plan)


@pytest.mark.parametrize("line", ["skip Fernbank", "home Red"])
def test_a_count_ahead_of_a_stop_left_out_says_nothing(line: str) -> None:
    """Its notes stayed: fewer colonies off than planned, where none are to come off any more."""
    count = "done Fernbank: 8 colonies 12 boxes"
    for lines in ((count, line), (line, count)):
        notes = put_in(*lines, now="Thu 4 Mar 9:00").notes
        assert put_in(line, now="Thu 4 Mar 9:00").notes == notes
