"""What one truck's day asks of everything else, told once: people, boxes, syrup, boards."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from runplanner.season.standing.floor import Lot
from runplanner.season.standing.roster import Need
from runplanner.trips.day import Key
from runplanner.trips.ground import Ground
from runplanner.trips.judged import Judged, Moved, boards_moved, in_halves, syrup_moved

REMEMBERED = 20_000


class Told(NamedTuple):
    """One truck's day as the rest of the campaign sees it.

    Args:
        need: The people it wants.
        lots: Boxes it brings in.
        syrup: What it does to the syrup at the feed store.
        boards: What it does to the boards at the feed store.
    """

    need: Need
    lots: tuple[Lot, ...]
    syrup: Moved
    boards: Moved


class Teller:
    """Tells days, and remembers what it told; a day that is judged does not change.

    Args:
        ground: The campaign.
        driven: Days that are facts.
        crews: Who was out on them.
        wished: Who was promised on a day.
    """

    def __init__(
        self,
        ground: Ground,
        driven: Mapping[Key, Judged],
        crews: Mapping[Key, tuple[int, ...]],
        wished: Mapping[Key, Sequence[int]],
    ) -> None:
        self._ground = ground
        self._driven, self._crews, self._wished = driven, crews, wished
        self._known: dict[tuple[Key, int], tuple[Judged, Told]] = {}

    def __call__(self, key: Key, judged: Judged) -> Told:
        """Return what a truck's day asks; ``key`` is its day and truck."""
        # A number of an object means that object as long as it is kept, and it is kept here.
        mark = (key, id(judged))
        known = self._known.get(mark)
        if known is None:
            if len(self._known) >= REMEMBERED:
                self._known.clear()
            known = self._known[mark] = (judged, self._told(key, judged))
        return known[1]

    def _told(self, key: Key, judged: Judged) -> Told:
        crew = self._ground.haulers[judged.day.hauler].crew
        fixed = self._crews.get(key, ())
        wished = () if fixed else tuple(self._wished.get(key, ()))
        halves = in_halves(judged, self._ground.outfit.hours.noon_min)
        return Told(
            Need(key[1], crew, *halves, fixed, wished),
            tuple(
                lot
                for minute, index in judged.boxes_in
                for lot in self._lots(judged, key, minute, index)
            ),
            syrup_moved(judged),
            boards_moved(judged),
        )

    def _lots(self, judged: Judged, key: Key, minute: int, index: int) -> list[Lot]:
        found: list[Lot] = []
        fact = key in self._driven
        trips = (trip for trip, kind, _ in judged.calls if kind >= 0)
        for visit, trip in zip(judged.visits, trips, strict=True):
            if trip == index and visit.stop.boxes:
                order = key[1] * 1000 + len(found)
                stop = visit.stop
                found.append(Lot(minute, order, stop.boxes, visit.leave_min, stop.yard, fact))
        return found
