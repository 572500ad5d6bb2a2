"""Tests of tags that hold at times only: what shuts counts when in doubt, what opens does not."""

from dataclasses import replace
from datetime import date

import pytest

from runplanner.roads.conditional import settled
from runplanner.roads.tags import road_of, unread
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
        ("no @ (weight>7000)", DAY, True),
        ("no @ (weight > 8000 kg)", DAY, False),
        ("no @ (weight>250)", DAY, True),
        ("no @ (weight>8 bags)", DAY, True),
        ("no @ (height>3 m)", DAY, True),
        ("no @ (height > 350 cm)", DAY, False),
        ("no @ (width>2.3 AND 07:00-08:00)", DAY, True),
        ("no @ (width>2.5 AND 07:00-08:00)", DAY, False),
        ("no @ (height>3)", DAY, True),
        ("no @ (height>3)", BY_NIGHT, True),
        ("no @ (Nov-Apr)", DAY, True),
        ("no @ wet", DAY, True),
        ("no @ (22:00-06:00); no @ (weight>7)", DAY, True),
        ("no @ (weight>7 AND (Mo-Fr 07:00-09:00))", DAY, True),
        ("no @ ((Mo-Fr 07:00-09:00) and weight>7)", DAY, True),
        ("no @ (weight>8 AND (Mo-Fr 07:00-09:00))", DAY, False),
        ("no @ (weight>7 AND (Mo-Fr 21:00-22:00))", DAY, False),
        ("no @ ((weight>8 AND 07:00-09:00) OR wet)", DAY, True),
        ("no @ (wet OR 22:00-06:00)", DAY, True),
        ("no @ (22:00-06:00; 21:00-22:00); yes @ (weight>7)", DAY, False),
        ("no @ (22:00-06:00; 12:00-13:00)", DAY, True),
        ("no @ (07:00-09:00", DAY, True),
        ("no @ (" + "w" * 300 + ")", DAY, True),
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
    ("condition", "shut"),
    [
        ("no @ (2021 May 03-2021 Dec 20)", False),
        ("no @ (2021 May 03-2027 Feb 14)", True),
        ("no @ (2027 Mar 05-2027 Mar 06)", True),
        ("no @ (2027 Mar 06-2027 Mar 07)", False),
        ("no @ (2027 Feb 10-12)", False),
        ("no @ (2027 Feb 10-14)", True),
        ("no @ (2026 Nov-Dec)", False),
        ("no @ (2026 Nov-Mar)", True),
        ("no @ (2026 Nov-2027 Jan)", False),
        ("no @ (Jun 01-Sep 30)", False),
        ("no @ (jun-sep)", False),
        ("no @ (Nov 15-Feb 13)", False),
        ("no @ (Nov 15-Feb 14)", True),
        ("no @ (Mar 05-Sep 30)", True),
        ("no @ (Feb)", True),
        ("no @ (Feb 20)", True),
        ("no @ (Apr 31)", False),
        ("no @ (Jun,Aug)", False),
        ("no @ (Jun, Feb)", True),
        ("no @ (Jun-Sep 07:00-09:00)", False),
        ("no @ (Feb 07:00-09:00)", True),
        ("no @ (Feb 01-Mar 31 22:00-06:00)", False),
        ("no @ (Feb-Mar: Mo-Fr 22:00-06:00)", False),
        ("no @ (Feb-Mar Mo-Fr)", True),
        ("no @ (Jun-Sep; Feb 22:00-06:00)", False),
        ("no @ (Jun-Sep; Feb)", True),
        ("no @ (Feb, Jun 22:00-06:00)", True),
        ("no @ (Jun-Sep, Mo-Fr 07:00-09:00)", True),
        ("no @ (Jun+)", True),
        ("no @ (Jun-Sep OR wet)", True),
        ("no @ (Jun-Sep AND wet)", False),
        ("no @ (June)", True),
        ("no @ (week 20-30)", True),
        ("no @ (2021)", True),
        ("no @ (0700-0900)", True),
    ],
)
def test_a_road_shut_on_dates(condition: str, *, shut: bool) -> None:
    """Those of the campaign, 15 Feb to 5 Mar 2027; what cannot be judged counts as shut.

    Forms as in the OpenStreetMap wiki's Key:opening_hours/specification.  The night after
    the last day counts with it.
    """
    truck = replace(DAY, days=(date(2027, 2, 15), date(2027, 3, 5)))
    tags = {"highway": "tertiary", "hgv:conditional": condition}

    assert shut == (road_of(tags, truck, SPEEDS) is None)


