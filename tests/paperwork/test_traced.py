"""The trace sheet: visits, boxes, kit, and other yards seen before and after."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, Job, Trip
from runplanner.paperwork.speech.tongue import speaking
from runplanner.paperwork.traces.trace_sheet import REPORT, trace_page
from runplanner.paperwork.traces.traced import trace
from runplanner.season.replan_season import replan_season
from tests.audit.feeder_plan import feeders_fetched
from tests.outfits import a_yard
from tests.paperwork.plans import HOSTILE
from tests.running import put_in, running_outfit, running_plan

PLAN = running_plan()


def test_visits_with_kit_and_crew() -> None:
    """The mill: boards on Thursday, off on Friday with boards back, boxes, syrup, cans."""
    sheet = trace(PLAN, PLAN.outfit.yard("mill"))

    assert ["boards on 24", "take-off 24, syrup 24, strips 24"] == [
        one.work for one in sheet.visits
    ]
    assert "24 boards put on" in sheet.visits[0].kit
    assert "24 boards taken back, 40 boxes taken, 204 L of syrup" in sheet.visits[1].kit
    assert "aboard" in sheet.visits[1].kit
    assert ("Red", "Ann drives", False) == (
        sheet.visits[0].vehicles, sheet.visits[0].crew, sheet.visits[0].driven,
    )  # fmt: skip


def test_containers_nobody_named_are_said_in_the_language_spoken() -> None:
    """As on the driver's paper; it said "Can 25 L" between German words."""
    cans = tuple(replace(one, name="Can 25 L") for one in PLAN.outfit.containers)
    plan = replace(PLAN, outfit=replace(PLAN.outfit, containers=cans))
    with speaking("de"):
        kits = [one.kit for one in trace(plan, plan.outfit.yard("mill")).visits]

    assert "Kanister 25 L an Bord" in kits[1]
    assert "Can 25 L aboard" in trace(plan, plan.outfit.yard("mill")).visits[1].kit


def test_boxes_and_what_is_spun_before_and_after() -> None:
    """Creek Mouth's 15 boxes are spun on Thursday, then Fernbank's 15; the mill's 40 on Friday.

    From 13:04 to 15:34 there are 30 boxes, one in 5 minutes: the 16th begins at 14:19. Friday's
    begin at 13:47.
    """
    creek, fern, mill = (
        trace(PLAN, PLAN.outfit.yard(one)).boxes[0] for one in ("creek-mouth", "fernbank", "mill")
    )

    assert (15, "15 boxes to be spun Thu 4 Mar 13:04 to Thu 4 Mar 14:14") == (
        creek.boxes, creek.spun,
    )  # fmt: skip
    assert ((), ("Fernbank (Thu 4 Mar 14:19)",)) == (creek.before, creek.after[:1])
    assert ("Creek Mouth (Thu 4 Mar 14:14)",) == fern.before
    assert ("Old Mill (Fri 5 Mar 13:47, if not washed in between)",) == fern.after
    assert ("Fernbank (Thu 4 Mar 15:29, if not washed in between)",) == mill.before
    assert (40, ()) == (mill.boxes, mill.after)
    assert "L20270304-creek-mouth" == creek.lot


def test_a_break_in_spinning_washes_nothing() -> None:
    """The same 30 boxes in two stretches that touch, or with an hour between: still told."""
    first, friday = PLAN.spinning
    for pause in (0, 60):
        halves = (
            replace(first, end_min=first.start_min + 75, boxes=15),
            replace(first, start_min=first.start_min + 75 + pause, boxes=15),
        )
        plan = replace(PLAN, spinning=(*halves, friday))
        creek = trace(plan, plan.outfit.yard("creek-mouth")).boxes[0]
        fern = trace(plan, plan.outfit.yard("fernbank")).boxes[0]
        assert f"Fernbank (Thu 4 Mar {14 + (19 + pause) // 60}:{(19 + pause) % 60:02d})" in (
            creek.after
        )
        assert ("Creek Mouth (Thu 4 Mar 14:14)",) == fern.before


