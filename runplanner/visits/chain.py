"""The chain of a yard: in what order and with what lags its visits may stand.

Colonies of a yard are alike; the first taken off are the first fed.  So a yard's visits
are read as queues: boards, take-offs and every feed round serve colonies in one order.
"""

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Self

from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.yards import CLOSED, Yard
from runplanner.trade.strips import unfed_days
from runplanner.visits.blocks import blocks_each
from runplanner.visits.boards import Boards
from runplanner.visits.due import Due, taken
from runplanner.visits.lot import Lot, serve, split
from runplanner.visits.stop import Stop, Visit, at_one_stop
from runplanner.visits.wet_boxes import WetBoxes


class ChainBrokenError(Exception):
    """Some lag or order of the chain does not hold; says which."""


@dataclass
class Chain:
    """A yard's visits read in order; raises :class:`ChainBrokenError` at the first breach.

    So that a plan may be built take-off first, colonies without boards put on before, and
    those spared a block without syrup the same day, are not a breach but counted in
    ``lacking``; those still to come off whose cover ends with no syrup, in ``starving``.  After
    reading, ``late_cents`` and ``boards_long_cents`` hold what lateness and long boards cost,
    ``doubt_permille`` the colonies taken off or fed times how unsure their day's weather is,
    ``fed_early`` the colonies fed before feed counts as late in the day, ``uncovered`` the
    colony-days without cover, ``waiting`` those off that no syrup comes to, as minutes at which
    their cover ends and their number; ``off``, ``fed`` (by round) and ``strips_day`` say how
    far the yard has come, ``had`` what ``fed`` was when feeders were fetched.
    """

    outfit: Outfit
    yard: Yard
    due: Due
    uncovered: int = 0
    late_cents: int = 0
    boards_long_cents: int = 0
    doubt_permille: int = 0
    fed_early: int = 0
    off: int = 0
    lacking: int = 0
    starving: int = 0
    waiting: tuple[tuple[int, int], ...] = ()
    strips_day: int | None = None
    wet: WetBoxes = field(init=False)
    boards: Boards = field(init=False)
    fed: list[int] = field(init=False)
    feeders: int = 0
    had: tuple[int, ...] = ()
    _until_min: int = -DAY_MIN
    _until_fact: bool = False
    _fed_on: int | None = None
    _strips_fact: bool = False
    _down_min: int = -DAY_MIN
    _eaten_min: int = -DAY_MIN
    _fact: bool = False
    _fed_fact: bool = True
    _fed_then: int = 0
    _driven: dict[int, int] = field(default_factory=dict)
    _bare: int = field(init=False)
    _here: Sequence[Visit] = ()
    _waiting: tuple[deque[Lot], ...] = field(init=False)

    def __post_init__(self) -> None:
        """Make the queues: entry 0 holds colonies off, entry r those fed in round r."""
        self.fed = [0] * (self.due.rounds + 1)
        self.wet = WetBoxes(self.outfit, self.yard, self.due)
        self._waiting = tuple(deque() for _ in self.fed)
        self.boards = Boards(self.outfit, self.yard, self.due)
        self._bare = self.yard.colonies - self.boards.standing(0)

    def read(self, visits: Sequence[Visit]) -> Self:
        """Read ``visits``, sorted by start, and return the chain."""
        for at, visit in enumerate(visits):
            # A stop still ahead of a truck under way is fact; no new visit may run into it.
            self._fact = self._until_fact and visit.fact
            self._must(visit.start_min >= self._until_min, "two visits at once")
            self._fact = visit.fact
            if visit.end_min >= self._until_min:
                self._until_min, self._until_fact = visit.end_min, visit.fact
            self._here = at_one_stop(visits, at)
            self._read(visit)
            if visit.fact:
                self._bare = self.yard.colonies - self.off - self.boards.standing(self.off)
        left = self._waiting[0]
        self.lacking += sum(lot.colonies for lot in left if lot.spared)
        self.lacking += self.wet.lacking()
        self.boards_long_cents = self.boards.long_cents + self.wet.long_cents
        if self.due.rounds:
            end = self.outfit.season.n_days * DAY_MIN
            self.uncovered += sum(lot.colonies * _days(end - lot.until_min) for lot in left)
            short = (lot for lot in left if lot.until_min < end and not lot.visit.fact)
            self.starving += sum(lot.colonies for lot in short)
            self.waiting = tuple((lot.until_min, lot.colonies) for lot in left)
        return self

    def _must(
        self,
        holds: bool,  # noqa: FBT001 - reads as a sentence
        reason: str,
        *,
        before: bool = True,
    ) -> None:
        """Break the chain where a rule does not hold; what has been driven is past judging.

        ``before`` tells whether what the rule sets against this visit has been driven as well.
        """
        if not (holds or (self._fact and before)):
            raise ChainBrokenError(reason)

    def _read(self, visit: Visit) -> None:
        stop = visit.stop
        self.doubt_permille += max(stop.off, stop.fed) * self.yard.doubt_permille(visit.day)
        if stop.wet_up or stop.wet_down:
            self._wet(visit)
        if stop.feeders_off:
            self._feeders_off(visit)
        if stop.boards:
            reason = self.boards.put_on(visit, self.off)
            self._must(not reason, reason)
        if stop.off:
            self._take_off(visit)
        elif stop.blocks:
            self._block_again(visit)
        if stop.fed:
            late_from = visit.day * DAY_MIN + self.outfit.rules.feed_late_from_min
            self.fed_early += stop.fed if visit.start_min < late_from else 0
            self._feed(visit)
        if stop.blocks:
            self._banned(visit.day)
        if stop.strips:
            self._strip(visit)

    def _enough(self, wanted: int, done: int, number: int) -> bool:
        """Tell whether a lot is worth its visit; what past visits left over always is.

        Lots at one stop are one part.  ``number`` is the feed round, 0 for take-off; ``done``
        counts the colonies before it.
        """
        if self._fact:
            self._driven[number] = done + wanted
        left = self.yard.colonies - self._driven.get(number, 0)
        least = min(self.outfit.rules.smallest_lot, left)
        return wanted >= least or self._in_part(number) >= least

    def _in_part(self, number: int) -> int:
        """Return the colonies that this stop takes off, or feeds in some round."""
        stops = [visit.stop for visit in self._here]
        if number:
            return sum(stop.fed for stop in stops if stop.round == number)
        return sum(stop.off for stop in stops)

    def _left_bare(self, stop: Stop, before: int) -> bool:
        """Tell whether these are all colonies that boards of past visits do not lie under.

        The last to come off by the usual way, or any by the other one.
        """
        last = before + stop.off == self.yard.colonies
        return stop.off == self._bare and (last or stop.other)

    def _wet(self, visit: Visit) -> None:
        """Put wet boxes up, before any strips or syrup, or collect them."""
        bare = self.strips_day is None and not any(self.fed)
        self._must(bare or not visit.stop.wet_up, "wet boxes up after syrup or strips")
        all_off = self.off == self.yard.colonies
        reason = self.wet.read(visit, all_off=all_off)
        self._must(not reason, reason)

    def _feeders_off(self, visit: Visit) -> None:
        """Collect the feeders, all that stand there, once the last feed is taken down."""
        rounds = self.due.rounds
        circulate = self.outfit.kit.feeders_owned is not None and self.due.take_off
        fed = rounds and self.fed[rounds] == self.yard.colonies
        self._must(bool(circulate and fed), "feeders off before the yard is fed")
        last = self._waiting[rounds][-1].visit.start_min if self._waiting[rounds] else 0
        down = visit.start_min - last >= self.due.round_gap_min
        self._must(down, "feeders off before the last feed is taken down")
        self._must(visit.stop.feeders_off == self.feeders, "not the feeders that stand there")
        self.feeders = max(0, self.feeders - visit.stop.feeders_off)
        self.had = tuple(self.fed)

    # Take-off

    def _take_off(self, visit: Visit) -> None:
        stop, yard, before = visit.stop, self.yard, self.off
        after = min(before + stop.off, yard.colonies)
        self._must(self.due.take_off, "nothing leaves this yard")
        ready = yard.ready_from_day <= visit.day <= yard.finish_by_day
        self._must(ready, "take-off outside the yard's days")
        self._must(after - before == stop.off, "more colonies off than there are")
        enough = self._enough(stop.off, before, 0) or self._left_bare(stop, before)
        self._must(enough, "take-off of too small a lot")
        boxes = taken(yard.boxes, yard.colonies, before, after)
        brood = taken(yard.brood_boxes_off, yard.colonies, before, after)
        self._must((stop.boxes, stop.brood) == (boxes, brood), "not the boxes of these colonies")
        self._on_time(self.outfit.season.take_off_by, visit.day, after - before)
        if stop.other:
            self._must(self.due.other, "a way of clearing that the yard does not have")
            bare = yard.colonies - before - self.boards.standing(before)
            self._must(stop.off <= bare, "boards left under colonies cleared another way")
        else:
            left, reason = self.boards.lift(visit, after - before)
            self._must(not reason, reason)
            self.lacking += left if self.due.boards and not self._fact else 0
        self.off = after
        self.wet.came_off += stop.boxes
        reason = self.boards.lift_over(stop, after)
        self._must(not reason, reason)
        self._wait(self._left_behind(visit, before))

    def _wait(self, lot: Lot) -> None:
        """Queue colonies just off; of a driven visit only the last ones may have a block."""
        stop, queue = lot.visit.stop, self._waiting[0]
        each = blocks_each(self.outfit.rules, stop.off, stop.blocks)
        blocked = stop.blocks // each
        if lot.colonies:
            queue.append(lot)
        if lot.colonies and blocked:
            # Where a driver had some over, a colony may have got one more.
            lot.put_on(self.outfit, lot.from_min, max(each, -(-stop.blocks // stop.off)))
            self._eaten_min = max(self._eaten_min, lot.eaten_min)
        if self._fact and 0 < blocked < lot.colonies:
            bare = split(queue, lot, lot.colonies - blocked)
            bare.live_on(self.outfit, self.yard.stores_g or 0, lot.visit.start_min)
            bare.eaten_min = 0

    def _left_behind(self, visit: Visit, before: int) -> Lot:
        """Return the colonies just taken off and not yet fed, with what they live on.

        Some may have been fed before, at a standstill, where they had no honey on.  Those fed by
        the end of this stop get no blocks, all others do, unless the rules allow that a second
        trip brings syrup the same day.
        """
        stop, rules = visit.stop, self.outfit.rules
        coming = self._here[self._here.index(visit) :]
        here = sum(one.stop.fed for one in coming if one.stop.round == 1)
        then = self.fed[1] if self.due.rounds else 0
        fed = min(self.off, then + here) if self.due.rounds else self.off
        unfed = self.off - max(before, fed)
        wanted = unfed * rules.blocks
        spared = wanted > 0 and stop.blocks == 0
        may_be_spared = spared and rules.same_day_second_trip
        self._must(may_be_spared or stop.blocks == wanted, "not the blocks of these colonies")
        each = blocks_each(rules, stop.off, stop.blocks) if stop.blocks else 0
        waits = self.off - min(self.off, max(before, then))
        lot = Lot(waits, visit, spared=spared and not visit.fact)
        grams = (self.yard.stores_g or 0) + each * self.outfit.kit.block_g
        lot.live_on(self.outfit, grams, visit.start_min)
        return lot

    # Cover and feed

    def _block_again(self, visit: Visit) -> None:
        """Give further blocks to colonies that wait, those whose cover ends first."""
        each, left = visit.stop.each, visit.stop.blocks
        alone = not (visit.stop.boards or visit.stop.fed or visit.stop.strips)
        self._must(alone, "further blocks along with other jobs")
        self._must(self.yard.health not in CLOSED, "further blocks at a yard that is closed")
        for lot in sorted(self._waiting[0], key=lambda lot: lot.until_min):
            count = min(left // each, lot.colonies)
            if not count:
                break
            self._soon_enough(visit, lot, count)
            left -= count * each
            first = split(self._waiting[0], lot, count)
            first.get_more(self.outfit, visit.start_min, each)
            self._eaten_min = max(self._eaten_min, first.eaten_min)
        self._must(not left, "further blocks to colonies that do not wait")

    def _soon_enough(self, visit: Visit, lot: Lot, colonies: int) -> None:
        """Cover must not have ended; for colonies taken off in the past, days without count."""
        late_min = visit.start_min - lot.until_min
        if late_min >= 0:
            self._must(lot.visit.fact, "cover ends before syrup or a further block")
            self.uncovered += colonies * _days(late_min)

    def _feed(self, visit: Visit) -> None:
        """First round before cover ends, later rounds after the last is taken down."""
        stop, by = visit.stop, self.outfit.season.feed_by
        self._honey_gone("syrup while honey is on")
        self._banned(visit.day)
        self._must(1 <= stop.round <= self.due.rounds, "a feed round that is not due")
        if not 1 <= stop.round <= self.due.rounds:
            self._fed_before_held(visit)
            return
        done = self.fed[stop.round]
        fed = min(done + stop.fed, self.yard.colonies)
        self._on_time(by, visit.day, fed - done if stop.round == self.due.rounds else 0)
        self._must(fed - done == stop.fed, "more colonies fed than there are")
        self._must(self._enough(stop.fed, done, stop.round), "feed of too small a lot")
        lack = lacking_feeders(self.had, stop.round, done, stop.fed)
        self._must(stop.feeders == lack, "not the feeders of these colonies")
        self.fed[stop.round] = fed
        self.feeders += stop.feeders
        self._down_min = max(self._down_min, visit.start_min + self.due.round_gap_min)
        if stop.round == 1 and self.outfit.kit.feeders_owned is not None:
            self.feeders += stop.fed
        if stop.round > 1:
            self._feed_again(visit)
        else:
            self._feed_first(visit)
        self._waiting[stop.round].append(Lot(stop.fed, visit))

    def _fed_before_held(self, visit: Visit) -> None:
        """Count what a yard got before it was held as late as it was."""
        if visit.stop.round == self.due.last_round:
            count = min(visit.stop.fed, self.yard.colonies - self._fed_then)
            self._fed_then += count
            self._on_time(self.outfit.season.feed_by, visit.day, count)

    def _feed_first(self, visit: Visit) -> None:
        queue, left = self._waiting[0], visit.stop.fed
        while left and queue:
            lot = queue[0]
            count = min(left, lot.colonies)
            if lot.spared:
                self._must(visit.day == lot.visit.day, "spared a block, but no syrup that day")
            elif not self._soon(visit, lot):
                self._soon_enough(visit, lot, count)
            left -= serve(queue, count)

    def _soon(self, visit: Visit, lot: Lot) -> bool:
        """Tell whether syrup comes in the take-off's own stop, or allowedly the same day."""
        same_day = self.outfit.rules.same_day_second_trip and visit.day == lot.visit.day
        return same_day or lot.visit in self._here

    def _feed_again(self, visit: Visit) -> None:
        queue, left = self._waiting[visit.stop.round - 1], visit.stop.fed
        while left and queue:
            last = queue[0].visit
            down = visit.start_min - last.start_min >= self.due.round_gap_min
            self._must(down, "the last feed is not taken down yet", before=last.fact)
            left -= serve(queue, left)
        self._must(not left, "a feed round before the one that comes first")

    # Strips

    def _strip(self, visit: Visit) -> None:
        self._must(self.due.strips, "strips where none are due")
        self._must(self.strips_day is None, "strips twice")
        self._honey_gone("strips while honey is on")
        if self.strips_day is None:
            self._on_time(self.outfit.season.strips_by, visit.day, self.yard.colonies)
        if self._ban() > 0:
            # Strips of a truck that is out are fact; what is put in before them need not be.
            fed, apart = self._fed_fact, self._fed_on != visit.day
            self._must(apart, "strips and feed on one day in spite of a ban", before=fed)
            down = visit.start_min >= self._down_min
            self._must(
                down, "strips in spite of a ban before the last feed is taken down", before=fed
            )
            eaten = not self._waiting[0] or visit.start_min >= self._eaten_min
            self._must(eaten, "strips in spite of a ban before the last block is eaten", before=fed)
        self.strips_day, self._strips_fact = visit.day, self._fact

    def _banned(self, day: int) -> None:
        self._fed_on, self._fed_fact = day, self._fact
        if self.strips_day is not None:
            late = day >= self.strips_day + self._ban()
            self._must(late, "feed while the strips forbid it", before=self._strips_fact)

    def _ban(self) -> int:
        """Return the days without feed that this yard's strips ask for, both applications'."""
        return unfed_days(self.outfit.strips_at(self.yard))

    def _honey_gone(self, reason: str) -> None:
        self._must(self.off == self.yard.colonies or not self.due.take_off, reason)
        self._must(not self.wet.up, "syrup or strips while wet boxes are up", before=self.wet.fact)

    def _on_time(self, deadline: Deadline, day: int, colonies: int) -> None:
        if day > deadline.day:
            self._must(not deadline.hard, "after a hard deadline")
            self.late_cents += colonies * (day - deadline.day) * self.outfit.prices.late_cents


def lacking_feeders(had: Sequence[int], number: int, done: int, fed: int) -> int:
    """Return how many of the colonies next in a feed round have had their feeders fetched.

    ``had`` were fed by round when that was, empty where it was not; ``done`` had this round
    before.  The first round always brings feeders, so none lack there.
    """
    before = had[number - 1] if had and number > 1 else 0
    return max(0, min(done + fed, before) - done)


def _days(minutes: int) -> int:
    """Return started days."""
    return -(-max(0, minutes) // DAY_MIN)
