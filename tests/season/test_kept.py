"""What is kept of promised days: nothing of a stop of which all work is left out."""

from dataclasses import replace

from runplanner.season.replan_season import _kept
from runplanner.season.standing.keeper import Keeper
from runplanner.trips.day import Day
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.outfits import an_outfit
from tests.season.tiny import four, tiny

STRIPS = Stop(1, strips=True, from_min=12 * 60)
"""Begun no sooner than was promised."""
ALL = Stop(0, off=4, boxes=6, round=1, fed=4)


def test_nobody_calls_at_noon_for_strips_that_are_not_to_be_had() -> None:
    """The other yard of the trip gets what it was promised."""
    none = replace(an_outfit().strips, stock=0)
    outfit = tiny([(10, 0), (14, 0)], [four(1, 1), four(2, 1)], 1, strips=none)
    keeper = Keeper(Ground(outfit))
    state = _kept(keeper, {(0, 0): Day(0, 0, ((STRIPS, ALL),))})

    assert [(ALL,)] == [trip for one in state.days.values() for trip in one.day.trips]
