"""One run in a process of its own, so that its time and memory are its own.

    python -m tests.bench.one_run '{"what": "campaign", ...}'

Prints one line of JSON.
"""

import json
import sys
import time
from typing import Any

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan, Tally
from runplanner.season.plan_season import default_searches, plan_season
from runplanner.season.watch import Progress
from tests.bench.campaigns import SIZES, SMOKE, campaign

NOTHING = Tally(0, 0, 0, 0)


def main() -> None:
    """Do what the one argument says."""
    wish = json.loads(sys.argv[1])
    runs = {"campaign": _campaign, "rival": _rival, "published": _published}
    found = runs[wish["what"]](wish)
    found["peak_mb"] = _peak_mb()
    sys.stdout.write(json.dumps(found) + "\n")


def _peak_mb() -> float:
    """Return the most memory held so far; 0 where the system does not tell."""
    if sys.platform == "win32":
        return 0.0
    import resource

    unit = 1024 * 1024 if sys.platform == "darwin" else 1024
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / unit


def _outfit(wish: dict[str, Any]) -> Any:
    size = next(size for size in (*SIZES, SMOKE) if size.name == wish["size"])
    return campaign(size, wish["seed"])


def _campaign(wish: dict[str, Any]) -> dict[str, Any]:
    first: list[float] = []

    def told(_: Progress) -> None:
        if not first:
            first.append(time.time() - wish["began"])

    outfit = _outfit(wish)
    plan = plan_season(
        outfit, seed=1, rounds=wish["rounds"], seconds=wish["seconds"], progress=told,
        searches=default_searches(outfit),
    )  # fmt: skip
    before = time.perf_counter()
    said = _said(plan)
    said["first_s"] = first[0] + time.perf_counter() - before
    said["note"] = plan.bound.kind
    return said


def _said(plan: Plan) -> dict[str, Any]:
    return {
        "findings": len(audit(plan)),
        "finished": plan.tally == NOTHING,
        "cost": plan.bill.total(),
        "bound": plan.bound.cents,
        "fixed": plan.bound.fixed_cents,
        "rounds": plan.search.rounds,
    }


def _rival(wish: dict[str, Any]) -> dict[str, Any]:
    from tests.bench.rivals import rival_plan

    plan, setting = rival_plan(wish["rival"], _outfit(wish), wish["seconds"])
    said = _said(plan)
    said["note"] = str(setting)
    said["bound"] = said["fixed"] = 0
    return said


def _published(wish: dict[str, Any]) -> dict[str, Any]:
    from tests.bench.published import one_search, run

    facts = (wish["instance"], wish["seconds"], wish["rounds"], wish["began"])
    return one_search(*facts, wish["seed"]) if "seed" in wish else run(*facts)


if __name__ == "__main__":
    main()
