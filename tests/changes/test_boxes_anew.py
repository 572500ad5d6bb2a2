"""Boxes to stop at, loads and decks of a truck that is out, as its counts make them."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.cargo.aboard import aboard
from runplanner.changes.cargo.loads import boxes_limits, loaded
from runplanner.changes.typed import changed, typed_changes
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Against
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.driver.manifest import manifest
from runplanner.paperwork.stop.one_stop import trip_as_driven
from tests.audit.planted import edited
from tests.changes.thursday import AFTER_CREEK, AT_FERNBANK, counted, driven, red
from tests.running import put_in, running_plan


def test_more_boxes_than_the_truck_bears_after_the_next_stop_are_said() -> None:
    """15 boxes planned of 16 kg leave 490.5 of 1,185 kg: 43 more are 1,178.5, 44 are too much.

    The driver who is rung goes home with what is aboard.
    """
    assert () == put_in(counted(58), now=AFTER_CREEK).notes
    (note,) = put_in(counted(59), now=AFTER_CREEK).notes
    assert (
        "Red is out, and its load does not hold (10 kg too much aboard after Fernbank): "
        "'home Red' calls it home; or fewer boxes come off at Fernbank: its paper, printed "
        "again, says when to stop"
    ) == note
    facts = put_in(counted(59), now=AFTER_CREEK)
    assert [(), (), (), (Against.LOAD,), ()] == [
        call.against for call in red(facts)[0].trips[0].calls
    ]
    driven(facts)
    rung = changed(running_plan(), typed_changes([counted(59)], AFTER_CREEK), ring=True)
    assert ["mill", "creek-mouth"] == [call.yard for call in red(rung)[0].trips[0].yards()]
    driven(rung)


def test_what_is_too_much_aboard_already_can_only_be_said() -> None:
    """Creek Mouth's 70 boxes, 55 more than planned: 363.5 + 880 kg, 58.5 too much on the road."""
    assert (
        "Red is out, and its load does not hold (59 kg too much aboard after Creek Mouth): ring "
        "the driver"
    ) == put_in(counted(70), now=AFTER_CREEK).notes[-1]


def test_deck_places_and_limits_are_as_the_counts_make_them() -> None:
    """15 and 15 boxes are six of 5 places; 26 and 15 are 41: nine.  The limit of 73 stays."""
    *_, fernbank, _ = red(put_in(counted(26), now=AFTER_CREEK))[0].trips[0].calls

    assert (41, 16, 30) == (
        fernbank.after.boxes, fernbank.after.places, fernbank.after.places_max,
    )  # fmt: skip
    assert 73 == fernbank.boxes_limit
    *_, over, _ = red(put_in(counted(80), now=AFTER_CREEK))[0].trips[0].calls
    assert (95, 80) == (over.after.boxes, over.boxes_limit)


def test_more_than_the_truck_bears_is_not_to_be_loaded() -> None:
    """After 59 boxes at Creek Mouth the 15 of Fernbank are one of 16 kg too many.

    So honey stays on, and its 85 L of syrup (112.795 kg) and strips stay aboard: 1,067 kg on
    coming and seven boxes are 1,179 of 1,185, stop at 66.  The audit says so of 74, and of
    fewer than the 59 that are there on coming.
    """
    facts = put_in(counted(59), now=AFTER_CREEK)
    new, (shift, _) = driven(facts), red(facts)
    (trip,) = shift.trips
    fernbank = trip.calls[3]

    assert (74, 66) == (fernbank.after.boxes, fernbank.boxes_limit)
    at = next(i for i, one in enumerate(new.shifts) if one.trips and one.trips[0].id == trip.id)
    for limit, said in ((74, ["boxes limit"]), (59, []), (58, ["boxes limit"])):
        spoilt = edited(new, {f"shifts.{at}.trips.0.calls.3.boxes_limit": limit})
        assert said == [finding.rule for finding in audit(spoilt)]
    warning = "ore planned than the truck bears: not all can come off"
    phone, sheet = phone_text(new, shift.day), manifest(new, shift, trip)
    assert "max 66 full aboard\n" in phone
    assert f"! m{warning}, no syrup, no strips" in phone
    step = next(one for one in sheet.steps if one.stop_at == "66")
    assert step.sooner == (
        "More is planned than the truck bears: not all can come off. So no syrup, no strips, and "
        "the rest stays on."
    )
    as_it_was = phone_text(driven(put_in(counted(58), now=AFTER_CREEK)), shift.day)
    assert warning not in as_it_was


