"""Invented campaigns of five sizes for the bench: the same seed gives the same campaign.

All of it is made up; no place is meant.  The spreads (12-41 colonies a yard, 1.2-2.2 boxes a
colony, 13-19 kg a box) are the ones the targets name; the rest is plain guesswork, said where
it stands.
"""

import math
import random
from dataclasses import dataclass, replace

from runplanner.days import DAY_MIN
from runplanner.outfit.bases import Base, HoneyHouse, Travel
from runplanner.outfit.outfit import Deadline, Outfit, Prices, Rules, Season
from runplanner.outfit.people import Person
from runplanner.outfit.stores import BoxKind, Container, Feed, Kit, Strips
from runplanner.outfit.yards import Access, Clearing, Health, Place, Yard
from runplanner.phrase import phrase, verbatim
from tests.bench.fleet import trailers, trucks
from tests.bench.skies import Sky, sky
from tests.outfits import a_yard, an_outfit

Spot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Size:
    """One size of campaign, and the seconds its targets give."""

    yards: int
    days: int
    trucks: int
    trailers: int
    people: int
    seconds: float

    @property
    def name(self) -> str:
        """A short name, such as ``24y12d2t``."""
        return f"{self.yards}y{self.days}d{self.trucks}t{'+' * self.trailers}"


SIZES = (
    Size(12, 8, 1, 0, 4, 30),
    Size(24, 12, 2, 0, 7, 60),
    Size(40, 14, 2, 1, 8, 120),
    Size(80, 21, 4, 1, 13, 300),
    Size(200, 28, 8, 2, 26, 600),
)
SMOKE = Size(4, 5, 1, 0, 3, 2)


