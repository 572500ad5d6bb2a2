"""Tests of the papers in another language."""

import re
from dataclasses import fields, is_dataclass, replace
from datetime import date
from json import loads
from string import Formatter

import pytest

from runplanner.daybook.plan import Plan, Relief
from runplanner.daybook.text import plan_from_text, plan_text
from runplanner.outfit.shut import Cause, Why
from runplanner.paperwork.data.tables import TABLE_NAMES
from runplanner.paperwork.days.day_sheet import busy_days
from runplanner.paperwork.speech.say import count, duration, listed, litres, money
from runplanner.paperwork.speech.tongue import (
    ENGLISH,
    day_words,
    languages,
    read_catalogue,
    said,
    speaking,
    spoken,
    tr,
    trn,
)
from runplanner.paperwork.write_all import papers
from runplanner.phrase import joined, phrase
from runplanner.season.proof.bound import KIND
from runplanner.season.watch import ALL_ROUNDS
from runplanner.season.what_if import RULES, reliefs
from tests.audit.feeder_plan import feeders_fetched
from tests.audit.wet_plan import wet_boxes
from tests.paperwork.pages import Page
from tests.paperwork.plans import eight_stop_plan, hostile_plan, small_plan
from tests.paperwork.said import SPEAKING, unsayable, words_in, words_in_code

OTHERS = [name for name in languages() if name != ENGLISH]
CREWS = ("manifests/", "days/", "phone/")
EVERYWHERE = ("plan.json", "plan.geojson", "tracks/", "tables/", "calendar/")
"""What programs read; the words of the map stand in its panels, those of the calendar apart."""


def crews(plan: Plan, language: str) -> dict[str, str]:
    """What a crew carries."""
    found = papers(plan, language=language)
    return {name: text for name, text in found if name.startswith(CREWS)}


def sheets(plan: Plan, language: str) -> dict[str, str]:
    """Every paper to be read by people."""
    found = papers(plan, language=language)
    return {name: text for name, text in found if not name.startswith(EVERYWHERE)}


def seen(page: str) -> str:
    """A page without scripts and styles; what the map's script shows stands behind it."""
    told = re.findall(r'"(?:note|words|label|name)":("(?:[^"\\]|\\.)*")', page)
    bare = re.sub(r"<(script|style)\b.*?</\1>", "", page, flags=re.DOTALL)
    return bare + "".join(f"<p>{loads(one)}</p>" for one in told)


def parts(words: str) -> set[str]:
    """The names in braces of a sentence."""
    return {name for _, name, _, _ in Formatter().parse(words) if name}


def placed(words: str) -> list[str]:
    """Where a sentence of argparse has something put in, in any order."""
    return sorted(re.findall(r"%(?:\(\w+\))?[rs]", words))


def typed(fact: object) -> set[str]:
    """Every string among the facts of a plan: what people typed, and what is made of it."""
    if isinstance(fact, str):
        return set(re.findall(r"[^\W\d_]+", fact))
    if is_dataclass(fact):
        return set().union(*(typed(getattr(fact, field.name)) for field in fields(fact)))
    return set().union(*(typed(one) for one in fact)) if isinstance(fact, tuple) else set()


def test_there_is_more_than_one_language() -> None:
    """English, which needs no catalogue, comes first."""
    assert ("en", "de") == languages()


@pytest.mark.parametrize("language", OTHERS)
def test_every_word_in_the_code_is_in_the_catalogue(language: str) -> None:
    """Nothing lacks, nothing is left over from earlier words, nothing is guessed."""
    catalogue = read_catalogue(language)
    kept = {one.id: one for one in catalogue if one.id}

    assert set(words_in_code()) == {
        (key[0], key[1]) if isinstance(key, tuple) else key for key in kept
    }
    for one in kept.values():
        said = one.string if isinstance(one.string, tuple) else (one.string,)
        assert all(said), one.id
        assert not one.fuzzy, one.id


@pytest.mark.parametrize("language", OTHERS)
def test_the_parts_of_every_sentence_match(language: str) -> None:
    """A translation puts in what the English does: nothing is lost, nothing asked for in vain."""
    for one in read_catalogue(language):
        if one.id and isinstance(one.id, str):
            assert parts(one.id) == parts(str(one.string)), one.id
            assert placed(one.id) == placed(str(one.string)), one.id
        elif one.id:
            english, other = list(one.id), list(one.string or ())
            known = parts(english[0]) | parts(english[1])
            assert all(parts(words) <= known for words in other), one.id
            assert parts(english[1]) == parts(other[1]), one.id


