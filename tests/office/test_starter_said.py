"""Tests of the starter in another language."""

import re
from pathlib import Path

import pytest

from runplanner.office.facts import read_outfit, start_scenario
from runplanner.paperwork.speech.tongue import ENGLISH, languages, speaking
from runplanner.scenario.starter.remarks import remarks


def uncommented(text: str) -> list[str]:
    """The lines of a file without remarks: settings, used or not, and rows."""
    heads = (re.sub(r" {2,}(# )?\S.*", "", line) for line in text.splitlines())
    return [head for head in heads if re.match(r"(# )?(\[|\w+ = |all,|area,)|[\w ]+,", head)]


@pytest.mark.parametrize("language", [name for name in languages() if name != ENGLISH])
def test_in_another_language_settings_and_rows_are_the_same(language: str, tmp_path: Path) -> None:
    english = start_scenario(tmp_path / ENGLISH, "My campaign")
    with speaking(language):
        other = start_scenario(tmp_path / language, "My campaign")

    for ours, theirs in zip(english, other, strict=True):
        texts = ours.read_text("utf-8"), theirs.read_text("utf-8")
        assert texts[0] != texts[1]
        assert uncommented(texts[0]) == uncommented(texts[1])
        assert not set(remarks(texts[0])) & set(remarks(texts[1]))
    assert read_outfit(tmp_path / language).yards == read_outfit(tmp_path / ENGLISH).yards
