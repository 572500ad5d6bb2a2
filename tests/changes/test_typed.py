"""Typed changes: each line means one thing, and all faults come at once."""

from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.audit.audit import audit
from runplanner.changes.typed import Changed, change_lines, changed, typed_changes
from runplanner.changes.verbs.table import VERBS
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.daybook.trip import Job
from runplanner.days import DAY_MIN, Span
from runplanner.errors import ScenarioError
from runplanner.outfit.areas import Area
from runplanner.outfit.outfit import Assumed, Outfit
from runplanner.outfit.shut import Shut, Work
from runplanner.outfit.yards import Access, Health
from runplanner.paperwork.speech.tongue import said, speaking
from runplanner.phrase import phrase
from runplanner.season.replan_season import replan_season
from runplanner.trips.ground import Ground
from tests.audit.feeder_plan import feeders_fetched
from tests.paperwork.plans import HOSTILE
from tests.running import (
    at,
    feeds_fernbank_on_friday,
    put_in,
    running_outfit,
    running_plan,
    stop_with,
)

NOON = "Wed 3 Mar 12:00"


def faults(*lines: str, now: str = NOON) -> list[str]:
    """What is said against ``lines``."""
    with pytest.raises(ScenarioError) as caught:
        put_in(*lines, now=now)
    return [fault.sentence() for fault in caught.value.faults]


def test_no_change_changes_nothing() -> None:
    """Without lines the facts and the plan are those of before, at the plan's own time."""
    facts = put_in()

    assert (running_plan(), running_outfit(), 0) == (facts.plan, facts.outfit, facts.now_min)
    assert () == facts.presumed


@pytest.mark.parametrize(
    ("typed", "minute"),
    [
        ("Wed 3 Mar 12:00", 2 * DAY_MIN + 720),
        ("2027-03-03 12:00", 2 * DAY_MIN + 720),
        ("3 March at 7:05", 2 * DAY_MIN + 425),
        ("Mar 3", 2 * DAY_MIN),
        ("14:00", 840),
        ("today 6:00", 360),
        ("tomorrow", DAY_MIN),
    ],
)
def test_now(typed: str, minute: int) -> None:
    """The campaign begins on Monday 1 March 2027; a time alone is today."""
    assert minute == put_in(now=typed).now_min


@pytest.mark.parametrize(
    ("lines", "other"),
    [
        (("now Wed 13:00",), f"now {NOON}"),
        (("sound Fernbank", "suspect 2 Fernbank"), "sound Fernbank"),
        (("standstill Fernbank, feed agreed", "standstill Fernbank"),
         "standstill Fernbank, feed agreed"),
        (("blocks left 40", "blocks left 4"), "blocks left 40"),
        (("strips left 12", "strips left 9"), "strips left 12 amitraz"),
        (("sugar left 1 kg", "sugar left 1 t"), "sugar left 1 kg"),
        (("boxes left 30 Fernbank", "boxes left 31 at Fernbank"), "boxes left 30 Fernbank"),
    ],
)  # fmt: skip
def test_what_is_told_twice_is_told_alike(lines: tuple[str, ...], other: str) -> None:
    """Another time than --now, another state of a yard or stock: neither line may win unsaid."""
    assert 1 == len(faults(*lines))
    assert f"allowed: the same as {other!r}, which is typed as well" in faults(*lines)[0]
    once, twice = (
        put_in(*said, now="" if "now" in lines[0] else NOON)
        for said in (lines[-1:], (lines[-1], lines[-1].upper().replace(" T", " t")))
    )
    assert set(once.notes) == set(twice.notes)
    assert once.outfit == twice.outfit


def test_faults_come_in_the_order_typed() -> None:
    """Counts are read before stocks, and yards between; the faults are told as typed."""
    lines = ("boards lost 101", "suspect Nowhere", "done x", *["sound Fernbank"] * 7, "now Sun 1")

    assert [1, 2, 3, 11] == [int(said.split()[1].rstrip(":")) for said in faults(*lines)]


def test_now_never_goes_back() -> None:
    """A plan made on Tuesday is not planned again on Monday."""
    plan = replace(running_plan(), now_min=DAY_MIN + 1)
    with pytest.raises(ScenarioError):
        put_in(now="Mon 1 Mar", plan=plan)


def test_reasons_of_shut_hours_are_kept() -> None:
    """Rain shuts both kinds of work from 14:00; opened again until 16:00, two hours less."""
    facts = put_in("shut Fernbank Fri from 14:00: rain 2-3 mm", "unsettled Fernbank Fri (storm)")
    day = 4 * DAY_MIN
    shut = facts.outfit.yard("fernbank").shut

    assert (
        Shut(Work.SETTLE, day, day + 1440, note="storm", by_line=True),
        Shut(Work.FEED, day + 840, day + 1440, note="rain 2-3 mm", by_line=True),
        Shut(Work.OPEN, day + 840, day + 1440, note="rain 2-3 mm", by_line=True),
    ) == shut
    lines = ("shut Fernbank Fri for syrup: cold", "open Fernbank Fri 14:00-16:00")
    opened = put_in(*lines).outfit.yard("fernbank").shut
    assert [(day, day + 840), (day + 960, day + 1440)] == [
        (one.start_min, one.end_min) for one in opened
    ]
    assert {("cold", Work.FEED)} == {(one.note, one.work) for one in opened}


def test_shut_and_open_hours() -> None:
    """Hives are opened 8 to 18: shut from 14:00 leaves 8 to 14; opened again, all of it."""
    facts = put_in("shut Fernbank Fri from 14:00: rain 2-3 mm", now=NOON).outfit
    day = 4 * DAY_MIN

    assert Span(day + 480, day + 840) in facts.yard("fernbank").open_spans
    assert Span(day + 360, day + 840) in facts.yard("fernbank").feed_spans
    assert running_outfit().yard("mill") == facts.yard("mill")
    opened = put_in("shut all Fri", "open all Fri 8:00-18:00", now=NOON).outfit
    assert Span(day + 480, day + 1080) in opened.yard("mill").open_spans


@pytest.mark.parametrize(
    ("where", "ids"),
    [
        ("Fernbank", {"fernbank"}),
        ("fernbank and old mill", {"fernbank", "mill"}),
        ("Fernbank, Creek Mouth", {"fernbank", "creek-mouth"}),
        ("coast", {"fernbank", "creek-mouth"}),
        ("district coast", {"fernbank", "creek-mouth"}),
        ("everywhere", {"fernbank", "creek-mouth", "mill"}),
        ("yard mill", {"mill"}),
    ],
)  # fmt: skip
def test_where(where: str, ids: set[str]) -> None:
    """Yards by name or id, several, a district, or all."""
    facts = put_in(f"shut {where} Fri", now=NOON).outfit

    assert ids == {y.id for y in facts.yards if y != running_outfit().yard(y.id)}


def test_shut_for_one_kind_of_work() -> None:
    """For syrup leaves opening alone, and the other way round."""
    syrup = put_in("shut Fernbank for syrup Fri", now=NOON).outfit.yard("fernbank")
    hives = put_in("shut Fernbank Fri for opening", now=NOON).outfit.yard("fernbank")
    before = running_outfit().yard("fernbank")

    assert (before.open_spans, hives.feed_spans) == (syrup.open_spans, before.feed_spans)
    assert before.feed_spans != syrup.feed_spans
    assert before.open_spans != hives.open_spans


def test_unsettled_and_settled_again() -> None:
    """Hours in which bees must not hang outside; opening the hours settles them."""
    span = Span(4 * DAY_MIN + 1080, 5 * DAY_MIN)
    facts = put_in("storm Fernbank Fri from 18:00", now=NOON).outfit.yard("fernbank")
    again = put_in("unsettled Fernbank Fri from 18:00", "open Fernbank Fri", now=NOON).outfit

    assert (span,) == facts.unsettled_spans
    assert () == again.yard("fernbank").unsettled_spans


def test_a_night_that_stays_unsettled_is_said() -> None:
    """Storm from Friday 18:00 until Saturday 5:00: Friday opened, the night after it is not."""
    stormy = put_in("storm Fernbank, Mill Fri until Sat 5:00", now=NOON)
    plan = replace(stormy.plan, outfit=stormy.outfit)
    day = put_in("open all Fri", now=NOON, plan=plan)

    assert (Span(5 * DAY_MIN, 5 * DAY_MIN + 300),) == day.outfit.yard("mill").unsettled_spans
    (note,) = day.notes
    assert note == (
        "Fernbank, Old Mill: bees must settle in the night after the hours opened, so no boxes "
        "come off before it ends (Sat 6 Mar 05:00); if that is called off too, open until then"
    )
    assert day.notes == put_in("open all Fri 9:00-12:00", now=NOON, plan=plan).notes
    for line in ("open all Fri until Sat 5:00", "open all Fri for syrup", "open all Sat"):
        assert () == put_in(line, now=NOON, plan=plan).notes


@pytest.mark.parametrize(
    ("typed", "days"),
    [
        ("truck Blue out 5-6 Mar", (4, 5)),
        ("Blue flatdeck broken until Sat", (2, 3, 4)),
        ("truck1 out Fri-Sun", (4, 5, 6)),
        ("Blue out today until 15:00", (2,)),
        ("Blue out 5 Mar - 6 Mar", (4, 5)),
        ("Blue out Fri until Sun 12:00", (4, 5, 6)),
        ("Blue out before 10:00", (2,)),
    ],
)
def test_a_truck_is_out(typed: str, days: tuple[int, ...]) -> None:
    """Days, ranges, and until: "until Sat" ends as Saturday begins."""
    assert days == put_in(typed, now=NOON).outfit.trucks[0].out_days


