"""Whatever one slip does to a good scenario, it is read or refused; nothing else happens."""

import re
import shutil
from contextlib import suppress
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from runplanner.errors import ScenarioError
from runplanner.scenario import implied, read_scenario

pytestmark = pytest.mark.no_cover  # counting lines takes twice as long; other tests meet these

DEMO = Path(__file__).parents[2] / "scenarios" / "vine_hills"
KEEP = ("#", "name", "Border", "Fox", "Walnut", "Linden Ridge", "Stone", "Deer")
LITERALS = [
    "0", "-1", "1e400", "nan", "inf", "true", "[]", "{}", "[[]]", "[{}]", '""', '"1 kg"', '"4,2 t"',
    '"0 kg"', '"1 m"', '"{{7*7}}"', '"=1+1"', '"\\u0000"', '"\\u202e"', '"' + "x" * 10_000 + '"',
    '"999999999 t"', "2027-03-01", "07:30:00", "2027-03-01T00:00:00", '["a", 1]', "9" * 20,
]  # fmt: skip
CELLS = [
    "", "0", "-1", "nan", "inf", "x" * 10_000, "1 kg", "=1+1", "yes", "2027-07-28", "24:00", '"',
    "\u202e", "no road", "{{7*7}}", "<img onerror=x>", "all", "1,5", "9" * 20, "\x00",
]  # fmt: skip
KEYS = [i for i, line in enumerate((DEMO / "outfit.toml").read_text("utf-8").splitlines())
        if re.match(r"[a-z_]+ = ", line)]  # fmt: skip


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The large demo with a few of its yards, so that reading is fast."""
    made = tmp_path_factory.mktemp("slip") / "demo"
    shutil.copytree(DEMO, made)
    lines = (made / "yards.csv").read_text("utf-8").splitlines(keepends=True)
    (made / "yards.csv").write_text("".join(line for line in lines if line.startswith(KEEP)))
    return made


def read_or_refuse(folder: Path) -> None:
    """Read the folder; the only error allowed is a refusal with faults fit to print."""
    with suppress(ScenarioError):
        assert implied(read_scenario(folder))


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(line=st.sampled_from(KEYS), literal=st.sampled_from(LITERALS))
def test_any_value_in_the_outfit(folder: Path, line: int, literal: str) -> None:
    """One key of outfit.toml holds something else."""
    lines = (DEMO / "outfit.toml").read_text("utf-8").splitlines()
    lines[line] = f"{lines[line].split(' = ')[0]} = {literal}"
    (folder / "outfit.toml").write_text("\n".join(lines) + "\n", "utf-8")

    read_or_refuse(folder)


@settings(
    max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    name=st.sampled_from(["yards.csv", "weather.csv"]),
    row=st.integers(1, 7),
    column=st.integers(0, 21),
    cell=st.sampled_from(CELLS),
)
def test_any_cell_in_a_table(folder: Path, name: str, row: int, column: int, cell: str) -> None:
    """One cell of a table, header included, holds something else."""
    shutil.copy(DEMO / "outfit.toml", folder / "outfit.toml")
    good = (folder / name).read_text("utf-8")
    lines = good.splitlines()
    cells = lines[row].split(";")
    cells[column % len(cells)] = cell
    lines[row] = ";".join(cells)
    (folder / name).write_text("\n".join(lines) + "\n", "utf-8")
    try:
        read_or_refuse(folder)
    finally:
        (folder / name).write_text(good, "utf-8")
