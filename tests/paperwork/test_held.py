"""Honey that came in before its yard turned suspect: every paper says not to spin it."""

from dataclasses import replace
from random import Random

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.honey_on import honey_on
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, Job
from runplanner.days import DAY_MIN, clock, day_of
from runplanner.errors import ScenarioError
from runplanner.outfit.yards import CLOSED, Health
from runplanner.paperwork.changed.change_page import change_page
from runplanner.paperwork.changed.change_sheet import change_sheet
from runplanner.paperwork.days.day_sheet import day_page
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.driver.manifest import manifest
from runplanner.paperwork.lists.intake_sheet import intake, intake_page
from runplanner.paperwork.lists.medicine_record import medicine_page
from runplanner.paperwork.lists.take_off_register import loads, register_page
from runplanner.paperwork.speech.tongue import speaking
from runplanner.paperwork.stop.honey import lots, standing, waiting
from runplanner.paperwork.traces.traced import trace
from runplanner.season.replan_season import replan_season
from tests.paperwork.pages import Page
from tests.paperwork.plans import HOSTILE, small_plan
from tests.running import put_in

SENTENCE = (
    "Do not spin 15 boxes of lot L20270301-yard1, Yard 1 (suspect): "
    "stack them apart, ask the inspector."
)


def turned(health: Health, now_min: int) -> Plan:
    """The small plan: yard 1's 15 boxes come in on day 0 and are spun on day 2 from 08:00.

    Where it closes, one each six minutes are spun until now, and the rest are planned no more.
    """
    plan = small_plan()
    first, *rest = plan.outfit.yards
    spin, *others = sorted(plan.spinning, key=lambda one: one.start_min)
    if health in CLOSED:
        first = replace(first, held_min=now_min)
        done = min(spin.boxes, max(0, -(-(now_min - spin.start_min) // 6)))
        spin = replace(spin, end_min=spin.start_min + 6 * done, boxes=done)
    outfit = replace(plan.outfit, yards=(replace(first, health=health), *rest))
    spinning = (*([spin] if spin.boxes else []), *others)
    return replace(plan, outfit=outfit, spinning=spinning, now_min=now_min)


def pages(plan: Plan, day: int) -> list[str]:
    """Sheet, intake and text of a day."""
    return [
        Page(day_page(plan, day)).text,
        Page(intake_page(plan, day)).text,
        phone_text(plan, day),
    ]


@pytest.mark.parametrize("health", [Health.SUSPECT, Health.STANDSTILL])
def test_the_papers_of_the_day_say_not_to_spin(health: Health) -> None:
    """On day 1 it is heard of; day 2 is when they were to be spun."""
    sheet, house, text = pages(turned(health, DAY_MIN + 420), 2)

    said = SENTENCE.replace("suspect", health.value)
    assert said in sheet
    assert said in house
    assert "Nobody spins." in house
    assert (
        "\n! Do not spin 15 boxes of L20270301-yard1 Yard 1: stack apart, ask the inspector\n"
    ) in text


def test_only_boxes_not_spun_yet_are_held() -> None:
    """Spun at 480 + 6 k: by 08:30 those of k = 0 to 4 are in, ten are not."""
    at = 2 * DAY_MIN + 510
    first, second = lots(turned(Health.SUSPECT, at))

    assert (10, 0) == (first.held, second.held)
    assert "Do not spin 10 boxes of lot L20270301-yard1" in pages(turned(Health.SUSPECT, at), 2)[0]


def test_what_is_spun_or_only_watched_is_not_held() -> None:
    """On day 3 all 15 are spun; a day that is over says nothing, nor does a watched yard."""
    for plan, day in (
        (turned(Health.SUSPECT, 3 * DAY_MIN), 4),
        (turned(Health.SUSPECT, 3 * DAY_MIN), 2),
        (turned(Health.WATCH, DAY_MIN), 2),
        (turned(Health.SOUND, DAY_MIN), 2),
    ):
        assert not any("o not spin" in page for page in pages(plan, day))
        assert "Do not spin" not in Page(register_page(plan)).text


def test_a_line_of_what_was_spun_that_day_has_no_mark() -> None:
    """Of a lot spun in part that is past: its line says nothing; it arrived and is held."""
    plan = turned(Health.SUSPECT, 2 * DAY_MIN + 510)

    assert [5] == [line.boxes for line in intake(plan, 2).spins]
    assert [True] == [one.held for one in intake(plan, 0).arrivals]


def test_the_register_has_them_by_themselves() -> None:
    """Out of the common table, under a head of their own."""
    plan = turned(Health.SUSPECT, DAY_MIN)
    load = loads(plan)[0]

    assert ((), ()) == (load.lots, load.apart)
    assert ["L20270301-yard1"] == [line.lot for line in load.held]
    assert "Do not spin: stack apart, ask the inspector" in Page(register_page(plan)).text


def changes(*lines: str, now: str = "Thu 4 Mar 13:30") -> tuple[Plan, Plan]:
    """Before and after lines typed when Thursday's truck is in, with Creek Mouth's boxes."""
    facts = put_in(*lines, now=now)
    before = replace(facts.plan, outfit=put_in(now=now).outfit)
    return before, replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)


def test_the_change_sheet_says_so_and_how_to_trace() -> None:
    """Creek Mouth's 15 boxes are spun from 13:04, six of them by now; Old Mill brought none."""
    before, after = changes("suspect Creek Mouth", "standstill Old Mill")
    sheet = change_sheet(before, after)

    trace = (
        "{}: \u201crunplanner trace PLAN {}\u201d lists its visits, its boxes and every yard seen "
        "before and after."
    )
    held, *traced = sheet.held
    assert held == (
        "Do not spin 9 boxes of lot L20270304-creek-mouth, Creek Mouth (suspect): "
        "stack them apart, ask the inspector."
    )
    assert traced == [
        trace.format("Creek Mouth (suspect)", "creek-mouth"),
        trace.format("Old Mill (standstill)", "mill"),
    ]
    assert "Suspect or at a standstill" in Page(change_page(before, after, sheet)).text
    with speaking("de"):
        german = Page(change_page(before, after, change_sheet(before, after))).text
    assert "nicht schleudern" in german


def test_what_was_suspect_before_is_told_while_its_honey_stands() -> None:
    """Creek Mouth's once more, Old Mill's no more; without either there is no such part."""
    _, after = changes("suspect Creek Mouth", "standstill Old Mill")
    again = change_sheet(after, after).held

    assert [True, True] == ["Creek Mouth (suspect)" in line for line in again]
    assert not any("Old Mill" in line for line in again)
    before, none = changes()
    sheet = change_sheet(before, none)
    assert () == sheet.held
    assert "at a standstill" not in Page(change_page(before, none, sheet)).text


def strips_beside_honey(*more: str) -> tuple[Plan, Plan]:
    """Fernbank by noon on Thursday: 6 of 10 off with 12 boxes, 6 fed, strips in all the same.

    8 of its 20 boxes are on the four others, and come in with a later trip.
    """
    return changes("done 0304-truck2-0716 Fernbank: 6 colonies 12 boxes 6 fed strips in", *more)


def test_honey_on_when_strips_went_in_is_held() -> None:
    """The lot to come is for nobody to spin; what came off at that very visit is not held."""
    before, after = strips_beside_honey()
    held = [lot for lot in lots(after) if lot.held]

    (lot,) = held
    assert ("fernbank", 8, 8) == (lot.yard, lot.boxes, lot.held)
    day = lot.arrive_min // DAY_MIN
    said = (
        f"Do not spin 8 boxes of lot {lot.code}, Fernbank (on the hives when strips went in, Thu "
        "4 Mar): not for people until the label and your vet say so; stack them apart."
    )
    sheet, house, text = pages(after, day)
    assert said in sheet
    assert said in house
    assert "do not spin, stack apart" in house
    assert 0 == len(lot.starts)
    assert f"\n! Do not spin 8 boxes of {lot.code} Fernbank: strips were in, not for people" in text
    assert "! strips in since Thu 4 Mar: boxes apart, not for people" in text
    assert not any("o not spin" in page for page in pages(after, day - 1))
    load = next(load for load in loads(after) if load.treated)
    assert [lot.code] == [line.lot for line in load.treated]
    assert "Do not spin: strips were in" in Page(register_page(after)).text
    assert "Honey was on 4 colonies when they went in" in Page(medicine_page(after)).text
    driver = next((s, t) for s in after.shifts for t in s.trips if t.id == lot.trip)
    watch = [step.watch for step in manifest(after, *driver).steps]
    assert any(one.startswith("Strips in since Thu 4 Mar: these boxes") for one in watch)
    assert () == audit(after, before)


def test_the_change_sheet_begins_with_strips_and_syrup_beside_honey() -> None:
    """Both are told, strips first; syrup no longer once the boxes are off, nor a clean count."""
    before, after = strips_beside_honey()
    sheet = change_sheet(before, after)
    strips, lot, syrup = sheet.honey_on

    assert strips == (
        "Fernbank: strips have been in since Thu 4 Mar with honey on 4 colonies (8 boxes). It is "
        "not for people until the label and your vet say so; keep these boxes apart."
    )
    assert lot.startswith("Do not spin 8 boxes")
    assert syrup.startswith("Fernbank: syrup went in on Thu 4 Mar with honey on 4 colonies. ")
    assert () == sheet.held
    page = Page(change_page(before, after, sheet)).text
    assert page.index("went in with honey on") < page.index("Drivers' papers")
    off = next(one for one in lots(after) if one.held).arrive_min
    late = replace(after, now_min=off)
    assert (strips, lot) == change_sheet(after, late).honey_on
    weeks = replace(after, now_min=off + 20 * DAY_MIN)
    assert (strips, lot) == change_sheet(after, weeks).honey_on
    clean = changes("done 0304-truck2-0716 Fernbank: 6 colonies 12 boxes")
    assert () == change_sheet(*clean).honey_on


def test_boxes_beside_strips_are_those_that_came_off() -> None:
    """The four others bring eleven boxes, not their eight: both lines of the sheet say eleven.

    Where two of them bring six, the two still on keep their share, be it planned to come off
    (four) or not.
    """
    _, after = strips_beside_honey()
    (lot,) = [lot for lot in lots(after) if lot.held]
    for colonies, boxes, said, held in ((4, 11, 11, [11]), (2, 6, 10, [6, 4])):
        line = f"done {lot.trip} Fernbank: {colonies} colonies {boxes} boxes"
        facts = put_in(line, now=_typed(lot.arrive_min + 60), plan=after)
        plan = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
        assert f"on 4 colonies ({said} boxes)" in change_sheet(after, plan).honey_on[0]
        assert held == [lot.held for lot in lots(plan) if lot.held]
        driven = [s for s in plan.shifts if s.trips and s.trips[0].driven]
        undone = replace(plan, shifts=tuple(driven))
        assert said == honey_on(undone, Job.STRIPS)["fernbank"].boxes


def test_a_lot_both_treated_and_suspect_is_told_once() -> None:
    """Beside the strips stands the yard only; both reasons stand with what is suspect."""
    before, after = strips_beside_honey()
    (lot,) = [lot for lot in lots(after) if lot.held]
    facts = put_in("suspect Fernbank", now=_typed(lot.off_min), plan=after)
    plan = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    sheet = change_sheet(before, plan)

    assert () == audit(plan, facts.plan)
    assert not any("Do not spin" in line for line in sheet.honey_on)
    assert any("strips have been in" in line for line in sheet.honey_on)
    assert len(sheet.held) == len(set(sheet.held))
    assert 1 == sum("when strips went in" in line for line in sheet.held)
    assert 1 == sum("ask the inspector" in line for line in sheet.held)


def _typed(minute: int) -> str:
    """A minute of the campaign as people type it."""
    return f"{day_of(minute) + 1} Mar {clock(minute)}"


def test_honey_beside_strips_stays_held_when_the_hour_planned_for_it_is_past() -> None:
    """Its 8 boxes come, stand there for days, fill the room and are spun by nobody.

    All others are: Creek Mouth's 15, the 12 that came off before, Old Mill's 40.
    """
    plan = strips_beside_honey()[1]
    (lot,) = [lot for lot in lots(plan) if lot.held]
    for minute in (lot.arrive_min, 6 * DAY_MIN + 1200, 7 * DAY_MIN + 1200):
        facts = put_in(now=_typed(minute), plan=plan)
        plan = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
        assert () == audit(plan, facts.plan)
        assert [8] == [one.held for one in lots(plan) if one.held]
        assert 15 + 12 + 40 == sum(one.boxes for one in plan.spinning)
    sheet, house, text = pages(plan, 7)

    assert all("Do not spin 8 boxes of " in page for page in (sheet, house, text))
    assert (8, 0) == (standing(plan, plan.now_min), waiting(plan, plan.now_min))
    spun = trace(plan, plan.outfit.yard("fernbank")).boxes[-1].spun
    assert "8 boxes held, not to be spun" == spun


def test_strips_told_while_their_honey_is_spun_break_it_off() -> None:
    """Fernbank's two stops of Thursday and later are over; that the first put strips in is news.

    What was spun of the second by then is spun; a count that takes the strips back frees the rest.
    """
    first = "done 0304-truck2-0716 Fernbank: 6 colonies 12 boxes 6 fed"
    facts = put_in(f"{first} no strips", now="Thu 4 Mar 13:30")
    plan = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    (lot,) = [lot for lot in lots(plan) if lot.yard == "fernbank" and lot.boxes == 8]
    told = put_in(f"{first} strips in", now=_typed(lot.starts[3] + 1), plan=plan)
    held = replan_season(told.plan, told.outfit, told.now_min, rounds=0)
    (mine,) = [one for one in lots(held) if one.held]
    back = put_in(f"{first} no strips", now=_typed(lot.starts[3] + 60), plan=held)
    freed = replan_season(back.plan, back.outfit, back.now_min, rounds=0)

    assert (lot.code, 4, lot.starts[:4]) == (mine.code, mine.held, mine.starts)
    assert not any(one.held for one in lots(freed))
    assert 15 + 12 + 8 + 40 == sum(one.boxes for one in freed.spinning)
    assert ((), ()) == (audit(held, told.plan), audit(freed, back.plan))


def freed(plan: Plan, *lines: str, now_min: int) -> tuple[Plan, Plan]:
    """Before and after lines typed at a minute, audited."""
    facts = put_in(*lines, now=_typed(now_min), plan=plan)
    after = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    assert () == audit(after, facts.plan)
    return facts.plan, after


def test_honey_beside_strips_is_spun_once_it_is_freed() -> None:
    """Held since Thursday, freed on Monday at 8:00: from the next minute on, behind all others.

    No paper from then on says not to, while the medicine record keeps what it said.
    """
    held = strips_beside_honey()[1]
    (mine,) = [lot for lot in lots(held) if lot.held]
    now = 7 * DAY_MIN + 480
    before, after = freed(held, "spin Fernbank", now_min=now)
    lot = next(lot for lot in lots(after) if lot.code == mine.code and lot.trip == mine.trip)

    assert (0, 8, now + 1) == (lot.held, len(lot.starts), lot.starts[0])
    assert not any(one.starts[-1] > lot.starts[0] for one in lots(after) if one != lot)
    assert 15 + 12 + 8 + 40 == sum(one.boxes for one in after.spinning)
    sheet = change_sheet(before, after)
    texts = [*pages(after, 7), Page(register_page(after)).text, Page(medicine_page(after)).text]
    assert not any("not for people" in text or "o not spin" in text for text in texts[:4])
    assert ((), ()) == (sheet.honey_on, sheet.held)
    assert "write it down, and ask your vet before anybody eats it" in texts[4]
    assert medicine_page(before) == medicine_page(after)
    assert "8 boxes to be spun" in trace(after, after.outfit.yard("fernbank")).boxes[-1].spun


def test_honey_freed_before_it_comes_is_fetched_as_any_other() -> None:
    """The driver is told nothing of it, nor the honey house when it comes.

    Of those who fetched it before, papers stay as they were.
    """
    held = strips_beside_honey()[1]
    (mine,) = [lot for lot in lots(held) if lot.held]
    before, after = freed(held, "spin Fernbank", now_min=mine.off_min - 300)
    ((shift, trip),) = [
        (shift, trip) for shift in after.shifts for trip in shift.trips if trip.id == mine.trip
    ]

    assert (mine.trip,) == change_sheet(before, after).reprint
    assert not any(lot.held for lot in lots(after))
    assert "strips in since" not in phone_text(after, shift.day)
    assert not any("Strips" in step.watch for step in manifest(after, shift, trip).steps)
    late = freed(held, "spin Fernbank", now_min=mine.arrive_min)[1]
    assert "strips in since" in phone_text(late, shift.day)
    assert "8 boxes to be spun" in trace(late, late.outfit.yard("fernbank")).boxes[-1].spun


def test_freed_honey_of_a_yard_that_closes_waits_for_the_inspector_alone() -> None:
    """Nothing is said of strips any more; opened again, it is spun."""
    held = strips_beside_honey()[1]
    (mine,) = [lot for lot in lots(held) if lot.held]
    plan = freed(held, "spin Fernbank", now_min=mine.arrive_min)[1]
    plan = freed(plan, "suspect Fernbank", now_min=mine.arrive_min + 1)[1]
    (lot,) = [one for one in lots(plan) if one.held and one.trip == mine.trip]
    text = Page(intake_page(plan, day_of(mine.arrive_min))).text
    opened = freed(plan, "sound Fernbank", now_min=7 * DAY_MIN + 480)[1]

    assert f"Do not spin {lot.held} boxes of lot {lot.code}, Fernbank (suspect)" in text
    assert "when strips went in" not in text
    assert not any(one.held for one in lots(opened))


def test_strips_told_anew_after_boxes_were_freed_hold_them_again() -> None:
    """A count takes the strips back, and with them the word that freed the boxes."""
    first = "done 0304-truck2-0716 Fernbank: 6 colonies 12 boxes 6 fed"
    held = strips_beside_honey()[1]
    (mine,) = [lot for lot in lots(held) if lot.held]
    plan = freed(held, "spin Fernbank", now_min=mine.off_min - 300)[1]
    for word, boxes in (("no strips", 0), ("strips in", 8)):
        plan = freed(plan, f"{first} {word}", now_min=plan.now_min + 1)[1]
        assert boxes == sum(one.held for one in lots(plan))


def test_the_word_that_freed_boxes_is_not_for_strips_that_went_in_later() -> None:
    """Freed on Thursday; no strips had gone in, but on Friday, with two colonies' honey on."""
    held = strips_beside_honey()[1]
    (mine,) = [lot for lot in lots(held) if lot.held]
    plan = freed(held, "spin Fernbank", now_min=held.now_min + 1)[1]
    lines = (
        "done 0304-truck2-0716 Fernbank: 6 colonies 12 boxes 6 fed no strips",
        f"done {mine.trip} Fernbank: 2 colonies 4 boxes 2 fed strips in",
    )
    plan = freed(plan, *lines, now_min=mine.arrive_min)[1]
    yard = plan.outfit.yard("fernbank")

    assert (mine.off_min, mine.arrive_min) <= (yard.treated_min or 0, yard.treated_told_min)
    assert yard.freed_min is None
    assert [4] == [lot.held for lot in lots(plan) if lot.held]


def test_all_may_be_told_at_once() -> None:
    """That strips went in, that the yard is open again and that its honey may be spun."""
    closed = changes("suspect Fernbank", now="Thu 4 Mar 13:00")[1]
    lines = ("spin Fernbank", "sound Fernbank", "done Fernbank: 6 colonies 12 boxes strips in")
    after = freed(closed, *lines, now_min=3 * DAY_MIN + 1000)[1]

    assert not any(lot.held for lot in lots(after))
    assert "write it down" in Page(medicine_page(after)).text


@pytest.mark.parametrize("seed", range(4))
def test_whatever_is_typed_of_held_honey_plans_hold(seed: int) -> None:
    """Freed, held anew, closed and opened, counted again, at any hour: the audit finds nothing.

    Where no box is counted otherwise, none is spun twice or lost.
    """
    dice = Random(seed)
    counts = "done 0304-truck2-0716 Fernbank: 6 colonies 12 boxes 6 fed"
    plan = strips_beside_honey()[1]
    for _ in range(5):
        now = min(plan.now_min + dice.choice((1, 7, 60, 300, 1_440)), 8 * DAY_MIN - 1)
        said = [f"{word} Fernbank" for word in ("spin", "suspect", "sound", "watch")]
        said += [f"{counts} strips in", f"{counts} no strips", "suspect Creek Mouth"]
        try:
            plan = freed(plan, *dice.sample(said, dice.choice((1, 1, 2))), now_min=now)[1]
        except ScenarioError:
            continue
        assert all(lot.held + len(lot.starts) == lot.boxes for lot in lots(plan))


def test_papers_are_compared_with_those_in_hand() -> None:
    """The driver's paper of the boxes to come was printed before anybody heard of the strips."""
    _, after = strips_beside_honey()
    trip = next(lot.trip for lot in lots(after) if lot.held)
    unheard = replace(after, shifts=tuple(
        replace(shift, trips=tuple(replace(one, calls=tuple(_no_strips(call) for call in one.calls))
                                   for one in shift.trips))
        for shift in after.shifts
    ))  # fmt: skip

    assert trip in change_sheet(after, after).untouched
    assert (trip,) == change_sheet(after, after, printed=unheard).reprint


def _no_strips(call: Call) -> Call:
    kept = tuple(one for one in call.actions if one.job is not Job.STRIPS)
    return replace(call, actions=kept) if call.yard == "fernbank" else call


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_are_only_words(name: str) -> None:
    """The name of a held lot's yard cannot become markup, nor a line of its own in a text."""
    plan = turned(Health.SUSPECT, DAY_MIN)
    yards = tuple(replace(yard, name=name) for yard in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))

    for page in (day_page(plan, 2), intake_page(plan, 2), register_page(plan)):
        assert "<img" not in page
        assert "<script" not in page
    assert 1 == sum("o not spin" in line for line in phone_text(plan, 2).splitlines())


def test_nobody_is_sent_to_spin_what_is_held() -> None:
    """Creek Mouth's 15 boxes stand first in line and are held: Fernbank's alone are spun."""
    _, after = changes("suspect Creek Mouth", now="Thu 4 Mar 13:00")
    sheet, house, text = pages(after, 3)

    (spin,) = [one for one in after.spinning if one.start_min < 4 * DAY_MIN]
    assert (15, 13 * 60 + 4) == (spin.boxes, spin.start_min % DAY_MIN)
    assert "\nSpin 13:04-14:19: Caro, 15 boxes\n" in text
    assert "Caro 13:04–14:19: 15 boxes" in house
    assert "13:04–14:19 spin: Caro, 15 boxes" in sheet
    assert all("Do not spin 15 boxes of " in page for page in (sheet, house, text))


def test_a_stretch_goes_on_with_what_is_not_held() -> None:
    """Heard of at 13:19: three are in the extractor or done, Caro goes on with Fernbank's.

    The third is in until 13:19, so these begin at 13:20, a minute from now.
    """
    _, after = changes("suspect Creek Mouth", now="Thu 4 Mar 13:19")
    text = pages(after, 3)[2]

    assert "\nSpin 13:04-13:19: Caro, 3 boxes\n" in text
    assert "\nSpin 13:20-14:35: Caro, 15 boxes\n" in text


def test_nothing_is_broken_off_for_a_yard_without_honey_there() -> None:
    """Old Mill's comes tomorrow: Caro's 30 boxes go on."""
    _, after = changes("suspect Old Mill", now="Thu 4 Mar 13:19")

    assert (13 * 60 + 4, 30) == (after.spinning[0].start_min % DAY_MIN, after.spinning[0].boxes)


@pytest.mark.parametrize(
    "line", ["sound Creek Mouth", "watch Creek Mouth", "standstill Creek Mouth, licence No 17"]
)
def test_once_a_yard_is_open_its_honey_is_spun_after_all(line: str) -> None:
    """Suspect on Thursday at 13:19, three boxes spun; opened on Saturday at 8:00.

    The 12 others are planned from the next minute on, behind those that were spun meanwhile,
    and what the first three were stays.
    """
    before, closed = changes("suspect Creek Mouth", now="Thu 4 Mar 13:19")
    facts = put_in(line, now="Sat 6 Mar 8:00", plan=closed)
    after = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
    creek, fernbank, _ = lots(after)

    assert ("creek-mouth", 0, 15) == (creek.yard, creek.held, len(creek.starts))
    assert [13 * 60 + at for at in (4, 9, 14)] == [at % DAY_MIN for at in creek.starts[:3]]
    assert 5 * DAY_MIN + 8 * 60 + 1 == creek.starts[3]
    assert lots(closed)[1] == fernbank
    assert (58, 70) == tuple(sum(one.boxes for one in plan.spinning) for plan in (closed, after))
    assert trace(after, after.outfit.yard("creek-mouth")).boxes[0].spun == (
        "3 boxes spun Thu 4 Mar 13:04 to Thu 4 Mar 13:14; "
        "12 boxes to be spun Sat 6 Mar 08:01 to Sat 6 Mar 08:56"
    )
    assert ((), ()) == (audit(closed, before), audit(after, closed))


def test_a_yard_closed_twice_holds_what_is_left() -> None:
    """Opened on Saturday at 8:00 and closed again at 8:20: four of the 12 are in by then.

    One a minute past and each fifth: 8:01, 8:06, 8:11, 8:16.
    """
    _, closed = changes("suspect Creek Mouth", now="Thu 4 Mar 13:19")
    plan = closed
    for line, now in (("sound", "8:00"), ("suspect", "8:20"), ("watch", "9:00")):
        facts = put_in(f"{line} Creek Mouth", now=f"Sat 6 Mar {now}", plan=plan)
        plan = replan_season(facts.plan, facts.outfit, facts.now_min, rounds=0)
        assert () == audit(plan, facts.plan)
        if line == "suspect":
            assert (8, 7) == (lots(plan)[0].held, len(lots(plan)[0].starts))

    assert (0, 15) == (lots(plan)[0].held, len(lots(plan)[0].starts))
    assert 5 * DAY_MIN + 9 * 60 < lots(plan)[0].starts[7]


def test_held_honey_keeps_its_room() -> None:
    """Room for 48 boxes and 12 are held: of Old Mill's 40 no more than 36 may come on Friday."""
    facts = put_in("suspect Creek Mouth", now="Thu 4 Mar 13:19")
    house = replace(facts.outfit.honey_house, room_boxes=48)
    outfit = replace(facts.outfit, honey_house=house)
    after = replan_season(facts.plan, outfit, facts.now_min, rounds=0)

    assert 0 < max(lot.boxes for lot in lots(after) if lot.yard == "mill") <= 36
    assert () == audit(after, facts.plan)


def test_held_boxes_stand_in_the_honey_house_after_they_were_to_be_spun() -> None:
    """On the morning of day 3 all 15 are there still, or the ten not spun by 08:30."""
    first, second = DAY_MIN + 420, 2 * DAY_MIN + 510

    assert 0 == intake(turned(Health.SOUND, first), 3).standing
    assert 15 == intake(turned(Health.SUSPECT, first), 3).standing
    assert 10 == intake(turned(Health.SUSPECT, second), 3).standing


def test_honey_stays_held_when_the_hour_planned_for_it_is_past() -> None:
    """Suspect at 13:19 on Thursday; on Friday evening all but the boxes spun by then are held.

    They stand in the house, and were not spun after 13:19, whatever had been planned.
    """
    _, first = changes("suspect Creek Mouth", now="Thu 4 Mar 13:19")
    after = put_in("standstill Creek Mouth", now="Fri 5 Mar 20:00", plan=first)
    plan = replan_season(after.plan, after.outfit, after.now_min, rounds=0)
    lot = next(lot for lot in lots(plan) if lot.yard == "creek-mouth")
    sheets = [Page(page(plan, 5)).text for page in (day_page, intake_page)]

    # Spun from 13:04 each 5 min: those of 13:04, :09 and :14 are in the extractor by 13:19.
    assert (12, 3) == (lot.held, len(lot.spun_by(plan.now_min)))
    assert all("Do not spin 12 boxes of lot" in text for text in sheets)
    assert 12 == intake(plan, 5).standing
    assert (12, 0) == (standing(plan, plan.now_min), waiting(plan, plan.now_min))
    assert trace(plan, plan.outfit.yard("creek-mouth")).boxes[0].spun.startswith("3 boxes spun")


def test_what_is_spun_in_two_stretches_stands_twice_in_order() -> None:
    """Suspect from 13:19 to 14:00: three boxes before Fernbank's 15, twelve behind them."""
    _, first = changes("suspect Creek Mouth", now="Thu 4 Mar 13:19")
    opened = put_in("sound Creek Mouth", now="Thu 4 Mar 14:00", plan=first)
    plan = replan_season(opened.plan, opened.outfit, opened.now_min, rounds=0)

    assert [
        ("13:04", "Creek Mouth", 3, 12), ("13:20", "Fernbank", 15, 0),
        ("14:35", "Creek Mouth", 12, 0),
    ] == [(one.start, one.yard, one.boxes, one.left) for one in intake(plan, 3).spins]  # fmt: skip
