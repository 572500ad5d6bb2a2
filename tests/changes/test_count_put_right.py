"""A count that is put right by a later one."""

from dataclasses import replace

import pytest

from runplanner.errors import ScenarioError
from tests.audit.planted import edited
from tests.changes.counted import BOTH, LATE, MILL, again, call_at, counted, shift_end
from tests.running import at, put_in, running_plan


@pytest.mark.parametrize("first", ["nothing", "6 colonies 30 boxes 2 brood boxes", "18 boxes"])
@pytest.mark.parametrize(
    "last", ["10 colonies 15 boxes 10 fed strips", "8 colonies 13 boxes 8 fed 10 blocks", "nothing"]
)
def test_a_later_count_of_a_stop_replaces_the_one_before(first: str, last: str) -> None:
    """Typed together or one plan later, it is as if the first had never been typed."""
    alone = counted(BOTH, f"Fernbank: {last}")
    both = counted(BOTH, f"Fernbank: {first}", f"Fernbank: {last}")
    later = again(counted(BOTH, f"Fernbank: {first}"), f"done {BOTH} Fernbank: {last}")

    assert (alone.plan, alone.outfit) == (both.plan, both.outfit)
    assert (alone.plan.shifts, alone.outfit) == (later.plan.shifts, later.outfit)
    assert (BOTH, "fernbank") not in later.presumed


@pytest.mark.parametrize("last", ["7 colonies 12 boxes", "nothing"])
@pytest.mark.parametrize("first", ["7 colonies 5 boxes", "7 colonies 11 boxes"])
def test_a_count_put_right_gives_a_yard_its_boxes_back(first: str, last: str) -> None:
    """Seven of the mill's 24 colonies have 12 of its 40 boxes; by these alone it would have 41."""
    calls = "shifts.1.trips.0.calls.1"
    part = replace(call_at(running_plan(), MILL, "mill").actions[0], colonies=7, boxes=12)
    plan, now = edited(running_plan(), {f"{calls}.actions": (part,)}), at(shift_end(MILL) + 60)
    wrong, right = (f"done {MILL} Old Mill: {said}" for said in (first, last))
    expected = put_in(wrong, now=now, plan=plan)

    assert 40 != expected.outfit.yard("mill").boxes
    for facts in (put_in(wrong, right, now=now, plan=plan), again(expected, right)):
        assert plan.outfit.yard("mill") == facts.outfit.yard("mill")


def test_brood_boxes_of_a_count_before_are_forgotten_too() -> None:
    """Counted away with all ten colonies, then with nine: the yard has none to come off again."""
    first = counted(BOTH, "Fernbank: 10 colonies 20 boxes 10 brood boxes")
    facts = again(first, f"done {BOTH} Fernbank: 9 colonies 14 boxes")

    assert 10 == first.outfit.yard("fernbank").brood_boxes_off
    assert running_plan().outfit.yard("fernbank").brood_boxes_off == (
        facts.outfit.yard("fernbank").brood_boxes_off
    )


def test_boxes_told_since_a_count_hold() -> None:
    """Nine stand there: on four colonies as it seemed, on all ten as it turns out."""
    first = counted(BOTH, "Fernbank: 6 colonies 11 boxes")
    facts = again(again(first, "boxes left 9 Fernbank"), f"done {BOTH} Fernbank: nothing")

    assert 9 == facts.outfit.yard("fernbank").boxes


@pytest.mark.parametrize(
    "typed",
    ["Fernbank not done", "not done Fernbank", "Fernbank not done: rain", "done Fernbank not"],
)
def test_what_was_not_done_may_be_told_in_any_order(typed: str) -> None:
    """As nothing is; what goes on behind it is no count."""
    now = "Thu 4 Mar 20:00"
    plain = put_in("done Fernbank: nothing", now=now)

    assert plain.plan == put_in(typed, now=now).plan
    for more in ("Fernbank not done yet", "Fernbank not all done", "done Fernbank not 2 colonies"):
        with pytest.raises(ScenarioError):
            put_in(more, now=now)


@pytest.mark.parametrize("trip", [f"{BOTH} ", ""])
@pytest.mark.parametrize(
    "slip", ["6 colonies 11 boxes", "10 colonies 15 boxes 35 L", "6 colonies 11 boxes strips 35 L"]
)
def test_a_count_put_right_unsays_what_the_slip_had_led_to(slip: str, trip: str) -> None:
    """Notes on boxes still on, syrup held up and litres read stayed beside the true count's own."""
    right, other = "10 colonies 15 boxes 30 L", f"done {trip}Creek Mouth: 6 colonies 11 boxes"
    mended, plain = (
        put_in(other, *(f"done {trip}Fernbank: {one}" for one in said), now=LATE)
        for said in ((slip, right), (right,))
    )

    again_said = [note for note in mended.notes if "counted by two lines" in note]
    assert plain.notes == tuple(note for note in mended.notes if note not in again_said)
    assert len(again_said) == 1
    assert any(note.startswith("Creek Mouth: by this count") for note in mended.notes)
