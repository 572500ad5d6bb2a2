"""Check rows on sugar and syrup."""

from functools import partial
from typing import Final

from runplanner.phrase import Phrase, phrase
from runplanner.trade.check_row import CheckRow, Trap
from runplanner.trade.evidence import Evidence
from runplanner.trade.recipe import POUND_G, UK_GALLON_ML, US_GALLON_ML, recipe
from runplanner.trade.syrup import (
    STORES_SPREAD,
    density_kg_m3,
    ml_per_kg_sugar,
    solubility_permille,
    stores_g_per_kg_sugar,
    sugar_kg_m3,
)

_PART: Final = phrase("Syrup")
_CRC: Final = "CRC handbook table (in flanagan/physprop/Sucrose.java)"
_CURTH: Final = "Curth, Hohenheim 1981, via bienenzuchtverein-merkstein.de"
_NBU: Final = "National Bee Unit, Best Practice Guideline 7, and its arithmetic"
_AUSTRIA: Final = "torftrottel.at"
_KILLOWEN: Final = "killowen.com"
_READY: Final = "bienenzuchtverein-merkstein.de, ready-made syrup"
_A, _B, _D = Evidence.OFFICIAL, Evidence.PUBLISHED, Evidence.DERIVED
_row: Final = partial(CheckRow, _PART)

_CRC_DENSITY: Final = (
    (10, 1038.1),
    (20, 1081.0),
    (30, 1127.0),
    (40, 1176.5),
    (50, 1229.5),
    (56, 1263.2),
    (60, 1286.4),
    (62, 1298.3),
    (64, 1310.3),
    (66, 1322.4),
    (68, 1334.8),
    (70, 1347.2),
    (72, 1359.9),
    (74, 1372.6),
    (76, 1385.5),
)
_CRC_SUGAR: Final = (
    (10, 103.8),
    (20, 216.2),
    (30, 338.1),
    (40, 470.6),
    (50, 614.8),
    (56, 707.4),
    (60, 771.9),
    (62, 804.9),
    (64, 838.6),
    (66, 872.8),
    (68, 907.6),
    (70, 943.1),
    (72, 979.1),
    (74, 1015.7),
    (76, 1053.0),
)
_CRC_SOLUBLE: Final = ((0, 64.18), (10, 65.58), (20, 67.09))
_CURTH_LITRE: Final = (("1:1", 1.250, 0.625), ("3:2", 1.330, 0.800), ("2:1", 1.335, 0.890))
_CURTH_STORES: Final = (("1:1", 0.560), ("3:2", 0.860), ("2:1", 1.000))
# Stores from a litre over sugar in a litre, both as printed.
_CURTH_MADE: Final = (("1:1", 0.560 / 0.625), ("3:2", 0.860 / 0.800), ("2:1", 1.000 / 0.890))
_KILLOWEN_LOTS: Final = ((4, 2520, 5.0), (3, 1890, 3.8), (2, 1260, 2.5))


def rows() -> tuple[CheckRow, ...]:
    """Return the rows of this part."""
    return (*_handbook(), *_curth(), *_mixes(), *_lots(), *_ready(), *_derived())


def traps() -> tuple[Trap, ...]:
    """Return printed numbers on syrup that are wrong."""
    one_to_one, gallons = recipe("1:1"), recipe("50 lb + 3 US gal")
    return (
        Trap(
            phrase("litres of 1 kg sugar + 1 L water"),
            1.5,
            one_to_one.litres(1000),
            "L",
            "buckfastimker-weser-ems.de",
            phrase("1.63 L by the density of 50 % syrup"),
        ),
        Trap(
            phrase("US gallons of 50 lb sugar + 3 US gal water"),
            6.0,
            gallons.litres(50 * POUND_G) * 1000 / US_GALLON_ML,
            "US gal",
            "k4vb.com",
            phrase('its "60 lb" is less than the 75 lb that went in'),
        ),
        Trap(
            phrase("litres per kg of sugar, 2 lb to an imperial pint, sold as 1 kg to 0.5 L"),
            1.131,
            recipe("2 lb + 1 UK pint").litres(1000),
            "L",
            "several association pages",
            phrase("an imperial pint to 2 lb is 626 ml to the kg, not 500"),
        ),
    )


