"""Where only one kind of work is left, all seasons of whole visits are gone through at once.

It takes a campaign, or what is left of one, in which yards wait for nothing but feed, each
round the same load and the same work, or for nothing but their take-off (without boards,
syrup and wet boxes); strips may go in along with either.  A yard's visits may then be told as
rows of days, and every truck's day by the set of yards it visits.  What is listed is never
dearer than it is: hours of the day, all breaks but one, decks, containers, strips and hands
indoors are left out, loads are masses, and of several trucks or crews the cheapest counts.
So the least cost of all listed seasons is a bound, as long as no yard can be served in part;
the season that reaches it counts only once the exact judge has driven it.
"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np

from runplanner.days import DAY_MIN
from runplanner.season.proof.owed import spin_cents
from runplanner.season.quick.facts import FAR as NO_ROAD
from runplanner.season.quick.sums import Going
from runplanner.season.search.improve import Improver
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import State
from runplanner.season.standing.stores import loaded_ml
from runplanner.season.whole.best_season import Answer, best_season
from runplanner.season.whole.left import TAKE_OFF, Row, Waiting, job, left_of, undivided
from runplanner.season.whole.listing import FAR, Ints, Legs, Limits, listed, sums
from runplanner.season.whole.order import ordered
from runplanner.season.whole.rota import Rota, TooManyError
from runplanner.season.whole.whole_day import parted
from runplanner.season.worth import stated
from runplanner.trips.day import Day, Key
from runplanner.trips.ride import Way
from runplanner.visits.stop import Stop

MOST_YARDS = 22
"""Yards up to which sets of them are listed."""
MOST_STOPS = 12
"""Stops of a truck's day up to which their order is looked for."""
SLACK = 1_000
"""What roundings may come to over a season, in the unit of its list."""
UNITS = (1, 10, 100)
"""Units of cost in 1/1000 cent, of which the first is taken in which all drives are small."""


class Outcome(NamedTuple):
    """What listing came to.

    Args:
        state: The better of what stood before and what was found.
        milli_cents: What no plan costs less than; 0 where that is not known.
        proven: No plan is cheaper than the state.
    """

    state: State
    milli_cents: int
    proven: bool


class Truck(NamedTuple):
    """One way of going out, as the list knows it; ``roads`` are costs where minutes do not do."""

    hauler: int
    legs: Legs
    roads: Legs | None
    limits: Limits
    cost: Ints


def gone_through(improver: Improver, state: State, go_on: Callable[[], bool]) -> Outcome | None:
    """Return what going through all seasons came to, or None where that cannot be done.

    Args:
        improver: The search, with its judges.
        state: The best plan so far.
        go_on: Asked before every further step of the list and of the proof.
    """
    keeper = improver.keeper
    standing = keeper.standing
    if (standing.promised and standing.move_cents) or (standing.shifts and standing.shift_cents):
        return None
    begun = keeper.empty()
    left = left_of(keeper, begun)
    if not left or len(left) > MOST_YARDS:
        return None
    whole = _in_some_unit(improver, left, go_on)
    if whole is None:
        return None
    fixed = sum(judged.milli_cents for judged in standing.driven.values()) + whole.goods_from(begun)
    owing = any(progress.owing() for progress in state.progress)
    beaten = float("inf") if owing else float(state.score.milli_cents - fixed)
    answer = whole.best(beaten)
    if answer is None:
        return None
    best = state
    if answer.found is not None:
        found = _driven(keeper, begun, whole, answer.found.days)
        if found is not None and found.score < state.score:
            best = found
    # Seasons that leave work for its cost are not among those gone through.
    worth = stated(keeper.ground.outfit.prices)
    if worth or not all(undivided(keeper, one) for one in left):
        return Outcome(best, 0, proven=False)
    slack = SLACK * whole.unit
    bound = max(0, int(answer.bound) * whole.unit + fixed - slack)
    done = not any(progress.owing() for progress in best.progress)
    return Outcome(best, bound, done and best.score.milli_cents <= bound + 2 * slack)


# The list


def _in_some_unit(
    improver: Improver, left: list[Waiting], go_on: Callable[[], bool]
) -> "_Listed | None":
    """Return the list in the smallest unit that holds it; None where none does, or it is long."""
    lists = (_Listed(improver, left, unit, go_on) for unit in UNITS)
    try:
        return next((one for one in lists if one.trucks), None)
    except TooManyError:
        return None


