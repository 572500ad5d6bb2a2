"""Tiny campaigns, one or two yards over one to three days, small enough for brute force.

One box a minute is spun by one person and one litre a minute mixed, so that nothing is
lost to rounding; an hour of anybody costs 30.00, a kilometre 0.60, a truck's day 40.00.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

from runplanner.days import Span
from runplanner.outfit.bases import Base, HoneyHouse
from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.people import Pace, Person
from runplanner.outfit.stores import Feed, Kit, Strips
from runplanner.outfit.trucks import Deck, Trailer
from runplanner.outfit.yards import Access, Clearing, Health, Yard
from runplanner.phrase import verbatim
from tests.outfits import a_truck, a_yard, an_outfit, daily

BASE = Base(place=0, opens_min=0, closes_min=1440)
EVEN_HOUSE = HoneyHouse(BASE, (0, 60, 120), 400, 0, 8 * 60, 18 * 60)
EVEN_FEED = Feed(
    verbatim("2:1"), 667, 1_327, 1_120, 2_000, 1_000_000, 60_000, 0, None, False, 500, 3 * 1440, 500
)
QUICK_FEED = replace(EVEN_FEED, uptake_ml_per_day=34_000)
"""The 8.5 l of one round are down in six hours, so strips that forbid feed may follow next day."""

ANN = Person("ann", "Ann", drives=True, spins=True, mixes=True)


@dataclass(frozen=True)
class Tiny:
    """One case; brute force splits yards into up to ``most_lots`` and tries later starts.

    The planner gets ``rounds``.
    """

    name: str
    make: Callable[[], Outfit]
    most_lots: int = 1
    more_starts: int = 0
    rounds: int = 60


def tiny(spots: list[tuple[int, int]], yards: list[Yard], days: int, **changes: object) -> Outfit:
    """An outfit with even paces."""
    even: dict[str, object] = {"honey_house": EVEN_HOUSE, "feed": EVEN_FEED}
    return an_outfit(spots, yards, days=days, **(even | changes))


def four(number: int, days: int, **changes: object) -> Yard:
    """A yard of four colonies and six boxes."""
    return replace(a_yard(number, colonies=4, boxes=6, days=days), **changes)  # type: ignore[arg-type]


def one_yard() -> Outfit:
    """All in one stop."""
    return tiny([(10, 0)], [four(1, 2)], 2)


def two_yards() -> Outfit:
    """Two yards on one road."""
    return tiny([(10, 0), (14, 0)], [four(1, 2), four(2, 2)], 2)


def two_far_apart() -> Outfit:
    """Two yards on either side of the base."""
    return tiny([(25, 0), (-25, 0)], [four(1, 2), four(2, 2)], 2)


def too_heavy_together() -> Outfit:
    """Each yard's boxes are half a load and a bit more: two trips on one day."""
    return tiny([(10, 0), (14, 0)], [four(1, 1, box_g=110_000), four(2, 1, box_g=110_000)], 1)


def one_order_only() -> Outfit:
    """One person, 200 kg: syrup for the second yard rides with the first one's boxes or not."""
    truck = replace(a_truck(), max_g=2_100_000 + 60_000 + 70_000 + 85_000 + 200_000)
    yards = [four(1, 1, boxes=9), replace(four(2, 1, boxes=1), target_g=12_000, feeder_ml=13_000)]
    return tiny([(10, 0), (-10, 0)], yards, 1, trucks=(truck,))


def no_syrup_on_day_0() -> Outfit:
    """Syrup cannot be poured on the first day; boxes must come off on it."""
    return tiny([(10, 0)], [four(1, 2, finish_by_day=0, feed_spans=daily(480, 1080, [1]))], 2)


def boards_overnight() -> Outfit:
    """Boards go on the day before."""
    return tiny([(10, 0)], [four(1, 3, clearing=Clearing.BOARDS)], 3)


