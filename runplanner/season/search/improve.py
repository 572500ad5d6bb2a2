"""Make a plan, then make it better: take some yards out, put them back another way.

Every round removes the whole chains of a few yards that lie near each other or share days,
builds them in again, and keeps the outcome when it is better, or not much worse while the
search is still warm.
"""

import math
import random
from collections.abc import Callable, Iterator
from typing import Protocol

from runplanner.season.search.choose_days import MOST_YARDS, Chosen
from runplanner.season.search.rebuild import Rebuilder
from runplanner.season.search.recast import Recaster
from runplanner.season.search.resort import Resorter
from runplanner.season.standing.keeper import Keeper
from runplanner.season.standing.state import Score, Standing, State, UndoneVector
from runplanner.season.worth import stated
from runplanner.trips.ground import Ground


class Report(Protocol):
    """Told after every round; says whether to go on."""

    def __call__(self, done: int, best: State) -> bool:
        """Take note of the best state; False stops the search."""

    def interrupted(self) -> None:
        """Take note that the user broke off; the round under way does not count."""

    def share(self, done: int) -> float:
        """Return how much of the search is over after so many rounds, from 0 to 1."""

    def has_s(self, seconds: float) -> bool:
        """Tell whether so many seconds are left; where no clock runs they are."""


WARM = 0.1

FULL_DAY = 40
"""Stops on a day at which every second round shares one day out anew."""
TRIES_A_STOP = 2
"""How often a round of quick sums takes stops out and puts them back, for each stop."""
ALONE_FULL, ALONE_TRIES = 12, 4
"""The same two where the campaign is that one day and not a stop is missing."""

RECAST, AGAIN, RECAST_TRIES = 0.04, 0.875, 8
"""How often a round moves visits from day to day by quick sums, how often one more does so
after such a round, and its tries for each visit: what quick sums remember of days laid out is
worth most while nothing else changes them.
"""
FEW = 12
"""Visits below which there are none: so small a campaign is gone through by other rounds."""
REFUSED, RARE = 10, 0.02
"""Once so many were tried and not one in so many held, they are this share of rounds instead."""

LOOSE, STUCK, TIDY = 0.6, 0.035, 0.4
"""Where work is left and for a share of the search no less was (``STUCK``), plans that leave more
are gone on from at times: so much of what a mean yard has to do more (``LOOSE``) one time in e.
No longer once only ``TIDY`` of the search is left.

Yards in each other's way stay so where only less undone will do.
"""

SCOUTS = 3
SCOUT_PERMILLE = 150


class _Run:
    """The rounds of one search: the best state so far, and whether to stop."""

    def __init__(self, state: State, report: Report, rounds: int, done: int = 0) -> None:
        self.best = state
        self.rounds = rounds
        self.done = done
        self.stopped = False
        self._report = report

    def saw(self, state: State) -> None:
        """Take note of the best state of a round."""
        self.done += 1
        if state.score < self.best.score:
            self.best = state
        self.stopped = not self._report(self.done, self.best)

    def share(self) -> float:
        """Return how much of the search is over."""
        return 1.0 if self.done >= self.rounds else self._report.share(self.done)

    def has_s(self, seconds: float) -> bool:
        """Tell whether so many seconds are left."""
        return self._report.has_s(seconds)