def test_people_and_trailers_go_and_come_back() -> None:
    """Off and back by name."""
    facts = put_in("Ann off Fri-Sat", "trailer Box out Fri", now=NOON).outfit
    again = put_in("Ann off Fri-Sat", "Ann back Sat", now=NOON).outfit

    assert ((4, 5), (4,)) == (facts.people[0].off_days, facts.trailers[0].out_days)
    assert (4,) == again.people[0].off_days


@pytest.mark.parametrize(
    ("typed", "days", "said"),
    [
        ("Ann back Sat", (4,), "Ann is there again from Sat 6 Mar to Sun 7 Mar"),
        ("Ann back Fri from 6:00", (), "Ann is there again from Fri 5 Mar to Sun 7 Mar"),
        ("Ann here Sun: better", (4, 5), "Ann is there again on Sun 7 Mar"),
        ("Ann back today", (4, 5, 6), "Ann was not to be away on Wed 3 Mar; nothing changes"),
        ("Ann back from 14:00", (4, 5, 6), "Ann was not to be away on Wed 3 Mar; nothing changes"),
        ("Ann back 5-6 Mar", (6,), ""),
        ("Ann back 5-5 Mar", (5, 6), ""),
        ("Ann back Fri until Sun", (6,), ""),
        ("Ann back until Sat", (5, 6), ""),
    ],
)
def test_back_on_a_day_ends_the_absence_and_a_span_stays_one(
    typed: str, days: tuple[int, ...], said: str
) -> None:
    """Away from Friday to Sunday: "back Sat" is from Saturday on, and what was taken is said."""
    facts = put_in("Ann off 5-7 Mar", typed, now=NOON)

    assert days == facts.outfit.people[0].off_days
    assert ((said,) if said else ()) == facts.notes


@pytest.mark.parametrize(
    ("typed", "days", "more"),
    [
        ("Ann back Fri from 12:00", (4,), ["Ann is there again from Sat 6 Mar to Sun 7 Mar"]),
        ("Ann back Sun from 12:00", (4, 5, 6), []),
        ("Ann back Sat before 12:00", (4, 5, 6), []),
        ("Ann back Sat 8:00-12:00", (4, 5, 6), []),
        ("Ann back Fri until Sun 12:00", (6,), []),
    ],
)
def test_who_is_back_for_hours_counts_as_away_that_day_and_it_is_said(
    typed: str, days: tuple[int, ...], more: list[str]
) -> None:
    """A truck in the workshop until three does not leave at eight."""
    facts = put_in("Ann off 5-7 Mar", typed, now=NOON)
    told, said = facts.notes[:-1], facts.notes[-1]

    assert (days, more) == (facts.outfit.people[0].off_days, list(told))
    assert said.startswith("hours are not planned with: Ann counts as away all ")
    assert said.endswith("; without hours it is back for that day")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("Thu from 15:00", "Thu 4 Mar; its trips of that day, 07:16-13:04, stay where the line "),
        ("Sat 7:00-9:00", "Sat 6 Mar; leave the line out where these hours do no harm"),
        ("today until 15:00", "Wed 3 Mar; leave the line out where these hours do no harm"),
    ],
)
def test_hours_of_an_absence_take_the_whole_day_and_it_is_said(typed: str, said: str) -> None:
    """With the planned hours of that day; who is away from now until a day loses no hour unsaid."""
    (note,) = put_in(f"Red out {typed}", now=NOON).notes

    assert note.startswith(f"hours are not planned with: Red counts as away all {said}")
    assert () == put_in("Red out until Sat", "Red out Sun", now=NOON).notes


@pytest.mark.parametrize(
    ("typed", "as_if"),
    [
        ("shut Fernbank Fri from 2pm", "shut Fernbank Fri from 14:00"),
        ("shut Fernbank Fri 9 am-2:30 PM", "shut Fernbank Fri 9:00-14:30"),
        ("shut Fernbank Fri 9:00-12pm: rain", "shut Fernbank Fri 9:00-12:00: rain"),
        ("shut Fernbank until Fri 12 am", "shut Fernbank until Fri 0:00"),
        ("shut Fernbank from now until Fri", "shut Fernbank until Fri"),
        ("Ann back now", "Ann back today"),
        ("Ann back: better", "Ann back today"),
        ("syrup left 0", "syrup left 0 L"),
        ("sugar left 0 (a mouse)", "sugar left 0 kg"),
        ("boards lost 5.", "boards lost 5"),
        ("open Fernbank Sat 9am-noon", "open Fernbank Sat 9:00-12:00"),
        ("shut Fernbank Fri from 2.30pm", "shut Fernbank Fri from 14:30"),
        ("shut Fernbank Fri 9 a.m. - 3 p.m.", "shut Fernbank Fri 9:00-15:00"),
        ("shut Fernbank until Fri midday", "shut Fernbank until Fri 12:00"),
        ("Ann off: Fri", "Ann off Fri"),
        ("dead Fernbank 3", "dead 3 Fernbank"),
        ("dead Fernbank: 3 hives", "dead 3 Fernbank"),
        ("boxes left Mill 12 supers", "boxes left 12 Mill"),
        ("suspect 2 hives at Fernbank", "suspect Fernbank"),
        ("shut at Fernbank Fri", "shut Fernbank Fri"),
        ("strips left none", "strips left 0"),
        ("sugar left none", "sugar left 0 kg"),
        ("Blue broken down Fri", "Blue out Fri"),
        ("trailer has broken down Fri", "Box out Fri"),
        ("Ann off sick Fri", "Ann off Fri"),
        ("honey house full: Fri", "honey house full Fri"),
        ("shut Mill until 12am", "shut Mill until 24:00"),
        ("shut Mill until midnight: rain", "shut Mill until 24:00: rain"),
        ("shut Mill from now until 0:00", "shut Mill until 24:00"),
        ("shut Mill Fri until 12 a.m.", "shut Mill Fri"),
        ("shut Mill Fri from 2pm to midnight", "shut Mill Fri from 14:00"),
        ("shut Mill Fri 2pm-12am", "shut Mill Fri from 14:00"),
        ("shut Mill Fri 14:00-00:00", "shut Mill Fri from 14:00"),
        ("shut Mill from Fri to Sun", "shut Mill Fri-Sun"),
        ("shut Mill from Fri 5 Mar until Sun", "shut Mill Fri until Sun"),
        ("Ann off from Fri-Sat", "Ann off Fri-Sat"),
        ("Ann back from Fri", "Ann back Fri"),
        ("Ann back: from Fri 5 Mar on", "Ann back Fri"),
        ("Bob sick, back from Fri", "Bob sick until Fri"),
        ("Blue broken, back Fri", "Blue broken until Fri"),
        ("Bob sick (back Fri)", "Bob sick until Fri"),
        ("Bob sick: (back on Fri)", "Bob sick until Fri"),
        ("Bob sick : back from Fri 5 Mar", "Bob sick until Fri"),
        ("honey house broken (back Fri 12:00)", "honey house broken until Fri 12:00"),
        ("Bob sick today (back pain)", "Bob sick today"),
        ("Bob off Thu, back Sat", "Bob off Thu until Sat"),
        ("Bob off Thu 4 Mar and back on Sat 6 Mar", "Bob off Thu until Sat"),
        ("Bob off Thu back Fri: flu", "Bob off Thu"),
        ("honey house stopped Thu, back Sat 12:00", "honey house stopped Thu until Sat 12:00"),
        ("fondant left 40", "blocks left 40"),
    ],
)
def test_as_drivers_text(typed: str, as_if: str) -> None:
    """Hours by halves of the day, from now, nothing left, back without a day."""
    texted, plain = (put_in("Ann off 3-5 Mar", one, now=NOON) for one in (typed, as_if))

    assert (plain.outfit, plain.notes) == (texted.outfit, texted.notes)


@pytest.mark.parametrize("typed", ["Bob off Thu, back Wed", "Bob off Thu-Fri, back Sun"])
def test_a_day_back_that_does_not_follow_is_refused(typed: str) -> None:
    """It lies before the absence, or leaves open a day that neither names."""
    assert faults(typed)


def test_a_day_in_brackets_is_no_reason_to_be_left_unread() -> None:
    """Away on Thursday alone it would be, where Friday is meant as well."""
    (told,) = faults("Bob off Thu (back Sat)")

    assert "it goes on 'back Sat'" in told


@pytest.mark.parametrize(
    ("typed", "as_if", "taken"),
    [
        ("shut Mill Fri afternoon", "shut Mill Fri from 12:00", "Fri 5 Mar 12:00-24:00"),
        ("shut Mill this arvo: hail", "shut Mill from 12:00: hail", "Wed 3 Mar 12:00-24:00"),
        ("shut Mill Fri: morning", "shut Mill Fri before 12:00", "Fri 5 Mar 00:00-12:00"),
        ("shut Mill Fri (9am-12)", "shut Mill Fri 9:00-12:00", "Fri 5 Mar 09:00-12:00"),
        ("shut Mill Sat 9am-12", "shut Mill Sat 9:00-12:00", "Sat 6 Mar 09:00-12:00"),
        ("shut Mill Sat from 9am to 5", "shut Mill Sat 9:00-17:00", "Sat 6 Mar 09:00-17:00"),
        ("shut Mill Sat 14:00-16", "shut Mill Sat 14:00-16:00", "Sat 6 Mar 14:00-16:00"),
        ("shut Mill Sat 2-5pm", "shut Mill Sat 14:00-17:00", "Sat 6 Mar 14:00-17:00"),
        ("shut Mill Sat 12-2pm", "shut Mill Sat 12:00-14:00", "Sat 6 Mar 12:00-14:00"),
        ("shut Mill Sat 9-noon", "shut Mill Sat 9:00-12:00", "Sat 6 Mar 09:00-12:00"),
        ("shut all yards Friday and Saturday: rain", "shut all Fri-Sat: rain",
         "Fri 5 Mar, Sat 6 Mar"),
        ("shut all Thu, Fri, and Sun: rain and hail", "shut all 4-5 Mar and Sun: rain and hail",
         "Thu 4 Mar, Fri 5 Mar, Sun 7 Mar"),
        ("shut Mill 5 & 6 Mar from 14:00", "shut Mill 5-6 Mar from 14:00",
         "Fri 5 Mar 14:00-24:00, Sat 6 Mar 14:00-24:00"),
        ("Ann off 5 Mar and 6 Mar", "Ann off 5-6 Mar", "Fri 5 Mar, Sat 6 Mar"),
    ],
)  # fmt: skip
def test_hours_and_days_told_by_half_are_taken_and_said(typed: str, as_if: str, taken: str) -> None:
    """Of hours the other one tells the half of the day; several days are each meant."""
    texted, plain = (put_in(one, now=NOON) for one in (typed, as_if))

    assert plain.outfit == texted.outfit != running_outfit()
    assert f"{typed!r} is taken for {taken}" in texted.notes


