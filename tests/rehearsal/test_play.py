"""Tests of one play: hand-worked days, and what is counted at the end."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.counts.counts import as_counted
from runplanner.changes.draft import Draft
from runplanner.daybook.plan import ALL_DONE, Plan, Spinning
from runplanner.daybook.trip import Job
from runplanner.outfit.safety import Safety, safe
from runplanner.phrase import phrase
from runplanner.rehearsal import play as room
from runplanner.rehearsal.drive import Standing, driven
from runplanner.rehearsal.luck import NO_LUCK, Fate, Luck
from runplanner.rehearsal.play import Rehearsal, played
from runplanner.rehearsal.reckon import honey_late, left_undone, over_g
from runplanner.scenario.faults import Refusal
from runplanner.season.plan_season import plan_season
from tests.audit.wet_plan import wet_boxes
from tests.rehearsal.small import fate, full_plan, shared_plan, small_outfit, small_plan


def with_fate(monkeypatch: pytest.MonkeyPatch, one: Fate) -> None:
    """Let every play meet this fate."""
    monkeypatch.setattr(room, "drawn", lambda *_: one)


def boxes(plan: Plan) -> int:
    """Boxes the plan takes off."""
    return sum(a.boxes for s in plan.shifts for t in s.trips for c in t.calls for a in c.actions)


def test_without_luck_a_play_is_the_plan() -> None:
    """No spread: no risk, nothing planned again, and the cost is the plan's to the cent."""
    plan = small_plan()
    one = played(Rehearsal(plan, NO_LUCK, hindsight=0), 0)

    assert plan.bill.total() == one.cents
    assert 0 == one.over_payload + one.boxes_left + one.past_cover + one.honey_late + one.plans
    assert 0 == one.stops_missed + one.late_home_min + one.not_off + one.unfed_g + one.no_strips
    assert one.all_done()
    assert sum(len(shift.trips) for shift in plan.shifts) == one.trips


def test_wet_boxes_that_do_not_go_back_are_work_left() -> None:
    """Four days are too few for wet boxes to stand four: those of 20 colonies stay in the store.

    No tally has them, neither of the play nor of the plan that knew the future; both are not done.
    """
    plain = small_outfit()
    wet = tuple(replace(yard, wet_back=True) for yard in plain.yards)
    plan = plan_season(replace(plain, yards=wet), rounds=1)
    one = played(Rehearsal(plan, NO_LUCK, hindsight=1), 0)

    assert ALL_DONE == plan.tally
    assert (20, False, False) == (one.no_wet, one.all_done(), one.hindsight_done)


def test_wet_boxes_that_are_not_collected_are_work_left() -> None:
    """Put up at one yard of ten colonies and collected with its syrup, or not collected."""
    plan = wet_boxes()

    assert not any(left_undone(plan))
    assert 10 == left_undone(replace(plan, shifts=plan.shifts[:2])).no_wet
    assert 10 == left_undone(replace(plan, shifts=plan.shifts[:1])).no_wet


def test_counts_that_cannot_be_entered_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """Here all of them are refused: the play goes on, and says how many."""

    def refuse(*_: object) -> Draft:
        raise Refusal(phrase("none"), phrase("Count again."))

    plan = full_plan()
    with_fate(monkeypatch, fate(plan.outfit, boxes=(24,)))
    monkeypatch.setattr(room, "as_counted", refuse)
    with pytest.raises(Refusal):
        played(Rehearsal(plan, rounds=1, hindsight=0), 0)
    monkeypatch.setattr(room, "Refusal", Refusal)

    assert 1 == played(Rehearsal(plan, rounds=1, hindsight=0), 0).refused


def test_a_fifth_more_honey_on_a_full_truck_stays_behind(monkeypatch: pytest.MonkeyPatch) -> None:
    """21 boxes of 50 kg would fit, so not all 24 on 10 colonies: no syrup is poured.

    That and the strips are 113 kg, so he stops 3 boxes sooner, at 18: ceil(7 x 24 / 10) = 17,
    ceil(8 x 24 / 10) = 20. Three colonies and seven boxes stay, and are fetched by another trip.
    """
    plan = full_plan()
    assert 20 == boxes(plan)
    with_fate(monkeypatch, fate(plan.outfit, boxes=(24,)))
    one = played(Rehearsal(plan, hindsight=0), 0)

    assert 7 == one.boxes_left
    assert 0 == one.over_payload == one.not_off
    assert plan.bill.total() < one.cents
    assert 1 <= one.plans


