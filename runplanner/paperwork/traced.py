"""What a yard had contact with: visits, boxes, kit, and other yards before and after.

A plan knows trucks, people, boards, feeders, boxes and containers; it does not know of drift,
robbing, swarms or what is moved by hand, so the list is where to look first, not all there is.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Job
from runplanner.outfit.yards import Yard
from runplanner.paperwork.escape import shown
from runplanner.paperwork.events import Stop, stops
from runplanner.paperwork.honey import Lot, lots, starts
from runplanner.paperwork.say import (
    count,
    crew_words,
    litres,
    moment,
    person_name,
    vehicle_name,
    yard_name,
    yard_named,
)
from runplanner.paperwork.tongue import mark, tr
from runplanner.paperwork.undone_list import job_name
from runplanner.paperwork.yard_words import HEALTH

SAME_TRIP, SAME_DAY = mark("same trip"), mark("same truck that day")


@dataclass(frozen=True, slots=True)
class Visited:
    """One visit of the yard: when, on which trip, by whom, what was done and what rode along."""

    when: str
    trip: str
    vehicles: str
    crew: str
    work: str
    kit: str
    driven: bool


@dataclass(frozen=True, slots=True)
class Boxes:
    """One lot of the yard's boxes: where they went."""

    lot: str
    boxes: int
    truck: str
    came_in: str
    spun: str
    together: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Contact:
    """Another yard, the visit of it nearest in time, and what links the two."""

    yard: str
    when: str
    ways: tuple[str, ...]
    driven: bool


@dataclass(frozen=True, slots=True)
class Trace:
    """The sheet of one yard; ``before`` and ``after`` are nearest first."""

    title: str
    yard: str
    health: str
    now: str
    visits: tuple[Visited, ...]
    boxes: tuple[Boxes, ...]
    before: tuple[Contact, ...]
    after: tuple[Contact, ...]


def trace(plan: Plan, yard: Yard) -> Trace:
    """Return what ``yard`` had or is to have contact with under ``plan``."""
    every = stops(plan)
    mine = [stop for stop in every if stop.call.yard == yard.id]
    others = [stop for stop in every if stop.call.yard != yard.id]
    return Trace(
        title=shown(plan.outfit.title, 60),
        yard=yard_name(yard),
        health=tr(HEALTH[yard.health]),
        now=moment(plan.outfit, plan.now_min) if plan.now_min > 0 else "",
        visits=tuple(_visited(plan, stop) for stop in mine),
        boxes=tuple(_boxes(plan, lot) for lot in lots(plan) if lot.yard == yard.id),
        before=_contacts(plan, mine, others, later=False),
        after=_contacts(plan, mine, others, later=True),
    )


def _visited(plan: Plan, stop: Stop) -> Visited:
    outfit, shift = plan.outfit, stop.shift
    trailer = f" + {vehicle_name(outfit, shift.trailer)}" if shift.trailer else ""
    work = [f"{job_name(one.job)} {one.colonies}" for one in stop.call.actions]
    return Visited(
        when=moment(outfit, stop.call.start_min),
        trip=shown(stop.trip.id, 80),
        vehicles=vehicle_name(outfit, shift.truck) + trailer,
        crew=crew_words(outfit, shift.crew),
        work=", ".join(work) or tr("nothing"),
        kit=", ".join(_kit(plan, stop)),
        driven=stop.trip.driven,
    )


def _kit(plan: Plan, stop: Stop) -> Iterator[str]:
    """Yield what was left in the yard, what was taken, and what stood on the truck."""
    for action in stop.call.actions:
        if action.job is Job.BOARDS:
            yield tr("{what} put on", what=count(action.pieces, "board", "boards"))
        if action.boards_off:
            yield tr("{what} taken back", what=count(action.boards_off, "board", "boards"))
        if action.boxes:
            yield tr("{what} taken", what=count(action.boxes, "box", "boxes"))
        if action.brood_boxes:
            yield tr("{what} taken", what=count(action.brood_boxes, "brood box", "brood boxes"))
        if action.feeders:
            yield tr("{what} left", what=count(action.feeders, "feeder", "feeders"))
        if action.feeders_off:
            what = count(action.feeders_off, "feeder", "feeders")
            yield tr("{what} taken back", what=what)
        if action.ml:
            yield tr("{litres} of syrup", litres=litres(action.ml))
    names = {kind.id: kind.name for kind in plan.outfit.containers}
    for carried in stop.trip.containers:
        name = shown(names[carried.container], 40)
        yield tr("{number} \u00d7 {container} aboard", number=carried.count, container=name)


