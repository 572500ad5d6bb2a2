"""What the audit finds, said in every language there is."""

import re
from collections.abc import Iterator

import pytest

from runplanner.audit.audit import RULES, audit
from runplanner.audit.findings import Finding, field_word, word
from runplanner.audit.stop_jobs import ALL_FIGURES
from runplanner.daybook.plan import Bill, Tally
from runplanner.daybook.trip import Aboard, CallKind, Job
from runplanner.outfit.shut import Work
from runplanner.outfit.yards import Clearing, Health
from runplanner.paperwork.speech.tongue import ENGLISH, languages, read_catalogue, said, speaking
from runplanner.paperwork.write_all import papers
from runplanner.phrase import Part, Phrase, filled
from tests.audit.planted import edited
from tests.audit.test_breaches import PLANTED
from tests.paperwork.pages import Page

OTHERS = [name for name in languages() if name != ENGLISH]
WORDS = (*Job, *CallKind, *Clearing, *Health, *Work)
FIELDS = (*Aboard.__slots__, *Tally.__slots__, *Bill.__slots__, *ALL_FIGURES)


def sentences(part: Part) -> Iterator[str]:
    """Every sentence that a phrase is made of, but those of signs alone."""
    if isinstance(part, Phrase):
        if any(char.isalpha() for char in filled(part.one, part.parts, lambda _: "")):
            yield part.one
        for inner in part.parts.values():
            yield from sentences(inner)


def plain(part: Part) -> Iterator[str]:
    """Every text that stands in a phrase as it is."""
    if isinstance(part, Phrase):
        for inner in part.parts.values():
            yield from plain(inner)
    elif isinstance(part, str):
        yield part


def findings() -> list[Finding]:
    """Return everything that is found in the plans with planted breaches."""
    return [one for planted in PLANTED for one in audit(edited(planted.plan(), planted.edits))]


@pytest.fixture(scope="module", name="found")
def found_once() -> list[Finding]:
    """Findings of every rule that a breach is planted for, worked out once."""
    return findings()


@pytest.mark.parametrize("language", OTHERS)
def test_every_sentence_of_a_finding_is_in_the_catalogue(
    language: str, found: list[Finding]
) -> None:
    """Also words that come from a field of the plan, such as a job, and ids of rules."""
    known = {one.id[0] if isinstance(one.id, tuple) else one.id for one in read_catalogue(language)}
    told = {text for one in found for text in sentences(one.sentence())}

    assert len(told) > 300
    assert not told - known
    assert not set(RULES) - known


def test_what_stands_in_a_finding_as_it_is_was_typed(found: list[Finding]) -> None:
    """No English word goes in as a plain text: names of the plans, times and quoted names do."""
    names = {
        "off", "feed", "rest", "part", "first", "second", "third", "suspect", "block", "again",
        "up", "down", "fetch", "fed", "on", "Ann", "Bob", "Can", "Cart", "Truck 1", "pad",
        "Langstroth medium", "amitraz", "formic acid",
    }  # fmt: skip
    typed = {one for text in found for one in plain(text.sentence())}
    strange = {one for one in typed if one.strip("0123456789:()[]-, ") and one not in names}

    assert {
        one for one in strange if one[0] not in "'\"" and not one.startswith(("yard", "Yard"))
    } == set()


def test_one_of_a_kind_is_never_told_as_many(found: list[Finding]) -> None:
    """What counts things has a sentence for one, in English and, by its plural, in others.

    How many there may be at most reads as a range, whose end may be one.
    """
    counts = r"(?<!1 \.\. )\{\w+\} (wet )?(colonies|box|board|block|strips|feeder|round|day|cent)"

    def inside(part: Part) -> Iterator[Phrase]:
        if isinstance(part, Phrase):
            yield part
            for inner in part.parts.values():
                yield from inside(inner)

    told = [one for finding in found for one in inside(finding.sentence())]

    assert not [one.one for one in told if not one.many and re.search(counts, one.one)]
    assert not [one.one for one in told if re.search(r"\{\w+\} colonies", one.one)]
    assert any(one.many == "{ml} ml for {number} colonies" for one in told)


@pytest.mark.parametrize("language", OTHERS)
def test_words_of_a_plan_have_a_word_in_every_language(language: str) -> None:
    """Jobs, kinds of calls, ways of clearing, states of health, work in weather, figures."""
    for english in (*(word(one) for one in WORDS), *(field_word(one) for one in FIELDS)):
        with speaking(language):
            assert said(english) != english, english
    assert all(str(word(one)) == one for one in WORDS)


def test_a_planted_breach_is_told_in_german() -> None:
    """A whole sentence, on the refused plan's page and from the finding itself.

    15 + 15 boxes of 16 kg are 480,000 g, one gram more than the truck is told to bear.
    """
    planted = next(one for one in PLANTED if one.rule == "mass")
    plan = edited(planted.plan(), planted.edits)
    heavy = next(one for one in audit(plan) if one.rule == "mass")
    german = (
        "Masse (Fahrt off, Stand Yard 2): eine Ladung von 480000 g bei der Abfahrt "
        "Mo., 1. März um 09:44; erlaubt: höchstens 479999 g"
    )

    with speaking("de"):
        assert german == said(heavy.sentence())
    page = dict(papers(plan, (heavy.sentence(),), language="de"))["index.html"]
    assert any(german in words for words in Page(page).words)
    assert (
        "mass (trip off, yard Yard 2): a load of 480000 g on leaving Mon 1 Mar at 09:44; "
        "allowed: at most 479999 g" == heavy.sentence()
    )