def few_boards() -> Outfit:
    """Two boards for four colonies: they go round twice."""
    rules = replace(an_outfit().rules, smallest_lot=2)
    kit = replace(an_outfit().kit, boards_owned=2)
    return tiny(
        [(10, 0)], [four(1, 4, clearing=Clearing.BOARDS)], 4, rules=rules, kit=kit, people=(ANN,)
    )


def boards_and_brush() -> Outfit:
    """Boards at one yard, brushing at the next."""
    return tiny([(10, 0), (12, 0)], [four(1, 2, clearing=Clearing.BOARDS), four(2, 2)], 2)


def slow_brush(seconds: int) -> Pace:
    """The pace of all tests, but for brushing a box."""
    usual = an_outfit().pace
    return replace(usual, box_s=tuple((dict(usual.box_s) | {Clearing.BRUSH: seconds}).items()))


def boards_or_brush() -> Outfit:
    """Brushing costs no second visit."""
    yard = four(1, 3, clearing=Clearing.BOARDS, clearing_else=Clearing.BRUSH)
    return tiny([(10, 0)], [yard], 3)


def boards_or_slow_brush() -> Outfit:
    """Brushing a box takes 40 minutes: a visit with boards costs less."""
    return replace(boards_or_brush(), pace=slow_brush(2_400))


def few_boards_and_brush() -> Outfit:
    """Two boards for four colonies, and the last day is the second: two of them are brushed."""
    yard = four(1, 2, boxes=12, clearing=Clearing.BOARDS, clearing_else=Clearing.BRUSH)
    return replace(
        few_boards(), yards=(yard,), season=an_outfit(days=2).season, people=an_outfit().people,
        pace=slow_brush(2_400),
    )  # fmt: skip


def boards_on_already() -> Outfit:
    """Put on at six in the evening before the campaign."""
    return tiny([(10, 0)], [four(1, 2, clearing=Clearing.BOARDS, boards_on_min=-360)], 2)


def split_over_loads() -> Outfit:
    """A yard whose boxes are more than one load."""
    rules = replace(an_outfit().rules, smallest_lot=2)
    return tiny([(6, 0)], [four(1, 1, boxes=8, box_g=160_000)], 1, rules=rules)


def two_rounds() -> Outfit:
    """Feeders of 5 l need two rounds of 4.5 l, 27 hours apart at 4 l a day."""
    feed = replace(EVEN_FEED, uptake_ml_per_day=4_000)
    return tiny([(10, 0)], [four(1, 3, feeder_ml=5_000)], 3, feed=feed)


def waits_for_the_bees() -> Outfit:
    """The same with two days only: on the second the truck must leave three hours late."""
    feed = replace(EVEN_FEED, uptake_ml_per_day=4_000)
    return tiny([(10, 0)], [four(1, 2, feeder_ml=5_000)], 2, feed=feed, people=(ANN,))


def strips_forbid_feed() -> Outfit:
    """A day without feed after strips: they need a visit of their own or come last."""
    return tiny([(10, 0)], [four(1, 3)], 3, strips=Strips("formic acid", 1, None, 42, 70, 1))


def strips_before_feed() -> Outfit:
    """Strips are due on the first day and forbid feed on it: blocks bridge until the second."""
    season = an_outfit(days=2).season
    return replace(
        tiny([(10, 0)], [four(1, 2)], 2, strips=Strips("formic acid", 1, None, 42, 70, 1)),
        season=replace(season, strips_by=Deadline(0, hard=True)),
    )


def strips_by_themselves() -> Outfit:
    """An outing of 90 min has no room for the strips: they come alone, in fit hours from eight.

    Loading 16, driving 2 * 12, at the yard 10 + 16 + 2 + 8, unloading 11 min are 87; strips take
    4 min.  The truck could be there at 6:27.
    """
    usual = an_outfit().hours
    yard = four(1, 2, boxes=1, stores_g=3_000, feed_spans=daily(480, 1080, [0, 1]))
    return tiny([(12, 0)], [yard], 2, people=(ANN,), hours=replace(usual, duty_max_min=90))


