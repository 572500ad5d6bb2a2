"""Axle limits turned into one question: between which loads do both axles hold?"""

from runplanner.outfit.trucks import Axles

HUGE_G = 10**12
"""More than any load; stands for no limit."""


def loads_held(axles: Axles, extras_g: int, nose_g: int = 0) -> tuple[int, int]:
    """Return the least and the most load on the truck that both axles bear.

    The load counts as spread evenly over the deck; people, fuel and kit (``extras_g``)
    count half on each axle; a trailer's nose (``nose_g``) counts in full on the rear one, and
    takes nothing off the front: how far behind it hangs nobody typed.  The least is above the
    most where no load will do.  Worked in thousandths and halves of a gram, so that nothing is
    rounded the wrong way.
    """
    on_rear = 2 * axles.load_on_rear_permille
    front, rear = 2000 * axles.front_empty_g, 2000 * axles.rear_empty_g
    half = 1000 * extras_g
    least, most = _between(
        2000 - on_rear,
        2000 * axles.front_min_g - front - half,
        2000 * axles.front_max_g - front - half,
    )
    room = 2000 * (axles.rear_max_g - nose_g) - rear - half
    _, most_rear = _between(on_rear, -HUGE_G * 2000, room)
    return least, min(most, most_rear)


def _between(each: int, low: int, high: int) -> tuple[int, int]:
    """Return the least and most whole ``x >= 0`` with ``low <= each * x <= high``."""
    if each < 0:
        return _between(-each, -high, -low)
    if each == 0:
        return (0, HUGE_G) if low <= 0 <= high else (0, -1)
    return max(0, -(-low // each)), high // each
