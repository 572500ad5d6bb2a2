"""Six good plans worked out by hand, for the audit to find nothing in.

Facts common to all (see ``tests.outfits``): a kilometre is a minute; loading takes 15 min
plus a minute for each 50 l begun, unloading 10 min plus 30 person-seconds a box, a yard 10
min plus its work; inspecting 240 s a colony, 120 s a box, 60 s a block or board, 120 s a
feed, 60 s for strips.  A colony of 8,000 g need: stores from a litre are 1,327 x 667 x
1,120 / 1,000,000 = 991 g, so 8,073 ml, poured as one round of 8,500 ml.  Truck: 3,500 -
2,100 - 60 - 70 = 1,270 kg less 85 kg a person; deck 3,100 x 2,100 mm, 6 x 5 = 30 columns
of 508 x 413 mm boxes, five high.
"""

from dataclasses import replace

from runplanner.daybook.plan import TOO_DEAR, Bill, Mixing, Plan, Spinning, Tally, Undone
from runplanner.daybook.trip import Action, Carried, Job, Shift, Trip
from runplanner.days import Span
from runplanner.outfit.bases import Base, HoneyHouse
from runplanner.outfit.outfit import Deadline
from runplanner.outfit.trucks import Axles, Deck, Nose, Trailer
from runplanner.outfit.yards import Clearing, Health
from runplanner.phrase import phrase
from tests.audit.planted import edited
from tests.audit.writing import (
    BLOCK_10,
    BOARDS_10,
    BOTH,
    EMPTY,
    FEED_10,
    OFF_10,
    OFF_UNDER_BOARDS_10,
    ONE_UP,
    SEVEN_CANS,
    STRIPS_10,
    cans,
    goods,
    load,
    plan_of,
    unload,
    visit,
)
from tests.outfits import a_truck, a_yard, an_outfit


def plain() -> Plan:
    """Two brushed yards off on day 0 with blocks; syrup and strips on day 1.

    Yard work on day 0: 10 x 240 + 15 x 120 + 10 x 60 = 4,800 person-seconds, by two 40 min,
    with 10 to set up 50.  On day 1: 10 x 120 + 10 x 60 = 1,800: 15 + 10 = 25 min.
    """
    off = Trip(
        "off",
        (
            # 20 blocks of 2.1 kg in one place; the day must end at 7:30 + 11 h = minute 1110.
            load((450, 465), 964, goods(42_000, 1, blocks=20)),
            # 15 x 16 kg + 10 x 2.1 kg; 38 more boxes make 1,088 kg after the next yard.
            visit(1, (475, 530), 1024, goods(261_000, 4, boxes=15, blocks=10), OFF_10, BLOCK_10,
                  start=480, limit=53),
            visit(2, (534, 584), 1078, goods(480_000, 6, boxes=30), OFF_10, BLOCK_10, limit=68),
            # 30 boxes x 30 s / 2 people = 7.5, so 8 min + 10.
            unload((598, 616), 1110, EMPTY),
        ),
        (),
    )  # fmt: skip
    feed = Trip(
        "feed",
        (
            # 170 l: 225,590 g, 7 cans 10,500 g, 40 strips 400 g; 15 + ceil(3.4) = 19 min.
            load((1920, 1939), 2492, goods(236_490, 7, ml=170_000, strips=40)),
            visit(
                1, (1949, 1974), 2527, goods(123_495, 7, ml=85_000, strips=20), FEED_10, STRIPS_10
            ),
            visit(2, (1978, 2003), 2556, SEVEN_CANS, FEED_10, STRIPS_10),
            unload((2017, 2027), 2580, SEVEN_CANS),
        ),
        cans(7),
    )
    shifts = (
        Shift(0, "truck1", "", BOTH, 450, 616, 28, 28_000, (), (off,)),
        Shift(1, "truck1", "", BOTH, 1920, 2027, 28, 28_000, (), (feed,)),
    )
    # 56 km x 60; 2 x 4,000; (166 + 107) min x 2 people x 50; 150 x 50; 51 x 50; 20 x 400;
    # 170 x 150; 40 x 200.
    bill = Bill(3_360, 8_000, 27_300, 0, 7_500, 2_550, 8_000, 25_500, 8_000, 0, 0, 0)
    # One person spins 12 an hour: 30 in 150 min.  170 l at 200 l an hour: 51 min.
    spinning = (Spinning(720, 870, ("bob",), 30),)
    mixing = (Mixing(-960, -909, "bob", 170_000),)
    return plan_of(an_outfit(), shifts, spinning, mixing, bill)


