"""Planted breaches of what concerns yards and stocks: chain, kit, syrup, honey, sums."""

from runplanner.daybook.plan import TOO_DEAR, Bill, Mixing, Plan, Relief, Spinning, Tally, Undone
from runplanner.daybook.trip import Action, Job, Shift, Trip
from runplanner.outfit.outfit import Deadline
from runplanner.outfit.yards import Clearing, Health
from runplanner.phrase import phrase
from tests.audit.breaches_driven import half_driven
from tests.audit.plans import (
    boards,
    boards_lain,
    brushed_instead,
    doubtful,
    far_away,
    fed_early,
    fed_for_its_cost,
    left_on_purpose,
    left_undone,
    plain,
    two_rounds,
    with_trailer,
    worth_leaving,
)
from tests.audit.planted import Edge, Planted, Table, edited
from tests.audit.writing import (
    BLOCK_10,
    BOARDS_10,
    BOTH,
    EMPTY,
    FEED_10,
    OFF_10,
    STRIPS_10,
    goods,
    load,
    unload,
    visit,
)

DAY = phrase("one more day")
OFF = "shifts.0.trips.0.calls"
FEED = "shifts.1.trips.0.calls"


def bared() -> Plan:
    """The plain plan on the morning of day 1, yard 1 said to be without honey, as it is."""
    return edited(half_driven(), {"outfit.yards.0.honey_off": True})


def strips_later() -> Plan:
    """The plain plan, but yard 1 gets its strips on day 3, and they forbid feed for a day."""
    trip = Trip(
        "rest",
        (
            load((4975, 4990), 5100, goods(200, 1, strips=20)),
            visit(1, (5000, 5015), 5100, EMPTY, STRIPS_10),
            unload((5025, 5035), 5100, EMPTY),
        ),
        (),
    )
    shift = Shift(3, "truck1", "", BOTH, 4975, 5035, 20, 20_000, (), (trip,))
    return edited(
        plain(),
        {
            f"{FEED}.1.actions": (FEED_10,),
            f"{FEED}.2.actions": (FEED_10,),
            "outfit.strips.no_feed_days": 1,
            "shifts": lambda shifts: (*shifts, shift),
        },
    )


def strips_over_blocks() -> Plan:
    """Such strips on day 3, and no syrup on day 1: yard 1 lives on the blocks of day 0."""
    return edited(strips_later(), {f"{FEED}.1.actions": ()})


def strips_over_a_further_block() -> Plan:
    """Such strips on day 5 where colonies that wait for syrup got a second block on day 4."""
    trip = Trip(
        "rest",
        (
            load((7650, 7665), 7800, goods(200, 1, strips=20)),
            visit(1, (7675, 7690), 7800, EMPTY, STRIPS_10),
            unload((7700, 7710), 7800, EMPTY),
        ),
        (),
    )
    shift = Shift(5, "truck1", "", BOTH, 7650, 7710, 20, 20_000, (), (trip,))
    return edited(
        left_undone(),
        {
            f"{FEED}.1.actions": (FEED_10,),
            "outfit.strips.no_feed_days": 1,
            "shifts": lambda shifts: (*shifts, shift),
        },
    )


def strips_before_feed() -> Plan:
    """Strips on day 0 without feed or fondant, and syrup on day 3; they are out by then."""
    return edited(
        two_rounds(),
        {
            "shifts.0.trips.1.calls.1.actions": (STRIPS_10,),
            "outfit.strips.no_feed_days": 1,
            "outfit.strips.out_before_days": 3,
        },
    )


