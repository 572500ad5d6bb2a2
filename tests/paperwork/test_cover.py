"""Tests of the cover clock, the arithmetic in comments."""

from dataclasses import replace

import pytest

from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing, Health
from runplanner.paperwork.days.phone_text import phone_text
from runplanner.paperwork.lists.cover_list import at_risk, cover_lines, cover_page, short_line
from runplanner.paperwork.map.sheet import sheet_of
from runplanner.paperwork.stop.cover import Cover, cover_min, covers
from tests.outfits import a_yard, an_outfit
from tests.paperwork.pages import Page
from tests.paperwork.plans import Round, Stop, a_shift, block, feed, small_plan, strips, take_off

# One block is 2100 g and a colony eats 500 g a day: 2100 * 1440 / 500 = 6048 minutes.
ONE_BLOCK = 6_048


def planned(outfit: Outfit, *days: tuple[int, tuple[Stop, ...]]) -> Plan:
    """The small plan with these stops in place of its own."""
    shifts = tuple(a_shift(outfit, day, [Round(f"d{day}", stops)]) for day, stops in days)
    return replace(small_plan(), outfit=outfit, shifts=shifts)


def test_a_block_lasts_its_mass_over_daily_use() -> None:
    """Blocks and stores add up; the minutes are rounded down."""
    outfit = an_outfit()

    assert ONE_BLOCK == cover_min(outfit, outfit.yards[0], 1)
    # (2 * 2100 + 1001) * 1440 / 500 = 14978.88
    assert 14_978 == cover_min(outfit, replace(outfit.yards[0], stores_g=1_001), 2)


def test_cover_runs_from_the_take_off_stop() -> None:
    """Off at 06:35 of day 0: load 25 minutes, drive 10, so minute 395; syrup a day later."""
    plan = small_plan()

    first = covers(plan)[0]
    # Day 1 leaves base at 06:25 and reaches the yard at 06:35.
    assert Cover("yard1", 10, 395, 1, 395 + ONE_BLOCK, DAY_MIN + 395) == first
    assert not first.runs_short()


def test_first_off_is_first_fed() -> None:
    """A yard of ten taken off in two lots and fed in two: the older four and two more first."""
    outfit = an_outfit([(10, 0)])
    plan = planned(
        outfit,
        (0, (Stop(1, 60, (take_off(4, 6), block(4))),)),
        (1, (Stop(1, 90, (take_off(6, 9), feed(6, 30), block(4))),)),
        (2, (Stop(1, 30, (feed(4, 20),)),)),
    )

    day1, day2 = DAY_MIN + 395, 2 * DAY_MIN + 395
    assert {
        Cover("yard1", 4, 395, 1, 395 + ONE_BLOCK, day1),
        # Off and fed at the same stop: no block, no cover needed.
        Cover("yard1", 2, day1, 0, day1, day1, fed_here=True),
        Cover("yard1", 4, day1, 1, day1 + ONE_BLOCK, day2),
    } == set(covers(plan))
    assert not any(one.runs_short() for one in covers(plan))
    assert 2 == len(cover_lines(plan))


def test_who_was_fed_at_a_standstill_does_not_run_out() -> None:
    """Six fed on day 0, ten off on day 1: four run out."""
    plan = planned(
        an_outfit([(10, 0)]),
        (0, (Stop(1, 60, (feed(6, 30),)),)),
        (1, (Stop(1, 90, (take_off(10, 0), block(4))),)),
    )

    assert [(6, False), (4, True)] == [(one.colonies, one.runs_short()) for one in covers(plan)]
    assert 1 == len(cover_lines(plan))


def test_a_second_block_goes_to_the_hungry() -> None:
    """A block-only stop lengthens the cover of colonies not yet fed."""
    outfit = an_outfit([(10, 0)])
    plan = planned(
        outfit,
        (0, (Stop(1, 60, (take_off(10, 15), block(10))),)),
        (3, (Stop(1, 20, (block(6),)),)),
    )

    assert [(4, 1, 395 + ONE_BLOCK), (6, 2, 395 + 2 * ONE_BLOCK)] == [
        (one.colonies, one.blocks, one.ends_min) for one in covers(plan)
    ]


def test_a_block_that_comes_too_late_does_not_hide_the_gap() -> None:
    """Eaten after 6048 minutes, on day 4; the block of day 6 is for those who are bare since."""
    outfit = an_outfit([(10, 0)], days=12)
    plan = planned(
        outfit,
        (0, (Stop(1, 60, (take_off(10, 15), block(10))),)),
        (6, (Stop(1, 20, (block(6),)),)),
        (7, (Stop(1, 20, (feed(10, 50),)),)),
    )
    told = [(one.colonies, one.blocks, one.ends_min) for one in covers(plan)]

    assert [(6, 2, 395 + ONE_BLOCK), (4, 1, 395 + ONE_BLOCK)] == told
    assert all(one.runs_short() for one in covers(plan))
    # Seen from day 7 the gap is past: what counts is the block of day 6, minute 9035.
    later = covers(replace(plan, now_min=7 * DAY_MIN))
    given_min = 6 * DAY_MIN + 395
    assert [(4, 395 + ONE_BLOCK), (6, given_min + ONE_BLOCK)] == [
        (one.colonies, one.ends_min) for one in later
    ]
    assert [True, False] == [one.runs_short() for one in later]


