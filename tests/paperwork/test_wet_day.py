"""Tests of the paper for a day whose window shuts."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Mixing, Plan, Spinning
from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.people import Person
from runplanner.outfit.yards import Health, Yard
from runplanner.paperwork.days.wet_day import WetStop, wet_day, wet_days, wet_page
from tests.outfits import a_yard, an_outfit, daily
from tests.paperwork.pages import Page
from tests.paperwork.plans import (
    Round,
    Stop,
    a_shift,
    block,
    boards,
    eight_stop_plan,
    feed,
    hostile_plan,
    small_plan,
    strips,
    take_off,
)


def one_yard(yard: Yard, *days: tuple[int, Stop]) -> Plan:
    """The small plan with these stops at one yard in place of its own, nothing mixed."""
    outfit = an_outfit([(10, 0)], [yard])
    shifts = tuple(a_shift(outfit, day, [Round(f"d{day}", (stop,))]) for day, stop in days)
    return replace(small_plan(), outfit=outfit, shifts=shifts, spinning=(), mixing=())


TAKEN_OFF = (0, Stop(1, 60, (take_off(10, 15), block(10))))
PART_OFF = (0, Stop(1, 60, (take_off(4, 6), block(4))))


def test_opening_falls_and_feeding_stands() -> None:
    """Day 1 of the long plan: four take-offs and the boards fall, the rest of the work stands."""
    (trip,) = wet_day(eight_stop_plan(), 1).trips

    assert "goes in part" == trip.verdict()
    assert (
        WetStop("Kauri Flat", "take-off, 13 colonies; syrup, 13 colonies; strips, 13 colonies", ""),
        WetStop("Pukatea Bend", "", "syrup, 15 colonies"),
        WetStop("Quarry Terrace", "boards on, 16 colonies", ""),
        WetStop("Top of Rimu Road", "take-off, 9 colonies; block, 9 colonies", ""),
        WetStop("Dray Track", "", "block, 18 colonies"),
    ) == (trip.stops[0], *trip.stops[2:6])


def test_a_trip_of_take_offs_stays_at_home() -> None:
    """Day 0 of the small plan has nothing that stands; day 1 goes in part."""
    assert "stays at home" == wet_day(small_plan(), 0).trips[0].verdict()
    assert "goes in part" == wet_day(small_plan(), 1).trips[0].verdict()


def test_further_blocks_stand_where_the_rest_of_the_yard_stays_on() -> None:
    """Six off on day 0; on day 1 four more, with a block each, and one more for each of the six.

    As many blocks in both parts are told apart as well.  Where all ten come off on day 1 nobody
    is there to be given one.
    """
    first = Stop(1, 60, (take_off(6, 9), block(6)))
    rest, again = Stop(1, 60, (take_off(4, 6), block(4))), Stop(1, 10, (block(6),))

    def stop_on(*stops: Stop, before: tuple[Stop, ...] = (first,)) -> tuple[str, str]:
        outfit = an_outfit([(10, 0)])
        shifts = (
            *(a_shift(outfit, 0, [Round("a", (one,))]) for one in before),
            a_shift(outfit, 1, [Round("b", stops)]),
        )
        plan = replace(small_plan(), outfit=outfit, shifts=shifts, spinning=(), mixing=())
        (stop,) = wet_day(plan, 1).trips[0].stops
        return stop.falls, stop.stands

    falls = "take-off, 4 colonies; block, 4 colonies"
    assert (falls, "block, 6 colonies") == stop_on(rest, again)
    assert (falls, "block, 4 colonies") == stop_on(rest, Stop(1, 10, (block(4),)))
    turned = "take-off, 4 colonies; block, 4 colonies", "block, 6 colonies"
    assert turned == stop_on(again, rest), "given before the take-off, of others"
    whole = Stop(1, 90, (take_off(10, 15), block(10)))
    assert ("take-off, 10 colonies; block, 10 colonies; block, 6 colonies", "") == stop_on(
        whole, again, before=()
    )


def test_a_feeding_trip_goes() -> None:
    """The yard was off the day before and its syrup hours are open."""
    plan = one_yard(a_yard(1), TAKEN_OFF, (1, Stop(1, 30, (feed(10, 80),))))

    assert "goes" == wet_day(plan, 1).trips[0].verdict()


def test_syrup_falls_where_its_own_hours_are_shut() -> None:
    """Feed-fit hours that do not hold the visit: the syrup falls with the rest."""
    yard = replace(a_yard(1), feed_spans=daily(12 * 60, 20 * 60, range(6)))
    plan = one_yard(yard, TAKEN_OFF, (1, Stop(1, 30, (feed(10, 80),))))

    assert "stays at home" == wet_day(plan, 1).trips[0].verdict()


def strips_at(opens_min: int) -> Plan:
    """Ten colonies off on day 0 get strips alone on day 1, 06:35 to 06:50; syrup hours from."""
    yard = replace(a_yard(1), feed_spans=daily(opens_min, 20 * 60, range(6)))
    return one_yard(yard, TAKEN_OFF, (1, Stop(1, 15, (strips(10),))))


def test_strips_stand_in_hours_fit_for_syrup() -> None:
    """Open from 06:35 they stand, from 06:36 they fall; so they do where no hour is open."""
    stands, falls = (wet_day(strips_at(minute), 1).trips[0] for minute in (395, 396))
    yard = replace(a_yard(1), feed_spans=daily(6 * 60, 20 * 60, [0]))
    shut = one_yard(yard, TAKEN_OFF, (1, Stop(1, 15, (strips(10),))))

    assert (WetStop("Yard 1", "", "strips, 10 colonies", strips=True),) == stands.stops
    assert (WetStop("Yard 1", "strips, 10 colonies", ""),) == falls.stops
    assert "stays at home" == wet_day(shut, 1).trips[0].verdict()


@pytest.mark.parametrize("job", [Job.WET_UP, Job.WET_DOWN, Job.FEEDERS])
def test_wet_boxes_and_feeders_stand_in_hours_fit_for_syrup(job: Job) -> None:
    """All are off on day 0; on day 1 the truck is there from 06:35 on."""
    done = Action(job, 10, wet=15) if job is not Job.FEEDERS else Action(job, 10, feeders_off=10)
    verdicts = []
    for minute in (395, 396):
        yard = replace(a_yard(1), feed_spans=daily(minute, 20 * 60, range(6)))
        plan = one_yard(yard, TAKEN_OFF, (1, Stop(1, 15, (done,))))
        verdicts.append(wet_day(plan, 1).trips[0].verdict())

    assert ["goes", "stays at home"] == verdicts


def test_the_page_says_how_strips_go_in() -> None:
    """Dry moments, the lid off for as long as it takes; not where none go in."""
    words = "Strips go in only in dry moments, with the lid off no longer than that takes."

    assert words in Page(wet_page(strips_at(395), 1)).text
    assert words not in Page(wet_page(strips_at(396), 1)).text
    assert "no hive can be opened" not in Page(wet_page(strips_at(395), 1)).text


def test_a_yard_that_never_had_boxes_may_be_fed() -> None:
    """A yard without any take-off in the plan carries no honey: its feed and strips stand."""
    plan = one_yard(a_yard(1), (1, Stop(1, 30, (feed(10, 80), strips(10)))))

    assert "goes" == wet_day(plan, 1).trips[0].verdict()


def test_who_must_be_fed_first() -> None:
    """Off on day 0 with a block: it ends on day 4 at 11:23 (395 + 6048 = 4 * 1440 + 683).

    Wet on day 3, the next syrup hours open on day 4 at 06:00: time enough.  Wet on day 4,
    the next open on day 5: a block or syrup today.
    """
    plan = one_yard(a_yard(1), TAKEN_OFF, (5, Stop(1, 30, (feed(10, 80),))))

    assert () == wet_day(plan, 3).first
    (first,) = wet_day(plan, 4).first
    assert ("Yard 1", 10, "Fri 5 Mar 11:23", "Sat 6 Mar 06:00", "syrup today, or a block") == (
        first.yard, first.colonies, first.ends, first.next_fair, first.do,
    )  # fmt: skip


def test_who_must_be_fed_is_told_what_strips_ask_first() -> None:
    """Formic acid in on day 1: banned seven days or two, it may come out from day 2 on.

    Where it is planned for that day alone, nothing is in yet.
    """
    for in_day, ban, told in (
        (1, 7, "no feed beside its strips before Tue 9 Mar: ask your vet"),
        (1, 2, "all formic acid strips out before any feed, about 10 min more; "),
        (4, 7, ""),
    ):
        stops = TAKEN_OFF, (in_day, Stop(1, 20, (strips(10),))), (5, Stop(1, 30, (feed(10, 80),)))
        plan = one_yard(a_yard(1), *stops)
        acid = replace(
            plan.outfit.strips, substance="formic acid", out_after_days=2, out_before_days=9,
            no_feed_days=ban,
        )  # fmt: skip
        (first,) = wet_day(replace(plan, outfit=replace(plan.outfit, strips=acid)), 4).first

        usual = "" if ban == 7 and in_day == 1 else "syrup today, or a block"
        assert told + usual == first.do


def test_syrup_that_is_planned_anyway_is_named_so() -> None:
    """Where the day's own trip feeds them there is nothing to add."""
    plan = one_yard(a_yard(1), TAKEN_OFF, (4, Stop(1, 30, (feed(10, 80),))))

    assert "syrup today, as planned" == wet_day(plan, 4).first[0].do


