"""Plans built by hand for the map's tests: invented yards, invented people, nothing solved."""

from collections.abc import Sequence
from dataclasses import replace

from runplanner.daybook.plan import Bill, Bound, Plan, Search, Tally, Undone
from runplanner.daybook.trip import Aboard, Action, Call, CallKind, Job, Shift, Trip
from runplanner.days import DAY_MIN
from runplanner.outfit.bases import Base, HoneyHouse, Travel
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Access, Health, Place, Yard
from runplanner.phrase import phrase
from tests.outfits import a_truck, a_yard, an_outfit

HOSTILE = (
    "{{7*7}}",
    "<img src=x onerror=alert(1)>",
    "O'Brien's \"far\" corner",
    "back\\slash\\u0041",
    "${1+1} `tick`",
    "</script><script>alert(2)</script>",
    "\u05d7\u05e6\u05e8 \u05d4\u05d3\u05d1\u05e9 \u202eabc",
    "two\nlines",
    "{% raw %} {# note #}",
    "&lt;b&gt; &amp; <b>bold</b>",
    "''.__class__.__mro__",
    "x" * 10_000,
)
PLAIN = (
    "Long Paddock", "Willow Bend", "Quarry Road", "The Terrace", "Fork Creek", "Station Flat",
    "Old Orchard", "Rimu Gate", "Lower Ford", "Windmill", "Clover Block", "Far Hut",
)  # fmt: skip
# (lat, lon) of home, honey house, feed store and twelve yards: an invented valley.
_BASES = ((-40.95, 175.60), (-40.99, 175.66), (-40.95, 175.60))
_VALLEY = (
    (-40.87, 175.52), (-40.84, 175.61), (-40.90, 175.71), (-40.81, 175.73),
    (-40.98, 175.78), (-41.06, 175.74), (-41.10, 175.62), (-41.05, 175.52),
    (-41.00, 175.47), (-40.93, 175.42), (-41.14, 175.50), (-40.78, 175.50),
)  # fmt: skip
GATE = "gate code 4711, key under the third stone"
PHONE = "+64 00 000 0000"

Stop = tuple[int, tuple[Action, ...]]
Drive = tuple[int, int, tuple[Stop, ...]]  # day, truck, stops


def a_plan(names: Sequence[str] = PLAIN) -> Plan:
    """Twelve yards, three days, five trips; one yard on watch, one at standstill, one undone."""
    yards = [_yard(number, name) for number, name in enumerate(names)]
    yards[4] = replace(yards[4], health=Health.WATCH)
    yards[9] = replace(yards[9], health=Health.STANDSTILL)
    outfit = _outfit(yards, _BASES, _VALLEY)
    off, block, feed, strips = _jobs(10, 15)
    both = (off, feed, strips)
    drives: tuple[Drive, ...] = (
        (0, 0, ((0, (off, block)), (1, (off, block)))),
        (0, 0, ((2, both), (3, (off, block)))),
        (1, 0, ((0, (feed, strips)), (1, (feed, strips)), (11, both))),
        (2, 0, ((5, both), (6, both), (7, (off, block)), (4, (off, block)))),
        (2, 0, ((8, both),)),
    )
    undone = (
        Undone("yard7", Job.FEED, 10, 8_000, (phrase("No day is left after its take-off."),)),
        Undone("yard10", Job.TAKE_OFF, 10, 0, (phrase("Rain on every day within reach."),)),
        Undone("yard10", Job.FEED, 10, 8_000, (phrase("Its boxes are still on."),)),
    )
    return plan_of(outfit, drives, undone)


