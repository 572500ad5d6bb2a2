"""Wet boxes in the season: none is loaded before it is spun."""

from collections.abc import Iterable, Sequence

from runplanner.season.standing.base_work import BaseWork
from runplanner.season.standing.floor import Lot
from runplanner.trips.ground import Ground
from runplanner.trips.judged import Judged


def spun_before_up(
    ground: Ground, planned: Iterable[Judged], lots: Sequence[Lot], base: BaseWork
) -> bool:
    """Tell whether every yard's boxes are through when they are loaded to go back to it.

    Trucks that have left are not asked: ``planned`` are the days of all others.  ``lots`` are
    boxes as they stand in line.  On the cautious side: a stretch of spinning counts as done at
    its end.
    """
    ups = [
        (judged.load_at[index], stop.yard)
        for judged in planned
        for index, trip in enumerate(judged.day.trips)
        for stop in trip
        if stop.wet_up
    ]
    if not ups:
        return True
    done = _done(ground, lots, base)
    return all(done.get(yard, 0) <= at for at, yard in ups)


def _done(ground: Ground, lots: Sequence[Lot], base: BaseWork) -> dict[int, int]:
    """Return when the last box of each yard is through."""
    done: dict[int, int] = {}
    spins = sorted(base.spinning)
    number, spun, at = ground.outfit.honey_house.waiting_boxes, 0, 0
    for lot in lots:
        number += lot.boxes
        while at < len(spins) and spun + spins[at].boxes < number:
            spun += spins[at].boxes
            at += 1
        if at < len(spins):
            done[lot.yard] = spins[at].end_min
    return done
