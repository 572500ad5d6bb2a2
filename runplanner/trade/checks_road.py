"""Check rows on hours, loads, axles and lashing."""

from functools import partial
from typing import Final

from runplanner.outfit.trucks import Deck
from runplanner.phrase import Phrase, phrase
from runplanner.trade.axles import STEER_LEAST_PERMILLE, rear_permille
from runplanner.trade.boxes import BOXES
from runplanner.trade.check_row import CheckRow
from runplanner.trade.driving import FARM_RADIUS_M, PRESETS
from runplanner.trade.evidence import Evidence
from runplanner.trade.lashing import FRICTION, RESTRAINT_PERMILLE, Way, press_dan
from runplanner.trade.loads import (
    CONTAINERS,
    Fit,
    columns,
    full_container_g,
    layers,
    ml_for_payload,
)

_PART: Final = phrase("Road and load")
_GB: Final = "gov.uk, drivers' hours, Great Britain domestic rules"
_EU: Final = "Reg. (EC) 561/2006, transport.ec.europa.eu"
_NZ: Final = "nzta.govt.nz, Factsheet 2, Work time and logbooks"
_US: Final = "49 CFR 395.3, FMCSA safety planner"
_RESTRAINT: Final = "Directive 2014/47/EU Annex III"
_CTU: Final = "CTU Code (IMO/ILO/UNECE) appendix 2"
_MAKER: Final = "a truck body builder's manual, Appendix B, figure B-2 (easymanua.ls 63601 p. 77)"
_IBC: Final = "xhsibc.com; bostonibctanks"
_A, _B, _D = Evidence.OFFICIAL, Evidence.PUBLISHED, Evidence.DERIVED
_row: Final = partial(CheckRow, _PART)

_WAYS: Final = {
    Way.FORWARD: phrase("forward"),
    Way.SIDEWAYS: phrase("sideways"),
    Way.REARWARD: phrase("rearward"),
}


def rows() -> tuple[CheckRow, ...]:
    """Return the rows of this part."""
    return (*_hours(), *_restraint(), *_axles(), *_containers(), *_deck())


def _stated(
    quantity: Phrase, ours: float, value: float, unit: str, evidence: Evidence, source: str
) -> CheckRow:
    return _row(quantity, ours, value, unit, 0.0, evidence, source, stated=True)


def _hours() -> tuple[CheckRow, ...]:
    gb, eu, nz, us = (PRESETS[name] for name in ("gb", "eu", "nz", "us"))
    facts = (
        (phrase("GB domestic, driving in a day"), gb.driving_max_min, 10.0, _A, _GB),
        (phrase("GB domestic, duty in a day"), gb.duty_max_min, 11.0, _A, _GB),
        (phrase("EU, driving in a day"), eu.driving_max_min, 9.0, _A, _EU),
        (phrase("EU, driving before a break"), eu.drive_break_after_min or 0, 4.5, _A, _EU),
        (phrase("EU, that break"), eu.drive_break_min, 0.75, _A, _EU),
        (phrase("EU, day less 11 h of rest"), eu.duty_max_min, 13.0, _D, _EU),
        (phrase("NZ, work in a day"), nz.driving_max_min, 13.0, _A, _NZ),
        (phrase("NZ, work before a break"), nz.duty_break_after_min or 0, 5.5, _A, _NZ),
        (phrase("NZ, that break"), nz.duty_break_min, 0.5, _A, _NZ),
        (phrase("US, driving in a day"), us.driving_max_min, 11.0, _A, _US),
        (phrase("US, day from start to end"), us.duty_max_min, 14.0, _A, _US),
        (phrase("US, driving before a break"), us.drive_break_after_min or 0, 8.0, _A, _US),
    )
    return (
        *(
            _stated(what, ours / 60, value, "h", evidence, source)
            for what, ours, value, evidence, source in facts
        ),
        _stated(
            phrase("farming radius, straight line"),
            FARM_RADIUS_M / 1000,
            100.0,
            "km",
            _A,
            "Reg. (EC) 561/2006 art. 13(1)(b); CJEU C-13/21",
        ),
    )


def _restraint() -> tuple[CheckRow, ...]:
    friction = {row.id: row.permille / 1000 for row in FRICTION}
    press = press_dan(1_000_000, 200, Way.FORWARD)
    return (
        *(
            _stated(
                phrase("restraint {way}", way=_WAYS[way]),
                RESTRAINT_PERMILLE[way] / 1000,
                value,
                "of weight",
                _A,
                _RESTRAINT,
            )
            for way, value in ((Way.FORWARD, 0.8), (Way.SIDEWAYS, 0.5), (Way.REARWARD, 0.5))
        ),
        _stated(
            phrase("friction, planed wood on plywood"), friction["planed-on-ply"], 0.3, "", _A, _CTU
        ),
        _stated(
            phrase("friction, wooden pallet on plywood"),
            friction["pallet-on-ply"],
            0.45,
            "",
            _A,
            _CTU,
        ),
        _row(
            phrase("press on 1000 kg at friction 0.2, forward"),
            press,
            3_000.0,
            "daN",
            60.0,
            _B,
            "haufe.de, load securing (reckoned with 10 m/s2)",
        ),
    )


def _axles() -> tuple[CheckRow, ...]:
    share = rear_permille(214, 133) / 10
    return (
        _row(
            phrase("rear axle's part of 100 lb, 133 in behind, wheelbase 214"),
            share,
            62.14,
            "lb",
            0.1,
            _B,
            _MAKER,
        ),
        _stated(
            phrase("least on the steered axle"),
            STEER_LEAST_PERMILLE / 10,
            20.0,
            "%",
            _B,
            "Axle load calculations 04:20-01, 2010 (scribd 255317807)",
        ),
    )


def _containers() -> tuple[CheckRow, ...]:
    ibc, drum = (CONTAINERS[kind].container for kind in ("ibc", "drum"))
    load_l = ml_for_payload(1_050_000, ibc, 1_327) / 1000
    return (
        _row(phrase("IBC, empty"), ibc.empty_g / 1000, 60.0, "kg", 6.0, _B, _IBC, stated=True),
        _stated(phrase("IBC, length"), ibc.length_mm, 1_200.0, "mm", _B, _IBC),
        _stated(phrase("IBC, width"), ibc.width_mm, 1_000.0, "mm", _B, _IBC),
        _stated(
            phrase("four drums side by side"),
            2 * drum.length_mm,
            1_200.0,
            "mm",
            _B,
            "safetystoragesystems.co.uk",
        ),
        _row(
            phrase("full IBC of 2:1"),
            full_container_g(ibc, 1_327) / 1000,
            1_387.0,
            "kg",
            0.5,
            _D,
            "1327 + 60 kg",
        ),
        _row(
            phrase("2:1 that fills 1050 kg of payload"),
            load_l,
            750.0,
            "L",
            5.0,
            _D,
            "(1050 - 60) / 1.327",
        ),
    )


def _deck() -> tuple[CheckRow, ...]:
    deck, box = Deck(3_100, 2_100, 1_200, 5), BOXES["national-super"].kind
    stand = columns(deck, box.length_mm, box.width_mm)
    rides = Fit(stand * layers(deck, box.height_mm), 1_050_000 // 17_000)
    return (
        _row(phrase("National columns on 3.10 x 2.10 m"), stand, 24.0, "columns", 0.0, _D, "6 x 4"),
        _row(
            phrase("National supers of 17 kg on 1050 kg"),
            rides.boxes(),
            61.0,
            "boxes",
            0.0,
            _D,
            "1050 / 17",
        ),
    )
