"""Two calls at one yard with no drive between are printed as one stop, both parts said."""

from dataclasses import replace

import pytest
from icalendar import Calendar

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, CallKind, Job, Shift, Trip
from runplanner.outfit.yards import Clearing
from runplanner.paperwork.calendars.file import TRIPS_FILE, calendar_files
from runplanner.paperwork.changed.change_sheet import change_sheet
from runplanner.paperwork.data.tables import plan_tables
from runplanner.paperwork.data.track import track_gpx
from runplanner.paperwork.data.workbook import manifests_xlsx
from runplanner.paperwork.days.day_sheet import day_page, day_sheet
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.days.wet_day import wet_day
from runplanner.paperwork.driver.manifest import Manifest, manifest
from runplanner.paperwork.driver.manifest_page import manifest_page
from runplanner.paperwork.map.sheet import sheet_of
from runplanner.paperwork.stop.one_stop import as_driven, trip_as_driven
from runplanner.paperwork.stop.yard_words import stop_words
from tests.paperwork.pages import Page
from tests.paperwork.plans import small_plan
from tests.running import running_plan

BLOCKS = Action(Job.BLOCK, 14, pieces=14)


def with_blocks(drive_min: int = 0, more: Action = BLOCKS) -> Plan:
    """The running plan; Creek Mouth gets blocks at its call, and ``more`` at a further one."""
    plan = running_plan()
    first, *rest = plan.shifts
    (trip,) = first.trips
    calls: list[Call] = []
    for call in trip.calls:
        calls.append(call)
        if call.yard == "creek-mouth":
            calls[-1] = replace(call, actions=(*call.actions, BLOCKS))
            at = call.leave_min + drive_min
            calls.append(
                replace(
                    call, arrive_min=at, start_min=at, end_min=at + 5, leave_min=at + 5,
                    latest_leave_min=call.latest_leave_min + 5, boxes_limit=0, actions=(more,),
                )
            )  # fmt: skip
    trip = replace(trip, calls=tuple(calls))
    return replace(plan, shifts=(replace(first, trips=(trip,)), *rest))


def first_trip(plan: Plan) -> tuple[Shift, Trip]:
    """Its first trip."""
    return plan.shifts[0], plan.shifts[0].trips[0]


def sheet(plan: Plan) -> Manifest:
    """The driver's sheet of that trip."""
    return manifest(plan, *first_trip(plan))


def test_a_further_block_is_part_of_the_stop() -> None:
    """One number, from coming to the first part to leaving the second; each part in words."""
    plan = with_blocks()
    steps = [step for step in sheet(plan).steps if step.number]
    creek = steps[1]
    calls = [call for call in first_trip(plan)[1].yards() if call.yard == "creek-mouth"]

    assert ["1", "2", "3"] == [step.number for step in steps]
    assert ["Old Mill", "Creek Mouth", "Fernbank"] == [step.name for step in steps]
    assert "Block on 14 colonies: 14 blocks" in creek.jobs
    assert "A further block on 14 colonies: 14 blocks" == creek.jobs[-1]
    assert 2 == len(calls)
    assert creek.leave == f"{calls[1].leave_min % 1440 // 60:02d}:{calls[1].leave_min % 60:02d}"
    assert creek.latest != next(
        step.latest for step in sheet(running_plan()).steps if step.name == "Creek Mouth"
    )


@pytest.mark.parametrize(
    ("first_late", "second_late", "latest"),
    [
        # The first part must be over 20 min late, so the second, five long, is left 20 late too.
        (20, 300, 20),
        (300, 40, 40),
        (0, 0, 0),
    ],
)
def test_the_first_part_binds_when_the_stop_is_left(
    first_late: int, second_late: int, latest: int
) -> None:
    """Hives must be shut by the end of the first part's hours, so the whole is left in time."""
    plan = with_blocks()
    shift, trip = first_trip(plan)
    lates = iter((first_late, second_late))
    calls = tuple(
        replace(call, latest_leave_min=call.leave_min + next(lates))
        if call.yard == "creek-mouth"
        else call
        for call in trip.calls
    )
    (creek,) = (
        call for call in trip_as_driven(plan.outfit, replace(trip, calls=calls)).calls
        if call.yard == "creek-mouth"
    )  # fmt: skip

    assert latest == creek.latest_leave_min - creek.leave_min
    assert shift.trips[0] == trip


