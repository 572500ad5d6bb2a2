"""What is said against lines that are typed, and a plan with boards lying."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.errors import ScenarioError
from tests.running import put_in, running_plan

NOON = "Wed 3 Mar 12:00"


def faults(*lines: str, now: str = NOON) -> list[str]:
    """What is said against ``lines``."""
    with pytest.raises(ScenarioError) as caught:
        put_in(*lines, now=now)
    return [fault.sentence() for fault in caught.value.faults]


def under_boards() -> Plan:
    """The plan, where boards lie in all of Old Mill as it begins."""
    plan = running_plan()
    yards = tuple(
        replace(one, boards_on_min=-960) if one.id == "mill" else one for one in plan.outfit.yards
    )
    return replace(plan, outfit=replace(plan.outfit, yards=yards))
