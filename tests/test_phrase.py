"""Phrases: English that can be said in another language later."""

import pickle
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.paperwork.speech.tongue import said, speaking, tr
from runplanner.phrase import Land, Number, Phrase, counted, joined, phrase, some_of, verbatim

HOSTILE = ["{n}", "{", "{}", "{{n}}", "{n.__class__}", "{n!r:>999999999}", "%s", "day", ""]


def in_german(text: str) -> str:
    """What the papers make of it."""
    with speaking("de"):
        return said(text)


def test_a_phrase_is_its_english_text() -> None:
    """It is compared, sorted and stored as what it reads as."""
    told = phrase("{cause} up to {figure}", cause=phrase("rain"), figure="2 mm")

    assert "rain up to 2 mm" == told
    assert hash("rain up to 2 mm") == hash(told)
    assert ["a", told] == sorted([told, "a"])


def test_a_phrase_is_said_in_the_language_spoken() -> None:
    """So are the phrases in it, numbers and days; counts choose the plural."""
    rain = phrase("{cause} up to {figure}", cause=phrase("rain"), figure=Number("2.5"))
    days = [
        counted(
            "{mean} in the mean over the day syrup is taken down",
            "{mean} in the mean over the {number} days syrup is taken down",
            number,
            mean=joined(" ", Number("9.5"), phrase("degC")),
        )
        for number in (1, 3)
    ]

    assert "Regen bis 2,5" == in_german(rain)
    assert "Do., 4. M\u00e4rz: Regen bis 2,5" == in_german(joined(": ", date(2027, 3, 4), rain))
    assert "Thu 4 Mar: rain up to 2.5" == joined(": ", date(2027, 3, 4), rain)
    assert "im Mittel 9,5 \u00b0C an dem Tag, an dem der Sirup abgenommen wird" == in_german(
        days[0]
    )
    assert "9.5 degC in the mean over the 3 days syrup is taken down" == days[1]
    assert "\u00fcber die 3 Tage" in in_german(days[1])


def test_countries_have_their_names_in_each_language() -> None:
    """Alone and in a sentence, here or in another process; typed by people they stay."""
    land = pickle.loads(pickle.dumps(Land("Austria", "AT")))  # noqa: S301 - our own
    told = phrase("It lies in {here}, the rest in {there}.", here=land, there=Land("Chile", "CL"))

    assert ("Austria", "Austria") == (land, said(land))
    assert "\u00d6sterreich" == in_german(land) == in_german(joined("", land))
    assert "It lies in Austria, the rest in Chile." == told
    assert "Laut Karte \u00d6sterreich, der Rest Chile." == in_german(told)
    assert ("Austria", "Nowhere") == (in_german("Austria"), in_german(Land("Nowhere", "ZZZ")))


def test_a_sentence_of_the_papers_says_the_phrases_in_it() -> None:
    """Nobody has to think of it where the sentence is said."""
    with speaking("de"):
        assert "Regen nicht angegeben" == tr("{cause} not told", cause=phrase("rain"))


@pytest.mark.parametrize("typed", HOSTILE)
def test_what_people_typed_is_neither_looked_up_nor_read_for_braces(typed: str) -> None:
    """Not in English, not in German, not as a whole."""
    assert f"{typed} not told" == phrase("{cause} not told", cause=typed)
    assert f"{typed} nicht angegeben" == in_german(phrase("{cause} not told", cause=typed))
    assert typed == verbatim(typed) == in_german(verbatim(typed))


def test_names_past_the_most_are_counted() -> None:
    """As many as fit are named; the rest is a number, and said in German too."""
    assert "a, b" == some_of(["a", "b"], 2)
    assert "a, b and 3 more" == some_of(list("abcde"), 2)
    assert "a, b und noch 3" == in_german(some_of(list("abcde"), 2))


@pytest.mark.parametrize("sentence", HOSTILE)
def test_a_sentence_from_a_file_can_do_nothing(sentence: str) -> None:
    """Braces are names and nothing more; an empty one is not the catalogue's own heading."""
    made = Phrase(sentence, {"n": 3})

    assert sentence.replace("{n}", "3") == made
    if sentence != "day":
        assert made == in_german(made)


def test_any_other_text_is_left_alone() -> None:
    """A word of the catalogue that is no phrase is what somebody typed."""
    assert "rain" == in_german("rain")
    assert "Regen" == in_german(phrase("rain"))


@given(st.text(), st.integers(), st.text())
def test_a_phrase_goes_whole_to_another_process(sentence: str, number: int, typed: str) -> None:
    """Searches and plays run side by side and send what they found."""
    told = Phrase(sentence, {"number": number, "typed": typed}, "{number} of {typed}")
    back = pickle.loads(pickle.dumps(told))  # noqa: S301 - our own

    assert told == back
    assert (told.one, told.many, told.parts) == (back.one, back.many, back.parts)
