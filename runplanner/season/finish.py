"""Writes a finished state down as a plan: names, times, loads, latest times and the bill."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from runplanner.daybook.plan import Bill, Bound, Mixing, Plan, Search, Spinning, Tally
from runplanner.daybook.trip import (
    Aboard,
    Action,
    Call,
    CallKind,
    Carried,
    Job,
    Shift,
    Stowed,
    Trip,
)
from runplanner.days import clock, date_of
from runplanner.haulage.stow import Stowage
from runplanner.haulage.tanks import Counts
from runplanner.outfit.outfit import Outfit
from runplanner.season.limits import boxes_limits, latest_leaves
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import Progress, State, undone_of
from runplanner.trips.day import Key
from runplanner.trips.ground import Ground
from runplanner.trips.judged import Judged
from runplanner.trips.pack import (
    Leg,
    Packed,
    cell_on,
    goods,
    tanks_behind,
    without_honey,
)
from runplanner.trips.ride import LOAD
from runplanner.visits.blocks import blocks_each
from runplanner.visits.stop import Stop


def written(keeper: Keeper, state: State, bound: Bound, search: Search) -> Plan:
    """Return ``state`` as a plan, undone work and reliefs still to be filled in."""
    outfit = keeper.ground.outfit
    shifts = _shifts(keeper, state)
    ids = [person.id for person in outfit.people]
    plan = Plan(
        outfit=outfit,
        shifts=shifts,
        spinning=tuple(
            Spinning(s.start_min, s.end_min, tuple(ids[i] for i in s.people), s.boxes)
            for s in state.base.spinning
        ),
        mixing=tuple(
            Mixing(m.start_min, m.end_min, ids[m.person], m.ml) for m in state.base.mixing
        ),
        undone=(),
        reliefs=(),
        tally=tally(keeper.ground, state),
        bill=Bill(*(0,) * 12),
        bound=bound,
        search=search,
    )
    return replace(plan, bill=_bill(keeper, state, plan))


def tally(ground: Ground, state: State) -> Tally:
    """Return the undone vector of a state; yards left alone for their health do not count."""
    return undone_of(_open_yards(ground, state)).counted(ground.outfit.prices).tally()


def _open_yards(ground: Ground, state: State) -> list[Progress]:
    yards = zip(ground.outfit.yards, state.progress, strict=True)
    return [progress for yard, progress in yards if not yard.left_alone]


def _shifts(keeper: Keeper, state: State) -> tuple[Shift, ...]:
    needs = keeper.holding.needs(state.days)
    found = []
    for day, truck in sorted(state.days):
        judged = keeper.holding.shared_out(state.days, day)[day, truck]
        crews = keeper.roster.crews(day, needs[day])
        at = [need.truck for need in needs[day]].index(truck)
        crew = tuple(keeper.ground.outfit.people[i].id for i in (crews or ())[at])
        found.append(_shift(keeper, state, judged, crew))
    return tuple(found)


def _shift(keeper: Keeper, state: State, judged: Judged, crew: tuple[str, ...]) -> Shift:
    hauler = keeper.ground.haulers[judged.day.hauler]
    return Shift(
        day=judged.day.day,
        truck=hauler.truck.id,
        trailer=hauler.trailer.id if hauler.trailer else "",
        crew=crew,
        start_min=judged.run.start_min,
        end_min=judged.run.end_min,
        driving_min=judged.driving_min,
        metres=judged.metres,
        breaks=judged.run.breaks,
        trips=_trips(keeper, state, judged),
    )


def _trips(keeper: Keeper, state: State, judged: Judged) -> tuple[Trip, ...]:
    driven = _key(keeper, judged) in keeper.standing.driven
    gone = [times.leave_min for times in judged.run.times]
    latest = gone if driven else latest_leaves(keeper, state, judged)
    found = []
    for index, packed in enumerate(judged.packed):
        rows = [i for i, call in enumerate(judged.calls) if call[0] == index]
        loaded = tuple(leg.boxes for leg in packed.legs[1:])
        way = None if driven else _way(keeper, judged, index)
        limits = loaded if driven else boxes_limits(keeper, judged, index, way)
        calls = tuple(_call(keeper, judged, i, latest[i], limits, packed) for i in rows)
        name, tanks = _trip_id(keeper, judged, calls[0]), _carried(keeper, packed.tanks)
        found.append(Trip(name, calls, tanks, stowed=_stowed(keeper, packed, way)))
    return tuple(found)


def _key(keeper: Keeper, judged: Judged) -> Key:
    return judged.day.day, keeper.ground.truck_index[judged.day.hauler]


def _trip_id(keeper: Keeper, judged: Judged, load: Call) -> str:
    """Name a trip by date, truck and loading time, so that other trips cannot rename it."""
    outfit = keeper.ground.outfit
    when = date_of(date.fromisoformat(outfit.season.first_date), judged.day.day)
    truck = keeper.ground.haulers[judged.day.hauler].truck
    return f"{when:%m%d}-{truck.id}-{clock(load.start_min).replace(':', '')}"


def _carried(keeper: Keeper, tanks: Counts) -> tuple[Carried, ...]:
    kinds = keeper.ground.outfit.containers
    return tuple(Carried(kind.id, n) for kind, n in zip(kinds, tanks, strict=True) if n)


def _way(keeper: Keeper, judged: Judged, index: int) -> Stowage | None:
    tanks = judged.packed[index].tanks
    return keeper.judge.stowage(judged.day.hauler, judged.day.trips[index], tanks)


def _stowed(keeper: Keeper, packed: Packed, way: Stowage | None) -> Stowed | None:
    """Return how truck and trailer, where one is pulled, share a trip's load."""
    if way is None:
        return None
    return Stowed(_carried(keeper, tanks_behind(keeper.ground, packed.tanks, way)), *way.order)