def test_a_drive_between_makes_two_stops() -> None:
    """Who drove off and came back has two stops."""
    assert 4 == sheet(with_blocks(drive_min=7)).stops()


def test_the_other_papers_count_the_same_stops() -> None:
    """Phone, day sheet, map, track, workbook and calendar number as the driver's sheet does."""
    plan = with_blocks()
    step = next(step for step in sheet(plan).steps if step.name == "Creek Mouth")
    event, _ = Calendar.from_ical(calendar_files(plan)[TRIPS_FILE]).walk("VEVENT")
    told = [line for line in str(event["DESCRIPTION"]).splitlines() if line[:1].isdigit()]
    day = plan.shifts[0].day
    phone = [line for line in phone_text(plan, day).splitlines() if "Creek Mouth" in line]
    (cell,) = (cell for cell in sheet_of(plan).cells if cell.name == "Creek Mouth")
    visits = [line for line in cell.lines if "fondant" in line]

    assert 1 == len(phone)
    assert "block 14" in phone[0]
    assert phone[0].count("further block 14") == 1
    assert [3] == [len(trip.stops) for one in day_sheet(plan, day).shifts for trip in one.trips]
    assert 1 == len(visits)
    assert 2 == visits[0].count("fondant")
    assert 3 == max(leg.stop for leg in sheet_of(plan).legs if leg.day == day)
    assert ["1 Old Mill", "2 Creek Mouth", "3 Fernbank"] == [line.split(":")[0] for line in told]
    assert f"leave {step.leave}, latest {step.latest}. " in told[1]
    assert 1 == told[1].count("further block")
    assert track_gpx(plan, *first_trip(plan)).count("<wpt") == len(
        trip_as_driven(plan.outfit, first_trip(plan)[1]).calls
    )
    assert manifests_xlsx(plan)


def test_the_change_sheet_counts_the_same_stops() -> None:
    """Four visits; five where one drives off and comes back.  What goes is said whole."""
    plan, apart = with_blocks(), with_blocks(drive_min=7)
    gone = change_sheet(plan, replace(plan, shifts=plan.shifts[1:]))
    (creek,) = (move for move in gone.moves if move.yard == "Creek Mouth")

    assert (4, 0) == (change_sheet(plan, plan).promised, change_sheet(plan, plan).visits_moved)
    assert 5 == change_sheet(apart, apart).promised
    assert 3 == gone.fall_away
    assert {"falls away"} == {move.now for move in gone.moves}
    assert (4, 3) == (gone.promised, gone.visits_moved)
    assert 2 == creek.what.count("block 14")


def test_tables_count_and_number_the_same_stops() -> None:
    """Three stops; both parts of Creek Mouth are rows of stop 2, with the manifest's hours."""
    plan = with_blocks()
    _, trip = first_trip(plan)
    tables = plan_tables(plan)
    trips, stops, loads = (tables[name] for name in ("trips", "stops", "loads"))
    creek = stops[(stops["trip"] == trip.id) & (stops["yard"] == "creek-mouth")]
    step = next(step for step in sheet(plan).steps if step.name == "Creek Mouth")

    assert 3 == trips.set_index("trip").loc[trip.id, "stops"] == sheet(plan).stops()
    assert {2} == set(creek["stop"])
    assert ["block", "block"] == [job for job in creek["job"] if job == "block"]
    assert {(step.arrive, step.leave, step.latest)} == set(
        zip(creek["arrives"], creek["leaves"], creek["latest"], strict=True)
    )
    assert ["load", "yard", "yard", "yard", "unload"] == list(
        loads[loads["trip"] == trip.id]["leaving"]
    )
    apart = with_blocks(drive_min=7)
    assert 4 == plan_tables(apart)["trips"].set_index("trip").loc[trip.id, "stops"]


