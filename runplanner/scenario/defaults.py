"""What is taken for granted when nothing is typed, each with its source.

Every value is written as a user would write it and read by the same readers.  `check` shows
each one that was used.  All of them are guesses about somebody else's outfit: type your own.
"""

from dataclasses import dataclass
from typing import Final

from runplanner.phrase import joined, phrase
from runplanner.trade.evidence import Cited, Evidence


@dataclass(frozen=True, slots=True)
class Default:
    """A value as it could have been typed, and where it comes from."""

    said: object
    source: Cited


_USUAL: Final = phrase("common practice; measure your own")


def habit(said: object, words: str = _USUAL) -> Default:
    """Return a default that is common practice, or a guess; ``words`` say which."""
    return Default(said, Cited(Evidence.PRACTICE, words))


def _printed(said: object, words: str) -> Default:
    return Default(said, Cited(Evidence.PUBLISHED, words))


def _official(said: object, words: str) -> Default:
    return Default(said, Cited(Evidence.OFFICIAL, words))


def _recalled(said: object, words: str) -> Default:
    return Default(said, Cited(Evidence.MEMORY, words))


_CARE: Final = phrase("local law and the vehicle's papers come first")
_KEPT: Final = phrase("as typed, nothing kept in hand; rehearse to choose")
_REHEARSED: Final = phrase("own rehearsals, python -m tests.bench in-hand; 50 %: boxes as guessed")
_MONEY: Final = phrase("a round figure so that plans can be compared; type your own")

