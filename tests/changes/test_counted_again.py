"""A stop of a truck that is out is counted a second time: the rest of its day goes by that.

Red's Thursday: Old Mill 8:00 to 8:34, Creek Mouth 8:45 to 10:35, Fernbank 10:39 to 12:29, unloads
12:39 to 13:04, no way home; from Creek Mouth to the base 14 min, to Fernbank 4.
"""

from dataclasses import replace
from functools import cache

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, CallKind
from runplanner.days import DAY_MIN, clock
from runplanner.errors import ScenarioError
from runplanner.outfit.bases import Base
from runplanner.phrase import in_english
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from tests.outfits import a_yard, an_outfit
from tests.running import at, put_in

FERNBANK = "done 0304-truck2-0716 Fernbank: "
CREEK = "done 0304-truck2-0716 Creek Mouth: "
ALL = "10 colonies 15 boxes 10 fed strips"


def after(*steps: tuple[str, ...], plan: Plan | None = None) -> Changed:
    """The campaign after several calls, each its time and its lines; the audit finds all good."""
    facts = None
    for now, *lines in steps:
        facts = put_in(*lines, now=now if " " in now else f"Thu 4 Mar {now}", plan=plan)
        plan = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0, proof=False)
        found = [one.sentence() for one in audit(plan, facts.plan) if one.rule != "undone"]
        assert [] == found
    assert facts is not None
    return facts


def unloads(facts: Changed, day: int = 3) -> list[tuple[int, str, str]]:
    """Where and when the trip of a day unloads."""
    (shift,) = (one for one in facts.plan.shifts if one.day == day)
    return [
        (call.place, clock(call.arrive_min), clock(call.end_min))
        for call in shift.trips[0].calls if call.kind is CallKind.UNLOAD
    ]  # fmt: skip


def creek(facts: Changed) -> Call:
    """Creek Mouth on Thursday."""
    (shift,) = (one for one in facts.plan.shifts if one.day == 3)
    return shift.trips[0].calls[2]


@pytest.mark.parametrize("slip", ["nothing", "8 colonies 12 boxes"])
def test_a_count_put_right_on_the_road_unloads_as_if_it_had_been_right_at_once(slip: str) -> None:
    """By nothing 15 boxes less are unloaded: that was kept, and the audit refused the plan."""
    right = after(("11:30", FERNBANK + ALL))
    wrong = after(("11:30", FERNBANK + slip))
    again = after(("11:30", FERNBANK + slip), ("11:33", FERNBANK + ALL))

    assert unloads(wrong) < unloads(right) == unloads(again)
    note = f"tell Red: Base {unloads(right)[0][1]}, home {unloads(right)[0][2]}"
    assert note in again.notes


def test_more_boxes_than_counted_first_are_unloaded_as_long_as_they_take() -> None:
    """Ten more, one after the other: 10 x 60 s for two; ten less are as before."""
    few, many = (f"{FERNBANK}9 colonies {boxes} boxes" for boxes in (15, 35))
    first = after(("11:30", few))
    more = after(("11:30", few), ("11:33", many))
    back = after(("11:30", few), ("11:33", many), ("11:35", few))

    assert unloads(more) == unloads(after(("11:30", many)))
    assert unloads(first) == unloads(back) < unloads(more)


def test_a_stop_counted_again_from_the_next_one_changes_what_is_unloaded_alone() -> None:
    """At work at Fernbank by then, which keeps its minutes; also where the count is all as told."""
    first = after(("9:30", CREEK + "nothing"))
    again = after(("9:30", CREEK + "nothing"), ("9:50", CREEK + ALL))
    same = after(("9:30", CREEK + "nothing"), ("9:50", CREEK + "nothing"))

    assert unloads(after(("9:30", CREEK + ALL))) == unloads(again) > unloads(first)
    assert (unloads(first), ()) == (unloads(same), same.notes)
    assert creek(first).end_min == creek(again).end_min


def test_a_count_put_right_within_one_call_counts_as_the_last_one() -> None:
    """As if the slip had not been typed."""
    at_once = after(("11:30", FERNBANK + "nothing", FERNBANK + ALL))

    assert unloads(after(("11:30", FERNBANK + ALL))) == unloads(at_once)


@cache
def apart() -> Plan:
    """One yard; honey is unloaded at place 2, all else at the store by home."""
    outfit = an_outfit([(30, 0), (0, 12)], [replace(a_yard(1), colonies=20, boxes=40)])
    house = replace(outfit.honey_house, base=Base(2, 0, DAY_MIN))
    return plan_season(replace(outfit, honey_house=house), rounds=1, proof=False)


