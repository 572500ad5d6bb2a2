"""Reads a plan back into the search: days that are facts, and days that were promised."""

from collections.abc import Iterable, Mapping
from functools import partial

from runplanner.daybook.plan import Plan
from runplanner.daybook.riding import unused
from runplanner.daybook.trip import Aboard, Action, Call, CallKind, Job, Shift, Trip
from runplanner.days import DAY_MIN
from runplanner.haulage.day_clock import Times
from runplanner.season.standing.base_work import BaseWork, Mix
from runplanner.season.standing.floor import Spin
from runplanner.season.standing.sizes import Sizes
from runplanner.season.standing.state import Standing
from runplanner.trips.clock import Run
from runplanner.trips.day import Day, Key, with_stop
from runplanner.trips.ground import Ground, Written
from runplanner.trips.judge import Judge
from runplanner.trips.judged import NOTHING_RIDES, Judged, Riding, milli_cents
from runplanner.trips.pack import Leg, Packed
from runplanner.trips.ride import BOTH, HONEY, HONEY_KINDS, LOAD, STORE
from runplanner.visits.stop import Stop, Visit


def standing_of(
    plan: Plan, ground: Ground, move_cents: int, shift_cents: int = 0, *, same_crews: bool = True
) -> Standing:
    """Return what of ``plan`` is fact at ``ground.now_min``, and what it promised.

    A shift is a fact once it has left home; later shifts are promises.
    """
    gone = [shift for shift in plan.shifts if shift.start_min <= ground.now_min and shift.trips]
    people = [person.id for person in ground.outfit.people]
    trucks = [truck.id for truck in ground.outfit.trucks]
    driven, crews = {}, {}
    for shift in gone:
        key = (shift.day, _truck(ground, shift))
        driven[key] = _fact(ground, shift)
        crews[key] = tuple(people.index(who) for who in shift.crew)
    days = promised_days(plan, ground)
    out = {(shift.day, shift.truck): shift.crew for shift in plan.shifts if same_crews}
    shifts = {
        key: (day, tuple(people.index(who) for who in out.get((key[0], trucks[key[1]]), ())))
        for key, day in days.items()
    }
    return Standing(
        driven, crews, _base(plan, ground), _by_yard(ground, days), move_cents, shifts, shift_cents,
        _spins(plan, ground, begun=False),
    )  # fmt: skip


def _by_yard(ground: Ground, days: Mapping[Key, Day]) -> tuple[Mapping[Key, tuple[Stop, ...]], ...]:
    """Return the visits promised to every yard."""
    promised: list[dict[Key, tuple[Stop, ...]]] = [{} for _ in ground.outfit.yards]
    for key in sorted(days):
        for stop in (stop for trip in days[key].trips for stop in trip):
            mine = promised[stop.yard]
            mine[key] = (*mine.get(key, ()), stop._replace(from_min=0))
    return tuple(promised)


def promised_days(plan: Plan, ground: Ground) -> Mapping[Key, Day]:
    """Return the days of ``plan`` that are still to come, where their truck still exists.

    Where a feed had to wait on its day until the last was taken down, it waits again, and where
    the time of day is paid for, a feed in the evening stays in the evening.  What could as well
    begin earlier than it was planned keeps its hour, and further blocks come no later than planned.
    A visit is as large as its yard now is.
    """
    found = {}
    judge, sized = Judge(ground), _sized(plan, ground)
    waits = partial(_waiting, ground, _taken_down(plan, ground))
    for shift, stops in zip(plan.shifts, sized, strict=True):
        hauler = _hauler(ground, shift) if shift.start_min > ground.now_min else None
        if hauler is not None and stops:
            trips = tuple(tuple(waits(stop, call.start_min) for call, stop in t) for t in stops)
            calls = [[call for call, _ in trip] for trip in stops]
            day = _as_late(judge, Day(shift.day, hauler, trips), calls)
            found[shift.day, ground.truck_index[hauler]] = day
    return found


def written_trips(plan: Plan, ground: Ground) -> Written:
    """Return where trips to come, that bring honey and kit home, go with the kit."""
    outfit = ground.outfit
    yards = {yard.id: index for index, yard in enumerate(outfit.yards)}
    trucks = {truck.id: index for index, truck in enumerate(outfit.trucks)}
    store = outfit.feed_store.place
    if store == outfit.honey_house.base.place:
        return {}
    return {
        (shift.day, trucks[shift.truck], tuple(yards.get(c.yard, -1) for c in trip.yards())):
            any(call.kind is CallKind.UNLOAD and call.place == store for call in trip.calls)
        for shift in plan.shifts if shift.start_min > ground.now_min and shift.truck in trucks
        for trip in shift.trips if _brings_kit_and_honey(trip)
    }  # fmt: skip


def _brings_kit_and_honey(trip: Trip) -> bool:
    jobs = [action for call in trip.yards() for action in call.actions]
    kit = any(one.boards_off or one.feeders_off for one in jobs)
    return kit and any(one.boxes for one in jobs)


