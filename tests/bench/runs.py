"""Starts runs one after another and keeps what they say."""

import json
import subprocess
import sys
import time
from dataclasses import dataclass
from typing import Any

from tests.bench.campaigns import Size
from tests.bench.results import ROOT, Kept, Row

PATIENCE = 900
"""Seconds beyond its allowance after which a run is given up."""


FAILED = "failed: "


@dataclass(frozen=True, slots=True)
class Runner:
    """Makes runs not on file yet for this commit, each in a process of its own.

    A run that failed is told and not kept, so that it is tried again.
    """

    kept: Kept
    commit: str
    rounds: int | None = None

    def campaign(self, size: Size, seed: int, planner: str, seconds: float) -> Row:
        """Return the row of one planner on one campaign."""
        wish: dict[str, Any] = {"size": size.name, "seed": seed, "seconds": seconds}
        if planner == "runplanner":
            wish |= {"what": "campaign", "rounds": self.rounds}
        else:
            wish |= {"what": "rival", "rival": planner}
        return self._row(size.name, f"{size.name}-{seed}", planner, wish)

    def published(self, group: str, instance: str, seconds: float) -> Row:
        """Return the row of our core on one published instance."""
        wish = {
            "what": "published", "instance": instance, "seconds": seconds, "rounds": self.rounds,
        }  # fmt: skip
        return self._row(group, instance, "runplanner", wish)

    def _row(self, group: str, instance: str, planner: str, wish: dict[str, Any]) -> Row:
        bare = Row(group, instance, planner, self.commit, wish["seconds"])
        known = self.kept.find(bare.key)
        if known is not None:
            return known
        began = time.time()
        said = _asked({**wish, "began": began}, wish["seconds"] + PATIENCE)
        said.setdefault("total_s", time.time() - began)
        row = Row(group, instance, planner, self.commit, wish["seconds"], **said)
        if not row.note.startswith(FAILED):
            self.kept.add(row)
        return row


def _asked(wish: dict[str, Any], patience: float) -> dict[str, Any]:
    words = [sys.executable, "-m", "tests.bench.one_run", json.dumps(wish)]
    try:
        done = subprocess.run(
            words, cwd=ROOT, capture_output=True, text=True, timeout=patience, check=False
        )
    except subprocess.TimeoutExpired:
        return {"note": f"given up after {patience:.0f} s"}
    if done.returncode:
        return {"note": FAILED + done.stderr.strip().splitlines()[-1][:300]}
    found: dict[str, Any] = json.loads(done.stdout.splitlines()[-1])
    return found
