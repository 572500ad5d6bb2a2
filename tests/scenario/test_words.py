import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.scenario.faults import Refusal
from runplanner.scenario.values.words import keys, name, note, one_of, row_id, slug, yes_no


@pytest.mark.parametrize(
    "said",
    [
        'O\'Brien "home" {yard} {{7*7}}',
        "<img onerror=alert(1)>",
        '=HYPERLINK("x")',
        "חצר הטחנה",
        "養蜂場",
        "Tōtara",
        "None",
        "NA",
        "${x} `y` %s \\n",
    ],
)
def test_names_keep_every_script_and_sign(said: str) -> None:
    """A hostile or foreign name is kept to the letter; escaping is the papers' business."""
    assert said == name(said)


def test_names_are_tidied() -> None:
    """Runs of spaces become one, and accents are put together (NFC)."""
    assert "Mill Lane" == name("  Mill   Lane ")
    assert "Tōtara" == name("To\u0304tara")


@pytest.mark.parametrize(
    ("said", "cure"),
    [
        ("a" * 121, "it has 121 characters"),
        ("a" * 10_000, "it has 10000 characters"),
        ("two\nlines", "Take out line breaks"),
        ("two\u2028lines", "Take out line breaks"),
        ("tab\there", "Take out line breaks"),
        ("bell\x07", "Take out line breaks"),
        ("evil \u202egnp", "Take out line breaks"),
        ("lone \ud800", "Take out line breaks"),
        ("", "Type a name"),
        (" \u200b ", "Type a name"),
        (7, "Write it in quotes"),
    ],
)
def test_unfit_names(said: object, cure: str) -> None:
    """Names that break a line, turn the reading direction or never end are refused."""
    with pytest.raises(Refusal) as caught:
        name(said)

    assert cure in caught.value.cure


def test_notes_fold_line_ends() -> None:
    """A note may have been typed on several lines; it is kept on one."""
    assert "Gate code 12 / dog bites" == note("Gate code 12\r\n dog bites\n")
    with pytest.raises(Refusal, match="Shorten it"):
        note("x" * 501)
    with pytest.raises(Refusal, match="invisible"):
        note("bell\x07")


@given(st.text(min_size=1, max_size=60), st.sets(st.sampled_from(["a", "b", "a-2"])))
def test_slugs_are_safe_and_new(text: str, taken: set[str]) -> None:
    """Whatever the name, its key is safe in file names and not taken."""
    key = slug(text, taken)

    assert re.fullmatch(r"[a-z0-9][a-z0-9-]{0,43}", key)
    assert key not in taken
    assert key not in {"con", "nul", "aux", "prn", "com1"}


def test_slugs_by_hand() -> None:
    """Plain letters where there are any; else a key that does not depend on the row."""
    assert "mill-lane" == slug("Mill  Lane!")
    assert "totara" == slug("Tōtara")
    assert "mill-lane-3" == slug("Mill Lane", ["mill-lane", "mill-lane-2"])
    assert "yard-con" == slug("CON")
    assert slug("養蜂場") == slug("養蜂場") != slug("養蜂")
    assert slug("養蜂場").startswith("yard-")


def test_no_letter_is_lost_from_a_slug() -> None:
    """Letters that Unicode does not take apart are written as people do without the key."""
    assert "strassenwaerter" == slug("Stra\u00dfenwaerter")
    assert "rossau" == slug("Ro\u00dfau") != slug("Roau")
    assert "orsted-lodz-aero-dakovo" == slug(
        "\u00d8rsted \u0141\u00f3d\u017a \u00c6r\u00f8 \u0110akovo"
    )
    assert "thing-oeuvre" == slug("\u00deing \u0152uvre")


def test_keys_are_no_others_names() -> None:
    """Each its own, whatever the order, and the same as ever where no name is like another."""
    assert ["hofen-2", "hofen"] == keys(["H\u00f6fen", "Hofen"], "yard")
    assert ["hofen", "hofen-2"] == keys(["Hofen", "H\u00f6fen"], "yard")
    assert ["mill-lane", "gate-2"] == keys(["Mill Lane", "Gate"], "yard", ["gate"])
    assert ["hofen", "hofen-2"] == keys(["Hofen", "hofen"], "yard")


@pytest.mark.parametrize("said", ["Mill Lane", "-x", "../x", "con", "", "x" * 41, "é"])
def test_unsafe_ids(said: str) -> None:
    """An id that a file system would trip over is refused."""
    with pytest.raises(Refusal, match="lower-case letters"):
        row_id(said)


def test_choices() -> None:
    """Yes, no and words from a list are read whatever their case."""
    assert yes_no("Yes")
    assert yes_no(True)
    assert not yes_no("n")
    assert "warm board" == one_of("Warm_Board", ("boards", "warm board"))
    with pytest.raises(Refusal, match="yes or no"):
        yes_no("1")
    with pytest.raises(Refusal, match="Did you mean 'boards'"):
        one_of("bords", ("boards", "brush"))