def test_boxes_that_waited_are_spun_before() -> None:
    """Five boxes stood there: Creek Mouth's begin 25 minutes later, and nobody knows whose."""
    house = replace(PLAN.outfit.honey_house, waiting_boxes=5)
    first, friday = PLAN.spinning
    first = replace(first, start_min=first.start_min - 25, boxes=35)
    plan = replace(PLAN, outfit=replace(PLAN.outfit, honey_house=house), spinning=(first, friday))
    creek = trace(plan, plan.outfit.yard("creek-mouth")).boxes[0]

    assert ("boxes that waited there (Thu 4 Mar 12:59)",) == creek.before


def test_boxes_that_are_held_are_not_told_as_spun() -> None:
    """At 14:00 on Thursday 12 of Creek Mouth's 15 boxes are begun; then it turns suspect.

    13:04 + 11 x 5 = 13:59 is the 12th; 3 are held, and Fernbank's follow 12, not 15.
    """
    now = "12 boxes spun Thu 4 Mar 13:04 to Thu 4 Mar 13:59; "
    creek = "creek-mouth"

    (sound,) = trace(replace(PLAN, now_min=3 * 1440 + 840), PLAN.outfit.yard(creek)).boxes
    assert f"{now}3 boxes to be spun Thu 4 Mar 14:04 to Thu 4 Mar 14:14" == sound.spun
    plan = _ill("14:00")
    (held,) = trace(plan, plan.outfit.yard(creek)).boxes
    assert f"{now}3 boxes held, not to be spun" == held.spun
    (fern,) = trace(plan, plan.outfit.yard("fernbank")).boxes
    assert ("Creek Mouth (Thu 4 Mar 13:59)",) == fern.before

    early = _ill("13:00")
    (none,) = trace(early, early.outfit.yard(creek)).boxes
    assert ("15 boxes held, not to be spun", (), ()) == (none.spun, none.before, none.after)


def _ill(clock: str) -> Plan:
    """The plan made again when Creek Mouth is told to be suspect on Thursday."""
    facts = put_in("suspect Creek Mouth", now=f"Thu 4 Mar {clock}")
    return replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)


def test_boxes_that_the_plan_does_not_spin() -> None:
    """Ten boxes spun of 15 of Creek Mouth, and no more spinning."""
    first = replace(PLAN.spinning[0], boxes=10)
    (creek,) = trace(replace(PLAN, spinning=(first,)), PLAN.outfit.yard("creek-mouth")).boxes

    assert creek.spun.endswith("; 5 boxes not spun")


def test_wet_boxes_are_kit() -> None:
    """Put on and taken again, they are named with the rest."""
    shift = PLAN.shifts[0]
    trip = shift.trips[0]
    up, down = Action(Job.WET_UP, 5, wet=8), Action(Job.WET_DOWN, 5, wet=8)
    calls = tuple(replace(one, actions=(up, down)) if one.yard == "mill" else one
                  for one in trip.calls)  # fmt: skip
    plan = replace(PLAN, shifts=(replace(shift, trips=(replace(trip, calls=calls),)),))

    (visit,) = trace(plan, plan.outfit.yard("mill")).visits
    assert visit.kit.startswith("8 wet boxes put on, 8 wet boxes taken")


def test_both_directions_in_time() -> None:
    """On one trip the mill, then Creek Mouth, then Fernbank; the mill again next day.

    After Creek Mouth the truck saw Fernbank, and the mill a day later; before it the mill.
    """
    sheet = trace(PLAN, PLAN.outfit.yard("creek-mouth"))

    assert [("Fernbank", "same trip"), ("Old Mill", "Ann")] == [
        (one.yard, one.ways[0]) for one in sheet.after
    ]
    assert [("Old Mill", "same trip")] == [(one.yard, one.ways[0]) for one in sheet.before]
    assert "Red" in sheet.after[1].ways