def test_a_further_block_goes_where_cover_ends_first() -> None:
    """Five have a block, five none but live on 1000 g of stores: the bare ones get the next."""
    outfit = an_outfit([(10, 0)], [replace(a_yard(1), stores_g=1_000)])
    plan = planned(
        outfit,
        (0, (Stop(1, 60, (take_off(10, 15), block(5))),)),
        (1, (Stop(1, 20, (block(5),)),)),
    )

    # (2100 + 1000) * 1440 / 500 = 8928 for all of them.
    assert [(10, 1, 395 + 8_928)] == [
        (one.colonies, one.blocks, one.ends_min) for one in covers(plan)
    ]


def test_who_is_spared_a_block_for_the_same_day_does_not_run_out() -> None:
    """A second trip brings syrup that afternoon; without the rule that is too late."""
    outfit = an_outfit([(10, 0)])
    off, fed = (Stop(1, 60, (take_off(10, 15),)),), (Stop(1, 60, (feed(10, 50),)),)
    shift = a_shift(outfit, 0, [Round("one", off), Round("two", fed)])
    allowed = replace(outfit, rules=replace(outfit.rules, same_day_second_trip=True))
    plan = replace(small_plan(), outfit=allowed, shifts=(shift,))

    assert [True] == [one.spared for one in covers(plan)]
    assert ((), ()) == (cover_lines(plan), at_risk(plan))
    strict = replace(plan, outfit=outfit)
    assert ["RUNS OUT before syrup"] == [line.warn for line in cover_lines(strict)]


def test_who_is_fed_by_a_later_call_of_the_stop_does_not_run_out() -> None:
    """Ten come off from 06:35, two with a brush from 07:35; all are fed then, no block for any.

    With a quarter of an hour on the road between, that is another stop, and syrup is too late.
    """
    outfit = an_outfit([(10, 0), (40, 5)], [a_yard(1, colonies=12), a_yard(2)])
    lots = (
        Stop(1, 60, (take_off(10, 15),)),
        Stop(1, 30, (replace(take_off(2, 3), way=Clearing.BRUSH), feed(12, 100))),
    )
    plan = planned(outfit, (0, lots))

    assert [(10, True, False), (2, True, False)] == [
        (one.colonies, one.fed_here, one.spared) for one in covers(plan)
    ]
    assert ((), ()) == (cover_lines(plan), at_risk(plan))
    assert ("", False) == (sheet_of(plan).cells[0].note, sheet_of(plan).cells[0].alarm)
    assert "Runs out" not in phone_text(plan, 0)

    trip = plan.shifts[0].trips[0]
    load, first, second, unload = trip.calls
    second = replace(second, arrive_min=second.arrive_min + 15, start_min=second.start_min + 15)
    trip = replace(trip, calls=(load, first, second, unload))
    apart = replace(plan, shifts=(replace(plan.shifts[0], trips=(trip,)),))
    (risk,) = at_risk(apart)
    assert "Yard 1: 10 colonies run out Mon 1 Mar 06:35; syrup: Mon 1 Mar 07:50" == risk


@pytest.mark.parametrize(
    ("health", "agreed", "stores_g", "then"),
    [
        (Health.SOUND, False, 2_000, "; after the last day: feed them by then, or give a block"),
        (Health.SUSPECT, False, 2_000, "; the yard is closed: ask the inspector"),
        (Health.STANDSTILL, False, 0, "; the yard is closed: ask the inspector"),
        (Health.SUSPECT, True, 2_000, "; after the last day: feed them by then"),
        (Health.SUSPECT, True, 0, ""),
    ],
)
def test_what_to_do_for_who_runs_out_is_allowed_at_the_yard(
    *, health: Health, agreed: bool, stores_g: int, then: str
) -> None:
    """With 2 kg of stores cover lasts from day 0 to day 8 (11808 minutes), past day 5, the last."""
    yard = replace(a_yard(1), health=health, feed_agreed=agreed, honey_off=True, stores_g=stores_g)
    plan = planned(an_outfit([(10, 0)], [yard]), (0, (Stop(1, 60, (take_off(10, 15), block(10))),)))

    (risk,) = at_risk(plan)
    assert risk.endswith(f"syrup: no syrup planned{then}")


@pytest.mark.parametrize(
    ("ban", "then"),
    [
        (5, "after the last day: feed them by then, or give a block"),
        (6, "no feed beside its strips before Wed 10 Mar: take them out first, ask your vet"),
    ],
)
def test_nobody_is_told_to_feed_beside_strips_that_forbid_it(ban: int, then: str) -> None:
    """Such strips went in on day 3; two yards of those with stores run out on day 8, Tue 9 Mar."""
    yards = [replace(a_yard(number), stores_g=2_000) for number in (1, 2)]
    outfit = an_outfit([(10, 0), (14, 0)], yards)
    outfit = replace(outfit, strips=replace(outfit.strips, no_feed_days=ban))
    off = tuple(Stop(number, 60, (take_off(10, 15), block(10))) for number in (1, 2))
    plan = planned(outfit, (0, off), (3, (Stop(1, 10, (strips(10),)),)))

    first, second = at_risk(plan)
    assert first.endswith(f"syrup: no syrup planned; {then}")
    assert second.endswith("; after the last day: feed them by then, or give a block")


