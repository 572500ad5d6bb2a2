"""Counts that cannot be."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.errors import ScenarioError
from tests.changes.counted import BOTH, LATE, MILL, counted, did
from tests.running import at, put_in, running_outfit, running_plan


@pytest.mark.parametrize(
    ("line", "word"),
    [
        (f"done {BOTH} Fernbank: 11 colonies", "at most the 10 colonies"),
        (f"done {BOTH} Fernbank: 11 fed", "at most the 10 colonies"),
        (f"done {BOTH} Fernbank", "counts such as"),
        (f"done {BOTH} Fernbank: 3 bottles", "Not understood from '3 bottles'"),
        (f"done {BOTH} Fernbank: as planned", "went as planned counts as done without a line"),
        (f"done {BOTH} Fernbank: 9.5 colonies", "Not understood from '9.5 colonies'"),
        (f"done {BOTH} Fernbank: 1,200 litres", "Not understood from '1,200 litres'"),
        (f"done {BOTH} Nowhere: 3 boxes", "the name or id of a yard"),
        (f"done {MILL} Old Mill: 3 boxes", "a trip that has left by now"),
    ],
)
def test_counts_that_cannot_be(line: str, word: str) -> None:
    """More than there is, something else, or a trip that has not left."""
    with pytest.raises(ScenarioError) as caught:
        put_in(line, now=at(5200))
    assert word in caught.value.faults[0].sentence()


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (f"done {BOTH} Old Mill: 240 boards", "24 boards here: 1 for each colony, 100 owned"),
        (f"done {BOTH} Old Mill: 25 colonies", "24 boards here: 1 for each colony"),
        (f"done {BOTH} Old Mill: 73 blocks", "72 blocks here: 3 for each colony, 1000 owned"),
        (f"done {BOTH} Fernbank: 150 boxes", "120 boxes here, 12 for each colony off; 15 were"),
        (f"done {BOTH} Fernbank: 0 colonies 5 boxes", "at most 0 boxes here"),
        (f"done {BOTH} Fernbank: 121 brood boxes", "120 brood boxes here, 12 for each colony off"),
        ("boxes left 4000 Fernbank", "at most 12 a colony, 120 here"),
        ("new yard Found at 0.05 0.05: 6 colonies 73 boxes", "at most 12 a colony, 72 here"),
    ],
)
def test_a_slip_of_a_digit_is_not_believed(line: str, said: str) -> None:
    """What no yard can have: told with what is possible, owned, and was planned."""
    with pytest.raises(ScenarioError) as caught:
        put_in(line, now=LATE)
    assert said in caught.value.faults[0].allowed


def with_kit(boards: int = 100, blocks: int = 100) -> Plan:
    """The campaign with so many boards and blocks owned."""
    kit = replace(running_outfit().kit, boards_owned=boards, blocks_owned=blocks)
    return replace(running_plan(), outfit=replace(running_outfit(), kit=kit))


def test_no_more_is_counted_than_is_owned() -> None:
    """24 boards and 30 blocks are owned; 5 blocks are said to be at Fernbank, so 25 are left.

    The mill has 24 colonies, so 24 boards and 26 blocks would do there.  Boards that the store
    lacks lie elsewhere by what is presumed; blocks may have been bought.
    """
    plan, cut = with_kit(24, 30), "done {trip} {said}".format
    fernbank = cut(trip=BOTH, said="Fernbank: 5 blocks")
    mill = cut(trip=BOTH, said="Old Mill: 24 boards 25 blocks")
    facts = put_in(fernbank, mill, now=LATE, plan=plan)
    assert 25 == did(facts, BOTH, "mill")[Job.BLOCK].pieces
    with pytest.raises(ScenarioError) as caught:
        put_in(fernbank, cut(trip=BOTH, said="Old Mill: 26 blocks"), now=LATE, plan=plan)
    (fault,) = caught.value.faults
    assert "at most 25 blocks here: 3 for each colony, 30 owned; 0 were" in fault.allowed
    assert "say 'blocks left N' in a run before" in fault.cure
    with pytest.raises(ScenarioError) as caught:
        put_in(cut(trip=BOTH, said="Old Mill: 23 boards"), now=LATE, plan=boards_for_twenty())
    (fault,) = caught.value.faults
    assert "at most 22 boards here" in fault.allowed
    assert "first where other boards are taken to lie" in fault.cure


def boards_for_twenty() -> Plan:
    """The campaign with 22 boards owned, of which 20 go to the mill first."""
    plan = with_kit(boards=22)
    shift, *rest = plan.shifts
    (trip,) = shift.trips
    load, *calls = trip.calls
    load = replace(load, after=replace(load.after, boards=20))
    part = (Action(Job.BOARDS, 20, pieces=20),)
    others = (replace(one, actions=part) if one.yard == "mill" else one for one in calls)
    trip = replace(trip, calls=(load, *others))
    return replace(plan, shifts=(replace(shift, trips=(trip,)), *rest))


@pytest.mark.parametrize("said", ["10 colonies 3 feeders", "10 colonies 3 wet boxes"])
def test_what_a_stop_does_not_do_is_not_counted_there(said: str) -> None:
    """At a stop that fetches no feeders and no wet boxes such a count would be lost: refused."""
    with pytest.raises(ScenarioError) as caught:
        counted(BOTH, f"Fernbank: {said}")

    (fault,) = caught.value.faults
    assert "Leave it out at this stop." in fault.cure
    assert "counts of what was planned there (take-off, syrup, strips), not " in fault.allowed


@pytest.mark.parametrize(
    ("said", "lost"),
    [
        ("24 colonies 40 boxes 176 litres strips", "boxes, litres"),
        ("2 brood boxes 24 fed", "brood boxes, fed"),
        ("0 boxes 24 boards", ""),
        ("24 colonies 4 blocks no strips", ""),
    ],
)
def test_words_that_count_for_nothing_at_a_stop_are_refused_together(said: str, lost: str) -> None:
    """On Thursday boards go on at the mill: honey and syrup were counted for another stop."""
    if not lost:
        assert did(counted(BOTH, f"Old Mill: {said}"), BOTH, "mill")
        return
    with pytest.raises(ScenarioError) as caught:
        counted(BOTH, f"Old Mill: {said}")

    (fault,) = caught.value.faults
    assert f"counts of what was planned there (boards on), not {lost}" == fault.allowed
