"""Stocks worked by hand: boards, blocks, strips, feeders, sugar, containers that run short."""

from dataclasses import replace

import pytest

from runplanner.daybook.trip import Job
from runplanner.outfit.outfit import Outfit
from runplanner.outfit.yards import Clearing
from runplanner.season.search.improve import Improver
from runplanner.trips.ground import Ground
from tests.outfits import an_outfit, daily
from tests.season.shapes import DONE, calls_with, did, planned, reasons
from tests.season.tiny import EVEN_FEED, few_boards, four, no_syrup_on_day_0, tiny

OWNED = "how many fondant blocks there are"


def with_kit(outfit: Outfit, **changes: int | None) -> Outfit:
    """The outfit with other numbers of boards, blocks or feeders."""
    return replace(outfit, kit=replace(outfit.kit, **changes))  # type: ignore[arg-type]


def test_four_blocks_bridge_four_colonies() -> None:
    """Syrup comes a day later, so four blocks are just enough."""
    plan = planned(with_kit(no_syrup_on_day_0(), blocks_owned=4))

    assert (DONE, 4 * 400) == (plan.tally, plan.bill.blocks)


def test_three_blocks_are_too_few_for_a_yard_of_four() -> None:
    """No colony is condensed without cover; the yard is left, and the blocks are blamed."""
    plan = planned(with_kit(no_syrup_on_day_0(), blocks_owned=3), rounds=5)

    assert (4, 4 * 8_000, 4) == (plan.tally.no_strips, plan.tally.unfed_g, plan.tally.not_off)
    assert any(why.startswith(OWNED) for why in reasons(plan))


def test_strips_for_one_yard_only_go_into_one_yard() -> None:
    """Eight strips in stock and two for each of eight colonies."""
    outfit = tiny([(10, 0), (14, 0)], [four(1, 1), four(2, 1)], 1)
    plan = planned(replace(outfit, strips=replace(outfit.strips, stock=8)), rounds=5)

    assert (4, 0, 0) == (plan.tally.no_strips, plan.tally.unfed_g, plan.tally.not_off)
    assert 8 * 200 == plan.bill.strips


def test_boards_go_from_yard_to_yard() -> None:
    """Four boards serve two yards of four, one after the other."""
    yards = [four(n, 5, clearing=Clearing.BOARDS) for n in (1, 2)]
    plan = planned(with_kit(tiny([(10, 0), (14, 0)], yards, 5), boards_owned=4))
    on, off = calls_with(plan, Job.BOARDS), calls_with(plan, Job.TAKE_OFF)

    assert DONE == plan.tally
    assert off[0].end_min <= on[1].start_min


def test_boards_fewer_than_colonies_go_round_within_a_yard() -> None:
    """Two boards, four colonies: two on, two off, and the same again."""
    plan = planned(few_boards())

    assert DONE == plan.tally
    assert [2, 2] == [
        a.pieces
        for call in calls_with(plan, Job.BOARDS)
        for a in call.actions
        if a.job is Job.BOARDS
    ]


def test_feeders_for_one_yard_feed_one_yard() -> None:
    """Four feeders that circulate stay out until the strips come out."""
    yards = [four(1, 1), four(2, 1)]
    plan = planned(with_kit(tiny([(10, 0), (14, 0)], yards, 1), feeders_owned=4), rounds=5)

    assert 4 * 8_000 == plan.tally.unfed_g
    assert [4] == [
        a.feeders for call in calls_with(plan, Job.FEED) for a in call.actions if a.feeders
    ]


@pytest.mark.parametrize(("sugar_g", "fed"), [(30_094, True), (30_000, False)])
def test_sugar_for_34_litres(sugar_g: int, *, fed: bool) -> None:
    """34 l x 1.327 kg x 0.667 are 30.094 kg of sugar; with less, no colony is left hungry."""
    feed = replace(EVEN_FEED, sugar_g=sugar_g)
    plan = planned(tiny([(10, 0)], [four(1, 9, finish_by_day=0)], 9, feed=feed), rounds=5)

    # 34,000 x 1,327 x 667 / 1,000,000 = 30,093.7, so 30,094 g.  Two blocks last 8.4 days of
    # the nine, so without syrup nothing comes off.
    assert (0 if fed else 4) == plan.tally.not_off