def test_no_syrup_hours_today_leave_a_block() -> None:
    """Syrup hours on day 0 alone: a block, and no fair hours to come."""
    yard = replace(a_yard(1), feed_spans=daily(6 * 60, 20 * 60, [0]))
    plan = one_yard(yard, TAKEN_OFF, (4, Stop(1, 30, (strips(10),))))

    (first,) = wet_day(plan, 4).first
    assert ("a block today", "none in this plan") == (first.do, first.next_fair)


@pytest.mark.parametrize(
    ("agreed", "fair", "give"),
    [
        (False, (0, 5), "ask the inspector: nothing may go in"),
        (False, (0, 4), "ask the inspector: nothing may go in"),
        (True, (0, 4), "syrup today, no block"),
        (True, (0, 5), "ask the inspector: no block"),
    ],
)
def test_a_closed_yard_is_given_no_block_and_nothing_without_consent(
    *, agreed: bool, fair: tuple[int, ...], give: str
) -> None:
    """Off on day 0 and suspected since; with consent it may be fed, as its honey is off.

    The same where only four of its ten were condensed, since it had no honey on at all.
    """
    shut = replace(
        a_yard(1), health=Health.SUSPECT, feed_agreed=agreed, honey_off=True,
        feed_spans=daily(6 * 60, 20 * 60, fair),
    )  # fmt: skip
    never = (2, Stop(1, 20, (boards(10),)))

    for off in (TAKEN_OFF, PART_OFF):
        plan = one_yard(shut, off, never)
        assert [give] == [one.do for one in wet_day(plan, 4).first]


