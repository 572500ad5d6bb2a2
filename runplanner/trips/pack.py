"""Does a trip's load fit, leg by leg?"""

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import compress
from typing import NamedTuple

from runplanner.haulage.deck import small_places, stacks
from runplanner.haulage.lots import Done, changes
from runplanner.haulage.stow import Change, Stowage, held, stow
from runplanner.haulage.tanks import Counts, Tanks, taken, weighed
from runplanner.trips.day import Trip
from runplanner.trips.ground import Ground
from runplanner.trips.task import Goods
from runplanner.visits.stop import Stop


class Leg(NamedTuple):
    """What is aboard on leaving a call."""

    boxes: int
    brood: int
    ml: int
    blocks: int
    boards: int
    strips: int
    feeders: int
    load_g: int
    places: int
    wet: int = 0


class Packed(NamedTuple):
    """A trip whose load fits: containers by kind, legs (after loading, after each stop)."""

    tanks: Counts
    legs: tuple[Leg, ...]
    places_max: int


class Bare(NamedTuple):
    """A trip's load without containers, and what is left for them.

    Args:
        legs: What is aboard, containers left out.
        ml: Syrup they must hold.
        spare_g: Mass left for them on the tightest leg; below 0 where none will do.
        least_g: Mass they must have for the steering axle.
        spare: Deck places left for them on the fullest leg.
        cell: Which floor the places have.
    """

    legs: tuple[Leg, ...]
    ml: int
    spare_g: int
    least_g: int
    spare: int
    cell: int

    def takes(self, tanks: Tanks) -> bool:
        """Tell whether the load rides with these containers."""
        return self.least_g <= tanks.empty_g <= self.spare_g and tanks.places <= self.spare


def goods(ground: Ground, stop: Stop) -> Goods:
    """Return what a stop uses up."""
    return ground.task(stop).used


def pack(ground: Ground, hauler: int, trip: Trip, left: Counts | None = None) -> Packed | None:
    """Return how the trip's load rides, or None where some leg is over a limit.

    Args:
        ground: The campaign.
        hauler: Who drives.
        trip: Where to, and for what.
        left: How many containers of each kind there are for it; None for all that are owned.
    """
    bare = _bare(ground, hauler, trip)
    if bare is None:
        return None
    for tanks in _offered(ground, hauler, bare, left):
        if _rides(ground, hauler, trip, bare, tanks.counts):
            legs = tuple(
                leg._replace(load_g=leg.load_g + tanks.empty_g, places=leg.places + tanks.places)
                for leg in bare.legs
            )
            return Packed(tanks.counts, legs, ground.places[hauler][bare.cell])
    return None


def _offered(ground: Ground, hauler: int, bare: Bare, left: Counts | None) -> Iterator[Tanks]:
    """Yield the containers worth trying that truck and trailer together bear.

    Behind a trailer, where none of those will do, such as ride part-filled with others beside:
    they are no lighter and no smaller, so not where even the lightest are too much.
    """
    whole = ground.tanks_of(left)[bare.cell](bare.ml)
    fit = False
    for tanks in whole:
        if bare.takes(tanks):
            fit = True
            yield tanks
    trains = ground.trains[hauler]
    if fit and bare.ml and trains is not None:
        more = ground.parted_of(left, trains[bare.cell], bare.cell)(bare.ml)
        yield from (tanks for tanks in more if tanks not in whole and bare.takes(tanks))


def without_honey(ground: Ground, hauler: int, trip: Trip) -> Leg:
    """Return what is aboard after a trip's stops, containers left out, once its honey is off."""
    load = _Load(ground, hauler, tuple(stop._replace(boxes=0) for stop in trip))
    for number in range(len(trip)):
        load.visit(number)
    return load.leg()