def _boxes(plan: Plan, lot: Lot) -> Boxes:
    outfit = plan.outfit
    spun = [moment(outfit, at) for at in (*lot.starts[:1], *lot.starts[-1:])]
    return Boxes(
        lot=lot.code,
        boxes=lot.boxes,
        truck=vehicle_name(outfit, lot.truck),
        came_in=moment(outfit, lot.here_min),
        spun=_from_to(spun),
        together=tuple(yard_named(outfit, one) for one in _spun_with(plan, lot)),
    )


def _from_to(times: Sequence[str]) -> str:
    """Return the first and last time a lot is spun."""
    if not times:
        return tr("not spun")
    start, end = times
    return tr("{start} to {end}", start=start, end=end) if start != end else start


def _spun_with(plan: Plan, lot: Lot) -> tuple[str, ...]:
    """Return the yards whose boxes are spun in the same stretches: wet boxes may mix."""
    stretches = [one for one in plan.spinning if set(starts(one)) & set(lot.starts)]
    found = [
        other.yard
        for other in lots(plan)
        if other.yard != lot.yard
        and any(one.start_min <= at < one.end_min for one in stretches for at in other.starts)
    ]
    return tuple(dict.fromkeys(found))


def _contacts(
    plan: Plan, mine: Sequence[Stop], others: Sequence[Stop], *, later: bool
) -> tuple[Contact, ...]:
    """Return other yards linked to a visit of this one, before or after it, nearest first."""
    found: dict[str, tuple[int, Stop, list[str]]] = {}
    for stop in others:
        for own in mine:
            first, then = (own, stop) if later else (stop, own)
            gap = then.call.start_min - first.call.end_min
            ways = _ways(plan, first, then) if gap >= 0 else []
            if not ways:
                continue
            least, nearest, known = found.get(stop.call.yard, (gap, stop, []))
            nearest = stop if gap < least else nearest
            both = [*known, *(way for way in ways if way not in known)]
            found[stop.call.yard] = (min(gap, least), nearest, both)
    ranked = sorted(found.values(), key=lambda one: (one[0], one[1].call.yard))
    return tuple(_contact(plan, stop, ways) for _, stop, ways in ranked)


def _contact(plan: Plan, stop: Stop, ways: list[str]) -> Contact:
    rank = {SAME_TRIP: 0, SAME_DAY: 1}
    ordered = sorted(ways, key=lambda way: (rank.get(way, 2), way))
    return Contact(
        yard=yard_named(plan.outfit, stop.call.yard),
        when=moment(plan.outfit, stop.call.start_min),
        ways=tuple(tr(way) if way in rank else way for way in ordered),
        driven=stop.trip.driven,
    )


def _ways(plan: Plan, first: Stop, then: Stop) -> list[str]:
    """Return what came from the visit ``first`` to the visit ``then``."""
    found = []
    same_truck = first.shift.truck == then.shift.truck
    if first.trip is then.trip:
        found.append(SAME_TRIP)
    elif same_truck and first.shift.day == then.shift.day:
        found.append(SAME_DAY)
    elif same_truck:
        found.append(vehicle_name(plan.outfit, first.shift.truck))
    if first.shift.trailer and first.shift.trailer == then.shift.trailer:
        found.append(vehicle_name(plan.outfit, first.shift.trailer))
    found += [person_name(plan.outfit, who) for who in first.shift.crew if who in then.shift.crew]
    boards_back = any(action.boards_off for action in first.call.actions)
    if boards_back and any(action.job is Job.BOARDS for action in then.call.actions):
        found.append(tr("boards"))
    feeders_back = any(action.feeders_off for action in first.call.actions)
    if feeders_back and any(action.feeders for action in then.call.actions):
        found.append(tr("feeders"))
    return found