DEFAULTS: Final[dict[str, Default]] = {
    "outfit.person_mass": habit("85 kg", "one person with suit and boots"),
    "base.opens": habit("05:00"),
    "base.closes": habit("22:00"),
    "honey_house.boxes_per_hour": _printed(
        "5, 9, 12",
        "2 people 8-10 boxes an hour, an owner's estimate (rozehaven.ca); the rest in proportion",
    ),
    "honey_house.room": habit(400, "boxes standing five high on pallets; count your own floor"),
    "honey_house.waiting": habit(0, "nothing waiting to be spun"),
    "honey_house.spin_from": habit("08:00"),
    "honey_house.spin_to": habit("20:00"),
    "trucks.fuel": habit("60 kg", "about 70 L of fuel, full"),
    "trucks.kit": habit("70 kg", "pump, hose, covers, straps, smokers, tools"),
    "trucks.stack_height": habit(
        "1.25 m",
        "boxes strapped under a cover; local law and the vehicle's papers come first",
    ),
    "trucks.stack_boxes": _printed(5, "boxes are stacked 4 to 6 high by hand (rozehaven.ca)"),
    "trucks.seats": habit(3),
    "trucks.four_wheel": habit("no"),
    "trucks.speed": habit("100 %", "drives at the travel table's speed"),
    "trucks.km_cost": habit("0.6", _MONEY),
    "trucks.day_cost": habit(0, _MONEY),
    "trailers.stack_height": habit(
        "1.25 m",
        "boxes strapped under a cover; local law and the vehicle's papers come first",
    ),
    "trailers.stack_boxes": _printed(5, "boxes are stacked 4 to 6 high by hand (rozehaven.ca)"),
    "trailers.speed": habit("90 %", "a tenth slower with a trailer"),
    "trailers.km_cost": habit("0.15", _MONEY),
    "people.drives": habit("yes"),
    "people.spins": habit("yes"),
    "people.mixes": habit("yes"),
    "yards.box": _printed("langstroth medium", "the commonest honey box of the catalogue"),
    "yards.box_spread": habit("10 %", "a guess at how far a guessed box mass is off"),
    "yards.brood_boxes_off": habit(0, "no brood boxes taken away when condensing"),
    "yards.clearing": habit("brush", "one visit, nothing to buy, no room below needed"),
    "yards.clearing_else": habit("none", "every take-off of a yard is cleared its usual way"),
    "yards.boards_on": habit("none on", "no boards lie at a yard before the first day"),
    "yards.stores": habit(
        phrase("unknown, counts as none"), "the careful reading of nothing typed"
    ),
    "yards.target": _printed("15 kg", "4 months x 3 kg + 3 months x 1 kg (bienenundnatur.de)"),
    "yards.feeder": _recalled("10 L", "hive-wide top feeders hold 8 to 14 L"),
    "yards.spin_by": _printed("72 h", "extract within 3 to 4 days (bee-health.extension.org)"),
    "yards.spin_by_hard": habit("no", "hard only with hive beetle or honey that sets fast"),
    "yards.health": habit("sound", "nothing reported"),
    "yards.feed_agreed": habit("no", "only the inspector can agree to it"),
    "yards.wet_boxes": habit("stored wet", "emptied boxes stay at home until next year"),
    "yards.opens": habit("00:00", "the gate is never shut"),
    "yards.closes": habit("24:00", "the gate is never shut"),
    "yards.max_vehicle": habit(phrase("no limit"), "nothing typed"),
    "yards.max_width": habit(phrase("no limit"), "nothing typed"),
    "yards.four_wheel": habit("no", "any truck gets in"),
    "yards.trailer": habit("yes", "a trailer can be brought in and turned"),
    "feed.recipe": _printed("2:1", "usual autumn syrup (Ontario tips, farms.com)"),
    "feed.ready_made": habit("no", "mixed at home"),
    "feed.uptake": _printed(
        "2 L/day", "1.5 to 2.5 L a day, strong colony (killowen.com; cowetabeekeepers.org)"
    ),
    "feed.mix_per_hour": habit("200 L/h"),
    "feed.mix_per_day": habit("1000 L/day"),
    "feed.ready": habit("0 L", "nothing mixed beforehand"),
    "feed.sugar": habit(phrase("as much as it takes"), "the shopping list says how much"),
    "feed.day_use": _printed(
        "500 g/day", "brood-rearing colony 10-15 kg a month, the upper end (quarrylifeaward.cz)"
    ),
    "feed.warn_after": habit(
        phrase("less than a day of cover left at feeding"),
        phrase("a judgement; typed, it is the age of the stop-gap"),
    ),
    "feed.round_to": habit("0.5 L", "what a person pours by eye"),
    "strips.substance": _official("amitraz", "given at this time of year: UK SPC AN 00561/2015"),
    "strips.stock": habit(phrase("as many as it takes"), "the shopping list says how many"),
    "kit.board": habit("1.5 kg", "a clearer board; weigh one"),
    "kit.boards": habit(0, "no clearer boards"),
    "kit.blocks": habit(phrase("as many as it takes"), "the shopping list says how many"),
    "kit.boards_per_place": habit(40, "boards of 25 to 30 mm stacked a metre high"),
    "kit.block": habit("2 kg", "the usual stop-gap piece of fondant"),
    "kit.blocks_per_place": habit(60),
    "kit.feeder": habit("1.2 kg", "a hive-wide feeder; weigh one"),
    "kit.feeders_per_place": habit(10),
    "kit.feeders": habit(phrase("one stands in every yard for each colony"), "so none are carried"),
    "kit.strip": _recalled("10 g", "one strip with its share of the bag"),
    "pace.setup": habit("10 min", "gate, suits, smoker, covers off"),
    "pace.inspect": habit(
        "6 min", "inspect and condense; published passes of 10-12 min are called maxima (docslib)"
    ),
    "pace.box_boards": habit("2 min", "lift and load a cleared box; start value 1.5 to 3 min"),
    "pace.box_brush": habit("5 min", "brush, lift and load; start value 4 to 6 min"),
    "pace.box_blower": habit("3 min", "blow out, lift and load; start value 1-2 min for blowing"),
    "pace.box_warm_board": habit("4 min", "about 10 min a lift, several hives at once"),
    "pace.left_in": habit("5 %", "boxes where bees stay under a board: a guess"),
    "pace.board": habit("90 s", "open, lift the boxes, board on, close"),
    "pace.block": _printed("90 s", "1 to 2 min a hive (theapiarist.org)"),
    "pace.feed": habit("2 min", "open, fill, close"),
    "pace.strips": habit("60 s", "hang two strips"),
    "pace.wet_box": habit("60 s", "roof off, box up or down, roof on"),
    "pace.feeder": habit("45 s", "roof off, emptied feeder off, roof on"),
    "pace.wash": habit("20 min", "wash down after a yard suspect or at a standstill"),
    "pace.load": habit("20 min", "load and strap at the feed store"),
    "pace.unload": habit("10 min", "back up, unstrap"),
    "pace.unload_box": habit("30 s", "lift off and stack one box"),
    "pace.pump": habit("50 L/min", "a small pump into a tank"),
    "hours.start": habit("06:00"),
    "hours.end": habit("20:00"),
    "hours.noon": habit("12:00"),
    "hours.normal": habit("8 h"),
    "hours.duty_most": _official("11 h", joined("; ", phrase("GB domestic rules, gov.uk"), _CARE)),
    "hours.driving_most": _printed(
        "9 h", joined("; ", phrase("EU rules above 3.5 t, fifthwheeltraining"), _CARE)
    ),
    "hours.drive_break_after": _printed(
        "4 h 30 min", joined("; ", phrase("EU rules, the same page"), _CARE)
    ),
    "hours.drive_break": _printed("45 min", joined("; ", phrase("EU rules, the same page"), _CARE)),
    "hours.duty_break_after": _recalled(
        "6 h", joined("; ", phrase("EU mobile workers' rules"), _CARE)
    ),
    "hours.duty_break": _recalled(
        "30 min", joined("; ", phrase("EU mobile workers' rules"), _CARE)
    ),
    "rules.board_best": _printed("48 h", "24 to 48 h is the habit (US supplier; thebeejournal)"),
    "rules.board_least": habit("12 h", "one night; boards clear in 2 to 24 h"),
    "rules.blocks": habit(1, "one block of fondant at take-off"),
    "rules.same_day_second_trip": habit("no", "syrup on a later trip does not spare the block"),
    "rules.smallest_lot": habit(4, "fewer colonies are not worth a visit of their own"),
    "rules.feed_late_from": habit("16:00", "robbers rest towards evening; in late summer"),
    "rules.wet_from": habit("16:00", "wet boxes go up towards dusk, for robbing"),
    "rules.wet_least_days": habit(4, "wet boxes are licked dry in 4 to 5 days"),
    "rules.wet_best_days": habit(5, "wet boxes are licked dry in 4 to 5 days"),
    "prices.currency": habit("units", "money without a name; write a code such as NZD"),
    "safety.load": Default("95 %", Cited(Evidence.DERIVED, _REHEARSED)),
    "safety.slack": habit("0 min", _KEPT),
    "safety.spare_days": habit(0, _KEPT),
    "prices.hour": habit(25, _MONEY),
    "prices.overtime": habit("50 %", _MONEY),
    "prices.block": habit(5, _MONEY),
    "prices.syrup": habit(1, _MONEY),
    "prices.strip": habit("2.5", _MONEY),
    "prices.late": habit(
        10, "a colony a day late; a round figure so that plans can be compared; type your own"
    ),
    "prices.boards_long": habit(
        1, "a colony a day; a round figure so that plans can be compared; type your own"
    ),
    "prices.spin_late": habit(
        "0.5", "a box a day; a round figure so that plans can be compared; type your own"
    ),
    "prices.unsure": habit(0, "a colony whose visit the weather spoils; forecasts' doubt is free"),
    "prices.feed_early": habit(0, "a colony fed before feed_late_from; the time of day is free"),
    "prices.worth_take_off": habit(0, "a colony; 0: never left because it costs too much"),
    "prices.worth_feed": habit(0, "a kg of stores; 0: never left because it costs too much"),
    "prices.worth_strips": habit(0, "a colony; 0: never left because it costs too much"),
    "travel.detour": _printed(
        "1.3",
        "road over straight line: 1.343 in 300 European cities (doi 10.1177/"
        "23998083231168870), 1.28 measured beyond 5 km; none found for country roads",
    ),
    "travel.speed": habit("50 km/h", "loaded on country roads; time a few legs of your own"),
    "weather.syrup_least": _printed("10 degC", "not readily taken below 50 F (pugetsoundbees.org)"),
    "weather.open_least": _printed("13 degC", "quick work from 55 F (beekeepinginsider.com)"),
    "weather.warm_least": habit("20 degC", "warm-day boards need sun and warmth"),
}
"""By table and key."""
