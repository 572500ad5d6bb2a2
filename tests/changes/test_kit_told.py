"""Boards and feeders lost or counted on the way: what was driven had them, the rest has not."""

from dataclasses import replace
from functools import cache

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Action, Job
from runplanner.errors import Fault, ScenarioError
from runplanner.outfit.stores import Kit
from runplanner.season.plan_season import plan_season
from runplanner.season.replan_season import replan_season
from runplanner.season.standing.stores import never_short, who_is_short
from tests.running import at, put_in, running_plan
from tests.season.test_feeders import calls, scarce

NOON = at(4 * 1440 + 720)
"""The mill's 24 boards went on the day before and are in since 6240 + its visit: all are home."""


def few_boards() -> Plan:
    """The running plan of an outfit that owns just the boards the mill takes."""
    plan = running_plan()
    return replace(plan, outfit=replace(plan.outfit, kit=replace(plan.outfit.kit, boards_owned=24)))


@cache
def going_round() -> Plan:
    """Ten feeders, two yards of ten colonies: the first yard's are fetched for the second."""
    return plan_season(scarce(10), rounds=30, proof=False)


def fault_of(line: str, plan: Plan, now: str = "") -> Fault:
    """The one fault of a line."""
    with pytest.raises(ScenarioError) as caught:
        put_in(line, now=now, plan=plan)
    (fault,) = caught.value.faults
    return fault


def test_more_boards_lost_than_there_are_is_a_fault() -> None:
    """24 are there; 5 lost and then 20 more are one too many."""
    fault = fault_of("boards lost 25", few_boards())
    assert ("at most the 24 boards there are", True) == (fault.allowed, bool(fault.cure))

    now = put_in("boards lost 5", now=NOON, plan=few_boards())
    again = replace(now.plan, outfit=now.outfit)
    assert "at most the 19 boards there are" == fault_of("boards lost 20", again, NOON).allowed


def test_boards_that_turn_up_again_are_there_for_the_next_trip() -> None:
    """Twenty lost before the mill's trip, and 20 found or bought the same day: all is done."""
    lost = put_in("boards lost 20", now=at(60), plan=few_boards())
    found = put_in("boards found 12", "boards bought 8", now=at(90), plan=replace(
        lost.plan, outfit=lost.outfit, now_min=lost.now_min
    ))  # fmt: skip
    new = replan_season(found.plan, found.outfit, found.now_min, rounds=2, proof=False)

    assert 24 == found.outfit.kit.boards_now
    assert ((), ()) == (audit(new, found.plan), new.undone)


def test_boards_lost_on_the_way_were_there_before() -> None:
    """All 24 lay at the mill on Thursday; that 20 are lost on Friday breaks no rule of Thursday.

    Were the four that are left taken for all there ever were, nothing could be planned any more.
    """
    facts = put_in("boards lost 20", now=NOON, plan=few_boards())
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1, proof=False)
    kit = facts.outfit.kit

    assert (24, 4, ((facts.now_min, 20),)) == (kit.boards_owned, kit.boards_now, kit.boards_lost)
    assert () == audit(new, facts.plan)
    assert (facts.plan.tally, len(facts.plan.shifts)) == (new.tally, len(new.shifts))
    assert new == plan_from_text(plan_text(new))


def test_the_audit_counts_what_is_lost() -> None:
    """Twenty boards lost before the mill's trip loads 24 of 24: four are at the store."""
    plan = few_boards()
    early = replace(plan.outfit.kit, boards_lost=((60, 20),))
    found = audit(replace(plan, outfit=replace(plan.outfit, kit=early)))

    assert ["boards owned"] == [finding.rule for finding in found]
    assert "the 4 at the store" == found[0].allowed


def test_boards_lost_before_their_trip_leave_the_mill_in_lots_or_undone() -> None:
    """The plan made again keeps the rule: no trip loads boards that are gone."""
    facts = put_in("boards lost 20", now=at(60), plan=few_boards())
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=2, proof=False)

    assert [] == [f.sentence() for f in audit(new, facts.plan) if f.rule != "undone"]