def test_parts_that_take_off_in_lots_name_their_colonies() -> None:
    """The second part of one stop goes on with the colonies where the first left off."""
    plan = running_plan()
    shift, trip = next(
        (shift, trip) for shift in plan.shifts for trip in shift.trips
        if any(a.job is Job.TAKE_OFF for call in trip.calls for a in call.actions)
    )  # fmt: skip
    call = next(one for one in trip.yards() if any(a.job is Job.TAKE_OFF for a in one.actions))
    colonies = plan.outfit.yard(call.yard).colonies
    whole = next(a for a in call.actions if a.job is Job.TAKE_OFF)
    half, rest = replace(whole, colonies=4), replace(whole, colonies=colonies - 4)
    one = replace(call, actions=(half,))
    other = replace(call, arrive_min=call.leave_min, start_min=call.leave_min, actions=(rest,))
    at = trip.calls.index(call)
    split = replace(trip, calls=(*trip.calls[:at], one, other, *trip.calls[at + 1 :]))
    new = replace(shift, trips=tuple(split if t.id == trip.id else t for t in shift.trips))
    plan = replace(plan, shifts=tuple(new if s == shift else s for s in plan.shifts))
    step = next(step for step in manifest(plan, new, split).steps if step.lot)

    assert f"4 of {colonies} (nos 1\u20134)" in step.jobs[0]
    assert f"{colonies - 4} of {colonies} (nos 5\u2013{colonies})" in step.jobs[1]


@pytest.mark.parametrize("plan", [running_plan(), with_blocks(drive_min=3)], ids=["plain", "drive"])
def test_a_plan_without_such_calls_stays_as_it_is(plan: Plan) -> None:
    """Nothing is copied, and putting together twice is putting together once."""
    assert as_driven(plan) is plan
    merged = as_driven(with_blocks())
    assert merged == as_driven(merged)
    assert [CallKind.LOAD, *[CallKind.YARD] * 3, CallKind.UNLOAD] == [
        call.kind for call in first_trip(merged)[1].calls
    ]


def with_three_blocks(colonies: int = 10, *, fed: bool = False) -> Plan:
    """Creek Mouth's ten colonies come off; a block on each, and at once two more on ``colonies``.

    ``fed``: syrup for all of them at the take-off, so that nobody waits.
    """
    more = Action(Job.BLOCK, colonies, pieces=colonies)
    plan = with_blocks(more=more)
    shift, trip = first_trip(plan)
    calls: list[Call] = []
    for call in trip.calls:
        calls.append(call)
        if call.actions == (more,):
            at = call.leave_min
            calls.append(replace(call, arrive_min=at, start_min=at, end_min=at + 5,
                                 leave_min=at + 5))  # fmt: skip
        elif call.yard == "creek-mouth":
            off = Action(Job.TAKE_OFF, 10, boxes=15)
            feed = (Action(Job.FEED, 10, 1, ml=80_000),) if fed else ()
            block = Action(Job.BLOCK, 10, pieces=10)
            calls[-1] = replace(call, actions=(off, *feed, block))
    trip = replace(trip, calls=tuple(calls))
    return replace(plan, shifts=(replace(shift, trips=(trip,)), *plan.shifts[1:]))


