"""Planted breaches of what has been driven: it is past judging, and stays as it was."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Spare
from tests.audit.plans import plain
from tests.audit.planted import Planted, Table, edited
from tests.audit.writing import goods

OFF = "shifts.0.trips.0"
FEED = "shifts.1.trips.0"


def half_driven() -> Plan:
    """The plain plan at 5:00 on day 1: take-off and spinning of day 0 done, the feed to come.

    The truck with the syrup leaves home at 8:00, minute 1440 + 480.
    """
    return edited(plain(), {f"{OFF}.driven": True, "now_min": 1440 + 300})


DRIVEN: Table = (
    Planted("past", half_driven, {f"{OFF}.driven": False}, "off"),
    Planted("past", half_driven, {f"{FEED}.driven": True}, "feed"),
    Planted("past", plain, {f"{OFF}.driven": True}, "off"),
    Planted("past", half_driven, {"now_min": 449}, "off"),
    Planted("count", half_driven, {f"{OFF}.left": goods(-1, 0)}, "off"),
    Planted("count", half_driven, {f"{OFF}.left": goods(1, 0, ml=-1)}, "off"),
    Planted("count", half_driven, {f"{FEED}.left": goods(1, 0)}, "feed"),
    Planted("count", half_driven, {f"{OFF}.left_strips": (Spare("thymol", -1),)}, "off"),
    Planted("count", half_driven, {f"{FEED}.left_strips": (Spare("thymol", 1),)}, "feed"),
)

REWRITTEN = (
    ({f"{OFF}.calls.1.actions.0.boxes": 14}, "off"),
    ({"shifts.0.crew": ("ann",)}, "off"),
    ({"shifts.0.end_min": 700}, "off"),
    ({"shifts": lambda shifts: shifts[1:]}, "off"),
    ({"shifts": lambda shifts: (replace(shifts[0], day=0, truck="other"), *shifts)}, "off"),
    ({"spinning.0.boxes": 29}, ""),
    ({"mixing.0.ml": 1}, ""),
)
"""Edits of the half-driven plan that change its past, and the trip they are found at."""