@pytest.mark.parametrize(("given", "each"), [(20, 2), (19, 1)])
def test_more_blocks_than_one_a_colony_count_where_each_got_as_many(given: int, each: int) -> None:
    """Ten come off beside 20 blocks or 19, at once or later; odd ones are not counted.

    Two each of those last from minute 395 of day 1 on, as without stores nothing was left.
    """
    outfit = an_outfit([(10, 0), (14, 0)])
    blocks = Action(Job.BLOCK, 10, pieces=given)
    here = planned(outfit, (0, (Stop(1, 60, (take_off(10, 15), blocks)),)))
    bare = (Stop(1, 60, (take_off(10, 15),)),)
    later = planned(outfit, (0, bare), (1, (Stop(1, 30, (blocks,)),)))

    assert [(10, each, 395 + each * ONE_BLOCK)] == [
        (one.colonies, one.blocks, one.ends_min) for one in covers(here)
    ]
    (then,) = covers(replace(later, now_min=2 * DAY_MIN))
    assert (10, each, DAY_MIN + 395 + each * ONE_BLOCK) == (
        then.colonies, then.blocks, then.ends_min,
    )  # fmt: skip


def test_colonies_that_died_since_do_not_wait() -> None:
    """Ten came off, eight are left."""
    outfit = an_outfit([(10, 0)], [replace(a_yard(1), colonies=8)])
    plan = planned(outfit, (0, (Stop(1, 60, (take_off(10, 15), block(10))),)))

    assert [(8, 1)] == [(one.colonies, one.blocks) for one in covers(plan)]


def test_what_stands_if_the_plan_stopped() -> None:
    """Stops from the given minute on do not count: yard 1 is then off but not fed."""
    (only,) = covers(small_plan(), DAY_MIN)

    assert ("yard1", None) == (only.yard, only.fed_min)
    assert only.runs_short()


def test_a_yard_with_stores_enough_has_no_clock() -> None:
    """Where stores reach the target nothing is due."""
    rich = replace(a_yard(1), stores_g=8_000)
    outfit = an_outfit([(10, 0)], [rich])

    assert () == covers(planned(outfit, (0, (Stop(1, 60, (take_off(10, 15),)),))))


def test_the_list_says_who_runs_out() -> None:
    """The second yard has a block and no syrup: it is marked, with day and hour."""
    plan = small_plan()
    lines = cover_lines(plan)

    assert ["", "RUNS OUT"] == [line.warn for line in lines]
    # Yard 2: off on day 3 from 08:39 (minute 4839); 4839 + 6048 = 10887 = day 7, 13:27.
    assert "Yard 2: 7 colonies run out Mon 8 Mar 13:27; syrup: no syrup planned" == short_line(
        lines[1]
    )
    page = Page(cover_page(plan))
    assert "Runs out on Mon 8 Mar" in page.text
    assert "RUNS OUT" in page.text


def warned_after(plan: Plan, warn_min: int | None) -> str:
    """The first line's warning with another age typed, or none."""
    feed = replace(plan.outfit.feed, cover_warn_min=warn_min)
    return cover_lines(replace(plan, outfit=replace(plan.outfit, feed=feed)))[0].warn


def test_untyped_the_list_marks_what_has_less_than_a_day_left() -> None:
    """2.1 kg at 500 g a day last 4 days 4 h 48, from 07:00 or so on; fed four or three days on."""
    outfit = an_outfit([(10, 0)], days=8)
    stops = (Stop(1, 60, (take_off(10, 15), block(10))),)
    fed = [planned(outfit, (0, stops), (day, (Stop(1, 30, (feed(10, 80),)),))) for day in (4, 3)]

    assert ["cover for 4 h 48 left at feeding: look in", ""] == [
        warned_after(plan, None) for plan in fed
    ]


def test_late_syrup_and_old_blocks_are_marked() -> None:
    """Syrup after the end is a warning in capitals; an old stop-gap asks for a look."""
    outfit = an_outfit([(10, 0)], days=8)
    stops = (Stop(1, 60, (take_off(10, 15), block(10))),)
    late = planned(outfit, (0, stops), (5, (Stop(1, 30, (feed(10, 80),)),)))
    old = planned(outfit, (0, stops), (4, (Stop(1, 30, (feed(10, 80),)),)))

    assert "RUNS OUT before syrup" == cover_lines(late)[0].warn
    # Four days to the minute; the plan warns from three, as typed, or from four.
    assert "stop-gap 4 days old at feeding: look in" == cover_lines(old)[0].warn
    assert "stop-gap 4 days old at feeding: look in" == warned_after(old, 4 * 1440)
    assert "" == warned_after(old, 4 * 1440 + 1)
    assert "No condensed colony" in Page(cover_page(replace(old, shifts=()))).text