def test_boards_that_go_on_elsewhere_are_a_way() -> None:
    """Boards come off the mill on Friday; put on at Fernbank on Saturday they are a link."""
    shift = PLAN.shifts[0]
    calls = tuple(
        replace(call, yard={"mill": "fernbank", "fernbank": "mill"}.get(call.yard, call.yard))
        for call in shift.trips[0].calls
    )
    late = replace(
        shift, day=5, truck="truck1", crew=("caro",), trailer="t",
        trips=(replace(shift.trips[0], id="x", calls=tuple(
            replace(c, start_min=c.start_min + 2880, end_min=c.end_min + 2880) for c in calls)),),
    )  # fmt: skip
    plan = replace(PLAN, shifts=(*PLAN.shifts, late))
    sheet = trace(plan, plan.outfit.yard("mill"))

    ways = [one.ways for one in sheet.after if one.yard == "Fernbank"]
    assert [("same trip", "Ann"), ("boards",)] == ways
    assert "Blue flatdeck + Box trailer" in {one.vehicles for one in sheet.visits}


def test_feeders_that_go_on_elsewhere_are_a_way() -> None:
    """Fetched from yard 1 on day 5; left at yard 2 on day 7 by others they are the only link."""
    plan = feeders_fetched()
    feed = plan.shifts[1]
    calls = tuple(
        replace(
            call, yard=call.yard.replace("1", "2"), start_min=call.start_min + 8640,
            end_min=call.end_min + 8640,
        )
        for call in feed.trips[0].calls
    )  # fmt: skip
    late = replace(feed, day=7, truck="other", crew=("caro",), trips=(Trip("late", calls, ()),))
    outfit = replace(plan.outfit, yards=(*plan.outfit.yards, a_yard(2)))
    plan = replace(plan, outfit=outfit, shifts=(*plan.shifts, late))

    (after,) = trace(plan, outfit.yards[0]).after
    (before,) = trace(plan, outfit.yards[1]).before
    assert ("Yard 2", ("feeders",)) == (after.yard, tuple(after.ways))
    assert ("Yard 1", ("feeders",)) == (before.yard, tuple(before.ways))


def test_same_truck_later_that_day_and_the_trailer() -> None:
    """A second trip of the day, and a trailer that goes on with another truck, are ways."""
    first = PLAN.shifts[0]
    trip = first.trips[0]
    again = replace(trip, id="again", calls=tuple(
        replace(call, start_min=call.start_min + 400, end_min=call.end_min + 400)
        for call in trip.calls if call.yard != "mill"))  # fmt: skip
    day = replace(first, trips=(trip, again), trailer="t")
    other = replace(PLAN.shifts[1], truck="truck1", trailer="t", crew=("caro",))
    plan = replace(PLAN, shifts=(day, other))

    sheet = trace(plan, plan.outfit.yard("mill"))
    ways = [one.ways for one in sheet.after if one.yard == "Fernbank"]
    assert [("same trip", "Ann", "Box trailer")] == ways
    early, late = trip.calls[1], again.calls[1]
    apart = replace(day, trips=(
        replace(trip, calls=(early,)), replace(again, calls=(late,))))  # fmt: skip
    (only,) = trace(replace(plan, shifts=(apart,)), plan.outfit.yard("mill")).after
    assert ("same truck that day", "Ann", "Box trailer") == only.ways
    assert "Box trailer" in {way for one in sheet.before for way in one.ways}


def test_the_page() -> None:
    """It says to report, what was driven, and what it cannot know."""
    now = PLAN.shifts[0].end_min + 10
    driven = replan_season(PLAN, PLAN.outfit, now, rounds=0)
    page = trace_page(trace(driven, driven.outfit.yard("creek-mouth")))

    assert REPORT in page
    assert "as of Thu 4 Mar" in page
    assert ">driven<" in page
    assert ">planned<" in page


def test_a_stop_that_has_not_begun_is_planned() -> None:
    """At 9:00 on Thursday the truck is at Creek Mouth since 8:45; Fernbank comes at 10:39."""
    thursday = PLAN.shifts[0].day * 1440
    plan = replan_season(PLAN, PLAN.outfit, thursday + 540, rounds=0)

    assert plan.shifts[0].trips[0].driven
    assert [True] == [one.driven for one in trace(plan, plan.outfit.yard("creek-mouth")).visits]
    assert not any(one.driven for one in trace(plan, plan.outfit.yard("fernbank")).visits)
    creek = trace(plan, plan.outfit.yard("creek-mouth"))
    assert ("Fernbank", "planned") == (creek.after[0].yard, creek.after[0].state)
    assert ("Old Mill", "driven") == (creek.before[0].yard, creek.before[0].state)