STOP: Table = (
    Planted("entry", plain, {f"{OFF}.0.actions": (OFF_10,)}, "off"),
    Planted("entry", plain, {f"{OFF}.1.actions": ()}, "off", "yard1"),
    Planted("entry", plain, {f"{OFF}.1.actions": (OFF_10, OFF_10, BLOCK_10)}, "off", "yard1"),
    Planted("entry", plain, {f"{OFF}.1.actions.1.colonies": 0}, "off", "yard1"),
    Planted("entry", plain, {f"{OFF}.1.actions.1.ml": 1}, "off", "yard1"),
    Planted("entry", plain, {f"{OFF}.1.actions.0.round": 1}, "off", "yard1"),
    Planted("entry", plain, {f"{FEED}.1.actions.0.round": 0}, "feed", "yard1"),
    Planted("job order", plain, {f"{OFF}.1.actions": (BLOCK_10, OFF_10)}, "off", "yard1"),
    Planted("job order", plain, {f"{FEED}.1.actions": (STRIPS_10, FEED_10)}, "feed", "yard1"),
    Planted("job order", boards, {f"{FEED}.2.actions": (FEED_10, BOARDS_10)}, "second", "yard2"),
    Planted("health", plain, {"outfit.yards.0.health": Health.SUSPECT}, "off", "yard1"),
    Planted("health", plain, {"outfit.yards.0.health": Health.STANDSTILL}, "feed", "yard1"),
    Edge("health", left_undone, "outfit.yards.1.feed_agreed", True, False, "suspect", "yard2"),
    Edge("health", left_undone, "outfit.yards.1.boxes", 0, 1, "suspect", "yard2"),
    Planted("health", left_undone, {f"{FEED}.1.actions": (BLOCK_10,)}, "suspect", "yard2"),
    Planted("honey off", left_undone, {"outfit.yards.1.honey_off": True}, yard="yard2"),
    # 15 boxes of eleven colonies, ten off: 14; of those that died after, none.
    Edge("honey off", bared, "outfit.yards.0.struck", 0, 1, yard="yard1"),
    Edge("last yard", plain, "outfit.yards.0.health", Health.SOUND, Health.WATCH, "off", "yard1"),
    Planted("last yard", plain, {"outfit.yards.0.health": Health.SUSPECT}, "feed", "yard1"),
    Planted("last yard", plain, {"outfit.yards.0.health": Health.STANDSTILL}, "feed", "yard1"),
)

TAKE_OFF: Table = (
    Edge("colonies", plain, "outfit.yards.0.colonies", 10, 9, "off", "yard1"),
    Edge("colonies", boards, f"{OFF}.1.actions.0.colonies", 10, 11, "first", "yard1"),
    Edge("colonies", with_trailer, f"{FEED}.1.actions.1.colonies", 24, 25, "rest", "yard1"),
    Edge("box share", plain, f"{OFF}.1.actions.0.boxes", 15, 14, "off", "yard1"),
    Edge("box share", plain, "outfit.yards.0.brood_boxes_off", 0, 1, "off", "yard1"),
    # 14 of 24 colonies: 36 of 61 boxes (35.6), not 35; the other ten then 25.
    Edge("box share", with_trailer, f"{OFF}.1.actions.0.boxes", 36, 35, "part", "yard1"),
    Edge("box share", with_trailer, f"{FEED}.1.actions.0.boxes", 25, 26, "rest", "yard1"),
    Edge("box share", with_trailer, f"{FEED}.1.actions.0.brood_boxes", 5, 6, "rest", "yard1"),
    Edge("ready", plain, "outfit.yards.0.ready_from_day", 0, 1, "off", "yard1"),
    Edge("ready", with_trailer, "outfit.yards.0.finish_by_day", 1, 0, "rest", "yard1"),
    Edge("take-off deadline", with_trailer, "outfit.season.take_off_by", Deadline(1, hard=True),
         Deadline(0, hard=True), "rest", "yard1"),
    Edge("feed deadline", plain, "outfit.season.feed_by", Deadline(1, hard=True),
         Deadline(0, hard=True), "feed", "yard1"),
    Edge("feed deadline", plain, "outfit.season.feed_by", Deadline(0, hard=False),
         Deadline(0, hard=True), "feed", "yard2"),
    # The second round on day 3 has the same last day as the first.
    Edge("feed deadline", two_rounds, "outfit.season.feed_by", Deadline(3, hard=True),
         Deadline(2, hard=True), "again", "yard1"),
    Edge("strips deadline", plain, "outfit.season.strips_by", Deadline(1, hard=True),
         Deadline(0, hard=True), "feed", "yard2"),
    # On at 910, off from 1945.
    Edge("boards first", boards, "outfit.rules.board_least_min", 1_035, 1_036, "second", "yard1"),
    Planted("boards first", boards, {f"{OFF}.1.actions.0.job": Job.STRIPS}, "second", "yard1"),
    Planted("boards first", boards, {"shifts.1.day": 0}, "second", "yard1"),
    Planted("boards first", plain, {"outfit.yards.0.clearing": Clearing.BOARDS}, "off", "yard1"),
    Edge("board count", boards, f"{OFF}.1.actions.0.pieces", 10, 9, "first", "yard1"),
    Edge("board count", boards, f"{FEED}.1.actions.0.boards_off", 10, 9, "second", "yard1"),
    Edge("board count", plain, f"{OFF}.1.actions.0.boards_off", 0, 10, "off", "yard1"),
    Planted("board count", boards, {"outfit.yards.0.clearing": Clearing.BRUSH}, "first", "yard1"),
    Edge("board count", brushed_instead, f"{OFF}.1.actions.0.boards_off", 0, 10, "off", "yard1"),
    Edge("way of clearing", brushed_instead, f"{OFF}.1.actions.0.way", Clearing.BRUSH,
         Clearing.BLOWER, "off", "yard1"),
    Edge("way of clearing", brushed_instead, "outfit.yards.0.clearing_else", Clearing.BRUSH, None,
         "off", "yard1"),
    Planted("boards first", brushed_instead, {f"{OFF}.1.actions.0.way": None}, "off", "yard1"),
    # Ten boards stand under ten colonies that are brushed; and nobody fetches them.
    Planted("boards left", boards, {"outfit.yards.0.clearing_else": Clearing.BRUSH,
            f"{FEED}.1.actions.0.way": Clearing.BRUSH}, "second", "yard1"),
    Planted("boards left", boards, {"shifts.2.trips.0.calls.2.actions": (FEED_10, STRIPS_10)},
            "second", "yard2"),
    # Since 8:00 the day before, off from 8:00: 24 hours.
    Edge("boards first", boards_lain, "outfit.rules.board_least_min", 1_440, 1_441, "off", "yard1"),
    Edge("bill", boards_lain, "outfit.rules.board_best_min", 1_440, 1_439),
    Planted("board count", boards_lain, {f"{OFF}.1.actions.0.boards_off": 0}, "off", "yard1"),
    # Two of twelve died: twelve boards lie there, and the store has none.
    Planted("board count", boards_lain, {"outfit.yards.0.boards_dead": 2,
                                         "outfit.kit.boards_owned": 12}, "off", "yard1"),
    Planted("boards owned", boards, {"outfit.yards.1.boards_on_min": -960}, "first"),
    Planted("boards owned", boards, {"outfit.yards.1.boards_on_min": -960,
                                     "outfit.yards.1.boards_dead": 1,
                                     "outfit.kit.boards_owned": 20}, "first"),
)  # fmt: skip

