"""Lags and shares of a yard where one plan's figures do not tell the rule apart."""

from dataclasses import replace

import pytest

from runplanner.audit.audit import audit
from runplanner.daybook.plan import Plan
from runplanner.daybook.trip import Action, Job
from runplanner.outfit.yards import Clearing
from tests.audit.breaches_yards import strips_over_a_further_block
from tests.audit.plans import left_undone, plain, two_rounds
from tests.audit.planted import edited
from tests.audit.writing import BLOCK_10, EMPTY, FEED_10, OFF_10, STRIPS_10, visit

OFF_1 = "shifts.0.trips.0.calls.1.actions"
FEED_1 = "shifts.1.trips.0.calls.1.actions"


def broken(plan: Plan, rule: str) -> list[tuple[str, str]]:
    """Trips and yards where ``rule`` is broken."""
    return [(finding.trip, finding.yard) for finding in audit(plan) if finding.rule == rule]


@pytest.mark.parametrize(("boxes", "good"), [(1, False), (2, True), (3, False)])
def test_share_of_the_first_colony_is_rounded_up(boxes: int, *, good: bool) -> None:
    """One of three colonies with four boxes: ceil(4 / 3) = 2."""
    plan = edited(
        plain(),
        {
            "outfit.yards.0.colonies": 3,
            "outfit.yards.0.boxes": 4,
            OFF_1: (Action(Job.TAKE_OFF, 1, boxes=boxes),),
        },
    )

    assert good is (("off", "yard1") not in broken(plan, "box share"))


def test_the_ban_covers_the_day_of_the_strips_and_ends() -> None:
    """Strips on day 0, ban of three days: feed on day 0 is banned, on day 3 it is not."""
    plan = edited(two_rounds(), {"outfit.strips.no_feed_days": 3})

    assert [("fed", "yard1")] == broken(plan, "feeding ban")


def test_second_round_waits_for_the_first_to_the_minute() -> None:
    """4,500 ml at 2,000 ml a day are 3,240 min: from 614 to 3,854."""
    start = "shifts.1.trips.0.calls.1.start_min"

    assert [] == broken(edited(two_rounds(), {start: 3_854}), "feed spacing")
    assert [("again", "yard1")] == broken(edited(two_rounds(), {start: 3_853}), "feed spacing")


@pytest.mark.parametrize(
    ("rule", "too_soon"),
    [
        ("feed spacing", {"shifts.1.trips.0.calls.1.start_min": 3_853}),
        ("feeding ban", {"outfit.strips.no_feed_days": 4}),
    ],
)
def test_what_is_planned_before_a_stop_on_its_way_heeds_it(
    rule: str, too_soon: dict[str, object]
) -> None:
    """The truck that feeds again has left, that with first feed and strips has not, or has too."""
    left = too_soon | {"shifts.1.trips.0.driven": True}

    assert {("fed", "yard1")} == set(broken(edited(two_rounds(), left), rule))
    assert [] == broken(edited(two_rounds(), left | {"shifts.0.trips.1.driven": True}), rule)


def test_strips_that_forbid_feed_wait_for_one_block_after_the_other() -> None:
    """At 2,000 g a day a block lasts 1,512 min: from 4,825 two last to 7,849."""
    start = "shifts.4.trips.0.calls.1.start_min"
    plan = edited(strips_over_a_further_block(), {"outfit.feed.day_use_g": 2_000})

    assert [] == broken(edited(plan, {start: 7_849}), "feeding ban")
    assert [("rest", "yard1")] == broken(edited(plan, {start: 7_848}), "feeding ban")


def test_yard_that_needs_no_feed_gets_no_block() -> None:
    """Stores at the target: the take-off without a block is right, with one it is not."""
    full = {"outfit.yards.0.stores_g": 8_000}
    without = edited(plain(), full | {OFF_1: (OFF_10,)})
    one = edited(plain(), full | {OFF_1: (OFF_10, Action(Job.BLOCK, 1, pieces=1))})

    assert [] == broken(without, "blocks at take-off")
    assert [("off", "yard1")] == broken(one, "blocks at take-off")


def test_no_blocks_where_none_are_given() -> None:
    """An outfit that gives no fondant at take-off needs no entry for it."""
    plan = edited(plain(), {"outfit.rules.blocks": 0, OFF_1: (OFF_10,)})

    assert ("off", "yard1") not in broken(plan, "blocks at take-off")


