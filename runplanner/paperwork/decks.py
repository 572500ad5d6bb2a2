"""What truck and trailer bear each on one trip, and how goods stand on their decks."""

from dataclasses import dataclass

from runplanner.daybook.trip import Shift, Trip
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.stores import BoxKind
from runplanner.outfit.trucks import Deck, Trailer, Truck
from runplanner.trade.loads import rows


@dataclass(frozen=True, slots=True)
class Bears:
    """What one vehicle bears: grams of load, and rows of places across its deck."""

    load_g: int
    rows: int
    in_row: int

    @property
    def places(self) -> int:
        """Deck places, as the whole trip counts them."""
        return self.rows * self.in_row

    def rows_of(self, places: int) -> int:
        """Return the rows that so many places take, at most all of them."""
        return -(-min(places, self.places) // self.in_row) if self.places else 0


def pulled(outfit: Outfit, shift: Shift) -> tuple[Truck, Trailer | None]:
    """Return the shift's truck and its trailer, if any."""
    truck = next(one for one in outfit.trucks if one.id == shift.truck)
    return truck, next((one for one in outfit.trailers if one.id == shift.trailer), None)


def bears(outfit: Outfit, shift: Shift, trip: Trip) -> tuple[Bears, Bears | None]:
    """Return what the truck bears, and what the trailer bears where one is pulled."""
    truck, trailer = pulled(outfit, shift)
    riders_g = truck.fuel_g + truck.kit_g + outfit.person_g * len(shift.crew)
    foot = _footprint(outfit, trip)
    own = _bears(truck.max_g - truck.empty_g - riders_g, truck.deck, foot)
    if trailer is None:
        return own, None
    return own, _bears(trailer.max_g - trailer.empty_g, trailer.deck, foot)


def _bears(load_g: int, deck: Deck, foot: BoxKind) -> Bears:
    return Bears(load_g, *rows(deck, foot.length_mm, foot.width_mm))


def _footprint(outfit: Outfit, trip: Trip) -> BoxKind:
    """Return the box whose footprint makes the trip's places: the largest aboard, or of all."""
    yards = [
        outfit.yard(call.yard)
        for call in trip.yards()
        for one in call.actions
        if one.boxes or one.brood_boxes or one.wet
    ]
    kinds = [outfit.box(yard.box) for yard in yards] or outfit.boxes
    return max(kinds, key=lambda kind: (kind.length_mm * kind.width_mm, kind.length_mm))