COVER: Table = (
    Planted("blocks at take-off", plain, {f"{OFF}.1.actions": (OFF_10,)}, "off", "yard1"),
    Edge("blocks at take-off", plain, f"{OFF}.1.actions.1.colonies", 10, 9, "off", "yard1"),
    Edge("blocks at take-off", plain, f"{OFF}.1.actions.1.pieces", 10, 20, "off", "yard1"),
    Edge("blocks at take-off", plain, "outfit.rules.blocks", 1, 2, "off", "yard1"),
    # Fed in the same stop: no blocks.
    Planted("blocks at take-off", with_trailer,
            {f"{FEED}.1.actions": lambda jobs: (jobs[0], BLOCK_10, *jobs[1:])},
            "rest", "yard1"),
    # Fed later the same day: spared only where a second trip may spare it.
    Edge("blocks at take-off", two_rounds, "outfit.rules.same_day_second_trip", True, False,
         "off", "yard1"),
    # Stores at the target: nothing to feed, nothing to bridge.
    Edge("blocks at take-off", plain, "outfit.yards.0.stores_g", 7_999, 8_000, "off", "yard1"),
    Edge("further blocks", left_undone, "shifts.3.trips.0.calls.1.actions.0.pieces", 10, 15,
         "block", "yard1"),
    Edge("further blocks", left_undone, "shifts.3.trips.0.calls.1.actions.0",
         Action(Job.BLOCK, 10, pieces=10), Action(Job.BLOCK, 11, pieces=11), "block", "yard1"),
    Planted("further blocks", left_undone,
            {"shifts.3.trips.0.calls.1.actions": (BLOCK_10, STRIPS_10)}, "block", "yard1"),
    # A block before the take-off.
    Planted("further blocks", left_undone, {f"{OFF}.1.actions": (BLOCK_10,)}, "on", "yard1"),
    # Off from 480, fed from 1949: 2,100 g must last 1,469 min and a bit: 2,057 g a day do
    # (1,470 min), 2,058 do not (1,469).  Yard 2, 534 to 1978, comes within 1,444 min.
    Edge("cover", plain, "outfit.feed.day_use_g", 2_057, 2_058, "feed", "yard1"),
    # Off from 4825: two blocks must last the 3,815 min to the end of day 5, 8,640.
    Edge("cover", left_undone, "outfit.feed.day_use_g", 1_585, 1_586, "off", "yard1"),
    # One block ends before the second comes, 1,440 min on: 2,100 g x 1,440 / 2,100 g.
    Planted("cover", left_undone, {"outfit.feed.day_use_g": 2_100}, "block", "yard1"),
    Edge("cover", two_rounds, "outfit.rules.same_day_second_trip", True, False, "fed", "yard1"),
)  # fmt: skip