def doubtful() -> Plan:
    """The plain plan with a price of 90 cents on doubt.

    Day 1 is half sure at yard 1, both days 999 in 1,000 at yard 2: 10 x 500 for the feed of
    one, 10 x 1 for each visit of the other; 5,020 x 90 / 1,000 = 451.8, so 452.
    """
    plan, (one, two) = plain(), plain().outfit.yards
    yards = (replace(one, sure_permille=(1000, 500)), replace(two, sure_permille=(999, 999)))
    prices = replace(plan.outfit.prices, unsure_cents=90)
    outfit = replace(plan.outfit, yards=yards, prices=prices)
    return replace(plan, outfit=outfit, bill=replace(plan.bill, unsure=452))


def fed_early() -> Plan:
    """Two rounds, at 10:14 and on day 3 at 8:26; late in the day is from 10:14, 7 cents a colony.

    Only the second round counts: 10 x 7.
    """
    plan = two_rounds()
    rules = replace(plan.outfit.rules, feed_late_from_min=614)
    prices = replace(plan.outfit.prices, feed_early_cents=7)
    outfit = replace(plan.outfit, rules=rules, prices=prices)
    return replace(plan, outfit=outfit, bill=replace(plan.bill, feed_early=70))


def boards() -> Plan:
    """Ten boards for two yards: yard 1's go on to yard 2 in the trip that takes yard 1 off.

    Take-off under boards: 4,200 s and 1 box of 15 brushed (5 % up) 120 s = 4,320; with
    blocks 4,920: 41 + 10 = 51 min; with feed and strips 6,120: 51 + 10 = 61 min.
    """
    yards = [replace(a_yard(number), clearing=Clearing.BOARDS) for number in (1, 2)]
    outfit = an_outfit(yards=yards)
    outfit = replace(outfit, kit=replace(outfit.kit, boards_owned=10))
    first = Trip(
        "first",
        (
            load((870, 885), 1055, goods(15_000, 1, boards=10)),
            # Hives may be opened until 18:00: minute 1080, 2520, 3960, 5400.
            visit(1, (895, 910), 1080, EMPTY, BOARDS_10),
            unload((920, 930), 1200, EMPTY),
        ),
        (),
    )
    second = Trip(
        "second",
        (
            load((1920, 1935), 2440, goods(21_000, 1, blocks=10)),
            # 240 kg of boxes and 15 kg of boards; 52 more boxes make 1,087 kg.
            visit(1, (1945, 1996), 2501, goods(255_000, 4, boxes=15, boards=10),
                  OFF_UNDER_BOARDS_10, BLOCK_10, limit=67),
            visit(2, (2000, 2015), 2520, goods(240_000, 3, boxes=15), BOARDS_10),
            unload((2029, 2043), 2580, EMPTY),
        ),
        (),
    )  # fmt: skip
    third = Trip(
        "third",
        (
            load((3360, 3379), 3860, goods(236_490, 7, ml=170_000, strips=40)),
            visit(1, (3389, 3414), 3895, goods(123_495, 7, ml=85_000, strips=20),
                  FEED_10, STRIPS_10),
            # 7 cans, 3 columns, 1 place of boards; 240 + 15 + 10.5 kg.
            visit(2, (3418, 3479), 3960, goods(265_500, 11, boxes=15, boards=10),
                  OFF_UNDER_BOARDS_10, FEED_10, STRIPS_10, limit=67),
            unload((3493, 3507), 4020, SEVEN_CANS),
        ),
        cans(7),
    )  # fmt: skip
    shifts = (
        Shift(0, "truck1", "", BOTH, 870, 930, 20, 20_000, (), (first,)),
        Shift(1, "truck1", "", BOTH, 1920, 2043, 28, 28_000, (), (second,)),
        Shift(2, "truck1", "", BOTH, 3360, 3507, 28, 28_000, (), (third,)),
    )
    # 76 km x 60; 3 x 4,000; (60 + 123 + 147) x 2 x 50; 150 x 50; 51 x 50; 10 x 400; ...
    bill = Bill(4_560, 12_000, 33_000, 0, 7_500, 2_550, 4_000, 25_500, 8_000, 0, 0, 0)
    spinning = (Spinning(2160, 2235, ("bob",), 15), Spinning(3600, 3675, ("bob",), 15))
    return plan_of(outfit, shifts, spinning, (Mixing(480, 531, "bob", 170_000),), bill)