def test_feeders_lost_leave_fewer_to_go_round() -> None:
    """Four of ten lost once all are out: the second yard is fed in lots or not, never with ten."""
    plan = going_round()
    now = at(calls(plan, Job.FEED)[0].end_min + 60)
    facts = put_in("feeders lost 4", now=now, plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=2, proof=False)
    later = [c for c in calls(new, Job.FEED) if c.start_min > facts.now_min]

    assert (10, 6) == (facts.outfit.kit.feeders_owned, facts.outfit.kit.feeders_now)
    assert [] == [f.sentence() for f in audit(new, facts.plan) if f.rule != "undone"]
    assert all(sum(a.feeders for a in c.actions) <= 6 for c in later)


@pytest.mark.parametrize(
    ("line", "kit"),
    [("feeders left 7", (10, 7)), ("feeders left 12", (12, 12)), ("feeders lost 3", (10, 7))],
)
def test_feeders_told_before_any_are_out(line: str, kit: tuple[int, int]) -> None:
    """All ten are at the store on the first morning; more than ten is noted."""
    facts = put_in(line, now=at(30), plan=going_round())

    assert kit == (facts.outfit.kit.feeders_owned, facts.outfit.kit.feeders_now)
    assert ("12" in line) == any("12 left are more than the 10" in note for note in facts.notes)


def test_feeders_left_hold_whatever_is_told_lost_beside() -> None:
    """Nine are counted in store, one is told lost: nine of ten are there, in either order."""
    lines = ("feeders lost 1", "feeders left 9")
    first, other = (put_in(*two, now=at(30), plan=going_round()) for two in (lines, lines[::-1]))

    assert (9, first.outfit) == (first.outfit.kit.feeders_now, other.outfit)


def test_feeders_left_are_those_at_the_store() -> None:
    """With ten in a yard none are at the store: two found there make twelve."""
    plan = going_round()
    now = at(calls(plan, Job.FEED)[0].end_min + 60)

    assert 12 == put_in("feeders left 2", now=now, plan=plan).outfit.kit.feeders_owned
    assert 10 == put_in("feeders left 0", now=now, plan=plan).outfit.kit.feeders_now


def test_what_was_lost_in_yards_stays_lost_when_the_store_is_counted_empty() -> None:
    """Four of 24 boards, or of ten feeders, while all are out; the count had found them again."""
    plan = going_round()
    now = at(calls(plan, Job.FEED)[0].end_min + 60)
    boards, night = ("boards lost 4", "boards left 0"), "Thu 4 Mar 18:00"
    once = put_in(*boards, now=night, plan=few_boards())
    before = put_in(boards[0], now=night, plan=few_boards())
    after = put_in(
        boards[1], now="Thu 4 Mar 19:00", plan=replace(before.plan, outfit=before.outfit)
    )

    assert [20, 20] == [one.outfit.kit.boards_now for one in (once, after)]
    feeders = put_in("feeders lost 4", "feeders left 0", now=now, plan=plan)
    assert 6 == feeders.outfit.kit.feeders_now


@pytest.mark.parametrize("line", ["feeders left 4", "feeders lost 1"])
def test_feeders_where_each_hive_has_its_own_are_a_fault(line: str) -> None:
    """There is nothing to count them off from, and the cure says so."""
    fault = fault_of(line, running_plan(), NOON)

    assert "feeders only where they go from yard to yard" == fault.allowed
    assert "plan anew" in fault.cure


def test_more_feeders_lost_than_there_are_is_a_fault() -> None:
    """Eleven of ten."""
    fault = fault_of("feeders lost 11", going_round())
    assert "at most the 10 feeders there are" == fault.allowed


def test_more_left_than_the_plan_knew_is_noted() -> None:
    """5,000 blocks of 1,000, sugar and strips where a number was typed; fewer is no note."""
    plan = running_plan()
    kit = replace(plan.outfit.kit, blocks_owned=100)
    strips, feed = replace(plan.outfit.strips, stock=90), replace(plan.outfit.feed, sugar_g=10_000)
    plan = replace(plan, outfit=replace(plan.outfit, kit=kit, strips=strips, feed=feed))
    more = ("blocks left 101", "strips left 91", "sugar left 11 kg", "syrup left 90000 L")
    less = ("blocks left 99", "strips left 90", "sugar left 9 kg", "syrup left 0 L")

    assert 4 == len([n for n in put_in(*more, plan=plan).notes if "more than the" in n])
    assert () == tuple(n for n in put_in(*less, plan=plan).notes if "more than the" in n)