class _Listed:
    """All trucks' days of a season, by the set of yards they visit; costs by ``unit``."""

    def __init__(
        self, improver: Improver, left: list[Waiting], unit: int, go_on: Callable[[], bool]
    ) -> None:
        self.improver, self.left, self.unit, self.go_on = improver, left, unit, go_on
        self.ground = improver.ground
        self.honey = any(TAKE_OFF in one.rounds for one in left)
        self.stops = [job(improver.keeper, one.yard, one.rounds[-1]) for one in left]
        ml = [self.ground.task(stop).used.ml for stop in self.stops]
        self.ml = sum(each * len(one.rounds) for each, one in zip(ml, left, strict=True))
        self.trucks = self._trucks()
        self._orders: dict[tuple[int, Row], tuple[tuple[Row, ...], ...]] = {}

    def goods_from(self, begun: State) -> int:
        """Return what goods and work indoors cost at least, in 1/1000 cent.

        Past mixing is in it.  What honey there is costs its spinning at the best pace.
        """
        outfit = self.ground.outfit
        prices, feed = outfit.prices, outfit.feed
        yards = [outfit.yards[one.yard] for one in self.left]
        strips = 1000 * sum(
            yard.colonies * outfit.strips_at(yard).per_colony * outfit.strip_cents(yard)
            for one, yard in zip(self.left, yards, strict=True)
            if begun.progress[one.yard].no_strips
        )
        if self.honey:
            return strips + 1000 * sum(spin_cents(self.ground, yard) for yard in yards)
        loaded = loaded_ml(begun.days.values())
        ready = self.improver.keeper.stores.ready_ml(())
        mixed = 0 if feed.bought else max(0, loaded + self.ml - ready)
        hours = mixed * prices.hour_cents * 1000 // max(1, feed.mix_ml_per_h)
        return strips + self.ml * prices.syrup_l_cents + hours

    def _trucks(self) -> list[Truck]:
        """Return the list of every way of going out; nothing where there is one without a list."""
        found: dict[tuple[int, int], Truck] = {}
        outfit = self.ground.outfit
        if self.honey and outfit.honey_house.base.place != outfit.feed_store.place:
            return []
        for hauler, like in sorted(self.improver.resorter.like.items()):
            if like not in found:
                one = self._truck(hauler)
                if one is None:
                    return []
                found[like] = one
        return list(found.values())

    def _truck(self, hauler: int) -> Truck | None:

        resorter = self.improver.resorter
        day = next(iter({d for one in self.left for row in one.rows for d in row}))
        facts = [resorter.fact(day, stop) for stop in self.stops]
        going = resorter.going(
            self.ground, Way(day, hauler), self.stops, facts, resorter.costs(hauler)
        )
        minutes, rate = _legs(going), _rate(going)
        costs = _legs(going, self.unit) if rate is None else None
        if minutes is None or (rate is None and costs is None):
            return None
        # A trip's pumping and unloading are rounded up as a whole, and so take no less than
        # these parts of them.
        pace, loads = self.ground.outfit.pace, going.loads
        work = [
            w
            + fact.ml // pace.pump_ml_per_min
            + fact.boxes * pace.unload_box_s // (60 * loads.crew)
            for w, fact in zip(loads.work, facts, strict=True)
        ]
        masses = [fact.out_g if self.honey else fact.in_g for fact in facts]
        load = np.array([
            mine if mine <= gate else loads.most_g + 1
            for mine, gate in zip(masses, loads.gates, strict=True)
        ])  # fmt: skip
        limits = Limits(load, loads.most_g, np.array(work), going.busy_max)
        least = listed(minutes, limits, self.go_on)
        roads = None if least is None else self._roads(rate, costs, limits, least)
        if least is None or roads is None:
            raise TooManyError
        busy = np.minimum(least, FAR // 2) + sums(limits.work)
        hours = self.ground.outfit.hours
        busy += np.where(busy > hours.duty_break_after_min, hours.duty_break_min, 0)
        over = np.maximum(0, busy - going.normal_min) * going.over
        idle = busy - least - sums(limits.work)
        paid = (sums(limits.work) + idle) * going.minute + over + going.day_cost
        cost = np.floor(roads + paid / self.unit)
        cost[0] = 0
        out = (least < FAR) & (busy <= going.busy_max)
        if cost[out].max() >= FAR:
            return None
        listed_cost = np.where(out, cost, FAR).astype(np.int32)
        return Truck(hauler, minutes, costs, limits, listed_cost)

    def _roads(
        self, rate: float | None, costs: Legs | None, limits: Limits, least: Ints
    ) -> Ints | None:
        """Return what the roads of every set's day cost at least."""
        if rate is not None:
            return np.where(least < FAR, np.floor(least * rate / self.unit) - MOST_YARDS, FAR)
        if costs is None:
            return None
        inside = least < FAR
        for i in range(len(limits.work)):
            halves = inside.reshape(-1, 2, 1 << i)
            halves[:, 0] |= halves[:, 1]
        free = Limits(limits.load_g, limits.most_g, limits.work * 0, FAR)
        return listed(costs, free, self.go_on, inside)

    def orders(self, truck: Truck, stops: Row) -> tuple[tuple[Row, ...], ...]:
        """Return a truck's trips to some stops, in order: cheapest, and else soonest over."""
        key = (truck.hauler, stops)
        if key not in self._orders:
            tables = [legs for legs in (truck.roads, truck.legs) if legs is not None]
            found = [ordered(legs, truck.limits, stops) for legs in tables]
            self._orders[key] = tuple(dict.fromkeys(found))
        return self._orders[key]

    def best(self, beaten: float) -> Answer | None:
        """Return the best season of those listed."""
        outfit, driven = self.ground.outfit, self.improver.keeper.standing.driven
        days = range(outfit.season.n_days)
        first = self.ground.now_min // DAY_MIN
        numbers = range(len(outfit.trucks))
        trucks = tuple(
            sum(d not in outfit.trucks[t].out_days and (d, t) not in driven for t in numbers)
            if d >= first else 0
            for d in days
        )  # fmt: skip
        unsure = outfit.prices.unsure_cents
        yards = [outfit.yards[one.yard] for one in self.left]
        dearer = tuple(
            tuple(yard.colonies * yard.doubt_permille(d) * unsure // self.unit for yard in yards)
            for d in days
        )
        least = np.minimum.reduce([truck.cost for truck in self.trucks])
        rows = tuple(one.rows for one in self.left)
        return best_season(Rota(least, trucks, rows, dearer), beaten / self.unit, self.go_on)


def _legs(going: Going, unit: int = 0) -> Legs | None:
    """Return what lies between stops, whole and never too much; None where it is too large.

    In minutes, or in so many 1/1000 cents.
    """
    tables = [np.array(table, dtype=float) for table in going.hops(costs=unit > 0)]
    tables = [np.where(t < NO_ROAD, np.floor(t / max(1, unit)), NO_ROAD) for t in tables]
    if any((table[table < NO_ROAD] >= FAR // MOST_YARDS).any() for table in tables):
        return None
    return Legs(*(np.minimum(table, FAR).astype(np.int32) for table in tables))


def _rate(going: Going) -> float | None:
    """Return what a minute costs where all roads cost the same a minute."""
    tables = zip(going.hops(costs=False), going.hops(costs=True), strict=True)
    pairs = [(np.array(one).ravel(), np.array(other).ravel()) for one, other in tables]
    time = np.concatenate([one for one, _ in pairs])
    money = np.concatenate([other for _, other in pairs])
    real = time < NO_ROAD
    if not time[real].sum() or ((money < NO_ROAD) != real).any():
        return None
    rate = float(money[real].sum() / time[real].sum())
    return rate if np.abs(money[real] - time[real] * rate).max() <= 1 else None


# From sets to days


def _driven(keeper: Keeper, begun: State, whole: _Listed, days: tuple[int, ...]) -> State | None:
    """Return the season driven day by day, or None where the judge refuses it."""
    least = np.minimum.reduce([truck.cost for truck in whole.trucks])
    state: State | None = begun
    for day, yards in enumerate(days):
        trucks = len(keeper.ground.outfit.trucks)
        for mine in sorted(parted(least, yards, trucks), reverse=True):
            state = state and _out(keeper, state, whole, day, mine)
        if state is None:
            return None
    return state


def _out(keeper: Keeper, state: State, whole: _Listed, day: int, yards: int) -> State | None:
    """Send whichever truck is cheapest to a set of yards; None where none can go."""
    if not yards:
        return state
    chosen = tuple(i for i in range(len(whole.left)) if yards >> i & 1)
    if len(chosen) > MOST_STOPS:
        return None
    for truck in sorted(whole.trucks, key=lambda one: int(one.cost[yards])):
        if truck.cost[yards] >= FAR:
            continue
        for trips in whole.orders(truck, chosen):
            stops = tuple(tuple(_stop(state, whole, i, day) for i in trip) for trip in trips)
            for key, hauler in _free(keeper, state, day, whole, truck.hauler):
                new = keeper.replace(state, key, Day(day, hauler, stops))
                if new is not None:
                    return new
    return None


def _free(
    keeper: Keeper, state: State, day: int, whole: _Listed, hauler: int
) -> Iterator[tuple[Key, int]]:
    """Yield the trucks still at home that can go out like ``hauler``."""
    like = whole.improver.resorter.like
    for truck, facts in enumerate(keeper.ground.outfit.trucks):
        key = (day, truck)
        if day in facts.out_days or key in state.days or key in keeper.standing.driven:
            continue
        for one in keeper.ground.siblings[truck]:
            if like[one] == like[hauler]:
                yield key, one


def _stop(state: State, whole: _Listed, i: int, day: int) -> Stop:
    """Return a yard's take-off, or its next round as soon as the last one is taken down."""
    yard = whole.left[i].yard
    before = [v for v in state.visits[yard] if v.stop.fed]
    number = max((v.stop.round for v in before), default=0) + 1
    gone = max((v.start_min for v in before), default=None)
    gap = whole.ground.dues[yard].round_gap_min
    stop = whole.stops[i]
    if not whole.honey:
        stop = stop._replace(round=number, from_min=0 if gone is None else gone + gap)
    stop, owed = stop.on(day), state.progress[yard].no_strips > 0
    with_strips = stop._replace(strips=owed)
    return with_strips if whole.ground.stop_spans(with_strips, day) else stop
