"""Check rows on winter stores, feeding and strips."""

from functools import partial
from typing import Final

from runplanner.outfit.stores import Feed
from runplanner.phrase import phrase, verbatim
from runplanner.trade.check_row import CheckRow
from runplanner.trade.evidence import Evidence
from runplanner.trade.feeding import (
    DAY_USE_G,
    FEED_GOOD_C,
    FEED_LEAST_C,
    cover_min,
    emptied_min,
    need_g,
    pouring,
    stores_g_per_l,
    sugar_for_g,
    sugar_for_stores_g,
    target,
    winter_use_g,
)
from runplanner.trade.recipe import POUND_G, US_GALLON_ML, recipe
from runplanner.trade.strips import RECORD_FIELDS, RECORD_YEARS, STRIPS
from runplanner.trade.syrup import density_g_per_l, stores_g_per_kg_sugar

_PART: Final = phrase("Feeding and strips")
_AUSTRIA: Final = "torftrottel.at"
_KILLOWEN: Final = "killowen.com"
_BBKA: Final = "BBKA News 216, August 2013"
_SPC: Final = "UK SPC AN 01017/2013"
_FORMIC: Final = "formic acid strip leaflet, doczz 2472508"
_RECORDS: Final = "Veterinary Medicines Regulations 2013, via cheshire-bka.co.uk"
_ONTARIO: Final = "Ontario autumn tips, farms.com"
_A, _B, _D = Evidence.OFFICIAL, Evidence.PUBLISHED, Evidence.DERIVED
_row: Final = partial(CheckRow, _PART)


def two_to_one() -> Feed:
    """Return 2:1 syrup with the default settings, as the checks use it."""
    made = recipe("2:1").permille()
    return Feed(
        name=verbatim("2:1"),
        sugar_permille=made,
        density_g_per_l=density_g_per_l(made),
        stores_g_per_kg_sugar=stores_g_per_kg_sugar(made),
        uptake_ml_per_day=2_000,
        mix_ml_per_day=1_000_000,
        mix_ml_per_h=200_000,
        ready_ml=0,
        sugar_g=None,
        bought=False,
        day_use_g=DAY_USE_G,
        cover_warn_min=None,
        round_to_ml=500,
    )


def rows() -> tuple[CheckRow, ...]:
    """Return the rows of this part."""
    return (*_austria(), *_winter(), *_pace(), *_strips(), *_derived())


def _austria() -> tuple[CheckRow, ...]:
    lack = need_g(20_000, 5_000)
    six = 6 * 5_000
    return (
        _row(phrase("20 kg wanted, 5 kg present"), lack / 1000, 15.0, "kg", 0.0, _B, _AUSTRIA),
        _row(
            phrase("sugar for 6 colonies x 5 kg at 1.2 kg stores per kg"),
            sugar_for_stores_g(six, 1_200) / 1000,
            25.0,
            "kg",
            0.0,
            _B,
            _AUSTRIA,
        ),
    )


def _winter() -> tuple[CheckRow, ...]:
    return (
        _row(
            phrase("4 months with brood and 3 without"),
            winter_use_g(4, 3) / 1000,
            15.0,
            "kg",
            0.0,
            _B,
            "bienenundnatur.de",
        ),
        _row(
            phrase("winter stores, single brood box"),
            target("temperate", 1).use_g / 1000,
            20.0,
            "kg",
            0.0,
            _B,
            _BBKA,
            stated=True,
        ),
        _row(
            phrase("winter stores, brood and a half"),
            target("temperate", 2).use_g / 1000,
            25.0,
            "kg",
            0.0,
            _B,
            _BBKA,
            stated=True,
        ),
        _row(
            phrase("winter stores, cold winters, least"),
            target("cold", 1).use_g / POUND_G,
            60.0,
            "lb",
            0.01,
            _B,
            "antherapiary",
            stated=True,
        ),
        _row(
            phrase("strong colony with brood, a month"),
            DAY_USE_G * 30 / 1000,
            15.0,
            "kg",
            0.0,
            _B,
            "quarrylifeaward.cz 2018",
            stated=True,
        ),
    )


def _pace() -> tuple[CheckRow, ...]:
    nine_ml = round(recipe("1 kg + 630 ml").litres(9_000) * 1000)
    two_gallons = round(2 * US_GALLON_ML)
    return (
        _row(
            phrase("days for 9 kg of sugar at 2.3 L a day"),
            emptied_min(nine_ml, 2_300) / 1440,
            5.0,
            "d",
            0.1,
            _B,
            _KILLOWEN,
        ),
        _row(
            phrase("days for 2 US gallons at 1.5 L a day"),
            emptied_min(two_gallons, 1_500) / 1440,
            5.0,
            "d",
            0.1,
            _B,
            "cowetabeekeepers.org",
        ),
        _row(
            phrase("syrup is taken down well above"),
            FEED_GOOD_C,
            12.8,
            "C",
            0.3,
            _B,
            _ONTARIO,
            stated=True,
        ),
        _row(
            phrase("syrup is hardly taken below"),
            FEED_LEAST_C,
            10.0,
            "C",
            0.0,
            _B,
            "pugetsoundbees.org",
            stated=True,
        ),
    )


