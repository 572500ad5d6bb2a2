"""What is mixed and spun at the bases, and what it costs."""

from typing import NamedTuple

from runplanner.days import day_of
from runplanner.season.standing.duty import Piece
from runplanner.season.standing.floor import Spin


class Mix(NamedTuple):
    """One person mixing."""

    start_min: int
    end_min: int
    person: int
    ml: int


class BaseWork(NamedTuple):
    """Mixing and spinning that keep up with the trips, their cost, and what of it is lateness."""

    mixing: tuple[Mix, ...]
    spinning: tuple[Spin, ...]
    milli_cents: int
    late_milli_cents: int = 0

    def inside(self) -> dict[tuple[int, int], list[Piece]]:
        """Return what is mixed and spun, by day and person."""
        found: dict[tuple[int, int], list[Piece]] = {}
        for mix in self.mixing:
            found.setdefault((day_of(mix.start_min), mix.person), []).append(mix[:2])
        for spin in self.spinning:
            for person in spin.people:
                done = spin.start_min, spin.end_min
                found.setdefault((day_of(spin.start_min), person), []).append(done)
        return found


NO_WORK = BaseWork((), (), 0)
