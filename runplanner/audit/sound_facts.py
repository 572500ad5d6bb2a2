"""What facts must be before any rule can be recomputed: whole, unique, divided by no nothing."""

from collections import Counter
from collections.abc import Iterable, Iterator

from runplanner.audit.dates import first_dates, too_long
from runplanner.audit.findings import Breach, Breaches, called, quoted, word
from runplanner.audit.need import stores_per_l
from runplanner.daybook.plan import Plan
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Yard
from runplanner.phrase import Phrase, counted, phrase

Figure = tuple[Phrase, int, int]
"""What is told, the figure, and the least that it may be."""


def facts(plan: Plan) -> Breaches:
    """Facts that are divided by are above zero, tables are whole, ids are unique.

    What becomes a date stays within calendars.
    """
    outfit = plan.outfit
    yield from first_dates(outfit)
    yield from too_long(outfit)
    for name, value, least in _figures(outfit):
        if value < least:
            yield Breach(
                phrase("{name} is {value}", name=name, value=value),
                phrase("at least {least}", least=least),
            )
    yield from _doubles(outfit)
    yield from _travel_table(outfit)
    yield from _areas(outfit)
    for yard in outfit.yards:
        yield from _clearing(outfit, yard)
        if not yard.sites:
            yield Breach(phrase("the yard has no site"), phrase("one site or more"), yard=yard.id)


def _areas(outfit: Outfit) -> Breaches:
    for area in outfit.areas:
        on_earth = all(abs(lat) <= 90 and abs(lon) <= 180 for lat, lon in area.corners)
        if len(area.corners) < (1 if area.radius_m > 0 else 3) or not on_earth:
            said = counted(
                "a restricted area of {number} corner and a radius of {radius} m",
                "a restricted area of {number} corners and a radius of {radius} m",
                len(area.corners), radius=area.radius_m,
            )  # fmt: skip
            yield Breach(said, phrase("a middle and a radius, or three corners, on earth"))


def _clearing(outfit: Outfit, yard: Yard) -> Breaches:
    ways = (yard.clearing, *([yard.clearing_else] if yard.clearing_else else []))
    for way in ways:
        if way not in dict(outfit.pace.box_s):
            said = phrase("no pace is given for clearing with {way}", way=word(way))
            yield Breach(said, phrase("a pace for each way of clearing in use"), yard=yard.id)
    if yard.clearing_else and (
        yard.clearing_else not in {Clearing.BRUSH, Clearing.BLOWER}
        or yard.clearing in {yard.clearing_else, Clearing.WARM_BOARD}
    ):
        said = phrase(
            "clearing with {clearing}, else {clearing_else}",
            clearing=word(yard.clearing),
            clearing_else=word(yard.clearing_else),
        )
        yield Breach(said, phrase("else brush or blower, and no warm board"), yard=yard.id)
    if yard.boards_on_min is not None and (
        yard.clearing is not Clearing.BOARDS or yard.boards_on_min >= 0
    ):
        said = phrase("boards that lie already")
        yield Breach(
            said, phrase("only where boards clear, since before the campaign"), yard=yard.id
        )


def _figures(outfit: Outfit) -> Iterator[Figure]:
    yield from _store_figures(outfit)
    for truck in outfit.trucks:
        yield phrase("speed of truck {truck}", truck=called(truck)), truck.speed_permille, 1
    for trailer in outfit.trailers:
        yield (
            phrase("speed of trailer {trailer}", trailer=called(trailer)),
            trailer.speed_permille,
            1,
        )
        if trailer.nose is not None:
            said = phrase("the drawbar of {trailer} in mm", trailer=called(trailer))
            yield said, trailer.nose.drawbar_mm, 1
    for yard in outfit.yards:
        name = called(yard)
        yield phrase("colonies of {name}", name=name), yard.colonies, 0
        yield phrase("boxes of {name}", name=name), yard.boxes, 0
        yield phrase("brood boxes off of {name}", name=name), yard.brood_boxes_off, 0
        yield phrase("feeder of {name} in ml", name=name), yard.feeder_ml, 1
        yield (
            phrase("the least sure day of {name}, per mille,", name=name),
            min(yard.sure_permille, default=0),
            0,
        )
        yield (
            phrase("the doubt of a day of {name}", name=name),
            1000 - max(yard.sure_permille, default=0),
            0,
        )


