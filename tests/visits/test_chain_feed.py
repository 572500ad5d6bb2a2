"""Cover, blocks and feed rounds in the chain of a yard."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.days import DAY_MIN
from runplanner.outfit.yards import Health
from runplanner.visits.chain import ChainBrokenError
from runplanner.visits.stop import Stop, Visit
from tests.outfits import an_outfit
from tests.visits.calls import (
    BOARDED,
    BOARDS,
    DAYS,
    OFF,
    OUTFIT,
    ROUND_1,
    ROUND_2,
    STRIPS,
    YARD,
    at,
    off,
    read,
)

MINUTE = 1 / 60
TWO_BLOCKS = replace(OUTFIT, rules=replace(OUTFIT.rules, blocks=2))
NO_BLOCKS = replace(OUTFIT, rules=replace(OUTFIT.rules, blocks=0))
SECOND_TRIP = replace(OUTFIT, rules=replace(OUTFIT.rules, same_day_second_trip=True))
BARE = OFF._replace(blocks=0)
HEAVY = replace(YARD, stores_g=8_000)


def test_one_block_covers_four_days_and_a_fifth() -> None:
    """Off on day 1 at 10:00, the block lasts until day 5, 14:48; syrup must start before."""
    # 6,048 min = 4 days 4 h 48 min
    assert 10 == read(at(1, 10, OFF), at(5, 14 + 47 * MINUTE, ROUND_1)).fed[1]
    with pytest.raises(ChainBrokenError, match="cover ends"):
        read(at(1, 10, OFF), at(5, 14 + 48 * MINUTE, ROUND_1))


def test_two_blocks_cover_twice_as_long() -> None:
    """4,200 g at 500 g a day: 8.4 days, from day 1, 10:00 to day 9, 19:36."""
    twice = OFF._replace(blocks=20)

    late = at(9, 19.5, ROUND_1)
    assert 10 == read(at(1, 10, twice), late, outfit=TWO_BLOCKS).fed[1]
    with pytest.raises(ChainBrokenError, match="not the blocks"):
        read(at(1, 10, OFF), outfit=TWO_BLOCKS)


def test_who_was_fed_at_a_standstill_comes_off_fed() -> None:
    """Ten fed on day 1, off without blocks on day 2: nobody waits.  Of six fed, four do."""
    bare = replace(YARD, boxes=0)
    off = Stop(0, off=10)
    some, rest = ROUND_1._replace(fed=6), off._replace(blocks=4)

    whole = read(at(1, 10, ROUND_1, fact=True), at(2, 10, off), yard=bare)
    part = read(at(1, 10, some, fact=True), at(2, 10, rest), yard=bare)

    assert (0, 0) == (whole.uncovered, whole.starving)
    assert 4 == part.starving


def test_stores_cover_as_well() -> None:
    """1,000 g of stores and a block: 3,100 g, 8,928 min, until day 7, 14:48."""
    yard = replace(YARD, stores_g=1_000)
    # need 7,000 g: 7,064 ml, two rounds still
    assert 10 == read(at(1, 10, OFF), at(7, 14, ROUND_1), yard=yard).fed[1]
    with pytest.raises(ChainBrokenError, match="cover ends"):
        read(at(1, 10, OFF), at(7, 15, ROUND_1), yard=yard)


def test_syrup_in_the_visit_itself_needs_no_cover() -> None:
    """The whole yard off and fed at once, without blocks."""
    assert 10 == read(at(1, 10, BARE._replace(round=1, fed=10))).fed[1]


def test_syrup_at_the_last_lots_visit() -> None:
    """The four of day 1 had blocks; the six of day 2 are fed as they come off."""
    last = off(6, 4, blocks=0)._replace(round=1, fed=10)
    chain = read(at(1, 8, off(4)), at(2, 8, last))

    assert (10, 0) == (chain.fed[1], chain.uncovered)


def test_part_of_the_last_lot_fed_in_its_visit() -> None:
    """Seven are fed, first off first fed: four of day 1, three of today; three get blocks."""
    last = off(6, 4, blocks=3)._replace(round=1, fed=7)
    chain = read(at(1, 8, off(4)), at(2, 8, last), at(5, 8, ROUND_1._replace(fed=3)))
    assert (10, 0) == (chain.fed[1], chain.uncovered)

    with pytest.raises(ChainBrokenError, match="not the blocks"):
        read(at(1, 8, off(4)), at(2, 8, last._replace(blocks=6)))


def test_first_off_first_fed() -> None:
    """Four fed on day 5 are those of day 1; the six of day 2 have until day 6."""
    # day 1, 08:00 + 4.2 days = day 5, 12:48; day 2, 08:00 + 4.2 days = day 6, 12:48
    lots = (at(1, 8, off(4)), at(2, 8, off(6, 4)))
    first, rest = ROUND_1._replace(fed=4), ROUND_1._replace(fed=6)

    assert 10 == read(*lots, at(5, 12, first), at(6, 12, rest)).fed[1]
    # three on day 5 leave one of day 1's four for day 6
    three, seven = ROUND_1._replace(fed=3), ROUND_1._replace(fed=7)
    with pytest.raises(ChainBrokenError, match="cover ends"):
        read(*lots, at(5, 12, three), at(6, 12, seven))
    with pytest.raises(ChainBrokenError, match="cover ends"):
        read(*lots, at(6, 12, rest))


@pytest.mark.parametrize(
    ("visits", "reason"),
    [
        ([at(2, 8, ROUND_2)], "before the one that comes first"),
        ([at(2, 8, ROUND_1), at(2, 12, ROUND_1)], "more colonies fed"),
        ([at(2, 8, ROUND_1._replace(fed=2))], "feed of too small a lot"),
        ([at(2, 8, ROUND_1._replace(round=3))], "not due"),
        ([at(2, 8, ROUND_1._replace(round=0))], "not due"),
        ([at(2, 8, ROUND_1._replace(fed=5)), at(5, 8, ROUND_2)], "before the one"),
        # 3,240 min after day 2, 08:00 is day 4, 14:00
        ([at(2, 8, ROUND_1), at(4, 14 - MINUTE, ROUND_2)], "not taken down yet"),
    ],
)
def test_rounds_out_of_order(visits: list[Visit], reason: str) -> None:
    """Rounds come in turn, spaced by what the bees take down, once for each colony."""
    with pytest.raises(ChainBrokenError, match=reason):
        read(at(1, 8, OFF), *visits)


def test_a_round_may_follow_as_soon_as_the_last_is_taken_down() -> None:
    """2.25 days after day 2, 08:00: day 4, 14:00."""
    chain = read(at(1, 8, OFF), at(2, 8, ROUND_1), at(4, 14, ROUND_2))

    assert [0, 10, 10] == chain.fed


def test_rounds_of_lots_keep_each_lots_own_spacing() -> None:
    """Five fed on day 2, five on day 3; round 2 of the first five may not take the others."""
    half = ROUND_1._replace(fed=5)
    fed = (at(1, 8, OFF), at(2, 8, half), at(3, 8, half))

    again = half._replace(round=2)
    assert 5 == read(*fed, at(4, 15, again)).fed[2]
    # day 3, 08:00 + 2.25 days = day 5, 14:00
    with pytest.raises(ChainBrokenError, match="not taken down yet"):
        read(*fed, at(4, 15, again._replace(fed=6)))
    assert 10 == read(*fed, at(4, 15, again), at(5, 14, again)).fed[2]


# What is not covered


def test_colonies_never_fed_are_uncovered_to_the_end() -> None:
    """Cover ends on day 5, 14:48; to the end of day 11 there are 6 days 9 h: 7 each."""
    # 12 x 1,440 - (1 x 1,440 + 600 + 6,048) = 9,192 min = 6.4 days
    assert 10 * 7 == read(at(1, 10, OFF)).uncovered


def test_colonies_whose_cover_outlasts_the_campaign() -> None:
    """Off on day 8, 10:00, covered until day 12, 14:48: nothing is uncovered."""
    assert 0 == read(at(8, 10, OFF)).uncovered


def test_a_heavy_yard_needs_no_blocks_and_no_cover() -> None:
    """With stores enough there are no rounds: a take-off leaves nothing to cover."""
    chain = read(at(1, 10, BARE), yard=HEAVY)

    assert (0, [0]) == (chain.uncovered, chain.fed)
    with pytest.raises(ChainBrokenError, match="not the blocks"):
        read(at(1, 10, OFF), yard=HEAVY)


def test_blocks_may_be_switched_off() -> None:
    """Where the rules give no blocks, syrup comes in the visit, or the stores cover."""
    yard = replace(YARD, stores_g=1_000)
    # 1,000 g last 2 days
    chain = read(at(1, 10, BARE), at(3, 9, ROUND_1), yard=yard, outfit=NO_BLOCKS)
    assert (0, 10) == (chain.lacking, chain.fed[1])
    with pytest.raises(ChainBrokenError, match="cover ends"):
        read(at(1, 10, BARE), at(1, 12, ROUND_1), outfit=NO_BLOCKS)


def test_syrup_of_before_counts_beside_that_of_a_take_off_own_visit() -> None:
    """Three off and fed in the past; the seven others with their syrup want no blocks."""
    then = at(1, 10, off(3, blocks=0)._replace(round=1, fed=3), fact=True)
    rest = off(7, 3, blocks=0)._replace(round=1, fed=7)

    assert 10 == read(then, at(2, 10, rest)).fed[1]
    with pytest.raises(ChainBrokenError, match="not the blocks"):
        read(then, at(2, 10, rest._replace(blocks=3)))


def test_planned_colonies_whose_cover_ends_with_no_syrup_are_counted() -> None:
    """A block lasts 4.2 days of the twelve; what has been driven is past helping."""
    # off on day 1, 10:00: until day 5, 14:48; off on day 8: until after the end
    assert 10 == read(at(1, 10, OFF)).starving
    assert 4 == read(at(1, 10, OFF), at(2, 10, ROUND_1._replace(fed=6))).starving
    assert 0 == read(at(8, 10, OFF)).starving
    assert 0 == read(at(1, 10, OFF, fact=True)).starving


# A second trip the same day


def test_a_second_trip_spares_the_block_where_allowed() -> None:
    """Syrup four hours after the take-off, on one day."""
    chain = read(at(1, 8, BARE), at(1, 12, ROUND_1), outfit=SECOND_TRIP)

    assert (0, 0) == (chain.lacking, chain.uncovered)
    with pytest.raises(ChainBrokenError, match="not the blocks"):
        read(at(1, 8, BARE), at(1, 12, ROUND_1))


def test_a_spared_block_wants_its_syrup_the_same_day() -> None:
    """Next morning is too late, even where stores would last."""
    yard = replace(YARD, stores_g=2_000)
    with pytest.raises(ChainBrokenError, match="spared a block"):
        read(at(1, 8, BARE), at(2, 8, ROUND_1), yard=yard, outfit=SECOND_TRIP)


def test_colonies_spared_and_not_fed_are_counted() -> None:
    """So that the take-off may be planned first: four are owed their syrup of that day."""
    visits = (at(1, 8, BARE), at(1, 12, ROUND_1._replace(fed=6)))

    assert 4 == read(*visits, outfit=SECOND_TRIP).lacking


def test_a_block_may_be_given_all_the_same() -> None:
    """A second trip is allowed, not demanded."""
    assert 10 == read(at(1, 8, OFF), at(3, 8, ROUND_1), outfit=SECOND_TRIP).fed[1]


# Further blocks

MORE = Stop(0, blocks=10)


def test_a_further_block_adds_to_the_cover() -> None:
    """Given on day 3: 4,200 g from day 1, 10:00 last until day 9, 19:36."""
    chain = read(at(1, 10, OFF), at(3, 10, MORE), at(9, 19.5, ROUND_1))

    assert (10, 0) == (chain.fed[1], chain.uncovered)
    with pytest.raises(ChainBrokenError, match="cover ends"):
        read(at(1, 10, OFF), at(3, 10, MORE), at(9, 19.7, ROUND_1))


def test_a_further_block_comes_before_the_cover_ends() -> None:
    """On day 5 at 14:47 it is in time, at 14:48 it is not."""
    assert 10 == read(at(1, 10, OFF), at(5, 14 + 47 * MINUTE, MORE)).off
    with pytest.raises(ChainBrokenError, match="cover ends before syrup or a further block"):
        read(at(1, 10, OFF), at(5, 14 + 48 * MINUTE, MORE))


def test_further_blocks_go_to_those_whose_cover_ends_first() -> None:
    """Five blocks for four of day 1 and one of day 2; the other five end on day 6, 12:48."""
    lots = (at(1, 8, off(4)), at(2, 8, off(6, 4)), at(3, 8, Stop(0, blocks=5)))

    # campaign's end day 12, 00:00: ends of cover are 4 x day 9, 17:36 (2.3 days left: 3),
    # 1 x day 10, 17:36 (1.3: 2) and 5 x day 6, 12:48 (5.5: 6)
    assert 4 * 3 + 1 * 2 + 5 * 6 == read(*lots).uncovered
    with pytest.raises(ChainBrokenError, match="cover ends"):
        read(*lots, at(6, 13, ROUND_1))


def test_further_blocks_may_be_several_for_each_colony() -> None:
    """Two more on day 3 for four of ten: cover until day 14, 0:24; six end on day 5, 14:48."""
    more = at(3, 10, Stop(0, blocks=8, each=2))
    days = ((5, 14 * 60 + 48, 6), (14, 24, 4))

    read_on = read(at(1, 10, OFF), more)
    assert {(day * DAY_MIN + minute, number) for day, minute, number in days} == set(
        read_on.waiting
    )
    with pytest.raises(ChainBrokenError, match="colonies that do not wait"):
        read(at(1, 10, OFF), at(3, 10, Stop(0, blocks=9, each=2)))


def test_no_more_further_blocks_than_there_are() -> None:
    """Four blocks for the four of day 1 leave the six of day 2 with one each."""
    lots = (at(1, 8, off(4)), at(2, 8, off(6, 4)), at(3, 8, Stop(0, blocks=4)))

    # 4 x day 9, 17:36 (2.3 days left: 3) and 6 x day 6, 12:48 (5.5: 6)
    assert 4 * 3 + 6 * 6 == read(*lots).uncovered


def test_further_blocks_for_some_leave_the_turn_as_it_was() -> None:
    """First off is still first fed: four fed on day 5 are the ones with two blocks."""
    lots = (at(1, 8, OFF), at(3, 8, Stop(0, blocks=4)))
    # the other six end on day 5, 12:48
    with pytest.raises(ChainBrokenError, match="cover ends"):
        read(*lots, at(5, 12, ROUND_1._replace(fed=4)), at(5, 14, ROUND_1._replace(fed=6)))
    assert 10 == read(*lots, at(5, 12, ROUND_1)).fed[1]


@pytest.mark.parametrize(
    ("visits", "reason"),
    [
        ([at(3, 8, Stop(0, blocks=11))], "colonies that do not wait"),
        ([at(2, 8, ROUND_1), at(3, 8, MORE)], "colonies that do not wait"),
        ([at(3, 8, MORE._replace(strips=True))], "along with other jobs"),
        ([at(3, 8, MORE._replace(round=1, fed=10))], "along with other jobs"),
    ],
)
def test_further_blocks_out_of_place(visits: list[Visit], reason: str) -> None:
    """They go, alone, to colonies that wait for their syrup."""
    with pytest.raises(ChainBrokenError, match=reason):
        read(at(1, 8, OFF), *visits)


def test_further_blocks_are_banned_by_strips_as_well() -> None:
    """Formic acid, say, forbids fondant for seven days; the block of day 1 is eaten on day 5."""
    outfit = replace(OUTFIT, strips=replace(OUTFIT.strips, no_feed_days=7))
    stocked = replace(YARD, stores_g=3_000)
    with pytest.raises(ChainBrokenError, match="strips forbid"):
        read(at(1, 8, OFF), at(5, 13, STRIPS), at(7, 8, MORE), outfit=outfit, yard=stocked)


# Facts


@pytest.mark.parametrize(
    "visits",
    [
        [at(0, 8, ROUND_1, fact=True)],
        [at(0, 8, Stop(0, round=7, fed=10), fact=True)],
        [at(0, 8, ROUND_2, fact=True)],
        [at(0, 8, OFF._replace(off=14, boxes=99, blocks=3), fact=True)],
        [at(0, 8, OFF, fact=True), at(0, 8.2, STRIPS, fact=True), at(0, 9, STRIPS, fact=True)],
        [at(0, 8, BOARDS._replace(boards=30), fact=True)],
        [at(0, 8, OFF, fact=True), at(0, 10, Stop(0, blocks=40), fact=True)],
        [at(0, 8, OFF, fact=True), at(1, 8, ROUND_1._replace(fed=25), fact=True)],
    ],
)
def test_what_was_driven_is_past_judging(visits: list[Visit]) -> None:
    """No fact breaks the chain, and no count runs beyond the yard's colonies."""
    chain = read(*visits)

    assert 0 <= chain.off <= 10
    assert all(0 <= fed <= 10 for fed in chain.fed)


