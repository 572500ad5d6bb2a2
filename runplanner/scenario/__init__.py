"""The gate in: scenario files people edit become one checked outfit, or all their faults."""

from runplanner.scenario.read import read_scenario as read_scenario
from runplanner.scenario.shown.implied import implied as implied
from runplanner.scenario.starter.new import new_scenario as new_scenario
