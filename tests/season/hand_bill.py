"""What a plan leaves and costs, counted by hand: colony by colony, box by box."""

from collections.abc import Sequence

from runplanner.daybook.plan import Bill, Plan, Undone
from runplanner.daybook.trip import Action, CallKind, Job, Trip
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.yards import Health, Yard
from runplanner.phrase import phrase
from tests.season.hand_clock import Visit, feed_plan, stores_per_l, up
from tests.season.hand_strips import strips_cents


def done_in(plan: Plan, yard: str) -> list[tuple[int, int, Action]]:
    """Everything done at a yard: start, day and entry, in order of time."""
    calls = [(c, s.day) for s in plan.shifts for t in s.trips for c in t.calls if c.yard == yard]
    return [
        (c.start_min, day, a)
        for c, day in sorted(calls, key=lambda each: each[0].start_min)
        for a in c.actions
    ]


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
    held = yard.health in {Health.SUSPECT, Health.STANDSTILL}
    closed = held and yard.boxes == 0 and yard.feed_agreed
    back = sum(a.wet for a in done if a.job is Job.WET_UP)
    stand = back - sum(a.wet for a in done if a.job is Job.WET_DOWN)
    wet = yard.colonies if yard.wet_back and yard.boxes and not held else 0
    entries = (
        (Job.TAKE_OFF, 0 if closed else yard.colonies - off, 0),
        (Job.FEED, sum(n < rounds for n in fed), grams),
        (Job.STRIPS, bare, 0),
        (Job.WET_UP, 0 if back else wet, 0),
        (Job.WET_DOWN, wet if stand else 0, 0),
    )
    return [Undone(yard.id, job, n, g, (phrase("left out"),)) for job, n, g in entries if n]


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
    calls = (c for s in plan.shifts for t in s.trips for c in t.yards())
    visits = [Visit(c.yard, c.actions) for c in calls]
    return Bill(
        km=up(
            sum(s.metres * (trucks[s.truck].km_cents + trailers[s.trailer]) for s in plan.shifts),
            1000,
        ),
        days=sum(trucks[s.truck].day_cents for s in plan.shifts),
        crew=up(sum(minutes * crew for minutes, crew in duty) * prices.hour_cents, 60),
        overtime=up(over * prices.hour_cents * prices.overtime_permille, 60_000),
        spinning=up(spun * prices.hour_cents, 60),
        mixing=up(mixed * prices.hour_cents, 60),
        blocks=pieces[Job.BLOCK] * prices.block_cents,
        syrup=up(sum(a.ml for a in acts) * prices.syrup_l_cents, 1000),
        strips=strips_cents(outfit, visits),
        late=late_colony_days(plan) * prices.late_cents,
        boards_long=long_board_days(plan) * prices.boards_long_cents,
        spin_late=late_box_days(plan) * prices.spin_late_cents,
        unsure=up(doubtful_colonies(plan) * prices.unsure_cents, 1000),
        feed_early=colonies_fed_early(plan) * prices.feed_early_cents,
        left=worth_left(plan),
    )


def open_left(plan: Plan) -> list[Undone]:
    """What is left at yards that may be worked."""
    may = [y for y in plan.outfit.yards if y.health not in {Health.SUSPECT, Health.STANDSTILL}]
    return [e for y in may for e in left_at(plan.outfit, y, [a for _, _, a in done_in(plan, y.id)])]


def worth_left(plan: Plan) -> int:
    """Cents that the work left is worth: by colony, but feed by the kilogram."""
    prices = plan.outfit.prices
    colony = {
        Job.TAKE_OFF: prices.worth_take_off_cents,
        Job.STRIPS: prices.worth_strips_cents,
        Job.FEED: 0,
    }
    grams = sum(e.stores_g for e in open_left(plan))
    whole = sum(e.colonies * colony[e.job] for e in open_left(plan))
    return whole + up(grams * prices.worth_feed_cents, 1000)


def colonies_fed_early(plan: Plan) -> int:
    """Colonies fed at stops that begin before the time of day set for it."""
    calls = [call for shift in plan.shifts for trip in shift.trips for call in trip.calls]
    early = [c for c in calls if c.start_min % DAY_MIN < plan.outfit.rules.feed_late_from_min]
    return sum(a.colonies for call in early for a in call.actions if a.job is Job.FEED)


def doubtful_colonies(plan: Plan) -> int:
    """Colonies opened or fed, each by the chance (per mille) that its day turns out otherwise."""
    found = 0
    for shift in plan.shifts:
        for call in (call for trip in shift.trips for call in trip.calls if call.yard):
            sure = plan.outfit.yard(call.yard).sure_permille
            work = [a.colonies for a in call.actions if a.job in {Job.TAKE_OFF, Job.FEED}]
            found += max(work, default=0) * (1000 - sure[shift.day] if sure else 0)
    return found


def late_colony_days(plan: Plan) -> int:
    """Colony-days past priced deadlines."""
    season, days = plan.outfit.season, 0
    by: dict[Job, Deadline] = {
        Job.TAKE_OFF: season.take_off_by,
        Job.FEED: season.feed_by,
        Job.STRIPS: season.strips_by,
    }
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
        lain = yard.boards_on_min
        on = [] if lain is None else [lain] * yard.colonies
        on += [
            c.end_min
            for c in calls
            for a in c.actions
            if a.job is Job.BOARDS
            for _ in range(a.colonies)
        ]
        off = [
            c.start_min
            for c in calls
            for a in c.actions
            if a.job is Job.TAKE_OFF and a.way is None
            for _ in range(a.colonies)
        ]
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
    return sum(
        up(max(0, start - due), DAY_MIN)
        for start, due in zip(starts, boxes, strict=False)
        if due is not None
    )


def arrivals(plan: Plan) -> list[tuple[int, Trip]]:
    """When each trip with honey has unloaded it, in order of shifts."""
    house, found = plan.outfit.honey_house.base.place, []
    for s in plan.shifts:
        for t in s.trips:
            ends = [c.end_min for c in t.calls if c.kind is CallKind.UNLOAD and c.place == house]
            if ends and any(a.boxes for c in t.calls for a in c.actions):
                found.append((ends[0], t))
    return found
