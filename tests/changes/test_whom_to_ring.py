"""What stands against the rest of a day of a truck that is out, and whom to ring."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import changed, typed_changes
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.errors import ScenarioError
from runplanner.season.replan_season import replan_season
from tests.audit.planted import edited
from tests.changes.thursday import THURSDAY, clocks, driven, red, to_two_yards, two_trips
from tests.running import at, put_in, running_plan


def test_a_shut_stop_to_come_is_pointed_out_with_the_line_to_type() -> None:
    """Shut until 10:40: the other order fits; shut all day: leave it out; all shut: home."""
    now = "Thu 4 Mar 8:10"
    head = "Red is out, and hours are shut at Creek Mouth: "

    (order,) = put_in("shut Creek Mouth Thu before 10:40", now=now).notes
    assert head + "'next Red: Fernbank, Creek Mouth' fits" == order
    (skip,) = put_in("shut Creek Mouth Thu", now=now).notes
    assert head + "'skip Creek Mouth' fits" == skip
    home, at_work = put_in("shut all Thu", now=now).notes
    assert home.endswith("at Creek Mouth, Fernbank: 'home Red' calls it home")
    assert at_work.startswith("Red is at work until 08:34, and hours are shut at Old Mill")
    told = put_in("shut Creek Mouth Thu before 10:40", order.split("'")[1], now=now)
    assert all("hours are shut" not in note for note in told.notes)
    (storm,) = put_in("unsettled Creek Mouth Thu from 20:00", now=now).notes
    assert "hours are shut at Creek Mouth" in storm


@pytest.mark.parametrize(
    ("shut", "line"),
    [
        ("shut Creek Mouth Thu before 10:40", "next Red: Fernbank, Creek Mouth"),
        ("shut Creek Mouth Thu", "skip Creek Mouth"),
        ("shut all Thu", "home Red"),
    ],
)
def test_a_driver_who_is_rung_does_what_the_advice_says(shut: str, line: str) -> None:
    """Just what the line would have done; the note says whom to ring, the next what to say."""
    now = "Thu 4 Mar 8:10"
    rung = changed(running_plan(), typed_changes([shut], now), ring=True)
    told = put_in(shut, line, now=now)
    new = replan_season(rung.plan, rung.outfit, rung.now_min, rounds=1)

    assert (told.plan, told.outfit, told.presumed) == (rung.plan, rung.outfit, rung.presumed)
    assert ": ring the driver now (" in rung.notes[0]
    assert rung.notes[1].startswith("tell Red: ")
    assert not any("fits" in note or "calls it home" in note for note in rung.notes)
    assert () == audit(new, rung.plan)


def test_where_not_even_home_fits_the_day_stays_and_is_said() -> None:
    """No road home from Old Mill: nothing is put in, nothing lost."""
    plan = running_plan()
    house, mill = plan.outfit.honey_house.base.place, plan.outfit.yard("mill").place_on(3)
    store = plan.outfit.feed_store.place
    rows = [list(row) for row in plan.outfit.travel.minutes]
    rows[mill] = [None] * len(rows)
    assert mill not in {house, store}
    travel = replace(plan.outfit.travel, minutes=tuple(tuple(row) for row in rows))
    cut = replace(plan, outfit=replace(plan.outfit, travel=travel))
    facts = changed(cut, typed_changes(["shut all Thu"], "Thu 4 Mar 8:10"), ring=True)

    assert clocks(cut.shifts[0]) == clocks(facts.plan.shifts[0])
    assert "nothing fits (a way by road); ring the driver" in facts.notes[0]


def test_shut_hours_of_a_later_trip_are_pointed_out() -> None:
    """Old Mill is shut from 13:00: the second trip falls; Fernbank as well: both are named."""
    now = "Thu 4 Mar 9:00"
    boards = running_plan().shifts[0].trips[0].calls[1].actions
    plan = edited(two_trips(), {"shifts.0.trips.1.calls.1.actions": boards})

    (note,) = put_in("shut Old Mill Thu from 13:00", now=now, plan=plan).notes
    assert "Red is out, and hours are shut at Old Mill: 'skip Old Mill' calls that trip off" == note
    both = ("shut Old Mill Thu from 13:00", "shut Fernbank Thu")
    (note,) = put_in(*both, now=now, plan=plan).notes
    assert note.endswith("at Fernbank, Old Mill: 'home Red' calls it home")
    three = ("shut Old Mill Thu from 13:00", "shut Creek Mouth Thu")
    (note,) = put_in(*three, now="Thu 4 Mar 8:10", plan=plan).notes
    assert note.endswith("'skip Creek Mouth' and 'skip Old Mill' fit")
    (note,) = put_in("shut Fernbank Thu", now=now, plan=plan).notes
    assert note.endswith("at Fernbank: 'skip Fernbank' fits")


def test_another_order_now_and_a_later_trip_called_off_are_advised_together() -> None:
    """The order that ends at 13:25 (above) fits, for the second trip loads at 14:40 here."""
    plan = two_trips()
    shift = plan.shifts[0]
    boards = shift.trips[0].calls[1].actions
    later = tuple(
        replace(call, arrive_min=call.arrive_min + 90, start_min=call.start_min + 90,
                end_min=call.end_min + 90, leave_min=call.leave_min + 90,
                actions=boards if call.yard else ())
        for call in shift.trips[1].calls
    )  # fmt: skip
    shift = replace(shift, trips=(shift.trips[0], replace(shift.trips[1], calls=later)),
                    end_min=THURSDAY + 960, breaks=())  # fmt: skip
    plan = replace(plan, shifts=(shift, *plan.shifts[1:]))
    shut, now = (
        ("shut Old Mill Thu from 13:00", "shut Creek Mouth Thu before 10:40"),
        at(THURSDAY + 490),
    )

    (note,) = put_in(*shut, now=now, plan=plan).notes
    assert note.endswith("'next Red: Fernbank, Creek Mouth' and 'skip Old Mill' fit")
    rung = changed(plan, typed_changes(shut, now), ring=True)
    assert ["mill", "fernbank", "creek-mouth"] == [where for where, _ in red(rung)[1]][1:4]
    assert 1 == len(red(rung)[0].trips)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("suspect Creek Mouth", "disease is suspected at Creek Mouth"),
        ("standstill Creek Mouth", "a standstill holds at Creek Mouth"),
        ("standstill Creek Mouth, feed agreed", "a standstill holds at Creek Mouth"),
    ],
)
def test_disease_told_while_the_truck_is_out(line: str, said: str) -> None:
    """No other order helps: the stop is to be left out, and who is rung leaves it out."""
    now = "Thu 4 Mar 8:10"
    rung = changed(running_plan(), typed_changes([line], now), ring=True)

    (note,) = put_in(line, now=now).notes
    assert f"Red is out, and {said}: 'skip Creek Mouth' fits" == note
    assert f"Red is out, and {said}: ring the driver now (skip Creek Mouth)" == rung.notes[0]
    assert put_in("skip Creek Mouth", now=now).plan == rung.plan
    driven(rung)
    assert () == put_in(line, "skip Creek Mouth", now=now).notes[1:]


def test_disease_beside_shut_hours() -> None:
    """Each reason is said once; both stops are to be left out, and then all are: home."""
    now = "Thu 4 Mar 8:10"
    (note,) = put_in("suspect Creek Mouth", "shut Fernbank Thu before 10:40", now=now).notes

    assert (
        "Red is out, and disease is suspected at Creek Mouth, hours are shut at Fernbank: "
        "'home Red' calls it home"
    ) == note


def test_a_suspect_yard_of_a_later_trip() -> None:
    """Before its trip has loaded it is called off; that is done for whoever is rung."""
    now, plan = "Thu 4 Mar 9:00", to_two_yards()
    facts = put_in("suspect Creek Mouth", now=now, plan=plan)
    rung = changed(plan, typed_changes(["suspect Creek Mouth"], now), ring=True)

    assert facts.notes[0].endswith("'skip Creek Mouth' calls that trip off")
    assert 2 == len(red(facts)[0].trips)
    assert 1 == len(red(rung)[0].trips)


def test_syrup_that_is_agreed_goes_to_a_yard_at_a_standstill() -> None:
    """A later trip feeds Old Mill, its honey off before: that may be where it is agreed."""
    now = "Thu 4 Mar 11:00"
    feed = (Action(Job.FEED, 24, 1, ml=204_000),)
    plan = edited(two_trips(), {"shifts.0.trips.1.calls.1.actions": feed})
    yards = tuple(replace(one, boxes=0) for one in plan.outfit.yards)
    ready = replace(plan.outfit.feed, ready_ml=500_000)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards, feed=ready))

    agreed = put_in("standstill Old Mill, feed agreed", now=now, plan=plan).notes
    told = "Red is out, and time lacks to wash down at Old Mill: once it has loaded, at 13:10, "
    assert (told + "type 'next Red: Old Mill'",) == agreed
    assert 1 == len(put_in("standstill Old Mill", now=now, plan=plan).notes)


def ends_at_creek_mouth() -> Plan:
    """The plan, Fernbank left out of Red's Thursday."""
    return put_in("skip Fernbank", now="Thu 4 Mar 8:10").plan


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("shut Creek Mouth Thu from 10:00: thunder", "hours are shut at Creek Mouth"),
        ("suspect Creek Mouth", "disease is suspected at Creek Mouth"),
    ],
)
def test_what_stands_against_the_stop_under_way_is_said(line: str, said: str) -> None:
    """It works at Creek Mouth from 8:45 to 10:35: nothing can be left out, so it is counted."""
    now, plan = "Thu 4 Mar 9:00", ends_at_creek_mouth()
    note = (
        f"Red is at work until 10:35, and {said}: ring the driver, and count what was done "
        "('done 0304-truck2-0716 Creek Mouth: ...')"
    )

    assert (note,) == put_in(line, now=now, plan=plan).notes
    assert (note,) == changed(plan, typed_changes([line], now), ring=True).notes
    assert note in put_in(line, now=now).notes
    told = put_in(line, "done 0304-truck2-0716 Creek Mouth: 5 colonies 8 boxes", now=now).notes
    assert note not in told
    assert () == put_in("shut Creek Mouth Thu before 9:00", now=now).notes
    assert () == put_in("shut Creek Mouth Thu from 10:35", now=now).notes


