"""The change sheet: what moved and why, what to print again, what it costs."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.differences import Shifted, differences
from runplanner.daybook.plan import Mixing, Plan, Undone
from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN
from runplanner.office.replan import change_words
from runplanner.outfit.yards import Health
from runplanner.paperwork.changed.change_page import change_page, visits_words
from runplanner.paperwork.changed.change_sheet import change_sheet, manifest_text
from runplanner.paperwork.changed.work_words import work_words
from runplanner.paperwork.speech.say import stretch
from runplanner.paperwork.speech.tongue import said, speaking
from runplanner.phrase import phrase, verbatim
from runplanner.season.replan_season import CHEAPEST, replan_season
from tests.audit.planted import edited
from tests.paperwork.pages import Page
from tests.paperwork.plans import HOSTILE
from tests.running import at, feeds_fernbank_on_friday, put_in, running_plan, with_fewer

FIRST, SECOND = "0304-truck2-0716", "0305-truck2-0715"
SHUT = "shut Old Mill Fri: rain"


def after(*lines: str, now: str = "Thu 4 Mar 13:30") -> tuple[Plan, Plan]:
    """The plan before, as counted, and the plan after ``lines``."""
    facts = put_in(*lines, now=now)
    return facts.plan, replan_season(facts.plan, facts.outfit, facts.now_min, rounds=3)


def test_a_shut_window_moves_its_visit() -> None:
    """Old Mill's visit on Friday moves, for the hours are shut; its paper is called off."""
    before, new = after(SHUT)
    sheet = change_sheet(before, new, [SHUT])

    (move,) = sheet.moves
    assert ("Old Mill", "take-off 24, syrup 24, strips 24") == (move.yard, move.what)
    assert move.was.startswith("Fri 5 Mar 09:00, Red") or "Fri 5 Mar" in move.was
    assert not move.now.startswith("Fri")
    assert "hours for opening hives are shut: rain; hours for syrup are shut: rain" in move.why
    assert (SECOND,) == sheet.called_off
    assert (1, 1) == (sheet.promised, sheet.visits_moved)


def test_a_count_is_why_its_yard_has_other_visits() -> None:
    """Four of ten at Fernbank were not taken off: why they come on Friday is that count."""
    line = "done Fernbank: 6 colonies"
    before, new = after(line, now="Thu 4 Mar 20:00")
    sheet = change_sheet(before, new, [line], printed=running_plan())

    whys = {move.why for move in (*sheet.added, *sheet.moves) if move.yard == "Fernbank"}
    assert {"counted there: take-off 6, not 10; syrup 0, not 10; strips 0, not 10"} == whys
    others = [*sheet.added, *sheet.moves, *sheet.reworked, *sheet.later]
    assert all("counted" not in move.why for move in others if move.yard != "Fernbank")


def test_a_stop_that_a_late_truck_never_came_to_was_not_counted() -> None:
    """By printed hours Red was at Creek Mouth at 9:20; it left Old Mill late and went home."""
    lines = ("left Old Mill 9:10", "home Red")
    before, new = after(*lines, now="Thu 4 Mar 9:20")
    sheet = change_sheet(before, new, lines, printed=running_plan())

    moves = [*sheet.added, *sheet.moves, *sheet.reworked, *sheet.later]
    assert moves
    assert not [move.why for move in moves if "counted there" in move.why]


def test_untouched_papers_are_equal_to_the_last_sign() -> None:
    """A window shut at the mill on Saturday touches nobody: Friday's paper is the same bytes."""
    before, new = after("shut Old Mill Sat")
    old = {trip.id: (shift, trip) for shift in before.shifts for trip in shift.trips}
    now = {trip.id: (shift, trip) for shift in new.shifts for trip in shift.trips}

    assert (SECOND,) == change_sheet(before, new).untouched
    assert manifest_text(before, *old[SECOND]) == manifest_text(new, *now[SECOND])


def test_a_paper_whose_words_change_is_printed_again() -> None:
    """Trips hold the same figures, but the yard is now under watch: its paper says so."""
    before, new = after(now="Thu 4 Mar 6:00")
    facts = replace(
        new.outfit,
        yards=tuple(
            replace(yard, access=replace(yard.access, notes="new padlock"))
            for yard in new.outfit.yards
        ),
    )
    sheet = change_sheet(before, replace(new, outfit=facts))

    assert (FIRST, SECOND) == sheet.reprint
    assert () == sheet.untouched


