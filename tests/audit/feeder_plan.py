"""A good plan in which feeders are fetched, worked out by hand, and breaches planted in it."""

from dataclasses import replace

from runplanner.daybook.plan import Bill, Mixing, Plan, Spinning
from runplanner.daybook.trip import Action, Job, Shift, Trip
from tests.audit.planted import Edge, Planted, Table, edited
from tests.audit.writing import (
    BLOCK_10,
    BOTH,
    EMPTY,
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

FEED_10_AND_FEEDERS = Action(Job.FEED, 10, round=1, ml=85_000, feeders=10)
OFF = Action(Job.FEEDERS, 10, feeders_off=10)


def feeders_fetched() -> Plan:
    """One yard off on day 0, fed with ten feeders at 8:27 on day 1, these fetched on day 5.

    8.5 L at 2 L a day are down after 6,120 min, at 14:27 on day 5; they are fetched at 15:25.
    A feeder weighs 1.2 kg, ten stand on a deck place, and take 45 s each, by two people.
    """
    outfit = an_outfit([(10, 0)], [a_yard(1)])
    outfit = replace(outfit, kit=replace(outfit.kit, feeders_owned=10))
    off = Trip(
        "off",
        (
            load((450, 465), 465, goods(21_000, 1, blocks=10)),
            visit(1, (475, 530), 530, goods(240_000, 3, boxes=15), OFF_10, BLOCK_10, start=480,
                  limit=68),
            unload((540, 554), 554, EMPTY),
        ),
        (),
    )  # fmt: skip
    feed = Trip(
        "feed",
        (
            # 85 l 112,795 g, 4 cans 6,000 g, 20 strips 200 g, 10 feeders 12,000 g: 17 min.
            load((1920, 1937), 1937, goods(130_995, 5, ml=85_000, strips=20, feeders=10)),
            # 10 x 120 + 10 x 60 s by two: 15 + 10 min.
            visit(1, (1947, 1972), 1972, goods(6_000, 4), FEED_10_AND_FEEDERS, STRIPS_10),
            unload((1982, 1992), 1992, goods(6_000, 4)),
        ),
        cans(4),
    )
    fetch = Trip(
        "fetch",
        (
            load((8100, 8115), 8115, EMPTY),
            # 450 s by two: 4 + 10 min.
            visit(1, (8125, 8139), 8139, goods(12_000, 1, feeders=10), OFF),
            unload((8149, 8159), 8159, EMPTY),
        ),
        (),
    )
    shifts = (
        Shift(0, "truck1", "", BOTH, 450, 554, 20, 20_000, (), (off,)),
        Shift(1, "truck1", "", BOTH, 1920, 1992, 20, 20_000, (), (feed,)),
        Shift(5, "truck1", "", BOTH, 8100, 8159, 20, 20_000, (), (fetch,)),
    )
    # 60 km x 60; 3 x 4,000; (104 + 72 + 59) x 2 x 50; 75 x 50; 26 x 50; 10 x 400; 85 x 150;
    # 20 x 200.
    bill = Bill(3_600, 12_000, 23_500, 0, 3_750, 1_300, 4_000, 12_750, 4_000, 0, 0, 0)
    spinning = (Spinning(720, 795, ("bob",), 15),)
    return plan_of(outfit, shifts, spinning, (Mixing(-960, -934, "bob", 85_000),), bill)


def shut_at_noon() -> Plan:
    """The same, but hives are fit for opening until noon only."""
    return edited(feeders_fetched(), {"outfit.yards.0.open_spans": daily(480, 720, range(6))})


_FEED, _FETCH = (f"shifts.{number}.trips.0.calls.1.actions" for number in (1, 2))

FEEDERS: Table = (
    Edge("feeders off", feeders_fetched, f"{_FETCH}.0.feeders_off", 10, 9, "fetch", "yard1"),
    Edge("feeders off", feeders_fetched, f"{_FETCH}.0.feeders_off", 10, 11, "fetch", "yard1"),
    # 6,178 min after the feed 8.5 L are down at 1,982 ml a day, not at 1,981.
    Edge("colonies", feeders_fetched, f"{_FETCH}.0.colonies", 10, 11, "fetch", "yard1"),
    Edge("feeders off", feeders_fetched, "outfit.feed.uptake_ml_per_day", 1_982, 1_981, "fetch",
         "yard1"),
    Edge("feeders off", feeders_fetched, "outfit.yards.0.colonies", 10, 11, "fetch", "yard1"),
    Planted("feeders off", feeders_fetched, {_FEED: (STRIPS_10,)}, "fetch", "yard1"),
    Planted("feeders off", feeders_fetched, {"outfit.kit.feeders_owned": None,
            f"{_FEED}.0.feeders": 0}, "fetch", "yard1"),
    Edge("feeders owned", feeders_fetched, "outfit.kit.feeders_owned", 10, 9, "feed"),
    Edge("work minutes", feeders_fetched, "outfit.pace.feeder_s", 48, 49, "fetch", "yard1"),
    # Off from 15:25 to 15:39, 939.
    Edge("dry hours", shut_at_noon, "outfit.yards.0.feed_spans", daily(480, 939, range(6)),
         daily(480, 938, range(6)), "fetch", "yard1"),
    Planted("health", feeders_fetched, {"outfit.yards.0.health": "standstill"}, "fetch", "yard1"),
    Planted("aboard", feeders_fetched, {"shifts.2.trips.0.calls.1.after.feeders": 9}, "fetch",
            "yard1"),
    Planted("entry", feeders_fetched, {f"{_FETCH}.0.feeders": 1}, "fetch", "yard1"),
)  # fmt: skip
"""Breaches of what fetching feeders must keep."""
