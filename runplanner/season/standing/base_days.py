"""What trips ask of the people at the bases, and what everybody does on each day."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from runplanner.season.standing.base_work import Mix
from runplanner.season.standing.duty import PeoplesDay, Piece
from runplanner.season.standing.floor import Lot
from runplanner.season.standing.roster import Need, Roster
from runplanner.trips.clock import Run

People = tuple[tuple[object, ...], ...]
"""What is out on a day: each shift's need, first and last minute and breaks."""


class Calls(NamedTuple):
    """What trips ask of the people at the bases.

    Args:
        needs: Shifts by day.
        runs: When they are out and rest, by day and truck.
        lots: Boxes coming in, in any order.
        loads: ``(minute, ml)`` of syrup loaded.
        back: When syrup that trucks have aboard for no stop is in store, and its ml.
    """

    needs: Mapping[int, tuple[Need, ...]]
    runs: Mapping[tuple[int, int], Run]
    lots: Sequence[Lot]
    loads: Sequence[tuple[int, int]]
    back: Sequence[tuple[int, int]] = ()


class BaseDays:
    """What everybody does on each day, as far as it is known yet: trucks, mixing, the past."""

    def __init__(self, roster: Roster, calls: Calls) -> None:
        self._roster = roster
        self._calls = calls
        self._known: dict[int, PeoplesDay] = {}
        self._people: dict[int, People] = {}
        self.mixed: dict[int, list[Mix]] = {}

    def free(self, day: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """Return who is off the trucks in each half of a day."""
        return self._roster.free(day, self._calls.needs.get(day, ()))

    def people(self, day: int) -> People:
        """Return who is wanted out on a day, and when."""
        known = self._people.get(day)
        if known is None:
            runs = self._calls.runs
            needs = self._calls.needs.get(day, ())
            out = ((need, runs[day, need.truck]) for need in needs)
            known = tuple((need, run.start_min, run.end_min, run.breaks) for need, run in out)
            self._people[day] = known
        return known

    def on(self, day: int) -> PeoplesDay:
        """Return what people do on a day, as far as it is told by now."""
        if day not in self._known or day in self.mixed:
            here = self._known.get(day) or PeoplesDay(self._roster.duty, self._pieces(day))
            for mix in self.mixed.pop(day, ()):
                here.works(mix.person, mix.start_min, mix.end_min)
            self._known[day] = here
        return self._known[day]

    def _pieces(self, day: int) -> dict[int, list[Piece]]:
        found: dict[int, list[Piece]] = {}
        needs = self._calls.needs.get(day, ())
        crews = self._roster.crews(day, needs) or ()
        for need, crew in zip(needs, crews, strict=False):
            pieces = self._roster.duty.pieces(self._calls.runs[day, need.truck])
            for person in crew:
                found.setdefault(person, []).extend(pieces)
        for (when, person), done in self._roster.inside.items():
            if when == day:
                found.setdefault(person, []).extend(done)
        return {person: sorted(pieces) for person, pieces in found.items()}
