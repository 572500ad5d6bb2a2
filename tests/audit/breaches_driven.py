"""Planted breaches of what has been driven: it is past judging, and stays as it was."""

from dataclasses import replace

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Aboard, Action, Brought, Job, Spare
from tests.audit.feeder_plan import feeders_fetched
from tests.audit.plans import boards, plain
from tests.audit.planted import Edge, Planted, Table, edited
from tests.audit.writing import goods

OFF = "shifts.0.trips.0"
FEED = "shifts.1.trips.0"


def half_driven() -> Plan:
    """The plain plan at 5:00 on day 1: take-off and spinning of day 0 done, the feed to come.

    The truck with the syrup leaves home at 8:00, minute 1440 + 480.
    """
    return edited(plain(), {f"{OFF}.driven": True, "now_min": 1440 + 300})


def feed_out() -> Plan:
    """The same at 8:19 on day 1: the truck has loaded the syrup, all of its stops are to come."""
    return edited(half_driven(), {f"{FEED}.driven": True, "now_min": 1939})


def blocks_out() -> Plan:
    """The plain plan at 7:50 on day 0: the truck has loaded its blocks."""
    return edited(plain(), {f"{OFF}.driven": True, "now_min": 470})


def boards_out() -> Plan:
    """The plan with boards at 14:45 on day 0: the first ten are on their way."""
    return edited(boards(), {f"{OFF}.driven": True, "now_min": 885})


def feeders_out() -> Plan:
    """The plan with feeders at 8:17 on day 1: ten are on their way."""
    return edited(
        feeders_fetched(), {f"{OFF}.driven": True, f"{FEED}.driven": True, "now_min": 1937}
    )


UNDER_WAY = (feed_out, blocks_out, boards_out, feeders_out)

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
    Planted("count", half_driven, {f"{OFF}.brought": (Brought(700, "syrup", -1),)}, "off"),
    Planted("count", half_driven, {f"{FEED}.brought": (Brought(1700, "syrup", 0),)}, "feed"),
    # The trip is over at 10:16, minute 616; it is 5:00 on day 1, minute 1740.
    Edge(
        "count",
        half_driven,
        f"{OFF}.brought",
        (Brought(616, "syrup", 1),),
        (Brought(615, "syrup", 1),),
        "off",
    ),
    Edge(
        "count",
        half_driven,
        f"{OFF}.brought",
        (Brought(1740, "syrup", 1),),
        (Brought(1741, "syrup", 1),),
        "off",
    ),
    Planted(
        "count",
        half_driven,
        {f"{OFF}.calls.1.counted": (Action(Job.TAKE_OFF, -1),)},
        "off",
        "yard1",
    ),
    Planted(
        "count",
        half_driven,
        {f"{OFF}.calls.2.planned": (Action(Job.TAKE_OFF, 1, wet=-1),)},
        "off",
        "yard2",
    ),
    *(
        Edge("aboard", half_driven, f"{OFF}.calls.1.after.{name}", right, right + 1, "off", "yard1")
        for name in Aboard.__slots__
        if not name.startswith("places")
        for right in (getattr(plain().shifts[0].trips[0].calls[1].after, name),)
    ),
    Edge("feed amount", feed_out, f"{FEED}.calls.1.actions.0.ml", 85_000, 84_999, "feed", "yard1"),
    Edge("feed amount", feed_out, f"{FEED}.calls.2.actions.0.round", 1, 2, "feed", "yard2"),
    Edge("strip dose", feed_out, f"{FEED}.calls.1.actions.1.pieces", 20, 10, "feed", "yard1"),
    Edge("strips at once", feed_out, f"{FEED}.calls.2.actions.1.colonies", 10, 9, "feed", "yard2"),
    Edge(
        "blocks at take-off", blocks_out, f"{OFF}.calls.2.actions.1.pieces", 10, 9, "off", "yard2"
    ),
    Edge("board count", boards_out, f"{OFF}.calls.1.actions.0.pieces", 10, 9, "first", "yard1"),
    Edge("feeders", feeders_out, f"{FEED}.calls.1.actions.0.feeders", 10, 9, "feed", "yard1"),
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