@pytest.mark.parametrize(
    ("line", "who"),
    [
        ("truck Red out Thu", "it is out of use today"),
        ("{driver} off Thu", "{driver} is away today"),
        ("trailer Box out Thu", "Box trailer is out of use today"),
    ],
)
def test_who_is_away_today_and_out_all_the_same_is_said(line: str, who: str) -> None:
    """At work at Creek Mouth, then Fernbank: both are presumed done unless another line says so."""
    now, plan = "Thu 4 Mar 9:00", edited(running_plan(), {"shifts.0.trailer": "t"})
    driver = next(p.name for p in plan.outfit.people if p.id == plan.shifts[0].crew[0])
    line, who = line.format(driver=driver), who.format(driver=driver)
    done = "'done 0304-truck2-0716 Creek Mouth: nothing'"

    assert (
        (
            f"Red is out, but {who}: presumed done as planned are Creek Mouth, Fernbank, unless "
            f"you type 'home Red' or 'skip Fernbank' or {done}"
        ),
    ) == put_in(line, now=now, plan=plan).notes
    home = put_in(line, "home Red", now=now, plan=plan).notes
    assert home[-1].endswith(f"presumed done as planned are Creek Mouth, unless you type {done}")
    counts = "done 0304-truck2-0716 Creek Mouth: nothing"
    assert not any(who in n for n in put_in(line, "home Red", counts, now=now, plan=plan).notes)
    assert not any(who in note for note in put_in(line, now="Thu 4 Mar 6:00", plan=plan).notes)