def occasions() -> Plan:
    """Red goes on from the mill to Fernbank, with Ann, driven; two days later Caro does, by Blue.

    On that later trip the mill is only an hour before Fernbank.
    """
    shift = PLAN.shifts[0]
    trip = shift.trips[0]
    calls = {call.yard: call for call in trip.calls}
    two_days = 2 * 1440

    def at(yard: str, later: int) -> Call:
        call = calls[yard]
        return replace(call, start_min=call.start_min + later, end_min=call.end_min + later)

    first = replace(trip, driven=True, calls=(at("mill", 0), at("fernbank", 0)))
    second = replace(trip, id="later", calls=(at("mill", two_days), at("fernbank", two_days - 60)))
    late = replace(shift, day=shift.day + 2, truck="truck1", crew=("caro",), trips=(second,))
    early = replace(shift, crew=("ann",), trips=(first,))
    now = first.calls[-1].end_min + 10
    return replace(PLAN, shifts=(early, late), spinning=(), now_min=now)


def test_a_driven_contact_stands_beside_a_nearer_planned_one() -> None:
    """Each with its own truck and people: what went on by Red is not mixed with Caro's trip."""
    plan = occasions()
    after = trace(plan, plan.outfit.yard("mill")).after
    before = trace(plan, plan.outfit.yard("fernbank")).before

    told = [
        ("planned", ("same trip", "Caro")),
        ("driven", ("same trip", "Ann")),
    ]
    assert told == [(one.state, one.ways) for one in after]
    assert told == [(one.state, one.ways) for one in before]
    assert [("Fernbank", "Sat 6 Mar 09:39"), ("Fernbank", "Thu 4 Mar 10:39")] == [
        (one.yard, one.when) for one in after
    ]


def test_a_driven_visit_that_is_linked_to_one_still_to_come() -> None:
    """Caro was at Fernbank and goes to the mill on Saturday: that contact can be prevented."""
    plan = occasions()
    early, late = plan.shifts
    late = replace(late, trips=(replace(late.trips[0], calls=late.trips[0].calls[:1]),))
    early = replace(early, crew=("caro",), trips=(
        replace(early.trips[0], calls=early.trips[0].calls[1:]),))  # fmt: skip
    plan = replace(plan, shifts=(early, late))
    (before,) = trace(plan, plan.outfit.yard("mill")).before

    assert ("Fernbank", "driven, contact planned", ("Caro",)) == (
        before.yard, before.state, before.ways,
    )  # fmt: skip


def test_a_driven_contact_is_not_told_again_as_planned() -> None:
    """Ann and Red go from Fernbank to the mill today, and to the mill tomorrow: nothing new."""
    plan = occasions()
    early = plan.shifts[0]
    mill, fernbank = early.trips[0].calls
    day = replace(
        early,
        trips=(
            replace(early.trips[0], calls=(
                replace(fernbank, start_min=mill.start_min - 60, end_min=mill.start_min - 30),
                mill,
            )),
        ),
    )  # fmt: skip
    again = replace(mill, start_min=mill.start_min + 1440, end_min=mill.end_min + 1440)
    next_day = replace(early, day=early.day + 1, trips=(Trip("next", (again,), ()),))
    told = trace(replace(plan, shifts=(day, next_day)), plan.outfit.yard("mill")).before

    assert [("driven", ("same trip", "Ann"))] == [(one.state, one.ways) for one in told]


def test_a_later_visit_is_told_where_something_else_links_it() -> None:
    """Red goes to Fernbank on Thursday and again on Friday: told once, twice where boards go too.

    Boards come back from the mill on Thursday; on Friday they go on at Fernbank.
    """
    plan = occasions()
    early = plan.shifts[0]
    mill, fernbank = early.trips[0].calls
    again = replace(
        fernbank, start_min=fernbank.start_min + 1440, end_min=fernbank.end_min + 1440, actions=()
    )
    friday = replace(early, day=early.day + 1, trips=(Trip("again", (again,), (), driven=True),))
    plan = replace(plan, shifts=(early, friday), now_min=again.end_min)
    boards = replace(
        plan, shifts=(
            replace(early, trips=(replace(early.trips[0], calls=(
                replace(mill, actions=(Action(Job.TAKE_OFF, 24, boards_off=24),)), fernbank)),)),
            replace(friday, trips=(replace(friday.trips[0], calls=(
                replace(again, actions=(Action(Job.BOARDS, 10, pieces=10),)),)),)),
        ),
    )  # fmt: skip

    assert [("same trip", "Ann")] == [
        one.ways for one in trace(plan, plan.outfit.yard("mill")).after
    ]
    assert [("same trip", "Ann"), ("Ann", "Red", "boards")] == [
        one.ways for one in trace(boards, boards.outfit.yard("mill")).after
    ]