def brushed_instead() -> Plan:
    """The plain plan, but yard 1 has boards as its usual way and is brushed this time.

    Brushed or under boards, a box takes 120 s; no board is put on, none comes back.
    """
    plan = plain()
    usual = replace(plan.outfit.yards[0], clearing=Clearing.BOARDS, clearing_else=Clearing.BRUSH)
    outfit = replace(plan.outfit, yards=(usual, plan.outfit.yards[1]))
    way = {"shifts.0.trips.0.calls.1.actions.0.way": Clearing.BRUSH}
    return edited(replace(plan, outfit=outfit), way)


def boards_lain() -> Plan:
    """The plain plan, but ten boards lie in yard 1 since 8:00 on the day before, all there are.

    No bees stay in a box (else 120 s more). Ten boards of 1.5 kg, one place, come home:
    480 + 15 kg after yard 2, and 37 boxes more, not 38, make 1,087 of 1,100 kg.
    """
    plan = plain()
    usual = replace(plan.outfit.yards[0], clearing=Clearing.BOARDS, boards_on_min=-960)
    outfit = replace(
        plan.outfit,
        yards=(usual, plan.outfit.yards[1]),
        kit=replace(plan.outfit.kit, boards_owned=10),
        pace=replace(plan.outfit.pace, left_in_permille=0),
    )
    calls = "shifts.0.trips.0.calls"
    return edited(replace(plan, outfit=outfit), {
        f"{calls}.1.actions.0": OFF_UNDER_BOARDS_10,
        f"{calls}.1.after": goods(276_000, 5, boxes=15, blocks=10, boards=10),
        f"{calls}.1.boxes_limit": 52,
        f"{calls}.2.after": goods(495_000, 7, boxes=30, boards=10),
        f"{calls}.2.boxes_limit": 67,
    })  # fmt: skip


def two_rounds() -> Plan:
    """One yard off in the morning, fed on a second trip that day, again three days on.

    Feeders of 5 l: 8,073 ml in two rounds, 4,037 rounded to 4,500 ml; the second no sooner
    than 4,500 / 2,000 days = 3,240 min after the first.  One person: 4,200 s = 70 + 10 min,
    feed and strips 1,800 s = 30 + 10, feed alone 20 + 10.
    """
    outfit = an_outfit(spots=[(10, 0)], yards=[replace(a_yard(1), feeder_ml=5_000)])
    outfit = replace(outfit, rules=replace(outfit.rules, same_day_second_trip=True))
    two_cans = goods(3_000, 2, most=ONE_UP)
    empty = goods(0, 0, most=ONE_UP)
    off = Trip(
        "off",
        (
            load((450, 465), 906, empty),
            # 59 more boxes make 1,184 kg of the 1,185 kg that one person leaves.
            visit(1, (475, 560), 996, goods(240_000, 3, most=ONE_UP, boxes=15), OFF_10,
                  start=480, limit=74),
            unload((570, 588), 1024, empty),
        ),
        (),
    )  # fmt: skip
    feed_1 = replace(FEED_10, ml=45_000)
    fed = Trip(
        "fed",
        (
            # 45 l = 59,715 g, 2 cans 3,000 g, 20 strips 200 g.
            load((588, 604), 1040, goods(62_915, 2, most=ONE_UP, ml=45_000, strips=20)),
            visit(1, (614, 654), 1090, two_cans, feed_1, STRIPS_10),
            unload((664, 674), 1110, two_cans),
        ),
        cans(2),
    )
    again = Trip(
        "again",
        (
            load((4800, 4816), 5400, goods(62_715, 2, most=ONE_UP, ml=45_000)),
            visit(1, (4826, 4856), 5440, two_cans, replace(feed_1, round=2)),
            unload((4866, 4876), 5460, two_cans),
        ),
        cans(2),
    )
    shifts = (
        Shift(0, "truck1", "", ("ann",), 450, 674, 40, 40_000, (), (off, fed)),
        Shift(3, "truck1", "", ("ann",), 4800, 4876, 20, 20_000, (), (again,)),
    )
    # 60 km x 60; 2 x 4,000; 300 x 50; 75 x 50; 27 x 50; none; 90 x 150; 20 x 200.
    bill = Bill(3_600, 8_000, 15_000, 0, 3_750, 1_350, 0, 13_500, 4_000, 0, 0, 0)
    spinning = (Spinning(590, 665, ("bob",), 15),)
    return plan_of(outfit, shifts, spinning, (Mixing(-960, -933, "bob", 90_000),), bill)