def test_a_trip_that_loads_at_another_minute_keeps_its_name() -> None:
    """With Fernbank three colonies fewer Thursday's trip loads a minute later: a paper to print.

    Whoever has the old paper may count by it; planned once more, it has its name still.
    """
    before, new = after("dead 3 Fernbank", now="Thu 4 Mar 5:00")
    sheet = change_sheet(before, new)
    line = f"{FIRST} keeps its name; it loads at 07:17, not 07:16"

    assert ((FIRST,), (SECOND,)) == (sheet.reprint, sheet.untouched)
    assert () == sheet.fresh == sheet.called_off
    assert (line,) == sheet.other_start
    assert line in Page(change_page(before, new, sheet)).text
    assert line in list(change_words(sheet))
    facts = put_in(f"done {FIRST} Fernbank: 7 colonies 11 boxes", now="Thu 4 Mar 15:00", plan=new)
    last = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    assert (FIRST, SECOND) == tuple(trip.id for shift in last.shifts for trip in shift.trips)
    assert [] == [one.sentence() for one in audit(last, facts.plan)]


def test_the_page_tells_all_of_it() -> None:
    """Typed, taken, presumed, moved, papers, cost by head, undone before and now."""
    before, new = after(SHUT, "shut all Sat-Mon")
    sheet = change_sheet(before, new, [SHUT], [phrase("a note")], [(FIRST, "mill")])
    page = change_page(before, new, sheet)

    for words in (
        "Changes as of Thu 4 Mar 13:30", "1 of 1 promised visit moved", "shut Old Mill Fri: rain",
        "a note", "Old Mill (0304-truck2-0716)", "Called off", "in all", "Left undone before",
    ):  # fmt: skip
        assert words in page
    # Notes say whom to ring (README, on --ring): the sheet begins with them.
    assert page.index("a note") < page.index("Old Mill")


def test_what_is_presumed_done_is_named() -> None:
    """A stop's name alone left whoever counts to look up on the paper what would be wrong."""
    before, new = after(SHUT)
    sheet = change_sheet(before, new, presumed=[(FIRST, "mill")])

    assert ("Old Mill (0304-truck2-0716): boards on 24 (24 boards)",) == sheet.presumed
    assert sheet.presumed[0] in Page(change_page(before, new, sheet)).text


@pytest.mark.parametrize(
    ("edits", "why"),
    [
        ({"strips.stock": 3}, "fewer strips of amitraz than before; left undone, see below"),
        ({"feed.sugar_g": 3}, "less sugar than before; left undone, see below"),
        ({"kit.boards_owned": 3}, "fewer boards than before; left undone, see below"),
        ({}, "left undone, see below"),
    ],
)
def test_a_visit_that_falls_away_names_the_stock_that_is_short(
    edits: dict[str, object], why: str
) -> None:
    """Where all that Friday's visit was to do at Old Mill is left undone; else it says nothing."""
    before = running_plan()
    outfit = edited(before, {f"outfit.{path}": value for path, value in edits.items()}).outfit
    jobs = (Job.BOARDS, Job.TAKE_OFF, Job.FEED, Job.STRIPS)
    left = tuple(Undone("mill", job, 24, 0, (phrase("a reason"),)) for job in jobs)
    new = replace(before, outfit=outfit, shifts=before.shifts[:1], undone=left)

    (move,) = change_sheet(before, new).moves
    assert ("falls away", why) == (move.now, move.why)
    (move,) = change_sheet(before, replace(new, undone=())).moves
    assert "left undone" not in move.why


def test_the_page_of_no_change() -> None:
    """Only time has passed: nothing moved, every paper is kept."""
    before, new = after(now="Thu 4 Mar 6:00")
    page = change_page(before, new, change_sheet(before, new))

    assert "Nothing: only time has passed." in page
    assert "None." in page
    assert "Unchanged, keep the paper" in page
    assert "Left undone" not in page


def test_when_all_is_driven_there_is_no_paper() -> None:
    """At the end nothing is to be printed."""
    before, new = after(now=at(running_plan().shifts[-1].end_min + 1))

    assert "There are none." in change_page(before, new, change_sheet(before, new))