def test_back_on_two_days_is_back_on_these_alone() -> None:
    """As for a span of days."""
    facts = put_in("Ann off 5-7 Mar", "Ann back Fri and Sat", now=NOON)

    assert (6,) == facts.outfit.people[0].off_days
    assert ("'Ann back Fri and Sat' is taken for Fri 5 Mar, Sat 6 Mar",) == facts.notes


@pytest.mark.parametrize(
    ("typed", "as_if"),
    [
        ("Blue broken: gearbox", "Blue out today"),
        ("Ann sick", "Ann off today"),
        ("Ann off from now on", "Ann off today"),
        ("shut Fernbank from now", "shut Fernbank today from 12:00"),
        ("shut all from now on: rain", "shut all today from 12:00: rain"),
        ("unsettled all: from now", "unsettled all today from 12:00"),
        ("honey house full", "honey house full from now"),
        ("honey house stopped (no power)", "honey house stopped from now"),
        ("honey house down: pump", "honey house stopped from now"),
    ],
)
def test_no_day_is_the_rest_of_today_and_it_is_said(typed: str, as_if: str) -> None:
    """Whoever texts that a truck has broken down means now; how long, nobody knows yet."""
    texted, plain = (put_in(one, now=NOON) for one in (typed, as_if))

    assert plain.outfit == texted.outfit != running_outfit()
    (note,) = texted.notes
    assert note.endswith(
        "it is taken for the rest of today; with 'until' and a day it lasts longer"
    )
    assert ": gearbox" not in note


@pytest.mark.parametrize(
    "typed",
    ["honey house is stopped: pump", "the honey house is down: pump", "honey house: broken (pump)",
     "stopped honey house: pump"],
)  # fmt: skip
def test_why_the_honey_house_stands_still_may_be_told_at_once(typed: str) -> None:
    """With the opening in another order; the colon had been lost, and with it the reason."""
    texted, plain = (put_in(one, now=NOON) for one in (typed, "honey house stopped: pump"))

    assert plain.outfit == texted.outfit
    assert any(one.startswith(f"{typed!r} is read as 'honey house ") for one in texted.notes)


@pytest.mark.parametrize(
    ("typed", "cure"),
    [
        ("honey house: full of bees", "An example: 'honey house full Fri'."),
        ("shut Mill from Fri", "Write the last day as well, as in 'Fri-Sat' or 'until Mon'."),
        ("shut Mill until Fri midnight", "Write days and hours as in 'Fri-Sat from 14:00'"),
        ("shut Mill until midnight Fri", "Write days and hours as in 'Fri-Sat from 14:00'"),
    ],
)
def test_what_may_be_meant_in_two_ways_is_refused(typed: str, cure: str) -> None:
    """With the way to write it."""
    (found,) = faults(typed, now=NOON)

    assert cure in found


@pytest.mark.parametrize("name", ["truck Blue", "trailer Box"])
def test_another_absence_is_kept_and_trucks_and_trailers_come_back_alike(name: str) -> None:
    """Away Thursday and Friday, and on Sunday again: back on Friday leaves Thursday and Sunday."""
    facts = put_in(f"{name} out Thu-Fri", f"{name} out Sun", f"{name} back Fri", now=NOON)
    truck, trailer = facts.outfit.trucks[0], facts.outfit.trailers[0]

    assert (3, 6) == (truck.out_days or trailer.out_days)
    assert facts.notes[0].endswith("is there again on Fri 5 Mar")


def test_health() -> None:
    """Suspect, standstill, watch and sound; a number of colonies may stand before the yard."""
    said = {
        "suspect 2 Fernbank": Health.SUSPECT,
        "standstill Fernbank": Health.STANDSTILL,
        "watch Fernbank": Health.WATCH,
        "sound Fernbank": Health.SOUND,
    }
    for typed, health in said.items():
        assert health is put_in(typed, now=NOON).outfit.yard("fernbank").health


@pytest.mark.parametrize(
    "typed",
    [", licence {}", ' licence: "{}"', " (licence {})", ", License \u201e{}\u201c", ": licence {}"],
)
def test_a_licence_is_told_on_the_way(typed: str) -> None:
    """All that follows the word; worked as a watched yard until a standstill is told without it."""
    licence = "No 17: of (5) #2, until 2027-03-09"
    facts = put_in("standstill Fernbank" + typed.format(licence), now=NOON)
    yard = facts.outfit.yard("fernbank")

    assert (Health.WATCH, licence) == (yard.health, yard.licence)
    assert (False, None) == (yard.left_alone, yard.held_min)
    (note,) = facts.notes
    assert note == (
        f"Fernbank: at a standstill, worked under the licence typed, '{licence}', last on its trip "
        "and its boxes apart"
    )
    plan = replace(facts.plan, outfit=facts.outfit, now_min=facts.now_min)
    again = put_in("watch Fernbank", plan=plan).outfit.yard("fernbank")
    shut = put_in("standstill Fernbank", plan=plan).outfit.yard("fernbank")
    assert (yard.licence, Health.STANDSTILL, "") == (again.licence, shut.health, shut.licence)


def test_a_licence_on_the_way_keeps_what_was_agreed_and_asks_for_its_date() -> None:
    """The campaign goes on until 8 March; in German as well."""
    facts = put_in("standstill Fernbank, feed agreed, licence 17 until 2027-03-02", now=NOON)

    assert facts.outfit.yard("fernbank").feed_agreed
    assert facts.notes[0].endswith(
        "; the last date in it is 2027-03-02, and the campaign goes on until 2027-03-08: does it "
        "still hold?"
    )
    with speaking("de"):
        assert "gesperrt, mit der getippten Genehmigung" in said(facts.notes[0])


@pytest.mark.parametrize(
    ("typed", "allowed"),
    [
        ("standstill Fernbank, licence", "number, issued by, until; or nothing"),
        ("standstill Fernbank, licence: not yet", "number, issued by, until; or nothing"),
        ('standstill Fernbank, licence ""', "number, issued by, until; or nothing"),
        (f"standstill Fernbank, licence {'1' * 121}", "at most 120 characters"),
        ("suspect Fernbank, licence 17", "nothing after the change"),
        ("watch Fernbank, licence 17", "nothing after the change"),
    ],
)
def test_no_licence_frees_no_yard(typed: str, allowed: str) -> None:
    """Words for none, nothing at all, too much; suspicion is lifted by none."""
    with pytest.raises(ScenarioError) as told:
        put_in(typed, now=NOON)

    (fault,) = told.value.faults
    assert allowed in fault.allowed


@pytest.mark.parametrize(
    "typed",
    [": licence withdrawn", ", licence revoked by district office", " (licence refused)",
     ", licence expired 2027-02-20", ": licence No 17 is off, district says", ", licence"],
)  # fmt: skip
def test_a_licence_that_does_not_hold_is_refused_with_the_line_to_type(typed: str) -> None:
    """That line takes a licence away; as a reason it had opened the yard."""
    with pytest.raises(ScenarioError) as told:
        put_in("standstill Fernbank" + typed, now=NOON)

    (fault,) = told.value.faults
    assert fault.cure.startswith("Write 'standstill Fernbank' alone where there is none, or no ")
    assert "No 17" in put_in("standstill Fernbank, licence No 17", now=NOON).notes[0]


def test_feed_agreed_where_all_honey_is_off() -> None:
    """A standstill yard already taken off may be fed where that is agreed: no honey is on."""
    _, _, call, _ = stop_with(Job.TAKE_OFF)
    line = f"standstill {running_plan().outfit.yard(call.yard).name}, feed agreed"
    over, before = (
        put_in(line, now=at(minute)).outfit.yard(call.yard)
        for minute in (call.end_min, call.end_min - 1)
    )

    assert (True, True, False) == (over.feed_agreed, over.honey_off, over.left_alone)
    assert (False, True) == (before.honey_off, before.left_alone)
    assert running_plan().outfit.yard(call.yard).boxes == over.boxes