def test_fair_hours_may_run_through_the_night() -> None:
    """Syrup hours open from day 0 to the end: the next fair hours are tomorrow's sunrise."""
    yard = replace(a_yard(1), feed_spans=(Span(0, 6 * DAY_MIN),))
    plan = one_yard(yard, TAKEN_OFF, (5, Stop(1, 30, (feed(10, 80),))))

    assert () == wet_day(plan, 3).first
    assert "Sat 6 Mar 06:00" == wet_day(plan, 4).first[0].next_fair


def test_cover_past_the_campaign_is_not_urgent() -> None:
    """No fair hours to come, but stores last past day 5: nothing to do on a wet day."""
    yard = replace(a_yard(1), stores_g=2_000, feed_spans=daily(6 * 60, 20 * 60, [0]))
    plan = one_yard(yard, TAKEN_OFF, (2, Stop(1, 30, (strips(10),))))

    # (2100 + 2000) * 1440 / 500 = 11808 minutes: from day 0 to day 8.
    assert () == wet_day(plan, 2).first


def test_no_syrup_where_honey_is_still_on() -> None:
    """Four of ten are off: the next fair hours are those for opening, and only a block helps."""
    yard = replace(a_yard(1), open_spans=daily(8 * 60, 18 * 60, [0, 1, 2, 5]))
    plan = one_yard(yard, PART_OFF, (2, Stop(1, 90, (take_off(6, 9), feed(10, 80)))))

    assert () == wet_day(plan, 1).first
    (first,) = wet_day(plan, 2).first
    assert 4 == first.colonies
    assert "a block: honey is still on in this yard, so no syrup" == first.do
    assert "Sat 6 Mar 08:00" == first.next_fair