def test_blocks_on_the_same_colonies_are_one_part() -> None:
    """Ten wait for syrup and get a block three times: 30 blocks, three a colony, on every paper."""
    plan = with_three_blocks()
    day = plan.shifts[0].day
    said = "Block on 10 colonies: 30 blocks, 3 a colony"
    creek = next(step for step in sheet(plan).steps if step.name == "Creek Mouth")
    stop = next(
        stop for one in day_sheet(plan, day).shifts for trip in one.trips for stop in trip.stops
        if stop.yard == "Creek Mouth"
    )  # fmt: skip
    phone = next(line for line in phone_text(plan, day).splitlines() if "Creek Mouth" in line)
    (cell,) = (cell for cell in sheet_of(plan).cells if cell.name == "Creek Mouth")
    (visit,) = (line for line in cell.lines if "fondant" in line)
    (wet,) = (
        stop for trip in wet_day(plan, day).trips for stop in trip.stops
        if stop.yard == "Creek Mouth"
    )  # fmt: skip

    assert ("Take off all 10 colonies, with a brush: 15 boxes on", said) == creek.jobs
    assert creek.jobs == stop.jobs
    assert "block 30 (3 each)" in phone
    assert "further" not in phone
    assert "30 fondant blocks, 10 colonies" in visit
    assert 1 == visit.count("fondant")
    assert "take-off, 10 colonies; block, 10 colonies" == wet.falls


@pytest.mark.parametrize("plan", [with_three_blocks(6), with_three_blocks(fed=True)])
def test_blocks_on_others_stay_apart(plan: Plan) -> None:
    """Six of ten that wait need not be the same six twice; nor is it told where none waits."""
    creek = next(step for step in sheet(plan).steps if step.name == "Creek Mouth")

    assert 2 == sum("A further block on" in job for job in creek.jobs)
    assert not any("a colony" in job for job in creek.jobs)


def test_who_came_off_and_was_fed_before_counts_for_who_waits() -> None:
    """Six of ten were fed the day before: the other four get two blocks here, said as one."""
    plan = with_three_blocks(4)
    shift, trip = first_trip(plan)
    yard = next(call for call in trip.yards() if call.yard == "creek-mouth")
    before = replace(
        yard, start_min=yard.start_min - 1440, end_min=yard.end_min - 1440,
        actions=(Action(Job.TAKE_OFF, 10, boxes=15), Action(Job.FEED, 6, 1, ml=48_000)),
    )  # fmt: skip
    early = replace(shift, day=shift.day - 1, trips=(Trip("early", (before,), ()),))
    calls = tuple(call for call in trip.calls if call is not yard)
    late = replace(shift, trips=(replace(trip, calls=calls),))
    plan = replace(plan, shifts=(early, late, *plan.shifts[1:]))
    (creek,) = (
        stop for one in day_sheet(plan, shift.day).shifts for trip in one.trips
        for stop in trip.stops if stop.yard == "Creek Mouth"
    )  # fmt: skip

    assert ("Block on 4 colonies: 8 blocks, 2 a colony",) == creek.jobs


def in_two_lots(way: Clearing | None = None) -> Plan:
    """Creek Mouth's first eight come off in two lots at one stop, a block on each colony.

    The first call may load up to 9 boxes, the second up to 16; the second lot is cleared by
    ``way``.
    """
    more = Action(Job.TAKE_OFF, 4, boxes=7, way=way)
    plan = with_blocks(more=more)
    shift, trip = first_trip(plan)
    lots = iter(((replace(more, way=None), 9), (more, 16)))
    calls: list[Call] = []
    for call in trip.calls:
        calls.append(call)
        if call.yard == "creek-mouth":
            off, limit = next(lots)
            block = Action(Job.BLOCK, 4, pieces=4)
            calls[-1] = replace(call, actions=(off, block), boxes_limit=limit)
    trip = replace(trip, calls=tuple(calls))
    return replace(plan, shifts=(replace(shift, trips=(trip,)), *plan.shifts[1:]))


def test_two_lots_at_one_stop_are_one_to_the_crew() -> None:
    """Four and four come off: eight, a block on each, up to 16 boxes aboard."""
    plan = in_two_lots()
    day = plan.shifts[0].day
    creek = next(step for step in sheet(plan).steps if step.name == "Creek Mouth")
    phone = next(line for line in phone_text(plan, day).splitlines() if "Creek Mouth" in line)
    stops = plan_tables(plan)["stops"]
    off = stops[(stops["yard"] == "creek-mouth") & (stops["boxes"] == 7)]

    assert (
        "Take off 8 of 10 (nos 1\u20138), with a brush: 14 boxes on",
        "Block on 8 colonies: 8 blocks",
    ) == creek.jobs
    assert "16" == creek.stop_at
    assert "off 8 col (nos 1-8) 14 bx" in phone
    assert "block 8, max 16 full aboard" in phone
    assert [16, 16] == list(off["stop_loading_at"])


