"""Seasons of which the first truck's first day has been driven."""

from runplanner.outfit.outfit import Outfit
from runplanner.season.standing.state import Standing
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.trips.judge import Judge
from runplanner.visits.stop import Stop


def driven(outfit: Outfit, *stops: Stop) -> Standing:
    """How a season stands once one trip of day 0 is fact, with the first of its people."""
    judged = Judge(Ground(outfit))(Day(0, 0, (stops,)))
    assert judged is not None
    visits = tuple(visit._replace(fact=True) for visit in judged.visits)
    return Standing(driven={(0, 0): judged._replace(visits=visits)}, crews={(0, 0): (0,)})