def fits(
    ground: Ground, hauler: int, trip: Trip, tanks: Counts, way: Stowage | None = None
) -> bool:
    """Tell whether the trip's load rides with just these containers, in a ``way`` told."""
    bare = _bare(ground, hauler, trip)
    if bare is None:
        return False
    places = tuple(under[bare.cell] for under in ground.tank_places)
    if not bare.takes(weighed(ground.outfit.containers, places, tanks)):
        return False
    trains = ground.trains[hauler]
    if way is None or trains is None:
        return _rides(ground, hauler, trip, bare, tanks)
    changed = _changes(ground, hauler, trip, bare)
    return held(trains[bare.cell], taken(ground.tanks_by_size[bare.cell], tanks), changed, way)


def stowage(ground: Ground, hauler: int, trip: Trip, tanks: Counts) -> Stowage | None:
    """Return how truck and trailer share a trip's load; None where no trailer is pulled."""
    trains = ground.trains[hauler]
    bare = None if trains is None else _bare(ground, hauler, trip)
    if trains is None or bare is None:
        return None
    changed = _changes(ground, hauler, trip, bare)
    return stow(trains[bare.cell], taken(ground.tanks_by_size[bare.cell], tanks), changed)


def tanks_behind(ground: Ground, tanks: Counts, way: Stowage) -> Counts:
    """Return how many containers of each kind ride on the trailer."""
    kinds = (kind for kind, _ in ground.tanks_by_size[0] for _ in range(tanks[kind]))
    behind = Counter(compress(kinds, way.behind))
    return tuple(behind[kind] for kind in range(len(tanks)))


def _rides(ground: Ground, hauler: int, trip: Trip, bare: Bare, counts: Counts) -> bool:
    """Tell whether truck and trailer, where one is pulled, can share a load that both bear."""
    trains = ground.trains[hauler]
    if trains is None:
        return True
    train, tanks = trains[bare.cell], taken(ground.tanks_by_size[bare.cell], counts)
    # What the truck bears alone goes on the truck, and nothing else need be looked at.
    empty_g, under = sum(tank.empty_g for tank in tanks), sum(tank.places for tank in tanks)
    if all(
        train.least_g <= leg.load_g + empty_g <= train.truck_g
        and leg.places + under <= train.truck_places
        for leg in bare.legs
    ):
        return True
    return stow(train, tanks, _changes(ground, hauler, trip, bare)) is not None


def _changes(ground: Ground, hauler: int, trip: Trip, bare: Bare) -> list[Change]:
    """Return what is loaded, and what changes at every stop, lot by lot."""
    stops = [
        Done(
            ground.outfit.yards[stop.yard],
            ground.high[hauler][ground.kinds[stop.yard]],
            stop.boxes,
            stop.brood,
            stop.wet_up,
            stop.wet_down,
            ground.task(stop).used.strips * ground.strip_g[stop.yard] if stop.strips else 0,
        )
        for stop in trip
    ]
    return changes(ground.outfit, stops, bare.legs)


def boards_to_load(used: Sequence[Goods]) -> int:
    """Return the boards to load so that they never run out, with those that come back.

    At a stop they are put on before any come back.
    """
    short = have = 0
    for one in used:
        short = max(short, one.boards - have)
        have += one.boards_back - one.boards
    return short


def cell_on(ground: Ground, trip: Trip) -> int:
    """Return which floor, of ``Ground.cells``, the deck places of this trip have."""
    aboard = {ground.kinds[s.yard] for s in trip if s.boxes or s.brood or s.wet_up or s.wet_down}
    return next(iter(aboard)) if len(aboard) == 1 else ground.cell(frozenset(aboard))


def _bare(ground: Ground, hauler: int, trip: Trip) -> Bare | None:
    """Return a trip's load without containers, or None where even that is over a limit."""
    cell = cell_on(ground, trip)
    least_g, most_g = ground.axle_g[hauler]
    spare_g, spare = most_g, ground.places[hauler][cell]
    load = _Load(ground, hauler, trip)
    legs: list[Leg] = []
    for limit in _limits(ground, hauler, trip):
        if legs and not load.visit(len(legs) - 1):
            return None
        leg = load.leg()
        spare_g = min(spare_g, limit - leg.load_g, most_g - leg.load_g)
        spare = min(spare, ground.places[hauler][cell] - leg.places)
        if spare_g < 0 or spare < 0:
            return None
        legs.append(leg)
    return Bare(tuple(legs), legs[0].ml, spare_g, least_g, spare, cell)


