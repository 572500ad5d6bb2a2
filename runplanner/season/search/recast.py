"""Visits moved from day to day by quick sums, whole chains at once.

As where one day is shared out anew (``resort.py``), strings of neighbouring stops are taken
out, here from all days at once, and with them the other visits of their yards.  A yard's
visits go back in on the days where all of them together cost least; its work stays as it is
parted into visits.  On which days they may lie is read from its chain at a nominal hour, and
what comes out counts only once it has been judged exactly.
"""

import random
from collections.abc import Iterator

from runplanner.days import DAY_MIN
from runplanner.season.quick.facts import Facts
from runplanner.season.quick.sums import Going, built
from runplanner.season.search.mend import Build, mended
from runplanner.season.search.resort import Resorter, mark_of
from runplanner.season.search.season_table import Chain, Choice, Days, SeasonTable, moved_to
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import Progress, State
from runplanner.trips.day import Day, Key
from runplanner.trips.ride import Way
from runplanner.visits.stop import Stop, Visit

FURTHEST = 7
"""Most days by which one visit, or a row of them, is moved at a time."""
MOST_CELLS = 3_000
"""Visits times days that are laid out at once; of longer campaigns it is a part."""

MOST_KNOWN = 50_000
"""Chains whose days are remembered before all are forgotten."""

Bare = tuple[tuple[int, Stop], ...]
"""Visits without their hours: day and stop."""


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
        self.seen: State | None = None
        self.heat, self.drifted = 0.0, False

    def __call__(self, state: State, a_stop: float, warmth: float) -> State | None:
        """Return a state some of whose visits lie otherwise, or None where none was found.

        It goes on from where the last tries ended, worse or not; the best that was passed on
        the way is kept in ``seen``, where it is better than all before.

        Args:
            state: Where to begin.
            a_stop: How often visits are taken out and put back, for each stop.
            warmth: From 1, when worse plans are often kept, to 0.
        """
        self.seen, self.drifted = None, False
        table = self._table(state)
        if table is None:
            return None
        before, least = list(table.shifts), table.least
        self.heat = table.heat(warmth)
        table.search(int(a_stop * len(table.stops)), self.heat)
        if table.best and table.least < least:
            self.seen = table.judged(self.keeper, state, table.best)
        new = table.judged(self.keeper, state, table.shifts)
        if new is None and table.best:
            self._learn(table)
            table.shifts = table.best
            new = table.judged(self.keeper, state, table.shifts)
        if new is None:
            self._learn(table)
            news, table.shifts = table.changed(state, table.shifts), before
            return mended(self.keeper, state, news, self.build) if self.build else None
        self.drifted = True
        self._known = (mark_of(new, table.all_keys()), table)
        return new

    def _learn(self, table: SeasonTable) -> None:
        """Tell quick sums which of the days they found cannot be driven, or which trips."""
        for k, shift in enumerate(table.shifts):
            days = table.day_of(k, shift)
            if days is None or self.keeper.judge(days) is not None:
                continue
            trips = zip(shift.trips, days.trips, strict=True)
            bad = [n for n, trip in trips if not self.keeper.judge(days._replace(trips=(trip,)))]
            shift.going.refuse(shift.trips, bad)

    def _table(self, state: State) -> SeasonTable | None:
        """Lay the days out, or find them as they were laid out."""
        mark, known = self._known
        if known is not None and mark == mark_of(state, known.all_keys()):
            return known
        if known is not None:
            known.forget()
        self._known = ([], None)
        window, apart = self._window(state), set(self.keeper.standing.driven)
        for _ in range(2):
            table = self._laid_out(state, window, apart)
            if table is not None:
                self._known = (mark_of(state, table.all_keys()), table)
                return table
        return None

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

    def _laid_out(self, state: State, window: range, apart: set[Key]) -> SeasonTable | None:
        """Put the trucks' days of a window on a table, but for those ``apart``.

        Returns None where sums of more days do not come out, which are then put apart as well;
        or where nothing is left.
        """
        jobs = [
            visit
            for mine in state.visits
            for visit in mine
            if visit.day in window and (visit.day, visit.truck) not in apart
        ]
        if not jobs:
            return None
        table = SeasonTable(
            self.rng, jobs, self._by_yard(state, jobs, window), self.ground, self.keeper.roster
        )
        number = _numbers(jobs)
        odd: set[Key] = set()
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
                if judged is None or (day, truck) in apart:
                    continue
                trips = tuple(
                    tuple(number[stop, day, truck].pop() for stop in trip)
                    for trip in judged.day.trips
                )
                shift = built(going(judged.day.hauler), trips)
                if shift is None:
                    odd.add((day, truck))
                else:
                    table.add((day, truck), judged.day.hauler, shift)
            for key, hauler in self.resorter.spare(state, day):
                table.add(key, hauler, going(hauler).empty())
            table.going_on[day] = going
        table.like, table.goings = self.resorter.like, goings
        table.apart = sorted(key for key in apart if key[0] in window)
        if odd or not table.keys:
            table.forget()
            apart |= odd
            return None
        return table

    def _by_yard(self, state: State, jobs: list[Visit], window: range) -> dict[int, Chain]:
        """Return, for every yard, its visits by number, and the days on which they may lie."""
        mine: dict[int, list[int]] = {}
        for i, visit in enumerate(jobs):
            mine.setdefault(visit.stop.yard, []).append(i)
        found: dict[int, Chain] = {}
        for yard, numbers in mine.items():
            moving = [jobs[i] for i in numbers]
            fixed = [visit for visit in state.visits[yard] if visit not in moving]
            now = tuple(visit.day for visit in moving)
            inside = tuple(
                one
                for one in self._choices_of(yard, fixed, moving)
                if one.days == now or all(day in window for day in one.days)
            )
            found[yard] = (tuple(numbers), inside)
        return found

    def _choices_of(self, yard: int, fixed: list[Visit], moving: list[Visit]) -> tuple[Choice, ...]:
        """Return the days on which a yard's chain holds, read at the hours of the first asking."""
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
            if read is not None and read.undone() <= usual.undone():
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
            new.append(Visit(*times, stop, day, visit.truck, visit.fact, visit.goes_on))
        return self.keeper.chains.read(yard, tuple(sorted([*fixed, *new])))

    def _cost(self, read: Progress) -> float:
        prices = self.ground.outfit.prices
        late = read.late_cents + read.boards_long_cents + read.fed_early * prices.feed_early_cents
        return float(late * 1000 + read.doubt_permille * prices.unsure_cents)


def _numbers(jobs: list[Visit]) -> dict[tuple[Stop, int, int], list[int]]:
    """Return the numbers of visits by stop, day and truck."""
    found: dict[tuple[Stop, int, int], list[int]] = {}
    for i, visit in enumerate(jobs):
        found.setdefault((visit.stop, visit.day, visit.truck), []).append(i)
    return found


def _bare(visits: list[Visit]) -> Bare:
    return tuple((visit.day, visit.stop) for visit in visits)


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
