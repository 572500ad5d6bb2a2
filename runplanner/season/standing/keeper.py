"""Makes states from days, and keeps their rules."""

from collections.abc import Callable, Iterable, Mapping

from runplanner.errors import PlanError
from runplanner.phrase import phrase
from runplanner.season.standing.base_days import Calls
from runplanner.season.standing.base_work import NO_WORK, BaseWork
from runplanner.season.standing.chains import Chains, by_yard
from runplanner.season.standing.holding import Holding
from runplanner.season.standing.house import House
from runplanner.season.standing.roster import Roster
from runplanner.season.standing.scoring import Scoring
from runplanner.season.standing.state import NO_SCORE, Progress, Standing, State
from runplanner.season.standing.stores import Stores, out_and_in
from runplanner.season.standing.told import Teller
from runplanner.season.standing.wet_boxes import spun_before_up
from runplanner.trips.day import Day, Key, sifted
from runplanner.trips.ground import Ground
from runplanner.trips.judge import Judge
from runplanner.trips.judged import Judged
from runplanner.visits.stop import Stop, Visit

Thinner = Callable[[Stop], Stop | None]


class Keeper:
    """Makes states and keeps their rules: chains, crews, containers, boards, base work.

    Args:
        ground: The campaign.
        standing: What has been driven, and what was promised.
        judge: Who times and loads days, where rules of a day are not all.
    """

    def __init__(
        self, ground: Ground, standing: Standing | None = None, judge: Judge | None = None
    ) -> None:
        self.ground = ground
        self.standing = standing or Standing()
        self.judge = judge or Judge(ground)
        driven, base = self.standing.driven, self.standing.base
        self.roster = Roster(ground, base)
        self.stores = Stores(ground, driven, [(mix.end_min, mix.ml) for mix in base.mixing])
        self._house = House(ground, self.roster, self.stores.ready_ml, self.standing.spinning)
        wished = {key: crew for key, (_, crew) in self.standing.shifts.items()}
        self._told = Teller(ground, driven, self.standing.crews, wished)
        self.chains = Chains(ground, driven.values(), self.standing.promised)
        self.holding = Holding(self.judge, driven, self._told, self.roster, self.stores)
        self.scoring = Scoring(ground.outfit.prices, self.standing)
        self._any_wet = any(due.wet for due in ground.dues)
        self.seen: Callable[[State, Iterable[Key]], None] | None = None

    def empty(self) -> State:
        """Return the state in which nothing is planned beyond what has been driven.

        Raises:
            PlanError: When even so honey is left that can never be spun.
        """
        return self.settled(dict(self.standing.driven))

    def replace(self, state: State, key: Key, day: Day | None) -> State | None:
        """Return the state with one truck's day replaced, or None where a rule breaks."""
        return self.replace_all(state, {key: day})

    def replace_all(self, state: State, news: Mapping[Key, Day | None]) -> State | None:
        """Return the state with some trucks' days replaced, or None where a rule breaks."""
        judged: dict[Key, Judged | None] = {}
        for key, day in news.items():
            if key in self.standing.driven:
                return None
            real = day if day is not None and day.trips else None
            judged[key] = None if real is None else self.judge(self.chains.spared(real))
            if real is not None and judged[key] is None:
                return None
        return self._replace(state, judged)

    def _replace(self, state: State, news: Mapping[Key, Judged | None]) -> State | None:
        days = dict(state.days)
        for key, judged in news.items():
            days.pop(key, None)
            if judged is not None:
                days[key] = judged
        chained = self._rechain(state, news)
        if chained is None:
            return None
        visits, progress = chained
        if not self.holding.holds(days, dict.fromkeys(day for day, _ in news)):
            return None
        base = self.base_work(days)
        if base is None:
            return None
        new = State(days, visits, progress, base, self.scoring.score(progress, days, base))
        if self.seen is not None:
            self.seen(new, news)
        return new

    def _rechain(
        self, state: State, news: Mapping[Key, Judged | None]
    ) -> tuple[tuple[tuple[Visit, ...], ...], tuple[Progress, ...]] | None:
        visits, progress = list(state.visits), list(state.progress)
        coming: dict[int, list[Visit]] = {}
        for key, new in news.items():
            old = state.days.get(key)
            for visit in new.visits if new else ():
                coming.setdefault(visit.stop.yard, []).append(visit)
            for visit in old.visits if old else ():
                coming.setdefault(visit.stop.yard, [])
        for yard, fresh in coming.items():
            kept = [v for v in visits[yard] if (v.day, v.truck) not in news]
            mine = tuple(sorted(kept + fresh))
            if mine == visits[yard]:
                continue
            read = self.chains.read(yard, mine)
            if read is None:
                return None
            visits[yard], progress[yard] = mine, read
        return tuple(visits), tuple(progress)

    def drop(self, state: State, yards: set[int]) -> State:
        """Return the state without any visit to ``yards``; more go where that breaks theirs."""
        return self.thin(state, lambda stop: None if stop.yard in yards else stop, yards)

    def thin(self, state: State, keep: Thinner, yards: set[int]) -> State:
        """Return the state with every stop put through ``keep``, which takes work of ``yards``.

        Where a day or a chain does not survive that, the yards in it are dropped whole.
        """
        judged = {}
        for key, old in state.days.items():
            if key in self.standing.driven:
                judged[key] = old
                continue
            thin = sifted(old.day, keep)
            if thin == old.day:
                judged[key] = old
                continue
            new = self.judge(self.chains.spared(thin)) if thin.trips else None
            if new is not None:
                judged[key] = new
            elif thin.trips:
                inside = {stop.yard for trip in old.day.trips for stop in trip}
                return self.drop(state, yards | inside)
        return self.settled(judged, frozenset(yards))

    def settled(self, days: dict[Key, Judged], gone: frozenset[int] = frozenset()) -> State:
        """Return the state of ``days``, without ``gone`` and the yards for which a rule breaks.

        A yard goes whole where its chain is broken, or where there is too little for a day.

        Raises:
            PlanError: When honey of days that are facts can never be spun.
        """
        visits = by_yard(self.ground, days.values())
        progress = [self.chains.read(yard, mine) for yard, mine in enumerate(visits)]
        broken = {yard for yard, read in enumerate(progress) if read is None}
        read_all = tuple(read for read in progress if read is not None)
        broken = broken or self.holding.overdrawn(days)
        facts_alone = days.keys() == self.standing.driven.keys()
        base = self.base_work(days) if facts_alone or not broken else None
        if base is None and not facts_alone:
            broken = broken or set(range(len(visits)))
            rest = State(days, visits, (), NO_WORK, NO_SCORE)
            return self.drop(rest, set(gone | broken))
        if base is None:
            raise PlanError(
                phrase(
                    "The honey waiting in the honey house, or on its way there, can never be "
                    "spun: give people who spin, a pace above 0, hours, and room for what waits."
                )
            )
        return State(days, visits, read_all, base, self.scoring.score(read_all, days, base))

    def base_work(self, days: Mapping[Key, Judged]) -> BaseWork | None:
        """Return the mixing and spinning these days call for, or None where it cannot be."""
        told = {key: self._told(key, judged) for key, judged in days.items()}
        lots = [lot for one in told.values() for lot in one.lots]
        syrup = out_and_in({key: one.syrup for key, one in told.items()})
        runs = {key: one.run for key, one in days.items()}
        base = self._house.work(Calls(self.holding.needs(days), runs, lots, *syrup))
        if base is None or not self._any_wet:
            return base
        planned = [one for key, one in days.items() if key not in self.standing.driven]
        line = self._house.in_line(lots)
        return base if spun_before_up(self.ground, planned, line, base) else None
