"""Random small outfits for hypothesis: invented, often awkward, never nonsense."""

from dataclasses import replace

from hypothesis import strategies as st

from runplanner.days import DAY_MIN, Span
from runplanner.outfit.bases import Base, HoneyHouse, Travel
from runplanner.outfit.outfit import Deadline, Outfit, Rules, Season
from runplanner.outfit.people import Hours, Person
from runplanner.outfit.stores import BoxKind, Container, Feed, Kit, Strips
from runplanner.outfit.trucks import Axles, Deck, Nose, Trailer, Truck
from runplanner.outfit.yards import CLOSED, Access, Clearing, Health, Place, Yard
from runplanner.phrase import phrase, verbatim
from tests.outfits import a_truck, a_yard, an_outfit

FULL = (480, 1080)
PARTS = ((), ((480, 720),), ((780, 1080),), ((480, 600), (840, 1080)))
HOURS = ((FULL,),) * 12 + PARTS
BOXES = (
    BoxKind("medium", "Langstroth medium", 508, 413, 168, 4_500),
    BoxKind("deep", "Dadant", 520, 440, 310, 6_000),
)
BUSY = tuple({7: 1_500, 8: 1_300, 16: 2_000}.get(hour, 1_000) for hour in range(24))
SURE = ((), (), (), (1_000, 600), (0, 850, 500, 1_000, 300))
"""How sure the weather is, for the first days; of those after them nothing is foretold."""
ROOMY = Deck(3_100, 2_100, 1_200, 5)


def rarely(value: object, usual: object) -> st.SearchStrategy:
    """The usual value nine times out of ten (and first when a failure is made smaller)."""
    return st.sampled_from((*(usual,) * 9, value))


@st.composite
def spans(draw: st.DrawFn, days: int) -> tuple[Span, ...]:
    """Hours fit for something: none, all day, or parts, day by day."""
    chosen = draw(st.lists(st.sampled_from(HOURS), min_size=days, max_size=days))
    return tuple(
        Span(day * DAY_MIN + a, day * DAY_MIN + b)
        for day, parts in enumerate(chosen)
        for a, b in parts
    )


@st.composite
def other_strips(draw: st.DrawFn) -> Strips:
    """Strips of another substance, with a mass and price of their own or the usual."""
    return Strips(
        "formic acid", 1, draw(rarely(6, None)), 7, 14, draw(st.sampled_from((0, 1, 7))),
        "other", draw(st.sampled_from((None, 80))), draw(st.sampled_from((None, 450, 0))),
    )  # fmt: skip


@st.composite
def accesses(draw: st.DrawFn) -> Access:
    """Gates: mostly open to all."""
    opens, closes = draw(rarely((9 * 60, 15 * 60), (0, DAY_MIN)))
    return Access(
        opens_min=opens,
        closes_min=closes,
        max_vehicle_g=draw(rarely(3_200_000, None)),
        max_width_mm=draw(rarely(2_000, None)),
        four_wheel=draw(rarely(True, False)),
        trailer=draw(st.booleans()),
    )


