"""Takes one yard off into a state: whole or in lots, boards before it, by one way or another."""

from collections.abc import Iterable, Sequence
from enum import Enum, auto
from functools import partial
from typing import Final

from runplanner.days import DAY_MIN
from runplanner.season.search.insert import Inserter
from runplanner.season.standing.state import State
from runplanner.trips.ground import Ground
from runplanner.visits.due import taken
from runplanner.visits.stop import Stop

MIXED: Final = 0.2
"""How often ways of clearing are mixed within a yard though there are boards for all."""


class Ways(Enum):
    """How a yard's take-offs clear the boxes: as usual, the other way, or each its own."""

    USUAL = auto()
    OTHER = auto()
    MIXED = auto()


class TakeOffs:
    """Puts take-offs, with boards before them, into states."""

    def __init__(self, inserter: Inserter) -> None:
        self.inserter = inserter
        self.ground: Ground = inserter.ground
        self.rng = inserter.rng
        self.ways = Ways.USUAL

    def to_try(self, state: State, yard: int) -> list[Ways]:
        """Return the ways to try; a mixture only where boards may be too few, or now and then."""
        due, colonies = self.ground.dues[yard], self.ground.outfit.yards[yard].colonies
        if not due.other or not (state.progress[yard].not_off or state.progress[yard].lacking):
            return [Ways.USUAL]
        boards = self.inserter.keeper.chains.boards_in_use - self.ground.boards_out
        few = (
            due.boards
            and colonies >= 2 * self.ground.outfit.rules.smallest_lot
            and (boards < colonies or due.boards_on or self.rng.random() < MIXED)
        )
        return list(Ways) if few else [Ways.USUAL, Ways.OTHER]

    def switched(self, state: State, yard: int) -> State:
        """Clear what lacks its boards the other way, where that is the way to be tried.

        Who has boards on already comes off as planned.
        """
        if self.ways is not Ways.OTHER or state.progress[yard].not_off:
            return state
        boarded = self.as_boarded(state, yard)
        if boarded is not None:
            return boarded

        def unboarded(stop: Stop) -> Stop | None:
            if stop.yard != yard or not (stop.off or stop.boards):
                return stop
            bare = stop._replace(boards=0, other=bool(stop.off))
            return None if bare.idle else bare

        new = self.inserter.keeper.thin(state, unboarded, {yard})
        return state if new.progress[yard].not_off else new

    def last_day(self, yard: int, number: int, rounds: int) -> int:
        """Return the last day on which feed round ``number`` is of use (0 = take-off).

        Further rounds, ``rounds`` in all, are to fit behind it.
        """
        season, due = self.ground.outfit.season, self.ground.dues[yard]
        last = season.n_days - 1
        if due.rounds and season.feed_by.hard:
            last = min(last, season.feed_by.day)
        last -= self._days_for(yard, max(0, rounds - max(1, number)))
        if number == 0:
            last = min(last, self.ground.outfit.yards[yard].finish_by_day)
            for deadline in (season.take_off_by, season.strips_by):
                if deadline.hard:
                    last = min(last, deadline.day)
        return last

    def _days_for(self, yard: int, later: int) -> int:
        """Return the least days from a feed round to so many later ones.

        The first may be early in its day and the last late; each one needs a day with hours.
        """
        hours, gap = self.ground.outfit.hours, self.ground.dues[yard].round_gap_min
        day_min = hours.end_min - hours.start_min
        one_by_one = later * max(0, -((day_min - gap) // DAY_MIN))
        return max(one_by_one, -((day_min - later * gap) // DAY_MIN))

    def days(self, yard: int, rounds: int) -> range:
        """Return the days on which a yard may come off so that feed rounds can follow."""
        facts, due = self.ground.outfit.yards[yard], self.ground.dues[yard]
        waits = due.boards_to_come() and self.ways is Ways.USUAL and facts.ready_from_day == 0
        return range(facts.ready_from_day + int(waits), self.last_day(yard, 0, rounds) + 1)

    def in_one(self, yard: int) -> bool:
        """Tell whether one load takes a whole yard off, under boards for all if under any.

        And whether one brings its syrup of a round.
        """
        facts, due = self.ground.outfit.yards[yard], self.ground.dues[yard]
        if due.boards and self.inserter.keeper.chains.boards_in_use < facts.colonies:
            return False
        stops = [self._off(yard, 0, facts.colonies, fed=False)] if due.take_off else []
        stops += [Stop(yard, round=1, fed=facts.colonies)] if due.rounds else []
        return all(self.inserter.fits(stop) for stop in stops)

    def taken_off(
        self, state: State, yard: int, rounds: int, room: int = 0, first: int = 0
    ) -> State | None:
        """Take a yard off from day ``first`` on; ``room`` days are left behind it.

        Where boards find no place before the day that costs least, a later one is tried.
        Where not all fit, who is eager takes off as many as find a place and may wait.
        """
        facts, due = self.ground.outfit.yards[yard], self.ground.dues[yard]
        days = self.days(yard, rounds)
        days = range(max(first, days.start), days.stop - room)
        done = sum(visit.stop.off for visit in state.visits[yard])
        if self.ways is Ways.MIXED:
            return self._in_mixed_lots(state, yard, done, days)
        few = self.inserter.keeper.chains.boards_in_use < facts.colonies - done
        while days:
            whole = self._whole(state, yard, done, days)
            new = whole if whole is not None else self._in_lots(state, yard, done, days)
            if new is None or not new.progress[yard].lacking or not due.boards:
                return new
            boarded = self.boards(new, yard)
            if boarded is not None:
                return boarded
            if few:
                return self._in_board_lots(state, yard, done, days)
            days = range(_next_off(new, yard, days.start) + 1, days.stop)
        return None

    def _in_board_lots(self, state: State, yard: int, done: int, days: range) -> State | None:
        """Take a yard off in lots of as many colonies as there are boards, one after another."""
        colonies = self.ground.outfit.yards[yard].colonies
        owned = self.inserter.keeper.chains.boards_in_use
        new: State | None = state
        while new is not None and done < colonies:
            left = colonies - done
            lie = self._boarded(yard, [visit.stop for visit in new.visits[yard]])
            count = self._at_once(yard, done, min(left, lie or owned))
            count = count if count == lie else self._lot(left, count)
            if not count:
                return None
            off = self._last_lot(new, yard, done, days) if done and count == left else None
            if off is None:
                off = self.inserter.place(new, self._off(yard, done, count, fed=False), days)
            new = self.boards(off, yard) if off is not None else None
            if new is not None:
                day = _last_off(new, yard)
                days, done = range(day + 1, days.stop), done + count
        return new

    def _at_once(self, yard: int, done: int, count: int) -> int:
        """Return how many of so many colonies one load at most takes off; 0 for too few."""
        least = self.ground.outfit.rules.smallest_lot
        off = partial(self._off, yard, done, fed=False)
        return self.inserter.most(off, min(least, count), count + 1)

    def _lot(self, left: int, boards: int) -> int:
        """Return how many of the colonies ``left`` go under so many boards; 0 for too few."""
        count, least = min(left, boards), self.ground.outfit.rules.smallest_lot
        if 0 < left - count < least:
            count = left - least
        return count if count >= min(least, left) else 0

    def _boarded(self, yard: int, past: Sequence[Stop]) -> int:
        """Return the colonies of a lot under all boards that lie there after ``past`` stops.

        Too few for a visit are none; those that are left over are worth one of their own.
        """
        left = self.ground.outfit.yards[yard].colonies - sum(stop.off for stop in past)
        on = self._lying(yard, past)
        return min(left, on) if on >= min(left, self.ground.outfit.rules.smallest_lot) else 0

    def _lying(self, yard: int, past: Iterable[Stop]) -> int:
        """Return the boards that lie in a yard after ``past`` stops."""
        moved = (stop.boards - stop.off for stop in past if not stop.other)
        return self.ground.dues[yard].boards_on + sum(moved)

    def as_boarded(self, state: State, yard: int) -> State | None:
        """Take only those off, on the day planned, under which boards were put already.

        All else that was planned for the yard is taken out.  None where boards lie under too few,
        and where two of its lots are alike, for then a stop does not tell its day.
        """
        coming = [visit.stop for visit in state.visits[yard] if not visit.fact]
        first = next((stop for stop in coming if stop.off and not stop.other), None)
        past = [visit.stop for visit in state.visits[yard] if visit.fact]
        done, count = sum(stop.off for stop in past), self._boarded(yard, past)
        if first is None or not 0 < count < first.off or coming.count(first) > 1:
            return None
        lot = self._off(yard, done, count, fed=False)._replace(other=False)

        def thinned(stop: Stop) -> Stop | None:
            return stop if stop.yard != yard else lot if stop == first else None

        new = self.inserter.keeper.thin(state, thinned, {yard})
        return new if any(visit.stop == lot for visit in new.visits[yard]) else None

    def _in_mixed_lots(self, state: State, yard: int, done: int, days: range) -> State | None:
        """Take a yard off in lots, each under boards as far as there are any, or the other way."""
        colonies = self.ground.outfit.yards[yard].colonies
        least = self.ground.outfit.rules.smallest_lot
        other = self.rng.random() < 0.5
        while done < colonies:
            left = colonies - done
            boards = self.inserter.keeper.chains.boards_in_use
            counts = [left, left // 2, boards]
            if (most := self._at_once(yard, done, left // 2)) < left // 2:
                counts.append(most)
            counts = [n for n in counts if least <= n <= left - least]
            if least <= boards < left < boards + least:
                counts.insert(0, boards)  # too few for a visit are left, but not at the same stop
            lie = self._boarded(yard, [visit.stop for visit in state.visits[yard]])
            if 0 < lie < left:
                counts.insert(0, lie)
            if done:
                counts.insert(0, left)
            step = self._mixed_lot(state, yard, done, counts, days, other=other)
            if step is None:
                step = self._mixed_lot(state, yard, done, counts, days, other=not other)
            if step is None:
                return None
            state, count, day = step
            done, days, other = done + count, range(day, days.stop), self.rng.random() < 0.5
        return state

    def _mixed_lot(
        self, state: State, yard: int, done: int, counts: list[int], days: range, *, other: bool
    ) -> tuple[State, int, int] | None:
        """Take the first lot off that fits, with its boards before it."""
        left = self.ground.outfit.yards[yard].colonies - done
        fed = [True, False] if self.ground.dues[yard].rounds else [False]
        for count in counts:
            for at_once in fed if count == left else [False]:
                stop = self._off(yard, done, count, fed=at_once)._replace(other=other)
                new = self._with_boards(state, stop, days)
                if new is not None:
                    return new, count, _last_off(new, yard)
        return None

    def _with_boards(self, state: State, stop: Stop, days: range) -> State | None:
        """Place a take-off with its boards before it; where they do not fit, on a later day."""
        while days:
            new = self.inserter.place(state, stop, days)
            if new is None or not new.progress[stop.yard].lacking:
                return new
            boarded = self.boards(new, stop.yard)
            if boarded is not None:
                return boarded
            days = range(_last_off(new, stop.yard) + 1, days.stop)
        return None

    def _off(self, yard: int, before: int, count: int, *, fed: bool) -> Stop:
        facts, due = self.ground.outfit.yards[yard], self.ground.dues[yard]
        after, to_feed = before + count, self.inserter.keeper.chains.to_feed(yard)
        return Stop(
            yard,
            off=count,
            boxes=taken(facts.boxes, facts.colonies, before, after),
            brood=taken(facts.brood_boxes_off, facts.colonies, before, after),
            blocks=count * self.ground.outfit.rules.blocks if due.rounds and not fed else 0,
            round=1 if fed and to_feed else 0,
            fed=to_feed if fed else 0,
            other=self.ways is Ways.OTHER,
            over=self.inserter.keeper.chains.boards_over[yard] if after == facts.colonies else 0,
        )

    def _whole(self, state: State, yard: int, done: int, days: range) -> State | None:
        left = self.ground.outfit.yards[yard].colonies - done
        ways = [False, True] if self.ground.dues[yard].rounds else [False]
        self.rng.shuffle(ways)
        for fed in ways:
            new = self.inserter.place(state, self._off(yard, done, left, fed=fed), days)
            spared = None if fed or done else self._spared(state, yard, days)
            if spared is not None and (new is None or spared.score < new.score):
                new = spared
            if new is not None:
                return new
        return None

    def _spared(self, state: State, yard: int, days: range) -> State | None:
        """Take a yard off without blocks and bring its syrup later on the same day."""
        rules, colonies = self.ground.outfit.rules, self.ground.outfit.yards[yard].colonies
        if not (rules.same_day_second_trip and rules.blocks and self.ground.dues[yard].rounds):
            return None
        stop = self._off(yard, 0, colonies, fed=False)._replace(blocks=0)
        off = self.inserter.place(state, stop, days)
        if off is None:
            return None
        day = off.visits[yard][-1].day
        return self.inserter.place(off, Stop(yard, round=1, fed=colonies), range(day, day + 1))

    def _in_lots(self, state: State, yard: int, done: int, days: range) -> State | None:
        """Take a yard off in several visits, each as large as fits, in order of days."""
        colonies, new = self.ground.outfit.yards[yard].colonies, state
        while done < colonies:
            last = self._last_lot(new, yard, done, days) if done else None
            if last is not None:
                return last
            step = self._next_lot(new, yard, done, days)
            if step is None:
                part = self.inserter.eager and new is not state
                return new if part and not new.progress[yard].starving else None
            new, count, day = step
            done += count
            days = range(day, days.stop)
        return new

    def _last_lot(self, state: State, yard: int, done: int, days: range) -> State | None:
        """Take off all that is left and feed the whole yard in one visit."""
        left = self.ground.outfit.yards[yard].colonies - done
        if not self.ground.dues[yard].rounds or left == 0 or self.rng.random() < 0.3:
            return None
        return self.inserter.place(state, self._off(yard, done, left, fed=True), days)

    def _next_lot(
        self, state: State, yard: int, done: int, days: range
    ) -> tuple[State, int, int] | None:
        colonies = self.ground.outfit.yards[yard].colonies
        left, off = colonies - done, partial(self._off, yard, done, fed=False)
        least = min(self.ground.outfit.rules.smallest_lot, left)
        counts = [n for n in self.inserter.lots(off, left, colonies) if n >= least]
        if self.rng.random() >= 0.5 and left in counts:
            counts.reverse()
        for count in counts:
            new = self.inserter.place(state, off(count), days)
            if new is not None:
                day = _last_off(new, yard)
                return new, count, day
        return None

    def boards(self, state: State, yard: int) -> State | None:
        """Put boards on in time: one visit for all, or one before each take-off; none for none."""
        if not state.progress[yard].lacking:
            return state
        offs = [v for v in state.visits[yard] if v.stop.off and not (v.fact or v.stop.other)]
        if not offs:
            return None
        put_on = self._lying(yard, (v.stop for v in state.visits[yard] if v.fact))
        put_on += sum(v.stop.boards for v in state.visits[yard] if not v.fact)
        while len(offs) > 1 and put_on >= offs[0].stop.off:
            put_on -= offs.pop(0).stop.off
        lots = [(state.progress[yard].lacking, offs[0].day)]
        if len(offs) > 1 and self.rng.random() < 0.5:
            lots = [(visit.stop.off, visit.day) for visit in offs]
        best_days = -(-self.ground.outfit.rules.board_best_min // 1440)
        new: State | None = state
        for count, day in lots:
            stop = Stop(yard, boards=count)
            near = (
                self.inserter.place(new, stop, range(max(0, day - best_days), day)) if new else None
            )
            if near is None and new is not None:
                near = self.inserter.place(
                    new, stop, range(max(0, day - best_days - 3), day - best_days)
                )
            new = near
        return new


def _last_off(state: State, yard: int) -> int:
    """Return the day of a yard's last take-off."""
    return next(v.day for v in reversed(state.visits[yard]) if v.stop.off)


def _next_off(state: State, yard: int, first: int) -> int:
    """Return the day of a yard's first take-off from day ``first`` on."""
    return next(v.day for v in state.visits[yard] if v.stop.off and v.day >= first)
