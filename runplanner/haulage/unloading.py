"""Where a trip unloads, and how many boxes there."""

from typing import NamedTuple


class Unloading(NamedTuple):
    """One call to unload: at the honey house, at the feed store, or at both where they are one."""

    house: bool
    store: bool
    boxes: int


def unloadings(honey: int, others: int, *, kit: bool, apart: bool) -> tuple[Unloading, ...]:
    """Return the calls at which a trip unloads, in order.

    Honey goes to the honey house, and comes first; all else, or a truck without honey, to the
    feed store.

    Args:
        honey: Honey boxes.
        others: Brood boxes and emptied boxes.
        kit: Boards or feeders go to the store with this trip.
        apart: Honey house and feed store are two places.
    """
    store = bool(others or kit or not honey)
    if not apart and honey:
        return (Unloading(house=True, store=store, boxes=honey + others),)
    house = (Unloading(house=True, store=False, boxes=honey),) if honey else ()
    return (*house, Unloading(house=False, store=True, boxes=others)) if store else house
