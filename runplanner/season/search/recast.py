"""Visits moved from day to day by quick sums, whole chains at once.

As where one day is shared out anew (``resort.py``), strings of neighbouring stops are taken
out, here from all days at once, and with them the other visits of their yards.  A yard's
visits go back in on the days where all of them together cost least; its work stays as it is
parted into visits.  On which days they may lie is read from its chain at a nominal hour, and
what comes out counts only once it has been judged exactly.
"""

import random
from collections.abc import Iterator
from typing import NamedTuple

from runplanner.days import DAY_MIN
from runplanner.season.quick.facts import FAR, Facts
from runplanner.season.quick.sums import Going, Shift, built
from runplanner.season.search.mend import Build, mended
from runplanner.season.search.resort import DayTable, Resorter, mark_of
from runplanner.season.standing.state import Keeper, Key, Progress, State
from runplanner.trips.ride import Way
from runplanner.trips.stop import Day, Stop, Visit

FURTHEST = 7
"""Most days by which one visit, or a row of them, is moved at a time."""
WHOLE = 0.7
"""Share of tries that take all visits of a yard out where they take one."""
MOST_CELLS = 3_000
"""Visits times days that are laid out at once; of longer campaigns it is a part."""

MOST_KNOWN = 50_000
"""Chains whose days are remembered before all are forgotten."""

Days = tuple[int, ...]
Bare = tuple[tuple[int, Stop], ...]
"""Visits without their hours: day and stop."""


class Choice(NamedTuple):
    """Days on which a yard's visits may lie, and what that costs beyond the driving.

    The cost (lateness, doubt about the weather) is in 1/1000 cent.
    """

    days: Days
    cost: float


class Recaster:
    """Moves visits from day to day."""

    def __init__(
        self,
        keeper: Keeper,
        rng: random.Random,
        resorter: Resorter,
        build: Build | None = None,
    ) -> None:
        self.keeper, self.ground, self.rng = keeper, keeper.ground, rng
        self.build = build
        self.resorter = resorter
        self._choices: dict[tuple[int, Bare, Bare], tuple[Choice, ...]] = {}
        self._known: tuple[list[Day | None], SeasonTable | None] = ([], None)

    def __call__(self, state: State, a_stop: float, warmth: float) -> State | None:
        """Return a state some of whose visits lie otherwise, or None where none was found.

        Args:
            state: Where to begin.
            a_stop: How often visits are taken out and put back, for each stop.
            warmth: From 1, when worse plans are often kept, to 0.
        """
        table = self._table(state)
        if table is None:
            return None
        before = list(table.shifts)
        table.search(int(a_stop * len(table.stops)), table.heat(warmth))
        table.shifts = table.best or table.shifts
        news = table.changed(state, table.shifts)
        new = self.keeper.replace_all(state, news) if news else None
        if new is None:
            table.shifts = before
            return mended(self.keeper, state, news, self.build) if self.build else None
        self._known = (mark_of(new, table.keys), table)
        return new

    def _table(self, state: State) -> "SeasonTable | None":
        """Lay the days out, or find them as they were laid out."""
        mark, known = self._known
        if known is not None and mark == mark_of(state, known.keys):
            return known
        window = self._window(state)
        jobs = [
            visit
            for mine in state.visits
            for visit in mine
            if visit.day in window and (visit.day, visit.truck) not in self.keeper.standing.driven
        ]
        if not jobs:
            return None
        table = SeasonTable(self.rng, jobs, self._by_yard(state, jobs, window))
        if not self._laid_out(table, state, window):
            return None
        self._known = (mark_of(state, table.keys), table)
        return table

    def _window(self, state: State) -> range:
        """Return the days to lay out: all, or as many as are not too much at once."""
        n_days = self.ground.outfit.season.n_days
        stops = sum(len(mine) for mine in state.visits)
        first = self.ground.now_min // DAY_MIN
        # A window of w days holds about stops * w / n_days visits.
        width = n_days - first
        while width > 2 and stops * width // n_days * width > MOST_CELLS:
            width -= 1
        start = first + int(self.rng.random() * (n_days - first - width + 1))
        return range(start, start + width)

    def _laid_out(self, table: "SeasonTable", state: State, window: range) -> bool:
        """Put the trucks' days of a window on a table; tell whether their sums come out."""
        number: dict[tuple[Stop, int, int], list[int]] = {}
        for i, visit in enumerate(table.jobs):
            number.setdefault((visit.stop, visit.day, visit.truck), []).append(i)
        goings: dict[tuple[int, int, int], Going] = {}
        for day in window:
            facts = [self.resorter.fact(day, stop) for stop in table.on(day)]
            table.facts_on[day] = facts

            def going(hauler: int, day: int = day, facts: list[Facts] = facts) -> Going:
                like = (day, *self.resorter.like[hauler])
                if like not in goings:
                    costs = self.resorter.costs(hauler)
                    way = Way(day, hauler)
                    goings[like] = self.resorter.going(
                        self.ground, way, table.on(day), facts, costs
                    )
                return goings[like]

            for truck in range(len(self.ground.outfit.trucks)):
                judged = state.days.get((day, truck))
                if judged is None or (day, truck) in self.keeper.standing.driven:
                    continue
                trips = tuple(
                    tuple(number[stop, day, truck].pop() for stop in trip)
                    for trip in judged.day.trips
                )
                shift = built(going(judged.day.hauler), trips)
                if shift is None:
                    return False
                table.add((day, truck), judged.day.hauler, shift)
            for key, hauler in self.resorter.spare(state, day):
                table.add(key, hauler, going(hauler).empty())
        return True

    def _by_yard(
        self, state: State, jobs: list[Visit], window: range
    ) -> dict[int, tuple[tuple[int, ...], tuple[Choice, ...]]]:
        """Return, for every yard, its visits by number, and the days on which they may lie."""
        mine: dict[int, list[int]] = {}
        for i, visit in enumerate(jobs):
            mine.setdefault(visit.stop.yard, []).append(i)
        found = {}
        for yard, numbers in mine.items():
            moving = [jobs[i] for i in numbers]
            now = tuple(visit.day for visit in moving)
            inside = tuple(
                one
                for one in self._choices_of(yard, state, moving)
                if one.days == now or all(day in window for day in one.days)
            )
            found[yard] = (tuple(numbers), inside)
        return found

    def _choices_of(self, yard: int, state: State, moving: list[Visit]) -> tuple[Choice, ...]:
        """Return the days on which a yard's chain holds, read at the hours of the first asking."""
        fixed = [visit for visit in state.visits[yard] if visit not in moving]
        key = (yard, _bare(fixed), _bare(moving))
        if key not in self._choices:
            if len(self._choices) > MOST_KNOWN:
                self._choices.clear()
            now = tuple(visit.day for visit in moving)
            self._choices[key] = tuple(self._read(yard, fixed, moving, now))
        return self._choices[key]

    def _read(
        self, yard: int, fixed: list[Visit], moving: list[Visit], now: Days
    ) -> Iterator[Choice]:
        usual = self._at(yard, fixed, moving, now)
        if usual is None:
            yield Choice(now, 0.0)
            return
        for days in sorted(_moved(now, self.ground.outfit.season.n_days)):
            read = self._at(yard, fixed, moving, days) if days != now else usual
            if read is not None and _left(read) <= _left(usual):
                yield Choice(days, self._cost(read))

    def _at(
        self, yard: int, fixed: list[Visit], moving: list[Visit], days: Days
    ) -> Progress | None:
        new = []
        for visit, day in zip(moving, days, strict=True):
            stop, by = moved_to(visit.stop, visit.day, day), (day - visit.day) * DAY_MIN
            if by and not self.ground.stop_spans(stop, day):
                return None
            times = (visit.start_min + by, visit.end_min + by, visit.leave_min + by)
            new.append(Visit(*times, stop, day, visit.truck, visit.fact))
        return self.keeper.read(yard, tuple(sorted([*fixed, *new])))

    def _cost(self, read: Progress) -> float:
        prices = self.ground.outfit.prices
        late = read.late_cents + read.boards_long_cents + read.fed_early * prices.feed_early_cents
        return float(late * 1000 + read.doubt_permille * prices.unsure_cents)


