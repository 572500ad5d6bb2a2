"""Feeders in a yard's chain: collected, all of them, once the last round is down."""

from dataclasses import replace

import pytest

from runplanner.outfit.yards import Health
from runplanner.visits.chain import Chain, ChainBrokenError
from runplanner.visits.stop import Stop, Visit, merged
from tests.visits.calls import OFF, OUTFIT, ROUND_1, ROUND_2, STRIPS, YARD, at, read

FEW = replace(OUTFIT, kit=replace(OUTFIT.kit, feeders_owned=20))
AWAY = Stop(0, feeders_off=10)
FED = (at(0, 10, OFF), at(1, 10, ROUND_1), at(4, 10, ROUND_2))
"""Both rounds of ten; the second is down 2.25 days later, on day 6 at 16:00."""


def few(*visits: Visit) -> Chain:
    """Read the chain where feeders circulate."""
    return read(*visits, outfit=FEW)


def test_all_feeders_go_when_the_last_round_is_down() -> None:
    """At that very minute; ten stood there before."""
    assert 10 == few(*FED).feeders
    assert 0 == few(*FED, at(6, 16, AWAY)).feeders


def test_a_yard_fed_in_parts_waits_for_its_last_lot() -> None:
    """Four colonies get their second round a day later: down on day 7 at 16:00."""
    part, rest = ROUND_2._replace(fed=6), ROUND_2._replace(fed=4)
    visits = (at(0, 10, OFF), at(1, 10, ROUND_1), at(4, 10, part), at(5, 10, rest))

    assert 0 == few(*visits, at(7, 16, AWAY)).feeders
    with pytest.raises(ChainBrokenError, match="taken down"):
        few(*visits, at(7, 15.9, AWAY))


@pytest.mark.parametrize("given", [0, 6])
def test_a_round_after_the_fetching_brings_feeders(given: int) -> None:
    """Of the second round so many were fed before all feeders were fetched: the rest get theirs."""
    some = [at(4, 10, ROUND_2._replace(fed=given), fact=True)] if given else []
    past = [at(0, 10, OFF, fact=True), at(1, 10, ROUND_1, fact=True), *some]
    past.append(at(6, 16, AWAY, fact=True))
    rest = ROUND_2._replace(fed=10 - given, feeders=10 - given)

    assert 10 - given == few(*past, at(7, 10, rest)).feeders
    with pytest.raises(ChainBrokenError, match="not the feeders of these"):
        few(*past, at(7, 10, rest._replace(feeders=0)))


@pytest.mark.parametrize(
    ("visits", "reason"),
    [
        ((*FED, at(6, 15.9, AWAY)), "taken down"),
        ((at(0, 10, OFF), at(1, 10, ROUND_1), at(6, 16, AWAY)), "before the yard is fed"),
        ((*FED, at(6, 16, AWAY._replace(feeders_off=9))), "not the feeders"),
        ((*FED, at(6, 16, AWAY), at(7, 16, AWAY)), "not the feeders"),
    ],
)
def test_what_breaks_the_chain(visits: tuple[Visit, ...], reason: str) -> None:
    """Each rule by itself."""
    with pytest.raises(ChainBrokenError, match=reason):
        few(*visits)


def test_none_are_fetched_where_each_hive_has_its_own_or_nothing_may_leave() -> None:
    """One stands in every hive; or the yard is at a standstill, feeding agreed."""
    with pytest.raises(ChainBrokenError, match="before the yard is fed"):
        read(*FED, at(6, 16, AWAY))
    held = replace(YARD, health=Health.STANDSTILL, boxes=0, feed_agreed=True)
    with pytest.raises(ChainBrokenError, match="before the yard is fed"):
        read(at(1, 10, ROUND_1), at(4, 10, ROUND_2), at(6, 16, AWAY), yard=held, outfit=FEW)


def test_what_goes_into_one_visit() -> None:
    """Strips or further work go along; a feed of that yard does not."""
    assert STRIPS._replace(feeders_off=10) == merged(AWAY, STRIPS, 10)
    clashes = ((AWAY, ROUND_2), (ROUND_2, AWAY), (AWAY, AWAY))
    assert [None] * 3 == [merged(one, other, 10) for one, other in clashes]
