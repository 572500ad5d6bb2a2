"""What was measured, one line for each run, kept in a file so that a long bench can go on later."""

import json
import subprocess
from dataclasses import asdict, dataclass, fields
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


@dataclass(frozen=True, slots=True)
class Row:
    """One run of one planner on one instance.

    Args:
        group: Size of the campaign, or the set of a published instance.
        instance: Which one.
        planner: ``runplanner`` or a rival.
        commit: What was measured; ``+`` where the program had changes not committed.
        seconds: What it was given.
        finished: Nothing left undone.
        findings: Breaches the audit found.
        cost: Cents; for published instances their own unit.
        bound: What no plan can go below, or 0.
        fixed: Cost that no plan can avoid.
        best_known: Published best, or 0.
        first_s: From the start of the command to the first plan, with one audit added.
        total_s: The whole command.
        peak_mb: Most memory held.
        rounds: Rounds the search made.
        note: Anything else, in words.
        proven: The bound says that no plan is better.
    """

    group: str
    instance: str
    planner: str
    commit: str
    seconds: float
    finished: bool = False
    findings: int = 0
    cost: int = 0
    bound: int = 0
    fixed: int = 0
    best_known: int = 0
    first_s: float = 0.0
    total_s: float = 0.0
    peak_mb: float = 0.0
    rounds: int = 0
    note: str = ""
    proven: bool = False

    @property
    def key(self) -> tuple[str, str, str, float]:
        """What makes a run the same as one made before."""
        return self.instance, self.planner, self.commit, self.seconds

    @property
    def gap(self) -> float | None:
        """Proven gap on all cost, in per cent."""
        return 100 * (self.cost - self.bound) / self.cost if self.bound and self.cost else None

    @property
    def steerable_gap(self) -> float | None:
        """Proven gap on the cost that a plan can steer, in per cent; None where that is unknown."""
        steered = self.cost - self.fixed if self.fixed else 0
        return 100 * (self.cost - self.bound) / steered if self.bound and steered > 0 else None

    @property
    def above(self) -> float | None:
        """Per cent above the best known."""
        return 100 * (self.cost / self.best_known - 1) if self.best_known and self.cost else None


class Kept:
    """Rows on file; each is added whole as soon as it is measured."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.rows: list[Row] = []
        if path.exists():
            lines = path.read_text(encoding="utf-8").splitlines()
            self.rows = [Row(**json.loads(line)) for line in lines if line.endswith("}")]

    def find(self, key: tuple[str, str, str, float]) -> Row | None:
        """Return the row with this key, or None."""
        return next((row for row in self.rows if row.key == key), None)

    def add(self, row: Row) -> None:
        """Keep a row."""
        self.rows.append(row)
        self.path.parent.mkdir(parents=True, exist_ok=True)
        with self.path.open("a", encoding="utf-8") as file:
            file.write(json.dumps(asdict(row)) + "\n")


def columns() -> list[str]:
    """Return the names of a row's fields."""
    return [field.name for field in fields(Row)]


def commit() -> str:
    """Return the commit checked out, with ``+`` where the program has been changed since."""
    try:
        head = _git("rev-parse", "--short", "HEAD")
        changed = _git("status", "--porcelain", "--", "runplanner")
    except (OSError, subprocess.CalledProcessError):
        return "unknown"
    return head + ("+" if changed else "")


def _git(*words: str) -> str:
    done = subprocess.run(["git", *words], cwd=ROOT, capture_output=True, text=True, check=True)
    return done.stdout.strip()
