"""The plan opened for reading: every call with its truck, its leg and its goods."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from runplanner.audit.cargo import NOTHING, Cargo, cargo_after
from runplanner.audit.findings import Breach, called_in
from runplanner.audit.slow_hours import slowed_min
from runplanner.audit.whole import ceil_div
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Call, CallKind, Job, Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from runplanner.outfit.stores import BoxKind, Container
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.outfit.yards import Yard
from runplanner.phrase import Phrase


class Leg(NamedTuple):
    """A drive; ``minutes`` or ``metres`` are None where the table knows no road.

    ``even_min`` is what it takes in the best hour, where hours differ by ``by_hour``.
    """

    start_min: int
    minutes: int | None
    metres: int | None
    even_min: int = 0
    by_hour: tuple[int, ...] = ()

    def takes(self, start_min: int) -> int:
        """Return the minutes it takes when it is begun at another minute."""
        if not self.by_hour:
            return self.minutes or 0
        return slowed_min(self.even_min, start_min, self.by_hour)

    @property
    def end_min(self) -> int:
        """Minute of arrival."""
        return self.start_min + (self.minutes or 0)


@dataclass(frozen=True, slots=True)
class Rig:
    """A truck with its trailer, if any, and the number of people in it."""

    truck: Truck
    trailer: Trailer | None
    crew: int

    def speed_permille(self) -> int:
        """Return the speed factor of the slower of the two."""
        own = self.truck.speed_permille
        return own if self.trailer is None else min(own, self.trailer.speed_permille)


@dataclass(frozen=True, slots=True)
class Stop:
    """One call with the leg that leads to it and the goods before and after it.

    ``ahead`` when it has not begun, nor been counted.  ``still_on`` when it has not begun, or has
    and is neither over, left nor counted: its driver goes by the margins printed for it.
    ``goes_on`` when it is a further call of the stop before it: its truck has not left the yard.
    """

    shift: Shift
    rig: Rig
    trip: Trip
    call: Call
    leg: Leg
    yard: Yard | None
    before: Cargo
    after: Cargo
    ahead: bool
    still_on: bool
    goes_on: bool

    def breach(self, said: Phrase, allowed: Phrase) -> Breach:
        """Return a breach at this call."""
        call = self.call
        return Breach(said, allowed, self.trip.id, call.yard, self.ahead, call.against)

    def unloads_as_counted(self) -> bool:
        """Tell whether this unloads what counts have made other than it was planned."""
        counted = any(call.planned for call in self.trip.calls)
        return self.call.kind is CallKind.UNLOAD and counted

    def did(self, job: Job) -> tuple[Action, ...]:
        """Return the entries for ``job`` at this stop."""
        return tuple(action for action in self.call.actions if action.job is job)


@dataclass(frozen=True, slots=True)
class Run:
    """One shift read through: its trips as stops, and the leg home."""

    shift: Shift
    rig: Rig
    trips: tuple[tuple[Stop, ...], ...]
    home: Leg

    def stops(self) -> tuple[Stop, ...]:
        """Return all calls of the day in order."""
        return tuple(stop for trip in self.trips for stop in trip)

    def legs(self) -> tuple[Leg, ...]:
        """Return all drives of the day in order, the one home included."""
        return (*(stop.leg for stop in self.stops()), self.home)


@dataclass(frozen=True, slots=True)
class Book:
    """The whole plan opened; ``visits`` are each yard's stops by starting time."""

    plan: Plan
    yards: Mapping[str, Yard]
    boxes: Mapping[str, BoxKind]
    containers: Mapping[str, Container]
    people: Mapping[str, Person]
    runs: tuple[Run, ...]
    visits: Mapping[str, tuple[Stop, ...]]

    @property
    def outfit(self) -> Outfit:
        """The facts the plan was made from."""
        return self.plan.outfit

    def person(self, person_id: str) -> str:
        """Return what people call a person."""
        return called_in(self.outfit.people, person_id)

    def vehicle(self, vehicle_id: str) -> str:
        """Return what people call a truck or a trailer."""
        return called_in((*self.outfit.trucks, *self.outfit.trailers), vehicle_id)

    def stops(self) -> Iterator[Stop]:
        """Go through every call of the plan."""
        for run in self.runs:
            yield from run.stops()

    def trips(self) -> Iterator[tuple[Stop, ...]]:
        """Go through every trip of the plan."""
        for run in self.runs:
            yield from run.trips

    def yard_stops(self) -> Iterator[tuple[Yard, Stop]]:
        """Go through every visit to a yard, yard by yard."""
        for yard_id, stops in self.visits.items():
            for stop in stops:
                yield self.yards[yard_id], stop