def _strips() -> tuple[CheckRow, ...]:
    amitraz, formic, thymol = STRIPS["amitraz"], STRIPS["formic acid"], STRIPS["thymol"]
    facts = (
        (
            phrase("amitraz strips for a brood box"),
            amitraz.per_brood_box,
            2.0,
            "strips",
            _A,
            "Austrian package text, medikamio.com",
        ),
        (phrase("formic acid strips for a hive"), formic.per_brood_box, 2.0, "strips", _B, _FORMIC),
        (phrase("formic acid, days in"), formic.out_after_days, 7.0, "d", _B, _FORMIC),
        (phrase("formic acid, days without feed"), formic.no_feed_days, 7.0, "d", _B, _FORMIC),
        (phrase("formic acid, coldest"), formic.low_c, 10.0, "C", _B, _FORMIC),
        (phrase("formic acid, hottest"), formic.high_c, 29.5, "C", _B, _FORMIC),
        (
            phrase("formic acid, fewest frames of bees"),
            formic.frames_least,
            6.0,
            "frames",
            _B,
            _FORMIC,
        ),
        (
            phrase("thymol strips of 15 g for a brood box"),
            thymol.per_brood_box,
            1.0,
            "strips",
            _A,
            "Austrian package text, medikamio.com",
        ),
        (
            phrase("thymol, first day due out"),
            thymol.out_after_days,
            21.0,
            "d",
            _D,
            "half of 6 weeks, the package text's least",
        ),
        (
            phrase("thymol, last day due out"),
            thymol.out_before_days,
            28.0,
            "d",
            _D,
            "half of 8 weeks, the package text's most",
        ),
        (phrase("thymol, least mean temperature"), thymol.low_c, 15.0, "C", _A, _SPC),
        (phrase("thymol, hottest"), thymol.high_c, 30.0, "C", _A, _SPC),
        (phrase("fields of a medicine record"), len(RECORD_FIELDS), 9.0, "fields", _A, _RECORDS),
        (phrase("years to keep it"), RECORD_YEARS, 5.0, "years", _A, _RECORDS),
        (
            phrase("amitraz, first day due out"),
            amitraz.out_after_days,
            42.0,
            "d",
            Evidence.MEMORY,
            "6 weeks; trade press 6 to 8",
        ),
        (
            phrase("amitraz, last day due out"),
            amitraz.out_before_days,
            70.0,
            "d",
            Evidence.MEMORY,
            "up to 10 weeks with brood",
        ),
    )
    return tuple(
        _row(what, float(ours or 0), value, unit, 0.0, evidence, source, stated=True)
        for what, ours, value, unit, evidence, source in facts
    )


def _derived() -> tuple[CheckRow, ...]:
    feed = two_to_one()
    syrup_kg = 15_000 * feed.density_g_per_l / 1_000_000
    poured = pouring(15 * stores_g_per_l(feed), feed, 10_000)
    return (
        _row(
            phrase("sugar in 15 L of 2:1"),
            sugar_for_g(15_000, feed) / 1000,
            13.3,
            "kg",
            0.05,
            _D,
            f"{_ONTARIO}, 15 L",
        ),
        _row(phrase("mass of 15 L of 2:1"), syrup_kg, 19.9, "kg", 0.05, _D, f"{_ONTARIO}, 15 L"),
        _row(
            phrase("stores from 15 L of 2:1"),
            15 * stores_g_per_l(feed) / 1000,
            14.9,
            "kg",
            0.1,
            _D,
            f"{_ONTARIO}, 15 L",
        ),
        _row(
            phrase("litres poured for those stores"),
            poured.total_ml() / 1000,
            15.0,
            "L",
            0.0,
            _D,
            f"{_ONTARIO}, 15 L",
        ),
        _row(
            phrase("2 kg of fondant, strong colony"),
            cover_min(2_000, None) / 1440,
            4.0,
            "d",
            0.0,
            _D,
            "2 kg / 0.5 kg a day",
        ),
        _row(
            phrase("2 kg of fondant at 3 kg a month"),
            cover_min(2_000, None, 100) / 1440,
            20.0,
            "d",
            0.0,
            _D,
            "2 kg / 0.1 kg a day",
        ),
    )
