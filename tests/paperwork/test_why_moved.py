"""Why a promised visit could not stay: told from the facts before and after."""

from dataclasses import replace

import pytest

from runplanner.daybook.differences import differences
from runplanner.days import DAY_MIN, Span
from runplanner.outfit.shut import Shut, Work
from runplanner.outfit.yards import Health
from runplanner.paperwork.tongue import speaking
from runplanner.paperwork.why_moved import (
    ANEW,
    CHEAPER,
    EITHER,
    LESS_LEFT,
    TO_FIT,
    unforced,
    why_moved,
)
from tests.audit.planted import edited
from tests.running import running_plan


@pytest.mark.parametrize(
    ("edits", "words"),
    [
        ({"yards.1.open_spans": ()}, "hours for opening hives are shut"),
        ({"yards.1.feed_spans": ()}, "hours for syrup are shut"),
        (
            {
                "yards.1.open_spans": (),
                "yards.1.shut": (
                    Shut(Work.OPEN, 3 * DAY_MIN, 4 * DAY_MIN, note="gale"),
                    Shut(Work.OPEN, 5 * DAY_MIN, 6 * DAY_MIN, note="later"),
                    Shut(Work.FEED, 3 * DAY_MIN, 4 * DAY_MIN, note="cold"),
                ),
            },
            "hours for opening hives are shut: gale",
        ),
        ({"yards.1.unsettled_spans": (Span(0, 9 * DAY_MIN),)}, "the night after is not settled"),
        ({"yards.1.strips_shut_days": (3,)}, "the day is not fit for strips"),
        ({"yards.1.health": Health.WATCH}, "the yard is under watch"),
        ({"yards.1.colonies": 8}, "the yard has 8 colonies, not 10"),
        ({"yards.1.boxes": 20}, "the yard's boxes are counted anew"),
        ({"yards.1.sites": ((0, 1),)}, "the yard has moved"),
        ({"trucks.1.out_days": (3,)}, "Red is out"),
        (
            {"trucks.1.out_days": (3,), "yards.2.carried_by": ((3, "truck2"),)},
            "Red carries the hives of Old Mill to the new place",
        ),
        ({"trucks.1.out_days": (3,), "yards.2.carried_by": ((4, "truck2"),)}, "Red is out"),
        ({"people.0.off_days": (3,)}, "Ann is away"),
        ({"honey_house.full": (Span(0, 9 * DAY_MIN),)}, "the honey house does not take it"),
        ({"trucks.1.out_days": (4,)}, TO_FIT),
        ({"people.1.off_days": (3,)}, TO_FIT),
        ({"yards.2.open_spans": ()}, TO_FIT),
    ],
)
def test_why_a_visit_moved(edits: dict[str, object], words: str) -> None:
    """What has come to stand against Creek Mouth's visit on day 3 is named; else it made room."""
    plan = running_plan()
    gone = differences(plan, replace(plan, shifts=()))
    was = next(one.was for one in gone.moved if one.spot.yard == "creek-mouth")
    after = edited(plan, {f"outfit.{path}": value for path, value in edits.items()}).outfit

    assert was is not None
    assert words == why_moved(plan.outfit, after, was, TO_FIT)


def test_why_is_said_in_german() -> None:
    """The yard turned suspect and lost a colony: both are told in the language spoken."""
    plan = running_plan()
    gone = differences(plan, replace(plan, shifts=()))
    was = next(one.was for one in gone.moved if one.spot.yard == "creek-mouth")
    edits = {"outfit.yards.1.health": Health.SUSPECT, "outfit.yards.1.colonies": 9}
    after = edited(plan, edits).outfit

    assert was is not None
    with speaking("de"):
        assert why_moved(plan.outfit, after, was, TO_FIT).startswith(
            "der Stand ist unter Verdacht; "
        )


@pytest.mark.parametrize(
    ("unfed_g", "cents", "news", "words"),
    [
        (-1, 0, False, LESS_LEFT),
        (-1, -1, True, EITHER),
        (0, -1, False, CHEAPER),
        (0, -1, True, TO_FIT),
        (1, -1, True, TO_FIT),
        (0, 0, False, ANEW),
        (0, 1, False, ANEW),
        (0, 0, True, TO_FIT),
    ],
)
def test_what_else_a_visit_moves_for(unfed_g: int, cents: int, words: str, *, news: bool) -> None:
    """Less left undone, or less cost; with news told, what has to be fitted in; else nothing."""
    plan = running_plan()
    before = replace(plan, tally=replace(plan.tally, unfed_g=1_000))
    tally = replace(before.tally, unfed_g=1_000 + unfed_g)
    after = replace(before, tally=tally, bill=replace(plan.bill, km=plan.bill.km + cents))

    assert words == unforced(before, after, news=news)