def test_who_drives_and_spins_otherwise_is_told() -> None:
    """Ann is off on Friday: Caro drives Red in her stead, and Ann spins on another day or not."""
    before, new = after("Ann off Fri")
    sheet = change_sheet(before, new)
    page = change_page(before, new, sheet)

    (duty,) = sheet.duties
    assert duty.what == "Fri 5 Mar, Red"
    assert duty.was[0].startswith("Ann drives")
    assert duty.now[0].startswith("Caro drives")
    assert duty.was[1].startswith("07:15")
    assert "Who drives, and when" in page
    for turn in sheet.house:
        assert turn.was or turn.now
    assert () == change_sheet(before, before).duties == change_sheet(before, before).house


def test_the_page_speaks_german() -> None:
    """Heads and reasons are German; names and what was typed stay as they are."""
    with speaking("de"):
        before, new = after(SHUT)
        page = change_page(before, new, change_sheet(before, new, [SHUT]))

    told = ("Änderungen, Stand", "Was gemeldet wurde", "nicht geeignet: rain", "Entfällt", SHUT)
    for words in told:
        assert words in page
    assert "1 von 1 zugesagtem Besuch verschoben" in page
    assert "Visits that moved" not in page


def test_new_visits_and_other_hours_are_told() -> None:
    """Fewer colonies counted off: a new visit, and what cheapest moves by hours."""
    facts = put_in(f"done {FIRST} Fernbank: 6 colonies 9 boxes", now="Thu 4 Mar 15:00")
    new = replan_season(facts.plan, facts.outfit, facts.now_min, upset=CHEAPEST, rounds=3)
    sheet = change_sheet(facts.plan, new)

    assert {"left undone until now"} == {move.why for move in sheet.added}
    assert {"\u2013"} == {move.was for move in sheet.added}
    assert change_page(facts.plan, new, sheet)
    moved = replace(sheet, later=sheet.added)
    assert "Same day, another hour" in change_page(facts.plan, new, moved)


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_words_are_only_words(name: str) -> None:
    """Typed lines and notes cannot become markup."""
    before, new = after(now="Thu 4 Mar 6:00")
    page = change_page(before, new, change_sheet(before, new, [name], [verbatim(name)]))

    assert "<img" not in page
    assert "<script" not in page
    assert "{{" not in page
    assert len(page) < 40_000


def test_what_is_to_be_done_comes_before_what_was_typed() -> None:
    """Papers to print first, then what moved; cost and the typed lines stand last."""
    before, new = after(SHUT)
    sheet = change_sheet(before, new, [SHUT], [phrase("a note")], [(FIRST, "mill")])
    text = Page(change_page(before, new, sheet)).text
    heads = (
        "Drivers' papers", "Visits that moved", "Presumed done", "What it costs", "What was typed",
    )  # fmt: skip

    places = [text.index(head) for head in heads]
    assert places == sorted(places)


def test_lines_to_type_in_a_note_stay_whole() -> None:
    """A note of 400 letters is not cut short; what goes on for ever is."""
    plan = running_plan()
    notes = [verbatim("a" * 400 + " 'skip Fernbank'"), verbatim("b" * 5_000)]
    sheet = change_sheet(plan, plan, (), notes, ())

    assert sheet.notes[0].endswith("'skip Fernbank'")
    assert len(sheet.notes[1]) == 600