def test_a_fact_that_came_too_late_is_counted_not_refused() -> None:
    """Taken off on day 1 in the past, fed a day and a minute after cover ended: 2 days each."""
    # cover ends on day 5, 14:48
    late = at(6, 14 + 49 * MINUTE, ROUND_1)
    chain = read(at(1, 10, OFF, fact=True), late)

    assert (10 * 2, 10) == (chain.uncovered, chain.fed[1])


def test_more_blocks_than_one_a_colony_last_longer_once_they_are_given() -> None:
    """Two each on day 1, 10:00, last until day 9, 19:36; of fifteen the odd five are not counted.

    So do two each of twenty given minutes later to those that have none yet.
    """
    driven = at(1, 10, OFF._replace(blocks=20), fact=True)
    odd = at(1, 10, OFF._replace(blocks=15), fact=True)
    later = (at(1, 10, BARE, fact=True), at(1, 10.1, Stop(0, blocks=20, each=2), fact=True))

    assert 0 == read(driven, at(9, 19.5, ROUND_1)).uncovered
    assert 10 == read(driven, at(9, 19.7, ROUND_1)).uncovered
    assert ((5 * DAY_MIN + 14 * 60 + 48, 10),) == read(odd).waiting
    assert ((9 * DAY_MIN + 19 * 60 + 42, 10),) == read(*later).waiting