def with_trailer() -> Plan:
    """A yard split over two days behind a trailer; the last stop also feeds the whole yard.

    24 colonies, 61 boxes, 12 brood boxes off, 3 kg of stores: 5,000 g are 5,046 ml, poured
    as 5,500.  After 14 colonies ceil(14 x 61 / 24) = 36 boxes and 7 brood boxes; then 25
    and 5.  The trailer makes ten minutes twelve (10 / 0.9) and lets boxes stand four high.
    """
    yard = replace(a_yard(1, colonies=24, boxes=61), brood_boxes_off=12, stores_g=3_000)
    truck = replace(
        a_truck(),
        train_max_g=5_000_000,
        axles=Axles(1_200_000, 900_000, 1_000_000, 1_800_000, 2_100_000, 900),
    )
    trailer = Trailer(
        "cart", "Cart", 500_000, 2_000_000, Deck(3_000, 1_500, 1_000, 4), 2_000, 900, 20
    )
    outfit = an_outfit(spots=[(10, 0)], yards=[yard], trucks=(truck,), trailers=(trailer,))
    outfit = replace(outfit, kit=replace(outfit.kit, feeders_owned=24))
    # Train: 5,000 - 2,400 (truck with two) - 500 = 2,100 kg, less than 1,100 + 1,500.
    # Deck of the trailer: 5 x 3 = 15 columns, with the truck's 45.
    most = {"most": 2_100_000, "of": 45}
    part = Trip(
        "part",
        (
            load((450, 465), 977, goods(29_400, 1, **most, blocks=14)),
            # 14 x 240 + 43 x 120 + 14 x 60 = 9,360 s: 78 + 10 min.  576 + 63 kg; 11 columns.
            visit(1, (477, 568), 1077, goods(639_000, 11, **most, boxes=36, brood_boxes=7),
                  Action(Job.TAKE_OFF, 14, boxes=36, brood_boxes=7),
                  Action(Job.BLOCK, 14, pieces=14), start=480, limit=124),
            # 43 x 30 / 2 = 645 s = 11 + 10 min.
            unload((580, 601), 1110, goods(0, 0, **most)),
        ),
        (),
    )  # fmt: skip
    rest = Trip(
        "rest",
        (
            # 132 l 175,164 g, tank 60 kg, 48 strips, 24 feeders 28.8 kg; tank 3 x 2 places.
            load((1890, 1908), 2412,
                 goods(264_444, 9, **most, ml=132_000, strips=48, feeders=24)),
            # 10 x 240 + 30 x 120 + 24 x 120 + 24 x 60 = 10,320 s: 86 + 10 min.
            visit(1, (1920, 2016), 2520, goods(505_000, 14, **most, boxes=25, brood_boxes=5),
                  Action(Job.TAKE_OFF, 10, boxes=25, brood_boxes=5),
                  Action(Job.FEED, 24, round=1, ml=132_000, feeders=24),
                  Action(Job.STRIPS, 24, pieces=48), limit=122),
            unload((2028, 2046), 2550, goods(60_000, 6, **most)),
        ),
        (Carried("ibc", 1),),
    )  # fmt: skip
    shifts = (
        Shift(0, "truck1", "cart", BOTH, 450, 601, 24, 20_000, (), (part,)),
        Shift(1, "truck1", "cart", BOTH, 1890, 2046, 24, 20_000, (), (rest,)),
    )
    # 40 km x 80; 2 x 4,000; 307 x 2 x 50; 305 x 50; 40 x 50; 14 x 400; 132 x 150; 48 x 200.
    bill = Bill(3_200, 8_000, 30_700, 0, 15_250, 2_000, 5_600, 19_800, 9_600, 0, 0, 0)
    spinning = (Spinning(720, 900, ("bob",), 36), Spinning(2160, 2285, ("bob",), 25))
    return plan_of(outfit, shifts, spinning, (Mixing(-960, -920, "bob", 132_000),), bill)


def measured_nose() -> Plan:
    """The trailer's deck reaches behind its axle by more than before it: no load is on its nose."""
    return edited(with_trailer(), {"outfit.trailers.0.nose": Nose(0, 1_000, 1_000)})


