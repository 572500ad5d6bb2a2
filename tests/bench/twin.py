"""A published instance told as a campaign of one day, so that our own core can plan it.

A customer is a yard of one colony.  What it sends is honey boxes of one gram each; what it is
brought is syrup of one gram a millilitre.  A unit of distance costs 1,000 cents, an hour of a
driver one cent: so little that it only tells the core not to stop twice where once will do.
A minute stands for the instance's unit of time.
"""

from dataclasses import replace

from runplanner.days import Span
from runplanner.outfit.bases import Base, HoneyHouse, Travel
from runplanner.outfit.outfit import Deadline, Outfit, Prices, Rules, Season
from runplanner.outfit.people import Hours, Pace, Person
from runplanner.outfit.stores import BoxKind, Container, Feed, Kit, Strips
from runplanner.outfit.trucks import Deck, Truck
from runplanner.outfit.yards import Access, Clearing, Place, Yard
from runplanner.phrase import phrase, verbatim
from runplanner.trips.ground import Ground
from tests.bench.instances import Instance
from tests.outfits import a_truck, a_yard, an_outfit

DAY = 1440
MANY = 10**9
UNIT_CENTS = 1_000
CHEAP = Prices("unit", 1, 0, 0, 0, 0, 0, 0, 0)


def twin(given: Instance) -> Outfit:
    """Return the campaign that stands for an instance."""
    end = given.horizon or DAY
    count = len(given.out)
    base = Base(0, 0, end)
    drivers = tuple(Person(f"d{i}", f"Driver {i}", True, spins=False, mixes=False)
                    for i in range(given.vehicles))  # fmt: skip
    return an_outfit(
        [(0, 0)] * count,
        [_yard(given, i, end) for i in range(count)],
        days=1,
        places=tuple(Place(f"place{i}", f"Place {i}", 0.0, 0.0) for i in range(count + 1)),
        travel=_travel(given),
        home=base,
        feed_store=base,
        honey_house=HoneyHouse(base, (0, MANY), MANY, 0, 0, DAY),
        trucks=tuple(_truck(given, i, drivers) for i in range(given.vehicles)),
        boxes=(BoxKind("medium", "Unit", 1, 1, 1, 0),),
        containers=(Container("tank", "Tank", MANY, 0, 1, 1, MANY),),
        kit=Kit(0, 0, 1, 0, 1, 0, 0, None, 1, 0),
        feed=Feed(verbatim("unit"), 1000, 1000, 1000, MANY, 0, 1, MANY, None, False, 1, DAY, 1),
        strips=Strips("none", 1, None, 42, 70, 0),
        people=(*drivers, Person("s", "Spinner", False, spins=True, mixes=False)),
        person_g=0,
        pace=_pace(given),
        hours=Hours(0, end, DAY // 2, end, end, end, end, 1, end, 1),
        season=Season("2027-03-01", 1, "UTC", *[Deadline(0, hard=True)] * 3),
        rules=Rules(DAY, 0, 1, False, 1),
        prices=CHEAP,
    )


def ground_of(given: Instance) -> Ground:
    """Return the tables of that campaign; customers want no strips, which would be a second stop.

    Where rounded distances break the triangle inequality, two stops can be shorter than one.
    """
    ground = Ground(twin(given))
    ground.dues = tuple(
        replace(due, strips=False, take_off=out > 0)
        for due, out in zip(ground.dues, given.out, strict=True)
    )
    return ground


def wages_cents(given: Instance) -> int:
    """Return the most that all hours of all drivers can cost."""
    return given.vehicles * -(-(given.horizon or DAY) // 60)


def _yard(given: Instance, i: int, end: int) -> Yard:
    opens, closes = given.hours[i] if given.hours else (0, end)
    closes = min(closes + given.service, end) if given.hours else end
    whole = (Span(0, end),)
    return replace(
        a_yard(i + 1, colonies=1, boxes=given.out[i], days=1),
        box_g=1,
        clearing=Clearing.BLOWER,
        target_g=given.into[i],
        stores_g=0,
        feeder_ml=max(1, given.into[i]),
        spin_by_min=10**7,
        access=Access(opens, closes),
        open_spans=whole,
        feed_spans=whole,
        sun_spans=(Span(0, end), Span(end, 2 * end)),
    )


def _travel(given: Instance) -> Travel:
    """Without hours nothing takes time; a trip then fills more than half a day by its loading."""
    rows = tuple(tuple(row) for row in given.legs)
    times = rows if given.hours else tuple((0,) * len(rows) for _ in rows)
    return Travel(times, rows, phrase("published instance"))


def _truck(given: Instance, number: int, drivers: tuple[Person, ...]) -> Truck:
    return replace(
        a_truck(number + 1),
        empty_g=1_000,
        max_g=1_000 + given.capacity,
        fuel_g=0,
        kit_g=0,
        deck=Deck(100_000, 100_000, 1, 1),
        seats=1,
        km_cents=1_000 * UNIT_CENTS,
        day_cents=0,
        drivers=tuple(person.id for person in drivers),
    )


def _load_min(given: Instance) -> int:
    """Return the minutes of loading; what is pumped is rounded up to one, which is taken off."""
    if not given.hours:
        return DAY // 2 + 10
    return -1 if given.into and min(given.into) > 0 else 0


def _pace(given: Instance) -> Pace:
    return Pace(
        setup_min=given.service if given.hours else 1,
        inspect_s=0,
        box_s=tuple((method, 0) for method in Clearing),
        left_in_permille=0,
        board_s=0,
        block_s=0,
        feed_s=0,
        strips_s=0,
        wash_min=0,
        load_min=_load_min(given),
        unload_min=0,
        unload_box_s=0,
        pump_ml_per_min=MANY,
    )
