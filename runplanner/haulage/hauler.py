"""A truck, with or without a trailer, and a crew aboard: what it may carry and where it may go."""

from collections.abc import Iterator
from dataclasses import dataclass

from runplanner.haulage.axles import HUGE_G, loads_held
from runplanner.haulage.deck import places_on, stack_high
from runplanner.haulage.stow import Train
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import BoxKind
from runplanner.outfit.trucks import Deck, Trailer, Truck
from runplanner.outfit.yards import Access
from runplanner.trade.axles import nose_most_g


@dataclass(frozen=True, slots=True)
class Hauler:
    """One way of going out: truck, perhaps a trailer, and ``crew`` people.

    ``own_g`` is everything rolling that is not load, ``people_g`` the crew's part of it,
    ``load_max_g`` the most load of both together, ``truck_g`` the truck's own part of it at
    most: the trailer's nose, by its measures, rests on the truck.
    """

    truck: Truck
    trailer: Trailer | None
    crew: int
    people_g: int
    own_g: int
    load_max_g: int
    truck_g: int

    @property
    def speed_permille(self) -> int:
        """Speed against the travel table; the slower of truck and trailer."""
        return speed_permille(self.truck, self.trailer)

    @property
    def km_cents(self) -> int:
        """Running cost of a kilometre."""
        return self.truck.km_cents + (self.trailer.km_cents if self.trailer else 0)

    @property
    def width_mm(self) -> int:
        """Outside width; the wider of truck and trailer."""
        return max(self.truck.width_mm, self.trailer.width_mm if self.trailer else 0)

    @property
    def decks(self) -> tuple[Deck, ...]:
        """The loading floors."""
        return (self.truck.deck,) if self.trailer is None else (self.truck.deck, self.trailer.deck)

    def places(self, length_mm: int, width_mm: int) -> int:
        """Return the deck places of this footprint, truck and trailer together."""
        return sum(places_on(deck, length_mm, width_mm) for deck in self.decks)

    def high(self, box: BoxKind) -> int:
        """Return how high boxes of this kind are stacked."""
        return min(stack_high(deck, box) for deck in self.decks)

    def boxes(self, box: BoxKind, each_g: int) -> int:
        """Return how many boxes of one kind and mass ride, nothing else aboard."""
        return sum(
            min(
                max(0, bears_g) // each_g,
                places_on(deck, box.length_mm, box.width_mm) * self.high(box),
            )
            for bears_g, deck in zip((self.bears()[1], self.trailer_g), self.decks, strict=False)
        )

    def load_for(self, access: Access) -> int:
        """Return the most load with which a yard lets it in; below 0 where it never may."""
        if self._barred(access):
            return -1
        if access.max_vehicle_g is None:
            return self.load_max_g
        return min(self.load_max_g, access.max_vehicle_g - self.own_g)

    def _barred(self, access: Access) -> bool:
        return (
            (access.max_width_mm is not None and self.width_mm > access.max_width_mm)
            or (access.four_wheel and not self.truck.four_wheel)
            or (self.trailer is not None and not access.trailer)
        )

    def axle_loads(self) -> tuple[int, int]:
        """Return the least and the most load on the truck itself with which its axles hold."""
        truck = self.truck
        if truck.axles is None:
            return 0, HUGE_G
        riders_g = truck.fuel_g + truck.kit_g + self.people_g
        return loads_held(truck.axles, riders_g, nose_most_g(self.trailer) if self.trailer else 0)

    @property
    def trailer_g(self) -> int:
        """The most load on the trailer; 0 without one."""
        return self.trailer.max_g - self.trailer.empty_g if self.trailer else 0

    def train(self, length_mm: int, width_mm: int, density_g_per_l: int) -> Train:
        """Return what truck and trailer bear each, in places of one footprint."""
        least, most = self.bears()
        truck, *behind = (places_on(deck, length_mm, width_mm) for deck in self.decks)
        return Train(most, truck, self.trailer_g, sum(behind), least, density_g_per_l)

    def bears(self) -> tuple[int, int]:
        """Return the least and the most load on the truck itself by its limit and its axles."""
        least, most = self.axle_loads()
        return least, min(most, self.truck_g)


def speed_permille(truck: Truck, trailer: Trailer | None) -> int:
    """Return the speed against the travel table; the slower of truck and trailer."""
    own = truck.speed_permille
    return own if trailer is None else min(own, trailer.speed_permille)


def haulers(outfit: Outfit) -> tuple[Hauler, ...]:
    """Return every way of going out that can carry anything, trucks in order."""
    return tuple(hauler for hauler in _all(outfit) if hauler.load_max_g > 0)


def _all(outfit: Outfit) -> Iterator[Hauler]:
    for truck in outfit.trucks:
        trailers = () if truck.train_max_g is None else outfit.trailers
        for trailer in (None, *trailers):
            for crew in range(1, min(truck.seats, len(outfit.people)) + 1):
                yield hauled(truck, trailer, crew, crew * outfit.person_g)


def hauled(truck: Truck, trailer: Trailer | None, crew: int, people_g: int) -> Hauler:
    """Return one way of going out, whether it can carry anything or not."""
    own = truck.empty_g + truck.fuel_g + truck.kit_g + people_g
    room = truck.max_g - own - (nose_most_g(trailer) if trailer else 0)
    if trailer is None or room < 0:
        return Hauler(truck, trailer, crew, people_g, own, room, room)
    own += trailer.empty_g
    both = min(room + trailer.max_g - trailer.empty_g, (truck.train_max_g or 0) - own)
    return Hauler(truck, trailer, crew, people_g, own, both, room)
