"""Plans built by hand for the papers; all places, people and figures invented.

The papers print what a plan says, so these need only hang together as far as a paper
looks: times follow the test grid (a minute a kilometre) and loads are added up.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from runplanner.daybook.plan import (
    Bill,
    Bound,
    Mixing,
    Plan,
    Relief,
    Search,
    Spinning,
    Tally,
    Undone,
)
from runplanner.daybook.trip import Aboard, Action, Call, CallKind, Carried, Job, Shift, Trip
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.people import Person
from runplanner.outfit.stores import BoxKind, Container
from runplanner.outfit.trucks import Deck, Trailer
from runplanner.outfit.yards import Access, Clearing, Health, Place, Yard
from runplanner.phrase import phrase, verbatim
from tests.outfits import a_truck, a_yard, an_outfit, daily

HOSTILE = (
    "{{7*7}} {% x %}",
    "<img src=x onerror=alert(1)>",
    '=HYPERLINK("x","y")',
    "</td></table><script>alert(1)</script>",
    "Mill \"Lane\" & 'Co' ${x} `y` \\",
    "two\nlines\u2028three",
    "\u202eturned \u05d0\u05d1",
    "long " * 2_000,
)


@dataclass(frozen=True)
class Stop:
    """One stop as a test writes it down: yard number, minutes of work, jobs."""

    yard: int
    minutes: int
    actions: tuple[Action, ...]
    wait: int = 0


@dataclass(frozen=True)
class Round:
    """One trip as a test writes it down."""

    id: str
    stops: tuple[Stop, ...]
    containers: tuple[Carried, ...] = ()
    break_after: int = 0


def a_shift(
    outfit: Outfit,
    day: int,
    rounds: Sequence[Round],
    *,
    start: int = 6 * 60,
    truck: str = "truck1",
    trailer: str = "",
    crew: tuple[str, ...] = ("ann", "bob"),
) -> Shift:
    """Drive ``rounds`` one after the other from the base and write the shift down."""
    now = day * DAY_MIN + start
    trips, breaks, driven = [], [], 0
    for each in rounds:
        trip, took = _trip(outfit, day, each, now, 1_600_000 if trailer else 1_000_000)
        trips.append(trip)
        driven += took
        now = trip.calls[-1].leave_min
        breaks += [
            Span(call.end_min, call.leave_min)
            for call in trip.calls
            if call.leave_min > call.end_min
        ]
    return Shift(
        day,
        truck,
        trailer,
        crew,
        day * DAY_MIN + start,
        now,
        driven,
        driven * 1000,
        tuple(breaks),
        tuple(trips),
    )


def _trip(outfit: Outfit, day: int, each: Round, start: int, load_max_g: int) -> tuple[Trip, int]:
    goods = [action for stop in each.stops for action in stop.actions]
    aboard = Aboard(
        boxes=0,
        brood_boxes=0,
        ml=sum(action.ml for action in goods),
        blocks=sum(action.pieces for action in goods if action.job is Job.BLOCK),
        boards=sum(action.pieces for action in goods if action.job is Job.BOARDS),
        strips=sum(action.pieces for action in goods if action.job is Job.STRIPS),
        feeders=sum(action.feeders for action in goods),
        load_g=0,
        load_max_g=load_max_g,
        places=0,
        places_max=40 if load_max_g > 1_000_000 else 24,
    )
    grams = 0
    aboard = _weighed(outfit, each, aboard, grams)
    calls = [_call(CallKind.LOAD, 0, "", start, (start, start + 25, start + 25), (), aboard)]
    here, now, driven = 0, start + 25, 0
    for number, stop in enumerate(each.stops):
        yard = outfit.yards[stop.yard - 1]
        place = yard.place_on(day)
        leg = outfit.travel.minutes[here][place] or 0
        arrive, begin = now + leg, now + leg + stop.wait
        end = begin + stop.minutes
        leave = end + (45 if number + 1 == each.break_after else 0)
        grams += sum(action.boxes for action in stop.actions) * yard.box_g
        aboard = _weighed(outfit, each, _after(aboard, stop.actions), grams)
        calls.append(
            _call(CallKind.YARD, place, yard.id, arrive, (begin, end, leave), stop.actions, aboard)
        )
        here, now, driven = place, leave, driven + leg
    leg = outfit.travel.minutes[here][0] or 0
    empty = replace(aboard, boxes=0, brood_boxes=0)
    arrive = now + leg
    calls.append(
        _call(
            CallKind.UNLOAD,
            0,
            "",
            arrive,
            (arrive, arrive + 20, arrive + 20),
            (),
            _weighed(outfit, each, empty, 0),
        )
    )
    return Trip(each.id, tuple(calls), each.containers), driven + leg


def _call(
    kind: CallKind,
    place: int,
    yard: str,
    arrive: int,
    clock: tuple[int, int, int],
    actions: tuple[Action, ...],
    aboard: Aboard,
) -> Call:
    begin, end, leave = clock
    boxes = sum(action.boxes for action in actions)
    return Call(
        kind,
        place,
        yard,
        arrive,
        begin,
        end,
        leave,
        leave + 35,
        boxes + 6 if boxes else 0,
        actions,
        aboard,
    )


def _after(aboard: Aboard, actions: Sequence[Action]) -> Aboard:
    for action in actions:
        aboard = replace(
            aboard,
            boxes=aboard.boxes + action.boxes,
            brood_boxes=aboard.brood_boxes + action.brood_boxes,
            ml=aboard.ml - action.ml,
            blocks=aboard.blocks - (action.pieces if action.job is Job.BLOCK else 0),
            boards=aboard.boards
            - (action.pieces if action.job is Job.BOARDS else 0)
            + action.boards_off,
            strips=aboard.strips - (action.pieces if action.job is Job.STRIPS else 0),
            feeders=aboard.feeders - action.feeders,
        )
    return aboard


def _weighed(outfit: Outfit, each: Round, aboard: Aboard, box_grams: int) -> Aboard:
    kinds = {kind.id: kind for kind in outfit.containers}
    tanks = sum(kinds[one.container].empty_g * one.count for one in each.containers)
    kit = outfit.kit
    load_g = (
        box_grams
        + tanks
        + aboard.ml * outfit.feed.density_g_per_l // 1000
        + aboard.blocks * kit.block_g
        + aboard.boards * kit.board_g
        + aboard.strips * kit.strip_g
    )
    places = -(-aboard.boxes // 5) + (6 if tanks > 20_000 else 0) + -(-aboard.blocks // 60)
    return replace(aboard, load_g=load_g, places=places)


def take_off(colonies: int, boxes: int, *, boards_off: int = 0, brood_boxes: int = 0) -> Action:
    """A take-off."""
    return Action(
        Job.TAKE_OFF, colonies, boxes=boxes, boards_off=boards_off, brood_boxes=brood_boxes
    )


def block(colonies: int) -> Action:
    """A block on each of some colonies."""
    return Action(Job.BLOCK, colonies, pieces=colonies)


def feed(colonies: int, litres: int, feed_round: int = 1) -> Action:
    """A feed of so many litres in all."""
    return Action(Job.FEED, colonies, round=feed_round, ml=litres * 1000)


def strips(colonies: int) -> Action:
    """Two strips a colony."""
    return Action(Job.STRIPS, colonies, pieces=2 * colonies)


def boards(colonies: int) -> Action:
    """A clearer board on each."""
    return Action(Job.BOARDS, colonies, pieces=colonies)


IBC = Carried("ibc", 1)
BILL = Bill(10_000, 8_000, 90_000, 500, 20_000, 3_000, 4_000, 15_000, 8_000, 2_000, 0, 50)
BOUND = Bound(phrase("all plans with no more undone"), 150_000, 80_000, Tally(0, 0, 0, 3))
SEARCH = Search(7, 3, phrase("the gap closed"), (("runplanner", "0.1.0"),))


def small_plan() -> Plan:
    """Two yards, one truck, six days, every job once, and three colonies left."""
    outfit = an_outfit()
    days = (
        a_shift(
            outfit, 0, [Round("0301-truck1-0001", (Stop(1, 90, (take_off(10, 15), block(10))),))]
        ),
        a_shift(
            outfit,
            1,
            [
                Round(
                    "0302-truck1-0001",
                    (Stop(1, 60, (feed(10, 90), strips(10))), Stop(2, 20, (boards(10),))),
                    (IBC,),
                )
            ],
        ),
        a_shift(
            outfit,
            3,
            [Round("0304-truck1-0001", (Stop(2, 80, (take_off(7, 11, boards_off=7), block(7))),))],
            start=8 * 60,
        ),
    )
    return Plan(
        outfit=outfit,
        shifts=days,
        spinning=(
            Spinning(2 * DAY_MIN + 480, 2 * DAY_MIN + 570, ("ann",), 15),
            Spinning(4 * DAY_MIN + 480, 4 * DAY_MIN + 540, ("ann", "bob"), 11),
        ),
        mixing=(Mixing(13 * 60, 14 * 60, "bob", 90_000),),
        undone=(
            Undone(
                "yard2",
                Job.TAKE_OFF,
                3,
                0,
                (phrase("The window on Thu 4 Mar shuts at 12:00."), phrase("Bob is away.")),
            ),
        ),
        reliefs=(
            Relief(phrase("one more day"), 1, 1, 12_300),
            Relief(phrase("a trailer"), 0, 1, None),
        ),
        tally=Tally(0, 10, 80_000, 3),
        bill=BILL,
        bound=BOUND,
        search=SEARCH,
    )


NAMES = (
    "Kauri Flat", "Old Woolshed", "Pukatea Bend", "Quarry Terrace",
    "Top of Rimu Road", "Dray Track", "Salt Paddock", "Ninety Acre Bush",
)  # fmt: skip
NOTES = (
    "Second gate on the left, code 4417. Turn by the woolshed: no room past the hives.",
    "Key under the third strainer post. Dog (Tui) is chained, loud.",
    "Back in: the track ends at the hives. Soft after rain, stay on the metal.",
    "",
    "Ring the farmer before you come: cows in the race until 8.",
    "Ford is 20 cm deep. Do not cross if the white stone is under water.",
    "Gate sticks, lift it. Shut it: rams.",
    "Key from the dairy. Own doubt about two colonies at the road end: keep those boxes apart.",
)


def _eight_yards(days: int) -> tuple[Yard, ...]:
    made = []
    for number, name in enumerate(NAMES, start=1):
        yard = a_yard(number, colonies=12 + number, boxes=8 + number, days=days)
        access = Access(
            opens_min=7 * 60 if number % 2 else 0,
            closes_min=19 * 60 if number % 2 else 1440,
            max_vehicle_g=7_500_000 if number == 6 else None,
            trailer=number != 3,
            notes=NOTES[number - 1],
            phone=f"+64 21 555 01{number:02d}" if number != 4 else "",
        )
        made.append(
            replace(
                yard,
                name=name,
                box_g=27_500 if number == 2 else 15_500,
                clearing=Clearing.BOARDS if number in (1, 2) else Clearing.BRUSH,
                health=Health.WATCH if number == 8 else Health.SOUND,
                spin_by_hard=number == 5,
                unsettled_spans=daily(14 * 60, 16 * 60, (4,)),
                access=access,
            )
        )
    return tuple(made)


def eight_stop_plan() -> Plan:
    """One long day of eight stops with truck and trailer, all kinds of jobs and notes."""
    spots = ((12, 3), (18, 6), (24, 2), (30, 8), (36, 4), (40, 10), (33, 14), (20, 16))
    truck = replace(
        a_truck(),
        name="Blue flat-deck",
        train_max_g=6_000_000,
        max_g=4_500_000,
        drivers=("ann", "cy"),
    )
    trailer = Trailer(
        "tandem", "Tandem trailer", 500_000, 2_000_000, Deck(3_000, 1_900, 1_200, 4), 2_100, 900, 15
    )
    outfit = an_outfit(
        spots,
        _eight_yards(6),
        title="Invented outfit of the North (demo data)",
        trucks=(truck,),
        trailers=(trailer,),
        people=(
            Person("ann", "Anahera", True, True, True),
            Person("bob", "Bo", False, True, True),
            Person("cy", "Cyrus", True, True, False, (2,)),
        ),
    )
    outfit = replace(
        outfit,
        places=tuple(
            replace(place, lat=-35.3 - place.lat, lon=174.1 + place.lon, name=name)
            for place, name in zip(outfit.places, ("Depot at Kaeo Road", *NAMES), strict=True)
        ),
        containers=(
            Container("ibc", "IBC 1000 L", 1_000_000, 60_000, 1_200, 1_000, 1),
            Container("drum", "Drum 200 L", 200_000, 9_000, 600, 600, 4),
        ),
    )
    stops = (
        Stop(1, 35, (take_off(13, 9, boards_off=13), feed(13, 65), strips(13))),
        Stop(2, 40, (take_off(14, 10, boards_off=14, brood_boxes=2), feed(14, 70), strips(14))),
        Stop(3, 20, (feed(15, 75, 2),)),
        Stop(4, 20, (boards(16),)),
        Stop(5, 35, (take_off(9, 7), block(9)), wait=15),
        Stop(6, 15, (block(18),)),
        Stop(7, 25, (strips(19), feed(19, 95, 2))),
        Stop(8, 45, (take_off(20, 16), block(20))),
    )
    long_day = a_shift(
        outfit,
        1,
        [Round("0302-truck1-0001", stops, (IBC, Carried("drum", 2)), break_after=4)],
        start=5 * 60,
        trailer="tandem",
    )
    first = a_shift(
        outfit,
        0,
        [
            Round("0301-truck1-0001", (Stop(1, 25, (boards(13),)), Stop(2, 25, (boards(14),)))),
            Round(
                "0301-truck1-0002",
                (
                    Stop(3, 90, (take_off(15, 11), feed(15, 75))),
                    Stop(6, 60, (take_off(18, 14), block(18))),
                ),
                (IBC,),
            ),
        ],
    )
    second = a_shift(
        outfit,
        2,
        [
            Round(
                "0303-truck1-0001",
                (
                    Stop(5, 40, (take_off(8, 6), feed(17, 85), strips(17))),
                    Stop(6, 30, (feed(18, 90),)),
                ),
                (IBC,),
            )
        ],
    )
    return Plan(
        outfit=outfit,
        shifts=(first, long_day, second),
        spinning=(
            Spinning(DAY_MIN + 480, DAY_MIN + 720, ("cy",), 25),
            Spinning(2 * DAY_MIN + 780, 2 * DAY_MIN + 1_020, ("cy", "bob"), 40),
            Spinning(3 * DAY_MIN + 480, 3 * DAY_MIN + 600, ("cy",), 8),
        ),
        mixing=(
            Mixing(-DAY_MIN + 480, -DAY_MIN + 960, "cy", 380_000),
            Mixing(13 * 60, 16 * 60, "cy", 305_000),
        ),
        undone=(
            Undone(
                "yard8",
                Job.FEED,
                20,
                160_000,
                (
                    phrase("Feed must be done by Fri 5 Mar."),
                    phrase("All drivers are out on that day."),
                ),
            ),
            Undone("yard4", Job.TAKE_OFF, 16, 0, (phrase("The truck is full on every day left."),)),
        ),
        reliefs=(
            Relief(phrase("one more day"), 2, 2, 31_450),
            Relief(phrase("a second crew"), 1, 2, 40_000),
            Relief(phrase("a longer day"), 0, 2, None),
        ),
        tally=Tally(20, 20, 160_000, 16),
        bill=BILL,
        bound=BOUND,
        search=SEARCH,
        now_min=0,
    )


def hostile_plan() -> Plan:
    """The small plan with hostile words in every field that people type."""
    plan = small_plan()
    outfit = plan.outfit
    yards = tuple(
        replace(yard, name=HOSTILE[i], access=Access(notes=HOSTILE[i + 2], phone=HOSTILE[i + 4]))
        for i, yard in enumerate(outfit.yards)
    )
    hostile = replace(
        outfit,
        title=HOSTILE[1],
        places=tuple(
            Place(place.id, HOSTILE[3 + i], place.lat, place.lon)
            for i, place in enumerate(outfit.places)
        ),
        yards=yards,
        trucks=tuple(replace(truck, name=HOSTILE[2]) for truck in outfit.trucks),
        boxes=tuple(
            BoxKind(box.id, HOSTILE[1], box.length_mm, box.width_mm, box.height_mm, box.empty_g)
            for box in outfit.boxes
        ),
        containers=tuple(replace(kind, name=HOSTILE[4]) for kind in outfit.containers),
        people=tuple(replace(one, name=HOSTILE[i + 6]) for i, one in enumerate(outfit.people)),
        feed=replace(outfit.feed, name=verbatim(HOSTILE[3])),
        strips=replace(outfit.strips, substance=HOSTILE[1]),
        travel=replace(outfit.travel, source=verbatim(HOSTILE[3])),
        prices=replace(outfit.prices, currency=HOSTILE[0]),
    )
    return replace(
        plan,
        outfit=hostile,
        undone=(Undone("yard2", Job.TAKE_OFF, 3, 0, tuple(verbatim(one) for one in HOSTILE)),),
        reliefs=(Relief(verbatim(HOSTILE[3]), 1, 1, 5), Relief(verbatim(HOSTILE[1]), 0, 1, None)),
        bound=replace(plan.bound, kind=verbatim(HOSTILE[1])),
        search=Search(1, 1, verbatim(HOSTILE[3]), ((HOSTILE[0], HOSTILE[1]),)),
    )


def from_elsewhere(plan: Plan) -> Plan:
    """The plan when home is another place than the store."""
    home = replace(plan.outfit.home, place=1)
    return replace(plan, outfit=replace(plan.outfit, home=home))


def in_shells(plan: Plan) -> Plan:
    """The plan in another currency."""
    prices = replace(plan.outfit.prices, currency="shells")
    return replace(plan, outfit=replace(plan.outfit, prices=prices))


def dear_plan() -> Plan:
    """The small plan, its undone work left for its cost: 41.20 shells where it is worth 30.00.

    The currency is found in no other word; NZD is, in NZDT.
    """
    plan = in_shells(small_plan())
    undone = tuple(
        replace(one, why=(phrase("left on purpose"),), cost_cents=4_120, worth_cents=3_000)
        for one in plan.undone
    )
    return replace(plan, undone=undone)
