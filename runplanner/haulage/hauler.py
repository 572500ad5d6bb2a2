"""A truck, with or without a trailer, and a crew aboard: what it may carry and where it may go."""

from dataclasses import dataclass

from runplanner.haulage.deck import places_on, stack_high
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import BoxKind
from runplanner.outfit.trucks import Trailer, Truck
from runplanner.outfit.yards import Access


@dataclass(frozen=True, slots=True)
class Hauler:
    """One way of going out: truck, perhaps a trailer, and ``crew`` people.

    ``own_g`` is everything rolling that is not load, ``load_max_g`` the most load.
    """

    truck: Truck
    trailer: Trailer | None
    crew: int
    own_g: int
    load_max_g: int

    @property
    def speed_permille(self) -> int:
        """Speed against the travel table; the slower of truck and trailer."""
        if self.trailer is None:
            return self.truck.speed_permille
        return min(self.truck.speed_permille, self.trailer.speed_permille)

    @property
    def km_cents(self) -> int:
        """Running cost of a kilometre."""
        return self.truck.km_cents + (self.trailer.km_cents if self.trailer else 0)

    def places(self, length_mm: int, width_mm: int) -> int:
        """Return the deck places of this footprint, truck and trailer together."""
        own = places_on(self.truck.deck, length_mm, width_mm)
        if self.trailer is None:
            return own
        return own + places_on(self.trailer.deck, length_mm, width_mm)

    def high(self, box: BoxKind) -> int:
        """Return how high boxes of this kind are stacked."""
        own = stack_high(self.truck.deck, box)
        return own if self.trailer is None else min(own, stack_high(self.trailer.deck, box))

    def load_for(self, access: Access) -> int:
        """Return the most load with which a yard lets it in; below 0 where it never may."""
        width = max(self.truck.width_mm, self.trailer.width_mm if self.trailer else 0)
        barred = (
            (access.max_width_mm is not None and width > access.max_width_mm)
            or (access.four_wheel and not self.truck.four_wheel)
            or (self.trailer is not None and not access.trailer)
        )
        if barred:
            return -1
        if access.max_vehicle_g is None:
            return self.load_max_g
        return min(self.load_max_g, access.max_vehicle_g - self.own_g)

    def axles_hold(self, load_g: int) -> bool:
        """Tell whether every axle of the truck is inside its limits with this load.

        The load counts as spread evenly over the deck; people, fuel and kit count half on
        each axle.  With a trailer as much as it may carry is taken to ride there.
        """
        axles = self.truck.axles
        if axles is None:
            return True
        trailer_g = self.trailer.max_g - self.trailer.empty_g if self.trailer else 0
        load_g -= min(load_g, trailer_g)
        half2 = self.truck.fuel_g + self.truck.kit_g + self.own_people_g
        rear = (
            2 * axles.rear_empty_g * 1000 + half2 * 1000 + 2 * load_g * axles.load_on_rear_permille
        )
        front = (
            2 * axles.front_empty_g * 1000
            + half2 * 1000
            + 2 * load_g * (1000 - axles.load_on_rear_permille)
        )
        return (
            2000 * axles.front_min_g <= front <= 2000 * axles.front_max_g
            and rear <= 2000 * axles.rear_max_g
        )

    @property
    def own_people_g(self) -> int:
        """Mass of the crew."""
        rolling = self.truck.empty_g + self.truck.fuel_g + self.truck.kit_g
        return self.own_g - rolling - (self.trailer.empty_g if self.trailer else 0)


def haulers(outfit: Outfit) -> tuple[Hauler, ...]:
    """Return every way of going out that can carry anything, trucks in order."""
    found = []
    for truck in outfit.trucks:
        for trailer in (None, *outfit.trailers):
            for crew in range(1, min(truck.seats, len(outfit.people)) + 1):
                hauler = _hauler(outfit, truck, trailer, crew)
                if hauler is not None and hauler.load_max_g > 0:
                    found.append(hauler)
    return tuple(found)


def _hauler(outfit: Outfit, truck: Truck, trailer: Trailer | None, crew: int) -> Hauler | None:
    own = truck.empty_g + truck.fuel_g + truck.kit_g + crew * outfit.person_g
    room = truck.max_g - own
    if trailer is None:
        return Hauler(truck, None, crew, own, room)
    if truck.train_max_g is None:
        return None
    own += trailer.empty_g
    room = min(room + trailer.max_g - trailer.empty_g, truck.train_max_g - own)
    return Hauler(truck, trailer, crew, own, room)
