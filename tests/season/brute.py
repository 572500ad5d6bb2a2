"""Brute force: every way of doing a tiny campaign, the cheapest first, judged by the audit.

Every yard's chain is cut into stops and days in every way; every day's stops are put in
every order and cut into trips in every way, with every crew and trailer.  Candidates are
audited in order of what they leave and cost, so the first one without a finding is the
best.  One truck; times are the earliest from the start of the day or from the start that
makes the day shortest; syrup is mixed on the day before the campaign.
"""

import heapq
import itertools
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from typing import NamedTuple

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Mixing, Plan, Spinning
from runplanner.daybook.trip import Action, Job, Shift
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Health, Yard
from tests.season.by_hand import (
    Clock,
    Outing,
    Plain,
    Visit,
    a_plan,
    a_shift,
    arrivals,
    clocked,
    container_sets,
    feed_plan,
    left_at,
    total,
    up,
)

LOCAL = frozenset(
    ("mass", "deck", "axles", "access", "tank", "tanks owned", "trailer", "gate", "daylight", "open hours")
    + ("feed hours", "strips weather", "settling", "duty", "driving limit", "working day", "duty break")
    + ("driving break", "base hours", "last yard", "health", "ready", "smallest lot", "seats", "driver")
    + ("day off", "out of service", "road", "boards owned", "boards aboard", "job order", "feeding ban")
    + ("take-off deadline", "feed deadline", "strips deadline", "box share", "feed amount", "colonies")
)
"""Rules that a day breaks by itself, whatever the other days are."""

Vector = tuple[int, int, int, int]
NOTHING_LEFT = (0, 0, 0, 0)


@dataclass(frozen=True)
class Chain:
    """One way of doing a yard: stops with their days, and what it leaves."""

    stops: tuple[tuple[int, Visit], ...]
    left: Vector


# Every chain of a yard


def chains(outfit: Outfit, yard: Yard, most_lots: int = 1) -> list[Chain]:
    """Every way to cut what is due at a yard into stops and days, partly done ones too."""
    found: dict[tuple[tuple[int, Visit], ...], Chain] = {}
    for tasks in _orders(outfit, yard, most_lots):
        for groups in _groups(tasks):
            stops = _visits(outfit, yard, groups)
            for days in itertools.combinations_with_replacement(range(outfit.season.n_days), len(stops)):
                dated = tuple(zip(days, stops, strict=True))
                if _starves(outfit, yard, dated) or _boards_same_day(dated) or _too_soon(outfit, yard, dated):
                    continue
                found[dated] = Chain(dated, _vector(outfit, yard, stops))
    return list(found.values())


def _lots(outfit: Outfit, yard: Yard, most_lots: int) -> list[tuple[int, ...]]:
    """The whole yard, or parts of it that are not too small."""
    least, n = min(outfit.rules.smallest_lot, yard.colonies), yard.colonies
    parts = [(a, n - a) for a in range(least, n - least + 1)] if most_lots > 1 else []
    return [(n,), *parts]


def _orders(outfit: Outfit, yard: Yard, most_lots: int) -> Iterator[list[Action]]:
    """Every order of the jobs of a yard, as far as it is done."""
    held = yard.health in {Health.SUSPECT, Health.STANDSTILL}
    if held and not (yard.feed_agreed and yard.boxes == 0):
        yield []
        return
    rounds = feed_plan(outfit, yard)[0]
    lots = _lots(outfit, yard, most_lots)
    strips = Action(Job.STRIPS, yard.colonies, pieces=yard.colonies * outfit.strips.per_colony)
    for off in [()] if held else lots:
        for taken in _take_offs(yard, off):
            for upto in range(len(taken)):
                yield taken[:upto]
            for parts in lots if rounds else [()]:
                fed = [_feed(outfit, yard, number, n) for number in range(1, rounds + 1) for n in parts]
                for upto in range(len(fed) + 1):
                    yield [*taken, *fed[:upto]]
                    for at in range(upto + 1):
                        yield [*taken, *fed[:at], strips, *fed[at:upto]]


