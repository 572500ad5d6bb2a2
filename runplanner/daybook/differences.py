"""What changed between two plans of one campaign: visits, trips and cost.

Calls at one yard with no drive between are one visit, as drivers count them.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields

from runplanner.daybook.plan import Bill, Plan
from runplanner.daybook.stops import by_stop
from runplanner.daybook.trip import Action, Call, CallKind, Shift, Trip


@dataclass(frozen=True, slots=True)
class Spot:
    """A visit still to be driven: where in the plan it stands."""

    yard: str
    trip: str
    truck: str
    trailer: str
    crew: tuple[str, ...]
    day: int
    start_min: int
    end_min: int
    actions: tuple[Action, ...]


@dataclass(frozen=True, slots=True)
class Shifted:
    """One visit that is not where it was; ``was`` or ``now`` is None where it is new or gone."""

    was: Spot | None
    now: Spot | None

    @property
    def spot(self) -> Spot:
        """Return the visit as it is now, or else as it was."""
        found = self.now or self.was
        if found is None:
            raise ValueError("a visit that never was")
        return found

    @property
    def order(self) -> tuple[int, str]:
        """Return what to sort by: when it was to be, then the yard."""
        first = self.was or self.spot
        return first.start_min, first.yard

    @property
    def stays(self) -> bool:
        """Return whether the visit is on the day and truck it was on."""
        if self.was is None or self.now is None:
            return False
        return (self.was.day, self.was.truck) == (self.now.day, self.now.truck)


@dataclass(frozen=True, slots=True)
class Duty:
    """A truck's day with another crew, trailer or hours; ``was`` or ``now`` is None for no day."""

    was: Shift | None
    now: Shift | None

    @property
    def shift(self) -> Shift:
        """Return the shift as it is now, or else as it was."""
        found = self.now or self.was
        if found is None:
            raise ValueError("a shift that never was")
        return found


@dataclass(frozen=True, slots=True)
class Differences:
    """Two plans compared, the driven part left out.

    Args:
        promised: Visits of the plan before that were still to be driven.
        kept: How many of them stand on the same day, on the same truck, with the same work.
        later: Kept visits whose minute has changed: was, now.
        reworked: Visits on the same day and truck, with other work: was, now.
        moved: Visits on another day or truck, gone or new.
        duties: Trucks' days to come whose crew, trailer or hours have changed.
        driven: Ids of trips that have been driven.
        untouched: Ids of trips to come that are the same to the last figure.
        changed: Ids of trips that keep their id but not their figures.
        called_off: Ids of trips that are no more.
        fresh: Ids of trips that are new.
        cents: What each head of the bill has gone up by; down is negative.
    """

    promised: int
    kept: int
    later: tuple[Shifted, ...]
    reworked: tuple[Shifted, ...]
    moved: tuple[Shifted, ...]
    duties: tuple[Duty, ...]
    driven: tuple[str, ...]
    untouched: tuple[str, ...]
    changed: tuple[str, ...]
    called_off: tuple[str, ...]
    fresh: tuple[str, ...]
    cents: tuple[tuple[str, int], ...]

    def visits_moved(self) -> int:
        """Return how many promised visits are on another day or truck, or gone."""
        return self.promised - self.kept - len(self.reworked)

    def extra_cents(self) -> int:
        """Return what the plan costs more."""
        return sum(cents for _, cents in self.cents)


def differences(before: Plan, after: Plan) -> Differences:
    """Return how ``after`` differs from ``before`` from ``after.now_min`` on."""
    old, new = _spots(before, after.now_min), _spots(after, after.now_min)
    kept, rest_old, rest_new = _matched(old, new)
    later = tuple(Shifted(was, now) for was, now in kept if was.start_min != now.start_min)
    others = sorted(_moves(rest_old, rest_new), key=lambda one: one.order)
    return Differences(
        promised=len(old),
        kept=len(kept),
        later=later,
        reworked=tuple(one for one in others if one.stays),
        moved=tuple(one for one in others if not one.stays),
        duties=_duties(before, after),
        cents=tuple(
            (head.name, getattr(after.bill, head.name) - getattr(before.bill, head.name))
            for head in fields(Bill)
        ),
        **_trips(before, after),
    )


def _spots(plan: Plan, now_min: int) -> list[Spot]:
    found: list[Spot] = []
    for shift in _to_come(plan, now_min):
        for trip in shift.trips:
            found += [
                _spot(shift, trip, calls)
                for calls in by_stop(trip.calls)
                if calls[0].kind is CallKind.YARD
            ]
    return found


