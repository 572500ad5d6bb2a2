"""What a yard had contact with: visits, boxes, kit, and other yards before and after.

A plan knows trucks, people, boards, feeders, boxes and containers; it does not know of drift,
robbing, swarms or what is moved by hand, so the list is where to look first, not all there is.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from runplanner.daybook.plan import Plan
from runplanner.daybook.stops import Stop, stops
from runplanner.daybook.trip import Aboard, Action, Call, CallKind, Job, Shift, Trip
from runplanner.days import DAY_MIN, day_of
from runplanner.outfit.yards import Yard
from runplanner.paperwork.escape import shown, shown_name
from runplanner.paperwork.lists.undone_list import job_name
from runplanner.paperwork.speech.own_words import in_own_words
from runplanner.paperwork.speech.say import (
    count,
    crew_words,
    date_words,
    litres,
    moment,
    person_name,
    vehicle_name,
    yard_name,
    yard_named,
)
from runplanner.paperwork.speech.tongue import mark, tr
from runplanner.paperwork.stop.health import state_words
from runplanner.paperwork.stop.honey import Lot, all_starts, lots

SAME_TRIP, SAME_DAY = mark("same trip"), mark("same truck that day")
PUT_ON, LEFT = mark("{what} put on"), mark("{what} left")
TAKEN, TAKEN_BACK = mark("{what} taken"), mark("{what} taken back")


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
    """One lot of the yard's boxes: where they went, and whose are spun before and after them."""

    lot: str
    boxes: int
    truck: str
    came_in: str
    spun: str
    before: tuple[str, ...]
    after: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Contact:
    """A visit of another yard, whether it is driven, and what links it to this one."""

    yard: str
    when: str
    ways: tuple[str, ...]
    state: str


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
    plan = in_own_words(plan)
    every = sorted((*stops(plan), *_carried(plan)), key=lambda one: one.call.start_min)
    mine = [stop for stop in every if stop.call.yard == yard.id]
    others = [stop for stop in every if stop.call.yard != yard.id]
    return Trace(
        title=shown(plan.outfit.title, 60),
        yard=yard_name(yard),
        health=state_words(yard),
        now=moment(plan.outfit, plan.now_min) if plan.now_min > 0 else "",
        visits=tuple(_visited(plan, stop) for stop in mine),
        boxes=tuple(_boxes(plan, lot) for lot in lots(plan) if lot.yard == yard.id),
        before=_contacts(plan, mine, others, later=False),
        after=_contacts(plan, mine, others, later=True),
    )


def _carried(plan: Plan) -> Iterator[Stop]:
    """Yield each night in which hives were carried to another site, as a stop of that truck.

    It stands at midnight, on a trip without an id, and has no truck where none was named.
    """
    nothing = Aboard(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0)
    for yard in plan.outfit.yards:
        trucks = dict(yard.carried_by)
        for day, place in yard.sites[1:]:
            at = day * DAY_MIN
            call = Call(CallKind.YARD, place, yard.id, at, at, at, at, at, 0, (), nothing)
            trip = Trip("", (call,), (), driven=True)
            shift = Shift(day, trucks.get(day, ""), "", (), at, at, 0, 0, (), (trip,))
            yield Stop(shift, trip, call)


def _when(plan: Plan, stop: Stop) -> str:
    """Return when a stop begins, or the night in which hives were carried."""
    if stop.trip.id:
        return moment(plan.outfit, stop.call.start_min)
    return tr("night before {date}", date=date_words(plan.outfit, stop.shift.day))


def _visited(plan: Plan, stop: Stop) -> Visited:
    outfit, shift = plan.outfit, stop.shift
    if not stop.trip.id:
        truck = vehicle_name(outfit, shift.truck) or tr("truck not known: ask")
        return Visited(
            _when(plan, stop), "", truck, tr("people not known"), tr("hives carried to a new site"),
            "", _begun(plan, stop),
        )  # fmt: skip
    trailer = f" + {vehicle_name(outfit, shift.trailer)}" if shift.trailer else ""
    work = [f"{job_name(one.job)} {one.colonies}" for one in stop.call.actions]
    return Visited(
        when=_when(plan, stop),
        trip=shown(stop.trip.id, 80),
        vehicles=vehicle_name(outfit, shift.truck) + trailer,
        crew=crew_words(outfit, shift.crew),
        work=", ".join(work) or tr("nothing"),
        kit=", ".join(_kit(plan, stop)),
        driven=_begun(plan, stop),
    )


