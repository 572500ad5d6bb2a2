"""Fetching strips, mostly after the campaign: yards near each other put into trips, as a proposal.

The due dates bind; the grouping does not.  From the yard that must be done soonest each
trip goes on to the nearest yard whose dates still overlap, while one person's day lasts.
As in the campaign a watched yard comes last on its trip, so there is one at most; a suspect
yard or one at a standstill, under licence too, is a trip of its own.  Nobody works or rests behind
a gate that has shut; where gates shut, the trip says when home is left.
"""

from dataclasses import dataclass
from itertools import pairwise

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.days import Span, day_of
from runplanner.haulage.travel import slowed_min
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.lists.before_feed import feeding_stop
from runplanner.paperwork.lists.fetching_day import FetchingDay, fetching_day
from runplanner.paperwork.lists.second_application import again_pieces
from runplanner.paperwork.stop.events import actions
from runplanner.paperwork.stop.health import NOTHING_LEAVES, State, state_of


@dataclass(frozen=True, slots=True)
class Pickup:
    """One yard's strips to fetch on a day from ``from_day`` to ``to_day``.

    ``again``: strips that go in then, for a second application.
    """

    yard: str
    state: State
    place: int
    colonies: int
    pieces: int
    from_day: int
    to_day: int
    again: int = 0


@dataclass(frozen=True, slots=True)
class Collection:
    """One proposed trip; ``drive_min`` and ``rest_min`` are None where a road is not known.

    ``rest_min`` are the breaks that fall due on it, and waits for gates.  ``leave_min`` is the
    minute of the day at which home is left, None where no gate asks for one; ``gates_hold`` unless
    gates let none be.
    """

    from_day: int
    to_day: int
    pickups: tuple[Pickup, ...]
    drive_min: int | None
    work_min: int
    rest_min: int | None
    leave_min: int | None = None
    gates_hold: bool = True

    def pieces(self) -> int:
        """Return the strips that come home."""
        return sum(one.pieces for one in self.pickups)

    def duty_min(self) -> int | None:
        """Return how long it takes from home to home, breaks included; None without a road."""
        if self.drive_min is None or self.rest_min is None:
            return None
        return self.drive_min + self.work_min + self.rest_min


def too_long(outfit: Outfit, trip: Collection) -> bool:
    """Tell whether a trip takes more than the hours allow in a day."""
    duty = trip.duty_min()
    if trip.drive_min is None or duty is None:
        return False
    hours = outfit.hours
    return duty > hours.duty_max_min or trip.drive_min > hours.driving_max_min


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
    """Return what is to be fetched; not what comes out where its yard is fed."""
    last = plan.outfit.season.n_days - 1
    found = []
    for stop, action in actions(plan, Job.STRIPS):
        day, yard = day_of(stop.call.start_min), plan.outfit.yard(stop.call.yard)
        kind = plan.outfit.strips_at(yard)
        first, latest = day + kind.out_after_days, day + kind.out_before_days
        if feeding_stop(plan, yard.id, first, latest):
            continue
        place = yard.place_on(min(last, first))
        again = again_pieces(plan, stop, action)
        found.append(
            Pickup(
                yard.id, state_of(yard), place, action.colonies, action.pieces, first, latest, again
            )
        )
    return found


def _trip(outfit: Outfit, left: list[Pickup]) -> Collection:
    trip = _collected(outfit, (left[0],))
    while further := _next(outfit, trip, left):
        trip = further
    return trip


def _next(outfit: Outfit, trip: Collection, left: list[Pickup]) -> Collection | None:
    """Return the trip with the nearest further yard that still fits, or None.

    A watched yard stays last, so what is near is near the last yard before it.
    """
    watched = trip.pickups[-1].state is State.WATCH
    here = trip.pickups[-2 if watched and len(trip.pickups) > 1 else -1]
    drives = outfit.travel.minutes[here.place]
    near = [
        (minutes, one.yard, one)
        for one in left
        if one not in trip.pickups
        and _may_join(trip, one)
        and max(one.from_day, trip.from_day) <= min(one.to_day, trip.to_day)
        and (minutes := drives[one.place]) is not None
    ]
    longer = (_with(outfit, trip, one) for _, _, one in sorted(near, key=lambda one: one[:2]))
    return next((one for one in longer if _fits(outfit, one)), None)


def _may_join(trip: Collection, one: Pickup) -> bool:
    """Tell whether health lets a yard share the trip: sound ones do, and one watched yard."""
    states = [each.state for each in (*trip.pickups, one)]
    return {*states} <= {State.SOUND, State.WATCH} and states.count(State.WATCH) <= 1


def _with(outfit: Outfit, trip: Collection, one: Pickup) -> Collection:
    joined = (*trip.pickups, one)
    return _collected(outfit, tuple(sorted(joined, key=lambda each: each.state is State.WATCH)))


def _collected(outfit: Outfit, pickups: tuple[Pickup, ...]) -> Collection:
    """Return the trip that calls at yards in this order."""
    works = [_work_min(outfit, one) for one in pickups]
    legs = _legs_min(outfit, pickups)
    day = _day(outfit, pickups, legs, works)
    return Collection(
        from_day=max(one.from_day for one in pickups),
        to_day=min(one.to_day for one in pickups),
        pickups=pickups,
        drive_min=sum(legs) if legs else None,
        work_min=sum(works),
        rest_min=day.rest_min if day else None,
        leave_min=day.leave_min if day else None,
        gates_hold=day is None or day.held,
    )


def _day(
    outfit: Outfit, pickups: tuple[Pickup, ...], legs: list[int], works: list[int]
) -> FetchingDay | None:
    """Return how a day goes that calls at yards in this order; None where a road is not known."""
    gates = [outfit.yard(one.yard).access for one in pickups]
    hours = [Span(gate.opens_min, gate.closes_min) for gate in gates]
    return fetching_day(outfit, legs, works, hours) if legs else None


def _work_min(outfit: Outfit, one: Pickup) -> int:
    fixed = outfit.pace.fixed_min(closed=one.state in NOTHING_LEAVES)
    hands_s = outfit.pace.strips_s * (2 if one.again else 1)
    return fixed - (-one.colonies * hands_s // 60)


def _fits(outfit: Outfit, trip: Collection) -> bool:
    return trip.drive_min is not None and trip.gates_hold and not too_long(outfit, trip)


def _legs_min(outfit: Outfit, pickups: tuple[Pickup, ...]) -> list[int]:
    """Return the drives from home to home; none at all where a road is not known."""
    home = outfit.home.place
    places = (home, *(one.place for one in pickups), home)
    legs = [outfit.travel.minutes[a][b] for a, b in pairwise(places)]
    # Neither hour nor truck is planned here: the slowest counts.
    worst = max(outfit.travel.by_hour, default=1000)
    speed = min(truck.speed_permille for truck in outfit.trucks)
    plain = [slowed_min(leg, speed) for leg in legs if leg is not None]
    known = [-(-leg * worst // 1000) for leg in plain]
    return known if len(known) == len(legs) else []
