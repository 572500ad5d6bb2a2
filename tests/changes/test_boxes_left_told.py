"""Boxes that are told to be left in a yard."""

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.trip import Job
from runplanner.errors import ScenarioError
from runplanner.season.replan_season import replan_season
from tests.changes.counted import BOTH, LATE, again, did
from tests.running import at, put_in


def test_dead_colonies_after_a_part_is_off() -> None:
    """6 of 10 off with 9 boxes, the rate as planned: 6 boxes stay on 4.  2 more dead: 6 on 2.

    Of B boxes on 8 colonies ceil(6 x B / 8) belong to the 6; 24 - 18 = 6.
    """
    yard = put_in(
        f"done {BOTH} Fernbank: 6 colonies 9 boxes", "dead 2 Fernbank", now=at(5200)
    ).outfit.yard("fernbank")

    assert 8 == yard.colonies
    assert 6 == yard.boxes - -(-6 * yard.boxes // 8)


def test_boxes_left_after_a_part_is_off() -> None:
    """6 of 10 off; 12 boxes still stand there."""
    yard = put_in(
        f"done {BOTH} Fernbank: 6 colonies 9 boxes", "boxes left 12 Fernbank", now=at(5200)
    ).outfit.yard("fernbank")

    assert 12 == yard.boxes - -(-6 * yard.boxes // 10)


@pytest.mark.parametrize("said", ["6 colonies 9 boxes", "4 colonies 9 boxes", "nothing"])
def test_boxes_left_hold_when_a_stop_before_is_told_later(said: str) -> None:
    """12 boxes stand there, whatever came off before: in one run or two, in either order."""
    left, done = "boxes left 12 Fernbank", f"done {BOTH} Fernbank: {said}"
    part = put_in(f"done {BOTH} Fernbank: 5 colonies 8 boxes", left, now=LATE)
    both = put_in(left, done, now=LATE)
    found = [
        both,
        again(part, done),
        again(part, f"now {at(5800)}", done),
        again(put_in(done, now=LATE), left),
    ]
    off = 0 if said == "nothing" else int(said[0])

    assert {12} == {
        yard.boxes - -(-off * yard.boxes // 10)
        for yard in (one.outfit.yard("fernbank") for one in found)
    }
    assert 1 == len({one.outfit.yard("fernbank") for one in found})
    assert not any("expected on" in note for one in (part, both, found[1]) for note in one.notes)


def test_what_comes_off_after_boxes_were_left_is_counted_anew() -> None:
    """12 stood there before Red came; 6 of 10 have 9, so 6 are expected on the others."""
    before = put_in("boxes left 12 Fernbank", now="Thu 4 Mar 9:00")
    line = f"done {BOTH} Fernbank: 6 colonies 9 boxes"
    yard = again(before, f"now {LATE}", line).outfit.yard("fernbank")

    assert 6 == yard.boxes - -(-6 * yard.boxes // 10)


def test_boxes_left_on_colonies_that_are_off_are_not_fed_under() -> None:
    """All 10 are presumed off with 15 boxes: the line to type is told, 8 x 1.5 = 12 still on."""
    with pytest.raises(ScenarioError, match=r"so no visit fetches them") as refused:
        put_in("boxes left 12 Fernbank", now=at(5200))
    line = f"done {BOTH} Fernbank: 2 colonies 3 boxes"
    assert f"type '{line}' as well" in str(refused.value)

    facts = put_in(line, "boxes left 12 Fernbank", now=at(5200))
    assert {Job.TAKE_OFF} == set(did(facts, BOTH, "fernbank"))
    assert 15 == facts.outfit.yard("fernbank").boxes


@pytest.mark.parametrize("lines", [(), ("skip Fernbank",), ("home Red",)])
def test_boxes_left_where_a_truck_has_not_come_yet(lines: tuple[str, ...]) -> None:
    """Red is on its way to Fernbank: all boxes stand there still, also where it is left out."""
    left = "boxes left 12 Fernbank"
    facts = put_in(left, *lines, now="Thu 4 Mar 9:00")
    first = again(put_in(*lines, now="Thu 4 Mar 9:00"), left)
    note = (
        "Fernbank: a truck that is out is still to take 15 boxes off there; that counts as "
        "planned until it is counted"
    )

    assert 12 == facts.outfit.yard("fernbank").boxes
    assert facts.outfit == first.outfit
    assert (not lines) == (note in facts.notes) == (note in first.notes)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1, proof=False)
    assert () == audit(new, facts.plan)
    counted_so = again(facts, f"done {BOTH} Fernbank: 10 colonies 12 boxes") if not lines else facts
    assert 12 == counted_so.outfit.yard("fernbank").boxes


def test_boxes_left_where_no_colony_lives_are_fetched_by_hand() -> None:
    """All dead, with their boxes on: no visit is planned, nor asked for."""
    with pytest.raises(ScenarioError, match="No living colony has them on"):
        put_in("dead 24 Old Mill", "boxes left 12 Old Mill", now=at(0))


@pytest.mark.parametrize(
    ("left", "counts"), [(14, "1 colonies 1 boxes"), (3, "8 colonies 12 boxes")]
)
def test_where_all_colonies_were_off_the_cure_holds(left: int, counts: str) -> None:
    """15 boxes of 10 colonies counted as off: those not left came off one colony at least."""
    line = f"boxes left {left} Fernbank"
    with pytest.raises(ScenarioError) as caught:
        put_in(line, now=LATE)
    (fault,) = caught.value.faults
    cure = f"done {BOTH} Fernbank: {counts}"

    assert f"'{cure}'" in fault.cure
    yard = put_in(cure, line, now=LATE).outfit.yard("fernbank")
    assert left == yard.boxes - -(-int(counts.split(maxsplit=1)[0]) * yard.boxes // 10)
