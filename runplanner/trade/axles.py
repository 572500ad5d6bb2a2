"""Axle and nose-weight estimates by lever arm: a first guess, a weighbridge tells the truth.

A truck on two axles is a beam on two supports: a load ``a`` behind the front axle of a
wheelbase ``w`` puts ``a / w`` of its mass on the rear axle.
"""

from dataclasses import dataclass
from typing import Final

from runplanner.outfit.trucks import Axles, Trailer

STEER_LEAST_PERMILLE: Final = 200
"""At least a fifth of the vehicle's mass on the steered axle (Axle load calculations 04:20-01,
2010, scribd 255317807).  Local rules may differ."""
NOSE_LOW_G: Final = 50_000
NOSE_HIGH_G: Final = 80_000
"""Usual nose weight of a light trailer (a trailer maker's guide); the plates on coupling and
towing vehicle count."""
ESTIMATE: Final = "An estimate by lever arm; a weighbridge and the plates count."


@dataclass(frozen=True, slots=True)
class Item:
    """A part of the load by the distance of its middle behind the front axle."""

    mass_g: int
    behind_front_mm: int


def rear_permille(wheelbase_mm: int, behind_front_mm: int) -> int:
    """Return the share of a load on the rear axle; above 1000 when it hangs behind it.

    Raises:
        ValueError: When the wheelbase is not above zero.
    """
    if wheelbase_mm < 1:
        raise ValueError(f"wheelbase must be above zero, not {wheelbase_mm} mm")
    return (2 * 1000 * behind_front_mm + wheelbase_mm) // (2 * wheelbase_mm)


def deck_rear_permille(wheelbase_mm: int, deck_starts_mm: int, deck_length_mm: int) -> int:
    """Return the rear axle's share of a load spread evenly over the deck.

    Args:
        wheelbase_mm: Front to rear axle.
        deck_starts_mm: From the front axle to the front of the deck.
        deck_length_mm: Inside length of the deck.
    """
    return rear_permille(2 * wheelbase_mm, 2 * deck_starts_mm + deck_length_mm)


def middle_mm(items: tuple[Item, ...]) -> int:
    """Return where the middle of a mixed load lies behind the front axle.

    Raises:
        ValueError: When nothing is loaded.
    """
    mass = sum(item.mass_g for item in items)
    if mass < 1:
        raise ValueError("an empty load has no middle")
    return sum(item.mass_g * item.behind_front_mm for item in items) // mass


def axles(
    front_empty_g: int,
    rear_empty_g: int,
    limits_g: tuple[int, int],
    load_on_rear_permille: int,
    max_g: int,
) -> Axles:
    """Return an outfit's axles with the least steering-axle mass filled in.

    Args:
        front_empty_g: Front axle of the empty truck.
        rear_empty_g: Rear axle.
        limits_g: Front and rear limits from the plate.
        load_on_rear_permille: See :func:`deck_rear_permille`.
        max_g: Gross limit of the truck; a fifth of it is asked of the steered axle.
    """
    return Axles(
        front_empty_g=front_empty_g,
        rear_empty_g=rear_empty_g,
        front_min_g=-(-max_g * STEER_LEAST_PERMILLE // 1000),
        front_max_g=limits_g[0],
        rear_max_g=limits_g[1],
        load_on_rear_permille=load_on_rear_permille,
    )


def axle_loads_g(truck: Axles, load_g: int, riders_g: int) -> tuple[int, int]:
    """Return front and rear axle mass; people, fuel and kit count half and half."""
    rear_load = load_g * truck.load_on_rear_permille // 1000
    front = truck.front_empty_g + riders_g // 2 + load_g - rear_load
    return front, truck.rear_empty_g + (riders_g - riders_g // 2) + rear_load


def most_load_g(truck: Axles, riders_g: int, payload_g: int) -> int:
    """Return the most even load up to ``payload_g`` that keeps both axles within limits.

    Zero when not even an empty deck does.
    """
    low, high = 0, payload_g
    while low < high:
        middle = (low + high + 1) // 2
        low, high = (middle, high) if _holds(truck, middle, riders_g) else (low, middle - 1)
    return low


def _holds(truck: Axles, load_g: int, riders_g: int) -> bool:
    front, rear = axle_loads_g(truck, load_g, riders_g)
    return truck.front_min_g <= front <= truck.front_max_g and rear <= truck.rear_max_g


def nose_g(empty_nose_g: int, load_g: int, ahead_mm: int, drawbar_mm: int) -> int:
    """Return the nose weight of a trailer with its axles in the middle.

    Args:
        empty_nose_g: Nose weight of the empty trailer.
        load_g: Mass loaded.
        ahead_mm: Middle of the load ahead of the axle; negative behind it.
        drawbar_mm: From coupling to axle (to the middle of two axles).

    Raises:
        ValueError: When the drawbar is not above zero.
    """
    if drawbar_mm < 1:
        raise ValueError(f"drawbar must be above zero, not {drawbar_mm} mm")
    return empty_nose_g + load_g * ahead_mm // drawbar_mm


def trailer_nose_g(trailer: Trailer, load_g: int) -> int | None:
    """Return the nose weight under a load spread evenly over the trailer's deck.

    Negative: the nose lifts.  None where the trailer was not measured.
    """
    nose = trailer.nose
    if nose is None:
        return None
    # Twice the middle's way ahead of the axle stays a whole number of millimetres.
    ahead_mm = 2 * (nose.drawbar_mm - nose.deck_starts_mm) - trailer.deck.length_mm
    return nose_g(nose.empty_g, load_g, ahead_mm, 2 * nose.drawbar_mm)


def nose_warning(nose: int, low_g: int = NOSE_LOW_G, high_g: int = NOSE_HIGH_G) -> str:
    """Return a sentence when the nose weight is outside the usual range, else ""."""
    if low_g <= nose <= high_g:
        return ""
    cure = "move load forward" if nose < low_g else "move load back"
    return (
        f"Nose weight about {nose // 1000} kg, usual {low_g // 1000} to {high_g // 1000} kg: "
        f"{cure}. {ESTIMATE}"
    )