@pytest.mark.parametrize(
    ("first", "second", "left"),
    [(10, 10, 0), (12, 12, 10), (12, 11, 8), (10, 12, 4), (8, 12, 0)],
)
def test_boxes_aboard_count_at_a_later_stop(first: int, second: int, left: int) -> None:
    """The paper says to stop at 11 boxes aboard in the first yard, at 21 in the second.

    Where not all come off, or a stop before went without its syrup, at 3 fewer each time.
    12 and 12: not all 12 fit, so 11 - 3 = 8 are taken, ceil(6 x 12 / 10) = 8, and 4 stay; then
    21 - 3 - 8 = 10 find room, not all, so 10 - 3 = 7, ceil(5 x 12 / 10) = 6, and 6 stay.
    12 and 11: 8 as before, 4 stay; 10 find room, so 7 of 11, ceil(6 x 11 / 10) = 7: 4 stay.
    10 and 12: the first brings what was planned, 21 - 10 = 11 find room, so 8: 4 stay.
    8 and 12: the first brings 2 fewer, so 21 - 8 = 13 would find room, and none stay.
    """
    plan = shared_plan()
    shift = next(s for s in plan.shifts if sum(c.boxes_limit > 0 for t in s.trips
                 for c in t.yards()) > 1)  # fmt: skip
    stops = [c for t in shift.trips for c in t.yards() if c.after.boxes]
    assert [(10, 11), (20, 21)] == [(c.after.boxes, c.boxes_limit) for c in stops]
    guess = {stops[0].yard: first, stops[1].yard: second}
    true = tuple(guess[yard.id] for yard in plan.outfit.yards)

    assert left == driven(plan.outfit, fate(plan.outfit, boxes=true), shift, Standing()).boxes_left


def test_a_stop_left_out_leaves_its_syrup_aboard() -> None:
    """Nobody comes to the first stop; of 20 boxes at the second 21 - 3 would fit, not all.

    So he stops at 15: seven colonies' 14 are taken, and 6 stay.
    """
    plan = shared_plan()
    shift = plan.shifts[0]
    (trip,) = shift.trips
    first = replace(trip.yards()[0], latest_leave_min=0)
    late = replace(trip, calls=(trip.calls[0], first, *trip.calls[2:]))
    true = tuple(10 if yard.id == first.yard else 20 for yard in plan.outfit.yards)
    day = driven(
        plan.outfit, fate(plan.outfit, boxes=true), replace(shift, trips=(late,)), Standing()
    )  # fmt: skip

    assert (1, 6) == (day.stops_missed, day.boxes_left)


def test_syrup_that_is_not_poured_is_aboard() -> None:
    """8 of 10 colonies off with 20 boxes of 50 kg: 113 kg of syrup and strips ride home.

    1,000,000 + 112,995 - 1,085,000 = 27,995 g too much. With 17 boxes nothing is. At the store
    what was not used is put down, whatever the empty truck may carry.
    """
    plan = full_plan()
    (shift,) = [one for one in plan.shifts if one.trips and boxes(replace(plan, shifts=(one,)))]
    (trip,) = shift.trips
    yard = plan.outfit.yard("yard1")

    def over(colonies: int, taken: int) -> int:
        counts = {"colonies": colonies, "boxes": taken}
        told = as_counted(Draft(plan, plan.outfit, 1440), trip, yard, counts).plan
        (day,) = [one for one in told.shifts if one.day == shift.day]
        calls = tuple(
            replace(call, after=replace(call.after, load_max_g=0)) if call is day.trips[0].calls[-1]
            else call for call in day.trips[0].calls
        )  # fmt: skip
        return over_g(told, day, replace(day.trips[0], calls=calls), {"yard1": 50_000})

    assert 27_995 == over(8, 20)
    assert 0 == over(7, 17)
    assert 0 == over(10, 20)


def test_heavier_boxes_on_a_full_truck_are_an_overload(monkeypatch: pytest.MonkeyPatch) -> None:
    """20 boxes of 55 kg where 50 kg were guessed: 20 x 5 = 100 kg more than planned."""
    plan = full_plan()
    most = max(
        c.after.load_g - c.after.load_max_g for s in plan.shifts for t in s.trips for c in t.calls
    )
    with_fate(monkeypatch, fate(plan.outfit, box_g=(55_000,)))
    one = played(Rehearsal(plan, hindsight=0), 0)

    assert 1 == one.over_payload
    assert most + 100_000 == one.over_g
    assert plan.bill.total() == one.cents


def test_overload_ends_where_the_boxes_leave_the_truck() -> None:
    """On leaving the honey house what the boxes truly weigh counts no more."""
    plan = full_plan()
    shift, trip = next((s, t) for s in plan.shifts for t in s.trips if any(a.boxes for c in t.calls
                       for a in c.actions))  # fmt: skip

    assert 0 == over_g(plan, shift, trip, {"yard1": 1_000})
    last = replace(trip, calls=trip.calls[:1] + trip.calls[-1:])
    assert 0 == over_g(plan, shift, last, {"yard1": 10**9})


