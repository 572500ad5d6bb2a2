"""Boards in the chain of a yard: in time, in turn, all home, and paid where they lay long."""

from dataclasses import replace

import pytest

from runplanner.outfit.yards import Health
from runplanner.visits.chain import ChainBrokenError
from runplanner.visits.stop import Stop, Visit
from tests.visits.calls import BOARDED, BOARDS, OFF, at, off, read


def test_take_off_without_boards_is_counted() -> None:
    """So that a plan may be built take-off first: four had boards, six lack them."""
    chain = read(at(0, 10, BOARDS._replace(boards=4)), at(1, 10, OFF), yard=BOARDED)

    assert 6 == chain.lacking


@pytest.mark.parametrize(
    ("on", "taken_off", "reason"),
    [
        # 01:00 to 13:00 the same day would be 11 hours, and no night
        (at(1, 1, BOARDS), at(1, 20, OFF), "no night"),
        # 21:00 on, an hour's work, off at 09:59: 11 h 59 min
        (at(0, 21, BOARDS), at(1, 9 + 59 / 60, OFF), "too short a time"),
        (at(0, 10, BOARDS._replace(boards=11)), at(1, 10, OFF), "more boards than colonies"),
    ],
)
def test_boards_in_time(on: Visit, taken_off: Visit, reason: str) -> None:
    """A night between, twelve hours at least, and no more boards than colonies."""
    with pytest.raises(ChainBrokenError, match=reason):
        read(on, taken_off, yard=BOARDED)


def test_boards_of_twelve_hours_will_do() -> None:
    """On until 22:00, off from 10:00: 12 hours over a night."""
    chain = read(at(0, 21, BOARDS), at(1, 10, OFF), yard=BOARDED)

    assert (0, 0) == (chain.lacking, chain.boards_long_cents)


@pytest.mark.parametrize(
    ("hour", "days_long"),
    [
        # on until day 0, 11:00; best until 48 hours later, day 2, 11:00
        (11, 0),
        (11 + 1 / 60, 1),
    ],
)
def test_long_boards_are_priced(hour: float, days_long: int) -> None:
    """Each started day beyond 48 hours costs 100 cents a colony."""
    chain = read(at(0, 10, BOARDS), at(2, hour, OFF), yard=BOARDED)

    assert 10 * days_long * 100 == chain.boards_long_cents


@pytest.mark.parametrize("wrong", [OFF, OFF._replace(over=1), off(5)._replace(over=2)])
def test_the_last_take_off_lifts_the_boards_of_the_dead(wrong: Stop) -> None:
    """Twelve lay when two died: ten are off, and two more boards come home."""
    on = at(0, 10, BOARDS._replace(boards=12))._replace(fact=True)
    chain = read(on, at(1, 10, OFF._replace(over=2)), yard=BOARDED)

    assert (0, 0) == (chain.lacking, chain.boards.lie())
    with pytest.raises(ChainBrokenError, match="not the boards of colonies that died"):
        read(on, at(1, 10, wrong), yard=BOARDED)


def test_boards_serve_the_first_colonies_first() -> None:
    """Boards on day 0 and day 2; on day 3 four of the early ones and two late ones come off."""
    # early: until day 0, 11:00, off on day 1 and on day 3, 10:00 = 71 h, 23 h beyond the best
    chain = read(
        at(0, 10, BOARDS._replace(boards=8)),
        at(1, 10, off(4)),
        at(2, 10, BOARDS._replace(boards=2)),
        at(3, 10, off(6, 4)),
        yard=BOARDED,
    )

    assert (0, 4 * 1 * 100) == (chain.lacking, chain.boards_long_cents)


@pytest.mark.parametrize("health", [Health.SUSPECT, Health.STANDSTILL])
def test_boards_that_lay_too_long_cost_what_they_cost(health: Health) -> None:
    """A yard held once its boxes are home: boards were on 48 h 1 min too long, three days."""
    held = replace(BOARDED, health=health)
    driven = at(0, 10, BOARDS, fact=True), at(4, 11 + 1 / 60, OFF, fact=True)

    assert 10 * 3 * 100 == read(*driven, yard=held).boards_long_cents
    # On since 10:00 the day before the first: until day 4, 11:01 that is four days too long.
    lying = replace(held, boards_on_min=-840)
    assert 10 * 4 * 100 == read(driven[1], yard=lying).boards_long_cents


def test_boards_that_lay_before_are_paid_where_no_box_was_found() -> None:
    """All colonies off and no box counted: on since the day before the first, to day 4, 11:01."""
    empty = replace(BOARDED, boxes=0, boards_on_min=-840)
    off = at(4, 11 + 1 / 60, OFF._replace(boxes=0), fact=True)

    assert 10 * 4 * 100 == read(off, yard=empty).boards_long_cents
