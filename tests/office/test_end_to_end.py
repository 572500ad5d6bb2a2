"""The whole way with the real rooms: starter folder, plan, audit, papers, and back."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

import runplanner
from runplanner.cli import Exit, main

ROUNDS = "5"


def files(folder: Path) -> dict[str, bytes]:
    """Every file below ``folder`` by its name there."""
    found = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in found}


@pytest.fixture(scope="module")
def starter(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The starter scenario, as `new` writes it."""
    folder = tmp_path_factory.mktemp("scenarios") / "first-bees"
    runplanner.start_scenario(folder, "First bees")
    return folder


@pytest.fixture(scope="module")
def planned(starter: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Its results, as `plan` publishes them."""
    out = tmp_path_factory.mktemp("out")
    assert Exit.OK == main(["plan", str(starter), "--out", str(out), "--rounds", ROUNDS])
    return out / "first-bees"


def test_the_starter_is_planned_in_full(planned: Path) -> None:
    """Every job of the starter is done, within the rules, and at no less than the bound."""
    plan = runplanner.read_plan(planned)

    assert (0, 0, 0, 0) == (
        plan.tally.uncovered, plan.tally.no_strips, plan.tally.unfed_g, plan.tally.not_off,
    )  # fmt: skip
    assert () == runplanner.audit_plan(plan).findings
    assert plan.bound.cents <= plan.bill.total()


def test_every_kind_of_paper_is_there(planned: Path) -> None:
    """Map, index, a manifest for every trip, and the tables stand in the folder."""
    names = set(files(planned))
    plan = runplanner.read_plan(planned)
    trips = [trip for shift in plan.shifts for trip in shift.trips]

    assert {"plan.json", "map.html", "index.html", "shopping.html"} <= names
    assert len(trips) == sum(name.startswith("manifests/") for name in names)
    assert {f"tables/{name}.csv" for name in runplanner.plan_tables(plan)} <= names


def test_every_paper_is_in_readme(planned: Path, root: Path) -> None:
    """README's table of what comes out names every file or folder, and no other."""
    readme = (root / "README.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| `([\w.]+)/?` \|", readme, re.MULTILINE)

    # A starter that fits its weather has no wet-day sheet; roads come with a road file alone,
    # what changed with a plan made again.
    assert {name.split("/")[0] for name in files(planned)} <= set(rows)
    assert set(rows) - {name.split("/")[0] for name in files(planned)} <= {
        "wet", "roads.json", "changes.html",
    }  # fmt: skip


def test_the_same_words_give_the_same_files(
    starter: Path, planned: Path, tmp_path: Path, root: Path
) -> None:
    """Planning again elsewhere, with sets in another order, gives the same bytes."""
    words = ["plan", str(starter), "--out", str(tmp_path), "--rounds", ROUNDS]
    subprocess.run(
        [sys.executable, "-m", "runplanner", *words],
        env={**os.environ, "PYTHONHASHSEED": "77", "PYTHONPATH": str(root), "LC_ALL": "C"},
        cwd=tmp_path,
        check=True,
    )

    assert files(planned) == files(tmp_path / "first-bees")


def test_papers_come_back_from_the_plan_alone(planned: Path, tmp_path: Path) -> None:
    """The plan file alone gives every paper again, byte for byte."""
    alone = tmp_path / "moved.json"
    alone.write_bytes((planned / "plan.json").read_bytes())

    assert Exit.OK == main(["papers", str(alone), "--out", str(tmp_path / "out")])
    assert files(planned) == files(tmp_path / "out" / "first-bees")


def test_tiles_are_for_those_who_ask(planned: Path, tmp_path: Path) -> None:
    """Only with --tiles does the map name a tile server; nothing else differs."""
    main(["papers", str(planned), "--out", str(tmp_path), "--tiles"])

    offline, online = files(planned), files(tmp_path / "first-bees")
    assert ["map.html"] == [name for name in offline if offline[name] != online[name]]
    assert b"tile.openstreetmap.org" in online["map.html"]
    assert b"tile.openstreetmap.org" not in offline["map.html"]


def test_a_plan_tampered_with_is_caught(
    planned: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """One figure changed by hand in the plan file is found by `audit`."""
    text = (planned / "plan.json").read_text(encoding="utf-8")
    total = runplanner.read_plan(planned).bill.km
    spoilt = tmp_path / "plan.json"
    spoilt.write_text(text.replace(f'"km": {total}', f'"km": {total - 1}'), encoding="utf-8")

    assert Exit.FINDINGS == main(["audit", str(spoilt)])
    assert "bill" in capsys.readouterr().out


def test_tables_come_to_python(planned: Path) -> None:
    """The tables hold one row for each trip, and the bill sums to the plan's cost."""
    plan = runplanner.read_plan(planned)
    tables = runplanner.plan_tables(plan)

    assert sum(len(shift.trips) for shift in plan.shifts) == len(tables["trips"])
    costs = dict(zip(tables["costs"]["head"], tables["costs"]["sum"], strict=True))
    assert plan.bill.total() / 100 == costs["total"]
