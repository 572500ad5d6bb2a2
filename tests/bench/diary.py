"""Writes rivals' days down under the same rules as our own: trucks, trips, stops, then a plan."""

import time
from dataclasses import replace

from runplanner.daybook.plan import Bound, Plan, Search, Tally, Undone
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import phrase
from runplanner.season.finish import tally, written
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.why_not.left_undone import left_undone
from runplanner.trips.day import Day, Trip
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop
from tests.bench.filling import filled
from tests.bench.jobs import Setting, jobs_on
from tests.bench.today import Router, Today, Trips, Truck, trucks_out, ways_out

UNBOUND = Bound(phrase("none: a rival states no bound"), 0, 0, Tally(0, 0, 0, 0))


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
    return keeper, _without_stray_boards(keeper, state)


def _without_stray_boards(keeper: Keeper, state: State) -> State:
    """Put no boards under colonies that are not taken off after all."""
    stray: set[int] = set()
    for yard, visits in enumerate(state.visits):
        if sum(v.stop.boards for v in visits) > sum(v.stop.off for v in visits):
            stray.add(yard)

    def bare(stop: Stop) -> Stop | None:
        thin = stop._replace(boards=0) if stop.yard in stray and not stop.off else stop
        return None if thin == Stop(thin.yard, from_min=thin.from_min) else thin

    whole = {yard for yard in stray if not any(v.stop.off for v in state.visits[yard])}
    left = keeper.thin(state, bare, whole)
    return keeper.drop(left, stray - whole) if stray - whole else left


def _one_day(
    keeper: Keeper, state: State, day: int, router: Router, setting: Setting, seconds: float
) -> State:
    jobs = jobs_on(keeper.ground, state, day, setting)
    trucks = trucks_out(keeper.ground, day, setting)
    if not jobs or not trucks:
        return state
    today = Today(keeper.ground, state, day, jobs, trucks, setting, seconds)
    routed = router(today)
    order = sorted(range(len(trucks)), key=lambda i: -sum(len(t) for t in routed[i]))
    for i in order:
        state = put(keeper, state, day, trucks[i], routed[i])
    return _topped_up(keeper, state, today) if setting.fill >= 0 else state


def _topped_up(keeper: Keeper, state: State, today: Today) -> State:
    """Give jobs that were left to trucks with time for them, by the hand rule."""
    jobs = {job.stop: job for job in today.jobs}
    for truck in today.trucks:
        judged = state.days.get((today.day, truck.truck))
        trips = [[jobs[s] for s in t] for t in judged.day.trips] if judged else []
        done = {s for (day, _), j in state.days.items() if day == today.day
                for t in j.day.trips for s in t}  # fmt: skip
        left = [
            job
            for job in today.jobs
            if job.stop not in done and job.days_left <= today.setting.fill
        ]
        state, _, _ = filled(keeper, state, today, truck, left, trips)
    return state


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
    plan = written(keeper, state, UNBOUND, Search(0, 0, phrase("a rival's"), ()))
    left = tuple(_said(one) for one in left_undone(keeper, state))
    return replace(plan, undone=left)


def _said(one: Undone) -> Undone:
    return one if one.why else replace(one, why=(phrase("the rival left it"),))


def finished(ground: Ground, state: State) -> bool:
    """Tell whether nothing is left undone."""
    return tally(ground, state) == Tally(0, 0, 0, 0)
