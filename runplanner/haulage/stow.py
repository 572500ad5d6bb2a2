"""How a load goes on truck and trailer: each within its own mass and on its own deck.

A tank goes whole on one of them.  Everything else goes on the one that is filled first, as
long as that has mass and places left, and then on the other; what a stop uses up comes off the
one filled first.  Nothing is moved over on the way.  That much a driver can be told.
"""

from collections.abc import Hashable, Iterator, Sequence
from typing import Final, NamedTuple

from runplanner.outfit.stores import Container


class Lot(NamedTuple):
    """Goods of one sort: ``each_g`` a piece, ``per_place`` of one pile on a deck place.

    ``more_g`` is what a piece may weigh beyond that, unknown to whoever loads it.
    """

    pile: Hashable
    number: int
    each_g: int
    per_place: int
    more_g: int = 0


class Change(NamedTuple):
    """What a call changes: lots that go off and come on; syrup and strips as they are after it."""

    off: tuple[Lot, ...]
    on: tuple[Lot, ...]
    ml: int
    cab_g: int


class Tank(NamedTuple):
    """One container: its empty mass, what it holds, the deck places under it."""

    empty_g: int
    holds_ml: int
    places: int


def by_size(container: Container) -> tuple[int, str]:
    """Sort key of containers: the largest first."""
    return -container.holds_ml, container.id


class Train(NamedTuple):
    """What truck and trailer bear: grams and deck places, ``least_g`` what the truck must."""

    truck_g: int
    truck_places: int
    trailer_g: int
    trailer_places: int
    least_g: int
    density_g_per_l: int


class Strain(NamedTuple):
    """What is too much on truck and on trailer after a call; the grams its axles want more.

    Nothing of it is below 0.
    """

    grams: tuple[int, int]
    places: tuple[int, int]
    light_g: int


class Order(NamedTuple):
    """Whether the trailer is filled before the truck, as the trip is loaded and at its stops."""

    loading: bool
    stops: bool


class Stowage(NamedTuple):
    """One way of loading a trip.

    Args:
        behind: Tanks on the trailer, of those given.
        order: Which vehicle is filled first.
        ml_behind: Syrup on the trailer after every call.
        legs: Grams on truck and trailer after every call.
    """

    behind: tuple[bool, ...]
    order: Order
    ml_behind: tuple[int, ...]
    legs: tuple[tuple[int, int], ...]


ORDERS: Final = (Order(True, True), Order(False, False), Order(False, True), Order(True, False))
FEW: Final = 6
"""Up to so many tanks every number of them on one vehicle is tried; of more each quarter, and
where one kind ends."""


def stow(train: Train, tanks: Sequence[Tank], calls: Sequence[Change]) -> Stowage | None:
    """Return the first way of loading a trip that holds on every leg, or None.

    Args:
        train: What truck and trailer bear.
        tanks: Containers, the largest first; the first so many of them go on one vehicle.
        calls: The loading, then every stop.
    """
    # Where nothing is loaded but tanks, both orders of loading are one.
    orders = ORDERS if calls[0].on or tanks else ORDERS[:2]
    for behind in _splits(tanks):
        for order in orders:
            found = _stowed(train, tanks, calls, behind, order)
            if found is not None:
                return found
    return None