def a_big_plan() -> Plan:
    """Forty yards, two trucks, twelve days, about thirty trips, two days already driven."""
    yards = [_yard(n, f"{PLAIN[n % 12]} {n + 1}", 6 + n * 7 % 25) for n in range(40)]
    yards[6] = replace(yards[6], health=Health.SUSPECT)
    spots = [(-40.95 + _spread(n, 11) * 0.42, 175.6 + _spread(n, 29) * 0.62) for n in range(40)]
    outfit = replace(
        _outfit(yards, _BASES, spots),
        title="Two trucks, forty yards (invented)",
        trucks=(a_truck(1), replace(a_truck(2), name="Flatbed")),
    )
    order = sorted(range(40), key=lambda n: (round((spots[n][1] - 175) * 9), spots[n][0]))
    drives: list[Drive] = []
    for number in range(0, 40, 3):
        day, truck = divmod(number // 3, 2)
        stops = tuple(
            (n, _jobs(outfit.yards[n].colonies, 12)[:2]) for n in order[number : number + 3]
        )
        again = tuple(
            (n, _jobs(outfit.yards[n].colonies, 12)[2:]) for n in order[number : number + 3]
        )
        drives += [(day, truck, stops), (day + 4, truck, again)]
    plan = plan_of(outfit, sorted(drives, key=lambda drive: drive[:2]), ())
    return _driven(replace(plan, now_min=2 * DAY_MIN), 2)


def a_dateline_plan() -> Plan:
    """Two yards seventeen kilometres apart with the date line between them."""
    yards = [_yard(0, "West of it"), _yard(1, "East of it")]
    bases = ((-17.0, 179.8),) * 3
    outfit = _outfit(yards, bases, ((-17.0, 179.9), (-17.05, -179.9)))
    off, block, *_ = _jobs(10, 15)
    return plan_of(outfit, ((0, 0, ((0, (off, block)), (1, (off, block)))),), ())


def a_crowded_plan() -> Plan:
    """Two yards on one spot, and that spot is the base; one yard moves on day 2."""
    yards = [_yard(0, "At home"), _yard(1, "Behind the barn"), _yard(2, "Mover")]
    yards[2] = replace(yards[2], sites=((0, 5), (2, 6)))
    spots = ((-40.95, 175.60), (-40.95, 175.60), (-40.90, 175.7), (-41.0, 175.5))
    outfit = _outfit(yards, _BASES, spots)
    off, block, *_ = _jobs(10, 15)
    return plan_of(outfit, ((0, 0, ((0, (off, block)), (2, (off,)))),), ())


def a_moving_plan(now_min: int = 0) -> Plan:
    """Long Paddock, worked at on days 0 and 1, stands at Far Hut's place from day 1 on."""
    plan = a_plan()
    first, *others = plan.outfit.yards
    there = others[-1].sites[0][1]
    yards = (replace(first, sites=((0, first.sites[0][1]), (1, there))), *others)
    shifts = tuple(
        replace(shift, trips=tuple(_called_at(trip, first.id, there) for trip in shift.trips))
        if shift.day
        else shift
        for shift in plan.shifts
    )
    return replace(plan, outfit=replace(plan.outfit, yards=yards), shifts=shifts, now_min=now_min)


def _called_at(trip: Trip, yard: str, place: int) -> Trip:
    calls = (replace(one, place=place) if one.yard == yard else one for one in trip.calls)
    return replace(trip, calls=tuple(calls))


def an_empty_plan() -> Plan:
    """No trips at all: every job still to do, nothing planned."""
    return plan_of(_outfit([_yard(0, "Alone")], _BASES, _VALLEY[:1]), (), ())


def plan_of(outfit: Outfit, drives: Sequence[Drive], undone: tuple[Undone, ...]) -> Plan:
    """A plan with the given drives, each day's drives of one truck one after another."""
    shifts: dict[tuple[int, int], Shift] = {}
    for day, truck, stops in drives:
        shift = shifts.get((day, truck)) or _empty_shift(outfit, day, truck)
        trip = _trip(outfit, f"{day}-{truck}-{len(shift.trips) + 1}", shift.end_min, stops)
        end = trip.calls[-1].leave_min + 20
        shifts[day, truck] = replace(shift, trips=(*shift.trips, trip), end_min=end)
    none = Tally(0, 0, 0, 0)
    return Plan(
        outfit=outfit,
        shifts=tuple(shifts.values()),
        spinning=(),
        mixing=(),
        undone=undone,
        reliefs=(),
        tally=none,
        bill=Bill(*([0] * 12)),
        bound=Bound(phrase("none"), 0, 0, none),
        search=Search(1, 0, phrase("by hand"), ()),
    )


def _yard(number: int, name: str, colonies: int = 10) -> Yard:
    access = Access(notes=GATE, phone=PHONE)
    yard = a_yard(number + 1, colonies=colonies)
    return replace(yard, name=name, sites=((0, number + 3),), access=access)


def _outfit(
    yards: Sequence[Yard],
    bases: Sequence[tuple[float, float]],
    spots: Sequence[tuple[float, float]],
) -> Outfit:
    names = ("The shed", "Honey house", "Feed store")
    places = [Place(f"base{n}", names[n], *spot) for n, spot in enumerate(bases)]
    places += [Place(f"place{n}", f"Place {n}", *spot) for n, spot in enumerate(spots)]
    flat = tuple(tuple(20 for _ in places) for _ in places)
    feed_store = 0 if bases[0] == bases[2] else 2
    return replace(
        an_outfit(yards=yards),
        title="A valley of twelve yards (invented)",
        places=tuple(places),
        travel=Travel(flat, flat, phrase("straight lines with a detour factor, for tests")),
        home=Base(0, 0, DAY_MIN),
        feed_store=Base(feed_store, 0, DAY_MIN),
        honey_house=HoneyHouse(Base(1, 0, DAY_MIN), (0, 12, 20), 400, 0, 480, 1080),
    )


def _jobs(colonies: int, boxes: int) -> tuple[Action, Action, Action, Action]:
    return (
        Action(Job.TAKE_OFF, colonies, boxes=boxes),
        Action(Job.BLOCK, colonies, pieces=colonies),
        Action(Job.FEED, colonies, round=1, ml=colonies * 5_000),
        Action(Job.STRIPS, colonies, pieces=colonies * 2),
    )


def _empty_shift(outfit: Outfit, day: int, truck: int) -> Shift:
    start = day * DAY_MIN + 6 * 60
    return Shift(
        day, outfit.trucks[truck].id, "", ("ann", "bob"), start, start, 120, 90_000, (), ()
    )


def _trip(outfit: Outfit, trip_id: str, start: int, stops: Sequence[Stop]) -> Trip:
    """Load everything, give and take at each stop, unload; twenty minutes for each drive."""
    work = [action for _, actions in stops for action in actions]
    ml = sum(action.ml for action in work)
    blocks = sum(action.pieces for action in work if action.job is Job.BLOCK)
    strips = sum(action.pieces for action in work if action.job is Job.STRIPS)
    calls = [
        _call(CallKind.LOAD, outfit.feed_store.place, "", start, _aboard(0, ml, blocks, strips))
    ]
    boxes = 0
    for number, actions in stops:
        yard = outfit.yards[number]
        for action in actions:
            boxes += action.boxes
            ml -= action.ml
            blocks -= action.pieces if action.job is Job.BLOCK else 0
            strips -= action.pieces if action.job is Job.STRIPS else 0
        at = calls[-1].leave_min + 20
        place = yard.place_on(at // DAY_MIN)
        call = _call(CallKind.YARD, place, yard.id, at, _aboard(boxes, ml, blocks, strips))
        calls.append(replace(call, actions=actions))
    place = outfit.honey_house.base.place if boxes else outfit.feed_store.place
    calls.append(_call(CallKind.UNLOAD, place, "", calls[-1].leave_min + 20, _aboard(0, 0, 0, 0)))
    return Trip(trip_id, tuple(calls), ())


def _call(kind: CallKind, place: int, yard: str, at: int, after: Aboard) -> Call:
    return Call(kind, place, yard, at, at, at + 40, at + 40, at + 60, 60, (), after)


def _aboard(boxes: int, ml: int, blocks: int, strips: int) -> Aboard:
    """Boxes of 16 kg, syrup of 1.327 kg/L in a 60 kg tank, blocks of 2.1 kg, 10 g strips."""
    grams = boxes * 16_000 + ml * 1_327 // 1_000 + 60_000 + blocks * 2_100 + strips * 10
    return Aboard(boxes, 0, ml, blocks, 0, strips, 0, grams, 1_100_000, 4 + boxes // 5, 24)


def _spread(number: int, prime: int) -> float:
    """A fixed scatter from -0.5 to 0.5 (golden-ratio steps, no chance in it)."""
    return (number * 0.6180339887 * prime % 1.0) - 0.5


def _driven(plan: Plan, before_day: int) -> Plan:
    shifts = tuple(
        replace(shift, trips=tuple(replace(trip, driven=True) for trip in shift.trips))
        if shift.day < before_day
        else shift
        for shift in plan.shifts
    )
    return replace(plan, shifts=shifts)
