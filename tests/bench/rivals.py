"""The rivals at their best: several settings each, the same seconds in all, the best plan kept."""

from collections.abc import Iterator
from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.outfit.outfit import Outfit
from tests.bench.diary import as_plan, campaign_by_days
from tests.bench.jobs import Setting
from tests.bench.rival_hand import by_hand
from tests.bench.rival_ortools import by_ortools
from tests.bench.rival_pyvrp import absent, by_pyvrp
from tests.bench.today import Router

ROUTERS: dict[str, Router] = {"hand": by_hand, "ortools": by_ortools, "pyvrp": by_pyvrp}
BY_HAND = (
    Setting(together=False),
    Setting(together=False, crew=1),
    Setting(together=False, crew=3),
)
ALWAYS = 99
BY_MACHINE = (
    Setting(keen=1.0, crew=1),
    Setting(keen=1.0, crew=1, fill=1),
    Setting(keen=1.0, fill=1),
    Setting(keen=1.3, crew=1, fill=3),
    Setting(keen=3, fill=ALWAYS),
    Setting(keen=1.3, fill=ALWAYS, crew=3),
)


def why_absent(name: str) -> str:
    """Return in words why a rival cannot run here, or nothing."""
    return absent() if name == "pyvrp" else ""


def rival_plan(name: str, outfit: Outfit, seconds: float) -> tuple[Plan, Setting]:
    """Return a rival's best plan in so many seconds, and the setting that gave it."""
    settings = list(_settings(name, outfit))
    best: tuple[tuple[int, ...], Plan, Setting] | None = None
    for setting in settings:
        keeper, state = campaign_by_days(outfit, ROUTERS[name], setting, seconds / len(settings))
        plan = as_plan(keeper, state)
        worth = (*_undone(plan), plan.bill.total())
        if best is None or worth < best[0]:
            best = worth, plan, setting
    if best is None:
        raise ValueError(f"{name} has no setting")
    return best[1], best[2]


def _settings(name: str, outfit: Outfit) -> Iterator[Setting]:
    for setting in BY_HAND if name == "hand" else BY_MACHINE:
        yield setting
        if outfit.trailers:
            yield replace(setting, trailer=True)


def _undone(plan: Plan) -> tuple[int, ...]:
    tally = plan.tally
    return tally.uncovered, tally.no_strips, tally.unfed_g, tally.not_off
