"""What goes on a deck: columns, what binds, containers, and a word on part-filled tanks."""

from dataclasses import dataclass
from typing import Final

from runplanner.outfit.stores import Container
from runplanner.outfit.trucks import Deck
from runplanner.trade.evidence import Cited, Evidence


@dataclass(frozen=True, slots=True)
class Carrier:
    """A common size of truck or trailer, for a first guess.

    Args:
        name: In words.
        max_g: Gross limit, or None.
        payload_low_g: Least payload published.
        payload_high_g: Most.
        deck_mm: Length and width, or None.
        cited: Sources.
    """

    name: str
    max_g: int | None
    payload_low_g: int
    payload_high_g: int
    deck_mm: tuple[int, int] | None
    cited: Cited


CARRIERS: Final = (
    Carrier("pickup", None, 1_050_000, 1_085_000, (1_485, 1_530),
            Cited(Evidence.PUBLISHED, "autodeal.com.ph")),
    Carrier("3.5 t truck", 3_500_000, 900_000, 1_200_000, (3_100, 2_100),
            Cited(Evidence.PUBLISHED, "payload about 1 t, logcluster.org; deck from memory")),
    Carrier("7.5 t truck", 7_500_000, 3_000_000, 4_100_000, (6_100, 2_400),
            Cited(Evidence.PUBLISHED, "logcluster.org; truckpages; body 20 ft, width from memory")),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class KnownContainer:
    """A common container, none owned yet, and where its measures come from."""

    container: Container
    cited: Cited


CONTAINERS: Final = {
    "ibc": KnownContainer(
        Container("ibc", "IBC 1000 L", 1_000_000, 60_000, 1_200, 1_000, 0),
        Cited(Evidence.PUBLISHED, "1200 x 1000 mm, 54-66 kg empty (xhsibc.com)"),
    ),
    "drum": KnownContainer(
        Container("drum", "Drum 205 L", 205_000, 10_000, 600, 600, 0),
        Cited(Evidence.PUBLISHED, "four on 1.2 x 1.2 m (safetystoragesystems.co.uk)"),
    ),
    "can": KnownContainer(
        Container("can", "Can 25 L", 25_000, 1_500, 300, 300, 0),
        Cited(Evidence.MEMORY, "a 25 L jerrycan; measure yours"),
    ),
}
"""Common containers by kind.  A drum's empty mass is from memory."""


@dataclass(frozen=True, slots=True)
class Fit:
    """How many boxes ride, and whether weight, deck or both bind."""

    by_deck: int
    by_weight: int

    def boxes(self) -> int:
        """Return the boxes that ride."""
        return min(self.by_deck, self.by_weight)

    def binds(self) -> str:
        """Return ``weight``, ``deck`` or ``both``."""
        if self.by_deck == self.by_weight:
            return "both"
        return "weight" if self.by_weight < self.by_deck else "deck"


def columns(deck: Deck, length_mm: int, width_mm: int) -> int:
    """Return the columns of one footprint on a deck, all turned the same way."""
    along, across = rows(deck, length_mm, width_mm)
    return along * across


def rows(deck: Deck, length_mm: int, width_mm: int) -> tuple[int, int]:
    """Return the rows of one footprint along a deck and the columns in each, the better way round.

    Where both ways take as many, that with more rows.
    """
    straight = (deck.length_mm // length_mm, deck.width_mm // width_mm)
    turned = (deck.length_mm // width_mm, deck.width_mm // length_mm)
    return max(straight, turned, key=lambda way: (way[0] * way[1], way[0]))


def layers(deck: Deck, height_mm: int) -> int:
    """Return how high boxes stand: by the deck's stack height and by its box count."""
    return min(deck.stack_boxes, deck.stack_mm // height_mm)


def full_container_g(container: Container, density_g_per_l: int) -> int:
    """Return the mass of a full container, rounded up."""
    return container.empty_g - (-container.holds_ml * density_g_per_l // 1000)


def ml_for_payload(left_g: int, container: Container, density_g_per_l: int) -> int:
    """Return the most syrup one container may carry on ``left_g``, rounded down."""
    room = max(0, left_g - container.empty_g) * 1000 // density_g_per_l
    return min(container.holds_ml, room)
