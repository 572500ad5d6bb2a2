"""Trucks and trailers."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from runplanner.outfit.people import Person
from runplanner.outfit.trucks import Axles, Deck, Nose, Trailer, Truck
from runplanner.phrase import Number, phrase
from runplanner.scenario.cells.fields import Fields
from runplanner.scenario.cells.outfit_file import Days, OutfitFile
from runplanner.scenario.parts.people_part import find_person
from runplanner.scenario.values import measures
from runplanner.scenario.values.figures import Money, Whole
from runplanner.scenario.values.quantities import share, speed_factor
from runplanner.scenario.values.words import key_of, keys, name, yes_no
from runplanner.trade.axles import STEER_LEAST_PERMILLE, deck_rear_permille

MOST_TRUCKS = 20


def read_trucks(file: OutfitFile, days: Days, people: Sequence[Person]) -> tuple[Truck, ...]:
    """Return the trucks, in the order typed."""
    entries = file.entries("trucks")
    if not 1 <= len(entries) <= MOST_TRUCKS:
        cure = phrase("Write a [[trucks]] table with empty, max, deck_length and deck_width.")
        file.top.fault("trucks", phrase("1 to {most} trucks", most=MOST_TRUCKS), cure)
    trucks: list[Truck] = []
    for number, fields in enumerate(entries):
        truck = _truck(file, fields, number, days, people)
        _once(fields, truck.name, [known.name for known in trucks])
        trucks.append(truck)
    ids = keys([truck.name for truck in trucks], "truck")
    return tuple(replace(truck, id=key) for truck, key in zip(trucks, ids, strict=True))


def _truck(
    file: OutfitFile, fields: Fields, number: int, days: Days, people: Sequence[Person]
) -> Truck:
    deck = _deck(fields)
    empty_g = fields.read("empty", measures.VEHICLE_EMPTY, 1)
    max_g = fields.read("max", measures.VEHICLE_MOST, 1)
    drivers = tuple(person.id for person in people if person.drives)
    known = file.top.right("people")  # else nobody's name is
    typed = fields.items("drivers", partial(find_person, people) if known else name)
    truck = Truck(
        id="",
        name=fields.optional("name", name) or f"Truck {number + 1}",
        empty_g=empty_g,
        max_g=max_g,
        train_max_g=fields.optional("train_max", measures.VEHICLE_MOST),
        fuel_g=fields.read("fuel", measures.ABOARD, 0),
        kit_g=fields.read("kit", measures.ABOARD, 0),
        deck=deck,
        axles=_axles(file, fields, number, (empty_g, max_g, deck)),
        seats=fields.read("seats", Whole(1, 9), 1),
        width_mm=_width(fields, deck),
        four_wheel=fields.read("four_wheel", yes_no, False),
        speed_permille=fields.read("speed", speed_factor, 1000),
        km_cents=fields.read("km_cost", Money(phrase("one kilometre")), 0),
        day_cents=fields.read("day_cost", Money(phrase("a day of use")), 0),
        drivers=(known and typed) or drivers,
        out_days=_out_days(fields, days),
    )
    _check_drivers(fields, truck, people)
    _check_masses(fields, truck)
    return truck


def read_trailers(file: OutfitFile, days: Days) -> tuple[Trailer, ...]:
    """Return the trailers, in the order typed."""
    trailers: list[Trailer] = []
    for number, fields in enumerate(file.entries("trailers")):
        deck = _deck(fields)
        called = fields.optional("name", name) or f"Trailer {number + 1}"
        _once(fields, called, [known.name for known in trailers])
        trailer = Trailer(
            id="",
            name=called,
            empty_g=fields.read("empty", measures.VEHICLE_EMPTY, 1),
            max_g=fields.read("max", measures.VEHICLE_MOST, 1),
            deck=deck,
            width_mm=_width(fields, deck),
            speed_permille=fields.read("speed", speed_factor, 1000),
            km_cents=fields.read("km_cost", Money(phrase("one kilometre")), 0),
            out_days=_out_days(fields, days),
            nose=_nose(file, fields, number, deck),
        )
        if fields.right("max", "empty") and trailer.max_g <= trailer.empty_g:
            fields.fault("max", phrase("more than empty"), phrase("Check both masses."))
        trailers.append(trailer)
    ids = keys([trailer.name for trailer in trailers], "trailer")
    return tuple(replace(one, id=key) for one, key in zip(trailers, ids, strict=True))


def _nose(file: OutfitFile, fields: Fields, number: int, deck: Deck) -> Nose | None:
    """Return where the trailer's load rests, when that was measured."""
    inner = file.inner(fields, "nose", f"trailers.{number}.nose")
    if inner is None:
        return None
    nose = Nose(
        empty_g=inner.read("empty", measures.NOSE_EMPTY, 1),
        drawbar_mm=inner.read("drawbar", measures.DRAWBAR, 1),
        deck_starts_mm=inner.read("deck_starts", measures.DECK_STARTS, 0),
    )
    back = nose.deck_starts_mm + deck.length_mm
    measured = inner.right("drawbar", "deck_starts") and fields.right("deck_length")
    if measured and not nose.deck_starts_mm < nose.drawbar_mm < back:
        low, high = (Number(f"{mm / 1000:g}") for mm in (nose.deck_starts_mm, back))
        cure = phrase("The axle stands under the deck: measure both from the coupling.")
        inner.fault(
            "drawbar",
            phrase("between {low} m and {high} m, where the deck is", low=low, high=high),
            cure,
        )
    return nose


def _once(fields: Fields, called: str, others: Sequence[str]) -> None:
    if key_of(called) in {key_of(other) for other in others}:
        fields.fault(
            "name", phrase("each name once"), phrase("Give it a name of its own."), said=called
        )


