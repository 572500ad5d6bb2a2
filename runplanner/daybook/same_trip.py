"""What makes a trip the same trip after planning again.

A piece of work is done once in a campaign: the second visit to a yard for taking off, the
first for its second feed.  So the weightiest piece of work aboard tells the trip.  It is the
same when the trip leaves earlier, on another day, with another truck or with one more yard,
and it hangs on no number or place in a list.
"""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import stops
from runplanner.daybook.trip import Job, Shift, Trip

_WEIGHT = (Job.TAKE_OFF, Job.FEED, Job.STRIPS, Job.BLOCK, Job.BOARDS, Job.WET_UP, Job.WET_DOWN,
           Job.FEEDERS)  # fmt: skip
NEAR_MIN = 60
"""A trip that loads further off is called anew, for names tell the hour; guessed."""
_Told = tuple[str, str, int, int]


class _Work(NamedTuple):
    """One piece of work, in the order in which the pieces stand for a trip.

    ``job`` is the job's place in the order of weight, ``few`` the colonies negated (many
    first), ``visit`` counts visits of this kind to this yard over the campaign.
    """

    job: int
    few: int
    yard: str
    feed_round: int
    visit: int


def main_works(plan: Plan) -> dict[str, _Told]:
    """Return for the id of each trip with a stop its weightiest work: yard, job, round, visit."""
    weightiest: dict[str, _Work] = {}
    for trip, work in _works(plan):
        weightiest[trip] = min(work, weightiest.get(trip, work))
    return {trip: _told(work) for trip, work in weightiest.items()}


def named_as_before(new: Plan, old: Plan) -> Plan:
    """Return ``new`` with each trip called as the same trip of that truck and day was in ``old``.

    So whoever has its paper in hand knows it again, though it loads some minutes later; one that
    does so more than ``NEAR_MIN`` off is called anew.  Where another trip of the day has that name
    now, the day's trips keep their own.
    """
    works = main_works(old)
    was = {
        (shift.day, shift.truck, works[trip.id]): trip
        for shift in old.shifts
        for trip in shift.trips
        if trip.id in works
    }
    works = main_works(new)
    return replace(new, shifts=tuple(_named(shift, works, was) for shift in new.shifts))


def _named(
    shift: Shift, works: Mapping[str, _Told], was: Mapping[tuple[int, str, _Told], Trip]
) -> Shift:
    trips = []
    for trip in shift.trips:
        same = was.get((shift.day, shift.truck, works[trip.id])) if trip.id in works else None
        near = same and abs(same.calls[0].start_min - trip.calls[0].start_min) <= NEAR_MIN
        trips.append(replace(trip, id=same.id) if same and near else trip)
    once = len({trip.id for trip in trips}) == len(trips)
    return replace(shift, trips=tuple(trips)) if once else shift


def _works(plan: Plan) -> Iterator[tuple[str, _Work]]:
    visits: Counter[tuple[str, int, int]] = Counter()
    for stop in stops(plan):
        done = [(_WEIGHT.index(one.job), one.colonies, one.round) for one in stop.call.actions]
        for job, colonies, feed_round in done or [(len(_WEIGHT), 0, 0)]:
            kind = (stop.call.yard, job, feed_round)
            visits[kind] += 1
            yield stop.trip.id, _Work(job, -colonies, stop.call.yard, feed_round, visits[kind])


def _told(work: _Work) -> _Told:
    job = _WEIGHT[work.job].value if work.job < len(_WEIGHT) else ""
    return work.yard, job, work.feed_round, work.visit