def _spot(shift: Shift, trip: Trip, calls: Sequence[Call]) -> Spot:
    first, last = calls[0], calls[-1]
    actions = tuple(action for call in calls for action in call.actions)
    return Spot(
        first.yard, trip.id, shift.truck, shift.trailer, shift.crew, shift.day, first.start_min,
        last.end_min, actions,
    )  # fmt: skip


def _to_come(plan: Plan, now_min: int) -> Iterator[Shift]:
    """Go through the shifts that have not left home by ``now_min``."""
    yield from (shift for shift in plan.shifts if now_min <= 0 or shift.start_min > now_min)


def _duties(before: Plan, after: Plan) -> tuple[Duty, ...]:
    old, new = (
        {(shift.day, shift.truck): shift for shift in _to_come(plan, after.now_min)}
        for plan in (before, after)
    )
    found = (Duty(old.get(key), new.get(key)) for key in sorted({*old, *new}))
    return tuple(one for one in found if _duty(one.was) != _duty(one.now))


def _duty(shift: Shift | None) -> tuple[object, ...]:
    """Return what a crew must know of a shift before it begins."""
    return (shift.crew, shift.trailer, shift.start_min, shift.end_min) if shift else ()


def _matched(
    old: list[Spot], new: list[Spot]
) -> tuple[list[tuple[Spot, Spot]], list[Spot], list[Spot]]:
    """Pair visits on the same day and truck with the same work; return pairs and leftovers."""
    kept, rest, left = [], [], list(new)
    for was in old:
        now = next((one for one in left if _promise(one) == _promise(was)), None)
        if now is None:
            rest.append(was)
        else:
            left.remove(now)
            kept.append((was, now))
    return kept, rest, left


def _promise(spot: Spot) -> tuple[object, ...]:
    """Return what must stay for a visit to be kept; in which order its jobs are done need not."""
    jobs = sorted(spot.actions, key=lambda one: (one.job, one.round))
    return spot.yard, spot.day, spot.truck, jobs


def _moves(old: list[Spot], new: list[Spot]) -> Iterator[Shifted]:
    """Pair what is left of each yard: visits that stay with a job in common, then like ones.

    The rest is gone or new.
    """
    gone, left = list(old), list(new)
    for fits in (_stays, _alike):
        for was in tuple(gone):
            now = max(
                (one for one in left if fits(was, one)),
                key=lambda one: (_alike(was, one), -abs(one.start_min - was.start_min)),
                default=None,
            )
            if now is not None:
                gone.remove(was)
                left.remove(now)
                yield Shifted(was, now)
    yield from (Shifted(was, None) for was in gone)
    yield from (Shifted(None, one) for one in left)


def _stays(was: Spot, now: Spot) -> bool:
    """Tell whether a yard is visited on the same day and truck, for a job in common at least.

    Rounds of feed are one job.
    """
    jobs, others = ({one.job for one in spot.actions} for spot in (was, now))
    return was.yard == now.yard and Shifted(was, now).stays and bool(jobs & others)


def _alike(was: Spot, now: Spot) -> int:
    """Return how many jobs two visits of one yard share; 0 for visits of two yards."""
    if was.yard != now.yard:
        return 0
    mine, theirs = ({(one.job, one.round) for one in spot.actions} for spot in (was, now))
    return len(mine & theirs)


def _trips(before: Plan, after: Plan) -> dict[str, tuple[str, ...]]:
    now = after.now_min
    old, new = _by_id(before, now), _by_id(after, now)
    both = [key for key in new if key in old]
    ahead = {trip.id for shift in _to_come(after, now) for trip in shift.trips}
    return {
        "driven": tuple(
            trip.id for shift in after.shifts for trip in shift.trips if trip.id not in ahead
        ),
        "untouched": tuple(key for key in both if old[key] == new[key]),
        "changed": tuple(key for key in both if old[key] != new[key]),
        "called_off": tuple(key for key in old if key not in new),
        "fresh": tuple(key for key in new if key not in old),
    }


def _by_id(plan: Plan, now_min: int) -> dict[str, tuple[object, ...]]:
    """Return all that a driver is told of each trip to come, by its id."""
    return {
        trip.id: (shift.crew, shift.trailer, _leaves(shift, trip), shift.breaks, trip)
        for shift in _to_come(plan, now_min)
        for trip in shift.trips
    }


def _leaves(shift: Shift, trip: Trip) -> int:
    first: Call = trip.calls[0]
    return shift.start_min if trip is shift.trips[0] else first.arrive_min