def far_away() -> Plan:
    """Home, feed store and honey house apart, far yards, a break on each day, things late.

    Places: home (0, 0), yards (100, 0) and (120, 0), feed store (0, 10), honey house
    (0, 20).  One person: 10 x 240 + 25 x 120 + 10 x 60 = 6,000 s = 100 + 10 min a yard.
    """
    yards = [
        replace(a_yard(1), brood_boxes_off=10, spin_by_min=120),
        replace(a_yard(2), brood_boxes_off=10, spin_by_min=300),
    ]
    outfit = an_outfit(spots=[(100, 0), (120, 0), (0, 10), (0, 20)], yards=yards)
    soft = Deadline(1, hard=False)
    outfit = replace(
        outfit,
        feed_store=Base(3, 360, 1110),
        honey_house=HoneyHouse(Base(4, 480, 1140), (0, 12, 20), 400, 0, 480, 1080),
        season=replace(outfit.season, feed_by=soft, strips_by=soft, take_off_by=soft),
    )
    off = Trip(
        "off",
        (
            load((370, 385), 420, goods(42_000, 1, most=ONE_UP, blocks=20), place=3),
            # Boxes 240, brood boxes of twice 4.5 kg 90, blocks 21 kg; 25 boxes in 5 columns.
            visit(1, (495, 605), 640,
                  goods(351_000, 6, most=ONE_UP, boxes=15, brood_boxes=10, blocks=10),
                  replace(OFF_10, brood_boxes=10), BLOCK_10, limit=47),
            # The break 11:15 to 12:00 lies inside the work.
            visit(2, (625, 780), 815, goods(660_000, 10, most=ONE_UP, boxes=30, brood_boxes=20),
                  replace(OFF_10, brood_boxes=10), BLOCK_10, limit=62),
            # 30 boxes x 30 s = 15 + 10 min; then 20 brood boxes 10 + 10 min.
            unload((920, 945), 980, goods(180_000, 4, most=ONE_UP, brood_boxes=20), place=4),
            unload((955, 975), 1010, goods(0, 0, most=ONE_UP), place=3),
        ),
        (),
    )  # fmt: skip
    seven_cans = goods(10_500, 7, most=ONE_UP)
    feed = Trip(
        "feed",
        (
            load((3250, 3269), 3540, goods(236_490, 7, most=ONE_UP, ml=170_000, strips=40),
                 place=3),
            visit(1, (3379, 3419), 3690, goods(123_495, 7, most=ONE_UP, ml=85_000, strips=20),
                  FEED_10, STRIPS_10),
            # A break of 45 min before leaving, for 140 of 280 min are driven.
            visit(2, (3439, 3479, 3524), 3750, seven_cans, FEED_10, STRIPS_10),
            unload((3654, 3664), 3890, seven_cans, place=3),
        ),
        cans(7),
    )  # fmt: skip
    shifts = (
        Shift(0, "truck1", "", ("ann",), 360, 985, 300, 300_000, (Span(675, 720),), (off,)),
        Shift(2, "truck1", "", ("ann",), 3240, 3674, 280, 280_000, (Span(3479, 3524),), (feed,)),
    )
    # 580 km x 60; 2 x 4,000; 1,059 x 50; 145 min over x 50 x 0.5; 150 x 50; 51 x 50; 20 x 400;
    # 170 x 150; 40 x 200; 20 fed and 20 stripped a day late x 2,000.  Spinning: yard 1 due at
    # 605 + 120, all 15 boxes late; yard 2 due at 780 + 300 = 1080, its last three next day.
    bill = Bill(34_800, 8_000, 52_950, 3_625, 7_500, 2_550, 8_000, 25_500, 8_000, 80_000, 0, 900)
    spinning = (Spinning(945, 1080, ("bob",), 27), Spinning(1920, 1935, ("bob",), 3))
    return plan_of(outfit, shifts, spinning, (Mixing(2160, 2211, "bob", 170_000),), bill)


