"""Who is on which truck, and who is free to spin or mix."""

from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from runplanner.outfit.people import Person
from runplanner.outfit.trucks import Truck
from runplanner.season.standing.base_work import NO_WORK, BaseWork
from runplanner.season.standing.duty import Duty, Piece
from runplanner.season.standing.halves import Halves
from runplanner.trips.clock import Run
from runplanner.trips.ground import Ground


class Need(NamedTuple):
    """A shift that wants people: truck index, how many, and the half-days it touches.

    ``fixed`` names (by index) a crew that is out already or was out; ``wished`` one that was
    promised, kept as far as it is there.  ``pieces`` are its minutes between breaks, told on days
    on which somebody has worked inside (`Roster.timed`).
    """

    truck: int
    crew: int
    first_half: bool
    second_half: bool
    fixed: tuple[int, ...] = ()
    wished: tuple[int, ...] = ()
    pieces: tuple[Piece, ...] = ()


class Roster:
    """Deals people out to the shifts of a day, sparing those who can spin or mix.

    Args:
        ground: The campaign.
        past: What has been mixed and spun: whoever was inside goes out in the day's other half,
            as far as duty and breaks allow.
    """

    def __init__(self, ground: Ground, past: BaseWork = NO_WORK) -> None:
        self.past, self.inside = past, past.inside()
        self._inside_on = frozenset(day for day, _ in self.inside)
        self._halves = Halves(ground.outfit.hours)
        self.duty = Duty(ground.outfit.hours)
        self._trucks = ground.outfit.trucks
        self._people = ground.outfit.people
        self.crews = cache(self._crews)
        self.free = cache(self._free)

    def here(self, day: int) -> tuple[int, ...]:
        """Return the people (by index) who are not away on a day."""
        return tuple(i for i, person in enumerate(self._people) if day not in person.off_days)

    def timed(self, day: int, need: Need, run: Run) -> Need:
        """Return a need with its minutes, where who has worked inside that day hangs on them."""
        if day not in self._inside_on:
            return need
        return need._replace(pieces=tuple(self.duty.pieces(run)))

    def _crews(self, day: int, needs: tuple[Need, ...]) -> tuple[tuple[int, ...], ...] | None:
        """Return a crew for each need, driver first, or None where people run short."""
        taken = {i for need in needs for i in need.fixed}
        free = (i for i in self.here(day) if i not in taken)
        here = sorted(free, key=lambda i: _skills(self._people[i]))
        drivers = self._drivers(day, needs, here)
        if drivers is None:
            return None
        left = [i for i in here if i not in drivers]
        crews = []
        for at, (need, driver) in enumerate(zip(needs, drivers, strict=True)):
            if need.fixed:
                crews.append(need.fixed)
                continue
            may = [i for i in left if self._may_go(day, i, need)]
            if len(may) < need.crew - 1:
                return None
            riders = _wished_first(need, needs[at + 1 :], may)[: need.crew - 1]
            crews.append((driver, *riders))
            left = [i for i in left if i not in riders]
        return tuple(crews)

    def _may_go(self, day: int, person: int, need: Need) -> bool:
        """Tell whether what somebody has done inside on a day leaves him free for a shift."""
        done = self.inside.get((day, person))
        if not done:
            return True
        second = (self._halves.of(start)[1] for start, _ in done)
        apart = not any(need.second_half if late else need.first_half for late in second)
        return apart and self.duty.bears(sorted([*done, *need.pieces]))

    def _drivers(
        self, day: int, needs: Sequence[Need], here: Sequence[int]
    ) -> tuple[int, ...] | None:
        if not needs:
            return ()
        if needs[0].fixed:
            rest = self._drivers(day, needs[1:], here)
            return None if rest is None else (needs[0].fixed[0], *rest)
        truck = self._trucks[needs[0].truck]
        for i in _wished_first(needs[0], needs[1:], here):
            if _may_drive(self._people[i], truck) and self._may_go(day, i, needs[0]):
                rest = self._drivers(day, needs[1:], [j for j in here if j != i])
                if rest is not None:
                    return (i, *rest)
        return None

    def _free(self, day: int, needs: tuple[Need, ...]) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """Return who is off the trucks in the first and in the second half-day."""
        crews = self.crews(day, needs) or ()
        here = self.here(day)
        halves = []
        for half in (2, 3):
            busy = {i for need, crew in zip(needs, crews, strict=True) if need[half] for i in crew}
            halves.append(tuple(i for i in here if i not in busy))
        return halves[0], halves[1]


def _wished_first(need: Need, others: Sequence[Need], here: Sequence[int]) -> list[int]:
    """Return the people a shift was promised, in their order, then those no other waits for."""
    mine = [i for i in need.wished if i in here]
    theirs = {i for other in others for i in other.wished}
    rest = sorted((i for i in here if i not in mine), key=lambda i: i in theirs)
    return [*mine, *rest]


def _skills(person: Person) -> tuple[int, bool]:
    """Order people so that those who can do least else go out first."""
    return person.spins + person.mixes, person.drives


def _may_drive(person: Person, truck: Truck) -> bool:
    return person.drives and person.id in truck.drivers