def _crc(quantity: Phrase, ours: float, published: float, unit: str, tolerance: float) -> CheckRow:
    return _row(quantity, ours, published, unit, tolerance, _A, _CRC)


def _handbook() -> tuple[CheckRow, ...]:
    return (
        *(
            _crc(
                phrase("density of {percent} % sugar at 20 C", percent=w),
                density_kg_m3(w / 100),
                value,
                "kg/m3",
                0.5,
            )
            for w, value in _CRC_DENSITY
        ),
        *(
            _crc(
                phrase("sugar in a litre of {percent} % syrup", percent=w),
                sugar_kg_m3(w / 100),
                value,
                "g",
                0.5,
            )
            for w, value in _CRC_SUGAR
        ),
        *(
            _crc(
                phrase("sugar that dissolves at {degrees} C", degrees=t),
                solubility_permille(t) / 10,
                value,
                "%",
                0.5,
            )
            for t, value in _CRC_SOLUBLE
        ),
    )


def _curth() -> tuple[CheckRow, ...]:
    found = []
    for text, mass, sugar in _CURTH_LITRE:
        share = recipe(text).share()
        ours = (density_kg_m3(share) / 1000, sugar_kg_m3(share) / 1000)
        found += [
            _row(
                phrase("mass of a litre of {recipe}", recipe=text),
                ours[0],
                mass,
                "kg",
                0.05,
                _B,
                _CURTH,
            ),
            _row(
                phrase("sugar in a litre of {recipe}", recipe=text),
                ours[1],
                sugar,
                "kg",
                0.03,
                _B,
                _CURTH,
            ),
        ]
    made = (
        _row(
            phrase("stores from a kg of sugar as {recipe}", recipe=text),
            stores_g_per_kg_sugar(recipe(text).permille()) / 1000,
            published,
            "kg",
            0.002,
            _B,
            _CURTH,
            stated=True,
        )
        for text, published in _CURTH_MADE
    )
    return (*found, *made)


def _mixes() -> tuple[CheckRow, ...]:
    austria = recipe("1 kg + 0.7 L")
    gallon_lb = density_kg_m3(0.5) * US_GALLON_ML / 1000 / POUND_G
    made_up_kg = sugar_kg_m3(recipe("2:1").share()) * UK_GALLON_ML / 1_000_000
    return (
        _row(
            phrase("1 kg sugar + 0.7 L water"), austria.litres(1000), 1.3, "L", 0.03, _B, _AUSTRIA
        ),
        _row(
            phrase("25 kg sugar + 17.5 L water"),
            austria.litres(25_000),
            32.5,
            "L",
            0.98,
            _B,
            _AUSTRIA,
        ),
        _row(
            phrase("water to 25 kg sugar at 0.7 L/kg"),
            austria.water_ml(25_000) / 1000,
            17.5,
            "L",
            0.01,
            _B,
            _AUSTRIA,
        ),
        _row(
            phrase("50 kg sugar + 30 L water"),
            recipe("50 kg + 30 L").litres(50_000),
            60.0,
            "L",
            1.8,
            _B,
            "beescientifics.com 2020",
        ),
        _row(
            phrase("one US gallon of 1:1"), gallon_lb, 10.0, "lb", 0.3, _B, "cowetabeekeepers.org"
        ),
        _row(
            phrase("sugar in one UK gallon made up as 2:1"),
            made_up_kg,
            4.0,
            "kg",
            0.08,
            _B,
            "norfolkbeekeepers.org.uk",
        ),
    )


