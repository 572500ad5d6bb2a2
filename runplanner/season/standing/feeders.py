"""Feeders that circulate: left with the first feed, collected once they are empty, used again."""

from collections.abc import Collection, Mapping

from runplanner.outfit.stores import Kit
from runplanner.season.standing.stores import Key, at_the_store, who_is_short
from runplanner.trips.judged import Judged, feeders_moved


def feeders_hold(kit: Kit, days: Mapping[Key, Judged], driven: Collection[Key]) -> bool:
    """Tell whether the feed store never lends more feeders than there are."""
    return _short(kit, days, driven) is None


def first_short(
    kit: Kit, days: Mapping[Key, Judged], driven: Collection[Key]
) -> frozenset[int] | None:
    """Return the yards given their feeders by the first trip for which there are not enough.

    None where there are, or where only what is driven took too many.
    """
    key = _short(kit, days, driven)
    if key is None:
        return None
    stops = (stop for trip in days[key].day.trips for stop in trip)
    return frozenset(stop.yard for stop in stops if stop.round == 1) or None


def _short(kit: Kit, days: Mapping[Key, Judged], driven: Collection[Key]) -> Key | None:
    if kit.feeders_owned is None:
        return None
    moves = at_the_store({key: feeders_moved(judged) for key, judged in days.items()})
    return who_is_short(kit.feeders_owned, moves, kit.feeders_lost, driven)