def _limits(ground: Ground, hauler: int, trip: Trip) -> list[int]:
    """Return the most load on every leg: the truck's, and what the yards at its ends let in."""
    most, into = ground.haulers[hauler].load_max_g, ground.load_into[hauler]
    gates = [into[stop.yard] for stop in trip]
    return [min(most, a, b) for a, b in zip([most, *gates], [*gates, most], strict=True)]


class _Load:
    """What is aboard as a trip goes on, containers left out."""

    __slots__ = (
        "blocks", "boards", "boxes", "brood", "columns", "dry_g", "feeders", "ground", "high",
        "ml", "stacked", "strips", "tasks", "trip", "wet",
    )  # fmt: skip

    def __init__(self, ground: Ground, hauler: int, trip: Trip) -> None:
        self.ground, self.high, self.trip = ground, ground.high[hauler], trip
        self.tasks = [ground.task(stop) for stop in trip]
        self.boxes = self.brood = self.stacked = 0
        self.ml = self.blocks = self.strips = self.feeders = 0
        for task in self.tasks:
            used = task.used
            self.ml += used.ml
            self.blocks += used.blocks
            self.strips += used.strips
            self.feeders += used.feeders
        self.boards = boards_to_load([task.used for task in self.tasks])
        self.wet = {stop.yard: stop.wet_up for stop in trip if stop.wet_up}
        self.dry_g = self._dry_g()
        self.columns: dict[int, int] = {}

    def _dry_g(self) -> int:
        kit = self.ground.outfit.kit
        return (
            self.boards * kit.board_g
            + self.blocks * kit.block_g
            + (self.strips and self._strips_g())
            + self.feeders * kit.feeder_g
            + sum(n * self.ground.brood_g[yard] for yard, n in self.wet.items())
        )

    def _strips_g(self) -> int:
        each = self.ground.strip_g
        tasks = zip(self.trip, self.tasks, strict=True)
        return sum(task.used.strips * each[stop.yard] for stop, task in tasks)

    def visit(self, number: int) -> bool:
        """Do what is done at a stop; False where its boxes are too tall to stand."""
        stop, task = self.trip[number], self.tasks[number]
        ml, blocks, boards, boards_back, strips, feeders, feeders_back = task.used
        self.ml -= ml
        self.blocks -= blocks
        self.boards += boards_back - boards
        self.strips -= strips
        self.feeders += feeders_back - feeders
        self.dry_g += task.gain_g
        if stop.wet_up or stop.wet_down:
            back = self.wet.get(stop.yard, 0) + stop.wet_down - stop.wet_up
            self.wet = {**self.wet, stop.yard: back}
        return not (stop.boxes or stop.brood) or self._stack(stop)

    def _stack(self, stop: Stop) -> bool:
        high = self.high[self.ground.kinds[stop.yard]]
        if not high:
            return False
        self.boxes += stop.boxes
        self.brood += stop.brood
        key = self.ground.columns[stop.yard]
        before = self.columns.get(key, 0)
        after = self.columns[key] = before + stop.boxes + stop.brood
        self.stacked += -(-after // high) - -(-before // high)
        return True

    def leg(self) -> Leg:
        """Return what is aboard now."""
        kit, feed = self.ground.outfit.kit, self.ground.outfit.feed
        places = self.stacked + small_places(kit, self.blocks, self.boards, self.feeders)
        places += sum(self._wet_columns(yard, n) for yard, n in self.wet.items() if n)
        load_g = self.dry_g - (-self.ml * feed.density_g_per_l // 1000)
        return Leg(
            self.boxes, self.brood, self.ml, self.blocks, self.boards, self.strips, self.feeders,
            load_g, places, sum(self.wet.values()),
        )  # fmt: skip

    def _wet_columns(self, yard: int, boxes: int) -> int:
        """Return the columns of one yard's wet boxes, which stand by themselves."""
        return stacks(boxes, self.high[self.ground.kinds[yard]])
