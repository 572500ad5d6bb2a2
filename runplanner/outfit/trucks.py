"""Trucks, trailers and what they may carry."""

from dataclasses import dataclass, field

from runplanner.outfit.later import LATER


@dataclass(frozen=True, slots=True)
class Deck:
    """A loading floor: inside length and width, and how high a stack may stand."""

    length_mm: int
    width_mm: int
    stack_mm: int
    stack_boxes: int


@dataclass(frozen=True, slots=True)
class Axles:
    """A two-axle truck's limits; the load is taken as spread evenly over the deck.

    Args:
        front_empty_g: Front axle mass, empty with driver aboard not counted.
        rear_empty_g: Rear axle mass, likewise.
        front_min_g: Least mass on the steering axle.
        front_max_g: Front axle limit.
        rear_max_g: Rear axle limit.
        load_on_rear_permille: Share of the load that rests on the rear axle.
        wheelbase_mm: Front to rear axle; None where nobody measured.
        deck_starts_mm: From the front axle to the front of the deck, likewise.
    """

    front_empty_g: int
    rear_empty_g: int
    front_min_g: int
    front_max_g: int
    rear_max_g: int
    load_on_rear_permille: int
    wheelbase_mm: int | None = field(default=None, metadata=LATER)
    deck_starts_mm: int | None = field(default=None, metadata=LATER)


@dataclass(frozen=True, slots=True)
class Nose:
    """Where a trailer's load rests, to estimate the weight on the coupling.

    Args:
        empty_g: Weight of the empty trailer's nose.
        drawbar_mm: From coupling to axle; to the middle of two axles.
        deck_starts_mm: From coupling to the front of the deck.
    """

    empty_g: int
    drawbar_mm: int
    deck_starts_mm: int


@dataclass(frozen=True, slots=True)
class Trailer:
    """A trailer; ``max_g`` is its own gross limit, ``nose`` None where it was not measured."""

    id: str
    name: str
    empty_g: int
    max_g: int
    deck: Deck
    width_mm: int
    speed_permille: int
    km_cents: int
    out_days: tuple[int, ...] = ()
    nose: Nose | None = field(default=None, metadata=LATER)


@dataclass(frozen=True, slots=True)
class Truck:
    """A truck.

    Args:
        empty_g: Kerb mass without people, fuel and kit.
        max_g: Gross limit of the truck itself.
        train_max_g: Gross limit of truck and trailer together; None when it may pull none.
        fuel_g: Fuel mass counted off the payload.
        kit_g: Pump, covers, smokers, straps: aboard all day, off the payload.
        seats: People it can carry, driver included.
        width_mm: Outside width.
        four_wheel: Has four-wheel drive.
        speed_permille: 1000 = the travel table's speed; 900 = a tenth slower.
        km_cents: Running cost for each kilometre.
        day_cents: Cost of using it on a day at all.
        drivers: Ids of the people who may drive it.
        out_days: Days it is not to be had (service, a night move).
    """

    id: str
    name: str
    empty_g: int
    max_g: int
    train_max_g: int | None
    fuel_g: int
    kit_g: int
    deck: Deck
    axles: Axles | None
    seats: int
    width_mm: int
    four_wheel: bool
    speed_permille: int
    km_cents: int
    day_cents: int
    drivers: tuple[str, ...]
    out_days: tuple[int, ...] = ()
