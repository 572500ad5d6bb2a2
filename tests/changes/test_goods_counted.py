"""Litres, blocks, boards and feeders as they are counted."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.trip import Action, Job
from runplanner.errors import ScenarioError
from runplanner.season.replan_season import replan_season
from tests.changes.counted import BOTH, MILL, call_at, counted, did, in_two_calls, shift_end
from tests.running import at, put_in, running_plan


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