def test_honey_that_spoils_stands_first() -> None:
    """Fernbank's 15 boxes, off at 12:29 on Thursday, spoil in half an hour; nobody is in time."""
    plan = running_plan()
    first, *rest = plan.outfit.yards
    hurried = replace(first, spin_by_hard=True, spin_by_min=30)
    plan = replace(plan, outfit=replace(plan.outfit, yards=(hurried, *rest)))
    facts = put_in(now="Thu 4 Mar 13:30", plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    sheet = change_sheet(facts.plan, new)
    text = Page(change_page(facts.plan, new, sheet)).text

    (line,) = sheet.spoils
    assert line in text
    assert line == (
        "Fernbank: 15 of 15 boxes spun after Thu 4 Mar 12:59, when they spoil; the last "
        "Thu 4 Mar 15:29. Nobody who is free can spin them in time."
    )
    assert text.index("Honey that spoils") < text.index("Drivers' papers")
    assert next(iter(change_words(sheet))) == f"honey spoils: {line}"
    over = replace(new, now_min=new.spinning[0].end_min)
    assert () == change_sheet(facts.plan, over).spoils
    assert () == change_sheet(running_plan(), running_plan()).spoils


def test_honey_spun_late_is_named_once_it_comes_to_be() -> None:
    """Nothing is spun before Sunday: Fernbank's boxes, off on Thursday, are due on Saturday.

    Where that was so before, nothing has changed; honey that is held is spun by nobody.
    """
    plan = running_plan()
    first, *rest = plan.outfit.yards
    plan = replace(
        plan, outfit=replace(plan.outfit, yards=(replace(first, spin_by_min=2_880), *rest))
    )
    facts = put_in("honey house stopped until Sun 8:00", now="Thu 4 Mar 13:30", plan=plan)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    sheet = change_sheet(facts.plan, new)

    (line,) = sheet.spun_late
    assert line.startswith(
        "Fernbank: 15 of 15 boxes spun after Sat 6 Mar 12:29; the last Sun 7 Mar"
    )
    assert f"honey spun late: {line}" in list(change_words(sheet))
    assert line in Page(change_page(facts.plan, new, sheet)).text
    assert () == sheet.spoils == change_sheet(new, new).spun_late
    suspect = tuple(replace(one, health=Health.SUSPECT) for one in new.outfit.yards)
    held = replace(new, outfit=replace(new.outfit, yards=suspect))
    assert () == change_sheet(facts.plan, held).spun_late


def test_a_visit_with_other_work_is_not_told_as_moved() -> None:
    """Two of the mill's colonies are dead: the visit stands, with two fewer, and is told apart."""
    before, new = running_plan(), with_fewer(running_plan(), 2)
    sheet = change_sheet(before, new)
    page = change_page(before, new, sheet)
    words = list(change_words(sheet))

    assert () == sheet.moves
    (one,) = sheet.reworked
    assert one.was == one.now
    assert "take-off 22, syrup 22, strips 22 (was: take-off 24, syrup 24, strips 24)" == one.what
    assert "Same day, other work" in page
    assert "0 of 4 promised visits moved, 1 with other work" in page
    assert "0 of 4 promised visits moved, 1 with other work" in words


def test_whoever_has_another_day_today_is_to_be_rung() -> None:
    """Caro drives Red in Ann's stead on Friday: rung a minute before, not on Thursday."""
    before = running_plan()
    shift = before.shifts[1]
    others = tuple(one for one in before.shifts if one is not shift)
    new = replace(before, shifts=(*others, replace(shift, crew=("caro", *shift.crew[1:]))))

    def ring(now_min: int) -> tuple[str, ...]:
        return change_sheet(before, replace(new, now_min=now_min)).ring

    hours = stretch(shift.start_min, shift.end_min)
    told = ring(shift.start_min - 1)
    assert told == (
        f"Ann: free (was: drives Red {hours})",
        f"Caro: drives Red {hours} (was: free)",
    )
    assert () == ring(0) == ring(shift.start_min - 24 * 60) == ring(shift.end_min)
    late = replace(new, now_min=shift.start_min - 1)
    sheet = change_sheet(before, late)
    page = Page(change_page(before, late, sheet)).text
    assert page.index("Ring now: today is otherwise") < page.index("Drivers' papers")
    assert [f"ring now: {line}" for line in told] == list(change_words(sheet))[:2]
    fewer = replace(with_fewer(before, 2), now_min=shift.start_min - 1)
    assert (f"Ann: drives Red {hours}, but with other stops or other work",) == change_sheet(
        before, fewer
    ).ring
    ann, *rest = new.outfit.people
    people = (replace(ann, off_days=(shift.day,)), *rest)
    away = replace(late, outfit=replace(new.outfit, people=people))
    assert told[1:] == change_sheet(before, away).ring


def test_new_visits_stand_apart_and_are_counted() -> None:
    """Fernbank is told undone: its visit is new, and not among those that moved."""
    facts = put_in(f"done {FIRST} Fernbank: nothing", now="Thu 4 Mar 15:00")
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=3)
    sheet = change_sheet(facts.plan, new)
    page, (first, *lines) = change_page(facts.plan, new, sheet), change_words(sheet)

    assert () == sheet.moves
    assert {"Fernbank"} == {one.yard for one in sheet.added}
    assert first.startswith("0 of 1 promised visit moved")
    assert first.endswith(f"{len(sheet.added)} new")
    assert first in page
    moved, added = page.index("Visits that moved"), page.index("New visits")
    assert moved < page.index("None.") < added < page.index("Fernbank", added)
    assert any(
        line.startswith("  Fernbank, ") and line.endswith("(left undone until now)")
        for line in lines
    )
    hours = replace(sheet, later=sheet.added)
    assert f"{len(sheet.added)} at another hour, " in visits_words(hours)
    with speaking("de"):
        assert " neu" in visits_words(sheet)


