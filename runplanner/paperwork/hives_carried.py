"""Who carries which hives in the night after a day."""

from collections.abc import Iterator

from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.paperwork.say import vehicle_name, yard_name
from runplanner.paperwork.tongue import tr


def carrying_days(outfit: Outfit) -> set[int]:
    """Return the days in whose nights a truck carries hives to a new place."""
    return {day - 1 for yard in outfit.yards for day, _ in yard.carried_by}


def carried_in(outfit: Outfit, day: int) -> Iterator[str]:
    """Yield who carries which hives in the night after ``day``, where the truck is known."""
    for yard in outfit.yards:
        for from_day, truck in yard.carried_by:
            if from_day == day + 1:
                yield carries(outfit, truck, yard)


def carries(outfit: Outfit, truck: str, yard: Yard) -> str:
    """Return in words that a truck carries the hives of a yard."""
    return tr(
        "{truck} carries the hives of {yard} to the new place",
        truck=vehicle_name(outfit, truck), yard=yard_name(yard),
    )  # fmt: skip
