"""Tests of tags that hold at times only: what shuts counts when in doubt, what opens does not."""

import pytest

from runplanner.roads.conditional import settled
from runplanner.roads.tags import road_of
from runplanner.roads.vehicle import Vehicle
from tests.roads.towns import HEAVY, LIGHT, SPEEDS

DAY = Vehicle(7_500_000, 2_400, 3_300, (6 * 60, 20 * 60))
BY_NIGHT = Vehicle(7_500_000, 2_400, None, (22 * 60, 30 * 60))


@pytest.mark.parametrize(
    ("condition", "vehicle", "shut"),
    [
        ("no @ (22:00-06:00)", DAY, False),
        ("no @ (22:00-06:01)", DAY, True),
        ("no @ (19:59-22:00)", DAY, True),
        ("no @ (20:00-22:00)", DAY, False),
        ("no @ (Mo-Fr 07:00-09:00, 16:00-18:00)", DAY, True),
        ("no @ (Mo-Fr 05:00-05:30, 21:00-22:00)", DAY, False),
        ("no @ (02:00-04:00)", BY_NIGHT, True),
        ("no @ (21:00-22:00)", BY_NIGHT, False),
        ("no @ (weight>7.5)", DAY, False),
        ("no @ (weight>=7.5)", DAY, True),
        ("no @ (weight > 7.4 t)", DAY, True),
        ("no @ (weight<3)", DAY, False),
        ("no @ (weight<=7.5)", DAY, True),
        ("no @ (weight=7.5)", DAY, True),
        ("no @ (width>2.3 AND 07:00-08:00)", DAY, True),
        ("no @ (width>2.5 AND 07:00-08:00)", DAY, False),
        ("no @ (height>3)", DAY, True),
        ("no @ (height>3)", BY_NIGHT, True),
        ("no @ (Nov-Apr)", DAY, True),
        ("no @ wet", DAY, True),
        ("no @ (22:00-06:00); no @ (weight>7)", DAY, True),
        ("yes @ (22:00-06:00)", DAY, False),
        ("no", DAY, False),
        ("@@ ((", DAY, False),
    ],
)
def test_a_road_shut_at_times(condition: str, vehicle: Vehicle, *, shut: bool) -> None:
    """By the clock against the hours of work, by the truck itself, in doubt for shut."""
    tags = {"highway": "tertiary", "hgv:conditional": condition}

    assert shut == (road_of(tags, vehicle, SPEEDS) is None)


@pytest.mark.parametrize(
    ("condition", "opens"),
    [("yes @ (07:00-09:00)", False), ("yes @ (weight<5)", False), ("yes @ (weight<8)", True)],
)
def test_a_road_opened_at_times(condition: str, *, opens: bool) -> None:
    """A road that is shut is opened by what is sure alone, such as the truck's mass."""
    tags = {"highway": "tertiary", "hgv": "no", "hgv:conditional": condition}

    assert opens == (road_of(tags, DAY, SPEEDS) is not None)


def test_limits_at_times_are_limits() -> None:
    """5 t when it thaws stops the heavy truck; the limit that always holds stays one."""
    thaw = {"highway": "tertiary", "maxweight:conditional": "5 @ (thaw)"}

    assert road_of(thaw, HEAVY, SPEEDS) is None
    assert road_of(thaw, LIGHT, SPEEDS) is not None
    both = {**thaw, "maxweight": "3"}
    assert "3;5" == settled(both, HEAVY)["maxweight"]
    assert road_of(both, LIGHT, SPEEDS) is None


def test_a_one_way_at_times_is_one_way() -> None:
    """One way in the morning rush is one way all day."""
    tags = {"highway": "tertiary", "oneway:conditional": "yes @ (07:00-09:00)"}
    road = road_of(tags, DAY, SPEEDS)

    assert road is not None
    assert (True, 0) == (road.ahead > 0, road.back)


def test_tags_without_conditions_are_left_alone() -> None:
    """The same tags, and not a copy."""
    tags = {"highway": "tertiary"}
    assert tags is settled(tags, DAY)


@pytest.mark.parametrize("text", ["(" * 10_000, "no @ (" * 5_000, "a@b;" * 9_000, "\u0665 @ (\n)"])
def test_strange_conditions_do_no_harm(text: str) -> None:
    """Ten thousand signs of nothing: read in no time, and no crash."""
    assert settled({"highway": "tertiary", "hgv:conditional": text}, HEAVY)["highway"]