def test_before_it_has_loaded_the_driver_is_rung_and_the_lines_come_later() -> None:
    """Red left home at 7:00 and loads at 7:16: what is to be left out can be typed from then."""
    plan = edited(running_plan(), {"shifts.0.start_min": THURSDAY + 420})
    now, line = "Thu 4 Mar 7:05", "suspect Creek Mouth"

    assert (
        (
            "Red is out, and disease is suspected at Creek Mouth: ring the driver; once it has "
            "loaded, at 07:16, type 'skip Creek Mouth'"
        ),
    ) == put_in(line, now=now, plan=plan).notes
    (away,) = put_in("truck Red out Thu", now=now, plan=plan).notes
    assert "Old Mill, Creek Mouth, Fernbank, unless you type 'done " in away
    assert () == put_in("shut mill Fri", now=now, plan=plan).notes


def test_a_full_honey_house_and_boxes_still_to_come() -> None:
    """At 9:00 15 boxes of Creek Mouth come off; Fernbank's may stay on, those cannot.

    With Fernbank left out it unloads at 10:49, by the hand-worked call home above.
    """
    now, line = "Thu 4 Mar 9:00", "honey house full Thu"
    facts = put_in(line, now=now)

    assert (
        (
            "Red is out, and the honey house is full when boxes come in from Fernbank: "
            "'home Red' calls it home"
        ),
        (
            "Red brings 15 boxes at 12:39, off already, and the honey house is full then: find "
            "them a place"
        ),
    ) == facts.notes
    rung = changed(running_plan(), typed_changes([line], now), ring=True)
    assert ("unload", "10:49") == red(rung)[1][-1]
    assert "Red brings 15 boxes at 10:49" in rung.notes[-1]
    assert () == put_in("honey house full Thu from 14:00", now=now).notes


