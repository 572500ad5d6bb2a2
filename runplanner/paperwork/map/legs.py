"""Every drive of the plan as a line on the sheet: from where, to where, how heavy."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Aboard, Call, CallKind, Shift, Trip
from runplanner.days import clock
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.map.words import aboard, kg, named
from runplanner.paperwork.speech.say import count, date_words, kg_down
from runplanner.paperwork.speech.tongue import tr
from runplanner.paperwork.stop.one_stop import shift_as_driven


@dataclass(frozen=True, slots=True)
class Leg:
    """One drive from place to place, by index into the outfit's places.

    Args:
        day: Day number.
        truck: Index of the truck in the outfit.
        trip: Number of the trip within the shift, 1 first.
        stop: Number of the yard stop it leads to; 0 when it leads to a base.
        start: Place it leaves.
        end: Place it reaches.
        load_g: Load aboard; 0 where kit short makes it less.
        lane: How many drives of the plan before it went the same way.
        driven: The drive is over at the plan's *now*.
        heading: "Truck, trip 1, Tue 2 Mar".
        words: Sentences about the drive.
    """

    day: int
    truck: int
    trip: int
    stop: int
    start: int
    end: int
    load_g: int
    lane: int
    driven: bool
    heading: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _End:
    """One end of a drive: a call, or home at the start and end of a shift."""

    place: int
    name: str
    minute: int


def legs(plan: Plan) -> tuple[Leg, ...]:
    """Return every drive that leads to another place, in the plan's order."""
    drawn: list[Leg] = []
    lanes: Counter[tuple[int, int]] = Counter()
    for shift in plan.shifts:
        for leg in _shift_legs(plan, shift_as_driven(plan.outfit, shift), lanes):
            lanes[leg.start, leg.end] += 1
            drawn.append(leg)
    return tuple(drawn)


def _shift_legs(plan: Plan, shift: Shift, lanes: Counter[tuple[int, int]]) -> Iterator[Leg]:
    outfit, home = plan.outfit, plan.outfit.home.place
    here = _End(home, outfit.places[home].name, shift.start_min)
    load: Aboard | None = None
    last = None
    for number, trip in enumerate(shift.trips, start=1):
        stop = 0
        for call in trip.calls:
            stop += call.kind is CallKind.YARD
            at = stop if call.kind is CallKind.YARD else 0
            there = _End(call.place, call_name(outfit, call), call.arrive_min)
            if here.place != there.place:
                yield _leg(plan, shift, (number, trip, at), (here, there, load), lanes)
            here = _End(there.place, there.name, call.leave_min)
            load = call.after
            last = (number, trip, 0)
    if last is not None and here.place != home:
        there = _End(home, outfit.places[home].name, shift.end_min)
        yield _leg(plan, shift, last, (here, there, load), lanes)


def _leg(
    plan: Plan,
    shift: Shift,
    which: tuple[int, Trip, int],
    drive: tuple[_End, _End, Aboard | None],
    lanes: Counter[tuple[int, int]],
) -> Leg:
    outfit, (number, trip, stop) = plan.outfit, which
    here, there, load = drive
    return Leg(
        day=shift.day,
        truck=[truck.id for truck in outfit.trucks].index(shift.truck),
        trip=number,
        stop=stop,
        start=here.place,
        end=there.place,
        load_g=max(0, load.load_g) if load else 0,
        lane=lanes[here.place, there.place],
        driven=trip.driven and there.minute <= plan.now_min,
        heading=_heading(outfit, shift, number),
        words=_words(here, there, stop, load),
    )


def call_name(outfit: Outfit, call: Call) -> str:
    """Return the name of the yard or base a truck calls at."""
    if call.kind is CallKind.YARD:
        return outfit.yard(call.yard).name
    return outfit.places[call.place].name


def _heading(outfit: Outfit, shift: Shift, number: int) -> str:
    truck, trailer = outfit.truck(shift.truck).name, outfit.trailer(shift.trailer)
    pulled = named(truck)
    if trailer:
        pulled = tr("{truck} with {trailer}", truck=named(truck), trailer=named(trailer.name))
    which = tr("trip {trip}", trip=number)
    return f"{pulled}, {date_words(outfit, shift.day)}, {which}"


def _words(here: _End, there: _End, stop: int, load: Aboard | None) -> tuple[str, ...]:
    ends = tr(
        "{start} to {end}",
        start=f"{named(here.name)} {clock(here.minute)}",
        end=f"{named(there.name)} {clock(there.minute)}",
    )
    if stop:
        ends = ", ".join((ends, tr("stop {number}", number=stop)))
    if load is None:
        return (f"{ends}.", tr("Nothing aboard yet."))
    deck = tr("{taken} of {all} deck places taken.", taken=load.places, all=load.places_max)
    weight = tr(
        "{mass} aboard of {most} allowed: {goods}.",
        mass=kg(load.load_g), most=kg_limit(load), goods=aboard(load),
    )  # fmt: skip
    return (f"{ends}.", weight, deck)


def kg_limit(load: Aboard) -> str:
    """Return the limit on the load in kilograms, rounded down as limits are."""
    return f"{kg_down(load.load_max_g)} kg"


def trips_on(plan: Plan, day: int) -> str:
    """Return how many trips leave on ``day``: "2 trips"."""
    return count(
        sum(len(shift.trips) for shift in plan.shifts if shift.day == day), "trip", "trips"
    )
