"""Small invented outfits for tests, built straight from facts (no files read).

Distances are flat and round so that a test can do the arithmetic in a comment: places lie
on a grid of kilometres, a kilometre of grid is a kilometre of road and a minute of drive.
"""

from collections.abc import Sequence
from dataclasses import replace

from runplanner.days import DAY_MIN, Span
from runplanner.outfit.bases import Base, HoneyHouse, Travel
from runplanner.outfit.outfit import Deadline, Outfit, Prices, Rules, Season
from runplanner.outfit.people import Hours, Pace, Person
from runplanner.outfit.stores import BoxKind, Container, Feed, Kit, Strips
from runplanner.outfit.trucks import Deck, Truck
from runplanner.outfit.yards import Access, Clearing, Health, Place, Yard
from runplanner.phrase import phrase, verbatim

DAYS = 6


def daily(from_min: int, to_min: int, days: Sequence[int]) -> tuple[Span, ...]:
    """The same hours on each of ``days``."""
    return tuple(Span(day * DAY_MIN + from_min, day * DAY_MIN + to_min) for day in days)


def a_yard(number: int, *, colonies: int = 10, boxes: int = 15, days: int = DAYS) -> Yard:
    """A sound yard at place ``number`` with brushed boxes of 16 kg and fair weather daily."""
    return Yard(
        id=f"yard{number}",
        name=f"Yard {number}",
        sites=((0, number),),
        district="",
        colonies=colonies,
        boxes=boxes,
        box="medium",
        box_g=16_000,
        box_spread_permille=100,
        brood_boxes_off=0,
        clearing=Clearing.BRUSH,
        stores_g=None,
        target_g=8_000,
        feeder_ml=10_000,
        ready_from_day=0,
        finish_by_day=days - 1,
        spin_by_min=72 * 60,
        spin_by_hard=False,
        health=Health.SOUND,
        feed_agreed=False,
        access=Access(),
        open_spans=daily(8 * 60, 18 * 60, range(days)),
        feed_spans=daily(6 * 60, 20 * 60, range(days)),
        unsettled_spans=(),
        strips_shut_days=(),
        sun_spans=daily(6 * 60, 20 * 60, range(days + 1)),
    )


def flat_travel(spots: Sequence[tuple[int, int]]) -> Travel:
    """Grid travel: kilometres along the grid, one minute for each."""
    km = [[abs(ax - bx) + abs(ay - by) for bx, by in spots] for ax, ay in spots]
    return Travel(
        minutes=tuple(tuple(row) for row in km),
        metres=tuple(tuple(1000 * cell for cell in row) for row in km),
        source=phrase("test grid"),
    )


def an_outfit(
    spots: Sequence[tuple[int, int]] = ((10, 0), (14, 0)),
    yards: Sequence[Yard] | None = None,
    *,
    days: int = DAYS,
    **changes: object,
) -> Outfit:
    """One base at (0, 0), one 3.5 t truck, two people; yards at ``spots``.

    ``changes`` replace whole facts of the outfit (``trucks=...``, ``rules=...``).
    """
    made = (
        tuple(yards)
        if yards is not None
        else tuple(a_yard(i + 1, days=days) for i in range(len(spots)))
    )
    spread = [
        Place(f"place{i + 1}", f"Place {i + 1}", y * 0.009, x * 0.009)
        for i, (x, y) in enumerate(spots)
    ]
    places = (Place("base", "Base", 0.0, 0.0), *spread)
    base = Base(place=0, opens_min=0, closes_min=DAY_MIN)
    outfit = Outfit(
        name="test",
        title="Invented outfit for tests",
        places=places,
        travel=flat_travel([(0, 0), *spots]),
        home=base,
        feed_store=base,
        honey_house=HoneyHouse(base, (0, 12, 20), 400, 0, 8 * 60, 18 * 60),
        yards=made,
        trucks=(a_truck(),),
        trailers=(),
        boxes=(BoxKind("medium", "Langstroth medium", 508, 413, 168, 4_500),),
        containers=(
            Container("ibc", "IBC", 1_000_000, 60_000, 1_200, 1_000, 1),
            Container("can", "Can", 25_000, 1_500, 300, 300, 12),
        ),
        kit=Kit(1_500, 100, 40, 2_100, 60, 1_000, 1_200, None, 10, 10),
        feed=Feed(
            verbatim("2:1"),
            667,
            1_327,
            1_120,
            2_000,
            1_000_000,
            200_000,
            0,
            None,
            False,
            500,
            3 * DAY_MIN,
            500,
        ),
        strips=Strips("amitraz", 2, None, 42, 70, 0),
        people=(Person("ann", "Ann", True, True, True), Person("bob", "Bob", False, True, True)),
        person_g=85_000,
        pace=Pace(
            setup_min=10,
            inspect_s=240,
            box_s=tuple((method, 120) for method in Clearing),
            left_in_permille=50,
            board_s=60,
            block_s=60,
            feed_s=120,
            strips_s=60,
            wash_min=20,
            load_min=15,
            unload_min=10,
            unload_box_s=30,
            pump_ml_per_min=50_000,
        ),
        hours=Hours(6 * 60, 20 * 60, 12 * 60, 480, 660, 540, 270, 45, 360, 30),
        season=Season(
            "2027-03-01",
            days,
            "Pacific/Auckland",
            Deadline(days - 1, hard=True),
            Deadline(days - 1, hard=True),
            Deadline(days - 1, hard=True),
        ),
        rules=Rules(48 * 60, 12 * 60, 1, False, 3),
        prices=Prices("NZD", 3_000, 500, 400, 150, 200, 2_000, 100, 50),
    )
    return replace(outfit, **changes)  # type: ignore[arg-type]


def a_truck(number: int = 1) -> Truck:
    """A 3.5 t truck with 1.1 t for the load and a deck of 24 medium columns, 5 high."""
    return Truck(
        id=f"truck{number}",
        name=f"Truck {number}",
        empty_g=2_100_000,
        max_g=3_500_000,
        train_max_g=None,
        fuel_g=60_000,
        kit_g=70_000,
        deck=Deck(3_100, 2_100, 1_200, 5),
        axles=None,
        seats=3,
        width_mm=2_100,
        four_wheel=False,
        speed_permille=1_000,
        km_cents=60,
        day_cents=4_000,
        drivers=("ann",),
    )
