"""A good plan with strips of two substances, worked out by hand, and breaches planted in it."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.outfit.stores import Strips
from tests.audit.plans import plain
from tests.audit.planted import Edge, Planted, Table, edited
from tests.audit.writing import STRIPS_10

PADS = Strips("formic acid", 3, 30, 7, 14, 0, "pads", each_g=50, each_cents=450)
DOUBLE = Strips("amitraz", 3, 50, 42, 70, 0, "double")
_FEED = "shifts.1.trips.0.calls"


def two_substances() -> Plan:
    """The plain plan, but the second yard gets three pads of 50 g and 4.50 for each colony.

    20 strips of 10 g and 30 pads leave the store, 200 + 1,500 g beside 225,590 g of syrup and
    10,500 g of cans; the pads alone are aboard after the first yard, beside 112,795 g of syrup.
    They cost 20 x 200 + 30 x 450 = 17,500 cents.
    """
    return edited(
        plain(),
        {
            "outfit.strips.stock": 20,
            "outfit.strips_also": (PADS,),
            "outfit.yards.1.strips": "pads",
            f"{_FEED}.0.after.strips": 50,
            f"{_FEED}.0.after.load_g": 225_590 + 10_500 + 200 + 1_500,
            f"{_FEED}.1.after.strips": 30,
            f"{_FEED}.1.after.load_g": 112_795 + 10_500 + 1_500,
            f"{_FEED}.2.actions.1": replace(STRIPS_10, pieces=30),
            "bill.strips": 17_500,
        },
    )


def two_doses() -> Plan:
    """The plain plan, but the second yard gets three strips a colony of the same substance.

    50 strips of 10 g at 2.00; 30 are left after the first yard.
    """
    return edited(
        plain(),
        {
            "outfit.strips.stock": 50,
            "outfit.strips_also": (DOUBLE,),
            "outfit.yards.1.strips": "double",
            f"{_FEED}.0.after.strips": 50,
            f"{_FEED}.0.after.load_g": 225_590 + 10_500 + 500,
            f"{_FEED}.1.after.strips": 30,
            f"{_FEED}.1.after.load_g": 112_795 + 10_500 + 300,
            f"{_FEED}.2.actions.1": replace(STRIPS_10, pieces=30),
            "bill.strips": 10_000,
        },
    )


STRIPS: Table = (
    Planted("reference", two_substances, {"outfit.yards.1.strips": "pad"}, "", "yard2"),
    Planted("facts", two_substances, {"outfit.strips_also": (PADS, PADS)}),
    Planted("facts", two_substances, {"outfit.strips_also": (replace(PADS, id=""),)}),
    Edge("strip dose", two_substances, "outfit.strips_also.0.per_colony", 3, 4, "feed", "yard2"),
    Planted("strip dose", two_substances, {"outfit.yards.1.strips": ""}, "feed", "yard2"),
    Planted("strip dose", two_substances, {"outfit.yards.0.strips": "pads"}, "feed", "yard1"),
    Edge("feeding ban", two_substances, "outfit.strips_also.0.no_feed_days", 0, 1, "feed", "yard2"),
    Edge("feeding ban", two_substances, "outfit.strips.no_feed_days", 0, 1, "feed", "yard1"),
    Edge("strips in stock", two_substances, "outfit.strips_also.0.stock", 30, 29, "feed", "yard2"),
    Edge("strips in stock", two_substances, "outfit.strips.stock", 20, 19, "feed", "yard1"),
    Edge("strips in stock", two_doses, "outfit.strips.stock", 50, 49, "feed", "yard2"),
    Edge("strips in stock", two_doses, "outfit.strips_also.0.stock", None, 49, "feed", "yard2"),
    Edge("aboard", two_substances, "outfit.strips_also.0.each_g", 50, 51, "feed"),
    Edge("aboard", two_doses, "outfit.strips_also.0.each_g", None, 11, "feed"),
    Edge("bill", two_substances, "outfit.strips_also.0.each_cents", 450, 451),
    Edge("bill", two_doses, "outfit.strips_also.0.each_cents", None, 201),
)
"""Breaches of what a yard's own kind of strips asks for."""