def test_blocks_over_after_a_take_off_are_eaten_before_strips_that_forbid_feed() -> None:
    """Fifteen for ten: five may have got two, which are eaten on day 9, 19:36."""
    banned = replace(OUTFIT, strips=replace(OUTFIT.strips, no_feed_days=1))
    odd = at(1, 10, OFF._replace(blocks=15), fact=True)

    assert 9 == read(odd, at(9, 19.7, STRIPS), outfit=banned).strips_day
    with pytest.raises(ChainBrokenError, match="the last block is eaten"):
        read(odd, at(9, 19.5, STRIPS), outfit=banned)


def test_a_block_after_a_gap_starts_anew() -> None:
    """Too late a block, two days after the end, covers 4.2 days from then."""
    # ends day 5, 14:48; block on day 7, 14:48: 2 days each; then until day 11, 19:36,
    # and to the end of day 11 a started day each
    more = at(7, 14 + 48 * MINUTE, MORE)

    assert 10 * 2 + 10 * 1 == read(at(1, 10, OFF, fact=True), more).uncovered
    assert 10 * 2 == read(at(1, 10, OFF, fact=True), more, at(11, 19, ROUND_1)).uncovered


def test_driven_boards_and_take_offs_count_for_what_follows() -> None:
    """Boards of a fact serve a take-off still to come; a fact without blocks has none spared."""
    chain = read(at(0, 10, BOARDS, fact=True), at(1, 10, OFF), yard=BOARDED)
    assert 0 == chain.lacking

    bare = read(at(1, 10, BARE, fact=True), at(1, 12, ROUND_1))
    # without stores cover ends at 10:00: a started day each
    assert (0, 10) == (bare.lacking, bare.uncovered)