def _take_offs(yard: Yard, off: tuple[int, ...]) -> Iterator[list[Action]]:
    """Take-offs of so many colonies each; under boards, all put on before, or lot by lot."""
    boards, acts, done = yard.clearing is Clearing.BOARDS, [], 0
    for n in off:
        boxes, brood = (
            up((done + n) * whole, yard.colonies) - up(done * whole, yard.colonies)
            for whole in (yard.boxes, yard.brood_boxes_off)
        )
        acts.append(Action(Job.TAKE_OFF, n, boxes=boxes, brood_boxes=brood, boards_off=n if boards else 0))
        done += n
    if not boards:
        yield acts
        return
    on = [Action(Job.BOARDS, act.colonies, pieces=act.colonies) for act in acts]
    if off:
        yield [Action(Job.BOARDS, yard.colonies, pieces=yard.colonies), *acts]
    if len(off) > 1:
        yield [act for pair in zip(on, acts, strict=True) for act in pair]


def _feed(outfit: Outfit, yard: Yard, number: int, n: int) -> Action:
    feeders = n if outfit.kit.feeders_owned is not None and number == 1 else 0
    return Action(Job.FEED, n, round=number, ml=n * feed_plan(outfit, yard)[1], feeders=feeders)


def _groups(tasks: Sequence[Action]) -> Iterator[list[list[Action]]]:
    """Every way to cut the jobs into stops; none holds one job twice or out of order."""
    rank = list(Job).index
    for cuts in itertools.product((False, True), repeat=max(0, len(tasks) - 1)):
        groups = [[tasks[0]]] if tasks else []
        for cut, task in zip(cuts, tasks[1:], strict=True):
            if cut:
                groups.append([task])
            else:
                groups[-1].append(task)
        ranks = [[rank(a.job) for a in group] for group in groups]
        clash = any(a.job is Job.BOARDS for g in groups for a in g[:-1])
        if not clash and all(r == sorted(set(r)) for r in ranks):
            yield groups


def _visits(outfit: Outfit, yard: Yard, groups: list[list[Action]]) -> list[Visit]:
    """Stops with the blocks that colonies not fed in the same stop must get."""
    visits, off = [], 0
    for group in groups:
        here = sum(a.colonies for a in group if a.job is Job.TAKE_OFF)
        fed = sum(a.colonies for a in group if a.job is Job.FEED and a.round == 1)
        bare = min(here, max(0, off + here - fed)) if feed_plan(outfit, yard)[0] else 0
        off += here
        acts = list(group)
        if bare and outfit.rules.blocks:
            acts.insert(1, Action(Job.BLOCK, bare, pieces=bare * outfit.rules.blocks))
        visits.append(Visit(yard.id, tuple(acts)))
    return visits


def _starves(outfit: Outfit, yard: Yard, dated: Sequence[tuple[int, Visit]]) -> bool:
    """Tell whether colonies that are never fed cannot last to the end, at the very best."""
    if not feed_plan(outfit, yard)[0]:
        return False
    off = [(day, a.colonies) for day, v in dated for a in v.actions if a.job is Job.TAKE_OFF]
    fed = sum(a.colonies for _, v in dated for a in v.actions if a.job is Job.FEED and a.round == 1)
    grams = (yard.stores_g or 0) + outfit.rules.blocks * outfit.kit.block_g
    last = grams * DAY_MIN // outfit.feed.day_use_g
    done = 0
    for day, n in off:
        done += n
        if done > fed and (day + 1) * DAY_MIN + last < outfit.season.n_days * DAY_MIN:
            return True
    return False


def _boards_same_day(dated: Sequence[tuple[int, Visit]]) -> bool:
    """Tell whether a colony would come off on the day its board went on."""
    on = [day for day, v in dated for a in v.actions if a.job is Job.BOARDS for _ in range(a.colonies)]
    off = [day for day, v in dated for a in v.actions if a.job is Job.TAKE_OFF for _ in range(a.colonies)]
    return any(a >= b for a, b in zip(on, off, strict=False))


def _too_soon(outfit: Outfit, yard: Yard, dated: Sequence[tuple[int, Visit]]) -> bool:
    """Tell whether a round's day is too near the day of the round before, at any hour."""
    rounds, ml = feed_plan(outfit, yard)
    gap = up(ml * DAY_MIN, outfit.feed.uptake_ml_per_day)
    first = {a.round: day for day, v in reversed(dated) for a in v.actions if a.job is Job.FEED}
    return any(
        yard.sun_spans[first[n]].end_min - yard.sun_spans[first[n - 1]].start_min < gap
        for n in range(2, rounds + 1)
        if n in first
    )