def _deck(fields: Fields) -> Deck:
    return Deck(
        length_mm=fields.read("deck_length", measures.DECK, 1),
        width_mm=fields.read("deck_width", measures.DECK, 1),
        stack_mm=fields.read("stack_height", measures.STACK, 1),
        stack_boxes=fields.read("stack_boxes", Whole(1, 20), 1),
    )


def _width(fields: Fields, deck: Deck) -> int:
    wide = deck.width_mm + 100
    shown = (
        f"{wide / 1000:g} m",
        phrase("deck width and 5 cm of side board each side [C]"),
    )
    return fields.derived("width", measures.VEHICLE_WIDTH, wide, shown)


def _out_days(fields: Fields, days: Days) -> tuple[int, ...]:
    return tuple(sorted(set(fields.items("out_days", days.number))))


def _axles(
    file: OutfitFile, fields: Fields, number: int, limits: tuple[int, int, Deck]
) -> Axles | None:
    """Return the axles, or None where they are at fault.

    ``limits`` are the truck's empty mass, its gross limit and its deck.
    """
    inner = file.inner(fields, "axles", f"trucks.{number}.axles")
    if inner is None:
        return None
    empty_g, most, deck = limits
    least = -(-most * STEER_LEAST_PERMILLE // 1000)
    shown = (
        f"{least / 1000:g} kg",
        phrase("a fifth of max (Axle load calculations 04:20-01, 2010) [B]"),
    )
    axles = Axles(
        front_empty_g=inner.read("front_empty", measures.VEHICLE_EMPTY, 1),
        rear_empty_g=inner.read("rear_empty", measures.VEHICLE_EMPTY, 1),
        front_min_g=inner.derived("front_min", measures.AXLE_LEAST, least, shown),
        front_max_g=inner.read("front_max", measures.VEHICLE_MOST, 1),
        rear_max_g=inner.read("rear_max", measures.VEHICLE_MOST, 1),
        load_on_rear_permille=_on_rear(inner, deck),
        wheelbase_mm=inner.optional("wheelbase", measures.WHEELBASE),
        deck_starts_mm=inner.optional("deck_starts", measures.DECK_STARTS),
    )
    weighed = fields.right("empty") and inner.right("front_empty", "rear_empty")
    if weighed and not axles_add_up(axles, empty_g):
        total = (axles.front_empty_g + axles.rear_empty_g) / 1000
        cure = phrase(
            "The two empty axles make {total} kg; they must make up the empty truck.",
            total=Number(f"{total:g}"),
        )
        said = f"{axles.front_empty_g / 1000:g} kg + {axles.rear_empty_g / 1000:g} kg"
        fields.fault(
            "axles", phrase("front_empty + rear_empty = empty, within 5 %"), cure, said=said
        )
    return axles if inner.clean else None


def _on_rear(inner: Fields, deck: Deck) -> int:
    """Return the rear axle's share of the load: typed, or by lever arm from where the deck is."""
    if inner.has("load_on_rear") or not (inner.has("wheelbase") or inner.has("deck_starts")):
        either = phrase("Fill it in, or for an estimate of it wheelbase and deck_starts.")
        return inner.read("load_on_rear", share, 1000, either)
    both = phrase("Both wheelbase and deck_starts, or load_on_rear instead.")
    wheelbase = inner.read("wheelbase", measures.WHEELBASE, 0, both)
    starts = inner.read("deck_starts", measures.DECK_STARTS, 0, both)
    if not inner.right("wheelbase", "deck_starts"):
        return 1000
    permille = deck_rear_permille(wheelbase, starts, deck.length_mm)
    if permille > 1000:
        cure = phrase(
            "A load behind the rear axle lifts the front one: check, or type load_on_rear."
        )
        inner.fault("deck_starts", phrase("the middle of the deck ahead of the rear axle"), cure)
    words = phrase("by lever arm from wheelbase, deck_starts and deck_length, spread evenly [D]")
    return inner.derived(
        "load_on_rear",
        share,
        permille,
        (f"{permille / 10:g} %", words),
    )


def _check_drivers(fields: Fields, truck: Truck, people: Sequence[Person]) -> None:
    able = {person.id for person in people if person.drives}
    if not fields.right("drivers"):
        return
    if fields.has("drivers") and not fields.said("drivers"):
        fields.fault(
            "drivers", phrase("at least one who drives"), phrase("Name one, or leave the line out.")
        )
    elif not set(truck.drivers) <= able:
        fields.fault(
            "drivers", phrase("people with drives = true"), phrase("Change drives, or the drivers.")
        )


def _check_masses(fields: Fields, truck: Truck) -> None:
    ready = truck.empty_g + truck.fuel_g + truck.kit_g
    if fields.right("empty", "fuel", "kit", "max") and truck.max_g <= ready + 40_000:
        cure = phrase("Nothing is left for a driver and a load: check empty, max, fuel and kit.")
        fields.fault(
            "max",
            phrase("more than {ready} kg and a driver", ready=Number(f"{ready / 1000:g}")),
            cure,
        )
    train_g = truck.train_max_g
    if fields.right("max", "train_max") and train_g is not None and train_g <= truck.max_g:
        fields.fault(
            "train_max",
            phrase("more than max"),
            phrase("Leave it out when it may pull no trailer."),
        )


def axles_add_up(axles: Axles, empty_g: int) -> bool:
    """Tell whether the empty axles make up the empty truck, within a twentieth of it."""
    return abs(axles.front_empty_g + axles.rear_empty_g - empty_g) <= empty_g // 20
