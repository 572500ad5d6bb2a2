"""Feeders that circulate: left with the first feed, collected once they are empty, used again."""

from collections.abc import Collection, Iterable, Mapping

from runplanner.trips.judged import Judged, feeders_moved


def feeders_hold(owned: int | None, days: Iterable[Judged]) -> bool:
    """Tell whether the feed store never lends more feeders than there are."""
    if owned is None:
        return True
    store = owned
    for _, change in sorted(move for judged in days for move in feeders_moved(judged)):
        store += change
        if store < 0:
            return False
    return True


def first_short(
    owned: int | None, days: Mapping[tuple[int, int], Judged], driven: Collection[tuple[int, int]]
) -> frozenset[int] | None:
    """Return the yards given their feeders by the first trip for which there are not enough.

    None where there are, or where only what is driven took too many.
    """
    if owned is None or feeders_hold(owned, days.values()):
        return None
    moves = sorted(
        (minute, change, key) for key, judged in days.items()
        for minute, change in feeders_moved(judged)
    )  # fmt: skip
    store = owned
    for _, change, key in moves:
        store += change
        if store < 0 and key not in driven:
            stops = (stop for trip in days[key].day.trips for stop in trip)
            yards = frozenset(stop.yard for stop in stops if stop.round == 1)
            return yards or None
    return None
