"""The limits on a driver's day that a plan keeps to, in words; local law has the last one."""

from runplanner.haulage.travel import geodesic_m
from runplanner.outfit.outfit import Outfit
from runplanner.paperwork.speech.say import duration, km_up
from runplanner.paperwork.speech.tongue import tr
from runplanner.trade.driving import FARM_RADIUS_M


def hours_words(outfit: Outfit) -> str:
    """Return the limits planned by; under the EU's rules the fact on its farming radius too."""
    limits = tr(
        "Planned by {driving} of driving and {duty} of duty in a day.",
        driving=duration(outfit.hours.driving_max_min), duty=duration(outfit.hours.duty_max_min),
    )  # fmt: skip
    fact = [radius_words(farthest_m(outfit))] if outfit.hours.rules == "eu" else []
    law = tr("Local law comes first; ask the authority which rules hold for you.")
    return " ".join((limits, *fact, law))


def radius_words(farthest: int) -> str:
    """Return the fact on the farming radius for the farthest place, in metres.

    It decides nothing (Reg. (EC) 561/2006 art. 13(1)(b); see ``trade.driving``).
    """
    inside = tr("within") if farthest <= FARM_RADIUS_M else tr("beyond")
    return tr(
        "The farthest place to drive to (yards, honey house and feed store counted) is {way} from "
        "base in a straight line, {inside} the 100 km radius in which a country may free farming "
        "undertakings with goods of their own from the EU driving rules (Reg. 561/2006 art. "
        "13(1)(b)).",
        way=km_up(farthest), inside=inside,
    )  # fmt: skip


def farthest_m(outfit: Outfit) -> int:
    """Return the straight line from home to the farthest yard, store or honey house, rounded up."""
    home = outfit.places[outfit.home.place]
    bases = {outfit.honey_house.base.place, outfit.feed_store.place}
    spots = bases | {place for yard in outfit.yards for _, place in yard.sites}
    lines = (
        geodesic_m((home.lat, home.lon), (outfit.places[spot].lat, outfit.places[spot].lon))
        for spot in sorted(spots)
    )
    # Whole millimetres first: the last digits of a float may differ between machines.
    return max((-(-round(line * 1000) // 1000) for line in lines), default=0)