def test_visits_that_move_for_less_left_undone_say_so() -> None:
    """With the mill left undone before, time alone brings it in; a line typed may be why as well.

    Counts make news of the plan that papers were printed from, the same facts or not.
    """
    before, new = after(SHUT)
    plan = replace(before, outfit=new.outfit, tally=replace(new.tally, unfed_g=4_000, not_off=2))
    counted = replace(plan, shifts=plan.shifts[1:])
    bare = change_sheet(plan, new)

    assert "so that less is left undone" in {move.why for move in bare.moves}
    left = "less is left undone: nothing instead of 4 kg of stores not fed, 2 colonies with honey"
    assert f"nothing new was told; {left} still on" in list(change_words(bare))
    for printed in (counted, before):
        told = change_sheet(plan, new, printed=printed)
        assert f"{left} still on" in list(change_words(told))
    assert "" == change_sheet(before, new).less_left


def test_who_is_on_the_way_to_less_work_is_to_be_rung() -> None:
    """Nothing came off on Thursday: the syrup aboard on Friday is for honey.  Told once only."""
    printed = feeds_fernbank_on_friday()
    facts = put_in(f"done {FIRST} Fernbank: nothing", now="Fri 5 Mar 7:40", plan=printed)
    new = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=1)
    names = {one.id: one.name for one in new.outfit.people}
    (crew,) = (shift.crew for shift in new.shifts if SECOND in {trip.id for trip in shift.trips})

    told = change_sheet(facts.plan, new, printed=printed).ring
    assert [names[one] for one in crew] == [
        one.split(":")[0] for one in told if "with other stops or other work" in one
    ]
    assert () == change_sheet(new, new).ring


def test_what_was_is_what_papers_said_of_a_truck_told_otherwise() -> None:
    """Called home on Thursday morning, Red is back at 11:07; its paper had another hour."""
    printed = running_plan()
    facts = put_in("home Red", now="Thu 4 Mar 9:00")
    ann = facts.outfit.people[0]
    (was,) = (one for one in printed.shifts if one.day == 3 and ann.id in one.crew)
    before = replace(facts.plan, mixing=(), now_min=facts.now_min)
    new = replace(before, mixing=(Mixing(3 * 1440 + 720, 3 * 1440 + 750, ann.id, 60_000),))

    told = change_sheet(before, new, printed=replace(printed, mixing=())).ring
    hours = stretch(was.start_min, was.end_min)
    assert [f"(was: drives Red {hours})"] == [one[one.index("(was") :] for one in told]


def test_a_base_nobody_named_is_said_in_german() -> None:
    """What a driver is to be told names the base as the papers do."""
    (note,) = put_in("home Red", now="Thu 4 Mar 9:00").notes
    with speaking("de"):
        assert "Betrieb 10:49" in said(note)


def test_a_moved_visit_tells_what_it_was_to_do() -> None:
    """Syrup that became blocks reads so; where only boxes or kit are otherwise, these are told."""
    plan = running_plan()
    gone = differences(plan, replace(plan, shifts=())).moved
    was = next(one.spot for one in gone if one.spot.yard == "creek-mouth")
    later = replace(was, day=was.day + 1, start_min=was.start_min + DAY_MIN)
    action = was.actions[0]
    fewer = replace(later, actions=(replace(action, boxes=action.boxes + 1), *was.actions[1:]))
    bare = replace(later, actions=was.actions[1:])

    assert "(was: " not in work_words(Shifted(was, later))
    assert "(was: " not in work_words(Shifted(was, replace(later, actions=later.actions[::-1])))
    assert f"{action.boxes + 1} boxes" in work_words(Shifted(was, fewer)).split("(was: ")[0]
    assert f"{action.boxes} boxes" in work_words(Shifted(was, fewer)).split("(was: ")[1]
    assert "take-off" in work_words(Shifted(was, bare)).split("(was: ")[1]
    assert "take-off" not in work_words(Shifted(was, bare)).split("(was: ")[0]
    feed, boards = Action(Job.FEED, 5, ml=5_000, feeders=5), Action(Job.BOARDS, 5, pieces=5)
    for one, other, words in (
        (feed, replace(feed, feeders=4), "4 feeders"),
        (boards, replace(boards, pieces=4), "4 boards"),
        (action, replace(action, boards_off=6), "6 boards"),
    ):
        kit = Shifted(replace(was, actions=(one,)), replace(was, actions=(other,)))
        assert words in work_words(kit).split("(was: ")[0]
