"""Small rooms for the office's tests: they answer at once and write one file."""

from pathlib import Path

from runplanner.audit.findings import Finding
from runplanner.daybook.plan import Plan
from runplanner.daybook.text import plan_text
from runplanner.office.rooms import Rooms
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.sheet.look import PLAIN, Look
from runplanner.phrase import phrase, verbatim
from runplanner.roads.sketch import Sketch
from runplanner.season.watch import Listener, Progress
from tests.outfits import an_outfit
from tests.plans import DONE, an_empty_plan


class FakePlanner:
    """Returns ``plan`` (with the outfit it is given) and keeps what it was asked."""

    def __init__(self, plan: Plan | None = None) -> None:
        self.plan = plan
        self.asked: dict[str, object] = {}

    def __call__(
        self,
        outfit: Outfit,
        *,
        seed: int,
        rounds: int | None,
        seconds: float | None,
        progress: Listener | None,
    ) -> Plan:
        """Report one line of progress, then return the plan."""
        self.asked = {"seed": seed, "rounds": rounds, "seconds": seconds}
        if progress is not None:
            progress(Progress(1, 3, 40_000, 36_000, DONE, phrase("")))
        return self.plan or an_empty_plan(outfit)


def write(
    plan: Plan,
    folder: Path,
    findings: tuple[Finding, ...] = (),
    *,
    pdf: bool = False,
    look: Look = PLAIN,
    roads: Sketch | None = None,
) -> list[Path]:
    """Write plan.json alone, and marks that a PDF or another look was asked for."""
    path = folder / "plan.json"
    path.write_text(plan_text(plan), encoding="utf-8")
    if pdf:
        (folder / "asked.pdf").touch()
    if look != PLAIN:
        (folder / "look.txt").write_text(f"{look.paper} {look.large} {look.language}", "utf-8")
    return [path]


def draw(plan: Plan, *, online_tiles: bool, roads: Sketch | None = None) -> str:
    """Say what was asked for."""
    on = "" if roads is None else f", roads: {roads.credit}"
    return f"<html>tiles: {online_tiles}{on}</html>"


def rooms(plan: Plan | None = None, findings: tuple[Finding, ...] = ()) -> Rooms:
    """Rooms that read one yard, plan as told, and find what they are told to find."""
    return Rooms(
        read=lambda folder: an_outfit([(3, 4)], title=folder.name),
        plan=FakePlanner(plan),
        audit=lambda _plan: findings,
        write=write,
        draw=draw,
    )


def a_finding() -> Finding:
    """A broken deck rule on trip d0-1."""
    return Finding("deck", "d0-1", "yard1", verbatim("25 places"), verbatim("24 places"))
