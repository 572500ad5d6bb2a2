"""Check rows on honey, frames and boxes."""

from functools import partial
from typing import Final

from runplanner.phrase import Number, phrase
from runplanner.trade.boxes import BOXES, HAND_LIMIT_G, BoxFacts
from runplanner.trade.check_row import CheckRow, Trap
from runplanner.trade.evidence import Evidence
from runplanner.trade.feeding import HIVE_PARTS_G, full_frames
from runplanner.trade.honey import (
    FERMENTS_PERMILLE,
    HEATHER_LIMIT_PERMILLE,
    MOISTURE_LIMIT_PERMILLE,
    SPIN_BY_H,
    honey_kg_per_l,
    moisture_percent,
)
from runplanner.trade.recipe import POUND_G

_PART: Final = phrase("Honey and boxes")
_WATER_20: Final = 0.99821
_INCH_MM: Final = 25.4
_WEDMORE: Final = "Wedmore after Chataway, in Bogdanov, Book of Honey, chapter 4"
_DIRECTIVE: Final = "Directive 2001/110/EC Annex II"
_BEE_CULTURE: Final = "Density of Honey, Bee Culture"
_BEE_CRAFT: Final = "Bee Craft, Autumn feeding"
_BBKA: Final = "BBKA News 216, August 2013"
_BS1300: Final = "BS 1300:1960, via MAFF leaflet 367"
_FORUM: Final = "beekeepingforum.co.uk table"
_US: Final = "honeybeesonline.com"
_A, _B, _D = Evidence.OFFICIAL, Evidence.PUBLISHED, Evidence.DERIVED
_row: Final = partial(CheckRow, _PART)

_SIDES: Final = {
    "length": phrase("length"),
    "width": phrase("width"),
    "height": phrase("height"),
}
_LITRE: Final = ((170, 1.421), (180, 1.415), (200, 1.400))

_INCHES: Final = (
    ("national-super", "length", 18.125, _A, _BS1300),
    ("national-super", "height", 5.875, _A, _BS1300),
    ("national-brood", "width", 18.125, _A, _BS1300),
    ("national-brood", "height", 8.875, _A, _BS1300),
    ("national-14x12", "height", 12.5, _B, _FORUM),
    ("commercial", "length", 18.3125, _B, _FORUM),
    ("commercial", "height", 10.5, _B, _FORUM),
    ("smith-super", "length", 18.25, _B, "eastdevonbk.co.uk"),
    ("smith-super", "width", 16.375, _B, "eastdevonbk.co.uk"),
    ("langstroth-deep", "length", 20.0, _B, _US),
    ("langstroth-deep", "width", 16.25, _B, _US),
    ("langstroth-deep", "height", 9.625, _B, _US),
    ("langstroth-medium", "height", 6.625, _B, _US),
    ("langstroth-shallow", "height", 5.6875, _B, "plantertomato.com"),
    ("langstroth-medium-8", "width", 14.0, _B, "brodiehaturned.blogspot.com"),
)


def rows() -> tuple[CheckRow, ...]:
    """Return the rows of this part."""
    return (*_moisture(), *_density(), *_frames(), *_masses(), *_sizes())


def traps() -> tuple[Trap, ...]:
    """Return printed numbers on honey that are wrong."""
    return (
        Trap(
            phrase("specific gravity of honey of 15 % water"),
            1.423,
            honey_kg_per_l(150) / _WATER_20,
            "",
            "beeclubpellas.blogspot.com 2009",
            phrase("the same page has 1.417 at 18 %; 1.423 is published for 17 %"),
        ),
        Trap(
            phrase("water in honey of refractive index 1.4940, formula as reprinted"),
            909.0,
            moisture_percent(1.4940),
            "%",
            "reprints of Wedmore's formula",
            phrase("the bar over the 1 of 1.73190 was lost; it stands for -1 + 0.73190"),
        ),
    )


def _moisture() -> tuple[CheckRow, ...]:
    indices = ((1.4940, 17.0), (1.4865, 20.0), (1.5044, 13.0))
    return (
        *(
            _row(
                phrase("water in honey of refractive index {index}", index=Number(f"{n:.4f}")),
                moisture_percent(n),
                value,
                "%",
                0.1,
                _A,
                _WEDMORE,
            )
            for n, value in indices
        ),
        _row(
            phrase("most water in honey"),
            MOISTURE_LIMIT_PERMILLE / 10,
            20.0,
            "%",
            0.0,
            _A,
            _DIRECTIVE,
            stated=True,
        ),
        _row(
            phrase("most water in heather honey"),
            HEATHER_LIMIT_PERMILLE / 10,
            23.0,
            "%",
            0.0,
            _A,
            _DIRECTIVE,
            stated=True,
        ),
        _row(
            phrase("water above which honey ferments"),
            FERMENTS_PERMILLE / 10,
            19.0,
            "%",
            0.0,
            _B,
            "USDA Agricultural Handbook 335, quoted at beesource.com",
            stated=True,
        ),
        _row(
            phrase("spin within, where beetle lives"),
            SPIN_BY_H,
            84.0,
            "h",
            12.0,
            _B,
            "bee-health.extension.org, 3 to 4 days",
            stated=True,
        ),
    )


