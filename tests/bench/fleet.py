"""Trucks and trailers of the bench's campaigns: sizes of ordinary vehicles, none in particular."""

from dataclasses import replace

from runplanner.outfit.trucks import Axles, Deck, Trailer, Truck
from tests.outfits import a_truck

AXLES = Axles(1_150_000, 950_000, 950_000, 1_750_000, 2_240_000, 850)


def trucks(count: int, drivers: tuple[str, ...]) -> tuple[Truck, ...]:
    """Return 3.5 t trucks; all but each fourth may pull, every second is four-wheel driven."""
    return tuple(
        replace(
            a_truck(number + 1),
            drivers=drivers,
            train_max_g=None if number % 4 == 3 else 5_500_000,
            four_wheel=number % 2 == 0,
            axles=AXLES if number % 2 else None,
            km_cents=60 if number % 2 == 0 else 55,
        )
        for number in range(count)
    )


def trailers(count: int) -> tuple[Trailer, ...]:
    """Return trailers that carry 1.2 t."""
    deck = Deck(3_000, 1_700, 1_100, 5)
    return tuple(
        Trailer(f"trailer{i + 1}", f"Trailer {i + 1}", 600_000, 1_800_000, deck, 1_900, 900, 15)
        for i in range(count)
    )
