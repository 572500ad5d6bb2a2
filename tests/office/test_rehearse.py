"""Tests of the verb that rehearses: files in place, resumed, and settings beside the plan."""

import argparse
import json
from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.cli import Exit, main
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_text
from runplanner.office.options import count, percent, safety
from runplanner.office.rehearse import Stage, rehearse_plan
from runplanner.outfit.safety import Safety
from runplanner.rehearsal.luck import NO_LUCK
from runplanner.season import plan_season
from tests.rehearsal.small import small_plan


def a_plan_file(tmp_path: Path) -> Path:
    """The small plan, in a file."""
    path = tmp_path / "plan.json"
    path.write_text(plan_text(small_plan()), "utf-8")
    return path


def test_a_rehearsal_is_written_and_taken_up_again(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two plays, then three: only the third is played; page, table and sums stand there."""
    plan, out = a_plan_file(tmp_path), tmp_path / "out"
    words = ["rehearse", str(plan), "--out", str(out), "--rounds", "2", "--hindsight", "2"]
    assert Exit.OK == main([*words, "--plays", "2"])
    first = capsys.readouterr()
    assert Exit.OK == main([*words, "--plays", "3", "--settings", "90:30:0", "--language", "de"])
    second = capsys.readouterr()

    folder = out / "test-rehearsal"
    assert ["plays.csv", "plays.jsonl", "rehearsal.html", "rehearsal.json"] == sorted(
        path.name for path in folder.iterdir()
    )
    assert "trips over payload" in first.out
    assert "play 1 of 2  as it is" in first.err
    assert "Durchspiel 1 von 3  wie er ist" not in second.err
    assert "Durchspiel 3 von 3  wie er ist" in second.err
    assert "Last 90 %, Puffer 30 min, Reserve 0 T" in second.out
    assert [3, 3] == [one["plays"] for one in json.loads((folder / "rehearsal.json").read_text())]
    assert '<html lang="de">' in (folder / "rehearsal.html").read_text("utf-8")


def test_a_plan_that_is_none_is_refused(tmp_path: Path) -> None:
    """Not a plan: exit 2 and nothing written."""
    path = tmp_path / "plan.json"
    path.write_text("{}", "utf-8")

    assert Exit.BAD_INPUT == main(["rehearse", str(path), "--out", str(tmp_path / "out")])
    assert not (tmp_path / "out").exists()


def test_a_campaign_under_way_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Driven trips, or days gone by: exit 2 with the cure, and nothing written."""
    plan = small_plan()
    first = plan.shifts[0]
    trips = tuple(replace(trip, driven=True) for trip in first.trips)
    driven = replace(plan, shifts=(replace(first, trips=trips), *plan.shifts[1:]), now_min=900)
    for one, when in ((driven, "15:00"), (replace(plan, now_min=1440), "00:00")):
        path = tmp_path / "plan.json"
        path.write_text(plan_text(one), "utf-8")
        assert Exit.BAD_INPUT == main(["rehearse", str(path), "--out", str(tmp_path / "out")])
        said = capsys.readouterr().err
        assert "now_min: said 'as of" in said
        assert f"{when}'; allowed: a plan of which nothing has been driven" in said
        assert "Plan the scenario again" in said
        assert not (tmp_path / "out").exists()


def test_the_first_morning_is_no_campaign_under_way() -> None:
    """Planned again at 05:00 on the first day, before any truck has left: played as before."""
    early = replace(small_plan(), now_min=300)
    told = rehearse_plan(early, Stage(plays=1, luck=NO_LUCK, hindsight=0))

    assert early.bill.total() == told[0].plays[0].cents


def test_settings_are_planned_with_the_plan_s_own_effort(monkeypatch: pytest.MonkeyPatch) -> None:
    """As many searches side by side as the plan had, with its dice and rounds."""
    plan = small_plan()
    plan = replace(plan, search=replace(plan.search, searches=2, seed=7))
    asked = []

    def planned(*_: object, **how: object) -> Plan:
        asked.append(how)
        return plan

    monkeypatch.setattr(plan_season, "plan_season", planned)
    rehearse_plan(plan, Stage(plays=1, luck=NO_LUCK, hindsight=0), [Safety()])

    assert [{"seed": 7, "rounds": plan.search.rounds, "searches": 2, "proof": False}] == asked


@pytest.mark.parametrize("typed", ["", "90", "90:30", "90:30:1:1", "40:0:0", "100:0:0", "90:-1:0",
                                   "90:601:0", "90:0:31", "49.9:0:0", "99.95:0:0",
                                   "x:0:0"])  # fmt: skip
def test_settings_that_make_no_sense_are_refused(typed: str) -> None:
    """Shares below the guess or of certainty, negative or endless slack."""
    with pytest.raises(argparse.ArgumentTypeError):
        safety(typed)


def test_options_are_read() -> None:
    """Percentages with or without their sign; at least one play."""
    assert Safety(900, 30, 1) == safety("90:30:1")
    assert (150, 150) == (percent("15"), percent("15 %"))
    assert (975, 5, 1000) == (percent("97.5 %"), percent("0.5"), percent("100.0"))
    assert Safety(975, 0, 1) == safety("97.5:0:1")
    assert Safety(999, 0, 0) == safety("99.9:0:0")
    assert 3 == count("3")
    for no, read in (("101", percent), ("-1", percent), ("100.1", percent), ("2,5", percent),
                     ("2.55", percent), (".5", percent), ("", percent), ("0", count)):  # fmt: skip
        with pytest.raises(argparse.ArgumentTypeError):
            read(no)
