"""A good plan with wet boxes, worked out by hand, and breaches planted in it."""

from dataclasses import replace

from runplanner.daybook.plan import Bill, Mixing, Plan, Spinning
from runplanner.daybook.trip import Action, Job, Shift, Trip
from tests.audit.planted import Edge, Planted, Table, edited
from tests.audit.writing import (
    BLOCK_10,
    BOTH,
    EMPTY,
    FEED_10,
    OFF_10,
    STRIPS_10,
    cans,
    goods,
    load,
    plan_of,
    unload,
    visit,
)
from tests.outfits import a_yard, an_outfit, daily

UP_15 = Action(Job.WET_UP, 10, wet=15)
DOWN_15 = Action(Job.WET_DOWN, 10, wet=15)


def wet_boxes() -> Plan:
    """One yard off on day 0, its boxes back up at 16:00 on day 1, down with feed on day 4.

    The block of 2,100 g lasts 4.2 days, to 12:48 on day 4.  Wet boxes of twice 4.5 kg in
    three columns; 60 s each to put up, 30 s to load or unload, by two people.
    """
    outfit = an_outfit([(10, 0)], [replace(a_yard(1), wet_back=True)])
    outfit = replace(outfit, rules=replace(outfit.rules, wet_least_days=2, wet_best_days=2))
    off = Trip(
        "off",
        (
            load((450, 465), 1020, goods(21_000, 1, blocks=10)),
            visit(1, (475, 530), 1080, goods(240_000, 3, boxes=15), OFF_10, BLOCK_10, start=480,
                  limit=68),
            # 15 boxes x 30 s / 2 people = 3.75, so 4 min + 10.
            unload((540, 554), 1110, EMPTY),
        ),
        (),
    )  # fmt: skip
    up = Trip(
        "up",
        (
            # 15 min and 15 x 30 s by two, 4 min.
            load((2370, 2389), 2592, goods(135_000, 3, wet=15)),
            # 10 min and 15 x 60 s by two, 8 min, from 16:00 (2,400).
            visit(1, (2399, 2418), 2620, EMPTY, UP_15, start=2400),
            unload((2428, 2438), 2640, EMPTY),
        ),
        (),
    )
    down = Trip(
        "down",
        (
            # 85 l 112,795 g, 4 cans 6,000 g, 20 strips 200 g; 15 + ceil(1.7) min.
            load((6240, 6257), 6500, goods(118_995, 4, ml=85_000, strips=20)),
            # 15 x 60 + 10 x 120 + 10 x 60 = 2,700 s by two: 23 + 10 min.
            visit(1, (6267, 6300), 6876, goods(141_000, 7, wet=15), DOWN_15, FEED_10, STRIPS_10),
            unload((6310, 6324), 6900, goods(6_000, 4)),
        ),
        cans(4),
    )
    shifts = (
        Shift(0, "truck1", "", BOTH, 450, 554, 20, 20_000, (), (off,)),
        Shift(1, "truck1", "", BOTH, 2370, 2438, 20, 20_000, (), (up,)),
        Shift(4, "truck1", "", BOTH, 6240, 6324, 20, 20_000, (), (down,)),
    )
    # 60 km x 60; 3 x 4,000; (104 + 68 + 84) x 2 x 50; 75 x 50; 26 x 50; 10 x 400; 85 x 150;
    # 20 x 200; up for 3,867 min, 987 more than two days: a started day x 10 colonies x 100.
    bill = Bill(3_600, 12_000, 25_600, 0, 3_750, 1_300, 4_000, 12_750, 4_000, 0, 1_000, 0)
    spinning = (Spinning(720, 795, ("bob",), 15),)
    return plan_of(outfit, shifts, spinning, (Mixing(-960, -934, "bob", 85_000),), bill)


def shut_at_noon() -> Plan:
    """The same, but hives are fit for opening until noon only: wet boxes go up in syrup's hours."""
    return edited(wet_boxes(), {"outfit.yards.0.open_spans": daily(480, 720, range(6))})


def under_way() -> Plan:
    """The same with the truck on its way to put 14 of them up; one did not come along."""
    return edited(
        wet_boxes(),
        {
            "shifts.0.trips.0.driven": True, "shifts.1.trips.0.driven": True, "now_min": 2395,
            "shifts.1.trips.0.calls.1.actions": (replace(UP_15, wet=14),),
            "shifts.2.trips.0.calls.1.actions": (replace(DOWN_15, wet=14), FEED_10, STRIPS_10),
            "shifts.2.trips.0.calls.1.after": goods(132_000, 7, wet=14),
        },
    )  # fmt: skip


