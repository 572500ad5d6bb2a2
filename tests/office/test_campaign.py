"""The order of the rooms: read, plan, audit, publish; or refuse."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest

from runplanner.daybook.text import plan_text
from runplanner.errors import ScenarioError
from runplanner.office.campaign import (
    Effort,
    Outcome,
    audit_plan,
    plan_campaign,
    publish_plan,
    read_plan,
    refuse_plan,
)
from runplanner.season.watch import Progress
from tests.office.fakes import FakePlanner, a_finding, rooms
from tests.outfits import an_outfit
from tests.plans import an_empty_plan


def test_a_folder_is_read_planned_and_audited() -> None:
    """The plan is of the folder's outfit, and carries what the audit found."""
    outcome = plan_campaign("some/hill", rooms=rooms(findings=(a_finding(),)))

    assert "hill" == outcome.plan.outfit.title
    assert (a_finding(),) == outcome.findings


def test_an_outfit_is_planned_without_reading() -> None:
    """An outfit made in Python needs no folder."""
    outfit = an_outfit([(1, 1)], title="made here")

    assert outfit == plan_campaign(outfit, rooms=rooms()).plan.outfit


def test_effort_and_progress_reach_the_planner() -> None:
    """Seed, rounds and seconds arrive as given; progress is heard."""
    heard: list[Progress] = []
    told = rooms()
    plan_campaign("x", Effort(seed=5, rounds=2, seconds=1.5), progress=heard.append, rooms=told)

    assert isinstance(told.plan, FakePlanner)
    assert {"seed": 5, "rounds": 2, "seconds": 1.5} == told.plan.asked
    assert [40_000] == [news.cost_cents for news in heard]


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"seed": "1"}, "seed must be a whole number from 0, not '1'"),
        ({"seed": 1.0}, "seed must be"),
        ({"seed": -1}, "seed must be"),
        ({"seed": True}, "seed must be"),
        ({"rounds": 1.5}, "rounds must be a whole number from 0, not 1.5"),
        ({"rounds": -1}, "rounds must be"),
        ({"seconds": "60"}, "seconds must be a number above 0, not '60'"),
        ({"seconds": 0}, "seconds must be"),
        ({"seconds": float("nan")}, "seconds must be"),
    ],
)
def test_effort_of_another_kind_is_refused_at_once(given: dict[str, Any], said: str) -> None:
    """By name, where it is typed: it failed in the middle of planning."""
    with pytest.raises(ValueError, match=said):
        Effort(**given)


def test_effort_keeps_plain_numbers() -> None:
    """Whoever goes through seeds with an array has a plan file all the same."""
    given: dict[str, Any] = {
        "seed": np.int64(3), "rounds": np.int32(2), "seconds": np.float32(1.5)
    }  # fmt: skip
    effort = Effort(**given)

    assert (int, int, float) == (type(effort.seed), type(effort.rounds), type(effort.seconds))
    assert Effort(3, 2, 1.5) == effort


def test_a_clean_plan_is_published_under_its_name(tmp_path: Path) -> None:
    """Papers stand in out/NAME, and the plan there reads back as the same plan."""
    outcome = Outcome(an_empty_plan(), ())

    folder = publish_plan(outcome, tmp_path, rooms=rooms())

    assert tmp_path / "test" == folder
    assert outcome.plan == read_plan(folder) == read_plan(folder / "plan.json")
    assert ["plan.json"] == [path.name for path in folder.iterdir()]


def test_pdf_and_tiles_are_asked_for(tmp_path: Path) -> None:
    """PDF goes to the writer; online tiles replace the offline map."""
    outcome = Outcome(an_empty_plan(), ())

    folder = publish_plan(outcome, tmp_path, pdf=True, online_tiles=True, rooms=rooms())

    assert (folder / "asked.pdf").exists()
    assert "<html>tiles: True</html>" == (folder / "map.html").read_text(encoding="utf-8")


def test_a_plan_with_findings_has_no_papers(tmp_path: Path) -> None:
    """A plan that broke a rule is kept under a name that says so, and has no papers."""
    outcome = Outcome(an_empty_plan(), (a_finding(),))

    with pytest.raises(ValueError, match="a plan with findings has no papers"):
        publish_plan(outcome, tmp_path, rooms=rooms())
    kept = refuse_plan(outcome, tmp_path)
    assert "test.refused-plan.json" == kept.name
    assert outcome.plan == read_plan(kept)
    assert [kept] == list(tmp_path.iterdir())


def test_a_name_from_a_file_stays_inside_out(tmp_path: Path) -> None:
    """An outfit named to climb out of the results folder does not."""
    plan = an_empty_plan(an_outfit([(1, 1)], name="../../evil"))

    folder = publish_plan(Outcome(plan, ()), tmp_path / "out", rooms=rooms())

    assert tmp_path / "out" == folder.parent
    assert ["out"] == [path.name for path in tmp_path.iterdir()]


def test_audit_of_a_plan_uses_the_audit_alone() -> None:
    """Auditing a plan that was read calls no other room."""
    plan = an_empty_plan()

    assert Outcome(plan, (a_finding(),)) == audit_plan(plan, rooms=rooms(findings=(a_finding(),)))


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "said 'an empty file'; allowed: a plan as JSON text"),
        (b"# My bees\n\n12 yards", "said '# My bees 12 yards'; allowed: a plan as JSON text"),
        (b"[]", "runplanner-plan/1"),
        (b'{"schema": "other/9"}', "runplanner-plan/1"),
        (b"\xff\xfe{\x00}\x00", "text in UTF-8"),
        (b'{"schema": "runplanner-plan/1", "plan": {"outfit": NaN}}', "JSON text"),
        (b"[" * 100_000, "JSON text"),
    ],
)
def test_what_is_no_plan_is_a_fault(tmp_path: Path, content: bytes, words: str) -> None:
    """A file that is no plan is refused in words: what stood there and what may."""
    path = tmp_path / "plan.json"
    path.write_bytes(content)

    with pytest.raises(ScenarioError, match="1 fault found") as caught:
        read_plan(path)
    assert words in caught.value.faults[0].sentence()


def test_a_missing_plan_is_a_fault(tmp_path: Path) -> None:
    """A path with nothing there, and a folder without a plan, say so."""
    with pytest.raises(ScenarioError, match="No such file"):
        read_plan(tmp_path / "none.json")
    with pytest.raises(ScenarioError, match=r"plan\.json"):
        read_plan(tmp_path)


def test_a_huge_file_is_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file far too large to be a plan is refused before it fills the memory."""
    monkeypatch.setattr("runplanner.office.campaign.LARGEST_PLAN_BYTES", 10)
    path = tmp_path / "plan.json"
    path.write_text(plan_text(an_empty_plan()), encoding="utf-8")

    with pytest.raises(ScenarioError, match="larger than"):
        read_plan(path)
