"""Why work is left undone."""

from runplanner.daybook.plan import Plan
from runplanner.season.state import Keeper, State


def explained(keeper: Keeper, state: State, plan: Plan, *, seed: int, rounds: int) -> Plan:
    """Placeholder."""
    return plan
