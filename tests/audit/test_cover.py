"""Cover worked out by hand, lot by lot."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.audit.book import Book, open_book
from runplanner.audit.cover import gaps
from runplanner.audit.undone import tally_of
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from tests.audit.plans import left_undone, plain, two_rounds
from tests.audit.planted import edited
from tests.audit.writing import BLOCK_10

OFF = "shifts.2.trips.0.calls"
BLOCK = "shifts.3.trips.0.calls.1.actions"


def spans(book: Book, yard: str = "yard1") -> list[tuple[int, int, int]]:
    """Colonies, start and end of each gap."""
    return [(gap.colonies, gap.from_min, gap.to_min) for gap in gaps(book, yard)]


def use(plan: Plan, grams: int) -> Plan:
    """The plan in an outfit whose colonies eat so much a day."""
    return edited(plan, {"outfit.feed.day_use_g": grams})


def test_known_stores_stretch_the_cover() -> None:
    """Off at 480: 2,100 g of fondant and 900 g of stores last a day at 3,000 g a day.

    Cover ends at 480 + 1,440 = 1,920; syrup came at 1,949.
    """
    plan = use(edited(plain(), {"outfit.yards.0.stores_g": 900}), 3_000)

    assert [(10, 1_920, 1_949)] == spans(open_book(plan))


def test_late_syrup_counts_each_started_day() -> None:
    """Cover of 300 min and syrup after 1,469: 1,169 min without are a day for ten colonies.

    2,100 x 1,440 / 10,080 = 300.  Yard 2, off at 534, fed at 1,978: a day for ten as well.
    """
    book = open_book(use(plain(), 10_080))

    assert [(10, 780, 1_949)] == spans(book)
    assert 20 == tally_of(book).uncovered


def test_never_fed_is_uncovered_to_the_end() -> None:
    """Two blocks at 2,100 g a day last two days from 4,825; 8,640 - 7,705 = 935 min: a day.

    The second block comes at 6,265, just as the first is gone (4,825 + 1,440).
    """
    book = open_book(use(left_undone(), 2_100))

    assert [(10, 6_265, 6_265), (10, 7_705, 8_640)] == spans(book)
    assert 10 == tally_of(book).uncovered


def test_further_block_lasts_from_when_it_came_too_late() -> None:
    """At 3,024 g a day a block lasts 1,000 min: 4,825 to 5,825, then 6,265 to 7,265."""
    book = open_book(use(left_undone(), 3_024))

    assert [(10, 5_825, 6_265), (10, 7_265, 8_640)] == spans(book)


def test_further_blocks_go_to_those_whose_cover_ends_first() -> None:
    """Four further blocks for ten colonies: six are left with one block."""
    plan = edited(left_undone(), {BLOCK: (Action(Job.BLOCK, 4, pieces=4),)})

    # 2,100 x 1,440 / 1,600 = 1,890 min: to 6,715; two blocks 3,780: to 8,605 of 8,640.
    assert [(4, 8_605, 8_640), (6, 6_715, 8_640)] == spans(open_book(use(plan, 1_600)))


@pytest.mark.parametrize(
    ("given", "spans_at_end"),
    [(20, [(10, 8_605, 8_640)]), (19, [(10, 6_715, 8_640)]), (10, [(10, 6_715, 8_640)])],
)
def test_more_blocks_than_one_a_colony_last_longer(
    given: int, spans_at_end: list[tuple[int, int, int]]
) -> None:
    """At 1,600 g a day two blocks last 3,780 min from 4,825, one 1,890; odd ones are not counted.

    Two each may as well come at a driven stop for blocks alone, beside none at the take-off.
    """
    here = edited(left_undone(), {BLOCK: (), f"{OFF}.1.actions.1.pieces": given})
    plan = use(here, 1_600)
    assert spans_at_end == spans(open_book(plan))

    later = {
        f"{OFF}.1.actions": lambda jobs: jobs[:1],
        "shifts.3.trips.0.driven": True,
        f"{BLOCK}.0.pieces": given,
    }
    book = open_book(use(edited(left_undone(), later), 1_600))
    # none from 4,825 on; 6,265 + 3,780 is beyond the end, 6,265 + 1,890 is 8,155
    short = [(10, 8_155, 8_640)] if given < 20 else []
    assert [(10, 4_825, 6_265), *short] == spans(book)


def test_partly_fed_lots_keep_the_rest_waiting() -> None:
    """Seven of ten are fed at 1,949 and three never: only the three are uncovered at the end."""
    plan = edited(plain(), {"shifts.1.trips.0.calls.1.actions.0.colonies": 7})

    # 2,100 x 1,440 / 500 = 6,048 min from 480.
    assert [(3, 6_528, 8_640)] == spans(open_book(plan))


def test_no_block_is_spared_only_for_those_fed_the_same_day() -> None:
    """With a second trip allowed, seven of ten fed the same day: the other three starve."""
    plan = edited(two_rounds(), {"shifts.0.trips.1.calls.1.actions.0.colonies": 7})
    book = open_book(plan)

    assert [(3, 480, 8_640)] == spans(book)


def test_blocks_are_with_those_who_are_fed_last() -> None:
    """Three blocks for ten, seven fed the same day, the blocked three never: to 6,528."""
    plan = edited(
        two_rounds(),
        {
            "shifts.0.trips.1.calls.1.actions.0.colonies": 7,
            "shifts.0.trips.0.calls.1.actions": lambda jobs: (
                *jobs,
                Action(Job.BLOCK, 3, pieces=3),
            ),
        },
    )

    assert [(3, 6_528, 8_640)] == spans(open_book(plan))
    assert "blocks at take-off" not in {finding.rule for finding in audit(plan)}


def test_lots_are_fed_in_the_order_they_came_off() -> None:
    """Of seven without and three with a block four are fed the same day, three on day 3.

    Those three are the rest of the seven, long without cover by 4,826; the last three have
    their block and no syrup.
    """
    plan = edited(
        two_rounds(),
        {
            "shifts.0.trips.1.calls.1.actions.0.colonies": 4,
            "shifts.1.trips.0.calls.1.actions.0": Action(Job.FEED, 3, round=1, ml=13_500),
            "shifts.0.trips.0.calls.1.actions": lambda jobs: (
                *jobs,
                Action(Job.BLOCK, 3, pieces=3),
            ),
        },
    )

    assert [(3, 480, 4_826), (3, 6_528, 8_640)] == spans(open_book(plan))


def test_feed_reaches_into_the_next_lot() -> None:
    """Eight fed of seven without and three with a block: two of the three wait on."""
    plan = edited(
        two_rounds(),
        {
            "shifts.0.trips.1.calls.1.actions.0.colonies": 8,
            "shifts.0.trips.0.calls.1.actions": lambda jobs: (
                *jobs,
                Action(Job.BLOCK, 3, pieces=3),
            ),
        },
    )

    assert [(2, 6_528, 8_640)] == spans(open_book(plan))


def test_no_need_no_cover() -> None:
    """A yard whose stores reach the target is never uncovered."""
    plan = use(edited(plain(), {"outfit.yards.0.stores_g": 8_000}), 10**9)

    assert [] == spans(open_book(plan))


def test_driven_take_offs_are_facts() -> None:
    """A gap after a take-off already driven is counted, but no longer a finding.

    2,100 x 1,440 / 2,060 = 1,467 min from 480: two minutes short of the syrup at 1,949.
    """
    plan = use(plain(), 2_060)
    driven = edited(plan, {"shifts.0.trips.0.driven": True})

    assert "cover" in {finding.rule for finding in audit(plan)}
    assert "cover" not in {finding.rule for finding in audit(driven)}
    assert 10 == tally_of(open_book(driven)).uncovered


def test_who_was_fed_at_a_standstill_comes_off_fed() -> None:
    """Six fed before ten come off: four wait, from 480 to the syrup at 1,949, for 300 min."""
    plan = use(plain(), 10_080)
    first = plan.shifts[0].trips[0].calls
    fed = replace(first[1], actions=(Action(Job.FEED, 6, round=1, ml=51_000),), start_min=470)
    early = edited(plan, {"shifts.0.trips.0.calls": (first[0], fed, *first[1:])})

    assert [(4, 780, 1_949)] == spans(open_book(early))


def test_fondant_without_a_take_off_feeds_nobody() -> None:
    """Blocks on a yard that was not taken off leave the waiting list as it is."""
    plan = replace(
        edited(left_undone(), {"shifts.2.trips.0.calls.1.actions": (BLOCK_10,)}), undone=()
    )

    assert [] == spans(open_book(plan))
