"""A campaign half or wholly planned, as values: days, what they mean for yards, base work, cost."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from runplanner.daybook.plan import Tally
from runplanner.outfit.outfit import Prices
from runplanner.season.standing.base_work import NO_WORK, BaseWork
from runplanner.season.standing.floor import Spin
from runplanner.season.worth import Left
from runplanner.trips.day import Day, Key
from runplanner.trips.judged import Judged
from runplanner.visits.stop import Stop, Visit


class UndoneVector(NamedTuple):
    """What a plan leaves, compared in this order, smaller is better.

    Colonies that no plan may leave so at its end, colony-days without cover, colonies without
    strips, grams not fed, colonies not taken off, and those whose wet boxes are not put up or
    fetched.
    """

    lacking: int = 0
    uncovered: int = 0
    no_strips: int = 0
    unfed_g: int = 0
    not_off: int = 0
    not_wet: int = 0

    def jobs(self) -> Left:
        """Return what of this are jobs that may have a stated worth."""
        return Left(self.no_strips, self.unfed_g, self.not_off)

    def counted(self, prices: Prices) -> "UndoneVector":
        """Return what of this counts as undone: all but jobs with a stated worth."""
        jobs = self.jobs().counted(prices)
        return UndoneVector(self.lacking, self.uncovered, *jobs, self.not_wet)

    def tally(self) -> Tally:
        """Return this as plans tell it."""
        return Tally(self.uncovered, *self.jobs())


def undone_of(progress: Iterable["Progress"]) -> UndoneVector:
    """Return what several yards leave together."""
    parts = (one.undone() for one in progress)
    return UndoneVector(*(sum(each) for each in zip(UndoneVector(), *parts, strict=True)))


class Score(NamedTuple):
    """How good a plan is; smaller is better: what it leaves before what it costs."""

    undone: UndoneVector
    milli_cents: int


class Progress(NamedTuple):
    """How far one yard's chain has come; ``moved`` counts promised visits not kept.

    ``waiting`` are colonies off that no syrup comes to: when their cover ends, and how many.
    """

    moved: int
    late_cents: int
    boards_long_cents: int
    doubt_permille: int
    fed_early: int
    lacking: int
    uncovered: int
    no_strips: int
    unfed_g: int
    not_off: int
    not_wet: int = 0
    starving: int = 0
    waiting: tuple[tuple[int, int], ...] = ()

    def amiss(self) -> int:
        """Return the colonies that stand so in a plan half built, and in no plan at its end."""
        return self.lacking + self.starving

    def undone(self) -> UndoneVector:
        """Return what is left at the yard, with or without a stated worth."""
        return UndoneVector(
            self.amiss(), self.uncovered, self.no_strips, self.unfed_g, self.not_off, self.not_wet
        )

    def owing(self) -> bool:
        """Tell whether a planner could still do something for the yard."""
        return any(self.undone()._replace(uncovered=0))


@dataclass(frozen=True)
class Standing:
    """Where the season stands: what has been driven, and what was promised.

    Args:
        driven: Days that are facts, by ``(day, truck)``.
        crews: Who was out on them (people by index).
        base: Mixing and spinning that are facts.
        promised: Visits people count on, by yard and then by ``(day, truck)``.
        move_cents: What it costs to break one such promise.
        shifts: Trucks' days as they were promised, and by whom (people by index).
        shift_cents: What it costs to send such a day out otherwise.
        spinning: Spinning as it was promised, by whom.
    """

    driven: Mapping[Key, Judged] = field(default_factory=dict)
    crews: Mapping[Key, tuple[int, ...]] = field(default_factory=dict)
    base: BaseWork = NO_WORK
    promised: tuple[Mapping[Key, tuple[Stop, ...]], ...] = ()
    move_cents: int = 0
    shifts: Mapping[Key, tuple[Day, tuple[int, ...]]] = field(default_factory=dict)
    shift_cents: int = 0
    spinning: tuple[Spin, ...] = ()


NO_SCORE = Score(UndoneVector(), 0)


@dataclass(frozen=True)
class State:
    """Days by ``(day, truck)`` and everything that follows from them."""

    days: Mapping[Key, Judged]
    visits: tuple[tuple[Visit, ...], ...]
    progress: tuple[Progress, ...]
    base: BaseWork
    score: Score

    def runs_out(self, yard: int) -> bool:
        """Tell whether the cover of colonies whose take-off has been driven ends unfed."""
        driven = (visit.fact and visit.stop.off for visit in self.visits[yard])
        return self.progress[yard].uncovered > 0 and any(driven)
