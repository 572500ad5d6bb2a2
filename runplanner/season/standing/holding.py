"""Whether people, trailers, containers, kit and stocks suffice for days."""

from collections.abc import Iterable, Mapping

from runplanner.season.standing.containers import shared_out
from runplanner.season.standing.feeders import feeders_hold, first_short, lending
from runplanner.season.standing.roster import Need, Roster
from runplanner.season.standing.stores import Stores, at_the_store, never_short
from runplanner.season.standing.told import Teller
from runplanner.trips.day import Key
from runplanner.trips.judge import Judge
from runplanner.trips.judged import Judged
from runplanner.visits.stop import Stop


class Holding:
    """Asks of days by ``(day, truck)`` whether there is enough of all that they want.

    Args:
        judge: Who times and loads days.
        driven: Days that are facts.
        told: What days ask.
        roster: People.
        stores: What is used up.
    """

    def __init__(
        self,
        judge: Judge,
        driven: Mapping[Key, Judged],
        told: Teller,
        roster: Roster,
        stores: Stores,
    ) -> None:
        self._judge, self._ground = judge, judge.ground
        self._driven, self._told = driven, told
        self._roster, self._stores = roster, stores

    def holds(self, days: Mapping[Key, Judged], on: Iterable[int]) -> bool:
        """Tell whether people, trailers and containers suffice ``on`` some days, and kit always."""
        return all(self._day_holds(days, day) for day in on) and self.kit_holds(days)

    def needs(self, days: Mapping[Key, Judged]) -> dict[int, tuple[Need, ...]]:
        """Return what people the shifts of every day want."""
        wanted: dict[int, list[Need]] = {}
        for key, judged in days.items():
            need = self._roster.timed(key[0], self._told(key, judged).need, judged.run)
            wanted.setdefault(key[0], []).append(need)
        return {day: tuple(sorted(found)) for day, found in wanted.items()}

    def crewed(self, days: Mapping[Key, Judged], day: int) -> bool:
        """Tell whether there are people for all trucks that go out on a day."""
        today = {key: judged for key, judged in days.items() if key[0] == day}
        return self._roster.crews(day, self.needs(today).get(day, ())) is not None

    def shared_out(self, days: Mapping[Key, Judged], day: int) -> Mapping[Key, Judged]:
        """Return the trucks' days of one day with the containers that each of them gets."""
        today = self._today(days, day)
        return shared_out(self._judge, today, self._driven) or today

    def _today(self, days: Mapping[Key, Judged], day: int) -> dict[Key, Judged]:
        trucks = range(len(self._ground.outfit.trucks))
        return {(day, t): days[day, t] for t in trucks if (day, t) in days}

    def days_for(
        self, days: Mapping[Key, Judged], stop: Stop, among: Iterable[int]
    ) -> tuple[int, ...]:
        """Return the days, of some, on which a stop added to ``days`` may find its feeders."""
        wanted = stop.fed if stop.round == 1 else stop.feeders
        if not wanted:
            return tuple(among)
        kit = self._ground.outfit.kit
        return lending(kit, days, self._driven, wanted, among)

    def overdrawn(self, days: Mapping[Key, Judged]) -> set[int]:
        """Return the yards for which people, trailers, containers or kit are too few; or none.

        They are those given the feeders that lack, else those of the first truck's day planned
        that does not hold beside what is driven and planned before it.
        """
        driven = self._driven
        planned = sorted(key for key in days if key not in driven)
        if self.holds(days, dict.fromkeys(day for day, _ in planned)):
            return set()
        short = first_short(self._ground.outfit.kit, days, driven)
        if short is not None:
            return set(short)
        held = dict(driven)
        for key in planned:
            held[key] = days[key]
            if not self.holds(held, [key[0]]):
                return {visit.stop.yard for visit in days[key].visits}
        return set()

    def _day_holds(self, days: Mapping[Key, Judged], day: int) -> bool:
        """Tell whether people, trailers and containers suffice on a day."""
        today = self._today(days, day)
        if not today:
            return True
        if not self.crewed(today, day):
            return False
        behind = [(key, self._ground.haulers[one.day.hauler].trailer) for key, one in today.items()]
        trailers = [(key, trailer) for key, trailer in behind if trailer]
        if len({trailer for _, trailer in trailers}) < len(trailers):
            return False
        if any(day in t.out_days for key, t in trailers if key not in self._driven):
            return False
        return len(today) == 1 or shared_out(self._judge, today, self._driven) is not None

    def kit_holds(self, days: Mapping[Key, Judged]) -> bool:
        """Tell whether what is owned and in stock suffices all campaign long."""
        return self.kit_circulates(days) and self._stores.suffice(days)

    def kit_circulates(self, days: Mapping[Key, Judged]) -> bool:
        """Tell whether boards and feeders are back at the store for every load of them."""
        kit, driven = self._ground.outfit.kit, self._driven
        boards = at_the_store({key: self._told(key, one).boards for key, one in days.items()})
        store = kit.boards_owned - self._ground.boards_out
        found = never_short(store, boards, kit.boards_lost, driven)
        return found and feeders_hold(kit, days, driven)
