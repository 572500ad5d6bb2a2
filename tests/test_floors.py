"""The import contracts hold, and each of them catches a breach planted against it."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests import fresh

LINT = "from importlinter.cli import lint_imports_command as go; go()"


def lint(folder: Path) -> subprocess.CompletedProcess[str]:
    """Check the contracts of the package in ``folder``."""
    return subprocess.run(
        [sys.executable, "-c", LINT, "--no-cache"],
        cwd=folder,
        capture_output=True,
        text=True,
        encoding="utf-8",
        env={"PYTHONUTF8": "1", "PYTHONPATH": str(folder)},
        check=False,
    )


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """The package and its contracts, free to be spoilt."""
    leave = shutil.ignore_patterns("__pycache__")
    shutil.copytree(fresh.ROOT / "runplanner", tmp_path / "runplanner", ignore=leave)
    shutil.copy(fresh.ROOT / "pyproject.toml", tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    ("where", "planted", "contract"),
    [
        ("visits/spoilt.py", "import runplanner.trips", "Floors"),
        ("haulage/spoilt.py", "import runplanner.daybook.plan", "Floors"),
        ("scenario/spoilt.py", "def late():\n    import runplanner.season", "The gates"),
        ("audit/spoilt.py", "import runplanner.trips", "The audit"),
        ("audit/spoilt.py", "import runplanner.haulage", "The audit"),
        ("audit/spoilt.py", "import runplanner.weather", "The audit"),
        ("audit/spoilt.py", "import runplanner.roads", "The audit"),
        ("audit/spoilt.py", "import runplanner.whole_file", "The audit"),
        ("audit/spoilt.py", "import runplanner.version", "The audit"),
        ("audit/spoilt.py", "import numpy", "The audit"),
        ("paperwork/spoilt.py", "import pint", "pint enters"),
        ("paperwork/spoilt.py", "import folium", "folium enters"),
        ("trips/spoilt.py", "import ortools", "ortools enters"),
        ("visits/spoilt.py", "import geopy", "geopy enters"),
        ("scenario/spoilt.py", "import pandas", "pandas enters"),
        ("office/spoilt.py", "import openpyxl", "openpyxl enters"),
        ("scenario/spoilt.py", "import networkx", "networkx enters"),
        ("paperwork/spoilt.py", "import astral", "astral enters"),
        ("office/spoilt.py", "import weasyprint", "weasyprint enters"),
        ("roads/spoilt.py", "import osmium", "osmium enters"),
        ("haulage/spoilt.py", "import scipy", "scipy enters"),
        ("scenario/spoilt.py", "import httpx", "httpx enters"),
        ("roads/spoilt.py", "import runplanner.haulage.travel", "Floors"),
        ("scenario/spoilt.py", "import gpxpy", "gpxpy enters"),
        ("office/spoilt.py", "import icalendar", "icalendar enters"),
        ("paperwork/spoilt.py", "import defusedxml.ElementTree", "XML enters"),
        ("season/proof/spoilt.py", "import runplanner.season.search", "Rooms of the season"),
        ("season/standing/spoilt.py", "import runplanner.season.quick", "Rooms of the season"),
        ("season/attic.py", "", "Rooms of the season"),
        ("scenario/values/spoilt.py", "import runplanner.scenario.yards", "Rooms of the gate in"),
        ("paperwork/stop/spoilt.py", "import runplanner.paperwork.lists", "Rooms of the papers"),
        ("changes/said/spoilt.py", "import runplanner.changes.road", "Rooms of the changes"),
        ("changes/road/spoilt.py", "import runplanner.trips", "The gates"),
        ("attic/__init__.py", "", "Floors"),
    ],
)
def test_a_planted_breach_is_caught(copy: Path, where: str, planted: str, contract: str) -> None:
    """One import where it may not be, or one room that is in no list, breaks its contract."""
    path = copy / "runplanner" / where
    path.parent.mkdir(exist_ok=True)
    path.write_text(f'"""Planted."""\n{planted}\n', encoding="utf-8")

    told = lint(copy)

    assert 1 == told.returncode, told.stdout + told.stderr
    broken = [line for line in told.stdout.splitlines() if line.endswith("BROKEN")]
    assert any(line.startswith(contract) for line in broken), told.stdout


def test_a_cycle_is_caught(copy: Path) -> None:
    """Two modules of one room that import each other break the contract on cycles."""
    room = copy / "runplanner" / "trade"
    (room / "one.py").write_text("import runplanner.trade.two\n", encoding="utf-8")
    (room / "two.py").write_text("import runplanner.trade.one\n", encoding="utf-8")

    assert "No two neighbours import each other, in any room BROKEN" in lint(copy).stdout


def test_the_contracts_hold(copy: Path) -> None:
    """The package as it stands keeps every contract."""
    told = lint(copy)

    assert 0 == told.returncode, told.stdout + told.stderr