def test_boxes_that_a_later_stop_may_leave_on_come_off_before_it() -> None:
    """Leaving Creek Mouth 363.5 kg, with Fernbank's syrup: at 410.5 two boxes of 16 kg more.

    At 300 Creek Mouth's own syrup stays aboard as well: 236.5 kg and three boxes, then none.
    """
    facts = put_in(now="Thu 4 Mar 8:20")
    shift, _ = red(facts)
    trip = shift.trips[0]

    def limits(most_g: int) -> list[int]:
        trucks = tuple(
            replace(one, max_g=one.max_g - 1_185_000 + most_g) for one in facts.outfit.trucks
        )
        outfit = replace(facts.outfit, trucks=trucks)
        return boxes_limits(outfit, shift, trip, 2, loaded(outfit, shift, trip))[:2]

    assert [15, 17] == limits(410_500)
    assert [3, 3] == limits(300_000)


def test_a_stop_is_told_by_what_stops_before_it_may_be_left_with() -> None:
    """Boxes of 80 kg: 1,323.5 kg on leaving Creek Mouth, 138.5 too much.

    With the syrup and strips of both stops still aboard, 236.5 kg, eleven are 1,116.5 of 1,185,
    and none more fit at Fernbank.  The audit sees 14 and 15 as too many even with the syrup
    poured, and 10 as fewer than those that are aboard.
    """
    plan = running_plan()
    heavy = tuple(replace(one, box_g=80_000) for one in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=heavy))
    facts = put_in(now="Thu 4 Mar 8:20", plan=plan)
    new, (shift, _) = driven(facts), red(facts)

    assert [(15, 11), (30, 11)] == [
        (call.after.boxes, call.boxes_limit) for call in shift.trips[0].calls[2:4]
    ]
    day = new.shifts.index(next(one for one in new.shifts if (one.day, one.truck) == (3, "truck2")))
    for call, limit in ((2, 14), (3, 15), (3, 10)):
        spoilt = edited(new, {f"shifts.{day}.trips.0.calls.{call}.boxes_limit": limit})
        assert "boxes limit" in {finding.rule for finding in audit(spoilt)}


def test_a_stop_whose_boxes_all_fit_is_not_told_that_not_all_can_come_off() -> None:
    """Nine of Creek Mouth's 15 boxes stay on, Fernbank's 6 fit.  Once all 15 are off, none do.

    While the crew is at work there its number still counts.
    """
    plan = running_plan()
    calls = plan.shifts[0].trips[0].calls
    assert [15, 15] == [call.boxes() for call in calls[2:4]]
    trip = replace(
        plan.shifts[0].trips[0],
        calls=(
            *calls[:2],
            replace(calls[2], boxes_limit=6),
            replace(calls[3], actions=(replace(calls[3].actions[0], boxes=6),), boxes_limit=12),
            calls[4],
        ),
    )
    for now in (calls[2].start_min - 1, calls[2].end_min - 1):
        assert [True, False] == [trip.takes_too_many(call, now) for call in trip.calls[2:4]]
    assert [False, True] == [
        trip.takes_too_many(call, calls[2].end_min) for call in trip.calls[2:4]
    ]


def test_the_stop_at_work_is_told_when_to_stop_by_the_count_of_the_one_before() -> None:
    """As for a stop to come: 66, with 59 aboard on coming; once over its number stays as it was.

    The 15 planned would be 10 kg too much, which is said with the number.
    """
    facts = put_in(counted(59), now=AT_FERNBANK)
    new, (shift, _) = driven(facts), red(facts)
    (trip,) = shift.trips

    assert (
        "Red is out, and its load does not hold (10 kg too much aboard after Fernbank): ring the "
        "driver; at Fernbank no more than 66 full boxes aboard: the rest stays on"
    ) == facts.notes[-1]
    assert (66, (Against.LOAD,)) == (trip.calls[3].boxes_limit, trip.calls[3].against)
    phone, sheet = phone_text(new, shift.day), manifest(new, shift, trip)
    assert "max 66 full aboard\n! more planned than the truck bears" in phone
    assert any(one.stop_at == "66" and "not all can come off" in one.sooner for one in sheet.steps)
    at = next(i for i, one in enumerate(new.shifts) if one.trips and one.trips[0].id == trip.id)
    for limit, said in ((74, ["boxes limit"]), (59, []), (58, ["boxes limit"])):
        spoilt = edited(new, {f"shifts.{at}.trips.0.calls.3.boxes_limit": limit})
        assert said == [finding.rule for finding in audit(spoilt)]
    over = red(put_in(counted(59), now="Thu 4 Mar 12:30"))[0].trips[0].calls[3]
    assert 73 == over.boxes_limit