@pytest.mark.parametrize("ring", [False, True])
def test_honey_on_at_a_standstill_stays_known(*, ring: bool) -> None:
    """Red is on its way to Fernbank: the stop left out in one call or two, its honey is on."""
    ill, skip, now = "standstill Fernbank, feed agreed", "skip Fernbank", "Thu 4 Mar 9:00"
    first = put_in(ill, skip, now=now)
    told = changed(running_plan(), typed_changes([ill], now), ring=ring)
    plan = replace(told.plan, outfit=told.outfit, now_min=told.now_min)
    then = put_in("sound Fernbank" if ring else skip, plan=plan)
    first_told = first.outfit.yard("fernbank")
    fernbank = replace(first_told, health=Health.SOUND, feed_agreed=False, held_min=None)

    assert (15, False, True) == (fernbank.boxes, fernbank.honey_off,
                                 first.outfit.yard("fernbank").left_alone)  # fmt: skip
    assert (fernbank if ring else first.outfit.yard("fernbank")) == then.outfit.yard("fernbank")


def test_honey_that_turns_out_to_be_on_is_on_again() -> None:
    """Presumed off, so it may be fed; counted as nothing done, it may not."""
    told = put_in("standstill Fernbank, feed agreed", now="Thu 4 Mar 20:00")
    plan = replace(told.plan, outfit=told.outfit, now_min=told.now_min)
    facts = put_in("done 0304-truck2-0716 Fernbank: nothing", plan=plan).outfit.yard("fernbank")

    assert not told.outfit.yard("fernbank").left_alone
    assert (15, True) == (facts.boxes, facts.left_alone)


def test_dead_colonies_leave_their_boxes() -> None:
    """10 colonies with 15 boxes, 2 dead: 8 colonies, and all 15 boxes still come home."""
    facts = put_in("dead 2 Fernbank", "queenless 1 colony at Old Mill", now=NOON).outfit

    assert (8, 15) == (facts.yard("fernbank").colonies, facts.yard("fernbank").boxes)
    assert 23 == facts.yard("mill").colonies


def test_boxes_on_no_living_colony_are_told() -> None:
    """Where all are dead nobody is sent for boxes and boards, and that is said by itself."""
    facts = put_in("dead 10 Fernbank", now=NOON)
    under = put_in("dead 24 Old Mill", now=at(5200))

    assert 0 == facts.outfit.yard("fernbank").colonies
    assert facts.by_hand[0].startswith("Fernbank: 15 honey boxes; where no living colony")
    assert under.by_hand[0].startswith("Old Mill: 40 honey boxes, 24 boards; where no")
    assert () == facts.notes == put_in("dead 9 Fernbank", now=NOON).by_hand


def under_boards() -> Plan:
    """The plan, where boards lie in all of Old Mill as it begins."""
    plan = running_plan()
    yards = tuple(
        replace(one, boards_on_min=-960) if one.id == "mill" else one for one in plan.outfit.yards
    )
    return replace(plan, outfit=replace(plan.outfit, yards=yards))


def in_store(outfit: Outfit) -> int:
    """Boards at the store, those that lie in a yard since before the campaign left out."""
    return outfit.kit.boards_now - Ground(outfit, 0).boards_out


@pytest.mark.parametrize("now", ["Mon 1 Mar 0:00", at(5200)])
@pytest.mark.parametrize("gone", [5, 24])
def test_deaths_bring_no_boards_back_into_the_store(now: str, gone: int) -> None:
    """Those on the dead lie where they lay, to be lifted; told by two lines it is the same."""
    plan = under_boards()
    dead = put_in(f"dead {gone} Old Mill", now=now, plan=plan).outfit
    twice = put_in("dead 2 Old Mill", f"dead {gone - 2} Old Mill", now=now, plan=plan).outfit

    assert in_store(plan.outfit) == in_store(dead) == in_store(twice)
    assert 24 == Ground(dead, 0).boards_out


def test_boards_already_told_lost_are_not_lost_once_more_with_the_dead() -> None:
    """All are gone, those in the yard as well; the deaths are told all the same."""
    plan, now = under_boards(), at(5200)
    lost = put_in(f"boards lost {plan.outfit.kit.boards_now}", now=now, plan=plan).outfit
    dead = put_in("dead 24 Old Mill", now=now, plan=replace(plan, outfit=lost)).outfit

    assert (0, 0) == (dead.kit.boards_now, dead.yard("mill").colonies)


def test_a_new_yard_like_a_closed_one_is_open_and_none_of_its_honey_held() -> None:
    """Creek Mouth is closed, has been before, and strips were in beside its honey."""
    plan = running_plan()
    (yard,) = (one for one in plan.outfit.yards if one.id == "creek-mouth")
    held = replace(yard, was_held=(Span(0, 9),), treated_min=5, treated_told_min=9, freed_min=20)
    yards = tuple(held if one.id == yard.id else one for one in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))
    line = "new yard X at 0.0 0.1: 5 colonies 5 boxes like Creek Mouth"
    new = put_in("suspect Creek Mouth", line, now=NOON, plan=plan).outfit.yards[-1]

    assert (Health.SOUND, None, ()) == (new.health, new.held_min, new.held_spans(0, 10**6))
    assert new.freed_min is None


STRIPS_IN = "done 0304-truck2-0716 Fernbank: 6 colonies 12 boxes 6 fed strips in"
"""Eight boxes of Fernbank are on the four other colonies still."""


@pytest.mark.parametrize(
    "line", ["spin Fernbank", "Fernbank spin", "spin fernbank: vet rang", "Fernbank: spin"]
)
def test_honey_held_for_strips_is_freed_by_a_line(line: str) -> None:
    """Typed with the count that tells of the strips, or later; it says whose word that is."""
    now = "Thu 4 Mar 13:30"
    for facts in (
        put_in(STRIPS_IN, line, now=now),
        put_in(line, now=now, plan=replace((told := put_in(STRIPS_IN, now=now)).plan,
                                           outfit=told.outfit, now_min=told.now_min)),
    ):  # fmt: skip
        yard = next(one for one in facts.outfit.yards if one.id == "fernbank")
        assert (facts.now_min, facts.now_min) == (yard.treated_told_min, yard.freed_min)
        assert () == yard.held_spans(facts.now_min, facts.now_min + 60)
        assert (
            "Fernbank: 8 boxes held for strips beside honey may be spun from now on, by your "
            "word. Label, vet and local law decide whether they are for people; if not, keep "
            "their honey for the bees. They stay on the medicine record as they were."
        ) in facts.notes


@pytest.mark.parametrize(
    ("lines", "cure"),
    [
        (
            ("suspect Fernbank", "spin Fernbank"),
            "type 'sound Fernbank', 'watch Fernbank' or 'standstill Fernbank, licence ...'.",
        ),
        (("spin Old Mill",), "None of its boxes is held: leave this line out."),
        (("spin Fernbank", "spin Fernbank"), "None of its boxes is held: leave this line out."),
    ],
)
def test_what_strips_do_not_hold_is_not_freed(lines: tuple[str, ...], cure: str) -> None:
    """The refusal says what to type, and gives no example of what was refused."""
    found = faults(STRIPS_IN, *lines, now="Thu 4 Mar 13:30")

    assert [True] == [one.endswith(cure) for one in found]


@pytest.mark.parametrize(
    "line",
    [
        "do not spin Fernbank", "Fernbank: do not spin", "cannot spin Fernbank", "Ann spins",
        "spin Fernbank, not Old Mill", "spin no Fernbank", "spin Fernbank Mon", "spin all",
        "honey house cannot spin until Mon",
    ],
)  # fmt: skip
def test_a_line_that_says_more_frees_nothing(line: str) -> None:
    """What is not just a yard's name is refused."""
    assert 1 == len(faults(STRIPS_IN, line, now="Thu 4 Mar 13:30"))


@pytest.mark.parametrize(
    "line",
    ["shut Fernbank Fri 10:00-15:00 for syrup", "open Fernbank Fri 4:00-6:00", "dead 5 Fernbank",
     "unsettled Fernbank Fri from 18:00", "standstill Fernbank", "move Fernbank to 0.0 0.2",
     "shut all Fri", "suspect X",
     "done 0304-truck2-0716 Fernbank: 10 colonies 20 boxes 3 brood boxes"],
)  # fmt: skip
def test_a_new_yard_comes_before_what_is_told_of_the_one_it_is_like(line: str) -> None:
    """What is typed of Fernbank in the same message is of Fernbank alone, in either order."""
    new = "new yard X at 0.0 0.1: 5 colonies 5 boxes like Fernbank"
    now = "Thu 4 Mar 18:00"
    facts, other = (put_in(*two, now=now).outfit for two in ((new, line), (line, new)))
    told = "Fernbank" not in line or line.startswith("done")

    assert facts == other
    assert told or put_in(new, now=now).outfit.yards[-1] == facts.yards[-1]


def test_a_new_yard_has_brood_boxes_as_the_one_it_is_like_before_deaths() -> None:
    """Ten brood boxes of ten colonies are one each, though five are told dead beside."""
    plan = running_plan()
    yards = tuple(replace(one, brood_boxes_off=10) for one in plan.outfit.yards)
    plan = replace(plan, outfit=replace(plan.outfit, yards=yards))
    new = "new yard X at 0.0 0.1: 5 colonies 5 boxes like Fernbank"

    for lines in ((new,), (new, "dead 5 Fernbank")):
        assert 5 == put_in(*lines, now=NOON, plan=plan).outfit.yards[-1].brood_boxes_off


@pytest.mark.parametrize(("typed", "more"), [(None, 25), (100, 0)])
def test_a_new_yard_has_blocks_where_nobody_typed_how_many_there_are(
    typed: int | None, more: int
) -> None:
    """For each of its five colonies as many as for any: one by the rules, and three further."""
    plan = running_plan()
    told = phrase("kit.blocks"), phrase("as many as it takes"), phrase("guessed")
    assumed = (Assumed(*told),) if typed is None else ()
    outfit = replace(plan.outfit, assumed=assumed, kit=replace(plan.outfit.kit, blocks_owned=100))
    rules = replace(outfit.rules, blocks=2)
    plan = replace(plan, outfit=replace(outfit, rules=rules))
    line = "new yard X at 0.0 0.1: 5 colonies 5 boxes"

    assert 100 + more == put_in(line, now=NOON, plan=plan).outfit.kit.blocks_owned


