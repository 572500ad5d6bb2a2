"""How far the chains of yards have come, by what was driven and by visits still planned."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby

from runplanner.season.standing.state import Progress
from runplanner.trips.day import Day, Key, Trip
from runplanner.trips.ground import Ground
from runplanner.trips.judged import Judged
from runplanner.visits.chain import Chain, ChainBrokenError, lacking_feeders
from runplanner.visits.stop import Stop, Visit, unkept

REMEMBERED = 100_000
"""Chains kept in mind before all are forgotten."""


def by_yard(ground: Ground, days: Iterable[Judged]) -> tuple[tuple[Visit, ...], ...]:
    """Return every yard's visits on some days, in their order."""
    visits: list[list[Visit]] = [[] for _ in ground.outfit.yards]
    for judged in days:
        for visit in judged.visits:
            visits[visit.stop.yard].append(visit)
    return tuple(tuple(sorted(mine)) for mine in visits)


def _may_spare(trip: Trip) -> bool:
    """Tell whether a trip has stops one after another at a yard, blocks and syrup among them.

    Asked at every try, and hardly ever true.
    """
    blocks = fed = beside = False
    before = -1
    for stop in trip:
        blocks = blocks or bool(stop.off and stop.blocks)
        fed = fed or bool(stop.fed and stop.round == 1)
        beside = beside or stop.yard == before
        before = stop.yard
    return blocks and fed and beside


class Chains:
    """Reads yards' chains, and remembers them.

    Args:
        ground: The campaign.
        driven: Days that are facts.
        promised: Visits people count on, by yard and then by day and truck; or nothing.
    """

    def __init__(
        self,
        ground: Ground,
        driven: Iterable[Judged] = (),
        promised: Sequence[Mapping[Key, tuple[Stop, ...]]] = (),
    ) -> None:
        self._ground, self._promised = ground, promised
        facts = by_yard(ground, driven)
        self._fed = [sum(one.stop.fed for one in done if one.stop.round == 1) for done in facts]
        chains = [
            Chain(ground.outfit, yard, due).read(done)
            for yard, due, done in zip(ground.outfit.yards, ground.dues, facts, strict=True)
        ]
        self._had = [chain.had for chain in chains]
        self.waiting = tuple(chain.waiting for chain in chains)
        """By yard, when cover ends, and of how many, that driven work leaves without syrup."""
        self.boards_over = tuple(chain.boards.over(chain.off) for chain in chains)
        """By yard, boards that lie where colonies died: its last take-off lifts them too."""
        self.boards_in_use = ground.outfit.kit.boards_now - sum(
            chain.boards.lie()
            for chain in chains
            if not chain.due.boards or chain.off >= chain.yard.colonies
        )
        """Boards that are there, but for those that no take-off to come brings home."""
        self._known: dict[tuple[int, tuple[Visit, ...]], Progress | None] = {}

    def to_feed(self, yard: int) -> int:
        """Return the colonies of a yard to which nothing driven has brought its first syrup."""
        return max(0, self._ground.outfit.yards[yard].colonies - self._fed[yard])

    def spared(self, day: Day) -> Day:
        """Return a day without blocks for colonies that the same stop feeds, no drive between."""
        if not any(map(_may_spare, day.trips)):
            return day
        return day._replace(trips=tuple(self._spared(trip) for trip in day.trips))

    def _spared(self, trip: Trip) -> Trip:
        """Return a trip whose syrup, where it goes with take-offs, spares them their blocks.

        It comes once all of the yard is off, and to the first that came off, first.
        """
        found: list[Stop] = []
        for yard, stops in groupby(trip, key=lambda stop: stop.yard):
            here, colonies = list(stops), self._ground.outfit.yards[yard].colonies
            first = sum(stop.fed for stop in here if stop.round == 1)
            fed = first and colonies - self.to_feed(yard) + first
            after = colonies - sum(stop.off for stop in here)
            for stop in here:
                before, after = after, after + stop.off
                most = (after - max(before, min(after, fed))) * self._ground.outfit.rules.blocks
                spare = bool(first and stop.off and stop.blocks > most)
                found.append(stop._replace(blocks=most) if spare else stop)
        return tuple(found)

    def feed(
        self, yard: int, visits: Sequence[Visit], number: int, fed: int, from_min: int = 0
    ) -> Stop:
        """Return the next feed of so many colonies, with feeders where theirs were fetched."""
        done = sum(visit.stop.fed for visit in visits if visit.stop.round == number)
        lack = lacking_feeders(self._had[yard], number, done, fed)
        return Stop(yard, round=number, fed=fed, from_min=from_min, feeders=lack)

    def read(self, yard: int, visits: tuple[Visit, ...]) -> Progress | None:
        """Return how far a yard has come with these visits, or None for a broken chain."""
        key = (yard, visits)
        if key not in self._known:
            if len(self._known) > REMEMBERED:
                self._known.clear()
            self._known[key] = self._read(yard, visits)
        return self._known[key]

    def _read(self, yard: int, visits: tuple[Visit, ...]) -> Progress | None:
        outfit, due = self._ground.outfit, self._ground.dues[yard]
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
            chain.waiting,
        )

    def _moved(self, yard: int, visits: tuple[Visit, ...]) -> int:
        """Count the promised visits of a yard that are not kept."""
        promised = self._promised[yard] if self._promised else {}
        broken, stops = 0, dict[Key, list[Stop]]()
        for visit in visits:
            stops.setdefault((visit.day, visit.truck), []).append(visit.stop)
        for key, mine in promised.items():
            broken += unkept(mine, stops[key]) if key in stops else len(mine)
        return broken
