"""Fetching strips after the campaign: yards near each other put into trips, as a proposal.

The due dates bind; the grouping does not.  From the yard that must be done soonest each
trip goes on to the nearest yard whose dates still overlap, while one person's day lasts.
As in the campaign a watched yard comes last on its trip, so there is one at most; a suspect
yard or one at a standstill is a trip of its own.
"""

from dataclasses import dataclass, replace
from itertools import pairwise

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.days import day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Health
from runplanner.paperwork.events import actions


@dataclass(frozen=True, slots=True)
class Pickup:
    """One yard's strips to fetch on a day from ``from_day`` to ``to_day``."""

    yard: str
    health: Health
    place: int
    colonies: int
    pieces: int
    from_day: int
    to_day: int


@dataclass(frozen=True, slots=True)
class Collection:
    """One proposed trip; ``drive_min`` is None where a road is not known."""

    from_day: int
    to_day: int
    pickups: tuple[Pickup, ...]
    drive_min: int | None
    work_min: int

    def pieces(self) -> int:
        """Return the strips that come home."""
        return sum(one.pieces for one in self.pickups)


def collections(plan: Plan) -> tuple[Collection, ...]:
    """Return the proposed trips, the soonest that must be done first."""
    left = sorted(_pickups(plan), key=lambda one: (one.to_day, one.from_day, one.yard))
    found = []
    while left:
        trip = _trip(plan.outfit, left)
        left = [one for one in left if one not in trip.pickups]
        found.append(trip)
    return tuple(found)


def _pickups(plan: Plan) -> list[Pickup]:
    last = plan.outfit.season.n_days - 1
    found = []
    for stop, action in actions(plan, Job.STRIPS):
        day, yard = day_of(stop.call.start_min), plan.outfit.yard(stop.call.yard)
        kind = plan.outfit.strips_at(yard)
        first, latest = day + kind.out_after_days, day + kind.out_before_days
        place = yard.place_on(max(last, day))
        found.append(
            Pickup(yard.id, yard.health, place, action.colonies, action.pieces, first, latest)
        )
    return found


def _trip(outfit: Outfit, left: list[Pickup]) -> Collection:
    trip = _with(outfit, None, left[0])
    while further := _next(outfit, trip, left):
        trip = further
    return trip


def _next(outfit: Outfit, trip: Collection, left: list[Pickup]) -> Collection | None:
    """Return the trip with the nearest further yard that still fits, or None.

    A watched yard stays last, so what is near is near the last yard before it.
    """
    watched = trip.pickups[-1].health is Health.WATCH
    here = trip.pickups[-2 if watched and len(trip.pickups) > 1 else -1]
    drives = outfit.travel.minutes[here.place]
    near = [
        (minutes, one.yard, one)
        for one in left
        if one not in trip.pickups
        and _may_join(trip, one)
        and (minutes := drives[one.place]) is not None
    ]
    longer = (_with(outfit, trip, one) for _, _, one in sorted(near, key=lambda one: one[:2]))
    return next((one for one in longer if _fits(outfit, one)), None)


def _may_join(trip: Collection, one: Pickup) -> bool:
    """Tell whether health lets a yard share the trip: sound ones do, and one watched yard."""
    states = [each.health for each in (*trip.pickups, one)]
    return {*states} <= {Health.SOUND, Health.WATCH} and states.count(Health.WATCH) <= 1


def _with(outfit: Outfit, trip: Collection | None, one: Pickup) -> Collection:
    wash = outfit.pace.wash_min if one.health is Health.SUSPECT else 0
    work = outfit.pace.setup_min + wash - (-one.colonies * outfit.pace.strips_s // 60)
    if trip is None:
        alone = Collection(one.from_day, one.to_day, (one,), None, work)
        return replace(alone, drive_min=_drive_min(outfit, alone.pickups))
    joined = (*trip.pickups, one)
    pickups = tuple(sorted(joined, key=lambda each: each.health is Health.WATCH))
    return Collection(
        from_day=max(trip.from_day, one.from_day),
        to_day=min(trip.to_day, one.to_day),
        pickups=pickups,
        drive_min=_drive_min(outfit, pickups),
        work_min=trip.work_min + work,
    )


def _fits(outfit: Outfit, trip: Collection) -> bool:
    hours = outfit.hours
    if trip.drive_min is None or trip.from_day > trip.to_day:
        return False
    within = trip.drive_min + trip.work_min <= hours.duty_max_min
    return within and trip.drive_min <= hours.driving_max_min


def _drive_min(outfit: Outfit, pickups: tuple[Pickup, ...]) -> int | None:
    home = outfit.home.place
    places = (home, *(one.place for one in pickups), home)
    legs = [outfit.travel.minutes[a][b] for a, b in pairwise(places)]
    # No hour is planned here: the slowest one counts.
    worst = max(outfit.travel.by_hour, default=1000)
    known = [-(-leg * worst // 1000) for leg in legs if leg is not None]
    return sum(known) if len(known) == len(legs) else None
