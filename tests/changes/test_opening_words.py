"""The word that a line is known by, wherever it stands, and cures for those that are not."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.errors import ScenarioError
from tests.changes.refused import NOON
from tests.running import feeds_fernbank_on_friday, put_in, running_outfit, running_plan

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
        ("rain Friday", "Did you mean 'shut'? An example: 'shut all Fri from 14:00'."),
        ("Zoe off Fri", "Known here: Blue flatdeck, Red, Box trailer, Ann, Bob, Caro."),
        ("extractor broken until Mon", "Did you mean 'honey house stopped'?"),
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


@pytest.mark.parametrize(
    ("line", "such_as"),
    [
        ("rain Saturday", "'shut all Fri from 14:00'"),
        ("rain on Sat at Fernbank", "'shut Fernbank Fri from 14:00'"),
        ("gate locked at Old Mill until Fri", "'shut Old Mill Fri from 14:00'"),
        ("no work on Thursday", "'shut all Fri from 14:00'"),
        ("extractor broken Fri", "'honey house stopped until Mon'"),
    ],
)
def test_who_tells_a_cause_is_shown_the_change(line: str, such_as: str) -> None:
    """Before, all words with which lines may begin."""
    with pytest.raises(ScenarioError) as caught:
        put_in(line, now=NOON)
    (fault,) = caught.value.faults

    assert f"An example: {such_as}." in fault.cure
    assert "Lines may begin" not in fault.cure


def test_ill_is_sick_and_everything_is_all() -> None:
    """Words that people use."""
    assert put_in("Bob ill Fri", now=NOON).outfit == put_in("Bob sick Fri", now=NOON).outfit
    shut, everything = (put_in(f"shut {one} Sat", now=NOON) for one in ("all", "everything"))
    assert shut.outfit == everything.outfit
