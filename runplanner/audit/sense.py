"""What of a plan must make sense before any rule can be recomputed at all.

When one of these is broken, or a fact (``sound_facts``), the audit stops after them: a plan that
names a truck nobody owns cannot be judged further.
"""

from collections import Counter
from collections.abc import Iterable
from dataclasses import astuple
from typing import Final

from runplanner.audit.findings import (
    Breach,
    Breaches,
    called_in,
    listed,
    on_day,
    quoted,
    when,
    word,
)
from runplanner.audit.strips import kinds as strips_by_id
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Call, CallKind, Shift, Trip
from runplanner.days import day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.phrase import counted, phrase

SPUN_DAYS: Final = 60
"""Days after the campaign in which honey may still be spun: no heap takes longer."""


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