def _vector(outfit: Outfit, yard: Yard, stops: Sequence[Visit]) -> Vector:
    """What is left, in the order it is compared; of a closed yard, what may be done there."""
    if yard.health in {Health.SUSPECT, Health.STANDSTILL} and not (yard.feed_agreed and yard.boxes == 0):
        return NOTHING_LEFT
    left = left_at(outfit, yard, [a for v in stops for a in v.actions])
    by = {entry.job: entry for entry in left}
    strips, feed, off = by.get(Job.STRIPS), by.get(Job.FEED), by.get(Job.TAKE_OFF)
    return 0, strips.colonies if strips else 0, feed.stores_g if feed else 0, off.colonies if off else 0


# Every way of driving a day


class Drive(NamedTuple):
    """One truck-day, not judged yet; ``milli`` is its cost in thousandths of a cent."""

    milli: int
    number: int
    outing: Outing
    start: int


class Sound:
    """The days among ``drives`` that break no rule by themselves, looked for as needed."""

    def __init__(self, drives: Sequence[Drive], judge: Callable[[Drive], Shift | None]) -> None:
        self._found: list[tuple[int, Shift]] = []
        self._more = ((d.milli, shift) for d in drives if (shift := judge(d)) is not None)

    def get(self, number: int) -> tuple[int, Shift] | None:
        """Return the cost of one, cheapest first, and the day; None when there are no more."""
        while len(self._found) <= number:
            one = next(self._more, None)
            if one is None:
                return None
            self._found.append(one)
        return self._found[number]