# Properties


def several(cuts: list[int], feeds: list[int]) -> list[Visit]:
    """Lots of three or more off on days 0, 1, ..., then feed lots as soon as all are off."""
    visits, before = [], 0
    for day, count in enumerate(cuts):
        visits.append(at(day, 8, off(count, before)))
        before += count
    day = len(cuts) - 1
    visits += [at(day, 12 + n, ROUND_1._replace(fed=fed), 30) for n, fed in enumerate(feeds)]
    return visits


def shares(total: int) -> st.SearchStrategy[list[int]]:
    """Ways of splitting ten colonies into one, two or three lots of three or more."""
    return st.sampled_from([[total], [3, 7], [4, 6], [7, 3], [5, 5], [3, 3, 4], [3, 4, 3]])


@given(cuts=shares(10), feeds=shares(10))
def test_any_split_in_good_time_holds(cuts: list[int], feeds: list[int]) -> None:
    """However off and fed in lots, within four days all ten are off, fed and covered."""
    chain = read(*several(cuts, feeds))

    assert (10, 10, 0, 0) == (chain.off, chain.fed[1], chain.uncovered, chain.lacking)


@given(cuts=shares(10), feeds=shares(10), wait=st.integers(0, 5), more=st.integers(0, 3))
def test_later_syrup_is_never_easier(
    cuts: list[int], feeds: list[int], wait: int, more: int
) -> None:
    """Where a later first round holds, an earlier one held as well."""
    outfit = an_outfit([(10, 0)], [YARD], days=DAYS + 10)
    visits = several(cuts, feeds)

    def holds(days: int) -> bool:
        later = [
            v._replace(
                start_min=v.start_min + 1_440 * days, end_min=v.end_min + 1_440 * days,
                day=v.day + days,
            ) if v.stop.fed else v
            for v in visits
        ]  # fmt: skip
        try:
            read(*later, outfit=outfit)
        except ChainBrokenError:
            return False
        return True

    assert holds(wait) or not holds(wait + more)