FEEDING: Table = (
    Planted("honey off first", with_trailer,
            {f"{OFF}.1.actions": lambda jobs: (*jobs, Action(Job.FEED, 14, round=1, ml=77_000))},
            "part", "yard1"),
    Planted("honey off first", plain, {f"{OFF}.1.actions": (BOARDS_10,)}, "feed", "yard1"),
    Edge("feed amount", plain, f"{FEED}.1.actions.0.ml", 85_000, 84_999, "feed", "yard1"),
    Edge("feed amount", plain, f"{FEED}.1.actions.0.round", 1, 2, "feed", "yard1"),
    # 8,073 ml: in steps of 9,000 a colony gets 9,000; in steps of 500, 8,500.
    Edge("feed amount", plain, "outfit.feed.round_to_ml", 500, 9_000, "feed", "yard1"),
    # A feeder of 8,072 ml takes two rounds.
    Edge("feed amount", plain, "outfit.yards.0.feeder_ml", 8_500, 8_072, "feed", "yard1"),
    # Rounds start at 614 and 4826: 4,500 ml x 1,440 / 1,539 = 4,211 min, / 1,538 = 4,214.
    Edge("feed spacing", two_rounds, "outfit.feed.uptake_ml_per_day", 1_539, 1_538,
         "again", "yard1"),
    Planted("feed spacing", two_rounds,
            {"shifts.0.trips.1.calls.1.actions": (STRIPS_10,)}, "again", "yard1"),
    Planted("strips after honey", with_trailer,
            {f"{OFF}.1.actions": lambda jobs: (*jobs, Action(Job.STRIPS, 24, pieces=48))},
            "part", "yard1"),
    Edge("strips at once", plain, f"{FEED}.1.actions.1", STRIPS_10,
         Action(Job.STRIPS, 9, pieces=18), "feed", "yard1"),
    Planted("strips at once", two_rounds,
            {"shifts.1.trips.0.calls.1.actions": lambda jobs: (*jobs, STRIPS_10)},
            "again", "yard1"),
    Edge("strip dose", plain, f"{FEED}.1.actions.1.pieces", 20, 19, "feed", "yard1"),
    Edge("strip dose", plain, "outfit.strips.per_colony", 2, 3, "feed", "yard2"),
    # Strips on day 0 with feed; feed again on day 3.
    Edge("feeding ban", plain, "outfit.strips.no_feed_days", 0, 1, "feed", "yard1"),
    Planted("feeding ban", two_rounds, {"outfit.strips.no_feed_days": 4}, "again", "yard1"),
    # Syrup from minute 1949 of day 1, strips from 5000 of day 3, nearly 3,051 min later: the
    # 8.5 l are down in time at 4,012 ml a day (1440 x 8,500 / 4,012 = 3,050.8), not at 4,011.
    Edge("feeding ban", strips_later, "outfit.feed.uptake_ml_per_day", 4_012, 4_011,
         "rest", "yard1"),
    # 2,100 g from minute 480 on are eaten by 5,000 at 669 g a day (4,520 min), not at 668.
    Edge("feeding ban", strips_over_blocks, "outfit.feed.day_use_g", 669, 668, "rest", "yard1"),
    # From 6,265 to 7,675 it takes 2,144 g a day (1,410 min).
    Edge("feeding ban", strips_over_a_further_block, "outfit.feed.day_use_g", 2_144, 2_143,
         "rest", "yard1"),
    # Strips on day 3 of the watched yard, and a block on day 4.
    Planted("feeding ban", left_undone,
            {"shifts.2.trips.0.calls.1.actions": lambda jobs: (*jobs, STRIPS_10),
             "outfit.strips.no_feed_days": 2}, "block", "yard1"),
    # The second of strips given twice go in on the day of that syrup at the latest.
    Edge("feeding ban", strips_before_feed, "outfit.strips.twice", False, True, "again", "yard1"),
    Edge("smallest lot", with_trailer, "outfit.rules.smallest_lot", 10, 11, "rest", "yard1"),
    Planted("smallest lot", plain, {f"{FEED}.1.actions.0.colonies": 2}, "feed", "yard1"),
)  # fmt: skip

