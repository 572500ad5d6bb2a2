"""Writes rivals' days down under the same rules as our own: trucks, trips, stops, then a plan."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from runplanner.daybook.plan import Bound, Plan, Search, Tally, Undone
from runplanner.outfit.outfit import Outfit
from runplanner.season.finish import tally, written
from runplanner.season.state import Keeper, State
from runplanner.season.why_not import _left
from runplanner.trips.ground import Ground
from runplanner.trips.stop import Day, Trip
from tests.bench.jobs import Job, Setting, jobs_on

Trips = list[list[Job]]
UNBOUND = Bound("none: a rival states no bound", 0, 0, Tally(0, 0, 0, 0))


@dataclass(frozen=True, slots=True)
class Truck:
    """A truck as a rival sees it on one day: its number and the way it goes out."""

    truck: int
    hauler: int


@dataclass(frozen=True, slots=True)
class Today:
    """One day's work to be routed."""

    ground: Ground
    state: State
    day: int
    jobs: list[Job]
    trucks: list[Truck]
    setting: Setting
    seconds: float


Router = Callable[[Today], Sequence[Trips]]
"""Returns the trips of every truck in ``trucks``."""


def campaign_by_days(
    outfit: Outfit, router: Router, setting: Setting, seconds: float
) -> tuple[Keeper, State]:
    """Plan day after day; each day's router sees what earlier days have left."""
    keeper = Keeper(Ground(outfit))
    state = keeper.empty()
    until = time.monotonic() + seconds
    days = outfit.season.n_days
    for day in range(days):
        share = max(0.05, (until - time.monotonic()) / (days - day))
        state = _one_day(keeper, state, day, router, setting, share)
    return keeper, state


def _one_day(
    keeper: Keeper, state: State, day: int, router: Router, setting: Setting, seconds: float
) -> State:
    jobs = jobs_on(keeper.ground, state, day, setting)
    trucks = _trucks(keeper.ground, day, setting)
    if not jobs or not trucks:
        return state
    today = Today(keeper.ground, state, day, jobs, trucks, setting, seconds)
    routed = router(today)
    order = sorted(range(len(trucks)), key=lambda i: -sum(len(t) for t in routed[i]))
    for i in order:
        state = put(keeper, state, day, trucks[i], routed[i])
    return state


def _trucks(ground: Ground, day: int, setting: Setting) -> list[Truck]:
    """Return how every truck goes out: with the crew wanted, trailers to the first that may."""
    outfit, found = ground.outfit, []
    trailers = [t.id for t in outfit.trailers if day not in t.out_days] if setting.trailer else []
    for truck, facts in enumerate(outfit.trucks):
        if day in facts.out_days:
            continue
        ways = [h for h in ground.siblings[truck] if ground.haulers[h].crew <= setting.crew]
        pulled = [h for h in ways if _trailer(ground, h) in trailers]
        plain = [h for h in ways if not _trailer(ground, h)]
        chosen = (pulled or plain or list(ground.siblings[truck]))[-1]
        if _trailer(ground, chosen) in trailers:
            trailers.remove(_trailer(ground, chosen))
        found.append(Truck(truck, chosen))
    return found


def _trailer(ground: Ground, hauler: int) -> str:
    trailer = ground.haulers[hauler].trailer
    return trailer.id if trailer else ""


def put(keeper: Keeper, state: State, day: int, truck: Truck, trips: Trips) -> State:
    """Return the state with a truck's trips as routed, or with as many jobs as the rules take."""
    whole = tuple(tuple(job.stop for job in trip) for trip in trips if trip)
    if not whole:
        return state
    for hauler in ways_out(keeper.ground, truck):
        new = keeper.replace(state, (day, truck.truck), Day(day, hauler, whole))
        if new is not None:
            return new
    return _piecemeal(keeper, state, day, truck, trips)


def ways_out(ground: Ground, truck: Truck) -> list[int]:
    """Return the way chosen, then other crews with the same trailer."""
    same = _trailer(ground, truck.hauler)
    others = [h for h in ground.siblings[truck.truck] if _trailer(ground, h) == same]
    return [truck.hauler, *(h for h in others if h != truck.hauler)]


def _piecemeal(keeper: Keeper, state: State, day: int, truck: Truck, trips: Trips) -> State:
    """Put jobs in one by one, each on its own trip or a new one; leave what is refused."""
    kept: list[Trip] = []
    for trip in trips:
        fresh = True
        for job in trip:
            tried = [*kept, (job.stop,)] if fresh else [*kept[:-1], (*kept[-1], job.stop)]
            new = _accepted(keeper, state, day, truck, tried)
            if new is not None:
                state, kept, fresh = new, tried, False
    return state


def _accepted(
    keeper: Keeper, state: State, day: int, truck: Truck, trips: list[Trip]
) -> State | None:
    for hauler in ways_out(keeper.ground, truck):
        new = keeper.replace(state, (day, truck.truck), Day(day, hauler, tuple(trips)))
        if new is not None:
            return new
    return None


def as_plan(keeper: Keeper, state: State) -> Plan:
    """Return a rival's state as a plan that the audit can judge."""
    plan = written(keeper, state, UNBOUND, Search(0, 0, "a rival's", ()))
    left = tuple(_said(one) for one in _left(keeper, state))
    return replace(plan, undone=left)


def _said(one: Undone) -> Undone:
    return one if one.why else replace(one, why=("the rival left it",))


def finished(ground: Ground, state: State) -> bool:
    """Tell whether nothing is left undone."""
    return tally(ground, state) == Tally(0, 0, 0, 0)
