"""What a hauler's trips load by quick sums, and whether it rides: drives are left out.

Loads are masses alone, and decks are filled by parts.
"""

from collections.abc import Collection, Sequence
from itertools import pairwise
from typing import NamedTuple

from runplanner.days import NEVER
from runplanner.season.quick.clock import Node
from runplanner.season.quick.facts import Facts
from runplanner.trips.ground import Ground
from runplanner.trips.ride import Way
from runplanner.visits.stop import Stop, first_at_last_yard

FULL = 1 + 1e-9
"""The whole deck, with a grain for sums of fractions."""
MOST_KNOWN = 30_000
"""Trips, or days of them, remembered before all are forgotten."""


class Laid(NamedTuple):
    """One trip by itself.

    Args:
        nodes: Its calls.
        spare: For every drive after the loading, the spare mass up to it and from it on.
        deck: The part of the deck that its boxes fill.
        work_min: Minutes of all calls.
    """

    nodes: tuple[Node, ...]
    spare: tuple[tuple[int, int], ...]
    deck: float
    work_min: int


class Loads:
    """What one hauler would load for a day's stops; it remembers the trips it has laid out."""

    def __init__(
        self, ground: Ground, way: Way, stops: Sequence[Stop], facts: Sequence[Facts]
    ) -> None:
        outfit, haul, day = ground.outfit, ground.haulers[way.hauler], way.day
        self.facts = facts
        self._yards = [stop.yard for stop in stops]
        self._twice = len(set(self._yards)) < len(self._yards)
        self._fixed = [ground.fixed_min[yard] for yard in self._yards]
        self.work = [ground.stop_min(stop, haul.crew) for stop in stops]
        self.nodes: list[Node] = [
            (fact.place, work, fact.spans, fact.settled, fact.gone_by)
            for fact, work in zip(facts, self.work, strict=True)
        ]
        self.gates = [ground.load_into[way.hauler][stop.yard] for stop in stops]
        self.most_g = haul.load_max_g
        self.deck = [_share_of_deck(ground, way.hauler, stop) for stop in stops]
        self.crew = haul.crew
        self._pace = outfit.pace
        self._store = outfit.feed_store.place
        self._house = outfit.honey_house.base.place
        self._store_spans = ground.store_spans[day]
        self._house_spans, self._both_spans = ground.house_spans[day], ground.both_spans[day]
        self._tanks, self._tanks_g = ground.tanks[ground.cell(frozenset())], {0: 0}
        self._trips: dict[tuple[int, ...], Laid | None] = {}

    def forget(self) -> None:
        """Let go of the trips laid out so far."""
        self._trips.clear()

    def refuse(self, trips: Collection[tuple[int, ...]]) -> None:
        """Note trips that do not ride after all."""
        for trip in trips:
            self._trips[trip] = None

    def laid(self, trip: tuple[int, ...]) -> Laid | None:
        """Return a trip by itself, or None where its load does not ride."""
        if trip not in self._trips:
            if len(self._trips) > MOST_KNOWN:
                self._trips.clear()
            self._trips[trip] = self._laid(trip)
        return self._trips[trip]

    def _tank_g(self, ml: int) -> int:
        """Return the mass of the lightest containers for so much syrup."""
        if ml not in self._tanks_g:
            found = (tanks.empty_g for tanks in self._tanks(ml))
            self._tanks_g[ml] = min(found, default=self.most_g)
        return self._tanks_g[ml]

    def _load_min(self, ml: int) -> int:
        """Return the minutes of a trip's loading."""
        return self._pace.load_min - (-ml // self._pace.pump_ml_per_min)

    def _laid(self, trip: tuple[int, ...]) -> Laid | None:
        facts = self.facts
        ml = ready = load_g = 0
        deck = 0.0
        for i in trip:
            fact = facts[i]
            ml += fact.ml
            load_g += fact.in_g
            deck += self.deck[i]
            ready = max(ready, fact.goods_min)
        spare = self._spare(trip, load_g + self._tank_g(ml))
        if spare is None or deck > FULL or self._too_early(trip):
            return None
        loading = (self._store, self._load_min(ml), self._store_spans, ready, NEVER)
        nodes = (loading, *self._calls(trip), *self._ends(trip))
        return Laid(nodes, spare, deck, sum(node[1] for node in nodes))

    def _calls(self, trip: tuple[int, ...]) -> list[Node]:
        """Return the calls at yards; several on end of one yard are set up for once."""
        nodes = [self.nodes[i] for i in trip]
        if self._twice:
            for at, (before, i) in enumerate(pairwise(trip), 1):
                if self._yards[before] == self._yards[i]:
                    place, work, spans, settled, shuts = nodes[at]
                    nodes[at] = (place, work - self._fixed[i], spans, settled, shuts)
        return nodes

    def _too_early(self, trip: tuple[int, ...]) -> bool:
        """Tell whether a yard that must be the last of its trip comes before another."""
        last = first_at_last_yard([self._yards[i] for i in trip])
        return any(self.facts[i].last for i in trip[:last])

    def _ends(self, trip: tuple[int, ...]) -> list[Node]:
        """Return the calls at a trip's end; where there are two, the first unloads all."""
        facts, pace = self.facts, self._pace
        boxes = sum(facts[i].boxes for i in trip)
        minutes = pace.unloading_min(boxes, self.crew)
        if not any(facts[i].honey for i in trip):
            return [(self._store, minutes, self._store_spans, 0, NEVER)]
        if not any(facts[i].store for i in trip):
            return [(self._house, minutes, self._house_spans, 0, NEVER)]
        if self._house == self._store:
            return [(self._store, minutes, self._both_spans, 0, NEVER)]
        first = (self._house, minutes, self._house_spans, 0, NEVER)
        return [first, (self._store, pace.unload_min, self._store_spans, 0, NEVER)]

    def _spare(self, trip: tuple[int, ...], load_g: int) -> tuple[tuple[int, int], ...] | None:
        """Return, for every drive of a trip, the spare mass up to it and from it on."""
        facts, gates, most = self.facts, self.gates, self.most_g
        gate = least = most
        before: list[int] = []
        after: list[int] = []
        for i in trip:
            limit = gates[i]
            room = (min(limit, gate)) - load_g
            least = min(least, room)
            before.append(least)
            after.append(room)
            load_g += facts[i].out_g - facts[i].in_g
            gate = min(most, limit)
        room = gate - load_g
        before.append(min(least, room))
        after.append(room)
        if before[-1] < 0:
            return None
        for k in range(len(after) - 2, -1, -1):
            after[k] = min(after[k], after[k + 1])
        return tuple(zip(before, after, strict=True))


def _share_of_deck(ground: Ground, hauler: int, stop: Stop) -> float:
    """Return the part of the deck's places that a stop's boxes fill."""
    boxes = stop.boxes + stop.brood + stop.wet_down
    kind = ground.kinds[stop.yard]
    room = ground.places[hauler][kind] * ground.high[hauler][kind]
    return (boxes / room if room else 2.0) if boxes else 0.0
