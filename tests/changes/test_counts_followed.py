"""What follows from counts for later stops, and what is presumed without them."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.errors import ScenarioError
from runplanner.outfit.yards import Health
from runplanner.season.replan_season import replan_season
from tests.audit.planted import edited
from tests.changes.counted import BOTH, MILL, again, call_at, counted, did
from tests.changes.thursday import two_loads
from tests.running import at, put_in, running_plan


def test_no_colony_is_fed_with_its_honey_on() -> None:
    """6 of 10 are said to be off and all 10 fed: 6 count as fed, and that is told."""
    facts = counted(BOTH, "Fernbank: 6 colonies 9 boxes 10 fed")

    assert 6 == did(facts, BOTH, "fernbank")[Job.FEED].colonies
    assert "with honey still on does not count" in facts.notes[-1]


def test_later_stops_follow_from_a_count() -> None:
    """6 of 10 off on Thursday: strips that Friday's trip was to bring are not presumed in."""
    plan = running_plan()
    last = plan.shifts[1]
    trip = last.trips[0]
    strips = Action(Job.STRIPS, 10, pieces=20)
    calls = tuple(
        replace(call, yard="fernbank", actions=(strips,)) if call.yard else call
        for call in trip.calls
    )
    other = replace(
        plan, shifts=(plan.shifts[0], replace(last, trips=(replace(trip, calls=calls),)))
    )
    said = f"done {BOTH} Fernbank: 6 colonies 9 boxes no strips"
    presumed = put_in(said, now=at(last.end_min), plan=other)
    typed = put_in(said, f"done {MILL} Fernbank: strips", now=at(last.end_min), plan=other)

    assert {} == did(presumed, MILL, "fernbank")
    assert {Job.STRIPS: strips} == did(typed, MILL, "fernbank")


def fed_by_the_second_trip() -> Plan:
    """One comes off whole in the first trip of Monday, and is fed by the second."""
    plan = two_loads()
    shift = plan.shifts[0]
    first, second = shift.trips
    off, block = first.calls[1].actions
    whole = (replace(off, colonies=20, boxes=40), replace(block, colonies=20, pieces=20))
    fed = tuple(one for one in second.calls[1].actions if one.job is not Job.TAKE_OFF)
    there, again = (trip.calls[1] for trip in shift.trips)
    trips = tuple(
        replace(trip, calls=(trip.calls[0], call, *trip.calls[2:]))
        for trip, call in (
            (first, replace(there, actions=whole, boxes_limit=40)),
            (second, replace(again, actions=fed)),
        )
    )
    return replace(plan, shifts=(replace(shift, trips=trips), *plan.shifts[1:]))


@pytest.mark.parametrize("now", ["Mon 1 Mar 9:40", "Mon 1 Mar 20:00"])
def test_syrup_that_the_paper_forbids_is_not_presumed_poured(now: str) -> None:
    """17 of 20 off: the driver's paper says no syrup later that day, so all 20 are fed later."""
    plan = fed_by_the_second_trip()
    facts = put_in("done 0301-truck1-0735 One: 17 colonies 34 boxes", now=now, plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    fed = [
        (shift.day, one.colonies)
        for shift in new.shifts
        for trip in shift.trips
        for call in trip.yards()
        if call.yard == "yard1"
        for one in call.actions
        if one.job is Job.FEED
    ]

    assert "with honey still on does not count" in facts.notes[0]
    assert [(2, 20)] == fed
    assert [] == [finding.sentence() for finding in audit(new)]


def test_a_stop_that_other_counts_emptied_can_be_counted() -> None:
    """The first trip took nothing off: what the second is said to have poured is told of."""
    plan, now = fed_by_the_second_trip(), "Mon 1 Mar 20:00"
    first = "done 0301-truck1-0735 One: nothing"
    facts = again(put_in(first, now=now, plan=plan), "done 0301-truck1-1004 One: 170 litres")

    assert any("with honey still on does not count" in note for note in facts.notes)


def fed_at_a_standstill() -> Plan:
    """Fernbank, which bears no boxes, fed in two rounds, by Thursday's trip and Friday's."""
    plan = running_plan()
    yards = tuple(
        replace(one, boxes=0, health=Health.STANDSTILL, feed_agreed=True, feeder_ml=5_000)
        if one.id == "fernbank"
        else one
        for one in plan.outfit.yards
    )
    first, second = (Action(Job.FEED, 10, number, ml=42_500) for number in (1, 2))
    return edited(
        replace(plan, outfit=replace(plan.outfit, yards=yards)),
        {
            "shifts.0.trips.0.calls": tuple(
                replace(one, actions=(first,)) if one.yard == "fernbank" else one
                for one in plan.shifts[0].trips[0].calls
            ),
            "shifts.1.trips.0.calls": tuple(
                replace(one, yard="fernbank", actions=(second,)) if one.yard else one
                for one in plan.shifts[1].trips[0].calls
            ),
        },
    )


@pytest.mark.parametrize("line", ["suspect Fernbank", "watch Fernbank"])
def test_at_a_bare_yard_no_later_round_feeds_more_than_the_one_before(line: str) -> None:
    """6 of 10 fed at a standstill: Friday's second round reaches 6, whatever is told beside."""
    plan = fed_at_a_standstill()
    now, said = at(plan.shifts[1].end_min), f"done {BOTH} Fernbank: 6 fed"
    facts, both = put_in(said, now=now, plan=plan), put_in(said, line, now=now, plan=plan)
    after = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)

    assert 6 == did(facts, MILL, "fernbank")[Job.FEED].colonies
    assert any(note.endswith("without the syrup before it does not count") for note in facts.notes)
    assert facts.plan.shifts == both.plan.shifts
    assert not audit(after)