def test_every_sentence_is_whole_and_every_counted_noun_has_its_plural() -> None:
    """What is put together first, or made plural with an s, is in no catalogue."""
    for path in SPEAKING:
        assert not unsayable(path.read_text("utf-8")), path.name


def test_what_no_catalogue_could_hold_is_found() -> None:
    """The test before this one can fail; what is said inside an f-string is found as well."""
    good = "f\"{tr('in', x=1)} {count(n + 1, 'box', 'boxes')}\"\nphrase(\"a \" \"b\")\nmark(known)"
    bad = 'tr(f"{n} in")\nphrase("a" + b)\ncount(n, "box")\ncounted(f"{n}", "b", n)'

    assert {"in", ("box", "boxes"), "a b"} == set(words_in(good))
    assert not unsayable(good)
    assert bad.replace('"', "'").splitlines() == unsayable(bad)


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("plan", [small_plan(), eight_stop_plan()])
def test_no_english_is_left_in_any_paper(language: str, plan: Plan) -> None:
    """A word that stands in both languages is a name that was typed, a unit, or a loan."""
    units = {"km", "kg", "min", "L", "daN", "EN", "h", "of", "cm", "geo", "IBC"}
    loans = {"Overall", "in", "max", "Drum", "Plan"}
    english, other = sheets(plan, ENGLISH), sheets(plan, language)

    assert english.keys() == other.keys()
    files = set(re.findall(r"[a-z]+", f"manifests.xlsx plan.geojson plan.json {TABLE_NAMES}"))
    allowed = typed(plan) | units | loans | files
    for name, text in english.items():
        here, there = (
            Page(seen(each)).words if name.endswith("html") else each.splitlines()
            for each in (text, other[name])
        )
        if name.startswith("phone/"):
            # A longer language may part a day elsewhere.
            here = there = [line for line in here if line in there]
        for ours, theirs in zip(here, there, strict=True):
            if ours == theirs:
                assert set(re.findall(r"[^\W\d_]+", ours)) <= allowed, (name, ours)


def test_what_the_planner_says_is_said_in_german() -> None:
    """Reasons and cures of undone work, what stopped the search, what the bound holds for."""
    plan = eight_stop_plan()
    rules, cures = [rule for rule, _ in RULES], reliefs(plan.outfit)
    whys = (
        phrase("{rule} (with this eased alone, it fits)", rule=rules[0]),
        joined(": ", rules[1], Why(Cause.RAIN, 2_050, worst=True).words()),
        phrase("no single rule was found that makes room by itself; with these eased together, it "
               "fits: {rules}", rules=joined("; ", *rules[2:])),
    )  # fmt: skip
    tried = tuple(Relief(what, 1, 2, 100) for what, _ in cures)
    told = replace(
        plan, undone=(replace(plan.undone[0], why=whys),), reliefs=tried,
        bound=replace(plan.bound, kind=KIND), search=replace(plan.search, stopped=ALL_ROUNDS),
    )  # fmt: skip
    english = [*rules, *(what for what, _ in cures), KIND, ALL_ROUNDS, "rain up to"]

    index = sheets(plan_from_text(plan_text(told)), "de")["index.html"].replace("\u00a0", " ")

    with speaking("de"):
        for one in (*rules[:2], *(what for what, _ in cures), KIND, ALL_ROUNDS):
            assert said(one)[1:] in index
    assert "Regen bis 2,1 mm/h" in index
    for text in sheets(told, "de").values():
        assert not [one for one in english if one[1:] in text]


def test_german_is_spoken_where_it_is_asked_for() -> None:
    """Sentences, plurals, dates and numbers go by the language, and end with the block."""
    with speaking("de"):
        assert "de" == spoken()
        assert "2 Zargen" == count(2, "box", "boxes")
        assert "1 Volk" == count(1, "colony", "colonies")
        assert ("a und b", "6,5 L") == (listed(("a", "b")), litres(6_500))
        assert "1.234,05 EUR" == money(123_405, "EUR")
        assert "3 Tage 4 h" == duration(3 * 1440 + 240)
        assert "Do., 4. M\u00e4rz" == day_words(date(2027, 3, 4))
        assert "Laden: Hof" == tr("Load at {place}", place="Hof")
    assert "2 boxes" == count(2, "box", "boxes")
    assert "Thu 4 Mar" == day_words(date(2027, 3, 4))


def test_the_language_ends_with_the_block_also_when_it_fails() -> None:
    """An error in one paper leaves the next one in its own language."""
    with pytest.raises(KeyError), speaking("de"):
        raise KeyError
    assert ENGLISH == spoken()