@pytest.mark.parametrize(
    ("dates", "shut"),
    [
        ("Mar Su[-1]-Oct Su[-1]", True), ("Jun 1 to Sep 30", True), ("Nov to Sep", True),
        ("Jun 1 until Sep 30", True), ("Jul 15 2026 - Aug 20 2026", True),
        ("Mar 15 +3 days - Oct 1", True), ("Mar and Jul", True), ("Mar AND weight>7", False),
        ("Jan-Mar 07:00-09:00, Jul-Aug 07:00-09:00", True),
        ("Jan-Mar 22:00-06:00, Jul-Aug 07:00-09:00", True),
        ("Jan-Mar 07:00-09:00, 16:00-18:00", False), ("Jan-Mar Mo-Fr", False),
        ("Jan-Mar Sa,Su,PH 07:00-09:00", False), ("Jan-Mar Mo-Fr 07:00-09:00, Sa", True),
        ("Jan-Mar Mo-Fr, Jul", True), ("Jan-Mar -", True), ("Jan-Mar \u2013 Aug", True),
        ("Jul Mo-Fr", True), ("Mar AND Mo-Fr 07:00-09:00", False),
        ("Mar 1-5 and Jul 1-Aug 5 07:00-09:00", True), ("21:00-22:00 and 07:00-09:00", True),
        ("Sa and Mo-Fr 21:00-22:00", True), ("sunrise-sunset, 21:00-22:00", True),
        ("Mon-Fri 21:00-22:00", False), ("Mo, 21:00-22:00", True),
    ],
)  # fmt: skip
def test_dates_half_understood_open_no_road(dates: str, *, shut: bool) -> None:
    """For a campaign from 20 July to 20 August: a date is judged with all that stands by it."""
    truck = replace(DAY, days=(date(2026, 7, 20), date(2026, 8, 20)))
    tags = {"highway": "tertiary", "hgv:conditional": f"no @ ({dates})"}

    assert shut == (road_of(tags, truck, SPEEDS) is None)


def test_a_season_opens_no_road() -> None:
    """What opens one counts only where it depends on the truck itself."""
    truck = replace(DAY, days=(date(2027, 2, 15), date(2027, 3, 5)))
    tags = {"highway": "tertiary", "hgv": "no", "hgv:conditional": "yes @ (Jan-Apr)"}

    assert road_of(tags, truck, SPEEDS) is None


@pytest.mark.parametrize(
    ("condition", "opens"),
    [
        ("yes @ (07:00-09:00)", False), ("yes @ (weight<5)", False), ("yes @ (weight<8)", True),
        ("delivery @ (06:00-11:00)", False), ("permit @ (Oct-Mar)", False),
        ("delivery @ (weight<=7.5)", True),
    ],
)  # fmt: skip
def test_a_road_opened_at_times(condition: str, *, opens: bool) -> None:
    """A road that is shut is opened by what is sure alone, such as the truck's mass."""
    tags = {"highway": "tertiary", "hgv": "no", "hgv:conditional": condition}

    assert opens == (road_of(tags, DAY, SPEEDS) is not None)


@pytest.mark.parametrize(
    ("tags", "goes"),
    [
        ({"access": "no", "motor_vehicle:conditional": "permit @ (Oct-Mar)"}, False),
        ({"vehicle": "no", "hgv:conditional": "delivery @ (06:00-11:00)"}, False),
        ({"access": "private", "hgv:conditional": "delivery @ (06:00-11:00)"}, True),
        ({"access": "no", "access:conditional": "yes @ (weight<8)",
          "hgv:conditional": "delivery @ (wet)"}, True),
        ({"access": "no", "motor_vehicle": "yes", "hgv:conditional": "delivery @ (wet)"}, True),
        ({"access:conditional": "no @ (wet)", "motor_vehicle": "yes"}, True),
    ],
)  # fmt: skip
def test_a_sign_with_hours_opens_no_road_that_is_shut(tags: dict[str, str], *, goes: bool) -> None:
    """What may hold is set against the tag it would stand in front of, and the stricter counts."""
    assert goes == (road_of({"highway": "tertiary", **tags}, DAY, SPEEDS) is not None)


@pytest.mark.parametrize(
    ("tags", "ways"),
    [
        ({"oneway": "yes", "oneway:conditional": "no @ (07:00-09:00)"}, (True, False)),
        ({"oneway": "yes", "oneway:conditional": "-1 @ (07:00-09:00)"}, None),
        ({"oneway": "-1", "oneway:conditional": "yes @ (07:00-09:00)"}, None),
        ({"oneway": "-1", "oneway:conditional": "reverse @ (wet)"}, (False, True)),
        ({"oneway": "no", "oneway:conditional": "-1 @ (07:00-09:00)"}, (False, True)),
        ({"oneway": "reversible", "oneway:conditional": "yes @ (07:00-09:00)"}, None),
        ({"oneway:conditional": "reversible @ (07:00-09:00)"}, None),
        ({"oneway": "yes", "oneway:conditional": "no @ (weight<8)"}, (True, True)),
    ],
)
def test_ways_at_times(tags: dict[str, str], ways: tuple[bool, bool] | None) -> None:
    """A way is open that is open at all hours; what depends on the truck is sure."""
    road = road_of({"highway": "tertiary", **tags}, DAY, SPEEDS)

    assert ways == (None if road is None else (road.ahead > 0, road.back > 0))


@pytest.mark.parametrize(
    ("condition", "told"),
    [
        ("no", ["hgv:conditional 'no'"]),
        ("@ wet; no @ (wet)", ["hgv:conditional '@ wet'"]),
        ("no @ ()", ["hgv:conditional 'no @ ()'"]),
        ("no @ (22:00-06:00); no @ wet", []),
        ("", []),
    ],
)
def test_conditions_that_cannot_be_read_are_told(condition: str, told: list[str]) -> None:
    """One without a value or a condition does not count, and is named by its key."""
    assert told == unread({"highway": "tertiary", "hgv:conditional": condition}, DAY)
    sided = unread({"highway": "tertiary", "hgv:conditional:forward": condition}, DAY)
    assert told == [one.replace(":forward", "") for one in sided]


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