STOCKS: Table = (
    Edge("boards owned", boards, "outfit.kit.boards_owned", 10, 9, "first"),
    # Yard 1's ten are still out when ten more are loaded.
    Planted("boards owned", boards, {f"{FEED}.0.after.boards": 1}, "second"),
    Planted("boards aboard", boards, {f"{OFF}.0.after.boards": 9}, "first", "yard1"),
    Planted("boards aboard", boards,
            {f"{FEED}.1.actions": lambda jobs: (BOARDS_10, *jobs)}, "second", "yard1"),
    Edge("blocks owned", plain, "outfit.kit.blocks_owned", 20, 19, "off", "yard2"),
    Edge("strips in stock", plain, "outfit.strips.stock", 40, 39, "feed", "yard2"),
    Edge("feeders", with_trailer, f"{FEED}.1.actions.1.feeders", 24, 23, "rest", "yard1"),
    Edge("feeders", plain, f"{FEED}.1.actions.0.feeders", 0, 10, "feed", "yard1"),
    Edge("feeders", two_rounds, "shifts.1.trips.0.calls.1.actions.0.feeders", 0, 10,
         "again", "yard1"),
    Edge("feeders owned", with_trailer, "outfit.kit.feeders_owned", 24, 23, "rest"),
    Edge("mixer", plain, "outfit.people.1.mixes", True, False),
    Edge("mixing time", plain, "mixing.0.start_min", -1_440, -1_441),
    Planted("mixing time", plain, {"mixing.0.end_min": -960}),
    Edge("mixing time", plain, "mixing.0.end_min", 0, 1),
    # Six days: the last minute of day 5 is 8,639.
    Edge("mixing time", plain, "mixing.0", Mixing(8_589, 8_640, "bob", 170_000),
         Mixing(8_640, 8_691, "bob", 170_000)),
    # 170 l are loaded.
    Edge("syrup wanted", plain, "mixing.0.ml", 170_000, 170_001),
    Edge("syrup wanted", plain, "outfit.feed.ready_ml", 0, 1),
    # Mixed from 480 to 531 of the day before.
    Edge("mixing hours", plain, "outfit.feed_store.opens_min", 480, 481),
    Edge("mixing hours", plain, "outfit.feed_store.closes_min", 531, 530),
    Edge("mixing hours", plain, "outfit.honey_house.spin_from_min", 480, 481),
    # One minute is both, and no mixing in it.
    Planted("mixing hours", plain, {"outfit.honey_house.spin_from_min": 530,
                                    "outfit.feed_store.closes_min": 531}),
    Edge("mixing pace", plain, "mixing.0.ml", 170_000, 170_001),
    Edge("mixing pace", plain, "outfit.feed.mix_ml_per_h", 200_000, 199_999),
    Edge("mixing day", plain, "outfit.feed.mix_ml_per_day", 170_000, 169_999),
    Planted("mixing day", plain, {
        "mixing": (Mixing(-960, -909, "bob", 170_000), Mixing(-60, -59, "bob", 3_000)),
        "outfit.feed.mix_ml_per_day": 172_999,
    }),
    Edge("bought syrup", plain, "outfit.feed.bought", False, True),
    # 170,000 x 1.327 x 0.667 = 150,468.53 g.
    Edge("sugar", plain, "outfit.feed.sugar_g", 150_469, 150_468),
    # Loading starts at 1920.
    Edge("syrup in time", plain, "mixing.0.end_min", 1_920, 1_921, "feed"),
    Edge("syrup in time", plain, "mixing.0.ml", 170_000, 169_999, "feed"),
    Planted("syrup in time", two_rounds, {"mixing.0.ml": 89_999}, "again"),
)  # fmt: skip

