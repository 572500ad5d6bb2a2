"""Counts at yards where colonies have died."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.counts.boxes import still_there
from runplanner.daybook.trip import Action, Job
from runplanner.errors import ScenarioError
from runplanner.season.replan_season import replan_season
from tests.changes.counted import BOTH, LATE, MILL, again, call_at, counted, did, shift_end
from tests.running import at, put_in


def test_what_was_planned_is_believed_where_colonies_died_since() -> None:
    """One colony of ten is left with all 15 boxes, more than 12: they come off, and are told."""
    dead = put_in("dead 9 Fernbank", now="Mon 1 Mar 8:00")
    plan = replan_season(dead.plan, dead.outfit, dead.now_min, rounds=1, proof=False)
    shift = next(s for s in plan.shifts for t in s.trips for c in t.yards() if c.yard == "fernbank")
    trip = next(t for t in shift.trips for c in t.yards() if c.yard == "fernbank")
    line = f"done {trip.id} Fernbank: 1 colony 15 boxes"
    facts = put_in(line, now=at(shift.end_min), plan=plan)

    assert 15 == did(facts, trip.id, "fernbank")[Job.TAKE_OFF].boxes


@pytest.mark.parametrize("gone", [3, 10])
@pytest.mark.parametrize(
    "line",
    ["skip Fernbank", "home Red", f"done {BOTH} Fernbank: nothing",
     f"done {BOTH} Fernbank: 7 colonies 11 boxes", f"done {BOTH} Fernbank: 5 colonies 8 boxes",
     f"done {BOTH} Fernbank: 10 colonies 15 boxes", f"done {BOTH} Fernbank: 10 colonies 13 boxes"],
)  # fmt: skip
def test_deaths_and_what_was_done_may_be_told_in_any_order(line: str, gone: int) -> None:
    """Red is on its way to Fernbank, which counts as done by the plan until it is told."""
    dead, now = f"dead {gone} Fernbank", "Thu 4 Mar 9:00"
    found = [
        put_in(dead, line, now=now),
        again(put_in(dead, now=now), line),
        again(put_in(line, now=now), dead),
        again(put_in(dead, line, now=now)),
    ]

    assert 1 == len({replace(one.outfit.yard("fernbank"), struck=0) for one in found})
    assert 1 == len({one.by_hand for one in found})


@pytest.mark.parametrize(
    ("line", "left"),
    [("4 colonies 8 boxes", 12), ("4 colonies 8 boxes, no strips", 12), ("5 colonies 8 boxes", 7),
     ("6 colonies 12 boxes", 8), ("nothing", 15)],
)  # fmt: skip
@pytest.mark.parametrize("known", ["dead first", "dead since", "dead by and by"])
def test_boxes_of_the_dead_stay_there_when_a_stop_is_counted_anew(
    known: str, line: str, left: int
) -> None:
    """At first four of ten came off with 8 of 20 boxes: 12 are on the six, of whom three die.

    Counted anew, five with 8 (of 15, as planned) leave 7 on five, six with 12 leave 8 on four.
    """
    dead, first = "dead 3 Fernbank", f"done {BOTH} Fernbank: 4 colonies 8 boxes"
    by_and_by = ("dead 1 Fernbank", first, "dead 1 Fernbank", "dead 1 Fernbank")
    order = {"dead first": (dead, first), "dead since": (first, dead), "dead by and by": by_and_by}
    facts = put_in(now=LATE)
    for one in (*order[known], f"done {BOTH} Fernbank: {line}"):
        facts = again(facts, one)
    fernbank = facts.outfit.yard("fernbank")
    off = did(facts, BOTH, "fernbank").get(Job.TAKE_OFF, Action(Job.TAKE_OFF, 0)).colonies

    assert (7, left) == (fernbank.colonies, still_there(fernbank, off))
    assert (0, facts.outfit) == (fernbank.struck, again(facts).outfit)


@pytest.mark.parametrize(
    ("line", "left"),
    [("", 0), ("3 colonies 12 boxes", 0), ("3 colonies 10 boxes", 0), ("nothing", 12),
     ("2 colonies 8 boxes", 4), ("1 colony 4 boxes", 8), ("1 colony 3 boxes", 7)],
)  # fmt: skip
def test_a_trip_after_the_deaths_takes_the_boxes_of_the_dead(line: str, left: int) -> None:
    """Four of ten off with 8 boxes, three dead: the next trip is for 12 boxes on three, four each.

    One with three makes 19 on five, by four on each of the first four: 7 are left on two.
    """
    first = f"done {BOTH} Fernbank: 4 colonies 8 boxes"
    told = put_in("dead 3 Fernbank", first, now=LATE)
    plan = replan_season(told.plan, told.outfit, told.now_min, rounds=1, proof=False)
    trip, end = next(
        (trip, shift.end_min)
        for shift in plan.shifts for trip in shift.trips for call in trip.yards()
        if call.yard == "fernbank" and not trip.driven
    )  # fmt: skip
    count = f"done {trip.id} Fernbank: {line}"
    counts = [count] if line else []
    some = put_in(*(f"done {trip.id} Fernbank: 2 colonies 9 boxes" for _ in counts),
                  now=at(end), plan=plan)  # fmt: skip
    found = [again(some, *counts), again(some, first, *counts)]
    found += [again(found[0], first), again(found[1], *counts)]

    assert 12 == call_at(plan, trip.id, "fernbank").boxes()
    for facts in found:
        stops = did(facts, BOTH, "fernbank"), did(facts, trip.id, "fernbank")
        off = sum(one[Job.TAKE_OFF].colonies for one in stops if Job.TAKE_OFF in one)
        assert (left, ()) == (still_there(facts.outfit.yard("fernbank"), off), facts.by_hand)
    assert not line or 1 == len({one.outfit.yard("fernbank") for one in found})


def test_boxes_of_the_dead_are_told_until_they_are_fetched() -> None:
    """15 on ten dead colonies that nobody came to; of 15 on ten, five off, none live: 7."""
    left = put_in("dead 10 Fernbank", "skip Fernbank", now="Thu 4 Mar 9:00")
    some = again(put_in("dead 10 Fernbank", now=LATE), f"done {BOTH} Fernbank: 5 colonies 8 boxes")
    part = again(put_in("dead 5 Fernbank", now=LATE), f"done {BOTH} Fernbank: 5 colonies 8 boxes")
    fetched = again(left, "boxes left 0 Fernbank")

    for facts, boxes in ((left, 15), (again(left), 15), (some, 7), (part, 7)):
        assert facts.by_hand[0].startswith(f"Fernbank: {boxes} honey boxes; where no living")
        assert facts.by_hand[0].endswith("once all is fetched, type 'boxes left 0 Fernbank'")
    assert () == fetched.by_hand == again(fetched).by_hand


@pytest.mark.parametrize("health", ["suspect Fernbank", "standstill Fernbank, feed agreed"])
def test_boxes_of_the_dead_stay_where_nothing_may_leave(health: str) -> None:
    """Six of ten off with 9 boxes, four dead with 6: honey is on, so nobody feeds beside it."""
    count = f"done {BOTH} Fernbank: 6 colonies 9 boxes"
    shut = put_in(count, "dead 4 Fernbank", health, now=LATE)
    gone = again(shut, "boxes left 0 Fernbank")
    sound = again(shut, "sound Fernbank")
    agreed = "agreed" in health

    assert shut.by_hand[0].startswith("Fernbank: 6 honey boxes; nothing leaves a yard that")
    assert shut.by_hand[0].endswith("once it is gone, type 'boxes left 0 Fernbank'")
    assert sound.by_hand[0].startswith("Fernbank: 6 honey boxes; where no living")
    assert () == gone.by_hand
    yards = [one.outfit.yard("fernbank") for one in (shut, gone)]
    assert [(False, True), (agreed, not agreed)] == [(y.honey_off, y.left_alone) for y in yards]


def test_colonies_that_died_after_their_honey_was_off_leave_none() -> None:
    """All ten were off with all boxes: four dead since leave no honey, so the rest may be fed."""
    facts = put_in("dead 4 Fernbank", "standstill Fernbank, feed agreed", now=LATE)
    fernbank = facts.outfit.yard("fernbank")

    assert (4, True, False) == (fernbank.struck, fernbank.honey_off, fernbank.left_alone)
    assert () == facts.by_hand


@pytest.mark.parametrize("gone", [3, 10])
def test_a_stop_is_counted_as_planned_where_colonies_died_since(gone: int) -> None:
    """All ten came off and were fed in the morning; that some are dead by night is told first."""
    dead = put_in(f"dead {gone} Fernbank", now=LATE)
    line = f"done {BOTH} Fernbank:"
    facts = again(dead, f"{line} 10 colonies 15 boxes 10 fed")
    less = again(dead, f"{line} 10 colonies 14 boxes 9 fed")
    nothing = again(less, f"{line} nothing")

    assert (dead.plan.shifts, dead.outfit) == (facts.plan.shifts, facts.outfit)
    assert 14 == did(less, BOTH, "fernbank")[Job.TAKE_OFF].boxes
    assert 9 == did(less, BOTH, "fernbank")[Job.FEED].colonies
    assert 15 == nothing.outfit.yard("fernbank").boxes
    assert {10 - gone} == {one.outfit.yard("fernbank").colonies for one in (facts, less, nothing)}
    for more in ("11 colonies", "11 fed"):
        with pytest.raises(ScenarioError, match="at most the 10 colonies planned there"):
            again(dead, f"{line} {more}")


@pytest.mark.parametrize("gone", [2, 24])
@pytest.mark.parametrize("more", ["", " 204 litres", " strips", " 24 fed 48 strips"])
def test_a_stop_is_counted_alike_before_and_after_deaths_since(more: str, gone: int) -> None:
    """All 24 came off their 24 boards and were fed, at 8.5 L; some are dead by night."""
    now = at(shift_end(MILL) + 60)
    line = f"done {MILL} Old Mill: 24 colonies 39 boxes{more}"
    dead = f"dead {gone} Old Mill"
    after, both = again(put_in(dead, now=now), line), put_in(dead, line, now=now)

    assert both.plan.shifts == after.plan.shifts
    assert () == after.notes == both.notes
    assert 24 == did(after, MILL, "mill")[Job.TAKE_OFF].boards_off
    assert 48 == did(after, MILL, "mill")[Job.STRIPS].pieces


@pytest.mark.parametrize("strips", ["strips", "46 strips"])
@pytest.mark.parametrize("count_first", [True, False])
def test_a_death_told_beside_a_count_was_before_that_stop(
    strips: str, *, count_first: bool
) -> None:
    """One of 24 was found dead: 23 off, fed 8.5 L each and given two strips, 24 boards lifted.

    So it is when the death is told an hour before; 48 strips had been booked.
    """
    now = at(shift_end(MILL) + 60)
    line, dead = f"done {MILL} Old Mill: 23 colonies 39 boxes {strips}", "dead 1 Old Mill"
    facts = put_in(*((line, dead) if count_first else (dead, line)), now=now)
    before = again(put_in(dead, now=now), line)
    done = did(facts, MILL, "mill")

    assert (before.plan.shifts, before.outfit) == (facts.plan.shifts, facts.outfit)
    assert () == before.notes == facts.notes
    assert (23, 46) == (done[Job.STRIPS].colonies, done[Job.STRIPS].pieces)
    assert (23, 195_500) == (done[Job.FEED].colonies, done[Job.FEED].ml)
    assert (23, 24) == (done[Job.TAKE_OFF].colonies, done[Job.TAKE_OFF].boards_off)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    assert () == audit(new, facts.plan)
    assert () == new.undone


def test_too_few_strips_ask_for_the_dead() -> None:
    """46 strips of 48 are those of 23 colonies; 45 are no colonies' strips."""
    for said, asks in ((46, True), (45, False)):
        with pytest.raises(ScenarioError) as caught:
            counted(MILL, f"Old Mill: 23 colonies 39 boxes {said} strips")
        assert asks is ("type 'dead 1 Old Mill' as well" in caught.value.faults[0].cure)


@pytest.mark.parametrize(("off", "boards"), [(24, 24), (22, 24), (20, 22), (0, 0)])
def test_boards_come_back_as_they_lay_where_colonies_died(off: int, boards: int) -> None:
    """Of 24 two are dead: those on the living who stay on are left, all others come back."""
    dead = put_in("dead 2 Old Mill", now=at(shift_end(MILL) + 60))
    done = did(again(dead, f"done {MILL} Old Mill: {off} colonies"), MILL, "mill")

    assert boards == (done[Job.TAKE_OFF].boards_off if off else 0)