def test_no_boards_lie_in_a_new_yard() -> None:
    """Though they do in the one it is like."""
    line = "new yard X at 0.0 0.1: 5 colonies 5 boxes like Old Mill"

    assert put_in(line, now=NOON, plan=under_boards()).outfit.yards[-1].boards_on_min is None


def test_feeders_and_wet_boxes_left_with_the_dead_are_told() -> None:
    """Ten feeders stand in a yard that has died out; so do wet boxes put up and not collected."""
    plan = feeders_fetched()
    facts = put_in("dead 10 Yard 1", now=at(plan.shifts[1].end_min), plan=plan)

    assert facts.by_hand[0].startswith("Yard 1: 10 feeders; where no living colony")


def test_honey_house() -> None:
    """Stopped is no spinning, full is no deliveries; "until Fri" from now on."""
    facts = put_in("honey house stopped until Fri", "honey house full Sat", now=NOON).outfit

    assert (Span(2 * DAY_MIN + 720, 4 * DAY_MIN),) == facts.honey_house.stopped
    assert (Span(5 * DAY_MIN, 6 * DAY_MIN),) == facts.honey_house.full


def test_spinning_under_way_breaks_off() -> None:
    """30 boxes from 5104 to 5254; stopped at 5164, after 60 of 150 min: 12 are spun."""
    now = at(5200)
    facts = put_in(f"honey house stopped {at(5164)[:10]} from {at(5164)[11:]}", now=now)

    first = facts.plan.spinning[0]
    assert (5104, 5164, 12) == (first.start_min, first.end_min, first.boxes)
    assert running_plan().spinning[1:] == facts.plan.spinning[1:]


def spun(facts: Changed) -> list[tuple[int, int, int]]:
    """When and how many boxes of the first 30, planned from 5104 to 5254, by what is known now."""
    return [(s.start_min, s.end_min, s.boxes) for s in facts.plan.spinning if s.start_min < 5254]


@pytest.mark.parametrize("typed", ["broken today", "stopped Thu", "stopped from Thu to Fri"])
def test_a_day_begun_on_which_the_honey_house_stops_counts_from_now_on(typed: str) -> None:
    """After 96 of 150 min 19 boxes are spun, and a line says so; before it began none is said."""
    facts = put_in(f"honey house {typed}", now=at(5200))
    sooner = put_in(f"honey house {typed}", now=at(5100))

    assert [(5104, 5200, 19)] == spun(facts)
    assert "taken from now on" in facts.notes[0]
    assert () == sooner.notes


def test_spinning_goes_on_after_a_stop_that_is_over() -> None:
    """Twenty of 150 min are lost, with what was in hand; told again they are lost once."""
    line = f"honey house stopped {at(5114)[:10]} {at(5114)[11:]}-{at(5134)[11:]}"
    first = put_in(line, now=at(5200))
    plan = replace(first.plan, outfit=first.outfit, now_min=first.now_min)
    new = replan_season(first.plan, first.outfit, first.now_min, rounds=1)

    assert [(5104, 5114, 2), (5134, 5254, 24)] == spun(first)
    assert ("4 boxes that were to be spun by now count as not spun",) == first.notes
    assert spun(first) == spun(put_in(line, plan=plan))
    assert [] == [finding.sentence() for finding in audit(new, first.plan)]


def test_stocks_before_anything_is_driven() -> None:
    """What is left is what there is; boards lost come off the boards owned."""
    facts = put_in(
        "blocks left 40", "strips left 200", "sugar left 0.5 t", "syrup left 600 L", "boards lost 5"
    ).outfit

    assert (40, 95, 200) == (facts.kit.blocks_owned, facts.kit.boards_owned, facts.strips.stock)
    assert (500_000, 600_000) == (facts.feed.sugar_g, facts.feed.ready_ml)


def with_pads() -> Plan:
    """The running plan where the mill gets pads, two for each colony as the strips elsewhere."""
    plan = running_plan()
    pads = replace(plan.outfit.strips, substance="formic acid", stock=99, id="pads")
    yards = (*plan.outfit.yards[:2], replace(plan.outfit.yards[2], strips="pads"))
    return replace(plan, outfit=replace(plan.outfit, yards=yards, strips_also=(pads,)))


@pytest.mark.parametrize(
    ("line", "stocks"),
    [
        # 40 strips are in hives of the first two yards by then, and no pads.
        ("strips left 12 amitraz", (52, 99)),
        ("strips left 12 of Formic acid: three packs burst", (None, 12)),
    ],
)
def test_strips_left_of_a_named_substance(line: str, stocks: tuple[int | None, int]) -> None:
    """The other substance keeps its stock."""
    facts = put_in(line, now=at(5050), plan=with_pads()).outfit

    assert stocks == (facts.strips.stock, facts.strips_also[0].stock)


def test_strips_left_tell_every_dose_of_the_substance() -> None:
    """Two kinds of one substance have one stock, and it need not be named."""
    plan = with_pads()
    double = replace(plan.outfit.strips, per_colony=4, id="pads")
    plan = replace(plan, outfit=replace(plan.outfit, strips_also=(double,)))
    facts = put_in("strips left 12", now=at(5050), plan=plan).outfit

    assert (52, 52) == (facts.strips.stock, facts.strips_also[0].stock)


@pytest.mark.parametrize("line", ["strips left 12", "strips left 12 of oxalic acid"])
def test_strips_left_of_which_substance(line: str) -> None:
    """Where two are in use, one of them must be named."""
    with pytest.raises(ScenarioError) as caught:
        put_in(line, now=NOON, plan=with_pads())

    (fault,) = caught.value.faults
    assert "the substance after the number: amitraz, formic acid" == fault.allowed


@pytest.mark.parametrize("sign", [" of ", " of: ", " ", ": ", " ("])
def test_strips_left_of_a_substance_that_the_plan_has_not(sign: str) -> None:
    """The plan has amitraz: 200 strips of thymol are none of these, whatever stands before it."""
    (told,) = faults(f"strips left 200{sign}thymol")

    assert "allowed: the substance after the number: amitraz" in told
    assert told.endswith("leave the line out. An example: 'strips left 200 amitraz'.")
    assert 200 == put_in("strips left 200: thymol for sale", now=NOON).outfit.strips.stock


def test_strips_left_of_a_substance_by_its_other_name() -> None:
    """Formic acid is what a driver calls formic; oxalic acid is not in use."""
    facts = put_in("strips left 12 of formic", now=NOON, plan=with_pads()).outfit

    assert 12 == facts.strips_also[0].stock


def test_stocks_count_what_is_used() -> None:
    """After the first trip 40 strips are in hives; 12 left makes a stock of 52.

    170 L were mixed and loaded; 204 L for the next trip, an hour and two minutes of mixing, began
    at 5040.  By 5050 they make 204 x 10 / 62 = 32.9 L: of 50 L left 17.1 L stood there before.
    At 5102 all 204 should: with 50 L left, 154 L were not mixed after all.
    Sugar: 374,000 ml x 1.327 x 0.667 = 331,030.8 g used, rounded up, and 1 kg left.
    """
    now = at(5050)
    facts = put_in("strips left 12", "syrup left 50 L", now=now)

    assert 52 == facts.outfit.strips.stock
    assert [170_000, 204_000] == [mix.ml for mix in facts.plan.mixing]
    assert 50_000 - 204_000 * 10 // 62 == facts.outfit.feed.ready_ml
    later = put_in("syrup left 50 L", now=at(5102))
    assert [170_000, 50_000] == [mix.ml for mix in later.plan.mixing]
    assert 0 == later.outfit.feed.ready_ml
    sugar = put_in("sugar left 1 kg", now=now).outfit.feed.sugar_g or 0
    assert 332_031 == sugar


def test_a_yard_moves() -> None:
    """From a day after today on; roads to the new place are like the others for their length."""
    told = put_in("move Fernbank to 0.09 0.09 on Sat: fire risk", now=NOON)
    facts = told.outfit
    yard = facts.yard("fernbank")

    assert (0, 5) == (yard.sites[0][0], yard.sites[1][0])
    assert 4 == yard.place_on(5) == len(facts.places) - 1
    assert 5 == len(facts.travel.metres) == len(facts.travel.minutes[0])
    assert (running_outfit().travel.source, (4,)) == (facts.travel.source, facts.travel.guessed)
    # Roads 10 + 14 + 25 + 4 + 15 + 11 = 79 km, straight 10.0 + 14.0 + 20.7 + 4.0 + 11.2 + 7.8.
    assert told.notes[0].endswith("straight lines x 1.17 at 60 km/h, as on the other roads")
    # The test grid is a kilometre a minute: so is the new road.
    assert facts.travel.metres[0][4] == pytest.approx(
        1000 * (facts.travel.minutes[0][4] or 0), abs=1000
    )
    assert 3 == put_in("move Fernbank to 0.09 0.09", now=NOON).outfit.yard("fernbank").sites[1][0]


def test_a_truck_that_carries_hives_is_not_to_be_had() -> None:
    """Red carries Fernbank in the night before Saturday, its sixth day; a new yard is no such."""
    told = put_in("move Fernbank to 0.09 0.09 on Sat with Red: fire risk", now=NOON)
    red = next(one for one in told.outfit.trucks if one.name == "Red")

    assert ((5, red.id),) == told.outfit.yard("fernbank").carried_by
    assert 5 in red.out_days
    assert () == put_in("move Fernbank to 0.09 0.09 on Sat", now=NOON).outfit.yards[0].carried_by
    twice = put_in(
        "move Fernbank to 0.09 0.09 on Sat with truck Red",
        "new yard Mill Lane at 0.0, 0.1: 24 colonies 40 boxes like Fernbank", now=NOON,
    )  # fmt: skip
    assert () == twice.outfit.yards[-1].carried_by