HONEY: Table = (
    Edge("spinning hours", plain, "outfit.honey_house.spin_from_min", 720, 721),
    Edge("spinning hours", plain, "outfit.honey_house.spin_to_min", 870, 869),
    Planted("spinning hours", plain, {"spinning": (Spinning(-900, -750, ("bob",), 30),)}),
    Planted("spinning hours", plain, {"spinning.0.end_min": 720}),
    Edge("spinning pace", plain, "outfit.honey_house.boxes_per_h", (0, 12), (0, 11)),
    Edge("spinning pace", plain, "spinning.0.boxes", 30, 31),
    Edge("spinning pace", plain, "spinning.0.boxes", 1, 0),
    Planted("spinning pace", plain, {"spinning.0.people": ()}),
    Edge("spinning pace", plain, "outfit.honey_house.boxes_per_h", (0, 30), (0,)),
    Edge("spinner", plain, "outfit.people.1.spins", True, False),
    Edge("spinner", plain, "spinning.0.people", ("bob", "ann"), ("bob", "bob")),
    Edge("spinning turns", far_away, "spinning.1",
         Spinning(1_080, 1_095, ("ann",), 3), Spinning(1_079, 1_095, ("ann",), 3)),
    # In by 616, 945 and 601 or so; the first box goes in when the stretch starts.
    Edge("queue", plain, "spinning.0.start_min", 616, 615, "off", "yard1"),
    # Of 27 boxes in 135 min the 16th goes in 75 min on.
    Edge("queue", far_away, "spinning.0.start_min", 945, 944, "off", "yard1"),
    Planted("queue", boards, {"spinning.0.boxes": 16}, "third", "yard2"),
    Edge("room", plain, "outfit.honey_house.room_boxes", 30, 29, "off", "yard2"),
    # 36 come in and are spun before the 25.
    Edge("room", with_trailer, "outfit.honey_house.room_boxes", 36, 35, "part", "yard1"),
    Edge("room", plain, "outfit.honey_house.waiting_boxes", 370, 371, "off", "yard2"),
    Edge("all spun", plain, "spinning.0.boxes", 30, 29),
    Edge("all spun", plain, "outfit.honey_house.waiting_boxes", 0, 1),
    Planted("all spun", plain, {"spinning": ()}),
    # Off yard 1 at 530; its 15th box goes in at 720 + 14 x 5 = 790.
    Planted("spin by", plain, {"outfit.yards.0.spin_by_min": 259,
                               "outfit.yards.0.spin_by_hard": True}, "off", "yard1"),
    # Off yard 2 at 584; the 30th box goes in at 720 + 29 x 5 = 865.
    Planted("spin by", plain, {"outfit.yards.1.spin_by_min": 280,
                               "outfit.yards.1.spin_by_hard": True}, "off", "yard2"),
)  # fmt: skip

