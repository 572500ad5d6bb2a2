"""When cover ends, worked by hand."""

from dataclasses import replace

from runplanner.daybook.trip import Action, Job
from runplanner.days import DAY_MIN
from runplanner.outfit.yards import Yard
from runplanner.paperwork.map.cover import cover_of, soonest
from runplanner.paperwork.stop.cover import Cover
from tests.paperwork.map_plans import Drive, a_plan, plan_of

# The test outfit: a block is 2100 g, a colony eats 500 g a day: one block lasts
# 2100 x 1440 / 500 = 6048 minutes, 4.2 days.
BLOCK_MIN = 6_048
# The first stop of a day's first trip: 06:00 + 40 min loading + 20 min driving = 07:00.
FIRST_STOP = 7 * 60


def _off(colonies: int) -> Action:
    return Action(Job.TAKE_OFF, colonies, boxes=colonies)


def _blocks(colonies: int, each: int = 1) -> Action:
    return Action(Job.BLOCK, colonies, pieces=colonies * each)


def _feed(colonies: int, number: int = 1) -> Action:
    return Action(Job.FEED, colonies, round=number, ml=colonies * 5_000)


def _cover(*stops: tuple[int, tuple[Action, ...]], **changes: int) -> Cover | None:
    """Cover of the first yard when it is worked on the given days."""
    outfit = a_plan().outfit
    yard: Yard = replace(outfit.yards[0], **changes)  # type: ignore[arg-type]
    outfit = replace(outfit, yards=(yard, *outfit.yards[1:]))
    drives: list[Drive] = [(day, 0, ((0, actions),)) for day, actions in stops]
    return cover_of(plan_of(outfit, drives, ()), yard)


def told(cover: Cover | None) -> tuple[int, int | None, int] | None:
    """When cover ends, when syrup comes, and for how many."""
    return None if cover is None else (cover.ends_min, cover.fed_min, cover.colonies)


def test_a_block_covers_from_the_start_of_the_take_off_stop() -> None:
    """Cover ends one block's time after the stop began; syrup on day 2 comes before that."""
    expected = (FIRST_STOP + BLOCK_MIN, 2 * DAY_MIN + FIRST_STOP, 10)
    found = _cover((0, (_off(10), _blocks(10))), (2, (_feed(10),)))

    assert expected == told(found)
    assert found is not None
    assert not found.runs_short()


def test_syrup_after_the_block_is_eaten_is_too_late() -> None:
    """Syrup on day 5 comes after 4.2 days of cover."""
    found = _cover((0, (_off(10), _blocks(10))), (5, (_feed(10),)))

    assert found is not None
    assert found.runs_short()


def test_syrup_at_the_minute_cover_ends_is_too_late() -> None:
    """The feed stop has to start before cover ends, not as it does."""
    assert Cover("yard1", 1, 0, 0, 100, 100).runs_short()
    assert not Cover("yard1", 1, 0, 0, 100, 99).runs_short()


def test_syrup_in_the_same_stop_needs_no_cover() -> None:
    """A yard fed as it is taken off lives on no stop-gap."""
    assert _cover((0, (_off(10), _feed(10)))) is None


def test_a_yard_with_stores_enough_needs_no_cover() -> None:
    """Stores at the target: no syrup is due, so nothing runs out."""
    assert _cover((0, (_off(10),)), stores_g=8_000) is None


def test_stores_count_beside_the_blocks() -> None:
    """One kilogram of stores is two more days."""
    found = _cover((0, (_off(10), _blocks(10))), stores_g=1_000)

    assert (FIRST_STOP + BLOCK_MIN + 2 * DAY_MIN, None, 10) == told(found)


def test_first_off_is_first_fed() -> None:
    """Of a split yard the syrup goes to the colonies off first; the later ones wait on."""
    # Six off on day 0, four on day 1; six fed on day 2, none after: the four are uncovered.
    found = _cover((0, (_off(6), _blocks(6))), (1, (_off(4), _blocks(4))), (2, (_feed(6),)))

    # The six: cover to day 0 + 4.2 days, fed on day 2.  They end first and so are reported.
    assert (FIRST_STOP + BLOCK_MIN, 2 * DAY_MIN + FIRST_STOP, 6) == told(found)


def test_blocks_go_to_those_who_get_no_syrup_at_the_stop() -> None:
    """Ten off, the first six fed at once: the blocks are for the other four."""
    found = _cover((0, (_off(10), _blocks(4), _feed(6))))

    assert (FIRST_STOP + BLOCK_MIN, None, 4) == told(found)


def test_a_second_block_adds_its_time() -> None:
    """A visit with blocks alone extends the cover of those who wait."""
    found = _cover((0, (_off(10), _blocks(10))), (3, (_blocks(10),)))

    assert (FIRST_STOP + 2 * BLOCK_MIN, None, 10) == told(found)


def test_no_block_at_all_is_no_cover() -> None:
    """Without stores or a block, cover ends as it begins."""
    assert (FIRST_STOP, None, 10) == told(_cover((0, (_off(10),))))


def test_later_rounds_do_not_count_as_the_first() -> None:
    """Only round 1 ends the wait."""
    found = _cover((0, (_off(10), _blocks(10))), (2, (_feed(10, number=2),)))

    assert found is not None
    assert found.fed_min is None


def test_fed_before_now_is_past() -> None:
    """A yard whose syrup has come is off the list."""
    plan = replace(a_plan(), now_min=2 * DAY_MIN)

    assert "yard1" in [cover.yard for cover in soonest(a_plan())]
    assert "yard1" not in [cover.yard for cover in soonest(plan)]


def test_the_list_goes_by_time() -> None:
    """The yard that runs out first stands first."""
    ends = [cover.ends_min for cover in soonest(a_plan())]

    assert len(ends) > 2
    assert sorted(ends) == ends