def test_boards_of_two_lots_are_one_line_to_the_crew() -> None:
    """Four boards and six, whatever comes between: ten, on all colonies."""
    plan = with_blocks(more=Action(Job.BOARDS, 6, pieces=6))
    shift, trip = first_trip(plan)
    lots = iter(((Action(Job.BOARDS, 4, pieces=4), BLOCKS), (Action(Job.BOARDS, 6, pieces=6),)))
    calls = tuple(
        replace(call, actions=next(lots)) if call.yard == "creek-mouth" else call
        for call in trip.calls
    )
    plan = replace(plan, shifts=(replace(shift, trips=(replace(trip, calls=calls),)),))
    creek = next(step for step in sheet(plan).steps if step.name == "Creek Mouth")
    phone = next(x for x in phone_text(plan, shift.day).splitlines() if "Creek Mouth" in x)

    assert ("Boards on all 10 colonies: 10 boards",) == creek.jobs[:1]
    assert 2 == len(creek.jobs)
    assert 1 == phone.count("boards 10")
    assert "nos" not in phone


def test_blocks_of_the_next_lot_are_no_further_ones() -> None:
    """Lots cleared in two ways are said apart; blocks are for the colonies that came off."""
    plan = in_two_lots(Clearing.BLOWER)
    creek = next(step for step in sheet(plan).steps if step.name == "Creek Mouth")

    assert ["Block on 4 colonies: 4 blocks"] * 2 == [job for job in creek.jobs if "lock on" in job]
    assert 4 == len(creek.jobs)


def out_with_more(substance: str = "amitraz") -> Plan:
    """The small plan on its second morning: 90 L, 10 boards and 20 strips, and more for no stop.

    A stop was left out: 300 L (398.1 kg), 12 blocks, 4 feeders and 16 strips stay aboard.
    """
    plan = small_plan()
    kind = replace(plan.outfit.strips, substance=substance)
    outfit = replace(plan.outfit, strips=kind)
    shift = plan.shifts[1]
    (trip,) = shift.trips
    start = trip.calls[0].after
    left = replace(
        start, ml=start.ml + 300_000, blocks=12, feeders=4, strips=36, load_g=start.load_g + 430_000
    )
    out = replace(shift, trips=(replace(trip, driven=True, left=left),))
    shifts = (plan.shifts[0], out, plan.shifts[2])
    return replace(plan, outfit=outfit, shifts=shifts, now_min=trip.calls[1].start_min)


def test_a_truck_under_way_has_its_paper_for_what_it_left_with() -> None:
    """What it was filled with, what is for no stop, litres on every leg, and what goes back."""
    plan = out_with_more()
    shift = plan.shifts[1]
    sheet = manifest(plan, shift, shift.trips[0])
    page = Page(manifest_page(sheet)).text

    assert [("headboard", "IBC: filled with 390 L"), ("spare", "12 blocks and 4 feeders")] == [
        (one.where, one.what) for one in sheet.goods[:2]
    ]
    assert ("cab, sealed", "16 strips for no stop") in [(x.where, x.what) for x in sheet.goods]
    assert ["390 L", "300 L", "300 L"] == [step.aboard.syrup for step in sheet.steps[:-1]]
    assert "300 L, 4 feeders, 12 blocks, 16 strips and IBC" in sheet.steps[-1].jobs[-1]
    (surge,) = (one.words for one in sheet.cautions if one.head == "Surge")
    assert "39 % full (390 L)" in surge
    assert "under way" in page
    assert "Loaded, first on to last on" in page
    phone = phone_text(plan, 1)
    assert "Loaded 06:00: 390 L, 12 blocks, 10 boards, 36 strips, 4 feeders. " in phone
    assert "4 feeders. Filled IBC: 390 L\n" in phone
    assert "\n! for no stop: 300 L, 12 blocks, 4 feeders and 16 strips\n" in phone
    assert "for no stop" not in phone_text(small_plan(), 1)
    home = replace(plan, now_min=shift.end_min)
    assert "already driven" in Page(manifest_page(manifest(home, shift, shift.trips[0]))).text