SUMS: Table = (
    Edge("bill", doubtful, "bill.unsure", 452, 451),
    Edge("bill", doubtful, "bill.unsure", 452, 453),
    Edge("bill", doubtful, "outfit.yards.0.sure_permille.1", 500, 1000),
    Edge("bill", fed_early, "bill.feed_early", 70, 69),
    Edge("bill", fed_early, "bill.feed_early", 70, 0),
    # The first round at 614 is late enough; from 615 on it would not be.
    Edge("bill", fed_early, "outfit.rules.feed_late_from_min", 614, 615),
    Edge("bill", fed_early, "outfit.rules.feed_late_from_min", 507, 506),
    Edge("bill", worth_leaving, "bill.left", 34_000, 33_999),
    Edge("bill", worth_leaving, "bill.left", 34_000, 0),
    # A kilogram at 1.26 makes 160 cents more.
    Edge("bill", worth_leaving, "outfit.prices.worth_feed_cents", 125, 126),
    # Only what has a stated worth is money and not counted.
    Edge("tally", worth_leaving, "tally.not_off", 10, 0),
    Edge("tally", worth_leaving, "tally.no_strips", 0, 20),
    Edge("tally", worth_leaving, "tally.unfed_g", 0, 160_000),
    Planted("tally", left_undone, {"tally.no_strips": 0}),
    Planted("tally", worth_leaving, {"outfit.prices.worth_strips_cents": 0}),
    Planted("tally", worth_leaving, {"outfit.prices.worth_feed_cents": 0}),
    Planted("tally", worth_leaving, {"outfit.prices.worth_take_off_cents": 1}),
    *(
        Edge("bill", plan, f"bill.{head}", cents, cents + step)
        for plan in (far_away, left_undone)
        for head in Bill.__slots__
        for cents in [getattr(plan().bill, head)]
        for step in (-1, 1)
    ),
    *(
        Edge("tally", left_undone, f"tally.{name}", getattr(left_undone().tally, name),
             getattr(left_undone().tally, name) + 1)
        for name in Tally.__slots__
    ),
    Planted("tally", left_undone, {"outfit.yards.2.health": Health.SOUND}),
    Planted("undone", left_undone, {"undone": lambda undone: undone[1:]}, yard="yard1"),
    Planted("undone", left_undone, {"undone": lambda undone: (*undone, undone[2])}, yard="yard3"),
    Planted("undone", left_undone, {"undone.0.stores_g": 79_999}, yard="yard1"),
    Planted("undone", left_undone, {"undone.7.colonies": 9}, yard="yard4"),
    Planted("undone", left_undone, {"undone.1.why": ()}, yard="yard1"),
    Planted("undone", left_undone, {"undone.1.why": ("  ",)}, yard="yard1"),
    # Yard 1 lacks strips for 10 colonies, 7,000 cents, and 80 kg, 10,000 cents; yard 4 lacks
    # its take-off as well, which has no stated worth, so that nothing is left for its cost.
    Edge("undone", fed_for_its_cost, "undone.0.worth_cents", 17_000, 17_001, yard="yard1"),
    Edge("undone", fed_for_its_cost, "undone.0.cost_cents", 1, 0, yard="yard1"),
    Edge("undone", left_on_purpose, "undone.0.cost_cents", 17_001, 17_000, yard="yard1"),
    Planted("undone", worth_leaving, {"undone.0.why": (TOO_DEAR,)}, yard="yard1"),
    Planted("undone", worth_leaving, {"undone.7.why": (TOO_DEAR,)}, yard="yard4"),
    Planted("undone", worth_leaving,
            {"undone.7.cost_cents": 50_000, "undone.7.worth_cents": 17_000}, yard="yard4"),
    Planted("undone", worth_leaving, {"undone.4.cost_cents": 50_000}, yard="yard3"),
    Planted("undone", plain, {"undone": (Undone("yard1", Job.BLOCK, 0, 0, (phrase("None."),)),)},
            yard="yard1"),
    # The bill comes to 81,210 cents.
    Planted("reliefs", left_undone, {"reliefs": (Relief(DAY, 9, 6, -100),)}),
    Planted("reliefs", left_undone, {"reliefs": (Relief(DAY, 0, 512, None),)}),
    Planted("reliefs", left_undone, {"reliefs": (Relief(DAY, 1, 3, None),)}),
    Planted("reliefs", left_undone, {"reliefs": (Relief(DAY, 0, 3, 100),)}),
    Planted("reliefs", left_undone, {"reliefs": (Relief(DAY, 0, 3, 100, Tally(0, -1, 0, 1)),)}),
    Edge("bound", plain, "bound.cents", 90_210, 90_211),
    Edge("bound", plain, "bound.cents", 500, 499),  # 500 cannot be avoided
    Edge("bound", plain, "bound.fixed_cents", 1_000, 1_001),
    Edge("bound", plain, "bound.fixed_cents", 0, -1),
    Planted("bound", plain, {"bound.cents": -1, "bound.fixed_cents": -1}),
    Planted("bound", plain, {"bound.tally": Tally(0, -1, 0, 0)}),
    Edge("bound", left_undone, "bound.tally", Tally(0, 20, 160_000, 10), Tally(0, 20, 160_000, 11)),
)  # fmt: skip

YARDS: Table = (*STOP, *TAKE_OFF, *COVER, *FEEDING, *STOCKS, *HONEY, *SUMS)
