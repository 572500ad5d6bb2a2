"""What `check` says of an outfit's facts."""

import re
from pathlib import Path

from runplanner.office.facts import facts_words, read_outfit, start_scenario
from runplanner.outfit.outfit import Assumed
from runplanner.phrase import phrase
from tests.outfits import an_outfit


def test_an_outfit_without_defaults_names_none() -> None:
    """Where everything was typed nothing is taken for granted, and the verdict comes last."""
    said = list(facts_words(an_outfit([(3, 4)], title="All typed")))

    assert "All typed" == said[0]
    assert "  yards: 1 with 10 colonies" in said
    assert not [line for line in said if line.startswith("taken for granted")]
    assert "no fault found" == said[-1]


def test_each_default_has_its_source() -> None:
    """A default stands under its table with its value, how well it is known, and why."""
    outfit = an_outfit(
        [(3, 4)],
        assumed=(
            Assumed(
                phrase("kit.block"),
                phrase("2 kg"),
                phrase("the usual piece [C: common practice, no source found]"),
            ),
            Assumed(
                phrase("kit.board"), phrase("1.5 kg"), phrase("common practice; weigh one [C]")
            ),
            Assumed(phrase("hours.duty_most"), phrase("11 h"), phrase("gov.uk [A: official text]")),
            Assumed(phrase("weather"), phrase("fair"), phrase("no weather file")),
        ),
    )

    said = list(facts_words(outfit))
    assert [
        "  kit",
        "    block = 2 kg  (common practice: the usual piece)",
        "    board = 1.5 kg  (common practice; weigh one)",
        "  hours",
        "    duty_most = 11 h  (official: gov.uk)",
        "  weather = fair  (no weather file)",
        "no fault found",
    ] == said[-7:]


def test_every_default_in_use_is_told_without_codes(tmp_path: Path) -> None:
    """The starter uses most defaults: all are told, and none with a letter in brackets."""
    start_scenario(tmp_path / "bees")
    outfit = read_outfit(tmp_path / "bees")
    said = [line for line in facts_words(outfit) if " = " in line]

    assert len(outfit.assumed) == len(said) > 80
    assert not [line for line in said if re.search(r"\[[ABCDM]\b", line)]