def test_a_stop_left_by_a_truck_called_back_is_not_at_work() -> None:
    """Turned round on the road to Fernbank at 10:37, it could be back at Creek Mouth at 10:39."""
    facts = put_in("skip Fernbank", now="Thu 4 Mar 10:37")
    creek = red(facts)[0].trips[0].calls[2]

    assert facts.now_min < creek.end_min
    assert not creek.still_on(facts.now_min)
    driven(facts)


def test_the_stop_at_work_leaves_room_for_what_was_not_used_up_before() -> None:
    """As for a stop to come: 66, where the paper in the cab says 73."""
    facts = put_in(NOT_FED, now=AT_FERNBANK)
    assert 66 == red(facts)[0].trips[0].calls[3].boxes_limit
    driven(facts)


NOT_FED = "done 0304-truck2-0716 Creek Mouth: 10 colonies 15 boxes 0 fed"
"""85 L at 1.327 kg/L stay aboard, 112.795 kg."""


def test_boxes_to_stop_at_leave_room_for_what_is_not_used_up() -> None:
    """490.5 + 112.795 kg leave 581.705 of 1,185 kg: 36 boxes of 16 kg more than 30, not 43."""
    facts = put_in(NOT_FED, now=AFTER_CREEK)
    new, trip = driven(facts), red(facts)[0].trips[0]

    assert (66, 112_795) == (trip.calls[3].boxes_limit, trip.unused_g())
    day = next(
        at for at, shift in enumerate(new.shifts) if shift.trips and shift.trips[0].id == trip.id
    )
    spoilt = edited(new, {f"shifts.{day}.trips.0.calls.3.boxes_limit": 67})
    assert ["boxes limit"] == [finding.rule for finding in audit(spoilt)]
    driven_so = trip_as_driven(new.outfit, trip)
    assert 603_295 == driven_so.calls[3].after.load_g
    assert 85_000 == driven_so.calls[3].after.ml
    assert driven_so == trip_as_driven(new.outfit, driven_so)


def test_boxes_to_stop_at_are_as_planned_once_a_count_is_put_right() -> None:
    """66 with Creek Mouth's syrup aboard, and 73 as printed first when that went in after all.

    They had stayed at 66. That it is another number than planned the audit wants to be so.
    """
    new = plan_from_text(plan_text(driven(put_in(NOT_FED, now=AFTER_CREEK))))
    slip = next(t for s in new.shifts for t in s.trips if t.id == "0304-truck2-0716").calls[3]
    facts = put_in("done 0304-truck2-0716 Creek Mouth: 10 colonies 15 boxes", plan=new)
    fernbank = red(facts)[0].trips[0].calls[3]

    assert [(66, 73), (73, None)] == [
        (call.boxes_limit, call.limit_was) for call in (slip, fernbank)
    ]
    driven(facts)


@pytest.mark.parametrize("line", ["skip Creek Mouth", "home Red"])
def test_goods_of_a_stop_left_out_stay_aboard_in_later_plans(line: str) -> None:
    """272.49 kg left; with none for Creek Mouth it would have been 112.995 less.

    250.5 kg on leaving Fernbank and those are 363.495: 51 boxes more than its 15, as if fed.
    """
    new = plan_from_text(plan_text(driven(put_in(line, now="Thu 4 Mar 8:20"))))
    again = put_in(now="Thu 4 Mar 8:30", plan=new)
    shift, trip = next(
        (one, trip) for one in again.plan.shifts for trip in one.trips
        if trip.id == "0304-truck2-0716"
    )  # fmt: skip

    left = loaded(again.outfit, shift, trip)
    assert 272_490 == left.load_g
    assert left == trip_as_driven(again.outfit, trip).calls[0].after
    assert (170_000, 40) == (left.ml, left.strips)
    assert {66} >= {call.boxes_limit for call in trip.yards() if call.yard == "fernbank"}


