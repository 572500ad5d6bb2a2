import os
import re
from pathlib import Path

import pytest

from runplanner.errors import ScenarioError
from runplanner.scenario import implied, new_scenario, read_scenario
from tests.scenario.folders import faults_of


def test_new_then_read(tmp_path: Path) -> None:
    """The starter reads as it stands."""
    folder = tmp_path / "deep" / "mine"
    written = new_scenario(folder, "My campaign")
    outfit = read_scenario(folder)

    assert [folder / "outfit.toml", folder / "yards.csv"] == written
    assert ("My campaign", "mine", 3) == (outfit.title, outfit.name, len(outfit.yards))
    assert ["outfit.toml", "yards.csv"] == sorted(path.name for path in folder.iterdir())
    assert implied(outfit)


@pytest.mark.parametrize(
    "title", ['Honey "off" \\ {{7*7}}', "<img onerror=x>", "חצר", "x" * 120, "'''", "=1+1"]
)
def test_hostile_titles(tmp_path: Path, title: str) -> None:
    """Any title on one line comes back as it was typed."""
    new_scenario(tmp_path, title)

    assert title == read_scenario(tmp_path).title


@pytest.mark.parametrize("title", ["", "two\nlines", "x" * 121])
def test_unfit_titles(tmp_path: Path, title: str) -> None:
    """A title that a name could not be is refused, and nothing is written."""
    with pytest.raises(ScenarioError):
        new_scenario(tmp_path / "new", title)

    assert not (tmp_path / "new").exists()


def test_nothing_is_overwritten(tmp_path: Path) -> None:
    """A file that is there already stops it before anything is written."""
    (tmp_path / "yards.csv").write_text("mine")
    with pytest.raises(ScenarioError, match="Nothing is overwritten"):
        new_scenario(tmp_path, "x")

    assert "mine" == (tmp_path / "yards.csv").read_text()
    assert not (tmp_path / "outfit.toml").exists()


def test_a_file_in_the_way(tmp_path: Path) -> None:
    """A file where the folder should be is a plain fault."""
    (tmp_path / "x").write_text("")
    with pytest.raises(ScenarioError, match="Choose another name"):
        new_scenario(tmp_path / "x", "x")
    with pytest.raises(ScenarioError, match="Choose another folder"):
        new_scenario(tmp_path / "x" / "y", "x")


def test_every_commented_key_is_known(tmp_path: Path) -> None:
    """Taking away each # before a key or table leaves a scenario that reads."""
    new_scenario(tmp_path, "x")
    path = tmp_path / "outfit.toml"
    text = re.sub(r"(?m)^# (?=(\[|[a-z_]+ = ))", "", path.read_text())
    path.write_text(re.sub(r"(?m)^people = 2$", "", text))
    outfit = read_scenario(tmp_path)

    assert outfit.trucks[0].axles is not None
    assert ("my-box",) == tuple(kind.id for kind in outfit.boxes if kind.id == "my-box")
    assert 2 == len(outfit.yards[2].sites)
    assert "Ann" == outfit.people[0].name


def test_commented_weather_is_known(tmp_path: Path) -> None:
    """The weather shown in the comments reads when put into weather.csv."""
    new_scenario(tmp_path, "x")
    lines = (tmp_path / "outfit.toml").read_text().splitlines()
    start = next(i for i, line in enumerate(lines) if line.startswith("# area,what"))
    table = [re.sub(r"\s{3,}.*", "", line[2:]) for line in lines[start : start + 5]]
    (tmp_path / "weather.csv").write_text("\n".join(table) + "\n")

    assert read_scenario(tmp_path).yards[0].unsettled_spans


def test_starter_is_told_from_a_real_one(tmp_path: Path) -> None:
    """Its yards are called invented, so that nobody drives there."""
    new_scenario(tmp_path, "x")

    assert all("Invented" in yard.name for yard in read_scenario(tmp_path).yards)
    (tmp_path / "outfit.toml").write_text("")
    assert faults_of(tmp_path)


def test_nothing_half_written_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When a file cannot be finished, no piece of it is left behind."""

    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "replace", refuse)
    with pytest.raises(ScenarioError, match="Permission denied"):
        new_scenario(tmp_path, "x")

    assert [] == list(tmp_path.iterdir())
