"""A smoke size of the bench runs whole, and its rivals are judged like our own plans."""

import csv
from dataclasses import replace
from pathlib import Path

import pytest

from runplanner.audit.audit import audit
from tests.bench.__main__ import main
from tests.bench.campaigns import SIZES, SMOKE, campaign
from tests.bench.results import Kept, Row
from tests.bench.rivals import rival_plan, why_absent
from tests.bench.runs import Runner
from tests.bench.table import ratios, verdict
from tests.bench.upset import table as table_of_upsets


def test_smoke_bench_prints_tables_and_writes_csv(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One tiny campaign: our plan is audited and whole, two rivals are put beside it."""
    words = ["campaigns", "--smoke", "--seconds", "1", "--rivals", "hand,ortools"]
    assert main([*words, "--out", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert "Rivals, in the same seconds, judged by the same audit" in said
    with (tmp_path / "campaigns.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert ["runplanner", "hand", "ortools"] == [row["planner"] for row in rows]
    assert ["0"] * 3 == [row["findings"] for row in rows]
    assert "True" == rows[0]["finished"]
    assert 0 < int(rows[0]["bound"]) <= int(rows[0]["cost"])


def test_profile_and_plot_both_come(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Said together, the one does not keep the other away; the smallest size is drawn as well."""
    words = ["campaigns", "--smoke", "--seconds", "1", "--rivals", "none", "--profile", "--plot"]
    assert main([*words, "--out", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert "in all s" in said
    if "matplotlib is not installed" not in said:
        picture = (tmp_path / "growth.png").read_bytes()
        assert picture.startswith(b"\x89PNG")
        assert f"Drawn: {tmp_path / 'growth.png'}" in said


@pytest.mark.parametrize("words", [["--sizes", "13"], ["--sets", "x"], ["--rivals", "hand,x"]])
def test_what_there_is_none_of_is_refused(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    """A slip of the finger does not end in an empty table."""
    with pytest.raises(SystemExit):
        main(words)
    assert f"{words[0]}: {words[1].split(',')[-1]}; there are " in capsys.readouterr().err


def test_smoke_of_planning_again(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A tiny campaign upset: repairs break no rule and are not worse than leaving visits out."""
    assert main(["replan", "--smoke", "--seconds", "1", "--out", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert "first audited repair: median" in said
    with (tmp_path / "replan.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert rows
    assert {"0"} == {row["findings"] for row in rows}
    assert {"False"} == {row["worse"] for row in rows}
    assert "no window to shut" == table_of_upsets([])


def test_rows_on_file_are_not_measured_again(tmp_path: Path) -> None:
    """A bench that was broken off goes on from its file, half a line at its end left out."""
    kept = Kept(tmp_path / "results.jsonl")
    row = Row("12y", "12y-1", "hand", "abc", 5.0, cost=7)
    kept.add(row)
    with kept.path.open("a", encoding="utf-8") as file:
        file.write('{"group": "12y", "inst')
    again = Kept(kept.path)
    assert row == again.find(row.key)
    assert again.find(replace(row, commit="def").key) is None


@pytest.mark.parametrize("name", ["hand", "ortools", "pyvrp"])
def test_rivals_plans_break_no_rule(name: str) -> None:
    """What a rival routes is written down under all rules: the audit finds nothing."""
    if why_absent(name):
        pytest.skip(why_absent(name))
    plan, _ = rival_plan(name, campaign(SMOKE, 2), 1.0)
    assert () == audit(plan)
    assert plan.shifts


def test_same_seed_same_campaign() -> None:
    """Campaigns are drawn from their seed alone."""
    assert campaign(SIZES[0], 1) == campaign(SIZES[0], 1)
    assert campaign(SIZES[0], 1) != campaign(SIZES[0], 2)


def test_verdict_names_where_a_rival_is_cheaper() -> None:
    """A dearer plan of ours is owned up to, size by size."""
    ours = Row("12y", "12y-1", "runplanner", "abc", 5.0, finished=True, cost=110, fixed=50)
    its = Row("12y", "12y-1", "pyvrp", "abc", 5.0, finished=True, cost=100)
    assert (1.1, 1.2) == ratios(ours, its)  # 110 / 100; (110 - 50) / (100 - 50)
    assert "12y-1 (pyvrp is cheaper)" in verdict([ours, its])


def test_failed_runs_are_told_and_tried_again(tmp_path: Path) -> None:
    """A run that breaks says so in its row, and is not put on file."""
    kept = Kept(tmp_path / "results.jsonl")
    row = Runner(kept, "abc").campaign(SMOKE, 1, "nobody", 1.0)
    assert "failed: KeyError: 'nobody'" == row.note
    assert [] == kept.rows
    assert not kept.path.exists()