def _kit(plan: Plan, stop: Stop) -> Iterator[str]:
    """Yield what was left in the yard, what was taken, and what stood on the truck."""
    for action in stop.call.actions:
        yield from (tr(done, what=what) for number, done, what in _things(action) if number)
        if action.ml:
            yield tr("{litres} of syrup", litres=litres(action.ml))
    names = {kind.id: kind.name for kind in plan.outfit.containers}
    for carried in stop.trip.containers:
        name = shown_name(names[carried.container], 40)
        yield tr("{number} \u00d7 {container} aboard", number=carried.count, container=name)


def _things(action: Action) -> Iterator[tuple[int, str, str]]:
    """Yield how many things of each kind, whether put there or taken, and their words."""
    boards = action.pieces if action.job is Job.BOARDS else 0
    yield boards, PUT_ON, count(boards, "board", "boards")
    yield action.boards_off, TAKEN_BACK, count(action.boards_off, "board", "boards")
    yield action.boxes, TAKEN, count(action.boxes, "box", "boxes")
    yield action.brood_boxes, TAKEN, count(action.brood_boxes, "brood box", "brood boxes")
    wet = PUT_ON if action.job is Job.WET_UP else TAKEN
    yield action.wet, wet, count(action.wet, "wet box", "wet boxes")
    yield action.feeders, LEFT, count(action.feeders, "feeder", "feeders")
    yield action.feeders_off, TAKEN_BACK, count(action.feeders_off, "feeder", "feeders")


def _boxes(plan: Plan, lot: Lot) -> Boxes:
    outfit = plan.outfit
    return Boxes(
        lot=lot.code,
        boxes=lot.boxes,
        truck=vehicle_name(outfit, lot.truck),
        came_in=moment(outfit, lot.here_min),
        spun="; ".join(_spun(plan, lot)),
        before=_beside(plan, lot, later=False),
        after=_beside(plan, lot, later=True),
    )


def _spun(plan: Plan, lot: Lot) -> Iterator[str]:
    """Yield how many boxes of a lot have been spun, are to be, and are held, each with when."""
    done = lot.spun_by(plan.now_min)
    to_come = tuple(at for at in lot.starts if at >= plan.now_min)
    if done:
        boxes = count(len(done), "box", "boxes")
        yield tr("{boxes} spun {when}", boxes=boxes, when=_from_to(plan, done))
    if lot.held:
        yield tr("{boxes} held, not to be spun", boxes=count(lot.held, "box", "boxes"))
    elif to_come:
        boxes = count(len(to_come), "box", "boxes")
        yield tr("{boxes} to be spun {when}", boxes=boxes, when=_from_to(plan, to_come))
    if not lot.held and len(lot.starts) < lot.boxes:
        boxes = count(lot.boxes - len(lot.starts), "box", "boxes")
        yield tr("{boxes} not spun", boxes=boxes)


def _from_to(plan: Plan, times: Sequence[int]) -> str:
    """Return the first and last time at which boxes go into the extractor."""
    start, end = (moment(plan.outfit, at) for at in (times[0], times[-1]))
    return tr("{start} to {end}", start=start, end=end) if start != end else start


def _beside(plan: Plan, lot: Lot, *, later: bool) -> tuple[str, ...]:
    """Return whose boxes are spun after (else before) a lot's, each with when, nearest first.

    Nothing says that an extractor is washed while there is more to spin, so it is all boxes of
    the days on which the lot is spun, whatever the breaks between; and those next to it on
    another day, for whoever did not wash in the evening.
    """
    mine = lot.starts
    if not mine:
        return ()
    turns = sorted(_turns(plan, lot), key=lambda turn: turn[0], reverse=not later)
    beyond = [turn for turn in turns if (turn[0] >= mine[0] if later else turn[0] <= mine[-1])]
    days = {day_of(at) for at in mine}
    names: dict[str, str] = {}
    for at, name in beyond:
        when = moment(plan.outfit, at)
        if day_of(at) in days:
            names.setdefault(name, tr("{yard} ({when})", yard=name, when=when))
        else:
            said = tr("{yard} ({when}, if not washed in between)", yard=name, when=when)
            names.setdefault(name, said)
            break
    return tuple(names.values())


