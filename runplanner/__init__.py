"""Plan a beekeeper's take-off, condensing and autumn feeding as a season of truck trips.

From a folder to papers::

    from runplanner import plan_campaign, publish_plan

    outcome = plan_campaign("scenarios/my-bees")
    if not outcome.findings:
        publish_plan(outcome, "maps_out")
"""

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
from runplanner.office.replan import Replanned, replan_campaign
from runplanner.office.words import plan_words
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.tables import plan_tables
from runplanner.season.watch import Progress
from runplanner.version import __version__

__all__ = [
    "Effort",
    "Fault",
    "Finding",
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
    "start_scenario",
]