def open_book(plan: Plan) -> Book:
    """Return ``plan`` opened; every name and place in it must exist (see ``sense``)."""
    outfit = plan.outfit
    yards = {yard.id: yard for yard in outfit.yards}
    runs = tuple(_run(plan, yards, shift) for shift in plan.shifts)
    return Book(
        plan=plan,
        yards=yards,
        boxes={box.id: box for box in outfit.boxes},
        containers={container.id: container for container in outfit.containers},
        people={person.id: person for person in outfit.people},
        runs=runs,
        visits={yard_id: _visits(runs, yard_id) for yard_id in yards},
    )


def _visits(runs: tuple[Run, ...], yard_id: str) -> tuple[Stop, ...]:
    stops = (stop for run in runs for stop in run.stops() if stop.call.yard == yard_id)
    return tuple(sorted(stops, key=lambda stop: (stop.call.start_min, stop.call.end_min)))


def to_come(plan: Plan, minute: int) -> bool:
    """Tell whether a minute is still to come; a plan made before the campaign has no past."""
    return plan.now_min <= 0 or minute > plan.now_min


def _run(plan: Plan, yards: Mapping[str, Yard], shift: Shift) -> Run:
    outfit = plan.outfit
    rig = _rig(outfit, shift)
    here, ready = outfit.home.place, shift.start_min
    trips = []
    for trip in shift.trips:
        stops: list[Stop] = []
        aboard = NOTHING
        for call, after in zip(trip.calls, cargo_after(outfit, trip), strict=True):
            leg = _leg(outfit, rig, ready, here, call.place)
            uncounted = call.counted is None
            ahead = uncounted and to_come(plan, call.start_min)
            told_over = call.turned_min or not (uncounted or to_come(plan, call.start_min))
            still_on = not told_over and to_come(plan, call.end_min)
            yard = yards.get(call.yard)
            goes_on = bool(stops) and _goes_on(call, stops[-1].call)
            stop = Stop(shift, rig, trip, call, leg, yard, aboard, after, ahead, still_on, goes_on)
            stops.append(stop)
            here, ready, aboard = call.place, call.leave_min, after
        trips.append(tuple(stops))
    return Run(shift, rig, tuple(trips), _leg(outfit, rig, ready, here, outfit.home.place))


def _goes_on(call: Call, before: Call) -> bool:
    here = call.yard, call.place, call.arrive_min
    return bool(call.yard) and here == (before.yard, before.place, before.leave_min)


def _rig(outfit: Outfit, shift: Shift) -> Rig:
    truck = next(truck for truck in outfit.trucks if truck.id == shift.truck)
    trailer = next((trailer for trailer in outfit.trailers if trailer.id == shift.trailer), None)
    return Rig(truck, trailer, len(shift.crew))


def _leg(outfit: Outfit, rig: Rig, ready: int, here: int, there: int) -> Leg:
    flat = outfit.travel.minutes[here][there]
    minutes = None if flat is None else ceil_div(flat * 1000, rig.speed_permille())
    leg = Leg(ready, minutes, outfit.travel.metres[here][there])
    if minutes is None or not outfit.travel.by_hour:
        return leg
    leg = leg._replace(even_min=minutes, by_hour=outfit.travel.by_hour)
    return leg._replace(minutes=leg.takes(ready))