class Improver:
    """Runs the rounds of one search; the same seed gives the same plan.

    ``keeper`` is what every part of the search asks, where rules of a campaign are not all.
    """

    def __init__(
        self,
        ground: Ground,
        seed: int,
        standing: Standing | None = None,
        keeper: Keeper | None = None,
    ) -> None:
        self.ground = ground
        self.keeper = keeper or Keeper(ground, standing)
        self.rng = random.Random(seed)  # noqa: S311 - a search, not a secret
        self.rebuild = Rebuilder(self.keeper, self.rng)
        self.inserter, self.builder = self.rebuild.inserter, self.rebuild.builder
        self.resorter = Resorter(self.keeper, self.rng)
        self.recaster = Recaster(self.keeper, self.rng, self.resorter, self.rebuild.build)
        self._tried = self._held = 0
        self._again = False
        self._alone = ground.outfit.season.n_days == 1
        self.worth = stated(ground.outfit.prices)
        self._mean_yard = _mean_yard(ground)
        self.chosen = self._chooser(standing)

    def _chooser(self, standing: Standing | None) -> Chosen | None:
        """Return what chooses days anew, or None where it would not pay or may not be."""
        many = len(self.ground.outfit.yards) > MOST_YARDS
        if many or self._alone or self.worth or standing is not None:
            return None
        chosen = Chosen(self.keeper)
        self.keeper.seen = chosen.saw
        return chosen

    def construct(self) -> State:
        """Return a first plan: the yards that have least room to move go in first."""
        empty, yards = self.keeper.empty(), range(len(self.ground.outfit.yards))
        return self.rebuild.build(empty, self.rebuild.pressing(empty, yards))

    def completed(self, state: State) -> State:
        """Return ``state`` with what yards lack put in, or those yards built in anew.

        So are those that could not stay without them, and those to be taken off with blocks
        where colonies that are off already run out of cover for want of them.  Where that does
        not do, those that then came short go in before the others.
        """
        lacking = self.rebuild.lacking(state)
        best = self._filled(state)
        short = self.rebuild.lacking(best)
        taken_out = [set(lacking)]
        if any(map(best.runs_out, short)):
            taken_out.append({*lacking, *_with_blocks(best)})
        for first in ([], short):
            for yards in taken_out if self.rebuild.lacking(best) else ():
                bare = self.keeper.drop(state, yards)
                begun = self.rebuild.build(bare, self.rebuild.pressing(bare, first))
                best = min(best, self._filled(begun), key=lambda one: one.score)
        return best

    def _filled(self, state: State) -> State:
        """Return the state with what yards lack put in, the most pressing first."""
        lacking = self.rebuild.lacking(state)
        return self.rebuild.build(state, self.rebuild.pressing(state, lacking))

    def rounds(self, state: State, count: int, report: Report, scouts: int = 0) -> State:
        """Return the best state after ``count`` rounds, or fewer if ``report`` says stop.

        The first rounds may go to ``scouts``: short searches from different first plans, of
        which the best is carried on.  A single day is so hot at first that it forgets them.
        """
        run = _Run(state, report, count)
        try:
            for number in range(0 if self._alone else scouts):
                start = state if number == 0 else self.construct()
                self._search(run, start, (number + 1) * SCOUT_PERMILLE / 1000)
            self._search(run, run.best, 1.0)
            return self._tried_again(run.best) if self.worth else run.best
        except KeyboardInterrupt:
            report.interrupted()
            return run.best

    def begun_again(
        self, first: State, found: State, done: int, count: int, report: Report
    ) -> State:
        """Return the best state once rounds beyond those ``done`` began again at a first plan.

        Args:
            first: Where to begin.
            found: The best by now.
            done: Rounds done.
            count: Rounds in all.
            report: Told after every round.
        """
        run = _Run(found, report, count, done)
        try:
            self._search(run, first, 1.0)
        except KeyboardInterrupt:
            report.interrupted()
        return run.best

    def _tried_again(self, state: State) -> State:
        """Put in what was left, wherever it does cost less than its worth after all."""
        self.inserter.noise, self.builder.choosy = 0.0, True
        again = self._filled(state)
        self.builder.choosy = False
        return again

    def _search(self, run: "_Run", current: State, until: float) -> None:
        """Search on from ``current``, warm at first and cold when ``until`` of all is over."""
        best, since = current, run.share()
        gained = since
        while not run.stopped and (share := run.share()) < until:
            number = run.done
            left = 1 - (share - since) / (until - since)
            new, sure = self._next(current, left)
            if sure or self._accept(new.score, current.score, left, share - gained):
                current = new
            passed = self._passed(sure=sure) or new
            better = min(new, passed, key=lambda one: one.score)
            if better.score < best.score:
                gained = share if better.score.undone < best.score.undone else gained
                best = better
            elif number % 200 == 199:
                current = best
            run.saw(best)
            if (anew := self._days_anew(run)) is not None:
                current = best = anew

    def _days_anew(self, run: _Run) -> State | None:
        """Return a better plan chosen from all days seen, when it is time to choose."""
        if self.chosen is None or run.stopped or not self.chosen.due(run.share()):
            return None
        anew = self.chosen(run.best) if run.has_s(self.chosen.takes_s()) else None
        if anew is not None:
            run.best = anew
        return anew

    def takes_s(self) -> float:
        """Return the seconds that putting one together from two states takes, as far as known."""
        return 0.0 if self.chosen is None else self.chosen.takes_s()

    def together(self, state: State, other: State, has_s: Callable[[float], bool]) -> State:
        """Return the better of two states, or one put together from both where that is cheaper.

        ``has_s`` tells whether so many seconds are left.
        """
        best = min(state, other, key=lambda one: one.score)
        if self.chosen is None or not has_s(self.chosen.takes_s()):
            return best
        for one in (state, other):
            self.chosen.saw(one, one.days)
        return self.chosen(best) or best

    def _accept(self, new: Score, old: Score, left: float, stuck: float) -> bool:
        if new.undone != old.undone:
            return new < old or self._wanders(new, old, left, stuck)
        if new <= old:
            return True
        heat = self.recaster.heat or WARM * left**2 * 0.1 * max(1, old.milli_cents)
        return self.rng.random() < math.exp((old.milli_cents - new.milli_cents) / max(1.0, heat))

    def _wanders(self, new: Score, old: Score, left: float, stuck: float) -> bool:
        """Tell whether to go on from a plan that leaves more undone than one that leaves some."""
        parts = zip(old.undone, new.undone, self._mean_yard, strict=True)
        was, now, whole = next(three for three in parts if three[0] != three[1])
        if not was or left <= TIDY or stuck < STUCK:
            return False
        return self.rng.random() < math.exp((was - now) / (LOOSE * whole))

    def _next(self, state: State, left: float) -> tuple[State, bool]:
        """Return the outcome of a round, and whether it goes on from there come what may.

        Quick sums have decided by themselves how much worse is kept.
        """
        new = self._recast(state, left)
        sure = self._alone or (new is not None and self.recaster.drifted)
        new = new or self._resorted(state, left)
        if new is None:
            return self.rebuild(state), False
        return new, sure and new.score.undone <= state.score.undone

    def _passed(self, *, sure: bool) -> State | None:
        """Return the best state that quick sums came by in this round, once."""
        seen, self.recaster.seen = self.recaster.seen, None
        return seen if seen is not None else self.resorter.seen if sure else None

    def _recast(self, state: State, left: float) -> State | None:
        """Move visits from day to day by quick sums; seldom where that is mostly refused."""
        refused = self._tried >= REFUSED and self._held * REFUSED < self._tried
        again, self._again = self._again, False
        share = RARE if refused else AGAIN if again else RECAST
        few = sum(len(mine) for mine in state.visits) < FEW
        if few or self.ground.outfit.season.n_days == 1 or self.rng.random() >= share:
            return None
        new = self.recaster(state, RECAST_TRIES, left)
        self._tried, self._held = self._tried + 1, self._held + (new is not None)
        self._again = True
        return new

    def _resorted(self, state: State, left: float) -> State | None:
        """Share one day's stops out anew; hardly ever where days have few stops."""
        days = sorted({day for day, _ in state.days})
        stops = sum(len(judged.visits) for judged in state.days.values()) / max(1, len(days))
        full = ALONE_FULL if self._alone and not self.rebuild.lacking(state) else FULL_DAY
        if self.rng.random() * (stops**2 + full**2) >= stops**2:
            return None
        day = self.rng.choice(days)
        tries = ALONE_TRIES if self._alone else TRIES_A_STOP
        tries *= sum(len(state.days[k].visits) for k in state.days if k[0] == day)
        return self.resorter(state, day, tries, left, alone=self._alone)


def _with_blocks(state: State) -> Iterator[int]:
    """Yield the yards (by index) that are still to be taken off with blocks."""
    for yard, mine in enumerate(state.visits):
        if any(one.stop.off and one.stop.blocks and not one.fact for one in mine):
            yield yard


def _mean_yard(ground: Ground) -> tuple[float, ...]:
    """Return what a mean yard has of everything that may be left undone, as scores tell it."""
    yards = ground.outfit.yards
    colonies = sum(yard.colonies for yard in yards) / max(1, len(yards))
    grams = [one.colonies * sum(due.lacks_g) for one, due in zip(yards, ground.dues, strict=True)]
    heads, unfed_g = max(1.0, colonies), max(1.0, sum(grams) / max(1, len(yards)))
    return tuple(unfed_g if name == "unfed_g" else heads for name in UndoneVector._fields)