def test_a_truck_is_not_back_on_the_day_after_its_night_with_hives() -> None:
    """Red is broken from Friday on and back from then on, but carries Fernbank that night."""
    told = put_in(
        "Red broken Fri - Mon", "move Fernbank to 0.09 0.09 on Sat with Red", "Red back Fri",
        now=NOON,
    )  # fmt: skip
    red = next(one for one in told.outfit.trucks if one.name == "Red")

    assert (5,) == red.out_days
    assert told.notes[-1].startswith("Red stays out on Sat")
    assert told.notes[-1].endswith("in the night before it carries the hives of Fernbank")


@pytest.mark.parametrize("lines", [
    ("move Fernbank to 0.09 0.09 on Sat with Red", "suspect Fernbank"),
    ("suspect Fernbank",), ("standstill Fernbank, feed agreed",),
])  # fmt: skip
def test_hives_of_a_yard_that_closes_stay(lines: tuple[str, ...]) -> None:
    """The move of Saturday, day 5, stops, told the evening before.

    Red is not sent out on Saturday by itself: it may be away for other reasons too.
    """
    night = "Fri 5 Mar 20:00"
    plan = running_plan()
    if len(lines) == 1:
        before = put_in("move Fernbank to 0.09 0.09 on Sat with Red", now=NOON)
        plan = replace(plan, outfit=before.outfit)
    told = put_in(*lines, plan=plan, now=night)
    yard = told.outfit.yard("fernbank")

    assert ((0, yard.sites[0][1]),) == yard.sites
    assert () == yard.carried_by
    (note,) = [one for one in told.notes if "the hives stay where they are" in one]
    assert note.startswith("Fernbank: ")
    assert "the move in the night before Sat 6 Mar is called off: ring whoever" in note
    assert note.endswith("Red still stays home that day; to have it, type 'Red back Sat 6 Mar'")
    red = next(one for one in told.outfit.trucks if one.name == "Red")
    assert (5,) == red.out_days
    back = put_in("Red back Sat 6 Mar", plan=replace(plan, outfit=told.outfit), now=night)
    assert () == next(one for one in back.outfit.trucks if one.name == "Red").out_days


def test_hives_that_have_been_carried_stand_where_they_are() -> None:
    """Carried in the night before Saturday; closed that day at 9:00, they stay at the new place."""
    before = put_in("move Fernbank to 0.09 0.09 on Sat with Red", now=NOON)
    plan = replace(running_plan(), outfit=before.outfit)
    told = put_in("suspect Fernbank", plan=plan, now="Sat 6 Mar 9:00")

    assert before.outfit.yard("fernbank").sites == told.outfit.yard("fernbank").sites
    assert ((5, "truck2"),) == told.outfit.yard("fernbank").carried_by
    assert not [one for one in told.notes if "the hives stay" in one]


@pytest.mark.parametrize("line", ["suspect Fernbank", "standstill Fernbank"])
def test_a_closed_yard_is_not_moved(line: str) -> None:
    """The line is refused, with the licence as its cure; with one it is read."""
    move = "move Fernbank to 0.09 0.09 on Sat"
    (told,) = faults(line, move)

    assert "a yard that is neither suspect nor at a standstill" in told
    assert "type that line first: 'standstill Fernbank, licence No 17, district office'" in told
    licensed = put_in("standstill Fernbank, licence No 17, district office", move, now=NOON)
    assert 2 == len(licensed.outfit.yard("fernbank").sites)


@pytest.mark.parametrize(
    "area",
    [Area(((0.09, 0.1),), 1_200), Area(((0.08, 0.08), (0.1, 0.08), (0.1, 0.1), (0.08, 0.1)))],
    ids=["circle", "square"],
)  # fmt: skip
def test_hives_are_not_moved_into_a_restricted_area(area: Area) -> None:
    """A hundredth of a degree is 1.1 km; the file refuses it as well. With a licence it is read."""
    plan = running_plan()
    plan = replace(plan, outfit=replace(plan.outfit, areas=(area,)))
    plan = plan_from_text(plan_text(plan))
    move = "move Fernbank to 0.09 0.09 on Sat"
    with pytest.raises(ScenarioError) as caught:
        put_in(move, now=NOON, plan=plan)
    (fault,) = caught.value.faults

    assert "a place outside restricted areas, which hives do not leave" == fault.allowed
    assert "type that line first: 'standstill Fernbank, licence No 17" in fault.cure
    licence = "standstill Fernbank, licence No 17, district office"
    licensed = put_in(licence, move, now=NOON, plan=plan)
    outside = put_in(move.replace("0.09 0.09", "0.09 0.07"), now=NOON, plan=plan)
    for told in (licensed, outside):
        assert 2 == len(told.outfit.yard("fernbank").sites)


def test_a_licence_taken_back_calls_off_the_move_into_an_area() -> None:
    """That of Saturday, told with a licence before; the one of Friday, outside, stays."""
    plan = running_plan()
    outfit = replace(plan.outfit, areas=(Area(((0.09, 0.1),), 1_200),))
    before = put_in(
        "standstill Fernbank, licence No 17, district office",
        "move Fernbank to 0.09 0.07 on Fri", "move Fernbank to 0.09 0.09 on Sat with Red",
        "move Fernbank to 0.09 0.06 on Sun", now=NOON, plan=replace(plan, outfit=outfit),
    )  # fmt: skip
    told = put_in("sound Fernbank", now="Wed 3 Mar 13:00", plan=replace(plan, outfit=before.outfit))
    yard = told.outfit.yard("fernbank")

    assert [0, 4] == [day for day, _ in yard.sites]
    assert () == yard.carried_by
    said = [one for one in told.notes if "without a licence they do not go into" in one]
    assert ["night before Sat 6", "night before Sun 7"] == [
        note[note.index("night"):][:18] for note in said
    ]  # fmt: skip
    assert "Red still stays home that day" in said[0]


def test_a_new_yard_in_a_restricted_area_is_at_a_standstill() -> None:
    """As one of the file is."""
    plan = running_plan()
    area = Area(((0.0, 0.1),), 1_000)
    plan = replace(plan, outfit=replace(plan.outfit, areas=(area,)))
    lines = [f"new yard {name} at 0.0 {lon}: 5 colonies 5 boxes"
             for name, lon in (("In", 0.105), ("Out", 0.115))]  # fmt: skip
    told = put_in(*lines, now=NOON, plan=plan)

    assert [Health.STANDSTILL, Health.SOUND] == [yard.health for yard in told.outfit.yards[3:]]
    held = "In: in a restricted area, so at a standstill: nothing leaves"
    assert [held] == [note for note in told.notes if "standstill" in note]
    for line, says in (
        ("sound In", False), ("watch In", False), ("standstill In", True), ("suspect In", False),
        ("standstill In, licence No 17, district office", False),
    ):  # fmt: skip
        assert says is (held in put_in(*lines, line, now=NOON, plan=plan).notes)


def test_a_moved_yard_keeps_what_was_typed_of_its_old_place() -> None:
    """Fernbank has a district; the mill has nothing, until somebody types a gate and a note."""
    line = "move {} to 0.09 0.09 on Sat"
    told = put_in(line.format("Fernbank"), now=NOON).notes
    gated = Access(opens_min=420, notes="dog", phone="1")
    yards = tuple(replace(one, access=gated) for one in running_outfit().yards)
    plan = replace(running_plan(), outfit=replace(running_outfit(), yards=yards))
    more = put_in(line.format("Old Mill"), plan=plan, now=NOON).notes

    kept = "kept from the old place until somebody types others:"
    assert f"Fernbank: {kept} district" == told[1]
    assert f"Old Mill: {kept} limits of the way in, notes, whom to ring" == more[1]
    assert 1 == len(put_in(line.format("Old Mill"), now=NOON).notes)


def test_a_new_yard() -> None:
    """It takes what was not typed from its nearest neighbour, or from the one it is like."""
    facts = put_in("new yard Mill Lane at 0.0, 0.1: 24 colonies 40 boxes", now=NOON)
    yard = facts.outfit.yards[-1]
    alike = put_in("new yard X at 0.0 0.1: 5 colonies 0 boxes like Old Mill", now=NOON).outfit

    assert ("mill-lane", 24, 40, "coast") == (yard.id, yard.colonies, yard.boxes, yard.district)
    assert "Mill Lane: gate and way in unknown" in facts.notes[0]
    assert "Mill Lane: drives there are guessed" in facts.notes[1]
    assert (4,) == facts.outfit.travel.guessed
    assert running_outfit().yard("mill").clearing == alike.yards[-1].clearing


def test_boxes_left() -> None:
    """What still stands in a yard of which nothing is off is its total."""
    assert 12 == put_in("boxes left 12 Fernbank", now=NOON).outfit.yard("fernbank").boxes