def test_a_language_without_a_catalogue_is_refused() -> None:
    """The ones there are are named."""
    with pytest.raises(ValueError, match="one of en, de, not 'xx'"), speaking("xx"):
        pass


def test_unknown_words_stay_english() -> None:
    """A sentence that nobody translated yet is said in English, with its parts."""
    with speaking("de"):
        assert "Never said 3" == tr("Never said {number}", number=3)
        assert "3 geese" == trn("{number} goose", "{number} geese", 3)


@pytest.mark.parametrize("name", ["{0}", "{place}", "{", "{{7*7}}", "%s", "Load at {place}"])
def test_what_people_typed_is_never_looked_up(name: str) -> None:
    """Braces and sentences in a name stay as they are in every language."""
    for language in languages():
        with speaking(language):
            assert tr("Load at {place}", place=name).endswith(name)


@pytest.mark.parametrize("language", OTHERS)
def test_hostile_names_come_out_as_in_english(language: str) -> None:
    """The same elements and no more, whatever is typed and whatever is spoken."""
    plain, hostile = crews(small_plan(), language), crews(hostile_plan(), language)
    english = crews(hostile_plan(), ENGLISH)

    for name, text in hostile.items():
        if name.endswith(".html"):
            assert Page(english[name]).tags == Page(text).tags, name
            assert set(Page(text).tags) <= set(Page(plain[name]).tags) | {"p", "b", "small"}, name


def test_a_page_names_its_language() -> None:
    """Screen readers and hyphenation go by it."""
    made = dict(papers(small_plan(), language="de"))

    assert '<html lang="de">' in made["days/2027-03-01.html"]
    assert '<html lang="de">' in made["shopping.html"]
    assert '<html lang="de">' in made["map.html"]
    assert '<html lang="en">' in dict(papers(small_plan()))["shopping.html"]


@pytest.mark.parametrize("day", busy_days(eight_stop_plan()))
def test_a_text_stays_short_in_every_language(day: int) -> None:
    """Fewer than 1000 characters, as in English."""
    for language in OTHERS:
        texts = [
            text
            for name, day_text in crews(eight_stop_plan(), language).items()
            if "phone" in name
            for text in day_text.split("\n\n")
        ]
        assert all(len(text) < 1000 for text in texts), day


def test_a_part_that_ends_with_a_stop_brings_no_second_one() -> None:
    """German months are cut short with a stop of their own; three stops are kept as typed."""
    with speaking("de"):
        october = day_words(date(2027, 10, 13))
        assert october.endswith("Okt.")
        assert tr("Never said ({when}).", when=october).endswith("Okt.).")
        assert tr("Never said: {when}.", when=october).endswith("13. Okt.")
        assert tr("Never said: {when}.", when="and so on..").endswith("and so on...")


@pytest.mark.parametrize("plan", [eight_stop_plan(), wet_boxes(), feeders_fetched()])
def test_no_german_text_says_off_with_the_word_for_leave(plan: Plan) -> None:
    """On a driver's paper "ab 12:05" is when to leave; "ab 12" on the phone would be boxes off."""
    for name, text in crews(plan, "de").items():
        if name.startswith("phone/"):
            assert not re.search(r"\bab [0-9]", text), name


@pytest.mark.parametrize(
    ("english", "misled"),
    [
        ("Nothing may be skipped: ring base now.", "zu Hause"),
        ("No trailer past the gate.", "hinter dem Tor"),
        ("boards on too long", "zu lange auf"),
        ("boards on", "Fluchten auf"),
        ("cab, sealed", "Fahrerhaus, dicht"),
        ("No feed beside {substance} before {date}, nor until its strips are out.", "neben"),
        ("Corrosive: gloves, eyes, no closed cab.", "Handschuhe, Augen schützen"),
        ("Nearest visit", "Nächster Besuch"),
    ],
)
def test_german_that_misled_is_gone(english: str, misled: str) -> None:
    """Calling one's family, hives standing open, a cab to be shut, gloves to be protected.

    Nor is the visit nearest in time the next one.
    """
    said_so = read_catalogue("de")[english].string

    assert not re.search(rf"{misled}(?!\w| verp)", str(said_so))


def test_a_load_rests_against_the_headboard_in_german() -> None:
    """It has not bumped into it; and the daN are what a strap is tightened to."""
    words = " ".join(
        str(one.string)
        for one in read_catalogue("de")
        if "nothing blocks the load in front" in str(one.id) or "Straps over" in str(one.id)
    )

    assert "liegt die Ladung vorn nicht an" in words
    assert "daN Vorspannung" in words