def test_containers_bound_what_a_trip_feeds() -> None:
    """One can of 25 l: four colonies of 8.5 l are fed in two rides."""
    outfit = tiny([(10, 0)], [four(1, 2)], 2)
    (_, can) = outfit.containers
    plan = planned(
        replace(
            outfit, containers=(replace(can, owned=1),), rules=replace(outfit.rules, smallest_lot=2)
        )
    )

    # 25 / 8.5 = two colonies, 17 l.
    assert DONE == plan.tally
    assert [2, 2] == [
        a.colonies for call in calls_with(plan, Job.FEED) for a in call.actions if a.job is Job.FEED
    ]


def test_without_containers_nothing_is_fed() -> None:
    """And what cannot be fed is not condensed where winter would come first."""
    plan = planned(
        replace(tiny([(10, 0)], [four(1, 9, finish_by_day=0)], 9), containers=()), rounds=5
    )

    assert (4, ()) == (plan.tally.not_off, plan.shifts)


def test_what_lasts_until_the_end_may_come_off_unfed() -> None:
    """Off on the last day with a block each: nothing is uncovered within the campaign."""
    plan = planned(replace(tiny([(10, 0)], [four(1, 2)], 2), containers=()), rounds=5)

    assert (0, 0, 4 * 8_000, 0) == (
        plan.tally.uncovered, plan.tally.no_strips, plan.tally.unfed_g, plan.tally.not_off,
    )  # fmt: skip
    assert 4 * 400 == plan.bill.blocks


def test_a_second_block_is_given_where_cover_would_end() -> None:
    """Off by day 0, syrup not before day 6: a block lasts 4.2 days, two last 8.4."""
    yard = four(1, 7, finish_by_day=0, feed_spans=daily(480, 1080, [6]))
    plan = planned(tiny([(10, 0)], [yard], 7))

    assert DONE == plan.tally
    assert [4, 4] == [
        a.pieces for call in calls_with(plan, Job.BLOCK) for a in call.actions if a.job is Job.BLOCK
    ]
    assert 8 * 400 == plan.bill.blocks


def test_a_block_is_spared_where_syrup_comes_later_the_same_day() -> None:
    """One can of 25 l again, but both rides on one day and the rule set: no block at all."""
    outfit = tiny(
        [(10, 0)],
        [four(1, 1, open_spans=daily(480, 540, [0]), feed_spans=daily(600, 1080, [0]))],
        1,
    )
    rules = replace(outfit.rules, same_day_second_trip=True)
    plan = planned(replace(outfit, rules=rules))

    assert (DONE, 0) == (plan.tally, plan.bill.blocks)
    assert ["take-off 4", "feed 4"] == [
        part
        for line in did(plan)
        for part in line.split(" ", 2)[2].split(", ")
        if part != "strips 4"
    ]


def test_syrup_of_the_same_day_comes_back_where_a_round_took_it_out() -> None:
    """The take-off stands without a block, and waits for nothing but its syrup."""
    outfit = tiny(
        [(10, 0)],
        [four(1, 1, open_spans=daily(480, 540, [0]), feed_spans=daily(600, 1080, [0]))],
        1,
    )
    rules = replace(outfit.rules, same_day_second_trip=True)
    improver = Improver(Ground(replace(outfit, rules=rules)), 1)
    whole = improver.construct()
    bare = improver.keeper.thin(whole, lambda stop: None if stop.round else stop, {0})
    again = improver.builder.add(bare, 0)

    assert (0, 4) == (whole.progress[0].lacking, bare.progress[0].lacking)
    assert [] == [visit for visit in bare.visits[0] if visit.stop.round]
    assert not again.progress[0].owing()


def test_two_blocks_at_once_where_the_rule_says_so() -> None:
    """Two blocks for each colony last longer than 8 days at 500 g."""
    outfit = no_syrup_on_day_0()
    plan = planned(replace(outfit, rules=replace(an_outfit().rules, blocks=2)))

    assert (DONE, 8 * 400) == (plan.tally, plan.bill.blocks)