def carrying(truck: str) -> Plan:
    """Nobody goes to the mill; its hives are carried in the night before Saturday.

    Red calls at Creek Mouth and Fernbank on Thursday, and goes to Fernbank on Sunday.
    """
    first = PLAN.shifts[0]
    calls = tuple(one for one in first.trips[0].calls if one.yard != "mill")
    later = tuple(
        replace(one, start_min=one.start_min + 3 * 1440, end_min=one.end_min + 3 * 1440)
        for one in calls if one.yard == "fernbank"
    )  # fmt: skip
    shifts = (
        replace(first, trips=(replace(first.trips[0], calls=calls),)),
        replace(first, day=first.day + 3, trips=(Trip("sunday", later, ()),)),
    )
    yards = tuple(
        yard.moved_by(5, 3, truck) if yard.id == "mill" else yard for yard in PLAN.outfit.yards
    )
    return replace(PLAN, outfit=replace(PLAN.outfit, yards=yards), shifts=shifts, spinning=())


def test_a_truck_that_carried_the_hives_is_a_contact() -> None:
    """Red carried the mill's hives: it comes from Fernbank, and goes on to Fernbank."""
    red = PLAN.shifts[0].truck
    plan = carrying(red)
    mill = trace(plan, plan.outfit.yard("mill"))

    (visit,) = mill.visits
    assert ("night before Sat 6 Mar", "Red", "hives carried to a new site", False) == (
        visit.when, visit.vehicles, visit.work, visit.driven,
    )  # fmt: skip
    assert [("Fernbank", "Sun 7 Mar 10:39", ("Red",))] == [
        (one.yard, one.when, one.ways) for one in mill.after
    ]
    assert ["Fernbank", "Creek Mouth"] == [one.yard for one in mill.before]
    fern = trace(plan, plan.outfit.yard("fernbank"))
    assert ("Old Mill", "night before Sat 6 Mar", "planned") in {
        (one.yard, one.when, one.state) for one in fern.before
    }
    moved = replace(plan, now_min=5 * 1440)
    assert trace(moved, plan.outfit.yard("mill")).visits[0].driven


def test_hives_carried_by_nobody_knows_which_truck() -> None:
    """The move is told, with the question; it links no yards, not even two such moves."""
    plan = carrying("")
    yards = tuple(yard if yard.id == "mill" else yard.moved_by(6, 3, "")
                  for yard in plan.outfit.yards)  # fmt: skip
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))
    mill = trace(plan, plan.outfit.yard("mill"))

    assert ["truck not known: ask"] == [one.vehicles for one in mill.visits]
    assert ((), ()) == (mill.before, mill.after)


def test_a_yard_nobody_goes_to() -> None:
    """Without visits every part says so."""
    empty = replace(PLAN, shifts=(), spinning=())
    page = trace_page(trace(empty, empty.outfit.yard("mill")))

    assert 4 == page.count("None.")


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_are_only_words(name: str) -> None:
    """Names of yards, people and trucks cannot become markup."""
    outfit = running_outfit()
    outfit = replace(
        outfit,
        title=name,
        yards=tuple(replace(yard, name=name) for yard in outfit.yards),
        people=tuple(replace(one, name=name) for one in outfit.people),
        trucks=tuple(replace(one, name=name) for one in outfit.trucks),
        containers=tuple(replace(one, name=name) for one in outfit.containers),
    )
    page = trace_page(trace(replace(PLAN, outfit=outfit), outfit.yard("creek-mouth")))

    assert "<img" not in page
    assert "<script" not in page
    assert "{{" not in page