def _call(
    keeper: Keeper, judged: Judged, row: int, latest: int, limits: tuple[int, ...], packed: Packed
) -> Call:
    index, kind, place = judged.calls[row]
    times = judged.run.times[row]
    yard = ""
    actions: tuple[Action, ...] = ()
    if kind >= 0:
        stop = judged.day.trips[index][kind]
        yard, actions = keeper.ground.outfit.yards[stop.yard].id, _actions(keeper, stop)
    after = _after(keeper, judged, row, packed)
    return Call(
        kind=CallKind.YARD if kind >= 0 else CallKind.LOAD if kind == LOAD else CallKind.UNLOAD,
        place=place,
        yard=yard,
        arrive_min=times.arrive_min,
        start_min=times.start_min,
        end_min=times.end_min,
        leave_min=times.leave_min,
        latest_leave_min=latest,
        boxes_limit=limits[kind] if kind >= 0 else after.boxes,
        actions=actions,
        after=after,
    )


def _actions(keeper: Keeper, stop: Stop) -> tuple[Action, ...]:
    """Return a stop's work in the order in which it is done."""
    outfit, used = keeper.ground.outfit, goods(keeper.ground, stop)
    found = []
    colonies = outfit.yards[stop.yard].colonies
    if stop.wet_down:
        found.append(Action(Job.WET_DOWN, colonies, wet=stop.wet_down))
    if stop.boards:
        found.append(Action(Job.BOARDS, stop.boards, pieces=stop.boards))
    if stop.off:
        found.append(
            Action(
                Job.TAKE_OFF,
                stop.off,
                boxes=stop.boxes,
                brood_boxes=stop.brood,
                boards_off=used.boards_back,
                way=outfit.yards[stop.yard].clearing_else if stop.other else None,
            )
        )
    if stop.blocks:
        each = blocks_each(outfit.rules, stop.off, stop.blocks) if stop.off else stop.each
        found.append(Action(Job.BLOCK, stop.blocks // each, pieces=stop.blocks))
    if stop.fed:
        found.append(Action(Job.FEED, stop.fed, round=stop.round, ml=used.ml, feeders=used.feeders))
    if stop.strips:
        found.append(Action(Job.STRIPS, colonies, pieces=used.strips))
    if stop.feeders_off:
        found.append(Action(Job.FEEDERS, colonies, feeders_off=stop.feeders_off))
    if stop.wet_up:
        found.append(Action(Job.WET_UP, colonies, wet=stop.wet_up))
    return tuple(found)


def _after(keeper: Keeper, judged: Judged, row: int, packed: Packed) -> Aboard:
    kind = judged.calls[row][1]
    most = keeper.ground.haulers[judged.day.hauler].load_max_g
    if kind >= 0 or kind == LOAD:
        leg = packed.legs[kind + 1 if kind >= 0 else 0]
        return _aboard(leg, most, packed.places_max)
    return _unloaded(keeper, judged, row, packed, most)


def _aboard(leg: Leg, most: int, places_max: int) -> Aboard:
    return Aboard(
        leg.boxes, leg.brood, leg.ml, leg.blocks, leg.boards, leg.strips, leg.feeders,
        leg.load_g, most, leg.places, places_max, leg.wet,
    )  # fmt: skip


def _unloaded(keeper: Keeper, judged: Judged, row: int, packed: Packed, most: int) -> Aboard:
    """Return what stays aboard on leaving an unloading call."""
    ground, (index, _, _) = keeper.ground, judged.calls[row]
    last_call = row + 1 == len(judged.calls) or judged.calls[row + 1][0] != index
    tanks = zip(packed.tanks, ground.outfit.containers, strict=True)
    tank_g = sum(n * kind.empty_g for n, kind in tanks)
    if last_call:
        return Aboard(
            0,
            0,
            0,
            0,
            0,
            0,
            0,
            tank_g,
            most,
            _tank_places(keeper, judged, index, packed),
            packed.places_max,
        )
    leg = without_honey(ground, judged.day.hauler, judged.day.trips[index])
    places = leg.places + _tank_places(keeper, judged, index, packed)
    return _aboard(leg._replace(load_g=leg.load_g + tank_g, places=places), most, packed.places_max)


def _tank_places(keeper: Keeper, judged: Judged, index: int, packed: Packed) -> int:
    ground, trip = keeper.ground, judged.day.trips[index]
    cell = cell_on(ground, trip)
    return sum(n * places[cell] for n, places in zip(packed.tanks, ground.tank_places, strict=True))


def _bill(keeper: Keeper, state: State, plan: Plan) -> Bill:
    ground, prices = keeper.ground, plan.outfit.prices
    days = [(j, ground.haulers[j.day.hauler]) for _, j in sorted(state.days.items())]
    minutes = [((j.run.end_min - j.run.start_min), h.crew) for j, h in days]
    over = sum(max(0, m - plan.outfit.hours.normal_min) * crew for m, crew in minutes)
    spun = sum((s.end_min - s.start_min) * len(s.people) for s in plan.spinning)
    mixed = sum(m.end_min - m.start_min for m in plan.mixing)
    return Bill(
        km=-(-sum(j.metres * h.km_cents for j, h in days) // 1000),
        days=sum(h.truck.day_cents for _, h in days),
        crew=-(-sum(m * crew for m, crew in minutes) * prices.hour_cents // 60),
        overtime=-(-over * prices.hour_cents * prices.overtime_permille // 60_000),
        spinning=-(-spun * prices.hour_cents // 60),
        mixing=-(-mixed * prices.hour_cents // 60),
        **goods_cents(plan.outfit, plan.shifts),
        **_late(keeper, state),
    )


def goods_cents(outfit: Outfit, shifts: Iterable[Shift]) -> dict[str, int]:
    """Return what the goods cost that are given on these days, by head."""
    prices, strip_cents = outfit.prices, {one.id: outfit.strip_cents(one) for one in outfit.yards}
    calls = [call for shift in shifts for trip in shift.trips for call in trip.yards()]
    done = [(call.yard, action) for call in calls for action in call.actions]
    return {
        "blocks": sum(a.pieces for _, a in done if a.job is Job.BLOCK) * prices.block_cents,
        "syrup": -(-sum(a.ml for _, a in done) * prices.syrup_l_cents // 1000),
        "strips": sum(a.pieces * strip_cents[yard] for yard, a in done if a.job is Job.STRIPS),
    }


def _late(keeper: Keeper, state: State) -> dict[str, int]:
    """Return what lateness costs, by head."""
    prices = keeper.ground.outfit.prices
    return {
        "late": sum(p.late_cents for p in state.progress),
        "boards_long": sum(p.boards_long_cents for p in state.progress),
        "unsure": -(-sum(p.doubt_permille for p in state.progress) * prices.unsure_cents // 1000),
        "feed_early": sum(p.fed_early for p in state.progress) * prices.feed_early_cents,
        "left": -(-undone_of(_open_yards(keeper.ground, state)).jobs().milli_cents(prices) // 1000),
        "spin_late": state.base.late_milli_cents // 1000,
    }
