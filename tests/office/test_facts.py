"""What `check` says of an outfit's facts."""

import re
from dataclasses import replace
from pathlib import Path

from runplanner.office.facts import facts_words, read_outfit, start_scenario
from runplanner.outfit.outfit import Assumed
from runplanner.phrase import phrase
from runplanner.scenario.forecast.part import Heard
from tests.outfits import an_outfit


def test_values_in_doubt_are_told_among_the_warnings(tmp_path: Path) -> None:
    """3.000 kg of sugar may be three tonnes: read as three kilograms, and told so, once."""
    start_scenario(tmp_path / "bees")
    with (tmp_path / "bees" / "outfit.toml").open("a", encoding="utf-8") as file:
        file.write('[feed]\nsugar = "3.000 kg"\nready = "750 L"\n')
    heard = Heard()
    outfit = read_outfit(tmp_path / "bees", heard=heard)
    said = [line for line in facts_words(outfit, heard.doubts) if "is read as" in line]

    assert 3000 == outfit.feed.sugar_g
    (line,) = said
    assert line.startswith("  warning: outfit.toml, line ")
    assert line.endswith(
        ", feed, sugar: '3.000 kg' is read as '3 kg'; write '3000 kg' if thousands are meant"
    )


def test_a_value_for_all_yards_is_in_doubt_once(tmp_path: Path) -> None:
    """What stands under [yards] is read for every row, and told where it stands."""
    start_scenario(tmp_path / "bees")
    with (tmp_path / "bees" / "outfit.toml").open("a", encoding="utf-8") as file:
        file.write('[yards]\nstores = "3.000 g"\n')
    heard = Heard()
    read_outfit(tmp_path / "bees", heard=heard)

    (doubt,) = heard.doubts
    assert ", yards, stores: '3.000 g' is read as '3 g'" in doubt


def test_many_values_in_doubt_are_not_all_told() -> None:
    """Twelve are, and how many more there are."""
    doubts = [phrase("row {number}", number=number) for number in range(14)]
    said = list(facts_words(an_outfit([(3, 4)]), doubts))

    assert 12 == len([line for line in said if line.startswith("  warning: row ")])
    assert "  and 2 more" == said[said.index("  warning: row 11") + 1]


def test_names_that_papers_print_alike_are_told() -> None:
    """Two yards that differ in the middle alone, and two people by an accent no phone has."""
    plain = an_outfit([(3, 4), (4, 5)], title="All typed")
    first, second = plain.yards
    ann, bob = plain.people
    long = "Streuobstwiese hinter der {} Ziegelei am unteren Waldrand Nord"
    alike = replace(
        plain,
        yards=(replace(first, name=long.format("alten")), replace(second, name=long.format("1."))),
        people=(replace(ann, name="T\u0101ne"), replace(bob, name="T\u00e1ne")),
    )
    said = [line for line in facts_words(alike) if "read alike" in line]

    assert 2 == len(said)
    assert f"  warning: On papers or the phone {long.format('alten')} and " in said[0]
    assert "T\u0101ne and T\u00e1ne read alike" in said[1]
    assert not [line for line in facts_words(plain) if "read alike" in line]


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