@pytest.mark.parametrize(
    ("line", "word"),
    [
        ("shut Fernbnk Fri", "Did you mean 'Fernbank'?"),
        ("shut Fernbank", "a day or days"),
        ("shut Fernbank Thu 5 Mar", "2027-03-05 is a Fri"),
        ("shut Fernbank 1 Dec", "from 2027-03-01 to 2027-03-08"),
        ("shut Fernbank 2028-01-01", "from 2027-03-01 to 2027-03-08"),
        ("shut Fernbank Fri from nine", "hours and minutes with a colon"),
        ("shut Fernbank Fri from 9.30", "Write it with a colon: 9:30."),
        ("shut Fernbank Fri from 9 to 12", "a time of day such as 14:00"),
        ("shut Fernbank Fri: 14:00 hail", "goes on '14:00 hail'"),
        ("shut Fernbank Fri: afternoon storms", "goes on 'storms'"),
        ("shut Fernbank Fri (afternoon only)", "goes on 'only'"),
        ("shut Fernbank Fri from 14:00 and Sat", "goes on 'and Sat'"),
        ("shut Fernbank Fri 20:00-3", "goes on '20:00-3'"),
        ("shut Fernbank Fri from 14:00 to 13:00", "an end after the start"),
        ("shut Fernbank Fri from 14:75", "a time of day"),
        ("shut Fernbank Fri from 13pm", "an hour from 1 to 12"),
        ("shut Fernbank Fri from 2", "a time of day such as 14:00"),
        ("shut Fernbank 6-5 Mar", "an end after the start"),
        ("shut Fernbank Fri from 24:00", "an end after the start"),
        ("shut Fernbank until Mon 1 Mar", "an end after the start"),
        (
            "shut Fernbank Fri because of rain",
            "colon before it: 'shut Fernbank Fri: because of rain'",
        ),
        ("shut Fernbank Fri - rain", "colon before it: 'shut Fernbank Fri: rain'"),
        ("shut Fernbank Fri evening", "Write days and hours as in 'Fri-Sat from 14:00'"),
        ("shut Fernbank Fri 9-12", "Write days and hours as in 'Fri-Sat from 14:00'"),
        ("shut Fernbank Fri, Old Mill too", "Write what else is meant on a line of its own."),
        ("Ann Fri", "'out' or 'off'"),
        ("Zoe off Fri", "the name of a truck, trailer or person"),
        ("truck broken down Fri", "Give one of: truck1, truck2."),
        ("dead many Fernbank", "a number of colonies"),
        ("dead Fernbank many", "a number of colonies"),
        ("dead 99 Fernbank", "at most the 10 colonies"),
        ("boxes left 12.5 Fernbank", "a number of boxes"),
        ("strips left 9:00-12:00 200", "a number of strips"),
        ("strips left 1,000", "a number of strips"),
        ("dead 2:30 Fernbank", "a number of colonies"),
        ("sugar left 0:30", "a number and its unit"),
        ("shut Fernbank Fri:14:00", "a day or days"),
        ("sugar left 500", "unit is missing"),
        ("syrup left 5 kg", "does not measure"),
        ("sugar left 20 bags", "write what is in them, such as 500 kg for 20 bags of 25 kg"),
        ("move Fernbank to 0.09", "latitude and longitude"),
        ("move Fernbank to 0.09 0.09 on Wed", "a day after today"),
        ("move Fernbank to 60 0.09 on Fri", "within 600 km"),
        ("move Fernbank to 0.09 0.09 on Sat with Ann", "the name of a truck"),
        ("new yard X", "a new yard's name and place"),
        ("new yard Fernbank at 0 0.1: 2 colonies 3 boxes", "a name that no yard has"),
        ("new yard X at 0 0.1: boxes", "a number of colonies"),
        ("done nowhere Fernbank: 3 boxes", "Give the time it is with 'now Fri 12:30'"),
        ("", ""),
        ("now", "a time or a day"),
        ("x" * 600, "at most 500 characters"),
    ],
)
def test_faults(line: str, word: str) -> None:
    """What is wrong is named with its line, and an example is given."""
    if not line:
        assert running_outfit() == put_in(line, now=NOON).outfit
        return
    (said,) = faults(line)
    assert word in said
    assert "change 1" in said
    assert "An example: " in said or len(line) > 500
    assert "eave it out" not in said


def test_all_faults_come_at_once() -> None:
    """Three lines of four are wrong, and all three are told in one go."""
    said = faults("shut Fernbnk Fri", "dead x Fernbank", "Ann off Fri", "gibberish")

    assert 3 == len(said)
    assert "Lines may begin: now, done, shut" in said[2]


def test_a_name_of_two_things_is_asked_back() -> None:
    """Two yards of one name are told apart by id; so are a person and a truck."""
    outfit = running_outfit()
    yards = tuple(replace(yard, name="Home") for yard in outfit.yards)
    people = (replace(outfit.people[0], name="Red"), *outfit.people[1:])
    plan = replace(running_plan(), outfit=replace(outfit, yards=yards, people=people))

    with pytest.raises(ScenarioError, match="one of: fernbank, creek-mouth, mill"):
        put_in("dead 1 Home", plan=plan)
    with pytest.raises(ScenarioError, match="a name that stands for one"):
        put_in("Red off Fri", plan=plan)
    assert 9 == put_in("dead 1 fernbank", plan=plan).outfit.yard("fernbank").colonies


def called(**names: str) -> Plan:
    """The running plan with other names for some of its yards, by id without hyphens."""
    outfit = running_outfit()
    yards = tuple(
        replace(yard, name=names.get(yard.id.replace("-", ""), yard.name)) for yard in outfit.yards
    )
    return replace(running_plan(), outfit=replace(outfit, yards=yards))


@pytest.mark.parametrize(
    "typed", ["Nuble Chico", "NUBLE chico:", "\u00f1uble Chico", "N\u0303uble Chico"]
)
def test_accents_may_be_left_out(typed: str) -> None:
    """Without the key for it, or with its accent as a sign of its own, a name is a name."""
    plan = called(fernbank="\u00d1uble Chico", mill="Nuble")

    assert 9 == put_in(f"dead 1 {typed}", plan=plan).outfit.yard("fernbank").colonies


def test_names_that_differ_in_accents_alone_are_told_apart() -> None:
    """As typed one is meant; typed in a third way neither is."""
    plan = called(fernbank="\u00d1uble", mill="Nuble")

    assert 9 == put_in("dead 1 \u00d1uble", plan=plan).outfit.yard("fernbank").colonies
    assert 23 == put_in("dead 1 nuble", plan=plan).outfit.yard("mill").colonies
    with pytest.raises(ScenarioError, match="the name or id of a yard"):
        put_in("dead 1 N\u00fable", plan=plan)


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_lines_are_refused(name: str) -> None:
    """Whatever is typed is a fault in words, never a crash."""
    for line in (f"shut {name} Fri", f"done {name}: 3", f"dead 1 {name}", f"{name} off Fri"):
        assert faults(line)


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_of_new_yards_are_names_or_refused(name: str) -> None:
    """A new yard's name is kept as it is, or refused."""
    line = f"new yard {name} at 0 0.1: 2 colonies 3 boxes"
    if len(line) > 500 or "\u202e" in name:
        assert faults(line)
    else:
        assert " ".join(name.split()) == put_in(line, now=NOON).outfit.yards[-1].name


def test_a_file_of_changes(tmp_path: Path) -> None:
    """Blank lines and notes are left alone; the line is named in faults."""
    path = tmp_path / "today.txt"
    path.write_bytes("\ufeff# Wednesday\n\nnow Wed 12:00\nshut Fernbank Fri\n".encode())
    facts = changed(running_plan(), change_lines(path))

    assert ("now Wed 12:00", "shut Fernbank Fri") == facts.lines
    path.write_text("now Wed\nnonsense\n", encoding="utf-8")
    with pytest.raises(ScenarioError, match=r"today\.txt, line 2") as no:
        changed(running_plan(), change_lines(path))
    with speaking("de"):
        assert "today.txt, Zeile 2: " in said(no.value.faults[0].sentence())


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    """Missing, of other bytes, or far too large: each is a fault."""
    other = tmp_path / "other.txt"
    other.write_bytes(b"\xff\xfe\x00")
    large = tmp_path / "large.txt"
    large.write_bytes(b"#" * 1_000_001)
    for path in (tmp_path / "none.txt", other, large):
        with pytest.raises(ScenarioError):
            change_lines(path)


def test_too_many_lines_are_refused() -> None:
    """More than 2,000 changes are a new scenario."""
    with pytest.raises(ScenarioError, match="at most 2000 changes"):
        changed(running_plan(), typed_changes(["Ann off Fri"] * 2_001))


def test_every_example_is_understood() -> None:
    """What the messages give as an example reads without a fault of grammar."""
    untold = {"done", "home", "skip", "next", "left", "spin", "feeders left", "feeders lost"}
    assert len(VERBS) == len({verb.begins[:1] for verb in VERBS})
    for verb in VERBS:
        for word in verb.begins or ("",):
            names = {"yard": "Fernbank", "truck": "Blue", "helper": "Ann", "time": "", "trip": "",
                     "substance": "amitraz"}  # fmt: skip
            line = verb.such_as.format(word=word, **names).replace("-36.85 174.76", "0.1 0.1")
            if not {*verb.begins} & untold:
                put_in(line, now="" if word == "now" else NOON)


SOUNDS = ("Dry Creek", "Six Mile", "Home Paddock")


