"""What makes a trip the same trip after planning again, for calendars that are updated.

A piece of work is done once in a campaign: the second visit to a yard for taking off, the
first for its second feed.  So the weightiest piece of work aboard names the trip.  The name
stays when the trip leaves earlier, on another day, with another truck or with one more
yard, and it hangs on no number or place in a list.
"""

from collections import Counter
from collections.abc import Iterator
from hashlib import sha256
from typing import NamedTuple

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.paperwork.events import stops

_WEIGHT = (Job.TAKE_OFF, Job.FEED, Job.STRIPS, Job.BLOCK, Job.BOARDS, Job.WET_UP, Job.WET_DOWN,
           Job.FEEDERS)  # fmt: skip


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


def trip_keys(plan: Plan) -> dict[str, str]:
    """Return for the id of each trip a key that a plan made anew gives it again."""
    weightiest: dict[str, _Work] = {}
    for trip, work in _works(plan):
        weightiest[trip] = min(work, weightiest.get(trip, work))
    return {trip: _digest(*_said(work)) for trip, work in weightiest.items()}


def campaign_key(plan: Plan) -> str:
    """Return a key for the outfit's campaign of that year."""
    return _digest(plan.outfit.name, plan.outfit.season.first_date[:4])[:12]


def _works(plan: Plan) -> Iterator[tuple[str, _Work]]:
    visits: Counter[tuple[str, int, int]] = Counter()
    for stop in stops(plan):
        done = [(_WEIGHT.index(one.job), one.colonies, one.round) for one in stop.call.actions]
        for job, colonies, feed_round in done or [(len(_WEIGHT), 0, 0)]:
            kind = (stop.call.yard, job, feed_round)
            visits[kind] += 1
            yield stop.trip.id, _Work(job, -colonies, stop.call.yard, feed_round, visits[kind])


def _said(work: _Work) -> tuple[str, ...]:
    job = _WEIGHT[work.job].value if work.job < len(_WEIGHT) else ""
    return work.yard, job, str(work.feed_round), str(work.visit)


def _digest(*words: str) -> str:
    """Return a short mark for ``words``, each set off by its length from the next."""
    text = "".join(f"{len(word)}:{word}" for word in words)
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:32]
