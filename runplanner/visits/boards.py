"""Boards in the chain of a yard: put under honey, lifted at take-off, first in first out."""

from collections import deque
from dataclasses import dataclass, field

from runplanner.days import DAY_MIN, day_of
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Yard
from runplanner.visits.due import Due
from runplanner.visits.lot import Lot, serve
from runplanner.visits.stop import Stop, Visit


@dataclass(slots=True)
class Boards:
    """The boards that lie in a yard; ``off`` are its colonies that are off already.

    ``long_cents`` is what it costs that boards lay longer than is best.
    """

    outfit: Outfit
    yard: Yard
    due: Due
    long_cents: int = 0
    _put_on: int = 0
    _lots: deque[Lot] = field(default_factory=deque)

    def __post_init__(self) -> None:
        """Queue boards that were put on before the campaign."""
        minute = self.yard.boards_on_min
        if self.due.boards_on and minute is not None:
            stop = Stop(-1, boards=self.due.boards_on)
            self._put_on = stop.boards
            visit = Visit(minute, minute, minute, stop, day_of(minute), -1, fact=True)
            self._lots.append(Lot(stop.boards, visit))

    def lie(self) -> int:
        """Return the boards that lie in the yard, those where colonies died among them."""
        return sum(lot.colonies for lot in self._lots)

    def standing(self, off: int) -> int:
        """Return the colonies that still carry honey and have a board below it."""
        return min(self.lie(), self.yard.colonies - off)

    def over(self, off: int) -> int:
        """Return the boards that lie there beside those of colonies that still carry honey."""
        return self.lie() - self.standing(off)

    def put_on(self, visit: Visit, off: int) -> str:
        """Take note of boards put on; return why that breaks the chain, or nothing."""
        count, left = visit.stop.boards, self.yard.colonies - off - self.standing(off)
        self._put_on += count
        self._lots.append(Lot(count, visit))
        if not self.due.boards:
            return "boards where none are due"
        if self._put_on > self.yard.colonies:
            return "more boards than colonies"
        return "boards for colonies that are off" if self.due.other and count > left else ""

    def lift(self, visit: Visit, colonies: int) -> tuple[int, str]:
        """Lift the boards of colonies that come off.

        Return how many of them have none, and why that breaks the chain, or nothing.
        """
        rules, reason, left = self.outfit.rules, "", colonies
        while left and self._lots:
            put_on = self._lots[0].visit
            on_min = visit.start_min - put_on.end_min
            if visit.day <= put_on.day:
                reason = reason or "no night between boards and take-off"
            elif on_min < rules.board_least_min:
                reason = reason or "boards on for too short a time"
            count = serve(self._lots, left)
            days_long = -(-max(0, on_min - rules.board_best_min) // DAY_MIN)
            self.long_cents += count * days_long * self.outfit.prices.boards_long_cents
            left -= count
        return left, reason

    def lift_over(self, stop: Stop, off: int) -> str:
        """Lift what lies where colonies died: the yard's last take-off brings it home.

        Return why the stop breaks the chain, or nothing.
        """
        last = self.due.boards and not stop.other and off == self.yard.colonies
        over, left = self.over(off) if last else 0, stop.over
        while left and self._lots:
            left -= serve(self._lots, left)
        return "" if stop.over == over else "not the boards of colonies that died"
