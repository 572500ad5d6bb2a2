"""A campaign half or wholly planned: days, what they mean for yards, base work and cost."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from runplanner.days import day_of
from runplanner.errors import PlanError
from runplanner.phrase import phrase
from runplanner.season.standing.containers import shared_out
from runplanner.season.standing.feeders import feeders_hold, first_short, lending
from runplanner.season.standing.house import BaseWork, Calls, House
from runplanner.season.standing.roster import Need, Roster
from runplanner.season.standing.stores import Stores, at_the_store, never_short
from runplanner.season.standing.told import Teller
from runplanner.season.standing.wet_boxes import spun_before_up
from runplanner.season.worth import Left
from runplanner.trips.ground import Ground
from runplanner.trips.judged import Judged
from runplanner.trips.shift import Judge
from runplanner.trips.stop import Day, Stop, Visit
from runplanner.visits.chain import Chain, ChainBrokenError, lacking_feeders
from runplanner.visits.stop import unkept

Key = tuple[int, int]
Thinner = Callable[[Stop], Stop | None]
NO_WORK = BaseWork((), (), 0)


class Score(NamedTuple):
    """How good a plan is; smaller is better, compared in this order."""

    lacking: int
    uncovered: int
    no_strips: int
    unfed_g: int
    not_off: int
    not_wet: int
    milli_cents: int


class Progress(NamedTuple):
    """How far one yard's chain has come; ``moved`` counts promised visits not kept."""

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

    def amiss(self) -> int:
        """Return the colonies that stand so in a plan half built, and in no plan at its end."""
        return self.lacking + self.starving

    def left(self) -> Left:
        """Return what of the yard's jobs is left."""
        return Left(self.no_strips, self.unfed_g, self.not_off)

    def owing(self) -> bool:
        """Tell whether a planner could still do something for the yard."""
        return bool(self.amiss() or self.no_strips or self.unfed_g or self.not_off or self.not_wet)


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
    """

    driven: Mapping[Key, Judged] = field(default_factory=dict)
    crews: Mapping[Key, tuple[int, ...]] = field(default_factory=dict)
    base: BaseWork = NO_WORK
    promised: tuple[Mapping[Key, tuple[Stop, ...]], ...] = ()
    move_cents: int = 0
    shifts: Mapping[Key, tuple[Day, tuple[int, ...]]] = field(default_factory=dict)
    shift_cents: int = 0


NO_SCORE = Score(0, 0, 0, 0, 0, 0, 0)


@dataclass(frozen=True)
class State:
    """Days by ``(day, truck)`` and everything that follows from them."""

    days: Mapping[Key, Judged]
    visits: tuple[tuple[Visit, ...], ...]
    progress: tuple[Progress, ...]
    base: BaseWork
    score: Score


class Keeper:
    """Makes states and keeps their rules: chains, crews, containers, boards, base work."""

    def __init__(self, ground: Ground, standing: Standing | None = None) -> None:
        self.ground = ground
        self.standing = standing or Standing()
        self.judge = Judge(ground)
        self.roster = Roster(ground, _indoors(self.standing.base))
        mixed = [(mix.end_min, mix.ml) for mix in self.standing.base.mixing]
        self.stores = Stores(ground, self.standing.driven, mixed)
        self.house = House(ground, self.roster, self.standing.base, self.stores.ready_ml)
        wished = {key: crew for key, (_, crew) in self.standing.shifts.items()}
        self.told = Teller(ground, self.standing.driven, self.standing.crews, wished)
        self._any_wet = any(due.wet for due in ground.dues)
        facts = self._gather(self.standing.driven.values())
        self._fed = [sum(one.stop.fed for one in done if one.stop.round == 1) for done in facts]
        chains = [
            Chain(ground.outfit, yard, due).read(done)
            for yard, due, done in zip(ground.outfit.yards, ground.dues, facts, strict=True)
        ]
        self._had = [chain.had for chain in chains]
        self.boards_over = tuple(chain.boards_over() for chain in chains)
        """By yard, boards that lie where colonies died: its last take-off lifts them too."""
        self.boards_in_use = ground.outfit.kit.boards_now - sum(
            self._boards_left(*one) for one in enumerate(facts)
        )
        """Boards that are there, but for those that no take-off to come brings home."""
        self._chains: dict[tuple[int, tuple[Visit, ...]], Progress | None] = {}
        self.seen: Callable[[State, Iterable[Key]], None] | None = None

    def _boards_left(self, yard: int, facts: tuple[Visit, ...]) -> int:
        """Return the boards that lie in a yard from which no take-off to come brings them home."""
        stops, due = [visit.stop for visit in facts], self.ground.dues[yard]
        on = self.ground.outfit.yards[yard].colonies - sum(stop.off for stop in stops)
        if due.boards and on > 0:
            return 0
        lifted = sum(stop.off + stop.over for stop in stops if not stop.other)
        return max(0, due.boards_on + sum(stop.boards for stop in stops) - lifted)

    def to_feed(self, yard: int) -> int:
        """Return the colonies of a yard to which nothing driven has brought its first syrup."""
        return max(0, self.ground.outfit.yards[yard].colonies - self._fed[yard])

    def days_for(self, state: State, stop: Stop, days: Iterable[int]) -> tuple[int, ...]:
        """Return the days, of some, on which a stop added to a state may find its feeders."""
        wanted = stop.fed if stop.round == 1 else stop.feeders
        if not wanted:
            return tuple(days)
        kit = self.ground.outfit.kit
        return lending(kit, state.days, self.standing.driven, wanted, days)

    def feed(self, state: State, yard: int, number: int, fed: int, from_min: int = 0) -> Stop:
        """Return the next feed of so many colonies, with feeders where theirs were fetched."""
        done = sum(visit.stop.fed for visit in state.visits[yard] if visit.stop.round == number)
        lack = lacking_feeders(self._had[yard], number, done, fed)
        return Stop(yard, round=number, fed=fed, from_min=from_min, feeders=lack)

    def empty(self) -> State:
        """Return the state in which nothing is planned beyond what has been driven.

        Raises:
            PlanError: When even so honey is left that can never be spun.
        """
        return self.settled(dict(self.standing.driven))

    def read(self, yard: int, visits: tuple[Visit, ...]) -> Progress | None:
        """Return how far a yard has come with these visits, or None for a broken chain."""
        key = (yard, visits)
        if key not in self._chains:
            if len(self._chains) > 100_000:
                self._chains.clear()
            self._chains[key] = self._read(yard, visits)
        return self._chains[key]

    def _read(self, yard: int, visits: tuple[Visit, ...]) -> Progress | None:
        outfit, due = self.ground.outfit, self.ground.dues[yard]
        try:
            chain = Chain(outfit, outfit.yards[yard], due).read(visits)
        except ChainBrokenError:
            return None
        colonies = outfit.yards[yard].colonies
        unfed = 0
        reached = colonies
        for done in range(due.rounds):
            fed = chain.fed[done + 1]
            unfed += (reached - fed) * due.lacks_g[done]
            reached = fed
        return Progress(
            self._moved(yard, visits),
            chain.late_cents,
            chain.boards_long_cents,
            chain.doubt_permille,
            chain.fed_early,
            chain.lacking,
            chain.uncovered,
            colonies if due.strips and chain.strips_day is None else 0,
            unfed,
            colonies - chain.off if due.take_off else 0,
            chain.wet.missing(),
            chain.starving,
        )

    def _moved(self, yard: int, visits: tuple[Visit, ...]) -> int:
        """Count the promised visits of a yard that are not kept."""
        promised = self.standing.promised[yard] if self.standing.promised else {}
        broken, stops = 0, dict[Key, list[Stop]]()
        for visit in visits:
            stops.setdefault((visit.day, visit.truck), []).append(visit.stop)
        for key, mine in promised.items():
            broken += unkept(mine, stops[key]) if key in stops else len(mine)
        return broken

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
            judged[key] = None if real is None else self.judge(real)
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
        on = dict.fromkeys(day for day, _ in news)
        if not all(self._day_holds(days, day) for day in on) or not self._kit_holds(days):
            return None
        base = self.base_work(days)
        if base is None:
            return None
        new = State(days, visits, progress, base, self._score(progress, days, base))
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
            read = self.read(yard, mine)
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
            trips = tuple(
                tuple(s for stop in trip if (s := keep(stop)) is not None) for trip in old.day.trips
            )
            if trips == old.day.trips:
                judged[key] = old
                continue
            trips = tuple(trip for trip in trips if trip)
            new = self.judge(old.day._replace(trips=trips)) if trips else None
            if new is not None:
                judged[key] = new
            elif trips:
                inside = {stop.yard for trip in old.day.trips for stop in trip}
                return self.drop(state, yards | inside)
        return self.settled(judged, frozenset(yards))

    def settled(self, days: dict[Key, Judged], gone: frozenset[int] = frozenset()) -> State:
        """Return the state of ``days``, without ``gone`` and the yards for which a rule breaks.

        A yard goes whole where its chain is broken, or where there is too little for a day.

        Raises:
            PlanError: When honey of days that are facts can never be spun.
        """
        visits = self._gather(days.values())
        progress = [self.read(yard, mine) for yard, mine in enumerate(visits)]
        broken = {yard for yard, read in enumerate(progress) if read is None}
        read_all = tuple(read for read in progress if read is not None)
        broken = broken or self._overdrawn(days)
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
        return State(days, visits, read_all, base, self._score(read_all, days, base))

    def _gather(self, days: Iterable[Judged]) -> tuple[tuple[Visit, ...], ...]:
        visits: list[list[Visit]] = [[] for _ in self.ground.outfit.yards]
        for judged in days:
            for visit in judged.visits:
                visits[visit.stop.yard].append(visit)
        return tuple(tuple(sorted(mine)) for mine in visits)

    def _score(
        self, progress: tuple[Progress, ...], days: Mapping[Key, Judged], base: BaseWork
    ) -> Score:
        """Return how good a state is; broken promises cost what the user says they do."""
        prices = self.ground.outfit.prices
        chains = sum(self.chain_milli_cents(one) for one in progress)
        moved = self._promise_cents(progress, days)
        cost = sum(judged.milli_cents for judged in days.values()) + base.milli_cents
        left = Left(
            sum(p.no_strips for p in progress),
            sum(p.unfed_g for p in progress),
            sum(p.not_off for p in progress),
        )
        return Score(
            sum(p.amiss() for p in progress),
            sum(p.uncovered for p in progress),
            *left.counted(prices),
            sum(p.not_wet for p in progress),
            cost + chains + moved * 1000 + left.milli_cents(prices),
        )

    def chain_milli_cents(self, progress: Progress) -> int:
        """Return what a yard's chain costs by itself: lateness, long boards, doubt."""
        prices = self.ground.outfit.prices
        cents = progress.late_cents + progress.boards_long_cents
        cents += progress.fed_early * prices.feed_early_cents
        return cents * 1000 + progress.doubt_permille * prices.unsure_cents

    def promise_cents(self, state: State) -> int:
        """Return the price of a state's broken promises, which steers but is on no bill."""
        return self._promise_cents(state.progress, state.days)

    def _promise_cents(self, progress: tuple[Progress, ...], days: Mapping[Key, Judged]) -> int:
        moved = sum(p.moved for p in progress) * self.standing.move_cents
        return moved + self._otherwise(days) * self.standing.shift_cents

    def _otherwise(self, days: Mapping[Key, Judged]) -> int:
        """Return how many promised days do not go out as promised."""
        promised = self.standing.shifts.items() if self.standing.shift_cents else ()
        return sum(key not in days or days[key].day != day for key, (day, _) in promised)

    def needs(self, days: Mapping[Key, Judged]) -> dict[int, tuple[Need, ...]]:
        """Return what people the shifts of every day want."""
        wanted: dict[int, list[Need]] = {}
        for key, judged in days.items():
            wanted.setdefault(key[0], []).append(self.told(key, judged).need)
        return {day: tuple(sorted(found)) for day, found in wanted.items()}

    def base_work(self, days: Mapping[Key, Judged]) -> BaseWork | None:
        """Return the mixing and spinning these days call for, or None where it cannot be."""
        told = [self.told(key, judged) for key, judged in days.items()]
        lots = [lot for one in told for lot in one.lots]
        loads = [load for one in told for load in one.loads]
        runs = {key: one.run for key, one in days.items()}
        base = self.house.work(Calls(self.needs(days), runs, lots, loads))
        if base is None or not self._any_wet:
            return base
        planned = [one for key, one in days.items() if key not in self.standing.driven]
        return base if spun_before_up(self.ground, planned, lots, base) else None

    def holds(self, days: Mapping[Key, Judged], day: int) -> bool:
        """Tell whether people, trailers, containers and kit suffice for ``days``, on ``day``."""
        return self._day_holds(days, day) and self._kit_holds(days)

    def _overdrawn(self, days: Mapping[Key, Judged]) -> set[int]:
        """Return the yards for which people, trailers, containers or kit are too few; or none.

        They are those given the feeders that lack, else those of the first truck's day planned
        that does not hold beside what is driven and planned before it.
        """
        driven = self.standing.driven
        planned = sorted(key for key in days if key not in driven)
        on = dict.fromkeys(day for day, _ in planned)
        if all(self._day_holds(days, day) for day in on) and self._kit_holds(days):
            return set()
        short = first_short(self.ground.outfit.kit, days, driven)
        if short is not None:
            return set(short)
        held = dict(driven)
        for key in planned:
            held[key] = days[key]
            if not self.holds(held, key[0]):
                return {visit.stop.yard for visit in days[key].visits}
        return set()

    def shared_out(self, days: Mapping[Key, Judged], day: int) -> Mapping[Key, Judged]:
        """Return the trucks' days of one day with the containers that each of them gets."""
        today = self._today(days, day)
        return shared_out(self.judge, today, self.standing.driven) or today

    def _today(self, days: Mapping[Key, Judged], day: int) -> dict[Key, Judged]:
        trucks = range(len(self.ground.outfit.trucks))
        return {(day, t): days[day, t] for t in trucks if (day, t) in days}

    def crewed(self, days: Mapping[Key, Judged], day: int) -> bool:
        """Tell whether there are people for all trucks that go out on a day."""
        today = {key: judged for key, judged in days.items() if key[0] == day}
        return self.roster.crews(day, self.needs(today).get(day, ())) is not None

    def _day_holds(self, days: Mapping[Key, Judged], day: int) -> bool:
        """Tell whether people, trailers and containers suffice on a day."""
        today = self._today(days, day)
        if not today:
            return True
        if not self.crewed(today, day):
            return False
        behind = [(key, self.ground.haulers[one.day.hauler].trailer) for key, one in today.items()]
        trailers = [(key, trailer) for key, trailer in behind if trailer]
        if len({trailer for _, trailer in trailers}) < len(trailers):
            return False
        if any(day in t.out_days for key, t in trailers if key not in self.standing.driven):
            return False
        return len(today) == 1 or shared_out(self.judge, today, self.standing.driven) is not None

    def _kit_holds(self, days: Mapping[Key, Judged]) -> bool:
        """Tell whether what is owned and in stock suffices all campaign long."""
        kit, driven = self.ground.outfit.kit, self.standing.driven
        boards = at_the_store({key: self.told(key, one).boards for key, one in days.items()})
        store = kit.boards_owned - self.ground.boards_out
        return (
            never_short(store, boards, kit.boards_lost, driven)
            and feeders_hold(kit, days, driven)
            and self.stores.suffice(days)
        )


def _indoors(base: BaseWork) -> set[tuple[int, int]]:
    """Return ``(day, person)`` of mixing and spinning that has begun."""
    mixed = {(day_of(mix.start_min), mix.person) for mix in base.mixing}
    return mixed | {(day_of(spin.start_min), who) for spin in base.spinning for who in spin.people}
