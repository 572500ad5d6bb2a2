"""Warnings of trucks and trailers: what they are to carry, and what nobody measured."""

from collections.abc import Iterator
from typing import Final

from runplanner.haulage.hauler import haulers
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Number, Phrase, phrase
from runplanner.scenario.shown.warned.named import listed
from runplanner.trade.axles import NOSE_HIGH_G, NOSE_LOW_G
from runplanner.trade.loads import CARRIERS

_FAR_MORE: Final = 1.5


def no_load(outfit: Outfit) -> Iterator[Phrase]:
    """Warn where no truck has any payload left: nothing can be planned."""
    if not haulers(outfit):
        yield phrase(
            "No truck can carry anything with anyone aboard: give a truck, people who drive "
            "it, and a maximum mass above its own with fuel, kit and people."
        )


def noses(outfit: Outfit) -> Iterator[Phrase]:
    """Tell of trailers whose nose nobody measured: what it weighs is the driver's to leave free."""
    pulled = {way.trailer.id for way in haulers(outfit) if way.trailer}
    unmeasured = [one.name for one in outfit.trailers if one.id in pulled and one.nose is None]
    if unmeasured:
        yield phrase(
            "The nose of {names} was not measured, so its weight is not taken off what the truck "
            "bears: {low} to {high} kg is usual. Measure it, or leave that free.",
            names=listed(unmeasured),
            low=NOSE_LOW_G // 1000,
            high=NOSE_HIGH_G // 1000,
        )


def payload(outfit: Outfit) -> Iterator[Phrase]:
    """Warn of trucks that are to carry far more than others of their size do."""
    for truck in outfit.trucks:
        like = next((row for row in CARRIERS if row.max_g and truck.max_g <= row.max_g), None)
        carries = truck.max_g - truck.empty_g
        if like is not None and carries > like.payload_high_g * _FAR_MORE:
            low, high = like.payload_low_g / 1_000_000, like.payload_high_g / 1_000_000
            yield (
                phrase(
                    "{name}: {carries} t between empty and maximum mass; a {name2} "
                    "usually carries {low} to {high} t ({source}). Was it weighed with "
                    "its body on?",
                    name=truck.name,
                    carries=Number(f"{carries / 1000000:.2f}"),
                    name2=like.name,
                    low=Number(f"{low:g}"),
                    high=Number(f"{high:g}"),
                    source=like.cited.source,
                )
            )