def test_a_day_that_is_shut_costs_a_new_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every yard shut on the first day: planned again, and all is done on the others."""
    plan = small_plan()
    shut = ((True, True), *((False, False),) * 3)
    with_fate(monkeypatch, fate(plan.outfit, shut=shut))
    one = played(Rehearsal(plan, hindsight=30), 0)

    assert 1 <= one.plans
    assert (1, 0) == (one.shut_days, one.truck_days_lost)
    assert one.all_done()
    assert one.hindsight_done
    assert one.bound_cents <= one.hindsight_cents


def test_slow_work_is_paid_and_later_stops_are_missed(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three times the minutes at each stop: dearer, and longer days than on paper."""
    plan = small_plan()
    slow = tuple(tuple(3000 for _ in plan.outfit.yards) for _ in range(4))
    with_fate(monkeypatch, fate(plan.outfit, work_permille=slow))
    one = played(Rehearsal(plan, hindsight=0), 0)

    assert plan.bill.total() < one.cents


def test_a_driver_who_is_too_late_leaves_the_stop_out() -> None:
    """A day whose first stop takes ten hours longer has no time for the others, by hand."""
    plan = small_plan()
    shift = next(s for s in plan.shifts if sum(len(t.yards()) for t in s.trips) > 1)
    late = tuple(tuple(20_000 for _ in plan.outfit.yards) for _ in range(4))
    day = driven(plan.outfit, fate(plan.outfit, work_permille=late), shift, Standing())

    stops = sum(len(t.yards()) for t in shift.trips)
    assert stops - 1 == day.stops_missed == len([c for c in day.counts if not c.counts["colonies"]])
    assert shift.end_min < day.end_min


def test_the_driven_campaign_keeps_the_audit_s_rules(monkeypatch: pytest.MonkeyPatch) -> None:
    """What was driven, counted and planned again has no finding but that reasons are not given."""
    plan = small_plan()
    with_fate(monkeypatch, fate(plan.outfit, boxes=(19, 13)))
    kept = []
    monkeypatch.setattr(room, "_reckoned", lambda diary, *_, **__: kept.append(diary.plan))
    played(Rehearsal(plan, hindsight=0), 0)

    assert 32 == boxes(kept[0])
    assert () == tuple(f for f in audit(kept[0]) if f.rule != "undone")


def test_more_spread_means_no_fewer_overloads() -> None:
    """Over twenty paired plays, a full truck: spreads of 0, 5 and 10 % of mass never help."""
    told = [
        sum(
            played(Rehearsal(full_plan(), Luck(0, scale, 0, 0, 0), hindsight=0), n).over_g
            for n in range(20)
        )
        for scale in (0, 500, 1000)
    ]

    assert 0 == told[0]
    assert told[0] < told[1] < told[2]


def test_what_is_kept_in_hand_lowers_overload_at_a_price() -> None:
    """Boxes counted at the 97.5 % quantile: fewer overloads in the same twenty plays, dearer."""
    plain, luck = full_plan(), Luck(0, 1000, 0, 0, 0)
    careful = plan_season(safe(plain.outfit, Safety(975, 30, 1)), rounds=30, proof=False)
    bold = [played(Rehearsal(plain, luck, hindsight=0), n) for n in range(20)]
    shy = [played(Rehearsal(careful, luck, 1, 20, 0), n) for n in range(20)]

    assert sum(p.over_payload for p in shy) < sum(p.over_payload for p in bold)
    assert sum(p.cents for p in bold) < sum(p.cents for p in shy)


def test_a_search_that_is_broken_off_ends_the_play(monkeypatch: pytest.MonkeyPatch) -> None:
    """Half a search is no play: it is not kept."""
    plan = small_plan()
    with_fate(monkeypatch, fate(plan.outfit, shut=((True, True),) * 4))
    stopped = replace(plan, search=replace(plan.search, stopped=phrase("broken off by the user")))
    monkeypatch.setattr(room, "replan_season", lambda *_, **__: stopped)

    with pytest.raises(KeyboardInterrupt):
        played(Rehearsal(plan, hindsight=0), 0)


def test_honey_late_is_counted_box_by_box() -> None:
    """All boxes spun from ten days on, one an hour: each is late; at once: none is."""
    plan = small_plan()
    total = boxes(plan)
    late = Spinning(14_400, 14_400 + 60 * total, ("p",), total)

    assert total == honey_late(replace(plan, spinning=(late,)))
    assert total == honey_late(replace(plan, spinning=()))
    assert 0 == honey_late(plan)
    assert {Job.TAKE_OFF} <= {a.job for s in plan.shifts for t in s.trips for c in t.calls
                              for a in c.actions}  # fmt: skip
    assert small_outfit() == plan.outfit
