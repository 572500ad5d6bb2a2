"""In which order boxes are spun: as they come in, those that were held behind all others."""

from collections.abc import Sequence
from functools import cache

from runplanner.daybook.honey_line import Came, honey_line
from runplanner.days import NEVER, Span
from runplanner.season.standing.floor import Lot, Spin
from runplanner.trips.ground import Ground

FREED = 1_000_000
"""The order of boxes that were held, from here on: behind all that come in at that minute."""


class Line:
    """Lines boxes up, after what has been spun."""

    def __init__(self, ground: Ground, spun: Sequence[Spin]) -> None:
        self._outfit, self._now_min, self._spun = ground.outfit, ground.now_min, spun
        self._begun_line = cache(self._begun_line_of)
        yards = ground.outfit.yards
        self._any_held = any(yard.held_spans(ground.now_min, NEVER) for yard in yards)

    def __call__(self, lots: Sequence[Lot]) -> Sequence[Lot]:
        """Return lots as they are spun: those that were held anew, without those that are."""
        came = sorted(lots)
        if not self._any_held:
            return came
        begun = self._begun_line(tuple(lot for lot in came if lot.fact))
        rest = (lot for lot in came if not lot.fact)
        free = (lot for lot in rest if all(s.end_min <= lot.arrive_min for s in self._held(lot)))
        return sorted([*begun, *free])

    def _begun_line_of(self, came: tuple[Lot, ...]) -> list[Lot]:
        """Return the lots of trips that have left as they stand in line, those freed at its end."""
        turns = honey_line(
            [Came(lot.arrive_min, lot.boxes, self._held(lot)) for lot in came],
            [(spin.start_min, spin.boxes) for spin in self._spun],
            self._outfit.honey_house.waiting_boxes,
        )
        line = list[Lot]()
        for number, from_min, boxes in turns:
            lot = came[number]._replace(boxes=boxes)
            if from_min > lot.arrive_min:
                lot = lot._replace(arrive_min=from_min, order=FREED + len(line))
            if from_min < NEVER:
                line.append(lot)
        return line

    def _held(self, lot: Lot) -> tuple[Span, ...]:
        return self._outfit.yards[lot.yard].held_spans(self._now_min, lot.off_min)