def _lots() -> tuple[CheckRow, ...]:
    mix = recipe("1 kg + 630 ml")
    found = []
    for kg, water, litres in _KILLOWEN_LOTS:
        ours = (mix.water_ml(kg * 1000), mix.litres(kg * 1000))
        found += [
            _row(phrase("water to {kg} kg sugar", kg=kg), ours[0], water, "ml", 0.5, _B, _KILLOWEN),
            _row(
                phrase("syrup of {kg} kg sugar", kg=kg), ours[1], litres, "L", 0.05, _B, _KILLOWEN
            ),
        ]
    return tuple(found)


def _ready() -> tuple[CheckRow, ...]:
    kg_per_l = density_kg_m3(0.724) / 1000
    return (
        _row(phrase("a litre of 72.4 % syrup"), kg_per_l, 1.365, "kg", 0.014, _B, _READY),
        _row(phrase("a kilogram of 72.4 % syrup"), 1 / kg_per_l, 0.733, "L", 0.007, _B, _READY),
        _row(
            phrase("dry sugar in a litre of 72.4 % syrup"),
            0.724 * kg_per_l,
            1.0,
            "kg",
            0.03,
            _B,
            _READY,
        ),
    )


def _derived() -> tuple[CheckRow, ...]:
    metric, imperial = recipe("1 kg + 630 ml"), recipe("2 lb + 1 UK pint")
    stores = tuple(
        _row(
            phrase("stores from a litre of {recipe}", recipe=text),
            _stores_kg(text),
            value,
            "kg",
            0.05,
            _D,
            f"{_CURTH} (the default is taken from it)",
        )
        for text, value in _CURTH_STORES
    )
    return (
        *stores,
        _row(phrase("1 kg + 630 ml by mass"), metric.share() * 100, 61.4, "%", 0.05, _D, _NBU),
        _row(phrase("2 lb + 1 UK pint by mass"), imperial.share() * 100, 61.5, "%", 0.05, _D, _NBU),
        _row(
            phrase("1 kg + 630 ml, litres per kg sugar"),
            metric.litres(1000),
            1.256,
            "L",
            0.005,
            _D,
            _NBU,
        ),
        _row(
            phrase("2 lb + 1 UK pint, litres per kg sugar"),
            imperial.litres(1000),
            1.256,
            "L",
            0.005,
            _D,
            _NBU,
        ),
        _row(
            phrase("2 lb + 1 US pint by mass"),
            recipe("2 lb + 1 US pint").share() * 100,
            65.8,
            "%",
            0.05,
            _D,
            "2 lb to 473.2 ml of water",
        ),
        _row(
            phrase("1 kg + 600 ml by mass"),
            recipe("1 kg + 600 ml").share() * 100,
            62.5,
            "%",
            0.05,
            _D,
            "Bee Craft, Autumn feeding, and its arithmetic",
        ),
        _row(
            phrase("its two recipes, litres per kg sugar"),
            metric.litres(1000) / imperial.litres(1000),
            1.0,
            "ratio",
            0.005,
            _D,
            _NBU,
        ),
        _row(
            phrase("litres of 2:1 per kg sugar"),
            ml_per_kg_sugar(667) / 1000,
            1.131,
            "L",
            0.003,
            _D,
            "handbook density",
        ),
        _row(
            phrase("litres of 1:1 per kg sugar"),
            ml_per_kg_sugar(500) / 1000,
            1.627,
            "L",
            0.003,
            _D,
            "handbook density",
        ),
        _row(
            phrase("most stores per kg sugar (no loss, 20 % water)"),
            STORES_SPREAD[1] / 1000,
            1.25,
            "kg",
            0.0,
            _D,
            "1 / (1 - 0.20)",
            stated=True,
        ),
    )


def _stores_kg(text: str) -> float:
    made = recipe(text)
    return sugar_kg_m3(made.share()) * stores_g_per_kg_sugar(made.permille()) / 1_000_000
