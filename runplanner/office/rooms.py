"""The rooms below, by the one thing the office asks of each.

Heavy libraries load only when a room is called.  Tests hand in small rooms of their own.
"""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from runplanner.audit.findings import Finding
from runplanner.daybook.plan import Plan
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.sheet.look import PLAIN, Look
from runplanner.roads.sketch import Sketch
from runplanner.season.replan_season import Upset
from runplanner.season.watch import Listener


class Planner(Protocol):
    """Makes a plan from an outfit."""

    def __call__(
        self,
        outfit: Outfit,
        *,
        seed: int,
        rounds: int | None,
        seconds: float | None,
        progress: Listener | None,
    ) -> Plan:
        """Return the best plan found."""
        ...


class Replanner(Protocol):
    """Makes a plan from one that is being driven."""

    def __call__(  # noqa: PLR0913 - what was, what is, when, and how hard to try
        self,
        plan: Plan,
        outfit: Outfit,
        now_min: int,
        *,
        upset: Upset,
        seed: int,
        rounds: int | None,
        seconds: float | None,
        progress: Listener | None,
    ) -> Plan:
        """Return the best plan found from now on."""
        ...


class Writer(Protocol):
    """Writes every paper of a plan into a folder."""

    def __call__(
        self,
        plan: Plan,
        folder: Path,
        findings: tuple[Finding, ...] = (),
        *,
        pdf: bool = False,
        look: Look = PLAIN,
        roads: Sketch | None = None,
    ) -> list[Path]:
        """Return the files written."""
        ...


class Drawer(Protocol):
    """Draws the map of a plan."""

    def __call__(self, plan: Plan, *, online_tiles: bool, roads: Sketch | None = None) -> str:
        """Return the map as one HTML page, on ``roads`` where there are any."""
        ...


def _read(folder: Path) -> Outfit:
    from runplanner.scenario import read_scenario

    return read_scenario(folder)


def _plan(
    outfit: Outfit,
    *,
    seed: int,
    rounds: int | None,
    seconds: float | None,
    progress: Listener | None,
) -> Plan:
    from runplanner.season.plan_season import default_searches, plan_season

    return plan_season(
        outfit, seed=seed, rounds=rounds, seconds=seconds, progress=progress,
        searches=default_searches(outfit),
    )  # fmt: skip


def _replan(  # noqa: PLR0913 - what was, what is, when, and how hard to try
    plan: Plan,
    outfit: Outfit,
    now_min: int,
    *,
    upset: Upset,
    seed: int,
    rounds: int | None,
    seconds: float | None,
    progress: Listener | None,
) -> Plan:
    from runplanner.season.replan_season import replan_season

    return replan_season(
        plan, outfit, now_min, upset=upset, seed=seed, rounds=rounds, seconds=seconds,
        progress=progress,
    )  # fmt: skip


def _audit_again(plan: Plan, before: Plan) -> tuple[Finding, ...]:
    from runplanner.audit.audit import audit

    return audit(plan, before)


def _audit(plan: Plan) -> tuple[Finding, ...]:
    from runplanner.audit.audit import audit

    return audit(plan)


def _write(
    plan: Plan,
    folder: Path,
    findings: tuple[Finding, ...] = (),
    *,
    pdf: bool = False,
    look: Look = PLAIN,
    roads: Sketch | None = None,
) -> list[Path]:
    from runplanner.paperwork.write_all import write_papers

    return write_papers(plan, folder, findings, pdf=pdf, look=look, roads=roads)


def _draw(plan: Plan, *, online_tiles: bool, roads: Sketch | None = None) -> str:
    from runplanner.paperwork.map.page import map_html

    return map_html(plan, online_tiles=online_tiles, roads=roads)


@dataclass(frozen=True, slots=True)
class Rooms:
    """What the office calls; the defaults are the real rooms."""

    read: Callable[[Path], Outfit] = _read
    plan: Planner = _plan
    audit: Callable[[Plan], tuple[Finding, ...]] = _audit
    write: Writer = _write
    draw: Drawer = _draw
    replan: Replanner = _replan
    audit_again: Callable[[Plan, Plan], tuple[Finding, ...]] = _audit_again