def _sized(plan: Plan, ground: Ground) -> list[list[list[tuple[Call, Stop]]]]:
    """Return every shift's trips as calls with what is there to do at them; idle ones are left out.

    What has been driven stays as it is.
    """
    sizes, found = Sizes(ground), dict[tuple[int, int, int], Stop]()
    ids = {yard.id: index for index, yard in enumerate(ground.outfit.yards)}
    calls = [_yard_calls(ground, shift) for shift in plan.shifts]
    order = sorted(
        (call.start_min, (number, index, at))
        for number, trips in enumerate(calls)
        for index, trip in enumerate(trips)
        for at, call in enumerate(trip)
    )
    for _, (number, index, at) in order:
        call = calls[number][index][at]
        stop = _stop(ids[call.yard], call.actions)
        if plan.shifts[number].start_min > ground.now_min:
            stop = sizes.promised(stop)
        else:
            sizes.driven(stop)
        found[number, index, at] = stop
    kept = [
        [
            [(call, found[number, index, at]) for at, call in enumerate(trip)
             if not found[number, index, at].idle]
            for index, trip in enumerate(trips)
        ]
        for number, trips in enumerate(calls)
    ]  # fmt: skip
    return [[trip for trip in trips if trip] for trips in kept]


def _as_late(judge: Judge, day: Day, promised: list[list[Call]]) -> Day:
    """Return a day no earlier at its yards than it was planned to be, and blocks no later.

    Once a stop takes longer or shorter than was planned, those after it come as they may.
    """
    for trip, calls in enumerate(promised):
        for at, call in enumerate(calls):
            judged = judge(day)
            visit = judged and judged.visits[sum(map(len, promised[:trip])) + at]
            if not visit:
                return day
            if visit.start_min < call.start_min:
                day = with_stop(day, trip, at, visit.stop._replace(from_min=call.start_min))
            elif visit.start_min > call.start_min and visit.stop.further:
                soon = with_stop(day, trip, at, visit.stop._replace(to_min=call.end_min))
                day = soon if judge(soon) else day
            if visit.end_min - visit.start_min != call.end_min - call.start_min:
                return day
    return day


def _taken_down(plan: Plan, ground: Ground) -> Mapping[tuple[int, int], list[int]]:
    """Return when every feed is taken down, by yard and round."""
    ids = {yard.id: index for index, yard in enumerate(ground.outfit.yards)}
    found: dict[tuple[int, int], list[int]] = {}
    calls = (c for s in plan.shifts for t in s.trips for c in t.yards() if c.yard in ids)
    for call in calls:
        yard = ids[call.yard]
        for action in call.actions:
            if action.job is Job.FEED:
                down_min = call.start_min + ground.dues[yard].round_gap_min
                found.setdefault((yard, action.round), []).append(down_min)
    return found


