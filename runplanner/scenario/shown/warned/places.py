"""Warnings of places: out of reach, in the sea, off the road, on one another, far from home."""

from collections.abc import Iterator
from itertools import combinations
from typing import Final

from runplanner.haulage.own_way import own_way_min
from runplanner.haulage.reach import out_of_reach
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Phrase, counted, phrase
from runplanner.scenario.places.lands import country_at
from runplanner.scenario.shown import sums
from runplanner.scenario.shown.sums import YardSum
from runplanner.scenario.shown.warned.named import NAMED, listed

_SAME_SPOT_M: Final = 60


def unreached(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn of every yard with work that nothing gets to: no road, or let in by no gate."""
    busy = (one.yard for one in yards if one.busy())
    found = [why for yard in busy if (why := out_of_reach(outfit, yard))]
    for why in found[:NAMED]:
        yield phrase("{why}: nothing can be done there.", why=why)
    if more := max(0, len(found) - NAMED):
        yield counted(
            "One more yard cannot be reached.", "{number} more yards cannot be reached.", more
        )


def own_ways(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn where people spin or mix far from home: no plan counts how they get there."""
    house, feed = outfit.honey_house, outfit.feed
    way = own_way_min(outfit, house.base)
    if way and sums.boxes_home(yards) + house.waiting_boxes:
        yield phrase(
            "The honey house is {way} min by road from home: the way of people who spin there "
            "is neither in their hours nor on the bill, nor are they given time for it between "
            "truck and honey house. Leave room for it in {first} and {last}.",
            way=way,
            first="spin_from",
            last="spin_to",
        )
    way = own_way_min(outfit, outfit.feed_store)
    if way and not feed.bought and sums.syrup_ml(yards) > feed.ready_ml:
        yield phrase(
            "The feed store is {way} min by road from home: the way of people who mix there is "
            "neither in their hours nor on the bill, nor are they given time for it between "
            "truck and feed store.",
            way=way,
        )


def spots(outfit: Outfit) -> Iterator[Phrase]:
    """Warn of places that stand on one another; travel's own metres tell."""
    metres = outfit.travel.metres
    here = [(yard, yard.sites[0][1]) for yard in outfit.yards]
    from_home = metres[outfit.home.place]
    home = [yard.name for yard, place in here if _near(from_home[place])]
    if home:
        yield phrase("Standing at home itself, if that is right: {home}.", home=listed(home))
    for (one, a), (other, b) in combinations(here, 2):
        if _near(metres[a][b]):
            yield phrase(
                "{name} and {name2} stand at the same spot, if that is right.",
                name=one.name,
                name2=other.name,
            )


def at_sea(outfit: Outfit) -> Iterator[Phrase]:
    """Warn, once, of places in the open sea: coasts and islands count as their country."""
    places = outfit.places
    sea = [place.name for place in places if not country_at((place.lat, place.lon))]
    if sea:
        yield phrase(
            "In the open sea: {names}. Is a minus missing, or are lat and lon swapped?",
            names=phrase("base and all yards") if len(sea) == len(places) else listed(sea),
        )


def off_road(outfit: Outfit) -> Iterator[Phrase]:
    """Warn of places far off any road of the road file."""
    for one in outfit.assumed:
        if one.field.endswith(".last_stretch"):
            yield phrase("{value}: right place, right road file?", value=one.value)


def _near(metres: int | None) -> bool:
    return metres is not None and metres < _SAME_SPOT_M
