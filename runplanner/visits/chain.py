"""The chain of a yard: in what order and with what lags its visits may stand.

Colonies of a yard are alike; the first taken off are the first fed.  So a yard's visits
are read as queues: boards, take-offs and every feed round serve colonies in one order.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.yards import Yard
from runplanner.visits.due import Due, taken
from runplanner.visits.stop import Stop, Visit


class ChainBrokenError(Exception):
    """Some lag or order of the chain does not hold."""


@dataclass
class Chain:
    """A yard's visits read in order; raises :class:`ChainBrokenError` at the first breach.

    Take-offs without boards put on before are not a breach but counted in ``lacking``, so
    that a plan may be built take-off first.  After reading, ``milli_cents`` holds what lateness and long boards cost; ``off``,
    ``fed`` (by round) and ``strips_day`` say how far the yard has come.
    """

    outfit: Outfit
    yard: Yard
    due: Due
    uncovered: int = 0
    late_cents: int = 0
    boards_long_cents: int = 0
    off: int = 0
    lacking: int = 0
    strips_day: int | None = None
    fed: list[int] = field(default_factory=list)
    _until_min: int = -DAY_MIN
    _fed_on: int = -1
    _fact: bool = False
    _boards: list[list[int]] = field(default_factory=list)
    _served: list[list[list[int]]] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Make the queues: entry 0 holds ``[colonies, start, cover end, day]`` of take-offs.

        ``day`` is the day on which syrup must follow because no block was given, or -1.
        """
        self.fed = [0] * (self.due.rounds + 1)
        self._served = [[] for _ in range(self.due.rounds + 1)]

    def read(self, visits: Sequence[Visit]) -> "Chain":
        """Read ``visits``, sorted by start, and return the chain."""
        for visit in visits:
            self._fact = visit.fact
            self._must(visit.start_min >= self._until_min)
            self._until_min = visit.end_min
            stop = visit.stop
            if stop.boards:
                self._board(visit)
            if stop.off:
                self._take_off(visit)
            if stop.fed:
                self._feed(visit)
            if stop.blocks:
                self._banned(visit.day)
                if not stop.off:
                    self._block_again(visit)
            if stop.strips:
                self._strip(visit)
        self.lacking += sum(lot[0] for lot in self._served[0] if lot[3] >= 0)
        if self.due.rounds:
            end = self.outfit.season.n_days * DAY_MIN
            self.uncovered += sum(lot[0] * _days(end - lot[2]) for lot in self._served[0])
        return self

    def _must(self, holds: bool) -> None:  # noqa: FBT001 - reads as a sentence
        """Break the chain where a rule does not hold; what has been driven is past judging."""
        if not holds and not self._fact:
            raise ChainBrokenError

    def _board(self, visit: Visit) -> None:
        self._boards.append([visit.stop.boards, visit.end_min, visit.day])

    def _take_off(self, visit: Visit) -> None:
        stop, yard = visit.stop, self.yard
        self._must(yard.ready_from_day <= visit.day <= yard.finish_by_day)
        after = self.off + stop.off
        self._must(after <= yard.colonies)
        self._must(stop.boxes == taken(yard.boxes, yard.colonies, self.off, after))
        self._must(stop.brood == taken(yard.brood_boxes_off, yard.colonies, self.off, after))
        self._on_time(self.outfit.season.take_off_by, visit.day, stop.off)
        if self.due.boards:
            self._lift_boards(visit)
        self.off = min(after, yard.colonies)
        rules = self.outfit.rules
        spared = bool(self.due.rounds and rules.blocks and not stop.blocks and not stop.fed)
        self._must(not spared or rules.same_day_second_trip)
        per_colony = rules.blocks if stop.blocks else 0
        cover_end = visit.start_min + self.due.cover_min[per_colony]
        spare_day = visit.day if spared and not visit.fact else -1
        self._served[0].append([stop.off, visit.start_min, cover_end, spare_day, visit.fact])

    def _block_again(self, visit: Visit) -> None:
        """Give one further block to those whose cover ends first."""
        left = visit.stop.blocks
        longer = self.outfit.kit.block_g * DAY_MIN // self.outfit.feed.day_use_g
        queue = self._served[0]
        for lot in sorted(queue, key=lambda each: each[2]):
            count = min(left, lot[0])
            if not count:
                continue
            self._soon_enough(visit, lot, count)
            left -= count
            if count < lot[0]:
                queue.insert(queue.index(lot) + 1, [lot[0] - count, *lot[1:]])
                lot[0] = count
            lot[2] = max(lot[2], visit.start_min) + longer
        self._must(not left)

    def _lift_boards(self, visit: Visit) -> None:
        rules, left = self.outfit.rules, visit.stop.off
        while left and self._boards:
            lot = self._boards[0]
            count = min(left, lot[0])
            on_min = visit.start_min - lot[1]
            self._must(visit.day > lot[2] and on_min >= rules.board_least_min)
            long_days = -(-max(0, on_min - rules.board_best_min) // DAY_MIN)
            self.boards_long_cents += count * long_days * self.outfit.prices.boards_long_cents
            left -= count
            lot[0] -= count
            if not lot[0]:
                self._boards.pop(0)
        self.lacking += left

    def _feed(self, visit: Visit) -> None:
        """First round before cover ends, later rounds after the last is taken down."""
        stop = visit.stop
        self._must(self.off == self.yard.colonies or not self.due.take_off)
        self._must(1 <= stop.round <= self.due.rounds)
        self._banned(visit.day)
        if stop.round == self.due.rounds:
            self._on_time(self.outfit.season.feed_by, visit.day, stop.fed)
        elif self.outfit.season.feed_by.hard:
            self._must(visit.day <= self.outfit.season.feed_by.day)
        self.fed[stop.round] += stop.fed
        self._must(self.fed[stop.round] <= self.yard.colonies)
        if stop.round > 1 or self.due.take_off:
            self._serve(visit, self._served[stop.round - 1])
        self._served[stop.round].append([stop.fed, visit.start_min, 0, -1, visit.fact])

    def _serve(self, visit: Visit, queue: list[list[int]]) -> None:
        first, gap, left = visit.stop.round == 1, self.due.round_gap_min, visit.stop.fed
        while left:
            self._must(bool(queue))
            if not queue:
                return
            lot = queue[0]
            if first:
                self._must(lot[3] in (-1, visit.day))
                if visit.start_min != lot[1] and lot[3] < 0:
                    self._soon_enough(visit, lot, min(left, lot[0]))
            else:
                self._must(visit.start_min >= lot[1] + gap)
            count = min(left, lot[0])
            left -= count
            lot[0] -= count
            if not lot[0]:
                queue.pop(0)

    def _soon_enough(self, visit: Visit, lot: list[int], colonies: int) -> None:
        """Cover must not have ended; for colonies taken off in the past, days without count."""
        late_min = visit.start_min - lot[2]
        if late_min >= 0:
            self._must(bool(lot[4]))
            self.uncovered += colonies * _days(late_min)

    def _strip(self, visit: Visit) -> None:
        self._must(self.strips_day is None)
        self._must(self.off == self.yard.colonies or not self.due.take_off)
        self._on_time(self.outfit.season.strips_by, visit.day, self.yard.colonies)
        self._must(not (self.outfit.strips.no_feed_days and self._fed_on == visit.day))
        self.strips_day = visit.day

    def _banned(self, day: int) -> None:
        self._fed_on = day
        if self.strips_day is not None:
            self._must(day >= self.strips_day + self.outfit.strips.no_feed_days)

    def _on_time(self, deadline: Deadline, day: int, colonies: int) -> None:
        if day > deadline.day:
            self._must(not deadline.hard)
            self.late_cents += colonies * (day - deadline.day) * self.outfit.prices.late_cents


def _days(minutes: int) -> int:
    """Return started days."""
    return -(-max(0, minutes) // DAY_MIN)


def merged(one: Stop, other: Stop, colonies: int) -> Stop | None:
    """Return both stops of a yard as one visit, or None where their work clashes.

    Syrup in the take-off's own visit spares the blocks; that is done for whole yards only.
    """
    if (one.round and other.round) or (one.boards and other.off) or (one.off and other.boards):
        return None
    if (one.off and other.off) or (one.strips and other.strips) or (one.boards and other.boards):
        return None
    if (one.blocks and not one.off) or (other.blocks and not other.off):
        return None
    off, fed = one.off + other.off, one.fed + other.fed
    if off and fed and fed < colonies:
        return None
    return Stop(
        one.yard,
        one.boards + other.boards,
        off,
        one.boxes + other.boxes,
        one.brood + other.brood,
        0 if off and fed else one.blocks + other.blocks,
        one.round + other.round,
        fed,
        one.strips or other.strips,
    )
