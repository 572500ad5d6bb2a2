"""Axle and nose-weight estimates by lever arm: a first guess, a weighbridge tells the truth.

A truck on two axles is a beam on two supports: a load ``a`` behind the front axle of a
wheelbase ``w`` puts ``a / w`` of its mass on the rear axle.
"""

from typing import Final

from runplanner.outfit.trucks import Axles, Trailer

STEER_LEAST_PERMILLE: Final = 200
"""At least a fifth of the vehicle's mass on the steered axle (Axle load calculations 04:20-01,
2010, scribd 255317807).  Local rules may differ."""
NOSE_LOW_G: Final = 50_000
NOSE_HIGH_G: Final = 80_000
"""Usual nose weight of a light trailer (a trailer maker's guide); the plates on coupling and
towing vehicle count."""


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


def axle_loads_g(truck: Axles, load_g: int, riders_g: int) -> tuple[int, int]:
    """Return front and rear axle mass; people, fuel and kit count half and half."""
    rear_load = load_g * truck.load_on_rear_permille // 1000
    front = truck.front_empty_g + riders_g // 2 + load_g - rear_load
    return front, truck.rear_empty_g + (riders_g - riders_g // 2) + rear_load


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


def nose_most_g(trailer: Trailer) -> int:
    """Return the most its nose weighs under any load spread evenly, rounded up.

    Never below 0, and 0 where the trailer was not measured.
    """
    nose = trailer.nose
    if nose is None:
        return 0
    ahead_mm = 2 * (nose.drawbar_mm - nose.deck_starts_mm) - trailer.deck.length_mm
    full_g = (trailer.max_g - trailer.empty_g) * max(0, ahead_mm)
    return nose.empty_g - (-full_g // (2 * nose.drawbar_mm))


def tanks_on_front_g(truck: Axles, tanks_g: int, long_mm: int) -> int | None:
    """Return what tanks against the headboard put on the front axle, rounded up.

    Args:
        truck: The truck's axles.
        tanks_g: Mass of the tanks, filled.
        long_mm: How far they reach along the deck; their middle lies half of it behind its front.

    Returns:
        None where wheelbase and deck were not measured.
    """
    if truck.wheelbase_mm is None or truck.deck_starts_mm is None:
        return None
    rear = rear_permille(2 * truck.wheelbase_mm, 2 * truck.deck_starts_mm + long_mm)
    return -(-tanks_g * (1000 - rear) // 1000)