def test_strips_for_no_stop_may_burn() -> None:
    """Also where none go in any more: out of the cab, and said to whoever handles them."""
    plan = out_with_more("formic acid")
    shift = plan.shifts[1]
    (trip,) = shift.trips
    calls = tuple(replace(one, actions=_no_strips(one.actions)) for one in trip.calls)
    shift = replace(shift, trips=(replace(trip, calls=calls),))
    sheet = manifest(plan, shift, shift.trips[0])

    where = [one.where for one in sheet.goods if "for no stop" in one.what]
    assert ["deck, sealed, off the honey"] == where
    assert ["Corrosive: gloves, eyes, no closed cab."] == [
        one.words for one in sheet.cautions if one.head == "Medicine"
    ]
    phone = phone_text(replace(plan, shifts=(shift,)), 1)
    assert "! strips corrosive" in phone
    all_of_them = "10 boards, 36 strips (formic acid) for no stop, 4 feeders."
    assert f"Loaded 06:00: 390 L, 12 blocks, {all_of_them}" in phone
    both = "10 boards, 20 strips (formic acid) and 16 strips (formic acid) for no stop, 4 feeders"
    assert both in phone_text(plan, 1)
    assert both in Page(day_page(plan, 1)).text
    assert "! strips corrosive" in phone_text(plan, 1)
    assert "; for no stop: 300 L, 12 blocks and 4 feeders\n" in phone_text(plan, 1)


def test_strips_for_no_stop_stand_once_on_a_phone() -> None:
    """On the load line where it names substances, else on the line below it, never on both."""
    for substance in ("formic acid", "amitraz"):
        assert 1 == phone_text(out_with_more(substance), 1).count("16 strips")


def _no_strips(actions: tuple[Action, ...]) -> tuple[Action, ...]:
    return tuple(one for one in actions if one.job is not Job.STRIPS)


def test_a_stop_to_come_with_nothing_left_says_that_it_is_not_done_yet() -> None:
    """Counts elsewhere took all its work while the truck was on its way there."""
    plan = running_plan()
    _, trip = first_trip(plan)
    (call,) = (one for one in trip.calls if one.yard == "fernbank")
    emptied = replace(call, actions=(), planned=call.actions)

    assert ("nothing to do",) == stop_words(replace(plan, now_min=call.start_min - 1), emptied)
    assert ("nothing done",) == stop_words(replace(plan, now_min=call.start_min), emptied)


def test_a_stop_counted_as_nothing_says_so() -> None:
    """Fernbank was not reached: no paper ends in a colon with nothing behind."""
    plan = running_plan()
    shift, trip = first_trip(plan)
    calls = tuple(
        replace(call, actions=(), planned=call.actions, counted=())
        if call.yard == "fernbank" else call
        for call in trip.calls
    )  # fmt: skip
    trip = replace(trip, calls=calls)
    plan = replace(plan, shifts=(replace(shift, trips=(trip,)), *plan.shifts[1:]))
    (step,) = (step for step in sheet(plan).steps if step.name == "Fernbank")
    (cell,) = (cell for cell in sheet_of(plan).cells if cell.name == "Fernbank")
    day = day_sheet(plan, shift.day)

    assert ("nothing done",) == step.jobs
    assert ("nothing done",) == day.shifts[0].trips[0].stops[-1].jobs
    assert any(line.endswith(": nothing done.") for line in cell.lines)
    assert "): nothing done\n" in phone_text(plan, shift.day)
    assert ". nothing done\r\n" in calendar_files(plan)[TRIPS_FILE].replace("\r\n ", "").replace(
        "\\n", "\r\n"
    )