def _store_figures(outfit: Outfit) -> Iterator[Figure]:
    feed, kit, pace = outfit.feed, outfit.kit, outfit.pace
    yield phrase("winter stores made of a litre, in grams,"), stores_per_l(feed), 1
    yield phrase("uptake in ml a day"), feed.uptake_ml_per_day, 1
    yield phrase("stores eaten in a day, in grams,"), feed.day_use_g, 1
    yield phrase("the step feeds are rounded to, in ml,"), feed.round_to_ml, 1
    if feed.tank_ml is not None:
        yield phrase("the mixing tank in ml"), feed.tank_ml, 1
    yield phrase("boards in one deck place"), kit.boards_per_place, 1
    yield phrase("blocks in one deck place"), kit.blocks_per_place, 1
    yield phrase("feeders in one deck place"), kit.feeders_per_place, 1
    yield phrase("filling rate in ml a minute"), pace.pump_ml_per_min, 1
    yield phrase("the price of doubt in cents"), outfit.prices.unsure_cents, 0
    yield phrase("the hour from which feed is late in the day"), outfit.rules.feed_late_from_min, 0
    yield phrase("the price of feed early in the day in cents"), outfit.prices.feed_early_cents, 0
    yield phrase("the worth of a take-off in cents"), outfit.prices.worth_take_off_cents, 0
    yield phrase("the worth of a kilogram fed in cents"), outfit.prices.worth_feed_cents, 0
    yield phrase("the worth of strips in cents"), outfit.prices.worth_strips_cents, 0
    yield phrase("box kinds"), len(outfit.boxes), 1
    yield phrase("boxes waiting at the honey house"), outfit.honey_house.waiting_boxes, 0
    # by nobody, one person, two and so on: one figure at least
    yield phrase("boxes spun in an hour"), min(outfit.honey_house.boxes_per_h, default=-1), 0
    for box in outfit.boxes:
        yield (
            phrase("a measure of box {box}", box=called(box)),
            min(box.length_mm, box.width_mm),
            1,
        )
        yield phrase("height of box {box}", box=called(box)), box.height_mm, 1
    for tank in outfit.containers:
        yield (
            phrase("a measure of {container}", container=called(tank)),
            min(tank.length_mm, tank.width_mm),
            1,
        )


def _doubles(outfit: Outfit) -> Breaches:
    groups: tuple[tuple[Phrase, Iterable[str]], ...] = (
        (counted("yard", "yards", 1), (yard.id for yard in outfit.yards)),
        (phrase("truck"), (truck.id for truck in outfit.trucks)),
        (phrase("trailer"), (trailer.id for trailer in outfit.trailers)),
        (phrase("person"), (person.id for person in outfit.people)),
        (phrase("box kind"), (box.id for box in outfit.boxes)),
        (phrase("container"), (tank.id for tank in outfit.containers)),
        (phrase("kind of strips"), ("", *(kind.id for kind in outfit.strips_also))),
    )
    for kind, ids in groups:
        for name, count in Counter(ids).items():
            if count > 1:
                yield Breach(
                    phrase(
                        "{count} times {kind} {name} in the facts",
                        count=count,
                        kind=kind,
                        name=quoted(name),
                    ),
                    phrase("once"),
                )


def _travel_table(outfit: Outfit) -> Breaches:
    size = len(outfit.places)
    for name, rows in (
        (phrase("minutes"), outfit.travel.minutes),
        (phrase("metres"), outfit.travel.metres),
    ):
        if len(rows) != size or any(len(row) != size for row in rows):
            yield Breach(
                phrase("the travel table of {name} is not {size} by {size}", name=name, size=size),
                phrase("every place"),
            )
    by_hour = outfit.travel.by_hour
    if by_hour and (len(by_hour) != 24 or min(by_hour) < 1000 or max(by_hour) > 10_000):
        yield Breach(
            phrase("{count} factors by hour", count=len(by_hour)),
            phrase("24 from 1000 to 10000 per mille, or none"),
        )
