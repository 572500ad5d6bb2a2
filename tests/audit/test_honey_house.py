"""The queue at the honey house, worked out box by box."""

from collections.abc import Mapping
from dataclasses import replace

from hypothesis import example, given
from hypothesis import strategies as st

from runplanner.audit.audit import audit
from runplanner.audit.book import open_book
from runplanner.audit.honey_house import late_box_days
from runplanner.audit.whole import ceil_div
from runplanner.daybook.plan import Spinning
from runplanner.days import Span
from runplanner.outfit.yards import Health
from tests.audit.plans import far_away, plain
from tests.audit.planted import edited


def box_starts(stretch: Spinning) -> list[int]:
    """When each box of a stretch goes in: evenly, rounded down."""
    length = stretch.end_min - stretch.start_min
    return [stretch.start_min + k * length // stretch.boxes for k in range(stretch.boxes)]


@example(start=2_160, first=29, length=145, due_1=190, due_2=3_000)
@example(start=2_160, first=15, length=15, due_1=189, due_2=137)
@given(
    st.integers(700, 1_100),
    st.integers(1, 29),
    st.integers(10, 500),
    st.integers(0, 4_000),
    st.integers(0, 4_000),
)
def test_late_days_are_those_of_each_box(
    start: int, first: int, length: int, due_1: int, due_2: int
) -> None:
    """Box by box: off yard 1 at 530 and yard 2 at 584, fifteen each, spun in two stretches."""
    stretches = (
        Spinning(start, start + length, ("bob",), first),
        Spinning(start + 3_000, start + 3_000 + length, ("bob",), 30 - first),
    )
    plan = replace(
        edited(plain(), {"outfit.yards.0.spin_by_min": due_1, "outfit.yards.1.spin_by_min": due_2}),
        spinning=stretches,
    )
    dues = [530 + due_1] * 15 + [584 + due_2] * 15
    starts = [start for stretch in stretches for start in box_starts(stretch)]
    by_box = sum(ceil_div(max(0, at - due), 1_440) for at, due in zip(starts, dues, strict=True))

    assert by_box == late_box_days(open_book(plan))


def test_boxes_that_stood_there_are_spun_first() -> None:
    """Twelve boxes stood in the honey house: the first hour is theirs, then come thirty.

    Box 13 starts at 840, 210 min after a leave at 530; the 27th, yard 1's last, at 910.
    """
    plan = edited(
        plain(),
        {
            "outfit.honey_house.waiting_boxes": 12,
            "outfit.yards.0.spin_by_hard": True,
            "outfit.yards.0.spin_by_min": 380,
            "spinning": (Spinning(780, 990, ("bob",), 42),),
            "bill.spinning": 10_500,
        },
    )

    # 42 boxes in 210 min: five minutes each; box 27 starts at 780 + 26 x 5 = 910.
    assert () == audit(plan)
    worse = edited(plan, {"outfit.yards.0.spin_by_min": 379})
    assert ["spin by"] == [finding.rule for finding in audit(worse)]


def test_boxes_that_stood_there_are_not_spun_before_day_0() -> None:
    """The campaign's spinning starts with day 0."""
    plan = edited(
        plain(),
        {
            "outfit.honey_house.waiting_boxes": 1,
            "spinning": lambda spinning: (Spinning(-400, -395, ("bob",), 1), *spinning),
        },
    )

    assert {"spinning hours", "queue"} <= {finding.rule for finding in audit(plan)}


def test_room_counts_what_a_running_stretch_has_done() -> None:
    """Forty stood there; by 616 a stretch from 500 of 24 boxes in 120 min has done 23.

    116 x 24 / 120 = 23.2.  Then 40 - 23 + 30 = 47 boxes are in the room.
    """
    plan = edited(
        plain(),
        {
            "outfit.honey_house.waiting_boxes": 40,
            "spinning": lambda spinning: (Spinning(500, 620, ("ann",), 24), *spinning),
        },
    )

    full = {"outfit.honey_house.room_boxes": 47}
    assert "room" not in {finding.rule for finding in audit(edited(plan, full))}
    full = {"outfit.honey_house.room_boxes": 46}
    assert "room" in {finding.rule for finding in audit(edited(plan, full))}


def test_held_honey_stands_aside() -> None:
    """Yards 1 and 2 bring 15 boxes each at 616; from 720 to 870 one goes in each 5 min.

    Yard 1 closes at 700: its boxes are in no line, so 15 are spun too many.  Closing at 721 it
    has had all boxes of the stretch begun before.  Opened at 795 its first goes in, as 16th, in
    that very minute; opened at 796 that is too soon.
    """
    closed = {"outfit.yards.0.health": Health.SUSPECT, "now_min": 710}
    out = {"shifts.0.trips.0.driven": True, "now_min": 719}

    assert "all spun" in rules(closed | {"outfit.yards.0.held_min": 700})
    assert "all spun" not in rules(closed | {"outfit.yards.0.held_min": 721})
    assert "all spun" not in rules(out | {"outfit.yards.0.was_held": (Span(700, 795),)})
    assert "queue" not in rules(out | {"outfit.yards.0.was_held": (Span(700, 795),)})
    assert "queue" in rules(out | {"outfit.yards.0.was_held": (Span(700, 796),)})


def test_honey_that_strips_were_beside_stands_aside() -> None:
    """Told at 700 that strips went in at yard 1 by a truck that left before this one, or with it.

    What came off at that very visit may be spun.
    """
    left = next(call.leave_min for call in plain().shifts[0].trips[0].calls if call.yard == "yard1")
    told = {"outfit.yards.0.treated_told_min": 700, "now_min": 710}

    assert "all spun" in rules(told | {"outfit.yards.0.treated_min": left - 1})
    assert "all spun" not in rules(told | {"outfit.yards.0.treated_min": left})


def test_honey_that_was_freed_is_queued_anew() -> None:
    """As closed at 700 and opened again: freed at 795 yard 1's first goes in, as 16th, just then.

    Freed at 796 that is too soon, and so are boxes begun before the word was given.
    """
    left = next(call.leave_min for call in plain().shifts[0].trips[0].calls if call.yard == "yard1")
    told = {
        "shifts.0.trips.0.driven": True, "now_min": 719,
        "outfit.yards.0.treated_min": left - 1, "outfit.yards.0.treated_told_min": 700,
    }  # fmt: skip

    assert "all spun" in rules(told)
    assert not {"all spun", "queue"} & {*rules(told | {"outfit.yards.0.freed_min": 795})}
    assert "queue" in rules(told | {"outfit.yards.0.freed_min": 796})


def test_held_honey_keeps_its_room() -> None:
    """The 30 boxes of both yards fill a room for 30, whether they may be spun or not."""
    closed = {"outfit.yards.0.health": Health.SUSPECT, "outfit.yards.0.held_min": 0}

    assert "room" not in rules(closed | {"outfit.honey_house.room_boxes": 30})
    assert "room" in rules(closed | {"outfit.honey_house.room_boxes": 29})


def rules(edits: Mapping[str, object]) -> set[str]:
    """The rules that the plain plan breaks with some facts otherwise."""
    return {finding.rule for finding in audit(edited(plain(), edits))}


def test_spinning_may_run_past_the_campaign() -> None:
    """The last three boxes may be spun on day 6, after the campaign; each is then dearer.

    Due at 1,080; started at 9,120 to 9,130, 8,040 min and more late: six started days each
    instead of one, so 15 boxes of yard 1 a day late and 3 x 6: 33 x 50 = 1,650.
    """
    plan = edited(
        far_away(),
        {"spinning.1": Spinning(9_120, 9_135, ("bob",), 3), "bill.spin_late": 1_650},
    )

    assert () == audit(plan)
