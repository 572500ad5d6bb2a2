"""Feeders that circulate: left with the first feed, collected once they are empty, used again."""

from collections.abc import Collection, Iterable, Mapping

from runplanner.outfit.stores import Kit
from runplanner.season.standing.stores import Turn, at_the_store, in_turn, who_is_short
from runplanner.trips.day import Key
from runplanner.trips.judged import Judged, feeders_moved


def feeders_hold(kit: Kit, days: Mapping[Key, Judged], driven: Collection[Key]) -> bool:
    """Tell whether the feed store never lends more feeders than there are."""
    return _short(kit, days, driven) is None


def lending(
    kit: Kit, days: Mapping[Key, Judged], driven: Collection[Key], wanted: int, among: Iterable[int]
) -> tuple[int, ...]:
    """Return the days, of those given, on which the store may lend so many feeders.

    On any other it never has as many, or a load planned for a later day would lack them.  What
    a truck goes home with counts from then on: it may load at the store the next morning.
    """
    if kit.feeders_owned is None:
        return tuple(among)
    moves = list[tuple[int, int, Key]]()
    for key, judged in days.items():
        moved = feeders_moved(judged)
        home = (judged.back_at[-1], moved.aboard)
        moves += [(minute, change, key) for minute, change in (*moved.moves, home)]
    turns = in_turn(moves, kit.feeders_lost)
    stored, later = kit.feeders_owned, list[tuple[int, int]]()
    for turn, change, key in turns:
        stored += change
        if turn is Turn.LOAD and key not in driven:
            later.append((key[0], stored))
    return tuple(
        day
        for day in among
        if wanted <= kit.feeders_owned + _at_most(turns, driven, day)
        and all(wanted <= left for on, left in later if on > day)
    )


def _at_most(turns: Iterable[tuple[Turn, int, Key]], driven: Collection[Key], day: int) -> int:
    """Return the change of the store by the last load planned for a day, at most."""
    return sum(
        change for _, change, key in turns
        if key[0] < day or (key[0] == day and (change > 0 or key not in driven))
    )  # fmt: skip


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
    return frozenset(stop.yard for stop in stops if stop.round == 1 or stop.feeders) or None


def _short(kit: Kit, days: Mapping[Key, Judged], driven: Collection[Key]) -> Key | None:
    if kit.feeders_owned is None:
        return None
    moves = at_the_store({key: feeders_moved(judged) for key, judged in days.items()})
    return who_is_short(kit.feeders_owned, moves, kit.feeders_lost, driven)
