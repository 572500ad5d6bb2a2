"""What the gate says, in another language: faults, warnings, defaults, notes."""

import ast
import re
from pathlib import Path

import pytest

from runplanner.cli import Exit, main
from runplanner.errors import Fault, ScenarioError
from runplanner.outfit.outfit import Assumed
from runplanner.paperwork.speech.tongue import said, speaking
from runplanner.phrase import Phrase, phrase
from runplanner.scenario import read_scenario
from runplanner.scenario.defaults import DEFAULTS
from tests.paperwork.said import SPEAKING, words_in_code
from tests.scenario.folders import HEAD, YARDS, a_folder, faults

SCENARIOS = Path(__file__).parents[2] / "scenarios"
LANDS = {
    "ironsand_coast": "Neuseeland",
    "vine_hills": "Ungarn (29), Slowenien (8), Kroatien (7)",
}
ENGLISH = re.compile(
    r"\b(the|and|with|typed|nothing|boxes|colonies|from|at least|day of|taken|weather|said)\b"
)


@pytest.mark.parametrize("name", ["ironsand_coast", "vine_hills"])
def test_check_is_german_to_the_last_word(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Sums, countries, warnings, every default with its source."""
    assert Exit.OK == main(["check", str(SCENARIOS / name), "--language", "de"])

    lines = capsys.readouterr().out.splitlines()
    keys = {"  weather"}
    assert "kein Fehler gefunden" == lines[-1]
    assert not [one for one in lines if ENGLISH.search(one) and one not in keys]
    assert f"  Land der Orte: {LANDS[name]}" in lines


def test_faults_are_german(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Row, what stood there, what is allowed, and the cure; the English text stays."""
    (tmp_path / "yards.csv").write_text("name,lat\nNordrand,100\nNordrand,\n", "utf-8")
    (tmp_path / "outfit.toml").write_text('[season]\nstart = "1.3.2027"\nend = 3\n', "utf-8")

    assert Exit.BAD_INPUT == main(["check", str(tmp_path), "--language", "de"])
    told = capsys.readouterr().err
    with pytest.raises(ScenarioError) as caught:
        read_scenario(tmp_path)

    assert re.search(r"\d+ Fehler gefunden; nichts wurde geschrieben", told)
    assert "dort steht 'nichts'; erlaubt:" in told
    assert not re.search(r"\b(the|and|with|typed|nothing|fill|write)\b", told.lower())
    assert "said 'nothing'; allowed:" in str(caught.value)


@pytest.mark.parametrize(
    ("base", "yards", "cure"),
    [
        ("-38.05 75.11", "A,10,20,24,41", "hier und beim Betrieb."),
        ("5.5 5.5", "A,-38.01,75.06,24,41\nB,-38.12,75.20,12,20", "hier und bei den Ständen."),
    ],
)
def test_where_else_to_look_is_german(tmp_path: Path, base: str, yards: str, cure: str) -> None:
    """Each in a sentence of its own: German bends what comes after "bei"."""
    lat, lon = base.split()
    (one,) = faults(
        tmp_path,
        base=f"[base]\nlat = {lat}\nlon = {lon}\n",
        yards=f"name,lat,lon,colonies,boxes\n{yards}\n",
    )

    with speaking("de"):
        assert f"Prüfen Sie lat und lon {cure}" == said(one.cure)


@pytest.mark.parametrize(
    ("pieces", "told", "cure"),
    [
        (
            {"yards": "name,lat,lon,colonies,boxes\nA,38°0.6'S,175.06,24,41\n"},
            "38°0.6'S", "Schreiben Sie -38.01.",
        ),
        (
            {"yards": "name,lat,lon,colonies,boxes\nA,-38.01,-184.9375,24,41\n"},
            "-184.9375", "Schreiben Sie 175.0625.",
        ),
        (
            {"base": "[base]\nlat = 5.25\nlon = 5.125\n"},
            "5.25, 5.125, 16237 km von den Ständen", "",
        ),
        (
            {"base": "[base]\nlat = 38.051255\nlon = 175.11\n"},
            "", "Dann ist lat -38.051255 und lon 175.11.",
        ),
    ],
)  # fmt: skip
def test_what_is_to_be_typed_has_a_dot_in_german_too(
    tmp_path: Path, pieces: dict[str, str], told: str, cure: str
) -> None:
    """Degrees with a comma are refused, and shift the cells of a row: none is asked for."""
    with speaking("de"):
        found = [said(one.sentence()) for one in faults(tmp_path, **pieces)]

    assert any(told in one and cure in one for one in found), found
    assert not [one for one in found if re.search("[0-9],[0-9]", one)]


def test_defaults_that_follow_from_what_is_typed_are_german(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Of further strips; a box by its frames; two ways to clear."""
    head, extra = HEAD.replace("2", '["Zoe"]'), "[kit]\nboards = 60\n[[strips_also]]\n"
    yards = YARDS.splitlines()
    columns = (
        ",clearing,clearing_else,strips,fill,frames",
        ",boards,blower,thymol,80 %,9",
        ",,,,,",
    )
    text = "".join(f"{one}{other}\n" for one, other in zip(yards, columns, strict=True))
    folder = a_folder(tmp_path, f'{extra}substance = "thymol"\n', head=head, yards=text)

    assert Exit.OK == main(["check", str(folder), "--language", "de"])
    told = capsys.readouterr().out
    for words in (
        "Mill Lane (Fluchten, oder Gebläse)",
        "9 Waben, zu 80 % gefüllt",
        "stock = so viele wie nötig, Thymol",
        "mass = wie kit.strip, Thymol",
        "price = wie prices.strip, Thymol",
        "twice = yes, Thymol",
    ):
        assert words in told


def test_what_was_typed_is_not_translated() -> None:
    """A word of the catalogue, typed, stays; our own word for nothing does not."""
    with speaking("de"):
        typed = said(
            Fault("f", "", "", "nothing", phrase("a column"), phrase("Fill it in.")).sentence()
        )
        ours = said(
            Fault(
                "f", "", "", phrase("nothing"), phrase("a column"), phrase("Fill it in.")
            ).sentence()
        )

    assert typed.startswith("f: dort steht 'nothing'; erlaubt: eine Spalte.")
    assert ours.startswith("f: dort steht 'nichts'; erlaubt: eine Spalte.")


def test_a_default_that_is_typed_so_is_not_translated() -> None:
    """``check`` shows what one would type; only what is told in words is in the catalogue."""
    words = {one for one in words_in_code() if isinstance(one, str)}
    for name, default in DEFAULTS.items():
        typed = not isinstance(default.said, Phrase)
        assert not (typed and " " in str(default.said) and str(default.said) in words), name
    assert Assumed(Phrase("a"), Phrase("boards"), Phrase("")).value == "boards"


def test_what_stood_there_is_a_phrase_where_the_words_are_ours() -> None:
    """Plain text there would be English in every language."""
    for path in SPEAKING:
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call):
                assert not [one for one in _said(node) if _ours(one)], (path.name, node.lineno)


def _said(call: ast.Call) -> list[ast.expr]:
    """What a call says stood there; of two things both, and what is said where there is nothing."""
    at = {"Fault": 3, "_fault": 3, "add": 2}.get(_name(call), len(call.args))
    found = [word.value for word in call.keywords if word.arg == "said"] + call.args[at : at + 1]
    for one in found[:]:
        found += [one.body, one.orelse] if isinstance(one, ast.IfExp) else []
        found += one.args[1:] if isinstance(one, ast.Call) and _name(one) == "get" else []
    return found


def _name(call: ast.Call) -> str:
    return str(getattr(call.func, "id", getattr(call.func, "attr", "")))


def _ours(value: ast.expr) -> bool:
    """Tell whether words of a sentence stand in the code there."""
    texts = value.values if isinstance(value, ast.JoinedStr) else [value]
    plain = "".join(str(text.value) for text in texts if isinstance(text, ast.Constant))
    return bool(re.search(r"[a-z]{2,} |^[a-z]{4,}$| [a-z]{3,}", plain))