def _density() -> tuple[CheckRow, ...]:
    gravity = (
        (170, 1.423, "21food.com, export specification"),
        (180, 1.417, "beeclubpellas.blogspot.com 2009"),
    )
    extremes = ((210, 1.394), (130, 1.445))
    return (
        *(
            _row(
                phrase("specific gravity of honey of {percent} % water", percent=wet // 10),
                honey_kg_per_l(wet) / _WATER_20,
                value,
                "",
                0.002,
                _B,
                source,
            )
            for wet, value, source in gravity
        ),
        *(
            _row(
                phrase(
                    "published end of honey density, ours at {percent} % water", percent=wet // 10
                ),
                honey_kg_per_l(wet),
                value,
                "kg/L",
                0.004,
                _B,
                _BEE_CULTURE,
            )
            for wet, value in extremes
        ),
        *(
            _row(
                phrase("a litre of honey of {percent} % water", percent=wet // 10),
                honey_kg_per_l(wet),
                value,
                "kg",
                0.001,
                _D,
                "specific gravity of the survey (from memory) x 0.99821",
            )
            for wet, value in _LITRE
        ),
    )


def _frames() -> tuple[CheckRow, ...]:
    full = (
        ("BS deep", "national-brood", 2.3, 0.23, _BEE_CRAFT),
        ("BS 14 x 12", "national-14x12", 3.5, 0.2, _BEE_CRAFT),
        ("Langstroth deep", "langstroth-deep", 3.0, 0.3, _BBKA),
    )
    needed = full_frames(20_000, BOXES["national-brood"].frame_g())
    nine_kg = 9 * BOXES["langstroth-deep"].frame_g() / 1000
    shallow = BOXES["national-super"]
    return (
        *(
            _row(
                phrase("full {name} frame", name=name),
                BOXES[box].frame_g() / 1000,
                value,
                "kg",
                room,
                _B,
                source,
            )
            for name, box, value, room, source in full
        ),
        _row(phrase("full BS deep frames for 20 kg"), needed, 9.0, "frames", 0.0, _B, _BBKA),
        _row(
            phrase("nine full deep frames"),
            nine_kg,
            30.0,
            "kg",
            1.5,
            _B,
            "Canada Science and Technology Museum, bees.techno-science.ca",
        ),
        _row(
            phrase("most honey in a BS super frame"),
            shallow.frame_g() / 1000,
            1.5,
            "kg",
            0.05,
            _D,
            "13 7/16 x 5 in at 350 g per square decimetre",
        ),
    )


def _masses() -> tuple[CheckRow, ...]:
    full = (("langstroth-deep", 38.5), ("langstroth-medium", 24.5))
    parts = sum(
        HIVE_PARTS_G[name] for name in ("outer cover", "inner cover", "stand", "mesh floor")
    )
    boxes = 2 * BOXES["langstroth-deep"].kind.empty_g + BOXES["langstroth-medium"].kind.empty_g
    return (
        *(
            _row(
                phrase("{box}, full", box=BOXES[box].kind.name),
                BOXES[box].gross_g() / 1000,
                value,
                "kg",
                2.5,
                _B,
                "several pages: 80-90 lb deep, 50-60 lb medium",
            )
            for box, value in full
        ),
        _row(
            phrase("deep box with frames, empty"),
            BOXES["langstroth-deep"].kind.empty_g / POUND_G,
            13.69,
            "lb",
            0.01,
            _B,
            "weighed hive parts",
            stated=True,
        ),
        _row(
            phrase("hive of two deeps and a medium, weighed"),
            (parts + boxes) / POUND_G,
            55.34,
            "lb",
            0.05,
            _D,
            "weighed hive parts (the medium is what is left)",
        ),
        _row(
            phrase("one person lifting close at the waist"),
            HAND_LIMIT_G / 1000,
            25.0,
            "kg",
            0.0,
            _B,
            "fork-lift-training.co.uk on HSE INDG143",
            stated=True,
        ),
    )


def _sizes() -> tuple[CheckRow, ...]:
    return tuple(
        _row(
            phrase("{box}, {side}", box=BOXES[box].kind.name, side=_SIDES[side]),
            _side_mm(BOXES[box], side),
            inches * _INCH_MM,
            "mm",
            1.0,
            evidence,
            source,
            stated=True,
        )
        for box, side, inches, evidence, source in _INCHES
    )


def _side_mm(facts: BoxFacts, side: str) -> int:
    kind = facts.kind
    return {"length": kind.length_mm, "width": kind.width_mm, "height": kind.height_mm}[side]