@pytest.mark.parametrize(("count", "good"), [(6, True), (7, False)])
def test_further_blocks_only_to_those_not_yet_fed(count: int, *, good: bool) -> None:
    """Ten off, four of them fed on day 3: six wait on day 4."""
    plan = edited(
        left_undone(),
        {
            "shifts.2.trips.0.calls.1.actions": lambda jobs: (
                *jobs,
                Action(Job.FEED, 4, round=1, ml=34_000),
            ),
            "shifts.3.trips.0.calls.1.actions": (Action(Job.BLOCK, count, pieces=count),),
        },
    )

    assert good is (not broken(plan, "further blocks"))


def test_blocks_of_a_day_later_are_further_blocks() -> None:
    """Blocks on day 1 instead of feed: allowed as a visit for blocks alone."""
    plan = edited(plain(), {FEED_1: (BLOCK_10,)})

    assert [] == broken(plan, "further blocks")
    assert [("feed", "yard1")] == broken(
        edited(plain(), {FEED_1: (BLOCK_10, FEED_10)}), "further blocks"
    )


def parted(first: int, drive_min: int = 0, *, blocks: bool = False, feed: bool = True) -> Plan:
    """The plain plan, but ``first`` of yard 1's ten come off in a call of their own.

    Drive or none, another call there takes the rest off and may feed all ten.
    """
    boxes = -(-first * 15 // 10)
    block = (Action(Job.BLOCK, first, pieces=first),) if blocks else ()
    one = visit(1, (475, 500), 1024, EMPTY, Action(Job.TAKE_OFF, first, boxes=boxes), *block)
    rest = Action(Job.TAKE_OFF, 10 - first, boxes=15 - boxes)
    times = (500 + drive_min, 530)
    two = visit(1, times, 1024, EMPTY, rest, *((FEED_10,) if feed else ()))
    return edited(
        plain(),
        {
            "shifts.0.trips.0.calls": lambda calls: (calls[0], one, two, *calls[2:]),
            **({FEED_1: (STRIPS_10,)} if feed else {}),
        },
    )


@pytest.mark.parametrize(("drive_min", "good"), [(0, True), (1, False)])
def test_lots_at_one_stop_are_one_part(drive_min: int, *, good: bool) -> None:
    """Two of ten are fewer than three, but worth it where the truck already stands."""
    off = [("off", "yard1")]

    assert ([] if good else off) == broken(parted(8, drive_min), "smallest lot")
    assert ([] if good else off) == broken(parted(2, drive_min), "smallest lot")


@pytest.mark.parametrize(("drive_min", "blocks"), [(0, False), (1, True)])
def test_syrup_without_a_drive_spares_the_block(drive_min: int, *, blocks: bool) -> None:
    """Six and four come off, then all are fed: the six want a block only after a drive."""
    off = [("off", "yard1")]

    assert [] == broken(parted(6, drive_min, blocks=blocks), "blocks at take-off")
    assert off == broken(parted(6, drive_min, blocks=not blocks), "blocks at take-off")


@pytest.mark.parametrize(("drive_min", "good"), [(0, True), (1, False)])
def test_who_is_fed_without_a_drive_was_never_without_cover(drive_min: int, *, good: bool) -> None:
    """Six came off without stores or block; there is no time between unless the truck left."""
    assert good is (("off", "yard1") not in broken(parted(6, drive_min), "cover"))


@pytest.mark.parametrize(
    ("laid", "first", "driven", "good"),
    [(8, 8, True, True), (9, 8, True, False), (8, 7, True, True), (8, 8, False, False)],
)
def test_what_driven_boards_left_over_is_worth_a_visit(
    laid: int, first: int, *, driven: bool, good: bool
) -> None:
    """Eight of ten boards are on: two come off by themselves, of nine one would have to.

    Three are the smallest lot in any case.
    """
    on = visit(1, (466, 470), 0, EMPTY, Action(Job.BOARDS, laid, pieces=laid))
    shift = plain().shifts[0]
    (trip,) = shift.trips
    out = replace(trip, id="on", driven=driven, calls=(trip.calls[0], on, trip.calls[-1]))
    plan = edited(
        parted(first, 1, feed=False),
        {
            "shifts": lambda shifts: (replace(shift, trips=(out,)), *shifts),
            "outfit.yards.0.clearing": Clearing.BOARDS,
        },
    )

    assert good is (("off", "yard1") not in broken(plan, "smallest lot"))
