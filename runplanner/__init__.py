"""Plan a beekeeper's take-off, condensing and autumn feeding as a season of truck trips.

From a folder to papers::

    from runplanner import plan_campaign, publish_plan

    outcome = plan_campaign("scenarios/my-bees")
    if not outcome.findings:
        publish_plan(outcome, "maps_out")
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from runplanner.audit.findings import Finding
    from runplanner.daybook.plan import Plan
    from runplanner.errors import Fault, PlanError, RunplannerError, ScenarioError
    from runplanner.office.campaign import (
        Effort,
        Outcome,
        audit_plan,
        plan_campaign,
        publish_plan,
        read_plan,
        refuse_plan,
    )
    from runplanner.office.drawn import draw_roads
    from runplanner.office.facts import read_outfit, start_scenario
    from runplanner.office.forecasts import reasons
    from runplanner.office.gathered import gather_yards
    from runplanner.office.notebook import MapView, plan_map
    from runplanner.office.replan import Replanned, change_papers, replan_campaign
    from runplanner.office.words import plan_words
    from runplanner.outfit.outfit import Outfit
    from runplanner.paperwork.data.tables import plan_tables
    from runplanner.paperwork.sheet.look import Look
    from runplanner.paperwork.speech.tongue import speaking
    from runplanner.season.watch import Progress

from runplanner.version import __version__

__all__ = [
    "Effort",
    "Fault",
    "Finding",
    "Look",
    "MapView",
    "Outcome",
    "Outfit",
    "Plan",
    "PlanError",
    "Progress",
    "Replanned",
    "RunplannerError",
    "ScenarioError",
    "__version__",
    "audit_plan",
    "change_papers",
    "draw_roads",
    "gather_yards",
    "plan_campaign",
    "plan_map",
    "plan_tables",
    "plan_words",
    "publish_plan",
    "read_outfit",
    "read_plan",
    "reasons",
    "refuse_plan",
    "replan_campaign",
    "speaking",
    "start_scenario",
]

_ROOMS = {
    "audit.findings": ("Finding",),
    "daybook.plan": ("Plan",),
    "errors": ("Fault", "PlanError", "RunplannerError", "ScenarioError"),
    "office.campaign": (
        "Effort",
        "Outcome",
        "audit_plan",
        "plan_campaign",
        "publish_plan",
        "read_plan",
        "refuse_plan",
    ),
    "office.drawn": ("draw_roads",),
    "office.facts": ("read_outfit", "start_scenario"),
    "office.forecasts": ("reasons",),
    "office.gathered": ("gather_yards",),
    "office.notebook": ("MapView", "plan_map"),
    "office.replan": ("Replanned", "change_papers", "replan_campaign"),
    "office.words": ("plan_words",),
    "outfit.outfit": ("Outfit",),
    "paperwork.sheet.look": ("Look",),
    "paperwork.data.tables": ("plan_tables",),
    "paperwork.speech.tongue": ("speaking",),
    "season.watch": ("Progress",),
}
"""What each room gives out; a room is loaded when first asked for: small tasks begin at once."""
_WHERE = {name: room for room, names in _ROOMS.items() for name in names}


if not TYPE_CHECKING:  # so that type checkers know which names there are

    def __getattr__(name: str) -> object:
        """Return a name of the Python API from its room."""
        if name not in _WHERE:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        return getattr(import_module(f"runplanner.{_WHERE[name]}"), name)


def __dir__() -> list[str]:
    """Return the names of the Python API."""
    return sorted({*globals(), *__all__})