def test_a_trip_that_is_over_keeps_what_it_left_with() -> None:
    """Only in the evening it is told that neither yard got anything: it had 170 L and 40 strips.

    Its paper says what was aboard from call to call, and tells nobody to leave a can empty.
    """
    stops = [f"done 0304-truck2-0716 {yard}: nothing" for yard in ("Creek Mouth", "Fernbank")]
    new = driven(put_in(*stops, now="Thu 4 Mar 18:00"))
    again = put_in(stops[0], now="Thu 4 Mar 18:30", plan=plan_from_text(plan_text(new)))
    shift, trip = next(
        (one, trip) for one in again.plan.shifts for trip in one.trips
        if trip.id == "0304-truck2-0716"
    )  # fmt: skip

    out = trip_as_driven(again.outfit, trip)
    assert trip.left is not None
    assert (272_490, 40) == (trip.left.load_g, trip.left.strips)
    assert [170_000] * 4 == [call.after.ml for call in out.calls[:4]]
    assert not [one.what for one in manifest(again.plan, shift, trip).goods if "empty" in one.what]


def test_a_trip_with_nothing_left_out_is_written_as_ever() -> None:
    """The load it left with is what its calls come to, and is not written down."""
    assert '"left"' not in plan_text(put_in(now="Thu 4 Mar 8:20").plan)
    assert '"left"' in plan_text(put_in("skip Creek Mouth", now="Thu 4 Mar 8:20").plan)


def test_a_deck_too_full_is_said() -> None:
    """The deck has room for twelve columns: seven cans and six columns are one too many."""
    plan = running_plan()
    trucks = tuple(
        replace(one, deck=replace(one.deck, length_mm=2 * 508, width_mm=6 * 413))
        if one.name == "Red" else one for one in plan.outfit.trucks
    )  # fmt: skip
    plan = replace(plan, outfit=replace(plan.outfit, trucks=trucks))

    assert (
        (
            "Red is out, and its load does not hold (1 deck place too many taken after Fernbank): "
            "'home Red' calls it home; or fewer boxes come off at Fernbank: its paper, printed "
            "again, says when to stop"
        ),
    ) == put_in(now=AFTER_CREEK, plan=plan).notes


def test_boxes_beyond_those_planned_leave_room_for_goods_of_no_stop() -> None:
    """18 columns, seven cans: eleven of five are 55 boxes, with blocks on one of them 50.

    With blocks on six there is room for 25, but the 30 planned are not told fewer for that.  The
    audit counts the same columns.
    """
    plan = running_plan()
    trucks = tuple(
        replace(one, deck=replace(one.deck, length_mm=3 * 508, width_mm=6 * 413))
        if one.name == "Red" else one for one in plan.outfit.trucks
    )  # fmt: skip
    facts = put_in(now="Thu 4 Mar 8:20", plan=plan)
    outfit = replace(facts.outfit, trucks=trucks)
    shift, _ = red(facts)
    (trip,) = shift.trips
    trip = replace(trip, calls=aboard(outfit, shift, trip, trip.calls))
    start = loaded(outfit, shift, trip)

    def limit(places: int) -> int:
        blocks = places * outfit.kit.blocks_per_place
        return boxes_limits(outfit, shift, trip, 3, replace(start, blocks=start.blocks + blocks))[0]

    assert [55, 50, 30] == [limit(places) for places in (0, 1, 6)]

    blocks = start.blocks + outfit.kit.blocks_per_place
    left = replace(start, blocks=blocks, load_g=start.load_g + outfit.kit.block_g)
    creek, _ = boxes_limits(outfit, shift, trip, 2, left)[:2]
    for number, found in ((50, False), (51, True)):
        limits = zip(trip.calls, (0, 0, creek, number, 0), strict=True)
        calls = tuple(replace(call, boxes_limit=limit) for call, limit in limits)
        told = replace(trip, calls=calls, left=left, driven=True)
        shifts = tuple(
            replace(shift, trips=(told,)) if one is shift else one for one in facts.plan.shifts
        )
        findings = audit(replace(facts.plan, outfit=outfit, shifts=shifts))
        assert found == (("boxes limit", trip.id) in {(one.rule, one.trip) for one in findings})
