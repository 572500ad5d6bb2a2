"""True counts: what a driven stop did, what was aboard, and what the yard still holds."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.trip import Action, Job
from runplanner.errors import ScenarioError
from runplanner.outfit.stores import Strips
from runplanner.outfit.yards import Clearing
from tests.audit.feeder_plan import feeders_fetched
from tests.changes.counted import BOTH, LATE, MILL, again, call_at, counted, did, shift_end
from tests.running import at, put_in, running_plan


def test_fewer_colonies_off() -> None:
    """6 of 10 off with 11 boxes: no syrup, no strips then; 4 are left at the counted rate.

    11 / 6 x 10 = 18.3, so 18 boxes in all; ceil(6 x 18 / 10) = 11 of them belong to the 6
    that are off, just those counted, and 7 to the 4 that are not.
    """
    facts = counted(BOTH, "Fernbank: 6 colonies 11 boxes")
    done = did(facts, BOTH, "fernbank")

    assert {Job.TAKE_OFF} == set(done)
    assert (6, 11) == (done[Job.TAKE_OFF].colonies, done[Job.TAKE_OFF].boxes)
    assert 18 == facts.outfit.yard("fernbank").boxes
    assert (
        (
            "Fernbank: fewer colonies off than planned, so syrup and strips that were not counted "
            "are taken as not given; count litres and strips too where they were"
        ),
        "Fernbank: by this count 7 boxes are expected on the 4 colonies still on",
    ) == facts.notes


def test_what_was_told_of_syrup_and_strips_is_not_doubted() -> None:
    """Six were fed, and strips went nowhere: that was counted, and no note asks again."""
    facts = counted(BOTH, "Fernbank: 6 colonies 11 boxes 6 fed no strips")

    assert 6 == did(facts, BOTH, "fernbank")[Job.FEED].colonies
    assert not [note for note in facts.notes if "fewer colonies" in note]


def test_brushed_where_boards_had_not_gone_on() -> None:
    """The boards of the mill stayed on the truck, so it was brushed: no board comes back."""
    facts = put_in(
        f"done {BOTH} Old Mill: nothing", f"done {MILL} Old Mill: by brush",
        now=at(shift_end(MILL) + 60),
    )  # fmt: skip
    done = did(facts, MILL, "mill")[Job.TAKE_OFF]
    sent = call_at(running_plan(), MILL, "mill").after

    assert (Clearing.BRUSH, 0) == (done.way, done.boards_off)
    assert sent.boards - done.colonies == call_at(facts.plan, MILL, "mill").after.boards


@pytest.mark.parametrize(("trip", "yard"), [(MILL, "Old Mill"), (BOTH, "Old Mill")])
def test_a_way_is_said_where_it_can_be(trip: str, yard: str) -> None:
    """Boards that lie come back however bees are driven out; boards on is no take-off."""
    with pytest.raises(ScenarioError):
        put_in(f"done {trip} {yard}: by brush", now=at(shift_end(MILL) + 60))


def test_all_off_with_other_boxes() -> None:
    """All 10 off with 20 boxes: the yard has had 20, and all else is as planned."""
    facts = counted(BOTH, "Fernbank: 20 boxes")
    done = did(facts, BOTH, "fernbank")

    assert {Job.TAKE_OFF, Job.FEED, Job.STRIPS} == set(done)
    assert 20 == facts.outfit.yard("fernbank").boxes
    assert () == facts.notes


def test_strips_count_by_the_kind_of_their_yard() -> None:
    """Three pads of 50 g for each of ten colonies, two strips of 10 g at the other yard.

    Planned were 40 strips, 400 g; 20 strips and 30 pads are 1,700 g, 1,300 g more at the start.
    """
    plan = running_plan()
    pads = Strips("formic acid", 3, None, 7, 14, 0, "pads", each_g=50)
    yards = (replace(plan.outfit.yards[0], strips="pads"), *plan.outfit.yards[1:])
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards, strips_also=(pads,)))
    facts = put_in(f"done {BOTH} Fernbank: strips in", now="Fri 5 Mar 6:00", plan=plan)
    start, was = (each.shifts[0].trips[0].calls[0].after for each in (facts.plan, plan))

    assert Action(Job.STRIPS, 10, pieces=30) == did(facts, BOTH, "fernbank")[Job.STRIPS]
    assert (50, was.load_g + 1_300) == (start.strips, start.load_g)


@pytest.mark.parametrize("said", [0, 20])
def test_strips_are_all_or_none(said: int) -> None:
    """Two for each of ten colonies: any other number is some, whatever it may have meant."""
    facts = counted(BOTH, f"Fernbank: {said} strips")

    assert said == sum(one.pieces for one in did(facts, BOTH, "fernbank").values())
    for some in (1, 10, 19, 200):
        with pytest.raises(ScenarioError) as caught:
            counted(BOTH, f"Fernbank: {some} strips")
        (fault,) = caught.value.faults
        assert "20 strips, 2 for each of 10 colonies, or 'no strips'" == fault.allowed
        assert "where they ran out, write 'no strips'" in fault.cure


def test_strips_are_booked_as_told_where_colonies_died() -> None:
    """Two of ten died: before the stop, then 16 went in, or since, then 20."""
    first = again(put_in("dead 2 Fernbank", now=LATE))

    for said, pieces in (
        ("8 colonies strips", 16), ("8 colonies 16 strips", 16), ("8 colonies 20 strips", 20),
        ("10 colonies strips", 20), ("strips", 20), ("16 strips", 16), ("no strips", 0),
    ):  # fmt: skip
        facts = again(first, f"done {BOTH} Fernbank: {said}")
        assert pieces == sum(one.pieces for one in did(facts, BOTH, "fernbank").values()), said


def test_what_was_aboard_follows() -> None:
    """15 + 20 boxes of 16 kg on leaving Fernbank; what was not fed counts as never loaded.

    Planned were 30 boxes; 5 more are 80 kg.  Feeding 4 of 10 colonies saves 6 x 8.5 L =
    51 L of 1.327 kg at the start.
    """
    planned = call_at(running_plan(), BOTH, "fernbank").after
    more = call_at(counted(BOTH, "Fernbank: 20 boxes").plan, BOTH, "fernbank").after
    start = running_plan().shifts[0].trips[0].calls[0].after
    less = counted(BOTH, "Fernbank: 4 fed").plan.shifts[0].trips[0].calls[0].after

    assert (35, planned.load_g + 80_000) == (more.boxes, more.load_g)
    assert start.ml - 51_000 == less.ml
    assert start.load_g - less.load_g == pytest.approx(51 * 1327, abs=1)


def test_counts_of_every_kind() -> None:
    """Blocks, feeds by litres, strips or none, brood boxes, boards."""
    assert 7 == did(counted(BOTH, "Fernbank: 7 fed"), BOTH, "fernbank")[Job.FEED].colonies
    # A feed is 8.5 L a colony: 60 L are enough for 7 colonies, not for 8; 60 L are gone.
    litres = did(counted(BOTH, "Fernbank: 60 litres"), BOTH, "fernbank")[Job.FEED]
    assert (7, 60_000) == (litres.colonies, litres.ml)
    assert Job.STRIPS not in did(counted(BOTH, "Fernbank: no strips"), BOTH, "fernbank")
    given = did(counted(BOTH, "Fernbank: 6 colonies, 6 blocks and strips in"), BOTH, "fernbank")
    assert (6, 20) == (given[Job.BLOCK].pieces, given[Job.STRIPS].pieces)
    assert (
        3
        == did(counted(BOTH, "Fernbank: 3 brood boxes"), BOTH, "fernbank")[Job.TAKE_OFF].brood_boxes
    )
    boards = did(counted(BOTH, "Old Mill: 20 boards"), BOTH, "mill")[Job.BOARDS]
    assert (20, 20) == (boards.colonies, boards.pieces)
    assert 18 == did(counted(BOTH, "Old Mill: 18 hives"), BOTH, "mill")[Job.BOARDS].pieces


def test_nothing_done() -> None:
    """A stop that was not reached did nothing, and nothing of it was spun."""
    facts = counted(BOTH, "Fernbank: nothing", "Creek Mouth: 10 colonies 15 boxes")

    assert {} == did(facts, BOTH, "fernbank")
    assert 15 == facts.plan.spinning[0].boxes
    assert running_plan().outfit.yard("fernbank") == facts.outfit.yard("fernbank")


def test_no_more_is_spun_than_came() -> None:
    """Nothing came in: what was planned to be spun by now was not."""
    facts = counted(BOTH, "Fernbank: nothing", "Creek Mouth: nothing")

    assert running_plan().spinning[1:] == facts.plan.spinning


@pytest.mark.parametrize(
    ("action", "done"),
    [
        (Action(Job.FEED, 10, round=2, ml=85_000), Action(Job.FEED, 4, round=2, ml=34_000)),
        (Action(Job.BLOCK, 10, pieces=10), Action(Job.BLOCK, 4, pieces=4)),
    ],
)
def test_feeds_and_blocks_by_colonies(action: Action, done: Action) -> None:
    """At a stop that only feeds, colonies are those fed; at one for blocks, those given one."""
    plan = running_plan()
    last = plan.shifts[1]
    trip = last.trips[0]
    calls = tuple(
        replace(call, yard="fernbank", actions=(action,)) if call.yard else call
        for call in trip.calls
    )
    late = replace(last, trips=(replace(trip, calls=calls),))
    other = replace(plan, shifts=(plan.shifts[0], late))
    facts = put_in(f"done {MILL} Fernbank: 4 colonies", now=at(last.end_min), plan=other)

    assert {done.job: done} == did(facts, MILL, "fernbank")


def test_counted_as_planned_is_as_planned() -> None:
    """Counts that say what was planned change nothing of the plan or the facts."""
    facts = counted(BOTH, "Fernbank: 10 colonies 15 boxes 10 fed strips")

    assert (running_plan(), running_plan().outfit) == (facts.plan, facts.outfit)
    assert () == audit(facts.plan)


def test_feeders_fetched_are_counted() -> None:
    """Eight of ten came off, and so are aboard; none, and the job was not done; not eleven."""
    plan = feeders_fetched()

    def told(said: str) -> tuple[list[int], int]:
        call = (
            put_in(f"done fetch {said}", now=at(8640), plan=plan).plan.shifts[2].trips[0].calls[1]
        )
        return [action.feeders_off for action in call.actions], call.after.feeders

    assert ([8], 8) == told("Yard 1: 8 feeders")
    assert ([10], 10) == told("Yard 1: 10 colonies")
    assert ([], 0) == told("Yard 1: nothing")
    with pytest.raises(ScenarioError):
        told("Yard 1: 11 feeders")


def test_boards_may_be_counted_where_they_come_off() -> None:
    """The mill's take-off brings its boards back; at Fernbank there are none."""
    facts = put_in(f"done {MILL} Old Mill: 24 colonies 24 boards", now=at(shift_end(MILL) + 60))

    assert 24 == did(facts, MILL, "mill")[Job.TAKE_OFF].boards_off
    with pytest.raises(ScenarioError):
        counted(BOTH, "Fernbank: 10 colonies 10 boards")


def test_blocks_are_kept_where_the_plan_gives_none_by_the_rules() -> None:
    """With no blocks at take-offs the five that were given still count."""
    plan = running_plan()
    rules = replace(plan.outfit.rules, blocks=0)
    plan = replace(plan, outfit=replace(plan.outfit, rules=rules))
    now = at(shift_end(BOTH) + 60)
    facts = put_in(f"done {BOTH} Fernbank: 10 colonies 5 blocks", now=now, plan=plan)

    assert Action(Job.BLOCK, 5, pieces=5) == did(facts, BOTH, "fernbank")[Job.BLOCK]
