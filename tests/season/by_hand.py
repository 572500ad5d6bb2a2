"""A small clock and clerk of its own: writes a truck's days down as a plan, for the audit.

Nothing of the planner is used.  Times are the earliest from a given start, without breaks;
goods, deck places, bill and tally are counted straight from the jobs.  Whatever is wrong
here the audit finds, so a plan it passes is a true plan, whoever wrote it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import NamedTuple

from runplanner.daybook.plan import Bill, Bound, Mixing, Plan, Search, Spinning, Tally, Undone
from runplanner.daybook.trip import Aboard, Action, Call, CallKind, Carried, Job, Shift, Trip
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.trucks import Deck, Trailer, Truck
from runplanner.outfit.yards import Clearing, Health, Yard

Times = tuple[int, int, int]
ORDER = list(Job)


class Visit(NamedTuple):
    """One stop: a yard and what is done there, jobs in their order."""

    yard: str
    actions: tuple[Action, ...]


@dataclass(frozen=True)
class Outing:
    """A truck's day: who goes, with what, and the trips; not yet timed."""

    day: int
    truck: Truck
    trailer: Trailer | None
    crew: tuple[str, ...]
    trips: tuple[tuple[Visit, ...], ...]


def up(a: int, b: int) -> int:
    """Return a / b rounded up."""
    return -(-a // b)


def stores_per_l(outfit: Outfit) -> int:
    """Grams of stores made of a litre, rounded down once."""
    feed = outfit.feed
    return feed.density_g_per_l * feed.sugar_permille * feed.stores_g_per_kg_sugar // 1_000_000


def feed_plan(outfit: Outfit, yard: Yard) -> tuple[int, int]:
    """Rounds and ml of each round for one colony."""
    need_ml = up(max(0, yard.target_g - (yard.stores_g or 0)) * 1000, stores_per_l(outfit))
    if not need_ml:
        return 0, 0
    rounds = up(need_ml, yard.feeder_ml)
    step = outfit.feed.round_to_ml
    return rounds, min(yard.feeder_ml, up(up(need_ml, rounds), step) * step)


# Calls and their work


def stations(outfit: Outfit, trip: Sequence[Visit], day: int) -> list[tuple[CallKind, int, Visit | None]]:
    """The calls of a trip: load, yards, then honey house and feed store as needed."""
    store, house = outfit.feed_store.place, outfit.honey_house.base.place
    calls: list[tuple[CallKind, int, Visit | None]] = [(CallKind.LOAD, store, None)]
    calls += [(CallKind.YARD, outfit.yard(v.yard).place_on(day), v) for v in trip]
    honey = total(trip, "boxes") > 0
    ends = [house] * honey + [store] * (total(trip, "brood_boxes") > 0 or not honey)
    return calls + [(CallKind.UNLOAD, place, None) for place in dict.fromkeys(ends)]


def total(trip: Iterable[Visit], field: str, *jobs: Job) -> int:
    """Sum one figure over a trip, of some jobs or of all."""
    return sum(getattr(a, field) for v in trip for a in v.actions if not jobs or a.job in jobs)


def person_seconds(outfit: Outfit, visit: Visit) -> int:
    """The work at one stop."""
    pace, yard, seconds = outfit.pace, outfit.yard(visit.yard), 0
    for act in visit.actions:
        each = {Job.BOARDS: pace.board_s, Job.FEED: pace.feed_s, Job.STRIPS: pace.strips_s, Job.TAKE_OFF: pace.inspect_s}
        seconds += act.pieces * pace.block_s if act.job is Job.BLOCK else act.colonies * each[act.job]
        if act.job is Job.TAKE_OFF:
            seconds += (act.boxes + act.brood_boxes) * pace.clear_box_s(yard.clearing)
            if yard.clearing in {Clearing.BOARDS, Clearing.WARM_BOARD}:
                seconds += up(act.boxes * pace.left_in_permille, 1000) * pace.clear_box_s(Clearing.BRUSH)
    return seconds


class Plain(NamedTuple):
    """One call ready to be timed: the drive to it, its work, its hours, its earliest end."""

    drive_min: int
    work_min: int
    hours: list[Span]
    end_from_min: int


class Clock:
    """Times a day: drives, work and hours of its calls, each worked out once."""

    def __init__(self, outfit: Outfit) -> None:
        self.outfit = outfit
        self.seconds = cache(self._seconds)
        self.hours = cache(self._hours)
        self.calls = cache(self._calls)

    def laid_out(self, outing: Outing) -> tuple[list[Plain], int] | None:
        """All calls of a day in order, and the drive home; None where a road is missing."""
        here, plain = self.outfit.home.place, []
        for trip in outing.trips:
            for place, visit, fixed, shared in self.calls(trip, outing.day):
                drive = self.leg(outing, here, place)
                if drive is None:
                    return None
                hours, end_from = self.hours(place, visit, outing.day)
                plain.append(Plain(drive, fixed + up(shared, 60 * len(outing.crew)), hours, end_from))
                here = place
        home = self.leg(outing, here, self.outfit.home.place)
        return None if home is None else (plain, home)

    def leg(self, outing: Outing, a: int, b: int) -> int | None:
        """Minutes of a drive."""
        slowest = min(outing.truck.speed_permille, outing.trailer.speed_permille if outing.trailer else 10**6)
        minutes = self.outfit.travel.minutes[a][b]
        return None if minutes is None else up(minutes * 1000, slowest)

    def _seconds(self, visit: Visit) -> int:
        return person_seconds(self.outfit, visit)

    def _calls(self, trip: tuple[Visit, ...], day: int) -> list[tuple[int, Visit | None, int, int]]:
        """Place, visit, minutes whoever works, and person-seconds of every call of a trip."""
        outfit, pace, found = self.outfit, self.outfit.pace, []
        for kind, place, visit in stations(outfit, trip, day):
            if visit is not None:
                wash = pace.wash_min if outfit.yard(visit.yard).health is Health.SUSPECT else 0
                found.append((place, visit, pace.setup_min + wash, self.seconds(visit)))
            elif kind is CallKind.LOAD:
                found.append((place, None, pace.load_min + up(total(trip, "ml"), pace.pump_ml_per_min), 0))
            else:
                boxes = total(trip, "boxes") * (place == outfit.honey_house.base.place)
                boxes += total(trip, "brood_boxes") * (place == outfit.feed_store.place)
                found.append((place, None, pace.unload_min, boxes * pace.unload_box_s))
        return found

    def _hours(self, place: int, visit: Visit | None, day: int) -> tuple[list[Span], int]:
        """The hours in which a call may lie, and when it may end at the earliest."""
        outfit, start = self.outfit, day * DAY_MIN
        if visit is None:
            mine = [b for b in (outfit.feed_store, outfit.honey_house.base) if b.place == place]
            return [Span(start + max(b.opens_min for b in mine), start + min(b.closes_min for b in mine))], 0
        yard, jobs = outfit.yard(visit.yard), {a.job for a in visit.actions}
        masks = [(yard.sun_spans[day],), (Span(start + yard.access.opens_min, start + yard.access.closes_min),)]
        masks += [yard.open_spans] * bool(jobs & {Job.BOARDS, Job.TAKE_OFF}) + [yard.feed_spans] * (Job.FEED in jobs)
        fit = [Span(start, start + DAY_MIN)]
        for mask in masks:
            both = [Span(max(a.start_min, b.start_min), min(a.end_min, b.end_min)) for a in fit for b in mask]
            fit = sorted(s for s in both if s.start_min < s.end_min)
        sunrise = yard.sun_spans[day + 1].start_min
        storms = [s.end_min for s in yard.unsettled_spans if s.start_min < sunrise]
        return fit, max(storms, default=0) if Job.TAKE_OFF in jobs else 0


def clocked(plain: Sequence[Plain], home: int, start: int) -> tuple[list[Times], int] | None:
    """Arrive, start and end of every call when leaving home at ``start``, and the end."""
    now, times = start, []
    for drive, work, hours, end_from in plain:
        arrive = now + drive
        for span in hours:
            begin = max(arrive, span.start_min, end_from - work)
            if begin + work <= span.end_min:
                break
        else:
            return None
        now = begin + work
        times.append((arrive, begin, now))
    return times, now + home


# Goods


def columns(deck: Deck, long: int, wide: int) -> int:
    """Footprints that stand on a deck, the better way round."""
    return max((deck.length_mm // a) * (deck.width_mm // b) for a, b in ((long, wide), (wide, long)))


def container_sets(outfit: Outfit, ml: int, kinds: int | None = None) -> list[tuple[int, ...]]:
    """Every set of containers that holds ``ml`` without one to spare."""
    number = len(outfit.containers) if kinds is None else kinds
    if number == 0:
        return [()] if ml <= 0 else []
    kind = outfit.containers[number - 1]
    found = []
    for count in range(min(kind.owned, up(max(0, ml), kind.holds_ml)) + 1):
        found += [(*rest, count) for rest in container_sets(outfit, ml - count * kind.holds_ml, number - 1)]
    return found


def aboard(outfit: Outfit, outing: Outing, trip: Sequence[Visit], tanks: Sequence[int], number: int) -> Aboard:
    """What is on the truck when it leaves call ``number``."""
    calls = stations(outfit, trip, outing.day)
    done = [v for _, _, v in calls[: number + 1] if v is not None]
    todo = [v for _, _, v in calls[number + 1 :] if v is not None]
    emptied = {place for kind, place, _ in calls[: number + 1] if kind is CallKind.UNLOAD}
    over = number == len(calls) - 1
    honey = [] if outfit.honey_house.base.place in emptied else done
    brood = [] if outfit.feed_store.place in emptied else done
    boards = 0 if over else boards_loaded(trip) + total(done, "boards_off") - total(done, "pieces", Job.BOARDS)
    small = {
        "ml": total(todo, "ml"),
        "blocks": total(todo, "pieces", Job.BLOCK),
        "boards": boards,
        "strips": total(todo, "pieces", Job.STRIPS),
        "feeders": total(todo, "feeders"),
    }
    return Aboard(
        boxes=total(honey, "boxes"),
        brood_boxes=total(brood, "brood_boxes"),
        **small,
        load_g=_load_g(outfit, honey, brood, small, tanks),
        load_max_g=_load_max_g(outfit, outing),
        places=_places(outfit, outing, trip, honey, brood, small, tanks),
        places_max=sum(columns(d, *_foot(outfit, trip)) for d in _decks(outing)),
    )


def boards_loaded(trip: Sequence[Visit]) -> int:
    """Boards to set out with, so that there are always enough aboard."""
    have = short = 0
    for visit in trip:
        have += total([visit], "boards_off") - total([visit], "pieces", Job.BOARDS)
        short = min(short, have)
    return -short


def _load_g(outfit: Outfit, honey: Sequence[Visit], brood: Sequence[Visit], small: dict[str, int], tanks: Sequence[int]) -> int:
    kit = outfit.kit
    grams = sum(total([v], "boxes") * outfit.yard(v.yard).box_g for v in honey)
    grams += sum(total([v], "brood_boxes") * 2 * outfit.box(outfit.yard(v.yard).box).empty_g for v in brood)
    grams += sum(n * kind.empty_g for n, kind in zip(tanks, outfit.containers, strict=True))
    grams += up(small["ml"] * outfit.feed.density_g_per_l, 1000)
    each = {"blocks": kit.block_g, "boards": kit.board_g, "strips": kit.strip_g, "feeders": kit.feeder_g}
    return grams + sum(small[name] * g for name, g in each.items())


def _load_max_g(outfit: Outfit, outing: Outing) -> int:
    truck, trailer = outing.truck, outing.trailer
    own = truck.empty_g + truck.fuel_g + truck.kit_g + len(outing.crew) * outfit.person_g
    if trailer is None or truck.train_max_g is None:
        return truck.max_g - own
    return min(truck.max_g - own + trailer.max_g - trailer.empty_g, truck.train_max_g - own - trailer.empty_g)


def _decks(outing: Outing) -> list[Deck]:
    return [outing.truck.deck, *([outing.trailer.deck] if outing.trailer else [])]


def _foot(outfit: Outfit, trip: Sequence[Visit]) -> tuple[int, int]:
    aboard_kinds = [outfit.box(outfit.yard(v.yard).box) for v in trip if total([v], "boxes") + total([v], "brood_boxes")]
    kind = max(aboard_kinds or outfit.boxes, key=lambda k: k.length_mm * k.width_mm)
    return kind.length_mm, kind.width_mm


def _places(
    outfit: Outfit, outing: Outing, trip: Sequence[Visit], honey: Sequence[Visit], brood: Sequence[Visit],
    small: dict[str, int], tanks: Sequence[int],
) -> int:  # fmt: skip
    long, wide = _foot(outfit, trip)
    kit, places = outfit.kit, 0
    for n, tank in zip(tanks, outfit.containers, strict=True):
        a, b = tank.length_mm, tank.width_mm
        places += n * min(up(a, long) * up(b, wide), up(a, wide) * up(b, long))
    places += up(small["boards"], kit.boards_per_place) + up(small["blocks"], kit.blocks_per_place)
    places += up(small["feeders"], kit.feeders_per_place)
    piles: dict[tuple[str, bool], int] = {}
    for visits, field in ((honey, "boxes"), (brood, "brood_boxes")):
        for v in visits:
            yard = outfit.yard(v.yard)
            key = (yard.box, yard.health is Health.WATCH)
            piles[key] = piles.get(key, 0) + total([v], field)
    for (kind, _), count in piles.items():
        tall = outfit.box(kind).height_mm
        places += up(count, min(min(d.stack_boxes, d.stack_mm // tall) for d in _decks(outing)))
    return places


# The plan


def a_shift(
    outfit: Outfit, outing: Outing, start: int, tanks: Sequence[Sequence[int]], breaks: tuple[Span, ...] = ()
) -> Shift:
    """Write one day down, begun at ``start``; it must be a day that can be clocked."""
    route = Clock(outfit).laid_out(outing)
    assert route is not None
    timed = clocked(*route, start)
    assert timed is not None
    times, end = timed
    trips, at, here, metres = [], 0, outfit.home.place, 0
    for number, trip in enumerate(outing.trips):
        calls = []
        for row, (kind, place, visit) in enumerate(stations(outfit, trip, outing.day)):
            after = aboard(outfit, outing, trip, tanks[number], row)
            arrive, begin, done = times[at]
            name, acts = (visit.yard, visit.actions) if visit else ("", ())
            calls.append(Call(kind, place, name, arrive, begin, done, done, done, after.boxes, acts, after))
            metres, here, at = metres + (outfit.travel.metres[here][place] or 0), place, at + 1
        carried = tuple(Carried(k.id, n) for k, n in zip(outfit.containers, tanks[number], strict=True) if n)
        trips.append(Trip(f"day {outing.day} {outing.truck.id} trip {number}", tuple(calls), carried))
    metres += outfit.travel.metres[here][outfit.home.place] or 0
    driving = sum(one.drive_min for one in route[0]) + route[1]
    name = outing.trailer.id if outing.trailer else ""
    return Shift(outing.day, outing.truck.id, name, outing.crew, start, end, driving, metres, breaks, tuple(trips))


def a_plan(outfit: Outfit, shifts: Sequence[Shift], spinning: Sequence[Spinning], mixing: Sequence[Mixing]) -> Plan:
    """Write the whole plan down, with its tally and bill."""
    blank = Plan(
        outfit, tuple(shifts), tuple(spinning), tuple(mixing), (), (), Tally(0, 0, 0, 0), Bill(*(0,) * 12),
        Bound("", 0, 0, Tally(0, 0, 0, 0)), Search(1, 0, "", ()),
    )  # fmt: skip
    left = [e for yard in outfit.yards for e in left_at(outfit, yard, [a for _, _, a in done_in(blank, yard.id)])]
    open_left = [e for e in left if outfit.yard(e.yard).health not in {Health.SUSPECT, Health.STANDSTILL}]
    tally = Tally(
        0,
        sum(e.colonies for e in open_left if e.job is Job.STRIPS),
        sum(e.stores_g for e in open_left),
        sum(e.colonies for e in open_left if e.job is Job.TAKE_OFF),
    )
    return replace(blank, undone=tuple(left), tally=tally, bill=a_bill(blank))


def done_in(plan: Plan, yard: str) -> list[tuple[int, int, Action]]:
    """Everything done at a yard: start, day and entry, in order of time."""
    calls = [(c, s.day) for s in plan.shifts for t in s.trips for c in t.calls if c.yard == yard]
    return [(c.start_min, day, a) for c, day in sorted(calls, key=lambda each: each[0].start_min) for a in c.actions]


def left_at(outfit: Outfit, yard: Yard, done: Sequence[Action]) -> list[Undone]:
    """What is left at a yard, colony by colony."""
    rounds, ml = feed_plan(outfit, yard)
    need = max(0, yard.target_g - (yard.stores_g or 0))
    fed = [0] * yard.colonies
    for a in done:
        if a.job is Job.FEED:
            ready = [i for i in range(yard.colonies) if fed[i] == a.round - 1][: a.colonies]
            for i in ready:
                fed[i] += 1
    grams = sum(need - min(need, n * ml * stores_per_l(outfit) // 1000) for n in fed if n < rounds)
    off = sum(a.colonies for a in done if a.job is Job.TAKE_OFF)
    bare = yard.colonies - sum(a.colonies for a in done if a.job is Job.STRIPS)
    closed = yard.health in {Health.SUSPECT, Health.STANDSTILL} and yard.boxes == 0 and yard.feed_agreed
    entries = (
        (Job.TAKE_OFF, 0 if closed else yard.colonies - off, 0),
        (Job.FEED, sum(n < rounds for n in fed), grams),
        (Job.STRIPS, bare, 0),
    )
    return [Undone(yard.id, job, n, g, ("left out",)) for job, n, g in entries if n]


def a_bill(plan: Plan) -> Bill:
    """The bill, head by head."""
    outfit, prices = plan.outfit, plan.outfit.prices
    acts = [a for s in plan.shifts for t in s.trips for c in t.calls for a in c.actions]
    trucks = {t.id: t for t in outfit.trucks}
    trailers = {t.id: t.km_cents for t in outfit.trailers} | {"": 0}
    duty = [(s.end_min - s.start_min, len(s.crew)) for s in plan.shifts]
    over = sum(max(0, minutes - outfit.hours.normal_min) * crew for minutes, crew in duty)
    spun = sum((s.end_min - s.start_min) * len(s.people) for s in plan.spinning)
    mixed = sum(m.end_min - m.start_min for m in plan.mixing)
    pieces = {job: sum(a.pieces for a in acts if a.job is job) for job in Job}
    return Bill(
        km=up(sum(s.metres * (trucks[s.truck].km_cents + trailers[s.trailer]) for s in plan.shifts), 1000),
        days=sum(trucks[s.truck].day_cents for s in plan.shifts),
        crew=up(sum(minutes * crew for minutes, crew in duty) * prices.hour_cents, 60),
        overtime=up(over * prices.hour_cents * prices.overtime_permille, 60_000),
        spinning=up(spun * prices.hour_cents, 60),
        mixing=up(mixed * prices.hour_cents, 60),
        blocks=pieces[Job.BLOCK] * prices.block_cents,
        syrup=up(sum(a.ml for a in acts) * prices.syrup_l_cents, 1000),
        strips=pieces[Job.STRIPS] * prices.strip_cents,
        late=late_colony_days(plan) * prices.late_cents,
        boards_long=long_board_days(plan) * prices.boards_long_cents,
        spin_late=late_box_days(plan) * prices.spin_late_cents,
    )


def late_colony_days(plan: Plan) -> int:
    """Colony-days past priced deadlines."""
    season, days = plan.outfit.season, 0
    by: dict[Job, Deadline] = {Job.TAKE_OFF: season.take_off_by, Job.FEED: season.feed_by, Job.STRIPS: season.strips_by}
    for yard in plan.outfit.yards:
        last = feed_plan(plan.outfit, yard)[0]
        for _, day, a in done_in(plan, yard.id):
            deadline = by.get(a.job)
            if deadline and not deadline.hard and (a.job is not Job.FEED or a.round == last):
                days += a.colonies * max(0, day - deadline.day)
    return days


def long_board_days(plan: Plan) -> int:
    """Colony-days of boards beyond the best time, each started day."""
    days = 0
    for yard in plan.outfit.yards:
        calls = [c for s in plan.shifts for t in s.trips for c in t.calls if c.yard == yard.id]
        calls.sort(key=lambda c: c.start_min)
        on = [c.end_min for c in calls for a in c.actions if a.job is Job.BOARDS for _ in range(a.colonies)]
        off = [c.start_min for c in calls for a in c.actions if a.job is Job.TAKE_OFF for _ in range(a.colonies)]
        best = plan.outfit.rules.board_best_min
        days += sum(up(max(0, b - a - best), DAY_MIN) for a, b in zip(on, off, strict=False))
    return days


def late_box_days(plan: Plan) -> int:
    """Box-days past a priced spin-by: every box by itself, first in, first spun."""
    house = plan.outfit.honey_house
    boxes: list[int | None] = [None] * house.waiting_boxes
    for _, trip in sorted(arrivals(plan), key=lambda each: each[0]):
        for call in trip.yards():
            yard = plan.outfit.yard(call.yard)
            due = None if yard.spin_by_hard else call.leave_min + yard.spin_by_min
            boxes += [due] * sum(a.boxes for a in call.actions)
    starts = [
        s.start_min + k * (s.end_min - s.start_min) // s.boxes
        for s in sorted(plan.spinning, key=lambda each: each.start_min)
        for k in range(s.boxes)
    ]
    return sum(up(max(0, start - due), DAY_MIN) for start, due in zip(starts, boxes, strict=False) if due is not None)


def arrivals(plan: Plan) -> list[tuple[int, Trip]]:
    """When each trip with honey has unloaded it, in order of shifts."""
    house, found = plan.outfit.honey_house.base.place, []
    for s in plan.shifts:
        for t in s.trips:
            ends = [c.end_min for c in t.calls if c.kind is CallKind.UNLOAD and c.place == house]
            if ends and any(a.boxes for c in t.calls for a in c.actions):
                found.append((ends[0], t))
    return found
