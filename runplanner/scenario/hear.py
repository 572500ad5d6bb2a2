"""What the forecasts of a scenario say: why hours are shut, and how sure each day is."""

from pathlib import Path

from runplanner.scenario.forecast.part import Heard
from runplanner.scenario.read import read_scenario
from runplanner.weather.judge import ShutHour


def hear(folder: Path) -> Heard:
    """Return all that the forecasts of the scenario in ``folder`` say.

    Raises:
        ScenarioError: With every fault found.
    """
    heard = Heard()
    read_scenario(folder, heard)
    return heard


def reasons(folder: Path) -> tuple[ShutHour, ...]:
    """Return every hour that forecasts shut, with its yards and reasons.

    Raises:
        ScenarioError: With every fault found.
    """
    return tuple(hear(folder).shut)