def _bare(visits: list[Visit]) -> Bare:
    return tuple((visit.day, visit.stop) for visit in visits)


def moved_to(stop: Stop, was: int, day: int) -> Stop:
    """Return a stop of one day as it is on another; what it waits for moves along."""
    if day == was or not stop.from_min:
        return stop
    return stop._replace(from_min=max(0, stop.from_min + (day - was) * DAY_MIN)).on(day)


def _moved(now: Days, n_days: int) -> set[Days]:
    """Return the days after one row of visits was moved by so many days, or none was."""
    found = {now}
    for first in range(len(now)):
        for end in range(first + 1, len(now) + 1):
            for by in range(-FURTHEST, FURTHEST + 1):
                days = (*now[:first], *(d + by for d in now[first:end]), *now[end:])
                if all(0 <= d < n_days for d in days) and list(days) == sorted(days):
                    found.add(days)
    return found


def _left(read: Progress) -> tuple[int, ...]:
    """Return what is left to do, where more is worse."""
    return (
        read.lacking, read.uncovered, read.no_strips, read.unfed_g, read.not_off, read.not_wet
    )  # fmt: skip


class SeasonTable(DayTable):
    """Visits and trucks of many days, and the search over them."""

    swapped, blink = 0.3, 0.1

    def __init__(
        self,
        rng: random.Random,
        jobs: list[Visit],
        yards: dict[int, tuple[tuple[int, ...], tuple[Choice, ...]]],
    ) -> None:
        super().__init__(rng, [visit.stop for visit in jobs], [])
        self.jobs, self.yards = jobs, yards
        self.facts_on: dict[int, list[Facts]] = {}
        self._by_day: dict[int, list[int]] = {}
        self._varied = [
            (numbers, {one.days: one.cost for one in choices})
            for numbers, choices in yards.values()
            if len({one.cost for one in choices}) > 1
        ]

    def on(self, day: int) -> list[Stop]:
        """Return every visit as it is on a day."""
        return [moved_to(visit.stop, visit.day, day) for visit in self.jobs]

    def add(self, key: Key, hauler: int, shift: Shift) -> None:
        """Add a truck's day, which may have nothing to do yet."""
        self._by_day.setdefault(key[0], []).append(len(self.keys))
        super().add(key, hauler, shift)

    def near(self) -> list[list[int]]:
        """Return, for every visit, all visits from the nearest on, itself first."""
        if not self.facts:
            self.facts = [self.facts_on[visit.day][i] for i, visit in enumerate(self.jobs)]
        return super().near()

    def total(self, shifts: list[Shift]) -> float:
        """Return what the driving costs, and lateness and doubt with it."""
        cost = super().total(shifts)
        if self._varied:
            days = self._days(shifts)
            cost += sum(costs[tuple([days[i] for i in numbers])] for numbers, costs in self._varied)
        return cost

    def _days(self, shifts: list[Shift]) -> dict[int, int]:
        """Return the day of every visit."""
        return {
            i: key[0]
            for key, shift in zip(self.keys, shifts, strict=True)
            for trip in shift.trips
            for i in trip
        }

    def _pair(self, shifts: list[Shift]) -> tuple[int, int]:
        """Return two trucks of one day."""
        one = int(self.rng.random() * len(shifts))
        mine = self._by_day[self.keys[one][0]]
        return one, mine[int(self.rng.random() * len(mine))]

    def _round(self, shifts: list[Shift], most: float) -> list[Shift] | None:
        del most  # what choices of days cost is known once all is in
        if self.rng.random() < self.swapped:
            shifts = self._swapped(shifts)
        strings, _ = self._strings(shifts)
        days = self._days(shifts)
        order = list(dict.fromkeys(self.jobs[i].stop.yard for i in self._in_order(strings)))
        if self.rng.random() < WHOLE:
            gone = {i for yard in order for i in self.yards[yard][0]}
        else:
            gone = set(strings)
        new = list(shifts)
        for k, shift in enumerate(shifts):
            if any(i in gone for trip in shift.trips for i in trip):
                rest = shift.without(gone)
                if rest is None:
                    return None
                new[k] = rest
        return new if all(self._put_yard(new, yard, gone, days) for yard in order) else None

    def _put_yard(
        self, shifts: list[Shift], yard: int, gone: set[int], days: dict[int, int]
    ) -> bool:
        """Put a yard's visits where they cost least together; False where they do not go in."""
        numbers, choices = self.yards[yard]
        skipped = int(self.rng.random() * len(shifts)) if self.rng.random() < self.blink else -1
        least: dict[tuple[int, int], float] = {}
        best, chosen = FAR, choices[0].days
        for choice in choices:
            cost = choice.cost
            for i, day in zip(numbers, choice.days, strict=True):
                if (i, day) not in least:
                    least[i, day] = self._added(shifts, i, day, skipped, gone, days)
                cost += least[i, day]
                if cost >= best:
                    break
            if cost < best:
                best, chosen = cost, choice.days
        if best >= FAR:
            return False
        for i, day in zip(numbers, chosen, strict=True):
            if i in gone and not self._put_on(shifts, i, day):
                return False
        return True

    def _added(
        self,
        shifts: list[Shift],
        i: int,
        day: int,
        skipped: int,
        gone: set[int],
        days: dict[int, int],
    ) -> float:
        """Return what a visit adds to a day; one that was not taken out stays where it is."""
        if i in gone:
            return self._best(shifts, i, day, skipped)[0]
        return 0.0 if day == days[i] else FAR

    def _best(self, shifts: list[Shift], i: int, day: int, skipped: int) -> tuple[float, int]:
        """Return what a visit adds to a day at least, and to which truck's."""
        least, at = FAR, -1
        empty: set[Going] = set()
        if not self.facts_on[day][i].spans:
            return FAR, -1
        for k in self._by_day.get(day, ()):
            shift = shifts[k]
            if not shift.trips:
                if shift.going in empty:
                    continue
                empty.add(shift.going)
            extra = (shift.memo.get(i) or shift.guess(i))[0]
            if extra < least and k != skipped:
                least, at = extra, k
        return least, at

    def _put_on(self, shifts: list[Shift], i: int, day: int) -> bool:
        while True:
            _, at = self._best(shifts, i, day, -1)
            if at < 0:
                return False
            new = shifts[at].joined(i)
            if new is not None:
                shifts[at] = new
                return True

    def _trips(self, day: int, orders: tuple[tuple[int, ...], ...]) -> tuple[tuple[Stop, ...], ...]:
        return tuple(
            tuple(moved_to(self.stops[i], self.jobs[i].day, day) for i in trip) for trip in orders
        )
