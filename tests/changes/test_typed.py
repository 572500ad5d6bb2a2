"""Typed changes: each line means one thing, and all faults come at once."""

from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.changes.typed import change_lines, changed, typed_changes
from runplanner.changes.verbs.table import VERBS
from runplanner.daybook.plan import Plan
from runplanner.days import DAY_MIN, Span
from runplanner.errors import ScenarioError
from runplanner.outfit.shut import Shut, Work
from runplanner.paperwork.speech.tongue import said, speaking
from tests.changes.refused import NOON, faults
from tests.paperwork.plans import HOSTILE
from tests.running import put_in, running_outfit, running_plan


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