def test_work_under_a_roof() -> None:
    """15 boxes at 20 an hour by two: 45 minutes.  90 L still to mix at 200 L an hour: 27.

    The trip of day 0 stays at home; that of day 1, in part, takes both, who spin beside it.
    """
    plan = small_plan()

    assert ("Mix up to 90 L ahead: Ann, about 27 min.",) == wet_day(plan, 0).indoors
    assert (
        (
            "Spin the 15 boxes that stand there: Ann and Bob, about 45 min. Out with a truck, so "
            "before or after: Ann 06:00\u201308:33 and Bob 06:00\u201308:33."
        ),
    ) == wet_day(plan, 1).indoors


def with_people(*crew: str, jobs: Stop, rates: tuple[int, ...] = (0, 12, 20)) -> Plan:
    """Ann, Bob and Cy, 24 boxes in the house and 100 L to mix; ``crew`` out with these jobs."""
    outfit = an_outfit(
        [(10, 0)], [a_yard(1)],
        people=tuple(Person(name.lower(), name, True, True, True) for name in ("Ann", "Bob", "Cy")),
    )  # fmt: skip
    house = replace(outfit.honey_house, waiting_boxes=24, boxes_per_h=rates)
    outfit = replace(outfit, honey_house=house)
    shift = a_shift(outfit, 0, [Round("d0", (jobs,))], crew=crew)
    mixing = (Mixing(780, 810, "bob", 100_000),)
    return replace(small_plan(), outfit=outfit, shifts=(shift,), spinning=(), mixing=mixing)


FED = Stop(1, 30, (feed(10, 80),))


def test_whoever_drives_what_stands_neither_spins_nor_mixes() -> None:
    """Ann feeds: Bob and Cy spin 24 boxes at 20 an hour in 72 minutes, not three at 30 in 48.

    Out from 06:00: 25 min loading, 10 there, 30 of work, 10 back, 20 unloading.  100 L at
    200 L an hour are half an hour's work.
    """
    plan = with_people("ann", jobs=FED, rates=(0, 12, 20, 30))

    assert (
        (
            "Spin the 24 boxes that stand there: Bob and Cy, about 1 h 12. "
            "Not counted, as out with a truck: Ann 06:00\u201307:35."
        ),
        "Mix up to 100 L ahead: Bob, about 30 min.",
    ) == wet_day(plan, 0).indoors