def test_a_loss_takes_nothing_that_was_not_there() -> None:
    """Ten out, four of them lost while out: six come home, and six may go; seven may not."""
    one, other = (0, 0), (0, 1)
    moves = [(10, -10, one), (100, 6, one)]

    assert never_short(10, moves, [(50, 4)])
    assert not never_short(10, [*moves, (200, -7, other)], [(50, 4)])
    assert not never_short(10, [*moves, (200, -3, other)], [(50, 8)])


def test_a_truck_that_is_out_may_take_what_is_not_there_and_others_nothing_of_it() -> None:
    """Five are lost of ten while ten are to be loaded at 100: a fact, where that truck has left.

    At 50 nothing is left for another, nor at 150; at 250 the five that came home are.
    """
    out, other, lost = (0, 0), (0, 1), [(20, 5)]
    moves = [(100, -10, out), (200, 10, out)]

    assert not never_short(10, moves, lost)
    assert never_short(10, moves, lost, {out})
    assert not never_short(10, [*moves, (50, -1, other)], lost, {out})
    assert other == who_is_short(10, [*moves, (50, -1, other)], lost, {out})
    assert not never_short(10, [*moves, (150, -1, other)], lost, {out})
    assert never_short(10, [*moves, (250, -5, other)], lost, {out})
    assert not never_short(10, [*moves, (250, -6, other)], lost, {out})


def test_kit_counts_what_is_still_there() -> None:
    """Losses add up; None stays None."""
    kit = Kit(1, 30, 1, 1, 1, 1, 1, None, 1, 1, boards_lost=((5, 3), (9, 4)))

    assert (23, None) == (kit.boards_now, kit.feeders_now)
    assert 28 == replace(kit, feeders_owned=30, feeders_lost=((1, 2),)).feeders_now


def test_what_a_later_trip_of_the_day_loads_is_still_in_store() -> None:
    """Red's Thursday twice over, the second time ten hours later: at 11:00 one load has gone.

    That is 170 L, mixed before, 40 strips and 10 blocks. At 18:00 it is two: 340 L of the 374 L
    mixed by then, so that 34 L should stand there; with 50 L 16 L stood ready at first.
    """
    plan = running_plan()
    shift = plan.shifts[0]
    block = (Action(Job.BLOCK, 10, pieces=10),)
    once = replace(shift.trips[0], calls=tuple(
        replace(call, actions=(*call.actions, *(block if call.yard == "fernbank" else ())))
        for call in shift.trips[0].calls
    ))  # fmt: skip
    times = ("arrive_min", "start_min", "end_min", "leave_min", "latest_leave_min")
    twice = replace(once, id="second", calls=tuple(
        replace(call, **{name: getattr(call, name) + 600 for name in times}) for call in once.calls
    ))  # fmt: skip
    shift = replace(shift, trips=(once, twice), end_min=shift.end_min + 600)
    plan = replace(plan, shifts=(shift, *plan.shifts[1:]))
    lines = ("syrup left 50 L", "strips left 12", "blocks left 9")

    for now, ready, strips, blocks in (
        ("Thu 4 Mar 11:00", 50_000, 52, 19), ("Thu 4 Mar 18:00", 16_000, 92, 29),
    ):  # fmt: skip
        facts = put_in(*lines, now=now, plan=plan).outfit
        assert ready == facts.feed.ready_ml
        assert (strips, blocks) == (facts.strips.stock, facts.kit.blocks_owned)


@pytest.mark.parametrize("line", ["syrup left 300 L", "sugar left 500 kg"])
@pytest.mark.parametrize(
    "reason", [": tank leaked", ":tank leaked", " (tank leaked: again)", " # x"]
)
def test_a_reason_may_stand_after_an_amount(line: str, reason: str) -> None:
    """As after every other change; without a colon or brackets it is taken for the unit."""
    plain = put_in(line, now=NOON, plan=running_plan())
    told = put_in(line + reason, now=NOON, plan=running_plan())

    assert plain.outfit == told.outfit
    assert "a volume" in fault_of("syrup left : leaked", running_plan(), NOON).allowed
    fault_of(f"{line} tank leaked", running_plan(), NOON)


def test_more_used_than_there_was_is_said() -> None:
    """All 44 colonies have their two strips, and 80 were in stock: eight too many, told once."""
    plan = running_plan()
    outfit = replace(plan.outfit, strips=replace(plan.outfit.strips, stock=80))
    facts = put_in(now=at(8 * 1440 - 1), plan=replace(plan, outfit=outfit))

    assert ["8 strips more were used than there were, by what is told: count what is left"] == [
        note for note in facts.notes if "strips" in note
    ]