def campaign(size: Size, seed: int) -> Outfit:
    """Return the campaign of a size with a seed."""
    rng = random.Random(seed * 1_000 + size.yards)
    centres = _centres(rng, size)
    homes = [rng.randrange(len(centres)) for _ in range(size.yards)]
    spots = [_bases(rng, seed)[0]] + [_near(rng, centres[home]) for home in homes]
    apart = _bases(rng, seed)[1]
    skies = [sky(rng, size.days) for _ in range(max(2, len(centres) // 2))]
    yards = [
        _yard(rng, number + 1, size, skies[homes[number] % len(skies)], homes[number] % len(skies))
        for number in range(size.yards)
    ]
    return _outfit(rng, size, seed, [*spots, *apart], yards)


def _bases(rng: random.Random, seed: int) -> tuple[Spot, list[Spot]]:
    """Return home, and feed store and honey house where they stand elsewhere (one seed in 3)."""
    if seed % 3:
        return (0.0, 0.0), []
    return (0.0, 0.0), [(1.5, 0.5), (rng.uniform(2, 5), -2.0)]


def _centres(rng: random.Random, size: Size) -> list[Spot]:
    """Yards stand in clusters, 6 to 42 km out (guessed)."""
    found = []
    for _ in range(max(2, size.yards // 5)):
        out, angle = rng.uniform(6, 42), rng.uniform(0, math.tau)
        found.append((out * math.cos(angle), out * math.sin(angle)))
    return found


def _near(rng: random.Random, centre: Spot) -> Spot:
    return rng.gauss(centre[0], 3.5), rng.gauss(centre[1], 3.5)


def _travel(spots: list[Spot]) -> Travel:
    """Roads 1.3 times as long as the straight line, at 48 km/h and two minutes more (guessed)."""
    km = [[1.3 * math.dist(a, b) for b in spots] for a in spots]
    return Travel(
        tuple(
            tuple(0 if i == j else math.ceil(d / 0.8) + 2 for j, d in enumerate(row))
            for i, row in enumerate(km)
        ),
        tuple(tuple(round(1000 * d) for d in row) for row in km),
        phrase("invented for the bench"),
    )


def _yard(rng: random.Random, number: int, size: Size, over: Sky, district: int) -> Yard:
    colonies = rng.randint(12, 41)
    kind = rng.random()
    return replace(
        a_yard(number, colonies=colonies, days=size.days),
        district=f"district{district}",
        boxes=round(colonies * rng.uniform(1.2, 2.2)),
        box_g=rng.randint(13_000, 19_000),
        clearing=Clearing.BOARDS if kind < 0.4 else Clearing.BRUSH,
        brood_boxes_off=colonies // 4 if rng.random() < 0.15 else 0,
        stores_g=rng.choice((None, None, 2_000, 3_500)),
        target_g=rng.choice((8_000, 8_000, 10_000)),
        feeder_ml=rng.choice((10_000, 12_000)) if rng.random() < 0.8 else 6_000,
        ready_from_day=rng.randint(1, size.days // 4) if rng.random() < 0.2 else 0,
        finish_by_day=rng.randint(size.days * 2 // 3, size.days - 2)
        if rng.random() < 0.25
        else size.days - 1,
        spin_by_min=48 * 60 if rng.random() < 0.15 else 72 * 60,
        spin_by_hard=rng.random() < 0.1,
        health=_health(rng),
        access=_access(rng),
        open_spans=over.opening,
        feed_spans=over.feeding,
        unsettled_spans=over.unsettled,
        sun_spans=over.sun,
    )


def _health(rng: random.Random) -> Health:
    draw = rng.random()
    if draw < 0.05:
        return Health.WATCH
    return Health.STANDSTILL if draw < 0.06 else Health.SOUND


def _access(rng: random.Random) -> Access:
    """One yard in five has gate hours; some want a light or small truck, some no trailer."""
    opens, closes = (8 * 60, 16 * 60 + 30) if rng.random() < 0.2 else (0, DAY_MIN)
    return Access(
        opens_min=opens,
        closes_min=closes,
        max_vehicle_g=3_400_000 if rng.random() < 0.08 else None,
        four_wheel=rng.random() < 0.06,
        trailer=rng.random() > 0.25,
    )


def _outfit(
    rng: random.Random, size: Size, seed: int, spots: list[Spot], yards: list[Yard]
) -> Outfit:
    people = tuple(
        Person(f"p{i}", f"Person {i}", i < 2 * size.trucks, spins=True, mixes=i % 2 == 1)
        for i in range(size.people)
    )
    store = size.yards + 1 if len(spots) > size.yards + 1 else 0
    house = size.yards + 2 if store else 0
    drivers = tuple(person.id for person in people if person.drives)
    last = size.days - 1
    return an_outfit(
        [(0, 0)] * size.yards,
        yards,
        days=size.days,
        name=f"bench-{size.name}-{seed}",
        title="Invented campaign for the bench",
        places=tuple(
            Place(f"place{i}", f"Place {i}", y * 0.009, x * 0.009)
            for i, (x, y) in enumerate(spots)
        ),
        travel=_travel(spots),
        feed_store=Base(store, 6 * 60, 20 * 60),
        honey_house=_honey_house(size, house),
        trucks=trucks(size.trucks, drivers),
        trailers=trailers(size.trailers),
        boxes=(BoxKind("medium", "Medium box", 508, 413, 168, 4_500),),
        containers=(
            Container("ibc", "IBC", 1_000_000, 60_000, 1_200, 1_000, size.trucks),
            Container("drum", "Drum", 200_000, 9_000, 600, 600, 3 * size.trucks),
            Container("can", "Can", 25_000, 1_500, 300, 300, 16 * size.trucks),
        ),
        kit=Kit(1_500, 80 * size.trucks, 40, 2_100, 60, 60 * size.yards, 1_200, None, 10, 10),
        feed=Feed(
            verbatim("2:1"), 667, 1_327, 1_120, 2_000, 900_000 * size.trucks, 250_000,
            500_000 * size.trucks, None, False, 500, 3 * DAY_MIN, 500,
        ),
        strips=Strips("amitraz", 2, None, 42, 70, 0),
        people=people,
        season=Season(
            "2027-03-01", size.days, "Pacific/Auckland",
            Deadline(last, hard=True), Deadline(last, hard=True),
            Deadline(last if seed % 2 else last - 1, hard=bool(seed % 2)),
        ),
        rules=Rules(48 * 60, 12 * 60, 1, rng.random() < 0.3, 4),
        prices=Prices("NZD", 3_000, 500, 400, 150, 200, 300, 100, 50),
    )  # fmt: skip


def _honey_house(size: Size, place: int) -> HoneyHouse:
    """Room for about two good days; a team spins 13 boxes an hour each, less when crowded."""
    team = size.people - size.trucks
    rates = tuple(round(13 * n - 0.25 * n * (n - 1)) for n in range(team + 1))
    return HoneyHouse(Base(place, 6 * 60, 20 * 60), rates, 220 * size.trucks, 0, 7 * 60, 19 * 60)
