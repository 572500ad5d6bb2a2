"""How many spin on a day, so that all honey is spun in time and a box costs as little as may be.

Where more people spin, a box costs each day more of their hours.  The cheapest way to keep
every deadline is then to spin as evenly as the deadlines let it: on each day at the least
pace that still reaches all of them, as processors are slowed down to save current
(Yao, Demers and Shenker, "A scheduling model for reduced CPU energy", 1995).
"""

from collections.abc import Callable
from itertools import accumulate

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.season.standing.floor import Floor, Honey

Team = Callable[[Floor, int], int]
"""Tells how many may spin at once on a day, from what waits in the morning."""

SPARE = 1.1
"""Pace beyond the least, for breaks and for people who come home late (guessed)."""


class Tempo:
    """Knows the plant's hours and paces, and how many spin a box ``cheapest``.

    Args:
        outfit: The facts.
        hours_of: The hours in which the plant can run on a day, as ``(half, start, end)``.
        days: Days of which the hours are looked at.
    """

    def __init__(
        self, outfit: Outfit, hours_of: Callable[[int], tuple[tuple[int, int, int], ...]], days: int
    ) -> None:
        house = outfit.honey_house
        self._yards, self._room = outfit.yards, house.room_boxes
        self._waiting = house.waiting_boxes
        spans = [(start, end) for day in range(days) for _, start, end in hours_of(day)]
        spans = spans or [(0, 0)]
        self._minutes = [minute for span in spans for minute in span]
        run = accumulate((end - start for start, end in spans), initial=0)
        self._open_min = [minutes for before in run for minutes in (before, before)][1:-1]
        rates = list(enumerate(house.boxes_per_h))[1:]
        self._by_cost = sorted((n / rate, -n, rate) for n, rate in rates if rate)
        self.cheapest = -self._by_cost[0][1] if self._by_cost else 0

    def keeping_up(self, honey: Honey) -> Team:
        """Return the team that keeps up with boxes as they come in and as they spoil."""
        from numpy import array, interp

        found = self._wanted(honey)
        wanted_min = interp([minute for minute, _ in found], self._minutes, self._open_min)
        upto = array([boxes for _, boxes in found])

        def team(floor: Floor, day: int) -> int:
            now = interp(day * DAY_MIN, self._minutes, self._open_min)
            later = (wanted_min > now) & (upto > floor.done)
            paces = (upto[later] - floor.done) / (wanted_min[later] - now)
            return self._least(60 * SPARE * float(paces.max(initial=0.0)))

        return team

    def _wanted(self, honey: Honey) -> list[tuple[int, int]]:
        """Return ``(minute, boxes)``: by which minute of the campaign how many are spun.

        Honey is wanted by its spin-by hour, and before boxes come in for which there would be
        no room.
        """
        found, upto, here = [], self._waiting, self._waiting
        for lot in honey.line:
            upto += lot.boxes
            found.append((lot.off_min + self._yards[lot.yard].spin_by_min, upto))
        for lot in honey.came:
            here += lot.boxes
            found.append((lot.arrive_min, here - self._room))
        return found

    def _least(self, boxes_per_h: float) -> int:
        """Return the team that costs least a box at such a pace, or the quickest of all."""
        for _, size, rate in self._by_cost:
            if rate >= boxes_per_h:
                return -size
        return -max((rate, size) for _, size, rate in self._by_cost)[1]
