"""The chain of a yard: take-off, feed, strips; every rule broken one by one."""

from dataclasses import replace

import pytest

from runplanner.outfit.outfit import Deadline, Outfit
from runplanner.outfit.yards import Clearing, Health
from runplanner.visits.chain import ChainBrokenError
from runplanner.visits.stop import Stop, Visit
from tests.visits.calls import (
    BOARDED,
    BOARDS,
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


def with_deadline(job: str, day: int, *, hard: bool) -> Outfit:
    """The outfit with one deadline (take_off_by, strips_by, feed_by) moved."""
    season = replace(OUTFIT.season, **{job: Deadline(day, hard=hard)})  # type: ignore[arg-type]
    return replace(OUTFIT, season=season)


def with_ban(days: int) -> Outfit:
    """The outfit with strips that forbid feeding for so many days."""
    return replace(OUTFIT, strips=replace(OUTFIT.strips, no_feed_days=days))


def test_a_whole_chain_holds() -> None:
    """Boards, take-off, two rounds and strips, each in its time: nothing is owed."""
    chain = read(
        at(0, 10, BOARDS),
        at(1, 10, OFF),
        at(2, 10, ROUND_1),
        # 2.25 days after day 2, 10:00 is day 4, 16:00
        at(5, 10, ROUND_2._replace(strips=True)),
        yard=BOARDED,
    )

    assert (10, [0, 10, 10], 5) == (chain.off, chain.fed, chain.strips_day)
    assert (0, 0, 0, 0) == (
        chain.lacking,
        chain.uncovered,
        chain.late_cents,
        chain.boards_long_cents,
    )


def test_an_empty_chain_holds() -> None:
    """A yard not visited breaks nothing and has got nowhere."""
    chain = read()

    assert (0, [0, 0, 0], None, 0) == (chain.off, chain.fed, chain.strips_day, chain.uncovered)


SPLIT = (at(1, 8, off(4)), at(2, 8, off(6, 4)))
"""Four colonies come off on day 1, the other six on day 2, each with a block."""

HELD = replace(YARD, boxes=0, health=Health.STANDSTILL, feed_agreed=True)


@pytest.mark.parametrize(
    ("visits", "reason"),
    [
        ([at(1, 10, OFF), at(1, 10.5, STRIPS)], "two visits at once"),
        ([at(1, 10, OFF), at(1, 10.5, STRIPS, fact=True)], "two visits at once"),
        ([at(1, 10, OFF, fact=True), at(1, 10.5, STRIPS)], "two visits at once"),
        ([at(1, 10, OFF._replace(off=11))], "more colonies off"),
        ([at(1, 8, off(6)), at(1, 12, off(6, 4))], "more colonies off"),
        ([at(1, 10, off(2)), at(1, 12, off(8, 2))], "take-off of too small a lot"),
        ([at(1, 10, OFF._replace(boxes=14))], "not the boxes"),
        ([at(1, 10, OFF._replace(brood=1))], "not the boxes"),
        ([at(1, 10, OFF._replace(blocks=0))], "not the blocks"),
        ([at(1, 10, OFF._replace(blocks=9))], "not the blocks"),
        ([at(1, 10, OFF._replace(round=1, fed=10))], "not the blocks"),
        ([at(0, 10, BOARDS)], "boards where none are due"),
        ([at(1, 10, STRIPS)], "strips while honey is on"),
        ([at(1, 8, off(4)), at(1, 12, STRIPS)], "strips while honey is on"),
        ([at(1, 10, OFF), at(2, 10, STRIPS), at(3, 10, STRIPS)], "strips twice"),
        ([at(1, 10, ROUND_1)], "syrup while honey is on"),
        ([at(1, 8, off(4)), at(2, 8, ROUND_1._replace(fed=4))], "syrup while honey is on"),
    ],
)
def test_orders_that_do_not_hold(visits: list[Visit], reason: str) -> None:
    """Each breach is told by name."""
    with pytest.raises(ChainBrokenError, match=reason):
        read(*visits)


def test_a_visit_may_begin_as_another_ends() -> None:
    """Two trucks may follow each other at a yard to the minute."""
    assert 10 == read(at(1, 10, OFF), at(1, 11, STRIPS)).off


@pytest.mark.parametrize(("day", "holds"), [(2, False), (3, True), (5, True), (6, False)])
def test_ready_from_and_finish_by(day: int, *, holds: bool) -> None:
    """A yard ready on day 3 that must be finished by day 5."""
    yard = replace(YARD, ready_from_day=3, finish_by_day=5)
    if holds:
        assert 10 == read(at(day, 10, OFF), yard=yard).off
    else:
        with pytest.raises(ChainBrokenError, match="outside the yard's days"):
            read(at(day, 10, OFF), yard=yard)


def test_a_split_yard() -> None:
    """Ten colonies come off in lots of 4 and 6 with 6 and 9 boxes."""
    assert 10 == read(*SPLIT).off


def test_a_small_yard_may_be_smaller_than_the_smallest_lot() -> None:
    """Two colonies are all there are: no lot could be larger."""
    yard = replace(YARD, colonies=2, boxes=3)

    assert 2 == read(at(1, 10, off(2)), yard=yard).off


def on(visit: Visit) -> Visit:
    """The visit, gone on to from one at the same yard without a drive."""
    return visit._replace(goes_on=True)


BOTH_WAYS = replace(BOARDED, clearing_else=Clearing.BLOWER)
EIGHT_LAID = at(0, 8, Stop(0, boards=8), fact=True)


def test_lots_at_one_stop_are_one_part() -> None:
    """Two of ten are too few for a visit, but not where the truck already stands."""
    under = (at(0, 8, Stop(0, boards=8)), at(1, 8, off(8)))
    blown = on(at(1, 9, off(2, 8)._replace(other=True)))

    assert 10 == read(*under, blown, yard=BOTH_WAYS).off
    with pytest.raises(ChainBrokenError, match="take-off of too small a lot"):
        read(*under, blown._replace(goes_on=False), yard=BOTH_WAYS)
    with pytest.raises(ChainBrokenError, match="take-off of too small a lot"):
        read(*under, blown._replace(truck=1), yard=BOTH_WAYS)


def test_so_are_feeds_of_a_round() -> None:
    """Eight and two of ten are fed at one stop: ten are."""
    fed = at(2, 8, ROUND_1._replace(fed=8)), at(2, 9, ROUND_1._replace(fed=2))

    assert [0, 10, 0] == read(at(1, 8, OFF), fed[0], on(fed[1])).fed
    with pytest.raises(ChainBrokenError, match="feed of too small a lot"):
        read(at(1, 8, OFF), *fed)


@pytest.mark.parametrize("other", [False, True])
def test_what_driven_boards_left_over_is_worth_a_visit(*, other: bool) -> None:
    """Eight boards were put on: two of ten come off by themselves, not three, nor two of eight."""
    last = at(3, 8, off(2, 8)._replace(other=other))
    more = () if other else (at(2, 8, Stop(0, boards=2)),)

    assert 10 == read(EIGHT_LAID, at(1, 8, off(8)), *more, last, yard=BOTH_WAYS).off
    planned = EIGHT_LAID._replace(fact=False)
    for lots in (
        (planned, at(1, 8, off(8)), *more, last),
        (EIGHT_LAID, at(1, 8, off(2)), *more, at(3, 8, off(8, 2))),
        (EIGHT_LAID, at(1, 8, off(7)), *more, at(3, 8, off(2, 7)), at(4, 8, off(1, 9))),
    ):
        with pytest.raises(ChainBrokenError, match="take-off of too small a lot"):
            read(*lots, yard=BOTH_WAYS)


def test_syrup_without_a_drive_is_syrup_at_the_take_off() -> None:
    """Six and four come off and all are fed without a drive between: nobody wants a block.

    Fed are the first to come off: where only six are, the last four want theirs.
    """
    lots = at(1, 8, off(6, 0, 0)), on(at(1, 9, off(4, 6, 0)))
    blocked = lots[1]._replace(stop=off(4, 6))
    fed = on(at(1, 10, ROUND_1))
    six = fed._replace(stop=ROUND_1._replace(fed=6))
    bare = replace(YARD, stores_g=0)

    assert 0 == read(*lots, fed, yard=bare).lacking
    assert [0, 6, 0] == read(lots[0], blocked, six, yard=bare).fed
    for visits in ((*lots, fed._replace(goes_on=False)), (lots[0], blocked, fed), (*lots, six)):
        with pytest.raises(ChainBrokenError, match="not the blocks"):
            read(*visits, yard=bare)


def test_brood_boxes_come_off_with_their_colonies() -> None:
    """5 brood boxes on 10 colonies: 2 with the first four, 3 with the rest."""
    # ceil(4 x 0.5) = 2, ceil(10 x 0.5) - 2 = 3
    yard = replace(YARD, brood_boxes_off=5)
    first, last = off(4)._replace(brood=2), off(6, 4)._replace(brood=3)

    assert 10 == read(at(1, 8, first), at(2, 8, last), yard=yard).off


def test_nothing_leaves_a_held_yard() -> None:
    """No take-off at a standstill."""
    with pytest.raises(ChainBrokenError, match="nothing leaves this yard"):
        read(at(1, 10, off(10)), yard=replace(YARD, health=Health.STANDSTILL))


# Boards


def test_feed_that_a_yard_got_before_it_was_held_was_late() -> None:
    """The last of two rounds in two visits, one day late: ten colonies, though twelve are told."""
    held = replace(YARD, health=Health.SUSPECT)
    visits = (
        at(1, 10, OFF, fact=True),
        at(2, 10, ROUND_1, fact=True),
        at(5, 10, ROUND_2._replace(fed=8), fact=True),
        at(5, 14, ROUND_2._replace(fed=4), fact=True),
    )

    late = read(*visits, yard=held, outfit=with_deadline("feed_by", 4, hard=False))
    assert 10 * 2_000 == late.late_cents


def test_what_was_driven_for_colonies_that_died_is_not_priced() -> None:
    """Ten came off and were fed a day late, under boards a day too long; eight are alive."""
    dead = replace(BOARDED, colonies=8, boxes=12)
    late = replace(with_deadline("take_off_by", 2, hard=False), rules=OUTFIT.rules)
    visits = (
        at(0, 10, BOARDS, fact=True),
        at(3, 10, OFF, fact=True),
        at(5, 10, ROUND_1, fact=True),
        at(9, 10, ROUND_2, fact=True),
    )
    chain = read(*visits, yard=dead, outfit=late)
    fed_late = read(*visits, yard=dead, outfit=with_deadline("feed_by", 8, hard=False))

    assert (8 * 100, 8 * 2_000) == (chain.boards_long_cents, chain.late_cents)
    assert 8 * 2_000 == fed_late.late_cents


# Deadlines


@pytest.mark.parametrize(("job", "day"), [("take_off_by", 0), ("strips_by", 4), ("feed_by", 4)])
def test_hard_deadlines_are_kept(job: str, day: int) -> None:
    """One day late is too late."""
    visits = (at(1, 10, OFF), at(2, 10, ROUND_1), at(5, 10, ROUND_2), at(5, 12, STRIPS))
    assert 5 == read(*visits, outfit=with_deadline(job, 5, hard=True)).strips_day

    with pytest.raises(ChainBrokenError, match="after a hard deadline"):
        read(*visits, outfit=with_deadline(job, day, hard=True))


def test_every_round_keeps_a_hard_deadline() -> None:
    """The first of two rounds is late already."""
    with pytest.raises(ChainBrokenError, match="after a hard deadline"):
        read(at(1, 10, OFF), at(2, 10, ROUND_1), outfit=with_deadline("feed_by", 1, hard=True))


@pytest.mark.parametrize(
    ("job", "cents"),
    [
        # take-off on day 1, deadline day 0: 10 colonies x 1 day x 2,000 cents
        ("take_off_by", 20_000),
        # strips on day 5: 5 days
        ("strips_by", 100_000),
        # the last round on day 5: 5 days; the first one, on day 2, is not counted
        ("feed_by", 100_000),
    ],
)
def test_priced_deadlines_cost(job: str, cents: int) -> None:
    """Each colony costs 20.00 for each day past a deadline of day 0."""
    visits = (at(1, 10, OFF), at(2, 10, ROUND_1), at(5, 10, ROUND_2), at(5, 12, STRIPS))

    assert cents == read(*visits, outfit=with_deadline(job, 0, hard=False)).late_cents


# Strips and the ban on feeding


def test_strips_go_in_at_the_last_take_off_itself() -> None:
    """In the very visit, and with a lot of six that makes the yard complete."""
    assert 1 == read(at(1, 10, OFF._replace(strips=True))).strips_day
    last = off(6, 4)._replace(strips=True)
    assert 2 == read(at(1, 8, off(4)), at(2, 8, last)).strips_day


@pytest.mark.parametrize(
    ("feed_day", "strips_day", "holds"),
    # A round poured at 8:00 is down 3,240 min later, on the second day after at 14:00.
    [
        (2, 5, True),
        (2, 4, False),
        (2, 3, False),
        (3, 3, False),
        (4, 2, False),
        (2, 2, False),
    ],
)
def test_a_ban_of_three_days(feed_day: int, strips_day: int, *, holds: bool) -> None:
    """Syrup is taken down before the strips go in."""
    visits = (at(1, 8, OFF), at(feed_day, 8, ROUND_1), at(strips_day, 12, STRIPS))
    if holds:
        assert strips_day == read(*visits, outfit=with_ban(3)).strips_day
    else:
        with pytest.raises(ChainBrokenError, match=r"ban|forbid"):
            read(*visits, outfit=with_ban(3))


@pytest.mark.parametrize(("feed_day", "holds"), [(9, False), (10, True)])
def test_no_feed_beside_a_second_application(feed_day: int, *, holds: bool) -> None:
    """In on day 6, the second by day 8, where each forbids feed for two days."""
    kind = replace(with_ban(2).strips, twice=True, out_after_days=1, out_before_days=2)
    visits = (at(1, 8, OFF), at(6, 12, STRIPS), at(feed_day, 8, ROUND_1))
    twice, stocked = replace(OUTFIT, strips=kind), replace(YARD, stores_g=3_000)

    if holds:
        assert 6 == read(*visits, outfit=twice, yard=stocked).strips_day
    else:
        with pytest.raises(ChainBrokenError, match="forbid"):
            read(*visits, outfit=twice, yard=stocked)


@pytest.mark.parametrize(
    ("feed_day", "strips_day", "holds"), [(9, 6, True), (8, 6, False), (8, 5, False)]
)
def test_strips_between_a_block_and_syrup(feed_day: int, strips_day: int, *, holds: bool) -> None:
    """Syrup comes from the third day after them, where stores of 3 kg last so long.

    The block of day 1 is eaten on day 5 at 12:48.
    """
    visits = (at(1, 8, OFF), at(strips_day, 12, STRIPS), at(feed_day, 8, ROUND_1))
    stocked = replace(YARD, stores_g=3_000)
    if holds:
        assert strips_day == read(*visits, outfit=with_ban(3), yard=stocked).strips_day
    else:
        with pytest.raises(ChainBrokenError, match=r"ban|forbid"):
            read(*visits, outfit=with_ban(3), yard=stocked)


@pytest.mark.parametrize(("minutes", "holds"), [(0, True), (-1, False)])
def test_blocks_are_eaten_when_strips_go_in_that_forbid_feed(minutes: int, *, holds: bool) -> None:
    """One block is eaten on day 5, 12:48, the further one of day 4 after it: on day 9, 17:36.

    Stores of 2 kg let cover last until day 13, 17:36.  Where syrup has come, what is left of
    blocks is no matter: it is down on day 7, 14:00.
    """
    stocked = replace(YARD, stores_g=2_000)
    blocked = (at(1, 8, OFF), at(4, 8, Stop(0, blocks=10)))
    then = (at(9, 17.6 + minutes / 60, STRIPS), at(10, 18, ROUND_1))

    assert 9 == read(*blocked, *then, yard=stocked).strips_day
    if holds:
        assert 9 == read(*blocked, *then, outfit=with_ban(1), yard=stocked).strips_day
    else:
        with pytest.raises(ChainBrokenError, match="the last block is eaten"):
            read(*blocked, *then, outfit=with_ban(1), yard=stocked)
    fed = (*blocked, at(5, 8, ROUND_1), at(7, 14, STRIPS))
    assert 7 == read(*fed, outfit=with_ban(1)).strips_day


@pytest.mark.parametrize(("minutes", "holds"), [(0, True), (-1, False)])
def test_feeders_are_empty_when_strips_go_in_that_forbid_feed(minutes: int, *, holds: bool) -> None:
    """Both rounds at 8:00 of days 2 and 5: down on day 7, 14:00; without a ban nobody asks."""
    visits = (at(1, 8, OFF), at(2, 8, ROUND_1), at(5, 8, ROUND_2), at(7, 14 + minutes / 60, STRIPS))

    assert 7 == read(*visits).strips_day
    if holds:
        assert 7 == read(*visits, outfit=with_ban(3)).strips_day
    else:
        with pytest.raises(ChainBrokenError, match="taken down"):
            read(*visits, outfit=with_ban(3))


def test_a_ban_holds_inside_a_visit() -> None:
    """Neither syrup nor the blocks of a take-off go in along with such strips."""
    with pytest.raises(ChainBrokenError, match="ban"):
        read(at(1, 8, OFF._replace(strips=True)), outfit=with_ban(1))
    with pytest.raises(ChainBrokenError, match="ban"):
        read(at(1, 8, OFF), at(2, 8, ROUND_1._replace(strips=True)), outfit=with_ban(1))


def test_without_a_ban_feed_and_strips_share_a_visit() -> None:
    """Strips that do not mind syrup go in at any feed."""
    assert 2 == read(at(1, 8, OFF), at(2, 8, ROUND_1._replace(strips=True))).strips_day


def test_a_held_yard_is_treated_and_fed_with_no_honey_on() -> None:
    """By agreement, without any take-off; the cover rule is off."""
    chain = read(at(1, 8, ROUND_1._replace(strips=True)), at(4, 8, ROUND_2), yard=HELD)

    assert ([0, 10, 10], 1, 0) == (chain.fed, chain.strips_day, chain.uncovered)


def test_a_held_yard_without_agreement_gets_nothing() -> None:
    """Neither strips nor syrup."""
    yard = replace(HELD, feed_agreed=False)
    with pytest.raises(ChainBrokenError, match="strips where none are due"):
        read(at(1, 8, STRIPS), yard=yard)
    with pytest.raises(ChainBrokenError, match="not due"):
        read(at(1, 8, ROUND_1), yard=yard)


def test_strips_counted_in_two_driven_stops_are_late_once() -> None:
    """They hung from the first on; the bill had them late twice."""
    by_0 = replace(OUTFIT, season=replace(OUTFIT.season, strips_by=Deadline(0, hard=False)))
    driven = [at(1, 10, OFF, fact=True), at(2, 10, STRIPS, fact=True), at(3, 10, STRIPS, fact=True)]

    late = by_0.prices.late_cents
    assert 10 * 2 * late == read(*driven, outfit=by_0).late_cents
    assert late