def strips_instead_of_feed() -> Outfit:
    """An outing of 90 min has no room for feed and strips, which are due on the first day.

    Loading 16, driving 2 * 7, at the yard 10 + 16 + 12, unloading 13 min are 81; blocks and
    strips take 4 min each, feed 8: 89 with blocks and strips, 93 with feed and strips.
    """
    season, usual = an_outfit(days=2).season, an_outfit().hours
    return replace(
        tiny([(7, 0)], [four(1, 2)], 2, people=(ANN,)),
        season=replace(season, strips_by=Deadline(0, hard=True)),
        hours=replace(usual, duty_max_min=90),
    )


PADS = Strips("formic acid", 1, 4, 7, 14, 7, id="pads", each_g=80, each_cents=450)
"""Invented figures, but the days and the ban, which are the trade's (see ``trade.strips``)."""


def two_substances() -> Outfit:
    """Eight strips for the first yard, four pads that forbid feed for the second."""
    yards = [four(1, 2), four(2, 2, strips="pads")]
    strips = Strips("amitraz", 2, 8, 42, 70, 0)
    return tiny([(10, 0), (14, 0)], yards, 2, strips=strips, strips_also=(PADS,), feed=QUICK_FEED)


def another_substance() -> Outfit:
    """One yard gets what is not the usual, on a day after its feed."""
    return tiny([(10, 0)], [four(1, 2, strips="pads")], 2, strips_also=(PADS,), feed=QUICK_FEED)


def closed_morning() -> Outfit:
    """Hives may be opened only from noon, syrup poured only until four."""
    return tiny(
        [(30, 0)],
        [four(1, 1, open_spans=daily(720, 1080, [0]), feed_spans=daily(480, 960, [0]))],
        1,
    )


def gate_and_weather() -> Outfit:
    """One gate opens late, the other yard's weather ends early."""
    late = four(1, 1, access=Access(opens_min=13 * 60))
    return tiny([(10, 0), (10, 5)], [late, four(2, 1, open_spans=daily(480, 660, [0]))], 1)


def unsettled_night() -> Outfit:
    """A storm on the first night: a take-off must wait for the second day."""
    return tiny([(10, 0)], [four(1, 2, unsettled_spans=(Span(1200, 1300),))], 2)


def short_day() -> Outfit:
    """Out for two hours at most: only one of the two yards can be done."""
    hours = replace(an_outfit().hours, duty_max_min=120)
    return tiny([(10, 0), (-12, 0)], [four(1, 1), replace(four(2, 1), colonies=5)], 1, hours=hours)


def no_feed_hours() -> Outfit:
    """Syrup can never be poured: nothing may be taken off."""
    return tiny([(10, 0)], [four(1, 1, feed_spans=())], 1)


def late_strips() -> Outfit:
    """Strips are a day late at a price, for it is too hot on the first day."""
    season = an_outfit(days=2).season
    soft = replace(season, strips_by=Deadline(0, hard=False))
    return tiny([(10, 0)], [four(1, 2, strips_shut_days=(0,))], 2, season=soft)


def three_bases() -> Outfit:
    """Home, feed store and honey house are three places (home 0, store 2, honey house 3)."""
    house = replace(EVEN_HOUSE, base=replace(BASE, place=3))
    outfit = an_outfit([(10, 0), (0, 6), (10, 8)], [four(1, 1, brood_boxes_off=2)], days=1)
    return replace(outfit, feed=EVEN_FEED, honey_house=house, feed_store=replace(BASE, place=2))


def trailer_pays() -> Outfit:
    """The boxes are two loads for the truck alone, or one with a slow trailer."""
    truck = replace(a_truck(), train_max_g=4_250_000, deck=Deck(1_100, 900, 1_200, 3))
    trailer = Trailer(
        "tr", "Trailer", 200_000, 750_000, Deck(2_100, 1_700, 1_200, 3), 1_700, 900, 10
    )
    return tiny([(20, 0)], [four(1, 1, boxes=16)], 1, trucks=(truck,), trailers=(trailer,))


def watched_yard() -> Outfit:
    """The nearer yard is watched and so comes last."""
    return tiny([(10, 0), (14, 0)], [four(1, 1, health=Health.WATCH), four(2, 1)], 1)