def test_colonies_fed_at_a_standstill_come_off_fed() -> None:
    """Sound again, they are condensed without blocks; that visit counted, they stay fed."""
    plan = fed_at_a_standstill()
    facts = put_in("sound Fernbank", now=at(plan.shifts[1].end_min), plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    shift, trip = next(
        (shift, trip)
        for shift in new.shifts
        for trip in shift.trips
        for call in trip.yards()
        if call.yard == "fernbank" and any(one.job is Job.TAKE_OFF for one in call.actions)
    )
    off = call_at(new, trip.id, "fernbank")
    counted = put_in(f"done {trip.id} Fernbank: 10 colonies", now=at(shift.end_min), plan=new)

    assert "cover" not in {finding.rule for finding in audit(new, facts.plan)}
    assert Job.BLOCK not in [one.job for one in off.actions]
    assert 0 == new.tally.uncovered
    assert 10 == did(counted, BOTH, "fernbank")[Job.FEED].colonies


def test_what_was_not_counted_is_presumed_and_named() -> None:
    """Three stops, one counted: the other two are named; next time only newer ones are."""
    facts = counted(BOTH, "Fernbank: 10 colonies 15 boxes")
    assert ((BOTH, "mill"), (BOTH, "creek-mouth")) == facts.presumed

    trips = tuple(replace(trip, driven=True) for trip in facts.plan.shifts[0].trips)
    told = replace(
        facts.plan,
        shifts=(replace(facts.plan.shifts[0], trips=trips), *facts.plan.shifts[1:]),
        now_min=facts.now_min,
    )
    assert () == put_in(now=at(facts.now_min), plan=told).presumed


def test_nothing_can_be_counted_where_a_truck_never_came() -> None:
    """Called home on its way to Old Mill, the first stop is reckoned as reached for nothing."""
    home = put_in("home Red", now="Thu 4 Mar 7:50")
    with pytest.raises(ScenarioError) as caught:
        again(home, f"done {BOTH} Old Mill: 24 colonies")

    (fault,) = caught.value.faults
    assert "counts of what was planned there (nothing), not colonies" == fault.allowed
    assert home.plan.shifts == again(home, f"done {BOTH} Old Mill: nothing").plan.shifts


def test_strips_that_were_counted_stay_counted_in_later_plans() -> None:
    """Strips went in at Fernbank with honey on; a count of another stop there is no doubt of it."""
    first = counted(BOTH, "Fernbank: 6 colonies 11 boxes strips")
    trip = first.plan.shifts[0].trips[0]
    twice = replace(trip, id="other", calls=tuple(
        replace(call, planned=(), counted=None, actions=()) for call in trip.calls
    ))  # fmt: skip
    shift = replace(first.plan.shifts[0], trips=(trip, twice))
    plan = replace(first.plan, shifts=(shift, *first.plan.shifts[1:]))
    facts = again(replace(first, plan=plan), "done other Fernbank: 4 blocks")

    assert Job.STRIPS in did(facts, BOTH, "fernbank")