@st.composite
def yards(draw: st.DrawFn, number: int, days: int, spare_place: int) -> Yard:
    """One yard at place ``number``, now and then moved to ``spare_place``."""
    colonies = draw(st.integers(1, 16))
    boxes = draw(st.integers(0, 2 * colonies))
    ready = draw(rarely(1, 0))
    moved = draw(rarely(True, False))
    unsettled = draw(rarely(draw(st.lists(st.integers(0, 2 * days), max_size=2)), ()))
    made = replace(
        a_yard(number, colonies=colonies, boxes=boxes, days=days),
        sites=((0, number), (days // 2, spare_place)) if moved else ((0, number),),
        box=draw(st.sampled_from(("medium", "medium", "deep"))),
        box_g=draw(st.integers(8_000, 25_000)),
        brood_boxes_off=draw(rarely(draw(st.integers(1, colonies)), 0)),
        clearing=draw(st.sampled_from(list(Clearing))),
        stores_g=draw(st.sampled_from((None, 0, 2_500, 6_000, 9_000))),
        target_g=draw(rarely(14_000, 8_000)),
        feeder_ml=draw(st.sampled_from((10_000, 10_000, 6_000, 3_000))),
        ready_from_day=ready,
        finish_by_day=draw(rarely(draw(st.integers(ready, days - 1)), days - 1)),
        spin_by_min=draw(st.sampled_from((12 * 60, 24 * 60, 72 * 60))),
        spin_by_hard=draw(rarely(True, False)),
        health=draw(st.sampled_from([Health.SOUND] * 20 + list(Health))),
        feed_agreed=draw(st.booleans()),
        access=draw(accesses()),
        open_spans=draw(spans(days)),
        feed_spans=draw(spans(days)),
        unsettled_spans=tuple(Span(h * 720 + 240, h * 720 + 700) for h in sorted(set(unsettled))),
        strips_shut_days=tuple(draw(rarely((0, 1), ()))),
        strips=draw(st.sampled_from(("", "", "", "other", "double"))),
        sure_permille=draw(st.sampled_from(SURE))[:days],
        wet_back=draw(st.sampled_from((False, False, True))),
    )
    # Where nothing may leave, the hives stay as well.
    stays = replace(made, sites=made.sites[:1]) if made.health in CLOSED else made
    return two_ways(draw, stays)


def two_ways(draw: st.DrawFn, yard: Yard) -> Yard:
    """The yard, now and then with another way of clearing, or with boards on already."""
    other = draw(st.sampled_from((None, None, Clearing.BRUSH, Clearing.BLOWER)))
    lain = draw(st.sampled_from((None, None, None, -1, -1_000, -4_000)))
    boarded = yard.clearing is Clearing.BOARDS
    return replace(
        yard,
        clearing_else=None if yard.clearing in {other, Clearing.WARM_BOARD} else other,
        boards_on_min=lain if boarded and yard.boxes else None,
    )


@st.composite
def trucks(draw: st.DrawFn, number: int, drivers: tuple[str, ...], days: int) -> Truck:
    """A truck of about 3.5 t, now and then with axle limits, slow, wide or away."""
    axles = Axles(1_100_000, 1_000_000, 900_000, 1_700_000, 2_250_000, 900)
    return replace(
        a_truck(number),
        max_g=draw(st.sampled_from((3_500_000, 3_500_000, 2_900_000, 7_500_000))),
        train_max_g=draw(st.sampled_from((None, 4_500_000))),
        deck=draw(st.sampled_from((ROOMY, Deck(2_100, 1_700, 900, 4)))),
        axles=draw(rarely(axles, None)),
        seats=draw(st.integers(1, 3)),
        four_wheel=draw(st.booleans()),
        width_mm=draw(st.sampled_from((1_950, 2_100))),
        speed_permille=draw(st.sampled_from((1_000, 900))),
        km_cents=draw(st.integers(0, 100)),
        day_cents=draw(st.sampled_from((0, 4_000))),
        drivers=drivers,
        out_days=tuple(draw(rarely((draw(st.integers(0, days - 1)),), ()))),
    )


@st.composite
def people(draw: st.DrawFn, days: int) -> tuple[Person, ...]:
    """Two to four people; the first always drives, spins and mixes."""
    found = [Person("p0", "First", drives=True, spins=True, mixes=True)]
    for number in range(1, draw(st.integers(2, 4))):
        off = tuple(sorted(set(draw(st.lists(st.integers(0, days - 1), max_size=1)))))
        drives, spins, mixes = draw(st.booleans()), draw(st.booleans()), draw(st.booleans())
        found.append(Person(f"p{number}", f"Person {number}", drives, spins, mixes, off))
    return tuple(found)


@st.composite
def houses(draw: st.DrawFn, place: int) -> HoneyHouse:
    """A honey house: pace, room, boxes waiting, hours."""
    return HoneyHouse(
        Base(place, draw(rarely(7 * 60, 0)), draw(rarely(17 * 60, DAY_MIN))),
        draw(st.sampled_from(((0, 12, 20), (0, 12), (0, 5, 9, 12), (0, 0, 30)))),
        draw(st.sampled_from((400, 400, 30))),
        draw(rarely(15, 0)),
        8 * 60,
        draw(rarely(13 * 60, 18 * 60)),
    )


@st.composite
def feeds(draw: st.DrawFn) -> Feed:
    """Syrup: mixed or bought, plenty or short."""
    bought = draw(rarely(True, False))
    return Feed(
        verbatim("2:1"), 667, 1_327, 1_120,
        uptake_ml_per_day=draw(st.sampled_from((2_000, 5_000))),
        mix_ml_per_day=draw(st.sampled_from((1_000_000, 100_000))),
        mix_ml_per_h=draw(rarely(30_000, 200_000)),
        ready_ml=draw(st.sampled_from((0, 50_000, 500_000))),
        sugar_g=draw(rarely(draw(st.integers(0, 400_000)), None)),
        bought=bought,
        day_use_g=500,
        cover_warn_min=None,
        round_to_ml=500,
    )  # fmt: skip


@st.composite
def kits(draw: st.DrawFn) -> Kit:
    """Boards, blocks and feeders, now and then short."""
    return Kit(
        1_500, draw(rarely(12, 100)), 40, 2_100, 60, draw(rarely(8, 1_000)), 1_200,
        draw(st.sampled_from((None, None, None, draw(st.integers(0, 40))))), 10, 10,
    )  # fmt: skip


@st.composite
def work_hours(draw: st.DrawFn) -> Hours:
    """The working day: mostly as in the other tests, or short and full of breaks."""
    if draw(st.integers(0, 3)) < 3:
        return Hours(6 * 60, 20 * 60, 12 * 60, 480, 660, 540, 270, 45, 360, 30)
    return draw(short_hours())


@st.composite
def short_hours(draw: st.DrawFn) -> Hours:
    """A working day that is short and full of breaks."""
    return Hours(
        start_min=draw(st.sampled_from((360, 480))),
        end_min=draw(st.sampled_from((1_200, 1_020))),
        noon_min=draw(st.sampled_from((720, 780))),
        normal_min=draw(st.sampled_from((300, 480))),
        duty_max_min=draw(st.sampled_from((240, 420, 660))),
        driving_max_min=draw(st.sampled_from((120, 300))),
        drive_break_after_min=draw(st.sampled_from((40, 60, 120))),
        drive_break_min=draw(st.sampled_from((10, 15, 45))),
        duty_break_after_min=draw(st.sampled_from((90, 150, 240))),
        duty_break_min=draw(st.sampled_from((15, 30, 60))),
    )


@st.composite
def seasons(draw: st.DrawFn, days: int) -> Season:
    """Three deadlines, each hard or priced."""
    last = [
        Deadline(draw(st.integers(1, days - 1)), hard=draw(st.booleans()))
        if draw(st.booleans())
        else Deadline(days - 1, hard=True)
        for _ in range(3)
    ]
    return Season("2027-03-01", days, "Pacific/Auckland", *last)


def _roads(draw: st.DrawFn, spots: list[tuple[int, int]]) -> Travel:
    """Grid roads, some longer one way, now and then one missing."""
    size = range(len(spots))
    minutes: list[list[int | None]] = [
        [abs(spots[i][0] - spots[j][0]) + abs(spots[i][1] - spots[j][1]) for j in size]
        for i in size
    ]
    metres = [[1000 * (cell or 0) for cell in row] for row in minutes]
    for i, j, more in draw(
        st.lists(
            st.tuples(st.sampled_from(size), st.sampled_from(size), st.integers(0, 6)), max_size=3
        )
    ):
        if i != j:
            minutes[i][j] = (minutes[i][j] or 0) + 5 if more else None
    return Travel(
        tuple(tuple(row) for row in minutes),
        tuple(tuple(row) for row in metres),
        phrase("random grid"),
        draw(st.sampled_from(((), (), BUSY))),
    )


@st.composite
def outfits(draw: st.DrawFn, most_yards: int = 6, most_days: int = 8) -> Outfit:
    """Draw a whole outfit: yards 1 .. n, then the spare places, feed store and honey house."""
    days = draw(st.integers(3, most_days))
    count = draw(st.integers(1, most_yards))
    stock = draw(rarely(40, None))
    spot = st.tuples(st.integers(-30, 30), st.integers(-30, 30))
    spots = [(0, 0), *draw(st.lists(spot, min_size=count + 3, max_size=count + 3))]
    places = tuple(
        Place(f"place{i}", f"Place {i}", y * 0.009, x * 0.009) for i, (x, y) in enumerate(spots)
    )
    spare, store, house = count + 1, draw(rarely(count + 2, 0)), draw(rarely(count + 3, 0))
    crew = draw(people(days))
    drivers = tuple(p.id for p in crew if p.drives)
    fleet = tuple(draw(trucks(n, drivers, days)) for n in range(1, draw(st.integers(1, 2)) + 1))
    nose = draw(st.sampled_from((None, Nose(40_000, 2_600, 1_200), Nose(60_000, 2_400, 1_400))))
    deck = Deck(*draw(st.sampled_from(((2_500, 1_300), (2_500, 1_300), (1_100, 900)))), 900, 4)
    bears = draw(st.sampled_from((750_000, 750_000, 1_500_000)))
    trailer = Trailer("t", "Trailer", 200_000, bears, deck, 1_700, 950, 10, nose=nose)
    made = tuple(draw(yards(n, days, spare)) for n in range(1, count + 1))
    return an_outfit(
        spots[1:],
        made,
        days=days,
        places=places,
        travel=_roads(draw, spots),
        feed_store=Base(store, draw(rarely(7 * 60, 0)), draw(rarely(17 * 60, DAY_MIN))),
        honey_house=draw(houses(house)),
        trucks=fleet,
        trailers=(trailer,) if draw(st.booleans()) else (),
        boxes=BOXES,
        containers=(
            Container("ibc", "IBC", 1_000_000, 60_000, 1_200, 1_000, draw(rarely(0, 1))),
            Container("can", "Can", 25_000, 1_500, 300, 300, draw(st.sampled_from((12, 8, 30)))),
        ),
        kit=draw(kits()),
        feed=draw(feeds()),
        strips=Strips("amitraz", 2, stock, 42, 70, draw(st.sampled_from((0, 0, 0, 0, 1, 7)))),
        strips_also=(draw(other_strips()), Strips("amitraz", 4, stock, 42, 70, 0, "double")),
        people=crew,
        hours=draw(work_hours()),
        season=draw(seasons(days)),
        rules=Rules(
            draw(st.sampled_from((48 * 60, 24 * 60))),
            12 * 60,
            draw(st.integers(0, 2)),
            draw(st.booleans()),
            draw(st.integers(1, 5)),
            draw(st.sampled_from((16 * 60, 9 * 60))),
            draw(st.sampled_from((16 * 60, 9 * 60))),
            draw(st.sampled_from((1, 1, 4))),
            draw(st.sampled_from((1, 5))),
        ),
        prices=replace(
            an_outfit().prices,
            hour_cents=draw(st.sampled_from((3_000, 2_777, 0))),
            unsure_cents=draw(st.sampled_from((0, 500))),
            feed_early_cents=draw(st.sampled_from((0, 0, 35))),
            worth_take_off_cents=draw(st.sampled_from((0, 0, 0, 2_500))),
            worth_feed_cents=draw(st.sampled_from((0, 0, 0, 301))),
            worth_strips_cents=draw(st.sampled_from((0, 0, 0, 700))),
        ),
    )