def _splits(tanks: Sequence[Tank]) -> Iterator[tuple[bool, ...]]:
    """Yield which tanks go on the trailer: none, the first ones, all, and the last ones."""
    count = len(tanks)
    if count <= FEW:
        numbers = list(range(count + 1))
    else:
        quarters = {count * quarter // 4 for quarter in range(5)}
        ends = {at for at in range(1, count) if tanks[at] != tanks[at - 1]}
        numbers = sorted(quarters | ends)
    for number in numbers:
        yield (True,) * number + (False,) * (count - number)
    for number in numbers[1:-1]:
        yield (False,) * number + (True,) * (count - number)


def _stowed(
    train: Train,
    tanks: Sequence[Tank],
    calls: Sequence[Change],
    behind: tuple[bool, ...],
    order: Order,
) -> Stowage | None:
    load = _Load(train, tanks, behind, order)
    return load.stowage() if all(load.meet(call) for call in calls) else None


def laid(
    train: Train,
    tanks: Sequence[Tank],
    calls: Sequence[Change],
    behind: tuple[bool, ...],
    order: Order,
) -> Stowage:
    """Return what one way of loading comes to, also where truck or trailer cannot bear it.

    What neither of them bears goes on the one that is filled last.
    """
    load = _Load(train, tanks, behind, order)
    for call in calls:
        load.meet(call)
    return load.stowage()


def held(train: Train, tanks: Sequence[Tank], calls: Sequence[Change], way: Stowage) -> bool:
    """Tell whether a load holds on every leg, loaded in the way in which another one is."""
    return _stowed(train, tanks, calls, way.behind, way.order) is not None


def strains(
    train: Train, tanks: Sequence[Tank], calls: Sequence[Change], way: Stowage
) -> list[Strain]:
    """Return what is too much after every call, each piece all it may weigh.

    What neither vehicle bears is on the one that is filled last.
    """
    load = _Load(train, tanks, way.behind, way.order)
    found = []
    for call in calls:
        load.meet(call)
        found.append(load.strain())
    return found


def heavier(
    train: Train, tanks: Sequence[Tank], calls: Sequence[Change], way: Stowage
) -> list[tuple[int, int]]:
    """Return the grams more on truck and trailer after every call, each piece all it may weigh."""
    load = _Load(train, tanks, way.behind, way.order)
    found = []
    for call in calls:
        load.meet(call)
        found.append((load.truck.more_g, load.trailer.more_g))
    return found


class _Load:
    """What truck and trailer have aboard, call by call."""

    __slots__ = (
        "at_first", "at_stops", "behind", "cab_g", "legs", "ml", "ml_behind", "order", "trailer",
        "train", "truck",
    )  # fmt: skip

    def __init__(
        self, train: Train, tanks: Sequence[Tank], behind: tuple[bool, ...], order: Order
    ) -> None:
        self.train, self.behind, self.order = train, behind, order
        truck = self.truck = _Vehicle(train.truck_g, train.truck_places, train.density_g_per_l)
        trailer = _Vehicle(train.trailer_g, train.trailer_places, train.density_g_per_l)
        self.trailer = trailer
        for tank, on_trailer in zip(tanks, behind, strict=True):
            (trailer if on_trailer else truck).bolt(tank)
        self.at_first = (trailer, truck) if order.loading else (truck, trailer)
        self.at_stops = (trailer, truck) if order.stops else (truck, trailer)
        self.cab_g = self.ml = 0
        self.legs: list[tuple[int, int]] = []
        self.ml_behind: list[int] = []

    def meet(self, call: Change) -> bool:
        """Do what is done at a call; False where truck or trailer does not bear it."""
        truck, trailer = self.truck, self.trailer
        both = self.at_stops if self.legs else self.at_first
        truck.left_g += self.cab_g - call.cab_g
        self.cab_g = call.cab_g
        if call.ml > self.ml:
            _fill(both, call.ml - self.ml)
        else:
            _pour(both, self.ml - call.ml)
        self.ml = call.ml
        for lot in call.off:
            _take(both, lot)
        over = sum([_put(both, lot) for lot in call.on])
        on_truck, on_trailer = truck.load_g(), trailer.load_g()
        self.legs.append((on_truck, on_trailer))
        self.ml_behind.append(trailer.ml)
        return (
            not over
            and truck.ml + trailer.ml >= call.ml
            and self.train.least_g <= on_truck <= self.train.truck_g
            and on_trailer <= self.train.trailer_g
            and truck.places >= 0 <= trailer.places
        )

    def strain(self) -> Strain:
        """Return what is too much aboard now."""
        both = self.truck, self.trailer
        truck_g, trailer_g = (one.load_g() + one.more_g for one in both)
        over = max(0, truck_g - self.train.truck_g), max(0, trailer_g - self.train.trailer_g)
        ahead, behind = (max(0, -one.places) for one in both)
        return Strain(over, (ahead, behind), max(0, self.train.least_g - truck_g))

    def stowage(self) -> Stowage:
        """Return the way with what it comes to."""
        return Stowage(self.behind, self.order, tuple(self.ml_behind), tuple(self.legs))


class _Vehicle:
    """What one vehicle has aboard: mass left without its syrup, places left, piles, syrup."""

    __slots__ = ("bears_g", "density", "holds_ml", "left_g", "ml", "more_g", "piles", "places")

    def __init__(self, bears_g: int, places: int, density: int) -> None:
        self.bears_g = self.left_g = bears_g
        self.places, self.density = places, density
        self.holds_ml = self.ml = self.more_g = 0
        self.piles: dict[Hashable, int] = {}

    def bolt(self, tank: Tank) -> None:
        """Set a tank down, empty."""
        self.left_g -= tank.empty_g
        self.places -= tank.places
        self.holds_ml += tank.holds_ml

    def load_g(self) -> int:
        """Return the mass aboard."""
        return self.bears_g - self.left_g - (-self.ml * self.density // 1000)

    def room(self, lot: Lot) -> int:
        """Return how many pieces of a lot still go on."""
        have = self.piles.get(lot.pile, 0)
        places = max(0, self.places) * lot.per_place + -have % lot.per_place
        left_g = self.bears_g - self.load_g()
        return max(0, min(lot.number, places, left_g // lot.each_g if lot.each_g else places))

    def add(self, lot: Lot, count: int) -> None:
        """Put pieces on; below nought, take them off."""
        have = self.piles.get(lot.pile, 0)
        self.piles[lot.pile] = have + count
        self.places += -(-have // lot.per_place) - -(-(have + count) // lot.per_place)
        self.left_g -= count * lot.each_g
        self.more_g += count * lot.more_g


Both = tuple[_Vehicle, _Vehicle]
"""Truck and trailer, the one filled first before the other."""


def _put(both: Both, lot: Lot) -> int:
    """Put a lot on; return how many pieces neither bears, which go on the one filled last."""
    left = lot.number
    for vehicle in both:
        more = min(left, vehicle.room(lot))
        if more:
            vehicle.add(lot, more)
            left -= more
    if left:
        both[1].add(lot, left)
    return left


def _take(both: Both, lot: Lot) -> None:
    """Take a lot off, from the vehicle filled first as long as there is any."""
    left = lot.number
    for vehicle in both:
        fewer = min(left, vehicle.piles.get(lot.pile, 0))
        vehicle.add(lot, -fewer)
        left -= fewer


def _fill(both: Both, ml: int) -> None:
    """Fill tanks as far as the vehicles bear it, and then those of the one filled last."""
    for vehicle in both:
        left_g = max(0, vehicle.bears_g - vehicle.load_g())
        more = max(0, min(ml, vehicle.holds_ml - vehicle.ml, left_g * 1000 // vehicle.density))
        vehicle.ml += more
        ml -= more
    for vehicle in both[::-1] if ml else ():
        more = min(ml, vehicle.holds_ml - vehicle.ml)
        vehicle.ml += more
        ml -= more


def _pour(both: Both, ml: int) -> None:
    """Empty tanks, those of the vehicle filled first before the others."""
    for vehicle in both:
        less = min(ml, vehicle.ml)
        vehicle.ml -= less
        ml -= less
