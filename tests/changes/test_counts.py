"""True counts: what a driven stop did, what was aboard, and what the yard still holds."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.counts.boxes import still_there
from runplanner.changes.said.shared_out import shared_out
from runplanner.changes.typed import Changed
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Action, Call, Job
from runplanner.errors import ScenarioError
from runplanner.outfit.stores import Strips
from runplanner.outfit.yards import Clearing, Health
from runplanner.season.replan_season import replan_season
from tests.audit.feeder_plan import feeders_fetched
from tests.audit.planted import edited
from tests.running import at, feeds_fernbank_on_friday, put_in, running_outfit, running_plan

BOTH = "0304-truck2-0716"
"""Boards on at the mill, then Creek Mouth and Fernbank off, fed and given strips."""
LATE = "Thu 4 Mar 18:00"
MILL = "0305-truck2-0715"


def counted(trip: str, *lines: str) -> Changed:
    """The campaign an hour after ``trip`` is over, with counts for it."""
    shift = next(s for s in running_plan().shifts for t in s.trips if t.id == trip)
    said = [f"done {trip} {line}" for line in lines]
    return put_in(*said, now=at(shift.end_min + 60))


def shift_end(trip: str) -> int:
    """When the truck of a trip is home."""
    return next(s.end_min for s in running_plan().shifts for t in s.trips if t.id == trip)


def call_at(plan: Plan, trip: str, yard: str) -> Call:
    """The call of a trip at a yard."""
    trips = (one for shift in plan.shifts for one in shift.trips if one.id == trip)
    return next(call for one in trips for call in one.calls if call.yard == yard)


def did(facts: Changed, trip: str, yard: str) -> dict[Job, Action]:
    """What was done at a stop, by job."""
    return {action.job: action for action in call_at(facts.plan, trip, yard).actions}


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


def in_two_calls(*first: Job) -> Plan:
    """The campaign with Fernbank called at twice by one trip: ``first`` jobs, then the others."""

    def split(calls: tuple[Call, ...]) -> tuple[Call, ...]:
        *before, call, last = calls
        half = (call.start_min + call.end_min) // 2
        mine = tuple(one for one in call.actions if one.job in first)
        others = tuple(one for one in call.actions if one.job not in first)
        parts = (
            replace(call, end_min=half, leave_min=half, actions=mine),
            replace(call, arrive_min=half, start_min=half, actions=others),
        )
        return (*before, *parts, last)

    plan = running_plan()
    shift, trip = next((s, t) for s in plan.shifts for t in s.trips if t.id == BOTH)
    at_both = f"shifts.{plan.shifts.index(shift)}.trips.{shift.trips.index(trip)}"
    return edited(plan, {f"{at_both}.calls": split})


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


@pytest.mark.parametrize(
    ("said", "fed", "ml", "note"),
    [
        ("85 litres", 10, 85_000, ""),
        ("81 litres", 10, 81_000,
         "81 litres are near enough to the 85 planned: all 10 colonies count"),
        ("80 litres", 9, 80_000,
         "80 litres are read as 9 of 10 colonies fed, at 8.5 litres each; write"),
        ("80 litres 10 fed", 10, 80_000, ""),
        ("93 litres", 10, 93_000, ""),
        ("94 litres 10 fed", 10, 94_000, ""),
        ("9 fed", 9, 76_500, ""),
        ("0 litres", 0, 0, ""),
        ("85.0 L", 10, 85_000, ""),
        ("80.7 litres", 9, 80_700, "80.7 litres are read as 9 of 10 colonies fed"),
        ("80,75 L", 9, 80_750, "80.75 litres are read as 9 of 10 colonies fed"),
        ("80.76 l", 10, 80_760, "80.76 litres are near enough to the 85 planned"),
        ("59.5L", 7, 59_500, "59.5 litres are read as 7 of 10 colonies fed"),
    ],
)  # fmt: skip
def test_litres_a_trifle_low_feed_all(said: str, fed: int, ml: int, note: str) -> None:
    """10 colonies have 8.5 L each: 81 of 85 L lack less than the 4.25 L of half a portion.

    The store has as much less as was told, whatever was spilt.
    """
    facts = counted(BOTH, f"Fernbank: {said}")
    done = did(facts, BOTH, "fernbank").get(Job.FEED)

    assert (fed, ml) == ((done.colonies, done.ml) if done else (0, 0))
    assert bool(note) == len(facts.notes)
    assert all(one.startswith(f"Fernbank: {note}") for one in facts.notes)


@pytest.mark.parametrize("first", [(), (Job.TAKE_OFF,)])
@pytest.mark.parametrize(("litres", "fed"), [(68, 6), (34, 4), (85, 6)])
def test_a_note_on_litres_says_what_is_booked(
    first: tuple[Job, ...], litres: int, fed: int
) -> None:
    """68 L are eight portions of 8.5 L, but six colonies are off: six are fed, and are said."""
    facts = put_in(
        f"done {BOTH} Fernbank: 6 colonies 11 boxes {litres} litres",
        now=at(shift_end(BOTH) + 60),
        plan=in_two_calls(*first) if first else None,
    )
    (feed,) = (
        one for shift in facts.plan.shifts for trip in shift.trips if trip.id == BOTH
        for call in trip.calls if call.yard == "fernbank"
        for one in call.actions if one.job is Job.FEED
    )  # fmt: skip

    assert (fed, fed * 8_500) == (feed.colonies, feed.ml)
    assert (
        f"Fernbank: {litres} litres are read as {fed} of 10 colonies fed, at 8.5 litres each; "
        "no more than 6 could be"
    ) in facts.notes


def test_more_litres_than_all_feeders_held_are_asked_about() -> None:
    """94 L are eleven portions for ten colonies: too many, or more poured than planned."""
    with pytest.raises(ScenarioError) as caught:
        counted(BOTH, "Fernbank: 94 litres")

    assert "write '10 fed' beside litres" in caught.value.faults[0].cure


def test_no_more_litres_are_poured_than_feeders_hold() -> None:
    """Ten feeders of 10 L: a hundred litres may have been poured, not a digit more."""
    assert 100_000 == did(counted(BOTH, "Fernbank: 10 fed 100 L"), BOTH, "fernbank")[Job.FEED].ml
    with pytest.raises(ScenarioError) as caught:
        counted(BOTH, "Fernbank: 10 fed 850 L")

    assert "at most 100 litres: feeders here hold 10 litres each" == caught.value.faults[0].allowed


@pytest.mark.parametrize(("fed", "litres", "most"), [(4, 50, 40), (0, 60, 0)])
def test_litres_of_some_are_what_their_feeders_hold(fed: int, litres: int, most: int) -> None:
    """Four feeders of 10 L hold no fifty litres; where none was fed nothing was poured."""
    with pytest.raises(ScenarioError) as caught:
        counted(BOTH, f"Fernbank: {fed} fed {litres} L")

    assert f"at most {most} litres: feeders here hold" in caught.value.faults[0].allowed


def test_what_is_in_store_moves_by_the_litres_told() -> None:
    """Of 85 L 80 were poured, nine portions of 8.5 L and 3.5 L more: 5 L stay in store, not 8.5."""
    planned, told = (
        put_in(*lines, now=at(shift_end(BOTH) + 60))
        for lines in ((), (f"done {BOTH} Fernbank: 80 L",))
    )
    was, now = (one.plan.shifts[0].trips[0].calls[0].after.ml for one in (planned, told))
    assert 5_000 == was - now
    new = replan_season(told.plan, told.outfit, told.now_min, rounds=0)
    assert () == audit(new, told.plan)


def test_boards_come_back_with_the_colonies() -> None:
    """14 of 24 colonies off under boards bring 14 boards back."""
    facts = counted(MILL, "Old Mill: 14 colonies 25 boxes 14 blocks (rain)")
    off = did(facts, MILL, "mill")[Job.TAKE_OFF]

    assert 14 == off.boards_off == call_at(facts.plan, MILL, "mill").after.boards


@pytest.mark.parametrize(("blocks", "colonies"), [(5, 5), (10, 10), (15, 10), (20, 10), (30, 10)])
def test_blocks_beyond_one_a_colony_are_given_to_the_same_colonies(
    blocks: int, colonies: int
) -> None:
    """Ten come off: no more than ten can have got blocks, however many were given."""
    facts = counted(BOTH, f"Fernbank: 10 colonies {blocks} blocks")

    given = did(facts, BOTH, "fernbank")[Job.BLOCK]
    assert Action(Job.BLOCK, colonies, pieces=blocks) == given


@pytest.mark.parametrize(
    ("planned", "blocks", "colonies"),
    [(8, 4, 4), (8, 8, 8), (8, 16, 8), (8, 9, 9), (8, 24, 8), (24, 17, 8), (24, 23, 8), (24, 7, 7)],
)
def test_further_blocks_told_are_shared_by_those_planned_for(
    planned: int, blocks: int, colonies: int
) -> None:
    """Eight of ten were to get one each: twice as many are two each, nine go to nine colonies.

    Where they were to get three each, 17 are two each and one that counts for none.
    """
    plan = running_plan()
    last = plan.shifts[1]
    trip = last.trips[0]
    again = (Action(Job.BLOCK, 8, pieces=planned),)
    calls = tuple(
        replace(call, yard="fernbank", actions=again) if call.yard else call for call in trip.calls
    )
    late = replace(last, trips=(replace(trip, calls=calls),))
    other = replace(plan, shifts=(plan.shifts[0], late))
    facts = put_in(f"done {MILL} Fernbank: {blocks} blocks", now=at(last.end_min), plan=other)

    given = did(facts, MILL, "fernbank")[Job.BLOCK]
    assert Action(Job.BLOCK, colonies, pieces=blocks) == given


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


def again(facts: Changed, *lines: str) -> Changed:
    """Counts put into the plan that was made after earlier ones, as its file has it."""
    plan = replace(facts.plan, outfit=facts.outfit, now_min=facts.now_min)
    return put_in(*lines, plan=plan_from_text(plan_text(plan)))


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

    assert {(BOTH, "mill"), (BOTH, "creek-mouth"), (BOTH, "fernbank")} == set(first.presumed)
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

    assert plain.notes == mended.notes
    assert any(note.startswith("Creek Mouth: by this count") for note in mended.notes)
