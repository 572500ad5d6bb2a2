"""What must make sense before any rule can be recomputed at all.

When one of these is broken the audit stops after them: a plan that names a truck nobody
owns, or facts that would divide by nothing, cannot be judged further.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import astuple
from typing import Final

from runplanner.audit.dates import first_dates, too_long
from runplanner.audit.findings import (
    Breach,
    Breaches,
    called,
    called_in,
    listed,
    on_day,
    quoted,
    when,
    word,
)
from runplanner.audit.need import stores_per_l
from runplanner.audit.strips import kinds as strips_by_id
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, CallKind, Shift, Trip
from runplanner.days import day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Yard
from runplanner.phrase import Phrase, counted, phrase

Figure = tuple[Phrase, int, int]
SPUN_DAYS: Final = 60
"""Days after the campaign in which honey may still be spun: no heap takes longer."""


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


def references(plan: Plan) -> Breaches:
    """Every truck, trailer, person, yard, box kind, container and place is in the facts."""
    yield from _fact_references(plan.outfit)
    known = {yard.id for yard in plan.outfit.yards}
    for shift in plan.shifts:
        yield from _shift_references(plan.outfit, shift)
        for trip in shift.trips:
            yield from _trip_references(plan.outfit, trip, known)
    yield from _helpers(plan)
    for undone in plan.undone:
        if undone.yard not in known:
            yield Breach(
                phrase("undone work at unknown yard {yard}", yard=quoted(undone.yard)),
                phrase("a yard's id"),
            )


def _fact_references(outfit: Outfit) -> Breaches:
    bases = (outfit.home, outfit.feed_store, outfit.honey_house.base)
    yield from _places(outfit, (base.place for base in bases))
    kinds = {box.id for box in outfit.boxes}
    for yard in outfit.yards:
        yield from _places(outfit, (place for _, place in yard.sites), yard.id)
        yield from _carried(outfit, yard)
        if yard.box not in kinds:
            yield Breach(
                phrase("unknown box kind {box}", box=quoted(yard.box)),
                phrase("a box kind's id"),
                yard=yard.id,
            )
        if yard.strips not in strips_by_id(outfit):
            said = phrase("unknown kind of strips {strips}", strips=quoted(yard.strips))
            yield Breach(said, phrase("an id of a kind of strips, or none"), yard=yard.id)


def _carried(outfit: Outfit, yard: Yard) -> Breaches:
    """Yield hives carried by a truck that is not there, or to no later site of theirs."""
    trucks, days = {truck.id for truck in outfit.trucks}, {day for day, _ in yard.sites[1:]}
    for day, truck in yard.carried_by:
        if truck not in trucks:
            said = phrase("unknown truck {truck}", truck=quoted(truck))
            yield Breach(said, phrase("a truck's id"), yard=yard.id)
        if day not in days:
            said = phrase("hives carried on {day}", day=on_day(day))
            yield Breach(said, phrase("a day from which they stand elsewhere"), yard=yard.id)


def _places(outfit: Outfit, places: Iterable[int], yard: str = "", trip: str = "") -> Breaches:
    for place in places:
        if not 0 <= place < len(outfit.places):
            allowed = phrase("0 .. {last}", last=len(outfit.places) - 1)
            yield Breach(
                phrase("place number {place} does not exist", place=place), allowed, trip, yard
            )


def _shift_references(outfit: Outfit, shift: Shift) -> Breaches:
    trip = shift.trips[0].id if shift.trips else ""
    if shift.truck not in {truck.id for truck in outfit.trucks}:
        yield Breach(
            phrase("unknown truck {truck}", truck=quoted(shift.truck)), phrase("a truck's id"), trip
        )
    if shift.trailer not in {"", *(trailer.id for trailer in outfit.trailers)}:
        yield Breach(
            phrase("unknown trailer {trailer}", trailer=quoted(shift.trailer)),
            phrase("a trailer's id or none"),
            trip,
        )
    yield from _people(outfit, shift.crew, trip)


def _people(outfit: Outfit, names: Iterable[str], trip: str = "") -> Breaches:
    known = {person.id for person in outfit.people}
    for name in names:
        if name not in known:
            yield Breach(
                phrase("unknown person {name}", name=quoted(name)), phrase("a person's id"), trip
            )


def _helpers(plan: Plan) -> Breaches:
    for stretch in plan.spinning:
        yield from _people(plan.outfit, stretch.people)
    yield from _people(plan.outfit, (stretch.person for stretch in plan.mixing))


def _trip_references(outfit: Outfit, trip: Trip, yards: set[str]) -> Breaches:
    known = {tank.id for tank in outfit.containers}
    for carried in trip.containers:
        if carried.container not in known:
            said = phrase("unknown container {container}", container=quoted(carried.container))
            yield Breach(said, phrase("a container's id"), trip.id)
    yield from _places(outfit, (call.place for call in trip.calls), trip=trip.id)
    for call in trip.calls:
        if call.kind is CallKind.YARD and call.yard not in yards:
            yield Breach(
                phrase("unknown yard {yard}", yard=quoted(call.yard)),
                phrase("a yard's id"),
                trip.id,
            )


def counts(plan: Plan) -> Breaches:
    """No count of anything is below zero, and a trip yet to be driven has not left with a load."""
    for shift in plan.shifts:
        for trip in shift.trips:
            yield from _left_with(trip, plan.now_min)
            for call in trip.calls:
                yield from _call_counts(trip, call)
    for what, made in (
        (phrase("boxes spun"), [stretch.boxes for stretch in plan.spinning]),
        (phrase("ml mixed"), [stretch.ml for stretch in plan.mixing]),
    ):
        for count in made:
            if count < 0:
                yield Breach(phrase("{count} {what}", count=count, what=what), phrase("0 or more"))


def _left_with(trip: Trip, now_min: int) -> Breaches:
    if any(carried.count < 0 for carried in trip.containers):
        yield Breach(phrase("fewer than no containers"), phrase("0 or more"), trip.id)
    if trip.left is not None and (min(astuple(trip.left)) < 0 or not trip.driven):
        yield Breach(
            phrase("left with {mass} g", mass=trip.left.load_g),
            phrase("0 or more of everything, and nothing before it is driven"),
            trip.id,
        )
    for spare in trip.left_strips:
        if spare.pieces < 0 or not trip.driven:
            yield Breach(
                counted(
                    "{number} strip for stops left out",
                    "{number} strips for stops left out",
                    spare.pieces,
                ),
                phrase("0 or more of everything, and nothing before it is driven"),
                trip.id,
            )
    over_min = max((call.end_min for call in trip.calls), default=0)
    for one in trip.brought:
        if one.number < 0 or not trip.driven or not over_min <= one.minute <= now_min:
            yield Breach(
                phrase("{number} brought over {start}", number=one.number, start=when(one.minute)),
                phrase("0 or more, after the trip and by now"),
                trip.id,
            )


def _call_counts(trip: Trip, call: Call) -> Breaches:
    for action in (*call.actions, *call.planned, *(call.counted or ())):
        figures = (
            action.colonies, action.round, action.boxes, action.brood_boxes, action.ml,
            action.pieces, action.boards_off, action.feeders, action.wet, action.feeders_off,
        )  # fmt: skip
        if min(figures) < 0:
            said = phrase("{job} with a count of {count}", job=word(action.job), count=min(figures))
            yield Breach(said, phrase("0 or more"), trip.id, call.yard)


def campaign_days(plan: Plan) -> Breaches:
    """Every shift is on a day of the campaign; spinning ends two months after it."""
    last = plan.outfit.season.n_days - 1
    for stretch in plan.spinning:
        day = day_of(max(stretch.start_min, stretch.end_min))
        if day > last + SPUN_DAYS:
            said = phrase("spinning on {day}", day=on_day(day))
            yield Breach(said, phrase("no later than {day}", day=on_day(last + SPUN_DAYS)))
    for shift in plan.shifts:
        if not 0 <= shift.day < plan.outfit.season.n_days:
            trip = shift.trips[0].id if shift.trips else ""
            yield Breach(
                phrase("a shift on {day}", day=on_day(shift.day)),
                phrase("day 0 .. {last}", last=last),
                trip,
            )


def crews(plan: Plan) -> Breaches:
    """Every shift has at least one person, and nobody twice."""
    for shift in plan.shifts:
        trip = shift.trips[0].id if shift.trips else ""
        if not shift.crew:
            yield Breach(
                phrase("nobody in the truck on {day}", day=on_day(shift.day)),
                phrase("at least one person"),
                trip,
            )
        for name, count in Counter(shift.crew).items():
            if count > 1:
                yield Breach(
                    phrase(
                        "{name} is {count} times in one crew",
                        name=called_in(plan.outfit.people, name),
                        count=count,
                    ),
                    phrase("once"),
                    trip,
                )


def trip_shapes(plan: Plan) -> Breaches:
    """A shift has trips; a trip is one load call, yards, then unload calls."""
    for shift in plan.shifts:
        if not shift.trips:
            yield Breach(
                phrase("a shift without a trip on {day}", day=on_day(shift.day)),
                phrase("at least one trip"),
            )
        for trip in shift.trips:
            yield from _shape(trip)


def _shape(trip: Trip) -> Breaches:
    kinds = [call.kind for call in trip.calls]
    yards = kinds.count(CallKind.YARD)
    unloads = kinds.count(CallKind.UNLOAD)
    right = [CallKind.LOAD] + [CallKind.YARD] * yards + [CallKind.UNLOAD] * unloads
    if kinds != right or not yards or not unloads:
        said = phrase("calls are {kinds}", kinds=listed(kinds[:12]))
        yield Breach(said, phrase("one load, then yards, then unload"), trip.id)
    for call in trip.calls:
        if call.kind is not CallKind.YARD and call.yard:
            said = phrase(
                "a call to {kind} names yard {yard}", kind=word(call.kind), yard=quoted(call.yard)
            )
            yield Breach(said, phrase("no yard"), trip.id)
