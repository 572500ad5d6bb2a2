"""Feeders that circulate: left with the first feed, collected once they are empty, used again."""

from collections.abc import Collection, Iterable, Mapping

from runplanner.outfit.stores import Kit
from runplanner.trips.judged import Judged, feeders_moved


def feeders_hold(kit: Kit, days: Iterable[Judged]) -> bool:
    """Tell whether the feed store never lends more feeders than there are."""
    if kit.feeders_owned is None:
        return True
    moves = (move for judged in days for move in feeders_moved(judged))
    return never_short(kit.feeders_owned, moves, kit.feeders_lost)


def never_short(
    owned: int, moves: Iterable[tuple[int, int]], lost: Iterable[tuple[int, int]]
) -> bool:
    """Tell whether each load finds enough of a good that circulates at the store.

    ``moves`` are ``(minute, change)`` of the store.  What is lost leaves it as well, but a loss
    takes nothing that was not there: those lost may lie in a yard, and come home fewer.
    """
    store = owned
    gone = [(minute, 1, -count) for minute, count in lost]
    for _, loss, change in sorted([*gone, *((minute, 0, change) for minute, change in moves)]):
        store += change
        if change < 0 and store < 0 and not loss:
            return False
    return True


def first_short(
    kit: Kit, days: Mapping[tuple[int, int], Judged], driven: Collection[tuple[int, int]]
) -> frozenset[int] | None:
    """Return the yards given their feeders by the first trip for which there are not enough.

    None where there are, or where only what is driven took too many.
    """
    if kit.feeders_owned is None or feeders_hold(kit, days.values()):
        return None
    moves: list[tuple[int, int, tuple[int, int] | None]] = [
        (minute, change, key) for key, judged in days.items()
        for minute, change in feeders_moved(judged)
    ]  # fmt: skip
    moves += [(minute, -count, None) for minute, count in kit.feeders_lost]
    store = kit.feeders_owned
    for _, change, key in sorted(moves, key=lambda one: (one[0], one[2] is None, one[1])):
        store += change
        if change < 0 and store < 0 and key is not None and key not in driven:
            stops = (stop for trip in days[key].day.trips for stop in trip)
            yards = frozenset(stop.yard for stop in stops if stop.round == 1)
            return yards or None
    return None