def fair_twice_a_day() -> Outfit:
    """The watched yard, last of its trip, is fit from 13:00, the other until 10 and from 14:00.

    One trip does both if it leaves for 14:00, though its first yard could be done at 8.
    """
    spells = (Span(8 * 60, 10 * 60), Span(14 * 60, 18 * 60))
    late = daily(13 * 60, 18 * 60, [0])
    watched = four(1, 1, health=Health.WATCH, open_spans=late, feed_spans=late)
    return tiny([(10, 0), (14, 0)], [watched, four(2, 1, open_spans=spells, feed_spans=spells)], 1)


def standstill_fed() -> Outfit:
    """A standstill yard without honey may be fed and stripped."""
    held = replace(four(1, 2, boxes=0), health=Health.STANDSTILL, feed_agreed=True)
    return tiny([(10, 0), (14, 0)], [held, replace(four(2, 2), health=Health.SUSPECT)], 2)


def moved_yard() -> Outfit:
    """The hives stand far off on the first day and near on the second."""
    yard = four(1, 2, sites=((0, 1), (1, 2)))
    return tiny([(40, 0), (5, 0)], [yard], 2)


def circulating_feeders() -> Outfit:
    """Only four feeders for two yards of four."""
    kit = Kit(1_500, 100, 40, 2_100, 60, 1_000, 1_200, 4, 10, 10)
    return tiny([(10, 0), (14, 0)], [four(1, 1), four(2, 1)], 1, kit=kit)


def lone_driver() -> Outfit:
    """One person drives and spins, so honey waits until the next day."""
    return tiny([(10, 0)], [four(1, 1)], 1, people=(ANN,))


def long_haul() -> Outfit:
    """Wages rise after four hours: two days, or one long one?"""
    hours = replace(an_outfit().hours, normal_min=120)
    prices = replace(an_outfit().prices, overtime_permille=2_000)
    return tiny([(20, 0), (-20, 0)], [four(1, 2), four(2, 2)], 2, hours=hours, prices=prices)


CASES = (
    Tiny("one yard", one_yard),
    Tiny("two yards", two_yards),
    Tiny("two far apart", two_far_apart),
    Tiny("too heavy together", too_heavy_together),
    Tiny("one order only", one_order_only),
    Tiny("no syrup on day 0", no_syrup_on_day_0),
    Tiny("boards overnight", boards_overnight),
    Tiny("few boards", few_boards, most_lots=2),
    Tiny("boards and brush", boards_and_brush),
    Tiny("boards or brush", boards_or_brush),
    Tiny("boards or slow brush", boards_or_slow_brush),
    Tiny("few boards and brush", few_boards_and_brush, most_lots=2),
    Tiny("boards on already", boards_on_already),
    Tiny("split over loads", split_over_loads, most_lots=2),
    Tiny("two rounds", two_rounds),
    Tiny(
        "waits for the bees",
        waits_for_the_bees,
        more_starts=16,
    ),
    Tiny("strips forbid feed", strips_forbid_feed),
    Tiny("strips before feed", strips_before_feed),
    Tiny("strips by themselves", strips_by_themselves),
    Tiny("strips instead of feed", strips_instead_of_feed),
    Tiny("another substance", another_substance),
    Tiny("closed morning", closed_morning),
    Tiny("gate and weather", gate_and_weather),
    Tiny("unsettled night", unsettled_night),
    Tiny("short day", short_day),
    Tiny("no feed hours", no_feed_hours),
    Tiny("late strips", late_strips),
    Tiny("three bases", three_bases),
    Tiny("trailer pays", trailer_pays, most_lots=2),
    Tiny("watched yard", watched_yard),
    Tiny("fair twice a day", fair_twice_a_day),
    Tiny("standstill fed", standstill_fed),
    Tiny("moved yard", moved_yard),
    Tiny("circulating feeders", circulating_feeders),
    Tiny("lone driver", lone_driver),
    Tiny("long haul", long_haul, rounds=400),
)