@dataclass
class Enumerator:
    """All plans of one outfit, best first."""

    outfit: Outfit
    most_lots: int = 1
    more_starts: int = 0
    audits: int = field(default=0)

    def __post_init__(self) -> None:
        """Remember what a day of stops can be."""
        self.clock = Clock(self.outfit)
        self.sound = cache(self._sound_days)
        self.least = cache(self._least)
        self.shortest = cache(self._shortest)
        travel = self.outfit.travel
        self.ways = [_shortest_ways(travel.minutes), _shortest_ways(travel.metres)]
        self.tanks = cache(self._tanks)

    def vectors(self) -> list[Vector]:
        """Return everything that chains may leave, least first."""
        return sorted({left for left, _, _ in self._combos()})

    def best(self) -> Plan:
        """Return the best plan there is."""
        return next(self.plans())

    def plans(self, only: Vector | None = None) -> Iterator[Plan]:
        """Go through all plans without a finding, what is left first, then cost."""
        order = itertools.count()
        heap: list[tuple[Vector, int, int, object]] = []
        for left, cost, combo in self._combos():
            if only is None or left == only:
                heapq.heappush(heap, (left, cost, next(order), combo))
        while heap:
            left, cost, _, what = heapq.heappop(heap)
            if isinstance(what, Plan):
                self.audits += 1
                if not audit(what):
                    yield what
                continue
            for more, found in self._expanded(what):
                heapq.heappush(heap, (left, max(cost, more), next(order), found))

    def _combos(self) -> Iterator[tuple[Vector, int, "Choice"]]:
        """Every choice of one chain for each yard, with the least it can cost."""
        possible = [self._possible(yard) for yard in self.outfit.yards]
        for combo in itertools.product(*possible):
            left = tuple(sum(c.left[i] for c in combo) for i in range(4))
            days: dict[int, list[Visit]] = {}
            for chain in combo:
                for day, visit in chain.stops:
                    days.setdefault(day, []).append(visit)
            sets = tuple((day, tuple(visits)) for day, visits in sorted(days.items()))
            every = [v for _, vs in sets for v in vs]
            if not self._stocked(every):
                continue
            extras = self._extras(every)
            low = extras + sum(self.least(day, visits) for day, visits in sets)
            yield (left[0], left[1], left[2], left[3]), low, Choice(sets, extras, ())

    def _possible(self, yard: Yard) -> list[Chain]:
        """Chains whose every stop can be driven alone."""
        return [c for c in chains(self.outfit, yard, self.most_lots) if all(self._alone(d, v) for d, v in c.stops)]

    def _alone(self, day: int, visit: Visit) -> bool:
        return self.sound(day, (visit,)).get(0) is not None

    def _stocked(self, visits: Sequence[Visit]) -> bool:
        """Tell whether feeders, blocks, strips and syrup are enough, whenever they are used."""
        kit, feed, strips = self.outfit.kit, self.outfit.feed, self.outfit.strips
        mixed = max(0, total(visits, "ml") - feed.ready_ml)
        sugar = mixed * feed.density_g_per_l * feed.sugar_permille
        return (
            total(visits, "feeders") <= (kit.feeders_owned or 0)
            and total(visits, "pieces", Job.BLOCK) <= kit.blocks_owned
            and (strips.stock is None or total(visits, "pieces", Job.STRIPS) <= strips.stock)
            and (feed.sugar_g is None or sugar <= feed.sugar_g * 10**6)
            and not (feed.bought and mixed)
        )

    def _extras(self, visits: Sequence[Visit]) -> int:
        """Materials, mixing and the least spinning, in milli-cents."""
        prices, feed = self.outfit.prices, self.outfit.feed
        ml, house = total(visits, "ml"), self.outfit.honey_house
        milli = total(visits, "pieces", Job.BLOCK) * prices.block_cents * 1000 + ml * prices.syrup_l_cents
        milli += total(visits, "pieces", Job.STRIPS) * prices.strip_cents * 1000
        if not feed.bought:
            milli += max(0, ml - feed.ready_ml) * prices.hour_cents * 1000 // feed.mix_ml_per_h
        boxes = total(visits, "boxes") + house.waiting_boxes
        least = min((n * 10**6 // rate for n, rate in enumerate(house.boxes_per_h) if n and rate), default=0)
        return milli + boxes * least * prices.hour_cents // 1000

    def _least(self, day: int, visits: tuple[Visit, ...]) -> int:
        """The least a day's stops can cost, in milli-cents: work, and the shortest way round."""
        outfit, pace, (truck,) = self.outfit, self.outfit.pace, self.outfit.trucks
        places = {outfit.yard(v.yard).place_on(day) for v in visits} | {outfit.feed_store.place}
        round_trip = frozenset(places - {outfit.home.place})
        minutes = self.shortest(round_trip, metres=False) * 1000 // max(1000, truck.speed_permille)
        metres = self.shortest(round_trip, metres=True)
        costs = []
        for crew in range(1, truck.seats + 1):
            work = pace.load_min + pace.unload_min
            work += sum(pace.setup_min + up(self.clock.seconds(v), 60 * crew) for v in visits)
            costs.append((minutes + work) * crew * outfit.prices.hour_cents * 1000 // 60)
        return min(costs) + truck.day_cents * 1000 + metres * truck.km_cents

    def _shortest(self, places: frozenset[int], *, metres: bool) -> int:
        """The shortest round from home over some places, by whatever way."""
        table = self.ways[metres]
        home = self.outfit.home.place
        rounds = ((home, *order, home) for order in itertools.permutations(sorted(places)))
        return min(sum(table[a][b] for a, b in itertools.pairwise(each)) for each in rounds)

    def _sound_days(self, day: int, visits: tuple[Visit, ...]) -> Sound:
        """Every order, trips, crew, trailer and start for a day's stops, cheapest first."""
        found: list[Drive] = []
        for trips in _trips(visits):
            for crew, trailer in itertools.product(self._crews(day), (None, *self.outfit.trailers)):
                outing = Outing(day, self.outfit.trucks[0], trailer, crew, trips)
                for milli, start in self._timed(outing):
                    found.append(Drive(milli, len(found), outing, start))
        return Sound(sorted(found, key=lambda drive: drive[:2]), self._judged)

    def _judged(self, drive: Drive) -> Shift | None:
        """Return a day written down, or None where it breaks a rule by itself."""
        tanks = [self.tanks(replace(drive.outing, trips=(trip,))) for trip in drive.outing.trips]
        known = [one for one in tanks if one is not None]
        return self._written(drive.outing, drive.start, known) if len(known) == len(tanks) else None

    def _crews(self, day: int) -> list[tuple[str, ...]]:
        (truck,) = self.outfit.trucks
        here = [p for p in self.outfit.people if day not in p.off_days]
        drivers = [p.id for p in here if p.drives and p.id in truck.drivers]
        return [
            (driver, *rest)
            for driver in drivers
            for more in range(truck.seats)
            for rest in itertools.combinations([p.id for p in here if p.id != driver], more)
        ]

    def _timed(self, outing: Outing) -> list[tuple[int, int]]:
        """The day begun at once, at the start that makes it shortest, and some later."""
        route = self.clock.laid_out(outing)
        opens, closes = (outing.day * DAY_MIN + m for m in (self.outfit.hours.start_min, self.outfit.hours.end_min))
        if route is None or clocked(*route, opens) is None:
            return []
        start = shortest_start(*route, opens)
        later = [start + step * 30 for step in range(1, self.more_starts + 1)]
        running = self._running(outing)
        found = []
        for begin in dict.fromkeys((opens, start, *later)):
            run = clocked(*route, begin)
            if run is not None and run[1] <= closes and run[1] - begin <= self.outfit.hours.duty_max_min:
                found.append((running + self._milli(outing, run[1] - begin), begin))
        return found

    def _running(self, outing: Outing) -> int:
        """Kilometres and the day."""
        travel, here, metres = self.outfit.travel.metres, self.outfit.home.place, 0
        for trip in outing.trips:
            for place, *_ in self.clock.calls(trip, outing.day):
                metres, here = metres + (travel[here][place] or 0), place
        metres += travel[here][self.outfit.home.place] or 0
        rate = outing.truck.km_cents + (outing.trailer.km_cents if outing.trailer else 0)
        return metres * rate + outing.truck.day_cents * 1000

    def _milli(self, outing: Outing, minutes: int) -> int:
        """Crew and overtime."""
        prices = self.outfit.prices
        over = max(0, minutes - self.outfit.hours.normal_min)
        wage = len(outing.crew) * prices.hour_cents
        return minutes * wage * 1000 // 60 + over * wage * prices.overtime_permille // 60

    def _tanks(self, lone: Outing) -> tuple[int, ...] | None:
        """Return containers with which a day of one trip breaks no rule, if there are any."""
        (trip,) = lone.trips
        opens = lone.day * DAY_MIN + self.outfit.hours.start_min
        route = self.clock.laid_out(lone)
        if route is None or clocked(*route, opens) is None:
            return None
        start = shortest_start(*route, opens)
        sets = container_sets(self.outfit, total(trip, "ml"))
        return next((tanks for tanks in sets if self._written(lone, start, [tanks])), None)

    def _written(self, outing: Outing, start: int, tanks: list[tuple[int, ...]]) -> Shift | None:
        """Return a day written down, or None where the audit finds it broken by itself."""
        shift = a_shift(self.outfit, outing, start, tanks)
        self.audits += 1
        broken = any(f.rule in LOCAL for f in audit(a_plan(self.outfit, (shift,), (), ())))
        return None if broken else shift

    def _expanded(self, what: object) -> Iterator[tuple[int, object]]:
        """Go one step on from a choice: to its first days, or to the next ones and whole plans."""
        assert isinstance(what, Choice)
        if not what.picks and what.sets:
            yield from self._costed(replace(what, picks=(0,) * len(what.sets)))
            return
        for at in range(what.at, len(what.sets)):
            picks = tuple(i + (j == at) for j, i in enumerate(what.picks))
            yield from self._costed(replace(what, picks=picks, at=at))
        shifts = [day[1] for day in self._days(what) if day is not None]
        for plan in self._whole(shifts):
            yield plan.bill.total() * 1000, plan

    def _days(self, what: "Choice") -> list[tuple[int, Shift] | None]:
        return [self.sound(*one).get(i) for one, i in zip(what.sets, what.picks, strict=True)]

    def _costed(self, what: "Choice") -> Iterator[tuple[int, object]]:
        """The choice with what it costs at least; nothing where a day has no such drive."""
        days = self._days(what)
        if all(day is not None for day in days):
            yield what.extras + sum(day[0] for day in days if day is not None), what

    # Spinning and mixing

    def _whole(self, shifts: Sequence[Shift]) -> list[Plan]:
        """The shifts with the syrup mixed before and the honey spun after, in some ways."""
        feed = self.outfit.feed
        ml = sum(a.ml for s in shifts for t in s.trips for c in t.calls for a in c.actions)
        mixer = next((p.id for p in self.outfit.people if p.mixes), None)
        mixing = []
        if ml > feed.ready_ml and mixer is not None and not feed.bought:
            short = ml - feed.ready_ml
            mixing.append(Mixing(480 - DAY_MIN, 480 - DAY_MIN + up(short * 60, feed.mix_ml_per_h), mixer, short))
        base = a_plan(self.outfit, shifts, (), mixing)
        return [a_plan(self.outfit, shifts, spins, mixing) for spins in self._spins(base)]

    def _spins(self, base: Plan) -> list[tuple[Spinning, ...]]:
        house = self.outfit.honey_house
        queue = [(at, sum(a.boxes for c in t.calls for a in c.actions)) for at, t in sorted(arrivals(base), key=lambda a: a[0])]
        queue = [(0, house.waiting_boxes)] * (house.waiting_boxes > 0) + queue
        if not queue:
            return [()]
        together = [(queue[-1][0], sum(boxes for _, boxes in queue))]
        spinners = [p.id for p in self.outfit.people if p.spins]
        found = []
        for size in range(1, min(len(spinners), len(house.boxes_per_h) - 1) + 1):
            for team in itertools.combinations(spinners, size):
                for lots in (queue, together) if len(queue) > 1 else (queue,):
                    spins = self._spun(base, team, lots)
                    if spins is not None:
                        found.append(spins)
        return list(dict.fromkeys(found))

    def _spun(self, base: Plan, team: tuple[str, ...], lots: Sequence[tuple[int, int]]) -> tuple[Spinning, ...] | None:
        """Spin every lot as soon as it is in and the whole team is free, half-day by half-day."""
        house, rate = self.outfit.honey_house, self.outfit.honey_house.boxes_per_h[len(team)]
        spins: list[Spinning] = []
        now = 0
        for at, count in lots:
            left, now = count, max(now, at)
            for begin, end in self._free_halves(base, team, now):
                start = max(now, begin)
                boxes = min(left, rate * (end - start) // 60) if start < end else 0
                if boxes > 0:
                    spins.append(Spinning(start, start + up(boxes * 60, rate), team, boxes))
                    left, now = left - boxes, start + up(boxes * 60, rate)
                if not left:
                    break
            if left:
                return None
        del house
        return tuple(spins)

    def _free_halves(self, base: Plan, team: tuple[str, ...], start: int) -> Iterator[tuple[int, int]]:
        """Spinning hours, half-day by half-day, in which all of the team do nothing else."""
        outfit, house = self.outfit, self.outfit.honey_house
        busy = [(s.start_min, s.end_min) for s in base.shifts if set(s.crew) & set(team)]
        away = {d for p in outfit.people if p.id in team for d in p.off_days}
        for day in range(start // DAY_MIN, outfit.season.n_days + 4):
            noon = day * DAY_MIN + outfit.hours.noon_min
            for lo, hi in ((day * DAY_MIN, noon), (noon, (day + 1) * DAY_MIN)):
                begin, end = max(lo, day * DAY_MIN + house.spin_from_min), min(hi, day * DAY_MIN + house.spin_to_min)
                if begin < end and day not in away and not any(a < hi and b > lo for a, b in busy):
                    yield begin, end


def _shortest_ways(table: Sequence[Sequence[int | None]]) -> list[list[int]]:
    """The shortest way between any two places, over others if need be."""
    size = range(len(table))
    ways = [[10**9 if cell is None else cell for cell in row] for row in table]
    for k, i, j in itertools.product(size, repeat=3):
        ways[i][j] = min(ways[i][j], ways[i][k] + ways[k][j])
    return ways


def shortest_start(plain: Sequence[Plain], home: int, opens: int) -> int:
    """The start of the day that makes it shortest.

    The end of the day never falls as the start rises: so the last start with the same end
    is found by halving, and tried again from just after it while anybody still waits.
    """
    best, start = (10**9, opens), opens
    while (run := clocked(plain, home, start)) is not None:
        waited = sum(begin - arrive for arrive, begin, _ in run[0])
        low, high = start, start + waited
        while low < high:
            middle = (low + high + 1) // 2
            again = clocked(plain, home, middle)
            low, high = (middle, high) if again and again[1] == run[1] else (low, middle - 1)
        best = min(best, (run[1] - low, low))
        if low == start + waited:
            break
        start = low + 1
    return best[1]


@dataclass(frozen=True)
class Choice:
    """Stops by day; ``picks`` say which drive of each day, counted on from ``at``."""

    sets: tuple[tuple[int, tuple[Visit, ...]], ...]
    extras: int
    picks: tuple[int, ...]
    at: int = 0


def _trips(visits: tuple[Visit, ...]) -> Iterator[tuple[tuple[Visit, ...], ...]]:
    """Every order of the stops that keeps each yard's own, cut into trips in every way."""
    for order in _orders_of(visits):
        for cuts in itertools.product((False, True), repeat=len(order) - 1):
            trips = [[order[0]]]
            for cut, visit in zip(cuts, order[1:], strict=True):
                if cut:
                    trips.append([visit])
                else:
                    trips[-1].append(visit)
            yield tuple(tuple(trip) for trip in trips)


def _orders_of(visits: tuple[Visit, ...]) -> Iterator[tuple[Visit, ...]]:
    for order in itertools.permutations(range(len(visits))):
        mine = [(visits[i].yard, i) for i in order]
        if all(i < j or a != b for (a, i), (b, j) in itertools.combinations(mine, 2)):
            yield tuple(visits[i] for i in order)