def _waiting(
    ground: Ground, down: Mapping[tuple[int, int], list[int]], stop: Stop, start_min: int
) -> Stop:
    """Return a feed that waits, until it began at most: for the last one, and for the evening."""
    outfit, midnight = ground.outfit, start_min // DAY_MIN * DAY_MIN
    waits = [at for at in down.get((stop.yard, stop.round - 1), ()) if at <= start_min]
    late_min = midnight + outfit.rules.feed_late_from_min
    if stop.fed and outfit.prices.feed_early_cents and late_min <= start_min:
        waits.append(late_min)
    if not (stop.round and waits):
        return stop
    return stop._replace(from_min=max(waits)).on(start_min // DAY_MIN)


def _truck(ground: Ground, shift: Shift) -> int:
    return [truck.id for truck in ground.outfit.trucks].index(shift.truck)


def _hauler(ground: Ground, shift: Shift) -> int | None:
    """Return the way of going out that a shift used, or None where it is no more."""
    for index, hauler in enumerate(ground.haulers):
        trailer = hauler.trailer.id if hauler.trailer else ""
        if (hauler.truck.id, trailer, hauler.crew) == (shift.truck, shift.trailer, len(shift.crew)):
            return index
    return None


def _day(ground: Ground, shift: Shift, hauler: int) -> Day:
    ids = {yard.id: index for index, yard in enumerate(ground.outfit.yards)}
    trips = tuple(
        tuple(_stop(ids[call.yard], call.actions) for call in calls)
        for calls in _yard_calls(ground, shift)
    )
    return Day(shift.day, hauler, trips)


def _yard_calls(ground: Ground, shift: Shift) -> list[list[Call]]:
    """Return the calls at yards that still exist, by trip; trips without any are left out."""
    known = {yard.id for yard in ground.outfit.yards}
    calls = ([call for call in trip.yards() if call.yard in known] for trip in shift.trips)
    return [mine for mine in calls if mine]


def _stop(yard: int, actions: Iterable[Action]) -> Stop:
    stop = Stop(yard)
    for action in actions:
        if action.job is Job.BOARDS:
            stop = stop._replace(boards=action.colonies)
        elif action.job is Job.TAKE_OFF:
            stop = stop._replace(
                off=action.colonies,
                boxes=action.boxes,
                brood=action.brood_boxes,
                other=action.way is not None,
                over=max(0, action.boards_off - action.colonies),
            )
        elif action.job is Job.BLOCK:
            further = 1 if stop.off else action.pieces // max(1, action.colonies)
            stop = stop._replace(blocks=action.pieces, each=max(1, further))
        elif action.job is Job.FEED:
            again = action.feeders if action.round > 1 else 0
            stop = stop._replace(round=action.round, fed=action.colonies, feeders=again)
        elif action.job is Job.STRIPS:
            stop = stop._replace(strips=True)
        elif action.job is Job.FEEDERS:
            stop = stop._replace(feeders_off=action.feeders_off)
        elif action.job is Job.WET_UP:
            stop = stop._replace(wet_up=action.wet)
        elif action.job is Job.WET_DOWN:
            stop = stop._replace(wet_down=action.wet)
    return stop


def _fact(ground: Ground, shift: Shift) -> Judged:
    """Return a shift as it was driven, judged by nobody."""
    hauler = _hauler(ground, shift)
    hauler = hauler if hauler is not None else ground.siblings[_truck(ground, shift)][0]
    day = _day(ground, shift, hauler)
    calls = [(index, call) for index, trip in enumerate(shift.trips) for call in trip.calls]
    times = tuple(Times(c.arrive_min, c.start_min, c.end_min, c.leave_min, 0) for _, c in calls)
    run = Run(shift.start_min, shift.end_min, times, shift.breaks, shift.driving_min)
    marks, visits, boxes_in = [], [], []
    seen = [0] * len(shift.trips)
    last: Call | None = None
    for index, call in calls:
        kind = _kind(ground, call, seen[index])
        marks.append((index, kind, call.place))
        if kind >= 0:
            stop = day.trips[index][kind]
            visits.append(
                Visit(
                    call.start_min,
                    call.end_min,
                    call.leave_min,
                    stop,
                    shift.day,
                    ground.truck_index[hauler],
                    fact=True,
                    goes_on=last is not None and call.goes_on(last),
                )
            )
            seen[index] += 1
        elif kind in HONEY_KINDS and any(stop.boxes for stop in day.trips[index]):
            boxes_in.append((call.end_min, index))
        last = call
    packed = tuple(
        _packed(ground, trip.calls, {c.container: c.count for c in trip.containers})
        for trip in shift.trips
    )
    cents = milli_cents(ground, day, run, shift.metres, [one.legs[0] for one in packed])
    return Judged(
        day=day,
        run=run,
        calls=tuple(marks),
        packed=packed,
        driving_min=shift.driving_min,
        metres=shift.metres,
        milli_cents=cents,
        visits=tuple(visits),
        boxes_in=tuple(boxes_in),
        load_at=tuple(trip.calls[0].start_min for trip in shift.trips),
        back_at=tuple(trip.calls[-1].end_min for trip in shift.trips),
        riding=tuple(_riding(ground, trip) for trip in shift.trips),
    )


def _riding(ground: Ground, trip: Trip) -> Riding:
    """Return what a trip has aboard for no stop, once it has loaded."""
    if trip.calls[0].start_min > ground.now_min:
        return NOTHING_RIDES
    return Riding(unused(ground.outfit, trip), trip.brought)


def _kind(ground: Ground, call: Call, seen: int) -> int:
    store, house = ground.outfit.feed_store.place, ground.outfit.honey_house.base.place
    if call.kind is CallKind.LOAD:
        return LOAD
    if call.kind is CallKind.YARD:
        return seen
    if store == house:
        return BOTH
    return HONEY if call.place == house else STORE


def _packed(ground: Ground, calls: tuple[Call, ...], tanks: Mapping[str, int]) -> Packed:
    counts = tuple(tanks.get(kind.id, 0) for kind in ground.outfit.containers)
    legs = tuple(_leg(call.after) for call in calls if call.kind is not CallKind.UNLOAD)
    return Packed(counts, legs, calls[0].after.places_max)


def _leg(after: Aboard) -> Leg:
    return Leg(
        after.boxes, after.brood_boxes, after.ml, after.blocks, after.boards, after.strips,
        after.feeders, after.load_g, after.places, after.wet,
    )  # fmt: skip


def _base(plan: Plan, ground: Ground) -> BaseWork:
    """Return the mixing and spinning that had begun by now."""
    people = {person.id: index for index, person in enumerate(ground.outfit.people)}
    mixing = tuple(
        Mix(m.start_min, m.end_min, people[m.person], m.ml)
        for m in plan.mixing
        if m.start_min <= ground.now_min and ground.now_min > 0
    )
    return BaseWork(mixing, _spins(plan, ground, begun=True), 0)


def _spins(plan: Plan, ground: Ground, *, begun: bool) -> tuple[Spin, ...]:
    """Return the spinning that had begun by now, or what was promised for later."""
    people = {person.id: index for index, person in enumerate(ground.outfit.people)}
    return tuple(
        Spin(s.start_min, s.end_min, tuple(people[who] for who in s.people), s.boxes)
        for s in plan.spinning
        if begun is (s.start_min <= ground.now_min and ground.now_min > 0)
    )