@pytest.mark.parametrize(
    ("stopped", "said"),
    [
        ((Span(0, 4 * DAY_MIN),), "Waiting there: 24 boxes; the honey house is stopped."),
        # Ten minutes at 20 an hour are three boxes, two are too few for one.
        (
            (Span(0, 17 * 60 + 50),),
            (
                "Spin 3 of the 24 boxes that stand there, as many as there is time for: Bob and "
                "Cy, about 9 min. Only 17:50\u201318:00, as the honey house is stopped."
            ),
        ),
        ((Span(0, 17 * 60 + 58),), "Waiting there: 24 boxes; the honey house is stopped."),
        (
            (Span(10 * 60, 11 * 60),),
            (
                "Spin the 24 boxes that stand there: Bob and Cy, about 1 h 12. "
                "Only 08:00\u201310:00, 11:00\u201318:00, as the honey house is stopped."
            ),
        ),
        (
            (Span(18 * 60, 30 * 60),),
            "Spin the 24 boxes that stand there: Bob and Cy, about 1 h 12.",
        ),
    ],
)
def test_nothing_is_spun_while_the_honey_house_is_stopped(
    stopped: tuple[Span, ...], said: str
) -> None:
    """Spinning is from 08:00 to 18:00."""
    plan = with_people("ann", jobs=FED)
    house = replace(plan.outfit.honey_house, stopped=stopped)

    plan = replace(plan, outfit=replace(plan.outfit, honey_house=house))
    assert said == wet_day(plan, 0).indoors[0]


def test_boxes_that_nobody_can_spin_are_told() -> None:
    """All three ride and none spins."""
    plan = with_people("ann", "bob", "cy", jobs=FED)
    people = tuple(replace(one, spins=False) for one in plan.outfit.people)
    plan = replace(plan, outfit=replace(plan.outfit, people=people), mixing=())

    words = "Waiting there: 24 boxes; too few people to spin."
    assert (words,) == wet_day(plan, 0).indoors
    assert "Nothing waits there." not in Page(wet_page(plan, 0)).text


def test_one_box_stands_alone() -> None:
    """No plural for one: 3 min at 20 an hour."""
    plan = with_people("ann", jobs=FED)
    house = replace(plan.outfit.honey_house, waiting_boxes=1)
    one = replace(plan, outfit=replace(plan.outfit, honey_house=house))

    spin = "Spin the one box that stands there: Bob and Cy, about 3 min."
    assert spin == wet_day(one, 0).indoors[0]


def test_whoever_is_out_is_not_named_where_the_house_is_full_without() -> None:
    """Two are all that the house has work for."""
    spin, _ = wet_day(with_people("ann", jobs=FED), 0).indoors

    assert "Spin the 24 boxes that stand there: Bob and Cy, about 1 h 12." == spin


def test_a_trip_that_stays_at_home_leaves_its_driver_to_spin() -> None:
    """Nothing stands of a take-off: Ann spins; Cy, who does not, mixes."""
    plan = with_people("ann", jobs=Stop(1, 60, (take_off(10, 15),)))

    assert (
        "Spin the 24 boxes that stand there: Ann and Bob, about 1 h 12.",
        "Mix up to 100 L ahead: Cy, about 30 min.",
    ) == wet_day(plan, 0).indoors


def test_hands_that_are_too_few_wait_for_the_truck() -> None:
    """One alone spins nothing here: Cy and Ann do once she is back, and Cy mixes."""
    plan = with_people("ann", "bob", jobs=FED, rates=(0, 0, 20))

    assert (
        (
            "Spin the 24 boxes that stand there: Cy and Ann, about 1 h 12. "
            "Out with a truck, so before or after: Ann 06:00\u201307:35."
        ),
        "Mix up to 100 L ahead: Cy, about 30 min.",
    ) == wet_day(plan, 0).indoors


def test_everybody_out_mixes_before_or_after() -> None:
    """All three ride: the mixer is whoever does not spin, and is told when she is out."""
    plan = with_people("ann", "bob", "cy", jobs=FED)

    assert (
        "Mix up to 100 L ahead: Cy, about 30 min. "
        "Out with a truck, so before or after: Cy 06:00\u201307:35."
    ) == wet_day(plan, 0).indoors[1]


def test_no_work_under_a_roof() -> None:
    """Bought syrup is not mixed, and an empty honey house has nothing to spin."""
    plan = small_plan()
    bought = replace(plan.outfit.feed, bought=True)
    dry = replace(plan, outfit=replace(plan.outfit, feed=bought))

    assert () == wet_day(dry, 0).indoors
    assert "Nothing waits there." in Page(wet_page(dry, 0)).text


