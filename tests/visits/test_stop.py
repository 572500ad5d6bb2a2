"""Two stops at one yard made into one."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from runplanner.visits.stop import Stop, merged

OFF = Stop(0, off=10, boxes=15, brood=2, blocks=10)
FEED = Stop(0, round=1, fed=10)


def test_take_off_and_strips_go_together() -> None:
    """The boxes, blocks and strips of both."""
    both = Stop(0, off=10, boxes=15, brood=2, blocks=10, strips=True)

    assert both == merged(OFF, Stop(0, strips=True), 10)
    assert both == merged(Stop(0, strips=True), OFF, 10)


def test_syrup_in_the_same_visit_spares_the_blocks() -> None:
    """All ten colonies fed at once need no fondant."""
    assert Stop(0, off=10, boxes=15, brood=2, round=1, fed=10) == merged(OFF, FEED, 10)


def test_part_of_a_yard_is_not_fed_at_its_take_off() -> None:
    """Which colonies would go without a block is not asked: it is not done."""
    assert merged(OFF, FEED._replace(fed=9), 10) is None


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (Stop(0, off=5), Stop(0, off=5)),
        (FEED, Stop(0, round=2, fed=10)),
        (FEED._replace(fed=5), FEED._replace(fed=5)),
        (Stop(0, strips=True), Stop(0, strips=True)),
        (Stop(0, boards=5), Stop(0, boards=5)),
        (Stop(0, boards=5), OFF),
        (Stop(0, blocks=10), FEED),
        (Stop(0, blocks=10), Stop(0, blocks=10)),
    ],
)
def test_work_that_does_not_go_into_one_visit(one: Stop, other: Stop) -> None:
    """The same job twice, boards with a take-off, further blocks with anything."""
    assert merged(one, other, 10) is None
    assert merged(other, one, 10) is None


STOPS = st.builds(
    Stop,
    st.just(0),
    boards=st.sampled_from([0, 0, 10]),
    off=st.sampled_from([0, 10]),
    boxes=st.integers(0, 3),
    blocks=st.sampled_from([0, 10]),
    round=st.sampled_from([0, 1]),
    strips=st.booleans(),
)


@given(one=STOPS, other=STOPS)
def test_merging_is_the_same_both_ways(one: Stop, other: Stop) -> None:
    """Neither stop comes first, and no work is lost but blocks spared."""
    both = merged(one, other, 10)

    assert both == merged(other, one, 10)
    if both is not None:
        assert one.boxes + other.boxes == both.boxes
        assert (one.strips or other.strips) == both.strips
        assert both.blocks in {0, one.blocks + other.blocks}
