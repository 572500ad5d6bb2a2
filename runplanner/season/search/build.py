"""Builds the whole chain of one yard into a state: off, boards before, feed and strips after."""

import random
from collections.abc import Callable, Iterator
from functools import partial

from runplanner.season.search.insert import Inserter
from runplanner.season.search.take_off import TakeOffs, Ways
from runplanner.season.standing.state import State
from runplanner.trips.ground import Ground
from runplanner.visits.stop import Stop

MOST_FETCHED = 4
"""Yards whose feeders are fetched so that another can be fed."""


class Builder:
    """Puts yards into states, whole chains at a time."""

    def __init__(self, inserter: Inserter) -> None:
        self.inserter = inserter
        self.ground: Ground = inserter.ground
        self.rng = inserter.rng
        self.choosy = False
        self.take_offs = TakeOffs(inserter)
        self._hards: dict[int, bool] = {}

    def add(self, state: State, yard: int) -> State:
        """Return ``state`` with as much of ``yard`` as it is right to do.

        Colonies are never taken off where their first feed cannot follow in time.  Wet boxes
        go back up where nothing else of the yard is left out for it.  A ``choosy`` builder
        leaves what costs more than its stated worth.
        """
        new = self._chained(state, yard)
        return state if self.choosy and new.score > state.score else new

    def _chained(self, state: State, yard: int) -> State:
        """Put the yard's jobs in, clearing the boxes by whichever way comes out best."""
        found = []
        for ways in self.take_offs.to_try(state, yard):
            self.take_offs.ways = ways
            found.append(self._one_way(self.take_offs.switched(state, yard), yard))
        self.take_offs.ways = Ways.USUAL
        return min(found, key=lambda one: one.score)

    def _one_way(self, state: State, yard: int) -> State:
        """Put the yard's jobs in, one after the other."""
        due = self.ground.dues[yard]
        if not due.wet:
            return self._added(state, yard)
        if any(visit.stop.wet_up for visit in state.visits[yard]):
            down = self._collected(state, yard)
            return state if down is None else self._added(down, yard)
        plain, wet = self._added(state, yard), self._with_wet(state, yard)
        return plain if wet is None else min(wet, plain, key=lambda one: one.score)

    def _added(self, state: State, yard: int) -> State:
        due = self.ground.dues[yard]
        new: State | None = state
        if state.progress[yard].lacking and not (due.take_off and state.progress[yard].not_off):
            new = self._made_good(state, yard)
        fed = None if new is None else self._usual(new, yard)
        if new is not None and self._owes(fed, yard) and self._hard(yard):
            fed = self._sooner(new, yard, fed)
        if fed is None:
            return state
        if not (due.strips and fed.progress[yard].no_strips):
            return fed
        treated = self._chosen(fed, self._strips(fed, yard))
        if not (treated.progress[yard].no_strips and due.rounds and state.progress[yard].not_off):
            return treated
        return self._strips_first(state, yard, treated)

    def _to_begin(self, state: State, yard: int) -> bool:
        return self.ground.dues[yard].take_off and state.progress[yard].not_off > 0

    def _usual(self, state: State, yard: int) -> State | None:
        """Take a yard off, where it is to be, and feed it, each on the day that costs least."""
        begun = self._begun(state, yard) if self._to_begin(state, yard) else state
        return None if begun is None else self._chosen(begun, self._fed(begun, yard))

    def _owes(self, fed: State | None, yard: int) -> bool:
        """Tell whether a yard is left with honey on or without all its feed."""
        return fed is None or bool(fed.progress[yard].unfed_g or fed.progress[yard].not_off)

    def _hard(self, yard: int) -> bool:
        """Tell whether a yard of several loads is not done as usual even where no other is."""
        if yard not in self._hards:
            keeper = self.inserter.keeper
            seen, keeper.seen = keeper.seen, None
            alone = Builder(Inserter(keeper, random.Random(0)))  # noqa: S311 - a search
            self._hards[yard] = not self.take_offs.in_one(yard) and self._owes(
                alone._usual(keeper.empty(), yard), yard
            )
            keeper.seen = seen
        return self._hards[yard]

    def _sooner(self, state: State, yard: int, fed: State | None) -> State | None:
        """Take a yard off and feed it load after load, each as soon as it can be.

        Where each is put on the day that costs least, later loads or later rounds may find no
        day.  What does not fit even so is done in part.  Returns ``fed`` where that is better.
        """
        to_begin = self._to_begin(state, yard)
        days = self.take_offs.days(yard, self.ground.dues[yard].rounds)
        thirds = [days.start + len(days) * third // 3 for third in range(3)]
        self.inserter.eager = True
        try:
            for first in thirds if to_begin else thirds[:1]:
                begun = self._begun_soon(state, yard, first) if to_begin else state
                if begun is None:
                    continue
                again = self._chosen(begun, self._fed(begun, yard))
                fed = again if fed is None or again.score < fed.score else fed
                if not self._owes(fed, yard):
                    break
        finally:
            self.inserter.eager = False
        return fed

    def _strips_first(self, state: State, yard: int, fed: State) -> State:
        """Treat a yard before it is fed, where strips find no hour or lawful day after that.

        Returns ``fed``, in which they have none, where that is no better.
        """
        if any(visit.stop.off for visit in state.visits[yard]):
            return fed
        off = self.take_offs.taken_off(state, yard, self.ground.dues[yard].rounds)
        off = off and self.inserter.keeper.thin(off, self._off_alone(yard), {yard})
        if off is None or off.progress[yard].not_off or off.progress[yard].lacking:
            return fed
        treated = self._strips(off, yard)
        if treated.progress[yard].no_strips:
            return fed
        first = self._feed(treated, yard, 1, self.ground.dues[yard].rounds)
        first = first or self._fed_after_block(treated, yard)
        return fed if first is None else min(fed, self._fed(first, yard), key=lambda one: one.score)

    def _made_good(self, state: State, yard: int) -> State | None:
        """Put in what a take-off that stands waits for: its boards, or syrup the same day.

        Where neither can be, whoever has boards on is taken off alone, the others are to follow.
        """
        on = self.take_offs.boards(state, yard)
        if on is not None:
            return on
        if self.ground.outfit.rules.same_day_second_trip:
            fed = self._fed(state, yard)
            if fed.progress[yard].lacking < state.progress[yard].lacking:
                return fed
        return self.take_offs.as_boarded(state, yard)

    def _chosen(self, before: State, after: State) -> State:
        return before if self.choosy and after.score > before.score else after

    # Wet boxes

    def _with_wet(self, state: State, yard: int) -> State | None:
        """Take a yard off, put its boxes back up, collect them, then feed and treat it."""
        rules, due = self.ground.outfit.rules, self.ground.dues[yard]
        new: State | None = state
        if state.progress[yard].not_off:
            new = self.take_offs.taken_off(state, yard, due.rounds, room=rules.wet_least_days + 1)
            new = new and self.inserter.keeper.thin(new, self._off_alone(yard), {yard})
        begun = new is not None and any(v.stop.fed or v.stop.strips for v in new.visits[yard])
        if new is None or begun or new.progress[yard].not_off or new.progress[yard].lacking:
            return None
        last = max(visit.day for visit in new.visits[yard] if visit.stop.off)
        days = range(last, self.ground.outfit.season.n_days - rules.wet_least_days)
        up = self._spun_up(new, yard, days)
        down = self._collected(up, yard) if up is not None else None
        if down is None or not due.rounds:
            return self._added(down, yard) if down is not None else None
        fed = self._feed(down, yard, 1, due.rounds) or self._feed(down, yard, 1, 1)
        fed = fed or self._fed_after_block(down, yard)
        return self._added(fed, yard) if fed is not None else None

    def _off_alone(self, yard: int) -> Callable[[Stop], Stop]:
        """Return what makes a take-off of a yard one without feed or strips, with its blocks."""
        each = self.ground.outfit.rules.blocks if self.ground.dues[yard].rounds else 0

        def thinned(stop: Stop) -> Stop:
            if stop.yard != yard or not stop.off:
                return stop
            return stop._replace(round=0, fed=0, feeders=0, strips=False, blocks=stop.off * each)

        return thinned

    def _spun_up(self, state: State, yard: int, days: range) -> State | None:
        """Put wet boxes up on the first day on which they are spun and the evening is fit."""
        stop = Stop(yard, wet_up=sum(visit.stop.boxes for visit in state.visits[yard]))
        placed = (self.inserter.place(state, stop, (day,)) for day in days)
        return next((new for new in placed if new is not None), None)

    def _collected(self, state: State, yard: int) -> State | None:
        """Collect wet boxes that are up: at their best, or else as soon after as can be."""
        visits, rules = state.visits[yard], self.ground.outfit.rules
        standing = sum(visit.stop.wet_up - visit.stop.wet_down for visit in visits)
        if standing <= 0:
            return state
        up = next(visit for visit in visits if visit.stop.wet_up)
        stop = Stop(yard, wet_down=standing)
        first, best = up.day + rules.wet_least_days, up.day + rules.wet_best_days
        n_days = self.ground.outfit.season.n_days
        near = self.inserter.place(state, stop, range(first, min(n_days, best + 1)))
        later = range(best + 1, n_days)
        return near if near is not None else self.inserter.place(state, stop, later)

    def _begun(self, state: State, yard: int) -> State | None:
        """Take a yard off and feed it once, early enough for as many further rounds as can be.

        Where feeders stand in other yards it may wait for theirs.
        """
        colonies = self.ground.outfit.yards[yard].colonies
        soon = self._begun_soon(state, yard)
        if not (self.ground.dues[yard].rounds and self._scarce(state, colonies)):
            return soon
        later = self._begun_later(state, yard)
        both = [one for one in (soon, later) if one is not None]
        return min(both, key=lambda one: one.score, default=None)

    def _begun_later(self, state: State, yard: int) -> State | None:
        """Take a yard off once feeders are fetched for it."""
        due = self.ground.dues[yard]
        for rounds in range(due.rounds, 0, -1):
            last = self.take_offs.last_day(yard, 1, rounds)
            for collected, free in self._collected_feeders(state, yard, last):
                off = self.take_offs.taken_off(collected, yard, rounds, first=free)
                if off is None:
                    continue
                fed = self._feed(off, yard, 1, rounds)
                if fed is not None:
                    return fed
        return None

    def _begun_soon(self, state: State, yard: int, first: int = 0) -> State | None:
        """Take a yard off, from day ``first`` on as costs least, and feed it once."""
        due, part = self.ground.dues[yard], None
        for rounds in range(due.rounds, -1 if due.rounds == 0 else 0, -1):
            off = self.take_offs.taken_off(state, yard, rounds, first=first)
            if off is None:
                continue
            if off.progress[yard].not_off:
                part = part or off
                continue
            if due.rounds == 0:
                return off
            new = self._feed(off, yard, 1, rounds) or self._fed_after_block(off, yard)
            if new is not None:
                return new
            if not off.progress[yard].starving:
                return off
        return part

    def _fed(self, state: State, yard: int) -> State:
        """Give a yard its feed rounds in order, as far as they fit; who is eager, part of one."""
        due, eager = self.ground.dues[yard], self.inserter.eager
        for number in range(1, due.rounds + 1):
            new = self._feed(state, yard, number, due.rounds)
            if new is None and due.rounds > number:
                new = self._feed(state, yard, number, number)
            if new is None:
                part = self._feed(state, yard, number, number, part=True) if eager else None
                return state if part is None else part
            state = new
        return state

    # Feed and strips

    def _feed(
        self, state: State, yard: int, number: int, rounds: int, *, part: bool = False
    ) -> State | None:
        """Give a yard what it lacks of a feed round; None where that, or ``part``, fits nowhere."""
        left = self.ground.outfit.yards[yard].colonies - fed_in(state, yard, number)
        if left <= 0:
            return state
        due = self.ground.dues[yard]
        before = [
            v
            for v in state.visits[yard]
            if (v.stop.off if number == 1 else v.stop.round == number - 1)
        ]
        last = self.take_offs.last_day(yard, number, rounds)
        if number == 1:
            whole_days = lot_days = range(before[-1].day if before else 0, last + 1)
            from_min = 0
        else:
            gone_min = [v.start_min + due.round_gap_min for v in before] or [0]
            lot_days = range(gone_min[0] // 1440, last + 1)
            whole_days, from_min = range(gone_min[-1] // 1440, last + 1), gone_min[-1]
        stop = self.inserter.keeper.chains.feed(yard, state.visits[yard], number, left, from_min)
        whole = self.inserter.place(state, stop, whole_days)
        if whole is None:
            whole = self._feed_in_lots(state, yard, number, lot_days, part=part)
        lent = number == 1 or stop.feeders
        if whole is not None or not lent or not self._scarce(state, left):
            return whole
        for collected, free in self._collected_feeders(state, yard, last):
            days = range(max(whole_days.start, free), last + 1)
            whole = self.inserter.place(collected, stop, days)
            if whole is not None:
                return whole
        return None

    def _scarce(self, state: State, wanted: int) -> bool:
        """Tell whether feeders that stand in yards keep so many colonies from being fed."""
        owned = self.ground.outfit.kit.feeders_now
        return owned is not None and wanted <= owned < wanted + sum(
            visit.stop.fed for mine in state.visits for visit in mine if visit.stop.round == 1
        )

    def _collected_feeders(self, state: State, yard: int, last: int) -> Iterator[tuple[State, int]]:
        """Yield states in which more and more feeders are fetched, and from when they are back.

        The yards whose last feed is down the soonest give theirs first.
        """
        empty = []
        for other, mine in enumerate(state.visits):
            due = self.ground.dues[other]
            fed = [v for v in mine if due.rounds and v.stop.round == due.rounds]
            done = sum(v.stop.fed for v in fed) >= self.ground.outfit.yards[other].colonies
            standing = sum(v.stop.fed for v in mine if v.stop.round == 1)
            standing += sum(v.stop.feeders - v.stop.feeders_off for v in mine)
            if other != yard and due.take_off and fed and done and standing > 0:
                empty.append((fed[-1].start_min + due.round_gap_min, other, standing))
        for from_min, other, standing in sorted(empty)[:MOST_FETCHED]:
            stop = Stop(other, feeders_off=standing, from_min=from_min)
            new = self.inserter.place(state, stop, range(from_min // 1440, last + 1))
            if new is None:
                continue
            state = new
            yield state, next(v.day for v in state.visits[other] if v.stop.feeders_off)

    def _fed_after_block(self, state: State, yard: int) -> State | None:
        """Give every colony a second block while its cover lasts, then feed."""
        offs = [visit for visit in state.visits[yard] if visit.stop.off]
        if not offs or not self.ground.outfit.rules.blocks:
            return None
        colonies = self.ground.outfit.yards[yard].colonies
        days = range(offs[-1].day, min(self.take_offs.last_day(yard, 1, 1), offs[0].day + 30) + 1)
        more = self.inserter.place(state, Stop(yard, blocks=colonies), days)
        return self._feed(more, yard, 1, 1) if more is not None else None

    def _feed_in_lots(
        self, state: State, yard: int, number: int, days: range, *, part: bool
    ) -> State | None:
        colonies, chains = self.ground.outfit.yards[yard].colonies, self.inserter.keeper.chains
        left, new = colonies - fed_in(state, yard, number), state
        while left:
            feed = partial(chains.feed, yard, new.visits[yard], number)
            for count in self.inserter.lots(feed, left, colonies):
                if new is state and count == left:
                    continue
                found = self.inserter.place(new, feed(count), days)
                if found is not None:
                    new, left = found, left - count
                    break
            else:
                return new if part and new is not state else None
        return new

    def _strips(self, state: State, yard: int) -> State:
        season = self.ground.outfit.season
        offs = [visit.day for visit in state.visits[yard] if visit.stop.off]
        last = season.n_days - 1
        if season.strips_by.hard:
            last = min(last, season.strips_by.day)
        first = max(offs) if offs else 0
        return self.inserter.place(state, Stop(yard, strips=True), range(first, last + 1)) or state


def fed_in(state: State, yard: int, number: int) -> int:
    """Return the colonies of a yard that get a feed round."""
    return sum(v.stop.fed for v in state.visits[yard] if v.stop.round == number)