def test_a_mixer_of_unknown_speed_has_no_time() -> None:
    """Where no hourly rate is known the paper gives none."""
    plan = small_plan()
    slow = replace(plan.outfit.feed, mix_ml_per_h=0)

    assert ("Mix up to 90 L ahead: Ann.",) == (
        wet_day(replace(plan, outfit=replace(plan.outfit, feed=slow)), 0).indoors
    )


def test_only_days_with_stops_can_be_wet() -> None:
    """Days without a trip lose nothing."""
    assert (0, 1, 3) == wet_days(small_plan())


def under_way(now_min: int) -> Plan:
    """Ann feeds Yard 1 from 06:35 to 07:05, out until 07:35; 20 of 24 boxes spun 8:00 to 10:00."""
    plan = with_people("ann", jobs=FED)
    (shift,) = plan.shifts
    gone = replace(shift, trips=tuple(replace(one, driven=now_min > 0) for one in shift.trips))
    spinning = (Spinning(480, 600, ("bob", "cy"), 20),)
    return replace(plan, shifts=(gone,), spinning=spinning, now_min=now_min)


def test_a_trip_that_is_out_is_told_so_with_its_stops_to_come() -> None:
    """It neither stays at home nor is its stop done again; back home it is told no more."""
    page = Page(wet_page(under_way(410), 0)).text
    (out,) = wet_day(under_way(410), 0).trips
    assert ("under way", 1) == (out.verdict(), len(out.stops))
    assert "under way" in page
    assert "stays at home" not in page

    (back,) = wet_day(under_way(430), 0).trips
    assert ("under way", (), 2) == (back.verdict(), back.stops, back.first)
    assert () == wet_day(under_way(460), 0).trips


def test_days_whose_stops_are_over_have_no_sheet() -> None:
    """The last stop is over at 07:05."""
    assert [(0,), (0,), ()] == [wet_days(under_way(now)) for now in (0, 424, 425)]


def test_work_under_a_roof_counts_from_now() -> None:
    """At 09:00 ten are spun and 14 stand there, at 18:00 nobody spins; of 100 L half is mixed."""
    spin, _ = wet_day(under_way(540), 0).indoors
    assert "Spin the 14 boxes that stand there: Ann and Bob, about 42 min." == spin
    half = "Mix up to 50 L ahead: Cy, about 15 min."
    assert half == wet_day(under_way(795), 0).indoors[1]
    assert () == wet_day(under_way(1_079), 0).indoors
    assert () == wet_day(under_way(1_080), 0).indoors


def test_take_offs_of_this_morning_count_as_off() -> None:
    """Wet from 08:00 on: boxes came off by 07:35, so the day's syrup stands."""
    jobs = Stop(1, 60, (take_off(10, 15),)), Stop(1, 30, (feed(10, 80),))
    plan = one_yard(a_yard(1))
    trips = (Round("a", jobs[:1]), Round("b", jobs[1:]))
    shift = a_shift(plan.outfit, 0, trips)
    driven = replace(shift, trips=tuple(replace(one, driven=True) for one in shift.trips))
    plan = replace(plan, shifts=(driven,), now_min=480)

    assert [("under way", 0), ("goes", 1)] == [
        (one.verdict(), len(one.stops)) for one in wet_day(plan, 0).trips
    ]


def test_the_page_leads_with_who_must_be_fed() -> None:
    """The list of the hungry comes before the trips."""
    plan = one_yard(a_yard(1), TAKEN_OFF, (4, Stop(1, 30, (feed(10, 80),))))
    text = Page(wet_page(plan, 4)).text

    assert text.index("plan again") < text.index("Feed these first")
    assert text.index("Feed these first") < text.index("Fri 5 Mar 11:23") < text.index("Trips")
    assert "NZD" not in text


def test_hostile_words_are_words() -> None:
    """The same elements as with plain names, on every day with a trip."""
    for day in (0, 1, 3):
        assert Page(wet_page(small_plan(), day)).tags == Page(wet_page(hostile_plan(), day)).tags
