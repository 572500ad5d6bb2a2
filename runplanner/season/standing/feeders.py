"""Feeders that circulate: left with the first feed, collected once they are empty, used again."""

from collections.abc import Collection, Iterable, Mapping

from runplanner.outfit.stores import Kit, shortage
from runplanner.trips.judged import Judged, feeders_moved


def feeders_hold(kit: Kit, days: Iterable[Judged]) -> bool:
    """Tell whether the feed store never lends more feeders than there are."""
    if kit.feeders_owned is None:
        return True
    moves = (move for judged in days for move in feeders_moved(judged))
    return not shortage(kit.feeders_owned, moves, kit.feeders_lost)


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