def beside_honey() -> Plan:
    """The last day alone, with honey for the house beside the store: unloads 9:10 to 9:24."""
    return edited(
        wet_boxes(),
        {"shifts.2.trips.0.calls.1.actions": (DOWN_15, OFF_10), "shifts": lambda all_: all_[2:]},
    )


_UP, _DOWN = "shifts.1.trips.0.calls.1.actions", "shifts.2.trips.0.calls.1.actions"

WET: Table = (
    Edge("wet boxes whose", wet_boxes, "outfit.yards.0.wet_back", True, False, "up", "yard1"),
    Edge("wet boxes whose", wet_boxes, f"{_UP}.0.wet", 15, 14, "up", "yard1"),
    Edge("wet boxes whose", under_way, f"{_UP}.0.wet", 14, 16, "up", "yard1"),
    Edge("wet boxes whose", wet_boxes, f"{_DOWN}.0.wet", 15, 14, "down", "yard1"),
    Edge("wet boxes whose", wet_boxes, f"{_DOWN}.0.wet", 15, 16, "down", "yard1"),
    Edge("wet boxes down", wet_boxes, f"{_DOWN}.0.wet", 15, 14, "up", "yard1"),
    Edge("undone", wet_boxes, f"{_DOWN}.0.wet", 15, 14, "", "yard1"),
    Edge("wet boxes whose", wet_boxes, f"{_DOWN}.0.colonies", 10, 9, "down", "yard1"),
    # Loaded from 2,370: spun by then, or a minute after.
    Edge("wet boxes spun", wet_boxes, "spinning.0", Spinning(2295, 2370, ("ann",), 15),
         Spinning(2296, 2371, ("ann",), 15), "up", "yard1"),
    Edge("wet boxes spun", wet_boxes, "outfit.yards.0.colonies", 10, 11, "up", "yard1"),
    Edge("wet boxes at dusk", wet_boxes, "outfit.rules.wet_from_min", 960, 961, "up", "yard1"),
    # Put up until 16:18, 978; collected on day 4.
    Edge("dry hours", shut_at_noon, "outfit.yards.0.feed_spans", daily(480, 978, range(6)),
         daily(480, 977, range(6)), "up", "yard1"),
    Planted("dry hours", wet_boxes, {"outfit.yards.0.open_spans": daily(480, 1080, range(4)),
            "outfit.yards.0.feed_spans": daily(480, 1140, range(4))}, "down", "yard1"),
    Edge("wet boxes down", wet_boxes, "outfit.rules.wet_least_days", 3, 4, "down", "yard1"),
    Planted("wet boxes down", wet_boxes, {_DOWN: (FEED_10, STRIPS_10)}, "up", "yard1"),
    Planted("wet boxes down", wet_boxes, {_UP: (BLOCK_10,)}, "down", "yard1"),
    Planted("wet boxes alone", wet_boxes, {_UP: (STRIPS_10, UP_15)}, "up", "yard1"),
    Planted("wet boxes alone", wet_boxes, {_DOWN: (FEED_10,)}, "down", "yard1"),
    Planted("wet boxes alone", wet_boxes,
            {_DOWN: (FEED_10,), "shifts.2.trips.0.driven": True}, "up", "yard1"),
    Planted("work minutes", wet_boxes, {"outfit.pace.wet_box_s": 65}, "up", "yard1"),
    Edge("work minutes", wet_boxes, "outfit.pace.unload_box_s", 32, 33, "up"),
    Edge("base hours", beside_honey, "outfit.feed_store.closes_min", 564, 563, "down"),
    Planted("aboard", wet_boxes, {"shifts.1.trips.0.calls.0.after.wet": 14}, "up"),
    Planted("aboard", wet_boxes, {"shifts.1.trips.0.calls.0.after.load_g": 0}, "up"),
    Planted("unload place", wet_boxes, {"outfit.feed_store.place": 1}, "up"),
    Edge("bill", wet_boxes, "outfit.rules.wet_best_days", 2, 3),
    Planted("health", wet_boxes, {"outfit.yards.0.health": "standstill"}, "up", "yard1"),
    Planted("undone", wet_boxes, {_UP: (BLOCK_10,)}, "", "yard1"),
)  # fmt: skip
"""Breaches of what wet boxes must keep."""
