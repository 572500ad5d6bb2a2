"""The command line in the language that is asked for."""

import argparse
import json
import re
from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.cli import Exit, main, parser
from runplanner.errors import PlanError
from runplanner.office.options import OWN_WORDS, speaking_argparse
from runplanner.office.rooms import Rooms
from runplanner.paperwork.speech.tongue import LANGUAGE, languages, speaking, spoken, tr
from runplanner.phrase import phrase
from tests.cli.test_cli import failing, planned
from tests.office.fakes import rooms
from tests.paperwork.plans import eight_stop_plan
from tests.plans import a_short_plan

GERMAN = ("--language", "de")
ENGLISH_WORDS = re.compile(r"\b(the|and|of|with|is|are|default|show|nothing|work|left)\b")


@pytest.fixture(autouse=True)
def _no_language_set(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(LANGUAGE, raising=False)


def helped(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """What --help prints after some words."""
    with pytest.raises(SystemExit) as left:
        main([*words, "--help"])
    assert 0 == left.value.code
    return capsys.readouterr().out


def verbs() -> list[str]:
    """Every verb there is."""
    return list(next(a.choices for a in parser()._actions if isinstance(a.choices, dict)))


@pytest.mark.parametrize("verb", ["", *verbs()], ids=lambda verb: verb or "top")
def test_help_is_german_to_the_last_word(verb: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Every option of every verb, and what argparse says itself."""
    told = helped(capsys, *GERMAN, *([verb] if verb else []))

    assert told.startswith("Aufruf: runplanner")
    assert "diese Hilfe zeigen" in told
    assert not ENGLISH_WORDS.findall(told)
    assert told != helped(capsys, *([verb] if verb else []))


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (["plan"], "es fehlen Angaben: DIR"),
        (["plan", "x", "--seed", "-3"], "'-3' ist keine ganze Zahl von 0 bis 999999999"),
        (["plan", "x", "--paper", "a5"], "'a5' gibt es nicht"),
        (["plan", "x", "--never"], "unbekannte Angaben: --never"),
        (["plan", "x", "--out"], "hier fehlt eine Angabe"),
        (["rehearse", "x", "--settings", "9"], "'9' ist nicht LOAD:MINUTES:DAYS"),
    ],
)
def test_slips_in_options_are_told_in_german(
    typed: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the language before the verb."""
    with pytest.raises(SystemExit) as left:
        main([*GERMAN, *typed])

    assert 2 == left.value.code
    assert f"Fehler: {said}" in re.sub("Angabe [^:]*: ", "", capsys.readouterr().err)


@pytest.mark.parametrize("place", ["before", "behind", "environment"])
def test_a_plan_is_summed_up_in_german(
    place: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Wherever the language was given; the plan file is the same as ever."""
    words = ["plan", "hill", "--out", str(tmp_path / "out")]
    if place == "environment":
        monkeypatch.setenv(LANGUAGE, "de")
    typed = {"before": [*GERMAN, *words], "behind": [*words, *GERMAN]}.get(place, words)

    assert Exit.UNDONE == main(typed, rooms(a_short_plan()))

    out, err = capsys.readouterr()
    assert "bleibt liegen: Yard 1, Sirup, 10 V\u00f6lker, 80 kg Vorrat fehlen" in out
    assert "Pr\u00fcfung: alle Regeln sind eingehalten" in out
    assert "Suchrunde 1 von 3  Kosten 400,00 NZD  Schranke 360,00 NZD  Abstand 10,0 %" in err
    written = (tmp_path / "out" / "test" / "plan.json").read_text("utf-8")
    capsys.readouterr()
    planned(tmp_path / "english", rooms(a_short_plan()))
    assert (tmp_path / "english" / "out" / "test" / "plan.json").read_text("utf-8") == written
    assert json.loads(written)


def test_the_tables_are_the_same_in_german(tmp_path: Path) -> None:
    """Programs read them by name and word."""
    told = replace(rooms(eight_stop_plan()), write=Rooms().write)
    for language in languages():
        planned(tmp_path / language, told, "--language", language)
    tables = [
        {path.name: path.read_bytes() for path in (tmp_path / language).rglob("tables/*")}
        for language in languages()
    ]

    assert tables[0]
    assert tables[0] == tables[1]


def test_what_goes_wrong_is_told_in_german(capsys: pytest.CaptureFixture[str]) -> None:
    """The planner knows no language: its words are said at the end."""
    none = PlanError(phrase("There is no yard, so there is nothing to plan."))

    assert Exit.NO_PLAN == main([*GERMAN, "plan", "hill"], failing(none))
    assert "Es gibt keinen Stand, also nichts zu planen.\n" == capsys.readouterr().err
    assert "There is no yard, so there is nothing to plan." == str(none)
    assert Exit.STOPPED == main([*GERMAN, "plan", "hill"], failing(KeyboardInterrupt()))
    assert "Abgebrochen.\n" == capsys.readouterr().err


def test_an_unknown_language_is_refused(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Typed or set, with those there are; a language typed stands before the one set."""
    for typed in (["--language", "xx", "numbers"], ["numbers", "--language"]):
        with pytest.raises(SystemExit):
            main(typed)
        assert "language" in capsys.readouterr().err
    monkeypatch.setenv(LANGUAGE, "xx")
    with pytest.raises(SystemExit) as left:
        main(["numbers"])
    assert 2 == left.value.code
    assert f"{LANGUAGE} is 'xx', not one of en, de" in capsys.readouterr().err
    assert Exit.OK == main([*GERMAN, "numbers"])


def test_argparse_speaks_as_before_afterwards() -> None:
    """It is lent the catalogue while the command reads its words, and no longer."""
    before = vars(argparse)["_"]
    with speaking("de"), speaking_argparse():
        assert "Optionen" == vars(argparse)["_"]("options")
    assert vars(argparse)["_"] is before
    assert "en" == spoken()


def test_the_words_lent_to_argparse_are_in_the_catalogue() -> None:
    """Each says something else in German."""
    with speaking("de"):
        assert all(tr(words) != words for words in OWN_WORDS)