def left_undone() -> Plan:
    """A watched yard under boards too long, a suspect yard fed, one shut, one left.

    Yard 1 (watch): boards day 0, off day 3, a further block day 4, never fed: covered to
    the end.  Yard 2 (suspect, no honey on) is fed.  Yard 3 is at a standstill with honey
    on; yard 4 is not visited at all.
    """
    yards = [
        replace(a_yard(1), clearing=Clearing.BOARDS, health=Health.WATCH),
        replace(a_yard(2, boxes=0), health=Health.SUSPECT, feed_agreed=True),
        replace(a_yard(3), health=Health.STANDSTILL),
        a_yard(4),
    ]
    outfit = an_outfit(spots=[(10, 0), (14, 0), (20, 0), (24, 0)], yards=yards)
    on = Trip(
        "on",
        (
            load((870, 885), 1055, goods(15_000, 1, boards=10)),
            # Hives may be opened until 18:00: minute 1080, 2520, 3960, 5400.
            visit(1, (895, 910), 1080, EMPTY, BOARDS_10),
            unload((920, 930), 1200, EMPTY),
        ),
        (),
    )
    four_cans = goods(6_000, 4)
    suspect = Trip(
        "suspect",
        (
            # 85 l 112,795 g, 4 cans 6,000 g, 20 strips 200 g; 15 + ceil(1.7) min.
            load((1920, 1937), 2497, goods(118_995, 4, ml=85_000, strips=20)),
            # 25 min of work and 20 to wash down.
            visit(2, (1951, 1996), 2556, four_cans, FEED_10, STRIPS_10),
            unload((2010, 2020), 2580, four_cans),
        ),
        cans(4),
    )
    off = Trip(
        "off",
        (
            load((4800, 4815), 5339, goods(21_000, 1, blocks=10)),
            visit(1, (4825, 4876), 5400, goods(255_000, 4, boxes=15, boards=10),
                  OFF_UNDER_BOARDS_10, BLOCK_10, limit=67),
            unload((4886, 4900), 5460, EMPTY),
        ),
        (),
    )  # fmt: skip
    block = Trip(
        "block",
        (
            load((6240, 6255), 6855, goods(21_000, 1, blocks=10)),
            visit(1, (6265, 6280), 6880, EMPTY, BLOCK_10),
            unload((6290, 6300), 6900, EMPTY),
        ),
        (),
    )
    shifts = (
        Shift(0, "truck1", "", BOTH, 870, 930, 20, 20_000, (), (on,)),
        Shift(1, "truck1", "", BOTH, 1920, 2020, 28, 28_000, (), (suspect,)),
        Shift(3, "truck1", "", BOTH, 4800, 4900, 20, 20_000, (), (off,)),
        Shift(4, "truck1", "", BOTH, 6240, 6300, 20, 20_000, (), (block,)),
    )
    # 88 km x 60; 4 x 4,000; 320 x 2 x 50; 75 x 50; 26 x 50; 20 x 400; 85 x 150; 20 x 200;
    # boards on for 3,915 min, 1,035 more than best: a started day x 10 colonies x 100.
    bill = Bill(5_280, 16_000, 32_000, 0, 3_750, 1_300, 8_000, 12_750, 4_000, 0, 1_000, 0)
    why = (phrase("The crew has no day left."),)
    undone = (
        Undone("yard1", Job.FEED, 10, 80_000, why),
        Undone("yard1", Job.STRIPS, 10, 0, why),
        Undone("yard3", Job.TAKE_OFF, 10, 0, why),
        Undone("yard3", Job.FEED, 10, 80_000, why),
        Undone("yard3", Job.STRIPS, 10, 0, why),
        Undone("yard4", Job.TAKE_OFF, 10, 0, why),
        Undone("yard4", Job.FEED, 10, 80_000, why),
        Undone("yard4", Job.STRIPS, 10, 0, why),
    )
    spinning = (Spinning(5040, 5115, ("bob",), 15),)
    mixing = (Mixing(480, 506, "bob", 85_000),)
    # Yards 1 and 4 count, the standstill does not.
    tally = Tally(uncovered=0, no_strips=20, unfed_g=160_000, not_off=10)
    return plan_of(outfit, shifts, spinning, mixing, bill, undone, tally)


def worth_leaving() -> Plan:
    """The same, but strips are worth 7.00 a colony and feed 1.25 a kilogram; take-off counts.

    Yards 1 and 4 lack strips for 20 colonies, 14,000 cents, and 160 kg, 20,000 cents.
    """
    plan = left_undone()
    prices = replace(plan.outfit.prices, worth_strips_cents=700, worth_feed_cents=125)
    outfit, bill = replace(plan.outfit, prices=prices), replace(plan.bill, left=34_000)
    return replace(plan, outfit=outfit, bill=bill, tally=Tally(0, 0, 0, 10))


def fed_for_its_cost() -> Plan:
    """The same, and what yard 1 lacks would cost 200.00."""
    plan = worth_leaving()
    first, *others = plan.undone
    return replace(plan, undone=(replace(first, cost_cents=20_000, worth_cents=17_000), *others))


def left_on_purpose() -> Plan:
    """The same, told as left on purpose."""
    return edited(fed_for_its_cost(), {"undone.0.why": (TOO_DEAR,)})


PLANS = {
    plan.__name__: plan
    for plan in (plain, boards, two_rounds, with_trailer, measured_nose, far_away, left_undone)
}
"""Every good plan by name."""
