"""Warnings of the honey house, of syrup and sugar, and of money."""

from collections.abc import Iterator
from typing import Final

from runplanner.haulage.hauler import haulers
from runplanner.outfit.outfit import Outfit
from runplanner.phrase import Number, Phrase, joined, phrase
from runplanner.scenario.defaults import DEFAULTS
from runplanner.scenario.shown import sums
from runplanner.scenario.shown.sums import YardSum
from runplanner.scenario.shown.warned.named import listed
from runplanner.trade.honey import (
    FERMENTS_PERMILLE,
    HEATHER_LIMIT_PERMILLE,
    MOISTURE_LIMIT_PERMILLE,
)
from runplanner.trade.loads import full_container_g, ml_for_payload
from runplanner.trade.syrup import crystals

_MUCH: Final = 10
"""A tenth of the target is much to be eaten of it before winter: guessed."""
_ROUND: Final = {
    key: str(DEFAULTS[key].said)
    for key in (
        "prices.hour", "trucks.km_cost", "trailers.km_cost", "prices.block", "prices.syrup",
        "prices.strip", "prices.late", "prices.boards_long", "prices.spin_late",
    )
}  # fmt: skip
"""Sums of money that count where none are typed."""


def hands(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn where boxes, or syrup to be mixed, are more than all hands or the room can take."""
    house, days = outfit.honey_house, outfit.season.n_days
    boxes = sums.boxes_home(yards) + house.waiting_boxes
    spinners = sum(person.spins for person in outfit.people)
    rate = max(house.boxes_per_h[: spinners + 1])
    a_day = rate * (house.spin_to_min - house.spin_from_min) // 60
    if boxes > a_day * days:
        yield (
            phrase(
                "The honey house cannot spin {boxes} boxes in {days} days: with "
                "all hands {a_day} a day. Boxes will wait, and spinning runs on "
                "after the last day.",
                boxes=boxes,
                days=days,
                a_day=a_day,
            )
        )
    off = [one.yard for one in yards if one.due.take_off and one.yard.boxes]
    biggest = max((yard.boxes for yard in off), default=0)
    if biggest > house.room_boxes:
        room = house.room_boxes
        yield phrase(
            "The honey house has room for {room} boxes, fewer than the largest yard has.", room=room
        )
    ml, feed = sums.syrup_ml(yards), outfit.feed
    if not feed.bought and ml > feed.ready_ml + feed.mix_ml_per_day * (days + 1):
        yield (
            phrase(
                "{ml} L of syrup cannot be mixed at {mix_ml_per_day} L a day in {days} days.",
                ml=-(-ml // 1000),
                mix_ml_per_day=feed.mix_ml_per_day // 1000,
                days=days,
            )
        )


def syrup(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn of too little syrup or sugar, of crystals, and of tanks no truck may load full."""
    feed, ml = outfit.feed, sums.syrup_ml(yards)
    if not ml:
        return
    need = sums.sugar_g(outfit, ml)
    if feed.bought and ml > feed.ready_ml:
        yield phrase(
            "{ml} L of syrup are due and {ready_ml} L are delivered.",
            ml=-(-ml // 1000),
            ready_ml=feed.ready_ml // 1000,
        )
    elif not feed.bought and feed.sugar_g is not None and need > feed.sugar_g:
        yield phrase(
            "{need} kg of sugar are due and {sugar_g} kg are in stock.",
            need=-(-need // 1000),
            sugar_g=feed.sugar_g // 1000,
        )
    if not feed.bought and (words := crystals(feed.sugar_permille)):
        yield words
    most = max(
        (min(way.load_max_g, max(way.bears()[1], way.trailer_g)) for way in haulers(outfit)),
        default=0,
    )
    for tank in outfit.containers:
        full = full_container_g(tank, feed.density_g_per_l)
        if full > most > tank.empty_g:
            fill = ml_for_payload(most, tank, feed.density_g_per_l) // 1000
            yield (
                phrase(
                    "{name} full of syrup is {full} kg, more than any truck may load: "
                    "fill in {fill} L at most. Part-filled, it surges.",
                    name=tank.name,
                    full=-(-full // 1000),
                    fill=fill,
                )
            )


def eaten(outfit: Outfit, yards: tuple[YardSum, ...]) -> Iterator[Phrase]:
    """Warn where a long wait for syrup may take much of the stores that count for winter."""
    found = [
        (one.yard.name, eaten_g) for one in yards
        if (eaten_g := sums.eaten_g(outfit, one)) * _MUCH >= one.yard.target_g and eaten_g
    ]  # fmt: skip
    if found:
        yield phrase(
            "Stores count in full for winter, though colonies live on them until their syrup "
            "comes: where that is as late as it may be, up to {mass} kg of each colony's are "
            "eaten by then: {names}. Feed early, or type a higher target.",
            mass=Number(f"{max(eaten_g for _, eaten_g in found) / 1000:.1f}"),
            names=listed([name for name, _ in found]),
        )


def prices(outfit: Outfit) -> Iterator[Phrase]:
    """Warn of prices left at their round figures beside a currency or a wage that was typed."""
    left = {str(one.field) for one in outfit.assumed}.intersection(_ROUND)
    if outfit.prices.currency == DEFAULTS["prices.currency"].said and "prices.hour" in left:
        return
    mixed = [joined(" = ", key, said) for key, said in _ROUND.items() if key in left]
    if mixed:
        yield phrase(
            "Money is in {currency}, but these prices were not typed and count as round figures "
            "of it: {prices}. A plan weighs them against what you typed: type your own.",
            currency=outfit.prices.currency,
            prices=joined(", ", *mixed),
        )


def water(outfit: Outfit) -> Iterator[Phrase]:
    """Warn of honey too wet to be sold as honey, or to keep."""
    water = outfit.honey_house.water_permille
    if water > MOISTURE_LIMIT_PERMILLE:
        yield (
            phrase(
                "Honey of {water} % water: at most {most} % may "
                "be sold as honey in the EU, heather {heather} % "
                "(Directive 2001/110/EC); local law comes first.",
                water=Number(f"{water / 10:g}"),
                most=Number(f"{MOISTURE_LIMIT_PERMILLE / 10:g}"),
                heather=Number(f"{HEATHER_LIMIT_PERMILLE / 10:g}"),
            )
        )
    elif water > FERMENTS_PERMILLE:
        yield (
            phrase(
                "Honey of {water} % water is likely to ferment (over "
                "{limit} %): take off capped comb, dry it, or use it "
                "soon.",
                water=Number(f"{water / 10:g}"),
                limit=Number(f"{FERMENTS_PERMILLE / 10:g}"),
            )
        )