def test_a_honey_house_that_spins_nothing_more_today() -> None:
    """30 boxes come in at 12:39 and wait; what is not off yet may stay on."""
    line = "honey house stopped Thu from 13:30"

    (note,) = put_in(line, now="Thu 4 Mar 9:00").notes
    assert (
        "Red brings 30 boxes at 12:39, which wait in the honey house while nothing is spun; "
        "'skip Fernbank' leaves them on"
    ) == note
    (note,) = put_in(line, now="Thu 4 Mar 12:30").notes
    assert note.endswith("while nothing is spun")
    assert () == put_in("honey house stopped Thu before 12:00", now="Thu 4 Mar 9:00").notes


def test_a_count_put_right_keeps_what_its_driver_must_be_told() -> None:
    """Done at 9:30 the truck goes on to Fernbank an hour sooner, by either count."""
    now, line = "Thu 4 Mar 9:30", "done Creek Mouth: {} colonies, {} boxes"
    lines = (line.format(8, 16), line.format(9, 18))

    for facts in (put_in(lines[1], now=now), put_in(*lines, now=now)):
        (told,) = (note for note in facts.notes if note.startswith("tell Red"))
        assert "Fernbank 09:34" in told


@pytest.mark.parametrize("name", ["Red: the old one", "Ann", "Fernbank, Red", "Red (2)"])
def test_a_truck_whose_name_would_be_read_otherwise_is_named_by_its_id(name: str) -> None:
    """A line that is proposed is one that can be typed."""
    plan = running_plan()
    trucks = tuple(replace(t, name=name if t.name == "Red" else t.name) for t in plan.outfit.trucks)
    named = replace(plan, outfit=replace(plan.outfit, trucks=trucks))
    lines = ("suspect Creek Mouth", "suspect Fernbank")
    facts = put_in(*lines, now="Thu 4 Mar 8:10", plan=named)

    assert any("'home truck2' calls it home" in note for note in facts.notes)


def test_home_alone_is_the_one_truck_that_is_out() -> None:
    """And a reason after a comma is asked to stand behind a colon."""
    now = "Thu 4 Mar 9:00"
    assert put_in("home", now=now).plan == put_in("home Red", now=now).plan
    with pytest.raises(ScenarioError, match="it goes on 'too far'"):
        put_in("skip Fernbank, too far", now=now)


def test_no_syrup_is_none_fed() -> None:
    """As people text it, beside strips."""
    line, now = "done Creek Mouth: 10 colonies 15 boxes", "Thu 4 Mar 10:40"
    assert put_in(f"{line} no syrup", now=now).plan == put_in(f"{line} 0 fed", now=now).plan