@pytest.mark.parametrize("health", [Health.SUSPECT, Health.STANDSTILL])
def test_no_further_block_goes_into_a_yard_that_is_closed(health: Health) -> None:
    """Where feeding is agreed it is syrup and strips; a block was planned, and refused."""
    closed = replace(YARD, health=health, feed_agreed=True, boxes=0)
    block = at(3, 10, Stop(0, blocks=10))
    off_before = at(1, 10, OFF._replace(boxes=0), fact=True)

    with pytest.raises(ChainBrokenError, match="at a yard that is closed"):
        read(off_before, block, yard=closed)
    assert 10 == read(off_before, block, yard=replace(closed, health=Health.SOUND)).off


def test_a_block_before_strips_of_a_truck_that_is_out_keeps_to_their_ban() -> None:
    """The strips are fact and go in at 14:00; a block the same morning is not."""
    acid = replace(OUTFIT.strips, substance="formic acid", no_feed_days=7)
    outfit = replace(OUTFIT, strips=acid)
    first, strips = at(1, 10, OFF, fact=True), at(3, 14, STRIPS, fact=True)
    early = at(3, 8, Stop(0, blocks=10))

    with pytest.raises(ChainBrokenError, match="one day in spite of a ban"):
        read(first, early, strips, outfit=outfit)
    driven = early._replace(fact=True)
    assert 3 == read(first, driven, strips, outfit=outfit).strips_day


def test_what_is_planned_before_the_feed_of_a_truck_that_is_out_heeds_it() -> None:
    """The syrup is fact and is poured at 16:00; strips or another round that morning are not."""
    acid = replace(OUTFIT.strips, substance="formic acid", no_feed_days=7)
    outfit = replace(OUTFIT, strips=acid)
    off, strips = at(1, 10, OFF, fact=True), at(6, 14, STRIPS)
    fed, again = at(6, 16, ROUND_1, fact=True), at(6, 16, ROUND_2, fact=True)

    with pytest.raises(ChainBrokenError, match="feed while the strips forbid it"):
        read(off, strips, fed, outfit=outfit)
    assert 6 == read(off, strips._replace(fact=True), fed, outfit=outfit).strips_day
    with pytest.raises(ChainBrokenError, match="not taken down yet"):
        read(off, at(6, 8, ROUND_1), again)
    assert [10, 10] == read(off, at(6, 8, ROUND_1, fact=True), again).fed[1:]