def sounding() -> Plan:
    """The running plan with yards whose names have words of lines in them."""
    outfit = running_outfit()
    yards = tuple(replace(one, name=name) for one, name in zip(outfit.yards, SOUNDS, strict=True))
    return replace(running_plan(), outfit=replace(outfit, yards=yards))


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("Dry Creek shut Friday: rain", "shut Dry Creek Friday: rain"),
        ("Dry Creek: shut Fri", "shut Dry Creek Fri"),
        ("Dry Creek is shut Fri (rain)", "shut Dry Creek Fri (rain)"),
        ("3 dead at Dry Creek", "dead 3 at Dry Creek"),
        ("Dry Creek 3 dead: wasps", "dead Dry Creek 3: wasps"),
        ("Dry Creek: 3 dead", "dead Dry Creek 3"),
        ("Home Paddock 3 dead", "dead Home Paddock 3"),
        ("2 queenless at Six Mile", "queenless 2 at Six Mile"),
        ("lost 3 colonies at Dry Creek", "colonies lost 3 at Dry Creek"),
        ("Six Mile 40 boxes left", "boxes left Six Mile 40"),
        ("left 40 boxes at Six Mile", "boxes left 40 at Six Mile"),
        ("Fri shut Dry Creek", "shut Dry Creek Fri"),
        ("shut Fri at Dry Creek: hail", "shut Dry Creek Fri: hail"),
        ("shut Fri all yards", "shut all yards Fri"),
        ("Fri from 14:00 coast shut", "shut coast Fri from 14:00"),
        ("lost 5 boards", "boards lost 5"),
        ("1 board lost", "board lost 1"),
        ("1 colony lost at Dry Creek", "colony lost 1 at Dry Creek"),
        ("1 block left", "block left 1"),
        ("1 strip left", "strip left 1"),
        ("1 box left at Dry Creek", "box left 1 at Dry Creek"),
        ("no strips left", "strips left no"),
        ("no sugar left", "sugar left no"),
        ("Dry Creek is suspect: AFB", "suspect Dry Creek: AFB"),
        ("honey house is full Fri", "honey house full Fri"),
        ("honey house is full: Fri", "honey house full: Fri"),
        ("the honey house is stopped until Fri: pump", "honey house stopped until Fri: pump"),
        ("honey house: stopped until Fri", "honey house stopped until Fri"),
        ("Fri Ann off", "Ann off Fri"),
        ("Ann Fri off: flu", "Ann off Fri: flu"),
        ("off sick Fri Ann", "Ann off sick Fri"),
        ("Fri-Sat Box trailer is broken", "Box trailer broken Fri-Sat"),
    ],
)
def test_the_opening_word_may_stand_anywhere(typed: str, read: str) -> None:
    """As people text it; how it was read is said."""
    texted, plain = (put_in(one, now=NOON, plan=sounding()) for one in (typed, read))

    assert plain.outfit == texted.outfit != sounding().outfit
    assert (f"{typed!r} is read as {read!r}", *plain.notes) == texted.notes


def test_lines_in_another_order_take_their_places() -> None:
    """Counts before stocks, whatever the words: as with the opening word first."""
    texts = ("12 strips left", "Fernbank done 6 colonies 11 boxes no strips")
    plain = ("strips left 12", "done Fernbank 6 colonies 11 boxes no strips")
    texted, told = (put_in(*lines, now="Thu 4 Mar 20:00") for lines in (texts, plain))

    assert (told.plan, told.outfit) == (texted.plan, texted.outfit)


@pytest.mark.parametrize(
    ("typed", "cure"),
    [
        ("Dry Creek shut Friday, rain", "put a colon before it: 'shut Dry Creek Friday: rain'."),
        ("3 dead, 2 queenless at Dry Creek", "An example: 'dead 2 Dry Creek'."),
        ("shut Fri Dry Creek, Six Mile", "An example: 'shut Dry Creek Fri from 14:00'."),
        ("shut Dry Creek all day Fri", "An example: 'shut Dry Creek Fri from 14:00'."),
        ("shut Fri except Dry Creek", "'open Dry Creek Sat 9:00-12:00'"),
        ("Dry Creek not shut Fri", "'open Dry Creek Sat 9:00-12:00'"),
        ("Dry Creek no longer suspect", "'sound Dry Creek'"),
        ("shut all Fri except Six Mile", "'open Six Mile Sat 9:00-12:00'"),
        ("shut coast Fri because Six Mile", "An example: 'shut coast Fri from 14:00'."),
        ("shut Dry Crek Fri", "An example: 'shut Dry Creek Fri from 14:00'."),
        ("shutt Dry Creek Fri", "Did you mean 'shut'? An example: 'shut Dry Creek Fri from 14:00'"),
        ("moved Dry Creek to 0.1 0.1", "Did you mean 'move'? An example: 'move Dry Creek to"),
        ("out of sugar", "Did you mean 'sugar left'? An example: 'sugar left 500 kg'."),
        ("sugr left 500 kg", "Did you mean 'sugar left'? An example: 'sugar left 500 kg'."),
        ("left 600 L of sirup", "Did you mean 'syrup left'?"),
        ("syrop left 600 L", "Did you mean 'syrup left'?"),
        ("40 bloks left", "Did you mean 'blocks left'? An example: 'blocks left 40'."),
        ("boxs left 12 Dry Creek", "'boxes left 12 Dry Creek'"),
        ("lost 5 boards at Dry Creek", "An example: 'boards lost 5'."),
        ("foulbrood in 3 colonies at Dry Creek", "Lines on Dry Creek are: 'done Dry Creek: 20"),
        ("foulbrood at Home Paddock", "Lines on Home Paddock are: 'done Home Paddock: 20"),
        ("foulbrood at Dry Creek", "Lines on Dry Creek are: 'done Dry Creek: 20 colonies"),
        ("please new yard X at 0 0.1: 5 colonies 4 boxes", "Did you mean 'new yard'?"),
        ("rain Friday", "Lines may begin: now, done, shut"),
        ("Zoe off Fri", "Known here: Blue flatdeck, Red, Box trailer, Ann, Bob, Caro."),
        ("extractor broken until Mon", "Lines may begin: now, done, shut"),
        ("Blue off someday", "An example: 'Blue flatdeck off Fri-Sat'."),
        ("Fri Ann not off", "An example: 'Ann off Fri-Sat'."),
        ("Fri Ann and Bob off", "An example: 'Ann off Fri-Sat'."),
        ("Ann wants Fri off", "An example: 'Ann off Fri-Sat'."),
        ("Ann Fri off Sat back", "An example: 'Ann off Fri-Sat'."),
    ],
)
def test_a_refusal_gives_the_line_of_the_word_that_was_used(typed: str, cure: str) -> None:
    """With the yard that was named, and what is meant by a line that says not."""
    with pytest.raises(ScenarioError) as caught:
        put_in(typed, now=NOON, plan=sounding())
    (fault,) = caught.value.faults

    assert cure in fault.cure


@pytest.mark.parametrize(
    ("typed", "cure"),
    [
        # Red is at the second yard from 9:45 on, planned there until 10:35.
        ("running 40 min late", "An example: 'late Six Mile 11:15'."),
        ("truck late 40 min", "An example: 'late Six Mile 11:15'."),
        ("left Six Mile 15.20", "Write it with a colon: 15:20. An example: 'left Six Mile 10:35'."),
        ("Red is home", "Write 'home Red'."),
        ("Dry Creek skip: rain", "Write 'skip Dry Creek: rain'."),
        ("call Blue home", "An example: 'call home Blue flatdeck'."),
        ("Six Mile done, nothing left", "An example: 'done Six Mile: 20 colonies 37 boxes'."),
    ],
)
def test_what_drivers_under_way_text_gets_their_line(typed: str, cure: str) -> None:
    """Of the truck that is out and where it is; an order to it is never taken from other words."""
    with pytest.raises(ScenarioError) as caught:
        put_in(typed, now="Thu 4 Mar 10:00", plan=sounding())
    (fault,) = caught.value.faults

    assert cure in fault.cure


@pytest.mark.parametrize(
    ("line", "word"),
    [
        ("strips left 20 packs", "packs"),
        ("strips left 20: packs", "packs"),
        ("strips left 20 (packets of 10)", "packets"),
        ("strips left 20 whole packs of 10", "packs"),
        ("20 packs of strips left", "packs"),
        ("blocks left 40 kg", "kg"),
        ("blocks left 40: KG", "KG"),
        ("blocks left 10 boxes", "boxes"),
        ("boards found 3 stacks", "stacks"),
        ("boards lost 2 pairs", "pairs"),
        ("boxes left Fernbank 3 stacks", "stacks"),
        ("boxes left 3 Fernbank: stacks", "stacks"),
    ],
)
def test_what_is_counted_is_told_by_the_piece(line: str, word: str) -> None:
    """Twenty packs are not twenty strips, and no colon makes a pack a reason."""
    with pytest.raises(ScenarioError) as caught:
        put_in(line, now=NOON)
    (fault,) = caught.value.faults

    assert fault.allowed.startswith("a number of ")
    assert f"Count them one by one, not in {word!r}." in fault.cure
    assert "a colon" not in fault.cure


@pytest.mark.parametrize(
    "line", ["strips left 20: packs were wet", "boards lost 5: left in the yard"]
)
def test_a_reason_behind_a_count_may_begin_with_such_a_word(line: str) -> None:
    """As long as it is not that word alone."""
    assert put_in(line, now=NOON).outfit != running_outfit()


def test_a_count_that_may_be_of_several_trips_has_the_trip_in_its_example() -> None:
    """The last one that was there."""
    with pytest.raises(ScenarioError, match="An example: 'done 0305-truck2-0715 Fernbank: 20"):
        put_in("Fernbank done", now="Sat 6 Mar 7:00", plan=feeds_fernbank_on_friday())


@pytest.mark.parametrize(
    "line", ["Mill isn't sound", "Mill isn\u2019t sound", "open Mill Sat cancelled"]
)
def test_no_cure_tells_people_to_type_the_contrary(line: str) -> None:
    """What takes a line back is not proposed as its reason."""
    with pytest.raises(ScenarioError) as no:
        put_in(line)
    (fault,) = no.value.faults

    assert "a colon" not in fault.cure
    assert "Where the contrary is meant, leave the line out" in fault.cure
