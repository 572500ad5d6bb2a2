"""Wet boxes in a yard's chain: up when all is off, down before strips and syrup."""

from dataclasses import replace

import pytest

from runplanner.outfit.yards import Health
from runplanner.visits.chain import Chain, ChainBrokenError
from runplanner.visits.stop import Stop, Visit, merged
from tests.visits.calls import DAYS, OFF, OUTFIT, ROUND_1, STRIPS, YARD, at, off, read

WET = replace(YARD, wet_back=True, stores_g=4_000)
"""4 kg of stores and a block of 2.1 kg at 500 g a day last 12.2 days."""
UP, DOWN = Stop(0, wet_up=15), Stop(0, wet_down=15)


def wet(*visits: Visit) -> Chain:
    """Read the chain of the yard with wet boxes."""
    return read(*visits, yard=WET)


def test_boxes_up_and_down_before_feed_and_strips() -> None:
    """Up on day 1, down with feed and strips on day 5: nothing lacks, nothing is priced."""
    last = ROUND_1._replace(wet_down=15, strips=True)
    chain = wet(at(0, 10, OFF), at(1, 16, UP), at(5, 10, last))

    assert (0, 0, 0, 5) == (
        chain.lacking, chain.wet.missing(), chain.boards_long_cents, chain.strips_day,
    )  # fmt: skip


def test_boxes_that_stand_too_long_are_priced() -> None:
    """From day 1, 16:00 to day 7, 10:00 are 5.75 days: one started, 10 colonies x 100."""
    chain = wet(at(0, 10, OFF), at(1, 16, UP), at(7, 10, DOWN))

    assert 10 * 100 == chain.boards_long_cents


def test_boxes_left_up_lack_ten_colonies() -> None:
    """Boxes that are up want collecting; a yard without has them missing."""
    assert 10 == wet(at(0, 10, OFF), at(1, 16, UP)).lacking
    assert (0, 10) == (wet(at(0, 10, OFF)).lacking, wet(at(0, 10, OFF)).wet.missing())


@pytest.mark.parametrize(
    ("visits", "reason"),
    [
        ((at(0, 10, OFF), at(1, 16, UP), at(4, 17, DOWN)), "up too short"),
        ((at(0, 10, off(6)), at(1, 16, UP)), "before the yard is off"),
        ((at(0, 10, OFF), at(1, 16, UP), at(3, 10, ROUND_1)), "while wet boxes are up"),
        ((at(0, 10, OFF), at(1, 16, UP), at(3, 10, STRIPS)), "while wet boxes are up"),
        ((at(0, 10, OFF), at(1, 10, ROUND_1), at(1, 16, UP)), "after syrup or strips"),
        ((at(0, 10, OFF), at(1, 10, STRIPS), at(1, 16, UP)), "after syrup or strips"),
        ((at(0, 10, OFF), at(1, 16, UP._replace(wet_up=14))), "in parts"),
        ((at(0, 10, OFF), at(1, 16, UP), at(5, 9, DOWN), at(6, 16, UP)), "twice"),
        ((at(0, 10, OFF), at(5, 9, DOWN)), "not put up"),
    ],
)
def test_what_breaks_the_chain(visits: tuple[Visit, ...], reason: str) -> None:
    """Each rule by itself."""
    with pytest.raises(ChainBrokenError, match=reason):
        wet(*visits)


def test_as_many_go_up_as_came_off_before_colonies_died() -> None:
    """Eight of ten were off with 12 boxes; three stayed on the other two, which are dead."""
    died = replace(WET, colonies=8, struck=2)
    driven = at(0, 10, off(8)._replace(boxes=12), fact=True)
    chain = read(driven, at(1, 16, UP._replace(wet_up=12)), yard=died)

    assert 12 == chain.wet.standing
    with pytest.raises(ChainBrokenError, match="in parts"):
        read(driven, at(1, 16, UP), yard=died)


def test_none_go_up_before_the_syrup_of_a_truck_that_is_out() -> None:
    """The syrup is fact and is poured at 18:00; the wet boxes that go up at 16:00 are not."""
    offs, fed = at(0, 10, OFF, fact=True), at(1, 18, ROUND_1, fact=True)

    with pytest.raises(ChainBrokenError, match="while wet boxes are up"):
        wet(offs, at(1, 16, UP), fed)
    assert 10 == wet(offs, at(1, 16, UP, fact=True), fed).fed[1]


def test_no_boxes_go_into_other_yards() -> None:
    """Neither where they are stored wet, nor into a yard that is held."""
    with pytest.raises(ChainBrokenError, match="no wet boxes"):
        read(at(0, 10, OFF), at(1, 16, UP))
    held = replace(WET, health=Health.STANDSTILL)
    with pytest.raises(ChainBrokenError, match="no wet boxes"):
        read(at(0, 10, OFF, fact=True), at(1, 16, UP), yard=held)


def test_what_goes_into_one_visit() -> None:
    """Collecting goes with feed; putting up with nothing, collecting with no take-off."""
    assert ROUND_1._replace(wet_down=15) == merged(DOWN, ROUND_1, 10)
    clashes = ((UP, STRIPS), (DOWN, DOWN), (DOWN, OFF), (OFF, DOWN))
    assert [None] * 4 == [merged(one, other, 10) for one, other in clashes]
    assert (12, 12) == (DAYS, OUTFIT.season.n_days)


def test_boxes_that_stood_too_long_are_paid_though_the_yard_is_held_since() -> None:
    """Fetched two days ago, and suspect today: what they cost is past."""
    driven = [at(0, 10, OFF), at(1, 16, UP), at(7, 10, DOWN)]
    held = replace(WET, health=Health.SUSPECT)
    chain = read(*(visit._replace(fact=True) for visit in driven), yard=held)

    assert 10 * 100 == chain.boards_long_cents
