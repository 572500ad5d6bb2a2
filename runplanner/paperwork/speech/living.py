"""Stops that a truck under way has still to make, for the colonies that are alive by then.

They were planned, and loaded for, before some died; the plan keeps them as they were.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops
from runplanner.daybook.trip import Action, Call, Job, Trip
from runplanner.paperwork.speech.own_words import in_own_words


def for_people(plan: Plan) -> Plan:
    """Return ``plan`` as papers tell it: for the living, and in the language spoken."""
    return for_the_living(in_own_words(plan))


def for_the_living(plan: Plan) -> Plan:
    """Return ``plan`` with no stop to come of a truck that is out for more colonies than live.

    What each colony gets goes down with them; their boxes and boards come home all the same.
    """
    done: Counter[tuple[str, Job, int]] = Counter()
    told: dict[tuple[str, int], Call] = {}
    for stop in stops(plan):
        call, actions = stop.call, list[Action]()
        to_come = stop.trip.driven and call.counted is None and call.start_min > plan.now_min
        for action in call.actions:
            mark = (call.yard, action.job, action.round)
            living = plan.outfit.yard(call.yard).colonies
            left = _bearing(living, actions) if action.job is Job.BLOCK else living - done[mark]
            done[mark] += action.colonies
            actions.append(_for(action, left) if to_come else action)
        if tuple(actions) != call.actions:
            new = replace(call, actions=tuple(actions), planned=call.planned or call.actions)
            told[stop.trip.id, stop.trip.calls.index(call)] = new
    if not told:
        return plan
    shifts = tuple(
        replace(shift, trips=tuple(_with(trip, told) for trip in shift.trips))
        for shift in plan.shifts
    )
    return replace(plan, shifts=shifts)


def _bearing(living: int, told: Sequence[Action]) -> int:
    """Return how many colonies blocks may go to: those just taken off, else all that live.

    A colony may get several, one after the other.
    """
    off = [action.colonies for action in told if action.job is Job.TAKE_OFF]
    return off[-1] if off else living


def _with(trip: Trip, told: dict[tuple[str, int], Call]) -> Trip:
    calls = (told.get((trip.id, at), call) for at, call in enumerate(trip.calls))
    return replace(trip, calls=tuple(calls))


def _for(action: Action, living: int) -> Action:
    """Return a job on ``living`` colonies at most; where none is left, as it was planned."""
    if not 0 < living < action.colonies:
        return action
    return replace(
        action,
        colonies=living,
        ml=action.ml * living // action.colonies,
        pieces=action.pieces * living // action.colonies,
        feeders=action.feeders * living // action.colonies,
    )