def test_boxes_counted_after_all_go_to_the_honey_house() -> None:
    """Counted as nothing the truck was told to go to the store; that had stayed so."""
    plan = apart()
    shift = next(one for one in plan.shifts if one.trips[0].calls[1].takes_boxes())
    trip, stop = shift.trips[0], shift.trips[0].calls[1]
    counts = f"{stop.boxes()} boxes {stop.actions[0].colonies} fed strips"
    slip, right = (f"done {trip.id} Yard 1: {told}" for told in ("nothing", counts))
    first, again = at(stop.start_min + 40), at(stop.start_min + 42)
    wrong = after((first, slip), plan=plan)

    assert [0] == [place for place, *_ in unloads(wrong, shift.day)]
    for steps in ([(first, slip), (again, right)], [(first, slip), (again, slip, right)]):
        assert 2 == unloads(after(*steps, plan=plan), shift.day)[0][0]


def test_the_same_count_typed_again_tells_the_driver_nothing_new() -> None:
    """Fernbank is over at 12:29: by a first count nobody is rung for minutes of unloading."""
    nothing = FERNBANK + "nothing"
    first, again = after(("12:31", nothing)), after(("12:31", nothing), ("12:32", nothing))

    assert unloads(after(("12:31",))) == unloads(first) == unloads(again)
    assert not any("tell Red" in note for note in again.notes)
    right = after(("12:31", nothing), ("12:32", FERNBANK + ALL))
    assert unloads(first) == unloads(right)


def test_brood_boxes_counted_once_a_stop_is_over_go_to_the_store_as_well() -> None:
    """With honey alone the truck is to go home from the honey house."""
    plan = apart()
    shift = next(one for one in plan.shifts if one.trips[0].calls[1].takes_boxes())
    trip, stop = shift.trips[0], shift.trips[0].calls[1]
    line = f"done {trip.id} Yard 1: {stop.boxes()} boxes {stop.actions[0].colonies} fed strips"
    late = at(stop.end_min + 1)
    plain, brood = (after((late, line + more), plan=plan) for more in ("", " 4 brood boxes"))

    assert [2] == [place for place, *_ in unloads(plain, shift.day)]
    assert [2, 0] == [place for place, *_ in unloads(brood, shift.day)]
    assert any(note.startswith("tell Truck 1: Place 2") for note in brood.notes)


@pytest.mark.parametrize("line", [CREEK + "8 colonies 12 boxes", "dead 1 Old Mill"])
def test_a_truck_that_is_late_can_be_told_in_a_later_call_as_well(line: str) -> None:
    """By plan it has begun at Fernbank at 10:39, which nobody has counted: it is still at Creek.

    The first call was read as if the truck had gone on by then, so that it could not be told.
    """
    late = "left Creek Mouth 10:55"
    at_once, apart = after(("10:50", line, late)), after(("10:50", line), ("10:52", late))

    assert "10:55" == clock(creek(apart).end_min)
    assert unloads(at_once) == unloads(apart)
    counted = after(("10:50", line), ("10:51", FERNBANK + "nothing")).plan
    for now, plan in (("10:52", counted), ("10:52", after(("10:37", "home Red")).plan)):
        with pytest.raises(ScenarioError, match="the last stop that a truck has begun"):
            put_in("left Old Mill 8:40", now=f"Thu 4 Mar {now}", plan=plan)


def test_one_count_says_each_number_once() -> None:
    """Nobody knows whether 15 or 12 were meant."""
    with pytest.raises(ScenarioError, match="each count once, not both 15 boxes and 12 boxes"):
        put_in("done Fernbank: 10 colonies 15 boxes 12 boxes", now="Thu 4 Mar 20:00")


def test_of_two_lines_on_one_stop_the_later_counts_and_says_so() -> None:
    """The same line typed twice is no news."""
    line, other = (f"done Fernbank: 10 colonies {boxes} boxes" for boxes in (15, 12))

    def notes(*lines: str) -> list[str]:
        told = put_in(*lines, now="Thu 4 Mar 20:00").notes
        return [one for one in map(in_english, told) if "two lines" in one]

    said = "Fernbank: counted by two lines; the later one counts (0304-truck2-0716)"
    assert [said] == notes(line, other)
    assert [] == notes(line, line)


def test_another_order_is_for_stops_to_come() -> None:
    """At half past twelve Red is at its last stop."""
    with pytest.raises(ScenarioError, match=r"stops of its trip to come.*have begun"):
        put_in("next Red: Fernbank", now="Thu 4 Mar 12:30")