def _turns(plan: Plan, lot: Lot) -> Iterator[tuple[int, str]]:
    """Yield when boxes of others go into the extractor, and whose they are."""
    waited = plan.outfit.honey_house.waiting_boxes
    for at in all_starts(plan)[:waited]:
        yield at, tr("boxes that waited there")
    for other in lots(plan):
        if other.yard != lot.yard:
            for at in other.starts:
                yield at, yard_named(plan.outfit, other.yard)


def _begun(plan: Plan, stop: Stop) -> bool:
    """Tell whether the truck has begun this stop; the rest of its day may still be to come."""
    return stop.trip.driven and stop.call.start_min <= plan.now_min


@dataclass(frozen=True, slots=True)
class _Occasion:
    """A visit of another yard linked to visits of this one, all driven or all not: ``made``."""

    gap: int
    stop: Stop
    made: bool
    ways: tuple[str, ...]

    def links(self, plan: Plan) -> set[str]:
        """Return what links the two, the truck by its name however soon it went on."""
        truck = vehicle_name(plan.outfit, self.stop.shift.truck)
        return {truck if way in {SAME_TRIP, SAME_DAY} else way for way in self.ways}


def _contacts(
    plan: Plan, mine: Sequence[Stop], others: Sequence[Stop], *, later: bool
) -> tuple[Contact, ...]:
    """Return visits of other yards linked to one of this yard, before or after it, nearest first.

    Of each yard the nearest that is driven and the nearest planned, and each further one that
    is linked by what no nearer one is: each with its own links.
    """
    found = [one for stop in others for one in _occasions(plan, mine, stop, later=later)]
    known: dict[tuple[str, bool], set[str]] = {}
    kept = []
    for one in sorted(found, key=lambda one: (one.gap, one.stop.call.yard)):
        told = known.setdefault((one.stop.call.yard, one.made), set())
        if one.links(plan) - told:
            told |= one.links(plan)
            kept.append(_contact(plan, one))
    return tuple(kept)


def _occasions(plan: Plan, mine: Sequence[Stop], stop: Stop, *, later: bool) -> Iterator[_Occasion]:
    """Yield what links a visit of another yard to those of this one: driven, then more planned."""
    known: set[str] = set()
    pairs = [(own, stop) if later else (stop, own) for own in mine]
    gaps = [(then.call.start_min - first.call.end_min, first, then) for first, then in pairs]
    for made in (True, False):
        links = [
            (gap, by)
            for gap, first, then in gaps
            if gap >= 0 and _begun(plan, then) is made and (by := _ways(plan, first, then))
        ]
        ways = tuple(dict.fromkeys(way for _, by in links for way in by))
        found = _Occasion(min((gap for gap, _ in links), default=0), stop, made, ways)
        if found.links(plan) - known:
            known = found.links(plan)
            yield found


def _contact(plan: Plan, one: _Occasion) -> Contact:
    rank = {SAME_TRIP: 0, SAME_DAY: 1}
    ordered = sorted(one.ways, key=lambda way: (rank.get(way, 2), way))
    planned = tr("driven, contact planned") if _begun(plan, one.stop) else tr("planned")
    return Contact(
        yard=yard_named(plan.outfit, one.stop.call.yard),
        when=_when(plan, one.stop),
        ways=tuple(tr(way) if way in rank else way for way in ordered),
        state=tr("driven") if one.made else planned,
    )


def _ways(plan: Plan, first: Stop, then: Stop) -> list[str]:
    """Return what came from the visit ``first`` to the visit ``then``."""
    found = []
    same_truck = first.shift.truck != "" and first.shift.truck == then.shift.truck
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
