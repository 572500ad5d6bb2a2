"""The trips of one listed day, in the order that makes it the least."""

from collections.abc import Iterator

from runplanner.season.whole.listing import Legs, Limits

Way = tuple[tuple[int, bool], ...]
"""Stops to come, each with whether a trip begins with it."""


def ordered(legs: Legs, limits: Limits, stops: tuple[int, ...]) -> tuple[tuple[int, ...], ...]:
    """Return the trips of the least day of a set of stops, in order.

    Raises:
        ValueError: There is no such day.
    """
    most = limits.most_g
    onward = _Onward(legs, limits)
    whole = frozenset(stops)
    _, way = min(
        onward.from_here(int(legs.start[first]), first, most, whole, anew=True) for first in stops
    )
    trips: list[list[int]] = []
    for stop, anew in way:
        if anew:
            trips.append([])
        trips[-1].append(stop)
    return tuple(map(tuple, trips))


class _Onward:
    """The least from a stop on, for what is left and the room that is left on its trip."""

    def __init__(self, legs: Legs, limits: Limits) -> None:
        self.legs, self.limits = legs, limits
        self._known: dict[tuple[int, int, frozenset[int]], tuple[int, Way]] = {}

    def from_here(
        self, leg: int, stop: int, room: int, left: frozenset[int], *, anew: bool
    ) -> tuple[int, Way]:
        """Return the least of a leg, its stop and all stops left, and the way."""
        cost, way = self._least(stop, room - int(self.limits.load_g[stop]), left - {stop})
        return leg + cost, ((stop, anew), *way)

    def _least(self, last: int, room: int, left: frozenset[int]) -> tuple[int, Way]:
        # Room for all that is left is as good as any more.
        room = min(room, sum(int(self.limits.load_g[stop]) for stop in left))
        key = (last, room, left)
        if key not in self._known:
            end = (int(self.legs.end[last]), ())
            self._known[key] = min(self._further(last, room, left)) if left else end
        return self._known[key]

    def _further(self, last: int, room: int, left: frozenset[int]) -> Iterator[tuple[int, Way]]:
        for stop in sorted(left):
            leg = int(self.legs.via[last, stop])
            yield self.from_here(leg, stop, self.limits.most_g, left, anew=True)
            if self.limits.load_g[stop] <= room:
                leg = int(self.legs.direct[last, stop])
                yield self.from_here(leg, stop, room, left, anew=False)
